//! Stages of tightening: torque up the side, what each stage adds from left to right.
//!
//! Torques are drawn to scale. How far a fastener turns under a torque no value tells, so the way to the right is not to
//! scale, and the torque that an angle adds is dashed.

use super::drawing::{
    Anchor, Drawing, FIGURE, Fill, MARGIN, NOTE, Point, Scene, WIDTH, Weight, arrowhead, balloon, balloon_radius, dimension_across,
    item_list, point, text_width,
};
use super::paper;

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct TorqueStages {
    /// The stages in turn.
    pub stages: Vec<Stage>,
    /// The words of the drawing.
    pub words: StageWords,
}

/// A stage with its value as it is printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// How far.
    pub to: StageEnd,
    /// Its value, for the side of the diagram: `38 N·m`, `90°`.
    pub value: String,
    /// Its line in the list below: `38 N·m (28.0 lbf·ft)`.
    pub line: String,
}

/// How far a stage goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StageEnd {
    /// To a torque, N·m.
    Torque(f64),
    /// By an angle, degrees.
    Angle(f64),
}

/// The words of a diagram of stages.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StageWords {
    /// What it shows.
    pub title: String,
    /// All that is drawn, in sentences.
    pub description: String,
    /// The name of the axis of torque.
    pub torque: String,
    /// The name of the axis of angle.
    pub angle: String,
    /// Says what is to scale and what is not.
    pub scale: String,
}

/// Height of the axis of torque, and how much of it an angle after the last torque may add.
const HEIGHT: f64 = 32.0;
const BY_ANGLE: f64 = 10.0;
/// Below this width a stage can't be told from the next.
const NARROWEST: f64 = 5.0;
/// A value wider than this stands in the list only.
const WIDEST_VALUE: f64 = 22.0;

/// Where the diagram's lines are.
struct Frame {
    /// Of the corner where the axes meet.
    origin: Point,
    /// Width of a stage.
    column: f64,
    /// Torque at the end of each stage, as height, mm.
    heights: Vec<f64>,
}

impl TorqueStages {
    /// The drawing. None for fewer than two stages, more than can be told apart, no torque among
    /// them, or one that is no number.
    #[must_use]
    pub fn drawing(&self) -> Option<Drawing> {
        let frame = self.frame()?;
        let mut scene = Scene::new();
        self.axes(&mut scene, &frame);
        self.levels(&mut scene, &frame);
        self.curve(&mut scene, &frame);
        self.angles(&mut scene, &frame);
        let radius = balloon_radius(self.stages.len());
        let below = frame.origin.y + radius + 1.2;
        for index in 0..self.stages.len() {
            scene.tag("balloon", index);
            balloon(&mut scene, point(frame.end(index).x, below), radius, index + 1, None);
        }
        let bottom = below + radius;
        scene.tag("axis", 1);
        scene.text(point(WIDTH - MARGIN, bottom + 0.9 * NOTE), Anchor::End, NOTE, &*self.words.angle);
        scene.tag("list", 0);
        let corner = point(MARGIN, bottom + 1.4 * NOTE + 1.0);
        let lines: Vec<(usize, String)> = self.stages.iter().zip(1..).map(|(stage, number)| (number, stage.line.clone())).collect();
        item_list(&mut scene, corner, WIDTH - 2.0 * MARGIN, &lines);
        scene.tag("scale", 0);
        paper::note(&mut scene, NOTE, &self.words.scale);
        paper::to_the_top(&mut scene);
        let drawing = Drawing::new(self.words.title.clone(), self.words.description.clone(), scene);
        drawing.faults().is_empty().then_some(drawing)
    }

    fn frame(&self) -> Option<Frame> {
        let count = f64::from(u32::try_from(self.stages.len()).ok()?);
        if self.stages.len() < 2 {
            return None;
        }
        let values = self.stages.iter().filter(|stage| matches!(stage.to, StageEnd::Torque(_)));
        let widest = values.map(|stage| text_width(&stage.value, FIGURE)).filter(|width| *width <= WIDEST_VALUE).fold(0.0, f64::max);
        let left = MARGIN + widest + 1.5;
        // To the right of the last stage the axis has its head, and the last balloon half its width.
        let column = (WIDTH - MARGIN - balloon_radius(self.stages.len()) - 1.5 - left) / count;
        let heights = self.heights()?;
        (column >= NARROWEST).then_some(Frame { origin: point(left, HEIGHT + 6.0), column, heights })
    }

    /// Heights of the ends of the stages: torques to scale, an angle up to half-way to the next torque, or a little
    /// above the last.
    fn heights(&self) -> Option<Vec<f64>> {
        let torques: Vec<f64> = self
            .stages
            .iter()
            .filter_map(|stage| match stage.to {
                StageEnd::Torque(torque) => Some(torque),
                StageEnd::Angle(_) => None,
            })
            .collect();
        let greatest = torques.iter().copied().fold(0.0, f64::max);
        let angles = f64::from(u32::try_from(self.stages.len() - torques.len()).ok()?);
        let valid = self.stages.iter().all(|stage| match stage.to {
            StageEnd::Torque(value) | StageEnd::Angle(value) => value.is_finite() && value > 0.0,
        });
        if !valid || torques.is_empty() {
            return None;
        }
        let full = if angles > 0.0 { HEIGHT - BY_ANGLE } else { HEIGHT };
        let mut heights = Vec::with_capacity(self.stages.len());
        let mut height = 0.0;
        for (index, stage) in self.stages.iter().enumerate() {
            let next = self.stages.iter().skip(index + 1).find_map(|stage| match stage.to {
                StageEnd::Torque(torque) => Some(torque / greatest * full),
                StageEnd::Angle(_) => None,
            });
            height = match (stage.to, next) {
                (StageEnd::Torque(torque), _) => torque / greatest * full,
                (StageEnd::Angle(_), Some(next)) => f64::midpoint(height, next),
                (StageEnd::Angle(_), None) => height + BY_ANGLE / angles,
            };
            heights.push(height);
        }
        Some(heights)
    }

    fn axes(&self, scene: &mut Scene, frame: &Frame) {
        let Frame { origin, .. } = frame;
        scene.tag("axis", 0);
        let (top, right) = (point(origin.x, origin.y - HEIGHT - 3.0), point(WIDTH - MARGIN, origin.y));
        scene.line(*origin, top, Weight::Thin);
        arrowhead(scene, top, *origin);
        scene.text(top.moved(1.2, 0.6), Anchor::Start, NOTE, &*self.words.torque);
        scene.tag("axis", 1);
        scene.line(*origin, right, Weight::Thin);
        arrowhead(scene, right, *origin);
    }

    /// From each torque across to its value, where two values do not stand in each other's way: the higher one stays.
    fn levels(&self, scene: &mut Scene, frame: &Frame) {
        let mut taken: Vec<f64> = Vec::new();
        for (index, stage) in self.stages.iter().enumerate().rev() {
            let end = frame.end(index);
            scene.tag("level", index);
            scene.line(end, point(end.x, frame.origin.y), Weight::Thin);
            if matches!(stage.to, StageEnd::Angle(_)) {
                continue;
            }
            scene.line(point(frame.origin.x, end.y), end, Weight::Thin);
            let is_free = taken.iter().all(|other| (other - end.y).abs() > 1.1 * FIGURE);
            if is_free && text_width(&stage.value, FIGURE) <= WIDEST_VALUE {
                taken.push(end.y);
                scene.text(point(frame.origin.x - 1.0, end.y + 0.365 * FIGURE), Anchor::End, FIGURE, &*stage.value);
            }
        }
    }

    fn curve(&self, scene: &mut Scene, frame: &Frame) {
        let mut from = frame.origin;
        for (index, stage) in self.stages.iter().enumerate() {
            let end = frame.end(index);
            scene.tag("stage", index);
            let weight = if matches!(stage.to, StageEnd::Torque(_)) { Weight::Thick } else { Weight::Dashed };
            scene.line(from, end, weight);
            scene.circle(end, 0.6, Weight::Thin, Fill::Ink);
            from = end;
        }
    }

    /// Each angle between the lines of the stages it leads from and to.
    fn angles(&self, scene: &mut Scene, frame: &Frame) {
        for (index, stage) in self.stages.iter().enumerate() {
            let StageEnd::Angle(_) = stage.to else { continue };
            let end = frame.end(index);
            let left = end.x - frame.column;
            scene.tag("angle", index);
            if text_width(&stage.value, FIGURE) + 1.5 < frame.column {
                dimension_across(scene, left, end.x, frame.origin.y, frame.origin.y - 3.0, FIGURE, &stage.value);
            }
        }
    }
}

impl Frame {
    /// Where a stage ends.
    fn end(&self, index: usize) -> Point {
        let number = f64::from(u32::try_from(index + 1).unwrap_or(0));
        let height = self.heights.get(index).copied().unwrap_or(0.0);
        self.origin.moved(number * self.column, -height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::drawing::Mark;
    use proptest::prelude::*;

    fn drawn(ends: &[StageEnd]) -> Option<Drawing> {
        let stage = |end: &StageEnd| match end {
            StageEnd::Torque(torque) => Stage { to: *end, value: format!("{torque:.0} N·m"), line: format!("{torque:.0} N·m (14.8 lbf·ft)") },
            StageEnd::Angle(angle) => Stage { to: *end, value: format!("{angle:.0}°"), line: format!("{angle:.0}° further") },
        };
        let words = StageWords {
            title: "Stages".to_owned(),
            description: "Two torques, an angle.".to_owned(),
            torque: "torque".to_owned(),
            angle: "angle".to_owned(),
            scale: "Torques to scale, angles not.".to_owned(),
        };
        TorqueStages { stages: ends.iter().map(stage).collect(), words }.drawing()
    }

    /// Torques as one reads them off: by the height of the curve's dots, the last torque of all as the measure.
    fn read(drawing: &Drawing, count: usize) -> Vec<Point> {
        (0..count)
            .map(|index| {
                let mut dots = drawing.scene.tagged("stage", index).filter_map(|item| match item.mark {
                    Mark::Circle { centre, .. } => Some(centre),
                    _ => None,
                });
                dots.next().unwrap()
            })
            .collect()
    }

    fn origin(drawing: &Drawing) -> Point {
        let Some(Mark::Path { points, .. }) = drawing.scene.tagged("axis", 0).next().map(|item| &item.mark) else { panic!() };
        points[0]
    }

    #[test]
    fn torque_and_angle_are_drawn() {
        use StageEnd::{Angle, Torque};
        let drawing = drawn(&[Torque(20.0), Torque(38.0), Angle(90.0)]).unwrap();
        let (dots, origin) = (read(&drawing, 3), origin(&drawing));
        let heights: Vec<f64> = dots.iter().map(|dot| origin.y - dot.y).collect();
        assert!((heights[0] / heights[1] - 20.0 / 38.0).abs() < 1e-9);
        assert!(heights[2] > heights[1]);
        let texts: Vec<&str> = drawing.scene.items.iter().filter_map(|item| match &item.mark {
            Mark::Text { text, .. } => Some(text.as_str()),
            _ => None,
        }).collect();
        assert!(["20 N·m", "38 N·m", "90°", "1", "2", "3"].iter().all(|text| texts.contains(text)), "{texts:?}");
        assert!(drawn(&[Torque(20.0), Angle(60.0), Torque(60.0)]).is_some());
        assert!(drawn(&[Torque(60.0), Torque(20.0), Torque(60.0)]).is_some());
    }

    #[test]
    fn what_is_no_row_of_stages_is_not_drawn() {
        use StageEnd::{Angle, Torque};
        for ends in [vec![], vec![Torque(20.0)], vec![Torque(f64::NAN), Torque(20.0)], vec![Torque(0.0), Angle(90.0)], vec![Torque(5.0); 40], vec![Angle(90.0), Angle(90.0)]] {
            assert_eq!(drawn(&ends), None, "{ends:?}");
        }
    }

    proptest! {
        #[test]
        fn rising_stages_are_drawn_to_scale(steps in prop::collection::vec(2.0..80.0_f64, 1..5), angles in prop::collection::vec(15.0..180.0_f64, 0..3)) {
            let mut torque = 0.0;
            let mut ends: Vec<StageEnd> = steps.iter().map(|step| { torque += step; StageEnd::Torque(torque) }).collect();
            ends.extend(angles.iter().map(|angle| StageEnd::Angle(*angle)));
            if ends.len() < 2 { return Ok(()) }
            let drawing = drawn(&ends);
            prop_assert!(drawing.is_some(), "{:?}", ends);
            let drawing = drawing.unwrap();
            let (dots, origin) = (read(&drawing, ends.len()), origin(&drawing));
            for (dot, end) in dots.iter().zip(&ends) {
                let StageEnd::Torque(value) = end else { continue };
                let whole = origin.y - dots[steps.len() - 1].y;
                prop_assert!(((origin.y - dot.y) / whole - value / torque).abs() < 1e-9);
            }
            prop_assert!(dots.windows(2).all(|pair| pair[1].x > pair[0].x + 4.0 && pair[1].y < pair[0].y));
        }
    }
}
