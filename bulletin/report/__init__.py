"""What the command line prints: problems in words, facts, verdicts and the record as text or JSON."""

import json
from typing import Any

from bulletin.report.problems import word, worded

__all__ = ["as_text", "word", "worded"]


def as_text(content: Any) -> str:
    """JSON as it is printed: indented, letters of every language as they are."""
    return json.dumps(content, ensure_ascii=False, indent=2)
