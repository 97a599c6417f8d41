//! How much a load is, how well that is known, and how it goes on by the load.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

mod site;

use kerfbook_acts::dose::dose;
use kerfbook_acts::doubt::{self, KnownBy, Measured};
use kerfbook_acts::load::Load;
use kerfbook_acts::orchard::by_load;
use kerfbook_acts::scenario::{Amount, Block, Drive, Ground, Orchard, PutDown, Scenario, Tree};
use kerfbook_science::dose::{Bulk, Filling};
use kerfbook_science::geometry::load::Verdict;
use kerfbook_science::plain::LaidBy;
use kerfbook_science::units::{Density, Length, Mass, Share, Volume};

const fn tree(row: u32, tree: u32) -> Tree {
    Tree { row, tree }
}

/// The usual bed with its load changed.
fn scenario(change: impl FnOnce(&mut PutDown)) -> Scenario {
    let mut scenario = site::golden_site(20.0);
    change(&mut scenario.put_down[0]);
    scenario
}

fn load(change: impl FnOnce(&mut PutDown)) -> Load {
    let scenario = scenario(change);
    Load::of(&scenario.put_down[0], &scenario.place, &scenario.containers, &mut Vec::new()).unwrap()
}

#[test]
fn any_one_measure_gives_the_others() {
    let by = |amount| {
        let mut scenario = scenario(|put| put.amount = amount);
        scenario.containers.trailer = Some(Volume::from_m3(1.5));
        Load::of(&scenario.put_down[0], &scenario.place, &scenario.containers, &mut Vec::new()).unwrap()
    };
    let first = by(Amount::Depth(Length::from_cm(6.0)));
    assert!((first.settled_depth.cm() - 6.0 * first.settling.factor()).abs() < 1e-9);
    let again = [
        Amount::SettledDepth(first.settled_depth),
        Amount::Loose(first.loose),
        Amount::Wet(first.wet),
        Amount::DryPerArea(first.dry_per_area),
        Amount::Barrows(first.loose.litres() / 80.0),
        Amount::Trailers(first.loose.m3() / 1.5),
        Amount::Laid { by: LaidBy::Fingers, count: 60.0 / LaidBy::Fingers.width_mm().typical },
    ];
    for amount in again {
        let other = by(amount);
        for (a, b) in [
            (other.dry.kg(), first.dry.kg()),
            (other.wet.kg(), first.wet.kg()),
            (other.depth.mm(), first.depth.mm()),
            (other.settled.m3(), first.settled.m3()),
        ] {
            assert!((a / b - 1.0).abs() < 1e-12, "{amount:?}: {a} {b}");
        }
    }
}

#[test]
fn what_is_measured_better_spreads_the_runs_less() {
    let barrows = |put: &mut PutDown| put.amount = Amount::Barrows(10.0);
    let by_eye = load(barrows).mass_spread();
    let bulk = Bulk::of_buckets(
        Volume::from_litres(20.0),
        Mass::from_kg(1.0),
        &[8.0, 8.2, 8.1].map(Mass::from_kg),
        Filling::TappedThirds,
    )
    .unwrap();
    let tested = load(|put| {
        barrows(put);
        put.bulk_density = Some(bulk.wet_density);
        put.measured.density = Some(bulk.relative_sd);
        put.moisture = Some(Share::from_percent(45.0));
        put.moisture_half = Some(Share::from_percent(2.0));
    });
    assert!(by_eye > 0.15 && tested.mass_spread() < 0.75 * by_eye, "{by_eye} {}", tested.mass_spread());
    assert!((tested.wet_density.kg_m3() - 355.0).abs() < 1e-9);
    let by_hand = load(|put| put.amount = Amount::Laid { by: LaidBy::Hands, count: 1.0 }).mass_spread();
    let by_rule = load(|put| put.amount = Amount::Depth(Length::from_mm(100.0))).mass_spread();
    assert!(by_hand > by_rule);
}

#[test]
fn the_area_counts_where_the_amount_is_in_all() {
    let spread = |amount, area_sd| {
        let mut scenario = scenario(|put| put.amount = amount);
        scenario.place.area_sd = Some(area_sd);
        Load::of(&scenario.put_down[0], &scenario.place, &scenario.containers, &mut Vec::new())
            .unwrap()
            .mass_spread()
    };
    // A weighed load of which nobody says more has the model's own spread, and a taped place less.
    let weighed = Amount::Wet(Mass::from_kg(500.0));
    assert!((spread(weighed, doubt::TYPED_AREA.value) - doubt::STATED_MASS.value).abs() < 1e-12);
    assert!(spread(weighed, doubt::TAPED_AREA.value) < doubt::STATED_MASS.value);
    for amount in [Amount::Barrows(10.0), weighed] {
        assert!(spread(amount, 0.3) > 1.3 * spread(amount, 0.02));
    }
    let depth = Amount::Depth(Length::from_cm(5.0));
    assert_eq!(spread(depth, 0.3).to_bits(), spread(depth, 0.02).to_bits());
    // What is stated by the area and by mass keeps the model's own spread.
    let dose = Amount::DryPerArea(kerfbook_science::units::AreaMass::from_t_ha(20.0));
    assert!((spread(dose, 0.3) - doubt::STATED_MASS.value).abs() < 1e-12);
}

#[test]
fn masses_of_a_book_are_as_well_known_as_what_was_measured() {
    let known = |known_by| {
        load(|put| {
            put.amount = Amount::Wet(Mass::from_kg(300.0));
            put.measured = Measured { known_by, ..Measured::default() };
        })
    };
    let (weighed, carried, laid) = (
        known(Some(KnownBy::Mass)).mass_spread(),
        known(Some(KnownBy::Volume)).mass_spread(),
        known(Some(KnownBy::Laid(LaidBy::Fingers))).mass_spread(),
    );
    assert!(weighed < carried && carried < laid, "{weighed} {carried} {laid}");
    // The runs draw a moisture that is only judged where the load was weighed as it was moist.
    assert!(known(Some(KnownBy::Mass)).moisture_half.is_some());
    assert!(known(Some(KnownBy::Volume)).moisture_half.is_none());
}

#[test]
fn a_wet_trailer_is_checked_at_its_heaviest() {
    let verdict = |carries: f64| {
        let mut scenario = scenario(|put| {
            put.amount = Amount::Loose(Volume::from_m3(6.0));
            put.bulk_density = Some(Density::from_kg_m3(400.0));
            put.measured.density = Some(0.05);
        });
        scenario.containers.trailer = Some(Volume::from_m3(2.0));
        scenario.containers.trailer_carries = Some(Mass::from_kg(carries));
        dose(&scenario).unwrap().payload.unwrap()
    };
    assert_eq!(verdict(900.0).verdict, Verdict::Under);
    assert_eq!(verdict(820.0).verdict, Verdict::Unsure);
    assert_eq!(verdict(700.0).verdict, Verdict::Over);
    assert!(verdict(700.0).most.m3() < 1.75 && verdict(700.0).most.m3() > 1.5);
    // A load from the table may be wetter than thought.
    let mut unknown = scenario(|put| put.amount = Amount::Loose(Volume::from_m3(6.0)));
    unknown.containers.trailer = Some(Volume::from_m3(2.0));
    unknown.containers.trailer_carries = Some(Mass::from_kg(1000.0));
    let payload = dose(&unknown).unwrap().payload.unwrap();
    assert!(payload.high.kg() / payload.typical.kg() > 1.15);
}

fn orchard(to: Option<Tree>) -> Orchard {
    Orchard {
        block: Block::new(12, vec![20; 4], vec![tree(12, 14)], Drive::Serpentine).unwrap(),
        ground: Ground::Rings { radius: Length::from_m(1.2), gap: Length::from_cm(20.0) },
        depth: Length::from_mm(75.0),
        from: tree(12, 9),
        to,
        spreader: None,
    }
}

#[test]
fn a_trailer_goes_so_many_trees() {
    let mut scenario = scenario(|put| put.amount = Amount::Trailers(3.0));
    scenario.containers.trailer = Some(Volume::from_m3(3.3));
    scenario.orchard = Some(orchard(None));
    let told = dose(&scenario).unwrap().by_load.unwrap();
    // 1.4 π m² at 7.5 cm take 330 litres.
    assert!((told.tree.litres() - 329.867).abs() < 0.001);
    assert_eq!((told.trees_per_load, told.runs.len()), (10, 3));
    let ends: Vec<_> = told.runs.iter().map(|run| (run.from, run.to, run.trees)).collect();
    let expected =
        [(tree(12, 9), tree(12, 19), 10), (tree(12, 20), tree(13, 12), 10), (tree(13, 11), tree(13, 2), 10)];
    assert_eq!(ends, expected);
    assert_eq!((told.next, told.left_trees), (Some(tree(13, 1)), 0));
}

#[test]
fn a_run_that_was_spread_tells_its_depth() {
    let mut scenario = scenario(|put| put.amount = Amount::Trailers(1.0));
    scenario.containers.trailer = Some(Volume::from_m3(3.3));
    scenario.orchard = Some(orchard(Some(tree(14, 3))));
    let told = dose(&scenario).unwrap().by_load.unwrap();
    // Row 12 from tree 9, without tree 14; all of row 13; three of row 14.
    assert_eq!(told.runs[0].trees, 11 + 20 + 3);
    assert!((told.depth.mm() - 3300.0 / 34.0 / told.ground.m2()).abs() < 1e-9);
    assert_eq!(told.next, Some(tree(14, 4)));
}

#[test]
fn the_block_may_end_before_the_loads_do() {
    let mut scenario = scenario(|put| put.amount = Amount::Trailers(9.0));
    scenario.containers.trailer = Some(Volume::from_m3(3.3));
    let told = |orchard: Orchard| {
        let load =
            Load::of(&scenario.put_down[0], &scenario.place, &scenario.containers, &mut Vec::new()).unwrap();
        by_load(&orchard, &load, &scenario.containers)
    };
    let all = told(orchard(None)).unwrap();
    assert_eq!(all.runs.iter().map(|run| run.trees).sum::<u64>(), 71);
    assert_eq!(
        (all.runs.len(), all.next, all.left_trees),
        (8, None, 19),
        "nine of the eighth load, and the ninth"
    );
    let band = Orchard {
        ground: Ground::Band { width: Length::from_m(2.0), spacing: Length::from_m(4.0) },
        spreader: Some(Length::from_m(1.5)),
        ..orchard(None)
    };
    let spreading = told(band).unwrap().spreading.unwrap();
    assert!(spreading.passes == 2 && (spreading.depth.mm() - 50.0).abs() < 1e-9);
    assert!((spreading.reach.m() - 3.3 / (1.5 * 0.05)).abs() < 1e-9);
    // Less than a tree's worth is no load, and a ring is wider than its gap.
    assert!(told(Orchard { depth: Length::from_m(1.4), ..orchard(None) }).is_err());
    let nothing = Ground::Rings { radius: Length::from_cm(20.0), gap: Length::from_cm(20.0) };
    assert!(told(Orchard { ground: nothing, ..orchard(None) }).is_err());
    assert!(told(Orchard { from: tree(16, 1), ..orchard(None) }).is_err());
}
