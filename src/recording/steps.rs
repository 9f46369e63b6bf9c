//! Where steps of the work may begin in a recording: where speech begins, where the speaker says so (“next”, “now”), and
//! where hands work without a word. A guess at places, never at content.

use super::speech::{Speech, span};
use crate::quantity::MomentSpan;

/// Seconds from one beginning to the next that a word of turning to something needs.
const APART: u64 = 20;
/// Words with which a speaker turns to the next thing: common usage.
const TURNS: [&str; 14] =
    ["next", "now", "then", "first", "firstly", "second", "secondly", "third", "thirdly", "finally", "lastly", "afterwards", "moving", "onto"];
/// Words that stand before those.
const FILLERS: [&str; 10] = ["and", "so", "ok", "okay", "right", "well", "alright", "but", "um", "uh"];
const PHRASES: [&[&str]; 4] = [&["after", "that"], &["once", "that's"], &["once", "thats"], &["on", "to"]];

/// Where a step may begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beginning {
    /// Its moment, or the span of a step without a word; none where the captions have no times.
    pub at: Option<MomentSpan>,
    /// Whether hands work there without a word.
    pub silent: bool,
    /// Index of the first word from there on.
    pub word: usize,
}

/// The beginnings, in the order of the recording.
#[must_use]
pub fn beginnings(speech: &Speech) -> Vec<Beginning> {
    let first_words = first_words(speech);
    if speech.end().is_none() {
        return first_words.into_iter().map(|word| Beginning { at: None, silent: false, word }).collect();
    }
    let silent = speech.wordless();
    let mut gaps = silent.iter().copied().peekable();
    let mut found: Vec<Beginning> = Vec::new();
    let mut last: Option<u64> = None;
    for (index, word) in first_words.into_iter().enumerate() {
        let Some(at) = speech.words.get(word).and_then(|word| word.at).map(|ms| ms / 1000) else { continue };
        let mut fresh = found.is_empty();
        while let Some(gap) = gaps.next_if(|gap| u64::from(gap.end().seconds()) <= at) {
            found.push(Beginning { at: Some(gap), silent: true, word });
            fresh = true;
        }
        let turns = last.is_none_or(|last| at >= last + APART) && turns_to_next(speech, word);
        if (fresh || turns || index == 0) && last.is_none_or(|last| at > last) {
            found.extend(moment_at(at).map(|at| Beginning { at: Some(at), silent: false, word }));
            last = Some(at);
        }
    }
    found
}

/// The index of the first word of each caption that has one.
fn first_words(speech: &Speech) -> Vec<usize> {
    let mut before = None;
    let mut firsts = Vec::new();
    for (index, word) in speech.words.iter().enumerate() {
        if before != Some(word.cue) {
            firsts.push(index);
            before = Some(word.cue);
        }
    }
    firsts
}

fn turns_to_next(speech: &Speech, word: usize) -> bool {
    let texts: Vec<&str> = speech.words.iter().skip(word).take(6).map(|word| word.text.as_str()).collect();
    let skipped = texts.iter().take_while(|text| FILLERS.contains(text)).count().min(3);
    let rest = texts.get(skipped..).unwrap_or_default();
    rest.first().is_some_and(|first| TURNS.contains(first)) || PHRASES.iter().any(|phrase| rest.starts_with(phrase))
}

/// A moment as a span of no length.
fn moment_at(seconds: u64) -> Option<MomentSpan> {
    let text = span(seconds, seconds + 1)?.start().to_string();
    MomentSpan::parse_or_moment(&text).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recording::read_captions;

    #[test]
    fn steps_begin_where_speech_does_where_it_turns_and_where_it_stops() {
        let captions = "WEBVTT\n\n00:05.000 --> 00:09.000\nThis is the pump and its bolts\n\n00:10.000 --> 00:12.000\nNow look at this\n\n00:30.000 --> 00:33.000\nOkay so next the seal goes in\n\n01:40.000 --> 01:42.000\nThat is in\n\n02:10.000 --> 02:11.000\nAnd done\n";
        let speech = Speech::of(&read_captions(captions.as_bytes()).unwrap());
        let shown: Vec<(String, bool)> = beginnings(&speech).iter().map(|begin| (begin.at.unwrap().to_string(), begin.silent)).collect();
        let silent = |text: &str| (text.to_owned(), true);
        let said = |text: &str| (text.to_owned(), false);
        assert_eq!(shown, [said("0:05"), said("0:30"), silent("0:33–1:40"), said("1:40"), silent("1:41–2:10"), said("2:10")]);
    }

    #[test]
    fn paragraphs_without_times_are_steps() {
        let speech = Speech::of(&read_captions(b"Take the cover off.\n\nTake the seal out.").unwrap());
        assert_eq!(beginnings(&speech).iter().map(|begin| begin.at).collect::<Vec<_>>(), [None, None]);
    }
}
