//! A GPX of 1,000,000 points, read and measured, as JSON: seconds of a processor where the system tells them, else by
//! the clock, and the file, so that a peer reads the same one.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark; a file that is none ends it")]
#![allow(clippy::print_stdout, clippy::disallowed_methods, reason = "it prints times, so it reads a clock")]

use std::fmt::Write as _;
use std::time::Instant;

use kerfbook_acts::area;
use kerfbook_bench::walk;
use kerfbook_ledger::exchange::{Drawn, read};
use kerfbook_science::geometry::walk::Manner;
use serde_json::json;

const POINTS: u32 = 1_000_000;
const ROUNDS: usize = 5;

/// A walk as a receiver writes it: seven decimals, a time, an accuracy in extensions.
fn file() -> String {
    let mut text =
        String::from("<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" creator=\"bench\"><trk><trkseg>\n");
    for fix in walk(POINTS) {
        let seconds = fix.time_ms / 1_000;
        let (day, rest) = (1 + seconds / 86_400, seconds % 86_400);
        let (hour, minute, second) = (rest / 3_600, rest / 60 % 60, rest % 60);
        let (latitude, longitude) = (fix.position.latitude(), fix.position.longitude());
        let _ = writeln!(
            text,
            "<trkpt lat=\"{latitude:.7}\" lon=\"{longitude:.7}\"><time>2026-04-{day:02}T{hour:02}:{minute:02}:{second:02}Z</time>\
             <extensions><hacc>{}</hacc></extensions></trkpt>",
            fix.accuracy_m
        );
    }
    text.push_str("</trkseg></trk></gpx>\n");
    text
}

/// Seconds that this process has run; on a busy machine the clock tells of the others as well.
fn ran() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/self/schedstat").ok()?;
    Some(told.split_ascii_whitespace().next()?.parse::<f64>().ok()? / 1e9)
}

fn best(mut act: impl FnMut()) -> f64 {
    let time = |act: &mut dyn FnMut()| {
        let (start, ran_before) = (Instant::now(), ran());
        act();
        match (ran_before, ran()) {
            (Some(before), Some(after)) => after - before,
            _ => start.elapsed().as_secs_f64(),
        }
    };
    (0..ROUNDS).map(|_| time(&mut act)).fold(f64::INFINITY, f64::min)
}

fn main() {
    let text = file();
    let path = std::env::temp_dir().join(format!("kerfbook-bench-{}.gpx", std::process::id()));
    std::fs::write(&path, &text).unwrap();
    let read = best(|| assert!(matches!(read(&text), Ok(Drawn::Places(places)) if places.len() == 1)));
    let measured = best(|| assert!(area::of_text(&text, Manner::default()).unwrap().area.m2() > 0.0));
    let told = json!({
        "GPX of 1000000 points, read": read,
        "GPX of 1000000 points, read and measured": measured,
        "file": path,
    });
    println!("{told}");
}
