"""The page in 3D, opened in a browser without a window where there is one."""

import re
import shutil
import subprocess

import pytest

from roofmodel.drawings.pictures import roof_page
from tests import acceptance_jobs

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)


@pytest.fixture
def page(tmp_path):
    job = acceptance_jobs.drawn("J04")
    path = tmp_path / "roof.html"
    words = roof_page.content(job.roof, "J04 </script> & more", members=job.members)
    path.write_text(words, encoding="utf-8")
    return path


def test_a_title_cannot_break_the_page(page):
    words = page.read_text(encoding="utf-8")

    assert "J04 &lt;/script&gt; &amp; more" in words
    assert words.count("</script>") == 1


@pytest.mark.skipif(
    BROWSER is None, reason="no Chromium on this machine (Debian, Ubuntu: apt install chromium)"
)
def test_a_browser_draws_every_facet_without_a_network(page, tmp_path):
    done = subprocess.run(
        [
            BROWSER,
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            f"--user-data-dir={tmp_path / 'profile'}",
            "--host-resolver-rules=MAP * ~NOTFOUND",
            "--dump-dom",
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )

    assert re.search(r'data-drawn="5"', done.stdout)
