//! The place that is to be fed: as it lies, and bare; what grows there, and what was given already.

use chrono::NaiveDate;
use kerfbook_science::crop::{self, Edible};
use kerfbook_science::feed;
use kerfbook_science::limit::Origin;
use kerfbook_science::lookup::Match;
use kerfbook_science::material::Kind;
use kerfbook_science::nitrogen::{Event, Input, LayerWay};
use kerfbook_science::units::Area;

use super::step::Step;
use crate::assumed::Assumed;
use crate::calendar::Calendar;
use crate::compare::SEASON_DAYS;
use crate::error::ActError;
use crate::load::Load;
use crate::scenario::{Crop, Fate, Feed, FeedAmount, Placed, Scenario, Way};
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
    /// What grows there, in order of planting; the first crops of the inputs.
    pub crops: Vec<Standing>,
    /// Days on which loads are put down.
    pub laid: Vec<u32>,
    /// Nitrogen given or brought already.
    pub given: Vec<Given>,
    /// What it was made from, where crops leave residue to later ones: what they leave follows from what they are fed.
    pub leaves: Option<Box<Scenario>>,
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
        let crops: Vec<Standing> = scenario
            .crops
            .iter()
            .map(|grown| {
                let known = match crop::find(&grown.name) {
                    Match::Exact(found) => Some(found),
                    Match::Near(_) => None,
                };
                Standing {
                    name: known.map(|known| known.name),
                    start: calendar.day(grown.started),
                    end: calendar.day(grown.ended),
                    edible: known.map_or(Edible::TouchesSoil, |known| known.edible),
                    annual: !site::is_tree(scenario, grown),
                    legume: grown.fixed.fraction() > 0.0,
                }
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
            leaves: leaves(scenario).then(|| Box::new(scenario.clone())),
            here,
            bare,
            crops,
        })
    }

    /// Days run for what becomes of a feed: a year, or until the last harvest where that is later.
    pub fn year(&self) -> u32 {
        self.here.days
    }

    /// Days run to find out who goes hungry: until the last harvest of a crop that can.
    pub fn horizon(&self) -> u32 {
        let harvest = self.crops.iter().filter(|crop| crop.annual).map(|crop| crop.end).max().unwrap_or(0);
        u32::try_from(harvest + 1).unwrap_or(0).clamp(1, self.year())
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
                site::give(&mut with, source, step.nitrogen(*steps), *day, placed(own, *day));
            }
            return Ok(with);
        };
        let mut with = scenario.as_ref().clone();
        with.feeds.extend(given.map(|(day, steps)| Feed {
            date: self.calendar.date(f64::from(*day)),
            source: source.name.to_owned(),
            amount: FeedAmount::Nitrogen(step.nitrogen(*steps)),
            placed: placed(own, *day),
        }));
        let (_, here, bare) = forecast::inputs(&with, self.year(), &mut Vec::new())?;
        Ok(match side {
            Side::Here => here,
            Side::Bare => bare,
        })
    }

    /// Days on which feeds may be planned, for a source that must wait so long before each harvest.
    ///
    /// The days of putting down and of planting, then every [`super::EVERY_DAYS`] until the harvest.
    pub(super) fn days(&self, not_before: Option<NaiveDate>, wait: impl Fn(&Standing) -> u32) -> Vec<u32> {
        let from = not_before.map_or(0, |date| self.calendar.day(date)).max(0);
        let planted = self.crops.iter().filter(|crop| crop.annual);
        let later = planted.flat_map(|crop| {
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
