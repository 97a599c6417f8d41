//! Trials that were published or worked out elsewhere, as cases under `fixtures/science/trial/`.
#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a broken fixture must stop the test")]
#![expect(clippy::cast_precision_loss, reason = "counts of plots")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use kerfbook_science::trial::anova::{Analysis, Line, analyse};
use kerfbook_science::trial::comparison::{Comparison, letters};
use kerfbook_science::trial::curve::{Curve, FIRST_YELLOW_PCT};
use kerfbook_science::trial::design::{Design, Kind, Stratum};
use kerfbook_science::trial::efficiency::{effect, efficiency};
use kerfbook_science::trial::generator::SplitMix64;
use kerfbook_science::trial::layout::{self, Given};
use kerfbook_science::trial::least_squares::{Factor, fit};
use kerfbook_science::trial::rank::{self, Friedman, KruskalWallis, Pair};
use kerfbook_science::trial::response::Response;
use kerfbook_science::trial::simultaneous::Simultaneous;
use kerfbook_science::trial::structure::{Compared, Structure, Trial};
use kerfbook_science::trial::{diagnostic, power, randomisation, score};
use kerfbook_science::{distribution, student};
use serde_json::{Map, Value, json};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/trial")
}

fn case(name: &str) -> Value {
    let case: Value =
        serde_json::from_str(&fs::read_to_string(folder().join(format!("{name}.json"))).unwrap()).unwrap();
    for key in ["source", "standing"] {
        assert!(case[key].as_str().is_some_and(|text| !text.is_empty()), "{name}: no {key}");
    }
    case
}

fn names(kind: &str, count: usize) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
        .filter(|name| name.starts_with(kind))
        .collect();
    names.sort();
    assert_eq!(names.len(), count, "cases of {kind}");
    names
}

/// Every number and text that is expected must be computed, within the case's tolerance; nothing may be left out.
struct Check<'a> {
    tolerance: &'a Value,
    wrong: Vec<String>,
    compared: usize,
}

impl Check<'_> {
    fn of(name: &str, case: &Value, expected: &Value, computed: &Value) -> usize {
        let mut check = Check { tolerance: &case["tolerance"], wrong: Vec::new(), compared: 0 };
        check.value("", expected, computed);
        assert!(check.wrong.is_empty(), "{name}:\n{}", check.wrong.join("\n"));
        check.compared
    }

    fn value(&mut self, path: &str, expected: &Value, computed: &Value) {
        match expected {
            // "not defined" there; what we say instead is tested elsewhere.
            Value::Null => {}
            Value::Object(map) => {
                for (key, expected) in map {
                    if key == "note" || key == "source" || key == "statistic" {
                        continue;
                    }
                    self.value(&format!("{path}/{key}"), expected, &computed[key]);
                }
            }
            Value::Array(list) => {
                for (index, expected) in list.iter().enumerate() {
                    self.value(&format!("{path}/{index}"), expected, &computed[index]);
                }
            }
            Value::Number(_) => self.number(path, expected.as_f64().unwrap(), computed),
            other => {
                self.compared += 1;
                if other != computed {
                    self.wrong.push(format!("{path}: {computed} is not {other}"));
                }
            }
        }
    }

    fn number(&mut self, path: &str, expected: f64, computed: &Value) {
        self.compared += 1;
        let Some(value) = computed.as_f64() else {
            self.wrong.push(format!("{path}: {computed} is no number; {expected} is expected"));
            return;
        };
        let of = |key: &str| self.tolerance[key].as_f64();
        let last = path.rsplit('/').next().unwrap_or_default();
        let is_chance = last == "p" || last.starts_with("p_") || last == "exact_p" || path.contains("_p/");
        let within =
            if path.contains("dunnett") && (is_chance || path.contains("ci95") || last.starts_with("crit")) {
                of("dunnett").unwrap() * if is_chance { 1.0 } else { expected.abs().max(1.0) }
            } else if is_chance && of("p").is_some() {
                of("p").unwrap()
            } else {
                of("absolute").unwrap_or(0.0).max(of("relative").unwrap_or(0.0) * expected.abs())
                // A sum that is 0 but for rounding there.
                + if of("relative").is_some() && expected.abs() < 1e-9 { 1e-9 } else { 0.0 }
            };
        let apart = (value - expected).abs();
        if apart.is_nan() || apart > within {
            self.wrong.push(format!("{path}: {value} is not {expected} (± {within:e})"));
        }
    }
}

/// Levels in the order that a case gives, else as they come up.
struct Levels(Vec<String>);

impl Levels {
    fn read(case: &Value, order: &str, rows: &[Value], key: &str) -> Self {
        let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
        if let Some(order) = case[order].as_array() {
            return Self(order.iter().map(text).collect());
        }
        let mut levels: Vec<String> = Vec::new();
        for row in rows {
            let level = text(&row[key]);
            if !levels.contains(&level) {
                levels.push(level);
            }
        }
        Self(levels)
    }

    fn factor(&self, rows: &[Value], key: &str) -> Factor {
        let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
        let level = |row: &Value| {
            let own = text(&row[key]);
            self.0.iter().position(|level| *level == own).unwrap_or_else(|| panic!("no level {own}"))
        };
        Factor { levels: self.0.len(), of: rows.iter().map(level).collect() }
    }
}

fn response(rows: &[Value], transform: Option<&str>) -> Response {
    let texts: Vec<Option<String>> =
        rows.iter().map(|row| row["y"].as_f64().map(|y| y.to_string())).collect();
    let texts: Vec<Option<&str>> = texts.iter().map(Option::as_deref).collect();
    let response = Response::from_texts(&texts).unwrap();
    match transform {
        None => response,
        Some("sqrt(y)") => response.mapped(f64::sqrt),
        Some("log10(y+1)") => response.mapped(|y| libm::log10(y + 1.0)),
        Some(text) if text.starts_with("degrees(asin") => response.mapped(|y| {
            let least = 1.0 / (4.0 * 75.0);
            let pct = y.clamp(least, 100.0 - least);
            libm::asin((pct / 100.0).sqrt()).to_degrees()
        }),
        Some(other) => panic!("no transformation {other}"),
    }
}

fn table(analysis: &Analysis, names: &[(Line, &str)]) -> Value {
    let mut table = Map::new();
    for &(line, name) in names {
        let row = analysis.row(line).unwrap();
        let mut told =
            json!({ "df": row.degrees, "ss": row.squares, "ms": row.mean_square(), "F": row.f, "p": row.p });
        if name == "gen" || name == "nitro" || name == "gen:nitro" {
            let error = match line {
                Line::Main => Line::ErrorMain,
                Line::Sub => Line::ErrorSub,
                _ => Line::ErrorCrossing,
            };
            told["error_df"] = json!(analysis.row(error).unwrap().degrees);
        }
        table.insert(name.to_owned(), told);
    }
    Value::Object(table)
}

fn pairs(levels: &Levels, pairs: &[Pair]) -> Value {
    let told = pairs.iter().map(|(a, b, p)| (format!("{}|{}", levels.0[*a], levels.0[*b]), json!(p)));
    Value::Object(told.collect())
}

fn by_level(levels: &Levels, values: impl IntoIterator<Item = Value>) -> Value {
    Value::Object(levels.0.iter().cloned().zip(values).collect())
}

fn kruskal(levels: &Levels, treatment: &Factor, y: &[f64]) -> Value {
    let (_, ties) = rank::ranks(y);
    let KruskalWallis { h, uncorrected, degrees, p, rank_sums, pairs: dunn } =
        rank::kruskal_wallis(treatment, y);
    let n = y.len() as f64;
    let plots = |level: usize| treatment.of.iter().filter(|of| **of == level).count() as f64;
    json!({
        "H_uncorrected": uncorrected, "tie_sum_t3_minus_t": ties, "tie_factor": 1.0 - ties / (n * n * n - n),
        "H": h, "df": degrees, "p": p, "epsilon2": h.unwrap() / (n - 1.0),
        "rank_sums": by_level(levels, rank_sums.iter().map(|sum| json!(sum))),
        "mean_ranks": by_level(levels, rank_sums.iter().enumerate().map(|(l, sum)| json!(sum / plots(l)))),
        "dunn_holm_p": pairs(levels, &dunn),
    })
}

fn friedman(levels: &Levels, block: &Factor, treatment: &Factor, y: &[f64]) -> Value {
    let mut cells = vec![vec![0.0; treatment.levels]; block.levels];
    for (plot, value) in y.iter().enumerate() {
        cells[block.of[plot]][treatment.of[plot]] = *value;
    }
    let Friedman { q, uncorrected, degrees, p, f, agreement, rank_sums, squares, conover, nemenyi, .. } =
        rank::friedman(&cells);
    let (n, k) = (block.levels as f64, treatment.levels as f64);
    let squared: f64 = rank_sums.iter().map(|sum| sum * sum).sum();
    let below = (n - 1.0) * (k - 1.0);
    let range = Simultaneous::range(treatment.levels).limit(0.95, f64::INFINITY);
    json!({
        "Q_uncorrected": uncorrected, "Q": q, "df": degrees, "p_chi2": p,
        "iman_davenport_F": f.map(|f| f.0), "iman_df": [k - 1.0, below], "p_iman": f.map(|f| f.1),
        "kendall_W": agreement, "rank_sums": by_level(levels, rank_sums.iter().map(|sum| json!(sum))),
        "A": squares.0, "C": squares.1,
        "conover_rank_sum_lsd_5pct": student::t_95(below) * (2.0 * (n * squares.0 - squared) / below).sqrt(),
        "nemenyi_cd_mean_rank_5pct": range / core::f64::consts::SQRT_2 * (k * (k + 1.0) / (6.0 * n)).sqrt(),
        "nemenyi_p": pairs(levels, &nemenyi), "conover_p": pairs(levels, &conover),
    })
}

/// All that the cases of one factor expect.
#[expect(clippy::too_many_lines, reason = "one piece a kind of result")]
fn single_factor(
    input: &Value,
    expected: &Value,
    trial: &Trial,
    levels: &Levels,
    blocks: Option<&Levels>,
) -> Value {
    let analysis = analyse(trial);
    let group = analysis.group(Compared::Treatment).unwrap();
    let lines: &[(Line, &str)] = match trial.structure() {
        Structure::Single { .. } => &[(Line::Treatment, "treatment")],
        Structure::Blocks { .. } => &[(Line::Block, "block"), (Line::Treatment, "treatment")],
        _ => &[(Line::Row, "row"), (Line::Column, "column"), (Line::Treatment, "treatment")],
    };
    let lines: Vec<_> =
        lines.iter().copied().chain([(Line::Error, "error"), (Line::Total, "total")]).collect();
    let y = trial.above();
    let treatment = trial.structure().factors().pop().unwrap();
    let t_95 = student::t_95(group.error.degrees as f64);
    let t_99 = student::two_sided(0.99, group.error.degrees as f64);
    let root = core::f64::consts::SQRT_2;
    let tukey = group.tukey();
    let q = if levels.0.len() == 2 {
        t_95 * root
    } else {
        Simultaneous::range(levels.0.len()).limit(0.95, group.error.degrees as f64)
    };
    let all: Vec<Value> = tukey
        .iter()
        .map(|wide| {
            let lsd = group.lsd(wide.a, wide.b);
            let t = wide.difference / wide.standard_error;
            json!({
                "a": levels.0[wide.a], "b": levels.0[wide.b], "diff_b_minus_a": wide.difference,
                "sed": wide.standard_error, "t": t, "p_lsd": lsd.p,
                "lsd_5pct": t_95 * wide.standard_error, "lsd_1pct": t_99 * wide.standard_error,
                "ci95_lsd": [lsd.low, lsd.high], "q": t.abs() * root, "p_tukey": wide.p,
                "ci95_tukey": [wide.low, wide.high], "hsd_5pct": q / root * wide.standard_error,
            })
        })
        .collect();
    let means: Vec<f64> = group.means.iter().map(|mean| mean.adjusted).collect();
    let clear = |all: &[Comparison], a: usize, b: usize| {
        all.iter().any(|c| (c.a, c.b) == (a.min(b), a.max(b)) && c.is_clear())
    };
    let lsd: Vec<Comparison> = tukey.iter().map(|c| group.lsd(c.a, c.b)).collect();
    let told = |all: &[Comparison]| {
        by_level(levels, letters(&means, |a, b| clear(all, a, b)).into_iter().map(Value::from))
    };
    let variation = analysis.variation_pct();
    let effect = effect(trial, &analysis).unwrap();
    let mut computed = json!({
        "anova": table(&analysis, &lines), "grand_mean": analysis.grand_mean, "mse": group.error.variance,
        "df_error": group.error.degrees, "cv_percent": variation,
        "means": by_level(levels, group.means.iter().map(|mean| {
            json!({ "n": mean.plots, "mean": mean.plain, "sd": mean.deviation })
        })),
        "pairwise": { "q_crit_5pct": q, "t_crit_5pct": t_95, "pairs": all },
        "letters_tukey_5pct": told(&tukey), "letters_lsd_5pct": told(&lsd),
        "r_squared": effect.partial_eta, "eta2": effect.partial_eta, "omega2": effect.omega,
        "cohen_f": (effect.partial_eta / (1.0 - effect.partial_eta)).sqrt(),
        "partial_eta2": effect.partial_eta, "partial_omega2": effect.omega,
    });
    for key in ["dunnett", "dunnett_vs_bare"] {
        let Some(control) = expected[key]["control"].as_str() else { continue };
        let check = levels.0.iter().position(|level| level == control).unwrap();
        let comparisons = group.dunnett(check);
        let first = comparisons[0];
        computed[key] = json!({
            "control": control,
            "crit_5pct_two_sided": (first.high - first.difference) / first.standard_error,
            "comparisons": comparisons.iter().map(|c| json!({
                "treatment": levels.0[c.b], "diff_vs_control": c.difference,
                "t": c.difference / c.standard_error, "p": c.p, "ci95": [c.low, c.high],
            })).collect::<Vec<_>>(),
        });
    }
    if let Some(contrasts) = expected["contrasts"].as_array() {
        computed["contrasts"] = contrasts
            .iter()
            .map(|wanted| {
                let weights: Vec<f64> =
                    levels.0.iter().map(|level| wanted["coef"][level].as_f64().unwrap_or(0.0)).collect();
                let contrast = group.contrast(&weights);
                let t = contrast.estimate / contrast.standard_error;
                json!({
                    "name": wanted["name"], "coef": wanted["coef"], "estimate": contrast.estimate,
                    "ss": contrast.squares, "se": contrast.standard_error, "t": t, "F": t * t, "p": contrast.p,
                    "ci95": [contrast.low, contrast.high],
                })
            })
            .collect();
    }
    if let Some(gain) = efficiency(trial, &analysis) {
        let square =
            |line: Line| analysis.row(line).and_then(kerfbook_science::trial::anova::Row::mean_square);
        let error = group.error.variance;
        let n = levels.0.len() as f64;
        let alone = |line: Line| square(line).map(|own| (own + (n - 1.0) * error) / (n * error));
        computed["relative_efficiency"] = json!({
            "vs_crd": gain.over_one_shuffle, "vs_crd_adjusted": gain.adjusted,
            "df_factor": gain.adjusted.map(|adjusted| adjusted / gain.over_one_shuffle),
            "expected_crd_mse": gain.over_one_shuffle * error,
            "rows_as_blocks_vs_none": alone(Line::Row), "columns_as_blocks_vs_none": alone(Line::Column),
        });
    }
    let own = |level: usize| -> Vec<f64> {
        y.iter().zip(&treatment.of).filter(|(_, of)| **of == level).map(|(value, _)| *value).collect()
    };
    let groups: Vec<Vec<f64>> = (0..treatment.levels).map(own).collect();
    let prompt = |prompt: Option<diagnostic::Prompt>, name: &str| {
        prompt.map(|prompt| json!({ name: prompt.value, "p": prompt.p }))
    };
    computed["assumptions"] = json!({
        "shapiro_wilk_on_residuals": prompt(diagnostic::shapiro_wilk(&analysis.residuals), "W"),
        "bartlett": prompt(diagnostic::bartlett(&groups), "chi2"),
        "brown_forsythe": prompt(diagnostic::brown_forsythe(&groups), "F"),
    });
    match trial.structure() {
        Structure::Single { treatment } => {
            computed["kruskal_wallis"] = kruskal(levels, treatment, &y);
            if let Some((welch, below)) = diagnostic::welch(&groups) {
                computed["welch_anova"] =
                    json!({ "F": welch.value, "df": [levels.0.len() - 1, below], "p": welch.p });
            } else {
                computed["welch_anova"] = json!({ "df": [levels.0.len() - 1] });
            }
        }
        Structure::Blocks { block, treatment } => {
            computed["friedman"] = friedman(levels, block, treatment, &y);
            let of = |level: usize| -> f64 {
                let own: Vec<f64> = y
                    .iter()
                    .zip(&block.of)
                    .filter(|(_, of)| **of == level)
                    .map(|(value, _)| *value)
                    .collect();
                trial.response().origin() + own.iter().sum::<f64>() / own.len() as f64
            };
            computed["block_means"] =
                by_level(blocks.unwrap(), (0..block.levels).map(|level| json!(of(level))));
            let (additive, squares) = diagnostic::non_additivity(trial, &analysis).unwrap();
            computed["tukey_nonadditivity"] = json!({
                "ss": squares, "F": additive.value, "df": [1, analysis.error.degrees - 1], "p": additive.p,
            });
        }
        _ => {}
    }
    if let Some(reordered) = randomisation::test(trial, Compared::Treatment, 1) {
        computed["randomisation_test_exact"] = json!({ "arrangements": reordered.arrangements, "ge_observed": reordered.at_least, "p": reordered.p });
    }
    if !expected["randomisation_test_exact_L1_vs_L2"].is_null() {
        let rows: Vec<Value> = input["rows"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|row| row["treatment"] == "L1" || row["treatment"] == "L2")
            .cloned()
            .collect();
        let two = Levels(vec!["L1".to_owned(), "L2".to_owned()]);
        let structure = Structure::Single { treatment: two.factor(&rows, "treatment") };
        let pair = Trial::new(Kind::CompletelyRandomised, structure, response(&rows, None)).unwrap();
        let reordered = randomisation::test(&pair, Compared::Treatment, 1).unwrap();
        computed["randomisation_test_exact_L1_vs_L2"] = json!({ "arrangements": reordered.arrangements, "ge_observed": reordered.at_least, "p": reordered.p });
    }
    computed
}

fn two_factors(trial: &Trial, main: &Levels, sub: &Levels, names: &[(Line, &str)]) -> Value {
    let analysis = analyse(trial);
    let (a, b) = (analysis.group(Compared::Main).unwrap(), analysis.group(Compared::Sub).unwrap());
    let structure = trial.structure();
    let factors = structure.factors();
    let y = trial.above();
    let origin = trial.response().origin();
    let cell = |one: usize, other: usize| {
        let own: Vec<f64> = (0..y.len())
            .filter(|&plot| factors[1].of[plot] == one && factors[2].of[plot] == other)
            .map(|plot| y[plot])
            .collect();
        origin + own.iter().sum::<f64>() / own.len() as f64
    };
    let mut cells = Map::new();
    for (one, name) in main.0.iter().enumerate() {
        for (other, inner) in sub.0.iter().enumerate() {
            cells.insert(format!("{name}|{inner}"), json!(cell(one, other)));
        }
    }
    let (ea, eb) = (a.error.variance, b.error.variance);
    let (levels, blocks) = (sub.0.len() as f64, factors[0].levels as f64);
    let same = (2.0 * eb / blocks).sqrt();
    let across = (2.0 * ((levels - 1.0) * eb + ea) / (levels * blocks)).sqrt();
    let (ta, tb) = (student::t_95(a.error.degrees as f64), student::t_95(b.error.degrees as f64));
    let weighted = ((levels - 1.0) * eb * tb + ea * ta) / ((levels - 1.0) * eb + ea);
    let mean = |group: &kerfbook_science::trial::anova::Group, levels: &Levels| {
        by_level(levels, group.means.iter().map(|mean| json!(mean.adjusted)))
    };
    json!({
        "anova": table(&analysis, names), "means_A": mean(a, main), "means_B": mean(b, sub), "means_AB": cells,
        "grand_mean": analysis.grand_mean,
        "cv_a_percent": 100.0 * ea.sqrt() / analysis.grand_mean,
        "cv_b_percent": analysis.variation_pct(),
        "sed": { "two_A_means": a.standard_error(0, 1), "two_B_means": b.standard_error(0, 1),
                 "two_B_same_A": same, "two_A_same_or_diff_B": across },
        "t_5pct": { "A": ta, "B": tb, "weighted": weighted },
        "lsd_5pct": { "two_A_means": ta * a.standard_error(0, 1), "two_B_means": tb * b.standard_error(0, 1),
                      "two_B_same_A": tb * same, "two_A_same_or_diff_B": weighted * across },
    })
}

fn dataset(name: &str) -> usize {
    let case = case(name);
    let (input, expected) = (&case["input"], &case["expected"]);
    let rows = input["rows"].as_array().unwrap();
    let transform = input["transform"].as_str();
    let y = || response(rows, transform);
    let design = input["design"].as_str().unwrap();
    let computed = if design == "CRD" || design == "RCBD" || design == "Latin square" {
        let levels = Levels::read(input, "treatment_order", rows, "treatment");
        let treatment = levels.factor(rows, "treatment");
        let by = |key: &str| Levels::read(input, &format!("{key}_order"), rows, key);
        match design {
            "CRD" => {
                let trial =
                    Trial::new(Kind::CompletelyRandomised, Structure::Single { treatment }, y()).unwrap();
                single_factor(input, expected, &trial, &levels, None)
            }
            "RCBD" => {
                let blocks = by("block");
                let structure = Structure::Blocks { block: blocks.factor(rows, "block"), treatment };
                let trial = Trial::new(Kind::RandomisedBlocks, structure, y()).unwrap();
                single_factor(input, expected, &trial, &levels, Some(&blocks))
            }
            _ => {
                let row = by("row").factor(rows, "row");
                let column = by("column").factor(rows, "column");
                let trial =
                    Trial::new(Kind::LatinSquare, Structure::Square { row, column, treatment }, y()).unwrap();
                single_factor(input, expected, &trial, &levels, None)
            }
        }
    } else if design.starts_with("split plot") {
        let (main, sub) =
            (Levels::read(input, "A_order", rows, "A"), Levels::read(input, "B_order", rows, "B"));
        let block = Levels::read(input, "block_order", rows, "block").factor(rows, "block");
        let structure = Structure::Split { block, main: main.factor(rows, "A"), sub: sub.factor(rows, "B") };
        let trial = Trial::new(Kind::SplitPlot, structure, y()).unwrap();
        let names = [
            (Line::Block, "block"),
            (Line::Main, "A"),
            (Line::ErrorMain, "error_a"),
            (Line::Sub, "B"),
            (Line::MainBySub, "A:B"),
            (Line::ErrorSub, "error_b"),
            (Line::Total, "total"),
        ];
        two_factors(&trial, &main, &sub, &names)
    } else if design.starts_with("strip plot") {
        let (main, sub) = (Levels::read(input, "", rows, "gen"), Levels::read(input, "", rows, "nitro"));
        let block = Levels::read(input, "", rows, "rep").factor(rows, "rep");
        let structure =
            Structure::Strip { block, main: main.factor(rows, "gen"), sub: sub.factor(rows, "nitro") };
        let trial = Trial::new(Kind::StripPlot, structure, y()).unwrap();
        let names = [
            (Line::Block, "rep"),
            (Line::Main, "gen"),
            (Line::ErrorMain, "error_a"),
            (Line::Sub, "nitro"),
            (Line::ErrorSub, "error_b"),
            (Line::MainBySub, "gen:nitro"),
            (Line::ErrorCrossing, "error_c"),
        ];
        two_factors(&trial, &main, &sub, &names)
    } else if design == "side-by-side pairs" {
        pairs_of_maize(rows)
    } else {
        confounded(rows)
    };
    Check::of(name, &case, expected, &computed)
}

fn pairs_of_maize(rows: &[Value]) -> Value {
    let eighths: Vec<f64> = rows
        .iter()
        .map(|row| 8.0 * (row["cross"].as_f64().unwrap() - row["self"].as_f64().unwrap()))
        .collect();
    let n = rows.len();
    let values: Vec<Option<f64>> = rows
        .iter()
        .flat_map(|row| [row["self"].as_f64(), row["cross"].as_f64()])
        .map(|y| y.map(|y| 8.0 * y))
        .collect();
    let block = Factor { levels: n, of: (0..2 * n).map(|plot| plot / 2).collect() };
    let treatment = Factor { levels: 2, of: (0..2 * n).map(|plot| plot % 2).collect() };
    let structure = Structure::Blocks { block, treatment };
    let trial = Trial::new(Kind::Pairs, structure, Response::from_numbers(&values)).unwrap();
    let analysis = analyse(&trial);
    let group = analysis.group(Compared::Treatment).unwrap();
    let lsd = group.lsd(0, 1);
    let reordered = randomisation::test(&trial, Compared::Treatment, 1).unwrap();
    let sum: f64 = eighths.iter().sum();
    let sizes: Vec<f64> = eighths.iter().map(|difference| difference.abs()).collect();
    let (ranks, _) = rank::ranks(&sizes);
    let signed = |up: bool| -> f64 {
        eighths.iter().zip(&ranks).filter(|(d, _)| (**d > 0.0) == up).map(|(_, rank)| rank).sum()
    };
    json!({
        "differences_eighths": eighths, "n": n, "mean": lsd.difference,
        "sd": (2.0 * group.error.variance).sqrt(), "se": lsd.standard_error,
        "t": lsd.difference / lsd.standard_error, "df": group.error.degrees, "p_two_sided": lsd.p,
        "ci95": [lsd.low, lsd.high],
        // The first pair held fixed halves all counts; the sum is not two-sided.
        "sign_flip_exact": {
            "sum": sum, "arrangements": 2 * reordered.arrangements, "ge_observed": reordered.at_least,
            "p_one_sided": reordered.p / 2.0, "abs_ge_observed": 2 * reordered.at_least,
            "p_two_sided": reordered.p,
        },
        "wilcoxon": { "W_plus": signed(true), "W_minus": signed(false) },
        "sign_test": {
            "positive": eighths.iter().filter(|d| **d > 0.0).count(),
            "negative": eighths.iter().filter(|d| **d < 0.0).count(),
            "p_two_sided": rank::signs(&eighths),
        },
    })
}

/// Two by two by two, its last interaction lost in the blocks: the least squares behind all designs.
fn confounded(rows: &[Value]) -> Value {
    let factor = |key: &str| Levels::read(&Value::Null, "", rows, key).factor(rows, key);
    let factors = ["block", "N", "P", "K"].map(factor);
    let y: Vec<f64> = rows.iter().map(|row| row["y"].as_f64().unwrap()).collect();
    let terms: [&[usize]; 7] = [&[0], &[1], &[2], &[3], &[1, 2], &[1, 3], &[2, 3]];
    let fitted = fit(&factors, &terms, &y);
    let error = fitted.error();
    let variance = error.squares / error.degrees as f64;
    let names = ["C(block)", "C(N)", "C(P)", "C(K)", "C(N):C(P)", "C(N):C(K)", "C(P):C(K)"];
    let mut table = Map::new();
    for (name, term) in names.iter().zip(fitted.terms()) {
        let square = term.squares / term.degrees as f64;
        let f = square / variance;
        let p = distribution::f_beyond(f, term.degrees as f64, error.degrees as f64);
        table.insert(
            (*name).to_owned(),
            json!({ "df": term.degrees, "ss": term.squares, "ms": square, "F": f, "p": p }),
        );
    }
    table.insert("Residual".to_owned(), json!({ "df": error.degrees, "ss": error.squares, "ms": variance }));
    json!({ "anova": table, "grand_mean": y.iter().sum::<f64>() / y.len() as f64 })
}

#[test]
fn worked_trials_come_out_the_same() {
    let compared: usize = names("dataset-", 22).iter().map(|name| dataset(name)).sum();
    assert!(compared > 5000, "only {compared} figures were compared");
}

#[test]
fn certified_tables_hold_to_nine_digits() {
    for name in names("nist-", 11) {
        let case = case(&name);
        let mut texts: Vec<String> = Vec::new();
        let mut of = Vec::new();
        let groups = case["input"]["groups"].as_array().unwrap();
        for (level, group) in groups.iter().enumerate() {
            let text = |value: &Value| value.as_str().unwrap().to_owned();
            let before = texts.len();
            if let Some(values) = group["values"].as_array() {
                texts.extend(values.iter().map(text));
            } else {
                texts.push(text(&group["first"]));
                for _ in 0..group["times"].as_u64().unwrap() {
                    texts.extend(group["then"].as_array().unwrap().iter().map(text));
                }
            }
            of.extend(std::iter::repeat_n(level, texts.len() - before));
        }
        let texts: Vec<Option<&str>> = texts.iter().map(|text| Some(text.as_str())).collect();
        let structure = Structure::Single { treatment: Factor { levels: groups.len(), of } };
        let trial =
            Trial::new(Kind::CompletelyRandomised, structure, Response::from_texts(&texts).unwrap()).unwrap();
        let analysis = analyse(&trial);
        let (between, within) = (analysis.row(Line::Treatment).unwrap(), analysis.row(Line::Error).unwrap());
        let computed = json!({
            "between_df": between.degrees, "between_ss": between.squares, "between_ms": between.mean_square(),
            "F": between.f, "within_df": within.degrees, "within_ss": within.squares,
            "within_ms": within.mean_square(), "residual_sd": within.mean_square().unwrap().sqrt(),
            "r_squared": between.squares / (between.squares + within.squares),
        });
        // The certified values are written as texts; a number reads the same.
        let expected: Map<String, Value> = case["expected"]
            .as_object()
            .unwrap()
            .iter()
            .map(|(key, value)| {
                let number =
                    value.as_str().map_or_else(|| value.clone(), |text| json!(text.parse::<f64>().unwrap()));
                (key.clone(), number)
            })
            .collect();
        Check::of(&name, &case, &Value::Object(expected), &computed);
    }
}

#[test]
fn curves_have_their_areas() {
    for name in names("curve-", 6) {
        let case = case(&name);
        let numbers = |key: &str| -> Vec<f64> {
            case["input"][key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect()
        };
        let curve = Curve::new(&numbers("days"), &numbers("score")).unwrap();
        let most = case["input"]["scale_max"].as_f64().unwrap();
        let computed = json!({
            "audpc": curve.area(), "saudpc": curve.season_mean(), "raudpc": curve.season_mean() / most,
            "audps": curve.stairs(), "saudps": curve.stairs_mean(), "raudps": curve.stairs_mean() / most,
        });
        Check::of(&name, &case, &case["expected"], &computed);
    }
}

fn letters_of(plots: &[layout::Plot], names: &[&str]) -> Vec<Vec<String>> {
    let name = |plot: &layout::Plot| match plot.given {
        Given::Treatment(treatment) => names[treatment].to_owned(),
        Given::Crossed { main, sub } => format!("a{}b{}", main + 1, sub + 1),
    };
    plots.chunk_by(|a, b| a.row == b.row).map(|row| row.iter().map(name).collect()).collect()
}

#[test]
fn layouts_are_the_same_bit_for_bit() {
    let case = case("layouts");
    let expected = &case["expected"];
    let mut generator = SplitMix64::new(1_234_567);
    for wanted in expected["first_five"].as_array().unwrap() {
        assert_eq!(wanted.as_str().unwrap(), generator.draw().to_string());
    }
    let layouts = &expected["layouts"];
    let drawn = |design: &Design, seed: u64, per_row: usize, names: &[&str]| {
        letters_of(&layout::draw(design, seed, 0, per_row).unwrap().plots, names)
    };
    let blocks =
        drawn(&Design::RandomisedBlocks { treatments: 4, blocks: 4 }, 20_240_501, 0, &["A", "B", "C", "D"]);
    assert_eq!(json!(blocks), layouts["rcbd_seed_20240501_ABCD_4blocks"]);
    let one = drawn(&Design::CompletelyRandomised { plots: vec![4, 4, 4] }, 7, 12, &["A", "B", "C"]);
    assert_eq!(json!(one[0]), layouts["crd_seed_7_ABC_x4"]);
    let square = drawn(&Design::LatinSquare { side: 5 }, 42, 0, &["A", "B", "C", "D", "E"]);
    assert_eq!(json!(square), layouts["latin_seed_42_ABCDE"]);
    let pairs = drawn(&Design::Pairs { pairs: 6 }, 5, 0, &["control", "treated"]);
    assert_eq!(json!(pairs), layouts["pairs_seed_5_6pairs"]);
    let split = drawn(&Design::SplitPlot { main: 2, sub: 3, blocks: 3 }, 99, 0, &[]);
    let flat: Vec<Vec<String>> = layouts["split_seed_99_A_main_B_sub_3blocks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|block| {
            let of_main = |main: &Value| -> Vec<String> {
                let name = main[0].as_str().unwrap();
                main[1]
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(|sub| format!("{name}{}", sub.as_str().unwrap()))
                    .collect()
            };
            block.as_array().unwrap().iter().flat_map(of_main).collect()
        })
        .collect();
    assert_eq!(split, flat);
}

#[test]
fn lost_plots_are_fitted_as_the_formulas_of_the_hand_say() {
    let hand = case("missing-3-treatments-x-3-blocks-worked-example");
    let number = |key: &str| hand["input"][key].as_f64().unwrap();
    let (t, r) = (number("t"), number("r"));
    let (block, treatment) =
        (number("block_total_without_missing"), number("treatment_total_without_missing"));
    let estimate = (r * block + t * treatment - number("grand_total")) / ((r - 1.0) * (t - 1.0));
    let bias = (block - (t - 1.0) * estimate) * (block - (t - 1.0) * estimate) / (t * (t - 1.0));
    assert!((estimate - hand["expected"]["published_estimate"].as_f64().unwrap()).abs() < 1e-12);
    assert!((bias - hand["expected"]["published_bias"].as_f64().unwrap()).abs() < 0.005);
    for name in names("missing-", 6) {
        let case = case(&name);
        let (input, expected) = (&case["input"], &case["expected"]);
        let Some(rows) = input["rows"].as_array() else { continue };
        let missing = input["missing"].as_object();
        let is_missing =
            |row: &Value| missing.is_some_and(|missing| missing.iter().all(|(key, v)| row[key] == *v));
        let rows: Vec<Value> = rows
            .iter()
            .map(|row| {
                let mut row = row.clone();
                if is_missing(&row) {
                    row["y"] = Value::Null;
                }
                row
            })
            .collect();
        let levels = Levels::read(input, "treatment_order", &rows, "treatment");
        let treatment = levels.factor(&rows, "treatment");
        let square = input["design"] == "Latin square";
        let by = |key: &str| Levels::read(input, &format!("{key}_order"), &rows, key).factor(&rows, key);
        let (kind, structure) = if square {
            (Kind::LatinSquare, Structure::Square { row: by("row"), column: by("column"), treatment })
        } else {
            (Kind::RandomisedBlocks, Structure::Blocks { block: by("block"), treatment })
        };
        let trial = Trial::new(kind, structure, response(&rows, None)).unwrap();
        let analysis = analyse(&trial);
        let (own, error) = (analysis.row(Line::Treatment).unwrap(), analysis.row(Line::Error).unwrap());
        let group = analysis.group(Compared::Treatment).unwrap();
        // The fitted value of a lost plot is what the least squares would have put there.
        let factors: Vec<Factor> = trial
            .structure()
            .factors()
            .iter()
            .map(|f| Factor { levels: f.levels, of: trial.kept().iter().map(|&plot| f.of[plot]).collect() })
            .collect();
        let terms: Vec<[usize; 1]> = (0..factors.len()).map(|factor| [factor]).collect();
        let terms: Vec<&[usize]> = terms.iter().map(<[usize; 1]>::as_slice).collect();
        let fitted = fit(&factors, &terms, &trial.above());
        let all = trial.structure().factors();
        let prediction = |plot: usize| {
            let cell: Vec<(usize, usize)> = all.iter().enumerate().map(|(at, f)| (at, f.of[plot])).collect();
            trial.response().origin() + fitted.estimate(&fitted.mean(&cell).unwrap())
        };
        let lost: Vec<usize> = (0..rows.len()).filter(|&plot| rows[plot]["y"].is_null()).collect();
        let filled = own.squares + expected["bias"].as_f64().unwrap_or(0.0);
        let gone = lost.first().map(|&plot| all.last().unwrap().of[plot]);
        let computed = json!({
            "estimate": lost.first().map(|&plot| prediction(plot)),
            "least_squares_prediction": lost.first().map(|&plot| prediction(plot)),
            "error_df": error.degrees, "error_ss": error.squares, "mse": error.mean_square(),
            "treatment_ss_corrected": own.squares, "exact_treatment_ss_type2": own.squares,
            "treatment_ss_filled": filled, "bias": filled - own.squares,
            "exact_F": own.f, "exact_p": own.p,
            "sed_missing_vs_other": gone.map(|gone| group.standard_error(gone, usize::from(gone == 0))),
            "estimates": lost.iter().map(|&plot| json!({
                "treatment": rows[plot]["treatment"], "block": rows[plot]["block"], "estimate": prediction(plot),
            })).collect::<Vec<_>>(),
            "exact_anova_type2": table(&analysis, &[
                (Line::Treatment, "C(trt)"),
                (if square { Line::Row } else { Line::Block }, "C(block)"),
                (Line::Error, "Residual"),
            ]),
        });
        Check::of(&name, &case, expected, &computed);
    }
}

#[test]
fn small_trials_can_show_no_more_than_counted() {
    let case = case("small-samples");
    let expected = &case["expected"];
    let number = |row: &Value, key: &str| usize::try_from(row[key].as_u64().unwrap()).unwrap();
    let check = |design: &Design, wanted: &Value| {
        let wanted = wanted.as_f64().unwrap();
        assert!((design.smallest_p() / wanted - 1.0).abs() < 1e-12, "{design:?}: {}", design.smallest_p());
    };
    let smallest = &expected["smallest_p"];
    for row in smallest["rcbd"].as_array().unwrap() {
        let (treatments, blocks) = (number(row, "treatments"), number(row, "blocks"));
        check(&Design::RandomisedBlocks { treatments, blocks }, &row["smallest_p_of_randomisation_F"]);
    }
    for row in smallest["pairs_two_sided"].as_array().unwrap() {
        check(&Design::Pairs { pairs: number(row, "pairs") }, &row["smallest_p"]);
    }
    for row in smallest["crd_two_groups_two_sided"].as_array().unwrap() {
        check(&Design::CompletelyRandomised { plots: vec![number(row, "n_each"); 2] }, &row["smallest_p"]);
    }
    let mut tails = 0;
    for (size, rows) in expected["friedman"].as_object().unwrap() {
        let (t, r) = size.split_once(',').unwrap();
        let (t, r): (usize, usize) = (t[2..].parse().unwrap(), r[2..].parse().unwrap());
        let known: BTreeMap<String, &Value> = rows
            .as_array()
            .unwrap()
            .iter()
            .map(|row| (format!("{:.4}", row["Q"].as_f64().unwrap()), row))
            .collect();
        // Scores are searched for until every tabled Q has come up.
        let mut generator = SplitMix64::new(11);
        let mut found = BTreeMap::new();
        for draw in 0..40_000 {
            let mut cells = vec![(0..t).map(|level| level as f64).collect::<Vec<_>>(); r];
            // The top of the table is rare: leave more and more blocks in order.
            let kept = draw % (r + 1);
            for block in cells.iter_mut().skip(kept) {
                let swaps = draw % 3;
                if swaps == 0 {
                    generator.shuffle(block);
                } else {
                    let at = generator.below(t - 1);
                    block.swap(at, at + 1);
                }
            }
            let q = quick_q(&cells);
            let key = format!("{q:.4}");
            if known.contains_key(&key) && !found.contains_key(&key) {
                found.insert(key, rank::friedman(&cells));
                if found.len() == known.len() {
                    break;
                }
            }
        }
        for (key, row) in known {
            let friedman = found.get(&key).unwrap_or_else(|| panic!("{size}: Q {key} never came up"));
            let exact = friedman.exact_p.unwrap();
            assert!((exact - row["p_exact"].as_f64().unwrap()).abs() < 1e-12, "{size}: Q {key}: {exact}");
            assert!(
                (friedman.p - row["p_chi2"].as_f64().unwrap()).abs() < 1e-6,
                "{size}: Q {key}: {}",
                friedman.p
            );
            tails += 1;
        }
    }
    assert!(tails > 70, "{tails} tails");
}

fn quick_q(cells: &[Vec<f64>]) -> f64 {
    let (n, k) = (cells.len() as f64, cells[0].len() as f64);
    let sum = |level: usize| cells.iter().map(|block| block[level] + 1.0).sum::<f64>();
    let squared: f64 = (0..cells[0].len()).map(|level| sum(level) * sum(level)).sum();
    12.0 / (n * k * (k + 1.0)) * squared - 3.0 * n * (k + 1.0)
}

#[test]
fn replicates_and_power_are_those_of_the_table() {
    let case = case("power");
    let expected = &case["expected"];
    let number = |row: &Value, key: &str| row[key].as_f64().unwrap();
    let whole = |row: &Value, key: &str| usize::try_from(row[key].as_u64().unwrap()).unwrap();
    let wanted = |row: &Value, key: &str| row[key].as_u64().map(|reps| usize::try_from(reps).unwrap());
    for row in expected["table"].as_array().unwrap() {
        let t = whole(row, "treatments");
        let (cv, difference) = (number(row, "cv_percent"), number(row, "difference_percent"));
        assert_eq!(power::replicates(t, difference, cv, 0.8), wanted(row, "reps_power80"), "{row}");
        assert_eq!(power::replicates(t, difference, cv, 0.9), wanted(row, "reps_power90"), "{row}");
        assert_eq!(
            power::replicates_by_table(t, difference, cv, 0.8),
            wanted(row, "reps_F_power80"),
            "{row}"
        );
    }
    for row in expected["cochran_cox_iteration"].as_array().unwrap() {
        let (cv, difference) = (number(row, "cv_percent"), number(row, "difference_percent"));
        let found = power::replicates_by_hand(whole(row, "treatments"), difference, cv, number(row, "P"));
        assert_eq!(found, wanted(row, "reps"), "{row}");
    }
    let stratum = |row: &Value| {
        let (t, r) = (whole(row, "treatments"), whole(row, "reps"));
        Stratum { degrees: (t - 1) * (r - 1), plots_per_mean: r }
    };
    for row in expected["lsd_percent"].as_array().unwrap() {
        let least = power::least_significant(stratum(row)) * number(row, "cv_percent");
        assert!((least - number(row, "lsd5_percent_of_mean")).abs() < 0.000_51, "{row}: {least}");
    }
    for row in expected["power_points"].as_array().unwrap() {
        let found =
            power::of_pair(stratum(row), number(row, "difference_percent"), number(row, "cv_percent"));
        assert!((found - number(row, "power")).abs() < 1e-6, "{row}: {found}");
    }
}

#[test]
fn the_studentised_range_is_exact_to_1e_8() {
    let case = case("studentised-range");
    let expected = &case["expected"];
    let mut worst: f64 = 0.0;
    let points = expected["cdf_reference_arbitrary_precision"].as_array().unwrap();
    for point in points {
        let k = usize::try_from(point["k"].as_u64().unwrap()).unwrap();
        let degrees = point["nu"].as_f64().unwrap_or(f64::INFINITY);
        let found = Simultaneous::range(k).below(point["q"].as_f64().unwrap(), degrees);
        worst = worst.max((found - point["cdf"].as_f64().unwrap()).abs());
    }
    assert_eq!(points.len(), 72);
    assert!(worst < 1e-8, "{worst:e}");
    let documented = &expected["r_documentation_outputs"];
    let seven = Simultaneous::range(7);
    for (p, q) in documented["qtukey(p,nmeans=7,df=5)"].as_object().unwrap() {
        let found = seven.limit(p.parse().unwrap(), 5.0);
        assert!((found - q.as_f64().unwrap()).abs() < 1e-6, "{p}: {found}");
    }
    for (index, p) in documented["ptukey(q=1..10,nmeans=7,df=5)"].as_array().unwrap().iter().enumerate() {
        let found = seven.below(index as f64 + 1.0, 5.0);
        // Eight decimals are printed, of which seven hold.
        assert!((found - p.as_f64().unwrap()).abs() < 5e-7, "{index}: {found}");
    }
    for (index, k) in case["input"]["k"].as_array().unwrap().iter().enumerate() {
        let range = Simultaneous::range(usize::try_from(k.as_u64().unwrap()).unwrap());
        for (line, table) in expected["table"].as_object().unwrap() {
            let line: f64 = line.parse().unwrap();
            for (degrees, row) in table.as_object().unwrap() {
                let degrees = degrees.parse().unwrap_or(f64::INFINITY);
                let q = row[index].as_f64().unwrap();
                // The table has six decimals; half a unit of the last one moves the chance by so much.
                let (above, below) = (range.beyond(q - 6e-7, degrees), range.beyond(q + 6e-7, degrees));
                assert!(
                    below <= line && line <= above,
                    "k {k}, {degrees}: {q} at {line}: {below} to {above}"
                );
            }
        }
    }
}

#[test]
fn dunnetts_limits_are_those_of_the_table() {
    let case = case("dunnett");
    let treatments = case["input"]["treatments"].as_array().unwrap();
    for (index, number) in treatments.iter().enumerate() {
        let number = usize::try_from(number.as_u64().unwrap()).unwrap();
        let joint = Simultaneous::against_check(&vec![core::f64::consts::FRAC_1_SQRT_2; number]);
        for (line, table) in case["expected"].as_object().unwrap() {
            let line: f64 = line.parse().unwrap();
            for (degrees, row) in table.as_object().unwrap() {
                let degrees = degrees.parse().unwrap_or(f64::INFINITY);
                let (wanted, found) = (row[index].as_f64().unwrap(), joint.limit(1.0 - line, degrees));
                assert!(
                    (found - wanted).abs() < 5.1e-6,
                    "{number}, {degrees}, {line}: {found} is not {wanted}"
                );
            }
        }
    }
}

#[test]
fn the_yellowing_example_goes_from_scores_to_conclusions() {
    let case = case("yellowing-example");
    let (input, expected) = (&case["input"], &case["expected"]);
    let days: Vec<f64> = input["days"].as_array().unwrap().iter().map(|day| day.as_f64().unwrap()).collect();
    let plots = input["plots"].as_array().unwrap();
    let mut means: Vec<Value> = Vec::new();
    let mut classes: Vec<f64> = Vec::new();
    for plot in plots {
        let scores: Vec<f64> =
            plot["percent_yellow"].as_array().unwrap().iter().map(|score| score.as_f64().unwrap()).collect();
        let curve = Curve::new(&days, &scores).unwrap();
        let class = score::class(curve.highest());
        let computed = json!({
            "audpc": curve.area(), "saudpc": curve.season_mean(), "max": curve.highest(),
            "first_day_ge_5": curve.first_at(FIRST_YELLOW_PCT), "score_1_5_of_max": class,
        });
        let mut wanted = plot.clone();
        for key in ["block", "position", "treatment", "percent_yellow"] {
            wanted.as_object_mut().unwrap().remove(key);
        }
        Check::of("yellowing-example", &case, &wanted, &computed);
        means.push(
            json!({ "block": plot["block"], "treatment": plot["treatment"], "y": curve.season_mean() }),
        );
        classes.push(f64::from(class));
    }
    let levels = Levels::read(input, "treatments", plots, "treatment");
    let blocks = Levels::read(input, "blocks", plots, "block");
    let structure = Structure::Blocks {
        block: blocks.factor(plots, "block"),
        treatment: levels.factor(plots, "treatment"),
    };
    let trial = Trial::new(Kind::RandomisedBlocks, structure, response(&means, None)).unwrap();
    let (block, treatment) = (blocks.factor(plots, "block"), levels.factor(plots, "treatment"));
    let mut kruskal = kruskal(&levels, &treatment, &classes);
    kruskal.as_object_mut().unwrap().remove("dunn_holm_p");
    let computed = json!({
        "saudpc_rcbd": single_factor(input, &expected["saudpc_rcbd"], &trial, &levels, Some(&blocks)),
        "score_friedman_with_ties": friedman(&levels, &block, &treatment, &classes),
        "score_kruskal_wallis_with_ties_ignoring_blocks": kruskal,
    });
    Check::of("yellowing-example", &case, expected, &computed);
}
