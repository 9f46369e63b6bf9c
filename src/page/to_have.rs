//! What to have and to order for a machine: the kit list as tables.

use super::link;
use super::names::Detail;
use super::rows::{Cell, Row, Table};
use super::site::Scene;
use super::values::{glued, values_glued};
use super::words::Arg;
use crate::inspect::{Comes, DriveRow, GoodsRow, MaterialRow, ToolRow, WaitRow, WrenchSet, kit_list};
use crate::manual::{Combination, Procedure, ThingRef};

impl Scene<'_> {
    /// The kit list of all procedures of the machine, one table for each kind of thing.
    pub(super) fn tables_to_have(&self) -> Vec<Table> {
        let procedures: Vec<&Procedure> = self.machine.procedures.iter().collect();
        let list = kit_list(self.site.input.manual, self.machine, &procedures, self.known);
        let order: Vec<Row> = list.goods.iter().filter(|row| row.to_order > 0).map(|row| self.order_row(row)).collect();
        let order = order.into_iter().chain(list.materials.iter().filter(|row| row.to_order > 0).map(|row| self.packs_row(row))).collect();
        let new = list.goods.iter().filter(|row| row.new > 0).map(|row| self.new_row(row)).collect();
        let again = list.goods.iter().filter(|row| row.new == 0).map(|row| self.again_row(row)).collect();
        let materials = list.materials.iter().map(|row| self.amount_row(row)).collect();
        let is_wrench = |row: &&ToolRow<'_>| matches!(row.entry.what.kind.as_deref(), Some("torque-wrench" | "angle-gauge"));
        let wrenches = list.tools.iter().filter(is_wrench).map(|row| self.wrench_row(row)).collect();
        let tools = list.tools.iter().filter(|row| !is_wrench(row)).map(|row| self.tool_row(row)).collect();
        let drives = list.drives.iter().map(|row| self.drive_row(row)).collect();
        let waits = list.waits.iter().map(|row| self.wait_row(row)).collect();
        let tables = [
            self.table("table-to-order", &["col-part", "col-details", "col-how-many", "col-comes", "col-used"], order),
            self.table("table-new", &["col-part", "col-details", "col-how-many", "col-spare", "col-comes", "col-used"], new),
            self.table("table-again", &["col-part", "col-details", "col-count", "col-reuse", "col-used"], again),
            self.table("table-amounts", &["col-material", "col-details", "col-amount", "col-packs", "col-in-hand", "col-used"], materials),
            self.table("table-sets", &["col-wrench", "col-sets", "col-used"], wrenches),
            self.table("table-have-drives", &["col-size", "col-fastener", "col-used"], drives),
            self.table("table-have-tools", &["col-tool", "col-kind", "col-used"], tools),
            self.table("table-have-waits", &["col-wait", "col-value", "col-details", "col-used"], waits),
        ];
        tables.into_iter().flatten().collect()
    }

    fn have_row(&self, thing: &ThingRef, name: &str, when: &Combination, cells: Vec<Cell>) -> Row {
        let mut head = self.head_cell(name, when, None);
        if let Some(first) = head.details.first_mut() {
            first.href = Some(self.row_link(thing));
        }
        Row { anchor: String::new(), head, cells }
    }

    fn order_row(&self, row: &GoodsRow<'_>) -> Row {
        let cells = vec![self.which(&row.details), self.how_many(row.to_order), self.comes(&row.comes), self.used_in(&row.thing)];
        self.have_row(&row.thing, row.name, &row.when, cells)
    }

    fn packs_row(&self, row: &MaterialRow<'_>) -> Row {
        let pack = row.entry.what.pack.as_ref().map(|pack| self.quantity(pack));
        let packs = Cell::text(self.say("have-packs", &[("count", Arg::Count(row.to_order))]));
        let cells = vec![Cell::maybe(pack), packs, Cell::default(), self.used_in(&row.thing)];
        self.have_row(&row.thing, &self.material_name(row.entry), &row.when, cells)
    }

    fn new_row(&self, row: &GoodsRow<'_>) -> Row {
        let spare = if row.spare > 0 { self.how_many(row.spare) } else { Cell::default() };
        let cells = vec![self.which(&row.details), self.how_many(row.new), spare, self.comes(&row.comes), self.used_in(&row.thing)];
        self.have_row(&row.thing, row.name, &row.when, cells)
    }

    fn again_row(&self, row: &GoodsRow<'_>) -> Row {
        let reuse = row.reuse.map(|reuse| self.site.words.of("reuse", if reuse == "inspect" { "looked-at" } else { reuse }));
        let cells = vec![self.which(&row.details), self.how_many(row.count), Cell::maybe(reuse), self.used_in(&row.thing)];
        self.have_row(&row.thing, row.name, &row.when, cells)
    }

    fn amount_row(&self, row: &MaterialRow<'_>) -> Row {
        let what = &row.entry.what;
        let details = what.grade.clone().into_iter().chain(what.pack.as_ref().map(|pack| self.quantity(pack)));
        let count = |count: Option<u64>| count.map_or_else(Cell::default, |count| self.how_many(count));
        let cells = vec![
            Cell::details(details.map(Detail::plain).collect()),
            Cell::maybe(row.amount().map(|amount| glued(&amount))),
            count(row.packs),
            count(row.in_hand),
            self.used_in(&row.thing),
        ];
        self.have_row(&row.thing, &self.material_name(row.entry), &row.when, cells)
    }

    fn wrench_row(&self, row: &ToolRow<'_>) -> Row {
        let sets = row.sets.iter().map(|set| Detail::plain(values_glued(&self.set_text(set)))).collect();
        self.have_row(&row.thing, &row.entry.name, &row.entry.only, vec![Cell::details(sets), self.used_in(&row.thing)])
    }

    fn set_text(&self, set: &WrenchSet<'_>) -> String {
        let fastener = match set.stage {
            Some(stage) => self.say("have-stage", &[("fastener", Arg::Text(set.fastener)), ("stage", Arg::Count(super::rows::count(stage)))]),
            None => set.fastener.to_owned(),
        };
        let variant = self.variant_words(&set.when);
        let fastener = if variant.is_empty() { fastener } else { format!("{fastener} ({variant})") };
        let args = [("fastener", Arg::Text(&fastener)), ("set", Arg::Text(&set.set)), ("torque", Arg::Text(set.torque))];
        match (set.with_adapter, set.set == set.torque) {
            (true, _) => self.say("have-set-adapter", &args),
            (false, true) => self.say("have-set", &args),
            (false, false) => self.say("have-set-for", &args),
        }
    }

    fn tool_row(&self, row: &ToolRow<'_>) -> Row {
        let kind = row.entry.what.kind.as_deref().map(|kind| self.site.words.of("tool-kind", kind));
        self.have_row(&row.thing, &row.entry.name, &row.entry.only, vec![Cell::maybe(kind), self.used_in(&row.thing)])
    }

    fn drive_row(&self, row: &DriveRow<'_>) -> Row {
        let page = |procedure: &Procedure| Detail { text: procedure.title.clone(), href: Some(self.link(&link::procedure_path(&self.machine.id, &procedure.id))) };
        let fasteners = row.fasteners.iter().map(|name| Detail::plain(*name)).collect();
        let procedures = row.procedures.iter().map(|procedure| page(procedure)).collect();
        Row { anchor: String::new(), head: Cell::text(glued(row.size)), cells: vec![Cell::details(fasteners), Cell::details(procedures)] }
    }

    fn wait_row(&self, row: &WaitRow<'_>) -> Row {
        let begin = row.at_once.then(|| self.site.say("have-begin"));
        let scene = self.inside(row.procedure);
        let cells = vec![Cell::maybe(scene.quantities(&row.entry.what.time)), Cell::maybe(begin), self.used_in(&row.thing)];
        scene.have_row(&row.thing, &row.entry.name, &row.entry.only, cells)
    }

    fn which(&self, details: &[String]) -> Cell {
        Cell::details(details.iter().map(|detail| Detail::plain(glued(detail))).collect())
    }

    fn how_many(&self, count: u64) -> Cell {
        Cell::text(self.say("count", &[("count", Arg::Count(count))]))
    }

    fn comes(&self, comes: &Comes<'_>) -> Cell {
        match comes {
            Comes::NotNeeded => Cell::default(),
            Comes::Kits(kits) => Cell::details(kits.iter().map(|kit| Detail::plain(*kit)).collect()),
            Comes::Order => Cell::text(self.site.say("comes-order")),
            Comes::Stock => Cell::text(self.site.say("comes-stock")),
            Comes::Unstated => Cell::text(self.site.say("comes-unstated")),
        }
    }
}
