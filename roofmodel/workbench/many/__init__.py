"""Folders of jobs planned and priced in parallel; start at `batch`."""
