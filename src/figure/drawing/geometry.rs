//! Points, boxes and where lines meet them. Millimetres, y downwards, angles in degrees clockwise from 12 o'clock.

/// A place on the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Millimetres from the left edge.
    pub x: f64,
    /// Millimetres from the top.
    pub y: f64,
}

/// A place on the paper.
#[must_use]
pub const fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// The place at a distance from a centre, at an angle clockwise from 12 o'clock.
#[must_use]
pub fn polar(centre: Point, radius: f64, degrees: f64) -> Point {
    let angle = degrees.to_radians();
    point(centre.x + radius * angle.sin(), centre.y - radius * angle.cos())
}

impl Point {
    /// The place so much to the right and down.
    #[must_use]
    pub fn moved(self, right: f64, down: f64) -> Self {
        point(self.x + right, self.y + down)
    }

    /// How far it is to another place.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }

    /// The place so far along the way to another; the other itself where they are one.
    #[must_use]
    pub fn toward(self, other: Self, distance: f64) -> Self {
        let whole = self.distance(other);
        if whole < f64::EPSILON {
            return other;
        }
        point(self.x + (other.x - self.x) * distance / whole, self.y + (other.y - self.y) * distance / whole)
    }
}

/// The upright box round something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Its left edge.
    pub left: f64,
    /// Its top.
    pub top: f64,
    /// Its right edge.
    pub right: f64,
    /// Its bottom.
    pub bottom: f64,
}

impl Bounds {
    /// The box round points; none where there are none, or one of them is not a number.
    #[must_use]
    pub fn around(points: &[Point]) -> Option<Self> {
        let first = points.first()?;
        if points.iter().any(|at| !at.x.is_finite() || !at.y.is_finite()) {
            return None;
        }
        let start = Self { left: first.x, top: first.y, right: first.x, bottom: first.y };
        Some(points.iter().fold(start, |bounds, at| Self {
            left: bounds.left.min(at.x),
            top: bounds.top.min(at.y),
            right: bounds.right.max(at.x),
            bottom: bounds.bottom.max(at.y),
        }))
    }

    /// The box round two boxes.
    #[must_use]
    pub fn joined(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The box grown by so much on each side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Its middle.
    #[must_use]
    pub fn centre(self) -> Point {
        point(f64::midpoint(self.left, self.right), f64::midpoint(self.top, self.bottom))
    }

    /// Whether it lies within another, edges included. Never for a box that is not a number.
    #[must_use]
    pub fn within(self, other: Self) -> bool {
        self.left >= other.left && self.top >= other.top && self.right <= other.right && self.bottom <= other.bottom
    }

    /// Whether two boxes have more than an edge in common.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether a straight line enters it (Liang and Barsky's clipping).
    #[must_use]
    pub fn is_crossed_by(self, from: Point, to: Point) -> bool {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let sides = [
            (-dx, from.x - self.left),
            (dx, self.right - from.x),
            (-dy, from.y - self.top),
            (dy, self.bottom - from.y),
        ];
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (slope, room) in sides {
            if slope.abs() < 1e-12 {
                if room <= 0.0 {
                    return false;
                }
            } else if slope < 0.0 {
                enters = enters.max(room / slope);
            } else {
                leaves = leaves.min(room / slope);
            }
        }
        enters < leaves
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: Bounds = Bounds { left: 1.0, top: 1.0, right: 3.0, bottom: 2.0 };

    #[test]
    fn lines_enter_a_box_or_pass_it() {
        assert!(BOX.is_crossed_by(point(0.0, 1.5), point(4.0, 1.5)));
        assert!(BOX.is_crossed_by(point(2.0, 1.5), point(2.1, 1.5)));
        assert!(BOX.is_crossed_by(point(0.0, 0.0), point(4.0, 3.0)));
        assert!(!BOX.is_crossed_by(point(0.0, 2.0), point(4.0, 2.0)));
        assert!(!BOX.is_crossed_by(point(0.0, 1.5), point(0.9, 1.5)));
        assert!(!BOX.is_crossed_by(point(0.0, 1.2), point(1.2, 0.0)));
    }

    #[test]
    fn angles_run_clockwise_from_twelve() {
        let three = polar(point(10.0, 10.0), 5.0, 90.0);
        assert!(three.distance(point(15.0, 10.0)) < 1e-9);
        assert!(polar(point(0.0, 0.0), 2.0, 180.0).distance(point(0.0, 2.0)) < 1e-9);
    }
}
