//! The cautions themselves.

use super::Act::{Feeding, Handling, Intake, PuttingDown, Storage};
use super::Severity::{Note, Refuse, Warn};
use super::{Act, Caution, DEEPEST_DUST, DEEPEST_UNDER_TREES, Figure, Severity};
use crate::feed;
use crate::source::{Source, Standing};
use crate::units::{AreaMass, Length, Temperature};

/// All cautions, in order of act.
pub fn all() -> &'static [Caution] {
    TABLE
}

const fn caution(
    id: &'static str,
    severity: Severity,
    act: Act,
    figures: &'static [(&'static str, Figure)],
    source: Source,
) -> Caution {
    Caution { id, severity, act, figures, source }
}

const fn body(author: &'static str, year: u16, title: &'static str, standing: Standing) -> Source {
    Source::new(author, year, title, "", standing)
}

const fn mm(value: f64) -> Figure {
    Figure::Depth(Length::from_mm(value))
}

const fn metres(value: f64) -> Figure {
    Figure::Depth(Length::from_m(value))
}

const fn heat(value: f64) -> Figure {
    Figure::Heat(Temperature::from_c(value))
}

const PRACTICE: Source = Source::COMMON_PRACTICE;
const FIRE_SHEET: Source =
    body("USDA Natural Resources Conservation Service", 0, "code 317 job sheet", Standing::Published);
const IOWA: Source =
    body("Iowa State University Extension", 0, "mulching trees and shrubs", Standing::Published);
const ORGANIC: Source = body("US National Organic Program", 2000, "7 CFR 205.203", Standing::Published);
const WHO: Source = body(
    "World Health Organization",
    2006,
    "use of wastewater, excreta and greywater, vol. 4",
    Standing::SecondHand,
);
const CORNELL: Source =
    body("Cornell University", 0, "NRCCA nutrient management, PO 26", Standing::Published);
pub(super) const EPA_NITRATE: Source =
    body("US EPA", 1991, "National Primary Drinking Water Regulations, nitrate", Standing::Published);
pub(super) const EU_NITRATE: Source =
    body("European Union", 2020, "Directive 2020/2184, drinking water", Standing::FromMemory);

static TABLE: &[Caution] = &[
    // Taking in.
    caution(
        "treated-wood",
        Refuse,
        Intake,
        &[],
        body("US EPA", 2004, "chips and mulch of CCA-treated wood", Standing::SecondHand),
    ),
    caution(
        "painted-wood",
        Refuse,
        Intake,
        &[("lead", Figure::MilligramsPerKilogram(200.0))],
        body("US EPA", 2024, "residential soil lead guidance", Standing::Published),
    ),
    caution("board-dust", Refuse, Intake, &[], PRACTICE),
    caution("demolition-wood", Refuse, Intake, &[], PRACTICE),
    caution("weedkillers-known", Refuse, Intake, &[], PRACTICE),
    caution("treatment-unknown", Warn, Intake, &[], PRACTICE),
    caution(
        "black-walnut",
        Warn,
        Intake,
        &[("months", Figure::Months(6.0)), ("year", Figure::Months(12.0))],
        body("University of Illinois Extension", 1995, "black walnut toxicity", Standing::Published),
    ),
    caution(
        "walnut-horses",
        Warn,
        Intake,
        &[("months", Figure::Months(1.0))],
        body("Colorado State University", 2005, "black walnut shavings and horses", Standing::Published),
    ),
    caution("poisonous-to-stock", Warn, Intake, &[], PRACTICE),
    caution("floated-logs-salt", Warn, Intake, &[], PRACTICE),
    caution("diseased-wood", Warn, Intake, &[], PRACTICE),
    caution("quarantine-wood", Warn, Intake, &[], PRACTICE),
    caution("waste-permit", Note, Intake, &[], PRACTICE),
    caution("bedding-medicines", Warn, Intake, &[], PRACTICE),
    caution(
        "persistent-weedkillers",
        Warn,
        Intake,
        &[("low", Figure::Weeks(2.0)), ("weeks", Figure::Weeks(3.0))],
        body(
            "Washington State University Extension",
            2011,
            "bioassay for herbicide residues",
            Standing::Published,
        ),
    ),
    caution("pallet-fumigant", Warn, Intake, &[], body("IPPC", 2002, "ISPM 15", Standing::FromMemory)),
    caution(
        "sour-mulch",
        Warn,
        Intake,
        &[
            ("ph_low", Figure::Number(1.8)),
            ("ph_high", Figure::Number(3.6)),
            ("hours_low", Figure::Hours(24.0)),
            ("hours_high", Figure::Hours(72.0)),
        ],
        body(
            "Purdue University",
            2023,
            "Plant and Pest Diagnostic Laboratory, sour mulch",
            Standing::Published,
        ),
    ),
    caution(
        "fresh-green-wood",
        Note,
        Intake,
        &[],
        body("substrate researchers", 0, "greenhouse trade article on fresh wood", Standing::Published),
    ),
    caution(
        "unfinished-compost",
        Note,
        Intake,
        &[("ratio", Figure::Number(30.0)), ("gives", Figure::Number(20.0))],
        body("Clemson University", 0, "compost interpretation", Standing::Published),
    ),
    caution("cocoa-shell-dogs", Warn, Intake, &[], Source::FROM_MEMORY),
    caution(
        "coffee-grounds",
        Note,
        Intake,
        &[("percent", Figure::Percent(35.0))],
        body("Environments 11:272", 2024, "coffee grounds and sunflower seedlings", Standing::Published),
    ),
    // Loading, spreading, turning, chipping.
    caution(
        "wood-dust",
        Warn,
        Handling,
        &[
            ("osha_total", Figure::MilligramsPerCubicMetre(15.0)),
            ("osha_respirable", Figure::MilligramsPerCubicMetre(5.0)),
            ("niosh", Figure::MilligramsPerCubicMetre(1.0)),
            ("acgih", Figure::MilligramsPerCubicMetre(1.0)),
        ],
        body("OSHA, NIOSH, ACGIH", 0, "exposure limits for wood dust", Standing::Published),
    ),
    caution(
        "wood-dust-cancer",
        Warn,
        Handling,
        &[],
        body("IARC", 2012, "Monographs 62 (1995) and 100C, Group 1", Standing::Published),
    ),
    caution(
        "redcedar-dust",
        Warn,
        Handling,
        &[("acgih", Figure::MilligramsPerCubicMetre(0.5))],
        body("ACGIH", 0, "western redcedar, sensitiser", Standing::Published),
    ),
    caution("dust-explosion", Warn, Handling, &[], PRACTICE),
    caution(
        "legionella",
        Warn,
        Handling,
        &[],
        body("WorkSafe Queensland", 0, "Legionella longbeachae in compost and mulch", Standing::Published),
    ),
    caution(
        "aspergillus-spores",
        Warn,
        Handling,
        &[],
        body("Health and Safety Executive", 2010, "RR786, bioaerosols from composting", Standing::Published),
    ),
    caution(
        "trailer-overload",
        Warn,
        Handling,
        // The wettest species row of the table of materials: bark of northern red oak.
        &[("density", Figure::KilogramsPerCubicMetre(552.0))],
        body("Miles & Smith", 2009, "USFS RN NRS-38, bulk density from it", Standing::Recomputed),
    ),
    caution("chipper", Warn, Handling, &[], PRACTICE),
    // Keeping in a heap.
    caution(
        "heap-fire",
        Warn,
        Storage,
        &[("watch", heat(74.0)), ("act", heat(85.0))],
        body("USDA Natural Resources Conservation Service", 0, "code 317 job sheet", Standing::Published),
    ),
    caution(
        "heap-size",
        Note,
        Storage,
        &[("height", metres(7.62)), ("width", metres(45.7)), ("length", metres(76.2))],
        body("International Code Council", 0, "International Fire Code 2808.3", Standing::Published),
    ),
    caution("fire-amber", Warn, Storage, &[("low", heat(65.0)), ("high", heat(74.0))], FIRE_SHEET),
    caution("fire-red", Warn, Storage, &[("watch", heat(74.0)), ("act", heat(85.0))], FIRE_SHEET),
    caution("fire-stop", Warn, Storage, &[("act", heat(85.0))], FIRE_SHEET),
    caution("smouldering-pile", Warn, Storage, &[], PRACTICE),
    caution(
        "static-cover",
        Note,
        Storage,
        &[("cover", mm(300.0))],
        body("US EPA", 2003, "control of pathogens in sewage sludge", Standing::SecondHand),
    ),
    caution(
        "pile-run-off",
        Warn,
        Storage,
        &[("above", mm(600.0))],
        body("USDA NRCS New York", 2011, "practice 317, composting facility", Standing::Published),
    ),
    caution(
        "by-products-authority",
        Warn,
        Storage,
        &[],
        body("European Union", 2011, "Regulation (EU) 142/2011", Standing::Published),
    ),
    caution("heap-gases", Warn, Storage, &[], PRACTICE),
    caution("heap-collapse", Warn, Storage, &[], PRACTICE),
    caution("children-on-heaps", Warn, Storage, &[], PRACTICE),
    // Putting down.
    caution("decay-resistant-seedbed", Warn, PuttingDown, &[], Source::FROM_MEMORY),
    caution("trunk-gap", Warn, PuttingDown, &[("gap", mm(150.0))], IOWA),
    caution("building-gap", Warn, PuttingDown, &[("gap", mm(300.0))], PRACTICE),
    caution(
        "sawdust-mat",
        Note,
        PuttingDown,
        &[("low", mm(25.0)), ("high", Figure::Depth(DEEPEST_DUST))],
        body("Purdue University Extension", 0, "sawdust on gardens", Standing::Published),
    ),
    caution(
        "mulch-depth",
        Note,
        PuttingDown,
        &[("low", mm(75.0)), ("high", Figure::Depth(DEEPEST_UNDER_TREES))],
        IOWA,
    ),
    caution(
        "voles-slugs",
        Note,
        PuttingDown,
        &[("gap", mm(100.0))],
        body("Clemson University Extension", 2018, "mulch and voles", Standing::Published),
    ),
    caution("frost", Note, PuttingDown, &[], PRACTICE),
    caution("run-off", Warn, PuttingDown, &[], PRACTICE),
    caution("ask-local-rules", Note, PuttingDown, &[], PRACTICE),
    // Giving nitrogen.
    caution(
        "raw-manure-interval",
        Warn,
        Feeding,
        &[("touching", Figure::Days(120.0)), ("clear", Figure::Days(90.0))],
        ORGANIC,
    ),
    caution(
        "raw-manure-produce",
        Warn,
        Feeding,
        &[],
        body("US FDA", 2015, "21 CFR 112.56", Standing::Published),
    ),
    caution("urine-harvest", Warn, Feeding, &[("months", Figure::Months(1.0))], WHO),
    caution(
        "urine-storage",
        Warn,
        Feeding,
        &[("household", Figure::Months(1.0)), ("others", Figure::Months(6.0)), ("heat", heat(20.0))],
        WHO,
    ),
    caution("urine-food-sold", Refuse, Feeding, &[], Source::ASSUMPTION),
    caution("urine-saline", Warn, Feeding, &[], WHO),
    caution(
        "not-organic",
        Warn,
        Feeding,
        &[],
        body("US National Organic Program", 2000, "7 CFR 205.105", Standing::FromMemory),
    ),
    caution(
        "dose-limit",
        Warn,
        Feeding,
        &[
            ("limit", Figure::Dose(feed::PRACTICAL_LIMIT.value)),
            ("published", Figure::Dose(feed::RUTGERS_DOSE.value)),
        ],
        feed::PRACTICAL_LIMIT.source,
    ),
    caution("nitrate-water-us", Warn, Feeding, &[("limit", Figure::MilligramsPerLitre(10.0))], EPA_NITRATE),
    caution("nitrate-water-eu", Warn, Feeding, &[("limit", Figure::MilligramsPerLitre(50.0))], EU_NITRATE),
    caution(
        "manure-limit-eu",
        Warn,
        Feeding,
        &[("limit", Figure::Dose(AreaMass::from_kg_ha(170.0)))],
        body("European Union", 1991, "Directive 91/676/EEC", Standing::Published),
    ),
    caution(
        "ammonia-urea",
        Note,
        Feeding,
        &[("rain", mm(13.0))],
        body("Montana State University", 0, "ammonia loss from surface urea", Standing::Published),
    ),
    caution(
        "ammonia-manure",
        Note,
        Feeding,
        &[("days", Figure::Days(1.0))],
        body(
            "Alberta Agriculture",
            0,
            "Nutrient Management Planning Guide, table 4.3.4",
            Standing::Published,
        ),
    ),
    caution("seed-burn", Note, Feeding, &[], CORNELL),
    caution(
        "acidifying",
        Note,
        Feeding,
        &[],
        body("extension tables", 0, "CaCO3 per 100 lb of material", Standing::SecondHand),
    ),
    caution("animal-meal-stock", Warn, Feeding, &[], PRACTICE),
];
