"""Best of its kind, without anything that shows it.

"Industry-leading" compares with every other maker, and no table of ours knows them. Such words stand only where a named
person signs for a comparison that was made (`Attested:`); everything else is better shown than said.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "excellence-without-evidence"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" claims excellence without a signed comparison{ways}'
ACCEPTED: tuple[str, ...] = (
    "Attested: Our reeds came first in the trial | Ines Holm | 2026-12-31\n\nOur reeds came first in the trial.",
    "We like our looms.",
)
REJECTED: tuple[str, ...] = (
    "Our looms are «world-class».",
    "This is an «industry-leading» reed.",
    "«Second to none».",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "excellence":
            yield remark_fault(case, remark, NAME)
