//! What can hurt whoever does an act: one table of kinds of things, what is worn against each, and how grave it is.

use crate::finding::Severity;
use crate::manual::{Act, ListKind, Scope, ThingRef, Verb};

/// What can hurt in an act.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Hazard {
    /// What a protection may be against: one against any of these is enough.
    pub(super) against: &'static [&'static str],
    /// How grave it is that none is named: a warning where that depends on the size of the thing or of the pull.
    pub(super) grade: Severity,
}

/// What an act handles, as its list tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Handled {
    /// A part put in or taken out.
    Part,
    /// A tool taken in use.
    Tool,
    /// A lock of a fastener made.
    Lock,
    /// A material put on.
    Material,
    /// A test done.
    Test,
}

/// A kind of thing that can hurt, where its name is one of those meant.
struct Row {
    handled: Handled,
    kind: &'static str,
    meant: fn(&str) -> bool,
    hazard: Hazard,
}

const fn row(handled: Handled, kind: &'static str, against: &'static [&'static str]) -> Row {
    Row { handled, kind, meant: |_| true, hazard: Hazard { against, grade: Severity::Error } }
}

/// Told as a warning, and only of what has such a name.
const fn slight(handled: Handled, kind: &'static str, against: &'static [&'static str], meant: fn(&str) -> bool) -> Row {
    Row { handled, kind, meant, hazard: Hazard { against, grade: Severity::Warning } }
}

/// Kinds of things and what can hurt: common practice.
static HAZARDS: [Row; 9] = [
    row(Handled::Part, "spring", &["spring"]),
    row(Handled::Part, "circlip", &["spring"]),
    slight(Handled::Part, "clip", &["spring"], is_wire_clip),
    slight(Handled::Tool, "press-tool", &["spring", "chips"], is_puller),
    row(Handled::Lock, "staked", &["chips"]),
    row(Handled::Material, "solvent", &["solvent"]),
    row(Handled::Test, "pressure", &["pressure"]),
    row(Handled::Test, "run", &["load", "rotation"]),
    row(Handled::Test, "load", &["load", "rotation"]),
];

/// The hazard of an act.
pub(super) fn hazard(scope: Scope<'_>, act: &Act) -> Option<Hazard> {
    let thing = act.thing()?;
    if act.verb == Some(Verb::Heat) {
        return heat(scope, thing);
    }
    let (handled, kind, name) = handled(scope, act, thing)?;
    HAZARDS.iter().find(|row| row.handled == handled && row.kind == kind && (row.meant)(name)).map(|row| row.hazard)
}

/// What an act handles, its kind, its name.
fn handled<'a>(scope: Scope<'a>, act: &'a Act, thing: &'a ThingRef) -> Option<(Handled, &'a str, &'a str)> {
    Some(match act.verb? {
        Verb::Fit | Verb::DryFit | Verb::Remove if thing.kind == ListKind::Parts => {
            let part = scope.thing(|lists| &lists.parts, thing)?;
            (Handled::Part, part.what.kind.first()?, &part.name)
        }
        Verb::Tool => {
            let tool = scope.thing(|lists| &lists.tools, thing)?;
            (Handled::Tool, tool.what.kind.as_deref()?, &tool.name)
        }
        Verb::Lock => {
            let fastener = scope.thing(|lists| &lists.fasteners, thing)?;
            (Handled::Lock, fastener.what.lock.first()?, &fastener.name)
        }
        Verb::Apply => {
            let material = act.material.as_ref().and_then(|material| scope.thing(|lists| &lists.materials, material))?;
            (Handled::Material, material.what.kind.as_deref()?, &material.name)
        }
        Verb::Test => {
            let test = scope.thing(|lists| &lists.tests, thing)?;
            (Handled::Test, test.what.kind.first()?, &test.name)
        }
        _ => return None,
    })
}

/// Skin burns on metal above about 43 °C (ISO 13732-1, from memory). A chill burns too, but what is worn against it is a
/// matter of the notice.
fn heat(scope: Scope<'_>, thing: &ThingRef) -> Option<Hazard> {
    let to = scope.thing(|lists| &lists.heats, thing)?.what.to.first()?.low_high();
    to.1.or(to.0).is_some_and(|hottest| hottest > 43.0).then_some(Hazard { against: &["heat"], grade: Severity::Error })
}

/// Whether a tool stores the pull of its screw: a puller, a press, a spring compressor. What it lets go flies.
fn is_puller(name: &str) -> bool {
    let said = name.to_lowercase();
    let head = said.split(" for ").next().unwrap_or(&said).split(" of ").next().unwrap_or_default();
    head.split_whitespace().any(|word| matches!(word, "puller" | "press" | "extractor" | "compressor"))
}

/// Whether a clip is bent in under tension, as that of a gudgeon pin: it flies; one of a hose or a cable does not.
fn is_wire_clip(name: &str) -> bool {
    let said = name.to_lowercase();
    ["gudgeon", "piston", "wire"].iter().any(|word| said.contains(word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manual::schema;

    #[test]
    fn each_kind_is_a_word_of_the_format() {
        let known = [crate::manual::FileKind::Procedure, crate::manual::FileKind::Shop].map(|kind| schema(kind).to_string()).concat();
        for row in &HAZARDS {
            assert!(known.contains(&format!("\"{}\"", row.kind)), "{}", row.kind);
        }
    }

    #[test]
    fn a_clip_and_a_tool_are_told_by_their_names_only_and_as_warnings() {
        for (kind, name, told) in [("clip", "Gudgeon pin clip", true), ("clip", "Hose clip", false), ("press-tool", "Puller for the sprocket", true), ("press-tool", "Stand of the press", false)] {
            let row = HAZARDS.iter().find(|row| row.kind == kind).unwrap();
            assert_eq!((row.hazard.grade, (row.meant)(name)), (Severity::Warning, told), "{name}");
        }
    }
}
