"""A fragment of our own cleaned HTML as a small tree, for the renderings that are not HTML."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset({"br", "hr", "img", "col", "wbr", "meta", "link", "input"})


@dataclass(slots=True)
class Element:
    """An element with its attributes and its children, texts and elements in order."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: list[Element | str] = field(default_factory=list)

    def text(self) -> str:
        """All text inside, as it stands."""
        return "".join(child if isinstance(child, str) else child.text() for child in self.children)

    def elements(self, *tags: str) -> list[Element]:
        """Children that are one of these elements."""
        return [child for child in self.children if isinstance(child, Element) and child.tag in tags]


def parse_fragment(html: str) -> Element:
    """The fragment below one root without a tag. Expects what nh3 gives: well formed, everything closed."""
    builder = _Builder()
    builder.feed(html)
    builder.close()
    return builder.open[0]


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Element("")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        if len(self.open) > 1 and self.open[-1].tag == tag:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)
