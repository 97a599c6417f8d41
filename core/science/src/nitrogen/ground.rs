//! The ground under one block of runs: water, warmth, mineral nitrogen, the crop and the losses of a day.

#![expect(
    clippy::inline_always,
    reason = "a call in the middle of a loop over lanes keeps it from being vector code"
)]

use super::drivers::{BARE_EVAPORATION, Course, CropDays, Day, MOIST, MONTH_DAYS, WATERED_SHARE};
use super::lanes::{Lanes, exp, least, most, share_gone};
use super::layer::Globals;
use super::parameter::Global;

/// Depth of mulch that counts as a cover for rain, mm; assumption.
const COVERING_MM: f64 = 1.0;
/// Part of the seam that reaches the soil in a day without water; assumption.
const SEAM_LEAK: f64 = 0.03;
/// A crop is hungry below this part of its need, once that is 1 kg/ha: 0.9 of the critical dilution is a usual
/// threshold of a nutrition index; assumption for the need so far.
const ENOUGH: f64 = 0.9;
const LEAST_NEED: f64 = 1.0;

/// Water and mineral nitrogen of the root zone and of what lies on it.
#[derive(Debug, Clone)]
pub(super) struct Soil<const L: usize> {
    /// Mineral nitrogen of the root zone, kg/ha.
    pub(super) mineral: Lanes<L>,
    /// Mineral nitrogen on the soil or between soil and mulch, kg/ha.
    pub(super) seam: Lanes<L>,
    /// Mineral nitrogen in the mulch, kg/ha.
    pub(super) in_mulch: Lanes<L>,
    /// Water that plants can take, mm.
    pub(super) water: Lanes<L>,
    /// Water held by the mulch, mm.
    pub(super) mulch_water: Lanes<L>,
}

/// What follows from the parameters of the place for the whole stage.
#[derive(Debug, Clone)]
pub(super) struct Constants<const L: usize> {
    response: Response<L>,
    /// Slope of the moisture factor.
    moisture: Lanes<L>,
    /// kg N/ha of supply a day at modifier 1.
    supply: Lanes<L>,
    per_seam: Lanes<L>,
    seam_leak: Lanes<L>,
    leaching: Lanes<L>,
    // As drawn.
    rain: Lanes<L>,
    evaporation: Lanes<L>,
    warmth: Lanes<L>,
    dry_rate: Lanes<L>,
    rain_nitrogen: Lanes<L>,
    shading: Lanes<L>,
    denitrification: Lanes<L>,
    demand: Lanes<L>,
    catch_up: Lanes<L>,
    roots: Lanes<L>,
}

/// Response of decay to temperature, anchored at 28 °C: `(above + above_e e)/(1 + below_e e)` with
/// `e = exp(slope T + offset)`, which is the logistic curve or the Q10 rule as the run has drawn.
#[derive(Debug, Clone)]
struct Response<const L: usize> {
    slope: Lanes<L>,
    offset: Lanes<L>,
    above: Lanes<L>,
    above_e: Lanes<L>,
    below_e: Lanes<L>,
    /// What the response anchored at 15 °C is of it.
    at_15: Lanes<L>,
}

/// What no modifier of decay exceeds in any run of a block, anchored at 28 and 15 °C.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fastest {
    pub(super) at_28: f64,
    pub(super) at_15: f64,
}

/// The mulch as it lies today.
#[derive(Debug, Clone)]
pub(super) struct Mulch<const L: usize> {
    /// mm.
    pub(super) depth: Lanes<L>,
    /// Water that washes nitrogen through, mm.
    pub(super) hold: Lanes<L>,
    /// Depth that fines make up, mm.
    pub(super) fine: Lanes<L>,
    /// Water it can hold back, mm.
    pub(super) room: Lanes<L>,
}

/// What water and warmth make of the day.
#[derive(Debug, Clone)]
pub(super) struct Today<const L: usize> {
    /// Water that reaches the soil, mm.
    through: Lanes<L>,
    /// Water that drains, mm.
    drained: Lanes<L>,
    /// Share of the mineral nitrogen that is denitrified.
    denitrifying: Lanes<L>,
    /// Water, part of what plants can take.
    pub(super) water_share: Lanes<L>,
    /// Water in the mulch, part of its room.
    pub(super) mulch_wet: Lanes<L>,
    /// Modifiers of decay in soil and in the body of the mulch, anchored at 28 and 15 °C.
    pub(super) soil_28: Lanes<L>,
    pub(super) soil_15: Lanes<L>,
    pub(super) body_28: Lanes<L>,
    pub(super) body_15: Lanes<L>,
}

/// What adds up over the days of a stage.
#[derive(Debug, Clone)]
pub(super) struct Account<const L: usize> {
    /// Beside the soil's supply.
    pub(super) nitrogen_in: Lanes<L>,
    pub(super) carbon_in: Lanes<L>,
    pub(super) nitrogen_lifted: Lanes<L>,
    pub(super) carbon_lifted: Lanes<L>,
    pub(super) uptake: Lanes<L>,
    pub(super) fixed: Lanes<L>,
    pub(super) leached: Lanes<L>,
    pub(super) denitrified: Lanes<L>,
    pub(super) ammonia: Lanes<L>,
    pub(super) supply: Lanes<L>,
    pub(super) irrigation: Lanes<L>,
    pub(super) drained: Lanes<L>,
    pub(super) residue_nitrogen: Lanes<L>,
}

/// A crop as it stands.
#[derive(Debug, Clone)]
pub(super) struct CropState<const L: usize> {
    pub(super) deficit: Lanes<L>,
    pub(super) demand: Lanes<L>,
    pub(super) uptake: Lanes<L>,
    pub(super) hungry_day: Lanes<L>,
}

/// Nicolardot, Recous & Mary 2001.
fn logistic(celsius: f64) -> f64 {
    12.0 / (1.0 + 52.0 * exp(-0.103 * celsius))
}

impl<const L: usize> Response<L> {
    fn of(g: &Globals<L>) -> Self {
        let is_logistic = |l: usize| g[Global::Response as usize][l] < 0.5;
        let growth: Lanes<L> = Lanes::of(|l| libm::log(g[Global::Q10 as usize][l]));
        let choose = |logistic: f64, q10: &dyn Fn(usize) -> f64| {
            Lanes::of(|l| if is_logistic(l) { logistic } else { q10(l) })
        };
        Self {
            slope: choose(-0.103, &|l| growth[l] / 10.0),
            offset: choose(0.0, &|l| -2.8 * growth[l]),
            above: choose(12.0, &|_| 0.0),
            above_e: choose(0.0, &|_| logistic(28.0)),
            below_e: choose(52.0, &|_| 0.0),
            at_15: choose(1.0, &|l| logistic(15.0) / logistic(28.0) * exp(1.3 * growth[l])),
        }
    }

    /// Equations 3 and 4; nothing below freezing, all from 2 °C.
    #[inline(always)]
    fn at(&self, l: usize, celsius: f64) -> f64 {
        let e = exp(self.slope[l] * least(celsius, 35.0) + self.offset[l]);
        let thawed = most(0.0, least(1.0, celsius * 0.5));
        (self.above[l] + self.above_e[l] * e) / (1.0 + self.below_e[l] * e) * thawed
    }
}

impl<const L: usize> Constants<L> {
    pub(super) fn of(course: &Course, g: &Globals<L>) -> Self {
        let of = |global: Global| g[global as usize];
        let response = Response::of(g);
        // Equation 14; the floor keeps deserts from being scaled up.
        let supply = Lanes::of(|l| {
            let (mut dry, mut moist) = (0.0, 0.0);
            for ((days, mean), moisture) in
                MONTH_DAYS.iter().zip(&course.month_mean).zip(&course.month_moisture)
            {
                let f = days * response.at(l, *mean);
                dry += f;
                moist += f * moisture;
            }
            let year = most(moist, 0.6 * dry);
            let supply = course.supply * g[Global::Supply as usize][l];
            if year > 0.0 { supply / year } else { 0.0 }
        });
        Self {
            response,
            moisture: Lanes::of(|l| (1.0 - g[Global::DryRate as usize][l]) / MOIST),
            supply,
            per_seam: Lanes::of(|l| 1.0 / g[Global::Seam as usize][l]),
            seam_leak: Lanes::all(share_gone(SEAM_LEAK)),
            leaching: Lanes::of(|l| g[Global::Leaching as usize][l] / course.field_capacity),
            rain: of(Global::Rain),
            evaporation: of(Global::Evaporation),
            warmth: of(Global::Warmth),
            dry_rate: of(Global::DryRate),
            rain_nitrogen: of(Global::RainNitrogen),
            shading: of(Global::Shading),
            denitrification: of(Global::Denitrification),
            demand: of(Global::Demand),
            catch_up: of(Global::CatchUp),
            roots: of(Global::Roots),
        }
    }
}

impl<const L: usize> Constants<L> {
    /// What no modifier of decay exceeds: warmest response, soil moist.
    pub(super) fn fastest(&self) -> Fastest {
        let r = &self.response;
        let largest = |of: &dyn Fn(usize) -> f64| (0..L).map(of).fold(0.0, f64::max);
        Fastest { at_28: largest(&|l| r.at(l, 35.0)), at_15: largest(&|l| r.at(l, 35.0) * r.at_15[l]) }
    }
}

impl<const L: usize> Mulch<L> {
    pub(super) const NONE: Self =
        Self { depth: Lanes::ZERO, hold: Lanes::ZERO, fine: Lanes::ZERO, room: Lanes::ZERO };

    /// Once all layers are in: bounds the water it holds back.
    pub(super) fn close(&mut self, interception: &Lanes<L>) {
        for l in 0..L {
            self.room[l] = least(8.0, self.room[l] * interception[l]);
        }
    }
}

impl<const L: usize> Account<L> {
    pub(super) const EMPTY: Self = Self {
        nitrogen_in: Lanes::ZERO,
        carbon_in: Lanes::ZERO,
        nitrogen_lifted: Lanes::ZERO,
        carbon_lifted: Lanes::ZERO,
        uptake: Lanes::ZERO,
        fixed: Lanes::ZERO,
        leached: Lanes::ZERO,
        denitrified: Lanes::ZERO,
        ammonia: Lanes::ZERO,
        supply: Lanes::ZERO,
        irrigation: Lanes::ZERO,
        drained: Lanes::ZERO,
        residue_nitrogen: Lanes::ZERO,
    };
}

impl<const L: usize> CropState<L> {
    pub(super) const SOWN: Self = Self {
        deficit: Lanes::ZERO,
        demand: Lanes::ZERO,
        uptake: Lanes::ZERO,
        hungry_day: Lanes::all(f64::INFINITY),
    };
}

/// What all runs share on a day.
#[derive(Debug, Clone, Copy)]
struct Shared {
    day: Day,
    capacity: f64,
    per_capacity: f64,
    kept_moist: f64,
    /// Water given onto a mulch, and under it, mm.
    above: f64,
    below: f64,
    /// kg N/ha in a mm of water given.
    nitrogen: f64,
}

impl Shared {
    fn of(course: &Course, day: &Day) -> Self {
        let (above, below) = if course.under_mulch { (0.0, day.irrigation) } else { (day.irrigation, 0.0) };
        Self {
            day: *day,
            capacity: course.available_water,
            per_capacity: 1.0 / course.available_water,
            kept_moist: if course.watered { WATERED_SHARE * course.available_water } else { 0.0 },
            above,
            below,
            nitrogen: course.irrigation_nitrogen,
        }
    }
}

impl<const L: usize> Soil<L> {
    pub(super) fn at_start(course: &Course, g: &Globals<L>) -> Self {
        Self {
            mineral: Lanes::of(|l| course.mineral * g[Global::Start as usize][l]),
            seam: Lanes::ZERO,
            in_mulch: Lanes::ZERO,
            water: Lanes::all(course.initial_water),
            mulch_water: Lanes::ZERO,
        }
    }

    /// Mineral nitrogen in all, kg/ha.
    pub(super) fn nitrogen(&self) -> Lanes<L> {
        Lanes::of(|l| self.mineral[l] + self.seam[l] + self.in_mulch[l])
    }

    /// Steps 3 to 5 of a day: water, the modifiers of decay, and the nitrogen that soil, rain and water bring.
    pub(super) fn water_and_warm(
        &mut self,
        (course, day): (&Course, &Day),
        c: &Constants<L>,
        mulch: Option<&Mulch<L>>,
        today: &mut Today<L>,
        account: &mut Account<L>,
    ) {
        let shared = Shared::of(course, day);
        match (mulch, course.is_wet(day)) {
            (Some(mulch), true) => self.weather::<true, true>(shared, c, mulch, today, account),
            (Some(mulch), false) => self.weather::<true, false>(shared, c, mulch, today, account),
            (None, true) => self.weather::<false, true>(shared, c, &Mulch::NONE, today, account),
            (None, false) => self.weather::<false, false>(shared, c, &Mulch::NONE, today, account),
        }
    }

    /// Where the day is not wet, everything that comes of water is left out: it would be nothing.
    fn weather<const MULCHED: bool, const WET: bool>(
        &mut self,
        s: Shared,
        c: &Constants<L>,
        mulch: &Mulch<L>,
        today: &mut Today<L>,
        account: &mut Account<L>,
    ) {
        // Apart, because the exponentials are long chains: short loops let the lanes overlap.
        let mut ground: Lanes<L> = Lanes::ZERO;
        for l in 0..L {
            let mut celsius = s.day.bare + c.warmth[l];
            if MULCHED {
                celsius += least(1.0, mulch.depth[l] * (1.0 / 75.0)) * s.day.mulched_less_bare;
            }
            ground[l] = c.response.at(l, celsius);
        }
        if MULCHED {
            for l in 0..L {
                today.body_28[l] = c.response.at(l, s.day.air + c.warmth[l]);
            }
        }
        for l in 0..L {
            let rain = if WET { s.day.rain * c.rain[l] } else { 0.0 };
            let et0 = s.day.et0 * c.evaporation[l];
            let mut through = if WET { rain + s.above } else { 0.0 };
            let mut bare = BARE_EVAPORATION;
            if MULCHED {
                let (depth, room) = (mulch.depth[l], mulch.room[l]);
                let mut held = self.mulch_water[l];
                if WET {
                    let caught = least(through, most(0.0, room - held));
                    held += caught;
                    through -= caught;
                }
                let wet = least(1.0, held / most(room, super::lanes::TINY));
                self.mulch_water[l] = most(0.0, least(held, room) - 0.5 * et0);
                bare *= 1.0 - c.shading[l] * least(1.0, depth * (1.0 / 50.0));
                let moist = least(1.0, c.dry_rate[l] + c.moisture[l] * wet);
                let body = today.body_28[l] * moist;
                today.mulch_wet[l] = wet;
                today.body_28[l] = body;
                today.body_15[l] = body * c.response.at_15[l];
            }
            let mut water = self.water[l];
            if WET {
                through += s.below;
                water += through;
            }
            let evaporated = et0 * (bare + s.day.canopy) * least(1.0, 2.0 * (water * s.per_capacity));
            water -= least(water, evaporated);
            if WET {
                let added = most(0.0, s.kept_moist - water);
                water += added;
                let drained = most(0.0, water - s.capacity);
                water -= drained;
                let given = s.day.irrigation + added;
                let brought = given * s.nitrogen;
                let from_rain = rain * c.rain_nitrogen[l];
                let into_mulch = if MULCHED && mulch.depth[l] >= COVERING_MM { from_rain } else { 0.0 };
                self.in_mulch[l] += into_mulch;
                self.mineral[l] += brought + (from_rain - into_mulch);
                today.through[l] = through + added;
                today.drained[l] = drained;
                account.nitrogen_in[l] += from_rain + brought;
                account.irrigation[l] += given;
                account.drained[l] += drained;
            }
            let share = water * s.per_capacity;
            let response = ground[l];
            let modifier = response * least(1.0, c.dry_rate[l] + c.moisture[l] * share);
            let supply = c.supply[l] * modifier;
            self.water[l] = water;
            today.water_share[l] = share;
            today.soil_28[l] = modifier;
            today.soil_15[l] = modifier * c.response.at_15[l];
            today.denitrifying[l] = c.denitrification[l]
                * most(0.0, least(1.0, (share - 0.8) * 5.0))
                * least(1.5, response * c.response.at_15[l]);
            self.mineral[l] += supply;
            account.supply[l] += supply;
        }
    }

    /// Step 7: nitrogen goes down with the water, from the mulch to the seam and on to the soil.
    pub(super) fn wash_down(&mut self, wet: bool, c: &Constants<L>, mulch: &Mulch<L>, today: &Today<L>) {
        let (mut from_mulch, mut from_seam): (Lanes<L>, Lanes<L>) = (Lanes::ZERO, c.seam_leak);
        if wet {
            for l in 0..L {
                from_mulch[l] = share_gone(today.through[l] / most(mulch.hold[l], 1e-9));
                from_seam[l] = share_gone(today.through[l] * c.per_seam[l] + SEAM_LEAK);
            }
        }
        for l in 0..L {
            let share = if mulch.depth[l] >= COVERING_MM { from_mulch[l] } else { 1.0 };
            let moved = self.in_mulch[l] * share;
            let seam = self.seam[l] + moved;
            let down = seam * from_seam[l];
            self.in_mulch[l] -= moved;
            self.seam[l] = seam - down;
            self.mineral[l] += down;
        }
    }

    /// Step 8: a crop takes up what it needs, and catches up on what it missed.
    pub(super) fn feed(
        &mut self,
        (crop, t): (&CropDays, usize),
        c: &Constants<L>,
        state: &mut CropState<L>,
        account: &mut Account<L>,
    ) {
        let share = crop.share[t];
        if share <= 0.0 {
            return;
        }
        let (total, fixed) = (crop.total, crop.fixed);
        #[expect(clippy::cast_precision_loss, reason = "a number of days")]
        let result_day = if crop.season.contains(&t) { (t + 1) as f64 } else { f64::INFINITY };
        for l in 0..L {
            let demand = total * c.demand[l] * share;
            let fixing = demand * fixed;
            let from_soil = demand * (1.0 - fixed);
            let wanted = from_soil + least(state.deficit[l], c.catch_up[l] * from_soil);
            let uptake = least(wanted, c.roots[l] * self.mineral[l]);
            let (demanded, taken) = (state.demand[l] + demand, state.uptake[l] + (uptake + fixing));
            let behind = demanded >= LEAST_NEED && taken < ENOUGH * demanded;
            self.mineral[l] -= uptake;
            account.uptake[l] += uptake;
            account.fixed[l] += fixing;
            state.deficit[l] += from_soil - uptake;
            state.demand[l] = demanded;
            state.uptake[l] = taken;
            state.hungry_day[l] = least(state.hungry_day[l], if behind { result_day } else { f64::INFINITY });
        }
    }

    /// Step 9: leaching, then denitrification.
    pub(super) fn lose(&mut self, wet: bool, c: &Constants<L>, today: &Today<L>, account: &mut Account<L>) {
        if wet {
            for l in 0..L {
                let leached = self.mineral[l] * share_gone(c.leaching[l] * today.drained[l]);
                self.mineral[l] -= leached;
                account.leached[l] += leached;
            }
        }
        for l in 0..L {
            let denitrified = self.mineral[l] * today.denitrifying[l];
            self.mineral[l] -= denitrified;
            account.denitrified[l] += denitrified;
        }
    }
}

impl<const L: usize> Today<L> {
    pub(super) fn before_the_first(course: &Course, soil: &Soil<L>) -> Self {
        Self {
            through: Lanes::ZERO,
            drained: Lanes::ZERO,
            denitrifying: Lanes::ZERO,
            water_share: Lanes::of(|l| soil.water[l] / course.available_water),
            mulch_wet: Lanes::ZERO,
            soil_28: Lanes::ZERO,
            soil_15: Lanes::ZERO,
            body_28: Lanes::ZERO,
            body_15: Lanes::ZERO,
        }
    }
}
