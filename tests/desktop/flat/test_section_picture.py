"""The section as the window draws it."""

import math

import pytest

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from roofmodel.desktop.flat import section_picture
from roofmodel.foundation.errors import DimensionError
from roofmodel.workbench.job.reckoning import reckon


@pytest.fixture
def roof(sample):
    return lambda name: reckon(sample(name)).roof


def test_the_first_section_of_a_lean_to_shows_its_pitch(roof):
    lean_to = roof("lean-to")
    line = section_picture.default_line(lean_to)

    drawing = section_picture.picture(lean_to, line)

    assert line == ((2000.0, 2800.0), (2000.0, 0.0))
    (cut,) = [s for s in drawing.strokes if s.words]
    assert cut.words[-1] == "15.0°"
    run = {o.name: o.end - o.start for o in drawing.overalls}
    assert run["rise"] == pytest.approx(2800.0 * math.tan(math.radians(15.0)))


def test_a_section_beside_the_roof_is_refused_in_words(roof):
    with pytest.raises(DimensionError, match="does not cross the roof"):
        section_picture.picture(roof("lean-to"), ((-500.0, 0.0), (-500.0, 900.0)))
