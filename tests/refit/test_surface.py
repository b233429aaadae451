"""A layer over one pitch is the datum moved up: the short way agrees with the long one."""

import numpy as np
import pytest

from roofmodel.refit import surface
from roofmodel.shapes.layers.layer_surface import LayerPlace, layer_roof
from tests import acceptance_jobs


@pytest.mark.parametrize("code", ["J01", "J04", "J05", "J06", "J07"])
def test_surfaces_are_those_of_the_general_way(code, monkeypatch):
    refit = acceptance_jobs.drawn(code).option.refit
    site, entry = refit.site, refit.entry
    short = surface.surfaces(refit.layers, site.footprint, entry, datum=site.roof)
    monkeypatch.setattr(surface, "_raised", lambda *_: None)
    long = surface.surfaces(refit.layers, site.footprint, entry, datum=site.roof)

    assert short.keys() == long.keys()
    for number, one in short.items():
        other = long[number]
        assert one.words == other.words
        for facet, twin in zip(one.roof.facets, other.roof.facets, strict=True):
            assert facet.name == twin.name
            assert np.abs(np.array(facet.corners) - np.array(twin.corners)).max() < 1e-6
            assert facet.plane.offset_mm == pytest.approx(twin.plane.offset_mm, abs=1e-6)


def test_only_roofs_of_one_pitch_go_the_short_way():
    two_pitches = acceptance_jobs.drawn("J06").option.refit.site
    one_pitch = acceptance_jobs.drawn("J04").option.refit.site

    place = LayerPlace(offset_mm=18.0)
    assert surface._raised(two_pitches.footprint, place, two_pitches.roof) is None
    assert surface._raised(one_pitch.footprint, place, one_pitch.roof) is not None
    inset = LayerPlace(offset_mm=-100.0, inset_mm=60.0)
    assert surface._raised(one_pitch.footprint, inset, one_pitch.roof) is None
    assert layer_roof(one_pitch.footprint, inset, eaves_height_mm=2100.0).area_m2 < 12.743
