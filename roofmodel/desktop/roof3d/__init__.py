"""The roof in 3D; start at `view_panel`."""
