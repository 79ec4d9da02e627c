"""A founder's draft in: its header, the three forms, the small language of conditions."""
