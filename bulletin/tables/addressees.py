"""Whom mail about an order is for: contacts.csv, read to address mail and for nothing else."""

from __future__ import annotations

from collections.abc import Mapping

from bulletin.model import Addressee
from bulletin.tables.table import Tables


def addressees_of(tables: Tables) -> Mapping[str, Addressee]:
    """By order; none without the table."""
    contacts = tables.get("contacts")
    if contacts is None:
        return {}
    columns = (contacts.frame[name].astype("str") for name in ("order", "name", "email"))
    return {order: Addressee(name, email) for order, name, email in zip(*columns, strict=True)}
