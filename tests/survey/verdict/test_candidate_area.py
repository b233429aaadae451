import pytest

from roofmodel.survey.fit import adjustment, closure, suspect
from roofmodel.survey.verdict import candidate_area
from tests.survey import roofs
from tests.survey.fit.test_closure import END, contradicting, only


def test_j09_says_what_a_width_of_3500_would_do_to_the_area():
    """Put right, the roof is the three-facet end of 12.7 to 12.8 m² it nearly is."""
    readings = contradicting(angle_E=135, pitch_BC_to_P=25.1)
    adjusted = adjustment.adjust(END, readings)
    width = only(closure.table(END, readings))["width from the facets"]
    (way,) = [way for way in width.explanations if way.line == "CF"]

    effect = candidate_area.of_way(adjusted, way)

    mended = contradicting(CF=way.would_be, angle_E=135, pitch_BC_to_P=25.1)
    expected = candidate_area.area_m2(adjustment.adjust(END, mended))
    # The width is entered for the whole roof too, and that one stays as it was typed.
    assert effect.area_m2 == pytest.approx(expected, abs=1e-6)
    assert effect.difference_m2 < -0.01
    assert "less than as read" in effect.text


def test_each_candidate_of_j08_leads_to_an_area_of_its_own():
    adjusted = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square())
    found = suspect.find(adjusted)

    areas = {s.name: candidate_area.of_suspect(adjusted, s).area_m2 for s in found.suspects}

    # J08's plan with BD corrected is 11.938 m²; its pitches are 15.00° and 14.67°.
    assert areas["BD"] == pytest.approx(11.938 / 0.9667, abs=0.02)
    assert len({round(area, 3) for area in areas.values()}) == len(areas)


def test_a_reading_that_is_no_part_of_the_roof_has_no_area():
    readings = roofs.readings(roofs.LEAN_TO, CD=4000, frame=70, inside_CD=3930)
    (found,) = only(closure.table(roofs.LEAN_TO, readings)).values()
    (way,) = [way for way in found.explanations if way.line == "frame"]

    assert candidate_area.of_way(adjustment.adjust(roofs.LEAN_TO, readings), way) is None
