//! One tick, one thing done: a line that asks for many is ticked when the first is.

use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Verb};

/// One tick stands for many things to do.
pub(super) static OVERLOADED_STEP: Rule = Rule {
    name: "overloaded-step",
    severity: Severity::Note,
    summary: "One line to tick asks for many things to do, or gives many values.",
    explanation: Explanation {
        finds: "Acts in whose words more than three clauses begin with a verb of the bench (fit, tighten, lock, mark, cover …), and tests with more than four values to expect at once.",
        matters: "Who is called away after the second of five ticks the line, and nobody knows which were done.",
        may_be_wrong: "Where the hands do it in one movement: say the movement, not its parts.",
        example: "[Fit the nut, tighten it, stake it, paint it and fit the cover](torque:hub-nut)",
        instead: "[Run the nut up](start:hub-nut), [tighten it](torque:hub-nut), [stake it](lock:hub-nut), [paint it](mark:hub-nut). [Cover on](fit:cover).",
    },
};

/// The most that one tick stands for.
const MOST_VERBS: usize = 3;
const MOST_VALUES: usize = 4;

/// What is done at a bench, as an order: acts of the format and the words people have for them.
const ORDERS: [&str; 66] = [
    "align", "apply", "bend", "blow", "brush", "check", "clean", "close", "connect", "cover", "degrease", "dip", "drain", "draw", "drill", "drive", "drop", "fasten",
    "fill", "fit", "fold", "grease", "hammer", "hang", "heat", "hold", "install", "lay", "lift", "lock", "lower", "lubricate", "mark", "measure", "mount", "oil", "open",
    "paint", "place", "pour", "press", "pull", "push", "put", "read", "remove", "run", "screw", "seal", "seat", "set", "slacken", "slide", "smear", "stack", "stake",
    "tap", "test", "tighten", "torque", "try", "turn", "undo", "warm", "wipe", "wire",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            let about = || format!("{}#{}", procedure.id, step.id);
            findings.extend(step.acts.iter().filter_map(many_orders).map(|finding| finding.about(about())));
            for act in step.acts.iter().filter(|act| act.verb == Some(Verb::Test)) {
                let entry = act.thing().and_then(|thing| scope.thing(|lists| &lists.tests, thing));
                let most = entry.into_iter().flat_map(|entry| &entry.what.expect.cases).map(|case| case.value.values()).max().unwrap_or(0);
                if most > MOST_VALUES {
                    findings.push(
                        Finding::new(&OVERLOADED_STEP, act.place.clone(), format!("one tick stands for {most} values"))
                            .label(format!("more than {MOST_VALUES}"))
                            .fix("split the test, so that each has its own line and its own tick")
                            .about(about()),
                    );
                }
            }
        }
    }
}

fn many_orders(act: &Act) -> Option<Finding> {
    if !act.verb.is_some_and(Verb::ticks) {
        return None;
    }
    let words = Words::of(&act.words);
    let orders = words.orders(&ORDERS);
    (orders.len() > MOST_VERBS).then(|| {
        Finding::new(&OVERLOADED_STEP, act.place.clone(), format!("one tick stands for {} things to do", orders.len()))
            .label("one line, one tick")
            .figure(orders.join(", "))
            .fix("write an act for each: each makes its own line to tick")
    })
}
