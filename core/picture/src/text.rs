//! How wide a text will be, for fonts that nobody knows beforehand.

use crate::list::Role;

/// Width of a text in a role, pixels: on the wide side of the usual screen fonts.
pub(crate) fn width(role: Role, text: &str) -> f64 {
    let ems: f64 = text.chars().map(em).sum();
    ems * role.type_size() * if role.bold() { 1.1 } else { 1.0 }
}

/// Advance of a letter in parts of the size of type [from memory: the widest of the common sans fonts, rounded up].
fn em(letter: char) -> f64 {
    match letter {
        ' ' | '\u{a0}' | '.' | ',' | '\'' | 'i' | 'j' | 'l' | '|' => 0.33,
        'f' | 't' | 'r' | 'I' | '(' | ')' | ':' | ';' | '-' | '/' | '!' | '¡' => 0.42,
        '°' | '·' | '²' | '³' => 0.5,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '\u{2014}' => 1.0,
        'A'..='Z' => 0.77,
        'a'..='z' | '0'..='9' | '¿' | 'à'..='å' | 'ç'..='ö' | 'ø'..='ÿ' => 0.64,
        '\u{2013}' | '\u{2212}' => 0.7,
        'À'..='Å' | 'Ç'..='Ö' | 'Ø'..='ß' => 0.8,
        _ => 1.1,
    }
}

/// The text, or as much of it as a width holds with an ellipsis after it.
pub(crate) fn fit(role: Role, text: &str, room: f64) -> String {
    if width(role, text) <= room {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if width(role, &format!("{kept}\u{2026}")) > room {
            kept.pop();
            break;
        }
    }
    let kept = kept.trim_end();
    if kept.is_empty() { String::new() } else { format!("{kept}\u{2026}") }
}

/// The text in lines of at most a width, broken between words.
pub(crate) fn wrap(role: Role, text: &str, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width(role, &format!("{line} {word}")) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(fit(role, word, room)),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_text_is_cut_to_its_room_and_says_so() {
        let cut = fit(Role::Label, "urine, forty kilograms of nitrogen", 100.0);
        assert!(cut.ends_with('\u{2026}') && width(Role::Label, &cut) <= 100.0, "{cut}");
        assert_eq!(fit(Role::Label, "urine", 100.0), "urine");
        assert_eq!(fit(Role::Label, "urine", 3.0), "");
    }

    #[test]
    fn words_are_kept_whole_where_they_fit() {
        let lines = wrap(Role::Label, "tied up by the decay of the wood", 110.0);
        assert!(lines.len() > 1);
        assert_eq!(lines.join(" "), "tied up by the decay of the wood");
    }
}
