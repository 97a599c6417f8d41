//! The object: one book, one reader, one clock.

use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};

use kerfbook_acts::error::ActError;
use kerfbook_acts::moment::Moment;
use kerfbook_acts::scenario::Containers;
use kerfbook_ledger::{Book, Date, DeviceKey, EntryId, Founding, LedgerError, Text, When};
use kerfbook_words::Words;

use crate::error::CoreError;
use crate::port::{Clock, KeyStore, Now};
use crate::reader::Reader;
use crate::typed::Typed;

/// Length of the device's secret, bytes.
const SECRET: usize = 32;

/// A new holding.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct NewHolding {
    /// What the holding is called.
    pub name: String,
    /// What this phone is called.
    pub device: String,
    /// Food is sold.
    pub sells: bool,
    /// Certified organic.
    pub certified: bool,
    /// Latitude to about a hundred kilometres, degrees, north positive; for evaporation.
    pub latitude_deg: Option<f64>,
}

/// The field book: open, read, write. All methods may be called from any thread, one at a time does its work.
#[derive(uniffi::Object)]
pub struct FieldBook {
    book: Mutex<Book>,
    speech: RwLock<Arc<Speech>>,
    clock: Arc<dyn Clock>,
    by: RwLock<Option<EntryId>>,
}

/// How this reader is spoken to.
pub(crate) struct Speech {
    pub(crate) words: Words,
    pub(crate) containers: Containers,
}

impl Speech {
    fn of(reader: &Reader) -> Self {
        Self { words: reader.words(), containers: reader.containers() }
    }

    pub(crate) const fn typed(&self) -> Typed<'_> {
        Typed::new(&self.words)
    }
}

#[uniffi::export]
impl FieldBook {
    /// Opens the book of this phone.
    ///
    /// # Errors
    /// No book there, a damaged or newer one, a key store that fails.
    #[uniffi::constructor]
    pub fn open(
        path: String,
        keys: Arc<dyn KeyStore>,
        clock: Arc<dyn Clock>,
        reader: Reader,
    ) -> Result<Arc<Self>, CoreError> {
        let speech = Speech::of(&reader);
        let key = kept(keys.as_ref())?;
        let book = Book::open(Path::new(&path), key.as_ref())
            .map_err(|error| CoreError::of_book(&error, &speech.words))?;
        Ok(Arc::new(Self::with(book, speech, clock)))
    }

    /// Founds a holding in a new book.
    ///
    /// # Errors
    /// A book that is there already, a name that is empty or too long, no room, a key store that fails.
    #[uniffi::constructor]
    pub fn found(
        path: String,
        holding: NewHolding,
        keys: Arc<dyn KeyStore>,
        clock: Arc<dyn Clock>,
        reader: Reader,
    ) -> Result<Arc<Self>, CoreError> {
        let speech = Speech::of(&reader);
        let typed = speech.typed();
        let name = typed.name("name", &holding.name)?;
        let device = typed.name("device", &holding.device)?;
        let label = |text: &str| {
            kerfbook_ledger::Label::new(text)
                .map_err(|error| CoreError::of_book(&LedgerError::Field(error), &speech.words))
        };
        let now = clock.now()?;
        let key = if let Some(key) = kept(keys.as_ref())? {
            key
        } else {
            let secret: [u8; SECRET] = random()?;
            keys.keep(secret.to_vec())?;
            DeviceKey::from_bytes(&secret)
        };
        let founding = Founding {
            name: label(&name)?,
            device_label: label(&device)?,
            nonce: random()?,
            sells: holding.sells,
            certified: holding.certified,
            latitude_centidegree: holding
                .latitude_deg
                .filter(|degrees| degrees.abs() <= 90.0)
                .map(centidegrees),
            when: When::on(
                Date::of(now.date()?).map_err(|error| CoreError::Platform { reason: error.to_string() })?,
            ),
            wall_ms: now.wall_ms,
        };
        let book = Book::create(Path::new(&path), &key, &founding)
            .map_err(|error| CoreError::of_book(&error, &speech.words))?;
        Ok(Arc::new(Self::with(book, speech, clock)))
    }

    /// Speaks another language from now on, in other units, counts in other containers.
    pub fn speak_to(&self, reader: Reader) {
        *self.speech.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(Speech::of(&reader));
    }

    /// Whether entries can be written: a copied book is read only.
    pub fn writable(&self) -> bool {
        self.book().writable()
    }
}

impl FieldBook {
    fn with(book: Book, speech: Speech, clock: Arc<dyn Clock>) -> Self {
        Self { book: Mutex::new(book), speech: RwLock::new(Arc::new(speech)), clock, by: RwLock::new(None) }
    }

    /// The book. A panic in an act left it as its last transaction did; one that a failed write closed is opened again.
    pub(crate) fn book(&self) -> MutexGuard<'_, Book> {
        let mut book = self.book.lock().unwrap_or_else(PoisonError::into_inner);
        // Where that fails too, whatever is asked of the book says so.
        let _still_closed = book.reopen();
        book
    }

    pub(crate) fn speech(&self) -> Arc<Speech> {
        Arc::clone(&self.speech.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Now; asked before the book is locked, because the clock is the shell's.
    pub(crate) fn now(&self) -> Result<Now, CoreError> {
        self.clock.now()
    }

    /// This moment, as acts take it.
    pub(crate) fn moment(&self) -> Result<Moment, CoreError> {
        let now = self.now()?;
        Ok(Moment {
            date: now.date()?,
            wall_ms: now.wall_ms,
            by: *self.by.read().unwrap_or_else(PoisonError::into_inner),
        })
    }

    /// Who writes from now on.
    pub(crate) fn writes(&self, person: Option<EntryId>) {
        *self.by.write().unwrap_or_else(PoisonError::into_inner) = person;
    }
}

/// What an act gives, with its refusal in words.
pub(crate) fn of_act<T>(result: Result<T, ActError>, field: &str, speech: &Speech) -> Result<T, CoreError> {
    result.map_err(|error| CoreError::of_act(&error, field, &speech.words))
}

/// What a book gives, with its refusal in words.
pub(crate) fn of_book<T>(result: Result<T, LedgerError>, speech: &Speech) -> Result<T, CoreError> {
    result.map_err(|error| CoreError::of_book(&error, &speech.words))
}

/// A text kept outside its entry; nothing where nothing was typed.
pub(crate) fn text(typed: &str) -> Result<Option<Text>, CoreError> {
    let typed = typed.trim();
    if typed.is_empty() { Ok(None) } else { Ok(Some(Text::new(random()?, typed))) }
}

fn kept(keys: &dyn KeyStore) -> Result<Option<DeviceKey>, CoreError> {
    let Some(secret) = keys.fetch()? else { return Ok(None) };
    let secret: [u8; SECRET] = secret
        .try_into()
        .map_err(|_| CoreError::Platform { reason: format!("the kept key is not of {SECRET} bytes") })?;
    Ok(Some(DeviceKey::from_bytes(&secret)))
}

/// Random bytes for keys, salts and nonces.
pub(crate) fn random<const N: usize>() -> Result<[u8; N], CoreError> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|error| CoreError::Platform { reason: error.to_string() })?;
    Ok(bytes)
}

#[expect(clippy::cast_possible_truncation, reason = "between the poles")]
fn centidegrees(degrees: f64) -> i32 {
    (degrees * 100.0).round() as i32
}
