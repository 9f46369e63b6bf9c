//! The typed model: a manual, its machines, their procedures, steps and acts.

use super::builds::Build;
use super::lists::{Lists, Scope, ThingRef};
use super::outline::Outline;
use super::shop::{Date, Recording};
use super::things::Spot;
use super::varied::{Axis, Combination, Varied};
use super::verb::Verb;
use crate::finding::{FileId, Place, nearest};
use crate::quantity::{MomentSpan, Quantity, Unit};
use crate::source::{Block, Inline, each_inline, resolve_picture};
use indexmap::IndexMap;
use std::collections::BTreeSet;
use std::sync::Arc;

/// A whole manual. What could not be read is empty and has been reported.
#[derive(Clone, Debug)]
pub struct Manual {
    /// Its title.
    pub title: String,
    /// Who answers for the values.
    pub publisher: String,
    /// BCP 47 tag.
    pub language: String,
    /// Shown on every page and sheet after the standing caution.
    pub notice: Option<String>,
    /// Units shown beside the author's own, most wanted first.
    pub units: Vec<&'static Unit>,
    /// Paper of the sheets.
    pub paper: Paper,
    /// Where it will be published.
    pub address: Option<String>,
    /// A folder that overrides the built-in theme, as written, with its place.
    pub theme: Option<Spot<String>>,
    /// How strict it is.
    pub profile: Profile,
    /// Findings that a person has answered for.
    pub waivers: Vec<Waiver>,
    /// `manual.yaml`.
    pub file: FileId,
    /// What every machine shares.
    pub shop: Lists,
    /// History of the shop's values.
    pub shop_history: History,
    /// The machines, by id.
    pub machines: Vec<Machine>,
    /// Machines of the manual that are not among these, by their outlines: where one machine is looked at alone.
    pub beside: Vec<Arc<Outline>>,
}

/// Paper of the sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    A4,
    /// 8½ × 11 in.
    Letter,
}

/// How strict a manual is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile {
    /// Errors stop.
    Working,
    /// Warnings stop too.
    Club,
    /// Warnings stop, and every value is sourced.
    Published,
}

/// A finding that a person has answered for.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiver {
    /// The rule's name.
    pub rule: Spot<String>,
    /// What it is about: `ID`, `ID.field`, `PROCEDURE#STEP`.
    pub of: Spot<String>,
    /// Why.
    pub because: String,
    /// Who.
    pub by: Spot<String>,
    /// Until when.
    pub until: Date,
}

/// Revision, date and changes of a front matter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    /// The revision.
    pub revision: Option<u64>,
    /// Its date.
    pub date: Option<Date>,
    /// Which values changed and why.
    pub changes: Vec<Change>,
}

/// One change of a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The revision that brought it.
    pub revision: Option<u64>,
    /// Where that stands.
    pub revision_place: Option<Place>,
    /// What changed: `ID.field`.
    pub of: Spot<String>,
    /// What it was, as written.
    pub was: Varied<String>,
    /// Why.
    pub because: Option<String>,
    /// Id of the source.
    pub source: Option<Spot<String>>,
}

/// A machine.
#[derive(Clone, Debug)]
pub struct Machine {
    /// The folder's name.
    pub id: String,
    /// `machine.yaml`.
    pub file: FileId,
    /// Its name.
    pub name: String,
    /// Who makes it.
    pub maker: Option<String>,
    /// What it is: `outboard motor`.
    pub kind: Option<String>,
    /// Its mass.
    pub mass: Option<Quantity>,
    /// Revision, date and changes.
    pub history: History,
    /// The ways in which it differs.
    pub axes: Vec<Axis>,
    /// Combinations that don't exist.
    pub not_made: Vec<Combination>,
    /// Recordings by id.
    pub recordings: IndexMap<String, Recording>,
    /// What its procedures share.
    pub lists: Lists,
    /// Its procedures in build order.
    pub procedures: Vec<Procedure>,
    /// Records of machines built by them, by file name.
    pub builds: Vec<Build>,
    /// Ids written in acts that are not understood (reported), each once.
    pub doubtful: BTreeSet<String>,
}

impl Machine {
    /// A procedure by id.
    #[must_use]
    pub fn procedure(&self, id: &str) -> Option<&Procedure> {
        self.procedures.iter().find(|p| p.id == id)
    }

    /// Whether some act that is not understood may have meant this id.
    #[must_use]
    pub fn may_mean(&self, id: &str) -> bool {
        self.doubtful.contains(id) || self.doubtful.iter().any(|written| nearest(written, [id]).is_some())
    }

    /// Whether some list of it could not be read, so that what it uses is not known.
    #[must_use]
    pub fn has_holes(&self) -> bool {
        self.procedures.iter().map(|p| &p.lists).chain([&self.lists]).any(|lists| !lists.holes.is_empty())
    }

    /// The pictures that its procedures show, by path below the manual's folder, whether they are there or not.
    #[must_use]
    pub fn shown_pictures(&self) -> BTreeSet<String> {
        let mut shown = BTreeSet::new();
        for blocks in self.procedures.iter().flat_map(Procedure::texts) {
            each_inline(blocks, &mut |inline| {
                if let Inline::Picture(picture) = inline {
                    shown.extend(resolve_picture(&self.id, &picture.path));
                }
            });
        }
        shown
    }

    /// The axis that has this value.
    #[must_use]
    pub fn axis_of(&self, value: &str) -> Option<&Axis> {
        self.axes.iter().find(|axis| axis.values.iter().any(|v| v.name == value))
    }
}

/// A procedure.
#[derive(Clone, Debug)]
pub struct Procedure {
    /// The file's name without its ending.
    pub id: String,
    /// The file.
    pub file: FileId,
    /// Its title; the id where none is given.
    pub title: String,
    /// Revision, date and changes.
    pub history: History,
    /// Time it takes, as stated.
    pub time: Option<Quantity>,
    /// Ids of procedures that must be complete first.
    pub after: Vec<Spot<String>>,
    /// The recording of it.
    pub recording: Option<Recording>,
    /// Its own lists, open items and parts away among them.
    pub lists: Lists,
    /// What stands before the first step.
    pub introduction: Vec<Block>,
    /// The steps in the order of work.
    pub steps: Vec<Step>,
    /// Footnotes.
    pub footnotes: Vec<(String, Vec<Block>)>,
}

impl Procedure {
    /// A step by id.
    #[must_use]
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.steps.iter().find(|s| s.id == id)
    }

    /// Its text: the introduction, each step's, each footnote's.
    pub fn texts(&self) -> impl Iterator<Item = &[Block]> {
        let steps = self.steps.iter().map(|step| step.blocks.as_slice());
        let notes = self.footnotes.iter().map(|(_, blocks)| blocks.as_slice());
        std::iter::once(self.introduction.as_slice()).chain(steps).chain(notes)
    }

    /// Minutes of work: as stated, otherwise the sum of its steps; none where neither is known.
    #[must_use]
    pub fn minutes(&self) -> Option<f64> {
        self.minutes_where(&Combination::default())
    }

    /// Minutes of work on machines of a variant: as stated, otherwise the sum of the steps that can be done there.
    #[must_use]
    pub fn minutes_where(&self, known: &Combination) -> Option<f64> {
        let stated = self.time.as_ref().and_then(Quantity::seconds).map(|s| s / 60.0);
        stated.or_else(|| {
            let steps = self.steps.iter().filter(|step| step.only.agrees_with(known));
            let minutes: Vec<f64> = steps.filter_map(|step| step.minutes).collect();
            (!minutes.is_empty()).then(|| minutes.iter().sum())
        })
    }
}

/// A step.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its stable id; made from its number where it is missing (reported).
    pub id: String,
    /// Its number in the text, from 1.
    pub number: usize,
    /// Its title.
    pub title: String,
    /// The heading line.
    pub place: Place,
    /// Minutes of work.
    pub minutes: Option<f64>,
    /// Its moment or span in the recording.
    pub at: Option<Spot<MomentSpan>>,
    /// In which variants it is done.
    pub only: Combination,
    /// Its text; [`crate::source::Inline::Act`] counts into `acts`.
    pub blocks: Vec<Block>,
    /// The acts in the order of work.
    pub acts: Vec<Act>,
}

/// An act.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// What is done; none where the verb is not known (reported).
    pub verb: Option<Verb>,
    /// What it is done to. Empty for `stop:` and where an id is not known (reported).
    pub things: Vec<ThingRef>,
    /// For `apply:`, the material.
    pub material: Option<ThingRef>,
    /// `*4`: so many of them.
    pub times: Option<u64>,
    /// `/2`: this stage only, from 1.
    pub stage: Option<u64>,
    /// The link's words.
    pub words: String,
    /// The address as written.
    pub address: String,
    /// The whole link.
    pub place: Place,
    /// The address's place.
    pub target_place: Place,
    /// Index of the step's block in which it stands.
    pub block: usize,
}

impl Act {
    /// Whether its verb or an id is not known, which has been reported.
    #[must_use]
    pub fn is_unresolved(&self) -> bool {
        self.verb != Some(Verb::Stop) && self.things.is_empty()
    }

    /// The id that an act which is not understood was written with.
    #[must_use]
    pub fn doubtful_id(&self) -> Option<&str> {
        let (_, target) = self.address.split_once(':').filter(|_| self.is_unresolved())?;
        let thing = target.rsplit('@').next().unwrap_or(target);
        thing.split(['*', '/']).next()
    }

    /// Whether an act that is not understood may have meant this id: so that one misspelt id is one finding.
    #[must_use]
    pub fn may_mean(&self, id: &str) -> bool {
        self.doubtful_id().is_some_and(|written| written == id || nearest(written, [id]).is_some())
    }

    /// The first thing it acts on.
    #[must_use]
    pub fn thing(&self) -> Option<&ThingRef> {
        self.things.first()
    }
}

impl Manual {
    /// What all machines share, without any of them.
    #[must_use]
    pub fn clone_without_machines(&self) -> Self {
        Self {
            title: self.title.clone(),
            publisher: self.publisher.clone(),
            language: self.language.clone(),
            notice: self.notice.clone(),
            units: self.units.clone(),
            paper: self.paper,
            address: self.address.clone(),
            theme: self.theme.clone(),
            profile: self.profile,
            waivers: self.waivers.clone(),
            file: self.file,
            shop: self.shop.clone(),
            shop_history: self.shop_history.clone(),
            machines: Vec::new(),
            beside: Vec::new(),
        }
    }

    /// A machine by id.
    #[must_use]
    pub fn machine(&self, id: &str) -> Option<&Machine> {
        self.machines.iter().find(|m| m.id == id)
    }

    /// The pictures that some procedure shows, by path below the manual's folder.
    #[must_use]
    pub fn shown_pictures(&self) -> BTreeSet<String> {
        self.machines.iter().flat_map(Machine::shown_pictures).collect()
    }

    /// The scope of a procedure.
    #[must_use]
    pub fn scope<'a>(&'a self, machine: &'a Machine, procedure: &'a Procedure) -> Scope<'a> {
        Scope { shop: &self.shop, machine: Some(machine), procedure: Some(procedure) }
    }

    /// The scope of a machine.
    #[must_use]
    pub fn machine_scope<'a>(&'a self, machine: &'a Machine) -> Scope<'a> {
        Scope { shop: &self.shop, machine: Some(machine), procedure: None }
    }
}
