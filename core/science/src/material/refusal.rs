//! Wood that is refused for every growing place, recognised by what people call it.

use std::sync::LazyLock;

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

/// What people call such wood, English and Spanish; plurals need no entry of their own.
const NAMES: [(Refusal, &str); 4] = [
    (
        Refusal::Treated,
        "treated,preserved,cca,aca,acza,acq,creosote,creosoted,tanalised,tanalized,pentachlorophenol,impregnated,\
         sleeper,crosstie,railway tie,tratada,tratado,autoclave,creosota,impregnada,impregnado,traviesa,durmiente",
    ),
    (
        Refusal::Painted,
        "painted,varnished,lacquered,stained,enamelled,pintada,pintado,barnizada,barnizado,lacada,lacado",
    ),
    (
        Refusal::Board,
        "plywood,ply wood,mdf,hdf,osb,particleboard,particle board,chipboard,chip board,fiberboard,fiber board,\
         fibreboard,fibre board,hardboard,blockboard,laminated,melamine,melamina,contrachapado,contrachapada,\
         aglomerado,aglomerada,tablero,triplay,laminado",
    ),
    (
        Refusal::Demolition,
        "demolition,construction,rubble,demolicion,construccion,derribo,escombro,madera de obra",
    ),
];

/// Words that turn the next one round: "not treated", "sin tratar", "no pintada".
const NEGATIONS: [&str; 6] = ["not", "non", "no", "sin", "never", "nunca"];

/// Processes that "treated" may follow without any preservative.
const HARMLESS: [&str; 3] = ["heat", "kiln", "steam"];

/// What such words do not make wood of.
const NOT_WOOD: [&str; 6] = ["manure", "compost", "straw", "estiercol", "paja", "sludge"];

/// Words shorter than this are compared whole: `osb` and `oak` must not be confused.
const FUZZY_FROM: usize = 6;

/// A name that says the material must be refused.
pub(super) fn said_in(name: &str) -> Option<Refusal> {
    search(name, |word, refused| word == refused)
}

/// A name with a typing error in a word that would refuse it.
pub(super) fn almost_said_in(name: &str) -> Option<Refusal> {
    search(name, |word, refused| {
        word == refused
            || (word.len() >= FUZZY_FROM
                && refused.len() >= FUZZY_FROM
                && strsim::damerau_levenshtein(word, refused) <= 1)
    })
}

fn search(name: &str, same: impl Fn(&str, &str) -> bool) -> Option<Refusal> {
    let said = words(name);
    if NOT_WOOD.iter().any(|other| words(other).iter().any(|word| said.contains(word))) {
        return None;
    }
    let turned_round = |at: usize| {
        let before = at.checked_sub(1).and_then(|i| said.get(i)).map(String::as_str);
        before.is_some_and(|word| NEGATIONS.contains(&word) || HARMLESS.contains(&word))
    };
    (0..said.len()).filter(|at| !turned_round(*at)).find_map(|at| {
        let rest = said.get(at..)?;
        let found = FOLDED.iter().find(|(_, refused)| {
            refused.len() <= rest.len() && refused.iter().zip(rest).all(|(r, word)| same(word, r))
        });
        found.map(|(refusal, _)| *refusal)
    })
}

/// The names in words folded as what is typed.
static FOLDED: LazyLock<Vec<(Refusal, Vec<String>)>> = LazyLock::new(|| {
    NAMES
        .iter()
        .flat_map(|(refusal, names)| names.split(',').map(move |name| (*refusal, words(name.trim()))))
        .collect()
});
