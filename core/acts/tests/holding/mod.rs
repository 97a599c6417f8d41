//! An invented holding's empty book.

#![allow(dead_code, reason = "each test file uses its own part")]

use chrono::NaiveDate;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::outline_place::outline;
use kerfbook_acts::put_down::{NewPutDown, put_down};
use kerfbook_acts::scenario::{Amount, Containers, Place, PlaceKind as Ground, Way};
use kerfbook_acts::take_in_load::{Intake, NewLoad, take_in};
use kerfbook_ledger::kind::{Answer, CropStarted, FeedGiven, PlaceKind, Placed};
use kerfbook_ledger::store::append::Change;
use kerfbook_ledger::{Body, Book, Date, DeviceKey, Draft, EntryId, Founding, Label, When};
use kerfbook_science::units::{Area, Volume};

/// A day.
pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

/// A book in a folder of its own, and the moment of the next act.
pub(crate) struct Kept {
    _folder: tempfile::TempDir,
    pub(crate) book: Book,
    pub(crate) now: Moment,
    pub(crate) containers: Containers,
}

impl Kept {
    /// A book begun on 15 April 2026.
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let first = date(2026, 4, 15);
        let founding = Founding {
            name: Label::new("A holding").unwrap(),
            device_label: Label::new("Desk").unwrap(),
            nonce: [7; 16],
            sells: false,
            certified: false,
            latitude_centidegree: None,
            when: When::on(Date::of(first).unwrap()),
            wall_ms: 1_776_000_000_000,
        };
        let book =
            Book::create(&folder.path().join("a.kerfbook"), &DeviceKey::from_bytes(&[3; 32]), &founding)
                .unwrap();
        Self {
            _folder: folder,
            book,
            now: Moment { date: first, wall_ms: 1_776_000_000_000, by: None },
            containers: Containers {
                barrow: Volume::from_litres(80.0),
                bucket: Volume::from_litres(10.0),
                trailer: None,
                trailer_carries: None,
            },
        }
    }

    /// How many entries there are.
    pub(crate) fn count(&self) -> usize {
        self.book.entries(None, 10_000).unwrap().len()
    }

    /// A change made now, without a reason.
    pub(crate) fn change(&self) -> Change<'static> {
        Change { when: When::on(Date::of(self.now.date).unwrap()), by: None, reason: None }
    }

    /// A place of so many square metres.
    pub(crate) fn place(&mut self, label: &str, kind: PlaceKind, area_m2: f64) -> EntryId {
        let place = Place {
            kind: Ground::from(kind),
            area: Area::from_m2(area_m2),
            area_sd: None,
            rooting_depth: None,
            container: None,
        };
        outline(&mut self.book, label, &place, None, self.now).unwrap()
    }

    /// A load of so many litres, everything bad about it denied.
    pub(crate) fn load(&mut self, material: &str, litres: f64) -> EntryId {
        self.load_with(material, |load| load.volume = Some(Volume::from_litres(litres)))
    }

    /// A load of which a test says more.
    pub(crate) fn load_with(&mut self, material: &str, say: impl FnOnce(&mut NewLoad<'_>)) -> EntryId {
        let mut load = NewLoad {
            treated: Answer::No,
            diseased: Answer::No,
            salty: Answer::No,
            medicines: Answer::No,
            weedkillers: Answer::No,
            ..NewLoad::of("A load", material)
        };
        say(&mut load);
        match take_in(&mut self.book, &load, self.now).unwrap() {
            Intake::Taken { batch, .. } => batch,
            Intake::Refused { reason, .. } => panic!("{material} was refused: {reason:?}"),
        }
    }

    /// Part of a batch goes to a place.
    pub(crate) fn put_down(
        &mut self,
        place: EntryId,
        batch: EntryId,
        way: Way,
        amount: Amount,
        over: Option<EntryId>,
    ) -> EntryId {
        let new = NewPutDown { place, batch, way, amount, over };
        put_down(&mut self.book, &new, &self.containers, self.now).unwrap()
    }

    /// A feed of urea nitrogen, g.
    pub(crate) fn feed(&mut self, place: EntryId, nitrogen_g: u64) -> EntryId {
        let body = FeedGiven {
            source: Label::new("urea").unwrap(),
            nitrogen_mg: nitrogen_g * 1000,
            product_g: None,
            volume_ml: None,
            placed: Placed::Under,
            crop_mg: None,
            wood_mg: None,
        };
        self.write(place, body)
    }

    /// A crop of 120 kg N/ha.
    pub(crate) fn crop(&mut self, place: EntryId, name: &str, ends: Option<NaiveDate>) -> EntryId {
        let body = CropStarted {
            crop: Label::new(name).unwrap(),
            need_mg_m2: Some(12_000),
            tree_mg: None,
            appetite: None,
            ends: ends.map(|day| Date::of(day).unwrap()),
            midpoint_day: None,
            fixed_bp: 0,
            plants: None,
        };
        self.write(place, body)
    }

    /// An entry about a place, as it is.
    pub(crate) fn write(&mut self, place: EntryId, body: impl Into<Body>) -> EntryId {
        let draft = Draft::new(When::on(Date::of(self.now.date).unwrap()), body).about(place);
        self.book.append(&[draft], &[], self.now.wall_ms).unwrap()[0]
    }
}
