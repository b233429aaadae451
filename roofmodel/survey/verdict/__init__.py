"""Whether a survey is closed, and what to read next; start at `examination`."""
