"""The one table of which gate blocks which output at which verdict."""

import pytest

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.gates.answer.result import Gate

NOBODY = Source("nobody", "", verified=False)


def check(name, outcome=Outcome.FAIL):
    field = "site.gutter_mm" if outcome is Outcome.ASSUMED else ""
    return Gate(
        name=name,
        question="?",
        outcome=outcome,
        reason="Because.",
        remedy="Mend.",
        field=field,
        source=NOBODY,
    )


def test_the_longest_name_that_fits_counts():
    table = blocks.shipped()
    assert table.row(check("pitch: F1")).name == "pitch"
    assert table.row(check("pitch: valley")).name == "pitch: valley"
    assert table.row(check("pitchfork")) is None
    assert table.row(check("stock: width of OSB")).name == "stock: width"


@pytest.mark.parametrize("outcome", list(Outcome))
def test_a_pass_blocks_nothing_and_a_fail_of_the_pitch_everything(outcome):
    blocked = blocks.shipped().blocked_by(check("pitch: F1", outcome))
    if outcome is Outcome.PASS:
        assert blocked == ()
    if outcome is Outcome.FAIL:
        assert set(blocked) == set(Binding)
    assert (Binding.METHOD in blocked) is (outcome is Outcome.FAIL)


def test_a_graver_verdict_never_blocks_less():
    for row in blocks.shipped().rows:
        for binding, outcomes in row.at:
            assert Outcome.FAIL in outcomes or row.name == "survey: readings", (row.name, binding)


def test_every_reason_says_what_to_do():
    (reason,) = blocks.reasons([check("pitch: F1"), check("wind")], Binding.METHOD)
    assert reason == "Because. Mend."


def test_a_gate_nothing_hangs_on_blocks_nothing():
    assert blocks.shipped().blocked_by(check("rain noise")) == ()
