//! From a scenario file (TOML, units in the names of keys) to a [`Scenario`], or to everything wrong with it.
//!
//! Reading order: [`keys`], then what is in the sections: [`ground`], [`weather`], [`events`], [`names`].

pub(crate) mod bucket;
pub(crate) mod events;
pub(crate) mod ground;
pub(crate) mod keys;
#[cfg(test)]
mod mutation;
pub(crate) mod names;
mod orchard;
pub(crate) mod weather;

use std::path::Path;

use chrono::NaiveDate;
use kerfbook_acts::assumed::Assumed;
use kerfbook_acts::scenario::{Again, Amount, Crop, PutDown, Scenario};
use toml::de::DeTable;

use crate::fault::{Fault, Message};
use crate::toml_file;
use crate::toml_file::section::{Notes, Section};

/// A scenario and what its file left to be assumed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Described {
    /// What the file says, completed.
    pub scenario: Scenario,
    /// The values that the file does not say.
    pub assumed: Vec<Assumed>,
}

/// What is assumed where a file is silent, once for each key.
struct Silence(Vec<Assumed>);

impl Silence {
    fn number(&mut self, key: &'static str, value: f64) -> f64 {
        self.note(Assumed::number(key, value));
        value
    }

    fn text<T>(&mut self, key: &'static str, text: &'static str, value: T) -> T {
        self.note(Assumed::text(key, text));
        value
    }

    fn note(&mut self, assumed: Assumed) {
        if self.0.iter().all(|other| other.key != assumed.key) {
            self.0.push(assumed);
        }
    }
}

/// Reads a scenario file and the weather file it names.
pub(crate) fn read(path: &Path) -> Result<Described, Fault> {
    read_text(&toml_file::text::read(path, toml_file::MOST_BYTES)?, path)
}

fn read_text(text: &str, path: &Path) -> Result<Described, Fault> {
    toml_file::read(text, path, &keys::LAYOUTS, |notes, root| describe(notes, root, path))
}

/// Reads a file with one load, and the crop that is to come where it names one.
pub(crate) fn load(path: &Path) -> Result<(PutDown, Option<Crop>), Fault> {
    let text = toml_file::text::read(path, toml_file::MOST_BYTES)?;
    toml_file::read(&text, path, &keys::LOAD, |notes, root| {
        let loads = Section::rows(notes, root, &keys::PUT_DOWN);
        let crops = Section::rows(notes, root, &keys::CROP);
        let containers = ground::containers_of(&Section::single(notes, root, &keys::CONTAINERS));
        let many = |id: &'static str, count: usize| Message::new(id).text("count", count);
        if loads.len() != 1 {
            notes.add(None, "", many("desk-one-load", loads.len()), Some(Message::new("desk-add-load")));
        }
        if crops.len() > 1 {
            notes.add(None, "", many("desk-one-crop-to-come", crops.len()), None);
        }
        let load = loads.first().and_then(|load| events::put_down(load, None, &containers));
        let crop = crops.first().map(events::one_crop);
        let mut load = load?;
        if let Amount::Barrows(count) = load.amount {
            load.amount = Amount::Loose(containers.barrow * count);
        }
        match crop {
            Some(crop) => Some((load, Some(crop?))),
            None => Some((load, None)),
        }
    })
}

/// Reads all sections; where anything is missing or wrong it is noted, and there is no answer.
fn describe<'a>(notes: &'a Notes<'a>, root: &'a DeTable<'a>, path: &Path) -> Option<Described> {
    let single = |layout| Section::single(notes, root, layout);
    let rows = |layout| Section::rows(notes, root, layout);
    let mut silence = Silence(Vec::new());

    let waters = rows(&keys::WATER);
    let weather_section = single(&keys::WEATHER);
    let weather = weather::read(&weather_section, path);
    let estimates_evaporation = weather.estimates_evaporation;
    let told_in_words = weather.answers.seasons.is_some();
    let holding =
        ground::holding(&single(&keys::HOLDING), estimates_evaporation, told_in_words, &mut silence);
    let soil = ground::soil(&single(&keys::SOIL), &mut silence);
    let place = ground::place(&single(&keys::PLACE), soil.as_ref().map(|soil| soil.depth), &mut silence);
    let containers = ground::containers(&single(&keys::CONTAINERS), &mut silence);

    let orchard_section = single(&keys::ORCHARD);
    let orchard = orchard::orchard(&orchard_section, &mut silence);

    let crop_sections = rows(&keys::CROP);
    let put_down_sections = rows(&keys::PUT_DOWN);
    let feed_sections = rows(&keys::FEED);
    let worked_sections = rows(&keys::WORKED);
    let lifted_sections = rows(&keys::LIFTED);
    if !root.contains_key(keys::CROP.name) && !root.contains_key(keys::PUT_DOWN.name) {
        notes.add(
            None,
            "",
            Message::new("desk-nothing-happens"),
            Some(Message::new("desk-add-crop-or-load")),
        );
    }
    let dates = weather.daily.as_ref().map(|daily| (daily.first, last_day(daily)));
    if let Some(days) = dates {
        for (sections, key) in [
            (&crop_sections, "started"),
            (&put_down_sections, "date"),
            (&feed_sections, "date"),
            (&worked_sections, "date"),
            (&lifted_sections, "date"),
            (&waters, "date"),
        ] {
            for section in sections {
                weather::check_date(section, key, days);
            }
        }
    }
    let crops: Option<Vec<_>> = events::crops(&crop_sections, &mut silence).into_iter().collect();
    let put_down = |section| events::put_down(section, place.as_ref(), &containers);
    let put_down: Option<Vec<_>> = put_down_sections.iter().map(put_down).collect();
    let feeds: Option<Vec<_>> =
        feed_sections.iter().map(|section| events::feed(section, &mut silence)).collect();
    let worked: Option<Vec<_>> =
        worked_sections.iter().map(|section| events::worked(section, &mut silence)).collect();
    let lifted: Option<Vec<_>> = lifted_sections.iter().map(events::lifted).collect();
    let water: Option<Vec<_>> = waters.iter().map(events::water).collect();

    let crops = crops?;
    let weather = weather.finish(water?, holding.latitude_deg, &crops)?;
    let mut scenario = Scenario {
        holding,
        weather,
        soil: soil?,
        place: place?,
        crops,
        put_down: put_down?,
        feeds: feeds?,
        worked: worked?,
        lifted: lifted?,
        origins: Vec::new(),
        containers,
        orchard,
    };
    // A file that tells more than a year tells which crop stands when; a single season comes again.
    let planted = || scenario.crops.iter().map(|crop| crop.started);
    if let (Some(first), Some(last)) = (planted().min(), planted().max())
        && (last - first).num_days() >= i64::from(kerfbook_acts::compare::SEASON_DAYS)
    {
        for crop in &mut scenario.crops {
            crop.again = Again::Never;
        }
    }
    // By date, as the type promises; what stands in the file first comes first on a day.
    scenario.put_down.sort_by_key(|load| load.date);
    scenario.feeds.sort_by_key(|feed| feed.date);
    scenario.worked.sort_by_key(|worked| worked.date);
    scenario.lifted.sort_by_key(|lifted| lifted.date);
    scenario.weather.water.sort_by_key(|water| water.date);
    Some(Described { scenario, assumed: silence.0 })
}

fn last_day(daily: &kerfbook_acts::scenario::Daily) -> NaiveDate {
    let days = daily.mean_c.len().saturating_sub(1) as u64;
    daily.first.checked_add_days(chrono::Days::new(days)).unwrap_or(daily.first)
}
