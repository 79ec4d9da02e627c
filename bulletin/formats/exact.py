"""Exact numbers: rounded once, half away from zero, and written so that nothing is lost.

Babel rounds ties to even (0.265 becomes 26 %), so every value is rounded here before it gets there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal, localcontext
from fractions import Fraction
from types import MappingProxyType

from bulletin.model import Rounding

Exact = int | Decimal | Fraction


def half_up(value: Exact, decimals: int = 0) -> Decimal:
    """The value at so many decimals (negative ones: tens, hundreds), ties away from zero."""
    scaled = Fraction(value) * Fraction(10) ** decimals
    whole = (abs(scaled) * 2 + 1) // 2
    return _decimal(-whole if scaled < 0 else whole, decimals)


def round_up(value: Exact, decimals: int = 0) -> Decimal:
    """The least number of so many decimals that is not below the value: what a need comes to."""
    scaled = Fraction(value) * Fraction(10) ** decimals
    return _decimal(-(-scaled.numerator // scaled.denominator), decimals)


def round_down(value: Exact, decimals: int = 0) -> Decimal:
    """The greatest number of so many decimals that is not above the value: what may be given away."""
    scaled = Fraction(value) * Fraction(10) ** decimals
    return _decimal(scaled.numerator // scaled.denominator, decimals)


ROUNDED: Mapping[Rounding, Callable[[Exact, int], Decimal]] = MappingProxyType(
    {"nearest": half_up, "up": round_up, "down": round_down}
)


def shown(value: Exact, decimals: int, rounding: Rounding) -> Decimal:
    """The number that a fact with such decimals and rounding shows."""
    return ROUNDED[rounding](value, decimals)


def share_decimals(share: Exact, decimals: int = 1) -> int:
    """How many decimals a percentage needs, at least those given, so that only none and all of it read as 0 % and 100 %."""
    percent = abs(Fraction(share)) * 100
    while decimals < 12 and percent not in (0, 100) and half_up(percent, decimals) in (0, 100):
        decimals += 1
    return decimals


def machine_number(value: Exact) -> str:
    """The exact value for programs: a plain decimal where it ends (`0.45`), else a ratio (`17/31`)."""
    ratio = Fraction(value)
    rest = ratio.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest != 1:
        return f"{ratio.numerator}/{ratio.denominator}"
    with localcontext(prec=1000):
        text = format(Decimal(ratio.numerator) / Decimal(ratio.denominator), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _decimal(scaled: int, decimals: int) -> Decimal:
    with localcontext(prec=1000):
        return Decimal(scaled).scaleb(-decimals)
