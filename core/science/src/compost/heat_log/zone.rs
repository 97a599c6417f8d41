//! One zone of a pile under a rule.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};

use super::hours::{self, Held};
use super::{Reading, Verdict};
use crate::compost::heat_rule::{Consecutive, Hold, Rule, tenths};
use crate::units::Temperature;

/// A zone as judged.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneJudged {
    /// Its name.
    pub zone: String,
    /// The answer for it alone.
    pub verdict: Verdict,
    /// Days that count, of the stretch that comes nearest to the rule.
    pub days_counted: u32,
    /// The longest run of such days one after the other.
    pub longest_run: u32,
    /// Turnings inside those days.
    pub turnings_counted: u32,
    /// Cycles done, where the rule counts them.
    pub cycles_counted: u32,
    /// Hours that the heat held without a break, where the rule counts them and the times are known.
    pub hours_counted: Option<f64>,
    /// First and last of the days that count.
    pub window: Option<(NaiveDate, NaiveDate)>,
    /// Days without a reading.
    pub missing_days: Vec<NaiveDate>,
    /// Days over the upper limit.
    pub over_days: Vec<NaiveDate>,
    /// Days read but not hot enough.
    pub cool_days: Vec<NaiveDate>,
    /// Days that are still needed.
    pub days_needed: u32,
    /// Turnings that are still needed.
    pub turnings_needed: u32,
}

impl ZoneJudged {
    /// The worst first.
    pub(super) fn rank(&self) -> (u8, u32, u32) {
        let verdict = match self.verdict {
            Verdict::TooHot => 0,
            Verdict::NotReached => 1,
            Verdict::Unknown => 2,
            Verdict::Met | Verdict::FiguresReached | Verdict::DoesNotApply => 3,
        };
        (verdict, self.days_counted, self.turnings_counted)
    }
}

/// How a day stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Day {
    Counts,
    Cool,
    Over,
    Missing,
}

/// A stretch of days that may satisfy a rule.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Stretch {
    days: u32,
    turnings: u32,
    cycles: u32,
    window: Option<(NaiveDate, NaiveDate)>,
}

/// A zone's days and the turnings of the pile.
struct Zone<'a> {
    rule: &'a Rule,
    readings: &'a [&'a Reading],
    days: Vec<(NaiveDate, Day)>,
    turnings: Vec<NaiveDate>,
}

pub(super) fn judge(
    name: &str,
    readings: &[&Reading],
    turnings: &[NaiveDate],
    span: (NaiveDate, NaiveDate),
    rule: &Rule,
) -> ZoneJudged {
    let mut turnings = turnings.to_vec();
    turnings.sort_unstable();
    turnings.dedup();
    let zone = Zone { rule, readings, days: days(readings, span, rule), turnings };
    let best = zone.best(|day| day == Day::Counts, |day| day == Day::Over);
    let hours = match rule.hold {
        Hold::Hours(wanted) => Some(hours::longest(readings, wanted, |one| rule.counts(one.temperature))),
        Hold::Days(_) => None,
    };
    let of = |wanted| zone.days.iter().filter(|(_, day)| *day == wanted).map(|(date, _)| *date).collect();
    ZoneJudged {
        zone: name.to_owned(),
        verdict: zone.verdict(&best, hours),
        days_counted: best.days,
        longest_run: zone.longest_run(),
        turnings_counted: best.turnings,
        cycles_counted: best.cycles,
        hours_counted: hours.and_then(|held| match held {
            Held::Hours(hours) => Some(hours),
            Held::Untimed => None,
        }),
        window: best.window,
        missing_days: of(Day::Missing),
        over_days: of(Day::Over),
        cool_days: of(Day::Cool),
        days_needed: (rule.days() * rule.cycles).saturating_sub(best.days),
        turnings_needed: rule.turnings.saturating_sub(best.turnings),
    }
}

/// Every day from the first to the last reading of the whole log.
fn days(readings: &[&Reading], (first, last): (NaiveDate, NaiveDate), rule: &Rule) -> Vec<(NaiveDate, Day)> {
    let mut of_day: BTreeMap<NaiveDate, Vec<Temperature>> = BTreeMap::new();
    for reading in readings {
        of_day.entry(reading.date).or_default().push(reading.temperature);
    }
    first
        .iter_days()
        .take_while(|date| *date <= last)
        .map(|date| {
            let day = match of_day.get(&date) {
                None => Day::Missing,
                Some(read) if read.iter().any(|one| rule.is_over(*one)) => Day::Over,
                Some(read) if read.iter().all(|one| rule.counts(*one)) => Day::Counts,
                Some(_) => Day::Cool,
            };
            (date, day)
        })
        .collect()
}

impl Zone<'_> {
    fn verdict(&self, best: &Stretch, hours: Option<Held>) -> Verdict {
        if let (Hold::Hours(wanted), Some(held)) = (self.rule.hold, hours) {
            let hot = self.readings.iter().any(|one| self.rule.counts(one.temperature));
            return match held {
                Held::Hours(held) if hot && held >= wanted => Verdict::Met,
                Held::Untimed => Verdict::Unknown,
                Held::Hours(_) => Verdict::NotReached,
            };
        }
        match self.meets(best) {
            Some(true) => return Verdict::Met,
            None => return Verdict::Unknown,
            Some(false) => {}
        }
        let whatever_heat = self.best(|day| matches!(day, Day::Counts | Day::Over), |_| false);
        if self.rule.upper.is_some() && self.meets(&whatever_heat) == Some(true) {
            return Verdict::TooHot;
        }
        let if_missing_counted =
            self.best(|day| matches!(day, Day::Counts | Day::Missing), |day| day == Day::Over);
        if self.meets(&if_missing_counted) == Some(false) { Verdict::NotReached } else { Verdict::Unknown }
    }

    /// Whether a stretch satisfies the rule; `None` where that cannot be known.
    fn meets(&self, stretch: &Stretch) -> Option<bool> {
        let Some((from, to)) = stretch.window else { return Some(false) };
        let enough = if self.rule.cycles > 1 {
            stretch.cycles >= self.rule.cycles
        } else {
            stretch.days >= self.rule.days()
        };
        let first = self.days.first().map(|(date, _)| *date);
        let in_time = self
            .rule
            .within_days
            .is_none_or(|within| first.is_some_and(|first| (from - first).num_days() <= i64::from(within)));
        if !enough || !in_time || stretch.turnings < self.rule.turnings {
            return Some(false);
        }
        let inside: Vec<&Reading> =
            self.readings.iter().copied().filter(|one| (from..=to).contains(&one.date)).collect();
        if let Some(mean_above) = self.rule.mean_above {
            let (sum, count) =
                inside.iter().fold((0.0, 0.0), |(sum, count), one| (sum + one.temperature.c(), count + 1.0));
            if tenths(Temperature::from_c(sum / count)) <= tenths(mean_above) {
                return Some(false);
            }
        }
        let Some((above, wanted)) = self.rule.peak else { return Some(true) };
        match hours::longest(&inside, wanted, |one| tenths(one.temperature) > tenths(above)) {
            Held::Hours(held) => Some(held >= wanted),
            Held::Untimed => None,
        }
    }

    /// The stretch that comes nearest to the rule, taking as counted what `counts` says; a day for which `ends` holds
    /// begins everything anew.
    fn best(&self, counts: impl Fn(Day) -> bool, ends: impl Fn(Day) -> bool) -> Stretch {
        let mut best = Stretch::default();
        for part in self.days.split(|(_, day)| ends(*day)) {
            let stretches = if self.rule.cycles > 1 {
                vec![self.cycles(part, &counts)]
            } else if self.rule.consecutive == Consecutive::Yes {
                part.split(|(_, day)| !counts(*day)).map(|run| self.stretch(run, &counts)).collect()
            } else {
                vec![self.stretch(part, &counts)]
            };
            for stretch in stretches {
                if self.nearness(&stretch) > self.nearness(&best) {
                    best = stretch;
                }
            }
        }
        best
    }

    fn nearness(&self, stretch: &Stretch) -> (bool, u32, u32, u32, u32) {
        (
            self.meets(stretch) == Some(true),
            stretch.cycles,
            stretch.days.min(self.rule.days().max(1)),
            stretch.turnings,
            stretch.days,
        )
    }

    fn stretch(&self, part: &[(NaiveDate, Day)], counts: impl Fn(Day) -> bool) -> Stretch {
        let counted: Vec<NaiveDate> =
            part.iter().filter(|(_, day)| counts(*day)).map(|(date, _)| *date).collect();
        let window = counted.first().copied().zip(counted.last().copied());
        Stretch {
            days: u32::try_from(counted.len()).unwrap_or(u32::MAX),
            turnings: window.map_or(0, |window| self.turnings_in(window)),
            cycles: 0,
            window,
        }
    }

    /// Turnings in a window, those too near to the one before left out.
    fn turnings_in(&self, (from, to): (NaiveDate, NaiveDate)) -> u32 {
        let mut counted = 0;
        let mut last: Option<NaiveDate> = None;
        for date in self.turnings.iter().filter(|date| (from..=to).contains(*date)) {
            let spaced =
                last.is_none_or(|last| (*date - last).num_days() >= i64::from(self.rule.spacing_days));
            if spaced {
                counted += 1;
                last = Some(*date);
            }
        }
        counted
    }

    /// Cycles: runs of the days wanted, one between any two turnings.
    fn cycles(&self, part: &[(NaiveDate, Day)], counts: impl Fn(Day) -> bool) -> Stretch {
        let wanted = self.rule.days();
        let (mut run, mut done, mut days) = (0, false, 0);
        let mut stretch = Stretch::default();
        for (date, day) in part {
            run = if counts(*day) { run + 1 } else { 0 };
            if run >= wanted && !done {
                done = true;
                stretch.cycles += 1;
                let began =
                    date.checked_sub_days(Days::new(u64::from(wanted.saturating_sub(1)))).unwrap_or(*date);
                stretch.window = Some(stretch.window.map_or((began, *date), |(from, _)| (from, *date)));
                days += wanted;
            }
            if self.turnings.contains(date) {
                (run, done) = (0, false);
            }
        }
        stretch.days = days;
        stretch.turnings = stretch.window.map_or(0, |window| self.turnings_in(window));
        stretch
    }

    fn longest_run(&self) -> u32 {
        let runs = self.days.split(|(_, day)| *day != Day::Counts).map(<[_]>::len);
        runs.max().and_then(|longest| u32::try_from(longest).ok()).unwrap_or(0)
    }
}
