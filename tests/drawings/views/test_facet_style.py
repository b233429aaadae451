import itertools

from roofmodel.drawings.views import facet_style
from tests.drawings import drawn


def channels(colour):
    return [int(colour[i : i + 2], 16) for i in (1, 3, 5)]


def test_the_facets_of_any_shape_here_have_colours_that_differ():
    colours = [channels(facet_style.facet_colour(place)) for place in range(7)]

    for a, b in itertools.combinations(colours, 2):
        assert sum(abs(x - y) for x, y in zip(a, b, strict=True)) > 60


def test_colours_begin_again_when_they_run_out():
    assert facet_style.facet_colour(8) == facet_style.facet_colour(0)


def test_a_label_says_name_pitch_and_true_area():
    facet = drawn.roof_of().facet("F2")

    assert facet_style.facet_label(facet) == "F2\n25.0°\n1.40 m²"
