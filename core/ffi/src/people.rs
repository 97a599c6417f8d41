//! Who writes on this phone, and how much its containers hold.

use kerfbook_acts::name_person;
use kerfbook_ledger::{EntryId, Flag, LedgerError};
use kerfbook_science::units::Volume;
use kerfbook_words::Units;

use crate::error::CoreError;
use crate::field_book::{FieldBook, of_act, of_book, text};

/// A person whom the book names.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PersonLine {
    /// The id of the naming.
    pub id: String,
    /// The name.
    pub name: String,
}

/// What containers hold, as a person types it in their own units: barrow and bucket in litres or US gallons, trailer in
/// cubic metres or cubic yards.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct ContainersGiven {
    /// A level barrow; the usual one where nothing stands there.
    pub barrow: String,
    /// A bucket; likewise.
    pub bucket: String,
    /// A trailer; none where nothing stands there.
    pub trailer: String,
}

/// What containers hold, as a `Reader` takes it.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct ContainersView {
    /// A level barrow, litres.
    pub barrow_l: Option<f64>,
    /// A bucket, litres.
    pub bucket_l: Option<f64>,
    /// A trailer, cubic metres.
    pub trailer_m3: Option<f64>,
}

#[uniffi::export]
impl FieldBook {
    /// People whom the book names, in the order of their naming.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn people(&self) -> Result<Vec<PersonLine>, CoreError> {
        let speech = self.speech();
        let book = self.book();
        let read = || -> Result<Vec<PersonLine>, LedgerError> {
            let mut people = Vec::new();
            for person in book.people()?.into_iter().filter(|person| !person.flags.contains(&Flag::Withdrawn))
            {
                // A name that was erased is nobody to choose.
                if let Some(name) = book.text(person.name)? {
                    people.push(PersonLine { id: person.id.to_string(), name });
                }
            }
            Ok(people)
        };
        of_book(read(), &speech)
    }

    /// Names a person, who writes on this phone from now on. Gives the naming's id.
    ///
    /// # Errors
    /// A name that is empty or too long; a book that cannot be written.
    pub fn name_person(&self, name: String) -> Result<String, CoreError> {
        let (speech, moment) = (self.speech(), self.moment()?);
        let name = speech.typed().name("name", &name)?;
        let Some(name) = text(&name)? else { return Err(speech.typed().wrong("name", "phone-needed")) };
        let person = of_act(name_person::name(&mut self.book(), &name, moment), "name", &speech)?;
        self.writes(Some(person));
        Ok(person.to_string())
    }

    /// Who writes on this phone from now on; nobody where it is no person of this book. The name is not proved.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn write_as(&self, person: Option<String>) -> Result<(), CoreError> {
        let known = self.people()?;
        let person = person.filter(|id| known.iter().any(|one| one.id == *id));
        self.writes(person.as_deref().and_then(EntryId::parse));
        Ok(())
    }

    /// Reads what containers hold.
    ///
    /// # Errors
    /// A figure that is none.
    pub fn read_containers(&self, given: ContainersGiven) -> Result<ContainersView, CoreError> {
        let speech = self.speech();
        let typed = speech.typed();
        let us = speech.words.units() == Units::Us;
        let litres = |field, text: &str| -> Result<Option<f64>, CoreError> {
            let read = typed.above_zero(field, text)?;
            Ok(read.map(|one| if us { Volume::from_us_gallons(one).litres() } else { one }))
        };
        let trailer = typed.above_zero("trailer", &given.trailer)?;
        Ok(ContainersView {
            barrow_l: litres("barrow", &given.barrow)?,
            bucket_l: litres("bucket", &given.bucket)?,
            trailer_m3: trailer.map(|one| if us { Volume::from_cubic_yards(one).m3() } else { one }),
        })
    }
}
