//! What a season adds to a book: blends, counts, layers that are lifted and dug in, tasks, weather; and what cannot
//! have happened so.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod ledger;

use std::sync::Arc;

use kerfbook_ledger::kind::{
    Answer, BatchBlended, BatchRecounted, BatchTested, Body, CropEnded, DepthProbed, DeviceEnrolled, Fate,
    HoldingOpened, LayerLifted, LoadTakenIn, Measured, NoteMade, Outcome, Part, PlaceKind, PlaceOutlined,
    PlaceReoutlined, PutDown, SoilWorked, TaskClosed, TaskKind, TaskSet, WeatherRead, WeatherSpan,
};
use kerfbook_ledger::projection::batch::Origin;
use kerfbook_ledger::{
    BatchView, Book, Draft, EntryId, Flag, Hash, Head, Kind, LedgerError, Nonce, PlaceView, Replacement,
    Text, When,
};
use ledger::*;

/// Appends one entry a second after the one before it.
struct Pen<'a> {
    book: &'a mut Book,
    now: i64,
}

impl Pen<'_> {
    fn new(book: &mut Book) -> Pen<'_> {
        Pen { book, now: SPRING_MS + 10_000 }
    }

    fn write(&mut self, draft: Draft) -> EntryId {
        self.now += 1_000;
        self.book.append(&[draft], &[], self.now).unwrap()[0]
    }

    fn nothing(&mut self, on: i32, body: impl Into<Body>) -> EntryId {
        self.write(Draft::new(day(on), body))
    }

    fn about(&mut self, on: i32, subject: EntryId, body: impl Into<Body>) -> EntryId {
        self.write(Draft::new(day(on), body).about(subject))
    }

    fn withdraw(&mut self, id: EntryId) -> EntryId {
        self.now += 1_000;
        self.book.withdraw(id, change(300), self.now).unwrap()
    }

    fn correct(&mut self, id: EntryId, replaced: Replacement) -> EntryId {
        self.now += 1_000;
        self.book.correct(id, &[replaced], change(300), self.now).unwrap()
    }

    fn batch(&self, id: EntryId) -> Arc<BatchView> {
        self.book.batch(id).unwrap().unwrap()
    }

    fn place(&self, id: EntryId) -> Arc<PlaceView> {
        self.book.place(id).unwrap().unwrap()
    }

    fn flags(&self, id: EntryId) -> Vec<Flag> {
        self.book.current(id).unwrap().unwrap().flags.into_iter().collect()
    }
}

fn blend(name: &str, parts: &[(EntryId, Option<u64>, Option<u64>)]) -> BatchBlended {
    BatchBlended {
        label: label(name),
        material: label("stable bedding"),
        particle: None,
        parts: parts
            .iter()
            .map(|(batch, wet_g, volume_ml)| Part { batch: *batch, wet_g: *wet_g, volume_ml: *volume_ml })
            .collect(),
        wet_g: None,
        volume_ml: None,
        moisture_bp: None,
        carbon_nitrogen_x100: None,
    }
}

fn count(wet_g: Option<u64>, volume_ml: Option<u64>) -> BatchRecounted {
    BatchRecounted { wet_g, volume_ml, reason: None }
}

fn lift(layer: EntryId, share_bp: u32) -> LayerLifted {
    LayerLifted {
        label: label(&format!("lifted {share_bp}")),
        layer,
        share_bp,
        wet_g: Some(u64::from(share_bp) * 8),
        volume_ml: Some(u64::from(share_bp) * 25),
        moisture_bp: None,
    }
}

fn worked(depth_mm: u32) -> SoilWorked {
    SoilWorked { depth_mm, share_bp: None, tool: None, by_tool: None }
}

fn path(name: &str) -> PlaceOutlined {
    PlaceOutlined { place_kind: PlaceKind::Path, ..bed(name) }
}

fn task() -> TaskSet {
    TaskSet {
        what: TaskKind::Look,
        due: Some(day(20).date),
        to: None,
        text: None,
        source: None,
        nitrogen_mg: None,
        wet_g: None,
    }
}

fn done(task: EntryId, entry: Option<EntryId>) -> TaskClosed {
    TaskClosed { task, outcome: Outcome::Done, entry, reason: None }
}

#[test]
fn blend_takes_from_its_parts_and_gives_back_when_it_is_taken_out() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let other = pen.nothing(1, load("Load 2", 200_000));
    let mixed = pen.nothing(
        3,
        blend("Mix", &[(season.batch, Some(120_000), Some(400_000)), (other, Some(50_000), None)]),
    );
    let (first, second, view) = (pen.batch(season.batch), pen.batch(other), pen.batch(mixed));
    assert_eq!((first.left_g, first.left_ml), (Some(180_000), Some(1_500_000 - 340_000 - 400_000)));
    assert_eq!((second.left_g, second.left_ml, second.unmeasured), (Some(150_000), Some(1_500_000), 1));
    assert_eq!(
        (view.origin, view.wet_g, view.left_g, view.left_ml),
        (Origin::Blend, Some(170_000), Some(170_000), None)
    );
    assert_eq!((view.loads.as_slice(), view.parts.len()), ([season.batch, other].as_slice(), 2));
    assert_eq!((first.uses[1].entry, first.uses[1].place), (mixed, None));

    // A blend of a blend, put down; more than there is.
    let again =
        pen.nothing(4, blend("Mix 2", &[(mixed, Some(100_000), None), (season.batch, Some(10_000), None)]));
    let putting = pen.about(5, season.second, put(again, 150_000));
    assert_eq!(pen.batch(mixed).left_g, Some(70_000));
    let view = pen.batch(again);
    assert_eq!((view.left_g, view.overdrawn()), (Some(-40_000), true));
    assert_eq!(view.loads, [season.batch, other]);
    consistent(pen.book);

    let withdrawal = pen.withdraw(other);
    assert!(has(pen.book, mixed, Flag::RestsOnWithdrawn) && has(pen.book, again, Flag::RestsOnWithdrawn));
    assert!(has(pen.book, putting, Flag::RestsOnWithdrawn));
    assert_eq!(
        pen.batch(season.batch).left_g,
        Some(300_000),
        "what rests on a withdrawn load stands in no sum"
    );
    assert_eq!(pen.place(season.second).layers, []);
    consistent(pen.book);
    pen.withdraw(withdrawal);
    assert_eq!(pen.batch(season.batch).left_g, Some(170_000));
    pen.withdraw(mixed);
    assert_eq!((pen.batch(season.batch).left_g, pen.batch(other).left_g), (Some(300_000), Some(200_000)));
    consistent(pen.book);

    assert!(matches!(
        pen.book.append(&[Draft::new(day(9), blend("Mix 3", &[(season.first, None, None)]))], &[], pen.now),
        Err(LedgerError::WrongKind { .. })
    ));
}

#[test]
fn count_settles_what_is_left_from_its_day_on() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    pen.about(6, season.second, put(season.batch, 900_000));
    assert!(pen.batch(season.batch).overdrawn());
    let counted = pen.about(10, season.batch, count(Some(250_000), None));
    let view = pen.batch(season.batch);
    assert_eq!((view.left_g, view.overdrawn()), (Some(250_000), false));
    assert_eq!(view.left_ml, Some(1_500_000 - 2 * 340_000), "the volume was not counted");
    pen.about(12, season.second, put(season.batch, 30_000));
    assert_eq!(pen.batch(season.batch).left_g, Some(220_000));
    pen.about(8, season.first, put(season.batch, 70_000));
    assert_eq!(pen.batch(season.batch).left_g, Some(220_000), "written late, for a day before the count");
    consistent(pen.book);

    // On the day itself only what is known to come after the count goes off.
    let at = |minute| When { minute, ..day(10) };
    for (minute, left) in [(Some(480), 220_000), (None, 220_000), (Some(541), 219_000)] {
        pen.write(Draft::new(at(minute), put(season.batch, 1_000)).about(season.second));
        assert_eq!(pen.batch(season.batch).left_g, Some(left), "{minute:?}");
    }
    pen.correct(counted, Replacement::minute(None));
    assert_eq!(
        pen.batch(season.batch).left_g,
        Some(220_000),
        "a count without a minute stands for the evening"
    );
    pen.correct(counted, Replacement::date(day(7).date));
    assert_eq!(pen.batch(season.batch).left_g, Some(250_000 - 30_000 - 70_000 - 3_000));
    let later = pen.about(11, season.batch, count(Some(5_000), Some(20_000)));
    let view = pen.batch(season.batch);
    assert_eq!((view.left_g, view.left_ml), (Some(-25_000), Some(20_000 - 340_000)));
    assert_eq!((view.recounts.len(), view.recounts[1].entry), (2, later));
    consistent(pen.book);
    pen.withdraw(later);
    pen.withdraw(counted);
    assert_eq!(pen.batch(season.batch).left_g, Some(400_000 - 1_103_000));
    consistent(pen.book);

    // A load that nobody weighed.
    let unweighed = pen.nothing(1, LoadTakenIn { wet_g: None, ..load("Load 2", 1) });
    pen.write(Draft::new(day(5), PutDown { wet_g: None, ..put(unweighed, 1) }).about(season.first));
    assert_eq!((pen.batch(unweighed).left_g, pen.batch(unweighed).unweighed), (None, 1));
    pen.about(6, unweighed, count(Some(9_000), None));
    assert_eq!((pen.batch(unweighed).left_g, pen.batch(unweighed).unweighed), (Some(9_000), 0));
    consistent(pen.book);
}

#[test]
fn lifted_layer_is_a_batch_and_leaves_the_rest_lying() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let lies = |pen: &Pen<'_>| pen.place(season.first).layers[0].lies_bp;
    assert_eq!(lies(&pen), 10_000);
    let first = pen.about(60, season.first, lift(season.putting, 4_000));
    let view = pen.batch(first);
    assert_eq!((view.origin, view.left_g, view.left_ml), (Origin::Layer, Some(32_000), Some(100_000)));
    assert_eq!(
        (view.material.as_str(), view.model_class.clone()),
        ("hardwood sawdust", Some(label("hardwood")))
    );
    assert_eq!((view.layer, view.lifted_from), (Some(season.putting), Some(season.first)));
    assert_eq!((view.share_bp, view.loads.as_slice()), (Some(4_000), [season.batch].as_slice()));
    assert_eq!(lies(&pen), 6_000);
    let second = pen.about(70, season.first, lift(season.putting, 5_000));
    assert_eq!(lies(&pen), 1_000);
    assert_eq!(pen.flags(second), []);

    // Entered late, for a day between: the sum goes over the whole with the last day, not with the last entry.
    let third = pen.about(65, season.first, lift(season.putting, 3_000));
    assert_eq!(lies(&pen), 0);
    assert_eq!((pen.flags(first), pen.flags(third)), (vec![], vec![]));
    assert_eq!(pen.flags(second), [Flag::LiftedTooMuch]);
    assert_eq!(pen.batch(second).flagged[0].flags, [Flag::LiftedTooMuch], "the batch says so as well");
    assert_eq!(pen.batch(second).left_g, Some(40_000), "and is there all the same");
    assert_eq!(pen.place(season.first).lifted.len(), 3);
    consistent(pen.book);

    // Putting it down elsewhere, and from there lifting it again.
    let put_again = pen.about(61, season.second, put(first, 32_000));
    let lifted_again = pen.about(90, season.second, lift(put_again, 10_000));
    assert_eq!(pen.batch(first).left_g, Some(0));
    assert_eq!(pen.batch(lifted_again).material.as_str(), "hardwood sawdust");
    assert_eq!(pen.batch(lifted_again).loads, [season.batch]);
    let withdrawal = pen.withdraw(first);
    for id in [put_again, lifted_again] {
        assert!(has(pen.book, id, Flag::RestsOnWithdrawn));
    }
    assert_eq!(
        (pen.flags(second), lies(&pen)),
        (vec![], 2_000),
        "without the first lifting there was enough"
    );
    assert_eq!(pen.batch(second).flagged, []);
    assert_eq!(pen.place(season.second).layers, []);
    consistent(pen.book);
    pen.withdraw(withdrawal);
    assert_eq!(pen.flags(second), [Flag::LiftedTooMuch]);

    // It was another layer; then what lay there was never put down.
    let other = pen.about(3, season.first, put(season.batch, 50_000));
    let moved = pen.correct(second, Replacement::field(Kind::LayerLifted, "layer", &other).unwrap());
    assert_eq!((lies(&pen), pen.place(season.first).layers[1].lies_bp), (3_000, 5_000));
    assert_eq!(pen.flags(second), [Flag::Corrected]);
    consistent(pen.book);
    pen.withdraw(moved);
    assert_eq!(pen.flags(second), [Flag::LiftedTooMuch]);
    pen.withdraw(season.putting);
    for id in [first, second, third, put_again, lifted_again] {
        assert!(has(pen.book, id, Flag::RestsOnWithdrawn));
    }
    assert_eq!(pen.place(season.first).lifted, []);
    consistent(pen.book);
}

#[test]
fn what_is_known_of_a_load_goes_with_what_is_made_of_it() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let clean = pen.nothing(1, LoadTakenIn { diseased: Answer::No, ..load("Clean", 100_000) });
    let only_clean = pen.nothing(2, blend("Of one", &[(clean, Some(1_000), None)]));
    let both =
        pen.nothing(2, blend("Of both", &[(only_clean, Some(500), None), (season.batch, Some(1), None)]));
    let laid = pen.about(3, season.second, put(both, 400));
    let lifted = pen.about(40, season.second, lift(laid, 5_000));
    let answers = |pen: &Pen<'_>, id| (pen.batch(id).diseased, pen.batch(id).salty);
    assert_eq!(answers(&pen, only_clean), (Answer::No, Answer::No));
    assert_eq!(answers(&pen, lifted), (Answer::Unknown, Answer::No));
    assert_eq!(pen.batch(lifted).material.as_str(), "stable bedding");
    let salty = Replacement::field(Kind::LoadTakenIn, "salty", &Answer::Yes).unwrap();
    pen.correct(clean, salty);
    for id in [clean, only_clean, both, lifted] {
        assert_eq!(pen.batch(id).salty, Answer::Yes);
    }
    consistent(pen.book);

    // A blend made of itself, by way of a correction: told, and nothing goes round in circles.
    let parts = vec![Part { batch: lifted, wet_g: Some(1), volume_ml: None }];
    pen.correct(only_clean, Replacement::field(Kind::BatchBlended, "parts", &parts).unwrap());
    assert_eq!(pen.batch(only_clean).loads, [season.batch]);
    assert_eq!(pen.batch(lifted).uses[0].entry, only_clean, "a name within a correction is a name");
    assert_eq!(pen.flags(only_clean), [Flag::Corrected, Flag::Early]);
    consistent(pen.book);
    pen.withdraw(both);
    assert!(
        has(pen.book, lifted, Flag::RestsOnWithdrawn) && has(pen.book, only_clean, Flag::RestsOnWithdrawn)
    );
    consistent(pen.book);
}

#[test]
fn tests_of_a_batch_hold_from_their_day_on() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let test = |moisture_bp, sour| BatchTested { moisture_bp, sour, ..BatchTested::default() };
    pen.about(20, season.batch, test(Some(6_000), Some(Answer::No)));
    pen.about(30, season.batch, test(None, Some(Answer::Yes)));
    let early = pen.about(10, season.batch, test(Some(5_000), None));
    let view = pen.batch(season.batch);
    let moisture = |on: i32| view.moisture_bp_on(day(on).date);
    assert_eq!([9, 10, 19, 20, 40].map(moisture), [4_000, 5_000, 5_000, 6_000, 6_000].map(Some));
    assert_eq!((view.sour, view.tests[0].entry), (Some(Answer::Yes), early));
    assert_eq!(view.carbon_nitrogen_x100_on(day(50).date), Some(40_000));
    consistent(pen.book);
    let wrong = Draft::new(day(5), test(None, None));
    for draft in [wrong.clone(), wrong.clone().about(season.first), wrong.about(season.putting)] {
        assert!(pen.book.append(&[draft], &[], pen.now).is_err());
    }
}

#[test]
fn working_the_soil_digs_in_what_lay_there_before() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    pen.about(2, season.first, worked(100));
    assert_eq!(
        pen.place(season.first).layers[0].dug_in,
        None,
        "work on the day itself comes before the layer"
    );
    pen.about(50, season.first, worked(80));
    let last = pen.about(30, season.first, worked(120));
    assert_eq!(pen.place(season.first).layers[0].dug_in, Some(day(50).date));
    assert_eq!(pen.place(season.first).worked[1].entry, last);
    let walk = pen.nothing(0, path("Path 1"));
    let dug = pen.about(40, walk, worked(150));
    assert_eq!(pen.flags(dug), [Flag::NothingGrows]);
    assert_eq!(pen.place(walk).worked.len(), 1, "kept and counted");
    let kind = Replacement::field(Kind::PlaceOutlined, "place_kind", &PlaceKind::Bed).unwrap();
    let correction = pen.correct(walk, kind);
    assert_eq!((pen.flags(dug), pen.place(walk).flagged.len()), (vec![], 1));
    pen.withdraw(correction);
    assert_eq!(pen.place(walk).flagged[0].flags, [Flag::NothingGrows]);
    consistent(pen.book);
}

#[test]
fn entries_for_a_day_before_what_they_name_are_flagged_and_counted() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let planted = pen.about(30, season.first, crop("cabbage"));
    let ended = pen.about(20, season.first, CropEnded { crop: planted, fate: Fate::Mown, yield_g: Some(5) });
    let early = pen.about(0, season.second, put(season.batch, 1_000));
    let lifted = pen.about(1, season.first, lift(season.putting, 100));
    let counted = pen.about(0, season.batch, count(Some(350_000), None));
    let order = pen.about(9, season.first, task());
    let closed = pen.nothing(8, done(order, None));
    for id in [ended, early, lifted, counted, closed] {
        assert_eq!(pen.flags(id), [Flag::Early], "{id}");
    }
    let place = pen.place(season.first);
    assert_eq!((place.crops[0].ended, place.crops[0].yield_g), (Some(day(20).date), Some(5)));
    assert_eq!(place.layers[0].lies_bp, 9_900);
    assert_eq!(pen.batch(season.batch).left_g, Some(250_000));
    assert!(pen.book.task(order).unwrap().unwrap().closed.is_some());
    consistent(pen.book);
    pen.correct(planted, Replacement::date(day(10).date));
    pen.correct(season.batch, Replacement::date(day(0).date));
    pen.correct(season.putting, Replacement::date(day(0).date));
    pen.correct(order, Replacement::date(day(7).date));
    for id in [ended, early, lifted, counted, closed] {
        assert_eq!(pen.flags(id), [], "{id}");
    }
    assert!(pen.batch(lifted).flagged.is_empty());
    consistent(pen.book);
    // Notes and tasks may be about what is still to come.
    let ahead = pen.about(-5, season.batch, task());
    assert_eq!(pen.flags(ahead), []);
}

#[test]
fn entries_that_name_something_of_another_place_change_nothing_there() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let planted = pen.about(3, season.first, crop("cabbage"));
    let ended = pen.about(90, season.second, CropEnded { crop: planted, fate: Fate::Mown, yield_g: None });
    let lifted = pen.about(91, season.second, lift(season.putting, 8_000));
    let more = pen.about(92, season.first, lift(season.putting, 8_000));
    let probed = pen.about(
        93,
        season.second,
        DepthProbed { layer: Some(season.putting), depths_mm: vec![40, 50], ..DepthProbed::default() },
    );
    for id in [ended, lifted, probed] {
        assert_eq!(pen.flags(id), [Flag::Elsewhere], "{id}");
        assert!(pen.place(season.second).flagged.iter().any(|one| one.entry == id));
    }
    assert_eq!(pen.flags(more), []);
    let first = pen.place(season.first);
    assert_eq!((first.crops[0].ended, first.layers[0].lies_bp), (None, 2_000));
    consistent(pen.book);
    pen.correct(lifted, Replacement::subject(season.first));
    pen.correct(ended, Replacement::subject(season.first));
    assert_eq!((pen.flags(lifted), pen.flags(more)), (vec![Flag::Corrected], vec![Flag::LiftedTooMuch]));
    let first = pen.place(season.first);
    assert_eq!((first.crops[0].ended, first.layers[0].lies_bp), (Some(day(90).date), 0));
    consistent(pen.book);
}

#[test]
fn task_is_closed_once_and_opens_again_with_what_closed_it() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let order = pen.about(5, season.first, TaskSet { to: Some(season.person), ..task() });
    let open = |pen: &Pen<'_>| pen.book.task(order).unwrap().unwrap().open();
    assert!(open(&pen));
    let read = pen.about(8, season.first, feed(1_000));
    let second = pen.nothing(9, done(order, None));
    assert_eq!(pen.flags(second), []);
    let first = pen.nothing(8, done(order, Some(read)));
    assert_eq!((pen.flags(first), pen.flags(second)), (vec![], vec![Flag::ClosedTwice]));
    let view = pen.book.task(order).unwrap().unwrap();
    assert_eq!(view.closed.as_ref().map(|closed| closed.entry), Some(first));
    assert_eq!(view.flagged[0].entry, second);
    consistent(pen.book);
    pen.withdraw(read);
    assert_eq!(pen.flags(first), [Flag::RestsOnWithdrawn]);
    assert_eq!(
        pen.book.task(order).unwrap().unwrap().closed.as_ref().map(|closed| closed.entry),
        Some(second)
    );
    assert_eq!(pen.flags(second), []);
    pen.withdraw(second);
    assert!(open(&pen));
    consistent(pen.book);
    let other = pen.nothing(5, task());
    pen.correct(first, Replacement::field(Kind::TaskClosed, "task", &other).unwrap());
    pen.correct(first, Replacement::field(Kind::TaskClosed, "entry", &None::<EntryId>).unwrap());
    assert!(open(&pen) && !pen.book.task(other).unwrap().unwrap().open());
    consistent(pen.book);
    pen.withdraw(season.first);
    assert!(!open(&pen), "nothing to look at");
    assert_eq!(pen.book.tasks().unwrap().len(), 2);
    consistent(pen.book);
}

#[test]
fn weather_belongs_to_the_holding_or_to_a_place_with_its_own_gauge() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let read = |span, rain| WeatherRead {
        mean_centi_c: Some(1_250),
        rain_ml_m2: Some(rain),
        ..WeatherRead::of(span)
    };
    let holding = pen.book.holding_view().unwrap().unwrap();
    assert_eq!((holding.name.as_str(), holding.latitude_centidegree), ("Invented holding", Some(4_800)));
    // Another book's opening that somebody copied in, under an id that comes first.
    let Body::HoldingOpened(opened) = pen.book.entry(holding.id).unwrap().unwrap().read() else { panic!() };
    let stranger = (2..=99).map(key).find(|key| key.device() < holding.id.device).unwrap();
    pen.nothing(0, DeviceEnrolled { public_key: stranger.public(), label: label("Phone") });
    let mut entry = pen.book.entry(holding.id).unwrap().unwrap();
    entry.id = EntryId { device: stranger.device(), seq: 1 };
    entry.body = Body::from(HoldingOpened { nonce: Nonce([8; 16]), ..opened }).write().unwrap().2;
    let head = Head::sign(&stranger, &pen.book.holding(), 1, Hash::of(&entry.encode()));
    pen.book.receive(&[entry.encode()], &[head], &[], pen.now).unwrap();
    assert_eq!(pen.book.holding_view().unwrap().unwrap().id, holding.id);
    pen.about(12, holding.id, read(WeatherSpan::Day, 3_000));
    pen.about(11, holding.id, read(WeatherSpan::Day, 5_000));
    pen.about(1, holding.id, read(WeatherSpan::UsualMonth, 45_000));
    let own = pen.about(11, season.first, read(WeatherSpan::Day, 9_000));
    let holding = pen.book.holding_view().unwrap().unwrap();
    let rain: Vec<_> = holding.days.iter().map(|read| read.body.rain_ml_m2).collect();
    assert_eq!((rain, holding.usual.len()), (vec![Some(5_000), Some(3_000)], 1));
    assert_eq!(pen.place(season.first).weather[0].entry, own);
    pen.correct(own, Replacement::subject(holding.id));
    assert_eq!(pen.place(season.first).weather, []);
    assert_eq!(pen.book.holding_view().unwrap().unwrap().days.len(), 3);
    pen.correct(holding.id, Replacement::field(Kind::HoldingOpened, "name", &label("Other name")).unwrap());
    assert_eq!(pen.book.holding_view().unwrap().unwrap().name.as_str(), "Other name");
    consistent(pen.book);
    let wrong = Draft::new(day(5), read(WeatherSpan::Day, 1));
    for draft in [wrong.clone(), wrong.about(season.batch)] {
        assert!(pen.book.append(&[draft], &[], pen.now).is_err());
    }
}

#[test]
fn size_holds_from_the_day_it_was_measured() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let anew = |area_mm2| PlaceReoutlined {
        area_sd_mm2: Some(area_mm2 / 20),
        ..PlaceReoutlined::of(Measured::Walked, area_mm2)
    };
    pen.about(40, season.first, put(season.batch, 1_000));
    let wider = pen.about(30, season.first, anew(20_000_000));
    pen.about(60, season.first, anew(24_000_000));
    let view = pen.place(season.first);
    assert_eq!((view.area_mm2, view.rooting_depth_mm), (24_000_000, None));
    assert_eq!(view.area_sd_mm2, Some(1_200_000));
    let on = |view: &PlaceView, on: i32| view.measure_on(day(on).date).unwrap().area_mm2;
    assert_eq!([-9, 29, 30, 59, 60].map(|at| on(&view, at)), [12, 12, 20, 20, 24].map(|m2| m2 * 1_000_000));
    let areas: Vec<u64> = view.layers.iter().map(|layer| layer.area_mm2).collect();
    assert_eq!(areas, [12_000_000, 20_000_000]);
    consistent(pen.book);
    pen.withdraw(wider);
    assert_eq!(pen.place(season.first).layers[1].area_mm2, 12_000_000);
    consistent(pen.book);
}

#[test]
fn withdrawn_batch_of_each_kind_is_told_by_its_view() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let mut pen = Pen::new(&mut season.book);
    let mixed = pen.nothing(3, blend("Mix", &[(season.batch, Some(1), None)]));
    let lifted = pen.about(4, season.first, lift(season.putting, 10));
    let text = Text::new([9; 16], "smells");
    for id in [mixed, lifted] {
        let note = pen.about(5, id, NoteMade { text: text.hash() });
        assert!(!pen.batch(id).withdrawn());
        pen.withdraw(id);
        assert!(pen.batch(id).withdrawn());
        assert!(has(pen.book, note, Flag::RestsOnWithdrawn));
    }
    consistent(pen.book);
}

#[test]
fn place_takes_many_more_entries_than_any_has() {
    let folder = folder();
    let mut season = season(&folder.path().join("book"));
    let drafts: Vec<Draft> = (0..16_000)
        .map(|number| Draft::new(day(number % 300), put(season.batch, 1)).about(season.first))
        .collect();
    season.book.append(&drafts, &[], SPRING_MS + 10_000).unwrap();
    let place = season.book.place(season.first).unwrap().unwrap();
    assert_eq!((place.layers.len(), place.wet_g), (16_001, 116_000));
}
