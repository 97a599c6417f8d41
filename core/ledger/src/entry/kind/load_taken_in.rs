//! A load was accepted.

use super::kinded;
use super::plain::{Age, Handful, Pieces, Smell, Wood};
use crate::entry::field::{Label, codes, record};
use crate::entry::id::{Date, TextRef};

codes! {
    /// Size of pieces.
    Particle, "particle" {
        /// Sawdust, sander dust.
        Dust = 1, "dust";
        /// Planer shavings.
        Shavings = 2, "shavings";
        /// Chips.
        Chips = 3, "chips";
        /// Bigger.
        Chunks = 4, "chunks";
    }
}

codes! {
    /// What was answered at intake.
    Answer, "answer" {
        /// Yes.
        Yes = 1, "yes";
        /// No.
        No = 2, "no";
        /// Don't know.
        Unknown = 3, "unknown";
    }
}

codes! {
    /// How a load is kept.
    Storage, "storage" {
        /// Under a roof or a sheet.
        Covered = 1, "covered";
        /// In the rain.
        Open = 2, "open";
    }
}

record! {
    /// Opens a batch: one load with its own figures and answers.
    LoadTakenIn {
        /// What the load is called here.
        label: Label,
        /// Name in the table of materials.
        material: Label,
        /// Class in the nitrogen model, where it was settled.
        model_class: Option<Label>,
        /// Size of pieces.
        particle: Option<Particle>,
        /// Mass as it came, g.
        wet_g: Option<u64>,
        /// Loose volume as it came, mL.
        volume_ml: Option<u64>,
        /// Water by mass of the moist load, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen by mass, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// Loose bulk density as it came, g/m3.
        wet_density_g_m3: Option<u32>,
        /// From whom.
        from: Option<TextRef>,
        /// What kind of place it comes from.
        source: Option<Label>,
        /// Treated, painted or glued wood in it.
        treated: Answer,
        /// From diseased plants.
        diseased: Answer,
        /// From logs that floated in salt water.
        salty: Answer,
        /// Bedding with medicines, or weedkillers.
        medicated: Answer,
        /// When it was cut.
        cut: Option<Date>,
        /// Price paid, hundredths of the currency.
        cost_hundredths: Option<u64>,
        /// Currency.
        currency: Option<Label>,
        /// Way it was hauled, m.
        haul_m: Option<u32>,
        /// Work of fetching and unloading, minutes.
        minutes: Option<u32>,
        /// Half-width of what the moisture may be, 0.01 %.
        moisture_half_bp: Option<u32>,
        /// How it is kept.
        stored: Option<Storage>,
        /// What wood it is, as answered.
        wood: Option<Wood>,
        /// What a handful rubbed was like.
        pieces: Option<Pieces>,
        /// What a handful squeezed was like; the moisture is then what that stands for.
        handful: Option<Handful>,
        /// How old it looked.
        age: Option<Age>,
        /// What it smelled of.
        smell: Option<Smell>,
    }
}

kinded!(LoadTakenIn, version 3, about Nothing, before [(1, 18), (2, 22)]);
