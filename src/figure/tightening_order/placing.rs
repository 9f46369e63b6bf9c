//! Where the balloons of an order stand on the paper: on their positions, or beside them where those are close.

use super::super::drawing::{ABOVE_LINE, BELOW_LINE, Bounds, MARGIN, NOTE, Point, WIDTH, balloon_radius, point, polar, text_width};
use crate::trade::order::Position;

/// A position on the paper.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    /// Where it sits.
    pub target: Point,
    /// Where its balloon stands: there, or beside it.
    pub centre: Point,
    /// Where its number stands, on the line of its letters; none where the numbers say what the balloons say.
    pub number: Option<Point>,
}

/// All positions on the paper.
#[derive(Clone, Debug)]
pub(super) struct Placing {
    /// By number.
    pub placed: Vec<Placed>,
    /// Radius of the balloons.
    pub radius: f64,
    /// Centre and radius of the circle they sit on, where they do.
    pub circle: Option<(Point, f64)>,
}

/// Air between two balloons.
const AIR: f64 = 0.5;
/// The height of the field of positions at most.
const HIGHEST: f64 = 62.0;
/// Neighbours stand this far apart at most: a group of four needs no whole page.
const WIDEST_PITCH: f64 = 13.0;
/// Shortest arrow that can be told from its head.
const SHORTEST_ARROW: f64 = 3.0;
/// Room between a balloon and an arrow.
pub(super) const CLEAR: f64 = 0.4;
/// Length of an arrow's head, and into how many straight pieces a bow is broken.
const HEAD: f64 = 1.8;
const BENDS: u32 = 16;
/// In groups larger than this an arrow is straight.
const MOST_BOWS: usize = 6;
/// Figures reach from the line they stand on to about 0.73 of the size.
const FIGURES: f64 = 0.73;

impl Placing {
    pub(super) fn new(positions: &[Position], places: &[usize], is_circle: bool) -> Option<Self> {
        let radius = balloon_radius(positions.len());
        let numbered = places.iter().zip(1..).any(|(place, number)| *place != number);
        // Beside the outermost balloons stand the numbers.
        let margin = MARGIN + radius + if numbered { text_width(&positions.len().to_string(), NOTE) + 1.0 } else { 0.2 };
        let field = Field::of(positions, margin)?;
        if field.nearest * field.scale >= 2.0 * radius + AIR {
            return Self::within(&field, positions, numbered, radius, is_circle, false);
        }
        // Balloons beside the positions need room round them.
        let roomier = [0.0, 2.0, 4.0].into_iter().filter_map(|room| Field::of(positions, margin + room * radius));
        roomier.into_iter().find_map(|field| Self::within(&field, positions, numbered, radius, is_circle, true))
    }

    fn within(field: &Field, at: &[Position], numbered: bool, radius: f64, is_circle: bool, tight: bool) -> Option<Self> {
        let targets: Vec<Point> = at.iter().map(|at| field.place(*at)).collect();
        let circle = is_circle.then(|| (field.place(Position { x_mm: 0.0, y_mm: 0.0 }), field.scale));
        let centres = if tight { beside(&targets, radius, circle)? } else { targets.clone() };
        let placed = targets.iter().zip(&centres).map(|(target, centre)| Placed { target: *target, centre: *centre, number: None });
        let mut placing = Self { placed: placed.collect(), radius, circle };
        if numbered {
            placing.number()?;
        }
        Some(placing.moved_to_the_top())
    }

    /// The way from one balloon to another that passes all others and their numbers: straight, else in a bow.
    pub(super) fn path(&self, from: &Placed, to: &Placed) -> Option<Vec<Point>> {
        if from.centre.distance(to.centre) < 2.0 * self.radius + SHORTEST_ARROW {
            return None;
        }
        let bows = [0.0, 0.14, -0.14, 0.24, -0.24, 0.36, -0.36];
        // More bows than a few are a tangle.
        let tried = if self.placed.len() <= MOST_BOWS { bows.len() } else { 1 };
        bows.into_iter().take(tried).map(|bow| self.bowed(from.centre, to.centre, bow)).find(|path| self.is_clear(path, from, to))
    }

    /// A parabola of so much height for its length, from edge to edge of the two balloons.
    fn bowed(&self, from: Point, to: Point, bow: f64) -> Vec<Point> {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let at = |share: f64| {
            let aside = 4.0 * bow * share * (1.0 - share);
            from.moved(dx * share + dy * aside, dy * share - dx * aside)
        };
        let edge = self.radius + CLEAR;
        if bow.abs() < 1e-9 {
            return vec![from.toward(to, edge), to.toward(from, edge)];
        }
        let inner = (1..BENDS).map(|step| at(f64::from(step) / f64::from(BENDS)));
        let inner: Vec<Point> = inner.filter(|point| point.distance(from) > edge + 0.3 && point.distance(to) > edge + HEAD).collect();
        let (Some(first), Some(last)) = (inner.first().copied(), inner.last().copied()) else { return Vec::new() };
        let mut path = vec![from.toward(first, edge)];
        path.extend(&inner);
        path.push(to.toward(last, edge));
        path
    }

    fn is_clear(&self, path: &[Point], from: &Placed, to: &Placed) -> bool {
        let ends = [from.centre, to.centre];
        let clear = |one: Point, other: Point| {
            let middle = point(f64::midpoint(one.x, other.x), f64::midpoint(one.y, other.y));
            let inside = middle.x > MARGIN && middle.x < WIDTH - MARGIN;
            inside
                && self.placed.iter().enumerate().all(|(index, placed)| {
                    let passed = ends.contains(&placed.centre) || from_segment(placed.centre, one, other) > self.radius + CLEAR;
                    let number = placed.number.map(|at| number_box(at, index).grown(0.3));
                    passed && number.is_none_or(|bounds| !bounds.is_crossed_by(one, other))
                })
        };
        path.len() > 1 && path.windows(2).all(|pair| matches!(pair, [one, other] if clear(*one, *other)))
    }

    /// Sets each number beside its balloon, outwards where there is room.
    fn number(&mut self) -> Option<()> {
        let middle = middle(&self.placed);
        let mut taken: Vec<Bounds> = Vec::new();
        for index in 0..self.placed.len() {
            let centre = self.placed.get(index)?.centre;
            let outward = if centre.distance(middle) < 1e-6 { 90.0 } else { super::angle(middle, centre) };
            // In a row the numbers stand all above or all below, not outwards to the side.
            let square = if outward > 90.0 && outward < 270.0 { 180.0 } else { 0.0 };
            let first = if self.circle.is_some() { outward } else { square };
            let turns = [0.0, 180.0, 45.0, -45.0, 90.0, -90.0, 135.0, -135.0, 22.5, -22.5];
            let found = turns.into_iter().find_map(|turn| {
                let at = self.number_at(centre, first + turn, index);
                let bounds = number_box(at, index);
                let inside = bounds.left >= MARGIN && bounds.right <= WIDTH - MARGIN;
                let free = !taken.iter().any(|other| other.grown(0.3).overlaps(bounds)) && self.leaves_free(bounds);
                (inside && free).then_some((at, bounds))
            });
            let (at, bounds) = found?;
            taken.push(bounds);
            self.placed.get_mut(index)?.number = Some(at);
        }
        Some(())
    }

    /// The place for a number at an angle, as near as its box may come.
    fn number_at(&self, centre: Point, degrees: f64, index: usize) -> Point {
        let (half_width, half_height) = (text_width(&(index + 1).to_string(), NOTE) / 2.0, FIGURES * NOTE / 2.0);
        let angle = degrees.to_radians();
        // How far the box reaches towards the balloon.
        let reach = half_width * angle.sin().abs() + half_height * angle.cos().abs();
        polar(centre, self.radius + 0.9 + reach, degrees).moved(0.0, half_height)
    }

    fn leaves_free(&self, bounds: Bounds) -> bool {
        let round = |centre: Point, radius: f64| {
            let nearest = point(centre.x.clamp(bounds.left, bounds.right), centre.y.clamp(bounds.top, bounds.bottom));
            nearest.distance(centre) < radius
        };
        self.placed.iter().all(|placed| {
            let leader = placed.centre != placed.target && bounds.grown(0.3).is_crossed_by(placed.centre, placed.target);
            !round(placed.centre, self.radius + 0.2) && !round(placed.target, 0.6) && !leader
        })
    }

    /// Shifted so that nothing stands above the paper's margin.
    fn moved_to_the_top(mut self) -> Self {
        let mut top = f64::MAX;
        for (index, placed) in self.placed.iter().enumerate() {
            top = top.min(placed.centre.y - self.radius - 0.1).min(placed.target.y - 0.6);
            top = top.min(placed.number.map_or(f64::MAX, |at| number_box(at, index).top));
        }
        if let Some((centre, radius)) = self.circle {
            top = top.min(centre.y - radius - 0.1);
        }
        let down = MARGIN - top;
        for placed in &mut self.placed {
            placed.target = placed.target.moved(0.0, down);
            placed.centre = placed.centre.moved(0.0, down);
            placed.number = placed.number.map(|at| at.moved(0.0, down));
        }
        self.circle = self.circle.map(|(centre, radius)| (centre.moved(0.0, down), radius));
        self
    }
}

/// How the positions are brought onto the paper.
struct Field {
    middle: Position,
    scale: f64,
    /// Distance of the two nearest positions, as given.
    nearest: f64,
}

impl Field {
    fn of(positions: &[Position], margin: f64) -> Option<Self> {
        let ends = |of: fn(&Position) -> f64| {
            let values = positions.iter().map(of);
            Some((values.clone().reduce(f64::min)?, values.reduce(f64::max)?))
        };
        let ((left, right), (low, high)) = (ends(|at| at.x_mm)?, ends(|at| at.y_mm)?);
        let nearest = positions
            .iter()
            .enumerate()
            .flat_map(|(index, one)| positions.iter().skip(index + 1).map(move |other| (one, other)))
            .map(|(one, other)| (one.x_mm - other.x_mm).hypot(one.y_mm - other.y_mm))
            .fold(f64::MAX, f64::min);
        let fits = ((WIDTH - 2.0 * margin) / (right - left)).min(HIGHEST / (high - low));
        // Alone it may be of any size.
        let scale = if positions.len() < 2 { 8.0 } else { fits.min(WIDEST_PITCH.max(2.0 * margin) / nearest) };
        let middle = Position { x_mm: f64::midpoint(left, right), y_mm: f64::midpoint(low, high) };
        (scale.is_finite() && scale > 0.0).then_some(Self { middle, scale, nearest })
    }

    fn place(&self, at: Position) -> Point {
        point(WIDTH / 2.0 + (at.x_mm - self.middle.x_mm) * self.scale, (self.middle.y_mm - at.y_mm) * self.scale)
    }
}

/// A place for a balloon beside each position, so that no balloon covers another, a position, or a leader.
fn beside(targets: &[Point], radius: f64, circle: Option<(Point, f64)>) -> Option<Vec<Point>> {
    let middle = targets.iter().fold(point(0.0, 0.0), |sum, at| sum.moved(at.x, at.y));
    let count = f64::from(u32::try_from(targets.len()).ok()?);
    let middle = point(middle.x / count, middle.y / count);
    let mut centres: Vec<Point> = Vec::with_capacity(targets.len());
    for target in targets {
        let outward = if target.distance(middle) < 1e-6 { 0.0 } else { super::angle(middle, *target) };
        let rings = (0..10_u32).map(|ring| radius + 1.6 + 2.4 * f64::from(ring));
        let turns = (0..24_u32).map(|turn| f64::from(turn.div_ceil(2)) * if turn % 2 == 0 { 15.0 } else { -15.0 });
        let found = rings.flat_map(|away| turns.clone().map(move |turn| polar(*target, away, outward + turn))).find(|centre| {
            let inside = centre.x - radius >= MARGIN + 0.1 && centre.x + radius <= WIDTH - MARGIN - 0.1;
            let off_circle = circle.is_none_or(|(middle, round)| (middle.distance(*centre) - round).abs() > radius + 0.3);
            let off_positions = targets.iter().all(|other| {
                other.distance(*centre) > radius + 0.9 && (other == target || from_segment(*other, *target, *centre) > 0.7)
            });
            let off_others = targets.iter().zip(&centres).all(|(other, known)| {
                known.distance(*centre) > 2.0 * radius + 0.4
                    && from_segment(*known, *target, *centre) > radius + 0.3
                    && from_segment(*centre, *other, *known) > radius + 0.3
                    && !cross(*target, *centre, *other, *known)
            });
            inside && off_circle && off_positions && off_others
        });
        centres.push(found?);
    }
    Some(centres)
}

fn middle(placed: &[Placed]) -> Point {
    let bounds = Bounds::around(&placed.iter().map(|placed| placed.centre).collect::<Vec<_>>());
    bounds.map_or_else(Point::default, Bounds::centre)
}

/// The box of a number that stands on a line at a point.
fn number_box(at: Point, index: usize) -> Bounds {
    let half = text_width(&(index + 1).to_string(), NOTE) / 2.0;
    Bounds { left: at.x - half, top: at.y - ABOVE_LINE * NOTE, right: at.x + half, bottom: at.y + BELOW_LINE * NOTE }
}

/// How far a place is from a straight line between two others.
fn from_segment(at: Point, from: Point, to: Point) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let whole = dx.hypot(dy);
    if whole < 1e-9 {
        return at.distance(from);
    }
    let along = (((at.x - from.x) * dx + (at.y - from.y) * dy) / whole).clamp(0.0, whole);
    at.distance(from.toward(to, along))
}

/// Whether two straight lines cross.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |from: Point, to: Point, at: Point| (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}
