"""What was taped on site, and what is doubtful about it."""
