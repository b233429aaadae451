"""The surfaces and bodies of the layers on a roof; start at `layer_surface`."""
