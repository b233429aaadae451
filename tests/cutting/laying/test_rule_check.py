"""Rules broken on the roof are seen from the parts alone, and compared with what was said."""

from dataclasses import replace

import pytest

from roofmodel.cutting.laying.from_facets import boardings, problem_for
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.laying.rule_check import broken, unsaid
from roofmodel.cutting.plan import plan
from roofmodel.cutting.search import search
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made

GOOD = made.good()
BARS = {"F1": [600.0 * i for i in range(8)]}


def moved(parts, number, by_mm):
    """Return the parts with the joint after one of them moved along its course."""
    left, right = parts[number], parts[number + 1]
    by = round(10 * by_mm)
    parts = list(parts)
    parts[number] = made_longer(left, by)
    parts[number + 1] = replace(
        made_longer(right, -by), at_mm=(right.at_mm[0] + by_mm, right.at_mm[1])
    )
    return parts


def made_longer(part, by):
    end = part.length_tenths
    return replace(part, corners=tuple((x + by if x == end else x, y) for x, y in part.corners))


def seen(parts, supports=None, **rules):
    facet = made.rectangle_facet(4200, 2193.93)
    return [text for *_, text in broken([facet], parts, rules_for(GOOD, **rules), supports or {})]


@pytest.fixture
def on_bars():
    facet = made.rectangle_facet(4200, 2193.93)
    rules = rules_for(GOOD, joints="supports", bays_spanned_least=2)
    return problem_for([facet], GOOD, job_code="T", rules=rules, supports_mm=BARS)[0].parts


def test_parts_that_keep_all_rules_are_good(on_bars):
    assert seen(on_bars, BARS, joints="supports", bays_spanned_least=2) == []


def test_a_joint_beside_its_bar_is_seen(on_bars):
    assert seen(moved(on_bars, 0, -20.0), BARS, joints="supports") == [
        "the joint at 2380 mm is not on a bar or bearer"
    ]
    assert seen(moved(on_bars, 0, -20.0), BARS, joints="free") == []


def test_a_piece_over_too_few_bays_is_seen(on_bars):
    short = moved(on_bars, 0, -1800.0)

    assert seen(short, BARS, joints="supports", bays_spanned_least=2) == [
        "part T-F1-C1P1-OSB18-N spans 1 bays"
    ]


def test_joints_under_the_stagger_are_seen(on_bars):
    assert seen(moved(on_bars, 0, -300.0)) == ["joints are 300 mm apart"]


def test_a_piece_under_the_least_is_seen(on_bars):
    found = seen(moved(on_bars, 0, -2200.0))

    assert "part T-F1-C1P1-OSB18-N is under the minimum size" in found


def test_what_was_said_of_a_course_is_not_news():
    seen_there = [("F1", 2, "joints are 3 mm apart"), ("F2", 1, "too small")]

    assert unsaid(seen_there, ["F1, course 2: a joint is only 3 mm away."]) == [
        "F2, course 1: too small."
    ]


def test_a_plan_that_breaks_a_rule_and_does_not_say_so_is_never_shown(monkeypatch):
    # A search that takes any boarding, and notes that keep silent.
    monkeypatch.setattr(search.Search, "_allows", lambda self, state: True)
    monkeypatch.setattr("roofmodel.cutting.laying.boarding.notes", lambda *args, **more: ())
    tight = replace(GOOD, minimum_piece_mm=900.0, stagger_mm=1200.0)

    with pytest.raises(CuttingError, match="course"):
        plan(made.roof("J06").facets, tight, job_code="J06", effort="quick")


def test_a_run_in_more_pieces_than_the_rules_allow_is_seen():
    rules = rules_for(made.good())
    tight = replace(rules, more_joints=0)
    facet = made.rectangle_facet(4000, 1200)
    way = boardings([facet], made.good(), rules, job_code="T")[0]
    bare = way.bare(way.divisions[0][0])
    row = way.row(replace(bare, joints=((1000.0, 2000.0, 3000.0),)), 1)

    # Two boards would reach; four pieces are two more, as many as the rules allow.
    assert broken([facet], row.parts, rules, {}) == []
    assert broken([facet], row.parts, tight, {}) == [
        ("F1", 1, "there are 3 joints in one run of boards")
    ]
    assert row.broken[1] == 0
    strict = boardings([facet], made.good(), tight, job_code="T")[0]
    other = strict.row(replace(bare, joints=((1000.0, 2000.0, 3000.0),)), 1)
    assert other.broken[1] == 1
    assert strict.notes((other,)) == (
        "F1, course 1: 3 joints where 1 would do; 0 more is the rule, but there is no room "
        "for it in this course.",
    )
