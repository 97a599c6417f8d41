//! Published time-temperature rules, as data: one row a rule, with the body that set it, the year, and how far the
//! figures can be trusted. Judging a log by them is in [`super::heat_log`].
//!
//! A rule binds only whoever it is law for; only the local authority or the certifier decides.

mod table;

pub use table::{TableError, all};

use crate::lookup::{Index, Match};
use crate::source::{Source, Standing};
use crate::units::Temperature;

/// Tenths of a degree Celsius: both scales meet here, so that 131 °F is 55.0 °C and 170 °F is 76.7 °C.
pub fn tenths(temperature: Temperature) -> f64 {
    (temperature.c() * 10.0).round() / 10.0
}

/// How a pile is worked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// Turned windrow.
    Windrow,
    /// In a vessel, or aerated from below and not turned.
    VesselOrAerated,
    /// Not turned.
    Static,
    /// The rule does not say.
    Any,
}

/// How long the heat must last.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hold {
    /// So many days, each with readings.
    Days(u32),
    /// So many hours without a break.
    Hours(f64),
}

/// Whether the days must follow each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Consecutive {
    /// They must.
    Yes,
    /// The rule says they need not.
    No,
    /// The rule does not say.
    Unsaid,
}

/// A rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// Its name.
    pub id: &'static str,
    /// How the pile is worked.
    pub method: Method,
    /// The heat that counts.
    pub at_least: Temperature,
    /// Whether it must be above it, not at it.
    pub strict: bool,
    /// Whether the body wrote degrees Fahrenheit.
    pub fahrenheit: bool,
    /// How long.
    pub hold: Hold,
    /// Whether without a break.
    pub consecutive: Consecutive,
    /// Fewest turnings in that time.
    pub turnings: u32,
    /// Fewest days between two of them, where that is set.
    pub spacing_days: u32,
    /// How many times over, a turning between; once where nothing is said.
    pub cycles: u32,
    /// The mean must be above this.
    pub mean_above: Option<Temperature>,
    /// It must be above this for so many hours of it.
    pub peak: Option<(Temperature, f64)>,
    /// It must not be hotter than this.
    pub upper: Option<Temperature>,
    /// It must begin within so many days.
    pub within_days: Option<u32>,
    /// Zones that must each be read; any where empty.
    pub zones: Vec<&'static str>,
    /// Depths of the probe that count, cm.
    pub depth_cm: Option<(f64, f64)>,
    /// What the rule asks beside heat, by names of the texts.
    pub besides: Vec<&'static str>,
    /// Whether it is for heaps with animal matter only.
    pub animal_matter: bool,
    /// The body, the year, the work and how the figures stand.
    pub source: Source,
}

impl Rule {
    /// Whether a reading is hot enough.
    pub fn counts(&self, reading: Temperature) -> bool {
        let (reading, wanted) = (tenths(reading), tenths(self.at_least));
        if self.strict { reading > wanted } else { reading >= wanted }
    }

    /// Whether a reading is over the upper limit.
    pub fn is_over(&self, reading: Temperature) -> bool {
        self.upper.is_some_and(|upper| tenths(reading) > tenths(upper))
    }

    /// Whether its figures are only remembered: then a log can reach them, never meet the rule.
    pub fn is_from_memory(&self) -> bool {
        self.source.standing == Standing::FromMemory
    }

    /// Days that one cycle takes; none where the rule is in hours.
    pub const fn days(&self) -> u32 {
        match self.hold {
            Hold::Days(days) => days,
            Hold::Hours(_) => 0,
        }
    }
}

/// Days that sewage sludge of at least 7 % solids must be kept at a temperature of 50 °C and more: the time-temperature
/// equation of US EPA (text of 15A NCAC 02T .1106). `None` under 50 °C, where it is not defined.
pub fn sludge_days(temperature: Temperature) -> Option<f64> {
    (temperature.c() >= 50.0).then(|| 131_700_000.0 / libm::pow(10.0, 0.14 * temperature.c()))
}

/// Finds a rule by its name.
pub fn find(name: &str) -> Match<&'static Rule> {
    let index = Index::new(all().iter().enumerate().map(|(at, rule)| (rule.id, at)));
    let rule = |at: usize| all().get(at);
    match index.find(name) {
        Match::Exact(at) => rule(at).map_or(Match::Near(Vec::new()), Match::Exact),
        Match::Near(near) => Match::Near(near.into_iter().filter_map(rule).collect()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_have_names_of_their_own_and_a_body() {
        let mut names: Vec<&str> = all().iter().map(|rule| rule.id).collect();
        assert!(names.len() >= 26);
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), all().len());
        for rule in all() {
            assert!(!rule.source.author.is_empty() && !rule.source.title.is_empty(), "{}", rule.id);
            assert!(rule.at_least.c() >= 40.0 && rule.cycles >= 1, "{}", rule.id);
            assert_eq!(find(rule.id), Match::Exact(rule));
        }
        assert!(matches!(find("us organic windrows"), Match::Exact(rule) if rule.id == "us-organic-windrow"));
        assert!(matches!(find("us-organik-windrow"), Match::Near(near) if !near.is_empty()));
    }

    #[test]
    fn both_scales_meet_in_tenths() {
        assert!((tenths(Temperature::from_f(131.0)) - 55.0).abs() < 1e-12);
        assert!((tenths(Temperature::from_f(170.0)) - 76.7).abs() < 1e-12);
        let Match::Exact(rule) = find("us-organic-windrow") else { panic!("no such rule") };
        assert!(rule.counts(Temperature::from_c(55.0)) && rule.counts(Temperature::from_f(131.0)));
        assert!(!rule.counts(Temperature::from_f(130.8)) && !rule.counts(Temperature::from_c(54.9)));
        assert!(!rule.is_over(Temperature::from_c(76.7)) && !rule.is_over(Temperature::from_f(170.0)));
        assert!(rule.is_over(Temperature::from_c(76.8)) && rule.is_over(Temperature::from_f(170.2)));
    }
}
