"""Gathers from the open job the packs for building control and for the handover."""

from datetime import date

from roofmodel.drawings.details import details
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import INDICATIVE, Release
from roofmodel.drawings.sets.control_pack import ControlPaper
from roofmodel.drawings.sets.handover_pack import HandoverPaper
from roofmodel.drawings.sheets.paper_job import PaperJob
from roofmodel.drawings.views import stack_section
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.gates.buildable import deck
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Roof
from roofmodel.workbench.gates.gates import Gates
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn, MethodRefusedError
from roofmodel.workbench.offer import indications


def gather(drawn: Drawn, gates: Gates, *, issued: date | None = None) -> ControlPaper:
    """Return what the pack of a method is printed from.

    Parameters
    ----------
    drawn
        The reckoned job.
    gates
        The gates of the method.
    issued
        Day of issue.
    """
    refit = gates.option.refit
    heading = Heading(job_code=drawn.job.code, revision=drawn.job.revision, issued=issued)
    return ControlPaper(
        heading=heading,
        title=drawn.job.title,
        method=gates.option.method.printed,
        checks=gates.checks,
        layers=_layers(refit) if refit else (),
        lines=_lines(drawn.roof),
        drawings=_drawings(drawn, gates.option, heading, f"{INDICATIVE}."),
    )


def handover(drawn: Drawn, option: Option, *, issued: date | None = None) -> HandoverPaper:
    """Return what the handover of a method is printed from.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    """
    refit = option.refit
    if refit is None or option.refused:
        raise MethodRefusedError(option.refusal)
    heading = Heading(job_code=drawn.job.code, revision=drawn.job.revision, issued=issued)
    return HandoverPaper(
        heading=heading,
        title=drawn.job.title,
        method=option.method.printed,
        layers=tuple(
            (
                f"{layer.number}",
                layer.material.name,
                f"{layer.thickness_mm:.1f}",
                f"{refit.area_m2(layer):.2f}",
            )
            for layer in refit.layers
        ),
        drawings=_drawings(drawn, option, heading, "As drawn; check against the finished work."),
        walkable=indications.WALKABLE[deck.walkable(refit)],
        unsettled=tuple(
            (check.name, check.outcome.value, check.remedy)
            for check in blocks.shipped().blocking(drawn.verdicts(option), Binding.HANDOVER)
        ),
    )


def _drawings(drawn: Drawn, option: Option, heading: Heading, reason: str) -> PaperJob:
    refit = option.refit
    return PaperJob(
        heading=heading,
        title=drawn.job.title,
        method=option.method.printed,
        roof=drawn.roof,
        members=refit.members if refit else drawn.members,
        plans=(),
        release=Release(reasons=(reason,)),
        stack=stack_section.of_refit(refit) if refit else None,
        details=details.of_refit(refit, drawn.job.site) if refit else (),
        kind="building control drawing",
    )


def _layers(refit: Refit) -> tuple[tuple[str, ...], ...]:
    rows = []
    for layer in refit.layers:
        material = layer.material
        conducts = material.conductivity_w_mk
        rows.append(
            (
                f"{layer.number}",
                material.name,
                f"{layer.thickness_mm:.1f}",
                "-" if conducts is None else f"{conducts:g}",
                f"{refit.area_m2(layer):.2f}",
                layer.layer.lie.words,
                str(material.source),
            )
        )
    return tuple(rows)


def _lines(roof: Roof) -> tuple[tuple[str, ...], ...]:
    facets = tuple(
        (
            "facet",
            facet.name,
            f"{facet.pitch_deg:.2f}",
            f"{facet.slope_length_mm:.1f}",
            f"{facet.area_m2:.3f}",
        )
        for facet in roof.facets
    )
    lines = tuple(
        (
            line.kind.value,
            " ".join(line.facets),
            f"{line.pitch_deg:.2f}",
            f"{line.length_mm:.1f}",
            "",
        )
        for line in roof.lines
    )
    return (*facets, *lines)
