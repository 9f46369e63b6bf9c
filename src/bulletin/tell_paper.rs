//! Telling what is known of a paper or a record.

use super::paper::{PaperKind, PaperNews, RecordNews, SheetMatch, ValueNews, WorkNews};
use super::CAUTION;
use super::tell::{bulletin_text, line, line_words};

/// What is known of a paper, in words.
#[must_use]
pub fn paper_text(news: &PaperNews, title: &str) -> String {
    let mut text = String::new();
    if let Some(sheet) = &news.current {
        line(&mut text, format!("CURRENT: {} is {}", news.fingerprint, kind_words(sheet)));
        line(&mut text, format!("Its values are those of {title} today. Words and drawings may differ."));
        line(&mut text, format!("\n{CAUTION}"));
        return text;
    }
    line(&mut text, format!("NOT CURRENT: no sheet, torque card or board of {title} has the fingerprint {} today", news.fingerprint));
    match (&news.printed_by, &news.since) {
        (Some((state, sheet)), since) => {
            line(&mut text, format!("It was printed from {state}: {}", printed_words(sheet)));
            if let Some(since) = since {
                line(&mut text, "");
                text.push_str(&bulletin_text(since));
            } else {
                line(&mut text, "What changed since can't be told: the manual of then and that of today have nothing in common.");
            }
            return text;
        }
        (None, _) => {
            let looked = match (&news.untold, news.states) {
                (Some(why), _) => format!("No earlier state could be looked at: {why}"),
                (None, 0) => "No earlier state was there to be looked at".to_owned(),
                (None, 1) => "One earlier state was looked at, and its papers don't have it either".to_owned(),
                (None, states) => format!("{states} earlier states were looked at, and no paper of theirs has it either"),
            };
            line(&mut text, format!("{looked}."));
            line(&mut text, "From the fingerprint alone nobody can tell which paper it was or what changed: compare it with the one in the");
            line(&mut text, "title block of the paper, then print that again. It may also be the paper of another manual, or a slip in copying the signs.");
        }
    }
    line(&mut text, format!("\n{CAUTION}"));
    text
}

/// `the sheet of Hub (tarn-18/hub), serial late, revision 4`.
fn kind_words(sheet: &SheetMatch) -> String {
    let kind = match sheet.paper {
        PaperKind::Sheet => "sheet",
        PaperKind::TorqueCard => "torque card",
        PaperKind::Board => "bolt board",
    };
    format!("the {kind} of {}", sheet_words(sheet))
}

/// The same; a sheet is what most papers are, and is not called so.
fn printed_words(sheet: &SheetMatch) -> String {
    if sheet.paper == PaperKind::Sheet { sheet_words(sheet) } else { kind_words(sheet) }
}

/// `Hub (tarn-18/hub), serial late, revision 4`.
fn sheet_words(sheet: &SheetMatch) -> String {
    let place: Vec<&str> = [Some(sheet.machine.as_str()), Some(sheet.procedure.as_str()), sheet.fasteners.as_deref()].into_iter().flatten().filter(|part| !part.is_empty()).collect();
    let variant = if sheet.variant.is_empty() { String::new() } else { format!(", {}", sheet.variant) };
    let revision = sheet.revision.map_or_else(String::new, |revision| format!(", revision {revision}"));
    format!("{} ({}){variant}{revision}", sheet.title, place.join("/"))
}

/// What is known of a record, in words.
#[must_use]
pub fn record_text(news: &RecordNews, title: &str) -> String {
    let mut text = String::new();
    let serial = news.serial.as_ref().map_or_else(String::new, |serial| format!(" no. {serial}"));
    let verdict = if news.is_current() { "CURRENT" } else { "TO BE LOOKED AT" };
    line(&mut text, format!("{verdict}: {}{serial}, held against {title} of today", news.machine));
    for untold in &news.untold {
        line(&mut text, format!("Not told: {untold}."));
    }
    for work in &news.work {
        line(&mut text, format!("\n{} ({}), {}", work.title, work.procedure, work_words(work)));
        for value in &work.changed {
            line(&mut text, format!("  {}", value_words(value)));
            for told in value.lines.iter().filter(|_| value.lines.len() > 1) {
                line(&mut text, format!("      {}", line_words(told, true)));
            }
        }
    }
    line(&mut text, format!("\n{CAUTION}"));
    text
}

fn work_words(work: &WorkNews) -> String {
    let number = |revision: Option<u64>| revision.map_or_else(|| "none".to_owned(), |revision| revision.to_string());
    let sheet = match work.current {
        Some(true) => "sheet current".to_owned(),
        Some(false) if work.finished => format!("sheet out of date, work finished (revision {} then, {} now)", number(work.revision_was), number(work.revision)),
        Some(false) => format!("sheet out of date: print it again and carry the ticks over (revision {} then, {} now)", number(work.revision_was), number(work.revision)),
        None => "no fingerprint in the record: whether its sheet was current can't be told".to_owned(),
    };
    match work.changed.len() {
        0 => format!("{sheet}; no value it was done by has a later change line"),
        1 => format!("{sheet}; 1 value has changed since"),
        several => format!("{sheet}; {several} values have changed since"),
    }
}

fn value_words(value: &ValueNews) -> String {
    let critical = if value.critical { "CRITICAL: " } else { "" };
    let now = value.now.as_deref().unwrap_or("no longer given");
    let then = value.recorded.as_deref().unwrap_or("no value written down");
    // Of several lines each has its own below.
    let only = value.lines.len() < 2;
    let why = value.line.because.as_deref().filter(|_| only).map_or_else(String::new, |because| format!(" – {because}"));
    let answered = value.answered.as_ref().map_or_else(String::new, |what| format!("; answered by a deviation: {what}"));
    format!("{critical}{} in #{}: done by {then}, now {now}{why}{answered}", value.of, value.step)
}
