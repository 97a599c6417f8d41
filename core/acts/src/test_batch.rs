//! Measuring a batch: how wet it is, its carbon to nitrogen, what a volume of it weighs, whether it went sour.

use kerfbook_ledger::kind::{Answer, BatchTested};
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::plain::Age;
use kerfbook_science::units::{Density, Share};

use crate::error::ActError;
use crate::figure::{basis_points, between, whole_u32};
use crate::in_words::InWords;
use crate::moment::Moment;
use crate::storage::{self, Follows, Handful, Smell, Sourness};
use crate::take_in_load::first;

/// What was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct NewBatchTest<'a> {
    /// Of which batch.
    pub batch: EntryId,
    /// Water by mass of the moist batch.
    pub moisture: Option<Share>,
    /// Carbon to nitrogen.
    pub carbon_nitrogen: Option<f64>,
    /// Moist, loose.
    pub wet_density: Option<Density>,
    /// What a handful squeezed is like, where the moisture was not measured.
    pub handful: Option<Handful>,
    /// How old it looks.
    pub age: Option<Age>,
    /// What it smells of.
    pub smell: Option<Smell>,
    /// What a pH strip in its water says.
    pub ph: Option<f64>,
    /// Standard deviation of that density as part of it.
    pub wet_density_sd: Option<f64>,
    /// How it was measured.
    pub method: Option<&'a str>,
}

impl NewBatchTest<'_> {
    /// A test of a batch of which nothing was measured yet.
    pub const fn of(batch: EntryId) -> Self {
        Self {
            batch,
            moisture: None,
            handful: None,
            age: None,
            carbon_nitrogen: None,
            wet_density: None,
            wet_density_sd: None,
            smell: None,
            ph: None,
            method: None,
        }
    }
}

/// A test in the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tested {
    /// Its entry.
    pub entry: EntryId,
    /// What follows from its smell and pH, where these were taken.
    pub follows: Option<Follows>,
}

/// Writes a test.
///
/// # Errors
/// A batch that is not there, no figure or one that cannot be, or a book that cannot be written.
pub fn test(book: &mut Book, new: &NewBatchTest<'_>, moment: Moment) -> Result<Tested, ActError> {
    book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    between("carbon_nitrogen", new.carbon_nitrogen, 1.0, 5_000.0)?;
    between("bulk_density_kg_m3", new.wet_density.map(Density::kg_m3), 20.0, 1_500.0)?;
    between("bulk_density_within", new.wet_density_sd, 0.0, 1.0)?;
    between("ph", new.ph, 0.0, 14.0)?;
    let found = storage::sourness(new.smell, new.ph);
    let figures = new.moisture.is_some() || new.carbon_nitrogen.is_some() || new.wet_density.is_some();
    let answers = new.handful.is_some() || new.age.is_some() || new.smell.is_some();
    if !figures && !answers && found.is_none() {
        return Err(ActError::NothingMeasured);
    }
    let strip = new.ph.map(|ph| format!("pH {ph:.1}"));
    let told = new.handful.filter(|_| new.moisture.is_none());
    let felt = storage::moisture(None, None, told, false);
    let body = BatchTested {
        moisture_bp: new.moisture.or(felt.map(|felt| felt.middle)).map(basis_points),
        moisture_half_bp: felt.map(|felt| basis_points(felt.half)),
        handful: new.handful.map(InWords::kept),
        age: new.age.map(InWords::kept),
        smell: new.smell.map(InWords::kept),
        carbon_nitrogen_x100: new.carbon_nitrogen.map(|ratio| whole_u32(ratio * 100.0)),
        wet_density_g_m3: new.wet_density.map(|density| whole_u32(density.kg_m3() * 1000.0)),
        sour: found.map(|found| match found {
            Sourness::Sour => Answer::Yes,
            Sourness::Doubtful => Answer::Unknown,
            Sourness::Sweet => Answer::No,
        }),
        wet_density_sd_bp: new
            .wet_density
            .and(new.wet_density_sd)
            .map(|sd| basis_points(Share::from_fraction(sd))),
        method: new.method.or(strip.as_deref()).map(Label::new).transpose()?,
    };
    let draft = moment.draft(body)?.about(new.batch);
    let entry = first(&book.append(&[draft], &[], moment.wall_ms)?)?;
    Ok(Tested { entry, follows: found.map(|found| storage::follows(found, moment.date)) })
}
