"""Is there enough to fix to: bearing for the deck's joints, supports for the ceiling board?"""

from roofmodel.foundation.outcome import Outcome, against_least, against_most
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.standards import bs_5534_2014 as bs_5534
from roofmodel.standards import new_home_warranty_2020 as new_home_warranty
from roofmodel.standards import panel_guide_2 as panel_guide

DECK = "fixings: deck"
"""Name of the gate that follows from the widths of the bars alone."""


def of_deck(refit: Refit) -> tuple[Gate, ...]:
    """Return whether boards of the deck find bearing where they meet; none without a deck."""
    deck = refit.layer("deck")
    if deck is None or deck.material.sheet is None:
        return ()
    name, question = DECK, "Is a bar wide enough for two boards to meet on it?"
    widths = [one.widths.rafter_mm for one in refit.members.facet_bars]
    needed_mm = 2.0 * panel_guide.BEARING_MM + deck.material.sheet.board_gap_mm
    if not widths:
        return (
            Gate(
                name=name,
                question=question,
                outcome=Outcome.MEASURE_AGAIN,
                unit="mm",
                limit=needed_mm,
                reason="No bars are entered, so their width is not known.",
                remedy="Enter the bars of every facet with their width.",
                source=panel_guide.FIXING,
            ),
        )
    outcome = against_least(min(widths), needed_mm)
    return (
        Gate(
            name=name,
            question=question,
            outcome=outcome,
            value=min(widths),
            sense=Sense.AT_LEAST,
            unit="mm",
            limit=needed_mm,
            reason=f"Two boards bear {panel_guide.BEARING_MM:g} mm each with "
            f"{deck.material.sheet.board_gap_mm:g} mm between them; the bar is "
            f"{min(widths):g} mm wide.",
            remedy=""
            if outcome is Outcome.PASS
            else "Pack the bar out on both sides, or let the boards meet on bearers.",
            source=panel_guide.FIXING,
            details=_schedule(deck, refit),
        ),
    )


def _schedule(deck: Placed, refit: Refit) -> tuple[tuple[str, str], ...]:
    """Return how a deck board is fixed, and how many fixings a whole board takes."""
    length_mm = panel_guide.fixing_length_mm(deck.thickness_mm)
    spacings = [refit.members.spacing_mm(facet) for facet in refit.covered_facets]
    apart_mm = max((one for one in spacings if one is not None), default=0.0)
    rows = [
        ("screws", f"at least {length_mm:g} mm long, {panel_guide.EDGE_MM:g} mm from an edge"),
        ("along the edges", f"{panel_guide.RIM_MM:g} mm apart"),
        ("on inner supports", f"{panel_guide.FIELD_MM:g} mm apart"),
        ("at walls and upstands", f"a gap of {panel_guide.WALL_GAP_MM:g} mm or more"),
    ]
    if apart_mm and deck.material.sheet is not None:
        size = deck.material.sheet.sizes[0]
        count = panel_guide.of_board(size.length_mm, size.width_mm, apart_mm)
        rows.append(("a whole board", f"{count} screws on supports {apart_mm:.0f} mm apart"))
    return (*rows, *_covering(refit))


def _covering(refit: Refit) -> tuple[tuple[str, str], ...]:
    """Return how underlay and tiles over the deck are lapped and held; nothing without tiles."""
    if refit.layer("tile") is None:
        return ()
    pitches = [facet.pitch_deg for facet in refit.covered_facets]
    lap_mm = bs_5534.underlay_lap_mm(min(pitches), supported=True)
    across = "as its manufacturer says" if lap_mm is None else f"{lap_mm:g} mm, {bs_5534.LAPS}"
    return (
        ("underlay, lap across the slope", across),
        ("underlay, lap up the slope", f"{bs_5534.UPRIGHT_LAP_MM:g} mm, {bs_5534.UPRIGHT}"),
        ("tiles", f"{bs_5534.tile_fixing(max(pitches))}, {bs_5534.FIXING}"),
        ("tiles at eaves, verge, ridge and hip", f"{bs_5534.RIM_FIXINGS} fixings each"),
        ("ridge and hip caps", "each fixed mechanically; mortar or glue alone does not count"),
    )


def of_ceiling(refit: Refit) -> tuple[Gate, ...]:
    """Return whether what the ceiling board is screwed to stands close enough."""
    board = next((x for x in refit.layers if x.material.category == "lining"), None)
    if board is None or board.layer.zone is not Zone.ROOM:
        return ()
    most_mm = new_home_warranty.ceiling_supports_mm(board.thickness_mm)
    apart_mm, words = _ceiling_supports(refit)
    name, question = "fixings: ceiling board", "Are its supports close enough together?"
    if most_mm is None or apart_mm is None:
        reason = f"{words}, or the board is too thin for the table."
        remedy = "Enter the bars of every facet, or take a board of 9.5 mm or more."
        return (
            Gate(
                name=name,
                question=question,
                outcome=Outcome.MEASURE_AGAIN,
                unit="mm",
                limit=most_mm,
                reason=reason,
                remedy=remedy,
                source=new_home_warranty.CEILING_BOARD,
            ),
        )
    return (_overhead(board.thickness_mm, apart_mm, words, wall_mm=most_mm),)


def _overhead(thickness_mm: float, apart_mm: float, words: str, *, wall_mm: float) -> Gate:
    """Return whether supports are close enough overhead; the table for walls only refuses."""
    overhead_mm = min(wall_mm, new_home_warranty.OVERHEAD_MM)
    outcome = against_most(apart_mm, overhead_mm)
    if outcome is Outcome.FAIL and apart_mm <= wall_mm:
        outcome = Outcome.MEASURE_AGAIN
    said = f"{words} {apart_mm:.0f} mm apart; a {thickness_mm:g} mm board overhead spans "
    said += f"{overhead_mm:g} mm without noggings"
    remedy = (
        f"Lay counter-battens at {overhead_mm:g} mm or closer, or set noggings between them."
        if outcome is Outcome.FAIL
        else "Check whether there are noggings between them; if not, lay counter-battens at "
        f"{overhead_mm:g} mm or closer."
    )
    return Gate(
        name="fixings: ceiling board",
        question="Are its supports close enough together?",
        outcome=outcome,
        value=apart_mm,
        unit="mm",
        limit=overhead_mm,
        sense=Sense.AT_MOST,
        reason=f"{said}; on walls {wall_mm:g} mm.",
        remedy="" if outcome is Outcome.PASS else remedy,
        source=new_home_warranty.OVERHEAD,
        details=(("on walls", f"{wall_mm:g} mm, {new_home_warranty.CEILING_BOARD}"),),
    )


def _ceiling_supports(refit: Refit) -> tuple[float | None, str]:
    """Return how far apart the ceiling's supports stand [mm], and what they are."""
    across = next((x for x in refit.layers if x.layer.lie is Lie.ACROSS), None)
    if across is not None and across.layer.zone is Zone.ROOM:
        return across.layer.spacing_mm, "Counter-battens"
    spacings = [refit.members.spacing_mm(facet) for facet in refit.covered_facets]
    if not spacings or None in spacings:
        return None, "No bars are entered"
    return max(one for one in spacings if one is not None), "Bars"
