"""Codes that settings and tables share: currencies, markets, locales.

Babel knows the codes. How many minor units a currency has is ISO 4217's to say: CLDR's digits differ from it for some
currencies, because they tell how prices are usually shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType

from babel import Locale, UnknownLocaleError
from babel.core import get_global

# ISO 4217, list one (from memory): every other currency has two minor digits.
NO_MINOR_UNITS = frozenset("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF".split())
THREE_MINOR_DIGITS = frozenset("BHD IQD JOD KWD LYD OMR TND".split())
CURRENCY_SLIPS: Mapping[str, str] = MappingProxyType(
    {
        "€": "EUR", "EURO": "EUR", "EUROS": "EUR", "$": "USD", "US$": "USD", "£": "GBP", "STG": "GBP", "UKP": "GBP",
        "YEN": "JPY", "RMB": "CNY", "SFR": "CHF", "ZŁ": "PLN", "KČ": "CZK", "₹": "INR", "₩": "KRW", "₺": "TRY", "₴": "UAH",
    }
)  # fmt: skip
"""Well-known signs and names of currencies (common practice, no source); ¥ is not among them, since it is two."""
SPOKEN = ("en", "de", "fr", "es", "ja", "pl", "ar")
"""Languages in which the name of a language is understood."""
NO_MONEY = frozenset("CNH CNX XAG XAU XBA XBB XBC XBD XDR XFO XFU XPD XPT XRE XSU XTS XUA XXX".split())
"""Codes of CLDR's that have no minor unit by ISO 4217 (metals, units of account, tests) or are none of it (CNH, CNX)."""
NO_COUNTRIES = frozenset("AC CP CQ DG EA EU EZ IC QO TA UN XA XB ZZ".split())
"""Two letters that CLDR names and ISO 3166-1 does not; XK stays, since customers live there."""


@cache
def currencies() -> frozenset[str]:
    """Codes of money by ISO 4217, today's and withdrawn ones (its lists one and three), as far as CLDR knows them."""
    used = get_global("territory_currencies").values()
    return frozenset(code for spans in used for code, *_ in spans) - NO_MONEY


@cache
def tender() -> frozenset[str]:
    """Codes of the money that is legal tender somewhere today, by CLDR."""
    used = get_global("territory_currencies").values()
    return frozenset(code for spans in used for code, _, end, legal in spans if legal and end is None)


@cache
def markets() -> frozenset[str]:
    """ISO 3166-1 alpha-2 codes of countries."""
    named = (str(code) for code in Locale("en").territories)
    return frozenset(code for code in named if len(code) == 2 and code.isalpha()) - NO_COUNTRIES


@cache
def locale_tag(tag: str) -> str | None:
    """A BCP 47 tag such as `de-AT` in its usual letters, or None where CLDR has no data for it."""
    try:
        Locale.parse(tag, sep="-")
    except (ValueError, TypeError, UnknownLocaleError):
        return None
    language, *rest = tag.split("-")
    return "-".join([language.lower(), *(part.title() if len(part) == 4 else part.upper() for part in rest)])


@cache
def usual_locale(text: str) -> str:
    """The tag that a text in other form stands for: `de_AT` for de-AT, `german` or `Deutsch` for de; empty where unsure."""
    tag = locale_tag(text.strip().replace("_", "-"))
    if tag is not None:
        return tag
    named = {code for spoken in SPOKEN for code, name in Locale(spoken).languages.items() if name.casefold() == text.casefold()}
    return named.pop() if len(named) == 1 else ""


def usual_currency(text: str) -> str:
    """The code that a well-known slip stands for: YEN, €, usd; empty for all else, since likeness is no reason to pay in it."""
    code = CURRENCY_SLIPS.get(text.upper(), text.upper())
    return code if code in currencies() else ""


@cache
def minor_digits(currency: str) -> int:
    """How many decimals an amount has in whole minor units: JPY 0, EUR 2, KWD 3 (ISO 4217).

    Of withdrawn money and units of account, which list one lacks or CLDR does not call tender, CLDR's digits: ITL 0, CLF 4.
    """
    if currency in NO_MINOR_UNITS:
        return 0
    if currency in THREE_MINOR_DIGITS:
        return 3
    fractions = get_global("currency_fractions")
    return int(fractions[currency][0]) if currency in fractions and currency not in tender() else 2


def is_whole_minor_units(amount: Decimal, currency: str) -> bool:
    """Whether an amount can be paid in the currency's smallest unit."""
    scaled = amount.scaleb(minor_digits(currency))
    return scaled == scaled.to_integral_value()


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that is most like this one, whatever its case; empty where none is close."""
    by_folded = {candidate.casefold(): candidate for candidate in sorted(known, reverse=True)}
    close = get_close_matches(word.casefold(), list(by_folded), n=1, cutoff=0.65)
    return by_folded[close[0]] if close else ""


def begun(word: str, known: Iterable[str]) -> str:
    """The one known word that this one begins, of two letters at least (`mo` for monday); empty where several do or none."""
    found = [candidate for candidate in known if len(word) > 1 and candidate.startswith(word.casefold())]
    return found[0] if len(found) == 1 else ""
