"""Orders, serials and scans as arrays: keys that join tables, who waits, whose unit is whose, what fell on which day."""
