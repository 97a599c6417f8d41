"""A season written into a book from files: every document against its schema, in both languages."""

import re

import pytest

import desk
import documents

ENTRIES = desk.ROOT / "fixtures" / "entries"


@pytest.mark.parametrize("language", ["en", "es"])
def test_season(language, tmp_path):
    def told(name, *arguments):
        return documents.check(name, desk.document(*arguments, "--language", language, cwd=tmp_path))

    book = "my.kerfbook"
    assert told("enter", "book", "enter", book, ENTRIES / "first.toml")["written"]
    assert not told("enter", "book", "enter", book, ENTRIES / "second.toml", "--try")["written"]
    assert told("enter", "book", "enter", book, ENTRIES / "second.toml", "--even-so")["warnings"]
    assert told("today", "today", book, "--on", "2027-05-10", "--ahead", "60")["items"]
    for place in ("Bed 1", "Bed 2", "Path"):
        there = told("place", "place", book, place, "--on", "2027-05-10")
        assert there["forecast"], place
    plan = told("feeds", "feeds", book, "Bed 2", "--on", "2027-05-10", "--source", "urea")
    assert plan["sources"][0]["source"] == "urea" and plan["each"] is None
    next_load = told("compare-place", "compare", book, "Bed 1", "--batch", "Chips", "--barrows", "3", "--on", "2027-05-10")
    assert next_load["ways"][0]["way"] == "bare" and next_load["first_day"] < "2027"
    priced = told(
        "purpose", "purpose", desk.SCENARIOS / "bed.toml", "--for", "soil", "--book", book, "--batch", "Sawdust",
        "--hour-price", 10)
    assert priced["intake"]["currency"] == "EUR" and 0 < priced["intake"]["price"] <= 30
    batches = told("stock", "stock", book)["batches"]
    assert [batch["batch"] for batch in batches] == ["Sawdust", "Chips", "Old path chips"]
    report = told("report", "report", book, "--on", "2027-05-10")
    page = (tmp_path / report["report"]).read_text()
    assert not re.search(r"\[[a-z]+(-[a-z]+)+\]", page.split("</head>")[1]), "every text is there"


def test_places_to_files_and_back(tmp_path):
    def told(name, *arguments):
        return documents.check(name, desk.document("book", *arguments, cwd=tmp_path))

    book = "my.kerfbook"
    assert told("enter", "enter", book, ENTRIES / "first.toml")["written"]
    drawn = desk.ROOT / "fixtures" / "places" / "field.geojson"
    assert not told("import", "import", book, drawn, "--name", "Drawn", "--try")["written"]
    assert told("import", "import", book, drawn, "--name", "Drawn", "--on", "2026-05-01")["written"]
    there = told("export", "export", book, "places.geojson")
    again = told("import", "import", book, "places.geojson", "--anew", "--try")
    assert len(again["places"]) == there["places"]
    assert told("export", "export", book, "entries.csv", "--entries")["entries"] > there["places"]
