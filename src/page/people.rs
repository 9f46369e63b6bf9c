//! People: what each signs, what each wrote, measured or read a second time.

use super::names::Detail;
use super::rows::{Cell, Row, Table};
use super::site::Scene;
use crate::manual::{Entry, Home, ListKind, Lists, Source, ThingRef};

impl Scene<'_> {
    /// Everybody of a machine who signs something or stands behind a source.
    pub(super) fn people_table(&self) -> Option<Table> {
        let rows = self.people_all().iter().filter_map(|thing| self.person_row(thing)).collect();
        self.table("table-people", &["col-person", "col-wrote", "col-read", "col-signs"], rows)
    }

    /// Those of them who have a row.
    pub(super) fn people_shown(&self) -> Vec<ThingRef> {
        self.people_all().into_iter().filter(|thing| self.person_row(thing).is_some()).collect()
    }

    fn people_all(&self) -> Vec<ThingRef> {
        let mut all: Vec<ThingRef> = self.things(ListKind::People).into_iter().map(|looked| looked.thing).collect();
        for id in self.site.input.manual.shop.people.keys() {
            let thing = ThingRef { kind: ListKind::People, home: Home::Shop, id: id.clone() };
            if !all.contains(&thing) {
                all.push(thing);
            }
        }
        all
    }

    fn person_row(&self, thing: &ThingRef) -> Option<Row> {
        let inside = match &thing.home {
            Home::Procedure(id) => Scene { procedure: self.machine.procedure(id), ..*self },
            Home::Machine | Home::Shop => *self,
        };
        let (wrote, read) = inside.sources_of(thing);
        let signs = self.used_in(thing);
        if wrote.is_empty() && read.is_empty() && signs.is_empty() {
            return None;
        }
        let head = Cell::text(inside.name(thing));
        Some(self.row(thing, head, vec![Cell::details(wrote), Cell::details(read), signs]))
    }

    /// The sources of the machine that a person wrote or measured, and those read a second time.
    fn sources_of(&self, person: &ThingRef) -> (Vec<Detail>, Vec<Detail>) {
        let own = self.machine.procedures.iter().map(|procedure| (Some(procedure), &procedure.lists));
        let homes: Vec<(Option<_>, &Lists)> = own.chain([(None, &self.machine.lists), (None, &self.site.input.manual.shop)]).collect();
        let (mut wrote, mut read) = (Vec::new(), Vec::new());
        for (procedure, lists) in homes {
            let scene = Scene { procedure, ..*self };
            let is = |spot: &Option<crate::manual::Spot<String>>| {
                spot.as_ref().and_then(|spot| scene.scope().find(ListKind::People, &spot.value)).as_ref() == Some(person)
            };
            let of = |entry: &Entry<Source>| scene.source_detail(&entry.id);
            for entry in lists.sources.values().filter(|entry| self.is_named_source(&entry.id)) {
                if is(&entry.what.by) {
                    wrote.push(of(entry));
                }
                if is(&entry.what.read_by) {
                    read.push(of(entry));
                }
            }
        }
        (wrote, read)
    }
}
