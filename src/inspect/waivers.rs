//! Waivers: a finding that a person has answered for, with a reason and an end.

use super::never_waived::{CriticalThings, Never, of_rule, refused};
use super::{Report, list};
use crate::finding::{Answer, Explanation, FileId, FileTable, Finding, Rule, Severity, nearest};
use crate::manual::{Date, Manual, Waiver};
use std::collections::BTreeSet;

/// A waiver is out of date, or waives nothing.
pub(super) static WAIVER_EXPIRED: Rule = Rule {
    name: "waiver-expired",
    severity: Severity::Error,
    summary: "A waiver is out of date, or waives nothing that is found.",
    explanation: Explanation {
        finds: "Waivers whose until: lies before the newest date: in the manual (or the day given with --today), waivers of rules that don't exist, and waivers that nothing answers to any more.",
        matters: "A waiver is a promise to look again. One that nobody renews has become a habit.",
        may_be_wrong: "Never: renew it with a reason, or mend the fault.",
        example: "waivers: [{rule: naked-value, of: hub-nut, because: …, by: editor, until: 2025-03-01}]",
        instead: "Set a new until: with the reason of today, or take the waiver out.",
    },
};

/// What a waiver is judged by beside the findings.
pub(super) struct Grounds<'a> {
    /// The day; none where nothing in the manual has a date.
    pub(super) today: Option<Date>,
    /// The files of build records.
    pub(super) records: &'a BTreeSet<FileId>,
    /// What is critical.
    pub(super) critical: &'a CriticalThings,
    /// The names of the files.
    pub(super) files: &'a FileTable,
}

/// Takes out the findings that valid waivers answer for, and reports waivers that are no good.
pub(super) fn apply(manual: &Manual, findings: Vec<Finding>, grounds: &Grounds<'_>) -> Report {
    let (valid, mut told) = sift(manual, grounds.today);
    let answers = |finding: &Finding, waiver: &Waiver| {
        finding.rule().name == waiver.rule.value && finding.subject().is_some_and(|subject| names(&waiver.of.value, subject))
    };
    for waiver in &valid {
        let meant: Vec<Option<Never>> = findings.iter().filter(|finding| answers(finding, waiver)).map(|finding| grounds.never(finding)).collect();
        // One that answers for another machine as well is right there; what is never waived stays in any case.
        let all: Option<Vec<Never>> = meant.into_iter().collect();
        match all.map(|all| all.into_iter().next()) {
            Some(None) => told.push(idle(waiver)),
            Some(Some(never)) => told.push(refused(waiver, never)),
            None => {}
        }
    }
    let (mut left, mut waived) = (told, Vec::new());
    for finding in findings {
        match valid.iter().find(|waiver| answers(&finding, waiver) && grounds.never(&finding).is_none()) {
            Some(waiver) => waived.push(finding.answered(answer(manual, waiver))),
            None => left.push(finding),
        }
    }
    Report { findings: left, waived, records: BTreeSet::new() }
}

impl Grounds<'_> {
    /// Why a finding is never waived because of where it was found or what it is about.
    fn never(&self, finding: &Finding) -> Option<Never> {
        let file = finding.place().file;
        if self.records.contains(&file) {
            return Some(Never::Record);
        }
        let thing = finding.subject()?.split('.').next()?;
        self.critical.holds(self.files.name(file), thing).then_some(Never::Critical)
    }
}

/// A waiver as whoever reads the finding needs it.
fn answer(manual: &Manual, waiver: &Waiver) -> Answer {
    let person = manual.shop.people.get(&waiver.by.value).map_or(&waiver.by.value, |entry| &entry.name);
    Answer { because: waiver.because.clone(), by: person.clone(), until: waiver.until.to_string() }
}

fn sift(manual: &Manual, today: Option<Date>) -> (Vec<&Waiver>, Vec<Finding>) {
    let (mut valid, mut told) = (Vec::new(), Vec::new());
    for waiver in &manual.waivers {
        let rule = list::rule(&waiver.rule.value);
        if let Some(never) = rule.and_then(of_rule) {
            told.push(refused(waiver, never));
        } else if rule.is_none() {
            let near = nearest(&waiver.rule.value, list::rules().into_iter().map(|rule| rule.name));
            told.push(
                Finding::new(&WAIVER_EXPIRED, waiver.rule.place.clone(), format!("there is no rule ‘{}’", waiver.rule.value))
                    .label("no such rule")
                    .fix(near.map_or_else(|| "take the waiver out".to_owned(), |near| format!("did you mean ‘{near}’?"))),
            );
        } else if today.is_some_and(|today| today > waiver.until) {
            let day = today.map_or_else(String::new, |today| format!("it is {today}, and it ended on {}", waiver.until));
            told.push(
                Finding::new(&WAIVER_EXPIRED, waiver.of.place.clone(), format!("the waiver of {} for ‘{}’ is out of date", waiver.rule.value, waiver.of.value))
                    .label("ended")
                    .figure(day)
                    .fix("renew it with the reason of today, or mend the fault"),
            );
        } else {
            valid.push(waiver);
        }
    }
    (valid, told)
}

fn idle(waiver: &Waiver) -> Finding {
    Finding::new(&WAIVER_EXPIRED, waiver.of.place.clone(), format!("nothing is found that {} for ‘{}’ would waive", waiver.rule.value, waiver.of.value))
        .severity(Severity::Warning)
        .label("waives nothing")
        .fix("take it out")
}

/// `hub-nut` answers for `hub-nut` and `hub-nut.torque`; `hub-nut.torque` for itself only.
fn names(waiver: &str, subject: &str) -> bool {
    subject == waiver || subject.strip_prefix(waiver).is_some_and(|rest| rest.starts_with('.'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_waiver_answers_for_a_thing_and_its_fields() {
        assert!(names("hub-nut", "hub-nut") && names("hub-nut", "hub-nut.torque") && names("hub-nut.torque", "hub-nut.torque"));
        assert!(!names("hub-nut", "hub-nut-2") && !names("hub-nut.torque", "hub-nut") && !names("hub", "hub-nut"));
    }
}
