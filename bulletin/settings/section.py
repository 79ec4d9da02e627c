"""What every table of a TOML file of ours is like, and the kinds of values that several of them hold."""

from __future__ import annotations

from functools import cached_property
from typing import Annotated, Any, TypeVar

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict

from bulletin.settings.codes import locale_tag

Item = TypeVar("Item")


def _locale(tag: str) -> str:
    known = locale_tag(tag)
    if known is None:
        raise ValueError("a BCP 47 locale that CLDR knows, such as de or pt-BR")
    return known


def _not_empty(words: str) -> str:
    if not words.strip():
        raise ValueError("some text")
    return words


def _tuple(given: Any) -> Any:
    return tuple(given) if isinstance(given, list) else given


Several = Annotated[tuple[Item, ...], BeforeValidator(_tuple)]
Text = Annotated[str, AfterValidator(_not_empty)]
LocaleTag = Annotated[str, AfterValidator(_locale)]


class Section(BaseModel):
    """A table of bulletin.toml: unknown keys are faults, nothing is converted quietly, nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, ignored_types=(cached_property,))
