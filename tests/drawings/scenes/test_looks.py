"""Every sample stands as a solid thing, glazed and finished, and shows what was decided."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from roofmodel.drawings.scenes import looks
from roofmodel.drawings.scenes.finish import Part
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.entry import RoofWindow
from roofmodel.refit.method import Method
from tests.drawings.scenes.sites import EACH, job_of, refitted, site_of


def area_m2(bodies, *parts):
    """Area seen square to the facets [m²]; upright steps of tiles count nothing."""
    total = 0.0
    for body in bodies:
        if body.part in parts:
            a, b, c = (body.triangles[:, i] for i in range(3))
            total += float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum()) / 2e6
    return total


@pytest.mark.parametrize("name", EACH)
def test_a_glazed_roof_has_as_much_glass_as_its_facets_have_area(name):
    site = site_of(name)
    bodies = looks.as_it_stands(site)

    assert all(np.isfinite(body.triangles).all() for body in bodies)
    assert area_m2(bodies, Part.ROOF_GLASS) == pytest.approx(site.roof.area_m2, rel=1e-4)
    assert not area_m2(bodies, Part.TILE, Part.PANEL)


@pytest.mark.parametrize("name", EACH)
def test_a_finished_roof_is_covered_and_glazed_nowhere(name):
    roof = site_of(name).roof
    made = 0
    for method, part in ((Method.BUILD_ROUND, Part.TILE), (Method.PANEL_SWAP, Part.PANEL)):
        try:
            refit = refitted(name, method)
        except RoofModelError:
            continue
        made += 1
        bodies = looks.finished(refit)
        assert all(np.isfinite(body.triangles).all() for body in bodies)
        assert area_m2(bodies, part) > roof.area_m2 * 0.99
        assert not area_m2(bodies, Part.ROOF_GLASS)
    assert made


def test_a_facet_kept_glazed_stays_glass():
    entry = replace(job_of("five-facet-end").refit, kept_glazed=("F2",))
    bodies = looks.finished(refitted("five-facet-end", Method.BUILD_ROUND, entry))

    kept = site_of("five-facet-end").roof.facet("F2")
    assert area_m2(bodies, Part.ROOF_GLASS) == pytest.approx(kept.area_m2)


def test_a_roof_window_is_seen_and_no_tile_lies_in_it():
    window = RoofWindow(facet="F1", u_mm=1500.0, v_mm=700.0, width_mm=780.0, height_mm=980.0)
    entry = replace(job_of("lean-to").refit, roof_windows=(window,))
    bodies = looks.finished(refitted("lean-to", Method.BUILD_ROUND, entry))
    frame = site_of("lean-to").roof.facet("F1").frame
    hole = shapely.box(1502.0, 702.0, 2278.0, 1678.0)

    assert area_m2(bodies, Part.WINDOW_GLASS) == pytest.approx(0.670 * 0.870, rel=1e-3)
    tiles = next(body for body in bodies if body.part is Part.TILE)
    middles = frame.flatten([tuple(one) for one in tiles.triangles.mean(axis=1)])
    assert not shapely.contains_xy(hole, middles[:, 0], middles[:, 1]).any()


def test_the_room_sees_a_plastered_ceiling():
    bodies = looks.finished(refitted("hipped", Method.BUILD_ROUND))
    (plaster,) = [body for body in bodies if body.part is Part.PLASTER]
    a, b, c = (plaster.triangles[:, i] for i in range(3))

    assert (np.cross(b - a, c - a)[:, 2] < 0.0).all()
