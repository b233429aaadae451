"""Plan, elevations and section; start at `drawings_page`."""
