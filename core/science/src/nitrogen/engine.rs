//! One block of runs through all days of a stage, step by step as the specification has them. `L` = 1 is the
//! median run, by the same lines.

use super::drivers::{Act, Course, Day, Dose, DoseAmount};
use super::ground::{Account, Constants, CropState, Mulch, Soil, Today};
use super::input::{LayerWay, Placement};
use super::lanes::{Lanes, TINY, most};
use super::layer::{BODY, CONTACT, Globals, Humus, Layer, New, Pools, SOIL};
use super::parameter::Global;
use super::sampling::triangular;

/// A block at the end of a stage.
#[derive(Debug, Clone)]
pub(super) struct Ended<const L: usize> {
    layers: Vec<Layer<L>>,
    soil: Soil<L>,
}

impl<const L: usize> Ended<L> {
    /// The layers, in order.
    pub(super) fn layers(&self) -> &[Layer<L>] {
        &self.layers
    }
}

/// What is kept of an evening, in the order of `runs::Series`.
pub(super) const SERIES: usize = 15;

/// Receives a block's evenings.
pub(super) trait Keep<const L: usize> {
    /// Whether the evening of this result day is wanted; days come in order.
    fn wants(&self, day: usize) -> bool;
    /// An evening that is wanted: the series, and the crops.
    fn evening(&mut self, series: &[Lanes<L>; SERIES], crops: impl Iterator<Item = CropEvening<L>>);
}

/// A crop on an evening, kg/ha.
#[derive(Debug, Clone)]
pub(super) struct CropEvening<const L: usize> {
    /// Taken up and fixed so far.
    pub(super) uptake: Lanes<L>,
    /// Needed so far.
    pub(super) demand: Lanes<L>,
}

/// The figures of a block at the end.
#[derive(Debug, Clone)]
pub(super) struct Totals<const L: usize> {
    pub(super) release_day: Lanes<L>,
    pub(super) crops: Vec<CropEvening<L>>,
    pub(super) hungry_days: Vec<Lanes<L>>,
    pub(super) dry_days: Lanes<L>,
    pub(super) mat_days: Lanes<L>,
    pub(super) residue_nitrogen: Lanes<L>,
    pub(super) carbon_residual: Lanes<L>,
    pub(super) nitrogen_residual: Lanes<L>,
}

/// What is watched over the evenings.
#[derive(Debug, Clone)]
struct Watch<const L: usize> {
    most_tied: Lanes<L>,
    most_tied_day: Lanes<L>,
    carbon_residual: Lanes<L>,
    nitrogen_residual: Lanes<L>,
    dry_days: Lanes<L>,
    mat_days: Lanes<L>,
}

/// A block on the morning of a day, apart from what it has been told.
#[derive(Debug, Clone)]
pub(super) struct Morning<const L: usize> {
    soil: Soil<L>,
    layers: Vec<Layer<L>>,
    crops: Vec<CropState<L>>,
    mulch: Mulch<L>,
    today: Today<L>,
    account: Account<L>,
    breath: Lanes<L>,
    watch: Watch<L>,
    nitrogen_above: bool,
}

/// A dose of its own amount in each run, which comes before all else on its day. Days end where no run keeps the first
/// `crops` crops from hunger.
#[derive(Debug, Clone)]
pub(super) struct Tried<const L: usize> {
    pub(super) day: usize,
    pub(super) dose: Dose,
    pub(super) kg_ha: Lanes<L>,
    pub(super) crops: usize,
}

/// A block in a stage.
pub(super) struct Block<'a, const L: usize> {
    course: &'a Course,
    globals: &'a Globals<L>,
    constants: Constants<L>,
    humus: Humus<L>,
    soil: Soil<L>,
    layers: Vec<Layer<L>>,
    crops: Vec<CropState<L>>,
    mulch: Mulch<L>,
    today: Today<L>,
    account: Account<L>,
    /// Carbon breathed off since the stage began.
    breath: Lanes<L>,
    watch: Watch<L>,
    /// How many layers there are in each slot.
    occupied: [usize; 3],
    /// Slow mixing and the upward flux, a day at modifier 1.
    mixing: Lanes<L>,
    rising: Lanes<L>,
    /// Nitrogen may lie on the soil or in a mulch.
    nitrogen_above: bool,
    tried: Option<Tried<L>>,
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
            layer.tied = Lanes::ZERO;
            layer.lifted = None;
        }
        let soil = earlier.map_or_else(|| Soil::at_start(course, globals), |ended| ended.soil.clone());
        let humus = Humus::of(globals);
        let mut account = Account { nitrogen_in: soil.nitrogen(), ..Account::EMPTY };
        for layer in &layers {
            layer.weigh(&humus, &mut account.carbon_in, &mut account.residue_nitrogen);
        }
        for l in 0..L {
            account.nitrogen_in[l] += account.residue_nitrogen[l];
        }
        let constants = Constants::of(course, globals);
        for layer in &mut layers {
            layer.expect(&constants);
        }
        let morning = Morning {
            crops: course.crops.iter().map(|crop| CropState::sown(crop, globals)).collect(),
            mulch: Mulch::NONE,
            today: Today::before_the_first(course, &soil),
            account,
            breath: Lanes::ZERO,
            watch: Watch {
                most_tied: Lanes::ZERO,
                most_tied_day: Lanes::ZERO,
                carbon_residual: Lanes::ZERO,
                nitrogen_residual: Lanes::ZERO,
                dry_days: Lanes::ZERO,
                mat_days: Lanes::ZERO,
            },
            nitrogen_above: earlier.is_some(),
            soil,
            layers,
        };
        Self::on(course, globals, constants, morning, new)
    }

    /// A block that goes on from a morning with more layers to come. The course is the same until then.
    pub(super) fn go_on(
        course: &'a Course,
        globals: &'a Globals<L>,
        morning: Morning<L>,
        new: Vec<New<'_, L>>,
    ) -> Self {
        Self::on(course, globals, Constants::of(course, globals), morning, new)
    }

    fn on(
        course: &'a Course,
        globals: &'a Globals<L>,
        constants: Constants<L>,
        morning: Morning<L>,
        new: Vec<New<'_, L>>,
    ) -> Self {
        let Morning { soil, mut layers, crops, mulch, today, account, breath, watch, nitrogen_above } =
            morning;
        layers.extend(new.into_iter().map(|layer| Layer::prepare(layer, globals, &constants)));
        Self {
            humus: Humus::of(globals),
            occupied: occupied(&layers),
            mixing: Lanes::of(|l| globals[Global::Mixing as usize][l] * constants.at_15()[l]),
            rising: Lanes::of(|l| globals[Global::Upward as usize][l] * constants.at_15()[l]),
            course,
            globals,
            constants,
            soil,
            layers,
            crops,
            mulch,
            today,
            account,
            breath,
            watch,
            nitrogen_above,
            tried: None,
        }
    }

    /// With a dose to try.
    pub(super) fn with_tried(mut self, tried: Tried<L>) -> Self {
        self.tried = Some(tried);
        self
    }

    /// All days; then what is left for the next stage. `lifts` are carried off after the last evening.
    pub(super) fn run(mut self, keep: &mut impl Keep<L>, lifts: &[(usize, f64)]) -> (Totals<L>, Ended<L>) {
        if keep.wants(0) {
            self.keep_evening(0, keep);
        }
        self.days(0..self.course.days.len(), keep);
        self.end(lifts)
    }

    /// The days up to the morning of one.
    pub(super) fn until(mut self, day: usize, keep: &mut impl Keep<L>) -> Morning<L> {
        self.days(0..day, keep);
        let Self { soil, layers, crops, mulch, today, account, breath, watch, nitrogen_above, .. } = self;
        Morning { soil, layers, crops, mulch, today, account, breath, watch, nitrogen_above }
    }

    /// The days from the morning of one; then the end.
    pub(super) fn from(
        mut self,
        day: usize,
        keep: &mut impl Keep<L>,
        lifts: &[(usize, f64)],
    ) -> (Totals<L>, Ended<L>) {
        self.days(day..self.course.days.len(), keep);
        self.end(lifts)
    }

    fn days(&mut self, span: core::ops::Range<usize>, keep: &mut impl Keep<L>) {
        let course = self.course;
        let mut acts = course.acts.iter().skip_while(|(when, _)| *when < span.start).peekable();
        for (t, day) in course.days.iter().enumerate().take(span.end).skip(span.start) {
            if let Some(tried) = self.tried.as_ref().filter(|tried| tried.day == t) {
                let one = Dose { amount: DoseAmount::Nitrogen(1.0), ..tried.dose };
                let kg_ha = tried.kg_ha;
                self.give(one, &kg_ha);
            }
            while let Some((_, act)) = acts.next_if(|(when, _)| *when == t) {
                self.act(*act);
                self.occupied = occupied(&self.layers);
            }
            let mulched = self.occupied[CONTACT] > 0;
            if mulched {
                self.refill();
            }
            let mulch = mulched.then_some(&self.mulch);
            let c = &self.constants;
            self.soil.water_and_warm((course, day), c, mulch, &mut self.today, &mut self.account);
            if !self.layers.is_empty() {
                self.residue();
            }
            let wet = course.is_wet(day);
            let c = &self.constants;
            if self.nitrogen_above || mulched {
                self.soil.wash_down(wet, c, &self.mulch, &self.today);
            }
            for (crop, state) in course.crops.iter().zip(&mut self.crops) {
                self.soil.feed((crop, t), c, state);
            }
            if self.tried.as_ref().is_some_and(|tried| self.all_hungry(tried.crops)) {
                return;
            }
            self.soil.lose(wet, c, &self.today, &mut self.account);
            self.watch(t, day, mulched);
            let kept = keep.wants(t + 1);
            if kept || cfg!(debug_assertions) {
                self.balance(t + 1);
            }
            if kept {
                self.keep_evening(t + 1, keep);
            }
        }
    }

    /// Whether in every run some crop of the first has gone hungry.
    fn all_hungry(&self, crops: usize) -> bool {
        let crops = &self.crops[..crops.min(self.crops.len())];
        (0..L).all(|l| crops.iter().any(|crop| crop.hungry_day[l].is_finite()))
    }

    fn end(mut self, lifts: &[(usize, f64)]) -> (Totals<L>, Ended<L>) {
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
            Act::Give(dose) => self.give(dose, &Lanes::all(1.0)),
        }
    }

    fn work(&mut self, share: f64) {
        let share = Lanes::all(share);
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
        let share = Lanes::all(share);
        let mut lifted = Pools::EMPTY;
        for cell in &mut layer.cells[..SOIL] {
            cell.pools.shift(&mut lifted, &share);
        }
        for l in 0..L {
            self.account.carbon_lifted[l] += lifted.carbon(l);
            self.account.nitrogen_lifted[l] += lifted.nitrogen(l, &layer.exchange, &self.humus);
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
            let nitrogen = layer.waiting.nitrogen(l, &layer.exchange, &self.humus);
            self.account.carbon_in[l] += layer.waiting.carbon(l);
            self.account.nitrogen_in[l] += nitrogen;
            self.account.residue_nitrogen[l] += nitrogen;
        }
        layer.waiting.shift(&mut layer.cells[slot].pools, &Lanes::all(1.0));
        // A body fills the contact from the first day on, and the contact is mixed in.
        for cell in &mut layer.cells[slot..] {
            cell.present = true;
        }
        if let Some(dose) = layer.dose {
            let mass = layer.properties.mass;
            self.give(dose, &mass);
        }
    }

    fn give(&mut self, dose: Dose, factor: &Lanes<L>) {
        let (urine, position) =
            (&self.globals[Global::Urine as usize], &self.globals[Global::LossPosition as usize]);
        for l in 0..L {
            let nitrogen = match dose.amount {
                DoseAmount::Nitrogen(nitrogen) => nitrogen,
                DoseAmount::PerUrineStrength(factor) => factor * urine[l],
            };
            let amount = factor[l] * nitrogen;
            let share = if position[l] < 0.0 { dose.loss.1 } else { triangular(dose.loss, position[l]) };
            let lost = amount * share;
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
        let contact_depth = &self.globals[Global::ContactDepth as usize];
        let mut covering = self.layers.iter_mut().filter(|layer| layer.covers());
        if let (Some(layer), None, [1, ..]) = (covering.next(), covering.next(), self.occupied) {
            layer.refill_alone(contact_depth, &mut self.mulch);
            self.mulch.close(&self.globals[Global::Interception as usize]);
            return;
        }
        let mut filled: Lanes<L> = Lanes::ZERO;
        self.mulch = Mulch::NONE;
        // What moves from body to contact leaves the depth as it is.
        for layer in self.layers.iter_mut().filter(|layer| layer.covers()) {
            layer.add_to(&mut self.mulch, &mut filled);
        }
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[BODY].present) {
            layer.fill_contact(contact_depth, &mut filled);
        }
        self.mulch.close(&self.globals[Global::Interception as usize]);
    }

    /// Steps 6 and 10: decay, what nitrogen each slot reaches, and what a shortage does; slow mixing.
    fn residue(&mut self) {
        let (today, soil, humus) = (&self.today, &mut self.soil, &self.humus);
        let reach = &self.globals[Global::Reach as usize];
        let [bodies, contacts, soils] = self.occupied;
        // Only the body draws on the nitrogen in the mulch.
        let mut wanted = Lanes::ZERO;
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[BODY].present) {
            let modifier = &today.body;
            layer.turn_over(modifier);
            if bodies == 1 {
                layer.decay_alone(BODY, humus, (modifier, reach), &mut self.breath, &mut soil.in_mulch);
            } else {
                layer.decay(BODY, humus, modifier, &mut wanted);
            }
        }
        if bodies > 1 {
            let share = take(reach, &wanted, &mut soil.in_mulch);
            for layer in self.layers.iter_mut().filter(|layer| layer.cells[BODY].present) {
                layer.settle(BODY, &share, &mut self.breath, &mut soil.in_mulch);
            }
        }
        let modifier = &today.soil;
        if contacts == 0 && soils == 1 {
            for layer in self.layers.iter_mut().filter(|layer| layer.cells[SOIL].present) {
                layer.turn_over(modifier);
                layer.decay_alone(SOIL, humus, (modifier, reach), &mut self.breath, &mut soil.mineral);
            }
            return;
        }
        if let ([layer], [_, 1, _]) = (self.layers.as_mut_slice(), self.occupied) {
            let (within, moving) = ((modifier, reach), (&self.rising, &self.mixing));
            layer.decay_below(humus, within, moving, &mut self.breath, (&mut soil.seam, &mut soil.mineral));
            return;
        }
        let mut wanted: [Lanes<L>; 3] = [Lanes::ZERO; 3];
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[SOIL].present) {
            layer.turn_over(modifier);
            for slot in [CONTACT, SOIL] {
                if layer.cells[slot].present {
                    layer.decay(slot, humus, modifier, &mut wanted[slot]);
                }
            }
        }
        let [_, of_seam, mut of_soil] = wanted;
        if contacts > 0 {
            let share = take(reach, &of_seam, &mut soil.seam);
            let upward = rising(&self.rising, modifier, &of_seam, &share);
            for layer in self.layers.iter_mut().filter(|layer| layer.cells[CONTACT].present) {
                layer.take_from_seam(&share, &upward, &mut of_soil);
            }
        }
        let share = take(reach, &of_soil, &mut soil.mineral);
        for layer in &mut self.layers {
            if layer.cells[CONTACT].present {
                layer.settle(CONTACT, &share, &mut self.breath, &mut soil.seam);
            }
            if layer.cells[SOIL].present {
                layer.settle(SOIL, &share, &mut self.breath, &mut soil.mineral);
            }
        }
        // Step 10: soil animals mix a little of the contact in, whatever water, crop and losses do until then.
        for layer in self.layers.iter_mut().filter(|layer| layer.cells[CONTACT].present) {
            layer.mix_slowly(&self.mixing, modifier);
        }
    }

    /// The evening: the highest tie-up so far, days of drought and of shed water.
    fn watch(&mut self, t: usize, day: &Day, mulched: bool) {
        let watch = &mut self.watch;
        #[expect(clippy::cast_precision_loss, reason = "a number of days")]
        let result_day = (t + 1) as f64;
        match self.layers.as_slice() {
            [] => {}
            [layer] => watch.follow_tied(&layer.tied, result_day),
            layers => watch.follow_tied(&tied(layers), result_day),
        }
        if day.growing {
            let (today, mulch) = (&self.today, &self.mulch);
            for l in 0..L {
                watch.dry_days[l] += if today.water_share[l] < 0.3 { 1.0 } else { 0.0 };
            }
            if mulched {
                for l in 0..L {
                    let deep = mulch.depth[l] >= 25.0;
                    let mat = deep && mulch.fine[l] >= 0.5 * mulch.depth[l] && today.mulch_wet[l] < 0.1;
                    watch.mat_days[l] += if mat { 1.0 } else { 0.0 };
                }
            }
        }
    }

    /// Section 8: what came in is what is there and what went out. On every evening that is kept, and on all in
    /// builds that check themselves.
    fn balance(&mut self, days: usize) {
        let [uptake, _] = self.taken_up(days);
        let (mut carbon, mut nitrogen) = (self.breath, self.soil.nitrogen());
        for layer in &self.layers {
            layer.weigh(&self.humus, &mut carbon, &mut nitrogen);
        }
        let (a, watch) = (&self.account, &mut self.watch);
        for l in 0..L {
            let carbon_out = carbon[l] + a.carbon_lifted[l];
            let lost = uptake[l] + a.leached[l] + a.denitrified[l] + a.ammonia[l] + a.nitrogen_lifted[l];
            let nitrogen_out = nitrogen[l] + lost;
            let carbon_off = (a.carbon_in[l] - carbon_out).abs() / most(1.0, a.carbon_in[l]);
            let nitrogen_in = a.nitrogen_in[l] + a.supply[l];
            let nitrogen_off = (nitrogen_in - nitrogen_out).abs() / most(1.0, nitrogen_in);
            watch.carbon_residual[l] = most(watch.carbon_residual[l], carbon_off);
            watch.nitrogen_residual[l] = most(watch.nitrogen_residual[l], nitrogen_off);
        }
        debug_assert!(self.lowest() > -1e-9, "a pool is below nothing");
    }

    /// The lowest of all pools.
    fn lowest(&self) -> f64 {
        let soil = &self.soil;
        let ground = [&soil.mineral, &soil.seam, &soil.in_mulch, &soil.water, &soil.mulch_water];
        let cells = self.layers.iter().flat_map(|layer| &layer.cells).map(|cell| cell.pools.lowest());
        ground.iter().flat_map(|pool| pool.iter()).copied().chain(cells).fold(f64::INFINITY, f64::min)
    }

    /// What crops have taken from the soil after so many days, and what they have fixed.
    fn taken_up(&self, days: usize) -> [Lanes<L>; 2] {
        let mut sums = [Lanes::ZERO; 2];
        for (crop, state) in self.course.crops.iter().zip(&self.crops) {
            let (_, fixed) = state.demand(crop, days);
            for l in 0..L {
                sums[0][l] += state.from_soil[l];
                sums[1][l] += fixed[l];
            }
        }
        sums
    }

    /// The crops as they stand after so many days.
    fn crops(&self, days: usize) -> impl Iterator<Item = CropEvening<L>> {
        self.course.crops.iter().zip(&self.crops).map(move |(crop, state)| {
            let (demand, fixed) = state.demand(crop, days);
            CropEvening { uptake: Lanes::of(|l| state.from_soil[l] + fixed[l]), demand }
        })
    }

    fn keep_evening(&self, days: usize, keep: &mut impl Keep<L>) {
        let (account, soil) = (&self.account, &self.soil);
        let [uptake, fixed] = self.taken_up(days);
        let series = [
            tied(&self.layers),
            soil.mineral,
            soil.seam,
            soil.in_mulch,
            uptake,
            fixed,
            account.leached,
            account.denitrified,
            account.ammonia,
            account.supply,
            self.breath,
            self.mulch.depth,
            account.irrigation,
            account.drained,
            self.today.water_share,
        ];
        keep.evening(&series, self.crops(days));
    }

    fn totals(&self) -> Totals<L> {
        let (watch, tied) = (&self.watch, tied(&self.layers));
        Totals {
            // Equation 18: the highest day, if tie-up has come down from it.
            release_day: Lanes::of(|l| {
                let most_tied = watch.most_tied[l];
                let down = tied[l] < most_tied - most(1.0, 0.02 * most_tied);
                if most_tied > 0.5 && down { watch.most_tied_day[l] } else { f64::INFINITY }
            }),
            crops: self.crops(self.course.days.len()).collect(),
            hungry_days: self.crops.iter().map(|crop| crop.hungry_day).collect(),
            dry_days: watch.dry_days,
            mat_days: watch.mat_days,
            residue_nitrogen: self.account.residue_nitrogen,
            carbon_residual: watch.carbon_residual,
            nitrogen_residual: watch.nitrogen_residual,
        }
    }
}

impl<const L: usize> Watch<L> {
    /// Keeps the highest tie-up and its day.
    fn follow_tied(&mut self, tied: &Lanes<L>, result_day: f64) {
        let mut any = false;
        for l in 0..L {
            any |= tied[l] > self.most_tied[l];
        }
        if any {
            for l in 0..L {
                let higher = tied[l] > self.most_tied[l];
                self.most_tied_day[l] = if higher { result_day } else { self.most_tied_day[l] };
                self.most_tied[l] = most(tied[l], self.most_tied[l]);
            }
        }
    }
}

/// Nitrogen that all layers hold.
fn tied<const L: usize>(layers: &[Layer<L>]) -> Lanes<L> {
    Lanes::of(|l| layers.iter().fold(0.0, |sum, layer| sum + layer.tied[l]))
}

/// How many layers are, or have been, in each slot.
fn occupied<const L: usize>(layers: &[Layer<L>]) -> [usize; 3] {
    [BODY, CONTACT, SOIL].map(|slot| layers.iter().filter(|layer| layer.cells[slot].present).count())
}

/// Takes what is wanted from the part of a pool within reach, and says which share of it could be had.
fn take<const L: usize>(reach: &Lanes<L>, wanted: &Lanes<L>, pool: &mut Lanes<L>) -> Lanes<L> {
    let mut share: Lanes<L> = Lanes::ZERO;
    for l in 0..L {
        let (here, want) = (pool[l], wanted[l]);
        let have = reach[l] * here;
        share[l] = have / most(most(have, want), TINY);
        pool[l] = most(0.0, here - share[l] * want);
    }
    share
}

/// What may rise from the soil for each kg that the contact still wants after the seam.
fn rising<const L: usize>(
    upward: &Lanes<L>,
    modifier: &Lanes<L>,
    wanted: &Lanes<L>,
    share: &Lanes<L>,
) -> Lanes<L> {
    Lanes::of(|l| upward[l] * modifier[l] / most(wanted[l] - wanted[l] * share[l], TINY))
}
