//! A place through time, from entries of a book to the model and back.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
#![allow(clippy::float_cmp, reason = "figures are carried over, not worked out")]

mod golden;
mod kept;

use chrono::NaiveDate;
use kept::{Kept, after, first_day};
use kerfbook_acts::doubt;
use kerfbook_acts::error::ActError;
use kerfbook_acts::laid::LayerIs;
use kerfbook_acts::lifted::TestWanted;
use kerfbook_acts::next_load::{next_load, of_batch};
use kerfbook_acts::scenario::{Crop, PutDown};
use kerfbook_acts::season::{Why, forecast_of, season};
use kerfbook_acts::storage;
use kerfbook_acts::way::Row;
use kerfbook_ledger::kind::{
    CropEnded, DepthProbed, DrawTested, Fate, FeedGiven, LayerLifted, LeafRead, NitrogenForm, Particle,
    PlaceKind, Placed, SoilTested, SoilWorked, Way, WeatherRead, WeatherSpan,
};
use kerfbook_ledger::{EntryId, Flag};
use kerfbook_science::dose;
use kerfbook_science::nitrogen::{Event, LayerWay, Reading, Sample, Series, simulate};
use proptest::prelude::{ProptestConfig, Strategy, any, prop_oneof, proptest};

/// A season asked about on its 60th day, over 365 days.
fn input(kept: &Kept, place: EntryId) -> kerfbook_science::nitrogen::Input {
    season(&kept.book, place, after(60), 305).unwrap().input
}

#[test]
fn golden_cases_without_events_come_through_the_book() {
    let cases = [
        ("hardwood-dust-worked-in", "hardwood sawdust", None, Way::WorkedIn, 10.0),
        ("pine-dust-worked-in", "pine sawdust", None, Way::WorkedIn, 10.0),
        ("slow-softwood-dust-worked-in", "sawdust, fir or spruce", None, Way::WorkedIn, 10.0),
        ("hardwood-dust-on-top-25-mm", "hardwood sawdust", None, Way::OnTop, 37.5),
        ("hardwood-dust-on-top-50-mm", "hardwood sawdust", None, Way::OnTop, 75.0),
        ("hardwood-chips-on-top-75-mm", "hardwood sawdust", Some(Particle::Chips), Way::OnTop, 112.5),
    ];
    for (name, material, particle, way, dry_t_ha) in cases {
        let mut kept = Kept::new();
        let bed = kept.bed("Bed", first_day());
        let batch = kept.load(material, particle, |_| {});
        kept.lay(bed, batch, way, dry_t_ha, first_day());
        golden::assert_golden(name, &input(&kept, bed));
    }
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    golden::assert_golden("bare-bed", &input(&kept, bed));
    // A moisture that was judged draws with the runs.
    let batch = kept.load("hardwood sawdust", Some(Particle::Chips), |load| {
        (load.moisture_bp, load.moisture_half_bp) = (Some(3000), Some(1000));
    });
    let weighed = |put: &mut kerfbook_ledger::kind::PutDown| {
        (put.wet_g, put.dry_g) = (Some(26_880), Some(18_816));
    };
    kept.put(bed, batch, Way::WorkedIn, weighed, first_day());
    golden::assert_golden("hardwood-chips-worked-in", &input(&kept, bed));
}

#[test]
fn a_mulch_dug_in_comes_through_the_book() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", Some(Particle::Shavings), |_| {});
    let layer = kept.lay(bed, batch, Way::OnTop, 30.0, first_day());
    let worked = SoilWorked { depth_mm: 200, share_bp: Some(8000), tool: None, by_tool: None };
    kept.write(worked, Some(bed), after(20));
    let season = season(&kept.book, bed, after(60), 305).unwrap();
    golden::assert_golden("mulch-dug-in-at-day-20", &season.input);
    assert_eq!(season.layers.len(), 1);
    assert_eq!((season.layers[0].entry, season.layers[0].batch), (layer, Some(batch)));
    assert!(season.left_out.is_empty() && season.flagged.is_empty(), "{:?}", season.left_out);
    assert_eq!((season.today, season.ahead()), (60, vec![0]));
    // Before it was dug in nobody knew.
    let before = kerfbook_acts::season::season(&kept.book, bed, after(19), 346).unwrap();
    assert!(before.input.events.is_empty());
}

#[test]
fn material_lifted_from_a_path_comes_through_the_book_with_its_state() {
    let mut kept = Kept::new();
    let year_before = first_day() - chrono::Days::new(365);
    let path = kept.ground("Path", PlaceKind::Path, 3.0, year_before);
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |load| load.cut = None);
    let laid = kept.lay_on(path, batch, Way::Path, 33_750, year_before);
    let lift = LayerLifted {
        label: kept::label("Old sawdust"),
        layer: laid,
        share_bp: 9000,
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
    };
    let lifted = kept.write(lift, Some(path), first_day());
    let put = kept.put(bed, lifted, Way::WorkedIn, |_| {}, first_day());
    let season = season(&kept.book, bed, after(60), 305).unwrap();
    golden::assert_golden("path-lifted-then-worked-in", &season.input);
    assert_eq!((season.layers[0].entry, season.layers[0].batch), (put, Some(lifted)));
    // What part of the lifting it was nobody wrote down.
    assert!(season.assumed.iter().any(|one| one.key == "lifted_part_pct"));
    assert!(season.bare.stages.is_empty());
    let wanted = kerfbook_acts::lifted::tests_wanted(&kept.book.batch(lifted).unwrap().unwrap());
    assert_eq!(wanted, [TestWanted::Draw, TestWanted::Seedling]);
    assert!(kerfbook_acts::lifted::tests_wanted(&kept.book.batch(batch).unwrap().unwrap()).is_empty());
    // Half of the batch on another bed: half of it here.
    let other = kept.bed("Other", first_day());
    kept.put(other, lifted, Way::OnTop, |_| {}, first_day());
    let half = kerfbook_acts::season::season(&kept.book, bed, after(60), 305).unwrap();
    assert!((half.input.put_down[0].area_factor - 0.125).abs() < 1e-12);
}

#[test]
fn readings_come_through_the_book_and_weigh_the_runs() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::WorkedIn, 10.0, first_day());
    kept.feed(bed, "ammonium sulfate", 60.0, Placed::Mixed, first_day());
    // 150 mg/L, 30 g/L at 22 °C, 55 % left.
    let jar = DrawTested { temperature_centi_c: 2200, dose_mg_l: 150, dry_mg_l: 30_000, index_bp: 5500 };
    kept.write(jar, Some(batch), after(5));
    // Result days are evenings: that of the 30th day is day 30.
    kept.write(
        SoilTested {
            nitrogen_form: Some(NitrogenForm::MineralN),
            mg_m2: Some(2500),
            ..SoilTested::default()
        },
        Some(bed),
        after(29),
    );
    kept.write(LeafRead { nutrition_bp: Some(8500), ..LeafRead::default() }, Some(bed), after(54));
    let blank = kept.write(LeafRead::default(), Some(bed), after(55));
    let season = season(&kept.book, bed, after(60), 305).unwrap();
    golden::assert_golden("updated-by-readings", &season.input);
    assert_eq!(season.readings.len(), 3);
    assert_eq!(season.left_out.len(), 1);
    assert_eq!((season.left_out[0].entry, season.left_out[0].why), (blank, Why::NoFigure));
    let forecast = season.forecast(200, 1).unwrap();
    assert_eq!(forecast.runs, 2000);
    let size = forecast.effective_size.unwrap();
    assert!((10.0..2000.0).contains(&size), "{size}");
    // Every third day, with the first, the day asked about and the last.
    let told: Vec<u32> = forecast.days.iter().map(|day| day.day).collect();
    assert_eq!((told[0], told[1], told[told.len() - 1]), (0, 3, 365));
    assert!(told.contains(&season.today));
}

#[test]
fn what_cannot_have_happened_is_listed_and_the_rest_counts() {
    let mut kept = Kept::new();
    let path = kept.ground("Path", PlaceKind::Path, 3.0, first_day());
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    let on_path = kept.lay(path, batch, Way::Path, 100.0, first_day());
    let layer = kept.lay(bed, batch, Way::OnTop, 10.0, first_day());
    let dug = kept.write(
        SoilWorked { depth_mm: 200, share_bp: None, tool: None, by_tool: None },
        Some(path),
        after(10),
    );
    let lift = |layer, share_bp| LayerLifted {
        label: kept::label("Lifted"),
        layer,
        share_bp,
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
    };
    kept.write(lift(layer, 6000), Some(bed), after(20));
    let more = kept.write(lift(layer, 6000), Some(bed), after(21));
    let nothing = kept.write(lift(layer, 1000), Some(bed), after(22));
    let elsewhere = kept.write(lift(on_path, 1000), Some(bed), after(23));
    let unsown = kept.crop(bed, "lettuce", 60.0, after(30), after(20));
    kept.write(CropEnded { crop: unsown, fate: Fate::CarriedOff, yield_g: None }, Some(bed), after(20));
    let unknown = kept.feed(bed, "moon dust", 10.0, Placed::Mixed, after(5));
    let amountless = kept.put(bed, batch, Way::OnTop, |_| {}, after(6));
    let season_of_path = season(&kept.book, path, after(60), 100).unwrap();
    assert_eq!(season_of_path.left_out.len(), 1);
    assert_eq!((season_of_path.left_out[0].entry, season_of_path.left_out[0].why), (dug, Why::NothingGrows));
    assert!(
        season_of_path.flagged.iter().any(|one| one.entry == dug && one.flags.contains(&Flag::NothingGrows))
    );
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    let why = |entry| season.left_out.iter().find(|one| one.entry == entry).map(|one| one.why);
    assert_eq!(why(more), Some(Why::LiftedTooMuch));
    assert_eq!(why(nothing), Some(Why::NothingLay));
    assert_eq!(why(elsewhere), Some(Why::NothingLay));
    assert_eq!(why(unsown), Some(Why::EndsBeforeStart));
    assert_eq!(why(unknown), Some(Why::NotInTable));
    assert_eq!(why(amountless), Some(Why::NoAmount));
    assert!(season.flagged.iter().any(|one| one.entry == more && one.flags.contains(&Flag::LiftedTooMuch)));
    let runs = simulate(&season.input, &Sample::new(1, 8), &[19, 30]).unwrap();
    assert!(runs.last().on(Series::Depth, 19).unwrap()[0] > 1.0);
    assert!(runs.last().on(Series::Depth, 30).unwrap()[0] < 1e-9);
}

#[test]
fn a_new_load_on_a_place_with_a_past_is_set_beside_leaving_it() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::WorkedIn, 10.0, first_day());
    let spring = season(&kept.book, bed, after(360), 200).unwrap();
    let cabbage = Crop { started: after(370), ended: after(500), ..spring.scenario.crops[0].clone() };
    let season = spring.expecting(&cabbage).unwrap();
    let load = PutDown { date: after(365), kept: None, ..season.scenario.put_down[0].clone() };
    let next = next_load(&season, &load, 60, 1).unwrap();
    assert_eq!(next.ways[0].row, Row::Bare);
    assert!(next.ways[0].lost.unwrap().p90.unwrap().abs() < 1e-12);
    let of = |row| next.ways.iter().find(|way| way.row == row).unwrap();
    assert_eq!(next.ways.len(), 6);
    let (worked_in, on_top) = (of(Row::WorkedIn), of(Row::OnTop));
    assert!(worked_in.lost.unwrap().p50.unwrap() > 5.0);
    assert!(worked_in.lost.unwrap().p50.unwrap() > on_top.lost.unwrap().p50.unwrap());
    assert!(worked_in.tied_more.p50.unwrap() > on_top.tied_more.p50.unwrap());
    // Ordered by what the crop gets.
    let gains: Vec<f64> = next.ways[1..].iter().map(|way| way.crop_nitrogen.unwrap().middle()).collect();
    assert!(gains.windows(2).all(|pair| pair[0] >= pair[1]), "{gains:?}");
    // Leaving it is what the season foretells.
    let foretold = season.forecast(60, 1).unwrap().crop_nitrogen;
    assert_eq!(next.ways[0].crop_nitrogen, Some(foretold));
    let late = PutDown { date: after(900), ..load };
    assert!(next_load(&season, &late, 60, 1).is_err());
}

#[test]
fn a_wrong_unit_does_not_take_the_place_down_with_it() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    let sane = kept.lay(bed, batch, Way::OnTop, 10.0, first_day());
    let all = [
        kept.lay_on(bed, batch, Way::OnTop, u64::MAX / 4, after(1)),
        kept.feed(bed, "urea", 1e7, Placed::Top, after(2)),
        kept.write(
            SoilTested { organic_matter_bp: Some(20_000), ..SoilTested::default() },
            Some(bed),
            after(3),
        ),
        kept.write(
            WeatherRead { mean_centi_c: Some(70_000), ..WeatherRead::of(WeatherSpan::Day) },
            Some(bed),
            after(4),
        ),
        kept.write(LeafRead { nutrition_bp: Some(90_000), ..LeafRead::default() }, Some(bed), after(5)),
        kept.crop(bed, "cabbage", 1e6, after(6), after(100)),
        kept.write(
            DrawTested { temperature_centi_c: 9_900, dose_mg_l: 0, dry_mg_l: 0, index_bp: 1 },
            Some(batch),
            after(7),
        ),
    ];
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    for entry in all {
        let why = season.left_out.iter().find(|one| one.entry == entry).map(|one| one.why);
        assert_eq!(why, Some(Why::Impossible), "{entry:?}");
    }
    assert_eq!(season.layers.len(), 1);
    assert_eq!(season.layers[0].entry, sane);
    season.forecast(20, 1).unwrap();
}

#[test]
fn a_place_of_which_nothing_is_known_says_so() {
    let mut kept = Kept::new();
    let place = kept.ground("Bed", PlaceKind::Bed, 10.0, first_day());
    assert!(matches!(season(&kept.book, place, after(10), 100), Err(ActError::NoLoad)));
}

#[test]
fn material_that_goes_round_in_circles_is_followed_as_far_as_days_allow() {
    let mut kept = Kept::new();
    let (a, b) = (kept.bed("A", first_day()), kept.bed("B", first_day()));
    let batch = kept.load("hardwood sawdust", None, |_| {});
    let mut layer = kept.lay(a, batch, Way::OnTop, 50.0, first_day());
    for (step, (from, to)) in [(a, b), (b, a), (a, b), (b, a)].into_iter().enumerate() {
        let day = after(10 * (step as u64 + 1));
        let lift = LayerLifted {
            label: kept::label("Round"),
            layer,
            share_bp: 10_000,
            wet_g: None,
            volume_ml: None,
            moisture_bp: None,
        };
        let lifted = kept.write(lift, Some(from), day);
        layer = kept.put(to, lifted, Way::OnTop, |_| {}, day);
    }
    let season_of_a = season(&kept.book, a, after(60), 100).unwrap();
    assert!(season_of_a.left_out.is_empty(), "{:?}", season_of_a.left_out);
    let runs = simulate(&season_of_a.input, &Sample::new(1, 8), &[5, 15, 45]).unwrap();
    let depth = |day| runs.last().on(Series::Depth, day).unwrap()[0];
    assert!(
        depth(5) > 20.0 && depth(15) < 1e-9 && depth(45) > 20.0,
        "{} {} {}",
        depth(5),
        depth(15),
        depth(45)
    );
    assert!(runs.balance_residual() < 1e-11);
    assert_eq!(season_of_a.layers.len(), 3);
    assert!(season_of_a.layers.iter().all(|layer| matches!(layer.is, LayerIs::Load(_))));
}

#[test]
fn a_layer_that_another_lies_on_is_under_it_and_compost_is_taken_for_granted_only_where_nothing_is_said() {
    let mut kept = Kept::new();
    let (told, silent) = (kept.bed("Told", first_day()), kept.bed("Silent", first_day()));
    let compost = kept.load("compost, finished", None, |load| load.carbon_nitrogen_x100 = Some(1400));
    let dust = kept.load("hardwood sawdust", None, |_| {});
    let below = kept.lay(told, compost, Way::OnTop, 10.0, first_day());
    kept.put(
        told,
        dust,
        Way::OnTopOverNitrogen,
        |put| (put.dry_g, put.over) = (Some(90_000), Some(below)),
        first_day(),
    );
    kept.lay(silent, dust, Way::OnTopOverNitrogen, 75.0, first_day());
    let season_told = season(&kept.book, told, after(1), 100).unwrap();
    let ways: Vec<LayerWay> = season_told.input.put_down.iter().map(|put| put.way).collect();
    assert_eq!(ways, [LayerWay::Under, LayerWay::OnTop]);
    assert!(season_told.assumed.iter().all(|one| one.key != "compost_dry_t_ha"));
    let season_silent = season(&kept.book, silent, after(1), 100).unwrap();
    assert_eq!(season_silent.layers[0].is, LayerIs::With(0));
    assert!(season_silent.assumed.iter().any(|one| one.key == "compost_dry_t_ha"));
}

#[test]
fn days_that_were_read_take_the_place_of_the_usual_year() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let holding = kept.book.holding_view().unwrap().unwrap().id;
    let rain = |mm: u32| WeatherRead { rain_ml_m2: Some(mm * 1000), ..WeatherRead::of(WeatherSpan::Day) };
    kept.write(rain(12), Some(holding), after(10));
    kept.write(rain(3), Some(holding), after(14));
    kept.write(WeatherRead { mean_centi_c: Some(2500), ..rain(20) }, Some(bed), after(14));
    kept.write(rain(7), Some(holding), after(40));
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    let daily = season.input.weather.daily.as_ref().unwrap();
    let usual = season.input.weather.usual_days(season.input.start_day_of_year, 160);
    // Between readings within a week nothing else fell; the bed's own gauge wins; elsewhere the usual year goes on.
    assert_eq!(&daily.rain_mm[10..=14], &[12.0, 0.0, 0.0, 0.0, 20.0]);
    assert_eq!(daily.mean_c[14].to_bits(), 25.0_f64.to_bits());
    assert_eq!(&daily.rain_mm[15..40], &usual.rain_mm[15..40]);
    assert_eq!(daily.rain_mm[40].to_bits(), 7.0_f64.to_bits());
    assert_eq!(&daily.rain_mm[41..], &usual.rain_mm[41..]);
    assert!(season.assumed.iter().any(|one| one.key == "days_between_gauge_readings"));
}

#[test]
fn what_the_book_does_not_say_is_assumed_and_told() {
    let mut kept = Kept::bare();
    let place = kept.ground("Bed", PlaceKind::Bed, 10.0, first_day());
    kept.crop(place, "cabbage", 140.0, first_day(), after(120));
    let season = season(&kept.book, place, after(10), 200).unwrap();
    for key in [
        "month_mean_c",
        "month_rain_mm",
        "month_et0_mm_day",
        "organic_matter_pct",
        "depth_cm",
        "mineral_nitrogen_kg_ha",
        "water_at_start_pct",
        "clay_pct",
    ] {
        assert!(season.assumed.iter().any(|one| one.key == key), "{key}");
    }
    let keys: Vec<&str> = season.assumed.iter().map(|one| one.key).collect();
    let mut once = keys.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(keys.len(), once.len(), "{keys:?}");
}

#[test]
fn crops_follow_each_other_and_what_they_leave_enters() {
    let mut kept = Kept::new();
    let bed = kept.ground("Bed", PlaceKind::Bed, 12.0, first_day());
    kept.soil(bed, first_day());
    let dust = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, dust, Way::OnTop, 10.0, first_day());
    let mut crops = Vec::new();
    for (name, need, from, to, fate, yielded) in [
        ("lettuce", 60.0, 0, 60, Fate::CarriedOff, Some(9_000)),
        ("beans", 110.0, 65, 150, Fate::DugIn, Some(4_000)),
        ("hairy vetch", 100.0, 155, 350, Fate::Mown, None),
    ] {
        let crop = kept.crop(bed, name, need, after(from), after(to + 10));
        kept.write(CropEnded { crop, fate, yield_g: yielded }, Some(bed), after(to));
        crops.push(crop);
    }
    crops.push(kept.crop(bed, "cabbage", 140.0, after(360), after(500)));
    let (season, forecast) = forecast_of(&kept.book, bed, after(365), 200, 50, 1).unwrap();
    assert_eq!(season.crops, crops);
    assert_eq!(season.ahead(), [3]);
    let residues: Vec<EntryId> = season
        .layers
        .iter()
        .filter(|layer| matches!(layer.is, LayerIs::Residue(_)))
        .map(|layer| layer.entry)
        .collect();
    assert_eq!(residues, crops[1..3]);
    assert_eq!(season.bare.put_down.len(), 2);
    // Hunger is that of the cabbage alone.
    assert!(forecast.hungry_day.p50.is_none_or(|day| day > 360.0));
    let cabbage = forecast.crop_nitrogen.p50.unwrap();
    assert!((1.0..=150.0).contains(&cabbage), "{cabbage}");
}

#[test]
fn a_tree_comes_again_every_year_from_bud_break_on() {
    let mut kept = Kept::new();
    let rings = kept.ground("Rings", PlaceKind::Rings, 24.0, first_day());
    kept.soil(rings, first_day());
    kept.tree(rings, "apple", 60_000, 6, first_day());
    let season = season(&kept.book, rings, after(700), 100).unwrap();
    assert_eq!(season.crops.len(), 3);
    assert!(season.assumed.iter().any(|one| one.key == "bud_break"));
    assert_eq!(season.calendar.first(), first_day());
    let runs = simulate(&season.input, &Sample::median(), &[200, 600]).unwrap();
    let taken = |day| runs.last().crop_nitrogen(day).unwrap()[0];
    assert!(taken(200) > 1.0 && taken(600) > taken(200) + 10.0, "{} {}", taken(200), taken(600));
}

#[test]
fn the_place_is_as_large_as_it_was_on_the_day() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::OnTop, 10.0, first_day());
    kept.reoutline(bed, 24.0, after(30));
    kept.lay_on(bed, batch, Way::OnTop, 24_000, after(40));
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    let dry: Vec<f64> = season.input.put_down.iter().map(|put| put.dry_t_ha.unwrap()).collect();
    assert!((dry[0] - 10.0).abs() < 1e-9 && (dry[1] - 10.0).abs() < 1e-9, "{dry:?}");
}

#[test]
fn old_soil_tests_start_nothing_and_late_ones_weigh() {
    let mut kept = Kept::new();
    let bed = kept.ground("Bed", PlaceKind::Bed, 12.0, first_day() - chrono::Days::new(300));
    let nitrate = |ppm_x100| SoilTested {
        nitrogen_form: Some(NitrogenForm::Nitrate),
        mg_kg_x100: Some(ppm_x100),
        bulk_density_g_m3: Some(1_300_000),
        ..SoilTested::default()
    };
    let old = kept.write(nitrate(9000), Some(bed), first_day() - chrono::Days::new(200));
    kept.write(nitrate(6000), Some(bed), first_day() - chrono::Days::new(3));
    let late = kept.write(nitrate(4000), Some(bed), after(30));
    let plain = SoilTested { plain: Some(kept::label("last crop fed")), ..nitrate(3000) };
    let by_eye = kept.write(plain, Some(bed), after(31));
    kept.crop(bed, "cabbage", 140.0, first_day(), after(120));
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    // 60 ppm nitrate is 13.55 ppm nitrogen; times 1.3 g/cm3 times 25 cm times 0.1.
    let start = season.input.soil.mineral_nitrogen_kg_ha;
    assert!((start - 60.0 * 14.007 / 62.005 * 1.3 * 25.0 * 0.1).abs() < 1e-6, "{start}");
    assert_eq!(season.readings, [late]);
    assert!(matches!(season.input.readings[0], Reading::SoilNitrate { day: 31, .. }));
    let why: Vec<(EntryId, Why)> = season.left_out.iter().map(|one| (one.entry, one.why)).collect();
    assert_eq!(why, [(old, Why::Stale), (by_eye, Why::PlainAnswer)]);
}

#[test]
fn liftings_take_from_the_layer_they_name() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::OnTop, 20.0, first_day());
    let second = kept.lay(bed, batch, Way::OnTop, 10.0, after(5));
    kept.write(
        LayerLifted {
            label: kept::label("Lifted"),
            layer: second,
            share_bp: 5000,
            wet_g: None,
            volume_ml: None,
            moisture_bp: None,
        },
        Some(bed),
        after(15),
    );
    let probe = DepthProbed { layer: None, depths_mm: vec![20, 25, 30], ..DepthProbed::default() };
    kept.write(probe, Some(bed), after(16));
    let season = season(&kept.book, bed, after(60), 100).unwrap();
    let lifted: Vec<(u32, usize, f64)> = season
        .input
        .events
        .iter()
        .filter_map(|event| match event {
            Event::LayerLifted { day, layer, share } => Some((*day, *layer, *share)),
            Event::SoilWorked { .. } => None,
        })
        .collect();
    assert_eq!(lifted, [(15, 1, 0.5)]);
    // The same batch draws the same properties.
    assert_eq!(season.input.put_down[0].batch, season.input.put_down[1].batch);
}

#[test]
fn a_feed_of_the_book_is_the_golden_case() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    kept.lay(bed, batch, Way::WorkedIn, 10.0, first_day());
    let feed: EntryId = kept.feed(bed, "ammonium sulfate", 120.0, Placed::Mixed, first_day());
    golden::assert_golden("hardwood-dust-worked-in-120-kg-n", &input(&kept, bed));
    assert!(matches!(
        kept.book.current(feed).unwrap().unwrap().body,
        kerfbook_ledger::Body::FeedGiven(FeedGiven { .. })
    ));
}

#[test]
fn bud_break_is_found_on_both_halves_of_the_earth() {
    let mut kept = Kept::south();
    let rings = kept.ground("Rings", PlaceKind::Rings, 24.0, first_day());
    kept.tree(rings, "apple", 60_000, 6, NaiveDate::from_ymd_opt(2026, 8, 1).unwrap());
    let season = season(&kept.book, rings, NaiveDate::from_ymd_opt(2026, 12, 1).unwrap(), 100).unwrap();
    let crop = &season.scenario.crops[0];
    assert!(crop.started > NaiveDate::from_ymd_opt(2026, 9, 1).unwrap(), "{}", crop.started);
    assert!(crop.started < NaiveDate::from_ymd_opt(2026, 11, 1).unwrap(), "{}", crop.started);
}

/// One thing that somebody might write down, sensible or not.
#[derive(Debug, Clone, Copy)]
enum Written {
    Lay { there: bool, way: u8, kilograms: u32 },
    Lift { there: bool, layer: usize, share_bp: u32 },
    PutLifted { there: bool, batch: usize },
    Work { there: bool, depth_mm: u32 },
    Sow { there: bool, days: u64 },
    End { there: bool, crop: usize, fate: u8 },
    Feed { there: bool },
    Probe { there: bool, mm: u32 },
    Test { there: bool },
    Withdraw { entry: usize },
}

fn written() -> impl Strategy<Value = (Written, u64)> {
    let one = prop_oneof![
        4 => (any::<bool>(), 0_u8..6, 1_u32..400).prop_map(|(there, way, kilograms)| Written::Lay { there, way, kilograms }),
        3 => (any::<bool>(), 0_usize..9, 0_u32..=10_000).prop_map(|(there, layer, share_bp)| Written::Lift { there, layer, share_bp }),
        3 => (any::<bool>(), 0_usize..9).prop_map(|(there, batch)| Written::PutLifted { there, batch }),
        2 => (any::<bool>(), 0_u32..400).prop_map(|(there, depth_mm)| Written::Work { there, depth_mm }),
        2 => (any::<bool>(), 1_u64..200).prop_map(|(there, days)| Written::Sow { there, days }),
        2 => (any::<bool>(), 0_usize..5, 0_u8..3).prop_map(|(there, crop, fate)| Written::End { there, crop, fate }),
        1 => any::<bool>().prop_map(|there| Written::Feed { there }),
        1 => (any::<bool>(), 0_u32..200).prop_map(|(there, mm)| Written::Probe { there, mm }),
        1 => any::<bool>().prop_map(|there| Written::Test { there }),
        1 => (0_usize..30).prop_map(|entry| Written::Withdraw { entry }),
    ];
    (one, 0_u64..300)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Whatever was written in whatever order of days: no panic, every load is in the sum or listed, balances close.
    #[test]
    fn nothing_panics_and_nothing_vanishes(story in proptest::collection::vec(written(), 1..40)) {
        let mut kept = Kept::new();
        let path = kept.ground("Path", PlaceKind::Path, 7.0, first_day());
        let bed = kept.ground("Bed", PlaceKind::Bed, 12.0, first_day());
        let batch = kept.load("hardwood sawdust", None, |_| {});
        let (mut layers, mut lifted, mut crops, mut all) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for (what, day) in story {
            let place = |there: bool| if there { path } else { bed };
            let day = after(day);
            let ways = [
                Way::WorkedIn,
                Way::OnTop,
                Way::OnTopOverNitrogen,
                Way::CompostedFirst,
                Way::Path,
                Way::Ring,
            ];
            let entry = match what {
                Written::Lay { there, way, kilograms } => {
                    let grams = u64::from(kilograms) * 1000;
                    let entry = kept.lay_on(place(there), batch, ways[usize::from(way)], grams, day);
                    layers.push(entry);
                    Some(entry)
                }
                Written::Lift { there, layer, share_bp } => layers.get(layer).copied().map(|layer| {
                    let lift = LayerLifted {
                        label: kept::label("Lifted"),
                        layer,
                        share_bp,
                        wet_g: None,
                        volume_ml: None,
                        moisture_bp: None,
                    };
                    let entry = kept.write(lift, Some(place(there)), day);
                    lifted.push(entry);
                    entry
                }),
                Written::PutLifted { there, batch } => lifted.get(batch).copied().map(|batch| {
                    let entry = kept.put(place(there), batch, Way::OnTop, |_| {}, day);
                    layers.push(entry);
                    entry
                }),
                Written::Work { there, depth_mm } => {
                    let work = SoilWorked { depth_mm, share_bp: None, tool: None, by_tool: None };
                    Some(kept.write(work, Some(place(there)), day))
                }
                Written::Sow { there, days } => {
                    let entry = kept.crop(place(there), "cabbage", 100.0, day, day + chrono::Days::new(days));
                    crops.push(entry);
                    Some(entry)
                }
                Written::End { there, crop, fate } => crops.get(crop).copied().map(|crop| {
                    let fates = [Fate::CarriedOff, Fate::DugIn, Fate::Mown];
                    let end = CropEnded { crop, fate: fates[usize::from(fate)], yield_g: None };
                    kept.write(end, Some(place(there)), day)
                }),
                Written::Feed { there } => Some(kept.feed(place(there), "urea", 40.0, Placed::Top, day)),
                Written::Probe { there, mm } => {
                    let probe = DepthProbed { layer: None, depths_mm: vec![mm], ..DepthProbed::default() };
                    Some(kept.write(probe, Some(place(there)), day))
                }
                Written::Test { there } => Some(kept.soil(place(there), day)),
                Written::Withdraw { entry } => {
                    if let Some(entry) = all.get(entry) {
                        kept.withdraw(*entry, day);
                    }
                    None
                }
            };
            all.extend(entry);
        }
        for place in [path, bed] {
            let lies = kerfbook_acts::lying::lying(&kept.book, place, after(320), None).unwrap();
            assert!(lies.depth.low <= lies.depth.typical && lies.depth.typical <= lies.depth.high);
            let season = match season(&kept.book, place, after(320), 60) {
                Ok(season) => season,
                Err(ActError::NoLoad) => continue,
                Err(error) => panic!("{error}"),
            };
            let view = kept.book.place(place).unwrap().unwrap();
            for layer in &view.layers {
                let counts = season.layers.iter().any(|laying| laying.entry == layer.entry);
                let listed = season.left_out.iter().any(|one| one.entry == layer.entry);
                assert!(counts || listed, "{layer:?}");
            }
            let runs = simulate(&season.input, &Sample::new(1, 4), &[]).unwrap();
            assert!(runs.balance_residual() < 1e-11, "{}", runs.balance_residual());
        }
    }
}

/// A season of ten tonnes of hardwood sawdust worked into a bed of which nothing was measured.
fn told(settle: impl FnOnce(&mut Kept, EntryId, EntryId)) -> kerfbook_acts::season::Season {
    let mut kept = Kept::bare();
    let bed = kept.ground("Bed", PlaceKind::Bed, 12.0, first_day());
    kept.crop(bed, "cabbage", 120.0, first_day(), after(150));
    let batch = kept.load("hardwood sawdust", None, |_| {});
    settle(&mut kept, bed, batch);
    if kept.book.place(bed).unwrap().unwrap().layers.is_empty() {
        kept.lay(bed, batch, Way::WorkedIn, 10.0, first_day());
    }
    season(&kept.book, bed, after(60), 100).unwrap()
}

#[test]
fn answers_in_words_spread_the_runs_as_a_scenario_of_the_same_words_does() {
    use kerfbook_ledger::kind::*;
    use kerfbook_science::plain;
    let silent = told(|_, _, _| {});
    assert!(silent.assumed.iter().any(|one| one.key == "cover"));
    assert!(silent.assumed.iter().any(|one| one.key == "watered"));
    let answered = told(|kept, bed, _| {
        let soil = SoilTested {
            rolled: Some(Rolled::Ribbon),
            colour: Some(Colour::Dark),
            last_crop_fed: Some(Answer::No),
            ..SoilTested::default()
        };
        kept.write(soil, Some(bed), first_day());
        let year = WeatherRead {
            winters: Some(Winters::Hard),
            summers: Some(Summers::Hot),
            rain: Some(Rain::Little),
            ..WeatherRead::of(WeatherSpan::UsualYear)
        };
        let holding = kept.book.holding_view().unwrap().unwrap().id;
        kept.write(year, Some(holding), first_day());
    });
    let spread = |season: &kerfbook_acts::season::Season, key: &str| season.input.spreads[key];
    let no = plain::LastCropFed::No.mineral_nitrogen_kg_ha();
    assert_eq!(answered.input.soil.mineral_nitrogen_kg_ha, no.typical);
    assert_eq!(spread(&answered, "n0"), no.log_spread());
    let dark = plain::Colour::Dark.organic_matter_pct();
    assert_eq!(answered.input.soil.organic_matter_pct, dark.typical);
    assert_eq!(spread(&answered, "organic"), dark.log_spread());
    for key in ["n0", "organic", "capacity", "dT", "rain"] {
        assert!(spread(&answered, key) < spread(&silent, key), "{key}");
    }
    let january = answered.input.weather.month_mean_c[0];
    assert!((january - plain::Winters::Hard.coldest_month_c().typical).abs() < 1e-9, "{january}");
    assert!(!answered.assumed.iter().any(|one| one.key == "organic_matter_pct"));
    // Not to know is an answer that is kept, and spreads as silence does.
    let unknown = told(|kept, bed, _| {
        let soil = SoilTested {
            rolled: Some(Rolled::Unknown),
            colour: Some(Colour::Unknown),
            last_crop_fed: Some(Answer::Unknown),
            ..SoilTested::default()
        };
        kept.write(soil, Some(bed), first_day());
    });
    assert_eq!(unknown.input, silent.input);
    // What was measured goes before what was answered, whichever came first.
    let measured = told(|kept, bed, _| {
        let soil = SoilTested {
            clay_bp: Some(2000),
            organic_matter_bp: Some(250),
            nitrogen_form: Some(NitrogenForm::MineralN),
            mg_m2: Some(4500),
            ..SoilTested::default()
        };
        kept.write(soil, Some(bed), first_day());
        let words = SoilTested {
            rolled: Some(Rolled::Crumbles),
            colour: Some(Colour::Black),
            last_crop_fed: Some(Answer::Yes),
            ..SoilTested::default()
        };
        kept.write(words, Some(bed), first_day());
    });
    assert_eq!(measured.input.soil.organic_matter_pct, 2.5);
    assert_eq!(measured.input.soil.mineral_nitrogen_kg_ha, 45.0);
    assert!(!measured.input.spreads.contains_key("n0") && !measured.input.spreads.contains_key("capacity"));
    // Too long after the first day it is about another crop.
    let late = told(|kept, bed, _| {
        let soil = SoilTested { last_crop_fed: Some(Answer::Yes), ..SoilTested::default() };
        kept.write(soil, Some(bed), after(50));
    });
    assert!(late.left_out.iter().any(|one| one.why == Why::PlainAnswer));
    assert_eq!(spread(&late, "n0"), spread(&silent, "n0"));
}

#[test]
fn what_a_hand_says_of_a_load_draws_with_the_runs() {
    use kerfbook_ledger::kind::*;
    use kerfbook_science::plain;
    let by_hand = told(|kept, bed, _| {
        let batch = kept.load("hardwood sawdust", None, |load| {
            load.pieces = Some(Pieces::Matchsticks);
            load.age = Some(Age::Year);
            load.particle = Some(Particle::Chips);
        });
        kept.put(
            bed,
            batch,
            Way::OnTop,
            |put| (put.laid_by, put.laid_x10, put.dry_g) = (Some(LaidBy::Fingers), Some(25), Some(90_000)),
            first_day(),
        );
    });
    let layer = &by_hand.input.put_down[0];
    // 2.5 fingers of 2 cm at 150 kg dry a cubic metre, not the mass that an entry has beside it.
    assert!((layer.dry_t_ha.unwrap() - 75.0).abs() < 1e-9, "{:?}", layer.dry_t_ha);
    let width = plain::LaidBy::Fingers.width_mm().log_spread();
    // How wide a finger is, how evenly it was raked, how well a stated density is known, and how much of it is water:
    // half, within the half-width of a triangle.
    let density = doubt::STATED_DENSITY.value;
    let dry = storage::STATED_HALF.value.fraction() / 6.0_f64.sqrt() / 0.5;
    let own = plain::together(width, doubt::BY_EYE.value);
    let ratio = |sd: f64| 1.0 + sd * sd;
    let expected = ratio(dose::relative_sd(own)) * ratio(density) * ratio(dry);
    let found = ratio(dose::relative_sd(layer.mass_sd));
    assert!((found / expected - 1.0).abs() < 1e-9, "{found} {expected}");
    assert_eq!(layer.fines_share, plain::Pieces::Matchsticks.fines_share().value);
    assert_eq!(layer.fast_rate_factor, plain::Age::Year.left().typical);
    assert!(layer.fast_rate_more_sd.unwrap() > 0.0);
    // A later look, and a later handful.
    let felt = told(|kept, bed, batch| {
        let test = BatchTested {
            moisture_bp: Some(6500),
            moisture_half_bp: Some(400),
            handful: Some(Handful::Drips),
            age: Some(Age::Months),
            ..Default::default()
        };
        kept.write(test, Some(batch), first_day());
        kept.put(bed, batch, Way::WorkedIn, |put| put.wet_g = Some(20_000), first_day());
    });
    let layer = &felt.input.put_down[0];
    assert_eq!((layer.moisture_pct, layer.moisture_half_width), (Some(65.0), 4.0));
    assert_eq!(layer.fast_rate_factor, plain::Age::Months.left().typical);
}

/// What the next load of a batch is drawn by is what was said of it last until that day.
#[test]
fn the_next_load_draws_the_moisture_of_the_last_test() {
    let mut kept = Kept::new();
    let batch = kept.load("hardwood sawdust", None, |load| {
        (load.moisture_bp, load.moisture_half_bp) = (Some(3000), Some(1000));
    });
    let test = |bp, half: Option<u32>| kerfbook_ledger::kind::BatchTested {
        moisture_bp: Some(bp),
        moisture_half_bp: half,
        handful: half.map(|_| kerfbook_ledger::kind::Handful::Drips),
        ..Default::default()
    };
    kept.write(test(6500, Some(400)), Some(batch), after(10));
    kept.write(test(5200, None), Some(batch), after(20));
    let drawn = |day| {
        let amount = Some(kerfbook_acts::scenario::Amount::Wet(kerfbook_science::units::Mass::from_kg(20.0)));
        let put = of_batch(&kept.book, batch, amount, after(day), &mut Vec::new()).unwrap();
        let share = kerfbook_science::units::Share::percent;
        (put.moisture.map(share), put.moisture_half.map(share))
    };
    assert_eq!(drawn(5), (Some(30.0), Some(10.0)), "as it came");
    assert_eq!(drawn(15), (Some(65.0), Some(4.0)), "a handful");
    assert_eq!(drawn(25), (Some(52.0), None), "weighed wet and dry: nothing to draw");
}

#[test]
fn a_place_says_what_is_over_it_and_how_it_is_watered() {
    use kerfbook_ledger::kind::*;
    let set = |cover, watered| {
        told(move |kept, bed, _| {
            let view = kept.book.place(bed).unwrap().unwrap();
            let body =
                PlaceReoutlined { cover, watered, ..PlaceReoutlined::of(Measured::Typed, view.area_mm2) };
            kept.write(body, Some(bed), first_day());
            // A size that is measured anew says nothing of roof and water.
            kept.reoutline(bed, 12.0, after(10));
            let water = WaterGiven { depth_mm: Some(20), volume_ml: None, under: None };
            kept.write(water, Some(bed), after(30));
        })
    };
    let tunnel = set(Some(Cover::Tunnel), Some(Watering::Enough));
    assert!(tunnel.input.cover && tunnel.input.watered.is_some());
    assert!(!tunnel.assumed.iter().any(|one| ["cover", "watered"].contains(&one.key)));
    let hanging = set(Some(Cover::None), Some(Watering::WhenLeavesHang));
    assert!(!hanging.input.cover && hanging.input.watered.is_none());
    // Every ten days while the crop stands, but for what was written down.
    let days: Vec<u32> = hanging.input.irrigation.iter().map(|water| water.day).collect();
    assert_eq!(days.iter().filter(|day| **day == 30).count(), 1);
    assert!(days.contains(&10) && days.contains(&140) && !days.contains(&150), "{days:?}");
    let unknown = set(Some(Cover::Unknown), Some(Watering::Unknown));
    assert!(["cover", "watered"].iter().all(|key| unknown.assumed.iter().any(|one| one.key == *key)));
}

#[test]
fn a_mulch_over_urine_comes_through_the_book() {
    let mut kept = Kept::new();
    let bed = kept.bed("Bed", first_day());
    let batch = kept.load("hardwood sawdust", None, |_| {});
    // A litre a square metre, of which the leaflet says 50 kg N/ha; watered in before the mulch was laid.
    let poured = FeedGiven {
        source: kept::label("human urine"),
        nitrogen_mg: 60_000,
        product_g: None,
        volume_ml: Some(12_000),
        placed: Placed::Under,
        crop_mg: None,
        wood_mg: Some(60_000),
    };
    let feed = kept.write(poured, Some(bed), first_day());
    let water = kerfbook_ledger::kind::WaterGiven { depth_mm: Some(5), volume_ml: None, under: Some(true) };
    kept.write(water, Some(bed), first_day());
    let dry = |put: &mut kerfbook_ledger::kind::PutDown| (put.dry_g, put.over) = (Some(90_000), Some(feed));
    kept.put(bed, batch, Way::OnTopOverNitrogen, dry, first_day());
    let season = season(&kept.book, bed, after(60), 305).unwrap();
    golden::assert_golden("hardwood-dust-on-top-over-urine", &season.input);
    // It is part of the way: without the mulch it would not have been given.
    assert!(season.bare.gifts.is_empty());
}
