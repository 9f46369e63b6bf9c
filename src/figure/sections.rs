//! What sits on a shaft, cut open: the upper half of seals, bearings, rings, washers and gears, in a box that stands
//! on the shaft. Each is drawn from the side it faces, so that turning it round mirrors everything at once.

use super::drawing::{Bounds, Fill, Point, Scene, Weight, point};

/// Left or right on the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

impl Side {
    /// The other side.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// What is drawn, with the side its special feature looks to. None where the sides are equal, or not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A rotary lip seal whose spring looks to a side.
    SpringSeal(Side),
    /// A lip seal without a spring, whose lip looks to a side.
    LipSeal(Side),
    /// A seal of which no side is known: its box and a cross, so that nobody reads a side into it.
    Seal,
    /// An O-ring.
    ORing,
    /// A ball bearing: numbers or other marks on one side's ring, or a shield.
    BallBearing(Option<(Mark, Side)>),
    /// A taper roller bearing with the rollers' large ends to a side.
    TaperBearing(Side),
    /// A circlip with its sharp edge to a side; without one, of round wire.
    Circlip(Option<Side>),
    /// A dished washer with its hollow to a side.
    DishedWasher(Side),
    /// A gear: with its teeth chamfered on a side, or a boss there.
    Gear(Option<(Mark, Side)>),
    /// A bevel gear with the small end of its teeth, its nose, to a side.
    BevelGear(Side),
    /// A ring, washer, spacer or other part, with a boss or a marked face to a side.
    Ring(Option<(Mark, Side)>),
}

/// What tells one side of a part from the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A shield between the rings.
    Shield,
    /// Stamped figures on the ring's face.
    Stamp,
    /// Chamfered teeth.
    Chamfer,
    /// A boss or collar that stands out.
    Boss,
    /// Another face, told apart by a heavy line.
    Face,
}

impl Mark {
    /// What a feature's word says the mark looks like: `long-boss` is a boss.
    #[must_use]
    pub fn of(feature: &str) -> Self {
        let says = |words: &[&str]| words.iter().any(|word| feature.split('-').any(|part| part == *word));
        if says(&["shield", "shielded"]) {
            Self::Shield
        } else if says(&["numbers", "number", "letters", "stamp", "stamped", "marking"]) {
            Self::Stamp
        } else if says(&["chamfer", "chamfered"]) {
            Self::Chamfer
        } else if says(&["boss", "collar", "nose", "hub", "shoulder", "spigot"]) {
            Self::Boss
        } else {
            Self::Face
        }
    }
}

/// The box a section fills, standing on the shaft. Where its bottom lies above its top it hangs below the shaft: the
/// lower half of a whole section.
pub(super) type Frame = Bounds;

/// Draws a section into its box; `index` goes into the tags. Parts are tagged `body`, and what tells the sides apart
/// `spring`, `lip`, `edge`, `mark`.
pub(super) fn section(scene: &mut Scene, frame: Frame, shape: Shape, index: usize) {
    scene.tag("body", index);
    match shape {
        Shape::SpringSeal(side) => lip_seal(scene, &Drawn { frame, from: side }, true, index),
        Shape::LipSeal(side) => lip_seal(scene, &Drawn { frame, from: side }, false, index),
        Shape::Seal => {
            scene.rectangle(frame, Weight::Thick, Fill::None);
            scene.line(point(frame.left, frame.top), point(frame.right, frame.bottom), Weight::Thin);
            scene.line(point(frame.left, frame.bottom), point(frame.right, frame.top), Weight::Thin);
        }
        Shape::ORing => {
            let drawn = Drawn { frame, from: Side::Left };
            let radius = drawn.scale() / 2.0;
            let down = if frame.bottom < frame.top { radius } else { -radius };
            scene.circle(point(frame.centre().x, frame.bottom + down), radius, Weight::Thick, Fill::Hatched(135.0, 0.8));
        }
        Shape::BallBearing(mark) => ball_bearing(scene, frame, mark, index),
        Shape::TaperBearing(side) => taper_bearing(scene, &Drawn { frame, from: side }, index),
        Shape::Circlip(side) => circlip(scene, frame, side, index),
        Shape::DishedWasher(side) => dished_washer(scene, &Drawn { frame, from: side }, index),
        Shape::Gear(mark) => gear(scene, frame, mark, index),
        Shape::BevelGear(side) => bevel_gear(scene, &Drawn { frame, from: side }, index),
        Shape::Ring(mark) => ring(scene, frame, mark, index),
    }
}

/// Where the feature that a leader points at is: on its side of the box.
pub(super) fn feature_point(frame: Frame, shape: Shape) -> Option<Point> {
    let at = |side: Side, u: f64, v: f64| Drawn { frame, from: side }.at(u, v);
    Some(match shape {
        Shape::SpringSeal(side) => at(side, 0.26, 0.41),
        Shape::LipSeal(side) => at(side, 0.28, 0.1),
        Shape::BallBearing(Some((Mark::Shield, side))) => at(side, 0.07, 0.4),
        Shape::BallBearing(Some((_, side))) | Shape::Ring(Some((_, side))) => at(side, 0.0, 0.12),
        Shape::TaperBearing(side) => at(side, 0.12, 0.5),
        Shape::Circlip(Some(side)) => at(side, CIRCLIP.0, CIRCLIP.1),
        Shape::DishedWasher(side) => at(side, 0.3, 0.3),
        Shape::Gear(Some((Mark::Chamfer, side))) => at(side, 0.09, 0.93),
        Shape::Gear(Some((_, side))) => at(side, 0.0, 0.1),
        Shape::BevelGear(side) => at(side, 0.05, 0.2),
        Shape::Seal | Shape::ORing | Shape::BallBearing(None) | Shape::Circlip(None) | Shape::Gear(None) | Shape::Ring(None) => {
            return None;
        }
    })
}

/// Where a leader may end within the body.
pub(super) fn body_point(frame: Frame, shape: Shape) -> Point {
    let at = |side: Side, u: f64, v: f64| Drawn { frame, from: side }.at(u, v);
    match shape {
        Shape::SpringSeal(side) | Shape::LipSeal(side) => at(side, 0.8, 0.6),
        Shape::ORing => point(frame.centre().x, frame.bottom - (frame.right - frame.left) / 2.0),
        Shape::Circlip(_) => at(Side::Left, 0.5, 0.62),
        Shape::BallBearing(_) => at(Side::Left, 0.5, 0.5),
        Shape::DishedWasher(side) => at(side, 0.62, 0.5),
        Shape::Seal | Shape::TaperBearing(_) | Shape::Gear(_) | Shape::BevelGear(_) | Shape::Ring(_) => at(Side::Left, 0.5, 0.55),
    }
}

/// Where the edges of the bore lie that are seen behind the cut: from the upper half's place straight to the lower
/// half's.
pub(super) fn bore_edges(frame: Frame, lower: Frame, shape: Shape) -> Vec<(Point, Point)> {
    let (side, places): (Side, &[(f64, f64)]) = match shape {
        Shape::SpringSeal(side) | Shape::LipSeal(side) => (side, &[(0.3, 0.0), (1.0, 0.3)]),
        Shape::Seal | Shape::BallBearing(_) => (Side::Left, &[(0.0, 0.0), (1.0, 0.0)]),
        Shape::TaperBearing(side) => (side, &[(0.0, 0.0), (1.0, 0.0)]),
        Shape::Circlip(Some(side)) => (side, &[CIRCLIP]),
        Shape::DishedWasher(side) => (side, &[(0.66, 0.06), (0.9, 0.12)]),
        Shape::Gear(Some((Mark::Boss, side))) | Shape::Ring(Some((Mark::Boss, side))) => (side, &[(0.0, 0.0), (1.0, 0.0)]),
        Shape::BevelGear(side) => (side, &[(0.05, 0.0), (0.95, 0.0)]),
        Shape::Gear(_) => (Side::Left, &[(0.05, 0.0), (0.95, 0.0)]),
        Shape::Ring(_) => (Side::Left, &[(0.06, 0.0), (0.94, 0.0)]),
        Shape::ORing | Shape::Circlip(None) => (Side::Left, &[]),
    };
    let (upper, lower) = (Drawn { frame, from: side }, Drawn { frame: lower, from: side });
    places.iter().map(|(u, v)| (upper.at(*u, *v), lower.at(*u, *v))).collect()
}

/// A seal's two hollows, which the media beside it fill: towards its spring or lip, and behind.
pub(super) fn hollows(frame: Frame, side: Side) -> [Vec<Point>; 2] {
    let drawn = Drawn { frame, from: side };
    let front = [(0.0, 0.8), (0.74, 0.8), (0.74, 0.4), (0.45, 0.27), (0.36, 0.36), (0.16, 0.33), (0.16, 0.19), (0.3, 0.0), (0.0, 0.0)];
    let back = [(1.0, 0.0), (0.3, 0.0), (0.83, 0.24), (1.0, 0.3)];
    [drawn.all(&front), drawn.all(&back)]
}

/// A box whose parts are measured from one side: `u` from it, `v` from the shaft upwards, both from 0 to 1.
struct Drawn {
    frame: Frame,
    from: Side,
}

impl Drawn {
    fn at(&self, u: f64, v: f64) -> Point {
        let Frame { left, top, right, bottom } = self.frame;
        let x = match self.from {
            Side::Left => left + u * (right - left),
            Side::Right => right - u * (right - left),
        };
        point(x, bottom - v * (bottom - top))
    }

    fn all(&self, places: &[(f64, f64)]) -> Vec<Point> {
        places.iter().map(|(u, v)| self.at(*u, *v)).collect()
    }

    /// The lesser of the two scales, for what stays round.
    fn scale(&self) -> f64 {
        (self.frame.right - self.frame.left).min((self.frame.bottom - self.frame.top).abs())
    }
}

/// The rubber is hatched and the case within it inked. The lip runs from the closed back towards the side it holds,
/// touches the shaft there, and the spring lies on it, on that side (ISO 6194-1, figure of a seal's parts).
fn lip_seal(scene: &mut Scene, drawn: &Drawn, spring: bool, index: usize) {
    let rubber = [
        (0.0, 1.0), (1.0, 1.0), (1.0, 0.3), (0.83, 0.24), (0.3, 0.0), (0.16, 0.19), (0.16, 0.33), (0.36, 0.36),
        (0.45, 0.27), (0.74, 0.4), (0.74, 0.8), (0.0, 0.8),
    ];
    scene.polygon(&drawn.all(&rubber), Weight::Thick, Fill::Hatched(135.0, 0.8));
    let case = [(0.08, 0.93), (0.93, 0.93), (0.93, 0.36), (0.86, 0.36), (0.86, 0.86), (0.08, 0.86)];
    scene.polygon(&drawn.all(&case), Weight::Thin, Fill::Ink);
    scene.tag("lip", index);
    scene.polyline(&drawn.all(&[(0.16, 0.19), (0.3, 0.0), (0.45, 0.068)]), Weight::Thick);
    if spring {
        scene.tag("spring", index);
        scene.circle(drawn.at(0.26, 0.44), 0.095 * drawn.scale(), Weight::Thick, Fill::Ink);
    }
    scene.tag("body", index);
}

const OUTER: Fill = Fill::Hatched(45.0, 0.9);
const INNER: Fill = Fill::Hatched(135.0, 0.9);

fn ball_bearing(scene: &mut Scene, frame: Frame, mark: Option<(Mark, Side)>, index: usize) {
    let drawn = Drawn { frame, from: mark.map_or(Side::Left, |(_, side)| side) };
    scene.polygon(&drawn.all(&[(0.0, 0.7), (0.0, 1.0), (1.0, 1.0), (1.0, 0.7)]), Weight::Thick, OUTER);
    scene.polygon(&drawn.all(&[(0.0, 0.0), (0.0, 0.3), (1.0, 0.3), (1.0, 0.0)]), Weight::Thick, INNER);
    scene.circle(drawn.at(0.5, 0.5), 0.24 * drawn.scale(), Weight::Thick, Fill::None);
    let Some((mark, _)) = mark else { return };
    scene.tag("mark", index);
    match mark {
        Mark::Shield => {
            scene.polygon(&drawn.all(&[(0.04, 0.31), (0.04, 0.69), (0.11, 0.69), (0.11, 0.31)]), Weight::Thin, Fill::Ink);
        }
        Mark::Stamp => {
            stamp(scene, &drawn, 0.04, 0.26);
            stamp(scene, &drawn, 0.74, 0.96);
        }
        Mark::Chamfer | Mark::Boss | Mark::Face => face(scene, &drawn, 0.0, 0.3),
    }
    scene.tag("body", index);
}

/// Stamped figures, seen edge-on: a row of short inked strokes on the face, standing out of it.
fn stamp(scene: &mut Scene, drawn: &Drawn, from: f64, to: f64) {
    const STROKES: u32 = 3;
    let pitch = (to - from) / f64::from(STROKES);
    for stroke in 0..STROKES {
        let low = from + (f64::from(stroke) + 0.2) * pitch;
        let high = low + 0.6 * pitch;
        scene.polygon(&drawn.all(&[(0.0, low), (0.0, high), (-0.07, high), (-0.07, low)]), Weight::Thin, Fill::Ink);
    }
}

/// A face told apart by a heavy bar on it.
fn face(scene: &mut Scene, drawn: &Drawn, from: f64, to: f64) {
    scene.polygon(&drawn.all(&[(0.0, from), (0.0, to), (-0.06, to), (-0.06, from)]), Weight::Thin, Fill::Ink);
}

/// Rollers taper towards the cone's small end; their large ends, and the cone's rib, look to the side.
fn taper_bearing(scene: &mut Scene, drawn: &Drawn, index: usize) {
    scene.polygon(&drawn.all(&[(0.12, 1.0), (0.12, 0.86), (0.9, 0.68), (0.9, 1.0)]), Weight::Thick, OUTER);
    let cone = [(0.0, 0.0), (0.0, 0.46), (0.1, 0.46), (0.1, 0.38), (0.86, 0.3), (1.0, 0.36), (1.0, 0.0)];
    scene.polygon(&drawn.all(&cone), Weight::Thick, INNER);
    scene.tag("mark", index);
    scene.polygon(&drawn.all(&[(0.14, 0.4), (0.16, 0.83), (0.84, 0.67), (0.83, 0.33)]), Weight::Thick, Fill::None);
    scene.tag("body", index);
}

/// The sharp edge of a circlip's section, as a share of the box.
const CIRCLIP: (f64, f64) = (0.22, 0.36);

/// A stamped ring has two square corners on one side and two rounded ones on the other; wire is round.
fn circlip(scene: &mut Scene, frame: Frame, side: Option<Side>, index: usize) {
    let Some(side) = side else {
        let drawn = Drawn { frame, from: Side::Left };
        scene.circle(drawn.at(0.5, 0.62), 0.26 * drawn.scale(), Weight::Thick, Fill::Hatched(45.0, 0.7));
        return;
    };
    let drawn = Drawn { frame, from: side };
    let (near, low, far, high, round) = (CIRCLIP.0, CIRCLIP.1, 0.78, 0.88, 0.16);
    let mut outline = vec![(near, low), (near, high)];
    let corner = |cu: f64, cv: f64, from: u32| {
        (0..=4).map(move |step| {
            let angle = (f64::from(from) + 22.5 * f64::from(step)).to_radians();
            (cu + round * angle.sin(), cv + round * angle.cos())
        })
    };
    outline.extend(corner(far - round, high - round, 0));
    outline.extend(corner(far - round, low + round, 90));
    scene.polygon(&drawn.all(&outline), Weight::Thick, Fill::Hatched(45.0, 0.7));
    scene.tag("edge", index);
    scene.polyline(&drawn.all(&[(near, low), (near, high)]), Weight::Thick);
    scene.tag("body", index);
}

/// A cone: its inner edge stands back from the side its hollow looks to.
fn dished_washer(scene: &mut Scene, drawn: &Drawn, index: usize) {
    let outline = [(0.66, 0.06), (0.9, 0.12), (0.46, 0.94), (0.22, 0.88)];
    scene.polygon(&drawn.all(&outline), Weight::Thick, Fill::Hatched(45.0, 0.7));
    scene.tag("mark", index);
    scene.polyline(&drawn.all(&[(0.66, 0.06), (0.22, 0.88)]), Weight::Thick);
    scene.tag("body", index);
}

/// A gear's teeth are not hatched in a section (ISO 2203).
fn gear(scene: &mut Scene, frame: Frame, mark: Option<(Mark, Side)>, index: usize) {
    let drawn = Drawn { frame, from: mark.map_or(Side::Left, |(_, side)| side) };
    let is_bossed = matches!(mark, Some((Mark::Boss, _)));
    let body = if is_bossed {
        vec![(0.0, 0.0), (0.0, 0.26), (0.3, 0.26), (0.3, 0.72), (1.0, 0.72), (1.0, 0.0)]
    } else {
        vec![(0.05, 0.0), (0.05, 0.72), (0.95, 0.72), (0.95, 0.0)]
    };
    let (near, far) = if is_bossed { (0.3, 1.0) } else { (0.05, 0.95) };
    scene.polygon(&drawn.all(&body), Weight::Thick, OUTER);
    let is_chamfered = matches!(mark, Some((Mark::Chamfer, _)));
    let tooth = if is_chamfered {
        vec![(near, 0.72), (near, 0.82), (near + 0.14, 1.0), (far, 1.0), (far, 0.72)]
    } else {
        vec![(near, 0.72), (near, 1.0), (far, 1.0), (far, 0.72)]
    };
    scene.polygon(&drawn.all(&tooth), Weight::Thick, Fill::None);
    // The pitch line.
    scene.line(drawn.at(near, 0.87), drawn.at(far, 0.87), Weight::Chain);
    let Some((mark, _)) = mark else { return };
    scene.tag("mark", index);
    match mark {
        Mark::Chamfer => scene.polyline(&drawn.all(&[(near, 0.82), (near + 0.14, 1.0)]), Weight::Thick),
        Mark::Boss => scene.polyline(&drawn.all(&[(0.0, 0.0), (0.0, 0.26)]), Weight::Thick),
        Mark::Stamp => stamp(scene, &Drawn { frame: drawn.inset(near), from: drawn.from }, 0.1, 0.5),
        Mark::Shield | Mark::Face => face(scene, &Drawn { frame: drawn.inset(near), from: drawn.from }, 0.0, 0.72),
    }
    scene.tag("body", index);
}

/// The teeth run down from the large end at the back to the small end, and have no hub: which side has one, no word tells.
fn bevel_gear(scene: &mut Scene, drawn: &Drawn, index: usize) {
    scene.polygon(&drawn.all(&[(0.05, 0.0), (0.05, 0.34), (0.84, 0.72), (0.95, 0.55), (0.95, 0.0)]), Weight::Thick, OUTER);
    scene.tag("mark", index);
    scene.polygon(&drawn.all(&[(0.05, 0.34), (0.0, 0.5), (0.72, 1.0), (0.84, 0.72)]), Weight::Thick, Fill::None);
    // The pitch line.
    scene.line(drawn.at(0.03, 0.41), drawn.at(0.78, 0.86), Weight::Chain);
    scene.tag("body", index);
}

fn ring(scene: &mut Scene, frame: Frame, mark: Option<(Mark, Side)>, index: usize) {
    let drawn = Drawn { frame, from: mark.map_or(Side::Left, |(_, side)| side) };
    let body = if matches!(mark, Some((Mark::Boss, _))) {
        vec![(0.0, 0.0), (0.0, 0.3), (0.4, 0.3), (0.4, 0.85), (1.0, 0.85), (1.0, 0.0)]
    } else {
        vec![(0.06, 0.0), (0.06, 0.85), (0.94, 0.85), (0.94, 0.0)]
    };
    scene.polygon(&drawn.all(&body), Weight::Thick, OUTER);
    let Some((mark, _)) = mark else { return };
    scene.tag("mark", index);
    let flush = Drawn { frame: drawn.inset(0.06), from: drawn.from };
    match mark {
        Mark::Boss => scene.polyline(&drawn.all(&[(0.0, 0.0), (0.0, 0.3)]), Weight::Thick),
        Mark::Stamp => stamp(scene, &flush, 0.1, 0.6),
        Mark::Shield | Mark::Chamfer | Mark::Face => face(scene, &flush, 0.0, 0.85),
    }
    scene.tag("body", index);
}

impl Drawn {
    /// The box with its near side drawn in.
    fn inset(&self, u: f64) -> Frame {
        let by = u * (self.frame.right - self.frame.left);
        match self.from {
            Side::Left => Frame { left: self.frame.left + by, ..self.frame },
            Side::Right => Frame { right: self.frame.right - by, ..self.frame },
        }
    }
}
