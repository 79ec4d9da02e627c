"""The maker's papers: promises made, policies, signed statements, stops and lanes."""

from __future__ import annotations

from tests.demo.world import MARKETS, STOPS

PROMISES = """
PR-1|2025-10-10|a spare pawl spring in every carton|2025-11-30|kept|2025-11-24|
PR-2|2025-11-07|new dates for everybody told by the end of the year|2025-12-19|kept|2025-12-19|
PR-3|2025-11-28|a film about warping the Heron 12|2026-01-31|kept|2026-02-09|
PR-4|2026-01-09|the booklet in Japanese|2026-03-13|open||
PR-5|2026-03-13|a pawl guard sent to every owner traced so far|2026-04-17|open||
PR-6|2025-09-19|a folding stand|2026-02-28|withdrawn||2026-01-30
PR-7|2026-02-06|a second boring machine at work|2026-02-27|kept|2026-02-20|
PR-8|2026-03-20|spare reeds in the shop|2026-05-29|open||
"""

POLICIES = """
waiting-credit|in_force|2025-06-01
spare-parts|in_force|2025-02-03
returns|decided|2026-05-01
free-replacement|planned|
pickup|in_force|2026-04-01
trade-in|idea|
"""

ATTESTED = """
beech|The beech for our frames grows within two hundred kilometres of the workshop.|Jorun Ahlmoor, timber buyer|2025-11-04|\
attested/beech.txt|2026-11-04
oil|Every frame is oiled by hand.|Tamsin Orrevik, finishing|2026-01-12|attested/oil.txt|
lens|Every reed is looked at under a lens.|Pelle Drossard, stores|2025-03-03||2026-03-02
""".replace("\\\n", "")


def promise_rows() -> list[list[str]]:
    """The rows of promises.csv: kept, kept late, open and late, open, withdrawn."""
    return [line.split("|") for line in PROMISES.strip().splitlines()]


def policy_rows(titles: dict[str, str]) -> list[list[str]]:
    """The rows of policies.csv, one in each state and one in force from April on."""
    rows = [line.split("|") for line in POLICIES.strip().splitlines()]
    return [[name, titles[name], *rest] for name, *rest in rows]


def attested_rows() -> list[list[str]]:
    """The rows of attested.csv; the last has expired."""
    return [line.split("|") for line in ATTESTED.strip().splitlines()]


def stop_rows() -> list[list[str]]:
    """The rows of stops.csv."""
    return [[first.isoformat(), last.isoformat() if last else "", cause] for first, last, cause in STOPS]


def lane_rows() -> list[list[str]]:
    """The rows of lanes.csv."""
    return [[market.code, str(market.lane[0]), str(market.lane[1])] for market in MARKETS]
