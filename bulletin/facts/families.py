"""The families of facts, in the order in which they are shown. A new family is one module and one line here."""

from __future__ import annotations

from bulletin.facts.attested import Attested
from bulletin.facts.boxed import Boxed
from bulletin.facts.changes import Changes
from bulletin.facts.coverage import Coverage
from bulletin.facts.credits import Credits
from bulletin.facts.defects import Defects
from bulletin.facts.forecast import Forecast
from bulletin.facts.inspections import Inspections
from bulletin.facts.orders import Orders
from bulletin.facts.plan import Plan
from bulletin.facts.policies import Policies
from bulletin.facts.promises import Promises
from bulletin.facts.refunds import Refunds
from bulletin.facts.scopes.family import Scope

FAMILIES: dict[str, type[Scope]] = {
    "boxed": Boxed,
    "orders": Orders,
    "plan": Plan,
    "coverage": Coverage,
    "defects": Defects,
    "inspections": Inspections,
    "changes": Changes,
    "credits": Credits,
    "forecast": Forecast,
    "promises": Promises,
    "refunds": Refunds,
    "policies": Policies,
    "attested": Attested,
}
