//! What one machine shows of itself to the others: the names that a link from another machine needs, and no more.
//!
//! A machine can be looked at and published alone, with the outlines of the others beside it: a change in one machine
//! then concerns another only where its outline changed.

use super::model::{Machine, Manual, Procedure};
use crate::finding::FileTable;
use crate::source::{Inline, MachineTexts, ProcedureSketch, Sketch, each_inline, sketch};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::BTreeSet;

/// The outline of a machine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outline {
    /// The machine's id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Its procedures in build order.
    pub procedures: Vec<ProcedureOutline>,
}

/// The outline of a procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProcedureOutline {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Ids of its steps in the order of work; the number of a step is its place here, from 1.
    pub steps: Vec<String>,
}

impl Outline {
    /// The outline of a machine.
    #[must_use]
    pub fn of(machine: &Machine) -> Self {
        let procedures = machine.procedures.iter().map(|procedure| ProcedureOutline {
            id: procedure.id.clone(),
            title: procedure.title.clone(),
            steps: procedure.steps.iter().map(|step| step.id.clone()).collect(),
        });
        Self { id: machine.id.clone(), name: machine.name.clone(), procedures: procedures.collect() }
    }

    /// The outline that a quick look at a machine's texts foretells, its procedures in the order of their files. None where the
    /// look tells too little; and it may tell wrong.
    #[must_use]
    pub fn foretold(files: &FileTable, texts: &MachineTexts) -> Option<Self> {
        let Sketch { name, procedures } = sketch(files, texts)?;
        let procedures = procedures.into_iter().map(|ProcedureSketch { id, title, steps }| ProcedureOutline { id, title, steps });
        Some(Self { id: texts.id.clone(), name, procedures: procedures.collect() })
    }

    /// Whether links to this machine and to another show the same, wherever they lead.
    #[must_use]
    pub fn shows_the_same(&self, other: &Self) -> bool {
        let same = |procedure: &ProcedureOutline| other.procedure(&procedure.id) == Some(procedure);
        self.name == other.name && self.procedures.len() == other.procedures.len() && self.procedures.iter().all(same)
    }

    /// A procedure by id.
    #[must_use]
    pub fn procedure(&self, id: &str) -> Option<&ProcedureOutline> {
        self.procedures.iter().find(|procedure| procedure.id == id)
    }
}

impl Outline {
    /// All that a link to this machine can show or hang on: names of the machine and the procedure, and the step's number.
    /// None where there is no such procedure.
    #[must_use]
    pub fn shown_by(&self, target: &str) -> Option<(&str, &str, Option<usize>)> {
        let (path, step) = target.split_once('#').map_or((target, None), |(path, step)| (path, Some(step)));
        let procedure = self.procedure(path.split_once('/')?.1)?;
        Some((&self.name, &procedure.title, step.and_then(|step| procedure.number(step))))
    }
}

impl ProcedureOutline {
    /// The number of a step by its id.
    #[must_use]
    pub fn number(&self, step: &str) -> Option<usize> {
        self.steps.iter().position(|id| id == step).map(|index| index + 1)
    }
}

impl Manual {
    /// The outline of a machine, whether it is here whole or by its outline only.
    #[must_use]
    pub fn outline(&self, id: &str) -> Option<Cow<'_, Outline>> {
        let beside = || self.beside.iter().find(|outline| outline.id == id).map(|outline| Cow::Borrowed(&**outline));
        self.machine(id).map(|machine| Cow::Owned(Outline::of(machine))).or_else(beside)
    }

    /// Ids of all machines, those that are here by their outline only among them.
    pub fn machine_ids(&self) -> impl Iterator<Item = &str> {
        self.machines.iter().map(|machine| machine.id.as_str()).chain(self.beside.iter().map(|outline| outline.id.as_str()))
    }
}

/// The machine that a link's target names: `MACHINE/PROCEDURE`, `MACHINE/PROCEDURE#STEP`.
#[must_use]
pub fn machine_named(target: &str) -> Option<&str> {
    let path = target.split('#').next().unwrap_or(target);
    path.split_once('/').map(|(machine, _)| machine)
}

/// The targets of a machine's links that name other machines, whether there is such a machine or not. A record that lies here
/// and is of another machine leads there too: to `MACHINE/`.
#[must_use]
pub fn links_abroad(machine: &Machine) -> BTreeSet<String> {
    let mut links = BTreeSet::new();
    for blocks in machine.procedures.iter().flat_map(Procedure::texts) {
        each_inline(blocks, &mut |inline| {
            if let Inline::See(target, ..) = inline {
                links.extend(machine_named(target).filter(|other| *other != machine.id).map(|_| target.clone()));
            }
        });
    }
    let recorded = machine.builds.iter().filter_map(|build| build.machine.as_ref());
    links.extend(recorded.filter(|other| other.value != machine.id).map(|other| format!("{}/", other.value)));
    links
}
