"""Lights laid out on a facet: where they are wanted, what is in the way, and what is offered."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.refit.light import LIGHT_CAUTIONS, Ceiling, Light, LightFitting, LightVoid, numbered
from roofmodel.refit.light_check import DepthClash, LightClash, clashes, depth_clash
from roofmodel.refit.light_room import nearest_clear
from roofmodel.shapes.flat_edge import Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class LightOffer:
    """A light that clashes, and where it could go instead; None if the facet has no room."""

    wanted: Light
    offered: Light | None

    @property
    def sentence(self) -> str:
        """What to do."""
        mark = self.wanted.mark
        if self.offered is None:
            return (
                f"{mark}: there is no clear position left on this facet. Leave it out, or "
                "move a batten."
            )
        up_mm = self.offered.v_mm - self.wanted.v_mm
        along_mm = self.offered.u_mm - self.wanted.u_mm
        moves = [
            f"{abs(by):.1f} mm {words[by > 0.0]}"
            for by, words in ((up_mm, ("down", "up")), (along_mm, ("left", "right")))
            if abs(by) > 0.05
        ]
        return (
            f"{mark}: move it {' and '.join(moves)}, to {round(self.offered.v_mm, 1):g} mm up the "
            f"slope and {round(self.offered.u_mm, 1):g} mm from the left."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LightReport:
    """The lights of one facet, checked; ``cautions`` are printed with them."""

    facet: str
    wanted: tuple[Light, ...]
    depth: DepthClash | None
    clashes: tuple[LightClash, ...]
    offers: tuple[LightOffer, ...]
    cautions: tuple[str, ...] = LIGHT_CAUTIONS

    @property
    def passes(self) -> bool:
        """Whether every light can be cut as wanted."""
        return self.depth is None and not self.clashes

    @property
    def arranged(self) -> tuple[Light, ...]:
        """The lights with every offer taken; those without room are left out."""
        moved = {offer.wanted.mark: offer.offered for offer in self.offers}
        placed = [moved.get(light.mark, light) for light in self.wanted]
        return tuple(light for light in placed if light is not None)

    @property
    def sentences(self) -> tuple[str, ...]:
        """Everything there is to say, the depth first."""
        depth = (self.depth.sentence,) if self.depth else ()
        clashing = tuple(clash.sentence for clash in self.clashes)
        said = depth + clashing + tuple(offer.sentence for offer in self.offers)
        return said or (f"{self.facet}: {len(self.wanted)} lights are clear.",)


def checked(
    ceiling: Ceiling, fitting: LightFitting, void: LightVoid, lights: Sequence[Light]
) -> LightReport:
    """Return the lights with their clashes, and for each that clashes the nearest clear place.

    Lights that stand clear stay; the others are moved one after another, clear of those.
    """
    clashing = clashes(ceiling, fitting, lights)
    named = {clash.light for clash in clashing}
    settled = [light for light in lights if light.mark not in named]
    offers = []
    for light in lights:
        if light.mark in named:
            offered = nearest_clear(ceiling, fitting, light, settled)
            settled += [offered] if offered is not None else []
            offers.append(LightOffer(wanted=light, offered=offered))
    return LightReport(
        facet=ceiling.facet,
        wanted=tuple(lights),
        depth=depth_clash(fitting, void),
        clashes=clashing,
        offers=tuple(offers),
    )


def in_bays(ceiling: Ceiling, shares: Sequence[float]) -> tuple[Light, ...]:
    """Return lights in the middle of every bay, at shares of the slope there (0 eaves, 1 head)."""
    return numbered(
        ceiling.facet,
        [
            spot
            for left, right in ceiling.bays_mm
            for spot in _up_the_slope(ceiling, (left + right) / 2.0, shares)
        ],
    )


def even_shares(count: int) -> tuple[float, ...]:
    """Return shares that divide a length evenly, half a spacing from both ends.

    Examples
    --------
    >>> even_shares(2)
    (0.25, 0.75)
    """
    return tuple((number + 0.5) / count for number in range(count))


def _up_the_slope(ceiling: Ceiling, u_mm: float, shares: Sequence[float]) -> list[Spot]:
    runs = ceiling.runs_mm(u_mm)
    if not runs:
        return []
    foot, head = runs[0][0], runs[-1][1]
    return [(u_mm, foot + (head - foot) * share) for share in shares]
