import pytest

from roofmodel.drawings.dxf import dxf_pen
from roofmodel.drawings.dxf.dxf_pen import DxfDrawing
from roofmodel.drawings.paper import layer, page
from roofmodel.drawings.paper.page import TitleBlock
from roofmodel.drawings.sheets import cutting_sheet
from roofmodel.foundation.errors import DrawingError
from tests.drawings import drawn

CORNERS = [(0.0, 0.0), (1220.1 + 1220.2, 0.0), (2440.3, 1220.0)]


def written(path):
    drawing = DxfDrawing()
    drawing.model.outline(CORNERS, layer=layer.cut("27OSB"))
    drawing.model.line([(0.0, 0.0), (100.0, 0.0)], layer=layer.bevel("27OSB"))
    drawing.model.text(
        "J04", (10.0, 20.0), height_mm=40.0, turn_deg=90.0, layer=layer.mark("27OSB")
    )
    page.draw(TitleBlock((("Job", "J04"),), ("A note.",)), drawing.page)
    drawing.look_at((0.0, 0.0), (2440.0, 1220.0))
    drawing.show_on_page((0.0, 0.0), (2440.0, 1220.0), scale=10.0)
    drawing.save(path)
    return path


def test_what_is_drawn_is_read_back_by_layer(tmp_path):
    found = dxf_pen.read_back(written(tmp_path / "a.dxf"))

    assert (found.version, found.unit_code, found.faults) == ("AC1024", 4, ())
    (loop,) = found.loops["W-27OSB-E-CUT"]
    assert loop.tolist() == [[0.0, 0.0], [2440.3, 0.0], [2440.3, 1220.0]]
    assert found.open_lines == {"W-27OSB-E-BVL": 1}
    assert found.texts == ("J04", "Job", "J04", "A note.")
    assert "0" not in found.layers


def test_the_same_drawing_gives_the_same_bytes(tmp_path):
    assert written(tmp_path / "a.dxf").read_bytes() == written(tmp_path / "b.dxf").read_bytes()


def test_words_are_in_a_single_stroke_font_and_figures_without_dust(tmp_path):
    text = written(tmp_path / "a.dxf").read_text(encoding="utf-8")

    assert "txt.shx" in text
    assert "0000000" not in "".join(line for line in text.splitlines() if line.startswith("2440"))


def test_a_whole_sheet_holds_only_plain_lines_and_texts(tmp_path):
    (sheet, *_) = drawn.sheets_of(drawn.roof_of())
    drawing = DxfDrawing()
    cutting_sheet.draw(sheet, drawing.model)
    drawing.save(tmp_path / "a.dxf")

    lines = (tmp_path / "a.dxf").read_text(encoding="utf-8").splitlines()
    entities = lines[lines.index("ENTITIES") : lines.index("OBJECTS")]
    kinds = {
        line
        for code, line in zip(entities[1::2], entities[2::2], strict=False)
        if code.strip() == "0"
    }
    assert kinds == {"LWPOLYLINE", "TEXT", "VIEWPORT", "ENDSEC", "SECTION"}


def test_a_file_that_is_no_drawing_is_refused_by_name(tmp_path):
    (tmp_path / "a.dxf").write_text("nothing of the kind")

    with pytest.raises(DrawingError, match=r"a\.dxf cannot be read back"):
        dxf_pen.read_back(tmp_path / "a.dxf")


def test_a_folder_that_is_not_there_is_refused_in_plain_words(tmp_path):
    with pytest.raises(DrawingError, match=r"a\.dxf could not be written"):
        DxfDrawing().save(tmp_path / "nowhere" / "a.dxf")
