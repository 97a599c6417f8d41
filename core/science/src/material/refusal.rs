//! Wood that is refused for every growing place, recognised by what people call it.

use crate::lookup::words;

/// Why a material is refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Refusal {
    /// Treated with preservative.
    Treated,
    /// Painted, varnished, stained.
    Painted,
    /// Dust or chips of glued boards.
    Board,
    /// From building or pulling down.
    Demolition,
}

impl Refusal {
    /// The caution that says why.
    pub const fn caution(self) -> &'static str {
        match self {
            Self::Treated => "treated-wood",
            Self::Painted => "painted-wood",
            Self::Board => "board-dust",
            Self::Demolition => "demolition-wood",
        }
    }
}

const NAMES: [(Refusal, &[&str]); 4] = [
    (
        Refusal::Treated,
        &[
            "treated", "preserved", "cca", "aca", "acza", "acq", "creosote", "creosoted", "tanalised", "tanalized",
            "pentachlorophenol", "impregnated", "sleeper", "sleepers", "crosstie", "tratada", "tratado", "tratadas",
            "tratados", "autoclave", "creosota", "impregnada", "impregnado", "traviesa", "traviesas", "durmiente",
            "durmientes",
        ],
    ),
    (
        Refusal::Painted,
        &[
            "painted", "varnished", "lacquered", "stained", "enamelled", "pintada", "pintado", "pintadas",
            "pintados", "barnizada", "barnizado", "barnizadas", "lacada", "lacado",
        ],
    ),
    (
        Refusal::Board,
        &[
            "plywood", "mdf", "hdf", "osb", "particleboard", "chipboard", "fiberboard", "fibreboard", "hardboard",
            "melamine", "melamina", "blockboard", "laminated", "contrachapado", "contrachapada", "aglomerado",
            "aglomerada", "tablero", "tableros", "triplay", "laminado",
        ],
    ),
    (
        Refusal::Demolition,
        &[
            "demolition", "construction", "rubble", "demolicion", "construccion", "derribo", "escombro", "escombros",
        ],
    ),
];

/// Two words that mean a board only together.
const PAIRS: [(&str, &str); 5] =
    [("particle", "board"), ("fiber", "board"), ("fibre", "board"), ("ply", "wood"), ("chip", "board")];

/// Words that turn the next one round: "not treated", "sin tratar", "no pintada".
const NEGATIONS: [&str; 6] = ["not", "non", "no", "sin", "never", "nunca"];

/// Processes that "treated" may follow without any preservative.
const HARMLESS: [&str; 4] = ["heat", "kiln", "steam", "termicamente"];

/// What such words do not make wood of.
const NOT_WOOD: [&str; 7] = ["manure", "compost", "straw", "estiercol", "paja", "sludge", "purin"];

/// Words shorter than this are compared whole: `osb` and `oak` must not be confused.
const FUZZY_FROM: usize = 6;

/// A name that says the material must be refused.
pub(super) fn said_in(name: &str) -> Option<Refusal> {
    search(name, |word, refused| word == refused)
}

/// A name with a typing error in a word that would refuse it.
pub(super) fn almost_said_in(name: &str) -> Option<Refusal> {
    search(name, |word, refused| {
        word.len() >= FUZZY_FROM
            && refused.len() >= FUZZY_FROM
            && strsim::damerau_levenshtein(word, refused) <= 1
    })
}

fn search(name: &str, same: impl Fn(&str, &str) -> bool) -> Option<Refusal> {
    let said = words(name);
    if said.iter().any(|word| NOT_WOOD.iter().any(|other| words(other).contains(word))) {
        return None;
    }
    for (i, word) in said.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|j| said.get(j)).map(String::as_str);
        if before.is_some_and(|b| NEGATIONS.contains(&b) || HARMLESS.contains(&b)) {
            continue;
        }
        if let Some(b) = before
            && PAIRS.iter().any(|pair| (b, word.as_str()) == *pair)
        {
            return Some(Refusal::Board);
        }
        for (refusal, names) in NAMES {
            // Both sides are folded alike, so a plural or a final e makes no difference.
            if names.iter().any(|refused| words(refused).first().is_some_and(|r| same(word, r))) {
                return Some(refusal);
            }
        }
    }
    None
}
