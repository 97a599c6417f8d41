//! `[holding]`, `[soil]`, `[place]` and `[containers]`.

use kerfbook_acts::doubt::sd_of_within;
use kerfbook_acts::scenario::{BARROW_L, BUCKET_L, Containers, Holding, Place, PlaceKind, Soil, SoilAnswers};
use kerfbook_science::plain::{Colour, LastCropFed, Rolled, weather as plain_weather};
use kerfbook_science::soil as science;
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Volume};

use super::Silence;
use super::names;
use crate::fault::Message;
use crate::toml_file::section::{Bounds, Section};

/// Degrees of latitude.
pub(crate) const LATITUDE: Bounds = Bounds::between(-90.0, 90.0, "°");
/// Dry soil, from loose peat to packed subsoil.
const SOIL_DENSITY: Bounds = Bounds::between(0.2, 2.2, "g/cm3");
/// Nearest the poles that evaporation can be estimated: beyond, some days have no sunrise or no sunset.
const ESTIMATE_LATITUDE: f64 = 66.0;

/// Depth of soil where none is given, cm; common practice: a spade's depth.
const DEPTH_CM: f64 = 25.0;
/// The keys that say what a soil test found.
const TESTS: [&str; 3] = ["mineral_nitrogen_kg_ha", "nitrate_n_ppm", "nitrate_ppm"];
/// Part of the available water that is there at the start; assumption: spring, after winter rain.
const WATER_AT_START_PCT: f64 = 90.0;

/// `told_in_words`: the months are, and then no latitude is needed.
pub(super) fn holding(
    section: &Section<'_>,
    estimates_evaporation: bool,
    told_in_words: bool,
    silence: &mut Silence,
) -> Holding {
    let mut latitude = section.number("latitude_deg", LATITUDE);
    match latitude {
        None if estimates_evaporation && told_in_words && !section.has("latitude_deg") => {
            let typical = plain_weather::TYPICAL_LATITUDE_DEG.value;
            latitude = Some(silence.number("holding.latitude_deg", typical));
        }
        Some(latitude) if estimates_evaporation && latitude.abs() > ESTIMATE_LATITUDE => {
            let what = Message::new("desk-latitude-for-estimate").text("value", latitude);
            section.complain("latitude_deg", what, Some(Message::new("desk-give-evaporation")));
        }
        None if estimates_evaporation && !section.has("latitude_deg") => {
            section.missing("latitude_deg", Some(Message::new("desk-latitude-or-evaporation")));
        }
        _ => {}
    }
    let sources = section.texts("at_hand");
    for source in &sources {
        names::feed(section, "at_hand", source);
    }
    Holding {
        latitude_deg: latitude,
        sells: section.flag("sells"),
        certified: section.flag("certified"),
        urine_confirmed: section.flag("urine_confirmed"),
        at_hand: sources.into_iter().map(str::to_owned).collect(),
    }
}

pub(super) fn soil(section: &Section<'_>, silence: &mut Silence) -> Option<Soil> {
    let clay = section.number("clay_pct", Bounds::PERCENT);
    let sand = section.number("sand_pct", Bounds::PERCENT);
    if let (Some(clay), Some(sand)) = (clay, sand)
        && clay + sand > 100.0 + 1e-9
    {
        let what = Message::new("desk-clay-and-sand").text("sum", clay + sand);
        section.complain("sand_pct", what, Some(Message::new("desk-check-both")));
    }
    let rolled = section.choice("rolled", &Rolled::choices());
    section.one_alone("clay_pct", "rolled");
    let colour = section.choice("colour", &Colour::choices());
    section.one_alone("organic_matter_pct", "colour");
    if !section.has("organic_matter_pct") && !section.has("colour") {
        section.missing("organic_matter_pct", Some(Message::new("desk-organic-matter-hint")));
    }
    let organic_matter = section.number("organic_matter_pct", Bounds::PERCENT).or_else(|| match colour? {
        Colour::Unknown => {
            let typical = Colour::Unknown.organic_matter_pct().typical;
            Some(silence.number("soil.organic_matter_pct", typical))
        }
        told => Some(told.organic_matter_pct().typical),
    });
    let last_crop_fed = section.choice("last_crop_fed", &LastCropFed::choices());
    for test in TESTS {
        section.one_alone(test, "last_crop_fed");
    }
    let density = soil_density(section);
    let depth = section.number("depth_cm", Bounds::between(5.0, 200.0, "cm"));
    let depth_cm = depth.unwrap_or_else(|| silence.number("soil.depth_cm", DEPTH_CM));
    let mineral_nitrogen = mineral_nitrogen(section, density, depth_cm, silence);
    let sampled = section.date("sampled");
    if sampled.is_some() && mineral_nitrogen.is_none() && !TESTS.iter().any(|name| section.has(name)) {
        let what = Message::new("desk-sampled-without-result");
        section.complain("sampled", what, Some(Message::new("desk-add-soil-test")));
    }
    let water = Bounds::above_zero(500.0, "mm");
    let available = section.number("available_water_mm", water);
    let capacity = section.number("field_capacity_mm", Bounds::above_zero(1_500.0, "mm"));
    if let (Some(available), Some(capacity)) = (available, capacity)
        && available > capacity
    {
        let what = Message::new("desk-more-available-than-capacity");
        section.complain("available_water_mm", what, Some(Message::new("desk-check-both")));
    }
    let at_start = section.number("water_at_start_pct", Bounds::PERCENT);
    Some(Soil {
        clay: clay.map(Share::from_percent),
        sand: sand.map(Share::from_percent),
        organic_matter: Share::from_percent(organic_matter?),
        bulk_density: density.map(Density::from_g_cm3),
        depth: Length::from_cm(depth_cm),
        mineral_nitrogen,
        sampled,
        available_water: available.map(Length::from_mm),
        field_capacity: capacity.map(Length::from_mm),
        water_at_start: Share::from_percent(
            at_start.unwrap_or_else(|| silence.number("soil.water_at_start_pct", WATER_AT_START_PCT)),
        ),
        answers: SoilAnswers { rolled, colour, last_crop_fed },
    })
}

pub(crate) fn soil_density(section: &Section<'_>) -> Option<f64> {
    let name = "bulk_density_g_cm3";
    let stated = section.finite(name)?;
    if (100.0..=2_200.0).contains(&stated) {
        let line = format!("{name} = {}", stated / 1_000.0);
        section.out_of_bounds(
            name,
            SOIL_DENSITY,
            Some(Message::new("desk-looks-like-kg-m3").text("line", line)),
        );
        return None;
    }
    section.number(name, SOIL_DENSITY)
}

/// Mineral nitrogen from whichever of the three figures is given.
fn mineral_nitrogen(
    section: &Section<'_>,
    density: Option<f64>,
    depth_cm: f64,
    silence: &mut Silence,
) -> Option<AreaMass> {
    let (name, value) = section.one_of(
        &[
            ("mineral_nitrogen_kg_ha", Bounds::between(0.0, 1_000.0, "kg/ha")),
            ("nitrate_n_ppm", Bounds::between(0.0, 300.0, "ppm")),
            ("nitrate_ppm", Bounds::between(0.0, 1_300.0, "ppm")),
        ],
        false,
    )?;
    if name == "mineral_nitrogen_kg_ha" {
        return Some(AreaMass::from_kg_ha(value));
    }
    let density = density.map_or_else(
        || {
            let typical = science::TYPICAL_BULK_DENSITY.value;
            silence.number("soil.bulk_density_g_cm3", typical.g_cm3());
            typical
        },
        Density::from_g_cm3,
    );
    let nitrogen_ppm = if name == "nitrate_ppm" { science::nitrogen_of_nitrate(value) } else { value };
    Some(science::nitrogen_of_ppm(nitrogen_ppm, density, Length::from_cm(depth_cm)))
}

const PLACE_KINDS: [(&str, PlaceKind); 7] = [
    ("bed", PlaceKind::Bed),
    ("row", PlaceKind::Row),
    ("rings", PlaceKind::Rings),
    ("path", PlaceKind::Path),
    ("yard", PlaceKind::Yard),
    ("plot", PlaceKind::Plot),
    ("container", PlaceKind::Container),
];

/// The place; a container may be given by its volume alone.
pub(super) fn place(
    section: &Section<'_>,
    soil_depth: Option<Length>,
    silence: &mut Silence,
) -> Option<Place> {
    let kind = if section.has("kind") {
        section.choice("kind", &PLACE_KINDS)
    } else {
        Some(silence.text("place.kind", "bed", PlaceKind::Bed))
    };
    let rooting_depth = section.number("rooting_depth_cm", Bounds::between(5.0, 300.0, "cm"));
    let volume = section.number("volume_l", Bounds::above_zero(100_000.0, "l"));
    let area = section.number("area_m2", Bounds::above_zero(1e8, "m2"));
    let within = section.number("area_within_pct", Bounds::between(0.0, 100.0, "%"));
    let is_container = kind == Some(PlaceKind::Container);
    if is_container && !section.has("volume_l") {
        section.missing("volume_l", None);
    }
    if section.has("volume_l") && kind.is_some() && !is_container {
        let what = Message::new("desk-volume-of-no-container");
        section.complain("volume_l", what, Some(Message::new("desk-say-container")));
    }
    let depth = rooting_depth.map(Length::from_cm).or(soil_depth);
    let area = match (area, volume, depth) {
        (Some(area), ..) => Some(area),
        (None, Some(volume), Some(depth)) if is_container && !section.has("area_m2") => {
            let area = Volume::from_litres(volume).m3() / depth.m();
            Some(silence.number("place.area_m2", area))
        }
        _ => {
            if !section.has("area_m2") && !is_container {
                section.missing("area_m2", None);
            }
            None
        }
    };
    Some(Place {
        kind: kind?,
        area: Area::from_m2(area?),
        area_sd: within.map(|percent| sd_of_within(percent / 100.0)),
        rooting_depth: rooting_depth.map(Length::from_cm),
        container: volume.map(Volume::from_litres),
    })
}

pub(super) fn containers(section: &Section<'_>, silence: &mut Silence) -> Containers {
    let barrow = section.number("barrow_l", Bounds::between(10.0, 1_000.0, "l"));
    let bucket = section.number("bucket_l", Bounds::between(1.0, 200.0, "l"));
    let trailer = section.number("trailer_m3", Bounds::between(0.05, 200.0, "m3"));
    let carries = section.number("trailer_carries_kg", Bounds::above_zero(100_000.0, "kg"));
    if carries.is_some() && !section.has("trailer_m3") {
        section.missing("trailer_m3", None);
    }
    let barrow = barrow.unwrap_or_else(|| silence.number("containers.barrow_l", BARROW_L.value));
    let bucket = bucket.unwrap_or_else(|| silence.number("containers.bucket_l", BUCKET_L.value));
    Containers {
        barrow: Volume::from_litres(barrow),
        bucket: Volume::from_litres(bucket),
        trailer: trailer.map(Volume::from_m3),
        trailer_carries: carries.map(Mass::from_kg),
    }
}

/// The grower's own containers, usual sizes for those that are not said.
pub(crate) fn containers_of(section: &Section<'_>) -> Containers {
    containers(section, &mut Silence(Vec::new()))
}

/// A place by itself, whose size is said.
pub(crate) fn measured_place(section: &Section<'_>) -> Option<Place> {
    place(section, None, &mut Silence(Vec::new()))
}
