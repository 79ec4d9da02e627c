"""The parts of README.md and DEVELOPERS.md that the program itself knows: columns of tables, one line a module.

`python -m tests.pages` rewrites them; a test holds them to what the code says.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

from bulletin.tables.layouts import LAYOUTS, Column, Layout

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "bulletin"


def column_table() -> str:
    """The README's table of a data folder's files and columns, from the layouts."""
    rows = [f"| {layout.name}.csv | {', '.join(map(told, layout.columns))} | {unique(layout)} |" for layout in LAYOUTS.values()]
    return "\n".join(["| file | columns | unique |", "| --- | --- | --- |", *rows])


def told(column: Column) -> str:
    """A column with its mark and its choices."""
    choices = f" ({' '.join(f'`{choice}`' for choice in column.choices)})" if column.choices else ""
    return f"{column.name}{'?' if column.optional else ''}{choices}"


def unique(layout: Layout) -> str:
    """The columns that a row is known by."""
    return ", ".join(layout.unique) or "-"


def module_lines() -> str:
    """DEVELOPERS.md's line on each module: the first sentence of what the module says of itself, room by room."""
    lines = []
    for room in sorted({file.parent for file in PACKAGE.rglob("*.py")}):
        name = room.relative_to(ROOT).as_posix()
        lines.append(f"\n**{name}/** {first_sentence(room / '__init__.py')}\n")
        files = sorted(file for file in room.glob("*.py") if file.name != "__init__.py")
        lines += [f"- `{file.relative_to(PACKAGE).as_posix()}`: {first_sentence(file)}" for file in files]
    return "\n".join(lines).strip()


def first_sentence(file: Path) -> str:
    """The first sentence of a module's docstring."""
    text = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    paragraph = " ".join(text.split("\n\n")[0].split())
    return re.split(r"(?<=\.)\s+(?=[A-Z`])", paragraph)[0]


PARTS = {"README.md": {"columns": column_table}, "DEVELOPERS.md": {"modules": module_lines}}


def written(page: str) -> str:
    """A page with its known parts as the program says them now."""
    text = (ROOT / page).read_text(encoding="utf-8")
    for name, part in PARTS[page].items():
        between = re.compile(rf"(<!-- {name} -->\n).*?(\n?<!-- /{name} -->)", re.DOTALL)
        text = between.sub(lambda found, part=part: f"{found[1]}{part()}\n{found[2].lstrip()}", text)
    return text


def main() -> None:
    """Rewrite the known parts of all pages."""
    for page in PARTS:
        (ROOT / page).write_text(written(page), encoding="utf-8")


if __name__ == "__main__":
    main()
