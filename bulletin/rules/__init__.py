"""The rules, in the order in which the manual shows them. A new rule is one module and one line here.

The list stands in `listing.py`, so that importing one module of this package does not import them all.
"""
