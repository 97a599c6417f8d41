//! A blend that was put down decays as what is in it, by dry mass.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod holding;

use holding::{Kept, date};
use kerfbook_acts::blend_batch::{NewBlend, NewPart, Taken, blend};
use kerfbook_acts::read_weather::{UsualYear, usual_year};
use kerfbook_acts::scenario::{Amount, Way};
use kerfbook_acts::season::season;
use kerfbook_ledger::kind::PlaceKind;
use kerfbook_science::material::ModelClass;
use kerfbook_science::units::{Mass, Share};

#[test]
fn a_blend_goes_into_the_season_as_its_parts() {
    let mut kept = Kept::new();
    let year = UsualYear {
        month_mean_c: [2.0, 3.2, 6.5, 11.0, 15.5, 18.8, 20.0, 18.8, 15.5, 11.0, 6.5, 3.2],
        month_rain_mm: [65.0; 12],
        month_et0_mm_day: Some([0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]),
        month_range_c: None,
    };
    let now = kept.now;
    usual_year(&mut kept.book, &year, now).unwrap();
    let bed = kept.place("Bed", PlaceKind::Bed, 20.0);
    let mut dry_load = |material: &str| {
        kept.load_with(material, |load| {
            load.wet = Some(Mass::from_kg(100.0));
            load.moisture = Some(Share::from_percent(20.0));
        })
    };
    let (pine, straw) = (dry_load("pine shavings"), dry_load("straw, general"));
    let parts = [
        NewPart { batch: pine, amount: Taken::Wet(Mass::from_kg(75.0)) },
        NewPart { batch: straw, amount: Taken::Wet(Mass::from_kg(25.0)) },
    ];
    let new = NewBlend {
        label: "Bedding without animals",
        parts: &parts,
        material: None,
        particle: None,
        wet: None,
        volume: None,
        moisture: None,
        carbon_nitrogen: None,
    };
    let containers = kept.containers;
    let (mixed, found) = blend(&mut kept.book, &new, &containers, now).unwrap();
    kept.put_down(bed, mixed, Way::WorkedIn, Amount::Wet(Mass::from_kg(80.0)), None);
    let seen = season(&kept.book, bed, date(2026, 4, 20), 200).unwrap();
    let layers: Vec<_> = seen
        .input
        .put_down
        .iter()
        .map(|layer| {
            let moist = layer.wet_t_ha.map(|wet| wet * 0.8);
            (layer.material, layer.dry_t_ha.or(moist).unwrap(), layer.carbon_nitrogen.unwrap(), layer.batch)
        })
        .collect();
    let [(first, pine_dry, pine_ratio, pine_batch), (second, straw_dry, straw_ratio, straw_batch)] =
        layers.as_slice()
    else {
        panic!("{layers:?}")
    };
    assert_eq!((*first, *second), (Some(ModelClass::Pine), Some(ModelClass::Straw)));
    // 80 kg at 20 % are 64 kg dry on 20 m2: 32 t/ha, three parts of pine and one of straw.
    assert!((pine_dry - 24.0).abs() < 1e-6 && (straw_dry - 8.0).abs() < 1e-6, "{pine_dry} {straw_dry}");
    assert_ne!(pine_batch, straw_batch, "each draws by itself");
    let nitrogen = 24.0 * 0.50 / pine_ratio + 8.0 * 0.45 / straw_ratio;
    let whole = (24.0 * 0.50 + 8.0 * 0.45) / nitrogen;
    assert!((whole - found.carbon_nitrogen).abs() < 0.05, "{whole} is not {}", found.carbon_nitrogen);
}
