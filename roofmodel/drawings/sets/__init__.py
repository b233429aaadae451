"""Whole sets of papers, written together and read back; start at `cutting_papers`."""
