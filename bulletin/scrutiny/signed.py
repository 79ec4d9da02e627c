"""Claims on statements of attested.csv: their words are the statement's own, up to inflection, and no more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.model import Basis
from bulletin.scrutiny.wording import tells_words

if TYPE_CHECKING:
    from bulletin.model import Fact
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case


def goes_beyond(case: Case, setting: Setting, fact: Fact) -> bool:
    """Whether a claim that rests on a signed statement says something else than it, or more."""
    if setting.is_printed or fact.basis is not Basis.ATTESTED or not _is_statement(fact):
        return False
    words, statement = case.words_of(setting.stretch.claim), str(fact.value)
    return not (tells_words(words, statement) and tells_words(statement, words))


def _is_statement(fact: Fact) -> bool:
    """Whether a fact is the statement itself, and not its date or who signed it."""
    return fact.unit == "text" and fact.key.rsplit(".", 1)[-1] not in ("by", "file")
