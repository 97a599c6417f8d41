//! Feed plans of places of a book: what was laid, given, grown and read before the day counts; and Today tells them.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod kept;

use kept::{Kept, after, first_day};
use kerfbook_acts::error::ActError;
use kerfbook_acts::feed_plan::of_place::plan_of;
use kerfbook_acts::feed_plan::{Each, FeedPlan, Outcome, SourcePlan, Terms, Why};
use kerfbook_acts::season::season;
use kerfbook_acts::today::{Reason, today_of};
use kerfbook_ledger::EntryId;
use kerfbook_ledger::kind::{
    CropEnded, Fate, LayerLifted, NitrogenForm, PlaceKind, Placed, SoilTested, TaskKind, Way,
};

fn planned(kept: &Kept, place: EntryId, day: u64, sources: &[&str]) -> FeedPlan {
    let sources = sources.iter().map(|name| (*name).to_owned()).collect();
    plan_of(&kept.book, place, after(day), &Terms { sources, ..Terms::default() }).unwrap()
}

/// Share of the runs whose crops ahead of a day go hungry, by the forecast of the place.
fn hungry(kept: &Kept, place: EntryId, day: u64) -> f64 {
    season(&kept.book, place, after(day), 200).unwrap().forecast(200, 1).unwrap().chance_hungry
}

/// Enters the feeds of a plan, each less some steps, and says which share then goes hungry.
fn put_back(kept: &mut Kept, place: EntryId, day: u64, plan: &SourcePlan, fewer: &[f64]) -> f64 {
    let mut written = Vec::new();
    let mut last = after(day);
    for (fed, fewer) in plan.feeds.iter().zip(fewer) {
        let kg_ha = fed.nitrogen_kg_ha - fewer * plan.step.kg_ha;
        last = last.max(fed.date);
        if kg_ha > 1e-9 {
            let placed = if fed.placed == kerfbook_acts::scenario::Placed::Under {
                Placed::Under
            } else {
                Placed::Mixed
            };
            written.push(kept.feed(place, plan.source.name, kg_ha, placed, fed.date));
        }
    }
    let at = u64::try_from((last - first_day()).num_days()).unwrap();
    let share = hungry(kept, place, at);
    for entry in written {
        kept.withdraw(entry, last);
    }
    share
}

/// A bed whose first year left a mulch that was half lifted and a crop that was dug in, with old sawdust from a path
/// worked in beside its second crop, which was fed once.
fn with_a_past() -> (Kept, EntryId) {
    let mut kept = Kept::new();
    let path = kept.ground("Path", PlaceKind::Path, 3.0, first_day());
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |load| load.cut = None);
    let mulch = kept.lay(bed, batch, Way::OnTop, 5.0, first_day());
    let laid = kept.lay_on(path, batch, Way::Path, 4_000, first_day());
    let crop = kept.book.place(bed).unwrap().unwrap().crops[0].entry;
    let ended = CropEnded { crop, fate: Fate::DugIn, yield_g: Some(20_000) };
    kept.write(ended, Some(bed), after(150));
    let lift = |layer, share_bp| LayerLifted {
        label: kept::label("Old sawdust"),
        layer,
        share_bp,
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
    };
    kept.write(lift(mulch, 5000), Some(bed), after(160));
    let lifted = kept.write(lift(laid, 9000), Some(path), after(350));
    kept.put(bed, lifted, Way::WorkedIn, |_| {}, after(355));
    kept.crop(bed, "cabbage", 110.0, after(360), after(470));
    kept.feed(bed, "blood meal", 20.0, Placed::Mixed, after(361));
    (kept, bed)
}

#[test]
fn a_plan_for_a_place_with_a_past_keeps_the_chance_when_it_is_entered() {
    let (mut kept, bed) = with_a_past();
    let on = 362;
    let before = hungry(&kept, bed, on);
    let plan = planned(&kept, bed, on, &["urea", "blood meal"]);
    assert!((plan.chance_without.unwrap() - before).abs() < 1e-12, "{:?} {before}", plan.chance_without);
    assert!(before > 0.2, "{before}");
    let mut kept_plans = 0;
    for own in &plan.sources {
        assert!(own.feeds.iter().all(|fed| fed.date >= after(on)), "{:?}", own.feeds);
        let whole = vec![0.0; own.feeds.len()];
        let back = put_back(&mut kept, bed, on, own, &whole);
        assert!((back - own.chance.unwrap()).abs() <= 0.005, "{back} {:?}", own.chance);
        if own.outcome != Outcome::Kept {
            continue;
        }
        kept_plans += 1;
        assert!(back <= 0.2, "{back}");
        for at in 0..own.feeds.len() {
            let mut less = whole.clone();
            less[at] = own.feeds[at].nitrogen_kg_ha / own.step.kg_ha;
            assert!(put_back(&mut kept, bed, on, own, &less) > 0.2, "feed {at} could be left out");
        }
    }
    assert!(kept_plans > 0, "{plan:?}");
}

#[test]
fn what_was_given_before_counts_to_the_limits_of_the_season() {
    let (mut kept, bed) = with_a_past();
    kept.feed(bed, "urea", 110.0, Placed::Mixed, after(362));
    kept.feed(bed, "urea", 90.0, Placed::Mixed, after(365));
    let plan = planned(&kept, bed, 366, &["urea"]);
    // 220 kg/ha of 240 are given in this season.
    assert!(plan.sources[0].nitrogen_kg_ha() <= 20.0 + 1e-6, "{:?}", plan.sources[0]);
}

#[test]
fn sources_given_on_the_holding_are_at_hand() {
    let (kept, bed) = with_a_past();
    let plan = planned(&kept, bed, 362, &[]);
    assert_eq!(plan.sources.iter().map(|own| own.source.name).collect::<Vec<_>>(), ["blood meal"]);
    // Before anything was given: the usual one, and said so.
    let plan = planned(&kept, bed, 300, &[]);
    assert_eq!(plan.sources[0].source.name, "ammonium sulfate");
    assert!(plan.assumed.iter().any(|one| one.key == "feed_source"));
    assert_eq!(plan.sources[0].outcome, Outcome::Nothing(Why::NothingGrows));
}

#[test]
fn readings_change_the_plan() {
    let (mut kept, bed) = with_a_past();
    let before = planned(&kept, bed, 366, &["urea"]);
    let rich = SoilTested {
        nitrogen_form: Some(NitrogenForm::MineralN),
        mg_m2: Some(9_000),
        ..SoilTested::default()
    };
    kept.write(rich, Some(bed), after(365));
    let after_test = planned(&kept, bed, 366, &["urea"]);
    let middle = |plan: &FeedPlan| plan.hungry_day.unwrap().p50.unwrap_or(f64::INFINITY);
    assert!(middle(&after_test) > middle(&before), "{} {}", middle(&after_test), middle(&before));
    let given = |plan: &FeedPlan| plan.sources[0].nitrogen_kg_ha();
    assert!(given(&after_test) < given(&before), "{} {}", given(&after_test), given(&before));
}

#[test]
fn a_place_of_which_nothing_is_known_has_no_plan() {
    let mut kept = Kept::new();
    let yard = kept.ground("Yard", PlaceKind::Yard, 50.0, first_day());
    let refused = plan_of(&kept.book, yard, after(1), &Terms::default());
    assert!(matches!(refused, Err(ActError::NoLoad)), "{refused:?}");
}

/// A row of six young apples.
fn row(mulched: bool) -> (Kept, EntryId) {
    let mut kept = Kept::new();
    let rings = kept.ground("Rings", PlaceKind::Rings, 24.0, first_day());
    kept.soil(rings, first_day());
    kept.tree(rings, "apple", 60_000, 6, first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    if mulched {
        kept.lay(rings, batch, Way::WorkedIn, 20.0, after(10));
    }
    (kept, rings)
}

#[test]
fn trees_get_back_by_the_tree_what_the_wood_takes() {
    let (kept, rings) = row(true);
    let plan = planned(&kept, rings, 20, &["ammonium sulfate"]);
    assert_eq!(plan.each, Some(Each::Trees(6)));
    assert_eq!((plan.chance_without, plan.hungry_day), (None, None));
    let own = &plan.sources[0];
    assert_eq!(own.outcome, Outcome::Kept, "{own:?}");
    assert!(own.wood_kg_ha > 5.0 && own.crop_kg_ha.abs() < 1e-12, "{own:?}");
    assert_eq!(own.chance, None);
    // A round number of grams for each tree.
    for fed in &own.feeds {
        let kerfbook_science::feed::Amount::Product(mass) = fed.amount else { panic!("{fed:?}") };
        let grams = mass.g() / 6.0;
        assert!((grams - grams.round()).abs() < 1e-9 && grams >= 1.0, "{grams}");
    }
    let (kept, rings) = row(false);
    let plan = planned(&kept, rings, 20, &["ammonium sulfate"]);
    assert_eq!(plan.sources[0].outcome, Outcome::Nothing(Why::Trees));
}

#[test]
fn today_tells_the_feeds_of_the_plan() {
    let (mut kept, bed) = with_a_past();
    let on = after(362);
    let feeds = |kept: &Kept| -> Vec<_> {
        let items = today_of(&kept.book, on, 28, &Terms::default()).unwrap();
        items.into_iter().filter(|item| item.what == TaskKind::Feed).collect()
    };
    let plan = planned(&kept, bed, 362, &["blood meal"]);
    let due: Vec<_> = plan.sources[0].feeds.iter().filter(|fed| fed.date <= after(390)).collect();
    let told = feeds(&kept);
    assert!(!due.is_empty());
    assert_eq!(
        told.iter().map(|item| item.due.unwrap()).collect::<Vec<_>>(),
        due.iter().map(|fed| fed.date).collect::<Vec<_>>()
    );
    let Reason::Planned { source, amount, .. } = &told[0].reason else { panic!("{told:?}") };
    assert_eq!((source.as_str(), *amount), ("blood meal", due[0].amount));
    kept.feed(bed, "blood meal", due[0].nitrogen_kg_ha, Placed::Mixed, on);
    assert!(feeds(&kept).iter().all(|item| item.due > told[0].due), "{:?}", feeds(&kept));
}
