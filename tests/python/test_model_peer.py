"""The model against its peer: the same inputs through `kerfbook forecast --model` and through NumPy.

The tolerances are those of the model's specification: 1e-9 of the median run, 1e-7 of ensembles, days equal.
"""

import json
import math
import types

import pytest

import desk
import random_inputs

PEER = desk.ROOT / "tests" / "bench" / "peer" / "oracle.py"
GOLDEN = sorted((desk.ROOT / "fixtures" / "science" / "nitrogen" / "golden").glob("*.json"))
RANDOM = 600 if desk.LONG else 60
MEDIAN, ENSEMBLE = 1e-9, 1e-7
DAYS = ("day", "days", "hungry_day", "hungry_day_nothing", "days_earlier_hungry", "turn_day", "dry_days", "mat_days")


def peer(*changes):
    """The peer as a module, with changes of its text."""
    text = PEER.read_text()
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    module = types.ModuleType("oracle")
    exec(compile(text, str(PEER), "exec"), module.__dict__)  # noqa: S102
    return module


oracle = peer()
# Equation 12 holds a need between a leanest and a richest one. The peer takes it by way of the content of new
# decomposers; where a cell has nothing at hand and just enough of its own, what is left of that is rounding, and
# chance decides whether it decays. Here the same equation is taken straight: what lies between is what there is.
STRAIGHT = peer(
    ("            need = G * inv - own\n",
     "            need = np.minimum(np.maximum(have, G / (g['widen'] * cnb) - own), G / cnb - own)\n"),
    ("NB - XN + F * G * inv\n", "NB - XN + F * (need + own)\n"),
)


def differences(ours, theirs, tolerance, at="", day=False):
    """Every place where ours is not the peer's."""
    if isinstance(theirs, dict):
        if not isinstance(ours, dict):
            return [f"{at}: {ours!r} for an object"]
        found = [f"{at}.{key}: missing" for key in theirs if key not in ours]
        for key in theirs:
            if key in ours:
                within = ENSEMBLE if key in ("ensemble", "updated") else MEDIAN if key == "median" else tolerance
                found += differences(ours[key], theirs[key], within, f"{at}.{key}", day or key in DAYS)
        return found
    if isinstance(theirs, list):
        if not isinstance(ours, list) or len(ours) != len(theirs):
            return [f"{at}: not a list of {len(theirs)}"]
        return [one for i, (a, b) in enumerate(zip(ours, theirs))
                for one in differences(a, b, tolerance, f"{at}[{i}]", day and not isinstance(b, dict))]
    if theirs is None or isinstance(theirs, (bool, str)):
        return [] if ours == theirs else [f"{at}: {ours!r}, peer {theirs!r}"]
    if not isinstance(ours, (int, float)) or isinstance(ours, bool):
        return [f"{at}: {ours!r}, peer {theirs!r}"]
    # A quantile between two days is a weighted mean: equal but for its last bits.
    allowed = 1e-9 if day else tolerance * max(1.0, abs(theirs))
    return [] if math.isfinite(ours) and abs(ours - theirs) <= allowed else [f"{at}: {ours!r}, peer {theirs!r}"]


def tell_the_evening_before(given, theirs, oracle):
    """The peer notes nothing of seam and mulch on day 0. Where the place goes on from an earlier stage, day 0 is
    the evening of that stage's last day, and the peer's own figures of that evening are put in."""
    last = given["stages"][-1] if given.get("stages") else {}
    if "continue_from_stage" not in last:
        return
    assert last["continue_from_stage"] == 0 and "continue_from_stage" not in given["stages"][0]
    alone = {key: value for key, value in given.items() if key not in ("stages", "readings")} | given["stages"][0]
    before = oracle.result(alone)
    for which in ("median", "ensemble"):
        for name in ("seam_kg_ha", "in_mulch_kg_ha"):
            theirs[which]["days"][0][name] = before[which]["days"][-1][name]


def disagreements(given, ours, oracle):
    theirs = oracle.result(given)
    assert theirs["balance_closed"]
    # What rounding leaves of a closed balance is its own; that it is closed is said elsewhere.
    for name in ("residual_carbon", "residual_nitrogen"):
        del theirs[name]
    tell_the_evening_before(given, theirs, oracle)
    return differences(ours, theirs, MEDIAN)


def agrees(given, tmp_path, *peers):
    path = tmp_path / "input.json"
    path.write_text(json.dumps(given))
    ours = desk.document("forecast", "--model", path, cwd=tmp_path)
    assert ours["balance_closed"] and ours["residual_carbon"] < 1e-11 and ours["residual_nitrogen"] < 1e-11
    for one in peers:
        wrong = disagreements(given, ours, one)
        if not wrong:
            return
    raise AssertionError(f"{len(wrong)} differ:\n" + "\n".join(wrong[:20]))


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.stem)
def test_golden_inputs(path, tmp_path):
    case = json.loads(path.read_text())
    agrees(case["input"], tmp_path, oracle)


def test_every_golden_input_is_there():
    assert len(GOLDEN) == 24


@pytest.mark.parametrize("seed", range(RANDOM))
def test_random_inputs(seed, tmp_path):
    agrees(random_inputs.make(seed), tmp_path, oracle, STRAIGHT)


def test_the_two_readings_of_the_peer_are_one():
    """Taken straight, the peer gives its own golden figures."""
    for path in GOLDEN[::6]:
        given = json.loads(path.read_text())["input"] | {"draws": 12}
        whole, straight = oracle.result(given), STRAIGHT.result(given)
        for name in ("residual_carbon", "residual_nitrogen"):
            del whole[name]
        assert differences(straight, whole, MEDIAN) == []


def test_random_inputs_reach_what_they_should():
    made = [random_inputs.make(seed) for seed in range(60)]
    layers = [put for one in made for put in one["put_down"]]
    gifts = [gift for one in made for gift in one["gifts"]]
    assert any(put["way"] == "under" for put in layers)
    assert any("litres_m2" in gift for gift in gifts)
    assert any(crop["kind"] == "tree" for one in made for crop in one["crops"])
    assert any("continue_from_stage" in stage for one in made for stage in one.get("stages", []))
    assert any("from_stage" in put for one in made for stage in one.get("stages", []) for put in stage["put_down"])
    assert {reading["kind"] for one in made for reading in one.get("readings", [])} == {
        "draw_test", "soil_nitrate", "leaf"}


def test_a_difference_is_seen(tmp_path):
    """The comparison itself can fail: a changed figure, a missing key, a day too late."""
    theirs = {"median": {"hungry_day": 23.0, "co2_kg_c_ha": 4801.1}, "ensemble": {"co2_kg_c_ha": {"p50": 4801.1}}}
    assert differences(theirs, theirs, MEDIAN) == []
    for ours in (
        {"median": {"hungry_day": 24.0, "co2_kg_c_ha": 4801.1}, "ensemble": {"co2_kg_c_ha": {"p50": 4801.1}}},
        {"median": {"hungry_day": 23.0, "co2_kg_c_ha": 4801.10001}, "ensemble": {"co2_kg_c_ha": {"p50": 4801.1}}},
        {"median": {"hungry_day": 23.0, "co2_kg_c_ha": 4801.1}, "ensemble": {"co2_kg_c_ha": {"p50": 4801.102}}},
        {"median": {"hungry_day": None, "co2_kg_c_ha": 4801.1}, "ensemble": {"co2_kg_c_ha": {"p50": 4801.1}}},
        {"median": {"hungry_day": 23.0, "co2_kg_c_ha": 4801.1}, "ensemble": {"co2_kg_c_ha": {}}},
    ):
        assert len(differences(ours, theirs, MEDIAN)) == 1
