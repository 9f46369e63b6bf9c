//! The feed of changes for those who follow a manual: Atom (RFC 4287), only where the manual's address is known.
//!
//! An entry is one front matter at its revision of today: change lines have no day of their own, front matters have. Its id is
//! the address of its page with its revision, so that the same revision is never told twice.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::site::{Scene, Site};
use super::shared::{self, Shared};
use super::sitemap::address;
use super::sources::date_text;
use super::{Input, paper_mark};
use crate::manual::{Combination, Date, History, Machine};
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;

/// Where the feed lies in the site.
pub(super) const PATH: &str = "changes.atom";
/// Entries in one feed, newest first.
const MOST: usize = 200;

/// The feed.
pub(super) static FEED: Shared = Shared { path: PATH, part, page };

/// Whether there can be a feed: a proof copy is nothing to be followed, and without an address there are no ids.
pub(super) fn is_possible(input: &Input<'_>) -> bool {
    !input.proof_copy && address(input.manual, "").is_some()
}

/// Whether the feed tells of a machine.
pub(super) fn tells_of(machine: &Machine) -> bool {
    machine.procedures.iter().map(|procedure| &procedure.history).chain([&machine.history]).any(|history| dated(history).is_some())
}

fn dated(history: &History) -> Option<(u64, Date)> {
    history.revision.zip(history.date)
}

#[derive(Serialize, Deserialize)]
struct Entry {
    /// As ISO 8601 has it.
    date: String,
    revision: u64,
    path: String,
    title: String,
    lines: Vec<String>,
}

fn page(site: &Site<'_>, parts: &[&str]) -> Result<Option<Vec<u8>>, PageError> {
    if !is_possible(&site.input) {
        return Ok(None);
    }
    let parts = parts.iter().map(|part| shared::read(part)).collect::<Result<Vec<Vec<Entry>>, _>>()?;
    let mut entries: Vec<Entry> = parts.into_iter().flatten().collect();
    entries.sort_by(|a, b| b.date.cmp(&a.date).then_with(|| a.path.cmp(&b.path)));
    Ok(feed(site, &entries).map(String::into_bytes))
}

fn feed(site: &Site<'_>, entries: &[Entry]) -> Option<String> {
    let manual = site.input.manual;
    let newest = &entries.first()?.date;
    let home = address(manual, link::HOME)?;
    let mut text = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<feed xmlns=\"http://www.w3.org/2005/Atom\">\n");
    // Writing to a text never fails.
    let _ = writeln!(text, "<title>{}</title>", escaped(&manual.title));
    let _ = writeln!(text, "<id>{}</id>", escaped(&home));
    let _ = writeln!(text, "<link rel=\"alternate\" type=\"text/html\" href=\"{}\"/>", escaped(&home));
    let _ = writeln!(text, "<link rel=\"self\" type=\"application/atom+xml\" href=\"{}\"/>", escaped(&address(manual, PATH)?));
    let _ = writeln!(text, "<updated>{}</updated>", moment(newest));
    let _ = writeln!(text, "<author><name>{}</name></author>", escaped(&manual.publisher));
    for entry in entries.iter().take(MOST) {
        let page = address(manual, &entry.path)?;
        text.push_str("<entry>\n");
        let _ = writeln!(text, "<title>{}</title>", escaped(&entry.title));
        let _ = writeln!(text, "<id>{}#revision-{}</id>", escaped(&page), entry.revision);
        let _ = writeln!(text, "<link rel=\"alternate\" type=\"text/html\" href=\"{}\"/>", escaped(&page));
        let _ = writeln!(text, "<updated>{}</updated>", moment(&entry.date));
        let lines = if entry.lines.is_empty() { site.say("feed-none") } else { entry.lines.join("\n") };
        let _ = writeln!(text, "<content type=\"text\">{}</content>", escaped(&lines));
        text.push_str("</entry>\n");
    }
    text.push_str("</feed>\n");
    Some(text)
}

/// The entries about a machine.
fn part(site: &Site<'_>, machine_index: usize) -> Result<String, PageError> {
    let mut found: Vec<Entry> = Vec::new();
    if let Some(machine) = site.input.manual.machines.get(machine_index) {
        let any = Combination::default();
        let scene = Scene { site, machine, machine_index, procedure: None, page: PATH, known: &any, at_bench: false };
        found.extend(entry(&scene, &machine.history, link::machine_path(&machine.id), &machine.name));
        for procedure in &machine.procedures {
            let title = format!("{} – {}", procedure.title, machine.name);
            found.extend(entry(&scene.inside(procedure), &procedure.history, link::procedure_path(&machine.id, &procedure.id), &title));
        }
    }
    shared::written(&found)
}

fn entry(scene: &Scene<'_>, history: &History, path: String, title: &str) -> Option<Entry> {
    let (revision, date) = dated(history)?;
    let own = history.changes.iter().filter(|change| change.revision == Some(revision));
    let lines = own.map(|change| {
        let because = change.because.as_deref().map_or_else(String::new, |because| format!(": {because}"));
        format!("{}{because}", paper_mark::changed_value(scene, change))
    });
    let title = format!("{title}, {}", scene.say("revision", &[("revision", super::words::Arg::Count(revision))]));
    Some(Entry { date: date_text(&date), revision, path, title, lines: lines.collect() })
}

/// RFC 3339: a front matter tells a day, and no hour.
fn moment(date: &str) -> String {
    format!("{date}T00:00:00Z")
}

/// Escaped for XML, without the signs that XML 1.0 does not have.
fn escaped(text: &str) -> String {
    let clean: String = text.chars().filter(|c| !c.is_control() || matches!(c, '\n' | '\t')).filter(|c| !matches!(c, '\u{fffe}' | '\u{ffff}')).collect();
    Markup::text(&clean).as_str().to_owned()
}
