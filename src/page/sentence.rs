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
    /// What stands outside the acts.
    free: String,
}

impl Sentence {
    /// Whether it says anything beyond its acts: a word that is not one of `connectors`.
    pub(super) fn says_more(&self, connectors: &[String]) -> bool {
        self.free
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .any(|word| !connectors.contains(&word.to_lowercase()))
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
            other => {
                splitter.current.text.push(&html::inline(other, inserts)?);
                splitter.current.acts.extend(html::acts_in(std::slice::from_ref(other)));
                collect(other, &mut splitter.current.free);
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
