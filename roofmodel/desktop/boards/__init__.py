"""Boards on facets and pieces on sheets; start at `cutting_panel`."""
