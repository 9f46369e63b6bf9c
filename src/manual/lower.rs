//! From sources to the model: front matters first, then ids, then the acts of the steps.

use super::lists::{ListKind, Lists};
use super::lower_lists::lists;
use super::model::{Change, History, Machine, Manual, Paper, Procedure, Profile, Step, Waiver};
use super::order::build_order;
use super::read::{Outline, Reader};
use super::reading::{Reading, Record};
use super::rules;
use super::tables::FileKind;
use super::shop::{Correction, Recording};
use super::things::Spot;
use super::varied::{Axis, AxisValue, Combination};
use super::{acts, lower_builds, resolve};
use crate::finding::{FileTable, Finding, Place, nearest};
use crate::quantity::{Dimension, MomentSpan, Quantity, Unit};
use crate::source::{MachineSource, Node, ProcedureSource, Sources, StepText};
use indexmap::IndexMap;
use std::collections::BTreeSet;

/// The edition of the format that is read here.
const EDITION: u64 = 1;

/// Gives meaning to what was read. Never fails: what can't be read is a finding and a hole. Of a manual that is written for a
/// later edition of the format nothing but its head is taken.
#[must_use]
pub fn lower(sources: &Sources) -> (Manual, Vec<Finding>) {
    let (mut manual, mut findings) = lower_frame(sources);
    let machines = if is_too_new(&findings) { &[] } else { sources.machines.as_slice() };
    for source in machines {
        let (machine, more) = lower_machine(&manual, &sources.files, source);
        manual.machines.push(machine);
        findings.extend(more);
    }
    (manual, findings)
}

/// Gives meaning to what all machines share: `manual.yaml` and `shop.yaml`. The manual has no machines then.
#[must_use]
pub fn lower_frame(sources: &Sources) -> (Manual, Vec<Finding>) {
    let mut reader = Reader::new(&sources.files);
    let (mut manual, edition) = head(&mut reader, sources);
    if let Some(edition) = edition.filter(|edition| !(1..=EDITION).contains(&edition.value)) {
        return (manual, vec![too_new(&edition)]);
    }
    let (shop, shop_history) = shop(&mut reader, sources);
    manual.shop = shop;
    manual.shop_history = shop_history;
    let mut findings = reader.findings;
    resolve::check_frame(&manual, &mut findings);
    (manual, findings)
}

/// Whether a manual is written for a later edition of the format: its machines can't be given a meaning then.
#[must_use]
pub fn is_too_new(findings: &[Finding]) -> bool {
    findings.iter().any(|finding| finding.rule().name == rules::FORMAT_TOO_NEW.name)
}

fn too_new(edition: &Spot<u64>) -> Finding {
    Finding::new(
        &rules::FORMAT_TOO_NEW,
        edition.place.clone(),
        format!("this manual is written for edition {} of the format, and this program reads edition {EDITION}", edition.value),
    )
    .label("not known here")
    .fix(format!("take a newer benchleaf, or write ‘format: {EDITION}’ where the number is a slip"))
}

/// Gives meaning to one machine within a manual, whose machines are not looked at.
#[must_use]
pub fn lower_machine(manual: &Manual, files: &FileTable, source: &MachineSource) -> (Machine, Vec<Finding>) {
    let mut reader = Reader::new(files);
    let mut lowered = machine(&mut reader, source);
    let mut findings = reader.findings;
    let acts = acts::resolve(manual, &lowered, &mut findings);
    acts::install(&mut lowered, acts);
    build_order(&mut lowered, &mut findings);
    resolve::check_machine(manual, &lowered, &mut findings);
    (lowered, findings)
}

/// The manual without shop and machines, and the edition of the format it asks for.
fn head(reader: &mut Reader<'_>, sources: &Sources) -> (Manual, Option<Spot<u64>>) {
    let node = &sources.manual.root;
    let anchor = Place::whole_file(sources.manual.file);
    let outline = Outline { tables: &[FileKind::Manual.fields()], others: &[], what: "manual.yaml", anchor: &anchor };
    let record = reader.record(node, &outline);
    let edition = record.spot("format", Reading::count);
    let manual = Manual {
        title: record.text("title").unwrap_or_default(),
        publisher: record.text("publisher").unwrap_or_default(),
        language: record.text("language").unwrap_or_else(|| "en".to_owned()),
        notice: record.text("notice"),
        units: units(reader, &record),
        paper: if record.text("paper").as_deref() == Some("Letter") { Paper::Letter } else { Paper::A4 },
        address: record.text("address"),
        theme: record.spot("theme", Reading::text),
        profile: match record.text("profile").as_deref() {
            Some("working") => Profile::Working,
            Some("published") => Profile::Published,
            _ => Profile::Club,
        },
        waivers: record.first("waivers", |r| Some(r.records().into_iter().filter_map(waiver).collect())).unwrap_or_default(),
        file: sources.manual.file,
        shop: Lists::default(),
        shop_history: History::default(),
        machines: Vec::new(),
        beside: Vec::new(),
    };
    (manual, edition)
}

/// The units shown beside the author's own: the manual's choice, then the usual ones.
fn units(reader: &mut Reader<'_>, record: &Record) -> Vec<&'static Unit> {
    let mut units: Vec<&'static Unit> = Vec::new();
    let chosen = record.first("units", |r| r.record().cloned()).unwrap_or_else(|| Record::empty(record.place.clone()));
    for (key, value) in &chosen.fields {
        for spot in value.first().map(Reading::items).unwrap_or_default() {
            match Unit::find(&spot.value) {
                Some(unit) if dimension_of(key) == Some(unit.dimension()) => units.push(unit),
                _ => reader.report(
                    Finding::new(&rules::UNKNOWN_WORD, spot.place.clone(), format!("‘{}’ is no unit of {key}", spot.value))
                        .label("not known here")
                        .fix(unit_choices(key)),
                ),
            }
        }
    }
    for symbol in ["N·m", "lbf·ft", "N", "lbf", "mm", "in", "°", "°C", "°F", "K", "Δ°F", "mL", "fl oz (US)", "bar", "psi", "kg", "lb"] {
        if let Some(unit) = Unit::find(symbol).filter(|u| !units.iter().any(|known| known.dimension() == u.dimension() && chosen_has(&chosen, known))) {
            units.push(unit);
        }
    }
    units
}

fn chosen_has(chosen: &Record, unit: &Unit) -> bool {
    chosen.fields.iter().any(|(key, _)| dimension_of(key) == Some(unit.dimension()))
}

fn dimension_of(key: &str) -> Option<Dimension> {
    Some(match key {
        "torque" => Dimension::Torque,
        "force" => Dimension::Force,
        "length" => Dimension::Length,
        "angle" => Dimension::Angle,
        "temperature" => Dimension::Temperature,
        "rise" => Dimension::TemperatureRise,
        "volume" => Dimension::Volume,
        "pressure" => Dimension::Pressure,
        "mass" => Dimension::Mass,
        "time" => Dimension::Time,
        "rotation" => Dimension::Rotation,
        _ => return None,
    })
}

fn unit_choices(key: &str) -> String {
    let known: Vec<&str> =
        Unit::all().iter().filter(|unit| dimension_of(key) == Some(unit.dimension())).map(Unit::symbol).collect();
    format!("one of: {}", known.join(", "))
}

fn waiver(record: &Record) -> Option<Waiver> {
    Some(Waiver {
        rule: record.spot("rule", Reading::text)?,
        of: record.spot("of", Reading::text)?,
        because: record.text("because")?,
        by: record.spot("by", Reading::text)?,
        until: record.first("until", Reading::date)?,
    })
}

fn shop(reader: &mut Reader<'_>, sources: &Sources) -> (Lists, History) {
    let Some(file) = &sources.shop else { return (Lists::default(), History::default()) };
    front_matter(reader, FileKind::Shop, &file.root, &Place::whole_file(file.file)).finish(reader)
}

/// A front matter read: its record, and the node its lists are read from.
struct FrontMatter<'n> {
    record: Record,
    node: &'n Node,
    kind: FileKind,
}

impl FrontMatter<'_> {
    fn finish(self, reader: &mut Reader<'_>) -> (Lists, History) {
        (lists(reader, self.node, self.kind), history(&self.record))
    }
}

fn front_matter<'n>(reader: &mut Reader<'_>, kind: FileKind, node: &'n Node, anchor: &Place) -> FrontMatter<'n> {
    let others: Vec<&'static str> = kind.lists().into_iter().map(ListKind::key).collect();
    let what = match kind {
        FileKind::Manual => "manual.yaml",
        FileKind::Shop => "shop.yaml",
        FileKind::Machine => "a machine",
        FileKind::Procedure => "a procedure",
    };
    let record = reader.record(node, &Outline { tables: &[kind.fields()], others: &others, what, anchor });
    FrontMatter { record, node, kind }
}

fn history(record: &Record) -> History {
    History {
        revision: record.first("revision", Reading::count),
        date: record.first("date", Reading::date),
        changes: record.first("changes", |r| Some(r.records().into_iter().filter_map(change).collect())).unwrap_or_default(),
    }
}

fn change(record: &Record) -> Option<Change> {
    let revision = record.spot("revision", Reading::count);
    Some(Change {
        revision: revision.as_ref().map(|spot| spot.value),
        revision_place: revision.map(|spot| spot.place),
        of: record.spot("of", Reading::text)?,
        was: record.texts("was"),
        because: record.text("because"),
        source: record.spot("source", Reading::text),
    })
}

fn machine(reader: &mut Reader<'_>, source: &MachineSource) -> Machine {
    let node = &source.head.root;
    let anchor = Place::whole_file(source.head.file);
    reader.axes = axes(reader, node);
    let front = front_matter(reader, FileKind::Machine, node, &anchor);
    let record = front.record.clone();
    let (lists, history) = front.finish(reader);
    let recordings: IndexMap<String, Recording> = record
        .first("recordings", |r| {
            Some(r.named().iter().filter_map(|(id, value)| Some((id.value.clone(), recording(value.value.record()?)))).collect())
        })
        .unwrap_or_default();
    let procedures = source.procedures.iter().map(|p| procedure(reader, p, &recordings)).collect();
    let builds = source.records.iter().filter_map(|record| lower_builds::build(record, &mut reader.findings)).collect();
    Machine {
        builds,
        id: source.id.clone(),
        file: source.head.file,
        name: record.text("name").unwrap_or_else(|| source.id.clone()),
        maker: record.text("maker"),
        kind: record.text("kind"),
        mass: record.quantity("mass"),
        history,
        axes: std::mem::take(&mut reader.axes),
        not_made: record
            .first("not_made", |r| Some(r.list().iter().filter_map(|item| item.value.condition()).collect()))
            .unwrap_or_default(),
        recordings,
        lists,
        procedures,
        doubtful: BTreeSet::new(),
    }
}

/// The axes come first: every other field of the machine may be written by their values.
fn axes(reader: &mut Reader<'_>, node: &Node) -> Vec<Axis> {
    let mut axes: Vec<Axis> = Vec::new();
    for pair in node.get("variants").map(Node::pairs).unwrap_or_default() {
        let mut values = Vec::new();
        for value in pair.node.pairs() {
            if let Some(axis) = axes.iter().find(|axis| axis.values.iter().any(|v| v.name == value.key)) {
                reader.report(
                    Finding::new(&rules::TWO_HOMES, value.key_place.clone(), format!("‘{}’ is a value of {} already", value.key, axis.name))
                        .label("a second time")
                        .fix("give the values of a machine's axes different names: a value names its axis"),
                );
                continue;
            }
            let Some(meaning) = value.node.text() else { continue };
            let quantity = Quantity::parse_free(meaning).ok();
            values.push(AxisValue { name: value.key.clone(), meaning: meaning.to_owned(), quantity, place: value.node.place.clone() });
        }
        axes.push(Axis { name: pair.key.clone(), values, place: pair.key_place.clone() });
    }
    axes
}

fn recording(record: &Record) -> Recording {
    let seconds = |key: &str| record.first(key, Reading::moment).map_or(0, |moment| i64::from(moment.seconds()));
    let shift = seconds("starts_at") - seconds("cut");
    let span = |item: &Spot<Reading>| match item.value {
        Reading::Span(value) => Some(Spot { value: value.shifted(shift)?, place: item.place.clone() }),
        _ => None,
    };
    let correction = |record: &Record| correction(record, shift);
    Recording {
        address: record.text("address"),
        shift,
        title: record.text("title"),
        length: record.first("length", Reading::moment),
        silent: record.first("silent", |r| Some(r.list().iter().filter_map(span).collect())).unwrap_or_default(),
        corrections: record
            .first("corrections", |r| Some(r.records().into_iter().filter_map(correction).collect()))
            .unwrap_or_default(),
    }
}

fn correction(record: &Record, shift: i64) -> Option<Correction> {
    let (at, said) = (record.spot("at", Reading::moment), record.spot("said", Reading::text)?);
    Some(Correction {
        at: at.as_ref().and_then(|spot| spot.value.shifted(shift)),
        at_place: at.map(|spot| spot.place),
        said: said.value,
        said_place: said.place,
        of: record.spot("of", Reading::text),
    })
}

fn procedure(reader: &mut Reader<'_>, source: &ProcedureSource, recordings: &IndexMap<String, Recording>) -> Procedure {
    let anchor = Place::whole_file(source.file);
    let front = front_matter(reader, FileKind::Procedure, &source.head, &anchor);
    let record = front.record.clone();
    let (lists, history) = front.finish(reader);
    let film = record.spot("video", |r| Some(r.clone()));
    let recording = film.and_then(|film| film_of(reader, &film, recordings));
    let shift = recording.as_ref().map_or(0, |recording| recording.shift);
    Procedure {
        id: source.id.clone(),
        file: source.file,
        // Without a title it still has to be called something where it is linked.
        title: record.text("title").filter(|title| !title.is_empty()).unwrap_or_else(|| source.id.clone()),
        history,
        time: record.quantity("time"),
        after: record.spots("after"),
        recording,
        lists,
        introduction: source.body.introduction.clone(),
        steps: source.body.steps.iter().enumerate().map(|(index, text)| step(reader, index, text, shift)).collect(),
        footnotes: source.body.footnotes.clone(),
    }
}

fn film_of(reader: &mut Reader<'_>, film: &Spot<Reading>, recordings: &IndexMap<String, Recording>) -> Option<Recording> {
    match &film.value {
        Reading::Map(record) => Some(recording(record)),
        Reading::Text(id) => {
            if let Some(known) = recordings.get(id) {
                return Some(known.clone());
            }
            let near = nearest(id, recordings.keys().map(String::as_str));
            reader.report(
                Finding::new(&rules::UNKNOWN_ID, film.place.clone(), format!("‘{id}’ is no recording of this machine"))
                    .label("not listed")
                    .fix(near.map_or_else(
                        || "list it under recordings: in machine.yaml, or write {address: https://…}".to_owned(),
                        |near| format!("did you mean ‘{near}’?"),
                    )),
            );
            None
        }
        _ => None,
    }
}

fn step(reader: &mut Reader<'_>, index: usize, text: &StepText, shift: i64) -> Step {
    let mut step = Step {
        id: text.id.as_ref().map_or_else(|| format!("step-{}", index + 1), |(id, _)| id.clone()),
        number: index + 1,
        title: text.title.clone(),
        place: text.place.clone(),
        minutes: None,
        at: None,
        only: Combination::default(),
        blocks: text.blocks.clone(),
        acts: text.acts.iter().map(acts::unresolved).collect(),
    };
    for (key, value, place) in &text.attributes {
        match key.as_str() {
            "time" => step.minutes = minutes(reader, value, place),
            // What was cut off a film has no moment in it any more.
            "at" => step.at = moment(reader, value, place).and_then(|at| Some(Spot { value: at.value.shifted(shift)?, place: at.place })),
            "for" => step.only = step_variants(reader, value, place),
            _ => {}
        }
    }
    step
}

fn minutes(reader: &mut Reader<'_>, text: &str, place: &Place) -> Option<f64> {
    // `time=10 min`: the reading stage has found the `min` that stands alone.
    let behind = reader.files.text(place.file).get(place.end..).unwrap_or("");
    let split = behind.starts_with(' ') && !behind.trim_start().starts_with('}') && !behind.split(['}', '\n']).next().unwrap_or("").contains('=');
    if split {
        return None;
    }
    match Quantity::parse(text, Dimension::Time) {
        Ok(time) => time.seconds().map(|seconds| seconds / 60.0),
        Err(error) => {
            reader.report(
                Finding::new(super::quantity_rules::of_quantity(error.name()), place.part(error.span()), error.message())
                    .label(super::quantity_rules::label(error.name()))
                    .figures(error.figures())
                    .fix("write time=10min"),
            );
            None
        }
    }
}

fn moment(reader: &mut Reader<'_>, text: &str, place: &Place) -> Option<Spot<MomentSpan>> {
    let span = match MomentSpan::parse_or_moment(text) {
        Ok(span) => Some(span),
        Err(error) => {
            reader.report(
                Finding::new(&rules::VALUE_OF_ANOTHER_FORM, place.part(error.span()), error.message())
                    .label("not a moment of a recording")
                    .fix(error.fix()),
            );
            None
        }
    };
    span.map(|value| Spot { value, place: place.clone() })
}

/// `shaft-L,start-E`: both must hold.
fn step_variants(reader: &mut Reader<'_>, text: &str, place: &Place) -> Combination {
    let mut combination = Combination::default();
    let mut offset = 0;
    for part in text.split(',') {
        let here = place.part(offset..offset + part.len());
        offset += part.len() + 1;
        let found = reader.axes.iter().find_map(|axis| {
            let value = part.strip_prefix(axis.name.as_str())?.strip_prefix('-')?;
            axis.values.iter().any(|v| v.name == value).then(|| (axis.name.clone(), value.to_owned()))
        });
        if let Some((axis, value)) = found {
            combination.0.insert(axis, value);
            continue;
        }
        let all: Vec<String> =
            reader.axes.iter().flat_map(|a| a.values.iter().map(move |v| format!("{}-{}", a.name, v.name))).collect();
        let near = nearest(part, all.iter().map(String::as_str));
        let fix = near.map_or_else(
            || if all.is_empty() { "this machine has no variants".to_owned() } else { format!("known: {}", all.join(", ")) },
            |near| format!("did you mean ‘{near}’?"),
        );
        reader.report(
            Finding::new(&rules::UNKNOWN_VARIANT, here, format!("‘{part}’ is no variant of this machine")).label("not a variant").fix(fix),
        );
    }
    combination
}
