//! The torque card of a machine: every torque by where it belongs, on one page if it can be, to hang at the bench.

use super::error::PageError;
use super::link;
use super::lines;
use super::markup::Markup;
use super::names::Detail;
use super::site::{Scene, Site};
use super::values::{Line, cases, glued, values_glued, varied_text};
use super::words::Arg;
use crate::manual::{Combination, Entry, Fastener, Home, ListKind, SheetValues, ThingRef, newest_change};
use serde::Serialize;

#[derive(Serialize)]
struct CardView {
    class: &'static str,
    running: String,
    fingerprint: String,
    back: Detail,
    columns: Vec<String>,
    groups: Vec<Group>,
    sources: Vec<SourceKey>,
}

/// The torques of one procedure, or those that procedures share.
#[derive(Serialize)]
struct Group {
    title: String,
    rows: Vec<CardRow>,
}

#[derive(Serialize)]
struct CardRow {
    name: String,
    /// Variants, two signatures, new each time; whether it is unsourced or waived.
    marks: Vec<String>,
    size: Option<String>,
    #[serde(serialize_with = "lines::serialize_below")]
    lines: Vec<Line>,
    order: Option<String>,
    /// Threads, locking and wrenches: short lines below each other, so that no word is cut in a narrow column.
    how: Vec<String>,
    /// Letters of its sources.
    source: String,
}

/// A source and the letter it has on the card.
#[derive(Serialize)]
struct SourceKey {
    key: String,
    text: String,
}

/// Makes the torque card of a machine. A machine without a torque has an empty one.
pub(super) fn page(site: &Site<'_>, machine_index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::card_path(&machine.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &any, at_bench: true };
    let mut sources = Vec::new();
    let groups = scene.card_groups(&mut sources);
    let title = site.say("card-title");
    let SheetValues { fingerprint, things } = SheetValues::of_card(site.input.manual, machine);
    let revision = machine.history.revision.map(|r| scene.say("revision", &[("revision", Arg::Count(r))]));
    let running: Vec<String> = [machine.name.clone(), title.clone()].into_iter().chain(revision).chain([fingerprint.in_short()]).collect();
    let back = Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) };
    let columns = ["col-fastener", "col-torque", "col-threads-wrench", "col-source"].map(|key| site.say(key)).to_vec();
    let mut block = site.title_block("kind-card", &title, &format!("{}/torque-card", machine.id), Some(&machine.history));
    block.machine = Some(Detail::plain(machine.name.as_str()));
    block.of_day(machine.history.date.max(newest_change(site.input.manual, machine, &things)));
    let heading = site.say_with("card-of", &[("machine", Arg::Text(&machine.name))]);
    let view = CardView { class: "card", running: running.join(" · "), fingerprint: fingerprint.to_string(), back, columns, groups, sources };
    let html = site.document("torque-card.html", site.sheet_frame(&path, &heading), block, &view)?;
    Ok((path, html))
}

impl Scene<'_> {
    fn card_groups(&self, sources: &mut Vec<SourceKey>) -> Vec<Group> {
        let mut groups: Vec<(Home, Group)> = Vec::new();
        for looked in self.things(ListKind::Fasteners) {
            let Some(entry) = looked.scene.scope().thing(|l| &l.fasteners, &looked.thing) else { continue };
            if !entry.what.torque.is_given() {
                continue;
            }
            let scene = Scene { known: &entry.only, ..looked.scene };
            let row = scene.card_row(entry, &looked.thing, sources);
            match groups.iter_mut().find(|(home, _)| *home == looked.thing.home) {
                Some((_, group)) => group.rows.push(row),
                None => {
                    let title = match &looked.thing.home {
                        Home::Procedure(id) => self.machine.procedure(id).map_or_else(|| id.clone(), |procedure| procedure.title.clone()),
                        Home::Machine | Home::Shop => self.site.say("card-shared"),
                    };
                    groups.push((looked.thing.home.clone(), Group { title, rows: vec![row] }));
                }
            }
        }
        groups.into_iter().map(|(_, group)| group).collect()
    }

    fn card_row(&self, entry: &Entry<Fastener>, thing: &ThingRef, sources: &mut Vec<SourceKey>) -> CardRow {
        let fastener = &entry.what;
        let mut marks: Vec<String> = self.only_text(&entry.only).into_iter().collect();
        marks.extend(fastener.critical.then(|| self.site.say("two-signatures")));
        marks.extend(fastener.temporary.then(|| self.site.say("card-temporary")));
        let is_new = cases(&fastener.reuse, self.known).any(|(_, reuse)| reuse.as_str() == "never");
        marks.extend(is_new.then(|| self.site.say("card-new")));
        marks.extend(self.is_unsourced(thing).then(|| self.site.say("unsourced")));
        marks.extend(self.waiver_details(thing).into_iter().map(|waiver| waiver.text));
        let mut threads: Vec<String> = Vec::new();
        for (label, id) in cases(&fastener.locker, self.known) {
            let name = self.scope().entry(|l| &l.materials, id).map_or_else(|| id.clone(), |material| self.material_name(material));
            threads.push(label.map_or(name.clone(), |label| format!("{label} {name}")));
        }
        let condition = varied_text(&fastener.threads, self.known, |threads| self.site.words.of("threads", threads));
        threads.extend(condition.filter(|_| !fastener.locker.is_given()));
        threads.extend(varied_text(&fastener.lock, self.known, |lock| self.site.words.of("lock", lock)));
        let mut wrenches: Vec<String> = self.wrenches(fastener, None).iter().map(|wrench| values_glued(&wrench.name)).collect();
        wrenches.extend(self.adapter_text(entry));
        wrenches.extend(self.setting_lines(entry).iter().map(set_text));
        let letters: Vec<String> = self.source_cell(&entry.source).details.into_iter().map(|detail| key_of(&detail.text, sources)).collect();
        CardRow {
            name: values_glued(&entry.name),
            marks,
            size: joined(self.fastener_text(fastener, None), varied_text(&fastener.drive, self.known, |drive| glued(drive))),
            lines: self.card_lines(fastener),
            order: self.order_text(fastener),
            how: threads.into_iter().chain(wrenches).collect(),
            source: letters.join(" "),
        }
    }
}

impl<'s> Scene<'s> {
    /// The torque; told once where every variant has the same.
    fn card_lines(&self, fastener: &'s Fastener) -> Vec<Line> {
        let mut ways = fastener.torque.cases.iter().filter_map(|case| {
            let known = self.known.and(&case.when)?;
            Some(Scene { known: &known, ..*self }.torque_lines(fastener, None))
        });
        let first = ways.next().unwrap_or_default();
        if ways.all(|way| way == first) { first } else { self.torque_lines(fastener, None) }
    }
}

/// `M8 × 1.25 × 35 mm, class 8.8; 13 mm hex`: what it is, and what turns it.
fn joined(size: Option<String>, drive: Option<String>) -> Option<String> {
    match (size, drive) {
        (Some(size), Some(drive)) => Some(format!("{size}; {drive}")),
        (one, other) => one.or(other),
    }
}

/// `set on the wrench 44.1 N·m`.
fn set_text(line: &Line) -> String {
    line.label.iter().map(String::as_str).chain([line.main.as_str()]).collect::<Vec<_>>().join(" ")
}

/// The letter of a source; a new one for one not met yet.
fn key_of(text: &str, sources: &mut Vec<SourceKey>) -> String {
    if let Some(known) = sources.iter().find(|source| source.text == text) {
        return known.key.clone();
    }
    let key = letters(sources.len());
    sources.push(SourceKey { key: key.clone(), text: text.to_owned() });
    key
}

/// A, B … Z, AA, AB …
fn letters(index: usize) -> String {
    let mut rest = index;
    let mut out = Vec::new();
    loop {
        out.push(b'A'.saturating_add(u8::try_from(rest % 26).unwrap_or(0)));
        match rest / 26 {
            0 => break,
            more => rest = more - 1,
        }
    }
    out.reverse();
    String::from_utf8(out).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sources_have_letters_in_turn() {
        let keys: Vec<String> = [0, 1, 25, 26, 27, 51, 52, 701, 702].into_iter().map(letters).collect();
        assert_eq!(keys, ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
    }

    #[test]
    fn a_source_met_twice_has_one_letter() {
        let mut sources = Vec::new();
        let keys: Vec<String> = ["book", "sheet", "book"].into_iter().map(|text| key_of(text, &mut sources)).collect();
        assert_eq!(keys, ["A", "B", "A"]);
        assert_eq!(sources.len(), 2);
    }
}
