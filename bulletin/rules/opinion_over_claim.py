"""An opinion mark over what is a claim.

"The new beam is a joy to wind" is the author's view, and may be marked as one. A figure or a date is nobody's view: under an
opinion mark it would go out bound to nothing. Nor is it anybody's view whether a parcel is sent, a fault is gone, or nothing
fails, or that more were boxed than last week: what would be a finding in plain prose stays one, comparisons of feeling and words
of doubt apart.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import is_felt
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.loose import loose_figures
from bulletin.scrutiny.offers import loose_fault
from bulletin.scrutiny.remarks import remarks_in

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "opinion-over-claim"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" is no matter of opinion{nearest}'
ACCEPTED: tuple[str, ...] = (
    "[The new warp beam is a joy to wind]{opinion}.",
    "[One of the nicest things we ever made]{opinion}.",
)
REJECTED: tuple[str, ...] = (
    "[We think «87» looms is fine]{opinion}.",
    "[You will love it next «Tuesday»]{opinion}.",
    "[The pawl problem «is solved»]{opinion}.",
    "[The queue «is shrinking», it seems to me]{opinion}.",
)


def check(case: Case) -> Iterator[Fault]:
    """Figures, dates and claims in the words of opinions."""
    for block in case.blocks:
        for stretch in block.stretches:
            if stretch.claim.kind == "opinion":
                found = loose_figures(block, block.opinion(stretch), case.scene)
                yield from (replace(loose_fault(case, loose), applies=False) for loose in found)
                claims = remarks_in(case, block, block.opinion(stretch))
                yield from (Fault(claim.at, claim.words, {"nearest": ""}) for claim in claims if not is_felt(case, claim))
