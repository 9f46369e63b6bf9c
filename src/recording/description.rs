//! The text that goes beside a recording: chapters with time codes, parts, tools, materials, sources, corrections. One
//! source for all of it: the procedures that are in the recording. Values stay on the pages, where they are kept right.

use super::corrections::corrected;
use super::film::Film;
use super::takes::{waits_of, words};
use crate::inspect::{by_size, drives, in_few_words};
use crate::manual::{Combination, Entry, Kit, ListKind, Procedure, Scope, ThingRef, Varied, Verb, wrenches};
use std::collections::BTreeSet;
use std::fmt::{Display, Write};

/// What the end of every description says.
const CAUTION: &str = "Values can be wrong for your machine, and this text may be older than the manual. The maker's service data, local codes and a qualified person decide.";

/// The description, in lines.
#[must_use]
pub fn description(film: &Film<'_>) -> String {
    let mut text = String::new();
    let title = film.recording.title.as_deref().unwrap_or(&film.machine.name);
    line(&mut text, title);
    line(&mut text, format!("{}, {}", film.machine.name, film.manual.title));
    for procedure in &film.procedures {
        let revision = procedure.history.revision.map_or_else(String::new, |revision| format!(", revision {revision}"));
        let date = procedure.history.date.map_or_else(String::new, |date| format!(", {date}"));
        line(&mut text, format!("{}{revision}{date}", procedure.title));
    }
    if let Some(address) = &film.manual.address {
        line(&mut text, format!("The manual: {address}"));
    }
    section(&mut text, "Chapters", &chapters(film));
    let gathered = Gathered::of(film);
    section(&mut text, "Parts and fasteners", &gathered.parts);
    section(&mut text, "Tools", &gathered.tools);
    section(&mut text, "Spanners, sockets and keys", &sizes(film));
    section(&mut text, "Materials", &gathered.materials);
    section(&mut text, "What the work waits for, off camera", &pauses(film));
    section(&mut text, "Sources of the values", &gathered.sources);
    let corrections: Vec<String> = corrected(film).iter().map(|one| format!("{}{}", one.at.map_or_else(String::new, |at| format!("{at} ")), one.words())).collect();
    section(&mut text, "Corrections", &corrections);
    section(&mut text, "Open after this part", &left_open(film));
    text.push('\n');
    line(&mut text, CAUTION);
    if let Some(notice) = &film.manual.notice {
        line(&mut text, notice);
    }
    text
}

fn line(text: &mut String, words: impl Display) {
    // Writing to a text never fails.
    let _ = writeln!(text, "{words}");
}

fn section(text: &mut String, heading: &str, lines: &[String]) {
    if !lines.is_empty() {
        text.push('\n');
        line(text, heading);
        lines.iter().for_each(|one| line(text, one));
    }
}

/// The sizes that turn the fasteners of all procedures, each once, small ones first.
fn sizes(film: &Film<'_>) -> Vec<String> {
    let of_all = film.procedures.iter().flat_map(|procedure| drives(film.scope(procedure), procedure, &Combination::default()));
    let mut sizes: Vec<&str> = of_all.map(|drive| drive.size).collect();
    sizes.sort_by(|a, b| by_size(a, b));
    sizes.dedup();
    in_few_words(sizes.into_iter())
}

/// The waits of all procedures, each once.
fn pauses(film: &Film<'_>) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for wait in film.procedures.iter().flat_map(|procedure| waits_of(film.scope(procedure), procedure)) {
        let line = words(wait);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

/// A line for each step with a moment; players want the first one at 0:00.
fn chapters(film: &Film<'_>) -> Vec<String> {
    let windows = film.windows();
    let long = windows.last().is_some_and(|window| window.from >= 3600);
    let code = |seconds: u32| {
        let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        if long { format!("{hours}:{minutes:02}:{seconds:02}") } else { format!("{minutes}:{seconds:02}") }
    };
    let mut lines: Vec<String> = Vec::new();
    if windows.first().is_some_and(|window| window.from > 0) {
        lines.push(format!("{} Beginning", code(0)));
    }
    for window in &windows {
        let only = if window.step.only.is_always() { String::new() } else { format!(" ({})", window.step.only.words()) };
        lines.push(format!("{} {}{only}", code(window.from), window.step.title));
    }
    lines
}

/// What is open when the last procedure of the recording is done, with where it is finished.
fn left_open(film: &Film<'_>) -> Vec<String> {
    let all = &film.machine.procedures;
    let Some(last) = all.iter().rposition(|procedure| film.procedures.iter().any(|own| own.id == procedure.id)) else { return Vec::new() };
    let mut lines = Vec::new();
    for procedure in all.iter().take(last + 1) {
        let scope = film.scope(procedure);
        let items = procedure.lists.leaves_open.values().map(|entry| (entry.what.of.as_ref().map_or(entry.id.as_str(), |of| of.value.as_str()), entry.what.left.as_deref().unwrap_or("open"), &entry.what.finish_in));
        let away = procedure.lists.away.values().map(|entry| (entry.id.as_str(), "away", &entry.what.finish_in));
        for (thing, left, finish) in items.chain(away) {
            let Some(finish) = finish.as_ref().map(|target| target.value.split('#').next().unwrap_or("")) else { continue };
            let Some(later) = all.iter().skip(last + 1).find(|later| later.id == finish) else { continue };
            let mut kinds = ListKind::ALL.iter().filter(|kind| !matches!(kind, ListKind::LeavesOpen | ListKind::Away));
            let name = kinds.find_map(|kind| scope.head(&scope.find(*kind, thing)?).map(|head| head.name)).unwrap_or(thing);
            lines.push(format!("{name}: {}, finished in {}", left.replace('-', " "), later.title));
        }
    }
    lines
}

/// What the acts of the procedures name.
#[derive(Default)]
pub(super) struct Gathered {
    pub(super) parts: Vec<String>,
    pub(super) tools: Vec<String>,
    pub(super) materials: Vec<String>,
    sources: Vec<String>,
    seen: BTreeSet<(ListKind, String)>,
}

impl Gathered {
    fn of(film: &Film<'_>) -> Self {
        let mut gathered = Self::default();
        film.procedures.iter().for_each(|procedure| gathered.add(film.scope(procedure), procedure));
        gathered
    }

    /// What the acts of one procedure name.
    pub(super) fn of_procedure(scope: Scope<'_>, procedure: &Procedure) -> Self {
        let mut gathered = Self::default();
        gathered.add(scope, procedure);
        gathered
    }

    fn add(&mut self, scope: Scope<'_>, procedure: &Procedure) {
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            for thing in act.things.iter().chain(&act.material) {
                self.thing(scope, thing, act.verb);
                self.laid_in(scope, thing, act.verb);
                if act.verb == Some(Verb::Torque) {
                    self.worked_out(scope, thing, act.stage);
                }
            }
        }
    }

    fn thing(&mut self, scope: Scope<'_>, thing: &ThingRef, verb: Option<Verb>) {
        let fits = matches!(verb, Some(Verb::Fit | Verb::Start | Verb::Torque));
        let counts = !matches!(thing.kind, ListKind::Fasteners | ListKind::Seals | ListKind::Bearings | ListKind::Parts) || fits;
        if !counts || !self.seen.insert((thing.kind, thing.id.clone())) {
            return;
        }
        let Some(head) = scope.head(thing) else { return };
        match thing.kind {
            ListKind::Fasteners | ListKind::Seals | ListKind::Bearings | ListKind::Parts => self.parts.push(part(scope, thing, head.name)),
            ListKind::Tools => self.tools.push(with_origin(head.name, scope.thing(|l| &l.tools, thing).map(|tool| &tool.what.got))),
            ListKind::Materials => self.materials.push(with_origin(head.name, scope.thing(|l| &l.materials, thing).map(|material| &material.what.got))),
            _ => {}
        }
        self.named(scope, thing);
        self.source(scope, thing);
    }

    /// What is laid in something: it is in hand where the wait begins.
    fn laid_in(&mut self, scope: Scope<'_>, thing: &ThingRef, verb: Option<Verb>) {
        let Some(wait) = scope.thing(|lists| &lists.waits, thing).filter(|wait| verb == Some(Verb::Begin) && wait.what.medium.is_given()) else { return };
        for of in &wait.what.of {
            let kinds = [ListKind::Fasteners, ListKind::Seals, ListKind::Bearings, ListKind::Parts];
            if let Some(part) = kinds.into_iter().find_map(|kind| scope.find(kind, &of.value)) {
                self.thing(scope, &part, Some(Verb::Fit));
            }
        }
    }

    /// The wrenches that a torque asks for where its fastener names none: those that the sheet names.
    fn worked_out(&mut self, scope: Scope<'_>, thing: &ThingRef, stage: Option<u64>) {
        let Some(entry) = scope.thing(|lists| &lists.fasteners, thing).filter(|entry| !entry.what.tool.is_given()) else { return };
        for wrench in wrenches(scope, &entry.what, &Combination::default(), stage) {
            if let Some(tool) = scope.find(ListKind::Tools, &wrench.id) {
                self.thing(scope, &tool, None);
            }
        }
    }

    /// The tools and materials that a thing names in its fields.
    fn named(&mut self, scope: Scope<'_>, thing: &ThingRef) {
        let Some(lists) = scope.lists_of(thing) else { return };
        let fields = lists.written.iter().filter(|written| written.kind == thing.kind && written.id == thing.id);
        for written in fields {
            let kind = match written.field {
                "tool" | "hold_with" | "with" | "check_with" | "sleeve" => ListKind::Tools,
                "locker" | "lip" => ListKind::Materials,
                "in" if thing.kind == ListKind::Waits => ListKind::Materials,
                "of" if thing.kind == ListKind::Fills || thing.kind == ListKind::Beads => ListKind::Materials,
                _ => continue,
            };
            if let Some(other) = scope.find(kind, &written.text) {
                self.thing(scope, &other, None);
            }
        }
    }

    fn source(&mut self, scope: Scope<'_>, thing: &ThingRef) {
        let Some(sources) = scope.lists_of(thing).and_then(|lists| lists.source(thing.kind, &thing.id)) else { return };
        for case in &sources.cases {
            let Some(entry) = scope.entry(|lists| &lists.sources, &case.value) else { continue };
            if self.seen.insert((ListKind::Sources, entry.id.clone())) {
                let what = &entry.what;
                let more = [
                    what.edition.as_ref().map(|edition| format!("edition {edition}")),
                    what.page.as_ref().map(|page| format!("page {page}")),
                    what.date.map(|date| date.to_string()),
                    what.kind.clone(),
                ];
                let more: Vec<String> = more.into_iter().flatten().collect();
                self.sources.push(if more.is_empty() { what.title.clone() } else { format!("{} ({})", what.title, more.join(", ")) });
            }
        }
    }
}

/// `4 × Cap bolt, M8 × 1.25, new each time, from Pinion kit`.
fn part(scope: Scope<'_>, thing: &ThingRef, name: &str) -> String {
    let Some(lists) = scope.lists_of(thing) else { return name.to_owned() };
    let id = &thing.id;
    let none = (Varied::default(), Varied::default(), Varied::default(), Varied::default());
    let (count, number, from, reuse): (Varied<u64>, Varied<String>, Varied<String>, Varied<String>) = match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(id).map(|e| (e.what.count.clone(), Varied::default(), e.what.from.clone(), e.what.reuse.clone())),
        ListKind::Seals => lists.seals.get(id).map(|e| (e.what.count.clone(), e.what.number.clone(), e.what.from.clone(), e.what.reuse.clone())),
        ListKind::Bearings => lists.bearings.get(id).map(|e| (e.what.count.clone(), e.what.number.clone(), e.what.from.clone(), e.what.reuse.clone())),
        ListKind::Parts => lists.parts.get(id).map(|e| (e.what.count.clone(), e.what.number.clone(), e.what.from.clone(), e.what.reuse.clone())),
        _ => None,
    }
    .unwrap_or(none);
    let size = match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(id).map(|e| by_variant(&e.what.thread, ToString::to_string)),
        ListKind::Seals => lists.seals.get(id).map(|e| by_variant(&e.what.size, ToString::to_string)),
        ListKind::Bearings => lists.bearings.get(id).map(|e| by_variant(&e.what.size, ToString::to_string)),
        _ => None,
    };
    let count = if count.is_given() { by_variant(&count, ToString::to_string) } else { "1".to_owned() };
    let mut words = vec![format!("{count} × {name}")];
    words.extend(size.filter(|size| !size.is_empty()));
    if number.is_given() {
        words.push(format!("number {}", by_variant(&number, Clone::clone)));
    }
    let new = by_variant(&reuse, |reuse| match reuse.as_str() {
        "never" => "new each time".to_owned(),
        "inspect" => "used again if it passes".to_owned(),
        _ => "used again".to_owned(),
    });
    words.extend((!new.is_empty()).then_some(new));
    let origin = by_variant(&from, |from| match from.as_str() {
        "order" => "bought separately".to_owned(),
        "stock" => "from stock".to_owned(),
        kit => format!("from {}", scope.entry(|lists| &lists.kits, kit).map_or(kit, |entry| entry.name.as_str())),
    });
    let kit = kit_of(scope, id);
    words.extend(if origin.is_empty() { kit.map(|kit| format!("from {}", kit.name)) } else { Some(origin) });
    let own = match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(id).map(|fastener| &fastener.what.got),
        ListKind::Seals => lists.seals.get(id).map(|seal| &seal.what.got),
        ListKind::Bearings => lists.bearings.get(id).map(|bearing| &bearing.what.got),
        ListKind::Parts => lists.parts.get(id).map(|part| &part.what.got),
        _ => None,
    };
    let got = own.filter(|got| got.is_given()).or_else(|| kit.map(|kit| &kit.what.got)).map(|got| by_variant(got, |got| got_words(got).to_owned()));
    words.extend(got.filter(|got| !got.is_empty()));
    words.join(", ")
}

/// The kit that holds a thing.
fn kit_of<'m>(scope: Scope<'m>, id: &str) -> Option<&'m Entry<Kit>> {
    let holds = |kit: &Kit| kit.holds.iter().any(|(thing, _)| thing.value == id);
    scope.homes().flat_map(|(_, lists)| lists.kits.values()).find(|entry| holds(&entry.what))
}

/// `Click torque wrench 5–25 N·m, lent to us`.
fn with_origin(name: &str, got: Option<&Varied<String>>) -> String {
    match got.filter(|got| got.is_given()) {
        Some(got) => format!("{name}, {}", by_variant(got, |got| got_words(got).to_owned())),
        None => name.to_owned(),
    }
}

/// How something was come by. Who was given a part says so.
fn got_words(got: &str) -> &str {
    match got {
        "given" => "given to us",
        "lent" => "lent to us",
        bought => bought,
    }
}

/// A value, by variant where it differs.
pub(super) fn by_variant<T>(value: &Varied<T>, words: impl Fn(&T) -> String) -> String {
    let label = |when: &Combination, text: String| if when.is_always() { text } else { format!("{}: {text}", when.words()) };
    value.cases.iter().map(|case| label(&case.when, words(&case.value))).collect::<Vec<_>>().join(" / ")
}
