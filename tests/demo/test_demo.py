"""The committed demo is what its maker writes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"


def written(folder: Path) -> dict[str, bytes]:
    """All tables of a folder, byte for byte."""
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))}


def test_the_maker_reproduces_the_committed_tables(tmp_path: Path) -> None:
    """Running the seeded maker anew gives every committed table byte for byte, and no other."""
    subprocess.run([sys.executable, "-m", "tests.demo.make", str(tmp_path)], cwd=ROOT, check=True)

    assert written(DEMO) == written(tmp_path)
