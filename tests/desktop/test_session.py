"""What is loaded to show the window: each library when it is first wanted, none before."""

import subprocess
import sys

import pytest

pytestmark = pytest.mark.desktop

LATER = ("trimesh", "reportlab", "ezdxf", "pypdfium2", "ifcopenshell", "scipy.spatial")


def test_the_window_starts_without_the_libraries_of_its_exports():
    """Found: three seconds of processor time for the colours of layers, through trimesh."""
    said = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, roofmodel.desktop.session; "
            f"print([name for name in {LATER!r} if name in sys.modules])",
        ],
        capture_output=True,
        text=True,
        check=True,
    )

    assert said.stdout.strip() == "[]"
