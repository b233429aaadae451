"""Everything that follows from an entered job; start at `reckoning`."""
