"""The report in a browser: on a phone and on a desk, by day and by night, in both languages, and on paper.

Pictures of all of it are left in $KERFBOOK_CACHE/pages for people to look at.
"""

import collections
import re

import pytest

import browser
import desk

CONTRAST = (desk.ROOT / "tests" / "python" / "contrast.js").read_text()
PAGES = desk.CACHE / "pages"
LEAST = 7.0


@pytest.fixture(scope="module")
def chromium():
    with browser.browser() as driver:
        yield driver


@pytest.fixture(scope="module", params=["en", "es"])
def language(request):
    return request.param


@pytest.fixture(scope="module")
def report(language, tmp_path_factory):
    folder = tmp_path_factory.mktemp("played")
    told = desk.document("demo", "--out", "out", "--language", language, cwd=folder)
    PAGES.mkdir(parents=True, exist_ok=True)
    return folder / told["report"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1200])
def test_shown(chromium, report, language, width, scheme):
    chromium.get_log("browser")
    browser.asked_for(chromium)
    browser.show(chromium, report, width, scheme)
    size = chromium.execute_script(
        "return [document.documentElement.scrollWidth, document.body.scrollWidth, window.innerWidth]")
    assert size[2] == width
    assert max(size[:2]) <= width, "no scrolling sideways"
    asked = browser.asked_for(chromium)
    assert asked and all(url.startswith(("file:", "data:")) for url in asked), asked
    assert chromium.execute_script("return performance.getEntriesByType('resource').map(e => e.name)") == []
    assert [entry for entry in chromium.get_log("browser") if entry["level"] in ("SEVERE", "WARNING")] == []
    browser.picture(chromium, PAGES / f"report-{language}-{width}-{scheme}.png")

    texts = chromium.execute_script(CONTRAST)
    assert len(texts) > 100, "texts are found"
    pale = [one for one in texts if one["ratio"] < LEAST]
    assert not pale, f"{len(pale)} of {len(texts)} texts are too pale: {pale[:5]}"


@pytest.fixture(scope="module")
def large_type():
    """A browser whose reader asks for type twice the usual size."""
    with browser.browser("--blink-settings=defaultFontSize=32") as driver:
        yield driver


@pytest.mark.parametrize("width", [360, 760, 1200])
def test_large_type(large_type, report, language, width):
    browser.show(large_type, report, width)
    assert large_type.execute_script("return getComputedStyle(document.documentElement).fontSize") == "32px"
    wide = large_type.execute_script(
        "return [...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 0.5)"
        ".map(e => [e.tagName, e.className.toString(), e.textContent.trim().slice(0, 40)])")
    assert large_type.execute_script("return document.documentElement.scrollWidth") <= width, wide[:5]
    browser.picture(large_type, PAGES / f"report-{language}-{width}-large.png")


def test_dark_is_dark(chromium, report):
    """What lies behind most texts is near black by night and near white by day."""
    usual = {}
    for scheme in ("dark", "light"):
        browser.show(chromium, report, 360, scheme)
        behind = [tuple(round(part) for part in one["behind"][:3]) for one in chromium.execute_script(CONTRAST)]
        usual[scheme] = collections.Counter(behind).most_common(1)[0][0]
    assert sum(usual["dark"]) < 150 < 600 < sum(usual["light"]), usual


def test_contrast_is_measured(chromium, tmp_path):
    """The measurement can fail, through HTML, opacity and drawn shapes."""
    page = tmp_path / "pale.html"
    page.write_text(
        "<!doctype html><html lang=en><body style='background:#fff'><p style='color:#767676'>grey</p>"
        "<p style='color:#000'>black</p><p style='color:#000;opacity:.3'>faint</p>"
        "<svg width=100 height=40><rect width=100 height=40 fill='#333'/><text x=10 y=20 fill='#000'>lost</text></svg>"
    )
    browser.show(chromium, page, 360)
    ratios = {one["text"]: one["ratio"] for one in chromium.execute_script(CONTRAST)}
    assert ratios["grey"] == pytest.approx(4.54, abs=0.02)
    assert ratios["black"] == pytest.approx(21, abs=0.01)
    assert ratios["faint"] < 3
    assert ratios["lost"] < 2


def test_structure(chromium, report, language):
    browser.show(chromium, report, 1200)
    assert chromium.execute_script("return document.documentElement.lang") == language
    levels = chromium.execute_script(
        "return [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map(h => Number(h.tagName[1]))")
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:])), f"a level is left out: {levels}"
    pictures = chromium.execute_script(
        "return [...document.querySelectorAll('svg')].map(s => [...s.children]"
        ".filter(c => c.tagName === 'title').map(c => c.textContent.trim()).join(''))")
    assert pictures and all(pictures), "every picture has a title"
    ids = chromium.execute_script("return [...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids)), "an id is used twice"
    dead = chromium.execute_script(
        "return [...document.querySelectorAll('a[href^=\"#\"]')].map(a => a.getAttribute('href').slice(1))"
        ".filter(id => !document.getElementById(id))")
    assert dead == []
    assert chromium.execute_script("return [...document.querySelectorAll('th:not([scope])')].length") == 0


@pytest.mark.parametrize("width", [360, 1200])
def test_map(chromium, report, width):
    """Places to scale: by the bar a bed is 1.2 by 10 m; each has a number, and the list below tells what lies there."""
    browser.show(chromium, report, width)
    shown = chromium.execute_script("""
        const svg = [...document.querySelectorAll('#map svg')].filter(s => s.getClientRects().length);
        const box = e => { const b = e.getBBox(); return [b.width, b.height, b.x, b.y]; };
        const all = role => [...svg[0].querySelectorAll(role)];
        return {
            pictures: svg.length,
            numbers: all('text.k-badge').map(t => t.textContent),
            texts: all('text').map(t => t.textContent),
            outlines: all('polyline.k-border').map(box).filter(b => b[0] && b[1]),
            bar: all('line.k-border').map(box).filter(b => b[1] === 0).pop()[0],
            patterns: all('.k-pattern').length,
            rows: [...document.querySelectorAll('#map tbody tr')].map(
                r => [r.querySelector('th').textContent, r.querySelector('td').textContent]),
            type: Math.min(...all('text').map(t => t.getBoundingClientRect().height)),
        }""")
    assert shown["pictures"] == 1, "one of the two sizes"
    count = len(shown["rows"])
    assert sorted(shown["numbers"], key=int) == [str(number + 1) for number in range(count)] and count == 8
    assert [row[0].split(".")[0] for row in shown["rows"]] == [str(number + 1) for number in range(count)]
    assert all(row[1].strip() for row in shown["rows"])
    told = next(text for text in shown["texts"] if re.fullmatch(r"\d+\sm", text))
    scale = shown["bar"] / int(told.split()[0])
    sizes = [(box[0] / scale, box[1] / scale) for box in shown["outlines"]]
    for wide, high, times in [(1.2, 10, 6), (12, 1.5, 1)]:
        fits = [size for size in sizes if abs(size[0] - wide) < 0.02 and abs(size[1] - high) < 0.02]
        assert len(fits) == times, (wide, high, sizes)
    rings = [size for size in sizes if abs(size[0] - size[1]) < 0.02 and size[0] > 2]
    assert len(rings) == 6 and all(abs(size[0] - 2.277) < 0.02 for size in rings), rings
    assert "N" in shown["texts"] and shown["patterns"] > 50
    assert shown["type"] >= 10, "texts can be read"


def test_nothing_is_fetched(report):
    text = report.read_text()
    assert not re.search(r"<(script|link|img|iframe|object|embed|video|audio)\b", text)
    assert not re.search(r"@import|url\((?!#)", text)
    assert not re.search(r"\son[a-z]+=", text)


def test_paper(chromium, report, language):
    browser.show(chromium, report, 1200, "dark")
    made = browser.printed(chromium)
    (PAGES / f"report-{language}.pdf").write_bytes(made)
    assert made.startswith(b"%PDF")
    pages = len(re.findall(rb"/Type\s*/Page\b(?!s)", made))
    assert pages >= 1
