//! The core on a phone: one object, [`FieldBook`], records in and out, one error.
//!
//! Everything is synchronous: shells call it off their main thread, once a screen. What people read comes as ready
//! sentences in the language and units of a [`Reader`]; what people type goes in as they typed it ([`typed`]).
//! Reading order: [`field_book`] (opening), then one file a screen: [`today`], [`places`], [`walk`], [`crop`], [`load`], [`put_down`],
//! [`look`], [`piles`], [`trials`], [`entries`], [`people`], [`hand_over`]; beside them [`drawing`] (pictures) and [`model`].

#![allow(clippy::needless_pass_by_value, reason = "what shells hand over crosses by value")]

pub mod crop;
pub mod drawing;
pub mod entries;
pub mod error;
pub mod field_book;
pub mod hand_over;
pub mod load;
pub mod look;
pub mod model;
pub mod people;
pub mod piles;
pub mod places;
pub mod port;
pub mod put_down;
pub mod reader;
pub mod today;
pub mod trials;
pub mod typed;
pub mod walk;

pub use error::CoreError;
pub use field_book::FieldBook;
pub use reader::Reader;

uniffi::setup_scaffolding!();
