"""The workshop's papers gathered and written, with the rack; start at `paper_set`."""
