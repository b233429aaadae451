"""Boards on facets, pieces on sheets: lays, nests, bounds and verifies."""
