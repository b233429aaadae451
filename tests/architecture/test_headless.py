"""The whole program but its window runs where Qt and VTK are not installed."""

import subprocess
import sys

NO_SCREEN_LIBRARIES = """
import importlib, pkgutil, sys
for name in ("PySide6", "shiboken6", "qtpy", "pyvista", "pyvistaqt", "vtk", "vtkmodules"):
    sys.modules[name] = None
import roofmodel
imported = []
for module in pkgutil.walk_packages(roofmodel.__path__, "roofmodel."):
    if not module.name.startswith("roofmodel.desktop"):
        importlib.import_module(module.name)
        imported.append(module.name)
"""


def run(script):
    return subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)


def test_everything_but_the_window_imports_without_qt_and_vtk():
    ended = run(NO_SCREEN_LIBRARIES + "print('roofmodel.cli.main' in imported)")

    assert ended.returncode == 0, ended.stderr
    assert ended.stdout.strip() == "True"


def test_the_window_does_need_them():
    """Otherwise the test above takes away the wrong names."""
    ended = run(NO_SCREEN_LIBRARIES + "import roofmodel.desktop.main_window")

    assert ended.returncode != 0
    assert "PySide6" in ended.stderr
