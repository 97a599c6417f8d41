//! From a table of readings to a heat log, or to everything wrong with it.

use std::collections::HashMap;

use chrono::{NaiveDate, NaiveTime, Timelike};
use csv::{ReaderBuilder, StringRecord, Trim};
use kerfbook_science::compost::heat_log::{HOTTEST, Log, Reading};
use kerfbook_science::units::{Share, Temperature};

use crate::fault::{Complaint, Message, Spot};
use crate::toml_file::layout::nearest;

/// Most complaints about one table; after the first few they follow from each other.
const MOST_COMPLAINTS: usize = 12;
/// Where no zone is written, all readings are of one.
const ONE_ZONE: &str = "pile";
/// Readings in a column of Fahrenheit that never pass this may be Celsius.
const DOUBTFUL_F: std::ops::RangeInclusive<f64> = 40.0..=90.0;

const COLUMNS: [&str; 11] = [
    "date",
    "time",
    "zone",
    "probe",
    "depth_cm",
    "temperature_c",
    "temperature_f",
    "turned",
    "moisture_pct",
    "smoke",
    "note",
];

/// A log as it was read.
pub(super) struct Read {
    pub log: Log,
    /// The readings were not in order of time.
    pub out_of_order: bool,
    /// In degrees Fahrenheit by their column, but low enough to be Celsius.
    pub perhaps_celsius: bool,
}

/// Reads a table.
pub(super) fn read(text: &str) -> Result<Read, Vec<Complaint>> {
    let mut reader =
        ReaderBuilder::new().has_headers(false).flexible(true).trim(Trim::All).from_reader(text.as_bytes());
    let mut records = reader.records().map_while(Result::ok);
    let heading = records.next().unwrap_or_default();
    let columns = Columns::of(&heading, text)?;
    let mut table = Table {
        text,
        columns,
        log: Log::default(),
        seen: HashMap::new(),
        asked_scale: false,
        complaints: Vec::new(),
    };
    let (mut out_of_order, mut last) = (false, None);
    for record in records {
        if record.iter().all(str::is_empty) {
            continue;
        }
        if let Some(when) = table.row(&record) {
            out_of_order |= last.is_some_and(|last| when < last);
            last = Some(when);
        }
        if table.complaints.len() >= MOST_COMPLAINTS {
            break;
        }
    }
    if table.complaints.is_empty() && table.log.readings.is_empty() {
        table.complaints.push(at(
            text,
            1,
            "",
            Message::new("heat-no-reading"),
            Some(Message::new("heat-form")),
        ));
    }
    if !table.complaints.is_empty() {
        return Err(table.complaints);
    }
    let perhaps_celsius = table.columns.fahrenheit
        && table
            .log
            .readings
            .iter()
            .map(|one| one.temperature.f())
            .reduce(f64::max)
            .is_some_and(|hottest| DOUBTFUL_F.contains(&hottest));
    Ok(Read { log: table.log, out_of_order, perhaps_celsius })
}

/// The line of a record, from 1; the reader counts empty lines before it to the record.
fn line(record: &StringRecord, text: &str) -> usize {
    let start = record.position().and_then(|position| usize::try_from(position.byte()).ok()).unwrap_or(0);
    let rest = text.get(start..).unwrap_or_default();
    let start = start + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
    text.get(..start).unwrap_or_default().matches('\n').count() + 1
}

fn at(text: &str, line: usize, key: &str, what: Message, remedy: Option<Message>) -> Complaint {
    Complaint { file: None, spot: Some(Spot::line(text, line)), key: key.to_owned(), what, remedy }
}

/// Where each column stands.
struct Columns {
    places: HashMap<&'static str, usize>,
    fahrenheit: bool,
}

impl Columns {
    fn of(heading: &StringRecord, text: &str) -> Result<Self, Vec<Complaint>> {
        let line = line(heading, text);
        let form = || Some(Message::new("heat-form"));
        let mut places = HashMap::new();
        let mut complaints = Vec::new();
        for (place, name) in heading.iter().enumerate() {
            let written = name.trim_start_matches('\u{feff}').to_lowercase().replace([' ', '-'], "_");
            if let Some(known) = COLUMNS.iter().find(|known| **known == written) {
                places.insert(*known, place);
            } else if ["temperature", "temp", "heat", "temperatura"].contains(&written.as_str()) {
                let what = Message::new("heat-which-scale").text("name", name);
                complaints.push(at(text, line, name, what, Some(Message::new("heat-name-scale"))));
            } else {
                let what = Message::new("heat-unknown-column").text("name", name);
                let near = nearest(&written, COLUMNS, 1);
                let remedy = near
                    .first()
                    .map_or_else(form, |near| Some(Message::new("desk-did-you-mean").text("name", *near)));
                complaints.push(at(text, line, name, what, remedy));
            }
        }
        if complaints.is_empty() {
            if places.contains_key("temperature_c") && places.contains_key("temperature_f") {
                complaints.push(at(text, line, "temperature_f", Message::new("heat-two-scales"), form()));
            }
            if !places.contains_key("date") {
                complaints.push(at(text, line, "date", Message::new("heat-no-date"), form()));
            }
            if !places.contains_key("temperature_c") && !places.contains_key("temperature_f") {
                complaints.push(at(text, line, "temperature_c", Message::new("heat-no-temperature"), form()));
            }
        }
        let fahrenheit = places.contains_key("temperature_f");
        if complaints.is_empty() { Ok(Self { places, fahrenheit }) } else { Err(complaints) }
    }

    fn cell<'r>(&self, record: &'r StringRecord, name: &str) -> &'r str {
        self.places.get(name).and_then(|place| record.get(*place)).unwrap_or_default()
    }
}

type When = (NaiveDate, Option<u16>);
type Place = (String, NaiveDate, u16, Option<u64>);

struct Table<'a> {
    text: &'a str,
    columns: Columns,
    log: Log,
    /// Zone, time and depth of each reading, with its line.
    seen: HashMap<Place, usize>,
    /// Whether the scale was asked for already: once is enough, every row says the same.
    asked_scale: bool,
    complaints: Vec<Complaint>,
}

impl Table<'_> {
    /// Takes one row; its time where it holds a reading.
    fn row(&mut self, record: &StringRecord) -> Option<When> {
        let line = line(record, self.text);
        let (date, minute) = self.when(record, line)?;
        let turned = self.flag(record, line, "turned");
        let smoke = self.flag(record, line, "smoke");
        let moisture = self.moisture(record, line);
        if turned {
            self.log.turnings.push(date);
        }
        if smoke {
            self.log.smoke.push(date);
        }
        self.log.moistures.extend(moisture.map(|moisture| (date, moisture)));
        let depth_cm = self.number(record, line, "depth_cm", 0.0, 1_000.0);
        let temperature = self.temperature(record, line)?;
        let zone = ["zone", "probe"].map(|name| self.columns.cell(record, name));
        let zone = match zone {
            [zone, ""] => zone.to_owned(),
            ["", probe] => probe.to_owned(),
            [zone, probe] => format!("{zone} {probe}"),
        };
        let zone = if zone.is_empty() { ONE_ZONE.to_owned() } else { zone };
        if let Some(minute) = minute {
            let place = (zone.clone(), date, minute, depth_cm.map(f64::to_bits));
            if let Some(first) = self.seen.insert(place, line) {
                let what = Message::new("heat-twice").text("zone", &zone).text("first", first);
                let remedy = Some(Message::new("heat-keep-one"));
                self.complaints.push(at(self.text, line, "time", what, remedy));
                return None;
            }
        }
        self.log.readings.push(Reading { date, minute, zone, depth_cm, temperature });
        Some((date, minute))
    }

    /// The day and, where it is written, the minute: in `time`, or after the date.
    fn when(&mut self, record: &StringRecord, line: usize) -> Option<When> {
        let written = self.columns.cell(record, "date");
        let (date, time) = match written.split_once(['T', ' ']) {
            Some((date, time)) => (date, time.trim()),
            None => (written, self.columns.cell(record, "time")),
        };
        let Ok(day) = date.parse::<NaiveDate>() else {
            let what = Message::new("heat-no-day").text("value", written);
            self.complaints.push(at(self.text, line, "date", what, Some(Message::new("heat-day-form"))));
            return None;
        };
        if time.is_empty() {
            return Some((day, None));
        }
        let parsed =
            NaiveTime::parse_from_str(time, "%H:%M").or_else(|_| NaiveTime::parse_from_str(time, "%H:%M:%S"));
        let Ok(parsed) = parsed else {
            let what = Message::new("heat-no-time").text("value", time);
            self.complaints.push(at(self.text, line, "time", what, Some(Message::new("heat-time-form"))));
            return None;
        };
        Some((day, u16::try_from(parsed.hour() * 60 + parsed.minute()).ok()))
    }

    /// A temperature; none where the cell is empty, which a row of a turning may have.
    fn temperature(&mut self, record: &StringRecord, line: usize) -> Option<Temperature> {
        let name = if self.columns.fahrenheit { "temperature_f" } else { "temperature_c" };
        let written = self.columns.cell(record, name);
        if written.is_empty() {
            return None;
        }
        let Some(figure) = written.parse::<f64>().ok().filter(|figure| figure.is_finite()) else {
            self.not_a_number(line, name, written);
            return None;
        };
        let temperature =
            if self.columns.fahrenheit { Temperature::from_f(figure) } else { Temperature::from_c(figure) };
        if temperature > HOTTEST.value || temperature < Temperature::from_c(-60.0) {
            let (id, remedy) = match (self.columns.fahrenheit, temperature > HOTTEST.value) {
                (false, true) => ("heat-above-boiling", "heat-perhaps-fahrenheit"),
                (true, true) => ("heat-above-boiling-f", "heat-look-again"),
                (_, false) => ("heat-below-all", "heat-look-again"),
            };
            if !std::mem::replace(&mut self.asked_scale, true) {
                let what = Message::new(id).text("value", written);
                self.complaints.push(at(self.text, line, name, what, Some(Message::new(remedy))));
            }
            return None;
        }
        Some(temperature)
    }

    fn moisture(&mut self, record: &StringRecord, line: usize) -> Option<Share> {
        let written = self.columns.cell(record, "moisture_pct");
        let figure: f64 = if written.is_empty() { return None } else { written.parse().unwrap_or(f64::NAN) };
        if figure.is_nan() {
            self.not_a_number(line, "moisture_pct", written);
            return None;
        }
        if !(0.0..100.0).contains(&figure) {
            let what = Message::new("mix-moisture-wet-basis").text("value", written);
            let remedy = Some(Message::new("heat-moisture-basis"));
            self.complaints.push(at(self.text, line, "moisture_pct", what, remedy));
            return None;
        }
        Some(Share::from_percent(figure))
    }

    fn number(
        &mut self,
        record: &StringRecord,
        line: usize,
        name: &'static str,
        low: f64,
        high: f64,
    ) -> Option<f64> {
        let written = self.columns.cell(record, name);
        if written.is_empty() {
            return None;
        }
        let figure = written.parse().ok().filter(|figure| (low..=high).contains(figure));
        if figure.is_none() {
            self.not_a_number(line, name, written);
        }
        figure
    }

    fn flag(&mut self, record: &StringRecord, line: usize, name: &'static str) -> bool {
        let written = self.columns.cell(record, name).to_lowercase();
        match written.as_str() {
            "" | "no" | "0" | "false" => false,
            "yes" | "y" | "x" | "1" | "true" | "turned" | "si" | "sí" => true,
            _ => {
                let what = Message::new("heat-yes-or-no").text("name", name).text("value", &written);
                self.complaints.push(at(self.text, line, name, what, Some(Message::new("heat-yes-form"))));
                false
            }
        }
    }

    fn not_a_number(&mut self, line: usize, name: &'static str, written: &str) {
        let what = Message::new("heat-not-a-number").text("name", name).text("value", written);
        self.complaints.push(at(self.text, line, name, what, Some(Message::new("heat-number-form"))));
    }
}
