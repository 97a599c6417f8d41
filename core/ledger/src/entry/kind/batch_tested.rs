//! A batch was measured.

use super::kinded;
use super::load_taken_in::Answer;
use super::plain::{Age, Handful, Smell};
use crate::entry::field::{Label, record};

record! {
    /// Figures of the batch that the entry is about, as they are on that day.
    #[derive(Default)]
    BatchTested {
        /// Water by mass of the moist batch, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen by mass, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// Loose bulk density, moist, g/m3.
        wet_density_g_m3: Option<u32>,
        /// Whether it smells sour.
        sour: Option<Answer>,
        /// How it was measured.
        method: Option<Label>,
        /// Half-width of what the moisture may be, 0.01 %.
        moisture_half_bp: Option<u32>,
        /// What a handful squeezed was like; the moisture is then what that stands for.
        handful: Option<Handful>,
        /// How old it looked.
        age: Option<Age>,
        /// What it smelled of.
        smell: Option<Smell>,
        /// Standard deviation of that density as part of it, 0.01 %.
        wet_density_sd_bp: Option<u32>,
        /// Ammonium to nitrate, both as nitrogen, x 100.
        ammonium_nitrate_x100: Option<u32>,
        /// Carbon dioxide, mg C a gram of organic matter and day, x 100.
        dioxide_x100: Option<u32>,
        /// Seedlings that came up, of a control, 0.01 %.
        emergence_bp: Option<u32>,
        /// Rise in an insulated flask, 0.01 degree C.
        self_heating_centi_c: Option<u32>,
        /// Oxygen taken up, mg a kg of volatile solids and hour.
        oxygen_mg_kg_h: Option<u32>,
        /// Germination index: germination times root length, each by its control, 0.01 %.
        germination_bp: Option<u32>,
        /// Whether seedlings grown in it were hurt, as weedkillers do that outlast animals and compost.
        seedlings_hurt: Option<Answer>,
        /// Ash by dry mass, 0.01 %.
        ash_bp: Option<u32>,
    }
}

kinded!(BatchTested, version 5, about Batch, before [(1, 5), (2, 9), (3, 10), (4, 17)]);
