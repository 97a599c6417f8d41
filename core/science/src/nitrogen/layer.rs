//! A layer of residue: its pools in three slots, how they decay in a day, and what nitrogen that takes.
//!
//! Every loop over `l` runs over the lanes of a block without a branch that depends on a lane, and every function
//! takes what it reads and what it writes apart, so that the compiler can turn the loops into vector code. For the
//! same reason those with loops over lanes are not inlined: as arguments, references are known not to overlap, and
//! that is lost in a caller; more than two in one tuple lose it, too. A loop is kept short, and the next one reads
//! what it stored: the lanes wait for divisions and polynomials, and the processor then works on the others.

#![expect(
    clippy::inline_always,
    reason = "a call in the middle of a loop over lanes keeps it from being vector code"
)]

use super::batch::Properties;
use super::drivers::{Dose, dose_of_layer};
use super::ground::{Constants, Mulch};
use super::input::{LayerWay, PutDown};
use super::lanes::{Lanes, SOME, TINY, gone, hint_gone, least, most, some_gone, trace_gone};
use super::parameter::Global;

/// The parameters of the place, by index, a lane for each run.
pub(super) type Globals<const L: usize> = [Lanes<L>; Global::COUNT];

/// Slot of the body of a mulch, which waits.
pub(super) const BODY: usize = 0;
/// Slot of the bottom of a mulch, and of what is laid under one.
pub(super) const CONTACT: usize = 1;
/// Slot of what is mixed into the soil.
pub(super) const SOIL: usize = 2;

/// The pools of one layer in one slot, kg/ha.
#[derive(Debug, Clone)]
pub(super) struct Pools<const L: usize> {
    /// Accessible carbon.
    pub(super) fast: Lanes<L>,
    /// Lignin-bound carbon.
    pub(super) slow: Lanes<L>,
    /// Decomposer carbon.
    pub(super) life: Lanes<L>,
    /// Decomposer nitrogen.
    pub(super) life_nitrogen: Lanes<L>,
    /// Humus carbon.
    pub(super) humus: Lanes<L>,
}

impl<const L: usize> Pools<L> {
    pub(super) const EMPTY: Self = Self {
        fast: Lanes::ZERO,
        slow: Lanes::ZERO,
        life: Lanes::ZERO,
        life_nitrogen: Lanes::ZERO,
        humus: Lanes::ZERO,
    };

    /// All five.
    pub(super) fn all(&self) -> [&Lanes<L>; 5] {
        [&self.fast, &self.slow, &self.life, &self.life_nitrogen, &self.humus]
    }

    fn all_mut(&mut self) -> [&mut Lanes<L>; 5] {
        [&mut self.fast, &mut self.slow, &mut self.life, &mut self.life_nitrogen, &mut self.humus]
    }

    /// Carbon in all, kg/ha.
    #[inline(always)]
    pub(super) fn carbon(&self, l: usize) -> f64 {
        self.fast[l] + self.slow[l] + self.life[l] + self.humus[l]
    }

    /// Nitrogen in all, kg/ha.
    #[inline(always)]
    pub(super) fn nitrogen(&self, l: usize, layer: &Exchange<L>, humus: &Humus<L>) -> f64 {
        (self.fast[l] + self.slow[l]) * layer.per_residue[l]
            + self.life_nitrogen[l]
            + self.humus[l] * humus.per_humus[l]
    }

    /// Moves a share, lane by lane, into other pools.
    pub(super) fn shift(&mut self, to: &mut Self, share: &Lanes<L>) {
        for l in 0..L {
            self.shift_one(l, to, share[l]);
        }
    }

    /// Moves a share of one run's into other pools.
    #[inline(always)]
    fn shift_one(&mut self, l: usize, to: &mut Self, share: f64) {
        let moved = [self.fast[l], self.slow[l], self.life[l], self.life_nitrogen[l], self.humus[l]];
        let moved = moved.map(|pool| share * pool);
        self.fast[l] -= moved[0];
        self.slow[l] -= moved[1];
        self.life[l] -= moved[2];
        self.life_nitrogen[l] -= moved[3];
        self.humus[l] -= moved[4];
        to.fast[l] += moved[0];
        to.slow[l] += moved[1];
        to.life[l] += moved[2];
        to.life_nitrogen[l] += moved[3];
        to.humus[l] += moved[4];
    }

    /// The lowest pool of any run.
    pub(super) fn lowest(&self) -> f64 {
        self.all().iter().flat_map(|pool| pool.iter()).copied().fold(f64::INFINITY, f64::min)
    }
}

/// Humus, the same for all layers.
#[derive(Debug, Clone)]
pub(super) struct Humus<const L: usize> {
    pub(super) carbon_nitrogen: Lanes<L>,
    pub(super) per_humus: Lanes<L>,
}

impl<const L: usize> Humus<L> {
    pub(super) fn of(g: &Globals<L>) -> Self {
        let carbon_nitrogen = g[Global::HumusCarbonNitrogen as usize];
        Self { carbon_nitrogen, per_humus: Lanes::of(|l| 1.0 / carbon_nitrogen[l]) }
    }
}

/// How a layer decays and what nitrogen its parts hold.
#[derive(Debug, Clone)]
pub(super) struct Exchange<const L: usize> {
    fast_efficiency: Lanes<L>,
    slow_efficiency: Lanes<L>,
    death_rate: Lanes<L>,
    humification: Lanes<L>,
    humus_rate: Lanes<L>,
    /// Nitrogen in a kg of residue carbon.
    per_residue: Lanes<L>,
    /// Least and most nitrogen in a kg of new decomposer carbon.
    poorest: Lanes<L>,
    richest: Lanes<L>,
}

/// Rates of a layer's carbon in one slot, a day at modifier 1.
#[derive(Debug, Clone)]
struct Rates<const L: usize> {
    fast: Lanes<L>,
    slow: Lanes<L>,
}

/// What decays on a day in one slot of one run, kg/ha.
#[derive(Debug, Clone, Copy)]
struct Flow {
    fast: f64,
    slow: f64,
    dead: f64,
    dead_nitrogen: f64,
    /// Humus made less humus lost.
    humus: f64,
    /// Nitrogen let go by death and humus.
    released: f64,
}

/// The shares of decomposers that die and of humus that is lost today, at one modifier.
#[derive(Debug, Clone)]
struct Turnover<const L: usize> {
    dying: Lanes<L>,
    weathering: Lanes<L>,
}

impl<const L: usize> Turnover<L> {
    /// Apart from the rest, and once for slots with the same modifier.
    fn follow(&mut self, x: &Exchange<L>, modifier: &Lanes<L>) {
        for l in 0..L {
            self.dying[l] = some_gone(x.death_rate[l] * modifier[l]);
            self.weathering[l] = hint_gone(x.humus_rate[l] * modifier[l]);
        }
    }
}

/// The flows of a day in one slot, while several slots share out a pool.
#[derive(Debug, Clone)]
struct Flows<const L: usize> {
    fast: Lanes<L>,
    slow: Lanes<L>,
    dead: Lanes<L>,
    dead_nitrogen: Lanes<L>,
    humus: Lanes<L>,
    released: Lanes<L>,
    /// Nitrogen wanted from outside; in the contact, after the seam: what rises at most.
    wanted: Lanes<L>,
    /// Nitrogen taken from outside.
    taken: Lanes<L>,
}

impl<const L: usize> Flows<L> {
    #[inline(always)]
    fn put(&mut self, l: usize, flow: Flow) {
        self.dead[l] = flow.dead;
        self.dead_nitrogen[l] = flow.dead_nitrogen;
        self.humus[l] = flow.humus;
        self.released[l] = flow.released;
    }

    #[inline(always)]
    fn get(&self, l: usize) -> Flow {
        Flow {
            fast: self.fast[l],
            slow: self.slow[l],
            dead: self.dead[l],
            dead_nitrogen: self.dead_nitrogen[l],
            humus: self.humus[l],
            released: self.released[l],
        }
    }
}

/// One layer in one slot.
#[derive(Debug, Clone)]
pub(super) struct Cell<const L: usize> {
    /// Something of the layer is, or has been, here.
    pub(super) present: bool,
    /// No run ever loses more than 1 - 1/e^0.17 of its accessible carbon in a day.
    slow: bool,
    pub(super) pools: Pools<L>,
    rates: Rates<L>,
    flows: Flows<L>,
}

/// A layer over its three slots.
#[derive(Debug, Clone)]
pub(super) struct Layer<const L: usize> {
    pub(super) properties: Properties<L>,
    pub(super) exchange: Exchange<L>,
    pub(super) way: LayerWay,
    pub(super) cells: [Cell<L>; 3],
    /// Depth of the body, mm.
    depth_above: Lanes<L>,
    turnover: Turnover<L>,
    /// Nitrogen held since the stage began.
    pub(super) tied: Lanes<L>,
    /// What is still to be laid.
    pub(super) waiting: Pools<L>,
    /// Mineral nitrogen that comes with it.
    pub(super) dose: Option<Dose>,
    /// What was carried off last.
    pub(super) lifted: Option<Pools<L>>,
}

/// A layer before it is laid: a new batch, or one lifted in an earlier stage.
pub(super) enum New<'a, const L: usize> {
    /// A batch of its own.
    Batch(Properties<L>, &'a PutDown),
    /// The batch of a layer of an earlier stage and the pools lifted there.
    Lifted(&'a Layer<L>, Pools<L>, &'a PutDown),
}

/// Decomposer carbon that grows at full pace, and the nitrogen that the decayed residue brings for it.
#[inline(always)]
fn growth<const L: usize>(x: &Exchange<L>, l: usize, fast: f64, slow: f64) -> (f64, f64) {
    (x.fast_efficiency[l] * fast + x.slow_efficiency[l] * slow, (fast + slow) * x.per_residue[l])
}

impl<const L: usize> Pools<L> {
    /// Equation 10 in one run: what turns over today beside the residue that decays, and the nitrogen that growth
    /// wants beyond what it brings.
    #[inline(always)]
    fn flow(
        &self,
        l: usize,
        (x, humus): (&Exchange<L>, &Humus<L>),
        (fast, slow): (f64, f64),
        turnover: &Turnover<L>,
    ) -> (Flow, f64) {
        let dying = turnover.dying[l];
        let (dead, dead_nitrogen) = (self.life[l] * dying, self.life_nitrogen[l] * dying);
        let humus_lost = self.humus[l] * turnover.weathering[l];
        let humus_made = least(x.humification[l] * dead, humus.carbon_nitrogen[l] * dead_nitrogen);
        let gained = humus_made - humus_lost;
        let released = dead_nitrogen - gained * humus.per_humus[l];
        let (grown, own) = growth(x, l, fast, slow);
        let wanted = most(0.0, grown * x.richest[l] - own - released);
        (Flow { fast, slow, dead, dead_nitrogen, humus: gained, released }, wanted)
    }

    /// Equations 12 and 13 in one run: the shortage in closed form, then the pools. Decomposers first widen their
    /// C:N up to a limit, then decay slows to a pace below 1. Gives the nitrogen that decay came to hold, and the
    /// carbon breathed off.
    #[inline(always)]
    fn settle(&mut self, l: usize, x: &Exchange<L>, flow: Flow, taken: f64) -> (f64, f64) {
        let (grown, own) = growth(x, l, flow.fast, flow.slow);
        // Never nothing, so that what needs nothing goes ahead.
        let have = most(taken + flow.released, TINY);
        // What growth holds at full pace: as much as there is, within its limits.
        let holds = most(grown * x.poorest[l], least(have + own, grown * x.richest[l]));
        let need = holds - own;
        let pace = have / most(need, have);
        let (fast, slow, grown) = (pace * flow.fast, pace * flow.slow, pace * grown);
        self.fast[l] -= fast;
        self.slow[l] -= slow;
        self.life[l] += grown - flow.dead;
        self.life_nitrogen[l] += pace * holds - flow.dead_nitrogen;
        self.humus[l] += flow.humus;
        (pace * need - flow.released, (fast + slow - grown) + (flow.dead - flow.humus))
    }
}

impl<const L: usize> Cell<L> {
    /// Residue that decays today. Apart from the rest, because the exponential is a long chain: short loops let
    /// the lanes overlap.
    #[inline(always)]
    fn decay_residue(&mut self, modifier: &Lanes<L>) {
        let (pool, rate, decayed) = (&self.pools.fast, &self.rates.fast, &mut self.flows.fast);
        if self.slow {
            for l in 0..L {
                decayed[l] = pool[l] * some_gone(rate[l] * modifier[l]);
            }
        } else {
            for l in 0..L {
                decayed[l] = pool[l] * gone(rate[l] * modifier[l]);
            }
        }
        let (pool, rate, decayed) = (&self.pools.slow, &self.rates.slow, &mut self.flows.slow);
        for l in 0..L {
            decayed[l] = pool[l] * trace_gone(rate[l] * modifier[l]);
        }
    }

    /// What decays today, and what is wanted of a pool that others draw on, too.
    #[inline(never)]
    fn decay(
        &mut self,
        (x, humus): (&Exchange<L>, &Humus<L>),
        turnover: &Turnover<L>,
        modifier: &Lanes<L>,
        wanted: &mut Lanes<L>,
    ) {
        self.decay_residue(modifier);
        let (pools, flows) = (&self.pools, &mut self.flows);
        for l in 0..L {
            let (flow, wants) = pools.flow(l, (x, humus), (flows.fast[l], flows.slow[l]), turnover);
            flows.put(l, flow);
            flows.wanted[l] = wants;
            flows.taken[l] = 0.0;
            wanted[l] += wants;
        }
    }

    /// What the cell does with its share of what it wanted.
    #[inline(never)]
    fn settle(
        &mut self,
        x: &Exchange<L>,
        share: &Lanes<L>,
        tied: &mut Lanes<L>,
        breath: &mut Lanes<L>,
        given: &mut Lanes<L>,
    ) {
        let (pools, flows) = (&mut self.pools, &self.flows);
        for l in 0..L {
            let taken = flows.taken[l] + share[l] * flows.wanted[l];
            let (net, breathed) = pools.settle(l, x, flows.get(l), taken);
            breath[l] += breathed;
            tied[l] += net;
            given[l] -= least(net, 0.0);
        }
    }

    /// Decay, what it takes and what follows in one go, for the only cell that draws on a pool.
    #[inline(never)]
    fn decay_alone(
        &mut self,
        (x, humus): (&Exchange<L>, &Humus<L>),
        turnover: &Turnover<L>,
        (modifier, reach): (&Lanes<L>, &Lanes<L>),
        (tied, breath): (&mut Lanes<L>, &mut Lanes<L>),
        pool: &mut Lanes<L>,
    ) {
        self.decay_residue(modifier);
        let (pools, flows) = (&mut self.pools, &mut self.flows);
        for l in 0..L {
            let (flow, wanted) = pools.flow(l, (x, humus), (flows.fast[l], flows.slow[l]), turnover);
            flows.put(l, flow);
            flows.taken[l] = least(wanted, reach[l] * pool[l]);
        }
        for l in 0..L {
            let (net, breathed) = pools.settle(l, x, flows.get(l), flows.taken[l]);
            breath[l] += breathed;
            tied[l] += net;
            // What was taken, or what is let go; rounding must not overdraw.
            pool[l] = most(0.0, pool[l] - net);
        }
    }

    /// Adds what is here to carbon and nitrogen in all.
    fn weigh(&self, x: &Exchange<L>, humus: &Humus<L>, carbon: &mut Lanes<L>, nitrogen: &mut Lanes<L>) {
        for l in 0..L {
            carbon[l] += self.pools.carbon(l);
            nitrogen[l] += self.pools.nitrogen(l, x, humus);
        }
    }
}

impl<const L: usize> Layer<L> {
    fn new(properties: Properties<L>, way: LayerWay, g: &Globals<L>, c: &Constants<L>) -> Self {
        let p = &properties;
        let widen = &g[Global::Widening as usize];
        // Rates at the anchor of wood and compost; those of litter hold at 15 °C.
        let anchor = if p.wood { Lanes::all(1.0) } else { *c.at_15() };
        let cells = core::array::from_fn(|slot| {
            let place = match slot {
                SOIL => Lanes::all(1.0),
                CONTACT if way == LayerWay::Under => g[Global::Under as usize],
                _ => g[Global::Contact as usize],
            };
            let fast: Lanes<L> = Lanes::of(|l| p.fast_rate[l] * (p.decay[l] * place[l]) * anchor[l]);
            let slow: Lanes<L> = Lanes::of(|l| p.slow_rate[l] * (p.decay[l] * place[l]) * anchor[l]);
            Cell {
                present: false,
                slow: false,
                pools: Pools::EMPTY,
                rates: Rates { fast, slow },
                flows: Flows {
                    fast: Lanes::ZERO,
                    slow: Lanes::ZERO,
                    dead: Lanes::ZERO,
                    dead_nitrogen: Lanes::ZERO,
                    humus: Lanes::ZERO,
                    released: Lanes::ZERO,
                    wanted: Lanes::ZERO,
                    taken: Lanes::ZERO,
                },
            }
        });
        let exchange = Exchange {
            fast_efficiency: p.fast_efficiency,
            slow_efficiency: p.slow_efficiency,
            death_rate: Lanes::of(|l| p.death_rate[l] * anchor[l]),
            humification: p.humification,
            humus_rate: Lanes::of(|l| p.humus_rate[l] * anchor[l]),
            per_residue: Lanes::of(|l| 1.0 / p.carbon_nitrogen[l]),
            poorest: Lanes::of(|l| 1.0 / (widen[l] * p.decomposers[l])),
            richest: Lanes::of(|l| 1.0 / p.decomposers[l]),
        };
        let mut layer = Self {
            way,
            cells,
            exchange,
            depth_above: Lanes::ZERO,
            turnover: Turnover { dying: Lanes::ZERO, weathering: Lanes::ZERO },
            tied: Lanes::ZERO,
            waiting: Pools::EMPTY,
            dose: None,
            lifted: None,
            properties,
        };
        layer.expect(c);
        layer
    }

    /// Finds out how fast it may decay in a stage.
    pub(super) fn expect(&mut self, c: &Constants<L>) {
        for cell in &mut self.cells {
            // A little early, lest rounding decides.
            let within = |(rate, fastest): (&f64, &f64)| rate * fastest <= 0.999 * SOME;
            cell.slow = cell.rates.fast.iter().zip(&**c.fastest()).all(within);
        }
    }

    /// A layer ready to be laid.
    pub(super) fn prepare(new: New<'_, L>, g: &Globals<L>, c: &Constants<L>) -> Self {
        let (mut layer, put) = match new {
            New::Batch(properties, put) => {
                let mut layer = Self::new(properties, put.way, g, c);
                let p = &layer.properties;
                for l in 0..L {
                    let carbon = p.dry[l] * 1000.0 * p.carbon_share[l];
                    layer.waiting.fast[l] = p.fast_share[l] * carbon;
                    layer.waiting.slow[l] = (1.0 - p.fast_share[l]) * carbon;
                }
                (layer, put)
            }
            New::Lifted(source, mut pools, put) => {
                let mut layer = Self::new(source.properties.clone(), put.way, g, c);
                for value in pools.all_mut().into_iter().flat_map(|pool| pool.iter_mut()) {
                    *value *= put.area_factor;
                }
                layer.waiting = pools;
                (layer, put)
            }
        };
        if put.mineral_n_kg_ha > 0.0 {
            layer.dose = Some(dose_of_layer(put.way, put.mineral_n_kg_ha, put.incorporated_days));
        }
        layer
    }

    /// Whether it lies under a mulch rather than being one.
    pub(super) fn is_under(&self) -> bool {
        self.way == LayerWay::Under
    }

    /// Whether it is, or has been, on the soil as a mulch.
    pub(super) fn covers(&self) -> bool {
        self.cells[BODY].present || self.cells[CONTACT].present && !self.is_under()
    }

    /// Measures it and adds it to the mulch and to the depth of contact, mm.
    pub(super) fn add_to(&mut self, mulch: &mut Mulch<L>, filled: &mut Lanes<L>) {
        let ([body, contact, _], p) = (&self.cells, &self.properties);
        for l in 0..L {
            let in_contact = contact.pools.carbon(l) * p.depth_per_carbon[l];
            let above = body.pools.carbon(l) * p.depth_per_carbon[l];
            let depth = above + in_contact;
            self.depth_above[l] = above;
            filled[l] += in_contact;
            mulch.depth[l] += depth;
            mulch.hold[l] += depth * p.particle.holding;
            mulch.fine[l] += depth * p.particle.fine;
            mulch.room[l] += depth * p.particle.interception;
        }
    }

    /// Soil animals mix a little of the contact in; `mixing` is their share a day at modifier 1.
    pub(super) fn mix_slowly(&mut self, mixing: &Lanes<L>, modifier: &Lanes<L>) {
        let factor = self.properties.particle.mixing;
        let share: Lanes<L> = Lanes::of(|l| trace_gone(mixing[l] * factor * modifier[l]));
        let [_, contact, soil] = &mut self.cells;
        contact.pools.shift(&mut soil.pools, &share);
    }

    /// Steps 6 and 10 below the body for the only layer of a place: contact and soil in one go, with what the one
    /// takes from the seam and what rises to it from the other's nitrogen, and the slow mixing after it.
    #[inline(never)]
    pub(super) fn decay_below(
        &mut self,
        humus: &Humus<L>,
        (modifier, reach): (&Lanes<L>, &Lanes<L>),
        (rising, mixing): (&Lanes<L>, &Lanes<L>),
        breath: &mut Lanes<L>,
        (seam, mineral): (&mut Lanes<L>, &mut Lanes<L>),
    ) {
        self.turnover.follow(&self.exchange, modifier);
        let [_, contact, soil] = &mut self.cells;
        contact.decay_residue(modifier);
        soil.decay_residue(modifier);
        let (x, turnover, tied) = (&self.exchange, &self.turnover, &mut self.tied);
        let (upward, mixed) = (self.properties.particle.upward, self.properties.particle.mixing);
        let (pools, flows) = (&contact.pools, &mut contact.flows);
        for l in 0..L {
            let (flow, wanted) = pools.flow(l, (x, humus), (flows.fast[l], flows.slow[l]), turnover);
            flows.put(l, flow);
            flows.wanted[l] = wanted;
        }
        let (pools, flows) = (&soil.pools, &mut soil.flows);
        for l in 0..L {
            let (flow, wanted) = pools.flow(l, (x, humus), (flows.fast[l], flows.slow[l]), turnover);
            flows.put(l, flow);
            flows.wanted[l] = wanted;
        }
        for l in 0..L {
            let wanted = contact.flows.wanted[l];
            let from_seam = least(wanted, reach[l] * seam[l]);
            let rises = least(wanted - from_seam, upward * rising[l] * modifier[l]);
            let (of_soil, have) = (soil.flows.wanted[l] + rises, reach[l] * mineral[l]);
            let share = have / most(most(have, of_soil), TINY);
            contact.flows.taken[l] = from_seam + share * rises;
            soil.flows.taken[l] = share * soil.flows.wanted[l];
            seam[l] -= from_seam;
            mineral[l] = most(0.0, mineral[l] - share * of_soil);
        }
        for l in 0..L {
            let (net, breathed) = contact.pools.settle(l, x, contact.flows.get(l), contact.flows.taken[l]);
            breath[l] += breathed;
            tied[l] += net;
            seam[l] -= least(net, 0.0);
        }
        for l in 0..L {
            let (net, breathed) = soil.pools.settle(l, x, soil.flows.get(l), soil.flows.taken[l]);
            breath[l] += breathed;
            tied[l] += net;
            mineral[l] -= least(net, 0.0);
            contact.pools.shift_one(l, &mut soil.pools, trace_gone(mixing[l] * mixed * modifier[l]));
        }
    }

    /// What decomposers and humus lose today at a modifier, for all slots that have it.
    pub(super) fn turn_over(&mut self, modifier: &Lanes<L>) {
        self.turnover.follow(&self.exchange, modifier);
    }

    /// What decays today in a slot that shares a pool with others.
    pub(super) fn decay(
        &mut self,
        slot: usize,
        humus: &Humus<L>,
        modifier: &Lanes<L>,
        wanted: &mut Lanes<L>,
    ) {
        self.cells[slot].decay((&self.exchange, humus), &self.turnover, modifier, wanted);
    }

    /// The whole of a day's decay in a slot that alone draws on a pool, as far as it is within reach.
    pub(super) fn decay_alone(
        &mut self,
        slot: usize,
        humus: &Humus<L>,
        within: (&Lanes<L>, &Lanes<L>),
        breath: &mut Lanes<L>,
        pool: &mut Lanes<L>,
    ) {
        let sums = (&mut self.tied, breath);
        self.cells[slot].decay_alone((&self.exchange, humus), &self.turnover, within, sums, pool);
    }

    /// What a slot does with its share of what it still wanted, and where it lets some go.
    pub(super) fn settle(
        &mut self,
        slot: usize,
        share: &Lanes<L>,
        breath: &mut Lanes<L>,
        given: &mut Lanes<L>,
    ) {
        self.cells[slot].settle(&self.exchange, share, &mut self.tied, breath, given);
    }

    /// Fills the contact from the body as far as there is room; `filled` is the depth of contact so far, mm.
    pub(super) fn fill_contact(&mut self, contact_depth: &Lanes<L>, filled: &mut Lanes<L>) {
        let factor = self.properties.particle.contact_depth;
        let [body, contact, _] = &mut self.cells;
        let mut share: Lanes<L> = Lanes::ZERO;
        for l in 0..L {
            let depth = self.depth_above[l];
            let moved = least(most(0.0, contact_depth[l] * factor - filled[l]), depth);
            share[l] = moved / most(depth, TINY);
            filled[l] += moved;
        }
        body.pools.shift(&mut contact.pools, &share);
    }

    /// Step 2 for the only layer of a place that makes a mulch: measures it, and fills its contact.
    #[inline(never)]
    pub(super) fn refill_alone(&mut self, contact_depth: &Lanes<L>, mulch: &mut Mulch<L>) {
        let ([body, contact, _], p) = (&mut self.cells, &self.properties);
        let (particle, per_carbon) = (&p.particle, &p.depth_per_carbon);
        for l in 0..L {
            let in_contact = contact.pools.carbon(l) * per_carbon[l];
            let above = body.pools.carbon(l) * per_carbon[l];
            let depth = above + in_contact;
            let room = most(0.0, contact_depth[l] * particle.contact_depth - in_contact);
            let moved = least(room, above);
            mulch.depth[l] = depth;
            mulch.hold[l] = depth * particle.holding;
            mulch.fine[l] = depth * particle.fine;
            mulch.room[l] = depth * particle.interception;
            body.pools.shift_one(l, &mut contact.pools, moved / most(above, TINY));
        }
    }

    /// Takes what it can from the seam, without a cap; what the contact still wants rises from the soil, up to a
    /// limit for each kg wanted, and is added to what is wanted of the soil.
    pub(super) fn take_from_seam(&mut self, share: &Lanes<L>, upward: &Lanes<L>, of_soil: &mut Lanes<L>) {
        let factor = self.properties.particle.upward;
        let flows = &mut self.cells[CONTACT].flows;
        for l in 0..L {
            let from_seam = flows.wanted[l] * share[l];
            let rises = (flows.wanted[l] - from_seam) * least(1.0, factor * upward[l]);
            flows.taken[l] = from_seam;
            flows.wanted[l] = rises;
            of_soil[l] += rises;
        }
    }

    /// Adds carbon and nitrogen in all slots.
    pub(super) fn weigh(&self, humus: &Humus<L>, carbon: &mut Lanes<L>, nitrogen: &mut Lanes<L>) {
        for cell in self.cells.iter().filter(|cell| cell.present) {
            cell.weigh(&self.exchange, humus, carbon, nitrogen);
        }
    }
}
