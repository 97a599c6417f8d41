//! The table of materials: two embedded CSV files of the same columns, one gathered from published tables, one
//! of what people use that no table lists. Cells left empty there are filled by the rules below, and say so.

use std::sync::LazyLock;

use super::{Kind, Material, ModelClass, Part, Particle, Range};
use crate::source::{Source, Standing};

const PUBLISHED: &str = include_str!("materials.csv");
const PRACTICE: &str = include_str!("practice.csv");

/// All materials. A test holds that the embedded tables parse whole.
pub fn all() -> &'static [Material] {
    static TABLE: LazyLock<Vec<Material>> = LazyLock::new(|| {
        let mut rows = parse(PUBLISHED).unwrap_or_default();
        rows.extend(parse(PRACTICE).unwrap_or_default());
        rows
    });
    &TABLE
}

/// A table that cannot be read.
#[derive(Debug, thiserror::Error, PartialEq)]
pub enum TableError {
    /// A row has too few columns or broken quotes.
    #[error("row {row}: not a row of the table of materials")]
    Row {
        /// Row, the heading being 1.
        row: usize,
    },
    /// A cell holds what it must not.
    #[error("row {row}, column {column}: cannot use `{text}`")]
    Cell {
        /// Row, the heading being 1.
        row: usize,
        /// Heading of the column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
}

/// One row with its number, for messages.
struct Row {
    number: usize,
    cells: csv::StringRecord,
}

impl Row {
    fn text(&self, at: usize) -> Result<&str, TableError> {
        self.cells.get(at).map(str::trim).ok_or(TableError::Row { row: self.number })
    }

    fn figure(&self, at: usize, column: &'static str) -> Result<Option<f64>, TableError> {
        let text = self.text(at)?;
        if text.is_empty() {
            return Ok(None);
        }
        text.parse::<f64>()
            .ok()
            .filter(|x| x.is_finite() && *x >= 0.0)
            .map(Some)
            .ok_or_else(|| self.cannot_use(column, text))
    }

    /// Low, typical, high from three columns, times a factor.
    fn span(&self, at: usize, column: &'static str, times: f64) -> Result<Span, TableError> {
        Ok(Span {
            low: self.figure(at, column)?.map(|x| x * times),
            typical: self.figure(at + 1, column)?.map(|x| x * times),
            high: self.figure(at + 2, column)?.map(|x| x * times),
        })
    }

    fn cannot_use(&self, column: &'static str, text: &str) -> TableError {
        TableError::Cell { row: self.number, column, text: text.to_owned() }
    }
}

/// Low, typical, high as the table has them.
#[derive(Clone, Copy)]
struct Span {
    low: Option<f64>,
    typical: Option<f64>,
    high: Option<f64>,
}

impl Span {
    /// Fills what is missing: the usual value by the geometric mean of the ends, the ends by `spread` either
    /// side (assumption). Nothing where no value stands in the row.
    fn filled(self, source: Source, spread: f64, most: f64) -> Option<Range> {
        let (typical, source) = match (self.low, self.typical, self.high) {
            (_, Some(typical), _) => (typical, source),
            (Some(low), None, Some(high)) => {
                let source = Source { standing: source.standing.max(Standing::Recomputed), ..source };
                ((low * high).sqrt(), source)
            }
            (Some(one), None, None) | (None, None, Some(one)) => (one, source),
            (None, None, None) => return None,
        };
        let known = self.low.is_some() && self.high.is_some();
        Some(Range {
            low: self.low.unwrap_or(typical * (1.0 - spread)).min(typical),
            typical,
            high: self.high.unwrap_or((typical * (1.0 + spread)).min(most)).max(typical),
            source,
            ends: if known { source.standing } else { Standing::Assumption },
        })
    }
}

fn parse(text: &'static str) -> Result<Vec<Material>, TableError> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut materials = Vec::new();
    for (i, cells) in reader.records().enumerate() {
        let number = i + 2;
        let cells = cells.map_err(|_| TableError::Row { row: number })?;
        materials.push(material(&Row { number, cells })?);
    }
    Ok(materials)
}

fn material(row: &Row) -> Result<Material, TableError> {
    let kind_text = row.text(1)?;
    let kind = kind_of(kind_text).ok_or_else(|| row.cannot_use("kind", kind_text))?;
    let class_text = row.text(2)?;
    let composition = composition_of(class_text).ok_or_else(|| row.cannot_use("model_class", class_text))?;
    let particle_text = row.text(3)?;
    let particle = match particle_text {
        "" => Particle::Dust,
        text => Particle::of_name(text).ok_or_else(|| row.cannot_use("particle", text))?,
    };
    // Rows live as long as the program: the table is read once.
    let source = source_of(row.text(16)?.to_owned().leak());
    let share: f64 = composition.iter().map(|part| part.share * part.carbon_share()).sum();
    let carbon = if share > 0.0 { share } else { CARBON_ELSEWHERE };

    let moisture = row
        .span(4, "moisture", 0.01)?
        .filled(source, MOISTURE_SPREAD, WETTEST)
        .unwrap_or_else(|| usual_moisture(kind, particle));
    let nitrogen = row.span(7, "n_pct_dry", 0.01)?.filled(source, NITROGEN_SPREAD, 1.0);
    let ratio = row.span(10, "cn_ratio", 1.0)?.filled(source, RATIO_SPREAD, f64::MAX);
    let (nitrogen, carbon_nitrogen) = match (nitrogen, ratio) {
        (Some(n), Some(r)) => (n, r),
        (Some(n), None) => (n, over(carbon, n)),
        (None, Some(r)) => (over(carbon, r), r),
        (None, None) => {
            let classes = class_ratio(&composition, carbon);
            (over(carbon, classes), classes)
        }
    };
    let wet_density = row
        .span(13, "bulk_density", 1.0)?
        .filled(source, DENSITY_SPREAD, f64::MAX)
        .unwrap_or_else(|| usual_density(&composition, moisture.typical));
    Ok(Material {
        name: row.text(0)?.to_owned().leak(),
        kind,
        composition,
        particle,
        moisture,
        nitrogen,
        carbon_nitrogen,
        wet_density,
    })
}

/// Assumption: carbon of what has no class, such as paper, part of dry mass.
const CARBON_ELSEWHERE: f64 = 0.45;
/// Assumption: ends of moisture where a source gives one value, part of it.
const MOISTURE_SPREAD: f64 = 0.25;
/// Assumption: no heap holds more water than this, part of wet mass.
const WETTEST: f64 = 0.95;
/// Assumption: ends of nitrogen where a source gives one value, part of it.
const NITROGEN_SPREAD: f64 = 0.40;
/// Assumption: ends of carbon to nitrogen where a source gives one value, part of it.
const RATIO_SPREAD: f64 = 0.30;
/// Assumption: ends of bulk density where a source gives one value, part of it.
const DENSITY_SPREAD: f64 = 0.20;

/// `carbon` over each value of a range, low and high changing places.
fn over(carbon: f64, range: Range) -> Range {
    let of = |x: f64| if x > 0.0 { carbon / x } else { 0.0 };
    Range {
        low: of(range.high),
        typical: of(range.typical),
        high: of(range.low).max(of(range.typical)),
        source: Source { standing: range.source.standing.max(Standing::Recomputed), ..range.source },
        ends: range.ends,
    }
}

/// Carbon to nitrogen from the classes of the parts, as the model has it.
fn class_ratio(composition: &[Part], carbon: f64) -> Range {
    let nitrogen: f64 = composition.iter().map(|p| p.share * p.carbon_share() / p.carbon_nitrogen()).sum();
    let typical = if nitrogen > 0.0 { carbon / nitrogen } else { 0.0 };
    Range {
        low: typical * (1.0 - RATIO_SPREAD),
        typical,
        high: typical * (1.0 + RATIO_SPREAD),
        source: MODEL_CLASSES,
        ends: Standing::Assumption,
    }
}

/// Wet, loose density from the dry densities of the classes.
fn usual_density(composition: &[Part], moisture: f64) -> Range {
    let dry: f64 = composition
        .iter()
        .map(|part| {
            let classes = part.one_of.iter().map(|class| class.dry_density().kg_m3());
            #[expect(clippy::cast_precision_loss, reason = "at most thirteen classes")]
            let mean = classes.sum::<f64>() / part.one_of.len().max(1) as f64;
            part.share * mean
        })
        .sum();
    let typical = if moisture < 1.0 { dry / (1.0 - moisture) } else { dry };
    Range {
        low: typical * (1.0 - DENSITY_SPREAD),
        typical,
        high: typical * (1.0 + DENSITY_SPREAD),
        source: MODEL_CLASSES,
        ends: Standing::Assumption,
    }
}

/// Figures of the classes: the model's specification.
const MODEL_CLASSES: Source =
    Source::new("", 0, "the model's specification, version 1", "section 5.2", Standing::Assumption);

/// Moisture where a row has none: the generic row of the same sort.
fn usual_moisture(kind: Kind, particle: Particle) -> Range {
    let handbook =
        |standing| Source::new("NRAES-54", 1992, "On-Farm Composting Handbook", "Table A.1", standing);
    let (low, typical, high, source) = match (kind, particle) {
        (Kind::Wood, Particle::Dust) => (0.19, 0.39, 0.65, handbook(Standing::FromMemory)),
        (Kind::Wood, Particle::Shavings) => (0.08, 0.12, 0.15, handbook(Standing::FromMemory)),
        // Ends from the row "wood waste chips, mixed"; their geometric mean.
        (Kind::Wood, _) => (0.15, 0.245, 0.40, handbook(Standing::Recomputed)),
        // Mean and ends of the species rows of bark.
        (Kind::Bark, _) => (
            0.25,
            0.44,
            0.51,
            Source::new("Miles & Smith", 2009, "USFS RN NRS-38", "bark", Standing::Recomputed),
        ),
        (Kind::Straw, _) => (0.04, 0.12, 0.27, handbook(Standing::FromMemory)),
        (Kind::Paper, _) => (0.03, 0.08, 0.20, handbook(Standing::FromMemory)),
        (Kind::Green | Kind::Food, _) => (0.38, 0.70, 0.85, handbook(Standing::FromMemory)),
        (Kind::Manure | Kind::Sludge, _) => (0.60, 0.75, 0.85, handbook(Standing::FromMemory)),
        (Kind::Compost, _) => (0.40, 0.45, 0.50, handbook(Standing::FromMemory)),
        (Kind::Meal, _) => (0.05, 0.10, 0.15, handbook(Standing::FromMemory)),
        (Kind::Fertiliser, _) => (0.0, 0.0, 0.02, Source::COMMON_PRACTICE),
        (Kind::Liquid, _) => (0.93, 0.95, 0.98, Source::ASSUMPTION),
    };
    Range { low, typical, high, source, ends: source.standing }
}

fn kind_of(text: &str) -> Option<Kind> {
    Some(match text {
        "wood residue" | "wood residue (softwood)" | "wood residue (hardwood)" => Kind::Wood,
        "bark" => Kind::Bark,
        "paper" => Kind::Paper,
        "straw" | "hay" | "crop residue" => Kind::Straw,
        "leaves" | "green" => Kind::Green,
        "food residue" => Kind::Food,
        "manure" => Kind::Manure,
        "meal/fertiliser" => Kind::Meal,
        "mineral fertiliser" => Kind::Fertiliser,
        "liquid" => Kind::Liquid,
        "compost" => Kind::Compost,
        "sludge" => Kind::Sludge,
        _ => return None,
    })
}

/// `none` and `feed` have no class; `blend:0.4 manure+0.6 straw` has parts by dry mass, equal where no share
/// stands (assumption).
fn composition_of(text: &str) -> Option<Vec<Part>> {
    if matches!(text, "none" | "feed") {
        return Some(Vec::new());
    }
    let Some(blend) = text.strip_prefix("blend:") else {
        return Some(vec![Part { share: 1.0, one_of: classes_of(text)? }]);
    };
    let names: Vec<&str> = blend.split('+').collect();
    #[expect(clippy::cast_precision_loss, reason = "a blend has few parts")]
    let equal = 1.0 / names.len() as f64;
    names
        .into_iter()
        .map(|part| match part.split_once(' ') {
            Some((share, class)) => Some(Part { share: share.parse().ok()?, one_of: classes_of(class)? }),
            None => Some(Part { share: equal, one_of: classes_of(part)? }),
        })
        .collect()
}

fn classes_of(text: &str) -> Option<&'static [ModelClass]> {
    use ModelClass as C;
    Some(match text {
        "unknown_wood" => &[C::Hardwood, C::Pine, C::SlowSoftwood],
        "unknown_softwood" => &[C::Pine, C::SlowSoftwood],
        "unknown_bark" => &[C::HardwoodBark, C::SoftwoodBark],
        other => {
            let class = C::of_name(other)?;
            C::ALL.iter().position(|c| *c == class).and_then(|i| C::ALL.get(i..=i))?
        }
    })
}

/// The source of a row: its first word says how it stands; "from memory" anywhere weakens it.
fn source_of(text: &'static str) -> Source {
    let standing = if text.starts_with("PRACTICE") {
        Standing::CommonPractice
    } else if text.starts_with("ASSUMPTION") {
        Standing::Assumption
    } else if text.starts_with("MEMORY") || text.contains("from memory") {
        Standing::FromMemory
    } else if text.starts_with("DERIVED") {
        Standing::Recomputed
    } else {
        Standing::Published
    };
    let title = text.split_once(": ").map_or(text, |(_, rest)| rest);
    Source::new("", 0, title, "", standing)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tables_parse_whole() {
        let published = parse(PUBLISHED).map(|rows| rows.len());
        let practice = parse(PRACTICE).map(|rows| rows.len());
        assert_eq!(published, Ok(PUBLISHED.lines().count() - 1));
        assert_eq!(practice, Ok(PRACTICE.lines().count() - 1));
        assert_eq!(published, Ok(129));
    }

    #[test]
    fn every_range_is_in_order_and_shares_add_to_one() {
        for material in all() {
            let name = material.name;
            for range in
                [material.moisture, material.nitrogen, material.carbon_nitrogen, material.wet_density]
            {
                assert!(range.low <= range.typical && range.typical <= range.high, "{name}: {range:?}");
            }
            assert!(material.moisture.high < 1.0 && material.nitrogen.high <= 1.0, "{name}");
            if material.is_residue() {
                let whole: f64 = material.composition.iter().map(|part| part.share).sum();
                assert!((whole - 1.0).abs() < 1e-12, "{name}: {whole}");
                assert!(material.carbon_nitrogen.typical > 0.0, "{name}");
                assert!(material.dry_density().kg_m3() > 0.0, "{name}");
            }
        }
    }

    #[test]
    fn a_broken_row_is_named() {
        assert_eq!(parse("h\nonly one cell\n").map(|_| ()), Err(TableError::Row { row: 2 }));
    }
}
