//! Questions that a draft has left in a procedure's text. Those in a front matter are found where it is read.

use super::prose::runs;
use super::{Context, every};
use crate::finding::{Finding, Place};
use crate::manual::rules::QUESTION_UNANSWERED;
use crate::manual::{Procedure, Step};
use crate::source::Block;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, _) in every::procedures(context.manual) {
        findings.extend(asked(&procedure.introduction).into_iter().map(|finding| finding.about(procedure.id.clone())));
        for step in &procedure.steps {
            in_step(procedure, step, findings);
        }
    }
}

fn in_step(procedure: &Procedure, step: &Step, findings: &mut Vec<Finding>) {
    let about = format!("{}#{}", procedure.id, step.id);
    let title = is_question(&step.title).then(|| left(step.place.clone(), "the step has no title yet", "say in a few words what is done: ## Fit the carrier"));
    let acts = step.acts.iter().filter(|act| is_question(&act.words));
    let acts = acts.map(|act| left(act.place.clone(), "the act has no words yet", "write what the hand does: [Tighten the cap bolts](torque:cap-bolt)"));
    findings.extend(title.into_iter().chain(asked(&step.blocks)).chain(acts).map(|finding| finding.about(about.clone())));
}

/// The paragraphs that begin with a question mark.
fn asked(blocks: &[Block]) -> Vec<Finding> {
    let of = |run: super::prose::Run<'_>| {
        let from = run.text().len() - run.text().trim_start().len();
        is_question(run.text()).then(|| run.place(from, run.text().trim_end().len())).flatten()
    };
    let places = runs(blocks).into_iter().filter_map(of);
    places.map(|place| left(place, "this is still a question", "write the answer in its place, or take it out")).collect()
}

fn is_question(text: &str) -> bool {
    text.trim_start().starts_with('?')
}

fn left(place: Place, message: &str, fix: &str) -> Finding {
    Finding::new(&QUESTION_UNANSWERED, place, message).label("not answered yet").fix(fix)
}
