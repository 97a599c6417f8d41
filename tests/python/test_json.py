"""Every --json document against its schema, on every scenario that is kept here."""

import copy
import json
import math
import re

import jsonschema
import pytest

import desk
import documents

SCENARIOS = sorted(desk.SCENARIOS.glob("*.toml"))
BAD = sorted((desk.SCENARIOS / "bad").glob("*.toml"))
GOLDEN = sorted((desk.ROOT / "fixtures" / "science" / "nitrogen" / "golden").glob("*.json"))


def named(path):
    return path.stem


@pytest.mark.parametrize("name", documents.SCHEMAS)
def test_schemas_are_schemas(name):
    jsonschema.Draft202012Validator.check_schema(documents.SCHEMAS[name])


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_compare(path, tmp_path):
    told = documents.check("compare", desk.document("compare", path, cwd=tmp_path))
    for rows in (told["ways"], told["both_seasons"]["ways"]):
        ranked = [row for row in rows[1:] if row["way"] not in ("path", "ring")]
        crops = [row["crop_nitrogen_kg_ha"]["p50"] for row in ranked if row["crop_nitrogen_kg_ha"]]
        assert crops == sorted(crops, reverse=True), "best first"
        last = [row["way"] for row in rows if row["way"] in ("path", "ring")]
        assert [row["way"] for row in rows[len(rows) - len(last):]] == last, "path and ring last"
    bare = told["ways"][0]
    if bare["lost_kg_ha"]:
        assert set(bare["lost_kg_ha"].values()) == {0.0}, "nothing put down loses nothing"


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_forecast(path, tmp_path):
    told = documents.check("forecast", desk.document("forecast", path, cwd=tmp_path))
    assert [row["day"] for row in told["days"]] == sorted({row["day"] for row in told["days"]})
    assert told["days"][0]["day"] == 0
    for row in told["days"]:
        for name in ("tied_kg_ha", "mineral_kg_ha", "uptake_kg_ha", "leached_kg_ha"):
            assert row[name]["p10"] <= row[name]["p50"] <= row[name]["p90"], f"day {row['day']}, {name}"


def test_forecast_says_its_runs_and_seed(tmp_path):
    told = desk.document("forecast", desk.SCENARIOS / "bed.toml", "--runs", 40, "--seed", 7, cwd=tmp_path)
    assert (told["runs"], told["seed"]) == (40, 7)
    again = desk.document("forecast", desk.SCENARIOS / "bed.toml", "--runs", 40, "--seed", 7, cwd=tmp_path)
    assert again == told, "the same seed, the same figures"
    assert told["days"] != desk.document(
        "forecast", desk.SCENARIOS / "bed.toml", "--runs", 40, "--seed", 8, cwd=tmp_path)["days"]


def test_forecast_with_readings(tmp_path):
    readings = tmp_path / "readings.toml"
    readings.write_text("[[soil_nitrate]]\ndate = 2026-05-20\nkg_ha = 20\n")
    told = desk.document("forecast", desk.SCENARIOS / "bed.toml", "--readings", readings, cwd=tmp_path)
    documents.check("forecast", told)
    assert told["effective_size"] > 1


@pytest.mark.parametrize("path", GOLDEN, ids=named)
def test_model(path, tmp_path):
    given = tmp_path / "input.json"
    given.write_text(json.dumps(json.loads(path.read_text())["input"] | {"draws": 8}))
    documents.check("model", desk.document("forecast", "--model", given, cwd=tmp_path))


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_dose(path, tmp_path):
    told = documents.check("dose", desk.document("dose", path, cwd=tmp_path))
    assert told["dry_kg"] <= told["wet_kg"]
    if told["quick_nitrogen_kg"]:
        assert told["quick_nitrogen_kg"]["low"] <= told["quick_nitrogen_kg"]["typical"] <= told["quick_nitrogen_kg"]["high"]


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_dose_both_ways(path, tmp_path):
    """Every measure of the document, put back in the place of the file's own, gives the document again."""
    first = desk.document("dose", path, cwd=tmp_path)
    written = path.read_text()
    amounts = "dry_mass_t_ha|wet_kg|volume_m3|depth_mm|settled_depth_mm|barrows|trailers|fingers|hands"
    before, after = written.split("[[put_down]]", 1)
    assert re.search(rf"(?m)^({amounts}) = ", after)
    for key, value in [
        ("dry_mass_t_ha", first["dry_t_ha"]), ("wet_kg", first["wet_kg"]), ("volume_m3", first["volume_m3"]),
        ("depth_mm", first["depth_mm"]), ("settled_depth_mm", first["settled_depth_mm"]),
        ("barrows", first["loads"]["barrow"]), ("trailers", first["loads"]["trailer"]),
    ]:
        if value is None:
            continue
        changed = re.sub(rf"(?m)^({amounts}) = .*$", f"{key} = {value!r}", after, count=1)
        other = tmp_path / f"{key}.toml"
        other.write_text(before + "[[put_down]]" + changed)
        for daily in path.parent.glob("*.csv"):
            (tmp_path / daily.name).write_bytes(daily.read_bytes())
        told = documents.check("dose", desk.document("dose", other, cwd=tmp_path))
        for same in ("dry_kg", "wet_kg", "volume_m3", "depth_mm", "settled_depth_mm", "dry_t_ha"):
            assert told[same] == pytest.approx(first[same], rel=1e-9), (key, same)


def test_dose_by_load(tmp_path):
    """Figures of the file of rows, worked out here."""
    told = desk.document("dose", desk.SCENARIOS / "orchard-by-load.toml", cwd=tmp_path)
    weighed = [7.9 - 1.1, 8.3 - 1.1, 8.0 - 1.1]
    mean = sum(weighed) / 3
    error = (sum((one - mean) ** 2 for one in weighed) / 2 / 3) ** 0.5
    bulk = told["bulk_density"]
    assert bulk["kg_m3"] == pytest.approx(mean / 0.020) and bulk["method"] == "bucket tapped-thirds"
    assert bulk["sd_pct"] == pytest.approx(100 * error / mean)
    assert told["volume_m3"] == pytest.approx(9 * 3.2)
    doubts = told["doubts"]
    parts = [0.15 / 1.959964, 0.04 / 1.959964, error / mean, 0.04 / 1.959964 / 0.52]
    together = (math.prod(1 + part**2 for part in parts) - 1) ** 0.5
    assert doubts["dry_sd_pct"] == pytest.approx(100 * together, rel=1e-5)
    assert doubts["counts"] == ["amount", "area", "bulk-density", "moisture"]
    by_load = told["by_load"]
    ring = math.pi * (1.2**2 - 0.15**2)
    assert by_load["trees_per_load"] == int(3.2 / (ring * 0.075))
    first, second = by_load["runs"][:2]
    assert (first["from"], first["to"], first["trees"]) == ("12/9", "12/20", 11), "tree 14 is missing"
    assert by_load["depth_mm"] == pytest.approx(1000 * 3.2 / (11 * ring))
    assert (second["from"], second["to"]) == ("13/20", "13/12"), "down the second row"
    assert told["payload"]["kg"]["typical"] == pytest.approx(3.2 * mean / 0.020)
    assert told["payload"]["verdict"] == "under"


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_feeds(path, tmp_path):
    told = documents.check("feeds", desk.document("feeds", path, cwd=tmp_path))
    assert told["rules"] == [] and told["limits"] == []
    for plan in told["sources"]:
        total = sum(feed["nitrogen_kg_ha"] for feed in plan["feeds"])
        assert plan["nitrogen_kg_ha"] == pytest.approx(total)
        assert plan["crop_kg_ha"] + plan["wood_kg_ha"] == pytest.approx(total)
        dates = [feed["date"] for feed in plan["feeds"]]
        assert dates == sorted(set(dates)), "one feed a day, in order"
        for feed in plan["feeds"]:
            steps = feed["nitrogen_kg_ha"] / plan["step"]["nitrogen_kg_ha"]
            assert steps == pytest.approx(round(steps)), "whole steps"
            if told["each"]:
                whole, each = feed["amount_kg"] or feed["volume_l"], feed["each_g"] or feed["each_ml"]
                assert each * told["each"]["count"] == pytest.approx(whole * 1000)
        if plan["outcome"] == "kept" and told["chance_without"] is not None:
            assert plan["chance_hungry"] <= told["chance_allowed"] < told["chance_without"]


def test_feeds_keep_what_is_asked(tmp_path):
    bed = desk.SCENARIOS / "bed.toml"
    told = desk.document(
        "feeds", bed, "--chance", 5, "--rules", "eu-nitrates", "--rules", "us-organic", "--source", "pig manure",
        "--source", "urea", cwd=tmp_path)
    documents.check("feeds", told)
    assert told["chance_allowed"] == pytest.approx(0.05)
    assert told["rules"] == ["eu-nitrates", "us-organic"]
    assert [limit["most_kg_ha"] for limit in told["limits"]] == [170.0, None]
    assert [limit["touching_days"] for limit in told["limits"]] == [None, 120]
    manure, urea = told["sources"]
    assert (manure["source"], urea["source"]) == ("pig manure", "urea")
    assert manure["nitrogen_kg_ha"] <= 170 + 1e-9 and manure["days_to_harvest"] == 120
    assert all(feed["date"] <= manure["last_day"] for feed in manure["feeds"])


def test_feeds_put_back_keep_the_chance(tmp_path):
    """The plan written into the file as a person would write it."""
    bed = desk.SCENARIOS / "bed.toml"
    told = desk.document("feeds", bed, "--source", "urea", cwd=tmp_path)
    plan = told["sources"][0]
    assert plan["outcome"] == "kept"
    lines = [bed.read_text()]
    for feed in plan["feeds"]:
        lines.append(
            f"[[feed]]\ndate = {feed['date']}\nsource = \"{plan['source']}\"\n"
            f"amount_kg = {feed['amount_kg']!r}\nplaced = \"{feed['placed']}\"\n")
    fed = tmp_path / "fed.toml"
    fed.write_text("\n".join(lines))
    back = desk.document("forecast", fed, cwd=tmp_path)
    assert back["chance_hungry"] == pytest.approx(plan["chance_hungry"])
    assert back["chance_hungry"] <= told["chance_allowed"]


@pytest.mark.parametrize("wanted", ["weeds", "water", "soil", "use-up"])
@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_purpose(path, wanted, tmp_path):
    told = documents.check("purpose", desk.document("purpose", path, "--for", wanted, cwd=tmp_path))
    assert told["for"] == wanted
    doable = [way["doable"] for way in told["ways"]]
    assert doable == sorted(doable, reverse=True), "what can be done comes first"
    assert all(way["money"] is None and way["compost_instead"] is None for way in told["ways"])
    kinds = [(way["way"], way["over"]) for way in told["ways"] + told["others"]]
    assert len(kinds) == len(set(kinds)), "each way once"


def test_purpose_with_prices(tmp_path):
    told = desk.document(
        "purpose", desk.SCENARIOS / "bed.toml", "--for", "soil", "--load-price", 20, "--hour-price", 10,
        "--compost-price", 45, "--minutes", 6, cwd=tmp_path)
    documents.check("purpose", told)
    for way in told["ways"]:
        assert way["work"]["hours"] == pytest.approx(way["work"]["barrows"] * 6 / 60)
        assert way["money"] > 0 and way["compost_instead"]["money"] > 45 * way["compost_instead"]["volume_m3"]


@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "rings").glob("*.csv")), ids=named)
def test_rings(path, tmp_path):
    told = documents.check("rings", desk.document("rings", path, cwd=tmp_path))
    assert 0 <= told["net_m2"] <= told["union_m2"] <= told["sum_m2"]


@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "piles").glob("*.toml")), ids=named)
def test_pile_volume(path, tmp_path):
    told = documents.check("pile-volume", desk.document("pile-volume", path, cwd=tmp_path))
    assert told["low_m3"] <= told["volume_m3"] <= told["high_m3"]


@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "recipes").glob("*.toml")), ids=named)
def test_mix(path, tmp_path):
    told = documents.check("mix", desk.document("mix", path, cwd=tmp_path))
    wet = sum(one["wet_kg"] for one in told["ingredients"])
    carbon = sum(one["dry_kg"] * one["carbon_pct"] for one in told["ingredients"])
    nitrogen = sum(one["dry_kg"] * one["nitrogen_pct"] for one in told["ingredients"])
    assert told["mass_kg"] == pytest.approx(wet)
    assert told["carbon_nitrogen"] == pytest.approx(carbon / nitrogen)


@pytest.mark.parametrize("rule", ["us-organic-windrow", "australia-windrow", "eu-processed-manure"])
@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "heat").glob("*.csv")), ids=named)
def test_heat(path, rule, tmp_path):
    told = documents.check("heat", desk.document("heat", path, "--rule", rule, cwd=tmp_path))
    assert told["rule"] == rule and told["days_counted"] == min(zone["days_counted"] for zone in told["zones"])


TRIALS = {
    "oats-split-plot": "--design split-plot --main variety --sub nitrogen --response yield",
    "rice-strip-plot": "--design strip-plot --main gen --sub nitro --response yield --check G1",
    "wheat-latin": "--design latin --treatment treatment --response rust",
    "scab-crd": "--design crd --treatment treatment --response scab --check O",
    "rice-rcbd": "--design rcbd --treatment treatment --response yield --contrast 25=-1,50=1 --pair 25:150 --margin 100",
    "maize-pairs": "--design pairs --treatment plant --response height",
    "yellowing-rcbd": "--design rcbd --treatment treatment --response yellow_pct --day day --yellow --check bare",
}


@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "trials").glob("*.csv")), ids=named)
def test_trial(path, tmp_path):
    told = documents.check("trial", desk.document("trial", path, *TRIALS[path.stem].split(), cwd=tmp_path))
    assert told["plots"]["kept"] == len(told["residuals"])
    assert told["verdict"][-1] == "Holds for this field and season."
    for pair in told["comparisons"]:
        assert pair["low"] <= pair["difference"] <= pair["high"]


@pytest.mark.parametrize("path", sorted((desk.ROOT / "fixtures" / "plans").glob("*.toml")), ids=named)
def test_plan(path, tmp_path):
    told = documents.check("plan", desk.document("plan", path, "--out", "field", cwd=tmp_path))
    assert sorted(plot["walk"] for plot in told["layout"]) == list(range(1, len(told["layout"]) + 1))
    assert len(told["files"]) == 5 and all((tmp_path / name).is_file() for name in told["files"])


def test_trial_of_a_book(tmp_path):
    """From the plan through the book to the result, which is that of the same numbers in a table."""
    (tmp_path / "book.toml").write_text('[holding]\nname = "Hill holding"\nopened = 2026-05-01\n')
    (tmp_path / "trial.toml").write_text(
        '[trial]\nname = "Chips"\ndesign = "rcbd"\nseed = 7\nblocks = 5\ntreatments = ["bare", "top", "dug in"]\ncheck = "bare"\n'
    )
    desk.document("book", "enter", "my.kerfbook", "book.toml", cwd=tmp_path)
    plan = desk.document("plan", "trial.toml", "--book", "my.kerfbook", "--on", "2026-05-01", cwd=tmp_path)
    plots = documents.check("plan", plan)["layout"]
    assert plan["entry"]
    effect = {"bare": 0, "top": 3, "dug in": 15}
    table = ["plot,block,treatment,day,yellow"]
    rows = []
    for visit, day in enumerate(["2026-06-01", "2026-06-11", "2026-07-01"]):
        score = {p["plot"]: effect[p["treatment"]] + 2 * p["block"] + p["plot"] * (visit + 3) % 5 for p in plots}
        rows.append(
            f'[[scored]]\ndate = {day}\ntrial = "Chips"\nplots = {list(score)}\nyellow_pct = {list(score.values())}\n'
        )
        table += [f"{p['plot']},{p['block']},{p['treatment']},{day},{score[p['plot']]}" for p in plots]
    rows.append('[[trial_closed]]\ndate = 2026-09-01\ntrial = "Chips"\n')
    (tmp_path / "scores.toml").write_text("".join(rows))
    (tmp_path / "scores.csv").write_text("\n".join(table) + "\n")
    documents.check("enter", desk.document("book", "enter", "my.kerfbook", "scores.toml", cwd=tmp_path))
    told = documents.check("trial", desk.document("trial", "my.kerfbook", cwd=tmp_path))
    options = "--design rcbd --treatment treatment --response yellow --day day --plot plot --yellow --check bare"
    same = documents.check("trial", desk.document("trial", "scores.csv", *options.split(), cwd=tmp_path))
    for ours, theirs in zip(told["anova"], same["anova"], strict=True):
        assert (ours["source"], ours["df"]) == (theirs["source"], theirs["df"])
        assert ours["ss"] == pytest.approx(theirs["ss"], rel=1e-9)
    assert {p["b"]: p["difference"] for p in told["comparisons"]} == pytest.approx(
        {p["b"]: p["difference"] for p in same["comparisons"]}
    )
    assert told["verdict"][-1] == "Holds for this field and season."


@pytest.mark.parametrize(
    ("command", "path"),
    [(command, path) for command, folder in (("rings", "rings"), ("pile-volume", "piles"))
     for path in sorted((desk.ROOT / "fixtures" / folder / "bad").iterdir())],
)
def test_bad_ground(command, path, tmp_path):
    told = documents.check("error", desk.document(command, path, cwd=tmp_path, code=2))
    assert told["error"]["problems"], "says where"


def test_demo_and_its_book(tmp_path):
    told = documents.check("demo", desk.document("demo", "--out", "played", cwd=tmp_path))
    assert (tmp_path / told["report"]).is_file()
    book = tmp_path / told["book"]
    entries = documents.check("entries", desk.document("book", "entries", book, cwd=tmp_path))
    assert entries["verified"] and len(entries["entries"]) == told["entries"]
    state = documents.check("verify", desk.document("book", "verify", book, cwd=tmp_path))
    assert state["verified"] and state["findings"] == [] and state["entries"] == told["entries"]
    assert state["heads"] == entries["heads"]
    documents.check("verify", desk.document("book", "rebuild", book, cwd=tmp_path))


@pytest.mark.parametrize("path", BAD, ids=named)
@pytest.mark.parametrize("command", ["compare", "forecast", "dose", "feeds"])
def test_bad_input(command, path, tmp_path):
    told = documents.check("error", desk.document(command, path, cwd=tmp_path, code=2))
    assert told["error"]["kind"] == "input"
    assert told["error"]["problems"], "says where"
    assert list(tmp_path.iterdir()) == [], "nothing is written"


@pytest.mark.parametrize("path", SCENARIOS, ids=named)
def test_carbon(path, tmp_path):
    code = 2 if path.stem == "container" else 0
    told = desk.document("carbon", path, "--years", 12, "--every", 3, cwd=tmp_path, code=code)
    if code:
        documents.check("error", told)
        return
    documents.check("carbon", told)
    assert [year["year"] for year in told["years"]] == list(range(1, 13))
    for year in told["years"]:
        assert year["carbon_t_ha"]["low"] <= year["carbon_t_ha"]["typical"] <= year["carbon_t_ha"]["high"]
    entered = told["carbon_in_t_ha"]["typical"]
    assert told["years"][0]["carbon_t_ha"]["typical"] < entered, "some of it decays at once"
    # The yearly balance with the published loss of 1.5 of 90 t/ha.
    first, last = (told["years"][at]["humus_t_ha"]["typical"] for at in (0, 11))
    loss = 1.5 / 90
    assert last / first == pytest.approx((1 - math.exp(-12 * loss)) / (1 - math.exp(-loss)), rel=1e-9)


def test_other_errors(tmp_path):
    missing = documents.check("error", desk.document("compare", "not-there.toml", cwd=tmp_path, code=2))
    assert "not-there.toml" in missing["error"]["message"]
    for arguments in (["compare"], ["no-such-command"], ["forecast", "--runs", "0", "x.toml"],
                      ["feeds", "x.toml", "--chance", "91"], ["purpose", "x.toml"], ["purpose", "x.toml", "--for", "fun"],
                      ["compare", "--no-such", "x"]):
        told = documents.check("error", desk.document(*arguments, cwd=tmp_path, code=2))
        assert told["error"]["kind"] == "usage"
    other = tmp_path / "note.txt"
    other.write_text("not a book")
    documents.check("error", desk.document("book", "verify", other, cwd=tmp_path, code=2))
    assert other.read_text() == "not a book"


def test_a_model_input_that_cannot_be(tmp_path):
    given = tmp_path / "input.json"
    for text in ("{", '{"days": 10}', "[]", "null"):
        given.write_text(text)
        documents.check("error", desk.document("forecast", "--model", given, cwd=tmp_path, code=2))
    whole = json.loads(GOLDEN[0].read_text())["input"]
    for key, value in (("days", 0), ("draws", -1), ("unknown_key", 1), ("start_day_of_year", 400)):
        given.write_text(json.dumps(whole | {key: value}))
        told = documents.check("error", desk.document("forecast", "--model", given, cwd=tmp_path, code=2))
        assert key in told["error"]["message"]


def test_schemas_can_fail(tmp_path):
    """A key taken away, a null where none may be: each is seen."""
    told = desk.document("compare", desk.SCENARIOS / "bed.toml", cwd=tmp_path)
    assert documents.faults("compare", told) == []
    for spoil in (
        lambda d: d.pop("format"),
        lambda d: d["answer"].pop("least_known"),
        lambda d: d["ways"][1]["tied_kg_ha"].pop("150"),
        lambda d: d["ways"][1]["tied_kg_ha"]["28"].update(p50=None),
        lambda d: d["ways"].reverse(),
        lambda d: d["ways"][-1].update(crop_nitrogen_kg_ha={"p10": 1, "p50": 2, "p90": 3}),
    ):
        spoiled = copy.deepcopy(told)
        spoil(spoiled)
        assert documents.faults("compare", spoiled) != []
