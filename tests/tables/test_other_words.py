"""A file that has its own words for our choices."""

from pathlib import Path

from bulletin.report import word
from tests.tables.folders import ORDERS, problems_in


def files(*states: str) -> dict[str, str]:
    """Orders in these states, from number 0 on, and no unit boxed."""
    orders = "".join(f"{number},2026-01-05,Heron 8,AT,de,EUR,{state}\n" for number, state in enumerate(states))
    return {"orders.csv": ORDERS + orders, "boxing.csv": "serial,model,event,at\n"}


def test_unknown_words_that_stand_often(tmp_path: Path) -> None:
    """All of them are told in one setting, with the choice that is meant where it is like one; a rare one is a slip."""
    problems = problems_in(tmp_path, files(*["Storno"] * 3, *["Waiting"] * 3, *["noch offen"] * 4, "gone"))
    setting = 'values = { status = { Storno = "...", Waiting = "waiting", "noch offen" = "..." } }'

    assert {setting} == {problem.details["settings"] for problem in problems if problem.rule == "choice-in-other-words"}
    assert [("gone", "")] == [(problem.words, problem.offer) for problem in problems if problem.rule == "cell-not-a-choice"]
    assert f"put {setting} under [tables.orders] in bulletin.toml [choice-in-other-words]" in word(problems[0])


def test_answers_in_another_language(tmp_path: Path) -> None:
    """Yes and no have their setting too, and it reads the file."""
    folder = {**files(*["waiting"] * 3), "contacts.csv": "order,bulletins\n0,ja\n1,ja\n2,ja\n"}
    problems = problems_in(tmp_path, folder)
    setting = 'values = { bulletins = { ja = "..." } }'

    assert [setting] * 3 == [problem.details["settings"] for problem in problems]
    assert [] == problems_in(tmp_path, folder, f"[tables.contacts]\n{setting.replace('...', 'yes')}\n")
