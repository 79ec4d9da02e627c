"""What was issued and never changes."""
