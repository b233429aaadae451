"""What was entered, shape by shape, and what is doubtful about it; start at `survey`."""
