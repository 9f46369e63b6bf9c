//! Waivers and missing sources, printed beside the value they are about.

use super::Input;
use super::names::Detail;
use super::site::Scene;
use super::words::Arg;
use crate::finding::{Finding, Place};
use crate::inspect::is_unsourced;
use crate::manual::{Act, Procedure, Step, ThingRef};
use std::collections::BTreeMap;

/// What was found and answered for, by what it is about.
pub(super) struct Waived<'a> {
    by_subject: BTreeMap<&'a str, Vec<&'a Finding>>,
}

impl<'a> Waived<'a> {
    /// The waived findings of `input`; a finding about `nut.torque` stands under `nut`.
    pub(super) fn new(input: &Input<'a>) -> Self {
        let mut by_subject: BTreeMap<&str, Vec<&Finding>> = BTreeMap::new();
        for finding in input.waived {
            let Some(subject) = finding.subject() else { continue };
            let subject = if subject.contains('#') { subject } else { subject.split('.').next().unwrap_or(subject) };
            by_subject.entry(subject).or_default().push(finding);
        }
        Self { by_subject }
    }

    fn about(&self, subject: &str) -> impl Iterator<Item = &'a Finding> {
        self.by_subject.get(subject).into_iter().flatten().copied()
    }
}

impl Scene<'_> {
    /// The waivers of a thing's values.
    pub(super) fn waiver_details(&self, thing: &ThingRef) -> Vec<Detail> {
        let Some(head) = self.scope().head(thing) else { return Vec::new() };
        let found = self.site.waived.about(&thing.id).filter(|finding| finding.place().file == head.place.file);
        self.waivers_told(found)
    }

    /// The waivers of what an act says by itself.
    pub(super) fn act_waivers(&self, act: &Act) -> Vec<Detail> {
        let things = act.things.iter().chain(&act.material);
        let found = things.flat_map(|thing| self.site.waived.about(&thing.id)).filter(|finding| stands_in(finding, &act.place));
        self.waivers_told(found)
    }

    /// The waivers of a step.
    pub(super) fn step_waivers(&self, procedure: &Procedure, step: &Step) -> Vec<Detail> {
        self.waivers_told(self.site.waived.about(&format!("{}#{}", procedure.id, step.id)))
    }

    /// Whether a thing carries values and nobody says where they come from.
    pub(super) fn is_unsourced(&self, thing: &ThingRef) -> bool {
        self.scope().lists_of(thing).is_some_and(|lists| is_unsourced(lists, thing.kind, &thing.id))
    }

    fn waivers_told<'f>(&self, found: impl Iterator<Item = &'f Finding>) -> Vec<Detail> {
        let mut told: Vec<Detail> = Vec::new();
        for (finding, answer) in found.filter_map(|finding| Some((finding, finding.answer()?))) {
            let words = self.say(
                "waived",
                &[
                    ("found", Arg::Text(finding.message())),
                    ("because", Arg::Text(&answer.because)),
                    ("by", Arg::Text(&answer.by)),
                    ("until", Arg::Text(&self.site.words.dated(&answer.until))),
                ],
            );
            let detail = Detail::plain(words);
            if !told.contains(&detail) {
                told.push(detail);
            }
        }
        told
    }
}

fn stands_in(finding: &Finding, place: &Place) -> bool {
    let found = finding.place();
    found.file == place.file && found.start >= place.start && found.start < place.end.max(place.start + 1)
}
