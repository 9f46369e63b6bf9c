//! The start of a procedure that takes apart what another one puts together: its steps from the last to the first.
//!
//! A thing comes out where it went in for good, a fastener is slackened where it was tightened. What the lists know about the
//! way back (left-hand threads, lockers, locks, holding tools, warm fits, what is never used again) becomes a question at
//! its step, never an instruction: how a machine comes apart is not always how it went together.

use super::body::StepStart;
use super::yaml::free_id;
use crate::manual::{Fastener, Home, ListKind, Procedure, Scope, Step, ThingRef, Verb};
use crate::source::{Block, plain_text};
use std::collections::{BTreeMap, BTreeSet};

/// The procedure that is turned round, and where its ids are looked up.
#[derive(Clone, Copy, Debug)]
pub struct Undone<'a> {
    /// From where its ids are looked up.
    pub scope: Scope<'a>,
    /// The procedure.
    pub procedure: &'a Procedure,
}

/// Where a thing stands at the end of a procedure, by the numbers of its steps: where variants have steps of their own, in each.
#[derive(Clone, Debug, Default)]
struct Way {
    /// The acts by which it is in place: step, and act within it.
    into: Vec<(usize, usize)>,
    /// The steps in which it was tightened.
    tight: Vec<usize>,
}

impl Way {
    /// Whether it is tightened in another step than the one it went in by: then it is slackened there first.
    fn is_slackened_apart(&self, into: usize) -> bool {
        !self.tight.is_empty() && !self.tight.contains(&into)
    }
}

impl Undone<'_> {
    /// The steps, and what has to be told beside them.
    pub(super) fn steps(&self) -> (Vec<StepStart>, Vec<String>) {
        let mut taken: BTreeSet<String> = self.procedure.steps.iter().map(|step| step.id.clone()).collect();
        let mut steps = vec![StepStart::new(free_id("make-safe", &mut taken), &[
            "What must be safe, drained, cold, without pressure or disconnected before the first hand goes in? Write it as a notice, with its protection.",
            "What is read, marked or photographed as it was found, before anything moves?",
        ])];
        let ways = self.ways();
        steps.extend(self.procedure.steps.iter().enumerate().rev().filter_map(|(at, step)| self.step(at, step, &ways)));
        steps.push(StepStart::new(free_id("put-by", &mut taken), &[
            "What is counted, bagged and tagged, which openings are closed, what goes in the bin?",
            "Is this a safe place to stop for the day? Then point to stop: here.",
        ]));
        let mut notes = vec![format!("{} is begun after this one is done: put its id into after: there", self.procedure.id)];
        let own: Vec<&str> = ways.iter().filter(|(thing, way)| !way.into.is_empty() && self.is_own(thing)).map(|(thing, _)| thing.id.as_str()).collect();
        if !own.is_empty() {
            notes.push(format!("two procedures name them now, so they belong in machine.yaml: {}", own.join(", ")));
        }
        (steps, notes)
    }

    /// What is in place at the end, and since when. What is temporary goes out on its own.
    fn ways(&self) -> BTreeMap<&ThingRef, Way> {
        let mut ways: BTreeMap<&ThingRef, Way> = BTreeMap::new();
        let steps = &self.procedure.steps;
        for (at, step) in steps.iter().enumerate() {
            // What another variant did stays as it was.
            let apart = |other: usize| steps.get(other).is_some_and(|other| !other.only.agrees_with(&step.only));
            for (number, act) in step.acts.iter().enumerate() {
                for thing in act.things.iter().filter(|thing| ListKind::THINGS.contains(&thing.kind) && !self.is_temporary(thing)) {
                    let way = ways.entry(thing).or_default();
                    let goes_in = matches!(act.verb, Some(Verb::Fit | Verb::DryFit | Verb::Start)) || (act.verb == Some(Verb::Torque) && way.into.iter().all(|(other, _)| apart(*other)));
                    let goes_out = act.verb == Some(Verb::Remove) && act.times.is_none();
                    if goes_in || goes_out {
                        way.into.retain(|(other, _)| apart(*other));
                    }
                    if goes_in {
                        way.into.push((at, number));
                    }
                    if goes_out || matches!(act.verb, Some(Verb::Torque | Verb::Loosen)) {
                        way.tight.retain(|other| apart(*other));
                    }
                    if act.verb == Some(Verb::Torque) {
                        way.tight.push(at);
                    }
                }
            }
        }
        ways
    }

    fn step(&self, at: usize, step: &Step, ways: &BTreeMap<&ThingRef, Way>) -> Option<StepStart> {
        let mut undone = StepStart::new(step.id.clone(), &[]);
        let title = Some(step.title.trim_start_matches('?').trim()).filter(|title| !has_figures(title));
        undone.title = Some(format!("Undo “{}”", title.unwrap_or(&step.id)));
        undone.only = step.only.0.iter().map(|(axis, value)| format!("{axis}-{value}")).collect::<Vec<_>>().join(",");
        for (thing, _) in ways.iter().filter(|(_, way)| way.tight.contains(&at) && !way.into.iter().any(|(into, _)| *into == at) && !way.into.is_empty()) {
            self.undo(thing, "loosen", true, &mut undone);
        }
        undone.questions.extend(step.acts.iter().rev().filter_map(|act| self.on_the_way(act.verb?, act.thing()?)));
        let mut out: Vec<(usize, &ThingRef, bool)> = Vec::new();
        for (thing, way) in ways {
            out.extend(way.into.iter().filter(|(into, _)| *into == at).map(|(_, act)| (*act, *thing, !way.is_slackened_apart(at))));
        }
        out.sort_by_key(|(act, ..)| std::cmp::Reverse(*act));
        for (_, thing, is_first) in out {
            self.undo(thing, "remove", is_first, &mut undone);
        }
        if undone.questions.is_empty() && undone.acts.is_empty() {
            return None;
        }
        undone.questions.splice(..0, step.blocks.iter().filter_map(warned));
        Some(undone)
    }

    /// One thing slackened or taken out: its question, its holding tool, its act.
    fn undo(&self, thing: &ThingRef, verb: &str, first: bool, step: &mut StepStart) {
        let fastener = self.scope.thing(|lists| &lists.fasteners, thing).map(|entry| &entry.what);
        // What is asked of a fastener, and what holds its shaft, stands where it first moves: where it was tightened.
        let mut known = match fastener {
            Some(fastener) if first => self.fastener(fastener),
            Some(_) => Vec::new(),
            None => self.looked_at(thing),
        };
        let threads = fastener.map_or(&[][..], |fastener| fastener.thread.cases.as_slice());
        let left_hand: Vec<String> = threads.iter().filter(|thread| thread.value.left_hand).map(|thread| thread.when.words()).collect();
        let is_always = !left_hand.is_empty() && left_hand.len() == threads.len();
        if is_always && self.is_own(thing) {
            known.insert(0, "clockwise: its thread is left-hand".to_owned());
        } else if !is_always && !left_hand.is_empty() {
            known.insert(0, format!("on {} its thread is left-hand: clockwise there", left_hand.join(" and ")));
        }
        if self.is_own(thing) {
            known.insert(0, format!("{verb}:{} stands here once its entry is moved to machine.yaml", thing.id));
        }
        if !known.is_empty() {
            step.questions.push(format!("{}: {}?", self.name(thing), known.join("; ")));
        }
        let holder = fastener.and_then(|fastener| fastener.hold_with.first()).filter(|_| first);
        step.acts.extend(holder.filter(|id| self.is_shared_tool(id)).map(|id| format!("[? its shaft is held](tool:{id})")));
        if !self.is_own(thing) {
            let words = if is_always { "? clockwise: its thread is left-hand" } else { "?" };
            step.acts.push(format!("[{words}]({verb}:{})", thing.id));
        }
    }

    /// What the list knows about undoing a fastener.
    fn fastener(&self, fastener: &Fastener) -> Vec<String> {
        let mut known: Vec<String> = Vec::new();
        match fastener.lock.first().map(String::as_str) {
            Some("staked") => known.push("is its stake opened first".to_owned()),
            Some("tab-washer") => known.push("is its tab bent back first".to_owned()),
            Some("lock-wire") => known.push("is its wire cut first, and all of it found again".to_owned()),
            Some("cotter") => known.push("is its cotter drawn first".to_owned()),
            _ => {}
        }
        let locker = fastener.locker.first().and_then(|id| self.scope.entry(|lists| &lists.materials, id));
        if let Some(locker) = locker {
            let name = if has_figures(&locker.name) { &locker.id } else { &locker.name };
            known.push(format!("does {name} have to be warmed before it lets go, and what beside it minds the heat"));
        }
        if fastener.count.first().is_some_and(|count| *count > 2) {
            known.push("are all slackened a little at a time, in the reverse of the order in which they are tightened".to_owned());
        }
        if fastener.reuse.first().is_some_and(|reuse| reuse == "never") {
            known.push("does the old one go in the bin, or is it kept beside the new one until both are compared".to_owned());
        }
        let when = fastener.when.first().filter(|when| !has_figures(when)).filter(|_| fastener.reuse.first().is_some_and(|reuse| reuse == "inspect"));
        if let Some(when) = when {
            known.push(format!("is it looked at for what decides over its use again ({when})"));
        }
        known
    }

    /// What has to be seen or written down before a thing comes out.
    fn looked_at(&self, thing: &ThingRef) -> Vec<String> {
        let part = self.scope.thing(|lists| &lists.parts, thing).map(|entry| &entry.what);
        let seal = self.scope.thing(|lists| &lists.seals, thing).map(|entry| &entry.what);
        let bearing = self.scope.thing(|lists| &lists.bearings, thing).map(|entry| &entry.what);
        let mut known: Vec<&str> = Vec::new();
        let faces = part.is_some_and(|part| part.faces.is_given() || part.side.is_given()) || bearing.is_some_and(|bearing| bearing.faces.is_given());
        if faces || seal.is_some() {
            known.push("which way does it look as found; is that written down before it moves");
        }
        if bearing.is_some_and(|bearing| bearing.fit.is_given()) {
            known.push("is it drawn cold, or what is warmed, and what beside it minds the heat");
        }
        if thing.kind == ListKind::Shims {
            known.push("is its thickness read and written on its bag");
        }
        let reuse = [part.map(|part| &part.reuse), seal.map(|seal| &seal.reuse), bearing.map(|bearing| &bearing.reuse)];
        if reuse.into_iter().flatten().any(|reuse| reuse.first().is_some_and(|reuse| reuse == "never")) {
            known.push("is the old one kept until the new one has been compared with it");
        }
        known.into_iter().map(str::to_owned).collect()
    }

    /// What an act that is no fitting asks of the way back.
    fn on_the_way(&self, verb: Verb, thing: &ThingRef) -> Option<String> {
        let name = self.name(thing);
        Some(match (verb, thing.kind) {
            (Verb::Measure, _) => format!("{name}: is it read as found, before anything is undone here? Then point to measure:{}.", thing.id),
            (Verb::Fill, _) => format!("{name}: into what is it drained, and what does one look for in it: water, bronze, steel?"),
            (Verb::Apply, ListKind::Beads) => format!("{name}: where may the joint be pried apart, so that no blade goes between its faces?"),
            (Verb::Align, _) => format!("{name}: how does it stand as found, and which lines are scribed before it is lost?"),
            (Verb::Heat, _) => format!("{name}: it went in warm or chilled. What does it take to come out, and what beside it minds?"),
            _ => return None,
        })
    }

    /// What a thing is called: by its id where its name holds figures, which have no place in a sentence.
    fn name(&self, thing: &ThingRef) -> String {
        let name = self.scope.head(thing).map(|head| head.name).filter(|name| !has_figures(name));
        name.unwrap_or(&thing.id).to_owned()
    }

    fn is_own(&self, thing: &ThingRef) -> bool {
        matches!(thing.home, Home::Procedure(_))
    }

    /// Whether a tool can be named from another procedure.
    fn is_shared_tool(&self, id: &str) -> bool {
        Scope { procedure: None, ..self.scope }.entry(|lists| &lists.tools, id).is_some()
    }

    fn is_temporary(&self, thing: &ThingRef) -> bool {
        let fastener = self.scope.thing(|lists| &lists.fasteners, thing).is_some_and(|entry| entry.what.temporary);
        fastener || self.scope.thing(|lists| &lists.parts, thing).is_some_and(|entry| entry.what.temporary)
    }
}

/// A hazard on the way in is asked for on the way out.
fn warned(block: &Block) -> Option<String> {
    let Block::Notice(notice) = block else { return None };
    let said: String = notice.blocks.iter().filter_map(|block| if let Block::Paragraph(inlines) = block { Some(plain_text(inlines)) } else { None }).collect::<Vec<_>>().join(" ");
    let first = said.split_inclusive(['.', '!']).next().map(str::trim).filter(|first| !has_figures(first));
    let quoted = first.map_or_else(|| " here.".to_owned(), |first| format!(": “{first}”"));
    Some(format!("On the way in stood {}{quoted} What is the hazard on the way out, and what avoids it?", notice.word))
}

/// Whether words hold figures: a value that is quoted in a sentence would be a second home of it.
fn has_figures(words: &str) -> bool {
    words.contains(|sign: char| sign.is_ascii_digit())
}
