//! Books that nobody would keep: three devices that write entries of every kind, know of each other by chance, name
//! whatever there is, and correct and withdraw it without end.

use std::collections::BTreeMap;

use kerfbook_ledger::kind::*;
use kerfbook_ledger::{
    Anchor, Date, DeviceKey, Entry, EntryId, Hash, Head, Hlc, HoldingId, Label, Nonce, Outline, Series, Text,
    TextRef, Value,
};

use super::{SPRING_MS, day, key, label};

/// Splitmix64.
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From nothing to one less than `end`.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(end.max(1)).unwrap()).unwrap()
    }

    fn figure<T: TryFrom<usize>>(&mut self, end: usize) -> T {
        T::try_from(self.below(end)).ok().unwrap()
    }

    /// One time in `of`.
    pub(crate) fn once_in(&mut self, of: usize) -> bool {
        self.below(of) == 0
    }

    fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    fn maybe<T>(&mut self, what: impl FnOnce(&mut Self) -> T) -> Option<T> {
        (!self.once_in(3)).then(|| what(self))
    }
}

/// The chains of three devices, each entry with its bytes.
pub(crate) struct Chains {
    pub(crate) keys: [DeviceKey; 3],
    pub(crate) holding: HoldingId,
    pub(crate) bytes: [Vec<Vec<u8>>; 3],
    hashes: [Vec<Hash>; 3],
    /// What each device knows of each: the first so many entries.
    known: [[usize; 3]; 3],
    kinds: BTreeMap<EntryId, Kind>,
    /// What each was about when it was written.
    subjects: BTreeMap<EntryId, EntryId>,
    /// Changes of an entry in the order they were written.
    changes: BTreeMap<EntryId, Vec<EntryId>>,
}

impl Chains {
    /// `length` entries, the first of them those that found the book.
    pub(crate) fn new(seed: u64, length: usize, founding: &[Vec<u8>]) -> Self {
        let mut chance = Chance(seed);
        let keys = [key(1), key(2), key(3)];
        let mut chains = Self {
            holding: HoldingId::new(&keys[0].public(), &Nonce([7; 16])),
            keys,
            bytes: Default::default(),
            hashes: Default::default(),
            known: [[0; 3]; 3],
            kinds: BTreeMap::new(),
            subjects: BTreeMap::new(),
            changes: BTreeMap::new(),
        };
        for bytes in founding {
            chains.keep(0, &Entry::decode(bytes).unwrap());
        }
        for device in 1..3 {
            let enrolled =
                DeviceEnrolled { public_key: chains.keys[device].public(), label: label("Device") };
            chains.write(0, &mut chance, None, &enrolled.into());
        }
        // Who was enrolled has the book that says so.
        for device in 1..3 {
            chains.known[device] = chains.known[0];
        }
        while chains.bytes.iter().map(Vec::len).sum::<usize>() < length {
            let device = chance.below(3);
            // Now and then one hears from another.
            if chance.once_in(4) {
                let from = chance.below(3);
                for of in 0..3 {
                    chains.known[device][of] = chains.known[device][of].max(chains.known[from][of]);
                }
            }
            chains.step(device, &mut chance);
        }
        chains
    }

    /// A head over the first entries of a device.
    pub(crate) fn head(&self, device: usize, length: usize) -> Head {
        Head::sign(&self.keys[device], &self.holding, length as u64, self.hashes[device][length - 1])
    }

    fn step(&mut self, device: usize, chance: &mut Chance) {
        let known = self.known_to(device);
        match chance.below(10) {
            0 | 1 => {
                // Some entries draw change upon change.
                let end = if chance.once_in(2) { known.len().min(12) } else { known.len() };
                let target = known[chance.below(end)];
                let changes = self.changes.get(&target).cloned().unwrap_or_default();
                let seen: Vec<EntryId> =
                    changes.into_iter().filter(|id| known.contains(id) && !chance.once_in(4)).collect();
                let body = if chance.once_in(3) {
                    EntryWithdrawn { target, seen, reason: None }.into()
                } else {
                    let replaced =
                        (0..=chance.below(2)).map(|_| self.replacement(target, &known, chance)).collect();
                    EntryCorrected { target, seen, replaced, reason: None }.into()
                };
                self.write(device, chance, None, &body);
            }
            // A withdrawal of the last change or of anything.
            2 if chance.once_in(3) => {
                let target = known[chance.below(known.len())];
                let body = EntryWithdrawn { target, seen: Vec::new(), reason: None };
                self.write(device, chance, None, &body.into());
            }
            _ => {
                let kind = chance.one(&KINDS);
                let body = self.body(kind, &known, chance);
                // Mostly a layer or crop of the same place.
                let there = match &body {
                    Body::LayerLifted(lift) => self.subjects.get(&lift.layer),
                    Body::CropEnded(end) => self.subjects.get(&end.crop),
                    _ => None,
                };
                let subject = match kind.subject().kinds() {
                    _ if there.is_some() && !chance.once_in(6) => there.copied(),
                    Some(kinds) if !chance.once_in(40) => Some(self.pick(kinds, &known, chance)),
                    None if kind.subject() == Subject::Nothing => None,
                    _ => chance.maybe(|chance| known[chance.below(known.len())]),
                };
                self.write(device, chance, subject, &body);
            }
        }
    }

    fn known_to(&self, device: usize) -> Vec<EntryId> {
        (0..3)
            .flat_map(|of| {
                let length = if of == device { self.bytes[of].len() } else { self.known[device][of] };
                let device = self.keys[of].device();
                (1..=length as u64).map(move |seq| EntryId { device, seq })
            })
            .collect()
    }

    /// An entry of one of the kinds; now and then of another, or one that nobody knows yet.
    fn pick(&self, kinds: &[Kind], known: &[EntryId], chance: &mut Chance) -> EntryId {
        if chance.once_in(60) {
            let id = known[chance.below(known.len())];
            return if chance.once_in(2) { id } else { id.after(chance.figure(30)) };
        }
        let fit: Vec<EntryId> = known
            .iter()
            .copied()
            .filter(|id| self.kinds.get(id).is_some_and(|kind| kinds.contains(kind)))
            .collect();
        // Few hubs, so that much hangs together.
        let end = if chance.once_in(2) { fit.len().min(4) } else { fit.len() };
        fit.get(chance.below(end)).copied().unwrap_or_else(|| known[chance.below(known.len())])
    }

    fn replacement(&self, target: EntryId, known: &[EntryId], chance: &mut Chance) -> Replacement {
        let kind = self.kinds.get(&target).copied().unwrap_or(Kind::NoteMade);
        match chance.below(8) {
            0 => {
                let kinds = kind.subject().kinds().unwrap_or(&[Kind::PlaceOutlined]);
                Replacement::subject(self.pick(kinds, known, chance))
            }
            1 | 2 => Replacement::date(a_day(chance)),
            3 => Replacement::minute(chance.maybe(|chance| chance.figure(1_440))),
            4 if chance.once_in(4) => Replacement { field: chance.figure(40), value: Value::Int(-3) },
            _ => {
                let fields =
                    self.body(kind, known, chance).write().map(|(_, _, fields)| fields).unwrap_or_default();
                let number = chance.below(fields.len());
                let value = fields.get(number).cloned().unwrap_or(Value::Null);
                Replacement { field: i32::try_from(number).unwrap(), value }
            }
        }
    }

    fn write(&mut self, device: usize, chance: &mut Chance, subject: Option<EntryId>, body: &Body) {
        let (kind, version, fields) = body.write().unwrap();
        let id = EntryId { device: self.keys[device].device(), seq: self.bytes[device].len() as u64 + 1 };
        let written: usize = self.bytes.iter().map(Vec::len).sum();
        // An hour between the clocks of two devices.
        let ms =
            SPRING_MS + 1_000 * i64::try_from(written).unwrap() + 3_600_000 * i64::try_from(device).unwrap();
        let entry = Entry {
            holding: self.holding,
            id,
            hlc: Hlc::new(ms, 0),
            prev: self.hashes[device].last().copied().unwrap_or(Hash::ZERO),
            by: None,
            subject,
            date: if kind == Kind::PlotScored { a_visit(chance) } else { a_day(chance) },
            minute: chance.maybe(|chance| chance.figure(1_440)),
            offset_min: 120,
            wall_ms: ms,
            kind: kind.number(),
            version,
            body: fields,
        };
        if let Some(target) = match body {
            Body::EntryCorrected(said) => Some(said.target),
            Body::EntryWithdrawn(said) => Some(said.target),
            _ => None,
        } {
            self.changes.entry(target).or_default().push(id);
        }
        self.keep(device, &entry);
    }

    fn keep(&mut self, device: usize, entry: &Entry) {
        let bytes = entry.encode();
        self.hashes[device].push(Hash::of(&bytes));
        self.bytes[device].push(bytes);
        self.known[device][device] = self.bytes[device].len();
        self.kinds.insert(entry.id, entry.known_kind().unwrap());
        self.subjects.extend(entry.subject.map(|subject| (entry.id, subject)));
    }

    #[allow(clippy::too_many_lines, reason = "a list")]
    fn body(&self, kind: Kind, known: &[EntryId], chance: &mut Chance) -> Body {
        const BATCH: &[Kind] =
            &[Kind::LoadTakenIn, Kind::BatchBlended, Kind::LayerLifted, Kind::PileFinished];
        const PILE: &[Kind] = &[Kind::PileBuilt];
        let name = label(&format!("Thing {}", chance.below(1_000)));
        let grams = |chance: &mut Chance| chance.maybe(|chance| chance.figure::<u64>(500_000));
        let small = |chance: &mut Chance| chance.maybe(|chance| chance.figure::<u32>(9_000));
        match kind {
            Kind::PersonNamed => PersonNamed { name: a_text(chance) }.into(),
            Kind::PlaceOutlined => PlaceOutlined {
                cover: chance.maybe(|chance| chance.one(Cover::ALL)),
                watered: chance.maybe(|chance| chance.one(Watering::ALL)),
                label: name,
                place_kind: chance.one(PlaceKind::ALL),
                measured: chance.one(Measured::ALL),
                area_mm2: chance.figure(90_000_000),
                anchor: chance.maybe(|_| Anchor { latitude_e9: 1, longitude_e9: -1 }),
                outline: Outline(vec![[0, 0], [chance.figure(9_000), 0], [5, chance.figure(9_000)]]),
                container_ml: grams(chance),
                containers: small(chance),
                rooting_depth_mm: small(chance),
                area_sd_mm2: grams(chance),
                walk: None,
                further: chance.maybe(|_| vec![Outline(vec![[1, 1], [1, 2], [2, 2]])]),
                trees: None,
            }
            .into(),
            Kind::PlaceReoutlined => PlaceReoutlined {
                cover: chance.maybe(|chance| chance.one(Cover::ALL)),
                watered: chance.maybe(|chance| chance.one(Watering::ALL)),
                container_ml: grams(chance),
                containers: small(chance),
                rooting_depth_mm: small(chance),
                area_sd_mm2: grams(chance),
                ..PlaceReoutlined::of(chance.one(Measured::ALL), chance.figure(90_000_000))
            }
            .into(),
            Kind::LoadTakenIn => LoadTakenIn {
                model_class: chance.maybe(|_| label("hardwood")),
                particle: chance.maybe(|chance| chance.one(Particle::ALL)),
                wet_g: grams(chance),
                volume_ml: grams(chance),
                moisture_bp: small(chance),
                treated: chance.one(Answer::ALL),
                salty: chance.one(Answer::ALL),
                haul_m: small(chance),
                stored: chance.maybe(|chance| chance.one(Storage::ALL)),
                pieces: chance.maybe(|chance| chance.one(Pieces::ALL)),
                age: chance.maybe(|chance| chance.one(Age::ALL)),
                ..super::load(name.as_str(), 1)
            }
            .into(),
            Kind::LoadRefused => LoadRefused {
                material: name,
                reason: chance.one(RefusalReason::ALL),
                wet_g: grams(chance),
                volume_ml: grams(chance),
                from: None,
                note: None,
            }
            .into(),
            Kind::BatchTested => BatchTested {
                moisture_bp: small(chance),
                carbon_nitrogen_x100: small(chance),
                wet_density_g_m3: small(chance),
                sour: chance.maybe(|chance| chance.one(Answer::ALL)),
                method: None,
                moisture_half_bp: small(chance),
                handful: chance.maybe(|chance| chance.one(Handful::ALL)),
                age: chance.maybe(|chance| chance.one(Age::ALL)),
                smell: None,
                wet_density_sd_bp: small(chance),
                ammonium_nitrate_x100: small(chance),
                dioxide_x100: small(chance),
                emergence_bp: small(chance),
                self_heating_centi_c: small(chance),
                oxygen_mg_kg_h: small(chance),
                germination_bp: small(chance),
                seedlings_hurt: chance.maybe(|chance| chance.one(Answer::ALL)),
                ash_bp: small(chance),
            }
            .into(),
            Kind::BatchBlended => BatchBlended {
                label: name.clone(),
                material: name,
                particle: chance.maybe(|chance| chance.one(Particle::ALL)),
                parts: (0..chance.below(4))
                    .map(|_| Part {
                        batch: self.pick(BATCH, known, chance),
                        wet_g: grams(chance),
                        volume_ml: grams(chance),
                    })
                    .collect(),
                wet_g: grams(chance),
                volume_ml: grams(chance),
                moisture_bp: small(chance),
                carbon_nitrogen_x100: small(chance),
            }
            .into(),
            Kind::PileBuilt => PileBuilt {
                label: name,
                place: None,
                parts: (0..chance.below(4))
                    .map(|_| Part {
                        batch: self.pick(BATCH, known, chance),
                        wet_g: grams(chance),
                        volume_ml: grams(chance),
                    })
                    .collect(),
                water_ml: grams(chance),
                wet_g: grams(chance),
                volume_ml: grams(chance),
                moisture_bp: small(chance),
                carbon_nitrogen_x100: small(chance),
                rule: None,
            }
            .into(),
            Kind::PileTurned => PileTurned { water_ml: grams(chance) }.into(),
            Kind::HeatRead => HeatRead {
                zone: Some(name),
                depth_mm: small(chance),
                temperature_centi_c: chance.figure(9_000),
                smoke: false,
            }
            .into(),
            Kind::MoistureRead => MoistureRead { zone: None, moisture_bp: chance.figure(9_000) }.into(),
            Kind::PileFinished => PileFinished {
                label: name.clone(),
                pile: self.pick(PILE, known, chance),
                material: name,
                wet_g: grams(chance),
                volume_ml: grams(chance),
                moisture_bp: small(chance),
                carbon_nitrogen_x100: small(chance),
                supply_bp: small(chance),
                standing: None,
            }
            .into(),
            Kind::TrialLaidOut => TrialLaidOut {
                label: name,
                place: chance.maybe(|chance| self.pick(&[Kind::PlaceOutlined], known, chance)),
                design: chance.one(TrialDesign::ALL),
                seed: chance.figure(9_000),
                // Of the four plots one may be missing, so that some entries name a plot that is not there.
                plots: (101..104 + chance.figure::<u32>(2))
                    .map(|number| TrialPlot {
                        number,
                        block: 0,
                        row: 0,
                        column: chance.figure(9),
                        treatment: chance.figure(2),
                        sub: chance.maybe(|chance| chance.figure(2)),
                    })
                    .collect(),
                ..super::samples::trial(self.pick(&[Kind::PlaceOutlined], known, chance))
            }
            .into(),
            Kind::PlotScored => PlotScored {
                plot: a_plot(chance),
                rater: chance.once_in(3).then(|| self.pick(&[Kind::PersonNamed], known, chance)),
                layer: if chance.once_in(3) { chance.one(LeafLayer::ALL) } else { LeafLayer::Old },
                yellow_bp: chance.figure(10_000),
                again: chance.once_in(6),
            }
            .into(),
            Kind::PlotMeasured => PlotMeasured {
                plot: a_plot(chance),
                yield_g: grams(chance),
                weed_bp: small(chance),
                moisture_bp: small(chance),
                stand: small(chance),
            }
            .into(),
            Kind::PlotLost => PlotLost { plot: a_plot(chance), reason: a_text(chance) }.into(),
            Kind::TrialClosed => TrialClosed { note: None }.into(),
            Kind::BatchRecounted => {
                BatchRecounted { wet_g: grams(chance), volume_ml: grams(chance), reason: None }.into()
            }
            Kind::PutDown => PutDown {
                laid_by: chance.maybe(|chance| chance.one(LaidBy::ALL)),
                laid_x10: small(chance),
                batch: self.pick(BATCH, known, chance),
                way: chance.one(Way::ALL),
                wet_g: grams(chance),
                dry_g: grams(chance),
                depth_mm: small(chance),
                area_mm2: grams(chance),
                containers: small(chance),
                container: chance.maybe(|chance| chance.one(ContainerKind::ALL)),
                container_ml: grams(chance),
                over: chance.maybe(|chance| self.pick(&[Kind::FeedGiven, Kind::PutDown], known, chance)),
                gap_mm: small(chance),
                trees: None,
                known_by: chance.maybe(|chance| chance.one(KnownBy::ALL)),
            }
            .into(),
            Kind::DepthProbed => DepthProbed {
                layer: chance.maybe(|chance| self.pick(&[Kind::PutDown], known, chance)),
                depths_mm: (0..chance.below(4)).map(|_| chance.figure(90)).collect(),
                ..DepthProbed::default()
            }
            .into(),
            Kind::SoilWorked => SoilWorked {
                depth_mm: chance.figure(300),
                share_bp: small(chance),
                tool: chance.maybe(|chance| chance.one(Tool::ALL)),
                by_tool: None,
            }
            .into(),
            Kind::LayerLifted => LayerLifted {
                label: name,
                layer: self.pick(&[Kind::PutDown], known, chance),
                share_bp: chance.figure(9_000),
                wet_g: grams(chance),
                volume_ml: grams(chance),
                moisture_bp: small(chance),
            }
            .into(),
            Kind::GapChecked => GapChecked {
                gap_mm: chance.figure(300),
                plants: small(chance),
                blocked_emitters: small(chance),
                mended: chance.once_in(2),
            }
            .into(),
            Kind::FeedGiven => super::feed(chance.figure(90_000)).into(),
            Kind::WaterGiven => WaterGiven {
                depth_mm: small(chance),
                volume_ml: grams(chance),
                under: chance.maybe(|chance| chance.once_in(2)),
            }
            .into(),
            Kind::WeatherRead => WeatherRead {
                span: chance.one(WeatherSpan::ALL),
                mean_centi_c: chance.maybe(|chance| chance.figure(3_000)),
                range_centi_c: small(chance),
                rain_ml_m2: small(chance),
                evaporation_ml_m2_day: small(chance),
                winters: chance.maybe(|chance| chance.one(Winters::ALL)),
                summers: None,
                rain: chance.maybe(|chance| chance.one(Rain::ALL)),
            }
            .into(),
            Kind::SoilTested => SoilTested {
                top_mm: Some(0),
                bottom_mm: small(chance),
                organic_matter_bp: small(chance),
                clay_bp: small(chance),
                sand_bp: small(chance),
                bulk_density_g_m3: small(chance),
                ph_x100: small(chance),
                nitrogen_form: chance.maybe(|chance| chance.one(NitrogenForm::ALL)),
                mg_kg_x100: small(chance),
                mg_m2: small(chance),
                available_water_mm: small(chance),
                field_capacity_mm: small(chance),
                water_bp: small(chance),
                plain: None,
                rolled: chance.maybe(|chance| chance.one(Rolled::ALL)),
                colour: None,
                last_crop_fed: chance.maybe(|chance| chance.one(Answer::ALL)),
            }
            .into(),
            Kind::DrawTested => DrawTested {
                temperature_centi_c: chance.figure(3_000),
                dose_mg_l: 150,
                dry_mg_l: chance.figure(200_000),
                index_bp: chance.figure(10_000),
            }
            .into(),
            Kind::CropStarted => super::crop(name.as_str()).into(),
            Kind::CropEnded => CropEnded {
                crop: self.pick(&[Kind::CropStarted], known, chance),
                fate: chance.one(Fate::ALL),
                yield_g: grams(chance),
            }
            .into(),
            Kind::LeafRead => LeafRead {
                crop: chance.maybe(|chance| self.pick(&[Kind::CropStarted], known, chance)),
                nutrition_bp: small(chance),
                against: chance.maybe(|chance| self.pick(&[Kind::PlaceOutlined], known, chance)),
                dgci_x10000: small(chance),
                hue_centideg: small(chance),
                yellow_bp: small(chance),
                brown_bp: small(chance),
                photo: None,
            }
            .into(),
            Kind::ForecastFrozen => a_forecast(chance).into(),
            Kind::TaskSet => TaskSet {
                what: chance.one(TaskKind::ALL),
                due: chance.maybe(a_day),
                to: chance.maybe(|chance| self.pick(&[Kind::PersonNamed], known, chance)),
                text: None,
                source: None,
                nitrogen_mg: grams(chance),
                wet_g: grams(chance),
            }
            .into(),
            Kind::TaskClosed => TaskClosed {
                task: self.pick(&[Kind::TaskSet], known, chance),
                outcome: chance.one(Outcome::ALL),
                entry: chance.maybe(|chance| known[chance.below(known.len())]),
                reason: None,
            }
            .into(),
            Kind::PlaceClosed => PlaceClosed { reason: None }.into(),
            Kind::HoldingOpened => HoldingOpened {
                name,
                public_key: self.keys[0].public(),
                nonce: Nonce([7; 16]),
                sells: chance.once_in(2),
                certified: chance.once_in(2),
                latitude_centidegree: chance.maybe(|chance| chance.figure(9_000)),
            }
            .into(),
            Kind::DeviceEnrolled => {
                DeviceEnrolled { public_key: self.keys[chance.below(3)].public(), label: name }.into()
            }
            _ => NoteMade { text: a_text(chance) }.into(),
        }
    }
}

/// Kinds that are written at random, the frequent ones more than once.
const KINDS: [Kind; 59] = [
    Kind::PersonNamed,
    Kind::PlaceOutlined,
    Kind::PlaceOutlined,
    Kind::PlaceReoutlined,
    Kind::PlaceClosed,
    Kind::LoadTakenIn,
    Kind::LoadTakenIn,
    Kind::LoadRefused,
    Kind::BatchTested,
    Kind::BatchTested,
    Kind::BatchBlended,
    Kind::BatchBlended,
    Kind::BatchRecounted,
    Kind::BatchRecounted,
    Kind::PutDown,
    Kind::PutDown,
    Kind::PutDown,
    Kind::PutDown,
    Kind::DepthProbed,
    Kind::SoilWorked,
    Kind::SoilWorked,
    Kind::LayerLifted,
    Kind::LayerLifted,
    Kind::LayerLifted,
    Kind::LayerLifted,
    Kind::LayerLifted,
    Kind::LayerLifted,
    Kind::GapChecked,
    Kind::FeedGiven,
    Kind::FeedGiven,
    Kind::WaterGiven,
    Kind::WeatherRead,
    Kind::SoilTested,
    Kind::DrawTested,
    Kind::CropStarted,
    Kind::CropStarted,
    Kind::CropEnded,
    Kind::CropEnded,
    Kind::LeafRead,
    Kind::ForecastFrozen,
    Kind::TaskSet,
    Kind::TaskClosed,
    Kind::TaskClosed,
    Kind::PileBuilt,
    Kind::PileBuilt,
    Kind::PileTurned,
    Kind::HeatRead,
    Kind::MoistureRead,
    Kind::PileFinished,
    Kind::TrialLaidOut,
    Kind::PlotScored,
    Kind::PlotScored,
    Kind::PlotScored,
    Kind::PlotScored,
    Kind::PlotMeasured,
    Kind::PlotLost,
    Kind::TrialClosed,
    Kind::TrialClosed,
    Kind::NoteMade,
];

fn a_day(chance: &mut Chance) -> Date {
    day(chance.figure(300)).date
}

/// Plots are scored on few days, all of them on each.
fn a_visit(chance: &mut Chance) -> Date {
    day(200 + 30 * chance.figure::<i32>(3)).date
}

fn a_plot(chance: &mut Chance) -> u32 {
    101 + chance.figure::<u32>(4)
}

fn a_text(chance: &mut Chance) -> TextRef {
    Text::new([1; 16], &format!("{}", chance.below(50))).hash()
}

fn a_forecast(chance: &mut Chance) -> ForecastFrozen {
    let weeks = |chance: &mut Chance| Series((0..3).map(|_| chance.figure(9_000)).collect());
    ForecastFrozen {
        engine: 1,
        parameters: 1,
        seed: chance.figure(1_000),
        runs: 200,
        inputs: a_text(chance),
        first: a_day(chance),
        weeks: Weeks {
            tied_p10: weeks(chance),
            tied_p50: weeks(chance),
            tied_p90: weeks(chance),
            mineral_p10: weeks(chance),
            mineral_p50: weeks(chance),
            mineral_p90: weeks(chance),
        },
        hungry_p10: None,
        hungry_p50: Some(chance.figure(200)),
        hungry_p90: None,
        way: chance.maybe(|chance| chance.one(Way::ALL)),
        wet_g: None,
        containers: None,
        container: None,
        give_mg: 0,
        give_source: None,
        look: chance.maybe(a_day),
        avoid: None,
        cost_p10: 0,
        cost_p50: chance.figure(900),
        cost_p90: 1_000,
        least_known: None::<Label>,
    }
}
