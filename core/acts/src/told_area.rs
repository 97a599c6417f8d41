//! A measured area in sentences, and why something that was drawn, walked or taped gives none.

use kerfbook_ledger::exchange::{ExchangeError, Wrong};
use kerfbook_science::geometry::advice::{Advice, TapeBecause};
use kerfbook_science::geometry::frame::PositionError;
use kerfbook_science::geometry::ring::RingError;
use kerfbook_science::geometry::tape::TapeError;
use kerfbook_science::geometry::tape::traverse::{Closure, TraverseError};
use kerfbook_science::geometry::walk::WalkError;
use kerfbook_science::units::{Area, Length, Share};
use kerfbook_words::{Message, Words};

use crate::area::{AreaError, Measured, Remark};

/// The area with its range, where the way of measuring tells one.
pub fn give_or_take(measured: &Measured, words: &Words) -> String {
    give_or_take_of(measured.area, measured.half_width_95, words)
}

/// An area with half the width of its range, where that is known.
pub fn give_or_take_of(area: Area, half_width_95: Option<Area>, words: &Words) -> String {
    let size = words.area(area);
    match half_width_95 {
        Some(half) => words.say("area-give-or-take", &[("area", size), ("half", words.area(half))]),
        None => size,
    }
}

/// The id of a remark's text.
pub fn id(remark: &Remark) -> &'static str {
    match remark {
        Remark::Advice(advice) => match advice {
            Advice::Fine => "area-fine",
            Advice::Tape(TapeBecause::Small) => "area-tape-small",
            Advice::Tape(TapeBecause::Narrow) => "area-tape-narrow",
            Advice::Tape(TapeBecause::LittleSky) => "area-tape-little-sky",
            Advice::SecondLap => "area-second-lap",
            Advice::FinishLoop { .. } => "area-finish-loop",
            Advice::LapsDisagree { .. } => "area-laps-disagree",
            Advice::Crosses { .. } => "area-crosses",
            Advice::TooFast => "area-too-fast",
        },
        Remark::Unclosed => "area-unclosed",
        Remark::Touches => "area-touches",
        Remark::Unchecked => "area-unchecked",
        Remark::Misfit { .. } => "area-misfit",
        Remark::Closed { closure, .. } => match closure {
            Closure::Good => "area-closure-good",
            Closure::Fair => "area-closure-fair",
            Closure::WalkAgain => "area-closure-again",
        },
    }
}

/// A remark in words.
pub fn sentence(remark: &Remark, words: &Words) -> String {
    let arguments = match remark {
        Remark::Advice(Advice::FinishLoop { gap }) => vec![("gap", words.length(*gap))],
        Remark::Advice(Advice::LapsDisagree { spread }) => vec![("spread", words.area(*spread))],
        Remark::Advice(Advice::Crosses { signed, covered }) => {
            vec![("signed", words.area(*signed)), ("covered", words.area(*covered))]
        }
        Remark::Misfit { by } => vec![("by", words.length(Length::from_m(by.m().abs())))],
        Remark::Closed { by, precision, .. } => {
            vec![("by", words.depth(*by)), ("precision", words.percent(Share::from_fraction(*precision)))]
        }
        _ => Vec::new(),
    };
    words.say(id(remark), &arguments)
}

/// What is wrong with what was drawn, walked or taped, and on which line; 0 where none is known.
pub fn wrong(error: &AreaError) -> (usize, Message) {
    match error {
        AreaError::File(ExchangeError { line, wrong }) => (*line, of_file(wrong)),
        AreaError::Position { line, outline, point, error } => {
            let at = |message: Message| message.text("outline", outline).text("point", point);
            let what = match error {
                PositionError::NotFinite => at(Message::new("area-position-no-number")),
                PositionError::Latitude { latitude } => {
                    at(Message::new("area-position-latitude")).text("value", latitude)
                }
                PositionError::Swapped { latitude, .. } => {
                    at(Message::new("area-position-swapped")).text("value", latitude)
                }
                PositionError::Longitude { longitude } => {
                    at(Message::new("area-position-longitude")).text("value", longitude)
                }
            };
            (*line, what)
        }
        AreaError::Outline { line, outline, error } => (*line, of_ring(*error).text("outline", outline)),
        AreaError::Walk(WalkError::NoFix { left_out }) => {
            (0, Message::new("area-no-fix").text("count", left_out))
        }
        AreaError::Walk(WalkError::Ring(error)) | AreaError::Traverse(TraverseError::Ring(error)) => {
            (0, of_ring(*error).text("outline", 1))
        }
        AreaError::Tape(error) | AreaError::Traverse(TraverseError::Tape(error)) => (0, of_tape(error)),
    }
}

/// Why a file does not read.
pub fn of_file(wrong: &Wrong) -> Message {
    match wrong {
        Wrong::UnknownFormat { found } => Message::new("area-unknown-format").text("found", found),
        Wrong::TooLarge { most_mb } => Message::new("area-too-large").text("most", most_mb),
        Wrong::Broken { detail } => Message::new("area-broken").text("detail", detail),
        Wrong::Doctype => Message::new("area-doctype"),
        Wrong::TooDeep { most } => Message::new("area-too-deep").text("most", most),
        Wrong::TooManyPlaces { most } => Message::new("area-too-many-places").text("most", most),
        Wrong::TooManyPoints { most } => Message::new("area-too-many-points").text("most", most),
        Wrong::NotANumber { text } => Message::new("area-not-a-number").text("value", text),
        Wrong::DecimalComma { text } => Message::new("area-decimal-comma").text("value", text),
        Wrong::NoPlace => Message::new("area-no-place"),
        Wrong::OtherSystem { name } => Message::new("area-other-system").text("name", name),
        Wrong::Columns { found, known } => {
            Message::new("area-columns").text("found", found).text("known", known)
        }
        Wrong::MixedUnits => Message::new("area-mixed-units"),
        Wrong::Fields { found, expected } => {
            Message::new("area-fields").text("found", found).text("expected", expected)
        }
        Wrong::UnknownSide { name } => Message::new("area-unknown-side").text("name", name),
    }
}

fn of_ring(error: RingError) -> Message {
    match error {
        RingError::NotFinite { index } => Message::new("area-position-no-number").text("point", index),
        RingError::TooFewPoints { found } => Message::new("area-too-few-points").text("found", found),
        RingError::NoArea => Message::new("area-none"),
    }
}

fn of_tape(error: &TapeError) -> Message {
    match error {
        TapeError::Length { value, .. } => Message::new("area-length").text("value", value),
        TapeError::NoTriangle { a, b, c } => {
            let metres = |length: &f64| format!("{length:.2}");
            Message::new("area-no-triangle").text("a", metres(a)).text("b", metres(b)).text("c", metres(c))
        }
        TapeError::TooFewOffsets { found } => Message::new("area-too-few-offsets").text("found", found),
        TapeError::OutOfOrder { index } => Message::new("area-out-of-order").text("index", index),
        TapeError::TooFewCourses { found } => Message::new("area-too-few-courses").text("found", found),
        TapeError::Bearing => Message::new("area-bearing"),
    }
}
