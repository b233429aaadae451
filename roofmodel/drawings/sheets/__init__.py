"""Cutting sheets, parts and facets as the workshop reads them; start at `cutting_sheet`."""
