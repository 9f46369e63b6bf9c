//! What is heard beside quantities: thread lockers, which way a seal looks, and work that is put off.

use super::heard::{Heard, HeardKind};
use super::number_before::PAUSE;
use super::speech::{Speech, moment};
use crate::inspect::PUTTING_OFF;

/// Words of a report.
const MOST_SHOWN: usize = 14;
const STRENGTHS: [&str; 4] = ["low", "medium", "high", "wicking"];
/// Where a seal looks.
const TOWARDS: [&str; 12] =
    ["facing", "faces", "face", "towards", "toward", "inward", "inwards", "outward", "outwards", "inside", "outside", "side"];
/// Words too common to count far from their noun.
const NEAR: [&str; 4] = ["in", "out", "up", "down"];
/// Words before `later` that make it a time or a serial.
const TIMES: [&str; 14] = ["hour", "hours", "minute", "minutes", "day", "days", "week", "weeks", "month", "months", "year", "years", "no", "the"];

pub(super) fn all(speech: &Speech, texts: &[&str]) -> Vec<Heard> {
    let mut all = Vec::new();
    for find in [locker, seal_side, put_off] {
        let mut at = 0;
        while at < texts.len() {
            match find(texts, at) {
                Some(found) => {
                    let anchor = at;
                    at = found.to.max(at + 1);
                    all.push(found.heard(speech, anchor));
                }
                None => at += 1,
            }
        }
    }
    all
}

/// A stretch of words that says something.
struct Found {
    kind: HeardKind,
    from: usize,
    to: usize,
    readings: Vec<String>,
}

impl Found {
    fn heard(mut self, speech: &Speech, anchor: usize) -> Heard {
        // Words of another sentence, or before or behind a long pause, don't belong to it.
        let at = |index: usize| speech.words.get(index).and_then(|word| word.at);
        let paused = |index: usize| at(index).zip(at(index + 1)).is_some_and(|(one, next)| next.saturating_sub(one) > PAUSE);
        let ends = |index: usize| speech.words.get(index).is_some_and(|word| word.ends) || paused(index);
        self.from = (self.from..anchor).rev().find(|index| ends(*index)).map_or(self.from, |end| end + 1);
        self.to = (anchor..self.to).find(|index| ends(*index)).map_or(self.to, |end| end + 1);
        Heard {
            at: speech.words.get(self.from).and_then(|word| word.at).and_then(moment),
            kind: self.kind,
            said: speech.shown(self.from, self.to, MOST_SHOWN),
            readings: self.readings,
            sounds_like: None,
            word: self.from,
        }
    }
}

/// “Medium strength thread locker”, “some thread lock”, “retaining compound”.
fn locker(texts: &[&str], at: usize) -> Option<Found> {
    let (from, to) = match texts.get(at..)? {
        ["thread", "locker" | "lock" | "locking", ..] | ["retaining" | "locking", "compound" | "fluid", ..] | ["stud", "lock", ..] => (at, at + 2),
        ["locker" | "threadlocker" | "threadlock", ..] => (at, at + 1),
        ["low" | "medium" | "high" | "wicking", "strength", ..] => (at, at + 2),
        _ => return None,
    };
    let before = at.saturating_sub(5);
    let end = (to + 5).min(texts.len());
    let place = (before..end).find(|index| texts.get(*index).is_some_and(|word| STRENGTHS.contains(word)));
    let strength = place.and_then(|place| texts.get(place)).map(|word| (*word).to_owned());
    // All that belongs to it is shown, and taken as one.
    let to = match texts.get(to..) {
        Some(["thread", "locker" | "lock" | "locking", ..] | ["retaining" | "locking", "compound" | "fluid", ..]) => to + 2,
        Some(["locker" | "threadlocker" | "threadlock", ..]) => to + 1,
        _ => to,
    };
    let from = place.map_or(from.saturating_sub(2), |place| place.min(from));
    let to = place.map_or(to, |place| to.max((place + 2).min(texts.len())));
    Some(Found { kind: HeardKind::Locker, from, to, readings: strength.into_iter().collect() })
}

/// “Spring side towards the oil”, “lip facing out”, “with the open side in”.
fn seal_side(texts: &[&str], at: usize) -> Option<Found> {
    let feature = match texts.get(at..)? {
        ["spring" | "garter" | "lip" | "lips", ..] => true,
        ["open" | "closed" | "flat" | "metal" | "numbered", "side", ..] => near(texts, at, 10, &["seal", "seals"]).is_some(),
        _ => false,
    };
    if !feature {
        return None;
    }
    let ahead = |words: &[&str], within: usize| (at + 1..(at + 1 + within).min(texts.len())).rev().find(|index| texts.get(*index).is_some_and(|word| words.contains(word)));
    // “The spring in the pump” is no side; “spring side in” and “lip out” are.
    let plain_spring = matches!(texts.get(at..), Some(["spring", next, ..]) if *next != "side");
    let last = ahead(&TOWARDS, 6).max(ahead(&NEAR, 2).filter(|_| !plain_spring))?;
    Some(Found { kind: HeardKind::SealSide, from: at.saturating_sub(2), to: (last + 4).min(texts.len()), readings: Vec::new() })
}

/// Whether one of some words stands within so many words before or behind.
fn near(texts: &[&str], at: usize, within: usize, words: &[&str]) -> Option<usize> {
    (at.saturating_sub(within)..(at + within).min(texts.len())).find(|index| texts.get(*index).is_some_and(|word| words.contains(word)))
}

/// “For now”, “I'll do that later”.
fn put_off(texts: &[&str], at: usize) -> Option<Found> {
    let rest = texts.get(at..)?;
    let fits = |phrase: &&str| {
        let mut words = rest.iter();
        phrase.split(' ').all(|known| words.next() == Some(&known))
    };
    let phrase = PUTTING_OFF.iter().copied().find(fits).map(|phrase| phrase.split(' ').count());
    let before = at.checked_sub(1).and_then(|before| texts.get(before)).copied().unwrap_or_default();
    let bare = rest.first() == Some(&"later") && !TIMES.contains(&before);
    let words = phrase.or_else(|| bare.then_some(1))?;
    Some(Found { kind: HeardKind::PutOff, from: at.saturating_sub(6), to: at + words, readings: Vec::new() })
}
