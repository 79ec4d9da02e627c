"""A table as the facts see it: a frame of typed columns that knows the lines of its file.

How each kind of column stands in `Table.frame` (every column of the layout is there, also where the file lacks it):

| kind | dtype | empty |
| --- | --- | --- |
| id, text, path | `str` | `""` |
| choice, market, locale, currency, model, batch | `category` of str; of a choice, all its choices (and `""` if optional) | `""` |
| day | `datetime64[s]` at midnight | `NaT` |
| moment | `datetime64[us]`, UTC without saying so; and a column `day`, the day in the maker's zone, `datetime64[s]` | |
| whole | `int64`; optional without a meaning when empty: `Int64` | `pd.NA` |
| decimal | `object` of exact `Decimal` | what the layout says, else `None` |
| money | `int64` in minor units of the row's `currency`; optional: `Int64` | `pd.NA` |
| yes or no | `bool` | |

The index is the number of the record in the file, from 0 for the first one after the header; records that were left out
leave gaps. Rows stand in the order of the file. A zone-less moment in the hour that comes twice is the first one; one in the
hour that is skipped is as long after the change as it says (02:30 is read as 03:30). Nobody assigns into a frame.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

import numpy as np
import pandas as pd

from bulletin.tables.integer_keys import Integers
from bulletin.tables.layouts import LAYOUTS, Layout
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.source import Source


@dataclass(frozen=True, eq=False)
class Table:
    """One table of a data folder. `given` are the columns that its file, or `fill` in the settings, gives."""

    name: str
    file: str
    layout: Layout
    frame: pd.DataFrame
    given: Mapping[str, int]
    source: Source

    def has(self, column: str) -> bool:
        """Whether the file (or `fill`) gives a column."""
        return column in self.given

    def lines(self, records: Iterable[int]) -> list[int]:
        """The lines of the file on which records begin, in the order asked for."""
        return [self.source.line(int(record)) for record in records]

    def cells(self, records: Iterable[int]) -> list[dict[str, str]]:
        """Records as the file has them: declared columns by our names, in the order asked for."""
        return [self._cells(int(record)) for record in records]

    def _cells(self, record: int) -> dict[str, str]:
        texts = self.source.cells(record)
        return {column: texts[number] for column, number in self.given.items() if 0 <= number < len(texts)}

    @property
    def digest(self) -> str:
        """SHA-256 of the file's bytes as they were read, in hexadecimal."""
        return self.source.digest


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A row that the settings take away: where it stands and what it says, for the evidence."""

    file: str
    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, eq=False)
class Tables(Mapping[str, Table]):
    """The tables of a data folder by name, those that are there; `day` is the day as of which they stand, if any.

    `shared` are the keys of their ids, as read. `files` names the file of every table, also of a missing one. `view` turns a
    table as read into one as of the day.
    """

    read: Mapping[str, Table]
    shared: SharedKeys
    files: Mapping[str, str]
    left_out: tuple[LeftOut, ...] = ()
    day: date | None = None
    view: Callable[[str], Table] | None = None
    _seen: dict[str, Table] = field(default_factory=dict, repr=False)

    def __getitem__(self, name: str) -> Table:
        """The table of a name; KeyError where the folder has none."""
        if self.view is None:
            return self.read[name]
        if name not in self._seen:
            if name not in self.read:
                raise KeyError(name)
            self._seen[name] = self.view(name)
        return self._seen[name]

    def __iter__(self) -> Iterator[str]:
        """Names of the tables that are there, in the order of the layouts."""
        return iter(self.read)

    def __len__(self) -> int:
        """How many tables are there."""
        return len(self.read)

    def joined(self, name: str, column: str) -> Integers:
        """For each row the key of its id, from 0: the same for the same id in every column that refers to it, -1 for none."""
        (keys,) = self.shared.of((name, column))
        return keys[self.rows(name)]

    def rows(self, name: str) -> Integers | slice:
        """Where the rows of a table stand in the table as read."""
        read, now = self.read[name].frame.index, self[name].frame.index
        # Records ascend, and most of those that a day lacks stand at the end.
        if not len(now) or read[len(now) - 1] == now[-1]:
            return slice(len(now))
        return np.searchsorted(read, now)

    def missing(self, name: str) -> bool:
        """Whether the folder has no such table."""
        return name not in self.read

    def file(self, name: str) -> str:
        """The name of a table's file in the data folder."""
        return self.files.get(name, f"{LAYOUTS[name].name}.csv")
