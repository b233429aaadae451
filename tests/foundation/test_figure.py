"""A figure is verified where it and all it was made from were read; nobody may say more."""

import math

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import COMPUTED, Kind, Source

READ = Source("ISO 6946:2017", "6.7.1", verified=True)
TYPED = Source("typed for the whole roof", "no reading checks it", verified=False)


def figure(source=READ, **changes):
    return Figure(name="width", value=4_000.0, unit="mm", error=3.0, source=source, **changes)


def test_a_figure_is_as_verified_as_its_least_verified_input():
    assert figure().verified
    assert not figure(TYPED).verified
    assert not figure(inputs=(READ, TYPED)).verified
    within = figure(inputs=(figure(inputs=(figure(TYPED),)),))
    assert not within.verified
    assert "(not yet verified)" in within.words


def test_a_figure_says_its_value_error_source_and_what_moves_it_most():
    made = figure(COMPUTED, inputs=(figure(), READ, READ, READ, READ))
    assert made.words.startswith("computed from the figures it rests on; from width 4000 ± 3 mm")
    assert made.words.endswith("and 2 more")
    assert "ISO 6946:2017, 6.7.1" in made.tip


@pytest.mark.parametrize("change", [{"error": -1.0}, {"error": math.nan}, {"value": math.inf}])
def test_a_figure_of_no_number_is_refused(change):
    with pytest.raises(DimensionError):
        Figure(**{"name": "width", "source": READ, **change})


def test_a_figure_without_a_source_is_refused():
    with pytest.raises(DimensionError, match="where it comes from"):
        figure(Source("", "", verified=False))


@pytest.mark.parametrize(
    ("document", "kind"),
    [
        ("EN 1995-1-1:2004", Kind.DOCUMENT),
        ("EN 1995-1-1:2004, from memory", Kind.MEMORY),
        ("common practice, no source", Kind.PRACTICE),
        ("size and price invented", Kind.INVENTED),
        ("the firm's list", Kind.FIRM),
        ("read on site", Kind.SITE),
        ("entered for the job", Kind.ENTERED),
    ],
)
def test_the_kind_of_a_source_is_what_its_words_say(document, kind):
    assert Source(document, "", verified=False).kind is kind
