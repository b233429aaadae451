"""Writes the roof of a job as a 3D model file, by the ending of the file's name."""

from pathlib import Path

from roofmodel.drawings.models import model_file
from roofmodel.drawings.models.model_file import Part
from roofmodel.drawings.views import layer_style
from roofmodel.foundation.errors import DrawingError
from roofmodel.storage import safe_write
from roofmodel.workbench.job import layers
from roofmodel.workbench.job.reckoning import Drawn

IFC_ENDING = ".ifc"
ENDINGS = (*model_file.ENDINGS, IFC_ENDING)
"""Endings a model can be written with."""

SLAB_MM = 18.0
"""Thickness of an IFC slab where the job chooses no deck."""


def write(drawn: Drawn, path: Path, *, with_layers: bool = False) -> None:
    """Write a model, of the roof or of its sheet layers; the file is whole or the one from before.

    Raises
    ------
    DrawingError
        If the ending is unknown, or the library for IFC is not installed.
    JobFileError
        If it cannot be written.
    """
    safe_write.replace_bytes(path, _content(drawn, path.suffix.lower(), with_layers=with_layers))


def _content(drawn: Drawn, ending: str, *, with_layers: bool) -> bytes:
    if ending not in ENDINGS:
        known = ", ".join(ENDINGS)
        raise DrawingError(f"“{ending}” is not a model format. Choose one of {known}.")
    if ending != IFC_ENDING:
        return model_file.content(_parts(drawn, ending, with_layers=with_layers), ending)
    try:
        from roofmodel.drawings.models import ifc_file
    except ImportError as error:
        raise DrawingError(
            "IFC needs the optional library ifcopenshell, which is not installed. "
            "Install the extra “ifc”, or export glTF (.glb), STL or OBJ instead."
        ) from error
    decks = [good.thickness_mm for good in drawn.goods if good.layer == "deck"]
    return ifc_file.content(
        drawn.roof,
        job_code=drawn.job.code,
        title=drawn.job.title,
        thickness_mm=decks[0] if decks else SLAB_MM,
    )


def _parts(drawn: Drawn, ending: str, *, with_layers: bool) -> list[Part]:
    if with_layers:
        return [
            Part(
                f"{layer.placed.number} {layer.placed.material.short}",
                layer.body,
                layer_style.layer_colour(layer.placed.material.category),
            )
            for layer in layers.of_option(drawn.option)
        ]
    if ending == ".stl":
        return [model_file.closed_part(drawn.roof)]
    return model_file.skin_parts(drawn.roof)
