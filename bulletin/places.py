"""Where the folders that ship with the program lie: inside the installed package, else beside it in the checkout."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parent


def shipped_folder(name: str, package: Path = PACKAGE) -> Path:
    """A folder of the top level (`templates`, `data`). A wheel carries it inside the package, an editable install beside."""
    inside = package / name
    return inside if inside.is_dir() else package.parent / name
