"""The families of facts, in the order in which they are shown. A new family is one module and one line here."""

from __future__ import annotations

from bulletin.facts.boxed import Boxed
from bulletin.facts.coverage import Coverage
from bulletin.facts.credits import Credits
from bulletin.facts.defects import Defects
from bulletin.facts.family import Scope
from bulletin.facts.orders import Orders

FAMILIES: dict[str, type[Scope]] = {
    "boxed": Boxed,
    "orders": Orders,
    "coverage": Coverage,
    "defects": Defects,
    "credits": Credits,
}
