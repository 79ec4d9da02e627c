"""The command line: results, messages and exit statuses, as somebody at a terminal meets them."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from bulletin import cli
from bulletin.model import Place, Problem

DEMO = Path(__file__).parent.parent / "data" / "demo"
FRIDAY = ("--published", "2026-03-27T16:00:00+01:00")
NOTICES = {"notices.html", "refunds.csv", "told.csv"}
LETTER = """Title: Week 13
As-of: 2026-03-27
Readers: waiting
Waive: unmentioned "safety defect" | Ilvy Brandstett | a letter of its own tells of it
Waive: unmentioned "overdue promise" | Ilvy Brandstett | a letter of its own tells of it
Waive: unmentioned "moved windows" | Ilvy Brandstett | a letter of its own tells of it
Waive: unmentioned "credit owed" | Ilvy Brandstett | a letter of its own tells of it
Waive: unmentioned "late refunds" | Ilvy Brandstett | a letter of its own tells of it

We boxed {{ boxed.week | units }} this week, [our best week so far]{boxed.week > boxed.best_week}.
"""

GERMAN = LETTER.split("\n\n")[0].replace("Week", "Woche") + """

Verpackt: {{ boxed.week | units }}, [unsere bisher beste Woche]{boxed.week > boxed.best_week}.
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the demo maker with one short draft."""
    copy = tmp_path / "maker"
    shutil.copytree(DEMO, copy, ignore=shutil.ignore_patterns("drafts", "out"))
    (copy / "drafts").mkdir()
    write(copy, LETTER)
    return copy


def write(folder: Path, text: str, name: str = "week.en.md") -> None:
    (folder / "drafts" / name).write_text(text, encoding="utf-8")


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli.app, [str(argument) for argument in arguments])


def test_facts_as_json(folder: Path) -> None:
    """All facts come with value, unit, basis, explanation and counted rows; absent ones with a reason."""
    result = run("facts", "--data", folder, "--as-of", "2026-03-27", "--json")
    told = json.loads(result.stdout)

    assert result.exit_code == 0
    assert told["as_of"] == "2026-03-27"
    assert {"value", "unit", "basis", "how", "rows"} == set(told["facts"]["boxed.week"])
    assert {"boxing.csv": told["facts"]["boxed.week"]["value"]} == told["facts"]["boxed.week"]["rows"]


def test_named_facts_come_with_lines(folder: Path) -> None:
    """A named fact names the lines of its rows, and they are where the file has them."""
    result = run("facts", "boxed.today", "--data", folder, "--as-of", "2026-03-27", "--json")
    lines = json.loads(result.stdout)["facts"]["boxed.today"]["rows"]["boxing.csv"]
    file = (folder / "boxing.csv").read_text(encoding="utf-8").split("\n")

    assert all(",boxed,2026-03-27" in file[line - 1] for line in lines)
    assert lines == sorted(lines)


def test_a_family_stands_for_its_facts(folder: Path) -> None:
    """Naming a family or an item shows everything in it."""
    result = run("facts", "coverage.part.P-104", "--data", folder, "--as-of", "2026-03-27", "--json")

    assert {"coverage.part.P-104.short", "coverage.part.P-104.name"} <= set(json.loads(result.stdout)["facts"])


def test_an_unknown_fact_is_a_wrong_command_line(folder: Path) -> None:
    """A key that names nothing is status 2, with the nearest ones on standard error."""
    result = run("facts", "boxed.weak", "--data", folder, "--as-of", "2026-03-27")

    assert result.exit_code == 2
    assert "boxed.week" in result.stderr
    assert result.stdout == ""


def test_a_draft_that_passes(folder: Path) -> None:
    """A supported draft is status 0, and its claims are told with the facts that bear them out."""
    result = run("check", "week", "--data", folder, *FRIDAY, "--json")
    told = json.loads(result.stdout)

    assert result.exit_code == 0
    assert not told["blocked"]
    assert [("supported", ["boxed.week"]), ("supported", ["boxed.week", "boxed.best_week"])] == [
        (claim["verdict"], claim["facts"]) for claim in told["claims"]
    ]


def test_a_draft_that_is_blocked(folder: Path) -> None:
    """An unsupported figure is status 1 for check and build, and nothing is written."""
    write(folder, LETTER + "\nAnother 87 looms were packed.\n")

    checked = run("check", folder / "drafts" / "week.en.md", *FRIDAY)
    built = run("build", "week", "--data", folder, *FRIDAY)

    assert (checked.exit_code, built.exit_code) == (1, 1)
    assert "week.en.md:12:9: block:" in checked.stdout
    assert "[number-without-fact]" in checked.stdout
    assert "[number-without-fact]" in built.stderr
    assert not (folder / "out").exists()


def test_build_writes_every_channel(folder: Path, tmp_path: Path) -> None:
    """Building twice writes the same bytes: mail, page, post, evidence and the notices that are due."""
    first = run("build", "week", "--data", folder, *FRIDAY, "--out", tmp_path / "one")
    run("build", "week", "--data", folder, *FRIDAY, "--out", tmp_path / "two")
    files = sorted(path.relative_to(tmp_path / "one") for path in (tmp_path / "one").rglob("*") if path.is_file())

    assert first.exit_code == 0
    assert {"bulletin.eml", "index.html", "post.md", "post.html", "evidence.html", "evidence.json"} | NOTICES == {
        file.name for file in files if file.parent.name != "mails"
    }
    assert "F-2188.eml" in {file.name for file in files}
    assert all((tmp_path / "one" / file).read_bytes() == (tmp_path / "two" / file).read_bytes() for file in files)


def test_one_blocked_language_holds_all(folder: Path) -> None:
    """A bulletin in two languages goes out in both or in none."""
    write(folder, LETTER.replace("Week 13", "Woche 13").replace("We boxed", "99").replace("this week", "dabei"), "week.de.md")

    result = run("build", "week", "--data", folder, *FRIDAY)

    assert result.exit_code == 1
    assert not (folder / "out").exists()


def test_issue_and_record(folder: Path) -> None:
    """What was issued is on record, verifies, can't be issued again, and feeds `last.` of a later day."""
    issued = run("issue", "week", "--data", folder, *FRIDAY)
    again = run("issue", "week", "--data", folder, *FRIDAY)
    listed = run("record", "--data", folder, "--verify", "--json")
    later = run("facts", "last.boxed.week", "--data", folder, "--as-of", "2026-03-30", "--json")
    week = run("facts", "boxed.week", "--data", folder, "--as-of", "2026-03-27", "--json")

    assert (issued.exit_code, again.exit_code, listed.exit_code) == (0, 2, 0)
    assert [(1, "week", None)] == [
        (one["number"], one["name"], one["corrects"]) for one in json.loads(listed.stdout)["bulletins"]
    ]
    assert (
        json.loads(later.stdout)["facts"]["last.boxed.week"]["value"] == json.loads(week.stdout)["facts"]["boxed.week"]["value"]
    )


def test_stale_tables_warn_and_hold_up_issuing(folder: Path) -> None:
    """Tables that nobody brought up to date are a warning when building and a block when issuing."""
    late = ("--published", "2026-04-20T09:00:00+02:00")

    built = run("build", "week", "--data", folder, *late)
    issued = run("issue", "week", "--data", folder, *late)

    assert (built.exit_code, issued.exit_code) == (0, 1)
    assert "warn:" in built.stderr
    assert "[tables-stale]" in issued.stderr
    assert not (folder / "issued.db").exists()


def test_an_order(folder: Path) -> None:
    """One order is told in its own language, the date in the first sentence, the caution beside it."""
    told = run("order", "F-2417", "--data", folder, "--as-of", "2026-03-27")
    as_json = run("order", "F-2417", "--data", folder, "--as-of", "2026-03-27", "--json")

    assert told.exit_code == 0
    assert "27. März 2026" in told.stdout.split(". Best")[0] + told.stdout[:40]
    assert "make sure" in told.stderr
    assert {"order", "status", "as_of", "place", "window", "credit", "promised", "notice_due", "text"} == set(
        json.loads(as_json.stdout)
    )


def test_an_unknown_order_tells_nothing(folder: Path) -> None:
    """An unknown order is status 2, and no other order is named."""
    result = run("order", "F-24170", "--data", folder, "--as-of", "2026-03-27")

    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.replace("F-24170", "").count("F-") == 0


@pytest.mark.parametrize("command", [("facts",), ("check", "week"), ("build", "week"), ("issue", "week"), ("order", "F-2417")])
def test_a_bad_table_stops_every_command(folder: Path, command: tuple[str, ...]) -> None:
    """After a bad cell every command is status 2, names its place, and writes nothing."""
    boxing = (folder / "boxing.csv").read_text(encoding="utf-8").split("\n")
    cells = boxing[4].split(",")
    boxing[4] = boxing[4].replace(f",{cells[4]},", ",2026-02-30T10:00,")
    (folder / "boxing.csv").write_text("\n".join(boxing), encoding="utf-8")
    before = sorted(folder.rglob("*"))

    result = run(*command, "--data", folder, *FRIDAY)

    assert result.exit_code == 2
    assert f"boxing.csv:5:{boxing[4].index('2026-02-30') + 1}: error:" in result.stderr
    assert before == sorted(folder.rglob("*"))


def test_a_folder_that_is_none(tmp_path: Path) -> None:
    """A folder without settings is status 2 and says what is needed."""
    result = run("facts", "--data", tmp_path)

    assert result.exit_code == 2
    assert "bulletin.toml" in result.stderr


def test_a_draft_that_is_not_there(folder: Path) -> None:
    """A draft's name that no file has is status 2 and names those there are."""
    result = run("check", "weak", "--data", folder, *FRIDAY)

    assert result.exit_code == 2
    assert "week" in result.stderr


def test_demo(tmp_path: Path) -> None:
    """The demo copies the maker, builds its bulletin in two languages and says where it lies; other folders are left alone."""
    other = tmp_path / "other"
    other.mkdir()
    (other / "mine.txt").write_text("mine", encoding="utf-8")

    told = run("demo", "--out", tmp_path / "demo")
    again = run("demo", "--out", tmp_path / "demo")
    refused = run("demo", "--out", other)

    assert (told.exit_code, again.exit_code, refused.exit_code) == (0, 0, 2)
    assert ["mine.txt"] == [path.name for path in other.iterdir()]
    assert (tmp_path / "demo" / "out" / "2026-13" / "de" / "bulletin.eml").is_file()
    assert "Read 23 tables" in told.stdout


def test_a_bug_is_status_3(folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """A fault of the program is told as one."""
    monkeypatch.setattr("sys.argv", ["bulletin", "facts", "--data", str(folder)])
    monkeypatch.setattr("bulletin.workshop.open_workshop", lambda *_: 1 / 0)

    with pytest.raises(SystemExit) as ended:
        cli.main()

    assert ended.value.code == 3
    assert "fault of the program" in capsys.readouterr().err


def test_a_time_without_offset_is_the_makers(folder: Path) -> None:
    """`--published` may be a day or a time of the maker's zone; what it is not is status 2."""
    day = run("facts", "boxed.today", "--data", folder, "--published", "2026-03-27", "--json")
    wrong = run("facts", "--data", folder, "--published", "on Friday")
    nowhere = run("facts", "--data", folder, "--locale", "nonsense")

    assert (day.exit_code, json.loads(day.stdout)["as_of"]) == (0, "2026-03-27")
    assert (wrong.exit_code, nowhere.exit_code) == (2, 2)


def test_a_fact_is_found_by_its_name_in_a_draft(folder: Path) -> None:
    """What `facts` prints can be pasted into a draft and back."""
    printed = run("facts", "boxed", "--data", folder, "--as-of", "2026-03-27")
    pasted = run("facts", 'boxed.of("Heron 8").week', "--data", folder, "--as-of", "2026-03-27", "--json")

    assert 'boxed.of("Heron 8").week' in printed.stdout
    assert ["boxed.of.Heron 8.week"] == list(json.loads(pasted.stdout)["facts"])


def test_what_was_recorded_is_shown(folder: Path) -> None:
    """`facts last` shows what the last recorded bulletin held."""
    run("issue", "week", "--data", folder, *FRIDAY)

    shown = run("facts", "last", "--data", folder, "--as-of", "2026-03-30", "--json")

    assert {"last.boxed.week", "last.orders.waiting"} <= set(json.loads(shown.stdout)["facts"])


def test_an_order_number_in_other_letters(folder: Path) -> None:
    """Lower case and spaces around a number don't hide an order."""
    result = run("order", " f-2417 ", "--data", folder, "--as-of", "2026-03-27", "--json")

    assert json.loads(result.stdout)["order"] == "F-2417"


@pytest.mark.parametrize("command", ["build", "issue"])
def test_a_place_that_can_not_be_written(folder: Path, tmp_path: Path, command: str) -> None:
    """Where no document can be written, nothing is on record and it is no crash."""
    (tmp_path / "file").write_text("in the way", encoding="utf-8")

    result = run(command, "week", "--data", folder, *FRIDAY, "--out", tmp_path / "file")

    assert result.exit_code == 2
    assert "[out-unwritable]" in result.stderr
    assert not (folder / "issued.db").exists()


def test_a_bare_figure_stops_everything(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the last check over the documents finds is status 1, and nothing is written or on record."""
    bare = Problem("bare-figure", "block", Place("week/en/index.html"), "87")
    monkeypatch.setattr("bulletin.pipeline.press", lambda _: ([], [bare]))

    built = run("build", "week", "--data", folder, *FRIDAY)
    issued = run("issue", "week", "--data", folder, *FRIDAY)

    assert (built.exit_code, issued.exit_code) == (1, 1)
    assert "on record as" not in issued.stdout
    assert not (folder / "issued.db").exists()


def test_a_lost_ledger_is_no_empty_one(folder: Path) -> None:
    """Where the orders' files are left and the ledger is gone, nothing goes on as if it were the first."""
    run("issue", "week", "--data", folder, *FRIDAY)
    (folder / "issued.db").unlink()

    listed = run("record", "--data", folder)
    issued = run("issue", "week", "--data", folder, *FRIDAY)

    assert (listed.exit_code, issued.exit_code) == (2, 2)
    assert "[record-lost]" in listed.stderr


def test_building_what_was_issued_warns(folder: Path) -> None:
    """What is built after the issue is not what was issued, and says so."""
    run("issue", "week", "--data", folder, *FRIDAY)

    result = run("build", "week", "--data", folder, *FRIDAY)

    assert result.exit_code == 0
    assert "[built-after-issue]" in result.stderr


def test_a_changed_copy_of_the_demo_is_kept(tmp_path: Path) -> None:
    """What somebody changed in a copy of the demo is not written over."""
    run("demo", "--out", tmp_path / "demo")
    draft = tmp_path / "demo" / "drafts" / "2026-13.en.md"
    draft.write_text(LETTER, encoding="utf-8")

    result = run("demo", "--out", tmp_path / "demo")

    assert result.exit_code == 2
    assert "[demo-changed]" in result.stderr
    assert LETTER == draft.read_text(encoding="utf-8")


def test_version() -> None:
    """The version is told."""
    assert run("--version").stdout.startswith("bulletin ")


def test_a_day_that_has_not_come_is_not_issued(folder: Path) -> None:
    """A draft as of a later day than it is published warns, and is not issued."""
    early = ("--published", "2026-03-25T09:00:00+01:00")

    built = run("build", "week", "--data", folder, *early)
    issued = run("issue", "week", "--data", folder, *early)

    assert (built.exit_code, issued.exit_code) == (0, 1)
    assert "has not come" in built.stderr


def test_languages_of_different_days_are_no_bulletin(folder: Path) -> None:
    """All languages of a bulletin speak of the same day."""
    german = LETTER.replace("2026-03-27", "2026-03-20").replace("Week 13", "Woche 12")
    write(folder, german.replace("We boxed", "Verpackt:").split("this week")[0], "week.de.md")

    result = run("build", "week", "--data", folder, *FRIDAY)

    assert result.exit_code == 2
    assert "[days-apart]" in result.stderr


def test_a_path_is_issued_in_all_its_languages(folder: Path) -> None:
    """Issuing one language's file issues the draft in every language it is written in."""
    write(folder, GERMAN, "week.de.md")
    run("follow", "week", "--data", folder)

    result = run("issue", folder / "drafts" / "week.en.md", *FRIDAY)

    assert result.exit_code == 0
    assert (folder / "out" / "week" / "de" / "index.html").is_file()


def test_a_changed_original_makes_its_translation_stale(folder: Path) -> None:
    """A translation passes once it is marked, until its original changes; the changed paragraph is named."""
    write(folder, GERMAN, "week.de.md")
    unmarked = run("check", "week", "--data", folder, *FRIDAY)
    marked = run("follow", "week", "--data", folder)
    passed = run("check", "week", "--data", folder, *FRIDAY)
    write(folder, LETTER + "\nThank you for your patience.\n")
    stale = run("check", "week", "--data", folder, *FRIDAY)

    assert (unmarked.exit_code, marked.exit_code, passed.exit_code, stale.exit_code) == (1, 0, 0, 1)
    assert "week.de.md" in marked.stdout
    assert "line 12 (Thank you for your patience" in stale.stdout


def test_offers_are_applied_to_a_copy(folder: Path) -> None:
    """`check --apply` writes a copy with the sure offers, shows the difference and leaves the draft alone."""
    text = LETTER + "\nAltogether we boxed 53 looms this week.\n"
    write(folder, text)

    result = run("check", "week", "--data", folder, *FRIDAY, "--apply")
    copy = folder / "drafts" / "week.applied.en.md"

    assert result.exit_code == 1
    assert "+Altogether we boxed {{ boxed.week }} looms this week." in result.stdout
    assert text.replace("53", "{{ boxed.week }}") == copy.read_text(encoding="utf-8")
    assert text == (folder / "drafts" / "week.en.md").read_text(encoding="utf-8")


def test_the_manual_of_rules() -> None:
    """All rules in a line each, one in full, both as JSON; an unknown name is a wrong command line."""
    listed, page = run("rules"), run("rules", "unmentioned")
    data, unknown = run("rules", "unmentioned", "--json"), run("rules", "unmentionned")

    assert "unmentioned" in listed.stdout
    assert "Directive 2005/29/EC" in page.stdout
    assert json.loads(data.stdout)["rule"] == "unmentioned"
    assert len(json.loads(run("rules", "--json").stdout)) == len(listed.stdout.strip().split("\n"))
    assert (unknown.exit_code, "unmentioned" in unknown.stderr) == (2, True)


def test_a_refused_first_issue_leaves_nothing(folder: Path) -> None:
    """A correction of nothing is refused, and the next issue is the first."""
    refused = run("issue", "week", "--data", folder, *FRIDAY, "--corrects", "7")
    issued = run("issue", "week", "--data", folder, *FRIDAY)

    assert (refused.exit_code, issued.exit_code) == (2, 0)
    assert "as number 1" in issued.stdout


def test_a_record_elsewhere_leaves_other_files_alone(folder: Path, tmp_path: Path) -> None:
    """The orders' files of a record of another name have a folder of their own."""
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "12.db").write_text("mine", encoding="utf-8")

    result = run("issue", "week", "--data", folder, *FRIDAY, "--record", tmp_path / "out.db")

    assert result.exit_code == 0
    assert (tmp_path / "out" / "12.db").read_text(encoding="utf-8") == "mine"
    assert (tmp_path / "out.db.orders" / "1.db").is_file()


def test_a_record_that_is_not_there(folder: Path, tmp_path: Path) -> None:
    """A record that was named and is missing is no empty one."""
    assert run("record", "--record", tmp_path / "nowhere.db").exit_code == 2
    assert run("record", "--data", tmp_path / "nowhere").exit_code == 2
    assert run("record", "--data", folder).exit_code == 0


def test_an_open_safety_defect_comes_before_anything_pleasant(folder: Path) -> None:
    """The owner of a unit with an open safety defect is told to stop using it, and nothing of credit."""
    result = run("order", "F-1726", "--data", folder, "--as-of", "2026-03-27", "--locale", "en")

    assert "Please stop using it" in result.stdout
    assert "can hit a hand" in result.stdout
    assert "credit" not in result.stdout


def test_backtest_holds_windows_of_bulletins_against_what_came(folder: Path, tmp_path: Path) -> None:
    """Windows that an issued bulletin told of orders are told apart, and the page is written where it is asked for."""
    head = LETTER.split("\n\n")[0].replace("2026-03-27", "2026-02-27").replace("Week 13", "Week 9")
    write(folder, f"{head}\n\nHello.\n", "feb.en.md")
    issued = run("issue", "feb", "--data", folder, "--published", "2026-02-27T16:00:00+01:00")
    told = run("backtest", "--data", folder, "--as-of", "2026-03-27", "--out", tmp_path)

    assert issued.exit_code == 0, issued.output
    assert re.search(r"As told: \d{2,3} windows of up to 1 bulletins", told.stdout)
    assert ["backtest.json", "index.html", "windows.svg"] == sorted(path.name for path in (tmp_path / "backtest").iterdir())


def test_promises_of_an_issued_draft_are_kept_count_of(folder: Path) -> None:
    """A window in an issued draft is a promise from that day on, its own draft apart, and what came decides it."""
    head = LETTER.replace("2026-03-27", "2026-03-06").replace("Week 13", "Week 10").split("\n\n")[0]
    spring = head + "\n\nWe expect to box {{ forecast.month | units }} this month.\n"
    write(folder, spring, "spring.en.md")
    day = ("--published", "2026-03-06T16:00:00+01:00")
    issued = run("issue", "spring", "--data", folder, *day)
    key = 'promises["spring.1"].state'
    states = [
        json.loads(run("facts", key, "--data", folder, "--as-of", as_of, "--json").stdout)["facts"][key]["value"]
        for as_of in ("2026-03-06", "2026-03-27")
    ]
    shown = json.loads(run("record", "--data", folder, "--json").stdout)["bulletins"][0]["promises"]

    assert issued.exit_code == 0, issued.output
    assert ["open", "kept"] == states
    assert [("spring.1", "2026-03-31", "forecast")] == [(one["promise"], one["due"], one["basis"]) for one in shown]
    assert "We expect to box 195–221 looms this month." in run("record", "--data", folder).stdout
    assert run("facts", key, "--data", folder, "--as-of", "2026-03-05").exit_code == 2


def test_backtest(folder: Path) -> None:
    """Past windows are held against what came, as a table and as data."""
    told = run("backtest", "--data", folder, "--as-of", "2026-03-27")
    data = json.loads(run("backtest", "--data", folder, "--as-of", "2026-03-27", "--json").stdout)
    early = run("backtest", "--data", folder, "--as-of", "2025-01-10")

    assert "interval score" in told.stdout
    assert {"as_of", "note", "widening", "places", "as_told", "windows"} == set(data)
    assert (early.exit_code, "nothing to hold" in early.stdout) == (0, True)
