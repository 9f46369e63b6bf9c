//! The chapters of a recording, from the moments of a procedure's steps: as WebVTT (W3C) for players, and as the list that
//! stands below a recording.

use super::PageFile;
use super::link;
use crate::manual::{Machine, Procedure};

/// A chapter: a step with its moment.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Chapter<'p> {
    id: String,
    title: &'p str,
    start: u32,
    end: u32,
}

/// What is known of no end: so many seconds.
const LAST: u32 = 60;

/// Every step with a moment, in the order of the recording. A chapter ends where the next begins, the last where the
/// recording does, or else where its own span does.
fn chapters(procedure: &Procedure) -> Vec<Chapter<'_>> {
    let Some(recording) = &procedure.recording else { return Vec::new() };
    let mut found: Vec<Chapter<'_>> = procedure
        .steps
        .iter()
        .filter_map(|step| {
            let span = step.at.as_ref()?.value;
            Some(Chapter { id: link::anchor_part(&step.id), title: &step.title, start: span.start().seconds(), end: span.end().seconds() })
        })
        .collect();
    found.sort_by_key(|chapter| chapter.start);
    // A player shows one chapter at a time: of two that begin together, the first in the work.
    found.dedup_by_key(|chapter| chapter.start);
    let next: Vec<u32> = found.iter().skip(1).map(|chapter| chapter.start).collect();
    let length = recording.length.map(|length| length.seconds());
    for (index, chapter) in found.iter_mut().enumerate() {
        let own = if chapter.end > chapter.start { chapter.end } else { chapter.start.saturating_add(LAST) };
        chapter.end = next.get(index).copied().unwrap_or_else(|| length.filter(|length| *length > chapter.start).unwrap_or(own));
    }
    found
}

/// The list for a recording's description: time code and title, a line each. None without moments.
pub(super) fn list(procedure: &Procedure) -> Option<String> {
    let found = chapters(procedure);
    let hours = found.last().is_some_and(|chapter| chapter.start >= 3600);
    let line = |chapter: &Chapter<'_>| format!("{} {}", time_code(chapter.start, hours), chapter.title);
    (!found.is_empty()).then(|| found.iter().map(line).collect::<Vec<_>>().join("\n"))
}

/// The WebVTT file of a procedure's chapters. None without moments.
pub(super) fn file(machine: &Machine, procedure: &Procedure) -> Option<PageFile> {
    let found = chapters(procedure);
    if found.is_empty() {
        return None;
    }
    let mut text = String::from("WEBVTT\n");
    for chapter in found {
        text.push_str(&format!("\n{}\n{} --> {}\n{}\n", chapter.id, stamp(chapter.start), stamp(chapter.end), escaped(chapter.title)));
    }
    Some(PageFile { path: link::chapters_path(&machine.id, &procedure.id), bytes: text.into_bytes() })
}

/// `1:04:20`, or `4:20` in a list without hours.
fn time_code(seconds: u32, hours: bool) -> String {
    let (hour, minute, second) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours { format!("{hour}:{minute:02}:{second:02}") } else { format!("{minute}:{second:02}") }
}

/// WebVTT's time: hours of two digits or more, minutes, seconds, thousandths.
fn stamp(seconds: u32) -> String {
    format!("{:02}:{:02}:{:02}.000", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

/// Text of a cue: `&`, `<` and `>` are written as names, a line has no end.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_written_as_webvtt_and_as_people_write_them() {
        assert_eq!((stamp(0), stamp(3_723), stamp(360_000)), ("00:00:00.000".to_owned(), "01:02:03.000".to_owned(), "100:00:00.000".to_owned()));
        assert_eq!((time_code(65, false), time_code(65, true), time_code(3_865, true)), ("1:05".to_owned(), "0:01:05".to_owned(), "1:04:25".to_owned()));
    }

    #[test]
    fn a_title_cant_be_taken_for_a_cue() {
        assert_eq!(escaped("a --> b & <c>\nd"), "a --&gt; b &amp; &lt;c&gt; d");
    }
}
