"""What bulletins on record spoke of."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from bulletin.model import Mention, Window
from bulletin.record.ledger import add
from bulletin.record.mentions import read_mentions
from tests.record.builders import entry

MARCH = Window(date(2026, 3, 1), date(2026, 3, 31))


def test_a_claim_is_remembered_with_its_value(tmp_path: Path) -> None:
    """A fact that a draft spoke of comes back with the number, the day, the readers and what it came to."""
    path = tmp_path / "issued.db"
    add(path, entry())

    mentions, problems = read_mentions(path, MARCH)

    assert [] == problems
    assert (Mention(1, date(2026, 3, 27), "all", "fact.1", 41),) == mentions


def test_bulletins_of_other_days_are_left_aside(tmp_path: Path) -> None:
    """Only as-of dates within the days asked for count, the first and the last among them."""
    path = tmp_path / "issued.db"
    for name, day in (("a", 27), ("b", 26), ("c", 28)):
        add(path, replace(entry(name), as_of=date(2026, 3, day)))
    only = Window(date(2026, 3, 27), date(2026, 3, 27))

    assert [1] == [mention.number for mention in read_mentions(path, only)[0]]


def test_nothing_on_record_mentions_nothing(tmp_path: Path) -> None:
    """Without a ledger there is neither a mention nor a problem; a file that is none is told as one."""
    broken = tmp_path / "broken.db"
    broken.write_bytes(b"no database at all" * 100)

    assert ((), []) == read_mentions(tmp_path / "issued.db", MARCH)
    assert ["record-unreadable"] == [problem.rule for problem in read_mentions(broken, MARCH)[1]]
