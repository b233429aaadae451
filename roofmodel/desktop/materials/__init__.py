"""The firm's catalogue; start at `materials_window`."""
