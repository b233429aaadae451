import dataclasses
import math

import pytest

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.drawings.sheets import bevel_note
from roofmodel.shapes.roof import FacetEdge, LineKind
from tests.drawings import drawn


def test_at_hip_and_ridge_the_blade_leans_in_below_the_part():
    """The inside face of an 18 mm board is 18 × tan(bevel) short, as seen in the section."""
    roof = drawn.roof_of()
    part = next(p for p in drawn.parts_of(roof) if p.mark.startswith("J04-F1-C2P1"))

    found = bevel_note.bevels(part)

    assert sorted(round(bevel.degrees, 2) for bevel in found) == [9.31, 25.0]
    for bevel in found:
        assert bevel.inward
        assert bevel.step_mm == pytest.approx(18 * math.tan(math.radians(bevel.degrees)))
    assert {bevel.words for bevel in found} == {
        "BEVEL 9.31 UNDERCUT 2.9",
        "BEVEL 25.00 UNDERCUT 8.4",
    }


def test_the_inside_face_ends_where_the_halving_plane_meets_it():
    """Checked in space: go in from the ridge side of F1 by the thickness and back by the step."""
    roof = drawn.roof_of()
    facet = roof.facet("F1")
    (ridge,) = roof.lines_of(LineKind.RIDGE)
    step_mm = 18 * math.tan(math.radians(ridge.bevel_deg))

    x, y, z = ridge.start
    down = [-c for c in facet.frame.up]
    inner = [
        p + 18 * -n + step_mm * d
        for p, n, d in zip((x, y, z), facet.plane.normal, down, strict=True)
    ]

    # Equal pitches: the halving plane stands upright on the ridge, at half the width.
    assert inner[0] == pytest.approx(1750.0)


def test_at_a_valley_the_blade_leans_out():
    roof = drawn.roof_of()
    facet = roof.facet("F1")
    turned_in = dataclasses.replace(
        facet,
        edges=tuple(
            FacetEdge(LineKind.VALLEY, e.bevel_deg) if e.kind is LineKind.HIP else e
            for e in facet.edges
        ),
    )
    parts = problem_for([turned_in], drawn.good(), job_code="J04")[0].parts
    part = next(p for p in parts if p.mark.startswith("J04-F1-C2P1"))

    found = bevel_note.bevels(part)

    assert {(round(b.degrees, 2), b.inward) for b in found} == {(9.31, False), (25.0, True)}


def test_a_square_cut_part_has_no_bevels():
    roof = drawn.roof_of()
    for part in drawn.parts_of(roof, drawn.good("INS-PIR75")):
        assert bevel_note.bevels(part) == ()


def test_only_the_words_in_use_are_explained():
    assert len(bevel_note.key({True})) == 2
    assert len(bevel_note.key({True, False})) == 3
