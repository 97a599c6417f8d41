//! The temperate site of the model's evidence table, as a scenario.

use chrono::NaiveDate;
use kerfbook_acts::scenario::{
    Again, Amount, Containers, Crop, CropNeed, Fate, Holding, LoadAnswers, Measured, Place, PlaceKind,
    PutDown, Scenario, Soil, SoilAnswers, Weather, WeatherAnswers,
};
use kerfbook_science::units::{Area, AreaMass, Length, Share, Volume};

/// 15 April.
pub(crate) fn first_day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 4, 15).unwrap()
}

/// A crop that wants 120 kg N/ha, and hardwood dust of so many dry tonnes a hectare, its way open.
pub(crate) fn golden_site(dry_t_ha: f64) -> Scenario {
    let first = first_day();
    Scenario {
        holding: Holding::default(),
        weather: Weather {
            month_mean_c: [2.0, 3.2, 6.5, 11.0, 15.5, 18.8, 20.0, 18.8, 15.5, 11.0, 6.5, 3.2],
            month_rain_mm: [65.0; 12],
            month_et0_mm_day: Some([0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]),
            month_range_c: None,
            daily: None,
            cover: false,
            watered_enough: false,
            water: Vec::new(),
            answers: WeatherAnswers::default(),
        },
        soil: Soil {
            clay: None,
            sand: None,
            organic_matter: Share::from_percent(2.5),
            bulk_density: None,
            depth: Length::from_cm(25.0),
            mineral_nitrogen: Some(AreaMass::from_kg_ha(45.0)),
            sampled: None,
            available_water: Some(Length::from_mm(50.0)),
            field_capacity: Some(Length::from_mm(80.0)),
            water_at_start: Share::from_percent(90.0),
            answers: SoilAnswers::default(),
        },
        place: Place {
            kind: PlaceKind::Bed,
            area_sd: None,
            area: Area::from_m2(20.0),
            rooting_depth: None,
            container: None,
        },
        crops: vec![Crop {
            name: "vegetable".into(),
            need: CropNeed::Annual(AreaMass::from_kg_ha(120.0)),
            started: first,
            ended: first + chrono::Days::new(150),
            midpoint_day: Some(70.0),
            fixed: Share::default(),
            plants: None,
            fate: Fate::CarriedOff,
            harvested: false,
            again: Again::EveryYear { until: None },
        }],
        put_down: vec![PutDown {
            date: first,
            material: "hardwood sawdust".into(),
            way: None,
            particle: None,
            amount: Amount::DryPerArea(AreaMass::from_t_ha(dry_t_ha)),
            moisture: None,
            moisture_half: None,
            carbon_nitrogen: None,
            bulk_density: None,
            measured: Measured::default(),
            settling: None,
            kept: None,
            answers: LoadAnswers::default(),
        }],
        feeds: Vec::new(),
        worked: Vec::new(),
        lifted: Vec::new(),
        origins: Vec::new(),
        containers: Containers {
            barrow: Volume::from_litres(80.0),
            bucket: Volume::from_litres(10.0),
            trailer: None,
            trailer_carries: None,
        },
        orchard: None,
    }
}
