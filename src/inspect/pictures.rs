//! Pictures in the text: each is there, and each says in words what it shows.

use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity, nearest};
use crate::manual::{Machine, Procedure};
use crate::source::{Inline, PictureText, each_inline, resolve_picture};
use std::collections::BTreeSet;

/// A picture has no alternative text.
pub(super) static ALT_TEXT_MISSING: Rule = Rule {
    name: "alt-text-missing",
    severity: Severity::Warning,
    summary: "A picture has no words in its place.",
    explanation: Explanation {
        finds: "Pictures without alternative text, or whose alternative text is only the file's name or a word such as ‘picture’.",
        matters: "Whoever hears the page read out, or has a page that would not load, gets nothing; and writing down what to see shows whether the picture shows it.",
        may_be_wrong: "Never: say what one should see, in one sentence.",
        example: "![](pictures/carrier.svg)",
        instead: "![The carrier cut open: bearing, circlip, inner seal, outer seal](pictures/carrier.svg)",
    },
};

/// A picture is not there.
pub(super) static PICTURE_MISSING: Rule = Rule {
    name: "picture-missing",
    severity: Severity::Error,
    summary: "A picture is not there, or lies outside the manual.",
    explanation: Explanation {
        finds: "Pictures in the text whose file is not in the manual's folder. (An entry under figures: that no picture answers to has a rule of its own.)",
        matters: "A step that says ‘as shown’ and shows nothing.",
        may_be_wrong: "Never. Paths are counted from the procedure's folder, and upper and lower case matter.",
        example: "![The carrier](pictures/Carrier.svg)",
        instead: "![The carrier](pictures/carrier.svg)",
    },
};

/// A picture's entry is never shown.
pub(super) static FIGURE_NOT_SHOWN: Rule = Rule {
    name: "figure-not-shown",
    severity: Severity::Warning,
    summary: "An entry under figures: belongs to no picture in the text.",
    explanation: Explanation {
        finds: "Entries under figures: whose picture no step shows.",
        matters: "Its balloons and its author's name are never seen.",
        may_be_wrong: "While the text is being written.",
        example: "figures: {pictures/carier.svg: {…}}",
        instead: "figures: {pictures/carrier.svg: {…}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let mut shown: BTreeSet<String> = BTreeSet::new();
        for procedure in &machine.procedures {
            for blocks in procedure.texts() {
                each_inline(blocks, &mut |inline| {
                    if let Inline::Picture(picture) = inline {
                        findings.extend(alternative(picture));
                        findings.extend(missing(context, machine, picture));
                        shown.insert(picture.path.clone());
                    }
                });
            }
        }
        for procedure in &machine.procedures {
            figures(&shown, procedure, findings);
        }
    }
}

fn alternative(picture: &PictureText) -> Option<Finding> {
    let words = picture.alternative.trim();
    let file = picture.path.rsplit('/').next().unwrap_or(&picture.path);
    let stem = file.split('.').next().unwrap_or(file);
    let empty = words.is_empty() || words.eq_ignore_ascii_case(file) || words.eq_ignore_ascii_case(stem);
    let idle = ["picture", "photo", "photograph", "image", "drawing", "figure"].iter().any(|idle| words.eq_ignore_ascii_case(idle));
    let message = match (words.is_empty(), empty || idle) {
        (true, _) => format!("{file} has no words in its place"),
        (false, true) => format!("‘{words}’ does not say what {file} shows"),
        (false, false) => return None,
    };
    Some(
        Finding::new(&ALT_TEXT_MISSING, picture.place.clone(), message)
            .label("what is to be seen?")
            .fix(format!("write what is to be seen, as in ![The carrier cut open]({})", picture.path)),
    )
}

fn missing(context: &Context<'_>, machine: &Machine, picture: &PictureText) -> Option<Finding> {
    let finding = match resolve_picture(&machine.id, &picture.path) {
        Err(fault) => Finding::new(&PICTURE_MISSING, picture.place.clone(), fault.to_string()).label("not in the manual").fix(fault.remedy()),
        Ok(path) if context.sources.pictures.contains_key(&path) => return None,
        // A picture that is there but no good has been reported where it is read.
        Ok(path) if context.sources.unusable_pictures.contains(&path) => return None,
        Ok(path) => {
            let near = nearest(&path, context.sources.pictures.keys().map(String::as_str));
            Finding::new(&PICTURE_MISSING, picture.place.clone(), format!("there is no picture ‘{}’", picture.path)).label("not there").fix(
                near.map_or_else(
                    || format!("put it at {path}, or correct the path"),
                    |near| format!("did you mean ‘{}’?", near.strip_prefix(&format!("{}/", machine.id)).unwrap_or(near)),
                ),
            )
        }
    };
    Some(finding)
}

fn figures(shown: &BTreeSet<String>, procedure: &Procedure, findings: &mut Vec<Finding>) {
    for entry in procedure.lists.figures.values().filter(|entry| !shown.contains(&entry.id)) {
        let near = nearest(&entry.id, shown.iter().map(String::as_str));
        findings.push(
            Finding::new(&FIGURE_NOT_SHOWN, entry.id_place.clone(), format!("‘{}’ is shown nowhere", entry.id))
                .label("in no step")
                .fix(near.map_or_else(|| "show the picture in a step, or take the entry out".to_owned(), |near| format!("did you mean ‘{near}’?"))),
        );
    }
}
