"""The demo: the same twice, in every kind of folder, on a narrow terminal, and in words that promise nothing."""

import json
import os
import pty
import re
import shutil
import struct
import subprocess
import fcntl
import termios

import pytest

import desk

SAFE = re.compile(r"\b(safe|safely|safer|safest|segur[oa]s?)\b", re.IGNORECASE)
# What a key, a nonce and the wall clock leave in a report: digits of hashes and devices.
CHANGING = re.compile(r"\b[0-9a-f]{4,64}\b(?=:|-|<|…| |$)|\b[0-9a-f]{16,64}\b")


def play(folder, *arguments, **more):
    return desk.document("demo", *arguments, cwd=folder, **more)


def steady(text):
    return CHANGING.sub("~", text)


def entries(folder, told):
    listed = desk.document("book", "entries", told["book"], cwd=folder)["entries"]
    return [{key: steady(str(entry[key])) for key in ("date", "kind", "text", "by", "flags")} for entry in listed]


def test_twice_the_same(tmp_path):
    told = {}
    for name in ("one", "two"):
        folder = tmp_path / name
        folder.mkdir()
        told[name] = play(folder, "--seed", 7)
    one, two = tmp_path / "one", tmp_path / "two"
    assert told["one"] == told["two"], "figures"
    assert entries(one, told["one"]) == entries(two, told["two"]), "bodies of entries"
    first, second = ((tmp_path / name / told[name]["report"]).read_text() for name in ("one", "two"))
    assert steady(first) == steady(second), "report"


def test_another_seed_gives_other_figures(tmp_path):
    reports = []
    for seed in (1, 2):
        folder = tmp_path / str(seed)
        folder.mkdir()
        told = play(folder, "--seed", seed)
        reports.append(steady((folder / told["report"]).read_text()))
    assert reports[0] != reports[1]


def test_only_the_named_folder_appears(tmp_path):
    home = tmp_path / "home"
    folder = tmp_path / "empty"
    home.mkdir()
    folder.mkdir()
    told = play(folder, home=home)
    assert [path.name for path in folder.iterdir()] == ["kerfbook-demo"]
    # The key that signs is this computer's own; it never lies beside the book.
    keys = [path for path in home.rglob("*") if not path.is_dir()]
    assert [path.name for path in keys] == ["device.key"]
    assert keys[0].stat().st_mode & 0o777 == 0o600
    assert (folder / told["report"]).is_file() and (folder / told["book"]).is_file()
    left = [path.name for path in (folder / "kerfbook-demo").iterdir() if "unfinished" in path.name]
    assert left == []


def test_a_folder_that_is_there_keeps_what_is_in_it(tmp_path):
    folder = tmp_path / "kept"
    folder.mkdir()
    (folder / "notes.txt").write_text("mine")
    first = play(tmp_path, "--out", "kept")
    assert (folder / "notes.txt").read_text() == "mine"
    again = play(tmp_path, "--out", "kept")
    assert again == first, "played over the one before"
    assert (folder / "notes.txt").read_text() == "mine"
    assert desk.document("book", "verify", again["book"], cwd=tmp_path)["verified"]


def test_a_file_in_the_way(tmp_path):
    (tmp_path / "taken").write_text("mine")
    done = desk.run("demo", "--out", "taken", cwd=tmp_path)
    assert done.returncode == 1 and "taken" in done.stderr and done.stdout == ""
    assert (tmp_path / "taken").read_text() == "mine"


def plain_user():
    """What to put before a command so that permissions bind: root passes them all."""
    if os.geteuid() != 0:
        return []
    assert shutil.which("setpriv"), "setpriv (util-linux) is needed to give root's rights up"
    return ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--no-new-privs"]


def test_a_folder_that_cannot_be_written(tmp_path_factory, tmp_path):
    # The plain user must reach the command: it is tried from a folder that all may read.
    shared = tmp_path_factory.mktemp("shared")
    for folder in (shared, *shared.parents):
        if folder.stat().st_uid == os.geteuid() and len(folder.parts) > 2:
            folder.chmod(folder.stat().st_mode | 0o555)
    command = shared / "kerfbook"
    shutil.copy2(desk.COMMAND, command)
    command.chmod(0o755)
    folder = shared / "read-only"
    folder.mkdir()
    folder.chmod(0o555)
    done = subprocess.run([*plain_user(), str(command), "demo"], cwd=folder, env=desk.environment(folder),
                          capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "kerfbook-demo" in done.stderr and "panicked" not in done.stderr
    assert list(folder.iterdir()) == []
    folder.chmod(0o777)
    done = subprocess.run([*plain_user(), str(command), "demo", "--json"], cwd=folder, env=desk.environment(folder),
                          capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 0, "the same user, a folder that can be written: " + done.stderr
    assert json.loads(done.stdout)["report"]


def on_a_terminal(columns, *arguments, cwd):
    """What a person sees whose terminal has so many columns."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    environ = desk.environment(cwd, COLUMNS=str(columns), TERM="xterm")
    running = subprocess.Popen([desk.COMMAND, *map(str, arguments)], cwd=cwd, env=environ, stdin=theirs, stdout=theirs,
                               stderr=subprocess.PIPE)
    os.close(theirs)
    seen = b""
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:
            break
        if not piece:
            break
        seen += piece
    _, said = running.communicate(timeout=60)
    os.close(ours)
    assert running.returncode == 0, said
    return re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", seen.decode()).replace("\r", "")


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_narrow_terminal(language, tmp_path):
    for arguments in (["demo"], ["compare", desk.SCENARIOS / "bed.toml"], ["dose", desk.SCENARIOS / "bed.toml"],
                      ["forecast", desk.SCENARIOS / "bed.toml"]):
        seen = on_a_terminal(40, *arguments, "--language", language, cwd=tmp_path)
        ruled = [number for number, line in enumerate(seen.splitlines()) if re.search("[─═╌┄]{3}", line)]
        wide = [line for number, line in enumerate(seen.splitlines())
                if len(line) > 40 and ruled and ruled[0] <= number <= ruled[-1] and "  " in line.strip()]
        assert not wide, f"{arguments[0]}: rows of tables wider than the terminal: {wide[:3]}"
        assert seen.strip()


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_nothing_is_called_safe(language, units, tmp_path):
    manner = ("--language", language, "--units", units)
    texts = [desk.run("demo", "--out", "played", *manner, cwd=tmp_path).stdout]
    texts += [path.read_text() for path in (tmp_path / "played").glob("*.html")]
    for path in sorted(desk.SCENARIOS.glob("*.toml")):
        for command in ("compare", "forecast", "dose"):
            texts.append(desk.run(command, path, *manner, cwd=tmp_path).stdout)
    texts += [desk.run(*command, "--help", *manner, cwd=tmp_path).stdout
              for command in ([], ["demo"], ["compare"], ["forecast"], ["dose"], ["book"], ["book", "correct"])]
    assert all(texts), "every one said something"
    said = [hit for text in texts for hit in SAFE.findall(text)]
    assert said == []


def test_the_trial_is_told_with_what_it_could_have_missed(tmp_path):
    told = play(tmp_path)
    page = (tmp_path / told["report"]).read_text()
    start = page.index('<section id="trials"')
    section = page[start : page.index("</section>", start)]
    for said in ("yellowed less than plots with worked in", "could have missed", "Holds for this field and season"):
        assert said in section, said
    assert section.count("<svg") == 8, "dots and residuals of two readings, for a phone and for a desk"
    assert "*" not in re.sub(r"<[^>]*>", "", section) and not re.search(r"\bp\s*[=<]", section)
    yellow = desk.document("trial", told["book"], cwd=tmp_path)
    means = {one["level"]: one["mean"] for one in yellow["means"]}
    assert max(means, key=means.get) == "worked in"
    assert min(means, key=means.get) == "nothing but nitrogen"
    picked = {one["level"]: one["mean"] for one in desk.document("trial", told["book"], "--response", "yield", cwd=tmp_path)["means"]}
    assert min(picked, key=picked.get) == "worked in"
