//! Balloons on a picture (ISO 6433): the author says where each item is; where its number stands is worked out.
//!
//! Numbers stand along the edges of the picture, where they hide least, each as near its item as can be, so that no
//! number lies on another or on an item, none leaves the picture, and no leader line crosses another or runs through a
//! number. Leader lines that do not cross are those of the least total length, so length is what is made small.

use super::drawing::{Point, point};

/// Width of every picture in units of the layout; its height follows from its shape.
pub const WIDTH: f64 = 1000.0;

/// An item of a picture: its number and where it is, in per cent of width and height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// The number.
    pub item: u64,
    /// From the left edge and from the top, 0 to 100.
    pub at: (f64, f64),
}

/// A number as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The number.
    pub item: u64,
    /// The middle of its balloon.
    pub centre: Point,
    /// Where its leader line begins: on the balloon.
    pub from: Point,
    /// Where its leader line ends: at the item.
    pub target: Point,
}

/// All numbers of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Height of the picture in units of the layout.
    pub height: f64,
    /// Radius of every balloon.
    pub radius: f64,
    /// The numbers, in the order given.
    pub placed: Vec<Placed>,
}

/// Radius of a balloon: its number can be read on a phone, where the picture is some 260 pixels wide.
const RADIUS: f64 = 40.0;
/// Free space between balloons, and between a balloon and the edge.
const GAP: f64 = 8.0;
/// What a fault costs, against a unit of length of a leader line: more than any length can save.
const FAULT: f64 = 100_000.0;
/// How often the places are gone through; each round that changes nothing ends it sooner.
const ROUNDS: usize = 40;
/// More numbers than this are laid out without looking for better places: nobody finds anything among them.
const MOST: usize = 60;

/// Lays out the numbers of a picture of a width and height (in any one unit).
#[must_use]
pub fn lay_out(width: u32, height: u32, spots: &[Spot]) -> Layout {
    let height = WIDTH * f64::from(height.max(1)) / f64::from(width.max(1));
    let radius = radius(height, spots.len());
    let targets: Vec<Point> = spots.iter().map(|spot| point(share(spot.at.0) * WIDTH, share(spot.at.1) * height)).collect();
    let places = places(height, radius);
    let table = Table { targets: &targets, places: &places, radius };
    let chosen = table.choose();
    let placed = spots.iter().zip(&targets).zip(&chosen).filter_map(|((spot, target), at)| {
        let centre = *places.get(*at)?;
        Some(Placed { item: spot.item, centre, from: centre.toward(*target, radius), target: *target })
    });
    Layout { height, radius, placed: placed.collect() }
}

fn share(per_cent: f64) -> f64 {
    if per_cent.is_finite() { (per_cent / 100.0).clamp(0.0, 1.0) } else { 0.5 }
}

/// Smaller balloons where there are too many for the edges, or where the picture is a strip.
fn radius(height: f64, count: usize) -> f64 {
    let most = f64::from(u32::try_from(count.max(1)).unwrap_or(u32::MAX));
    let edges = 2.0 * (WIDTH + height);
    // Half of the edges at most, so that there is a choice.
    RADIUS.min((edges / 2.0 / most - GAP) / 2.0).min(height / 2.0 - GAP).max(1.0)
}

/// Where numbers may stand: along the four edges, close together.
fn places(height: f64, radius: f64) -> Vec<Point> {
    let inset = radius + GAP;
    let (right, bottom) = (WIDTH - inset, (height - inset).max(inset));
    let mut places = Vec::new();
    for (x, share) in steps(inset, right, radius) {
        places.push(point(x, inset));
        if bottom > inset {
            places.push(point(x, bottom));
        }
        // The same share of the way down both sides; the corners stand there already.
        let y = inset + (bottom - inset) * share;
        if share > 0.0 && share < 1.0 && bottom > inset {
            places.push(point(inset, y));
            places.push(point(right, y));
        }
    }
    places
}

/// Steps of about two thirds of a radius from one value to another, each with its share of the way.
fn steps(from: f64, to: f64, radius: f64) -> Vec<(f64, f64)> {
    let wanted = ((to - from) / (radius * 0.66)).ceil().clamp(1.0, 400.0);
    let mut steps = Vec::new();
    let mut done = 0.0;
    while done <= wanted {
        steps.push((from + (to - from) * done / wanted, done / wanted));
        done += 1.0;
    }
    steps
}

/// What is chosen from, and for what.
struct Table<'a> {
    targets: &'a [Point],
    places: &'a [Point],
    radius: f64,
}

impl Table<'_> {
    /// A place for each target, by its index. From two beginnings the better end is taken; the first of equals.
    fn choose(&self) -> Vec<usize> {
        let in_turn: Vec<usize> = (0..self.targets.len()).collect();
        let mut from_the_left = in_turn.clone();
        from_the_left.sort_by(|a, b| self.target(*a).x.total_cmp(&self.target(*b).x).then(a.cmp(b)));
        let ends = [in_turn, from_the_left].map(|order| self.improved(self.begun(&order)));
        let [first, second] = ends;
        if self.whole_cost(&second) < self.whole_cost(&first) - 1e-6 { second } else { first }
    }

    /// Each in its turn takes the nearest place that is free.
    fn begun(&self, order: &[usize]) -> Vec<usize> {
        let mut chosen = vec![0; self.targets.len()];
        let mut taken: Vec<Point> = Vec::new();
        for index in order {
            let target = self.target(*index);
            let is_free = |at: Point| taken.iter().all(|other| at.distance(*other) >= 2.0 * self.radius + GAP);
            let (mut nearest, mut least) = (0, f64::INFINITY);
            for (at, place) in self.places.iter().enumerate() {
                let length = place.distance(target);
                if length >= self.radius + GAP && length < least && is_free(*place) {
                    (nearest, least) = (at, length);
                }
            }
            taken.extend(self.places.get(nearest));
            if let Some(slot) = chosen.get_mut(*index) {
                *slot = nearest;
            }
        }
        chosen
    }

    /// Moves numbers, and has two change places, as long as that makes it better.
    fn improved(&self, mut chosen: Vec<usize>) -> Vec<usize> {
        if chosen.len() > MOST {
            return chosen;
        }
        for _ in 0..ROUNDS {
            let mut better = false;
            for index in 0..chosen.len() {
                better |= self.move_one(index, &mut chosen);
                for other in index + 1..chosen.len() {
                    better |= self.swap(index, other, &mut chosen);
                }
            }
            if !better {
                break;
            }
        }
        chosen
    }

    fn move_one(&self, index: usize, chosen: &mut [usize]) -> bool {
        let Some(before) = chosen.get(index).copied() else { return false };
        let (mut best, mut least) = (before, self.cost(index, chosen));
        let target = self.target(index);
        for place in 0..self.places.len() {
            // Its line alone is as long as all that the best one costs: most places are told by that.
            if self.places.get(place).is_none_or(|at| at.distance(target) >= least) {
                continue;
            }
            chosen[index] = place;
            let cost = self.cost(index, chosen);
            if cost < least - 1e-6 {
                (best, least) = (place, cost);
            }
        }
        chosen[index] = best;
        best != before
    }

    fn swap(&self, one: usize, other: usize, chosen: &mut [usize]) -> bool {
        let before = self.cost(one, chosen) + self.cost(other, chosen);
        chosen.swap(one, other);
        let better = self.cost(one, chosen) + self.cost(other, chosen) < before - 1e-6;
        if !better {
            chosen.swap(one, other);
        }
        better
    }

    fn whole_cost(&self, chosen: &[usize]) -> f64 {
        (0..chosen.len()).map(|index| self.cost(index, chosen)).sum()
    }

    /// The length of one leader line, and the faults its number has with all others.
    fn cost(&self, index: usize, chosen: &[usize]) -> f64 {
        let (target, at) = (self.target(index), self.place(chosen, index));
        let mut faults = if at.distance(target) < self.radius + GAP { 1.0 } else { 0.0 };
        for other in (0..chosen.len()).filter(|other| *other != index) {
            let (there, place) = (self.target(other), self.place(chosen, other));
            let apart = at.distance(place);
            if apart < 2.0 * self.radius + GAP {
                // The nearer the worse, so that a way out shows.
                faults += 10.0 + (2.0 * self.radius + GAP - apart) / self.radius;
            }
            let hidden = at.distance(there) < self.radius + GAP || place.distance(target) < self.radius + GAP;
            let struck = distance_to_line(place, at, target) < self.radius + GAP / 2.0 || distance_to_line(at, place, there) < self.radius + GAP / 2.0;
            let crossed = cross(at, target, place, there);
            faults += f64::from(u8::from(hidden)) + f64::from(u8::from(struck)) + f64::from(u8::from(crossed));
        }
        at.distance(target) + faults * FAULT
    }

    fn target(&self, index: usize) -> Point {
        self.targets.get(index).copied().unwrap_or_default()
    }

    fn place(&self, chosen: &[usize], index: usize) -> Point {
        chosen.get(index).and_then(|at| self.places.get(*at)).copied().unwrap_or_default()
    }
}

/// How far a point is from a line between two others.
fn distance_to_line(from: Point, one: Point, other: Point) -> f64 {
    let (dx, dy) = (other.x - one.x, other.y - one.y);
    let length = dx * dx + dy * dy;
    if length < f64::EPSILON {
        return from.distance(one);
    }
    let along = (((from.x - one.x) * dx + (from.y - one.y) * dy) / length).clamp(0.0, 1.0);
    from.distance(point(one.x + along * dx, one.y + along * dy))
}

/// Whether two lines cross within both; two that end at one point do not.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |from: Point, to: Point, at: Point| (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn spots(at: &[(f64, f64)]) -> Vec<Spot> {
        (1..).zip(at).map(|(item, at)| Spot { item, at: *at }).collect()
    }

    /// What is wrong with a layout, in words.
    fn faults(layout: &Layout) -> Vec<String> {
        let mut found = Vec::new();
        let Layout { height, radius, placed } = layout;
        for (index, one) in placed.iter().enumerate() {
            let inside = one.centre.x >= *radius && one.centre.x <= WIDTH - radius && one.centre.y >= *radius && one.centre.y <= height - radius;
            if !inside {
                found.push(format!("{} leaves the picture", one.item));
            }
            for other in &placed[index + 1..] {
                if one.centre.distance(other.centre) < 2.0 * radius {
                    found.push(format!("{} lies on {}", one.item, other.item));
                }
                if cross(one.centre, one.target, other.centre, other.target) {
                    found.push(format!("the lines of {} and {} cross", one.item, other.item));
                }
            }
            for other in placed.iter().filter(|other| other.item != one.item) {
                if other.centre.distance(one.target) < *radius {
                    found.push(format!("{} hides item {}", other.item, one.item));
                }
                if distance_to_line(other.centre, one.from, one.target) < *radius {
                    found.push(format!("the line of {} runs through {}", one.item, other.item));
                }
            }
            if (one.from.distance(one.centre) - radius).abs() > 1e-9 {
                found.push(format!("the line of {} does not begin at its balloon", one.item));
            }
        }
        found
    }

    #[test]
    fn a_few_items_get_their_numbers_at_the_nearest_edge() {
        let layout = lay_out(1600, 1200, &spots(&[(10.0, 50.0), (50.0, 10.0), (90.0, 50.0), (50.0, 90.0)]));
        assert_eq!(faults(&layout), Vec::<String>::new());
        let [left, top, right, bottom] = layout.placed.as_slice() else { panic!("four numbers") };
        assert!(left.centre.x < 100.0 && top.centre.y < 100.0 && right.centre.x > 900.0 && bottom.centre.y > 650.0, "{layout:?}");
    }

    #[test]
    fn items_close_together_keep_their_numbers_apart() {
        let close: Vec<(f64, f64)> = (0..8).map(|n| (48.0 + f64::from(n % 4) * 2.0, 49.0 + f64::from(n / 4) * 3.0)).collect();
        let layout = lay_out(1600, 1200, &spots(&close));
        assert_eq!(faults(&layout), Vec::<String>::new());
    }

    #[test]
    fn the_same_items_get_the_same_places_whatever_their_number() {
        let one = lay_out(800, 600, &[Spot { item: 7, at: (20.0, 30.0) }]);
        let other = lay_out(1600, 1200, &[Spot { item: 1, at: (20.0, 30.0) }]);
        assert_eq!(one.placed[0].centre, other.placed[0].centre);
    }

    #[test]
    fn nothing_and_nonsense_have_a_layout() {
        assert!(lay_out(0, 0, &[]).placed.is_empty());
        for (width, height) in [(1, 1), (4_000_000_000, 1), (1, 4_000_000), (10, 3000)] {
            let layout = lay_out(width, height, &spots(&[(f64::NAN, -4.0), (1e300, 50.0)]));
            assert!(layout.placed.iter().all(|placed| placed.centre.x.is_finite() && placed.centre.y.is_finite()), "{width} {height}");
        }
        assert_eq!(lay_out(1600, 1200, &spots(&[(50.0, 50.0); 200])).placed.len(), 200);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]

        // Items at least four per cent apart: nearer ones the picture itself does not tell apart.
        #[test]
        fn numbers_never_overlap_leave_the_picture_or_cross_lines(
            seeds in proptest::collection::vec((2_u32..98, 2_u32..98), 1..12),
            shape in 0_usize..3,
        ) {
            let mut at: Vec<(f64, f64)> = Vec::new();
            for (x, y) in seeds {
                let spot = (f64::from(x), f64::from(y));
                if at.iter().all(|(x, y)| (x - spot.0).hypot(y - spot.1) >= 4.0) {
                    at.push(spot);
                }
            }
            let (width, height) = [(1600, 1200), (1200, 1600), (1600, 900)][shape];
            let layout = lay_out(width, height, &spots(&at));
            prop_assert_eq!(faults(&layout), Vec::<String>::new());
        }
    }
}
