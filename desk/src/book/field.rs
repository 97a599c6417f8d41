//! `--set FIELD=VALUE`: a field of an entry and what it should say, as a person types it.

use chrono::NaiveDate;
use kerfbook_ledger::kind::{
    Age, Answer, Appetite, Colour, ContainerKind, Cover, Fate, Handful, KnownBy, LaidBy, Measured,
    NitrogenForm, Outcome, Particle, Pieces, PlaceKind, Placed, Rain, RefusalReason, Rolled, Smell, Storage,
    Summers, TaskKind, Tool, Watering, Way, WeatherSpan, Winters, Wood,
};
use kerfbook_ledger::{Current, Date, EntryId, Field, Kind, Label, Replacement, Text, TextRef, Value};

use super::told::Teller;
use crate::fault::Message;

/// A field's new value, and the text to keep where it is one.
pub(super) struct Assigned {
    pub replacement: Replacement,
    pub text: Option<Text>,
}

/// Reads `FIELD=VALUE` for an entry; `salt` goes with a text.
pub(super) fn assign(
    assignment: &str,
    current: &Current,
    teller: &Teller<'_>,
    salt: [u8; 16],
) -> Result<Assigned, Message> {
    let (name, text) = assignment
        .split_once('=')
        .map(|(name, text)| (name.trim(), text.trim()))
        .ok_or_else(|| Message::new("book-no-equals").text("text", assignment))?;
    let cannot = |why: Message| {
        Message::new("error-field-value").text("field", name).text("value", text).message("why", why)
    };
    let plain = |replacement| Ok(Assigned { replacement, text: None });
    match name {
        "date" => plain(Replacement::date(day(text).ok_or_else(|| cannot(Message::new("book-why-date")))?)),
        "place" | "subject" => plain(Replacement::subject(
            entry(text, teller).ok_or_else(|| cannot(Message::new("book-why-entry")))?,
        )),
        "by" => {
            let by = entry(text, teller).ok_or_else(|| cannot(Message::new("book-why-entry")))?;
            plain(Replacement::by(Some(by)))
        }
        _ => {
            let kind = current.original.known_kind();
            let fields = kind.and_then(Kind::fields).unwrap_or_default();
            let Some((kind, (number, field))) =
                kind.zip(fields.iter().enumerate().find(|(_, field)| names(field, name)))
            else {
                let kind = kind.map_or_else(String::new, |kind| kind.name().to_owned());
                let known: Vec<&str> = ["date", "place"].iter().chain(fields).copied().collect();
                return Err(Message::new("error-no-such-field")
                    .text("kind", kind)
                    .text("field", name)
                    .text("fields", known.join(", ")));
            };
            let (value, text) = value(kind, field, name, text, teller, salt).map_err(cannot)?;
            let field = i32::try_from(number).unwrap_or(i32::MAX);
            Ok(Assigned { replacement: Replacement { field, value }, text })
        }
    }
}

/// Units that a figure may be typed in, by the end of the field's name: unit, and how many of the field's.
const UNITS: [(&str, &[(&str, f64)]); 15] = [
    ("_mm2", &[("mm2", 1.0), ("m2", 1e6)]),
    ("_mm", &[("mm", 1.0), ("cm", 10.0), ("m", 1_000.0)]),
    ("_mg_m2", &[("mg/m2", 1.0), ("kg/ha", 100.0)]),
    ("_mg", &[("mg", 1.0), ("g", 1_000.0), ("kg", 1e6)]),
    ("_g", &[("g", 1.0), ("kg", 1_000.0), ("t", 1e6)]),
    ("_ml", &[("ml", 1.0), ("l", 1_000.0), ("m3", 1e6)]),
    ("_bp", &[("%", 100.0)]),
    ("_x10", &[("", 10.0)]),
    ("_x100", &[("", 100.0)]),
    ("_x10000", &[("", 10_000.0)]),
    ("_m", &[("m", 1.0), ("km", 1_000.0)]),
    ("_ml_m2", &[("mm", 1_000.0)]),
    ("_ml_m2_day", &[("mm", 1_000.0)]),
    ("_centi_c", &[("c", 100.0), ("°c", 100.0)]),
    ("_centideg", &[("", 100.0), ("deg", 100.0)]),
];

/// Fields of which not knowing is one of the answers.
const UNKNOWN_IS_AN_ANSWER: [&str; 20] = [
    "treated",
    "diseased",
    "salty",
    "medicated",
    "last_crop_fed",
    "wood",
    "pieces",
    "handful",
    "age",
    "smell",
    "rolled",
    "colour",
    "winters",
    "summers",
    "rain",
    "cover",
    "watered",
    "tool",
    "appetite",
    "sour",
];

/// Whether a person's name for a field means this one: in full, or without the unit at its end.
fn names(field: &str, name: &str) -> bool {
    field == name || UNITS.iter().any(|(end, _)| field.strip_suffix(end) == Some(name))
}

fn value(
    kind: Kind,
    field: &str,
    name: &str,
    text: &str,
    teller: &Teller<'_>,
    salt: [u8; 16],
) -> Result<(Value, Option<Text>), Message> {
    let nothing = text.is_empty() || ["unknown", "desconocido"].contains(&text);
    if nothing && (text.is_empty() || !UNKNOWN_IS_AN_ANSWER.contains(&field)) {
        return Ok((Value::Null, None));
    }
    let label = || Label::new(text).map(|label| label.to_value()).map_err(|_| Message::new("book-why-label"));
    let value = match (kind, field) {
        (_, "way") => word::<Way>(text)?,
        (_, "particle") => word::<Particle>(text)?,
        (_, "fate") => word::<Fate>(text)?,
        (_, "container") => word::<ContainerKind>(text)?,
        (_, "appetite") => word::<Appetite>(text)?,
        (_, "placed") => word::<Placed>(text)?,
        (_, "place_kind") => word::<PlaceKind>(text)?,
        (_, "measured") => word::<Measured>(text)?,
        (_, "treated" | "diseased" | "salty" | "medicated" | "sour" | "last_crop_fed") => {
            word::<Answer>(text)?
        }
        (_, "wood") => word::<Wood>(text)?,
        (_, "pieces") => word::<Pieces>(text)?,
        (_, "handful") => word::<Handful>(text)?,
        (_, "age") => word::<Age>(text)?,
        (_, "smell") => word::<Smell>(text)?,
        (_, "laid_by") => word::<LaidBy>(text)?,
        (_, "rolled") => word::<Rolled>(text)?,
        (_, "colour") => word::<Colour>(text)?,
        (_, "winters") => word::<Winters>(text)?,
        (_, "summers") => word::<Summers>(text)?,
        (_, "rain") => word::<Rain>(text)?,
        (_, "cover") => word::<Cover>(text)?,
        (_, "watered") => word::<Watering>(text)?,
        (_, "stored") => word::<Storage>(text)?,
        (_, "tool") => word::<Tool>(text)?,
        (_, "known_by") => word::<KnownBy>(text)?,
        (_, "span") => word::<WeatherSpan>(text)?,
        (_, "nitrogen_form") => word::<NitrogenForm>(text)?,
        (_, "what") => word::<TaskKind>(text)?,
        (_, "outcome") => word::<Outcome>(text)?,
        (_, "mended" | "by_tool" | "under") => yes(text)?,
        (Kind::LoadRefused, "reason") => word::<RefusalReason>(text)?,
        (_, "batch" | "over" | "layer" | "against" | "photo" | "to" | "task" | "entry")
        | (Kind::CropEnded | Kind::LeafRead, "crop") => {
            entry(text, teller).ok_or_else(|| Message::new("book-why-entry"))?.to_value()
        }
        (_, "cut" | "ends" | "look" | "first" | "due") => {
            day(text).ok_or_else(|| Message::new("book-why-date"))?.to_value()
        }
        (
            _,
            "label" | "material" | "model_class" | "source" | "currency" | "crop" | "give_source" | "avoid"
            | "least_known" | "method" | "plain",
        ) => label()?,
        (_, "from" | "note" | "text" | "reason") | (Kind::PersonNamed, "name") => {
            let text = Text::new(salt, text);
            let reference: TextRef = text.hash();
            return Ok((reference.to_value(), Some(text)));
        }
        (_, "anchor" | "outline" | "weeks" | "inputs" | "parts") => {
            return Err(Message::new("book-why-not-typed"));
        }
        (_, "depths_mm") | (Kind::DepthProbed, "laid_x10") => {
            let depths = text.split(',').map(|one| figure(field, name, one.trim()).map(Value::Int));
            Value::List(depths.collect::<Result<_, _>>()?)
        }
        _ => Value::Int(figure(field, name, text)?),
    };
    Ok((value, None))
}

/// A coded word.
trait Coded: Sized + Copy + Field + 'static {
    const ALL: &'static [Self];
    fn name(self) -> &'static str;
}

macro_rules! coded {
    ($($name:ident),*) => {
        $(impl Coded for $name {
            const ALL: &'static [Self] = $name::ALL;
            fn name(self) -> &'static str {
                $name::name(self)
            }
        })*
    };
}

coded!(
    Age,
    Answer,
    Appetite,
    Colour,
    ContainerKind,
    Cover,
    Fate,
    Handful,
    KnownBy,
    LaidBy,
    Measured,
    NitrogenForm,
    Outcome,
    Particle,
    Pieces,
    PlaceKind,
    Placed,
    Rain,
    RefusalReason,
    Rolled,
    Smell,
    Storage,
    Summers,
    TaskKind,
    Tool,
    Watering,
    Way,
    WeatherSpan,
    Winters,
    Wood
);

/// Yes or no, where not knowing is no answer.
fn yes(text: &str) -> Result<Value, Message> {
    let answer = word::<Answer>(text)?;
    if answer == Answer::Unknown.to_value() {
        return Err(Message::new("book-why-word").text("names", "yes, no".to_owned()));
    }
    Ok((answer == Answer::Yes.to_value()).to_value())
}

fn word<T: Coded>(text: &str) -> Result<Value, Message> {
    let same = |a: &str, b: &str| a.replace(['-', '_'], " ") == b.replace(['-', '_'], " ").to_lowercase();
    T::ALL.iter().find(|one| same(one.name(), text)).map(Field::to_value).ok_or_else(|| {
        let all: Vec<&str> = T::ALL.iter().map(|one| one.name()).collect();
        Message::new("book-why-word").text("names", all.join(", "))
    })
}

fn day(text: &str) -> Option<Date> {
    Date::of(NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()?).ok()
}

fn entry(text: &str, teller: &Teller<'_>) -> Option<EntryId> {
    teller.find(text).ok().flatten()
}

/// A whole number in the field's unit, from a figure with or without a unit.
fn figure(field: &str, name: &str, text: &str) -> Result<i64, Message> {
    let end = text.find(|c: char| !matches!(c, '0'..='9' | '.' | '-' | '+')).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let unit = unit.trim().to_lowercase();
    let units = UNITS.iter().find(|(end, _)| field.ends_with(end)).map_or(&[][..], |(_, units)| *units);
    let factor = if unit.is_empty() && field == name {
        Some(1.0)
    } else {
        units.iter().find(|(known, _)| *known == unit).map(|(_, factor)| *factor)
    };
    let why = || {
        let known: Vec<&str> = units.iter().map(|(unit, _)| *unit).filter(|unit| !unit.is_empty()).collect();
        if known.is_empty() {
            Message::new("book-why-number")
        } else {
            Message::new("book-why-unit").text("units", known.join(", "))
        }
    };
    let number: f64 = number.parse().map_err(|_| why())?;
    let figure = (number * factor.ok_or_else(why)?).round();
    // Whole numbers up to 2^53 are exact; no field of an entry needs more.
    if figure.abs() < 9_007_199_254_740_992.0 {
        #[expect(clippy::cast_possible_truncation, reason = "whole and within bounds")]
        Ok(figure as i64)
    } else {
        Err(why())
    }
}
