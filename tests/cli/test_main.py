"""The list of commands is true of the commands, and is printed without loading any of them."""

import json
import subprocess
import sys

import pytest

from roofmodel.cli import commands

EVERY_JOB = {"numpy", "pydantic", "shapely"}
"""What opening and reckoning a job takes; most of the time a command needs to start."""

TABLE = {"openpyxl", "PIL"}  # the workbook library loads the pictures' one
SOLVERS = {"scipy.linalg", "scipy.optimize", "scipy.special"}
SOLID = {"trimesh", "networkx", "PIL"} | SOLVERS  # trimesh loads the rest
CUTTING_PAPERS = TABLE | {"ezdxf", "reportlab", "segno", "sqlite3"}
WINDOW = {"PySide6", "pyvista", "pyvistaqt", "vtkmodules"}
WATCHED = EVERY_JOB | CUTTING_PAPERS | SOLID | WINDOW | {"ifcopenshell", "distributed"}

LOADED_BY = {
    "check": EVERY_JOB,
    "facts": EVERY_JOB,
    "cut": EVERY_JOB | CUTTING_PAPERS,
    "takeoff": EVERY_JOB | TABLE,
    "gates": EVERY_JOB | TABLE | {"reportlab"},
    "papers": EVERY_JOB | CUTTING_PAPERS,
    "revisions": EVERY_JOB | TABLE,
    "verify": EVERY_JOB | CUTTING_PAPERS,
    "offer": EVERY_JOB | TABLE | {"reportlab"},
    "lines": EVERY_JOB,
    "release": EVERY_JOB | CUTTING_PAPERS,
    "estimate": EVERY_JOB | TABLE,
    "together": EVERY_JOB | CUTTING_PAPERS,
    "rack": EVERY_JOB | {"sqlite3"},
    "batch": EVERY_JOB | TABLE,
    "handover": EVERY_JOB | TABLE | {"PIL", "reportlab"},
    "actuals": EVERY_JOB | TABLE,
    "catalogue": EVERY_JOB,
    "prices": EVERY_JOB | TABLE,  # lists come and go as workbooks too
    "firm": EVERY_JOB | {"PIL"},  # a logo is looked at before it is taken
    "template": EVERY_JOB,
    "picture": EVERY_JOB | {"PIL"},  # solid scenes are written as photographs are
    # Files are looked at before they are taken; what is printed of them is made for pages.
    "photo": EVERY_JOB | {"PIL", "reportlab"},
    "backup": EVERY_JOB | {"sqlite3"},
    "restore": EVERY_JOB | {"sqlite3"},
    "window": EVERY_JOB,
    "sheet": EVERY_JOB | {"PIL", "reportlab"},
    "export": EVERY_JOB | SOLID,
    "schema": EVERY_JOB,
}
"""What a command may load before it does anything; less is welcome, more needs a reason."""

LOOK = """
import json, os, sys, tempfile
from roofmodel.cli import commands, main

watched = json.loads(sys.argv[1])

def loaded(act):
    # A process of its own for each, so that none finds what another has loaded.
    with tempfile.TemporaryFile() as told:
        child = os.fork()
        if not child:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            act()
            told.write(json.dumps([name for name in watched if name in sys.modules]).encode())
            told.flush()
            os._exit(0)
        assert os.waitpid(child, 0)[1] == 0
        told.seek(0)
        return json.loads(told.read())

def run(*words):
    return lambda: main.run(words, open_window=lambda path: 0)

job = "sample_roofs/lean-to.roofjob.json"
found = {"--help": loaded(run("--help")), "a mistyped command": loaded(run("chekc"))}
found["check, run"] = loaded(run("check", job))
found["facts, run"] = loaded(run("facts", job))
taped = "sample_roofs/surveyed-lean-to.roofjob.json"
found["check of readings, run"] = loaded(run("check", taped))
import roofmodel.cli.check  # what every other command loads too, loaded once for all of them
found |= {entry.name: loaded(entry.load) for entry in commands.ENTRIES}
print(json.dumps(found))
"""


@pytest.fixture(scope="module")
def loaded():
    """Return what each command loads: its module alone, and some commands as they are run."""
    ended = subprocess.run(
        [sys.executable, "-c", LOOK, json.dumps(sorted(WATCHED))], capture_output=True, text=True
    )
    assert ended.returncode == 0, ended.stderr
    return {name: set(found) for name, found in json.loads(ended.stdout).items()}


@pytest.mark.parametrize("entry", commands.ENTRIES, ids=lambda entry: entry.name)
def test_the_list_says_of_each_command_what_the_command_says_of_itself(entry):
    found = entry.load()

    assert found.name == entry.name
    assert (found.help or "").splitlines()[0] == entry.sentence


def test_the_list_of_commands_and_a_mistyped_one_load_no_library_of_the_work(loaded):
    assert loaded["--help"] == set()
    assert loaded["a mistyped command"] <= {"pydantic"}  # what typer itself reads options with


def test_a_command_loads_only_the_libraries_it_is_known_to_need(loaded):
    more = {name: loaded[name] - allowed for name, allowed in LOADED_BY.items()}

    assert sorted(LOADED_BY) == sorted(entry.name for entry in commands.ENTRIES)
    assert {name: found for name, found in more.items() if found} == {}


def test_checking_and_figures_of_a_job_load_nothing_more_while_they_run(loaded):
    assert loaded["check, run"] == loaded["facts, run"] == EVERY_JOB
    assert loaded["check of readings, run"] == EVERY_JOB  # none of scipy's parts for a fit


def test_a_library_that_a_command_does_need_is_seen(loaded):
    """Otherwise the tests above look for the wrong names."""
    assert "ezdxf" in loaded["cut"]
    assert "trimesh" in loaded["export"]
