import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.lettering import Place, Words
from tests.drawings.drawn import RecordingPen

sizes_mm = st.floats(10, 400)
triangles = st.tuples(*[st.tuples(st.floats(0, 2000), st.floats(0, 1200)) for _ in range(3)]).map(
    shapely.Polygon
)


@given(region=triangles, length=sizes_mm, height=sizes_mm, turn=st.floats(-90, 90))
def test_a_box_that_found_room_lies_in_its_region(region, length, height, turn):
    place = lettering.room((length, height), region, turns_deg=(0.0, turn), smallest=0.1)

    if place is not None:
        assert 0.1 <= place.scale <= 1.0
        assert region.buffer(1e-6).contains(lettering.box((length, height), place))


def test_a_box_stays_at_full_size_where_there_is_room_and_shrinks_where_there_is_not():
    assert lettering.room((200, 50), shapely.box(0, 0, 300, 100)).scale == 1.0
    assert 0.4 < lettering.room((200, 50), shapely.box(0, 0, 100, 100), smallest=0.1).scale <= 0.5
    assert lettering.room((200, 50), shapely.box(0, 0, 100, 100), smallest=0.6) is None


def test_a_tall_region_takes_a_long_box_turned():
    place = lettering.room((200, 50), shapely.box(0, 0, 60, 300), turns_deg=(0.0, 90.0))

    assert (place.turn_deg, place.scale) == (90.0, 1.0)


def test_nothing_fits_into_nothing():
    assert lettering.room((1, 1), shapely.Polygon()) is None


def test_of_all_places_the_one_near_the_goal_is_taken():
    place = lettering.room((10, 10), shapely.box(0, 0, 300, 100), near=(300, 100))

    assert place.centre == pytest.approx((295, 95))


def test_words_beside_a_side_lie_inside_and_parallel_to_it():
    region = shapely.box(0, 0, 300, 300)
    words = Words("BEVEL", 20)

    below = lettering.along_side(words, ((0, 0), (300, 0)), region, smallest=1.0)
    beside = lettering.along_side(words, ((300, 0), (300, 300)), region, smallest=1.0)

    assert (below.turn_deg, below.centre) == (0.0, pytest.approx((150, 25)))
    assert (beside.turn_deg, beside.centre) == (90.0, pytest.approx((275, 150)))


@pytest.mark.parametrize(
    ("turn", "upright"), [(0, 0), (90, 90), (91, -89), (180, 0), (270, 90), (-90, 90), (300, -60)]
)
def test_words_never_stand_on_their_head(turn, upright):
    assert lettering.upright_deg(turn) == pytest.approx(upright)


def test_lines_are_written_from_the_top_down_inside_their_block():
    lines = [Words("FIRST", 40), Words("SECOND LINE", 20)]
    place = Place((500.0, 300.0), 90.0, 0.5)
    pen = RecordingPen()

    lettering.write_block(lines, place, layer=layer.TITLE, pen=pen)

    room = lettering.box(lettering.block_size_mm(lines), place)
    assert pen.said() == ["FIRST", "SECOND LINE"]
    assert [text.height_mm for text in pen.texts] == [20, 10]
    assert all(room.buffer(1e-6).contains(text.box) for text in pen.texts)
    assert not pen.texts[0].box.intersects(pen.texts[1].box)
