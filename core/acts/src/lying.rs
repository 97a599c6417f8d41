//! What lies on a place on a day: how deep, how old, and when it wants topping up.
//!
//! Depth goes by published practice (settling, loss a year) and by what was probed, never by the nitrogen model, whose
//! mulch hardly sinks.

use chrono::{Days, NaiveDate};
use kerfbook_ledger::kind::{DepthProbed, Way as EntryWay};
use kerfbook_ledger::projection::place::Layer;
use kerfbook_ledger::{Book, EntryId, PlaceView, Said};
use kerfbook_science::material::{self, Found, Kind};
use kerfbook_science::mulch::{self, PROBE_DEVIATION_MM, Purpose, SETTLING_DAYS, Span};
use kerfbook_science::plain::{self, LaidBy};
use kerfbook_science::source::Source;
use kerfbook_science::units::{Area, Length, Mass};

use crate::book_place::as_on;
use crate::error::ActError;
use crate::in_words::InWords;
use crate::load::Load;
use crate::place_scenario::{place_of, put_down_of};
use crate::put_down::way_of;
use crate::scenario::{Amount, Containers, Particle, Place};
use crate::take_in_load::particle_of;

/// Years that are looked ahead for a top-up.
const YEARS_AHEAD: u32 = 10;
/// Days of a year.
const YEAR: f64 = 365.0;

/// Low, likely and high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<T> {
    /// Low end.
    pub low: T,
    /// Likely.
    pub typical: T,
    /// High end.
    pub high: T,
}

/// One layer that lies there.
#[derive(Debug, Clone, PartialEq)]
pub struct LyingLayer {
    /// The putting-down.
    pub entry: EntryId,
    /// Its batch.
    pub batch: EntryId,
    /// Days since it was laid; material that had lain elsewhere before is older.
    pub age_days: u32,
    /// Its part of the depth.
    pub depth: Range<Length>,
    /// Depth as it was laid, loose.
    pub laid: Length,
    /// Part of it that was neither lifted nor dug in.
    pub share: f64,
    /// Last working of the soil that reached it.
    pub dug_in: Option<NaiveDate>,
}

/// When the depth falls under what is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TopUp {
    /// Where it sinks fast; the day asked about where it is too thin already.
    pub earliest: NaiveDate,
    /// Likely; none within ten years.
    pub likely: Option<NaiveDate>,
    /// Where it sinks slowly.
    pub latest: Option<NaiveDate>,
}

/// What lies on a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Lying {
    /// Layers, oldest first.
    pub layers: Vec<LyingLayer>,
    /// Depth of all together.
    pub depth: Range<Length>,
    /// Loss of depth a year, mm, weighed by what lies there; none where nothing does.
    pub loss_mm_year: Option<Span>,
    /// What it lies there for.
    pub purpose: Purpose,
    /// Depth wanted.
    pub wanted: Length,
    /// Where that comes from; none where the person said it.
    pub wanted_source: Option<Source>,
    /// When to top up; none where nothing lies there.
    pub top_up: Option<TopUp>,
    /// It is likely too thin already.
    pub thin: bool,
    /// The last probe that counts.
    pub probed: Option<NaiveDate>,
}

/// Works out what lies on a place on a day. `wanted` is the depth the person wants; else it goes by purpose.
///
/// # Errors
/// A place that is not there, or a book that cannot be read.
pub fn lying(book: &Book, place: EntryId, on: NaiveDate, wanted: Option<Length>) -> Result<Lying, ActError> {
    let view = book.place(place)?.ok_or(ActError::NotThere { what: "place" })?;
    let mut heap = Heap::default();
    for event in events(&view, on) {
        heap.until(event.date());
        match event {
            Happened::Laid(layer) => {
                if let Some(laid) = Laid::of(book, &view, layer)? {
                    heap.layers.push(laid);
                }
            }
            Happened::Worked(date, share) => heap.worked(date, share),
            Happened::Lifted(_, layer, share) => heap.lifted(layer, share),
            Happened::Probed(probe) => heap.probed(probe),
        }
    }
    heap.until(on);
    let purpose = purpose(&view, &heap);
    let least = mulch::least_depth(purpose);
    let wanted_mm = wanted.unwrap_or(least.value).mm();
    let depth = heap.depth();
    let there = depth.high > 0.0;
    Ok(Lying {
        loss_mm_year: heap.loss(),
        purpose,
        wanted: wanted.unwrap_or(least.value),
        wanted_source: wanted.is_none().then_some(least.source),
        top_up: there.then(|| heap.top_up(on, wanted_mm)).flatten(),
        thin: there && depth.typical < wanted_mm,
        probed: heap.probed,
        depth: lengths(depth),
        layers: heap.layers.iter().filter(|layer| layer.lies()).map(|layer| layer.told(on)).collect(),
    })
}

fn lengths(range: Range<f64>) -> Range<Length> {
    Range {
        low: Length::from_mm(range.low),
        typical: Length::from_mm(range.typical),
        high: Length::from_mm(range.high),
    }
}

/// Something that changed what lies there.
enum Happened<'a> {
    Laid(&'a Layer),
    Worked(NaiveDate, f64),
    Lifted(NaiveDate, EntryId, f64),
    Probed(&'a Said<DepthProbed>),
}

impl Happened<'_> {
    fn date(&self) -> NaiveDate {
        match self {
            Self::Laid(layer) => layer.date.naive(),
            Self::Worked(date, _) | Self::Lifted(date, ..) => *date,
            Self::Probed(probe) => probe.date.naive(),
        }
    }

    /// Of one day: lifted, worked, laid, probed, as in the model's order of a day.
    fn order(&self) -> u8 {
        match self {
            Self::Lifted(..) => 0,
            Self::Worked(..) => 1,
            Self::Laid(_) => 2,
            Self::Probed(..) => 3,
        }
    }
}

/// All that happened until a day, in order.
fn events(view: &PlaceView, on: NaiveDate) -> Vec<Happened<'_>> {
    let on_soil = |layer: &&Layer| !matches!(layer.way, EntryWay::WorkedIn | EntryWay::CompostedFirst);
    let mut all: Vec<Happened<'_>> = view.layers.iter().filter(on_soil).map(Happened::Laid).collect();
    let grows = crate::site::grows(view.place_kind.into());
    for work in view.worked.iter().filter(|_| grows) {
        let depth = Length::from_mm(f64::from(work.body.depth_mm));
        let part = work.body.share_bp.map_or(1.0, |bp| f64::from(bp) / 10_000.0);
        all.push(Happened::Worked(work.date.naive(), mixed_in(depth) * part));
    }
    for lift in &view.lifted {
        let share = f64::from(lift.body.share_bp) / 10_000.0;
        all.push(Happened::Lifted(lift.date.naive(), lift.body.layer, share));
    }
    for probe in view.probes.iter().filter(|probe| !probe.body.depths_mm.is_empty()) {
        all.push(Happened::Probed(probe));
    }
    all.retain(|event| event.date() <= on);
    all.sort_by_key(|event| (event.date(), event.order()));
    all
}

/// Part of what lies on the soil that working to a depth mixes in: all from 10 cm, as in the nitrogen model.
fn mixed_in(depth: Length) -> f64 {
    (depth.mm() / 100.0).min(1.0)
}

/// A layer as it lies: low, likely and high side by side.
struct Laid {
    entry: EntryId,
    batch: EntryId,
    since: NaiveDate,
    particle: Particle,
    way: EntryWay,
    loss: Span,
    /// Loose depth as laid, mm.
    loose: f64,
    /// Depth now, mm: where it sinks fast, likely, slowly.
    now: [f64; 3],
    /// Part of what was put down that was lifted.
    lifted: f64,
    share: f64,
    dug_in: Option<NaiveDate>,
    /// Settled as far as it will, or probed since: it does not settle again.
    settles: bool,
}

impl Laid {
    /// A layer as it was laid; none where nothing says how much.
    fn of(book: &Book, view: &PlaceView, layer: &Layer) -> Result<Option<Self>, ActError> {
        let Some(batch) = book.batch(layer.batch)? else { return Ok(None) };
        let Found::Material(material) = material::find(batch.material.as_str()) else { return Ok(None) };
        let date = layer.date.naive();
        let area = Area::from_m2(layer.area_mm2 as f64 / 1e6);
        // What was measured on the spot counts before what follows from a mass.
        let amount = match (layer.depth_mm, layer.wet_g, layer.dry_g) {
            (Some(mm), ..) => Amount::Depth(Length::from_mm(f64::from(mm))),
            (None, Some(grams), _) => Amount::Wet(Mass::from_g(grams as f64)),
            (None, None, Some(grams)) => Amount::DryPerArea(Mass::from_g(grams as f64).per(area)),
            (None, None, None) => return Ok(None),
        };
        let ground = Place { area, ..place_of(view) };
        let put = put_down_of(&as_on(&batch, layer.date), way_of(layer.way), amount, date);
        let Ok(load) = Load::of(&put, &ground, &Containers::usual(), &mut Vec::new()) else {
            return Ok(None);
        };
        let loose = load.depth.mm();
        let particle = batch.particle.map_or(material.particle, particle_of);
        let settled = mulch::settled_share(particle);
        // Lifted material has settled before; loose again, it settles anew.
        Ok(Some(Self {
            entry: layer.entry,
            batch: layer.batch,
            since: date,
            particle,
            way: layer.way,
            loss: mulch::yearly_loss_mm(particle, material.kind == Kind::Bark),
            loose,
            now: [loose * settled.low, loose * settled.typical, loose * settled.high],
            lifted: 0.0,
            share: 1.0,
            dug_in: None,
            settles: true,
        }))
    }

    fn lies(&self) -> bool {
        self.share > 0.0 && self.now[2] > 0.0
    }

    /// Depth on a day, with what has not settled yet.
    fn depth(&self, on: NaiveDate) -> [f64; 3] {
        let age = (on - self.since).num_days() as f64;
        let fluffy = if self.settles { (1.0 - age / SETTLING_DAYS.value).clamp(0.0, 1.0) } else { 0.0 };
        let settled = mulch::settled_share(self.particle);
        let shares = [settled.low, settled.typical, settled.high];
        let mut depth = self.now;
        for (mm, share) in depth.iter_mut().zip(shares) {
            // On its way from loose to settled.
            *mm *= 1.0 + (1.0 / share - 1.0) * fluffy;
        }
        depth
    }

    fn scale(&mut self, factor: f64) {
        self.share *= factor;
        for mm in &mut self.now {
            *mm *= factor;
        }
    }

    fn told(&self, on: NaiveDate) -> LyingLayer {
        let [low, typical, high] = self.depth(on);
        LyingLayer {
            entry: self.entry,
            batch: self.batch,
            age_days: u32::try_from((on - self.since).num_days()).unwrap_or(0),
            depth: lengths(Range { low, typical, high }),
            laid: Length::from_mm(self.loose),
            share: self.share,
            dug_in: self.dug_in,
        }
    }
}

/// Everything that lies on the soil.
#[derive(Default)]
struct Heap {
    layers: Vec<Laid>,
    day: Option<NaiveDate>,
    probed: Option<NaiveDate>,
}

impl Heap {
    /// Loses depth until a day. What lies there loses as one mulch, each layer its part: the loss is of the whole, at its
    /// bottom and over all its age.
    fn until(&mut self, date: NaiveDate) {
        let days = self.day.map_or(0, |day| (date - day).num_days()).max(0) as f64;
        self.day = Some(self.day.map_or(date, |day| day.max(date)));
        for case in 0..3 {
            let whole: f64 = self.layers.iter().map(|layer| layer.now[case]).sum();
            if whole <= 0.0 {
                continue;
            }
            let rate: f64 =
                self.layers.iter().map(|layer| layer.now[case] * rate(&layer.loss, case)).sum::<f64>()
                    / whole;
            let kept = (1.0 - rate * days / YEAR / whole).max(0.0);
            for layer in &mut self.layers {
                layer.now[case] *= kept;
            }
        }
    }

    fn worked(&mut self, date: NaiveDate, share: f64) {
        for layer in self.layers.iter_mut().filter(|layer| layer.since < date && layer.lies()) {
            layer.scale((1.0 - share).max(0.0));
            if share > 0.0 {
                layer.dug_in = Some(date);
            }
        }
    }

    /// A share is of what was put down.
    fn lifted(&mut self, entry: EntryId, share: f64) {
        if let Some(layer) = self.layers.iter_mut().find(|layer| layer.entry == entry) {
            let left = 1.0 - layer.lifted;
            let factor = if left > share { 1.0 - share / left } else { 0.0 };
            layer.lifted += share;
            layer.scale(factor);
        }
    }

    /// A probe sets the depth: its mean, and a range from how far its points lie apart and how well a depth is read. A
    /// finger is as wide at every point: what it may be off does not go away by measuring more.
    fn probed(&mut self, probe: &Said<DepthProbed>) {
        /// Nine in ten of a normal distribution lie within so many deviations.
        const Z90: f64 = 1.645;
        let (date, of, depths) = (probe.date.naive(), probe.body.layer, &probe.body.depths_mm);
        let count = depths.len() as f64;
        let mean = depths.iter().map(|mm| f64::from(*mm)).sum::<f64>() / count;
        let spread: f64 = depths.iter().map(|mm| (f64::from(*mm) - mean) * (f64::from(*mm) - mean)).sum();
        let deviation = if depths.len() > 1 { (spread / (count - 1.0)).sqrt() } else { 0.0 };
        let deviation = deviation.max(PROBE_DEVIATION_MM.value) / count.sqrt();
        let width = probe.body.laid_by.map_or(0.0, |by| LaidBy::said(by).width_mm().log_spread());
        let deviation = plain::together(deviation, mean * width);
        let measured = [(mean - Z90 * deviation).max(0.0), mean, mean + Z90 * deviation];
        let here = |layer: &&mut Laid| of.is_none_or(|entry| layer.entry == entry) && layer.share > 0.0;
        let whole: f64 = self.layers.iter_mut().filter(here).map(|layer| layer.depth(date)[1]).sum();
        let count = self.layers.iter_mut().filter(here).count();
        for layer in self.layers.iter_mut().filter(here) {
            let part = if whole > 0.0 { layer.depth(date)[1] / whole } else { 1.0 / count as f64 };
            layer.now = measured.map(|mm| mm * part);
            layer.settles = false;
        }
        if count > 0 {
            self.probed = Some(date);
        }
    }

    fn depth(&self) -> Range<f64> {
        let on = self.day.unwrap_or_default();
        let mut sum = [0.0; 3];
        for layer in &self.layers {
            for (to, mm) in sum.iter_mut().zip(layer.depth(on)) {
                *to += mm;
            }
        }
        Range { low: sum[0], typical: sum[1], high: sum[2] }
    }

    /// Loss a year, weighed by depth; its source is that of the layer that makes up most.
    fn loss(&self) -> Option<Span> {
        let most =
            self.layers.iter().filter(|layer| layer.lies()).max_by(|a, b| a.now[1].total_cmp(&b.now[1]))?;
        let whole: f64 = self.layers.iter().map(|layer| layer.now[1]).sum();
        let mean = |of: fn(&Span) -> f64| {
            if whole > 0.0 {
                self.layers.iter().map(|layer| layer.now[1] * of(&layer.loss)).sum::<f64>() / whole
            } else {
                of(&most.loss)
            }
        };
        Some(Span {
            low: mean(|span| span.low),
            typical: mean(|span| span.typical),
            high: mean(|span| span.high),
            source: most.loss.source,
        })
    }

    /// First day on which the depth is under what is wanted, in each case; none where even the thinnest lasts.
    fn top_up(&self, on: NaiveDate, wanted_mm: f64) -> Option<TopUp> {
        let when = |case: usize| {
            let whole: f64 = self.layers.iter().map(|layer| layer.now[case]).sum();
            // Settling goes on for a while; what counts is the settled depth.
            let rate: f64 = if whole > 0.0 {
                self.layers.iter().map(|layer| layer.now[case] * rate(&layer.loss, case)).sum::<f64>() / whole
            } else {
                0.0
            };
            if whole < wanted_mm {
                return Some(on);
            }
            let years = if rate > 0.0 { (whole - wanted_mm) / rate } else { f64::INFINITY };
            if years > f64::from(YEARS_AHEAD) {
                return None;
            }
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "days of ten years")]
            let days = (years * YEAR).ceil() as u64;
            on.checked_add_days(Days::new(days))
        };
        Some(TopUp { earliest: when(0)?, likely: when(1), latest: when(2) })
    }
}

/// Loss a year where it sinks fast, likely, slowly.
fn rate(loss: &Span, case: usize) -> f64 {
    match case {
        0 => loss.high,
        1 => loss.typical,
        _ => loss.low,
    }
}

fn purpose(view: &PlaceView, heap: &Heap) -> Purpose {
    use kerfbook_ledger::kind::PlaceKind;
    let way = heap.layers.iter().rev().find(|layer| layer.lies()).map(|layer| layer.way);
    match (view.place_kind, way) {
        (PlaceKind::Path | PlaceKind::Yard, _) | (_, Some(EntryWay::Path)) => Purpose::Path,
        (PlaceKind::Rings, _) | (_, Some(EntryWay::Ring)) => Purpose::Ring,
        _ => Purpose::Weeds,
    }
}
