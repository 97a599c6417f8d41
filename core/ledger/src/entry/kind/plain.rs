//! Answers in words, kept as they were given: what they stand for may be known better one day. "Unknown" is an answer.

use crate::entry::field::codes;

codes! {
    /// What wood it is.
    Wood, "wood" {
        /// From trees with broad leaves.
        Hardwood = 1, "hardwood";
        /// From trees with needles.
        Softwood = 2, "softwood";
        /// Both.
        Mixed = 3, "mixed";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// A handful rubbed.
    Pieces, "look of pieces" {
        /// As fine as flour.
        Flour = 1, "flour";
        /// Like ground coffee.
        Coffee = 2, "coffee";
        /// Thin flakes and curls.
        Flakes = 3, "flakes";
        /// Like matchsticks.
        Matchsticks = 4, "matchsticks";
        /// Bigger.
        Bigger = 5, "bigger";
        /// Don't know.
        Unknown = 6, "unknown";
    }
}

codes! {
    /// A handful squeezed.
    Handful, "handful" {
        /// Gives off dust.
        Dusty = 1, "dusty";
        /// Cool and damp, no water comes.
        Damp = 2, "damp";
        /// Water drips.
        Drips = 3, "drips";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// How old it looks and smells.
    Age, "age" {
        /// Bright, smells of wood or resin.
        Fresh = 1, "fresh";
        /// Some months in a heap.
        Months = 2, "months";
        /// A year or so.
        Year = 3, "year";
        /// Some years.
        Years = 4, "years";
        /// Don't know.
        Unknown = 5, "unknown";
    }
}

codes! {
    /// What it smells of.
    Smell, "smell" {
        /// Wood, resin, nothing.
        Wood = 1, "wood";
        /// Forest soil.
        Earth = 2, "earth";
        /// Vinegar, silage, ammonia or rotten eggs.
        Sour = 3, "sour";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// What a depth was measured by where there was no rule.
    LaidBy, "measure of the hand" {
        /// Fingers across.
        Fingers = 1, "fingers";
        /// Hands across, thumb and all.
        Hands = 2, "hands";
    }
}

codes! {
    /// Damp soil, rolled between the palms.
    Rolled, "roll of damp soil" {
        /// Falls apart.
        Crumbles = 1, "crumbles";
        /// Holds as a ball.
        Ball = 2, "ball";
        /// Makes a ribbon.
        Ribbon = 3, "ribbon";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// The colour of moist topsoil.
    Colour, "colour of soil" {
        /// Pale, yellowish or grey.
        Pale = 1, "pale";
        /// Brown.
        Brown = 2, "brown";
        /// Dark brown.
        Dark = 3, "dark";
        /// Black.
        Black = 4, "black";
        /// Don't know.
        Unknown = 5, "unknown";
    }
}

codes! {
    /// What winters are like.
    Winters, "winter" {
        /// Hardly any frost.
        Mild = 1, "mild";
        /// Frost comes and goes.
        Frosty = 2, "frosty";
        /// The ground stays frozen.
        Hard = 3, "hard";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// What summers are like.
    Summers, "summer" {
        /// One needs a jacket in the evening.
        Cool = 1, "cool";
        /// Warm.
        Warm = 2, "warm";
        /// Too hot to work at noon.
        Hot = 3, "hot";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// How much rain falls in a usual month.
    Rain, "rain" {
        /// Dry country.
        Little = 1, "little";
        /// Neither.
        Middling = 2, "middling";
        /// Wet country.
        Much = 3, "much";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// What is over a place.
    Cover, "cover" {
        /// The open sky.
        None = 1, "none";
        /// A roof: no rain falls in.
        Roof = 2, "roof";
        /// A tunnel or a greenhouse: no rain falls in.
        Tunnel = 3, "tunnel";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}

codes! {
    /// How a place is watered.
    Watering, "watering" {
        /// Never.
        Never = 1, "never";
        /// When leaves hang.
        WhenLeavesHang = 2, "when-leaves-hang";
        /// Often enough that the soil stays moist.
        Enough = 3, "enough";
        /// Don't know.
        Unknown = 4, "unknown";
    }
}
