//! What the folds give: one record a subject.

use std::collections::BTreeSet;

use crate::entry::field::{Label, record};
use crate::entry::id::{Date, EntryId, PublicKey, TextRef};
use crate::entry::kind::{Answer, Fate, Particle, PlaceKind, Placed, Way};
use crate::projection::current::Flag;

record! {
    /// An entry about which something has to be said.
    Flagged {
        /// The entry.
        entry: EntryId,
        /// What.
        flags: Vec<Flag>,
    }
}

record! {
    /// What was put down.
    Layer {
        /// The putting down.
        entry: EntryId,
        /// When.
        date: Date,
        /// The batch it came from.
        batch: EntryId,
        /// How.
        way: Way,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Dry mass, g.
        dry_g: Option<u64>,
        /// Depth of soil, or thickness, mm.
        depth_mm: Option<u32>,
        /// Area covered, mm2.
        area_mm2: u64,
        /// What lies under it.
        over: Option<EntryId>,
    }
}

record! {
    /// A crop.
    CropLine {
        /// The start.
        entry: EntryId,
        /// What is grown.
        crop: Label,
        /// Sown or planted.
        started: Date,
        /// Expected to end.
        ends: Option<Date>,
        /// Ended.
        ended: Option<Date>,
        /// What became of it.
        fate: Option<Fate>,
        /// Fresh mass carried off, g.
        yield_g: Option<u64>,
    }
}

record! {
    /// A feed.
    FeedLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// What.
        source: Label,
        /// Nitrogen, mg.
        nitrogen_mg: u64,
        /// Where it went.
        placed: Placed,
        /// For the crop anyway, mg.
        crop_mg: Option<u64>,
        /// Because of the wood, mg.
        wood_mg: Option<u64>,
    }
}

record! {
    /// Water.
    WaterLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// Depth, mm.
        depth_mm: Option<u32>,
        /// Volume, mL.
        volume_ml: Option<u64>,
    }
}

record! {
    /// A note.
    NoteLine {
        /// The entry.
        entry: EntryId,
        /// When.
        date: Date,
        /// Where the text is kept.
        text: TextRef,
    }
}

record! {
    /// A place and what happened on it, in order of days.
    PlaceView {
        /// The entry that opened it.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// What kind of ground.
        place_kind: PlaceKind,
        /// Area, mm2.
        area_mm2: u64,
        /// Volume of one container, mL.
        container_ml: Option<u64>,
        /// Number of containers or trees.
        containers: Option<u32>,
        /// Depth that roots reach, mm.
        rooting_depth_mm: Option<u32>,
        /// When it was closed.
        closed: Option<Date>,
        /// What was put down.
        layers: Vec<Layer>,
        /// Crops.
        crops: Vec<CropLine>,
        /// Feeds.
        feeds: Vec<FeedLine>,
        /// Water.
        water: Vec<WaterLine>,
        /// Notes.
        notes: Vec<NoteLine>,
        /// Frozen forecasts.
        forecasts: Vec<EntryId>,
        /// Moist mass put down, g, of the layers whose mass is known.
        wet_g: u64,
        /// Dry mass put down, g, of the layers whose mass is known.
        dry_g: u64,
        /// Nitrogen given, mg.
        nitrogen_mg: u64,
        /// Entries about it that carry a flag, the place's own included.
        flagged: Vec<Flagged>,
    }
}

record! {
    /// Where part of a batch went.
    Use {
        /// The putting down.
        entry: EntryId,
        /// When.
        date: Date,
        /// Where.
        place: EntryId,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Volume in containers, mL.
        volume_ml: Option<u64>,
    }
}

record! {
    /// A batch and what is left of it.
    BatchView {
        /// The entry that opened it.
        id: EntryId,
        /// What it is called.
        label: Label,
        /// When it came.
        date: Date,
        /// Name in the table of materials.
        material: Label,
        /// Class in the nitrogen model.
        model_class: Option<Label>,
        /// Size of pieces.
        particle: Option<Particle>,
        /// Mass as it came, g.
        wet_g: Option<u64>,
        /// Volume as it came, mL.
        volume_ml: Option<u64>,
        /// Water by mass of the moist load, 0.01 %.
        moisture_bp: Option<u32>,
        /// Carbon to nitrogen, x 100.
        carbon_nitrogen_x100: Option<u32>,
        /// Loose bulk density as it came, g/m3.
        wet_density_g_m3: Option<u32>,
        /// Treated, painted or glued wood in it.
        treated: Answer,
        /// Where it went.
        uses: Vec<Use>,
        /// Mass left, g; negative where more was put down than came. None where the load was not weighed.
        left_g: Option<i64>,
        /// Volume left, mL; likewise.
        left_ml: Option<i64>,
        /// Uses whose mass is not known and that the mass left does not include.
        unweighed: u32,
        /// Uses whose volume is not known and that the volume left does not include.
        unmeasured: u32,
        /// Entries about it that carry a flag, the batch's own included.
        flagged: Vec<Flagged>,
    }
}

impl BatchView {
    /// More was put down than came: something was entered wrongly, and a count would settle it.
    pub fn overdrawn(&self) -> bool {
        self.left_g.is_some_and(i64::is_negative) || self.left_ml.is_some_and(i64::is_negative)
    }

    /// Withdrawn: not to be used.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }
}

impl PlaceView {
    /// Withdrawn: not to be used.
    pub fn withdrawn(&self) -> bool {
        carries(&self.flagged, self.id, Flag::Withdrawn)
    }
}

fn carries(flagged: &[Flagged], entry: EntryId, flag: Flag) -> bool {
    flagged.iter().any(|one| one.entry == entry && one.flags.contains(&flag))
}

record! {
    /// A person.
    PersonView {
        /// The entry that named them.
        id: EntryId,
        /// Where the name is kept.
        name: TextRef,
        /// Flags of that entry.
        flags: Vec<Flag>,
    }
}

record! {
    /// A forecast that was acted on.
    ForecastView {
        /// The entry.
        id: EntryId,
        /// Day it was frozen.
        date: Date,
        /// The place.
        place: Option<EntryId>,
        /// Version of the engine.
        engine: u32,
        /// Version of its parameters.
        parameters: u32,
        /// Way advised.
        way: Option<Way>,
        /// Day to look.
        look: Option<Date>,
        /// Flags of the entry.
        flags: Vec<Flag>,
    }
}

record! {
    /// A device that may write.
    DeviceView {
        /// The entry that enrolled it.
        id: EntryId,
        /// Its key.
        public_key: PublicKey,
        /// What it is called.
        label: Label,
    }
}

/// Flags as a list.
pub(crate) fn listed(flags: &BTreeSet<Flag>) -> Vec<Flag> {
    flags.iter().copied().collect()
}
