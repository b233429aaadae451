"""How bright a face is: the sun, the open sky above and what the ground throws back."""

import numpy as np
from numpy.typing import NDArray

from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import finishes
from roofmodel.drawings.scenes.shadow import SUN
from roofmodel.geometry.plane import Vector

_SUN, _SKY, _GROUND = 0.50, 0.62, 0.40
"""Full sun; light from the sky on a face that looks up, from the ground on one that looks down."""

_WARM, _COOL = np.array([1.03, 1.0, 0.95]), np.array([0.95, 0.99, 1.05])
"""The sun's light is warm, the sky's cool."""


def colours(body: Body) -> NDArray[np.uint8]:
    """Return the colour of every triangle of a body as it is seen, (m, 3) red, green and blue."""
    whole = by_sun(sky(body), sunlit(body, SUN) * (1.0 - body.shade))
    return np.asarray(np.clip(whole * 255.0, 0.0, 255.0), dtype=np.uint8)


def sky(body: Body) -> NDArray[np.float64]:
    """Return what every triangle sends back of the light of sky and ground, (m, 3); 1 is white."""
    finish = finishes()[body.part]
    base = np.array(finish.colour) * (1.0 + finish.scatter * _scattered(body.piece))[:, np.newaxis]
    return np.asarray(base * _from_sky(_normals(body))[:, np.newaxis] * _COOL, dtype=float)


def sunlit(body: Body, sun: Vector) -> NDArray[np.float64]:
    """Return how strong the open sun is on every triangle, (m,), in parts of the sky's light.

    Parameters
    ----------
    body
        What is seen; what it says of shade is left to whoever asks.
    sun : (3,) array
        Unit vector towards the sun.
    """
    normals = _normals(body)
    return np.asarray(_SUN * np.clip(normals @ sun, 0.0, 1.0) / _from_sky(normals), dtype=float)


def by_sun(of_sky: NDArray[np.float64], sun: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the light (…, 3) of sky and sun; ``sun`` (…) is in parts of the sky's."""
    return np.asarray(of_sky * (1.0 + sun[..., np.newaxis] * (_WARM / _COOL)), dtype=float)


MOST_SUN = _SUN / _GROUND
"""More than this `sunlit` never is."""


def _from_sky(normals: NDArray[np.float64]) -> NDArray[np.float64]:
    return _GROUND + (_SKY - _GROUND) * (0.5 + 0.5 * normals[:, 2])


def _normals(body: Body) -> NDArray[np.float64]:
    normals = np.cross(
        body.triangles[:, 1] - body.triangles[:, 0], body.triangles[:, 2] - body.triangles[:, 0]
    )
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    return np.asarray(normals / np.where(lengths > 0.0, lengths, 1.0), dtype=float)


def _scattered(numbers: NDArray[np.int64]) -> NDArray[np.float64]:
    """Return a fixed number from -1 to 1 for every number, neighbours unlike each other."""
    waves = np.sin(numbers.astype(float) * 12.9898 + 4.1) * 43_758.5453
    return np.asarray(2.0 * (waves - np.floor(waves)) - 1.0, dtype=float)
