"""Papers are for cutting only while the very revision they show has been released."""

import json
from dataclasses import replace
from datetime import date

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.outcome import Outcome
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.survey.verdict.state import Output
from roofmodel.workbench.job import content, reckoning, releasing
from tests import acceptance_jobs


def of(drawn, **changes):
    told = replace(drawn.job.released, **changes)
    changed = replace(drawn, job=replace(drawn.job, released=told))
    return releasing.release(changed, drawn.option, today=date(2026, 11, 3))


def test_the_released_revision_is_for_cutting_and_says_who_released_it():
    found = of(edged()[0])

    assert found.reasons == ()
    assert found.allowed
    assert found.approved == "invented surveyor, 2026-11-02"


@pytest.mark.parametrize(("old", "shown"), [("A", "B"), ("B", "A")])
def test_another_revision_than_the_released_one_is_not_for_cutting(old, shown):
    found = of(edged(revision=shown)[0], revision=old)

    assert found.reasons == (f"Revision {old} was released, but this is revision {shown}.",)
    assert not found.allowed
    assert found.approved == ""


@pytest.mark.parametrize("by", ["", " ", "x", "..", "1234"])
def test_a_release_by_nobody_releases_nothing(by):
    found = of(acceptance_jobs.released("J04"), by=by)

    assert "is nobody's name" in found.reason
    assert found.approved == ""


@pytest.mark.parametrize("on", [date(1, 1, 1), date(2026, 11, 4), date(2099, 1, 1)])
def test_a_release_on_a_day_that_has_not_been_releases_nothing(on):
    assert "cannot have been released on" in of(acceptance_jobs.released("J04"), on=on).reason


def test_what_is_changed_after_the_release_is_not_released():
    """Width, stock size, layer, catalogue row: each by itself, revision and release untouched."""
    told = acceptance_jobs.released("J01").job.released
    survey = acceptance_jobs.JOBS["J01"]["survey"]
    board = {"material": "BRD-OSB18", "length_mm": 2500.0, "width_mm": 1250.0}
    for changes in (
        {"survey": {**survey, "width_mm": survey["width_mm"] + 37.0}},
        {"boards": [board]},
        {"refit": {"fitting_gap_mm": 6.0}},
    ):
        drawn = acceptance_jobs.drawn("J01", **changes)
        drawn = replace(drawn, job=replace(drawn.job, released=told))
        reason = releasing.release(drawn, drawn.option).reason
        assert "is of content" in reason, changes
        assert told.content in reason


def test_a_release_holds_for_one_method_alone():
    drawn = acceptance_jobs.released("J01", Method.BUILD_ROUND)
    said = {method: releasing.release(drawn, drawn.option_of(method)).reason for method in Method}
    assert "is of content" not in said[Method.BUILD_ROUND]
    assert "is of content" in said[Method.NEW_ROOF]
    assert "is of content" in said[Method.PANEL_SWAP]


def test_a_release_of_an_older_file_names_no_content_and_releases_nothing():
    assert "no content by name" in of(acceptance_jobs.released("J04"), content="").reason


def test_a_price_a_customer_or_a_note_changes_no_content():
    drawn = acceptance_jobs.drawn("J01")
    before = content.name(drawn.job, drawn.option)
    job = replace(drawn.job, customer="somebody", note="ring first", title="other")

    assert content.name(job, drawn.option) == before


def test_a_job_nobody_released_is_not_for_cutting():
    _, found = edged(released=None)

    assert found.reasons == (
        "Revision A has not been released: measure the roof a second time, then enter "
        "who released it and when.",
    )
    assert found.approved == ""


def test_a_method_that_is_refused_is_not_for_cutting_with_its_reason():
    drawn = acceptance_jobs.drawn("J02", refit={"method": "build-round"})

    assert drawn.option.refused in releasing.release(drawn, drawn.option).reasons


# The five cases of one rule decided in several places: a gate that does not pass, and papers for
# cutting all the same. The sixth is the same job with nothing against it.
def edged(**changes):
    """The sample with twelve readings, released; entries of its job replaced."""
    path = resources.sample_roofs() / f"surveyed-lean-to{job_file.SUFFIX}"
    job = json.loads(path.read_text(encoding="utf-8"))
    job["released"] = {"revision": "A", "by": "invented surveyor", "on": "2026-11-02"}
    drawn = reckoning.reckon(job_file.loads(json.dumps({**job, **changes})))
    if drawn.job.released is not None:
        named = content.name(drawn.job, drawn.option)
        told = replace(drawn.job.released, content=named)
        drawn = replace(drawn, job=replace(drawn.job, released=told))
    return drawn, releasing.release(drawn, drawn.option)


def test_a_surveyed_job_with_every_gate_that_binds_passed_is_for_cutting():
    _, found = edged()
    assert found.reasons == ()


def test_a_roof_flatter_than_its_covering_asks_is_not_for_cutting():
    drawn, found = edged(site={"tile_least_pitch_deg": 17.5})
    assert "17.5°" in drawn.option.refused
    assert any("17.5°" in reason for reason in found.reasons)


def test_a_pitch_not_proven_is_not_for_cutting():
    drawn, found = edged(site={"tile_least_pitch_deg": 14.7})
    assert drawn.option.refused == ""
    assert any("Not proven" in reason for reason in found.reasons)


def test_a_typed_pitch_on_the_edge_is_not_for_cutting():
    drawn = acceptance_jobs.drawn(
        "J01",
        survey={**acceptance_jobs.JOBS["J01"]["survey"], "pitch_deg": 14.0},
        released={"revision": "A", "by": "invented surveyor", "on": "2026-11-02"},
    )
    reasons = releasing.release(drawn, drawn.option).reasons
    assert any("not proven" in reason for reason in reasons)
    assert not drawn.permission(Output.CUTTING).allowed


def test_an_18_mm_deck_on_bars_640_mm_apart_is_not_for_cutting():
    path = resources.sample_roofs() / f"surveyed-lean-to{job_file.SUFFIX}"
    entry = json.loads(path.read_text(encoding="utf-8"))["refit"]
    layers = entry["stacks"][0]["layers"]
    thin = [{**one, "material": one["material"].replace("OSB22", "OSB18")} for one in layers]
    entry["stacks"][0]["layers"] = thin
    drawn, found = edged(refit=entry)
    assert drawn.option.refused == ""
    assert any("supports" in reason for reason in found.reasons)


def test_a_covering_that_allows_12_is_neither_refused_nor_passed_at_once():
    drawn, found = edged(site={"tile_least_pitch_deg": 12.0})
    assert drawn.option.refused == ""
    assert found.reasons == ()
    low = acceptance_jobs.drawn(
        "J01",
        survey={**acceptance_jobs.JOBS["J01"]["survey"], "pitch_deg": 13.0},
        site={"tile_least_pitch_deg": 12.0},
    )
    assert low.option.refused == ""
    gate = next(one for one in low.verdicts(low.option) if one.name.startswith("pitch"))
    assert gate.outcome is Outcome.PASS
    assert not [one for one in low.findings if "12°" in one.text]


def test_a_lean_to_without_one_reading_is_not_for_cutting():
    drawn = acceptance_jobs.drawn(
        "J01", released={"revision": "A", "by": "invented surveyor", "on": "2026-11-02"}
    )
    reasons = releasing.release(drawn, drawn.option).reasons
    assert [reason for reason in reasons if "no reading was entered" in reason]
    # A cutting plan may be made all the same, to count sheets; it is not for cutting.
    assert drawn.permission(Output.CUTTING).allowed
