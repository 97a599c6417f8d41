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
    }
}

kinded!(BatchTested, version 3, about Batch, before [(1, 5), (2, 9)]);
