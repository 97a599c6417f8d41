//! The page in both languages, by the shape of its elements and by what it must not hold.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]

use kerfbook_picture::svg;
use kerfbook_words::{Language, Units, Words};

use super::made_up;
use super::{ReportView, STYLE, page};
use kerfbook_acts::month_ticks::months;

fn pages() -> Vec<(Language, String)> {
    Language::ALL
        .into_iter()
        .map(|language| {
            let words = Words::new(language, Units::Metric);
            (language, page(&made_up::view(&words), &words))
        })
        .collect()
}

#[test]
fn every_text_exists_in_both_languages() {
    for (language, page) in pages() {
        assert!(page.contains(&format!("<html lang=\"{}\">", language.code())));
        for id in ["[report-", "[compare-", "[picture-", "[answer-", "[look-", "[unit-", "{ $", "{$"] {
            assert!(!page.contains(id), "{}: {id}", language.code());
        }
    }
}

#[test]
fn nothing_comes_from_outside() {
    for (_, page) in pages() {
        for reference in [
            "http:", "https:", "src=", "url(", "@import", "<script", "<link", "<img", "<iframe", "srcset",
            "href=\"/",
        ] {
            assert!(!page.contains(reference), "{reference}");
        }
    }
}

/// Elements without an end.
const VOID: [&str; 1] = ["meta"];

/// Walks the tags; every element that opens closes, in order.
fn balance(page: &str) -> Result<usize, String> {
    let mut open: Vec<String> = Vec::new();
    let mut rest = page.strip_prefix("<!DOCTYPE html>").ok_or("no document type")?;
    let mut seen = 0;
    while let Some(start) = rest.find('<') {
        let tag = rest.get(start + 1..).unwrap_or_default();
        let end = tag.find('>').ok_or("a tag without an end")?;
        let (inside, after) = (tag.get(..end).unwrap_or_default(), tag.get(end + 1..).unwrap_or_default());
        rest = after;
        seen += 1;
        if let Some(name) = inside.strip_prefix('/') {
            match open.pop() {
                Some(last) if last == name => {}
                last => return Err(format!("</{name}> closes {last:?}")),
            }
        } else if !inside.ends_with('/') {
            let name = inside.split_whitespace().next().unwrap_or_default();
            if !VOID.contains(&name) {
                open.push(name.to_owned());
            }
        }
    }
    if open.is_empty() { Ok(seen) } else { Err(format!("still open: {open:?}")) }
}

#[test]
fn every_element_closes_in_order() {
    for (language, page) in pages() {
        let tags = balance(&page).unwrap_or_else(|fault| panic!("{}: {fault}", language.code()));
        assert!(tags > 500);
    }
    assert!(balance("<!DOCTYPE html><p><b></p></b>").is_err());
}

#[test]
fn ids_are_unique_and_contents_lead_somewhere() {
    let (_, page) = pages().remove(0);
    let values = |attribute: &str| -> Vec<String> {
        page.split(attribute)
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
            .map(ToOwned::to_owned)
            .collect()
    };
    let mut ids = values(" id=\"");
    let all = ids.len();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), all);
    let links = values(" href=\"#");
    assert!(links.len() >= 6);
    assert!(links.iter().all(|link| ids.contains(link)), "{links:?} in {ids:?}");
    let told = values(" aria-labelledby=\"");
    assert!(told.iter().flat_map(|pair| pair.split(' ')).all(|id| ids.iter().any(|known| known == id)));
}

#[test]
fn the_answer_comes_before_everything_else() {
    for (_, page) in pages() {
        let answer = page.find("id=\"answer\"").unwrap();
        for later in
            ["<nav", "id=\"places\"", "id=\"ways\"", "id=\"cautions\"", "id=\"records\"", "id=\"entries\""]
        {
            assert!(answer < page.find(later).unwrap(), "{later}");
        }
    }
}

#[test]
fn the_gravest_caution_stands_first() {
    for (_, page) in pages() {
        let place = |class: &str| page.find(&format!("class=\"gravity {class}\"")).unwrap();
        assert!(place("refuse") < place("warn") && place("warn") < place("note"));
    }
}

#[test]
fn words_of_people_stay_words() {
    let words = Words::new(Language::English, Units::Metric);
    let mut view = made_up::view(&words);
    view.holding = "<script>alert('x')</script> & \"sons\"".into();
    view.places.first_mut().unwrap().name = "</h3><img src=x>".into();
    view.book.entries.first_mut().unwrap().text = "<b>bold".into();
    let page = page(&view, &words);
    assert!(!page.contains("<script") && !page.contains("<img") && !page.contains("<b>"));
    balance(&page).unwrap();
}

#[test]
fn months_stand_where_they_begin() {
    let words = Words::new(Language::Spanish, Units::Metric);
    let first = chrono::NaiveDate::from_ymd_opt(2027, 12, 30).unwrap();
    let ticks: Vec<(f64, String)> =
        months(first, 33, &words).into_iter().map(|tick| (tick.day, tick.label)).collect();
    assert_eq!(ticks, [(2.0, words.month_short(1)), (33.0, words.month_short(2))]);
}

#[test]
fn a_band_that_is_zero_throughout_is_left_out() {
    let words = Words::new(Language::English, Units::Metric);
    let mut view = made_up::view(&words);
    let pictures = |view: &ReportView| page(view, &words).matches("<figure>").count();
    let before = pictures(&view);
    let band = &mut view.places.first_mut().unwrap().bands.first_mut().unwrap().band;
    for (_, range) in band.iter_mut() {
        *range = kerfbook_picture::Range::default();
    }
    assert_eq!(pictures(&view), before - 1);
}

#[test]
fn the_same_view_is_the_same_page() {
    assert_eq!(pages(), pages());
}

/// Relative luminance of sRGB (W3C, 2023, Web Content Accessibility Guidelines 2.2).
fn luminance(colour: &str) -> f64 {
    let part = |from: usize| {
        let value = f64::from(u8::from_str_radix(colour.get(from..from + 2).unwrap(), 16).unwrap()) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { power_2_4((value + 0.055) / 1.055) }
    };
    0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
}

/// x to the power of 2.4: x squared times the fifth root of x squared, the root by Newton's steps.
fn power_2_4(x: f64) -> f64 {
    let square = x * x;
    let root = (0..60).fold(1.0, |root: f64, _| root - (root.powi(5) - square) / (5.0 * root.powi(4)));
    square * root
}

#[test]
fn text_has_a_contrast_of_seven_to_one_by_day_and_by_night() {
    let schemes: Vec<&str> = svg::STYLE.split(":root {").skip(1).collect();
    assert_eq!(schemes.len(), 2);
    for scheme in schemes {
        let colour = |name: &str| {
            let rest = scheme.split(&format!("--{name}: ")).nth(1).unwrap();
            luminance(rest.split(';').next().unwrap())
        };
        let ground = colour("ground");
        for name in ["ink", "quiet"] {
            let text = colour(name);
            let contrast = (ground.max(text) + 0.05) / (ground.min(text) + 0.05);
            assert!(contrast >= 7.0, "{name}: {contrast}");
        }
        // Lines and fills that carry meaning: 3:1.
        for name in ["middle", "bare", "feed", "hungry", "range-edge"] {
            let line = colour(name);
            let contrast = (ground.max(line) + 0.05) / (ground.min(line) + 0.05);
            assert!(contrast >= 3.0, "{name}: {contrast}");
        }
    }
    // Text takes its colour from these two only.
    assert!(!STYLE.contains("color: #") && !STYLE.contains("color: rgb"));
}
