"""The mail: plain text first, the letter with inlined styles behind it (RFC 2046 5.1.4), the same bytes each time."""

from __future__ import annotations

import re
from email import policy
from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import format_datetime
from hashlib import sha256
from typing import TYPE_CHECKING

import css_inline

from bulletin.documents.letter import Letter
from bulletin.documents.pages import page, style
from bulletin.model import Document

if TYPE_CHECKING:
    from bulletin.model import Maker

WEEKS_SHOWN = 6
NO_DOMAIN = "bulletin.invalid"
"""For a maker without an address; RFC 2606 keeps the name free."""
ADDRESS = re.compile(r"([A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]+)@([A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)*)")
"""A plain address as HTML's own e-mail field takes it: no quotes, no comments, ASCII."""
POLICY = policy.SMTP


def documents(letter: Letter) -> list[Document]:
    """The mail as an `.eml` file without recipients: whoever sends it fills them in."""
    return [Document(f"{letter.folder}/bulletin.eml", "message/rfc822", message(letter).as_bytes(policy=POLICY))]


def message(letter: Letter) -> EmailMessage:
    """The mail itself. Its identifier and boundary come from its content, its date from `published`."""
    bulletin, maker = letter.bulletin, letter.maker
    text, html = text_part(letter), html_part(letter)
    digest = sha256("\0".join((bulletin.draft.name, letter.reader.locale, letter.body.title, text, html)).encode()).hexdigest()
    mail = EmailMessage(POLICY)
    mail["From"] = sender(maker)
    mail["Subject"] = letter.body.title
    mail["Date"] = format_datetime(bulletin.published)
    mail["Message-ID"] = f"<{digest[:32]}@{domain(maker)}>"
    mail.set_content(text, cte=encoding(text))
    mail.add_alternative(html, subtype="html", cte=encoding(html))
    mail.set_boundary(f"=_{digest[32:]}")
    mail["Content-Language"] = letter.reader.locale
    return mail


def text_part(letter: Letter) -> str:
    """The plain letter."""
    return page("email/letter.txt", letter.reader.locale, letter=letter, weeks=letter.weeks[-WEEKS_SHOWN:])


def html_part(letter: Letter) -> str:
    """The letter with its styles inlined; those for dark screens stay in the head."""
    weeks, css = letter.weeks[-WEEKS_SHOWN:], style("shared/mail.css")
    return inlined(page("email/letter.html", letter.reader.locale, letter=letter, weeks=weeks, css=css))


def inlined(html: str) -> str:
    """A page with its styles on its elements; those for dark and narrow screens stay in the head."""
    inliner = css_inline.CSSInliner(load_remote_stylesheets=False, keep_style_tags=True, remove_inlined_selectors=True)
    return inliner.inline(html)


def encoding(text: str) -> str:
    """The transfer encoding (RFC 2045 6.7, 6.8): readable where text is mostly ASCII, compact for other scripts."""
    foreign = sum(not character.isascii() for character in text)
    return "base64" if foreign * 3 > len(text) else "quoted-printable"


def sender(maker: Maker) -> Address:
    """The maker's name with its address; one that reaches nobody where the settings hold no plain address."""
    found = ADDRESS.fullmatch(maker.contact)
    return Address(maker.name, found[1], found[2]) if found else Address(maker.name, "no-reply", NO_DOMAIN)


def domain(maker: Maker) -> str:
    """The domain of the maker's address."""
    return sender(maker).domain
