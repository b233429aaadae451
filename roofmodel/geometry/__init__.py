"""Planes, polygons, frames and meshes; knows nothing of roofs."""
