//! What stands right before a spoken number and belongs to it, or may: a sign, a nought, another number that no unit follows.

use super::number_words::{is_nought, side_by_side, touching};
use super::speech::{SIGN, Word};

/// Milliseconds between two words beyond which they are no one phrase.
pub(super) const PAUSE: u64 = 4000;

/// A number that was passed over, as no unit stands behind it.
#[derive(Debug)]
pub(super) struct Open {
    /// Index of its first word.
    pub(super) from: usize,
    /// Index behind its last word.
    pub(super) to: usize,
    pub(super) readings: Vec<String>,
}

/// What stands before a number.
#[derive(Debug)]
pub(super) struct Before<'a> {
    /// Index of the first word that belongs to the number.
    pub(super) from: usize,
    sign: Sign,
    noughts: usize,
    open: Option<&'a Open>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sign {
    None,
    /// “Minus forty”.
    Said,
    /// `-40`.
    Written,
    /// `-40` where somebody begins to speak: captions mark speakers by a dash, too.
    Dash,
}

impl<'a> Before<'a> {
    /// Nothing stands before the number that begins at a word.
    pub(super) fn nothing(at: usize) -> Self {
        Self { from: at, sign: Sign::None, noughts: 0, open: None }
    }

    /// What stands before the number that begins at a word.
    pub(super) fn of(words: &[Word], at: usize, number: &[String], open: Option<&'a Open>) -> Self {
        let word = |index: usize| words.get(index).map_or("", |word| word.text.as_str());
        let back = |index: usize| index.checked_sub(1).filter(|before| goes_on(words, *before));
        let (mut from, mut noughts) = (at, 0);
        let sign = back(at).map_or(Sign::None, |before| sign(words, before));
        if sign == Sign::None {
            while let Some(before) = back(from).filter(|before| is_nought(word(*before))) {
                from = before;
                noughts += 1;
            }
        } else {
            from = at - 1;
        }
        let open = open.filter(|open| open.to == from && back(from).is_some() && !begins_anew(word(at)));
        // “Oh, twenty-two” is a call; “oh five” may be digits.
        if open.is_none() && noughts > 0 && !number.iter().all(|number| number.len() == 1) {
            return Self::nothing(at);
        }
        Self { from: open.map_or(from, |open| open.from), sign, noughts, open }
    }

    /// Whether another number touches this one: a person has to tell what was meant.
    pub(super) fn touches(&self) -> bool {
        self.open.is_some()
    }

    /// The number that a torque without a unit may be told by, where it was passed over.
    pub(super) fn earlier(&self) -> &[String] {
        self.open.map_or(&[], |open| &open.readings)
    }

    /// All that the number may be with what stands before it. `below_zero`: whether its unit can be.
    pub(super) fn readings(&self, number: &[String], below_zero: bool) -> Vec<String> {
        let signed = || number.iter().map(|number| format!("−{number}"));
        let own = || number.iter().cloned();
        let all: Vec<String> = match (self.sign, self.open) {
            (Sign::None, None) if self.noughts == 0 => own().collect(),
            (Sign::None, None) => own().chain(number.iter().flat_map(|number| side_by_side(&["0".to_owned(), format!("{}{number}", "0".repeat(self.noughts - 1))]))).collect(),
            (Sign::None, Some(open)) => touching(&open.readings, self.noughts, number),
            (Sign::Said, None) => signed().collect(),
            (Sign::Written | Sign::Dash, None) if !below_zero => own().collect(),
            (Sign::Written, None) => signed().collect(),
            (Sign::Dash, None) => signed().chain(own()).collect(),
            // “Two minus one” may be a tolerance; `20 -25` a range.
            (Sign::Said, Some(open)) => signed().chain(own()).chain(open.readings.iter().cloned()).collect(),
            (Sign::Written | Sign::Dash, Some(open)) => {
                let ranges = touching(&open.readings, 0, number).into_iter().filter(|reading| reading.contains('–'));
                ranges.chain(signed()).chain(own()).chain(open.readings.iter().cloned()).collect()
            }
        };
        let mut once = Vec::with_capacity(all.len());
        for reading in all {
            if !once.contains(&reading) {
                once.push(reading);
            }
        }
        once
    }
}

/// Whether a number that begins with a word has nothing to do with one before it: “to twenty-two, half a turn”.
pub(super) fn begins_anew(word: &str) -> bool {
    matches!(word, "a" | "an" | "half" | "quarter")
}

/// Whether a word and the next are of one phrase: no sentence ends and no long pause lies between them.
pub(super) fn goes_on(words: &[Word], index: usize) -> bool {
    match words.get(index..) {
        Some([one, next, ..]) => !one.ends && one.at.zip(next.at).is_none_or(|(one, next)| next.saturating_sub(one) <= PAUSE),
        _ => true,
    }
}

/// The sign a word is; that of “plus or minus” is none of the number's own.
fn sign(words: &[Word], at: usize) -> Sign {
    let word = |index: usize| words.get(index).map_or("", |word| word.text.as_str());
    let before = at.checked_sub(1);
    match word(at) {
        "minus" if before.is_some_and(|before| matches!(word(before), "or" | "and") && before > 0 && word(before - 1) == "plus") => Sign::None,
        "minus" | "negative" => Sign::Said,
        SIGN => {
            let same_caption = |before: usize| words.get(before).zip(words.get(at)).is_some_and(|(before, sign)| before.cue == sign.cue);
            if before.is_some_and(|before| goes_on(words, before) && same_caption(before)) { Sign::Written } else { Sign::Dash }
        }
        _ => Sign::None,
    }
}
