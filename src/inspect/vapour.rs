//! Fire: solvent and fuel that stand open, and what lights their vapour.

use super::heat_work::{is_hot, sits_in};
use super::text::notices;
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Entry, ListKind, Material, Scope, Step, Tool, Verb};
use crate::source::{Block, Inline, each_inline};

/// A part is heated where solvent is.
pub(super) static HEAT_HAZARD: Rule = Rule {
    name: "heat-hazard",
    severity: Severity::Error,
    summary: "A part is heated with solvent or fuel on it, or over a flame with some open in the room.",
    explanation: Explanation {
        finds: "heat: of a part that solvent or fuel has been put on in the same session with no clean: of it since, or that is hot while some is put on; and heat: with a flame, torch or hot-air gun in its step after solvent or fuel was used in the same session. A wait in between, a stop for the day, or a notice in the step that speaks of solvent or vapour is enough.",
        matters: "What evaporates from a warm part is heavier than air, creeps along the bench, and finds the flame.",
        may_be_wrong: "Where the cleaner is on water and does not burn: base: water.",
        example: "[Wash the carrier](apply:degreaser@carrier). [Warm it](heat:warm-carrier)",
        instead: "[Wash the carrier](apply:degreaser@carrier), [wipe it dry](clean:carrier). [The vapour has gone](wait:airing). [Warm it](heat:warm-carrier)",
    },
};

/// Sparks or a flame come near solvent.
pub(super) static IGNITION_AND_VAPOUR: Rule = Rule {
    name: "ignition-and-vapour",
    severity: Severity::Error,
    summary: "A flame or sparks are made in a session in which solvent or fuel was used.",
    explanation: Explanation {
        finds: "tool: of a grinder, cutting wheel, welder, torch, flame or hot-air gun in a step after solvent or fuel was put on, poured, or stood open as a bath in the same session, with no wait: in between and no notice in the step that speaks of solvent, fuel or vapour.",
        matters: "The tray at the other end of the bench lights from one spark.",
        may_be_wrong: "Where it was done in another place: say so in a notice in the step. Where the cleaner is on water: base: water.",
        example: "[Wash the plates](apply:degreaser@plates). Take the [grinder](tool:bench-grinder) …",
        instead: "Grind first and wash afterwards; or [wait until the vapour has gone](wait:airing), tray closed and out of the room.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Heat => findings.extend(heated(walk, at, moment)),
                Verb::Apply => findings.extend(put_on_hot(walk, at, moment)),
                Verb::Tool => findings.extend(lit(walk, at, moment)),
                _ => {}
            }
        }
    });
}

/// The solvent or fuel that an act opens.
fn opens<'m>(walk: &Walk<'m>, moment: &Moment<'m>) -> Option<&'m Entry<Material>> {
    let scope = walk.scope(moment.procedure);
    let variant = &walk.combination;
    let material = match moment.verb {
        Verb::Apply => moment.act.material.as_ref().and_then(|material| scope.thing(|lists| &lists.materials, material)),
        Verb::Fill => {
            let fill = moment.act.thing().and_then(|thing| scope.thing(|lists| &lists.fills, thing));
            fill.and_then(|fill| fill.what.of.get(variant)).and_then(|id| scope.entry(|lists| &lists.materials, id))
        }
        Verb::Begin | Verb::Wait => bath(scope, moment.act, walk),
        _ => None,
    };
    material.filter(|material| burns(&material.what))
}

/// The bath that a wait stands in.
fn bath<'m>(scope: Scope<'m>, act: &Act, walk: &Walk<'m>) -> Option<&'m Entry<Material>> {
    let wait = act.thing().and_then(|thing| scope.thing(|lists| &lists.waits, thing))?;
    wait.what.medium.get(&walk.combination).and_then(|id| scope.entry(|lists| &lists.materials, id))
}

/// Whether a material gives off vapour that burns: a solvent or fuel, unless it is on water.
fn burns(material: &Material) -> bool {
    let on_water = material.base.as_deref().is_some_and(|base| Words::of(base).first(&["water", "aqueous", "water-based"]).is_some());
    matches!(material.kind.as_deref(), Some("solvent" | "fuel")) && !on_water
}

/// The last moment of the session before this one at which solvent or fuel was opened, and not aired by a wait since.
fn open_before<'w, 'm>(walk: &'w Walk<'m>, at: usize, moment: &Moment<'m>) -> Option<(&'w Moment<'m>, &'m Entry<Material>)> {
    for earlier in walk.moments.iter().take(at).rev().take_while(|earlier| earlier.session == moment.session) {
        if let Some(material) = opens(walk, earlier) {
            return Some((earlier, material));
        }
        if earlier.verb == Verb::Wait {
            return None;
        }
    }
    None
}

fn heated(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let heat = scope.thing(|lists| &lists.heats, moment.act.thing()?).filter(|heat| is_hot(heat, &walk.combination))?;
    let part = heat.what.of.get(&walk.combination)?;
    if let Some((wet, material)) = wet_part(walk, at, moment, part) {
        return Some(
            Finding::new(&HEAT_HAZARD, moment.act.place.clone(), format!("{} is on the part that is heated here", material.name))
                .label("its vapour burns")
                .related(wet.act.place.clone(), format!("put on: {}", wet.words()))
                .fix(format!("wipe the part dry (clean:{part}) and wait until the vapour has gone (waits: …), before it is heated"))
                .about(heat.id.clone()),
        );
    }
    let flame = tools(scope, moment.step).find(|tool| is_flame(tool))?;
    let (open, material) = open_before(walk, at, moment).filter(|_| !speaks_of_vapour(moment.step))?;
    Some(
        Finding::new(&HEAT_HAZARD, moment.act.place.clone(), format!("{} burns here, and {} was open in the same session", flame.name, material.name))
            .label("lights its vapour")
            .related(open.act.place.clone(), format!("{} is in use: {}", material.name, open.words()))
            .fix("let a wait lie between (waits: …), or say in a notice in this step where the solvent is carried to")
            .about(heat.id.clone()),
    )
}

/// When solvent was put on a part or on what sits in it, and neither wiped off nor aired since.
fn wet_part<'w, 'm>(walk: &'w Walk<'m>, at: usize, moment: &Moment<'m>, part: &str) -> Option<(&'w Moment<'m>, &'m Entry<Material>)> {
    let inside: Vec<&str> = walk.scope(moment.procedure).homes().flat_map(|(_, lists)| sits_in(lists, part, &walk.combination)).map(|(_, id)| id).collect();
    let on_it = |other: &Moment<'_>| other.act.things.iter().any(|thing| thing.id == part || inside.contains(&thing.id.as_str()));
    for earlier in walk.moments.iter().take(at).rev().take_while(|earlier| earlier.session == moment.session) {
        match earlier.verb {
            Verb::Wait => return None,
            Verb::Clean if on_it(earlier) => return None,
            Verb::Apply if on_it(earlier) => {
                if let Some(material) = opens(walk, earlier) {
                    return Some((earlier, material));
                }
            }
            _ => {}
        }
    }
    None
}

/// Solvent put on a part that is hot.
fn put_on_hot(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let material = opens(walk, moment)?;
    let on = moment.act.thing()?;
    let (hot, heat) = walk.moments.iter().enumerate().take(at).filter(|(_, earlier)| earlier.verb == Verb::Heat && earlier.session == moment.session).find_map(|(since, earlier)| {
        let thing = earlier.act.thing()?;
        let heat = walk.scope(earlier.procedure).thing(|lists| &lists.heats, thing).filter(|heat| is_hot(heat, &walk.combination))?;
        let on_it = heat.what.of.get(&walk.combination).is_some_and(|part| *part == on.id);
        let cooled = walk.moments.iter().take(at).skip(since).any(|later| later.verb == Verb::Cool && later.act.things.contains(thing));
        (on_it && !cooled).then_some((earlier, heat))
    })?;
    Some(
        Finding::new(&HEAT_HAZARD, moment.act.place.clone(), format!("{} goes on a part that is hot", material.name))
            .label("its vapour burns")
            .related(hot.act.place.clone(), format!("heated, and not cooled since: {}", hot.words()))
            .fix(format!("let it cool first: cool:{}", heat.id))
            .about(heat.id.clone()),
    )
}

fn lit(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let tool = scope.thing(|lists| &lists.tools, moment.act.thing()?).filter(|tool| is_flame(tool) || makes_sparks(tool))?;
    // What is heated in the step tells it itself.
    let heats = |act: &Act| {
        let heat = act.thing().filter(|_| act.verb == Some(Verb::Heat)).and_then(|thing| scope.thing(|lists| &lists.heats, thing));
        heat.is_some_and(|heat| is_hot(heat, &walk.combination))
    };
    if moment.step.acts.iter().any(heats) || speaks_of_vapour(moment.step) {
        return None;
    }
    let (open, material) = open_before(walk, at, moment)?;
    Some(
        Finding::new(&IGNITION_AND_VAPOUR, moment.act.place.clone(), format!("{} is in use here, and {} was open in the same session", tool.name, material.name))
            .label("lights its vapour")
            .related(open.act.place.clone(), format!("{} is in use: {}", material.name, open.words()))
            .fix("do this first; or let a wait lie between (waits: …); or say in a notice in this step where the solvent is carried to")
            .about(tool.id.clone()),
    )
}

fn tools<'m>(scope: Scope<'m>, step: &'m Step) -> impl Iterator<Item = &'m Entry<Tool>> {
    let acts = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool));
    acts.flat_map(|act| &act.things).filter(|thing| thing.kind == ListKind::Tools).filter_map(move |thing| scope.thing(|lists| &lists.tools, thing))
}

/// Whether a tool burns, or blows air as hot as a flame. A torch that is no heater is a lamp.
fn is_flame(tool: &Entry<Tool>) -> bool {
    let words = Words::of(&tool.name);
    let always = ["blowlamp", "blow lamp", "blowtorch", "blow torch", "gas torch", "welding torch", "heat gun", "hot-air", "hot air"];
    let heater = tool.what.kind.as_deref() == Some("heater");
    tool.what.kind.as_deref() != Some("protection") && (words.first(&always).is_some() || (heater && words.first(&["torch", "flame", "burner"]).is_some()))
}

fn makes_sparks(tool: &Entry<Tool>) -> bool {
    let sparks = ["grinder", "grinding wheel", "cut-off wheel", "cutting wheel", "cutting disc", "welder", "welding set", "abrasive saw"];
    tool.what.kind.as_deref() != Some("protection") && Words::of(&tool.name).first(&sparks).is_some()
}

/// Whether a notice of the step speaks of what burns: the author has thought of it.
fn speaks_of_vapour(step: &Step) -> bool {
    let vapour = ["solvent", "solvents", "degreaser", "cleaner", "fuel", "petrol", "gasoline", "vapour", "vapours", "vapor", "vapors", "fumes", "flammable"];
    notices(step).into_iter().any(|notice| Words::of(&said(&notice.blocks)).first(&vapour).is_some())
}

fn said(blocks: &[Block]) -> String {
    let mut words = String::new();
    each_inline(blocks, &mut |inline| match inline {
        Inline::Text(text, _) => words.push_str(text),
        Inline::SoftBreak | Inline::HardBreak => words.push(' '),
        _ => {}
    });
    words
}
