//! A pile: what it was built of, what was read in it, how often it was turned, and the batches it became.

use super::current::{Current, Flag, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, carries, flagged};
use crate::entry::field::{Label, record};
use crate::entry::id::{Date, EntryId};
use crate::entry::kind::{Body, HeatRead, MoistureRead, Part, PileBuilt, PileFinished, PileTurned};
use crate::error::Result;

record! {
    /// A pile.
    PileView {
        /// The entry that built it.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// When it was built.
        date: Date,
        /// Where it stands.
        place: Option<EntryId>,
        /// What was taken from which batch.
        parts: Vec<Part>,
        /// Water added when it was built, mL.
        water_ml: Option<u64>,
        /// Mass with its water when it was built, g.
        wet_g: Option<u64>,
        /// Volume when it was built, mL.
        volume_ml: Option<u64>,
        /// Water by mass when it was built, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen when it was built, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// The heat rule that it is to meet.
        rule: Option<Label>,
        /// Turnings.
        turnings: Vec<Said<PileTurned>>,
        /// Readings of heat.
        heat: Vec<Said<HeatRead>>,
        /// Readings of moisture.
        moistures: Vec<Said<MoistureRead>>,
        /// The batches it became.
        finished: Vec<Said<PileFinished>>,
        /// Entries about it that carry a flag, its own included.
        flagged: Vec<Flagged>,
    }
}

impl PileView {
    /// Withdrawn: it never was.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }

    /// Still a pile: not withdrawn, and no batch yet.
    pub fn stands(&self) -> bool {
        !self.withdrawn() && self.finished.is_empty()
    }

    /// Dry mass that went in, g, where mass and moisture are known.
    pub fn dry_g(&self) -> Option<u64> {
        dry_g(self.wet_g?, self.moisture_bp?)
    }

    /// Dry mass that came out so far, g; none where that is not known of a batch.
    pub fn dry_out_g(&self) -> Option<u64> {
        self.finished.iter().map(|one| dry_g(one.body.wet_g?, one.body.moisture_bp?)).sum()
    }

    /// More dry mass came out than went in: something was entered wrongly.
    pub fn overdrawn(&self) -> bool {
        self.dry_g().zip(self.dry_out_g()).is_some_and(|(went_in, came_out)| came_out > went_in)
    }
}

fn dry_g(wet_g: u64, moisture_bp: u32) -> Option<u64> {
    let dry = u128::from(wet_g) * u128::from(10_000_u32.saturating_sub(moisture_bp)) / 10_000;
    u64::try_from(dry).ok()
}

/// Folds a pile.
pub(super) fn pile<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
    body: &PileBuilt,
) -> Result<PileView> {
    let id = opening.original.id;
    let mut view = PileView {
        id,
        label: body.label.clone(),
        date: opening.date,
        place: body.place,
        parts: body.parts.clone(),
        water_ml: body.water_ml,
        wet_g: body.wet_g,
        volume_ml: body.volume_ml,
        moisture_bp: body.moisture_bp,
        carbon_nitrogen_x100: body.carbon_nitrogen_x100,
        rule: body.rule.clone(),
        turnings: Vec::new(),
        heat: Vec::new(),
        moistures: Vec::new(),
        finished: Vec::new(),
        flagged: flagged(opening).into_iter().collect(),
    };
    for current in about(entries, standing, id)? {
        let about_it = current.subject == Some(id);
        match &current.body {
            Body::PileFinished(end) if end.pile == id => {
                if current.counts() {
                    view.finished.push(Said::of(&current, end));
                }
            }
            body if about_it => {
                if current.counts() {
                    add(&mut view, &current, body);
                }
            }
            _ => continue,
        }
        view.flagged.extend(flagged(&current));
    }
    Ok(view)
}

fn add(view: &mut PileView, current: &Current, body: &Body) {
    match body {
        Body::PileTurned(turning) => view.turnings.push(Said::of(current, turning)),
        Body::HeatRead(reading) => view.heat.push(Said::of(current, reading)),
        Body::MoistureRead(reading) => view.moistures.push(Said::of(current, reading)),
        _ => {}
    }
}
