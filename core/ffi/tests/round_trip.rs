//! A book through the surface: founded, written in, read, closed, opened again.
#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

use std::path::Path;
use std::sync::{Arc, Mutex};

use kerfbook_ffi::error::CoreError;
use kerfbook_ffi::field_book::{FieldBook, NewHolding};
use kerfbook_ffi::load::{Feel, LoadGiven, Measure, Said};
use kerfbook_ffi::look::{LookGiven, Strip, Yellow};
use kerfbook_ffi::piles::{FinishGiven, HeatGiven, PartGiven, PileGiven};
use kerfbook_ffi::places::{Ground, NewPlace, Size};
use kerfbook_ffi::port::{Clock, KeyStore, Now};
use kerfbook_ffi::put_down::{Manner, PutDownGiven, RunGiven};
use kerfbook_ffi::reader::{Measures, Reader, Tongue};
use kerfbook_ffi::trials::{Leaves, TrialGiven};
use kerfbook_ffi::walk::{FixGiven, WalkGiven};

#[derive(Default)]
struct Keys(Mutex<Option<Vec<u8>>>);

impl KeyStore for Keys {
    fn fetch(&self) -> Result<Option<Vec<u8>>, CoreError> {
        Ok(self.0.lock().unwrap().clone())
    }

    fn keep(&self, secret: Vec<u8>) -> Result<(), CoreError> {
        *self.0.lock().unwrap() = Some(secret);
        Ok(())
    }
}

/// 15 April 2026.
const APRIL: i32 = 20_558;

struct Still;

impl Clock for Still {
    fn now(&self) -> Result<Now, CoreError> {
        Ok(Now { wall_ms: i64::from(APRIL) * 86_400_000, day: APRIL })
    }
}

const ENGLISH: Reader = Reader {
    tongue: Tongue::English,
    measures: Measures::Metric,
    barrow_l: None,
    bucket_l: None,
    trailer_m3: None,
};

fn founded(path: &Path, keys: &Arc<Keys>) -> Arc<FieldBook> {
    let holding = NewHolding {
        name: "Low field".to_owned(),
        device: "Phone".to_owned(),
        sells: false,
        certified: false,
        latitude_deg: Some(45.0),
    };
    FieldBook::found(path.display().to_string(), holding, Arc::clone(keys) as _, Arc::new(Still), ENGLISH)
        .unwrap()
}

fn bed() -> NewPlace {
    NewPlace {
        label: "Bed 1".to_owned(),
        ground: Ground::Bed,
        size: Size::Taped { length: "10".to_owned(), width: "1,2".to_owned() },
    }
}

fn load() -> LoadGiven {
    LoadGiven {
        label: "Mill".to_owned(),
        material: "sawdust, mixed".to_owned(),
        amount: "20".to_owned(),
        measure: Measure::Barrows,
        from_whom: "the mill".to_owned(),
        treated: Said::No,
        diseased: Said::Unknown,
        salty: Said::Unknown,
        medicines: Said::Unknown,
        weedkillers: Said::Unknown,
        feel: Some(Feel::Damp),
    }
}

#[test]
fn a_book_goes_round() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book.kerfbook");
    let keys = Arc::new(Keys::default());
    let (place, batch);
    {
        let book = founded(&path, &keys);
        place = book.outline_place(bed()).unwrap().entry;
        let taken = book.take_in(load()).unwrap();
        batch = taken.batch.unwrap();
        let given = PutDownGiven {
            place: place.clone(),
            batch: batch.clone(),
            amount: "6".to_owned(),
            measure: Measure::Barrows,
            manner: None,
            run: None,
        };
        let answer = book.consider(given.clone()).unwrap();
        assert!(!answer.instruction.is_empty() && !answer.ways.is_empty());
        let saved = book.put_down(PutDownGiven { manner: Some(Manner::OnTop), ..given }).unwrap();
        assert!(saved.text.contains("6 barrows"), "{}", saved.text);
    }
    let keys: Arc<dyn KeyStore> = keys;
    let book = FieldBook::open(path.display().to_string(), keys, Arc::new(Still), ENGLISH).unwrap();
    let start = book.start_put_down().unwrap();
    assert_eq!(start.last.unwrap().amount, "6");
    assert_eq!(start.batches.first().unwrap().left, "14 barrows left");
    let look = LookGiven {
        place: place.clone(),
        yellow: Some(Yellow::Some),
        strip: "20".to_owned(),
        strip_states: Strip::Nitrate,
        depth: "4".to_owned(),
        rain: String::new(),
    };
    assert_eq!(book.look(look).unwrap().len(), 3);
    let page = book.entries(None, 3).unwrap();
    assert!(page.more);
    let next = book.entries(page.entries.last().map(|entry| entry.id.clone()), 200).unwrap();
    assert!(!next.more);
    assert_eq!(page.entries.len() + next.entries.len(), 8);
    let put = next.entries.iter().find(|entry| entry.text.contains("6 barrows")).unwrap();
    book.withdraw(put.id.clone(), "wrong bed".to_owned()).unwrap();
    assert_eq!(book.start_put_down().unwrap().batches.first().unwrap().left, "20 barrows left");
    book.put_back(put.id.clone(), String::new()).unwrap();
    let other = book.outline_place(NewPlace { label: "Bed 2".to_owned(), ..bed() }).unwrap().entry;
    book.move_to(put.id.clone(), other.clone(), "wrong bed".to_owned()).unwrap();
    assert!(book.place(other).unwrap().happened.iter().any(|line| line.contains("6 barrows")));
    assert_eq!(book.today().unwrap().places, 2);
}

#[test]
fn treated_wood_is_sent_away_and_written_down() {
    let folder = tempfile::tempdir().unwrap();
    let book = founded(&folder.path().join("book"), &Arc::new(Keys::default()));
    let taken = book.take_in(LoadGiven { treated: Said::Yes, ..load() }).unwrap();
    assert_eq!(taken.batch, None);
    assert!(!taken.cautions.is_empty());
    assert!(book.start_put_down().unwrap().batches.is_empty());
}

#[test]
fn what_is_wrong_is_said_beside_its_field() {
    let folder = tempfile::tempdir().unwrap();
    let book = founded(&folder.path().join("book"), &Arc::new(Keys::default()));
    let wrong = |new: NewPlace| match book.outline_place(new) {
        Err(CoreError::BadInput { field, .. }) => field,
        other => format!("{other:?}"),
    };
    assert_eq!(wrong(NewPlace { label: " ".to_owned(), ..bed() }), "label");
    assert_eq!(wrong(NewPlace { label: "x".repeat(41), ..bed() }), "label");
    let taped =
        |length: &str, width: &str| Size::Taped { length: length.to_owned(), width: width.to_owned() };
    assert_eq!(wrong(NewPlace { size: taped("ten", "1"), ..bed() }), "length");
    assert_eq!(wrong(NewPlace { size: taped("10", "0"), ..bed() }), "width");
    assert_eq!(book.places().unwrap(), []);
}

#[test]
fn a_book_that_is_none_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let keys: Arc<dyn KeyStore> = Arc::new(Keys::default());
    let open =
        || FieldBook::open(path.display().to_string(), Arc::clone(&keys), Arc::new(Still), ENGLISH).err();
    assert!(matches!(open(), Some(CoreError::NoBook { .. })));
    std::fs::write(&path, b"not a book").unwrap();
    assert!(matches!(open(), Some(CoreError::BookDamaged { .. })));
    assert_eq!(std::fs::read(&path).unwrap(), b"not a book");
}

#[test]
fn today_says_what_needs_doing_and_an_order_is_ticked_off_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book.kerfbook");
    let keys = Arc::new(Keys::default());
    let (place, task);
    {
        let book = founded(&path, &keys);
        place = book.outline_place(bed()).unwrap().entry;
        assert!(book.today().unwrap().tasks.is_empty());
    }
    {
        // A person's order, as a desk writes it.
        let secret = keys.fetch().unwrap().unwrap();
        let key = kerfbook_ledger::DeviceKey::from_bytes(&secret.try_into().unwrap());
        let mut book = kerfbook_ledger::Book::open(&path, Some(&key)).unwrap();
        let on = kerfbook_acts::set_task::NewTask::of(
            kerfbook_ledger::kind::TaskKind::Look,
            kerfbook_ledger::EntryId::parse(&place),
        );
        let moment = kerfbook_acts::moment::Moment {
            date: chrono::NaiveDate::from_ymd_opt(2026, 4, 14).unwrap(),
            wall_ms: i64::from(APRIL - 1) * 86_400_000,
            by: None,
        };
        task = kerfbook_acts::set_task::set(&mut book, &on, moment).unwrap().to_string();
    }
    let book = FieldBook::open(path.display().to_string(), keys, Arc::new(Still), ENGLISH).unwrap();
    let told = book.today().unwrap().tasks;
    let line = told.first().unwrap();
    assert_eq!((line.at.as_str(), line.what.as_str()), ("Bed 1", "Look at the old leaves"));
    assert_eq!((line.place.as_ref(), line.task.as_ref()), (Some(&place), Some(&task)));
    assert!(line.why.starts_with('A') && line.why.ends_with('.'), "{}", line.why);
    assert_eq!(book.today_foretold().unwrap().tasks, told);
    book.tick_off(task.clone()).unwrap();
    assert!(book.today().unwrap().tasks.is_empty());
    assert!(matches!(book.tick_off(task), Err(CoreError::BadInput { field, .. }) if field == "task"));
    assert!(matches!(book.tick_off("nothing".to_owned()), Err(CoreError::BadInput { .. })));
}

#[test]
fn a_trial_is_laid_out_scored_blind_and_told_once_it_is_closed() {
    let folder = tempfile::tempdir().unwrap();
    let book = founded(&folder.path().join("book.kerfbook"), &Arc::new(Keys::default()));
    let given = |name: &str, treatments: &[&str], blocks: &str| TrialGiven {
        name: name.to_owned(),
        treatments: treatments.iter().map(|one| (*one).to_owned()).collect(),
        blocks: blocks.to_owned(),
    };
    let wrong = |given: TrialGiven| match book.lay_out_trial(given) {
        Err(CoreError::BadInput { field, .. }) => field,
        other => panic!("{other:?}"),
    };
    assert_eq!(wrong(given("", &["raw", "old"], "4")), "name");
    assert_eq!(wrong(given("Beds", &["raw", ""], "4")), "treatment-1");
    assert_eq!(wrong(given("Beds", &["raw", "", "raw"], "4")), "treatment-2");
    assert_eq!(wrong(given("Beds", &["raw", "old"], "four")), "blocks");
    assert_eq!(wrong(given("Beds", &["raw", "old"], "40")), "blocks");
    assert!(book.trials().unwrap().is_empty());
    let trial = book.lay_out_trial(given("Beds", &["raw sawdust", "", "composted"], "6")).unwrap().entry;
    assert_eq!(wrong(given("Beds", &["raw", "old"], "4")), "name");

    let page = book.trial(trial.clone(), Leaves::Old).unwrap();
    assert_eq!(page.walk.len(), 12);
    let small = book.lay_out_trial(given("Few", &["raw", "old"], "4")).unwrap().entry;
    let told = book.trial(small, Leaves::Old).unwrap().said.join(" ");
    assert!(told.contains("Treat it as a look"), "{told}");
    assert!(page.line.open && page.shown.is_empty() && page.steps.first() == Some(&0));
    let layout = book.trial_layout(trial.clone()).unwrap();
    let numbers: Vec<u32> = layout.iter().map(|plot| plot.number).collect();
    assert_eq!(page.walk.iter().map(|plot| plot.number).collect::<Vec<_>>(), numbers);
    // By block, not by place along the walk: whatever the lot gave, plots of one treatment differ.
    let step = |treatment: &str, at: usize| {
        let odd = at / 2 % 2;
        if treatment == "composted" { [5, 2][odd] } else { [30, 40][odd] }
    };
    for (at, plot) in layout.iter().enumerate() {
        let said =
            book.score_plot(trial.clone(), plot.number, Leaves::Old, step(&plot.treatment, at)).unwrap();
        assert!(!said.text.contains("composted") && !said.text.contains("raw"), "{}", said.text);
    }
    let first = numbers.first().copied().unwrap();
    assert!(book.score_plot(trial.clone(), first, Leaves::Old, 10).is_err(), "twice on a day");
    assert!(book.score_plot(trial.clone(), first, Leaves::Young, 101).is_err(), "more than all");
    assert!(matches!(
        book.weigh_plot(trial.clone(), first, "much".to_owned()),
        Err(CoreError::BadInput { field, .. }) if field == "picked"
    ));
    book.weigh_plot(trial.clone(), first, "3,5".to_owned()).unwrap();
    assert!(matches!(
        book.lose_plot(trial.clone(), first, " ".to_owned()),
        Err(CoreError::BadInput { field, .. }) if field == "reason"
    ));
    let page = book.trial(trial.clone(), Leaves::Old).unwrap();
    assert!(page.walk.iter().all(|plot| plot.scored.is_some()) && page.walk.first().unwrap().weighed);
    let whole = format!("{page:?}");
    assert!(!whole.contains("composted") && !whole.contains("raw sawdust"), "{whole}");

    book.close_trial(trial.clone()).unwrap();
    let page = book.trial(trial.clone(), Leaves::Old).unwrap();
    assert!(!page.line.open);
    let shown = page.shown.first().unwrap();
    assert!(shown.said.iter().any(|said| said.contains("composted yellowed less")), "{:?}", shown.said);
    assert!(shown.said.iter().any(|said| said.contains("field and season")));
    assert!(book.score_plot(trial, first, Leaves::Young, 10).is_err(), "closed");
}

#[test]
fn a_pile_is_considered_built_read_turned_and_taken_down() {
    let folder = tempfile::tempdir().unwrap();
    let book = founded(&folder.path().join("book"), &Arc::default());
    let taken = |material: &str, amount: &str, label: &str| {
        book.take_in(LoadGiven {
            amount: amount.to_owned(),
            label: label.to_owned(),
            material: material.to_owned(),
            ..load()
        })
        .unwrap()
        .batch
        .unwrap()
    };
    let (wood, manure) = (taken("sawdust, mixed", "20", "Mill"), taken("cattle manure", "20", "Byre"));
    let start = book.start_pile().unwrap();
    assert_eq!(start.batches.len(), 2);
    assert!(start.rules.iter().any(|rule| rule.name == "us-organic-windrow"));
    let part = |batch: &str, amount: &str| PartGiven { batch: batch.to_owned(), amount: amount.to_owned() };
    let mut given = PileGiven {
        name: "By the gate".to_owned(),
        parts: vec![part(&wood, "8"), part(&manure, "x")],
        measure: Measure::Barrows,
        water: String::new(),
        rule: Some("us-organic-windrow".to_owned()),
    };
    let wrong = book.consider_pile(given.clone()).unwrap_err();
    assert!(matches!(wrong, CoreError::BadInput { field, .. } if field == format!("amount-{manure}")));
    given.parts[1].amount = "12".to_owned();
    let answer = book.consider_pile(given.clone()).unwrap();
    assert!(answer.said[0].contains("C:N"), "{:?}", answer.said);
    assert!(!answer.cautions.is_empty());
    let built = book.build_pile(given).unwrap();
    assert_eq!(
        book.start_pile().unwrap().batches.iter().filter(|batch| batch.left.contains("12")).count(),
        1
    );
    let reading = |heat: &str, zone: &str| HeatGiven {
        pile: built.entry.clone(),
        zone: Some(zone.to_owned()),
        heat: heat.to_owned(),
        depth: String::new(),
        smoke: false,
        moisture: String::new(),
    };
    for wrong in ["140", "hot", ""] {
        let refused = book.read_heat(reading(wrong, "core")).unwrap_err();
        let asks = wrong != "140" || format!("{refused:?}").contains("Are these degrees Fahrenheit?");
        assert!(asks && matches!(refused, CoreError::BadInput { field, .. } if field == "heat"));
    }
    let smoking = HeatGiven { smoke: true, ..reading("", "core") };
    assert!(format!("{:?}", book.read_heat(smoking).unwrap_err()).contains("fire service first"));
    assert!(book.read_heat(reading("58", "core")).unwrap().cautions.is_empty());
    assert!(book.read_heat(reading("58", "core")).is_err(), "the same zone twice at one time");
    let page = book.pile(built.entry.clone()).unwrap();
    assert!(page.said.iter().any(|said| said.contains("us-organic-windrow")), "{:?}", page.said);
    assert!(page.chart.is_some() && page.zones.len() == 3);
    assert!(!book.turning_cautions().is_empty());
    book.turn_pile(built.entry.clone(), "50".to_owned()).unwrap();
    assert!(!book.finishing_cautions(built.entry.clone()).unwrap().is_empty());
    let done = book
        .finish_pile(FinishGiven {
            pile: built.entry.clone(),
            name: "Compost of May".to_owned(),
            amount: String::new(),
            measure: Measure::Barrows,
            moisture: String::new(),
            carbon_nitrogen: String::new(),
        })
        .unwrap();
    assert_eq!(done.said.len(), 2);
    assert!(!book.piles().unwrap()[0].stands);
    assert!(book.start_pile().unwrap().batches.iter().any(|batch| batch.label == "Compost of May"));
    assert!(book.read_heat(reading("40", "edge")).is_err(), "it is a batch");
}

/// A walk round a rectangle of 60 by 40 m, a fix a second, of which a part is walked.
fn walked(part: f64, accuracy_m: f64) -> WalkGiven {
    let (wide, high, speed) = (60.0, 40.0, 1.25);
    let around = 2.0 * (wide + high);
    let at = |way: f64| {
        let way = way % around;
        if way < wide {
            (way, 0.0)
        } else if way < wide + high {
            (wide, way - wide)
        } else if way < 2.0 * wide + high {
            (2.0 * wide + high - way, high)
        } else {
            (0.0, around - way)
        }
    };
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a short walk")]
    let seconds = (part * around / speed) as u32;
    let fix = |second: u32| {
        let (x, y) = at(f64::from(second) * speed);
        // Metres to degrees at 45 degrees north, near enough for a test of a field.
        FixGiven {
            latitude_deg: 45.0 + y / 111_132.0,
            longitude_deg: x / (111_320.0 * std::f64::consts::FRAC_1_SQRT_2),
            time_ms: i64::from(APRIL) * 86_400_000 + i64::from(second) * 1000,
            accuracy_m,
        }
    };
    WalkGiven { parts: vec![(0..=seconds).map(fix).collect()], under_trees: false }
}

#[test]
fn a_walk_is_told_as_it_grows_and_becomes_a_place_with_its_range() {
    let folder = tempfile::tempdir().unwrap();
    let book = founded(&folder.path().join("book"), &Arc::default());
    let none = book.walk(WalkGiven { parts: Vec::new(), under_trees: false }).unwrap();
    assert!(!none.usable && none.said == ["Waiting for the first fixes."]);
    let half = book.walk(walked(0.5, 3.0)).unwrap();
    assert!(!half.closed && half.said.iter().any(|said| said.contains("The loop is not closed")), "{half:?}");
    let whole = book.walk(walked(1.05, 3.0)).unwrap();
    assert!(whole.closed && whole.usable, "{:?}", whole.said);
    assert!(whole.area.contains("give or take") && whole.about.contains("fixes within"), "{whole:?}");
    assert!(!whole.path.shapes.is_empty());
    // Fixes that may be fifty metres off bound no field of this size, and that is said.
    let poor = book.walk(walked(1.05, 50.0)).unwrap();
    assert!(!poor.usable && poor.said[0].contains("under open sky"), "{:?}", poor.said);
    let refused = book.outline_walk("Field".to_owned(), Ground::Bed, walked(1.05, 50.0)).unwrap_err();
    assert!(matches!(refused, CoreError::BadInput { field, .. } if field == "walk"));
    let saved = book.outline_walk("Field".to_owned(), Ground::Bed, walked(1.05, 3.0)).unwrap();
    assert!(saved.text.contains("Field"));
    let line = &book.places().unwrap()[0];
    assert!(line.about.contains("2400 m²") || line.about.contains("2,400 m²"), "{}", line.about);
    let twice = book.outline_walk("Field".to_owned(), Ground::Bed, walked(1.05, 3.0)).unwrap_err();
    assert!(matches!(twice, CoreError::BadInput { field, .. } if field == "label"));
    assert_eq!(book.places().unwrap().len(), 1);
}

fn sides(label: &str, [ab, bc, cd, da, ac, bd]: [&str; 6]) -> NewPlace {
    let [ab, bc, cd, da, ac, bd] = [ab, bc, cd, da, ac, bd].map(str::to_owned);
    NewPlace { label: label.to_owned(), ground: Ground::Bed, size: Size::Sides { ab, bc, cd, da, ac, bd } }
}

#[test]
fn taped_sides_give_a_place_with_its_range_and_its_shape_or_say_which_length_is_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let keys = Arc::new(Keys::default());
    let book = founded(&folder.path().join("book"), &keys);
    book.outline_place(sides("Corner", ["3", "4", "", "", "5", ""])).unwrap();
    book.outline_place(sides("Field", ["3", "4", "3", "4", "5", "5"])).unwrap();
    let told: Vec<String> = book.places().unwrap().into_iter().map(|place| place.about).collect();
    assert!(told[0].contains("6 m²") && told[0].contains("give or take"), "{told:?}");
    assert!(told[1].contains("12 m²"), "{told:?}");
    let map = book.map().unwrap();
    assert_eq!((map.lines.len(), map.drawing.is_some()), (2, true), "{map:?}");
    let field = |new| match book.outline_place(new) {
        Err(CoreError::BadInput { field, .. }) => field,
        other => panic!("{other:?}"),
    };
    assert_eq!(field(sides("A", ["3", "4", "3", "4", "5", "6"])), "bd");
    assert_eq!(field(sides("A", ["3", "4", "", "", "9", ""])), "ac");
    assert_eq!(field(sides("A", ["3", "x", "", "", "5", ""])), "bc");
    assert_eq!(field(sides("A", ["3", "4", "3", "", "5", ""])), "da");
    assert_eq!(book.places().unwrap().len(), 2, "nothing of that was written");
}

#[test]
fn a_load_goes_along_a_run_of_trees_and_the_next_one_on_from_there() {
    let folder = tempfile::tempdir().unwrap();
    let keys = Arc::new(Keys::default());
    let book = founded(&folder.path().join("book"), &keys);
    let text = |text: &str| text.to_owned();
    let rows = |missing: &str| NewPlace {
        label: text("Orchard"),
        ground: Ground::Rings,
        size: Size::Rows {
            first_row: text("12"),
            rows: text("2"),
            trees: text("5"),
            spacing: text("4"),
            row_spacing: text("5"),
            radius: text("1.5"),
            gap: text("15"),
            missing: text(missing),
        },
    };
    assert!(matches!(
        book.outline_place(rows("12-3")),
        Err(CoreError::BadInput { field, .. }) if field == "missing"
    ));
    assert!(matches!(
        book.outline_place(rows("14/3")),
        Err(CoreError::BadInput { field, .. }) if field == "missing"
    ));
    let place = book.outline_place(rows("12/3, 13/1")).unwrap().entry;
    assert!(book.places().unwrap()[0].rows);
    let batch = book.take_in(load()).unwrap().batch.unwrap();
    let run = |[from_row, from_tree, to_row, to_tree]: [&str; 4]| RunGiven {
        from_row: text(from_row),
        from_tree: text(from_tree),
        to_row: text(to_row),
        to_tree: text(to_tree),
    };
    let given = |run| PutDownGiven {
        place: place.clone(),
        batch: batch.clone(),
        amount: text("2"),
        measure: Measure::Barrows,
        manner: Some(Manner::Ring),
        run,
    };
    for wrong in [["12", "1", "12", "6"], ["13", "1", "12", "1"]] {
        assert!(matches!(
            book.consider(given(Some(run(wrong)))),
            Err(CoreError::BadInput { field, .. }) if field == "to_tree"
        ));
    }
    let first = run(["12", "1", "12", "4"]);
    // The same barrows are more where they go to fewer trees.
    let all = book.consider(given(None)).unwrap();
    let some = book.consider(given(Some(first.clone()))).unwrap();
    assert_ne!(all, some);
    let saved = book.put_down(given(Some(first))).unwrap();
    assert!(saved.text.contains("2 barrows"), "{}", saved.text);
    let start = book.start_put_down().unwrap();
    assert_eq!(start.onward, Some(run(["12", "5", "13", "4"])), "three trees stood there, and three follow");
    book.put_down(given(start.onward)).unwrap();
    let start = book.start_put_down().unwrap();
    assert_eq!(start.onward, Some(run(["13", "3", "13", "2"])), "as many as are left");
    book.put_down(given(start.onward)).unwrap();
    let end = book.start_put_down().unwrap();
    assert_eq!((end.onward, end.at_end.is_empty()), (None, false));
}
