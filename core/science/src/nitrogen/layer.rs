//! A layer of residue: its pools in three slots, how they decay in a day, and what nitrogen that takes.
//!
//! Every loop over `l` runs over the lanes of a block without a branch that depends on a lane, and every function
//! takes what it reads and what it writes apart, so that the compiler can turn the loops into vector code.

#![expect(
    clippy::inline_always,
    reason = "a call in the middle of a loop over lanes keeps it from being vector code"
)]

use super::batch::Properties;
use super::drivers::{Dose, dose_of_layer};
use super::ground::{Mulch, Soil};
use super::input::{LayerWay, PutDown};
use super::lanes::{Lanes, SOME, TINY, least, little_gone, most, share_gone, some_gone, trace_gone};
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
            let share = share[l];
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

/// Flows of the day in one slot, kg/ha.
#[derive(Debug, Clone)]
pub(super) struct Flows<const L: usize> {
    fast: Lanes<L>,
    slow: Lanes<L>,
    dead: Lanes<L>,
    dead_nitrogen: Lanes<L>,
    /// Humus made less humus lost.
    humus: Lanes<L>,
    /// Nitrogen let go by death and humus.
    released: Lanes<L>,
    /// Nitrogen wanted from outside; in the contact, after the seam: what rises at most.
    pub(super) wanted: Lanes<L>,
    /// Nitrogen taken from outside.
    pub(super) taken: Lanes<L>,
}

/// One layer in one slot.
#[derive(Debug, Clone)]
pub(super) struct Cell<const L: usize> {
    /// Something of the layer is, or has been, here.
    pub(super) present: bool,
    /// No run ever loses more than 1/e^0.34 of its accessible carbon in a day.
    slow: bool,
    pub(super) pools: Pools<L>,
    rates: Rates<L>,
    pub(super) flows: Flows<L>,
}

/// A layer over its three slots.
#[derive(Debug, Clone)]
pub(super) struct Layer<const L: usize> {
    pub(super) properties: Properties<L>,
    pub(super) exchange: Exchange<L>,
    pub(super) way: LayerWay,
    pub(super) cells: [Cell<L>; 3],
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

impl<const L: usize> Cell<L> {
    /// Equation 10: what decays today, and the nitrogen that growth wants beyond what it brings.
    fn decay<const SLOW: bool>(
        &mut self,
        x: &Exchange<L>,
        humus: &Humus<L>,
        modifier: &Lanes<L>,
        wanted: &mut Lanes<L>,
    ) {
        let (pools, rates, flows) = (&self.pools, &self.rates, &mut self.flows);
        // Apart, because the exponential is a long chain: short loops let the lanes overlap.
        for l in 0..L {
            let x = rates.fast[l] * modifier[l];
            flows.fast[l] = pools.fast[l] * if SLOW { some_gone(x) } else { share_gone(x) };
        }
        for l in 0..L {
            let (m, fast) = (modifier[l], flows.fast[l]);
            let slow = pools.slow[l] * trace_gone(rates.slow[l] * m);
            let dying = little_gone(x.death_rate[l] * m);
            let dead = pools.life[l] * dying;
            let dead_nitrogen = pools.life_nitrogen[l] * dying;
            let humus_lost = pools.humus[l] * trace_gone(x.humus_rate[l] * m);
            let humus_made = least(x.humification[l] * dead, humus.carbon_nitrogen[l] * dead_nitrogen);
            let humus_gained = humus_made - humus_lost;
            let released = dead_nitrogen - humus_gained * humus.per_humus[l];
            let grown = x.fast_efficiency[l] * fast + x.slow_efficiency[l] * slow;
            let own = (fast + slow) * x.per_residue[l];
            let wants = most(0.0, grown * x.richest[l] - own - released);
            flows.slow[l] = slow;
            flows.dead[l] = dead;
            flows.dead_nitrogen[l] = dead_nitrogen;
            flows.humus[l] = humus_gained;
            flows.released[l] = released;
            flows.wanted[l] = wants;
            wanted[l] += wants;
        }
    }

    /// Equations 12 and 13: the shortage in closed form, then the pools. Decomposers first widen their C:N up
    /// to a limit, then decay slows to a pace below 1.
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
            let (fast, slow) = (flows.fast[l], flows.slow[l]);
            let grown = x.fast_efficiency[l] * fast + x.slow_efficiency[l] * slow;
            let own = (fast + slow) * x.per_residue[l];
            // Never nothing, so that what needs nothing goes ahead.
            let taken = flows.taken[l] + share[l] * flows.wanted[l];
            let have = most(taken + flows.released[l], TINY);
            let content = (have + own) / most(grown, TINY);
            let content = most(x.poorest[l], least(content, x.richest[l]));
            let need = grown * content - own;
            let pace = have / most(need, have);
            let built = pace * (grown * content);
            let net = pace * need - flows.released[l];
            let (fast, slow, grown) = (pace * fast, pace * slow, pace * grown);
            pools.fast[l] -= fast;
            pools.slow[l] -= slow;
            pools.life[l] += grown - flows.dead[l];
            pools.life_nitrogen[l] += built - flows.dead_nitrogen[l];
            pools.humus[l] += flows.humus[l];
            breath[l] += (fast + slow - grown) + (flows.dead[l] - flows.humus[l]);
            tied[l] += net;
            given[l] += most(0.0, -net);
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
    fn new(properties: Properties<L>, way: LayerWay, g: &Globals<L>, most_modifier: f64) -> Self {
        let p = &properties;
        let widen = &g[Global::Widening as usize];
        let cells = core::array::from_fn(|slot| {
            let place = match slot {
                SOIL => Lanes::all(1.0),
                CONTACT if way == LayerWay::Under => g[Global::Under as usize],
                _ => g[Global::Contact as usize],
            };
            let fast: Lanes<L> = Lanes::of(|l| p.fast_rate[l] * (p.decay[l] * place[l]));
            Cell {
                present: false,
                slow: fast.iter().all(|rate| rate * most_modifier <= SOME),
                pools: Pools::EMPTY,
                rates: Rates { fast, slow: Lanes::of(|l| p.slow_rate[l] * (p.decay[l] * place[l])) },
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
            death_rate: p.death_rate,
            humification: p.humification,
            humus_rate: p.humus_rate,
            per_residue: Lanes::of(|l| 1.0 / p.carbon_nitrogen[l]),
            poorest: Lanes::of(|l| 1.0 / (widen[l] * p.decomposers[l])),
            richest: Lanes::of(|l| 1.0 / p.decomposers[l]),
        };
        Self {
            way,
            cells,
            exchange,
            tied: Lanes::ZERO,
            waiting: Pools::EMPTY,
            dose: None,
            lifted: None,
            properties,
        }
    }

    /// A layer ready to be laid; no modifier of decay ever exceeds `most_modifier`.
    pub(super) fn prepare(new: New<'_, L>, g: &Globals<L>, most_modifier: f64) -> Self {
        let (mut layer, put) = match new {
            New::Batch(properties, put) => {
                let mut layer = Self::new(properties, put.way, g, most_modifier);
                let p = &layer.properties;
                for l in 0..L {
                    let carbon = p.dry[l] * 1000.0 * p.carbon_share[l];
                    layer.waiting.fast[l] = p.fast_share[l] * carbon;
                    layer.waiting.slow[l] = (1.0 - p.fast_share[l]) * carbon;
                }
                (layer, put)
            }
            New::Lifted(source, mut pools, put) => {
                let mut layer = Self::new(source.properties.clone(), put.way, g, most_modifier);
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

    /// Adds the depth of the contact, mm.
    pub(super) fn add_contact(&self, filled: &mut Lanes<L>) {
        for l in 0..L {
            filled[l] += self.cells[CONTACT].pools.carbon(l) * self.properties.depth_per_carbon[l];
        }
    }

    /// Soil animals mix a little of the contact in.
    pub(super) fn mix_slowly(&mut self, mixing: &Lanes<L>, soil_15: &Lanes<L>) {
        let factor = self.properties.particle.mixing;
        let share: Lanes<L> = Lanes::of(|l| trace_gone(mixing[l] * factor * soil_15[l]));
        let [_, contact, soil] = &mut self.cells;
        contact.pools.shift(&mut soil.pools, &share);
        soil.present = true;
    }

    /// What decays today in each slot; `modifiers` are those of the body and of the soil.
    pub(super) fn decay(&mut self, humus: &Humus<L>, modifiers: [&Lanes<L>; 2], wanted: &mut [Lanes<L>; 3]) {
        for (slot, cell) in self.cells.iter_mut().enumerate().filter(|(_, cell)| cell.present) {
            let modifier = if slot == BODY { modifiers[0] } else { modifiers[1] };
            let (x, wanted) = (&self.exchange, &mut wanted[slot]);
            if cell.slow {
                cell.decay::<true>(x, humus, modifier, wanted);
            } else {
                cell.decay::<false>(x, humus, modifier, wanted);
            }
        }
    }

    /// What each slot does with the nitrogen it gets, and where it lets some go; `shares` are those of what body
    /// and soil still want.
    pub(super) fn settle(&mut self, shares: [&Lanes<L>; 2], soil: &mut Soil<L>, breath: &mut Lanes<L>) {
        let [body, contact, in_soil] = &mut self.cells;
        let x = &self.exchange;
        if body.present {
            body.settle(x, shares[0], &mut self.tied, breath, &mut soil.in_mulch);
        }
        if contact.present {
            contact.settle(x, shares[1], &mut self.tied, breath, &mut soil.seam);
        }
        if in_soil.present {
            in_soil.settle(x, shares[1], &mut self.tied, breath, &mut soil.mineral);
        }
    }

    /// Fills the contact from the body as far as there is room; `filled` is the depth of contact so far, mm.
    pub(super) fn fill_contact(&mut self, contact_depth: &Lanes<L>, filled: &mut Lanes<L>) {
        let factor = self.properties.particle.contact_depth;
        let [body, contact, _] = &mut self.cells;
        contact.present = true;
        let share = room_share(&body.pools, &self.properties.depth_per_carbon, contact_depth, factor, filled);
        body.pools.shift(&mut contact.pools, &share);
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

    /// Adds this layer to the mulch.
    pub(super) fn add_to(&self, mulch: &mut Mulch<L>) {
        let [body, contact, _] = &self.cells;
        add_depth(&body.pools, &self.properties, mulch);
        if !self.is_under() {
            add_depth(&contact.pools, &self.properties, mulch);
        }
    }

    /// Adds carbon and nitrogen in all slots.
    pub(super) fn weigh(&self, humus: &Humus<L>, carbon: &mut Lanes<L>, nitrogen: &mut Lanes<L>) {
        for cell in self.cells.iter().filter(|cell| cell.present) {
            cell.weigh(&self.exchange, humus, carbon, nitrogen);
        }
    }
}

/// The share of the body that the contact has room for, which then counts as filled.
fn room_share<const L: usize>(
    body: &Pools<L>,
    depth_per_carbon: &Lanes<L>,
    contact_depth: &Lanes<L>,
    factor: f64,
    filled: &mut Lanes<L>,
) -> Lanes<L> {
    let mut share: Lanes<L> = Lanes::ZERO;
    for l in 0..L {
        let depth = body.carbon(l) * depth_per_carbon[l];
        let moved = least(most(0.0, contact_depth[l] * factor - filled[l]), depth);
        share[l] = moved / most(depth, TINY);
        filled[l] += moved;
    }
    share
}

fn add_depth<const L: usize>(pools: &Pools<L>, p: &Properties<L>, mulch: &mut Mulch<L>) {
    let particle = &p.particle;
    for l in 0..L {
        let depth = pools.carbon(l) * p.depth_per_carbon[l];
        mulch.depth[l] += depth;
        mulch.hold[l] += depth * particle.holding;
        mulch.fine[l] += depth * particle.fine;
        mulch.room[l] += depth * particle.interception;
    }
}
