"""A process that is killed while it puts bulletins on record leaves each of them whole or not there."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bulletin.record.history import read_record, verify

KILLS = 60
WRITER = """
import itertools, sys
from datetime import date, timedelta
from pathlib import Path
from bulletin.record.ledger import add
from tests.record.builders import entry
ledger = Path(sys.argv[1])
print("ready", flush=True)
for number in itertools.count(int(sys.argv[2])):
    add(ledger, entry(f"week-{number}", date(2026, 1, 2) + timedelta(weeks=number), orders=3000))
"""


@pytest.mark.long
def test_a_kill_leaves_all_or_nothing(tmp_path: Path) -> None:
    """Killed at sixty random moments, the record verifies each time and its numbers have no gap."""
    ledger = tmp_path / "issued.db"
    moments = random.Random(20260327)
    root = Path(__file__).parents[2]
    for _ in range(KILLS):
        begin = len(read_record(ledger)[0])
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(ledger), str(begin)], cwd=root, stdout=subprocess.PIPE, text=True
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(moments.uniform(0, 0.25))
        writer.kill()
        writer.wait()
        writer.stdout.close()

        issued, problems = read_record(ledger)

        assert problems == []
        assert verify(ledger) == []
        assert [one.number for one in issued] == list(range(1, len(issued) + 1))

    assert len(read_record(ledger)[0]) > KILLS
