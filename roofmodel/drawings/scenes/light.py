"""How bright a face is: the sun, the open sky above and what the ground throws back."""

import numpy as np
from numpy.typing import NDArray

from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import finishes
from roofmodel.drawings.scenes.shadow import SUN

_SUN, _SKY, _GROUND = 0.50, 0.62, 0.40
"""Full sun; light from the sky on a face that looks up, from the ground on one that looks down."""

_WARM, _COOL = np.array([1.03, 1.0, 0.95]), np.array([0.95, 0.99, 1.05])
"""The sun's light is warm, the sky's cool."""


def colours(body: Body) -> NDArray[np.uint8]:
    """Return the colour of every triangle of a body as it is seen, (m, 3) red, green and blue."""
    finish = finishes()[body.part]
    normals = np.cross(
        body.triangles[:, 1] - body.triangles[:, 0], body.triangles[:, 2] - body.triangles[:, 0]
    )
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    normals = normals / np.where(lengths > 0.0, lengths, 1.0)
    towards = np.clip(normals @ SUN, 0.0, 1.0) * (1.0 - body.shade)
    up = 0.5 + 0.5 * normals[:, 2]
    sky = _GROUND + (_SKY - _GROUND) * up
    light = sky[:, np.newaxis] * _COOL + _SUN * towards[:, np.newaxis] * _WARM
    base = np.array(finish.colour) * (1.0 + finish.scatter * _scattered(body.piece))[:, np.newaxis]
    return np.asarray(np.clip(base * light * 255.0, 0.0, 255.0), dtype=np.uint8)


def _scattered(numbers: NDArray[np.int64]) -> NDArray[np.float64]:
    """Return a fixed number from -1 to 1 for every number, neighbours unlike each other."""
    waves = np.sin(numbers.astype(float) * 12.9898 + 4.1) * 43_758.5453
    return np.asarray(2.0 * (waves - np.floor(waves)) - 1.0, dtype=float)
