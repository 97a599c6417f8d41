//! What becomes of the nitrogen of a plan, run by run against the same place without it.

use kerfbook_science::feed::{Enters, Feed};
use kerfbook_science::nitrogen::{GiftSource, Series, ammonia_share};

use super::futures::Futures;
use super::ground::{Ground, Side};
use super::step::Step;
use crate::compare::{self, Three};
use crate::dose::Low;
use crate::error::ActError;
use crate::site;

/// Where the nitrogen of a plan goes, part of it, by the end of the year looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fate {
    /// Expected to go as ammonia: the table's low, most likely and high share for this source, placed as planned.
    pub ammonia: Low,
    /// Gone as ammonia in the runs.
    pub ammonia_runs: Three,
    /// Washed out of the root zone.
    pub leached: Three,
    /// Gone into the air as other gases.
    pub denitrified: Three,
    /// In the crops, this season's and those after it in the year.
    pub crop: Three,
    /// Days looked at.
    pub days: u32,
}

/// Works out what becomes of doses.
pub(super) fn fate(
    ground: &Ground,
    futures: &Futures,
    (source, step): (&'static Feed, &Step),
    days: &[u32],
    doses: &[u32],
) -> Result<Fate, ActError> {
    let given = step.kg_ha * f64::from(doses.iter().sum::<u32>());
    let last = ground.year();
    let without = futures.run(&ground.here, &[last])?;
    let with = futures.run(&ground.fed(Side::Here, (source, step), days, doses)?, &[last])?;
    let part = |with: &[f64], without: &[f64]| Three::of(&compare::less(with, without)).times(1.0 / given);
    let of =
        |series: Series| part(compare::series(&with, series, last), compare::series(&without, series, last));
    Ok(Fate {
        ammonia: expected(source),
        ammonia_runs: of(Series::Ammonia),
        leached: of(Series::Leached),
        denitrified: of(Series::Denitrified),
        crop: part(&compare::crop_nitrogen(&with, last), &compare::crop_nitrogen(&without, last)),
        days: last,
    })
}

/// The table's share of the source's nitrogen that goes as ammonia; planned feeds are mixed in or covered.
fn expected(source: &Feed) -> Low {
    let (mineral, part) = match source.enters {
        Enters::Gift(gift) => (site::gift_source(gift), 1.0),
        Enters::Layer { ammonium, .. } => (GiftSource::Manure, ammonium),
    };
    let (low, typical, high) = ammonia_share(mineral, true);
    Low { low: low * part, typical: typical * part, high: high * part }
}
