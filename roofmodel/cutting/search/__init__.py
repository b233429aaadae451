"""Looks for boardings of the roof that take fewer sheets; start at `search`."""
