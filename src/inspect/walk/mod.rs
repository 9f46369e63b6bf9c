//! The walk: through every procedure of a machine in build order, for each combination of the variants
//! that change the work, keeping the state of every thing.
//!
//! A walk is a log: one [`Moment`] an act, with how its thing stood before and after, the session, and the
//! minutes of work and of waiting behind it. Rules read the log; they don't walk themselves.

mod everywhere;
mod open;
mod state;

pub(super) use everywhere::in_every;
pub use open::OpenSpan;
pub(super) use open::{closing_verbs, is_full, is_locked_by_hand, thing_of};
pub use state::{Misstep, State};

use crate::crew::in_order;
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{
    Act, Axis, Combination, Entry, Fastener, ListKind, Machine, Manual, Procedure, Scope, Step, ThingRef, Torque, Verb, combinations,
};
use state::{Change, Tightening, change};
use foldhash::HashMap;
use std::collections::{BTreeMap, BTreeSet};

/// The most combinations of variants walked for one machine.
const MOST_COMBINATIONS: usize = 256;

/// One act at its place in the walk, and what it changed.
#[derive(Clone, Debug)]
pub struct Moment<'m> {
    /// The procedure.
    pub procedure: &'m Procedure,
    /// The step.
    pub step: &'m Step,
    /// The act.
    pub act: &'m Act,
    /// What is done.
    pub verb: Verb,
    /// How its (first) thing stood before.
    pub before: State,
    /// How it stands after.
    pub after: State,
    /// What makes no sense about it.
    pub misstep: Option<Misstep>,
    /// Evening of work, from 0: a `stop:` begins the next.
    pub session: usize,
    /// Minutes of work behind the beginning of its step, as the steps state them.
    pub minutes: f64,
    /// Minutes of waits sat out before it.
    pub waited: f64,
}

impl<'m> Moment<'m> {
    /// The address of its act without number or stage: what a wait or a tool needs is so named.
    #[must_use]
    pub fn whole_address(&self) -> &'m str {
        let address = self.act.address.as_str();
        let end = address.bytes().position(|byte| matches!(byte, b'*' | b'/')).unwrap_or(address.len());
        address.get(..end).unwrap_or_default()
    }

    /// Where it stands, as a reader finds it: `Close the gearcase, step 2, line 160` without the line.
    #[must_use]
    pub fn words(&self) -> String {
        format!("{}, step {} ‘{}’", self.procedure.title, self.step.number, self.step.title)
    }
}

/// One walk through the whole build of one machine in one combination of variants.
#[derive(Clone, Debug)]
pub struct Walk<'m> {
    /// The manual.
    pub manual: &'m Manual,
    /// The machine.
    pub machine: &'m Machine,
    /// The variants that matter.
    pub combination: Combination,
    /// Every act that is done in this combination, in the order of work.
    pub moments: Vec<Moment<'m>>,
    /// Each change of each thing's state: the moment that made it, and the state.
    pub history: BTreeMap<ThingRef, Vec<(usize, State)>>,
    /// Open items: from the moment that opens each to the one that closes it.
    pub open: Vec<OpenSpan<'m>>,
    /// The moments that act on each thing, by index; only ever looked up in.
    acted_on: HashMap<&'m ThingRef, Vec<usize>>,
    /// The moments of each address without number or stage, by index; only ever looked up in.
    addressed: HashMap<&'m str, Vec<usize>>,
}

/// A machine varies in more ways than can be walked.
pub(super) static VARIANTS_TOO_MANY: Rule = Rule {
    name: "variants-too-many",
    severity: Severity::Warning,
    summary: "A machine has more combinations of variants than can be checked.",
    explanation: Explanation {
        finds: "Machines whose steps and things depend on so many axes that more than 256 combinations are made. Only the first of each axis is walked then.",
        matters: "A fault that shows in one combination only may be missed.",
        may_be_wrong: "Where most combinations are not made: name them under not_made:.",
        example: "variants: {a: {…}, b: {…}, c: {…}, …} with a step for each",
        instead: "Split the machine into two, or say under not_made: which combinations don't exist.",
    },
};

/// The walks through every machine of a manual, made on so many threads.
pub fn walks<'m>(manual: &'m Manual, threads: usize, findings: &mut Vec<Finding>) -> Vec<Walk<'m>> {
    let of_machines = in_order(&manual.machines, threads, |machine| {
        let named = axes_that_change_the_work(machine);
        let (made, told) = match combinations(&machine.axes, &machine.not_made, &named, MOST_COMBINATIONS) {
            Some(made) => (made, None),
            None => (vec![first_of_each(machine, &named)], Some(too_many(machine, named.len()))),
        };
        (made.into_iter().map(|combination| Walk::through(manual, machine, combination)).collect::<Vec<_>>(), told)
    });
    let mut all = Vec::new();
    for (walks, told) in of_machines {
        all.extend(walks);
        findings.extend(told);
    }
    all
}

fn too_many(machine: &Machine, axes: usize) -> Finding {
    let place = machine.axes.first().map_or_else(|| Place::whole_file(machine.file), |axis| axis.place.clone());
    Finding::new(&VARIANTS_TOO_MANY, place, format!("{} has more combinations of variants than can be checked", machine.name))
        .label("too many together")
        .figure(format!("{axes} axes change the work, together more than {MOST_COMBINATIONS} combinations"))
        .fix("name the combinations that don't exist under not_made:, or split the machine")
}

fn first_of_each(machine: &Machine, named: &BTreeSet<String>) -> Combination {
    let first = |axis: &Axis| axis.values.first().map(|value| (axis.name.clone(), value.name.clone()));
    Combination(machine.axes.iter().filter(|axis| named.contains(&axis.name)).filter_map(first).collect())
}

/// The axes named by a step's or an entry's condition: the others change values, not the work.
fn axes_that_change_the_work(machine: &Machine) -> BTreeSet<String> {
    let mut named = BTreeSet::new();
    let mut note = |condition: &Combination| named.extend(condition.0.keys().cloned());
    let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
    for lists in lists {
        for kind in ListKind::ALL {
            lists.heads(*kind).iter().for_each(|head| note(head.only));
        }
        // Whether a thing is new each time changes what a walk may do with it, and so does how it is locked.
        for written in lists.written.iter().filter(|written| matches!(written.field, "reuse" | "locker" | "threads" | "lock")) {
            note(&written.when);
        }
    }
    for step in machine.procedures.iter().flat_map(|procedure| &procedure.steps) {
        note(&step.only);
    }
    named
}

impl<'m> Walk<'m> {
    fn through(manual: &'m Manual, machine: &'m Machine, combination: Combination) -> Self {
        let mut walk = Self {
            manual,
            machine,
            combination,
            moments: Vec::new(),
            history: BTreeMap::new(),
            open: Vec::new(),
            acted_on: HashMap::default(),
            addressed: HashMap::default(),
        };
        let mut clock = Clock::default();
        for procedure in &machine.procedures {
            for step in &procedure.steps {
                if walk.combination.satisfies(&step.only) {
                    step.acts.iter().for_each(|act| walk.act(procedure, step, act, &mut clock));
                    clock.minutes += step.minutes.unwrap_or(0.0);
                }
            }
        }
        walk.open = open::spans(&walk);
        walk
    }

    /// Where a moment's ids are looked up.
    #[must_use]
    pub fn scope(&self, procedure: &'m Procedure) -> Scope<'m> {
        self.manual.scope(self.machine, procedure)
    }

    /// ` (serial late)` where the walk is of one variant; empty where it is of every machine.
    #[must_use]
    pub fn variant_words(&self) -> String {
        if self.combination.is_always() { String::new() } else { format!(" ({})", self.combination.words()) }
    }

    /// How a thing stands at the end.
    #[must_use]
    pub fn state(&self, thing: &ThingRef) -> State {
        self.history.get(thing).and_then(|changes| changes.last()).map_or(State::Absent, |(_, state)| *state)
    }

    /// How a thing stands before the moment of an index, and the moment that left it so.
    #[must_use]
    pub fn state_before(&self, thing: &ThingRef, moment: usize) -> (State, Option<usize>) {
        let changes = self.history.get(thing).map(Vec::as_slice).unwrap_or_default();
        changes.iter().rev().find(|(at, _)| *at < moment).map_or((State::Absent, None), |(at, state)| (*state, Some(*at)))
    }

    /// Each thing that was touched, its state at the end, and the moment that left it so.
    pub fn ends(&self) -> impl Iterator<Item = (&ThingRef, State, usize)> {
        self.history.iter().filter_map(|(thing, changes)| changes.last().map(|(at, state)| (thing, *state, *at)))
    }

    /// The moments that act on a thing, with their indices.
    pub fn moments_of<'a>(&'a self, thing: &ThingRef) -> impl DoubleEndedIterator<Item = (usize, &'a Moment<'m>)> {
        let indices = self.acted_on.get(thing).map(Vec::as_slice).unwrap_or_default();
        indices.iter().filter_map(|at| self.moments.get(*at).map(|moment| (*at, moment)))
    }

    /// The moments of an act's address without number or stage (`torque:bolt`), with their indices, in the order of work.
    pub fn moments_at<'a>(&'a self, address: &str) -> impl DoubleEndedIterator<Item = (usize, &'a Moment<'m>)> + use<'a, 'm> {
        let indices = self.addressed.get(address).map(Vec::as_slice).unwrap_or_default();
        indices.iter().filter_map(|at| self.moments.get(*at).map(|moment| (*at, moment)))
    }

    fn act(&mut self, procedure: &'m Procedure, step: &'m Step, act: &'m Act, clock: &mut Clock) {
        let Some(verb) = act.verb else { return };
        let scope = self.scope(procedure);
        let exists = |thing: &ThingRef| scope.head(thing).is_none_or(|head| self.combination.satisfies(head.only));
        if act.things.iter().any(|thing| !exists(thing)) || (act.things.is_empty() && verb != Verb::Stop) {
            return;
        }
        let (before, changed) = match act.thing() {
            Some(thing) => {
                let before = self.state(thing);
                (before, change(thing.kind, before, verb, self.tightening(scope, thing, act)))
            }
            None => (State::Absent, Change::Stays),
        };
        let (after, misstep) = match changed {
            Change::Becomes(after) => (after, None),
            Change::Stays => (before, None),
            Change::Wrong(after, misstep) => (after, Some(misstep)),
        };
        if let Some(thing) = act.thing().filter(|_| changed != Change::Stays) {
            self.note(thing.clone(), after);
            self.follow(scope, thing, after);
        }
        for (at, thing) in act.things.iter().enumerate() {
            // A thing named twice in one act is acted on once.
            if !act.things.iter().take(at).any(|other| other == thing) {
                self.acted_on.entry(thing).or_default().push(self.moments.len());
            }
        }
        let (session, minutes, waited) = (clock.session, clock.minutes, clock.waited);
        let moment = Moment { procedure, step, act, verb, before, after, misstep, session, minutes, waited };
        self.addressed.entry(moment.whole_address()).or_default().push(self.moments.len());
        self.moments.push(moment);
        clock.pass(scope, &self.combination, act, verb);
    }

    fn tightening(&self, scope: Scope<'m>, thing: &ThingRef, act: &Act) -> Tightening {
        let Some(entry) = scope.thing(|lists| &lists.fasteners, thing) else { return Tightening::default() };
        let torque = entry.what.torque.get(&self.combination).or_else(|| entry.what.torque.first());
        let stages = torque.map_or(0, |torque| torque.stages().len());
        let is_last = |stage: u64| usize::try_from(stage).is_ok_and(|stage| stage >= stages);
        Tightening {
            stage: act.stage,
            early_stage: act.stage.filter(|stage| !is_last(*stage)),
            by_hand: matches!(torque, Some(Torque::Hand)),
        }
    }

    fn note(&mut self, thing: ThingRef, state: State) {
        let at = self.moments.len();
        self.history.entry(thing).or_default().push((at, state));
    }

    /// A stack takes its plates with it, a part that comes out sets free the fasteners that held it, and
    /// one that leaves is away itself.
    fn follow(&mut self, scope: Scope<'m>, thing: &ThingRef, after: State) {
        match (thing.kind, after) {
            (ListKind::Stacks, _) => {
                let plates = scope.thing(|lists| &lists.stacks, thing).map(|entry| entry.what.of.as_slice()).unwrap_or_default();
                for plate in plates.iter().filter_map(|plate| scope.find(ListKind::Parts, &plate.value)) {
                    self.note(plate, after);
                }
            }
            (ListKind::Away, _) => {
                if let Some(part) = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, &thing.id)) {
                    self.note(part, if after == State::Away { State::Away } else { State::Removed });
                }
            }
            (_, State::Removed) => {
                let held: Vec<ThingRef> = self.fasteners_of(scope, &thing.id).into_iter().filter(|f| self.state(f).is_in_place()).collect();
                held.into_iter().for_each(|fastener| self.note(fastener, State::Absent));
            }
            _ => {}
        }
    }

    /// The fasteners that hold a part.
    #[must_use]
    pub fn fasteners_of(&self, scope: Scope<'m>, part: &str) -> Vec<ThingRef> {
        let holds = |entry: &Entry<Fastener>| entry.what.holds.iter().any(|held| held.value == part);
        scope
            .homes()
            .flat_map(|(home, lists)| {
                let held = lists.fasteners.values().filter(|entry| holds(entry));
                held.map(move |entry| ThingRef { kind: ListKind::Fasteners, home: home.clone(), id: entry.id.clone() }).collect::<Vec<_>>()
            })
            .collect()
    }
}

/// What has gone by: minutes of work, minutes of waits, evenings.
#[derive(Debug, Default)]
struct Clock {
    session: usize,
    minutes: f64,
    waited: f64,
    /// When each running wait was begun.
    begun: BTreeMap<ThingRef, f64>,
}

impl Clock {
    fn pass(&mut self, scope: Scope<'_>, combination: &Combination, act: &Act, verb: Verb) {
        match (verb, act.thing()) {
            (Verb::Stop, _) => self.session += 1,
            (Verb::Begin, Some(wait)) => {
                self.begun.insert(wait.clone(), self.minutes + self.waited);
            }
            (Verb::Wait, Some(wait)) => {
                let least = minutes_of(scope.thing(|lists| &lists.waits, wait).and_then(|entry| entry.what.time.get(combination)));
                let gone = self.begun.remove(wait).map_or(0.0, |begun| self.minutes + self.waited - begun);
                self.waited += (least - gone).max(0.0);
            }
            (Verb::Cool, Some(heat)) => {
                self.waited += minutes_of(scope.thing(|lists| &lists.heats, heat).and_then(|entry| entry.what.cool.get(combination)));
            }
            _ => {}
        }
    }
}

/// The least a time lasts, in minutes; none where it is not known.
fn minutes_of(time: Option<&crate::quantity::Quantity>) -> f64 {
    let (low, high) = time.map_or((None, None), crate::quantity::Quantity::low_high);
    low.or(high).unwrap_or(0.0) / 60.0
}
