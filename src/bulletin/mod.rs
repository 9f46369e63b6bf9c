//! What changed between two states of a manual, and what that makes out of date: values, steps, the order of work, sheets.
//!
//! Invariants: nothing here judges whether a value is right; two spellings of a quantity are no change; the same two states
//! give the same bulletin, critical things first.

mod entries;
mod form;
mod paper;
mod sheets;
mod state;
mod tell;
mod tell_paper;
mod values;
mod walls;
mod work;

pub use form::{bulletin_json, bulletin_schema, paper_json, paper_schema, record_json};
pub use paper::{PaperKind, PaperNews, RecordNews, SheetMatch, WorkNews, known_sheets, named_fingerprint, record_news};
pub use state::State;
pub use tell::bulletin_text;
pub use tell_paper::{paper_text, record_text};

use crate::manual::{Fingerprint, Home, ThingRef};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt;

/// What stands under everything told here.
pub const CAUTION: &str = "This compares what is written, and never tells that a value is correct. Whether a machine is opened again is decided by its \
maker's service data, local codes and a qualified person.";

/// What changed from one state to another.
#[derive(Clone, Debug, Default, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Bulletin {
    /// The manual's title now.
    pub title: String,
    /// Its title before, where it had another.
    pub title_was: Option<String>,
    /// How the earlier state was named.
    pub old: String,
    /// How the later state was named.
    pub new: String,
    /// What can't be told, and why.
    pub untold: Vec<String>,
    /// Values and things that changed, critical ones first.
    pub changes: Vec<Change>,
    /// Procedures and machines that are new or gone.
    pub homes: Vec<HomeChange>,
    /// Machines whose procedures are done in another order.
    pub build_orders: Vec<OrderChange>,
    /// Procedures whose steps changed.
    pub work: Vec<WorkChange>,
    /// The sheets of the earlier state, and what became of them; those of the later state that are new.
    pub sheets: Vec<SheetChange>,
    /// The torque cards and bolt boards of both states, and what became of them.
    pub wall_papers: Vec<WallPaperChange>,
}

/// How much a change matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Weight {
    /// Its thing is `critical:`, before or after.
    Critical,
    /// It stands on a sheet.
    Work,
    /// It stands on no sheet.
    Aside,
}

/// What a change is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Subject {
    /// A value of a fastener, seal, bearing, measure, shim, wait, heat and the like.
    Value,
    /// A part, kit, stack or shaft.
    Part,
    /// A locker or another material.
    Material,
    /// Something left open, or a part away.
    OpenItem,
    /// A tool.
    Tool,
    /// A source, a person, a term, a picture.
    Record,
}

/// One value that changed, or one thing that came or went.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Change {
    /// How much it matters.
    pub weight: Weight,
    /// What it is about.
    pub subject: Subject,
    /// The machine's id; none for what all machines share.
    pub machine: Option<String>,
    /// The front matter: `shop`, `tarn-18`, `tarn-18/close-gearcase`.
    pub home: String,
    /// The front matter it stood in before, where that is another.
    pub moved_from: Option<String>,
    /// The list: `fasteners`.
    pub list: String,
    /// The thing's id.
    pub id: String,
    /// Its name; the id where it is not known.
    pub name: String,
    /// The field; none where the whole thing came or went.
    pub field: Option<String>,
    /// For which machines, as `serial late, shaft L`; empty for all.
    pub variant: String,
    /// What it was; none where it was not there.
    pub was: Option<String>,
    /// What it is; none where it is gone.
    pub now: Option<String>,
    /// The newest line that says why; none where no line does.
    pub line: Option<ChangeLine>,
    /// Every line that says why, oldest first: a value may have changed more than once between the two states.
    pub lines: Vec<ChangeLine>,
    /// Whether a line is missing: the value changed, and nobody says why.
    pub untold: bool,
    /// The steps that use the thing, now or, where it is gone, before.
    pub used_in: Vec<UsedIn>,
    /// How many sheets of the earlier state show it and are out of date.
    pub sheets: usize,
    /// How many torque cards and bolt boards of the earlier state show it and are out of date.
    pub wall_papers: usize,
}

/// A change line of a front matter.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct ChangeLine {
    /// The revision that brought the change.
    pub revision: Option<u64>,
    /// Its day, as `2026-09-14`, where the front matter still tells it: that of its newest revision.
    pub date: Option<String>,
    /// What the line says was there, for the machines of the change; none where nothing was.
    pub was: Option<String>,
    /// What was there after it: what the next line says was there, or what is there now.
    pub now: Option<String>,
    /// Why.
    pub because: Option<String>,
    /// Id of the source.
    pub source: Option<String>,
}

/// A procedure that uses a thing.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct UsedIn {
    /// The machine's id.
    pub machine: String,
    /// The procedure's id.
    pub procedure: String,
    /// Ids of the steps.
    pub steps: Vec<String>,
}

/// A front matter that came or went.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct HomeChange {
    /// Its name: `tarn-18/close-gearcase`.
    pub home: String,
    /// Whether it is new; otherwise it is gone.
    pub is_new: bool,
    /// How many values stand in it, those that came from elsewhere or went there left out.
    pub values: usize,
}

/// Procedures of a machine in another order.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct OrderChange {
    /// The machine's id.
    pub machine: String,
    /// The order before, of the procedures that both states have.
    pub was: Vec<String>,
    /// The order now.
    pub now: Vec<String>,
}

/// The steps of one procedure.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct WorkChange {
    /// The machine's id.
    pub machine: String,
    /// The procedure's id.
    pub procedure: String,
    /// Its title now.
    pub title: String,
    /// Its revision before.
    pub revision_was: Option<u64>,
    /// Its revision now.
    pub revision: Option<u64>,
    /// Ids of steps that are new.
    pub steps_new: Vec<String>,
    /// Ids of steps that are gone.
    pub steps_gone: Vec<String>,
    /// The steps that both have, in their order now, where that is another one.
    pub steps_in_order: Vec<String>,
    /// Steps that changed in themselves.
    pub steps: Vec<StepChange>,
}

/// One step that changed.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct StepChange {
    /// Its id.
    pub step: String,
    /// Its title now.
    pub title: String,
    /// Acts that are new, as written.
    pub acts_new: Vec<String>,
    /// Acts that are gone.
    pub acts_gone: Vec<String>,
    /// Whether the same acts come in another order.
    pub acts_moved: bool,
    /// The variants it is done for, before and now, where they differ.
    pub only: Option<(String, String)>,
    /// Whether its words differ. Told only where nothing else does.
    pub reworded: bool,
}

/// What became of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fate {
    /// Its values are others now: print it again.
    OutOfDate,
    /// There is no such sheet any more.
    Gone,
    /// It is new.
    New,
    /// Its values are the same.
    Current,
}

impl Fate {
    /// What became of a paper, by its fingerprints then and now.
    fn of(was: Option<&Fingerprint>, now: Option<&Fingerprint>) -> Self {
        match (was, now) {
            (Some(was), Some(now)) if was == now => Self::Current,
            (Some(_), Some(_)) => Self::OutOfDate,
            (Some(_), None) => Self::Gone,
            (None, _) => Self::New,
        }
    }
}

/// One sheet and what became of it.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct SheetChange {
    /// What became of it.
    pub fate: Fate,
    /// The machine's id.
    pub machine: String,
    /// The procedure's id.
    pub procedure: String,
    /// Its variant; empty where it knows none.
    pub variant: String,
    /// Its fingerprint before.
    pub was: Option<String>,
    /// Its fingerprint now.
    pub now: Option<String>,
}

/// One torque card or bolt board and what became of it.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct WallPaperChange {
    /// What became of it.
    pub fate: Fate,
    /// What kind of paper it is.
    pub paper: PaperKind,
    /// The machine's id.
    pub machine: String,
    /// The procedure's id; empty for a torque card, which is of the whole machine.
    pub procedure: String,
    /// The id of a board's fasteners.
    pub fasteners: Option<String>,
    /// The machine's name, or the name of a board's fasteners.
    pub title: String,
    /// Its fingerprint before.
    pub was: Option<String>,
    /// Its fingerprint now.
    pub now: Option<String>,
}

/// Two states that have nothing to do with each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unrelated {
    /// Title of the earlier one.
    pub old: String,
    /// Title of the later one.
    pub new: String,
}

impl fmt::Display for Unrelated {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let named = |title: &str| if title.is_empty() { "a manual without a title".to_owned() } else { format!("‘{title}’") };
        write!(
            out,
            "{} and {} are different manuals: neither title nor any machine agrees; name two states of one manual",
            named(&self.old),
            named(&self.new)
        )
    }
}

impl std::error::Error for Unrelated {}

/// Compares two states.
///
/// # Errors
/// Where they are two manuals: title and machines have nothing in common.
pub fn compare(old: &State, new: &State) -> Result<Bulletin, Unrelated> {
    let (title_was, title) = (old.ledger.title.clone(), new.ledger.title.clone());
    if title_was != title && !old.shares_a_machine_with(new) {
        return Err(Unrelated { old: title_was, new: title });
    }
    let mut bulletin = Bulletin { title_was: (title_was != title).then_some(title_was), title, old: old.name.clone(), new: new.name.clone(), ..Bulletin::default() };
    for (state, which) in [(old, "earlier"), (new, "later")] {
        if state.read.is_none() {
            bulletin.untold.push(format!("the {which} state is a published site, which keeps values and no text: steps, order of work and sheets can't be compared"));
        } else if state.has_holes() {
            bulletin.untold.push(format!("parts of the {which} state can't be read (benchleaf inspect tells them): what stands there is missing here"));
        }
    }
    let sheets = sheets::Sheets::of(old, new);
    bulletin.sheets = sheets.changes();
    let walls = walls::Walls::of(old, new);
    bulletin.wall_papers = walls.changes();
    values::compare(old, new, (&sheets, &walls), &mut bulletin);
    work::compare(old, new, &mut bulletin);
    Ok(bulletin)
}

impl Bulletin {
    /// Whether nothing changed: no value, no step, no sheet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        let fates = self.sheets.iter().map(|sheet| sheet.fate).chain(self.wall_papers.iter().map(|paper| paper.fate));
        let moved = fates.into_iter().any(|fate| fate != Fate::Current);
        self.changes.is_empty() && self.homes.is_empty() && self.build_orders.is_empty() && self.work.is_empty() && !moved
    }

    /// How many sheets met a fate.
    #[must_use]
    pub fn sheets_that_are(&self, fate: Fate) -> usize {
        self.sheets.iter().filter(|sheet| sheet.fate == fate).count()
    }

    /// How many torque cards and boards met a fate.
    #[must_use]
    pub fn wall_papers_that_are(&self, fate: Fate) -> usize {
        self.wall_papers.iter().filter(|paper| paper.fate == fate).count()
    }

    /// The bulletin of one sheet: what bears on it.
    #[must_use]
    pub fn for_sheet(&self, machine: &str, procedure: &str) -> Self {
        let mut part = self.clone();
        part.changes.retain(|change| change.used_in.iter().any(|used| used.machine == machine && used.procedure == procedure));
        part.work.retain(|work| work.machine == machine && work.procedure == procedure);
        part.sheets.retain(|sheet| sheet.machine == machine && sheet.procedure == procedure);
        part.wall_papers.clear();
        part.homes.clear();
        part.build_orders.clear();
        part
    }

    /// The bulletin of a paper that shows these things of a machine and nothing else.
    #[must_use]
    pub fn for_things(&self, machine: &str, things: &BTreeSet<ThingRef>) -> Self {
        let shown: BTreeSet<(String, &str, &str)> = things
            .iter()
            .map(|thing| {
                let home = match &thing.home {
                    Home::Shop => "shop".to_owned(),
                    Home::Machine => machine.to_owned(),
                    Home::Procedure(id) => format!("{machine}/{id}"),
                };
                (home, thing.kind.key(), thing.id.as_str())
            })
            .collect();
        let stands = |change: &Change, home: &String| shown.contains(&(home.clone(), change.list.as_str(), change.id.as_str()));
        let mut part = Self { title: self.title.clone(), title_was: self.title_was.clone(), old: self.old.clone(), new: self.new.clone(), ..Self::default() };
        part.changes = self.changes.iter().filter(|change| stands(change, &change.home) || change.moved_from.as_ref().is_some_and(|home| stands(change, home))).cloned().collect();
        part.untold.clone_from(&self.untold);
        part
    }
}
