//! Looking for phrases in a text, as whole words, and for words near them.

use foldhash::HashMap;
use std::cell::RefCell;
use std::ops::Range;
use std::rc::Rc;

/// A text as words in lower case, with their places.
#[derive(Debug)]
pub(super) struct Words<'t> {
    text: &'t str,
    read: Rc<Read>,
}

/// What is read of a text.
#[derive(Debug, Default)]
struct Read {
    /// Its words in lower case, one behind the other; of plain text all of it.
    folded: String,
    all: Vec<Word>,
    /// How its words begin: most phrases begin otherwise.
    beginnings: Beginnings,
}

/// So many texts are kept, of at most so many bytes: what a machine of many procedures says.
const MOST_KEPT: usize = 2048;
const LONGEST_KEPT: usize = 1024;

thread_local! {
    /// What was read of which text: a dozen rules look for words in the same ones.
    static KEPT: RefCell<HashMap<Box<str>, Rc<Read>>> = RefCell::default();
}

/// A word: how it begins, where it stands in the text in lower case, and in the text.
#[derive(Debug)]
struct Word {
    beginning: u8,
    folded: Range<usize>,
    span: Range<usize>,
}

/// The first two bytes of some words, as a set that may hold some more.
#[derive(Debug, Default)]
struct Beginnings([u64; 4]);

impl Beginnings {
    fn add(&mut self, beginning: u8) {
        if let Some(bits) = self.0.get_mut(usize::from(beginning >> 6)) {
            *bits |= 1 << (beginning & 63);
        }
    }

    fn may_have(&self, beginning: u8) -> bool {
        self.0.get(usize::from(beginning >> 6)).is_some_and(|bits| bits & (1 << (beginning & 63)) != 0)
    }
}

/// How a word or phrase begins: its first two bytes, mixed into one. A word of one byte ends in a space.
fn beginning(word: &str) -> u8 {
    let mut bytes = word.bytes();
    let (first, second) = (bytes.next().unwrap_or(b' '), bytes.next().unwrap_or(b' '));
    first.wrapping_mul(37).wrapping_add(second)
}

impl Read {
    /// The words of a text. An apostrophe or hyphen between letters belongs to its word.
    fn of(text: &str) -> Self {
        if text.is_ascii() {
            return Self::of_ascii(text);
        }
        let mut words = Self { folded: String::with_capacity(text.len()), all: Vec::with_capacity(text.len() / 5), beginnings: Beginnings::default() };
        let mut begun: Option<usize> = None;
        for (at, sign) in text.char_indices() {
            let is_letter = |sign: char| sign.is_alphanumeric();
            let next = || text.get(at + sign.len_utf8()..).and_then(|rest| rest.chars().next());
            let joins = || matches!(sign, '\'' | '’' | '-') && begun.is_some() && next().is_some_and(is_letter);
            if is_letter(sign) || joins() {
                begun.get_or_insert(at);
            } else if let Some(from) = begun.take() {
                words.add(text, from..at);
            }
        }
        if let Some(from) = begun {
            words.add(text, from..text.len());
        }
        words
    }

    /// The same of plain text, most of a manual: there a byte is a letter, and lower case is as long.
    fn of_ascii(text: &str) -> Self {
        let mut words = Self { folded: text.to_ascii_lowercase(), all: Vec::with_capacity(text.len() / 5), beginnings: Beginnings::default() };
        let bytes = text.as_bytes();
        let mut begun: Option<usize> = None;
        for (at, byte) in bytes.iter().enumerate() {
            let joins = || matches!(byte, b'\'' | b'-') && begun.is_some() && bytes.get(at + 1).is_some_and(u8::is_ascii_alphanumeric);
            if byte.is_ascii_alphanumeric() || joins() {
                begun.get_or_insert(at);
            } else if let Some(from) = begun.take() {
                words.add_plain(from..at);
            }
        }
        if let Some(from) = begun {
            words.add_plain(from..text.len());
        }
        words
    }

    fn add_plain(&mut self, span: Range<usize>) {
        self.push(span.clone(), span);
    }

    fn add(&mut self, text: &str, span: Range<usize>) {
        let word = text.get(span.clone()).unwrap_or("");
        let from = self.folded.len();
        if word.is_ascii() {
            self.folded.push_str(word);
            self.folded.get_mut(from..).unwrap_or_default().make_ascii_lowercase();
        } else {
            self.folded.push_str(&word.to_lowercase().replace('’', "'"));
        }
        self.push(from..self.folded.len(), span);
    }

    fn push(&mut self, folded: Range<usize>, span: Range<usize>) {
        let beginning = beginning(self.folded.get(folded.clone()).unwrap_or(""));
        self.beginnings.add(beginning);
        self.all.push(Word { beginning, folded, span });
    }
}

impl<'t> Words<'t> {
    /// The words of a text. An apostrophe or hyphen between letters belongs to its word.
    pub(super) fn of(text: &'t str) -> Self {
        KEPT.with_borrow_mut(|kept| {
            if let Some(read) = kept.get(text) {
                return Self { text, read: Rc::clone(read) };
            }
            let read = Rc::new(Read::of(text));
            if text.len() <= LONGEST_KEPT {
                if kept.len() >= MOST_KEPT {
                    kept.clear();
                }
                kept.insert(text.into(), Rc::clone(&read));
            }
            Self { text, read }
        })
    }

    /// A word in lower case.
    fn folded(&self, word: &Word) -> &str {
        self.read.folded.get(word.folded.clone()).unwrap_or("")
    }

    /// Whether a word, in lower case, is this one.
    fn is(&self, word: &Word, wanted: &str) -> bool {
        self.read.folded.as_bytes().get(word.folded.clone()) == Some(wanted.as_bytes())
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.read.all.len()
    }

    /// A span of the text.
    pub(super) fn text(&self, span: &Range<usize>) -> &'t str {
        self.text.get(span.clone()).unwrap_or("")
    }

    /// What stands behind a span.
    pub(super) fn behind(&self, span: &Range<usize>) -> &'t str {
        self.text.get(span.end..).unwrap_or("")
    }

    /// Where phrases stand: indices of words. Of two that overlap the longer.
    fn hits(&self, phrases: &[&str]) -> Vec<Range<usize>> {
        let mut found: Vec<Range<usize>> = Vec::new();
        for phrase in phrases {
            let beginning = beginning(phrase);
            if !self.read.beginnings.may_have(beginning) {
                continue;
            }
            for (at, _) in self.read.all.iter().enumerate().filter(|(_, word)| word.beginning == beginning) {
                let here = self.read.all.get(at..).unwrap_or_default();
                let length = phrase.split(' ').count();
                if here.len() >= length && phrase.split(' ').zip(here).all(|(wanted, word)| self.is(word, wanted)) {
                    found.push(at..at + length);
                }
            }
        }
        found.sort_by_key(|hit| (hit.start, std::cmp::Reverse(hit.end)));
        let mut kept: Vec<Range<usize>> = Vec::new();
        for hit in found {
            if kept.last().is_none_or(|last| last.end <= hit.start) {
                kept.push(hit);
            }
        }
        kept
    }

    fn bytes(&self, hit: &Range<usize>) -> Option<Range<usize>> {
        let (first, last) = (self.read.all.get(hit.start)?, self.read.all.get(hit.end.checked_sub(1)?)?);
        Some(first.span.start..last.span.end)
    }

    /// The first of some phrases, as a span of the text.
    pub(super) fn first(&self, phrases: &[&str]) -> Option<Range<usize>> {
        self.every(phrases).into_iter().next()
    }

    /// Every one of some phrases.
    pub(super) fn every(&self, phrases: &[&str]) -> Vec<Range<usize>> {
        self.hits(phrases).iter().filter_map(|hit| self.bytes(hit)).collect()
    }

    /// The first of some phrases that has a word of another list, outside itself or as its own first word, at most
    /// `within` words away and in the same sentence.
    pub(super) fn near(&self, phrases: &[&str], others: &[&str], within: usize) -> Option<Range<usize>> {
        self.every_near(phrases, others, within).into_iter().next()
    }

    /// Every one of them.
    pub(super) fn every_near(&self, phrases: &[&str], others: &[&str], within: usize) -> Vec<Range<usize>> {
        let found = self.hits(phrases);
        if found.is_empty() {
            return Vec::new();
        }
        let around = self.hits(others);
        // Both stand in the order of the text: of the others only those near by are looked at.
        let near = |hit: &&Range<usize>| {
            let first = around.partition_point(|other| other.end + within < hit.start);
            let nearby = around.iter().skip(first).take_while(|other| other.start <= hit.end + within);
            nearby.into_iter().any(|other| self.same_sentence(hit, other))
        };
        found.iter().filter(near).filter_map(|hit| self.bytes(hit)).collect()
    }

    /// The first command, a verb at the beginning of a clause, with one of some particles at most `within` words
    /// behind it in the same sentence and none of `but` between: "drill the rivets out".
    pub(super) fn command(&self, verbs: &[&str], particles: &[&str], but: &[&str], within: usize) -> Option<Range<usize>> {
        self.commands(verbs, particles, but, within).into_iter().next().map(|(whole, _)| whole)
    }

    /// Every one of them, each with what stands between its verb and its particle.
    pub(super) fn commands(&self, verbs: &[&str], particles: &[&str], but: &[&str], within: usize) -> Vec<(Range<usize>, &'t str)> {
        let verbs = self.hits(verbs);
        if verbs.is_empty() {
            return Vec::new();
        }
        let particles = self.hits(particles);
        let found = verbs.into_iter().filter_map(|verb| {
            let first = particles.partition_point(|other| other.start < verb.end);
            let mut nearby = particles.iter().skip(first).take_while(|other| other.start - verb.end <= within);
            let particle = nearby.find(|other| self.same_sentence(&verb, other))?;
            let between = self.read.all.get(verb.end..particle.start).unwrap_or_default();
            // The object may also come behind: "grind off the burr".
            let behind = self.read.all.get(particle.end..).unwrap_or_default().iter().take(3);
            let spared = between.iter().chain(behind).any(|word| but.contains(&self.folded(word)));
            let whole = self.bytes(&(verb.start..particle.end)).filter(|_| self.begins_a_clause(&verb) && !spared)?;
            let object = self.bytes(&verb)?.end..self.bytes(particle)?.start;
            Some((whole, self.text(&object)))
        });
        found.collect()
    }

    /// The verbs at the beginnings of clauses, in the order of the text, each once.
    pub(super) fn orders(&self, verbs: &[&'static str]) -> Vec<&'static str> {
        let mut found: Vec<&'static str> = Vec::new();
        for (at, word) in self.read.all.iter().enumerate() {
            // Few words begin a clause: those alone are looked up.
            let verb = Some(word).filter(|_| self.begins_a_clause(&(at..at + 1))).and_then(|word| verbs.iter().find(|verb| self.is(word, verb)));
            found.extend(verb.filter(|verb| !found.contains(verb)).copied());
        }
        found
    }

    /// Whether nothing but a sign, or "and", "then", "now", stands before a word.
    fn begins_a_clause(&self, hit: &Range<usize>) -> bool {
        let Some(before) = hit.start.checked_sub(1).and_then(|at| self.read.all.get(at)) else { return true };
        let between = self.bytes(hit).and_then(|here| self.text.get(before.span.end..here.start)).unwrap_or("");
        matches!(self.folded(before), "and" | "then" | "now") || between.contains(['.', ',', ';', ':', '!', '?'])
    }

    fn same_sentence(&self, one: &Range<usize>, other: &Range<usize>) -> bool {
        let (Some(one), Some(other)) = (self.bytes(one), self.bytes(other)) else { return false };
        let between = one.end.min(other.end)..one.start.max(other.start);
        !self.text.get(between).unwrap_or("").contains(['.', '!', '?', ';', ':'])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_are_whole_words_of_one_sentence() {
        let words = Words::of("Do the hub nut up good and tight. Don’t go mad.");
        let hit = words.near(&["good and tight", "tight"], &["nut"], 8).unwrap();
        assert_eq!(words.text(&hit), "good and tight");
        assert_eq!(words.near(&["don't go mad"], &["nut"], 8), None, "another sentence");
        assert!(words.first(&["don't go mad"]).is_some());
        assert_eq!(words.first(&["and tigh"]), None);
        assert_eq!(words.count(), 11);
    }

    /// The others near a phrase are found by halving; each of them counts, before it and behind, near and far.
    #[test]
    fn near_is_so_many_words_on_either_side() {
        let near = |text: &str, within: usize| Words::of(text).every_near(&["snug", "a bit more"], &["nut", "bolt", "run up"], within).len();
        assert_eq!(near("nut one two snug", 2), 1);
        assert_eq!(near("nut one two snug", 1), 0);
        assert_eq!(near("snug one two nut", 2), 1);
        assert_eq!(near("snug one two nut", 1), 0);
        assert_eq!(near("nut. snug bolt", 0), 1);
        assert_eq!(near("nut nut. snug. bolt", 5), 0);
        assert_eq!(near("a bit more one run up", 1), 1);
        assert_eq!(near("run up one a bit more", 1), 1);
        assert_eq!(near("nut snug one two three four bolt one a bit more", 1), 2);
    }

    #[test]
    fn a_command_begins_a_clause() {
        let command = |text: &str| Words::of(text).command(&["drill", "grind"], &["off", "out"], &["burr"], 4).map(|hit| text.get(hit).unwrap().to_owned());
        assert_eq!(command("Drill the old rivets out.").unwrap(), "Drill the old rivets out");
        assert_eq!(command("Hold it and grind off the heads.").unwrap(), "grind off");
        assert_eq!(command("Do not drill it out."), None);
        assert_eq!(command("Take the drill out."), None);
        assert_eq!(command("Drill it. Look out."), None);
        assert_eq!(command("Grind the burr off."), None);
        assert_eq!(command("Grind off the burr."), None);
    }

    #[test]
    fn orders_are_the_verbs_that_begin_clauses() {
        let orders = |text: &str| Words::of(text).orders(&["fit", "lock", "mark", "cover"]);
        assert_eq!(orders("Fit the nut, lock it and mark it, then cover it"), ["fit", "lock", "mark", "cover"]);
        assert_eq!(orders("Fit the lock over the cover and fit the mark"), ["fit"]);
    }

    /// Plain text is read by bytes, other text by characters: both find the same words.
    #[test]
    fn plain_text_is_read_as_any_other() {
        for text in ["", "Don't nip it UP-", "-a 'b' c--d e'-f X2-y", "M8-12, 4th; now", "a", "a' b- "] {
            let told = |words: &Words<'_>| -> Vec<(Range<usize>, String)> { words.read.all.iter().map(|word| (word.span.clone(), words.folded(word).to_owned())).collect() };
            let other = format!("{text} é");
            let mut all = told(&Words::of(&other));
            assert_eq!(all.pop().unwrap().1, "é");
            assert_eq!(told(&Words::of(text)), all, "{text}");
        }
    }

    #[test]
    fn no_text_breaks_it() {
        for text in ["", " ", "’", "-", "a-", "é’é", "ﬁ–ﬂ"] {
            let words = Words::of(text);
            assert!(words.first(&["x"]).is_none());
        }
    }
}
