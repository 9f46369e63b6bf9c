//! Section lines: parallel lines clipped to an outline, by arithmetic, so that no pattern needs a name in the page.

use super::geometry::{Point, point};

/// The pieces of parallel lines that lie within an outline (even-odd). `angle` is in degrees from the horizontal,
/// rising to the right; `spacing` in millimetres.
pub(super) fn lines(outline: &[Point], angle: f64, spacing: f64) -> Vec<(Point, Point)> {
    let turn = Turn::new(angle);
    let flat: Vec<Point> = outline.iter().map(|at| turn.flat(*at)).collect();
    let (Some(low), Some(high)) = (least(&flat, f64::min), least(&flat, f64::max)) else { return Vec::new() };
    // The lines of all outlines lie on one raster, so that halves of a part hatch alike.
    let (first, last) = ((low / spacing).ceil(), (high / spacing).floor());
    if !(spacing > 0.05 && last - first < 10_000.0) {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut line = first;
    while line <= last {
        let level = line * spacing;
        let cuts = cuts(&flat, level);
        for pair in cuts.chunks_exact(2) {
            if let [from, to] = pair
                && to - from > 0.05
            {
                found.push((turn.back(point(*from, level)), turn.back(point(*to, level))));
            }
        }
        line += 1.0;
    }
    found
}

fn least(points: &[Point], choose: fn(f64, f64) -> f64) -> Option<f64> {
    points.iter().map(|at| at.y).reduce(choose)
}

/// Where a level line crosses the outline, from left to right.
fn cuts(outline: &[Point], level: f64) -> Vec<f64> {
    let next = outline.iter().cycle().skip(1);
    let mut cuts: Vec<f64> = outline
        .iter()
        .zip(next)
        .filter(|(from, to)| (from.y <= level) != (to.y <= level))
        .map(|(from, to)| from.x + (to.x - from.x) * (level - from.y) / (to.y - from.y))
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts
}

/// Turns the paper so that the lines lie level, and back.
struct Turn {
    sin: f64,
    cos: f64,
}

impl Turn {
    fn new(angle: f64) -> Self {
        let (sin, cos) = angle.to_radians().sin_cos();
        Self { sin, cos }
    }

    fn flat(&self, at: Point) -> Point {
        point(at.x * self.cos - at.y * self.sin, at.x * self.sin + at.y * self.cos)
    }

    fn back(&self, at: Point) -> Point {
        point(at.x * self.cos + at.y * self.sin, at.y * self.cos - at.x * self.sin)
    }
}

#[cfg(test)]
mod tests {
    use super::super::geometry::Bounds;
    use super::*;

    #[test]
    fn lines_stay_within_the_outline_and_leave_a_hollow_free() {
        // A U: its hollow, x 4 to 6 above y 8, stays free.
        let outline = [(0., 0.), (4., 0.), (4., 8.), (6., 8.), (6., 0.), (10., 0.), (10., 10.), (0., 10.)];
        let outline: Vec<Point> = outline.into_iter().map(|(x, y)| point(x, y)).collect();
        for angle in [0.0, 45.0, 135.0, 90.0] {
            let lines = lines(&outline, angle, 1.0);
            assert!(lines.len() >= 8, "{angle}: {}", lines.len());
            let whole = Bounds::around(&outline).unwrap().grown(1e-9);
            let hollow = Bounds { left: 4.0, top: -1.0, right: 6.0, bottom: 8.0 }.grown(-1e-9);
            for (from, to) in lines {
                assert!(Bounds::around(&[from, to]).unwrap().within(whole));
                assert!(!hollow.is_crossed_by(from, to), "{angle}: {from:?} {to:?}");
            }
        }
    }

    #[test]
    fn lines_rise_to_the_right() {
        let square = [point(0.0, 0.0), point(5.0, 0.0), point(5.0, 5.0), point(0.0, 5.0)];
        let (from, to) = lines(&square, 45.0, 1.0)[2];
        assert!((to.x - from.x) * (to.y - from.y) < 0.0, "{from:?} {to:?}");
    }

    #[test]
    fn what_is_no_outline_has_no_lines() {
        assert!(lines(&[], 45.0, 1.0).is_empty());
        assert!(lines(&[point(0.0, f64::NAN), point(1.0, 2.0)], 45.0, 1.0).is_empty());
        assert!(lines(&[point(0.0, 0.0), point(1.0, 1e9), point(2.0, 0.0)], 45.0, 1.0).is_empty());
    }
}
