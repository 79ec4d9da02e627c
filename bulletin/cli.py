"""The command line: arguments in, pipeline, report, exit status. The only place that reads the clock, prints or exits.

Exit status: 0 clean or warnings; 1 something is blocked or contradicted; 2 the command line, the settings or a table is wrong;
3 a bug. Results go to standard output, messages to standard error. What a command needs is imported when it runs.
"""

from __future__ import annotations

import io
import sys
import traceback
from collections.abc import Iterable
from datetime import date, datetime
from importlib import metadata
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from bulletin.model import Problem
    from bulletin.pipeline import Built
    from bulletin.workshop import Clock, Workshop

HERE = Path()
IDENTITY = "Before you paste this: make sure that whoever asks is the customer of this order."

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
    help="Weekly bulletins to customers who wait, held against the maker's own records.",
)


def a_day(text: str) -> date:
    """An ISO 8601 date of the command line. Raises typer.BadParameter."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise typer.BadParameter(f"{text!r} is no date; write it as 2026-03-27") from None


def a_moment(text: str) -> datetime:
    """An ISO 8601 time of the command line; without an offset it is one of the maker's zone. Raises typer.BadParameter."""
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        raise typer.BadParameter(f"{text!r} is no time; write it as 2026-03-27T16:00+01:00") from None


def a_locale(text: str) -> str:
    """A BCP 47 locale of the command line. Raises typer.BadParameter."""
    from bulletin.settings.codes import locale_tag

    tag = locale_tag(text)
    if tag is None:
        raise typer.BadParameter(f"{text!r} is no locale that CLDR knows; write it as de or pt-BR")
    return tag


Data = Annotated[Path, typer.Option("--data", metavar="DIR", help="The data folder (default: this one).")]
DraftData = Annotated[
    Path | None, typer.Option("--data", metavar="DIR", help="The data folder (default: that of the draft, else this one).")
]
AsOf = Annotated[
    date | None,
    typer.Option("--as-of", parser=a_day, metavar="DATE", help="The day of the facts (default: the draft's, else today)."),
]
Published = Annotated[
    datetime | None, typer.Option("--published", parser=a_moment, metavar="TIME", help="When it is published (default: now).")
]
Record = Annotated[
    Path | None, typer.Option("--record", metavar="FILE", help="The record (default: issued.db in the data folder).")
]
Out = Annotated[
    Path | None, typer.Option("--out", metavar="DIR", help="Where documents go (default: out/ in the data folder).")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Locale = Annotated[
    str | None, typer.Option("--locale", parser=a_locale, metavar="TAG", help="The reader's locale (BCP 47).")
]
DraftName = Annotated[str, typer.Argument(metavar="DRAFT", help="A draft's name, or the path of one locale's file.")]


def clock(shop: Workshop, published: datetime | None, as_of: date | None) -> Clock:
    """The one reading of the clock."""
    from bulletin.workshop import Clock

    zone = shop.settings.maker.zone
    moment = published or datetime.now(zone)
    return Clock(moment if moment.tzinfo else moment.replace(tzinfo=zone), as_of)


def workshop(data: Path, record: Path | None = None) -> Workshop:
    """The data folder, read; ends the command where anything in it is wrong."""
    from bulletin.workshop import open_workshop

    found, problems = open_workshop(data, record)
    say(problems)
    if found is None:
        raise typer.Exit(2)
    return found


def say(problems: list[Problem]) -> None:
    """Messages to standard error."""
    from bulletin.report import worded

    for line in worded(problems):
        typer.echo(line, err=True)


def show(content: object) -> None:
    """JSON to standard output."""
    from bulletin.report import as_text

    typer.echo(as_text(content))


def refuse(problems: list[Problem]) -> None:
    """Say what is wrong; end the command where that is an error."""
    say(problems)
    if any(problem.level == "error" for problem in problems):
        raise typer.Exit(2)


@app.command()
def demo(out: Annotated[Path, typer.Option("--out", metavar="DIR", help="Where the copy goes.")] = Path("out/demo")) -> None:
    """Copy the demo maker, build this week's bulletin of it and tell what was read, checked and written."""
    from bulletin import demo as showing

    problems = showing.copy_demo(out)
    refuse(problems)
    shop = workshop(out)
    told, problems = showing.tell_demo(shop)
    typer.echo(told)
    refuse(problems)


@app.command()
def facts(
    keys: Annotated[list[str] | None, typer.Argument(metavar="[KEY]...", help="Facts or families to show.")] = None,
    data: Data = HERE,
    as_of: AsOf = None,
    published: Published = None,
    locale: Locale = None,
    record: Record = None,
    as_json: AsJson = False,
) -> None:
    """Show what the records bear out: all facts, or the named ones with the rows that made them."""
    from bulletin.formats.printing import Format
    from bulletin.report.facts import fact_sheets, facts_json, facts_table
    from bulletin.workshop import book_of, named_facts

    shop = workshop(data, record)
    day = clock(shop, published, as_of).day(shop)
    book, problems = book_of(shop, day)
    refuse(problems)
    found, unknown = named_facts(book, keys or [])
    refuse(unknown)
    style = Format(locale or shop.maker.locales[0], shop.names)
    if as_json:
        show(facts_json(day, found, lines=bool(keys)))
    else:
        few = len(found) <= len(keys or [])
        typer.echo(fact_sheets(found, style) if few else facts_table(found, style))


@app.command()
def check(
    draft: DraftName,
    data: DraftData = None,
    as_of: AsOf = None,
    published: Published = None,
    record: Record = None,
    as_json: AsJson = False,
    apply: Annotated[bool, typer.Option("--apply", help="Write a copy with the sure offers in it, show the difference.")] = False,
) -> None:
    """Hold a draft against the facts: what the numbers don't support, and what was left unsaid."""
    from bulletin import pipeline
    from bulletin.report.verdicts import verdicts_json, verdicts_text

    shop = workshop(folder_of(draft, data), record)
    built, problems = pipeline.check(shop, draft, clock(shop, published, as_of))
    refuse(problems)
    if apply:
        apply_offers(built, err=as_json)
    if as_json:
        show(verdicts_json(built.verdicts))
    else:
        typer.echo(verdicts_text(built.verdicts))
    raise typer.Exit(1 if built.blocked else 0)


@app.command()
def follow(draft: DraftName, data: DraftData = None) -> None:
    """Mark a translation as following its original as it is now; named without a locale, all translations of the draft."""
    from bulletin.rewriting import follow as mark

    shop = workshop(folder_of(draft, data))
    paths, problems = mark(shop, draft)
    refuse(problems)
    show_paths(paths)


@app.command()
def build(
    draft: DraftName,
    data: DraftData = None,
    as_of: AsOf = None,
    published: Published = None,
    record: Record = None,
    out: Out = None,
) -> None:
    """Write the documents of a draft that passes: e-mail, web page, blog post and evidence in each of its locales."""
    from bulletin import pipeline

    shop = workshop(folder_of(draft, data), record)
    built, problems = pipeline.build(shop, draft, clock(shop, published, as_of))
    say(built.findings)
    refuse(problems)
    stop_if_blocked(built)
    paths, problems = pipeline.deliver(built, out or shop.folder / "out")
    refuse(problems)
    show_paths(paths)


@app.command()
def issue(
    draft: DraftName,
    data: DraftData = None,
    as_of: AsOf = None,
    published: Published = None,
    record: Record = None,
    out: Out = None,
    corrects: Annotated[
        int | None, typer.Option("--corrects", metavar="NUMBER", help="The bulletin on record that this one corrects.")
    ] = None,
) -> None:
    """Build a draft and put it on record for good."""
    from bulletin import pipeline

    shop = workshop(folder_of(draft, data), record)
    moment = clock(shop, published, as_of)
    built, receipt, problems = pipeline.issue(shop, draft, moment, out=out or shop.folder / "out", corrects=corrects)
    say(built.findings)
    refuse(problems)
    stop_if_blocked(built)
    if receipt:
        show_paths(receipt.paths)
        typer.echo(f"on record as number {receipt.number} in {shop.ledger}")


@app.command()
def record(
    data: Data = HERE,
    ledger: Record = None,
    verify: Annotated[bool, typer.Option("--verify", help="Hold everything on record against its digests.")] = False,
    as_json: AsJson = False,
) -> None:
    """Show what was issued; --verify tells whether all of it still is as it was written."""
    from bulletin.model import Place, Problem
    from bulletin.record.history import read_record
    from bulletin.record.history import verify as verify_record
    from bulletin.record.promises import read_pledges
    from bulletin.report.recorded import record_json, record_text
    from bulletin.workshop import LEDGER

    path = ledger or data / LEDGER
    if (ledger and not ledger.is_file()) or not data.is_dir():
        refuse([Problem("record-missing", "error", Place(str(path)))])
    altered = verify_record(path) if verify else []
    issued, problems = ((), []) if altered else read_record(path)
    promised, lost = ({}, []) if altered or problems else read_pledges(path)
    refuse([*problems, *lost])
    say(altered)
    if altered:
        raise typer.Exit(1)
    if as_json:
        show(record_json(issued, promised))
    else:
        typer.echo(record_text(issued, promised))
        if issued and verify:
            typer.echo(f"All {len(issued)} are as they were issued.")


@app.command()
def backtest(
    data: Data = HERE,
    as_of: AsOf = None,
    published: Published = None,
    record: Record = None,
    out: Annotated[Path | None, typer.Option("--out", metavar="DIR", help="Where a page with the chart is written.")] = None,
    as_json: AsJson = False,
) -> None:
    """Hold delivery windows as of each past week, and those that bulletins told, against what came."""
    from bulletin.delivery import lay_out
    from bulletin.facts.ahead.backtest import backtest_of
    from bulletin.facts.scopes.family import Gap
    from bulletin.report.backtest import backtest_text
    from bulletin.report.backtest_page import backtest_documents
    from bulletin.workshop import book_of, windows_told

    shop = workshop(data, record)
    day = clock(shop, published, as_of).day(shop)
    (book, problems), (told, faults) = book_of(shop, day), windows_told(shop, day)
    refuse([*problems, *faults])
    found = backtest_of(book.day, told)
    if isinstance(found, Gap):
        typer.echo(f"There is nothing to hold windows against: {found.why}.")
        return
    show(found.as_json()) if as_json else typer.echo(backtest_text(found))
    if out is not None:
        delivery, problems = lay_out(backtest_documents(found, shop.maker.name), out)
        refuse(problems)
        for path in delivery.put() if delivery else []:
            typer.echo(str(path), err=as_json)


@app.command()
def order(
    number: Annotated[str, typer.Argument(metavar="ORDER", help="The order, as in orders.csv.")],
    data: Data = HERE,
    as_of: AsOf = None,
    published: Published = None,
    locale: Locale = None,
    record: Record = None,
    as_json: AsJson = False,
) -> None:
    """Print where one order stands, for support to paste, in the order's own language."""
    from bulletin.documents.order import order_json, order_text
    from bulletin.report.notices import to_enter
    from bulletin.workshop import lines_of_order

    shop = workshop(data, record)
    moment = clock(shop, published, as_of)
    lines, problems = lines_of_order(shop, number, moment)
    refuse(problems)
    typer.echo(IDENTITY, err=True)
    for line in to_enter(lines, moment.published.astimezone(shop.settings.maker.zone).date()):
        typer.echo(line, err=True)
    reader = locale or lines[0].locale
    if as_json:
        show(order_json(lines, shop.maker, reader, shop.names))
    else:
        typer.echo(order_text(lines, shop.maker, reader, shop.names))


@app.command()
def rules(
    name: Annotated[str | None, typer.Argument(metavar="[NAME]", help="The rule to show.")] = None, as_json: AsJson = False
) -> None:
    """Show the manual of rules: all of them in a line each, or one with its reason and its examples."""
    from bulletin.report.manual import rule_named, rule_text, rules_json, rules_text

    if name is None:
        show(rules_json()) if as_json else typer.echo(rules_text())
        return
    rule, problems = rule_named(name)
    refuse(problems)
    if rule is not None:
        show(rules_json([rule])[0]) if as_json else typer.echo(rule_text(rule))


def folder_of(draft: str, data: Path | None) -> Path:
    """The data folder: the one named, else the one whose `drafts/` holds the file, else this one."""
    file = Path(draft)
    if data is not None:
        return data
    return file.parent.parent if file.suffix == ".md" and file.parent.name == "drafts" else HERE


def apply_offers(built: Built, *, err: bool) -> None:
    """Write a copy of each draft with its sure offers in it, and show what is other there; beside JSON on standard error."""
    from bulletin.rewriting import apply

    for verdict in built.verdicts:
        if any(finding.applies for finding in verdict.findings):
            copy, difference, problems = apply(verdict)
            refuse(problems)
            typer.echo(difference, nl=False, err=err)
            typer.echo(f"The copy lies in {copy}; the draft is as it was.", err=True)


def stop_if_blocked(built: Built) -> None:
    """End the command where anything must not go out."""
    if built.blocked:
        typer.echo("Nothing was written, nothing is on record.", err=True)
        raise typer.Exit(1)


def show_paths(paths: Iterable[Path]) -> None:
    """Where documents lie, one a line."""
    for path in paths:
        typer.echo(str(path))


def show_version(asked: bool) -> None:
    """The version, and the end of the command."""
    if asked:
        typer.echo(f"bulletin {metadata.version('bulletin-of-facts')}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=show_version, is_eager=True, help="Show the version and exit.")
    ] = False,
) -> None:
    """Weekly bulletins to customers who wait, held against the maker's own records."""


def main() -> None:
    """Run the command line; a fault of our own ends with status 3 and says how to report it."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    try:
        app()
    except Exception as bug:
        traceback.print_exc()
        sys.stderr.write(f"bulletin: this is a fault of the program, not of your data ({type(bug).__name__}). ")
        sys.stderr.write("Nothing more was written. Please report the lines above.\n")
        sys.exit(3)
