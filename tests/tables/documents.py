"""Cases as documents: tables of a small folder, with the expected problems on the lines they are about.

    Words that say what the case is about.

    == orders.csv
    order,placed
    1001,2026-02-30
         ^ cell-not-a-day -> the offer, if the case is about it

A line of a `^` and a rule tells of the line above it; it is no part of the file. `-> none` says that nothing is offered.
"""

import re
from pathlib import Path

CASES = Path(__file__).parent / "cases"
FILE = re.compile(r"== (\S+)")
MARK = re.compile(r"( *)\^ ([a-z-]+)(?: -> (.+))?")

Expected = tuple[str, int, int, str]
SETTINGS = '[maker]\nname = "Fennmoor Looms"\ntime_zone = "Europe/Vienna"\n'


def read_case(name: str) -> tuple[dict[str, str], dict[Expected, str | None]]:
    """The files of a case, and its problems (file, line, column, rule) with the offer where one is written."""
    files: dict[str, list[str]] = {}
    expected: dict[Expected, str | None] = {}
    file = ""
    for line in (CASES / f"{name}.txt").read_text(encoding="utf-8").splitlines():
        if heading := FILE.fullmatch(line):
            file = heading[1]
            files[file] = []
        elif file and (mark := MARK.fullmatch(line)):
            expected[file, len(files[file]), len(mark[1]) + 1, mark[2]] = "" if mark[3] == "none" else mark[3]
        elif file:
            files[file].append(line)
    return {name: "\n".join(lines) + "\n" for name, lines in files.items()}, expected


def write_alone(folder: Path, files: dict[str, str]) -> Path:
    """A folder with these files, the good orders and boxing, and no other table."""
    good, _ = read_case("good")
    required = {name: good[name] for name in ("orders.csv", "boxing.csv")}
    for name, text in {"bulletin.toml": SETTINGS, **required, **files}.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return folder


def write_folder(folder: Path, files: dict[str, str], settings: str = SETTINGS) -> Path:
    """The good folder with some files replaced."""
    good, _ = read_case("good")
    for name, text in {"bulletin.toml": settings, **good, **files}.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return folder
