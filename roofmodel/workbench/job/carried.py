"""Plans of a revision that leave facets nobody touched as the earlier revision has them."""

from collections.abc import Callable, Mapping

from roofmodel.cutting.carry_over import carried_over
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import plan_cache
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.job.sheet_layers import SheetLayer


def refuse_others(earlier: Drawn, drawn: Drawn) -> None:
    """Raise a `JobFileError` unless two files are two revisions of one job."""
    before, after = earlier.job, drawn.job
    if before.code != after.code:
        raise JobFileError(
            f"{before.code} and {after.code} are different jobs. Choose two files of the same job."
        )
    if before.revision == after.revision and before != after:
        raise JobFileError(
            f"Both files are revision {before.revision}, but they differ. Give the newer "
            "one the next letter, so that nobody cuts from the wrong papers."
        )


def after(
    earlier: tuple[Option, Mapping[int, Plan]],
    option: Option,
    plans: Mapping[int, Plan],
    *,
    effort: Effort,
    cancelled: Callable[[], bool] | None = None,
) -> dict[int, Plan]:
    """Return plans with what the earlier ones have for untouched facets.

    Parameters
    ----------
    earlier
        The method on the earlier roof, and its plans by the numbers of their layers.
    option, plans
        The same method on the new roof, and its plans.
    effort
        How long the rest is nested.
    cancelled
        Asked now and then; True gives up.

    Raises
    ------
    CuttingError
        If what is left finds no place, or a plan fails its check.
    Cancelled
        If stopped.
    """
    was, had = earlier
    layers = {layer.number: layer for layer in was.sheets}
    return {
        layer.number: carried_over(
            had[layer.number],
            plans[layer.number],
            untouched(layers[layer.number], layer),
            effort=effort,
            cancelled=cancelled,
        )
        if layer.number in had and layer.number in layers
        else plans[layer.number]
        for layer in option.sheets
        if layer.number in plans
    }


def untouched(was: SheetLayer, now: SheetLayer) -> frozenset[str]:
    """Return the names of facets whose boards follow from the same in two layers."""
    before = {name: plan_cache.name_of(one) for name, one in was.made_of_facets().items()}
    return frozenset(
        name
        for name, one in now.made_of_facets().items()
        if before.get(name) == plan_cache.name_of(one)
    )
