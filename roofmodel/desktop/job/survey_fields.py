"""The fields of the survey's form, in the order they are taped."""

from typing import get_args

from roofmodel.foundation import entered
from roofmodel.survey.taped.survey import RoofSurvey

_IN_ORDER = (
    "width_mm",
    "projection_mm",
    "eaves_height_mm",
    "wing_width_mm",
    "wing_projection_mm",
    "wing_from_right_mm",
    "end_facets",
    "lean_to_width_mm",
    "lean_to_projection_mm",
    "pitch_deg",
    "wall_plate_height_mm",
    "ridge_height_mm",
    "left_end",
    "left_pitch_deg",
    "front_pitch_deg",
    "right_end",
    "right_pitch_deg",
    "rear",
    "rear_pitch_deg",
)

_DECLARED = {
    name: field
    for survey in get_args(RoofSurvey)
    for name, field in entered.fields_of(survey).items()
}
"""A field several shapes have is called the same in all of them."""

FIELDS = {name: _DECLARED[name] for name in _IN_ORDER}
"""Each shape shows its own."""
