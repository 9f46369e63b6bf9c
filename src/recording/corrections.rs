//! What was said wrong, as a caption file (WebVTT, after the W3C's specification, from memory): a cue at each moment.

use super::film::Film;
use crate::quantity::Moment;

/// Seconds a correction stays up: two lines are read in about that time (common practice of captioning).
const SHOWN: u32 = 8;
/// Most characters of a line.
const MOST: usize = 200;

/// Something said wrong, and what the lists have instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Corrected {
    /// When it is said.
    pub at: Option<Moment>,
    /// What is said.
    pub said: String,
    /// `ID.field`.
    pub of: String,
    /// The name of the thing.
    pub name: String,
    /// What the lists have; none where there is no such value (reported by `inspect`).
    pub listed: Option<String>,
}

/// The corrections in the order of the recording.
#[must_use]
pub fn corrected(film: &Film<'_>) -> Vec<Corrected> {
    let mut all: Vec<Corrected> = film
        .recording
        .corrections
        .iter()
        .map(|correction| {
            let of = correction.of.as_ref().map(|of| of.value.clone()).unwrap_or_default();
            let listed = film.listed(&of);
            let name = listed.as_ref().map_or_else(|| of.clone(), |(name, _)| name.clone());
            Corrected { at: correction.at, said: correction.said.clone(), of, name, listed: listed.map(|(_, text)| text) }
        })
        .collect();
    all.sort_by_key(|one| one.at);
    all
}

impl Corrected {
    /// In words: what is said, what is right.
    #[must_use]
    pub fn words(&self) -> String {
        let field = self.of.split_once('.').map_or(String::new(), |(_, field)| format!(", {field}"));
        match &self.listed {
            Some(listed) => format!("“{}” is said; the manual has {}{field}: {listed}", self.said, self.name),
            None => format!("“{}” is said of {}{field}; it is wrong", self.said, self.name),
        }
    }
}

/// The caption file. One without corrections holds no cue.
#[must_use]
pub fn correction_captions(film: &Film<'_>) -> String {
    let mut text = format!("WEBVTT\n\nNOTE Corrections of {}\n", plain(film.recording.title.as_deref().unwrap_or(&film.machine.name)));
    let length = film.recording.length.map(Moment::seconds);
    for one in corrected(film) {
        let Some(from) = one.at.map(Moment::seconds) else { continue };
        let to = from.saturating_add(SHOWN).min(length.filter(|length| *length > from).unwrap_or(u32::MAX));
        text.push_str(&format!("\n{} --> {}\nCorrection: {}\n", stamp(from), stamp(to), plain(&one.words())));
    }
    text
}

fn stamp(seconds: u32) -> String {
    format!("{:02}:{:02}:{:02}.000", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

/// One line with nothing in it that a caption file would take for its own.
fn plain(text: &str) -> String {
    let line: String = text.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(MOST).collect();
    line.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
