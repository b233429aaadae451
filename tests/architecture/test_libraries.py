"""A library that may be changed for another stands in as few files as it needs; time in none."""

import ast
from pathlib import Path

import pytest

import roofmodel

PACKAGE = Path(roofmodel.__path__[0])
HOMES = {
    "packingsolver": {
        "cutting/lengths/nest.py", "cutting/nesting/solver.py", "cutting/rack/nest.py",
    },  # one for each kind of problem it solves
    "sqlite3": {"storage/rack.py", "storage/rack_rows.py", "storage/rack_schema.py"},
    "openpyxl": {
        "buildups/prices/workbook.py",
        "drawings/lists/supplier_order.py", "drawings/lists/take_off_list.py",
        "drawings/offer/offer_book.py",
    },
    "segno": {"drawings/lists/label.py"},
    "holidays": {"programme/working_days.py"},
    "PIL": {"drawings/pictures/photo.py", "photographs/photo_file.py"},
    "cv2": {"photographs/vision.py"},
    "pi_heif": {"photographs/photo_file.py"},
    "psutil": {"storage/autosave.py"},
    "ifcopenshell": {"drawings/models/ifc_file.py"},
    "distributed": {"workbench/many/batch_cluster.py"},
    "multiprocessing": {"workbench/job/planner.py", "workbench/many/batch_pool.py"},
    "time": {"foundation/clock.py"},
}  # fmt: skip
CLOCKS = {"date.today", "datetime.now", "datetime.today"}
CLOCK = "foundation/clock.py"


def imported(tree):
    """Yield the library of every import, wherever it stands in the file."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (one.name.partition(".")[0] for one in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module.partition(".")[0]


def asks_the_day(tree):
    """Return whether the date or the hour is asked for."""
    found = (ast.unparse(node) for node in ast.walk(tree) if isinstance(node, ast.Attribute))
    return any(words in CLOCKS for words in found)


@pytest.fixture(scope="module")
def modules():
    """By file: the libraries it imports, and whether it asks for the day."""
    found = {}
    for path in PACKAGE.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        found[path.relative_to(PACKAGE).as_posix()] = set(imported(tree)), asks_the_day(tree)
    return found


@pytest.mark.parametrize("library", HOMES)
def test_a_library_stands_in_its_own_files_and_in_no_other(library, modules):
    found = {name for name, (libraries, _) in modules.items() if library in libraries}

    assert found == HOMES[library]


def test_the_day_is_asked_for_in_one_file(modules):
    assert {name for name, (_, asks) in modules.items() if asks} == {CLOCK}


def test_what_computes_never_asks_the_clock():
    """Equal entries give equal figures and files: day and time spent are for the caller to tell."""
    asking = {
        path.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*.py")
        if "from roofmodel.foundation import clock" in path.read_text(encoding="utf-8")
    }

    assert {name for name in asking if not name.startswith(("cli/", "desktop/"))} == {
        "workbench/many/batch.py"  # tells of every job of a folder how long it took
    }


def test_a_clock_that_is_read_would_be_seen():
    assert asks_the_day(ast.parse("from datetime import date\nstart = date.today()"))
    assert list(imported(ast.parse("def f():\n    import time"))) == ["time"]


TESTS = Path(__file__).resolve().parents[1]


def test_no_test_reads_the_clock():
    """Speeds are measured by the benchmarks; a busy machine is no fault of the code."""
    words = {"perf_counter", "monotonic", "process_time", "thread_time", "perf_counter_ns"}
    trees = {
        path.relative_to(TESTS).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in TESTS.rglob("*.py")
        if "benchmarks" not in path.parts
    }
    reading = {
        name
        for name, tree in trees.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and node.attr in words
    }

    assert reading == set()
    assert {name for name, tree in trees.items() if asks_the_day(tree)} == set()
