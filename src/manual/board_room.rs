//! The room on the paper of a board: which layouts have their holes on it at their true places.

use super::things::Layout;

/// What the paper's own area holds beside the page's heads, in millimetres.
pub const BOARD_ROOM: (f64, f64) = (180.0, 178.0);
/// Round the holes, in millimetres: room for their numbers.
pub const BOARD_AIR: f64 = 15.0;
/// Left of the holes, for the bar that stands, and below them, for the bar that lies; in millimetres.
pub const BOARD_BARS: (f64, f64) = (12.0, 11.0);

/// The places of a layout in millimetres from the upper left corner, and whether they lie turned on their side, because they fit
/// only so. None where it has no true places or is larger than the paper.
#[must_use]
pub fn board_places(layout: &Layout) -> Option<(Vec<(f64, f64)>, bool)> {
    let Layout::At(places) = layout else { return None };
    let room = (BOARD_ROOM.0 - BOARD_BARS.0 - 2.0 * BOARD_AIR, BOARD_ROOM.1 - BOARD_BARS.1 - 2.0 * BOARD_AIR);
    let ends = |values: &mut dyn Iterator<Item = f64>| values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
    // Upwards is up: on paper the way goes down.
    let upright: Vec<(f64, f64)> = places.iter().map(|(x, y)| (*x, -y)).collect();
    let turned: Vec<(f64, f64)> = places.iter().map(|(x, y)| (*y, *x)).collect();
    [(upright, false), (turned, true)].into_iter().find_map(|(places, turned)| {
        let (left, right) = ends(&mut places.iter().map(|(x, _)| *x));
        let (top, bottom) = ends(&mut places.iter().map(|(_, y)| *y));
        let are_places = places.iter().all(|(x, y)| x.is_finite() && y.is_finite());
        let fits = are_places && right - left <= room.0 && bottom - top <= room.1;
        fits.then(|| (places.iter().map(|(x, y)| (x - left + BOARD_BARS.0 + BOARD_AIR, y - top + BOARD_AIR)).collect(), turned))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_lie_as_far_apart_as_their_places_and_upwards_is_up() {
        let (places, _) = board_places(&Layout::At(vec![(0.0, 0.0), (80.0, 0.0), (40.0, 30.0)])).unwrap();
        assert!((places[1].0 - places[0].0 - 80.0).abs() < 1e-9 && (places[1].1 - places[0].1).abs() < 1e-9);
        assert!((places[0].1 - places[2].1 - 30.0).abs() < 1e-9, "the higher place stands higher on the paper");
    }

    #[test]
    fn what_is_wide_is_turned_and_what_is_larger_than_the_paper_has_no_board() {
        let long = |mm: f64| board_places(&Layout::At(vec![(0.0, 0.0), (mm, 10.0)]));
        let (lain, turned) = long(130.0).unwrap();
        assert!((lain[1].0 - lain[0].0 - 130.0).abs() < 1e-9 && !turned);
        assert!(board_places(&Layout::At(vec![(0.0, 0.0), (10.0, 137.0)])).is_some());
        assert!(board_places(&Layout::At(vec![(0.0, 0.0), (10.0, 138.0)])).is_some_and(|(_, turned)| turned));
        assert!(long(200.0).is_none() && long(f64::NAN).is_none());
        assert!(board_places(&Layout::Circle(6)).is_none(), "no diameter, no true size");
    }
}
