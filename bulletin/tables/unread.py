"""CSV files in the data folder that no table is read from: a misspelt name would otherwise read like an empty table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from bulletin.model import Place, Problem
from bulletin.settings import TableSettings
from bulletin.settings.codes import nearest


def unread_files(folder: Path, files: Mapping[str, str], said: Mapping[str, TableSettings]) -> Iterator[Problem]:
    """A warning for each file that is nearly called like a table that is missing, and one for all others together.

    `files` are the tables' files by the tables' names.
    """
    missing = [name for name, file in files.items() if not (folder / file).exists() and file == f"{name}.csv"]
    strangers: list[str] = []
    for file in _unread(folder, {*files.values(), *(table.file or "" for table in said.values())}):
        meant = nearest(Path(file).stem, missing)
        if meant:
            yield Problem("file-misnamed", "warn", Place(file), file, {"file": f"{meant}.csv"})
        else:
            strangers.append(file)
    if strangers:
        yield Problem("files-unread", "warn", Place(strangers[0]), ", ".join(strangers))


def _unread(folder: Path, files: set[str]) -> list[str]:
    """The names of visible CSV files, in any capitals, that are none of these."""
    found = [path for path in folder.iterdir() if path.suffix.casefold() == ".csv" and path.is_file()]
    read = [folder / file for file in files if file and (folder / file).is_file()]
    unread = [path.name for path in found if path.name[0] not in ".~" and not any(path.samefile(other) for other in read)]
    return sorted(unread)
