"""The evidence: every claim of a bulletin with the records behind it, for the maker alone, as HTML and JSON.

It is written in English like the checker's messages; the maker's own words stand in it as they are.
"""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from bulletin.documents.evidence_rows import anchor_of, listed_rows
from bulletin.documents.line_chart import HEIGHT, WIDTH, compared, line_chart
from bulletin.documents.marks import data, mark_words, moment
from bulletin.documents.pages import page, style, style_digest
from bulletin.documents.plain import plain_line
from bulletin.documents.reader import Reader
from bulletin.documents.statements import LANGUAGE, passages, statements
from bulletin.formats.exact import machine_number
from bulletin.model import Document
from bulletin.values import to_json

if TYPE_CHECKING:
    from collections.abc import Container, Sequence

    from bulletin.documents.evidence_rows import ListedRow
    from bulletin.documents.letter import Letter
    from bulletin.documents.statements import Statement, Support
    from bulletin.model import Attestation, Bulletin, Output, Problem, Waived

RUNS_SHOWN = 16
NOT_KNOWN = (
    "Whether a cause that is given is the true one.",
    "What a picture shows.",
    "What was left out of the tables.",
)
"""What no checker of records can know (the end of the design's list of checks)."""
SAFETY = (
    "Where one of these faults may harm somebody, consult your authority's rules and a qualified person before anything is "
    "published. The program is no safety engineer."
)
"""The caution on every bulletin that speaks of a defect."""


def documents(letter: Letter) -> list[Document]:
    """The evidence of a bulletin, to read and print, and for programs."""
    told = json.dumps(as_json(letter), ensure_ascii=False, indent=1) + "\n"
    return [
        Document(f"{letter.private_folder}/evidence.html", "text/html", as_html(letter).encode()),
        Document(f"{letter.private_folder}/evidence.json", "application/json", told.encode()),
    ]


def as_html(letter: Letter) -> str:
    """The evidence to read and print."""
    bulletin = letter.bulletin
    reader = Reader(LANGUAGE, bulletin.as_of, bulletin.names)
    css = style("shared/maker.css", "evidence/page.css")
    listed = listed_rows(statements(bulletin))
    anchors = {row.anchor for rows in listed.values() for row in rows}
    return page(
        "evidence/page.html",
        LANGUAGE,
        bulletin=bulletin,
        body=letter.body,
        css=css,
        css_digest=style_digest(css),
        as_of=moment(reader.format.day(bulletin.as_of), bulletin.as_of.isoformat()),
        published=moment(bulletin.published.isoformat(" ", "minutes"), bulletin.published.isoformat()),
        passages=passages(bulletin),
        listed=listed,
        left_out=[(table.file, row) for table in bulletin.tables for row in table.left_out],
        cautions=cautions(bulletin),
        not_known=NOT_KNOWN,
        digest=digest_of(bulletin),
        lines=lambda file, lines: _line_list(file, lines, anchors),
        told=message_of,
        number=lambda count: data(reader.format.number(count), str(count)),
        words=lambda text: mark_words(text, reader),
        raw=lambda text: data(text, text),
        decimal=lambda rate: data(reader.format.number(rate, 1), machine_number(rate)),
        output=bulletin.output,
        chart=line_chart(bulletin.output) if bulletin.output else None,
        changed=compared(bulletin.changed),
        width=WIDTH,
        height=HEIGHT,
        day=lambda day: moment(reader.format.day(day), day.isoformat()),
    )


def cautions(bulletin: Bulletin) -> list[str]:
    """What the maker must think of before this goes out."""
    defects = any(fact.key.startswith("defects.") for judged in bulletin.verdict.judged for fact in judged.facts)
    return [SAFETY] if defects else []


def message_of(finding: Problem) -> str:
    """A finding in a sentence; empty for one that words itself elsewhere."""
    return finding.sentence.format(words=finding.words, **finding.details) if finding.sentence else ""


def _line_list(file: str, lines: Sequence[int], anchors: Container[str]) -> Markup:
    """Line numbers with their marks, those of listed rows as links to them; neighbours as a span: 2-5, 9.

    Long lists are cut, the JSON form holds them all.
    """
    runs: list[list[int]] = []
    for line in lines:
        if runs and line == runs[-1][1] + 1:
            runs[-1][1] = line
        else:
            runs.append([line, line])
    shown = [_run(file, (first, last), anchors) for first, last in runs[:RUNS_SHOWN]]
    return Markup(", ").join([*shown, "and more, all of them in evidence.json"] if len(runs) > RUNS_SHOWN else shown)


def _run(file: str, ends: tuple[int, int], anchors: Container[str]) -> Markup:
    return Markup("–").join(_line(file, line, anchors) for line in dict.fromkeys(ends))


def _line(file: str, line: int, anchors: Container[str]) -> Markup:
    number, anchor = data(str(line), str(line)), anchor_of(file, line)
    return Markup('<a href="#{}">{}</a>').format(anchor, number) if anchor in anchors else number


def digest_of(bulletin: Bulletin) -> str:
    """The SHA-256 digest of the draft as it was read."""
    return sha256(bulletin.draft.source.encode()).hexdigest()


def as_json(letter: Letter) -> dict[str, Any]:
    """The evidence for programs; values as in the facts' own JSON."""
    bulletin = letter.bulletin
    verdict, header, told = bulletin.verdict, bulletin.draft.header, statements(bulletin)
    told_in = ((passage, statement) for passage in passages(bulletin) for statement in passage.statements)
    sentences = {statement.judged.claim.start: plain_line(passage.words) for passage, statement in told_in}
    return {
        "for": "the maker only",
        "draft": bulletin.draft.name,
        "locale": bulletin.draft.locale,
        "title": letter.body.title,
        "readers": header.readers,
        "as_of": bulletin.as_of.isoformat(),
        "published": bulletin.published.isoformat(),
        "claims": [_claim_json(statement, sentences[statement.judged.claim.start]) for statement in told],
        "findings": [_finding_json(finding) for finding in verdict.findings],
        "widened": bulletin.widened,
        "waived": [_waived_json(waived) for waived in verdict.waived],
        "attested": [_attested_json(line) for line in header.attested],
        "rows": {file: [_row_json(row) for row in rows] for file, rows in listed_rows(told).items()},
        "left_out": [
            {"file": table.file, "line": line, "cells": dict(cells)}
            for table in bulletin.tables
            for line, cells in table.left_out
        ],
        "output": _output_json(bulletin.output) if bulletin.output else None,
        "changed": [{fact.key: to_json(fact.value) for fact in pair} for pair in bulletin.changed],
        "cautions": cautions(bulletin),
        "not_known": list(NOT_KNOWN),
        "digests": {"draft": digest_of(bulletin), **{table.file: table.digest for table in bulletin.tables}},
    }


def _row_json(row: ListedRow) -> dict[str, Any]:
    return {"line": row.line, "cells": dict(row.cells)}


def _claim_json(statement: Statement, sentence: str) -> dict[str, Any]:
    judged, claim = statement.judged, statement.judged.claim
    return {
        "line": claim.place.line,
        "column": claim.place.column,
        "sentence": sentence,
        "words": plain_line(statement.words),
        "condition": claim.condition,
        "filled": statement.filled,
        "verdict": judged.judgement,
        "view": "the author's own" if judged.judgement == "opinion" else None,
        "facts": [_support_json(support) for support in statement.supports],
    }


def _support_json(support: Support) -> dict[str, Any]:
    fact = support.fact
    return {
        "key": fact.key,
        "value": to_json(fact.value),
        "unit": fact.unit,
        "basis": fact.basis.value,
        "as_of": fact.as_of.isoformat(),
        "how": fact.how,
        "rows": {rows.file: {"count": rows.count, "lines": list(rows.lines)} for rows in support.rows},
    }


def _finding_json(finding: Problem) -> dict[str, Any]:
    place = finding.place
    return {
        "rule": finding.rule,
        "level": finding.level,
        "line": place.line,
        "column": place.column,
        "words": finding.words,
        "message": message_of(finding),
        "offer": finding.offer,
    }


def _waived_json(waived: Waived) -> dict[str, Any]:
    line = waived.waiver.place.line
    return {**_finding_json(waived.finding), "who": waived.waiver.who, "why": waived.waiver.why, "waived_on_line": line}


def _attested_json(line: Attestation) -> dict[str, Any]:
    return {"text": line.text, "who": line.who, "until": line.until.isoformat() if line.until else None}


def _output_json(output: Output) -> dict[str, Any]:
    """The individuals chart, in units a working day."""
    return {
        "low": to_json(output.low),
        "centre": to_json(output.centre),
        "high": to_json(output.high),
        "weeks": [[week.first.isoformat(), to_json(week.rate), week.outside] for week in output.weeks],
    }
