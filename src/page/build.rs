//! The page of a build: which machine, by whom, on which state of the manual, what was read, signed, done otherwise, left
//! open, and what a bulletin changed since.
//!
//! It shows what the record's file holds and nothing else about people.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::paper_mark;
use super::rows::{Cell, Row, Table};
use super::site::{Scene, Site};
use super::values::{Line, cases, glued, quantity_line, values_glued, varied_text};
use super::words::Arg;
use crate::inspect::{Affected, Verdict, affected, at_the_teeth, is_stale, judge, judged, known_variant, recorded_act};
use crate::manual::{Build, BuildWork, Change, Instant, ListKind, Machine, Measure, Procedure, Spot, Tick};
use crate::quantity::Quantity;
use serde::Serialize;

#[derive(Serialize)]
struct BuildView {
    machine: Detail,
    serial: Option<String>,
    variant: String,
    people: String,
    begun: Option<String>,
    saved: Option<String>,
    /// What a bulletin changed since.
    bulletins: Option<Table>,
    work: Option<Table>,
    readings: Option<Table>,
    /// The shims fitted, and those that the readings ask for.
    shims: Option<Table>,
    signatures: Option<Table>,
    stops: Option<Table>,
    deviations: Option<Table>,
    open: Option<Table>,
}

/// A build as its machine's page lists it.
#[derive(Serialize)]
pub(super) struct BuildRow {
    link: Detail,
    variant: String,
    saved: Option<String>,
    /// How many values have changed since.
    bulletins: u64,
}

/// Makes a build's page.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(build) = machine.builds.get(index) else { return Ok(Default::default()) };
    let path = link::build_path(&machine.id, &build.id);
    let known = known_variant(machine, build);
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &known, at_bench: false };
    let record = Record { scene, build };
    let people: Vec<&str> = build.people.iter().map(|person| person.value.as_str()).collect();
    let view = BuildView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        serial: build.serial.as_ref().map(|serial| serial.value.clone()),
        variant: scene.variant_words(&known),
        people: people.join(", "),
        begun: moment(site, build.begun.as_ref()),
        saved: moment(site, build.saved.as_ref()),
        bulletins: record.bulletins(),
        work: record.work(),
        readings: record.readings(),
        shims: scene.fitted_shims_table(build),
        signatures: record.signatures(),
        stops: record.stops(),
        deviations: record.deviations(),
        open: record.open(),
    };
    let title = name(&scene, build);
    let mut block = site.title_block("kind-build", &title, &format!("{}/builds/{}", machine.id, build.id), None);
    block.machine = Some(view.machine.clone());
    let html = site.document("build.html", site.frame(&path, &title, "build"), block, &view)?;
    Ok((path, html))
}

/// `Tarn 18 no. 4711`; the record's name where it tells no serial number.
fn name(scene: &Scene<'_>, build: &Build) -> String {
    let machine = Arg::Text(&scene.machine.name);
    match &build.serial {
        Some(serial) => scene.say("build-of", &[("machine", machine), ("serial", Arg::Text(&serial.value))]),
        None => scene.say("build-named", &[("machine", machine), ("name", Arg::Text(&build.id))]),
    }
}

fn moment(site: &Site<'_>, spot: Option<&Spot<Instant>>) -> Option<String> {
    spot.map(|spot| site.words.dated(&spot.value.to_string()))
}

fn text(spot: Option<&Spot<String>>) -> Option<String> {
    spot.map(|spot| spot.value.clone())
}

impl Scene<'_> {
    /// The builds of this machine.
    pub(super) fn build_rows(&self) -> Vec<BuildRow> {
        let machine: &Machine = self.machine;
        machine
            .builds
            .iter()
            .map(|build| {
                let known = known_variant(machine, build);
                let scene = Scene { known: &known, ..*self };
                let bulletins = Record { scene, build }.affected().len();
                BuildRow {
                    link: Detail { text: name(self, build), href: Some(self.link(&link::build_path(&machine.id, &build.id))) },
                    variant: self.variant_words(&known),
                    saved: moment(self.site, build.saved.as_ref()),
                    bulletins: super::rows::count(bulletins),
                }
            })
            .collect()
    }
}

impl<'s> Scene<'s> {
    /// What has to be looked at again on a build: values that changed since, that no deviation answers for, critical ones first.
    pub(super) fn rechecks(self, build: &'s Build) -> (String, Vec<Recheck>) {
        let known = known_variant(self.machine, build);
        let scene = Scene { known: &known, ..self };
        let record = Record { scene, build };
        let open = |procedure: &Procedure, hit: &Affected<'_>| hit.answer(build, &procedure.id).is_none();
        let hits = record.affected().into_iter().filter(|(_, procedure, hit)| open(procedure, hit));
        let mut rows: Vec<Recheck> = hits
            .map(|(index, procedure, hit)| Recheck {
                critical: hit.critical,
                what: paper_mark::changed_value(&scene.inside(procedure), hit.change),
                step: scene.step_detail(index, Some(&hit.tick.step.value)),
                recorded: text(hit.tick.value.as_ref()),
                now: hit.now.map(str::to_owned),
                because: scene.reasons(&hit),
            })
            .collect();
        rows.sort_by_key(|row| !row.critical);
        let variant = self.variant_words(&known);
        let name = name(&self, build);
        (if variant.is_empty() { name } else { format!("{name}, {variant}") }, rows)
    }

    /// Why a value changed: one reason, or of several each with what it changed, oldest first.
    fn reasons(self, hit: &Affected<'_>) -> Vec<String> {
        let reason = |line: &Change| line.because.clone();
        if let [only] = hit.lines.as_slice() {
            return reason(only).into_iter().collect();
        }
        let not_there = || self.site.say("change-not-there");
        let told = hit.lines.iter().map(|line| {
            let was = line.was_for(self.known).unwrap_or_else(not_there);
            let now = hit.history.became(line, self.known, hit.now).unwrap_or_else(not_there);
            let because = reason(line).map_or_else(String::new, |because| format!(": {because}"));
            values_glued(&format!("{was} → {now}{because}"))
        });
        told.collect()
    }
}

/// One value to be looked at again on one machine.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Recheck {
    critical: bool,
    what: String,
    step: Option<Detail>,
    recorded: Option<String>,
    now: Option<String>,
    because: Vec<String>,
}

struct Record<'s> {
    scene: Scene<'s>,
    build: &'s Build,
}

impl<'s> Record<'s> {
    /// The work of the procedures that the manual has, with the procedure and its place in the build order.
    fn known_work(&self) -> impl Iterator<Item = (&'s BuildWork, usize, &'s Procedure)> {
        let procedures = &self.scene.machine.procedures;
        self.build.work.iter().filter_map(move |work| {
            let index = procedures.iter().position(|procedure| procedure.id == work.procedure.value)?;
            Some((work, index, procedures.get(index)?))
        })
    }

    fn affected(&self) -> Vec<(usize, &'s Procedure, Affected<'s>)> {
        let manual = self.scene.site.input.manual;
        let found = self.known_work().flat_map(|(work, index, procedure)| {
            let scope = manual.scope(self.scene.machine, procedure);
            affected(scope, work, self.scene.known).into_iter().map(move |hit| (index, procedure, hit))
        });
        found.collect()
    }

    fn bulletins(&self) -> Option<Table> {
        let rows = self.affected().into_iter().map(|(index, procedure, hit)| {
            let scene = self.scene.inside(procedure);
            let then = text(hit.tick.value.as_ref());
            let answer = hit.answer(self.build, &procedure.id).and_then(|deviation| text(deviation.what.as_ref()));
            Row {
                anchor: String::new(),
                head: Cell::text(paper_mark::changed_value(&scene, hit.change)),
                cells: vec![
                    Cell::details(scene.step_detail(index, Some(&hit.tick.step.value)).into_iter().collect()),
                    then.map_or_else(Cell::default, |then| Cell::values(vec![Line::of(then)])),
                    hit.now.map_or_else(Cell::default, |now| Cell::values(vec![Line::of(now)])),
                    Cell::details(scene.reasons(&hit).into_iter().map(Detail::plain).collect()),
                    Cell::text(answer.unwrap_or_else(|| self.scene.site.say(if hit.critical { "build-critical" } else { "build-unanswered" }))),
                ],
            }
        });
        let columns = ["col-value", "col-step", "col-recorded", "col-now", "col-because", "col-answer"];
        self.scene.table("table-bulletins", &columns, rows.collect())
    }

    fn work(&self) -> Option<Table> {
        let manual = self.scene.site.input.manual;
        let rows = self.build.work.iter().map(|work| {
            let index = self.scene.machine.procedures.iter().position(|procedure| procedure.id == work.procedure.value);
            let detail = index.and_then(|index| self.scene.step_detail(index, None)).unwrap_or_else(|| Detail::plain(work.procedure.value.as_str()));
            let procedure = index.and_then(|index| self.scene.machine.procedures.get(index));
            let now = procedure.and_then(|procedure| procedure.history.revision);
            let standing = match procedure {
                None => "build-not-there",
                Some(procedure) if is_stale(manual.scope(self.scene.machine, procedure), manual, work, self.scene.known) => "build-stale",
                Some(_) if work.fingerprint.is_some() => "build-current",
                Some(_) => "build-unmarked",
            };
            Row {
                anchor: String::new(),
                head: Cell::details(vec![detail]),
                cells: vec![
                    Cell::maybe(work.revision.map(|revision| revision.to_string())),
                    Cell::maybe(now.map(|revision| revision.to_string())),
                    Cell::maybe(work.fingerprint.as_ref().map(|fingerprint| fingerprint.value.to_string())),
                    Cell::text(self.scene.site.say(standing)),
                    Cell::maybe(moment(self.scene.site, work.begun.as_ref())),
                    Cell::text(moment(self.scene.site, work.finished.as_ref()).unwrap_or_else(|| self.scene.site.say("build-in-hand"))),
                ],
            }
        });
        let columns = ["col-document", "col-revision", "col-revision-now", "col-fingerprint", "col-sheet", "col-begun", "col-done"];
        self.scene.table("table-work", &columns, rows.collect())
    }

    fn readings(&self) -> Option<Table> {
        let mut rows = Vec::new();
        for (work, index, procedure) in self.known_work() {
            let scene = self.scene.inside(procedure);
            for reading in &work.readings {
                let held = recorded_act(procedure, reading, 1).and_then(|(_, act)| judged(scene.scope(), act, reading.number, scene.known));
                let name = held.as_ref().map_or_else(|| reading.act.value.clone(), |held| held.name.clone());
                let verdict = held.as_ref().map_or_else(Cell::default, |held| scene.verdict(&held.measure, reading));
                let lines = |values: Vec<(Option<String>, &Quantity)>| {
                    let lines = values.into_iter().map(|(label, quantity)| quantity_line(quantity, &scene.site.input.manual.units).labelled(label.as_deref()));
                    Cell::values(lines.collect())
                };
                rows.push(Row {
                    anchor: String::new(),
                    head: Cell::text(name),
                    cells: vec![
                        Cell::details(scene.step_detail(index, Some(&reading.step.value)).into_iter().collect()),
                        Cell::text(reading.number.to_string()),
                        reading.value.as_ref().map_or_else(Cell::default, |value| Cell::values(vec![Line::of(value.value.as_str())])),
                        held.as_ref().map_or_else(Cell::default, |held| {
                            let mut spec = lines(cases(&held.measure.spec, scene.known).collect());
                            spec.lines.extend(scene.dial_line(&held.measure));
                            spec
                        }),
                        held.as_ref().map_or_else(Cell::default, |held| lines(cases(&held.measure.limit, scene.known).collect())),
                        verdict,
                        Cell::maybe(moment(self.scene.site, reading.at.as_ref())),
                    ],
                });
            }
        }
        let columns = ["col-measure", "col-step", "col-reading-number", "col-reading", "col-spec", "col-limit", "col-verdict", "col-when"];
        self.scene.table("table-readings", &columns, rows)
    }

    fn signatures(&self) -> Option<Table> {
        let mut rows = Vec::new();
        for (work, index, procedure) in self.known_work() {
            let scene = self.scene.inside(procedure);
            for signature in &work.signatures {
                let asked = recorded_act(procedure, signature, 1).map_or_else(Vec::new, |(_, act)| act.things.clone());
                let asked: Vec<String> = asked.iter().filter(|thing| thing.kind == ListKind::People).map(|thing| scene.name(thing)).collect();
                rows.push(Row {
                    anchor: String::new(),
                    head: Cell::text(text(signature.by.as_ref()).unwrap_or_else(|| self.scene.site.say("build-nobody"))),
                    cells: vec![
                        Cell::text(asked.join(", ")),
                        Cell::details(scene.step_detail(index, Some(&signature.step.value)).into_iter().collect()),
                        Cell::maybe(moment(self.scene.site, signature.at.as_ref())),
                    ],
                });
            }
        }
        self.scene.table("table-signatures", &["col-signed-by", "col-as", "col-step", "col-when"], rows)
    }

    /// The STOP lines that were answered: what was looked for, by whom and when; and what was done otherwise in their steps, since
    /// a deviation lets work go on where nobody looked.
    fn stops(&self) -> Option<Table> {
        let mut rows = Vec::new();
        for (work, index, procedure) in self.known_work() {
            let scene = self.scene.inside(procedure);
            for stop in &work.stops {
                let words = recorded_act(procedure, stop, stop.number).map_or_else(|| stop.act.value.clone(), |(_, act)| act.words.clone());
                let otherwise = self.build.deviations_of(&procedure.id, &stop.step.value, None).filter_map(|deviation| text(deviation.what.as_ref()));
                rows.push(Row {
                    anchor: String::new(),
                    head: Cell::text(text(stop.value.as_ref()).unwrap_or_else(|| self.scene.site.say("build-untold"))),
                    cells: vec![
                        Cell::text(words),
                        Cell::details(scene.step_detail(index, Some(&stop.step.value)).into_iter().collect()),
                        Cell::text(text(stop.by.as_ref()).unwrap_or_else(|| self.scene.site.say("build-nobody"))),
                        Cell::maybe(moment(self.scene.site, stop.at.as_ref())),
                        Cell::text(otherwise.collect::<Vec<_>>().join("; ")),
                    ],
                });
            }
        }
        self.scene.table("table-stops", &["col-looked-for", "col-before", "col-step", "col-seen-by", "col-when", "col-otherwise"], rows)
    }

    fn deviations(&self) -> Option<Table> {
        let rows = self.build.deviations.iter().map(|deviation| {
            let id = deviation.procedure.as_ref().map_or("", |id| id.value.as_str());
            let index = self.scene.machine.procedures.iter().position(|procedure| procedure.id == id);
            let procedure = index.and_then(|index| self.scene.machine.procedures.get(index));
            let scene = procedure.map_or(self.scene, |procedure| self.scene.inside(procedure));
            let step = deviation.step.as_ref().map(|step| step.value.as_str());
            let place = index.and_then(|index| scene.step_detail(index, step)).unwrap_or_else(|| Detail::plain(id));
            let of = deviation.of.as_ref().map(|of| scene.named(&of.value));
            Row {
                anchor: String::new(),
                head: Cell::text(text(deviation.what.as_ref()).unwrap_or_else(|| self.scene.site.say("build-untold"))),
                cells: vec![
                    Cell::maybe(of),
                    Cell::details(vec![place]),
                    Cell::maybe(text(deviation.because.as_ref())),
                    Cell::maybe(text(deviation.by.as_ref())),
                    Cell::maybe(moment(self.scene.site, deviation.at.as_ref())),
                ],
            }
        });
        self.scene.table("table-deviations", &["col-what", "col-thing", "col-step", "col-because", "col-by", "col-when"], rows.collect())
    }

    fn open(&self) -> Option<Table> {
        let rows = self.build.open.iter().map(|open| {
            let items = super::open::all(self.scene.machine);
            let item = items.iter().find(|item| item.id == open.item.value);
            let view = item.map(|item| item.view(&self.scene, None));
            let left = open.left.as_ref().map(|left| self.scene.site.words.of("left", &left.value));
            Row {
                anchor: String::new(),
                head: Cell::details(vec![view.as_ref().map_or_else(|| Detail::plain(open.item.value.as_str()), |view| view.thing.clone())]),
                cells: vec![Cell::maybe(left), Cell::details(view.and_then(|view| view.finish).into_iter().collect())],
            }
        });
        self.scene.table("table-left-open", &["col-thing", "col-left", "col-finish"], rows.collect())
    }
}

impl Scene<'_> {
    /// How a reading stands, in words; what is out in words that are seen first.
    fn verdict(&self, measure: &Measure, reading: &Tick) -> Cell {
        let Some(value) = &reading.value else { return Cell::default() };
        let wanted = measure.spec.first().or_else(|| measure.limit.first()).map(Quantity::dimension);
        let read = match wanted {
            Some(dimension) => Quantity::parse(&value.value, dimension),
            None => Quantity::parse_free(&value.value),
        };
        let Ok(read) = read else { return Cell::text(self.site.say("verdict-unclear")) };
        // What is held against the band is not what the dial shows: without it the verdict seems to contradict the row.
        let at_teeth = at_the_teeth(measure, &read, self.known).map(|(low, high)| {
            let (low, high) = (finer(low, &value.value), finer(high, &value.value));
            let shown = if low == high { format!("{low} mm") } else { format!("{low}–{high} mm") };
            self.say("bench-at-teeth", &[("value", Arg::Text(&glued(&shown)))])
        });
        let words = match judge(measure, &read, self.known) {
            Verdict::Good => self.site.say("verdict-good"),
            Verdict::WithinLimit => self.site.say("verdict-within-limit"),
            Verdict::Worn => self.site.say("verdict-worn"),
            Verdict::OffValue => {
                let spec = varied_text(&measure.spec, self.known, |spec| glued(spec.written())).unwrap_or_default();
                self.say("bench-no-band", &[("spec", Arg::Text(&spec))])
            }
            Verdict::Out => return Cell::values(vec![Line::of(self.site.say("verdict-out"))]).and(at_teeth),
            Verdict::NotJudged => self.site.say("verdict-none"),
        };
        Cell::text(words).and(at_teeth)
    }
}

/// A value in millimetres with one place more than the reading that it comes from has.
fn finer(value: f64, reading: &str) -> String {
    let places = reading.split_once('.').map_or(0, |(_, rest)| rest.chars().take_while(char::is_ascii_digit).count());
    format!("{value:.*}", (places + 1).min(6))
}
