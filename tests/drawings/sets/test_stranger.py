"""Papers changed by hand: what is wrong is named with sheet, piece and millimetres."""

import shutil

import ezdxf
import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.sets import stranger
from roofmodel.foundation.errors import DrawingError
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set, verified_papers
from tests import acceptance_jobs


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    drawn = acceptance_jobs.drawn("J04")
    plans = reckoning.cut(drawn, effort=Effort.QUICK)
    folder = tmp_path_factory.mktemp("papers") / "J04"
    whole = paper_set.gather(drawn, drawn.option, plans)
    paper_set.write(whole, folder, cutting_only=True)
    saws = {one.short_in_files: (one.good.kerf_mm, one.good.trim_mm) for one in whole.plans}
    return drawn, folder, saws


@pytest.fixture
def folder(written, tmp_path):
    return shutil.copytree(written[1], tmp_path / "J04")


def changed(folder, ending, *exchanges):
    (path,) = folder.rglob(f"*{ending}")
    text = path.read_text(encoding="utf-8-sig")
    for old, new in exchanges:
        assert old in text
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8-sig")


def found(folder, saws):
    return stranger.faults(stranger.read(folder, saws))


def test_papers_as_written_are_what_the_roof_needs(written):
    drawn, folder, _ = written
    seen = verified_papers.verify(folder, drawn, effort=Effort.QUICK)

    assert seen.faults == ()
    assert seen.pieces > 20


def test_an_outline_moved_on_a_sheet_is_named_with_its_millimetres(written, folder):
    path = min(folder.rglob("*OSB18-sheet-01.dxf"))
    drawing = ezdxf.readfile(path)
    loop = next(
        one for one in drawing.modelspace().query("LWPOLYLINE") if one.dxf.layer.endswith("-E-DRF")
    )
    loop.translate(4.0, 0.0, 0.0)
    drawing.saveas(path)

    assert any(
        "OSB18 sheet-01: J04-" in fault and "is drawn 4.0 mm off" in fault
        for fault in found(folder, written[2])
    )


def test_an_outline_taken_away_or_drawn_twice_is_seen(written, folder):
    path = min(folder.rglob("*OSB18-sheet-01.dxf"))
    drawing = ezdxf.readfile(path)
    space = drawing.modelspace()
    loop = next(one for one in space.query("LWPOLYLINE") if one.dxf.layer.endswith("-E-DRF"))
    space.add_entity(loop.copy())
    drawing.saveas(path)
    faults = found(folder, written[2])
    assert any("1 outlines are drawn that no piece" in fault for fault in faults)
    assert any("two pieces are 0.0 mm apart" in fault for fault in faults)

    path.unlink()
    assert any("there is no drawing" in fault for fault in found(folder, written[2]))


def test_a_piece_of_another_size_hand_or_bevel_is_seen_against_the_job(written, folder):
    drawn, _, saws = written
    listed = stranger.read(folder, saws).pieces
    bevelled = next(one for one in listed if one.bevels_deg and one.hand == "L")
    (path,) = folder.rglob("*-cut-list.csv")
    lines = path.read_text(encoding="utf-8-sig").splitlines()
    row = next(i for i, line in enumerate(lines) if line.startswith(bevelled.mark))
    lines[row] = lines[row].replace(",L,", ",R,", 1).replace("undercut", "overcut", 1)
    gone = next(i for i, line in enumerate(lines[1:], 1) if i != row)
    mark = lines.pop(gone).split(",")[0]
    path.write_text("\n".join(lines), encoding="utf-8-sig")

    faults = verified_papers.verify(folder, drawn, effort=Effort.QUICK).faults
    assert f"{mark} is missing." in faults
    assert any(bevelled.mark in fault and "bevel" in fault for fault in faults)
    assert any(bevelled.mark in fault and "listed as R and marked L" in fault for fault in faults)


def test_a_wider_saw_is_not_kept_clear_of(written, folder):
    wide = {short: (kerf + 2.0, trim) for short, (kerf, trim) in written[2].items()}
    assert any("the saw takes 5 mm" in fault for fault in found(folder, wide))


def test_another_revision_and_a_folder_of_something_else_are_refused(written, folder, tmp_path):
    other = acceptance_jobs.drawn("J04", revision="B")
    with pytest.raises(DrawingError, match="papers of J04 revision A"):
        verified_papers.verify(folder, other, effort=Effort.QUICK)
    with pytest.raises(DrawingError, match="Name a folder of papers"):
        verified_papers.verify(tmp_path, written[0], effort=Effort.QUICK)
    changed(folder, "-cut-list.csv", ("Bevels [side", "Slopes [side"))
    with pytest.raises(DrawingError, match="not a cut list as it was written"):
        found(folder, written[2])
