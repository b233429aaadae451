"""Details where a roof ends: eaves with its gutter, box gutter, house wall, verge."""

import math

from roofmodel.drawings.details import detail, detail_run
from roofmodel.drawings.details.detail import Detail, DetailOutline, Measure, Note, Stroke
from roofmodel.drawings.details.detail_run import DetailCut, Run
from roofmodel.drawings.paper.pen import Spot
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit.depth import UPSTAND_MM
from roofmodel.refit.layer import Lie
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.roof import Facet

RUN_MM = 520.0
"""How much of the facet a detail shows, measured level."""
FASCIA_MM, FASCIA_DEEP_MM = 18.0, 225.0
"""A usual fascia board (common practice, no source)."""
BEAM_MM = (70.0, 100.0)
"""A frame's head where nobody has read one (common practice, no source)."""
BAR_MM, SHEET_MM = 60.0, 4.0
"""Width of a bar, and how far off what it covers a sheet of metal is drawn to be seen."""
WALL_MM, GAP_MM, OVER_MM, CHASE_MM = 120.0, 10.0, 150.0, 25.0
"""What is shown of a wall, the gap a board keeps from it, a flashing's reach, and its chase."""
BOX_MM = (200.0, 100.0)
"""A box gutter where nobody has read its size."""

_AS_IT_STANDS = "as it stands, section measured on site"


def eaves(refit: Refit, facts: SiteFacts, facet: Facet, title: str) -> Detail:
    """Return the eaves of a facet, cut square to them; the slope rises to the right."""
    run = Run(turn_deg=facet.pitch_deg)
    cut = DetailCut(
        run=run,
        start=_from_eaves(refit, run),
        until_mm=RUN_MM,
        across_at=lambda one: detail_run.rows_mm(facet, one, from_head=False),
    )
    boxes, lines = detail_run.pieces(refit, cut)
    over_mm = refit.entry.eaves_overhang_mm
    top = -FASCIA_MM * math.tan(math.radians(facet.pitch_deg))
    fascia = _box((-FASCIA_MM, top - FASCIA_DEEP_MM), (0.0, top))
    head = run.plumb(0.0, -refit.bar_depth_mm)
    beam = _box((0.0, head[1] - BEAM_MM[1]), (BEAM_MM[0], head[1]))
    gutter, rim = _gutter(facts.or_assumed("gutter_mm"), top)
    notes = [
        Note(
            f"half-round gutter {facts.or_assumed('gutter_mm'):g} mm{_kept(refit)}", gutter.spots[0]
        ),
        Note(f"fascia {FASCIA_MM:g} × {FASCIA_DEEP_MM:g} mm{_kept(refit)}", fascia[0]),
        Note(f"eaves beam and frame {_AS_IT_STANDS}", beam[0]),
    ]
    strokes = [*lines, gutter, *detail_run.bar_beyond(refit, cut, 0.0)]
    if refit.method is not Method.PANEL_SWAP:
        tray = _tray(refit, run, rim)
        strokes.append(tray)
        notes.append(Note("eaves tray into the gutter, membrane lapped over it", tray.spots[1]))
    return Detail(
        title=title,
        pieces=(*boxes, DetailOutline(fascia, detail.CUT), DetailOutline(beam, detail.OLD)),
        strokes=(*strokes, detail_run.broken(refit, cut)),
        notes=(*notes, *detail_run.notes(refit, cut)),
        measures=_eaves_sizes(refit, run),
        remarks=(
            *_insets(refit),
            "Fascia and frame are drawn in usual sizes; the overhang of deck and covering is "
            f"{over_mm:g} mm down the slope.",
        ),
    )


def box_gutter(refit: Refit, facts: SiteFacts, facet: Facet, title: str) -> Detail:
    """Return the box gutter between house wall and facet, which rises to the right."""
    width = facts.box_width_mm or BOX_MM[0]
    deep = facts.box_depth_mm or BOX_MM[1]
    run = Run(turn_deg=facet.pitch_deg)
    cut = DetailCut(
        run=run,
        start=_from_eaves(refit, run),
        until_mm=RUN_MM,
        across_at=lambda one: detail_run.rows_mm(facet, one, from_head=False),
    )
    boxes, lines = detail_run.pieces(refit, cut)
    # The gutter's edge stands at the roof's edge; the covering drips into it.
    lip = -15.0
    gutter = Stroke(
        (
            (-width, lip + 60.0),
            (-width, lip - deep),
            (0.0, lip - deep),
            (0.0, lip),
        )
    )
    wall_x = -width - SHEET_MM
    top = run.plumb(0.0, refit.depth_outside_mm)[1] + UPSTAND_MM
    wall = _wall(wall_x, (lip - deep - 150.0, top + 180.0))
    flashing = Stroke(
        (
            (wall_x - CHASE_MM, lip + 60.0 + UPSTAND_MM),
            (wall_x + 2.0 * SHEET_MM, lip + 60.0 + UPSTAND_MM),
            (wall_x + 2.0 * SHEET_MM, lip + 20.0),
        )
    )
    head = run.plumb(0.0, -refit.bar_depth_mm)
    beam = _box((0.0, head[1] - BEAM_MM[1]), (BEAM_MM[0], head[1]))
    known = facts.box_width_mm is not None and facts.box_depth_mm is not None
    size = f"{width:g} × {deep:g} mm" if known else "size not measured"
    notes = (
        Note("flashing let into the wall, over the gutter's back upstand", flashing.spots[1]),
        Note(f"box gutter, {size}, lined, laid to a fall", (-width * 0.75, lip - deep)),
        Note(f"gutter beam and frame {_AS_IT_STANDS}", beam[0]),
        *detail_run.notes(refit, cut),
    )
    strokes = (*lines, gutter, flashing, *detail_run.bar_beyond(refit, cut, 0.0))
    level = lip - deep - 60.0
    return Detail(
        title=title,
        pieces=(*boxes, DetailOutline(beam, detail.OLD), wall),
        strokes=(*strokes, detail_run.broken(refit, cut)),
        notes=notes,
        measures=(Measure((-width, level), (0.0, level), f"{width:g}"),) if known else (),
        remarks=(
            *_insets(refit),
            "" if known else "The box gutter is drawn 200 × 100 mm: measure it.",
            "Its bearing is for the engineer, the insulation below it for the designer.",
        ),
    )


def house_wall(
    refit: Refit, facet: Facet, title: str, sill_mm: float | None, *, at_head: bool = True
) -> Detail:
    """Return where a facet meets the house wall: at its head, where it falls to the right.

    Otherwise it ends against the wall beside it, and is cut square to its slope. ``sill_mm`` is the
    underside of the sill above that line [mm], None where it is not read.
    """
    run = Run(turn_deg=-facet.pitch_deg if at_head else 0.0)

    def start(one: Placed, offset: float) -> float:
        if detail_run.is_inside(one):
            return run.along_at(0.0, offset)
        if one.layer.lie is Lie.BETWEEN:
            return run.along_at(BAR_MM + refit.entry.fitting_gap_mm, offset)
        return run.along_at(GAP_MM, offset)

    def across(one: Placed) -> list[float]:
        return detail_run.rows_mm(facet, one, from_head=True)

    cut = DetailCut(
        run=run,
        start=start,
        until_mm=RUN_MM,
        across_at=across if at_head else None,
        bars_at=((0.0, BATTEN_MM),),
    )
    boxes, lines = detail_run.pieces(refit, cut)
    surface = run.plumb(0.0, refit.depth_outside_mm)
    plate = (
        run.plumb(0.0, -refit.bar_depth_mm),
        run.plumb(BAR_MM, -refit.bar_depth_mm),
        run.plumb(BAR_MM, 0.0),
        run.plumb(0.0, 0.0),
    )
    crown, top = surface[1] + UPSTAND_MM, refit.depth_outside_mm + SHEET_MM
    lowest = run.plumb(0.0, -refit.depth_inside_mm)[1]
    wall = _wall(0.0, (lowest - 150.0, max(crown + 120.0, (sill_mm or 0.0) + 60.0)))
    flashing = Stroke(
        (
            (-CHASE_MM, crown),
            (SHEET_MM, crown),
            run.plumb(SHEET_MM, top),
            run.spot(run.along_at(0.0, top) + OVER_MM, top),
        )
    )
    notes = [
        Note(
            f"{'' if at_head else 'stepped '}flashing let into the wall{_kept(refit)}", (0.0, crown)
        ),
        Note(f"{'wall plate' if at_head else 'bar at the wall'} {_AS_IT_STANDS}", plate[0]),
        Note("house wall, with its cavity tray where it has one", (-WALL_MM / 2.0, lowest - 80.0)),
    ]
    strokes = [*lines, flashing]
    if at_head:
        strokes += detail_run.bar_beyond(refit, cut, BAR_MM)
    if sill_mm is not None and sill_mm < 900.0:
        strokes.append(Stroke(((-WALL_MM, sill_mm), (40.0, sill_mm)), detail.OLD))
        notes.append(Note("underside of the sill above", (0.0, sill_mm)))
    dims = [Measure((70.0, surface[1]), (70.0, crown), f"{UPSTAND_MM:g}")]
    return Detail(
        title=title,
        pieces=(*boxes, DetailOutline(plate, detail.OLD), wall),
        strokes=(*strokes, detail_run.broken(refit, cut)),
        notes=(*notes, *detail_run.notes(refit, cut)),
        measures=tuple(dims),
        remarks=(
            f"Boards stop {GAP_MM:g} mm short of the wall; the flashing goes {UPSTAND_MM:g} mm "
            f"up and {OVER_MM:g} mm over the covering.",
            "" if sill_mm is not None else "The sill above has not been measured.",
        ),
    )


def verge(refit: Refit, title: str) -> Detail:
    """Return a verge, cut square to it; the roof goes on to the right."""
    run = Run(turn_deg=0.0)
    inset = refit.entry.room_inset_mm

    def start(one: Placed, _offset: float) -> float:
        if detail_run.is_inside(one):
            return inset
        if one.layer.lie is Lie.BETWEEN:
            return BAR_MM + refit.entry.fitting_gap_mm
        return 0.0

    cut = DetailCut(
        run=run, start=start, until_mm=RUN_MM, bars_at=((inset, max(inset + 50.0, BAR_MM)),)
    )
    boxes, lines = detail_run.pieces(refit, cut)
    bar = _box((0.0, -refit.bar_depth_mm), (BAR_MM, 0.0))
    frame = _box((0.0, -refit.bar_depth_mm - BEAM_MM[1]), (BEAM_MM[0], -refit.bar_depth_mm))
    top = refit.depth_outside_mm
    trim = Stroke(((40.0, top + 4.0), (-8.0, top + 4.0), (-8.0, -FASCIA_DEEP_MM / 1.5)))
    notes = (
        Note(f"verge trim{_kept(refit)}", trim.spots[1]),
        Note("verge bar, or the last rafter", (0.0, -refit.bar_depth_mm / 2.0)),
        Note(f"side frame {_AS_IT_STANDS}", frame[0]),
        *detail_run.notes(refit, cut),
    )
    return Detail(
        title=title,
        pieces=(*boxes, DetailOutline(bar, detail.CUT), DetailOutline(frame, detail.OLD)),
        strokes=(*lines, trim, detail_run.broken(refit, cut)),
        notes=notes,
        remarks=(*_insets(refit), "Cut square to the slope, so the layers lie level."),
    )


def _from_eaves(refit: Refit, run: Run) -> detail_run.Start:
    """Return where layers start at eaves: lining inset, boards at the frame, deck overhanging."""

    def start(one: Placed, offset: float) -> float:
        if detail_run.is_inside(one):
            return run.along_at(refit.entry.room_inset_mm, offset)
        if one.layer.lie is Lie.BETWEEN:
            return run.along_at(refit.entry.fitting_gap_mm, offset)
        return -refit.entry.eaves_overhang_mm

    return start


def _gutter(diameter_mm: float, fascia_top_mm: float) -> tuple[Stroke, Spot]:
    """Return a half-round gutter on the fascia and the middle of its mouth."""
    radius = diameter_mm / 2.0
    middle = (-FASCIA_MM - 4.0 - radius, fascia_top_mm - 20.0)
    turns = [math.pi + math.pi * step / 24.0 for step in range(25)]
    return (
        Stroke(
            tuple(
                (middle[0] + radius * math.cos(turn), middle[1] + radius * math.sin(turn))
                for turn in turns
            )
        ),
        middle,
    )


def _tray(refit: Refit, run: Run, mouth: Spot) -> Stroke:
    """Return the tray under the membrane, over the fascia and down into the gutter."""
    deck = refit.layer("deck")
    offset = deck.outside_mm if deck is not None else 0.0
    edge = run.spot(-refit.entry.eaves_overhang_mm, offset)
    drip = (min(edge[0], -FASCIA_MM) - 12.0, edge[1] - 8.0)
    return Stroke(
        (run.spot(150.0, offset), edge, drip, (min(drip[0], mouth[0] + 18.0), mouth[1] - 12.0))
    )


def _eaves_sizes(refit: Refit, run: Run) -> tuple[Measure, ...]:
    at = RUN_MM - 90.0
    foot, head = run.plumb(at, -refit.depth_inside_mm), run.plumb(at, refit.depth_outside_mm)
    sizes = [Measure(foot, head, f"{head[1] - foot[1]:.0f} plumb")]
    inset = refit.entry.room_inset_mm
    if inset > 0.0:
        y = run.plumb(inset, -refit.depth_inside_mm)[1] - 40.0
        sizes.append(Measure((0.0, y), (inset, y), f"{inset:g}"))
    return tuple(sizes)


def _insets(refit: Refit) -> tuple[str, ...]:
    inset = refit.entry.room_inset_mm
    if not any(detail_run.is_inside(one) for one in refit.layers):
        return ()
    if inset == 0.0:
        return ("The lining is drawn to the roof's edge: no inset is entered.",)
    return (f"The lining is set in {inset:g} mm, measured level.",)


def _wall(face_x: float, heights: Spot) -> DetailOutline:
    corners = _box((face_x - WALL_MM, heights[0]), (face_x, heights[1]))
    return DetailOutline(corners, detail.CUT, hatched=True)


def _box(low: Spot, high: Spot) -> tuple[Spot, ...]:
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def _kept(refit: Refit) -> str:
    return ", kept where sound" if refit.method is Method.PANEL_SWAP else ""
