"""The command must be there: without it no test here means anything."""

import pathlib

import desk


def pytest_configure(config):
    if not pathlib.Path(desk.COMMAND).is_file():
        raise SystemExit(f"{desk.COMMAND} is not there; build it: cargo build --release")
