//! Words that are spoken of, not used: ‘never by feel’, ‘“snug” means …’, ‘not even for now’.

use super::words::Words;
use std::ops::Range;

/// Words that deny; ‘instead of’ and ‘rather than’ do, too.
const DENIALS: [&str; 14] =
    ["not", "no", "never", "nor", "neither", "without", "don't", "doesn't", "isn't", "aren't", "won't", "can't", "cannot", "avoid"];
/// Who is said to do nothing, and what not to be done: these deny a promise.
const NOBODY: [&str; 3] = ["nothing", "none", "nobody"];
/// Behind a denial these make a limit or a measure of what is denied, or an order: ‘no more than snug’, ‘not too firmly’,
/// ‘don't forget to nip it up’.
const LIMITS: [&str; 22] = [
    "more than", "past", "beyond", "further than", "tighter than", "over", "until", "till", "too", "very", "so", "quite", "fully", "yet", "before", "unless",
    "when", "if", "forget", "hesitate", "fail", "omit",
];
/// Behind a denial these keep the denial on what follows.
const EMPHASIS: [&str; 5] = ["even", "just", "merely", "simply", "ever"];
/// Between a denial and a verb these leave the denial on the verb: ‘must never be done up’, ‘isn't to be left’.
const HELPING: [&str; 8] = ["be", "been", "to", "have", "get", "gets", "is", "are"];
/// Between a denial and a noun these leave the denial on the noun: ‘no mere snug’.
const PLAIN: [&str; 6] = ["a", "an", "any", "the", "mere", "such"];
/// What begins another thought: no denial reaches over it.
const JOINTS: [&str; 12] = ["and", "but", "so", "then", "hence", "thus", "therefore", "because", "since", "otherwise", "else", "while"];
/// Verbs of tightening: a new order begins with one, unless the denial stands before it.
const DOING_UP: [&str; 13] =
    ["tighten", "tightens", "tightening", "tightened", "torqued", "torquing", "do", "doing", "done", "nip", "nipped", "run", "wind"];
/// Other verbs whose manner a denial before them denies: ‘don't leave the nut only snug’.
const DONE_SO: [&str; 15] =
    ["torque", "set", "go", "going", "rely", "judge", "guess", "leave", "left", "draw", "drawn", "pull", "pulled", "fasten", "fastened"];
/// What is denied as a whole where these follow ‘no’: ‘no nut is tightened by feel’.
const FASTENERS: [&str; 12] =
    ["bolt", "bolts", "nut", "nuts", "screw", "screws", "stud", "studs", "plug", "plugs", "fastener", "fasteners"];
/// Words that make a denial a circumstance: ‘as no nut is at hand’, ‘there is no room’.
const CIRCUMSTANCES: [&str; 13] = ["if", "as", "since", "when", "because", "while", "is", "are", "there's", "have", "has", "with", "where"];
/// Verbs of leaving: whoever does not leave it for later puts nothing off.
const LEAVING: [&str; 16] = [
    "leave", "leaves", "leaving", "left", "put off", "puts off", "postpone", "postponed", "defer", "deferred", "stay", "stays", "remain", "remains", "skip", "skipped",
];
/// How far a denial reaches by itself, in words; and how far with its verb.
const REACH: usize = 3;
const REACH_OF_A_VERB: usize = 8;
/// The most words between ‘no’ and what its noun does.
const SUBJECT: usize = 5;
/// How much of a text around some words is read, in bytes: a clause that goes on for longer costs no more.
const NEARBY: usize = 200;
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
    // ‘Not very tight’ is a measure by feel, too.
    let graded = ["very", "really", "fairly", "pretty"].iter().any(|word| starts_with(words.text(hit), word));
    (!graded && Denial::all(&clause_before(words, hit)).iter().any(Denial::denies_measure)) || is_told(words, hit)
}

/// Whether words that put off are only spoken of: denied themselves, or with a verb of leaving, or quoted where words are
/// talked about. ‘Do not fit it for now’ puts off all the same.
pub(super) fn is_no_promise(words: &Words<'_>, hit: &Range<usize>) -> bool {
    Denial::all(&clause_before(words, hit)).iter().any(Denial::denies_promise) || is_told(words, hit)
}

/// A denial before some words in their clause.
struct Denial<'c> {
    word: &'c str,
    /// The word before it.
    before: &'c str,
    /// What stands between it and the words.
    between: &'c [String],
}

impl<'c> Denial<'c> {
    fn all(clause: &'c [String]) -> Vec<Self> {
        let word = |at: usize| clause.get(at).map_or("", String::as_str);
        let at_word = |at: usize| {
            let two = matches!((word(at), word(at + 1)), ("instead", "of") | ("rather", "than"));
            let denies = two || DENIALS.contains(&word(at)) || NOBODY.contains(&word(at));
            let before = at.checked_sub(1).map_or("", word);
            let between = clause.get(at + 1 + usize::from(two)..).filter(|_| denies)?;
            Some(Self { word: word(at), before, between })
        };
        (0..clause.len()).filter_map(at_word).collect()
    }

    /// Whether it reaches a measure: not over a joint or a new order, and not where it denies only the noun behind it.
    fn denies_measure(&self) -> bool {
        let limits = Words::of(&self.between.join(" ")).first(&LIMITS).is_some();
        if limits || has(self.between, &JOINTS) || has(self.between, &["here"]) || NOBODY.contains(&self.word) {
            return false;
        }
        let (_, rest) = split(self.between, &[&EMPHASIS, &HELPING]);
        let verb = rest.first().map_or("", String::as_str);
        let orders = |words: &[String]| has(words, &DOING_UP);
        let governs = (DOING_UP.contains(&verb) || DONE_SO.contains(&verb)) && !orders(rest.get(1..).unwrap_or(&[]));
        match self.word {
            "no" => self.is_bare() || self.denies_fastener(),
            "without" => self.is_bare() || (verb.ends_with("ing") && self.between.len() <= REACH_OF_A_VERB),
            "neither" if self.denies_fastener() => true,
            _ => (governs && self.between.len() <= REACH_OF_A_VERB) || (self.between.len() <= REACH && !orders(self.between)),
        }
    }

    /// Whether it stands before a verb of leaving, or denies that verb's subject: ‘no bolt stays loose’.
    fn denies_promise(&self) -> bool {
        let (_, rest) = split(self.between, &[&EMPHASIS]);
        if rest.is_empty() {
            return true;
        }
        if has(self.between, &JOINTS) {
            return false;
        }
        let (_, verb) = split(self.between, &[&EMPHASIS, &HELPING]);
        let adverb = usize::from(verb.first().is_some_and(|word| word.ends_with("ly")));
        let of_subject = self.is_of_subject() && (0..=SUBJECT.min(rest.len())).any(|at| leaves(rest.get(at..).unwrap_or(&[])));
        leaves(verb.get(adverb..).unwrap_or(&[])) || of_subject
    }

    /// Whether nothing but small words stands between.
    fn is_bare(&self) -> bool {
        split(self.between, &[&EMPHASIS, &PLAIN]).1.is_empty()
    }

    /// Whether it may deny a whole subject: ‘no bolt’, and not ‘as there is no bolt’.
    fn is_of_subject(&self) -> bool {
        (matches!(self.word, "no" | "neither") || NOBODY.contains(&self.word)) && !CIRCUMSTANCES.contains(&self.before)
    }

    /// ‘No nut of the cover is tightened’: a fastener, what it is, and how it is done up.
    fn denies_fastener(&self) -> bool {
        let noun = self.between.iter().take(REACH).position(|word| FASTENERS.contains(&word.as_str()));
        let is = self.between.iter().take(REACH_OF_A_VERB).position(|word| matches!(word.as_str(), "is" | "are" | "may" | "must" | "should" | "can" | "gets" | "goes"));
        let (Some(_), Some(is)) = (noun.filter(|_| self.is_of_subject()), is.filter(|is| noun < Some(*is))) else { return false };
        let (_, rest) = split(self.between.get(is + 1..).unwrap_or(&[]), &[&EMPHASIS, &HELPING]);
        split(rest, &[&DOING_UP, &["up", "in", "down"]]).1.is_empty()
    }
}

/// Whether words begin with a verb of leaving.
fn leaves(words: &[String]) -> bool {
    let (first, second) = (words.first().map_or("", String::as_str), words.get(1).map_or("", String::as_str));
    LEAVING.contains(&first) || LEAVING.contains(&format!("{first} {second}").as_str())
}

fn has(words: &[String], known: &[&str]) -> bool {
    words.iter().any(|word| known.contains(&word.as_str()))
}

/// Words that begin with known ones: those, and the rest.
fn split<'w>(words: &'w [String], known: &[&[&str]]) -> (&'w [String], &'w [String]) {
    let end = words.iter().position(|word| !known.iter().any(|known| known.contains(&word.as_str()))).unwrap_or(words.len());
    words.split_at(end)
}

/// Whether what stands behind tells of the words, or quotation marks around them show that words are talked about.
fn is_told(words: &Words<'_>, hit: &Range<usize>) -> bool {
    let before = nearby_before(words, hit);
    let behind = nearby_behind(words, hit);
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

/// The words, in lower case, that stand before some others in their clause.
fn clause_before(words: &Words<'_>, hit: &Range<usize>) -> Vec<String> {
    let clause = nearby_before(words, hit).rsplit(PARTING).next().unwrap_or("");
    let bare = clause.split_whitespace().map(|word| word.trim_matches(|sign: char| !sign.is_alphanumeric()));
    bare.filter(|word| !word.is_empty()).map(|word| word.to_lowercase().replace('’', "'")).collect()
}

/// What stands just before some words, from a whole word on.
fn nearby_before<'t>(words: &Words<'t>, hit: &Range<usize>) -> &'t str {
    let from = hit.start.saturating_sub(NEARBY);
    let whole = (from..=hit.start).find(|from| words.text(&(*from..hit.start)).starts_with(char::is_whitespace));
    words.text(&(if from == 0 { 0 } else { whole.unwrap_or(hit.start) }..hit.start))
}

/// What stands just behind some words.
pub(super) fn nearby_behind<'t>(words: &Words<'t>, hit: &Range<usize>) -> &'t str {
    let behind = words.behind(hit);
    (NEARBY..NEARBY + 4).find_map(|end| behind.get(..end)).unwrap_or(behind)
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
            ("Neither snug nor hand-tight will hold the nut.", "snug"), ("No nut is ever done up by feel.", "by feel"),
            ("Never tighten the nuts of the cover by feel.", "by feel"), ("Neither nut is tightened by feel.", "by feel"), ("It must not be done up firmly.", "firmly"),
            ("Don’t nip up the bolt dry.", "nip up"), ("Work without going by feel on a nut.", "by feel"), ("A bolt is not snug when its washer turns.", "snug"), ("The words “by feel” stand in no line about a bolt.", "by feel"),
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
            ("If you have no torque wrench do the bolt up good and tight.", "good and tight"), ("Without a torque wrench nip up the bolt.", "nip up"),
            ("As no value is known for this nut nip it up.", "nip it up"), ("Do not oil the threads and nip up the nut.", "nip up"),
            ("Don't use the torque wrench on the plug and nip it up.", "nip it up"), ("Tighten the bolt, not by guess but firmly.", "firmly"),
            ("The torque isn't critical here and the bolt can be tightened by feel.", "by feel"), ("Without oil on the threads tighten the nut by feel.", "by feel"),
            ("Do not stop at the first turn and tighten the nut a bit more.", "a bit more"), ("With no washer snug the nut.", "snug"),
            ("As no nut is seized tighten it by feel.", "by feel"), ("The nut isn't reachable with a wrench so it is tightened by feel.", "by feel"),
            ("The wrench doesn't click tighten firmly.", "firmly"),
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
            ("The bolt must never be left out for now.", "for now"), ("Neither bolt is left out for now.", "for now"), ("Never knowingly leave it for now.", "for now"),
            ("Fit it rather than leave it for now.", "for now"), ("Do not put off the pass till later.", "till later"),
        ] {
            assert!(!promised(text, phrase), "{text}");
        }
        for (text, phrase) in [
            ("Do not fit the cover for now.", "for now"), ("Not yet: leave it for now.", "for now"), ("No cover for the time being.", "for the time being"),
            ("Leave it “for now”.", "for now"), ("It is not needed, so come back to it.", "come back to"),
            ("You cannot get at the rear bolt here and it stays loose for now.", "for now"), ("The rear bolt can't be reached and stays loose for now.", "for now"),
            ("There is no room for a wrench here so the bolt is left loose for the time being.", "for the time being"),
            ("The second bolt cannot be fitted now and is left out for now.", "for now"), ("As no nut fits leave the bolt out for now.", "for now"),
            ("Don't forget to leave it for now.", "for now"),
        ] {
            assert!(promised(text, phrase), "{text}");
        }
    }

    #[test]
    fn a_denial_far_off_is_not_read() {
        let far = format!("Not {}firmly", "the nut ".repeat(200));
        assert!(measured(&far, "firmly"));
        // A denial counts while all of it is near: ‘cannot’ cut to ‘not’ does not.
        for length in 180..210 {
            let text = format!("{} cannot {} snug", "x".repeat(300), "y".repeat(length));
            assert_eq!(measured(&text, "snug"), length > NEARBY - " cannot  ".len(), "{length}");
        }
    }
}
