"""Paths to facts as they are written: in drafts, and as keys in JSON and on the command line."""

from __future__ import annotations

from typing import NamedTuple

from bulletin.keys import is_plain, quote
from bulletin.model import Absent, Path


class Spelled(NamedTuple):
    """A path on its way down: how a draft writes it and how JSON does."""

    draft: str
    key: str

    def name(self, name: str) -> Spelled:
        """One name further."""
        return Spelled(f"{self.draft}.{name}", f"{self.key}.{name}") if self.draft else Spelled(name, name)

    def arguments(self, kind: str, texts: tuple[str, ...], taken: frozenset[str]) -> Spelled:
        """An item or the arguments of a call further; `taken` are names that an argument must not be mistaken for."""
        quoted = ", ".join(map(quote, texts))
        draft = f"{self.draft}[{quoted}]" if kind == "item" else f"{self.draft}({quoted})"
        key = self.key
        for text in texts:
            plain = is_plain(text) and text not in taken
            key += f".{text}" if plain else f"[{quote(text)}]"
        return Spelled(draft, key)


def nameless(path: Path, why: str) -> Absent:
    """A path that leads nowhere, as it was written."""
    text = spelled_as_given(path)
    return Absent(text.key, text.draft, why, known=False)


def spelled_as_given(path: Path) -> Spelled:
    """A path as it was written, for one that leads nowhere."""
    at = Spelled("", "")
    for step in path:
        named = step.kind in ("name", "any") and is_plain(step.text)
        at = at.name(step.text) if named else at.arguments(step.kind, (step.text,), frozenset())
    return at
