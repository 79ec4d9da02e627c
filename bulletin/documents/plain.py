"""HTML of a letter as plain text that reads well aloud: wrapped lines, list marks, links written out, tables as sentences."""

from __future__ import annotations

import re
from itertools import count, groupby
from sys import maxsize
from unicodedata import east_asian_width

from bulletin.documents.tree import Element, parse_fragment

WIDTH = 72
NEVER_FIRST = "。、，．・：；？！）」』】〕〉》’”々ー%％"
"""Japanese marks that no line may begin with (JIS X 4051, the common ones)."""
NEVER_LAST = "（「『【〔〈《‘“"
BREAKS = re.compile(r"[ \t\n\r\v]+")
INLINE = frozenset({"a", "b", "code", "data", "em", "i", "span", "strong", "time", "br", "img", "small", "abbr", "sub", "sup"})


def plain_text(html: str, width: int = WIDTH) -> str:
    """Wrap at `width` columns (wide characters count two); blocks stand apart by a blank line. No line end at the end."""
    return "\n\n".join(_blocks(parse_fragment(html), width))


def plain_line(html: str) -> str:
    """The words of a fragment in one line, no-break spaces kept."""
    return BREAKS.sub(" ", " ".join(_blocks(parse_fragment(html), maxsize))).strip()


def wrap(text: str, width: int = WIDTH, indent: str = "") -> str:
    """Fold words into lines of at most `width` columns; a longer word or address stays whole on a line of its own.

    Between characters of East Asian scripts a line may break anywhere that its customs allow. No-break spaces hold.
    """
    lines, line = [], ""
    for piece in _pieces(text):
        if line.strip() and columns((line + piece).rstrip()) > width:
            lines.append(line.rstrip())
            line = indent + piece.lstrip()
        else:
            line += piece
    return "\n".join([*lines, line.rstrip()])


def columns(text: str) -> int:
    """The columns a text takes where wide characters take two."""
    return sum(2 if east_asian_width(character) in "WF" else 1 for character in text)


def _pieces(text: str) -> list[str]:
    """The smallest parts that stay together, each with the space behind it."""
    pieces = [""]
    for character in BREAKS.sub(" ", text):
        last = pieces[-1]
        if last and (last[-1] == " " or _may_part(last[-1], character)):
            pieces.append(character)
        else:
            pieces[-1] += character
    return pieces


def _may_part(before: str, after: str) -> bool:
    wide = east_asian_width(before) in "WF" or east_asian_width(after) in "WF"
    return wide and after != " " and after not in NEVER_FIRST and before not in NEVER_LAST


def _blocks(element: Element, width: int) -> list[str]:
    """The blocks inside an element; loose words between blocks are blocks too."""
    blocks: list[str] = []
    for loose, children in groupby(element.children, key=_is_inline):
        if loose:
            blocks.append(_paragraph(Element("p", children=list(children)), width))
        else:
            blocks += [block for child in children if isinstance(child, Element) for block in _block(child, width)]
    return [block for block in blocks if block]


def _is_inline(child: Element | str) -> bool:
    return isinstance(child, str) or child.tag in INLINE


def _block(element: Element, width: int) -> list[str]:
    match element.tag:
        case "p" | "h1" | "h2" | "h3" | "h4" | "h5" | "h6":
            return [_paragraph(element, width)]
        case "ul" | "ol":
            return [_listing(element, width)]
        case "blockquote":
            return ["\n\n".join(_indented(block, "> ", "> ") for block in _blocks(element, width - 2))]
        case "pre":
            return [element.text().strip("\n")]
        case "table":
            return [_table(element, width)]
        case "hr":
            return ["* * *"]
        case _:
            return _blocks(element, width)


def _paragraph(element: Element, width: int) -> str:
    return "\n".join(wrap(line.strip(), width) for line in inline_text(element).split("\v")).strip()


def inline_text(element: Element) -> str:
    """The words of a line; a line break inside is a vertical tab."""
    return "".join(_inline(child) for child in element.children)


def _inline(child: Element | str) -> str:
    if isinstance(child, str):
        return child
    if child.tag == "br":
        return "\v"
    if child.tag == "img":
        return child.attributes.get("alt", "")
    words = inline_text(child)
    return _written_out(words, child.attributes.get("href", "")) if child.tag == "a" else words


def _written_out(words: str, address: str) -> str:
    bare = address.removeprefix("mailto:")
    return words if not bare or words.strip() in {address, bare} else f"{words} ({bare})"


def _listing(element: Element, width: int) -> str:
    numbers = count(int(element.attributes.get("start", "1") or "1"))
    items = []
    for item in element.elements("li"):
        mark = f"{next(numbers)}. " if element.tag == "ol" else "- "
        blocks = _blocks(item, width - len(mark))
        spaced = any(child.tag == "p" for child in item.elements("p"))
        items.append(_indented(("\n\n" if spaced else "\n").join(blocks), mark, " " * len(mark)))
    return "\n".join(items)


def _indented(text: str, first: str, rest: str) -> str:
    lines = text.split("\n")
    return "\n".join([first + lines[0], *((rest + line).rstrip() for line in lines[1:])])


def _table(element: Element, width: int) -> str:
    """One sentence a row: its first cell, then each other cell behind the heading of its column."""
    rows = [[" ".join(inline_text(cell).split()) for cell in row.elements("th", "td")] for row in _rows(element)]
    if len(rows) < 2:
        return "\n".join(wrap(", ".join(cells), width) for cells in rows)
    heads = rows[0]
    return "\n".join(wrap(_sentence(heads, cells), width, "  ") for cells in rows[1:])


def _rows(element: Element) -> list[Element]:
    return [row for part in [element, *element.elements("thead", "tbody", "tfoot")] for row in part.elements("tr")]


def _sentence(heads: list[str], cells: list[str]) -> str:
    told = [f"{head} {cell}".strip() for head, cell in zip(heads[1:], cells[1:], strict=False) if cell]
    return f"{cells[0]}: {', '.join(told)}"
