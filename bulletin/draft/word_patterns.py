"""Word lists as patterns: thousands of entries as one pattern that looks at every letter once.

Entries that begin alike share their beginning, for a plain list of alternatives would try each of them at each word. An entry is
a word or several (a trailing `*` stands for any ending of a word); between slashes it is a regular expression.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

Words = re.Pattern[str]
Tree = dict[str, "Tree"]
END = ""
GAP = r"\s+"
ENDING = r"\w*"
BORDER = r"(?<!\w)"
"""Where a word begins. What shares it is looked at there alone, and not at every letter."""
AT_WORDS = (BORDER, r"\A")
"""What an expression begins with that is to be looked for where words begin, the first of all included."""
OUTSET = "(?<![\\w\N{OBJECT REPLACEMENT CHARACTER}\N{MIDDLE DOT}])"
"""The same, for all that share it: inside blotted and masked text, which is long, no word begins."""


def any_of(entries: Iterable[str], *, spaced: bool = True) -> Words:
    """A pattern that finds any of the entries, the longest first; without entries it finds nothing.

    Entries are whole words, unless the language puts no spaces between them; case does not matter.
    """
    ordered = sorted(set(entries), key=lambda entry: (-len(entry), entry))
    shapes = [entry[1:-1] for entry in ordered if _is_expression(entry)]
    plain = factored(entry.lower() for entry in ordered if not _is_expression(entry))
    words = [] if not plain else [rf"(?:{plain})(?!\w)" if spaced else f"(?:{plain})"]
    begin = [f"(?:{shape.removeprefix(BORDER)})" for shape in shapes if shape.startswith(AT_WORDS)]
    anywhere = [f"(?:{shape})" for shape in shapes if not shape.startswith(AT_WORDS)]
    if spaced and (words or begin):
        return re.compile("|".join([f"{OUTSET}(?:{'|'.join([*words, *begin])})", *anywhere]), re.IGNORECASE)
    return re.compile("|".join([*words, *(f"{BORDER}{shape}" for shape in begin), *anywhere]) or r"(?!)", re.IGNORECASE)


def factored(entries: Iterable[str]) -> str:
    """Plain entries as one expression in which common beginnings stand once; empty without entries."""
    tree: Tree = {}
    for entry in entries:
        node = tree
        for part in _parts(entry):
            node = node.setdefault(part, {})
        node[END] = {}
    return _written(tree) if tree else ""


def _is_expression(entry: str) -> bool:
    return len(entry) > 2 and entry.startswith("/") and entry.endswith("/")


def _parts(entry: str) -> list[str]:
    """The signs of an entry as expressions: letters, gaps between words, open endings."""
    parts: list[str] = []
    for word in entry.split():
        parts += [GAP] if parts else []
        parts += [re.escape(sign) for sign in word.removesuffix("*")]
        parts += [ENDING] if word.endswith("*") else []
    return parts


def _written(tree: Tree) -> str:
    """A tree as an expression; what goes on is tried before what ends."""
    branches = [sign + _run(node) for sign, node in tree.items() if sign != END]
    if END in tree:
        return f"(?:{'|'.join(branches)})?" if branches else ""
    return branches[0] if len(branches) == 1 else f"(?:{'|'.join(branches)})"


def _run(node: Tree) -> str:
    """What follows a sign; a long entry without branches is one run of letters, however long."""
    run = ""
    while len(node) == 1 and END not in node:
        sign, node = next(iter(node.items()))
        run += sign
    return run + _written(node)
