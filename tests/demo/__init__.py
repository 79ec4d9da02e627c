"""The maker of data/demo: a small loom maker's tables, invented from fixed seeds, the same bytes on every machine."""
