"""Panes reach from bar to bar, and a facet without bars is one pane."""

import pytest

from roofmodel.drawings.scenes import covers
from roofmodel.drawings.scenes.finish import Part
from roofmodel.shapes.bars.members import Members
from tests.drawings.scenes.sites import site_of


@pytest.mark.parametrize("with_bars", [True, False])
def test_there_is_a_pane_for_every_bay(with_bars):
    drawn = site_of("lean-to")
    members = drawn.members if with_bars else Members()
    (glass,) = covers.between_bars(drawn.roof.facets, members, part=Part.ROOF_GLASS, thick_mm=6.0)
    known = members.of_facet("F1")
    bays = len(known.layout.centres_mm) + 1 if known else 1

    assert int(glass.piece.max()) + 1 == bays
