"""The roof as a 3D model file: glTF, STL, OBJ.

glTF holds metres with y up, as that format asks; STL and OBJ hold millimetres with z up, as a
workshop's programs expect. Facets keep their names and colours where the format has room for them.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import trimesh
from trimesh.visual.color import ColorVisuals, hex_to_rgba

from roofmodel.drawings.facet_style import facet_colour
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry import mesh
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Roof

_MM_PER_M = 1000.0
_WALL_COLOUR = (222, 218, 210, 255)

# Rows: metres from millimetres, and z up turned to y up.
_TO_GLTF = np.array(
    [[1, 0, 0, 0], [0, 0, 1, 0], [0, -1, 0, 0], [0, 0, 0, _MM_PER_M]], dtype=float
) / _MM_PER_M  # fmt: skip


def scene(roof: Roof) -> trimesh.Scene:
    """Return one mesh a facet, named F1…, and the walls, in millimetres with z up."""
    found = trimesh.Scene()
    for number, facet in enumerate(roof.facets):
        one = mesh.of_polygons([facet.corners]).as_trimesh()
        one.visual = ColorVisuals(one, face_colors=hex_to_rgba(facet_colour(number)))
        found.add_geometry(one, node_name=facet.name, geom_name=facet.name)
    upright = mesh.of_polygons(solid.walls(roof)).as_trimesh()
    upright.visual = ColorVisuals(upright, face_colors=_WALL_COLOUR)
    found.add_geometry(upright, node_name="walls", geom_name="walls")
    return found


def _gltf(roof: Roof) -> bytes:
    made: Any = scene(roof)
    for part in made.geometry.values():
        part.apply_transform(_TO_GLTF)
    content: bytes = made.export(file_type="glb")
    return content


def _stl(roof: Roof) -> bytes:
    made: Any = solid.closed(roof).as_trimesh()
    content: bytes = made.export(file_type="stl")
    return content


def _obj(roof: Roof) -> bytes:
    made: Any = scene(roof)
    # Materials would need a second file beside it; names of facets are kept as groups.
    text: str = made.export(file_type="obj", include_color=False, include_texture=False)
    return text.encode()


_FORMATS: Mapping[str, Callable[[Roof], bytes]] = {".glb": _gltf, ".stl": _stl, ".obj": _obj}
ENDINGS = tuple(_FORMATS)
"""File endings this module writes."""


def content(roof: Roof, ending: str) -> bytes:
    """Return the content of a model file; the STL is the closed body with walls and floor.

    Raises
    ------
    DrawingError
        If the ending is none of `ENDINGS`.
    """
    write = _FORMATS.get(ending.lower())
    if write is None:
        raise DrawingError(f"“{ending}” is not a model format. Use one of {', '.join(ENDINGS)}.")
    return write(roof)


def name(job_code: str, revision: str, ending: str) -> Path:
    """Return the file name of a model."""
    return Path(f"{job_code}-{revision}-roof{ending}")
