//! Soil was tested.

use super::kinded;
use super::load_taken_in::Answer;
use super::plain::{Colour, Rolled};
use crate::entry::field::{Label, codes, record};

codes! {
    /// What a figure of nitrogen is a figure of.
    NitrogenForm, "form of nitrogen" {
        /// The nitrogen in nitrate.
        NitrateN = 1, "nitrate-N";
        /// Nitrate, of which 22.6 % is nitrogen.
        Nitrate = 2, "nitrate";
        /// The nitrogen in nitrate and ammonium.
        MineralN = 3, "mineral-N";
    }
}

record! {
    /// Figures of the soil of the place that the entry is about, as people have them.
    #[derive(Default)]
    SoilTested {
        /// Upper end of the sample, mm.
        top_mm: Option<u32>,
        /// Lower end of the sample, mm.
        bottom_mm: Option<u32>,
        /// Organic matter by mass, 0.01 %.
        organic_matter_bp: Option<u32>,
        /// Clay by mass, 0.01 %.
        clay_bp: Option<u32>,
        /// Sand by mass, 0.01 %.
        sand_bp: Option<u32>,
        /// Dry bulk density, g/m3.
        bulk_density_g_m3: Option<u32>,
        /// pH, x 100.
        ph_x100: Option<u32>,
        /// What the next two are figures of.
        nitrogen_form: Option<NitrogenForm>,
        /// That form, mg/kg (ppm) x 100.
        mg_kg_x100: Option<u32>,
        /// That form, mg/m2 (1 kg/ha is 100).
        mg_m2: Option<u32>,
        /// Water that plants can have, mm.
        available_water_mm: Option<u32>,
        /// All water at field capacity, mm.
        field_capacity_mm: Option<u32>,
        /// Part of the available water that is there on that day, 0.01 %.
        water_bp: Option<u32>,
        /// Answered by eye and not by a laboratory: which question.
        plain: Option<Label>,
        /// How damp soil rolls.
        rolled: Option<Rolled>,
        /// Its colour.
        colour: Option<Colour>,
        /// Whether the crop before was fed.
        last_crop_fed: Option<Answer>,
    }
}

kinded!(SoilTested, version 2, about Place, before [(1, 14)]);
