//! Looking for faults: rules, one file a family, and the walk through the work they share.
//!
//! Invariants: a rule is a static value and a function; rules don't see each other, and their order
//! changes nothing; no rule computes a line or a column.

mod account;
mod against_hand;
mod against_list;
mod against_sides;
mod against_threads;
mod alone;
mod amounts;
mod as_written;
mod balloons;
mod bare_threads;
mod barriers;
mod bearings;
mod bolts;
mod bonded;
mod bounds;
mod burdens;
mod chains;
mod change_lines;
mod changes;
mod claims;
mod conflicts;
mod counts;
mod covered_over;
mod deferrals;
mod done_words;
mod drives;
mod every;
mod fasteners;
mod film;
mod film_corrections;
mod fits;
mod followers;
mod forgotten;
mod formula;
mod glossary;
mod harvest;
mod hazards;
mod hazards_said;
mod heat_bonds;
mod heat_checks;
mod heat_missed;
mod heat_work;
mod held;
mod holds;
mod holes;
mod joints;
mod keyed;
mod kit_goods;
mod kit_list;
mod kits;
mod kits_to_get;
mod links;
mod list;
mod live;
mod locker_choice;
mod locker_place;
mod locker_work;
mod lockers;
mod locking;
mod looked_for;
mod measures;
mod mentions;
mod metals;
mod namesakes;
mod needed;
mod needs;
mod never_waived;
mod old_sources;
mod order;
mod overload;
mod page_names;
mod parts;
mod patterns;
mod phrases;
mod pictures;
mod pipes;
mod pressures;
mod prose;
mod put_back;
mod questions;
mod quiet_hazards;
mod readings;
mod records;
mod retorque;
mod reuse;
mod rings;
mod run_unready;
mod safety;
mod seal_fit;
mod seal_seats;
mod seal_sides;
mod seal_tracks;
mod sealants;
mod seals;
mod sent_away;
mod sentences;
mod sessions;
mod shims;
mod sides;
mod slips;
mod soaked;
mod sourced;
mod spares;
mod spoken;
mod stages;
mod starts;
mod still_on;
mod swaps;
mod text;
mod told_apart;
mod tongue;
mod torque;
mod tried_loose;
mod turned_words;
mod turning;
mod uses;
mod vague;
mod vapour;
mod variant_links;
mod variants;
mod waited;
mod waits;
mod waivers;
mod walk;
mod words;
mod work_words;
mod wrenches;
mod wrong_way;

pub use alone::{Frame, MachineReport, Summary};
pub use parts::SharedNeeds;
pub use as_written::same_value;
pub use formula::spaced;
pub use account::{Screening, TorqueAccount, torque_accounts};
pub use list::{rule, rules};
pub(crate) use phrases::PUTTING_OFF;
pub use kit_list::{Comes, DriveRow, GoodsRow, KitList, MaterialRow, ToolRow, WaitRow, WrenchSet, kit_list};
pub(crate) use drives::by_size;
pub use drives::{Drive, drives, drives_by_step, in_few_words};
pub use kits_to_get::{KitRow, kits_to_get};
pub use needed::{brought_along, used_by};
pub use never_waived::{CriticalThings, PROTECTION, never_waived};
pub use needs::{Need, Want, acts_done, needs};
pub use records::as_read::{AsRead, as_read};
pub use records::shims::{RecordedShim, recorded_shims};
pub use records::values::{Affected, Judged, Verdict, affected, at_the_teeth, is_stale, judge, judged};
pub use records::{known_variant, recorded_act};
pub use sourced::is_unsourced;
pub use waited::waited;
pub use walk::{Misstep, Moment, OpenSpan, State, Walk, walks};

use crate::finding::{FileId, FileTable, Finding, Severity};
use crate::crew::in_order;
use crate::manual::{Date, Ledger, Manual, Outline, Profile};
use crate::source::Sources;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What the rules look at.
pub(crate) struct Context<'a> {
    pub(crate) manual: &'a Manual,
    pub(crate) sources: &'a Sources,
    pub(crate) walks: Vec<Walk<'a>>,
    uses: &'a uses::Uses<'a>,
}

/// A rule's function: it looks, and tells what it found.
type Check = fn(&Context<'_>, &mut Vec<Finding>);

/// A family of rules.
struct Family {
    check: Check,
    /// Whether what it finds may hang on machines and pictures that the machine at hand does not name.
    looks_further: bool,
}

impl Family {
    const fn of(check: Check) -> Self {
        Self { check, looks_further: false }
    }

    const fn that_looks_further(check: Check) -> Self {
        Self { check, looks_further: true }
    }
}

/// Every family of rules. The order changes nothing. A family looks at what all machines share, and then at one machine
/// beside it: what takes more than one machine to tell belongs into a [`Summary`].
const FAMILIES: &[Family] = &[
    Family::of(against_list::check),
    Family::of(amounts::check),
    Family::of(balloons::check),
    Family::of(barriers::check),
    Family::of(bearings::check),
    Family::of(bolts::check),
    Family::of(bonded::check),
    Family::of(burdens::check),
    Family::of(chains::check),
    Family::of(chains::check_turns),
    Family::of(change_lines::check),
    Family::of(claims::check),
    Family::of(counts::check),
    Family::of(covered_over::check),
    Family::of(deferrals::check),
    Family::of(done_words::check),
    Family::of(fasteners::check),
    Family::of(film::check),
    Family::of(film_corrections::check),
    Family::of(fits::check),
    Family::of(glossary::check),
    Family::of(harvest::check),
    Family::of(hazards_said::check),
    Family::of(heat_bonds::check),
    Family::of(heat_checks::check),
    Family::of(heat_missed::check),
    Family::of(heat_work::check),
    Family::of(held::check),
    Family::of(holds::check),
    Family::of(holes::check),
    Family::of(joints::check),
    Family::of(keyed::check),
    Family::of(joints::check_away),
    Family::of(kits::check),
    Family::that_looks_further(links::check),
    Family::of(live::check),
    Family::of(locker_choice::check),
    Family::of(locker_place::check),
    Family::of(locker_work::check),
    Family::of(lockers::check),
    Family::of(locking::check),
    Family::of(looked_for::check),
    Family::of(measures::check),
    Family::of(metals::check),
    Family::of(namesakes::check),
    Family::of(order::check),
    Family::of(overload::check),
    Family::of(page_names::check),
    Family::of(parts::check),
    Family::of(patterns::check),
    Family::of(phrases::check),
    Family::of(pipes::check),
    Family::that_looks_further(pictures::check),
    Family::of(pressures::check),
    Family::of(put_back::check),
    Family::of(forgotten::check),
    Family::of(questions::check),
    Family::of(quiet_hazards::check),
    Family::of(readings::check),
    Family::of(conflicts::check),
    Family::of(records::check),
    Family::that_looks_further(records::check_machine),
    Family::of(retorque::check),
    Family::of(reuse::check),
    Family::of(rings::check),
    Family::of(run_unready::check),
    Family::of(safety::check),
    Family::of(seal_fit::check),
    Family::of(seal_seats::check),
    Family::of(seal_sides::check),
    Family::of(seal_tracks::check),
    Family::of(sealants::check),
    Family::of(seals::check),
    Family::of(sent_away::check),
    Family::of(sessions::check),
    Family::of(shims::check),
    Family::of(sides::check),
    Family::of(slips::check),
    Family::of(soaked::check),
    Family::of(sourced::check),
    Family::of(spares::check),
    Family::of(stages::check),
    Family::of(starts::check),
    Family::of(still_on::check),
    Family::of(tried_loose::check),
    Family::of(swaps::check),
    Family::of(text::check),
    Family::of(torque::check),
    Family::of(turned_words::check),
    Family::of(turning::check),
    Family::of(vague::check),
    Family::of(vapour::check),
    Family::of(variant_links::check),
    Family::of(variants::check),
    Family::of(waits::check),
    Family::of(work_words::check),
    Family::of(wrenches::check),
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
        self.stopping(profile).next().is_some()
    }

    /// What stops publishing under a profile.
    pub fn stopping(&self, profile: Profile) -> impl Iterator<Item = &Finding> {
        let least = match profile {
            Profile::Working => Severity::Error,
            Profile::Club | Profile::Published => Severity::Warning,
        };
        self.findings.iter().filter(move |finding| finding.grade() >= least && !self.records.contains(&finding.place().file))
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
    let shared = manual.clone_without_machines();
    let frame = Frame::look(&shared, sources, terms.against.as_ref());
    let outlines: Vec<Arc<Outline>> = manual.machines.iter().map(|machine| Arc::new(Outline::of(machine))).collect();
    // Where there are fewer machines than threads, several look at one.
    let each = terms.threads.max(1).div_ceil(manual.machines.len().max(1));
    let reports = in_order(&manual.machines, terms.threads, |machine| {
        let beside = outlines.iter().filter(|outline| outline.id != machine.id).cloned().collect();
        let alone = Manual { machines: vec![machine.clone()], beside, ..shared.clone_without_machines() };
        frame.machine(&alone, terms.against.as_ref(), each)
    });
    let mut findings = earlier;
    let mut summaries = Vec::new();
    for report in reports {
        findings.extend(report.findings);
        summaries.push(report.summary);
    }
    frame.conclude(findings, &summaries.iter().collect::<Vec<_>>(), terms.today, &sources.files)
}

/// The files below the `builds/` of some machine.
fn record_files(files: &FileTable) -> BTreeSet<FileId> {
    files.iter().filter(|(_, file)| matches!(file.name.split('/').collect::<Vec<_>>().as_slice(), [_, "builds", _, ..])).map(|(id, _)| id).collect()
}

fn at_most_a_warning(finding: Finding, records: &BTreeSet<FileId>) -> Finding {
    if records.contains(&finding.place().file) && finding.grade() > Severity::Warning { finding.severity(Severity::Warning) } else { finding }
}
