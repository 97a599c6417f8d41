//! The ways of using a load, with what each brings and takes for granted.
//!
//! Where the scenario does not describe a way, these defaults stand in; every one is listed with the answer.

use kerfbook_science::material::ModelClass;
use kerfbook_science::source::{Source, Sourced, Standing};
use serde::Serialize;

use crate::assumed::{Assumed, Value};
use crate::load::Load;

/// A row of the comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Row {
    /// Nothing put down.
    Bare,
    /// Mixed into the soil.
    WorkedIn,
    /// Laid on the soil.
    OnTop,
    /// Laid on the soil over finished compost.
    OverCompost,
    /// Laid on the soil over diluted urine.
    OverUrine,
    /// Composted with cattle manure, then worked in.
    CompostedFirst,
    /// On a path, where nothing grows.
    Path,
    /// In a ring under a tree.
    Ring,
}

impl Row {
    /// The way's name as used in files and screens.
    pub const fn way(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::WorkedIn => "worked-in",
            Self::OnTop => "on-top",
            Self::OverCompost | Self::OverUrine => "on-top-over-nitrogen",
            Self::CompostedFirst => "composted-first",
            Self::Path => "path",
            Self::Ring => "ring",
        }
    }

    /// What lies under the layer, for the way that has two rows.
    pub const fn over(self) -> Option<&'static str> {
        match self {
            Self::OverCompost => Some("compost"),
            Self::OverUrine => Some("urine"),
            _ => None,
        }
    }

    /// Ranked among the ways of a bed.
    pub const fn ranked(self) -> bool {
        !matches!(self, Self::Path | Self::Ring)
    }

    /// Residue lies on the soil.
    pub const fn is_mulch(self) -> bool {
        matches!(self, Self::OnTop | Self::OverCompost | Self::OverUrine | Self::Path | Self::Ring)
    }
}

/// Working in goes this deep, cm. `soil_worked` of the model mixes the whole depth.
pub const WORKED_IN_DEPTH_CM: Sourced<f64> = Sourced::new(20.0, Source::COMMON_PRACTICE);
/// Finished compost under a layer, dry t/ha: about 1 cm moist.
pub const COMPOST_DRY_T_HA: Sourced<f64> = Sourced::new(10.0, Source::COMMON_PRACTICE);
/// Depth of it, moist, cm.
pub const COMPOST_UNDER_CM: Sourced<f64> = Sourced::new(1.0, Source::COMMON_PRACTICE);
/// Its carbon to nitrogen.
pub const COMPOST_CARBON_NITROGEN: Sourced<f64> = Sourced::new(14.0, Source::ASSUMPTION);
/// The ammonium and nitrate it brings, kg N/ha at that dose.
pub const COMPOST_MINERAL_NITROGEN_KG_HA: Sourced<f64> = Sourced::new(8.0, Source::ASSUMPTION);
/// Urine under a layer, litres per square metre, diluted as you like.
pub const URINE_LITRES_M2: Sourced<f64> = Sourced::new(1.0, Source::COMMON_PRACTICE);
/// Carbon to nitrogen of the heap at its start.
pub const HEAP_CARBON_NITROGEN: Sourced<f64> = Sourced::new(28.0, Source::COMMON_PRACTICE);
/// Where the figures of cattle manure come from.
const CATTLE_MANURE: Source = Source::new(
    "Rynk",
    1992,
    "On-Farm Composting Handbook, NRAES-54",
    "Table A.1, cattle manure",
    Standing::FromMemory,
);
/// Carbon to nitrogen of the cattle manure in it.
pub const MANURE_CARBON_NITROGEN: Sourced<f64> = Sourced::new(19.0, CATTLE_MANURE);
/// Nitrogen in the dry matter of that manure.
pub const MANURE_NITROGEN_SHARE: Sourced<f64> = Sourced::new(0.024, CATTLE_MANURE);
/// Moisture of that manure, wet basis.
pub const MANURE_MOISTURE: Sourced<f64> = Sourced::new(0.81, CATTLE_MANURE);
/// Most nitrogen a year from livestock manure, kg/ha, where the Nitrates Directive holds; told wherever a heap brings
/// more.
pub const MANURE_LIMIT_KG_HA: Sourced<f64> = Sourced::new(
    170.0,
    Source::new("European Union", 1991, "Directive 91/676/EEC", "annex III", Standing::Published),
);
/// Carbon lost in the heap: half, within up to 60 % in beef manure.
pub const HEAP_CARBON_LOSS: Sourced<f64> = Sourced::new(0.5, Source::COMMON_PRACTICE);
/// Nitrogen lost in the heap: a fifth, within up to 40 % in beef manure.
pub const HEAP_NITROGEN_LOSS: Sourced<f64> = Sourced::new(0.2, Source::COMMON_PRACTICE);
/// Months from building the heap to spreading: four hot, one curing.
pub const HEAP_MONTHS: Sourced<f64> = Sourced::new(5.0, Source::COMMON_PRACTICE);
/// Depth of residue on a path, cm.
pub const PATH_DEPTH_CM: Sourced<f64> = Sourced::new(10.0, Source::COMMON_PRACTICE);
/// Depth of a ring, cm.
pub const RING_DEPTH_CM: Sourced<f64> = Sourced::new(7.5, Source::COMMON_PRACTICE);
/// Gap between a ring and the trunk, cm.
pub const RING_GAP_CM: Sourced<f64> = Sourced::new(
    15.0,
    Source::new(
        "Iowa State University Extension",
        0,
        "Mulching trees and shrubs",
        "clearance",
        Standing::Published,
    ),
);
/// Nitrogen that every way carries in the table at equal nitrogen, kg/ha.
pub const EQUAL_NITROGEN_KG_HA: Sourced<f64> = Sourced::new(60.0, Source::ASSUMPTION);

/// What a heap of the wood with manure comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composted {
    /// Dry matter of the finished batch, t/ha of the place.
    pub dry_t_ha: f64,
    /// Its carbon to nitrogen.
    pub carbon_nitrogen: f64,
    /// Dry manure that went in, t/ha of the place.
    pub manure_dry_t_ha: f64,
    /// Nitrogen it brings beyond the wood's own, kg/ha.
    pub brought_kg_ha: f64,
}

/// Composts a load with cattle manure to the starting C:N, and takes the losses off.
///
/// Ratios are weighed by nitrogen, never averaged. `None` where the load alone is at or under the goal: it
/// needs no manure.
pub fn composted_with_manure(load: &Load, wood: Wood) -> Option<Composted> {
    let carbon = load.dry_per_area.kg_ha() * wood.carbon_share;
    let nitrogen = carbon / wood.carbon_nitrogen;
    let goal = HEAP_CARBON_NITROGEN.value;
    if wood.carbon_nitrogen <= goal {
        return None;
    }
    let manure_carbon = (carbon - goal * nitrogen) / (goal / MANURE_CARBON_NITROGEN.value - 1.0);
    let manure_nitrogen = manure_carbon / MANURE_CARBON_NITROGEN.value;
    let finished_carbon = (carbon + manure_carbon) * (1.0 - HEAP_CARBON_LOSS.value);
    let finished_nitrogen = (nitrogen + manure_nitrogen) * (1.0 - HEAP_NITROGEN_LOSS.value);
    Some(Composted {
        dry_t_ha: finished_carbon / ModelClass::CompostedWood.carbon_share() / 1000.0,
        carbon_nitrogen: finished_carbon / finished_nitrogen,
        manure_dry_t_ha: manure_nitrogen / MANURE_NITROGEN_SHARE.value / 1000.0,
        brought_kg_ha: finished_nitrogen - nitrogen,
    })
}

/// Composts a load with a given nitrogen: half the carbon and a fifth of the *added* nitrogen lost.
///
/// The model's evidence table sets the ways at equal nitrogen so.
pub fn composted_with_nitrogen(load: &Load, wood: Wood, nitrogen_kg_ha: f64) -> Composted {
    let carbon = load.dry_per_area.kg_ha() * wood.carbon_share;
    let own = carbon / wood.carbon_nitrogen;
    let finished_carbon = carbon * (1.0 - HEAP_CARBON_LOSS.value);
    let kept = nitrogen_kg_ha * (1.0 - HEAP_NITROGEN_LOSS.value);
    Composted {
        dry_t_ha: finished_carbon / ModelClass::CompostedWood.carbon_share() / 1000.0,
        carbon_nitrogen: finished_carbon / (own + kept),
        manure_dry_t_ha: 0.0,
        brought_kg_ha: kept,
    }
}

/// The carbon of a load's dry matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wood {
    /// Carbon in the dry matter.
    pub carbon_share: f64,
    /// Carbon to nitrogen by mass.
    pub carbon_nitrogen: f64,
}

impl Wood {
    /// Of a load: the model's class figures weighed by mass, the stated C:N where there is one.
    pub fn of(load: &Load) -> Self {
        let (mut carbon, mut nitrogen) = (0.0, 0.0);
        for part in &load.composition {
            let classes = part.one_of.len().max(1) as f64;
            for class in part.one_of {
                let share = part.share / classes;
                carbon += share * class.carbon_share();
                nitrogen += share * class.carbon_share() / class.carbon_nitrogen();
            }
        }
        Self { carbon_share: carbon, carbon_nitrogen: load.carbon_nitrogen.unwrap_or(carbon / nitrogen) }
    }
}

/// Nitrogen that urine brings under a layer, kg/ha, at the model's median.
pub const fn urine_nitrogen_kg_ha() -> f64 {
    /// Nitrogen of a litre of stored urine, g: the median of the model's parameter.
    const GRAMS_PER_LITRE: f64 = 5.0;
    // A litre on each of 10 000 square metres.
    URINE_LITRES_M2.value * GRAMS_PER_LITRE * 10.0
}

/// What a row takes for granted.
pub fn assumed(row: Row, composted: Option<&Composted>) -> Vec<Assumed> {
    match row {
        Row::Bare | Row::OnTop => Vec::new(),
        Row::WorkedIn => vec![Assumed::number("worked_in_depth_cm", WORKED_IN_DEPTH_CM.value)],
        Row::OverCompost => vec![
            Assumed::number("compost_dry_t_ha", COMPOST_DRY_T_HA.value),
            Assumed::number("compost_carbon_nitrogen", COMPOST_CARBON_NITROGEN.value),
            Assumed::number("compost_mineral_nitrogen_kg_ha", COMPOST_MINERAL_NITROGEN_KG_HA.value),
        ],
        Row::OverUrine => vec![Assumed::number("urine_litres_m2", URINE_LITRES_M2.value)],
        Row::CompostedFirst => {
            let mut list = vec![
                Assumed::text("composted_with", "cattle manure"),
                Assumed::number("heap_carbon_nitrogen", HEAP_CARBON_NITROGEN.value),
                Assumed::number("manure_carbon_nitrogen", MANURE_CARBON_NITROGEN.value),
                Assumed::new("heap_carbon_loss_pct", Value::Percent(HEAP_CARBON_LOSS.value)),
                Assumed::new("heap_nitrogen_loss_pct", Value::Percent(HEAP_NITROGEN_LOSS.value)),
                Assumed::number("heap_months", HEAP_MONTHS.value),
            ];
            if let Some(made) = composted {
                list.push(Assumed::number("manure_dry_t_ha", made.manure_dry_t_ha));
                list.push(Assumed::number("composted_dry_t_ha", made.dry_t_ha));
                list.push(Assumed::number("composted_carbon_nitrogen", made.carbon_nitrogen));
            }
            list
        }
        Row::Path => vec![Assumed::number("path_depth_cm", PATH_DEPTH_CM.value)],
        Row::Ring => vec![
            Assumed::number("ring_depth_cm", RING_DEPTH_CM.value),
            Assumed::number("ring_gap_cm", RING_GAP_CM.value),
        ],
    }
}
