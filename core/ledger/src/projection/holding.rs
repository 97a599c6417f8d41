//! The holding and its weather.

use super::current::{Current, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, flagged};
use crate::entry::field::{Label, record};
use crate::entry::id::EntryId;
use crate::entry::kind::{Body, HoldingOpened, WeatherRead, WeatherSpan};
use crate::error::Result;

record! {
    /// The holding, its usual weather and the days that were read, in order of days.
    HoldingView {
        /// The entry that opened it: what weather of the whole holding is about.
        id: EntryId,
        /// What it is called.
        name: Label,
        /// Food is sold.
        sells: bool,
        /// Certified organic.
        certified: bool,
        /// North positive, 0.01 degree.
        latitude_centidegree: Option<i32>,
        /// Usual months. Of two for one month the later holds.
        usual: Vec<Said<WeatherRead>>,
        /// The usual year in words; the later holds.
        usual_year: Vec<Said<WeatherRead>>,
        /// Days that were read. Of two figures for one day the later holds.
        days: Vec<Said<WeatherRead>>,
        /// Entries about it that carry a flag, its own included.
        flagged: Vec<Flagged>,
    }
}

/// Folds the holding.
pub(super) fn holding<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &HoldingOpened,
) -> Result<HoldingView> {
    let id = opening.original.id;
    let mut view = HoldingView {
        id,
        name: body.name.clone(),
        sells: body.sells,
        certified: body.certified,
        latitude_centidegree: body.latitude_centidegree,
        usual: Vec::new(),
        usual_year: Vec::new(),
        days: Vec::new(),
        flagged: flagged(opening).into_iter().collect(),
    };
    for current in about(entries, standing, id)? {
        if current.subject != Some(id) {
            continue;
        }
        view.flagged.extend(flagged(&current));
        if let (true, Body::WeatherRead(read)) = (current.counts(), &current.body) {
            match read.span {
                WeatherSpan::Day => view.days.push(Said::of(&current, read)),
                WeatherSpan::UsualMonth => view.usual.push(Said::of(&current, read)),
                WeatherSpan::UsualYear => view.usual_year.push(Said::of(&current, read)),
            }
        }
    }
    Ok(view)
}
