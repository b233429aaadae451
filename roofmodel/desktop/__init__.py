"""The window, its panels and the 3D view; the only room that knows Qt."""
