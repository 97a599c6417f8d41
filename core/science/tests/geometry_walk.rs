//! Walks: recorded ones within three of their standard deviations, and the stated half-width over many simulated ones.
#![expect(clippy::unwrap_used, reason = "a broken fixture must stop the test")]
#![expect(clippy::disallowed_methods, reason = "a shape to walk round needs no bits")]

use std::f64::consts::PI;
use std::fs;
use std::path::Path;

use kerfbook_science::geometry::advice::{Advice, TapeBecause};
use kerfbook_science::geometry::frame::{Frame, Point, Position};
use kerfbook_science::geometry::walk::{Fix, Manner, Outline, Walk, WalkError};
use kerfbook_science::nitrogen::{normal_quantile, uniform};
use kerfbook_science::units::Length;
use serde_json::Value;

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/science/geometry")
}

/// The text between two others, and what follows.
fn between<'a>(text: &'a str, before: &str, after: &str) -> Option<(&'a str, &'a str)> {
    let start = text.find(before)? + before.len();
    let end = start + text[start..].find(after)?;
    Some((&text[start..end], &text[end..]))
}

/// Fixes of a recorded walk, segment by segment.
fn recorded(file: &str) -> Vec<Vec<Fix>> {
    let text = fs::read_to_string(folder().join(file)).unwrap();
    let mut rest = text.as_str();
    let mut segments = Vec::new();
    while let Some((mut segment, after)) = between(rest, "<trkseg>", "</trkseg>") {
        rest = after;
        let mut fixes = Vec::new();
        while let Some((point, after)) = between(segment, "<trkpt", "</trkpt>") {
            segment = after;
            let figure = |before, after| between(point, before, after).unwrap().0;
            let latitude = figure("lat=\"", "\"").parse().unwrap();
            let longitude = figure("lon=\"", "\"").parse().unwrap();
            let time = chrono::DateTime::parse_from_rfc3339(figure("<time>", "</time>")).unwrap();
            fixes.push(Fix {
                position: Position::new(latitude, longitude).unwrap(),
                time_ms: time.timestamp_millis(),
                accuracy_m: figure("<acc:hacc>", "</acc:hacc>").parse().unwrap(),
            });
        }
        segments.push(fixes);
    }
    segments
}

fn walked(segments: &[Vec<Fix>], manner: Manner) -> Result<Outline, WalkError> {
    let mut walk = Walk::new(manner);
    for segment in segments {
        walk.interrupted();
        for fix in segment {
            walk.take(*fix);
        }
    }
    walk.finish()
}

#[test]
fn recorded_walks_are_within_three_standard_deviations() {
    for id in ["W1", "W2", "W3", "W4"] {
        let case: Value =
            serde_json::from_str(&fs::read_to_string(folder().join(format!("walk-{id}.json"))).unwrap())
                .unwrap();
        let input = &case["input"];
        let segments = recorded(input["file"].as_str().unwrap());
        let manner = Manner { under_trees: input["under_trees"].as_bool().unwrap(), ..Manner::default() };
        let outline = walked(&segments, manner).unwrap();
        let reading = &outline.reading;
        let (area, expected) = (reading.area.m2(), case["expected"]["area_m2"].as_f64().unwrap());
        let allowed = case["tolerance"]["absolute"].as_f64().unwrap();
        assert!((area - expected).abs() <= allowed, "{id}: {area} m², true {expected}");
        // The half-width stated is about what is allowed, in standard deviations.
        let ratio = reading.half_width_95.m2() / 1.96 / (allowed / 3.0);
        assert!((0.6..1.4).contains(&ratio), "{id}: standard deviation {ratio} of the predicted one");
        assert_eq!(reading.laps.len(), usize::try_from(input["laps"].as_u64().unwrap()).unwrap(), "{id}");
        assert!(u64::from(reading.left_out.all()) >= input["spikes"].as_u64().unwrap(), "{id}");
        assert!(reading.left_out.all() <= 8, "{id}: {:?}", reading.left_out);
        let perimeter = case["expected"]["perimeter_m"].as_f64().unwrap();
        assert!((0.9..1.2).contains(&(reading.perimeter.m() / perimeter)), "{id}");
        assert!(reading.closed, "{id}");
    }
}

/// One shape to walk round: its corners in metres.
fn shapes() -> Vec<(&'static str, Vec<[f64; 2]>)> {
    let rectangle = |width: f64, height: f64| vec![[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
    let disc =
        (0..48).map(|k| 2.0 * PI * f64::from(k) / 48.0).map(|angle| [40.0 * angle.cos(), 40.0 * angle.sin()]);
    vec![
        ("square of 20 m", rectangle(20.0, 20.0)),
        ("square of 50 m", rectangle(50.0, 50.0)),
        ("square of 100 m", rectangle(100.0, 100.0)),
        ("rectangle of 160 by 40 m", rectangle(160.0, 40.0)),
        (
            "L of 100 m",
            vec![[0.0, 0.0], [100.0, 0.0], [100.0, 40.0], [40.0, 40.0], [40.0, 100.0], [0.0, 100.0]],
        ),
        ("disc of 80 m", disc.collect()),
    ]
}

/// Noise of a receiver on each axis: what lasts, and what is new with every fix.
struct Noise {
    seed: u64,
    drawn: u64,
    state: [f64; 2],
    sd: f64,
    decay: f64,
}

impl Noise {
    fn new(seed: u64, drms: f64, correlation_s: f64) -> Self {
        let sd = (drms * drms / 2.0 - 0.09).sqrt();
        let mut noise = Self { seed, drawn: 0, state: [0.0; 2], sd, decay: (-1.0 / correlation_s).exp() };
        noise.state = [sd * noise.normal(), sd * noise.normal()];
        noise
    }

    fn normal(&mut self) -> f64 {
        self.drawn += 1;
        normal_quantile(uniform(self.seed, 0, self.drawn))
    }

    fn next(&mut self) -> [f64; 2] {
        let new = self.sd * (1.0 - self.decay * self.decay).sqrt();
        self.state = self.state.map(|axis| axis * self.decay);
        self.state = [self.state[0] + new * self.normal(), self.state[1] + new * self.normal()];
        [self.state[0] + 0.3 * self.normal(), self.state[1] + 0.3 * self.normal()]
    }
}

/// A walk round a shape at 1.2 m/s, one fix a second, one lap.
fn simulated(corners: &[[f64; 2]], noise: &mut Noise, drms: f64) -> Vec<Fix> {
    let frame = Frame::about(Position::new(44.0, -123.0).unwrap());
    let ring: Vec<Point> = corners.iter().chain(corners.first()).map(|[x, y]| Point::new(*x, *y)).collect();
    let length: f64 = ring.windows(2).map(|edge| edge[0].distance(edge[1])).sum();
    let mut fixes = Vec::new();
    let mut seconds = 0_i64;
    loop {
        let mut along = (1.2 * f64::from(i32::try_from(seconds).unwrap())).min(length);
        let done = along >= length;
        let mut at = ring[0];
        for edge in ring.windows(2) {
            let edge_m = edge[0].distance(edge[1]);
            at = edge[0] + (edge[1] - edge[0]) * (along / edge_m).min(1.0);
            if along <= edge_m {
                break;
            }
            along -= edge_m;
        }
        let [east, north] = noise.next();
        // Receivers report their accuracy loosely.
        let accuracy_m = drms / 0.94 * (1.0 + 0.15 * noise.normal()).clamp(0.6, 1.4);
        fixes.push(Fix {
            position: frame.position(at + Point::new(east, north)),
            time_ms: seconds * 1000,
            accuracy_m,
        });
        if done {
            return fixes;
        }
        seconds += 1;
    }
}

fn area_of(corners: &[[f64; 2]]) -> f64 {
    let ring: Vec<Point> = corners.iter().map(|[x, y]| Point::new(*x, *y)).collect();
    kerfbook_science::geometry::area::planar_ring(&ring).signed_m2.abs()
}

#[test]
fn half_widths_cover_what_they_say() {
    const WALKS: u64 = 500;
    let mut wrong = Vec::new();
    for (kind, (name, corners)) in shapes().into_iter().enumerate() {
        let truth = area_of(&corners);
        let (mut covered, mut sum, mut squares) = (0.0, 0.0, 0.0);
        for walk in 0..WALKS {
            let mut noise = Noise::new(1 + walk + 1000 * kind as u64, 3.0, 60.0);
            let fixes = simulated(&corners, &mut noise, 3.0);
            let reading = walked(&[fixes], Manner::default()).unwrap().reading;
            let off = reading.area.m2() - truth;
            covered += f64::from(u8::from(off.abs() <= reading.half_width_95.m2()));
            sum += off;
            squares += off * off;
        }
        let number = 500.0;
        let (share, bias) = (100.0 * covered / number, 100.0 * sum / number / truth);
        let sd = 100.0 * (squares / number).sqrt() / truth;
        if !(92.0..=98.0).contains(&share) {
            wrong.push(format!("{name}: {share:.1} % covered, bias {bias:.2} %, error {sd:.2} %"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:?}");
}

fn fix(east: f64, north: f64, second: i64) -> Fix {
    let frame = Frame::about(Position::new(10.0, 179.9995).unwrap());
    Fix { position: frame.position(Point::new(east, north)), time_ms: second * 1000, accuracy_m: 3.0 }
}

/// A walk without noise round a rectangle, `laps` times, one fix a second at 1.25 m/s.
fn round(width: f64, height: f64, laps: usize) -> Vec<Fix> {
    let steps = |length: f64| (0..).map(|k| 1.25 * f64::from(k)).take_while(move |along| *along < length);
    let mut places: Vec<[f64; 2]> = Vec::new();
    for _ in 0..laps {
        places.extend(steps(width).map(|along| [along, 0.0]));
        places.extend(steps(height).map(|along| [width, along]));
        places.extend(steps(width).map(|along| [width - along, height]));
        places.extend(steps(height).map(|along| [0.0, height - along]));
    }
    places.push([0.0, 0.0]);
    places.into_iter().zip(0..).map(|([east, north], second)| fix(east, north, second)).collect()
}

#[test]
fn the_running_area_is_the_final_one_and_crosses_the_antimeridian() {
    let mut walk = Walk::new(Manner::default());
    for fix in round(100.0, 60.0, 1) {
        walk.take(fix);
    }
    let live = walk.reading();
    let outline = walk.finish().unwrap();
    let done = outline.reading;
    assert!((live.area.m2() - 6000.0).abs() < 0.02, "{}", live.area.m2());
    assert!((done.area.m2() - 6000.0).abs() < 0.02, "{}", done.area.m2());
    assert!((live.half_width_95.m2() - done.half_width_95.m2()).abs() < 0.1);
    assert!((done.perimeter.m() - 320.0).abs() < 0.01, "{}", done.perimeter.m());
    assert!((live.perimeter.m() - 320.0).abs() < 12.0, "{}", live.perimeter.m());
    assert_eq!(outline.corners.len(), 4);
    assert!(!outline.repaired);
}

#[test]
fn two_laps_are_two_laps() {
    let reading = walked(&[round(100.0, 60.0, 2)], Manner::default()).unwrap().reading;
    assert_eq!(reading.laps.len(), 2);
    assert!((reading.area.m2() - 6000.0).abs() < 1.0, "{}", reading.area.m2());
    let once = walked(&[round(100.0, 60.0, 1)], Manner::default()).unwrap().reading;
    // In one go they share their errors; twenty minutes apart they do not.
    assert!((reading.half_width_95 / once.half_width_95.m2()).m2() > 0.9);
    let mut later = round(100.0, 60.0, 1);
    for fix in &mut later {
        fix.time_ms += 1_500_000;
    }
    let apart = walked(&[round(100.0, 60.0, 1), later], Manner::default()).unwrap().reading;
    assert_eq!(apart.laps.len(), 2);
    let gain = apart.half_width_95.m2() / once.half_width_95.m2();
    assert!((gain - 0.5_f64.sqrt()).abs() < 0.02, "{gain}");
}

#[test]
fn the_way_back_beside_a_strip_is_no_new_lap() {
    // Begun in the middle of a long side: the other side passes close by, the other way.
    let mut fixes = round(200.0, 6.0, 1);
    fixes.pop();
    fixes.rotate_left(80);
    let first = fixes[0];
    fixes.push(first);
    for (fix, second) in fixes.iter_mut().zip(0..) {
        fix.time_ms = second * 1000;
    }
    let reading = walked(&[fixes], Manner::default()).unwrap().reading;
    assert_eq!(reading.laps.len(), 1);
    assert!((reading.area.m2() - 1200.0).abs() < 20.0, "{}", reading.area.m2());
    assert!(reading.advice.contains(&Advice::Tape(TapeBecause::Narrow)), "{:?}", reading.advice);
}

#[test]
fn fixes_that_cannot_be_are_left_out() {
    let mut fixes = round(100.0, 60.0, 1);
    let clean = walked(&[fixes.clone()], Manner::default()).unwrap().reading;
    fixes[0] = fix(40.0, 40.0, 0);
    fixes[30] = fix(400.0, -300.0, 30);
    fixes[90].accuracy_m = 60.0;
    fixes[91].accuracy_m = f64::NAN;
    fixes[92].time_ms = fixes[89].time_ms;
    let reading = walked(&[fixes], Manner::default()).unwrap().reading;
    assert_eq!(reading.left_out.inaccurate, 2);
    assert_eq!(reading.left_out.out_of_time, 1);
    assert_eq!(reading.left_out.spikes + reading.left_out.too_fast, 2);
    // Without the first fix the lap has a gap of one step, spread over half its height.
    assert!((reading.area.m2() - clean.area.m2()).abs() < 40.0, "{}", reading.area.m2());
}

#[test]
fn a_pause_is_one_corner() {
    let fixes = round(100.0, 60.0, 1);
    let mut rested = fixes[..40].to_vec();
    rested.extend((0..60).map(|k| {
        let drift = f64::from(i32::try_from(k % 7).unwrap()) * 0.2;
        Fix { time_ms: 40_000 + k * 1000, ..fix(50.0 + drift, drift - 0.6, 0) }
    }));
    rested.extend(fixes[40..].iter().map(|fix| Fix { time_ms: fix.time_ms + 60_000, ..*fix }));
    let (clean, paused) = (
        walked(&[fixes], Manner::default()).unwrap().reading,
        walked(&[rested], Manner::default()).unwrap().reading,
    );
    assert!(paused.corners < clean.corners, "{} {}", paused.corners, clean.corners);
    assert!((paused.area.m2() - clean.area.m2()).abs() < 20.0, "{}", paused.area.m2());
}

#[test]
fn an_open_walk_asks_to_be_finished() {
    let mut fixes = round(100.0, 60.0, 1);
    fixes.truncate(200);
    let mut walk = Walk::new(Manner::default());
    for fix in fixes {
        walk.take(fix);
    }
    let reading = walk.reading();
    assert!(!reading.closed);
    assert!(matches!(reading.advice[..], [Advice::FinishLoop { .. }]), "{:?}", reading.advice);
}

#[test]
fn the_edge_may_lie_beside_the_walked_line() {
    let manner = |outside| Manner { edge_outside: Length::from_m(outside), ..Manner::default() };
    let area = |outside| walked(&[round(100.0, 60.0, 1)], manner(outside)).unwrap().reading.area.m2();
    // Against the closed forms of a rounded and of a shrunk rectangle.
    assert!((area(1.0) - (6000.0 + 320.0 + PI)).abs() < 15.0, "{}", area(1.0));
    assert!((area(-1.0) - 98.0 * 58.0).abs() < 15.0, "{}", area(-1.0));
}

#[test]
fn a_figure_of_eight_is_shown_and_repaired() {
    let corners: [[f64; 2]; 5] = [[0.0, 0.0], [100.0, 100.0], [100.0, 0.0], [0.0, 100.0], [0.0, 0.0]];
    let mut fixes: Vec<Fix> = Vec::new();
    for edge in corners.windows(2) {
        let steps = if (edge[0][0] - edge[1][0]).abs() < 1.0 { 80 } else { 113 };
        for step in 0..steps {
            let share = f64::from(step) / f64::from(steps);
            let east = edge[0][0] + share * (edge[1][0] - edge[0][0]);
            let north = edge[0][1] + share * (edge[1][1] - edge[0][1]);
            fixes.push(fix(east, north, i64::try_from(fixes.len()).unwrap()));
        }
    }
    let outline = walked(&[fixes], Manner::default()).unwrap();
    assert!(outline.repaired);
    let crossing = outline.reading.advice.iter().find_map(|advice| match advice {
        Advice::Crosses { covered, .. } => Some(covered.m2()),
        _ => None,
    });
    assert!((crossing.unwrap() - 5000.0).abs() < 60.0, "{crossing:?}");
}

#[test]
fn small_places_are_taped() {
    let reading = walked(&[round(10.0, 12.0, 1)], Manner::default()).unwrap().reading;
    assert!(reading.advice.iter().any(|advice| matches!(advice, Advice::Tape(_))), "{:?}", reading.advice);
    let reading = walked(&[round(400.0, 400.0, 1)], Manner::default()).unwrap().reading;
    assert_eq!(reading.advice, [Advice::Fine]);
}

#[test]
fn nothing_walked_is_told() {
    assert_eq!(Walk::new(Manner::default()).finish().unwrap_err(), WalkError::NoFix { left_out: 0 });
    let standing: Vec<Fix> = (0..30).map(|second| fix(0.0, 0.0, second)).collect();
    assert!(matches!(walked(&[standing], Manner::default()).unwrap_err(), WalkError::Ring(_)));
}
