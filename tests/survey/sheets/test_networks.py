"""The sheet of a survey while it is being typed."""

from roofmodel.survey.sheets import networks
from roofmodel.survey.taped.survey import LeanToSurvey


def test_a_roof_nobody_could_tape_has_no_sheet_and_no_fault():
    """Found by a soak: 4.2 typed for 4200 ended in a ValueError."""
    survey = LeanToSurvey(
        width_mm=4.2,
        projection_mm=4.2,
        eaves_height_mm=2100.0,
        pitch_deg=15.0,
        left_end="hip",
        right_end="hip",
    )

    assert networks.of_survey(survey) is None
