"""What is on record, as a table for people and as JSON for programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bulletin.model import Issued
from bulletin.report.columns import columns


def record_text(issued: Sequence[Issued]) -> str:
    """The bulletins on record, oldest first."""
    if not issued:
        return "Nothing was issued yet."
    rows = [(str(one.number), one.name, one.as_of.isoformat(), one.published, one.digest[:16], told(one)) for one in issued]
    return columns([("number", "bulletin", "as of", "published", "digest", ""), *rows])


def told(issued: Issued) -> str:
    """What a correction says of itself."""
    return f"corrects {issued.corrects}" if issued.corrects else ""


def record_json(issued: Sequence[Issued]) -> dict[str, Any]:
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
            }
            for one in issued
        ]
    }
