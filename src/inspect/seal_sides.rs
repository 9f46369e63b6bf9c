//! Seals on their shafts: the spring looks at the medium it must hold, and two seals back to back hold two media.

use super::Context;
use super::every;
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Faces, ListKind, MEDIA, Scope, Seal, Shaft, Spot};

/// A seal's spring looks at the wrong medium.
pub(super) static SPRING_SIDE_WRONG_MEDIUM: Rule = Rule {
    name: "spring-side-wrong-medium",
    severity: Severity::Error,
    summary: "A seal's spring looks at the wrong medium.",
    explanation: Explanation {
        finds: "Seals on a shaft (shafts:) whose spring side, or back, looks at a medium that does not lie beside that seal there, or whose spring side looks at air while a liquid or grease lies on the other side. Seals with pair: purge are exempt.",
        matters: "The lip holds what its spring side looks at. Turned round, it lets the oil out and lifts under pressure.",
        may_be_wrong: "Where a lip shall let grease past: write pair: purge. A lip that only keeps dust out has no spring: name its lip (faces: {lip: air}).",
        example: "shafts: {drum: [winch-oil, drum-seal, air]}, and drum-seal: {faces: {spring: air, back: winch-oil}}",
        instead: "drum-seal: {faces: {spring: winch-oil, back: air}}",
    },
};

/// Two seals in a row look the same way.
pub(super) static DOUBLE_SEAL_PAIR: Rule = Rule {
    name: "double-seal-pair",
    severity: Severity::Error,
    summary: "Of two seals in a row, one looks away from the medium it must hold.",
    explanation: Explanation {
        finds: "Two seals on a shaft with only grease or air between them and a liquid on each outer side, of which one has its spring towards the gap. Seals with pair: purge are exempt.",
        matters: "Both turned to the oil, nothing keeps the water out: it stands in the bearing by the end of the season.",
        may_be_wrong: "Where both seals shall hold the same side, or grease is pressed through: write pair: purge at both.",
        example: "propeller-shaft: [gear-oil, inner, grease, outer, water], and outer: {faces: {spring: grease, back: water}}",
        instead: "outer: {faces: {spring: water, back: grease}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for shaft in lists.shafts.values() {
            findings.extend(along(scope, shaft));
        }
    }
}

/// A seal as it sits on a shaft: the media beside it, from left to right.
struct Sitting<'a> {
    at: usize,
    seal: &'a Entry<Seal>,
    left: Option<&'a str>,
    right: Option<&'a str>,
}

fn along(scope: Scope<'_>, shaft: &Entry<Shaft>) -> Vec<Finding> {
    let sits = &shaft.what.sits;
    let seals: Vec<Sitting<'_>> = sits.iter().enumerate().filter_map(|(at, spot)| sitting(scope, sits, at, spot)).collect();
    let mut told: Vec<&str> = Vec::new();
    let mut findings: Vec<Finding> = Vec::new();
    for pair in seals.windows(2) {
        let [one, other] = pair else { continue };
        if let Some((id, finding)) = pair_fault(scope, sits, one, other).filter(|(id, _)| !told.contains(id)) {
            told.push(id);
            findings.push(finding);
        }
    }
    // A seal that is wrong in its pair is told once.
    let alone = seals.iter().filter(|sitting| !told.contains(&sitting.seal.id.as_str()));
    findings.extend(alone.filter_map(|sitting| side_fault(scope, sits, sitting)));
    findings
}

fn sitting<'a>(scope: Scope<'a>, sits: &'a [Spot<String>], at: usize, spot: &'a Spot<String>) -> Option<Sitting<'a>> {
    // A seal of another procedure of the machine may sit on a shared shaft.
    let elsewhere = || scope.machine.into_iter().flat_map(|machine| &machine.procedures).find_map(|procedure| procedure.lists.seals.get(&spot.value));
    let seal = scope.entry(|lists| &lists.seals, &spot.value).or_else(elsewhere)?;
    let beside = |spots: &mut dyn Iterator<Item = &'a Spot<String>>| -> Option<&'a str> {
        for spot in spots {
            if is_medium(scope, &spot.value) {
                return Some(&spot.value);
            }
            // Behind the next seal lies another room; a bearing or a part lets the medium through.
            if scope.find(ListKind::Seals, &spot.value).is_some() {
                return None;
            }
        }
        None
    };
    let left = beside(&mut sits.iter().take(at).rev());
    let right = beside(&mut sits.iter().skip(at + 1));
    Some(Sitting { at, seal, left, right })
}

pub(super) fn is_medium(scope: Scope<'_>, id: &str) -> bool {
    MEDIA.contains(&id) || scope.find(ListKind::Materials, id).is_some()
}

/// What runs out if nothing holds it: anything but air.
fn runs(medium: &str) -> bool {
    !matches!(medium, "air" | "exhaust")
}

/// Water, oil and other liquids; not grease.
pub(super) fn is_liquid(scope: Scope<'_>, medium: &str) -> bool {
    let kind = scope.entry(|lists| &lists.materials, medium).and_then(|material| material.what.kind.as_deref());
    runs(medium) && !matches!(kind, Some("grease" | "anti-seize"))
}

/// What a feature of a seal looks at in one of its cases.
fn looks_at<'a>(case: &'a Case<Faces>, feature: &str) -> Option<&'a Spot<String>> {
    match &case.value {
        Faces::Either => None,
        Faces::Toward(features) => features.iter().find(|(name, _)| name == feature).map(|(_, of)| of),
    }
}

fn is_purge(seal: &Entry<Seal>, when: &Combination) -> bool {
    seal.what.pair.cases_within(when).any(|case| case.value == "purge")
}

fn pair_fault<'a>(scope: Scope<'_>, sits: &[Spot<String>], one: &Sitting<'a>, other: &Sitting<'a>) -> Option<(&'a str, Finding)> {
    let gap: Vec<&str> = sits.get(one.at + 1..other.at)?.iter().map(|spot| spot.value.as_str()).filter(|id| is_medium(scope, id)).collect();
    let (outer_left, outer_right) = (one.left?, other.right?);
    let two_rooms = is_liquid(scope, outer_left) && is_liquid(scope, outer_right) && gap.iter().all(|id| !is_liquid(scope, id));
    if !two_rooms {
        return None;
    }
    [(one, outer_left), (other, outer_right)].into_iter().find_map(|(sitting, outer)| {
        let wrong = sitting.seal.what.faces.cases.iter().find_map(|case| {
            let spring = looks_at(case, "spring")?;
            (spring.value != outer && !is_purge(sitting.seal, &case.when)).then_some((case, spring))
        });
        let (_, spring) = wrong?;
        let finding = Finding::new(&DOUBLE_SEAL_PAIR, spring.place.clone(), format!("{} looks away from the {outer} it must hold", sitting.seal.name))
            .label(format!("towards {}", spring.value))
            .figure(row(sits));
        let finding = place_of(sits, sitting.at).map_or(finding.clone(), |place| finding.related(place, "its place on the shaft"));
        Some((
            sitting.seal.id.as_str(),
            finding.fix(format!("turn it: spring: {outer}; or write pair: purge where grease shall pass")).about(format!("{}.faces", sitting.seal.id)),
        ))
    })
}

fn side_fault(scope: Scope<'_>, sits: &[Spot<String>], sitting: &Sitting<'_>) -> Option<Finding> {
    let (left, right) = (sitting.left?, sitting.right?);
    sitting.seal.what.faces.cases.iter().filter(|case| !is_purge(sitting.seal, &case.when)).find_map(|case| {
        let stranger = ["spring", "lip", "back"].into_iter().find_map(|feature| {
            let of = looks_at(case, feature)?;
            (is_medium(scope, &of.value) && of.value != left && of.value != right).then(|| {
                (of, format!("the {feature} of {} looks at {}, which does not lie beside it", sitting.seal.name, of.value))
            })
        });
        let spring = looks_at(case, "spring");
        let turned = || {
            let spring = spring?;
            let across = if spring.value == left { right } else { left };
            (!runs(&spring.value) && runs(across)).then(|| (spring, format!("the spring of {} looks at {}, and {across} lies on its other side", sitting.seal.name, spring.value)))
        };
        let both = || {
            let (spring, back) = (spring?, looks_at(case, "back")?);
            (spring.value == back.value && left != right).then(|| (back, format!("spring and back of {} look at the same medium", sitting.seal.name)))
        };
        let (of, message) = stranger.or_else(turned).or_else(both)?;
        let held = [left, right].into_iter().find(|medium| is_liquid(scope, medium)).or_else(|| [left, right].into_iter().find(|medium| runs(medium)))?;
        let back = if held == left { right } else { left };
        let finding = Finding::new(&SPRING_SIDE_WRONG_MEDIUM, of.place.clone(), message).label(format!("between {left} and {right}")).figure(row(sits));
        let finding = place_of(sits, sitting.at).map_or(finding.clone(), |place| finding.related(place, "its place on the shaft"));
        Some(finding.fix(format!("the spring looks at what must be held: faces: {{spring: {held}, back: {back}}}")).about(format!("{}.faces", sitting.seal.id)))
    })
}

fn place_of(sits: &[Spot<String>], at: usize) -> Option<Place> {
    sits.get(at).map(|spot| spot.place.clone())
}

fn row(sits: &[Spot<String>]) -> String {
    let ids: Vec<&str> = sits.iter().map(|spot| spot.value.as_str()).collect();
    format!("along the shaft: {}", ids.join(" | "))
}
