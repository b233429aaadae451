"""Looks for lay-outs of the roof that take fewer sheets; start at `search`."""
