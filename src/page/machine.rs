//! A machine's page: build order, variants, every value, the history of changes.

use super::build::BuildRow;
use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::open::{self, OpenView};
use super::rows::{Cell, Row, Table};
use super::site::{Scene, Site};
use super::strip::Strip;
use super::values::{values_glued, varied_text};
use super::words::Arg;
use crate::manual::{Change, Combination, History, Machine};
use serde::Serialize;

#[derive(Serialize)]
struct MachineView {
    name: String,
    maker: Option<String>,
    kind: Option<String>,
    mass: Option<String>,
    strip: Strip,
    procedures: Vec<ProcedureRow>,
    axes: Vec<AxisView>,
    not_made: Vec<String>,
    to_have: Detail,
    tables: Vec<Table>,
    /// Where the values are reviewed: ledger, variants side by side, bulletins.
    reviews: Vec<Detail>,
    changes: Option<Table>,
    /// Machines built by it.
    builds: Vec<BuildRow>,
    /// What was read on them.
    as_read: Option<Table>,
    /// What of the machine is made for paper.
    papers: Vec<Detail>,
    faults: Vec<FaultView>,
}

#[derive(Serialize)]
struct ProcedureRow {
    number: usize,
    title: Detail,
    revision: Option<u64>,
    time: Option<String>,
    honesty: String,
    needs: Vec<Detail>,
    inherited: Vec<OpenView>,
    leaves: Vec<OpenView>,
    sheets: Vec<Detail>,
}

#[derive(Serialize)]
struct AxisView {
    name: String,
    values: Vec<AxisValueView>,
}

#[derive(Serialize)]
struct AxisValueView {
    name: String,
    meaning: String,
}

/// Makes a machine's page.
pub(super) fn page(site: &Site<'_>, machine_index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::machine_path(&machine.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &any, at_bench: false };
    let mut tables: Vec<Table> = scene.torque_table().into_iter().collect();
    tables.extend(scene.work_tables());
    tables.extend(scene.materials_table(false));
    tables.extend(scene.sources_table());
    let view = MachineView {
        name: machine.name.clone(),
        maker: machine.maker.clone(),
        kind: machine.kind.clone(),
        mass: machine.mass.as_ref().map(|mass| scene.quantity(mass)),
        strip: scene.strip(None),
        procedures: procedures(&scene),
        axes: axes(machine),
        not_made: machine.not_made.iter().map(Combination::words).collect(),
        to_have: Detail { text: site.say("tables-to-have"), href: Some(scene.link(&format!("{}#{}", link::TO_HAVE, link::table_anchor(&machine.id)))) },
        tables: without_anchors_elsewhere(tables),
        reviews: reviews(&scene),
        changes: scene.changes_table(&changes(&scene)),
        papers: vec![Detail { text: site.say("kind-book"), href: Some(scene.link(&link::machine_book_path(&machine.id))) }, Detail { text: site.say("card-title"), href: Some(scene.link(&link::card_path(&machine.id))) }],
        builds: scene.build_rows(),
        as_read: scene.as_read_table(),
        faults: site.faults.elsewhere(machine.file, &[]),
    };
    let mut block = site.title_block("kind-machine", &machine.name, &machine.id, Some(&machine.history));
    block.sheet = None;
    let frame = site.frame(&path, &machine.name, "machine");
    let html = site.document("machine.html", frame, block, &view)?;
    Ok((path, html))
}

fn reviews(scene: &Scene<'_>) -> Vec<Detail> {
    let id = &scene.machine.id;
    let lead = |key: &str, path: String| Detail { text: scene.site.say(key), href: Some(scene.link(&path)) };
    let mut reviews = vec![lead("review-title", link::review_path(id))];
    if !scene.machine.axes.is_empty() {
        reviews.push(lead("matrix-title", link::matrix_path(id)));
    }
    reviews.push(lead("bulletins-title", link::bulletins_path(id)));
    reviews
}

fn procedures(scene: &Scene<'_>) -> Vec<ProcedureRow> {
    let items = open::all(scene.machine);
    scene
        .machine
        .procedures
        .iter()
        .enumerate()
        .map(|(index, procedure)| {
            let inside = scene.inside(procedure);
            ProcedureRow {
                number: index + 1,
                title: scene.step_detail(index, None).unwrap_or_default(),
                revision: procedure.history.revision,
                time: inside.time_text(procedure),
                honesty: inside.honesty(),
                needs: procedure
                    .after
                    .iter()
                    .filter_map(|id| scene.machine.procedures.iter().position(|p| p.id == id.value))
                    .filter_map(|index| scene.step_detail(index, None))
                    .collect(),
                inherited: items
                    .iter()
                    .filter(|item| item.inherited_by(scene.machine, index))
                    .map(|item| item.view(&inside, Some(index)))
                    .collect(),
                leaves: items.iter().filter(|item| item.left_by(inside.machine, index)).map(|item| item.view(&inside, Some(index))).collect(),
                sheets: scene.sheet_links(index),
            }
        })
        .collect()
}

fn axes(machine: &Machine) -> Vec<AxisView> {
    machine
        .axes
        .iter()
        .map(|axis| AxisView {
            name: axis.name.clone(),
            values: axis.values.iter().map(|v| AxisValueView { name: v.name.clone(), meaning: v.meaning.clone() }).collect(),
        })
        .collect()
}

/// The histories of a machine and its procedures, each with the name of what it belongs to and seen from there.
pub(super) fn changes<'s>(scene: &Scene<'s>) -> Vec<(&'s str, Scene<'s>, &'s History)> {
    let machine = scene.machine;
    let own = std::iter::once((machine.name.as_str(), *scene, &machine.history));
    own.chain(machine.procedures.iter().map(|p| (p.title.as_str(), scene.inside(p), &p.history))).collect()
}

/// The torque table of a machine's page repeats rows that have their anchor in the tables of the manual.
fn without_anchors_elsewhere(mut tables: Vec<Table>) -> Vec<Table> {
    for row in tables.iter_mut().flat_map(|table| &mut table.rows) {
        if row.anchor.contains(".fasteners.") {
            row.anchor.clear();
        }
    }
    tables
}

/// What changed, as a page tells it.
#[derive(Serialize)]
pub(super) struct ChangeLine {
    /// The value, with the way to its row.
    what: Detail,
    /// The revision it came with.
    revision: Option<String>,
    /// What it was before.
    was: Option<String>,
    /// Why.
    because: Option<String>,
    /// Where it comes from.
    sources: Vec<Detail>,
}

impl Scene<'_> {
    /// Links to the sheets of a procedure.
    pub(super) fn sheet_links(&self, procedure: usize) -> Vec<Detail> {
        let sheets = self.site.sheets.get(self.machine_index).and_then(|machine| machine.get(procedure));
        let Some(sheets) = sheets else { return Vec::new() };
        sheets
            .all
            .iter()
            .map(|(path, known)| {
                let words = self.variant_words(known);
                Detail { text: if words.is_empty() { self.site.say("sheet-all") } else { words }, href: Some(self.link(path)) }
            })
            .collect()
    }

    /// A combination in the machine's own order of axes: `shaft L · serial late`.
    pub(super) fn variant_words(&self, known: &Combination) -> String {
        let parts: Vec<String> = self
            .machine
            .axes
            .iter()
            .filter_map(|axis| known.0.get(&axis.name).map(|value| format!("{} {value}", axis.name)))
            .collect();
        parts.join(" · ")
    }

    /// What changed, newest first by the day; below it what has no day any more, by its revision. None where nothing did.
    pub(super) fn changes_table(&self, histories: &[(&str, Scene<'_>, &History)]) -> Option<Table> {
        let mut rows: Vec<(Option<String>, Option<u64>, Row)> = Vec::new();
        for (of, scene, history) in histories {
            rows.extend(history.changes.iter().map(|change| {
                let told = scene.change(change);
                let became = scene.became(history, change);
                let day = history.day_of(change);
                let revision = Cell::maybe(told.revision).and(day.clone());
                let cells = vec![Cell::text(*of), revision, Cell::maybe(told.was), Cell::maybe(became), Cell::maybe(told.because), Cell::details(told.sources)];
                (day, change.revision, Row { anchor: String::new(), head: Cell::details(vec![told.what]), cells })
            }));
        }
        // A day as ISO 8601 writes it sorts as a text; none comes last.
        rows.sort_by(|one, other| (&other.0, other.1).cmp(&(&one.0, one.1)));
        let rows = rows.into_iter().map(|(_, _, row)| row).collect();
        self.table("table-changes", &["col-changed", "col-document", "col-revision", "col-was", "col-became", "col-because", "col-source"], rows)
    }

    /// What a change line led to: what the next line on the value says was there, otherwise what is written today.
    fn became(&self, history: &History, change: &Change) -> Option<String> {
        let lists = self.procedure.map_or(&self.machine.lists, |procedure| &procedure.lists);
        let became = history.became_by_variant(change, self.known, &lists.conditions_now(&change.of.value), |when| lists.value_now(&change.of.value, when).map(str::to_owned));
        varied_text(&became, self.known, |value| values_glued(value))
    }

    /// The changes of one document, newest first: a line each, which a phone shows whole.
    pub(super) fn change_lines(&self, history: &History) -> Vec<ChangeLine> {
        let mut changes: Vec<&Change> = history.changes.iter().collect();
        changes.sort_by_key(|change| std::cmp::Reverse(change.revision));
        changes.into_iter().map(|change| self.change(change)).collect()
    }

    fn change(&self, change: &Change) -> ChangeLine {
        let (id, field) = change.of.value.split_once('.').unwrap_or((&change.of.value, ""));
        let text = match field {
            "" => self.named(id),
            field => format!("{}: {}", self.named(id), self.site.words.of("field", field)),
        };
        ChangeLine {
            what: Detail { text, href: self.find_named(id).map(|thing| self.row_link(&thing)) },
            revision: change.revision.map(|r| self.say("revision", &[("revision", Arg::Count(r))])),
            was: varied_text(&change.was, self.known, |was| values_glued(was)),
            because: change.because.as_deref().map(values_glued),
            sources: change.source.iter().map(|id| self.source_detail(&id.value)).collect(),
        }
    }
}
