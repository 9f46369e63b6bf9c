//! What the drawings of tightening, heated fits and alignments show: taken from the model, with the catalogue's words.

use super::drawings::Named;
use super::drawn_once::{Drawn, Wanted, drawn};
use super::sheet_line::capitalised;
use super::site::Scene;
use super::tightening::Order;
use super::values::{Line, glued, torque_beside};
use super::words::Arg;
use crate::figure::alignment::{Alignment, AlignmentWords, Side};
use crate::figure::heated_fit::{Changed, FitWords, HeatedFit, Joint};
use crate::figure::tightening_order::OrderWords;
use crate::figure::torque_stages::{Stage, StageEnd, StageWords, TorqueStages};
use crate::figure::turning_sense::{Sense, TurningSense};
use crate::figure::wrench_adapter::{WrenchAdapter, WrenchWords};
use crate::manual::{Act, Bearing, Entry, Fastener, Heat, Layout, ListKind, Verb};
use crate::quantity::{Dimension, Quantity, Rounding, Unit};
use crate::trade::arc;
use crate::trade::fit::{Interference, Metal, Warmed};
use std::rc::Rc;

/// The order, the wrench and the stages of a group that this act tightens.
pub(super) fn tightening(scene: &Scene<'_>, act: &Act) -> Vec<Named> {
    let thing = act.thing().filter(|thing| act.verb == Some(Verb::Torque) && thing.kind == ListKind::Fasteners);
    // A later stage goes the same way round as the first.
    let thing = thing.filter(|_| act.stage.is_none_or(|stage| stage == 1));
    let Some(entry) = thing.and_then(|thing| scene.scope().thing(|l| &l.fasteners, thing)) else { return Vec::new() };
    // On paper the grid of boxes has the stages.
    let stages = (!scene.at_bench).then(|| stages(scene, entry)).flatten();
    [order(scene, entry), adapter(scene, entry), stages].into_iter().flatten().collect()
}

/// Which way a left-hand thread is turned by this act.
pub(super) fn left_hand(scene: &Scene<'_>, act: &Act) -> Option<Named> {
    let (way, sense) = match act.verb? {
        Verb::Start | Verb::Torque => ("drawing-left-tighten", Sense::Anticlockwise),
        Verb::Loosen | Verb::Remove => ("drawing-left-loosen", Sense::Clockwise),
        _ => return None,
    };
    let thing = act.thing().filter(|thing| thing.kind == ListKind::Fasteners)?;
    let entry = scene.scope().thing(|l| &l.fasteners, thing)?;
    entry.what.thread.get(scene.known).filter(|thread| thread.left_hand)?;
    let words = scene.site.say(way);
    let drawing = drawn(Wanted::Sense(TurningSense {
        title: scene.say("drawing-left", &[("name", Arg::Text(&entry.name))]),
        description: scene.say("drawing-left-text", &[("name", Arg::Text(&entry.name)), ("words", Arg::Text(&words))]),
        sense,
        words,
    }))?;
    Some((format!("{}.{}", if sense == Sense::Clockwise { "left-out" } else { "left-in" }, entry.id), drawing))
}

/// The order of a group that is tightened, where its places are known and can be told apart on the paper.
pub(super) fn order(scene: &Scene<'_>, entry: &Entry<Fastener>) -> Option<Named> {
    entry.what.layout.get(scene.known)?;
    // On paper the grid beside it has the stages.
    let lines = if scene.at_bench { Vec::new() } else { scene.torque_lines(&entry.what, None) };
    let several: &[Line] = if lines.len() > 1 { &lines } else { &[] };
    // `stage 1 20 N·m` would be misread.
    let stage = |line: &Line| match &line.label {
        Some(label) => scene.say("drawing-order-stage", &[("stage", Arg::Text(label)), ("value", Arg::Text(&line.main))]),
        None => line.main.clone(),
    };
    let drawing = turns(scene, entry, &scene.orders(&entry.what), ["drawing-order", "drawing-order-turn"], several.iter().map(stage).collect())?;
    Some((format!("order.{}", entry.id), drawing))
}

/// The order in which this act brings a group loose: the numbers of its line are the positions here.
pub(super) fn loosening(scene: &Scene<'_>, act: &Act) -> Option<Named> {
    let thing = act.thing().filter(|thing| thing.kind == ListKind::Fasteners)?;
    let entry = scene.scope().thing(|l| &l.fasteners, thing)?;
    let drawing = turns(scene, entry, &scene.loosening(act, &entry.what), ["drawing-loosen", "drawing-loosen-turn"], Vec::new())?;
    Some((format!("loosen.{}", entry.id), drawing))
}

/// The positions of a group with their turns; `says` are the messages of title and turns.
fn turns(scene: &Scene<'_>, entry: &Entry<Fastener>, orders: &[Order], says: [&str; 2], stages: Vec<String>) -> Option<Rc<Drawn>> {
    let layout = entry.what.layout.get(scene.known)?;
    // On a drawing everything is known: one order.
    let [Order { positions, .. }] = orders else { return None };
    let order: Vec<usize> = positions.iter().map(|position| usize::try_from(*position).ok()).collect::<Option<_>>()?;
    let turn: Vec<String> = positions.iter().map(u64::to_string).collect();
    let how = match layout {
        Layout::Circle(_) => "drawing-order-circle",
        Layout::Rows(_) => "drawing-order-rows",
        Layout::At(_) => "drawing-order-places",
    };
    let [title, in_turn] = says;
    let places = scene.say(how, &[("count", Arg::Count(super::rows::count(order.len())))]);
    let mut description = format!("{places} {}", scene.say(in_turn, &[("order", Arg::Text(&turn.join(", ")))]));
    if !stages.is_empty() {
        description = format!("{description} {}", scene.say("drawing-order-stages", &[("stages", Arg::Text(&stages.join(", ")))]));
    }
    let edges = scene.edges(&entry.what);
    for told in scene.edge_words(&edges) {
        description = format!("{description} {told}");
    }
    let words = OrderWords {
        edges: edges.words,
        title: scene.say(title, &[("name", Arg::Text(&entry.name))]),
        description,
        legend: scene.site.say("drawing-order-legend"),
        legend_of_turns: scene.site.say("drawing-order-legend-turns"),
        stages,
    };
    drawn(Wanted::Order { words, order, layout: layout.for_trade() })
}

fn adapter(scene: &Scene<'_>, entry: &Entry<Fastener>) -> Option<Named> {
    let setting = scene.setting(&entry.what)?;
    let angle_deg = setting.reckoned.angle_deg;
    let angle = entry.what.adapter.get(scene.known)?.angle.as_ref().map_or_else(|| "0°".to_owned(), |angle| glued(angle.written()));
    let (length, adapter) = (glued(setting.length.written()), glued(setting.adapter.written()));
    let set: Vec<String> = setting
        .set
        .iter()
        .zip(&setting.torques)
        .map(|(set, torque)| scene.say("drawing-adapter-set", &[("set", Arg::Text(set)), ("torque", Arg::Text(torque))]))
        .collect();
    let sizes = [("name", Arg::Text(&entry.name)), ("length", Arg::Text(&length)), ("adapter", Arg::Text(&adapter)), ("angle", Arg::Text(&angle))];
    let words = WrenchWords {
        title: scene.say("drawing-adapter", &sizes),
        description: format!("{} {}.", scene.say("drawing-adapter-text", &sizes), capitalised(&set.join("; "))),
        length: format!("L\u{a0}{length}"),
        adapter: format!("E\u{a0}{adapter}"),
        angle: angle.clone(),
        formula: scene.say("drawing-adapter-formula", &sizes),
        not_to_scale: scene.site.say("drawing-not-to-scale"),
        set,
    };
    let drawing = drawn(Wanted::Adapter(WrenchAdapter { length_mm: setting.length_mm, adapter_mm: setting.reckoned.length_mm, angle_deg, words }))?;
    Some((format!("wrench.{}", entry.id), drawing))
}

fn stages(scene: &Scene<'_>, entry: &Entry<Fastener>) -> Option<Named> {
    let torque = entry.what.torque.get(scene.known)?;
    let quantities = torque.stages();
    let units = scene.torque_units(&entry.what);
    let stages: Vec<Stage> = quantities
        .iter()
        .enumerate()
        .map(|(index, quantity)| {
            // The figures of the act's own line: each stage in the marks of the wrench that sets it.
            let stage = (quantities.len() > 1).then(|| super::rows::count(index + 1));
            let line = line_text(&torque_beside(quantity, scene.scale_for(&entry.what, torque, stage), &units));
            // The author's other unit stands in the list.
            let value = glued(quantity.written().split(" (").next().unwrap_or(""));
            let (to, key) = match quantity.dimension() {
                Dimension::Angle => (StageEnd::Angle(middle(quantity)?), "drawing-stages-angle"),
                _ => (StageEnd::Torque(middle(quantity)?), "drawing-stages-torque"),
            };
            Some(Stage { to, value, line: scene.say(key, &[("value", Arg::Text(&line))]) })
        })
        .collect::<Option<_>>()?;
    let turn: Vec<&str> = stages.iter().map(|stage| stage.line.as_str()).collect();
    let has_angle = stages.iter().any(|stage| matches!(stage.to, StageEnd::Angle(_)));
    let words = StageWords {
        title: scene.say("drawing-stages", &[("name", Arg::Text(&entry.name))]),
        description: scene.say("drawing-stages-text", &[("stages", Arg::Text(&turn.join("; ")))]),
        torque: scene.site.say("drawing-stages-up"),
        angle: scene.site.say("drawing-stages-across"),
        scale: scene.site.say(if has_angle { "drawing-stages-scale-angle" } else { "drawing-stages-scale" }),
    };
    Some((format!("stages.{}", entry.id), drawn(Wanted::Stages(TorqueStages { stages, words }))?))
}

/// The fits that the heat or chill of this act opens.
pub(super) fn fits(scene: &Scene<'_>, act: &Act) -> Vec<Named> {
    let thing = act.thing().filter(|thing| act.verb == Some(Verb::Heat) && thing.kind == ListKind::Heats);
    let Some(heat) = thing.and_then(|thing| scene.scope().thing(|l| &l.heats, thing)) else { return Vec::new() };
    let bearings = scene.scope().homes().flat_map(|(_, lists)| lists.bearings.values());
    bearings
        .filter(|bearing| bearing.only.agrees_with(scene.known))
        .filter_map(|bearing| Some((format!("fit.{}.{}", heat.id, bearing.id), drawn(Wanted::Fit(fit(scene, heat, bearing)?))?)))
        .collect()
}

fn fit(scene: &Scene<'_>, heat: &Entry<Heat>, bearing: &Entry<Bearing>) -> Option<HeatedFit> {
    let known = scene.known;
    let fit = bearing.what.fit.get(known)?;
    let (from, to) = (heat.what.from.get(known)?, heat.what.to.get(known)?);
    let from_c = from.nominal()?;
    let (low, high) = to.low_high();
    let of = heat.what.of.get(known)?;
    let (is_bearing, in_housing) = (*of == bearing.id, bearing.what.within.get(known) == Some(of));
    // Of a band the end that opens less counts.
    let (least_warm, least_cold) = (low.or(high)?, high.or(low)?);
    let (joint, changed, size, metal, to_c) = match (&fit.bore, &fit.shaft) {
        (Some(bore), _) if in_housing && least_warm > from_c => {
            (Joint::BearingInHousing, Changed::OuterHeated, bore, Metal::find(fit.housing.as_ref()?)?, least_warm)
        }
        (Some(bore), _) if is_bearing && least_cold < from_c => {
            (Joint::BearingInHousing, Changed::InnerChilled, bore, Metal::BearingSteel, least_cold)
        }
        (_, Some(shaft)) if is_bearing && least_warm > from_c => {
            (Joint::BearingOnShaft, Changed::OuterHeated, shaft, Metal::BearingSteel, least_warm)
        }
        _ => return None,
    };
    let interference = fit.interference.as_ref()?;
    let (loosest, tightest) = interference.low_high();
    let greatest_mm = tightest.or(loosest)?;
    let warmed = Warmed { expansion_per_k: metal.expansion_per_k(), from_c, to_c };
    let left = Warmed { to_c: from_c, ..warmed };
    let (outer, inner) = if changed == Changed::OuterHeated { (warmed, left) } else { (left, warmed) };
    let opened = Interference { diameter_mm: size.nominal()?, greatest_mm, gap_mm: 0.0 };
    let gap_mm = opened.gap_at_mm(outer, inner)?;
    let gap = glued(&Unit::find("mm")?.show(gap_mm, 2, Rounding::Down));
    let (before, after) = (glued(from.written()), glued(to.written()));
    let (diameter, tight) = (glued(size.written()), glued(interference.written()));
    let part = if is_bearing { bearing.name.clone() } else { scene.named(of) };
    let said = [
        ("bearing", Arg::Text(&bearing.name)),
        ("part", Arg::Text(&part)),
        ("diameter", Arg::Text(&diameter)),
        ("interference", Arg::Text(&tight)),
        ("before", Arg::Text(&before)),
        ("after", Arg::Text(&after)),
        ("gap", Arg::Text(&gap)),
    ];
    let words = FitWords {
        title: scene.say("drawing-fit", &said),
        description: scene.say("drawing-fit-text", &said),
        diameter: scene.say("drawing-diameter", &said),
        interference: scene.say("interference", &[("size", Arg::Text(&tight))]),
        gap: scene.say("drawing-fit-gap", &said),
        enlarged: scene.site.say("drawing-fit-enlarged"),
        before,
        after,
    };
    Some(HeatedFit { interference_mm: greatest_mm, gap_mm, changed, joint, words })
}

/// The marks that this act sets.
pub(super) fn alignment(scene: &Scene<'_>, act: &Act) -> Option<Named> {
    let thing = act.thing().filter(|thing| act.verb == Some(Verb::Align) && thing.kind == ListKind::Aligns)?;
    let entry = scene.scope().thing(|l| &l.aligns, thing)?;
    let align = &entry.what;
    let [moving, fixed] = align.marks.as_slice() else { return None };
    let (arc, diameter) = (align.arc.get(scene.known), align.diameter.get(scene.known));
    let worked_out = || arc::degrees(arc?.nominal()?, diameter?.nominal()?);
    let (offset_deg, angle) = match align.offset.get(scene.known) {
        Some(offset) => (offset.nominal()?, glued(offset.written())),
        None => (worked_out()?, Unit::find("°")?.show(worked_out()?, 3, Rounding::Nearest)),
    };
    let text = |quantity: &Quantity| glued(quantity.written());
    let (arc, diameter) = (arc.map(text), diameter.map(text));
    let arc_on = arc.as_ref().zip(diameter.as_ref()).map(|(arc, diameter)| scene.say("arc-on", &[("arc", Arg::Text(arc)), ("diameter", Arg::Text(diameter))]));
    let viewed = align.viewed_from.get(scene.known).map(|from| scene.say("viewed-from", &[("from", Arg::Text(from))]));
    let how = [Some(angle.clone()), arc_on.clone(), viewed.clone()].into_iter().flatten().collect::<Vec<_>>().join(", ");
    let side = align.sense.get(scene.known).map(|sense| if sense == "anticlockwise" { Side::Anticlockwise } else { Side::Clockwise });
    let untold = scene.site.say("drawing-align-side-untold");
    let turned = match side {
        Some(_) => scene.sense_text(align).map_or_else(String::new, |sense| format!("{}.", capitalised(&sense))),
        None => untold.clone(),
    };
    let words = AlignmentWords {
        title: scene.say("drawing-align", &[("name", Arg::Text(&entry.name))]),
        description: format!("{} {turned}", scene.say("drawing-align-text", &[("moving", Arg::Text(moving)), ("fixed", Arg::Text(fixed)), ("offset", Arg::Text(&how))])),
        moving: moving.clone(),
        fixed: fixed.clone(),
        angle,
        arc: arc.map(|arc| scene.say("drawing-arc", &[("arc", Arg::Text(&arc))])).unwrap_or_default(),
        diameter: diameter.map(|diameter| scene.say("drawing-diameter", &[("diameter", Arg::Text(&diameter))])).unwrap_or_default(),
        arc_below: arc_on.unwrap_or_default(),
        viewed_from: viewed.unwrap_or_default(),
        side_untold: untold,
    };
    Some((format!("align.{}", entry.id), drawn(Wanted::Alignment(Alignment { offset_deg, side, words }))?))
}

/// A value's line as one text.
fn line_text(line: &Line) -> String {
    [line.label.as_deref(), Some(&*line.main), line.other.as_deref()].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// A value as one number: its nominal one, or the middle of its limits.
fn middle(quantity: &Quantity) -> Option<f64> {
    match quantity.low_high() {
        (Some(low), Some(high)) => Some(f64::midpoint(low, high)),
        (one, other) => one.or(other),
    }
}
