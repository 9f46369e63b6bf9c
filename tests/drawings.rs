//! Drawings from values as geometry: things lie where the model says, no text is overlapped or struck through, and
//! nothing leaves the paper, whatever is drawn.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "what fails here fails its test")]

use benchleaf::figure::drawing::{Bounds, Drawing, Fill, Mark as Stroke, Scene, svg};
use benchleaf::figure::orientation::{Look, Orientation, orientation};
use benchleaf::figure::plate_pack::{MOST_PLATES, PlateKind, PlatePack, in_turn, plate_pack};
use benchleaf::figure::sections::{Mark, Shape, Side};
use benchleaf::figure::shaft_stack::{ShaftStack, Sitting, shaft_stack};
use proptest::prelude::*;

fn sides() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::Left), Just(Side::Right)]
}

fn marks() -> impl Strategy<Value = Option<(Mark, Side)>> {
    let mark = prop_oneof![Just(Mark::Shield), Just(Mark::Stamp), Just(Mark::Chamfer), Just(Mark::Boss), Just(Mark::Face)];
    proptest::option::of((mark, sides()))
}

fn shapes() -> impl Strategy<Value = Shape> {
    prop_oneof![
        3 => sides().prop_map(Shape::SpringSeal),
        1 => sides().prop_map(Shape::LipSeal),
        1 => Just(Shape::Seal),
        1 => Just(Shape::ORing),
        2 => marks().prop_map(Shape::BallBearing),
        1 => sides().prop_map(Shape::TaperBearing),
        1 => proptest::option::of(sides()).prop_map(Shape::Circlip),
        1 => sides().prop_map(Shape::DishedWasher),
        1 => marks().prop_map(Shape::Gear),
        1 => sides().prop_map(Shape::BevelGear),
        1 => marks().prop_map(Shape::Ring),
    ]
}

/// Names as people write them, long and short, in several scripts, and none at all.
fn names() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => r"[A-Za-zäéøß0-9·°-]{1,14}( [A-Za-z0-9.×-]{1,12}){0,4}",
        1 => r"[a-z]{20,60}",
        1 => r"\PC{0,20}",
    ]
}

fn sittings() -> impl Strategy<Value = Vec<Sitting>> {
    let medium = (names(), any::<bool>()).prop_map(|(name, runs)| Sitting::Medium { name, runs });
    let thing = (names(), shapes()).prop_map(|(words, shape)| Sitting::Thing { words, shape });
    proptest::collection::vec(prop_oneof![1 => medium, 1 => thing], 0..24)
}

fn stack(sits: Vec<Sitting>) -> ShaftStack {
    ShaftStack { title: "t".to_owned(), description: "d".to_owned(), sits }
}

/// The box round what is tagged so.
fn part(scene: &Scene, what: &str, index: usize) -> Option<Bounds> {
    scene.bounds_of(what, index)
}

fn x(bounds: Bounds) -> f64 {
    bounds.centre().x
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_shaft_is_drawn_in_its_order_with_each_spring_on_its_side(sits in sittings()) {
        let Some(drawing) = shaft_stack(&stack(sits.clone())) else {
            prop_assert!(sits.is_empty());
            return Ok(());
        };
        prop_assert_eq!(drawing.faults(), vec![]);
        let place = |index: usize| -> Option<Bounds> {
            let what = match sits.get(index)? {
                // The room of a medium that doesn't run is no mark; its name, or its balloon, is.
                Sitting::Medium { runs: true, .. } => "medium",
                Sitting::Medium { .. } => return None,
                Sitting::Thing { .. } => "body",
            };
            part(&drawing.scene, what, index)
        };
        for (index, sitting) in sits.iter().enumerate() {
            // Every thing, and every medium that runs, is there; the next of the same row stands further right.
            let here = place(index);
            let Some(here) = here else {
                prop_assert!(matches!(sitting, Sitting::Medium { runs: false, .. }), "{index} is not drawn");
                continue;
            };
            if let Some(next) = place(index + 1) {
                let same_row = (next.bottom - here.bottom).abs() < 12.0;
                let follows = if same_row { next.left > here.left && x(next) > x(here) } else { next.top > here.top };
                prop_assert!(follows, "{index}");
            }
            if let Sitting::Thing { shape, .. } = sitting {
                check_sides(&drawing.scene, *shape, index, false)?;
                let balloon = part(&drawing.scene, "balloon", index);
                prop_assert!(balloon.is_some_and(|balloon| balloon.left < here.right && here.left < balloon.right), "{index}");
            }
            if let Sitting::Thing { shape: Shape::SpringSeal(side), .. } = sitting {
                // The spring lies between the seal's body and what the seal is turned to.
                let toward = if *side == Side::Left { index.checked_sub(1) } else { index.checked_add(1) };
                let spring = part(&drawing.scene, "spring", index).expect("a spring");
                if let Some(medium) = toward.and_then(place).filter(|medium| (medium.bottom - here.bottom).abs() < 12.0) {
                    prop_assert!((x(medium) < x(spring)) == (*side == Side::Left), "{index}");
                    prop_assert!((x(spring) - x(medium)).abs() < (x(here) - x(medium)).abs(), "{index}: the spring is nearer to it than the seal");
                }
            }
        }
    }

    #[test]
    fn plates_lie_in_turn_from_the_first_upwards(
        counts in proptest::collection::vec(0_u64..14, 1..5),
        begin in 0_usize..5,
        names in proptest::collection::vec(names(), 5),
        thickness in proptest::collection::vec(proptest::option::of(0.05_f64..20.0), 5),
        height in proptest::option::of(names()),
    ) {
        let begin = begin % counts.len();
        let ends: Vec<(usize, Vec<usize>)> =
            (0..counts.len()).filter_map(|end| in_turn(&counts, begin, end).map(|order| (end, order))).collect();
        prop_assert!(ends.len() <= 1, "one order at most");
        let Some((end, order)) = ends.into_iter().next() else { return Ok(()) };
        prop_assert_eq!((order.first(), order.last()), (Some(&begin), Some(&end)));
        for (kind, count) in counts.iter().enumerate() {
            prop_assert_eq!(order.iter().filter(|of| **of == kind).count() as u64, *count);
        }
        prop_assert!(order.windows(2).all(|pair| pair[1] == (pair[0] + 1) % counts.len()), "each follows the one before it");
        let kinds: Vec<PlateKind> = counts
            .iter()
            .enumerate()
            .map(|(kind, _)| PlateKind { words: names[kind].clone(), thickness: thickness[kind] })
            .collect();
        let pack = PlatePack {
            title: "t".to_owned(), description: "d".to_owned(), kinds: kinds.clone(), order: order.clone(), height,
            first: names[1].clone(), last: names[2].clone(),
        };
        let drawing = plate_pack(&pack).expect("a pack");
        prop_assert_eq!(drawing.faults(), vec![]);
        let plates: Vec<Bounds> = (0..order.len()).map(|at| part(&drawing.scene, "plate", at).expect("a plate")).collect();
        for pair in plates.windows(2) {
            // Outlines of neighbours fall together.
            prop_assert!((pair[0].top - pair[1].bottom + 0.35).abs() < 1e-6, "{pair:?}");
        }
        prop_assert!(part(&drawing.scene, "plate", order.len()).is_none());
        // Plates of one kind look alike: as wide, as far right, with as many section lines as their hatching gives.
        for (plate, kind) in plates.iter().zip(&order) {
            let like = order.iter().position(|of| of == kind).map(|first| plates[first]).expect("the first of its kind");
            prop_assert!((plate.left - like.left).abs() < 1e-9 && (plate.right - like.right).abs() < 1e-9);
            prop_assert!((plate.bottom - plate.top - like.bottom + like.top).abs() < 1e-6);
        }
        for (at, plate) in plates.iter().enumerate() {
            let number = drawing.scene.tagged("number", at).next();
            if let Some(Stroke::Text { text, .. }) = number.map(|item| &item.mark) {
                prop_assert_eq!(text, &(at + 1).to_string());
                let middle = part(&drawing.scene, "number", at).expect("it is there").centre().y;
                prop_assert!((middle - plate.centre().y).abs() < 0.5, "number {} is beside its plate", at + 1);
            }
        }
    }

    #[test]
    fn a_part_alone_looks_where_it_should(
        shape in shapes(),
        left in proptest::option::of((names(), names())),
        right in proptest::option::of((names(), names())),
    ) {
        let look = |words: &Option<(String, String)>| {
            words.clone().map(|(feature, toward)| Look { feature, toward })
        };
        let part_alone = Orientation { title: "t".to_owned(), description: "d".to_owned(), shape, left: look(&left), right: look(&right), is_flat: false };
        let Some(drawing) = orientation(&part_alone) else {
            prop_assert!(left.is_none() && right.is_none());
            return Ok(());
        };
        prop_assert_eq!(drawing.faults(), vec![]);
        let scene = &drawing.scene;
        let body = part(scene, "body", 0).expect("the upper half");
        check_sides(scene, shape, 0, false)?;
        check_sides(scene, shape, 1, true)?;
        for (index, words, side) in [(0, &left, Side::Left), (1, &right, Side::Right)] {
            let arrow = part(scene, "arrow", index);
            prop_assert_eq!(arrow.is_some(), words.is_some());
            if let Some(arrow) = arrow {
                let is_outside = if side == Side::Left { arrow.right < body.left } else { arrow.left > body.right };
                prop_assert!(is_outside);
            }
        }
    }

    #[test]
    fn a_part_that_lies_flat_is_drawn_with_what_is_above_it_above(
        shape in shapes(),
        left in proptest::option::of((names(), names())),
        right in proptest::option::of((names(), names())),
    ) {
        let look = |words: &Option<(String, String)>| words.clone().map(|(feature, toward)| Look { feature, toward });
        let part_alone = Orientation { title: "t".to_owned(), description: "d".to_owned(), shape, left: look(&left), right: look(&right), is_flat: true };
        let Some(drawing) = orientation(&part_alone) else { return Ok(()) };
        prop_assert_eq!(drawing.faults(), vec![]);
        let scene = &drawing.scene;
        let axis = part(scene, "axis", 0).expect("an axis");
        // Where the words are too long for it, it stands on its edge.
        if axis.right - axis.left < axis.bottom - axis.top {
            let body = part(scene, "body", 0).expect("one half");
            if let Some(up) = part(scene, "arrow", 0) {
                prop_assert!(up.bottom < body.top);
            }
            if let Some(down) = part(scene, "arrow", 1) {
                prop_assert!(down.top > body.bottom);
            }
        }
    }

    #[test]
    fn the_same_drawing_is_the_same_file_and_no_name_breaks_out_of_it(sits in sittings()) {
        if let Some(drawing) = shaft_stack(&stack(sits)) {
            let file = svg(&drawing, "a");
            prop_assert_eq!(&file, &svg(&drawing, "a"));
            // As many elements as the scene can give: no name has opened one of its own.
            let opened = file.matches('<').count() - file.matches("</").count();
            prop_assert!(opened <= drawing.scene.items.len() + 3);
            let paths = file.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next());
            for path in paths {
                prop_assert!(path.chars().all(|c| "MLAZ0123456789 .-".contains(c)), "{path}");
            }
        }
    }
}

/// What tells the sides apart lies on the side it is drawn for. A part that hangs is the lower half of a section.
fn check_sides(scene: &Scene, shape: Shape, index: usize, hangs: bool) -> Result<(), TestCaseError> {
    let (what, side) = match shape {
        Shape::SpringSeal(side) => ("spring", side),
        Shape::LipSeal(side) => ("lip", side),
        Shape::Circlip(Some(side)) => ("edge", side),
        // The rollers lie right across; their large ends are checked below.
        Shape::TaperBearing(_) => return check_rollers(scene, shape, index),
        Shape::BevelGear(_) => return check_bevel(scene, shape, index, hangs),
        // The hollow is the side that the washer's outer edge leans to.
        Shape::DishedWasher(_) => return check_dish(scene, shape, index, hangs),
        Shape::BallBearing(Some((_, side))) | Shape::Gear(Some((_, side))) | Shape::Ring(Some((_, side))) => ("mark", side),
        Shape::Seal | Shape::ORing | Shape::BallBearing(None) | Shape::Circlip(None) | Shape::Gear(None) | Shape::Ring(None) => {
            prop_assert!(["spring", "lip", "edge", "mark"].iter().all(|what| part(scene, what, index).is_none()));
            return Ok(());
        }
    };
    let body = part(scene, "body", index).expect("a body");
    let feature = part(scene, what, index).expect("what tells the sides apart");
    prop_assert!((x(feature) < x(body)) == (side == Side::Left), "{shape:?}");
    prop_assert_eq!(part(scene, "spring", index).is_some(), matches!(shape, Shape::SpringSeal(_)));
    Ok(())
}

fn outline(scene: &Scene, what: &str, index: usize) -> Vec<benchleaf::figure::drawing::Point> {
    scene.tagged(what, index).next().map(|item| item.mark.outline()).unwrap_or_default()
}

/// The roller is taller on the side of its large end.
fn check_rollers(scene: &Scene, shape: Shape, index: usize) -> Result<(), TestCaseError> {
    let Shape::TaperBearing(side) = shape else { return Ok(()) };
    let roller = outline(scene, "mark", index);
    let middle = x(Bounds::around(&roller).expect("a roller"));
    let height = |left: bool| {
        let ys: Vec<f64> = roller.iter().filter(|at| (at.x < middle) == left).map(|at| at.y).collect();
        ys.iter().copied().fold(f64::MIN, f64::max) - ys.iter().copied().fold(f64::MAX, f64::min)
    };
    prop_assert_eq!(height(true) > height(false), side == Side::Left);
    Ok(())
}

/// The teeth lie nearer to the axis at the small end.
fn check_bevel(scene: &Scene, shape: Shape, index: usize, hangs: bool) -> Result<(), TestCaseError> {
    let Shape::BevelGear(side) = shape else { return Ok(()) };
    let tooth = outline(scene, "mark", index);
    let middle = x(Bounds::around(&tooth).expect("a tooth"));
    let outwards = if hangs { 1.0 } else { -1.0 };
    let far = |left: bool| tooth.iter().filter(|at| (at.x < middle) == left).map(|at| at.y * outwards).fold(f64::MIN, f64::max);
    prop_assert_eq!(far(true) < far(false), side == Side::Left);
    Ok(())
}

/// Within the hollow lies the axis: the face that looks there leans back towards the bore.
fn check_dish(scene: &Scene, shape: Shape, index: usize, hangs: bool) -> Result<(), TestCaseError> {
    let Shape::DishedWasher(side) = shape else { return Ok(()) };
    let face = outline(scene, "mark", index);
    let (mut near, mut far) = (face[0], face[1]);
    if (far.y > near.y) != hangs {
        std::mem::swap(&mut near, &mut far);
    }
    // A hollow to the left opens there: the rim, far from the axis, stands further left than the inner edge.
    prop_assert_eq!(far.x < near.x, side == Side::Left);
    Ok(())
}

#[test]
fn counts_that_cannot_take_turns_are_no_pack() {
    assert_eq!(in_turn(&[3, 2], 0, 0).unwrap(), [0, 1, 0, 1, 0]);
    assert_eq!(in_turn(&[2, 2], 1, 0).unwrap(), [1, 0, 1, 0]);
    assert_eq!(in_turn(&[2, 2, 1], 0, 1).unwrap(), [0, 1, 2, 0, 1]);
    for (counts, begin, end) in [(&[2_u64, 3][..], 0, 0), (&[3, 2], 0, 1), (&[0, 0], 0, 0), (&[], 0, 0), (&[5], 3, 0), (&[u64::MAX, 1], 0, 1), (&[40, 40], 0, 1)] {
        assert_eq!(in_turn(counts, begin, end), None, "{counts:?}");
    }
    assert_eq!(in_turn(&[30, 30], 0, 1).map(|order| order.len()), Some(MOST_PLATES));
}

/// ISO 128-2, line group 0.35: a narrow line is about half a wide one; nothing else is drawn. Ink is the page's own.
#[test]
fn a_file_has_two_line_widths_and_no_colour() {
    let sits = vec![
        Sitting::Medium { name: "gear oil".to_owned(), runs: true },
        Sitting::Thing { words: "seal".to_owned(), shape: Shape::SpringSeal(Side::Left) },
        Sitting::Medium { name: "air".to_owned(), runs: false },
    ];
    let drawing: Drawing = shaft_stack(&stack(sits)).unwrap();
    let file = svg(&drawing, "a");
    let values = |name: &str| -> std::collections::BTreeSet<String> {
        let key = format!(" {name}=\"");
        file.match_indices(&key).map(|(at, _)| file[at + key.len()..].split('"').next().unwrap().to_owned()).collect()
    };
    assert_eq!(values("stroke-width").into_iter().collect::<Vec<_>>(), ["0.18", "0.35"]);
    assert!(values("fill").iter().chain(&values("stroke")).all(|value| value == "none" || value == "currentColor"));
    let is_solid = |fill: &Fill| *fill == Fill::Ink;
    let springs: Vec<_> = drawing.scene.tagged("spring", 1).collect();
    assert!(matches!(&springs[..], [spring] if matches!(&spring.mark, Stroke::Circle { fill, .. } if is_solid(fill))));
}
