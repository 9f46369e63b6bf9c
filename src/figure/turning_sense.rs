//! Which way a left-hand thread turns: the nut or head as the hand sees it, an arrow round it, and beside it the words.
//! Whoever works from habit turns every thread the other way: a picture is seen before a word is read.
//!
//! Seen from the end it is turned at, a left-hand thread goes in anticlockwise (ISO 5408, from memory).

use super::drawing::{ABOVE_LINE, Anchor, Drawing, Fill, LINE_PITCH, MARGIN, Point, Scene, WIDTH, Weight, arrowhead, point, polar, wrapped};

/// Which way round the arrow goes, as seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Against the hands of a clock: a left-hand thread goes in.
    Anticlockwise,
    /// With them: it comes out.
    Clockwise,
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct TurningSense {
    /// The drawing's title.
    pub title: String,
    /// Its description, for those who can't see it.
    pub description: String,
    /// Which way the arrow goes.
    pub sense: Sense,
    /// What stands beside it: which thread it is, and what turning so does.
    pub words: String,
}

/// From the middle of the nut to a corner, and to the arrow round it.
const CORNER: f64 = 3.6;
const ROUND: f64 = 5.6;
/// The bore, or the end of the bolt, in it.
const BORE: f64 = 1.9;
/// How far the arrow goes round, in degrees, open at the top.
const SWEEP: f64 = 270.0;
/// Size of the words: read at arm's length.
const SIZE: f64 = 3.6;
const TO_WORDS: f64 = 3.5;

/// Draws it.
#[must_use]
pub fn turning_sense(turning: &TurningSense) -> Drawing {
    let mut scene = Scene::new();
    let middle = point(MARGIN + ROUND + 1.0, MARGIN + ROUND + 1.0);
    scene.tag("nut", 0);
    let corners: Vec<Point> = (0..6_u32).map(|corner| polar(middle, CORNER, 30.0 + 60.0 * f64::from(corner))).collect();
    scene.polygon(&corners, Weight::Thick, Fill::None);
    scene.circle(middle, BORE, Weight::Thin, Fill::None);
    scene.tag("arrow", 0);
    let from = (360.0 - SWEEP) / 2.0;
    scene.arc(middle, ROUND, from, SWEEP, Weight::Thick);
    let (tip, back) = match turning.sense {
        Sense::Anticlockwise => (from, from + 18.0),
        Sense::Clockwise => (from + SWEEP, from + SWEEP - 18.0),
    };
    arrowhead(&mut scene, polar(middle, ROUND, tip), polar(middle, ROUND, back));
    scene.tag("words", 0);
    let left = middle.x + ROUND + TO_WORDS;
    let lines = wrapped(&turning.words, SIZE, WIDTH - MARGIN - left);
    let more = f64::from(u32::try_from(lines.len().saturating_sub(1)).unwrap_or(0));
    // Words of several lines stand round the middle; more than the picture is high, they begin at the paper's edge.
    let mut baseline = (middle.y - more * LINE_PITCH * SIZE / 2.0 + 0.365 * SIZE).max(MARGIN + ABOVE_LINE * SIZE);
    for line in lines {
        scene.text(point(left, baseline), Anchor::Start, SIZE, line);
        baseline += LINE_PITCH * SIZE;
    }
    Drawing::new(&turning.title, &turning.description, scene)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::drawing::Mark;

    fn drawn(sense: Sense, words: &str) -> Drawing {
        turning_sense(&TurningSense { title: "Nut".to_owned(), description: "An arrow.".to_owned(), sense, words: words.to_owned() })
    }

    /// The tip of the arrow, and the place on the arc a little behind it, by the arrowhead's own corners.
    fn turns(drawing: &Drawing) -> f64 {
        let middle = drawing.scene.bounds_of("nut", 0).unwrap().centre();
        let head = drawing.scene.tagged("arrow", 0).find_map(|item| match &item.mark {
            Mark::Path { points, fill: Fill::Ink, .. } => Some(points.clone()),
            _ => None,
        });
        let head = head.unwrap();
        let base = point(f64::midpoint(head[1].x, head[2].x), f64::midpoint(head[1].y, head[2].y));
        // On paper y runs downwards: a positive turn is clockwise as seen.
        (base.x - middle.x) * (head[0].y - base.y) - (base.y - middle.y) * (head[0].x - base.x)
    }

    #[test]
    fn the_arrow_goes_the_way_it_says_and_the_words_stand_beside_it() {
        for words in ["left-hand: anticlockwise tightens", "", "Linksgewinde: gegen den Uhrzeigersinn zieht fest", &"lang ".repeat(40), &"x".repeat(90)] {
            let (tight, loose) = (drawn(Sense::Anticlockwise, words), drawn(Sense::Clockwise, words));
            assert_eq!((tight.faults(), loose.faults()), (vec![], vec![]), "{words}");
            assert!(turns(&tight) < 0.0 && turns(&loose) > 0.0);
            if let Some(text) = tight.scene.bounds_of("words", 0) {
                assert!(text.left > tight.scene.bounds_of("arrow", 0).unwrap().right);
            }
        }
    }
}
