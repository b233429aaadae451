"""The photograph that is worked on: its entry in the job, its camera, its pixels; no widget."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.foundation.errors import RoofModelError
from roofmodel.photographs import placing, seen
from roofmodel.photographs.corners import Corner
from roofmodel.photographs.entry import Click, PhotoEntry, Stage, Stroke
from roofmodel.photographs.placing import ClicksError, Placed
from roofmodel.photographs.seen import Seen
from roofmodel.photographs.vision import Pixels
from roofmodel.workbench.photos import album, drawn_in

FORM = "photos"

Spot = tuple[float, float]


class PhotoDesk:
    """Enters what is done to the photograph with one number of the open job."""

    def __init__(self, open_job: OpenJob) -> None:
        """Work on the first photograph, if there is one."""
        self._open_job = open_job
        self.place = 0
        self.pixels: Pixels | None = None
        self.placed: Placed | None = None
        self._read: tuple[Path, str] | None = None

    @property
    def photo(self) -> PhotoEntry | None:
        """The entry of the photograph; None where the job has none."""
        photos = self._open_job.job.photos
        return photos[self.place] if self.place < len(photos) else None

    @property
    def corners(self) -> tuple[Corner, ...]:
        """The corners of the roof that can be clicked."""
        drawn = self._open_job.drawn
        return () if drawn is None else drawn_in.corners_of(drawn)

    def read(self) -> str:
        """Read the photograph if it is another one than before; return why it cannot be shown."""
        photo, path = self.photo, self._open_job.path
        if photo is None or path is None:
            self.pixels, self._read = None, None
            return (
                "Add a photograph of the house: from the garden, with the whole roof and the walls "
                "in it."
            )
        wanted = (path, photo.file)
        if wanted != self._read:
            self.pixels, self._read = None, wanted
            try:
                self.pixels = drawn_in.picture(photo, path)
            except RoofModelError as error:
                return str(error)
        return "" if self.pixels is not None else f"The photograph {photo.file} cannot be read."

    def add(self, file: Path) -> None:
        """Copy a photograph beside the job and work on it; errors as `album.with_photo`."""
        path = self._open_job.path
        assert path is not None
        job = album.with_photo(self._open_job.job, path, file, caption="", stage=Stage.SURVEY)
        self.place = len(job.photos) - 1
        self._open_job.enter(job, form=FORM)

    def remove(self) -> None:
        """Take the photograph out of the job."""
        job = album.without(self._open_job.job, self.place)
        self.place = max(0, min(self.place, len(job.photos) - 1))
        self._open_job.enter(job, form=FORM)

    def change(self, photo: PhotoEntry, *, merge: object = None) -> None:
        """Enter the photograph otherwise."""
        job = album.changed(self._open_job.job, self.place, photo)
        self._open_job.enter(job, form=FORM, merge=merge)

    def with_click(self, corner: str, spot: Spot) -> PhotoEntry:
        """Return the entry with a corner clicked somewhere; the clicks keep their order."""
        photo = self.photo
        assert photo is not None
        click = Click(corner=corner, x_px=spot[0], y_px=spot[1])
        if corner in {one.corner for one in photo.clicks}:
            clicks = tuple(click if one.corner == corner else one for one in photo.clicks)
        else:
            clicks = (*photo.clicks, click)
        return replace(photo, clicks=clicks)

    def snapped(self, spot: Spot) -> Spot:
        """Return the corner of edges beside a spot, or the spot."""
        photo = self.photo
        if photo is None or self.pixels is None:
            return spot
        scale = photo.width_px / self.pixels.shape[1]
        x, y = drawn_in.snapped(self.pixels, (spot[0] / scale, spot[1] / scale))
        return x * scale, y * scale

    def take_away(self, corner: str) -> None:
        """Take the click on a corner away."""
        photo = self.photo
        assert photo is not None
        self.change(replace(photo, clicks=photo.without(corner)))

    def paint(self, spots: Sequence[Spot], *, width_px: float, fills: bool) -> None:
        """Enter a stroke of the brush."""
        photo = self.photo
        assert photo is not None
        stroke = Stroke(spots=tuple(spots), width_px=width_px, fills=fills)
        self.change(replace(photo, strokes=(*photo.strokes, stroke)))

    def fit(self, photo: PhotoEntry | None = None) -> str:
        """Find the camera, for an entry that need not be entered yet; return what is to be said."""
        wanted = photo or self.photo
        if wanted is None or not wanted.clicks:
            self.placed = None
            return "Click at least four corners of the roof that you can see well."
        try:
            self.placed = placing.place(wanted, self.corners, before=self.placed)
        except ClicksError as error:
            self.placed = None
            return str(error)
        return " ".join(self.placed.words)

    def sizes(self) -> tuple[Seen, ...]:
        """Return what the photograph sees of the roof; nothing while it has no camera."""
        photo, drawn = self.photo, self._open_job.drawn
        if photo is None or drawn is None or self.placed is None:
            return ()
        try:
            return seen.sizes(photo, self.corners, drawn.roof)
        except ClicksError:
            return ()

    def lines(self) -> list[tuple[Spot, Spot]]:
        """Return the lines of the roof as the camera sees them."""
        drawn = self._open_job.drawn
        if drawn is None or self.placed is None:
            return []
        camera = self.placed.camera
        lines = []
        for line in drawn.roof.lines:
            ends = (line.start, line.end)
            if (camera.depths(ends) > 0.0).all():
                (ax, ay), (bx, by) = camera.spots(ends)
                lines.append(((float(ax), float(ay)), (float(bx), float(by))))
        return lines
