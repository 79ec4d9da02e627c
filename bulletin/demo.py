"""The demo: an invented maker's folder, copied, checked and built, with a word on each step."""

from __future__ import annotations

import shutil
from datetime import datetime
from pathlib import Path

from bulletin import pipeline
from bulletin.documents.order import order_text
from bulletin.model import Place, Problem
from bulletin.places import shipped_folder
from bulletin.workshop import Clock, Workshop, lines_of_order

DRAFT = "2026-13"
PUBLISHED = datetime.fromisoformat("2026-03-27T16:00:00+01:00")
"""The Friday that the demo's tables end on; with today's date they would be stale."""
MARK = "bulletin.toml"


def copy_demo(out: Path) -> list[Problem]:
    """Copy the demo maker's folder; a file that differs from the demo's, or another folder, is left as it is."""
    demo = shipped_folder("data") / "demo"
    pairs = [(file, out / file.relative_to(demo)) for file in sorted(demo.rglob("*")) if file.is_file()]
    if (out.exists() and not out.is_dir()) or (out.is_dir() and any(out.iterdir()) and not (out / MARK).is_file()):
        return [Problem("folder-taken", "error", Place(str(out)), str(out))]
    changed = [copy for file, copy in pairs if copy.is_file() and copy.read_bytes() != file.read_bytes()]
    if changed:
        return [Problem("demo-changed", "error", Place(str(copy)), str(out)) for copy in changed]
    try:
        shutil.copytree(demo, out, dirs_exist_ok=True)
    except OSError as fault:
        return [Problem("out-unwritable", "error", Place(str(out)), str(out), {"why": fault.strerror or str(fault)})]
    return []


def tell_demo(shop: Workshop) -> tuple[str, list[Problem]]:
    """Build this week's bulletin of the demo; tell what was read, what was checked, and where the documents lie."""
    clock = Clock(PUBLISHED)
    built, found = pipeline.build(shop, DRAFT, clock)
    if built.blocked or any(problem.level == "error" for problem in found):
        return "The demo's own draft did not pass.", [*built.findings, *found]
    written, problems = pipeline.deliver(built, shop.folder / "out")
    if problems:
        return "The demo's documents can't be written.", problems
    paragraphs = (told_read(shop), told_checked(built), told_order(shop, clock), told_notices(built), told_written(written))
    return "\n\n".join(paragraphs), found


def told_read(shop: Workshop) -> str:
    """The tables with their rows."""
    rows = sum(len(table.frame) for table in shop.tables.values())
    return f"Read {len(shop.tables)} tables of {shop.maker.name} with {rows:,} rows; every cell was checked."


def told_checked(built: pipeline.Built) -> str:
    """What the checker held against the facts in each locale."""
    lines = []
    for verdict in built.verdicts:
        claims = [judged for judged in verdict.judged if judged.judgement != "opinion"]
        facts = {fact.key for judged in claims for fact in judged.facts}
        warnings = len(verdict.findings)
        lines.append(
            f"Checked {verdict.draft.name} in {verdict.draft.locale}: {len(claims)} claims and figures rest on "
            f"{len(facts)} facts; nothing is blocked, {warnings} warnings."
        )
    return "\n".join(lines)


def told_order(shop: Workshop, clock: Clock) -> str:
    """The status of an order in the middle of its queue, as support would paste it."""
    orders = shop.tables["orders"].frame
    waiting = orders.loc[orders["status"] == "waiting", "order"].astype("str").tolist()
    middle = waiting[len(waiting) // 2 :]
    number, lines = next((number, lines) for number in middle if (lines := lines_of_order(shop, number, clock)[0])[0].place)
    locale = shop.maker.locales[0]
    command = f"bulletin order {number} --data {shop.folder} --as-of {clock.day(shop)} --locale {locale}"
    return f"{command}\n  {order_text(lines, shop.maker, locale, shop.names)}"


def told_notices(built: pipeline.Built) -> str:
    """The notices of delay that are due."""
    mails = sum(document.media_type == "message/rfc822" for document in built.notices)
    return f"{mails} orders are due a notice of delay: their mails, a list and the rows to enter lie in for-the-maker/notices."


def told_written(written: list[Path]) -> str:
    """Where the documents lie."""
    return "\n".join([f"Wrote {len(written)} documents:", *(f"  {path}" for path in written)])
