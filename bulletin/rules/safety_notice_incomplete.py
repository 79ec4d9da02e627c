"""A notice of a safety defect without something that its readers need.

Whoever may be harmed must learn which units it is about, what can happen, what to do now ("stop using it"), what the maker does
about it, and whom to ask. A draft to the owners of a safety defect holds all five, and so does every letter that speaks of an
open one: in the same sections, by the facts of the defect (`affected` or `lot`, `hazard`, `do_now`, `remedy`, `remedied`,
`kits`), or in words of its own, and with the contact of the settings. Nobody can answer for leaving any of it out.

Law: Regulation (EU) 2023/988 Art. 36(2) lists what a recall notice must hold. The words by which this rule finds the parts are
ours in every language, and that they are there does not make the notice right: consult your authority's rules and a qualified
person before anything is published.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.model import Fact, Step
from bulletin.scrutiny.beside_models import is_model
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.safety import Passing, column_of, is_open, passings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "safety-notice-incomplete"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = "what is said of the safety defect {words} leaves out {missing}; ask a qualified person before you publish it"
ACCEPTED: tuple[str, ...] = (
    'Stop using your loom: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} looms have it so far; we replace it. Write to help@fennmoor.example.',
    'At least {{ defects["D-20"].affected }} looms have it so far. {{ defects["D-20"].hazard }} {{ defects["D-20"].do_now }} '
    "We replace the spring; write to [us](mailto:help@fennmoor.example).",
)
REJECTED: tuple[str, ...] = (
    'At least «{{ defects["D-20"].affected }}» looms have it so far.',
    "Title: Your loom\nReaders: owners D-20\n\n«»Please stop using your loom and write to help@fennmoor.example.",
)
ADDRESS = re.compile(r"[\w.+-]+@[\w-]+\.\w|https?://|\+\d[\d ()/-]{6,}")


def check(case: Case) -> Iterator[Fault]:
    """Every open safety defect that the draft speaks of, or whose owners it is written to, with what is missing there."""
    for passing in passings(case):
        missing = [part for part, is_told in PARTS.items() if not is_told(case, passing)] if is_open(case, passing.defect) else []
        if missing:
            at = passing.stretches[0].claim.start if passing.stretches else None
            yield Fault(at, passing.defect, {"missing": ", ".join(missing)}, _offer(case, passing.defect, missing))


def _units(case: Case, passing: Passing) -> bool:
    """A count or a lot by its fact, the lot by its name, or a model."""
    lot = column_of(case, passing.defect, "lot")
    if passing.told(case) & {"affected", "unremedied", "lot"} or (isinstance(lot, str) and lot in passing.text):
        return True
    return any(is_model(case, found.name) for found in case.names.find(passing.text))


def _hazard(case: Case, passing: Passing) -> bool:
    return "hazard" in passing.told(case) or _has(case, "harm", passing)


def _do_now(case: Case, passing: Passing) -> bool:
    return "do_now" in passing.told(case) or _has(case, "stop_using", passing)


def _remedy(case: Case, passing: Passing) -> bool:
    told = passing.told(case) & {"remedy", "remedied", "unremedied", "remedy_part", "kits"}
    return bool(told) or _has(case, "remedies", passing)


def _whom_to_ask(case: Case, passing: Passing) -> bool:
    """The settings' contact, in the text or as the target of a link; without one, any address."""
    contact = case.run.settings.maker.contact.casefold()
    sources = [case.draft.source[block.origins[0] : _line_end(case, block.origins[-1])] for block in passing.blocks]
    told = "\n".join([passing.text, *sources]).casefold()
    return contact in told if contact else ADDRESS.search(told) is not None


def _line_end(case: Case, at: int) -> int:
    """The end of the line, where the target of a link that ends a block stands."""
    end = case.draft.source.find("\n", at)
    return len(case.draft.source) if end < 0 else end


def _has(case: Case, name: str, passing: Passing) -> bool:
    return case.language is not None and case.language.has(name, passing.text)


PARTS: dict[str, Callable[[Case, Passing], bool]] = {
    "which units": _units,
    "what can happen": _hazard,
    "what to do now": _do_now,
    "the remedy": _remedy,
    "whom to ask": _whom_to_ask,
}
FACTS = {"which units": "affected", "what can happen": "hazard", "what to do now": "do_now", "the remedy": "remedied"}


def _offer(case: Case, defect: str, missing: list[str]) -> str:
    """The defect's own facts for what is missing, and the contact."""
    paths = [(Step("name", "defects"), Step("item", defect), Step("name", FACTS[part])) for part in missing if part in FACTS]
    facts = [found for path in paths if isinstance(found := case.facts.find(path), Fact)]
    contact = [case.run.settings.maker.contact] if "whom to ask" in missing else []
    return " ".join([*(f"{{{{ {fact.spelling} }}}}" for fact in facts), *filter(None, contact)])
