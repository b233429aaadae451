"""Readings, the network they tie together and what each should show; start at `network`."""
