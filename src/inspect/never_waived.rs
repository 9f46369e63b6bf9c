//! What nobody answers for: the findings that are never waived. `docs/together.md` tells the same list, and a test holds the two
//! together.

use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, Lists, Manual, Waiver};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A waiver of something that is never waived. It stands apart from [`WAIVER_EXPIRED`](super::waivers::WAIVER_EXPIRED), which a new
/// day mends.
pub(super) static WAIVER_REFUSED: Rule = Rule {
    name: "waiver-refused",
    severity: Severity::Error,
    summary: "A waiver answers for something that is never waived.",
    explanation: Explanation {
        finds: "Waivers of rules that say “Never” where they may be wrong; of a missing protection, notice, holder, second person or signature; of anything about a thing with critical: true; of what is found in a build record. The finding itself stays.",
        matters: "A unit that is missing stays missing whoever answers for it, and a guard that is waived hurts the one who never read the waiver.",
        may_be_wrong: "Never: write the step, or give the value; in a record write a deviation.",
        example: "waivers: [{rule: notice-missing, of: first-run, because: everybody knows, by: editor, until: 2027-03-01}]",
        instead: "> **WARNING** Nobody stands beside the propeller. (in the step, before the act)",
    },
};

/// Rules about what keeps people whole, with what is missing where they find something.
pub const PROTECTION: [(&str, &str); 10] = [
    ("counterhold-missing", "a holder"),
    ("critical-single-signature", "a signature"),
    ("hazard-without-ppe", "protection"),
    ("hold-point-missing", "a stop to look"),
    ("lift", "a hoist or a second person"),
    ("load-before-signoff", "a signature"),
    ("notice-missing", "a notice"),
    ("signed-twice-by-one", "a signature"),
    ("stored-energy", "a notice"),
    ("warning-after-step", "a notice"),
];

/// Why something is never waived.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Never {
    /// No work makes it right: the rule is never wrong.
    Right,
    /// What keeps people whole is missing.
    Protection(&'static str),
    /// It is about a thing with `critical: true`.
    Critical,
    /// It was found in a build record.
    Record,
}

/// Why findings of a rule are never waived, whatever they are about; none where they may be.
pub(super) fn of_rule(rule: &Rule) -> Option<Never> {
    let lacking = PROTECTION.iter().find(|(name, _)| *name == rule.name).map(|(_, what)| Never::Protection(what));
    let never = rule.explanation.may_be_wrong.strip_prefix("Never").is_some_and(|rest| rest.starts_with([':', '.', ';', ' ', ',']));
    lacking.or(never.then_some(Never::Right))
}

/// Why nobody may answer for findings of a rule, in words; none where somebody may.
#[must_use]
pub fn never_waived(rule: &Rule) -> Option<String> {
    of_rule(rule).map(|never| match never {
        Never::Protection(what) => format!("{what} is missing: write the step, not the waiver"),
        Never::Right | Never::Critical | Never::Record => "no work makes it right".to_owned(),
    })
}

/// Which things are critical, by the front matter they stand in: an id that two of them give stands for two things.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CriticalThings {
    /// `MACHINE/id` in the machine's own lists, `MACHINE/PROCEDURE/id` in a procedure's.
    critical: BTreeSet<String>,
    /// Likewise what is given under the id of something critical elsewhere in the machine, and is not critical itself.
    harmless: BTreeSet<String>,
}

impl CriticalThings {
    /// Those of a manual's machines.
    pub(super) fn of(manual: &Manual) -> Self {
        let mut found = Self::default();
        for machine in &manual.machines {
            let procedures = machine.procedures.iter().map(|procedure| (format!("{}/{}", machine.id, procedure.id), &procedure.lists));
            let homes: Vec<(String, &Lists)> = procedures.chain([(machine.id.clone(), &machine.lists)]).collect();
            let critical: BTreeSet<&String> = homes.iter().flat_map(|(_, lists)| critical_ids(lists)).collect();
            for (home, lists) in &homes {
                let own: BTreeSet<&String> = critical_ids(lists).collect();
                let given = |id: &str| KINDS.iter().any(|kind| lists.head(*kind, id).is_some());
                found.harmless.extend(critical.difference(&own).filter(|id| given(id)).map(|id| format!("{home}/{id}")));
                found.critical.extend(own.into_iter().map(|id| format!("{home}/{id}")));
            }
        }
        found
    }

    /// Takes in those of another machine.
    pub(super) fn extend(&mut self, other: &Self) {
        self.critical.extend(other.critical.iter().cloned());
        self.harmless.extend(other.harmless.iter().cloned());
    }

    /// Whether an id means something critical in a file, by the file's name: as its front matter says, or its machine's. Where
    /// neither gives the id, whichever procedure has something critical of it.
    pub(super) fn holds(&self, file: &str, id: &str) -> bool {
        let Some((machine, rest)) = file.split_once('/') else { return false };
        let homes = [rest.strip_suffix(".md").map(|procedure| format!("{machine}/{procedure}/{id}")), Some(format!("{machine}/{id}"))];
        for home in homes.iter().flatten() {
            if self.critical.contains(home) {
                return true;
            }
            if self.harmless.contains(home) {
                return false;
            }
        }
        let (of_machine, of_id) = (format!("{machine}/"), format!("/{id}"));
        self.critical.range(of_machine.clone()..).take_while(|home| home.starts_with(&of_machine)).any(|home| home.ends_with(&of_id))
    }
}

/// The lists whose entries can be critical.
const KINDS: [ListKind; 2] = [ListKind::Fasteners, ListKind::Parts];

fn critical_ids(lists: &Lists) -> impl Iterator<Item = &String> {
    let fasteners = lists.fasteners.values().filter(|entry| entry.what.critical).map(|entry| &entry.id);
    fasteners.chain(lists.parts.values().filter(|entry| entry.what.critical).map(|entry| &entry.id))
}

/// What a waiver that is refused is told.
pub(super) fn refused(waiver: &Waiver, never: Never) -> Finding {
    let (rule, of) = (&waiver.rule.value, &waiver.of.value);
    let (why, fix) = match never {
        Never::Right => (format!("‘{rule}’ is never waived: no work makes it right"), format!("mend what it finds (benchleaf explain {rule}), and take the waiver out")),
        Never::Protection(what) => (format!("‘{rule}’ is never waived: {what} is missing, and somebody gets hurt"), format!("write {what} into the step for ‘{of}’, and take the waiver out")),
        Never::Critical => (format!("‘{of}’ is critical, and nothing about it is waived"), "mend what is found, or write the step that it asks for, and take the waiver out".to_owned()),
        Never::Record => (format!("{rule} for ‘{of}’ was found in a build record, and no waiver answers for that"), "write a deviation into the record, with reason, person and day, and take the waiver out".to_owned()),
    };
    let place = if matches!(never, Never::Right | Never::Protection(_)) { &waiver.rule.place } else { &waiver.of.place };
    Finding::new(&WAIVER_REFUSED, place.clone(), why).label("never waived").fix(fix)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inspect::{rule, rules};

    #[test]
    fn an_id_is_critical_where_its_own_front_matter_says_so() {
        let set = |all: &[&str]| all.iter().map(|home| (*home).to_owned()).collect();
        let things = CriticalThings { critical: set(&["axle/hub/nut", "saw/nut"]), harmless: set(&["axle/strip/nut", "saw/blade/nut"]) };
        for (file, critical) in [
            ("axle/hub.md", true), ("axle/strip.md", false),
            // It gives none of its own, and the machine gives none: what it tells of may be the hub's.
            ("axle/end.md", true), ("axle/machine.yaml", true),
            ("saw/end.md", true), ("saw/machine.yaml", true), ("saw/blade.md", false),
            ("axles/hub.md", false), ("manual.yaml", false),
        ] {
            assert_eq!(things.holds(file, "nut"), critical, "{file}");
        }
        assert!(!things.holds("axle/hub.md", "hub"));
    }

    #[test]
    fn every_rule_of_the_table_is_there_once_and_in_order() {
        assert!(PROTECTION.is_sorted_by(|one, other| one.0 < other.0));
        for (name, _) in PROTECTION {
            assert!(rule(name).is_some(), "{name}");
        }
    }

    #[test]
    fn a_rule_that_is_never_wrong_is_never_waived_and_others_may_be() {
        for (name, never) in [("unit-missing", Some(Never::Right)), ("notice-missing", Some(Never::Protection("a notice"))), ("listed-not-used", None), ("torque-outside-band", None)] {
            assert_eq!(rule(name).map(of_rule), Some(never), "{name}");
        }
        // Both kinds are there in number, so that neither half of the test above stands for nothing.
        let never = rules().into_iter().filter(|rule| of_rule(rule).is_some()).count();
        assert!((40..120).contains(&never), "{never}");
    }
}
