//! Words that are spoken of, not used: ‘never by feel’, ‘“snug” means …’, ‘not even for now’.

use super::words::Words;
use std::ops::Range;

const DENIALS: [&str; 16] = [
    "not", "no", "never", "nor", "neither", "without", "don't", "doesn't", "isn't", "aren't", "won't", "can't", "cannot", "avoid", "instead of", "rather than",
];
/// Behind a denial these make a limit or a measure of what is denied, or an order: ‘no more than snug’, ‘not too firmly’,
/// ‘don't forget to nip it up’.
const LIMITS: [&str; 22] = [
    "more than", "past", "beyond", "further than", "tighter than", "over", "until", "till", "too", "very", "so", "quite", "fully", "yet", "before", "unless",
    "when", "if", "forget", "hesitate", "fail", "omit",
];
/// Behind a denial these keep the denial on what follows.
const EMPHASIS: [&str; 5] = ["even", "just", "merely", "simply", "ever"];
/// Verbs of leaving: whoever does not leave it for later puts nothing off.
const LEAVING: [&str; 16] = [
    "leave", "leaves", "leaving", "left", "put off", "puts off", "postpone", "postponed", "defer", "deferred", "stay", "stays", "remain", "remains", "skip", "skipped",
];
/// Words that speak of words.
const SPEAKING: [&str; 17] = [
    "mean", "means", "meant", "say", "says", "said", "word", "words", "term", "call", "calls", "called", "read", "reads", "write", "writes", "heard",
];
/// Behind a word these tell what it means, or that it counts for nothing.
const TELLING: [&str; 9] = ["means", "meant", "says", "tells", "stands for", "won't", "doesn't", "isn't", "aren't"];
/// Behind ‘is’ these do.
const TOLD: [&str; 13] = ["not", "no", "never", "called", "meant", "what", "where", "when", "a word", "the word", "wrong", "nothing", "how"];
const OPENING: [char; 8] = ['“', '‘', '"', '\'', '„', '‚', '«', '‹'];
const CLOSING: [char; 8] = ['”', '’', '"', '\'', '“', '‘', '»', '›'];
/// Signs that part clauses.
const PARTING: [char; 11] = ['.', ',', ';', ':', '!', '?', '(', ')', '–', '—', '…'];

/// Whether words of a measure are only spoken of: denied in their clause, explained, or quoted where words are talked about.
pub(super) fn is_no_measure(words: &Words<'_>, hit: &Range<usize>) -> bool {
    let before = clause_before(words, hit);
    let said = Words::of(before);
    // ‘Not very tight’ is a measure by feel, too.
    let graded = ["very", "really", "fairly", "pretty"].iter().any(|word| starts_with(words.text(hit), word));
    let denied = last(&said, &DENIALS).is_some_and(|denial| Words::of(before.get(denial.end..).unwrap_or("")).first(&LIMITS).is_none());
    (denied && !graded) || is_told(words, hit)
}

/// Whether words that put off are only spoken of: denied themselves, or with a verb of leaving, or quoted where words are
/// talked about. ‘Do not fit it for now’ puts off all the same.
pub(super) fn is_no_promise(words: &Words<'_>, hit: &Range<usize>) -> bool {
    let before = clause_before(words, hit);
    let denied = last(&Words::of(before), &[DENIALS.as_slice(), &["nothing", "none", "nobody"]].concat()).is_some_and(|denial| {
        let between = before.get(denial.end..).unwrap_or("");
        let said = Words::of(between);
        said.count() == said.every(&EMPHASIS).len() || said.first(&LEAVING).is_some()
    });
    denied || is_told(words, hit)
}

/// Whether what stands behind tells of the words, or quotation marks around them show that words are talked about.
fn is_told(words: &Words<'_>, hit: &Range<usize>) -> bool {
    let before = words.text(&(0..hit.start));
    let behind = words.behind(hit);
    let quoted = before.ends_with(OPENING) && behind.trim_start_matches([',', '.']).starts_with(CLOSING);
    let after = behind.trim_start_matches(CLOSING);
    let clause = after.split(PARTING).next().unwrap_or("");
    let next = Words::of(clause);
    let begins = |phrases: &[&str]| next.first(phrases).is_some_and(|found| clause.get(..found.start).is_some_and(|gap| gap.trim().is_empty()));
    let explained = begins(&TELLING) || (begins(&["is", "are", "was"]) && next.first(&TOLD).is_some_and(|found| Words::of(clause.get(..found.start).unwrap_or("")).count() <= 3));
    let clause_before = before.trim_end_matches(OPENING).rsplit(PARTING).next().unwrap_or("");
    let talked_about = || next.first(&SPEAKING).is_some() || begins(&["is", "are"]) || Words::of(clause_before).first(&SPEAKING).is_some();
    explained || (quoted && talked_about())
}

/// What stands before some words in their clause.
fn clause_before<'t>(words: &Words<'t>, hit: &Range<usize>) -> &'t str {
    words.text(&(0..hit.start)).rsplit(PARTING).next().unwrap_or("")
}

fn last(words: &Words<'_>, phrases: &[&str]) -> Option<Range<usize>> {
    words.every(phrases).pop()
}

fn starts_with(text: &str, word: &str) -> bool {
    text.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn measured(text: &str, phrase: &str) -> bool {
        let words = Words::of(text);
        let hit = words.first(&[phrase]).unwrap_or_else(|| panic!("{phrase} in {text}"));
        !is_no_measure(&words, &hit)
    }

    fn promised(text: &str, phrase: &str) -> bool {
        let words = Words::of(text);
        let hit = words.first(&[phrase]).unwrap_or_else(|| panic!("{phrase} in {text}"));
        !is_no_promise(&words, &hit)
    }

    #[test]
    fn feel_that_is_denied_or_explained_is_no_instruction() {
        for (text, phrase) in [
            ("Never tighten this nut by feel.", "by feel"), ("The nut gets 55 N·m, never by feel.", "by feel"), ("This bolt is torqued, not just snug.", "snug"),
            ("“Snug” means that the nut touches.", "snug"), ("‘Snug’ is no torque for a bolt.", "snug"), ("Snug is not enough for this bolt.", "snug"),
            ("The old sheet says “snug” for this screw.", "snug"), ("A nut done up by feel is wrong.", "by feel"), ("Don't nip up the bolt dry.", "nip up"),
            ("Without a wrench, without guessing, and never firmly on this nut.", "firmly"), ("Use a wrench instead of a good pull.", "a good pull"),
            ("Good and tight won't do for this nut.", "good and tight"), ("No “nice and tight” on a bolt.", "nice and tight"), ("The bolt isn't tight enough when it squeaks.", "tight enough"),
            ("Set the wrench rather than go by feel.", "by feel"), ("Snug means metal to metal under the bolt's head.", "snug"), ("It can't be done up by feel.", "by feel"),
            ("Neither snug nor hand-tight will hold the nut.", "snug"), ("A bolt is not snug when its washer turns.", "snug"), ("The words “by feel” stand in no line about a bolt.", "by feel"),
        ] {
            assert!(!measured(text, phrase), "{text}");
        }
    }

    #[test]
    fn feel_that_limits_or_stands_alone_is_one() {
        for (text, phrase) in [
            ("No more than snug on these nuts.", "snug"), ("Not too firmly on this nut.", "firmly"), ("Do the bolt up, not very tight.", "very tight"),
            ("Don't tighten it yet, just nip it up.", "nip it up"), ("Do the nut up “snug”.", "snug"), ("When snug is reached, stop the nut.", "snug"),
            ("Do not go past snug on the bolt.", "snug"), ("Do not oil it; nip it up.", "nip it up"), ("Don't forget to nip it up.", "nip it up"), ("Snug the nut.", "snug"),
        ] {
            assert!(measured(text, phrase), "{text}");
        }
    }

    #[test]
    fn what_is_not_put_off_is_no_promise() {
        for (text, phrase) in [
            ("Never leave it loose, not even for now.", "for now"), ("Do not leave the bolt out for now.", "for now"), ("Nothing is left for another day.", "another day"),
            ("“For now” is how bolts get forgotten.", "for now"), ("No bolt stays loose for the time being.", "for the time being"), ("Never “for now” on a brake.", "for now"),
            ("Don't put off the second pass till later.", "till later"), ("It is done here, not later on.", "later on"), ("Whoever says “next time” means never.", "next time"),
        ] {
            assert!(!promised(text, phrase), "{text}");
        }
        for (text, phrase) in [
            ("Do not fit the cover for now.", "for now"), ("Not yet: leave it for now.", "for now"), ("No cover for the time being.", "for the time being"),
            ("Leave it “for now”.", "for now"), ("It is not needed, so come back to it.", "come back to"),
        ] {
            assert!(promised(text, phrase), "{text}");
        }
    }
}
