"""Waiting credit in words: always store credit, never as if it were there once it has been used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.model import Money

if TYPE_CHECKING:
    from collections.abc import Sequence

    from markupsafe import Markup

    from bulletin.documents.voice import Voice
    from bulletin.model import OrderLine, StoreCredit


def store_credit(credit: StoreCredit, voice: Voice) -> list[Markup]:
    """What an order has earned and what is left of it; nothing where it has earned nothing."""
    earned, left = _something(credit.earned), _something(credit.left)
    if not earned.amounts:
        return []
    amount = voice.money(earned)
    if not _something(credit.used).amounts and not _something(credit.expired).amounts:
        return [voice.say("You have %(amount)s of store credit for the wait.", amount=amount)]
    if left.amounts:
        rest = voice.money(left)
        return [
            voice.say("For the wait you earned %(amount)s of store credit; %(left)s of it is left.", amount=amount, left=rest)
        ]
    if _something(credit.expired).amounts:
        return [voice.say("For the wait you earned %(amount)s of store credit; none of it is left.", amount=amount)]
    return [voice.say("For the wait you earned %(amount)s of store credit; you have used all of it.", amount=amount)]


def next_credit(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """The next step of the lines that wait: what is added on the first day on which anything is."""
    steps = [line.next_credit for line in lines if line.next_credit is not None and line.status == "waiting"]
    if not steps:
        return []
    first = min(day for day, _ in steps)
    fill = {"date": voice.day(first), "amount": voice.money(_sum([money for day, money in steps if day == first]))}
    if _something(lines[0].store_credit.earned).amounts:
        return [voice.say("If your order is still waiting on %(date)s, another %(amount)s of store credit is added.", **fill)]
    return [voice.say("If your order is still waiting on %(date)s, %(amount)s of store credit is added.", **fill)]


def _something(money: Money) -> Money:
    """The amounts that are not zero."""
    return Money(tuple((currency, amount) for currency, amount in money.amounts if amount))


def _sum(moneys: Sequence[Money]) -> Money:
    currencies = sorted({currency for money in moneys for currency, _ in money.amounts})
    totals = (
        (name, sum(amount for money in moneys for currency, amount in money.amounts if currency == name)) for name in currencies
    )
    return Money(tuple((currency, amount) for currency, amount in totals if amount))
