"""The man-hours of a method on the open job, by the firm's norms."""

from collections.abc import Mapping

from roofmodel.cutting.plan import Plan
from roofmodel.quantities import drivers, job_lines, labour
from roofmodel.quantities.labour import TaskHours
from roofmodel.refit.refit import Refit
from roofmodel.survey.taped.standing import Glazing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn, MethodRefusedError


def hours(
    drawn: Drawn,
    option: Option,
    plans: Mapping[int, Plan],
    *,
    refit: Refit | None = None,
    more_lights: int = 0,
) -> tuple[TaskHours, ...]:
    """Return the man-hours of every task of a method.

    Parameters
    ----------
    drawn
        The reckoned job.
    option
        One of its three methods.
    plans
        Its cutting plans: where the boards are cut in the workshop, their pieces are charged.
    refit
        The method with an option of the offer built in; as it is when left out.
    more_lights
        Downlights beyond those of the job.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up here.
    """
    built = refit or option.refit
    if built is None:
        raise MethodRefusedError(option.refusal)
    known = drivers.of_refit(built, lights=option.light_count + more_lights, facts=drawn.job.site)
    if drawn.job.estimate.boards_cut == "workshop":
        parts = [part for plan in plans.values() for part in plan.problem.parts]
        known = {**known, **labour.of_pieces(parts)}
    by_norms = labour.hours(
        option.method,
        known,
        glass=drawn.job.standing.glazing is Glazing.GLASS,
        cut_on_site=drawn.job.estimate.boards_cut == "site",
        norms=drawn.tables.norms,
    )
    return (*by_norms, *job_lines.hours(drawn.job.estimate.lines, option.method))
