"""Things every room needs and that know nothing of roofs: errors, tolerances, sources, shipped data."""
