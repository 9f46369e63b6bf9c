//! Drawings of orders: what can be read off them is what was given.

use super::placing::CLEAR;
use super::*;
use crate::figure::drawing::{Bounds, Item, Mark, point};
use crate::trade::order::{Position, propose};
use proptest::prelude::*;

fn drawn(layout: &Layout, order: &[usize], stages: &[&str]) -> Option<Drawing> {
    let words = OrderWords {
        title: "Tightening order".to_owned(),
        description: "In turn.".to_owned(),
        legend: "In the balloon: when. Beside it: position.".to_owned(),
        legend_of_turns: "In the balloon: when.".to_owned(),
        stages: stages.iter().map(|stage| (*stage).to_owned()).collect(),
        edges: Default::default(),
    };
    TighteningOrder { layout, order, words }.drawing()
}

#[test]
fn what_lies_at_an_edge_stands_beside_an_arrow_that_points_there() {
    let layout = Layout::Rows(vec![3, 3]);
    let order = propose(&layout).unwrap();
    let with = |edges: [Option<&str>; 4]| {
        let words = OrderWords { title: "Order".to_owned(), description: "In turn.".to_owned(), edges: edges.map(|words| words.map(str::to_owned)), ..OrderWords::default() };
        TighteningOrder { layout: &layout, order: &order, words }.drawing().unwrap()
    };
    let plain = with([None; 4]);
    for (index, (right, down)) in [(0, (0.0, -1.0)), (1, (0.0, 1.0)), (2, (-1.0, 0.0)), (3, (1.0, 0.0))] {
        let mut edges = [None; 4];
        edges[index] = Some("flywheel end");
        let drawing = with(edges);
        a_good_drawing(&drawing);
        let said: Vec<&Item> = drawing.scene.tagged("edge", index).collect();
        assert!(said.iter().any(|item| matches!(&item.mark, Mark::Text { text, .. } if text == "flywheel end")));
        let arrow = said.iter().find_map(|item| match &item.mark {
            Mark::Path { points, .. } if points.len() == 2 => Some((points[0], points[1])),
            _ => None,
        });
        let (tail, tip) = arrow.unwrap();
        assert!((tip.x - tail.x) * right > 4.0 || (tip.y - tail.y) * down > 4.0, "{index}: {tail:?} {tip:?}");
        let field = drawing.scene.bounds_of("position", 0).unwrap();
        assert_eq!(down > 0.0, said.iter().all(|item| item.mark.bounds().top > field.bottom), "only what lies below stands below");
        assert!(drawing.height_mm > plain.height_mm);
    }
    let long = "the end at which the flywheel, the belt and the starter sit, which is the upper one as the motor hangs";
    a_good_drawing(&with([Some(long), Some(long), Some(long), Some(long)]));
}

/// The balloon of each place of the order, from the drawing alone.
fn balloons(drawing: &Drawing) -> Vec<(usize, Point, f64)> {
    let mut found: Vec<(usize, Point, f64)> = Vec::new();
    let items = &drawing.scene.items;
    for item in items.iter().filter(|item| item.tag.what == "position") {
        let Mark::Text { text, .. } = &item.mark else { continue };
        let middle = item.mark.bounds().centre();
        let around = items.iter().filter_map(|item| match item.mark {
            Mark::Circle { centre, radius, fill: Fill::None, .. } if item.tag.what == "position" => Some((centre, radius)),
            _ => None,
        });
        let (centre, radius) = around.min_by(|a, b| a.0.distance(middle).total_cmp(&b.0.distance(middle))).unwrap();
        assert!(centre.distance(middle) < 1.0);
        found.push((text.parse().unwrap(), centre, radius));
    }
    found.sort_by_key(|(place, ..)| *place);
    found
}

/// What each balloon points at, or sits on.
fn position_of(drawing: &Drawing, centre: Point, radius: f64) -> Point {
    let dots = drawing.scene.items.iter().filter(|item| item.tag.what == "position").filter_map(|item| match &item.mark {
        Mark::Path { points, .. } => match points.as_slice() {
            [from, to] if (from.distance(centre) - radius).abs() < 1e-6 => Some(*to),
            _ => None,
        },
        _ => None,
    });
    dots.min_by(|a, b| a.distance(centre).total_cmp(&b.distance(centre))).unwrap_or(centre)
}

fn a_good_drawing(drawing: &Drawing) {
    assert_eq!(drawing.faults(), []);
    let balloons = balloons(drawing);
    for (index, (_, centre, radius)) in balloons.iter().enumerate() {
        let round = Bounds::around(&[*centre]).unwrap().grown(*radius);
        assert!(round.within(Bounds { left: 0.0, top: 0.0, right: drawing.width_mm, bottom: drawing.height_mm }));
        for (_, other, _) in balloons.iter().skip(index + 1) {
            assert!(centre.distance(*other) > 2.0 * radius);
        }
    }
}

/// The order as one reads it off: each position by its angle round the middle.
fn read_off_circle(drawing: &Drawing, count: usize) -> Vec<usize> {
    let places: Vec<Point> = balloons(drawing).iter().map(|(_, at, radius)| position_of(drawing, *at, *radius)).collect();
    let sum = places.iter().fold(point(0.0, 0.0), |sum, at| sum.moved(at.x, at.y));
    let share = f64::from(u32::try_from(count).unwrap());
    let centre = point(sum.x / share, sum.y / share);
    places.iter().map(|at| whole(angle(centre, *at) / 360.0 * share) % count + 1).collect()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few positions")]
fn whole(value: f64) -> usize {
    value.round() as usize
}

#[test]
fn every_usual_circle_is_drawn() {
    for count in 2..=28 {
        let layout = Layout::Circle(count);
        let order = propose(&layout).unwrap();
        let drawing = drawn(&layout, &order, &["stage 1: 10 N·m", "stage 2: 24 N·m"]).unwrap_or_else(|| panic!("{count}"));
        a_good_drawing(&drawing);
        assert_eq!(read_off_circle(&drawing, count), order, "{count}");
    }
}

#[test]
fn arrows_lead_from_each_to_the_next() {
    let layout = Layout::Circle(6);
    let drawing = drawn(&layout, &[1, 4, 2, 5, 3, 6], &[]).unwrap();
    let balloons = balloons(&drawing);
    for (index, pair) in balloons.windows(2).enumerate() {
        let mut arrow = drawing.scene.tagged("arrow", index);
        let Some(Mark::Path { points, .. }) = arrow.next().map(|item| &item.mark) else { panic!("no arrow {index}") };
        let [(_, from, radius), (_, to, _)] = pair else { panic!() };
        assert!((points[0].distance(*from) - radius - CLEAR).abs() < 1e-9);
        assert!((points[1].distance(*to) - radius - CLEAR).abs() < 1e-9);
    }
    let many = drawn(&Layout::Circle(16), &propose(&Layout::Circle(16)).unwrap(), &[]).unwrap();
    assert_eq!(many.scene.items.iter().filter(|item| item.tag.what == "arrow").count(), 0);
}

#[test]
fn rows_lie_as_they_are_counted() {
    for rows in [vec![5, 5], vec![3, 3], vec![2, 2], vec![7], vec![4, 4, 4], vec![3, 2, 3], vec![2, 2, 2, 2, 2, 2], vec![9, 9]] {
        let layout = Layout::Rows(rows.clone());
        let order = propose(&layout).unwrap();
        let drawing = drawn(&layout, &order, &[]).unwrap_or_else(|| panic!("{rows:?}"));
        a_good_drawing(&drawing);
        let mut read: Vec<(usize, Point)> =
            balloons(&drawing).iter().map(|(place, at, radius)| (*place, position_of(&drawing, *at, *radius))).collect();
        read.sort_by(|a, b| (a.1.y.round(), a.1.x).partial_cmp(&(b.1.y.round(), b.1.x)).unwrap());
        let places: Vec<usize> = read.iter().map(|(place, _)| *place).collect();
        assert_eq!(places, places_in(&order, order.len()).unwrap(), "{rows:?}");
    }
}

#[test]
fn what_is_no_order_is_not_drawn() {
    for order in [vec![], vec![1, 2, 3, 3], vec![0, 1, 2, 3], vec![1, 2, 3, 5], vec![1, 2, 3]] {
        assert_eq!(drawn(&Layout::Circle(4), &order, &[]), None, "{order:?}");
    }
    assert_eq!(drawn(&Layout::Circle(0), &[], &[]), None);
    let all: Vec<usize> = (1..=200).collect();
    assert_eq!(drawn(&Layout::Circle(200), &all, &[]), None);
}

fn a_layout() -> impl Strategy<Value = Layout> {
    let place = (-150.0..150.0_f64, -150.0..150.0_f64).prop_map(|(x_mm, y_mm)| Position { x_mm, y_mm });
    prop_oneof![
        (1_usize..60).prop_map(Layout::Circle),
        prop::collection::vec(0_usize..12, 1..5).prop_map(Layout::Rows),
        prop::collection::vec(place, 1..16).prop_map(Layout::Positions),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    // Whatever is drawn is drawn well, and the positions are the layout's, turned and stretched by nothing.
    #[test]
    fn what_is_drawn_is_the_order(layout in a_layout(), shuffle in any::<u64>()) {
        let Ok(mut order) = propose(&layout) else { return Ok(()) };
        if shuffle % 2 == 0 {
            let turn = usize::try_from(shuffle % 7).unwrap() % order.len();
            order.rotate_left(turn);
        }
        let Some(drawing) = drawn(&layout, &order, &["stage 1: 20 N·m"]) else { return Ok(()) };
        a_good_drawing(&drawing);
        let read: Vec<Point> = balloons(&drawing).iter().map(|(_, at, radius)| position_of(&drawing, *at, *radius)).collect();
        prop_assert_eq!(read.len(), order.len());
        let given = layout.positions().unwrap();
        let in_order: Vec<&Position> = order.iter().map(|position| &given[position - 1]).collect();
        let widest = in_order.iter().map(|at| (at.x_mm - in_order[0].x_mm).hypot(at.y_mm - in_order[0].y_mm)).fold(0.0, f64::max);
        let scale = read.iter().map(|at| at.distance(read[0])).fold(0.0, f64::max) / widest.max(1e-9);
        for (at, given) in read.iter().zip(&in_order) {
            let expected = point(read[0].x + (given.x_mm - in_order[0].x_mm) * scale, read[0].y - (given.y_mm - in_order[0].y_mm) * scale);
            prop_assert!(at.distance(expected) < 1e-6, "{:?} {:?}", at, expected);
        }
    }

    // Free positions that are not crowded are always drawn.
    #[test]
    fn roomy_positions_are_drawn(jitter in prop::collection::vec((-6.0..6.0_f64, -6.0..6.0_f64), 12)) {
        let place = |(index, (x, y)): (usize, &(f64, f64))| {
            let (column, row) = (f64::from(u32::try_from(index % 4).unwrap()), f64::from(u32::try_from(index / 4).unwrap()));
            Position { x_mm: 40.0 * column + x, y_mm: 40.0 * row + y }
        };
        let layout = Layout::Positions(jitter.iter().enumerate().map(place).collect());
        let order = propose(&layout).unwrap();
        prop_assert!(drawn(&layout, &order, &[]).is_some());
    }
}
