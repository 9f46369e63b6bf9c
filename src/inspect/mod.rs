//! Looking for faults: rules, one file a family, and the walk through the work they share.
//!
//! Invariants: a rule is a static value and a function; rules don't see each other, and their order
//! changes nothing; no rule computes a line or a column.

mod barriers;
mod bounds;
mod changes;
mod counts;
mod deferrals;
mod fasteners;
mod heat_work;
mod holes;
mod joints;
mod links;
mod list;
mod locker_work;
mod lockers;
mod order;
mod parts;
mod patterns;
mod pictures;
mod prose;
mod safety;
mod seals;
mod sessions;
mod text;
mod torque;
mod uses;
mod variants;
mod waivers;
mod walk;
mod wrenches;

pub use list::{rule, rules};
pub use walk::{Misstep, Moment, OpenSpan, State, Walk, walks};

use crate::finding::{Finding, Severity, sort};
use crate::manual::{Date, Ledger, Manual, Profile};
use crate::source::Sources;

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
    barriers::check,
    counts::check,
    deferrals::check,
    fasteners::check,
    heat_work::check,
    holes::check,
    joints::check,
    joints::check_away,
    links::check,
    locker_work::check,
    lockers::check,
    order::check,
    parts::check,
    patterns::check,
    pictures::check,
    safety::check,
    seals::check,
    sessions::check,
    text::check,
    torque::check,
    variants::check,
    wrenches::check,
];

/// The result of looking at a whole manual.
#[derive(Clone, Debug)]
pub struct Report {
    /// What was found, in the order of files and places.
    pub findings: Vec<Finding>,
    /// What was found and answered for by a waiver.
    pub waived: Vec<Finding>,
}

impl Report {
    /// Whether what was found stops publishing under a profile.
    #[must_use]
    pub fn stops(&self, profile: Profile) -> bool {
        let least = match profile {
            Profile::Working => Severity::Error,
            Profile::Club | Profile::Published => Severity::Warning,
        };
        self.findings.iter().any(|finding| finding.grade() >= least)
    }
}

/// What a manual is judged by beside itself.
#[derive(Clone, Debug, Default)]
pub struct Terms {
    /// The day waivers are judged by; the manual's newest date where none is given.
    pub today: Option<Date>,
    /// An earlier state whose values are compared.
    pub against: Option<Ledger>,
}

/// Looks at a manual with every rule. `earlier` are the findings of reading and lowering it.
#[must_use]
pub fn inspect(manual: &Manual, sources: &Sources, earlier: Vec<Finding>, terms: &Terms) -> Report {
    let mut findings = earlier;
    let context = Context { manual, sources, walks: walks(manual, &mut findings) };
    for family in FAMILIES {
        family(&context, &mut findings);
    }
    if let Some(against) = &terms.against {
        changes::check(manual, against, &mut findings);
    }
    let mut report = waivers::apply(manual, findings, terms.today);
    sort(&mut report.findings, &sources.files);
    report.findings = bounds::bounded(report.findings);
    sort(&mut report.findings, &sources.files);
    sort(&mut report.waived, &sources.files);
    report
}
