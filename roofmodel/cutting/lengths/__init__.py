"""Timber, gutter and battens cut from stock lengths; start at `plan`."""
