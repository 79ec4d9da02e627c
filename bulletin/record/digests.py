"""Digests: SHA-256 of canonical bytes, so that the same content always has the same one."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from typing import Any

FIRST = "0" * 64
"""What the first bulletin of a record is chained to."""


def of_bytes(content: bytes) -> str:
    """The digest of bytes, 64 hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def of_json(content: Any) -> str:
    """The digest of anything JSON can hold, whatever the order of its keys."""
    return of_bytes(json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode())


def of_digests(digests: Iterable[str]) -> str:
    """The digest of a list of digests, in their order."""
    return of_bytes("\n".join(digests).encode())


def salted(salt: str, content: str) -> str:
    """The digest of something that could be guessed: without the salt the digest tells nothing."""
    return of_bytes(f"{salt}\n{content}".encode())
