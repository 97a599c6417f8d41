//! Scoring by eye: steps of per cent, a class from them, and how far two scorings of one plot lie apart.

/// The choices: small ones finer, for a plain ten-per-cent scale misses differences where little is yellow (Chiang, Liu,
/// Bock & Gottwald 2014); steps of five beat a nine-point scale (Hartung & Piepho 2007, Euphytica 155:15-26).
pub const STEPS_PCT: [u8; 23] =
    [0, 1, 2, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100];

/// Which leaves were looked at. Old leaves that pale evenly point to nitrogen, new ones with green veins do not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LeafLayer {
    /// The lowest leaves.
    Old,
    /// Those between.
    Middle,
    /// The newest.
    Young,
}

impl LeafLayer {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Old, Self::Middle, Self::Young];

    /// As files name it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Old => "old",
            Self::Middle => "middle",
            Self::Young => "young",
        }
    }
}

/// The class of a share of yellow: 1 below 5 %, 2 below 10, 3 below 25, 4 below 50, 5 from there on. Common practice, no
/// source.
pub fn class(yellow_pct: f64) -> u8 {
    match yellow_pct {
        pct if pct < 5.0 => 1,
        pct if pct < 10.0 => 2,
        pct if pct < 25.0 => 3,
        pct if pct < 50.0 => 4,
        _ => 5,
    }
}

/// Mean absolute difference between first and second scorings of the same plots; `None` without any.
pub fn disagreement(pairs: &[(f64, f64)]) -> Option<f64> {
    let sum: f64 = pairs.iter().map(|(first, second)| (first - second).abs()).sum();
    (!pairs.is_empty()).then(|| sum / super::real(pairs.len()))
}
