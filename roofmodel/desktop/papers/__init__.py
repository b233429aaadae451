"""Papers, offers and model files written from the window; start at `write_papers`."""
