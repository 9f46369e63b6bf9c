//! Item references after ISO 6433: balloons of one size with leader lines, and the list that tells what the items are.

use super::dimension::arrowhead;
use super::geometry::{Point, point};
use super::lettering::{ABOVE_LINE, BELOW_LINE, LINE_PITCH, NOTE, text_width, wrapped};
use super::scene::{Anchor, Fill, Scene, Weight};

/// Radius of the dot at the end of a leader line, in millimetres.
const DOT: f64 = 0.32;

/// What a leader line ends with (ISO 128-2, annex on leader lines).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeaderEnd {
    /// A dot within the outline of the item.
    Dot,
    /// An arrowhead on the outline.
    Arrow,
}

/// A leader line to a point.
pub fn leader(scene: &mut Scene, from: Point, to: Point, end: LeaderEnd) {
    scene.line(from, to, Weight::Thin);
    match end {
        LeaderEnd::Dot => scene.circle(to, DOT, Weight::Thin, Fill::Ink),
        LeaderEnd::Arrow => arrowhead(scene, to, from),
    }
}

/// The radius of all balloons of a drawing whose greatest number is `most`.
#[must_use]
pub fn balloon_radius(most: usize) -> f64 {
    let (width, height) = (text_width(&most.to_string(), NOTE), ABOVE_LINE * NOTE);
    (width.hypot(height) / 2.0 + 0.5).max(NOTE * 0.85)
}

/// A numbered balloon, with a leader line where it points at something.
pub fn balloon(scene: &mut Scene, centre: Point, radius: f64, number: usize, target: Option<(Point, LeaderEnd)>) {
    if let Some((target, end)) = target {
        leader(scene, centre.toward(target, radius), target, end);
    }
    scene.circle(centre, radius, Weight::Thin, Fill::None);
    // Figures reach from the line they stand on to about 0.73 of the size.
    scene.text(centre.moved(0.0, 0.365 * NOTE), Anchor::Middle, NOTE, number.to_string());
}

/// The list of items, a number and a text each, from the upper left corner on, no wider than `width`; returns the
/// y of its lower edge.
pub fn item_list(scene: &mut Scene, corner: Point, width: f64, items: &[(usize, String)]) -> f64 {
    let widest = items.iter().map(|(number, _)| text_width(&number.to_string(), NOTE)).fold(0.0, f64::max);
    let indent = if widest > 0.0 { widest + 1.5 } else { 0.0 };
    let mut bottom = corner.y;
    for (number, text) in items {
        let lines = wrapped(text, NOTE, width - indent);
        scene.text(point(corner.x + widest, bottom + ABOVE_LINE * NOTE), Anchor::End, NOTE, number.to_string());
        for line in lines {
            scene.text(point(corner.x + indent, bottom + ABOVE_LINE * NOTE), Anchor::Start, NOTE, line);
            bottom += LINE_PITCH * NOTE;
        }
    }
    if items.is_empty() { corner.y } else { bottom - (LINE_PITCH - ABOVE_LINE - BELOW_LINE) * NOTE }
}

#[cfg(test)]
mod tests {
    use super::super::{Drawing, WIDTH};
    use super::*;

    #[test]
    fn numbers_fit_their_balloons_and_the_list_its_width() {
        for most in [1, 9, 12, 88, 188] {
            let mut scene = Scene::new();
            let radius = balloon_radius(most);
            let target = (point(30.0, 30.0), LeaderEnd::Dot);
            balloon(&mut scene, point(10.0, 10.0), radius, most, Some(target));
            balloon(&mut scene, point(30.0, 10.0), radius, 1, Some((point(40.0, 30.0), LeaderEnd::Arrow)));
            let text = "propeller-shaft seal, inner, 30x42x7 mm, with its spring toward the gear oil".to_owned();
            let bottom =
                item_list(&mut scene, point(1.0, 40.0), WIDTH - 2.0, &[(1, text), (most, "grease".to_owned())]);
            let drawing = Drawing::new("t", "d", scene);
            assert_eq!(drawing.faults(), [], "{most}");
            assert!((drawing.height_mm - bottom - super::super::MARGIN).abs() < 1e-9);
        }
    }
}
