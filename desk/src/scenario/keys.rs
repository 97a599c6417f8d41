//! The keys of a scenario file, each with an example.

use super::bucket::KEYS as BUCKET;
use crate::toml_file::layout::{Layout, key};

pub(super) const HOLDING: Layout = Layout {
    name: "holding",
    repeats: false,
    keys: &[
        key("latitude_deg", "48.5"),
        key("sells", "false"),
        key("certified", "false"),
        key("urine_confirmed", "false"),
        key("at_hand", "[\"urea\"]"),
    ],
};

pub(super) const WEATHER: Layout = Layout {
    name: "weather",
    repeats: false,
    keys: &[
        key("month_mean_c", "[2, 3, 6, 11, 15, 19, 20, 19, 15, 11, 6, 3]"),
        key("month_rain_mm", "[65, 60, 60, 55, 60, 60, 65, 60, 65, 70, 70, 70]"),
        key("month_et0_mm_day", "[0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]"),
        key("month_range_c", "[6, 7, 9, 10, 11, 11, 11, 11, 10, 8, 6, 5]"),
        key("daily", "\"weather.csv\""),
        key("cover", "\"roof\""),
        key("watered", "\"enough\""),
        key("winters", "\"frosty\""),
        key("summers", "\"warm\""),
        key("rain", "\"middling\""),
    ],
};

pub(super) const SOIL: Layout = Layout {
    name: "soil",
    repeats: false,
    keys: &[
        key("clay_pct", "18"),
        key("sand_pct", "40"),
        key("organic_matter_pct", "3"),
        key("bulk_density_g_cm3", "1.3"),
        key("depth_cm", "25"),
        key("mineral_nitrogen_kg_ha", "45"),
        key("nitrate_n_ppm", "12"),
        key("nitrate_ppm", "50"),
        key("sampled", "2026-04-10"),
        key("available_water_mm", "50"),
        key("field_capacity_mm", "80"),
        key("water_at_start_pct", "90"),
        key("rolled", "\"ball\""),
        key("colour", "\"brown\""),
        key("last_crop_fed", "\"no\""),
    ],
};

pub(super) const PLACE: Layout = Layout {
    name: "place",
    repeats: false,
    keys: &[
        key("kind", "\"bed\""),
        key("area_m2", "12"),
        key("area_within_pct", "5"),
        key("rooting_depth_cm", "30"),
        key("volume_l", "40"),
    ],
};

pub(super) const CROP: Layout = Layout {
    name: "crop",
    repeats: true,
    keys: &[
        key("name", "\"cabbage\""),
        key("uptake_kg_ha", "120"),
        key("appetite", "\"middling\""),
        key("started", "2026-04-15"),
        key("ended", "2026-09-12"),
        key("midpoint_day", "70"),
        key("fixed_share", "0.5"),
        key("plants", "40"),
        key("fate", "\"carried off\""),
    ],
};

pub(super) const PUT_DOWN: Layout = Layout {
    name: "put_down",
    repeats: true,
    keys: &[
        key("date", "2026-04-15"),
        key("material", "\"hardwood sawdust\""),
        key("way", "\"on-top\""),
        key("particle", "\"dust\""),
        key("dry_mass_t_ha", "10"),
        key("wet_kg", "20"),
        key("volume_m3", "0.6"),
        key("depth_mm", "50"),
        key("settled_depth_mm", "40"),
        key("barrows", "8"),
        key("trailers", "1"),
        key("fingers", "3"),
        key("hands", "1"),
        key("amount_within_pct", "10"),
        key("moisture_pct", "45"),
        key("moisture_within_points", "5"),
        key("carbon_nitrogen", "400"),
        key("bulk_density_kg_m3", "250"),
        key("bulk_density_within_pct", "10"),
        BUCKET[0],
        BUCKET[1],
        BUCKET[2],
        BUCKET[3],
        key("settles_to_pct", "80"),
        key("wood", "\"hardwood\""),
        key("pieces", "\"coffee\""),
        key("handful", "\"damp\""),
        key("age", "\"fresh\""),
    ],
};

pub(super) const FEED: Layout = Layout {
    name: "feed",
    repeats: true,
    keys: &[
        key("date", "2026-05-20"),
        key("source", "\"urea\""),
        key("nitrogen_kg_ha", "40"),
        key("amount_kg", "0.5"),
        key("volume_l", "10"),
        key("placed", "\"mixed\""),
    ],
};

pub(super) const WORKED: Layout = Layout {
    name: "worked",
    repeats: true,
    keys: &[key("date", "2026-10-01"), key("depth_cm", "20"), key("with", "\"spade\"")],
};

pub(super) const LIFTED: Layout = Layout {
    name: "lifted",
    repeats: true,
    keys: &[key("date", "2026-10-01"), key("to", "\"compost yard\"")],
};

pub(super) const WATER: Layout =
    Layout { name: "water", repeats: true, keys: &[key("date", "2026-06-10"), key("mm", "20")] };

pub(crate) const CONTAINERS: Layout = Layout {
    name: "containers",
    repeats: false,
    keys: &[
        key("barrow_l", "80"),
        key("bucket_l", "10"),
        key("trailer_m3", "1.5"),
        key("trailer_carries_kg", "750"),
    ],
};

pub(super) const ORCHARD: Layout = Layout {
    name: "orchard",
    repeats: false,
    keys: &[
        key("first_row", "12"),
        key("trees", "[20, 20, 20]"),
        key("missing", "[\"13/4\"]"),
        key("drive", "\"serpentine\""),
        key("ring_radius_m", "1.2"),
        key("gap_cm", "15"),
        key("band_m", "2"),
        key("spacing_m", "4"),
        key("spreader_m", "1"),
        key("depth_mm", "75"),
        key("from", "\"12/9\""),
        key("to", "\"14/3\""),
    ],
};

/// Of a file with one load.
pub(super) static LOAD: [&Layout; 3] = [&PUT_DOWN, &CROP, &CONTAINERS];

/// All sections, in the order in which they are best written.
pub(super) static LAYOUTS: [&Layout; 12] = [
    &HOLDING,
    &WEATHER,
    &SOIL,
    &PLACE,
    &CROP,
    &PUT_DOWN,
    &FEED,
    &WORKED,
    &LIFTED,
    &WATER,
    &CONTAINERS,
    &ORCHARD,
];
