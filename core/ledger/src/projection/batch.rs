//! A batch: where it comes from, what was measured of it, where it went, and what is left.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::current::{Current, Flag, Standing};
use super::fold::about;
use super::graph::Entries;
use super::view::{Flagged, Said, carries, flagged};
use crate::entry::field::{Label, codes, record};
use crate::entry::id::{Date, EntryId};
use crate::entry::kind::{
    Age, Answer, BatchBlended, BatchRecounted, BatchTested, Body, DrawTested, Handful, LoadTakenIn, Part,
    Particle, Pieces, PileBuilt, PutDown, Smell, Storage, Wood,
};
use crate::error::Result;

codes! {
    /// What opened a batch.
    Origin, "origin of a batch" {
        /// A load was taken in.
        Load = 1, "load";
        /// Batches were mixed.
        Blend = 2, "blend";
        /// A layer was lifted.
        Layer = 3, "layer";
        /// A pile was finished.
        Pile = 4, "pile";
    }
}

record! {
    /// Where part of a batch went.
    Use {
        /// The putting down, or the blend or pile that took it.
        entry: EntryId,
        /// When.
        date: Date,
        /// Minute of the day, where known.
        minute: Option<u16>,
        /// The place; none where a blend or a pile took it.
        place: Option<EntryId>,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Volume in containers, mL.
        volume_ml: Option<u64>,
    }
}

record! {
    /// A batch and what is left of it.
    BatchView {
        /// The entry that opened it.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// When it came.
        date: Date,
        /// What opened it.
        origin: Origin,
        /// Name in the table of materials; of a lifted layer, that of the batch it was put down from, or its own label
        /// where that is not known.
        material: Label,
        /// Class in the nitrogen model.
        model_class: Option<Label>,
        /// Size of pieces.
        particle: Option<Particle>,
        /// Mass as it came, g; of a blend, that of its parts where it was not weighed itself.
        wet_g: Option<u64>,
        /// Volume as it came, mL.
        volume_ml: Option<u64>,
        /// Water by mass as it came, 0.01 %. See [`BatchView::moisture_bp_on`].
        moisture_bp: Option<u32>,
        /// Half-width of what that may be, 0.01 %. See [`BatchView::moisture_half_bp_on`].
        moisture_half_bp: Option<u32>,
        /// Carbon to nitrogen as it came, x 100. See [`BatchView::carbon_nitrogen_x100_on`].
        carbon_nitrogen_x100: Option<u32>,
        /// Loose bulk density as it came, g/m3. See [`BatchView::wet_density_g_m3_on`].
        wet_density_g_m3: Option<u32>,
        /// What a blend was mixed from.
        parts: Vec<Part>,
        /// The layer that was lifted.
        layer: Option<EntryId>,
        /// The place it was lifted from.
        lifted_from: Option<EntryId>,
        /// Part of that layer, 0.01 %.
        share_bp: Option<u32>,
        /// The pile that it was.
        pile: Option<EntryId>,
        /// Nitrogen that a crop can use in the first year, of all in it, 0.01 %; of a finished pile.
        supply_bp: Option<u32>,
        /// How the figures of a finished pile stand.
        standing: Option<Label>,
        /// The loads that it is made of in the end.
        loads: Vec<EntryId>,
        /// Treated, painted or glued wood in any of those loads.
        treated: Answer,
        /// Anything from diseased plants in them.
        diseased: Answer,
        /// Anything from logs that floated in salt water in them.
        salty: Answer,
        /// Bedding with medicines, or weedkillers, in them.
        medicated: Answer,
        /// When it was cut.
        cut: Option<Date>,
        /// What kind of place it comes from.
        source: Option<Label>,
        /// Price paid, hundredths of the currency.
        cost_hundredths: Option<u64>,
        /// Currency.
        currency: Option<Label>,
        /// Way it was hauled, m.
        haul_m: Option<u32>,
        /// Work of fetching and unloading, minutes.
        minutes: Option<u32>,
        /// How it is kept.
        stored: Option<Storage>,
        /// What wood it is, as answered.
        wood: Option<Wood>,
        /// What a handful rubbed was like; of a lifted layer, that of its batch.
        pieces: Option<Pieces>,
        /// What a handful squeezed was like as it came.
        handful: Option<Handful>,
        /// How old it looked as it came. See [`BatchView::age_on`].
        age: Option<Age>,
        /// What it smelled of as it came.
        smell: Option<Smell>,
        /// What was measured of it.
        tests: Vec<Said<BatchTested>>,
        /// Draw tests.
        draw_tests: Vec<Said<DrawTested>>,
        /// Counts of what is there.
        recounts: Vec<Said<BatchRecounted>>,
        /// Whether it smells sour: the last that was said about it.
        sour: Option<Answer>,
        /// Where it went.
        uses: Vec<Use>,
        /// Mass left, g: what came, or what was counted last, less what went since. Negative where more went than
        /// was there. None where neither load nor count has a mass.
        left_g: Option<i64>,
        /// Volume left, mL; likewise.
        left_ml: Option<i64>,
        /// Uses since whose mass is not known and that the mass left does not include.
        unweighed: u32,
        /// Uses since whose volume is not known and that the volume left does not include.
        unmeasured: u32,
        /// Entries about it that carry a flag, the batch's own included.
        flagged: Vec<Flagged>,
    }
}

impl BatchView {
    /// More went than was there: something was entered wrongly, and a count would settle it.
    pub fn overdrawn(&self) -> bool {
        self.left_g.is_some_and(i64::is_negative) || self.left_ml.is_some_and(i64::is_negative)
    }

    /// Withdrawn: not to be used.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }

    /// Water by mass on a day, 0.01 %: as tested last until then, or as it came.
    pub fn moisture_bp_on(&self, day: Date) -> Option<u32> {
        self.tested_on(day, |test| test.moisture_bp).or(self.moisture_bp)
    }

    /// Half-width of what the water by mass on a day may be, 0.01 %; none where nothing was said of it.
    pub fn moisture_half_bp_on(&self, day: Date) -> Option<u32> {
        let tested = self.tested_on(day, |test| test.moisture_bp.map(|_| test.moisture_half_bp));
        tested.unwrap_or(self.moisture_half_bp)
    }

    /// How old it looked: the last that was said until a day, or as it came.
    pub fn age_on(&self, day: Date) -> Option<Age> {
        self.tested_on(day, |test| test.age).or(self.age)
    }

    /// Carbon to nitrogen on a day, x 100.
    pub fn carbon_nitrogen_x100_on(&self, day: Date) -> Option<u32> {
        self.tested_on(day, |test| test.carbon_nitrogen_x100).or(self.carbon_nitrogen_x100)
    }

    /// Loose bulk density on a day, g/m3.
    pub fn wet_density_g_m3_on(&self, day: Date) -> Option<u32> {
        self.tested_on(day, |test| test.wet_density_g_m3).or(self.wet_density_g_m3)
    }

    /// Standard deviation of that density as part of it, 0.01 %, where its test says one.
    pub fn wet_density_sd_bp_on(&self, day: Date) -> Option<u32> {
        let by =
            self.tests.iter().rev().find(|test| test.date <= day && test.body.wet_density_g_m3.is_some());
        by.and_then(|test| test.body.wet_density_sd_bp)
    }

    fn tested_on<T>(&self, day: Date, figure: impl Fn(&BatchTested) -> Option<T>) -> Option<T> {
        self.tests.iter().rev().filter(|test| test.date <= day).find_map(|test| figure(&test.body))
    }
}

/// Folds a batch; none where the entry opens none.
pub(super) fn batch<E: Entries>(
    entries: &E,
    standing: &Standing<'_, E>,
    opening: &Current,
) -> Result<Option<BatchView>> {
    let id = opening.original.id;
    let Some(mut view) = as_it_came(standing, opening)? else { return Ok(None) };
    view.flagged.extend(flagged(opening));
    for current in about(entries, standing, id)? {
        let (about_it, mut named) = (current.subject == Some(id), false);
        match &current.body {
            Body::PutDown(put) if put.batch == id => {
                named = true;
                if current.counts() {
                    view.uses.push(put_down(&current, put));
                }
            }
            Body::BatchBlended(BatchBlended { parts, .. }) | Body::PileBuilt(PileBuilt { parts, .. }) => {
                for part in parts.iter().filter(|part| part.batch == id) {
                    named = true;
                    if current.counts() {
                        view.uses.push(blended(&current, part));
                    }
                }
            }
            body if about_it && current.counts() => add(&mut view, &current, body),
            _ => {}
        }
        if about_it || named {
            view.flagged.extend(flagged(&current));
        }
    }
    let mass = Balance::of(view.wet_g, &view, |count| count.wet_g, |part| part.wet_g);
    let volume = Balance::of(view.volume_ml, &view, |count| count.volume_ml, |part| part.volume_ml);
    (view.left_g, view.unweighed) = (mass.left, mass.unknown);
    (view.left_ml, view.unmeasured) = (volume.left, volume.unknown);
    Ok(Some(view))
}

fn add(view: &mut BatchView, current: &Current, body: &Body) {
    match body {
        Body::BatchTested(test) => {
            view.sour = test.sour.or(view.sour);
            view.tests.push(Said::of(current, test));
        }
        Body::DrawTested(test) => view.draw_tests.push(Said::of(current, test)),
        Body::BatchRecounted(count) => view.recounts.push(Said::of(current, count)),
        _ => {}
    }
}

fn put_down(current: &Current, put: &PutDown) -> Use {
    Use {
        entry: current.original.id,
        date: current.date,
        minute: current.minute,
        place: current.subject,
        wet_g: put.wet_g,
        volume_ml: put
            .containers
            .zip(put.container_ml)
            .map(|(count, each)| u64::from(count).saturating_mul(each)),
    }
}

fn blended(current: &Current, part: &Part) -> Use {
    Use {
        entry: current.original.id,
        date: current.date,
        minute: current.minute,
        place: None,
        wet_g: part.wet_g,
        volume_ml: part.volume_ml,
    }
}

/// What is left in one measure.
struct Balance {
    left: Option<i64>,
    /// Uses whose figure is not known.
    unknown: u32,
}

impl Balance {
    /// From what came, the counts and the uses of a batch.
    fn of(
        came: Option<u64>,
        view: &BatchView,
        counted: impl Fn(&BatchRecounted) -> Option<u64>,
        used: impl Fn(&Use) -> Option<u64>,
    ) -> Self {
        // A count without a minute stands for the evening of its day, a use without one for the morning: a use
        // goes off the count only where it is known to come after.
        let last = view
            .recounts
            .iter()
            .filter_map(|count| Some((count.date, count.minute.unwrap_or(u16::MAX), counted(&count.body)?)))
            .max_by_key(|(date, minute, _)| (*date, *minute));
        let since = view.uses.iter().filter(|part| {
            last.is_none_or(|(date, minute, _)| (part.date, part.minute.unwrap_or(0)) > (date, minute))
        });
        let (mut went, mut unknown) = (0_u64, 0_u32);
        for figure in since.map(used) {
            match figure {
                Some(figure) => went = went.saturating_add(figure),
                None => unknown = unknown.saturating_add(1),
            }
        }
        let was = last.map(|(_, _, amount)| amount).or(came);
        let left = was.map(|was| i64::try_from(was).unwrap_or(i64::MAX).saturating_sub_unsigned(went));
        Self { left, unknown }
    }
}

/// The batch without what came after its opening; none where the entry opens none.
fn as_it_came<E: Entries>(standing: &Standing<'_, E>, opening: &Current) -> Result<Option<BatchView>> {
    let mut view = match &opening.body {
        Body::LoadTakenIn(load) => BatchView {
            model_class: load.model_class.clone(),
            particle: load.particle,
            wet_g: load.wet_g,
            volume_ml: load.volume_ml,
            moisture_bp: load.moisture_bp,
            moisture_half_bp: load.moisture_half_bp,
            carbon_nitrogen_x100: load.carbon_nitrogen_x100,
            wet_density_g_m3: load.wet_density_g_m3,
            cut: load.cut,
            source: load.source.clone(),
            cost_hundredths: load.cost_hundredths,
            currency: load.currency.clone(),
            haul_m: load.haul_m,
            minutes: load.minutes,
            stored: load.stored,
            wood: load.wood,
            pieces: load.pieces,
            handful: load.handful,
            age: load.age,
            smell: load.smell,
            ..blank(opening, &load.label, Origin::Load, &load.material)
        },
        Body::BatchBlended(blend) => BatchView {
            particle: blend.particle,
            wet_g: blend.wet_g.or_else(|| together(&blend.parts)),
            volume_ml: blend.volume_ml,
            moisture_bp: blend.moisture_bp,
            carbon_nitrogen_x100: blend.carbon_nitrogen_x100,
            parts: blend.parts.clone(),
            ..blank(opening, &blend.label, Origin::Blend, &blend.material)
        },
        Body::LayerLifted(lift) => BatchView {
            wet_g: lift.wet_g,
            volume_ml: lift.volume_ml,
            moisture_bp: lift.moisture_bp,
            layer: Some(lift.layer),
            lifted_from: opening.subject,
            share_bp: Some(lift.share_bp),
            ..blank(opening, &lift.label, Origin::Layer, &lift.label)
        },
        Body::PileFinished(end) => BatchView {
            wet_g: end.wet_g,
            volume_ml: end.volume_ml,
            moisture_bp: end.moisture_bp,
            carbon_nitrogen_x100: end.carbon_nitrogen_x100,
            pile: Some(end.pile),
            supply_bp: end.supply_bp,
            standing: end.standing.clone(),
            ..blank(opening, &end.label, Origin::Pile, &end.material)
        },
        _ => return Ok(None),
    };
    let ancestors = ancestors(standing, opening)?;
    if view.origin == Origin::Layer
        && let Some(first) = ancestors.iter().find(|one| !matches!(one.body, Body::LayerLifted(_)))
    {
        match &first.body {
            Body::LoadTakenIn(load) => {
                view.material = load.material.clone();
                view.model_class.clone_from(&load.model_class);
                view.particle = load.particle;
                view.wood = load.wood;
                view.pieces = load.pieces;
            }
            Body::BatchBlended(blend) => {
                view.material = blend.material.clone();
                view.particle = blend.particle;
            }
            Body::PileFinished(end) => view.material = end.material.clone(),
            _ => {}
        }
    }
    let loads: Vec<(EntryId, &LoadTakenIn)> = ancestors
        .iter()
        .filter_map(|one| match &one.body {
            Body::LoadTakenIn(load) => Some((one.original.id, load)),
            _ => None,
        })
        .collect();
    view.loads = loads.iter().map(|(id, _)| *id).collect();
    view.loads.sort_unstable();
    let any = |answer: fn(&LoadTakenIn) -> Answer| worst(loads.iter().map(|(_, load)| answer(load)));
    view.treated = any(|load| load.treated);
    view.diseased = any(|load| load.diseased);
    view.salty = any(|load| load.salty);
    view.medicated = any(|load| load.medicated);
    Ok(Some(view))
}

/// Mass of all parts; none where one is not known or there are none.
fn together(parts: &[Part]) -> Option<u64> {
    let masses: Option<Vec<u64>> = parts.iter().map(|part| part.wet_g).collect();
    masses?.into_iter().reduce(u64::saturating_add)
}

/// Yes where one is; else unknown where one is or none is known at all; else no.
fn worst(answers: impl Iterator<Item = Answer>) -> Answer {
    let answers: BTreeSet<Answer> = answers.collect();
    if answers.contains(&Answer::Yes) {
        Answer::Yes
    } else if answers.contains(&Answer::Unknown) || answers.is_empty() {
        Answer::Unknown
    } else {
        Answer::No
    }
}

/// The openings of the batches that a batch is made of, its own first, each once.
fn ancestors<E: Entries>(standing: &Standing<'_, E>, opening: &Current) -> Result<Vec<Rc<Current>>> {
    let mut found = Vec::new();
    let mut met = BTreeSet::new();
    let mut open = vec![opening.original.id];
    while let Some(id) = open.pop() {
        if !met.insert(id) {
            continue;
        }
        let Some(current) = standing.changed(id)? else { continue };
        match &current.body {
            Body::LayerLifted(lift) => open.push(lift.layer),
            Body::PutDown(put) => {
                open.push(put.batch);
                continue;
            }
            Body::BatchBlended(blend) => open.extend(blend.parts.iter().rev().map(|part| part.batch)),
            Body::PileFinished(end) => open.push(end.pile),
            Body::PileBuilt(pile) => {
                open.extend(pile.parts.iter().rev().map(|part| part.batch));
                continue;
            }
            Body::LoadTakenIn(_) => {}
            _ => continue,
        }
        found.push(current);
    }
    Ok(found)
}

fn blank(opening: &Current, label: &Label, origin: Origin, material: &Label) -> BatchView {
    BatchView {
        id: opening.original.id,
        label: label.clone(),
        date: opening.date,
        origin,
        material: material.clone(),
        model_class: None,
        particle: None,
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
        moisture_half_bp: None,
        carbon_nitrogen_x100: None,
        wet_density_g_m3: None,
        parts: Vec::new(),
        layer: None,
        lifted_from: None,
        share_bp: None,
        pile: None,
        supply_bp: None,
        standing: None,
        loads: Vec::new(),
        treated: Answer::Unknown,
        diseased: Answer::Unknown,
        salty: Answer::Unknown,
        medicated: Answer::Unknown,
        cut: None,
        source: None,
        cost_hundredths: None,
        currency: None,
        haul_m: None,
        minutes: None,
        stored: None,
        wood: None,
        pieces: None,
        handful: None,
        age: None,
        smell: None,
        tests: Vec::new(),
        draw_tests: Vec::new(),
        recounts: Vec::new(),
        sour: None,
        uses: Vec::new(),
        left_g: None,
        left_ml: None,
        unweighed: 0,
        unmeasured: 0,
        flagged: Vec::new(),
    }
}
