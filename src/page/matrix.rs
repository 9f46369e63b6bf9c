//! The variants of a machine side by side: every value that differs, for every combination that is made, with its gaps.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::rows::{Cell, Row, Table};
use super::site::{Scene, Site};
use super::values::Line;
use super::words::Arg;
use crate::manual::{Combination, ListKind, WrittenValue, combinations};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// More columns than this nobody reads side by side.
const MOST_COLUMNS: usize = 12;

#[derive(Serialize)]
struct MatrixView {
    machine: Detail,
    tables: Vec<Table>,
    /// Axes of which there are too many combinations to be set side by side.
    left_out: Vec<String>,
}

/// Makes the page; empty for a machine without variants.
pub(super) fn page(site: &Site<'_>, machine_index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::matrix_path(&machine.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &any, at_bench: false };
    let (mut tables, mut left_out) = (Vec::new(), Vec::new());
    for (axes, rows) in fields(&scene) {
        let names: Vec<&str> = axes.iter().map(String::as_str).collect();
        match combinations(&machine.axes, &machine.not_made, &axes, MOST_COLUMNS).filter(|all| !all.is_empty()) {
            Some(columns) => tables.push(table(&scene, &names, &columns, &rows)),
            None => left_out.push(names.join(", ")),
        }
    }
    let view = MatrixView { machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) }, tables, left_out };
    let title = site.say_with("matrix-of", &[("machine", Arg::Text(&machine.name))]);
    let mut block = site.title_block("kind-matrix", &title, &format!("{}/variants", machine.id), Some(&machine.history));
    block.machine = Some(view.machine.clone());
    let html = site.document("matrix.html", site.frame(&path, &title, "matrix"), block, &view)?;
    Ok((path, html))
}

/// One field of one thing.
struct FieldRow<'s> {
    /// Where its words are looked up.
    scene: Scene<'s>,
    thing: Detail,
    field: String,
    /// In which machines the thing is there at all.
    only: Combination,
    cases: Vec<&'s WrittenValue>,
    /// The cases of how it is used again, for the field that tells when.
    reuse: Vec<&'s WrittenValue>,
}

impl FieldRow<'_> {
    /// Whether these machines need no such value: when a thing is used again, where it never is or always.
    fn is_needless(&self, column: &Combination) -> bool {
        self.reuse.iter().any(|case| case.text != "inspect" && column.satisfies(&case.when))
    }
}

/// The fields that differ, by the axes that they name.
fn fields<'s>(scene: &Scene<'s>) -> BTreeMap<BTreeSet<String>, Vec<FieldRow<'s>>> {
    let mut found: BTreeMap<BTreeSet<String>, Vec<FieldRow<'s>>> = BTreeMap::new();
    for looked in ListKind::ALL.iter().flat_map(|kind| scene.things(*kind)) {
        let scope = looked.scene.scope();
        let Some((lists, head)) = scope.lists_of(&looked.thing).zip(scope.head(&looked.thing)) else { continue };
        let own: Vec<&WrittenValue> = lists.written.iter().filter(|w| w.kind == looked.thing.kind && w.id == looked.thing.id).collect();
        let mut names: Vec<&str> = own.iter().filter(|value| value.varies && !matches!(value.field, "name" | "note" | "source")).map(|value| value.field).collect();
        names.dedup();
        let thing = Detail { text: looked.scene.name(&looked.thing), href: Some(looked.scene.row_link(&looked.thing)) };
        // A thing that some machines have, and others not, differs even where none of its values does.
        if names.is_empty() && !head.only.is_always() {
            let axes = head.only.0.keys().cloned().collect();
            found.entry(axes).or_default().push(FieldRow { scene: looked.scene, thing, field: String::new(), only: head.only.clone(), cases: Vec::new(), reuse: Vec::new() });
            continue;
        }
        for name in names {
            let cases: Vec<&WrittenValue> = own.iter().filter(|value| value.field == name).copied().collect();
            let axes = cases.iter().flat_map(|case| case.when.0.keys()).chain(head.only.0.keys()).cloned().collect();
            let field = scene.site.words.of("field", name).replace('_', " ");
            let reuse = own.iter().filter(|value| name == "when" && value.field == "reuse").copied().collect();
            found.entry(axes).or_default().push(FieldRow { scene: looked.scene, thing: thing.clone(), field, only: head.only.clone(), cases, reuse });
        }
    }
    found
}

fn table(scene: &Scene<'_>, axes: &[&str], columns: &[Combination], rows: &[FieldRow<'_>]) -> Table {
    let site = scene.site;
    let caption = site.say_with("matrix-by", &[("axes", Arg::Text(&axes.join(", ")))]);
    let rows = rows.iter().map(|row| {
        let cells = columns.iter().map(|column| cell(site, row, column));
        let field = if row.field.is_empty() { site.say("matrix-there") } else { row.field.clone() };
        Row { anchor: String::new(), head: Cell::details(vec![row.thing.clone()]), cells: std::iter::once(Cell::text(field)).chain(cells).collect() }
    });
    Table {
        label: scene.say("table-of", &[("table", Arg::Text(&caption)), ("machine", Arg::Text(&scene.machine.name))]),
        caption,
        columns: [site.say("col-entry"), site.say("col-value")].into_iter().chain(columns.iter().map(|column| scene.variant_words(column))).collect(),
        rows: rows.collect(),
    }
}

fn cell(site: &Site<'_>, row: &FieldRow<'_>, column: &Combination) -> Cell {
    if !column.satisfies(&row.only) {
        return Cell::text(site.say("matrix-absent"));
    }
    if row.field.is_empty() {
        return Cell::text(site.say("matrix-is-there"));
    }
    match row.cases.iter().find(|case| column.satisfies(&case.when)) {
        Some(case) => match listed(&case.text) {
            Some(ids) => Cell::details(ids.map(|id| Detail::plain(row.scene.named(id))).collect()),
            None => match row.scene.name_of_id(case.kind, case.field, &case.text) {
                Some(name) => Cell::text(name),
                None => Cell::values(vec![Line::of(unquoted(&case.text))]),
            },
        },
        None if row.is_needless(column) => Cell::text(site.say("matrix-needless")),
        None => Cell::values(vec![Line::of(site.say("matrix-gap"))]),
    }
}

/// A text without the quotes that keep it one in the author's file: `'0731'`.
fn unquoted(text: &str) -> &str {
    let within = |quote: char| text.strip_prefix(quote)?.strip_suffix(quote).filter(|inside| !inside.contains(quote));
    within('\'').or_else(|| within('"')).unwrap_or(text)
}

/// The ids of a list as it was written: `[mid-section, mid-spacer]`.
fn listed(text: &str) -> Option<impl Iterator<Item = &str>> {
    let ids = text.strip_prefix('[')?.strip_suffix(']')?;
    Some(ids.split(',').map(str::trim).filter(|id| !id.is_empty()))
}
