"""The gate: what may become a bulletin."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from bulletin.model import Bulletin, Maker, Names, Output, Passed, TableRead
from bulletin.verdict.gate import pass_gate
from tests.rules.builders import judged

NOW = datetime(2026, 3, 27, 15, tzinfo=UTC)
MAKER = Maker("Fennmoor Looms")


def test_a_clean_verdict_becomes_a_bulletin() -> None:
    """A draft without a block passes, with its verdict and its day."""
    verdict = judged("We boxed {{ boxed.week }} looms.")
    bulletin = pass_gate(verdict, NOW, MAKER, Names())

    assert bulletin is not None
    assert (bulletin.draft, bulletin.as_of, bulletin.published) == (verdict.draft, verdict.as_of, NOW)


def test_the_gate_adds_who_speaks_and_what_the_evidence_shows() -> None:
    """The maker, the names, the weeks and the tables of the run are those of the bulletin."""
    names = Names(plain=frozenset({"Heron 8"}))
    weeks = tuple(each.facts[0] for each in judged("{{ boxed.week }} {{ boxed.last_week }}").judged)
    tables = (TableRead("orders.csv", "a1"),)
    verdict = judged("Good day.")
    output = Output((), Fraction(0), Fraction(1), Fraction(2))
    bulletin = pass_gate(
        verdict, NOW, MAKER, names, boxed_by_week=weeks, tables=tables, output=output, changed=((weeks[0], weeks[1]),)
    )

    assert bulletin is not None
    assert (MAKER, names, weeks) == (bulletin.maker, bulletin.names, bulletin.boxed_by_week)
    assert (tables, output, ((weeks[0], weeks[1]),)) == (bulletin.tables, bulletin.output, bulletin.changed)


def test_a_bulletin_without_evidence_has_none() -> None:
    """What the run does not bring is empty."""
    bulletin = pass_gate(judged("Good day."), NOW, MAKER, Names())

    assert bulletin is not None
    assert ((), (), None, ()) == (bulletin.boxed_by_week, bulletin.tables, bulletin.output, bulletin.changed)


def test_a_blocked_verdict_does_not() -> None:
    """A draft with one loose figure makes no bulletin."""
    assert pass_gate(judged("We boxed 87 looms."), NOW, MAKER, Names()) is None


def test_nobody_gets_around_the_gate_at_run_time() -> None:
    """Whoever makes a bulletin of a blocked verdict by hand is stopped by the record itself."""
    with pytest.raises(ValueError, match="blocked"):
        Bulletin(Passed(judged("We boxed 87 looms.")), NOW, MAKER, Names())


def test_only_the_gate_makes_bulletins() -> None:
    """No other module of the package names the constructor or the type that opens it."""
    package = Path(__file__).parents[2] / "bulletin"
    makers = [
        file.relative_to(package).as_posix()
        for file in sorted(package.rglob("*.py"))
        if any(call in file.read_text(encoding="utf-8") for call in ("Passed(", " Bulletin("))
    ]

    assert makers == ["verdict/gate.py"]
