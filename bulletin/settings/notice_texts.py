"""What a file of notice texts may hold: the sentences of a notice of delay, and what each rule makes of silence."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Literal

from pydantic import Field

from bulletin.settings.section import LocaleTag, Section, Several, Text

Words = Annotated[Mapping[LocaleTag, Text], Field(min_length=1)]
"""A sentence by locale; what stands in braces is filled in."""
Kind = Literal["notice", "renewed"]


class NoticeCase(Section):
    """What no answer to a notice means, until when one may come, where that stands, and words of its own.

    The last day for an answer is `cut_off_days` after the date that is not kept; without them, the new date. `within` are the
    days of delay up to which a first notice is this one.
    """

    silence: Literal["consent", "cancellation", "nothing"]
    cut_off_days: Annotated[int, Field(ge=0)] | None = None
    within: Annotated[int, Field(ge=0)] | None = None
    source: str = ""
    words: Words | None = None

    def until(self, kept: date, new: date | None) -> date | None:
        """The last day on which an answer changes what silence means; None where silence means nothing."""
        if self.silence == "nothing":
            return None
        return new if self.cut_off_days is None else kept + timedelta(days=self.cut_off_days)


class Sentences(Section):
    """The sentences of a notice, in the order in which it has them; in a rule, those that are other than for all rules."""

    subject: Words | None = None
    greeting: Words | None = None
    greeting_without_name: Words | None = None
    told: Words | None = None
    placed: Words | None = None
    late: Words | None = None
    new_date: Words | None = None
    no_date: Words | None = None
    reason: Words | None = None
    choice: Words | None = None
    consent: Words | None = None
    cancellation: Words | None = None
    lapsed: Words | None = None
    nothing: Words | None = None
    reply_to_mail: Words | None = None
    reply_in_chat: Words | None = None
    write_to: Words | None = None
    wait: Words | None = None
    cancel: Words | None = None
    foot: Words | None = None

    def given(self) -> dict[str, Mapping[str, str]]:
        """Those that are given."""
        return {name: words for name in type(self).model_fields if (words := getattr(self, name)) is not None}


class NoticeRule(Section):
    """A rule that asks for notices: its days, the cases that it tells apart, and what the maker reads beside them.

    `soon` is a first notice with a date not more than its `within` days after the one that is not kept, `notice` any other one
    with a date, `undated` one without; `renewed` and `renewed_undated` are those of an order that was sent a notice before. A
    case that is not given is as the wider one, in the end as `notice`. `also` are other ways to write the name.
    """

    name: Text
    also: Several[Text] = ()
    title: str = ""
    days: Annotated[int, Field(ge=1)]
    source: str = ""
    overdue: str = ""
    refund: str = ""
    sentences: Sentences = Sentences()
    notice: NoticeCase
    soon: NoticeCase | None = None
    undated: NoticeCase | None = None
    renewed: NoticeCase | None = None
    renewed_undated: NoticeCase | None = None

    def case(self, kind: Kind, kept: date, new: date | None) -> NoticeCase:
        """The case of a notice: `kept` is the date that is not kept, `new` the one that is told instead, if any."""
        if kind == "renewed":
            return (None if new else self.renewed_undated) or self.renewed or self.notice
        if new is None:
            return self.undated or self.notice
        days = self.soon.within if self.soon else None
        return self.soon if self.soon and days is not None and (new - kept).days <= days else self.notice


class NoticeTexts(Section):
    """A file of notice texts as a whole."""

    sentences: Sentences = Sentences()
    rule: Several[NoticeRule] = ()


@dataclass(frozen=True)
class NoticeTerms:
    """What a `[[notice]]` section goes by: its rule, and the sentences of it."""

    rule: NoticeRule
    sentences: Mapping[str, Mapping[str, str]]

    def silence(self, case: NoticeCase) -> Mapping[str, str]:
        """The sentence that says what no answer means in a case."""
        return case.words or self.sentences[case.silence]
