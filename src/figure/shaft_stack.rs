//! What sits on a shaft, end to end, in section: media with their names, seals with spring and lip on the side they
//! hold, bearings, rings and other parts with balloons and a list of items.

use super::drawing::{
    ABOVE_LINE, Anchor, Bounds, Drawing, LINE_PITCH, LeaderEnd, MARGIN, NOTE, Point, Scene, WIDTH, Weight, balloon,
    balloon_radius, item_list, point, text_width, wrapped,
};
use super::sections::{self, Shape, Side};

/// What sits on a shaft, from left to right.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftStack {
    /// The drawing's title.
    pub title: String,
    /// Its description, for those who can't see it.
    pub description: String,
    /// What sits there.
    pub sits: Vec<Sitting>,
}

/// One of the things on a shaft.
#[derive(Clone, Debug, PartialEq)]
pub enum Sitting {
    /// A medium in its room.
    Medium {
        /// Its name, which is written into its room.
        name: String,
        /// Whether it is a liquid or paste, which is tinted; not air.
        runs: bool,
    },
    /// A seal, bearing or part.
    Thing {
        /// What the list of items says of it.
        words: String,
        /// What it looks like, and which way round.
        shape: Shape,
    },
}

/// Upper edge of the housing, its bore, the shaft and the axis, in millimetres below the upper edge of a row.
const HOUSING: f64 = 6.6;
const BORE: f64 = 9.4;
const SURFACE: f64 = 19.4;
const AXIS: f64 = 23.0;
/// From one row to the next.
const ROW: f64 = 25.5;
/// Where a row begins and ends across the paper; the axis runs a little further.
const LEFT: f64 = 2.8;
const RIGHT: f64 = 57.2;
/// A room never gets narrower than this, and no wider than it needs plus this.
const LEAST_ROOM: f64 = 6.0;
/// As many lines of a medium's name stand above each other between shaft and housing.
const NAME_LINES: usize = 3;
/// Room beside a medium's name.
const BESIDE: f64 = 0.6;

/// Draws it. None for a shaft with nothing on it.
#[must_use]
pub fn shaft_stack(stack: &ShaftStack) -> Option<Drawing> {
    let rows = rows(&stack.sits);
    if rows.is_empty() {
        return None;
    }
    let mut scene = Scene::new();
    let mut items: Vec<(usize, String)> = Vec::new();
    let radius = balloon_radius(stack.sits.len());
    let mut top = MARGIN;
    for row in &rows {
        draw_row(&mut scene, stack, row, top, radius, &mut items);
        top += ROW;
    }
    scene.tag("list", 0);
    item_list(&mut scene, point(LEFT, top), WIDTH - LEFT - MARGIN, &items);
    Some(Drawing::new(&stack.title, &stack.description, scene))
}

/// A thing's place in its row.
struct Place {
    index: usize,
    /// Whether the row before ends with it, too.
    again: bool,
    left: f64,
    right: f64,
}

impl Place {
    fn medium(&self) -> &'static str {
        if self.again { "again" } else { "medium" }
    }
}

/// The widths that a thing may take: least and most.
fn widths(sitting: &Sitting) -> (f64, f64) {
    match sitting {
        Sitting::Medium { name, .. } => {
            let widest = name.split_whitespace().map(|word| text_width(word, NOTE)).fold(0.0, f64::max);
            let least = (widest + 2.0 * BESIDE).clamp(LEAST_ROOM, 24.0);
            (least, (text_width(name, NOTE) + 2.0 * BESIDE).clamp(least, 24.0) + 6.0)
        }
        Sitting::Thing { shape, .. } => {
            let width = match shape {
                Shape::SpringSeal(_) | Shape::LipSeal(_) | Shape::Seal => 7.8,
                Shape::BallBearing(_) | Shape::TaperBearing(_) => 9.0,
                Shape::Gear(_) | Shape::BevelGear(_) => 8.0,
                Shape::ORing | Shape::Circlip(_) | Shape::DishedWasher(_) | Shape::Ring(_) => 5.6,
            };
            (width, width)
        }
    }
}

/// Breaks the things into rows that fit the paper and gives each its place. A row ends with a medium where it can, and
/// the next begins with the same medium: so a seal and what it holds stay together. What is left of a row's width
/// goes to the media; without media it stays on both sides.
fn rows(sits: &[Sitting]) -> Vec<Vec<Place>> {
    let mut rows: Vec<Vec<Seat>> = Vec::new();
    let mut row: Vec<Seat> = Vec::new();
    let least = |seat: &Seat| sits.get(seat.index).map_or(0.0, |sitting| widths(sitting).0);
    for index in 0..sits.len() {
        let next = Seat { index, again: false };
        while !row.is_empty() && row.iter().map(least).sum::<f64>() + least(&next) > RIGHT - LEFT {
            let is_medium = |seat: &Seat| matches!(sits.get(seat.index), Some(Sitting::Medium { .. }));
            let medium = row.iter().rposition(is_medium).filter(|at| *at > 0);
            let mut rest = medium.map_or_else(Vec::new, |at| row.split_off(at + 1));
            if let Some(last) = row.last().filter(|_| medium.is_some()) {
                rest.insert(0, Seat { index: last.index, again: true });
            }
            rows.push(std::mem::replace(&mut row, rest));
        }
        row.push(next);
    }
    if !row.is_empty() {
        rows.push(row);
    }
    rows.into_iter().map(|row| placed(sits, &row)).collect()
}

/// What takes a place in a row; a medium may do so again at the head of the next.
#[derive(Clone, Copy)]
struct Seat {
    index: usize,
    again: bool,
}

fn placed(sits: &[Sitting], row: &[Seat]) -> Vec<Place> {
    let wide: Vec<(f64, f64)> = row.iter().filter_map(|seat| sits.get(seat.index)).map(widths).collect();
    let (least, most) = wide.iter().fold((0.0, 0.0), |(least, most), (l, m)| (least + l, most + m));
    let spare = RIGHT - LEFT - least;
    let share = if most > least { (spare / (most - least)).min(1.0) } else { 0.0 };
    let total = least + share * (most - least);
    let mut x = LEFT + (RIGHT - LEFT - total) / 2.0;
    row.iter()
        .zip(wide)
        .map(|(seat, (least, most))| {
            let left = x;
            x += least + share * (most - least);
            Place { index: seat.index, again: seat.again, left, right: x }
        })
        .collect()
}

fn draw_row(scene: &mut Scene, stack: &ShaftStack, row: &[Place], top: f64, radius: f64, items: &mut Vec<(usize, String)>) {
    let (Some(first), Some(last)) = (row.first(), row.last()) else { return };
    let (left, right) = (first.left, last.right);
    let (bore, surface, axis) = (top + BORE, top + SURFACE, top + AXIS);
    let frame = |place: &Place| Bounds { left: place.left, top: bore, right: place.right, bottom: surface };
    let sits = |place: &Place| stack.sits.get(place.index);
    for place in row {
        let beside = |at: Option<usize>| at.and_then(|at| stack.sits.get(at));
        match sits(place) {
            Some(Sitting::Medium { runs, .. }) => {
                scene.tag(place.medium(), place.index);
                if *runs {
                    scene.wash(&frame(place).corners());
                }
            }
            Some(Sitting::Thing { shape: Shape::SpringSeal(side) | Shape::LipSeal(side), .. }) => {
                let (before, after) = (beside(place.index.checked_sub(1)), beside(place.index.checked_add(1)));
                let media = if *side == Side::Left { [before, after] } else { [after, before] };
                for (hollow, medium) in sections::hollows(frame(place), *side).iter().zip(media) {
                    scene.tag("hollow", place.index);
                    if matches!(medium, Some(Sitting::Medium { runs: true, .. })) {
                        scene.wash(hollow);
                    }
                }
            }
            _ => {}
        }
    }
    housing_and_shaft(scene, top, left, right);
    for place in row {
        match sits(place) {
            Some(Sitting::Medium { name, .. }) => {
                scene.tag(place.medium(), place.index);
                let room = place.right - place.left - 2.0 * BESIDE;
                let lines = wrapped(name, NOTE, room);
                if lines.len() <= NAME_LINES {
                    name_room(scene, frame(place), &lines);
                } else if !place.again {
                    number(scene, place, frame(place).centre(), top, radius, name, items);
                }
            }
            Some(Sitting::Thing { words, shape }) => {
                let fitted = snug(frame(place), *shape);
                sections::section(scene, fitted, *shape, place.index);
                number(scene, place, sections::body_point(fitted, *shape), top, radius, words, items);
            }
            None => {}
        }
    }
    scene.tag("axis", 0);
    scene.line(point(left - 2.4, axis), point(right + 2.4, axis), Weight::Chain);
    // The mark of symmetry at both ends: only the upper half is drawn (ISO 128-3).
    for x in [left - 2.2, left - 1.5, right + 1.5, right + 2.2] {
        scene.line(point(x, axis - 1.1), point(x, axis + 1.1), Weight::Thin);
    }
}

/// What does not reach from shaft to housing, or should not lie edge to edge with its neighbour.
fn snug(frame: Bounds, shape: Shape) -> Bounds {
    match shape {
        Shape::Ring(_) | Shape::Gear(_) | Shape::BevelGear(_) | Shape::DishedWasher(_) => narrowed(Bounds { top: frame.top + 0.8, ..frame }, 0.4),
        Shape::BallBearing(_) | Shape::TaperBearing(_) => narrowed(frame, 0.5),
        // A circlip sits in a groove of the housing's bore.
        Shape::Circlip(_) => narrowed(Bounds { top: frame.top - 0.6, bottom: frame.top + 4.6, ..frame }, 0.6),
        Shape::ORing => narrowed(frame, 0.8),
        Shape::SpringSeal(_) | Shape::LipSeal(_) | Shape::Seal => frame,
    }
}

fn narrowed(frame: Bounds, by: f64) -> Bounds {
    Bounds { left: frame.left + by, right: frame.right - by, ..frame }
}

/// The housing above, cut; the shaft below, which is never hatched lengthwise (ISO 128-3); both broken off.
fn housing_and_shaft(scene: &mut Scene, top: f64, left: f64, right: f64) {
    let (housing, bore, surface, axis) = (top + HOUSING, top + BORE, top + SURFACE, top + AXIS);
    scene.tag("housing", 0);
    let cut = Bounds { left, top: housing, right, bottom: bore };
    scene.hatching(&cut.corners(), 45.0, 1.5);
    scene.line(point(left, housing), point(right, housing), Weight::Thick);
    scene.line(point(left, bore), point(right, bore), Weight::Thick);
    scene.tag("shaft", 0);
    scene.line(point(left, surface), point(right, surface), Weight::Thick);
    scene.tag("break", 0);
    for x in [left, right] {
        let middle = f64::midpoint(surface, axis);
        let zigzag = [
            point(x, housing), point(x, middle - 0.9), point(x - 0.7, middle - 0.4), point(x + 0.7, middle + 0.4),
            point(x, middle + 0.9), point(x, axis),
        ];
        scene.polyline(&zigzag, Weight::Thin);
    }
}

fn name_room(scene: &mut Scene, room: Bounds, lines: &[String]) {
    let pitch = LINE_PITCH * NOTE;
    let height = pitch * (lines.len().saturating_sub(1)) as f64;
    let mut baseline = room.centre().y - height / 2.0 + ABOVE_LINE * NOTE / 2.0;
    for line in lines {
        scene.text(point(room.centre().x, baseline), Anchor::Middle, NOTE, line.as_str());
        baseline += pitch;
    }
}

/// A balloon above the row; its number is the next in the list.
fn number(scene: &mut Scene, place: &Place, target: Point, top: f64, radius: f64, words: &str, items: &mut Vec<(usize, String)>) {
    let item = items.len() + 1;
    items.push((item, words.to_owned()));
    let middle = f64::midpoint(place.left, place.right);
    scene.tag("balloon", place.index);
    // A little aside, so that the leader is no line of the part.
    balloon(scene, point(middle + 1.0, top + radius + 0.1), radius, item, Some((target, LeaderEnd::Dot)));
}
