"""A place for one more roof window: in a facet, clear of its edges, and no kept bar is cut."""

from itertools import pairwise

import pytest
import shapely

from roofmodel.refit import window_place
from roofmodel.refit.entry import RoofWindow
from roofmodel.refit.method import Method
from tests import acceptance_jobs


def refit(code, method, **entry):
    return (
        acceptance_jobs.drawn(code, **({"refit": entry} if entry else {})).option_of(method).refit
    )


def box(window):
    return shapely.box(
        window.u_mm,
        window.v_mm,
        window.u_mm + window.width_mm,
        window.v_mm + window.height_mm,
    )


@pytest.mark.parametrize("code", ["J01", "J04", "J05", "J06"])
def test_a_window_lies_inside_its_facet_clear_of_every_edge(code):
    found = refit(code, Method.NEW_ROOF)
    window = window_place.place(found, material="WIN-ROOF", size_mm=(780.0, 980.0))

    outline = shapely.Polygon(found.site.roof.facet(window.facet).outline_mm)
    assert outline.covers(box(window))
    assert outline.exterior.distance(box(window)) >= window_place.FROM_LINE_MM - 1e-6


def test_between_kept_bars_no_bar_is_cut():
    """J01 has bars 60 wide at 666.7: 606.7 in the clear."""
    found = refit("J01", Method.BUILD_ROUND)
    window = window_place.place(found, material="WIN-ROOF-47", size_mm=(470.0, 980.0))
    bars = found.members.of_facet(window.facet)
    half = bars.widths.rafter_mm / 2.0

    assert any(
        a + half <= window.u_mm and window.u_mm + window.width_mm <= b - half
        for a, b in pairwise(bars.layout.centres_mm)
    )
    wide = window_place.place(found, material="WIN-ROOF", size_mm=(780.0, 980.0))
    assert wide == "not between the bars, 607 mm apart in the clear"


def test_a_facet_kept_glazed_takes_no_window():
    largest = refit("J04", Method.NEW_ROOF)
    first = window_place.place(largest, material="WIN-ROOF", size_mm=(780.0, 980.0)).facet
    other = refit("J04", Method.NEW_ROOF, kept_glazed=[first])

    assert window_place.place(other, material="WIN-ROOF", size_mm=(780.0, 980.0)).facet != first


def test_a_second_window_stays_clear_of_the_first_and_of_lights():
    first = RoofWindow(facet="F1", u_mm=1600.0, v_mm=900.0, width_mm=780.0, height_mm=980.0)
    entry = {
        "roof_windows": [
            {"facet": "F1", "u_mm": 1600.0, "v_mm": 900.0, "width_mm": 780.0, "height_mm": 980.0}
        ]
    }
    found = refit("J01", Method.NEW_ROOF, **entry)
    light = (700.0, 1400.0)
    window = window_place.place(
        found, material="WIN-ROOF", size_mm=(780.0, 980.0), lights=[("F1", light)]
    )

    assert box(window).distance(box(first)) >= window_place.FROM_WINDOW_MM - 1e-6
    assert box(window).distance(shapely.Point(light)) >= window_place.FROM_LIGHT_MM - 1.0


def test_where_nothing_fits_it_is_said():
    found = refit("J01", Method.NEW_ROOF)
    words = window_place.place(found, material="WIN-ROOF", size_mm=(2900.0, 2900.0))

    assert "no facet has room" in words
