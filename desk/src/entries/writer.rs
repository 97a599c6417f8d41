//! What every row needs: the book, the day, names of what is in the book, and where complaints go.

use std::sync::Arc;

use chrono::NaiveDate;
use kerfbook_acts::compare::Three;
use kerfbook_acts::dig_in;
use kerfbook_acts::error::ActError;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::scenario::{Containers, Holding};
use kerfbook_acts::work_soil::NewWorking;
use kerfbook_ledger::{BatchView, Book, EntryId, Kind, PileView, PlaceView, Text};
use kerfbook_science::caution::Caution;
use kerfbook_science::units::AreaMass;
use kerfbook_words::Words;

use crate::acted;
use crate::book::random;
use crate::context::Context;
use crate::fault::Message;
use crate::toml_file::layout::nearest;
use crate::toml_file::section::{Notes, Section};

/// Runs of the warning before mulch is dug in.
const RUNS: u32 = 200;
/// Their seed.
const SEED: u64 = 1;

/// Writes rows into a book.
pub(super) struct Writer<'a> {
    pub(super) book: &'a mut Book,
    pub(super) containers: Containers,
    pub(super) words: &'a Words,
    /// Entries written, in order.
    pub(super) entries: Vec<EntryId>,
    cautions: Vec<String>,
    pub(super) warnings: Vec<String>,
    moment: Moment,
    opened: NaiveDate,
}

/// What was written.
pub(super) struct Written {
    pub(super) entries: Vec<EntryId>,
    pub(super) cautions: Vec<String>,
    pub(super) warnings: Vec<String>,
}

impl<'a> Writer<'a> {
    pub(super) fn new(book: &'a mut Book, containers: Containers, context: &'a Context) -> Option<Self> {
        let opened = book.of_kind(Kind::HoldingOpened).ok()?.first()?.date.naive();
        let moment = Moment { date: opened, wall_ms: context.wall_ms(), by: None };
        Some(Self {
            book,
            containers,
            words: context.words(),
            entries: Vec::new(),
            cautions: Vec::new(),
            warnings: Vec::new(),
            moment,
            opened,
        })
    }

    /// The day on which the book was opened.
    pub(super) const fn opened(&self) -> NaiveDate {
        self.opened
    }

    /// What follows happened on this day.
    pub(super) const fn on(&mut self, date: NaiveDate) {
        self.moment = self.moment.on(date);
    }

    /// Day, person and time of writing.
    pub(super) const fn moment(&self) -> Moment {
        self.moment
    }

    /// Entries from here on are of this person, who must be in the book or in the file before.
    pub(super) fn speak_for(&mut self, notes: &Notes<'_>, name: &str) {
        match self.people().into_iter().find(|(known, _)| known == name) {
            Some((_, person)) => self.moment.by = Some(person),
            None => notes.add(None, "--by", Message::new("enter-no-person").text("name", name), None),
        }
    }

    /// Whose book it is, for cautions.
    pub(super) fn holding(&self) -> Holding {
        let view = self.book.holding_view().ok().flatten();
        view.map(|view| Holding { sells: view.sells, certified: view.certified, ..Holding::default() })
            .unwrap_or_default()
    }

    /// Tells what digging in on the day would change, before it is saved. A place of which nothing can be foretold
    /// gives no warning.
    pub(super) fn warn_of_digging_in(&mut self, place: &PlaceView, working: &NewWorking) {
        let Some(depth) = working.depth() else { return };
        let on = self.moment.date;
        let Ok(dug) = dig_in::dig_in(self.book, place.id, depth, working.share, on, RUNS, SEED) else {
            return;
        };
        if dug.nothing_grows || dug.reaches.is_empty() {
            return;
        }
        let words = self.words;
        let nitrogen = |three: Three| words.nitrogen(AreaMass::from_kg_ha(three.middle()));
        let mut arguments = vec![
            ("place", place.label.as_str().to_owned()),
            ("depth", words.depth(depth)),
            ("tied", nitrogen(dug.tied_more)),
        ];
        let id = if dug.lost.is_some() { "enter-dig-in-costs" } else { "enter-dig-in-ties" };
        arguments.extend(dug.lost.map(|lost| ("lost", nitrogen(lost))));
        self.warnings.push(words.say(id, &arguments));
    }

    pub(super) fn finish(self) -> Written {
        Written { entries: self.entries, cautions: self.cautions, warnings: self.warnings }
    }

    /// Keeps an entry, or notes at the row why there is none.
    pub(super) fn keep(
        &mut self,
        section: &Section<'_>,
        entry: Result<EntryId, ActError>,
    ) -> Option<EntryId> {
        let entry = Self::heed(section, entry)?;
        self.entries.push(entry);
        Some(entry)
    }

    /// What an act gave, or a note at the row why it gave nothing.
    pub(super) fn heed<T>(section: &Section<'_>, outcome: Result<T, ActError>) -> Option<T> {
        match outcome {
            Ok(value) => Some(value),
            Err(error) => {
                let (what, remedy) = acted::told(&error);
                section.complain_whole(what, remedy);
                None
            }
        }
    }

    /// Adds cautions, each once.
    pub(super) fn mind(&mut self, cautions: &[&'static Caution]) {
        for caution in cautions {
            let told = self.words.caution(caution);
            let sentence = format!("{}: {} ({})", told.severity, told.text, told.source);
            if !self.cautions.contains(&sentence) {
                self.cautions.push(sentence);
            }
        }
    }

    /// A text that is kept outside its entry.
    pub(super) fn text(section: &Section<'_>, text: &str) -> Option<Text> {
        let salt = random().map_err(|_| {
            section.complain_whole(Message::new("desk-no-randomness").text("why", "getrandom"), None);
        });
        Some(Text::new(salt.ok()?, text))
    }

    /// The place that the row names.
    pub(super) fn place(&self, section: &Section<'_>) -> Option<Arc<PlaceView>> {
        let name = section.required_text("place")?;
        let places = self.book.places().unwrap_or_default();
        let open = places.into_iter().filter(|place| !place.withdrawn()).collect::<Vec<_>>();
        Self::named(section, "place", name, open, |place| place.label.as_str().to_owned())
    }

    /// The place that the row names, where it names one.
    pub(super) fn place_or_none(&self, section: &Section<'_>) -> Result<Option<Arc<PlaceView>>, ()> {
        if section.has("place") { self.place(section).map(Some).ok_or(()) } else { Ok(None) }
    }

    /// The batch that a key of the row names.
    pub(super) fn batch(&self, section: &Section<'_>, key: &str) -> Option<Arc<BatchView>> {
        let name = section.required_text(key)?;
        self.batch_called(section, key, name)
    }

    /// The batch of a name.
    pub(super) fn batch_called(
        &self,
        section: &Section<'_>,
        key: &str,
        name: &str,
    ) -> Option<Arc<BatchView>> {
        let batches = self.book.batches().unwrap_or_default();
        let there = batches.into_iter().filter(|batch| !batch.withdrawn()).collect::<Vec<_>>();
        Self::named(section, key, name, there, |batch| batch.label.as_str().to_owned())
    }

    /// The pile that the row names.
    pub(super) fn pile(&self, section: &Section<'_>) -> Option<Arc<PileView>> {
        let name = section.required_text("pile")?;
        let piles = self.book.piles().unwrap_or_default();
        let there = piles.into_iter().filter(|pile| !pile.withdrawn()).collect::<Vec<_>>();
        Self::named(section, "pile", name, there, |pile| pile.label.as_str().to_owned())
    }

    /// The trial that the row names.
    pub(super) fn trial(&self, section: &Section<'_>) -> Option<EntryId> {
        let name = section.required_text("trial")?;
        let trials = self.book.trials().unwrap_or_default();
        let there = trials.into_iter().filter(|trial| !trial.withdrawn()).collect::<Vec<_>>();
        Self::named(section, "trial", name, there, |trial| trial.label.as_str().to_owned())
            .map(|trial| trial.id)
    }

    /// The person that a key of the row names, where there is one.
    pub(super) fn person(&self, section: &Section<'_>, key: &str) -> Result<Option<EntryId>, ()> {
        let Some(name) = section.text(key) else { return if section.has(key) { Err(()) } else { Ok(None) } };
        let people = self.people();
        Self::named(section, key, name, people, |(name, _)| name.clone())
            .map(|(_, person)| Some(person))
            .ok_or(())
    }

    fn people(&self) -> Vec<(String, EntryId)> {
        let people = self.book.people().unwrap_or_default();
        people
            .into_iter()
            .filter_map(|person| Some((self.book.text(person.name).ok()??, person.id)))
            .collect()
    }

    /// The one thing of a name; none, or more than one, is noted.
    fn named<T>(
        section: &Section<'_>,
        key: &str,
        name: &str,
        all: Vec<T>,
        called: impl Fn(&T) -> String,
    ) -> Option<T> {
        let names: Vec<String> = all.iter().map(&called).collect();
        let mut found = all.into_iter().filter(|one| called(one) == name);
        match (found.next(), found.next()) {
            (Some(one), None) => Some(one),
            (Some(_), Some(_)) => {
                let what = Message::new("enter-two-of-a-name").text("name", name);
                section.complain(key, what, Some(Message::new("enter-two-of-a-name-remedy")));
                None
            }
            (None, _) => {
                let near = nearest(name, names.iter().map(String::as_str), 3);
                let remedy = if near.is_empty() {
                    Message::new("enter-name-first")
                } else {
                    Message::new("desk-did-you-mean").text("name", near.join(", "))
                };
                section.complain(key, Message::new("enter-unknown-name").text("name", name), Some(remedy));
                None
            }
        }
    }
}
