"""docs/sources.md lists what the code rests on: no more, no less."""

import sources


def test_the_page_is_what_the_code_says():
    assert sources.PAGE.read_text() == sources.page(), "run tests/python/sources.py"


def test_every_constant_is_seen():
    """The reading of the code misses no source that names a work."""
    calls = 0
    for path in (sources.desk.ROOT / "core").rglob("src/**/*.rs"):
        text = path.read_text()
        calls += len(sources.re.findall(r"(?<!fn )\b(?:Source::new|body)\(\s*\"[^\"]", text))
    read = sum(len(sources.CALL.findall(path.read_text())) for path in (sources.desk.ROOT / "core").rglob("src/**/*.rs"))
    nameless = sum(1 for path in (sources.desk.ROOT / "core").rglob("src/**/*.rs")
                   for call in sources.CALL.findall(path.read_text()) if not call[0])
    assert read - nameless == calls > 50
