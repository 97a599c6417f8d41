#!/usr/bin/env python3
"""Draws docs/report.png, the picture in README.md, from the demo: picture.py [TO.png]

Run it with the environment that tests/run keeps, after `cargo build --release`.
"""

import pathlib
import sys
import tempfile

import browser
import desk

WIDTH, HEIGHT = 900, 1150


def main():
    to = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else desk.ROOT / "docs" / "report.png"
    with tempfile.TemporaryDirectory() as folder, browser.browser() as driver:
        told = desk.document("demo", cwd=folder)
        browser.show(driver, pathlib.Path(folder) / told["report"], WIDTH)
        browser.picture(driver, to, height=HEIGHT)


if __name__ == "__main__":
    main()
