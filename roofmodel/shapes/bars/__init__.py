"""Bars and rafters, their cuts, and the bays between them; start at `members`."""
