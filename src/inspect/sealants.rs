//! Sealants and gaskets: what goes on what, and what lies under a clamp.

use super::joints::is_gasket;
use super::sides::words_of;
use super::tongue::{Tongue, Wanted};
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, Entry, Fastener, ListKind, Material, Part, Procedure, Scope, Step, ThingRef, Verb};
use crate::trade::plastic::{ANAEROBIC_GAP_MM, is_plastic};
use std::collections::BTreeSet;

/// Something is put on a gasket that goes in dry.
pub(super) static SEALANT_ON_DRY_GASKET: Rule = Rule {
    name: "sealant-on-dry-gasket",
    severity: Severity::Warning,
    summary: "Something is put on a gasket that goes in dry.",
    explanation: Explanation {
        finds: "apply: of anything but a solvent on a gasket whose name or note says dry or coated, or that a step fits dry by its words; and a bead laid between parts that such a gasket is one of.",
        matters: "Sealant spoils the coating, and grease lets the gasket creep out of its joint.",
        may_be_wrong: "Where the maker wants a dab in a corner: write it in the gasket's note, and leave the word dry out.",
        example: "base-gasket: {kind: gasket, note: fitted dry}\n[Smear sealant on the gasket](apply:joint-sealant@base-gasket)",
        instead: "[Lay the gasket down dry](fit:base-gasket)",
    },
};

/// A sealant does not stand what it touches.
pub(super) static SEALANT_MEDIUM: Rule = Rule {
    name: "sealant-medium",
    severity: Severity::Warning,
    summary: "A sealant is used where it does not last or does not set.",
    explanation: Explanation {
        finds: "Sealants on silicone (base: silicone) in a joint whose bead or parts are named after fuel or a carburettor; and anaerobic ones (base: anaerobic) between parts of which one is of plastic (material:), or in a bead with a gap: wider than 0.25 mm. Common practice.",
        matters: "Silicone goes soft in fuel and comes off in strings that block the jet. An anaerobic sealant stays wet on plastic, and some plastics crack under it.",
        may_be_wrong: "Where the sealant's maker allows it: waive it with the data sheet as the reason.",
        example: "pump-bead: {of: silicone-sealant, between: [fuel-pump, block]}",
        instead: "pump-bead: {of: fuel-proof-sealant, …}, or a paper gasket",
    },
};

/// A coated part is clamped.
pub(super) static COATING_UNDER_CLAMP: Rule = Rule {
    name: "coating-under-clamp",
    severity: Severity::Note,
    summary: "A painted or coated part is clamped, and nobody says bare seats or a second check.",
    explanation: Explanation {
        finds: "Parts whose name, material or note says painted, lacquered, coated or powder-coated, or that come back from a vendor for that (away:), held by fasteners of role clamp, drive, cover or angle that a step tightens, with no word of masking, bare seats, scraping or checking again in their notes, in away: or in the steps that tighten them. Gaskets are silent.",
        matters: "Paint creeps under a bolt's head. The bolt is loose in a month, and looks as tight as on the first day.",
        may_be_wrong: "Where the coating is thin and hard, such as anodising: call it that.",
        example: "cover: {name: Powder-coated cover, kind: cover}",
        instead: "cover: {name: Powder-coated cover, kind: cover, note: seats of the bolts masked and bare}",
    },
};

/// There are fewer sealing washers than plugs.
pub(super) static SEALING_WASHER_COUNT: Rule = Rule {
    name: "sealing-washer-count",
    severity: Severity::Error,
    summary: "A procedure closes more plugs and unions than it has sealing washers for.",
    explanation: Explanation {
        finds: "Procedures that fit sealing washers, and tighten more plugs (role: plug) and banjo or union bolts than those are enough for: one a plug, two a banjo or union bolt. Plugs closed in a step that fits an O-ring or seal, or whose name or note says tapered or O-ring, are not counted.",
        matters: "A banjo takes two washers. The missing one is found by the drop on the floor.",
        may_be_wrong: "Where a plug seals on its thread or its own ring: say so in its note (tapered, O-ring).",
        example: "washer: {kind: sealing-washer, count: 1}, and two plugs tightened",
        instead: "washer: {kind: sealing-washer, count: 2}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for moment in walk.moments.iter().filter(|moment| moment.verb == Verb::Apply) {
            findings.extend(on_dry(walk, moment));
            findings.extend(unfit(walk, moment));
        }
        for procedure in &walk.machine.procedures {
            findings.extend(washers(walk, procedure));
        }
    });
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            for act in step.acts.iter().filter(|act| act.verb == Some(Verb::Torque)) {
                let Some(fastener) = act.thing().and_then(|thing| scope.thing(|lists| &lists.fasteners, thing)) else { continue };
                for held in &fastener.what.holds {
                    let Some(part) = scope.entry(|lists| &lists.parts, &held.value) else { continue };
                    if let Some(finding) = clamped(scope, procedure, act, fastener, part).filter(|_| !told.contains(&(machine.id.as_str(), part.id.as_str()))) {
                        told.insert((&machine.id, &part.id));
                        findings.push(finding);
                    }
                }
            }
        }
    }
}

fn says(text: &str, phrases: &[&str]) -> bool {
    Words::of(text).first(phrases).is_some()
}

/// Where a gasket is told to go in dry: its entry, or the words of a step that fits it.
fn dry<'m>(walk: &Walk<'m>, thing: &ThingRef, entry: &'m Entry<Part>) -> Option<(Place, &'static str)> {
    let coated = ["dry", "coated", "pre-coated"];
    if says(&entry.name, &coated) || entry.note.as_deref().is_some_and(|note| says(note, &coated) && !says(note, &["not dry", "never dry"])) {
        return Some((entry.id_place.clone(), "its entry says so"));
    }
    let fitted = walk.moments_of(thing).find(|(_, moment)| moment.verb == Verb::Fit && says(&moment.act.words, &["dry"]))?;
    Some((fitted.1.act.place.clone(), "fitted dry"))
}

fn on_dry(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let bead = moment.act.thing().filter(|thing| thing.kind == ListKind::Beads).and_then(|thing| scope.thing(|lists| &lists.beads, thing));
    let material = match bead {
        Some(bead) => scope.entry(|lists| &lists.materials, bead.what.of.get(&walk.combination)?)?,
        None => scope.thing(|lists| &lists.materials, moment.act.material.as_ref()?)?,
    };
    if material.what.kind.as_deref() == Some("solvent") {
        return None;
    }
    let on: Vec<ThingRef> = match bead {
        Some(bead) => bead.what.between.iter().filter_map(|part| scope.find(ListKind::Parts, &part.value)).collect(),
        None => moment.act.things.clone(),
    };
    on.iter().find_map(|thing| {
        let entry = scope.thing(|lists| &lists.parts, thing)?;
        entry.what.kind.get(&walk.combination).filter(|kind| *kind == "gasket")?;
        let (place, how) = dry(walk, thing, entry)?;
        Some(
            Finding::new(&SEALANT_ON_DRY_GASKET, moment.act.place.clone(), format!("{} goes in dry, and {} is put on it", entry.name, material.name))
                .label("nothing on it")
                .related(place, how)
                .fix("leave it off; or, where the maker wants it, take the word dry out of the list and the step")
                .about(thing.id.clone()),
        )
    })
}

const FUEL: [&str; 7] = ["fuel", "petrol", "gasoline", "carburettor", "carburetor", "float chamber", "float bowl"];

fn unfit(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let bead = moment.act.thing().filter(|thing| thing.kind == ListKind::Beads).and_then(|thing| scope.thing(|lists| &lists.beads, thing));
    let material: &Entry<Material> = match bead {
        Some(bead) => scope.entry(|lists| &lists.materials, bead.what.of.get(&walk.combination)?)?,
        None => scope.thing(|lists| &lists.materials, moment.act.material.as_ref()?)?,
    };
    let parts: Vec<&Entry<Part>> = match bead {
        Some(bead) => bead.what.between.iter().filter_map(|part| scope.entry(|lists| &lists.parts, &part.value)).collect(),
        None => moment.act.things.iter().filter(|thing| thing.kind == ListKind::Parts).filter_map(|thing| scope.thing(|lists| &lists.parts, thing)).collect(),
    };
    let base = material.what.base.as_deref().map(str::to_lowercase)?;
    if material.what.kind.as_deref() != Some("sealant") {
        return None;
    }
    let (place, message, label, why) = if says(&base, &["silicone"]) {
        let fuel = parts.iter().find(|part| says(&part.name, &FUEL)).map(|part| (part.id_place.clone(), part.name.as_str()));
        let (place, name) = fuel.or_else(|| bead.filter(|bead| says(&bead.name, &FUEL)).map(|bead| (bead.id_place.clone(), bead.name.as_str())))?;
        (place, format!("{} is on silicone, and {name} sees fuel", material.name), "goes soft in fuel", "silicone does not stand fuel (common practice)".to_owned())
    } else if says(&base, &["anaerobic"]) {
        let part = parts.iter().find(|part| part.what.material.get(&walk.combination).is_some_and(|material| is_plastic(material)));
        match part {
            Some(part) => (
                part.id_place.clone(),
                format!("{} is anaerobic, and {} is of plastic", material.name, part.name),
                "does not set there",
                "it sets between metal faces only, and some plastics crack under it (common practice)".to_owned(),
            ),
            None => {
                let gap = bead?.what.gap.case(&walk.combination)?;
                let (low, high) = gap.value.low_high();
                high.or(low).filter(|gap| *gap > ANAEROBIC_GAP_MM)?;
                (
                    gap.place.clone(),
                    format!("{} is anaerobic, and must fill a gap of {}", material.name, gap.value.written()),
                    "does not set through",
                    format!("it sets in gaps of up to {ANAEROBIC_GAP_MM} mm (common practice)"),
                )
            }
        }
    } else {
        return None;
    };
    Some(
        Finding::new(&SEALANT_MEDIUM, moment.act.place.clone(), message)
            .label(label)
            .related(place, "this one")
            .figure(why)
            .fix("take a sealant whose maker allows it, or a gasket")
            .about(bead.map_or(material.id.as_str(), |bead| bead.id.as_str())),
    )
}

fn clamped(scope: Scope<'_>, procedure: &Procedure, act: &Act, fastener: &Entry<Fastener>, part: &Entry<Part>) -> Option<Finding> {
    let clamps = fastener.what.role.first().is_some_and(|role| matches!(role.as_str(), "clamp" | "drive" | "cover" | "angle"));
    if !clamps || part.what.kind.first().is_some_and(|kind| is_gasket(kind)) {
        return None;
    }
    let coats = ["painted", "powder-coated", "powder coated", "coated", "lacquered", "enamelled", "varnished"];
    let material = part.what.material.first().map(String::as_str);
    let note = part.note.as_deref();
    let away = scope.homes().find_map(|(_, lists)| lists.away.get(&part.id));
    let because = away.and_then(|away| away.what.because.as_deref());
    let coating = ["painting", "powder-coating", "powder coating", "powder coat", "coating", "lacquering", "enamelling", "painted", "coated"];
    let is_coated = says(&part.name, &coats) || [material, note].into_iter().flatten().any(|text| says(text, &coats)) || because.is_some_and(|because| says(because, &coating));
    let thought_of = [
        "mask", "masked", "masking", "bare", "scrape", "scraped", "uncoated", "unpainted", "re-torque", "retorque", "re-check", "recheck", "check again", "checked again",
        "tighten again", "tightened again", "free of paint",
    ];
    let on_return = away.into_iter().flat_map(|away| &away.what.on_return).map(|spot| spot.value.as_str());
    let told = [note, fastener.note.as_deref(), because, material].into_iter().flatten().chain([part.name.as_str()]).chain(on_return).any(|text| says(text, &thought_of));
    let turns = |step: &&Step| step.acts.iter().any(|other| other.things.iter().any(|thing| thing.id == fastener.id || thing.id == part.id));
    if !is_coated || told || procedure.steps.iter().filter(turns).any(|step| says(&words_of(step), &thought_of)) {
        return None;
    }
    Some(
        Finding::new(&COATING_UNDER_CLAMP, part.id_place.clone(), format!("{} is coated, and {} clamps it", part.name, fastener.name))
            .label("paint creeps under a bolt's head")
            .related(act.place.clone(), "tightened here")
            .fix("say in its note that the seats are masked and bare, or in a step when the bolts are checked again")
            .about(part.id.clone()),
    )
}

/// Plugs and unions that a procedure closes, against the sealing washers it fits.
fn washers(walk: &Walk<'_>, procedure: &Procedure) -> Option<Finding> {
    let scope = walk.scope(procedure);
    let variant = &walk.combination;
    let moments: Vec<&Moment<'_>> = walk.moments.iter().filter(|moment| std::ptr::eq(moment.procedure, procedure)).collect();
    let mut in_hand = 0_u64;
    let mut washer: Option<&Entry<Part>> = None;
    let mut seen: BTreeSet<&ThingRef> = BTreeSet::new();
    for moment in moments.iter().filter(|moment| moment.verb == Verb::Fit) {
        let Some(thing) = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts) else { continue };
        let Some(entry) = scope.thing(|lists| &lists.parts, thing) else { continue };
        if entry.what.kind.get(variant).is_some_and(|kind| kind == "sealing-washer") && seen.insert(thing) {
            let count = entry.what.new.get(variant).or_else(|| entry.what.count.get(variant)).copied().unwrap_or(1);
            in_hand = in_hand.saturating_add(count);
            washer.get_or_insert(entry);
        }
    }
    let washer = washer?;
    let mut needed = 0_u64;
    let mut closed: Vec<(String, u64, &Act)> = Vec::new();
    let mut told: BTreeSet<&ThingRef> = BTreeSet::new();
    for moment in moments.iter().filter(|moment| moment.verb == Verb::Torque) {
        let Some(thing) = moment.act.thing() else { continue };
        let Some(entry) = scope.thing(|lists| &lists.fasteners, thing).filter(|_| !walk.machine.may_mean(&thing.id)) else { continue };
        let each = washers_of(scope, moment.step, entry, walk);
        if each > 0 && told.insert(thing) {
            let all = entry.what.count.get(variant).copied().unwrap_or(1).saturating_mul(each);
            needed = needed.saturating_add(all);
            closed.push((entry.name.clone(), all, moment.act));
        }
    }
    let last = closed.last()?.2;
    (needed > in_hand).then(|| {
        let list: Vec<String> = closed.iter().map(|(name, all, _)| format!("{name} {all}")).collect();
        Finding::new(&SEALING_WASHER_COUNT, washer.id_place.clone(), format!("{}: {needed} needed, {in_hand} listed", washer.name))
            .label(format!("{} short", needed - in_hand))
            .related(last.place.clone(), "the last one closed")
            .figure(format!("one a plug, two a banjo or union bolt: {}", list.join(", ")))
            .fix(format!("list as many as are needed (count: {needed}) and fit each; or say in the plug's note that it is tapered or has an O-ring"))
            .about(washer.id.clone())
    })
}

/// The sealing washers one fastener takes.
fn washers_of(scope: Scope<'_>, step: &Step, entry: &Entry<Fastener>, walk: &Walk<'_>) -> u64 {
    let ring = |act: &Act| {
        let thing = act.thing().filter(|_| act.verb == Some(Verb::Fit));
        thing.is_some_and(|thing| {
            let kind = scope.thing(|lists| &lists.parts, thing).filter(|_| thing.kind == ListKind::Parts).and_then(|part| part.what.kind.get(&walk.combination));
            thing.kind == ListKind::Seals || kind.is_some_and(|kind| kind == "o-ring")
        })
    };
    let own = ["tapered", "taper", "o-ring", "own ring", "own washer", "captive", "spark"];
    let german = ["kegel", "konisch", "eigenem ring", "eigenem dichtring", "unverlierbar", "zündkerze"];
    let told = |text: &str| says(text, &own) || Tongue::of(walk.manual).may_say(text, Wanted { english: &[], german: &german });
    let sealed = told(&entry.name) || entry.note.as_deref().is_some_and(told);
    if sealed || step.acts.iter().any(ring) {
        return 0;
    }
    if says(&entry.name, &["banjo", "union"]) {
        return 2;
    }
    u64::from(entry.what.role.get(&walk.combination).is_some_and(|role| role == "plug"))
}
