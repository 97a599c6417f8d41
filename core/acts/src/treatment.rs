//! A row of the comparison as the model's input.

use kerfbook_science::material::{self, ModelClass};
use kerfbook_science::nitrogen::{Event, Gift, GiftSource, Input, LayerWay, Placement, PutDown};
use kerfbook_science::units::{AreaMass, Density, Length, Share};

use crate::load::Load;
use crate::scenario::Way;
use crate::way::{self, Composted, Row, Wood};

/// Batch of the first part of the load in question, in every way.
pub const LOAD_BATCH: u32 = 0;
/// First batch number of loads that are not in question.
const BACKGROUND_BATCH: u32 = 64;
/// First batch number of what a way adds (compost under a layer, a finished heap).
pub(crate) const ADDED_BATCH: u32 = 8;
/// Wettest load whose moisture is drawn: the model keeps what it draws under 90 %.
const MOST_DRAWN_MOISTURE_PCT: f64 = 90.0;

/// Lays a load in one way on a place. The load always has batches 0 and up, so every way meets the same wood.
pub fn lay(input: &mut Input, row: Row, load: &Load, day: u32) -> Brought {
    match row {
        Row::Bare => Brought::default(),
        Row::WorkedIn => {
            layers(input, load, LayerWay::WorkedIn, day, load.dry_per_area);
            Brought::default()
        }
        Row::OnTop => {
            layers(input, load, LayerWay::OnTop, day, load.dry_per_area);
            Brought::default()
        }
        Row::OverCompost => {
            input.put_down.push(compost_under(
                day,
                way::COMPOST_DRY_T_HA.value,
                way::COMPOST_MINERAL_NITROGEN_KG_HA.value,
            ));
            layers(input, load, LayerWay::OnTop, day, load.dry_per_area);
            Brought { nitrogen_kg_ha: compost_nitrogen_kg_ha(), composted: None }
        }
        Row::OverUrine => {
            input.gifts.push(Gift {
                litres_m2: Some(way::URINE_LITRES_M2.value),
                with_layer: true,
                ..gift(day, GiftSource::Urine, Placement::Under)
            });
            layers(input, load, LayerWay::OnTop, day, load.dry_per_area);
            Brought { nitrogen_kg_ha: way::urine_nitrogen_kg_ha(), composted: None }
        }
        Row::CompostedFirst => {
            let Some(made) = way::composted_with_manure(load, Wood::of(load)) else {
                return Brought::default();
            };
            input.put_down.push(composted(&made, day));
            Brought { nitrogen_kg_ha: made.brought_kg_ha, composted: Some(made) }
        }
        Row::Path => {
            layers(input, load, LayerWay::OnTop, day, at_depth(load, way::PATH_DEPTH_CM.value));
            Brought::default()
        }
        Row::Ring => {
            layers(input, load, LayerWay::OnTop, day, at_depth(load, way::RING_DEPTH_CM.value));
            Brought::default()
        }
    }
}

/// What a way brings with the load.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Brought {
    /// Nitrogen beyond the wood's own, kg/ha.
    pub nitrogen_kg_ha: f64,
    /// The finished heap, where there is one.
    pub composted: Option<Composted>,
}

/// The same wood with the same added nitrogen, as the model's evidence table sets the ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EqualWay {
    /// No wood, the nitrogen mixed in.
    Bare,
    /// Wood and nitrogen mixed in.
    WorkedIn,
    /// The nitrogen mixed in first, the wood on top.
    OnTopNitrogenMixed,
    /// The wood on top, the nitrogen sprinkled on it.
    OnTopNitrogenSprinkled,
    /// The wood on top of the nitrogen.
    OnTopOverNitrogen,
    /// The wood on top of compost that holds the nitrogen.
    OnTopOverCompost,
    /// Composted with the nitrogen, worked in.
    CompostedFirst,
}

impl EqualWay {
    /// In the order of the table.
    pub const ALL: [Self; 7] = [
        Self::Bare,
        Self::WorkedIn,
        Self::OnTopNitrogenMixed,
        Self::OnTopNitrogenSprinkled,
        Self::OnTopOverNitrogen,
        Self::OnTopOverCompost,
        Self::CompostedFirst,
    ];

    /// Id of its name in `core/words`.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Bare => "bare-nitrogen-mixed",
            Self::WorkedIn => "worked-in-nitrogen-mixed",
            Self::OnTopNitrogenMixed => "on-top-nitrogen-mixed-first",
            Self::OnTopNitrogenSprinkled => "on-top-nitrogen-sprinkled",
            Self::OnTopOverNitrogen => "on-top-over-nitrogen",
            Self::OnTopOverCompost => "on-top-over-compost",
            Self::CompostedFirst => "composted-first",
        }
    }

    /// The way's name as used in files and screens.
    pub const fn way(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::WorkedIn => "worked-in",
            Self::OnTopNitrogenMixed | Self::OnTopNitrogenSprinkled => "on-top",
            Self::OnTopOverNitrogen | Self::OnTopOverCompost => "on-top-over-nitrogen",
            Self::CompostedFirst => "composted-first",
        }
    }
}

/// Lays a load with an amount of nitrogen in one of the ways at equal nitrogen.
pub fn lay_equal(input: &mut Input, equal: EqualWay, load: &Load, nitrogen_kg_ha: f64, day: u32) {
    let mut give = |placement| {
        input.gifts.push(Gift {
            nitrogen_kg_ha: Some(nitrogen_kg_ha),
            ..gift(day, GiftSource::AmmoniumSulfate, placement)
        });
    };
    match equal {
        EqualWay::Bare | EqualWay::WorkedIn | EqualWay::OnTopNitrogenMixed => give(Placement::Mixed),
        EqualWay::OnTopNitrogenSprinkled => give(Placement::Top),
        EqualWay::OnTopOverNitrogen => give(Placement::Under),
        EqualWay::OnTopOverCompost => {
            let dry_t_ha = nitrogen_kg_ha * way::COMPOST_CARBON_NITROGEN.value
                / ModelClass::Compost.carbon_share()
                / 1000.0;
            input.put_down.push(compost_under(day, dry_t_ha, 0.0));
        }
        EqualWay::CompostedFirst => {
            input
                .put_down
                .push(composted(&way::composted_with_nitrogen(load, Wood::of(load), nitrogen_kg_ha), day));
        }
    }
    match equal {
        EqualWay::Bare | EqualWay::CompostedFirst => {}
        EqualWay::WorkedIn => layers(input, load, LayerWay::WorkedIn, day, load.dry_per_area),
        _ => layers(input, load, LayerWay::OnTop, day, load.dry_per_area),
    }
}

/// A feed of some nitrogen mixed in before any layer is laid, as ammonium sulfate: the soluble source that loses
/// least.
pub fn mixed_in(nitrogen_kg_ha: f64, day: u32) -> Gift {
    Gift { nitrogen_kg_ha: Some(nitrogen_kg_ha), ..gift(day, GiftSource::AmmoniumSulfate, Placement::Mixed) }
}

/// A mulch dug in whole.
pub fn dug_in(day: u32) -> Event {
    Event::SoilWorked { day, share: Some(1.0), depth_mm: None }
}

/// Lays a load that is not the one in question: it lies there whatever is decided.
pub fn background(input: &mut Input, load: &Load, way: Option<Way>, day: u32, index: usize) {
    let slot = if way == Some(Way::WorkedIn) { LayerWay::WorkedIn } else { LayerWay::OnTop };
    let first = BACKGROUND_BATCH + 8 * u32::try_from(index).unwrap_or(0);
    numbered(input, load, slot, day, first);
}

/// Lays a load whose batch has a number of its own.
pub fn numbered(input: &mut Input, load: &Load, slot: LayerWay, day: u32, batch: u32) {
    let first = input.put_down.len();
    layers(input, load, slot, day, load.dry_per_area);
    for layer in input.put_down.iter_mut().skip(first) {
        layer.batch = Some(batch + layer.batch.unwrap_or(0));
    }
}

/// The layers of a load, one a part of its material.
pub fn layers(input: &mut Input, load: &Load, slot: LayerWay, day: u32, dry: AreaMass) {
    let whole = load.carbon_nitrogen;
    let density = Density::from_kg_m3(load.wet_density.kg_m3() * (1.0 - load.moisture.fraction()));
    for (batch, part) in (LOAD_BATCH..).zip(&load.composition) {
        let (material, one_of) = match part.one_of {
            [only] => (Some(*only), Vec::new()),
            several => (None, several.to_vec()),
        };
        let dry_t_ha = dry.t_ha() * part.share;
        // A moisture that was only judged draws with the runs; the mass is then stated as it was moist.
        let judged = load.moisture_half.filter(|_| load.moisture.percent() <= MOST_DRAWN_MOISTURE_PCT);
        input.put_down.push(PutDown {
            day,
            material,
            one_of,
            way: slot,
            particle: load.particle,
            batch: Some(batch),
            dry_t_ha: judged.is_none().then_some(dry_t_ha),
            wet_t_ha: judged.map(|_| dry_t_ha / (1.0 - load.moisture.fraction())),
            moisture_pct: judged.map(|_| load.moisture.percent()),
            moisture_half_width: judged.map_or(PutDown::default().moisture_half_width, Share::percent),
            fines_share: load.fines_share,
            fast_rate_factor: load.rate_factor,
            fast_rate_more_sd: (load.rate_spread > 0.0).then_some(load.rate_spread),
            carbon_nitrogen: whole
                .map(|whole| material::part_carbon_nitrogen(&load.composition, part, whole)),
            mass_sd: load.mass_spread(),
            dry_bulk_density_kg_m3: Some(density.kg_m3()),
            ..PutDown::default()
        });
    }
}

fn at_depth(load: &Load, cm: f64) -> AreaMass {
    load.dry_per_area * (Length::from_cm(cm).mm() / load.depth.mm().max(f64::MIN_POSITIVE))
}

/// Nitrogen that finished compost brings under a layer, kg/ha.
pub fn compost_nitrogen_kg_ha() -> f64 {
    let carbon = way::COMPOST_DRY_T_HA.value * 1000.0 * ModelClass::Compost.carbon_share();
    carbon / way::COMPOST_CARBON_NITROGEN.value + way::COMPOST_MINERAL_NITROGEN_KG_HA.value
}

fn compost_under(day: u32, dry_t_ha: f64, mineral_kg_ha: f64) -> PutDown {
    PutDown {
        day,
        material: Some(ModelClass::Compost),
        way: LayerWay::Under,
        batch: Some(ADDED_BATCH),
        dry_t_ha: Some(dry_t_ha),
        carbon_nitrogen: Some(way::COMPOST_CARBON_NITROGEN.value),
        mineral_n_kg_ha: mineral_kg_ha,
        ..PutDown::default()
    }
}

fn composted(made: &Composted, day: u32) -> PutDown {
    PutDown {
        day,
        material: Some(ModelClass::CompostedWood),
        way: LayerWay::WorkedIn,
        batch: Some(ADDED_BATCH),
        dry_t_ha: Some(made.dry_t_ha),
        carbon_nitrogen: Some(made.carbon_nitrogen),
        ..PutDown::default()
    }
}

/// A gift of nothing yet: the caller says how much.
fn gift(day: u32, source: GiftSource, placement: Placement) -> Gift {
    Gift {
        day,
        source,
        nitrogen_kg_ha: None,
        litres_m2: None,
        placement,
        covered: false,
        incorporated_days: None,
        with_layer: false,
    }
}
