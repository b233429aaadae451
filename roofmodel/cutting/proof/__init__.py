"""Numbers of sheets that no plan can be below; start at `floor`."""
