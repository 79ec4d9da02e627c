"""The committed demo is what its maker writes, and its letters may go out."""

from __future__ import annotations

import subprocess
import sys
from datetime import date, datetime, time
from pathlib import Path

import pytest

from bulletin.pipeline import check
from bulletin.workshop import Clock, open_workshop

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"


def written(folder: Path) -> dict[str, bytes]:
    """All tables of a folder, byte for byte."""
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))}


def test_the_maker_reproduces_the_committed_tables(tmp_path: Path) -> None:
    """Running the seeded maker anew gives every committed table byte for byte, and no other."""
    subprocess.run([sys.executable, "-m", "tests.demo.make", str(tmp_path)], cwd=ROOT, check=True)

    assert written(DEMO) == written(tmp_path)


@pytest.mark.parametrize("name", ["2026-10", "2026-11", "2026-12", "2026-13"])
def test_the_letters_of_the_demo_go_out_as_they_stand(name: str) -> None:
    """On the evening of its own day, each letter passes in every locale without a block or a warning."""
    workshop, problems = open_workshop(DEMO)
    assert workshop is not None
    year, week = map(int, name.split("-"))
    day = date.fromisocalendar(year, week, 5)
    clock = Clock(datetime.combine(day, time(17), tzinfo=workshop.settings.maker.zone))
    built, faults = check(workshop, name, clock, issuing=True)
    findings = [finding for verdict in built.verdicts for finding in verdict.findings]

    assert (problems, faults, findings) == ([], [], [])
