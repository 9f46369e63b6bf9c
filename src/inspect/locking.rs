//! How fasteners are kept from coming undone: locked by some means, locked as the list says, locked in time, and marked.

use super::Context;
use super::every;
use super::locker_work::{fastener, is_locker, material, minutes, time_words, too_late};
use super::walk::{Moment, State, Walk, in_every, is_locked_by_hand};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Fastener, ListKind, Lists, ThingRef, Torque, Verb};
use crate::quantity::{Dimension, Quantity};
use crate::trade::locker::LockerStrength;
use crate::trade::prevailing::greatest_running_nm;

/// Nothing keeps a fastener that turns from coming undone.
pub(super) static ROTATING_JOINT_UNLOCKED: Rule = Rule {
    name: "rotating-joint-unlocked",
    severity: Severity::Warning,
    summary: "A fastener that carries drive or turns with its shaft is not locked, and nobody says that it needn't be.",
    explanation: Explanation {
        finds: "Fasteners of role drive or shaft-nut, brought to their value, with no lock:, no locker, no angle stage, and no lock washer, pin or clip among the parts they hold. lock: none says that the source has none, and is silent.",
        matters: "Load that changes its sense with each turn walks a nut off its thread.",
        may_be_wrong: "Where preload alone holds, as the source has it: write lock: none.",
        example: "impeller-nut: {role: drive, threads: dry, torque: 7 N·m}",
        instead: "impeller-nut: {role: drive, threads: dry, torque: 7 N·m, lock: tab-washer}   or locker:, or lock: none",
    },
};

/// A lock that the list names is never made.
pub(super) static LOCK_LEFT_OUT: Rule = Rule {
    name: "lock-left-out",
    severity: Severity::Error,
    summary: "A fastener that is to be staked, tabbed, wired or pinned never is.",
    explanation: Explanation {
        finds: "Fasteners with lock: staked, tab-washer, lock-wire or cotter that at the end of the build are at their value and not locked, and that no open item covers.",
        matters: "A tab that stays flat holds nothing, and from above it looks like one that is bent.",
        may_be_wrong: "Where another procedure locks it: say so under leaves_open:.",
        example: "hub-nut: {lock: staked, …}   [Tighten the hub nut](torque:hub-nut)   and no lock:hub-nut",
        instead: "[Tighten the hub nut](torque:hub-nut). [Stake its collar into the slot](lock:hub-nut).",
    },
};

/// A fastener is locked otherwise than its list says.
pub(super) static LOCK_METHOD_SWAPPED: Rule = Rule {
    name: "lock-method-swapped",
    severity: Severity::Warning,
    summary: "A fastener is locked otherwise than its list says, or its lock washer stays out.",
    explanation: Explanation {
        finds: "lock: on a fastener whose list names no lock, or one that needs no act (none, prevailing, lock-washer); and parts of kind lock-washer that are taken out and not put in again, nor another in their place, while the fastener that holds them is tightened.",
        matters: "Locker in place of a tab washer, or a tab in place of wire, is another joint than the maker tried.",
        may_be_wrong: "Where the change has a source: list the part no more, and cite the source at the fastener.",
        example: "[Lock washer off](remove:tab-washer) … [locker on](apply:medium-locker@nut), [tighten](torque:nut)",
        instead: "[New lock washer on](fit:tab-washer) … [tighten](torque:nut), [bend the tab up](lock:nut)",
    },
};

/// A collar is staked at the wrong time, or twice.
pub(super) static STAKING_MISUSE: Rule = Rule {
    name: "staking-misuse",
    severity: Severity::Error,
    summary: "A nut is staked after its locker has set, or is to be used again without a condition.",
    explanation: Explanation {
        finds: "lock: on a fastener with lock: staked that comes, after a stop for the day or by the minutes of steps and waits, later after its tightening than its locker fixes (fixture:; 20 minutes where it states none: common practice). As a warning: lock: staked with reuse: yes.",
        matters: "Blows on a cured bond crack it. And a collar driven twice into the same dent tears.",
        may_be_wrong: "Where a nut may be staked at a fresh place: reuse: inspect, and say so in when:.",
        example: "[Locker on](apply:high-locker@hub-nut), [tighten](torque:hub-nut). [Enough for today](stop:) … [stake it](lock:hub-nut)",
        instead: "[Locker on](apply:high-locker@hub-nut), [tighten](torque:hub-nut), [stake it straight away](lock:hub-nut). [Enough for today](stop:)",
    },
};

/// A critical fastener gets no painted line.
pub(super) static WITNESS_MARK_MISSING: Rule = Rule {
    name: "witness-mark-missing",
    severity: Severity::Note,
    summary: "A critical fastener reaches its value and gets no painted line.",
    explanation: Explanation {
        finds: "Fasteners with critical: true that at the end of the build are at their value by a wrench, with no mark: after their last tightening. What is staked, tabbed, wired or pinned shows by itself that it has been done, and is silent.",
        matters: "A line across head and boss lets the next inspection be made with a lamp instead of a wrench.",
        may_be_wrong: "Where it is out of sight for good.",
        example: "[Tighten the anchor bolts](torque:anchor-bolt)   with critical: true",
        instead: "[Tighten the anchor bolts](torque:anchor-bolt). [Paint a line across each head](mark:anchor-bolt).",
    },
};

/// A value does not say whether a nut's own grip is in it.
pub(super) static PREVAILING_TORQUE_IGNORED: Rule = Rule {
    name: "prevailing-torque-ignored",
    severity: Severity::Warning,
    summary: "A self-locking nut has a torque, and nothing says whether the torque it runs with is in it.",
    explanation: Explanation {
        finds: "Fasteners with lock: prevailing and a torque, without running: included (the value is what the wrench shows), added (the running torque is measured and added to it), or not-stated (the source is silent: printed so).",
        matters: "A new self-locking nut can eat a quarter of the value before anything is clamped.",
        may_be_wrong: "Where the source says nothing: running: not-stated prints that.",
        example: "coupling-nut: {thread: M12x1.75, lock: prevailing, torque: 60 N·m}",
        instead: "coupling-nut: {thread: M12x1.75, lock: prevailing, torque: 60 N·m, running: added}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        for entry in lists.fasteners.values() {
            findings.extend(staked_again(entry));
            findings.extend(running_not_said(lists, entry));
        }
    }
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Lock) {
            findings.extend(staked_too_late(walk, at, moment));
            findings.extend(lock_not_listed(walk, moment));
        }
        for (thing, state, _) in walk.ends().filter(|(thing, _, _)| thing.kind == ListKind::Fasteners) {
            if let Some(end) = End::of(walk, thing, state) {
                findings.extend(end.lock_left_out().or_else(|| end.unmarked()));
                findings.extend(end.unlocked());
            }
        }
        for (thing, state, at) in walk.ends().filter(|(thing, _, _)| thing.kind == ListKind::Parts) {
            findings.extend(lock_washer_left_out(walk, thing, state, at));
        }
    });
}

/// A fastener that is at its value, or locked, at the end of the build, and that nobody leaves open.
struct End<'w, 'm> {
    walk: &'w Walk<'m>,
    thing: &'w ThingRef,
    entry: &'m Entry<Fastener>,
    lists: &'m Lists,
    state: State,
    /// Its last tightening.
    tightened: (usize, &'w Moment<'m>),
}

impl<'w, 'm> End<'w, 'm> {
    fn of(walk: &'w Walk<'m>, thing: &'w ThingRef, state: State) -> Option<Self> {
        let left_open = walk.open.iter().any(|span| span.thing == *thing);
        if !state.holds() || left_open || walk.machine.may_mean(&thing.id) {
            return None;
        }
        let tightened = walk.moments_of(thing).rfind(|(_, moment)| moment.verb == Verb::Torque)?;
        let scope = walk.scope(tightened.1.procedure);
        let entry = scope.thing(|lists| &lists.fasteners, thing).filter(|entry| !entry.what.temporary)?;
        Some(Self { walk, thing, entry, lists: scope.lists_of(thing)?, state, tightened })
    }

    fn lock(&self) -> Option<&'m Case<String>> {
        self.entry.what.lock.case(&self.walk.combination)
    }

    fn lock_left_out(&self) -> Option<Finding> {
        let lock = self.lock().filter(|lock| is_locked_by_hand(&lock.value) && self.state == State::Tight)?;
        // Locked before it was tight is told as that.
        if self.walk.moments_of(self.thing).any(|(_, moment)| moment.verb == Verb::Lock && moment.misstep.is_some()) {
            return None;
        }
        let (done, doing) = lock_words(&lock.value);
        let name = &self.entry.name;
        Some(
            Finding::new(&LOCK_LEFT_OUT, self.tightened.1.act.place.clone(), format!("{name} is tightened here, and is never {done}"))
                .label("the last that is done to it")
                .related(lock.place.clone(), "its lock")
                .fix(format!("{doing} after the torque: lock:{}; or say under leaves_open: where that is done", self.thing.id))
                .about(self.thing.id.clone()),
        )
    }

    fn unmarked(&self) -> Option<Finding> {
        let (at, tightened) = self.tightened;
        let marked = self.walk.moments_of(self.thing).any(|(other, moment)| other > at && moment.verb == Verb::Mark);
        (self.entry.what.critical && self.state == State::Tight && !marked).then(|| {
            Finding::new(&WITNESS_MARK_MISSING, tightened.act.place.clone(), format!("{} is critical, and no line is painted across it", self.entry.name))
                .label("at its value, and not marked")
                .fix(format!("paint a line across head and boss: [Paint a line across it](mark:{})", self.thing.id))
                .about(self.thing.id.clone())
        })
    }

    fn unlocked(&self) -> Option<Finding> {
        let (fastener, variant) = (&self.entry.what, &self.walk.combination);
        let role = fastener.role.get(variant).filter(|role| matches!(role.as_str(), "drive" | "shaft-nut"))?;
        let unreadable = |field| self.lists.is_unreadable(ListKind::Fasteners, &self.entry.id, field);
        if self.lock().is_some() || self.by_locker() || self.by_angle() || self.by_a_part() || unreadable("lock") || unreadable("locker") {
            return None;
        }
        let does = if role == "drive" { "carries drive" } else { "turns with its shaft" };
        Some(
            Finding::new(&ROTATING_JOINT_UNLOCKED, self.entry.id_place.clone(), format!("{} {does}, and nothing locks it", self.entry.name))
                .label("no lock, no locker")
                .related(self.tightened.1.act.place.clone(), "tightened here")
                .fix("name its lock (lock: tab-washer, staked, lock-wire, cotter, prevailing) or its locker; or lock: none, where the source has none")
                .about(format!("{}.lock", self.entry.id)),
        )
    }

    fn by_locker(&self) -> bool {
        let fastener = &self.entry.what;
        let listed = fastener.locker.get(&self.walk.combination).is_some() || fastener.threads.get(&self.walk.combination).is_some_and(|threads| threads == "locker");
        let put_on = |moment: &Moment<'_>| moment.verb == Verb::Apply && material(self.walk, moment).is_some_and(|material| is_locker(&material.what));
        listed || self.walk.moments_of(self.thing).any(|(_, moment)| put_on(moment))
    }

    fn by_angle(&self) -> bool {
        let stages = self.entry.what.torque.get(&self.walk.combination).or_else(|| self.entry.what.torque.first()).map(Torque::stages);
        stages.unwrap_or_default().iter().any(|stage| stage.dimension() == Dimension::Angle)
    }

    fn by_a_part(&self) -> bool {
        let scope = self.walk.scope(self.tightened.1.procedure);
        let kind = |id: &str| scope.entry(|lists| &lists.parts, id).and_then(|part| part.what.kind.get(&self.walk.combination));
        self.entry.what.holds.iter().filter_map(|held| kind(&held.value)).any(|kind| matches!(kind.as_str(), "lock-washer" | "pin" | "clip"))
    }
}

/// A lock that is made by hand: what is done, and what to do.
fn lock_words(lock: &str) -> (&'static str, &'static str) {
    match lock {
        "staked" => ("staked", "stake it"),
        "tab-washer" => ("locked by its tab", "bend the tab up"),
        "lock-wire" => ("wired", "wire it"),
        _ => ("pinned", "put the pin in"),
    }
}

fn staked_again(entry: &Entry<Fastener>) -> Option<Finding> {
    let staked = entry.what.lock.cases.iter().find(|lock| lock.value == "staked")?;
    let again = entry.what.reuse.cases.iter().find(|reuse| reuse.value == "yes" && reuse.when.agrees_with(&staked.when))?;
    Some(
        Finding::new(&STAKING_MISUSE, again.place.clone(), format!("{} is staked, and is used again as it comes", entry.name))
            .severity(Severity::Warning)
            .label("with its old dent")
            .related(staked.place.clone(), "staked")
            .fix("write reuse: never; or, where its collar may be staked at a fresh place, reuse: inspect with that as its when:")
            .about(format!("{}.reuse", entry.id)),
    )
}

fn staked_too_late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let (thing, entry) = fastener(walk, moment)?;
    entry.what.lock.get(&walk.combination).filter(|lock| *lock == "staked" && moment.before == State::Tight)?;
    let before = walk.moments.get(..at)?;
    let tightened = before.iter().rfind(|other| other.verb == Verb::Torque && other.act.things.contains(thing))?;
    let put_on = before.iter().rev().filter(|other| other.verb == Verb::Apply && other.act.things.contains(thing)).filter_map(|other| material(walk, other));
    let locker = put_on.into_iter().find(|material| is_locker(&material.what)).or_else(|| {
        let id = entry.what.locker.get(&walk.combination)?;
        walk.scope(moment.procedure).entry(|lists| &lists.materials, id)
    })?;
    let usual = LockerStrength::High.defaults().fixture_min;
    let fixture = minutes(locker.what.fixture.as_ref()).unwrap_or(usual);
    let how = too_late(tightened, moment, fixture)?;
    Some(
        Finding::new(&STAKING_MISUSE, moment.act.place.clone(), format!("{} is staked here, {how}, on locker that has set", entry.name))
            .label("the blow cracks the bond")
            .related(tightened.act.place.clone(), format!("tightened in {}", tightened.words()))
            .figure(format!("{} holds after {}{}", locker.name, time_words(fixture), if locker.what.fixture.is_some() { "" } else { " (common practice)" }))
            .fix("stake it straight after the torque, in the same step")
            .about(thing.id.clone()),
    )
}

fn lock_not_listed(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<Finding> {
    let (thing, entry) = fastener(walk, moment)?;
    let scope = walk.scope(moment.procedure);
    let lock = entry.what.lock.case(&walk.combination);
    let unreadable = scope.lists_of(thing).is_some_and(|lists| lists.is_unreadable(ListKind::Fasteners, &entry.id, "lock"));
    if unreadable || lock.is_some_and(|lock| is_locked_by_hand(&lock.value)) {
        return None;
    }
    let says = lock.map_or_else(|| "names no lock".to_owned(), |lock| format!("says {}", lock.value));
    let finding = Finding::new(&LOCK_METHOD_SWAPPED, moment.act.place.clone(), format!("{} is locked here, and its list {says}", entry.name))
        .label("locked how?")
        .fix("write in its list how it is locked: lock: staked, tab-washer, lock-wire or cotter")
        .about(format!("{}.lock", entry.id));
    Some(match lock {
        Some(lock) => finding.related(lock.place.clone(), "what its list says"),
        None => finding.related(entry.id_place.clone(), "listed here"),
    })
}

/// A lock washer that came out and stays out, while what held it is tightened again.
fn lock_washer_left_out(walk: &Walk<'_>, thing: &ThingRef, state: State, at: usize) -> Option<Finding> {
    let removed = walk.moments.get(at).filter(|moment| state == State::Removed && moment.verb == Verb::Remove)?;
    let scope = walk.scope(removed.procedure);
    let is_lock_washer = |part: &ThingRef| scope.thing(|lists| &lists.parts, part).is_some_and(|entry| entry.what.kind.get(&walk.combination).is_some_and(|kind| kind == "lock-washer"));
    let part = scope.thing(|lists| &lists.parts, thing).filter(|_| is_lock_washer(thing))?;
    let behind = walk.moments.get(at + 1..)?;
    let another = behind.iter().any(|moment| moment.verb == Verb::Fit && moment.act.things.iter().any(is_lock_washer));
    if another || walk.machine.may_mean(&thing.id) {
        return None;
    }
    let holders = walk.fasteners_of(scope, &thing.id);
    let tightened = behind.iter().find(|moment| moment.verb == Verb::Torque && moment.act.things.iter().any(|thing| holders.contains(thing)))?;
    let (nut, entry) = fastener(walk, tightened)?;
    let locker = behind.iter().find(|moment| moment.verb == Verb::Apply && moment.act.things.contains(nut) && material(walk, moment).is_some_and(|material| is_locker(&material.what)));
    let message = match locker {
        Some(_) => format!("{} is tightened with locker in place of {}", entry.name, part.name),
        None => format!("{} is tightened without {}", entry.name, part.name),
    };
    let finding = Finding::new(&LOCK_METHOD_SWAPPED, tightened.act.place.clone(), message)
        .label("its lock washer stays out")
        .related(removed.act.place.clone(), format!("taken out in {}", removed.words()))
        .fix(format!("put it, or a new one, in before: fit:{}; or cite who locks it otherwise, and list the washer no more", thing.id))
        .about(thing.id.clone());
    Some(match locker {
        Some(locker) => finding.related(locker.act.place.clone(), "locker in its place"),
        None => finding,
    })
}

fn running_not_said(lists: &Lists, entry: &Entry<Fastener>) -> Option<Finding> {
    let fastener = &entry.what;
    let lock = fastener.lock.cases.iter().find(|lock| lock.value == "prevailing" && !says_running(fastener, &lock.when))?;
    let torque = fastener.torque.cases.iter().find(|torque| torque.when.agrees_with(&lock.when))?;
    let value = torque.value.stages().iter().rev().find(|stage| stage.dimension() == Dimension::Torque)?;
    if lists.is_unreadable(ListKind::Fasteners, &entry.id, "running") {
        return None;
    }
    let thread = fastener.thread.cases.iter().find(|thread| thread.when.agrees_with(&lock.when)).map(|thread| &thread.value);
    let figure = thread.and_then(|thread| Some((thread, greatest_running_nm(thread)?, aimed_at(value)?))).map(|(thread, most, torque)| {
        let source = if thread.is_metric() { "ISO 2320, from memory" } else { "MSFC-STD-486B Table XI" };
        format!("a new {thread} nut may run with up to {most:.1} N·m ({source}), {:.0} % of {}", 100.0 * most / torque, value.written())
    });
    Some(
        Finding::new(&PREVAILING_TORQUE_IGNORED, torque.place.clone(), format!("is the torque that {} runs with in its {}?", entry.name, value.written()))
            .label("with or without its own grip?")
            .related(lock.place.clone(), "locks by its own grip")
            .figures(figure)
            .fix("write running: included, or added, as the source has it; running: not-stated where it says nothing")
            .about(format!("{}.running", entry.id)),
    )
}

fn says_running(fastener: &Fastener, when: &Combination) -> bool {
    fastener.running.cases.iter().any(|running| running.when.agrees_with(when))
}

/// The value aimed at, or the middle of a range, N·m.
fn aimed_at(value: &Quantity) -> Option<f64> {
    let (low, high) = value.low_high();
    value.nominal().or_else(|| Some(f64::midpoint(low?, high?))).or(low).or(high).filter(|torque| *torque > 0.0)
}
