//! The ways of using wood at equal wood and equal added nitrogen, and what decides a mulch: the tables of the
//! specification's section 9.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test says what it found and stops where it fails"
)]

use kerfbook_science::material::{ModelClass, Particle};
use kerfbook_science::nitrogen::{
    Gift, GiftSource, Input, LayerWay, Placement, PutDown, Sample, Series, median, simulate,
};

fn golden(name: &str) -> Input {
    let path = format!("{}/../../fixtures/science/nitrogen/golden/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let mut case: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    serde_json::from_value(case["input"].take()).unwrap()
}

fn layer(material: ModelClass, way: LayerWay, dry: f64) -> PutDown {
    PutDown {
        material: Some(material),
        way,
        particle: Particle::Dust,
        dry_t_ha: Some(dry),
        ..PutDown::default()
    }
}

struct Row {
    way: &'static str,
    layers: Vec<PutDown>,
    gift: Option<Placement>,
}

fn rows(wood: f64, nitrogen: f64) -> Vec<Row> {
    let hardwood = |way| vec![layer(ModelClass::Hardwood, way, wood)];
    let row = |way, layers, gift| Row { way, layers, gift };
    let compost = PutDown {
        carbon_nitrogen: Some(14.0),
        ..layer(ModelClass::Compost, LayerWay::Under, nitrogen * 14.0 / 300.0)
    };
    // Half the carbon and a fifth of the added nitrogen are lost on the heap; wood of C:N 480.
    let (carbon, held) = (wood * 480.0 * 0.5, wood + nitrogen * 0.8);
    let composted = PutDown {
        carbon_nitrogen: Some(carbon / held),
        ..layer(ModelClass::CompostedWood, LayerWay::WorkedIn, carbon / 450.0)
    };
    let mut over_compost = vec![compost];
    over_compost.extend(hardwood(LayerWay::OnTop));
    vec![
        row("nothing down, N mixed", vec![], Some(Placement::Mixed)),
        row("worked in, N mixed", hardwood(LayerWay::WorkedIn), Some(Placement::Mixed)),
        row("on top, N sprinkled on it", hardwood(LayerWay::OnTop), Some(Placement::Top)),
        row("on top over the N", hardwood(LayerWay::OnTop), Some(Placement::Under)),
        row("on top, N mixed into the soil first", hardwood(LayerWay::OnTop), Some(Placement::Mixed)),
        row("on top over compost with that N", over_compost, None),
        row("composted with that N, worked in", vec![composted], None),
    ]
}

fn input(row: &Row, nitrogen: f64) -> Input {
    let gift = |placement| Gift {
        day: 0,
        source: GiftSource::AmmoniumSulfate,
        nitrogen_kg_ha: Some(nitrogen),
        litres_m2: None,
        placement,
        covered: false,
        incorporated_days: None,
        with_layer: false,
    };
    Input {
        put_down: row.layers.clone(),
        gifts: row.gift.map(gift).into_iter().collect(),
        ..golden("bare-bed")
    }
}

#[test]
fn ways_at_equal_nitrogen_come_out_as_specified() {
    let expected = [
        (15.0, 60.0, [102.0, 12.0, 77.0, 77.0, 83.0, 45.0, 50.0]),
        (15.0, 150.0, [120.0, 29.0, 120.0, 120.0, 120.0, 46.0, 64.0]),
        (37.5, 60.0, [102.0, 6.0, 70.0, 76.0, 82.0, 44.0, 23.0]),
    ];
    let mut wrong = Vec::new();
    for (wood, nitrogen, expected) in expected {
        for (row, expected) in rows(wood, nitrogen).iter().zip(expected) {
            let runs = median(&input(row, nitrogen), &[]).unwrap();
            let found = runs.last().end(Series::Uptake)[0];
            println!("{wood:5} t/ha + {nitrogen:4} kg N  {:40} {found:6.1} for {expected}", row.way);
            if (found - expected).abs() > 0.5 {
                wrong.push(format!("{wood} t/ha + {nitrogen} kg, {}: {found}, expected {expected}", row.way));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn order_of_the_ways_holds_in_as_many_runs_as_specified() {
    let sample = Sample::new(1, 200);
    let uptake = |row: &Row, nitrogen| {
        simulate(&input(row, nitrogen), &sample, &[]).unwrap().last().end(Series::Uptake).to_vec()
    };
    // Sprinkled at most what lies over the nitrogen gets; and mixed into the soil first, where it fails.
    for (wood, nitrogen, sprinkled, mixed) in
        [(15.0, 60.0, 0.78, 0.02), (15.0, 150.0, 0.96, 0.56), (37.5, 60.0, 1.00, 0.01)]
    {
        let rows = rows(wood, nitrogen);
        let share = |a: usize, b: usize| {
            let (a, b) = (uptake(&rows[a], nitrogen), uptake(&rows[b], nitrogen));
            let held = a.iter().zip(&b).filter(|(a, b)| **a <= **b + 1e-9).count();
            f64::from(u32::try_from(held).unwrap()) / 200.0
        };
        assert!((share(2, 3) - sprinkled).abs() <= 0.0051, "{}", share(2, 3));
        assert!((share(4, 3) - mixed).abs() <= 0.0051, "{}", share(4, 3));
    }
}

#[test]
fn a_mulch_hangs_on_the_upward_flux_and_on_mixing() {
    let cases = [
        ("hardwood-dust-on-top-50-mm", 0.03, 3e-4, 24.5),
        ("hardwood-dust-on-top-50-mm", 0.08, 3e-4, 39.0),
        ("hardwood-dust-on-top-50-mm", 0.25, 3e-4, 62.0),
        ("hardwood-dust-on-top-50-mm", 0.08, 1e-4, 31.0),
        ("hardwood-dust-on-top-50-mm", 0.08, 1e-3, 55.0),
        ("hardwood-chips-on-top-75-mm", 0.03, 3e-4, 8.5),
        ("hardwood-chips-on-top-75-mm", 0.08, 3e-4, 16.0),
        ("hardwood-chips-on-top-75-mm", 0.25, 3e-4, 39.0),
    ];
    for (name, upward, mixing, expected) in cases {
        let mut input = golden(name);
        input.fixed_parameters.insert("umax".to_owned(), upward);
        input.fixed_parameters.insert("mixing".to_owned(), mixing);
        let found = median(&input, &[]).unwrap().last().end(Series::Tied)[0];
        assert!((found - expected).abs() <= 0.5, "{name} {upward} {mixing}: {found}, expected {expected}");
    }
}
