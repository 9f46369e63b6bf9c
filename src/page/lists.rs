//! The tables of one machine, a list of the front matter each.

use super::details::Told;
use super::details_work::accept_key;
use super::names::{Detail, is_locker};
use super::rows::{Cell, Row, Table};
use super::site::Scene;
use super::values::{Line, cases, glued, varied_text};
use super::words::Arg;
use crate::manual::{ListKind, Varied, Verb};
use crate::quantity::{Dimension, Quantity};

/// The lists of work: the verb under which their values are told, the caption of their table, its first column.
const WORK: &[(ListKind, Verb, &str, &str)] = &[
    (ListKind::Measures, Verb::Measure, "table-measures", "col-measure"),
    (ListKind::Shims, Verb::Fit, "table-shims", "col-shim"),
    (ListKind::Fills, Verb::Fill, "table-fills", "col-fill"),
    (ListKind::Heats, Verb::Heat, "table-heats", "col-heat"),
    (ListKind::Waits, Verb::Begin, "table-waits", "col-wait"),
    (ListKind::Beads, Verb::Apply, "table-beads", "col-bead"),
    (ListKind::Aligns, Verb::Align, "table-aligns", "col-align"),
    (ListKind::Turns, Verb::Turn, "table-turns", "col-turn"),
    (ListKind::Tests, Verb::Test, "table-tests", "col-test"),
    (ListKind::Stacks, Verb::Fit, "table-stacks", "col-stack"),
];

impl Scene<'_> {
    /// Every fastener with its torque.
    pub(super) fn torque_table(&self) -> Option<Table> {
        let rows = self.things(ListKind::Fasteners).into_iter().filter_map(|looked| {
            let (scene, thing) = (looked.scene, looked.thing);
            let entry = scene.scope().thing(|l| &l.fasteners, &thing)?;
            let scene = Scene { known: &entry.only, ..scene };
            let fastener = &entry.what;
            let mut threads = Told::default();
            for (label, id) in cases(&fastener.locker, scene.known) {
                let mut detail = scene.detail_in(ListKind::Materials, id);
                if let Some(label) = label {
                    detail.text = format!("{label} {}", detail.text);
                }
                threads.details.push(detail);
            }
            if !fastener.locker.is_given() {
                threads.detail(varied_text(&fastener.threads, scene.known, |t| scene.site.words.of("threads", t)));
            }
            threads.detail(varied_text(&fastener.lock, scene.known, |lock| scene.site.words.of("lock", lock)));
            threads.detail(varied_text(&fastener.running, scene.known, |running| scene.site.words.of("running", running)));
            let mut head = self.head_cell(&entry.name, &entry.only, entry.note.as_deref());
            // Below the name: what it is is looked for there, and columns of sizes and wrenches leave the steps one word of width on paper.
            head.details.splice(1..1, scene.fastener_text(fastener, None).map(Detail::plain));
            if fastener.critical {
                head.details.push(Detail::plain(self.site.say("two-signatures")));
            }
            if fastener.temporary {
                head.details.push(Detail::plain(self.site.say("card-temporary")));
            }
            let wrenches = scene.wrenches(fastener, None).into_iter().map(|wrench| scene.detail_in(ListKind::Tools, &wrench.id));
            let beside = scene.order_text(fastener).into_iter().map(Detail::plain).chain(wrenches).collect();
            let cells = vec![
                Cell { lines: scene.torque_lines(fastener, None), ..Cell::details(beside) },
                Cell::details(threads.details),
                Cell::details([scene.reuse_text(&fastener.reuse, &fastener.when), scene.origin_text(&fastener.from), scene.got_text(&fastener.got)].into_iter().flatten().map(Detail::plain).collect()),
                scene.source_cell(&entry.source),
                self.used_in(&thing),
            ];
            Some(self.row(&thing, head, cells))
        });
        let rows = rows.collect();
        self.table(
            "table-torque",
            &["col-fastener", "col-torque", "col-threads", "col-reuse", "col-source", "col-used"],
            rows,
        )
    }

    /// Every locker, retaining compound and sealant (`lockers`), or every other material.
    pub(super) fn materials_table(&self, lockers: bool) -> Option<Table> {
        let rows = self.things(ListKind::Materials).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.materials, &looked.thing)?;
            let material = &entry.what;
            if is_locker(material) != lockers {
                return None;
            }
            let words = |family: &str, text: Option<&str>| text.map(|text| self.site.words.of(family, text));
            let head = self.head_cell(&entry.name, &entry.only, entry.note.as_deref());
            let pack = material.pack.as_ref().map(|pack| {
                let pack = self.quantity(pack);
                match material.packs {
                    Some(packs) if packs > 1 => self.site.words.say_with("packs", &[("count", Arg::Count(packs)), ("pack", Arg::Text(&pack))]),
                    _ => pack,
                }
            });
            let labelled = |column: &str, text: String| format!("{}: {text}", self.site.say(column));
            let times = [("col-working", &material.working), ("col-fixture", &material.fixture), ("col-cure", &material.cure)];
            let heats = [("col-service", &material.service), ("col-release", &material.release)];
            let cells = vec![
                Cell::maybe(words("material-kind", material.kind.as_deref()))
                    .and(words("strength", material.strength.as_ref().map(|s| s.value.as_str())).map(|strength| labelled("col-strength", strength)))
                    .and(material.grade.clone().map(|grade| labelled("col-grade", grade))),
                Cell::maybe(material.base.clone()),
                Cell::maybe(material.threads.clone()),
                self.labelled(&times),
                self.labelled(&heats),
                Cell::maybe(pack).and(looked.scene.got_text(&material.got)),
                looked.scene.source_cell(&entry.source),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, head, cells))
        });
        let rows = rows.collect();
        let columns = [
            "col-material", "col-kind", "col-base", "col-for-threads", "col-times", "col-temperatures", "col-pack",
            "col-source", "col-used",
        ];
        self.table(if lockers { "table-lockers" } else { "table-materials" }, &columns, rows)
    }

    /// Every seal.
    pub(super) fn seals_table(&self) -> Option<Table> {
        let rows = self.things(ListKind::Seals).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.seals, &looked.thing)?;
            let scene = Scene { known: &entry.only, ..looked.scene };
            let seal = &entry.what;
            let text = |varied: &Varied<String>| Cell::maybe(varied_text(varied, scene.known, Clone::clone));
            let head = self.head_cell(&entry.name, &entry.only, entry.note.as_deref());
            let under = |column: &str, text: Option<String>| text.map(|text| Detail::plain(format!("{}: {text}", self.site.say(column))));
            let lip = under("col-lip", varied_text(&seal.lip, scene.known, |id| scene.named(id)));
            let sleeve = under("col-sleeve", varied_text(&seal.sleeve, scene.known, |id| scene.name_in(ListKind::Tools, id)));
            let depth = scene.plain_lines(&seal.depth).into_iter().map(|line| line.labelled(Some(&self.site.say("col-depth")))).collect();
            let kind = varied_text(&seal.kind, scene.known, |kind| self.site.words.of("seal-kind", kind));
            let cells = vec![
                Cell::maybe(scene.seal_text(seal, None)).and(kind),
                Cell::maybe(varied_text(&seal.within, scene.known, |id| scene.named(id))),
                Cell::maybe(scene.faces_text(&seal.faces)),
                Cell { lines: depth, ..Cell::details(lip.into_iter().chain(sleeve).collect()) },
                text(&seal.number).and(scene.got_text(&seal.got)),
                Cell::maybe(scene.reuse_text(&seal.reuse, &seal.when)),
                scene.source_cell(&entry.source),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, head, cells))
        });
        let rows = rows.collect();
        let columns = [
            "col-seal", "col-size", "col-in", "col-faces", "col-details", "col-number", "col-reuse", "col-source", "col-used",
        ];
        self.table("table-seals", &columns, rows)
    }

    /// Every part, bearing and seal that has to be at hand.
    pub(super) fn parts_table(&self) -> Option<Table> {
        let mut rows: Vec<Row> = self.things(ListKind::Parts).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.parts, &looked.thing)?;
            let scene = Scene { known: &entry.only, ..looked.scene };
            let part = &entry.what;
            let mut side = Cell::maybe(scene.faces_text(&part.faces));
            side.details.extend(Cell::maybe(varied_text(&part.side, scene.known, Clone::clone)).details);
            let cells = vec![
                scene.count_cell(&part.count, &part.new, &part.spare),
                Cell::maybe(scene.size_text(&part.thickness, &part.material)),
                scene.origin_cell(&part.number, &part.from).and(scene.got_text(&part.got)),
                Cell::maybe(scene.reuse_text(&part.reuse, &part.when)),
                side,
                scene.source_cell(&entry.source),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, self.head_cell(&entry.name, &entry.only, entry.note.as_deref()), cells))
        }).collect();
        rows.extend(self.things(ListKind::Bearings).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.bearings, &looked.thing)?;
            let scene = Scene { known: &entry.only, ..looked.scene };
            let bearing = &entry.what;
            let cells = vec![
                scene.count_cell(&bearing.count, &bearing.new, &bearing.spare),
                Cell::maybe(varied_text(&bearing.size, scene.known, |size| size.written().to_owned())),
                scene.origin_cell(&bearing.number, &bearing.from).and(scene.got_text(&bearing.got)),
                Cell::maybe(scene.reuse_text(&bearing.reuse, &bearing.when)),
                Cell::maybe(scene.faces_text(&bearing.faces)),
                scene.source_cell(&entry.source),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, self.head_cell(&entry.name, &entry.only, entry.note.as_deref()), cells))
        }));
        let columns = ["col-part", "col-count", "col-size", "col-from", "col-reuse", "col-faces", "col-source", "col-used"];
        self.table("table-parts", &columns, rows)
    }

    /// Every kit and what it holds.
    pub(super) fn kits_table(&self) -> Option<Table> {
        let rows = self.things(ListKind::Kits).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.kits, &looked.thing)?;
            let scene = Scene { known: &entry.only, ..looked.scene };
            let holds = entry.what.holds.iter().map(|(id, count)| {
                let thing = scene.find_named(&id.value);
                Detail {
                    text: format!("{} {}", self.say("count", &[("count", Arg::Count(*count))]), scene.named(&id.value)),
                    href: thing.map(|thing| scene.row_link(&thing)),
                }
            });
            let cells = vec![
                Cell::maybe(varied_text(&entry.what.number, scene.known, Clone::clone)).and(scene.got_text(&entry.what.got)),
                scene.source_cell(&entry.source),
                Cell::details(holds.collect()),
            ];
            Some(self.row(&looked.thing, self.head_cell(&entry.name, &entry.only, entry.note.as_deref()), cells))
        });
        let rows = rows.collect();
        self.table("table-kits", &["col-kit", "col-number", "col-source", "col-holds"], rows)
    }

    /// Every tool.
    pub(super) fn tools_table(&self) -> Option<Table> {
        let rows = self.things(ListKind::Tools).into_iter().filter_map(|looked| {
            let entry = looked.scene.scope().thing(|l| &l.tools, &looked.thing)?;
            let tool = &entry.what;
            let against: Vec<String> = tool.against.iter().map(|a| self.site.words.of("against", a)).collect();
            let plain = |column: &str, text: &Option<String>| text.as_ref().map(|text| Line::of(text.as_str()).labelled(Some(&self.site.say(column))));
            // A tool has few of them: a column for each would be empty almost throughout, and the table wider than its page.
            let mut data = self.labelled(&[("col-range", &tool.range)]);
            data.lines.extend(plain("col-scale", &tool.scale));
            data.lines.extend(self.labelled(&[("col-scale-step", &tool.step)]).lines);
            data.lines.extend(plain("col-drive", &tool.drive));
            data.lines.extend(self.labelled(&[("col-length", &tool.length)]).lines);
            // A step of 1 °C is no temperature of 1 °C: 34 °F beside it would be wrong.
            let degrees = tool.resolution.as_ref().filter(|step| step.dimension() == Dimension::Temperature);
            match degrees {
                Some(step) => data.lines.push(Line::of(glued(step.written())).labelled(Some(&self.site.say("col-resolution")))),
                None => data.lines.extend(self.labelled(&[("col-resolution", &tool.resolution)]).lines),
            }
            let cells = vec![
                Cell::maybe(tool.kind.as_deref().map(|kind| self.site.words.of("tool-kind", kind))).and(looked.scene.got_text(&tool.got)),
                data,
                Cell::text(against.join(", ")),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, self.head_cell(&entry.name, &entry.only, entry.note.as_deref()), cells))
        });
        let rows = rows.collect();
        let columns = ["col-tool", "col-kind", "col-values", "col-against", "col-used"];
        self.table("table-tools", &columns, rows)
    }

    /// The tables of work whose values are told as an act tells them: heats, waits, fills and the like.
    pub(super) fn work_tables(&self) -> Vec<Table> {
        WORK.iter().filter_map(|(kind, verb, caption, column)| self.work_table(*kind, *verb, caption, column)).collect()
    }

    fn work_table(&self, kind: ListKind, verb: Verb, caption: &str, column: &str) -> Option<Table> {
        let rows = self.things(kind).into_iter().filter_map(|looked| {
            let lists = looked.scene.scope().lists_of(&looked.thing)?;
            let head = lists.head(kind, &looked.thing.id)?;
            let scene = Scene { known: head.only, ..looked.scene };
            let mut told = Told::default();
            scene.tell_one(verb, &looked.thing, &mut told);
            let cells = vec![
                Cell::values(told.lines),
                Cell::details(told.details),
                lists.source(kind, &looked.thing.id).map_or_else(Cell::default, |source| scene.source_cell(source)),
                self.used_in(&looked.thing),
            ];
            Some(self.row(&looked.thing, self.head_cell(head.name, head.only, None), cells))
        });
        let rows = rows.collect();
        self.table(caption, &[column, "col-value", "col-details", "col-source", "col-used"], rows)
    }

    /// Values of several keys in one cell, each under the word for it.
    fn labelled(&self, values: &[(&str, &Option<Quantity>)]) -> Cell {
        let given = values.iter().filter_map(|(column, quantity)| Some((column, quantity.as_ref()?)));
        Cell::values(given.map(|(column, quantity)| super::values::quantity_line(quantity, self.units()).labelled(Some(&self.site.say(column)))).collect())
    }

    fn size_text(&self, thickness: &Varied<Quantity>, material: &Varied<String>) -> Option<String> {
        let parts: Vec<String> =
            [self.quantities(thickness), varied_text(material, self.known, Clone::clone)].into_iter().flatten().collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }

    /// How many there are, how many new ones to have, and spares.
    fn count_cell(&self, count: &Varied<u64>, new: &Varied<u64>, spare: &Varied<u64>) -> Cell {
        let number = |key: &str, varied: &Varied<u64>| varied_text(varied, self.known, |n| self.say(key, &[("count", Arg::Count(*n))]));
        let texts = [varied_text(count, self.known, u64::to_string), number("new", new), number("spare", spare)];
        Cell::details(texts.into_iter().flatten().map(Detail::plain).collect())
    }

    /// A part's number and where it comes from.
    fn origin_cell(&self, number: &Varied<String>, from: &Varied<String>) -> Cell {
        let number = varied_text(number, self.known, |n| self.say("part-number", &[("number", Arg::Text(n))]));
        let texts = [number, self.origin_text(from)];
        Cell::details(texts.into_iter().flatten().map(Detail::plain).collect())
    }

    /// How something was come by: bought, given, lent.
    fn got_text(&self, got: &Varied<String>) -> Option<String> {
        varied_text(got, self.known, |got| self.site.words.of("got", got))
    }

    /// Where a part comes from: a kit's name, ordered, from stock.
    pub(super) fn origin_text(&self, from: &Varied<String>) -> Option<String> {
        varied_text(from, self.known, |from| match self.scope().entry(|l| &l.kits, from) {
            Some(kit) => kit.name.clone(),
            None => self.site.words.of("from", from),
        })
    }

    /// The values of a thing of a list of work, as its table tells them.
    pub(super) fn told_alone(&self, thing: &crate::manual::ThingRef) -> Told {
        let mut told = Told::default();
        if let Some((_, verb, ..)) = WORK.iter().find(|(kind, ..)| *kind == thing.kind) {
            self.tell_one(*verb, thing, &mut told);
        }
        told
    }

    /// The values of a thing without an act.
    fn tell_one(&self, verb: Verb, thing: &crate::manual::ThingRef, told: &mut Told) {
        match thing.kind {
            ListKind::Shims => {
                if let Some(entry) = self.scope().thing(|l| &l.shims, thing) {
                    let quantity = |q: &Quantity| super::values::quantity_line(q, self.units());
                    told.lines = cases(&entry.what.accept, self.known)
                        .map(|(case, q)| quantity(q).labelled(case.as_deref()).labelled(Some(&self.site.say(accept_key(&entry.what)))))
                        .collect::<Vec<Line>>();
                    told.detail(self.shim_text(&entry.what));
                    told.detail(self.shim_formula(&entry.what));
                }
            }
            ListKind::Stacks => self.tell_stack(thing, told),
            _ => self.tell_work(verb, thing, told),
        }
    }
}
