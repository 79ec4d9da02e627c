"""Figures in passing: a date that is only asked about, and a small number or a date in a clause about kin, animals or weather.

"Our dog stole three sausages on Sunday" counts nothing of the business, and so do the small numbers of an instruction ("Turn the
four screws"). Large numbers stay held whoever the clause is about, and so does whatever counts products or orders (loose.py).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.sentences import clauses, sentences
from bulletin.scrutiny.quotations import is_question, tag_of
from bulletin.scrutiny.releases import head_of, is_about_else

if TYPE_CHECKING:
    from bulletin.draft.language import Language
    from bulletin.formats.figures import Figure

SMALL = 12
"""The greatest number that is told in passing."""
OPENING = 24
"""How far behind its head, in characters, a clause may name whom or what it is about ("Der Hund meiner Schwester ...")."""
BEHIND = 12
"""How far behind a figure, in characters, what it counts may be named ("three sausages")."""
DATE_KINDS = frozenset({"date", "span"})


def in_passing(figure: Figure, text: str, language: Language, locale: str) -> bool:
    """Whether a figure of a text is only asked about, or small and bidden or said of something else than the business."""
    sentence = next(span for span in sentences(text, locale) if span.holds(figure.start))
    is_date = figure.kind in DATE_KINDS
    asked = text[sentence.start : sentence.end]
    if is_date and is_question(asked, language) and tag_of(asked, language) is None:
        return True
    if not is_date and (figure.value is None or figure.value > SMALL or figure.kind in ("share", "money", "fraction")):
        return False
    clause = next(span for span in clauses(text, sentence, language) if span.holds(figure.start))
    told = text[clause.start : clause.end]
    if opens_about_else(told, language):
        return True
    return not is_date and (_instructs(told, language) or is_about_else(text[figure.end : clause.end], language, BEHIND))


def _instructs(clause: str, language: Language) -> bool:
    """Whether a clause bids readers do something, other than to expect what the maker does."""
    ordered = language.releases["orders"].match(clause, head_of(clause, language)) is not None
    return ordered and not language.has("expecting", clause)


def opens_about_else(clause: str, language: Language) -> bool:
    """Whether a clause opens with kin, animals, food, weather or pastimes."""
    return is_about_else(clause[head_of(clause, language) :], language, OPENING)
