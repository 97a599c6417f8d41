//! The properties of one batch in every run: what is drawn, and the rates that follow.

use super::input::PutDown;
use super::lanes::Lanes;
use super::parameter::{BatchParameter, ClassFigures, Kind, ParticleFigures, Spread, class_figures};
use super::sampling::Sample;
use crate::material::ModelClass;

/// The draws of one batch over all runs.
#[derive(Debug, Clone)]
pub(super) struct Batch {
    kind: Kind,
    /// By offset of parameter, then run.
    columns: Vec<Vec<f64>>,
    /// The class in each run, where it is drawn; else one for all.
    classes: Vec<ModelClass>,
    put: PutDown,
}

/// The properties of one layer's batch, a lane for each run.
#[derive(Debug, Clone)]
pub(super) struct Properties<const L: usize> {
    /// Wood, bark or compost; else one of Nicolardot's materials.
    pub(super) wood: bool,
    /// C:N of the residue.
    pub(super) carbon_nitrogen: Lanes<L>,
    /// Rates, a day at 15 °C.
    pub(super) fast_rate: Lanes<L>,
    pub(super) slow_rate: Lanes<L>,
    pub(super) death_rate: Lanes<L>,
    pub(super) humus_rate: Lanes<L>,
    /// Carbon-use efficiencies.
    pub(super) fast_efficiency: Lanes<L>,
    pub(super) slow_efficiency: Lanes<L>,
    /// C:N of decomposers.
    pub(super) decomposers: Lanes<L>,
    pub(super) humification: Lanes<L>,
    /// Accessible share of the carbon.
    pub(super) fast_share: Lanes<L>,
    /// Carbon, part of dry mass.
    pub(super) carbon_share: Lanes<L>,
    /// Dry mass laid down, t/ha.
    pub(super) dry: Lanes<L>,
    /// Draw of the mass.
    pub(super) mass: Lanes<L>,
    /// Effect of particle size on decay.
    pub(super) decay: Lanes<L>,
    /// mm of depth in each kg C/ha.
    pub(super) depth_per_carbon: Lanes<L>,
    pub(super) particle: ParticleFigures,
}

impl Batch {
    /// Draws a batch; `position` is the layer's in its list.
    pub(super) fn draw(put: &PutDown, position: usize, sample: &Sample) -> Self {
        let first = put.first_index(position);
        let mut by_speed = put.one_of.clone();
        by_speed.sort_by(|a, b| class_figures(*a).fast_rate.total_cmp(&class_figures(*b).fast_rate));
        let classes = if let Some(class) = put.material {
            vec![class]
        } else {
            let offset = BatchParameter::Wood as u64;
            let figures = BatchParameter::Wood.parameter(Kind::Wood);
            let positions = sample.values(first + offset, figures.median, figures.spread);
            positions.into_iter().filter_map(|u| at_position(&by_speed, u)).collect()
        };
        let kind = classes.first().map_or(Kind::Wood, |class| class_figures(*class).kind);
        let columns = BatchParameter::ALL
            .iter()
            .map(|name| {
                let figures = name.parameter(kind);
                let spread = match name {
                    BatchParameter::CarbonNitrogen => {
                        let usual = if put.carbon_nitrogen.is_some() { 0.08 } else { 0.20 };
                        Spread::Lognormal(put.carbon_nitrogen_sd.unwrap_or(usual))
                    }
                    BatchParameter::Mass => Spread::Lognormal(put.mass_sd),
                    BatchParameter::FastRate => widened(figures.spread, put.fast_rate_more_sd),
                    _ => figures.spread,
                };
                sample.values(first + *name as u64, figures.median, spread)
            })
            .collect();
        Self { kind, columns, classes, put: put.clone() }
    }

    /// The draws of a parameter, run by run. For an unknown wood, `Wood` gives the rate of the class drawn.
    pub(super) fn values(&self, name: BatchParameter, runs: usize) -> Vec<f64> {
        match name {
            BatchParameter::Wood => (0..runs)
                .filter_map(|run| self.classes.get(run).or(self.classes.last()))
                .map(|class| class_figures(*class).fast_rate)
                .collect(),
            _ => self.columns.get(name as usize).cloned().unwrap_or_default(),
        }
    }

    /// The properties in some runs.
    pub(super) fn lanes<const L: usize>(&self, members: &[usize; L]) -> Properties<L> {
        let column = |name: BatchParameter| -> Lanes<L> {
            Lanes::of(|l| self.columns.get(name as usize).map_or(0.0, |values| at_run(values, members[l])))
        };
        let class: [ModelClass; L] = members.map(|run| {
            self.classes.get(run).or(self.classes.last()).copied().unwrap_or(ModelClass::Hardwood)
        });
        let figures: [ClassFigures; L] = class.map(class_figures);
        let put = &self.put;
        let particle = ParticleFigures::of(put.particle, put.fines_share);
        let effect = column(BatchParameter::ParticleEffect);
        let (moist, mass) = (column(BatchParameter::Moisture), column(BatchParameter::Mass));
        let (rate, share) = (column(BatchParameter::FastRate), column(BatchParameter::FastShare));
        let slow_rate = column(BatchParameter::SlowRate);
        let mut made = Properties {
            wood: self.kind == Kind::Wood,
            carbon_nitrogen: column(BatchParameter::CarbonNitrogen),
            fast_rate: Lanes::ZERO,
            slow_rate: Lanes::ZERO,
            death_rate: column(BatchParameter::DeathRate),
            humus_rate: column(BatchParameter::HumusRate),
            fast_efficiency: column(BatchParameter::FastEfficiency),
            slow_efficiency: column(BatchParameter::SlowEfficiency),
            decomposers: column(BatchParameter::DecomposerCarbonNitrogen),
            humification: column(BatchParameter::Humification),
            fast_share: Lanes::ZERO,
            carbon_share: Lanes::ZERO,
            dry: Lanes::ZERO,
            mass,
            decay: Lanes::ZERO,
            depth_per_carbon: Lanes::ZERO,
            particle,
        };
        for l in 0..L {
            let ratio = put.carbon_nitrogen.unwrap_or(class[l].carbon_nitrogen()) * made.carbon_nitrogen[l];
            made.carbon_nitrogen[l] = ratio;
            made.fast_rate[l] = figures[l].fast_rate * put.fast_rate_factor * rate[l];
            if self.kind == Kind::Nicolardot {
                made.apply_nicolardot(l, ratio, rate[l]);
            }
            let (middle, half_width) = figures[l].fast_share;
            made.fast_share[l] = f64::clamp(middle + half_width * share[l], 0.0, 1.0);
            made.slow_rate[l] = figures[l].slow_factor * slow_rate[l];
            let carbon = put.carbon_share.unwrap_or(class[l].carbon_share());
            let density = put.dry_bulk_density_kg_m3.unwrap_or(class[l].dry_density().kg_m3());
            let dry = match (put.dry_t_ha, put.wet_t_ha, put.depth_mm) {
                (Some(dry), ..) => dry,
                (None, Some(wet), _) => {
                    let moisture = put.moisture_pct.unwrap_or(0.0) + put.moisture_half_width * moist[l];
                    wet * (1.0 - f64::clamp(moisture, 0.0, 90.0) / 100.0)
                }
                (None, None, depth) => depth.unwrap_or(0.0) * density / 100.0,
            };
            made.dry[l] = dry * mass[l];
            made.carbon_share[l] = carbon;
            made.depth_per_carbon[l] = 0.1 / (carbon * density);
            // Dust is the size the rates were fitted to: it has no spread of its own.
            let drawn = if particle.decay < 1.0 { effect[l] } else { 1.0 };
            made.decay[l] = particle.decay * drawn;
        }
        made
    }
}

impl<const L: usize> Properties<L> {
    /// Equations of Nicolardot, Recous & Mary 2001 for residue of C:N `ratio`, which they hold to 150.
    fn apply_nicolardot(&mut self, l: usize, ratio: f64, rate: f64) {
        let ratio = f64::min(150.0, ratio);
        self.carbon_nitrogen[l] = ratio;
        self.fast_rate[l] = (0.07 + 1.94 / ratio) * rate;
        self.decomposers[l] *= f64::max(7.8, 16.1 - 123.0 / ratio);
        let humification = (1.0 - 0.69 * ratio / (11.2 + ratio)) * self.humification[l];
        self.humification[l] = f64::min(0.95, humification);
    }
}

/// A lognormal with a further error that has nothing to do with its own.
fn widened(spread: Spread, more: Option<f64>) -> Spread {
    match (spread, more) {
        (Spread::Lognormal(own), Some(more)) => Spread::Lognormal((own * own + more * more).sqrt()),
        _ => spread,
    }
}

/// The value of a run; of the last where there are fewer.
pub(super) fn at_run(values: &[f64], run: usize) -> f64 {
    values.get(run).or(values.last()).copied().unwrap_or(0.0)
}

/// One of the classes, each as likely for a position in (0, 1); the faster of the middle two at one half.
fn at_position(classes: &[ModelClass], u: f64) -> Option<ModelClass> {
    #[expect(clippy::cast_precision_loss, reason = "a handful of classes")]
    let count = classes.len() as f64;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 <= u < 1")]
    let place = (u * count) as usize;
    classes.get(place).or(classes.last()).copied()
}
