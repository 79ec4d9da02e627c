"""What bulletins on record spoke of: the facts of their claims with the values they told."""

from __future__ import annotations

import sqlite3
from datetime import date
from pathlib import Path

from bulletin.model import Mention, Problem, Window
from bulletin.record.ledger import is_empty, opened, unreadable
from bulletin.values import thaw

WITHIN = """
SELECT DISTINCT bulletin.number, bulletin.as_of, draft.readers, claim.key, claim.value
FROM claim JOIN bulletin USING (number) JOIN draft USING (number, locale)
WHERE bulletin.as_of BETWEEN ? AND ? ORDER BY bulletin.number, draft.readers, claim.key
"""


def read_mentions(ledger: Path, days: Window) -> tuple[tuple[Mention, ...], list[Problem]]:
    """Every fact that bulletins with an as-of date within some days spoke of, by number; none where nothing was issued yet."""
    if not ledger.exists():
        return (), []
    try:
        with opened(ledger) as connection:
            rows = [] if is_empty(connection) else connection.execute(WITHIN, [day.isoformat() for day in days]).fetchall()
        return tuple(Mention(row[0], date.fromisoformat(row[1]), row[2], row[3], thaw(row[4])) for row in rows), []
    except (sqlite3.Error, ValueError, LookupError) as fault:
        return (), [unreadable(ledger, str(fault))]
