//! The rules of the answer: one instruction, one amount, one thing to give, one date to look, one thing not to do.
//!
//! Every rule here is common practice without a source; each is a named constant or a function of its own.

use chrono::{Days, NaiveDate};
use serde::Serialize;

use crate::compare::{Three, WayResult};
use crate::load::Counted;
use crate::question::Narrowing;
use crate::way::Row;

/// Look at the leaves this many days before the early end (P10) of the hungry day.
pub const LOOK_BEFORE_HUNGRY_DAYS: u64 = 14;
/// Where no hungry day comes: look this many days after planting.
pub const LOOK_AFTER_PLANTING_DAYS: u64 = 28;
/// A day never to look before: the first week shows nothing.
pub const LOOK_NOT_BEFORE_DAYS: u64 = 7;
/// Leaching saved from which "this is catching nitrate" is said, kg N/ha.
pub const CATCHING_NITRATE_KG_HA: f64 = 10.0;
/// A feed below this is not worth a walk, kg N/ha.
pub const LEAST_FEED_KG_HA: f64 = 5.0;
/// A difference in crop nitrogen below this is no difference, kg N/ha.
pub const NO_DIFFERENCE_KG_HA: f64 = 1.0;

/// What to do, with its cost.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The way.
    pub row: Row,
    /// How much of the load.
    pub amount: Amount,
    /// What to give.
    pub give: Give,
    /// When to look.
    pub look: NaiveDate,
    /// What not to do.
    pub not: Not,
    /// What it costs.
    pub cost: Cost,
    /// The input that moves the answer most.
    pub least_known: &'static str,
    /// The question that would narrow the range most, where one is worth asking.
    pub question: Option<Narrowing>,
    /// A better way that cannot be done by the date.
    pub if_you_can_wait: Option<Better>,
    /// What the layer costs at both ends of the upward flux, where that flux decides.
    pub upward_flux: Option<UpwardFlux>,
}

/// Crop nitrogen that a mulch costs, by how much nitrogen moves up into it: the one assumption it hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UpwardFlux {
    /// At the low end of the flux, kg/ha.
    pub low_kg_ha: f64,
    /// At the high end, kg/ha.
    pub high_kg_ha: f64,
}

/// How much of the load to use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// Dry mass, kg.
    pub dry_kg: f64,
    /// Wet mass, kg.
    pub wet_kg: f64,
    /// Loose volume, litres.
    pub litres: f64,
    /// Depth of the layer, mm.
    pub depth_mm: f64,
    /// In the grower's containers.
    pub counted: Counted,
    /// The load is more than this place takes in this way.
    pub less_than_load: bool,
    /// Dry mass of the finished batch, kg, where the load is composted first.
    pub finished_dry_kg: Option<f64>,
}

/// What to give.
#[derive(Debug, Clone, PartialEq)]
pub enum Give {
    /// Nothing.
    Nothing,
    /// Nothing: the layer is catching nitrate that would be lost.
    NothingCatchingNitrate {
        /// Leaching saved, kg N/ha.
        saved_kg_ha: f64,
    },
    /// A feed, split.
    Feed {
        /// What the crop would need on the bare place, kg N/ha.
        crop_kg_ha: f64,
        /// What the wood adds, kg N/ha.
        wood_kg_ha: f64,
        /// Name of the feed in the table.
        source: &'static str,
        /// Product for the wood's share, kg; litres for a liquid.
        product: f64,
        /// The product is a liquid.
        liquid: bool,
        /// More would be needed than a place takes at once: this is the most.
        most: bool,
    },
}

/// The costliest thing that might be done next.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Not {
    /// Digging the layer in.
    DigIn {
        /// More crop nitrogen lost, kg/ha.
        costs_kg_ha: f64,
    },
    /// Putting as much again.
    SameAgain {
        /// More crop nitrogen lost, kg/ha.
        costs_kg_ha: f64,
    },
    /// Piling it against stems and trunks.
    AgainstStems,
}

/// What it costs the crop.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    /// Crop nitrogen lost against the bare place; negative where the crop gains. `None` where nothing grows.
    pub lost_kg_ha: Option<Three>,
    /// The same by the tree, g.
    pub lost_g_tree: Option<Three>,
    /// The same by the litre of container, mg.
    pub lost_mg_litre: Option<Three>,
    /// Middle hungry day, where it comes.
    pub hungry: Option<NaiveDate>,
    /// Middle hungry day of the bare place, where it comes.
    pub hungry_bare: Option<NaiveDate>,
    /// Tied up after 60 days.
    pub tied_60_kg_ha: Three,
    /// When it lets go.
    pub release: Release,
    /// An annual crop grows here: hunger has a day.
    pub annual: bool,
}

/// When the tie-up turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Release {
    /// Half of the runs have turned by this date.
    By(NaiveDate),
    /// It gives from the start: there is nothing to let go.
    Gives,
    /// Fewer than half have turned.
    NotWithin {
        /// Days looked at.
        days: u32,
        /// Share of runs that turned.
        share: f64,
    },
}

/// A way that would be better if there were time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Better {
    /// The way.
    pub row: Row,
    /// More crop nitrogen than the answer's way gives, kg/ha.
    pub more_kg_ha: f64,
    /// Wet manure it needs on this place, kg.
    pub manure_wet_kg: f64,
    /// Months it needs.
    pub months: f64,
    /// Nitrogen that the heap brings on this place, kg/ha.
    pub brought_kg_ha: f64,
}

/// The date to look: before the early end of hunger, and never in the first week.
pub fn look(
    first: NaiveDate,
    planted: Option<NaiveDate>,
    hungry_p10: Option<NaiveDate>,
    put_down: NaiveDate,
) -> NaiveDate {
    let start = planted.unwrap_or(put_down).max(put_down);
    let wanted = hungry_p10
        .and_then(|day| day.checked_sub_days(Days::new(LOOK_BEFORE_HUNGRY_DAYS)))
        .or_else(|| start.checked_add_days(Days::new(LOOK_AFTER_PLANTING_DAYS)))
        .unwrap_or(start);
    let earliest = start.checked_add_days(Days::new(LOOK_NOT_BEFORE_DAYS)).unwrap_or(start);
    wanted.max(earliest).max(first)
}

/// The way to recommend: the best that can be done by its date.
pub fn choose(season: &[WayResult]) -> Option<Row> {
    season.iter().find(|row| row.row != Row::Bare && row.row.ranked() && row.doable).map(|row| row.row)
}

/// The plain question behind a parameter of the model.
///
/// Ids of `core/words`: `least-known-…`.
pub fn input_behind(parameter: &str, unknown_wood: bool) -> &'static str {
    match parameter {
        "wood" => "wood",
        "kL" | "fL" if unknown_wood => "wood",
        "kL" | "fL" | "kS" => "decay",
        "eL" | "eS" | "cnb" | "kB" | "h" | "kH" | "cnh" | "widen" => "microbes",
        "cn" => "carbon-nitrogen",
        "part" => "particle",
        "mass" | "moist" => "amount",
        "n0" => "soil-nitrogen",
        "supply" | "phi" | "organic" => "soil-supply",
        "capacity" => "soil-water",
        "umax" | "contact" | "zc" | "mixing" | "under" => "upward-flux",
        "rain" | "et" | "icept" | "mulch_e" | "bmin" | "leach" | "rain_n" | "denit" => "rain",
        "dT" | "tsel" | "q10" => "temperature",
        "demand" | "catchup" | "psi" => "crop-need",
        "seam" | "loss_u" | "urine" => "feed-loss",
        _ => "other",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, month, day).unwrap_or_default()
    }

    #[test]
    fn look_is_a_fortnight_before_the_early_hungry_day() {
        assert_eq!(look(date(4, 15), Some(date(4, 15)), Some(date(6, 8)), date(4, 15)), date(5, 25));
    }

    #[test]
    fn look_is_four_weeks_after_planting_where_no_hunger_comes() {
        assert_eq!(look(date(4, 15), Some(date(5, 1)), None, date(4, 15)), date(5, 29));
    }

    #[test]
    fn look_is_never_in_the_first_week() {
        assert_eq!(look(date(4, 15), Some(date(4, 15)), Some(date(4, 20)), date(4, 15)), date(4, 22));
    }
}
