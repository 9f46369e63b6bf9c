//! A torque wrench with an extension or crowfoot: its lengths, the angle between them, and what to set.
//!
//! Source of the formula: FAA AC 43.13-1B, chapter 7 (`trade::wrench`); L is measured from the middle of the grip to the
//! square, E from the square to the fastener.

use super::drawing::{
    Bounds, Drawing, FIGURE, Fill, MARGIN, NOTE, Point, Scene, WIDTH, Weight, arrowhead, dimension_across, dimension_arc,
    point, polar, text_width,
};
use super::paper;

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct WrenchAdapter {
    /// Length of the wrench, L, mm.
    pub length_mm: f64,
    /// Length of the adapter, E, mm.
    pub adapter_mm: f64,
    /// Angle of the adapter to the wrench's line, degrees; 0 in line, 90 square.
    pub angle_deg: f64,
    /// The words of the drawing.
    pub words: WrenchWords,
}

/// The words of a drawing of a wrench.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WrenchWords {
    /// What it shows.
    pub title: String,
    /// All that is drawn, in sentences.
    pub description: String,
    /// The wrench's length: `L 270 mm`.
    pub length: String,
    /// The adapter's: `E 45 mm`.
    pub adapter: String,
    /// The angle; not drawn where it is nothing.
    pub angle: String,
    /// What to set.
    pub set: Vec<String>,
    /// How that is reckoned.
    pub formula: String,
    /// Says that the lengths are not drawn to scale.
    pub not_to_scale: String,
}

/// Radius of the wrench's head.
const HEAD: f64 = 2.2;
/// Radius of the adapter's end.
const RING: f64 = 2.4;
/// The grip reaches so far beyond its middle.
const GRIP: f64 = 4.0;
/// Shortest adapter between whose two ends something is left to see.
const SHORTEST: f64 = HEAD + RING + 0.8;
/// From the adapter to its dimension line.
const ASIDE: f64 = 5.0;
/// From the adapter's end to the arc of the angle.
const ARC: f64 = 2.0;

/// From the adapter's dimension line to its value, and along it from the middle: the first that is clear of all lines.
const NUDGES: [(f64, f64); 6] = [(0.8, 0.0), (1.6, 0.0), (0.8, 3.0), (2.6, 0.0), (1.6, 3.0), (1.6, 6.0)];

/// Where dimensions stand, of the places they may have.
struct Look {
    /// The adapter's length on its left or right: 1 or −1.
    side: f64,
    /// The angle near the square rather than beyond the adapter.
    near: bool,
    away: f64,
    along: f64,
}

/// The two lengths on the paper, mm.
struct Lengths {
    wrench: f64,
    adapter: f64,
    is_to_scale: bool,
}

impl WrenchAdapter {
    /// The drawing. None where a length is none.
    #[must_use]
    pub fn drawing(&self) -> Option<Drawing> {
        let angle = self.angle_deg.abs().rem_euclid(360.0);
        // To the left or to the right: the torque is the same.
        let angle = if angle > 180.0 { 360.0 - angle } else { angle };
        let lengths = self.lengths(angle)?;
        let looks = NUDGES.into_iter().flat_map(|(away, along)| {
            let sides = [(1.0, false), (-1.0, false), (-1.0, true), (1.0, true)];
            sides.map(|(side, near)| Look { side, near, away, along })
        });
        looks.map(|look| self.drawn(&lengths, angle, &look)).find(|drawing| drawing.faults().is_empty())
    }

    /// Both lengths to one scale where the adapter is long enough on it.
    fn lengths(&self, angle: f64) -> Option<Lengths> {
        if !(self.length_mm > 0.0 && self.adapter_mm > 0.0 && angle.is_finite()) {
            return None;
        }
        let cosine = angle.to_radians().cos();
        let fixed = 2.0 * MARGIN + GRIP + if is_angled(angle) { RING + ARC + text_width(&self.words.angle, FIGURE) + 1.0 } else { RING + 0.5 };
        let room = WIDTH - fixed;
        // With an angle, the arc's radius is what reaches farthest to the right.
        let right = if is_angled(angle) { self.adapter_mm } else { self.adapter_mm * cosine.max(0.0) };
        let scale = room / (self.length_mm.max(-self.adapter_mm * cosine) + right);
        let (wrench, adapter) = (self.length_mm * scale, self.adapter_mm * scale);
        if (SHORTEST..=30.0).contains(&adapter) && wrench >= 3.0 * GRIP {
            return Some(Lengths { wrench, adapter, is_to_scale: true });
        }
        let adapter: f64 = if self.adapter_mm < self.length_mm { 8.0 } else { 18.0 };
        Some(Lengths { wrench: room - adapter, adapter, is_to_scale: false })
    }

    fn drawn(&self, lengths: &Lengths, angle: f64, look: &Look) -> Drawing {
        let mut scene = Scene::new();
        let grip = point(MARGIN + GRIP, 0.0);
        let square = grip.moved(lengths.wrench, 0.0);
        let joint = polar(square, lengths.adapter, 90.0 - angle);
        wrench(&mut scene, grip, square);
        adapter(&mut scene, square, joint);
        scene.tag("length", 0);
        dimension_across(&mut scene, grip.x, square.x, 2.6, 9.0, FIGURE, &self.words.length);
        self.dimension_of_adapter(&mut scene, square, joint, look);
        if is_angled(angle) {
            self.angle(&mut scene, square, lengths.adapter, angle, look.near);
        }
        scene.tag("set", 0);
        for set in &self.words.set {
            paper::note(&mut scene, FIGURE, set);
        }
        paper::note(&mut scene, NOTE, &self.words.formula);
        if !lengths.is_to_scale {
            scene.tag("not-to-scale", 0);
            paper::note(&mut scene, NOTE, &self.words.not_to_scale);
        }
        paper::to_the_top(&mut scene);
        Drawing::new(self.words.title.clone(), self.words.description.clone(), scene)
    }

    /// The adapter's length, along it, on its left or right.
    fn dimension_of_adapter(&self, scene: &mut Scene, square: Point, joint: Point, look: &Look) {
        let Some((along, (x, y))) = paper::directions(square, joint) else { return };
        let (x, y) = (x * look.side, y * look.side);
        scene.tag("adapter", 0);
        let out = |at: Point, by: f64| at.moved(x * by, y * by);
        for (at, from) in [(square, HEAD), (joint, RING)] {
            scene.line(out(at, from + 0.6), out(at, ASIDE + 0.6), Weight::Thin);
        }
        let (from, to) = (out(square, ASIDE), out(joint, ASIDE));
        scene.line(from, to, Weight::Thin);
        arrowhead(scene, from, to);
        arrowhead(scene, to, from);
        let middle = point(f64::midpoint(from.x, to.x), f64::midpoint(from.y, to.y));
        paper::text_beside(scene, middle.moved(x * look.away + along.0 * look.along, y * look.away + along.1 * look.along), (x, y), FIGURE, &[&self.words.adapter]);
    }

    /// The wrench's line carried on, and the arc from it to the adapter's.
    fn angle(&self, scene: &mut Scene, square: Point, adapter: f64, angle: f64, near: bool) {
        scene.tag("angle", 0);
        let radius = if near { HEAD + 3.4 } else { adapter + RING + ARC };
        scene.line(square.moved(HEAD + 0.4, 0.0), square.moved(radius + 0.8, 0.0), Weight::Chain);
        if !near {
            let end = 90.0 - angle;
            scene.line(polar(square, radius - ARC + 0.4, end), polar(square, radius + 0.8, end), Weight::Chain);
        }
        dimension_arc(scene, square, radius, 90.0 - angle, angle);
        // Where the angle is small its arrows stand outside, and its value above them.
        let outside = 2.5 * (1.8 / radius).to_degrees() >= angle;
        let at = match (outside, near) {
            (true, _) => 90.0 - angle - 18.0,
            (false, true) => 68.0,
            (false, false) => 90.0 - angle / 2.0,
        };
        let direction = (at.to_radians().sin(), -at.to_radians().cos());
        paper::text_beside(scene, polar(square, radius + 0.6, at), direction, FIGURE, &[&self.words.angle]);
    }
}

fn is_angled(angle: f64) -> bool {
    angle > 0.5
}

/// Grip, tube and head with its square; L ends in the middle of the grip.
fn wrench(scene: &mut Scene, grip: Point, square: Point) {
    scene.tag("wrench", 0);
    let end = grip.moved(2.0 * GRIP, 0.0);
    scene.rectangle(Bounds { left: end.x, top: -0.9, right: square.x - HEAD + 0.2, bottom: 0.9 }, Weight::Thick, Fill::None);
    let (left, right, half, cut) = (grip.x - GRIP, end.x, 1.9, 0.7);
    let grip_outline = [
        point(left + cut, -half), point(right - cut, -half), point(right, cut - half), point(right, half - cut),
        point(right - cut, half), point(left + cut, half), point(left, half - cut), point(left, cut - half),
    ];
    scene.polygon(&grip_outline, Weight::Thick, Fill::Tint);
    scene.line(grip.moved(0.0, -3.0), grip.moved(0.0, 2.4), Weight::Thin);
    scene.circle(square, HEAD, Weight::Thick, Fill::None);
    // A square with its diagonals is a flat face.
    let flat = Bounds { left: square.x - 1.0, top: -1.0, right: square.x + 1.0, bottom: 1.0 };
    scene.rectangle(flat, Weight::Thin, Fill::None);
    let [a, b, c, d] = flat.corners();
    scene.line(a, c, Weight::Thin);
    scene.line(b, d, Weight::Thin);
}

/// The bar from the head to the fastener, and the fastener in it.
fn adapter(scene: &mut Scene, square: Point, joint: Point) {
    scene.tag("bar", 0);
    if let Some((along, (x, y))) = paper::directions(square, joint) {
        let from = square.moved(along.0 * (HEAD - 0.2), along.1 * (HEAD - 0.2));
        let to = joint.moved(-along.0 * (RING - 0.2), -along.1 * (RING - 0.2));
        for side in [1.1, -1.1] {
            scene.line(from.moved(x * side, y * side), to.moved(x * side, y * side), Weight::Thick);
        }
    }
    scene.tag("joint", 0);
    scene.circle(joint, RING, Weight::Thick, Fill::None);
    let hexagon: Vec<Point> = (0..6).map(|corner| polar(joint, 1.5, 30.0 + 60.0 * f64::from(corner))).collect();
    scene.polygon(&hexagon, Weight::Thin, Fill::Ink);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::drawing::Mark;
    use proptest::prelude::*;

    fn sample(length_mm: f64, adapter_mm: f64, angle_deg: f64) -> WrenchAdapter {
        let words = WrenchWords {
            title: "Torque wrench".to_owned(),
            description: "With a crowfoot.".to_owned(),
            length: format!("L {length_mm:.0} mm"),
            adapter: format!("E {adapter_mm:.0} mm"),
            angle: format!("{angle_deg:.0}°"),
            set: vec!["set 60.9 N·m for 70 N·m".to_owned()],
            formula: "70 × 300 ÷ (300 + 45 × cos 0°)".to_owned(),
            not_to_scale: "not to scale".to_owned(),
        };
        WrenchAdapter { length_mm, adapter_mm, angle_deg, words }
    }

    /// Centres of circles with a tag.
    fn centre(drawing: &Drawing, tag: &str) -> Point {
        let circle = drawing.scene.tagged(tag, 0).find_map(|item| match item.mark {
            Mark::Circle { centre, .. } => Some(centre),
            _ => None,
        });
        circle.unwrap()
    }

    /// What the drawing's own lines say: L, E, the angle.
    fn read(drawing: &Drawing) -> (f64, f64, f64) {
        let (square, joint) = (centre(drawing, "wrench"), centre(drawing, "joint"));
        // The line across the middle of the grip.
        let grip = drawing.scene.tagged("wrench", 0).find_map(|item| match &item.mark {
            Mark::Path { points, weight: Weight::Thin, closed: false, .. } => points.first().map(|at| at.x),
            _ => None,
        });
        let angle = (square.y - joint.y).atan2(joint.x - square.x).to_degrees();
        (square.x - grip.unwrap(), square.distance(joint), angle)
    }

    #[test]
    fn usual_wrenches_are_drawn_to_scale() {
        for (length, adapter, angle) in [(300.0, 45.0, 0.0), (270.0, 45.0, 45.0), (270.0, 60.0, 90.0), (250.0, 80.0, 30.0), (300.0, 60.0, 135.0), (300.0, 100.0, 0.0)] {
            let drawing = sample(length, adapter, angle).drawing().unwrap_or_else(|| panic!("{length} {adapter} {angle}"));
            assert_eq!(drawing.scene.tagged("not-to-scale", 0).count(), 0, "{length} {adapter} {angle}");
        }
        let short = sample(600.0, 30.0, 0.0).drawing().unwrap();
        assert_eq!(short.scene.tagged("not-to-scale", 0).count(), 1);
    }

    #[test]
    fn every_angle_of_a_crowfoot_is_drawn() {
        for share in [0.03, 0.15, 0.3, 0.6, 1.1] {
            for angle in 0..=36_u32 {
                let angle = 5.0 * f64::from(angle);
                assert!(sample(300.0, 300.0 * share, angle).drawing().is_some(), "{share} {angle}");
            }
        }
    }

    #[test]
    fn what_is_no_length_is_not_drawn() {
        for (length, adapter, angle) in [(0.0, 45.0, 0.0), (300.0, 0.0, 0.0), (f64::NAN, 45.0, 0.0), (300.0, 45.0, f64::NAN), (300.0, -45.0, 0.0)] {
            assert_eq!(sample(length, adapter, angle).drawing(), None);
        }
        assert!(sample(f64::MAX, f64::MIN_POSITIVE, 1e300).drawing().is_none_or(|drawing| drawing.faults().is_empty()));
    }

    proptest! {
        #[test]
        fn proportions_are_true_or_marked(length in 120.0..700.0_f64, share in 0.03..0.6_f64, angle in 0.0..180.0_f64) {
            let adapter = length * share;
            let Some(drawing) = sample(length, adapter, angle).drawing() else {
                prop_assert!(false, "{} {} is not drawn", share, angle);
                return Ok(());
            };
            prop_assert_eq!(drawing.faults(), []);
            let (drawn_length, drawn_adapter, drawn_angle) = read(&drawing);
            prop_assert!((drawn_angle.rem_euclid(360.0) - angle).abs() < 1e-6);
            let marked = drawing.scene.tagged("not-to-scale", 0).count() > 0;
            let is_true = (drawn_adapter / drawn_length / share - 1.0).abs() < 1e-6;
            prop_assert!(is_true || marked, "{} {}", drawn_adapter, drawn_length);
        }
    }
}
