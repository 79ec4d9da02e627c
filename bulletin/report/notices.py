"""What support has to enter after a chat in which a notice of delay was pasted."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from bulletin.model import OrderLine


def to_enter(lines: Sequence[OrderLine], sent: date) -> list[str]:
    """The row of told.csv for a notice that the text of an order holds; nothing where it holds none."""
    due = next((line.notice_due for line in lines if line.notice_due), None)
    if due is None or any(line.hazards for line in lines):
        return []
    row = ",".join((lines[0].order, sent.isoformat(), due.new.isoformat() if due.new else "", due.kind, "", ""))
    return [
        f"It holds a notice of delay under {due.rule}; this is no advice, local law and counsel decide. "
        f"Once it is sent, add this row to told.csv: {row}"
    ]
