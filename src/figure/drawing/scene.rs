//! A scene: marks on paper, each with its line, its box and a tag that says what it is the picture of.

use super::geometry::{Bounds, Point, polar};
use super::hatching;
use super::lettering::{ABOVE_LINE, BELOW_LINE, text_width};

/// The lines of these drawings, after ISO 128-2, in its line group 0.35.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Continuous wide line: visible outlines.
    Thick,
    /// Continuous narrow line: dimensions, leaders, hatching.
    Thin,
    /// Dashed narrow line: what is hidden.
    Dashed,
    /// Long-dashed dotted narrow line: centre lines and pitch circles.
    Chain,
    /// No line: the edge of a wash of tint.
    None,
}

impl Weight {
    /// Width of the line in millimetres.
    #[must_use]
    pub const fn width(self) -> f64 {
        match self {
            Self::Thick => 0.35,
            Self::Thin | Self::Dashed | Self::Chain => 0.18,
            Self::None => 0.0,
        }
    }
}

/// What an outline is filled with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fill {
    /// Nothing.
    None,
    /// Ink: small things that are cut, arrowheads, dots.
    Ink,
    /// A light tint of the ink, for fluids and pastes.
    Tint,
    /// Section lines (ISO 128-3) at an angle in degrees from the horizontal, rising to the right, and a spacing in
    /// millimetres. Neighbouring parts differ in one of the two.
    Hatched(f64, f64),
}

/// At which end of a text its point is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins there.
    Start,
    /// The text's middle is there.
    Middle,
    /// The text ends there.
    End,
}

/// What a mark is the picture of: a kind of feature, and which one of those. For tests and nothing else.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tag {
    /// `spring`, `medium`, `position` and the like.
    pub what: &'static str,
    /// Which one, from 0.
    pub index: usize,
}

/// A mark on the paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Straight lines from point to point; closed ones may be filled.
    Path {
        /// Its corners.
        points: Vec<Point>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// Its line.
        weight: Weight,
        /// Its filling, never hatched: hatching is marks of its own.
        fill: Fill,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius.
        radius: f64,
        /// Its line.
        weight: Weight,
        /// Its filling, never hatched.
        fill: Fill,
    },
    /// A part of a circle, clockwise.
    Arc {
        /// The circle's centre.
        centre: Point,
        /// Its radius.
        radius: f64,
        /// Where it begins, in degrees clockwise from 12 o'clock.
        from: f64,
        /// How far it sweeps, in degrees, below 360.
        sweep: f64,
        /// Its line.
        weight: Weight,
    },
    /// A line of text.
    Text {
        /// Its point on the line the letters stand on.
        at: Point,
        /// Which end of it that is.
        anchor: Anchor,
        /// Its size in millimetres.
        size: f64,
        /// Whether it is turned to be read from the right.
        turned: bool,
        /// The text.
        text: String,
    },
}

/// A mark with its tag.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is the picture of.
    pub tag: Tag,
    /// The mark.
    pub mark: Mark,
}

/// Marks in the order they are drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The marks.
    pub items: Vec<Item>,
    tag: Tag,
}

impl Scene {
    /// An empty scene.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Tags all that is drawn from here on.
    pub fn tag(&mut self, what: &'static str, index: usize) {
        self.tag = Tag { what, index };
    }

    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, weight: Weight) {
        self.polyline(&[from, to], weight);
    }

    /// Straight lines from point to point.
    pub fn polyline(&mut self, points: &[Point], weight: Weight) {
        self.push(Mark::Path { points: points.to_vec(), closed: false, weight, fill: Fill::None });
    }

    /// A closed outline. Hatching is laid under the outline as lines of its own.
    pub fn polygon(&mut self, points: &[Point], weight: Weight, fill: Fill) {
        let fill = self.hatch(points, fill);
        self.push(Mark::Path { points: points.to_vec(), closed: true, weight, fill });
    }

    /// A closed outline of light tint without a line: a room filled with a fluid or paste.
    pub fn wash(&mut self, points: &[Point]) {
        self.push(Mark::Path { points: points.to_vec(), closed: true, weight: Weight::None, fill: Fill::Tint });
    }

    /// Section lines within an outline, without the outline.
    pub fn hatching(&mut self, outline: &[Point], angle: f64, spacing: f64) {
        for (from, to) in hatching::lines(outline, angle, spacing) {
            self.line(from, to, Weight::Thin);
        }
    }

    /// An upright rectangle.
    pub fn rectangle(&mut self, bounds: Bounds, weight: Weight, fill: Fill) {
        self.polygon(&bounds.corners(), weight, fill);
    }

    /// A circle.
    pub fn circle(&mut self, centre: Point, radius: f64, weight: Weight, fill: Fill) {
        let fill = match fill {
            Fill::Hatched(..) => self.hatch(&round(centre, radius, 0.0, 360.0), fill),
            plain => plain,
        };
        self.push(Mark::Circle { centre, radius, weight, fill });
    }

    /// A part of a circle: from an angle clockwise from 12 o'clock, so many degrees further clockwise.
    pub fn arc(&mut self, centre: Point, radius: f64, from: f64, sweep: f64, weight: Weight) {
        self.push(Mark::Arc { centre, radius, from, sweep, weight });
    }

    /// A line of text, upright.
    pub fn text(&mut self, at: Point, anchor: Anchor, size: f64, text: impl Into<String>) {
        self.push(Mark::Text { at, anchor, size, turned: false, text: text.into() });
    }

    /// A line of text that is read from the right, as ISO 129-1 wants it along an upright line.
    pub fn text_turned(&mut self, at: Point, anchor: Anchor, size: f64, text: impl Into<String>) {
        self.push(Mark::Text { at, anchor, size, turned: true, text: text.into() });
    }

    /// The marks with a tag.
    pub fn tagged(&self, what: &str, index: usize) -> impl Iterator<Item = &Item> {
        self.items.iter().filter(move |item| item.tag.what == what && item.tag.index == index)
    }

    /// The box round the marks with a tag.
    #[must_use]
    pub fn bounds_of(&self, what: &str, index: usize) -> Option<Bounds> {
        self.tagged(what, index).map(|item| item.mark.bounds()).reduce(Bounds::joined)
    }

    /// The box round everything.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        self.items.iter().map(|item| item.mark.bounds()).reduce(Bounds::joined)
    }

    /// Lays hatching where it is asked for; what filling is left for the outline.
    fn hatch(&mut self, outline: &[Point], fill: Fill) -> Fill {
        let Fill::Hatched(angle, spacing) = fill else { return fill };
        self.hatching(outline, angle, spacing);
        Fill::None
    }

    fn push(&mut self, mark: Mark) {
        self.items.push(Item { tag: self.tag, mark });
    }
}

impl Mark {
    /// The box round it, with half its line's width; for text its lines' and letters' reach.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Text { at, anchor, size, turned, text } => text_bounds(*at, *anchor, *size, *turned, text),
            Self::Circle { centre, radius, weight, .. } => {
                let Point { x, y } = *centre;
                Bounds { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius }.grown(weight.width() / 2.0)
            }
            Self::Path { points, weight, .. } => around(points).grown(weight.width() / 2.0),
            Self::Arc { weight, .. } => around(&self.outline()).grown(weight.width() / 2.0),
        }
    }

    /// Its line as corners, round ones closely enough for a bench; none for text.
    #[must_use]
    pub fn outline(&self) -> Vec<Point> {
        match self {
            Self::Text { .. } => Vec::new(),
            Self::Path { points, closed, .. } => {
                let back = if *closed { points.first() } else { None };
                points.iter().chain(back).copied().collect()
            }
            Self::Circle { centre, radius, .. } => round(*centre, *radius, 0.0, 360.0),
            Self::Arc { centre, radius, from, sweep, .. } => round(*centre, *radius, *from, *sweep),
        }
    }
}

impl Bounds {
    /// Its corners, clockwise from the upper left.
    #[must_use]
    pub fn corners(self) -> [Point; 4] {
        let corner = super::geometry::point;
        [
            corner(self.left, self.top),
            corner(self.right, self.top),
            corner(self.right, self.bottom),
            corner(self.left, self.bottom),
        ]
    }
}

fn around(points: &[Point]) -> Bounds {
    // A mark without a point has no place: an empty box that is within no paper.
    let nowhere = Bounds { left: f64::NAN, top: f64::NAN, right: f64::NAN, bottom: f64::NAN };
    Bounds::around(points).unwrap_or(nowhere)
}

fn round(centre: Point, radius: f64, from: f64, sweep: f64) -> Vec<Point> {
    const CORNERS: u32 = 48;
    (0..=CORNERS).map(|n| polar(centre, radius, from + sweep * f64::from(n) / f64::from(CORNERS))).collect()
}

fn text_bounds(at: Point, anchor: Anchor, size: f64, turned: bool, text: &str) -> Bounds {
    let width = text_width(text, size);
    let before = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width / 2.0,
        Anchor::End => width,
    };
    let (above, below) = (ABOVE_LINE * size, BELOW_LINE * size);
    if turned {
        let bottom = at.y + before;
        Bounds { left: at.x - above, top: bottom - width, right: at.x + below, bottom }
    } else {
        let left = at.x - before;
        Bounds { left, top: at.y - above, right: left + width, bottom: at.y + below }
    }
}
