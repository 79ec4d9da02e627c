"""Waiting credit in whole minor units: what the policy has earned an order, what is left of it, what is still owed."""
