"""The list of commands is true of the commands, and is printed without loading any of them."""

import subprocess
import sys

import pytest

from roofmodel.cli import commands

LIBRARIES_OF = """
import sys
from roofmodel.cli import main
code = main.run(sys.argv[1:], open_window=lambda path: 0)
known = sys.stdlib_module_names | {"__main__"}
tops = {name.partition(".")[0] for name, module in list(sys.modules.items()) if module}
sys.stderr.write(" ".join(sorted(top for top in tops if top not in known)))
sys.exit(code)
"""


def libraries_of(*arguments):
    """Return which libraries a command has loaded when it ends."""
    ended = subprocess.run(
        [sys.executable, "-c", LIBRARIES_OF, *arguments], capture_output=True, text=True
    )
    assert ended.returncode == 0, ended.stderr
    return set(ended.stderr.split())


@pytest.mark.parametrize("entry", commands.ENTRIES, ids=lambda entry: entry.name)
def test_the_list_says_of_each_command_what_the_command_says_of_itself(entry):
    found = entry.load()

    assert found.name == entry.name
    assert (found.help or "").splitlines()[0] == entry.sentence
    assert found.callback or found.commands


def test_the_list_of_commands_loads_no_library_but_those_of_the_list():
    heavy = {"numpy", "scipy", "shapely", "pydantic", "ezdxf", "reportlab", "openpyxl", "trimesh"}
    found = libraries_of("--help")

    assert not found & (heavy | {"packingsolver", "PySide6", "pyvista", "vtkmodules", "PIL"})
    assert {"typer", "rich", "roofmodel"} <= found
