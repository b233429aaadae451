"""3D model files: glTF, STL, OBJ.

glTF holds metres with y up, as that format asks; STL and OBJ hold millimetres with z up, as a
workshop's programs expect. Parts keep their names and colours where the format has room for them.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import trimesh
from trimesh.visual.color import ColorVisuals, hex_to_rgba

from roofmodel.drawings.views.facet_style import facet_colour
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry import mesh, trimesh_of
from roofmodel.geometry.mesh import Mesh
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Roof

WALL_COLOUR = "#dedad2"

_MM_PER_M = 1000.0

# Rows: metres from millimetres, and z up turned to y up.
_TO_GLTF = np.array(
    [[1, 0, 0, 0], [0, 0, 1, 0], [0, -1, 0, 0], [0, 0, 0, _MM_PER_M]], dtype=float
) / _MM_PER_M  # fmt: skip


@dataclass(frozen=True, slots=True)
class Part:
    """One named body of a model, in millimetres with z up, and its colour ``#rrggbb``."""

    name: str
    body: Mesh
    colour: str


def skin_parts(roof: Roof) -> list[Part]:
    """Return one part a facet, named F1…, and the walls: for looking at."""
    facets = [
        Part(facet.name, mesh.of_polygons([facet.corners]), facet_colour(number))
        for number, facet in enumerate(roof.facets)
    ]
    return [*facets, Part("walls", mesh.of_polygons(solid.walls(roof)), WALL_COLOUR)]


def closed_part(roof: Roof) -> Part:
    """Return the watertight body with walls and floor: for measuring and printing."""
    return Part("roof", solid.closed(roof), WALL_COLOUR)


def content(parts: Sequence[Part], ending: str) -> bytes:
    """Return the content of a model file.

    Raises
    ------
    DrawingError
        If the ending is none of `ENDINGS`.
    """
    write = _FORMATS.get(ending.lower())
    if write is None:
        raise DrawingError(f"“{ending}” is not a model format. Use one of {', '.join(ENDINGS)}.")
    return write(_scene(parts))


def _scene(parts: Sequence[Part]) -> trimesh.Scene:
    scene = trimesh.Scene()
    for part in parts:
        body = trimesh_of.body(part.body)
        body.visual = ColorVisuals(body, face_colors=hex_to_rgba(part.colour))
        scene.add_geometry(body, node_name=part.name, geom_name=part.name)
    return scene


def _gltf(made: Any) -> bytes:  # noqa: ANN401 - the library's exporters are untyped
    for part in made.geometry.values():
        part.apply_transform(_TO_GLTF)
    written: bytes = made.export(file_type="glb")
    return written


def _stl(made: Any) -> bytes:  # noqa: ANN401
    written: bytes = made.export(file_type="stl")
    return written


def _obj(made: Any) -> bytes:  # noqa: ANN401
    # Materials would need a second file beside it; names of parts are kept as groups.
    written: str = made.export(file_type="obj", include_color=False, include_texture=False)
    return written.encode()


_FORMATS: Mapping[str, Callable[[Any], bytes]] = {".glb": _gltf, ".stl": _stl, ".obj": _obj}
ENDINGS = tuple(_FORMATS)
"""File endings this module writes."""
