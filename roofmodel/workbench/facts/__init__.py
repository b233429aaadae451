"""Figures under the names and in the units that reports print; start at `facts`."""
