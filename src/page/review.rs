//! The review of a machine: every thing with values, where they come from, since when, who read them twice, what was checked;
//! and in one line how a procedure stands.
//!
//! Filters are links to anchors of this page, and the style sheet does the rest: they work without a script.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::rows::{Cell, Row, Table, count, push_row};
use super::site::{Scene, Site};
use super::values::{Line, glued};
use super::words::Arg;
use crate::inspect::{is_unsourced, torque_accounts, used_by};
use crate::manual::{Combination, Entry, History, Home, ListKind, Source, ThingRef, WrittenValue};
use crate::quantity::Quantity;
use serde::Serialize;

/// The lists whose values a source must answer for, and the kits and parts that have values of their own.
const KINDS: &[ListKind] = &[
    ListKind::Fasteners, ListKind::Seals, ListKind::Bearings, ListKind::Parts, ListKind::Stacks, ListKind::Heats, ListKind::Beads, ListKind::Measures,
    ListKind::Shims, ListKind::Waits, ListKind::Fills, ListKind::Aligns, ListKind::Turns, ListKind::Tests, ListKind::Kits, ListKind::Materials,
];

/// Fields that are words about a thing, not values of the work.
const WORDS: &[&str] = &["name", "note", "source", "sources", "decided", "by", "licence", "balloons", "because", "title", "means"];

/// By what the review is filtered, in the order shown.
const MARKS: &[&str] = &["unsourced", "heard", "size-table", "practice", "measured", "waived", "once", "critical-once"];

#[derive(Serialize)]
struct ReviewView {
    machine: Detail,
    variants: Option<Detail>,
    filters: Vec<Filter>,
    columns: Vec<String>,
    label: String,
    /// Its rows, printed.
    rows: Markup,
    critical: Option<Table>,
    honesty: Option<Table>,
}

#[derive(Serialize)]
struct Filter {
    mark: &'static str,
    /// `Only heard: 3`.
    words: String,
    /// Nothing is led to where nothing has the mark.
    any: bool,
}

/// Makes the page.
pub(super) fn page(site: &Site<'_>, machine_index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::review_path(&machine.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &any, at_bench: false };
    let things: Vec<Reviewed<'_>> = KINDS.iter().flat_map(|kind| scene.things(*kind)).filter_map(|looked| Reviewed::of(looked.scene, looked.thing)).collect();
    let columns = ["col-entry", "col-values", "col-source", "col-kind", "col-read-by", "col-checked"];
    let mut rows = Markup::default();
    for thing in &things {
        thing.push_row(&mut rows);
    }
    let view = ReviewView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        variants: (!machine.axes.is_empty()).then(|| Detail { text: site.say("matrix-title"), href: Some(scene.link(&link::matrix_path(&machine.id))) }),
        filters: MARKS
            .iter()
            .map(|mark| {
                let number = count(things.iter().filter(|thing| thing.marks().contains(mark)).count());
                let what = site.words.of("review-mark", mark);
                Filter { mark, words: site.say_with("review-filter", &[("what", Arg::Text(&what)), ("count", Arg::Count(number))]), any: number > 0 }
            })
            .collect(),
        columns: columns.iter().map(|key| site.say(key)).collect(),
        label: site.say_with("table-of", &[("table", Arg::Text(&site.say("review-title"))), ("machine", Arg::Text(&machine.name))]),
        critical: critical(&scene, &things),
        rows,
        honesty: honesty_table(&scene),
    };
    let title = site.say_with("review-of", &[("machine", Arg::Text(&machine.name))]);
    let mut block = site.title_block("kind-review", &title, &format!("{}/review", machine.id), Some(&machine.history));
    block.machine = Some(view.machine.clone());
    let html = site.document("review.html", site.frame(&path, &title, "review"), block, &view)?;
    Ok((path, html))
}

/// A thing with values.
struct Reviewed<'s> {
    scene: Scene<'s>,
    thing: ThingRef,
    values: Vec<&'s WrittenValue>,
    sources: Vec<&'s Entry<Source>>,
    unsourced: bool,
    critical: bool,
    waivers: Vec<Detail>,
}

impl<'s> Reviewed<'s> {
    /// None for a thing without values.
    fn of(scene: Scene<'s>, thing: ThingRef) -> Option<Self> {
        let lists = scene.scope().lists_of(&thing)?;
        let values: Vec<&WrittenValue> =
            lists.written.iter().filter(|w| w.kind == thing.kind && w.id == thing.id && !WORDS.contains(&w.field)).collect();
        if values.is_empty() {
            return None;
        }
        let ids = lists.source(thing.kind, &thing.id).into_iter().flat_map(|source| &source.cases);
        let mut sources: Vec<&Entry<Source>> = ids.filter_map(|case| scene.scope().entry(|l| &l.sources, &case.value)).collect();
        sources.dedup_by(|a, b| a.id == b.id);
        let critical = values.iter().any(|value| value.field == "critical" && value.text == "true");
        Some(Self { unsourced: is_unsourced(lists, thing.kind, &thing.id), waivers: scene.waiver_details(&thing), scene, thing, values, sources, critical })
    }

    fn kinds(&self) -> impl Iterator<Item = &str> {
        self.sources.iter().filter_map(|source| source.what.kind.as_deref())
    }

    /// Whether every source of it was read by a second person.
    fn read_twice(&self) -> bool {
        !self.sources.is_empty() && self.sources.iter().all(|source| source.what.read_by.is_some())
    }

    fn marks(&self) -> Vec<&'static str> {
        let has = |kind: &str| self.kinds().any(|own| own == kind);
        let once = !self.sources.is_empty() && !self.read_twice();
        let found = [
            ("unsourced", self.unsourced),
            ("heard", has("heard")),
            ("size-table", has("size-table")),
            ("practice", has("practice")),
            ("measured", has("measured")),
            ("waived", !self.waivers.is_empty()),
            ("once", once),
            ("critical-once", self.critical && (once || self.unsourced)),
        ];
        found.into_iter().filter(|(_, is)| *is).map(|(mark, _)| mark).collect()
    }

    fn push_row(&self, page: &mut Markup) {
        let scene = &self.scene;
        let site = scene.site;
        let mut head = Cell::details(vec![Detail { text: scene.name(&self.thing), href: Some(scene.row_link(&self.thing)) }]);
        if self.critical {
            head.details.push(Detail::plain(site.say("review-critical")));
        }
        head.details.extend(self.waivers.iter().cloned());
        let mut kinds: Vec<String> = self.kinds().map(|kind| site.words.of("source-kind", kind)).collect();
        kinds.dedup();
        let source = if self.unsourced { Cell::text(site.say("unsourced")) } else { Cell::details(self.sources.iter().map(|source| scene.source_detail(&source.id)).chain(scene.claim_details(&self.thing)).collect()) };
        let cells = [
            Cell::values(self.values.iter().map(|value| self.line(value)).collect()),
            source,
            Cell::details(kinds.into_iter().map(Detail::plain).collect()),
            self.readers(),
            Cell::details(self.checked().into_iter().map(|key| Detail::plain(site.say(key))).collect()),
        ];
        // The classes are what filters look at.
        push_row(("class", &self.marks().join(" ")), &head, &cells, &[], page);
    }

    fn readers(&self) -> Cell {
        let mut readers: Vec<Detail> =
            self.sources.iter().filter_map(|source| source.what.read_by.as_ref()).map(|id| self.scene.detail_in(ListKind::People, &id.value)).collect();
        readers.dedup();
        if !self.sources.is_empty() && !self.read_twice() {
            readers.push(Detail::plain(self.scene.site.say("review-nobody")));
        }
        Cell::details(readers)
    }

    fn line(&self, value: &WrittenValue) -> Line {
        let field = self.scene.site.words.of("field", value.field).replace('_', " ");
        let label = if value.when.is_always() { field } else { format!("{field}, {}", value.when.words().replace(" · ", ", ")) };
        let mut line = Line::of(self.in_words(value).or_else(|| self.scene.name_of_id(value.kind, value.field, &value.text)).unwrap_or_else(|| as_read(&value.text))).labelled(Some(&label));
        if let Some(revision) = self.since(value) {
            line.other = Some(self.scene.say("review-since", &[("revision", Arg::Count(revision))]));
        }
        line
    }

    /// A value that is one of the format's own words, in the words of the page: `locker` is locker on the threads.
    fn in_words(&self, value: &WrittenValue) -> Option<String> {
        let words = &self.scene.site.words;
        let family = match (value.field, value.kind) {
            ("threads" | "lock" | "role" | "running" | "sense" | "got" | "strength" | "reuse" | "medium", _) => value.field,
            ("from", _) if matches!(value.text.as_str(), "order" | "stock") => "from",
            ("torque", _) if value.text == "hand" => return Some(self.scene.site.say("by-hand")),
            ("kind" | "type", ListKind::Seals) => "seal-kind",
            ("kind", ListKind::Materials) => "material-kind",
            ("kind", ListKind::Tools) => "tool-kind",
            ("kind", ListKind::Parts) => "part-kind",
            ("kind", ListKind::Tests) => "test-kind",
            ("into" | "housing", _) => "metal",
            (_, _) if matches!(value.text.as_str(), "true" | "false") => "flag",
            _ => return None,
        };
        // Words of one's own stay as they are.
        if matches!(family, "strength" | "medium") && value.text.contains(' ') {
            return None;
        }
        let list = value.text.strip_prefix('[').and_then(|text| text.strip_suffix(']')).unwrap_or(&value.text);
        let word = |word: &str| words.of(family, if (family, word) == ("reuse", "inspect") { "looked-at" } else { word });
        Some(list.split(", ").map(word).collect::<Vec<_>>().join(", "))
    }

    /// The revision whose change line was the last about a value.
    fn since(&self, value: &WrittenValue) -> Option<u64> {
        let history: &History = match (&self.thing.home, self.scene.procedure) {
            (Home::Shop, _) => &self.scene.site.input.manual.shop_history,
            (Home::Machine, _) => &self.scene.machine.history,
            (Home::Procedure(id), _) => &self.scene.machine.procedure(id)?.history,
        };
        let of = format!("{}.{}", self.thing.id, value.field);
        history.changes.iter().filter(|change| change.of.value == of).filter_map(|change| change.revision).max()
    }

    /// What Benchleaf holds the thing's values against, beside their form.
    fn checked(&self) -> Vec<&'static str> {
        let has = |field: &str| self.values.iter().any(|value| value.field == field);
        let in_two_units = self.values.iter().any(|value| value.text.contains('(') && Quantity::parse_free(&value.text).is_ok());
        let screened = self.thing.kind == ListKind::Fasteners
            && self.scene.scope().thing(|l| &l.fasteners, &self.thing).is_some_and(|entry| torque_accounts(self.scene.scope(), entry, self.scene.known).iter().any(|account| account.screening.is_some()));
        let found = [
            (screened, "review-checked-proof"),
            (in_two_units, "review-checked-units"),
            (has("angle_total"), "review-checked-stages"),
            (has("worked"), "review-checked-worked"),
            (has("is"), "review-checked-formula"),
            (has("spec") && has("limit"), "review-checked-limit"),
        ];
        let mut keys: Vec<&'static str> = found.into_iter().filter(|(is, _)| *is).map(|(_, key)| key).collect();
        if keys.is_empty() {
            keys.push("review-checked-form");
        }
        keys
    }
}

/// A value as it is written, but a list without the brackets that only YAML needs: `[[0, 60], [57, 19]]` as `(0, 60), (57, 19)`.
/// It can part after a comma alone, so that a number keeps its unit.
fn as_read(text: &str) -> String {
    let inner = |text: &str| ["[]", "{}"].iter().find_map(|pair| Some(text.strip_prefix(&pair[..1])?.strip_suffix(&pair[1..])?.to_owned()));
    match inner(text) {
        Some(list) => glued(&list.replace("[[", "[").replace("]]", "]").replace('[', "(").replace(']', ")").replace(": ", "\u{a0}")).replace(",\u{a0}", ", "),
        None => text.to_owned(),
    }
}

/// Who read the values of critical things a second time.
fn critical(scene: &Scene<'_>, things: &[Reviewed<'_>]) -> Option<Table> {
    let rows = things.iter().filter(|thing| thing.critical).map(|thing| {
        let by = thing.sources.iter().filter_map(|source| source.what.by.as_ref()).map(|id| thing.scene.detail_in(ListKind::People, &id.value));
        let head = Detail { text: thing.scene.name(&thing.thing), href: Some(thing.scene.row_link(&thing.thing)) };
        let sources = thing.sources.iter().map(|source| thing.scene.source_detail(&source.id)).collect();
        let readers = if thing.unsourced { Cell::text(scene.site.say("unsourced")) } else { thing.readers() };
        Row { anchor: String::new(), head: Cell::details(vec![head]), cells: vec![Cell::details(sources), Cell::details(by.collect()), readers, thing.scene.used_in(&thing.thing)] }
    });
    scene.table("table-critical", &["col-entry", "col-source", "col-by", "col-read-by", "col-used"], rows.collect())
}

/// How the values stand that a procedure uses: numbers of things, not of values.
struct Honesty {
    all: u64,
    sourced: u64,
    measured: u64,
    /// Every source of it was read by a second person.
    twice: u64,
    waived: u64,
}

/// How each procedure of a machine stands.
fn honesty_table(scene: &Scene<'_>) -> Option<Table> {
    let rows = scene.machine.procedures.iter().enumerate().filter_map(|(index, procedure)| {
        let Honesty { all, sourced, measured, twice, waived } = scene.inside(procedure).stands()?;
        let head = Cell::details(vec![scene.step_detail(index, None).unwrap_or_default()]);
        Some(Row { anchor: String::new(), head, cells: [all, sourced, measured, twice, waived].map(|number| Cell::text(number.to_string())).into() })
    });
    scene.table("review-honesty", &["col-procedure", "col-with-values", "col-sourced", "col-measured", "col-twice", "col-waived"], rows.collect())
}

impl Scene<'_> {
    /// How the values that a procedure uses stand. None where it uses none.
    fn stands(&self) -> Option<Honesty> {
        let procedure = self.procedure?;
        let mut seen: Vec<ThingRef> = Vec::new();
        for step in &procedure.steps {
            for thing in step.acts.iter().flat_map(|act| used_by(self.scope(), act, &step.only)) {
                if KINDS.contains(&thing.kind) && !seen.contains(&thing) {
                    seen.push(thing);
                }
            }
        }
        // Only what a source can answer for: a cover without a value needs none.
        let things: Vec<Reviewed<'_>> = seen.into_iter().filter_map(|thing| Reviewed::of(*self, thing)).filter(|thing| thing.unsourced || !thing.sources.is_empty()).collect();
        let of = |is: &dyn Fn(&Reviewed<'_>) -> bool| count(things.iter().filter(|thing| is(thing)).count());
        (!things.is_empty()).then(|| Honesty {
            all: count(things.len()),
            sourced: of(&|thing| !thing.unsourced),
            measured: of(&|thing| thing.kinds().any(|kind| kind == "measured")),
            twice: of(&|thing| thing.read_twice()),
            waived: of(&|thing| !thing.waivers.is_empty()),
        })
    }

    /// The same in a sentence: `Of 24 things with values, 24 have a source …`. Empty where the procedure uses none.
    pub(super) fn honesty(&self) -> String {
        let Some(Honesty { all, sourced, measured, twice, waived }) = self.stands() else { return String::new() };
        let told = [("all", all), ("sourced", sourced), ("measured", measured), ("twice", twice), ("waived", waived)];
        self.say("honesty", &told.map(|(key, number)| (key, Arg::Count(number))))
    }
}

#[cfg(test)]
mod tests {
    use super::as_read;

    #[test]
    fn a_list_reads_without_its_brackets_and_parts_after_commas_alone() {
        let shown = |text: &str| as_read(text).replace('\u{a0}', "~");
        assert_eq!(shown("{at: [[0, 60], [57, -19]]}"), "at~(0, 60), (57, -19)");
        assert_eq!(shown("[5 N·m, 9 ± 0.5 N·m]"), "5~N·m, 9~±~0.5~N·m");
        assert_eq!(shown("{rows: [3, 3]}"), "rows~(3, 3)");
        assert_eq!(shown("320 ± 15 N·m"), "320 ± 15 N·m");
    }
}
