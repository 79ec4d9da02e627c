"""Checks of a file of notice texts that its shape does not make: blanks that nothing fills, cases without their days."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from bulletin.settings.checks import Fault
from bulletin.settings.codes import nearest
from bulletin.settings.toml_places import Keys

CASES = ("notice", "soon", "undated", "renewed", "renewed_undated")
BLANK = re.compile(r"\{([^{}]*)\}")
EVERYWHERE = ("order", "units", "by", "rule")
BLANKS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "greeting": ("name",),
        "placed": ("placed",),
        "new_date": ("new",),
        "reason": ("reason",),
        "consent": ("until", "new"),
        "cancellation": ("until", "new"),
        "write_to": ("contact",),
    }
)
"""What else may be filled in a sentence; in a case's own words the same as in `cancellation`."""
NEEDED: Mapping[str, str] = MappingProxyType({"new_date": "new", "write_to": "contact", "reason": "reason"})


def text_faults(raw: Mapping[str, Any], laid: Mapping[str, Any]) -> Iterator[Fault]:
    """Blanks that nothing fills, and what a case lacks: `raw` is a maker's file, `laid` the same over the shipped texts."""
    for path, name, text in words_of(raw):
        yield from _blank_faults(path, name, text)
    own = raw.get("rule")
    for number in range(len(own) if isinstance(own, list) else 0):
        rule = _table(laid["rule"][number])
        for name in CASES:
            case = _table(rule.get(name))
            if case.get("silence") == "cancellation" and "cut_off_days" not in case:
                yield Fault(("rule", number, name, "cut_off_days"), "setting-missing", "", "")
            if case.get("silence") == "nothing" and "{until}" in "".join(map(str, _table(case.get("words")).values())):
                expected = "words without a last day, where silence means nothing"
                yield Fault(("rule", number, name, "words"), "setting-wrong", "{until}", expected)
            if name == "soon" and case and "within" not in case:
                yield Fault(("rule", number, name, "within"), "setting-missing", "", "")


def words_of(raw: Mapping[str, Any]) -> Iterator[tuple[Keys, str, str]]:
    """Every sentence of a file: where it stands, what it is called, its words."""
    yield from _words_below((), raw)
    rules = raw.get("rule")
    for number, rule in enumerate(rules if isinstance(rules, list) else []):
        yield from _words_below(("rule", number), rule)


def _words_below(path: Keys, table: Any) -> Iterator[tuple[Keys, str, str]]:
    for name, words in _table(_table(table).get("sentences")).items():
        yield from _by_locale((*path, "sentences", name), name, words)
    for name in CASES:
        yield from _by_locale((*path, name, "words"), "cancellation", _table(_table(table).get(name)).get("words"))


def _by_locale(path: Keys, name: str, words: Any) -> Iterator[tuple[Keys, str, str]]:
    for locale, text in _table(words).items():
        if isinstance(text, str):
            yield (*path, locale), name, text


def _table(value: Any) -> Mapping[str, Any]:
    """A value that should be a table; what is none is a fault that the shape tells of."""
    return value if isinstance(value, dict) else {}


def _blank_faults(path: Keys, name: str, text: str) -> Iterator[Fault]:
    known = (*EVERYWHERE, *BLANKS.get(name, ()))
    told = "words with " + ", ".join(f"{{{blank}}}" for blank in known) + " and no other braces"
    for blank in BLANK.findall(text):
        if blank not in known:
            near = nearest(blank, known)
            yield Fault(path, "setting-wrong", f"{{{blank}}}", told, f"{{{near}}}" if near else "")
    if re.search(r"[{}]", BLANK.sub("", text)):
        yield Fault(path, "setting-wrong", text, told)
    needed = NEEDED.get(name)
    if needed and f"{{{needed}}}" not in text:
        yield Fault(path, "setting-wrong", text, f"words with {{{needed}}}")
