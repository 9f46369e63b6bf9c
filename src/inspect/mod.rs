//! Looking for faults: rules, one file a family, and the walk through the work they share.
//!
//! Invariants: a rule is a static value and a function; rules don't see each other, and their order
//! changes nothing; no rule computes a line or a column.

mod account;
mod amounts;
mod balloons;
mod barriers;
mod bearings;
mod bolts;
mod bounds;
mod burdens;
mod chains;
mod changes;
mod claims;
mod counts;
mod crew;
mod deferrals;
mod every;
mod fasteners;
mod film;
mod fits;
mod formula;
mod harvest;
mod heat_checks;
mod heat_work;
mod held;
mod holds;
mod holes;
mod joints;
mod kit_list;
mod kits;
mod links;
mod list;
mod live;
mod locker_choice;
mod locker_place;
mod locker_work;
mod lockers;
mod locking;
mod measures;
mod needed;
mod needs;
mod order;
mod overload;
mod parts;
mod patterns;
mod phrases;
mod pictures;
mod pressures;
mod prose;
mod put_back;
mod questions;
mod readings;
mod records;
mod retorque;
mod reuse;
mod rings;
mod safety;
mod seal_fit;
mod seal_sides;
mod seal_tracks;
mod sealants;
mod seals;
mod sent_away;
mod sessions;
mod shims;
mod sides;
mod slips;
mod sourced;
mod spares;
mod stages;
mod starts;
mod swaps;
mod text;
mod torque;
mod turning;
mod uses;
mod vague;
mod vapour;
mod variant_links;
mod variants;
mod waits;
mod waivers;
mod walk;
mod words;
mod wrench_choice;
mod wrenches;

pub(crate) use crew::in_order;
pub use changes::same_value;
pub use account::{Screening, TorqueAccount, torque_accounts};
pub use list::{rule, rules};
pub(crate) use phrases::PUTTING_OFF;
pub use kit_list::{Comes, GoodsRow, KitList, MaterialRow, ToolRow, WaitRow, WrenchSet, kit_list};
pub use needed::{brought_along, used_by, wrenches};
pub use needs::{Need, Want, acts_done, needs};
pub use records::values::{Affected, Verdict, affected, is_stale, judge};
pub use records::{known_variant, recorded_act};
pub use sourced::is_unsourced;
pub use wrench_choice::{Setting, settings};
pub use walk::{Misstep, Moment, OpenSpan, State, Walk, walks};

use crate::finding::{FileId, FileTable, Finding, Severity, sort};
use crate::manual::{Date, Ledger, Manual, Profile};
use crate::source::Sources;
use std::collections::BTreeSet;

/// What the rules look at.
pub(crate) struct Context<'a> {
    pub(crate) manual: &'a Manual,
    pub(crate) sources: &'a Sources,
    pub(crate) walks: Vec<Walk<'a>>,
}

/// A rule's function: it looks, and tells what it found.
type Check = fn(&Context<'_>, &mut Vec<Finding>);

/// Every family of rules. The order changes nothing.
const FAMILIES: &[Check] = &[
    amounts::check,
    balloons::check,
    barriers::check,
    bearings::check,
    bolts::check,
    burdens::check,
    chains::check,
    chains::check_turns,
    claims::check,
    counts::check,
    deferrals::check,
    fasteners::check,
    film::check,
    fits::check,
    harvest::check,
    heat_checks::check,
    heat_work::check,
    held::check,
    holds::check,
    holes::check,
    joints::check,
    joints::check_away,
    kits::check,
    links::check,
    live::check,
    locker_choice::check,
    locker_place::check,
    locker_work::check,
    lockers::check,
    locking::check,
    measures::check,
    order::check,
    overload::check,
    parts::check,
    patterns::check,
    phrases::check,
    pictures::check,
    pressures::check,
    put_back::check,
    questions::check,
    readings::check,
    records::check,
    retorque::check,
    reuse::check,
    rings::check,
    safety::check,
    seal_fit::check,
    seal_sides::check,
    seal_tracks::check,
    sealants::check,
    seals::check,
    sent_away::check,
    sessions::check,
    shims::check,
    sides::check,
    slips::check,
    sourced::check,
    spares::check,
    stages::check,
    starts::check,
    swaps::check,
    text::check,
    torque::check,
    turning::check,
    vague::check,
    vapour::check,
    variant_links::check,
    variants::check,
    waits::check,
    wrenches::check,
];

/// The result of looking at a whole manual.
#[derive(Clone, Debug)]
pub struct Report {
    /// What was found, in the order of files and places.
    pub findings: Vec<Finding>,
    /// What was found and answered for by a waiver.
    pub waived: Vec<Finding>,
    /// The files of build records: what is found there is told, and stops nothing.
    pub records: BTreeSet<FileId>,
}

impl Report {
    /// Whether what was found stops publishing under a profile. What is found in a build record never does: it is evidence
    /// of what was done, and a club must be able to publish the bulletin that it calls for.
    #[must_use]
    pub fn stops(&self, profile: Profile) -> bool {
        let least = match profile {
            Profile::Working => Severity::Error,
            Profile::Club | Profile::Published => Severity::Warning,
        };
        self.findings.iter().any(|finding| finding.grade() >= least && !self.records.contains(&finding.place().file))
    }
}

/// What a manual is judged by beside itself.
#[derive(Clone, Debug, Default)]
pub struct Terms {
    /// The day waivers are judged by; the manual's newest date where none is given.
    pub today: Option<Date>,
    /// An earlier state whose values are compared.
    pub against: Option<Ledger>,
    /// How many threads may look; 0 counts as 1. What they find does not depend on it.
    pub threads: usize,
}

/// Looks at a manual with every rule. `earlier` are the findings of reading and lowering it.
#[must_use]
pub fn inspect(manual: &Manual, sources: &Sources, earlier: Vec<Finding>, terms: &Terms) -> Report {
    let mut findings = earlier;
    let context = Context { manual, sources, walks: walks(manual, terms.threads, &mut findings) };
    let found = in_order(FAMILIES, terms.threads, |family| {
        let mut found = Vec::new();
        family(&context, &mut found);
        found
    });
    findings.extend(found.into_iter().flatten());
    if let Some(against) = &terms.against {
        changes::check(manual, against, &mut findings);
    }
    let records = record_files(&sources.files);
    // The rules of reading know nothing of records; what they find there is a warning at most.
    findings = findings.into_iter().map(|finding| at_most_a_warning(finding, &records)).collect();
    let mut report = waivers::apply(manual, findings, terms.today);
    sort(&mut report.findings, &sources.files);
    report.findings = bounds::bounded(report.findings);
    sort(&mut report.findings, &sources.files);
    sort(&mut report.waived, &sources.files);
    report.records = records;
    report
}

/// The files below the `builds/` of some machine.
fn record_files(files: &FileTable) -> BTreeSet<FileId> {
    files.iter().filter(|(_, file)| matches!(file.name.split('/').collect::<Vec<_>>().as_slice(), [_, "builds", _, ..])).map(|(id, _)| id).collect()
}

fn at_most_a_warning(finding: Finding, records: &BTreeSet<FileId>) -> Finding {
    if records.contains(&finding.place().file) && finding.grade() > Severity::Warning { finding.severity(Severity::Warning) } else { finding }
}
