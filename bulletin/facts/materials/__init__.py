"""What is on the shelves, what goes into a model, and how far the one reaches for the other."""
