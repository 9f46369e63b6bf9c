//! The values of a record: those that a bulletin changed since, the sheet they were read from, readings against their limits.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, BacklashAt, Build, BuildWork, Case, Change, Combination, Date, Deviation, Fingerprint, History, Home, ListKind, Lists, Measure, Procedure, Scope, ThingRef, Tick, Varied, Verb, sheet_variants};
use crate::quantity::{Exact, Form, Quantity};
use crate::trade::backlash::BacklashRadii;
use std::borrow::Cow;
use std::collections::BTreeSet;

/// A build was done by a value that has changed since.
pub(in crate::inspect) static BULLETIN_AFFECTS_BUILD: Rule = Rule {
    name: "bulletin-affects-build",
    severity: Severity::Warning,
    summary: "A machine was built by a value that a change line has changed since.",
    explanation: Explanation {
        finds: "Ticks and readings of a build record whose value differs from the value now, where a change line says that it changed. A warning where the thing is critical:, a note otherwise. What a record says never keeps a bulletin from being published.",
        matters: "Somebody runs this machine with the old value in it. He has to be told, and to decide with the maker's data whether it is opened again.",
        may_be_wrong: "When the machine was put right since and nobody wrote it down: tick it again in a new record, or add a deviation that says so.",
        example: "the record: torque:pinion-nut, 70 N·m; the manual: torque: 78 N·m, changes: [{revision: 4, of: pinion-nut.torque, was: 70 N·m, …}]",
        instead: "\"deviations\": [{\"procedure\": \"pinion-height\", \"step\": \"tighten\", \"of\": \"pinion-nut\", \"what\": \"tightened again to 78 N·m\", …}]",
    },
};

/// A record was made by a sheet that is not current any more.
pub(in crate::inspect) static STATE_PRINT_STALE: Rule = Rule {
    name: "state-print-stale",
    severity: Severity::Warning,
    summary: "Work goes on, or was done, by a sheet with values that are not the current ones.",
    explanation: Explanation {
        finds: "Work in a build record whose sheet has another fingerprint than every sheet of that procedure and variant has now. A warning while the work is not finished, a note when it is. Where a change line tells of a value that was used, bulletin-affects-build names it; a value that was changed without one is not named there.",
        matters: "The rest of the work would be done by old values. A new sheet costs a minute.",
        may_be_wrong: "When the change bears on steps that are done: look at the sheet's own page, which names what changed.",
        example: "\"pinion-height\": {\"revision\": 3, \"fingerprint\": \"7K3M-Q0ZT-91XA\", \"finished\": null, …}",
        instead: "Print the sheet again, carry the ticks over, and go on with that.",
    },
};

/// A reading is outside its limit, and nobody answers for it.
pub(in crate::inspect) static READING_OUT_OF_LIMIT: Rule = Rule {
    name: "reading-out-of-limit",
    severity: Severity::Warning,
    summary: "A recorded reading is outside the limit, and no deviation answers for it.",
    explanation: Explanation {
        finds: "Readings of a build record outside the limit: of their measure now or, where it has none, outside its spec:, and what a test showed outside its expect:, without a deviation for that measure, test or step.",
        matters: "The part was condemned by the manual and went in all the same, or the reading was written down wrong. Either is to be known before the machine runs.",
        may_be_wrong: "When the limit was changed since: the page of the build says by which revision it was read.",
        example: "{\"step\": \"depth\", \"act\": \"measure:ring-gap\", \"number\": 1, \"value\": \"0.70 mm\"}   limit: max 0.60 mm",
        instead: "\"deviations\": [{\"procedure\": \"rings\", \"step\": \"gap\", \"of\": \"ring-gap\", \"what\": \"0.70 mm left in\", \"because\": …, \"by\": …}]",
    },
};

/// A reading can't be read.
pub(in crate::inspect) static READING_UNCLEAR: Rule = Rule {
    name: "reading-unclear",
    severity: Severity::Warning,
    summary: "A recorded reading is not a value with a unit of its kind.",
    explanation: Explanation {
        finds: "Readings of a build record without a unit, with a unit of another kind, with a decimal comma, or no value at all.",
        matters: "It can't be judged, today or when the limit changes.",
        may_be_wrong: "When the reading is a remark: write it as a deviation.",
        example: "\"value\": \"0,71\"",
        instead: "\"value\": \"0.71 mm\"",
    },
};

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    let mut found = Vec::new();
    for (work, procedure) in job.work() {
        bulletins(job, work, procedure, &mut found);
        found.extend(stale(job, work, procedure));
        readings(job, work, procedure, &mut found);
    }
    findings.extend(found.into_iter().map(|finding| job.about(finding)));
}

/// A value that changed since work in a record was done by it, and the tick it bears on.
#[derive(Clone, Debug)]
pub struct Affected<'a> {
    /// The newest change line on it.
    pub change: &'a Change,
    /// Every line on it since, oldest first.
    pub lines: Vec<&'a Change>,
    /// The front matter's history that they stand in.
    pub history: &'a History,
    /// The thing it is about.
    pub thing: &'a ThingRef,
    /// What was ticked or read by the old value.
    pub tick: &'a Tick,
    /// The value now, as written; none where the field is gone.
    pub now: Option<&'a str>,
    /// Whether the thing is critical.
    pub critical: bool,
    /// The day the change was made, where the manual still tells: that of its newest revision.
    pub since: Option<&'a Date>,
}

impl<'a> Affected<'a> {
    /// The deviation that answers for the change: it names the thing and was written when the change was there. What was
    /// written down before, of whatever about the thing, is no answer to a value that nobody knew.
    #[must_use]
    pub fn answer(&self, build: &'a Build, procedure: &str) -> Option<&'a Deviation> {
        let known = self.since.copied().or_else(|| self.tick.at.as_ref().map(|at| at.value.day()));
        build.deviations_of(procedure, &self.tick.step.value, Some(&self.thing.id)).find(|deviation| {
            let written = deviation.at.as_ref().map(|at| at.value.day());
            deviation.of.is_some() && written.zip(known).is_some_and(|(written, known)| written >= known)
        })
    }
}

/// The values that changed since the work of one procedure in a record was done by them, each told once.
#[must_use]
pub fn affected<'a>(scope: Scope<'a>, work: &'a BuildWork, known: &Combination) -> Vec<Affected<'a>> {
    let Some((machine, procedure)) = scope.machine.zip(scope.procedure) else { return Vec::new() };
    let mut found: Vec<Affected<'a>> = Vec::new();
    let done = work.ticks.iter().map(|tick| (tick, tick.number)).chain(work.readings.iter().map(|tick| (tick, 1)));
    for (tick, number) in done {
        let Some((_, act)) = recorded_act(procedure, tick, number) else { continue };
        for thing in &act.things {
            let own = Home::Procedure(procedure.id.clone());
            let history: Option<&History> = match &thing.home {
                home if *home == own => Some(&procedure.history),
                Home::Machine => Some(&machine.history),
                _ => None,
            };
            let Some((history, lists)) = history.zip(scope.lists_of(thing)) else { continue };
            for change in &history.changes {
                let of = change.of.value.as_str();
                let Some(field) = of.strip_prefix(thing.id.as_str()).and_then(|rest| rest.strip_prefix('.')) else { continue };
                let told = found.iter().any(|known| known.thing.home == thing.home && known.change.of.value == of);
                if told || !bears_on(thing, act.verb, field) {
                    continue;
                }
                let later = |line: &Change| thing.home == own && work.revision.is_some() && line.revision > work.revision;
                let now = value_now(lists, thing, field, known);
                let mut lines = history.lines_on(of, known);
                // What the work was done by is what the first of these lines changed; those behind it changed it further.
                let Some(first) = lines.iter().position(|line| holds(tick, line, now, later(line), known)) else { continue };
                lines.drain(..first);
                let Some(newest) = lines.last().copied() else { continue };
                let since = history.date.as_ref().filter(|_| newest.revision == history.revision);
                found.push(Affected { change: newest, lines, history, thing, tick, now, critical: is_critical(lists, thing), since });
            }
        }
    }
    found
}

/// Whether an act is done by a field's value: a bolt is run up by hand whatever its torque.
fn bears_on(thing: &ThingRef, verb: Option<Verb>, field: &str) -> bool {
    match (thing.kind, field) {
        (ListKind::Fasteners, "torque" | "angle_total" | "order" | "layout" | "threads" | "adapter") => verb == Some(Verb::Torque),
        _ => true,
    }
}

/// Whether a tick was given by the value before a change.
fn holds(tick: &Tick, change: &Change, now: Option<&str>, later: bool, known: &Combination) -> bool {
    let Some(value) = tick.value.as_ref().map(|value| value.value.as_str()) else { return later };
    if now.is_some_and(|now| says(value, now)) {
        return false;
    }
    later || change.was.cases_within(known).any(|was| says(value, &was.value))
}

fn value_now<'l>(lists: &'l Lists, thing: &ThingRef, field: &str, known: &Combination) -> Option<&'l str> {
    let own = || lists.written.iter().filter(|w| w.kind == thing.kind && w.id == thing.id && w.field == field);
    let found = own().find(|w| known.satisfies(&w.when)).or_else(|| own().find(|w| w.when.agrees_with(known)));
    found.map(|written| written.text.as_str())
}

fn is_critical(lists: &Lists, thing: &ThingRef) -> bool {
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(&thing.id).is_some_and(|entry| entry.what.critical),
        ListKind::Parts => lists.parts.get(&thing.id).is_some_and(|entry| entry.what.critical),
        _ => false,
    }
}

/// Whether what stood on a page says a value: the same quantity, or all parts of it among other words.
fn says(page: &str, value: &str) -> bool {
    let folded = |text: &str| text.split(|c: char| c.is_whitespace()).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ");
    let (page, value) = (folded(page), folded(value));
    if page == value {
        return true;
    }
    if let (Ok(one), Ok(other)) = (Quantity::parse_free(&page), Quantity::parse_free(&value)) {
        return one.same_value(&other);
    }
    let parts: Vec<&str> = value.trim_matches(['[', ']']).split(", ").map(|part| part.trim_matches(['\'', '"'])).collect();
    parts.iter().all(|part| !part.is_empty() && stands_in(&page, part))
}

/// Whether a text stands in another as a whole: `8 N·m` does not stand in `78 N·m`.
fn stands_in(page: &str, part: &str) -> bool {
    page.match_indices(part).any(|(at, _)| {
        let before = page.get(..at).and_then(|text| text.chars().next_back());
        let behind = page.get(at + part.len()..).and_then(|text| text.chars().next());
        let joins = |sign: Option<char>| sign.is_some_and(|sign| sign.is_alphanumeric() || matches!(sign, '.' | ',' | '–' | '-' | '·'));
        !joins(before) && !joins(behind.filter(|sign| !matches!(sign, ',' | '.')))
    })
}

fn bulletins(job: &Job<'_>, work: &BuildWork, procedure: &Procedure, found: &mut Vec<Finding>) {
    let scope = job.scope(procedure);
    for hit in affected(scope, work, job.known) {
        if hit.answer(job.build, &procedure.id).is_some() {
            continue;
        }
        let then = hit.tick.value.as_ref().map_or_else(|| "not written down".to_owned(), |value| value.value.clone());
        let was: Vec<String> = hit.lines.iter().filter_map(|line| line.was_for(job.known)).collect();
        let place = hit.tick.value.as_ref().map_or_else(|| hit.tick.act.place.clone(), |value| value.place.clone());
        let number = hit.change.revision.map_or_else(String::new, |revision| format!(" in revision {revision}"));
        let finding = Finding::new(
            &BULLETIN_AFFECTS_BUILD,
            place,
            format!("{} was built by a value of {} that has changed since{number}", job.name(), hit.change.of.value),
        )
        .severity(if hit.critical { Severity::Warning } else { Severity::Note })
        .label("as recorded")
        .figure(format!("{} {}, step {}", job.machine.name, hit.tick.act.value, hit.tick.step.value))
        .figure(format!("recorded: {then}"))
        .figures((!was.is_empty()).then(|| format!("it was: {}", was.join(", then "))))
        .figure(format!("it is: {}", hit.now.unwrap_or("no longer given")))
        .fix("tell whoever has the machine; when it is put right, tick it in a new record or write a deviation");
        found.push(hit.lines.iter().fold(finding, |finding, line| finding.related(line.of.place.clone(), "the change line")));
    }
}

/// Whether work was done by a sheet that no current sheet of its procedure and variant is.
#[must_use]
pub fn is_stale(scope: Scope<'_>, manual: &crate::manual::Manual, work: &BuildWork, known: &Combination) -> bool {
    let Some((machine, procedure)) = scope.machine.zip(scope.procedure) else { return false };
    let Some(paper) = &work.fingerprint else { return false };
    let current = sheet_variants(manual, machine, procedure);
    let mut possible = current.iter().filter(|sheet| sheet.agrees_with(known));
    !possible.any(|sheet| Fingerprint::of(manual, machine, procedure, sheet) == paper.value)
}

fn stale(job: &Job<'_>, work: &BuildWork, procedure: &Procedure) -> Option<Finding> {
    let paper = work.fingerprint.as_ref()?;
    if !is_stale(job.scope(procedure), job.manual, work, job.known) {
        return None;
    }
    let revision = |revision: Option<u64>| revision.map_or_else(|| "none".to_owned(), |revision| revision.to_string());
    let finding = Finding::new(&STATE_PRINT_STALE, paper.place.clone(), format!("{}: the sheet of ‘{}’ is not the current one", job.name(), procedure.title))
        .label("of another state")
        .figure(format!("revision {} then, {} now", revision(work.revision), revision(procedure.history.revision)));
    let later = procedure.history.revision > work.revision;
    // The fingerprint is of the values that stand on the sheet, of whichever list: the revision of the procedure tells only of its own.
    let why = if later { "look in the change lines since then for what changed" } else { "a value on it was changed without a revision or a change line, or stands in a list with a revision of its own" };
    Some(if work.finished.is_some() {
        finding.severity(Severity::Note).fix(format!("{why}; the work is done: hold its values against those of today"))
    } else {
        finding.fix(format!("{why}; print the sheet again, carry the ticks over, and go on with that"))
    })
}

/// How a reading stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within the spec.
    Good,
    /// Within the limit, where no spec is given, or one bare value to aim at, which is no band to fall out of.
    WithinLimit,
    /// Outside the spec and within the limit.
    Worn,
    /// Off the one bare value that is given: no tolerance and no limit says whether that is much.
    OffValue,
    /// Outside the limit, or outside the spec where there is no limit.
    Out,
    /// Nothing says what it should be.
    NotJudged,
}

/// Judges a reading by its measure, in the variants that are known. Where several values may hold, by each of them: good
/// is what is good by all.
#[must_use]
pub fn judge(measure: &Measure, reading: &Quantity, known: &Combination) -> Verdict {
    let specs: Vec<&Quantity> = measure.spec.cases_within(known).map(|case| &case.value).collect();
    let limits: Vec<&Quantity> = measure.limit.cases_within(known).map(|case| &case.value).collect();
    if specs.is_empty() && limits.is_empty() {
        return Verdict::NotJudged;
    }
    let (in_spec, in_limit) = match radii_of(measure, known) {
        Some(radii) => {
            let good = |band: &&Quantity| at_gear_within(radii, reading, band) == Some(true);
            (specs.iter().all(good), limits.iter().all(good))
        }
        None => (
            specs.iter().all(|spec| reading.lies_within(spec) == Some(true)),
            limits.iter().all(|limit| within_limit(reading, limit, specs.first().copied())),
        ),
    };
    let without_band = specs.iter().all(|spec| matches!(spec.form(), Form::Single(_)));
    match (in_spec, in_limit, limits.is_empty()) {
        (_, false, _) => Verdict::Out,
        (true, true, false) if specs.is_empty() => Verdict::WithinLimit,
        (true, true, _) => Verdict::Good,
        (false, true, true) if without_band => Verdict::OffValue,
        (false, true, true) => Verdict::Out,
        (false, true, false) if without_band => Verdict::WithinLimit,
        (false, true, false) => Verdict::Worn,
    }
}

/// What a dial that sits at another radius than the teeth has read, at the teeth: from least to most, mm. None where the
/// reading is held against its band as it is.
#[must_use]
pub fn at_the_teeth(measure: &Measure, reading: &Quantity, known: &Combination) -> Option<(f64, f64)> {
    let radii = radii_of(measure, known)?;
    let (low, high) = reading.low_high();
    Some((radii.at_gear_mm(low?)?, radii.at_gear_mm(high?)?))
}

/// What a reading of a record is held against.
pub struct Judged<'m> {
    /// What was read: the measure's name, or a test's with the name of the value.
    pub name: String,
    /// The id of the measure or the test.
    pub id: &'m str,
    /// Where that stands.
    pub place: &'m Place,
    /// Its spec and its limit; a test's value is a spec.
    pub measure: Cow<'m, Measure>,
}

/// What the reading of this number at an act is held against; none where nothing is to be read there.
#[must_use]
pub fn judged<'m>(scope: Scope<'m>, act: &'m Act, number: u64, known: &Combination) -> Option<Judged<'m>> {
    let thing = act.thing()?;
    match act.verb? {
        Verb::Measure => {
            let entry = scope.thing(|l| &l.measures, thing)?;
            Some(Judged { name: entry.name.clone(), id: &entry.id, place: &entry.id_place, measure: Cow::Borrowed(&entry.what) })
        }
        Verb::Test => {
            let entry = scope.thing(|l| &l.tests, thing)?;
            let mut cases = entry.what.expect.cases_within(known);
            // Where several may hold, the sheet has asked for none of them by name.
            let case = cases.next().filter(|_| cases.next().is_none())?;
            let (name, quantity) = case.value.shown().nth(usize::try_from(number.checked_sub(1)?).ok()?)?;
            let spec = Varied { cases: vec![Case { when: Combination::default(), value: quantity.clone(), place: case.place.clone() }] };
            Some(Judged { name: format!("{}, {name}", entry.name), id: &entry.id, place: &entry.id_place, measure: Cow::Owned(Measure { spec, ..Measure::default() }) })
        }
        _ => None,
    }
}

fn radii_of(measure: &Measure, known: &Combination) -> Option<BacklashRadii> {
    measure.at.cases_within(known).next().and_then(|case| radii(&case.value))
}

fn radii(at: &BacklashAt) -> Option<BacklashRadii> {
    let radius = |quantity: &Option<Quantity>| quantity.as_ref().and_then(Quantity::nominal);
    Some(BacklashRadii { gear_mm: radius(&at.gear_radius)?, dial_mm: radius(&at.dial_radius)? })
}

/// What the dial reads is a backlash at the dial; the band is one at the teeth.
fn at_gear_within(radii: BacklashRadii, reading: &Quantity, band: &Quantity) -> Option<bool> {
    /// Less than any dial shows, mm.
    const HAIR: f64 = 1e-6;
    let ends = reading.low_high();
    let (low, high) = (radii.at_gear_mm(ends.0?)?, radii.at_gear_mm(ends.1?)?);
    let (least, most) = band.low_high();
    Some(least.is_none_or(|least| low >= least - HAIR) && most.is_none_or(|most| high <= most + HAIR))
}

/// A limit written as one bare value is a limit on the side of the spec where it lies; without a spec it is the most.
fn within_limit(reading: &Quantity, limit: &Quantity, spec: Option<&Quantity>) -> bool {
    if !matches!(limit.form(), Form::Single(_)) {
        return reading.lies_within(limit) == Some(true);
    }
    let ((low, high), (edge, _)) = (reading.exact_low_high(), limit.exact_low_high());
    let Some(edge) = edge.filter(|_| limit.dimension() == reading.dimension()) else { return false };
    let below_spec = spec.and_then(|spec| spec.exact_low_high().0).is_some_and(|least: Exact| edge < least);
    if below_spec { low.is_some_and(|low| low >= edge) } else { high.is_some_and(|high| high <= edge) }
}

fn readings(job: &Job<'_>, work: &BuildWork, procedure: &Procedure, found: &mut Vec<Finding>) {
    let scope = job.scope(procedure);
    let mut told: BTreeSet<(&str, &str, u64)> = BTreeSet::new();
    for reading in &work.readings {
        let Some((step, act)) = recorded_act(procedure, reading, 1) else { continue };
        let Some(Judged { name, id, place, measure }) = judged(scope, act, reading.number, job.known) else { continue };
        let Some(value) = &reading.value else { continue };
        if !told.insert((&reading.step.value, &reading.act.value, reading.number)) {
            continue;
        }
        let wanted = measure.spec.first().or_else(|| measure.limit.first()).map(Quantity::dimension);
        let read = match wanted {
            Some(dimension) => Quantity::parse(&value.value, dimension),
            None => Quantity::parse_free(&value.value),
        };
        let quantity = match read {
            Ok(quantity) => quantity,
            Err(error) => {
                found.push(
                    Finding::new(&READING_UNCLEAR, value.place.clone(), format!("{name}: {}", error.message()))
                        .label("can't be judged")
                        .figures(error.figures())
                        .fix("write number and unit as the instrument shows them: 0.71 mm"),
                );
                continue;
            }
        };
        let verdict = judge(&measure, &quantity, job.known);
        if !matches!(verdict, Verdict::Out | Verdict::OffValue) || job.build.deviation(&procedure.id, &step.id, Some(id)).is_some() {
            continue;
        }
        let shown = |name: &str, values: Vec<&str>| (!values.is_empty()).then(|| format!("{name} {}", values.join(" or ")));
        found.push(
            Finding::new(&READING_OUT_OF_LIMIT, value.place.clone(), format!("{}: {name} reads {}, and nobody answers for it", job.name(), value.value))
                .label("outside")
                .related(place.clone(), "what it should read")
                .figures(shown("spec", measure.spec.cases_within(job.known).map(|case| case.value.written()).collect()))
                .figures(shown("limit", measure.limit.cases_within(job.known).map(|case| case.value.written()).collect()))
                .fix("read it again; if it stays, do what the procedure says then, or write a deviation with reason and person"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::FileTable;
    use crate::quantity::Dimension;

    #[test]
    fn a_page_says_a_value_in_any_spelling_and_among_other_words() {
        for (page, value) in [
            ("78 N·m", "78 N·m"),
            ("78\u{a0}N·m", "78.0 Nm"),
            ("78 N·m (57.5 lbf·ft)", "78 N·m"),
            ("57.5 lbf·ft [78 N·m]", "78 N·m"),
            ("stage 1 20 N·m stage 2 38 N·m stage 3 90°", "[20 N·m, 38 N·m, 90°]"),
            ("medium-locker", "medium-locker"),
        ] {
            assert!(says(page, value), "{page} | {value}");
        }
        for (page, value) in [
            ("78 N·m", "8 N·m"),
            ("70 N·m", "78 N·m"),
            ("178 N·m (131 lbf·ft)", "78 N·m"),
            ("0.71 mm wide", "71 mm"),
            ("20 N·m, 38 N·m", "[20 N·m, 38 N·m, 90°]"),
            ("", "78 N·m"),
        ] {
            assert!(!says(page, value), "{page} | {value}");
        }
    }

    #[test]
    fn readings_are_judged_by_spec_and_limit() {
        let place = Place::whole_file(FileTable::default().add("m", ""));
        let of = |text: &str| match text {
            "" => Varied::default(),
            text => Varied { cases: vec![Case { when: Combination::default(), value: Quantity::parse(text, Dimension::Length).unwrap(), place: place.clone() }] },
        };
        for (spec, limit, reading, verdict) in [
            ("0.20–0.32 mm", "max 0.60 mm", "0.20 mm", Verdict::Good),
            ("0.20–0.32 mm", "max 0.60 mm", "0.60 mm", Verdict::Worn),
            ("0.20–0.32 mm", "max 0.60 mm", "0.61 mm", Verdict::Out),
            ("0.20–0.32 mm", "0.60 mm", "0.50 mm", Verdict::Worn),
            ("0.20–0.32 mm", "0.60 mm", "0.61 mm", Verdict::Out),
            ("29.95–30.00 mm", "29.90 mm", "29.92 mm", Verdict::Worn),
            ("29.95–30.00 mm", "29.90 mm", "29.89 mm", Verdict::Out),
            ("0.20–0.32 mm", "", "0.33 mm", Verdict::Out),
            ("0.20–0.32 mm", "", "0.012 in", Verdict::Good),
            ("", "max 0.05 mm", "0.05 mm", Verdict::WithinLimit),
            ("", "max 0.05 mm", "0.06 mm", Verdict::Out),
            ("33.0 mm", "min 32.2 mm", "33.0 mm", Verdict::Good),
            ("33.0 mm", "min 32.2 mm", "33.01 mm", Verdict::WithinLimit),
            ("33.0 mm", "min 32.2 mm", "32.1 mm", Verdict::Out),
            ("33.0 mm", "", "33.01 mm", Verdict::OffValue),
            ("33.0 ± 0.1 mm", "min 32.2 mm", "32.8 mm", Verdict::Worn),
            ("", "", "0.05 mm", Verdict::NotJudged),
        ] {
            let measure = Measure { spec: of(spec), limit: of(limit), ..Measure::default() };
            let reading = Quantity::parse(reading, Dimension::Length).unwrap();
            assert_eq!(judge(&measure, &reading, &Combination::default()), verdict, "{spec} | {limit} | {}", reading.written());
        }
    }
}
