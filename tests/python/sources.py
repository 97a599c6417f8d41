#!/usr/bin/env python3
"""Writes docs/sources.md from the code: sources.py [--check]

Every published work behind a figure: the `Source` constants, the table of materials, the cautions, the cases.
"""

import csv
import json
import re
import sys

import desk

PAGE = desk.ROOT / "docs" / "sources.md"
STANDING = {
    "Published": "published",
    "SecondHand": "restated",
    "Recomputed": "recomputed",
    "Fitted": "fitted",
    "FromMemory": "from memory",
    "CommonPractice": "common practice",
    "Assumption": "assumption",
}
STRING = r'"((?:[^"\\]|\\.)*)"'
CALL = re.compile(
    rf"(?:Source::new|body)\(\s*{STRING},\s*(\d[\d_]*),\s*{STRING},\s*(?:{STRING},\s*)?(?:Standing::(\w+)|standing)", re.S)


def plain(text):
    """A Rust string as it reads: a backslash at the end of a line joins it to the next."""
    return re.sub(r"\\\s*\n\s*", "", text).replace('\\"', '"')


def constants():
    """(author, year, title, place, standing) and the files that use it."""
    found = {}
    for path in sorted((desk.ROOT / "core").rglob("src/**/*.rs")):
        for author, year, title, place, standing in CALL.findall(path.read_text()):
            key = (plain(author), int(year), plain(title), plain(place), STANDING.get(standing, "as the row says"))
            if key[0]:
                found.setdefault(key, set()).add(path.relative_to(desk.ROOT / "core").as_posix())
    return found


def materials():
    """Sources of the table of materials."""
    found = {}
    for name in ("materials.csv", "practice.csv"):
        path = desk.ROOT / "core" / "science" / "src" / "material" / name
        for row in csv.DictReader(path.open(newline="")):
            for column in row:
                if column and column.startswith("source") and row[column]:
                    found.setdefault(of_kind(row[column]), set()).add(row["name"])
    return found


def of_kind(source):
    """Rows that differ only in the figures of their species have one source."""
    source = re.sub(r"SG [\d.]+", "specific gravity", source)
    source = re.sub(r"green moisture \d+ % oven-dry basis", "green moisture of the species", source)
    return re.sub(r"\.? CAUTION .*$|\.$", "", source.strip())


def cases():
    """Sources of the published cases, with their topics."""
    found = {}
    for path in sorted((desk.ROOT / "fixtures" / "science").glob("*/*.json")):
        if path.parent.name == "nitrogen":
            continue  # the model's own bits, not published
        case = json.loads(path.read_text())
        found.setdefault((case["source"], case["standing"]), set()).add(path.parent.name)
    return found


def limits():
    """Sources of the table of limits, with the rules they belong to."""
    found = {}
    path = desk.ROOT / "core" / "science" / "src" / "limit" / "limits.csv"
    for row in csv.DictReader(path.open(newline="")):
        standing = "restated" if row["standing"] == "second-hand" else row["standing"].replace("-", " ")
        key = (row["body"], row["year"], row["work"], row["place"], standing)
        found.setdefault(key, set()).add(row["rules"])
    return found


def cell(text):
    return text.replace("|", "\\|").replace("\n", " ")


def page():
    lines = [
        "# Sources",
        "",
        "Every work behind a figure in Kerfbook, drawn from the code by `tests/python/sources.py`; a test holds this page to it.",
        "*Published* was read in the source itself, *restated* in a page that restates it; *recomputed* follows from published",
        "figures; *fitted* was adjusted until the model met them; *from memory* is remembered and not confirmed. Figures without a",
        "source are marked *common practice* or *assumption* where they stand.",
        "",
        "## Figures of the code",
        "",
        "| source | year | work | where | standing | used in |",
        "|---|---|---|---|---|---|",
    ]
    for (author, year, title, place, standing), used in sorted(constants().items()):
        where = ", ".join(f"`{name}`" for name in sorted(used))
        lines.append(f"| {cell(author)} | {year or ''} | {cell(title)} | {cell(place)} | {standing} | {where} |")
    lines += ["", "## Table of materials", "", "| source | rows |", "|---|---|"]
    for source, rows in sorted(materials().items()):
        lines.append(f"| {cell(source)} | {len(rows)} |")
    lines += ["", "## Table of limits", "", "| body | year | work | where | standing | rules |", "|---|---|---|---|---|---|"]
    for key, rules in sorted(limits().items()):
        lines.append(f"| {' | '.join(map(cell, key))} | {', '.join(sorted(rules))} |")
    lines += ["", "## Cases that the code must reproduce", "", "| source | standing | topics |", "|---|---|---|"]
    for (source, standing), topics in sorted(cases().items()):
        lines.append(f"| {cell(source)} | {standing} | {', '.join(sorted(topics))} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    made = page()
    if sys.argv[1:] == ["--check"]:
        sys.exit(PAGE.read_text() != made and "docs/sources.md is not what the code says: run tests/python/sources.py")
    PAGE.write_text(made)
