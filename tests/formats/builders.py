"""Small builders for tests of formats."""

from datetime import date

from bulletin.formats.figures import Figure
from bulletin.formats.reading import find_figures
from bulletin.model import Basis, Fact, Rounding, Value

AS_OF = date(2026, 3, 27)


class NoRows:
    """A fact's rows where none matter."""

    def counts(self) -> dict[str, int]:
        return {}

    def lines(self) -> dict[str, list[int]]:
        return {}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        return {}


def fact(value: Value, unit: str = "unit", decimals: int = 0, rounding: Rounding = "nearest") -> Fact:
    """A fact of the records on the as-of date."""
    return Fact("a.fact", "a.fact", value, unit, Basis.RECORD, AS_OF, "As told.", NoRows(), decimals, rounding)


def only(text: str, locale: str = "en") -> Figure:
    """The one figure of a text."""
    figures = find_figures(text, locale)
    assert len(figures) == 1, figures
    return figures[0]
