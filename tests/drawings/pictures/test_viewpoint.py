"""Cameras without a photograph: upright, in the garden or in the room, with the roof in sight."""

import numpy as np
import pytest

from roofmodel.drawings.pictures import viewpoint
from roofmodel.drawings.pictures.viewpoint import Viewpoint
from tests.photographs import taken

SIZE = (1200, 800)


@pytest.mark.parametrize("place", [Viewpoint.ABOVE, Viewpoint.STANDING])
@pytest.mark.parametrize("shape", ["lean-to", "five-facet-end", "wing"])
def test_from_the_garden_the_whole_roof_is_in_the_picture(place, shape):
    roof = taken.roof_of(shape).roof
    camera = viewpoint.camera(place, roof, SIZE)
    corners = [corner for facet in roof.facets for corner in facet.corners]
    spots = camera.spots(corners)

    assert (camera.depths(corners) > 0.0).all()
    assert ((spots > 0.0) & (spots < SIZE)).all()
    assert camera.axes[0][2] == pytest.approx(0.0, abs=1e-9)  # level


def test_who_stands_has_his_eye_where_people_have_it():
    roof = taken.roof_of("gable").roof
    eye = viewpoint.camera(Viewpoint.STANDING, roof, SIZE).eye

    assert eye[2] + roof.eaves_height_mm == pytest.approx(1_600.0)
    assert eye[1] > max(corner[1] for facet in roof.facets for corner in facet.corners)


def test_inside_is_inside_and_sees_the_ridge():
    roof = taken.roof_of("gable").roof
    camera = viewpoint.camera(Viewpoint.INSIDE, roof, SIZE)
    corners = np.array([corner for facet in roof.facets for corner in facet.corners])

    assert (corners.min(axis=0)[:2] < camera.eye[:2]).all()
    assert (camera.eye[:2] < corners.max(axis=0)[:2]).all()
    at_house = corners[(corners[:, 2] > 1.0) & (corners[:, 1] < 1.0)]
    spot = camera.spots(at_house)[0]
    assert 0.0 < spot[0] < SIZE[0]
    assert 0.0 < spot[1] < SIZE[1] / 2.0


def test_a_camera_looks_where_it_is_told():
    eye, at = np.array([1_000.0, 8_000.0, 0.0]), np.array([1_500.0, 0.0, 700.0])

    assert viewpoint.looking(eye, at, 40.0, SIZE).spots([at])[0] == pytest.approx([600.0, 400.0])
