import itertools

from hypothesis import given
from hypothesis import strategies as st

from roofmodel.drawings.pictures import label_place

PICTURE, SIZE = (1600.0, 1000.0), (100.0, 80.0)
triangles = st.tuples(st.floats(200, 1400), st.floats(200, 800), st.floats(20, 300)).map(
    lambda t: [(t[0], t[1]), (t[0] + t[2], t[1]), (t[0], t[1] + t[2])]
)


@given(outlines=st.lists(triangles, min_size=1, max_size=7))
def test_no_label_covers_another_or_leaves_the_picture(outlines):
    places = label_place.places(outlines, SIZE, picture=PICTURE)
    scale = places[0].scale

    assert {place.scale for place in places} == {scale}
    for a, b in itertools.combinations(places, 2):
        x, y = abs(a.centre[0] - b.centre[0]), abs(a.centre[1] - b.centre[1])
        assert x >= SIZE[0] * scale - 1e-6 or y >= SIZE[1] * scale - 1e-6
    assert all(40 <= p.centre[0] <= 1560 and 32 <= p.centre[1] <= 968 for p in places)


def test_a_label_stays_on_a_facet_that_has_room_for_it():
    (place,) = label_place.places([[(0, 0), (400, 0), (0, 400)]], SIZE, picture=PICTURE)

    assert place.scale == 1.0
    assert place.centre[0] + place.centre[1] + (SIZE[0] + SIZE[1]) / 2 <= 400 + 1e-6
    assert not place.leads(SIZE)


def test_a_label_pushed_off_its_facet_is_led_back_to_it():
    small = [(800, 500), (820, 500), (800, 520)]
    places = label_place.places([small] * 4, SIZE, picture=PICTURE)

    assert any(place.leads(SIZE) for place in places)
