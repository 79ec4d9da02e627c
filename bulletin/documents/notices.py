"""Notices of delay as documents, for the maker alone: the list, the rows to enter, and each notice as a mail."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.documents.notice_list import as_html
from bulletin.documents.notice_mail import document, mail
from bulletin.documents.notice_tables import refunds_csv, told_csv
from bulletin.documents.press import last_check
from bulletin.model import Document

if TYPE_CHECKING:
    from bulletin.documents.notice_list import NoticeWork
    from bulletin.model import Problem

FOLDER = "for-the-maker/notices"
MAILS = f"{FOLDER}/mails"
"""Nothing but mails stands there, and one that is no longer due is taken away: nobody shall send it."""


def documents(name: str, work: NoticeWork) -> tuple[list[Document], list[Problem]]:
    """The documents beside those of a bulletin of this name, sorted by path; a bare figure in any of them blocks."""
    folder = f"{name}/{FOLDER}"
    listed = as_html(work)
    made = [
        Document(f"{folder}/notices.html", "text/html", listed.encode()),
        Document(f"{folder}/refunds.csv", "text/csv", refunds_csv(work.refunds).encode()),
        Document(f"{folder}/told.csv", "text/csv", told_csv(work.delays, work.sent.date()).encode()),
    ]
    problems = last_check(made[0].path, listed, work.names)
    for delay in work.delays:
        message, html = mail(delay, work.addressee(delay.order), work.maker, work.names, work.sent)
        made.append(document(f"{name}/{MAILS}", delay, message))
        problems += last_check(made[-1].path, html, work.names)
    return sorted(made, key=lambda document: document.path), problems
