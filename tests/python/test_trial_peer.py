"""Trials against statsmodels, SciPy and scikit-posthocs on seeded sets of every design, with and without lost plots."""

import itertools
import math
import random

import numpy
import pandas
import pytest
import scikit_posthocs
import scipy.stats
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

import desk

CASES = 500 if desk.LONG else 30
LINE = {"rel": 1e-6, "abs": 1e-9}
CHANCE = {"rel": 0, "abs": 1e-6}


def made(design, seed):
    """A trial of seeded size, its plots with noise and now and then an effect, ties in every third; odd seeds lose a few
    plots."""
    rng = random.Random(f"{design} {seed}")
    treatments = [f"t{number}" for number in range(2 if design == "pairs" else rng.randint(3, 5))]
    blocks = [f"b{number}" for number in range(rng.randint(4, 6))]
    effect = {name: rng.choice([0, 0, rng.gauss(0, 2)]) for name in treatments + blocks + ["s0", "s1", "s2"]}
    rows = []
    if design == "crd":
        rows = [{"treatment": name} for name in treatments for _ in range(rng.randint(3, 6))]
    elif design in ("rcbd", "pairs", "strips"):
        rows = [{"block": block, "treatment": name} for block in blocks for name in treatments]
    elif design == "latin":
        side = len(treatments) if len(treatments) > 3 else 4
        treatments = [f"t{number}" for number in range(side)]
        rows = [{"row": f"r{r}", "column": f"c{c}", "treatment": treatments[(r + c) % side]}
                for r in range(side) for c in range(side)]
    else:
        rows = [{"block": block, "main": name, "sub": sub}
                for block in blocks for name in treatments[:3] for sub in ("s0", "s1", "s2")]
    for row in rows:
        y = 20 + sum(effect.get(level, 0) for level in row.values()) + rng.gauss(0, 1.5)
        row["y"] = float(round(y) if seed % 3 == 0 else round(y, 3))
    if seed % 2:
        for row in rng.sample(rows, rng.randint(1, max(1, len(rows) // 12))):
            row["y"] = None
    rng.shuffle(rows)
    return rows


def told(design, rows, folder, *more):
    keys = [key for key in rows[0] if key != "y"]
    path = folder / "plots.csv"
    line = lambda row: ",".join([row[key] for key in keys] + ["" if row["y"] is None else repr(row["y"])])
    path.write_text(",".join([*keys, "y"]) + "\n" + "\n".join(map(line, rows)) + "\n")
    columns = [part for key in keys for part in (f"--{key}", key)]
    return desk.document("trial", path, "--design", design, *columns, "--response", "y", *more, cwd=folder)


FORMULAS = {
    "crd": "y ~ C(treatment)",
    "rcbd": "y ~ C(block) + C(treatment)",
    "pairs": "y ~ C(block) + C(treatment)",
    "strips": "y ~ C(block) + C(treatment)",
    "latin": "y ~ C(row) + C(column) + C(treatment)",
    "split-plot": "y ~ C(block) + C(main) + C(block):C(main) + C(sub) + C(main):C(sub)",
    "strip-plot": "y ~ C(block) + C(main) + C(block):C(main) + C(sub) + C(block):C(sub) + C(main):C(sub)",
}
# Which line of the peer judges which of ours: (ours, peer's own, peer's error).
ERRORS = {
    "split-plot": {"block": "C(block):C(main)", "main": "C(block):C(main)"},
    "strip-plot": {"main": "C(block):C(main)", "sub": "C(block):C(sub)"},
}
NAMES = {"error": "Residual", "error_a": "C(block):C(main)", "main:sub": "C(main):C(sub)"}


def compared_table(design, document, table):
    last = {"split-plot": "error_b", "strip-plot": "error_c"}.get(design, "error")
    names = NAMES | {last: "Residual"} | ({"error_b": "C(block):C(sub)"} if design == "strip-plot" else {})
    for line in document["anova"]:
        if line["source"] == "total":
            continue
        peer = names.get(line["source"], f"C({line['source']})")
        assert line["df"] == table.df[peer], line
        assert line["ss"] == pytest.approx(table.sum_sq[peer], rel=1e-6, abs=1e-7), line
        if line["f"] is None:
            continue
        error = ERRORS.get(design, {}).get(line["source"], "Residual")
        f = (table.sum_sq[peer] / table.df[peer]) / (table.sum_sq[error] / table.df[error])
        assert line["f"] == pytest.approx(f, rel=1e-6, abs=1e-9), line
        assert line["p"] == pytest.approx(scipy.stats.f.sf(f, table.df[peer], table.df[error]), **CHANCE), line


def adjusted(fit, frame, other):
    """Differences of the other levels from the first and their errors, from the peer's fit."""
    first = sorted(set(frame.treatment))[0]
    name = f"C(treatment)[T.{other}]"
    return first, fit.params[name], fit.bse[name]


@pytest.mark.parametrize("design", FORMULAS)
def test_tables_and_pairs(design, tmp_path):
    for seed in range(CASES):
        rows = made(design, seed)
        document = told(design, rows, tmp_path)
        assert not document["refused"], (design, seed, document["verdict"])
        frame = pandas.DataFrame([row for row in rows if row["y"] is not None])
        fit = ols(FORMULAS[design], frame).fit()
        compared_table(design, document, anova_lm(fit, typ=2))
        if "treatment" not in frame:
            continue
        degrees, number = fit.df_resid, frame.treatment.nunique()
        first = sorted(set(frame.treatment))[0]
        # The peer takes long over a limit.
        limit = scipy.stats.studentized_range.isf(0.05, number, degrees) if seed % 8 < 2 else None
        for pair in document["comparisons"]:
            if first not in (pair["a"], pair["b"]):
                continue
            other = pair["b"] if pair["a"] == first else pair["a"]
            sign = 1 if pair["b"] == other else -1
            _, difference, error = adjusted(fit, frame, other)
            assert pair["difference"] == pytest.approx(sign * difference, **LINE)
            assert pair["standard_error"] == pytest.approx(error, **LINE)
            q = abs(difference) / error * math.sqrt(2)
            assert pair["p"] == pytest.approx(scipy.stats.studentized_range.sf(q, number, degrees), **CHANCE)
            if limit is not None:
                half = limit / math.sqrt(2) * error
                assert pair["high"] - pair["difference"] == pytest.approx(half, rel=1e-6)


def test_one_shuffle(tmp_path):
    for seed in range(CASES):
        rows = made("crd", seed)
        check = sorted({row["treatment"] for row in rows})[0]
        document = told("crd", rows, tmp_path, "--check", check)
        kept = [row for row in rows if row["y"] is not None]
        names = list(dict.fromkeys(row["treatment"] for row in rows))
        groups = {name: [row["y"] for row in kept if row["treatment"] == name] for name in names}
        treatment = next(line for line in document["anova"] if line["source"] == "treatment")
        assert treatment["f"] == pytest.approx(scipy.stats.f_oneway(*groups.values()).statistic, rel=1e-6)
        ranks = document["ranks"]
        kruskal = scipy.stats.kruskal(*groups.values())
        assert ranks["statistic"] == pytest.approx(kruskal.statistic, **LINE)
        assert ranks["p"] == pytest.approx(kruskal.pvalue, **CHANCE)
        dunn = scikit_posthocs.posthoc_dunn(list(groups.values()), p_adjust="holm")
        for pair in ranks["pairs"]:
            assert pair["p"] == pytest.approx(dunn.iloc[names.index(pair["a"]), names.index(pair["b"])], **CHANCE)
        prompts = document["prompts"]
        brown = scipy.stats.levene(*groups.values(), center="median")
        assert prompts["brown_forsythe"]["value"] == pytest.approx(brown.statistic, rel=1e-6)
        residuals = [row["residual"] for row in document["residuals"]]
        shapiro = scipy.stats.shapiro(residuals)
        assert prompts["shapiro_wilk"]["value"] == pytest.approx(shapiro.statistic, rel=1e-6)
        assert prompts["shapiro_wilk"]["p"] == pytest.approx(shapiro.pvalue, rel=1e-4, abs=1e-6)
        if seed % 4 < 2:
            others = [name for name in names if name != check]
            dunnett = scipy.stats.dunnett(*(groups[name] for name in others), control=groups[check], rng=seed)
            for pair in document["comparisons"]:
                assert pair["method"] == "dunnett" and pair["a"] == check
                assert pair["p"] == pytest.approx(dunnett.pvalue[others.index(pair["b"])], rel=0, abs=2e-3)


def test_blocks_by_ranks(tmp_path):
    for seed in range(0, 2 * CASES, 2):
        rows = made("rcbd", seed)
        document = told("rcbd", rows, tmp_path)
        names = list(dict.fromkeys(row["treatment"] for row in rows))
        blocks = list(dict.fromkeys(row["block"] for row in rows))
        value = {(row["block"], row["treatment"]): row["y"] for row in rows}
        cells = numpy.array([[value[block, name] for name in names] for block in blocks])
        ranks = document["ranks"]
        friedman = scipy.stats.friedmanchisquare(*cells.T)
        assert ranks["statistic"] == pytest.approx(friedman.statistic, **LINE)
        assert ranks["p"] == pytest.approx(friedman.pvalue, **CHANCE)
        conover = scikit_posthocs.posthoc_conover_friedman(cells)
        nemenyi = scikit_posthocs.posthoc_nemenyi_friedman(cells)
        for pair in ranks["pairs"]:
            peer = {"conover": conover, "nemenyi": nemenyi}[pair["method"]]
            expected = peer.iloc[names.index(pair["a"]), names.index(pair["b"])]
            assert pair["p"] == pytest.approx(expected, rel=0, abs=1e-5), pair


def test_pairs_are_a_paired_t(tmp_path):
    for seed in range(0, 2 * CASES, 2):
        rows = made("pairs", seed)
        document = told("pairs", rows, tmp_path)
        value = {(row["block"], row["treatment"]): row["y"] for row in rows}
        blocks = sorted({row["block"] for row in rows})
        (pair,) = document["comparisons"]
        a, b = ([value[block, pair[key]] for block in blocks] for key in "ab")
        peer = scipy.stats.ttest_rel(b, a)
        assert pair["p"] == pytest.approx(peer.pvalue, **CHANCE)
        interval = peer.confidence_interval()
        assert (pair["low"], pair["high"]) == pytest.approx((interval.low, interval.high), **LINE)
        # Every sign of every pair.
        differences = numpy.array(b) - numpy.array(a)
        sums = [abs(numpy.dot(differences, signs)) for signs in itertools.product((1, -1), repeat=len(blocks))]
        share = numpy.mean(numpy.array(sums) >= abs(differences.sum()) * (1 - 1e-12))
        (reordered,) = document["reordering"]
        assert reordered["exact"] and reordered["p"] == pytest.approx(share, abs=1e-12)


def test_reordering_with_lost_plots(tmp_path):
    """Every order within blocks, each fitted anew with the plots that are left."""
    for seed in range(1, 6):
        rng = random.Random(seed)
        blocks, names = range(3), range(3)
        y = {(block, name): rng.gauss(0, 1) + name for block in blocks for name in names}
        lost = rng.choice(list(y))
        rows = [{"block": f"b{b}", "treatment": f"t{t}", "y": None if (b, t) == lost else y[b, t]} for b, t in y]
        (reordered,) = told("rcbd", rows, tmp_path)["reordering"]
        kept = [place for place in y if place != lost]
        values = numpy.array([y[place] for place in kept])

        def left(orders):
            columns = [[float(b == own) for b, _ in kept] for own in blocks]
            if orders:
                columns += [[float(orders[b][t] == own) for b, t in kept] for own in names]
            fitted = numpy.linalg.lstsq(numpy.array(columns).T, values, rcond=None)[0]
            return float(((values - numpy.array(columns).T @ fitted) ** 2).sum())

        every = [left(orders) for orders in itertools.product(itertools.permutations(names), repeat=3)]
        own = left([tuple(names)] * 3)
        share = numpy.mean(numpy.array(every) <= own + 1e-9)
        assert reordered["p"] == pytest.approx(share, abs=1e-12)
