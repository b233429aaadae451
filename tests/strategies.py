"""Random input for laws that hold of every roof."""

from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd

sizes_mm = st.floats(1500, 8000)
pitches_deg = st.floats(3, 60)


def _buildable(shape, **fields):
    try:
        return shape(**fields)
    except DimensionError:
        return None


def _of(shape, **fields):
    return (
        st.fixed_dictionaries({"width_mm": sizes_mm, "projection_mm": sizes_mm, **fields})
        .map(lambda values: _buildable(shape, **values))
        .filter(lambda made: made is not None)
    )


shapes = st.one_of(
    _of(LeanTo, pitch_deg=pitches_deg),
    _of(Gable, left_pitch_deg=pitches_deg, right_pitch_deg=pitches_deg),
    _of(
        Hipped,
        left_pitch_deg=pitches_deg,
        front_pitch_deg=pitches_deg,
        right_pitch_deg=pitches_deg,
    ),
    _of(PolygonalEnd, pitch_deg=pitches_deg, end_facets=st.sampled_from([3, 5])),
)
