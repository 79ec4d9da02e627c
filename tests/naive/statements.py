"""What the maker says of itself: policies and signed statements, row by row."""

from __future__ import annotations

from tests.naive.folder import Maker, step


def facts(maker: Maker) -> dict[str, object]:
    """Policies with their states, and statements until they expire."""
    today = maker.as_of.isoformat()
    found: dict[str, object] = {}
    for row in maker.raw("policies") or []:
        item = f"policies{step(row['policy'], ('state', 'in_force'))}"
        found |= {f"{item}.{column}": row[column] for column in ("title", "state", "from") if row.get(column)}
        found[f"{item}.in_force"] = row["state"] == "in_force" and row.get("from", "") <= today
    for row in maker.rows("attested") or []:
        item = f"attested{step(row['statement'])}"
        found |= {f"{item}.{column}": row[column] for column in ("by", "on", "file", "expires") if row.get(column)}
        if not row.get("expires") or row["expires"] >= today:
            found |= {item: row["text"], f"{item}.text": row["text"]}
    return found
