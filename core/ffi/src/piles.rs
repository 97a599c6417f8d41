//! Piles: what a heap would come to, building it, its heat, turning it, and the batch it becomes.

use std::sync::Arc;

use kerfbook_acts::blend_batch::{NewPart, Taken};
use kerfbook_acts::build_pile::{self, NewPile};
use kerfbook_acts::consider_pile;
use kerfbook_acts::finish_pile::{self, NewBatch};
use kerfbook_acts::heat::{WHOLE, ZONES, zone_told};
use kerfbook_acts::read_heat::{self, NewHeat};
use kerfbook_acts::{heat_chart, pile, read_moisture, told_mix, turn_pile};
use kerfbook_ledger::{Book, EntryId, PileView};
use kerfbook_picture::Screen;
use kerfbook_science::caution::{self, AtPile};
use kerfbook_science::compost::fire::FireLevel;
use kerfbook_science::compost::heat_rule;
use kerfbook_science::units::{Mass, Volume};
use kerfbook_words::Words;

use crate::drawing::{DrawingView, drawing};
use crate::entries::{SavedView, saved};
use crate::error::CoreError;
use crate::field_book::{FieldBook, Speech, of_act, of_book};
use crate::load::{BatchLine, CautionView, Measure, batches, container, told_cautions};

/// A pile in a list.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PileLine {
    /// Its id.
    pub id: String,
    /// Its name.
    pub label: String,
    /// Its age and last heat, or what it became.
    pub about: String,
    /// It is still a pile.
    pub stands: bool,
}

/// A zone of a pile.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct ZoneLine {
    /// As the book names it.
    pub name: String,
    /// As people read it.
    pub told: String,
}

/// A pile by itself.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct PilePage {
    /// As in the list.
    pub line: PileLine,
    /// What its rule says of it, what is still needed, how near it is to fire, how it stands.
    pub said: Vec<String>,
    /// Its heat by zone; none where nobody read it.
    pub chart: Option<DrawingView>,
    /// What to heed by its last readings.
    pub cautions: Vec<CautionView>,
    /// Zones to read, in the order of a round: core, edge and base, then those that were named otherwise.
    pub zones: Vec<ZoneLine>,
}

/// A rule that a pile may be to meet.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct RuleLine {
    /// Its name.
    pub name: String,
    /// Who wrote it, and how far it can be trusted here.
    pub about: String,
}

/// What a pile may be built of.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PileStart {
    /// Batches of which something is left.
    pub batches: Vec<BatchLine>,
    /// Rules.
    pub rules: Vec<RuleLine>,
    /// There is a trailer to count in.
    pub trailer: bool,
}

/// What goes into a pile of one batch.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PartGiven {
    /// The batch.
    pub batch: String,
    /// How much, as typed.
    pub amount: String,
}

/// A pile as it is described.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PileGiven {
    /// What it is called.
    pub name: String,
    /// What goes in; batches without an amount do not count.
    pub parts: Vec<PartGiven>,
    /// In what amounts are counted.
    pub measure: Measure,
    /// Water that is added, litres or gallons; may be empty.
    pub water: String,
    /// Name of the rule that it is to meet, where one is chosen.
    pub rule: Option<String>,
}

/// What a pile would come to.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PileAnswer {
    /// In sentences.
    pub said: Vec<String>,
    /// What to heed when it is built.
    pub cautions: Vec<CautionView>,
}

/// A round at a pile as it is typed; whatever stays empty was not read.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct HeatGiven {
    /// The pile.
    pub pile: String,
    /// The zone; the whole pile where none is named.
    pub zone: Option<String>,
    /// What the probe reads, °C or °F.
    pub heat: String,
    /// How deep the probe is, cm or inches.
    pub depth: String,
    /// It smokes.
    pub smoke: bool,
    /// Water by wet mass, per cent.
    pub moisture: String,
}

/// What was read.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct HeatSaved {
    /// The entries.
    pub saved: Vec<SavedView>,
    /// What to heed at that heat.
    pub cautions: Vec<CautionView>,
}

/// A pile that is taken down, as it is described; what stays empty is reckoned.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct FinishGiven {
    /// The pile.
    pub pile: String,
    /// What the batch is called.
    pub name: String,
    /// How much there is, as typed.
    pub amount: String,
    /// In what that is counted.
    pub measure: Measure,
    /// Water by wet mass, per cent.
    pub moisture: String,
    /// Carbon to nitrogen by a laboratory.
    pub carbon_nitrogen: String,
}

/// The batch that a pile became.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct FinishedView {
    /// The entry, which is the batch.
    pub saved: SavedView,
    /// What it comes to, in sentences.
    pub said: Vec<String>,
}

#[uniffi::export]
impl FieldBook {
    /// Piles of the book, those that stand first.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn piles(&self) -> Result<Vec<PileLine>, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let mut piles = of_book(self.book().piles(), &speech)?;
        piles.retain(|pile| !pile.withdrawn());
        piles.sort_by_key(|pile| !pile.stands());
        Ok(piles.iter().map(|pile| line(pile, on, &speech.words)).collect())
    }

    /// A pile: its heat against its rule, and how it stands.
    ///
    /// # Errors
    /// A pile that is not there; a book that cannot be read.
    pub fn pile(&self, pile: String) -> Result<PilePage, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let book = self.book();
        let view = found(&book, &pile, &speech)?;
        let words = &speech.words;
        let log = pile::log(&view);
        let mut said = pile::judged(&view).map_or_else(Vec::new, |heat| heat.told(words));
        said.extend(of_act(pile::state_told(&book, &view, on, words), "pile", &speech)?);
        let fire = log.fire().last().map_or(FireLevel::Green, |(_, level)| *level);
        let number = |value: f64| words.number(value, 2);
        let chart = heat_chart::chart(&view, words);
        let mut named: Vec<&str> = ZONES.to_vec();
        named.extend(log.readings.iter().map(|reading| reading.zone.as_str()));
        let mut zones: Vec<ZoneLine> = Vec::new();
        for zone in named.into_iter().filter(|zone| *zone != WHOLE) {
            if !zones.iter().any(|known| known.name == zone) {
                zones.push(ZoneLine { name: zone.to_owned(), told: zone_told(zone, words) });
            }
        }
        Ok(PilePage {
            line: line(&view, on, words),
            said,
            chart: chart.map(|chart| drawing(chart.draw(Screen::Hand, &number))),
            cautions: told_cautions(&caution::at_pile(AtPile::Reading(fire)), &speech),
            zones,
        })
    }

    /// What a pile may be built of.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn start_pile(&self) -> Result<PileStart, CoreError> {
        let speech = self.speech();
        let words = &speech.words;
        let rules = heat_rule::all().iter().map(|rule| RuleLine {
            name: rule.id.to_owned(),
            about: format!(
                "{} ({})",
                words.body_and_year(&rule.source),
                words.standing(rule.source.standing)
            ),
        });
        Ok(PileStart {
            batches: batches(&self.book(), &speech)?,
            rules: rules.collect(),
            trailer: speech.containers.trailer.is_some(),
        })
    }

    /// What a pile would come to, before anything is written.
    ///
    /// # Errors
    /// A field that does not read, named; a batch that is not there.
    pub fn consider_pile(&self, given: PileGiven) -> Result<PileAnswer, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let (parts, water) = inside(&given, &speech)?;
        let book = self.book();
        let mixed = consider_pile::consider(&book, &parts, water, &speech.containers, on);
        let mixed = of_act(mixed, "amount", &speech)?;
        Ok(PileAnswer {
            said: told_mix::tell(&mixed, &speech.words),
            cautions: told_cautions(&mixed.cautions, &speech),
        })
    }

    /// Builds a pile: what it takes leaves its batches. It is in the book when this returns.
    ///
    /// # Errors
    /// A field that does not read, named; a book that cannot be written.
    pub fn build_pile(&self, given: PileGiven) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let label = speech.typed().name("name", &given.name)?;
        let (parts, water) = inside(&given, &speech)?;
        let new = NewPile {
            label: &label,
            place: None,
            parts: &parts,
            water,
            volume: None,
            moisture: None,
            rule: given.rule.as_deref(),
        };
        let mut book = self.book();
        let built =
            of_act(build_pile::build(&mut book, &new, &speech.containers, moment), "amount", &speech)?;
        saved(&book, built.pile, &speech)
    }

    /// Writes down a round at a pile: heat, smoke, moisture; all of it, or nothing.
    ///
    /// # Errors
    /// Nothing read; a field that does not read, named; heat that no pile has; a book that cannot be written.
    pub fn read_heat(&self, given: HeatGiven) -> Result<HeatSaved, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let pile = typed.entry("pile", &given.pile)?;
        let heat = typed.temperature("heat", &given.heat)?;
        let depth = typed.depth_or_none("depth", &given.depth)?;
        let moisture = typed.percent("moisture", &given.moisture)?;
        if heat.is_none() && given.smoke {
            return Err(typed.wrong("heat", "phone-heat-smoke-first"));
        }
        if heat.is_none() && moisture.is_none() {
            return Err(typed.wrong("heat", "phone-needed"));
        }
        let zone = given.zone.as_deref().filter(|zone| !zone.is_empty());
        let mut book = self.book();
        let written = book.together(|book| {
            let (mut entries, mut cautions) = (Vec::new(), Vec::new());
            if let Some(temperature) = heat {
                let new = NewHeat { pile, zone, depth, temperature, smoke: given.smoke, minute: None };
                let (entry, _, heed) = read_heat::read(book, &new, moment)?;
                entries.push(entry);
                cautions = heed;
            }
            if let Some(moisture) = moisture {
                entries.push(read_moisture::read(book, pile, zone, moisture, moment)?);
            }
            Ok((entries, cautions))
        });
        let (entries, cautions) = written.map_err(|error| refused(&error, &speech))?;
        Ok(HeatSaved {
            saved: entries.iter().map(|entry| saved(&book, *entry, &speech)).collect::<Result<_, _>>()?,
            cautions: told_cautions(&cautions, &speech),
        })
    }

    /// What to heed before a pile is turned.
    pub fn turning_cautions(&self) -> Vec<CautionView> {
        told_cautions(&caution::at_pile(AtPile::Turning), &self.speech())
    }

    /// Writes down a turning, with the water that was added, litres or gallons; may be empty.
    ///
    /// # Errors
    /// A field that does not read; a pile that is not there; a book that cannot be written.
    pub fn turn_pile(&self, pile: String, water: String) -> Result<SavedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let pile = speech.typed().entry("pile", &pile)?;
        let water = speech.typed().liquid("water", &water)?;
        let mut book = self.book();
        let (entry, _) = of_act(turn_pile::turn(&mut book, pile, water, moment), "water", &speech)?;
        saved(&book, entry, &speech)
    }

    /// What to heed before a pile is taken down.
    ///
    /// # Errors
    /// A pile that is not there; a book that cannot be read.
    pub fn finishing_cautions(&self, pile: String) -> Result<Vec<CautionView>, CoreError> {
        let (speech, on) = (self.speech(), self.now()?.date()?);
        let book = self.book();
        let view = found(&book, &pile, &speech)?;
        let cautions = of_act(finish_pile::cautions(&book, &view, on), "pile", &speech)?;
        Ok(told_cautions(&cautions, &speech))
    }

    /// Takes a pile down: it is a batch from now on. What was not measured is reckoned.
    ///
    /// # Errors
    /// A field that does not read, named; more than went in; a book that cannot be written.
    pub fn finish_pile(&self, given: FinishGiven) -> Result<FinishedView, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let typed = speech.typed();
        let pile = typed.entry("pile", &given.pile)?;
        let label = typed.name("name", &given.name)?;
        let (wet, volume) = match (given.amount.trim().is_empty(), given.measure) {
            (true, _) => (None, None),
            (false, Measure::Mass) => (Some(typed.mass("amount", &given.amount)?), None),
            (false, measure) => (None, Some(loose("amount", &given.amount, measure, &speech)?)),
        };
        let new = NewBatch {
            pile,
            label: &label,
            material: None,
            wet,
            volume,
            moisture: typed.percent("moisture", &given.moisture)?,
            carbon_nitrogen: typed.above_zero("carbon_nitrogen", &given.carbon_nitrogen)?,
        };
        let mut book = self.book();
        let done = of_act(finish_pile::finish(&mut book, &new, moment), "amount", &speech)?;
        let words = &speech.words;
        let band = words.around(
            words.rounded(done.carbon_nitrogen),
            &words.rounded(done.band.low),
            &words.rounded(done.band.high),
        );
        let values = [("mass", words.mass(done.wet)), ("lost", words.percent(done.lost)), ("ratio", band)];
        let mut said = vec![words.say("phone-pile-became", &values)];
        if !done.measured {
            said.push(words.label("phone-pile-reckoned"));
        }
        Ok(FinishedView { saved: saved(&book, done.batch, &speech)?, said })
    }
}

/// Batches and amounts, and the water that is added.
fn inside(given: &PileGiven, speech: &Speech) -> Result<(Vec<NewPart>, Option<Mass>), CoreError> {
    let typed = speech.typed();
    let mut parts = Vec::new();
    for part in given.parts.iter().filter(|part| !part.amount.trim().is_empty()) {
        let batch = typed.entry("batch", &part.batch)?;
        let field = format!("amount-{}", part.batch);
        let amount = match given.measure {
            Measure::Mass => Taken::Wet(typed.mass(&field, &part.amount)?),
            measure => Taken::Loose(loose(&field, &part.amount, measure, speech)?),
        };
        parts.push(NewPart { batch, amount });
    }
    if parts.is_empty() {
        return Err(typed.wrong("amount", "phone-pile-parts"));
    }
    Ok((parts, typed.liquid("water", &given.water)?))
}

/// So many containers, loosely filled.
fn loose(field: &str, text: &str, measure: Measure, speech: &Speech) -> Result<Volume, CoreError> {
    if measure == Measure::Depth {
        return Err(speech.typed().wrong("measure", "phone-load-has-no-depth"));
    }
    let one = container(measure, speech)?;
    Ok(Volume::from_litres(one.litres() * speech.typed().needed(field, text)?))
}

/// A reading that was refused, at its field. Heat that no pile has asks for the scale.
fn refused(error: &kerfbook_acts::error::ActError, speech: &Speech) -> CoreError {
    use kerfbook_acts::error::ActError;
    match error {
        ActError::Figure { key: "temperature_c", .. } => {
            let id = match speech.words.units() {
                kerfbook_words::Units::Metric => "phone-heat-perhaps-f",
                kerfbook_words::Units::Us => "phone-heat-beyond",
            };
            speech.typed().wrong("heat", id)
        }
        ActError::Figure { key: "depth_cm", .. } => CoreError::of_act(error, "depth", &speech.words),
        ActError::Figure { .. } => CoreError::of_act(error, "moisture", &speech.words),
        _ => CoreError::of_act(error, "heat", &speech.words),
    }
}

fn found(book: &Book, pile: &str, speech: &Speech) -> Result<Arc<PileView>, CoreError> {
    let wrong = || speech.typed().wrong("pile", "phone-choose");
    let id = EntryId::parse(pile).ok_or_else(wrong)?;
    of_book(book.pile(id), speech)?.filter(|view| !view.withdrawn()).ok_or_else(wrong)
}

fn line(pile: &PileView, on: chrono::NaiveDate, words: &Words) -> PileLine {
    let about = match (pile.finished.first(), pile::log(pile).now()) {
        (Some(end), _) => words.say(
            "phone-pile-is-batch",
            &[
                ("batch", end.body.label.as_str().to_owned()),
                ("date", words.date_with_year(end.date.naive())),
            ],
        ),
        (None, Some((date, hottest))) => words.say(
            "phone-pile-last",
            &[("heat", words.temperature(hottest)), ("date", words.date_beside(date, on))],
        ),
        (None, None) => words.label("phone-pile-unread"),
    };
    PileLine { id: pile.id.to_string(), label: pile.label.as_str().to_owned(), about, stands: pile.stands() }
}
