//! Links: each leads somewhere, and says where.

use super::Context;
use super::prose::runs_outside_links;
use crate::finding::{Explanation, Finding, Place, Rule, Severity, Sought, nearest};
use crate::manual::{Machine, Manual, Procedure};
use crate::source::{Inline, each_inline};

/// A link leads nowhere, or the text refers to another place without a link.
pub(super) static BROKEN_OR_VAGUE_LINK: Rule = Rule {
    name: "broken-or-vague-link",
    severity: Severity::Error,
    summary: "A link leads nowhere, or a reference is made without a link.",
    explanation: Explanation {
        finds: "see: links to procedures and steps that don't exist, links to parts of this page that don't exist, links to files of the manual; and, as a warning, phrases that refer to another place without a link: ‘same as before’, ‘see above’, ‘as on the other side’.",
        matters: "A printed sheet has no ‘above’ once its pages are apart, and ‘as before’ means something else to each reader.",
        may_be_wrong: "The phrases may be harmless in running prose; a link is better all the same.",
        example: "Fit it as in [the other half](see:crankcase#halfs).",
        instead: "Fit it as in [the other half](see:crankcase#halves).",
    },
};

/// Phrases that send a reader somewhere without saying where.
const VAGUE: [&str; 12] = [
    "same as before",
    "as before",
    "same way as before",
    "see above",
    "see below",
    "as above",
    "as described above",
    "as described below",
    "as on the other side",
    "same as the other",
    "as in the other",
    "as last time",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        for procedure in &machine.procedures {
            links(context.manual, machine, procedure, findings);
            vague(procedure, findings);
        }
    }
}

fn links(manual: &Manual, machine: &Machine, procedure: &Procedure, findings: &mut Vec<Finding>) {
    for blocks in procedure.texts() {
        each_inline(blocks, &mut |inline| match inline {
            Inline::See(target, _, place) => findings.extend(see(manual, machine, procedure, target, place)),
            Inline::Link(address, _, place) => findings.extend(link(procedure, address, place)),
            _ => {}
        });
    }
}

/// `PROCEDURE`, `PROCEDURE#STEP`, `MACHINE/PROCEDURE`, `MACHINE/PROCEDURE#STEP`, `#STEP`.
fn see(manual: &Manual, machine: &Machine, procedure: &Procedure, target: &str, place: &Place) -> Option<Finding> {
    let (path, step) = match target.split_once('#') {
        Some((path, step)) => (path, Some(step)),
        None => (target, None),
    };
    let name = match path.split_once('/') {
        Some((other, name)) if other != machine.id => return see_elsewhere(manual, other, name, step, place),
        Some((_, name)) => name,
        None => path,
    };
    let found = if name.is_empty() { Some(procedure) } else { machine.procedure(name) };
    let Some(found) = found else {
        let known = machine.procedures.iter().map(|p| p.id.as_str());
        return Some(broken(place, format!("{} has no procedure ‘{name}’", machine.name), nearest(name, known)));
    };
    let step = step?;
    if found.step(step).is_some() {
        return None;
    }
    let known = found.steps.iter().map(|s| s.id.as_str());
    Some(broken(place, format!("{} has no step ‘{step}’", found.title), nearest(step, known)).sought(Sought::Steps(format!("{}/{name}", machine.id))))
}

/// A link to another machine.
fn see_elsewhere(manual: &Manual, other: &str, name: &str, step: Option<&str>, place: &Place) -> Option<Finding> {
    let Some(machine) = manual.outline(other) else {
        return Some(broken(place, format!("there is no machine ‘{other}’"), nearest(other, manual.machine_ids())));
    };
    let Some(found) = machine.procedure(name) else {
        let known = machine.procedures.iter().map(|procedure| procedure.id.as_str());
        return Some(broken(place, format!("{} has no procedure ‘{name}’", machine.name), nearest(name, known)));
    };
    let step = step?;
    if found.number(step).is_some() {
        return None;
    }
    let broken = broken(place, format!("{} has no step ‘{step}’", found.title), nearest(step, found.steps.iter().map(String::as_str)));
    Some(broken.sought(Sought::Steps(format!("{other}/{name}"))))
}

fn broken(place: &Place, message: String, near: Option<&str>) -> Finding {
    Finding::new(&BROKEN_OR_VAGUE_LINK, place.clone(), message)
        .label("leads nowhere")
        .fix(near.map_or_else(|| "write see:PROCEDURE#STEP, or see:MACHINE/PROCEDURE".to_owned(), |near| format!("did you mean ‘{near}’?")))
}

fn link(procedure: &Procedure, address: &str, place: &Place) -> Option<Finding> {
    if let Some(anchor) = address.strip_prefix('#') {
        if procedure.step(anchor).is_some() {
            return None;
        }
        let known = procedure.steps.iter().map(|s| s.id.as_str());
        return Some(broken(place, format!("this page has no step ‘{anchor}’"), nearest(anchor, known)));
    }
    let outside = ["https://", "http://", "mailto:"].iter().any(|scheme| address.starts_with(scheme));
    (!outside).then(|| {
        let file = address.split('#').next().unwrap_or(address);
        let name = file.rsplit('/').next().unwrap_or(file).trim_end_matches(".md");
        broken(place, format!("‘{address}’ is a file, and pages have other addresses"), None).fix(format!("write see:{name}, or a whole address with https://"))
    })
}

fn vague(procedure: &Procedure, findings: &mut Vec<Finding>) {
    for blocks in procedure.texts() {
        for run in runs_outside_links(blocks) {
            let folded = run.text().to_ascii_lowercase();
            for (at, phrase) in vague_phrases(&folded) {
                let Some(place) = run.place(at, at + phrase.len()) else { continue };
                findings.push(
                    Finding::new(&BROKEN_OR_VAGUE_LINK, place, format!("‘{phrase}’ does not say where"))
                        .severity(Severity::Warning)
                        .label("where?")
                        .fix("link the step: [the other half](see:PROCEDURE#STEP)"),
                );
            }
        }
    }
}

/// The phrases in a text, where one lies in another the longer.
fn vague_phrases(text: &str) -> Vec<(usize, &'static str)> {
    let mut hits: Vec<(usize, &str)> = Vec::new();
    let mut before: Option<char> = None;
    for (at, sign) in text.char_indices() {
        let rest = text.get(at..).unwrap_or("");
        if before.is_none_or(|sign| !sign.is_alphanumeric()) {
            hits.extend(VAGUE.iter().filter(|phrase| phrase.starts_with(sign) && begins_with(rest, phrase)).map(|phrase| (at, *phrase)));
        }
        before = Some(sign);
    }
    hits.sort_by_key(|(at, phrase)| (*at, std::cmp::Reverse(phrase.len())));
    let mut end = 0;
    hits.retain(|(at, phrase)| {
        let free = *at >= end;
        end = if free { at + phrase.len() } else { end };
        free
    });
    hits
}

/// Whether a text begins with a phrase, and the phrase's last word ends there.
fn begins_with(text: &str, phrase: &str) -> bool {
    text.strip_prefix(phrase).is_some_and(|behind| behind.chars().next().is_none_or(|sign| !sign.is_alphanumeric()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_count_as_whole_words_only() {
        assert_eq!(vague_phrases("fit it as before."), [(7, "as before")]);
        assert_eq!(vague_phrases("it was before noon"), []);
        assert_eq!(vague_phrases("as beforehand"), []);
        assert_eq!(vague_phrases("same as before, see above"), [(0, "same as before"), (16, "see above")]);
    }
}
