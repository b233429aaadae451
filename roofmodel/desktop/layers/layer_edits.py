"""Edits of a build-up: pure functions from one tuple of layers to the next."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.errors import DimensionError
from roofmodel.refit import stack
from roofmodel.refit.entry import StackEntry
from roofmodel.refit.layer import Layer, Lie, Zone
from roofmodel.refit.method import Method
from roofmodel.refit.refit import ASSUMED_BAR_DEPTH_MM
from roofmodel.refit.stack import MethodStack
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.workbench.job import options

Layers = tuple[Layer, ...]
Stacks = Mapping[Method, MethodStack]
_ORDER = (Zone.ROOM, Zone.BARS, Zone.OUTSIDE)


def layers_of(job: Job, stacks: Stacks) -> Layers:
    """Return the layers of the chosen method as this job has them; else those of the presets."""
    method = job.refit.method
    return job.refit.layers_of(method) or stacks[method].layers


def is_own(job: Job) -> bool:
    """Return whether the job keeps the method's own layers."""
    return job.refit.layers_of(job.refit.method) is None


def with_layers(job: Job, layers: Layers, presets: Stacks) -> Job:
    """Return the job with other layers; the method's own ones leave no entry."""
    method = job.refit.method
    rest = tuple(entry for entry in job.refit.stacks if entry.method is not method)
    if layers == presets[method].layers:
        return replace(job, refit=replace(job.refit, stacks=rest))
    stacks = (*rest, StackEntry(method=method, layers=layers))
    in_order = tuple(sorted(stacks, key=lambda entry: list(Method).index(entry.method)))
    return replace(job, refit=replace(job.refit, stacks=in_order))


def added(layers: Layers, after: int, material: str) -> tuple[Layers, int]:
    """Return layers with one more after a place, in its zone, and where the new one is."""
    at = layers[after] if layers else Layer(material=material, zone=Zone.OUTSIDE, lie=Lie.OVER)
    lie = Lie.BETWEEN if at.zone is Zone.BARS else Lie.OVER
    new = Layer(material=material, zone=at.zone, lie=lie)
    place = min(after + 1, len(layers))
    return (*layers[:place], new, *layers[place:]), place


def moved(layers: Layers, place: int, by: int) -> Layers:
    """Return layers with one moved outwards (+1) or towards the room (-1)."""
    order = list(layers)
    order[place], order[place + by] = order[place + by], order[place]
    return tuple(order)


def without(layers: Layers, place: int) -> Layers:
    """Return layers without one."""
    return (*layers[:place], *layers[place + 1 :])


def changed(layers: Layers, place: int, layer: Layer) -> tuple[Layers, int]:
    """Return layers with one changed, moved to the nearest place of its zone, and that place."""
    order = list(enumerate((*layers[:place], layer, *layers[place + 1 :])))
    order.sort(key=lambda one: _ORDER.index(one[1].zone))
    return tuple(one for _, one in order), [i for i, _ in order].index(place)


def why_not(job: Job, layers: Sequence[Layer], catalogue: Catalogue) -> tuple[Finding, ...]:
    """Return why layers cannot stand on this job; nothing when they can."""
    if not layers:
        text = "A build-up needs at least one layer."
        remedy = "Add another before removing this one, or go back to the method's own layers."
        return (Finding(f"{options.UNDER}.layers", Severity.STOP, text, remedy),)
    try:
        stack.placed(
            layers, catalogue, bar_depth_mm=job.standing.bar_depth_mm or ASSUMED_BAR_DEPTH_MM
        )
    except DimensionError as error:
        return tuple(stops(error.faults, under=options.UNDER))
    return ()
