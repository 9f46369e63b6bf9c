//! Two marks that are set apart by an offset: as an angle, as an arc on a diameter, looked at from a named side.
//!
//! The angle is drawn true. Where it is small, only the part of the rim with the marks is drawn, on a larger radius, so
//! that the two lines can be told apart. A side that no value tells is not made up: then both are dashed.

use super::drawing::{
    Drawing, FIGURE, Fill, LeaderEnd, MARGIN, NOTE, Point, Scene, WIDTH, Weight, balloon, dimension_arc, item_list, leader,
    point, polar,
};
use super::paper;

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Alignment {
    /// The offset, degrees.
    pub offset_deg: f64,
    /// To which side the first mark is set off from the second, as one looks at it; none where it is not told.
    pub side: Option<Side>,
    /// The words of the drawing.
    pub words: AlignmentWords,
}

/// To which side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Clockwise.
    Clockwise,
    /// Anticlockwise.
    Anticlockwise,
}

/// The words of a drawing of marks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AlignmentWords {
    /// What it shows.
    pub title: String,
    /// All that is drawn, in sentences.
    pub description: String,
    /// The mark that moves: `stator line`.
    pub moving: String,
    /// The mark it is set by: `case line`.
    pub fixed: String,
    /// The offset as an angle: `2.34°`.
    pub angle: String,
    /// The offset as an arc; empty where it is not known.
    pub arc: String,
    /// The diameter of the arc: `Ø 98 mm`; empty where it is not known.
    pub diameter: String,
    /// Both in one line, for where there is no room for them in the picture.
    pub arc_below: String,
    /// From where it is looked at.
    pub viewed_from: String,
    /// Says that the side is not told.
    pub side_untold: String,
}

/// Two marks are drawn so far apart along the rim, where the angle allows it.
const APART: f64 = 9.0;
/// The smallest radius: a whole circle on the paper.
const WHOLE: f64 = 20.0;
/// The largest.
const LARGEST: f64 = 600.0;
/// Length of a mark, from rim to end.
const MARK: f64 = 5.0;
/// Between rim and case.
const SLIT: f64 = 0.9;
/// From the rim inwards to the dimension line.
const INWARDS: f64 = 8.5;
/// Radius of the balloons of the two marks.
const BALLOON: f64 = 2.2;
/// Half the width of a part of a rim.
const HALF_WIDTH: f64 = 27.0;

/// Where the rim is on the paper.
struct Rim {
    centre: Point,
    radius: f64,
    /// Whether the whole of it is drawn.
    is_whole: bool,
}

/// Which values stand in the picture; the others stand below it.
struct Inside {
    diameter: bool,
    arc: bool,
}

impl Alignment {
    /// The drawing. None where the offset is none, or goes round.
    #[must_use]
    pub fn drawing(&self) -> Option<Drawing> {
        let most = if self.side.is_some() { 300.0 } else { 150.0 };
        if !(self.offset_deg > 0.0 && self.offset_deg <= most) {
            return None;
        }
        let apart = APART / self.offset_deg.to_radians();
        let radius = if apart < WHOLE * 1.3 { WHOLE } else { apart.min(LARGEST) };
        let rim = Rim { centre: point(WIDTH / 2.0, 0.0), radius, is_whole: radius <= WHOLE };
        // In the picture what there is room for, the rest below.
        let rooms = [(true, true), (false, true), (true, false), (false, false)];
        let tried = rooms.into_iter().map(|(diameter, arc)| self.drawn(&rim, &Inside { diameter, arc }));
        tried.into_iter().find(|drawing| drawing.faults().is_empty())
    }

    fn drawn(&self, rim: &Rim, inside: &Inside) -> Drawing {
        let mut scene = Scene::new();
        rim.draw(&mut scene);
        scene.tag("fixed", 0);
        rim.line(&mut scene, 0.0, SLIT, SLIT + MARK, Weight::Thick);
        balloon(&mut scene, rim.at(0.0, SLIT + MARK + BALLOON), BALLOON, 2, None);
        let sign = if self.side == Some(Side::Anticlockwise) { -1.0 } else { 1.0 };
        self.moving(&mut scene, rim, 0, sign);
        if self.side.is_none() {
            self.moving(&mut scene, rim, 1, -sign);
        }
        self.dimension(&mut scene, rim, sign, inside.arc);
        if inside.diameter {
            self.diameter(&mut scene, rim, sign);
        }
        scene.tag("marks", 0);
        let corner = point(MARGIN, scene.bounds().map_or(0.0, |bounds| bounds.bottom) + 1.5);
        item_list(&mut scene, corner, WIDTH - 2.0 * MARGIN, &[(1, self.words.moving.clone()), (2, self.words.fixed.clone())]);
        let below = match inside {
            Inside { arc: false, .. } => self.words.arc_below.as_str(),
            Inside { diameter: false, .. } => self.words.diameter.as_str(),
            Inside { .. } => "",
        };
        let untold = if self.side.is_none() { &*self.words.side_untold } else { "" };
        for note in [below, &*self.words.viewed_from, untold] {
            scene.tag("note", 0);
            paper::note(&mut scene, NOTE, note);
        }
        paper::to_the_top(&mut scene);
        Drawing::new(self.words.title.clone(), self.words.description.clone(), scene)
    }

    /// The mark that is set: dashed where it may stand on either side.
    fn moving(&self, scene: &mut Scene, rim: &Rim, index: usize, sign: f64) {
        let angle = sign * self.offset_deg;
        scene.tag("moving", index);
        rim.line(scene, angle, -MARK, 0.0, if self.side.is_some() { Weight::Thick } else { Weight::Dashed });
        scene.tag("moving-balloon", index);
        // Beside its mark, away from the other.
        let aside = ((BALLOON + 0.8) / (rim.radius - MARK / 2.0)).to_degrees();
        balloon(scene, rim.at(angle + sign * aside, -MARK / 2.0 - 0.8), BALLOON, 1, None);
    }

    /// The angle between the marks, and the arc where it is known.
    fn dimension(&self, scene: &mut Scene, rim: &Rim, sign: f64, with_arc: bool) {
        let (from, middle) = (if sign > 0.0 { 0.0 } else { -self.offset_deg }, sign * self.offset_deg / 2.0);
        scene.tag("offset", 0);
        rim.line(scene, 0.0, -INWARDS - 0.8, -0.6, Weight::Thin);
        rim.line(scene, sign * self.offset_deg, -INWARDS - 0.8, -MARK - 0.5, Weight::Thin);
        dimension_arc(scene, rim.centre, rim.radius - INWARDS, from, self.offset_deg);
        scene.tag("offset-value", 0);
        let arc = if with_arc { &*self.words.arc } else { "" };
        let lines: Vec<&str> = [&*self.words.angle, arc].into_iter().filter(|line| !line.is_empty()).collect();
        let inward = middle.to_radians();
        let from = if rim.is_whole { rim.at(middle, -0.6 * rim.radius) } else { rim.at(middle, -INWARDS - 1.2) };
        paper::text_beside(scene, from, (-inward.sin(), inward.cos()), FIGURE, &lines);
    }

    /// The diameter, with a leader to the rim on the side where no mark is set.
    fn diameter(&self, scene: &mut Scene, rim: &Rim, sign: f64) {
        if self.words.diameter.is_empty() {
            return;
        }
        scene.tag("diameter", 0);
        let angle = if rim.is_whole { sign * self.offset_deg / 2.0 + 180.0 } else { -sign * (19.0 / rim.radius).asin().to_degrees() };
        let (tip, tail) = (rim.at(angle, 0.0), rim.at(angle, -INWARDS));
        leader(scene, tail, tip, LeaderEnd::Arrow);
        let inward = angle.to_radians();
        paper::text_beside(scene, rim.at(angle, -INWARDS - 0.4), (-inward.sin(), inward.cos()), FIGURE, &[&self.words.diameter]);
    }
}

impl Rim {
    /// The place at an angle, so far outside the rim.
    fn at(&self, degrees: f64, outside: f64) -> Point {
        polar(self.centre, self.radius + outside, degrees)
    }

    fn line(&self, scene: &mut Scene, degrees: f64, from: f64, to: f64, weight: Weight) {
        scene.line(self.at(degrees, from), self.at(degrees, to), weight);
    }

    /// The rim, and the edge of the case round it.
    fn draw(&self, scene: &mut Scene) {
        for (index, outside) in [0.0, SLIT].into_iter().enumerate() {
            scene.tag("rim", index);
            if self.is_whole {
                scene.circle(self.centre, self.radius + outside, Weight::Thick, Fill::None);
            } else {
                let half = (HALF_WIDTH / (self.radius + outside)).clamp(-1.0, 1.0).asin().to_degrees();
                scene.arc(self.centre, self.radius + outside, -half, 2.0 * half, Weight::Thick);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::drawing::Mark;
    use proptest::prelude::*;

    fn sample(offset_deg: f64, side: Option<Side>, diameter: &str) -> Alignment {
        let words = AlignmentWords {
            title: "Stator position".to_owned(),
            description: "Two marks.".to_owned(),
            moving: "stator line".to_owned(),
            fixed: "case line".to_owned(),
            angle: format!("{offset_deg:.2}°"),
            arc: if diameter.is_empty() { String::new() } else { "2 mm of arc".to_owned() },
            diameter: diameter.to_owned(),
            arc_below: if diameter.is_empty() { String::new() } else { "2 mm of arc on Ø 98 mm".to_owned() },
            viewed_from: "seen from flywheel end".to_owned(),
            side_untold: "To which side, no value tells: see the source.".to_owned(),
        };
        Alignment { offset_deg, side, words }
    }

    /// The direction of the first line with a tag, degrees clockwise from the top.
    fn direction(drawing: &Drawing, tag: &str, index: usize) -> f64 {
        let line = drawing.scene.tagged(tag, index).find_map(|item| match &item.mark {
            Mark::Path { points, .. } => Some((points[0], points[1])),
            _ => None,
        });
        let (from, to) = line.unwrap();
        (to.x - from.x).atan2(from.y - to.y).to_degrees()
    }

    /// The sweep of the dimension's arc.
    fn dimensioned(drawing: &Drawing) -> (f64, f64) {
        let arc = drawing.scene.tagged("offset", 0).find_map(|item| match item.mark {
            Mark::Arc { sweep, radius, .. } => Some((sweep, radius)),
            _ => None,
        });
        arc.unwrap()
    }

    #[test]
    fn usual_offsets_are_drawn_with_all_that_is_known() {
        for offset in [0.3, 1.0, 2.34, 6.0, 12.0, 20.0, 30.0, 45.0, 60.0, 90.0] {
            for side in [None, Some(Side::Clockwise), Some(Side::Anticlockwise)] {
                let drawing = sample(offset, side, "Ø 98 mm").drawing().unwrap_or_else(|| panic!("{offset} {side:?}"));
                let marks = usize::from(side.is_none());
                assert_eq!(drawing.scene.tagged("moving", 1).count(), marks, "{offset}");
            }
        }
    }

    #[test]
    fn what_is_no_offset_is_not_drawn() {
        for offset in [0.0, -2.0, f64::NAN, f64::INFINITY, 360.0] {
            assert_eq!(sample(offset, Some(Side::Clockwise), "").drawing(), None, "{offset}");
        }
    }

    proptest! {
        #[test]
        fn the_drawn_angle_is_the_offset(offset in 0.2..110.0_f64, side in 0..3_u8, with_arc: bool) {
            let side = [None, Some(Side::Clockwise), Some(Side::Anticlockwise)][usize::from(side)];
            let drawing = sample(offset, side, if with_arc { "Ø 98 mm" } else { "" }).drawing();
            prop_assert!(drawing.is_some(), "{} {:?}", offset, side);
            let drawing = drawing.unwrap();
            prop_assert!(direction(&drawing, "fixed", 0).abs() < 1e-6);
            let sign = if side == Some(Side::Anticlockwise) { -1.0 } else { 1.0 };
            prop_assert!((direction(&drawing, "moving", 0) - sign * offset).abs() < 1e-6);
            let (sweep, radius) = dimensioned(&drawing);
            // A small angle has its arrows outside, with a tail of two heads each.
            let tails = 4.0 * (1.8 / radius).to_degrees();
            prop_assert!((sweep - offset).abs() < 1e-6 || (sweep - tails - offset).abs() < 1e-6, "{}", sweep);
            if side.is_none() {
                prop_assert!((direction(&drawing, "moving", 1) + offset).abs() < 1e-6);
            }
        }
    }
}
