//! Which way round one part goes in: the part in section, what tells its sides apart named, and what each side
//! looks at.

use super::drawing::{
    ABOVE_LINE, Anchor, BELOW_LINE, Bounds, Drawing, LINE_PITCH, LeaderEnd, MARGIN, Mark, Point, Scene, WIDTH, Weight,
    arrowhead, leader, point, wrapped,
};
use super::sections::{self, Shape, Side};

/// A part and which way round it goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct Orientation {
    /// The drawing's title.
    pub title: String,
    /// Its description, for those who can't see it.
    pub description: String,
    /// What it looks like; its special feature looks to the side it is drawn for.
    pub shape: Shape,
    /// What looks to the left.
    pub left: Option<Look>,
    /// What looks to the right.
    pub right: Option<Look>,
    /// Whether the part lies flat on the machine: what looks to the left is drawn up, what looks to the right down.
    pub is_flat: bool,
}

/// A feature and what it looks at, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// `sharp edge`.
    pub feature: String,
    /// `to gear oil`.
    pub toward: String,
}

/// The box of each half of the part, in the middle of the paper.
const PART_WIDTH: f64 = 12.0;
const HALF_HEIGHT: f64 = 10.0;
/// From each half to the axis.
const TO_AXIS: f64 = 2.6;
/// How far it stands from the middle where there are words on one side only.
const ASIDE: f64 = 8.0;
/// Size of the words: here is room for more than the smallest.
const SIZE: f64 = 3.0;
/// From the part to the words beside it, and to the feature's name.
const TO_WORDS: f64 = 7.0;
const TO_NAME: f64 = 2.0;

/// Draws it. None where no side looks at anything.
#[must_use]
pub fn orientation(part: &Orientation) -> Option<Drawing> {
    if part.left.is_none() && part.right.is_none() {
        return None;
    }
    // Words too long to stand beside a part that lies flat have room beside one on its edge.
    if let Some(drawing) = Some(part).filter(|part| part.is_flat).map(flat).filter(|drawing| drawing.faults().is_empty()) {
        return Some(drawing);
    }
    let mut scene = Scene::new();
    // With words on one side only, the part makes room for them.
    let centre = match (&part.left, &part.right) {
        (Some(_), None) => WIDTH / 2.0 + ASIDE,
        (None, Some(_)) => WIDTH / 2.0 - ASIDE,
        _ => WIDTH / 2.0,
    };
    let aside = (centre - WIDTH / 2.0).abs();
    let room = WIDTH / 2.0 + aside - PART_WIDTH / 2.0 - MARGIN;
    let beside = room - TO_WORDS;
    let words = |look: &Option<Look>| look.as_ref().map_or_else(Vec::new, |look| wrapped(&look.toward, SIZE, beside));
    let tallest = height(words(&part.left).len()).max(height(words(&part.right).len()));
    let whole = 2.0 * (HALF_HEIGHT + TO_AXIS);
    let top = MARGIN + ((tallest - whole) / 2.0).max(0.0);
    let (left, right) = (centre - PART_WIDTH / 2.0, centre + PART_WIDTH / 2.0);
    let axis = top + HALF_HEIGHT + TO_AXIS;
    let upper = Bounds { left, top, right, bottom: top + HALF_HEIGHT };
    let lower = Bounds { left, top: 2.0 * axis - top, right, bottom: axis + TO_AXIS };
    scene.tag("bore", 0);
    for (from, to) in sections::bore_edges(upper, lower, part.shape) {
        scene.line(from, to, Weight::Thick);
    }
    sections::section(&mut scene, upper, part.shape, 0);
    sections::section(&mut scene, lower, part.shape, 1);
    scene.tag("axis", 0);
    scene.line(point(left - 1.6, axis), point(right + 1.6, axis), Weight::Chain);
    // Names stand below what their leaders point at, and below the words beside the part.
    let lowest = [Side::Left, Side::Right].map(|side| target(lower, side, part.shape).y).into_iter().fold(0.0, f64::max);
    let names = (lowest + 1.6).max(axis + whole / 2.0 - 2.0).max(axis + tallest / 2.0 + 1.0);
    for (side, look) in [(Side::Left, &part.left), (Side::Right, &part.right)] {
        if let Some(look) = look {
            toward(&mut scene, upper, axis, side, &wrapped(&look.toward, SIZE, beside));
            named(&mut scene, lower, names, side, &wrapped(&look.feature, SIZE, room - TO_NAME), part.shape);
        }
    }
    Some(Drawing::new(&part.title, &part.description, scene))
}

/// A part that lies flat: the axis stands, what is above it is drawn above it.
fn flat(part: &Orientation) -> Drawing {
    let half = PART_WIDTH / 2.0;
    let centre = WIDTH / 2.0 - ASIDE;
    let upper = Bounds { left: -half, top: -TO_AXIS - HALF_HEIGHT, right: half, bottom: -TO_AXIS };
    let lower = Bounds { left: -half, top: TO_AXIS + HALF_HEIGHT, right: half, bottom: TO_AXIS };
    let words = |look: &Option<Look>| look.as_ref().map_or_else(Vec::new, |look| wrapped(&look.toward, SIZE, 2.0 * (centre - MARGIN)));
    let (above, below) = (words(&part.left), words(&part.right));
    let top = MARGIN + if above.is_empty() { 1.6 } else { height(above.len()) + TO_WORDS };
    let turned = |at: Point| point(centre - at.y, top + half + at.x);
    let mut scene = Scene::new();
    scene.tag("bore", 0);
    for (from, to) in sections::bore_edges(upper, lower, part.shape) {
        scene.line(from, to, Weight::Thick);
    }
    sections::section(&mut scene, upper, part.shape, 0);
    sections::section(&mut scene, lower, part.shape, 1);
    scene.tag("axis", 0);
    scene.line(point(-half - 1.6, 0.0), point(half + 1.6, 0.0), Weight::Chain);
    for item in &mut scene.items {
        match &mut item.mark {
            Mark::Path { points, .. } => points.iter_mut().for_each(|at| *at = turned(*at)),
            Mark::Circle { centre: at, .. } | Mark::Text { at, .. } => *at = turned(*at),
            Mark::Arc { centre: at, from, .. } => {
                *at = turned(*at);
                *from = (*from + 90.0).rem_euclid(360.0);
            }
        }
    }
    let beside = centre + TO_AXIS + HALF_HEIGHT + 3.0;
    for (side, look, lines) in [(Side::Left, &part.left, &above), (Side::Right, &part.right, &below)] {
        let Some(look) = look else { continue };
        let (face, out) = if side == Side::Left { (top, -1.0) } else { (top + PART_WIDTH, 1.0) };
        scene.tag("arrow", index(side));
        scene.line(point(centre, face + out * 2.4), point(centre, face + out * 5.4), Weight::Thick);
        arrowhead(&mut scene, point(centre, face + out * 6.4), point(centre, face + out * 2.4));
        scene.tag("toward", index(side));
        let first = if side == Side::Left { MARGIN } else { face + TO_WORDS };
        written(&mut scene, point(centre, first), Anchor::Middle, lines);
        let names = wrapped(&look.feature, SIZE, WIDTH - MARGIN - beside);
        let first = if side == Side::Left { face - 2.5 } else { face + 2.5 - height(names.len()) };
        scene.tag("feature", index(side));
        let drawn = sections::feature_point(upper, part.shape).filter(|at| (at.x < 0.0) == (side == Side::Left));
        let target = turned(drawn.unwrap_or_else(|| point(out * (half - 0.06 * PART_WIDTH), -TO_AXIS - 0.8 * HALF_HEIGHT)));
        leader(&mut scene, point(beside - 0.6, first + height(names.len()) / 2.0), target, LeaderEnd::Arrow);
        written(&mut scene, point(beside, first), Anchor::Start, &names);
    }
    Drawing::new(&part.title, &part.description, scene)
}

/// Lines of words from here downwards.
fn written(scene: &mut Scene, from: Point, anchor: Anchor, lines: &[String]) {
    let mut baseline = from.y + ABOVE_LINE * SIZE;
    for line in lines {
        scene.text(point(from.x, baseline), anchor, SIZE, line.as_str());
        baseline += LINE_PITCH * SIZE;
    }
}

/// How high so many lines of text are.
fn height(lines: usize) -> f64 {
    if lines == 0 { 0.0 } else { ((lines - 1) as f64 * LINE_PITCH + ABOVE_LINE + BELOW_LINE) * SIZE }
}

/// A heavy arrow along the axis from the part outwards, and at its end what the side looks at.
fn toward(scene: &mut Scene, frame: Bounds, middle: f64, side: Side, lines: &[String]) {
    let out = |distance: f64| match side {
        Side::Left => point(frame.left - distance, middle),
        Side::Right => point(frame.right + distance, middle),
    };
    scene.tag("arrow", index(side));
    scene.line(out(2.4), out(5.4), Weight::Thick);
    arrowhead(scene, out(6.4), out(2.4));
    scene.tag("toward", index(side));
    let mut baseline = middle - height(lines.len()) / 2.0 + ABOVE_LINE * SIZE;
    let at = out(TO_WORDS).x;
    let anchor = if side == Side::Left { Anchor::End } else { Anchor::Start };
    for line in lines {
        scene.text(point(at, baseline), anchor, SIZE, line.as_str());
        baseline += LINE_PITCH * SIZE;
    }
}

/// What a side's leader points at: the feature drawn there, or that face of the part.
fn target(frame: Bounds, side: Side, shape: Shape) -> Point {
    let drawn = sections::feature_point(frame, shape).filter(|at| (at.x < frame.centre().x) == (side == Side::Left));
    let face = match side {
        Side::Left => point(frame.left + 0.06 * PART_WIDTH, frame.bottom + 0.5 * HALF_HEIGHT),
        Side::Right => point(frame.right - 0.06 * PART_WIDTH, frame.bottom + 0.5 * HALF_HEIGHT),
    };
    drawn.unwrap_or(face)
}

/// The feature's name beside the lower half, with a leader to the feature, or to that face of the part.
fn named(scene: &mut Scene, frame: Bounds, top: f64, side: Side, lines: &[String], shape: Shape) {
    // The words stand outside the part and the leader begins above their inner end, so that it runs aslant.
    let (at, anchor, foot) = match side {
        Side::Left => (frame.left - TO_NAME, Anchor::End, frame.left - 4.0),
        Side::Right => (frame.right + TO_NAME, Anchor::Start, frame.right + 4.0),
    };
    scene.tag("feature", index(side));
    leader(scene, point(foot, top - 0.3), target(frame, side, shape), LeaderEnd::Arrow);
    let mut baseline = top + ABOVE_LINE * SIZE;
    for line in lines {
        scene.text(point(at, baseline), anchor, SIZE, line.as_str());
        baseline += LINE_PITCH * SIZE;
    }
}

const fn index(side: Side) -> usize {
    match side {
        Side::Left => 0,
        Side::Right => 1,
    }
}
