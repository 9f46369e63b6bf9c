//! How many: pieces put in against pieces listed, and new ones where a thing is used once.

use super::Context;
use super::joints::{gaskets_under, is_gasket, is_taken_off};
use super::order::is_temporary;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Combination, Layout, ListKind, Lists, ThingRef, Varied, Verb};

/// Something used once goes in a second time.
pub(super) static ONE_TIME_REUSED: Rule = Rule {
    name: "one-time-reused",
    severity: Severity::Error,
    summary: "Something that is used once goes in a second time.",
    explanation: Explanation {
        finds: "Things with reuse: never of which more are put in for good, over the whole build, than new ones and spares are listed. A fastener counts when it is tightened, also when it was only slackened and is tightened again.",
        matters: "A stretched bolt, a squashed ring or an opened circlip holds once.",
        may_be_wrong: "Where it goes in for a trial only: dry-fit:, or start: without torque:. Where there are more new ones in hand: new: or spare:.",
        example: "clip: {reuse: never, count: 1}\n[Clip on](fit:clip) … [clip off](remove:clip) … [clip on again](fit:clip)",
        instead: "clip: {reuse: never, count: 1, new: 2}   or a dry-fit the first time",
    },
};

/// A gasket used once goes in a second time.
pub(super) static GASKET_REUSED: Rule = Rule {
    name: "gasket-reused",
    severity: Severity::Error,
    summary: "A gasket or ring that is used once goes in a second time.",
    explanation: Explanation {
        finds: "Gaskets, O-rings and sealing washers with reuse: never of which more are put in for good than new ones and spares are listed, or whose cover comes off and goes on again over them.",
        matters: "Once it has been squeezed it has taken the shape of the first joint.",
        may_be_wrong: "Where it goes in for a trial only: dry-fit:.",
        example: "hatch-gasket: {kind: gasket, reuse: never, count: 1}\n[Gasket on](fit:hatch-gasket) … [gasket off](remove:hatch-gasket) … [gasket on](fit:hatch-gasket)",
        instead: "Try the cover without its gasket (dry-fit:), or list a second gasket: new: 2.",
    },
};

/// Fasteners put in, tightened, listed and laid out don't agree in number.
pub(super) static COUNT_MISMATCH: Rule = Rule {
    name: "count-mismatch",
    severity: Severity::Error,
    summary: "Fasteners listed, put in, tightened and laid out don't agree in number.",
    explanation: Explanation {
        finds: "Fasteners of which the acts put in or tighten more or fewer than count: says, and whose layout: has another number of places.",
        matters: "One bolt of twelve is missing, and nobody knows which.",
        may_be_wrong: "Where only some of them go in for a trial: take them out again (remove:), then the count begins anew.",
        example: "cover-bolt: {count: 12}\n[Eleven bolts in](start:cover-bolt*11), [tighten them](torque:cover-bolt)",
        instead: "[Twelve bolts in](start:cover-bolt*12), [tighten them](torque:cover-bolt)",
    },
};

/// Parts put in and parts listed don't agree in number.
pub(super) static QUANTITY_MISMATCH: Rule = Rule {
    name: "quantity-mismatch",
    severity: Severity::Error,
    summary: "Parts put in and parts listed don't agree in number.",
    explanation: Explanation {
        finds: "Parts, seals and bearings of which the acts put in more than count: says, or fewer where they are counted (fit:clip*3).",
        matters: "The fifth clip is missing when four are in hand.",
        may_be_wrong: "Where the rest goes in by another act: write it.",
        example: "clip: {count: 4}\n[Five clips on](fit:clip*5)",
        instead: "clip: {count: 5}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for thing in walk.history.keys().filter(|thing| ListKind::THINGS.contains(&thing.kind) && thing.kind != ListKind::Stacks) {
            findings.extend(pieces(walk, thing).filter(|_| !walk.machine.may_mean(&thing.id)));
        }
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Fit) {
            squeezed_again(walk, at, moment, findings);
        }
    });
    for machine in &context.manual.machines {
        positions(&machine.lists, findings);
        machine.procedures.iter().for_each(|procedure| positions(&procedure.lists, findings));
    }
}

/// What an entry says of its number.
struct Numbers {
    name: String,
    place: Place,
    count: Option<u64>,
    new: u64,
    once: bool,
    gasket: bool,
    temporary: bool,
}

impl Numbers {
    /// How many are listed: one where the list does not say.
    fn count(&self) -> u64 {
        self.count.unwrap_or(1)
    }

    fn count_words(&self) -> String {
        self.count.map_or_else(|| "no count:, so one".to_owned(), |count| format!("count: {count}"))
    }
}

fn numbers(lists: &Lists, thing: &ThingRef, variant: &Combination) -> Option<Numbers> {
    let get = |value: &Varied<u64>| value.get(variant).copied();
    let make = |count: &Varied<u64>, new: &Varied<u64>, spare: &Varied<u64>, reuse: &Varied<String>, gasket: bool| {
        let head = lists.head(thing.kind, &thing.id)?;
        Some(Numbers {
            name: head.name.to_owned(),
            place: head.place.clone(),
            count: get(count),
            new: get(new).or_else(|| get(count)).unwrap_or(1).saturating_add(get(spare).unwrap_or(0)),
            once: reuse.get(variant).is_some_and(|reuse| reuse == "never"),
            gasket,
            temporary: is_temporary(lists, thing),
        })
    };
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Seals => lists.seals.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Bearings => lists.bearings.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Parts => lists.parts.get(&thing.id).and_then(|e| {
            let gasket = e.what.kind.get(variant).is_some_and(|kind| is_gasket(kind));
            make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, gasket)
        }),
        _ => None,
    }
}

/// The pieces of a thing at a moment of the walk.
#[derive(Default)]
struct Tally<'w, 'm> {
    /// In place.
    inside: u64,
    /// Of these, put in since they were last squeezed or tightened.
    fresh: u64,
    /// Used over the whole build.
    used: u64,
    /// Tightened, where the acts say how many.
    tight: u64,
    /// The act that put them in last.
    put_in: Option<&'w Moment<'m>>,
    /// The act that used some for the first time.
    used_in: Option<&'w Moment<'m>>,
}

impl<'w, 'm> Tally<'w, 'm> {
    /// What an act makes of it. A fastener is used when it is tightened, another thing when it goes in for good.
    fn count(&mut self, before: State, moment: &'w Moment<'m>, count: u64, is_fastener: bool) {
        // A fastener set free by its part's removal is out, whatever was counted.
        if before == State::Absent {
            (self.inside, self.fresh, self.tight) = (0, 0, 0);
        }
        match moment.verb {
            Verb::Remove => {
                self.inside = moment.act.times.map_or(0, |times| self.inside.saturating_sub(times));
                self.fresh = self.fresh.min(self.inside);
                self.tight = self.tight.min(self.inside);
            }
            Verb::Fit | Verb::Start | Verb::DryFit => {
                let more = moment.act.times.unwrap_or_else(|| count.saturating_sub(self.inside));
                self.inside = self.inside.saturating_add(more);
                self.fresh = self.fresh.saturating_add(more);
                self.put_in = Some(moment);
                let for_good = if is_fastener { moment.after == State::Tight } else { moment.verb == Verb::Fit };
                if for_good {
                    self.use_fresh(moment);
                }
            }
            Verb::Torque => {
                if self.inside == 0 {
                    (self.inside, self.fresh, self.put_in) = (count, count, Some(moment));
                }
                self.tight = moment.act.times.map_or(self.inside, |times| self.tight.saturating_add(times));
                self.use_fresh(moment);
            }
            // What was tight and is slackened is used a second time when it is tightened.
            Verb::Loosen if before.holds() => {
                (self.fresh, self.tight, self.put_in) = (self.inside, 0, None);
            }
            _ => {}
        }
    }

    fn use_fresh(&mut self, moment: &'w Moment<'m>) {
        self.used_in = self.used_in.or(Some(moment).filter(|_| self.fresh > 0));
        self.used = self.used.saturating_add(self.fresh);
        self.fresh = 0;
    }
}

/// Counts the pieces of a thing through a walk; the first fault is told.
fn pieces(walk: &Walk<'_>, thing: &ThingRef) -> Option<Finding> {
    let (_, first) = walk.moments_of(thing).next()?;
    let numbers = numbers(walk.scope(first.procedure).lists_of(thing)?, thing, &walk.combination)?;
    let is_fastener = thing.kind == ListKind::Fasteners;
    let mut tally = Tally::default();
    for (at, moment) in walk.moments_of(thing) {
        let (some, put_in) = (tally.inside, tally.put_in.filter(|_| tally.inside > 0));
        tally.count(walk.state_before(thing, at).0, moment, numbers.count(), is_fastener);
        if tally.inside > numbers.count() {
            return Some(since(too_many(&numbers, thing, moment, tally.inside), put_in, some));
        }
        let all_at_once = moment.verb == Verb::Torque && moment.act.times.is_none();
        if all_at_once && some > 0 && tally.inside < numbers.count() {
            return Some(since(too_few(&numbers, thing, moment, tally.inside, "in"), put_in, some));
        }
        if numbers.once && tally.used > numbers.new {
            let again = again(&numbers, thing, tally.put_in.unwrap_or(moment), tally.used);
            let first = tally.used_in.filter(|first| first.act.place != *again.place());
            return Some(match first {
                Some(first) => again.related(first.act.place.clone(), format!("used the first time in {}", first.words())),
                None => again,
            });
        }
    }
    let (_, last) = walk.moments_of(thing).last()?;
    let left_open = walk.open.iter().any(|span| span.thing == *thing) || numbers.temporary;
    let inside = tally.inside;
    if left_open || inside == 0 {
        return None;
    }
    match (inside < numbers.count(), is_fastener && walk.state(thing).holds() && tally.tight > 0 && tally.tight < inside) {
        (true, _) => Some(too_few(&numbers, thing, last, inside, "in")),
        (false, true) => Some(too_few(&numbers, thing, last, tally.tight, "tightened")),
        (false, false) => None,
    }
}

/// How many pieces of a thing are in at the end of a walk.
pub(super) fn still_in(walk: &Walk<'_>, thing: &ThingRef) -> u64 {
    let Some((_, first)) = walk.moments_of(thing).next() else { return 0 };
    let Some(numbers) = walk.scope(first.procedure).lists_of(thing).and_then(|lists| numbers(lists, thing, &walk.combination)) else { return 0 };
    let mut tally = Tally::default();
    for (at, moment) in walk.moments_of(thing) {
        tally.count(walk.state_before(thing, at).0, moment, numbers.count(), thing.kind == ListKind::Fasteners);
    }
    tally.inside
}

/// A finding with the earlier act that put some of the pieces in.
fn since(finding: Finding, put_in: Option<&Moment<'_>>, some: u64) -> Finding {
    match put_in.filter(|put_in| put_in.act.place != *finding.place()) {
        Some(put_in) => finding.related(put_in.act.place.clone(), format!("{some} in since {}", put_in.words())),
        None => finding,
    }
}

fn rule_of(thing: &ThingRef) -> &'static Rule {
    if thing.kind == ListKind::Fasteners { &COUNT_MISMATCH } else { &QUANTITY_MISMATCH }
}

fn too_many(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, inside: u64) -> Finding {
    let count = numbers.count();
    Finding::new(rule_of(thing), moment.act.place.clone(), format!("{}: {inside} go in, {count} listed", numbers.name))
        .label(format!("{} too many", inside - count))
        .related(numbers.place.clone(), numbers.count_words())
        .fix("correct the number here (*4), or count: in the list")
        .about(thing.id.clone())
}

fn too_few(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, some: u64, how: &str) -> Finding {
    let count = numbers.count();
    Finding::new(rule_of(thing), moment.act.place.clone(), format!("{}: {some} {how}, {count} listed", numbers.name))
        .label(format!("{} missing", count - some))
        .related(numbers.place.clone(), numbers.count_words())
        .fix("write the act for the rest, or correct count: in the list")
        .about(thing.id.clone())
}

fn again(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, used: u64) -> Finding {
    let rule = if numbers.gasket { &GASKET_REUSED } else { &ONE_TIME_REUSED };
    let Numbers { name, new, .. } = numbers;
    let trial = if thing.kind == ListKind::Fasteners { "run it up by hand only" } else { "put it in for a trial" };
    let (message, label, fix) = if used <= numbers.count() {
        (format!("{name}: {used} go in, {new} new listed"), format!("{} short", used.saturating_sub(*new)), format!("list as many new ones as go in: new: {used}"))
    } else {
        (
            format!("{name} is used again, and is good for one time only"),
            "a used one".to_owned(),
            format!("take new ones and list them (new: {used}); or {trial} the first time"),
        )
    };
    Finding::new(rule, moment.act.place.clone(), message)
        .label(label)
        .related(numbers.place.clone(), "reuse: never")
        .figure(format!("used over the whole build: {used}; new ones listed, spares counted: {new}"))
        .fix(fix)
        .about(thing.id.clone())
}

/// A cover goes on again over a gasket that it has squeezed before.
fn squeezed_again(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let Some(cover) = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts) else { return };
    let scope = walk.scope(moment.procedure);
    for (gasket, entry) in gaskets_under(walk, scope, &cover.id) {
        let (state, since) = walk.state_before(&gasket, at);
        let Some(since) = since.filter(|_| state == State::Fitted) else { continue };
        let taken_off = walk.moments.iter().enumerate().take(at).skip(since).find(|(_, m)| is_taken_off(m, &cover.id));
        let (Some((_, taken_off)), Some(put_in)) = (taken_off, walk.moments.get(since)) else { continue };
        findings.push(
            Finding::new(&GASKET_REUSED, moment.act.place.clone(), format!("{} goes on again over the same {}", scope.head(cover).map_or(cover.id.as_str(), |head| head.name), entry.name))
                .label(format!("{} has been squeezed before", entry.name))
                .related(put_in.act.place.clone(), format!("{} went in: {}", entry.name, put_in.words()))
                .related(taken_off.act.place.clone(), format!("and off again: {}", taken_off.words()))
                .fix(format!("take the old one out and put a new one in (remove:{0}, fit:{0}, new: 2); or try the cover on before the gasket (dry-fit:{1})", gasket.id, cover.id))
                .about(gasket.id.clone()),
        );
    }
}

/// Positions of an order or layout against the count.
fn positions(lists: &Lists, findings: &mut Vec<Finding>) {
    for entry in lists.fasteners.values() {
        let Some(count) = entry.what.count.first().copied().filter(|_| !entry.what.count.varies()) else { continue };
        for case in &entry.what.layout.cases {
            let places = match &case.value {
                Layout::Circle(places) => *places,
                Layout::Rows(rows) => rows.iter().sum(),
                Layout::At(at) => u64::try_from(at.len()).unwrap_or(u64::MAX),
            };
            if places != count {
                findings.push(
                    Finding::new(&COUNT_MISMATCH, case.place.clone(), format!("the layout of {} has {places} places, and {count} are listed", entry.name))
                        .label(format!("{places} places"))
                        .fix("correct the layout or count:")
                        .about(format!("{}.layout", entry.id)),
                );
            }
        }
    }
}
