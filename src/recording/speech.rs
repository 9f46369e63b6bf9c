//! Captions as one stream of words, each with its moment; and the spans in which nothing is said.

use super::captions::{Captions, Cue};
use crate::quantity::{Moment, MomentSpan};

/// Words a second that a speaker reaches easily: 180 a minute, common practice of captioning. By it a caption that stays
/// up long after its words are said does not hide that nothing is said.
const WORDS_A_SECOND: u64 = 3;
/// From how many seconds on a span without words is told: about what one act of the hands takes.
pub const WORDLESS_SECONDS: u32 = 20;

/// The word that stands for a sign or dash right before a figure: `-40`.
pub(super) const SIGN: &str = "−";

/// A word that is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Word {
    /// In lower case, without signs around it, cut at hyphens and between figures and letters.
    pub(super) text: String,
    /// As it stands in the captions; empty where it is a later piece of one.
    pub(super) shown: String,
    /// When it begins, in milliseconds; none where the captions have no times.
    pub(super) at: Option<u64>,
    /// Whether a sentence ends behind it.
    pub(super) ends: bool,
    /// Index of its caption.
    pub(super) cue: usize,
}

/// All that is said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Speech {
    pub(super) words: Vec<Word>,
    pub(super) cues: Vec<Cue>,
}

impl Speech {
    /// The words of some captions.
    #[must_use]
    pub fn of(captions: &Captions) -> Self {
        let mut speech = Self { words: Vec::new(), cues: captions.cues.clone() };
        for (index, cue) in captions.cues.iter().enumerate() {
            let tokens: Vec<&str> = cue.text.split_whitespace().collect();
            let count = u64::try_from(tokens.len()).unwrap_or(u64::MAX).max(1);
            for (number, token) in tokens.iter().enumerate() {
                let number = u64::try_from(number).unwrap_or(0);
                let at = cue.span.map(|(from, to)| from + (said_by(from, to, count) - from) * number / count);
                speech.add(token, at, index);
            }
        }
        speech
    }

    fn add(&mut self, token: &str, at: Option<u64>, cue: usize) {
        let ends = token.trim_end_matches(['"', '\'', '”', '’', ')']).ends_with(['.', '!', '?', ';', ':']);
        let core = token.trim_matches(|sign: char| !sign.is_alphanumeric() && !matches!(sign, '°' | '±' | '½' | '¼' | '¾' | '%' | '"'));
        let unsigned = token.strip_prefix(['-', '−', '–']).filter(|rest| rest.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.'));
        // `.5` keeps its point.
        let core = if unsigned.unwrap_or(token).starts_with('.') && core.starts_with(|sign: char| sign.is_ascii_digit()) { format!(".{core}") } else { core.to_owned() };
        let mut pieces = pieces(&core.to_lowercase());
        // `-40` keeps its sign.
        if unsigned.is_some() && pieces.first().is_some_and(|piece| piece.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.')) {
            pieces.insert(0, SIGN.to_owned());
        }
        let last = pieces.len().saturating_sub(1);
        for (index, text) in pieces.into_iter().enumerate() {
            let shown = if index == 0 { token.to_owned() } else { String::new() };
            self.words.push(Word { text, shown, at, ends: ends && index == last, cue });
        }
    }

    /// How many captions there are.
    #[must_use]
    pub fn captions(&self) -> usize {
        self.cues.len()
    }

    /// When the last caption ends; none where there are no times.
    #[must_use]
    pub fn end(&self) -> Option<Moment> {
        self.cues.iter().filter_map(|cue| cue.span).map(|(_, to)| to).max().and_then(|ms| moment(ms.div_ceil(1000) * 1000))
    }

    /// The spans of at least [`WORDLESS_SECONDS`] in which nothing is said, up to the last caption.
    #[must_use]
    pub fn wordless(&self) -> Vec<MomentSpan> {
        let mut spans = Vec::new();
        let mut silent_from = 0_u64;
        for cue in &self.cues {
            let Some((from, to)) = cue.span else { continue };
            // Whole seconds inside the span: it never reaches into words.
            let (begin, end) = (silent_from.div_ceil(1000), from / 1000);
            if end >= begin + u64::from(WORDLESS_SECONDS) {
                spans.extend(span(begin, end));
            }
            let words = u64::try_from(cue.text.split_whitespace().count()).unwrap_or(u64::MAX);
            silent_from = silent_from.max(said_by(from, to, words));
        }
        spans
    }

    /// The words of a stretch as they stand in the captions, at most `most` of them.
    pub(super) fn shown(&self, from: usize, to: usize, most: usize) -> String {
        // A word that was cut shows as a whole with its first piece: what begins at a later one begins there.
        let from = self.words.iter().take(from.saturating_add(1)).rposition(|word| !word.shown.is_empty()).unwrap_or(from);
        let words = self.words.get(from..to).unwrap_or_default().iter().filter(|word| !word.shown.is_empty());
        let texts: Vec<&str> = words.map(|word| word.shown.as_str()).take(most).collect();
        texts.join(" ").trim_matches([',', '.', ';', ':', ' ']).to_owned()
    }
}

/// When so many words that begin at `from` have been said, at the latest when their caption goes.
fn said_by(from: u64, to: u64, words: u64) -> u64 {
    to.min(from.saturating_add((words.saturating_mul(1000) / WORDS_A_SECOND).max(1000)))
}

/// A word cut at hyphens and dashes, and a figure parted from the letters or signs behind it: `twenty-two`, `22Nm`, `90°`,
/// `20–25`. A dash between two figures becomes “to”.
fn pieces(word: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for part in word.split(['-', '–', '—', '·']).filter(|part| !part.is_empty()) {
        let begins = part.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.');
        let numeric = |text: &str| text.ends_with(|sign: char| sign.is_ascii_digit());
        if begins && out.last().is_some_and(|last| numeric(last)) && word.contains(['-', '–', '—']) {
            out.push("to".to_owned());
        }
        let at = part.find(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | ',' | '/' | '½' | '¼' | '¾'))).unwrap_or(part.len());
        let (figure, unit) = part.split_at(if begins { at } else { 0 });
        out.extend([figure, unit].into_iter().filter(|piece| !piece.is_empty()).map(str::to_owned));
    }
    out
}

/// Milliseconds as a moment in whole seconds, cut off.
pub(super) fn moment(ms: u64) -> Option<Moment> {
    let seconds = ms / 1000;
    Moment::parse(&format!("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60)).ok()
}

/// A span of whole seconds.
pub(super) fn span(from: u64, to: u64) -> Option<MomentSpan> {
    MomentSpan::parse(&format!("{}–{}", moment(from * 1000)?, moment(to * 1000)?)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recording::read_captions;

    fn speech(text: &str) -> Speech {
        Speech::of(&read_captions(text.as_bytes()).unwrap())
    }

    #[test]
    fn words_are_cut_where_numbers_end() {
        let words: Vec<String> = speech("Twenty-two Nm, 22Nm, 90°! 20–25 N·m .5 mm; M8.").words.into_iter().map(|word| word.text).collect();
        assert_eq!(words, ["twenty", "two", "nm", "22", "nm", "90", "°", "20", "to", "25", "n", "m", ".5", "mm", "m8"]);
        let words: Vec<String> = speech("-40 °C –.5 −3 — -but- -- -x").words.into_iter().map(|word| word.text).collect();
        assert_eq!(words, ["−", "40", "°c", "−", ".5", "−", "3", "but", "x"]);
    }

    #[test]
    fn silence_is_what_no_words_fill() {
        // Six words take two seconds, however long their caption stays up.
        let said = speech("WEBVTT\n\n00:05.000 --> 00:50.000\nNow I fit the snap ring\n\n01:00.000 --> 01:02.000\nThere\n\n01:20.900 --> 01:22.100\nDone");
        let spans: Vec<String> = said.wordless().iter().map(ToString::to_string).collect();
        assert_eq!(spans, ["0:07–1:00"]);
        assert_eq!(said.end().map(|end| end.to_string()).as_deref(), Some("1:23"));
    }

    #[test]
    fn captions_without_times_have_no_silence() {
        let said = speech("Now the nut.\n\nThen the cover.");
        assert!(said.wordless().is_empty() && said.end().is_none());
    }
}
