//! What a mixture comes to: sums of water, carbon and nitrogen. Ratios are never averaged.

use crate::source::{Source, Sourced, Standing};
use crate::units::{Mass, Share};

const CORNELL_CARBON: Source = Source::new(
    "Richard",
    1996,
    "Cornell composting: estimating carbon content, after Adams et al. 1951",
    "carbon page",
    Standing::Published,
);

/// Carbon, part of volatile solids (dry mass less ash).
pub const CARBON_OF_VOLATILE_SOLIDS: Sourced<f64> = Sourced::new(1.0 / 1.8, CORNELL_CARBON);
/// Part of volatile solids that decays where there is no lignin, and what a share of lignin takes off it.
pub const BIODEGRADABLE: Sourced<[f64; 2]> = Sourced::new(
    [0.83, 2.8],
    Source::new(
        "Chandler, Jewell, Gossett et al.",
        1980,
        "predicting methane fermentation biodegradability",
        "by way of Richard, Cornell composting",
        Standing::FromMemory,
    ),
);

/// What a thing is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Water, part of wet mass.
    pub moisture: Share,
    /// Carbon, part of dry mass.
    pub carbon: Share,
    /// Nitrogen, part of dry mass; may be none.
    pub nitrogen: Share,
}

impl Composition {
    /// Water.
    pub const WATER: Self = Self {
        moisture: Share::from_fraction(1.0),
        carbon: Share::from_fraction(0.0),
        nitrogen: Share::from_fraction(0.0),
    };

    /// Dry part of a wet mass.
    pub fn dry(&self) -> f64 {
        1.0 - self.moisture.fraction()
    }

    /// Carbon to nitrogen; `None` where there is no nitrogen.
    pub fn carbon_nitrogen(&self) -> Option<f64> {
        (self.nitrogen.fraction() > 0.0).then(|| self.carbon.fraction() / self.nitrogen.fraction())
    }

    /// So much of it.
    pub const fn times(self, wet: Mass) -> Ingredient {
        Ingredient { wet, of: self }
    }
}

/// So much of a thing, as it is: wet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ingredient {
    /// Mass with its water.
    pub wet: Mass,
    /// What it is made of.
    pub of: Composition,
}

impl Ingredient {
    /// Mass without its water.
    pub fn dry(&self) -> Mass {
        self.wet * self.of.dry()
    }

    /// Its water.
    pub fn water(&self) -> Mass {
        self.wet * self.of.moisture.fraction()
    }

    /// Its carbon.
    pub fn carbon(&self) -> Mass {
        self.dry() * self.of.carbon.fraction()
    }

    /// Its nitrogen.
    pub fn nitrogen(&self) -> Mass {
        self.dry() * self.of.nitrogen.fraction()
    }
}

/// A mixture as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Mix {
    /// Mass with its water.
    pub wet: Mass,
    /// Its water.
    pub water: Mass,
    /// Its carbon.
    pub carbon: Mass,
    /// Its nitrogen.
    pub nitrogen: Mass,
}

impl Mix {
    /// Of its ingredients.
    pub fn of(ingredients: &[Ingredient]) -> Self {
        ingredients.iter().fold(Self::default(), |mix, one| Self {
            wet: mix.wet + one.wet,
            water: mix.water + one.water(),
            carbon: mix.carbon + one.carbon(),
            nitrogen: mix.nitrogen + one.nitrogen(),
        })
    }

    /// Mass without its water.
    pub fn dry(&self) -> Mass {
        self.wet - self.water
    }

    /// Water by wet mass: all water over all mass. `None` where there is no mass.
    pub fn moisture(&self) -> Option<Share> {
        (self.wet.kg() > 0.0).then(|| Share::from_fraction(self.water.kg() / self.wet.kg()))
    }

    /// All carbon over all nitrogen. `None` where there is no nitrogen.
    pub fn carbon_nitrogen(&self) -> Option<f64> {
        (self.nitrogen.kg() > 0.0).then(|| self.carbon.kg() / self.nitrogen.kg())
    }

    /// Water to add for a moisture; below zero where the mixture is too wet by so much. `None` for a goal of 100 % or more.
    pub fn water_to_add(&self, goal: Share) -> Option<Mass> {
        let goal = goal.fraction();
        (0.0..1.0).contains(&goal).then(|| (self.wet * goal - self.water) / (1.0 - goal))
    }

    /// Nitrogen to add for a C:N; below zero where there is already more. `None` for a goal of zero.
    pub fn nitrogen_to_add(&self, goal: f64) -> Option<Mass> {
        (goal > 0.0).then(|| self.carbon / goal - self.nitrogen)
    }
}

/// Carbon of dry mass from nitrogen of dry mass and C:N.
pub fn carbon_of_nitrogen(nitrogen: Share, carbon_nitrogen: f64) -> Share {
    nitrogen * carbon_nitrogen
}

/// Carbon of dry mass from ash of dry mass.
pub fn carbon_of_ash(ash: Share) -> Share {
    Share::from_fraction((1.0 - ash.fraction()) * CARBON_OF_VOLATILE_SOLIDS.value)
}

/// Part of the volatile solids that decays, from lignin in them; never below zero.
pub fn biodegradable(lignin: Share) -> Share {
    let [without, per_lignin] = BIODEGRADABLE.value;
    Share::from_fraction((without - per_lignin * lignin.fraction()).max(0.0))
}
