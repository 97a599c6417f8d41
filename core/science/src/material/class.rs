//! The classes of residue that the nitrogen model tells apart.

use crate::units::Density;

/// A class of residue in the nitrogen model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ModelClass {
    /// Wood of most broadleaved trees.
    Hardwood,
    /// Wood very poor in lignin.
    SoftHardwood,
    /// Southern, radiata and like pines.
    Pine,
    /// Firs, spruces, hemlocks, white pines.
    SlowSoftwood,
    /// Cedars, redwood, cypress.
    Resistant,
    /// Bark of broadleaved trees.
    HardwoodBark,
    /// Bark of conifers.
    SoftwoodBark,
    /// Wood composted before it is used.
    CompostedWood,
    /// Finished compost.
    Compost,
    /// Straw and stalks.
    Straw,
    /// Leaves, grass and kitchen residue.
    Leaves,
    /// Manure.
    Manure,
    /// Meals of seeds, blood, feathers, fish.
    Meal,
}

impl ModelClass {
    /// All classes.
    pub const ALL: [Self; 13] = [
        Self::Hardwood,
        Self::SoftHardwood,
        Self::Pine,
        Self::SlowSoftwood,
        Self::Resistant,
        Self::HardwoodBark,
        Self::SoftwoodBark,
        Self::CompostedWood,
        Self::Compost,
        Self::Straw,
        Self::Leaves,
        Self::Manure,
        Self::Meal,
    ];

    /// The model's own word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hardwood => "hardwood",
            Self::SoftHardwood => "soft_hardwood",
            Self::Pine => "pine",
            Self::SlowSoftwood => "slow_softwood",
            Self::Resistant => "resistant",
            Self::HardwoodBark => "hardwood_bark",
            Self::SoftwoodBark => "softwood_bark",
            Self::CompostedWood => "composted_wood",
            Self::Compost => "compost",
            Self::Straw => "straw",
            Self::Leaves => "leaves",
            Self::Manure => "manure",
            Self::Meal => "meal",
        }
    }

    /// The class of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|class| class.name() == name)
    }

    /// Wood as it grew: no bark, and not composted.
    pub const fn is_wood(self) -> bool {
        matches!(
            self,
            Self::Hardwood | Self::SoftHardwood | Self::Pine | Self::SlowSoftwood | Self::Resistant
        )
    }

    /// Carbon, part of dry mass: the model's specification, section 5.2 (wood after Harmon et al. 2013 and
    /// Lamlom & Savidge 2003, the rest assumed there).
    pub const fn carbon_share(self) -> f64 {
        match self {
            Self::Hardwood | Self::SoftHardwood => 0.48,
            Self::Pine | Self::SlowSoftwood | Self::Resistant => 0.50,
            Self::HardwoodBark => 0.49,
            Self::SoftwoodBark => 0.51,
            Self::CompostedWood | Self::Straw | Self::Leaves | Self::Meal => 0.45,
            Self::Compost => 0.30,
            Self::Manure => 0.38,
        }
    }

    /// Carbon to nitrogen by mass where nothing better is known: the model's specification, section 5.2. That
    /// of manure is of its organic part.
    pub const fn carbon_nitrogen(self) -> f64 {
        match self {
            Self::Hardwood | Self::SoftHardwood => 480.0,
            Self::Pine | Self::SlowSoftwood | Self::Resistant => 600.0,
            Self::HardwoodBark => 223.0,
            Self::SoftwoodBark => 496.0,
            Self::CompostedWood => 30.0,
            Self::Compost => 15.0,
            Self::Straw => 80.0,
            Self::Leaves => 54.0,
            Self::Manure => 24.0,
            Self::Meal => 5.0,
        }
    }

    /// Dry, loose bulk density where nothing better is known: the model's specification, section 5.2.
    pub const fn dry_density(self) -> Density {
        Density::from_kg_m3(match self {
            Self::Hardwood | Self::SoftwoodBark => 150.0,
            Self::SoftHardwood | Self::Pine => 140.0,
            Self::SlowSoftwood | Self::Resistant => 130.0,
            Self::HardwoodBark => 160.0,
            Self::CompostedWood => 250.0,
            Self::Compost => 350.0,
            Self::Straw | Self::Leaves => 60.0,
            Self::Manure => 200.0,
            Self::Meal => 600.0,
        })
    }
}

/// Size of the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Particle {
    /// Sawdust and other fines.
    Dust,
    /// Planer shavings.
    Shavings,
    /// Chips of 5 to 40 mm.
    Chips,
    /// Bigger.
    Chunks,
}

impl Particle {
    /// All sizes, finest first.
    pub const ALL: [Self; 4] = [Self::Dust, Self::Shavings, Self::Chips, Self::Chunks];

    /// The model's own word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Dust => "dust",
            Self::Shavings => "shavings",
            Self::Chips => "chips",
            Self::Chunks => "chunks",
        }
    }

    /// The size of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|size| size.name() == name)
    }
}
