"""Samples: shares, exact limits by adding up the binomial, and the plans of MIL-STD-105E read off its master table."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import comb

from tests.naive.folder import Maker, Row, step

COLUMNS = ("title", "part", "lot")
NAMES = (
    "checked", "failed", "share", "upper", "needed", "accept_at_most", "accepted", "better_than",
)  # fmt: skip
BITS = 60
SIZES = (2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000)
"""Table II-A: the sample of each code letter from A to R."""
LARGEST = (8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10000, 35000, 150000, 500000, 10**18)
"""Table I, General Level II: the largest lot of each letter."""
ZERO_AT = {
    "0.010": 14, "0.015": 13, "0.025": 12, "0.040": 11, "0.065": 10, "0.10": 9, "0.15": 8, "0.25": 7, "0.40": 6, "0.65": 5,
    "1.0": 4, "1.5": 3, "2.5": 2, "4.0": 1, "6.5": 0, "10": -1,
}  # fmt: skip
"""The row of Table II-A in which a quality limit accepts none failed. Rows above it point down to it; the one below points up
to it, the next one points down, and from there on the numbers that are accepted run as in `ACCEPTED`."""
ACCEPTED = (1, 2, 3, 5, 7, 10, 14, 21)


def facts(maker: Maker) -> dict[str, object]:
    """Each inspection, and each beside every other."""
    rows = maker.rows("inspections")
    if rows is None:
        return {}
    found: dict[str, object] = {}
    for row in rows:
        item = f"inspections{step(row['inspection'], NAMES)}"
        found |= {f"{item}.{name}": value for name, value in of_one(maker, row).items()}
        for other in rows:
            beside = f"{item}.better_than{step(other['inspection'])}"
            chance = fisher(int(row["failed"]), int(row["checked"]), int(other["failed"]), int(other["checked"]))
            found |= {beside: chance <= 1 - confidence(maker), f"{beside}.p": float(chance)}
    return found


def confidence(maker: Maker) -> Fraction:
    """Of limits from samples, as the settings say."""
    return Fraction(str(maker.settings.get("checks", {}).get("confidence", "0.95")))


def of_one(maker: Maker, row: Row) -> dict[str, object]:
    """What the sample says, its plan, its columns."""
    checked, failed = int(row["checked"]), int(row["failed"])
    found: dict[str, object] = {column: row[column] for column in COLUMNS if row.get(column)}
    found |= {"checked": checked, "failed": failed, "share": float(Fraction(failed, checked))}
    found["upper"] = upper(failed, checked, confidence(maker))
    found["at"] = str(maker.moment(row["at"]).astimezone(maker.zone).date())
    if row.get("lot_size"):
        found["lot_size"] = int(row["lot_size"])
    if row.get("quality_limit"):
        found["quality_limit"] = float(row["quality_limit"])
    plan = sampling_plan(row)
    if plan is not None:
        needed, accept = plan
        found |= {"needed": needed, "accept_at_most": accept}
        if failed > accept or checked >= needed:
            found["accepted"] = failed <= accept
    return found


def upper(failed: int, checked: int, confident: Fraction) -> float:
    """Halve the shares until `failed` or fewer of `checked` have the chance that is left: whole numbers of 2^-60."""
    low, high = 0, 2**BITS
    while high - low > 1:
        middle = (low + high) // 2
        ways = sum(comb(checked, n) * middle**n * (2**BITS - middle) ** (checked - n) for n in range(failed + 1))
        low, high = (middle, high) if ways > (1 - confident) * 2 ** (BITS * checked) else (low, middle)
    return high / 2**BITS


def sampling_plan(row: Row) -> tuple[int, int] | None:
    """Sample and acceptance number, arrows followed; None for what the tables do not hold."""
    limits = {Decimal(limit): zero for limit, zero in ZERO_AT.items()}
    if not row.get("lot_size") or not row.get("quality_limit"):
        return None
    lot, limit = int(row["lot_size"]), Decimal(row["quality_limit"])
    if not 2 <= lot <= LARGEST[-1] or limit not in limits:
        return None
    letter = next(number for number, largest in enumerate(LARGEST) if lot <= largest)
    below = letter - limits[limit]
    if below <= 1 and limits[limit] >= 0:
        letter, accept = limits[limit], 0
    else:
        letter = min(max(letter, limits[limit] + 3), limits[limit] + 2 + len(ACCEPTED))
        accept = ACCEPTED[letter - limits[limit] - 3]
    return min(SIZES[letter], lot), accept


def fisher(failed: int, checked: int, other_failed: int, other_checked: int) -> Fraction:
    """Of all ways in which so many failures fall on two samples, those with no more of them in the first."""
    failures = failed + other_failed
    ways = [comb(checked, n) * comb(other_checked, failures - n) for n in range(failures + 1)]
    return Fraction(sum(ways[: failed + 1]), sum(ways))
