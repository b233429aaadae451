"""A mesh as the library trimesh knows it, for measuring and export; nothing else loads trimesh."""

import trimesh

from roofmodel.geometry.mesh import Mesh


def body(mesh: Mesh) -> trimesh.Trimesh:
    """Return the mesh for measuring and export; nothing is merged, dropped or repaired."""
    return trimesh.Trimesh(vertices=mesh.points, faces=mesh.triangles, process=False)
