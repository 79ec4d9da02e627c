"""How many decimals a share is shown with."""

from __future__ import annotations

from fractions import Fraction


def share_decimals(share: Fraction) -> int:
    """Decimals of the percentage: one, and as many more as keep 0 % and 100 % for exactly none and all."""
    decimals = 1
    distance = min(share, 1 - share) * 100
    while 0 < distance * 10**decimals <= Fraction(1, 2):
        decimals += 1
    return decimals
