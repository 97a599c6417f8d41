//! The figures in the sentences of measurements and orders.

use kerfbook_ledger::Current;
use kerfbook_ledger::kind::{
    Age, Answer, BatchTested, Colour, Handful, LeafRead, NitrogenForm, Rain, Rolled, SoilTested, Summers,
    WeatherRead, WeatherSpan, Winters,
};
use kerfbook_science::dose::Method;
use kerfbook_science::units::{AreaMass, Density, Length, Share, Temperature};
use kerfbook_words::Words;

/// What was found of a batch.
pub(super) fn batch(body: &BatchTested, words: &Words) -> String {
    let mut found = Found::new(words);
    found.add("water", body.moisture_bp.map(|bp| words.percent(basis_points(bp))));
    found.add(
        "carbon-nitrogen",
        body.carbon_nitrogen_x100.map(|ratio| words.stated(f64::from(ratio) / 100.0)),
    );
    let density = |grams| words.density(Density::from_kg_m3(f64::from(grams) / 1000.0));
    let filled = body.method.as_ref().and_then(|method| Method::filling(method.as_str()));
    match (body.wet_density_g_m3.map(density), filled) {
        (Some(density), Some(filled)) => {
            let filled = words.label(&format!("filled-{}", filled.name()));
            found.phrases.push(words.say("figure-density-bucket", &[("value", density), ("filled", filled)]));
        }
        (density, _) => found.add("density", density),
    }
    match body.sour {
        Some(Answer::Yes) => found.say("sour"),
        Some(Answer::No) => found.say("not-sour"),
        Some(Answer::Unknown) | None => {}
    }
    found.told("handful", body.handful.map(Handful::name));
    found.told("age", body.age.map(Age::name));
    let hundredth = |figure: Option<u32>| figure.map(|figure| words.stated(f64::from(figure) / 100.0));
    let share = |bp: Option<u32>| bp.map(|bp| words.percent(basis_points(bp)));
    found.add("ammonium-nitrate", hundredth(body.ammonium_nitrate_x100));
    found.add("dioxide", hundredth(body.dioxide_x100));
    found.add("emergence", share(body.emergence_bp));
    found.add("self-heating", hundredth(body.self_heating_centi_c));
    found.add("oxygen", body.oxygen_mg_kg_h.map(|figure| words.stated(f64::from(figure))));
    found.add("germination", share(body.germination_bp));
    found.add("ash", share(body.ash_bp));
    match body.seedlings_hurt {
        Some(Answer::Yes) => found.say("seedlings-hurt"),
        Some(Answer::No) => found.say("seedlings-well"),
        Some(Answer::Unknown) | None => {}
    }
    found.list()
}

/// What was found of the soil.
pub(super) fn soil(body: &SoilTested, words: &Words) -> String {
    let mut found = Found::new(words);
    let share = |bp: Option<u32>| bp.map(|bp| words.percent(basis_points(bp)));
    let water = |mm: Option<u32>| mm.map(|mm| words.water(Length::from_mm(f64::from(mm))));
    let (ppm, area) = match body.nitrogen_form {
        Some(NitrogenForm::NitrateN) | None => ("nitrate-n-ppm", "nitrate-n-area"),
        Some(NitrogenForm::Nitrate) => ("nitrate-ppm", "nitrate-area"),
        Some(NitrogenForm::MineralN) => ("mineral-n-ppm", "mineral-n-area"),
    };
    found.add(ppm, body.mg_kg_x100.map(|ppm| words.stated(f64::from(ppm) / 100.0)));
    let per_area = |mg_m2| words.area_mass(AreaMass::from_kg_ha(f64::from(mg_m2) / 100.0));
    found.add(area, body.mg_m2.map(per_area));
    found.add("organic-matter", share(body.organic_matter_bp));
    found.add("ph", body.ph_x100.map(|ph| words.stated(f64::from(ph) / 100.0)));
    found.add("clay", share(body.clay_bp));
    found.add("sand", share(body.sand_bp));
    let density = |grams| words.density(Density::from_kg_m3(f64::from(grams) / 1000.0));
    found.add("density", body.bulk_density_g_m3.map(density));
    found.add("available-water", water(body.available_water_mm));
    found.add("field-capacity", water(body.field_capacity_mm));
    found.add("moist", share(body.water_bp));
    found.told("rolled", body.rolled.map(Rolled::name));
    found.told("colour", body.colour.map(Colour::name));
    found.told("last-crop-fed", body.last_crop_fed.map(Answer::name));
    found.list()
}

/// What the weather was.
pub(super) fn weather(body: &WeatherRead, words: &Words) -> String {
    let mut found = Found::new(words);
    let degrees = |centi: f64| words.temperature(Temperature::from_c(centi / 100.0));
    let water = |ml: Option<u32>| ml.map(|ml| words.water(Length::from_mm(f64::from(ml) / 1000.0)));
    found.add("mean", body.mean_centi_c.map(|centi| degrees(f64::from(centi))));
    found.add("range", body.range_centi_c.map(|centi| degrees(f64::from(centi))));
    found.add("rain", water(body.rain_ml_m2));
    found.add("evaporation", water(body.evaporation_ml_m2_day));
    found.told("winters", body.winters.map(Winters::name));
    found.told("summers", body.summers.map(Summers::name));
    found.told("rain", body.rain.map(Rain::name));
    found.list()
}

/// The sentence of a weather entry, and what stands in it.
pub(super) fn weather_entry(body: &WeatherRead, current: &Current, words: &Words) -> String {
    let figures = weather(body, words);
    match body.span {
        WeatherSpan::Day => words.say("entry-weather-read", &[("figures", figures)]),
        WeatherSpan::UsualYear => words.say("entry-weather-told", &[("figures", figures)]),
        WeatherSpan::UsualMonth => {
            let month = words.month(chrono::Datelike::month(&current.date.naive()));
            words.say("entry-weather-usual", &[("month", month), ("figures", figures)])
        }
    }
}

/// What the leaves looked like.
pub(super) fn leaf(body: &LeafRead, words: &Words) -> String {
    let mut found = Found::new(words);
    let share = |bp: Option<u32>| bp.map(|bp| words.percent(basis_points(bp)));
    found.add("nutrition", share(body.nutrition_bp));
    found.add("yellow", share(body.yellow_bp));
    found.add("brown", share(body.brown_bp));
    found.add("colour", body.dgci_x10000.map(|index| words.number(f64::from(index) / 10_000.0, 2)));
    found.list()
}

/// Phrases of figures, in order.
struct Found<'a> {
    words: &'a Words,
    phrases: Vec<String>,
}

impl<'a> Found<'a> {
    const fn new(words: &'a Words) -> Self {
        Self { words, phrases: Vec::new() }
    }

    fn add(&mut self, id: &str, value: Option<String>) {
        if let Some(value) = value {
            self.phrases.push(self.words.say(&format!("figure-{id}"), &[("value", value)]));
        }
    }

    /// What was answered in words.
    fn told(&mut self, question: &str, answer: Option<&str>) {
        if let Some(answer) = answer {
            self.phrases.push(self.words.label(&format!("told-{question}-{answer}")));
        }
    }

    fn say(&mut self, id: &str) {
        self.phrases.push(self.words.label(&format!("figure-{id}")));
    }

    fn list(self) -> String {
        if self.phrases.is_empty() { self.words.unknown() } else { self.words.list(&self.phrases) }
    }
}

fn basis_points(bp: u32) -> Share {
    Share::from_percent(f64::from(bp) / 100.0)
}
