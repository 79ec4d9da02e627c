"""How long a draft of 1,500 words with 60 claims is checked, beyond reading tables and computing facts.

    python -m tests.bench.bench_checking

The facts come from a list, so that what is measured is the checking alone. The best of five runs counts, in processor time.
"""

from __future__ import annotations

import sys
import time
import tracemalloc

from bulletin.draft.reading import read_text
from tests.rules.builders import judged, titled

RUNS = 5
PARAGRAPH = """We boxed {{ boxed.week }} looms this week, [our best week so far]{boxed.week > boxed.best_week}, and all is dry.
[About 1,300]{boxed.total} have left the bench since we began. Thank you, every one of you, for the letters and the patience.
The new pattern book is at the printer's and the Heron 12 has a new shed stick that one of you asked for long ago, which we like.
We boxed 87 frames by hand.

"""


def measure(text: str) -> tuple[float, float]:
    """Milliseconds of processor time of the best run, and the peak of memory of one in MB."""
    times = []
    for _ in range(RUNS):
        begin = time.process_time()
        judged(text)
        times.append(time.process_time() - begin)
    tracemalloc.start()
    judged(text)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return min(times) * 1000, peak / 1e6


def main() -> int:
    """Print what was measured; fails above the aim of 150 ms."""
    text = titled(PARAGRAPH * 21)
    draft, _ = read_text(text, "news", "en", "news.en.md")
    claims = len(draft.claims) if draft else 0
    milliseconds, peak = measure(text)
    print(f"{len(text.split())} words, {claims} claims: {milliseconds:.0f} ms, peak {peak:.1f} MB")
    return 0 if milliseconds < 150 else 1


if __name__ == "__main__":
    sys.exit(main())
