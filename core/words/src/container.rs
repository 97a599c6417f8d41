//! Amounts in what a person carries them in: whole ones and halves.

use crate::Words;
use crate::quantity::to_step;

/// What residue is carried in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Container {
    /// A barrow.
    Barrow,
    /// A bucket.
    Bucket,
    /// A trailer.
    Trailer,
}

impl Container {
    const fn id(self) -> &'static str {
        match self {
            Self::Barrow => "barrow",
            Self::Bucket => "bucket",
            Self::Trailer => "trailer",
        }
    }
}

/// From this many on, halves are no longer told.
const HALVES_BELOW: f64 = 6.0;
/// From this many on, two significant digits are enough.
const COARSE_FROM: f64 = 100.0;

impl Words {
    /// "12 barrows", "2½ barrows", "half a barrow".
    pub fn containers(&self, container: Container, count: f64) -> String {
        let id = container.id();
        if !count.is_finite() {
            return self.counted(id, 2.0, self.unknown());
        }
        let step = if count.abs() < HALVES_BELOW { 0.5 } else { 1.0 };
        let told = to_step(count, step);
        let whole = told.floor();
        if count > 0.0 && told < 0.5 {
            self.label(&format!("{id}-under-half"))
        } else if told - whole < 0.25 {
            let number = if whole < COARSE_FROM { self.number(whole, 0) } else { self.coarse(whole) };
            self.counted(id, whole, number)
        } else if whole < 1.0 {
            self.label(&format!("{id}-half"))
        } else {
            self.counted(&format!("{id}-and-half"), whole, self.number(whole, 0))
        }
    }
}
