"""What the vapour checks need that neither survey nor catalogue says, and the climate outside."""

from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any

from pydantic import Field

from roofmodel.foundation import resources
from roofmodel.foundation.errors import DimensionError, Fault, ResourceError
from roofmodel.foundation.source import Source
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards.iso_13788_2012_profile import Air

_FOLDER = "standards"


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """Monthly means of the air outside, January first.

    ``invented`` says that the figures are of no real place.
    """

    name: Annotated[str, Field(description="Name of the place or station")]
    temperature_c: Annotated[
        tuple[float, ...], Field(description="Mean temperature of each month, January first [°C]")
    ]
    humidity_percent: Annotated[
        tuple[float, ...],
        Field(description="Mean relative humidity of each month, January first [%]"),
    ]
    source: Annotated[Source, Field(description="Where the monthly means come from")]
    invented: Annotated[bool, Field(description="The figures are invented, for no real place")] = (
        False
    )

    def __post_init__(self) -> None:
        """Refuse a year that has not twelve months, and weather no place has."""
        faults = []
        for field, values, low, high in (
            ("temperature_c", self.temperature_c, -60.0, 50.0),
            ("humidity_percent", self.humidity_percent, 1.0, 100.0),
        ):
            if len(values) != 12:
                text = f"{self.name}: {len(values)} months are given."
                faults.append(Fault(field, text, "Give twelve, January first."))
            faults += [
                Fault(
                    field,
                    f"{self.name}: {one:g} is not possible for a month.",
                    f"Enter {low:g} to {high:g}.",
                )
                for one in values
                if not low <= one <= high
            ]
        if faults:
            raise DimensionError(faults)

    def airs(self, inside_c: float, humidity_class: int) -> tuple[Air, ...]:
        """Return the air on both sides month by month."""
        months = []
        for outside_c, percent in zip(self.temperature_c, self.humidity_percent, strict=True):
            outside_pa = percent / 100.0 * iso_13788.saturation_pa(outside_c)
            inside_pa = iso_13788.room_pressure_pa(humidity_class, outside_c, outside_pa)
            months.append(
                Air(
                    outside_c=outside_c,
                    outside_pa=outside_pa,
                    inside_c=inside_c,
                    inside_pa=min(inside_pa, iso_13788.saturation_pa(inside_c)),
                )
            )
        return tuple(months)


@dataclass(frozen=True, slots=True, kw_only=True)
class VapourSettings:
    """Assumptions of the vapour checks, each group with its source."""

    inside_c: float
    humidity_class: int
    room_source: Source
    dew_outside_c: float
    dew_inside_c: float
    dew_humidity: float
    dew_source: Source
    whole_sd_m: float
    holed_sd_m: float
    foil_source: Source
    most_g_m2: float
    most_source: Source


@cache
def climates() -> tuple[Climate, ...]:
    """Return the shipped climates.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / _FOLDER / "climate.toml")
    try:
        return tuple(_climate(row) for row in table["climate"])
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"climate.toml: {error}.") from error


@cache
def shipped() -> VapourSettings:
    """Return the shipped assumptions.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / _FOLDER / "vapour_settings.toml")
    try:
        room, dew, foil, gathered = (
            table[name] for name in ("room", "dew_point", "foil", "gathered")
        )
        return VapourSettings(
            inside_c=float(room["temperature_c"]),
            humidity_class=int(room["humidity_class"]),
            room_source=Source(**room["source"]),
            dew_outside_c=float(dew["outside_c"]),
            dew_inside_c=float(dew["inside_c"]),
            dew_humidity=float(dew["inside_humidity_percent"]) / 100.0,
            dew_source=Source(**dew["source"]),
            whole_sd_m=float(foil["whole_sd_m"]),
            holed_sd_m=float(foil["holed_sd_m"]),
            foil_source=Source(**foil["source"]),
            most_g_m2=float(gathered["most_g_m2"]),
            most_source=Source(**gathered["source"]),
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"vapour_settings.toml: {error}.") from error


def _climate(row: dict[str, Any]) -> Climate:
    return Climate(
        name=row["name"],
        temperature_c=tuple(map(float, row["temperature_c"])),
        humidity_percent=tuple(map(float, row["humidity_percent"])),
        source=Source(**row["source"]),
        invented=bool(row.get("invented", False)),
    )
