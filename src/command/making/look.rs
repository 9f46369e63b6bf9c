//! Looking at every machine: those that are as they were by what was left of them, the others by reading them.

use super::Memory;
use super::cause::{Cause, differences};
use super::press::{Early, LaidEarly};
use super::state::{MachineState, Parts, State};
use crate::command::progress::Progress;
use crate::crew::in_order;
use crate::finding::{FileId, Finding, StoredFinding};
use crate::inspect::{Frame, Summary, rule};
use crate::manual::{Ledger, Machine, Manual, Outline, links_abroad, lower_machine, machine_named};
use crate::output::Kept;
use crate::source::{MachineTexts, Sources, Survey, fingerprint, read_machine};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::{Arc, Mutex};
use std::sync::atomic::{AtomicUsize, Ordering};

/// What machines are looked at with.
pub(super) struct Ground<'a> {
    pub(super) survey: &'a Survey,
    pub(super) frame: &'a Manual,
    pub(super) look: &'a Frame<'a>,
    /// The state that the last run left, where all machines share what they shared then.
    pub(super) state: Option<&'a State>,
    /// Why there is none, where there is none.
    pub(super) stateless: Vec<Cause>,
    /// The values to compare with; read only when they are asked for.
    pub(super) against: &'a (dyn Fn() -> Option<&'a Ledger> + Sync),
    /// Whether those are the values that the state's own run has published.
    pub(super) against_own: bool,
    /// The site beside the manual, where it is that one's values.
    pub(super) beside: Option<PathBuf>,
    /// What that run has left.
    pub(super) kept: &'a Kept,
    pub(super) memory: Memory,
    pub(super) threads: usize,
    pub(super) progress: Progress,
}

impl Ground<'_> {
    /// Whether there is an earlier state to compare the values with.
    pub(super) fn compared(&self) -> bool {
        self.against_own || (self.against)().is_some()
    }

    /// The values to compare a machine with: its own at least.
    fn against_of(&self, id: &str) -> Option<Cow<'_, Ledger>> {
        let own = if self.against_own { self.left_values(id) } else { None };
        own.map(Cow::Owned).or_else(|| (self.against)().map(Cow::Borrowed))
    }

    /// The values of a machine that the state's own run has published: the list of all of them is large.
    fn left_values(&self, id: &str) -> Option<Ledger> {
        let pages = self.state?.machines.get(id)?.pages.as_ref()?;
        Ledger::of_parts(&self.frame.title, &Parts::read(self.kept, id, &pages.parts)?.values)
    }
}

/// A machine that was looked at.
pub(super) struct Looked {
    pub(super) state: MachineState,
    /// Why it was looked at anew; nothing where it is as it was.
    pub(super) causes: Vec<Cause>,
    pub(super) findings: Vec<Finding>,
    /// Its model, where it was looked at anew and is held.
    pub(super) machine: Option<Machine>,
    /// Its pages, where they were made already.
    pub(super) laid: Option<LaidEarly>,
    /// Whether what was found can be left for the next run.
    pub(super) lasting: bool,
}

/// A machine after the first round: done, or waiting for the outlines of others.
enum First {
    Kept(Box<MachineState>, Vec<Finding>),
    Done(Box<Looked>),
    Waiting(Box<Waiting>),
}

struct Waiting {
    causes: Vec<Cause>,
    /// As it is, or as it was foretold.
    outline: Outline,
    /// Unless it was not read yet, or there are too many.
    lowered: Option<Lowered>,
}

/// A machine read and lowered.
struct Lowered {
    machine: Machine,
    findings: Vec<Finding>,
}

/// What the looks at all machines have in common.
struct Round<'r> {
    /// Bytes of text of the machines whose models are held.
    held: AtomicUsize,
    /// Threads for each machine.
    each: usize,
    /// Makes the pages of machines that can't be held; nothing where none are made.
    early: Option<&'r Early<'r>>,
}

/// Looks at every machine, in the manual's order, and tells the outlines of all. `early` makes pages where a model can't be held.
pub(super) fn look(ground: &Ground<'_>, early: Option<&Early<'_>>) -> (Vec<Looked>, BTreeMap<String, Arc<Outline>>) {
    let machines = &ground.survey.machines;
    let round = Round { held: AtomicUsize::new(0), each: ground.threads.max(1).div_ceil(machines.len().max(1)), early };
    let stage = ground.progress.stage("Looking at", machines.len());
    let first = in_order(machines, ground.threads, |texts| ground.first(texts, &round));
    let outline = |first: &First| match first {
        First::Kept(state, _) => state.outline.clone(),
        First::Done(looked) => looked.state.outline.clone(),
        First::Waiting(waiting) => waiting.outline.clone(),
    };
    let outlines: BTreeMap<String, Arc<Outline>> =
        machines.iter().zip(&first).map(|(texts, first)| (texts.id.clone(), Arc::new(outline(first)))).collect();
    let second: Vec<(&MachineTexts, Mutex<Option<First>>)> =
        machines.iter().zip(first).map(|(texts, first)| (texts, Mutex::new(Some(first)))).collect();
    let mut looked = in_order(&second, ground.threads, |(texts, first)| {
        let first = first.lock().ok().and_then(|mut first| first.take());
        let looked = ground.second(texts, first, &outlines, &round);
        stage.one();
        looked
    });
    let outlines = ground.made_right(&mut looked, outlines, &round);
    (looked, outlines)
}

/// The earlier values of a machine, where there are any and they are others than its own.
fn against_print(earlier: Option<&Ledger>, id: &str, own: &str) -> String {
    let Some(part) = earlier.and_then(|ledger| ledger.part(id)) else { return String::new() };
    let print = fingerprint(&serde_json::to_vec(&part).unwrap_or_default());
    if print == own { String::new() } else { print }
}

/// Whether a link leads to no machine, procedure or step that there is.
fn leads_nowhere(target: &str, outlines: &BTreeMap<String, Arc<Outline>>) -> bool {
    let shown = machine_named(target).and_then(|machine| outlines.get(machine)?.shown_by(target));
    shown.is_none_or(|(_, _, number)| number.is_none() && target.contains('#'))
}

/// What a link to another machine shows of it; nothing where it leads nowhere.
fn shown_by(target: &str, outlines: &BTreeMap<String, Arc<Outline>>) -> String {
    let outline = machine_named(target).and_then(|machine| outlines.get(machine));
    let shown = outline.and_then(|outline| outline.shown_by(target));
    shown.map_or_else(String::new, |shown| serde_json::to_string(&shown).unwrap_or_default())
}

impl<'a> Ground<'a> {
    fn sources(&self) -> &'a Sources {
        &self.survey.sources
    }

    fn first(&self, texts: &MachineTexts, round: &Round<'_>) -> First {
        let mut causes = self.causes(texts);
        if causes.is_empty()
            && let Some(state) = self.state.and_then(|state| state.machines.get(&texts.id))
            && let Some(findings) = self.restored(texts, &state.found)
        {
            return First::Kept(Box::new(state.clone()), findings);
        }
        if causes.is_empty() {
            causes.push(Cause::NotKept);
        }
        // Where nothing was left all machines are read: each only once, if what links show of it can be foretold.
        if self.state.is_none()
            && let Some(outline) = Outline::foretold(&self.sources().files, texts)
        {
            return First::Waiting(Box::new(Waiting { causes, outline, lowered: None }));
        }
        let lowered = self.lowered(texts);
        let outline = Outline::of(&lowered.machine);
        // Pages ask for the outlines of all machines.
        if round.early.is_none() && links_abroad(&lowered.machine).is_empty() {
            return First::Done(Box::new(self.looked(texts, lowered, causes, &BTreeMap::new(), round)));
        }
        let lowered = self.may_hold(texts, &round.held, self.memory.waiting).then_some(lowered);
        First::Waiting(Box::new(Waiting { causes, outline, lowered }))
    }

    fn second(&self, texts: &MachineTexts, first: Option<First>, outlines: &BTreeMap<String, Arc<Outline>>, round: &Round<'_>) -> Looked {
        match first {
            Some(First::Done(looked)) => *looked,
            Some(First::Waiting(waiting)) => {
                let Waiting { causes, lowered, .. } = *waiting;
                // What is held already counts a second time below; it is let go of only here.
                if lowered.is_some() {
                    round.held.fetch_sub(texts.size(&self.sources().files), Ordering::Relaxed);
                }
                self.looked(texts, lowered.unwrap_or_else(|| self.lowered(texts)), causes, outlines, round)
            }
            Some(First::Kept(state, findings)) => {
                let moved = |(target, shown): (&String, &String)| {
                    (shown_by(target, outlines) != *shown).then(|| Cause::Linked(target.clone()))
                };
                let causes: Vec<Cause> = state.linked.iter().filter_map(moved).collect();
                if causes.is_empty() {
                    return Looked { state: *state, causes, findings, machine: None, laid: None, lasting: true };
                }
                self.looked(texts, self.lowered(texts), causes, outlines, round)
            }
            None => self.looked(texts, self.lowered(texts), vec![Cause::Unknown], outlines, round),
        }
    }

    /// Looks once more at the machines whose links show something of another that was foretold wrong; tells the outlines as they are.
    fn made_right(&self, looked: &mut [Looked], foretold: BTreeMap<String, Arc<Outline>>, round: &Round<'_>) -> BTreeMap<String, Arc<Outline>> {
        let is_right = |looked: &Looked| foretold.get(&looked.state.outline.id).is_some_and(|foretold| foretold.shows_the_same(&looked.state.outline));
        if looked.iter().all(is_right) {
            return foretold;
        }
        let outlines = looked.iter().map(|looked| (looked.state.outline.id.clone(), Arc::new(looked.state.outline.clone()))).collect();
        // What is told of a link that leads nowhere hangs on all that the other machine has.
        let is_wrong = |(target, shown): (&String, &String)| leads_nowhere(target, &outlines) || shown_by(target, &outlines) != *shown;
        let wrong: Vec<(&MachineTexts, Mutex<&mut Looked>)> = self.survey.machines.iter().zip(looked)
            .filter(|(_, looked)| looked.state.linked.iter().any(is_wrong))
            .map(|(texts, looked)| (texts, Mutex::new(looked)))
            .collect();
        in_order(&wrong, self.threads, |(texts, looked)| {
            let Ok(mut looked) = looked.lock() else { return };
            if looked.machine.take().is_some() {
                round.held.fetch_sub(texts.size(&self.sources().files), Ordering::Relaxed);
            }
            if let Some((early, laid)) = round.early.zip(looked.laid.take()) {
                early.take_back(&laid);
            }
            **looked = self.looked(texts, self.lowered(texts), looked.causes.clone(), &outlines, round);
        });
        outlines
    }

    /// Why a machine can't be taken as it was, but for the outlines of others.
    fn causes(&self, texts: &MachineTexts) -> Vec<Cause> {
        let Some(state) = self.state else { return self.stateless.clone() };
        let Some(known) = state.machines.get(&texts.id) else { return vec![Cause::Unknown] };
        let mut causes = differences(&known.own, &texts.fingerprints(&self.sources().files));
        causes.extend(differences(&known.shown, &self.shown(known.shown.keys())));
        if causes.is_empty() && !self.against_own && against_print((self.against)(), &texts.id, &known.values) != known.against {
            causes.push(Cause::Against);
        }
        if self.against_own && !known.against.is_empty() {
            causes.push(Cause::Against);
        }
        causes
    }

    /// The pictures of some paths by their fingerprints.
    fn shown<'p>(&self, paths: impl Iterator<Item = &'p String>) -> BTreeMap<String, String> {
        let print = |path: &String| match self.sources().pictures.get(path) {
            Some(picture) => format!("{} {:?} {} {} {}", picture.key, picture.format, picture.width, picture.height, picture.orientation),
            None if self.sources().unusable_pictures.contains(path) => "unusable".to_owned(),
            None => String::new(),
        };
        paths.map(|path| (path.clone(), print(path))).collect()
    }

    fn lowered(&self, texts: &MachineTexts) -> Lowered {
        let (source, mut findings) = read_machine(&self.sources().files, texts);
        let (machine, more) = lower_machine(self.frame, &self.sources().files, &source);
        findings.extend(more);
        Lowered { machine, findings }
    }

    /// Whether one more model may be held.
    fn may_hold(&self, texts: &MachineTexts, held: &AtomicUsize, most: usize) -> bool {
        let size = texts.size(&self.sources().files);
        let may = held.fetch_add(size, Ordering::Relaxed) + size <= most;
        if !may {
            held.fetch_sub(size, Ordering::Relaxed);
        }
        may
    }

    fn looked(
        &self,
        texts: &MachineTexts,
        lowered: Lowered,
        causes: Vec<Cause>,
        outlines: &BTreeMap<String, Arc<Outline>>,
        round: &Round<'_>,
    ) -> Looked {
        let Lowered { machine, mut findings } = lowered;
        let linked = links_abroad(&machine);
        let mut alone = alone(self.frame, machine, outlines);
        let earlier = self.against_of(&texts.id);
        let report = self.look.machine(&alone, earlier.as_deref(), round.each);
        findings.extend(report.findings);
        let values = Ledger::part_of(&alone, &texts.id).map_or_else(String::new, |part| fingerprint(&serde_json::to_vec(&part).unwrap_or_default()));
        let machine = alone.machines.first();
        let state = MachineState {
            own: texts.fingerprints(&self.sources().files),
            linked: linked.into_iter().map(|target| (shown_by(&target, outlines), target)).map(|(shown, target)| (target, shown)).collect(),
            shown: self.shown(machine.into_iter().flat_map(Machine::shown_pictures).collect::<BTreeSet<_>>().iter()),
            against: against_print(earlier.as_deref(), &texts.id, &values),
            values,
            outline: machine.map_or_else(|| Outline { id: texts.id.clone(), name: String::new(), procedures: Vec::new() }, Outline::of),
            summary: report.summary,
            found: findings.iter().map(|finding| StoredFinding::of(finding, &self.sources().files)).collect(),
            pages: None,
        };
        let lasting = !report.looks_further && self.can_last(texts, &state, &findings);
        let mut looked = Looked { state, causes, findings, machine: None, laid: None, lasting };
        if self.may_hold(texts, &round.held, self.memory.looked_at) {
            looked.machine = alone.machines.pop();
        } else {
            looked.laid = round.early.and_then(|early| early.lay_down(&alone, &looked, round.each));
        }
        looked
    }

    /// Whether the next run can tell that nothing of it changed.
    fn can_last(&self, texts: &MachineTexts, state: &MachineState, findings: &[Finding]) -> bool {
        let files = self.files_about(texts);
        let places = findings.iter().flat_map(|finding| finding.related_places().iter().map(|(place, _)| place).chain([finding.place()]));
        let mut places = places.map(|place| self.sources().files.name(place.file));
        state.own.values().all(|print| !print.is_empty()) && places.all(|name| files.contains_key(name))
    }

    /// The files that findings in a machine may speak of, by name.
    fn files_about(&self, texts: &MachineTexts) -> BTreeMap<&'a str, FileId> {
        let sources = self.sources();
        let shared = std::iter::once(sources.manual.file).chain(sources.shop.iter().map(|shop| shop.file));
        texts.files().chain(shared).map(|file| (sources.files.name(file), file)).collect()
    }

    fn restored(&self, texts: &MachineTexts, found: &[StoredFinding]) -> Option<Vec<Finding>> {
        let files = self.files_about(texts);
        found.iter().map(|finding| finding.restore(&rule, &|name| files.get(name).copied())).collect()
    }

    /// The model of a machine that is not held.
    pub(super) fn model(&self, texts: &MachineTexts) -> Machine {
        self.lowered(texts).machine
    }
}

/// A manual with one machine, and the others by their outlines.
pub(super) fn alone(frame: &Manual, machine: Machine, outlines: &BTreeMap<String, Arc<Outline>>) -> Manual {
    let beside = outlines.iter().filter(|(id, _)| **id != machine.id).map(|(_, outline)| Arc::clone(outline)).collect();
    Manual { machines: vec![machine], beside, ..frame.clone_without_machines() }
}

/// The summaries of all machines.
pub(super) fn summaries(looked: &[Looked]) -> Vec<&Summary> {
    looked.iter().map(|looked| &looked.state.summary).collect()
}
