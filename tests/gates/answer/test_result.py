"""What a gate answers with: verified only where every figure it takes is."""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense

READ = Source("a table we read", "page 3", verified=True)
HEARD = Source("a figure from memory", "", verified=False)


def check(**more):
    told = {"name": "x", "question": "?", "outcome": Outcome.PASS, "reason": "So.", "source": READ}
    return Gate(**{**told, **more})


def test_a_figure_is_verified_only_where_everything_it_takes_is():
    assert check().verified
    assert check(inputs=(READ,)).verified
    assert not check(inputs=(READ, HEARD)).verified
    assert not check(source=HEARD).verified


def test_a_check_says_where_its_rule_stands_and_what_its_figure_was_made_from():
    words = check(inputs=(READ, HEARD)).source_words
    assert words == f"{READ}; from {READ}, {HEARD.words} (not yet verified)"
    assert check(source=HEARD).source_words == str(HEARD)
    assert check(value=3.0, unit="mm", uncertainty=0.2).figure.printed == "x 3 ± 0.2 mm"


def test_the_margin_is_below_nothing_on_the_wrong_side_of_the_limit():
    assert check(value=3.0, limit=5.0, sense=Sense.AT_MOST).margin == 2.0
    assert check(value=3.0, limit=5.0, sense=Sense.AT_LEAST).margin == -2.0
    assert check(value=3.0, limit=5.0).margin is None
