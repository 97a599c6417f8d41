//! What is foretold of each place for a day's work: when its layer wants more, when its crop may be hungry, what to give.
//!
//! Only what is needed is run: nothing where no crop is ahead, nothing beyond its harvest, and the past once for all
//! trials of a plan. Places are worked out side by side; the figures do not depend on it.

use chrono::NaiveDate;
use kerfbook_ledger::{Book, EntryId};

use crate::error::ActError;
use crate::feed_plan::{Terms, of_place};
use crate::lying;
use crate::season::{self, AHEAD_DAYS, Season};
use crate::side_by_side::side_by_side;
use crate::today::{Outlook, TopUp};

/// What is foretold of every place that is not closed, in the order of the book.
///
/// # Errors
/// A book that cannot be read; a source or rules that the tables do not know; what the model refuses.
pub fn outlooks(book: &Book, on: NaiveDate, terms: &Terms) -> Result<Vec<Outlook>, ActError> {
    Ahead::of(book, on)?.foretell(terms)
}

/// All that the book says of places whose future is to be told. Once it is read the book is free for others.
pub struct Ahead(Vec<Known>);

impl Ahead {
    /// Reads what the book says of every place that is not closed.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub fn of(book: &Book, on: NaiveDate) -> Result<Self, ActError> {
        let at_hand = of_place::names(&of_place::at_hand(book, on)?);
        let open = |closed: Option<kerfbook_ledger::Date>| closed.is_none_or(|closed| closed.naive() > on);
        let places = book.places()?;
        let places = places.iter().filter(|place| !place.withdrawn() && open(place.closed));
        places.map(|place| Known::of(book, place.id, on, &at_hand)).collect::<Result<_, ActError>>().map(Self)
    }

    /// What is foretold of them, in their order.
    ///
    /// # Errors
    /// A source or rules that the tables do not know; what the model refuses.
    pub fn foretell(&self, terms: &Terms) -> Result<Vec<Outlook>, ActError> {
        side_by_side(&self.0, |known| known.foretell(terms))
    }
}

/// What the book says of a place.
struct Known {
    place: EntryId,
    top_up: Option<TopUp>,
    /// Where a crop is ahead.
    season: Option<Season>,
}

impl Known {
    fn of(book: &Book, place: EntryId, on: NaiveDate, at_hand: &[String]) -> Result<Self, ActError> {
        let lying = lying::lying(book, place, on, None)?;
        let top_up = lying.top_up.and_then(|when| {
            Some(TopUp { on: when.likely?, lies: Some(lying.depth.typical), wanted: Some(lying.wanted) })
        });
        let begun = season::begun(book, place, on, AHEAD_DAYS)?;
        let mut season = begun.filter(|season| !season.ahead().is_empty());
        if let Some(season) = &mut season {
            season.scenario.holding.at_hand = at_hand.to_vec();
        }
        Ok(Self { place, top_up, season })
    }

    fn foretell(&self, terms: &Terms) -> Result<Outlook, ActError> {
        let outlook = Outlook { place: self.place, top_up: self.top_up, feeds: Vec::new(), hungry: None };
        let Some(season) = &self.season else { return Ok(outlook) };
        let left = season.left(terms.runs, terms.seed)?;
        let of_place::Next { hungry, feeds } = of_place::next(season, left.as_ref(), terms)?;
        Ok(Outlook { feeds, hungry, ..outlook })
    }
}
