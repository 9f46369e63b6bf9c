//! Where values come from, spelled out.

use super::link;
use super::names::Detail;
use super::rows::{Cell, Row, Table};
use super::site::Scene;
use super::words::Arg;
use crate::manual::{Date, Entry, Home, ListKind, Procedure, Source, ThingRef};
use std::collections::BTreeSet;

impl Scene<'_> {
    /// Every source that a machine's values name, with what is known of it.
    pub(super) fn sources_table(&self) -> Option<Table> {
        let used: Vec<(&Procedure, Vec<String>)> = self
            .machine
            .procedures
            .iter()
            .map(|procedure| (procedure, Scene { procedure: Some(procedure), ..*self }.used_sources()))
            .collect();
        let rows = self.sources_shown().into_iter().filter_map(|thing| {
            let inside = match &thing.home {
                Home::Procedure(id) => Scene { procedure: self.machine.procedure(id), ..*self },
                Home::Machine | Home::Shop => *self,
            };
            let entry = inside.scope().thing(|l| &l.sources, &thing)?;
            let mut cells = inside.source_cells(entry);
            cells.push(self.resting_on(&thing, &used));
            Some(self.row(&thing, Cell::text(entry.what.title.as_str()), cells))
        });
        let rows = rows.collect();
        let mut columns = SOURCE_COLUMNS.to_vec();
        columns.push("col-rests");
        self.table("table-sources", &columns, rows)
    }

    /// The sources that have a row on the machine's page: its own, its procedures', those of the shop that are named.
    pub(super) fn sources_shown(&self) -> Vec<ThingRef> {
        let shop = self.site.input.manual.shop.sources.values().filter(|entry| self.is_named_source(&entry.id));
        let shop = shop.map(|entry| ThingRef { kind: ListKind::Sources, home: Home::Shop, id: entry.id.clone() });
        self.things(ListKind::Sources).into_iter().map(|looked| looked.thing).chain(shop).collect()
    }

    /// The procedures whose values rest on a source, each leading to where it is told which values do.
    fn resting_on(&self, source: &ThingRef, used: &[(&Procedure, Vec<String>)]) -> Cell {
        let rests = |procedure: &Procedure, ids: &[String]| {
            let inside = Scene { procedure: Some(procedure), ..*self };
            ids.contains(&source.id) && inside.scope().find(ListKind::Sources, &source.id).as_ref() == Some(source)
        };
        let links = used.iter().filter(|(procedure, ids)| rests(procedure, ids)).map(|(procedure, _)| Detail {
            text: procedure.title.clone(),
            href: Some(self.link(&format!("{}#page.sources", link::behind_path(&self.machine.id, &procedure.id)))),
        });
        Cell::details(links.collect())
    }

    /// Whether the rows of a machine's tables name a source.
    pub(super) fn is_named_source(&self, id: &str) -> bool {
        let found = || {
            let mut named = BTreeSet::new();
            for kind in ListKind::ALL {
                for looked in self.things(*kind) {
                    named.extend(looked.scene.source_ids(&looked.thing));
                }
            }
            named
        };
        self.site.named_sources.get(self.machine_index).is_some_and(|named| named.get_or_init(found).contains(id))
    }

    /// What several sources say of a thing, and which was decided for.
    pub(super) fn claim_details(&self, thing: &ThingRef) -> Vec<Detail> {
        let Some(claims) = self.scope().lists_of(thing).and_then(|lists| lists.claims(thing.kind, &thing.id)) else { return Vec::new() };
        let said = claims.said.iter().map(|claim| {
            let source = self.source_detail(&claim.source.value);
            let value = super::values::glued(&claim.says.value);
            Detail { text: self.say("source-says", &[("source", Arg::Text(&source.text)), ("value", Arg::Text(&value))]), href: source.href }
        });
        let decided = claims.decided.iter().map(|decided| {
            let source = self.source_detail(&decided.source.value).text;
            let because = decided.because.as_deref().unwrap_or_default();
            Detail::plain(self.say("source-decided", &[("source", Arg::Text(&source)), ("because", Arg::Text(because))]))
        });
        said.chain(decided).collect()
    }

    /// The sources behind the values of one procedure, by name, each leading to where it is spelled out.
    pub(super) fn source_links(&self) -> Vec<Detail> {
        self.used_sources().iter().map(|id| self.source_detail(id)).collect()
    }

    /// The ids of the sources behind the values of the scene's procedure, in the order of work.
    fn used_sources(&self) -> Vec<String> {
        let mut used: Vec<String> = Vec::new();
        let steps = self.procedure.map_or(&[][..], |procedure| procedure.steps.as_slice());
        for (step, act) in steps.iter().flat_map(|step| step.acts.iter().map(move |act| (step, act))) {
            for thing in crate::inspect::used_by(self.scope(), act, &step.only) {
                for id in self.source_ids(&thing) {
                    if !used.contains(&id) {
                        used.push(id);
                    }
                }
            }
        }
        used
    }

    /// A source's title and page in it, with the link to where it is spelled out.
    pub(super) fn source_detail(&self, id: &str) -> Detail {
        let Some(entry) = self.scope().entry(|l| &l.sources, id) else { return Detail::plain(id) };
        let title = &entry.what.title;
        let text = match &entry.what.page {
            Some(page) => self.say("source-page", &[("title", Arg::Text(title)), ("page", Arg::Text(page))]),
            None => title.clone(),
        };
        Detail { text, href: self.scope().find(ListKind::Sources, id).map(|thing| self.row_link(&thing)) }
    }

    /// The sources behind the values of one procedure: one row for each, with what rests on it.
    pub(super) fn procedure_sources(&self) -> Option<Table> {
        let procedure = self.procedure?;
        let mut rows: Vec<(String, Row)> = Vec::new();
        let mut seen: Vec<ThingRef> = Vec::new();
        for step in &procedure.steps {
            for act in &step.acts {
                for thing in crate::inspect::used_by(self.scope(), act, &step.only) {
                    if seen.contains(&thing) {
                        continue;
                    }
                    for id in self.source_ids(&thing) {
                        self.rest_on(&id, &thing, &mut rows);
                    }
                    seen.push(thing);
                }
            }
        }
        let rows = rows.into_iter().map(|(_, row)| row).collect();
        let mut columns = SOURCE_COLUMNS.to_vec();
        columns.push("col-rests");
        self.table("table-sources", &columns, rows)
    }

    fn rest_on(&self, id: &str, thing: &ThingRef, rows: &mut Vec<(String, Row)>) {
        let named = Detail { text: self.name(thing), href: Some(self.row_link(thing)) };
        if let Some((_, row)) = rows.iter_mut().find(|(known, _)| known == id) {
            if let Some(last) = row.cells.last_mut() {
                last.details.push(named);
            }
            return;
        }
        let entry = self.scope().entry(|l| &l.sources, id);
        let title = entry.map_or_else(|| id.to_owned(), |entry| entry.what.title.clone());
        let mut cells = entry.map_or_else(|| vec![Cell::default(); SOURCE_COLUMNS.len() - 1], |entry| self.source_cells(entry));
        cells.push(Cell::details(vec![named]));
        rows.push((id.to_owned(), Row { anchor: String::new(), head: Cell::text(title), cells }));
    }

    fn source_cells(&self, entry: &Entry<Source>) -> Vec<Cell> {
        let source = &entry.what;
        let person = |id: &Option<crate::manual::Spot<String>>| {
            Cell::details(id.iter().map(|id| self.detail_in(ListKind::People, &id.value)).collect())
        };
        vec![
            Cell::maybe(source.kind.as_deref().map(|kind| self.site.words.of("source-kind", kind))),
            Cell::maybe(source.edition.clone()),
            Cell::maybe(source.page.clone()),
            Cell::maybe(source.date.as_ref().map(|date| self.site.words.day(date))),
            person(&source.by),
            person(&source.read_by),
        ]
    }

    /// The ids of the sources of a thing's values, in all its variants.
    fn source_ids(&self, thing: &ThingRef) -> Vec<String> {
        let lists = self.scope().lists_of(thing);
        let source = lists.and_then(|lists| lists.source(thing.kind, &thing.id));
        let mut ids: Vec<String> = source.map(|s| s.cases.iter().map(|case| case.value.clone()).collect()).unwrap_or_default();
        ids.dedup();
        ids
    }
}

const SOURCE_COLUMNS: &[&str] = &["col-source", "col-kind", "col-edition", "col-page", "col-date", "col-by", "col-read-by"];

/// A day as ISO 8601 has it.
pub(super) fn date_text(date: &Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year, date.month, date.day)
}
