"""What every room needs and knows nothing of roofs: errors, tolerances, sources, shipped data."""
