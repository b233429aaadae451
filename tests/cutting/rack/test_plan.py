"""Offcuts are taken where they save sheets; every plan is checked by one that knows no solver."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import shapely

from roofmodel.cutting.nesting.cut import Saw, SawCut
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.straight import cut_up
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.plan import plan
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.cutting.rack import fill as rack_fill
from roofmodel.cutting.rack import verify as rack_verify
from roofmodel.cutting.rack import what_is_left
from roofmodel.cutting.rack.layout import RackCut, RackLayout
from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.cutting.rack.plan import least_new, planned, with_rack
from roofmodel.foundation.cancellation import Cancelled, Watch
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made

DAY = date(2026, 11, 2)
GOOD = made.good(
    length_mm=300.0, width_mm=100.0, kerf_mm=4.0, minimum_piece_mm=40.0, stagger_mm=0.0
)


def offcut(label, *corners, good=GOOD, **changes):
    return RackPiece.of_mm(label, good.code, corners, **{"since": DAY, **changes})


def box(label, length_mm, width_mm, **changes):
    return offcut(label, *rectangle(length_mm, width_mm), **changes)


def cut(problem, rack=(), *, good=GOOD, effort=Effort.QUICK, watch=None):
    plain = nest(problem, effort=effort, bound=1, watch=Watch())
    bound = sharpest(problem, most=plain.sheets)
    return planned(
        good,
        problem,
        plain,
        rack,
        bound=bound,
        claim="as drawn",
        effort=effort,
        watch=watch or Watch(),
    )


def four_parts(**options):
    """Four parts of which two fill a sheet, so that the fourth and third take a second."""
    return made.problem(*(made.rectangle(f"P{n}", 148, 100, **options) for n in range(4)))


def test_an_offcut_that_saves_a_sheet_is_taken_and_one_that_does_not_stays():
    three = made.problem(*four_parts().parts[:3])
    found = cut(three, [box("R1", 150, 100), box("R2", 147, 100)])
    assert (found.sheets, found.without_rack, found.saved) == (1, 2, 1)
    assert found.from_rack == ("R1",)
    assert found.sheets == found.least.sheets
    idle = cut(four_parts(), [box("R1", 150, 100)])
    assert (idle.sheets, idle.from_rack) == (2, ())


def test_no_more_offcuts_are_cut_up_than_it_takes():
    three = made.problem(*four_parts().parts[:3])
    found = cut(three, [box(f"R{n}", 160 + n, 110) for n in range(5)])
    assert (found.sheets, len(found.from_rack)) == (0, 3)
    one = cut(made.problem(*three.parts[:2]), [box("R1", 150, 100), box("R2", 150, 100)])
    assert len(one.from_rack) == 2
    larger = [box("R1", 150, 100), box("R2", 150, 100), box("R3", 300, 100)]
    assert cut(made.problem(*three.parts[:2]), larger).from_rack == ("R3",)


def test_the_rack_alone_may_do():
    two = made.problem(*four_parts().parts[:2])
    found = cut(two, [box("R1", 150, 100), box("R2", 150, 100)])
    assert (found.sheets, found.from_rack, found.cuts) == (0, ("R1", "R2"), ())
    assert found.sentence.startswith("OSB/3 18 mm, square edge: R1, R2 from the rack; these 2")


def test_a_raked_offcut_takes_a_raked_part():
    triangle = made.part("T1", (0, 0), (120, 0), (0, 90))
    problem = made.problem(triangle, made.rectangle("P1", 300, 100))
    found = cut(problem, [offcut("R1", (0, 0), (121, 0), (0, 91))])
    assert (found.sheets, found.from_rack) == (1, ("R1",))


def test_a_part_is_not_turned_over_on_an_offcut_with_one_good_face():
    # The part fits the offcut only turned over: its cut-away is at the other side.
    raked = made.part("T1", (0, 0), (250, 0), (250, 80), (100, 80))
    problem = made.problem(raked, made.rectangle("P1", 300, 100))
    mirrored = ((0, 0), (252, 0), (151, 82), (0, 82))
    assert cut(problem, [offcut("R1", *mirrored)]).from_rack == ("R1",)
    one_face = offcut("R1", *mirrored, may_turn_over=False)
    assert cut(problem, [one_face]).from_rack == ()


def test_the_grain_of_an_offcut_is_kept():
    upright = made.problem(made.rectangle("P1", 90, 60), made.rectangle("P2", 300, 100))
    assert cut(upright, [box("R1", 62, 95)]).from_rack == ()
    turning = made.problem(
        made.rectangle("P1", 90, 60, turns=(0, 90, 180, 270)), made.rectangle("P2", 300, 100)
    )
    assert cut(turning, [box("R1", 62, 95)]).from_rack == ("R1",)


def test_filling_the_rack_first_is_tried_beside_nesting_all_at_once():
    # The large offcut holds either the two large parts or clutter; only the former saves.
    parts = [made.rectangle(f"L{n}", 140, 96) for n in range(6)]
    parts += [made.rectangle(f"S{n}", 50, 46) for n in range(6)]
    problem = made.problem(*parts)
    rack = [box("R1", 300, 100), box("R2", 60, 100)]
    found = cut(problem, rack, effort=Effort.USUAL)
    assert found.sheets <= found.without_rack - 1
    assert found.layout.on_rack


def test_an_offcut_of_another_material_is_refused():
    three = made.problem(*four_parts().parts[:3])
    wrong = RackPiece.of_mm("R1", "BRD-PB12", rectangle(150, 100), since=DAY)
    batten = RackPiece.of_length_mm("B1", GOOD.code, 3000, since=DAY)
    for one in (wrong, batten):
        with pytest.raises(CuttingError, match=f"{one.label}: not an offcut of a "):
            cut(three, [one])


def test_the_work_can_be_stopped():
    with pytest.raises(Cancelled):
        cut(
            made.problem(*four_parts().parts[:3]),
            [box("R1", 150, 100)],
            watch=Watch(cancelled=lambda: True),
        )


def some_parts(random, count):
    """Parts of random size and rake, some of them bevelled."""
    for n in range(count):
        long, wide = (int(v) for v in (random.integers(40, 260), random.integers(30, 99)))
        rake = int(random.integers(0, min(long - 20, 60)))
        bevelled = bool(random.integers(0, 2)) and rake > 0
        yield made.part(
            f"P{n}",
            (0, 0),
            (long, 0),
            (long, wide),
            (rake, wide),
            over=not bevelled,
            bevels_deg=(0.0, 0.0, 0.0, 20.0 if bevelled else 0.0),
        )


def some_rack(random, count):
    for n in range(count):
        long, wide = (int(v) for v in (random.integers(60, 300), random.integers(40, 100)))
        rake = int(random.integers(0, long // 2))
        yield offcut(
            f"R{n}",
            (0, 0),
            (long, 0),
            (long - rake, wide),
            (0, wide),
            may_turn_over=bool(random.integers(0, 2)),
        )


@pytest.mark.parametrize("seed", range(2))
def test_any_rack_never_costs_a_sheet_and_never_beats_its_bound(seed):
    random = np.random.default_rng(seed)
    problem = made.problem(*some_parts(random, 9))
    rack = list(some_rack(random, 5))
    found = cut(problem, rack)
    assert found.least.sheets <= found.sheets <= found.without_rack
    assert found.layout == cut(problem, rack).layout
    # By shapely, sheet by sheet: parts and what is kept do not overlap and lie within.
    rooms = [
        (found.layout.new.on_sheet(n), shapely.box(0, 0, 300, 100), (n, None))
        for n in range(1, found.sheets + 1)
    ]
    rooms += [
        (
            one.placed,
            shapely.Polygon([(x / 10, y / 10) for x, y in one.piece.corners]),
            (0, one.piece.label),
        )
        for one in found.layout.cuts
    ]
    for placed, room, source in rooms:
        shapes = [shapely.Polygon(one.outline_mm) for one in placed]
        shapes += [one.shape_mm for one in found.kept if one.source == source]
        together = shapely.union_all(shapes)
        assert together.area == pytest.approx(sum(shape.area for shape in shapes))
        assert together.difference(room.buffer(0.02)).area == 0.0


@pytest.mark.parametrize("seed", range(3))
def test_what_is_kept_of_one_cutting_serves_the_next(seed):
    random = np.random.default_rng(100 + seed)
    problem = made.problem(*some_parts(random, 9))
    first = cut(problem)
    rack = first.to_rack("J1-A", since=DAY)
    assert len({piece.label for piece in rack}) == len(rack)
    for piece in rack:
        part = made.part("Q", *((x / 10, y / 10) for x, y in piece.corners), over=False)
        whole = made.problem(part, made.rectangle("P", 300, 100))
        found = cut(whole, [piece])
        assert (found.sheets, found.from_rack) == (1, (piece.label,))


def test_a_sheet_with_one_strip_leaves_the_rest_less_the_saw_cut():
    found = cut(made.problem(made.rectangle("P1", 300, 40)))
    (kept,) = found.kept
    assert kept.size == "300.0 × 56.0 mm"
    (piece,) = found.to_rack("J1-A", since=DAY, place="bay 1")
    assert (piece.label, piece.size) == ("J1-A-OSB18-S1-1", "300 × 56 mm")
    assert (piece.place, piece.material) == ("bay 1", GOOD.code)


def test_what_is_left_beyond_a_raked_cut_is_kept_with_its_rake():
    found = cut(made.problem(made.part("T1", (0, 0), (300, 0), (0, 100), over=False)))
    (kept,) = found.kept
    assert len(kept.corners_mm) == 3
    assert kept.area_mm2 > 0.8 * 300 * 100 / 2


def test_trim_is_no_part_of_an_offcut():
    trimmed = made.problem(made.rectangle("P1", 100, 90), trim=5)
    found = cut(trimmed)
    assert max(found.kept, key=lambda one: one.area_mm2).size == "186.0 × 90.0 mm"


def test_a_raked_blade_takes_more_of_the_offcut():
    square = made.part("T1", (0, 0), (100, 0), (100, 100), (0, 100), over=False)
    under, over = (
        replace(square, bevels_deg=(0.0, bevel, 0.0, 0.0), thickness_mm=GOOD.thickness_mm)
        for bevel in (45.0, -45.0)
    )
    wide = [cut(made.problem(one)).kept[0].shape_mm.bounds[0] for one in (square, under, over)]
    # A saw cut of 4 mm, tilted by 45°, takes 5.66 of the face; where the blade leans out from the
    # piece, the inside face sticks out by the thickness.
    assert wide == pytest.approx([104.0, 105.66, 105.66 + GOOD.thickness_mm], abs=0.01)


def test_an_offcut_cut_up_leaves_an_offcut_under_a_label_of_its_own():
    three = made.problem(*four_parts().parts[:3])
    found = cut(three, [box("R1", 299, 100)])
    (rest,) = [one for one in found.to_rack("J1-A", since=DAY) if "-R1-" in one.label]
    assert rest.size == "147 × 100 mm"


@pytest.fixture
def whole():
    """A faultless plan of two parts on an offcut and one on a sheet."""
    parts = [made.rectangle(f"P{n}", 100, 60, over=False) for n in range(3)]
    problem = made.problem(*parts)
    rack = [box("R1", 204, 60)]
    layout = RackLayout(
        new=Layout(placed=(made.placed(parts[0], 0, 0),)),
        cuts=(
            RackCut(
                piece=rack[0],
                placed=(made.placed(parts[1], 0, 0), made.placed(parts[2], 104, 0)),
            ),
        ),
    )
    assert rack_verify.faults(problem, layout, rack, material=GOOD.code) == []
    return problem, layout, rack


def spoilt(layout, **changes):
    (rack_cut,) = layout.cuts
    first, second = rack_cut.placed
    return replace(layout, cuts=(replace(rack_cut, placed=(first, replace(second, **changes))),))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"x_mm": 103.0}, "closer than the saw cut"),
        ({"x_mm": 50.0}, "overlap"),
        ({"x_mm": 104.1}, "goes beyond the offcut R1"),
        ({"turned_deg": 90}, "must not be turned by 90"),
        ({"turned_over": True}, "must not be turned over"),
    ],
)
def test_a_part_wrongly_laid_on_an_offcut_is_found(whole, changes, words):
    problem, layout, rack = whole
    faults = rack_verify.faults(problem, spoilt(layout, **changes), rack, material=GOOD.code)
    assert any(words in fault for fault in faults)


def test_parts_lost_doubled_or_cut_from_what_is_not_there_are_found(whole):
    problem, layout, rack = whole

    def faults(layout, rack=rack, material=GOOD.code):
        return " ".join(rack_verify.faults(problem, layout, rack, material=material))

    assert "P1 is missing" in faults(replace(layout, cuts=()))
    assert "cut once too often" in faults(replace(layout, cuts=(*layout.cuts, *layout.cuts)))
    assert "R1 is cut up 2 times" in faults(replace(layout, cuts=(*layout.cuts, *layout.cuts)))
    assert "R1 is not on the rack" in faults(layout, rack=[])
    assert "R1 is not on the rack" in faults(layout, rack=[box("R1", 204, 61)])
    assert "is of BRD-OSB18" in faults(layout, material="BRD-PB12")


def test_an_offcut_that_cannot_be_had_is_found(whole):
    problem, layout, _ = whole
    cuts = cut_up(problem, layout.new, least_side_mm=40.0)
    of_offcuts = what_is_left.cut_offcuts(problem, layout, least_side_mm=40.0)
    kept = what_is_left.kept(layout, cuts, of_offcuts)
    check = rack_verify.faults_in_kept
    assert check(problem, layout, kept, least_side_mm=40.0) == []
    on_sheet = next(one for one in kept if one.label is None)
    for corners, words in (
        (rectangle(100.0, 70.0), "closer to a part"),
        (((110, 0), (310, 0), (310, 90), (110, 90)), "goes beyond the piece it is cut from"),
        (((110, 0), (300, 0), (300, 30), (110, 30)), "narrower than 40 mm"),
    ):
        wrong = replace(on_sheet, corners_mm=tuple(corners))
        assert words in " ".join(check(problem, layout, [wrong], least_side_mm=40.0))
    twin = replace(on_sheet, number=2)
    faults = check(problem, layout, [on_sheet, twin], least_side_mm=40.0)
    assert "closer than the saw cut" in " ".join(faults)


def test_an_offcut_that_a_cut_runs_through_is_found(whole):
    problem, layout, _ = whole
    (sheet,) = cut_up(problem, layout.new, least_side_mm=40.0)
    (kept, *_) = what_is_left.kept(replace(layout, cuts=()), [sheet])
    right = kept.shape_mm.bounds[2]
    through = SawCut(start_mm=(right - 50, 0.0), end_mm=(right - 50, 100.0), outward=(1.0, 0.0))
    spoilt = replace(sheet, cuts=(*sheet.cuts, through))

    check = rack_verify.sawn_through
    assert check(problem, [kept], layout, [sheet]) == []
    assert "sawn through by cut" in " ".join(check(problem, [kept], layout, [spoilt]))


@pytest.mark.parametrize("job", ["J01", "J04", "J07"])
def test_no_offcut_of_a_roof_is_sawn_through_by_its_cut_order(job):
    """By shapely alone: the blade's strip beside every cut, against what is kept of its sheet."""
    made_plan = made.planned(job, "INS-PIR75")
    left = {one.sheet_no: one.left_mm for one in made_plan.cuts}

    assert sum(map(len, left.values())) > 0
    for sheet in made_plan.cuts:
        blades = []
        for cut in sheet.cuts:
            ends = np.array([cut.start_mm, cut.end_mm])
            blades.append(shapely.Polygon([*ends, *(ends[::-1] + 3.0 * np.array(cut.outward))]))
        for corners in sheet.left_mm:
            shape = shapely.Polygon(corners)
            assert shape.intersection(shapely.union_all(blades)).area < 1e-3 * shape.length
            # It falls in one piece: nothing else of the sheet hangs on it that is not cut off.
            on = made_plan.layout.on_sheet(sheet.sheet_no)
            assert all(shape.distance(shapely.Polygon(p.outline_mm)) > 2.9 for p in on)


def test_a_plan_with_the_rack_is_cut_in_the_order_of_another_saw():
    a = made.part("A", (0, 0), (200, 0), (0, 90))
    b = made.part("B", (200, 0), (200, 90), (0, 90))
    problem = made.problem(a, b, sheet=(220, 90))
    pair = RackLayout(new=made.layout(made.placed(a, 0, 0), made.placed(b, 10, 0)))
    found = replace(cut(problem), layout=pair)

    for saw, first in ((Saw.TRACK, True), (Saw.PANEL, False)):
        for_saw = found.for_saw(saw)
        assert for_saw.cuts[0].cuts[0].raked is first
        assert rack_verify.sawn_through(problem, for_saw.kept, pair, for_saw.cuts) == []


def test_a_plan_with_a_fault_is_not_shown(monkeypatch):
    def overlapping(problem, plain, rack, **_):
        first = plain.placed[0]
        return RackLayout(new=Layout(placed=tuple(replace(first, part=p) for p in problem.parts)))

    monkeypatch.setattr(rack_fill, "fewest", overlapping)
    with pytest.raises(CuttingError, match="failed its check and is not shown"):
        cut(made.problem(*four_parts().parts[:3]), [box("R1", 150, 100)])


def test_the_bound_with_a_rack_is_no_higher_than_without():
    problem = four_parts()
    bound = Bound(sheets=2, reason="two to a sheet")
    assert least_new(problem, [], bound) == bound
    assert least_new(problem, [box("R1", 50, 50)], bound).sheets == 2
    assert least_new(problem, [box("R1", 300, 100)], bound).sheets == 1
    assert least_new(problem, [box("R1", 300, 100), box("R2", 300, 100)], bound).sheets == 0
    # Larger than a sheet, so no sheet can take its place: only the area counts.
    assert least_new(problem, [box("R1", 700, 100)], bound).sheets == 0


def test_the_plan_of_a_roof_keeps_its_pieces_and_takes_a_strip_from_the_rack():
    good = made.good(board_gap_mm=0.0)
    facet = made.rectangle_facet(2400, 1819.7)
    alone = plan([facet], good, job_code="J1", effort="quick")
    strip = RackPiece.of_mm("R1", good.code, rectangle(2440, 610), since=DAY)
    found = with_rack(alone, [strip], effort=Effort.QUICK)
    assert alone.sheets == 2
    assert (found.sheets, found.from_rack, found.least.sheets) == (1, ("R1",), 1)
    assert found.problem == alone.problem
