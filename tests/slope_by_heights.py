"""A pitch from two heights over a run, by first order, as the trade paper works it by hand."""

import math

from roofmodel.survey.fit.pitch_routes import PitchRoute


def by_heights(rise_mm, run_mm, *, height_error_mm, run_error_mm=0.0):
    """Return the pitch from two heights, each good to ``height_error_mm``, over a run [mm]."""
    slope = math.atan2(rise_mm, run_mm)
    by_rise = math.cos(slope) ** 2 / run_mm * math.sqrt(2.0) * height_error_mm
    by_run = math.sin(slope) * math.cos(slope) / run_mm * run_error_mm
    return PitchRoute(
        name="heights over run",
        pitch_deg=math.degrees(slope),
        standard_error_deg=math.degrees(math.hypot(by_rise, by_run)),
    )
