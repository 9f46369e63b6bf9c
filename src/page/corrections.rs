//! What is said wrong in a procedure's recording: a mark at the step it concerns, and the whole of it at the recording.

use super::names::Detail;
use super::site::Scene;
use super::values::{values_glued, variant_label};
use super::words::Arg;
use crate::manual::{Correction, ListKind, Lists, Procedure, Recording, Step, WrittenValue, corrected_step};
use crate::quantity::{Dimension, Quantity};
use serde::Serialize;

/// A correction, as the recording's section tells it.
#[derive(Serialize)]
pub(super) struct CorrectionView {
    moment: Option<Detail>,
    said: String,
    of: String,
    /// What the list has, as it is read elsewhere on the page; none where there is no such value.
    listed: Option<String>,
}

impl<'s> Scene<'s> {
    /// The corrections of this procedure, in the order of the recording; those that nothing places stand with every procedure.
    pub(super) fn corrections(&self, procedure: &Procedure, recording: &Recording) -> Vec<CorrectionView> {
        let is_own = |correction: &&Correction| corrected_step(self.machine, procedure, correction).is_none_or(|(of, _)| of.id == procedure.id);
        let mut own: Vec<&Correction> = recording.corrections.iter().filter(is_own).collect();
        own.sort_by_key(|correction| correction.at);
        let view = |correction: &Correction| CorrectionView {
            moment: correction.at.map(|at| Detail { text: at.to_string(), href: super::moment::address_at(recording, at.seconds()) }),
            said: values_glued(&correction.said),
            listed: correction.of.as_ref().and_then(|of| self.listed(&of.value)),
            of: correction.of.as_ref().map_or_else(String::new, |of| self.value_name(&of.value)),
        };
        own.into_iter().map(view).collect()
    }

    /// What is said wrong at a step: a few words each, which lead to the whole of it.
    pub(super) fn said_wrong(&self, step: &Step) -> Vec<String> {
        let Some((procedure, recording)) = self.procedure.and_then(|procedure| Some((procedure, procedure.recording.as_ref()?))) else { return Vec::new() };
        let here = |correction: &&Correction| corrected_step(self.machine, procedure, correction).is_some_and(|(of, own)| of.id == procedure.id && own.id == step.id);
        recording.corrections.iter().filter(here).map(|correction| self.wrong_words(correction)).collect()
    }

    /// `says 83 N·m, which is wrong`; where the value is that of some machines, it is wrong for the others only.
    fn wrong_words(&self, correction: &Correction) -> String {
        let said = values_glued(&correction.said);
        let right = correction.of.as_ref().map_or_else(Vec::new, |of| self.said_right(&of.value, &correction.said));
        if right.is_empty() {
            return self.say("step-corrected", &[("said", Arg::Text(&said))]);
        }
        self.say("step-corrected-but", &[("said", Arg::Text(&said)), ("variant", Arg::Text(&right.join(", ")))])
    }

    /// The variants whose value holds what was said.
    fn said_right(&self, of: &str, said: &str) -> Vec<String> {
        let (Some((id, field)), Ok(said)) = (of.split_once('.'), Quantity::parse_free(said)) else { return Vec::new() };
        let holds = |case: &&WrittenValue| !case.when.is_always() && Quantity::parse_free(&case.text).is_ok_and(|listed| said.lies_within(&listed) == Some(true));
        let cases = self.nearest_cases(id, field).map_or_else(Vec::new, |(_, cases)| cases);
        cases.into_iter().filter(holds).map(|case| variant_label(&case.when, self.known)).collect()
    }

    /// `Head bolt, torque`.
    fn value_name(&self, of: &str) -> String {
        match of.split_once('.') {
            Some((id, field)) => format!("{}, {}", self.named(id), self.site.words.of("field", field)),
            None => self.named(of),
        }
    }

    /// What the nearest list has for `ID.field`, by variant where it differs; a torque with its stages, as its act tells it.
    fn listed(&self, of: &str) -> Option<String> {
        let (id, field) = of.split_once('.')?;
        let (lists, cases) = self.nearest_cases(id, field)?;
        let is_torque = field == "torque" && cases.first().is_some_and(|case| case.kind == ListKind::Fasteners);
        if let Some(fastener) = lists.fasteners.get(id).filter(|_| is_torque) {
            let told = self.torque_lines(&fastener.what, None).into_iter();
            return Some(told.map(|line| [line.label, Some(line.main), line.other].into_iter().flatten().collect::<Vec<_>>().join(" ")).collect::<Vec<_>>().join(", "));
        }
        let told = cases.into_iter().map(|case| {
            let words = self.value_words(&case.text);
            if case.when.is_always() { words } else { format!("{} {words}", variant_label(&case.when, self.known)) }
        });
        Some(told.collect::<Vec<_>>().join(" · "))
    }

    /// What the nearest list that has `ID.field` writes for it, a case a variant: of one kind of thing, with that list.
    fn nearest_cases(&self, id: &str, field: &str) -> Option<(&'s Lists, Vec<&'s WrittenValue>)> {
        self.scope().homes().find_map(|(_, lists)| {
            let all: Vec<&WrittenValue> = lists.written.iter().filter(|written| written.id == id && written.field == field).collect();
            let kind = all.first()?.kind;
            Some((lists, all.into_iter().filter(|written| written.kind == kind).collect()))
        })
    }

    /// A value as written in a list, in the words of the page: a quantity in both units, a thing by its name.
    fn value_words(&self, text: &str) -> String {
        match Quantity::parse_free(text) {
            Ok(quantity) if quantity.dimension() != Dimension::Count => self.quantity(&quantity),
            _ if self.find_named(text).is_some() => self.named(text),
            _ => values_glued(text),
        }
    }
}
