//! The order in which the fasteners of a group are tightened: each position where it sits, in a balloon its place in
//! the order, beside it its number.
//!
//! The positions come from `trade::order`, which also works the order out; what is drawn is what is printed.

mod placing;

use super::drawing::{
    ABOVE_LINE, Anchor, Drawing, FIGURE, Fill, LINE_PITCH, LeaderEnd, MARGIN, NOTE, Point, Scene, WIDTH, Weight, arrowhead, balloon,
    point, wrapped,
};
use super::paper;
use crate::trade::order::Layout;
use placing::Placing;

/// What is drawn.
#[derive(Clone, Debug)]
pub struct TighteningOrder<'a> {
    /// Where the positions sit.
    pub layout: &'a Layout,
    /// Positions, from 1, in the order of tightening.
    pub order: &'a [usize],
    /// The words of the drawing.
    pub words: OrderWords,
}

/// The words of a drawing of an order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OrderWords {
    /// What it shows.
    pub title: String,
    /// All that is drawn, in sentences.
    pub description: String,
    /// Says that the balloon tells when, where to begin, and that the figure beside it tells which position.
    pub legend: String,
    /// Likewise where the positions are numbered in their order, and no figure stands beside them.
    pub legend_of_turns: String,
    /// The stages with their values, in turn; none where there is one only.
    pub stages: Vec<String>,
    /// What lies at the upper, lower, left and right edge, where that is told.
    pub edges: [Option<String>; 4],
}

/// Up to so many positions an arrow leads from one to the next; with more the arrows would hide what they show.
const MOST_ARROWS: usize = 12;

impl TighteningOrder<'_> {
    /// The drawing. None where the order is no permutation of the layout's positions, or where they are too many, or
    /// too close together, to be told apart on the paper.
    #[must_use]
    pub fn drawing(&self) -> Option<Drawing> {
        let positions = self.layout.positions().ok()?;
        let places = places_in(self.order, positions.len())?;
        let is_circle = matches!(self.layout, Layout::Circle(_));
        let placing = Placing::new(&positions, &places, is_circle)?;
        // Arrows are a help; where they get in the way, the numbers do alone.
        [true, false].into_iter().find_map(|with_arrows| self.drawn(&placing, &places, with_arrows))
    }

    fn drawn(&self, placing: &Placing, places: &[usize], with_arrows: bool) -> Option<Drawing> {
        let mut scene = Scene::new();
        scene.tag("pitch-circle", 0);
        placing.pitch_circle(&mut scene);
        if with_arrows {
            self.arrows(&mut scene, placing);
        }
        for (index, (placed, place)) in placing.placed.iter().zip(places).enumerate() {
            scene.tag("position", index);
            let target = (placed.centre != placed.target).then_some((placed.target, LeaderEnd::Dot));
            balloon(&mut scene, placed.centre, placing.radius, *place, target);
            if *place == 1 {
                // Where the eye is to begin.
                scene.circle(placed.centre, placing.radius, Weight::Thick, Fill::None);
            }
            if let Some(at) = placed.number {
                scene.tag("number", index);
                scene.text(at, Anchor::Middle, NOTE, (index + 1).to_string());
            }
        }
        self.edges(&mut scene);
        for (index, stage) in self.words.stages.iter().enumerate() {
            scene.tag("stage", index);
            paper::note(&mut scene, FIGURE, stage);
        }
        scene.tag("legend", 0);
        let numbered = placing.placed.iter().any(|placed| placed.number.is_some());
        paper::note(&mut scene, NOTE, if numbered { &self.words.legend } else { &self.words.legend_of_turns });
        if self.words.edges.iter().any(Option::is_some) {
            paper::to_the_top(&mut scene);
        }
        let drawing = Drawing::new(self.words.title.clone(), self.words.description.clone(), scene);
        drawing.faults().is_empty().then_some(drawing)
    }

    /// Beside an arrow that points at each edge what lies there: below the positions what lies below, above them all else.
    fn edges(&self, scene: &mut Scene) {
        const ARROW: f64 = 5.0;
        let line = LINE_PITCH * NOTE;
        let [up, down, left, right] = &self.words.edges;
        let field = scene.bounds().map_or((MARGIN, MARGIN), |field| (field.top, field.bottom));
        let mut above = field.0 - 1.5;
        // From the positions upwards: the sides stand nearest to them.
        for (index, words, from, way, anchor) in [
            (2, left, MARGIN, (-1.0, 0.0), Anchor::Start),
            (3, right, WIDTH - MARGIN, (1.0, 0.0), Anchor::End),
            (0, up, WIDTH / 2.0, (0.0, -1.0), Anchor::Middle),
        ] {
            let Some(words) = words else { continue };
            let lines = wrapped(words, NOTE, WIDTH - 2.0 * MARGIN - 2.0 * ARROW);
            let top = above - line * lines.len() as f64;
            let upright = way.0 == 0.0;
            scene.tag("edge", index);
            let inward = -way.0 * (ARROW + 1.0);
            for (row, words) in lines.iter().enumerate() {
                scene.text(point(from + inward, top + line * row as f64 + ABOVE_LINE * NOTE), anchor, NOTE, words.as_str());
            }
            let tip = if upright { point(from, top - ARROW - 0.3) } else { point(from, f64::midpoint(top, above)) };
            let tail = point(tip.x - way.0 * ARROW, tip.y - way.1 * ARROW);
            scene.line(tail, tip, Weight::Thick);
            arrowhead(scene, tip, tail);
            above = if upright { tip.y - 0.8 } else { top - 0.8 };
        }
        if let Some(words) = down {
            scene.tag("edge", 1);
            let mut baseline = field.1 + 1.5 + ABOVE_LINE * NOTE;
            for words in wrapped(words, NOTE, WIDTH - 2.0 * MARGIN) {
                scene.text(point(WIDTH / 2.0, baseline), Anchor::Middle, NOTE, words);
                baseline += line;
            }
            let tail = point(WIDTH / 2.0, baseline - ABOVE_LINE * NOTE + 0.6);
            scene.line(tail, tail.moved(0.0, ARROW), Weight::Thick);
            arrowhead(scene, tail.moved(0.0, ARROW), tail);
        }
    }

    /// From each position to the next, where all of them stay clear of every balloon and number.
    fn arrows(&self, scene: &mut Scene, placing: &Placing) {
        let at = |position: &usize| position.checked_sub(1).and_then(|index| placing.placed.get(index));
        let steps = self.order.iter().zip(self.order.iter().skip(1));
        let paths: Option<Vec<Vec<Point>>> = steps.map(|(from, to)| placing.path(at(from)?, at(to)?)).collect();
        let Some(paths) = paths.filter(|_| self.order.len() <= MOST_ARROWS) else { return };
        for (index, path) in paths.iter().enumerate() {
            scene.tag("arrow", index);
            scene.polyline(path, Weight::Thin);
            if let [.., before, tip] = path.as_slice() {
                arrowhead(scene, *tip, *before);
            }
        }
    }
}

/// For each position its place in the order, both from 1; none where the order is no permutation.
fn places_in(order: &[usize], count: usize) -> Option<Vec<usize>> {
    let mut places = vec![0; count];
    for (place, position) in order.iter().enumerate() {
        let slot = places.get_mut(position.checked_sub(1)?)?;
        if *slot != 0 {
            return None;
        }
        *slot = place + 1;
    }
    (!places.contains(&0)).then_some(places)
}

impl Placing {
    /// The circle the positions sit on, open where a balloon sits.
    fn pitch_circle(&self, scene: &mut Scene) {
        let Some((centre, radius)) = self.circle else { return };
        if self.placed.iter().any(|placed| placed.centre != placed.target) || self.placed.len() < 2 {
            scene.circle(centre, radius, Weight::Chain, Fill::None);
            return;
        }
        // A chord as long as the balloon's radius, and a little air.
        let hidden = 2.0 * ((self.radius + 0.3) / (2.0 * radius)).min(1.0).asin().to_degrees();
        let mut from = 0.0;
        for (index, placed) in self.placed.iter().enumerate() {
            let to = if index + 1 == self.placed.len() { 360.0 } else { angle(centre, self.placed.get(index + 1).map_or(placed.target, |next| next.target)) };
            if to - from > 2.0 * hidden + 1.0 {
                scene.arc(centre, radius, from + hidden, to - from - 2.0 * hidden, Weight::Chain);
            }
            from = to;
        }
    }
}

/// Degrees clockwise from the top.
fn angle(centre: Point, at: Point) -> f64 {
    (at.x - centre.x).atan2(centre.y - at.y).to_degrees().rem_euclid(360.0)
}

#[cfg(test)]
mod tests;
