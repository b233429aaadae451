"""Writes the roof of a job as a 3D model file, by the ending of the file's name."""

from pathlib import Path

from roofmodel.drawings import model_file
from roofmodel.foundation.errors import DrawingError
from roofmodel.storage import safe_write
from roofmodel.workbench.reckoning import Drawn

IFC_ENDING = ".ifc"
ENDINGS = (*model_file.ENDINGS, IFC_ENDING)
"""Endings a model can be written with."""

SLAB_MM = 18.0
"""Thickness of an IFC slab where the job chooses no deck."""


def write(drawn: Drawn, path: Path) -> None:
    """Write a model; the file is whole or the one from before.

    Raises
    ------
    DrawingError
        If the ending is unknown, or the library for IFC is not installed.
    JobFileError
        If it cannot be written.
    """
    safe_write.replace_bytes(path, _content(drawn, path.suffix.lower()))


def _content(drawn: Drawn, ending: str) -> bytes:
    if ending != IFC_ENDING:
        if ending not in model_file.ENDINGS:
            known = ", ".join(ENDINGS)
            raise DrawingError(f"“{ending}” is not a model format. Use one of {known}.")
        return model_file.content(drawn.roof, ending)
    try:
        from roofmodel.drawings import ifc_file
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
