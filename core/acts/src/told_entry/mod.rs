//! Entries of a book as sentences: what happened, when, by whom, and what has to be said about it.

use std::collections::BTreeSet;

use kerfbook_ledger::kind::{
    ContainerKind, DepthProbed, FeedGiven, LaidBy, Part, PutDown, RefusalReason, SoilWorked, TaskKind,
    TaskSet,
};
use kerfbook_ledger::{
    Body, Book, Current, DeviceId, EntryId, Finding, Flag, Kind, LedgerError, Replacement, TextRef,
};
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Temperature, Volume};
use kerfbook_words::{Container, Words};
use serde::Serialize;

use crate::heat::{WHOLE, zone_told};

mod figures;
mod trial;

/// An entry as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// Device and number, as short as the book allows.
    pub entry: String,
    /// Device and number in full.
    pub id: String,
    /// The day it happened, corrected, as year-month-day.
    pub date: String,
    /// Name of the kind in the ledger.
    pub kind: String,
    /// What happened.
    pub text: String,
    /// The person named; empty where nobody is.
    pub by: String,
    /// What has to be said about it; empty where all is well.
    pub flags: Vec<String>,
}

/// Tells the entries of one book.
pub struct Teller<'a> {
    book: &'a Book,
    words: &'a Words,
    /// Digits of a device's id that tell it from all others in the book.
    digits: usize,
}

/// Entries read at a time.
const PAGE: u32 = 500;

/// Fewest digits of a device's id that are shown.
const FEWEST_DIGITS: usize = 4;

impl<'a> Teller<'a> {
    /// For one book, in one language.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn new(book: &'a Book, words: &'a Words) -> Result<Self, LedgerError> {
        let devices: BTreeSet<DeviceId> =
            book.devices()?.iter().map(|device| device.public_key.device()).collect();
        Ok(Self { book, words, digits: digits(&devices) })
    }

    /// All entries in the order in which they were written.
    pub fn all(&self) -> Result<Vec<Told>, LedgerError> {
        let mut told = Vec::new();
        let mut after = None;
        loop {
            let lines = self.book.entries(after, PAGE)?;
            let Some(last) = lines.last() else { return Ok(told) };
            after = Some(last.position());
            for line in &lines {
                let mut entry = self.tell(&line.current)?;
                if line.ahead {
                    entry.flags.push(self.words.label("flag-clock-ahead"));
                }
                told.push(entry);
            }
        }
    }

    /// One entry as it stands.
    pub fn tell(&self, current: &Current) -> Result<Told, LedgerError> {
        let id = current.original.id;
        let kind = current
            .original
            .known_kind()
            .map_or_else(|| current.original.kind.to_string(), |kind| kind.name().to_owned());
        Ok(Told {
            entry: self.short(id),
            id: id.to_string(),
            date: current.date.to_string(),
            text: self.sentence(&kind, current)?,
            by: match current.by {
                Some(person) => self.person(person)?,
                None => String::new(),
            },
            flags: current.flags.iter().map(|flag| self.flag(*flag)).collect(),
            kind,
        })
    }

    /// One entry by its id.
    pub fn tell_id(&self, id: EntryId) -> Result<Told, LedgerError> {
        self.tell(&self.book.current(id)?.ok_or(LedgerError::Unknown(id))?)
    }

    /// What is not as it was written.
    pub fn finding(&self, finding: &Finding) -> String {
        let say = |id: &str, entry: &EntryId| self.words.say(id, &[("entry", self.short(*entry))]);
        let span = |id: &str, device: &DeviceId, from: u64, to: u64| {
            let arguments =
                [("device", device.to_string()), ("from", from.to_string()), ("to", to.to_string())];
            self.words.say(id, &arguments)
        };
        match finding {
            Finding::Unreadable { entry, .. } => say("book-finding-unreadable", entry),
            Finding::Misplaced { entry } => say("book-finding-misplaced", entry),
            Finding::OtherHolding { entry } => say("book-finding-other-holding", entry),
            Finding::Broken { entry } => say("book-finding-broken", entry),
            Finding::Backwards { entry } => say("book-finding-backwards", entry),
            Finding::BadSignature { entry } => say("book-finding-bad-signature", entry),
            Finding::NotSigned { entry } => say("book-finding-not-signed", entry),
            Finding::Missing { device, from, to } => span("chain-finding-missing", device, *from, *to),
            Finding::Unsigned { device, from, to } => span("book-finding-unsigned", device, *from, *to),
            Finding::NotEnrolled { device } => {
                self.words.say("book-finding-not-enrolled", &[("device", device.to_string())])
            }
            Finding::NotFounded => self.words.label("book-finding-not-founded"),
            Finding::TextChanged { .. } => self.words.label("book-finding-text-changed"),
            Finding::ProjectionDiffers => self.words.label("book-finding-projection-differs"),
            Finding::File { what } => self.words.say("book-finding-file", &[("why", what.clone())]),
        }
    }

    /// The id as it is shown and may be typed.
    pub fn short(&self, id: EntryId) -> String {
        let device: String = id.device.to_string().chars().take(self.digits).collect();
        format!("{device}:{}", id.seq)
    }

    /// The entry that a short or full id, or a number in a book of one device, means.
    pub fn find(&self, text: &str) -> Result<Option<EntryId>, LedgerError> {
        if let Some(id) = EntryId::parse(text) {
            return Ok(Some(id));
        }
        let (device, number) = text.rsplit_once([':', '-']).unwrap_or(("", text));
        let device = device.to_lowercase();
        let Ok(number) = number.trim().parse() else { return Ok(None) };
        let devices = self.book.devices()?;
        let mut meant = devices
            .iter()
            .map(|view| view.public_key.device())
            .filter(|id| id.to_string().starts_with(&device));
        Ok(match (meant.next(), meant.next()) {
            (Some(device), None) => Some(EntryId { device, seq: number }),
            _ => None,
        })
    }
}

impl Teller<'_> {
    fn sentence(&self, kind: &str, current: &Current) -> Result<String, LedgerError> {
        let words = self.words;
        let place = || self.label(current.subject);
        let arguments: Vec<(&str, String)> = match &current.body {
            Body::HoldingOpened(body) => vec![("holding", body.name.as_str().to_owned())],
            Body::DeviceEnrolled(body) => vec![("device", body.label.as_str().to_owned())],
            Body::PersonNamed(body) => vec![("person", self.text(body.name)?)],
            Body::PlaceOutlined(body) => vec![
                ("place", body.label.as_str().to_owned()),
                ("area", words.area(Area::from_m2(float(body.area_mm2) / 1e6))),
            ],
            Body::LoadTakenIn(body) => vec![
                ("amount", self.amount(body.wet_g, body.volume_ml)),
                ("material", words.material(body.material.as_str())),
                ("batch", body.label.as_str().to_owned()),
            ],
            Body::LoadRefused(body) => vec![
                ("material", words.material(body.material.as_str())),
                ("reason", self.reason(body.reason)),
            ],
            Body::PutDown(body) => vec![
                ("amount", self.put_down(body)),
                ("batch", self.label(Some(body.batch))?),
                ("place", place()?),
                ("manner", words.manner(body.way.name())),
            ],
            Body::FeedGiven(body) => vec![
                ("place", place()?),
                ("amount", self.amount(body.product_g, body.volume_ml)),
                ("source", words.feed(body.source.as_str())),
                ("nitrogen", self.nitrogen(body, current.subject)?),
            ],
            Body::WaterGiven(body) => {
                vec![("place", place()?), ("amount", self.water(body.depth_mm, body.volume_ml))]
            }
            Body::CropStarted(body) => vec![("crop", words.crop(body.crop.as_str())), ("place", place()?)],
            Body::CropEnded(body) => vec![
                ("crop", self.label(Some(body.crop))?),
                ("place", place()?),
                ("fate", words.label(&format!("fate-{}", body.fate.name().replace(' ', "-")))),
            ],
            Body::PlaceClosed(_) | Body::ForecastFrozen(_) => vec![("place", place()?)],
            Body::PlaceReoutlined(body) => {
                vec![("place", place()?), ("area", words.area(Area::from_m2(float(body.area_mm2) / 1e6)))]
            }
            Body::BatchBlended(body) => {
                vec![("parts", self.parts(&body.parts)?), ("batch", body.label.as_str().to_owned())]
            }
            Body::PileBuilt(_)
            | Body::PileTurned(_)
            | Body::HeatRead(_)
            | Body::MoistureRead(_)
            | Body::PileFinished(_) => self.pile(current)?,
            Body::TrialLaidOut(_)
            | Body::PlotScored(_)
            | Body::PlotMeasured(_)
            | Body::PlotLost(_)
            | Body::TrialClosed(_) => return self.trial(kind, current),
            Body::BatchRecounted(body) => {
                vec![("batch", place()?), ("amount", self.amount(body.wet_g, body.volume_ml))]
            }
            Body::BatchTested(body) => {
                vec![("batch", place()?), ("figures", figures::batch(body, words))]
            }
            Body::DrawTested(body) => vec![
                ("batch", place()?),
                ("share", words.percent(Share::from_percent(f64::from(body.index_bp) / 100.0))),
            ],
            Body::DepthProbed(body) => vec![("place", place()?), ("depth", self.depths(body))],
            Body::SoilWorked(body) => return Ok(self.worked(body, place()?)),
            Body::LayerLifted(body) => vec![
                ("place", place()?),
                ("share", words.percent(Share::from_percent(f64::from(body.share_bp) / 100.0))),
                ("batch", body.label.as_str().to_owned()),
            ],
            Body::GapChecked(body) => vec![("place", place()?), ("depth", self.depth(body.gap_mm))],
            Body::WeatherRead(body) => return Ok(figures::weather_entry(body, current, words)),
            Body::SoilTested(body) => vec![("place", place()?), ("figures", figures::soil(body, words))],
            Body::LeafRead(body) => vec![("place", place()?), ("figures", figures::leaf(body, words))],
            Body::TaskSet(body) => vec![("task", self.task(body, current)?)],
            Body::TaskClosed(body) => vec![
                ("outcome", words.label(&format!("outcome-{}", body.outcome.name()))),
                ("task", self.task_of(body.task)?),
            ],
            Body::NoteMade(body) => vec![("text", self.text(body.text)?)],
            Body::EntryCorrected(body) => vec![
                ("entry", self.short(body.target)),
                ("fields", self.fields(body.target, &body.replaced)?),
                ("reason", self.why(body.reason)?),
            ],
            Body::EntryWithdrawn(body) => {
                vec![("entry", self.short(body.target)), ("reason", self.why(body.reason)?)]
            }
            Body::Later(_) | Body::Unreadable(_) => return Ok(words.label("entry-unknown")),
        };
        Ok(words.entry(kind, &arguments))
    }

    /// How soil was worked: with a tool that stands for a depth, or to a depth.
    fn worked(&self, body: &SoilWorked, place: String) -> String {
        let words = self.words;
        if let Some(tool) = body.tool.filter(|_| body.by_tool == Some(true)) {
            let with = words.label(&format!("told-with-{}", tool.name()));
            return words.say("entry-soil-worked-with", &[("place", place), ("with", with)]);
        }
        words.entry(Kind::SoilWorked.name(), &[("place", place), ("depth", self.depth(body.depth_mm))])
    }

    /// Batches that something was made of.
    fn parts(&self, parts: &[Part]) -> Result<String, LedgerError> {
        let names: Vec<String> =
            parts.iter().map(|part| self.label(Some(part.batch))).collect::<Result<_, _>>()?;
        Ok(self.words.list(&names))
    }

    /// What an entry of a pile says.
    fn pile(&self, current: &Current) -> Result<Vec<(&'static str, String)>, LedgerError> {
        let pile = || self.label(current.subject);
        Ok(match &current.body {
            Body::PileBuilt(body) => {
                vec![("pile", body.label.as_str().to_owned()), ("parts", self.parts(&body.parts)?)]
            }
            Body::PileTurned(_) => vec![("pile", pile()?)],
            Body::HeatRead(body) => {
                let heat = Temperature::from_c(f64::from(body.temperature_centi_c) / 100.0);
                let zone =
                    zone_told(body.zone.as_ref().map_or(WHOLE, kerfbook_ledger::Label::as_str), self.words);
                vec![("pile", pile()?), ("zone", zone), ("heat", self.words.temperature(heat))]
            }
            Body::MoistureRead(body) => vec![
                ("pile", pile()?),
                ("moisture", self.words.percent(Share::from_percent(f64::from(body.moisture_bp) / 100.0))),
            ],
            Body::PileFinished(body) => vec![
                ("pile", self.label(Some(body.pile))?),
                ("batch", body.label.as_str().to_owned()),
                ("amount", self.amount(body.wet_g, body.volume_ml)),
            ],
            _ => Vec::new(),
        })
    }

    /// What is to be done, where, by whom and by when.
    fn task(&self, body: &TaskSet, current: &Current) -> Result<String, LedgerError> {
        let words = self.words;
        let mut told = words.label(&format!("task-{}", body.what.name()));
        if let Some(text) = body.text {
            let text = self.text(text)?;
            let other = body.what == TaskKind::Other;
            told = if other { text } else { words.say("task-of", &[("task", told), ("text", text)]) };
        }
        if current.subject.is_some() {
            told = words.say("task-at", &[("task", told), ("place", self.label(current.subject)?)]);
        }
        if let Some(person) = body.to {
            told = words.say("task-to", &[("task", told), ("person", self.person(person)?)]);
        }
        if let Some(due) = body.due {
            told = words.say("task-due", &[("task", told), ("date", words.date_with_year(due.naive()))]);
        }
        Ok(told)
    }

    /// The same of a task by its id.
    fn task_of(&self, id: EntryId) -> Result<String, LedgerError> {
        match self.book.current(id)? {
            Some(current) => match &current.body {
                Body::TaskSet(body) => self.task(body, &current),
                _ => Ok(self.short(id)),
            },
            None => Ok(self.short(id)),
        }
    }

    fn depth(&self, depth_mm: u32) -> String {
        self.words.depth(Length::from_mm(f64::from(depth_mm)))
    }

    /// Mass where it is known, else volume.
    fn amount(&self, wet_g: Option<u64>, volume_ml: Option<u64>) -> String {
        match (wet_g, volume_ml) {
            (Some(mass), _) => self.words.mass(Mass::from_g(float(mass))),
            (None, Some(volume)) => self.words.volume(Volume::from_litres(float(volume) / 1_000.0)),
            (None, None) => self.words.unknown(),
        }
    }

    /// Depths as they were measured: by a rule, or in fingers and hands.
    fn depths(&self, body: &DepthProbed) -> String {
        let depths: Vec<String> = match (body.laid_by, &body.laid_x10) {
            (Some(by), Some(counts)) => counts.iter().map(|count| self.laid(by, *count)).collect(),
            _ => body.depths_mm.iter().map(|depth| self.depth(*depth)).collect(),
        };
        self.words.list(&depths)
    }

    /// Fingers or hands across.
    fn laid(&self, by: LaidBy, count_x10: u32) -> String {
        let count = f64::from(count_x10) / 10.0;
        self.words.say_count(&format!("laid-{}", by.name()), count, &[("n", self.words.stated(count))])
    }

    /// Water as depth where it is known, else as volume.
    fn water(&self, depth_mm: Option<u32>, volume_ml: Option<u64>) -> String {
        match depth_mm {
            Some(depth) => self.words.water(Length::from_mm(f64::from(depth))),
            None => self.amount(None, volume_ml),
        }
    }

    /// The person's own containers, or fingers, where they counted them.
    fn put_down(&self, body: &PutDown) -> String {
        if let Some((by, count)) = body.laid_by.zip(body.laid_x10) {
            return self.laid(by, count);
        }
        let container = body.container.and_then(|container| match container {
            ContainerKind::Barrow => Some(Container::Barrow),
            ContainerKind::Bucket => Some(Container::Bucket),
            ContainerKind::Trailer => Some(Container::Trailer),
            ContainerKind::Bag => None,
        });
        match (container, body.containers) {
            (Some(container), Some(count)) => self.words.containers(container, f64::from(count)),
            _ => self.amount(body.wet_g, None),
        }
    }

    /// Nitrogen by area of the place; by mass where the area is not known.
    fn nitrogen(&self, body: &FeedGiven, place: Option<EntryId>) -> Result<String, LedgerError> {
        let mass = Mass::from_g(float(body.nitrogen_mg) / 1_000.0);
        let outlined = place.map(|place| self.book.current(place)).transpose()?.flatten();
        Ok(match outlined.map(|current| current.body) {
            Some(Body::PlaceOutlined(body)) if body.area_mm2 > 0 => {
                let dose: AreaMass = mass.per(Area::from_m2(float(body.area_mm2) / 1e6));
                self.words.nitrogen_stated(dose)
            }
            _ => self.words.nitrogen_mass(mass),
        })
    }

    /// What something is called: a place, a batch, a crop; its short id where it has no name.
    fn label(&self, id: Option<EntryId>) -> Result<String, LedgerError> {
        let Some(id) = id else { return Ok(self.words.unknown()) };
        let body = self.book.current(id)?.map(|current| current.body);
        Ok(match body {
            Some(Body::PlaceOutlined(body)) => body.label.as_str().to_owned(),
            Some(Body::LoadTakenIn(body)) => body.label.as_str().to_owned(),
            Some(Body::BatchBlended(body)) => body.label.as_str().to_owned(),
            Some(Body::LayerLifted(body)) => body.label.as_str().to_owned(),
            Some(Body::PileBuilt(body)) => body.label.as_str().to_owned(),
            Some(Body::PileFinished(body)) => body.label.as_str().to_owned(),
            Some(Body::TrialLaidOut(body)) => body.label.as_str().to_owned(),
            Some(Body::CropStarted(body)) => self.words.crop(body.crop.as_str()),
            _ => self.short(id),
        })
    }

    fn person(&self, id: EntryId) -> Result<String, LedgerError> {
        match self.book.current(id)?.map(|current| current.body) {
            Some(Body::PersonNamed(body)) => self.text(body.name),
            _ => Ok(self.short(id)),
        }
    }

    fn text(&self, text: TextRef) -> Result<String, LedgerError> {
        Ok(self.book.text(text)?.unwrap_or_else(|| self.words.label("entry-erased-text")))
    }

    fn why(&self, reason: Option<TextRef>) -> Result<String, LedgerError> {
        reason.map_or_else(|| Ok(self.words.label("entry-no-reason")), |reason| self.text(reason))
    }

    /// Names of the fields that a correction replaces.
    fn fields(&self, target: EntryId, replaced: &[Replacement]) -> Result<String, LedgerError> {
        let kind = self.book.entry(target)?.and_then(|entry| entry.known_kind());
        let fields = kind.and_then(Kind::fields).unwrap_or_default();
        let name = |replacement: &Replacement| match replacement.field {
            Replacement::SUBJECT => "subject".to_owned(),
            Replacement::DATE => "date".to_owned(),
            Replacement::MINUTE => "minute".to_owned(),
            Replacement::BY => "by".to_owned(),
            number => usize::try_from(number)
                .ok()
                .and_then(|number| fields.get(number))
                .map_or_else(|| number.to_string(), |name| (*name).to_owned()),
        };
        Ok(self.words.list(&replaced.iter().map(name).collect::<Vec<_>>()))
    }

    fn reason(&self, reason: RefusalReason) -> String {
        self.words.label(match reason {
            RefusalReason::Treated => "reason-treated-wood",
            RefusalReason::Painted => "reason-painted-wood",
            RefusalReason::Board => "reason-board-dust",
            RefusalReason::Demolition => "reason-demolition-wood",
            RefusalReason::Diseased => "book-reason-diseased",
            RefusalReason::Salty => "book-reason-salty",
            RefusalReason::Medicated => "book-reason-medicated",
            RefusalReason::Unknown => "reason-unknown-origin",
            RefusalReason::Other => "reason-other",
        })
    }

    fn flag(&self, flag: Flag) -> String {
        self.words.label(match flag {
            Flag::Withdrawn => "flag-withdrawn",
            Flag::Corrected => "flag-corrected",
            Flag::Unsettled => "flag-conflict",
            Flag::RestsOnWithdrawn => "flag-rests-on-withdrawn",
            Flag::RestsOnUnknown => "book-flag-rests-on-unknown",
            Flag::Late => "flag-place-closed",
            Flag::CorrectionUnread => "book-flag-correction-unread",
            Flag::Unreadable => "book-flag-unreadable",
            Flag::Early => "flag-early",
            Flag::Elsewhere => "flag-elsewhere",
            Flag::LiftedTooMuch => "flag-lifted-too-much",
            Flag::NothingGrows => "flag-nothing-grows",
            Flag::ClosedTwice => "flag-closed-twice",
            Flag::TrialWasClosed => "flag-trial-was-closed",
            Flag::PlotWasLost => "flag-plot-was-lost",
            Flag::NoSuchPlot => "flag-no-such-plot",
            Flag::ScoredTwice => "flag-scored-twice",
        })
    }
}

/// Figures of an entry as numbers for text; whole up to 2^53, which is more than any bed holds of anything.
#[expect(clippy::cast_precision_loss, reason = "figures of entries lie far below 2^53")]
const fn float(figure: u64) -> f64 {
    figure as f64
}

/// Digits that tell these devices apart, at least [`FEWEST_DIGITS`].
fn digits(devices: &BTreeSet<DeviceId>) -> usize {
    let names: Vec<String> = devices.iter().map(ToString::to_string).collect();
    let longest = names.iter().map(String::len).max().unwrap_or(FEWEST_DIGITS);
    (FEWEST_DIGITS..longest)
        .find(|digits| {
            let short: BTreeSet<&str> = names.iter().filter_map(|name| name.get(..*digits)).collect();
            short.len() == names.len()
        })
        .unwrap_or(longest)
}
