"""Widgets, colours and background work that know no roof; start at `theme`."""
