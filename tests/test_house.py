"""The house: imports run downwards only, and nothing that must be complete has a gap."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from bulletin.cli import app
from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.family import FactMethod, Scope
from tests.pages import PARTS, first_sentence, written

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "bulletin"
FLOORS = (
    {"model"},
    {"values", "places", "keys"},
    {"settings"},
    {"formats"},
    {"tables"},
    {"forecast"},
    {"facts"},
    {"draft"},
    {"scrutiny"},
    {"rules"},
    {"verdict"},
    {"documents"},
    {"record"},
    {"workshop"},
    {"circumstances"},
    {"rewriting"},
    {"late_orders"},
    {"delivery"},
    {"pipeline"},
    {"report"},
    {"demo"},
    {"cli"},
)
"""From the ground up: a module imports from lower floors, or from its own room."""
NEVER = {room: {"tables"} for room in ("draft", "scrutiny", "rules", "verdict", "record")} | {"documents": {"tables", "facts"}}


def rooms_imported(file: Path) -> set[str]:
    """The first names below `bulletin` that a file imports, wherever in the file it does."""
    found = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] == "bulletin":
            parts = node.module.split(".")[1:]
            found |= {parts[0]} if parts else {alias.name for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {alias.name.split(".")[1] for alias in node.names if alias.name.startswith("bulletin.")}
    return found


def floor(room: str) -> int:
    return next(number for number, rooms in enumerate(FLOORS) if room in rooms)


@pytest.mark.parametrize("file", sorted(PACKAGE.rglob("*.py")), ids=lambda file: str(file.relative_to(PACKAGE)))
def test_imports_run_downwards(file: Path) -> None:
    """A module imports from lower floors or its own room, and never from a room it must not know."""
    room = file.relative_to(PACKAGE).parts[0].removesuffix(".py")
    if room == "__init__":
        room = "model"
    imported = rooms_imported(file) - {room}
    upwards = {other for other in imported if floor(other) >= floor(room)}

    assert set() == upwards | (imported & NEVER.get(room, set()))


def scopes(kind: type[Scope]) -> set[type[Scope]]:
    found = {kind}
    for door in kind.doors().values():
        inner = door.function.__annotations__["return"]
        for other in Scope.__subclasses__() + [sub for scope in Scope.__subclasses__() for sub in scope.__subclasses__()]:
            if other.__name__ in str(inner).replace('"', "").split(" | ") and other not in found:
                found |= {other} | (scopes(other) if other is not kind else set())
    return found


FACTS = sorted(
    {(scope.__name__, name): method for kind in FAMILIES.values() for scope in scopes(kind) for name, method in
     scope.fact_methods().items()}.items()
)


@pytest.mark.parametrize(("name", "method"), FACTS, ids=[".".join(name) for name, _ in FACTS])
def test_a_fact_explains_itself(name: tuple[str, str], method: FactMethod) -> None:
    """Every fact has a unit and one sentence that says how it is computed."""
    assert method.manner.unit
    assert method.manner.how.endswith(".")


COMMANDS = sorted(command.callback.__name__ for command in app.registered_commands if command.callback)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_is_told_of(command: str) -> None:
    """Every command has its help and its line in the README."""
    callbacks = {one.callback.__name__: one.callback for one in app.registered_commands if one.callback}
    readme = (ROOT / "README.md").read_text(encoding="utf-8")

    assert callbacks[command].__doc__
    assert f"| `bulletin {command}" in readme


@pytest.mark.parametrize("page", sorted(PARTS))
def test_a_page_says_what_the_program_says(page: str) -> None:
    """The README's columns and DEVELOPERS.md's modules are those of the code; `python -m tests.pages` rewrites them."""
    assert written(page) == (ROOT / page).read_text(encoding="utf-8")


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("file", MODULES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_module_says_what_it_is(file: Path) -> None:
    """Every module opens with a sentence on what it is and why."""
    assert first_sentence(file)


def test_nothing_else_on_the_top_level() -> None:
    """The top level holds what the project is made of and nothing more."""
    allowed = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "bulletin", "templates", "data", "tests"}
    built = {"out", "mutants", "dist"}
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}

    assert set() == found - allowed - built
