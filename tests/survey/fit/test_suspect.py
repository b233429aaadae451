import numpy as np
import pytest

from roofmodel.survey.fit import adjustment, suspect
from roofmodel.survey.readings import key_slip
from roofmodel.survey.readings.network import reading
from roofmodel.survey.sheets import networks
from roofmodel.survey.verdict import extra_reading
from tests.survey import random_surveys, roofs

J08 = {"AB": 4321, "AC": 4978, "BC": 3047, "BD": 5076, "CD": 4352, "DA": 2978}


def suspicion_of(readings, network=roofs.LEAN_TO):
    adjusted = adjustment.adjust(network, readings)
    return adjusted, suspect.find(adjusted)


def test_j08_has_six_suspects_each_with_the_value_it_would_have_to_be():
    _, found = suspicion_of(roofs.out_of_square())

    assert {s.name: round(s.would_be) for s in found.suspects} == J08
    assert all(s.explains for s in found.suspects)


def test_one_redundancy_detects_and_does_not_locate():
    _, found = suspicion_of(roofs.out_of_square())

    assert found.located is None
    assert [s.share for s in found.suspects] == pytest.approx([1 / 6] * 6, abs=1e-6)


def test_5176_may_be_5076_with_one_digit_wrong():
    _, found = suspicion_of(roofs.out_of_square())
    (diagonal,) = [s for s in found.suspects if s.name == "BD"]

    assert "5076 with one digit wrong, keyed as 5176?" in diagonal.slips


def test_two_readings_tell_all_suspects_of_j08_apart_where_one_does_not():
    adjusted, found = suspicion_of(roofs.out_of_square())

    extra = extra_reading.best(found, adjusted)

    assert [line.name for line in extra.lines] == ["middle to C", "middle to D"]
    assert extra.not_told == ()
    assert extra.closest > extra_reading.APART
    shown = {f.suspect: f.values[0] for f in extra.foreseen}
    assert set(shown) == set(J08), "no suspect is left out"
    # The sides of the triangle on the wall: half AB 2100, BC 2865, and the corner at B.
    assert shown["BD"] == pytest.approx(3549.3, abs=0.1)
    assert shown["BC"] == pytest.approx(3624.5, abs=0.1)
    assert extra.text.startswith("Read middle to C (From the middle of the house wall to C) and ")
    assert "is the wrong one." in extra.text


def test_no_two_suspects_are_given_the_same_readings_to_expect():
    adjusted, found = suspicion_of(roofs.out_of_square())

    expected = [one.values for one in extra_reading.best(found, adjusted).foreseen]

    for i, one in enumerate(expected):
        for other in expected[:i]:
            assert max(abs(a - b) for a, b in zip(one, other, strict=True)) > 20.0


@pytest.mark.parametrize("wrong", list(J08))
def test_taking_the_extra_readings_locates_the_slip_they_foresaw(wrong):
    """Whichever was the wrong one, readings that agree with it having been wrong single it out."""
    adjusted, found = suspicion_of(roofs.out_of_square())
    extra = extra_reading.best(found, adjusted)
    (values,) = [f.values for f in extra.foreseen if f.suspect == wrong]
    names = [line.name.replace(" ", "_") for line in extra.lines]

    _, then = suspicion_of(roofs.out_of_square(**dict(zip(names, values, strict=True))))

    assert then.located == wrong


def test_suspects_no_two_readings_tell_apart_are_named():
    suspects = extra_reading.ExtraReading(
        lines=(roofs.LEAN_TO.line("AB"),),
        foreseen=tuple(
            extra_reading.Foreseen(suspect=name, values=(4200.0,)) for name in ("AB", "CD")
        ),
        not_told=(("AB", "CD"),),
        closest=0.0,
    )

    assert "4200.0 mm if AB or CD is the wrong one" in suspects.text
    assert suspects.text.endswith("That does not tell AB from CD: read those again too.")


def test_a_second_check_locates_what_one_only_detects():
    """Both front corners taped from the middle of the wall as well, as they are without BD."""
    right = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(BD=None))
    lines = [roofs.LEAN_TO.line(name) for name in ("middle to C", "middle to D")]
    more = [reading(line, right.reads_line(line)[0]) for line in lines]

    _, found = suspicion_of([*roofs.out_of_square(), *more])

    assert found.located == "BD"
    assert found.suspects[0].would_be == pytest.approx(5076.4, abs=0.1)


def test_a_survey_that_fits_has_no_suspects_and_needs_no_reading():
    adjusted, found = suspicion_of(roofs.out_of_square(BD=5076))

    assert found.suspects == ()
    assert not found.explained
    assert extra_reading.best(found, adjusted) is None


def test_two_slips_are_found_one_after_the_other():
    network = networks.polygonal_end(3)
    rng = np.random.default_rng(4)
    good = random_surveys.survey(network, random_surveys.true_points(network, rng), rng)
    places = [next(i for i, r in enumerate(good) if r.name == name) for name in ("CD", "height P")]
    wrong = good
    for place in places:
        wrong = random_surveys.slipped(wrong, random_surveys.Slip(place, 30.0))

    found = suspect.find_all(adjustment.adjust(network, wrong))

    assert not found[0].explained
    assert sorted(suspicion.located for suspicion in found) == ["CD", "height P"]
    assert found[-1].explained


def test_suspects_of_one_slip_are_not_mixed_with_those_of_another():
    network = networks.polygonal_end(3)
    rng = np.random.default_rng(4)
    good = random_surveys.survey(network, random_surveys.true_points(network, rng), rng)
    places = [i for i, r in enumerate(good) if r.name in ("CD", "height P")][::2]
    wrong = good
    for place in places:
        wrong = random_surveys.slipped(wrong, random_surveys.Slip(place, 30.0))

    for suspicion in suspect.find_all(adjustment.adjust(network, wrong)):
        names = {s.name for s in suspicion.suspects}
        assert not {"CD", "height P"} <= names


@pytest.mark.parametrize(
    ("read", "would_be", "slip"),
    [
        (2685, 2863.0, "2865 with two digits swapped, keyed as 2685?"),
        (3600, 3500.6, "3500 with one digit wrong, keyed as 3600?"),
        (2900, 2998.0, "3000 read 100 off on the tape, as 2900?"),
        (350, 3502.0, "3500 entered in cm as 350?"),
        (35000, 3499.0, "3500 entered with a digit too many, as 35000?"),
    ],
)
def test_likely_slips_are_noticed(read, would_be, slip):
    assert slip in key_slip.slips(read, would_be, 4.0)


def test_a_difference_no_slip_makes_is_not_called_one():
    assert key_slip.slips(2685, 2732.0, 4.0) == ()
    assert key_slip.slips(2685, 2690.0, 4.0) == ()
