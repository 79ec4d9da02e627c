"""The logarithm of the gamma function on whole arrays, which numpy lacks."""

from __future__ import annotations

import numpy as np

from bulletin.forecast.output import Reals

LIFT = 8


def log_gamma(values: Reals) -> Reals:
    """The logarithm of gamma(x) for x > 0 by Stirling's series after lifting x by 8 (Abramowitz and Stegun 6.1.41 and 6.1.15)."""
    x = np.asarray(values, np.float64)
    product = np.ones_like(x)
    for step in range(LIFT):
        product = product * (x + step)
    z = x + LIFT
    series = 1 / (12 * z) - 1 / (360 * z**3) + 1 / (1260 * z**5) - 1 / (1680 * z**7)
    lifted: Reals = (z - 0.5) * np.log(z) - z + 0.5 * np.log(2 * np.pi) + series
    return lifted - np.log(product)
