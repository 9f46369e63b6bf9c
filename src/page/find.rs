//! The search index: every machine, procedure, step and thing with its values, in one script file that is loaded when the
//! search is first used. From `file://` a page may load a script, but no data.
//!
//! Every text is a row of numbers, an index each into one list of words, the most frequent first; a number is one to three
//! characters. That keeps a hundred procedures below 100 kB.

use super::error::PageError;
use super::find_words::{Book, Lines};
use super::link;
use super::names::is_locker;
use super::open;
use super::shared::{self, Shared};
use super::site::{Scene, Site};
use super::values::{Line, varied_text};
use super::words::Arg;
use crate::manual::{Combination, Home, ListKind, Machine, Procedure, ThingRef};
use serde::Serialize;

/// Where the index lies in the site.
pub(super) const PATH: &str = "search-index.js";

/// A kind of thing that can be found: its list, whether it is a material that locks or seals, and the key of its name.
struct Kind {
    list: ListKind,
    locker: bool,
    key: &'static str,
}

const fn kind(list: ListKind, key: &'static str) -> Kind {
    Kind { list, locker: false, key }
}

/// The kinds, each known in the index by its letter: the first by `a`.
const KINDS: &[Kind] = &[
    kind(ListKind::Fasteners, "found-fastener"),
    kind(ListKind::Seals, "found-seal"),
    kind(ListKind::Bearings, "found-bearing"),
    kind(ListKind::Parts, "found-part"),
    Kind { list: ListKind::Materials, locker: true, key: "found-locker" },
    kind(ListKind::Materials, "found-material"),
    kind(ListKind::Tools, "found-tool"),
    kind(ListKind::Measures, "found-measure"),
    kind(ListKind::Shims, "found-shim"),
    kind(ListKind::Fills, "found-fill"),
    kind(ListKind::Heats, "found-heat"),
    kind(ListKind::Waits, "found-wait"),
    kind(ListKind::Beads, "found-bead"),
    kind(ListKind::Aligns, "found-align"),
    kind(ListKind::Turns, "found-turn"),
    kind(ListKind::Tests, "found-test"),
    kind(ListKind::Stacks, "found-stack"),
    kind(ListKind::Kits, "found-kit"),
    kind(ListKind::LeavesOpen, "found-open"),
    kind(ListKind::Away, "found-away"),
    kind(ListKind::Sources, "found-source"),
    kind(ListKind::People, "found-person"),
    kind(ListKind::Terms, "found-term"),
];

/// Something that can be found.
struct Found {
    letter: char,
    home: Home,
    id: String,
    name: String,
    value: String,
    more: String,
}

/// What the script file hands over.
#[derive(Serialize)]
struct Index<'v> {
    say: Vec<String>,
    kinds: Vec<(&'static str, String, String)>,
    words: &'v str,
    lines: &'v str,
}

/// The index.
pub(super) static INDEX: Shared = Shared { path: PATH, part, page };

/// The lines about a machine.
fn part(site: &Site<'_>, machine_index: usize) -> Result<String, PageError> {
    let mut lines = Lines::default();
    machine(site, machine_index, &mut lines);
    shared::written(&lines)
}

fn page(site: &Site<'_>, parts: &[&str]) -> Result<Option<Vec<u8>>, PageError> {
    let mut book = Book::default();
    for part in parts {
        book.add(&shared::read(part)?);
    }
    let (words, lines) = book.written();
    // What a result is filled with, the script puts in.
    let args = [("wrong", Arg::Text("%1")), ("right", Arg::Text("%2"))];
    let say = ["search-field", "search-hint", "search-close", "search-found", "search-nothing", "search-first", "search-meant"];
    let index = Index {
        say: say.iter().chain(&["found-machine", "found-procedure", "found-step"]).map(|key| site.say_with(key, &args)).collect(),
        kinds: KINDS
            .iter()
            .map(|kind| {
                let page = link::row_page("", kind.list, kind.locker);
                let page = if page.starts_with("tables/") { page.into_owned() } else { String::new() };
                (kind.list.key(), site.say(kind.key), page)
            })
            .collect(),
        words: &words,
        lines: &lines,
    };
    let json = serde_json::to_string(&index).unwrap_or_default();
    Ok(Some(format!("(globalThis.leaf ??= {{}}).index = {json};\n").into_bytes()))
}

fn machine(site: &Site<'_>, machine_index: usize, book: &mut Lines) {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return };
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: PATH, known: &any, at_bench: false };
    let mut found = Vec::new();
    for (index, kind) in KINDS.iter().enumerate() {
        let letter = u8::try_from(index).map_or('?', |index| char::from(b'a'.saturating_add(index)));
        scene.find_all(kind, letter, &mut found);
    }
    book.raw_line('0', &machine.id, &[&machine.name]);
    let of = |home: &Home, book: &mut Lines| {
        for thing in found.iter().filter(|thing| thing.home == *home) {
            let letter = if *home == Home::Shop { thing.letter.to_ascii_uppercase() } else { thing.letter };
            book.id_line(letter, &link::anchor_part(&thing.id), &[&thing.name, &thing.value, &thing.more]);
        }
    };
    of(&Home::Shop, book);
    of(&Home::Machine, book);
    for procedure in &machine.procedures {
        book.raw_line('1', &procedure.id, &[&procedure.title]);
        for step in &procedure.steps {
            book.id_line('2', &link::anchor_part(&step.id), &[&step.title]);
        }
        of(&Home::Procedure(procedure.id.clone()), book);
    }
}

impl Scene<'_> {
    fn find_all(&self, kind: &Kind, letter: char, found: &mut Vec<Found>) {
        let things: Vec<ThingRef> = match kind.list {
            ListKind::Terms => self.terms().into_iter().map(|known| known.thing).collect(),
            ListKind::People => self.people_shown(),
            ListKind::Sources => self.sources_shown(),
            list => self.things(list).into_iter().map(|looked| looked.thing).collect(),
        };
        for thing in things {
            let procedure = home_procedure(self.machine, &thing.home);
            let Some(head) = self.scope().head(&thing) else { continue };
            let scene = Scene { procedure, known: head.only, ..*self };
            let is_locker = kind.list == ListKind::Materials
                && scene.scope().thing(|l| &l.materials, &thing).is_some_and(|material| is_locker(&material.what));
            if is_locker != kind.locker {
                continue;
            }
            let (value, more) = scene.found_values(&thing);
            let name = scene.found_name(&thing, head.name);
            found.push(Found { letter, home: thing.home, id: thing.id, name, value, more });
        }
    }

    fn found_name(&self, thing: &ThingRef, name: &str) -> String {
        match thing.kind {
            ListKind::Sources => self.source_detail(&thing.id).text,
            ListKind::LeavesOpen | ListKind::Away => {
                let items = open::all(self.machine);
                let item = items.iter().find(|item| item.kind == thing.kind && item.thing(self.machine).as_ref() == Some(thing));
                item.map_or_else(|| name.to_owned(), |item| item.view(self, None).thing.text)
            }
            _ => name.to_owned(),
        }
    }

    /// The values of a thing, and the other words by which it is looked for.
    fn found_values(&self, thing: &ThingRef) -> (String, String) {
        let told = match thing.kind {
            ListKind::Fasteners => return self.found_fastener(thing),
            ListKind::Materials => return self.found_material(thing),
            ListKind::Tools => {
                let entry = self.scope().thing(|l| &l.tools, thing);
                // A range that the name tells already is not told twice.
                let range = entry.and_then(|e| e.what.range.as_ref().filter(|range| !e.name.contains(range.written())));
                let kind = entry.and_then(|e| e.what.kind.as_deref()).map(|kind| self.site.words.of("tool-kind", kind));
                return (range.map(|range| self.quantity(range)).unwrap_or_default(), kind.unwrap_or_default());
            }
            ListKind::Seals => {
                let depth = self.scope().thing(|l| &l.seals, thing).map(|e| lines_text(&self.lines("depth", &e.what.depth)));
                return (depth.unwrap_or_default(), self.short_text(thing).unwrap_or_default());
            }
            ListKind::Terms => {
                let entry = self.scope().thing(|l| &l.terms, thing);
                return entry.map_or_else(Default::default, |e| (e.what.means.clone(), e.what.not.join(" | ")));
            }
            ListKind::Parts | ListKind::Bearings => return (String::new(), self.short_text(thing).unwrap_or_default()),
            ListKind::Kits | ListKind::LeavesOpen | ListKind::Away | ListKind::Sources | ListKind::People => return Default::default(),
            _ => self.told_alone(thing),
        };
        (lines_text(&told.lines), String::new())
    }

    fn found_fastener(&self, thing: &ThingRef) -> (String, String) {
        let Some(entry) = self.scope().thing(|l| &l.fasteners, thing) else { return Default::default() };
        let locker = varied_text(&entry.what.locker, self.known, |id| self.name_in(ListKind::Materials, id));
        let threads = || varied_text(&entry.what.threads, self.known, |threads| self.site.words.of("threads", threads));
        let more = [self.fastener_text(&entry.what, None), locker.or_else(threads)];
        let trial = entry.what.temporary.then(|| self.site.say("card-temporary"));
        let value: Vec<String> = std::iter::once(lines_text(&self.torque_lines(&entry.what, None))).chain(trial).collect();
        (value.join(", "), more.into_iter().flatten().collect::<Vec<_>>().join(" "))
    }

    fn found_material(&self, thing: &ThingRef) -> (String, String) {
        let Some(entry) = self.scope().thing(|l| &l.materials, thing) else { return Default::default() };
        let kind = entry.what.kind.as_deref().map(|kind| self.site.words.of("material-kind", kind));
        let kind = kind.filter(|kind| !entry.name.to_lowercase().contains(&kind.to_lowercase()));
        let more = [kind, entry.what.grade.clone(), entry.what.threads.clone()];
        (String::new(), more.into_iter().flatten().collect::<Vec<_>>().join(" "))
    }
}

fn home_procedure<'m>(machine: &'m Machine, home: &Home) -> Option<&'m Procedure> {
    match home {
        Home::Procedure(id) => machine.procedure(id),
        Home::Machine | Home::Shop => None,
    }
}

fn lines_text(lines: &[Line]) -> String {
    let line = |line: &Line| {
        let parts = [line.label.as_deref(), Some(line.main.as_str()), line.other.as_deref()];
        parts.into_iter().flatten().collect::<Vec<_>>().join(" ")
    };
    lines.iter().map(line).collect::<Vec<_>>().join(" · ")
}
