"""The layers of the chosen method as bodies on the roof, for looking at and for export."""

from roofmodel.refit import layer_bodies
from roofmodel.refit.layer_bodies import LayerBody
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import MethodRefusedError


def of_option(option: Option) -> tuple[LayerBody, ...]:
    """Return the layers of a method from the room outwards.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    DimensionError
        If the facets meet otherwise at a layer's depth than on the datum.
    """
    if option.refit is None:
        raise MethodRefusedError(option.refusal)
    return layer_bodies.of_refit(option.refit)
