//! What the drawings of shafts, packs and single parts show: taken from the model, with the catalogue's words.

use super::drawings::{Named, SIDES};
use super::drawn_once::{Wanted, drawn};
use super::sheet_line::capitalised;
use super::site::Scene;
use super::values::glued;
use super::words::Arg;
use crate::figure::orientation::{Look, Orientation};
use crate::figure::plate_pack::{self, PlateKind, PlatePack};
use crate::figure::sections::{Mark, Shape, Side};
use crate::figure::shaft_stack::{ShaftStack, Sitting};
use crate::manual::{Act, Bearing, Entry, Faces, List, ListKind, Lists, MEDIA, Part, Seal, Shaft, Spot, Stack, ThingRef, Varied, Verb};
use crate::quantity::{Quantity, Unit};

/// The shafts that something sits on which this act fits.
pub(super) fn shafts(scene: &Scene<'_>, act: &Act) -> Vec<Named> {
    let Some(thing) = fitted(act) else { return Vec::new() };
    on_shafts(scene, thing)
        .into_iter()
        .filter_map(|shaft| {
            let drawing = drawn(Wanted::Shaft(stack_of(scene, shaft)))?;
            Some((format!("shaft.{}", shaft.id), drawing))
        })
        .collect()
}

/// The pack of plates that this act fits, or one of its plates.
pub(super) fn pack(scene: &Scene<'_>, act: &Act) -> Vec<Named> {
    let Some(thing) = fitted(act) else { return Vec::new() };
    let stacks = scene.scope().homes().flat_map(|(_, lists)| lists.stacks.values());
    stacks
        .filter(|stack| stack.only.agrees_with(scene.known))
        .filter(|stack| match thing.kind {
            ListKind::Stacks => stack.id == thing.id,
            _ => stack.what.of.iter().any(|of| of.value == thing.id),
        })
        .filter_map(|stack| Some((format!("pack.{}", stack.id), drawn(Wanted::Pack(pack_of(scene, stack)?))?)))
        .collect()
}

/// Which way round the part or bearing goes in that this act fits; a seal, where no shaft shows it.
pub(super) fn orientation(scene: &Scene<'_>, act: &Act) -> Option<Named> {
    let thing = fitted(act)?;
    let scope = scene.scope();
    let (name, faces) = match thing.kind {
        ListKind::Parts => scope.thing(|l| &l.parts, thing).map(|e| (&e.name, &e.what.faces))?,
        ListKind::Bearings => scope.thing(|l| &l.bearings, thing).map(|e| (&e.name, &e.what.faces))?,
        ListKind::Seals if on_shafts(scene, thing).is_empty() => scope.thing(|l| &l.seals, thing).map(|e| (&e.name, &e.what.faces))?,
        _ => return None,
    };
    let Some(Faces::Toward(features)) = faces.get(scene.known) else { return None };
    let row = on_shafts(scene, thing).into_iter().next();
    let mut sides = sides_alone(row.map(|shaft| shaft.what.sits.as_slice()), &thing.id, features);
    // What lies under another has it above, and is drawn so.
    let over = scope.thing(|l| &l.parts, thing).and_then(|part| part.what.under.get(scene.known)).filter(|_| row.is_none() && thing.kind == ListKind::Parts);
    let above = sides.iter().find(|(_, aim, _)| Some(aim) == over).and_then(|(_, _, side)| *side);
    if above == Some(Side::Right) {
        sides.iter_mut().for_each(|(_, _, side)| *side = side.map(Side::other));
    }
    let shape = match thing.kind {
        ListKind::Parts => scope.thing(|l| &l.parts, thing).map(|e| part_shape(scene, &e.what, &sides))?,
        ListKind::Bearings => scope.thing(|l| &l.bearings, thing).map(|e| bearing_shape(e, &sides))?,
        _ => scope.thing(|l| &l.seals, thing).map(|e| seal_shape(scene, &e.what, &sides))?,
    };
    let look = |side: Side| {
        sides.iter().find(|(_, _, known)| *known == Some(side)).map(|(feature, toward, _)| Look {
            feature: scene.site.words.of("feature", feature),
            toward: scene.say("drawing-toward", &[("toward", Arg::Text(&scene.named(toward)))]),
        })
    };
    let faces = scene.faces_text(faces).unwrap_or_default();
    let drawing = drawn(Wanted::Orientation(Orientation {
        title: scene.say("drawing-orientation", &[("name", Arg::Text(name))]),
        description: scene.say("drawing-orientation-text", &[("name", Arg::Text(name)), ("faces", Arg::Text(&faces))]),
        shape,
        is_flat: above.is_some(),
        left: look(Side::Left),
        right: look(Side::Right),
    }))?;
    Some((format!("{SIDES}{}", thing.id), drawing))
}

fn fitted(act: &Act) -> Option<&ThingRef> {
    act.thing().filter(|_| matches!(act.verb, Some(Verb::Fit | Verb::DryFit)))
}

/// The shafts on which a thing sits.
fn on_shafts<'s>(scene: &Scene<'s>, thing: &ThingRef) -> Vec<&'s Entry<Shaft>> {
    if !matches!(thing.kind, ListKind::Seals | ListKind::Bearings | ListKind::Parts) {
        return Vec::new();
    }
    let shafts = scene.scope().homes().flat_map(|(_, lists)| lists.shafts.values());
    shafts
        .filter(|shaft| shaft.only.agrees_with(scene.known))
        .filter(|shaft| shaft.what.sits.iter().any(|spot| spot.value == thing.id))
        .collect()
}

/// An entry in scope, or in another procedure of the machine: a shared shaft holds what several procedures fit.
pub(super) fn anywhere<'s, T: 's>(scene: &Scene<'s>, list: impl Fn(&'s Lists) -> &'s List<T> + Copy, id: &str) -> Option<&'s Entry<T>> {
    let elsewhere = || scene.machine.procedures.iter().find_map(|procedure| list(&procedure.lists).get(id));
    scene.scope().entry(list, id).or_else(elsewhere)
}

fn stack_of(scene: &Scene<'_>, shaft: &Entry<Shaft>) -> ShaftStack {
    let sits = &shaft.what.sits;
    let mut drawn = Vec::new();
    let mut told = Vec::new();
    for (at, spot) in sits.iter().enumerate() {
        if let Some(sitting) = sitting(scene, sits, at, spot) {
            told.push(match &sitting {
                Sitting::Medium { name, .. } => name.clone(),
                Sitting::Thing { words, .. } => words.clone(),
            });
            drawn.push(sitting);
        }
    }
    let name = if shaft.name == shaft.id { shaft.id.replace('-', " ") } else { shaft.name.clone() };
    let name = capitalised(&name);
    ShaftStack {
        title: scene.say("drawing-shaft", &[("name", Arg::Text(&name))]),
        description: scene.say("drawing-shaft-text", &[("name", Arg::Text(&name)), ("sits", Arg::Text(&told.join("; ")))]),
        sits: drawn,
    }
}

/// What sits at a place of a shaft; none where it does not exist in this variant.
fn sitting(scene: &Scene<'_>, sits: &[Spot<String>], at: usize, spot: &Spot<String>) -> Option<Sitting> {
    let id = spot.value.as_str();
    if let Some(seal) = anywhere(scene, |l| &l.seals, id) {
        let sides = sides_in_row(sits, at, faces_of(scene, &seal.what.faces), |id| anywhere(scene, |l| &l.seals, id).is_some());
        return seal.only.agrees_with(scene.known).then(|| thing(scene, &seal.name, &seal.what.faces, seal_shape(scene, &seal.what, &sides)));
    }
    if let Some(bearing) = anywhere(scene, |l| &l.bearings, id) {
        let sides = sides_in_row(sits, at, faces_of(scene, &bearing.what.faces), |_| false);
        return bearing.only.agrees_with(scene.known).then(|| thing(scene, &bearing.name, &bearing.what.faces, bearing_shape(bearing, &sides)));
    }
    if let Some(part) = anywhere(scene, |l| &l.parts, id) {
        let sides = sides_in_row(sits, at, faces_of(scene, &part.what.faces), |_| false);
        return part.only.agrees_with(scene.known).then(|| thing(scene, &part.name, &part.what.faces, part_shape(scene, &part.what, &sides)));
    }
    let known = MEDIA.contains(&id) || scene.scope().find(ListKind::Materials, id).is_some();
    let name = scene.named(id);
    // What is not known at all keeps its place: a ring of that name.
    Some(if known {
        Sitting::Medium { name, runs: !matches!(id, "air" | "exhaust") }
    } else {
        Sitting::Thing { words: name, shape: Shape::Ring(None) }
    })
}

fn thing(scene: &Scene<'_>, name: &str, faces: &Varied<Faces>, shape: Shape) -> Sitting {
    let words = match scene.faces_text(faces) {
        Some(faces) => scene.say("drawing-item", &[("name", Arg::Text(name)), ("faces", Arg::Text(&faces))]),
        None => name.to_owned(),
    };
    Sitting::Thing { words, shape }
}

fn faces_of<'f>(scene: &Scene<'_>, faces: &'f Varied<Faces>) -> &'f [(String, Spot<String>)] {
    match faces.get(scene.known) {
        Some(Faces::Toward(features)) => features,
        _ => &[],
    }
}

/// A feature, what it looks at, and on which side that is.
type FeatureSide = (String, String, Option<Side>);

/// On which side of a place in a row each feature's aim lies: the nearer one where it is there twice, and none where
/// both are as near. `ends` says which things end a room: a seal does not look past the next seal.
fn sides_in_row(sits: &[Spot<String>], at: usize, features: &[(String, Spot<String>)], ends: impl Fn(&str) -> bool) -> Vec<FeatureSide> {
    let distance = |spots: &mut dyn Iterator<Item = &Spot<String>>, aim: &str| -> Option<usize> {
        for (steps, spot) in spots.enumerate() {
            if spot.value == aim {
                return Some(steps);
            }
            if ends(&spot.value) {
                return None;
            }
        }
        None
    };
    features
        .iter()
        .map(|(feature, aim)| {
            let left = distance(&mut sits.iter().take(at).rev(), &aim.value);
            let right = distance(&mut sits.iter().skip(at + 1), &aim.value);
            let side = match (left, right) {
                (Some(left), Some(right)) if left == right => None,
                (Some(left), Some(right)) => Some(if left < right { Side::Left } else { Side::Right }),
                (Some(_), None) => Some(Side::Left),
                (None, Some(_)) => Some(Side::Right),
                (None, None) => None,
            };
            (feature.clone(), aim.value.clone(), side)
        })
        .collect()
}

/// The sides for a drawing of one thing: as in its row where the row tells; the first to the left, another to the
/// right where there is none.
fn sides_alone(row: Option<&[Spot<String>]>, id: &str, features: &[(String, Spot<String>)]) -> Vec<FeatureSide> {
    let at = row.and_then(|row| row.iter().position(|spot| spot.value == id));
    let mut sides = match (row, at) {
        (Some(row), Some(at)) => sides_in_row(row, at, features, |_| false),
        _ => features.iter().map(|(feature, aim)| (feature.clone(), aim.value.clone(), None)).collect(),
    };
    for index in 0..sides.len() {
        if sides.get(index).is_some_and(|(_, _, side)| side.is_none()) {
            let taken = |side: Side| sides.iter().any(|(_, _, known)| *known == Some(side));
            let free = [Side::Left, Side::Right].into_iter().find(|side| !taken(*side));
            sides.get_mut(index).into_iter().for_each(|entry| entry.2 = free);
        }
    }
    sides
}

fn side(sides: &[FeatureSide], is: impl Fn(&str) -> bool) -> Option<Side> {
    sides.iter().find(|(feature, _, _)| is(feature)).and_then(|(_, _, side)| *side)
}

/// The seal as it is turned; only its box where its faces contradict each other or the row.
fn seal_shape(scene: &Scene<'_>, seal: &Seal, sides: &[FeatureSide]) -> Shape {
    let kind = seal.kind.get(scene.known).map(String::as_str);
    if kind == Some("o-ring") {
        return Shape::ORing;
    }
    let (spring, back, lip) = (side(sides, |f| f == "spring"), side(sides, |f| f == "back"), side(sides, |f| f == "lip"));
    let has_spring = sides.iter().any(|(feature, _, _)| feature == "spring");
    match (spring, back, lip) {
        (Some(spring), Some(back), _) if spring == back => Shape::Seal,
        (Some(spring), _, _) => Shape::SpringSeal(spring),
        (None, Some(back), None) if !has_spring => Shape::SpringSeal(back.other()),
        (None, back, Some(lip)) if !has_spring && back != Some(lip) => Shape::LipSeal(lip),
        _ => Shape::Seal,
    }
}

fn bearing_shape(bearing: &Entry<Bearing>, sides: &[FeatureSide]) -> Shape {
    let large = side(sides, |f| f == "large-end").or_else(|| side(sides, |f| f == "small-end").map(Side::other));
    match large {
        Some(large) if bearing.name.to_lowercase().contains("taper") || sides.iter().any(|(f, _, _)| f.ends_with("-end")) => {
            Shape::TaperBearing(large)
        }
        _ => Shape::BallBearing(marked(sides)),
    }
}

fn part_shape(scene: &Scene<'_>, part: &Part, sides: &[FeatureSide]) -> Shape {
    let either = matches!(part.faces.get(scene.known), Some(Faces::Either));
    match part.kind.get(scene.known).map(String::as_str) {
        Some("circlip") => match side(sides, |f| f.starts_with("sharp")).or_else(|| side(sides, |f| f.starts_with("round")).map(Side::other)) {
            Some(sharp) => Shape::Circlip(Some(sharp)),
            None if either => Shape::Circlip(None),
            None => Shape::Ring(marked(sides)),
        },
        Some("dished-washer") => match side(sides, |f| f.starts_with("hollow")) {
            Some(hollow) => Shape::DishedWasher(hollow),
            None => Shape::Ring(marked(sides)),
        },
        // A bevel gear's teeth end small at its nose or toe, and large at its back or heel (common practice).
        Some("gear") => match side(sides, |f| matches!(f, "nose" | "toe" | "small-end")) {
            Some(small) => Shape::BevelGear(small),
            None => Shape::Gear(marked(sides)),
        },
        Some("o-ring") => Shape::ORing,
        _ => Shape::Ring(marked(sides)),
    }
}

/// The feature that is drawn: one that has a form of its own before one that is merely a face.
fn marked(sides: &[FeatureSide]) -> Option<(Mark, Side)> {
    let mut marks = sides.iter().filter_map(|(feature, _, side)| side.map(|side| (Mark::of(feature), side)));
    let first = marks.next()?;
    Some(std::iter::once(first).chain(marks).find(|(mark, _)| *mark != Mark::Face).unwrap_or(first))
}

fn pack_of(scene: &Scene<'_>, stack: &Entry<Stack>) -> Option<PlatePack> {
    let known = scene.known;
    let of = &stack.what.of;
    let parts: Vec<&Entry<Part>> = of.iter().map(|of| anywhere(scene, |l| &l.parts, &of.value)).collect::<Option<_>>()?;
    let counts: Vec<u64> = parts.iter().map(|part| part.what.count.get(known).copied()).collect::<Option<_>>()?;
    let place = |end: &Varied<String>| end.get(known).and_then(|id| of.iter().position(|of| of.value == *id));
    let order = plate_pack::in_turn(&counts, place(&stack.what.begin)?, place(&stack.what.end)?)?;
    let kinds = parts.iter().zip(&counts).map(|(part, count)| plate_kind(scene, part, *count)).collect();
    let name_of = |kind: Option<&usize>| kind.and_then(|kind| parts.get(*kind)).map_or("", |part| part.name.as_str());
    let told: Vec<String> = order.iter().enumerate().map(|(at, kind)| format!("{} {}", at + 1, name_of(Some(kind)))).collect();
    let measures = scene.scope().homes().flat_map(|(_, lists)| lists.measures.values());
    let mut heights = measures
        .filter(|measure| measure.only.agrees_with(known) && measure.what.of.get(known) == Some(&stack.id))
        .filter_map(|measure| measure.what.spec.get(known));
    Some(PlatePack {
        title: scene.say("drawing-pack", &[("name", Arg::Text(&stack.name))]),
        description: scene.say(
            "drawing-pack-text",
            &[("count", Arg::Count(super::rows::count(order.len()))), ("order", Arg::Text(&told.join(", ")))],
        ),
        first: scene.say("drawing-pack-first", &[("name", Arg::Text(name_of(order.first())))]),
        last: scene.say("drawing-pack-last", &[("name", Arg::Text(name_of(order.last())))]),
        height: heights.next().map(|height| glued(height.written())),
        kinds,
        order,
    })
}

fn plate_kind(scene: &Scene<'_>, part: &Entry<Part>, count: u64) -> PlateKind {
    let thickness = part.what.thickness.get(scene.known);
    let words = [Some(scene.say("count", &[("count", Arg::Count(count))])), Some(part.name.clone()), thickness.map(|t| glued(t.written()))];
    PlateKind { words: words.into_iter().flatten().collect::<Vec<_>>().join(" "), thickness: thickness.and_then(millimetres) }
}

/// A length as one number: its nominal value, or the middle of its limits.
fn millimetres(length: &Quantity) -> Option<f64> {
    let (low, high) = length.in_unit(Unit::find("mm")?)?;
    match (low, high) {
        (Some(low), Some(high)) => Some(f64::midpoint(low, high)),
        (one, other) => one.or(other),
    }
}
