"""Faces in the sun are lighter than those in shadow, and a scene always looks the same."""

import numpy as np

from roofmodel.drawings.scenes import light
from roofmodel.drawings.scenes.body import body, fan
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.shadow import SUN

FLAT = fan([(0, 0, 0), (100, 0, 0), (100, 100, 0), (0, 100, 0)])


def brightness(part, triangles, shade=0.0):
    return light.colours(body(part, [triangles], [shade])).astype(int).sum()


def test_the_face_towards_the_sun_is_lighter_than_the_one_away_from_it():
    assert SUN[2] > 0.0
    assert brightness(Part.FRAME, FLAT) > brightness(Part.FRAME, FLAT[:, ::-1])


def test_a_shadow_takes_the_sun_and_leaves_the_sky():
    assert 0 < brightness(Part.PAVING, FLAT, 1.0) < brightness(Part.PAVING, FLAT, 0.5)
    assert brightness(Part.PAVING, FLAT, 0.5) < brightness(Part.PAVING, FLAT)


def test_tiles_differ_from_each_other_and_never_from_picture_to_picture():
    made = body(Part.TILE, [FLAT] * 12)

    assert len(np.unique(light.colours(made), axis=0)) > 6
    assert (light.colours(made) == light.colours(made)).all()
    # Both triangles of one tile have one colour.
    assert (light.colours(made)[0::2] == light.colours(made)[1::2]).all()
