"""The lines of each shape's survey sheet and the closures between them; start at `networks`."""
