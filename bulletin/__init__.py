"""bulletin: what a maker tells the customers who wait, held against the maker's own records."""
