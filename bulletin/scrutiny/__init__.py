"""What rules look at: a draft's prose and claims with the facts beside them, and what can be offered instead."""
