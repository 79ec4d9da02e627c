"""A folder of a few tables, read: what tests of the reader begin with."""

from pathlib import Path

from bulletin.model import Problem
from bulletin.settings import read_settings
from bulletin.tables.reading import read_tables
from tests.tables.documents import SETTINGS, write_alone

ORDERS = "order,placed,model,market,locale,currency,status\n"


def problems_in(folder: Path, files: dict[str, str | bytes], settings: str = "") -> list[Problem]:
    """All problems of a folder of these files, beside good orders and boxing; `settings` come after [maker]."""
    write_alone(folder, {"bulletin.toml": SETTINGS + settings})
    for name, content in files.items():
        (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return problems_of(folder)


def problems_of(folder: Path) -> list[Problem]:
    """All problems of a folder as it is."""
    settings, problems = read_settings(folder)
    assert settings is not None, problems
    return [*problems, *read_tables(folder, settings)[1]]
