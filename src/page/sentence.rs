//! Running text in sentences: a bench sheet prints those that say more than their acts do.

use super::error::PageError;
use super::html::{self, Inserts};
use super::markup::Markup;
use crate::source::Inline;

/// A sentence of an author's text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Sentence {
    /// The whole sentence.
    pub text: Markup,
    /// The acts in it, in order.
    pub acts: Vec<usize>,
    /// The acts again, each with what stands before it; none where an act stands inside other markup, which cannot be
    /// parted.
    pub clauses: Vec<Clause>,
    /// What stands behind the last act.
    pub tail: Fragment,
    /// What stands outside the acts.
    free: String,
    /// Whether an act stands inside other markup.
    is_whole: bool,
}

/// A piece of a sentence without an act.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Fragment {
    /// As it is shown.
    pub shown: Markup,
    /// Its words.
    pub words: String,
}

/// An act in a sentence with what stands between the act before and it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Clause {
    /// What stands before the act.
    pub lead: Fragment,
    /// The act.
    pub act: usize,
    /// Its words as they are shown.
    pub shown: Markup,
}

impl Fragment {
    /// Whether it says anything: a word that is not one of `connectors`.
    pub(super) fn says_something(&self, connectors: &[String]) -> bool {
        says_more(&self.words, connectors)
    }

    /// Whether it ends by leading over: `, with a hand under it, and`. What it says belongs to the act before.
    pub(super) fn leads_over(&self, connectors: &[String]) -> bool {
        let last = self.words.split(|c: char| !c.is_alphanumeric()).rfind(|word| !word.is_empty());
        !self.words.trim_end().ends_with([',', ';', ':']) && last.is_some_and(|word| connectors.contains(&word.to_lowercase()))
    }

    /// As it is shown, without the stops and connectors it begins with: `with the punch,` of `, and with the punch,`.
    pub(super) fn without_beginning(&self, connectors: &[String]) -> Markup {
        let mut rest = self.words.as_str();
        loop {
            rest = rest.trim_start_matches(is_stop);
            let word = rest.split(|c: char| !c.is_alphanumeric()).next().unwrap_or("");
            if word.is_empty() || !connectors.contains(&word.to_lowercase()) {
                break;
            }
            rest = rest.get(word.len()..).unwrap_or("");
        }
        let cut = self.words.len().saturating_sub(rest.len());
        let shown = self.shown.as_str();
        // What is shown may begin with markup; then it stays as it is.
        match self.words.get(..cut).and_then(|beginning| shown.strip_prefix(beginning)) {
            Some(rest) => Markup::rendered(rest.trim_end().to_owned()),
            None => Markup::rendered(shown.trim().to_owned()),
        }
    }

    /// As it is shown, without the stops and connectors it ends with: `, a hand under it` of `, a hand under it, and`.
    pub(super) fn without_end(&self, connectors: &[String]) -> Markup {
        let mut rest = self.words.as_str();
        loop {
            rest = rest.trim_end_matches(is_stop);
            let word = rest.rsplit(|c: char| !c.is_alphanumeric()).next().unwrap_or("");
            if word.is_empty() || !connectors.contains(&word.to_lowercase()) {
                break;
            }
            rest = rest.strip_suffix(word).unwrap_or("");
        }
        let shown = self.shown.as_str();
        match self.words.strip_prefix(rest).and_then(|end| shown.strip_suffix(end)) {
            Some(rest) => Markup::rendered(rest.to_owned()),
            None => Markup::rendered(shown.trim_end().to_owned()),
        }
    }

    /// Puts another piece behind it.
    pub(super) fn push(&mut self, shown: &Markup, words: &str) {
        self.shown.push(shown);
        self.words.push_str(words);
    }
}

fn is_stop(character: char) -> bool {
    character.is_whitespace() || matches!(character, ',' | ';' | ':')
}

fn says_more(words: &str, connectors: &[String]) -> bool {
    words.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).any(|word| !connectors.contains(&word.to_lowercase()))
}

impl Sentence {
    /// Whether it says anything beyond its acts: a word that is not one of `connectors`.
    pub(super) fn says_more(&self, connectors: &[String]) -> bool {
        says_more(&self.free, connectors)
    }

    /// Whether each act can stand on a line of its own with the words round it.
    pub(super) fn can_be_parted(&self) -> bool {
        !self.is_whole && self.clauses.len() == self.acts.len()
    }
}

/// The sentences of running text. A sentence ends at `.`, `!` or `?` before a space or line end.
pub(super) fn sentences(content: &[Inline], inserts: &dyn Inserts) -> Result<Vec<Sentence>, PageError> {
    let mut splitter = Splitter::default();
    for inline in content {
        match inline {
            Inline::Text(text, _) => splitter.text(text),
            Inline::SoftBreak => splitter.text(" "),
            Inline::HardBreak => splitter.flush(),
            Inline::Act(act, _) => {
                let shown = html::inline(inline, inserts)?;
                let sentence = &mut splitter.current;
                sentence.text.push(&shown);
                sentence.acts.push(*act);
                sentence.clauses.push(Clause { lead: std::mem::take(&mut sentence.tail), act: *act, shown });
                splitter.ended = false;
            }
            other => {
                let shown = html::inline(other, inserts)?;
                let sentence = &mut splitter.current;
                let mut words = String::new();
                collect(other, &mut words);
                sentence.text.push(&shown);
                sentence.tail.push(&shown, &words);
                sentence.free.push_str(&words);
                let acts = html::acts_in(std::slice::from_ref(other));
                sentence.is_whole |= !acts.is_empty();
                sentence.acts.extend(acts);
            }
        }
    }
    splitter.flush();
    Ok(splitter.done)
}

#[derive(Default)]
struct Splitter {
    done: Vec<Sentence>,
    current: Sentence,
    ended: bool,
}

impl Splitter {
    fn text(&mut self, text: &str) {
        let mut run = String::new();
        for character in text.chars() {
            if character.is_whitespace() && self.ended {
                self.take(&mut run);
                self.flush();
                continue;
            }
            self.ended = match character {
                '.' | '!' | '?' => true,
                ')' | '"' | '”' | '’' => self.ended,
                _ => false,
            };
            run.push(character);
        }
        self.take(&mut run);
    }

    fn take(&mut self, run: &mut String) {
        let text = if self.current.text.is_blank() { run.trim_start() } else { run.as_str() };
        self.current.text.push_text(text);
        self.current.tail.push(&Markup::text(text), text);
        self.current.free.push_str(text);
        run.clear();
    }

    fn flush(&mut self) {
        self.ended = false;
        let sentence = std::mem::take(&mut self.current);
        if !sentence.text.is_blank() {
            self.done.push(sentence);
        }
    }
}

/// The words outside the acts.
fn collect(inline: &Inline, free: &mut String) {
    match inline {
        Inline::Emphasis(inner) | Inline::Strong(inner) | Inline::Link(_, inner, _) | Inline::See(_, inner, _) => {
            for inline in inner {
                collect(inline, free);
            }
        }
        Inline::Text(text, _) | Inline::Code(text, _) => free.push_str(text),
        Inline::Act(..) | Inline::Picture(_) | Inline::FootnoteMark(..) | Inline::SoftBreak | Inline::HardBreak => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{FileTable, Place};
    use crate::source::{Notice, PictureText};

    struct Plain;

    impl Inserts for Plain {
        fn act(&self, _: usize, words: &Markup) -> Result<Markup, PageError> {
            Ok(words.clone())
        }
        fn after(&self, _: &[usize]) -> Result<Markup, PageError> {
            Ok(Markup::default())
        }
        fn see(&self, _: &str, words: &Markup) -> Result<Markup, PageError> {
            Ok(words.clone())
        }
        fn picture(&self, _: &PictureText) -> Result<Markup, PageError> {
            Ok(Markup::default())
        }
        fn notice(&self, _: &Notice, text: &Markup) -> Result<Markup, PageError> {
            Ok(text.clone())
        }
        fn code(&self, _: &str, text: &str) -> Markup {
            Markup::text(text)
        }
        fn footnote(&self, name: &str) -> Markup {
            Markup::text(name)
        }
        fn heading_level(&self) -> u8 {
            3
        }
        fn scroll_label(&self) -> String {
            String::new()
        }
    }

    fn split(content: &[Inline]) -> Vec<(String, Vec<usize>, bool)> {
        let connectors = ["and".to_owned(), "then".to_owned()];
        let found = sentences(content, &Plain).unwrap();
        found.into_iter().map(|s| (s.text.as_str().to_owned(), s.acts.clone(), s.says_more(&connectors))).collect()
    }

    #[test]
    fn a_sentence_of_nothing_but_acts_says_no_more_than_they_do() {
        let place = Place::whole_file(FileTable::default().add("a", ""));
        let text = |t: &str| Inline::Text(t.to_owned(), place.clone());
        let act = |i: usize, words: &str| Inline::Act(i, vec![text(words)]);
        let content = [
            act(0, "Start the nut"),
            text(", then "),
            act(1, "tighten it"),
            text(". Hold it at 0.5 turns with the "),
            act(2, "holder"),
            text("."),
            Inline::FootnoteMark("a".to_owned(), place.clone()),
            Inline::SoftBreak,
            text("Look again."),
        ];
        assert_eq!(split(&content), [
            ("Start the nut, then tighten it.".to_owned(), vec![0, 1], false),
            ("Hold it at 0.5 turns with the holder.a".to_owned(), vec![2], true),
            ("Look again.".to_owned(), vec![], true),
        ]);
    }
}
