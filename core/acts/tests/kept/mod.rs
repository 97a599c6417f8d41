//! A book with the temperate place of the model's evidence table, written entry by entry.

#![allow(
    dead_code,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "each test uses its own part; small figures above zero"
)]

use chrono::NaiveDate;
use kerfbook_ledger::kind::{
    Answer, CropStarted, FeedGiven, LoadTakenIn, Measured, NitrogenForm, Particle, PlaceKind, PlaceOutlined,
    PlaceReoutlined, Placed, PutDown, SoilTested, Way, WeatherRead, WeatherSpan,
};
use kerfbook_ledger::{
    Body, Book, Change, Date, DeviceKey, Draft, EntryId, Founding, Label, LedgerError, When,
};

/// 15 April.
pub(crate) fn first_day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 4, 15).unwrap()
}

pub(crate) fn after(days: u64) -> NaiveDate {
    first_day() + chrono::Days::new(days)
}

pub(crate) fn label(text: &str) -> Label {
    Label::new(text).unwrap()
}

pub(crate) struct Kept {
    _folder: tempfile::TempDir,
    pub(crate) book: Book,
    wall_ms: i64,
}

impl Kept {
    /// A book without weather.
    pub(crate) fn bare() -> Self {
        Self::founded(None)
    }

    /// A book without weather on the southern half of the earth.
    pub(crate) fn south() -> Self {
        Self::founded(Some(-3500))
    }

    fn founded(latitude_centidegree: Option<i32>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let founding = Founding {
            name: label("A holding"),
            device_label: label("Desk"),
            nonce: [7; 16],
            sells: false,
            certified: false,
            latitude_centidegree,
            when: When::on(Date::of(NaiveDate::from_ymd_opt(2025, 1, 1).unwrap()).unwrap()),
            wall_ms: 1_776_000_000_000,
        };
        let path = folder.path().join("a.kerfbook");
        let book = Book::create(&path, &DeviceKey::from_bytes(&[3; 32]), &founding).unwrap();
        Self { _folder: folder, book, wall_ms: 1_776_000_000_000 }
    }

    /// A book with the usual year of the golden cases.
    pub(crate) fn new() -> Self {
        let mut kept = Self::bare();
        let holding = kept.book.holding_view().unwrap().unwrap().id;
        let mean = [200, 320, 650, 1100, 1550, 1880, 2000, 1880, 1550, 1100, 650, 320];
        let dry = [500, 900, 1700, 2700, 3700, 4300, 4500, 3900, 2700, 1500, 800, 400];
        for (month, (mean, evaporation)) in (1..).zip(mean.into_iter().zip(dry)) {
            let usual = WeatherRead {
                mean_centi_c: Some(mean),
                rain_ml_m2: Some(65_000),
                evaporation_ml_m2_day: Some(evaporation),
                ..WeatherRead::of(WeatherSpan::UsualMonth)
            };
            kept.write(usual, Some(holding), NaiveDate::from_ymd_opt(2025, month, 15).unwrap());
        }
        kept
    }

    pub(crate) fn write(
        &mut self,
        body: impl Into<Body>,
        about: Option<EntryId>,
        date: NaiveDate,
    ) -> EntryId {
        self.wall_ms += 1000;
        let draft = Draft::new(When::on(Date::of(date).unwrap()), body);
        let draft = match about {
            Some(subject) => draft.about(subject),
            None => draft,
        };
        self.book.append(&[draft], &[], self.wall_ms).unwrap()[0]
    }

    pub(crate) fn ground(&mut self, name: &str, kind: PlaceKind, m2: f64, date: NaiveDate) -> EntryId {
        let body = PlaceOutlined::of(label(name), kind, Measured::Typed, (m2 * 1e6) as u64);
        let place = self.write(body, None, date);
        if kind == PlaceKind::Path {
            self.soil(place, date);
        }
        place
    }

    /// The soil of the golden cases.
    pub(crate) fn soil(&mut self, place: EntryId, date: NaiveDate) -> EntryId {
        let body = SoilTested {
            organic_matter_bp: Some(250),
            nitrogen_form: Some(NitrogenForm::MineralN),
            mg_m2: Some(4500),
            available_water_mm: Some(50),
            field_capacity_mm: Some(80),
            water_bp: Some(9000),
            ..SoilTested::default()
        };
        self.write(body, Some(place), date)
    }

    /// A bed of 12 m2 with the soil and the crop of the golden cases.
    pub(crate) fn bed(&mut self, name: &str, date: NaiveDate) -> EntryId {
        let place = self.ground(name, PlaceKind::Bed, 12.0, date);
        self.soil(place, date);
        let crop = CropStarted {
            midpoint_day: Some(70),
            ..Self::started("vegetable", 120.0, date + chrono::Days::new(150))
        };
        self.write(crop, Some(place), date);
        place
    }

    fn started(name: &str, need_kg_ha: f64, ends: NaiveDate) -> CropStarted {
        CropStarted {
            crop: label(name),
            need_mg_m2: Some((need_kg_ha * 100.0) as u32),
            tree_mg: None,
            appetite: None,
            ends: Some(Date::of(ends).unwrap()),
            midpoint_day: None,
            fixed_bp: 0,
            plants: None,
        }
    }

    pub(crate) fn crop(
        &mut self,
        place: EntryId,
        name: &str,
        need_kg_ha: f64,
        from: NaiveDate,
        ends: NaiveDate,
    ) -> EntryId {
        self.write(Self::started(name, need_kg_ha, ends), Some(place), from)
    }

    pub(crate) fn tree(&mut self, place: EntryId, name: &str, tree_mg: u64, plants: u32, from: NaiveDate) {
        let body = CropStarted {
            need_mg_m2: None,
            tree_mg: Some(tree_mg),
            ends: None,
            plants: Some(plants),
            ..Self::started(name, 0.0, from)
        };
        self.write(body, Some(place), from);
    }

    /// A weighed load whose density is that of its class in the model, 150 kg dry a cubic metre.
    pub(crate) fn load(
        &mut self,
        material: &str,
        particle: Option<Particle>,
        change: impl FnOnce(&mut LoadTakenIn),
    ) -> EntryId {
        let mut body = LoadTakenIn {
            label: label("A load"),
            material: label(material),
            model_class: None,
            particle,
            wet_g: Some(5_000_000),
            volume_ml: None,
            moisture_bp: Some(5000),
            carbon_nitrogen_x100: None,
            wet_density_g_m3: Some(300_000),
            from: None,
            source: None,
            treated: Answer::No,
            diseased: Answer::No,
            salty: Answer::No,
            medicated: Answer::No,
            cut: None,
            cost_hundredths: None,
            currency: None,
            haul_m: None,
            minutes: None,
            moisture_half_bp: None,
            stored: None,
            wood: None,
            pieces: None,
            handful: None,
            age: None,
            smell: None,
        };
        change(&mut body);
        self.write(body, None, NaiveDate::from_ymd_opt(2025, 2, 1).unwrap())
    }

    pub(crate) fn put(
        &mut self,
        place: EntryId,
        batch: EntryId,
        way: Way,
        change: impl FnOnce(&mut PutDown),
        date: NaiveDate,
    ) -> EntryId {
        let mut body = PutDown::of(batch, way);
        change(&mut body);
        self.write(body, Some(place), date)
    }

    pub(crate) fn lay_on(
        &mut self,
        place: EntryId,
        batch: EntryId,
        way: Way,
        dry_g: u64,
        date: NaiveDate,
    ) -> EntryId {
        self.put(place, batch, way, |put| put.dry_g = Some(dry_g), date)
    }

    /// So many tonnes a hectare of a place's own size.
    pub(crate) fn lay(
        &mut self,
        place: EntryId,
        batch: EntryId,
        way: Way,
        dry_t_ha: f64,
        date: NaiveDate,
    ) -> EntryId {
        let m2 = self.book.place(place).unwrap().unwrap().area_mm2 as f64 / 1e6;
        self.lay_on(place, batch, way, (dry_t_ha * 100.0 * m2).round() as u64, date)
    }

    pub(crate) fn feed(
        &mut self,
        place: EntryId,
        source: &str,
        kg_ha: f64,
        placed: Placed,
        date: NaiveDate,
    ) -> EntryId {
        let m2 = self.book.place(place).unwrap().unwrap().area_mm2 as f64 / 1e6;
        let body = FeedGiven {
            source: label(source),
            nitrogen_mg: (kg_ha * 100.0 * m2).round() as u64,
            product_g: None,
            volume_ml: None,
            placed,
            crop_mg: None,
            wood_mg: None,
        };
        self.write(body, Some(place), date)
    }

    /// Takes an entry out; one that was taken out before stays so.
    pub(crate) fn withdraw(&mut self, entry: EntryId, date: NaiveDate) {
        self.wall_ms += 1000;
        let change = Change { when: When::on(Date::of(date).unwrap()), by: None, reason: None };
        match self.book.withdraw(entry, change, self.wall_ms) {
            Ok(_) | Err(LedgerError::Withdrawn(..)) => {}
            Err(error) => panic!("{error}"),
        }
    }

    pub(crate) fn reoutline(&mut self, place: EntryId, m2: f64, date: NaiveDate) {
        let body = PlaceReoutlined::of(Measured::Taped, (m2 * 1e6) as u64);
        self.write(body, Some(place), date);
    }
}
