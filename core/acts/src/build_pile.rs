//! Building a pile from batches: their mass leaves them and is in the pile.

use kerfbook_ledger::kind::{Part, PileBuilt};
use kerfbook_ledger::{Book, EntryId, Label};
use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::compost::heat_rule;
use kerfbook_science::compost::mix::{Composition, Mix};
use kerfbook_science::lookup::Match;
use kerfbook_science::units::{Mass, Share, Volume};

use crate::blend_batch::{NewPart, Portion, any_twice, portion};
use crate::error::ActError;
use crate::figure::{above_zero, basis_points, between, grams, millilitres, whole_u32};
use crate::moment::Moment;
use crate::pile::composition_of;
use crate::scenario::Containers;
use crate::take_in_load::first;

/// A pile as a person describes it. What is left out follows from the parts.
#[derive(Debug, Clone, PartialEq)]
pub struct NewPile<'a> {
    /// What it is called here.
    pub label: &'a str,
    /// Where it stands.
    pub place: Option<EntryId>,
    /// What goes into it: each batch once.
    pub parts: &'a [NewPart],
    /// Water that was added.
    pub water: Option<Mass>,
    /// Volume as it lies, where it was measured.
    pub volume: Option<Volume>,
    /// Moisture, where it was measured.
    pub moisture: Option<Share>,
    /// The heat rule that it is to meet.
    pub rule: Option<&'a str>,
}

/// A pile in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Built {
    /// Its entry.
    pub pile: EntryId,
    /// What it comes to.
    pub mix: Mix,
    /// What to heed.
    pub cautions: Vec<&'static Caution>,
}

/// Writes a pile.
///
/// # Errors
/// No batch or one twice, an amount of nothing, a batch or place that is not in the book or came later, a rule that there
/// is not, or a book that cannot be written.
pub fn build(
    book: &mut Book,
    new: &NewPile<'_>,
    containers: &Containers,
    moment: Moment,
) -> Result<Built, ActError> {
    if new.parts.is_empty() || any_twice(new.parts) {
        return Err(ActError::NoPile);
    }
    above_zero("volume_m3", new.volume.map(Volume::m3), 1e6)?;
    between("water_kg", new.water.map(Mass::kg), 0.0, 1e8)?;
    between("moisture_pct", new.moisture.map(Share::percent), 0.0, 95.0)?;
    if let Some(place) = new.place {
        book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    }
    let rule = new.rule.map(rule_called).transpose()?;
    let (mut parts, mut inside, mut materials) = (Vec::new(), Vec::new(), Vec::new());
    let mut loose = Volume::default();
    for part in new.parts {
        let Portion { figures, wet, volume, .. } = portion(book, part, containers, moment.date)?;
        above_zero("parts.amount", Some(wet.kg()), 1e8)?;
        inside.push(composition_of(&figures).ok_or(ActError::NoPile)?.times(wet));
        materials.push(figures.material);
        loose = loose + volume;
        parts.push(Part { batch: part.batch, wet_g: Some(grams(wet)), volume_ml: Some(millilitres(volume)) });
    }
    inside.extend(new.water.map(|water| Composition::WATER.times(water)));
    let mix = Mix::of(&inside);
    let body = PileBuilt {
        label: Label::new(new.label)?,
        place: new.place,
        parts,
        water_ml: new.water.map(grams),
        wet_g: Some(inside.iter().map(|one| grams(one.wet)).sum()),
        volume_ml: Some(millilitres(new.volume.unwrap_or(loose))),
        moisture_bp: new.moisture.or_else(|| mix.moisture()).map(basis_points),
        carbon_nitrogen_x100: mix.carbon_nitrogen().map(|ratio| whole_u32(ratio * 100.0)),
        rule: rule.map(Label::new).transpose()?,
    };
    let pile = first(&book.append(&[moment.draft(body)?], &[], moment.wall_ms)?)?;
    Ok(Built { pile, mix, cautions: caution::at_pile(AtPile::Building(&materials)) })
}

/// The name of a rule as the table has it.
fn rule_called(name: &str) -> Result<&'static str, ActError> {
    match heat_rule::find(name) {
        Match::Exact(rule) => Ok(rule.id),
        Match::Near(near) => {
            let all = || heat_rule::all().iter().map(|rule| rule.id).collect();
            let nearest: Vec<&'static str> = near.iter().map(|rule| rule.id).collect();
            Err(ActError::UnknownHeatRule {
                rule: name.to_owned(),
                nearest: if nearest.is_empty() { all() } else { nearest },
            })
        }
    }
}
