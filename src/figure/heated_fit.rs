//! An interference fit before and after the heat or the cold that opens it: two sections, cold and ready.
//!
//! Interference and gap are far too small for paper. Both are drawn larger, by the same factor, so that one sees what
//! the heat wins; the gap is that of `trade::fit`.

use super::drawing::{
    Anchor, Bounds, Drawing, FIGURE, Fill, LINE_PITCH, LeaderEnd, MARGIN, NOTE, Point, Scene, WIDTH, Weight, arrowhead,
    dimension_across, leader, point, wrapped,
};
use super::paper;

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatedFit {
    /// Interference on the diameter while both are at the bench's temperature, mm.
    pub interference_mm: f64,
    /// Gap on the diameter when one is warm (or the other cold), mm.
    pub gap_mm: f64,
    /// What is made warmer or colder.
    pub changed: Changed,
    /// What goes into what.
    pub joint: Joint,
    /// The words of the drawing.
    pub words: FitWords,
}

/// The part whose temperature changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Changed {
    /// The outer part is heated.
    OuterHeated,
    /// The inner part is chilled.
    InnerChilled,
}

/// What goes into what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// A bearing into a housing.
    BearingInHousing,
    /// A bearing onto a shaft.
    BearingOnShaft,
}

/// The words of a drawing of a fit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FitWords {
    /// What it shows.
    pub title: String,
    /// All that is drawn, in sentences.
    pub description: String,
    /// The joint's diameter: `Ø 62 mm`.
    pub diameter: String,
    /// The temperature of the cold section: `20 °C`.
    pub before: String,
    /// That of the other: `80 °C`.
    pub after: String,
    /// `tight by max 0.040 mm`.
    pub interference: String,
    /// `gap 0.05 mm`.
    pub gap: String,
    /// Says that the difference is drawn larger than it is.
    pub enlarged: String,
}

/// The greater of interference and gap on each side of a section, mm of paper.
const GREATEST: f64 = 1.5;
/// The smaller is drawn no smaller than this, to be seen at all.
const SMALLEST: f64 = 0.45;
/// Half the width of the joint on the paper.
const HALF: f64 = 5.6;
/// Width of a housing's wall, and of a bearing's section round a shaft.
const WALL: f64 = 3.9;
/// Height of the outer part, and of the inner.
const OUTER: f64 = 11.0;
const INNER: f64 = 8.0;
/// The line on which the lowest of the values above the sections stand.
const VALUES: f64 = -INNER - 4.0;
/// Width of the text above a section.
const COLUMN: f64 = WIDTH / 2.0 - 2.0 * MARGIN;

/// Half widths of a joint: of the hole and of what goes into it.
struct Halves {
    hole: f64,
    inner: f64,
}

impl HeatedFit {
    /// The drawing. None where there is no interference, or the gap is none.
    #[must_use]
    pub fn drawing(&self) -> Option<Drawing> {
        let (interference, gap) = self.on_paper()?;
        let mut scene = Scene::new();
        let (left, right) = (WIDTH * 0.25, WIDTH * 0.75);
        let inner = HALF + interference;
        let cold = Halves { hole: HALF, inner };
        let ready = match self.changed {
            Changed::OuterHeated => Halves { hole: inner + gap, inner },
            Changed::InnerChilled => Halves { hole: HALF, inner: HALF - gap },
        };
        // Cold, what goes in rests on the edge of the hole; ready, it has dropped in.
        self.section(&mut scene, 0, point(left, 0.0), &cold, -INNER - 0.1);
        self.section(&mut scene, 1, point(right, 0.0), &ready, (OUTER - INNER) / 2.0);
        scene.tag("diameter", 0);
        dimension_across(&mut scene, left - HALF, left + HALF, OUTER, OUTER + 5.5, FIGURE, &self.words.diameter);
        scene.tag("way", 0);
        let from = point(left + HALF + WALL + 1.2, OUTER / 2.0);
        let to = point(right - ready.hole - WALL - 1.2, OUTER / 2.0);
        scene.line(from, to, Weight::Thick);
        arrowhead(&mut scene, to, from);
        let values = [&self.words.interference, &self.words.gap].map(|text| wrapped(text, NOTE, COLUMN));
        let lines = values.iter().map(Vec::len).max().unwrap_or(0);
        for (index, (centre, halves)) in [(left, &cold), (right, &ready)].into_iter().enumerate() {
            self.values(&mut scene, index, centre, halves, values.get(index).map_or(&[], Vec::as_slice), lines);
        }
        scene.tag("enlarged", 0);
        paper::note(&mut scene, NOTE, &self.words.enlarged);
        paper::to_the_top(&mut scene);
        let drawing = Drawing::new(self.words.title.clone(), self.words.description.clone(), scene);
        drawing.faults().is_empty().then_some(drawing)
    }

    /// Interference and gap on each side, as drawn.
    fn on_paper(&self) -> Option<(f64, f64)> {
        let (interference, gap) = (self.interference_mm, self.gap_mm);
        let factor = GREATEST / interference.max(gap);
        let drawn = |real: f64| (real > 0.0 && real.is_finite() && factor.is_finite()).then(|| (real * factor).max(SMALLEST));
        Some((drawn(interference)?, drawn(gap)?))
    }

    /// Outer part from y 0 down, inner part from `top` down; in ink what is too much.
    fn section(&self, scene: &mut Scene, index: usize, centre: Point, halves: &Halves, top: f64) {
        scene.tag("outer", index);
        for side in [-1.0, 1.0] {
            let wall = upright(centre, side * halves.hole, side * (halves.hole + WALL), 0.0, OUTER);
            match self.joint {
                Joint::BearingInHousing => scene.rectangle(wall, Weight::Thick, Fill::Hatched(45.0, 1.3)),
                Joint::BearingOnShaft => bearing_section(scene, wall),
            }
        }
        scene.tag("inner", index);
        match self.joint {
            Joint::BearingInHousing => {
                for side in [-1.0, 1.0] {
                    bearing_section(scene, upright(centre, side * (halves.inner - WALL), side * halves.inner, top, top + INNER));
                }
                for level in [top, top + INNER] {
                    scene.line(point(centre.x - halves.inner + WALL, level), point(centre.x + halves.inner - WALL, level), Weight::Thick);
                }
            }
            // A shaft is not hatched where it is cut along its axis (ISO 128-3).
            Joint::BearingOnShaft => scene.rectangle(upright(centre, -halves.inner, halves.inner, top, top + INNER), Weight::Thick, Fill::None),
        }
        scene.tag("excess", index);
        if halves.inner > halves.hole {
            for side in [-1.0, 1.0] {
                scene.rectangle(upright(centre, side * halves.hole, side * halves.inner, top, top + INNER), Weight::Thin, Fill::Ink);
            }
        }
        scene.tag("centre-line", index);
        scene.line(point(centre.x, top.min(0.0) - 1.5), point(centre.x, OUTER + 1.5), Weight::Chain);
    }

    /// Above each section its temperature, and what is too much or free with a leader to it. The temperatures stand on
    /// one line, above as many lines of values as the longer of the two needs.
    fn values(&self, scene: &mut Scene, index: usize, centre: f64, halves: &Halves, values: &[String], lines: usize) {
        scene.tag("difference", index);
        let level = if index == 0 { -INNER } else { (OUTER - INNER) / 2.0 + 2.0 };
        let at = point(centre + f64::midpoint(halves.hole, halves.inner), level);
        leader(scene, point(at.x, VALUES + 0.9), at, LeaderEnd::Arrow);
        for (text, line) in values.iter().zip(lines_above(VALUES, NOTE, values.len())) {
            scene.text(point(centre + COLUMN / 2.0, line), Anchor::End, NOTE, text.as_str());
        }
        scene.tag("temperature", index);
        let text = if index == 0 { &self.words.before } else { &self.words.after };
        let lowest = lines_above(VALUES, NOTE, lines + 1).next().unwrap_or(VALUES) - 0.4;
        let wrapped = wrapped(text, FIGURE, COLUMN);
        for (text, line) in wrapped.iter().zip(lines_above(lowest, FIGURE, wrapped.len())) {
            scene.text(point(centre, line), Anchor::Middle, FIGURE, text.as_str());
        }
    }
}

/// So many lines for text of a size, from the highest down, of which the lowest is given.
fn lines_above(lowest: f64, size: f64, count: usize) -> impl Iterator<Item = f64> {
    let count = u32::try_from(count).unwrap_or(0);
    (0..count).rev().map(move |line| lowest - f64::from(line) * LINE_PITCH * size)
}

/// A box between two distances from a centre line.
fn upright(centre: Point, one: f64, other: f64, top: f64, bottom: f64) -> Bounds {
    Bounds { left: centre.x + one.min(other), top: centre.y + top, right: centre.x + one.max(other), bottom: centre.y + bottom }
}

/// One side of a rolling bearing of any kind: its outline with an upright cross (ISO 8826-1).
fn bearing_section(scene: &mut Scene, bounds: Bounds) {
    scene.rectangle(bounds, Weight::Thick, Fill::None);
    let (middle, reach) = (bounds.centre(), 0.3 * (bounds.right - bounds.left));
    scene.line(middle.moved(-reach, 0.0), middle.moved(reach, 0.0), Weight::Thick);
    scene.line(middle.moved(0.0, -2.0 * reach), middle.moved(0.0, 2.0 * reach), Weight::Thick);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::fit::{Interference, Metal, Warmed};
    use proptest::prelude::*;

    fn sample(interference_mm: f64, gap_mm: f64, changed: Changed, joint: Joint) -> HeatedFit {
        let words = FitWords {
            title: "Bearing fit".to_owned(),
            description: "Cold it is tight, warm it drops in.".to_owned(),
            diameter: "Ø 62 mm".to_owned(),
            before: "20 °C".to_owned(),
            after: "85 ± 5 °C (176–194 °F)".to_owned(),
            interference: format!("tight by max {interference_mm:.3} mm"),
            gap: format!("gap at least {gap_mm:.3} mm"),
            enlarged: "Tightness and gap are drawn much larger than they are.".to_owned(),
        };
        HeatedFit { interference_mm, gap_mm, changed, joint, words }
    }

    /// Half widths of the hole and of what goes in, read off the drawing's outlines.
    fn read(drawing: &Drawing, index: usize) -> (f64, f64) {
        let middle = WIDTH * if index == 0 { 0.25 } else { 0.75 };
        let half = Weight::Thick.width() / 2.0;
        let corners = drawing.scene.tagged("outer", index).map(|item| item.mark.bounds());
        let hole = corners.filter(|bounds| bounds.left > middle).map(|bounds| bounds.left).fold(f64::MAX, f64::min) + half - middle;
        let inner = drawing.scene.bounds_of("inner", index).unwrap().right - half - middle;
        (hole, inner)
    }

    #[test]
    fn what_is_no_fit_is_not_drawn() {
        for (interference, gap) in [(0.0, 0.02), (0.04, 0.0), (0.04, -0.01), (f64::NAN, 0.02), (0.04, f64::INFINITY)] {
            assert_eq!(sample(interference, gap, Changed::OuterHeated, Joint::BearingInHousing).drawing(), None);
        }
    }

    // The screening example of `trade::fit`: 62 mm in aluminium, 0.040 mm tight, 20 to 80 °C.
    #[test]
    fn a_warm_housing_lets_the_bearing_in() {
        let fit = Interference { diameter_mm: 62.0, greatest_mm: 0.040, gap_mm: 0.02 };
        let outer = Warmed { expansion_per_k: Metal::Aluminium.expansion_per_k(), from_c: 20.0, to_c: 80.0 };
        let inner = Warmed { expansion_per_k: Metal::BearingSteel.expansion_per_k(), from_c: 20.0, to_c: 20.0 };
        let gap = fit.gap_at_mm(outer, inner).unwrap();
        let drawing = sample(0.040, gap, Changed::OuterHeated, Joint::BearingInHousing).drawing().unwrap();
        let ((cold_hole, cold_inner), (warm_hole, warm_inner)) = (read(&drawing, 0), read(&drawing, 1));
        assert!(cold_inner > cold_hole && warm_hole > warm_inner && (cold_inner - warm_inner).abs() < 1e-9);
        assert!(((warm_hole - warm_inner) / (cold_inner - cold_hole) - gap / 0.040).abs() < 1e-6);
    }

    proptest! {
        #[test]
        fn the_difference_is_true_or_as_small_as_can_be_seen(interference in 0.001..0.3_f64, gap in 0.001..0.3_f64, chilled: bool, shaft: bool) {
            let changed = if chilled { Changed::InnerChilled } else { Changed::OuterHeated };
            let joint = if shaft { Joint::BearingOnShaft } else { Joint::BearingInHousing };
            let drawing = sample(interference, gap, changed, joint).drawing();
            prop_assert!(drawing.is_some());
            let drawing = drawing.unwrap();
            let ((cold_hole, cold_inner), (hole, inner)) = (read(&drawing, 0), read(&drawing, 1));
            let (drawn_interference, drawn_gap) = (cold_inner - cold_hole, hole - inner);
            prop_assert!(drawn_interference > 0.4 && drawn_gap > 0.4);
            let smallest = drawn_interference.min(drawn_gap) < SMALLEST + 1e-9;
            prop_assert!(smallest || (drawn_gap / drawn_interference / (gap / interference) - 1.0).abs() < 1e-6);
            // What keeps its temperature keeps its size.
            let kept = if chilled { hole - cold_hole } else { inner - cold_inner };
            prop_assert!(kept.abs() < 1e-9);
        }
    }
}
