"""The Jinja2 environment of the documents: sandboxed, everything escaped, a missing name an error."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256
from typing import Any

from jinja2 import FileSystemLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from bulletin.documents.phrases import catalogue, direction
from bulletin.documents.plain import wrap
from bulletin.places import shipped_folder


@cache
def environment(locale: str) -> ImmutableSandboxedEnvironment:
    """Templates with the phrases of one locale; what they are given is escaped unless it is markup already."""
    pages = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(shipped_folder("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    pages.install_gettext_translations(catalogue(locale), newstyle=True)  # type: ignore[attr-defined]
    pages.filters["wrapped"] = wrap
    return pages


def page(template: str, locale: str, **content: Any) -> str:
    """Fill a template of `templates/` in a locale; each knows its `tag` and the `direction` it is read in."""
    return environment(locale).get_template(template).render(tag=locale, direction=direction(locale), **content)


@cache
def style(*names: str) -> Markup:
    """Style sheets of `templates/` as one, to stand inside a page; where two say something of the same, the later one holds."""
    return Markup("".join((shipped_folder("templates") / name).read_text(encoding="utf-8") for name in names))


def style_digest(css: str) -> str:
    """The source of a Content-Security-Policy that lets one style sheet in, and nothing else (CSP level 2, 'sha256-...')."""
    return "sha256-" + b64encode(sha256(css.encode()).digest()).decode()
