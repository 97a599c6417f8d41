//! The invented season: a small holding that exists nowhere, eight places, every way of using one load of sawdust.

use std::path::Path;

use chrono::NaiveDate;
use kerfbook_acts::answer::Give;
use kerfbook_acts::compare::{Comparison, RUNS};
use kerfbook_acts::error::ActError;
use kerfbook_acts::give_feed::NewFeed;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::place_scenario::{Surroundings, scenario_of};
use kerfbook_acts::put_down::NewPutDown;
use kerfbook_acts::scenario::{
    Again, Amount, Containers, Crop, CropNeed, Fate, Holding, LoadAnswers, Measured, Place, PlaceKind,
    Placed, PutDown, Scenario, Soil, SoilAnswers, Way, Weather, WeatherAnswers,
};
use kerfbook_acts::take_in_load::{Intake, NewLoad};
use kerfbook_acts::{forecast, freeze_forecast, give_feed, grow_crop, outline_place, put_down, take_in_load};
use kerfbook_ledger::kind::{Answer, NoteMade, PersonNamed, WaterGiven};
use kerfbook_ledger::store::append::Change;
use kerfbook_ledger::{Book, Date, DeviceKey, Draft, EntryId, Founding, Label, Replacement, Text, When};
use kerfbook_science::crop as crops;
use kerfbook_science::lookup::Match;
use kerfbook_science::units::{Area, AreaMass, Length, Share, Volume};
use kerfbook_words::Words;

use crate::demo::{ground_plan, pile, random, second_year, trial};
use crate::fault::{Fault, Message};

/// Name of the invented holding; a book so called is a demo and may be played over.
const HOLDING: &str = "Demo holding (invented)";
/// The season's first day.
const FIRST: (i32, u32, u32) = (2026, 4, 15);
/// Barrows of sawdust for a bed of 12 m²: 2.5 cm.
const BARROWS: f64 = 4.0;
/// Area of a bed, m².
const BED_M2: f64 = 12.0;
/// Days from planting to harvest.
const SEASON_DAYS: u64 = 150;

/// What was played.
pub(super) struct Played {
    /// The bed in question.
    pub(super) asked: EntryId,
    /// Ids of cautions that came up on the way.
    pub(super) cautions: Vec<&'static str>,
}

/// Whether a book is a demo.
pub(super) fn is_demo(book: &Book) -> bool {
    book.of_kind(kerfbook_ledger::Kind::HoldingOpened).is_ok_and(|opened| {
        opened.iter().any(|current| match &current.body {
            kerfbook_ledger::Body::HoldingOpened(opened) => opened.name.as_str() == HOLDING,
            _ => false,
        })
    })
}

pub(super) fn first_day() -> NaiveDate {
    let (year, month, day) = FIRST;
    NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default()
}

fn harvest() -> NaiveDate {
    first_day() + chrono::Days::new(SEASON_DAYS)
}

/// Weather, soil and containers of the holding: a temperate place with even rain, as in the model's evidence table.
pub(super) fn surroundings() -> Surroundings {
    Surroundings {
        holding: Holding { urine_confirmed: false, ..Holding::default() },
        weather: Weather {
            month_mean_c: [2.0, 3.2, 6.5, 11.0, 15.5, 18.8, 20.0, 18.8, 15.5, 11.0, 6.5, 3.2],
            month_rain_mm: [65.0; 12],
            month_et0_mm_day: Some([0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]),
            month_range_c: None,
            daily: None,
            cover: false,
            watered_enough: false,
            water: Vec::new(),
            answers: WeatherAnswers::default(),
        },
        soil: Soil {
            clay: Some(Share::from_percent(20.0)),
            sand: None,
            organic_matter: Share::from_percent(3.0),
            bulk_density: None,
            depth: Length::from_cm(25.0),
            mineral_nitrogen: None,
            sampled: None,
            available_water: None,
            field_capacity: None,
            water_at_start: Share::from_percent(90.0),
            answers: SoilAnswers::default(),
        },
        containers: Containers {
            barrow: Volume::from_litres(80.0),
            bucket: Volume::from_litres(10.0),
            trailer: None,
            trailer_carries: None,
        },
    }
}

pub(super) fn cabbage() -> Crop {
    let need = match crops::find("cabbage") {
        Match::Exact(found) => CropNeed::Annual(found.uptake.typical),
        Match::Near(_) => CropNeed::Appetite(kerfbook_acts::scenario::Appetite::Middling),
    };
    Crop {
        name: "cabbage".to_owned(),
        need,
        started: first_day(),
        ended: harvest(),
        midpoint_day: None,
        fixed: Share::default(),
        plants: None,
        fate: Fate::CarriedOff,
        harvested: false,
        again: Again::EveryYear { until: None },
    }
}

fn bed() -> Place {
    Place {
        kind: PlaceKind::Bed,
        area: Area::from_m2(BED_M2),
        area_sd: None,
        rooting_depth: None,
        container: None,
    }
}

/// What is asked: a load of hardwood sawdust, a bed, a crop of cabbage, and how best to use the one on the other.
pub(super) fn question() -> Scenario {
    let around = surroundings();
    Scenario {
        holding: around.holding,
        weather: around.weather,
        soil: around.soil,
        place: bed(),
        crops: vec![cabbage()],
        put_down: vec![PutDown {
            date: first_day(),
            material: "hardwood sawdust".to_owned(),
            way: None,
            particle: None,
            amount: Amount::Barrows(BARROWS),
            moisture: None,
            moisture_half: None,
            carbon_nitrogen: None,
            bulk_density: None,
            measured: Measured::default(),
            settling: None,
            kept: None,
            answers: LoadAnswers::default(),
        }],
        feeds: Vec::new(),
        worked: Vec::new(),
        lifted: Vec::new(),
        origins: Vec::new(),
        containers: around.containers,
        orchard: None,
    }
}

/// Opens the book.
pub(super) fn found(file: &Path, key: &DeviceKey, wall_ms: i64) -> Result<Book, Fault> {
    let label = |text: &str| {
        Label::new(text).map_err(|error| Fault::other(Message::new("act-book").text("why", error)))
    };
    let date =
        Date::of(first_day()).map_err(|error| Fault::other(Message::new("act-book").text("why", error)))?;
    let founding = Founding {
        name: label(HOLDING)?,
        device_label: label("Desk")?,
        nonce: random()?,
        sells: false,
        certified: false,
        latitude_centidegree: None,
        when: When::on(date),
        wall_ms,
    };
    Book::create(file, key, &founding).map_err(|error| match error {
        kerfbook_ledger::LedgerError::ReadOnly | kerfbook_ledger::LedgerError::Full => {
            Fault::other(Message::new("demo-cannot-replace").text("file", file.display()).text("why", error))
        }
        other => Fault::other(Message::new("act-book").text("why", other)),
    })
}

/// Plays the season into the book.
#[expect(clippy::too_many_lines, reason = "a season told from start to end")]
pub(super) fn play(
    book: &mut Book,
    comparison: &Comparison,
    seed: u64,
    words: &Words,
) -> Result<Played, ActError> {
    // Salts keep short texts from being guessed from their hash; the demo's are drawn anew each time.
    let salt =
        || random().map_err(|_| ActError::Missing { key: "salt", why: "the system gives no random bytes" });
    let around = surroundings();
    let containers = around.containers;
    let mut wall_ms = 0;
    if let Some(last) = book.entries(None, 1)?.last() {
        wall_ms = last.current.original.wall_ms;
    }
    let mut cautions: Vec<&'static str> = Vec::new();
    let day = |offset: u64| first_day() + chrono::Days::new(offset);
    let mut now = Moment { date: first_day(), wall_ms, by: None };

    let name = Text::new(salt()?, &words.label("demo-grower"));
    let named = Draft::new(When::on(Date::of(now.date)?), PersonNamed { name: name.hash() });
    now.by = book.append(&[named], &[name], now.wall_ms)?.first().copied();

    let place_of = |kind, area, count| {
        (
            Place { kind, area: Area::from_m2(area), area_sd: None, rooting_depth: None, container: None },
            count,
        )
    };
    let mut places = Vec::new();
    for (number, (id, (place, count))) in (0_usize..).zip([
        ("demo-bed-bare", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-bed-worked-in", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-bed-on-top", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-bed-over-compost", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-bed-over-urine", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-bed-composted", place_of(PlaceKind::Bed, BED_M2, None)),
        ("demo-path", place_of(PlaceKind::Path, 18.0, None)),
        ("demo-trees", place_of(PlaceKind::Rings, 24.0, Some(6))),
    ]) {
        let shape = ground_plan::shape(number);
        places.push(outline_place::outline_with(book, &words.label(id), &place, count, shape, now)?);
    }
    let [bare, worked_in, on_top, over_compost, over_urine, composted, path, trees] = places[..] else {
        return Err(ActError::NotThere { what: "place" });
    };

    let beds = [bare, worked_in, on_top, over_compost, over_urine, composted];
    second_year::describe(book, &beds, now)?;

    let seller = Text::new(salt()?, &words.label("demo-joinery"));
    let autumn = now.on(pile::built(now.date));
    let mut take =
        |book: &mut Book, label: &str, material: &str, litres: f64, from: Option<Text>, on: Moment| {
            let named = words.label(label);
            let load = NewLoad {
                volume: Some(Volume::from_litres(litres)),
                from,
                treated: if material.contains("MDF") { Answer::Yes } else { Answer::No },
                diseased: Answer::No,
                salty: Answer::No,
                ..NewLoad::of(&named, material)
            };
            let (entry, found) = match take_in_load::take_in(book, &load, on)? {
                Intake::Taken { batch, cautions, .. } => (batch, cautions),
                Intake::Refused { entry, cautions, .. } => (entry, cautions),
            };
            cautions.extend(found.iter().map(|caution| caution.id));
            Ok::<EntryId, ActError>(entry)
        };
    let sawdust = take(book, "demo-batch-sawdust", "hardwood sawdust", 1600.0, Some(seller), now)?;
    let compost = take(book, "demo-batch-compost", "finished compost", 500.0, None, now)?;
    let autumn_wood = take(book, "demo-batch-autumn", "hardwood sawdust", 1000.0, None, autumn)?;
    let manure = take(book, "demo-batch-manure", "laying hen manure", 200.0, None, autumn)?;
    let chips = take(book, "demo-batch-chips", "arborist chips", 4000.0, None, now)?;
    take(book, "demo-batch-refused", "MDF dust", 300.0, None, now)?;
    let (finished, found) = pile::play(book, [autumn_wood, manure], &containers, words, now)?;
    cautions.extend(found);

    for place in beds {
        grow_crop::start(book, place, &cabbage(), now)?;
    }
    let apple = match crops::find("apple") {
        Match::Exact(found) => found.per_tree(),
        Match::Near(_) => None,
    };
    if let Some(need) = apple {
        let crop = Crop {
            name: "apple".to_owned(),
            need: CropNeed::Tree(need),
            plants: Some(6),
            ended: day(210),
            ..cabbage()
        };
        grow_crop::start(book, trees, &crop, now)?;
    }

    let lay = |book: &mut Book, place, batch, way, amount, over| {
        put_down::put_down(book, &NewPutDown { place, batch, way, amount, over }, &containers, now)
    };
    // Written for the wrong bed on the day, put right a week later.
    let wrong = lay(book, on_top, sawdust, Way::WorkedIn, Amount::Barrows(BARROWS), None)?;
    lay(book, on_top, sawdust, Way::OnTop, Amount::Barrows(BARROWS), None)?;
    // 1 cm of finished compost under the layer.
    let under =
        lay(book, over_compost, compost, Way::OnTopOverNitrogen, Amount::Depth(Length::from_cm(1.0)), None)?;
    lay(book, over_compost, sawdust, Way::OnTopOverNitrogen, Amount::Barrows(BARROWS), Some(under))?;
    let feed = NewFeed {
        place: over_urine,
        source: "urine",
        crop: AreaMass::from_kg_ha(0.0),
        wood: AreaMass::from_kg_ha(kerfbook_acts::way::urine_nitrogen_kg_ha()),
        placed: Placed::Under,
    };
    let (urine, found) = give_feed::give(book, &feed, &around.holding, now)?;
    cautions.extend(found.iter().map(|caution| caution.id));
    lay(book, over_urine, sawdust, Way::OnTopOverNitrogen, Amount::Barrows(BARROWS), Some(urine))?;
    lay(book, composted, finished, Way::WorkedIn, Amount::Barrows(BARROWS), None)?;
    lay(book, path, chips, Way::Path, Amount::Depth(Length::from_cm(10.0)), None)?;
    lay(book, trees, chips, Way::Ring, Amount::Depth(Length::from_cm(7.5)), None)?;

    if let Give::Feed { crop_kg_ha, wood_kg_ha, source, .. } = comparison.answer.give {
        let feed = NewFeed {
            place: on_top,
            source,
            crop: AreaMass::from_kg_ha(crop_kg_ha.min(40.0)),
            wood: AreaMass::from_kg_ha(wood_kg_ha),
            placed: Placed::Top,
        };
        let (_, found) = give_feed::give(book, &feed, &around.holding, now.on(day(21)))?;
        cautions.extend(found.iter().map(|caution| caution.id));
    }
    let watered = Draft::new(
        When::on(Date::of(day(70))?),
        WaterGiven { depth_mm: Some(20), volume_ml: None, under: None },
    )
    .by(now.by)
    .about(on_top);
    book.append(&[watered], &[], now.wall_ms)?;

    let reason = Text::new(salt()?, &words.label("demo-wrong-bed"));
    let change = Change { when: When::on(Date::of(day(7))?), by: now.by, reason: Some(&reason) };
    book.correct(wrong, &[Replacement::subject(worked_in)], change, now.wall_ms)?;

    let scenario = scenario_of(book, on_top, &around)?;
    let foretold = forecast::forecast(&scenario, RUNS, seed)?;
    freeze_forecast::freeze(book, on_top, &scenario, comparison, &foretold, salt()?, now)?;

    let note = Text::new(salt()?, &words.label("demo-note"));
    let noted =
        Draft::new(When::on(Date::of(day(36))?), NoteMade { text: note.hash() }).by(now.by).about(worked_in);
    book.append(&[noted], &[note], now.wall_ms)?;

    for place in beds {
        let Some(crop) = book.place(place)?.and_then(|view| view.crops.first().map(|line| line.entry)) else {
            continue;
        };
        grow_crop::end(book, place, crop, Fate::CarriedOff, None, now.on(harvest()))?;
    }
    trial::play(book, &question(), harvest(), seed, words, now)?;
    let story = second_year::Places { worked_in, on_top, path, trees, sawdust };
    second_year::first_summer(book, &story, &salt, words, now)?;
    second_year::second_year(book, &story, words, now)?;
    Ok(Played { asked: on_top, cautions })
}
