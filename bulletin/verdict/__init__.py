"""From a draft to a verdict: every form judged, every rule run, and the gate that a bulletin must pass."""
