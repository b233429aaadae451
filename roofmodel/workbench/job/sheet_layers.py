"""The sheet layers of a refitted roof, ready to be cut: boards on facets, or pieces in bays."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from string import ascii_lowercase

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import Plan
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.bay import Bay
from roofmodel.shapes.roof import Facet


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLayer:
    """One layer of sheets: its material as cut on this job, and what is cut.

    ``bays`` are the pieces of a layer between the bars; without any, boards are laid on
    ``facets``, their joints on the supports, where there are some.
    """

    number: int
    good: SheetGood
    facets: tuple[Facet, ...]
    supports_mm: Mapping[str, tuple[float, ...]]
    bays: tuple[Bay, ...]

    @property
    def code(self) -> str:
        """Code of the material."""
        return self.good.code

    def cut(
        self,
        *,
        job_code: str,
        effort: Effort,
        progress: Callable[[int, int], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
    ) -> Plan:
        """Return the verified cutting plan of the layer.

        Raises
        ------
        CuttingError
            If no complete plan is found; `Cancelled` if ``cancelled`` said so.
        """
        if self.bays:
            return cutting_plan.plan_pieces(
                [self._piece(bay) for bay in self.bays],
                self.good,
                job_code=job_code,
                effort=effort,
                progress=progress,
                cancelled=cancelled,
            )
        return cutting_plan.plan(
            self.facets,
            self.good,
            job_code=job_code,
            supports_mm=self.supports_mm,
            effort=effort,
            progress=progress,
            cancelled=cancelled,
        )

    def _piece(self, bay: Bay) -> Piece:
        # A panel is weather skin: a joint across it would leak. Insulation may be joined.
        return Piece(
            mark=bay.mark,
            facet=bay.facet,
            corners_mm=bay.corners_mm,
            may_split=self.good.layer != "panel",
        )


def of_refit(refit: Refit, choices: Mapping[str, BoardChoice]) -> tuple[SheetLayer, ...]:
    """Return the sheet layers of a refit from the room outwards.

    Parameters
    ----------
    refit
        The method on its roof.
    choices
        What this job's sheets differ in from the catalogue, by material.

    Raises
    ------
    DimensionError
        If such a difference leaves no usable sheet.
    """
    found: list[SheetLayer] = []
    for layer in refit.layers:
        if layer.material.sheet is None:
            continue
        good = layer.material.sheet_good()
        choice = choices.get(good.code)
        good = good if choice is None else choice.applied_to(good)
        again = sum(other.code == good.code for other in found)
        if again:
            # The same board in two layers: marks and files must tell the two apart.
            good = replace(good, short=f"{good.short}{ascii_lowercase[again]}")
        found.append(_layer(layer, refit, good))
    return tuple(found)


def _layer(layer: Placed, refit: Refit, good: SheetGood) -> SheetLayer:
    between = layer.layer.lie is Lie.BETWEEN
    missing = [name for name in refit.facets if refit.members.of_facet(name) is None]
    return SheetLayer(
        number=layer.number,
        good=good,
        facets=refit.cut_facets(layer),
        supports_mm=refit.supports_mm(layer) if good.layer == "deck" else {},
        bays=refit.bays if between and not missing else (),
    )
