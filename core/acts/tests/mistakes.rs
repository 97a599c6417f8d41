//! Mistakes, each put right whole through the book; the balances are right afterwards.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use holding::{Kept, date};
use kerfbook_acts::blend_batch::{NewBlend, NewPart, Taken, blend, made_of};
use kerfbook_acts::error::{ActError, Unfit};
use kerfbook_acts::grow_crop;
use kerfbook_acts::lift_layer::{NewLift, lift};
use kerfbook_acts::mistake::{self, Unit};
use kerfbook_acts::probe_depth::{Depths, NewProbe, probe};
use kerfbook_acts::put_down::{NewPutDown, cautions, put_down};
use kerfbook_acts::recount_batch::{NewRecount, recount};
use kerfbook_acts::scenario::{Amount, Fate, Way};
use kerfbook_acts::stock::{StockNote, of};
use kerfbook_acts::storage::{Follows, Smell};
use kerfbook_acts::test_batch::{NewBatchTest, test};
use kerfbook_ledger::kind::{Answer, Kind, PlaceKind};
use kerfbook_ledger::{Body, EntryId, Flag, Replacement, Text};
use kerfbook_science::units::{Density, Length, Mass, Share, Volume};

fn left_litres(kept: &Kept, batch: EntryId) -> f64 {
    of(&kept.book.batch(batch).unwrap().unwrap()).unwrap().left.unwrap().volume.litres()
}

fn left_kg(kept: &Kept, batch: EntryId) -> f64 {
    of(&kept.book.batch(batch).unwrap().unwrap()).unwrap().left.unwrap().wet.kg()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.01 * b.abs().max(1.0)
}

#[test]
fn the_wrong_bed_moves_with_all_that_hangs_on_it() {
    let mut kept = Kept::new();
    let (right, wrong) =
        (kept.place("Bed 1", PlaceKind::Bed, 10.0), kept.place("Bed 2", PlaceKind::Bed, 10.0));
    let batch = kept.load("hardwood sawdust", 1000.0);
    let feed = kept.feed(wrong, 50);
    let layer = kept.put_down(wrong, batch, Way::OnTopOverNitrogen, Amount::Barrows(4.0), Some(feed));
    let now = kept.now;
    let depths = [Length::from_cm(3.0)];
    let measured = probe(
        &mut kept.book,
        &NewProbe { place: wrong, layer: Some(layer), depths: Depths::Measured(&depths) },
        now,
    )
    .unwrap();
    let other = kept.put_down(wrong, batch, Way::OnTop, Amount::Barrows(1.0), None);
    let reason = Text::new([1; 16], "the wrong bed");
    let changes = mistake::moved_to(&mut kept.book, &[layer], right, Some(&reason), now).unwrap();
    assert_eq!(changes.len(), 3, "layer, feed under it and probe");
    let here = kept.book.place(right).unwrap().unwrap();
    assert_eq!(here.layers.iter().map(|one| one.entry).collect::<Vec<_>>(), [layer]);
    assert_eq!(here.feeds.iter().map(|one| one.entry).collect::<Vec<_>>(), [feed]);
    assert_eq!(here.probes.iter().map(|one| one.entry).collect::<Vec<_>>(), [measured]);
    let there = kept.book.place(wrong).unwrap().unwrap();
    assert_eq!(there.layers.iter().map(|one| one.entry).collect::<Vec<_>>(), [other]);
    assert!(there.feeds.is_empty() && there.probes.is_empty());
    assert!(here.flagged.iter().all(|one| !one.flags.contains(&Flag::Elsewhere)));
    assert!(close(left_litres(&kept, batch), 600.0), "five barrows of 80 L are gone, wherever they lie");
    assert!(matches!(
        mistake::moved_to(&mut kept.book, &[layer], right, None, now),
        Err(ActError::NoChange(Unfit::HereAlready))
    ));
    assert!(matches!(
        mistake::moved_to(&mut kept.book, &[batch], right, None, now),
        Err(ActError::NoChange(Unfit::NoPlace))
    ));
    // Taken back: the feed and the probe stay moved, the layer is back.
    mistake::taken_out(&mut kept.book, *changes.first().unwrap(), None, now).unwrap();
    assert!(kept.book.verify().unwrap().sound());
}

#[test]
fn one_load_that_two_people_entered_becomes_one_and_its_uses_move() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let keep = kept.load("hardwood sawdust", 1000.0);
    let second = kept.load_with("hardwood sawdust", |load| {
        load.wet = Some(Mass::from_kg(246.0));
        load.volume = Some(Volume::from_litres(1000.0));
        load.diseased = Answer::Yes;
        load.salty = Answer::Unknown;
    });
    let manure = kept.load("cattle manure", 500.0);
    kept.put_down(bed, keep, Way::OnTop, Amount::Barrows(2.0), None);
    let moved = kept.put_down(bed, second, Way::OnTop, Amount::Barrows(3.0), None);
    let now = kept.now;
    let parts = [
        NewPart { batch: second, amount: Taken::Loose(Volume::from_litres(100.0)) },
        NewPart { batch: manure, amount: Taken::Wet(Mass::from_kg(50.0)) },
    ];
    let containers = kept.containers;
    let (mixed, _) = blend(&mut kept.book, &blend_of(&parts), &containers, now).unwrap();
    let tested = test(
        &mut kept.book,
        &NewBatchTest { moisture: Some(Share::from_percent(38.0)), ..NewBatchTest::of(second) },
        now,
    )
    .unwrap();
    let changes = mistake::same_load(&mut kept.book, keep, second, None, now).unwrap();
    assert_eq!(changes.len(), 5, "the load's figures, a putting down, a blend, a test, and the withdrawal");
    let view = kept.book.batch(keep).unwrap().unwrap();
    assert_eq!(view.uses.len(), 3);
    assert_eq!(view.wet_g, Some(246_000), "weighed by the second");
    assert_eq!((view.diseased, view.salty), (Answer::Yes, Answer::No), "what is known wins over what is not");
    assert_eq!(view.tests.first().unwrap().entry, tested.entry);
    assert!(kept.book.batch(second).unwrap().unwrap().withdrawn());
    let gone = kept.book.current(moved).unwrap().unwrap();
    assert!(gone.counts(), "{:?}", gone.flags);
    assert_eq!(kept.book.place(bed).unwrap().unwrap().layers.len(), 2);
    // 160 and 240 L put down, 100 L mixed in, out of 1000 L.
    assert!(close(left_litres(&kept, keep), 500.0), "{}", left_litres(&kept, keep));
    let made = made_of(&kept.book, mixed, now.date).unwrap();
    assert_eq!(made.components.len(), 2);
    assert!(matches!(
        mistake::same_load(&mut kept.book, keep, keep, None, now),
        Err(ActError::NoChange(Unfit::SameEntry))
    ));
    assert!(matches!(
        mistake::same_load(&mut kept.book, keep, second, None, now),
        Err(ActError::NotThere { .. })
    ));
    // Put back: it was two loads after all. The uses stay where they were moved to, to be sorted out by hand.
    mistake::put_back(&mut kept.book, second, None, now).unwrap();
    assert!(!kept.book.batch(second).unwrap().unwrap().withdrawn());
    assert!(matches!(
        mistake::put_back(&mut kept.book, second, None, now),
        Err(ActError::NoChange(Unfit::NotOut))
    ));
}

fn blend_of(parts: &[NewPart]) -> NewBlend<'_> {
    NewBlend {
        label: "Bedding",
        parts,
        material: None,
        particle: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    }
}

#[test]
fn a_wrong_unit_found_a_week_later_is_put_right_in_every_field_that_follows_from_it() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    // Two cubic yards, written down as two cubic metres.
    let batch = kept.load("hardwood sawdust", 2000.0);
    let layer = kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(5.0), None);
    let week = kept.now.on(date(2026, 4, 22));
    mistake::wrong_unit(&mut kept.book, batch, Unit::CubicMetre, Unit::CubicYard, None, week).unwrap();
    // 2 yd3 are 1529.1 L; five barrows of 80 L went.
    assert!(close(left_litres(&kept, batch), 1129.1), "{}", left_litres(&kept, batch));
    // Five inches written as five centimetres: mass and depth follow, the depth to be worked in would not.
    let before = kept.book.place(bed).unwrap().unwrap().layers.first().cloned().unwrap();
    mistake::wrong_unit(&mut kept.book, layer, Unit::Centimetre, Unit::Inch, None, week).unwrap();
    let after = kept.book.place(bed).unwrap().unwrap().layers.first().cloned().unwrap();
    let times = |a: u64, b: u64| (a * 100).abs_diff(b * 254) <= b;
    assert!(times(after.wet_g.unwrap(), before.wet_g.unwrap()));
    assert!(times(after.dry_g.unwrap(), before.dry_g.unwrap()));
    assert!(times(u64::from(after.depth_mm.unwrap()), u64::from(before.depth_mm.unwrap())));
    assert!(close(left_litres(&kept, batch), 1529.1 - 400.0 * 2.54));
    for (written, meant, why) in [
        (Unit::Kilogram, Unit::Litre, Unfit::OtherQuantity),
        (Unit::Litre, Unit::Litre, Unfit::SameUnit),
        (Unit::Metre, Unit::Foot, Unfit::NoSuchAmount),
    ] {
        let refused = mistake::wrong_unit(&mut kept.book, batch, written, meant, None, week);
        assert!(matches!(refused, Err(ActError::NoChange(found)) if found == why), "{written:?}");
    }
}

#[test]
fn only_units_that_an_entry_has_amounts_in_are_offered() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let batch = kept.load("hardwood sawdust", 2000.0);
    let counted = kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(5.0), None);
    let slips = |entry| mistake::slips(&kept.book.current(entry).unwrap().unwrap().body);
    assert_eq!(slips(batch), [(Unit::Litre, Unit::UsGallon), (Unit::UsGallon, Unit::Litre)]);
    assert_eq!(slips(counted), []);
}

#[test]
fn every_unit_has_a_name_of_its_own() {
    for unit in Unit::ALL {
        assert_eq!(Unit::of_name(unit.name()), Some(unit));
    }
    assert_eq!(Unit::of_name("stone"), None);
}

#[test]
fn corrections_of_corrections_and_their_withdrawals_leave_the_balance_right() {
    let mut kept = Kept::new();
    let batch = kept.load("hardwood sawdust", 1000.0);
    let field =
        |litres: u64| Replacement::field(Kind::LoadTakenIn, "volume_ml", &Some(litres * 1000)).unwrap();
    let correct = |kept: &mut Kept, litres| {
        let change = kept.change();
        kept.book.correct(batch, &[field(litres)], change, kept.now.wall_ms).unwrap()
    };
    let first = correct(&mut kept, 1200);
    assert!(close(left_litres(&kept, batch), 1200.0));
    let second = correct(&mut kept, 1500);
    assert!(close(left_litres(&kept, batch), 1500.0));
    let now = kept.now;
    mistake::taken_out(&mut kept.book, second, None, now).unwrap();
    assert!(close(left_litres(&kept, batch), 1200.0), "the first correction holds again");
    mistake::taken_out(&mut kept.book, first, None, now).unwrap();
    assert!(close(left_litres(&kept, batch), 1000.0), "as it was written");
    let third = correct(&mut kept, 900);
    let out = mistake::taken_out(&mut kept.book, batch, None, now).unwrap();
    assert!(kept.book.batch(batch).unwrap().unwrap().withdrawn());
    mistake::taken_out(&mut kept.book, out, None, now).unwrap();
    assert!(!kept.book.batch(batch).unwrap().unwrap().withdrawn());
    assert!(close(left_litres(&kept, batch), 900.0), "the third correction stands: {third:?}");
    let rebuilt = kept.book.projection_hash().unwrap();
    assert_eq!(kept.book.rebuild().unwrap(), rebuilt);
}

#[test]
fn no_part_of_a_barrow_is_lost_to_rounding() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 100.0);
    let batch = kept.load("hardwood sawdust", 1000.0);
    for _ in 0..10 {
        kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(1.25), None);
    }
    assert!(close(left_litres(&kept, batch), 0.0) && left_kg(&kept, batch).abs() < 0.01);
    assert_eq!(kept.book.batch(batch).unwrap().unwrap().left_ml, Some(0));
    let layer = kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(3.0), None);
    let Body::PutDown(put) = kept.book.current(layer).unwrap().unwrap().body else { panic!() };
    assert_eq!((put.containers, put.container_ml), (Some(3), Some(80_000)), "whole barrows are counted");
}

#[test]
fn a_balance_below_zero_is_told_and_a_count_settles_it() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 100.0);
    let batch = kept.load("hardwood sawdust", 200.0);
    kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(4.0), None);
    let stock = |kept: &Kept| of(&kept.book.batch(batch).unwrap().unwrap()).unwrap();
    let overdrawn = stock(&kept);
    assert!(close(overdrawn.left.unwrap().volume.litres(), -120.0));
    assert!(overdrawn.notes.contains(&StockNote::Overdrawn));
    let (_, count) = overdrawn.left.unwrap().told_in(&kept.containers);
    assert!((count + 1.5).abs() < 0.01, "a barrow and a half short: {count}");
    let later = kept.now.on(date(2026, 4, 20));
    let there = NewRecount {
        batch,
        wet: None,
        volume: Some(Volume::from_litres(80.0)),
        reason: Some(Text::new([2; 16], "the heap was bigger")),
    };
    recount(&mut kept.book, &there, later).unwrap();
    let settled = stock(&kept);
    assert!(close(settled.left.unwrap().volume.litres(), 80.0));
    assert_eq!(settled.counted, Some(date(2026, 4, 20)));
    assert!(!settled.notes.contains(&StockNote::Overdrawn));
    kept.now = later.on(date(2026, 4, 25));
    kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(0.5), None);
    assert!(close(left_litres(&kept, batch), 40.0));
    let nothing = NewRecount { batch, wet: None, volume: None, reason: None };
    let now = kept.now;
    assert!(matches!(recount(&mut kept.book, &nothing, now), Err(ActError::NothingMeasured)));
}

#[test]
fn what_goes_into_a_blend_leaves_its_batches() {
    let mut kept = Kept::new();
    let wood = kept.load_with("hardwood shavings", |load| {
        load.wet = Some(Mass::from_kg(100.0));
        load.volume = None;
    });
    let manure = kept.load_with("cattle manure", |load| {
        load.wet = Some(Mass::from_kg(300.0));
        load.volume = None;
    });
    let parts = [
        NewPart { batch: wood, amount: Taken::Wet(Mass::from_kg(60.0)) },
        NewPart { batch: manure, amount: Taken::Wet(Mass::from_kg(200.0)) },
    ];
    let (containers, now) = (kept.containers, kept.now);
    let (mixed, found) = blend(&mut kept.book, &blend_of(&parts), &containers, now).unwrap();
    assert_eq!(found.nearest.name, "stable bedding, shavings");
    assert!(close(left_kg(&kept, wood), 40.0) && close(left_kg(&kept, manure), 100.0));
    assert!(close(left_kg(&kept, mixed), 260.0));
    let Body::BatchBlended(body) = kept.book.current(mixed).unwrap().unwrap().body else { panic!() };
    assert!((f64::from(body.carbon_nitrogen_x100.unwrap()) / 100.0 - found.carbon_nitrogen).abs() < 0.01);
    // A blend of a blend comes down to the same materials.
    let again = [
        NewPart { batch: mixed, amount: Taken::Wet(Mass::from_kg(130.0)) },
        NewPart { batch: wood, amount: Taken::Wet(Mass::from_kg(40.0)) },
    ];
    let (twice, _) = blend(&mut kept.book, &blend_of(&again), &containers, now).unwrap();
    let made = made_of(&kept.book, twice, now.date).unwrap();
    let dry: f64 = made.components.iter().map(|one| made.share(one)).sum();
    assert!((dry - 1.0).abs() < 1e-9);
    assert_eq!(made.components.len(), 3);
    let once = [NewPart { batch: wood, amount: Taken::Barrows(1.0) }];
    assert!(matches!(blend(&mut kept.book, &blend_of(&once), &containers, now), Err(ActError::NoBlend)));
    let same = [once[0], once[0]];
    assert!(matches!(blend(&mut kept.book, &blend_of(&same), &containers, now), Err(ActError::NoBlend)));
}

#[test]
fn more_than_lies_there_is_not_lifted() {
    let mut kept = Kept::new();
    let path = kept.place("Path", PlaceKind::Path, 18.0);
    let batch = kept.load("arborist chips, leafless", 3000.0);
    let layer = kept.put_down(path, batch, Way::Path, Amount::Barrows(20.0), None);
    let spring = kept.now.on(date(2027, 3, 1));
    let half = NewLift {
        place: path,
        layer,
        label: "From the path",
        share: Some(Share::from_percent(50.0)),
        wet: None,
        volume: Some(Volume::from_litres(500.0)),
        moisture: None,
    };
    let lifted = lift(&mut kept.book, &half, spring).unwrap();
    assert_eq!(kept.book.batch(lifted).unwrap().unwrap().material.as_str(), "arborist chips, leafless");
    let more = NewLift { share: Some(Share::from_percent(60.0)), ..half };
    assert!(
        matches!(lift(&mut kept.book, &more, spring), Err(ActError::MoreThanLies { lies }) if close(lies.percent(), 50.0))
    );
    let rest = NewLift { share: None, ..half };
    lift(&mut kept.book, &rest, spring).unwrap();
    assert!(matches!(lift(&mut kept.book, &rest, spring), Err(ActError::MoreThanLies { .. })));
    let early = NewLift { place: path, ..half };
    let now = kept.now.on(date(2026, 4, 1));
    assert!(matches!(lift(&mut kept.book, &early, now), Err(ActError::Before { what: "layer", .. })));
}

#[test]
fn what_comes_later_is_not_put_down_earlier_and_a_crop_does_not_end_before_it_starts() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let batch = kept.load("hardwood sawdust", 1000.0);
    let crop = kept.crop(bed, "cabbage", None);
    let before = kept.count();
    let yesterday = kept.now.on(date(2026, 4, 14));
    let new = NewPutDown { place: bed, batch, way: Way::OnTop, amount: Amount::Barrows(1.0), over: None };
    let containers = kept.containers;
    let early = put_down(&mut kept.book, &new, &containers, yesterday);
    assert!(matches!(early, Err(ActError::Before { what: "batch", first }) if first == date(2026, 4, 15)));
    let ended = grow_crop::end(&mut kept.book, bed, crop, Fate::DugIn, None, yesterday);
    assert!(matches!(ended, Err(ActError::Before { what: "crop", .. })));
    let elsewhere = grow_crop::end(&mut kept.book, bed, batch, Fate::DugIn, None, yesterday);
    assert!(matches!(elsewhere, Err(ActError::NotThere { what: "crop" })));
    assert_eq!(kept.count(), before, "nothing was written");
}

#[test]
fn a_sour_or_deep_load_is_told_before_it_goes_out() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let batch = kept.load("hardwood sawdust", 5000.0);
    let (containers, now) = (kept.containers, kept.now);
    let cautions = |kept: &Kept, barrows| -> Vec<&'static str> {
        let amount = Amount::Barrows(barrows);
        let new = NewPutDown { place: bed, batch, way: Way::OnTop, amount, over: None };
        let found = cautions(&kept.book, &new, None, &containers, now.date).unwrap();
        found.iter().map(|caution| caution.id).collect()
    };
    // 4 barrows of 80 L on 10 m2 lie 3.2 cm deep; 8 lie 6.4 cm deep, and fine sawdust mats from 5 cm on.
    assert!(!cautions(&kept, 4.0).contains(&"sour-mulch") && !cautions(&kept, 4.0).contains(&"sawdust-mat"));
    assert!(cautions(&kept, 8.0).contains(&"sawdust-mat"));
    let sour = NewBatchTest { smell: Some(Smell::Sour), ph: Some(3.1), ..NewBatchTest::of(batch) };
    let tested = test(&mut kept.book, &sour, now).unwrap();
    assert!(matches!(tested.follows, Some(Follows::Air { .. })));
    assert!(cautions(&kept, 4.0).contains(&"sour-mulch"));
}

#[test]
fn figures_measured_later_hold_from_their_day_on() {
    let mut kept = Kept::new();
    let bed = kept.place("Bed", PlaceKind::Bed, 10.0);
    let batch = kept.load("hardwood sawdust", 1000.0);
    let dry = |kept: &Kept, layer: EntryId| {
        let view = kept.book.place(bed).unwrap().unwrap();
        view.layers.iter().find(|one| one.entry == layer).unwrap().dry_g.unwrap()
    };
    let wetter = NewBatchTest {
        moisture: Some(Share::from_percent(60.0)),
        wet_density: Some(Density::from_kg_m3(375.0)),
        ..NewBatchTest::of(batch)
    };
    let tested = kept.now.on(date(2026, 5, 1));
    test(&mut kept.book, &wetter, tested).unwrap();
    let before = kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(1.0), None);
    kept.now = tested.on(date(2026, 5, 2));
    let after = kept.put_down(bed, batch, Way::OnTop, Amount::Barrows(1.0), None);
    // 80 L at 246 kg/m3 and 39 % moisture hold 12.0 kg dry; at 375 kg/m3 and 60 %, 12.0 kg as well: it only got wet.
    assert!(dry(&kept, before).abs_diff(12_005) < 10, "{}", dry(&kept, before));
    assert!(dry(&kept, after).abs_diff(12_000) < 10, "{}", dry(&kept, after));
    assert!(close(left_litres(&kept, batch), 840.0));
}
