"""The command under test, as a person or a script calls it."""

import json
import os
import pathlib
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
SCENARIOS = ROOT / "fixtures" / "scenarios"
COMMAND = os.environ.get("KERFBOOK", str(ROOT / "target" / "release" / "kerfbook"))
LONG = os.environ.get("KERFBOOK_LONG") == "1"
CACHE = pathlib.Path(os.environ.get("KERFBOOK_CACHE", ROOT / "target"))


def environment(home, **more):
    """A bare environment: no locale, a home of its own."""
    return {"PATH": "/usr/bin:/bin", "HOME": str(home), **more}


def run(*arguments, cwd, home=None, before=(), **environ):
    """Runs the command to its end; the home is the working folder unless said otherwise."""
    return subprocess.run(
        [*before, COMMAND, *map(str, arguments)],
        cwd=cwd,
        env=environment(cwd if home is None else home, **environ),
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


def document(*arguments, cwd, code=0, **more):
    """Runs the command with --json and reads its one document."""
    done = run(*arguments, "--json", cwd=cwd, **more)
    assert done.returncode == code, f"{arguments}: exit {done.returncode}\n{done.stdout}\n{done.stderr}"
    return json.loads(done.stdout)
