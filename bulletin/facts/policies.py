"""The `policies` family: the maker's own rules, and whether they are in force."""

from __future__ import annotations

import pandas as pd

from bulletin.facts.scopes.family import Found, Gap, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.model import Basis


class Policy(Item):
    """One policy."""

    @property
    def basis(self) -> Basis:
        """All that is said of a policy is the maker's to decide."""
        return Basis.POLICY

    @fact("state", Basis.POLICY)
    def state(self) -> Found | Gap:
        """How far the policy has come: an idea, planned, decided or in force."""
        return Found(str(self.row["state"]), self.row.records)

    @fact("yes/no", Basis.POLICY)
    def in_force(self) -> Found | Gap:
        """Whether the policy's state is in force and the day from which it holds, if it names one, has come."""
        begun = not self.row["from"] > pd.Timestamp(self.day.as_of)
        return Found(self.row["state"] == "in_force" and begun, self.row.records)


class Policies(Items):
    """All policies."""

    tables = ("policies",)
    kind = "policy"
    item_type = Policy
