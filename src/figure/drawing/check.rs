//! What is wrong with a drawing as a drawing, from the boxes of its marks.

use super::Drawing;
use super::geometry::{Bounds, Point};
use super::scene::{Fill, Item, Mark, Weight};

/// A fault of a drawing. Marks are told by their position among its items.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A mark that leaves the paper, or has no place at all.
    Outside(usize),
    /// Two texts that overlap.
    TextOverText(usize, usize),
    /// A line, or something filled with ink, that runs through a text.
    LineThroughText {
        /// The line.
        line: usize,
        /// The text.
        text: usize,
    },
}

pub(super) fn faults(drawing: &Drawing) -> Vec<Fault> {
    let items = &drawing.scene.items;
    let paper = Bounds { left: 0.0, top: 0.0, right: drawing.width_mm, bottom: drawing.height_mm };
    let outside = items.iter().enumerate().filter(|(_, item)| !item.mark.bounds().within(paper));
    let mut faults: Vec<Fault> = outside.map(|(index, _)| Fault::Outside(index)).collect();
    let lines: Vec<Line> = items.iter().enumerate().filter_map(Line::of).collect();
    let texts: Vec<(usize, Bounds)> = items.iter().enumerate().filter_map(text).collect();
    for (position, (one, bounds)) in texts.iter().enumerate() {
        let later = texts.iter().skip(position + 1);
        faults.extend(
            later.filter(|(_, other)| bounds.overlaps(*other)).map(|(other, _)| Fault::TextOverText(*one, *other)),
        );
        let through = lines.iter().filter(|line| line.runs_through(*bounds));
        faults.extend(through.map(|line| Fault::LineThroughText { line: line.index, text: *one }));
    }
    faults
}

fn text((index, item): (usize, &Item)) -> Option<(usize, Bounds)> {
    match &item.mark {
        Mark::Text { text, .. } if !text.trim().is_empty() => Some((index, item.mark.bounds())),
        _ => None,
    }
}

/// A mark's line, as corners, with the box round it.
struct Line {
    index: usize,
    corners: Vec<Point>,
    bounds: Bounds,
    is_inked: bool,
}

impl Line {
    /// None for text, for what has no place, and for a wash, which has no line to strike a text through.
    fn of((index, item): (usize, &Item)) -> Option<Self> {
        let (weight, fill) = match &item.mark {
            Mark::Path { weight, fill, .. } | Mark::Circle { weight, fill, .. } => (*weight, *fill),
            Mark::Arc { weight, .. } => (*weight, Fill::None),
            Mark::Text { .. } => return None,
        };
        let corners = item.mark.outline();
        let bounds = Bounds::around(&corners).filter(|_| weight != Weight::None)?;
        Some(Self { index, corners, bounds, is_inked: fill == Fill::Ink })
    }

    fn runs_through(&self, text: Bounds) -> bool {
        // A level line has a box without height, which overlaps nothing.
        let is_near = self.bounds.grown(1e-6).overlaps(text);
        let crosses = || self.corners.windows(2).any(|pair| matches!(pair, [from, to] if text.is_crossed_by(*from, *to)));
        is_near && (self.is_inked || crosses())
    }
}

#[cfg(test)]
mod tests {
    use super::super::geometry::point;
    use super::super::scene::{Anchor, Scene, Weight};
    use super::*;

    fn drawn(draw: impl Fn(&mut Scene)) -> Vec<Fault> {
        let mut scene = Scene::new();
        scene.text(point(10.0, 10.0), Anchor::Start, 2.5, "gear oil");
        draw(&mut scene);
        Drawing::new("t", "d", scene).faults()
    }

    #[test]
    fn each_fault_is_found_and_a_good_drawing_has_none() {
        assert_eq!(drawn(|scene| scene.text(point(10.0, 13.0), Anchor::Start, 2.5, "grease")), []);
        assert_eq!(drawn(|scene| scene.line(point(0.5, 11.0), point(59.0, 11.0), Weight::Thick)), []);
        let over = |scene: &mut Scene| scene.text(point(15.0, 11.0), Anchor::Middle, 2.5, "grease");
        assert_eq!(drawn(over), [Fault::TextOverText(0, 1)]);
        let turned = |scene: &mut Scene| scene.text_turned(point(13.0, 12.0), Anchor::Start, 2.5, "grease");
        assert_eq!(drawn(turned), [Fault::TextOverText(0, 1)]);
        let struck = |scene: &mut Scene| scene.line(point(0.5, 9.5), point(59.0, 9.5), Weight::Thin);
        assert_eq!(drawn(struck), [Fault::LineThroughText { line: 1, text: 0 }]);
        let inked = |scene: &mut Scene| scene.circle(point(13.0, 9.0), 5.0, Weight::Thin, Fill::Ink);
        assert_eq!(drawn(inked), [Fault::LineThroughText { line: 1, text: 0 }]);
        let out = |scene: &mut Scene| scene.text(point(55.0, 20.0), Anchor::Start, 2.5, "grease");
        assert_eq!(drawn(out), [Fault::Outside(1)]);
        let nowhere = |scene: &mut Scene| scene.line(point(f64::NAN, 1.0), point(2.0, 2.0), Weight::Thin);
        assert!(drawn(nowhere).contains(&Fault::Outside(1)));
    }
}
