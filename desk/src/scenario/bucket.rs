//! A bucket test: what a bucket of known volume weighs, filled in one of the published manners.

use kerfbook_science::dose::{Bulk, DoseError, Filling};
use kerfbook_science::units::{Mass, Volume};

use crate::fault::Message;
use crate::toml_file::layout::{Key, key};
use crate::toml_file::section::{Bounds, Section};

/// The keys of a bucket test, in every section that takes one.
pub(crate) const KEYS: [Key; 4] = [
    key("bucket_l", "10"),
    key("bucket_empty_kg", "0.6"),
    key("bucket_full_kg", "[3.4, 3.6, 3.5]"),
    key("bucket_filled", "\"poured\""),
];

const NAMES: [&str; 4] = ["bucket_l", "bucket_empty_kg", "bucket_full_kg", "bucket_filled"];

/// The test of a section, where it has one; what is missing of it is noted.
pub(crate) fn test(section: &Section<'_>) -> Option<Bulk> {
    if !NAMES.iter().any(|name| section.has(name)) {
        return None;
    }
    section.one_alone("bulk_density_kg_m3", "bucket_full_kg");
    for name in NAMES {
        if !section.has(name) {
            section.missing(name, None);
        }
    }
    let litres = section.number("bucket_l", Bounds::between(1.0, 200.0, "l"));
    let empty = section.number("bucket_empty_kg", Bounds::between(0.0, 50.0, "kg"));
    let full = section.numbers("bucket_full_kg", Bounds::above_zero(500.0, "kg"));
    let fillings = Filling::ALL.map(|filling| (filling.name(), filling));
    let filling = section.choice("bucket_filled", &fillings);
    let full: Vec<Mass> = full?.into_iter().map(Mass::from_kg).collect();
    let tested = Bulk::of_buckets(Volume::from_litres(litres?), Mass::from_kg(empty?), &full, filling?);
    match tested {
        Ok(bulk) => Some(bulk),
        Err(DoseError::Bucket { number, full_kg, empty_kg }) => {
            let what = Message::new("desk-bucket-weighs-nothing")
                .text("number", number)
                .text("full", full_kg)
                .text("empty", empty_kg);
            section.complain("bucket_full_kg", what, Some(Message::new("desk-bucket-weigh")));
            None
        }
        Err(_) => {
            section.missing("bucket_full_kg", None);
            None
        }
    }
}
