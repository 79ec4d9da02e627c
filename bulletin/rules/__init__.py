"""What a draft is held against: one file a rule, each its own manual page."""
