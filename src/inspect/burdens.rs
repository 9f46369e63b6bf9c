//! What hurts a back, an eye and a stomach: heavy parts, stored energy, food ware.

use super::prose::runs;
use super::safety::is_about_injury;
use super::sides::words_of;
use super::text::notices;
use super::tongue::{Tongue, Wanted};
use super::walk::{Moment, State, Walk, in_every};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Combination, Entry, ListKind, Part, Procedure, Scope, Step, ThingRef, Verb};
use std::collections::BTreeSet;

/// Somebody lifts alone what two should.
pub(super) static LIFT: Rule = Rule {
    name: "lift",
    severity: Severity::Warning,
    summary: "A part too heavy for one person is lifted with neither a hoist nor a second person.",
    explanation: Explanation {
        finds: "fit:, dry-fit: and remove: of parts with mass: above 25 kg (common practice) in a step with no tool of kind lifting in use and no word of a second person, helper, hoist or crane.",
        matters: "Backs go at the moment when the part must be held and aimed at once, and fingers are under it.",
        may_be_wrong: "Where it is slid and never lifted: say so, and who helps.",
        example: "powerhead: {mass: 34 kg}\n[Lift the powerhead off](remove:powerhead)",
        instead: "[Lift the powerhead off](remove:powerhead), two people, one at each end",
    },
};

/// A spring or pressure is let go with no word of warning.
pub(super) static STORED_ENERGY: Rule = Rule {
    name: "stored-energy",
    severity: Severity::Warning,
    summary: "A spring is let go with no notice before it, or a joint opened that is still under pressure.",
    explanation: Explanation {
        finds: "remove: of a part of kind spring, and remove: or loosen: of the part that holds a spring down (under:) or of its fasteners, with no DANGER, WARNING or CAUTION before the act in its step; and, after a test of kind pressure, the first remove: or loosen: of a fastener in that procedure when neither that step nor the test's says that the pressure is let out.",
        matters: "The plate jumps at the last thread. A plug under half a bar leaves its hole like a shot.",
        may_be_wrong: "Where the spring is slack by then: say in a notice how one sees it. Once the part over it is off, taking it out is silent.",
        example: "[Undo the spring cap](remove:cap-bolt)   with brake-spring: {kind: spring, under: spring-cap}",
        instead: "> **WARNING** The springs push. Undo the cap evenly, half a turn at each bolt, face out of its path.\n\n[Undo the spring cap](remove:cap-bolt)",
    },
};

/// Oil stands in food ware.
pub(super) static FOOD_CONTAINER: Rule = Rule {
    name: "food-container",
    severity: Severity::Warning,
    summary: "Oil, fuel or solvent is put into something that food comes out of.",
    explanation: Explanation {
        finds: "Jam jars, biscuit tins, baking trays, drink bottles, saucepans and the like in a sentence that speaks of oil, solvent, fuel, coolant or acid, or in the name of a tool of kind container, with no word in the step or the name that it is marked or never used for food again.",
        matters: "Somebody drinks from the bottle, or bakes in the tray. Children do it first.",
        may_be_wrong: "Where it only holds bolts: say it in another sentence than the oil.",
        example: "Soak the plates in oil in any old biscuit tin.",
        instead: "Soak the plates under oil in the [lidded tray](tool:soak-tray), marked never for food again.",
    },
};

/// The most one person lifts alone, kg (common practice).
pub(super) const ALONE_KG: f64 = 25.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let mut told: BTreeSet<(&str, usize)> = BTreeSet::new();
        for (at, moment) in walk.moments.iter().enumerate() {
            findings.extend(heavy(walk, moment));
            if let Some(finding) = spring(walk, at, moment).filter(|_| !told.contains(&(moment.procedure.id.as_str(), moment.step.number))) {
                told.insert((&moment.procedure.id, moment.step.number));
                findings.push(finding);
            }
            findings.extend(pressure(walk, at, moment));
        }
    });
    for (_, lists) in every::lists(context.manual) {
        for tool in lists.tools.values().filter(|tool| tool.what.kind.as_deref() == Some("container")) {
            let words = Words::of(&tool.name);
            let Some(hit) = words.first(&FOOD_WARE) else { continue };
            if words.first(&MARKED).is_none() && tool.note.as_deref().is_none_or(|note| Words::of(note).first(&MARKED).is_none()) {
                findings.push(
                    Finding::new(&FOOD_CONTAINER, tool.id_place.clone(), format!("‘{}’ holds what must not be eaten", words.text(&hit)))
                        .label("food ware")
                        .fix("take a lidded tray or can that is marked never for food again, and say so in its name")
                        .about(tool.id.clone()),
                );
            }
        }
    }
    for (_, procedure, scope) in every::procedures(context.manual) {
        procedure.steps.iter().for_each(|step| food(scope, procedure, step, findings));
    }
}

fn heavy(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let thing = moment.act.thing().filter(|_| matches!(moment.verb, Verb::Fit | Verb::DryFit | Verb::Remove))?;
    let part = scope.thing(|lists| &lists.parts, thing).filter(|_| thing.kind == ListKind::Parts)?;
    let mass = part.what.mass.case(&walk.combination)?;
    let (low, high) = mass.value.low_high();
    if high.or(low).is_none_or(|kilograms| kilograms <= ALONE_KG) || is_shared(Tongue::of(walk.manual), scope, moment.step) {
        return None;
    }
    Some(
        Finding::new(&LIFT, moment.act.place.clone(), format!("{} is lifted by one person", part.name))
            .label(mass.value.written().to_owned())
            .related(mass.place.clone(), "its mass")
            .figure(format!("more than {ALONE_KG:.0} kg take two people or a hoist (common practice)"))
            .fix("name the hoist in the step (tool:, kind: lifting), or say who helps: two people, one at each end")
            .about(thing.id.clone()),
    )
}

fn is_shared(tongue: Tongue, scope: Scope<'_>, step: &Step) -> bool {
    let lifting = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things).any(|thing| {
        scope.thing(|lists| &lists.tools, thing).is_some_and(|tool| tool.what.kind.as_deref() == Some("lifting"))
    });
    let english = [
        "two people", "two persons", "two of you", "both of you", "second person", "second pair of hands", "another pair of hands", "helper", "helpers", "helps",
        "three people", "four people", "with help", "hoist", "crane", "chain block", "lifting table", "engine lift", "team of two",
    ];
    let german = ["zu zweit", "zu dritt", "zu viert", "zwei personen", "zwei leute", "zwei mann", "zwei menschen", "drei personen", "vier personen", "helfer", "hilft mit", "hilft dir", "hilft ihm", "jemand hilft", "zweite person",
        "jemand zweit", "gemeinsam", "kran ", "krans ", "kräne", "flaschenzug", "kettenzug", "hebezeug", "hebetisch", "hubtisch", "hubwagen"];
    lifting || tongue.may_say(&words_of(step), Wanted { english: &english, german: &german })
}

fn spring(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let thing = moment.act.thing().filter(|_| matches!(moment.verb, Verb::Remove | Verb::Loosen))?;
    let springs: Vec<&Entry<Part>> = match thing.kind {
        ListKind::Parts => {
            let own = scope.thing(|lists| &lists.parts, thing).filter(|part| is_spring(part, &walk.combination) && !is_slack(walk, scope, part, at));
            own.into_iter().chain(springs_under(walk, scope, &thing.id, at)).collect()
        }
        ListKind::Fasteners => {
            let holds = scope.thing(|lists| &lists.fasteners, thing).map(|entry| entry.what.holds.as_slice()).unwrap_or_default();
            holds.iter().flat_map(|held| springs_under(walk, scope, &held.value, at)).collect()
        }
        _ => return None,
    };
    let spring = springs.first()?;
    let here = moment.step.acts.iter().position(|act| act.place == moment.act.place)?;
    if notices(moment.step).iter().filter(|notice| is_about_injury(notice)).any(|notice| notice.acts_before <= here) {
        return None;
    }
    Some(
        Finding::new(&STORED_ENERGY, moment.act.place.clone(), format!("{} is let go here, and no notice says so before", spring.name))
            .label("a spring pushes")
            .related(spring.id_place.clone(), "the spring")
            .fix("write a notice before the act: > **WARNING** what jumps, at whom, and how it is let down evenly")
            .about(spring.id.clone()),
    )
}

fn is_spring(part: &Entry<Part>, variant: &Combination) -> bool {
    part.what.kind.get(variant).is_some_and(|kind| kind == "spring")
}

/// Whether the part over a spring is off, so that nothing squeezes it.
fn is_slack(walk: &Walk<'_>, scope: Scope<'_>, spring: &Entry<Part>, at: usize) -> bool {
    let over = spring.what.under.get(&walk.combination).and_then(|over| scope.find(ListKind::Parts, over));
    over.is_some_and(|over| walk.state_before(&over, at).0 == State::Removed)
}

/// The springs that a part holds down, and that have not been taken out by then.
fn springs_under<'m>(walk: &Walk<'m>, scope: Scope<'m>, part: &str, at: usize) -> Vec<&'m Entry<Part>> {
    let held = |spring: &Entry<Part>| spring.what.under.get(&walk.combination).is_some_and(|under| under == part);
    let out = |spring: &Entry<Part>| scope.find(ListKind::Parts, &spring.id).is_some_and(|thing| walk.state_before(&thing, at).0 == State::Removed);
    let parts = scope.homes().flat_map(|(_, lists)| lists.parts.values());
    parts.filter(|spring| is_spring(spring, &walk.combination) && held(spring) && !out(spring) && !is_slack(walk, scope, spring, at)).collect()
}

/// The first fastener undone after a pressure test whose pressure nobody lets out.
fn pressure(walk: &Walk<'_>, at: usize, test: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(test.procedure);
    let entry = test.act.thing().filter(|_| test.verb == Verb::Test).and_then(|thing| scope.thing(|lists| &lists.tests, thing))?;
    entry.what.kind.get(&walk.combination).filter(|kind| *kind == "pressure")?;
    let undone = walk.moments.iter().skip(at + 1).find(|moment| {
        let fastener = moment.act.thing().is_some_and(|thing| thing.kind == ListKind::Fasteners);
        std::ptr::eq(moment.procedure, test.procedure) && fastener && matches!(moment.verb, Verb::Remove | Verb::Loosen)
    })?;
    let english = [
        "let the air out", "let the pressure out", "let it out", "let the pressure off", "let the pressure down", "air out", "pressure out", "pressure off", "vent", "vented", "vents",
        "release", "released", "bleed", "relieve", "relieved", "depressurise", "depressurize", "without pressure", "no pressure", "blow it off", "blow off",
    ];
    let german = ["druck raus", "druck heraus", "druck entlass", "druck entlad", "druck entweich", "druck entfern", "luft raus", "luft heraus", "ablassen", "abgelassen", "entlüft", "drucklos", "kein druck", "ohne druck", "entspann"];
    let wanted = Wanted { english: &english, german: &german };
    let tongue = Tongue::of(walk.manual);
    let from = test.step.number.min(undone.step.number);
    let between = test.procedure.steps.iter().filter(|step| step.number >= from && step.number <= undone.step.number);
    if between.into_iter().any(|step| tongue.may_say(&words_of(step), wanted)) {
        return None;
    }
    let thing: &ThingRef = undone.act.thing()?;
    let name = scope.head(thing).map_or(thing.id.as_str(), |head| head.name);
    Some(
        Finding::new(&STORED_ENERGY, undone.act.place.clone(), format!("{name} is undone here, and nobody has let the pressure out"))
            .label("under pressure")
            .related(test.act.place.clone(), format!("put under pressure: {}", test.words()))
            .fix("say before it that the pressure is let out, and how one sees it")
            .about(thing.id.clone()),
    )
}

const FOOD_WARE: [&str; 36] = [
    "jam jar", "jam jars", "biscuit tin", "biscuit box", "cake tin", "baking tray", "baking tin", "roasting tin", "lunch box", "lunchbox", "ice-cream tub", "ice cream tub",
    "margarine tub", "butter tub", "yoghurt pot", "drink bottle", "drinks bottle", "drinking bottle", "water bottle", "lemonade bottle", "milk bottle", "beer bottle", "wine bottle",
    "coffee tin", "coffee can", "coffee cup", "coffee mug", "mug", "teacup", "saucepan", "frying pan", "cooking pot", "salad bowl", "mixing bowl", "soup bowl", "food box",
];
const MARKED: [&str; 8] = ["never for food", "not for food", "never for food again", "never used for food", "no food", "marked", "labelled", "kept for the workshop"];
const FLUIDS: [&str; 17] = [
    "oil", "solvent", "degreaser", "fuel", "petrol", "gasoline", "diesel", "paraffin", "kerosene", "white spirit", "thinner", "coolant", "antifreeze", "brake fluid", "acid",
    "cleaner", "grease",
];

fn food(scope: Scope<'_>, procedure: &Procedure, step: &Step, findings: &mut Vec<Finding>) {
    let said = words_of(step);
    let words = Words::of(&said);
    if words.first(&FOOD_WARE).is_none() || words.first(&MARKED).is_some() {
        return;
    }
    let with_fluid = said.split(['.', '!', '?', ';']).any(|sentence| {
        let words = Words::of(sentence);
        words.first(&FOOD_WARE).is_some() && words.first(&FLUIDS).is_some()
    });
    let soaks = step.acts.iter().filter(|act| matches!(act.verb, Some(Verb::Begin | Verb::Fill))).any(|act| {
        let wait = act.thing().and_then(|thing| scope.thing(|lists| &lists.waits, thing));
        act.verb == Some(Verb::Fill) || wait.is_some_and(|wait| wait.what.medium.is_given())
    });
    if !with_fluid && !soaks {
        return;
    }
    let in_text = runs(&step.blocks).iter().find_map(|run| {
        let words = Words::of(run.text());
        let hit = words.first(&FOOD_WARE)?;
        Some((run.place(hit.start, hit.end)?, words.text(&hit).to_owned()))
    });
    let in_act = || {
        step.acts.iter().find_map(|act| {
            let words = Words::of(&act.words);
            words.first(&FOOD_WARE).map(|hit| (act.place.clone(), words.text(&hit).to_owned()))
        })
    };
    let Some((place, ware)) = in_text.or_else(in_act) else { return };
    findings.push(
        Finding::new(&FOOD_CONTAINER, place, format!("‘{ware}’ holds what must not be eaten"))
            .label("food ware")
            .fix("take a tray or can that is marked never for food again, and say so")
            .about(format!("{}#{}", procedure.id, step.id)),
    );
}
