"""All rules, in the order in which the manual shows them. A new rule is one module and one line here."""

from __future__ import annotations

from bulletin.rules import (
    absolute_without_fact,
    attested_expired,
    bare_link,
    comparison_without_fact,
    condition_beside_words,
    condition_false,
    date_without_fact,
    excellence_without_evidence,
    fact_beside_words,
    fact_unknown,
    future_without_fact,
    hedge,
    number_off_fact,
    number_without_fact,
    opinion_over_claim,
    picture_without_words,
    private_detail,
    queue_fell_by_cancelling,
    raw_html,
    safety_notice_incomplete,
    sample_size_missing,
    share_hides_shortage,
    soft_safety_words,
    state_without_fact,
    tables_stale,
    unmentioned,
    vague_time,
    words_stronger_than_basis,
)
from bulletin.scrutiny.case import Rule

RULES: tuple[Rule, ...] = (
    condition_false,
    fact_unknown,
    number_without_fact,
    date_without_fact,
    number_off_fact,
    fact_beside_words,
    comparison_without_fact,
    absolute_without_fact,
    state_without_fact,
    future_without_fact,
    condition_beside_words,
    words_stronger_than_basis,
    sample_size_missing,
    share_hides_shortage,
    queue_fell_by_cancelling,
    vague_time,
    hedge,
    opinion_over_claim,
    attested_expired,
    excellence_without_evidence,
    unmentioned,
    soft_safety_words,
    safety_notice_incomplete,
    private_detail,
    tables_stale,
    bare_link,
    picture_without_words,
    raw_html,
)

BLOCK_WHEN_ISSUING = frozenset({tables_stale.NAME})
"""Rules that warn while a draft is checked and block when it is issued."""
