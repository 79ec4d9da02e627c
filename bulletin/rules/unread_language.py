"""Prose in a language that nobody has read.

The checker has word lists for some languages. In any other it sees figures and dates, and no word that claims something: there a
person must have read the prose. Whoever did so answers for it with a waiver that names the language; without one the draft is
blocked.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "unread-language"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "there is no list of words for {words}: whoever has read the prose answers for it"
LOCALE = "pl"
"""The language of the examples."""
ACCEPTED: tuple[str, ...] = (
    'Waive: unread-language "pl" | Wanda Ostrowska | read against the English letter\n\nSpakowaliśmy {{ boxed.week }} krosien.',
)
REJECTED: tuple[str, ...] = ("«»Spakowaliśmy {{ boxed.week }} krosien.",)
WORD = re.compile(r"[^\W\d_]{2,}")


def check(case: Case) -> Iterator[Fault]:
    """One finding for a draft with words in it that no list covers."""
    tag = re.split("[-_]", case.draft.locale)[0].lower()
    if case.language is None and any(WORD.search(block.plain) for block in case.blocks):
        offer = f'Waive: unread-language "{tag}" | who has read it | what was looked at'
        yield Fault(None, tag, offer=offer, item=case.draft.locale)
