//! Limits on feeds: what a person can sensibly give, and what the rules of a place allow.
//!
//! Rules are data: one row a limit, with the body that set it, the year and how far the figure can be trusted. They
//! bind only whoever chooses them. Closed periods, distances to water and permits are not among them: local rules
//! come first.

mod table;

pub use table::{TableError, all};

use crate::crop::Edible;
use crate::feed::{self, Enters, Feed};
use crate::lookup::{Index, Match};
use crate::material::ModelClass;
use crate::source::{Source, Sourced};
use crate::units::AreaMass;

/// Most nitrogen to give at once.
pub const AT_ONCE: Sourced<AreaMass> = feed::PRACTICAL_LIMIT;
/// Most nitrogen to give on one place in a season, whatever the source: two of the most at once.
pub const IN_A_SEASON: Sourced<AreaMass> = Sourced::new(AreaMass::from_kg_ha(240.0), Source::ASSUMPTION);

/// A limit that some body set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// The rules it belongs to, by the name that a person chooses.
    pub rules: &'static str,
    /// What it limits.
    pub bound: Bound,
    /// The crop it is for, a name of the table of crops; all where there is none.
    pub crop: Option<&'static str>,
    /// The ground over which it counts.
    pub over: Over,
    /// The body, the year, the work and how the figure stands.
    pub source: Source,
}

/// What a limit says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bound {
    /// Most nitrogen, all of it counted, in any stretch of so many months.
    Nitrogen {
        /// What counts.
        counts: Counts,
        /// How much.
        most: AreaMass,
        /// In how long.
        months: u32,
    },
    /// Fewest days between giving and harvest.
    Days {
        /// What counts.
        counts: Counts,
        /// Where what is eaten touches the soil.
        touching: u32,
        /// Where it hangs clear of it.
        clear: u32,
    },
}

/// The ground over which a limit counts. A plan for one place keeps it on that place, which is the stricter reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// The mean of the holding, or of all its ground under that crop.
    Holding,
    /// Each field.
    Field,
}

/// What counts towards a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counts {
    /// Manure of farm animals, raw or composted.
    LivestockManure,
    /// All that comes from animals, plants or people, finished compost apart.
    Organic,
    /// The same, compost with it.
    OrganicAndCompost,
    /// Every source. Rules that count only what crops can use of organic sources are so kept strictly.
    All,
    /// Manure that was not composted.
    RawManure,
    /// Human urine.
    Urine,
}

/// What a source is to the rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Manure of farm animals that was not composted.
    RawManure,
    /// Manure of farm animals, composted.
    CompostedManure,
    /// Finished compost of plants.
    Compost,
    /// Human urine.
    Urine,
    /// Anything else from animals or plants.
    OtherOrganic,
    /// Mineral fertiliser.
    Mineral,
}

impl Origin {
    /// Of a source of nitrogen.
    pub fn of(feed: &Feed) -> Self {
        match feed.enters {
            _ if feed.is_raw_manure() => Self::RawManure,
            _ if feed.is_urine() => Self::Urine,
            Enters::Layer { class: ModelClass::Compost | ModelClass::CompostedWood, .. } => Self::Compost,
            Enters::Layer { .. } => Self::OtherOrganic,
            Enters::Gift(_) => Self::Mineral,
        }
    }
}

impl Counts {
    /// Whether a source counts.
    pub const fn takes(self, origin: Origin) -> bool {
        match self {
            Self::LivestockManure => matches!(origin, Origin::RawManure | Origin::CompostedManure),
            Self::Organic => !matches!(origin, Origin::Mineral | Origin::Compost),
            Self::OrganicAndCompost => !matches!(origin, Origin::Mineral),
            Self::All => true,
            Self::RawManure => matches!(origin, Origin::RawManure),
            Self::Urine => matches!(origin, Origin::Urine),
        }
    }
}

impl Limit {
    /// Whether it is for one of these crops, names of the table.
    pub fn concerns(&self, crops: &[&str]) -> bool {
        self.crop.is_none_or(|crop| crops.contains(&crop))
    }

    /// Days that must pass between giving a source and harvesting what is so eaten.
    pub const fn days(&self, origin: Origin, edible: Edible) -> u32 {
        match (self.bound, edible) {
            (Bound::Days { counts, touching, .. }, Edible::TouchesSoil) if counts.takes(origin) => touching,
            (Bound::Days { counts, clear, .. }, Edible::Clear) if counts.takes(origin) => clear,
            _ => 0,
        }
    }
}

/// The names of all rules, in order of the table.
pub fn rules() -> Vec<&'static str> {
    let mut names: Vec<&'static str> = all().iter().map(|limit| limit.rules).collect();
    names.dedup();
    names
}

/// Finds rules by name.
pub fn find(name: &str) -> Match<&'static str> {
    let names = rules();
    let index = Index::new(names.iter().enumerate().map(|(at, name)| (*name, at)));
    match index.find(name) {
        Match::Exact(at) => names.get(at).copied().map_or(Match::Near(Vec::new()), Match::Exact),
        Match::Near(near) => Match::Near(near.into_iter().filter_map(|at| names.get(at).copied()).collect()),
    }
}

/// The limits of some rules.
pub fn of_rules(name: &str) -> impl Iterator<Item = &'static Limit> {
    all().iter().filter(move |limit| limit.rules == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crop;

    #[test]
    fn rules_stand_together_and_have_names_of_their_own() {
        let mut names = rules();
        assert!(names.len() >= 6);
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), rules().len());
        assert_eq!(find("EU nitrates"), Match::Exact("eu-nitrates"));
        assert!(matches!(find("eu-nitrate-directive"), Match::Near(near) if near.contains(&"eu-nitrates")));
    }

    #[test]
    fn every_limit_names_a_body_a_year_and_a_crop_of_the_table() {
        for limit in all() {
            assert!(!limit.source.author.is_empty() && limit.source.year > 1900, "{limit:?}");
            assert!(!limit.source.title.is_empty(), "{limit:?}");
            let known = |name| matches!(crop::find(name), Match::Exact(found) if found.name == name);
            assert!(limit.crop.is_none_or(known), "{limit:?}");
        }
    }

    #[test]
    fn manure_counts_as_manure_and_meals_do_not() {
        let origin = |name| feed::find(name).exact().map(Origin::of);
        assert_eq!(origin("cattle manure"), Some(Origin::RawManure));
        assert_eq!(origin("blood meal"), Some(Origin::OtherOrganic));
        assert_eq!(origin("finished compost"), Some(Origin::Compost));
        assert_eq!(origin("urea"), Some(Origin::Mineral));
        assert_eq!(origin("human urine"), Some(Origin::Urine));
        assert!(!Counts::LivestockManure.takes(Origin::OtherOrganic));
        assert!(!Counts::Organic.takes(Origin::Compost) && Counts::OrganicAndCompost.takes(Origin::Compost));
    }

    #[test]
    fn the_published_figures_stand() {
        let manure = of_rules("eu-nitrates").next().map(|limit| limit.bound);
        assert!(matches!(
            manure,
            Some(Bound::Nitrogen { counts: Counts::LivestockManure, most, months: 12 })
                if (most.kg_ha() - 170.0).abs() < 1e-12
        ));
        let days = |edible| of_rules("us-organic").next().map(|limit| limit.days(Origin::RawManure, edible));
        assert_eq!(days(Edible::TouchesSoil), Some(120));
        assert_eq!(days(Edible::Clear), Some(90));
        assert_eq!(days(Edible::NotForPeople), Some(0));
    }
}
