"""A timber member as a simple beam, screened by EN 1995-1-1 in every combination it meets.

Loads come per metre of slope, square to the member. A screen is no design: notches, supports,
fixings, ties, stability and the rest of the structure are the engineer's.
"""

from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1
from roofmodel.standards.en_338_2016 import StrengthClass
from roofmodel.standards.en_1995_1_1_2004 import Duration

BEARING_MM = 45.0
"""Length a member bears on at each end (common practice, no source)."""

SNOW_PSI_2 = 0.0
"""Share of snow that counts as lasting, below 1000 m (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A member between two supports [mm]; ``shares`` where a deck joins it to its neighbours."""

    name: str
    strength: StrengthClass
    width_mm: float
    depth_mm: float
    span_mm: float
    service_class: int = 2
    shares: bool = False
    bearing_mm: float = BEARING_MM

    def __post_init__(self) -> None:
        """Refuse a member of no size."""
        faults = [
            Fault(name, f"{self.name}: a {name} of {value:g} is not possible.", "Enter it in mm.")
            for name in ("width_mm", "depth_mm", "span_mm", "bearing_mm")
            if not 0.0 < (value := getattr(self, name)) < 20_000.0
        ]
        if self.service_class not in en_1995_1_1.K_MOD:
            text = f"{self.name}: there is no service class {self.service_class}."
            faults.append(Fault("service_class", text, "Enter 1, 2 or 3."))
        if faults:
            raise DimensionError(faults)

    @property
    def stiffness_nmm2(self) -> float:
        """Bending stiffness, E I [N mm²]."""
        return self.strength.stiffness_mean * en_1995_1_1.second_moment_mm4(
            self.width_mm, self.depth_mm
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Actions:
    """What acts on a member at once.

    ``dead_n_mm`` and ``live_n_mm`` are characteristic loads along it [N/mm = kN/m], rising from
    nothing to that value where ``rising``, as on a hip; ``point_n`` is a force at mid-span [N].
    ``dead_factor`` and ``live_factor`` are the partial factors.
    """

    name: str
    dead_n_mm: float
    live_n_mm: float = 0.0
    point_n: float = 0.0
    duration: Duration = Duration.SHORT
    dead_factor: float = en_1995_1_1.GAMMA_DEAD
    live_factor: float = en_1995_1_1.GAMMA_LIVE
    rising: bool = False
    counts_for_sag: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Stresses:
    """How far a member is used in one combination; 1 is the limit of each ratio."""

    actions: Actions
    moment_nmm: float
    shear_n: float
    bending: float
    bending_most: float
    shear: float
    shear_most: float
    bearing: float
    bearing_most: float
    sag_mm: float
    sag_most_mm: float

    @property
    def ratios(self) -> tuple[tuple[str, float], ...]:
        """Every ratio by its name."""
        return (
            ("bending", self.bending / self.bending_most),
            ("shear", self.shear / self.shear_most),
            ("bearing", self.bearing / self.bearing_most),
            ("sag", self.sag_mm / self.sag_most_mm),
        )

    @property
    def worst(self) -> tuple[str, float]:
        """The greatest ratio and what it is of."""
        return max(self.ratios, key=lambda one: one[1])


def screen(beam: Beam, actions: Actions) -> Stresses:
    """Return how far a member is used in one combination of actions."""
    dead, live = actions.dead_n_mm, actions.live_n_mm
    design = actions.dead_factor * dead + actions.live_factor * live
    point_n = actions.live_factor * actions.point_n
    moment = _line_moment(design, beam.span_mm, rising=actions.rising)
    moment += point_n * beam.span_mm / 4.0
    # A man may stand beside a support, so all of him counts for shear there.
    shear_n = _line_shear(design, beam.span_mm, rising=actions.rising) + point_n
    k_mod = en_1995_1_1.K_MOD[beam.service_class][actions.duration]
    shared = en_1995_1_1.K_SYSTEM if beam.shares else 1.0
    k_h = en_1995_1_1.depth_factor(beam.depth_mm)
    return Stresses(
        actions=actions,
        moment_nmm=moment,
        shear_n=shear_n,
        bending=en_1995_1_1.bending_stress(moment, beam.width_mm, beam.depth_mm),
        bending_most=en_1995_1_1.design(beam.strength.bending, k_mod, factor=shared * k_h),
        shear=en_1995_1_1.shear_stress(shear_n, beam.width_mm, beam.depth_mm),
        shear_most=en_1995_1_1.design(beam.strength.shear, k_mod, factor=shared),
        bearing=en_1995_1_1.bearing_stress(shear_n, beam.width_mm, beam.bearing_mm),
        bearing_most=en_1995_1_1.design(beam.strength.compression_across, k_mod),
        sag_mm=_sag_mm(beam, actions) if actions.counts_for_sag else 0.0,
        sag_most_mm=beam.span_mm / en_1995_1_1.DEFLECTION_SHARE,
    )


def worst(beam: Beam, combinations: tuple[Actions, ...]) -> Stresses:
    """Return the combination in which a member is used most."""
    return max((screen(beam, one) for one in combinations), key=lambda found: found.worst[1])


def _line_moment(load: float, span: float, *, rising: bool) -> float:
    """Return the greatest moment: w L² / 8, or w L² / (9 √3) where the load rises to w."""
    return load * span**2 / (9.0 * 3.0**0.5) if rising else load * span**2 / 8.0


def _line_shear(load: float, span: float, *, rising: bool) -> float:
    """Return the greater reaction: w L / 2, or w L / 3 where the load rises to w."""
    return load * span / 3.0 if rising else load * span / 2.0


def _sag_mm(beam: Beam, actions: Actions) -> float:
    # A load that rises to w sags half as much as one that is w throughout, to 0.2 %.
    share = 0.5 if actions.rising else 1.0
    dead, live = (
        share * en_1995_1_1.uniform_sag_mm(load, beam.span_mm, beam.stiffness_nmm2)
        for load in (actions.dead_n_mm, actions.live_n_mm)
    )
    live += actions.point_n * beam.span_mm**3 / (48.0 * beam.stiffness_nmm2)
    return en_1995_1_1.final_sag_mm(dead, live, service_class=beam.service_class, psi_2=SNOW_PSI_2)
