//! A heat log judged by a rule, with fire, turning and what is still needed, told in sentences.

use chrono::NaiveDate;
use kerfbook_science::caution::{self, AtPile, Caution};
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::compost::heat_log::{Judged, Log, Verdict, judge};
use kerfbook_science::compost::heat_rule::{Consecutive, Hold, Rule};
use kerfbook_science::compost::phase::{Phase, Trigger};
use kerfbook_words::Words;

/// Most dates told one by one.
const MOST_DATES: usize = 6;

/// Zones that have a name of their own in every language.
pub const ZONES: [&str; 3] = ["core", "edge", "base"];
/// The zone of readings that name none.
pub const WHOLE: &str = "whole";

/// A zone as people read it: those of [`ZONES`] in their language, others as they were named.
pub fn zone_told(zone: &str, words: &Words) -> String {
    if zone == WHOLE || ZONES.contains(&zone) {
        words.label(&format!("heat-zone-{zone}"))
    } else {
        zone.to_owned()
    }
}

/// A log under a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    /// The rule.
    pub rule: &'static Rule,
    /// What it says of the log.
    pub judged: Judged,
    /// Fire level of the last day.
    pub fire_now: Option<(NaiveDate, FireLevel)>,
    /// The highest fire level in the log, and the first day of it.
    pub fire_highest: Option<(NaiveDate, FireLevel)>,
    /// What the pile is doing by its last readings.
    pub phase: Option<Phase>,
    /// What calls for turning.
    pub triggers: Vec<Trigger>,
    /// What to heed.
    pub cautions: Vec<&'static Caution>,
}

impl Heat {
    /// Of a log. `animal_matter` is `None` where nobody said.
    pub fn of(log: &Log, rule: &'static Rule, animal_matter: Option<bool>) -> Self {
        let fire = log.fire();
        let fire_now = fire.last().copied();
        let highest = fire.iter().map(|(_, level)| *level).max();
        let fire_highest = fire.iter().copied().find(|(_, level)| Some(*level) == highest);
        Self {
            rule,
            judged: judge(log, rule, animal_matter),
            fire_now,
            fire_highest,
            phase: log.now().map(|(_, hottest)| Phase::at(hottest)),
            // What may smoulder is not opened.
            triggers: if fire_now.is_some_and(|(_, level)| level >= FireLevel::Red) {
                Vec::new()
            } else {
                log.triggers()
            },
            cautions: caution::at_pile(AtPile::Reading(highest.unwrap_or(FireLevel::Green))),
        }
    }

    /// The answer and what stands behind it, a sentence each.
    pub fn told(&self, words: &Words) -> Vec<String> {
        let mut said = vec![self.answer(words)];
        said.extend(self.counted(words));
        said.extend(self.still(words));
        said.extend(self.doubts(words));
        said.extend(self.fire(words));
        said.extend(self.triggers.iter().map(|trigger| {
            words.label(match trigger {
                Trigger::Hot => "heat-turn-hot",
                Trigger::Cooled => "heat-turn-cooled",
                Trigger::Airless => "heat-turn-airless",
            })
        }));
        said.extend(self.besides(words));
        said.push(self.decides(words));
        said
    }

    fn answer(&self, words: &Words) -> String {
        let id = match self.judged.verdict {
            Verdict::Met => "heat-met",
            Verdict::FiguresReached => "heat-figures-reached",
            Verdict::NotReached => "heat-not-reached",
            Verdict::Unknown => "heat-unknown",
            Verdict::TooHot => "heat-too-hot",
            Verdict::DoesNotApply => "heat-does-not-apply",
        };
        words.say(id, &[("rule", self.rule.id.to_owned())])
    }

    /// What the deciding zone has and what the rule wants.
    fn counted(&self, words: &Words) -> Option<String> {
        let worst = self.judged.worst()?;
        let heat = words.temperature(self.rule.at_least);
        let zone = zone_told(&worst.zone, words);
        if let Hold::Hours(wanted) = self.rule.hold {
            let held = worst.hours_counted.map_or_else(|| words.unknown(), |hours| words.hours(hours));
            let values = [("zone", zone), ("heat", heat), ("held", held), ("wanted", words.hours(wanted))];
            return Some(words.say("heat-counted-hours", &values));
        }
        let days = words.days(f64::from(worst.days_counted));
        let wanted = words.days(f64::from(self.rule.days() * self.rule.cycles));
        let values = [("zone", zone), ("heat", heat), ("days", days), ("wanted", wanted)];
        let mut said = words.say("heat-counted-days", &values);
        if self.rule.turnings > 0 {
            let counted = f64::from(worst.turnings_counted);
            let wanted = words.stated(f64::from(self.rule.turnings));
            said.push(' ');
            said.push_str(&words.say_count(
                "heat-counted-turnings",
                counted,
                &[("n", words.stated(counted)), ("wanted", wanted)],
            ));
        }
        Some(said)
    }

    fn still(&self, words: &Words) -> Vec<String> {
        let Some(worst) = self.judged.worst().filter(|_| !self.judged.verdict.is_reached()) else {
            return Vec::new();
        };
        let mut said = Vec::new();
        if worst.days_needed > 0 {
            said.push(words.say("heat-still-days", &[("days", words.days(f64::from(worst.days_needed)))]));
        }
        if worst.turnings_needed > 0 {
            let needed = f64::from(worst.turnings_needed);
            said.push(words.say_count("heat-still-turnings", needed, &[("n", words.stated(needed))]));
        }
        if !self.judged.zones_missing.is_empty() {
            let zones: Vec<String> =
                self.judged.zones_missing.iter().map(|zone| zone_told(zone, words)).collect();
            said.push(words.say("heat-still-zones", &[("zones", words.list(&zones))]));
        }
        said
    }

    fn doubts(&self, words: &Words) -> Vec<String> {
        let mut said = Vec::new();
        if let Some(worst) = self.judged.worst() {
            let reached = self.judged.verdict.is_reached();
            for (id, days, matters) in
                // Days that nobody read after a rule was met change nothing.
                [
                    ("heat-missing", &worst.missing_days, !reached),
                    ("heat-over", &worst.over_days, true),
                ]
            {
                if !days.is_empty() && matters {
                    said.push(words.say(id, &[("dates", dates(days, words))]));
                }
            }
            if self.rule.consecutive == Consecutive::Unsaid && worst.longest_run < worst.days_counted {
                said.push(words.say("heat-unsaid", &[("days", words.days(f64::from(worst.longest_run)))]));
            }
        }
        said.extend(self.questions(words));
        said
    }

    /// What a person should be asked about the log.
    pub fn questions(&self, words: &Words) -> Vec<String> {
        let mut asked: Vec<String> = self
            .judged
            .renamed
            .iter()
            .map(|renamed| {
                let values = [
                    ("from", zone_told(&renamed.from, words)),
                    ("to", zone_told(&renamed.to, words)),
                    ("date", words.date(renamed.on)),
                ];
                words.say("heat-renamed", &values)
            })
            .collect();
        if self.judged.set_aside > 0
            && let Some((low, high)) = self.rule.depth_cm
        {
            let depth = |cm| words.depth(kerfbook_science::units::Length::from_cm(cm));
            asked.push(words.say("heat-set-aside", &[("low", depth(low)), ("high", depth(high))]));
        }
        asked
    }

    fn fire(&self, words: &Words) -> Vec<String> {
        let told = |id, (date, level): (NaiveDate, FireLevel)| {
            let level = words.label(&format!("fire-level-{}", level.name()));
            words.say(id, &[("date", words.date(date)), ("level", level)])
        };
        let now = self.fire_now.map(|now| told("heat-fire-now", now));
        let higher = self.fire_highest.filter(|highest| self.fire_now.is_some_and(|now| highest.1 > now.1));
        now.into_iter().chain(higher.map(|highest| told("heat-fire-highest", highest))).collect()
    }

    fn besides(&self, words: &Words) -> Option<String> {
        let asked: Vec<String> =
            self.rule.besides.iter().map(|besides| words.label(&format!("heat-besides-{besides}"))).collect();
        (!asked.is_empty()).then(|| words.say("heat-besides", &[("list", words.list(&asked))]))
    }

    /// Body, year, standing, and who decides.
    pub fn decides(&self, words: &Words) -> String {
        let source = &self.rule.source;
        let values = [
            ("body", words.body_and_year(source)),
            ("work", source.title.to_owned()),
            ("standing", words.standing(source.standing)),
        ];
        words.say("heat-decides", &values)
    }
}

/// Dates in a row, the first few by name.
fn dates(days: &[NaiveDate], words: &Words) -> String {
    let mut told: Vec<String> = days.iter().take(MOST_DATES).map(|date| words.date(*date)).collect();
    if days.len() > MOST_DATES {
        let more = (days.len() - MOST_DATES) as f64;
        told.push(words.say_count("heat-more-days", more, &[("n", words.stated(more))]));
    }
    words.list(&told)
}
