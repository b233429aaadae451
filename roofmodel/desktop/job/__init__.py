"""The open job and what all pages share of it; start at `open_job`."""
