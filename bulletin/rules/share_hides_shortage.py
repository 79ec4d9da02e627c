"""A share of parts in house that hides how little can be built.

"92 % of the parts are here" may be true and mislead, for one missing part stops the bench. While what can be built does not cover
the plan of the next week (without a plan, five days at the usual rate), a share of part lines in house stands beside
`coverage.buildable`: in the same paragraph or one next to it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.scrutiny.beside import known_fact
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.nearby import forms_with_blocks, keys_beside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Fact, Level
    from bulletin.scrutiny.case import Case

NAME = "share-hides-shortage"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "{words} hides a shortage: say beside it what can be built, {buildable}"
ACCEPTED: tuple[str, ...] = (
    'Of the part lines of the Heron 8 {{ coverage.of("Heron 8").parts_in_house }} are here; they make '
    '{{ coverage.of("Heron 8").buildable }} looms.',
)
REJECTED: tuple[str, ...] = (
    'Of the part lines of the Heron 8 «{{ coverage.of("Heron 8").parts_in_house }}» are here.',
    'Of the part lines of the Heron 8 «[over 90 %]{coverage.of("Heron 8").parts_in_house}» are here.',
)
DAYS = 5


def check(case: Case) -> Iterator[Fault]:
    """Forms that touch a share of parts in house, without what can be built beside them while that is short."""
    for position, _, stretch, facts in forms_with_blocks(case):
        for fact in facts:
            buildable = known_fact(case, fact.spelling.replace("parts_in_house", "buildable")) if _is_share(fact) else None
            if buildable and _is_short(case, buildable) and buildable.key not in keys_beside(case, position, reach=1):
                details = {"buildable": f"{buildable.spelling} is {case.told(buildable)}"}
                yield Fault(stretch.claim.start, fact.spelling, details, f"{{{{ {buildable.spelling} }}}}", item=fact.spelling)


def _is_share(fact: Fact) -> bool:
    return fact.key.startswith("coverage.") and fact.key.endswith(".parts_in_house")


def _is_short(case: Case, buildable: Fact) -> bool:
    """Whether what can be built does not cover the next week; where nobody knows what that takes, it may be short."""
    planned = _beside(case, buildable, "plan", "next_week")
    rate = _beside(case, buildable, "boxed", "rate")
    needed = planned if planned is not None else None if rate is None else rate * DAYS
    return needed is None or Fraction(str(buildable.value)) < needed


def _beside(case: Case, buildable: Fact, family: str, name: str) -> Fraction | None:
    """The number under another name of the same models."""
    found = known_fact(case, buildable.spelling.replace("coverage", family, 1).replace("buildable", name))
    return Fraction(found.value) if found and isinstance(found.value, int | Fraction) else None
