//! What a pile would come to, before it is built.

use chrono::NaiveDate;
use kerfbook_ledger::Book;
use kerfbook_science::compost::balance::Goals;
use kerfbook_science::units::{Density, Mass};

use crate::blend_batch::{self, NewPart, any_twice};
use crate::error::ActError;
use crate::mix::{Ingredient, Mixed, Recipe, mix};
use crate::pile::composition_of;
use crate::scenario::Containers;

/// Works out what batches come to as a pile, with the water that is added. Nothing is written.
///
/// # Errors
/// No batch or one twice, a batch that is not in the book or came later, amounts that make nothing.
pub fn consider(
    book: &Book,
    parts: &[NewPart],
    water: Option<Mass>,
    containers: &Containers,
    on: NaiveDate,
) -> Result<Mixed, ActError> {
    if parts.is_empty() || any_twice(parts) {
        return Err(ActError::NoPile);
    }
    let mut ingredients = Vec::new();
    for part in parts {
        let portion = blend_batch::portion(book, part, containers, on)?;
        let volume = portion.volume;
        ingredients.push(Ingredient {
            name: portion.batch.label.as_str().to_owned(),
            material: Some(portion.figures.material),
            of: composition_of(&portion.figures).ok_or(ActError::NoPile)?,
            wet_density: (volume.m3() > 0.0).then(|| Density::from_kg_m3(portion.wet.kg() / volume.m3())),
            amount: Some(portion.wet),
            at_hand: None,
        });
    }
    ingredients
        .extend(water.map(|water| Ingredient { amount: Some(water), ..Ingredient::water(String::new()) }));
    let recipe =
        Recipe { ingredients, goals: Goals::default(), whole: None, adjust: false, water: String::new() };
    mix(&recipe).map_err(|_| ActError::NoPile)
}
