//! The place that is to be fed: as it lies, and bare; what grows there, and what was given already.

use chrono::NaiveDate;
use kerfbook_science::crop::{self, Edible};
use kerfbook_science::feed;
use kerfbook_science::limit::Origin;
use kerfbook_science::lookup::Match;
use kerfbook_science::material::Kind;
use kerfbook_science::nitrogen::{Crop as ModelCrop, Event, Input, LayerWay, Sample};
use kerfbook_science::units::Area;

use super::step::Step;
use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::compare::SEASON_DAYS;
use crate::error::ActError;
use crate::load::Load;
use crate::scenario::{Crop, Fate, Feed, PlaceKind, Placed, PutDown, Scenario, Way};
use crate::season::Season;
use crate::way::{self, Row, Wood};
use crate::{forecast, site, treatment};

/// A place that may be fed.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// Which date is day 0.
    pub calendar: Calendar,
    /// Its area.
    pub area: Area,
    /// With what lies there, over [`Ground::year`].
    pub here: Input,
    /// With nothing put down, over the same time.
    pub bare: Input,
    /// What grows there and is not over, in order of planting.
    pub crops: Vec<Standing>,
    /// First day that may be fed: what was before is past.
    pub from: u32,
    /// Days on which loads are put down.
    pub laid: Vec<u32>,
    /// Nitrogen given or brought already.
    pub given: Vec<Given>,
    /// What an amount is divided by for whoever gives it.
    pub each: Option<Each>,
    /// The runs as readings weigh them; none without readings.
    pub weighed: Option<Sample>,
    /// What it was made from, where crops leave residue to later ones: what they leave follows from what they are fed.
    pub leaves: Option<Box<Scenario>>,
}

/// What an amount is told by, beside that of the whole place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Each {
    /// So many trees.
    Trees(u32),
    /// So many litres of soil in containers.
    Litres(f64),
}

impl Each {
    /// Parts that the whole has.
    pub fn count(self) -> f64 {
        match self {
            Self::Trees(count) => f64::from(count),
            Self::Litres(litres) => litres,
        }
    }

    fn of(scenario: &Scenario) -> Option<Self> {
        let trees = scenario.crops.iter().filter(|crop| site::is_tree(scenario, crop));
        let trees = trees.filter_map(|crop| crop.plants).find(|count| *count > 0);
        let litres = scenario.place.area.m2() * site::depth(scenario).m() * 1000.0;
        let pots = scenario.place.kind == PlaceKind::Container && litres > 0.0;
        trees.map(Self::Trees).or(pots.then_some(Self::Litres(litres)))
    }
}

/// Which of the two inputs of a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// As it lies.
    Here,
    /// With nothing put down.
    Bare,
}

/// A crop in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Which crop of the inputs it is.
    pub at: usize,
    /// Its name in the table of crops, where it has one.
    pub name: Option<&'static str>,
    /// Day of planting.
    pub start: i64,
    /// Day of harvest.
    pub end: i64,
    /// How what is eaten lies to the soil.
    pub edible: Edible,
    /// Hunger has a day: no tree.
    pub annual: bool,
    /// It fixes part of its nitrogen.
    pub legume: bool,
}

/// Nitrogen given or brought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Given {
    /// When.
    pub day: i64,
    /// What it is to the rules.
    pub origin: Origin,
    /// How much.
    pub kg_ha: f64,
    /// It came as a feed, not as a load or with one.
    pub feed: bool,
}

impl Ground {
    /// The place of a scenario, every load in its own way; one whose way is open lies on top.
    ///
    /// # Errors
    /// A load, a feed or a place that cannot be.
    pub fn of(scenario: &Scenario, assumed: &mut Vec<Assumed>) -> Result<Self, ActError> {
        let calendar = Calendar::of(scenario).ok_or(ActError::NoLoad)?;
        let crops: Vec<Standing> = (0..)
            .zip(&scenario.crops)
            .map(|(at, grown)| {
                let days = (calendar.day(grown.started), calendar.day(grown.ended));
                Standing::of(scenario, grown, at, days)
            })
            .collect();
        let harvest = crops.iter().map(|crop| crop.end).max().unwrap_or(0);
        let year = u32::try_from(harvest + 1).unwrap_or(0).max(SEASON_DAYS);
        let (_, here, bare) = forecast::inputs(scenario, year, assumed)?;
        let laid = scenario.put_down.iter().filter_map(|put| site::day_within(calendar, put.date, year));
        Ok(Self {
            calendar,
            area: scenario.place.area,
            laid: laid.collect(),
            given: given(scenario, calendar)?,
            each: Each::of(scenario),
            from: 0,
            weighed: None,
            leaves: leaves(scenario).then(|| Box::new(scenario.clone())),
            here,
            bare,
            crops,
        })
    }

    /// A place of a book on the day of its season: nothing is fed before, only crops that are not over can go hungry,
    /// and the runs are those that the readings leave. Of a tree, the season that is on or comes next.
    ///
    /// # Errors
    /// A feed or load that cannot be.
    pub(crate) fn of_season(season: &Season, weighed: Option<Sample>) -> Result<Self, ActError> {
        let scenario = &season.scenario;
        let mut crops: Vec<Standing> = Vec::new();
        for (at, grown) in season.standing_ahead() {
            let Some(model) = season.input.crops.get(at) else { continue };
            let crop = Standing::of(scenario, grown, at, within(model));
            let again = |other: &Standing| !crop.annual && other.name == crop.name && !other.annual;
            if !crops.iter().any(again) {
                crops.push(crop);
            }
        }
        let input = |input: &Input| Input { readings: Vec::new(), ..input.clone() };
        let days = season.scenario.put_down.iter();
        let laid = days.filter_map(|put| site::day_within(season.calendar, put.date, season.input.days));
        Ok(Self {
            calendar: season.calendar,
            area: scenario.place.area,
            laid: laid.collect(),
            given: given(scenario, season.calendar)?,
            each: Each::of(scenario),
            from: season.today,
            weighed,
            leaves: None,
            here: input(&season.input),
            bare: input(&season.bare),
            crops,
        })
    }

    /// Days run for what becomes of a feed: a year, or until the last harvest where that is later.
    pub fn year(&self) -> u32 {
        self.here.days
    }

    /// Days run to find out who goes short: until the last harvest of a crop that can go hungry; where trees stand
    /// alone, until the end of their season.
    pub fn horizon(&self) -> u32 {
        let harvest = self.counted().map(|crop| crop.end).max().unwrap_or(0);
        u32::try_from(harvest + 1).unwrap_or(0).clamp(1, self.year())
    }

    /// The crops that a plan is made for: those that can go hungry, else trees.
    pub(super) fn counted(&self) -> impl Iterator<Item = &Standing> {
        let annual = self.crops.iter().any(|crop| crop.annual);
        self.crops.iter().filter(move |crop| crop.annual == annual)
    }

    /// Their positions in the inputs.
    pub(super) fn positions(&self) -> Vec<usize> {
        self.counted().map(|crop| crop.at).collect()
    }

    pub(super) const fn input(&self, side: Side) -> &Input {
        match side {
            Side::Here => &self.here,
            Side::Bare => &self.bare,
        }
    }

    /// The place with doses of a source, one a day that may be fed.
    pub(super) fn fed(
        &self,
        side: Side,
        (source, step): (&'static feed::Feed, &Step),
        days: &[u32],
        doses: &[u32],
    ) -> Result<Input, ActError> {
        let own = self.input(side);
        let given = days.iter().zip(doses).filter(|(_, steps)| **steps > 0);
        let Some(scenario) = &self.leaves else {
            let mut with = own.clone();
            for (day, steps) in given {
                site::give(&mut with, source, (step.given(*steps), self.area), *day, placed(own, *day))?;
            }
            return Ok(with);
        };
        let mut with = scenario.as_ref().clone();
        with.feeds.extend(given.map(|(day, steps)| Feed {
            date: self.calendar.date(f64::from(*day)),
            source: source.name.to_owned(),
            amount: step.given(*steps),
            placed: placed(own, *day),
            with_layer: false,
        }));
        let (_, here, bare) = forecast::inputs(&with, self.year(), &mut Vec::new())?;
        Ok(match side {
            Side::Here => here,
            Side::Bare => bare,
        })
    }

    /// The first day that may be fed, where a person says not before a date.
    pub(super) fn first_day(&self, not_before: Option<NaiveDate>) -> u32 {
        let said = not_before.map_or(0, |date| self.calendar.day(date)).max(0);
        u32::try_from(said).unwrap_or(0).max(self.from)
    }

    /// Days on which feeds may be planned, for a source that must wait so long before each harvest.
    ///
    /// The days of putting down and of planting, then every [`super::EVERY_DAYS`] until the harvest.
    pub(super) fn days(&self, not_before: Option<NaiveDate>, wait: impl Fn(&Standing) -> u32) -> Vec<u32> {
        let from = i64::from(self.first_day(not_before));
        let later = self.counted().flat_map(|crop| {
            (crop.start..crop.end).step_by(super::EVERY_DAYS.value as usize).map(move |day| day.max(from))
        });
        let mut days: Vec<i64> = self.laid.iter().map(|day| i64::from(*day)).chain(later).collect();
        days.retain(|day| {
            let late = |crop: &Standing| crop.end >= *day && crop.end - day < i64::from(wait(crop));
            *day >= from && *day < i64::from(self.horizon()) && !self.crops.iter().any(late)
        });
        days.sort_unstable();
        days.dedup();
        days.into_iter().filter_map(|day| u32::try_from(day).ok()).collect()
    }
}

impl Standing {
    fn of(scenario: &Scenario, grown: &Crop, at: usize, (start, end): (i64, i64)) -> Self {
        let known = match crop::find(&grown.name) {
            Match::Exact(found) => Some(found),
            Match::Near(_) => None,
        };
        Self {
            at,
            name: known.map(|known| known.name),
            start,
            end,
            edible: known.map_or(Edible::TouchesSoil, |known| known.edible),
            annual: !site::is_tree(scenario, grown),
            legume: grown.fixed.fraction() > 0.0,
        }
    }
}

/// First and last day of a crop of the model.
fn within(crop: &ModelCrop) -> (i64, i64) {
    let (from, to) = match crop {
        ModelCrop::Annual { sown_day, harvest_day, .. } => (*sown_day, *harvest_day),
        ModelCrop::Tree { windows, .. } => (
            windows.iter().map(|window| window.0).min().unwrap_or(0),
            windows.iter().map(|window| window.1).max().unwrap_or(0),
        ),
    };
    (i64::from(from), i64::from(to))
}

/// Whether a crop leaves residue while another stands, or will.
fn leaves(scenario: &Scenario) -> bool {
    let stays = |left: &Crop| left.fate != Fate::CarriedOff;
    let later = |left: &Crop| scenario.crops.iter().any(|other| other.ended > left.ended);
    scenario.crops.iter().any(|left| stays(left) && later(left))
}

/// Where a feed of that day goes: into the soil, or under the layer that lies there by then.
pub(super) fn placed(input: &Input, day: u32) -> Placed {
    let covered = input.put_down.iter().enumerate().any(|(layer, put)| {
        let ended = |event: &Event| match *event {
            Event::SoilWorked { .. } => true,
            Event::LayerLifted { layer: lifted, share, .. } => lifted == layer && share >= 1.0,
        };
        put.way == LayerWay::OnTop
            && put.day < day
            && !input.events.iter().any(|event| ended(event) && (put.day..=day).contains(&event.day()))
    });
    if covered { Placed::Under } else { Placed::Mixed }
}

/// What was given or brought already, with what it is to the rules.
fn given(scenario: &Scenario, calendar: Calendar) -> Result<Vec<Given>, ActError> {
    let area = scenario.place.area;
    let mut all = Vec::new();
    for fed in &scenario.feeds {
        let source = site::find_feed(&fed.source)?;
        all.push(Given {
            day: calendar.day(fed.date),
            origin: Origin::of(source),
            kg_ha: site::nitrogen_of(source, fed.amount, area)?.kg_ha(),
            feed: true,
        });
    }
    for put in &scenario.put_down {
        let load = Load::of(put, &scenario.place, &scenario.containers, &mut Vec::new())?;
        let wood = Wood::of(&load);
        let own = load.dry_per_area.kg_ha() * wood.carbon_share / wood.carbon_nitrogen;
        let mut bring = |origin: Origin, kg_ha: f64| {
            all.push(Given { day: calendar.day(put.date), origin, kg_ha, feed: false });
        };
        match load.material.kind {
            Kind::Manure => bring(Origin::RawManure, own),
            Kind::Compost if load.material.name.contains("manure") => bring(Origin::CompostedManure, own),
            Kind::Compost => bring(Origin::Compost, own),
            _ => {}
        }
        if entered_apart(put) {
            continue;
        }
        match forecast::row_of(scenario, put.way.unwrap_or(Way::OnTop)) {
            Row::OverCompost => bring(Origin::Compost, treatment::compost_nitrogen_kg_ha()),
            Row::OverUrine => bring(Origin::Urine, way::urine_nitrogen_kg_ha()),
            Row::CompostedFirst => {
                if let Some(made) = way::composted_with_manure(&load, wood) {
                    bring(Origin::CompostedManure, made.brought_kg_ha);
                }
            }
            _ => {}
        }
    }
    Ok(all)
}

/// A book has entries of its own for what lies under the load, or the load had lain elsewhere before.
fn entered_apart(put: &PutDown) -> bool {
    put.kept.as_ref().is_some_and(|kept| kept.over || kept.under || kept.taken.is_some())
}
