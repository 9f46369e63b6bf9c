//! A step's text by sentences: words, acts and links in the order they are read, each word with its place.

use crate::finding::Place;
use crate::manual::{Act, Step};
use crate::source::{Block, Inline};
use std::ops::Range;

/// The most words of a sentence that is looked at.
const MOST_WORDS: usize = 200;
/// The most acts of a sentence that are looked at.
const MOST_ACTS: usize = 40;

/// A paragraph or a line of a list, read on through its acts.
#[derive(Debug, Default)]
pub(super) struct Passage<'a> {
    text: String,
    /// The same in lower case, byte for byte as long.
    folded: String,
    pieces: Vec<(usize, &'a str, &'a Place)>,
    /// Its acts, and where their words stand.
    acts: Vec<(Range<usize>, &'a Act)>,
    /// Where the words of cross-links and other links stand.
    links: Vec<Range<usize>>,
    words: Vec<Range<usize>>,
}

/// A sentence of a passage.
#[derive(Clone, Debug)]
pub(super) struct Sentence<'p, 'a> {
    passage: &'p Passage<'a>,
    /// Which words of the passage are its own.
    words: Range<usize>,
    /// Whether the sentence before it is a question: `One out? Take it off again.`
    pub(super) answers: bool,
}

impl<'a> Passage<'a> {
    /// The passages of a step that say what to do: its paragraphs and lists. Notices, quotes, tables and headings are left
    /// out.
    pub(super) fn all(step: &'a Step) -> Vec<Self> {
        let mut all = Vec::new();
        paragraphs(&step.blocks, &mut |words| {
            let mut passage = Self::default();
            passage.gather(words, &step.acts);
            passage.folded = passage.text.to_ascii_lowercase();
            passage.words = words_of(&passage.text);
            all.push(passage);
        });
        all
    }

    fn gather(&mut self, words: &'a [Inline], acts: &'a [Act]) {
        for inline in words {
            match inline {
                Inline::Text(text, place) => {
                    self.pieces.push((self.text.len(), text, place));
                    self.text.push_str(text);
                }
                Inline::Emphasis(inner) | Inline::Strong(inner) => self.gather(inner, acts),
                Inline::Act(index, inner) => {
                    let from = self.text.len();
                    self.gather(inner, acts);
                    self.acts.extend(acts.get(*index).map(|act| (from..self.text.len(), act)));
                }
                Inline::See(_, inner, _) | Inline::Link(_, inner, _) => {
                    let from = self.text.len();
                    self.gather(inner, acts);
                    self.links.push(from..self.text.len());
                }
                Inline::SoftBreak | Inline::HardBreak => self.text.push(' '),
                Inline::Code(..) => self.text.push_str(" ; "),
                Inline::FootnoteMark(..) | Inline::Picture(_) => {}
            }
        }
    }

    /// Its sentences. A full stop ends one where a space and no small letter or figure follows: `no. 3` goes on. What is
    /// longer than anybody reads in one breath is left out, so that no text costs more than its length.
    pub(super) fn sentences(&self) -> Vec<Sentence<'_, 'a>> {
        let mut all = Vec::new();
        let (mut from, mut answers) = (0, false);
        for at in 1..=self.words.len() {
            let end = if at == self.words.len() { Some(false) } else { self.ends_between(at) };
            if let Some(asks) = end {
                all.extend((at - from <= MOST_WORDS).then_some(Sentence { passage: self, words: from..at, answers }));
                (from, answers) = (at, asks);
            }
        }
        all
    }

    /// Whether a sentence ends before a word, and if so whether it is a question.
    fn ends_between(&self, at: usize) -> Option<bool> {
        let gap = self.gap(at);
        let next = self.words.get(at).and_then(|word| self.text.get(word.clone())).and_then(|word| word.chars().next())?;
        let sign = gap.chars().find(|sign| matches!(sign, '.' | '!' | '?'))?;
        let apart = gap.contains(char::is_whitespace);
        let goes_on = sign == '.' && (next.is_lowercase() || next.is_numeric());
        (apart && !goes_on).then_some(sign == '?')
    }

    /// What stands between a word and the one before it.
    fn gap(&self, at: usize) -> &str {
        let from = at.checked_sub(1).and_then(|before| self.words.get(before)).map_or(0, |word| word.end);
        let to = self.words.get(at).map_or(self.text.len(), |word| word.start);
        self.text.get(from..to).unwrap_or("")
    }

    /// Where a span of the text stands in the file.
    fn place(&self, span: &Range<usize>) -> Option<Place> {
        let at = |byte: usize| self.pieces.partition_point(|(from, _, _)| *from <= byte).checked_sub(1).and_then(|at| self.pieces.get(at));
        let (from, text, place) = at(span.start)?;
        // An entity or escape is longer in the file than in the text: then the whole piece is meant.
        if place.end - place.start != text.len() {
            return Some((*place).clone());
        }
        let (last_from, last_text, last_place) = at(span.end.saturating_sub(1))?;
        let begin = place.start + (span.start - from);
        let finish = last_place.start + (span.end - last_from).min(last_text.len());
        Some(Place::new(place.file, begin..finish.max(begin)))
    }
}

fn paragraphs<'a>(blocks: &'a [Block], visit: &mut dyn FnMut(&'a [Inline])) {
    for block in blocks {
        match block {
            Block::Paragraph(words) => visit(words),
            Block::List(_, items) => items.iter().for_each(|item| paragraphs(item, visit)),
            Block::Heading(..) | Block::Table(_) | Block::Code(..) | Block::Quote(_) | Block::Notice(_) | Block::Rule => {}
        }
    }
}

/// The words of a text. An apostrophe between letters belongs to its word; a hyphen parts two: `left-hand`.
pub(super) fn words_of(text: &str) -> Vec<Range<usize>> {
    let mut words = Vec::with_capacity(text.len() / 5);
    let mut begun: Option<usize> = None;
    if text.is_ascii() {
        // Most of a manual is plain text: there a byte is a letter.
        let bytes = text.as_bytes();
        for (at, byte) in bytes.iter().enumerate() {
            let joins = || *byte == b'\'' && begun.is_some() && bytes.get(at + 1).is_some_and(u8::is_ascii_alphanumeric);
            if byte.is_ascii_alphanumeric() || joins() {
                begun.get_or_insert(at);
            } else if let Some(from) = begun.take() {
                words.push(from..at);
            }
        }
        words.extend(begun.map(|from| from..text.len()));
        return words;
    }
    for (at, sign) in text.char_indices() {
        let next = || text.get(at + sign.len_utf8()..).and_then(|rest| rest.chars().next());
        let joins = || matches!(sign, '\'' | '’') && begun.is_some() && next().is_some_and(char::is_alphanumeric);
        if sign.is_alphanumeric() || joins() {
            begun.get_or_insert(at);
        } else if let Some(from) = begun.take() {
            words.push(from..at);
        }
    }
    words.extend(begun.map(|from| from..text.len()));
    words
}

impl<'p, 'a> Sentence<'p, 'a> {
    /// How many words it has.
    pub(super) fn count(&self) -> usize {
        self.words.len()
    }

    /// A word in lower case; nothing behind the last.
    pub(super) fn word(&self, at: usize) -> &'p str {
        self.span(at).and_then(|span| self.passage.folded.get(span)).unwrap_or("")
    }

    fn span(&self, at: usize) -> Option<Range<usize>> {
        if at >= self.count() {
            return None;
        }
        self.passage.words.get(self.words.start + at).cloned()
    }

    /// Whether a sign that parts clauses stands before a word, or nothing does.
    pub(super) fn parts_before(&self, at: usize) -> bool {
        at == 0 || self.passage.gap(self.words.start + at).contains([',', ';', ':', '–', '—', '(', ')'])
    }

    /// Whether a word forbids, in the same clause, what stands at a place behind it: `without any oil`.
    pub(super) fn denies_before(&self, at: usize) -> bool {
        let begin = (0..=at).rev().find(|at| self.parts_before(*at)).unwrap_or(0);
        (begin..at).any(|at| matches!(self.word(at), "not" | "no" | "never" | "nor" | "without" | "don't" | "don’t" | "avoid" | "instead"))
    }

    /// Whether nothing but spaces stands around a word: no part of `3/8`, `8.8`, `M8 × 30` or `six-sided`.
    pub(super) fn stands_free(&self, at: usize) -> bool {
        let (before, behind) = (self.passage.gap(self.words.start + at), self.passage.gap(self.words.start + at + 1));
        let alone = before.is_empty() || before.ends_with(|sign: char| sign.is_whitespace() || sign == '(');
        let joined = at > 0 && before.contains(['.', '/', '×', '-', '+', '±', '–']);
        alone && !joined && behind.chars().all(char::is_whitespace)
    }

    /// Some words as they are written.
    pub(super) fn text(&self, words: &Range<usize>) -> &'p str {
        self.bytes(words).and_then(|span| self.passage.text.get(span)).unwrap_or("")
    }

    fn bytes(&self, words: &Range<usize>) -> Option<Range<usize>> {
        let (first, last) = (self.span(words.start)?, self.span(words.end.checked_sub(1)?)?);
        Some(first.start..last.end)
    }

    /// Where some words stand in the file.
    pub(super) fn place(&self, words: &Range<usize>) -> Option<Place> {
        self.passage.place(&self.bytes(words)?)
    }

    /// The acts in it, each with its words.
    pub(super) fn acts(&self) -> Vec<(&'a Act, Range<usize>)> {
        let Some(own) = self.bytes(&(0..self.count())) else { return Vec::new() };
        let first = self.passage.acts.partition_point(|(span, _)| span.start < own.start);
        let within = self.passage.acts.iter().skip(first).take_while(|(span, _)| span.start < own.end);
        within.take(MOST_ACTS).map(|(span, act)| (*act, self.words_within(span))).collect()
    }

    fn words_within(&self, span: &Range<usize>) -> Range<usize> {
        let own = self.passage.words.get(self.words.clone()).unwrap_or_default();
        let first = own.partition_point(|word| word.start < span.start);
        first..own.partition_point(|word| word.end <= span.end).max(first)
    }

    /// Whether a link to somewhere else stands in it.
    pub(super) fn leads_elsewhere(&self) -> bool {
        let Some(own) = self.bytes(&(0..self.count())) else { return false };
        let first = self.passage.links.partition_point(|link| link.start < own.start);
        self.passage.links.get(first).is_some_and(|link| link.start < own.end)
    }

    /// Whether one of some words stands in it.
    pub(super) fn has(&self, words: &[&str]) -> bool {
        (0..self.count()).any(|at| words.contains(&self.word(at)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sentences(text: &str) -> Vec<(String, bool)> {
        let passage = Passage { text: text.to_owned(), folded: text.to_ascii_lowercase(), words: words_of(text), ..Passage::default() };
        passage.sentences().iter().map(|sentence| (sentence.text(&(0..sentence.count())).to_owned(), sentence.answers)).collect()
    }

    #[test]
    fn a_text_comes_apart_into_its_sentences() {
        let parted: Vec<String> = sentences("Wipe it. Take bolt no. 3 out! M8 at 1.5 turns; e.g. here. Ünder").into_iter().map(|(text, _)| text).collect();
        assert_eq!(parted, ["Wipe it", "Take bolt no. 3 out", "M8 at 1.5 turns; e.g. here", "Ünder"]);
        let answers: Vec<bool> = sentences("One out? Take it off. Go on.").into_iter().map(|(_, answers)| answers).collect();
        assert_eq!(answers, [false, true, false]);
    }

    #[test]
    fn a_hyphen_parts_words_and_an_apostrophe_joins_them() {
        let words = |text: &str| words_of(text).into_iter().map(|span| text.get(span).unwrap().to_owned()).collect::<Vec<_>>();
        assert_eq!(words("the left-hand nut's 'end' don’t"), ["the", "left", "hand", "nut's", "end", "don’t"]);
        // Plain text is read by bytes, other text by characters: both find the same words.
        for text in ["the left-hand nut's 'end' 1.5", "", "a'", "'b", "M8-12, 4th; now"] {
            let mut all = words(&format!("{text} é"));
            assert_eq!(all.pop().unwrap(), "é");
            assert_eq!(words(text), all, "{text}");
        }
        for text in ["", "’", "-", "é’é", "ﬁ–ﬂ."] {
            assert!(sentences(text).len() <= 1, "{text}");
        }
    }
}
