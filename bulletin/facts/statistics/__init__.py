"""Exact limits, tests, sampling plans and charts: figures of statistics that know no table."""
