//! How a seal goes in: size, depth, grease on its lip, a sleeve over what would cut it.

use super::measures::short;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Bearing, Entry, Faces, ListKind, Lists, Scope, Seal, ThingRef, Verb};
use crate::trade::seal::{Medium, Rubber, Verdict};
use std::collections::BTreeSet;

/// A seal has no depth, or covers a vent.
pub(super) static SEAL_DEPTH_OR_VENT: Rule = Rule {
    name: "seal-depth-or-vent",
    severity: Severity::Warning,
    summary: "A seal has no depth, or covers a vent.",
    explanation: Explanation {
        finds: "Shaft seals that a step fits without depth:, and seals whose width, from depth: inwards, lies over vent:.",
        matters: "Pressed in to the stop, a seal blocks the drain that should show that it leaks, or runs on the groove of the old one.",
        may_be_wrong: "Where the seal sits on a shoulder: give the depth of that shoulder.",
        example: "carrier-outer: {size: 30x42x8 mm, depth: 6 mm, vent: 12 mm}",
        instead: "carrier-outer: {size: 30x42x8 mm, depth: 0 mm, vent: 12 mm}",
    },
};

/// A seal's lip runs dry.
pub(super) static SEAL_LUBE: Rule = Rule {
    name: "seal-lube",
    severity: Severity::Warning,
    summary: "A seal's lip goes on dry, or with something it does not stand.",
    explanation: Explanation {
        finds: "Shaft seals that a step fits, that have no lip: and that nothing is put on (apply:) before; and, as an error, seals whose rubber (NBR, HNBR, ACM, EPDM, silicone, FKM: names of ISO 1629) does not stand what is on their lip or what they look at: EPDM anything on a mineral base or petrol, silicone petrol and silicone grease, ACM petrol and water, all but EPDM and silicone glycol brake fluid (common practice). An oil or grease whose base: nobody states is not judged.",
        matters: "The first turns burn the edge off a dry lip: it leaks from the first day.",
        may_be_wrong: "Seals that must run in dry, as some of PTFE: write type: ptfe-lip.",
        example: "drum-seal: {type: rotary-lip, …}\n[Press the seal in](fit:drum-seal)",
        instead: "drum-seal: {type: rotary-lip, lip: grease, …}\n[Grease the lip](apply:grease@drum-seal), [press the seal in](fit:drum-seal)",
    },
};

/// A lip passes an edge without a sleeve.
pub(super) static LIP_OVER_EDGE: Rule = Rule {
    name: "lip-over-edge",
    severity: Severity::Warning,
    summary: "A seal's lip passes an edge without a sleeve.",
    explanation: Explanation {
        finds: "Seals with over: (splines, a keyway, a thread, a groove) and no sleeve:; and seals whose sleeve is in use (tool:) in no step of the machine.",
        matters: "A spline cuts a nick into the lip that nobody sees until oil drips from it.",
        may_be_wrong: "Where tape does the work: list the tape as a tool of kind sleeve.",
        example: "drum-seal: {over: splines}",
        instead: "drum-seal: {over: splines, sleeve: spline-sleeve}   and [sleeve](tool:spline-sleeve) in the step",
    },
};

/// A seal or bearing does not fit what it sits on or in.
pub(super) static SEAL_SIZE_MISMATCH: Rule = Rule {
    name: "seal-size-mismatch",
    severity: Severity::Error,
    summary: "A seal or bearing does not have the size of its shaft or bore.",
    explanation: Explanation {
        finds: "Seals and bearings whose inside diameter is not smaller than the outside one, bearings whose fit: names a bore or shaft more than 0.3 mm from the bearing's own, and seals of type rotary-lip whose shaft: lies more than 0.3 mm, or bore: more than 0.05 mm, from their size, shaft × bore × width (ISO 6194-1). As a note: two seals, or a seal and a bearing, beside each other in a row (shafts:), with at most grease or air between, that differ inside, where none of them names its shaft.",
        matters: "A seal two millimetres too small goes on, once, and leaks; a bearing two millimetres too small stays in the box while the housing cools.",
        may_be_wrong: "Where a bush lies between: give the diameter the bearing itself sits on or in.",
        example: "carrier-bearing: {size: 30x62x16 mm, fit: {bore: 60 mm}}   drum-seal: {size: 42x62x8 mm, shaft: 45 mm}",
        instead: "carrier-bearing: {size: 30x62x16 mm, fit: {bore: 62 mm}}   drum-seal: {size: 45x62x8 mm, shaft: 45 mm}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.seals.values() {
            findings.extend(vent_covered(entry));
            findings.extend(upside_down(&entry.name, &entry.id, entry.what.size.cases.first().map(|case| (case.value.millimetres(), &case.place))));
            findings.extend(swelling(scope, entry));
            findings.extend(no_sleeve(entry));
        }
        for entry in lists.bearings.values() {
            findings.extend(upside_down(&entry.name, &entry.id, entry.what.size.cases.first().map(|case| (case.value.millimetres(), &case.place))));
            findings.extend(wrong_fit(entry));
        }
    }
    for machine in &context.manual.machines {
        let mut told: BTreeSet<ThingRef> = BTreeSet::new();
        let mut greased: BTreeSet<ThingRef> = BTreeSet::new();
        let tools: BTreeSet<&str> = machine
            .procedures
            .iter()
            .flat_map(|procedure| procedure.steps.iter().flat_map(|step| &step.acts))
            .filter(|act| act.verb == Some(Verb::Tool))
            .flat_map(|act| act.things.iter().map(|thing| thing.id.as_str()))
            .collect();
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            for act in procedure.steps.iter().flat_map(|step| &step.acts) {
                if act.verb == Some(Verb::Apply) {
                    greased.extend(act.things.iter().cloned());
                }
                let Some(thing) = act.thing().filter(|thing| act.verb == Some(Verb::Fit) && thing.kind == ListKind::Seals) else { continue };
                let Some((lists, entry)) = scope.lists_of(thing).and_then(|lists| Some((lists, lists.seals.get(&thing.id)?))) else { continue };
                if told.insert(thing.clone()) {
                    let found = [no_depth(lists, entry), dry(lists, entry, greased.contains(thing)), sleeve_unused(entry, &tools)];
                    findings.extend(found.into_iter().flatten().map(|finding| finding.related(act.place.clone(), "goes in here")));
                }
            }
        }
    }
}

/// A seal whose lip runs on a shaft. Rings that lie still, and kinds nobody knows, have no lip.
pub(super) fn runs_on_a_shaft(seal: &Seal) -> bool {
    seal.kind.first().is_some_and(|kind| kind == "rotary-lip")
}

fn no_depth(lists: &Lists, entry: &Entry<Seal>) -> Option<Finding> {
    let silent = !entry.what.depth.is_given() && !lists.is_unreadable(ListKind::Seals, &entry.id, "depth");
    // Where it sits is only asked once somebody has begun to say it.
    let placed = entry.what.within.is_given() || entry.what.vent.is_given();
    (runs_on_a_shaft(&entry.what) && silent && placed).then(|| {
        Finding::new(&SEAL_DEPTH_OR_VENT, entry.id_place.clone(), format!("{} goes in, and nobody says how deep", entry.name))
            .label("no depth")
            .fix("give depth: from the face of the part, 0 mm where it ends level with it")
            .about(format!("{}.depth", entry.id))
    })
}

fn vent_covered(entry: &Entry<Seal>) -> Option<Finding> {
    let depth = entry.what.depth.cases.first()?;
    let vent = entry.what.vent.cases.iter().find(|vent| vent.when.agrees_with(&depth.when))?;
    let width = entry.what.size.first()?.millimetres().last().copied()?;
    let (from, at) = (depth.value.nominal()?, vent.value.nominal()?);
    (from < at && at < from + width).then(|| {
        Finding::new(&SEAL_DEPTH_OR_VENT, depth.place.clone(), format!("{} covers its vent", entry.name))
            .label("too deep, or not deep enough")
            .related(vent.place.clone(), "the vent")
            .figure(format!("{} mm wide from {} mm, it covers {} to {} mm; the vent opens at {} mm", short(width), short(from), short(from), short(from + width), short(at)))
            .fix("correct the depth, the size or the place of the vent")
            .about(format!("{}.depth", entry.id))
    })
}

fn dry(lists: &Lists, entry: &Entry<Seal>, greased: bool) -> Option<Finding> {
    let said = greased || entry.what.lip.is_given() || lists.is_unreadable(ListKind::Seals, &entry.id, "lip");
    (runs_on_a_shaft(&entry.what) && !said).then(|| {
        Finding::new(&SEAL_LUBE, entry.id_place.clone(), format!("{} goes in with a dry lip", entry.name))
            .label("nothing on the lip")
            .fix(format!("list lip: grease, and put it on before the seal goes in: [Grease the lip](apply:grease@{})", entry.id))
            .about(format!("{}.lip", entry.id))
    })
}

/// A seal whose rubber does not stand what its lip is greased with, or what it looks at.
fn swelling(scope: Scope<'_>, entry: &Entry<Seal>) -> Option<Finding> {
    entry.what.material.cases.iter().find_map(|case| {
        let rubber = Rubber::find(&case.value)?;
        let lip = entry.what.lip.cases_within(&case.when).map(|lip| (lip.value.as_str(), &lip.place, "lip"));
        let faces = entry.what.faces.cases_within(&case.when).filter_map(|faces| match &faces.value {
            Faces::Toward(features) => Some(features),
            Faces::Either => None,
        });
        let sides = faces.flatten().map(|(_, of)| (of.value.as_str(), &of.place, "faces"));
        lip.chain(sides).find_map(|(id, place, field)| {
            let (medium, name) = touched(scope, id)?;
            (rubber.against(medium) == Verdict::Unfit).then(|| {
                Finding::new(&SEAL_LUBE, place.clone(), format!("{} does not stand {name}", entry.name))
                    .severity(Severity::Error)
                    .label("swells, hardens or falls apart")
                    .related(case.place.clone(), "its rubber")
                    .figure(format!("{} (ISO 1629) does not stand {} (common practice)", case.value, medium_words(medium)))
                    .fix("take another lubricant or another rubber, as the maker of the seal has it")
                    .about(format!("{}.{field}", entry.id))
            })
        })
    })
}

/// What a seal touches under an id, where its nature is certain: an oil or grease by its base, which a list must state.
fn touched<'a>(scope: Scope<'a>, id: &'a str) -> Option<(Medium, &'a str)> {
    let Some(material) = scope.entry(|lists| &lists.materials, id) else {
        return matches!(id, "fuel" | "water").then(|| Medium::find(id, None)).flatten().map(|medium| (medium, id));
    };
    let (kind, base) = (material.what.kind.as_deref()?, material.what.base.as_deref());
    let name = material.name.to_lowercase();
    let is_brake_fluid = name.contains("brake fluid") && !["mineral", "silicone"].iter().any(|other| name.contains(other));
    let medium = match (kind, base) {
        ("fuel", _) => Medium::find(kind, None),
        ("oil" | "grease", Some(base)) => Medium::find(kind, Some(base)),
        ("other" | "oil", None | Some("glycol")) if is_brake_fluid => Some(Medium::BrakeFluid),
        _ => None,
    };
    medium.map(|medium| (medium, material.name.as_str()))
}

fn medium_words(medium: Medium) -> &'static str {
    match medium {
        Medium::MineralOil | Medium::MineralGrease => "anything on a mineral base",
        Medium::SiliconeGrease => "silicone grease",
        Medium::Fuel => "petrol and its like",
        Medium::BrakeFluid => "glycol brake fluid",
        Medium::Water => "water for long",
        _ => "it",
    }
}

fn no_sleeve(entry: &Entry<Seal>) -> Option<Finding> {
    let over = entry.what.over.cases.iter().find(|over| over.value != "nothing" && entry.what.sleeve.cases_within(&over.when).next().is_none())?;
    Some(
        Finding::new(&LIP_OVER_EDGE, over.place.clone(), format!("the lip of {} passes the {} bare", entry.name, over.value))
            .label("no sleeve")
            .fix("name what protects it: sleeve: (a tool of kind sleeve), and use it in the step")
            .about(format!("{}.sleeve", entry.id)),
    )
}

fn sleeve_unused(entry: &Entry<Seal>, tools: &BTreeSet<&str>) -> Option<Finding> {
    let over = entry.what.over.first()?;
    let sleeve = entry.what.sleeve.cases.iter().find(|sleeve| !tools.contains(sleeve.value.as_str()))?;
    Some(
        Finding::new(&LIP_OVER_EDGE, sleeve.place.clone(), format!("the sleeve of {} is in use in no step", entry.name))
            .label("never picked up")
            .figure(format!("its lip passes the {over}"))
            .fix(format!("use it where the seal passes: [sleeve](tool:{})", sleeve.value))
            .about(format!("{}.sleeve", entry.id)),
    )
}

fn upside_down(name: &str, id: &str, size: Option<(Vec<f64>, &Place)>) -> Option<Finding> {
    let (lengths, place) = size?;
    let [inside, outside, _] = lengths.as_slice() else { return None };
    (inside >= outside).then(|| {
        Finding::new(&SEAL_SIZE_MISMATCH, place.clone(), format!("{name} is wider inside than outside"))
            .label("inside × outside × width")
            .fix("write inside diameter, outside diameter, width: 30x42x7 mm")
            .about(format!("{id}.size"))
    })
}

fn wrong_fit(entry: &Entry<Bearing>) -> Option<Finding> {
    let size = entry.what.size.first()?.millimetres();
    entry.what.fit.cases.iter().find_map(|case| {
        let pairs = [(case.value.bore.as_ref(), size.get(1), "bore", "outside diameter"), (case.value.shaft.as_ref(), size.first(), "shaft", "bore")];
        pairs.into_iter().find_map(|(written, of, what, own)| {
            let (written, of) = (written?, *of?);
            let known = written.nominal()?;
            let slipped = [25.4, 1.0 / 25.4].iter().any(|factor| (known * factor / of - 1.0).abs() < 0.01);
            // A factor of 25.4 is another rule's.
            ((known - of).abs() > 0.3 && !slipped).then(|| {
                Finding::new(&SEAL_SIZE_MISMATCH, case.place.clone(), format!("{} does not fit its {what}", entry.name))
                    .label(format!("{what} {}", written.written()))
                    .figure(format!("the bearing's {own} is {} mm", short(of)))
                    .fix("measure again, and correct the size or the fit")
                    .about(format!("{}.fit", entry.id))
            })
        })
    })
}
