"""Every check on every acceptance job, by every method: laws that hold for all of them."""

import re

import pytest

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates import every_gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.every_gate import Asked
from roofmodel.refit.method import Method
from tests import acceptance_jobs

FACTS = SiteFacts(snow_zone=3, altitude_m=100.0)
CASES = [(code, method) for code in acceptance_jobs.JOBS for method in Method]


def run(code, method, facts=FACTS, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    refit = drawn.option_of(method).refit
    asked = Asked(facts=facts, catalogue=drawn.catalogue, entries=drawn.job.lights)
    return every_gate.run(refit, asked)


@pytest.mark.parametrize(("code", "method"), CASES, ids=lambda x: str(x))
def test_every_answer_has_a_reason_and_every_open_one_a_remedy(code, method):
    found = run(code, method)
    assert found
    assert all(one.reason and one.question.endswith("?") for one in found)
    assert all(one.remedy for one in found if one.outcome is not Outcome.PASS)
    names = [one.name for one in found]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(("code", "method"), CASES, ids=lambda x: str(x))
def test_no_answer_approves_anything(code, method):
    for one in run(code, method):
        words = " ".join(
            [
                one.name,
                one.question,
                one.reason,
                one.remedy,
                *(w for row in one.details for w in row),
            ]
        )
        assert not re.search(r"compl(y|ies|iant)|approv|guarantee|certif(y|ies)\b", words), words


@pytest.mark.parametrize("code", list(acceptance_jobs.JOBS))
def test_what_is_not_known_of_the_site_never_makes_a_check_hold(code):
    known = {one.name: one.outcome for one in run(code, Method.BUILD_ROUND)}
    bare = {one.name: one.outcome for one in run(code, Method.BUILD_ROUND, SiteFacts())}
    for name, outcome in bare.items():
        if outcome is Outcome.PASS:
            assert known[name] is Outcome.PASS, name


def test_every_answer_says_where_its_limit_comes_from():
    for one in run("J05", Method.BUILD_ROUND):
        if one.limit is not None:
            assert one.source is not None, one.name


def test_j02_refuses_tiles_for_its_pitch_and_panels_for_their_length():
    def refused(method):
        return {
            one.name.split(":")[0] for one in run("J02", method) if one.outcome is (Outcome.FAIL)
        }

    assert "pitch" in refused(Method.BUILD_ROUND)
    assert "pitch" in refused(Method.NEW_ROOF)
    assert "stock" in refused(Method.PANEL_SWAP)
    assert "pitch" not in refused(Method.PANEL_SWAP)


def test_a_heavier_deck_never_turns_a_load_from_not_holding_to_holding():
    thin = {one.name: one for one in run("J01", Method.BUILD_ROUND, refit={})}
    thick = {one.name: one for one in run("J01", Method.BUILD_ROUND)}
    assert thick["load: dead"].value > thin["load: dead"].value
    for name in ("load: dead", "load: total"):
        if thin[name].outcome is not Outcome.PASS:
            assert thick[name].outcome is not Outcome.PASS


def test_the_gravest_outcome_stands_for_all():
    assert every_gate.worst(run("J02", Method.BUILD_ROUND)) is Outcome.FAIL
    assert every_gate.worst([]) is Outcome.PASS
