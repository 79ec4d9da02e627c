"""Finds the three forms in the source of a draft, before Markdown sees it.

Words run from `[` to its own `]`; `{` follows at once; the condition ends at the first `}` outside quotes, in the same
paragraph. Whatever comes near a form without being one is a fault, never prose: a brace out of its place would otherwise
take a claim back into the text unchecked.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from bulletin.draft.expressions import Fault
from bulletin.draft.parsing import LONGEST_CONDITION, parse, parse_printed
from bulletin.draft.tokens import CLOSING


@dataclass(frozen=True, slots=True)
class Form:
    """A form by its offsets: the whole, its words, what stands between its braces. A broken one has a fault already."""

    kind: Literal["printed", "claim"]
    span: tuple[int, int]
    words: tuple[int, int]
    inner: tuple[int, int]
    broken: bool = False
    inside: tuple[Form, ...] = ()


@dataclass(slots=True)
class Scan:
    """What a stretch of source holds."""

    forms: list[Form] = field(default_factory=list)
    notes: list[tuple[int, int]] = field(default_factory=list)
    code: list[tuple[int, int]] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)


@dataclass(slots=True)
class Opening:
    """A `[` that waits for its `]`: where it stands, how many forms, notes and links there were before it."""

    at: int
    forms: int
    notes: int
    links: int = 0


BORDER = re.compile(r"\n[ \t]*(?=\n)|\n(?=[ ]{0,3}(?:[-*+]|#{1,6})[ \t])")
SIGN = re.compile(
    r"""(?P<fence>^(?P<ticks>~{3,}|`{3,})[ ]*\.?[\w#.+-]*[ ]*\n(?:.*?\n)??(?P=ticks)[ ]*$)
    |(?P<escape>\\[\\`*_{}\[\]()>\#+\-.!|~])
    |(?P<span>(?<!`)(?P<marks>`+)(?!`)(?:(?!\n[ \t]*\n).)+?(?<!`)(?P=marks)(?!`))
    |(?P<border>\n[ \t]*(?=\n)|\n(?=[ ]{0,3}(?:[-*+]|\#{1,6})[ \t]))
    |(?P<note>\{\#)|(?P<statement>\{%)|(?P<printed>\{\{)
    |(?P<opening>\[)|(?P<closing>\])|(?P<brace>[{}])|(?P<wide>［|【|｛|｝)""",
    re.VERBOSE | re.MULTILINE | re.DOTALL,
)
WIDE_FORM = re.compile(r"(?P<opening>[［【])(?P<words>[^［］【】\[\]]*)[］】][ \t\n]*[{｛](?P<inner>[^}｝]*)[}｝]")
WIDE_CONDITION = re.compile(r"｛([^}｝]*)[}｝]")
GAP = re.compile(r"[ \t]*\n?[ \t]*\{(?![{%#])")
DESTINATION = re.compile(r"\(((?:[^()\n]|\n(?![ \t]*\n)|\([^()\n]*\))*)\)")
ADDRESS = re.compile(r"\s*<?(?:[a-z][a-z0-9+.-]*:|[/#?])", re.IGNORECASE)
COMPARED = re.compile(r"\s(?:[=!<>]=?|[≥≤≠])\s")
OPINION = re.compile(r"\s*opinions?\s*", re.IGNORECASE)


def scan(source: str, start: int, end: int) -> Scan:
    """All forms, notes, code and faults between two offsets of a draft's source, in order. Never raises."""
    scanner = Scanner(source[:end])
    at = start
    while True:
        sign = SIGN.search(scanner.text, at)
        if sign is None:
            break
        at = scanner.read(sign)
    scanner.found.faults.sort(key=lambda fault: (fault.start, fault.end))
    return scanner.found


@dataclass(slots=True)
class Scanner:
    """Goes over the source once, from left to right."""

    text: str
    found: Scan = field(default_factory=Scan)
    open: list[Opening] = field(default_factory=list)

    def read(self, sign: re.Match[str]) -> int:
        """Take in one sign; returns where to go on."""
        match sign.lastgroup:
            case "fence" | "span":
                self.found.code.append(sign.span())
            case "border":
                self.open.clear()
            case "note":
                return self._note(sign.start())
            case "statement":
                return self._statement(sign.start())
            case "printed":
                return self._printed(sign.start())
            case "opening":
                self.open.append(Opening(sign.start(), len(self.found.forms), len(self.found.notes)))
            case "closing":
                return self._closed(sign.start())
            case "brace":
                return self._stray(sign.start())
            case "wide":
                return self._wide(sign.start())
        return sign.end()

    def _note(self, at: int) -> int:
        end = self.text.find("#}", at + 2)
        if end < 0:
            self._fault((at, at + 2), "this note has no end: a note ends with #}")
            return at + 2
        self.found.notes.append((at, end + 2))
        return end + 2

    def _statement(self, at: int) -> int:
        end = self.text.find("%}", at + 2, self._limit(at + 2) + 2)
        stop = end + 2 if end >= 0 else at + 2
        self._fault((at, stop), "a draft holds no {% %}: facts are printed by {{ }}, claims are [words]{condition}")
        return stop

    def _printed(self, at: int) -> int:
        end = self._end(at + 2, "}}")
        if end is None:
            self._fault((at, at + 2), "this printed fact has no end: }} must follow in the same paragraph, within 300 characters")
            return at + 2
        span = (at, end + 2)
        self.found.forms.append(Form("printed", span, span, (at + 2, end)))
        return end + 2

    def _closed(self, at: int) -> int:
        """A `]`: what follows it says whether words of a claim end here."""
        behind = at + 1
        if not self.open:
            return behind
        opening = self.open.pop()
        if self.text.startswith("{{", behind):
            return self._doubled(opening, at)
        if self.text.startswith("{", behind):
            return self._claim(opening, at)
        if self.text.startswith("(", behind):
            return self._link(opening, at)
        if self.text.startswith("｛", behind):
            return self._wide_condition(opening, at)
        gap = GAP.match(self.text, behind)
        if gap:
            return self._apart(opening, at, gap.end() - 1)
        if self.open:
            self.open[-1].links += opening.links
        return behind

    def _claim(self, opening: Opening, at: int) -> int:
        end = self._end(at + 2, "}")
        if end is None:
            self._fault((at + 1, at + 2), "this condition has no end: } must follow in the same paragraph, within 300 characters")
            self._add(opening, at, (at + 2, at + 2), at + 2, broken=True)
            return at + 2
        fault = self._fault_of_words(opening, at)
        if fault:
            self._fault((opening.at, at + 1), fault)
        inner = self.text[at + 2 : end]
        opinion = OPINION.fullmatch(inner) is not None and inner.strip() != "opinion"
        if opinion:
            self._fault((at + 1, end + 1), "an opinion is marked by {opinion}", f"{self.text[opening.at : at + 1]}{{opinion}}")
        self._add(opening, at, (at + 2, end), end + 1, broken=bool(fault) or opinion)
        return end + 1

    def _fault_of_words(self, opening: Opening, at: int) -> str:
        if not self.text[opening.at + 1 : at].strip():
            return "a claim needs words between [ and ]"
        if any(form.kind == "claim" for form in self.found.forms[opening.forms :]):
            return "claims do not nest: one ends before the next begins"
        if len(self.found.notes) > opening.notes:
            return "no note stands inside the words of a claim: put it before or behind"
        if opening.links > 1:
            return "the words of a claim hold one link at most"
        return ""

    def _doubled(self, opening: Opening, at: int) -> int:
        end = self._end(at + 3, "}}")
        stop = end + 2 if end is not None else at + 3
        offer = f"{self.text[opening.at : at + 1]}{{{self.text[at + 3 : end].strip()}}}" if end is not None else ""
        self._fault((opening.at, stop), "the condition of a claim stands in single braces", offer)
        self._add(opening, at, (stop, stop), stop, broken=True)
        return stop

    def _apart(self, opening: Opening, at: int, brace: int) -> int:
        end = self._end(brace + 1, "}")
        stop = end + 1 if end is not None else brace + 1
        offer = f"{self.text[opening.at : at + 1]}{self.text[brace:stop]}" if end is not None else ""
        self._fault((opening.at, stop), "the condition follows its words at once, without a space between ] and {", offer)
        self._add(opening, at, (stop, stop), stop, broken=True)
        return stop

    def _link(self, opening: Opening, at: int) -> int:
        destination = DESTINATION.match(self.text, at + 1)
        if destination is None:
            return at + 1
        words, stop = self.text[opening.at : at + 1], destination.end()
        picture = self.text.startswith("!", max(opening.at - 1, 0))
        if not picture and _is_condition(destination[1]):
            offer = f"{words}{{{destination[1].strip()}}}"
            self._fault((opening.at, stop), "a condition stands in braces, not in round brackets", offer)
            self._add(opening, at, (stop, stop), stop, broken=True)
        elif self.text.startswith("{", stop) and not self.text.startswith(("{{", "{%", "{#"), stop):
            end = self._end(stop + 1, "}")
            close = end + 1 if end is not None else stop + 1
            offer = f"[{self.text[opening.at : stop]}]{self.text[stop:close]}" if end is not None else ""
            self._fault((opening.at, close), "a link that is a claim stands in brackets of its own", offer)
            self._add(opening, at, (close, close), close, broken=True)
            return close
        elif self.open:
            self.open[-1].links += 1 + opening.links
        return stop

    def _wide_condition(self, opening: Opening, at: int) -> int:
        wide = WIDE_CONDITION.match(self.text, at + 1)
        stop = wide.end() if wide else at + 2
        offer = f"{self.text[opening.at : at + 1]}{{{wide[1].strip()}}}" if wide else ""
        self._fault((opening.at, stop), "braces are plain ones, not full-width", offer)
        self._add(opening, at, (stop, stop), stop, broken=True)
        return stop

    def _wide(self, at: int) -> int:
        """Full-width brackets: ［］ and 【】 are ordinary in Japanese prose unless a condition follows, ｛｝ never are."""
        form = WIDE_FORM.match(self.text, at, self._limit(at, LONGEST_CONDITION * 4))
        if form:
            offer = f"[{form['words']}]{{{form['inner'].strip()}}}"
            self._fault(form.span(), "brackets and braces are plain ones, not full-width", offer)
            self.found.forms.append(Form("claim", form.span(), form.span("words"), (form.end(), form.end()), broken=True))
            return form.end()
        if self.text[at] in "｛｝":
            self._fault((at, at + 1), "braces are plain ones, not full-width", "{" if self.text[at] == "｛" else "}")
        return at + 1

    def _stray(self, at: int) -> int:
        """A brace that belongs to no form."""
        if self.text[at] == "}":
            self._fault((at, at + 1), "this brace closes nothing; one that is meant to be read is written \\}")
            return at + 1
        end = self._end(at + 1, "}")
        if end is None:
            self._fault((at, at + 1), "this brace opens nothing; one that is meant to be read is written \\{")
            return at + 1
        inner = self.text[at + 1 : end]
        reference, _, _ = parse_printed(inner)
        what = "a condition follows words in brackets, a printed fact stands in double braces"
        self._fault((at, end + 1), what, f"{{{{ {inner.strip()} }}}}" if reference else "")
        return end + 1

    def _add(self, opening: Opening, close: int, inner: tuple[int, int], end: int, *, broken: bool) -> None:
        """Note a claim; what was found inside its words belongs to it now."""
        inside = tuple(form for form in self.found.forms[opening.forms :] if form.kind == "printed")
        del self.found.forms[opening.forms :]
        self.found.forms.append(Form("claim", (opening.at, end), (opening.at + 1, close), inner, broken, inside))

    def _end(self, start: int, closing: str) -> int | None:
        """Where `closing` stands, outside quotes if those are closed; None beyond the paragraph or 300 characters."""
        limit = self._limit(start)
        at = start
        while at < limit:
            if self.text.startswith(closing, at):
                return at
            quote = CLOSING.get(self.text[at])
            ends = [self.text.find(mark, at + 1, limit) for mark in quote] if quote else []
            at = min((end for end in ends if end >= 0), default=at) + 1
        end = self.text.find(closing, start, limit + len(closing) - 1)
        return end if end >= 0 else None

    def _limit(self, start: int, length: int = LONGEST_CONDITION) -> int:
        border = BORDER.search(self.text, start, start + length + 2)
        return min(border.start() if border else len(self.text), start + length + 1, len(self.text))

    def _fault(self, span: tuple[int, int], what: str, offer: str = "") -> None:
        self.found.faults.append(Fault(span[0], span[1], what, offer))


def _is_condition(destination: str) -> bool:
    """Whether what stands in round brackets behind words is a condition rather than an address."""
    if ADDRESS.match(destination):
        return False
    if OPINION.fullmatch(destination) or COMPARED.search(destination):
        return True
    expression, _ = parse(destination)
    return expression is not None
