//! Which way round: circlips, bearings, washers with a hollow side, left-hand threads.

use super::tongue::{Tongue, Wanted};
use super::{Context, every, wrong_way};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Entry, ListKind, Part, Procedure, Scope, Step, ThingRef, Verb};
use crate::source::{Inline, each_inline};
use std::collections::BTreeSet;

/// A circlip goes in either way.
pub(super) static CIRCLIP_ORIENTATION: Rule = Rule {
    name: "circlip-orientation",
    severity: Severity::Warning,
    summary: "A circlip goes in, and nobody says which way its sharp edge looks.",
    explanation: Explanation {
        finds: "Parts of kind circlip that a step fits and that have neither faces: nor side:.",
        matters: "A stamped ring has one sharp and one rounded edge. Pushed at on the rounded one, it climbs out of its groove.",
        may_be_wrong: "Rings of round wire: write faces: either.",
        example: "carrier-clip: {kind: circlip}",
        instead: "carrier-clip: {kind: circlip, faces: {sharp-edge: gear-oil}}",
    },
};

/// A bearing with two different sides has none named.
pub(super) static BEARING_SIDE_MISSING: Rule = Rule {
    name: "bearing-side-missing",
    severity: Severity::Warning,
    summary: "A bearing with two different sides goes in, and nobody says which way round.",
    explanation: Explanation {
        finds: "Bearings without faces: that a step fits and whose name, note or number says that their sides differ: taper or angular contact, a shield or seal on one side, a filling slot, numbers to one side.",
        matters: "An angular bearing turned round carries nothing and falls apart; a shield on the wrong side keeps the oil out.",
        may_be_wrong: "Where both sides are equal after all: write faces: either.",
        example: "worm-bearing: {name: Taper bearing of the worm shaft, size: 30x55x17 mm}",
        instead: "worm-bearing: {name: Taper bearing of the worm shaft, size: 30x55x17 mm, faces: {large-end: worm}}",
    },
};

/// A part of a stack on a shaft has no side.
pub(super) static STACK_ORDER_INCOMPLETE: Rule = Rule {
    name: "stack-order-incomplete",
    severity: Severity::Error,
    summary: "A washer, gear or spacer on a shaft has no side.",
    explanation: Explanation {
        finds: "Dished washers that a step fits, and washers, gears and spacers that stand in a shaft's row (shafts:), with neither faces: nor side:.",
        matters: "A dished washer the wrong way round is flat before the nut is tight, and the nut comes loose.",
        may_be_wrong: "Where both sides are equal: write faces: either.",
        example: "hub-washer: {kind: dished-washer}",
        instead: "hub-washer: {kind: dished-washer, faces: {hollow: hub}}",
    },
};

/// A left-hand thread is not told where it is turned.
pub(super) static LEFT_HAND_UNMARKED: Rule = Rule {
    name: "left-hand-unmarked",
    severity: Severity::Error,
    summary: "A left-hand thread is turned, and the step does not say so, or turns it the wrong way.",
    explanation: Explanation {
        finds: "Steps that start, tighten, slacken or take out a fastener with a left-hand thread and whose words have neither ‘left-hand’ nor ‘anticlockwise’ (‘counterclockwise’). And sentences of such a step that tighten clockwise, or slacken anticlockwise, without the other way beside it; a holding tool named in the same sentence is not what turns, where the way stands in the words of the act.",
        matters: "Who turns it the usual way tightens what should come off, until it shears.",
        may_be_wrong: "Where the shaft turns clockwise, and not the nut: say so (‘the shaft turns clockwise’). Otherwise never.",
        example: "blade-nut: {thread: M12x1.25 left-hand}\n[Tighten the blade nut](torque:blade-nut)",
        instead: "[Tighten the blade nut, anticlockwise: its thread is left-hand](torque:blade-nut)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<(&str, ThingRef)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            for act in &step.acts {
                let Some(thing) = act.thing() else { continue };
                let finding = match (act.verb, thing.kind) {
                    (Some(Verb::Fit), ListKind::Parts) => part(scope, thing),
                    (Some(Verb::Fit), ListKind::Bearings) => bearing(scope, thing),
                    (Some(Verb::Fit | Verb::Start | Verb::Torque | Verb::Loosen | Verb::Remove), ListKind::Fasteners) => {
                        // Each step is a place of its own on the printed sheet.
                        let first = first_in_step(step, act);
                        let wrong = first.then(|| wrong_way::find(scope, procedure, step, thing)).flatten();
                        findings.extend(wrong.or_else(|| left_hand(Tongue::of(context.manual), scope, procedure, step, act, thing).filter(|_| first)));
                        continue;
                    }
                    _ => continue,
                };
                if let Some(finding) = finding.filter(|_| !told.contains(&(machine.id.as_str(), thing.clone()))) {
                    told.insert((&machine.id, thing.clone()));
                    findings.push(finding.related(act.place.clone(), "goes in here"));
                }
            }
        }
    }
}

fn part(scope: Scope<'_>, thing: &ThingRef) -> Option<Finding> {
    let lists = scope.lists_of(thing)?;
    let entry = lists.parts.get(&thing.id)?;
    let unreadable = ["faces", "side"].into_iter().any(|field| lists.is_unreadable(thing.kind, &thing.id, field));
    if entry.what.faces.is_given() || entry.what.side.is_given() || unreadable {
        return None;
    }
    match entry.what.kind.first()?.as_str() {
        "circlip" => Some(
            sideless(&CIRCLIP_ORIENTATION, entry, "which way its sharp edge looks")
                .fix("say what the sharp edge looks at, away from what pushes: faces: {sharp-edge: …}; or faces: either"),
        ),
        "dished-washer" => Some(
            sideless(&STACK_ORDER_INCOMPLETE, entry, "what its hollow side looks at").fix("say it: faces: {hollow: …}"),
        ),
        kind @ ("washer" | "gear" | "spacer") if in_a_row(scope, &thing.id) => Some(
            sideless(&STACK_ORDER_INCOMPLETE, entry, &format!("which way round this {kind} sits in its row"))
                .fix("say what one of its sides looks at: faces: {boss: …}; or faces: either"),
        ),
        _ => None,
    }
}

fn sideless(rule: &'static Rule, entry: &Entry<Part>, what: &str) -> Finding {
    Finding::new(rule, entry.id_place.clone(), format!("{} goes in, and nobody says {what}", entry.name))
        .label("no faces, no side")
        .about(format!("{}.faces", entry.id))
}

fn in_a_row(scope: Scope<'_>, id: &str) -> bool {
    scope.homes().flat_map(|(_, lists)| lists.shafts.values()).any(|shaft| shaft.what.sits.iter().any(|spot| spot.value == id))
}

/// Words that tell of two different sides.
const SIDED: [&str; 10] = ["taper", "tapered", "angular", "shielded", "shield", "one-sided", "filling slot", "one side", "thrust", "cup and cone"];

fn bearing(scope: Scope<'_>, thing: &ThingRef) -> Option<Finding> {
    let lists = scope.lists_of(thing)?;
    let entry = lists.bearings.get(&thing.id)?;
    if entry.what.faces.is_given() || lists.is_unreadable(thing.kind, &thing.id, "faces") {
        return None;
    }
    let said = format!("{} {}", entry.name, entry.note.as_deref().unwrap_or("")).to_lowercase();
    let word = SIDED.into_iter().find(|word| said.contains(word))?;
    if said.contains("both sides") {
        return None;
    }
    Some(
        Finding::new(&BEARING_SIDE_MISSING, entry.id_place.clone(), format!("{} goes in, and nobody says which way round", entry.name))
            .label("no faces")
            .figure(format!("‘{word}’: its sides differ"))
            .fix("say what one side looks at: faces: {large-end: worm}; or faces: either")
            .about(format!("{}.faces", entry.id)),
    )
}

fn first_in_step(step: &Step, act: &Act) -> bool {
    let same = |other: &&Act| other.thing() == act.thing() && matches!(other.verb, Some(Verb::Fit | Verb::Start | Verb::Torque | Verb::Loosen | Verb::Remove));
    step.acts.iter().find(same).is_some_and(|first| first.place == act.place)
}

fn left_hand(tongue: Tongue, scope: Scope<'_>, procedure: &Procedure, step: &Step, act: &Act, thing: &ThingRef) -> Option<Finding> {
    let entry = scope.thing(|lists| &lists.fasteners, thing)?;
    let thread = entry.what.thread.cases.iter().find(|case| case.value.left_hand)?;
    let words = words_of(step).to_lowercase();
    let english = ["left-hand", "left hand", "lefthand", "anticlockwise", "anti-clockwise", "counterclockwise", "counter-clockwise"];
    let german = ["linksgewind", "links-gewind", "linksgäng", "linksdreh", "linkssinnig", "gegen den uhrzeigersinn", "entgegen dem uhrzeigersinn", "gegenuhrzeigersinn", "linksherum", "links herum", "nach links", "linkslauf"];
    if english.iter().any(|word| words.contains(word)) || tongue.may_say(&words, Wanted { english: &[], german: &german }) {
        return None;
    }
    Some(
        Finding::new(&LEFT_HAND_UNMARKED, act.place.clone(), format!("{} has a left-hand thread, and this step does not say so", entry.name))
            .label("which way?")
            .related(thread.place.clone(), "left-hand")
            .fix("say in the step that the thread is left-hand and which way tightens it: anticlockwise")
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

/// Everything a step says, its title and the words of its links with it.
pub(super) fn words_of(step: &Step) -> String {
    let mut words = step.title.clone();
    each_inline(&step.blocks, &mut |inline| match inline {
        Inline::Text(text, _) => {
            words.push(' ');
            words.push_str(text);
        }
        Inline::SoftBreak | Inline::HardBreak => words.push(' '),
        _ => {}
    });
    words
}
