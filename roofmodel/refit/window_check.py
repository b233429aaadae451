"""Whether the roof windows that are entered stand where an opening can be made."""

from collections.abc import Iterator

import shapely

from roofmodel.foundation import tolerance
from roofmodel.refit import window_place
from roofmodel.refit.entry import RoofWindow
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Facet
from roofmodel.survey.taped.findings import Finding, Severity


def findings(refit: Refit) -> list[Finding]:
    """Return a stop for every window that cannot stand where it is entered.

    Windows in facets that stay glazed are left alone: nothing is made there.
    """
    covered = {facet.name: facet for facet in refit.covered_facets}
    found = []
    for number, window in enumerate(refit.entry.roof_windows):
        facet = covered.get(window.facet)
        fault = None if facet is None else _fault(refit, facet, number, window)
        if fault is not None:
            name, text, remedy = fault
            path = f"refit.roof_windows.{number}.{name}"
            found.append(Finding(path, Severity.STOP, text, remedy))
    return found


def _fault(
    refit: Refit, facet: Facet, number: int, window: RoofWindow
) -> tuple[str, str, str] | None:
    """Return the field, what is wrong and what to do; None where the window can stand."""
    opening = shapely.box(*_sides(window))
    whole = shapely.Polygon(facet.outline_mm)
    said = f"Roof window {number + 1}, {window.width_mm:g} × {window.height_mm:g} mm,"
    if not whole.buffer(tolerance.LENGTH_MM).covers(opening):
        text = f"{said} does not lie within {facet.name}."
        return "u_mm", text, f"Move it inside {facet.name}, or choose another facet."
    clear_mm = float(whole.exterior.distance(opening))
    if clear_mm < window_place.FROM_LINE_MM - tolerance.LENGTH_MM:
        text = f"{said} is {clear_mm:.0f} mm from the edge of {facet.name}."
        remedy = f"Keep {window_place.FROM_LINE_MM:g} mm clear for its flashing, or choose another."
        return "u_mm", text, remedy
    for bar_mm, half_mm in _kept_bars(refit, facet):
        if window.u_mm - half_mm < bar_mm < window.u_mm + window.width_mm + half_mm:
            text = f"{said} crosses the kept bar at {bar_mm:.0f} mm on {facet.name}."
            return "u_mm", text, "Kept bars are not cut: place it between two, or lay a new roof."
    for other_number, other in enumerate(refit.entry.roof_windows[:number]):
        if other.facet != facet.name:
            continue
        apart_mm = float(shapely.box(*_sides(other)).distance(opening))
        if apart_mm < window_place.FROM_WINDOW_MM - tolerance.LENGTH_MM:
            text = f"{said} is {apart_mm:.0f} mm from roof window {other_number + 1}."
            return "u_mm", text, f"Keep {window_place.FROM_WINDOW_MM:g} mm between two openings."
    return None


def _sides(window: RoofWindow) -> tuple[float, float, float, float]:
    return (
        window.u_mm,
        window.v_mm,
        window.u_mm + window.width_mm,
        window.v_mm + window.height_mm,
    )


def _kept_bars(refit: Refit, facet: Facet) -> Iterator[tuple[float, float]]:
    """Yield where kept bars stand on a facet, and half their width with room for the lining."""
    known = refit.members.of_facet(facet.name)
    if refit.default.new_bars is not None or known is None:
        return
    half_mm = known.widths.rafter_mm / 2.0 + window_place.FROM_BAR_MM
    for centre_mm in known.layout.centres_mm:
        yield centre_mm, half_mm - tolerance.LENGTH_MM
