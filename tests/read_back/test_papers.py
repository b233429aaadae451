"""Whole sets of papers, read back by code of its own: nothing is cut wrong, twice or through."""

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.facts import facts as job_facts
from roofmodel.workbench.facts import refit_facts, survey_facts
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs
from tests.read_back import papers, solids

SAMPLES = sorted((Path(__file__).parents[2] / "sample_roofs").glob("*.roofjob.json"))
KINDS = ("J01", "J04", "J06", "J07", "J10")


def random_job(number):
    """Return one of the acceptance jobs in other sizes; the same number is the same roof."""
    draw = np.random.default_rng([20261130, number])
    code = KINDS[number % len(KINDS)]
    survey = dict(acceptance_jobs.JOBS[code]["survey"])
    for name, value in survey.items():
        if name.endswith("_deg"):
            survey[name] = float(round(value + draw.uniform(-4.0, 9.0), 1))
        elif name.endswith("_mm") and name != "eaves_height_mm":
            survey[name] = float(round(value * draw.uniform(0.9, 1.2)))
    return acceptance_jobs.drawn(code, survey=survey)


def read_back(drawn, folder):
    """Return the papers of every method that can be cut, by the method."""
    found = {}
    for method in Method:
        option = drawn.option_of(method)
        try:
            plans = reckoning.cut(drawn, method=method, effort=Effort.QUICK)
        except RoofModelError:
            continue  # A refused method, or a panel longer than its stock, has no papers.
        whole = paper_set.gather(drawn, option, plans)
        paper_set.write(whole, folder / method.value, cutting_only=True)
        found[method] = papers.read(folder / method.value)
    return found


def facts(drawn, option):
    """Return what the command `facts` prints of the roof and one method."""
    new = option.refit.default.new_bars
    return {
        **job_facts.of_roof(drawn.roof),
        **survey_facts.of_members(drawn.members),
        "refit": refit_facts.of_option(option),
        "new_timbers": survey_facts.of_members(option.refit.members) if new else None,
    }


def pieces_in_space(drawn, method, read, folder):
    """Return the roof, its pieces as solids, and faults of those that were not found."""
    option = drawn.option_of(method)
    new = option.refit.default.new_bars
    wide = new.width_mm if new else max((bars.width_mm for bars in drawn.job.bars), default=60.0)
    home = solids.house(
        facts(drawn, option),
        width_mm=wide,
        level=new is not None,
        seats=method is Method.PANEL_SWAP,
    )
    laid = {}
    for layer in option.sheets:
        row = next(r for r in home.facts["refit"]["layers"] if r["number"] == layer.number)
        good = layer.good
        between = bool(layer.bays)
        laid[good.short] = solids.Laid(
            layer=row,
            between=between,
            mitred=good.hip_edges == "bevelled",
            gap_mm=good.board_gap_mm,
            wall_gap_mm=good.wall_gap_mm,
        )
    (key_plan,) = (folder / method.value).rglob("*-key-plan.dxf")
    return home, *solids.solids(home, read, key_plan, laid)


def in_space(drawn, method, read, folder):
    """Return every fault of the pieces as solids on their roof."""
    home, pieces, faults = pieces_in_space(drawn, method, read, folder)
    return [
        *faults,
        *solids.clashes(home, pieces),
        *solids.wrong_bevels(home, pieces),
        *solids.bare(home, pieces),
        *([] if home.seats else solids.unfilled(home, pieces)),
    ]


def faults_of(drawn, found, folder):
    """Return every fault of a roof's sets, and every mark that two of them share."""
    faults = []
    for method, read in found.items():
        faults += papers.faults(read)
        faults += in_space(drawn, method, read, folder)
    for one, other in combinations(found.values(), 2):
        faults += sorted({row.mark for row in one.rows} & {row.mark for row in other.rows})
    return faults


@pytest.fixture(scope="module")
def small_roof(tmp_path_factory):
    folder = tmp_path_factory.mktemp("J10")
    drawn = acceptance_jobs.drawn("J10")
    return drawn, read_back(drawn, folder), folder


def test_the_papers_of_a_roof_are_sound(small_roof):
    drawn, found, folder = small_roof

    assert set(found) >= {Method.NEW_ROOF, Method.BUILD_ROUND}
    assert faults_of(drawn, found, folder) == []


def test_a_cut_through_an_offcut_a_piece_moved_and_a_hand_exchanged_are_seen(small_roof):
    _, _, folder = small_roof
    read = papers.read(folder / Method.BUILD_ROUND.value)
    key, sheet = next((k, s) for k, s in read.sheets.items() if s.kept and s.cuts)
    label, kept = next(iter(sheet.kept.items()))

    sheet.kept[label] = kept.buffer(40.0)
    assert any("into the offcut" in fault for fault in papers.faults(read))
    sheet.kept[label] = kept
    row = next(row for row in read.rows if row.sheet == key)
    row.outline = papers.affinity.translate(row.outline, 5.0, 0.0)
    assert any("is drawn 5.0" in fault for fault in papers.faults(read))


def test_wide_bars_a_near_wall_a_bare_place_and_a_wrong_bevel_are_seen(small_roof):
    drawn, _, folder = small_roof
    method = Method.BUILD_ROUND
    read = papers.read(folder / method.value)
    home, pieces, faults = pieces_in_space(drawn, method, read, folder)
    assert faults == []

    home.width_mm += 30.0
    assert any("runs over the bar" in fault for fault in solids.clashes(home, pieces))
    home.width_mm -= 30.0
    deck = next(p for p in reversed(pieces) if p.laid.mitred)
    deck.spots = np.add(deck.spots, [0.0, 20.0])
    assert any("into the house wall" in fault for fault in solids.clashes(home, pieces))
    assert any("in one another" in fault for fault in twice(home, deck))
    assert any("lie bare" in fault for fault in solids.bare(home, pieces))
    deck.leans = [5.0, *deck.leans[1:]]
    assert any("cut to 5.00" in fault for fault in solids.wrong_bevels(home, pieces))
    between = [p for p in pieces if not p.laid.between or "-B2" not in p.row.mark]
    assert any("not filled" in fault for fault in solids.unfilled(home, between))


def twice(home, piece):
    """Return the faults of a piece that lies in a copy of itself, a step aside."""
    aside = replace(piece, spots=np.add(piece.spots, [40.0, 0.0]))
    return solids.clashes(home, [piece, aside])


@pytest.mark.slow
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_the_papers_of_every_sample_are_sound(path, tmp_path):
    drawn = reckoning.reckon(job_file.read(path))

    assert isinstance(drawn, Drawn)
    assert faults_of(drawn, read_back(drawn, tmp_path), tmp_path) == []


@pytest.mark.slow
@pytest.mark.parametrize("number", range(20))
def test_the_papers_of_random_roofs_are_sound(number, tmp_path):
    drawn = random_job(number)

    assert isinstance(drawn, Drawn)
    assert faults_of(drawn, read_back(drawn, tmp_path), tmp_path) == []
