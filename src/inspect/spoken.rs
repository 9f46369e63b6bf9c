//! How a text speaks of listed things: number words, singular and plural, and which words can mean which thing.

use super::sentences::{Sentence, words_of};
use std::collections::BTreeSet;
use std::ops::Range;

/// Number words, from nought.
const NUMBERS: [&str; 21] = [
    "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    "seventeen", "eighteen", "nineteen", "twenty",
];

/// The number that a word or figure says.
pub(super) fn number(word: &str) -> Option<u64> {
    let by_word = NUMBERS.iter().position(|number| *number == word).and_then(|at| u64::try_from(at).ok());
    by_word.or_else(|| word.parse().ok().filter(|_| word.len() <= 3 && word.bytes().all(|byte| byte.is_ascii_digit())))
}

/// A number as a text says it.
pub(super) fn number_word(number: u64) -> String {
    let word = usize::try_from(number).ok().and_then(|at| NUMBERS.get(at));
    word.map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// The number of an ordinal: `second`.
pub(super) fn ordinal(word: &str) -> Option<u64> {
    let known = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
    known.iter().position(|ordinal| *ordinal == word).and_then(|at| u64::try_from(at + 1).ok())
}

/// A noun without the ending of its plural, or of its owner.
pub(super) fn singular(word: &str) -> &str {
    let word = word.strip_suffix("'s").or_else(|| word.strip_suffix("’s")).unwrap_or(word);
    if word.len() < 4 {
        return word;
    }
    // Hoses and cases keep their e; of the few that end in one s, these are the trade's.
    match word {
        "lens" | "lenses" => return "lens",
        "gases" => return "gas",
        "buses" => return "bus",
        _ => {}
    }
    let hissing = word.strip_suffix("es").filter(|stem| ["ss", "x", "tz", "zz", "ch", "sh"].iter().any(|end| stem.ends_with(end)));
    hissing.or_else(|| word.strip_suffix('s').filter(|stem| !stem.ends_with(['s', 'u']))).unwrap_or(word)
}

/// Words before a noun that do not tell which thing is meant.
const FILLERS: [&str; 33] = [
    "the", "a", "an", "all", "both", "its", "their", "your", "these", "those", "this", "that", "new", "old", "fresh", "clean", "dry", "oiled", "greased", "long",
    "short", "thin", "thick", "small", "large", "big", "same", "whole", "said", "own", "remaining", "used", "chosen",
];

/// Whether a word before a noun leaves open which thing is meant.
pub(super) fn is_filler(word: &str) -> bool {
    FILLERS.contains(&word) || number(word).is_some()
}

/// Words at which the noun of a name is over: `cup of an output bearing`.
const NAME_ENDS: [&str; 13] = ["of", "with", "under", "for", "in", "on", "at", "from", "to", "that", "between", "without", "as"];

/// A listed thing as a text may speak of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Named {
    /// The noun of its name: `cup`.
    pub(super) noun: String,
    /// Every word of its name and id, in the singular.
    pub(super) words: BTreeSet<String>,
}

impl Named {
    /// A thing by its id and name. None where the name has no word.
    pub(super) fn of(id: &str, name: &str) -> Option<Self> {
        let folded = name.to_lowercase();
        let all: Vec<&str> = words_of(&folded).into_iter().filter_map(|span| folded.get(span)).collect();
        let end = all.iter().position(|word| NAME_ENDS.contains(word)).filter(|end| *end > 0).unwrap_or(all.len());
        let noun = singular(all.get(end.checked_sub(1)?)?).to_owned();
        let words = all.iter().map(|word| singular(word)).chain(id.split('-').map(singular)).map(str::to_owned).collect();
        Some(Self { noun, words })
    }

    /// Whether some words end in its noun, in singular or plural, and say nothing before it that it is not called.
    pub(super) fn is_meant_by(&self, sentence: &Sentence<'_, '_>, words: &Range<usize>) -> bool {
        let Some(last) = words.end.checked_sub(1).filter(|last| *last >= words.start) else { return false };
        let goes_with = |at: usize| is_filler(sentence.word(at)) || self.words.contains(singular(sentence.word(at)));
        singular(sentence.word(last)) == self.noun && (words.start..last).all(goes_with)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_ordinals_are_read_and_said() {
        assert_eq!([number("eight"), number("12"), number("m8"), number("1.5"), number("")], [Some(8), Some(12), None, None, None]);
        assert_eq!([number_word(6), number_word(24)], ["six", "24"]);
        assert_eq!([ordinal("second"), ordinal("seconds")], [Some(2), None]);
    }

    #[test]
    fn nouns_lose_their_plural() {
        let told: Vec<&str> = ["bolts", "bushes", "boxes", "boss", "bus", "nut's", "gas", "shims"].into_iter().map(singular).collect();
        assert_eq!(told, ["bolt", "bush", "box", "boss", "bus", "nut", "gas", "shim"]);
        let told: Vec<&str> = ["hoses", "cases", "fuses", "bases", "sizes", "bosses", "latches", "lenses", "lens", "gases", "buses"].into_iter().map(singular).collect();
        assert_eq!(told, ["hose", "case", "fuse", "base", "size", "boss", "latch", "lens", "lens", "gas", "bus"]);
    }

    #[test]
    fn the_noun_of_a_name_is_its_last_word_before_what_follows() {
        let noun = |id: &str, name: &str| Named::of(id, name).map(|named| named.noun);
        assert_eq!(noun("output-cup", "Cup of an output bearing").unwrap(), "cup");
        assert_eq!(noun("cap-o-ring", "O-ring of the cap").unwrap(), "ring");
        assert_eq!(noun("cylinder-head", "Cylinder head with its valves").unwrap(), "head");
        assert_eq!(noun("of-nothing", "Of nothing").unwrap(), "nothing");
        assert_eq!(noun("x", "–"), None);
    }
}
