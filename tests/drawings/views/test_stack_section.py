"""The layer section: boxes where the layers lie, labels that keep apart, drawn to scale."""

from itertools import pairwise

import pytest

from roofmodel.drawings.views import stack_section
from roofmodel.foundation import resources
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning


@pytest.fixture
def refit():
    job = job_file.read(resources.sample_roofs() / "lean-to.roofjob.json")
    return reckoning.reckon(job).option.refit


class Recorder:
    """Keeps what is drawn."""

    def __init__(self):
        self.outlines, self.lines, self.texts = [], [], []

    def outline(self, corners, *, layer):
        self.outlines.append((layer, list(corners)))

    def line(self, spots, *, layer):
        self.lines.append((layer, list(spots)))

    def text(self, words, at, *, height_mm, turn_deg, layer):
        self.texts.append((words, at))


def test_every_layer_is_as_thick_as_it_is_built_and_touches_the_next(refit):
    section = stack_section.of_refit(refit)

    for band, layer in zip(section.bands, refit.layers, strict=True):
        assert all(box[3] - box[1] == pytest.approx(layer.thickness_mm) for box in band.boxes)
    lows = [band.boxes[0][1] for band in section.bands]
    assert lows == sorted(lows)
    assert section.inside_mm == pytest.approx(-lows[0])


def test_what_lies_between_the_bars_touches_no_bar(refit):
    section = stack_section.of_refit(refit)
    between = next(b for b in section.bands if b.words.startswith("6 PIR"))

    assert len(between.boxes) == 3
    gap = refit.entry.fitting_gap_mm
    assert between.boxes[1][0] - section.bars[0][2] == pytest.approx(gap)
    assert section.bars[1][0] - between.boxes[1][2] == pytest.approx(gap)


def test_bars_far_apart_are_drawn_closer_and_the_section_says_so(refit):
    section = stack_section.of_refit(refit)

    assert section.bars[1][0] - section.bars[0][0] == pytest.approx(stack_section.DRAWN_MM)
    assert "drawn closer together" in section.remark


def test_labels_keep_apart_and_in_order():
    found = stack_section.spread([0.0, 1.0, 2.0, 100.0], 14.0)

    assert [b - a for a, b in pairwise(found)][:2] == pytest.approx([14, 14])
    # The crowd stands round its own middle; what is alone stays.
    assert sum(found[:3]) / 3 == pytest.approx(1.0)
    assert found[3] == 100.0


def test_the_drawing_holds_bars_layers_datum_and_both_depths(refit):
    section, pen = stack_section.of_refit(refit), Recorder()

    stack_section.draw(section, pen)

    assert len(pen.outlines) == 2 + sum(len(band.boxes) for band in section.bands)
    assert [spots for layer, spots in pen.lines if layer is stack_section.DATUM_LINE] == [
        [(section.left_mm, 0.0), (section.right_mm, 0.0)]
    ]
    words = [text for text, _ in pen.texts]
    assert all(band.words in words for band in section.bands)
    assert f"inside {section.inside_mm:g}" in words
    assert f"outside {section.outside_mm:g}" in words
