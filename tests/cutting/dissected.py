"""Random plans that are good by construction: whole sheets cut up with a blade."""

import math
from dataclasses import dataclass

from hypothesis import strategies as st

from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem


@dataclass(frozen=True)
class Dissection:
    """A problem together with a plan of so many sheets."""

    problem: Problem
    layout: Layout


@st.composite
def dissections(draw, most_sheets=3, least_mm=80):
    """Cut sheets straight, lengthwise and across, some of the pieces once more on the skew."""
    kerf = draw(st.sampled_from([0, 30, 45]))
    trim = draw(st.sampled_from([0, 50]))
    turns = draw(st.sampled_from([(0, 180), (0, 90, 180, 270)]))
    length, width = draw(st.sampled_from([(24400, 12200), (6000, 3000)]))
    sheets = draw(st.integers(1, most_sheets))
    placed = []
    for sheet_no in range(1, sheets + 1):
        boxes = [(trim, trim, length - trim, width - trim)]
        for _ in range(draw(st.integers(0, 5))):
            boxes = _cut_one(draw, boxes, kerf, 10 * least_mm)
        for box in boxes:
            for corners in _on_the_skew(draw, box, kerf):
                placed.append(_placed(corners, sheet_no, len(placed) + 1, turns))
    problem = Problem(
        sheet_length=length,
        sheet_width=width,
        kerf=kerf,
        trim=trim,
        parts=tuple(p.part for p in placed),
    )
    return Dissection(problem, Layout(placed=tuple(placed)))


def _cut_one(draw, boxes, kerf, least):
    number = draw(st.integers(0, len(boxes) - 1))
    x0, y0, x1, y1 = boxes.pop(number)
    across = draw(st.booleans())
    low, high = (x0, x1) if across else (y0, y1)
    if high - low < 2 * least + kerf:
        return [*boxes, (x0, y0, x1, y1)]
    at = draw(st.integers(low + least, high - least - kerf))
    if across:
        return [*boxes, (x0, y0, at, y1), (at + kerf, y0, x1, y1)]
    return [*boxes, (x0, y0, x1, at), (x0, at + kerf, x1, y1)]


def _on_the_skew(draw, box, kerf):
    x0, y0, x1, y1 = box
    whole = [[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]]
    if x1 - x0 < 2000 or draw(st.booleans()):
        return whole
    low, high = (draw(st.integers(x0 + 500, x1 - 1000)) for _ in range(2))
    # Along the level edge the blade is wider than square to its cut.
    blade = math.ceil(kerf * math.hypot(high - low, y1 - y0) / (y1 - y0))
    if max(low, high) + blade > x1 - 300:
        return whole
    left = [(x0, y0), (low, y0), (high, y1), (x0, y1)]
    right = [(low + blade, y0), (x1, y0), (x1, y1), (high + blade, y1)]
    return [left, right]


def _placed(corners, sheet_no, number, turns):
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    part = Part(
        mark=f"P{number}",
        facet="F1",
        material="TEST",
        corners=tuple((x - left, y - low) for x, y in corners),
        bevels_deg=(0.0,) * len(corners),
        at_mm=(0.0, 0.0),
        may_turn_deg=turns,
        may_turn_over=True,
    )
    return Placed(
        part=part,
        sheet_no=sheet_no,
        x_mm=left / 10,
        y_mm=low / 10,
        turned_deg=0,
        turned_over=False,
    )
