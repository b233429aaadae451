"""The page in 3D, opened in a browser without a window where there is one."""

import re
import shutil
import subprocess

import pytest

from roofmodel.drawings.pictures import roof_page
from roofmodel.drawings.pictures.roof_page import Shown
from roofmodel.drawings.scenes import looks
from roofmodel.refit.method import Method
from tests.drawings.scenes.sites import refitted, site_of

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)
needs_browser = pytest.mark.skipif(
    BROWSER is None, reason="no Chromium on this machine (Debian, Ubuntu: apt install chromium)"
)
DRAWS = ("--use-angle=swiftshader", "--enable-unsafe-swiftshader")


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    site = site_of("five-facet-end")
    tiled = refitted("five-facet-end", Method.BUILD_ROUND)
    path = tmp_path_factory.mktemp("page") / "roof.html"
    words = roof_page.content(
        site.roof,
        "J04 </script> & more",
        [
            Shown(name="As it is now", bodies=looks.as_it_stands(site)),
            Shown(name="Build round the bars", bodies=looks.finished(tiled)),
        ],
    )
    path.write_text(words, encoding="utf-8")
    return path


def opened(page, profile, *more):
    """Return the page as the browser has made it, and what it complained of."""
    done = subprocess.run(
        [
            BROWSER,
            "--headless",
            "--no-sandbox",
            f"--user-data-dir={profile}",
            "--host-resolver-rules=MAP * ~NOTFOUND",
            "--enable-logging=stderr",
            "--virtual-time-budget=3000",
            *more,
            "--dump-dom",
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    return done.stdout, [line for line in done.stderr.splitlines() if "CONSOLE" in line]


def test_a_title_cannot_break_the_page(page):
    words = page.read_text(encoding="utf-8")

    assert "J04 &lt;/script&gt; &amp; more" in words
    assert words.count("</script>") == 1


def test_the_page_forbids_itself_the_network_and_can_be_sent_by_mail(page):
    words = page.read_text(encoding="utf-8")

    assert "default-src 'none'" in words
    assert not re.search(r"(src|href)=[\"']?(https?:)?//", words)
    assert page.stat().st_size < 3_000_000


@needs_browser
@pytest.mark.parametrize("size", ["1280,800", "390,844"], ids=["desk", "phone"])
def test_a_browser_draws_the_roof_without_a_network_or_a_complaint(page, tmp_path, size):
    words, complaints = opened(page, tmp_path, *DRAWS, f"--window-size={size}")

    assert re.search(r'data-drawn="7"', words)
    assert re.search(r"aria-pressed=.true.>Build round the bars<", words)
    assert complaints == []


@needs_browser
def test_a_browser_that_draws_nothing_in_space_shows_the_figures(page, tmp_path):
    words, _ = opened(page, tmp_path, "--disable-3d-apis")

    assert "This browser draws no roofs in space." in words
    assert f"{site_of('five-facet-end').roof.area_m2:.2f} m²" in words
    assert '<section id="plain">' in words
