//! Numbers as people and programs write them, and nothing else that a float parser takes.

use super::Wrong;

/// A finite number of digits, with a point and an exponent at most; what is none is told apart from a decimal comma.
///
/// # Errors
/// What is none.
pub fn read(text: &str) -> Result<f64, Wrong> {
    let text = text.trim();
    let shown = || text.chars().take(40).collect::<String>();
    let plain = text.len() <= 40
        && text.bytes().any(|byte| byte.is_ascii_digit())
        && text.bytes().all(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte));
    match text.parse::<f64>() {
        Ok(value) if plain && value.is_finite() => Ok(value),
        _ => {
            let pointed = text.replacen(',', ".", 1);
            Err(if text.contains(',') && pointed.parse::<f64>().is_ok() {
                Wrong::DecimalComma { text: shown() }
            } else {
                Wrong::NotANumber { text: shown() }
            })
        }
    }
}
