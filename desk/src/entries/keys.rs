//! The keys of a file of entries, each with an example.

use crate::scenario::bucket::KEYS as BUCKET;
use crate::scenario::keys::CONTAINERS;
use crate::toml_file::layout::{Layout, key};

const fn rows(name: &'static str, keys: &'static [crate::toml_file::layout::Key]) -> Layout {
    Layout { name, repeats: true, keys }
}

pub(super) const HOLDING: Layout = Layout {
    name: "holding",
    repeats: false,
    keys: &[
        key("name", "\"River holding\""),
        key("opened", "2026-03-01"),
        key("device", "\"Desk\""),
        key("latitude_deg", "48.5"),
        key("sells", "false"),
        key("certified", "false"),
    ],
};

pub(super) const WEATHER: Layout = Layout {
    name: "weather",
    repeats: false,
    keys: &[
        key("month_mean_c", "[2, 3, 6, 11, 15, 19, 20, 19, 15, 11, 6, 3]"),
        key("month_rain_mm", "[65, 60, 60, 55, 60, 60, 65, 60, 65, 70, 70, 70]"),
        key("month_et0_mm_day", "[0.5, 0.9, 1.7, 2.7, 3.7, 4.3, 4.5, 3.9, 2.7, 1.5, 0.8, 0.4]"),
        key("winters", "\"frosty\""),
        key("summers", "\"warm\""),
        key("rain", "\"middling\""),
    ],
};

pub(super) const PERSON: Layout = rows("person", &[key("date", "2026-03-01"), key("name", "\"Ana\"")]);

pub(super) const PLACE: Layout = rows(
    "place",
    &[
        key("date", "2026-03-01"),
        key("name", "\"Bed 1\""),
        key("kind", "\"bed\""),
        key("area_m2", "12"),
        key("area_within_pct", "5"),
        key("rooting_depth_cm", "30"),
        key("volume_l", "40"),
        key("plants", "6"),
        key("first_row", "12"),
        key("row_trees", "[20, 20, 18]"),
        key("spacing_m", "4"),
        key("row_spacing_m", "5"),
        key("radius_m", "1.2"),
        key("gap_cm", "15"),
        key("missing", "[\"12/4\"]"),
        key("dead", "[\"13/2\"]"),
        key("other_radius", "[\"14/1/0.8\"]"),
        key("cover", "\"none\""),
        key("watered", "\"enough\""),
    ],
);

pub(super) const SETTING: Layout = rows(
    "setting",
    &[
        key("date", "2026-05-01"),
        key("place", "\"Bed 1\""),
        key("cover", "\"tunnel\""),
        key("watered", "\"when-leaves-hang\""),
    ],
);

pub(super) const CLOSED: Layout = rows("closed", &[key("date", "2026-10-01"), key("place", "\"Bed 1\"")]);

pub(super) const SOIL_TEST: Layout = rows(
    "soil_test",
    &[
        key("date", "2026-04-10"),
        key("place", "\"Bed 1\""),
        key("top_cm", "0"),
        key("bottom_cm", "25"),
        key("organic_matter_pct", "3"),
        key("clay_pct", "18"),
        key("sand_pct", "40"),
        key("bulk_density_g_cm3", "1.3"),
        key("ph", "6.5"),
        key("nitrate_n_ppm", "12"),
        key("nitrate_ppm", "50"),
        key("nitrate_n_kg_ha", "40"),
        key("mineral_nitrogen_kg_ha", "45"),
        key("available_water_mm", "50"),
        key("field_capacity_mm", "80"),
        key("water_pct", "90"),
        key("rolled", "\"ball\""),
        key("colour", "\"brown\""),
        key("last_crop_fed", "\"unknown\""),
    ],
);

pub(super) const LOAD: Layout = rows(
    "load",
    &[
        key("date", "2026-04-01"),
        key("name", "\"sawdust April\""),
        key("material", "\"hardwood sawdust\""),
        key("wood", "\"unknown\""),
        key("particle", "\"dust\""),
        key("pieces", "\"coffee\""),
        key("wet_kg", "400"),
        key("volume_m3", "1.6"),
        key("barrows", "20"),
        key("moisture_pct", "45"),
        key("handful", "\"damp\""),
        key("carbon_nitrogen", "400"),
        key("bulk_density_kg_m3", "250"),
        BUCKET[0],
        BUCKET[1],
        BUCKET[2],
        BUCKET[3],
        key("from", "\"the joinery\""),
        key("treated", "\"no\""),
        key("diseased", "\"no\""),
        key("salty", "\"no\""),
        key("medicated", "\"unknown\""),
        key("cut", "2026-01-15"),
        key("age", "\"months\""),
        key("smell", "\"wood\""),
        key("stored", "\"covered\""),
        key("cost", "40"),
        key("currency", "\"EUR\""),
        key("haul_km", "12"),
        key("minutes", "45"),
    ],
);

pub(super) const BLEND: Layout = rows(
    "blend",
    &[
        key("date", "2026-04-01"),
        key("name", "\"stable bedding\""),
        key("of", "[\"shavings\", \"horse manure\"]"),
        key("wet_kg", "[200, 300]"),
        key("barrows", "[10, 6]"),
        key("particle", "\"shavings\""),
    ],
);

pub(super) const PILE: Layout = rows(
    "pile",
    &[
        key("date", "2026-04-01"),
        key("name", "\"pile by the gate\""),
        key("place", "\"Yard\""),
        key("of", "[\"sawdust April\", \"manure\"]"),
        key("wet_kg", "[300, 900]"),
        key("barrows", "[15, 12]"),
        key("water_l", "100"),
        key("volume_m3", "2.4"),
        key("moisture_pct", "58"),
        key("rule", "\"us-organic-windrow\""),
    ],
);

pub(super) const TURNED: Layout =
    rows("turned", &[key("date", "2026-04-08"), key("pile", "\"pile by the gate\""), key("water_l", "40")]);

pub(super) const HEAT: Layout = rows(
    "heat",
    &[
        key("date", "2026-04-05"),
        key("pile", "\"pile by the gate\""),
        key("zone", "\"core\""),
        key("depth_cm", "45"),
        key("temperature_c", "58"),
        key("temperature_f", "136"),
        key("time", "\"07:30\""),
        key("smoke", "false"),
    ],
);

pub(super) const MOISTURE: Layout = rows(
    "moisture",
    &[
        key("date", "2026-04-05"),
        key("pile", "\"pile by the gate\""),
        key("zone", "\"core\""),
        key("moisture_pct", "55"),
    ],
);

pub(super) const FINISHED: Layout = rows(
    "finished",
    &[
        key("date", "2026-08-01"),
        key("pile", "\"pile by the gate\""),
        key("name", "\"compost of spring\""),
        key("material", "\"composted wood\""),
        key("wet_kg", "500"),
        key("volume_m3", "0.9"),
        key("barrows", "11"),
        key("moisture_pct", "50"),
        key("carbon_nitrogen", "18"),
    ],
);

pub(super) const COUNT: Layout = rows(
    "count",
    &[
        key("date", "2026-05-01"),
        key("batch", "\"sawdust April\""),
        key("wet_kg", "120"),
        key("volume_m3", "0.5"),
        key("barrows", "6"),
        key("reason", "\"rain took some\""),
    ],
);

pub(super) const BATCH_TEST: Layout = rows(
    "batch_test",
    &[
        key("date", "2026-04-05"),
        key("batch", "\"sawdust April\""),
        key("moisture_pct", "42"),
        key("handful", "\"damp\""),
        key("age", "\"year\""),
        key("carbon_nitrogen", "420"),
        key("bulk_density_kg_m3", "240"),
        BUCKET[0],
        BUCKET[1],
        BUCKET[2],
        BUCKET[3],
        key("sour", "\"no\""),
        key("smell", "\"earth\""),
        key("method", "\"oven\""),
        key("ammonium_nitrate", "0.8"),
        key("dioxide_mg_g_day", "3"),
        key("emergence_pct", "92"),
        key("self_heating_c", "8"),
        key("oxygen_mg_kg_h", "240"),
        key("germination_index_pct", "86"),
        key("seedlings_hurt", "\"no\""),
        key("ash_pct", "12"),
    ],
);

pub(super) const DRAW_TEST: Layout = rows(
    "draw_test",
    &[
        key("date", "2026-04-05"),
        key("batch", "\"sawdust April\""),
        key("temperature_c", "22"),
        key("dose_mg_litre", "150"),
        key("dry_g_per_litre", "30"),
        key("index", "0.55"),
    ],
);

pub(super) const PUT_DOWN: Layout = rows(
    "put_down",
    &[
        key("date", "2026-04-15"),
        key("place", "\"Bed 1\""),
        key("batch", "\"sawdust April\""),
        key("way", "\"on-top\""),
        key("dry_mass_t_ha", "10"),
        key("wet_kg", "20"),
        key("volume_m3", "0.6"),
        key("depth_mm", "50"),
        key("settled_depth_mm", "40"),
        key("fingers", "3"),
        key("hands", "1"),
        key("barrows", "8"),
        key("trailers", "1"),
        key("from_tree", "\"12/9\""),
        key("to_tree", "\"14/3\""),
        key("drive", "\"serpentine\""),
        key("fingers", "3"),
        key("hands", "1"),
    ],
);

pub(super) const DEPTH: Layout = rows(
    "depth",
    &[
        key("date", "2026-06-01"),
        key("place", "\"Bed 1\""),
        key("depths_mm", "[45, 50, 40]"),
        key("fingers", "[2, 2.5, 2]"),
        key("hands", "[1, 1]"),
    ],
);

pub(super) const WORKED: Layout = rows(
    "worked",
    &[
        key("date", "2026-10-01"),
        key("place", "\"Bed 1\""),
        key("depth_cm", "20"),
        key("tool", "\"fork\""),
        key("share_pct", "80"),
    ],
);

pub(super) const LIFTED: Layout = rows(
    "lifted",
    &[
        key("date", "2026-10-01"),
        key("place", "\"Path 1\""),
        key("name", "\"old path chips\""),
        key("batch", "\"chips March\""),
        key("share_pct", "90"),
        key("wet_kg", "200"),
        key("volume_m3", "0.8"),
        key("barrows", "10"),
        key("moisture_pct", "60"),
    ],
);

pub(super) const GAP: Layout = rows(
    "gap",
    &[
        key("date", "2026-06-01"),
        key("place", "\"Apple row\""),
        key("gap_cm", "15"),
        key("plants", "6"),
        key("blocked_emitters", "0"),
        key("mended", "true"),
    ],
);

pub(super) const FEED: Layout = rows(
    "feed",
    &[
        key("date", "2026-05-20"),
        key("place", "\"Bed 1\""),
        key("source", "\"urea\""),
        key("crop_kg_ha", "20"),
        key("wood_kg_ha", "30"),
        key("placed", "\"mixed\""),
    ],
);

pub(super) const WATER: Layout = rows(
    "water",
    &[key("date", "2026-06-10"), key("place", "\"Bed 1\""), key("mm", "20"), key("under", "true")],
);

pub(super) const RAIN: Layout = rows(
    "rain",
    &[
        key("date", "2026-06-10"),
        key("place", "\"Bed 1\""),
        key("mm", "12.5"),
        key("mean_c", "16.5"),
        key("et0_mm", "3.2"),
    ],
);

pub(super) const CROP: Layout = rows(
    "crop",
    &[
        key("place", "\"Bed 1\""),
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
);

pub(super) const ENDED: Layout = rows(
    "ended",
    &[
        key("date", "2026-09-12"),
        key("place", "\"Bed 1\""),
        key("crop", "\"cabbage\""),
        key("fate", "\"carried off\""),
        key("yield_kg", "40"),
    ],
);

pub(super) const LEAF: Layout =
    rows("leaf", &[key("date", "2026-06-10"), key("place", "\"Bed 1\""), key("nutrition_index", "0.85")]);

pub(super) const TASK: Layout = rows(
    "task",
    &[
        key("date", "2026-05-01"),
        key("place", "\"Bed 1\""),
        key("what", "\"feed\""),
        key("due", "2026-05-20"),
        key("to", "\"Ana\""),
        key("text", "\"after the rain\""),
    ],
);

pub(super) const DONE: Layout = rows(
    "done",
    &[
        key("date", "2026-05-21"),
        key("place", "\"Bed 1\""),
        key("what", "\"feed\""),
        key("dropped", "false"),
        key("reason", "\"rained off\""),
    ],
);

pub(super) const NOTE: Layout =
    rows("note", &[key("date", "2026-05-21"), key("place", "\"Bed 1\""), key("text", "\"leaves are pale\"")]);

/// All sections, in the order in which they are best written.
pub(super) const SCORED: Layout = rows(
    "scored",
    &[
        key("date", "2026-06-01"),
        key("trial", "\"Chips on beans\""),
        key("rater", "\"Ana\""),
        key("leaves", "\"old\""),
        key("plots", "[101, 102, 103, 104]"),
        key("yellow_pct", "[5, 20, 0, 10]"),
        key("again", "false"),
    ],
);

pub(super) const PLOT_MEASURED: Layout = rows(
    "plot_measured",
    &[
        key("date", "2026-08-01"),
        key("trial", "\"Chips on beans\""),
        key("plot", "101"),
        key("yield_kg", "4.2"),
        key("weeds_pct", "5"),
        key("soil_moisture_pct", "21"),
        key("stand", "18"),
    ],
);

pub(super) const PLOT_LOST: Layout = rows(
    "plot_lost",
    &[
        key("date", "2026-07-01"),
        key("trial", "\"Chips on beans\""),
        key("plot", "103"),
        key("reason", "\"a mole\""),
    ],
);

pub(super) const TRIAL_CLOSED: Layout = rows(
    "trial_closed",
    &[key("date", "2026-09-01"), key("trial", "\"Chips on beans\""), key("note", "\"a dry summer\"")],
);

pub(super) static LAYOUTS: [&Layout; 36] = [
    &HOLDING,
    &CONTAINERS,
    &WEATHER,
    &PERSON,
    &PLACE,
    &SETTING,
    &SOIL_TEST,
    &LOAD,
    &BLEND,
    &PILE,
    &HEAT,
    &MOISTURE,
    &TURNED,
    &FINISHED,
    &SCORED,
    &PLOT_MEASURED,
    &PLOT_LOST,
    &TRIAL_CLOSED,
    &COUNT,
    &BATCH_TEST,
    &DRAW_TEST,
    &ENDED,
    &LIFTED,
    &WORKED,
    &FEED,
    &PUT_DOWN,
    &CROP,
    &DEPTH,
    &GAP,
    &WATER,
    &RAIN,
    &LEAF,
    &TASK,
    &DONE,
    &NOTE,
    &CLOSED,
];
