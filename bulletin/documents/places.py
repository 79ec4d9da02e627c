"""Where templates and catalogues lie: inside the installed package, else beside it in the checkout."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parent.parent


def templates_folder(package: Path = PACKAGE) -> Path:
    """The folder of the Jinja2 templates. A wheel carries it inside the package, an editable install finds it beside."""
    shipped = package / "templates"
    return shipped if shipped.is_dir() else package.parent / "templates"


def catalogues_folder(package: Path = PACKAGE) -> Path:
    """The folder of the gettext catalogues, one `.po` file a language."""
    return package / "locale"
