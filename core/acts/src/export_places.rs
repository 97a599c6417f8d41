//! The book's places for files: name, kind, size and how it is known, and the outline or the walk.

use kerfbook_ledger::exchange::{self, Feature, Shape, Track, TrackPoint, wkt};
use kerfbook_ledger::projection::place::Measure;
use kerfbook_ledger::{Book, LedgerError, PlaceView, RawAccuracy, RawFix, read_fixes};

use crate::outline::{self, Sketch};

/// Every place that is open, as last measured. With `walks`, the fixes of a walk in place of its outline, where they
/// were kept.
///
/// # Errors
/// A book that cannot be read.
pub fn features(book: &Book, walks: bool) -> Result<Vec<Feature>, LedgerError> {
    let open = book.places()?.into_iter().filter(|place| !place.withdrawn() && place.closed.is_none());
    open.map(|place| feature(book, &place, walks)).collect()
}

fn feature(book: &Book, place: &PlaceView, walks: bool) -> Result<Feature, LedgerError> {
    let measure = place.measures.last();
    let sketch = measure.and_then(Sketch::of);
    let walk = match measure.filter(|_| walks) {
        Some(measure) => fixes(book, measure)?,
        None => None,
    };
    let shape = match (walk, sketch.as_ref().and_then(Sketch::polygons)) {
        (Some(track), _) => Shape::Track(track),
        (None, Some(polygons)) => Shape::Polygons(polygons),
        (None, None) => Shape::Unknown,
    };
    let mut figures = vec![("kind", place.place_kind.name().to_owned())];
    if let Some(measure) = measure {
        figures.push(("measured", measure.measured.name().to_owned()));
    }
    figures.push(("area_m2", scaled(place.area_mm2, 6)));
    figures.extend(place.area_sd_mm2.map(|sd| ("area_sd_m2", scaled(sd, 6))));
    // Whoever changes the outline in another program is seen by it.
    let drawn = match &shape {
        Shape::Unknown => None,
        Shape::Polygons(polygons) => outline::area_m2(polygons),
        Shape::Track(track) => outline::area_m2(&exchange::outlines(track)),
    };
    figures.extend(drawn.map(|m2| ("outline_m2", format!("{m2:.6}"))));
    figures.extend(place.containers.map(|count| ("containers", count.to_string())));
    figures.extend(place.container_ml.map(|ml| ("container_l", scaled(ml, 3))));
    figures.extend(place.rooting_depth_mm.map(|mm| ("rooting_depth_cm", scaled(u64::from(mm), 1))));
    if let (Some(sketch), Shape::Unknown) = (&sketch, &shape) {
        figures.push(("local_outline_m", wkt::plain(&sketch.polygons_m())));
    }
    Ok(Feature { name: Some(place.label.as_str().to_owned()), figures, shape, ..Feature::at(0) })
}

/// A whole number of small units as a decimal number of the large one.
fn scaled(whole: u64, digits: u32) -> String {
    let one = 10_u64.pow(digits);
    let width = digits as usize;
    let text = format!("{}.{:0width$}", whole / one, whole % one);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The walk's fixes, where all of them were kept.
fn fixes(book: &Book, measure: &Measure) -> Result<Option<Track>, LedgerError> {
    let Some(walk) = measure.walk.as_ref().filter(|walk| !walk.fixes.is_empty()) else { return Ok(None) };
    let mut texts = Vec::new();
    for hash in &walk.fixes {
        match book.text(*hash)? {
            Some(text) => texts.push(text),
            None => return Ok(None),
        }
    }
    let Ok(segments) = read_fixes(texts.iter().map(String::as_str)) else { return Ok(None) };
    let segments = segments.into_iter().map(|fixes| fixes.into_iter().map(point).collect()).collect();
    Ok(Some(Track { segments }))
}

fn point(fix: RawFix) -> TrackPoint {
    let (accuracy_m, hdop) = match fix.accuracy {
        RawAccuracy::Unknown => (None, None),
        RawAccuracy::Radius(mm) => (Some(f64::from(mm) / 1e3), None),
        RawAccuracy::Dilution(hundredths) => (None, Some(f64::from(hundredths) / 1e2)),
    };
    TrackPoint {
        longitude: f64::from(fix.longitude_e7) / 1e7,
        latitude: f64::from(fix.latitude_e7) / 1e7,
        time_ms: Some(fix.time_ms),
        accuracy_m,
        hdop,
    }
}
