//! What is heard in a recording: quantities, in words or figures, each with its moment. Nothing of it is a value of the
//! manual: captions are written by a program, and a speaker errs.

use super::heard_words;
use super::number_words::{SpokenNumber, spoken_number};
use super::speech::{Speech, Word, moment};
use super::spoken_units::spoken_unit;
use crate::quantity::{Moment, Quantity};

/// Something heard that a manual would have to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heard {
    /// When; none where the captions have no times.
    pub at: Option<Moment>,
    /// What it is about.
    pub kind: HeardKind,
    /// The words as they stand in the captions.
    pub said: String,
    /// What it may mean, most likely first: quantities as the manual writes them, or the strength of a locker. One where
    /// it is clear, several where a person has to tell, none where it could not be read.
    pub readings: Vec<String>,
    /// A number that sounds alike: fifteen and fifty.
    pub sounds_like: Option<String>,
    /// Index of its first word.
    pub(super) word: usize,
}

/// What something heard is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeardKind {
    /// A number with a unit, or a torque without one.
    Quantity,
    /// The size of a tool or a bolt: a length that is no value of the work.
    Size,
    /// A thread locker.
    Locker,
    /// Which way a seal looks.
    SealSide,
    /// Work that is put off.
    PutOff,
}

impl HeardKind {
    /// In one word, for reports.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Quantity => "value",
            Self::Size => "size",
            Self::Locker => "locker",
            Self::SealSide => "seal side",
            Self::PutOff => "put off",
        }
    }
}

impl Heard {
    /// Index of its first word among those of the recording.
    #[must_use]
    pub fn word(&self) -> usize {
        self.word
    }
}

/// Milliseconds between two words beyond which they are no one phrase.
pub(super) const PAUSE: u64 = 4000;
/// Words of a report.
const MOST_SHOWN: usize = 14;

/// All that is heard, in the order of the words.
#[must_use]
pub fn heard(speech: &Speech) -> Vec<Heard> {
    let texts: Vec<&str> = speech.words.iter().map(|word| word.text.as_str()).collect();
    let mut all = Vec::new();
    let mut at = 0;
    while at < texts.len() {
        match quantity(speech, &texts, at) {
            Some((heard, words)) => {
                all.extend(heard);
                at += words.max(1);
            }
            None => at += 1,
        }
    }
    all.extend(heard_words::all(speech, &texts));
    all.sort_by_key(|heard| heard.word);
    all
}

/// The quantity that begins at a word, and how many words it takes; some of them are only passed over.
fn quantity(speech: &Speech, texts: &[&str], at: usize) -> Option<(Option<Heard>, usize)> {
    let rest = texts.get(at..)?;
    let first = spoken_number(rest)?;
    let (number, words) = with_second(texts, at, rest, first);
    let behind = rest.get(words..).unwrap_or_default();
    let unit = spoken_unit(behind).filter(|(_, count)| is_one_phrase(&speech.words, at, at + words + count));
    let Some((unit, count)) = unit else {
        let bare = is_bare_torque(texts, at) && is_one_phrase(&speech.words, at, at + words);
        return Some((bare.then(|| bare_torque(speech, at, words, &number)), words));
    };
    let end = at + words + count;
    if is_chatter(&number, unit.means) {
        return Some((None, words + count));
    }
    let means: &[&str] = if unit.means == ["°", "°C", "°F"] && turns(texts, at, end) { &["°"] } else { unit.means };
    let bound = bound(texts, at);
    let written = number.iter().flat_map(|number| means.iter().map(move |unit| format!("{bound}{number} {unit}")));
    let readings = written.filter(|text| Quantity::parse_free(text).is_ok()).collect();
    let kind = if means.first().is_some_and(|unit| matches!(*unit, "mm" | "in")) && is_size(texts, end) { HeardKind::Size } else { HeardKind::Quantity };
    let heard = Heard {
        at: speech.words.get(at).and_then(|word| word.at).and_then(moment),
        kind,
        said: speech.shown(shown_from(texts, at, bound), end, MOST_SHOWN),
        readings,
        sounds_like: sounds_like(&number),
        word: at,
    };
    Some((Some(heard), words + count))
}

/// A number with a second one behind it: “twenty to twenty-five”, “between five and seven”, “nine plus or minus one”.
fn with_second(texts: &[&str], at: usize, rest: &[&str], first: SpokenNumber) -> (Vec<String>, usize) {
    let between = at > 0 && texts.get(at - 1) == Some(&"between");
    let behind = rest.get(first.words..).unwrap_or_default();
    let (sign, skipped) = match behind {
        ["plus", "or" | "and", "minus", ..] => (" ± ", 3),
        ["±", ..] => (" ± ", 1),
        ["to" | "through", ..] => ("–", 1),
        ["and", ..] if between => ("–", 1),
        _ => return (first.readings, first.words),
    };
    let Some(second) = behind.get(skipped..).and_then(spoken_number) else { return (first.readings, first.words) };
    let words = first.words + skipped + second.words;
    let pairs = first.readings.iter().flat_map(|low| second.readings.iter().map(move |high| format!("{low}{sign}{high}")));
    (pairs.collect(), words)
}

/// Whether words belong together: no sentence ends and no long pause lies between them.
fn is_one_phrase(words: &[Word], from: usize, to: usize) -> bool {
    let phrase = words.get(from..to).unwrap_or_default();
    let together = |pair: &[Word]| match pair {
        [one, next] => !one.ends && one.at.zip(next.at).is_none_or(|(one, next)| next.saturating_sub(one) <= PAUSE),
        _ => true,
    };
    !phrase.is_empty() && phrase.windows(2).all(together)
}

/// “At least”, “no more than”, … before a number, as a quantity writes it.
fn bound(texts: &[&str], at: usize) -> &'static str {
    let before = texts.get(at.saturating_sub(3)..at).unwrap_or_default();
    match before {
        [.., "at", "least"] | [.., "minimum"] | [.., "minimum", "of"] | [.., "no" | "not", "less", "than"] => "min ",
        [.., "at", "most"] | [.., "maximum"] | [.., "maximum", "of"] | [.., "no" | "not", "more", "than"] | [.., "up", "to"] => "max ",
        _ => "",
    }
}

/// From which word on a quantity is shown: with its bound.
fn shown_from(texts: &[&str], at: usize, bound: &str) -> usize {
    if bound.is_empty() {
        return at;
    }
    let words = match texts.get(at.saturating_sub(3)..at).unwrap_or_default() {
        [.., "minimum" | "maximum"] => 1,
        [.., "less" | "more", "than"] => 3,
        _ => 2,
    };
    at.saturating_sub(words)
}

/// “Give me one second”, “in half a minute”: talk, no value.
fn is_chatter(number: &[String], means: &[&str]) -> bool {
    matches!(means, ["s" | "min"]) && matches!(number, [one] if one == "1" || one == "1/2")
}

/// Whether degrees are of turning: a word of turning stands near.
fn turns(texts: &[&str], at: usize, end: usize) -> bool {
    const TURNING: [&str; 12] = ["turn", "turned", "rotate", "rotated", "angle", "further", "more", "another", "clockwise", "anticlockwise", "past", "round"];
    let near = texts.get(at.saturating_sub(5)..at).unwrap_or_default().iter().chain(texts.get(end..end.saturating_add(3).min(texts.len())).unwrap_or_default());
    near.into_iter().any(|word| TURNING.contains(word))
}

/// Whether a length is the size of what follows: “ten millimetre socket”.
fn is_size(texts: &[&str], end: usize) -> bool {
    const SIZED: [&str; 22] = [
        "socket", "sockets", "spanner", "spanners", "wrench", "drive", "ratchet", "hex", "allen", "key", "extension", "drill", "driver", "punch", "bolt", "bolts",
        "screw", "screws", "nut", "nuts", "head", "ring",
    ];
    texts.get(end..end.saturating_add(2).min(texts.len())).unwrap_or_default().iter().any(|word| SIZED.contains(word))
}

/// “Torque it to twenty-two”: a torque whose unit nobody says.
fn is_bare_torque(texts: &[&str], at: usize) -> bool {
    const TIGHTENING: [&str; 8] = ["torque", "torqued", "torques", "torquing", "tighten", "tightened", "tightening", "wrench"];
    let before = texts.get(at.saturating_sub(7)..at).unwrap_or_default();
    matches!(before.last(), Some(&("to" | "at" | "on"))) && before.iter().any(|word| TIGHTENING.contains(word))
}

fn bare_torque(speech: &Speech, at: usize, words: usize, number: &[String]) -> Heard {
    let written = number.iter().flat_map(|number| ["N·m", "lbf·ft", "lbf·in"].map(|unit| format!("{number} {unit}")));
    Heard {
        at: speech.words.get(at).and_then(|word| word.at).and_then(moment),
        kind: HeardKind::Quantity,
        said: speech.shown(at.saturating_sub(1), at + words, MOST_SHOWN),
        readings: written.filter(|text| Quantity::parse_free(text).is_ok()).collect(),
        sounds_like: sounds_like(number),
        word: at,
    }
}

/// Fifteen and fifty are told apart by one sound at their end.
fn sounds_like(number: &[String]) -> Option<String> {
    let [only] = number else { return None };
    let value: u32 = only.parse().ok()?;
    match value {
        13..=19 => Some(((value - 10) * 10).to_string()),
        30..=90 if value.is_multiple_of(10) => Some((value / 10 + 10).to_string()),
        _ => None,
    }
}

#[cfg(test)]
#[path = "heard_tests.rs"]
mod tests;
