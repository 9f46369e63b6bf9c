//! Dimensions as ISO 129-1 has them: extension lines, a dimension line with closed filled arrowheads, the value above
//! the line, read from the bottom or from the right.

use super::geometry::{Point, point, polar};
use super::lettering::{BELOW_LINE, text_width};
use super::scene::{Anchor, Fill, Scene, Weight};

/// Length of an arrowhead in millimetres: ten narrow lines.
const HEAD: f64 = 1.8;
/// Half its width.
const HEAD_HALF: f64 = 0.3;
/// How far an extension line starts from what it measures, and how far it runs past the dimension line.
const GAP: f64 = 0.6;
/// Room between a value and its line.
const LIFT: f64 = 0.5;

/// A closed filled arrowhead with its tip at a point, coming from another.
pub fn arrowhead(scene: &mut Scene, tip: Point, from: Point) {
    let whole = tip.distance(from).max(f64::EPSILON);
    let (dx, dy) = ((from.x - tip.x) / whole, (from.y - tip.y) / whole);
    let base = tip.moved(dx * HEAD, dy * HEAD);
    let sides = [base.moved(-dy * HEAD_HALF, dx * HEAD_HALF), base.moved(dy * HEAD_HALF, -dx * HEAD_HALF)];
    scene.polygon(&[tip, sides[0], sides[1]], Weight::Thin, Fill::Ink);
}

/// A dimension from `left` to `right` of what reaches to `feature` (its y), on a dimension line at `line` (its y).
/// Where the value does not fit between the extension lines, it stands to the right of them.
pub fn dimension_across(scene: &mut Scene, left: f64, right: f64, feature: f64, line: f64, size: f64, value: &str) {
    let outward = if line < feature { -GAP } else { GAP };
    for x in [left, right] {
        scene.line(point(x, feature + outward), point(x, line + outward), Weight::Thin);
    }
    let ends = Ends::new(right - left, text_width(value, size));
    let (from, to) = ends.reach(left, right, text_width(value, size));
    scene.line(point(from, line), point(to, line), Weight::Thin);
    let outside = if ends.arrows_inside { 1.0 } else { -1.0 };
    arrowhead(scene, point(left, line), point(left + outside, line));
    arrowhead(scene, point(right, line), point(right - outside, line));
    let above = line - LIFT - BELOW_LINE * size;
    match ends.text_inside {
        true => scene.text(point(f64::midpoint(left, right), above), Anchor::Middle, size, value),
        false => scene.text(point(right + 2.0 * GAP, above), Anchor::Start, size, value),
    }
}

/// A dimension from `top` to `bottom` of what reaches to `feature` (its x), on a dimension line at `line` (its x).
/// The value is read from the right. Where it does not fit, it stands above the upper extension line.
pub fn dimension_up(scene: &mut Scene, top: f64, bottom: f64, feature: f64, line: f64, size: f64, value: &str) {
    let outward = if line < feature { -GAP } else { GAP };
    for y in [top, bottom] {
        scene.line(point(feature + outward, y), point(line + outward, y), Weight::Thin);
    }
    let width = text_width(value, size);
    let ends = Ends::new(bottom - top, width);
    // Upwards is the way the value is read, so its room outside is above.
    let (from, to) = ends.reach(-bottom, -top, width);
    scene.line(point(line, -from), point(line, -to), Weight::Thin);
    let outside = if ends.arrows_inside { 1.0 } else { -1.0 };
    arrowhead(scene, point(line, top), point(line, top + outside));
    arrowhead(scene, point(line, bottom), point(line, bottom - outside));
    let beside = line - LIFT - BELOW_LINE * size;
    match ends.text_inside {
        true => scene.text_turned(point(beside, f64::midpoint(top, bottom)), Anchor::Middle, size, value),
        false => scene.text_turned(point(beside, top - 2.0 * GAP), Anchor::Start, size, value),
    }
}

/// The dimension line of an arc, clockwise from `from` over `sweep` degrees, with arrowheads along it; the caller
/// sets the value where there is room.
pub fn dimension_arc(scene: &mut Scene, centre: Point, radius: f64, from: f64, sweep: f64) {
    // An arrowhead is a chord of its own length.
    let head = (HEAD / radius.max(HEAD)).to_degrees();
    let inside = sweep > 2.5 * head;
    let (start, whole) = if inside { (from, sweep) } else { (from - 2.0 * head, sweep + 4.0 * head) };
    scene.arc(centre, radius, start, whole, Weight::Thin);
    let back = if inside { head } else { -head };
    arrowhead(scene, polar(centre, radius, from), polar(centre, radius, from + back));
    arrowhead(scene, polar(centre, radius, from + sweep), polar(centre, radius, from + sweep - back));
}

/// What fits between the extension lines.
struct Ends {
    arrows_inside: bool,
    text_inside: bool,
}

impl Ends {
    fn new(room: f64, text: f64) -> Self {
        Self { arrows_inside: room > 3.0 * HEAD, text_inside: text + 2.0 * GAP < room }
    }

    /// How far the dimension line reaches: past the arrows outside, and under the value outside.
    fn reach(&self, from: f64, to: f64, text: f64) -> (f64, f64) {
        let past = if self.arrows_inside { 0.0 } else { 2.0 * HEAD };
        let under = if self.text_inside { 0.0 } else { text + 2.0 * GAP };
        (from - past, to + past.max(under))
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Drawing, FIGURE};
    use super::*;

    #[test]
    fn values_stand_clear_of_their_lines_wide_and_narrow() {
        for (right, value) in [(40.0, "30 mm"), (22.0, "2 mm"), (20.6, "0.05 mm"), (30.0, "100.25 mm")] {
            let mut scene = Scene::new();
            dimension_across(&mut scene, 20.0, right, 20.0, 12.0, FIGURE, value);
            dimension_up(&mut scene, 30.0, 30.0 + right - 20.0, 20.0, 12.0, FIGURE, value);
            dimension_arc(&mut scene, point(45.0, 45.0), 9.0, -20.0, right - 20.0);
            assert_eq!(Drawing::new("t", "d", scene).faults(), [], "{value}");
        }
    }
}
