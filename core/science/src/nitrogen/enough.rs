//! The least of a gift that keeps crops from hunger in the median run: amounts tried side by side, a lane each.

use super::drivers::{Course, dose_of_gift};
use super::engine::{Block, CropEvening, Keep, SERIES, Tried};
use super::fork::batches;
use super::input::{Gift, Input, InputError};
use super::lanes::Lanes;
use super::runs::{Drawing, new_layers};
use super::sampling::Sample;
use super::site::Site;

/// Amounts tried side by side: more make a run slower than they save runs (`tests/bench`, every way in one table).
const AMOUNTS: usize = 4;

/// Keeps nothing.
struct Nothing;

impl<const L: usize> Keep<L> for Nothing {
    fn wants(&self, _: usize) -> bool {
        false
    }

    fn evening(&mut self, _: &[Lanes<L>; SERIES], _: impl Iterator<Item = CropEvening<L>>) {}
}

impl Site {
    /// The least of a gift, kg N/ha from 0 to `most`, found to `step` by halving, with which none of an input's first
    /// `crops` crops goes hungry by its last day in the run with every parameter at its median; none where `most` does
    /// not do. The gift comes before what else is done on its day; how much the gift itself says does not count.
    ///
    /// # Errors
    /// The first key of the input that cannot be used; `stages` where there are any.
    pub fn enough(
        &self,
        input: &Input,
        gift: &Gift,
        crops: usize,
        (most, step): (f64, f64),
    ) -> Result<Option<f64>, InputError> {
        let mut given = input.clone();
        given.gifts.push(gift.clone());
        given.check()?;
        if !input.stages.is_empty() {
            let problem = "an input with stages is not searched".to_owned();
            return Err(InputError { key: "stages".to_owned(), problem });
        }
        let course = if self.serves(input) { self.course().with(input) } else { Course::alone(input) };
        let sample = Sample::median();
        let members = [0; AMOUNTS];
        let globals = Drawing::of(input, &sample).lanes(&members);
        let batches = batches(input, course.kept, 0, &sample);
        let (day, dose) = (gift.day as usize, dose_of_gift(gift, &course.days));
        let hungry = |kg_ha: Lanes<AMOUNTS>| -> [bool; AMOUNTS] {
            let new = new_layers(input, &batches, &[], &members);
            let block =
                Block::start(&course, &globals, &[], new).with_tried(Tried { day, dose, kg_ha, crops });
            let (totals, _) = block.run(&mut Nothing, &[]);
            let days = totals.hungry_days.iter().take(crops);
            days.fold([false; AMOUNTS], |any, days| core::array::from_fn(|l| any[l] || days[l].is_finite()))
        };
        Ok(least(most, step, hungry))
    }
}

/// The upper end of the last bracket of halvings from 0 to `most`, at most `step` wide: its lower end does not do.
fn least(most: f64, step: f64, hungry: impl Fn(Lanes<AMOUNTS>) -> [bool; AMOUNTS]) -> Option<f64> {
    /// Halvings that a block settles at once.
    const HALVINGS: i32 = AMOUNTS.ilog2().cast_signed();
    let (mut low, mut high, mut known) = (0.0, most, false);
    loop {
        #[expect(clippy::cast_possible_truncation, reason = "a handful of halvings")]
        let left = libm::ceil(libm::log2((high - low) / step)) as i32;
        if known && left <= 0 {
            return Some(high);
        }
        let parts = libm::exp2(f64::from(left.clamp(0, HALVINGS)));
        #[expect(clippy::cast_precision_loss, reason = "a handful of lanes")]
        let amounts = Lanes::of(|l| low + (high - low) * f64::min(1.0, (l + 1) as f64 / parts));
        let first = hungry(amounts).iter().position(|hungry| !hungry)?;
        low = if first == 0 { low } else { amounts[first - 1] };
        (high, known) = (amounts[first], true);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

    use super::super::{GiftSource, Placement, Stage, simulate};
    use super::*;

    fn golden(name: &str) -> Input {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/science/nitrogen/golden");
        let text = std::fs::read_to_string(format!("{folder}/{name}.json")).unwrap();
        let mut case: serde_json::Value = serde_json::from_str(&text).unwrap();
        serde_json::from_value(case["input"].take()).unwrap()
    }

    fn mixed_in(kg_ha: f64) -> Gift {
        Gift {
            day: 0,
            source: GiftSource::AmmoniumSulfate,
            nitrogen_kg_ha: Some(kg_ha),
            litres_m2: None,
            placement: Placement::Mixed,
            covered: false,
            incorporated_days: None,
            with_layer: false,
        }
    }

    /// The same by halving, one run after another.
    fn by_halving(input: &Input, most: f64, step: f64) -> Option<f64> {
        let hungry = |kg_ha: f64| {
            let mut fed = input.clone();
            fed.gifts.insert(0, mixed_in(kg_ha));
            let runs = simulate(&fed, &Sample::median(), &[]).unwrap();
            runs.last().crops.iter().any(|crop| crop.hungry_day[0].is_finite())
        };
        let (mut low, mut high) = (0.0, most);
        if hungry(most) {
            return None;
        }
        while high - low > step {
            let middle = 0.5 * (low + high);
            if hungry(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(high)
    }

    #[test]
    fn lanes_find_what_halving_finds() {
        let mut found = Vec::new();
        for name in ["bare-bed", "hardwood-dust-worked-in", "hardwood-dust-on-top-50-mm"] {
            let input = golden(name);
            let site = Site::of(&input).unwrap();
            for (most, step) in [(120.0, 1.0), (250.0, 0.1), (100.0, 300.0), (10.0, 10.0)] {
                let own = site.enough(&input, &mixed_in(0.0), usize::MAX, (most, step)).unwrap();
                assert_eq!(own, by_halving(&input, most, step), "{name}, {most}, {step}");
                found.push(own);
            }
        }
        assert!(found.iter().any(Option::is_none) && found.iter().flatten().any(|kg_ha| *kg_ha < 100.0));
    }

    #[test]
    fn what_cannot_be_run_is_refused() {
        let input = golden("bare-bed");
        let site = Site::of(&input).unwrap();
        let late = Gift { day: input.days + 1, ..mixed_in(0.0) };
        let broken = Input { days: 0, ..input.clone() };
        assert!(site.enough(&broken, &mixed_in(0.0), 1, (120.0, 1.0)).is_err());
        let own = |gift: &Gift| site.enough(&input, gift, 1, (120.0, 1.0));
        assert!(own(&Gift { nitrogen_kg_ha: Some(f64::NAN), ..mixed_in(0.0) }).is_err());
        assert_eq!(own(&late).unwrap(), None, "it comes too late");
        let staged = Input { stages: vec![Stage::default()], ..input.clone() };
        assert!(site.enough(&staged, &mixed_in(0.0), 1, (120.0, 1.0)).is_err());
    }
}
