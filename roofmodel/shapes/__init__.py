"""What a roof is, and the shapes the trade meets."""
