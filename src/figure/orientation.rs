//! Which way round one part goes in: the part in half section, what tells its sides apart named, and what each side
//! looks at.

use super::drawing::{
    ABOVE_LINE, Anchor, BELOW_LINE, Bounds, Drawing, LINE_PITCH, LeaderEnd, MARGIN, NOTE, Scene, WIDTH, Weight,
    arrowhead, leader, point, text_width, wrapped,
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
}

/// A feature and what it looks at, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// `sharp edge`.
    pub feature: String,
    /// `to gear oil`.
    pub toward: String,
}

/// The part's box: in the middle of the paper, square.
const PART_WIDTH: f64 = 12.0;
const PART_HEIGHT: f64 = 14.0;
/// From the part down to its axis.
const TO_AXIS: f64 = 2.4;
/// Width of the words beside the part.
const BESIDE: f64 = 15.5;
/// Width of the words below it.
const BELOW: f64 = 26.0;

/// Draws it. None where no side looks at anything.
#[must_use]
pub fn orientation(part: &Orientation) -> Option<Drawing> {
    if part.left.is_none() && part.right.is_none() {
        return None;
    }
    let mut scene = Scene::new();
    let words = |look: &Option<Look>| look.as_ref().map_or_else(Vec::new, |look| wrapped(&look.toward, NOTE, BESIDE));
    let tallest = height(words(&part.left).len()).max(height(words(&part.right).len()));
    let top = MARGIN + 0.4 + ((tallest - PART_HEIGHT) / 2.0).max(0.0);
    let centre = WIDTH / 2.0;
    let frame = Bounds {
        left: centre - PART_WIDTH / 2.0,
        top,
        right: centre + PART_WIDTH / 2.0,
        bottom: top + PART_HEIGHT,
    };
    sections::section(&mut scene, frame, part.shape, 0);
    let axis = frame.bottom + TO_AXIS;
    scene.tag("axis", 0);
    scene.line(point(frame.left - 3.0, axis), point(frame.right + 3.0, axis), Weight::Chain);
    for x in [frame.left - 2.8, frame.left - 2.1, frame.right + 2.1, frame.right + 2.8] {
        scene.line(point(x, axis - 1.1), point(x, axis + 1.1), Weight::Thin);
    }
    let names = (axis + 2.0).max(frame.centre().y + tallest / 2.0 + 1.0);
    for (side, look) in [(Side::Left, &part.left), (Side::Right, &part.right)] {
        if let Some(look) = look {
            toward(&mut scene, frame, side, look);
            named(&mut scene, frame, names, side, look, part.shape);
        }
    }
    Some(Drawing::new(&part.title, &part.description, scene))
}

/// How high so many lines of text are.
fn height(lines: usize) -> f64 {
    if lines == 0 { 0.0 } else { ((lines - 1) as f64 * LINE_PITCH + ABOVE_LINE + BELOW_LINE) * NOTE }
}

/// A heavy arrow from the part outwards, and at its end what the side looks at.
fn toward(scene: &mut Scene, frame: Bounds, side: Side, look: &Look) {
    let lines = wrapped(&look.toward, NOTE, BESIDE);
    let middle = frame.centre().y;
    let out = |distance: f64| match side {
        Side::Left => point(frame.left - distance, middle),
        Side::Right => point(frame.right + distance, middle),
    };
    scene.tag("arrow", index(side));
    scene.line(out(1.6), out(5.0), Weight::Thick);
    arrowhead(scene, out(6.0), out(1.6));
    scene.tag("toward", index(side));
    let mut baseline = middle - height(lines.len()) / 2.0 + ABOVE_LINE * NOTE;
    let at = out(7.0).x;
    let anchor = if side == Side::Left { Anchor::End } else { Anchor::Start };
    for line in lines {
        scene.text(point(at, baseline), anchor, NOTE, line);
        baseline += LINE_PITCH * NOTE;
    }
}

/// The feature's name below the part, with a leader to the feature, or to that face of the part.
fn named(scene: &mut Scene, frame: Bounds, top: f64, side: Side, look: &Look, shape: Shape) {
    let lines = wrapped(&look.feature, NOTE, BELOW);
    let drawn = sections::feature_point(frame, shape).filter(|at| (at.x < frame.centre().x) == (side == Side::Left));
    let face = match side {
        Side::Left => point(frame.left + 0.06 * PART_WIDTH, frame.bottom - 0.3 * PART_HEIGHT),
        Side::Right => point(frame.right - 0.06 * PART_WIDTH, frame.bottom - 0.3 * PART_HEIGHT),
    };
    let target = drawn.unwrap_or(face);
    // The words end, or begin, near the middle of the paper; the leader stands on their inner part.
    let (at, anchor) = match side {
        Side::Left => (frame.centre().x - 1.5, Anchor::End),
        Side::Right => (frame.centre().x + 1.5, Anchor::Start),
    };
    let first = lines.first().map_or(0.0, |line| text_width(line, NOTE));
    let inward = (first / 2.0).min(4.5);
    let foot = if side == Side::Left { at - inward } else { at + inward };
    scene.tag("feature", index(side));
    leader(scene, point(foot, top - 0.4), target, LeaderEnd::Arrow);
    let mut baseline = top + ABOVE_LINE * NOTE;
    for line in lines {
        scene.text(point(at, baseline), anchor, NOTE, line);
        baseline += LINE_PITCH * NOTE;
    }
}

const fn index(side: Side) -> usize {
    match side {
        Side::Left => 0,
        Side::Right => 1,
    }
}
