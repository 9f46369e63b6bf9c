//! Measurements: each has a value to be held against, an instrument fine enough, and a way on when it is out.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Case, Entry, ListKind, Lists, Measure, Scope, Spot, Test, ThingRef, Verb};
use crate::quantity::{Dimension, Form, Quantity};
use std::collections::BTreeSet;

/// A wear limit lies inside the spec of a new part.
pub(super) static LIMIT_INSIDE_SPEC: Rule = Rule {
    name: "limit-inside-spec",
    severity: Severity::Error,
    summary: "A wear limit lies inside the spec of a new part.",
    explanation: Explanation {
        finds: "Measurements whose limit: leaves out readings that spec: calls good: a max below the spec's high end, a min above its low end.",
        matters: "A good part is thrown away, or, worse, the reader learns that the limits of this manual need not be taken seriously.",
        may_be_wrong: "Never: one of the two has slipped a digit or changed places with another.",
        example: "ring-gap: {spec: 0.20–0.32 mm, limit: max 0.28 mm}",
        instead: "ring-gap: {spec: 0.20–0.32 mm, limit: max 0.60 mm}",
    },
};

/// A measurement is taken and held against nothing.
pub(super) static MEASUREMENT_WITHOUT_SPEC: Rule = Rule {
    name: "measurement-without-spec",
    severity: Severity::Warning,
    summary: "A measurement is taken and held against nothing, or with nothing.",
    explanation: Explanation {
        finds: "measure: acts on an entry that has neither spec: nor limit:, chooses no shim and goes into no formula; and entries with a length, force or pressure to read and no instrument (with:). Also sentences that check, inspect or look at something for wear, play, slack, runout and the like, in steps without a measure:, test: or receive:, where the thing has no condition either (when:).",
        matters: "‘Check the plates for wear’ ends with a look and a shrug.",
        may_be_wrong: "Where the reading is only kept for the record: say so in otherwise: and give what is usual as spec:.",
        example: "plate-wear: {name: Wear of the plates}\n[Check the plates for wear](measure:plate-wear)",
        instead: "plate-wear: {name: Thickness of a plate, limit: min 2.85 mm, with: micrometer, otherwise: new plates}",
    },
};

/// More or fewer places than readings.
pub(super) static PLACES_MISCOUNTED: Rule = Rule {
    name: "places-miscounted",
    severity: Severity::Error,
    summary: "A measurement names more or fewer places than it has readings.",
    explanation: Explanation {
        finds: "Measurements whose places: are not as many as their count:, or of which two are the same or one is empty. Where count: differs by variant, places: can't be given.",
        matters: "On the sheet each blank is named by its place: one is missing, and nobody knows which valve was read twice.",
        may_be_wrong: "Never: leave one of the two out.",
        example: "inlet-gap: {count: 2, places: [upper valve]}",
        instead: "inlet-gap: {count: 2, places: [upper valve, lower valve]}",
    },
};

/// Nothing is said about a reading that is out.
pub(super) static NO_ACTION_WHEN_OUT: Rule = Rule {
    name: "no-action-when-out",
    severity: Severity::Warning,
    summary: "Nothing says what to do when a reading is out, or a test fails.",
    explanation: Explanation {
        finds: "Measurements with a spec or limit, and tests, that a step calls for and that have no otherwise:.",
        matters: "The reader stands at the bench with 0.30 mm where 0.22 is allowed, and carries on.",
        may_be_wrong: "Where the step's text says it: move it into otherwise:, then the printed sheet has it beside the reading.",
        example: "backlash: {spec: 0.12–0.22 mm, with: dial-indicator}",
        instead: "backlash: {spec: 0.12–0.22 mm, with: dial-indicator, otherwise: change the shim and read again}",
    },
};

/// An instrument is too coarse for what it reads.
pub(super) static INSTRUMENT_TOO_COARSE: Rule = Rule {
    name: "instrument-too-coarse",
    severity: Severity::Warning,
    summary: "An instrument can't tell good from bad in this band.",
    explanation: Explanation {
        finds: "Measurements whose instrument (with:) has a resolution of more than a quarter of the band: of spec:, or of accept: of the shim it chooses. A quarter is common practice; a tenth is better.",
        matters: "With two divisions inside the band, the reading says more about the eye than about the part.",
        may_be_wrong: "Where the instrument is read between its divisions: give the resolution that this really has.",
        example: "gap: {spec: 0.040–0.065 mm, with: calliper}   and the calliper reads 0.02 mm",
        instead: "with: micrometer   that reads 0.005 mm or finer",
    },
};

/// A test has nothing to show.
pub(super) static TEST_INCOMPLETE: Rule = Rule {
    name: "test-incomplete",
    severity: Severity::Warning,
    summary: "Something is tried, and nobody says what it should show.",
    explanation: Explanation {
        finds: "Tests that a step calls for and that have no expect:. What to do when it is not met is no-action-when-out.",
        matters: "A test that can't be failed is a tick and nothing else.",
        may_be_wrong: "Never: if it is worth trying, somebody knows what is good.",
        example: "tests: {both-speeds: {name: Both speeds, kind: function, otherwise: look for the wrong gear}}",
        instead: "tests: {both-speeds: {…, expect: {low: '24:1', high: '9:1'}, otherwise: look for the wrong gear}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.measures.values() {
            findings.extend(limit_inside_spec(entry));
            findings.extend(places_miscounted(entry));
            findings.extend(too_coarse(scope, entry));
        }
    }
    let mut told: BTreeSet<(&str, &ThingRef)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            let Some(thing) = act.thing().filter(|thing| !told.contains(&(machine.id.as_str(), *thing))) else { continue };
            let Some(lists) = scope.lists_of(thing) else { continue };
            match act.verb {
                Some(Verb::Measure) => {
                    let Some(entry) = lists.measures.get(&thing.id) else { continue };
                    findings.extend(without_spec(scope, lists, entry).map(|finding| finding.related(act.place.clone(), "read here")));
                    findings.extend(no_action(lists, entry).map(|finding| finding.related(act.place.clone(), "read here")));
                }
                Some(Verb::Test) => {
                    let Some(entry) = lists.tests.get(&thing.id) else { continue };
                    findings.extend(nothing_expected(lists, entry).map(|finding| finding.related(act.place.clone(), "tried here")));
                    findings.extend(no_way_on(lists, entry).map(|finding| finding.related(act.place.clone(), "tried here")));
                }
                _ => continue,
            }
            told.insert((&machine.id, thing));
        }
    }
}

fn places_miscounted(entry: &Entry<Measure>) -> Option<Finding> {
    let places = &entry.what.places;
    let first = places.first()?;
    let is_unclear = |(at, place): &(usize, &Spot<String>)| {
        let name = place.value.trim().to_lowercase();
        name.is_empty() || places.iter().take(*at).any(|other| other.value.trim().to_lowercase() == name)
    };
    if let Some((_, place)) = places.iter().enumerate().find(is_unclear) {
        return Some(
            Finding::new(&PLACES_MISCOUNTED, place.place.clone(), format!("a place of {} is named twice or not at all", entry.name))
                .label("which of the readings is it?")
                .fix("name each place so that nobody confuses it with another")
                .about(format!("{}.places", entry.id)),
        );
    }
    let count = entry.what.count.cases.iter().find(|count| u64::try_from(places.len()) != Ok(count.value))?;
    Some(
        Finding::new(&PLACES_MISCOUNTED, first.place.clone(), format!("{} is read {} times and at {} places", entry.name, count.value, places.len()))
            .label("not as many as the readings")
            .related(count.place.clone(), format!("{} readings", count.value))
            .fix("name a place for each reading, in their order; count: may then be left out")
            .about(format!("{}.places", entry.id)),
    )
}

fn limit_inside_spec(entry: &Entry<Measure>) -> Option<Finding> {
    let pairs = entry.what.limit.cases.iter().flat_map(|limit| entry.what.spec.cases.iter().map(move |spec| (limit, spec)));
    pairs.filter(|(limit, spec)| limit.when.agrees_with(&spec.when)).find_map(|(limit, spec)| inside(entry, limit, spec))
}

fn inside(entry: &Entry<Measure>, limit: &Case<Quantity>, spec: &Case<Quantity>) -> Option<Finding> {
    if limit.value.dimension() != spec.value.dimension() {
        return None;
    }
    let ((low, high), (least, most)) = (spec.value.exact_low_high(), limit.value.exact_low_high());
    // A limit written as one bare value is a limit on the side where it lies.
    let single = matches!(limit.value.form(), Form::Single(_));
    let between = single && low < least && most < high;
    let condemned = |good: &Option<crate::quantity::Exact>| {
        good.as_ref().is_some_and(|good| most.as_ref().is_some_and(|most| most < good) || least.as_ref().is_some_and(|least| least > good))
    };
    let (low_out, high_out) = (condemned(&low), condemned(&high));
    if !(if single { between && low.is_some() && high.is_some() } else { low_out || high_out }) {
        return None;
    }
    let end = if high_out { "high" } else { "low" };
    Some(
        Finding::new(&LIMIT_INSIDE_SPEC, limit.place.clone(), format!("the limit of {} lies inside its spec", entry.name))
            .label("condemns what the spec calls good")
            .related(spec.place.clone(), "what a good one reads")
            .figure(format!("at the {end} end of {} a good one is already beyond {}", spec.value.written(), limit.value.written()))
            .fix("look both up again: a digit slipped, or spec and limit changed places")
            .about(format!("{}.limit", entry.id)),
    )
}

/// Kinds of value that nobody reads by eye.
const NEEDS_INSTRUMENT: [Dimension; 4] = [Dimension::Length, Dimension::Force, Dimension::Pressure, Dimension::Torque];

fn without_spec(scope: Scope<'_>, lists: &Lists, entry: &Entry<Measure>) -> Option<Finding> {
    let unreadable = |field| lists.is_unreadable(ListKind::Measures, &entry.id, field);
    let measure = &entry.what;
    if !measure.spec.is_given() && !measure.limit.is_given() && !measure.chooses.is_given() {
        let used = scope.homes().flat_map(|(_, lists)| lists.measures.values()).any(|other| {
            other.what.formula.cases.iter().any(|case| case.value.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-')).any(|word| word == entry.id))
        });
        if used || ["spec", "limit", "chooses"].into_iter().any(unreadable) {
            return None;
        }
        return Some(
            Finding::new(&MEASUREMENT_WITHOUT_SPEC, entry.id_place.clone(), format!("{} is read, and nothing says what it should be", entry.name))
                .label("no spec, no limit")
                .fix("give spec: (what a good one reads), limit: (beyond what it may not be used), or both")
                .about(entry.id.clone()),
        );
    }
    let read = measure.spec.first().or_else(|| measure.limit.first()).map(Quantity::dimension);
    let by_hand = !measure.with.is_given() && !measure.formula.is_given() && !unreadable("with");
    (by_hand && read.is_some_and(|dimension| NEEDS_INSTRUMENT.contains(&dimension))).then(|| {
        Finding::new(&MEASUREMENT_WITHOUT_SPEC, entry.id_place.clone(), format!("{} is read, and nothing says with what", entry.name))
            .label("no instrument")
            .fix("name the instrument: with: micrometer (a tool of kind gauge, with its resolution)")
            .about(format!("{}.with", entry.id))
    })
}

fn no_action(lists: &Lists, entry: &Entry<Measure>) -> Option<Finding> {
    let judged = entry.what.spec.is_given() || entry.what.limit.is_given();
    let silent = !entry.what.otherwise.is_given() && !lists.is_unreadable(ListKind::Measures, &entry.id, "otherwise");
    (judged && silent).then(|| way_on_missing(&entry.id, entry.id_place.clone(), format!("nothing says what to do when {} is out", entry.name)))
}

/// A test that nothing can fail.
fn nothing_expected(lists: &Lists, entry: &Entry<Test>) -> Option<Finding> {
    let given = entry.what.expect.is_given() || lists.is_unreadable(ListKind::Tests, &entry.id, "expect");
    (!given).then(|| {
        Finding::new(&TEST_INCOMPLETE, entry.id_place.clone(), format!("{} is tried, and nobody says what it should show", entry.name))
            .label("no expect")
            .fix("write expect: in words, or as values: {hold: 5 min, drop: max 0.02 bar}")
            .about(entry.id.clone())
    })
}

fn no_way_on(lists: &Lists, entry: &Entry<Test>) -> Option<Finding> {
    let silent = !entry.what.otherwise.is_given() && !lists.is_unreadable(ListKind::Tests, &entry.id, "otherwise");
    silent.then(|| way_on_missing(&entry.id, entry.id_place.clone(), format!("nothing says what to do when the test ‘{}’ fails", entry.name)))
}

fn way_on_missing(id: &str, place: Place, message: String) -> Finding {
    Finding::new(&NO_ACTION_WHEN_OUT, place, message)
        .label("no otherwise")
        .fix("add otherwise: what to do then, in words")
        .about(format!("{id}.otherwise"))
}

fn too_coarse(scope: Scope<'_>, entry: &Entry<Measure>) -> Option<Finding> {
    let tool = scope.entry(|lists| &lists.tools, entry.what.with.first()?)?;
    let resolution = tool.what.resolution.as_ref()?;
    let shim = entry.what.chooses.first().and_then(|id| scope.entry(|lists| &lists.shims, id));
    let bands = entry.what.spec.cases.iter().chain(shim.iter().flat_map(|shim| &shim.what.accept.cases));
    let (band, width, finest) = bands.filter(|case| case.value.dimension() == resolution.dimension()).find_map(|case| {
        let (low, high) = case.value.low_high();
        let width = high? - low?;
        let finest = resolution.nominal()?;
        // A single value is no band; a hair's breadth is left for what binary fractions do to a quarter.
        (width > 0.0 && finest > width / 4.0 * 1.000_001).then_some((case, width, finest))
    })?;
    let unit = resolution.dimension().base();
    let place = entry.what.with.cases.first().map(|case| case.place.clone())?;
    Some(
        Finding::new(&INSTRUMENT_TOO_COARSE, place, format!("{} is too coarse for {}", tool.name, entry.name))
            .label(format!("reads {}", resolution.written()))
            .related(band.place.clone(), "the band it must tell apart")
            .figure(format!("the band is {} {unit} wide; a quarter of it is {} {unit}, one division {} {unit}", short(width), short(width / 4.0), short(finest)))
            .fix("name a finer instrument")
            .about(format!("{}.with", entry.id)),
    )
}

/// Digits enough to disagree with: at most four significant ones, without noughts at the end.
pub(super) fn short(value: f64) -> String {
    let Some(exact) = crate::quantity::Exact::from_f64(value) else { return value.to_string() };
    let text = exact.significant(4, crate::quantity::Rounding::Nearest);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
