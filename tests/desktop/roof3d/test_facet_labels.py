"""Labels of the 3D are as large as other text on every screen, and their fit is asked for so."""

import pytest
from vtkmodules.vtkRenderingCore import vtkRenderer

from roofmodel.desktop.kit import theme
from roofmodel.desktop.roof3d.facet_labels import FacetLabels
from roofmodel.shapes.lean_to import LeanTo

pytestmark = pytest.mark.desktop


@pytest.fixture
def labels(qapp):
    theme.dress(qapp)

    def at(ratio):
        found = FacetLabels(vtkRenderer(), ratio)
        roof = LeanTo(width_mm=4000.0, projection_mm=2800.0, pitch_deg=15.0).roof(
            eaves_height_mm=2100.0
        )
        found.show(roof, selected="F1", stale=False)
        return found

    return at


def test_the_scale_of_the_screen_is_applied_once(labels):
    """The graphics library is told the scale and applies it to a font's size by itself."""
    plain, scaled = labels(1.0), labels(2.0)
    sizes = [one._actors[0].GetTextProperty().GetFontSize() for one in (plain, scaled)]

    assert sizes[0] == sizes[1]
    assert sizes[0] == pytest.approx(theme.letter_px(), abs=2)


def test_the_room_a_label_is_fitted_into_grows_with_the_scale(labels):
    width, height = labels(1.0)._size()

    assert labels(2.0)._size() == pytest.approx((2.0 * width, 2.0 * height))
