"""Promises, one by one: those of promises.csv, and those that bulletins made."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from statistics import median
from typing import NamedTuple

from tests.naive.folder import Maker, Row, step
from tests.naive.pledges import Pledge, outcome, pledges

NAMES = ("open", "kept", "late", "kept_share", "slip")


class Promise(NamedTuple):
    """A promise: by when it is due, when it was done, whether it was withdrawn, whether it counts, its other columns."""

    due: date
    done: date | None
    withdrawn: bool
    counts: bool
    columns: Row

    def standing(self, as_of: date) -> tuple[str, int]:
        """Its state, and the days it is late."""
        if self.withdrawn:
            return "withdrawn", 0
        days = ((self.done or as_of) - self.due).days
        return ("late", days) if days > 0 else ("kept" if self.done else "open", 0)


def facts(maker: Maker) -> dict[str, object]:
    """The family, and each promise by itself."""
    made = pledges(maker)
    rows = maker.rows("promises")
    if rows is None and not made:
        return {}
    known = {row["promise"]: of_row(row) for row in rows or []}
    answers = dict(known)
    for pledge in made:
        known[pledge.name] = of_pledge(maker, pledge, (answers, known, made))
    return counted(maker, known)


def counted(maker: Maker, known: dict[str, Promise]) -> dict[str, object]:
    """All promises counted, each once, and told one by one."""
    counts = [(promise, *promise.standing(maker.as_of)) for promise in known.values() if promise.counts]
    due = [(state, days) for _, state, days in counts if state in ("kept", "late")]
    found: dict[str, object] = {
        "promises.open": sum(not promise.done and not promise.withdrawn for promise, _, _ in counts),
        "promises.kept": sum(state == "kept" for _, state, _ in counts),
        "promises.late": sum(state == "late" for _, state, _ in counts),
    }
    if due:
        found["promises.kept_share"] = float(Fraction(sum(state == "kept" for state, _ in due), len(due)))
        found["promises.slip"] = float(median([Fraction(days) for _, days in due]))
    for name, promise in known.items():
        state, days = promise.standing(maker.as_of)
        item = f"promises{step(name, NAMES)}"
        found |= {f"{item}.{column}": text for column, text in promise.columns.items() if text}
        found[f"{item}.state"] = state
        if state in ("kept", "late"):
            found[f"{item}.late_by"] = days
    return found


def of_row(row: Row) -> Promise:
    """A row of promises.csv."""
    due = date.fromisoformat(row["due"])
    withdrawn = bool(row.get("withdrawn")) or (row["state"] == "withdrawn" and not row.get("withdrawn later"))
    done = date.fromisoformat(row["done"]) if row.get("done") else None
    if row["state"] == "kept" and not row.get("done") and not row.get("done later"):
        done = due
    columns = {name: row.get(name, "") for name in ("made", "text", "due", "done", "withdrawn")}
    return Promise(due, None if withdrawn else done, withdrawn, counts=True, columns=columns)


def of_pledge(maker: Maker, pledge: Pledge, around: tuple[dict[str, Promise], dict[str, Promise], list[Pledge]]) -> Promise:
    """A promise of a bulletin: what came, else the row of its name, else the promise it told of; told again, it counts once."""
    answers, known, made = around
    came = outcome(maker, pledge)
    told_of = [key.split(".")[1] for key in pledge.facts if key.startswith("promises.")]
    again = [name for name in told_of if name in known]
    done, withdrawn, counts = None, False, True
    if came is not None:
        done, withdrawn = came
    elif pledge.name in answers or again:
        answer = answers.get(pledge.name) or known[again[0]]
        done, withdrawn = answer.done, answer.withdrawn
    if came is None and again:
        before = [other for other in made[: made.index(pledge)] if any(f"promises.{again[0]}." in key for key in other.facts)]
        counts = pledge.due not in {known[again[0]].due, *(other.due for other in before)}
    columns = {"made": str(pledge.made), "text": pledge.text, "due": str(pledge.due), "done": str(done or "")}
    return Promise(pledge.due, done, withdrawn, counts, columns)
