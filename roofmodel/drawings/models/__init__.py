"""The roof as a 3D model file; start at `model_file`."""
