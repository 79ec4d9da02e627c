"""Figures in and out of a locale's words: documents print with it, rules read with it."""
