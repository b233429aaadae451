"""Hips and valleys of unequal pitches and blunt corners; sources in shared/corner_angles.toml."""

import math

import pytest

from roofmodel.geometry.joint import jack_side_cut_deg, joint
from roofmodel.geometry.plane import sloping_from
from tests.worked_examples.published import rows

EXAMPLES = rows("corner_angles.toml", "example")


def corner(row):
    """Return the joint over a corner whose eaves run off at the row's plan angle."""
    pitch_a, pitch_b = row["pitches_deg"]
    angle = math.radians(row["corner_deg"])
    away = (math.cos(angle), math.sin(angle), 0.0)
    here, along = (0.0, 0.0, 0.0), (1.0, 0.0, 0.0)
    if row["valley"]:
        # Seen from inside the corner of a valley, the slopes rise away from its other side.
        return joint(
            sloping_from(along, here, pitch_a), sloping_from(here, away, pitch_b), valley=True
        )
    return joint(
        sloping_from(here, along, pitch_a), sloping_from(away, here, pitch_b), valley=False
    )


@pytest.mark.parametrize("row", EXAMPLES, ids=lambda row: row["id"])
def test_a_corner_has_the_published_angles(row):
    found = corner(row)
    cuts = tuple(
        jack_side_cut_deg(pitch, plan)
        for pitch, plan in zip(row["pitches_deg"], found.plan_angles_deg, strict=True)
    )
    near = {"abs": row["tolerance_deg"]}
    assert found.pitch_deg == pytest.approx(row["hip_pitch_deg"], **near)
    for name, value in (
        ("plan_angles_deg", found.plan_angles_deg),
        ("backings_deg", found.backings_deg),
        ("dihedral_deg", found.dihedral_deg),
        ("side_cuts_deg", cuts),
    ):
        if name in row:
            assert value == pytest.approx(row[name], **near), name


@pytest.mark.parametrize(
    "row", [row for row in EXAMPLES if not row["valley"]], ids=lambda row: row["id"]
)
def test_dihedral_and_backings_add_up_to_a_straight_angle(row):
    found = corner(row)
    assert found.dihedral_deg + sum(found.backings_deg) == pytest.approx(180.0, abs=1e-9)
