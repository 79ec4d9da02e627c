"""The gate: the one place where a bulletin is made, and only of a verdict in which nothing blocks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.model import Bulletin, Passed

if TYPE_CHECKING:
    from datetime import datetime

    from bulletin.model import Fact, Maker, Names, Output, TableRead, Verdict


def pass_gate(
    verdict: Verdict,
    published: datetime,
    maker: Maker,
    names: Names,
    *,
    boxed_by_week: tuple[Fact, ...] = (),
    tables: tuple[TableRead, ...] = (),
    output: Output | None = None,
    changed: tuple[tuple[Fact, Fact], ...] = (),
    widened: int | None = None,
) -> Bulletin | None:
    """Make a bulletin of a draft whose findings are warnings at most; None where anything blocks.

    `boxed_by_week` are the counts the chart shows, oldest first; `tables` are what its facts come from, `output` and
    `changed` what the evidence draws, `widened` what it tells of windows.
    """
    if verdict.blocked:
        return None
    return Bulletin(Passed(verdict), published, maker, names, boxed_by_week, tables, output, changed, widened)
