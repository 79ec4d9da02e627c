"""How facts are written: a day, scopes and doors on it, the rows behind a fact, the maker's calendar."""
