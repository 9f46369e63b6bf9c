//! What is heard in a recording: quantities, in words or figures, each with its moment. Nothing of it is a value of the
//! manual: captions are written by a program, and a speaker errs.

use super::heard_words;
use super::number_before::{Before, Open, begins_anew, goes_on};
use super::number_words::{is_nought, spoken_number};
use super::speech::{SIGN, Speech, moment};
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

/// Words of a report.
const MOST_SHOWN: usize = 14;
/// Readings that numbers in a row may have, and signs of each.
const MOST_READINGS: usize = 6;
const MOST_SIGNS: usize = 12;
/// Words that a quantity may take: two numbers, what joins them, and a unit.
const MOST_WORDS: usize = 48;

/// All that is heard, in the order of the words.
#[must_use]
pub fn heard(speech: &Speech) -> Vec<Heard> {
    let texts: Vec<&str> = speech.words.iter().map(|word| word.text.as_str()).collect();
    let mut all = Vec::new();
    let mut open: Option<Open> = None;
    let mut at = 0;
    while at < texts.len() {
        let Some((found, words)) = quantity(speech, &texts, at, open.as_ref()) else {
            at += 1;
            continue;
        };
        let to = at + words.max(1);
        open = match found {
            Found::Value(heard) => {
                all.push(heard);
                None
            }
            Found::Number { from, readings } => Some(Open { from, to, readings }),
            Found::Talk => None,
        };
        at = to;
    }
    all.extend(heard_words::all(speech, &texts));
    all.sort_by_key(|heard| heard.word);
    all
}

/// What begins with a number.
enum Found {
    Value(Heard),
    /// No unit stands behind it.
    Number { from: usize, readings: Vec<String> },
    /// It is no value of the work.
    Talk,
}

/// What begins with the number at a word, and how many words it takes from there.
fn quantity(speech: &Speech, texts: &[&str], at: usize, open: Option<&Open>) -> Option<(Found, usize)> {
    let rest = phrase(speech, texts, at);
    let first = spoken_number(rest)?;
    let mut before = Before::of(&speech.words, at, &first.readings, open);
    let between = before.from > 0 && texts.get(before.from - 1) == Some(&"between");
    let second = second(rest, first.words, between);
    let words = second.as_ref().map_or(first.words, |second| second.words);
    let behind = rest.get(words..).unwrap_or_default();
    let Some((unit, count)) = spoken_unit(behind) else {
        let mut readings = joined(&before.readings(&first.readings, false), second.as_ref());
        // A number behind it may be the rest of this one.
        let next = behind.iter().position(|word| !is_nought(word)).and_then(|next| behind.get(next..)).unwrap_or_default();
        let ends = next.first().is_none_or(|word| begins_anew(word)) || spoken_number(next).is_none();
        if !(ends && is_bare_torque(texts, before.from)) {
            // A long row of numbers is a list: what is heard begins with each of them anew.
            let is_list = readings.len() > MOST_READINGS || readings.iter().any(|reading| reading.len() > MOST_SIGNS);
            return Some((if is_list { Found::Number { from: at, readings: first.readings } } else { Found::Number { from: before.from, readings } }, words));
        }
        readings.extend(before.earlier().iter().filter(|earlier| !readings.contains(earlier)).cloned().collect::<Vec<_>>());
        return Some((Found::Value(bare_torque(speech, before.from, at + words, &readings)), words));
    };
    let end = at + words + count;
    let kind = if unit.means.first().is_some_and(|unit| matches!(*unit, "mm" | "in")) && is_size(texts, end) { HeardKind::Size } else { HeardKind::Quantity };
    if kind == HeardKind::Size {
        // “Six 10 mm bolts”: how many, and how large.
        before = Before::nothing(at);
    }
    let means: &[&str] = if unit.means == ["°", "°C", "°F"] && turns(texts, at, end) { &["°"] } else { unit.means };
    let below_zero = means.iter().any(|unit| Quantity::parse_free(&format!("−1 {unit}")).is_ok());
    let numbers = joined(&before.readings(&first.readings, below_zero), second.as_ref());
    if is_chatter(&numbers, means) {
        return Some((Found::Talk, words + count));
    }
    let bound = bound(texts, before.from);
    let written = numbers.iter().flat_map(|number| means.iter().map(move |unit| format!("{bound}{number} {unit}")));
    let mut readings: Vec<String> = written.filter(|text| Quantity::parse_free(text).is_ok()).collect();
    if before.touches() && readings.len() == 1 {
        // What else it may be can't be written: it is asked for.
        readings.clear();
    }
    let heard = Heard {
        at: speech.words.get(before.from).and_then(|word| word.at).and_then(moment),
        kind,
        said: speech.shown(shown_from(texts, before.from, bound), end, MOST_SHOWN),
        readings,
        sounds_like: sounds_like(&numbers),
        word: before.from,
    };
    Some((Found::Value(heard), words + count))
}

/// The words from one on that are of one phrase with it, as many as a quantity may take.
fn phrase<'a, 't>(speech: &Speech, texts: &'a [&'t str], at: usize) -> &'a [&'t str] {
    let most = at.saturating_add(MOST_WORDS).min(texts.len());
    let end = (at..most).find(|index| !goes_on(&speech.words, *index)).map_or(most, |last| last + 1);
    texts.get(at..end).unwrap_or_default()
}

/// A second number behind the first.
struct Second {
    /// What stands between them.
    joint: &'static str,
    readings: Vec<String>,
    /// How many words both take.
    words: usize,
}

/// “Twenty to twenty-five”, “between five and seven”, “nine plus or minus one”, “minus ten to minus five”.
fn second(rest: &[&str], first: usize, between: bool) -> Option<Second> {
    let behind = rest.get(first..)?;
    let (joint, skipped) = match behind {
        ["plus", "or" | "and", "minus", ..] => (" ± ", 3),
        ["±", ..] => (" ± ", 1),
        ["to" | "through", ..] => ("–", 1),
        ["and", ..] if between => ("–", 1),
        _ => return None,
    };
    let (sign, skipped) = match behind.get(skipped) {
        Some(&("minus" | "negative" | SIGN)) if joint == "–" => ("−", skipped + 1),
        Some(&"plus") if joint == "–" => ("", skipped + 1),
        _ => ("", skipped),
    };
    let number = behind.get(skipped..).and_then(spoken_number)?;
    let readings = number.readings.iter().map(|reading| format!("{sign}{reading}")).collect();
    Some(Second { joint, readings, words: first + skipped + number.words })
}

/// Each reading of a number with each of its second one.
fn joined(first: &[String], second: Option<&Second>) -> Vec<String> {
    let Some(second) = second else { return first.to_vec() };
    let below_zero = |text: &str| text.starts_with('−');
    let pair = |low: &String, high: &String| {
        let joint = if second.joint == "–" && (below_zero(low) || below_zero(high)) { " to " } else { second.joint };
        format!("{low}{joint}{high}")
    };
    first.iter().flat_map(|low| second.readings.iter().map(move |high| pair(low, high))).collect()
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

fn bare_torque(speech: &Speech, from: usize, to: usize, number: &[String]) -> Heard {
    let written = number.iter().flat_map(|number| ["N·m", "lbf·ft", "lbf·in"].map(|unit| format!("{number} {unit}")));
    Heard {
        at: speech.words.get(from).and_then(|word| word.at).and_then(moment),
        kind: HeardKind::Quantity,
        said: speech.shown(from.saturating_sub(1), to, MOST_SHOWN),
        readings: written.filter(|text| Quantity::parse_free(text).is_ok()).collect(),
        sounds_like: sounds_like(number),
        word: from,
    }
}

/// Fifteen and fifty are told apart by one sound at their end.
fn sounds_like(number: &[String]) -> Option<String> {
    let [only] = number else { return None };
    let (sign, digits) = only.strip_prefix('−').map_or(("", only.as_str()), |digits| ("−", digits));
    let value: u32 = digits.parse().ok()?;
    let other = match value {
        13..=19 => (value - 10) * 10,
        30..=90 if value.is_multiple_of(10) => value / 10 + 10,
        _ => return None,
    };
    Some(format!("{sign}{other}"))
}

#[cfg(test)]
#[path = "heard_tests.rs"]
mod tests;
