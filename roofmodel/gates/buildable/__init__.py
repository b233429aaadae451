"""Can it be built with this stock, on this pitch, below this sill, and safely?"""
