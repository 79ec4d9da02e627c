"""The `attested` family: statements in their own words, signed by a named person, good until they expire."""

from __future__ import annotations

import pandas as pd

from bulletin.facts.scopes.family import Found, Gap, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.model import Basis


class Statement(Item):
    """One statement."""

    @property
    def basis(self) -> Basis:
        """Who signed what, and until when."""
        return Basis.ATTESTED

    @fact("text", Basis.ATTESTED)
    def itself(self) -> Found | Gap:
        """The statement in its own words, as signed, up to and including the day on which it expires."""
        return self._words()

    @fact("text", Basis.ATTESTED)
    def text(self) -> Found | Gap:
        """The statement in its own words, as signed, up to and including the day on which it expires."""
        return self._words()

    def _words(self) -> Found | Gap:
        expires = self.row["expires"]
        if expires < pd.Timestamp(self.day.as_of):
            return Gap(f"the statement expired on {expires.date()}")
        return Found(str(self.row["text"]), self.row.records)


class Attested(Items):
    """All statements signed up to the day."""

    tables = ("attested",)
    kind = "statement"
    item_type = Statement
