//! Mistakes: the wrong place, one load entered twice, the wrong unit, an entry that should not be there. Each is put
//! right whole, in one durable step; nothing is rubbed out.

use std::collections::BTreeSet;

use kerfbook_ledger::kind::{Answer, BatchBlended, ContainerKind, Kind, Part, PileBuilt, Subject};
use kerfbook_ledger::{Body, Book, Change, Current, EntryId, Field, Flag, Replacement, Text, Value};
use kerfbook_science::units::{Area, Length, Mass, Volume};

use crate::error::{ActError, Unfit};
use crate::figure::whole;
use crate::moment::Moment;

/// Moves entries to the place that they are about in truth, with all that hangs on them: what was measured, lifted or
/// read of a layer or crop, and the feed that was laid under a layer. Gives the corrections.
///
/// # Errors
/// An entry or place that is not there, an entry that is about no place, one that is about this place already, or a book
/// that cannot be written.
pub fn moved_to(
    book: &mut Book,
    entries: &[EntryId],
    place: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<Vec<EntryId>, ActError> {
    book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    let mut moving: BTreeSet<EntryId> = BTreeSet::new();
    let mut open: Vec<EntryId> = Vec::new();
    for entry in entries {
        let current = book.current(*entry)?.ok_or(ActError::NotThere { what: "entry" })?;
        let of_place = current
            .original
            .known_kind()
            .is_some_and(|kind| matches!(kind.subject(), Subject::Place | Subject::HoldingOrPlace));
        let placed = of_place && current.subject.is_some();
        if !placed && !is_note(&current) {
            return Err(ActError::NoChange(Unfit::NoPlace));
        }
        if current.subject == Some(place) {
            return Err(ActError::NoChange(Unfit::HereAlready));
        }
        open.push(*entry);
    }
    while let Some(id) = open.pop() {
        if !moving.insert(id) {
            continue;
        }
        let Some(current) = book.current(id)? else { continue };
        let from = current.subject;
        for other in book.naming(id)?.into_iter().filter(|other| other.subject == from) {
            if !other.flags.contains(&Flag::Withdrawn) && hangs_on(&other.body, id) {
                open.push(other.original.id);
            }
        }
        if let Body::PutDown(put) = &current.body
            && let Some(under) = put.over
            && book.current(under)?.is_some_and(|under| under.subject == from)
        {
            open.push(under);
        }
    }
    let change = change(reason, moment)?;
    book.together(|book| {
        let to = [Replacement::subject(place)];
        let corrections = moving.iter().map(|entry| book.correct(*entry, &to, change, moment.wall_ms));
        Ok(corrections.collect::<Result<_, _>>()?)
    })
}

/// Whether an entry is about a layer, a crop or a feed where that lies or grows.
fn hangs_on(body: &Body, what: EntryId) -> bool {
    match body {
        Body::DepthProbed(probe) => probe.layer == Some(what),
        Body::LayerLifted(lift) => lift.layer == what,
        Body::PutDown(put) => put.over == Some(what),
        Body::CropEnded(end) => end.crop == what,
        Body::LeafRead(read) => read.crop == Some(what),
        _ => false,
    }
}

fn is_note(current: &Current) -> bool {
    matches!(current.body, Body::NoteMade(_) | Body::TaskSet(_)) && current.subject.is_some()
}

/// Makes one of a load that two people entered: all that names the second names the first from now on, the first takes
/// over figures and answers that only the second had, and the second is withdrawn. Gives the changes, the withdrawal
/// last.
///
/// # Errors
/// A batch that is not there or is no load, the same batch twice, or a book that cannot be written.
pub fn same_load(
    book: &mut Book,
    keep: EntryId,
    second: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<Vec<EntryId>, ActError> {
    if keep == second {
        return Err(ActError::NoChange(Unfit::SameEntry));
    }
    let kept = load(book, keep)?;
    let dropped = load(book, second)?;
    let mut corrections = vec![(keep, only_in_second(&kept, &dropped))];
    let mut seen = BTreeSet::new();
    for current in book.naming(second)? {
        // What was corrected to name it is found through the correction.
        let target = match &current.body {
            Body::EntryCorrected(correction) => correction.target,
            Body::EntryWithdrawn(_) => continue,
            _ => current.original.id,
        };
        if target == second || !seen.insert(target) {
            continue;
        }
        let Some(current) = book.current(target)? else { continue };
        if current.flags.contains(&Flag::Withdrawn) {
            continue;
        }
        corrections.push((target, renamed(&current, second, keep)?));
    }
    corrections.retain(|(_, replaced)| !replaced.is_empty());
    let change = change(reason, moment)?;
    book.together(|book| {
        let mut changes = Vec::with_capacity(corrections.len() + 1);
        for (target, replaced) in &corrections {
            changes.push(book.correct(*target, replaced, change, moment.wall_ms)?);
        }
        changes.push(book.withdraw(second, change, moment.wall_ms)?);
        Ok(changes)
    })
}

fn load(book: &Book, id: EntryId) -> Result<Current, ActError> {
    let current = book.current(id)?.ok_or(ActError::NotThere { what: "batch" })?;
    if current.flags.contains(&Flag::Withdrawn) {
        return Err(ActError::NotThere { what: "batch" });
    }
    match current.body {
        Body::LoadTakenIn(_) => Ok(current),
        _ => Err(ActError::NoChange(Unfit::NoLoad)),
    }
}

/// Fields that only the second entry of a load fills, and answers that it gives gravely: of two answers "yes" holds, and
/// "don't know" says nothing.
fn only_in_second(kept: &Current, second: &Current) -> Vec<Replacement> {
    let (Some((_, _, ours)), Some((kind, _, theirs))) = (kept.body.write(), second.body.write()) else {
        return Vec::new();
    };
    let (yes, unknown) = (Answer::Yes.to_value(), Answer::Unknown.to_value());
    let answers = ["treated", "diseased", "salty", "medicated"];
    let names = kind.fields().unwrap_or_default();
    let mut taken = Vec::new();
    for (field, ((ours, theirs), name)) in (0_i32..).zip(ours.iter().zip(theirs).zip(names)) {
        let says_more = if answers.contains(name) {
            *ours != theirs && (theirs == yes || *ours == unknown)
        } else {
            *ours == Value::Null && theirs != Value::Null
        };
        if says_more {
            taken.push(Replacement { field, value: theirs });
        }
    }
    taken
}

/// What has to be replaced in an entry so that it names another batch.
fn renamed(current: &Current, from: EntryId, to: EntryId) -> Result<Vec<Replacement>, ActError> {
    let mut replaced = Vec::new();
    if current.subject == Some(from) {
        replaced.push(Replacement::subject(to));
    }
    match &current.body {
        Body::PutDown(put) if put.batch == from => {
            replaced.push(Replacement::field(Kind::PutDown, "batch", &to)?);
        }
        Body::BatchBlended(BatchBlended { parts, .. }) | Body::PileBuilt(PileBuilt { parts, .. })
            if parts.iter().any(|part| part.batch == from) =>
        {
            let parts: Vec<Part> = parts
                .iter()
                .map(|part| Part { batch: if part.batch == from { to } else { part.batch }, ..part.clone() })
                .collect();
            let kind = current.body.kind().unwrap_or(Kind::BatchBlended);
            replaced.push(Replacement::field(kind, "parts", &parts)?);
        }
        _ => {}
    }
    Ok(replaced)
}

/// A unit in which an amount is written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
    /// Tonne.
    Tonne,
    /// Pound.
    Pound,
    /// US short ton.
    UsTon,
    /// Litre.
    Litre,
    /// Cubic metre.
    CubicMetre,
    /// Cubic foot.
    CubicFoot,
    /// Cubic yard.
    CubicYard,
    /// US gallon.
    UsGallon,
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Metre.
    Metre,
    /// Inch.
    Inch,
    /// Foot.
    Foot,
    /// Square metre.
    SquareMetre,
    /// Hectare.
    Hectare,
    /// Square foot.
    SquareFoot,
    /// Acre.
    Acre,
}

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Quantity {
    Mass,
    Volume,
    Length,
    Area,
}

impl Unit {
    /// All.
    pub const ALL: [Self; 19] = [
        Self::Gram,
        Self::Kilogram,
        Self::Tonne,
        Self::Pound,
        Self::UsTon,
        Self::Litre,
        Self::CubicMetre,
        Self::CubicFoot,
        Self::CubicYard,
        Self::UsGallon,
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
        Self::Inch,
        Self::Foot,
        Self::SquareMetre,
        Self::Hectare,
        Self::SquareFoot,
        Self::Acre,
    ];

    /// Its sign in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Tonne => "t",
            Self::Pound => "lb",
            Self::UsTon => "us-ton",
            Self::Litre => "l",
            Self::CubicMetre => "m3",
            Self::CubicFoot => "ft3",
            Self::CubicYard => "yd3",
            Self::UsGallon => "us-gal",
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Foot => "ft",
            Self::SquareMetre => "m2",
            Self::Hectare => "ha",
            Self::SquareFoot => "ft2",
            Self::Acre => "acre",
        }
    }

    /// The unit of that sign.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.name() == name)
    }

    /// What it measures, and how much of it one is, in SI.
    fn size(self) -> (Quantity, f64) {
        let mass = |one: Mass| (Quantity::Mass, one.kg());
        let volume = |one: Volume| (Quantity::Volume, one.m3());
        let length = |one: Length| (Quantity::Length, one.m());
        let area = |one: Area| (Quantity::Area, one.m2());
        match self {
            Self::Gram => mass(Mass::from_g(1.0)),
            Self::Kilogram => mass(Mass::from_kg(1.0)),
            Self::Tonne => mass(Mass::from_t(1.0)),
            Self::Pound => mass(Mass::from_lb(1.0)),
            Self::UsTon => mass(Mass::from_us_tons(1.0)),
            Self::Litre => volume(Volume::from_litres(1.0)),
            Self::CubicMetre => volume(Volume::from_m3(1.0)),
            Self::CubicFoot => volume(Volume::from_cubic_feet(1.0)),
            Self::CubicYard => volume(Volume::from_cubic_yards(1.0)),
            Self::UsGallon => volume(Volume::from_us_gallons(1.0)),
            Self::Millimetre => length(Length::from_mm(1.0)),
            Self::Centimetre => length(Length::from_cm(1.0)),
            Self::Metre => length(Length::from_m(1.0)),
            Self::Inch => length(Length::from_inches(1.0)),
            Self::Foot => length(Length::from_feet(1.0)),
            Self::SquareMetre => area(Area::from_m2(1.0)),
            Self::Hectare => area(Area::from_ha(1.0)),
            Self::SquareFoot => area(Area::from_square_feet(1.0)),
            Self::Acre => area(Area::from_acres(1.0)),
        }
    }
}

/// Puts an amount right that was written down in one unit and meant in another: every field of the entry that follows
/// from that amount is replaced, in one correction.
///
/// # Errors
/// An entry that is not there, units of different quantities, an entry without such an amount, or a book that cannot be
/// written.
pub fn wrong_unit(
    book: &mut Book,
    entry: EntryId,
    written: Unit,
    meant: Unit,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let current = book.current(entry)?.ok_or(ActError::NotThere { what: "entry" })?;
    let ((quantity, one), (other, right)) = (written.size(), meant.size());
    if quantity != other {
        return Err(ActError::NoChange(Unfit::OtherQuantity));
    }
    if written == meant {
        return Err(ActError::NoChange(Unfit::SameUnit));
    }
    if current.body.write().is_none() {
        return Err(ActError::NoChange(Unfit::Unreadable));
    }
    let mut replaced = rescaled(&current.body, quantity, right / one);
    if replaced.is_empty() {
        return Err(ActError::NoChange(Unfit::NoSuchAmount));
    }
    if let Body::PutDown(put) = &current.body
        && let Some((count, each)) = put.containers.zip(put.container_ml)
    {
        // What was so many barrows is no whole number of them now: one volume.
        let volume = whole(f64::from(count) * each as f64 * (right / one));
        replaced.push(Replacement::field(Kind::PutDown, "containers", &Some(1_u32))?);
        replaced.push(Replacement::field(Kind::PutDown, "container", &None::<ContainerKind>)?);
        replaced.push(Replacement::field(Kind::PutDown, "container_ml", &Some(volume))?);
    }
    Ok(book.correct(entry, &replaced, change(reason, moment)?, moment.wall_ms)?)
}

/// Units that people take for each other, for the amounts that an entry has: as written down, as meant.
pub fn slips(body: &Body) -> Vec<(Unit, Unit)> {
    // What was counted in containers was written in no unit.
    if matches!(body, Body::PutDown(put) if put.container.is_some()) {
        return Vec::new();
    }
    let depth = if matches!(body, Body::WaterGiven(_)) { Unit::Millimetre } else { Unit::Centimetre };
    [
        (Unit::Kilogram, Unit::Pound),
        (Unit::Litre, Unit::UsGallon),
        (depth, Unit::Inch),
        (Unit::SquareMetre, Unit::SquareFoot),
    ]
    .into_iter()
    .filter(|(unit, _)| !rescaled(body, unit.size().0, 1.0).is_empty())
    .flat_map(|(one, other)| [(one, other), (other, one)])
    .collect()
}

/// The fields of an entry that follow from an amount of that quantity, times a factor.
fn rescaled(body: &Body, quantity: Quantity, factor: f64) -> Vec<Replacement> {
    let Some((kind, _, fields)) = body.write() else { return Vec::new() };
    let scaled = scaling(body, quantity);
    (0_i32..)
        .zip(kind.fields().unwrap_or_default().iter().zip(&fields))
        .filter(|(_, (name, _))| scaled.contains(name))
        .filter_map(|(field, (_, value))| Some(Replacement { field, value: times(value, factor)? }))
        .collect()
}

/// Fields of an entry that follow from an amount of that quantity. All amounts of a putting down, and of a feed, follow
/// from the one that was typed.
fn scaling(body: &Body, quantity: Quantity) -> &'static [&'static str] {
    use kerfbook_ledger::kind::Way;
    match (body, quantity) {
        (Body::PutDown(put), Quantity::Mass | Quantity::Volume | Quantity::Length) => {
            if put.way == Way::WorkedIn { &["wet_g", "dry_g"] } else { &["wet_g", "dry_g", "depth_mm"] }
        }
        (Body::FeedGiven(_), Quantity::Mass | Quantity::Volume) => {
            &["nitrogen_mg", "product_g", "volume_ml", "crop_mg", "wood_mg"]
        }
        (
            Body::LoadTakenIn(_) | Body::LoadRefused(_) | Body::BatchRecounted(_) | Body::LayerLifted(_),
            Quantity::Mass,
        ) => &["wet_g"],
        (
            Body::LoadTakenIn(_)
            | Body::LoadRefused(_)
            | Body::BatchRecounted(_)
            | Body::LayerLifted(_)
            | Body::WaterGiven(_),
            Quantity::Volume,
        ) => &["volume_ml"],
        (Body::WaterGiven(_) | Body::SoilWorked(_), Quantity::Length) => &["depth_mm"],
        (Body::DepthProbed(_), Quantity::Length) => &["depths_mm"],
        (Body::GapChecked(_), Quantity::Length) => &["gap_mm"],
        (Body::CropEnded(_), Quantity::Mass) => &["yield_g"],
        (Body::TaskSet(_), Quantity::Mass) => &["nitrogen_mg", "wet_g"],
        (Body::PlaceOutlined(_) | Body::PlaceReoutlined(_), Quantity::Area) => &["area_mm2"],
        (Body::PlaceOutlined(_) | Body::PlaceReoutlined(_), Quantity::Volume) => &["container_ml"],
        (Body::PlaceOutlined(_) | Body::PlaceReoutlined(_), Quantity::Length) => &["rooting_depth_mm"],
        _ => &[],
    }
}

/// A figure, or each of a list, times a factor; `None` where there is none.
fn times(value: &Value, factor: f64) -> Option<Value> {
    match value {
        Value::Int(figure) => {
            Some(Value::Int(i64::try_from(whole(*figure as f64 * factor)).unwrap_or(i64::MAX)))
        }
        Value::List(figures) => {
            Some(Value::List(figures.iter().map(|one| times(one, factor)).collect::<Option<_>>()?))
        }
        _ => None,
    }
}

/// Takes an entry out, a correction included: what it changed is as before.
///
/// # Errors
/// An entry that is not there or is out already, one that the book stands on, or a book that cannot be written.
pub fn taken_out(
    book: &mut Book,
    entry: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    Ok(book.withdraw(entry, change(reason, moment)?, moment.wall_ms)?)
}

/// Puts an entry back that was taken out.
///
/// # Errors
/// An entry that is not there or was not taken out, or a book that cannot be written.
pub fn put_back(
    book: &mut Book,
    entry: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<Vec<EntryId>, ActError> {
    let current = book.current(entry)?.ok_or(ActError::NotThere { what: "entry" })?;
    let change = change(reason, moment)?;
    let back: Vec<EntryId> = book.together(|book| {
        let mut back = Vec::new();
        for tip in &current.tips {
            if let Some(tip) = book.entry(*tip)?
                && matches!(tip.read(), Body::EntryWithdrawn(_))
            {
                back.push(book.withdraw(tip.id, change, moment.wall_ms)?);
            }
        }
        Ok::<_, ActError>(back)
    })?;
    if back.is_empty() { Err(ActError::NoChange(Unfit::NotOut)) } else { Ok(back) }
}

/// Settles an entry that two people changed without knowing of each other: what one of the changes says holds, and the
/// other was seen.
///
/// # Errors
/// An entry that is not there or is not in conflict, a change that is not one of those at odds, or a book that cannot be
/// written.
pub fn settled(
    book: &mut Book,
    entry: EntryId,
    holds: EntryId,
    reason: Option<&Text>,
    moment: Moment,
) -> Result<EntryId, ActError> {
    let current = book.current(entry)?.ok_or(ActError::NotThere { what: "entry" })?;
    if current.tips.len() < 2 || !current.tips.contains(&holds) {
        return Err(ActError::NoChange(Unfit::NotAtOdds));
    }
    let chosen = book.entry(holds)?.ok_or(ActError::NotThere { what: "entry" })?;
    match chosen.read() {
        Body::EntryCorrected(correction) => {
            Ok(book.correct(entry, &correction.replaced, change(reason, moment)?, moment.wall_ms)?)
        }
        _ => taken_out(book, entry, reason, moment),
    }
}

fn change(reason: Option<&Text>, moment: Moment) -> Result<Change<'_>, ActError> {
    Ok(Change { when: moment.when()?, by: moment.by, reason })
}
