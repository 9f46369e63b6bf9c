//! Links into steps that the reader's machine does not have.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Combination, Machine, Procedure, Step, combinations};
use crate::source::{Block, Inline, each_inline, plain_text};
use std::collections::BTreeSet;

/// A link leads into a step that some readers don't have.
pub(super) static CROSS_VARIANT_LINK: Rule = Rule {
    name: "cross-variant-link",
    severity: Severity::Warning,
    summary: "A link leads into a step that some of its readers don't have.",
    explanation: Explanation {
        finds: "see: links to a step with for= from a step that is also done in other variants, where the link's words don't name the variant.",
        matters: "On the sheet of the short shaft the link leads to a step that is not printed.",
        may_be_wrong: "Where the sentence around the link says for whom it is: put the variant into the link's words.",
        example: "[the spacer](see:close-gearcase#spacer)   and that step is for=shaft-L",
        instead: "[long shaft: the spacer](see:close-gearcase#spacer), or for=shaft-L on the linking step",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (machine, procedure, _) in every::procedures(context.manual) {
        let always = Combination::default();
        links(machine, procedure, None, &procedure.introduction, &always, findings);
        for step in &procedure.steps {
            links(machine, procedure, Some(step), &step.blocks, &step.only, findings);
        }
    }
}

fn links(machine: &Machine, procedure: &Procedure, step: Option<&Step>, blocks: &[Block], reader: &Combination, findings: &mut Vec<Finding>) {
    each_inline(blocks, &mut |inline| {
        let Inline::See(target, words, place) = inline else { return };
        if let Some(to) = target_step(machine, procedure, target) {
            findings.extend(dead_end(machine, procedure, step, (to, &plain_text(words), place), reader));
        }
    });
}

/// The step of the same machine that a link leads to.
fn target_step<'m>(machine: &'m Machine, procedure: &'m Procedure, target: &str) -> Option<&'m Step> {
    let (path, step) = target.split_once('#')?;
    let name = match path.split_once('/') {
        Some((other, name)) => Some(name).filter(|_| other == machine.id)?,
        None => path,
    };
    let found = if name.is_empty() { procedure } else { machine.procedure(name)? };
    found.step(step)
}

fn dead_end(machine: &Machine, procedure: &Procedure, from: Option<&Step>, (to, words, place): (&Step, &str, &Place), reader: &Combination) -> Option<Finding> {
    let named: BTreeSet<String> = reader.0.keys().chain(to.only.0.keys()).cloned().collect();
    let made = combinations(&machine.axes, &machine.not_made, &named, 256)?;
    let lost = made.iter().find(|made| made.satisfies(reader) && !made.satisfies(&to.only))?;
    let said: Vec<String> = words.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let says = |axis: &str, value: &str| {
        let meaning = machine.axes.iter().filter(|known| known.name == axis).flat_map(|known| &known.values).find(|known| known.name == value);
        let meant = meaning.map_or("", |known| known.meaning.as_str()).to_lowercase();
        said.contains(&value.to_lowercase()) || said.iter().any(|word| word.len() > 2 && meant.split_whitespace().any(|known| known == word)) || said.contains(&axis.to_lowercase())
    };
    if to.only.0.iter().any(|(axis, value)| says(axis, value)) {
        return None;
    }
    let id = from.map_or_else(|| procedure.id.clone(), |step| format!("{}#{}", procedure.id, step.id));
    Some(
        Finding::new(&CROSS_VARIANT_LINK, place.clone(), format!("this link leads to a step that {} does not have", lost.words()))
            .label("a dead end for some readers")
            .related(to.place.clone(), format!("only for {}", to.only.words()))
            .fix(format!("say in the link's words that it is for {}, or write for= on the step that links", to.only.words()))
            .about(id),
    )
}
