import shapely

from roofmodel.drawings.paper import page
from roofmodel.drawings.paper.page import TitleBlock
from tests.drawings.drawn import RecordingPen


def test_the_largest_usual_scale_that_fits_is_taken():
    assert page.scale_for((1200.0, 600.0)) == 5
    assert page.scale_for((2440.0, 1220.0)) == 10
    assert page.scale_for((17_000.0, 5000.0)) == 50
    assert page.scale_for((1e6, 1e6)) == 500


def test_all_words_lie_inside_the_frame_and_apart():
    pen = RecordingPen()
    rows = (("Title", "OSB18 cutting sheet"), ("Material", "a very long name " * 8), ("Job", "J04"))
    page.draw(TitleBlock(rows, ("Laid out by rules that go on for a while. " * 6,)), pen)

    frame = pen.outlines[0].area
    boxes = [text.box for text in pen.texts]
    assert all(frame.contains(box) for box in boxes)
    assert sum(box.area for box in boxes) == _near(shapely.union_all(boxes).area)


def _near(area):
    return shapely.box(0, 0, area, 1).area
