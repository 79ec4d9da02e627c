"""What is on record, as a table for people and as JSON for programs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from bulletin.model import Issued
from bulletin.record.entry import Pledge
from bulletin.report.columns import columns


def record_text(issued: Sequence[Issued], promised: Mapping[int, Sequence[Pledge]]) -> str:
    """The bulletins on record, oldest first, and below them what each of them promised."""
    if not issued:
        return "Nothing was issued yet."
    rows = [(str(one.number), one.name, one.as_of.isoformat(), one.published, one.digest[:16], told(one)) for one in issued]
    table = columns([("number", "bulletin", "as of", "published", "digest", ""), *rows])
    pledges = [pledge for one in issued for pledge in promised.get(one.number, ())]
    promises = [(pledge.promise, pledge.due.isoformat(), pledge.basis, pledge.text) for pledge in pledges]
    return f"{table}\n\n{columns([('promise', 'due', 'basis', 'words'), *promises])}" if promises else table


def told(issued: Issued) -> str:
    """What a correction says of itself."""
    return f"corrects {issued.corrects}" if issued.corrects else ""


def record_json(issued: Sequence[Issued], promised: Mapping[int, Sequence[Pledge]]) -> dict[str, Any]:
    """`bulletin record --json`."""
    return {
        "bulletins": [
            {
                "number": one.number,
                "name": one.name,
                "as_of": one.as_of.isoformat(),
                "published": one.published,
                "digest": one.digest,
                "corrects": one.corrects,
                "promises": [pledge_json(pledge) for pledge in promised.get(one.number, ())],
            }
            for one in issued
        ]
    }


def pledge_json(pledge: Pledge) -> dict[str, str]:
    """A promise with all that is on record of it."""
    told = {"promise": pledge.promise, "text": pledge.text, "due": pledge.due.isoformat()}
    return {**told, "basis": pledge.basis, "condition": pledge.condition}
