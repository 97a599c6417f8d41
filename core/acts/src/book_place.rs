//! A place as its book has it, as a scenario; and the places that its material was lifted from.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{Days, NaiveDate};
use kerfbook_ledger::kind::{
    Cover, Fate as EntryFate, KnownBy as Scale, LayerLifted, Placed as EntryPlaced, Way as EntryWay,
};
use kerfbook_ledger::projection::batch::{Origin as Opened, Use};
use kerfbook_ledger::projection::place::{CropLine, Layer};
use kerfbook_ledger::projection::view::{Flagged, Said};
use kerfbook_ledger::{BatchView, Body, Book, Current, Date, EntryId, HoldingView, PlaceView};
use kerfbook_science::crop::{self, Life};
use kerfbook_science::crop_residue;
use kerfbook_science::lookup::Match;
use kerfbook_science::material::{self, Found, Part};
use kerfbook_science::plain::weather::WATERED_WHEN_LEAVES_HANG;
use kerfbook_science::plain::{LaidBy, Watering};
use kerfbook_science::source::{Source, Sourced};
use kerfbook_science::units::{Area, AreaMass, Length, Mass, Share, Volume};

use crate::assumed::{Assumed, Value};
use crate::blend_batch;
use crate::consider::Proposal;
use crate::error::ActError;
use crate::figure::grams;
use crate::in_words::InWords;
use crate::load::Load;
use crate::place_scenario::{area_sd, crop_of, feed_of, place_of, put_down_of, rests_on};
use crate::put_down::way_of;
use crate::scenario::{
    Again, Amount, Containers, Crop, Fate, Feed, FeedAmount, Holding, Kept, Lifted, Origin, PutDown,
    Scenario, Taken, Water, Way, Weather, Worked,
};
use crate::season::{LeftOut, Why};
use crate::site;
use crate::tree_rows;
use crate::{book_soil, book_weather};

/// Days that a crop stands where nobody says how long.
const CROP_DAYS: Sourced<u64> = Sourced::new(120, Source::ASSUMPTION);
/// Depth from which working the soil mixes in all that lies on it, mm: the model's.
const MIXES_ALL_MM: f64 = 100.0;
/// Places that material came from, one behind the other, that are followed.
const DEEPEST_ORIGIN: usize = 8;
/// Liftings that are followed in all: material carried to and fro many times has as many pasts.
const MOST_ORIGINS: usize = 64;
/// Most of a load that is taken for one, dry t/ha: a heap of some metres.
const MOST_DRY_T_HA: f64 = 10_000.0;
/// Most of a feed, kg N/ha, and of a crop's need.
const MOST_NITROGEN_KG_HA: f64 = 10_000.0;
/// Most of a watering, mm.
const MOST_WATER_MM: f64 = 1_000.0;
/// Batch numbers below this are given in order; feeds draw from those that follow.
const FIRST_NUMBERS: u32 = site::FEED_BATCH;
/// Where batch numbers go on, far from those of feeds.
const NEXT_NUMBERS: u32 = 100_000;

/// A place in the terms of the model, and which entry is what.
#[derive(Debug, Clone)]
pub(crate) struct Described {
    pub(crate) scenario: Scenario,
    /// One a putting-down of the scenario.
    pub(crate) loads: Vec<EntryId>,
    /// One a putting-down of the scenario.
    pub(crate) batches: Vec<EntryId>,
    /// One a crop of the scenario.
    pub(crate) crops: Vec<EntryId>,
    /// One a feed of the scenario.
    pub(crate) feeds: Vec<EntryId>,
    /// The first putting-down, feed or crop.
    pub(crate) first: Option<NaiveDate>,
    pub(crate) readings: Vec<Read>,
}

/// Something measured, not yet on a day of the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Read {
    Nitrate {
        entry: EntryId,
        date: NaiveDate,
        kg_ha: f64,
    },
    Leaf {
        entry: EntryId,
        date: NaiveDate,
        crop: Option<EntryId>,
        nutrition: f64,
    },
    Jar {
        entry: EntryId,
        batch: EntryId,
        temperature_c: f64,
        dose_mg_litre: f64,
        dry_g_per_litre: f64,
        index: f64,
    },
}

impl Read {
    pub(crate) fn entry(&self) -> EntryId {
        match self {
            Self::Nitrate { entry, .. } | Self::Leaf { entry, .. } | Self::Jar { entry, .. } => *entry,
        }
    }

    /// Its figures are such as the model takes.
    pub(crate) fn can_be(&self) -> bool {
        match *self {
            Self::Nitrate { kg_ha, .. } => (0.0..=10_000.0).contains(&kg_ha),
            Self::Leaf { nutrition, .. } => (0.0..=3.0).contains(&nutrition),
            Self::Jar { temperature_c, dose_mg_litre, dry_g_per_litre, index, .. } => {
                (0.0..=50.0).contains(&temperature_c)
                    && (1e-3..=1e5).contains(&dose_mg_litre)
                    && (1e-3..=1e4).contains(&dry_g_per_litre)
                    && (0.0..=2.0).contains(&index)
            }
        }
    }
}

/// Reads places from a book up to a day.
pub(crate) struct Reader<'a> {
    book: &'a Book,
    holding: Option<Arc<HoldingView>>,
    on: NaiveDate,
    /// Liftings that are being followed.
    trail: Vec<EntryId>,
    /// How many have been followed.
    followed: usize,
    numbers: BTreeMap<EntryId, u32>,
    next_number: u32,
    pub(crate) assumed: Vec<Assumed>,
    pub(crate) flagged: Vec<Flagged>,
    pub(crate) left_out: Vec<LeftOut>,
}

impl<'a> Reader<'a> {
    pub(crate) fn new(book: &'a Book, on: NaiveDate) -> Result<Self, ActError> {
        Ok(Self {
            book,
            holding: book.holding_view()?,
            on,
            trail: Vec::new(),
            followed: 0,
            numbers: BTreeMap::new(),
            next_number: 0,
            assumed: Vec::new(),
            flagged: Vec::new(),
            left_out: Vec::new(),
        })
    }

    /// A place with all that happened on it up to a day.
    pub(crate) fn place(&mut self, id: EntryId, until: NaiveDate) -> Result<Described, ActError> {
        let view = self.book.place(id)?.ok_or(ActError::NotThere { what: "place" })?;
        self.flag(&view.flagged);
        let size = on_day(&view, until)?;
        let mut made = Described {
            scenario: Scenario {
                holding: self.holding(),
                weather: self.weather(&view)?,
                soil: book_soil::unknown(),
                place: size,
                crops: Vec::new(),
                put_down: Vec::new(),
                feeds: Vec::new(),
                worked: Vec::new(),
                lifted: Vec::new(),
                origins: Vec::new(),
                containers: Containers::usual(),
                orchard: None,
            },
            loads: Vec::new(),
            batches: Vec::new(),
            crops: Vec::new(),
            feeds: Vec::new(),
            first: None,
            readings: Vec::new(),
        };
        self.crops(&view, until, &mut made)?;
        self.setting(&view, until, &mut made)?;
        self.feeds(&view, until, &mut made)?;
        self.loads(&view, until, &mut made)?;
        let puts = made.scenario.put_down.iter().map(|put| put.date);
        let feeds = made.scenario.feeds.iter().map(|feed| feed.date);
        // A tree's season may begin before the day on which it came into the book.
        let crops = view.crops.iter().filter(|line| made.crops.contains(&line.entry));
        made.first = puts.chain(feeds).chain(crops.map(|line| line.started.naive())).min();
        self.soil(&view, until, &mut made);
        self.worked(&view, until, &mut made);
        self.lifted(&view, until, &mut made);
        self.water(&view, until, &mut made)?;
        self.leaves(&view, until, &mut made);
        self.jars(until, &mut made)?;
        Ok(made)
    }

    /// The same with a load that might be put down that day: it comes last, its way open.
    pub(crate) fn with_load(
        &mut self,
        asked: &Proposal,
        batch: &BatchView,
        containers: &Containers,
        on: NaiveDate,
    ) -> Result<Scenario, ActError> {
        let mut made = self.place(asked.place, on)?;
        made.scenario.containers = *containers;
        let view = self.book.place(asked.place)?.ok_or(ActError::NotThere { what: "place" })?;
        let whole = made.scenario.place.area;
        if let Some(run) = &asked.run {
            let (area, trees) = tree_rows::ground(&view, run)?;
            made.scenario.take_part(area, u32::try_from(trees).unwrap_or(u32::MAX));
        }
        let date = Date::of(on)?;
        let described = put_down_of(&as_on(batch, date), Way::OnTop, asked.amount, on);
        let load = Load::of(&described, &made.scenario.place, containers, &mut Vec::new())?;
        // A layer's masses lie on the whole place: as much on all of it as the load is on the part.
        let as_whole = whole.m2() / made.scenario.place.area.m2();
        let layer = Layer {
            entry: batch.id,
            date,
            batch: batch.id,
            way: EntryWay::OnTop,
            wet_g: Some(grams(load.wet * as_whole)),
            dry_g: Some(grams(load.dry * as_whole)),
            depth_mm: None,
            area_mm2: view.area_mm2,
            over: None,
            lies_bp: 10_000,
            dug_in: None,
            laid_by: None,
            laid_x10: None,
            known_by: None,
            trees: None,
        };
        let put = self.load(&view, &layer, batch, &Kept::default(), &mut made)?;
        let put = put.ok_or(ActError::NotThere { what: "batch" })?;
        made.scenario.put_down.push(PutDown { way: None, ..put });
        Ok(made.scenario)
    }

    fn leave_out(&mut self, entry: EntryId, why: Why) {
        let left_out = LeftOut { entry, why };
        if !self.left_out.contains(&left_out) {
            self.left_out.push(left_out);
        }
    }

    fn flag(&mut self, flagged: &[Flagged]) {
        for one in flagged {
            if !self.flagged.contains(one) {
                self.flagged.push(one.clone());
            }
        }
    }

    fn holding(&self) -> Holding {
        self.holding.as_ref().map_or_else(Holding::default, |view| Holding {
            latitude_deg: view.latitude_centidegree.map(|latitude| f64::from(latitude) / 100.0),
            sells: view.sells,
            certified: view.certified,
            urine_confirmed: false,
            at_hand: Vec::new(),
        })
    }

    fn weather(&mut self, view: &PlaceView) -> Result<Weather, ActError> {
        let holding = self.holding.as_ref();
        let latitude = holding.and_then(|view| view.latitude_centidegree).map(|l| f64::from(l) / 100.0);
        let until = Date::of(self.on)?;
        let of_holding = holding.map_or(&[][..], |view| &view.usual).iter();
        let of_holding = of_holding.chain(holding.map_or(&[][..], |view| &view.usual_year));
        let days_of_holding = holding.map_or(&[][..], |view| &view.days).iter();
        // The place's own gauge comes later, so that it wins.
        let read = of_holding.chain(days_of_holding).chain(&view.weather).filter(|read| read.date <= until);
        let (read, wrong): (Vec<_>, Vec<_>) = read.partition(|read| book_weather::can_be(&read.body));
        let left_out = wrong.iter().map(|read| LeftOut { entry: read.entry, why: Why::Impossible });
        for one in left_out {
            if !self.left_out.contains(&one) {
                self.left_out.push(one);
            }
        }
        Ok(book_weather::weather(read.into_iter(), latitude, &mut self.assumed))
    }

    /// What is over the place and how it is watered, as last said.
    fn setting(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        let said = view.measure_on(Date::of(until)?);
        match said.and_then(|said| said.cover).filter(|cover| *cover != Cover::Unknown) {
            Some(cover) => made.scenario.weather.cover = matches!(cover, Cover::Roof | Cover::Tunnel),
            None => self.assumed.push(Assumed::text("cover", "open sky")),
        }
        match said.and_then(|said| said.watered).map(Watering::said) {
            Some(Watering::Enough) => made.scenario.weather.watered_enough = true,
            Some(Watering::WhenLeavesHang) => {
                let (_, days) = WATERED_WHEN_LEAVES_HANG.value;
                let written: Vec<NaiveDate> = view.water.iter().map(|line| line.date.naive()).collect();
                let near = |date: NaiveDate| {
                    written.iter().any(|other| (*other - date).num_days().abs() < i64::from(days))
                };
                let given = made.scenario.crops.iter().flat_map(Crop::watered_when_leaves_hang);
                made.scenario.weather.water.extend(given.filter(|water| !near(water.date)));
            }
            Some(Watering::Never) => {}
            Some(Watering::Unknown) | None => self.assumed.push(Assumed::text("watered", "never")),
        }
        Ok(())
    }

    fn soil(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) {
        let tests = view.soil_tests.iter().filter(|test| test.date.naive() <= until);
        let (tests, wrong): (Vec<_>, Vec<_>) = tests.partition(|test| book_soil::can_be(&test.body));
        for test in wrong {
            self.leave_out(test.entry, Why::Impossible);
        }
        let first = made.first.unwrap_or(until);
        let found = book_soil::soil(&tests, &made.scenario, first, &mut self.assumed);
        made.scenario.soil = found.soil;
        for (entry, why) in found.left_out {
            self.leave_out(entry, why);
        }
        made.readings.extend(found.readings);
    }

    fn crops(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        for line in view.crops.iter().filter(|line| line.started.naive() <= until) {
            let Some(current) = self.book.current(line.entry)?.filter(Current::counts) else { continue };
            let Body::CropStarted(started) = &current.body else { continue };
            let ended = line.ended.map(Date::naive).filter(|ended| *ended <= until);
            let from = line.started.naive();
            if ended.is_some_and(|ended| ended <= from) {
                self.leave_out(line.entry, Why::EndsBeforeStart);
                continue;
            }
            let known = ended.or(line.ends.map(Date::naive)).filter(|end| *end > from);
            let stays = stays(view, line, started.tree_mg.is_some());
            let end = known.unwrap_or_else(|| {
                if !stays {
                    self.assumed.push(Assumed::number("crop_days", CROP_DAYS.value as f64));
                }
                from + Days::new(CROP_DAYS.value)
            });
            let Some(mut crop) = crop_of(started, from, Some(end)) else { continue };
            let need = site::need(&crop).map_or(0.0, AreaMass::kg_ha);
            if !(0.0..=MOST_NITROGEN_KG_HA).contains(&need) || crop.fixed.fraction() > 1.0 {
                self.leave_out(line.entry, Why::Impossible);
                continue;
            }
            crop.fate = match line.fate.filter(|_| ended.is_some()) {
                Some(EntryFate::DugIn) => Fate::DugIn,
                Some(EntryFate::Mown) => Fate::Mown,
                Some(EntryFate::CarriedOff) | None => Fate::CarriedOff,
            };
            crop.harvested = line.yield_g.is_some() || !crop_residue::is_cover(&crop.name);
            if stays {
                crop = yearly(crop, known, ended, &made.scenario.weather, &mut self.assumed);
            }
            made.crops.push(line.entry);
            made.scenario.crops.push(crop);
        }
        Ok(())
    }

    fn feeds(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        for line in view.feeds.iter().filter(|line| line.date.naive() <= until) {
            let Some(current) = self.book.current(line.entry)?.filter(Current::counts) else { continue };
            let Body::FeedGiven(given) = &current.body else { continue };
            let area = on_day(view, line.date.naive())?.area;
            let with_layer = view.layers.iter().any(|layer| layer.over == Some(line.entry));
            let mut feed = Feed { with_layer, ..feed_of(given, line.date.naive(), area) };
            if let FeedAmount::Liquid(volume) = &mut feed.amount {
                // Poured on the ground as it was measured that day.
                *volume = *volume * (made.scenario.place.area.m2() / area.m2());
            }
            let Ok(source) = site::find_feed(&feed.source) else {
                self.leave_out(line.entry, Why::NotInTable);
                continue;
            };
            let nitrogen = site::nitrogen_of(source, feed.amount, made.scenario.place.area);
            if !nitrogen.is_ok_and(|nitrogen| (0.0..=MOST_NITROGEN_KG_HA).contains(&nitrogen.kg_ha())) {
                self.leave_out(line.entry, Why::Impossible);
                continue;
            }
            made.feeds.push(line.entry);
            made.scenario.feeds.push(feed);
        }
        Ok(())
    }

    fn loads(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        let under: BTreeSet<EntryId> = view.layers.iter().filter_map(|layer| layer.over).collect();
        for layer in view.layers.iter().filter(|layer| layer.date.naive() <= until) {
            let over = layer.over.is_some()
                || view.feeds.iter().any(|feed| feed.date == layer.date && feed.placed == EntryPlaced::Under);
            let kept = Kept { under: under.contains(&layer.entry), over, ..Kept::default() };
            let Some(batch) = self.book.batch(layer.batch)? else {
                self.leave_out(layer.entry, Why::NotThere);
                continue;
            };
            self.flag(&batch.flagged);
            if let Some(put) = self.load(view, layer, &batch, &kept, made)? {
                made.scenario.put_down.push(put);
                made.loads.push(layer.entry);
                made.batches.push(batch.id);
            }
        }
        Ok(())
    }

    /// A putting-down; none where it cannot be in the sum, which is noted.
    fn load(
        &mut self,
        view: &PlaceView,
        layer: &Layer,
        batch: &BatchView,
        kept: &Kept,
        made: &mut Described,
    ) -> Result<Option<PutDown>, ActError> {
        let residue = match material::find(batch.material.as_str()) {
            Found::Material(material) => material.is_residue(),
            Found::Refused(_) => {
                self.leave_out(layer.entry, Why::Refused);
                return Ok(None);
            }
            Found::Unknown { .. } => false,
        };
        if !residue {
            self.leave_out(layer.entry, Why::NotInTable);
            return Ok(None);
        }
        let date = layer.date.naive();
        let area = on_day(view, date)?.area;
        let taken = match batch.origin {
            Opened::Layer => self.taken(layer, batch, area, made)?,
            Opened::Load | Opened::Blend | Opened::Pile => FromElsewhere::Fresh(None),
        };
        let (taken, dry) = match taken {
            FromElsewhere::Fresh(dry) => (None, dry),
            FromElsewhere::Old(taken, dry) => (Some(taken), dry),
            FromElsewhere::LeftOut(why) => {
                self.leave_out(layer.entry, why);
                return Ok(None);
            }
        };
        let half = batch.moisture_half_bp_on(layer.date);
        let half = half.map(|bp| Share::from_percent(f64::from(bp) / 100.0));
        // A weighed load of which nobody said how wet it is draws its moisture as the table has it.
        let wetness_open = batch.moisture_bp_on(layer.date).is_none() && layer.known_by == Some(Scale::Mass);
        let moist_first = half.is_some() || wetness_open;
        let Some(amount) = amount(layer, moist_first, area, made.scenario.place.area).or(dry) else {
            self.leave_out(layer.entry, Why::NoAmount);
            return Ok(None);
        };
        let root = self.root(batch)?;
        let composition = self.blended(root, date)?;
        let kept = Kept {
            batch: self.number(root, batch, composition.len()),
            composition,
            taken,
            under: kept.under,
            over: kept.over,
        };
        let described = as_on(batch, layer.date);
        let mut put = put_down_of(&described, way_of(layer.way), amount, date);
        put.kept = Some(kept);
        put.moisture_half = half;
        put.measured.known_by = Some(rests_on(layer, batch));
        // A wrong unit must not take the whole place down with it.
        let whole = Load::of(&put, &made.scenario.place, &made.scenario.containers, &mut Vec::new());
        match whole {
            Ok(load) if load.dry_per_area.t_ha() <= MOST_DRY_T_HA && can_be(&load) => Ok(Some(put)),
            Ok(_) => {
                self.leave_out(layer.entry, Why::Impossible);
                Ok(None)
            }
            Err(_) => {
                self.leave_out(layer.entry, Why::NoAmount);
                Ok(None)
            }
        }
    }

    /// The batch that a lifted one was put down from in the end: it has the properties.
    fn root(&self, batch: &BatchView) -> Result<EntryId, ActError> {
        let mut id = batch.id;
        let mut layer = batch.layer;
        for _ in 0..DEEPEST_ORIGIN {
            let Some(put) = layer.map(|layer| self.book.current(layer)).transpose()?.flatten() else { break };
            let Body::PutDown(body) = &put.body else { break };
            id = body.batch;
            layer = self.book.batch(id)?.and_then(|earlier| earlier.layer);
        }
        Ok(id)
    }

    /// What a blend is made of; nothing for a load, which the table of materials knows.
    fn blended(&self, batch: EntryId, on: NaiveDate) -> Result<Vec<Part>, ActError> {
        let blend = self.book.batch(batch)?.is_some_and(|view| view.origin == Opened::Blend);
        if !blend {
            return Ok(Vec::new());
        }
        Ok(blend_batch::made_of(self.book, batch, on).map(|made| made.parts()).unwrap_or_default())
    }

    /// The number that a batch draws its properties by. A blend of several materials takes one for each.
    fn number(&mut self, root: EntryId, batch: &BatchView, blended: usize) -> u32 {
        if let Some(number) = self.numbers.get(&root) {
            return *number;
        }
        let parts = match material::find(batch.material.as_str()) {
            Found::Material(material) => {
                u32::try_from(material.composition.len().max(blended)).unwrap_or(1).max(1)
            }
            Found::Refused(_) | Found::Unknown { .. } => 1,
        };
        let fits = self.next_number + parts <= FIRST_NUMBERS;
        if !fits && self.next_number < NEXT_NUMBERS {
            self.next_number = NEXT_NUMBERS;
        }
        let number = self.next_number;
        self.next_number += parts;
        self.numbers.insert(root, number);
        number
    }

    /// Material that was lifted from a place: that place up to the lifting, with its own origins.
    fn taken(
        &mut self,
        layer: &Layer,
        batch: &BatchView,
        area: Area,
        made: &mut Described,
    ) -> Result<FromElsewhere, ActError> {
        let Some(lift) = self.book.current(batch.id)?.filter(Current::counts) else {
            return Ok(FromElsewhere::LeftOut(Why::NotThere));
        };
        let Body::LayerLifted(body) = &lift.body else { return Ok(FromElsewhere::Fresh(None)) };
        let Some(put) = self.book.current(body.layer)?.filter(Current::counts) else {
            return Ok(FromElsewhere::LeftOut(Why::NotThere));
        };
        let (Some(from), Body::PutDown(_)) = (put.subject, &put.body) else {
            return Ok(FromElsewhere::LeftOut(Why::NotThere));
        };
        let too_far = self.trail.len() >= DEEPEST_ORIGIN || self.followed >= MOST_ORIGINS;
        if self.trail.contains(&batch.id) || too_far {
            return Ok(FromElsewhere::LeftOut(Why::Circle));
        }
        let lifted = lift.date.naive();
        self.followed += 1;
        self.trail.push(batch.id);
        let there = self.place(from, lifted);
        self.trail.pop();
        let there = there?;
        let found = there.loads.iter().position(|load| *load == body.layer);
        let Some((position, described)) = found.and_then(|at| Some((at, there.scenario.put_down.get(at)?)))
        else {
            return Ok(FromElsewhere::LeftOut(Why::NotThere));
        };
        let share = Share::from_percent(f64::from(body.share_bp) / 100.0);
        let part = self.part(layer, batch);
        let from_area = there.scenario.place.area;
        let factor = from_area.m2() / area.m2() * part;
        // For telling how much it is; the model goes by share and state.
        let amount = described.amount.carried(share.fraction() * part, from_area, area);
        let origin = if lifted > put.date.naive() {
            Origin {
                first: there.first.unwrap_or(lifted),
                scenario: there.scenario,
                lifted,
                layer: position,
                share,
            }
        } else {
            // It has not lain there: it is what it was before.
            let before = described.kept.as_ref().and_then(|kept| kept.taken);
            let Some((before, origin)) =
                before.and_then(|before| Some((before, there.scenario.origins.get(before.origin)?.clone())))
            else {
                return Ok(FromElsewhere::Fresh(Some(amount)));
            };
            let factor = before.factor * share.fraction() * factor;
            let taken = Taken { origin: made.scenario.origins.len(), factor };
            made.scenario.origins.push(origin);
            return Ok(FromElsewhere::Old(taken, Some(amount)));
        };
        let taken = Taken { origin: made.scenario.origins.len(), factor };
        made.scenario.origins.push(origin);
        Ok(FromElsewhere::Old(taken, Some(amount)))
    }

    /// Part of a lifted batch that a putting-down took: by mass, by volume, else an equal share of its uses.
    fn part(&mut self, layer: &Layer, batch: &BatchView) -> f64 {
        let mine = |used: &&Use| used.entry == layer.entry;
        let used = batch.uses.iter().find(mine);
        let ratio = |part: Option<u64>, whole: Option<u64>| {
            let (part, whole) = (part?, whole.filter(|whole| *whole > 0)?);
            Some((part as f64 / whole as f64).min(1.0))
        };
        let known = used.and_then(|used| {
            ratio(used.wet_g, batch.wet_g).or_else(|| ratio(used.volume_ml, batch.volume_ml))
        });
        known.unwrap_or_else(|| {
            let until = self.on;
            let all = batch.uses.iter().filter(|used| used.date.naive() <= until).count().max(1);
            let equal = 1.0 / all as f64;
            self.assumed.push(Assumed::new("lifted_part_pct", Value::Percent(equal)));
            equal
        })
    }

    fn worked(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) {
        let kind = made.scenario.place.kind;
        for work in view.worked.iter().filter(|work| work.date.naive() <= until) {
            if !site::grows(kind) {
                self.leave_out(work.entry, Why::NothingGrows);
            } else if made.first.is_some_and(|first| work.date.naive() < first) {
                self.leave_out(work.entry, Why::BeforeFirst);
            } else {
                let depth = Length::from_mm(f64::from(work.body.depth_mm));
                let part = work.body.share_bp.map(|bp| Share::from_percent(f64::from(bp) / 100.0));
                made.scenario.worked.push(working(work.date.naive(), depth, part));
            }
        }
    }

    fn lifted(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) {
        let mut gone: BTreeMap<EntryId, u32> = BTreeMap::new();
        for lift in view.lifted.iter().filter(|lift| lift.date.naive() <= until) {
            let Said { entry, date, body: LayerLifted { layer, share_bp, .. }, .. } = lift;
            let Some(position) = made.loads.iter().position(|load| load == layer) else {
                self.leave_out(*entry, Why::NothingLay);
                continue;
            };
            let before = gone.entry(*layer).or_default();
            let rest = 10_000_u32.saturating_sub(*before);
            *before = before.saturating_add(*share_bp);
            let put = made.scenario.put_down.get(position).map(|put| put.date);
            if rest == 0 || put.is_some_and(|put| date.naive() < put) {
                self.leave_out(*entry, Why::NothingLay);
                continue;
            }
            if *share_bp > rest {
                self.leave_out(*entry, Why::LiftedTooMuch);
            }
            made.scenario.lifted.push(Lifted {
                date: date.naive(),
                layer: Some(position),
                share: Share::from_percent(f64::from(*share_bp) / 100.0),
                to: lift.body.label.as_str().to_owned(),
            });
        }
    }

    fn water(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        for line in view.water.iter().filter(|line| line.date.naive() <= until) {
            let date = line.date.naive();
            let depth = match (line.depth_mm, line.volume_ml) {
                (Some(mm), _) => Length::from_mm(f64::from(mm)),
                (None, Some(ml)) => {
                    Volume::from_litres(ml as f64 / 1000.0).depth_over(on_day(view, date)?.area)
                }
                (None, None) => {
                    self.leave_out(line.entry, Why::NoAmount);
                    continue;
                }
            };
            if !(0.0..=MOST_WATER_MM).contains(&depth.mm()) {
                self.leave_out(line.entry, Why::Impossible);
            } else if made.first.is_some_and(|first| date < first) {
                self.leave_out(line.entry, Why::BeforeFirst);
            } else {
                made.scenario.weather.water.push(Water { date, depth, under: line.under });
            }
        }
        Ok(())
    }

    fn leaves(&mut self, view: &PlaceView, until: NaiveDate, made: &mut Described) {
        for read in view.leaf_reads.iter().filter(|read| read.date.naive() <= until) {
            match read.body.nutrition_bp {
                Some(bp) => made.readings.push(Read::Leaf {
                    entry: read.entry,
                    date: read.date.naive(),
                    crop: read.body.crop,
                    nutrition: f64::from(bp) / 10_000.0,
                }),
                None => self.leave_out(read.entry, Why::NoFigure),
            }
        }
    }

    fn jars(&mut self, until: NaiveDate, made: &mut Described) -> Result<(), ActError> {
        let batches: BTreeSet<EntryId> = made.batches.iter().copied().collect();
        for id in batches {
            let Some(batch) = self.book.batch(id)? else { continue };
            for test in batch.draw_tests.iter().filter(|test| test.date.naive() <= until) {
                made.readings.push(Read::Jar {
                    entry: test.entry,
                    batch: id,
                    temperature_c: f64::from(test.body.temperature_centi_c) / 100.0,
                    dose_mg_litre: f64::from(test.body.dose_mg_l),
                    dry_g_per_litre: f64::from(test.body.dry_mg_l) / 1000.0,
                    index: f64::from(test.body.index_bp) / 10_000.0,
                });
            }
        }
        Ok(())
    }
}

/// The model takes its density and its carbon to nitrogen.
fn can_be(load: &Load) -> bool {
    let dry = load.wet_density.kg_m3() * (1.0 - load.moisture.fraction());
    (1.0..=3_000.0).contains(&dry)
        && load.carbon_nitrogen.is_none_or(|ratio| (1.0..=1e5).contains(&ratio))
        && (0.0..0.99).contains(&load.moisture.fraction())
}

/// A batch with the figures it had on a day.
pub(crate) fn as_on(batch: &BatchView, day: Date) -> BatchView {
    BatchView {
        moisture_bp: batch.moisture_bp_on(day),
        carbon_nitrogen_x100: batch.carbon_nitrogen_x100_on(day),
        wet_density_g_m3: batch.wet_density_g_m3_on(day),
        ..batch.clone()
    }
}

/// What becomes of a batch that was lifted.
enum FromElsewhere {
    /// As if it had never lain there; with its amount, where that follows.
    Fresh(Option<Amount>),
    /// With the state it had.
    Old(Taken, Option<Amount>),
    LeftOut(Why),
}

/// A working of the soil. A part of the place, worked to a depth, mixes that part of what the depth mixes.
pub(crate) fn working(date: NaiveDate, depth: Length, part: Option<Share>) -> Worked {
    let share = part.map(|part| Share::from_fraction((depth.mm() / MIXES_ALL_MM).min(1.0) * part.fraction()));
    Worked { date, depth, share }
}

/// The place as it was measured on a day.
fn on_day(view: &PlaceView, day: NaiveDate) -> Result<crate::scenario::Place, ActError> {
    let place = place_of(view);
    Ok(match view.measure_on(Date::of(day)?) {
        Some(measure) => crate::scenario::Place {
            area: Area::from_m2(measure.area_mm2 as f64 / 1e6),
            area_sd: Some(area_sd(measure)),
            rooting_depth: measure.rooting_depth_mm.map(|mm| Length::from_mm(f64::from(mm))),
            container: measure.container_ml.map(|ml| Volume::from_litres(ml as f64 / 1000.0)),
            ..place
        },
        None => place,
    })
}

/// How much was put down, as the entry has it: fingers or hands across where that is all that is known, else dry mass,
/// moist mass, then depth; moist mass first where the moisture was only judged. Masses go to the ground as it was measured that day.
fn amount(layer: &Layer, moist_first: bool, then: Area, now: Area) -> Option<Amount> {
    let covered = layer.area_mm2 as f64 / 1e6 / then.m2();
    if let Some((by, count)) = layer.laid_by.zip(layer.laid_x10) {
        return Some(Amount::Laid { by: LaidBy::said(by), count: f64::from(count) / 10.0 * covered });
    }
    let dry = layer.dry_g.map(|dry| Amount::DryPerArea(Mass::from_g(dry as f64).per(then)));
    let wet = layer.wet_g.map(|wet| Amount::Wet(Mass::from_g(wet as f64) * (now.m2() / then.m2())));
    if let Some(mass) = if moist_first { wet.or(dry) } else { dry.or(wet) } {
        return Some(mass);
    }
    layer.depth_mm.map(|mm| Amount::Depth(Length::from_mm(f64::from(mm)) * covered))
}

/// Whether a crop stands for years: a tree, a berry, a vine.
fn stays(view: &PlaceView, line: &CropLine, by_the_tree: bool) -> bool {
    let listed = match crop::find(line.crop.as_str()) {
        Match::Exact(found) => !matches!(found.life, Life::Annual),
        Match::Near(_) => false,
    };
    by_the_tree || listed || view.place_kind == kerfbook_ledger::kind::PlaceKind::Rings
}

/// A crop that stands for years, as one season that comes again.
///
/// Its season is as said where it ends within the year; else from bud break, when the usual year warms beyond 10 °C, for
/// as long as the windows of uptake take.
fn yearly(
    crop: Crop,
    said: Option<NaiveDate>,
    ended: Option<NaiveDate>,
    weather: &Weather,
    assumed: &mut Vec<Assumed>,
) -> Crop {
    let within_a_year = said.is_some_and(|end| (end - crop.started).num_days() < 365);
    if within_a_year && ended.is_none() {
        return Crop { again: Again::EveryYear { until: None }, ..crop };
    }
    let season = crop::PERENNIAL_WINDOWS.value.iter().map(|(_, to, _)| *to).fold(0.0, f64::max);
    let bud_break = book_weather::bud_break(&weather.month_mean_c, crop.started);
    assumed.push(Assumed::text("bud_break", bud_break.to_string()));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "days of a season")]
    let length = Days::new(season as u64);
    Crop {
        started: bud_break,
        ended: bud_break + length,
        again: Again::EveryYear { until: ended },
        fate: Fate::CarriedOff,
        ..crop
    }
}
