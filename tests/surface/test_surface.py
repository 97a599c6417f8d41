"""The core as phones see it, through its bindings for Python: the surface, the model's golden cases, a book."""

import enum
import importlib.util
import inspect
import json
import os
import pathlib
import typing

import pytest

ROOT = pathlib.Path(__file__).parents[2]
BINDINGS = pathlib.Path(os.environ["KERFBOOK_BINDINGS"]) / "kerfbook_ffi.py"
SURFACE = ROOT / "fixtures/surface.txt"
GOLDEN = sorted((ROOT / "fixtures/science/nitrogen/golden").glob("*.json"))

spec = importlib.util.spec_from_file_location("kerfbook_ffi", BINDINGS)
core = importlib.util.module_from_spec(spec)
spec.loader.exec_module(core)


def shown(kind):
    return getattr(kind, "__name__", None) or str(kind).replace("typing.", "")


def signature(function):
    arguments = [
        f"{name}: {one.annotation if isinstance(one.annotation, str) else shown(one.annotation)}"
        for name, one in inspect.signature(function).parameters.items()
        if name != "self"
    ]
    gives = inspect.signature(function).return_annotation
    tail = "" if gives in (None, inspect.Signature.empty) else f" -> {gives if isinstance(gives, str) else shown(gives)}"
    return f"({', '.join(arguments)}){tail}"


def surface():
    """Every exported name, one a line, in order."""
    lines = []
    for name in sorted(core.__all__):
        thing = getattr(core, name)
        # What every language gets of its own: the shape of the object without its code, and the library's own error.
        if name == "InternalError" or name.endswith(("Protocol", "Impl")):
            continue
        if inspect.isfunction(thing):
            lines.append(f"fn {name}{signature(thing)}")
        elif isinstance(thing, type) and issubclass(thing, enum.Enum):
            lines.append(f"enum {name}: {', '.join(one.name for one in thing)}")
        elif isinstance(thing, type) and typing.is_typeddict(thing):
            lines.append(f"{name}")
        elif isinstance(thing, type):
            lines.append(f"type {name}{signature(thing.__init__) if '__init__' in vars(thing) else ''}")
            for member, value in sorted(vars(thing).items()):
                if member.startswith(("_", "is_")):
                    continue
                if isinstance(value, (classmethod, staticmethod)):
                    lines.append(f"  {member}{signature(value.__func__)}")
                elif inspect.isfunction(value):
                    lines.append(f"  {member}{signature(value)}")
                elif isinstance(value, type):
                    lines.append(f"  {member}{signature(value.__init__) if '__init__' in vars(value) else ''}")
    return "\n".join(lines) + "\n"


def test_the_surface_is_the_one_that_was_reviewed():
    now = surface()
    if os.environ.get("KERFBOOK_UPDATE") == "always":
        SURFACE.write_text(now)
    assert SURFACE.read_text() == now, "look at the difference, then KERFBOOK_UPDATE=always writes it"


@pytest.mark.parametrize("path", GOLDEN[::4], ids=lambda path: path.stem)
def test_golden_cases_give_the_same_through_the_surface(path):
    case = json.loads(path.read_text())
    found = json.loads(core.model_results(json.dumps(case["input"])))
    for part, tolerance in case["tolerance"].items():
        close(found[part], case["expected"][part], tolerance, part)


def close(found, expected, tolerance, where):
    if isinstance(expected, dict):
        for key, value in expected.items():
            close(found[key], value, tolerance, f"{where}.{key}")
    elif isinstance(expected, list):
        assert len(found) == len(expected), where
        for index, value in enumerate(expected):
            close(found[index], value, tolerance, f"{where}[{index}]")
    elif isinstance(expected, float):
        assert found == pytest.approx(expected, rel=tolerance, abs=tolerance), where
    else:
        assert found == expected, where


def test_a_model_input_that_does_not_read_is_told():
    with pytest.raises(core.CoreError.BadInput) as wrong:
        core.model_results("{")
    assert wrong.value.field == "input"


class Keys(core.KeyStore):
    def __init__(self):
        self.kept = None

    def fetch(self):
        return self.kept

    def keep(self, secret):
        self.kept = secret


class Still(core.Clock):
    def now(self):
        day = 20_558
        return core.Now(wall_ms=day * 86_400_000, day=day)


class Broken(core.Clock):
    def now(self):
        raise RuntimeError("no battery")


READER = core.Reader(
    tongue=core.Tongue.SPANISH, measures=core.Measures.METRIC, barrow_l=None, bucket_l=None, trailer_m3=None
)
HOLDING = core.NewHolding(name="Prado", device="Prueba", sells=False, certified=False, latitude_deg=40.0)


def test_a_book_goes_round(tmp_path):
    keys = Keys()
    path = str(tmp_path / "book")
    book = core.FieldBook.found(path, HOLDING, keys, Still(), READER)
    place = book.outline_place(
        core.NewPlace(label="Bancal 1", ground=core.Ground.BED, size=core.Size.TAPED(length="10", width="1,2"))
    )
    unknown = core.Said.UNKNOWN
    taken = book.take_in(
        core.LoadGiven(
            label="Aserradero", material="sawdust, mixed", amount="20", measure=core.Measure.BARROWS, from_whom="",
            treated=core.Said.NO, diseased=unknown, salty=unknown, medicines=unknown, weedkillers=unknown, feel=None,
        )
    )
    given = core.PutDownGiven(
        place=place.entry, batch=taken.batch, amount="6", measure=core.Measure.BARROWS, manner=None, run=None
    )
    answer = book.consider(given)
    assert answer.instruction and answer.ways
    given.manner = answer.manner
    assert "6 carretillas" in book.put_down(given).text
    del book
    again = core.FieldBook.open(path, keys, Still(), READER)
    assert any("6 carretillas" in entry.text for entry in again.entries(None, 200).entries)


def test_a_platform_that_fails_is_an_error_of_ours(tmp_path):
    with pytest.raises(core.CoreError.Platform) as wrong:
        core.FieldBook.found(str(tmp_path / "book"), HOLDING, Keys(), Broken(), READER)
    assert "no battery" in wrong.value.reason
    assert not (tmp_path / "book").exists()
