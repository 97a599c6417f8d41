//! `plan`: lays out a trial, says what it can show, and writes what is carried into the field.

mod described;
mod paper;
mod written;

use kerfbook_acts::trial::rarity;
use kerfbook_picture::{DisplayList, FieldCell, FieldMap, Screen, svg};
use kerfbook_science::trial::design::{Design, FEW_BLOCKS, FEW_PAIRS, Kind, Standing};
use kerfbook_science::trial::generator;
use kerfbook_science::trial::layout::{self, Given, Layout, LayoutError, MOST_PLOTS, Plot};
use kerfbook_science::trial::treatment::{top_ups, without_reference};
use kerfbook_science::trial::{LINE, power};
use kerfbook_science::units::{AreaMass, Share};
use kerfbook_words::Words;
use serde_json::{Value, json};

use self::described::Described;
use crate::cli;
use crate::compare::new_table;
use crate::context::Context;
use crate::fault::{Fault, Message};
use crate::output;

/// Variations of a trial that power is told for, per cent; common practice, no source.
const VARIATIONS_PCT: [f64; 3] = [10.0, 15.0, 20.0];

/// A plan that was drawn.
struct Plan<'a> {
    described: &'a Described,
    layout: Layout,
    seed: u64,
    drawn: bool,
}

pub(crate) fn run(args: &cli::Plan, context: &Context) -> Result<(), Fault> {
    let described = described::read(&args.trial)?;
    let seed = match described.seed {
        Some(seed) => seed,
        None => by_chance()?,
    };
    let layout = layout::draw(&described.design, seed, described.refused.len(), described.per_row).map_err(
        |error| {
            let why = Message::new(match error {
                LayoutError::OneTreatment => "plan-one-treatment",
                LayoutError::NoPlot => "plan-no-plot",
                LayoutError::TooMany => "plan-too-many",
            })
            .text("most", MOST_PLOTS);
            Fault::input(&args.trial, Message::new("plan-cannot-lay-out").message("why", why), None)
        },
    )?;
    let plan = Plan { described: &described, layout, seed, drawn: described.seed.is_none() };
    let words = context.words();
    let mut files = Vec::new();
    if let Some(folder) = &args.out {
        output::folder(folder)?;
        for (name, content) in [
            ("layout.svg", svg::document(&plan.map(words))),
            ("plan.html", paper::plan(&plan, words)),
            ("labels.html", paper::labels(&plan, words)),
            ("scores.csv", paper::scores(&plan)),
            ("key.csv", paper::key(&plan)),
        ] {
            let path = folder.join(name);
            output::write(&path, content.as_bytes())?;
            files.push(path.display().to_string());
        }
    }
    let entry = match &args.book {
        Some(book) => Some(written::write(&plan, book, args, context)?),
        None => None,
    };
    if context.json {
        let mut document = plan.document(&files, words);
        document["entry"] = json!(entry);
        context.print_json(&document)
    } else {
        let mut told = plan.told(&files, words);
        if let Some(entry) = entry {
            told.push_str("\n\n");
            told.push_str(&words.say("plan-in-book", &[("entry", entry)]));
        }
        context.print(&told)
    }
}

/// A seed of the system's own, short enough to be written down.
fn by_chance() -> Result<u64, Fault> {
    let bytes = crate::book::random()?;
    let mut eight = [0; 8];
    eight.copy_from_slice(&bytes[..8]);
    Ok(u64::from_le_bytes(eight) % 1_000_000_000)
}

impl Plan<'_> {
    fn name(&self) -> &str {
        &self.described.name
    }

    fn is_two_factor(&self) -> bool {
        self.described.design.kind().is_two_factor()
    }

    fn walked(&self) -> impl Iterator<Item = &Plot> {
        self.layout.walk.iter().filter_map(|&at| self.layout.plots.get(at))
    }

    /// What a plot gets, one name a factor.
    fn levels(&self, plot: &Plot) -> Vec<&str> {
        let of = |names: &'_ [String], level: usize| -> usize { level.min(names.len().saturating_sub(1)) };
        let (main, sub) = (&self.described.treatments, &self.described.subs);
        match plot.given {
            Given::Treatment(level) => vec![main[of(main, level)].as_str()],
            Given::Crossed { main: level, sub: inner } => {
                vec![main[of(main, level)].as_str(), sub[of(sub, inner)].as_str()]
            }
        }
    }

    fn given(&self, plot: &Plot) -> String {
        self.levels(plot).join(", ")
    }

    /// A short sign: a letter, and a number for the factor inside.
    fn sign(given: Given) -> String {
        let letter = |level: usize| {
            let alphabet: Vec<char> = ('A'..='Z').collect();
            let own = alphabet[level % 26];
            if level < 26 { own.to_string() } else { format!("{own}{}", level / 26 + 1) }
        };
        match given {
            Given::Treatment(level) => letter(level),
            Given::Crossed { main, sub } => format!("{} {}", letter(main), sub + 1),
        }
    }

    /// Signs with their names.
    fn key(&self) -> Vec<(String, String)> {
        let main = self.described.treatments.iter().enumerate();
        let sub = self.described.subs.iter().enumerate();
        main.map(|(level, name)| (Self::sign(Given::Treatment(level)), name.clone()))
            .chain(sub.map(|(level, name)| ((level + 1).to_string(), name.clone())))
            .collect()
    }

    fn title(&self, words: &Words) -> String {
        if self.name().is_empty() { words.label("plan-field") } else { self.name().to_owned() }
    }

    fn map(&self, words: &Words) -> DisplayList {
        let cell = |plot: &Plot| FieldCell {
            row: plot.row,
            column: plot.column,
            number: plot.number.to_string(),
            label: Self::sign(plot.given),
            shade: 0.0,
            chosen: false,
        };
        let rows = words.stated(counted(self.layout.rows));
        let map = FieldMap {
            title: words.say("plan-map-title", &[("trial", self.title(words))]),
            description: words.say("plan-map-about", &[("rows", rows)]),
            cells: self.layout.plots.iter().map(cell).collect(),
            walk: self.layout.walk.clone(),
            start: words.label("plan-start"),
        };
        map.draw(Screen::Desk)
    }

    /// What the plan can show and what it lacks.
    fn sentences(&self, words: &Words) -> Vec<String> {
        let design = &self.described.design;
        let kind = design.kind();
        let plots = counted(self.layout.plots.len());
        let plots = words.say_count("plan-plots", plots, &[("number", words.stated(plots))]);
        let name = words.label(&format!("plan-design-{}", kind.name()));
        let mut said = vec![words.say("plan-answer", &[("design", name), ("plots", plots)])];
        let smallest = rarity(design.smallest_p(), words);
        match design.standing() {
            Standing::Demonstration => said.push(words.label("plan-demonstration")),
            Standing::TooSmall => said.push(words.say("plan-too-small", &[("rarity", smallest)])),
            Standing::Few => {
                let asked = if kind == Kind::Pairs { FEW_PAIRS } else { FEW_BLOCKS };
                let number = words.stated(counted(design.replicates()));
                let values = [("number", number), ("asked", words.stated(counted(asked)))];
                said.push(words.say("plan-few", &values));
            }
            Standing::Trial => {
                let square = kind == Kind::LatinSquare && design.smallest_p() > LINE;
                said.push(if square {
                    words.label("plan-square-few")
                } else {
                    words.say("plan-smallest", &[("rarity", smallest)])
                });
            }
        }
        let share = |pct: f64| words.percent(Share::from_fraction(pct / 100.0));
        let variation = self.described.variation_pct;
        if let Some(found) = power::detectable_pct(design, variation) {
            let values = [("variation", share(variation)), ("difference", share(found))];
            said.push(words.say("plan-detectable", &values));
        }
        if let Some(wanted) = self.described.difference_pct {
            let needed = self.replicates_for(wanted, variation);
            let (id, number) =
                needed.map_or(("plan-needed-more", power::MOST_REPLICATES), |needed| ("plan-needed", needed));
            let values = [("difference", share(wanted)), ("replicates", words.stated(counted(number)))];
            said.push(words.say(id, &values));
        }
        said.extend(self.nitrogen(words));
        if let Some(size) = &self.described.size {
            said.push(if size.net().m2() > 0.0 {
                let values = [("net", words.area(size.net())), ("guard", words.length(size.guard))];
                words.say("plan-guard", &values)
            } else {
                words.label("plan-no-net")
            });
        }
        if !self.described.refused.is_empty() {
            said.push(words.say_count("plan-refused", counted(self.described.refused.len()), &[]));
        }
        let seed = self.seed.to_string();
        said.push(if self.drawn {
            words.say("plan-seed-drawn", &[("seed", seed)])
        } else {
            let values = [
                ("seed", seed),
                ("generator", generator::NAME.to_owned()),
                ("version", generator::VERSION.to_string()),
            ];
            words.say("plan-seed", &values)
        });
        said.push(words.label("plan-blind"));
        said
    }

    fn nitrogen(&self, words: &Words) -> Vec<String> {
        let brings = &self.described.brings;
        let mut said = Vec::new();
        if brings.is_empty() {
            return said;
        }
        let told: Vec<AreaMass> =
            brings.iter().filter(|own| !own.ample).filter_map(|own| own.nitrogen).collect();
        let (low, high) = told
            .iter()
            .map(|own| own.kg_ha())
            .fold((f64::INFINITY, 0.0_f64), |(low, high), own| (low.min(own), high.max(own)));
        if brings.iter().any(|own| own.nitrogen.is_none() && !own.ample) {
            said.push(words.label("plan-nitrogen-unknown"));
        }
        if high - low > 0.5 {
            let values = [
                ("low", words.nitrogen_stated(AreaMass::from_kg_ha(low))),
                ("high", words.nitrogen_stated(AreaMass::from_kg_ha(high))),
            ];
            said.push(words.say("plan-unequal-nitrogen", &values));
        }
        for residue in without_reference(brings) {
            said.push(words.say("plan-reference", &[("residue", residue.to_owned())]));
        }
        said
    }

    fn replicates_for(&self, difference_pct: f64, variation_pct: f64) -> Option<usize> {
        power::replicates(self.described.treatments.len(), difference_pct, variation_pct, power::POWER)
    }

    /// For programs.
    fn document(&self, files: &[String], words: &Words) -> Value {
        let Described { design, size, brings, .. } = self.described;
        let strata = design.strata();
        let tops = top_ups(brings);
        let treatments: Vec<Value> = self
            .described
            .treatments
            .iter()
            .enumerate()
            .map(|(at, name)| {
                json!({
                    "name": name, "sign": Self::sign(Given::Treatment(at)),
                    "residue": brings.get(at).and_then(|own| own.residue.clone()),
                    "nitrogen_kg_ha": brings.get(at).and_then(|own| own.nitrogen).map(AreaMass::kg_ha),
                    "add_nitrogen_kg_ha": tops.get(at).copied().flatten().map(AreaMass::kg_ha),
                    "ample_nitrogen": brings.get(at).is_some_and(|own| own.ample),
                })
            })
            .collect();
        let mut step = vec![0; self.layout.plots.len()];
        for (at, &plot) in self.layout.walk.iter().enumerate() {
            step[plot] = at + 1;
        }
        let layout: Vec<Value> = self
            .layout
            .plots
            .iter()
            .zip(&step)
            .map(|(plot, step)| {
                let levels = self.levels(plot);
                let corner = size.as_ref().map(|size| size.corner_m(plot));
                json!({
                    "plot": plot.number, "block": plot.block + 1, "row": plot.row + 1, "column": plot.column + 1,
                    "walk": step, "treatment": self.given(plot), "main": levels.first().filter(|_| levels.len() > 1),
                    "sub": levels.get(1), "x_m": corner.map(|own| own.0), "y_m": corner.map(|own| own.1),
                    "gross_m2": size.as_ref().map(|size| size.gross().m2()),
                    "net_m2": size.as_ref().map(|size| size.net().m2()),
                })
            })
            .collect();
        let wanted = self.described.difference_pct;
        let power: Vec<Value> = VARIATIONS_PCT
            .iter()
            .map(|&variation| {
                json!({
                    "cv_pct": variation, "detectable_pct": power::detectable_pct(design, variation),
                    "replicates_needed": wanted.and_then(|wanted| self.replicates_for(wanted, variation)),
                })
            })
            .collect();
        json!({
            "format": 1,
            "trial": self.name(),
            "design": design.kind().name(),
            "seed": self.seed,
            "generator": { "name": generator::NAME, "version": generator::VERSION },
            "refused": self.described.refused,
            "check": self.described.check,
            "treatments": treatments,
            "subs": self.described.subs,
            "layout": layout,
            "replicates": design.replicates(),
            "standing": standing(design),
            "error_df": strata.first().map_or(0, |stratum| stratum.degrees),
            "strata": strata.iter().map(|own| json!({
                "error_df": own.degrees, "plots_per_mean": own.plots_per_mean,
            })).collect::<Vec<_>>(),
            "smallest_p": design.smallest_p(),
            "cv_pct": self.described.variation_pct,
            "detectable_pct": power::detectable_pct(design, self.described.variation_pct),
            "power": power,
            "said": self.sentences(words),
            "files": files,
        })
    }

    /// For people.
    fn told(&self, files: &[String], words: &Words) -> String {
        let mut parts = vec![self.sentences(words).join("\n")];
        let tops = top_ups(&self.described.brings);
        let mut key = new_table(vec![
            words.label("plan-key"),
            words.label("plan-treatment"),
            words.label("plan-brings"),
            words.label("plan-top-up"),
        ]);
        let nitrogen = |own: Option<AreaMass>| own.map_or(String::new(), |own| words.nitrogen_stated(own));
        for (at, (sign, name)) in self.key().into_iter().enumerate() {
            let brings = self.described.brings.get(at).and_then(|own| own.nitrogen);
            let top = tops.get(at).copied().flatten();
            let top = match top {
                Some(top) if top.kg_ha() < 0.5 => words.label("plan-nothing"),
                other => nitrogen(other),
            };
            key.add_row(vec![sign, name, nitrogen(brings), top]);
        }
        parts.push(key.to_string());
        let mut head = vec![words.label("plan-block")];
        head.extend(std::iter::repeat_n(String::new(), self.layout.columns));
        let mut field = new_table(head);
        for row in (0..self.layout.rows).rev() {
            let plots: Vec<&Plot> = self.layout.plots.iter().filter(|plot| plot.row == row).collect();
            let mut cells = vec![plots.first().map_or(String::new(), |plot| (plot.block + 1).to_string())];
            cells.extend(plots.iter().map(|plot| format!("{} {}", plot.number, Self::sign(plot.given))));
            field.add_row(cells);
        }
        parts.push(field.to_string());
        if !files.is_empty() {
            parts.push(words.say("plan-written", &[("files", files.join(", "))]));
        }
        parts.join("\n\n")
    }
}

fn standing(design: &Design) -> &'static str {
    match design.standing() {
        Standing::Demonstration => "demonstration",
        Standing::TooSmall => "too-small",
        Standing::Few => "few",
        Standing::Trial => "trial",
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of plots")]
const fn counted(number: usize) -> f64 {
    number as f64
}
