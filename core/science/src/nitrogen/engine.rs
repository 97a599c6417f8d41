//! One block of runs through all days of a stage: the day of the specification, step by step.
//!
//! Every loop over `l` runs over the lanes of the block and has no branch that depends on a lane, so the
//! compiler turns it into vector code; `L` = 1 is the median run, by the same lines.

use super::batch::Properties;
use super::drivers::{
    Act, BARE_EVAPORATION, Course, CropDays, Day, Dose, DoseAmount, MOIST, MONTH_DAYS, WATERED_SHARE,
    dose_of_layer,
};
use super::input::{LayerWay, Placement, PutDown};
use super::lanes::{Lanes, TINY, exp, least, little_gone, most, share_gone, trace_gone};
use super::parameter::Global;
use super::sampling::triangular;

/// The parameters of the place, by index, a lane for each run.
pub(super) type Globals<const L: usize> = [Lanes<L>; Global::COUNT];

const BODY: usize = 0;
const CONTACT: usize = 1;
const SOIL: usize = 2;

/// Depth of mulch that counts as a cover for rain, mm.
const COVERING_MM: f64 = 1.0;
/// Share of the seam that reaches the soil in a day without water; assumption.
const SEAM_LEAK: f64 = 0.03;
/// A crop is hungry below this part of its need, once that is 1 kg/ha: assumption after the critical dilution
/// of nitrogen, where 0.9 is the usual threshold.
const ENOUGH: f64 = 0.9;
const LEAST_NEED: f64 = 1.0;

/// The pools of one layer in one slot.
#[derive(Debug, Clone)]
pub(super) struct Pools<const L: usize> {
    /// Accessible carbon, lignin-bound carbon, decomposer carbon, decomposer nitrogen, humus carbon.
    pub(super) fast: Lanes<L>,
    pub(super) slow: Lanes<L>,
    pub(super) life: Lanes<L>,
    pub(super) life_nitrogen: Lanes<L>,
    pub(super) humus: Lanes<L>,
}

impl<const L: usize> Pools<L> {
    const EMPTY: Self =
        Self { fast: [0.0; L], slow: [0.0; L], life: [0.0; L], life_nitrogen: [0.0; L], humus: [0.0; L] };

    fn all(&mut self) -> [&mut Lanes<L>; 5] {
        [&mut self.fast, &mut self.slow, &mut self.life, &mut self.life_nitrogen, &mut self.humus]
    }

    #[inline(always)]
    fn carbon(&self, l: usize) -> f64 {
        self.fast[l] + self.slow[l] + self.life[l] + self.humus[l]
    }

    #[inline(always)]
    fn nitrogen(&self, l: usize, per_residue: f64, per_humus: f64) -> f64 {
        (self.fast[l] + self.slow[l]) * per_residue + self.life_nitrogen[l] + self.humus[l] * per_humus
    }

    /// Moves a share, lane by lane, into other pools.
    #[inline(always)]
    fn shift(&mut self, to: &mut Self, share: &Lanes<L>) {
        for (from, to) in self.all().into_iter().zip(to.all()) {
            for l in 0..L {
                let moved = share[l] * from[l];
                to[l] += moved;
                from[l] -= moved;
            }
        }
    }
}

/// One layer in one slot: its pools, its rates there, and the flows of the day.
#[derive(Debug, Clone)]
struct Cell<const L: usize> {
    present: bool,
    pools: Pools<L>,
    fast_rate: Lanes<L>,
    slow_rate: Lanes<L>,
    fast_lost: Lanes<L>,
    slow_lost: Lanes<L>,
    dead: Lanes<L>,
    dead_nitrogen: Lanes<L>,
    /// Humus made less humus lost.
    humus_gained: Lanes<L>,
    /// Nitrogen let go by death and humus.
    released: Lanes<L>,
    /// Nitrogen wanted from outside.
    wanted: Lanes<L>,
    /// Nitrogen taken from outside.
    taken: Lanes<L>,
}

/// A layer over its three slots.
#[derive(Debug, Clone)]
pub(super) struct Layer<const L: usize> {
    pub(super) properties: Properties<L>,
    under: bool,
    way: LayerWay,
    cells: [Cell<L>; 3],
    per_residue: Lanes<L>,
    /// Least and most nitrogen in a kg of new decomposer carbon.
    poorest: Lanes<L>,
    richest: Lanes<L>,
    /// Nitrogen held since the stage began.
    tied: Lanes<L>,
    /// Amount still to be laid, and the nitrogen with it.
    waiting: Pools<L>,
    dose: Option<(Dose, Lanes<L>)>,
    lifted: Option<Pools<L>>,
}

/// Nitrogen and water of the root zone.
#[derive(Debug, Clone)]
struct Soil<const L: usize> {
    mineral: Lanes<L>,
    seam: Lanes<L>,
    in_mulch: Lanes<L>,
    water: Lanes<L>,
    mulch_water: Lanes<L>,
}

/// Constants of the stage that follow from the parameters.
#[derive(Debug, Clone)]
struct Constants<const L: usize> {
    /// Response to temperature: (above + above_e e)/(1 + below_e e), e = exp(slope T + offset).
    slope: Lanes<L>,
    offset: Lanes<L>,
    above: Lanes<L>,
    above_e: Lanes<L>,
    below_e: Lanes<L>,
    /// What the response at an anchor of 15 °C is of that at 28 °C.
    at_15: Lanes<L>,
    /// Slope of the moisture factor.
    moisture: Lanes<L>,
    /// kg N/ha of supply a day at modifier 1.
    supply: Lanes<L>,
    per_humus: Lanes<L>,
    per_seam: Lanes<L>,
    seam_leak: Lanes<L>,
    leaching: Lanes<L>,
}

/// What adds up over the days.
#[derive(Debug, Clone)]
struct Account<const L: usize> {
    nitrogen_in: Lanes<L>,
    carbon_in: Lanes<L>,
    nitrogen_lifted: Lanes<L>,
    carbon_lifted: Lanes<L>,
    uptake: Lanes<L>,
    fixed: Lanes<L>,
    leached: Lanes<L>,
    denitrified: Lanes<L>,
    ammonia: Lanes<L>,
    breath: Lanes<L>,
    supply: Lanes<L>,
    irrigation: Lanes<L>,
    drained: Lanes<L>,
    residue_nitrogen: Lanes<L>,
    dry_days: Lanes<L>,
    mat_days: Lanes<L>,
    most_tied: Lanes<L>,
    most_tied_day: Lanes<L>,
    carbon_residual: Lanes<L>,
    nitrogen_residual: Lanes<L>,
    /// The lowest any pool has been.
    lowest: Lanes<L>,
}

/// A crop as it stands.
#[derive(Debug, Clone)]
struct CropState<const L: usize> {
    deficit: Lanes<L>,
    demand: Lanes<L>,
    uptake: Lanes<L>,
    hungry_day: Lanes<L>,
}

/// Values of the day that later steps need.
#[derive(Debug, Clone)]
struct Today<const L: usize> {
    depth: Lanes<L>,
    hold: Lanes<L>,
    fine: Lanes<L>,
    intercepting: Lanes<L>,
    through: Lanes<L>,
    drained: Lanes<L>,
    denitrifying: Lanes<L>,
    water_share: Lanes<L>,
    mulch_wet: Lanes<L>,
    /// Modifiers in soil and in the body of the mulch, at anchors of 28 and 15 °C.
    soil_28: Lanes<L>,
    soil_15: Lanes<L>,
    body_28: Lanes<L>,
    body_15: Lanes<L>,
}

/// A block at the end of a stage.
#[derive(Debug, Clone)]
pub(super) struct Ended<const L: usize> {
    layers: Vec<Layer<L>>,
    soil: Soil<L>,
}

impl<const L: usize> Ended<L> {
    /// What was lifted of a layer, if anything was.
    pub(super) fn lifted(&self, layer: usize) -> Option<&Pools<L>> {
        self.layers.get(layer).and_then(|layer| layer.lifted.as_ref())
    }

    /// The layers, in order.
    pub(super) fn layers(&self) -> &[Layer<L>] {
        &self.layers
    }
}

/// What is kept of an evening, in the order of `runs::Series`.
pub(super) const SERIES: usize = 15;

/// Receives a block's evenings and its end.
pub(super) trait Keep<const L: usize> {
    /// Whether the evening of this result day is wanted.
    fn wants(&self, day: usize) -> bool;
    /// An evening: the series, then uptake and demand of each crop.
    fn evening(&mut self, day: usize, series: &[Lanes<L>; SERIES], crops: &[(Lanes<L>, Lanes<L>)]);
}

/// The figures of a block at the end.
#[derive(Debug, Clone)]
pub(super) struct Totals<const L: usize> {
    pub(super) release_day: Lanes<L>,
    pub(super) crops: Vec<[Lanes<L>; 3]>,
    pub(super) dry_days: Lanes<L>,
    pub(super) mat_days: Lanes<L>,
    pub(super) tied_by_layer: Vec<Lanes<L>>,
    pub(super) residue_nitrogen: Lanes<L>,
    pub(super) carbon_residual: Lanes<L>,
    pub(super) nitrogen_residual: Lanes<L>,
    pub(super) lowest_pool: Lanes<L>,
}

/// A layer of a stage before it is laid: a new batch, or one lifted in an earlier stage.
pub(super) enum New<'a, const L: usize> {
    /// A batch of its own.
    Batch(Properties<L>, &'a PutDown),
    /// The batch of a layer of an earlier stage and the pools lifted there.
    Lifted(&'a Layer<L>, Pools<L>, &'a PutDown),
}

/// A block in a stage.
pub(super) struct Block<'a, const L: usize> {
    course: &'a Course,
    globals: &'a Globals<L>,
    constants: Constants<L>,
    soil: Soil<L>,
    layers: Vec<Layer<L>>,
    crops: Vec<CropState<L>>,
    account: Account<L>,
    today: Today<L>,
    /// A mulch has been laid.
    mulched: bool,
    /// Nitrogen may lie on the soil or in a mulch.
    nitrogen_above: bool,
}

/// Each lane is `f` of its number.
#[inline(always)]
fn lanes<const L: usize>(f: impl FnMut(usize) -> f64) -> Lanes<L> {
    core::array::from_fn(f)
}

/// 12/(1 + 52 exp(-0.103 T)): Nicolardot, Recous & Mary 2001.
fn logistic_response(celsius: f64) -> f64 {
    12.0 / (1.0 + 52.0 * exp(-0.103 * celsius))
}

impl<const L: usize> Constants<L> {
    fn of(course: &Course, g: &Globals<L>) -> Self {
        let value = |global: Global, l: usize| g[global as usize][l];
        let logistic = |l: usize| value(Global::Response, l) < 0.5;
        let growth: Lanes<L> = lanes(|l| libm::log(value(Global::Q10, l)));
        let mut made = Self {
            slope: lanes(|l| if logistic(l) { -0.103 } else { growth[l] / 10.0 }),
            offset: lanes(|l| if logistic(l) { 0.0 } else { -2.8 * growth[l] }),
            above: lanes(|l| if logistic(l) { 12.0 } else { 0.0 }),
            above_e: lanes(|l| if logistic(l) { 0.0 } else { logistic_response(28.0) }),
            below_e: lanes(|l| if logistic(l) { 52.0 } else { 0.0 }),
            at_15: lanes(|l| {
                if logistic(l) {
                    1.0
                } else {
                    logistic_response(15.0) / logistic_response(28.0) * exp(1.3 * growth[l])
                }
            }),
            moisture: lanes(|l| (1.0 - value(Global::DryRate, l)) / MOIST),
            supply: [0.0; L],
            per_humus: lanes(|l| 1.0 / value(Global::HumusCarbonNitrogen, l)),
            per_seam: lanes(|l| 1.0 / value(Global::Seam, l)),
            seam_leak: [share_gone(SEAM_LEAK); L],
            leaching: lanes(|l| value(Global::Leaching, l) / course.field_capacity),
        };
        // Equation 14; the floor keeps deserts from being scaled up.
        made.supply = lanes(|l| {
            let (mut dry, mut moist) = (0.0, 0.0);
            for ((days, mean), moisture) in
                MONTH_DAYS.iter().zip(&course.month_mean).zip(&course.month_moisture)
            {
                let f = days * made.response(l, *mean);
                dry += f;
                moist += f * moisture;
            }
            let year = most(moist, 0.6 * dry);
            let supply = course.supply * value(Global::Supply, l);
            if year > 0.0 { supply / year } else { 0.0 }
        });
        made
    }

    /// Equations 3 and 4, anchored at 28 °C.
    #[inline(always)]
    fn response(&self, l: usize, celsius: f64) -> f64 {
        let e = exp(self.slope[l] * least(celsius, 35.0) + self.offset[l]);
        let thawed = most(0.0, least(1.0, celsius * 0.5));
        (self.above[l] + self.above_e[l] * e) / (1.0 + self.below_e[l] * e) * thawed
    }
}

/// The part of what is wanted that can be had; all of it where there is enough.
#[inline(always)]
fn part(have: f64, want: f64) -> f64 {
    have / most(most(have, want), TINY)
}

impl<const L: usize> Cell<L> {
    fn new(fast_rate: Lanes<L>, slow_rate: Lanes<L>) -> Self {
        Self {
            present: false,
            pools: Pools::EMPTY,
            fast_rate,
            slow_rate,
            fast_lost: [0.0; L],
            slow_lost: [0.0; L],
            dead: [0.0; L],
            dead_nitrogen: [0.0; L],
            humus_gained: [0.0; L],
            released: [0.0; L],
            wanted: [0.0; L],
            taken: [0.0; L],
        }
    }

    /// Equation 10: what decays today, and the nitrogen that growth wants beyond what it brings.
    #[inline(always)]
    fn decay(&mut self, p: &Properties<L>, edges: &Edges<'_, L>, modifier: &Lanes<L>, humus: &Humus<'_, L>) {
        let pools = &self.pools;
        for l in 0..L {
            let m = modifier[l];
            let fast = pools.fast[l] * share_gone(self.fast_rate[l] * m);
            let slow = pools.slow[l] * trace_gone(self.slow_rate[l] * m);
            let dying = little_gone(p.death_rate[l] * m);
            let dead = pools.life[l] * dying;
            let dead_nitrogen = pools.life_nitrogen[l] * dying;
            let humus_lost = pools.humus[l] * trace_gone(p.humus_rate[l] * m);
            let humus_made = least(p.humification[l] * dead, humus.carbon_nitrogen[l] * dead_nitrogen);
            let humus_gained = humus_made - humus_lost;
            let released = dead_nitrogen - humus_gained * humus.per_humus[l];
            let grown = p.fast_efficiency[l] * fast + p.slow_efficiency[l] * slow;
            let own = (fast + slow) * edges.per_residue[l];
            self.fast_lost[l] = fast;
            self.slow_lost[l] = slow;
            self.dead[l] = dead;
            self.dead_nitrogen[l] = dead_nitrogen;
            self.humus_gained[l] = humus_gained;
            self.released[l] = released;
            self.wanted[l] = most(0.0, grown * edges.richest[l] - own - released);
        }
    }

    /// Equations 12 and 13: the shortage in closed form, then the pools. Decomposers first widen their C:N up
    /// to a limit, then decay slows.
    #[inline(always)]
    fn settle(&mut self, p: &Properties<L>, edges: &Edges<'_, L>, flows: &mut Flows<'_, L>) {
        let pools = &mut self.pools;
        for l in 0..L {
            let (fast, slow) = (self.fast_lost[l], self.slow_lost[l]);
            let grown = p.fast_efficiency[l] * fast + p.slow_efficiency[l] * slow;
            let own = (fast + slow) * edges.per_residue[l];
            let have = self.taken[l] + self.released[l];
            let leanest = grown * edges.poorest[l];
            let enough = have + own >= leanest;
            // Enough: nitrogen in new decomposers. Not enough: the share of today's decay that can go ahead.
            let ratio = if enough { have + own } else { have }
                / most(if enough { grown } else { leanest - own }, TINY);
            let content = if enough { least(ratio, edges.richest[l]) } else { edges.poorest[l] };
            let pace = if enough { 1.0 } else { ratio };
            let built = grown * content;
            let net = pace * (built - own) - self.released[l];
            let (fast, slow, grown) = (pace * fast, pace * slow, pace * grown);
            pools.fast[l] -= fast;
            pools.slow[l] -= slow;
            pools.life[l] += grown - self.dead[l];
            pools.life_nitrogen[l] += pace * built - self.dead_nitrogen[l];
            pools.humus[l] += self.humus_gained[l];
            flows.breath[l] += (fast + slow - grown) + (self.dead[l] - self.humus_gained[l]);
            flows.tied[l] += net;
            flows.given[l] += most(0.0, -net);
        }
    }
}

/// Rates of exchange of a layer.
struct Edges<'a, const L: usize> {
    per_residue: &'a Lanes<L>,
    poorest: &'a Lanes<L>,
    richest: &'a Lanes<L>,
}

/// Humus as all layers share it.
struct Humus<'a, const L: usize> {
    carbon_nitrogen: &'a Lanes<L>,
    per_humus: &'a Lanes<L>,
}

/// Where a cell's flows go.
struct Flows<'a, const L: usize> {
    breath: &'a mut Lanes<L>,
    tied: &'a mut Lanes<L>,
    given: &'a mut Lanes<L>,
}

impl<const L: usize> Layer<L> {
    fn new(properties: Properties<L>, way: LayerWay, g: &Globals<L>) -> Self {
        let under = way == LayerWay::Under;
        let p = &properties;
        let rate = |slot: usize| -> (Lanes<L>, Lanes<L>) {
            let place: Lanes<L> = match slot {
                SOIL => [1.0; L],
                CONTACT if under => g[Global::Under as usize],
                _ => g[Global::Contact as usize],
            };
            let share: Lanes<L> = lanes(|l| p.decay[l] * place[l]);
            (lanes(|l| p.fast_rate[l] * share[l]), lanes(|l| p.slow_rate[l] * share[l]))
        };
        let cells = core::array::from_fn(|slot| {
            let (fast, slow) = rate(slot);
            Cell::new(fast, slow)
        });
        let widen = &g[Global::Widening as usize];
        Self {
            under,
            way,
            cells,
            per_residue: lanes(|l| 1.0 / p.carbon_nitrogen[l]),
            poorest: lanes(|l| 1.0 / (widen[l] * p.decomposers[l])),
            richest: lanes(|l| 1.0 / p.decomposers[l]),
            tied: [0.0; L],
            waiting: Pools::EMPTY,
            dose: None,
            lifted: None,
            properties,
        }
    }

    fn prepare(new: New<'_, L>, g: &Globals<L>) -> Self {
        let (mut layer, put) = match new {
            New::Batch(properties, put) => {
                let mut layer = Self::new(properties, put.way, g);
                let p = &layer.properties;
                let carbon: Lanes<L> = lanes(|l| p.dry[l] * 1000.0 * p.carbon_share[l]);
                layer.waiting.fast = lanes(|l| p.fast_share[l] * carbon[l]);
                layer.waiting.slow = lanes(|l| (1.0 - p.fast_share[l]) * carbon[l]);
                (layer, put)
            }
            New::Lifted(source, mut pools, put) => {
                let mut layer = Self::new(source.properties.clone(), put.way, g);
                for pool in pools.all() {
                    for value in pool.iter_mut() {
                        *value *= put.area_factor;
                    }
                }
                layer.waiting = pools;
                (layer, put)
            }
        };
        if put.mineral_n_kg_ha > 0.0 {
            let dose = dose_of_layer(put.way, put.mineral_n_kg_ha, put.incorporated_days);
            layer.dose = Some((dose, layer.properties.mass));
        }
        layer
    }

    const fn edges(&self) -> Edges<'_, L> {
        Edges { per_residue: &self.per_residue, poorest: &self.poorest, richest: &self.richest }
    }

    /// Depth of one slot, mm.
    #[inline(always)]
    fn depth(&self, slot: usize, l: usize) -> f64 {
        self.cells[slot].pools.carbon(l) * self.properties.depth_per_carbon[l]
    }
}

impl<'a, const L: usize> Block<'a, L> {
    /// A block at the start of a stage. `before` holds the block's earlier stages, `new` the stage's own layers.
    pub(super) fn start(
        course: &'a Course,
        globals: &'a Globals<L>,
        before: &[Ended<L>],
        new: Vec<New<'_, L>>,
    ) -> Self {
        let earlier = course.continue_from.and_then(|from| before.get(from));
        let mut layers: Vec<Layer<L>> = earlier.map(|ended| ended.layers.clone()).unwrap_or_default();
        layers.truncate(course.kept);
        for layer in &mut layers {
            layer.tied = [0.0; L];
            layer.lifted = None;
        }
        layers.extend(new.into_iter().map(|layer| Layer::prepare(layer, globals)));
        let soil = earlier.map_or_else(
            || Soil {
                mineral: globals[Global::Start as usize].map(|factor| course.mineral * factor),
                seam: [0.0; L],
                in_mulch: [0.0; L],
                water: [course.initial_water; L],
                mulch_water: [0.0; L],
            },
            |ended| ended.soil.clone(),
        );
        let mut block = Self {
            constants: Constants::of(course, globals),
            course,
            globals,
            crops: course
                .crops
                .iter()
                .map(|_| CropState {
                    deficit: [0.0; L],
                    demand: [0.0; L],
                    uptake: [0.0; L],
                    hungry_day: [f64::INFINITY; L],
                })
                .collect(),
            account: Account {
                nitrogen_in: lanes(|l| soil.mineral[l] + soil.seam[l] + soil.in_mulch[l]),
                carbon_in: [0.0; L],
                nitrogen_lifted: [0.0; L],
                carbon_lifted: [0.0; L],
                uptake: [0.0; L],
                fixed: [0.0; L],
                leached: [0.0; L],
                denitrified: [0.0; L],
                ammonia: [0.0; L],
                breath: [0.0; L],
                supply: [0.0; L],
                irrigation: [0.0; L],
                drained: [0.0; L],
                residue_nitrogen: [0.0; L],
                dry_days: [0.0; L],
                mat_days: [0.0; L],
                most_tied: [0.0; L],
                most_tied_day: [0.0; L],
                carbon_residual: [0.0; L],
                nitrogen_residual: [0.0; L],
                lowest: [f64::INFINITY; L],
            },
            today: Today {
                depth: [0.0; L],
                hold: [0.0; L],
                fine: [0.0; L],
                intercepting: [0.0; L],
                through: [0.0; L],
                drained: [0.0; L],
                denitrifying: [0.0; L],
                water_share: lanes(|l| soil.water[l] / course.available_water),
                mulch_wet: [0.0; L],
                soil_28: [0.0; L],
                soil_15: [0.0; L],
                body_28: [0.0; L],
                body_15: [0.0; L],
            },
            mulched: layers.iter().any(|layer| layer.cells[BODY].present || layer.cells[CONTACT].present),
            nitrogen_above: earlier.is_some(),
            soil,
            layers,
        };
        if earlier.is_some() {
            for l in 0..L {
                let (mut carbon, mut nitrogen) = (0.0, 0.0);
                for layer in &block.layers {
                    for cell in &layer.cells {
                        carbon += cell.pools.carbon(l);
                        nitrogen +=
                            cell.pools.nitrogen(l, layer.per_residue[l], block.constants.per_humus[l]);
                    }
                }
                block.account.carbon_in[l] += carbon;
                block.account.nitrogen_in[l] += nitrogen;
                block.account.residue_nitrogen[l] += nitrogen;
            }
        }
        block
    }

    /// All days; then what is left for the next stage. `lifts` are carried off after the last evening.
    pub(super) fn run(mut self, keep: &mut impl Keep<L>, lifts: &[(usize, f64)]) -> (Totals<L>, Ended<L>) {
        let course = self.course;
        if keep.wants(0) {
            self.keep_evening(0, keep);
        }
        let mut acts = course.acts.iter().peekable();
        for (t, day) in course.days.iter().enumerate() {
            while let Some((_, act)) = acts.next_if(|(when, _)| *when == t) {
                self.act(*act);
            }
            if self.mulched {
                self.refill();
                self.water_and_warmth::<true>(day);
            } else {
                self.water_and_warmth::<false>(day);
            }
            self.residue();
            let wet = course.watered || day.rain + day.irrigation > 0.0;
            if self.nitrogen_above || self.mulched {
                self.wash_down(wet);
            }
            for (crop, state) in course.crops.iter().zip(&mut self.crops) {
                feed_crop(crop, state, t, self.globals, &mut self.soil, &mut self.account);
            }
            self.losses(wet);
            self.mix_slowly();
            self.close_day(t, day);
            if keep.wants(t + 1) {
                self.keep_evening(t + 1, keep);
            }
        }
        for (layer, share) in lifts {
            self.lift(*layer, *share);
        }
        (self.totals(), Ended { layers: self.layers, soil: self.soil })
    }

    fn act(&mut self, act: Act) {
        match act {
            Act::Work(share) => self.work(share),
            Act::Lift { layer, share } => self.lift(layer, share),
            Act::Lay(layer) => self.lay(layer),
            Act::Give(dose) => self.give(dose, &[1.0; L]),
        }
    }

    fn work(&mut self, share: f64) {
        let share = [share; L];
        for layer in &mut self.layers {
            let [body, contact, soil] = &mut layer.cells;
            for above in [body, contact] {
                if above.present {
                    above.pools.shift(&mut soil.pools, &share);
                    soil.present = true;
                }
            }
        }
        for l in 0..L {
            let (seam, in_mulch) = (share[l] * self.soil.seam[l], share[l] * self.soil.in_mulch[l]);
            self.soil.mineral[l] += seam + in_mulch;
            self.soil.seam[l] -= seam;
            self.soil.in_mulch[l] -= in_mulch;
        }
    }

    fn lift(&mut self, layer: usize, share: f64) {
        let Some(layer) = self.layers.get_mut(layer) else { return };
        let share = [share; L];
        let mut lifted = Pools::EMPTY;
        for cell in &mut layer.cells[..SOIL] {
            cell.pools.shift(&mut lifted, &share);
        }
        for l in 0..L {
            self.account.carbon_lifted[l] += lifted.carbon(l);
            self.account.nitrogen_lifted[l] +=
                lifted.nitrogen(l, layer.per_residue[l], self.constants.per_humus[l]);
        }
        layer.lifted = Some(lifted);
    }

    fn lay(&mut self, index: usize) {
        let Some(layer) = self.layers.get_mut(index) else { return };
        let slot = match layer.way {
            LayerWay::WorkedIn => SOIL,
            LayerWay::Under => CONTACT,
            LayerWay::OnTop => BODY,
        };
        for l in 0..L {
            let carbon = layer.waiting.carbon(l);
            let nitrogen = layer.waiting.nitrogen(l, layer.per_residue[l], self.constants.per_humus[l]);
            self.account.carbon_in[l] += carbon;
            self.account.nitrogen_in[l] += nitrogen;
            self.account.residue_nitrogen[l] += nitrogen;
        }
        layer.waiting.shift(&mut layer.cells[slot].pools, &[1.0; L]);
        layer.cells[slot].present = true;
        if slot != SOIL {
            self.mulched = true;
        }
        if let Some((dose, mass)) = layer.dose {
            self.give(dose, &mass);
        }
    }

    fn give(&mut self, dose: Dose, factor: &Lanes<L>) {
        let g = self.globals;
        for l in 0..L {
            let amount = factor[l]
                * match dose.amount {
                    DoseAmount::Nitrogen(nitrogen) => nitrogen,
                    DoseAmount::PerUrineStrength(factor) => factor * g[Global::Urine as usize][l],
                };
            let position = g[Global::LossPosition as usize][l];
            let lost = amount * if position < 0.0 { dose.loss.1 } else { triangular(dose.loss, position) };
            self.account.nitrogen_in[l] += amount;
            self.account.ammonia[l] += lost;
            let pool = match dose.placement {
                Placement::Mixed => &mut self.soil.mineral,
                Placement::Under => &mut self.soil.seam,
                Placement::Top => &mut self.soil.in_mulch,
            };
            pool[l] += amount - lost;
        }
        self.nitrogen_above |= dose.placement != Placement::Mixed;
    }

    /// Step 2: the body fills the contact, layer by layer; then what the mulch is today.
    fn refill(&mut self) {
        let today = &mut self.today;
        let mut filled: Lanes<L> = [0.0; L];
        for layer in self.layers.iter().filter(|layer| !layer.under && layer.cells[CONTACT].present) {
            for l in 0..L {
                filled[l] += layer.depth(CONTACT, l);
            }
        }
        let contact_depth = &self.globals[Global::ContactDepth as usize];
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[BODY].present) {
            let mut share: Lanes<L> = [0.0; L];
            for l in 0..L {
                let body = layer.depth(BODY, l);
                let room = most(0.0, contact_depth[l] * layer.properties.particle.contact_depth - filled[l]);
                let moved = least(room, body);
                share[l] = moved / most(body, TINY);
                filled[l] += moved;
            }
            let [body, contact, _] = &mut layer.cells;
            contact.present = true;
            body.pools.shift(&mut contact.pools, &share);
        }
        today.depth = [0.0; L];
        today.hold = [0.0; L];
        today.fine = [0.0; L];
        today.intercepting = [0.0; L];
        for layer in &self.layers {
            let contact = !layer.under && layer.cells[CONTACT].present;
            if !layer.cells[BODY].present && !contact {
                continue;
            }
            let particle = &layer.properties.particle;
            for l in 0..L {
                let depth = layer.depth(BODY, l) + if contact { layer.depth(CONTACT, l) } else { 0.0 };
                today.depth[l] += depth;
                today.hold[l] += depth * particle.holding;
                today.fine[l] += depth * particle.fine;
                today.intercepting[l] += depth * particle.interception;
            }
        }
        let interception = &self.globals[Global::Interception as usize];
        for l in 0..L {
            today.intercepting[l] = least(8.0, today.intercepting[l] * interception[l]);
            today.fine[l] /= most(today.depth[l], TINY);
        }
    }

    /// Steps 3 to 5: water, the modifiers of decay, and the nitrogen that soil, rain and water bring.
    #[inline(always)]
    fn water_and_warmth<const MULCHED: bool>(&mut self, day: &Day) {
        let (c, g, today, soil, account) =
            (&self.constants, self.globals, &mut self.today, &mut self.soil, &mut self.account);
        let of = |global: Global| &g[global as usize];
        let (rain_draw, evaporation, warmth, dry_rate, rain_nitrogen, shading, denitrification) = (
            of(Global::Rain),
            of(Global::Evaporation),
            of(Global::Warmth),
            of(Global::DryRate),
            of(Global::RainNitrogen),
            of(Global::Shading),
            of(Global::Denitrification),
        );
        let capacity = self.course.available_water;
        let per_capacity = 1.0 / capacity;
        let kept_moist = if self.course.watered { WATERED_SHARE * capacity } else { 0.0 };
        let (above, below) =
            if self.course.under_mulch { (0.0, day.irrigation) } else { (day.irrigation, 0.0) };
        for l in 0..L {
            let rain = day.rain * rain_draw[l];
            let et0 = day.et0 * evaporation[l];
            let mut through = rain + above;
            let mut bare = BARE_EVAPORATION;
            let mut ground = day.bare + warmth[l];
            if MULCHED {
                let (depth, room) = (today.depth[l], today.intercepting[l]);
                let caught = least(through, most(0.0, room - soil.mulch_water[l]));
                let held = soil.mulch_water[l] + caught;
                let wet = least(1.0, held / most(room, TINY));
                through = through - caught + below;
                soil.mulch_water[l] = most(0.0, least(held, room) - 0.5 * et0);
                bare *= 1.0 - shading[l] * least(1.0, depth * (1.0 / 50.0));
                ground += least(1.0, depth * (1.0 / 75.0)) * day.mulched_less_bare;
                let moist = least(1.0, dry_rate[l] + c.moisture[l] * wet);
                today.mulch_wet[l] = wet;
                today.body_28[l] = c.response(l, day.air + warmth[l]) * moist;
                today.body_15[l] = today.body_28[l] * c.at_15[l];
            } else {
                through += below;
            }
            let mut water = soil.water[l] + through;
            let evaporated = et0 * (bare + day.canopy) * least(1.0, 2.0 * (water * per_capacity));
            water -= least(water, evaporated);
            let added = most(0.0, kept_moist - water);
            water += added;
            let drained = most(0.0, water - capacity);
            water -= drained;
            let share = water * per_capacity;
            let response = c.response(l, ground);
            let modifier = response * least(1.0, dry_rate[l] + c.moisture[l] * share);
            let supply = c.supply[l] * modifier;
            let from_rain = rain * rain_nitrogen[l];
            let given = day.irrigation + added;
            let from_water = given * self.course.irrigation_nitrogen;
            soil.water[l] = water;
            today.through[l] = through + added;
            today.drained[l] = drained;
            today.water_share[l] = share;
            today.soil_28[l] = modifier;
            today.soil_15[l] = modifier * c.at_15[l];
            today.denitrifying[l] = denitrification[l]
                * most(0.0, least(1.0, (share - 0.8) * (1.0 / 0.2)))
                * least(1.5, response * c.at_15[l]);
            if MULCHED {
                let covered = today.depth[l] >= COVERING_MM;
                soil.in_mulch[l] += if covered { from_rain } else { 0.0 };
                soil.mineral[l] += supply + from_water + if covered { 0.0 } else { from_rain };
            } else {
                soil.mineral[l] += supply + from_water + from_rain;
            }
            account.supply[l] += supply;
            account.nitrogen_in[l] += supply + from_rain + from_water;
            account.irrigation[l] += given;
            account.drained[l] += drained;
        }
    }

    /// Step 6: decay, what nitrogen each slot reaches, and what a shortage does.
    fn residue(&mut self) {
        let (c, g, today, soil, account) =
            (&self.constants, self.globals, &self.today, &mut self.soil, &mut self.account);
        let humus =
            Humus { carbon_nitrogen: &g[Global::HumusCarbonNitrogen as usize], per_humus: &c.per_humus };
        let mut wanted: [Lanes<L>; 3] = [[0.0; L]; 3];
        let mut used: [bool; 3] = [false; 3];
        for layer in &mut self.layers {
            let edges =
                Edges { per_residue: &layer.per_residue, poorest: &layer.poorest, richest: &layer.richest };
            for (slot, cell) in layer.cells.iter_mut().enumerate().filter(|(_, cell)| cell.present) {
                let modifier = match (slot, layer.properties.wood) {
                    (BODY, true) => &today.body_28,
                    (BODY, false) => &today.body_15,
                    (_, true) => &today.soil_28,
                    (_, false) => &today.soil_15,
                };
                cell.decay(&layer.properties, &edges, modifier, &humus);
                used[slot] = true;
                for l in 0..L {
                    wanted[slot][l] += cell.wanted[l];
                }
            }
        }
        if used == [false; 3] {
            return;
        }
        let reach = &g[Global::Reach as usize];
        let mut lifted: Lanes<L> = [0.0; L];
        if used[BODY] {
            let share: Lanes<L> = lanes(|l| part(reach[l] * soil.in_mulch[l], wanted[BODY][l]));
            for layer in self.layers.iter_mut().filter(|layer| layer.cells[BODY].present) {
                let cell = &mut layer.cells[BODY];
                for l in 0..L {
                    cell.taken[l] = cell.wanted[l] * share[l];
                }
            }
            for l in 0..L {
                soil.in_mulch[l] = most(0.0, soil.in_mulch[l] - wanted[BODY][l] * share[l]);
            }
        }
        if used[CONTACT] {
            // The seam is met first and without a cap; what is left rises from the soil, up to a limit.
            let share: Lanes<L> = lanes(|l| part(reach[l] * soil.seam[l], wanted[CONTACT][l]));
            let upward: Lanes<L> = lanes(|l| {
                let rest = wanted[CONTACT][l] - wanted[CONTACT][l] * share[l];
                g[Global::Upward as usize][l] * today.soil_15[l] / most(rest, TINY)
            });
            for layer in self.layers.iter_mut().filter(|layer| layer.cells[CONTACT].present) {
                let factor = layer.properties.particle.upward;
                let cell = &mut layer.cells[CONTACT];
                for l in 0..L {
                    let from_seam = cell.wanted[l] * share[l];
                    let rest = cell.wanted[l] - from_seam;
                    let rising = rest * least(1.0, factor * upward[l]);
                    cell.taken[l] = from_seam;
                    cell.wanted[l] = rising;
                    lifted[l] += rising;
                }
            }
            for l in 0..L {
                soil.seam[l] = most(0.0, soil.seam[l] - wanted[CONTACT][l] * share[l]);
            }
        }
        let mut share: Lanes<L> = [0.0; L];
        for l in 0..L {
            let total = wanted[SOIL][l] + lifted[l];
            share[l] = part(reach[l] * soil.mineral[l], total);
            soil.mineral[l] = most(0.0, soil.mineral[l] - share[l] * total);
        }
        let mut given: [Lanes<L>; 3] = [[0.0; L]; 3];
        for layer in &mut self.layers {
            let edges =
                Edges { per_residue: &layer.per_residue, poorest: &layer.poorest, richest: &layer.richest };
            for (slot, cell) in layer.cells.iter_mut().enumerate().filter(|(_, cell)| cell.present) {
                match slot {
                    SOIL => {
                        for l in 0..L {
                            cell.taken[l] = share[l] * cell.wanted[l];
                        }
                    }
                    CONTACT => {
                        for l in 0..L {
                            cell.taken[l] += share[l] * cell.wanted[l];
                        }
                    }
                    _ => {}
                }
                let mut flows =
                    Flows { breath: &mut account.breath, tied: &mut layer.tied, given: &mut given[slot] };
                cell.settle(&layer.properties, &edges, &mut flows);
            }
        }
        for l in 0..L {
            soil.in_mulch[l] += given[BODY][l];
            soil.seam[l] += given[CONTACT][l];
            soil.mineral[l] += given[SOIL][l];
        }
    }

    /// Step 7: nitrogen goes down with the water, from the mulch to the seam and on to the soil.
    fn wash_down(&mut self, wet: bool) {
        let (c, today, soil) = (&self.constants, &self.today, &mut self.soil);
        let mut from_seam = c.seam_leak;
        let mut from_mulch: Lanes<L> = [0.0; L];
        if wet {
            for l in 0..L {
                from_seam[l] = share_gone(today.through[l] * c.per_seam[l] + SEAM_LEAK);
                from_mulch[l] = share_gone(today.through[l] / most(today.hold[l], 1e-9));
            }
        }
        for l in 0..L {
            let share = if today.depth[l] >= COVERING_MM { from_mulch[l] } else { 1.0 };
            let moved = soil.in_mulch[l] * share;
            soil.in_mulch[l] -= moved;
            soil.seam[l] += moved;
            let moved = soil.seam[l] * from_seam[l];
            soil.seam[l] -= moved;
            soil.mineral[l] += moved;
        }
    }

    /// Step 9: leaching, then denitrification.
    fn losses(&mut self, wet: bool) {
        let (c, today, soil, account) = (&self.constants, &self.today, &mut self.soil, &mut self.account);
        if wet {
            for l in 0..L {
                let leached = soil.mineral[l] * share_gone(c.leaching[l] * today.drained[l]);
                soil.mineral[l] -= leached;
                account.leached[l] += leached;
            }
        }
        for l in 0..L {
            let denitrified = soil.mineral[l] * today.denitrifying[l];
            soil.mineral[l] -= denitrified;
            account.denitrified[l] += denitrified;
        }
    }

    /// Step 10: soil animals mix a little of the contact in.
    fn mix_slowly(&mut self) {
        let mixing = &self.globals[Global::Mixing as usize];
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[CONTACT].present) {
            let factor = layer.properties.particle.mixing;
            let share: Lanes<L> = lanes(|l| trace_gone(mixing[l] * factor * self.today.soil_15[l]));
            let [_, contact, soil] = &mut layer.cells;
            contact.pools.shift(&mut soil.pools, &share);
            soil.present = true;
        }
    }

    /// The evening: balances, the highest tie-up so far, days of drought and of shed water.
    fn close_day(&mut self, t: usize, day: &Day) {
        let (c, today, soil, account) = (&self.constants, &self.today, &self.soil, &mut self.account);
        let mut carbon: Lanes<L> = [0.0; L];
        let mut nitrogen: Lanes<L> = [0.0; L];
        let mut tied: Lanes<L> = [0.0; L];
        for layer in &self.layers {
            for l in 0..L {
                tied[l] += layer.tied[l];
            }
            for cell in layer.cells.iter().filter(|cell| cell.present) {
                let pools = &cell.pools;
                for l in 0..L {
                    carbon[l] += pools.carbon(l);
                    nitrogen[l] += pools.nitrogen(l, layer.per_residue[l], c.per_humus[l]);
                    let low =
                        least(least(pools.fast[l], pools.slow[l]), least(pools.life[l], pools.humus[l]));
                    account.lowest[l] = least(account.lowest[l], least(low, pools.life_nitrogen[l]));
                }
            }
        }
        #[expect(clippy::cast_precision_loss, reason = "a number of days")]
        let result_day = (t + 1) as f64;
        for l in 0..L {
            let carbon_out = carbon[l] + account.breath[l] + account.carbon_lifted[l];
            let mineral = soil.mineral[l] + soil.seam[l] + soil.in_mulch[l];
            let lost = account.uptake[l] + account.leached[l] + account.denitrified[l] + account.ammonia[l];
            let nitrogen_out = mineral + nitrogen[l] + lost + account.nitrogen_lifted[l];
            let (carbon_in, nitrogen_in) = (account.carbon_in[l], account.nitrogen_in[l]);
            let off = (carbon_in - carbon_out).abs() / most(1.0, carbon_in);
            account.carbon_residual[l] = most(account.carbon_residual[l], off);
            let off = (nitrogen_in - nitrogen_out).abs() / most(1.0, nitrogen_in);
            account.nitrogen_residual[l] = most(account.nitrogen_residual[l], off);
            let low = least(soil.mineral[l], least(soil.seam[l], soil.in_mulch[l]));
            account.lowest[l] = least(account.lowest[l], least(low, soil.water[l]));
            let higher = tied[l] > account.most_tied[l];
            account.most_tied[l] = if higher { tied[l] } else { account.most_tied[l] };
            account.most_tied_day[l] = if higher { result_day } else { account.most_tied_day[l] };
        }
        if day.growing {
            for l in 0..L {
                account.dry_days[l] += if today.water_share[l] < 0.3 { 1.0 } else { 0.0 };
            }
            if self.mulched {
                for l in 0..L {
                    let mat = today.fine[l] >= 0.5 && today.depth[l] >= 25.0 && today.mulch_wet[l] < 0.1;
                    account.mat_days[l] += if mat { 1.0 } else { 0.0 };
                }
            }
        }
    }

    fn tied(&self) -> Lanes<L> {
        let mut tied = [0.0; L];
        for layer in &self.layers {
            for l in 0..L {
                tied[l] += layer.tied[l];
            }
        }
        tied
    }

    fn keep_evening(&self, day: usize, keep: &mut impl Keep<L>) {
        let (account, soil, today) = (&self.account, &self.soil, &self.today);
        let crops: Vec<(Lanes<L>, Lanes<L>)> =
            self.crops.iter().map(|crop| (crop.uptake, crop.demand)).collect();
        keep.evening(
            day,
            &[
                self.tied(),
                soil.mineral,
                soil.seam,
                soil.in_mulch,
                account.uptake,
                account.fixed,
                account.leached,
                account.denitrified,
                account.ammonia,
                account.supply,
                account.breath,
                today.depth,
                account.irrigation,
                account.drained,
                today.water_share,
            ],
            &crops,
        );
    }

    fn totals(&self) -> Totals<L> {
        let account = &self.account;
        let tied = self.tied();
        Totals {
            // Equation 18: the highest day, if tie-up has come down from it.
            release_day: lanes(|l| {
                let most_tied = account.most_tied[l];
                let down = tied[l] < most_tied - most(1.0, 0.02 * most_tied);
                if most_tied > 0.5 && down { account.most_tied_day[l] } else { f64::INFINITY }
            }),
            crops: self.crops.iter().map(|crop| [crop.uptake, crop.demand, crop.hungry_day]).collect(),
            dry_days: account.dry_days,
            mat_days: account.mat_days,
            tied_by_layer: self.layers.iter().map(|layer| layer.tied).collect(),
            residue_nitrogen: account.residue_nitrogen,
            carbon_residual: account.carbon_residual,
            nitrogen_residual: account.nitrogen_residual,
            lowest_pool: account.lowest,
        }
    }
}

/// Step 8: a crop takes up what it needs, and catches up on what it missed.
#[inline(always)]
fn feed_crop<const L: usize>(
    crop: &CropDays,
    state: &mut CropState<L>,
    t: usize,
    g: &Globals<L>,
    soil: &mut Soil<L>,
    account: &mut Account<L>,
) {
    let share = crop.share[t];
    if share <= 0.0 {
        return;
    }
    let (demand_draw, catch_up, roots) =
        (&g[Global::Demand as usize], &g[Global::CatchUp as usize], &g[Global::Roots as usize]);
    let (total, fixed) = (crop.total, crop.fixed);
    #[expect(clippy::cast_precision_loss, reason = "a number of days")]
    let result_day = if crop.season.contains(&t) { (t + 1) as f64 } else { f64::INFINITY };
    for l in 0..L {
        let demand = total * demand_draw[l] * share;
        let from_soil = demand * (1.0 - fixed);
        let wanted = from_soil + least(state.deficit[l], catch_up[l] * from_soil);
        let uptake = least(wanted, roots[l] * soil.mineral[l]);
        soil.mineral[l] -= uptake;
        account.uptake[l] += uptake;
        account.fixed[l] += demand * fixed;
        state.deficit[l] += from_soil - uptake;
        state.demand[l] += demand;
        state.uptake[l] += uptake + demand * fixed;
        let behind = state.demand[l] >= LEAST_NEED && state.uptake[l] < ENOUGH * state.demand[l];
        state.hungry_day[l] = least(state.hungry_day[l], if behind { result_day } else { f64::INFINITY });
    }
}
