//! What was measured: soil, a batch's draw, depth, gaps, weather, leaves.

use kerfbook_acts::check_gap::{self, NewGapCheck};
use kerfbook_acts::probe_depth::{self, Depths, NewProbe};
use kerfbook_acts::read_leaf::{self, NewLeafReading};
use kerfbook_acts::read_weather::{self, NewWeather};
use kerfbook_acts::scenario::SoilAnswers;
use kerfbook_acts::test_draw::{self, NewDrawTest};
use kerfbook_acts::test_soil::{self, NewSoilTest, NitrogenFigure};
use kerfbook_ledger::kind::NitrogenForm;
use kerfbook_science::plain::{Colour, LaidBy, LastCropFed, Rolled};
use kerfbook_science::units::{AreaMass, Density, Length, Share, Temperature};

use super::writer::Writer;
use crate::scenario::{ground, weather};
use crate::toml_file::section::{Bounds, Section};

pub(super) fn soil_test(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let depth = Bounds::between(0.0, 300.0, "cm");
    let share = |key: &str| section.number(key, Bounds::PERCENT).map(Share::from_percent);
    let found = section.one_of(
        &[
            ("mineral_nitrogen_kg_ha", Bounds::between(0.0, 1_000.0, "kg/ha")),
            ("nitrate_n_kg_ha", Bounds::between(0.0, 1_000.0, "kg/ha")),
            ("nitrate_n_ppm", Bounds::between(0.0, 300.0, "ppm")),
            ("nitrate_ppm", Bounds::between(0.0, 1_300.0, "ppm")),
        ],
        false,
    );
    let nitrogen = found.map(|(name, value)| match name {
        "mineral_nitrogen_kg_ha" => {
            (NitrogenForm::MineralN, NitrogenFigure::PerArea(AreaMass::from_kg_ha(value)))
        }
        "nitrate_n_kg_ha" => (NitrogenForm::NitrateN, NitrogenFigure::PerArea(AreaMass::from_kg_ha(value))),
        "nitrate_n_ppm" => (NitrogenForm::NitrateN, NitrogenFigure::Ppm(value)),
        _ => (NitrogenForm::Nitrate, NitrogenFigure::Ppm(value)),
    });
    let new = NewSoilTest {
        top: section.number("top_cm", depth).map(Length::from_cm),
        bottom: section.number("bottom_cm", depth).map(Length::from_cm),
        organic_matter: share("organic_matter_pct"),
        clay: share("clay_pct"),
        sand: share("sand_pct"),
        bulk_density: ground::soil_density(section).map(Density::from_g_cm3),
        ph: section.number("ph", Bounds::between(2.0, 11.0, "")),
        nitrogen,
        available_water: section
            .number("available_water_mm", Bounds::above_zero(500.0, "mm"))
            .map(Length::from_mm),
        field_capacity: section
            .number("field_capacity_mm", Bounds::above_zero(1_500.0, "mm"))
            .map(Length::from_mm),
        water: share("water_pct"),
        answers: SoilAnswers {
            rolled: section.choice("rolled", &Rolled::choices()),
            colour: section.choice("colour", &Colour::choices()),
            last_crop_fed: section.choice("last_crop_fed", &LastCropFed::choices()),
        },
        ..NewSoilTest::of(place.id)
    };
    let moment = writer.moment();
    let tested = test_soil::test(writer.book, &new, moment);
    writer.keep(section, tested).map(drop)
}

pub(super) fn draw_test(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let batch = writer.batch(section, "batch")?;
    let temperature = section.required_number("temperature_c", Bounds::between(0.0, 40.0, "°C"));
    let dose = section.required_number("dose_mg_litre", Bounds::above_zero(1_000.0, "mg/l"));
    let dry = section.required_number("dry_g_per_litre", Bounds::above_zero(500.0, "g/l"));
    let index = section.required_number("index", Bounds::between(0.0, 1.5, ""));
    let new = NewDrawTest {
        batch: batch.id,
        temperature: Temperature::from_c(temperature?),
        dose_mg_l: dose?,
        dry_g_l: dry?,
        index: index?,
    };
    let moment = writer.moment();
    let tested = test_draw::test(writer.book, &new, moment);
    writer.keep(section, tested).map(drop)
}

pub(super) fn depth(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    section.one_alone("depths_mm", "fingers");
    section.one_alone("depths_mm", "hands");
    section.one_alone("fingers", "hands");
    let by_hand = [("fingers", LaidBy::Fingers, 150.0), ("hands", LaidBy::Hands, 30.0)];
    let by_hand = by_hand.into_iter().find(|(key, ..)| section.has(key));
    let (counts, measured);
    let depths = if let Some((key, by, most)) = by_hand {
        counts = section.numbers(key, Bounds::between(0.0, most, ""))?;
        Depths::ByHand(by, &counts)
    } else {
        if !section.has("depths_mm") {
            section.missing("depths_mm", None);
        }
        let mm = section.numbers("depths_mm", Bounds::between(0.0, 3_000.0, "mm"))?;
        measured = mm.into_iter().map(Length::from_mm).collect::<Vec<_>>();
        Depths::Measured(&measured)
    };
    let new = NewProbe { place: place.id, layer: None, depths };
    let moment = writer.moment();
    let probed = probe_depth::probe(writer.book, &new, moment);
    writer.keep(section, probed).map(drop)
}

pub(super) fn gap(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let gap = section.required_number("gap_cm", Bounds::between(0.0, 500.0, "cm"))?;
    let new = NewGapCheck {
        place: place.id,
        gap: Length::from_cm(gap),
        plants: section.count("plants", 1_000_000),
        blocked_emitters: section.whole("blocked_emitters", 1_000_000),
        mended: section.flag("mended"),
    };
    let moment = writer.moment();
    let checked = check_gap::check(writer.book, &new, moment);
    writer.keep(section, checked).map(drop)
}

pub(super) fn rain(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place_or_none(section).ok()?;
    let new = NewWeather {
        place: place.map(|place| place.id),
        mean: section.number("mean_c", weather::MONTH_MEAN).map(Temperature::from_c),
        range_c: None,
        rain: section.number("mm", Bounds::between(0.0, 1_000.0, "mm")).map(Length::from_mm),
        evaporation: section.number("et0_mm", weather::MONTH_ET0).map(Length::from_mm),
    };
    let moment = writer.moment();
    let read = read_weather::read(writer.book, &new, moment);
    writer.keep(section, read).map(drop)
}

pub(super) fn leaf(section: &Section<'_>, writer: &mut Writer<'_>) -> Option<()> {
    let place = writer.place(section)?;
    let index = section.required_number("nutrition_index", Bounds::between(0.0, 2.0, ""))?;
    // The crop that stands there on the day.
    let date = writer.moment().date;
    let crop =
        place.crops.iter().rev().find(|crop| {
            crop.started.naive() <= date && crop.ended.is_none_or(|ended| ended.naive() >= date)
        });
    let new = NewLeafReading {
        crop: crop.map(|crop| crop.entry),
        nutrition: Some(index),
        ..NewLeafReading::of(place.id)
    };
    let moment = writer.moment();
    let read = read_leaf::read(writer.book, &new, moment);
    writer.keep(section, read).map(drop)
}
