"""The build sheet in a real browser: it opens clean, prints well, is reached by keyboard and passes an accessibility check.

Needs Chromium and pdfinfo, which ``.ci/run`` installs. Without them these tests are skipped on a builder's machine, and fail where
CI=true, so that CI can never pass by not looking.
"""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from test_sheet import hostile_page

from buildlint import sheet
from buildlint.sheet import source

EXAMPLES = Path(__file__).parent.parent / "examples"
NAMES = ("flawed", "good", "half_filled", "inline_six", "measured")

CHROMIUM = next((found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), None)
LACKING = [what for what, there in (("Chromium (Debian: apt-get install chromium)", CHROMIUM),
                                    ("pdfinfo and pdftotext (Debian: apt-get install poppler-utils)", shutil.which("pdfinfo"))) if not there]

OPTIONS = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"]


@pytest.fixture(scope="module", autouse=True)
def tools():
    if LACKING:
        told = f"the browser tests need {' and '.join(LACKING)}"
        pytest.fail(told) if os.environ.get("CI") == "true" else pytest.skip(told)


@pytest.fixture(scope="module")
def browser(tools):
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, chromium_sandbox=False, args=OPTIONS)
        yield running
        running.close()


@pytest.fixture(scope="module")
def sheets(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sheets")
    paths = {}
    for name in NAMES:
        paths[name] = folder / f"{name}.html"
        paths[name].write_text(sheet.html(source.read(EXAMPLES / f"{name}.yaml")), encoding="utf-8")
    return paths


def opened(browser, path, **context):
    """(page, what it complained of, what it asked for beside itself)."""
    page = browser.new_context(**context).new_page()
    complaints, requests = [], []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("dialog", lambda dialog: (complaints.append(dialog.message), dialog.dismiss()))
    page.on("request", lambda request: requests.append(request.url))
    page.goto(path.as_uri())
    return page, complaints, [url for url in requests if url != path.as_uri()]


@pytest.mark.parametrize("name", NAMES)
def test_it_opens_from_disk_without_a_complaint_or_a_request(browser, sheets, name):
    page, complaints, requests = opened(browser, sheets[name])
    assert (complaints, requests) == ([], [])
    assert page.title().startswith("Build sheet: ") and page.locator("main h2").count() == 7
    # the policy lets the style through: a page without it would be black serif on white
    assert "system-ui" in page.evaluate("getComputedStyle(document.documentElement).fontFamily")
    page.context.close()


def test_hostile_text_does_nothing_in_a_browser(browser, tmp_path):
    path = tmp_path / "hostile.html"
    path.write_text(hostile_page(tmp_path), encoding="utf-8")
    page, complaints, requests = opened(browser, path)
    assert (complaints, requests) == ([], [])
    assert page.evaluate("document.scripts.length + document.images.length") == 0
    assert "<script>alert(1)</script>" in page.locator("h1").inner_text()
    page.context.close()


@pytest.mark.parametrize(("name", "scheme"), [*((name, "light") for name in NAMES), ("flawed", "dark"), ("half_filled", "dark")])
def test_an_accessibility_check_finds_nothing(browser, sheets, name, scheme):
    from axe_playwright_python.sync_playwright import Axe

    page, _, _ = opened(browser, sheets[name], color_scheme=scheme)
    found = Axe().run(page).response
    assert [(each["id"], each["nodes"][0]["html"][:120], len(each["nodes"])) for each in found["violations"]] == []
    assert {"color-contrast", "document-title", "html-has-lang", "svg-img-alt", "bypass"} <= {each["id"] for each in found["passes"]}
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_a_dark_screen_gets_a_dark_sheet(browser, sheets, name):
    shades = {}
    for scheme in ("light", "dark"):
        page, _, _ = opened(browser, sheets[name], color_scheme=scheme)
        shades[scheme] = [sum(map(int, re.findall(r"\d+", page.evaluate(f"getComputedStyle({what})")))) for what in (
            "document.documentElement).getPropertyValue('background-color'", "document.documentElement).getPropertyValue('color'",
            "document.querySelector('figure svg text')).getPropertyValue('fill'")]
        page.context.close()
    assert shades["light"][0] > 600 > 300 > shades["light"][1] and shades["light"][2] < 300
    assert shades["dark"][0] < 150 < 600 < shades["dark"][1] and shades["dark"][2] > 600


@pytest.mark.parametrize("name", ("half_filled", "measured"))
def test_the_keyboard_reaches_everything_that_can_be_used(browser, sheets, name):
    page, _, _ = opened(browser, sheets[name])
    wanted = page.evaluate("""() => {
        window.all = [...document.querySelectorAll('a[href], [tabindex="0"]')];
        return window.all.length }""")
    reached, seen = [], set()
    for _ in range(wanted):
        page.keyboard.press("Tab")
        at, outlined = page.evaluate("""() => [window.all.indexOf(document.activeElement),
            getComputedStyle(document.activeElement).outlineStyle !== 'none']""")
        assert outlined, f"what has the focus does not show it: {at}"
        reached.append(at)
        seen.add(at)
    assert reached == list(range(wanted)) and wanted >= 12
    page.context.close()


def test_the_skip_link_leads_past_the_navigation(browser, sheets):
    page, _, _ = opened(browser, sheets["measured"])
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "sheet"
    page.context.close()


def test_a_key_number_leads_to_how_it_came_about(browser, sheets):
    page, _, _ = opened(browser, sheets["measured"])
    page.locator("dl.key a", has_text="computed").first.click()
    assert page.locator("tr:target").count() == 1 and page.locator("tr:target").is_visible()
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_nothing_runs_off_a_narrow_screen(browser, sheets, name):
    page, _, _ = opened(browser, sheets[name], viewport={"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.context.close()


# (fewest, most) pages: a plan of a few lines is a short sheet, and a measured build still one for the bench, without the story
# of every number; both end with the signatures.
PAGES = {"half_filled": (6, 10), "measured": (16, 25)}


@pytest.mark.parametrize("paper", ("A4", "Letter"))
@pytest.mark.parametrize("name", PAGES)
def test_it_prints_to_the_pages_expected(browser, sheets, tmp_path, name, paper):
    page, _, _ = opened(browser, sheets[name])
    printed = tmp_path / "sheet.pdf"
    page.pdf(path=printed, format=paper, prefer_css_page_size=False)
    page.context.close()
    told = subprocess.run(["pdfinfo", printed], capture_output=True, text=True, check=True).stdout
    pages = int(re.search(r"Pages:\s+(\d+)", told).group(1))
    width = float(re.search(r"Page size:\s+([\d.]+)", told).group(1))
    assert width == pytest.approx({"A4": 595, "Letter": 612}[paper], abs=1)
    fewest, most = PAGES[name]
    assert fewest <= pages <= most
    texts = subprocess.run(["pdftotext", "-layout", printed, "-"], capture_output=True, text=True, check=True).stdout.split("\f")[:pages]
    assert all(len(text.split()) >= 8 for text in texts), [len(text.split()) for text in texts]
    assert "Reviewed by" in texts[-1] and "The build in one view" in texts[0]
    assert "Skip to the sheet" not in texts[0]
