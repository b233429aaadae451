"""Runs cut from lengths, worked by hand from the plan of two acceptance jobs.

J01 is a lean-to of 4000 × 2800 at 15°: up the slope 2800 / cos 15° = 2898.8. J04 has three facets
at its end, 3500 wide and 3600 out at 25°: each is 2 × 1750 × tan 22.5° = 1449.7 long, the sides
1850 + 724.9; a hip is 1750 / cos 22.5° = 1894.2 in plan, rises 816.0, and so is 2062.5 long.
"""

import pytest

from roofmodel.quantities import runs
from roofmodel.refit.method import Method
from tests import acceptance_jobs

SLOPE = 2898.8


def refit(code, method=Method.NEW_ROOF, **changes):
    return acceptance_jobs.drawn(code, **changes).option_of(method).refit


def lengths(found):
    return sorted(round(run.length_mm, 1) for run in found)


def test_a_new_roof_has_rafters_at_400_and_one_at_each_verge():
    # Nine stand inside 4000 at 400 from one another, and a starter at either end; between their
    # upright cuts they are 150 · tan 15° = 40.2 longer over all.
    assert lengths(runs.rafters(refit("J01"))) == [2939.0] * 11


@pytest.mark.parametrize("made", [runs.rafters, runs.hips_and_ridge, runs.plates])
def test_a_roof_built_round_its_bars_buys_no_timber_of_a_new_one(made):
    assert list(made(refit("J04", Method.BUILD_ROUND))) == []


def test_hips_and_ridge_are_as_long_as_they_are_from_long_point_to_long_point():
    # A hip rises 816.0 in 1894.2: 200 · 816.0 / 1894.2 = 86.2 more than its line of 2062.5. The two
    # beside the ridge lose half of it, and reach beyond their middle by their side cut.
    ridge, *beside, third, fourth = lengths(runs.hips_and_ridge(refit("J04")))
    assert (ridge, third, fourth) == (1850.0, 2148.7, 2148.7)
    assert beside[0] == beside[1] < third


def test_plates_lie_along_the_wall_and_the_eaves_and_not_up_a_verge():
    assert lengths(runs.plates(refit("J01"))) == [4000.0, 4000.0]
    assert lengths(runs.plates(refit("J04"))) == [1449.7] * 3 + [2574.9] * 2


def test_fascia_and_barge_boards_lose_125_at_every_mitred_corner_and_nothing_at_the_wall():
    lean_to = {run.mark: run for run in runs.fascia(refit("J01"))}
    assert lengths(lean_to.values()) == [SLOPE, SLOPE, 4000.0]
    assert [run.mitres_mm for mark, run in lean_to.items() if mark.startswith("eaves")] == [
        (125.0, 125.0)
    ]
    assert [sum(run.mitres_mm) for mark, run in lean_to.items() if mark.startswith("verge")] == [
        125.0,
        125.0,
    ]
    # Round a polygonal end four corners are mitred from both sides.
    assert sum(sum(run.mitres_mm) for run in runs.fascia(refit("J04"))) == 8 * 125.0


def test_gutter_and_soffit_run_along_the_eaves_alone():
    for made in (runs.gutter, runs.soffit):
        assert lengths(made(refit("J01"))) == [4000.0]
        assert lengths(made(refit("J04"))) == [1449.7] * 3 + [2574.9] * 2


def test_every_run_knows_where_it_came_from():
    whole = refit("J04")
    for made in (runs.rafters, runs.hips_and_ridge):
        assert all(run.place.pieces == (run.mark,) for run in made(whole))
    for made in (runs.plates, runs.fascia, runs.soffit, runs.gutter):
        for run in made(whole):
            (number,) = run.place.lines
            line = whole.site.roof.lines[number]
            assert run.length_mm == pytest.approx(line.length_mm)
            assert run.mark.endswith(f" {number + 1}")
