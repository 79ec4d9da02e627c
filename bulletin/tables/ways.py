"""How a file writes numbers and days, by what the settings say of it, and the zone that its moments are in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from zoneinfo import ZoneInfo

SPACES = re.compile("[\u00a0\u2007\u2009\u202f]")
"""Blanks of other widths, which stand between thousands."""


@dataclass(frozen=True)
class Ways:
    """`dates` are the patterns (as of `strptime`) that a day may be written in; the first is the one that offers use."""

    decimal: str
    thousands: str
    dates: tuple[str, ...]
    zone: ZoneInfo

    @property
    def number(self) -> re.Pattern[str]:
        """What a number looks like here."""
        sign, group = re.escape(self.decimal), re.escape(SPACES.sub(" ", self.thousands))
        whole = rf"[0-9]{{1,3}}(?:{group}[0-9]{{3}})+|[0-9]+" if self.thousands else "[0-9]+"
        return re.compile(rf"[+-]?(?:{whole})(?:{sign}[0-9]+)?")
