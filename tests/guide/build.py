"""Builds the user's guide: `./run guide` turns docs/*.md into pages, with pictures made here.

Every command in the pages is run, one after the other, in a folder of its own; what those marked
``show`` print stands below them, and pictures are what they wrote. Ends with 1 when a command does.
"""

import html
import io
import os
import re
import shlex
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import chdir, redirect_stdout
from dataclasses import dataclass
from pathlib import Path

import pypdfium2
from markdown_it import MarkdownIt

CHECKOUT = Path(__file__).resolve().parents[2]
DOCS = CHECKOUT / "docs"
PAGES = ("index", "roof", "survey", "cutting", "offer", "window", "validation", "measured")
OUT = CHECKOUT / "build" / "guide"

_FENCE = re.compile(r"^```sh(?P<show> show)?\n(?P<lines>.*?)^```\n", re.MULTILINE | re.DOTALL)
_PICTURE = re.compile(r"!\[(?P<words>[^\]]*)\]\((?P<place>[^)]+)\)")
_WIDTH_PX = 900
_OWN_FOLDERS = ("ROOFMODEL_RACK", "ROOFMODEL_FIRM")


class GuideError(Exception):
    """A command of the guide failed, or a picture is missing."""


@dataclass(frozen=True)
class Command:
    """One line of a page that starts with ./run."""

    page: str
    words: tuple[str, ...]
    shown: bool


def commands(page: str, text: str) -> list[Command]:
    """Return the commands of a page in their order."""
    return [
        Command(page, tuple(shlex.split(line)[1:]), found["show"] is not None)
        for found in _FENCE.finditer(text)
        for line in found["lines"].splitlines()
        if line.startswith("./run ")
    ]


def texts() -> dict[str, str]:
    """Return the pages as they are written, in the order of the guide; made ones only if there."""
    files = {page: DOCS / f"{page}.md" for page in PAGES}
    return {page: file.read_text(encoding="utf-8") for page, file in files.items() if file.exists()}


def printed(command: Command) -> str:
    """Run a command where we stand, and return what it prints."""
    from roofmodel.cli import main

    said = io.StringIO()
    with redirect_stdout(said):
        code = main.run(command.words, open_window=lambda _: 0)
    if code:
        raise GuideError(f"{command.page}: ./run {shlex.join(command.words)} ended with {code}")
    return said.getvalue()


def with_output(page: str, text: str) -> str:
    """Return a page with what its commands print below those that are to show it."""

    def told(found: re.Match[str]) -> str:
        said = [printed(one) for one in commands(page, found[0])]
        block = f"```sh\n{found['lines']}```\n"
        return f"{block}\n```text\n{''.join(said)}```\n" if found["show"] else block

    return _FENCE.sub(told, text)


def with_pictures(page: str, text: str, out: Path, draw_window: Callable[[Path], None]) -> str:
    """Return a page whose pictures lie beside it: files the commands wrote, or pages of a PDF."""

    def shown(found: re.Match[str]) -> str:
        words = re.sub(r"[^\w]+", "-", found["place"].removesuffix(".png").replace("*", ""))
        target = out / f"{page}-{words}.png"
        if found["place"] == "window.png":
            draw_window(target)
        else:
            _put_picture(page, found["place"], target)
        return f"![{found['words']}]({target.name})"

    return _PICTURE.sub(shown, text)


def _put_picture(page: str, place: str, target: Path) -> None:
    pattern, _, number = place.partition("#")
    files = sorted(Path().glob(pattern))
    if not files:
        raise GuideError(f"{page}: no command has written the picture {pattern}")
    if len(files) > 1:
        raise GuideError(f"{page}: {pattern} names {len(files)} files; a picture is one")
    if not number:
        shutil.copyfile(files[0], target)
        return
    with pypdfium2.PdfDocument(files[0]) as document:
        sheet = document[int(number) - 1]
        sheet.render(scale=_WIDTH_PX / sheet.get_width()).to_pil().save(target)


_STYLE = """
body { font: 16px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem;
  color: #2b2f36; background: #fff }
nav a { margin-right: 1rem } img { max-width: 100%; border: 1px solid #d5d8dc }
pre { background: #f4f4f1; padding: .8rem; overflow-x: auto; font-size: .8rem; line-height: 1.3 }
table { border-collapse: collapse; font-size: .9rem } th, td { border: 1px solid #d5d8dc;
  padding: .2rem .6rem; text-align: left; vertical-align: top }
"""


def html_page(page: str, text: str, titles: dict[str, str]) -> str:
    """Return a page as HTML, with the way to the others on top."""
    body = MarkdownIt("commonmark").enable("table").render(text)
    body = re.sub(r'href="(\w+)\.md"', r'href="\1.html"', body)
    ways = " ".join(
        f'<a href="{name}.html">{html.escape(title)}</a>' for name, title in titles.items()
    )
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f"<title>{html.escape(titles[page])}</title><style>{_STYLE}</style></head>\n"
        f"<body><nav>{ways}</nav>\n{body}</body></html>\n"
    )


def title(text: str) -> str:
    """Return the heading of a page."""
    return text.partition("\n")[0].removeprefix("# ")


def build(
    pages: dict[str, str], out: Path, *, draw_window: Callable[[Path], None]
) -> Iterator[Path]:
    """Write every page into a folder, and give each when it is written.

    Raises
    ------
    GuideError
        If a command ends with anything but 0, or a picture is not there.
    """
    out.mkdir(parents=True, exist_ok=True)
    titles = {page: title(text) for page, text in pages.items()}
    with tempfile.TemporaryDirectory() as work, chdir(work):
        shutil.copytree(CHECKOUT / "sample_roofs", "sample_roofs")
        os.environ |= dict.fromkeys(_OWN_FOLDERS, str(Path(work) / "own"))
        for page, text in pages.items():
            whole = with_pictures(page, with_output(page, text), out, draw_window)
            file = out / f"{page}.html"
            file.write_text(html_page(page, whole, titles), encoding="utf-8")
            yield file


def main() -> int:
    """Build the guide into build/guide, with the page of what the program was held against."""
    sys.path.insert(0, str(CHECKOUT))
    from tests.guide import validation, window_picture

    pages = texts()
    pages["validation"] = validation.page()
    in_order = {page: pages[page] for page in PAGES if page in pages}
    for file in build(in_order, OUT, draw_window=window_picture.draw):
        sys.stdout.write(f"{file}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
