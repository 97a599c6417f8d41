//! A batch was applied.

use super::kinded;
use super::plain::LaidBy;
use crate::entry::field::{codes, record};
use crate::entry::id::EntryId;
use crate::entry::trees::TreeRun;

codes! {
    /// How a batch is applied.
    Way, "way" {
        /// Mixed into the soil.
        WorkedIn = 1, "worked-in";
        /// Laid on the soil.
        OnTop = 2, "on-top";
        /// Laid on the soil over compost, manure or urine.
        OnTopOverNitrogen = 3, "on-top-over-nitrogen";
        /// Composted with something richer first.
        CompostedFirst = 4, "composted-first";
        /// On a path.
        Path = 5, "path";
        /// In rings under trees.
        Ring = 6, "ring";
    }
}

codes! {
    /// What it was carried in.
    ContainerKind, "container" {
        /// Barrow.
        Barrow = 1, "barrow";
        /// Bucket.
        Bucket = 2, "bucket";
        /// Trailer.
        Trailer = 3, "trailer";
        /// Bag.
        Bag = 4, "bag";
    }
}

codes! {
    /// What the amount rests on.
    KnownBy, "way of knowing an amount" {
        /// A scale: the moist mass.
        Mass = 1, "mass";
        /// A volume, or a count of containers.
        Volume = 2, "volume";
        /// The depth of the layer.
        Depth = 3, "depth";
        /// A dry mass for each area.
        Dry = 4, "dry";
    }
}

record! {
    /// Part of a batch went to the place that the entry is about.
    PutDown {
        /// The load that it came from.
        batch: EntryId,
        /// How.
        way: Way,
        /// Moist mass, g.
        wet_g: Option<u64>,
        /// Dry mass, g.
        dry_g: Option<u64>,
        /// Depth of soil it was worked into, or thickness of the layer, mm.
        depth_mm: Option<u32>,
        /// Area covered, mm2; the whole place where absent.
        area_mm2: Option<u64>,
        /// How many containers.
        containers: Option<u32>,
        /// What kind of container.
        container: Option<ContainerKind>,
        /// Volume of one, mL.
        container_ml: Option<u64>,
        /// The feed or putting down that lies under it.
        over: Option<EntryId>,
        /// Gap left at the trunk, mm.
        gap_mm: Option<u32>,
        /// The trees that it went to; the whole place, or nobody said, where absent.
        trees: Option<TreeRun>,
        /// By what its thickness was measured, where that is all that is known; the masses are then what that stands
        /// for.
        laid_by: Option<LaidBy>,
        /// How many of them, x 10.
        laid_x10: Option<u32>,
        /// What the amount rests on; all other measures follow from it.
        known_by: Option<KnownBy>,
    }
}

impl PutDown {
    /// A batch that went to a place, of no amount yet.
    pub const fn of(batch: EntryId, way: Way) -> Self {
        Self {
            batch,
            way,
            wet_g: None,
            dry_g: None,
            depth_mm: None,
            area_mm2: None,
            containers: None,
            container: None,
            container_ml: None,
            over: None,
            gap_mm: None,
            trees: None,
            laid_by: None,
            laid_x10: None,
            known_by: None,
        }
    }
}

// A golden file holds a version 2 of other fields as one of later times, so there is none.
kinded!(PutDown, version 5, about Place, naming {
    "batch": [LoadTakenIn, BatchBlended, LayerLifted, PileFinished],
    "over": [FeedGiven, PutDown]
}, before [(1, 11), (3, 12), (4, 14)]);
