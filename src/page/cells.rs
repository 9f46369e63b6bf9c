//! The tables of one machine: which things stand in a list, and the cells that all lists share.

use super::link;
use super::names::Detail;
use super::rows::{Cell, Row, Table, Uses, count};
use super::site::Scene;
use super::values::{cases, values_glued};
use super::words::Arg;
use crate::manual::{Combination, Home, ListKind, ThingRef, Varied};

/// Where a thing of a list is looked at from: its own procedure, if it has one.
pub(super) struct Looked<'s> {
    /// From inside its home.
    pub scene: Scene<'s>,
    /// The thing.
    pub thing: ThingRef,
}

impl<'s> Scene<'s> {
    /// Every thing of a list that belongs to the machine: its own, those of its procedures in build order,
    /// and those of the shop that it uses.
    pub(super) fn things(&self, kind: ListKind) -> Vec<Looked<'s>> {
        let mut found: Vec<Looked<'s>> = Vec::new();
        let own = self.machine.lists.heads(kind);
        found.extend(own.iter().map(|head| Looked { scene: *self, thing: thing(kind, Home::Machine, head.id) }));
        for procedure in &self.machine.procedures {
            let scene = self.inside(procedure);
            found.extend(
                procedure
                    .lists
                    .heads(kind)
                    .iter()
                    .map(|head| Looked { scene, thing: thing(kind, Home::Procedure(procedure.id.clone()), head.id) }),
            );
        }
        if let Some(usage) = self.site.usage.get(self.machine_index) {
            found.extend(
                usage
                    .things(kind)
                    .filter(|used| used.home == Home::Shop)
                    .map(|used| Looked { scene: *self, thing: used.clone() }),
            );
        }
        found
    }

    /// Links to every step that uses a thing, by procedure.
    pub(super) fn used_in(&self, thing: &ThingRef) -> Cell {
        let Some(usage) = self.site.usage.get(self.machine_index) else { return Cell::default() };
        let mut uses: Vec<(usize, String, Uses)> = Vec::new();
        for found in usage.of_thing(thing) {
            let Some((procedure, step)) = usage.step(*found) else { continue };
            let number = |page: &str| Detail {
                text: step.number.to_string(),
                href: Some(link::relative_to(self.page, page, Some(&link::act_anchor(&step.id, found.act)))),
            };
            match uses.last_mut() {
                Some((last, page, group)) if *last == found.procedure => group.steps.push(number(page)),
                _ => {
                    let page = link::procedure_path(&self.machine.id, &procedure.id);
                    let group = Uses {
                        procedure: Detail { text: procedure.title.clone(), href: Some(self.link(&page)) },
                        counted: String::new(),
                        steps: vec![number(&page)],
                    };
                    uses.push((found.procedure, page, group));
                }
            }
        }
        let counted = |(_, _, group): (usize, String, Uses)| Uses { counted: self.steps_counted(group.steps.len()), ..group };
        Cell { uses: uses.into_iter().map(counted).collect(), ..Cell::default() }
    }

    /// What stands before the numbers of so many steps.
    pub(super) fn steps_counted(&self, steps: usize) -> String {
        self.say("steps", &[("count", Arg::Count(count(steps)))])
    }

    /// The sources of an entry's values, with links to where they are spelled out.
    pub(super) fn source_cell(&self, source: &Varied<String>) -> Cell {
        let details = cases(source, self.known)
            .map(|(label, id)| {
                let mut detail = self.source_detail(id);
                if let Some(label) = label {
                    detail.text = format!("{label}: {}", detail.text);
                }
                detail
            })
            .collect();
        Cell::details(details)
    }

    /// The first cell of a row: the name, and the variants in which the thing exists.
    pub(super) fn head_cell(&self, name: &str, only: &Combination, note: Option<&str>) -> Cell {
        let mut details = vec![Detail::plain(values_glued(name))];
        details.extend(self.only_text(only).map(Detail::plain));
        details.extend(note.map(Detail::plain));
        Cell::details(details)
    }

    /// A row under its stable anchor.
    pub(super) fn row(&self, thing: &ThingRef, head: Cell, cells: Vec<Cell>) -> Row {
        let mut head = head;
        if self.is_unsourced(thing) {
            head.details.push(Detail::plain(self.site.say("unsourced")));
        }
        head.details.extend(self.waiver_details(thing));
        Row { anchor: link::row_anchor(&self.machine.id, thing), head, cells }
    }

    /// A table with headings from the catalogue, without its empty columns. None where it has no rows.
    pub(super) fn table(&self, caption: &str, columns: &[&str], rows: Vec<Row>) -> Option<Table> {
        let words = self.site.say(caption);
        let table = Table {
            label: self.say("table-of", &[("table", Arg::Text(&words)), ("machine", Arg::Text(&self.machine.name))]),
            caption: words,
            columns: columns.iter().map(|key| self.site.say(key)).collect(),
            rows,
        };
        (!table.rows.is_empty()).then(|| table.without_empty_columns())
    }
}

fn thing(kind: ListKind, home: Home, id: &str) -> ThingRef {
    ThingRef { kind, home, id: id.to_owned() }
}
