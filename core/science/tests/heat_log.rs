//! Every heat rule against a log that meets it, one a day short, one with a gap, one with too few turnings, and one over
//! the upper limit.
#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
#![allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "minutes of days")]

use chrono::{Days, NaiveDate};
use kerfbook_science::compost::heat_log::{Judged, Log, Reading, Verdict, judge};
use kerfbook_science::compost::heat_rule::{self, Consecutive, Hold, Rule};
use kerfbook_science::compost::phase::Trigger;
use kerfbook_science::lookup::Match;
use kerfbook_science::units::{Share, Temperature};

fn day(n: u64) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 1).unwrap().checked_add_days(Days::new(n)).unwrap()
}

fn rule(id: &str) -> &'static Rule {
    match heat_rule::find(id) {
        Match::Exact(rule) => rule,
        Match::Near(_) => panic!("no rule {id}"),
    }
}

fn zones(rule: &Rule) -> Vec<&'static str> {
    if rule.zones.is_empty() { vec!["core", "edge"] } else { rule.zones.clone() }
}

/// Hot enough for the rule, and not too hot.
fn hot(rule: &Rule) -> Temperature {
    Temperature::from_c(rule.at_least.c() + if rule.peak.is_some() { 17.0 } else { 6.0 })
}

/// Days and turnings that just meet a rule, hourly readings where it counts hours.
fn meeting(rule: &Rule) -> Log {
    let mut log = Log::default();
    let (days, every) = match rule.hold {
        Hold::Days(days) => (u64::from(days * rule.cycles), if rule.peak.is_some() { 60_u16 } else { 0 }),
        Hold::Hours(hours) => {
            ((1..=30).find(|days: &u32| f64::from(*days) * 24.0 > hours).map_or(1, u64::from), 15_u16)
        }
    };
    for zone in zones(rule) {
        for n in 0..days {
            let minutes: Vec<Option<u16>> = match every {
                0 => vec![None],
                step => (0..1440 / step).map(|at| Some(at * step)).collect(),
            };
            for minute in minutes {
                log.readings.push(Reading {
                    date: day(n),
                    minute,
                    zone: zone.to_owned(),
                    depth_cm: rule.depth_cm.map(|(low, _)| low + 10.0),
                    temperature: hot(rule),
                });
            }
        }
    }
    if rule.cycles > 1 {
        let of_cycle = u64::from(rule.days());
        log.turnings = (1..u64::from(rule.cycles)).map(|cycle| day(cycle * of_cycle - 1)).collect();
    } else {
        let step = u64::from(rule.spacing_days).max(2);
        log.turnings = (0..u64::from(rule.turnings)).map(|turning| day(1 + turning * step)).collect();
    }
    log
}

fn verdict(log: &Log, rule: &Rule) -> Judged {
    judge(log, rule, Some(true))
}

/// The good news of a rule: a rule from memory is never met.
fn good(rule: &Rule) -> Verdict {
    if rule.is_from_memory() { Verdict::FiguresReached } else { Verdict::Met }
}

#[test]
fn a_log_that_meets_every_rule() {
    for rule in heat_rule::all() {
        let judged = verdict(&meeting(rule), rule);
        assert_eq!(judged.verdict, good(rule), "{}: {judged:#?}", rule.id);
        let worst = judged.worst().unwrap();
        assert_eq!((worst.days_needed, worst.turnings_needed), (0, 0), "{}", rule.id);
        assert!(worst.missing_days.is_empty());
    }
}

#[test]
fn a_day_short_is_not_there_yet() {
    for rule in heat_rule::all() {
        let mut log = meeting(rule);
        let Hold::Days(days) = rule.hold else {
            // Hours: the last of them are missing.
            if let Hold::Hours(hours) = rule.hold
                && hours > 0.0
            {
                let last = log.readings.iter().filter_map(|one| Some((one.date, one.minute?))).max().unwrap();
                log.readings.retain(|one| one.date < last.0 || (hours < 24.0 && one.minute < Some(50)));
                log.readings.retain(|one| one.date > day(0) || hours < 24.0 || one.minute > Some(60));
                assert_eq!(verdict(&log, rule).verdict, Verdict::NotReached, "{}", rule.id);
            }
            continue;
        };
        let last = day(u64::from(days * rule.cycles) - 1);
        log.readings.retain(|one| one.date < last);
        let judged = verdict(&log, rule);
        assert_eq!(judged.verdict, Verdict::NotReached, "{}", rule.id);
        if let Some(worst) = judged.worst() {
            assert!(worst.days_needed >= 1, "{}", rule.id);
        }
    }
}

#[test]
fn a_gap_is_unknown_and_never_counted() {
    for rule in heat_rule::all() {
        let Hold::Days(days) = rule.hold else { continue };
        if days < 3 {
            continue;
        }
        let gap = day(1);
        let mut log = meeting(rule);
        log.readings.retain(|one| one.date != gap);
        let judged = verdict(&log, rule);
        assert!(!judged.verdict.is_reached(), "{}: {judged:#?}", rule.id);
        assert_eq!(judged.verdict, Verdict::Unknown, "{}: {judged:#?}", rule.id);
        assert_eq!(judged.worst().unwrap().missing_days, [gap], "{}", rule.id);
        // A day more makes up for it only where days need not follow each other.
        for zone in zones(rule) {
            let temperature = hot(rule);
            let depth_cm = rule.depth_cm.map(|(low, _)| low + 10.0);
            let date = day(u64::from(days * rule.cycles));
            log.readings.push(Reading { date, minute: None, zone: zone.to_owned(), depth_cm, temperature });
        }
        if rule.cycles == 1 {
            let made_up = verdict(&log, rule).verdict.is_reached();
            assert_eq!(made_up, rule.consecutive != Consecutive::Yes, "{}", rule.id);
        }
    }
}

#[test]
fn too_few_turnings_are_told_and_those_outside_the_days_do_not_count() {
    for rule in heat_rule::all().iter().filter(|rule| rule.turnings > 0 || rule.cycles > 1) {
        let mut log = meeting(rule);
        log.turnings.pop();
        let judged = verdict(&log, rule);
        assert_eq!(judged.verdict, Verdict::NotReached, "{}: {judged:#?}", rule.id);
        if rule.turnings > 0 {
            assert_eq!(judged.worst().unwrap().turnings_needed, 1, "{}", rule.id);
            // One before the heat and two on the same day make no turning more.
            log.turnings.push(day(200));
            log.turnings.push(*log.turnings.first().unwrap());
            assert_eq!(verdict(&log, rule).verdict, Verdict::NotReached, "{}", rule.id);
        }
    }
}

#[test]
fn turnings_too_near_to_each_other_count_once() {
    let rule = rule("uk-catering-windrow");
    let mut log = meeting(rule);
    log.turnings = vec![day(1), day(2), day(3)];
    let judged = verdict(&log, rule);
    assert_eq!(judged.worst().unwrap().turnings_counted, 2);
    assert_eq!(judged.verdict, Verdict::NotReached);
}

#[test]
fn over_the_upper_limit_fails_although_the_heat_was_there() {
    let limited: Vec<&Rule> = heat_rule::all().iter().filter(|rule| rule.upper.is_some()).collect();
    assert!(limited.len() >= 3);
    for rule in limited {
        let mut log = meeting(rule);
        let upper = Temperature::from_c(rule.upper.unwrap().c() + 0.3);
        log.readings.first_mut().unwrap().temperature = upper;
        let judged = verdict(&log, rule);
        assert_eq!(judged.verdict, Verdict::TooHot, "{}: {judged:#?}", rule.id);
        assert_eq!(judged.worst().unwrap().over_days, [day(0)]);
        // The same log under a rule without an upper limit is reached.
        if rule.id == "us-organic-windrow" {
            assert!(verdict(&log, self::rule("canada-windrow")).verdict.is_reached());
        }
    }
}

#[test]
fn the_worst_zone_decides() {
    let rule = rule("us-organic-windrow");
    let mut log = meeting(rule);
    for reading in log.readings.iter_mut().filter(|one| one.zone == "edge" && one.date > day(9)) {
        reading.temperature = Temperature::from_c(48.0);
    }
    let judged = verdict(&log, rule);
    let worst = judged.worst().unwrap();
    assert_eq!((judged.verdict, worst.zone.as_str(), worst.days_counted), (Verdict::NotReached, "edge", 10));
    assert_eq!(worst.days_needed, 5);
}

#[test]
fn zones_that_a_rule_wants_must_be_read() {
    let rule = rule("germany-windrow-55");
    let mut log = meeting(rule);
    log.readings.retain(|one| one.zone != "base");
    let judged = verdict(&log, rule);
    assert_eq!((judged.verdict, &judged.zones_missing[..]), (Verdict::Unknown, &["base"][..]));
}

#[test]
fn both_scales_judge_alike() {
    let rule = rule("california-windrow");
    let mut metric = meeting(rule);
    let mut us = metric.clone();
    for (one, other) in metric.readings.iter_mut().zip(&mut us.readings) {
        one.temperature = Temperature::from_c(55.0);
        other.temperature = Temperature::from_f(131.0);
    }
    assert_eq!(verdict(&metric, rule), { verdict(&us, rule) });
    assert_eq!(verdict(&us, rule).verdict, Verdict::Met);
}

#[test]
fn a_probe_outside_its_depth_is_set_aside() {
    let rule = rule("california-windrow");
    let mut log = meeting(rule);
    for reading in &mut log.readings {
        reading.depth_cm = Some(10.0);
    }
    let judged = verdict(&log, rule);
    assert_eq!((judged.verdict, judged.set_aside), (Verdict::NotReached, log.readings.len()));
}

#[test]
fn a_rule_for_animal_matter_does_not_apply_to_plants() {
    let rule = rule("us-organic-windrow");
    assert_eq!(judge(&meeting(rule), rule, Some(false)).verdict, Verdict::DoesNotApply);
    assert_eq!(judge(&meeting(rule), rule, None).verdict, Verdict::Met);
}

#[test]
fn a_probe_renamed_midway_is_asked_about() {
    let rule = rule("canada-windrow");
    let mut log = meeting(rule);
    log.readings.retain(|one| one.zone == "core");
    for reading in log.readings.iter_mut().filter(|one| one.date >= day(8)) {
        reading.zone = "probe 2".to_owned();
    }
    let judged = verdict(&log, rule);
    assert_eq!(judged.verdict, Verdict::Unknown);
    let [renamed] = &judged.renamed[..] else { panic!("{judged:?}") };
    assert_eq!((renamed.from.as_str(), renamed.to.as_str(), renamed.on), ("core", "probe 2", day(8)));
}

#[test]
fn hours_need_the_time_of_day() {
    let rule = rule("eu-processed-manure");
    let mut log = meeting(rule);
    for reading in &mut log.readings {
        reading.minute = None;
    }
    assert_eq!(verdict(&log, rule).verdict, Verdict::Unknown);
    // Two readings far apart do not show what was between.
    let mut log = meeting(rule);
    log.readings.retain(|one| matches!(one.minute, Some(0 | 90)));
    assert_eq!(verdict(&log, rule).verdict, Verdict::NotReached);
}

/// Readings of every zone of a rule, a quarter of an hour apart, between two minutes of the log.
fn quarters(rule: &Rule, minutes: std::ops::Range<u64>) -> Vec<Reading> {
    let of_zone = |zone: &'static str| {
        minutes.clone().step_by(15).map(move |minute| Reading {
            date: day(minute / 1440),
            minute: u16::try_from(minute % 1440).ok(),
            zone: zone.to_owned(),
            depth_cm: rule.depth_cm.map(|(low, _)| low + 10.0),
            temperature: hot(rule),
        })
    };
    zones(rule).into_iter().flat_map(of_zone).collect()
}

#[test]
fn a_gap_in_the_hours_begins_them_anew() {
    let counting: Vec<(&Rule, f64)> = heat_rule::all()
        .iter()
        .filter_map(|rule| match rule.hold {
            Hold::Hours(hours) if hours > 0.0 => Some((rule, hours)),
            _ => None,
        })
        .collect();
    assert!(counting.len() >= 5, "{counting:?}");
    for (rule, hours) in counting {
        let wanted = (hours * 60.0) as u64;
        let of = |readings: Vec<Reading>| verdict(&Log { readings, ..Log::default() }, rule);
        let whole = of(quarters(rule, 0..wanted + 15));
        assert!(whole.verdict.is_reached(), "{}: {whole:#?}", rule.id);
        // As many hours of heat, unread in their midst for longer than a quarter of the time to be held.
        let gap = wanted / 2..wanted / 2 + wanted / 4 + 30;
        let unread = gap.end - gap.start;
        let broken = |to| {
            let mut readings = quarters(rule, 0..gap.start + 1);
            readings.extend(quarters(rule, gap.end..to));
            of(readings)
        };
        let judged = broken(wanted + unread + 15);
        assert_eq!(judged.verdict, Verdict::NotReached, "{}: {judged:#?}", rule.id);
        let held = judged.worst().unwrap().hours_counted.unwrap();
        assert!(held < hours, "{}: {held}", rule.id);
        // All the hours after the gap make up for it.
        let made_up = broken(gap.end + wanted + 15);
        assert!(made_up.verdict.is_reached(), "{}: {made_up:#?}", rule.id);
    }
}

#[test]
fn a_gap_in_the_hours_of_the_peak_begins_them_anew() {
    let peaked: Vec<&Rule> =
        heat_rule::all().iter().filter(|rule| rule.peak.is_some_and(|(_, hours)| hours > 0.0)).collect();
    assert!(!peaked.is_empty());
    for rule in peaked {
        let (above, hours) = rule.peak.unwrap();
        let wanted = (hours * 60.0) as u16;
        let start = 6 * 60;
        // Over the peak only on the first day, for the hours that are wanted, read every half hour.
        let with = |unread: std::ops::Range<u16>| {
            let mut log = meeting(rule);
            let mut more = Vec::new();
            for reading in &mut log.readings {
                let minute = reading.minute.unwrap();
                let within = reading.date == day(0) && (start..=start + wanted).contains(&minute);
                let cooler = f64::midpoint(rule.at_least.c(), above.c());
                reading.temperature = if within { hot(rule) } else { Temperature::from_c(cooler) };
                if within && minute < start + wanted {
                    more.push(Reading { minute: Some(minute + 30), ..reading.clone() });
                }
            }
            log.readings.extend(more);
            log.readings.retain(|one| one.date > day(0) || !unread.contains(&one.minute.unwrap()));
            verdict(&log, rule).verdict
        };
        assert_eq!(with(0..0), good(rule), "{}", rule.id);
        assert_eq!(with(start + 15..start + 135), Verdict::NotReached, "{}", rule.id);
    }
}

#[test]
fn order_does_not_matter_and_nothing_is_judged_as_nothing() {
    for rule in heat_rule::all() {
        let log = meeting(rule);
        let mut backwards = log.clone();
        backwards.readings.reverse();
        backwards.turnings.reverse();
        assert_eq!(verdict(&log, rule), verdict(&backwards, rule), "{}", rule.id);
        assert!(!verdict(&Log::default(), rule).verdict.is_reached());
    }
}

#[test]
fn fire_and_turning_are_told_by_the_log() {
    let rule = rule("canada-windrow");
    let mut log = meeting(rule);
    let hottest = log.readings.last_mut().unwrap();
    hottest.temperature = Temperature::from_c(78.0);
    let fire = log.fire();
    assert_eq!(fire.last().unwrap().1.name(), "red");
    assert_eq!(fire.first().unwrap().1.name(), "green");
    assert_eq!(log.triggers(), [Trigger::Hot]);
    log.moistures.push((day(0), Share::from_percent(40.0)));
    assert_eq!(log.fire().first().unwrap().1.name(), "amber");
    log.smoke.push(day(3));
    assert_eq!(log.fire().get(3).unwrap().1.name(), "stop");
}
