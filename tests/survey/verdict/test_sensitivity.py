import math

import pytest

from roofmodel.shapes import plan
from roofmodel.shapes.footprint import Footprint
from roofmodel.survey.taped.findings import Severity
from roofmodel.survey.verdict import sensitivity


def lean_to(width_mm=4000.0, projection_mm=3000.0, pitch_deg=20.0):
    return plan.rectangle(
        width_mm, projection_mm, rear=plan.WALL, right=plan.VERGE, front=plan.eaves(pitch_deg),
        left=plan.VERGE,
    )  # fmt: skip


def stepped(step_mm=1.0, pitches=(30.0, 20.0)):
    """Return a plan whose two front eaves of unequal pitch are all but in line."""
    near, far = (plan.eaves(pitch) for pitch in pitches)
    side = plan.eaves(25.0)
    return Footprint(
        corners_mm=((6000.0, 0.0), (0.0, 0.0), (0.0, 2500.0), (2400.0, 2500.0),
                    (2400.0, 2500.0 + step_mm), (6000.0, 2500.0 + step_mm)),
        sides=(plan.WALL, side, near, side, far, side),
    )  # fmt: skip


def effect(found, what):
    return next(one for one in found.effects if one.what == what)


def test_errors_of_a_lean_to_follow_from_its_closed_forms():
    """Rise = projection × tan pitch, area = width × projection / cos pitch, by hand."""
    found = sensitivity.of(lean_to())
    slope = math.radians(20.0)

    turned = effect(found, "pitch of side 3")
    by_deg = math.radians(0.2)
    assert turned.rise_mm == pytest.approx(3000.0 * by_deg / math.cos(slope) ** 2, rel=1e-3)
    assert turned.area_m2 == pytest.approx(
        12.0 * by_deg * math.sin(slope) / math.cos(slope) ** 2, rel=1e-3
    )
    corner = effect(found, "corner 1 along the house wall")
    assert corner.area_m2 == pytest.approx(0.003 * 3.0 / 2.0 / math.cos(slope), rel=1e-3)
    assert found.knife_edges == ()
    assert found.findings == ()


def test_two_eaves_of_unequal_pitch_all_but_in_line_are_a_knife_edge():
    """One corner moved by 3 mm: the flatter facet goes on, and the roof is 489 mm higher.

    The rises by hand: 2500 tan 20° = 910; the higher one as the kernel builds it.
    """
    found = sensitivity.of(stepped())

    told = [text for text in found.knife_edges if text.startswith("corner 3 off the house wall")]

    assert len(found.knife_edges) == 3
    assert "As entered, 2500 mm: rise 910 mm, 16.16 m²" in told[0]
    assert "at 2503 mm: rise 1399 mm, 16.93 m²" in told[0]
    assert told[0].endswith("F4 goes on there or ends.")
    finding = found.findings[0]
    assert finding.field == "survey.sides.2.y_mm"
    assert finding.severity is Severity.QUESTION
    assert "Look on site which facet goes on" in finding.remedy


@pytest.mark.parametrize(
    ("footprint", "may"),
    [
        (lean_to(), False),
        (stepped(), True),
        (stepped(1500.0), True),
        (stepped(pitches=(25.0, 25.0)), False),
    ],
    ids=["lean-to", "step of 1 mm", "step of 1500 mm", "equal pitches"],
)
def test_only_parallel_eaves_of_unequal_pitch_can_make_a_knife_edge(footprint, may):
    assert sensitivity.may_jump(footprint) is may
    if not may:
        assert sensitivity.of(footprint).knife_edges == ()
