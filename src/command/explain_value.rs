//! `explain` of a value: where it stands and comes from, what is reckoned from it, who uses it, when it changed.
//! The words are plausible, consistent, sourced; never correct.

use super::work::Work;
use crate::finding::{Place, nearest, visible};
use crate::inspect::{Screening, is_unsourced, torque_accounts};
use crate::manual::{Combination, ListKind, Lists, Machine, Manual, Procedure, Scope, ThingRef, WrittenValue};
use crate::trade::screening::Standing;
use std::io::{self, Write};

impl Home<'_> {
    /// Its name, as a bulletin prints it: `shop`, `tarn-18`, `tarn-18/close-gearcase`.
    fn name(&self) -> String {
        let machine = self.machine.map_or("shop", |machine| machine.id.as_str());
        self.procedure.map_or_else(|| machine.to_owned(), |procedure| format!("{machine}/{}", procedure.id))
    }

    /// Whether somebody who writes `asked` before a name may mean it: its own name, its machine's, or its procedure's alone.
    fn is(&self, asked: &str) -> bool {
        let own = |id: Option<&str>| id == Some(asked);
        self.name() == asked || own(self.machine.map(|machine| machine.id.as_str())) || own(self.procedure.map(|procedure| procedure.id.as_str()))
    }
}

/// What the end of every account says.
const CAUTION: &str = "Plausible, consistent and sourced is all that can be told here. The maker's service data decide.";

/// One front matter in which a thing may have its home.
struct Home<'a> {
    machine: Option<&'a Machine>,
    procedure: Option<&'a Procedure>,
    lists: &'a Lists,
    scope: Scope<'a>,
}

/// A name as somebody wrote it: where it stands, where that is said, its id, its field.
fn parts(name: &str) -> (Option<&str>, &str, Option<&str>) {
    let (home, rest) = name.rsplit_once('/').map_or((None, name), |(home, rest)| (Some(home), rest));
    let (id, field) = rest.split_once('.').map_or((rest, None), |(id, field)| (id, Some(field)));
    // A bulletin writes `ID.*` for the whole of it.
    (home, id, field.filter(|field| *field != "*"))
}

/// Tells of every value that `name` may mean: `ID` or `ID.field`, with `MACHINE/` or `MACHINE/PROCEDURE/` before it where it is
/// to be that one. `false` where it means none.
pub(super) fn tell(work: &Work, name: &str, out: &mut dyn Write) -> io::Result<bool> {
    let (asked, id, field) = parts(name);
    let mut told = false;
    for home in homes(&work.manual).into_iter().filter(|home| asked.is_none_or(|asked| home.is(asked))) {
        for kind in ListKind::ALL {
            let values: Vec<&WrittenValue> =
                home.lists.written.iter().filter(|v| v.kind == *kind && v.id == id && field.is_none_or(|field| v.field == field)).collect();
            if values.is_empty() {
                continue;
            }
            if told {
                writeln!(out)?;
            }
            Account { work, home: &home, kind: *kind, id, out }.tell(&values)?;
            told = true;
        }
    }
    if told {
        writeln!(out, "\n{CAUTION}")?;
    }
    Ok(told)
}

/// The name that comes nearest to one that means nothing: another id, or another field of the same one; a full name stays one.
pub(super) fn near(manual: &Manual, name: &str) -> Option<String> {
    let (asked, id, field) = parts(name);
    let homes = homes(manual);
    let written = || homes.iter().filter(|home| asked.is_none_or(|asked| home.is(asked))).flat_map(|home| &home.lists.written);
    let full = |rest: String| asked.map_or_else(|| rest.clone(), |asked| format!("{asked}/{rest}"));
    if written().any(|value| value.id == id) {
        let fields = written().filter(|value| value.id == id).map(|value| value.field);
        return Some(full(nearest(field?, fields).map_or_else(|| id.to_owned(), |near| format!("{id}.{near}"))));
    }
    if let Some(near) = nearest(id, written().map(|value| value.id.as_str())) {
        return Some(full(field.map_or_else(|| near.to_owned(), |field| format!("{near}.{field}"))));
    }
    let names: Vec<String> = homes.iter().map(Home::name).collect();
    let near = asked.and_then(|asked| nearest(asked, names.iter().map(String::as_str)))?;
    Some(format!("{near}/{}", name.rsplit('/').next().unwrap_or(name)))
}

fn homes(manual: &Manual) -> Vec<Home<'_>> {
    let shop = Scope { shop: &manual.shop, machine: None, procedure: None };
    let mut homes = vec![Home { machine: None, procedure: None, lists: &manual.shop, scope: shop }];
    for machine in &manual.machines {
        homes.push(Home { machine: Some(machine), procedure: None, lists: &machine.lists, scope: manual.machine_scope(machine) });
        for procedure in &machine.procedures {
            let scope = manual.scope(machine, procedure);
            homes.push(Home { machine: Some(machine), procedure: Some(procedure), lists: &procedure.lists, scope });
        }
    }
    homes
}

/// The account of one entry's values.
struct Account<'a, 'w> {
    work: &'a Work,
    home: &'a Home<'a>,
    kind: ListKind,
    id: &'a str,
    out: &'w mut dyn Write,
}

impl Account<'_, '_> {
    fn tell(&mut self, values: &[&WrittenValue]) -> io::Result<()> {
        let name = self.home.lists.head(self.kind, self.id).map_or(self.id, |head| head.name);
        let of = self.home.machine.map_or_else(|| "the shop".to_owned(), |machine| machine.name.clone());
        writeln!(self.out, "{} ({} of {})", visible(name), self.kind.one(), visible(&of))?;
        // The name stands above, the source below with all that is known of it.
        for value in values.iter().filter(|value| !matches!(value.field, "name" | "source" | "sources" | "decided")) {
            let when = if value.when.is_always() { String::new() } else { format!(" ({})", value.when.words()) };
            let spot = self.spot(&value.place);
            self.line(value.field, &format!("{}{when}   {spot}", value.text))?;
        }
        self.source()?;
        if self.kind == ListKind::Fasteners && values.iter().any(|value| value.field == "torque") {
            self.torque()?;
        }
        self.uses()?;
        self.changes()?;
        self.waivers()
    }

    fn line(&mut self, label: &str, words: &str) -> io::Result<()> {
        writeln!(self.out, "  {label:<15} {}", visible(words))
    }

    fn spot(&self, place: &Place) -> String {
        let files = &self.work.sources.files;
        let position = files.position(place.file, place.start);
        format!("{}:{}:{}", files.name(place.file), position.line, position.column)
    }

    fn source(&mut self) -> io::Result<()> {
        if is_unsourced(self.home.lists, self.kind, self.id) {
            return self.line("source", "unsourced");
        }
        let Some(source) = self.home.lists.source(self.kind, self.id) else { return Ok(()) };
        for case in &source.cases {
            let words = labelled(&case.when, &self.source_words(&case.value));
            self.line("source", &words)?;
        }
        let Some(claims) = self.home.lists.claims(self.kind, self.id) else { return Ok(()) };
        let title = |id: &str| self.home.scope.entry(|l| &l.sources, id).map_or_else(|| id.to_owned(), |entry| entry.what.title.clone());
        for claim in &claims.said {
            self.line("source says", &format!("{}: {}", title(&claim.source.value), claim.says.value))?;
        }
        let Some(decided) = &claims.decided else { return Ok(()) };
        self.line("decided for", &format!("{}: {}", title(&decided.source.value), decided.because.as_deref().unwrap_or("no reason given")))
    }

    /// A source with all that is known of it; its id where it is not listed.
    fn source_words(&self, id: &str) -> String {
        let Some(entry) = self.home.scope.entry(|l| &l.sources, id) else { return id.to_owned() };
        let what = &entry.what;
        let person = |label: &str, id: Option<&str>| Some(format!("{label} {}", self.person(id?)));
        let parts = [
            Some(what.title.clone()),
            what.page.as_ref().map(|page| format!("page {page}")),
            what.kind.clone(),
            what.date.map(|date| date.to_string()),
            person("by", what.by.as_ref().map(|id| id.value.as_str())),
            person("read by", what.read_by.as_ref().map(|id| id.value.as_str())),
        ];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    fn person(&self, id: &str) -> String {
        self.home.scope.entry(|l| &l.people, id).map_or_else(|| id.to_owned(), |entry| entry.name.clone())
    }

    fn torque(&mut self) -> io::Result<()> {
        let Some(entry) = self.home.lists.fasteners.get(self.id) else { return Ok(()) };
        for account in torque_accounts(self.home.scope, entry, &entry.only) {
            let when = &account.case.when;
            if let Some(screening) = &account.screening {
                self.line("threads", &labelled(when, &condition(screening)))?;
                self.line("preload", &labelled(when, &preload(screening)))?;
                self.line("share of proof", &labelled(when, &share(screening)))?;
            }
            for setting in &account.settings {
                let shown = setting.shown().map_or_else(|| setting.torque.written().to_owned(), |quantity| quantity.written().to_owned());
                let adapter = if setting.corrected { " with the adapter on" } else { "" };
                let stage = if account.case.value.stages().len() > 1 { format!("stage {}: ", setting.stage) } else { String::new() };
                let words = format!("{stage}{}: set {shown}{adapter}; it may be out by ± {} %", setting.tool.name, setting.deviation * 100.0);
                self.line("wrench", &labelled(when, &words))?;
            }
        }
        Ok(())
    }

    /// Every act on the thing, with its step and line.
    fn uses(&mut self) -> io::Result<()> {
        let mut lines: Vec<String> = Vec::new();
        let machines: Vec<&Machine> = match self.home.machine {
            Some(machine) => vec![machine],
            None => self.work.manual.machines.iter().collect(),
        };
        for machine in machines {
            for procedure in machine.procedures.iter().filter(|p| self.home.procedure.is_none_or(|home| home.id == p.id)) {
                for step in &procedure.steps {
                    let of_this = |thing: &ThingRef| thing.kind == self.kind && thing.id == self.id && self.is_at_home(&thing.home);
                    for act in step.acts.iter().filter(|act| act.things.iter().chain(&act.material).any(of_this)) {
                        let verb = act.verb.map_or("", crate::manual::Verb::word);
                        let spot = self.spot(&act.place);
                        let words = format!("{verb}: in {}, step {} ({})   {spot}", procedure.title, step.number, step.title);
                        lines.push(words);
                    }
                }
            }
        }
        lines.iter().try_for_each(|words| self.line("used", words))
    }

    fn is_at_home(&self, home: &crate::manual::Home) -> bool {
        match (home, self.home.machine, self.home.procedure) {
            (crate::manual::Home::Shop, None, _) | (crate::manual::Home::Machine, Some(_), None) => true,
            (crate::manual::Home::Procedure(id), _, Some(procedure)) => *id == procedure.id,
            _ => false,
        }
    }

    fn changes(&mut self) -> io::Result<()> {
        let history = match (self.home.machine, self.home.procedure) {
            (_, Some(procedure)) => &procedure.history,
            (Some(machine), None) => &machine.history,
            (None, None) => &self.work.manual.shop_history,
        };
        for change in history.changes.iter().filter(|change| change.of.value.split('.').next() == Some(self.id)) {
            let revision = change.revision.map_or_else(String::new, |revision| format!("revision {revision}: "));
            let was: Vec<String> = change.was.cases.iter().map(|case| labelled(&case.when, &case.value)).collect();
            let because = change.because.as_ref().map_or_else(String::new, |because| format!(", because {because}"));
            let words = format!("{revision}{} was {}{because}", change.of.value, was.join(", "));
            self.line("changed", &words)?;
            if let Some(source) = &change.source {
                self.line("changed by", &format!("{revision}{}", self.source_words(&source.value)))?;
            }
        }
        Ok(())
    }

    fn waivers(&mut self) -> io::Result<()> {
        for finding in &self.work.report.waived {
            let about = finding.subject().and_then(|subject| subject.split('.').next()) == Some(self.id);
            if let Some(answer) = finding.answer().filter(|_| about) {
                let words = format!("{} ({}): {} ({}, until {})", finding.message(), finding.rule().name, answer.because, answer.by, answer.until);
                self.line("waived", &words)?;
            }
        }
        Ok(())
    }
}

fn labelled(when: &Combination, words: &str) -> String {
    if when.is_always() { words.to_owned() } else { format!("{}: {words}", when.words()) }
}

fn condition(screening: &Screening<'_>) -> String {
    let word = screening.condition.word();
    if screening.condition_assumed { format!("not stated; reckoned as {word}") } else { word.to_owned() }
}

fn preload(screening: &Screening<'_>) -> String {
    let force = screening.preload_n;
    let factor = screening.joint.nut_factor;
    format!(
        "about {:.1} kN ({:.1}–{:.1} kN with a nut factor of {:.2}–{:.2}; F = T/(K·d), common practice)",
        force.mid / 1000.0,
        force.low / 1000.0,
        force.high / 1000.0,
        factor.high,
        factor.low
    )
}

fn share(screening: &Screening<'_>) -> String {
    let share = screening.share;
    let assumed = if screening.class_assumed { ", which nobody states" } else { "" };
    let figures = format!("about {:.0} % ({:.0}–{:.0} %) of class {}{assumed}", share.mid * 100.0, share.low * 100.0, share.high * 100.0, screening.class);
    let role = screening.joint.role;
    let (Some(standing), Some(band)) = (screening.standing, role.band()) else {
        return format!("{figures}; role {} is not screened", role.word());
    };
    let word = match standing {
        Standing::Inside => "plausible",
        Standing::Below => "low",
        Standing::Above => "high",
        Standing::OverProof => "beyond proof",
    };
    format!("{figures}; {word} for role {} (usually {:.0}–{:.0} %)", role.word(), band.low * 100.0, band.high * 100.0)
}
