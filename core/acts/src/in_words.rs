//! Answers in words, between entries, which keep them as they were given, and science, which says what they stand for.

use kerfbook_ledger::kind::{self, Answer, Tool};
use kerfbook_science::plain::{self, DugInWith, LastCropFed};

use crate::storage::Smell;

/// An answer that entries keep.
pub(crate) trait InWords: Sized {
    /// As entries have it.
    type Kept;
    /// To an entry.
    fn kept(self) -> Self::Kept;
    /// From an entry.
    fn said(kept: Self::Kept) -> Self;
}

/// The same answers on both sides.
macro_rules! same {
    ($($plain:path, $kept:ty { $($answer:ident = $other:ident),+ $(,)? })+) => {
        $(impl InWords for $plain {
            type Kept = $kept;

            fn kept(self) -> $kept {
                match self { $(Self::$answer => <$kept>::$other,)+ }
            }

            fn said(kept: $kept) -> Self {
                match kept { $(<$kept>::$other => Self::$answer,)+ }
            }
        })+
    };
}

same! {
    plain::Wood, kind::Wood { Hardwood = Hardwood, Softwood = Softwood, Mixed = Mixed, Unknown = Unknown }
    plain::Pieces, kind::Pieces {
        Flour = Flour, Coffee = Coffee, Flakes = Flakes, Matchsticks = Matchsticks, Bigger = Bigger, Unknown = Unknown,
    }
    plain::Handful, kind::Handful { Dusty = Dusty, Damp = Damp, Drips = Drips, Unknown = Unknown }
    plain::Age, kind::Age { Fresh = Fresh, Months = Months, Year = Year, Years = Years, Unknown = Unknown }
    Smell, kind::Smell { Wood = Wood, Earth = Earth, Sour = Sour, Unknown = Unknown }
    plain::LaidBy, kind::LaidBy { Fingers = Fingers, Hands = Hands }
    plain::Rolled, kind::Rolled { Crumbles = Crumbles, Ball = Ball, Ribbon = Ribbon, Unknown = Unknown }
    plain::Colour, kind::Colour { Pale = Pale, Brown = Brown, Dark = Dark, Black = Black, Unknown = Unknown }
    LastCropFed, Answer { Yes = Yes, No = No, Unknown = Unknown }
    plain::Winters, kind::Winters { Mild = Mild, Frosty = Frosty, Hard = Hard, Unknown = Unknown }
    plain::Summers, kind::Summers { Cool = Cool, Warm = Warm, Hot = Hot, Unknown = Unknown }
    plain::Rain, kind::Rain { Little = Little, Middling = Middling, Much = Much, Unknown = Unknown }
    plain::Watering, kind::Watering {
        Never = Never, WhenLeavesHang = WhenLeavesHang, Enough = Enough, Unknown = Unknown,
    }
    plain::Appetite, kind::Appetite { Light = Light, Middling = Middling, Hungry = Hungry, Unknown = Unknown }
    DugInWith, Tool {
        Hoe = Hoe, Fork = Fork, Spade = Spade, Tiller = Tiller, Plough = Plough, Unknown = Unknown,
    }
}
