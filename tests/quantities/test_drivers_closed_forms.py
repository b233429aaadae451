"""Quantities of random roofs against the closed forms of their shapes, written out here.

Plan sizes are to the outside of the eaves line, areas on the plane through eaves and ridge. For a
hip between eaves that turn by an angle, equal pitches: it bisects the corner on plan, and rises as
the run square to the eaves does.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.quantities import drivers
from roofmodel.refit.method import Method
from tests import acceptance_jobs

FEW = settings(max_examples=5, deadline=None)
WIDTHS, PROJECTIONS = st.integers(2_200, 5_000), st.integers(2_600, 4_800)
PITCHES = st.integers(15, 40)
EAVES = {"eaves_height_mm": 2_100.0}


def found(**survey):
    drawn = acceptance_jobs.drawn("J01", survey={**EAVES, **survey}, bars=[], lights=[])
    made = drivers.of_refit(drawn.option_of(Method.NEW_ROOF).refit)
    return {name: one.value for name, one in made.items()}


def close(told, **expected):
    for name, value in expected.items():
        assert told[name] == pytest.approx(value, rel=1e-6, abs=1e-6), name


@given(width=WIDTHS, out=PROJECTIONS, pitch=PITCHES)
@FEW
def test_a_lean_to(width, out, pitch):
    w, p, cos = width / 1e3, out / 1e3, math.cos(math.radians(pitch))
    told = found(
        shape="lean-to", width_mm=width, projection_mm=out, pitch_deg=pitch,
        left_end="verge", right_end="verge",
    )  # fmt: skip

    close(told, datum_m2=w * p / cos, plan_m2=w * p, eaves_m=w, abutment_m=w)
    close(told, verge_m=2 * p / cos, hip_m=0.0, ridge_m=0.0, valley_m=0.0)


@given(width=WIDTHS, out=PROJECTIONS, left=PITCHES, right=PITCHES)
@FEW
def test_a_gable(width, out, left, right):
    """The ridge divides the width as the cotangents of the pitches."""
    w, p = width / 1e3, out / 1e3
    a, b = math.radians(left), math.radians(right)
    rise = w / (1 / math.tan(a) + 1 / math.tan(b))
    slopes = rise / math.sin(a) + rise / math.sin(b)
    told = found(
        shape="gable", width_mm=width, projection_mm=out,
        left_pitch_deg=left, right_pitch_deg=right,
    )  # fmt: skip

    close(told, datum_m2=p * slopes, plan_m2=w * p, eaves_m=2 * p, ridge_m=p, hip_m=0.0)


@given(width=WIDTHS, out=PROJECTIONS, side=PITCHES, front=PITCHES)
@FEW
def test_a_hipped_end_of_unequal_pitch(width, out, side, front):
    """The front runs as far as it takes to rise as high as the sides do at the ridge."""
    w, p = width / 1e3, out / 1e3
    s, f = math.radians(side), math.radians(front)
    rise = w / 2 * math.tan(s)
    run = rise / math.tan(f)
    if run > p - 0.1:
        return
    ridge, hip = p - run, math.sqrt(run**2 + (w / 2) ** 2 + rise**2)
    sides = 2 * (p + ridge) / 2 * (w / 2) / math.cos(s)
    told = found(
        shape="hipped", width_mm=width, projection_mm=out,
        left_pitch_deg=side, front_pitch_deg=front, right_pitch_deg=side,
    )  # fmt: skip

    close(told, datum_m2=sides + w * run / 2 / math.cos(f), plan_m2=w * p, ridge_m=ridge)
    close(told, hip_m=2 * hip, eaves_m=2 * p + w)


@given(width=WIDTHS, more=st.integers(200, 2_000), pitch=PITCHES, facets=st.sampled_from([3, 4, 5]))
@FEW
def test_a_polygonal_end(width, more, pitch, facets):
    """n facets between parallel sides turn by 180/(n + 1) each, round a half polygon.

    Every eaves of it is w tan(turn/2) long and stands w/2 from the end of the ridge; its hips run
    w / (2 cos(turn/2)) on plan, one more than it has facets.
    """
    w, cos = width / 1e3, math.cos(math.radians(pitch))
    half, rise = math.radians(90.0 / (facets + 1)), width / 2e3 * math.tan(math.radians(pitch))
    each = w * math.tan(half)
    ridge = more / 1e3
    # The projection is entered to the circle the end is drawn round, also where a corner passes it.
    p = ridge + w / 2
    plan_end = facets * each * w / 4 + each / 2 * w / 2
    told = found(
        shape="polygonal-end", width_mm=width, projection_mm=p * 1e3, pitch_deg=pitch,
        end_facets=facets, rear="house wall",
    )  # fmt: skip

    straight = ridge + each / 2
    close(told, plan_m2=ridge * w + plan_end, datum_m2=(ridge * w + plan_end) / cos)
    hip = math.hypot(w / 2 / math.cos(half), rise)
    close(told, ridge_m=ridge, hip_m=(facets + 1) * hip, eaves_m=2 * straight + facets * each)
