"""Boards on a facet: courses, joints and the rules of laying; start at `from_facets`."""
