"""What cutting needs to know of a facet."""

from collections.abc import Sequence
from typing import Protocol

from roofmodel.geometry.polygon import Outline
from roofmodel.shapes.roof import FacetEdge


class BoardedFacet(Protocol):
    """A named flat outline whose sides know their bevel; `shapes.roof.Facet` is one."""

    @property
    def name(self) -> str:
        """Name such as F1."""
        ...

    @property
    def outline_mm(self) -> Outline:
        """Corners in the facet's own frame, (n, 2) [mm], counter-clockwise, v = 0 on the eaves."""
        ...

    @property
    def pitch_deg(self) -> float:
        """Pitch against the horizontal [°]."""
        ...

    @property
    def edges(self) -> Sequence[FacetEdge]:
        """One for each side of the outline, side i from corner i to the next."""
        ...
