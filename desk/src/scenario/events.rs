//! What happens on the place: crops, loads, feeds, water, work.

use chrono::NaiveDate;
use kerfbook_acts::doubt::{self, sd_of_within};
use kerfbook_acts::scenario::{
    Again, Amount, Appetite, Containers, Crop, CropNeed, Fate, Feed, FeedAmount, Lifted, LoadAnswers,
    Measured, Particle, Place, Placed, PutDown, Water, Way, Worked,
};
use kerfbook_science::dose::Method;
use kerfbook_science::geometry::settling::Settling;
use kerfbook_science::plain::{Age, DugInWith, Handful, LaidBy, Pieces, Wood};
use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Volume};
use kerfbook_science::{crop_residue, feed as science};

use super::names;
use super::{Silence, bucket};
use crate::fault::Message;
use crate::toml_file::section::{Bounds, Section};

/// A layer deeper than this is an error of unit or of area, m.
const DEEPEST_LAYER_M: f64 = 1.5;
/// The same in fingers and in hands across.
pub(crate) const MOST_FINGERS: f64 = 75.0;
pub(crate) const MOST_HANDS: f64 = 15.0;
/// More wet mass than this is an error of unit or of area, kg/m2.
const HEAVIEST_LAYER_KG_M2: f64 = 1_000.0;
/// Carbon to nitrogen of what is put down.
pub(crate) const CARBON_NITROGEN: Bounds = Bounds::between(3.0, 2_500.0, "");
/// Longest time from start to end of a crop, days; perennials are written a year at a time.
const LONGEST_CROP_DAYS: i64 = 1_100;

pub(crate) const FATES: [(&str, Fate); 3] =
    [("carried-off", Fate::CarriedOff), ("dug-in", Fate::DugIn), ("mown", Fate::Mown)];

pub(crate) const WAYS: [(&str, Way); 6] = [
    ("worked-in", Way::WorkedIn),
    ("on-top", Way::OnTop),
    ("on-top-over-nitrogen", Way::OnTopOverNitrogen),
    ("composted-first", Way::CompostedFirst),
    ("path", Way::Path),
    ("ring", Way::Ring),
];

pub(crate) const PARTICLES: [(&str, Particle); 4] = [
    ("dust", Particle::Dust),
    ("shavings", Particle::Shavings),
    ("chips", Particle::Chips),
    ("chunks", Particle::Chunks),
];

pub(crate) const PLACED: [(&str, Placed); 3] =
    [("mixed", Placed::Mixed), ("under", Placed::Under), ("top", Placed::Top)];

/// All crops in order of planting; overlapping ones are noted.
pub(super) fn crops(sections: &[Section<'_>], silence: &mut Silence) -> Vec<Option<Crop>> {
    let mut spans: Vec<(NaiveDate, NaiveDate, &Section<'_>)> = Vec::new();
    let mut crops = Vec::new();
    for section in sections {
        let (crop, span) = crop(section, silence);
        if let Some((started, ended)) = span {
            spans.push((started, ended, section));
        }
        crops.push(crop);
    }
    spans.sort_by_key(|(started, ended, _)| (*started, *ended));
    for pair in spans.windows(2) {
        if let [(_, ended, before), (started, _, after)] = pair
            && started < ended
        {
            let what = Message::new("desk-crops-overlap")
                .text("key", after.key("started"))
                .text("started", started)
                .text("other", before.key("ended"))
                .text("ended", ended);
            after.complain("started", what, Some(Message::new("desk-one-crop-at-a-time")));
        }
    }
    crops.sort_by_key(|crop| crop.as_ref().map(|crop| crop.started));
    crops
}

/// A crop by itself, what it leaves open left at that.
pub(crate) fn one_crop(section: &Section<'_>) -> Option<Crop> {
    crop(section, &mut Silence(Vec::new())).0
}

type DaySpan = (NaiveDate, NaiveDate);

fn crop(section: &Section<'_>, silence: &mut Silence) -> (Option<Crop>, Option<DaySpan>) {
    let name = section.text("name");
    let need = need(section, name);
    let started = section.required_date("started");
    let ended = section.required_date("ended");
    let span = started.zip(ended).and_then(|(started, ended)| {
        let days = (ended - started).num_days();
        if days <= 0 {
            let what =
                Message::new("desk-ended-before-started").text("ended", ended).text("started", started);
            section.complain("ended", what, Some(Message::new("desk-check-both-days")));
            return None;
        }
        if days > LONGEST_CROP_DAYS {
            let what = Message::new("desk-crop-too-long").text("days", days).text("most", LONGEST_CROP_DAYS);
            section.complain("ended", what, Some(Message::new("desk-crop-a-year")));
            return None;
        }
        Some((started, ended, days))
    });
    let midpoint = section.number("midpoint_day", Bounds::above_zero(1_100.0, "d"));
    if let (Some(midpoint), Some((.., days))) = (midpoint, span) {
        #[allow(clippy::cast_precision_loss, reason = "at most a few thousand days")]
        let days = days as f64;
        if midpoint >= days {
            let what = Message::new("desk-midpoint-after-end").text("value", midpoint).text("days", days);
            section.complain("midpoint_day", what, Some(Message::new("desk-midpoint-meaning")));
        }
    }
    let fixed = section.number("fixed_share", Bounds::between(0.0, 1.0, ""));
    let plants = section.count("plants", 100_000_000);
    let fate = if section.has("fate") {
        section.choice("fate", &FATES)
    } else {
        Some(silence.text("crop.fate", "carried off", Fate::CarriedOff))
    };
    let days = span.map(|(started, ended, _)| (started, ended));
    let crop = || {
        let (started, ended) = days?;
        let (need, table_fixed) = need?;
        Some(Crop {
            name: name.unwrap_or_default().to_owned(),
            need,
            started,
            ended,
            midpoint_day: midpoint,
            fixed: Share::from_fraction(fixed.unwrap_or(table_fixed)),
            plants,
            fate: fate?,
            harvested: !name.is_some_and(crop_residue::is_cover),
            again: Again::EveryYear { until: None },
        })
    };
    (crop(), days)
}

/// The need and, from the crop table, the part that a legume fixes itself.
fn need(section: &Section<'_>, name: Option<&str>) -> Option<(CropNeed, f64)> {
    let of_table = name.and_then(names::crop);
    let fixed = of_table.map_or(0.0, |(_, fixed)| fixed);
    if section.has("uptake_kg_ha") && section.has("appetite") {
        let what = Message::new("desk-two-given").text("first", "uptake_kg_ha").text("second", "appetite");
        let keep = Message::new("desk-keep-one").text("keys", "uptake_kg_ha, appetite");
        section.complain("appetite", what, Some(keep));
        return None;
    }
    if section.has("uptake_kg_ha") {
        let uptake = section.number("uptake_kg_ha", Bounds::above_zero(1_000.0, "kg/ha"))?;
        return Some((CropNeed::Annual(AreaMass::from_kg_ha(uptake)), fixed));
    }
    if section.has("appetite") {
        return section
            .choice("appetite", &Appetite::choices())
            .map(|appetite| (CropNeed::Appetite(appetite), fixed));
    }
    match (name, of_table) {
        (_, Some(found)) => return Some(found),
        (Some(name), None) => names::unknown_crop(section, name),
        (None, None) if !section.has("name") => section.missing("name", Some(Message::new("desk-crop-need"))),
        (None, None) => {}
    }
    None
}

/// A load; its amount is checked against the place.
pub(super) fn put_down(
    section: &Section<'_>,
    place: Option<&Place>,
    containers: &Containers,
) -> Option<PutDown> {
    let date = section.required_date("date");
    let wood = section.choice("wood", &Wood::choices());
    let pieces = section.choice("pieces", &Pieces::choices());
    section.one_alone("material", "wood");
    section.one_alone("particle", "pieces");
    section.one_alone("moisture_pct", "handful");
    if !section.has("material") && !section.has("wood") {
        section.missing("material", None);
    }
    let material =
        section.text("material").or_else(|| Some(wood?.material(pieces.unwrap_or(Pieces::Unknown))));
    let known = material.is_some_and(|name| names::check_material(section, name));
    let way = section.choice("way", &WAYS);
    let particle = section.choice("particle", &PARTICLES);
    let answers = LoadAnswers {
        // Where the wood is told in a word and its pieces are not, they are unknown, too.
        pieces: pieces.or_else(|| wood.filter(|_| particle.is_none()).map(|_| Pieces::Unknown)),
        age: section.choice("age", &Age::choices()),
    };
    let amount = section.one_of(
        &[
            ("dry_mass_t_ha", Bounds::above_zero(1_000.0, "t/ha")),
            ("wet_kg", Bounds::above_zero(1e8, "kg")),
            ("volume_m3", Bounds::above_zero(1e6, "m3")),
            ("depth_mm", Bounds::above_zero(DEEPEST_LAYER_M * 1_000.0, "mm")),
            ("settled_depth_mm", Bounds::above_zero(DEEPEST_LAYER_M * 1_000.0, "mm")),
            ("barrows", Bounds::above_zero(100_000.0, "")),
            ("trailers", Bounds::above_zero(10_000.0, "")),
            ("fingers", Bounds::above_zero(MOST_FINGERS, "")),
            ("hands", Bounds::above_zero(MOST_HANDS, "")),
        ],
        true,
    );
    if let (Some((name, value)), Some(place)) = (amount, place) {
        check_amount(section, name, value, place.area, containers);
    }
    let handful =
        section.choice("handful", &Handful::choices()).filter(|handful| *handful != Handful::Unknown);
    let felt = handful.map(Handful::moisture_pct);
    let moisture = moisture(section).or_else(|| felt.map(|felt| felt.typical));
    let carbon_nitrogen = section.number("carbon_nitrogen", CARBON_NITROGEN);
    let stated = residue_density(section);
    let bulk = bucket::test(section);
    let within = |name: &str| {
        section.number(name, Bounds::above_zero(100.0, "%")).map(|percent| sd_of_within(percent / 100.0))
    };
    let amount_sd = within("amount_within_pct");
    let density_sd = within("bulk_density_within_pct");
    let points = section.number("moisture_within_points", Bounds::above_zero(50.0, ""));
    let settling = section.number("settles_to_pct", Bounds::between(20.0, 110.0, "%"));
    if let Some(("trailers", _)) = amount
        && containers.trailer.is_none()
    {
        let what = Message::new("desk-trailers-of-no-size");
        section.complain("trailers", what, Some(Message::new("desk-say-trailer")));
        return None;
    }
    let (name, value) = amount?;
    known.then_some(())?;
    Some(PutDown {
        date: date?,
        material: material?.to_owned(),
        way,
        particle,
        amount: match name {
            "dry_mass_t_ha" => Amount::DryPerArea(AreaMass::from_t_ha(value)),
            "wet_kg" => Amount::Wet(Mass::from_kg(value)),
            "volume_m3" => Amount::Loose(Volume::from_m3(value)),
            "depth_mm" => Amount::Depth(Length::from_mm(value)),
            "settled_depth_mm" => Amount::SettledDepth(Length::from_mm(value)),
            "trailers" => Amount::Trailers(value),
            "fingers" => Amount::Laid { by: LaidBy::Fingers, count: value },
            "hands" => Amount::Laid { by: LaidBy::Hands, count: value },
            _ => Amount::Barrows(value),
        },
        moisture: moisture.map(Share::from_percent),
        moisture_half: points
            .map(|points| doubt::triangle_of_within(Share::from_percent(points)))
            .or_else(|| felt.map(|felt| Share::from_percent(felt.half_width()))),
        carbon_nitrogen,
        bulk_density: stated.map(Density::from_kg_m3).or(bulk.map(|bulk| bulk.wet_density)),
        measured: Measured {
            known_by: None,
            amount: amount_sd,
            density: density_sd.or(bulk.map(|bulk| bulk.relative_sd)),
            density_by: bulk.map(|bulk| bulk.method).or(stated.map(|_| Method::Stated)),
        },
        settling: settling.and_then(|percent| Settling::of(percent / 100.0)),
        answers,
        kept: None,
    })
}

/// An amount in all must make a believable layer on the place.
fn check_amount(section: &Section<'_>, name: &'static str, value: f64, area: Area, containers: &Containers) {
    let volume = match name {
        "volume_m3" => Volume::from_m3(value),
        "barrows" => containers.barrow * value,
        "trailers" => containers.trailer.unwrap_or_default() * value,
        "wet_kg" => {
            let load = Mass::from_kg(value).per(area).kg_m2();
            if load > HEAVIEST_LAYER_KG_M2 {
                let what = Message::new("desk-too-heavy").text("load", round(load)).text("area", area.m2());
                section.complain(name, what, Some(Message::new("desk-check-amount-and-area")));
            }
            return;
        }
        _ => return,
    };
    let depth = volume.depth_over(area).m();
    if depth > DEEPEST_LAYER_M {
        let what = Message::new("desk-too-deep").text("depth", round(depth)).text("area", area.m2());
        section.complain(name, what, Some(Message::new("desk-check-amount-and-area")));
    }
}

fn round(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// Moisture on the wet basis; over 100 it can only be on the oven-dry basis, and then it is asked.
pub(crate) fn moisture(section: &Section<'_>) -> Option<f64> {
    let name = "moisture_pct";
    let stated = section.finite(name)?;
    if stated > 100.0 && stated <= 900.0 {
        let wet = stated / (100.0 + stated) * 100.0;
        let what = Message::new("desk-moisture-over-100").text("value", stated);
        let line = format!("{name} = {}", round(wet));
        section.complain(name, what, Some(Message::new("desk-moisture-dry-basis").text("line", line)));
        return None;
    }
    section.number(name, Bounds::between(0.0, 97.0, "%"))
}

/// Wet, loose bulk density of a load, kg/m3.
const RESIDUE_DENSITY: Bounds = Bounds::between(30.0, 1_200.0, "kg/m3");

pub(crate) fn residue_density(section: &Section<'_>) -> Option<f64> {
    let name = "bulk_density_kg_m3";
    let stated = section.finite(name)?;
    if (0.03..=1.2).contains(&stated) {
        let line = format!("{name} = {}", (stated * 1_000.0).round());
        section.out_of_bounds(
            name,
            RESIDUE_DENSITY,
            Some(Message::new("desk-looks-like-g-cm3").text("line", line)),
        );
        return None;
    }
    section.number(name, RESIDUE_DENSITY)
}

pub(super) fn feed(section: &Section<'_>, silence: &mut Silence) -> Option<Feed> {
    let date = section.required_date("date");
    if !section.has("source") {
        section.missing("source", None);
    }
    let source = section.text("source");
    let known = source.and_then(|source| names::feed(section, "source", source));
    let amount = section.one_of(
        &[
            ("nitrogen_kg_ha", Bounds::above_zero(1_000.0, "kg/ha")),
            ("amount_kg", Bounds::above_zero(1e7, "kg")),
            ("volume_l", Bounds::above_zero(1e8, "l")),
        ],
        true,
    );
    let placed = if section.has("placed") {
        section.choice("placed", &PLACED)
    } else {
        Some(silence.text("feed.placed", "mixed", Placed::Mixed))
    };
    let (name, value) = amount?;
    let feed = known?;
    let (amount, product) = match name {
        "nitrogen_kg_ha" => (FeedAmount::Nitrogen(AreaMass::from_kg_ha(value)), None),
        "amount_kg" => {
            let mass = Mass::from_kg(value);
            (FeedAmount::Product(mass), Some(science::Amount::Product(mass)))
        }
        _ => {
            let volume = Volume::from_litres(value);
            (FeedAmount::Liquid(volume), Some(science::Amount::Liquid(volume)))
        }
    };
    if product.is_some_and(|product| feed.nitrogen_in(product).is_none()) {
        let right = if name == "amount_kg" { "volume_l" } else { "amount_kg" };
        let what = Message::new("desk-feed-measure").text("name", feed.name).text("key", name);
        section.complain(name, what, Some(Message::new("desk-feed-measure-right").text("key", right)));
        return None;
    }
    Some(Feed { date: date?, source: source?.to_owned(), amount, placed: placed?, with_layer: false })
}

/// Soil worked to a depth, or with a tool that goes so deep.
pub(super) fn worked(section: &Section<'_>, silence: &mut Silence) -> Option<Worked> {
    let date = section.required_date("date");
    section.one_alone("depth_cm", "with");
    let with = section.choice("with", &DugInWith::choices());
    let depth = if section.has("with") {
        let told = with.map(|with| with.depth_cm().typical);
        match with {
            Some(DugInWith::Unknown) => told.map(|cm| silence.number("worked.depth_cm", cm)),
            _ => told,
        }
    } else {
        section.required_number("depth_cm", Bounds::between(1.0, 100.0, "cm"))
    };
    Some(Worked { date: date?, depth: Length::from_cm(depth?), share: None })
}

pub(super) fn lifted(section: &Section<'_>) -> Option<Lifted> {
    let date = section.required_date("date");
    if !section.has("to") {
        section.missing("to", None);
    }
    let to = section.text("to");
    Some(Lifted { date: date?, layer: None, share: Share::from_fraction(1.0), to: to?.to_owned() })
}

pub(super) fn water(section: &Section<'_>) -> Option<Water> {
    let date = section.required_date("date");
    let depth = section.required_number("mm", Bounds::above_zero(300.0, "mm"));
    Some(Water { date: date?, depth: Length::from_mm(depth?), under: false })
}
