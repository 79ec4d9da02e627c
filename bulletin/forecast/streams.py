"""Random numbers from one fixed seed, a stream of its own for each purpose, thing and day.

Whatever else a maker's tables hold, the numbers drawn for a line, a part or a day stay the same: a mended typo elsewhere moves no
window, and what is simulated without something differs by that thing alone.
"""

from __future__ import annotations

from zlib import crc32

import numpy as np

SEED = 20_260_327


def stream(*names: str | int) -> np.random.Generator:
    """The generator that belongs to these names."""
    keys = [name if isinstance(name, int) else crc32(name.encode()) for name in names]
    return np.random.Generator(np.random.SFC64(np.random.SeedSequence([SEED, *keys])))


def shares_of_one(count: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """The middles of `count` equal shares of (0, 1): a systematic draw, which leaves less to chance than a random one."""
    return (np.arange(count) + 0.5) / count
