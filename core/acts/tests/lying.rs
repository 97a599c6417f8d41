//! What lies on a place, and what digging it in would change.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod kept;

use kept::{Kept, after, first_day};
use kerfbook_acts::dig_in::{dig_in, foreseen};
use kerfbook_acts::lying::{Lying, lying};
use kerfbook_acts::scenario::Crop;
use kerfbook_acts::season::{Season, season};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::{DepthProbed, LayerLifted, Particle, PlaceKind, SoilWorked, Way};
use kerfbook_science::mulch::Purpose;
use kerfbook_science::nitrogen::{Sample, quantile, simulate};
use kerfbook_science::units::{Length, Share};

fn on(kept: &Kept, place: EntryId, day: u64) -> Lying {
    lying(&kept.book, place, after(day), None).unwrap()
}

/// A year from a day on.
fn at(kept: &Kept, place: EntryId, day: u64) -> Season {
    season(&kept.book, place, after(day), 365).unwrap()
}

/// A bed with sawdust laid 100 mm deep.
fn mulched() -> (Kept, EntryId, EntryId) {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    let layer = kept.put(bed, batch, Way::OnTop, |put| put.depth_mm = Some(100), first_day());
    (kept, bed, layer)
}

#[test]
fn sawdust_settles_and_then_loses_an_inch_a_year() {
    let (kept, bed, layer) = mulched();
    let fresh = on(&kept, bed, 0);
    assert!((fresh.depth.typical.mm() - 100.0).abs() < 1e-9);
    assert_eq!(fresh.layers[0].entry, layer);
    let settled = on(&kept, bed, 60);
    // 78 of 100 mm, less 60 days of 25 mm a year.
    assert!((settled.depth.typical.mm() - (78.0 - 25.0 * 60.0 / 365.0)).abs() < 1e-6);
    let year = on(&kept, bed, 425);
    assert!((settled.depth.typical.mm() - year.depth.typical.mm() - 25.0).abs() < 1e-6);
    assert!(year.depth.low < year.depth.typical && year.depth.typical < year.depth.high);
    assert_eq!(year.layers[0].age_days, 425);
    assert_eq!(year.loss_mm_year.unwrap().source.author, "Northwest Berry & Grape Network");
    assert_eq!(year.purpose, Purpose::Weeds);
}

#[test]
fn the_day_to_top_up_comes_from_the_yearly_loss_and_is_the_day_it_falls_under() {
    let (kept, bed, _) = mulched();
    let now = on(&kept, bed, 60);
    let top_up = now.top_up.unwrap();
    let likely = top_up.likely.unwrap();
    assert!(top_up.earliest < likely && likely < top_up.latest.unwrap());
    assert!(!now.thin && now.wanted_source.is_some());
    // Asked again later, the day stays.
    let later = on(&kept, bed, 200).top_up.unwrap().likely.unwrap();
    assert!((later - likely).num_days().abs() <= 1, "{likely} {later}");
    let then = lying(&kept.book, bed, likely + chrono::Days::new(1), None).unwrap();
    assert!(then.thin && then.depth.typical < then.wanted);
    // The person's own depth.
    let deeper = lying(&kept.book, bed, after(60), Some(Length::from_mm(90.0))).unwrap();
    assert!(deeper.thin && deeper.wanted_source.is_none());
    assert_eq!(deeper.top_up.unwrap().likely, Some(after(60)));
}

#[test]
fn a_probe_sets_the_depth_right() {
    let (mut kept, bed, layer) = mulched();
    let probe = DepthProbed { layer: None, depths_mm: vec![60, 64, 62, 58], ..DepthProbed::default() };
    kept.write(probe, Some(bed), after(90));
    let probed = on(&kept, bed, 90);
    assert!((probed.depth.typical.mm() - 61.0).abs() < 1e-9);
    // Four points, each 5 mm off at least: 1.645 times 2.5 mm.
    assert!((probed.depth.high.mm() - 61.0 - 1.645 * 2.5).abs() < 1e-9);
    assert_eq!(probed.probed, Some(after(90)));
    let before = on(&kept, bed, 89);
    assert!(
        before.probed.is_none()
            && before.depth.high - before.depth.low > probed.depth.high - probed.depth.low
    );
    kept.write(
        DepthProbed { layer: Some(layer), depths_mm: vec![], ..DepthProbed::default() },
        Some(bed),
        after(91),
    );
    assert_eq!(on(&kept, bed, 91).probed, Some(after(90)));
}

#[test]
fn what_is_lifted_or_dug_in_lies_there_no_more() {
    let (mut kept, bed, layer) = mulched();
    let whole = on(&kept, bed, 100).depth.typical.mm();
    let lift = |share_bp| LayerLifted {
        label: kept::label("Lifted"),
        layer,
        share_bp,
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
    };
    kept.write(lift(4000), Some(bed), after(100));
    assert!((on(&kept, bed, 100).depth.typical.mm() - 0.6 * whole).abs() < 1e-9);
    // Half of the place, to 5 cm: a quarter of what lies there.
    kept.write(
        SoilWorked { depth_mm: 50, share_bp: Some(5000), tool: None, by_tool: None },
        Some(bed),
        after(100),
    );
    let part = on(&kept, bed, 100);
    assert!((part.depth.typical.mm() - 0.6 * 0.75 * whole).abs() < 1e-9);
    assert!((part.layers[0].share - 0.45).abs() < 1e-12);
    assert_eq!(part.layers[0].dug_in, Some(after(100)));
    // More than lies there takes what is there, and no more.
    kept.write(lift(9000), Some(bed), after(120));
    let none = on(&kept, bed, 121);
    assert!(none.layers.is_empty() && none.depth.high.mm().abs() < 1e-12);
    assert!(none.top_up.is_none() && !none.thin && none.loss_mm_year.is_none());
}

#[test]
fn a_path_that_was_dug_is_flagged_and_still_covered() {
    let mut kept = Kept::new();
    let path = kept.ground("Path", PlaceKind::Path, 10.0, first_day());
    let chips = kept.load("hardwood sawdust", Some(Particle::Chips), |_| {});
    kept.put(path, chips, Way::Path, |put| put.depth_mm = Some(100), first_day());
    kept.write(
        SoilWorked { depth_mm: 200, share_bp: None, tool: None, by_tool: None },
        Some(path),
        after(10),
    );
    let lies = on(&kept, path, 20);
    assert_eq!(lies.purpose, Purpose::Path);
    assert_eq!(lies.layers.len(), 1);
    assert!(lies.depth.typical.mm() > 50.0);
}

#[test]
fn two_layers_sink_as_one_mulch() {
    let (mut kept, bed, _) = mulched();
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.put(bed, batch, Way::OnTop, |put| put.depth_mm = Some(50), after(200));
    let then = on(&kept, bed, 260);
    let later = on(&kept, bed, 625);
    assert_eq!(then.layers.len(), 2);
    assert!((then.depth.typical.mm() - later.depth.typical.mm() - 25.0).abs() < 1e-6);
    assert_eq!((later.layers[0].age_days, later.layers[1].age_days), (625, 425));
}

#[test]
fn digging_a_mulch_in_is_told_before_it_is_written() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    let layer = kept.lay(bed, batch, Way::OnTop, 40.0, first_day());
    let entries = kept.book.entries(None, 1000).unwrap().len();
    let dug = dig_in(&kept.book, bed, Length::from_cm(20.0), None, after(20), 100, 1).unwrap();
    assert_eq!(kept.book.entries(None, 1000).unwrap().len(), entries);
    assert_eq!(dug.reaches, [layer]);
    assert!((dug.share.fraction() - 1.0).abs() < 1e-12 && !dug.nothing_grows);
    let lost = dug.lost.unwrap();
    assert!(lost.p10.unwrap() > 1.0 && lost.p50.unwrap() > 10.0, "{lost:?}");
    let (without, with) = (dug.hungry_without.unwrap(), dug.hungry_with.unwrap());
    assert!(with.chance >= without.chance && with.day.p50.unwrap() < without.day.p50.unwrap());
    assert!(dug.tied_more.p50.unwrap() > 5.0 && dug.mineral_less.p50.unwrap() > 0.0);
    assert!(dug.feed.unwrap().nitrogen_kg_ha > 10.0);
    // A scratch of half the bed changes less.
    let half = Some(Share::from_percent(50.0));
    let scratch = foreseen(&at(&kept, bed, 20), Length::from_cm(2.0), half, 100, 1).unwrap();
    assert!((scratch.share.fraction() - 0.1).abs() < 1e-12);
    assert!(scratch.lost.unwrap().p50.unwrap() < lost.p50.unwrap());
    // Written down, the forecast is what was told.
    let before = at(&kept, bed, 20);
    kept.write(SoilWorked { depth_mm: 200, share_bp: None, tool: None, by_tool: None }, Some(bed), after(20));
    let after_it = at(&kept, bed, 20);
    let crop = |season: &Season| {
        simulate(&season.input, &Sample::new(1, 100), &[])
            .unwrap()
            .last()
            .crop_nitrogen(season.input.days)
            .unwrap()
    };
    let pairs: Vec<f64> = crop(&before).iter().zip(crop(&after_it)).map(|(a, b)| a - b).collect();
    assert!((quantile(&pairs, 0.5).unwrap() - lost.p50.unwrap()).abs() < 1e-9);
}

#[test]
fn where_nothing_lies_or_grows_digging_reaches_nothing() {
    let mut kept = Kept::new();
    let path = kept.ground("Path", PlaceKind::Path, 10.0, first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(path, batch, Way::Path, 50.0, first_day());
    let dug = foreseen(&at(&kept, path, 20), Length::from_cm(20.0), None, 20, 1).unwrap();
    assert!(dug.nothing_grows && dug.lost.is_none() && dug.feed.is_none());
    let bed = kept.bed("Bed", first_day());
    kept.lay(bed, batch, Way::WorkedIn, 10.0, first_day());
    let again = foreseen(&at(&kept, bed, 20), Length::from_cm(20.0), None, 20, 1).unwrap();
    assert!(again.reaches.is_empty());
    assert!(again.lost.unwrap().p90.unwrap().abs() < 1e-12);
}

#[test]
fn before_sowing_it_is_told_what_digging_in_would_do_to_the_crop_to_come() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::OnTop, 40.0, after(10));
    let spring = at(&kept, bed, 340);
    assert!(spring.ahead().is_empty());
    let depth = Length::from_cm(20.0);
    let alone = foreseen(&spring, depth, None, 60, 1).unwrap();
    assert!(alone.lost.is_none() && alone.tied_more.p50.unwrap() > 0.5, "{:?}", alone.tied_more);
    let next = Crop { started: after(350), ended: after(480), ..spring.scenario.crops[0].clone() };
    let spring = spring.expecting(&next).unwrap();
    assert_eq!(spring.ahead(), [1]);
    let dug = foreseen(&spring, depth, None, 60, 1).unwrap();
    assert!(dug.lost.unwrap().p50.unwrap() > 1.0, "{:?}", dug.lost);
    assert_eq!(dug.tied_more.p50.is_some(), alone.tied_more.p50.is_some());
}
