//! Measuring a batch: how wet it is, its carbon to nitrogen, what a volume of it weighs, whether it went sour.

use kerfbook_ledger::kind::{Answer, BatchTested};
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::caution::{self, Caution};
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
    /// Ash by dry mass.
    pub ash: Option<Share>,
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
    /// Whether it is ready.
    pub ready: ReadyTests,
    /// How it was measured.
    pub method: Option<&'a str>,
}

/// Tests of whether a compost is ready, as a laboratory or a flowerpot gives them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadyTests {
    /// Ammonium to nitrate, both as nitrogen.
    pub ammonium_nitrate: Option<f64>,
    /// Carbon dioxide, mg C a gram of organic matter and day.
    pub dioxide: Option<f64>,
    /// Seedlings that came up, per cent of a control.
    pub emergence_pct: Option<f64>,
    /// Rise in an insulated flask, °C.
    pub self_heating_c: Option<f64>,
    /// Oxygen taken up, mg a kg of volatile solids and hour.
    pub oxygen: Option<f64>,
    /// Germination index, per cent.
    pub germination_pct: Option<f64>,
    /// Seedlings grown in it beside a clean control were hurt.
    pub seedlings_hurt: Option<bool>,
}

impl ReadyTests {
    /// None of them.
    pub const NONE: Self = Self {
        ammonium_nitrate: None,
        dioxide: None,
        emergence_pct: None,
        self_heating_c: None,
        oxygen: None,
        germination_pct: None,
        seedlings_hurt: None,
    };

    fn check(&self) -> Result<(), ActError> {
        between("ammonium_nitrate", self.ammonium_nitrate, 0.0, 1_000.0)?;
        between("dioxide_mg_g_day", self.dioxide, 0.0, 200.0)?;
        between("emergence_pct", self.emergence_pct, 0.0, 300.0)?;
        between("self_heating_c", self.self_heating_c, 0.0, 70.0)?;
        between("oxygen_mg_kg_h", self.oxygen, 0.0, 20_000.0)?;
        between("germination_index_pct", self.germination_pct, 0.0, 400.0)
    }
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
            ash: None,
            wet_density: None,
            wet_density_sd: None,
            smell: None,
            ph: None,
            ready: ReadyTests::NONE,
            method: None,
        }
    }
}

/// A test in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Tested {
    /// Its entry.
    pub entry: EntryId,
    /// What follows from its smell and pH, where these were taken.
    pub follows: Option<Follows>,
    /// What to heed.
    pub cautions: Vec<&'static Caution>,
}

/// Writes a test.
///
/// # Errors
/// A batch that is not there, no figure or one that cannot be, or a book that cannot be written.
pub fn test(book: &mut Book, new: &NewBatchTest<'_>, moment: Moment) -> Result<Tested, ActError> {
    book.batch(new.batch)?.ok_or(ActError::NotThere { what: "batch" })?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    between("carbon_nitrogen", new.carbon_nitrogen, 1.0, 5_000.0)?;
    between("ash_pct", new.ash.map(Share::percent), 0.0, 100.0)?;
    between("bulk_density_kg_m3", new.wet_density.map(Density::kg_m3), 20.0, 1_500.0)?;
    between("bulk_density_within", new.wet_density_sd, 0.0, 1.0)?;
    between("ph", new.ph, 0.0, 14.0)?;
    new.ready.check()?;
    let found = storage::sourness(new.smell, new.ph);
    let figures = new.moisture.is_some()
        || new.carbon_nitrogen.is_some()
        || new.ash.is_some()
        || new.wet_density.is_some();
    let answers = new.handful.is_some() || new.age.is_some() || new.smell.is_some();
    let ready = new.ready != ReadyTests::NONE;
    if !figures && !answers && !ready && found.is_none() {
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
        ammonium_nitrate_x100: new.ready.ammonium_nitrate.map(hundredths),
        dioxide_x100: new.ready.dioxide.map(hundredths),
        emergence_bp: new.ready.emergence_pct.map(hundredths),
        self_heating_centi_c: new.ready.self_heating_c.map(hundredths),
        oxygen_mg_kg_h: new.ready.oxygen.map(whole_u32),
        germination_bp: new.ready.germination_pct.map(hundredths),
        seedlings_hurt: new.ready.seedlings_hurt.map(|hurt| if hurt { Answer::Yes } else { Answer::No }),
        ash_bp: new.ash.map(basis_points),
    };
    let draft = moment.draft(body)?.about(new.batch);
    let entry = first(&book.append(&[draft], &[], moment.wall_ms)?)?;
    // A flowerpot is how weedkillers that outlast compost are found: what it said decides.
    let hurt = new.ready.seedlings_hurt == Some(true);
    Ok(Tested {
        entry,
        follows: found.map(|found| storage::follows(found, moment.date)),
        cautions: hurt.then(|| caution::of_id("persistent-weedkillers")).flatten().into_iter().collect(),
    })
}

fn hundredths(figure: f64) -> u32 {
    whole_u32(figure * 100.0)
}
