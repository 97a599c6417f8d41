//! Both languages say the same things, in full, and promise nothing.

#![allow(clippy::unwrap_used, reason = "a failure here is the test's")]

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use kerfbook_words::{Language, Units, Words, sources};

/// Ids of a language with the arguments that each text uses.
fn catalogue(language: Language) -> BTreeMap<String, BTreeSet<String>> {
    let mut texts = BTreeMap::new();
    for (topic, text) in sources(language) {
        let resource = fluent_syntax::parser::parse(*text)
            .unwrap_or_else(|(_, errors)| panic!("{}/{topic}.ftl: {errors:?}", language.code()));
        for entry in resource.body {
            if let Entry::Message(message) = entry {
                let mut arguments = BTreeSet::new();
                collect(message.value.as_ref().unwrap(), &mut arguments);
                let id = message.id.name.to_owned();
                assert!(
                    texts.insert(id.clone(), arguments).is_none(),
                    "{id} stands twice in {}",
                    language.code()
                );
            }
        }
    }
    texts
}

fn collect(pattern: &Pattern<&str>, arguments: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            match expression {
                Expression::Inline(inline) => reference(inline, arguments),
                Expression::Select { selector, variants } => {
                    reference(selector, arguments);
                    for variant in variants {
                        collect(&variant.value, arguments);
                    }
                }
            }
        }
    }
}

fn reference(inline: &InlineExpression<&str>, arguments: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            arguments.insert(id.name.to_owned());
        }
        InlineExpression::StringLiteral { .. } => {}
        other => panic!("texts use plain arguments only, not {other:?}"),
    }
}

#[test]
fn every_file_is_embedded() {
    for language in Language::ALL {
        let folder = format!("{}/locale/{}", env!("CARGO_MANIFEST_DIR"), language.code());
        let files: BTreeSet<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|file| file.unwrap().file_name().into_string().unwrap().replace(".ftl", ""))
            .collect();
        let embedded: BTreeSet<String> =
            sources(language).iter().map(|(topic, _)| (*topic).to_owned()).collect();
        assert_eq!(files, embedded);
    }
}

#[test]
fn words_can_be_shared_between_threads() {
    const fn shared<T: Send + Sync>() {}
    shared::<Words>();
}

#[test]
fn both_languages_have_the_same_texts() {
    let english = catalogue(Language::English);
    let spanish = catalogue(Language::Spanish);
    let ids = |texts: &BTreeMap<String, BTreeSet<String>>| texts.keys().cloned().collect::<BTreeSet<_>>();
    let (en, es) = (ids(&english), ids(&spanish));
    assert_eq!(en.difference(&es).collect::<Vec<_>>(), Vec::<&String>::new(), "only in English");
    assert_eq!(es.difference(&en).collect::<Vec<_>>(), Vec::<&String>::new(), "only in Spanish");
    for (id, arguments) in &english {
        // $count only chooses the plural, which one language may need and the other not.
        let shown =
            |set: &BTreeSet<String>| set.iter().filter(|name| *name != "count").cloned().collect::<Vec<_>>();
        assert_eq!(shown(arguments), shown(&spanish[id]), "arguments of {id}");
    }
    assert!(english.len() > 500, "only {} texts", english.len());
}

#[test]
fn every_text_can_be_said() {
    for language in Language::ALL {
        for units in [Units::Metric, Units::Us] {
            let words = Words::new(language, units);
            for (id, arguments) in catalogue(language) {
                let given: Vec<(&str, String)> =
                    arguments.iter().map(|name| (name.as_str(), format!("<{name}>"))).collect();
                let said = words.try_say(&id, &given).unwrap();
                assert!(!said.is_empty(), "{id} is empty");
                assert!(!said.chars().any(|c| ('\u{2066}'..='\u{2069}').contains(&c)), "{id}: isolates");
                for name in arguments.iter().filter(|name| *name != "count") {
                    assert!(said.contains(&format!("<{name}>")), "{id} does not show ${name}: {said}");
                }
            }
        }
    }
}

#[test]
fn nothing_is_called_safe() {
    for language in Language::ALL {
        for (topic, text) in sources(language) {
            for line in text.lines() {
                let lower = line.to_lowercase();
                let bad = lower.split(|c: char| !c.is_alphabetic()).any(|word| {
                    matches!(word, "safe" | "safely" | "safety" | "harmless" | "inocuo" | "inocua")
                        || word.starts_with("segur")
                        || word.starts_with("insegur")
                });
                assert!(!bad, "{}/{topic}.ftl: {line}", language.code());
            }
        }
    }
}

#[test]
fn a_text_that_is_missing_shows_its_id() {
    let words = Words::new(Language::English, Units::Metric);
    assert_eq!(words.say("no-such-text", &[]), "[no-such-text]");
    assert!(words.try_say("no-such-text", &[]).is_err());
}

#[test]
fn an_argument_that_is_missing_shows_its_name() {
    let words = Words::new(Language::Spanish, Units::Metric);
    assert_eq!(words.say("look-leaves", &[]), "Mire las hojas viejas el {$date}.");
    let error = words.try_say("look-leaves", &[]).unwrap_err().to_string();
    assert!(error.contains("look-leaves") && error.contains("date"), "{error}");
}

#[test]
fn every_caution_of_the_science_has_its_text() {
    for language in Language::ALL {
        let words = Words::new(language, Units::Metric);
        let texts = catalogue(language);
        for caution in kerfbook_science::caution::all() {
            let id = format!("caution-{}", caution.id);
            let uses = texts.get(&id).unwrap_or_else(|| panic!("{id} has no text"));
            let has: BTreeSet<String> = caution.figures.iter().map(|(name, _)| (*name).to_owned()).collect();
            assert_eq!(*uses, has, "figures of {id}");
            let said = words.caution(caution);
            assert!(!said.text.contains('{') && !said.text.contains('['), "{id}: {}", said.text);
            assert!(!said.source.is_empty() && !said.severity.is_empty());
        }
        let known: BTreeSet<String> = kerfbook_science::caution::all()
            .iter()
            .map(|caution| format!("caution-{}", caution.id))
            .collect();
        for id in texts.keys().filter(|id| id.starts_with("caution-")) {
            assert!(known.contains(id), "{id} belongs to no caution");
        }
    }
}

#[test]
fn every_name_of_the_tables_is_translated() {
    let words = Words::new(Language::Spanish, Units::Metric);
    let check =
        |name: &str, told: String| assert!(told != name || name == "urea", "{name} is not translated");
    for material in kerfbook_science::material::all() {
        check(material.name, words.material(material.name));
    }
    for feed in kerfbook_science::feed::all() {
        check(feed.name, words.feed(feed.name));
    }
    for crop in kerfbook_science::crop::all() {
        check(crop.name, words.crop(crop.name));
    }
}
