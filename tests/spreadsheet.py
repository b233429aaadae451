"""A spreadsheet program that works a workbook out: LibreOffice, where it is installed.

Our workbooks hold formulas and no values, so what comes back was worked out by that program.
"""

import shutil
import subprocess

import openpyxl

PROGRAM = shutil.which("soffice") or shutil.which("libreoffice")
WHY_NOT = "LibreOffice is not installed (apt-get install libreoffice-calc-nogui)."


def recalculated(books, folder):
    """Return workbooks as the program saves them, by name, with the values of their cells.

    It is started once for all, because starting is most of the time it takes.
    """
    before, after = folder / "before", folder / "after"
    before.mkdir()
    for name, book in books.items():
        book.save(before / f"{name}.xlsx")
    subprocess.run(
        [
            PROGRAM,
            f"-env:UserInstallation={(folder / 'profile').as_uri()}",
            "--headless",
            "--convert-to",
            "xlsx:Calc MS Excel 2007 XML",
            "--outdir",
            after,
            *sorted(before.glob("*.xlsx")),
        ],
        check=True,
        capture_output=True,
        timeout=300,
    )
    return {name: openpyxl.load_workbook(after / f"{name}.xlsx", data_only=True) for name in books}
