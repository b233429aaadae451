"""The three methods side by side, on one geometry; a refused one stays with its reason."""
