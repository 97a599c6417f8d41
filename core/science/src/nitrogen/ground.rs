//! The ground under one block of runs: water, warmth, mineral nitrogen, the crop and the losses of a day.

#![expect(
    clippy::inline_always,
    reason = "a call in the middle of a loop over lanes keeps it from being vector code"
)]

use super::drivers::{BARE_EVAPORATION, Course, CropDays, Day, MOIST, Temperature, WATERED_SHARE};
use super::lanes::{Lanes, exp, least, most, share_gone, small_growth};
use super::layer::Globals;
use super::parameter::Global;
use crate::weather::MONTH_DAYS;

/// Depth of mulch that counts as a cover for rain, mm; assumption.
const COVERING_MM: f64 = 1.0;
/// Part of the seam that reaches the soil in a day without water; assumption.
const SEAM_LEAK: f64 = 0.03;
/// The logistic response's slope, and a usual slope of the others: a Q10 of 2.25.
const LOGISTIC_SLOPE: f64 = -0.103;
const USUAL_SLOPE: f64 = 0.081;
/// °C from which temperatures are counted where exponentials are taken apart.
const MIDDLE: f64 = 15.0;
/// °C from which on all decays; assumption. And beyond which it does not go faster.
const THAWED: f64 = 2.0;
const WARMEST: f64 = 35.0;
const MARGIN: f64 = 0.001;
/// Part of the available water above which nitrate is lost to the air; assumption.
const DENITRIFYING: f64 = 0.8;
/// A crop is hungry below this part of its need, once that is 1 kg/ha: 0.9 of the critical dilution is a usual
/// threshold of a nutrition index; assumption for the need so far.
const ENOUGH: f64 = 0.9;
const LEAST_NEED: f64 = 1.0;
/// Up to here [`small_growth`] serves.
const SMALL: f64 = 0.34;

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
    fastest: Lanes<L>,
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
    catch_up: Lanes<L>,
    roots: Lanes<L>,
}

/// Response of decay to temperature, anchored at 28 °C: `(above + above_e e)/(1 + below_e e)`, where `e` grows
/// with the temperature as the run has drawn: down the logistic curve, or by the Q10 rule.
#[derive(Debug, Clone)]
struct Response<const L: usize> {
    kind: Kind,
    /// `e` at the middle of the scale on the logistic curve and by the Q10 rule; one of them is zero.
    logistic: Lanes<L>,
    q10: Lanes<L>,
    /// Growth of `e` a degree, and that beyond what all runs share.
    slope: Lanes<L>,
    beyond: Lanes<L>,
    above: Lanes<L>,
    above_e: Lanes<L>,
    below_e: Lanes<L>,
    /// Where it is warmest.
    most: Lanes<L>,
    /// What the response anchored at 15 °C is of it.
    at_15: Lanes<L>,
    /// Largest slopes, and the range of the draws of temperature, of any run.
    steepest: f64,
    furthest: f64,
    coldest: f64,
    warmest: f64,
}

/// Which responses the runs of a block have.
#[derive(Debug, Clone, Copy)]
enum Kind {
    Logistic,
    Q10,
    Both,
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
    /// Water, part of what plants can take.
    pub(super) water_share: Lanes<L>,
    /// Water in the mulch, part of its room.
    pub(super) mulch_wet: Lanes<L>,
    /// Response of decay to the soil's temperature.
    response: Lanes<L>,
    /// Modifiers of decay in soil and in the body of the mulch.
    pub(super) soil: Lanes<L>,
    pub(super) body: Lanes<L>,
}

/// What adds up over the days of a stage.
#[derive(Debug, Clone)]
pub(super) struct Account<const L: usize> {
    /// Beside the soil's supply.
    pub(super) nitrogen_in: Lanes<L>,
    pub(super) carbon_in: Lanes<L>,
    pub(super) nitrogen_lifted: Lanes<L>,
    pub(super) carbon_lifted: Lanes<L>,
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
    /// Its demand in all, kg/ha.
    pub(super) total: Lanes<L>,
    /// Taken from the soil so far.
    pub(super) from_soil: Lanes<L>,
    pub(super) hungry_day: Lanes<L>,
}

/// Nicolardot, Recous & Mary 2001.
fn logistic(celsius: f64) -> f64 {
    12.0 / (1.0 + 52.0 * exp(LOGISTIC_SLOPE * celsius))
}

impl<const L: usize> Response<L> {
    /// With the runs' own draws of temperature.
    fn of(g: &Globals<L>, warmth: &Lanes<L>) -> Self {
        let is_logistic = |l: usize| g[Global::Response as usize][l] < 0.5;
        let growth: Lanes<L> = Lanes::of(|l| libm::log(g[Global::Q10 as usize][l]) / 10.0);
        let choose = |logistic: f64, q10: &dyn Fn(usize) -> f64| {
            Lanes::of(|l| if is_logistic(l) { logistic } else { q10(l) })
        };
        let largest = |of: &dyn Fn(usize) -> f64| (0..L).map(of).fold(f64::NEG_INFINITY, f64::max);
        let slope = choose(LOGISTIC_SLOPE, &|l| growth[l]);
        let beyond = choose(0.0, &|l| growth[l] - USUAL_SLOPE);
        let from_28 = |l: usize, celsius: f64| logistic(28.0) * exp(growth[l] * (celsius - 28.0));
        let logistics = (0..L).filter(|l| is_logistic(*l)).count();
        Self {
            kind: match logistics {
                0 => Kind::Q10,
                _ if logistics == L => Kind::Logistic,
                _ => Kind::Both,
            },
            logistic: Lanes::of(|l| {
                let start = 52.0 * exp(LOGISTIC_SLOPE * (MIDDLE + warmth[l]));
                if is_logistic(l) { start } else { 0.0 }
            }),
            q10: choose(0.0, &|l| from_28(l, MIDDLE + warmth[l])),
            above: choose(12.0, &|_| 0.0),
            above_e: choose(0.0, &|_| 1.0),
            below_e: choose(1.0, &|_| 0.0),
            most: choose(logistic(WARMEST), &|l| from_28(l, WARMEST)),
            at_15: choose(1.0, &|l| logistic(15.0) / from_28(l, 15.0)),
            steepest: largest(&|l| slope[l].abs()),
            furthest: largest(&|l| beyond[l].abs()),
            coldest: -largest(&|l| -warmth[l]),
            warmest: largest(&|l| warmth[l]),
            slope,
            beyond,
        }
    }

    /// Equations 3 and 4 at a temperature that all runs share, and their draw: the exponential's own part is the
    /// day's, what is left of it is small. Nothing below freezing, all from 2 °C.
    fn at(&self, day: &Temperature, warmth: &Lanes<L>, out: &mut Lanes<L>) {
        self.by_kind::<false>(day, (&Lanes::ZERO, 0.0), out);
        if self.bounded(day, (0.0, 0.0)) {
            for l in 0..L {
                out[l] = self.bound(l, out[l], day.celsius + warmth[l]);
            }
        }
    }

    /// The same, with part of a difference of temperature added in each run.
    fn at_part(
        &self,
        day: &Temperature,
        (part, difference): (&Lanes<L>, f64),
        warmth: &Lanes<L>,
        out: &mut Lanes<L>,
    ) {
        self.by_kind::<true>(day, (part, difference), out);
        if self.bounded(day, (f64::min(0.0, difference), f64::max(0.0, difference))) {
            for l in 0..L {
                out[l] = self.bound(l, out[l], day.celsius + part[l] * difference + warmth[l]);
            }
        }
    }

    fn by_kind<const PART: bool>(&self, day: &Temperature, more: (&Lanes<L>, f64), out: &mut Lanes<L>) {
        let beyond = self.furthest * day.above_middle.abs() + self.steepest * more.1.abs();
        match (self.kind, beyond <= SMALL) {
            (Kind::Logistic, true) => self.plain::<true, false, PART, true>(day, more, out),
            (Kind::Logistic, false) => self.plain::<true, false, PART, false>(day, more, out),
            (Kind::Q10, true) => self.plain::<false, true, PART, true>(day, more, out),
            (Kind::Q10, false) => self.plain::<false, true, PART, false>(day, more, out),
            (Kind::Both, true) => self.plain::<true, true, PART, true>(day, more, out),
            (Kind::Both, false) => self.plain::<true, true, PART, false>(day, more, out),
        }
    }

    /// The response without its bounds. What a run does not need is left out where no run of the block needs it;
    /// its bits are the same beside others.
    fn plain<const LOGISTIC: bool, const Q10: bool, const PART: bool, const SMALL: bool>(
        &self,
        day: &Temperature,
        (part, difference): (&Lanes<L>, f64),
        out: &mut Lanes<L>,
    ) {
        for l in 0..L {
            let mut e = match (LOGISTIC, Q10) {
                (true, false) => self.logistic[l] * day.logistic,
                (false, true) => self.q10[l] * day.q10,
                _ => self.logistic[l] * day.logistic + self.q10[l] * day.q10,
            };
            if Q10 || PART {
                let mut x = if Q10 { self.beyond[l] * day.above_middle } else { 0.0 };
                if PART {
                    x += self.slope[l] * (part[l] * difference);
                }
                e *= if SMALL { 1.0 + small_growth(x) } else { exp(x) };
            }
            out[l] = match (LOGISTIC, Q10) {
                (true, false) => 12.0 / (1.0 + e),
                (false, true) => e,
                _ => (self.above[l] + self.above_e[l] * e) / (1.0 + self.below_e[l] * e),
            };
        }
    }

    /// Some run may be too cold or too warm for the plain curve; a little early, lest rounding decides.
    fn bounded(&self, day: &Temperature, (low, high): (f64, f64)) -> bool {
        day.celsius + low + self.coldest < THAWED + MARGIN
            || day.celsius + high + self.warmest > WARMEST - MARGIN
    }

    #[inline(always)]
    fn bound(&self, l: usize, response: f64, celsius: f64) -> f64 {
        least(response, self.most[l]) * most(0.0, least(1.0, celsius * (1.0 / THAWED)))
    }
}

impl Temperature {
    /// A temperature in °C.
    pub(super) fn of(celsius: f64) -> Self {
        // Beyond these nothing changes: it is frozen, or as warm as it counts.
        let above_middle = celsius.clamp(-100.0, 100.0) - MIDDLE;
        Self {
            celsius,
            above_middle,
            logistic: exp(LOGISTIC_SLOPE * above_middle),
            q10: exp(USUAL_SLOPE * above_middle),
        }
    }
}

impl<const L: usize> Constants<L> {
    pub(super) fn of(course: &Course, g: &Globals<L>) -> Self {
        let of = |global: Global| g[global as usize];
        // Equation 14; the floor keeps deserts from being scaled up.
        let (mut dry, mut moist): (Lanes<L>, Lanes<L>) = (Lanes::ZERO, Lanes::ZERO);
        let usual = Response::of(g, &Lanes::ZERO);
        let mut month_response = Lanes::ZERO;
        for ((days, mean), moisture) in MONTH_DAYS.iter().zip(&course.month_mean).zip(&course.month_moisture)
        {
            usual.at(mean, &Lanes::ZERO, &mut month_response);
            for l in 0..L {
                let f = days * month_response[l];
                dry[l] += f;
                moist[l] += f * moisture;
            }
        }
        let supply = Lanes::of(|l| {
            let year = most(moist[l], 0.6 * dry[l]);
            let supply = course.supply * g[Global::Supply as usize][l];
            if year > 0.0 { supply / year } else { 0.0 }
        });
        let warmth = &g[Global::Warmth as usize];
        let response = Response::of(g, warmth);
        let mut fastest = Lanes::ZERO;
        response.at(&course.warmest, warmth, &mut fastest);
        Self {
            response,
            fastest,
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
            catch_up: of(Global::CatchUp),
            roots: of(Global::Roots),
        }
    }
}

impl<const L: usize> Constants<L> {
    /// What no modifier of decay exceeds: the stage at its warmest, soil moist.
    pub(super) fn fastest(&self) -> &Lanes<L> {
        &self.fastest
    }

    /// What the response anchored at 15 °C is of that anchored at 28 °C.
    pub(super) fn at_15(&self) -> &Lanes<L> {
        &self.response.at_15
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
    pub(super) fn sown(crop: &CropDays, g: &Globals<L>) -> Self {
        Self {
            total: Lanes::of(|l| crop.total * g[Global::Demand as usize][l]),
            from_soil: Lanes::ZERO,
            hungry_day: Lanes::all(f64::INFINITY),
        }
    }

    /// What it has had of its demand after so many days, and what of that it fixed.
    pub(super) fn demand(&self, crop: &CropDays, days: usize) -> (Lanes<L>, Lanes<L>) {
        let gone = crop.gone(days);
        let demand = Lanes::of(|l| self.total[l] * gone);
        (demand, Lanes::of(|l| demand[l] * crop.fixed))
    }
}

/// What all runs share on a day.
#[derive(Debug, Clone, Copy)]
struct Shared {
    day: Day,
    capacity: f64,
    per_capacity: f64,
    twice_per_capacity: f64,
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
            twice_per_capacity: 2.0 / course.available_water,
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
        if MULCHED {
            let part: Lanes<L> = Lanes::of(|l| least(1.0, mulch.depth[l] * (1.0 / 75.0)));
            let (bare, difference) = (&s.day.bare, s.day.mulched_less_bare);
            c.response.at_part(bare, (&part, difference), &c.warmth, &mut today.response);
            c.response.at(&s.day.air, &c.warmth, &mut today.body);
        } else {
            c.response.at(&s.day.bare, &c.warmth, &mut today.response);
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
                today.mulch_wet[l] = wet;
                today.body[l] *= least(1.0, c.dry_rate[l] + c.moisture[l] * wet);
            }
            let mut water = self.water[l];
            if WET {
                through += s.below;
                water += through;
            }
            let evaporated = et0 * (bare + s.day.canopy) * least(1.0, water * s.twice_per_capacity);
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
            let modifier = today.response[l] * least(1.0, c.dry_rate[l] + c.moisture[l] * share);
            let supply = c.supply[l] * modifier;
            self.water[l] = water;
            today.water_share[l] = share;
            today.soil[l] = modifier;
            self.mineral[l] += supply;
            account.supply[l] += supply;
        }
    }

    /// Step 7: nitrogen goes down with the water, from the mulch to the seam and on to the soil.
    pub(super) fn wash_down(&mut self, wet: bool, c: &Constants<L>, mulch: &Mulch<L>, today: &Today<L>) {
        let covered = !mulch.depth.any(|depth| depth < COVERING_MM);
        if covered && !wet {
            // Nothing leaves the mulch.
            for l in 0..L {
                let down = self.seam[l] * c.seam_leak[l];
                self.seam[l] -= down;
                self.mineral[l] += down;
            }
            return;
        }
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
    pub(super) fn feed(&mut self, (crop, t): (&CropDays, usize), c: &Constants<L>, state: &mut CropState<L>) {
        let share = crop.share[t];
        if share <= 0.0 {
            return;
        }
        let (before, after) = (crop.gone(t), crop.gone(t + 1));
        let from_soil = 1.0 - crop.fixed;
        let (needed_before, needed) = (from_soil * before, from_soil * share);
        for l in 0..L {
            let needed = state.total[l] * needed;
            let missed = state.total[l] * needed_before - state.from_soil[l];
            let wanted = needed + least(missed, c.catch_up[l] * needed);
            let uptake = least(wanted, c.roots[l] * self.mineral[l]);
            self.mineral[l] -= uptake;
            state.from_soil[l] += uptake;
        }
        if crop.season.contains(&t) {
            #[expect(clippy::cast_precision_loss, reason = "a number of days")]
            let result_day = (t + 1) as f64;
            let enough = (ENOUGH - crop.fixed) * after;
            for l in 0..L {
                let behind =
                    state.total[l] * after >= LEAST_NEED && state.from_soil[l] < state.total[l] * enough;
                let day = if behind { result_day } else { f64::INFINITY };
                state.hungry_day[l] = least(state.hungry_day[l], day);
            }
        }
    }

    /// Step 9: leaching, then denitrification.
    pub(super) fn lose(&mut self, wet: bool, c: &Constants<L>, today: &Today<L>, account: &mut Account<L>) {
        if wet && today.drained.any(|drained| drained > 0.0) {
            for l in 0..L {
                let leached = self.mineral[l] * share_gone(c.leaching[l] * today.drained[l]);
                self.mineral[l] -= leached;
                account.leached[l] += leached;
            }
        }
        if today.water_share.any(|share| share > DENITRIFYING) {
            for l in 0..L {
                let standing =
                    most(0.0, (today.water_share[l] - DENITRIFYING) * (1.0 / (1.0 - DENITRIFYING)));
                let warm = least(1.5, today.response[l] * c.response.at_15[l]);
                let denitrified = self.mineral[l] * (c.denitrification[l] * least(1.0, standing) * warm);
                self.mineral[l] -= denitrified;
                account.denitrified[l] += denitrified;
            }
        }
    }
}

impl<const L: usize> Today<L> {
    pub(super) fn before_the_first(course: &Course, soil: &Soil<L>) -> Self {
        Self {
            through: Lanes::ZERO,
            drained: Lanes::ZERO,
            water_share: Lanes::of(|l| soil.water[l] / course.available_water),
            mulch_wet: Lanes::ZERO,
            response: Lanes::ZERO,
            soil: Lanes::ZERO,
            body: Lanes::ZERO,
        }
    }
}
