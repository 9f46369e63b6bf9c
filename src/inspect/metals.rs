//! Metals that eat each other in the wet: stainless bolts in light metal, copper, brass and bronze on it.

use super::Context;
use super::locker_work::material;
use super::walk::{Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, Combination, Entry, Faces, Home, ListKind, Lists, Machine, Manual, Material, Part, ThingRef, Varied, Verb};
use crate::trade::galvanic::{MOST_IN_SALT_V, MOST_OUTDOORS_V, Metal, apart_v, metal};
use crate::trade::locker::is_inactive;
use std::collections::BTreeSet;

/// Two metals that make a battery in the wet.
pub(super) static DISSIMILAR_METAL: Rule = Rule {
    name: "dissimilar-metal",
    severity: Severity::Warning,
    summary: "Stainless steel goes bare into a light metal on a machine that works in water, or copper, brass or bronze lies bare on one.",
    explanation: Explanation {
        finds: "Stainless fasteners (classes A1 to A5 of ISO 3506) with into: aluminium or magnesium whose torque is for dry or as-supplied threads and on which no act puts paste, grease, locker or sealant, on machines where something looks at water (faces:, shafts:). And parts whose material: is copper, brass or bronze, without paste, grease or sealant on them, that a fastener clamps (holds:) whose thread is in magnesium, or on such a machine in aluminium, and that sit in: a part of magnesium there. The figure is the difference of their anodic indices (engineering texts after MIL-STD-889, from memory): 0.25 V does outdoors, 0.15 V in salt.",
        matters: "In the wet the two make a battery, and the light metal is what it eats: the bolt never comes out again, the seat leaks.",
        may_be_wrong: "Where oil or a seal keeps the joint dry for good, or a barrier is on it as supplied: say so (material: tin-plated copper) or waive it.",
        example: "carrier-bolt: {class: A4-80, into: aluminium, threads: dry}   on an outboard",
        instead: "carrier-bolt: {class: A4-80, into: aluminium, threads: anti-seize}   with the torque for such threads, and [paste on](apply:marine-paste@carrier-bolt)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        if works_in_water(walk.machine) {
            bare_stainless(walk, findings);
        }
    });
    for machine in &context.manual.machines {
        let (in_water, barred) = (works_in_water(machine), barred(context.manual, machine));
        // What a part may lie against is what can name it: of a procedure's own part that procedure and the machine.
        let own = machine.procedures.iter().map(|procedure| (Home::Procedure(procedure.id.clone()), &procedure.lists, vec![&procedure.lists, &machine.lists]));
        let all = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]).collect();
        for (home, lists, beside) in own.chain([(Home::Machine, &machine.lists, all)]) {
            let is_barred = |id: &str| barred.contains(&ThingRef { kind: ListKind::Parts, home: home.clone(), id: id.to_owned() });
            findings.extend(lists.parts.values().filter(|entry| !is_barred(&entry.id)).filter_map(|entry| on_light_metal(entry, &beside, in_water)));
        }
    }
}

/// Whether something on the machine looks at water.
fn works_in_water(machine: &Machine) -> bool {
    let toward_water = |faces: &Varied<Faces>| {
        faces.cases.iter().any(|case| matches!(&case.value, Faces::Toward(toward) if toward.iter().any(|(_, spot)| spot.value == "water")))
    };
    let mut lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
    lists.any(|lists| {
        lists.shafts.values().any(|shaft| shaft.what.sits.iter().any(|spot| spot.value == "water"))
            || lists.seals.values().any(|seal| toward_water(&seal.what.faces))
            || lists.bearings.values().any(|bearing| toward_water(&bearing.what.faces))
            || lists.parts.values().any(|part| toward_water(&part.what.faces))
    })
}

fn bare_stainless(walk: &Walk<'_>, findings: &mut Vec<Finding>) {
    for (thing, _, at) in walk.ends().filter(|(thing, state, _)| thing.kind == ListKind::Fasteners && state.holds()) {
        let Some(moment) = walk.moments.get(at) else { continue };
        let scope = walk.scope(moment.procedure);
        let Some(entry) = scope.thing(|lists| &lists.fasteners, thing).filter(|entry| !entry.what.temporary) else { continue };
        let (fastener, variant) = (&entry.what, &walk.combination);
        let (Some(class), Some(into)) = (fastener.class.case(variant), fastener.into.case(variant)) else { continue };
        let Some(threads) = fastener.threads.case(variant) else { continue };
        let barrier = walk.moments_of(thing).any(|(_, moment)| moment.verb == Verb::Apply && keeps_apart(material(walk, moment)));
        let bare = matches!(threads.value.as_str(), "dry" | "as-supplied") && !barrier && fastener.locker.get(variant).is_none();
        if bare && is_inactive(&class.value, &into.value) && !walk.machine.may_mean(&thing.id) {
            findings.push(
                Finding::new(&DISSIMILAR_METAL, class.place.clone(), format!("{} is stainless, and goes bare into {} on a machine that works in water", entry.name, into.value))
                    .label("eats the thread it sits in")
                    .figures(metal("stainless steel").and_then(|noble| difference(noble, &into.value)))
                    .related(into.place.clone(), format!("into {}", into.value))
                    .related(threads.place.clone(), "nothing on its thread")
                    .fix(format!("put barrier paste on (apply:PASTE@{}), with threads: anti-seize and the torque for such threads", thing.id))
                    .about(format!("{}.threads", entry.id)),
            );
        }
    }
}

/// Whether what is put on stays between two metals: what only cleans does not.
fn keeps_apart(material: Option<&Entry<Material>>) -> bool {
    !matches!(material.and_then(|material| material.what.kind.as_deref()), Some("solvent" | "primer"))
}

/// What paste, grease, sealant or the like is put on somewhere.
fn barred<'a>(manual: &'a Manual, machine: &'a Machine) -> BTreeSet<&'a ThingRef> {
    let acts = machine.procedures.iter().flat_map(|procedure| procedure.steps.iter().flat_map(move |step| step.acts.iter().map(move |act| (procedure, act))));
    let material = |procedure, act: &Act| act.material.as_ref().and_then(|material| manual.scope(machine, procedure).thing(|lists| &lists.materials, material));
    acts.filter(|(procedure, act)| act.verb == Some(Verb::Apply) && keeps_apart(material(procedure, act))).flat_map(|(_, act)| &act.things).collect()
}

/// A bare part of copper, brass or bronze that a light metal lies against.
fn on_light_metal(entry: &Entry<Part>, lists: &[&Lists], in_water: bool) -> Option<Finding> {
    entry.what.material.cases.iter().filter(|_| !entry.what.temporary).find_map(|own| {
        let noble = metal(&own.value).filter(|metal| matches!(metal.name, "copper" | "brass or bronze"))?;
        let (light, place) = beside(entry, &own.when, lists, in_water)?;
        Some(
            Finding::new(&DISSIMILAR_METAL, own.place.clone(), format!("{} is {}, and lies bare on {light}", entry.name, own.value))
                .label("eats what it lies on, in the wet")
                .figures(difference(noble, light))
                .related(place.clone(), light.to_owned())
                .fix(format!("take what the maker gives here: aluminium or fibre; or say what keeps the wet out: apply:PASTE@{}, or material: tin-plated {}", entry.id, own.value))
                .about(format!("{}.material", entry.id)),
        )
    })
}

/// The light metal that a part is clamped on or sits in, and where that stands.
fn beside<'a>(entry: &Entry<Part>, when: &Combination, lists: &[&'a Lists], in_water: bool) -> Option<(&'a str, &'a Place)> {
    let clamped = lists.iter().flat_map(|lists| lists.fasteners.values()).filter(|bolt| bolt.what.holds.iter().any(|held| held.value == entry.id));
    let threads = clamped.flat_map(|bolt| &bolt.what.into.cases).filter(|into| into.when.agrees_with(when));
    let found = threads.map(|into| (into.value.as_str(), &into.place)).find(|(into, _)| *into == "magnesium" || (in_water && *into == "aluminium"));
    found.or_else(|| {
        let homes = entry.what.within.cases.iter().filter(|_| in_water).filter(|home| home.when.agrees_with(when));
        let mut around = homes.flat_map(|home| lists.iter().filter_map(|lists| lists.parts.get(&home.value)));
        around.find_map(|home| home.what.material.cases.iter().find(|case| case.when.agrees_with(when) && metal(&case.value).is_some_and(|metal| metal.name == "magnesium")).map(|case| ("magnesium", &case.place)))
    })
}

/// How far two metals stand apart, in a reader's words.
fn difference(noble: &Metal, light: &str) -> Option<String> {
    let volts = apart_v(noble, metal(light)?);
    Some(format!("{} and {light} are {volts:.2} V apart (anodic index); {MOST_OUTDOORS_V:.2} V does outdoors, {MOST_IN_SALT_V:.2} V in salt", noble.name))
}
