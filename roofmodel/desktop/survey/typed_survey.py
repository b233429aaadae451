"""A survey while it is being typed: what is accepted, and what still waits for a better value."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from roofmodel.desktop.survey import shape_forms
from roofmodel.desktop.survey.shape_forms import Entered
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.survey.taped.survey import RoofSurvey


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedSurvey:
    """The last survey that can stand, values typed that cannot join it yet, and why not."""

    survey: RoofSurvey
    waiting: Mapping[str, Entered] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()

    @property
    def values(self) -> dict[str, Entered]:
        """Every value as it was typed last, whether it can stand or not."""
        return {**shape_forms.values_of(self.survey), **self.waiting}


def enter(typed: TypedSurvey, name: str, value: Entered) -> TypedSurvey:
    """Return the survey with one more value, taken over as soon as it can stand.

    A value that cannot stand is kept waiting with its fault: two heights that are only wrong
    together come right when the second is corrected.
    """
    form = shape_forms.form_of(typed.survey)
    entry = {name: value, **dict.fromkeys(form.left_out_by(name, value))}
    wanted = {**typed.waiting, **entry}
    whole = _with(typed.survey, wanted)
    if not isinstance(whole, tuple):
        return TypedSurvey(survey=whole)
    alone = _with(typed.survey, entry)
    if isinstance(alone, tuple):
        return TypedSurvey(survey=typed.survey, waiting=wanted, faults=whole)
    rest = {key: wanted[key] for key in wanted if key not in entry}
    return TypedSurvey(survey=alone, waiting=rest, faults=whole)


def _with(survey: RoofSurvey, values: Mapping[str, Entered]) -> RoofSurvey | tuple[Fault, ...]:
    try:
        # The names come from the survey's own form.
        return replace(survey, **values)  # type: ignore[arg-type]
    except DimensionError as error:
        return error.faults
