//! The lists of a front matter, entry by entry.

use super::measure::{BacklashAt, Cord, Measure};
use super::lists::{List, ListKind, Lists, WrittenValue};
use super::read::{Outline, Reader, is_empty};
use super::reading::{Reading, Record};
use super::rules;
use super::shape::Shape;
use super::claims::Claims;
use super::tables::{COMMON, FileKind, entry_fields};
use super::shop::{Material, Person, Source, Term, Tool};
use super::expected::Expect;
use super::things::{Adapter, Align, Away, Balloon, Bead, Bearing, BearingFit, Edges, Entry, Faces, Fastener, Figure, Fill, Heat, InsteadOf, Kit, Layout, OpenItem, Part, Seal, Shaft, Shim, Spot, Stack, Test, Torque, Turn, Wait, WorkedShim};
use crate::finding::Finding;
use crate::source::{Node, Pair, Value};
use std::collections::BTreeSet;

/// Reads every list that this kind of file may hold.
pub(super) fn lists(reader: &mut Reader<'_>, node: &Node, kind: FileKind) -> Lists {
    let mut lists = Lists::default();
    for list in kind.lists() {
        let found = node.get(list.key());
        if node.value == Value::Hole || found.is_some_and(|node| !matches!(node.value, Value::Map(_))) {
            lists.holes.insert(list);
        }
        match node.pairs().iter().find(|pair| pair.key == list.key()) {
            Some(pair) if is_empty(&pair.node) => reader.empty_value(pair, "ids with their values"),
            Some(pair) => fill(reader, &mut lists, list, &pair.node),
            None => {}
        }
    }
    lists
}

fn fill(reader: &mut Reader<'_>, lists: &mut Lists, kind: ListKind, node: &Node) {
    let mut entries = EntryReader { reader, kind, written: &mut lists.written, unreadable: &mut lists.unreadable, claims: &mut lists.claims };
    match kind {
        ListKind::Fasteners => lists.fasteners = entries.list(node, fastener),
        ListKind::Seals => lists.seals = entries.list(node, seal),
        ListKind::Bearings => lists.bearings = entries.list(node, bearing),
        ListKind::Parts => lists.parts = entries.list(node, part),
        ListKind::Shafts => lists.shafts = entries.shafts(node),
        ListKind::Stacks => lists.stacks = entries.list(node, stack),
        ListKind::Heats => lists.heats = entries.list(node, heat),
        ListKind::Beads => lists.beads = entries.list(node, bead),
        ListKind::Measures => lists.measures = entries.list(node, measure),
        ListKind::Shims => lists.shims = entries.list(node, shim),
        ListKind::Waits => lists.waits = entries.list(node, wait),
        ListKind::Fills => lists.fills = entries.list(node, fill_of),
        ListKind::Aligns => lists.aligns = entries.list(node, align),
        ListKind::Turns => lists.turns = entries.list(node, turn),
        ListKind::Tests => lists.tests = entries.list(node, test),
        ListKind::Kits => lists.kits = entries.list(node, kit),
        ListKind::Figures => lists.figures = entries.list(node, figure),
        ListKind::Tools => lists.tools = entries.list(node, tool),
        ListKind::Materials => lists.materials = entries.list(node, material),
        ListKind::Sources => lists.sources = entries.list(node, source),
        ListKind::People => lists.people = entries.list(node, |_| Person),
        ListKind::Terms => lists.terms = entries.list(node, term),
        ListKind::LeavesOpen => lists.leaves_open = entries.list(node, open_item),
        ListKind::Away => lists.away = entries.list(node, away),
    }
}

struct EntryReader<'r, 'f> {
    reader: &'r mut Reader<'f>,
    kind: ListKind,
    written: &'r mut Vec<WrittenValue>,
    unreadable: &'r mut BTreeSet<(ListKind, String, &'static str)>,
    claims: &'r mut Vec<Claims>,
}

impl EntryReader<'_, '_> {
    fn list<T>(&mut self, node: &Node, make: impl Fn(&Record) -> T) -> List<T> {
        let mut list = List::default();
        for pair in self.pairs(node) {
            let tables = [entry_fields(self.kind), COMMON];
            let outline = Outline { tables: &tables, others: &[], what: self.kind.one(), anchor: &pair.key_place };
            let record = if is_empty(&pair.node) {
                self.reader.empty_value(pair, "its keys, or {} where there is nothing to say");
                Record::empty(pair.node.place.clone())
            } else {
                self.reader.record(&pair.node, &outline)
            };
            if !matches!(pair.node.value, Value::Map(_)) {
                // What the entry would have said is not known.
                let fields = tables.iter().flat_map(|table| table.iter());
                self.unreadable.extend(fields.map(|field| (self.kind, pair.key.clone(), field.key)));
            }
            let mut entry = entry(pair, &record, make(&record));
            if let Some(claims) = Claims::of(self.kind, &pair.key, &record) {
                if !entry.source.is_given() {
                    entry.source = claims.leading();
                }
                self.claims.push(claims);
            }
            self.keep_written(pair, &record);
            list.insert(pair.key.clone(), entry);
        }
        list
    }

    /// `propeller-shaft: [gear-oil, carrier-inner, …]`: a list where the others have a map.
    fn shafts(&mut self, node: &Node) -> List<Shaft> {
        let mut list = List::default();
        for pair in self.pairs(node) {
            let sits = self.reader.shape(&Shape::List(&Shape::Id), &pair.node).map(|spot| spot.value.items()).unwrap_or_default();
            let record = Record::empty(pair.node.place.clone());
            list.insert(pair.key.clone(), entry(pair, &record, Shaft { sits }));
        }
        list
    }

    fn pairs<'n>(&mut self, node: &'n Node) -> Vec<&'n Pair> {
        if let Value::Scalar(_) | Value::List(_) = &node.value {
            self.reader.report(
                Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("‘{}’ is written as ids with their values", self.kind.key()))
                    .label("no ids here")
                    .fix(format!("write {}: {{id: {{…}}, …}}", self.kind.key())),
            );
        }
        let mut kept = Vec::new();
        for pair in node.pairs() {
            if self.kind != ListKind::Figures {
                self.check_id(pair);
            }
            kept.push(pair);
        }
        kept
    }

    fn check_id(&mut self, pair: &Pair) {
        if is_id(&pair.key) {
            return;
        }
        self.reader.report(
            Finding::new(&rules::ID_SHAPE, pair.key_place.clone(), format!("‘{}’ is no id", pair.key))
                .label("letters that ids don't have")
                .fix(match as_id(&pair.key) {
                    Some(id) => format!("write it in lower-case words joined by hyphens: {id}"),
                    None => "write it in lower-case words joined by hyphens, such as hub-nut".to_owned(),
                }),
        );
    }

    fn keep_written(&mut self, pair: &Pair, record: &Record) {
        for field in &record.unreadable {
            self.unreadable.insert((self.kind, pair.key.clone(), field));
        }
        for written in &record.written {
            self.written.push(WrittenValue {
                kind: self.kind,
                id: pair.key.clone(),
                field: written.field,
                when: written.when.clone(),
                text: written.text.clone(),
                place: written.place.clone(),
                varies: written.varies,
            });
        }
    }
}

/// Whether a text is lower-case words joined by hyphens.
pub(crate) fn is_id(text: &str) -> bool {
    let word = |word: &str| !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit());
    text.split('-').all(word)
}

/// What an author may have meant by something that is no id.
fn as_id(text: &str) -> Option<String> {
    let lowered: String = text.to_lowercase().chars().map(without_marks).map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect();
    let words: Vec<&str> = lowered.split_whitespace().collect();
    (!words.is_empty()).then(|| words.join("-"))
}

/// The letter below the marks of the commonest Latin letters.
fn without_marks(c: char) -> char {
    match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => 'a',
        'ç' => 'c',
        'è' | 'é' | 'ê' | 'ë' => 'e',
        'ì' | 'í' | 'î' | 'ï' => 'i',
        'ñ' => 'n',
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' => 'o',
        'ù' | 'ú' | 'û' | 'ü' => 'u',
        'ß' => 's',
        other => other,
    }
}

fn entry<T>(pair: &Pair, record: &Record, what: T) -> Entry<T> {
    Entry {
        id: pair.key.clone(),
        id_place: pair.key_place.clone(),
        name: record.text("name").unwrap_or_else(|| pair.key.clone()),
        source: record.texts("source"),
        only: record.first("for", Reading::condition).unwrap_or_default(),
        note: record.text("note"),
        limit: record.quantities("limit"),
        what,
    }
}

fn fastener(r: &Record) -> Fastener {
    Fastener {
        count: r.counts("count"),
        thread: r.varied("thread", Reading::thread),
        class: r.texts("class"),
        role: r.texts("role"),
        holds: r.spots("holds"),
        into: r.texts("into"),
        length: r.quantities("length"),
        clamped: r.quantities("clamped"),
        hole: r.quantities("hole"),
        washer: r.quantities("washer"),
        head: r.quantities("head"),
        room: r.quantities("room"),
        drive: r.texts("drive"),
        threads: r.texts("threads"),
        locker: r.texts("locker"),
        torque: r.varied("torque", torque),
        angle_total: r.quantities("angle_total"),
        order: r.varied("order", |reading| Some(reading.list().iter().filter_map(|item| item.value.count()).collect())),
        layout: r.varied("layout", |reading| reading.record().and_then(layout)),
        edges: r.varied("layout", |reading| reading.record().map(|record| Edges { words: Edges::KEYS.map(|key| record.text(key)) })),
        tool: r.texts("tool"),
        adapter: r.varied("adapter", |reading| {
            reading.record().map(|a| Adapter { length: a.quantity("length"), angle: a.quantity("angle") })
        }),
        hold_with: r.texts("hold_with"),
        lock: r.texts("lock"),
        running: r.texts("running"),
        reuse: r.texts("reuse"),
        when: r.texts("when"),
        new: r.counts("new"),
        spare: r.counts("spare"),
        temporary: r.flag("temporary"),
        critical: r.flag("critical"),
        instead_of: r.varied("instead_of", |reading| {
            reading.record().map(|i| InsteadOf {
                thread: i.first("thread", Reading::thread).map(|t| t.to_string()),
                length: i.quantity("length"),
                class: i.text("class"),
                until: i.text("until"),
            })
        }),
        from: r.texts("from"),
        got: r.texts("got"),
        because: r.text("because"),
    }
}

fn torque(reading: &Reading) -> Option<Torque> {
    match reading {
        Reading::Text(_) => Some(Torque::Hand),
        Reading::Quantity(quantity) => Some(Torque::Stages(vec![(**quantity).clone()])),
        Reading::List(items) => {
            let stages: Vec<_> = items.iter().filter_map(|item| item.value.quantity()).collect();
            (!stages.is_empty()).then_some(Torque::Stages(stages))
        }
        _ => None,
    }
}

fn layout(record: &Record) -> Option<Layout> {
    let rows = |reading: &Reading| Some(reading.list().iter().filter_map(|item| item.value.count()).collect());
    let places = |reading: &Reading| {
        let place = |item: &Spot<Reading>| match item.value {
            Reading::Pair(x, y) => Some((x, y)),
            _ => None,
        };
        Some(reading.list().iter().filter_map(place).collect())
    };
    let circle = record.first("circle", Reading::count).map(Layout::Circle);
    circle.or_else(|| record.first("rows", rows).map(Layout::Rows)).or_else(|| record.first("at", places).map(Layout::At))
}

fn faces(reading: &Reading) -> Option<Faces> {
    match reading {
        Reading::Text(_) => Some(Faces::Either),
        Reading::Named(pairs) => {
            let toward = pairs
                .iter()
                .filter_map(|(feature, of)| {
                    of.value.text().map(|value| (feature.value.clone(), Spot { value, place: of.place.clone() }))
                })
                .collect();
            Some(Faces::Toward(toward))
        }
        _ => None,
    }
}

fn seal(r: &Record) -> Seal {
    Seal {
        kind: r.texts("type"),
        size: r.varied("size", Reading::size),
        material: r.texts("material"),
        count: r.counts("count"),
        reuse: r.texts("reuse"),
        when: r.texts("when"),
        new: r.counts("new"),
        spare: r.counts("spare"),
        faces: r.varied("faces", faces),
        pair: r.texts("pair"),
        depth: r.quantities("depth"),
        shaft: r.quantities("shaft"),
        bore: r.quantities("bore"),
        lip: r.texts("lip"),
        within: r.texts("in"),
        over: r.texts("over"),
        sleeve: r.texts("sleeve"),
        vent: r.quantities("vent"),
        number: r.texts("number"),
        from: r.texts("from"),
        got: r.texts("got"),
    }
}

fn bearing(r: &Record) -> Bearing {
    Bearing {
        size: r.varied("size", Reading::size),
        count: r.counts("count"),
        within: r.texts("in"),
        fit: r.varied("fit", |reading| {
            reading.record().map(|f| BearingFit {
                bore: f.quantity("bore"),
                shaft: f.quantity("shaft"),
                interference: f.quantity("interference"),
                housing: f.text("housing"),
            })
        }),
        faces: r.varied("faces", faces),
        reuse: r.texts("reuse"),
        when: r.texts("when"),
        new: r.counts("new"),
        spare: r.counts("spare"),
        number: r.texts("number"),
        from: r.texts("from"),
        got: r.texts("got"),
    }
}

fn part(r: &Record) -> Part {
    Part {
        kind: r.texts("kind"),
        number: r.texts("number"),
        count: r.counts("count"),
        faces: r.varied("faces", faces),
        side: r.texts("side"),
        from: r.texts("from"),
        got: r.texts("got"),
        reuse: r.texts("reuse"),
        when: r.texts("when"),
        new: r.counts("new"),
        spare: r.counts("spare"),
        covers: r.spots("covers"),
        under: r.texts("under"),
        within: r.texts("in"),
        thickness: r.quantities("thickness"),
        mass: r.quantities("mass"),
        material: r.texts("material"),
        temporary: r.flag("temporary"),
        critical: r.flag("critical"),
        live: r.flag("live"),
    }
}

fn stack(r: &Record) -> Stack {
    Stack { of: r.spots("of"), begin: r.texts("begin"), end: r.texts("end") }
}

fn heat(r: &Record) -> Heat {
    Heat {
        of: r.texts("of"),
        from: r.quantities("from"),
        to: r.quantities("to"),
        cool: r.quantities("cool"),
        check_with: r.texts("check_with"),
    }
}

fn bead(r: &Record) -> Bead {
    Bead { of: r.texts("of"), between: r.spots("between"), diameter: r.quantities("diameter"), path: r.quantities("path"), gap: r.quantities("gap") }
}

fn measure(r: &Record) -> Measure {
    Measure {
        kind: r.texts("kind"),
        spec: r.quantities("spec"),
        limit: r.quantities("limit"),
        with: r.texts("with"),
        count: r.counts("count"),
        places: r.spots("places"),
        when: r.texts("when"),
        otherwise: r.texts("otherwise"),
        chooses: r.texts("chooses"),
        formula: r.texts("is"),
        of: r.texts("of"),
        bore: r.quantities("bore"),
        at: r.varied("at", |reading| {
            reading
                .record()
                .map(|a| BacklashAt { gear_radius: a.quantity("gear_radius"), dial_radius: a.quantity("dial_radius") })
        }),
        cord: r.varied("cord", |reading| reading.record().map(|c| Cord { radius: c.quantity("radius"), torque: c.quantity("torque") })),
    }
}

fn shim(r: &Record) -> Shim {
    Shim {
        from: r.quantities("from"),
        step: r.quantities("step"),
        formula: r.texts("is"),
        old: r.quantities("old"),
        target: r.quantities("target"),
        accept: r.quantities("accept"),
        worked: r.varied("worked", |reading| {
            reading.record().map(|w| WorkedShim { reading: w.quantity("reading"), gives: w.quantity("gives") })
        }),
        count: r.counts("count"),
    }
}

fn wait(r: &Record) -> Wait {
    Wait {
        time: r.quantities("time"),
        of: r.spots("of"),
        medium: r.texts("in"),
        covered: r.flag("covered"),
        needs: r.texts("needs"),
    }
}

fn fill_of(r: &Record) -> Fill {
    Fill { of: r.texts("of"), amount: r.quantities("amount"), ratio: r.quantities("ratio"), oil: r.quantities("oil") }
}

fn align(r: &Record) -> Align {
    Align {
        marks: r.spots("marks").into_iter().map(|spot| spot.value).collect(),
        offset: r.quantities("offset"),
        arc: r.quantities("arc"),
        diameter: r.quantities("diameter"),
        sense: r.texts("sense"),
        viewed_from: r.texts("viewed_from"),
        check_with: r.texts("check_with"),
    }
}

fn turn(r: &Record) -> Turn {
    Turn { of: r.texts("of"), amount: r.quantities("amount"), sense: r.texts("sense"), viewed_from: r.texts("viewed_from") }
}

fn test(r: &Record) -> Test {
    let expect = |reading: &Reading| match reading {
        Reading::Text(words) => Some(Expect::Words(words.clone())),
        Reading::Named(pairs) => Some(Expect::Quantities(
            pairs.iter().filter_map(|(name, value)| Some((name.value.clone(), value.value.quantity()?))).collect(),
        )),
        _ => None,
    };
    Test { kind: r.texts("kind"), expect: r.varied("expect", expect), otherwise: r.texts("otherwise") }
}

fn kit(r: &Record) -> Kit {
    let holds = |reading: &Reading| {
        Some(reading.named().iter().filter_map(|(id, count)| Some((id.clone(), count.value.count()?))).collect())
    };
    Kit { holds: r.first("holds", holds).unwrap_or_default(), number: r.texts("number"), got: r.texts("got") }
}

fn figure(r: &Record) -> Figure {
    let balloon = |b: &Record| {
        Some(Balloon {
            item: b.first("item", Reading::count)?,
            at: b.first("at", Reading::percent)?,
            of: b.spot("of", Reading::text),
            place: b.place.clone(),
        })
    };
    Figure {
        by: r.text("by"),
        licence: r.text("licence"),
        balloons: r
            .first("balloons", |reading| Some(reading.records().into_iter().filter_map(balloon).collect()))
            .unwrap_or_default(),
    }
}

fn tool(r: &Record) -> Tool {
    Tool {
        kind: r.text("kind"),
        range: r.quantity("range"),
        scale: r.text("scale"),
        step: r.quantity("step"),
        drive: r.text("drive"),
        length: r.quantity("length"),
        resolution: r.quantity("resolution"),
        against: r.spots("against").into_iter().map(|spot| spot.value).collect(),
        needs: r.spot("needs", Reading::text),
        calibrated: r.first("calibrated", Reading::date),
        calibrate_every: r.first("calibrate_every", Reading::count),
        got: r.texts("got"),
    }
}

fn material(r: &Record) -> Material {
    Material {
        kind: r.text("kind"),
        strength: r.spot("strength", Reading::text),
        threads: r.text("threads"),
        working: r.quantity("working"),
        fixture: r.quantity("fixture"),
        cure: r.quantity("cure"),
        service: r.quantity("service"),
        release: r.quantity("release"),
        grade: r.text("grade"),
        base: r.text("base"),
        pack: r.quantity("pack"),
        packs: r.first("packs", Reading::count),
        got: r.texts("got"),
    }
}

fn source(r: &Record) -> Source {
    Source {
        title: r.text("title").unwrap_or_default(),
        kind: r.text("kind"),
        edition: r.text("edition"),
        page: r.text("page"),
        date: r.first("date", Reading::date),
        by: r.spot("by", Reading::text),
        read_by: r.spot("read_by", Reading::text),
    }
}

fn term(r: &Record) -> Term {
    Term {
        means: r.text("means").unwrap_or_default(),
        not: r.spots("not").into_iter().map(|spot| spot.value).collect(),
    }
}

fn open_item(r: &Record) -> OpenItem {
    OpenItem {
        of: r.spot("of", Reading::text),
        left: r.text("left"),
        because: r.text("because"),
        finish_in: r.spot("finish_in", Reading::text),
        forbids: r.spots("forbids"),
    }
}

fn away(r: &Record) -> Away {
    Away {
        because: r.text("because"),
        finish_in: r.spot("finish_in", Reading::text),
        on_return: r.spots("on_return"),
    }
}
