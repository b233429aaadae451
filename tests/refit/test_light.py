"""Lights on a lean-to with figures worked by hand, and what is refused."""

import json

import pytest
from pydantic import TypeAdapter

from roofmodel.foundation.errors import DimensionError
from roofmodel.refit.light import (
    LIGHT_CAUTIONS,
    BattenRows,
    Ceiling,
    Light,
    LightFitting,
    LightVoid,
    lines_up,
)
from roofmodel.refit.light_check import ClashKind, clashes, depth_clash
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.light_layout import checked, in_bays
from roofmodel.refit.light_room import clear_region
from roofmodel.shapes.bars.bar_layout import equal_bays
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.lean_to import LeanTo

VOID = LightVoid(depth_mm=38.0)
SLIM = LightFitting(body_mm=85.0, depth_mm=35.0)


def lean_to_ceiling(rows_mm=tuple(400.0 * i for i in range(7))):
    """A lean-to of 3150 × 2500 at 18° in three bays of 1050; slope 2628.7."""
    roof = LeanTo(width_mm=3150, projection_mm=2500, pitch_deg=18).roof(eaves_height_mm=2100)
    facet = roof.facets[0]
    battens = BattenRows(rows_mm=rows_mm, width_mm=50.0)
    return Ceiling.of(facet, equal_bays(facet, 3), BarWidths.alike(60.0), battens)


def entry(**fields):
    return LightsEntry(**{"facet": "F1", "body_mm": 85.0, "depth_mm": 60.0, **fields})


class TestSixLightsAtQuartersOfTheSlope:
    """Battens at 0, 400, 800 …, 50 wide; body 85: a light needs 42.5 + 25 = 67.5 from each."""

    def report(self):
        ceiling = lean_to_ceiling()
        wish = entry(slope_shares=(0.25, 0.75))
        return checked(ceiling, wish.fitting, VOID, wish.lights(ceiling))

    def test_they_are_wanted_at_bay_centres_in_two_rows(self):
        assert [(round(one.u_mm, 1), round(one.v_mm, 1)) for one in self.report().wanted] == [
            (525.0, 657.2),
            (1575.0, 657.2),
            (2625.0, 657.2),
            (525.0, 1971.5),
            (1575.0, 1971.5),
            (2625.0, 1971.5),
        ]

    def test_a_fitting_of_60_pierces_the_foil_of_a_void_of_38(self):
        depth = self.report().depth

        assert (depth.needed_mm, depth.void_mm) == (60.0, 38.0)
        assert "would pierce the foil" in depth.sentence
        assert "no deeper than 38 mm" in depth.sentence

    def test_the_lower_row_stands_clear_of_the_battens_at_400_and_800(self):
        ceiling = lean_to_ceiling()
        lower = [light for light in self.report().wanted if light.v_mm < 1_000.0]

        assert 800.0 - lower[0].v_mm == pytest.approx(142.8, abs=0.05)
        assert clashes(ceiling, SLIM, lower) == ()

    def test_the_upper_row_clashes_with_the_batten_at_2000(self):
        found = self.report().clashes

        assert [clash.light for clash in found] == ["F1-L4", "F1-L5", "F1-L6"]
        assert {clash.kind for clash in found} == {ClashKind.COUNTER_BATTEN}
        assert found[0].distance_mm == pytest.approx(28.5, abs=0.05)
        assert found[0].needed_mm == 67.5
        assert found[0].sentence == (
            "F1-L4 is 28.5 mm from the counter-batten at 2000 mm up the slope; it needs 67.5 mm."
        )

    def test_the_clear_band_ends_67_5_short_of_its_battens(self):
        bands = lines_up(clear_region(lean_to_ceiling(), SLIM), 525.0)

        assert any(band == pytest.approx((1667.5, 1932.5)) for band in bands)

    def test_1930_in_the_same_bay_is_offered(self):
        offers = self.report().offers

        assert [(o.offered.u_mm, o.offered.v_mm) for o in offers] == [
            (525.0, 1930.0),
            (1575.0, 1930.0),
            (2625.0, 1930.0),
        ]
        assert offers[0].sentence == (
            "F1-L4: move it 41.5 mm down, to 1930 mm up the slope and 525 mm from the left."
        )

    def test_slim_fittings_at_the_offered_places_pass(self):
        arranged = self.report().arranged
        again = checked(lean_to_ceiling(), SLIM, VOID, arranged)

        assert again.passes
        assert again.sentences == ("F1: 6 lights are clear.",)

    def test_the_cautions_come_with_the_list(self):
        assert self.report().cautions == LIGHT_CAUTIONS
        assert "qualified electrician" in LIGHT_CAUTIONS[0]
        assert "fire rating" in LIGHT_CAUTIONS[1]


def at(*spots):
    return [Light(mark=f"L{i}", u_mm=u, v_mm=v) for i, (u, v) in enumerate(spots, start=1)]


def test_a_light_on_a_bar_is_moved_into_the_bay_beside_it():
    # Half of body and bar: 72.5 from the middle at 1050; offered on whole tens: 1130 or 970.
    (offer,) = checked(lean_to_ceiling(), SLIM, VOID, at((1060.0, 600.0))).offers

    assert (offer.offered.u_mm, offer.offered.v_mm) == (1130.0, 600.0)
    assert "70.0 mm right" in offer.sentence


@pytest.mark.parametrize(
    ("u_mm", "v_mm", "kind", "member"),
    [
        (1100.0, 600.0, ClashKind.BAR, "bar 1 at 1050 mm"),
        (60.0, 600.0, ClashKind.SIDE, "the verge of F1"),
        (525.0, 2600.0, ClashKind.SIDE, "the house wall of F1"),
        (525.0, 850.0, ClashKind.COUNTER_BATTEN, "the counter-batten at 800 mm up the slope"),
    ],
)
def test_what_is_in_the_way_is_named(u_mm, v_mm, kind, member):
    (clash,) = clashes(lean_to_ceiling(), SLIM, at((u_mm, v_mm)))

    assert (clash.kind, clash.member) == (kind, member)
    assert member in clash.sentence


def test_a_light_beside_the_facet_is_said_to_lie_beyond_its_nearest_side():
    (clash,) = clashes(lean_to_ceiling(), SLIM, at((-30.0, 600.0)))

    assert clash.sentence == "L1 is 30.0 mm beyond the verge of F1; it needs 72.5 mm."


def test_of_two_lights_too_near_each_other_the_later_is_moved():
    report = checked(lean_to_ceiling(), SLIM, VOID, at((525.0, 600.0), (560.0, 600.0)))

    assert [(clash.light, clash.member) for clash in report.clashes] == [("L2", "L1")]
    first, second = report.arranged
    assert first.spot == (525.0, 600.0)
    assert second.u_mm - first.u_mm >= 85.0 or abs(second.v_mm - first.v_mm) > 0.0
    assert checked(lean_to_ceiling(), SLIM, VOID, report.arranged).passes


def test_a_facet_without_room_says_so():
    crowded = lean_to_ceiling(rows_mm=tuple(100.0 * i for i in range(27)))
    (offer,) = checked(crowded, SLIM, VOID, at((525.0, 600.0))).offers

    assert offer.offered is None
    assert "no clear position left" in offer.sentence


def test_clearance_widens_what_is_kept_free_and_deepens_the_fitting():
    roomy = LightFitting(body_mm=85.0, depth_mm=30.0, clearance_mm=20.0)
    (clash,) = clashes(lean_to_ceiling(), roomy, at((525.0, 715.0)))

    assert clash.needed_mm == 87.5
    assert depth_clash(roomy, VOID).needed_mm == 50.0
    assert "no deeper than 18 mm" in depth_clash(roomy, VOID).sentence
    assert depth_clash(LightFitting(body_mm=85.0, depth_mm=18.0, clearance_mm=20.0), VOID) is None


def test_no_fitting_is_slim_enough_for_no_void():
    clash = depth_clash(SLIM, LightVoid(depth_mm=0.0))

    assert "deeper counter-battens" in clash.sentence


def test_two_lights_per_bay_stand_at_quarters():
    ceiling = lean_to_ceiling()

    assert entry(per_bay=2).lights(ceiling) == in_bays(ceiling, (0.25, 0.75))


def test_places_given_are_taken_as_they_are():
    (light,) = entry(positions_mm=((500.0, 612.0),)).lights(lean_to_ceiling())

    assert light == Light(mark="F1-L1", u_mm=500.0, v_mm=612.0)


class TestTheEntry:
    def test_it_reads_back_from_a_job_file(self):
        adapter = TypeAdapter(LightsEntry)
        wish = entry(positions_mm=((500.0, 612.0), (900.0, 612.0)), clearance_mm=5.0)

        assert adapter.validate_python(json.loads(adapter.dump_json(wish))) == wish

    @pytest.mark.parametrize(
        ("fields", "field"),
        [
            ({}, "per_bay"),
            ({"per_bay": 2, "slope_shares": (0.5,)}, "per_bay"),
            ({"per_bay": 0}, "per_bay"),
            ({"slope_shares": (0.25, 1.0)}, "slope_shares.1"),
            ({"slope_shares": (float("nan"),)}, "slope_shares.0"),
            ({"slope_shares": ()}, "slope_shares"),
            ({"positions_mm": ((0.0, 40_000.0),)}, "positions_mm.0"),
            ({"per_bay": 1, "body_mm": 0.0}, "body_mm"),
            ({"per_bay": 1, "depth_mm": float("nan")}, "depth_mm"),
            ({"per_bay": 1, "clearance_mm": -1.0}, "clearance_mm"),
        ],
    )
    def test_nonsense_is_refused_by_its_field(self, fields, field):
        with pytest.raises(DimensionError) as refused:
            entry(**fields)

        assert field in [fault.field for fault in refused.value.faults]

    def test_it_is_for_its_own_facet_only(self):
        with pytest.raises(DimensionError, match="The lights of F2 cannot be set out on F1"):
            entry(facet="F2", per_bay=1).lights(lean_to_ceiling())


def test_rows_and_voids_of_nonsense_are_refused():
    with pytest.raises(DimensionError, match="up the slope it is"):
        BattenRows(rows_mm=(float("nan"),), width_mm=50.0)
    with pytest.raises(DimensionError, match="Enter its width"):
        BattenRows(rows_mm=(), width_mm=0.0)
    with pytest.raises(DimensionError, match="void"):
        LightVoid(depth_mm=-1.0)
