//! What is kept of a walk, and its fixes as the receiver gave them.
//!
//! Fixes stand outside the envelope, as texts: a long walk is larger than an entry may be, and where somebody walked at
//! what time is theirs to erase.

use std::fmt::Write as _;

use super::field::record;
use super::id::TextRef;

record! {
    /// How a receiver measured a place.
    Walked {
        /// Root mean square distance of fixes from the truth, as it was believed, mm.
        drms_mm: u32,
        /// Time after which its errors were taken to forget themselves, s.
        correlation_s: u32,
        /// Fixes used; a pause counts as one.
        used: u32,
        /// Fixes left out.
        left_out: u32,
        /// Times round.
        laps: u32,
        /// The fixes, in one text or more that follow each other; none where they were not kept.
        fixes: Vec<TextRef>,
    }
}

/// One fix as it came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RawFix {
    /// North positive, 1e-7 degree.
    pub latitude_e7: i32,
    /// East positive, 1e-7 degree.
    pub longitude_e7: i32,
    /// Milliseconds since 1970, UTC.
    pub time_ms: i64,
    /// How accurate the receiver said it was.
    pub accuracy: RawAccuracy,
}

/// What a receiver says of its accuracy.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RawAccuracy {
    /// Nothing.
    Unknown,
    /// A radius, mm.
    Radius(u32),
    /// Horizontal dilution of precision x 100.
    Dilution(u32),
}

/// First line of every text of fixes.
const HEADING: &str = "kerfbook fixes 1";
/// A text is begun anew before it has so many bytes; what follows the last check is one line.
const FULL_BYTES: usize = crate::text::MAX_BYTES - 128;

/// Why texts hold no fixes.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("text {text}, line {line} is no fix; the text was changed")]
pub struct FixError {
    /// Which text, from 1.
    pub text: usize,
    /// Which line, from 1.
    pub line: usize,
}

/// Texts for fixes: a line each with what changed since the one before (latitude, longitude, ms, and the accuracy:
/// mm, `h` and hundredths of dilution, or `-`); an empty line where the receiver was interrupted. Every text begins from
/// nothing.
pub fn write_fixes(segments: &[Vec<RawFix>]) -> Vec<String> {
    let mut texts = vec![format!("{HEADING}\n")];
    let mut last = [0_i64; 3];
    for (number, segment) in segments.iter().enumerate() {
        for (index, fix) in segment.iter().enumerate() {
            if texts.last().is_some_and(|text| text.len() > FULL_BYTES) {
                texts.push(format!("{HEADING}\n"));
                last = [0; 3];
            }
            let now = [i64::from(fix.latitude_e7), i64::from(fix.longitude_e7), fix.time_ms];
            let [north, east, ms] = [0, 1, 2].map(|at: usize| now[at].saturating_sub(last[at]));
            let accuracy = match fix.accuracy {
                RawAccuracy::Unknown => "-".to_owned(),
                RawAccuracy::Radius(mm) => mm.to_string(),
                RawAccuracy::Dilution(hundredths) => format!("h{hundredths}"),
            };
            let cut = if index == 0 && number > 0 { "\n" } else { "" };
            if let Some(text) = texts.last_mut() {
                // Writing into a text cannot fail.
                let _ = writeln!(text, "{cut}{north} {east} {ms} {accuracy}");
            }
            last = now;
        }
    }
    texts
}

/// Fixes of texts, in parts between which the receiver was interrupted.
///
/// # Errors
/// A line that is no fix.
pub fn read_fixes<'a>(texts: impl IntoIterator<Item = &'a str>) -> Result<Vec<Vec<RawFix>>, FixError> {
    let mut segments: Vec<Vec<RawFix>> = vec![Vec::new()];
    for (number, text) in texts.into_iter().enumerate() {
        let mut last = [0_i64; 3];
        for (index, line) in text.lines().enumerate() {
            let fault = || FixError { text: number + 1, line: index + 1 };
            match (index, line) {
                (0, HEADING) => {}
                (0, _) => return Err(fault()),
                (_, "") => segments.push(Vec::new()),
                _ => {
                    let (fix, now) = read_fix(line, last).ok_or_else(fault)?;
                    last = now;
                    if let Some(segment) = segments.last_mut() {
                        segment.push(fix);
                    }
                }
            }
        }
    }
    segments.retain(|segment| !segment.is_empty());
    Ok(segments)
}

fn read_fix(line: &str, last: [i64; 3]) -> Option<(RawFix, [i64; 3])> {
    let mut figures = line.split(' ');
    let mut now = last;
    for figure in &mut now {
        *figure = figure.checked_add(figures.next()?.parse().ok()?)?;
    }
    let accuracy = match figures.next()? {
        "-" => RawAccuracy::Unknown,
        text => match text.strip_prefix('h') {
            Some(hundredths) => RawAccuracy::Dilution(hundredths.parse().ok()?),
            None => RawAccuracy::Radius(text.parse().ok()?),
        },
    };
    if figures.next().is_some() {
        return None;
    }
    let [latitude, longitude, time_ms] = now;
    let latitude_e7 = latitude.try_into().ok()?;
    let longitude_e7 = longitude.try_into().ok()?;
    Some((RawFix { latitude_e7, longitude_e7, time_ms, accuracy }, now))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fix(index: i32) -> RawFix {
        RawFix {
            latitude_e7: -335_000_000 + index * 7,
            longitude_e7: 1_799_999_990 - index,
            time_ms: 1_800_000_000_000 + i64::from(index) * 1_000,
            accuracy: match index % 3 {
                0 => RawAccuracy::Unknown,
                1 => RawAccuracy::Radius(3_500),
                _ => RawAccuracy::Dilution(110),
            },
        }
    }

    #[test]
    fn fixes_come_back_as_they_were_however_many_texts_they_take() {
        let segments = vec![(0..20_000).map(fix).collect::<Vec<_>>(), (20_000..40_000).map(fix).collect()];
        let texts = write_fixes(&segments);
        assert!(texts.len() > 2 && texts.iter().all(|text| text.len() <= crate::text::MAX_BYTES));
        assert_eq!(read_fixes(texts.iter().map(String::as_str)).unwrap(), segments);
    }

    #[test]
    fn a_changed_text_is_told_with_its_line() {
        let text = write_fixes(&[vec![fix(0), fix(1)]]).remove(0);
        for (changed, line) in [
            (text.replacen("fixes 1", "fixes 9", 1), 1),
            (text.replacen(" -\n", "\n", 1), 2),
            (text.replacen("7 -1", "9999999999 -1", 1), 3),
        ] {
            assert_eq!(read_fixes([changed.as_str()]), Err(FixError { text: 1, line }), "{changed}");
        }
    }
}
