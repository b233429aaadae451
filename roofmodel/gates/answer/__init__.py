"""What a gate answers with, and what it asks of the site; start at `result`."""
