//! Parts of another origin in one variant: values that were taken over for them, and neighbours that were not made for them.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Kit, ListKind, Lists, Machine, Manual, Part, Scope, Spot, Torque, Varied};
use std::collections::{BTreeMap, BTreeSet};

/// A value was taken over for parts of another origin.
pub(super) static INHERITED_VALUE_UNCHECKED: Rule = Rule {
    name: "inherited-value-unchecked",
    severity: Severity::Warning,
    summary: "Parts come from elsewhere in one variant, and a value for them is taken over unchecked.",
    explanation: Explanation {
        finds: "Parts, seals and bearings whose from: names a kit in some variants only, and values that name them without differing by the same axis, neither the value nor its source, and whose source is not the kit's: torques of fasteners that hold them, specs and limits of measurements of: them or of their stack, times of waits and temperatures of heats of: them.",
        matters: "A pack from another maker has its own torque, its own limit and its own soak. A value that nobody looked up for it may be right by chance.",
        may_be_wrong: "Where the value does hold for both: name what says so for each, source: {stock: …, kit: …}. For the maker's own kit, give the kit the maker's source.",
        example: "friction-plate: {from: {stock: stock, kit: pack-pb9}}\npack-height: {of: brake-pack, limit: min 32.2 mm, source: winch-book}",
        instead: "pack-height: {of: brake-pack, limit: min 32.2 mm, source: {stock: winch-book, kit: pack-sheet}}",
    },
};

/// Parts of two makers run together.
pub(super) static STOCK_ON_AFTERMARKET: Rule = Rule {
    name: "stock-on-aftermarket",
    severity: Severity::Warning,
    summary: "A part of the machine runs against parts of another maker, and nothing says that they fit.",
    explanation: Explanation {
        finds: "Parts that take turns in a stack with, or face, parts from: a kit whose source is a kit's sheet (kind: kit), that don't come from that kit themselves, and whose source: for that variant is neither a kit's sheet nor measured.",
        matters: "A stock plate against another maker's lining grabs, or wears through in a season. Who says that it fits?",
        may_be_wrong: "Where the kit's maker names the part as usable: name his sheet as its source for that variant.",
        example: "friction-plate: {from: {stock: stock, kit: pack-pb9}}, steel-plate: {from: stock, source: winch-book}",
        instead: "steel-plate: {from: stock, source: {stock: winch-book, kit: pack-sheet}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let lists: Vec<&Lists> = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]).collect();
        let shop = [&context.manual.shop];
        let kits: BTreeMap<&str, &Entry<Kit>> = lists.iter().chain(&shop).flat_map(|lists| lists.kits.iter()).map(|(id, kit)| (id.as_str(), kit)).collect();
        let swapped = swapped(&lists, &kits);
        if !swapped.is_empty() {
            for lists in &lists {
                inherited(&swapped, &lists.fasteners.values().flat_map(fastened).collect::<Vec<_>>(), findings);
                inherited(&swapped, &valued(machine, lists), findings);
            }
        }
        for (scope, lists) in scopes(context.manual, machine) {
            for stack in lists.stacks.values() {
                let ids: Vec<&str> = stack.what.of.iter().map(|of| of.value.as_str()).collect();
                beside_another(scope, &ids, findings);
            }
            for part in lists.parts.values() {
                let faced: Vec<&str> = part.what.faces.cases.iter().flat_map(|case| faced(&case.value)).collect();
                faced.iter().for_each(|other| beside_another(scope, &[part.id.as_str(), other], findings));
            }
        }
    }
}

fn scopes<'m>(manual: &'m Manual, machine: &'m Machine) -> Vec<(Scope<'m>, &'m Lists)> {
    let procedures = machine.procedures.iter().map(|procedure| (manual.scope(machine, procedure), &procedure.lists));
    procedures.chain([(manual.machine_scope(machine), &machine.lists)]).collect()
}

fn faced(faces: &crate::manual::Faces) -> Vec<&str> {
    match faces {
        crate::manual::Faces::Either => Vec::new(),
        crate::manual::Faces::Toward(toward) => toward.iter().map(|(_, of)| of.value.as_str()).collect(),
    }
}

/// A part whose origin differs, where that stands, and by which axes.
struct Swap<'a> {
    name: &'a str,
    place: &'a Place,
    axes: BTreeSet<&'a str>,
    /// The sources of the kits it comes from; none for a kit that names no source.
    kits: Vec<Vec<&'a str>>,
}

impl Swap<'_> {
    /// Whether the sources of a value speak for every kit: the maker's sheet does for the maker's own kit.
    fn is_covered(&self, sources: &Varied<String>) -> bool {
        let named: Vec<&str> = sources.cases.iter().map(|case| case.value.as_str()).collect();
        self.kits.iter().all(|kit| !kit.is_empty() && kit.iter().all(|source| named.contains(source)))
    }
}

fn swapped<'a>(lists: &[&'a Lists], kits: &BTreeMap<&str, &'a Entry<Kit>>) -> BTreeMap<&'a str, Swap<'a>> {
    let mut all = BTreeMap::new();
    for lists in lists {
        let seals = lists.seals.values().map(|e| (e.id.as_str(), e.name.as_str(), &e.what.from));
        let bearings = lists.bearings.values().map(|e| (e.id.as_str(), e.name.as_str(), &e.what.from));
        let parts = lists.parts.values().map(|e| (e.id.as_str(), e.name.as_str(), &e.what.from));
        for (id, name, from) in seals.chain(bearings).chain(parts) {
            let axes = axes(from);
            let differs = from.cases.iter().any(|case| from.first().is_some_and(|first| *first != case.value));
            if let Some(case) = from.cases.first().filter(|_| differs && !axes.is_empty()) {
                let kits = from.cases.iter().filter_map(|case| kits.get(case.value.as_str()));
                let kits = kits.map(|kit| kit.source.cases.iter().map(|case| case.value.as_str()).collect()).collect();
                all.insert(id, Swap { name, place: &case.place, axes, kits });
            }
        }
    }
    all
}

fn axes<T>(varied: &Varied<T>) -> BTreeSet<&str> {
    varied.cases.iter().flat_map(|case| case.when.0.keys().map(String::as_str)).collect()
}

/// A value of an entry and what it names.
struct Named<'a> {
    id: &'a str,
    name: &'a str,
    only: &'a Combination,
    field: &'static str,
    place: &'a Place,
    /// Axes by which the value or its source differs.
    axes: BTreeSet<&'a str>,
    source: &'a Varied<String>,
    of: Vec<&'a str>,
}

impl Named<'_> {
    fn words(&self) -> &'static str {
        if self.field == "to" { "temperature" } else { self.field }
    }
}

fn named<'a, E, T>(entry: &'a Entry<E>, field: &'static str, value: &'a Varied<T>, of: Vec<&'a str>) -> Option<Named<'a>> {
    let first: &Case<T> = value.cases.first()?;
    let axes = axes(value).into_iter().chain(axes(&entry.source)).collect();
    Some(Named { id: &entry.id, name: &entry.name, only: &entry.only, field, place: &first.place, axes, source: &entry.source, of })
}

fn fastened(entry: &Entry<crate::manual::Fastener>) -> Option<Named<'_>> {
    let by_hand = entry.what.torque.cases.iter().all(|case| case.value == Torque::Hand);
    (!by_hand).then(|| named(entry, "torque", &entry.what.torque, spots(&entry.what.holds)))?
}

fn spots(spots: &[Spot<String>]) -> Vec<&str> {
    spots.iter().map(|spot| spot.value.as_str()).collect()
}

/// Values of what is measured, waits and is heated; a stack stands for its plates.
fn valued<'a>(machine: &'a Machine, lists: &'a Lists) -> Vec<Named<'a>> {
    let stacks = || machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]).flat_map(|lists| lists.stacks.values());
    let opened = |ids: Vec<&'a str>| -> Vec<&'a str> {
        let inner = ids.iter().flat_map(|id| stacks().filter(move |stack| stack.id == **id)).flat_map(|stack| spots(&stack.what.of));
        inner.chain(ids.iter().copied()).collect()
    };
    let of = |varied: &'a Varied<String>| opened(varied.cases.iter().map(|case| case.value.as_str()).collect());
    let measures = lists.measures.values().flat_map(|entry| {
        [named(entry, "spec", &entry.what.spec, of(&entry.what.of)), named(entry, "limit", &entry.what.limit, of(&entry.what.of))]
    });
    let waits = lists.waits.values().map(|entry| named(entry, "time", &entry.what.time, opened(spots(&entry.what.of))));
    let heats = lists.heats.values().map(|entry| named(entry, "to", &entry.what.to, of(&entry.what.of)));
    measures.chain(waits).chain(heats).flatten().collect()
}

fn inherited(swapped: &BTreeMap<&str, Swap<'_>>, values: &[Named<'_>], findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<&str> = BTreeSet::new();
    for value in values {
        let taken_over = value.of.iter().find_map(|id| {
            let swap = swapped.get(id).filter(|swap| !swap.is_covered(value.source))?;
            // What exists in one of the variants only is not taken over.
            let axis = swap.axes.iter().find(|axis| !value.axes.contains(*axis) && !value.only.0.contains_key(**axis))?;
            Some((swap, axis))
        });
        let Some((swap, axis)) = taken_over.filter(|_| told.insert(value.id)) else { continue };
        findings.push(
            Finding::new(&INHERITED_VALUE_UNCHECKED, value.place.clone(), format!("the {} of {} is one value, and {} comes from elsewhere by {axis}", value.words(), value.name, swap.name))
                .label("for both?")
                .related(swap.place.clone(), "two origins")
                .fix(format!("look it up for each; where it does hold for both, name what says so: source: with an id for each {axis}"))
                .about(format!("{}.{}", value.id, value.field)),
        );
    }
}

/// Parts side by side, one of them from another maker's kit.
fn beside_another(scope: Scope<'_>, ids: &[&str], findings: &mut Vec<Finding>) {
    let parts: Vec<&Entry<Part>> = ids.iter().filter_map(|id| scope.entry(|lists| &lists.parts, id)).collect();
    for part in &parts {
        for case in &part.what.from.cases {
            let Some(kit) = kit(scope, &case.value).filter(|kit| of_kind(scope, &kit.source, &case.when, &["kit"])) else { continue };
            for other in parts.iter().filter(|other| other.id != part.id) {
                if let Some(finding) = unsuited(scope, part, other, kit, case) {
                    let same = |told: &Finding| told.rule().name == STOCK_ON_AFTERMARKET.name && told.place() == finding.place();
                    if !findings.iter().any(same) {
                        findings.push(finding);
                    }
                }
            }
        }
    }
}

fn kit<'a>(scope: Scope<'a>, id: &str) -> Option<&'a Entry<Kit>> {
    scope.entry(|lists| &lists.kits, id)
}

/// Whether every source that may hold under a condition is of one of these kinds; none at all is not.
fn of_kind(scope: Scope<'_>, sources: &Varied<String>, when: &Combination, kinds: &[&str]) -> bool {
    let mut sources = sources.cases_within(when).peekable();
    sources.peek().is_some() && sources.all(|case| {
        let source = scope.entry(|lists| &lists.sources, &case.value);
        source.is_none_or(|source| source.what.kind.as_deref().is_none_or(|kind| kinds.contains(&kind)))
    })
}

fn unsuited(scope: Scope<'_>, part: &Entry<Part>, other: &Entry<Part>, kit: &Entry<Kit>, from: &Case<String>) -> Option<Finding> {
    let own = from.when.and(&part.only)?;
    let when = own.and(&other.only)?;
    let unreadable = scope.homes().any(|(_, lists)| ["from", "source"].into_iter().any(|field| lists.is_unreadable(ListKind::Parts, &other.id, field)));
    let origin = other.what.from.cases_within(&when).find(|case| case.value != kit.id);
    let from_kit = other.what.from.is_given() && origin.is_none();
    let origin_is_kit = origin.is_some_and(|origin| self::kit(scope, &origin.value).is_some_and(|other| other.source == kit.source));
    if unreadable || from_kit || origin_is_kit || of_kind(scope, &other.source, &when, &["kit", "measured"]) {
        return None;
    }
    let variant = every::variant_words(&when);
    Some(
        Finding::new(&STOCK_ON_AFTERMARKET, other.id_place.clone(), format!("{} runs against {} from {}, and nothing says that they fit{variant}", other.name, part.name, kit.name))
            .label("who says it fits?")
            .related(from.place.clone(), "of another maker")
            .fix("name what says so as its source: for that variant: the kit's sheet, or a trial that was measured; or fit one from the kit")
            .about(format!("{}.source", other.id)),
    )
}
