//! Looking for phrases in a text, as whole words, and for words near them.

use std::ops::Range;

/// A text as words in lower case, with their places.
#[derive(Debug)]
pub(super) struct Words<'t> {
    text: &'t str,
    all: Vec<(String, Range<usize>)>,
    /// The words again, as indices in the order of the alphabet: most phrases begin with a word that is not there.
    sorted: Vec<usize>,
}

impl<'t> Words<'t> {
    /// The words of a text. An apostrophe or hyphen between letters belongs to its word.
    pub(super) fn of(text: &'t str) -> Self {
        let mut all: Vec<(String, Range<usize>)> = Vec::new();
        let mut begun: Option<usize> = None;
        let mut signs = text.char_indices().peekable();
        while let Some((at, sign)) = signs.next() {
            let joins = matches!(sign, '\'' | '’' | '-') && begun.is_some() && signs.peek().is_some_and(|(_, next)| next.is_alphanumeric());
            if sign.is_alphanumeric() || joins {
                begun.get_or_insert(at);
            } else if let Some(from) = begun.take() {
                all.push((folded(text, from..at), from..at));
            }
        }
        if let Some(from) = begun {
            all.push((folded(text, from..text.len()), from..text.len()));
        }
        let word = |at: &usize| all.get(*at).map(|(word, _)| word.as_str());
        let mut sorted: Vec<usize> = (0..all.len()).collect();
        sorted.sort_by(|one, other| word(one).cmp(&word(other)));
        Self { text, all, sorted }
    }

    /// Where a word stands: indices of words.
    fn places<'a>(&'a self, word: &'a str) -> impl Iterator<Item = usize> + 'a {
        let at = move |index: &usize| self.all.get(*index).map_or("", |(word, _)| word.as_str());
        let from = self.sorted.partition_point(|index| at(index) < word);
        self.sorted.get(from..).unwrap_or_default().iter().take_while(move |index| at(index) == word).copied()
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.all.len()
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
            let first = phrase.split(' ').next().unwrap_or(phrase);
            for at in self.places(first) {
                let here = self.all.get(at..).unwrap_or_default();
                let length = phrase.split(' ').count();
                if here.len() >= length && phrase.split(' ').zip(here).all(|(wanted, (word, _))| wanted == word) {
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
        let (first, last) = (self.all.get(hit.start)?, self.all.get(hit.end.checked_sub(1)?)?);
        Some(first.1.start..last.1.end)
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
        let found = self.hits(phrases);
        if found.is_empty() {
            return None;
        }
        let around = self.hits(others);
        let near = |hit: &&Range<usize>| {
            around.iter().any(|other| {
                let apart = if other.start >= hit.end { other.start - hit.end } else { hit.start.saturating_sub(other.end) };
                apart <= within && self.same_sentence(hit, other)
            })
        };
        found.iter().find(near).and_then(|hit| self.bytes(hit))
    }

    /// The first command, a verb at the beginning of a clause, with one of some particles at most `within` words
    /// behind it in the same sentence and none of `but` between: "drill the rivets out".
    pub(super) fn command(&self, verbs: &[&str], particles: &[&str], but: &[&str], within: usize) -> Option<Range<usize>> {
        let particles = self.hits(particles);
        self.hits(verbs).into_iter().find_map(|verb| {
            let particle = particles.iter().find(|other| other.start >= verb.end && other.start - verb.end <= within && self.same_sentence(&verb, other))?;
            let between = self.all.get(verb.end..particle.start).unwrap_or_default();
            // The object may also come behind: "grind off the burr".
            let behind = self.all.get(particle.end..).unwrap_or_default().iter().take(3);
            let spared = between.iter().chain(behind).any(|(word, _)| but.contains(&word.as_str()));
            (self.begins_a_clause(&verb) && !spared).then(|| self.bytes(&(verb.start..particle.end))).flatten()
        })
    }

    /// The verbs at the beginnings of clauses, in the order of the text, each once.
    pub(super) fn orders(&self, verbs: &[&'static str]) -> Vec<&'static str> {
        let mut found: Vec<&'static str> = Vec::new();
        for (at, (word, _)) in self.all.iter().enumerate() {
            let verb = verbs.iter().find(|verb| **verb == word.as_str()).filter(|_| self.begins_a_clause(&(at..at + 1)));
            found.extend(verb.filter(|verb| !found.contains(verb)).copied());
        }
        found
    }

    /// Whether nothing but a sign, or "and", "then", "now", stands before a word.
    fn begins_a_clause(&self, hit: &Range<usize>) -> bool {
        let Some((before, span)) = hit.start.checked_sub(1).and_then(|at| self.all.get(at)) else { return true };
        let between = self.bytes(hit).and_then(|here| self.text.get(span.end..here.start)).unwrap_or("");
        matches!(before.as_str(), "and" | "then" | "now") || between.contains(['.', ',', ';', ':', '!', '?'])
    }

    fn same_sentence(&self, one: &Range<usize>, other: &Range<usize>) -> bool {
        let (Some(one), Some(other)) = (self.bytes(one), self.bytes(other)) else { return false };
        let between = one.end.min(other.end)..one.start.max(other.start);
        !self.text.get(between).unwrap_or("").contains(['.', '!', '?', ';', ':'])
    }
}

fn folded(text: &str, span: Range<usize>) -> String {
    text.get(span).unwrap_or("").to_lowercase().replace('’', "'")
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

    #[test]
    fn no_text_breaks_it() {
        for text in ["", " ", "’", "-", "a-", "é’é", "ﬁ–ﬂ"] {
            let words = Words::of(text);
            assert!(words.first(&["x"]).is_none());
        }
    }
}
