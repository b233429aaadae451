"""The command that draws the roof in 3D."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.drawings.pictures import picture as roof_picture
from roofmodel.drawings.pictures import scene_picture
from roofmodel.drawings.pictures.viewpoint import Viewpoint
from roofmodel.drawings.scenes import lamps, looks
from roofmodel.drawings.scenes.lamps import Lamps
from roofmodel.drawings.scenes.looks import Look
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import MethodRefusedError


def picture(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.png", help="Picture to write")],
    *,
    look: Annotated[
        Look, typer.Option(help="Facets with pitches and areas, or the roof as a solid thing")
    ] = Look.FACETS,
    view: Annotated[
        Viewpoint, typer.Option(help="Where a solid roof is seen from")
    ] = Viewpoint.ABOVE,
    method: opening.MethodName = None,
    as_json: AsJson = False,
) -> None:
    """Draw the roof in 3D, in facets or as it will look; needs no display."""
    drawn = opening.drawn(job, as_json=as_json)
    if look is Look.FACETS:
        heading = drawn.job
        title = " · ".join(filter(None, (heading.code, heading.title)))
        roof_picture.draw(drawn.roof, out, title=title)
    else:
        before = looks.as_it_stands(drawn.site)
        option = drawn.option_of(opening.method(method, drawn))
        if option.refit is None and look is not Look.STANDING:
            raise MethodRefusedError(option.refusal)
        after = looks.finished(option.refit) if option.refit is not None else ()
        if look is Look.BOTH:
            scene_picture.draw_both(drawn.roof, before, after, out)
        else:
            lit = option.refit is not None and look is Look.FINISHED
            scene_picture.draw(
                drawn.roof,
                before if look is Look.STANDING else after,
                out,
                viewpoint=view,
                lamps=_lamps(option) if lit else lamps.NONE,
            )
    opening.say_written([out], as_json=as_json)


def _lamps(option: Option) -> Lamps:
    assert option.refit is not None
    spots = {report.facet: [one.spot for one in report.arranged] for report in option.lights}
    return lamps.in_ceiling(option.refit, spots)
