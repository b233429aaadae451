"""What a U-value needs that neither survey nor catalogue says; each figure with its source."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source
from roofmodel.survey.taped.standing import Glazing, Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Screws:
    """Steel screws through unbroken insulation: how many, the core's section, and who says so."""

    per_m2: float
    area_mm2: float
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalBar:
    """What a kept bar may be across: conductivities [W/mK] and the thinnest wall [mm]."""

    metal_w_mk: float
    wall_mm: float
    cavity_w_mk: float
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatSettings:
    """Assumptions of the thermal checks.

    ``bar_m2k_w`` is the resistance of the zone of the bars along a bar; ``emissivity`` that of a
    bright foil, ``aged_emissivity`` of one in use; which material has one says the catalogue.
    """

    bar_m2k_w: float
    bar_source: Source
    bar_section: MetalBar
    emissivity: float
    emissivity_source: Source
    aged_emissivity: float
    aged_source: Source
    remedy_w_mk: float
    room_screws: Screws
    outside_screws: Screws


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazingHeat:
    """What one kind of old glazing lets through: U with its range [W/m²K], and g."""

    kind: Glazing
    thickness_mm: float
    u_w_m2k: float
    u_range_w_m2k: tuple[float, float]
    g: float
    source: Source

    @property
    def words(self) -> str:
        """What is printed."""
        return f"{self.kind} {self.thickness_mm:g} mm"


@cache
def shipped() -> HeatSettings:
    """Return the shipped assumptions.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "standards" / "heat_settings.toml")
    try:
        bar, foil, screws = table["bar"], table["foil"], table["fixings"]
        return HeatSettings(
            bar_m2k_w=float(bar["resistance_m2k_w"]),
            bar_source=Source(**bar["source"]),
            bar_section=_metal_bar(table["bar_section"]),
            emissivity=float(foil["emissivity"]),
            emissivity_source=Source(**foil["source"]),
            aged_emissivity=float(foil["aged_emissivity"]),
            aged_source=Source(**foil["aged_source"]),
            remedy_w_mk=float(table["remedy"]["conductivity_w_mk"]),
            room_screws=_screws(screws["room"]),
            outside_screws=_screws(screws["outside"]),
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"heat_settings.toml: {error}.") from error


def _metal_bar(row: dict[str, Any]) -> MetalBar:
    return MetalBar(
        metal_w_mk=float(row["metal_w_mk"]),
        wall_mm=float(row["wall_mm"]),
        cavity_w_mk=float(row["cavity_w_mk"]),
        source=Source(**row["source"]),
    )


def _screws(row: dict[str, Any]) -> Screws:
    return Screws(
        per_m2=float(row["per_m2"]), area_mm2=float(row["area_mm2"]), source=Source(**row["source"])
    )


@cache
def glazings() -> tuple[GlazingHeat, ...]:
    """Return the shipped rows of old glazing.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "standards" / "glazing_heat.toml")
    try:
        return tuple(
            GlazingHeat(
                kind=Glazing(row["kind"]),
                thickness_mm=float(row["thickness_mm"]),
                u_w_m2k=float(row["u_w_m2k"]),
                u_range_w_m2k=(float(row["u_range_w_m2k"][0]), float(row["u_range_w_m2k"][1])),
                g=float(row["g"]),
                source=Source(**row["source"]),
            )
            for row in table["glazing"]
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"glazing_heat.toml: {error}.") from error


def of_standing(standing: Standing) -> GlazingHeat | None:
    """Return the old glazing: the row of its thickness, else the next thinner one; None unread."""
    if standing.glazing is None or standing.glazing_mm is None:
        return None
    fitting = [
        row
        for row in glazings()
        if row.kind is standing.glazing and row.thickness_mm <= standing.glazing_mm
    ]
    return max(fitting, key=lambda row: row.thickness_mm, default=None)
