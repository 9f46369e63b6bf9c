//! Safety notices: block quotes that open with a bold signal word.

use super::body::{Block, Inline, Notice, plain_text};
use super::report::Slice;
use crate::finding::{Place, nearest};

/// The signal words of ANSI Z535.6 and ISO 3864-2, gravest first.
const SIGNAL_WORDS: [&str; 4] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

/// A shorter word, such as NOTE, is one of its own.
const SHORTEST_MISSPELT: usize = 5;

/// What a block quote turned out to be.
pub(super) enum Quote {
    /// A safety notice.
    Notice(Notice),
    /// An ordinary quote.
    Plain(Vec<Block>),
    /// A quote that opens with a signal word in the wrong dress: the word in capitals, where it stands.
    Undressed(Vec<Block>, &'static str, Place),
    /// A quote that opens with what is nearly a signal word: that word, what is written, where it stands.
    Misspelt(Vec<Block>, &'static str, String, Place),
}

/// Tells a notice from a quote. `place` is the whole quote.
pub(super) fn tell(slice: &Slice, mut blocks: Vec<Block>, place: Place, acts_before: usize) -> Quote {
    let Some(Block::Paragraph(inlines)) = blocks.first_mut() else {
        return Quote::Plain(blocks);
    };
    if let Some(Inline::Strong(strong)) = inlines.first()
        && let Some(word) = signal_word(&plain_text(strong))
    {
        inlines.remove(0);
        trim_front(slice, inlines);
        if inlines.is_empty() {
            blocks.remove(0);
        }
        return Quote::Notice(Notice { word: word.to_owned(), place, blocks, acts_before });
    }
    if let Some((word, at)) = undressed(inlines, &place) {
        return Quote::Undressed(blocks, word, at);
    }
    match misspelt(inlines, &place) {
        Some((word, written, at)) => Quote::Misspelt(blocks, word, written, at),
        None => Quote::Plain(blocks),
    }
}

/// One word in capitals, in bold or before a colon, that begins as a signal word does and is nearly one.
fn misspelt(inlines: &[Inline], place: &Place) -> Option<(&'static str, String, Place)> {
    let (text, at, is_bold) = match inlines.first()? {
        Inline::Strong(inner) => match inner.first() {
            Some(Inline::Text(_, at)) => (plain_text(inner), at, true),
            _ => (plain_text(inner), place, true),
        },
        Inline::Text(text, at) => (text.clone(), at, false),
        _ => return None,
    };
    let written: String = text.chars().take_while(|c| c.is_ascii_uppercase()).collect();
    let behind = text.get(written.len()..)?.trim_end_matches(' ');
    let alone = if is_bold { behind.trim_start_matches([':', '!', '.']).is_empty() } else { behind.starts_with([':', '!']) };
    if !alone || written.len() < SHORTEST_MISSPELT {
        return None;
    }
    let word = nearest(&written, SIGNAL_WORDS)?;
    word.starts_with(written.chars().next()?).then(|| (word, written.clone(), at.part(0..written.len())))
}

/// The signal word that a bold text is, a colon or exclamation mark behind it or not.
fn signal_word(bold: &str) -> Option<&'static str> {
    let bold = bold.trim().trim_end_matches([':', '!', '.', '–', '—']).trim_end();
    SIGNAL_WORDS.into_iter().find(|word| *word == bold)
}

fn undressed(inlines: &[Inline], place: &Place) -> Option<(&'static str, Place)> {
    let words = plain_text(inlines);
    let first: String = words.trim_start().chars().take_while(|c| c.is_alphabetic()).collect();
    let word = SIGNAL_WORDS.into_iter().find(|word| word.eq_ignore_ascii_case(&first))?;
    let marked = matches!(inlines.first(), Some(Inline::Strong(_) | Inline::Emphasis(_)));
    let colon = words.trim_start().get(first.len()..).is_some_and(|rest| rest.starts_with([':', '!']));
    if !marked && !colon && first != word {
        return None;
    }
    let at = match inlines.first() {
        Some(Inline::Text(_, at)) => at.part(0..first.len()),
        Some(Inline::Strong(inner) | Inline::Emphasis(inner)) => match inner.first() {
            Some(Inline::Text(_, at)) => at.clone(),
            _ => place.clone(),
        },
        _ => place.clone(),
    };
    Some((word, at))
}

/// Takes away the gap between the signal word and the words behind it.
fn trim_front(slice: &Slice, inlines: &mut Vec<Inline>) {
    while let Some(first) = inlines.first_mut() {
        match first {
            Inline::SoftBreak | Inline::HardBreak => {}
            Inline::Text(text, place) => {
                let gap = text.len() - text.trim_start_matches([' ', '\t', ':', '–', '—']).len();
                let written = slice.get(place.start.saturating_sub(slice.base)..place.end.saturating_sub(slice.base));
                if written.get(..gap) == text.get(..gap) {
                    place.start += gap;
                }
                text.drain(..gap);
                if !text.is_empty() {
                    return;
                }
            }
            _ => return,
        }
        inlines.remove(0);
    }
}
