//! Names that people type for materials, crops and nitrogen sources.
#![expect(clippy::unwrap_used, reason = "tests stop where a value is missing")]

use kerfbook_science::lookup::Match;
use kerfbook_science::material::{self, Found, ModelClass, Particle, Refusal};
use kerfbook_science::{crop, feed};
use proptest::prelude::*;
use rstest::rstest;

fn name_of(found: &Found) -> &'static str {
    match found {
        Found::Material(material) => material.name,
        Found::Refused(_) => "refused",
        Found::Unknown { .. } => "unknown",
    }
}

#[rstest]
#[case("hardwood sawdust", "sawdust, hardwood")]
#[case("Sawdust (hardwood)", "sawdust, hardwood")]
#[case("  HARDWOOD SAW-DUST ", "sawdust, hardwood")]
#[case("Serrín de frondosas", "sawdust, hardwood")]
#[case("serrin de frondosa", "sawdust, hardwood")]
#[case("aserrín de pino", "sawdust, pine")]
#[case("pine shavings", "shavings, pine")]
#[case("virutas de pino", "shavings, pine")]
#[case("wood chips", "wood waste chips, mixed")]
#[case("chip, hardwood", "wood chips, hardwood")]
#[case("astillas", "wood waste chips, mixed")]
#[case("corteza de pino", "bark, softwood")]
#[case("estiércol de caballo", "horse manure with bedding")]
#[case("paja", "straw, general")]
#[case("leaf", "leaves, autumn")]
#[case("compost", "compost, finished")]
#[case("unknown", "wood, unknown")]
#[case("untreated pine sawdust", "unknown")]
#[case("black walnut sawdust", "sawdust, black walnut")]
#[case("western redcedar sawdust", "sawdust, western redcedar")]
#[case("", "unknown")]
fn materials_are_found(#[case] typed: &str, #[case] name: &str) {
    assert_eq!(name_of(&material::find(typed)), name);
}

#[rstest]
#[case("pressure-treated pine chips", Refusal::Treated)]
#[case("CCA posts", Refusal::Treated)]
#[case("madera tratada", Refusal::Treated)]
#[case("serrín de traviesas", Refusal::Treated)]
#[case("treatd pine sawdust", Refusal::Treated)]
#[case("painted boards", Refusal::Painted)]
#[case("virutas barnizadas", Refusal::Painted)]
#[case("MDF dust", Refusal::Board)]
#[case("OSB", Refusal::Board)]
#[case("particle-board sawdust", Refusal::Board)]
#[case("serrín de contrachapado", Refusal::Board)]
#[case("tableros", Refusal::Board)]
#[case("demolition wood", Refusal::Demolition)]
#[case("construction waste", Refusal::Demolition)]
fn wood_that_no_growing_place_takes_is_refused(#[case] typed: &str, #[case] why: Refusal) {
    assert_eq!(material::find(typed), Found::Refused(why));
    assert!(kerfbook_science::caution::of_id(why.caution()).is_some());
}

#[rstest]
#[case("not treated")]
#[case("sin pintar")]
#[case("heat treated pallets")]
#[case("treated manure")]
#[case("ash sawdust")]
#[case("oak sawdust")]
fn what_only_sounds_like_it_is_not_refused(#[case] typed: &str) {
    assert!(!matches!(material::find(typed), Found::Refused(_)), "{typed}");
}

#[test]
fn a_typing_error_brings_suggestions_best_first() {
    let Found::Unknown { nearest } = material::find("hardwod sawdust") else { panic!("a guess") };
    assert_eq!(nearest.first().unwrap().name, "sawdust, hardwood");
    let Match::Near(crops) = crop::find("tomatoo") else { panic!("a guess") };
    assert_eq!(crops.first().unwrap().name, "tomato");
    let Match::Near(feeds) = feed::find("amonium sulfate") else { panic!("a guess") };
    assert_eq!(feeds.first().unwrap().name, "ammonium sulfate");
}

#[rstest]
#[case("tomatoes", "tomato")]
#[case("Lechuga", "lettuce")]
#[case("patatas", "potato")]
#[case("maíz", "maize")]
#[case("blueberries", "blueberry")]
#[case("arándanos", "blueberry")]
#[case("apples", "apple")]
#[case("judías", "beans")]
fn crops_are_found(#[case] typed: &str, #[case] name: &str) {
    assert_eq!(crop::find(typed).exact().unwrap().name, name);
}

#[rstest]
#[case("Urea", "urea")]
#[case("sulfato de amonio", "ammonium sulfate")]
#[case("orina", "human urine")]
#[case("estiércol de vaca", "cattle manure")]
#[case("Blood Meal", "blood meal")]
#[case("compost maduro", "finished compost")]
fn feeds_are_found(#[case] typed: &str, #[case] name: &str) {
    assert_eq!(feed::find(typed).exact().unwrap().name, name);
}

#[test]
fn unknown_wood_draws_among_the_classes_it_may_be() {
    let Found::Material(wood) = material::find("unknown wood") else { panic!("not found") };
    let classes = wood.composition.first().unwrap().one_of;
    assert_eq!(classes, [ModelClass::Hardwood, ModelClass::Pine, ModelClass::SlowSoftwood]);
    assert_eq!(wood.particle, Particle::Dust);
}

#[test]
fn parts_of_a_blend_keep_the_ratio_of_the_whole() {
    for material in material::all().iter().filter(|material| material.is_residue()) {
        let whole = material.carbon_nitrogen.typical;
        let nitrogen: f64 = material
            .composition
            .iter()
            .map(|part| part.share * part.carbon_share() / material.part_carbon_nitrogen(part, whole))
            .sum();
        let ratio = material.carbon_share() / nitrogen;
        assert!((ratio - whole).abs() < 1e-9 * whole, "{}: {ratio} is not {whole}", material.name);
    }
}

proptest! {
    #[test]
    fn no_name_panics_or_matches_by_guess(typed in "\\PC{0,300}") {
        let _ = (material::find(&typed), crop::find(&typed), feed::find(&typed));
    }

    #[test]
    fn a_changed_letter_is_never_a_match(at in 0usize..7, letter in proptest::char::range('b', 'd')) {
        let mut typed: Vec<char> = "sawdust, hardwood".chars().collect();
        let before = typed[at];
        typed[at] = letter;
        let typed: String = typed.into_iter().collect();
        let found = matches!(material::find(&typed), Found::Material(_));
        prop_assert_eq!(found, before == letter);
    }

    #[test]
    fn amounts_and_nitrogen_go_both_ways(which in 0usize..19, kg in 0.001f64..1000.0) {
        let feed = feed::all().get(which).unwrap();
        let nitrogen = kerfbook_science::units::Mass::from_kg(kg);
        let back = feed.nitrogen_in(feed.amount_for(nitrogen)).unwrap();
        prop_assert!((back.kg() - kg).abs() <= 1e-12 * kg);
    }
}
