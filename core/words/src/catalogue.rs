//! The embedded texts.

use std::sync::Arc;

use fluent_bundle::FluentResource;

use crate::Language;

pub(crate) type Bundle = fluent_bundle::concurrent::FluentBundle<Arc<FluentResource>>;

macro_rules! topics {
    ($language:literal: $($topic:literal),+) => {
        &[$(($topic, include_str!(concat!("../locale/", $language, "/", $topic, ".ftl")))),+]
    };
}

/// Every topic of a language with its text as written in the file.
pub const fn sources(language: Language) -> &'static [(&'static str, &'static str)] {
    match language {
        Language::English => {
            topics!("en": "acts", "answer", "area", "ways", "compare", "cautions", "exchange", "kinds", "dose", "feeds", "purpose", "report",
            "errors", "names", "units", "season", "desk", "rings", "piles", "plain", "compost", "trial", "phone", "carbon")
        }
        Language::Spanish => {
            topics!("es": "acts", "answer", "area", "ways", "compare", "cautions", "exchange", "kinds", "dose", "feeds", "purpose", "report",
            "errors", "names", "units", "season", "desk", "rings", "piles", "plain", "compost", "trial", "phone", "carbon")
        }
    }
}

/// All topics in one bundle.
///
/// A text that cannot be read is left out and shows its id where it is said; a test reads them all.
pub(crate) fn bundle(language: Language) -> Bundle {
    let locale = language.code().parse().unwrap_or_default();
    let mut bundle = Bundle::new_concurrent(vec![locale]);
    // Marks for mixed writing directions would end up in files and terminals; both languages run left to right.
    bundle.set_use_isolating(false);
    for (_, text) in sources(language) {
        let resource = match FluentResource::try_new((*text).to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        // A second text with the same id is refused here and found by the test.
        let _ = bundle.add_resource(Arc::new(resource));
    }
    bundle
}
