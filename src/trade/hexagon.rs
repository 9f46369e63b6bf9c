//! Heads, nuts and drives: the hexagon sizes that occur for a metric thread, and the faces that bear.
//!
//! Sources: across flats ISO 4014/4017 and, still met, DIN 931/934 (10, 12 and 14 mm differ); hexagon socket ISO 4762
//! (from memory), nut height ISO 4032; bearing face ISO 4014 grade A (from memory), clearance hole ISO 273 medium.

use super::preload::Seat;

/// The sizes of fasteners of one metric diameter, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HexagonSizes {
    /// Nominal diameter of the thread, mm.
    pub diameter_mm: f64,
    /// Across the flats of head and nut by ISO 4014/4017/4032, mm.
    pub across_flats_mm: f64,
    /// Across the flats by the older DIN 931/934 where that differs, mm.
    pub older_across_flats_mm: Option<f64>,
    /// Key of a socket cap screw by ISO 4762, mm.
    pub socket_key_mm: f64,
    /// Height of a regular nut by ISO 4032, mm.
    pub nut_height_mm: f64,
    /// Bearing face of a hexagon head on a medium clearance hole.
    pub seat: Seat,
}

/// The sizes of a metric diameter; `None` for one the table does not hold.
#[must_use]
pub fn sizes(diameter_mm: f64) -> Option<&'static HexagonSizes> {
    SIZES.iter().find(|row| (row.diameter_mm - diameter_mm).abs() < 1e-6)
}

/// The diameters that the table holds, as the trade writes them.
#[must_use]
pub fn diameters() -> Vec<String> {
    SIZES.iter().map(|row| format!("M{}", row.diameter_mm)).collect()
}

/// Whether a hexagon of this size across the flats (a spanner or socket for `outside`, a key for a socket screw) occurs
/// on a plain fastener of the diameter; `None` where the diameter is not in the table. Flange, low and button heads
/// have other sizes: a `false` is a question, no fault.
#[must_use]
pub fn occurs(diameter_mm: f64, size_mm: f64, outside: bool) -> Option<bool> {
    let row = sizes(diameter_mm)?;
    let is = |known: f64| (known - size_mm).abs() < 1e-6;
    Some(if outside { is(row.across_flats_mm) || row.older_across_flats_mm.is_some_and(is) } else { is(row.socket_key_mm) })
}

/// Whether a hexagon of this size, outside or in a socket, occurs on any head in common use of the diameter: beside the
/// plain ones, flanged, small, low, button, countersunk and structural heads and set screws (ISO 4162, ISO 7380, ISO 10642,
/// ISO 4026, DIN 6921, DIN 7984, EN 14399; from memory). `None` where the diameter is not in the table.
#[must_use]
pub fn occurs_on_any_head(diameter_mm: f64, size_mm: f64) -> Option<bool> {
    let plain = occurs(diameter_mm, size_mm, true)? || occurs(diameter_mm, size_mm, false)?;
    let others = OTHER_HEADS.iter().find(|(diameter, _)| (diameter - diameter_mm).abs() < 1e-6)?.1;
    Some(plain || others.iter().any(|known| (known - size_mm).abs() < 1e-6))
}

/// Diameter; sizes of set screws, of other sockets, of other outside hexagons.
static OTHER_HEADS: &[(f64, &[f64])] = &[
    (3.0, &[1.5, 2.0]),
    (4.0, &[2.0, 2.5]),
    (5.0, &[2.5, 3.0, 7.0]),
    (6.0, &[3.0, 4.0, 8.0]),
    (8.0, &[4.0, 5.0, 10.0, 12.0]),
    (10.0, &[5.0, 6.0, 7.0, 13.0, 14.0, 15.0]),
    (12.0, &[6.0, 8.0, 15.0, 16.0, 17.0, 22.0]),
    (14.0, &[6.0, 8.0, 10.0, 18.0, 19.0, 24.0]),
    (16.0, &[8.0, 10.0, 12.0, 21.0, 22.0, 27.0]),
    (20.0, &[10.0, 12.0, 14.0, 27.0, 28.0, 32.0]),
    (24.0, &[12.0, 14.0, 17.0, 32.0, 34.0, 41.0]),
];

const fn row(diameter: f64, flats: f64, older: Option<f64>, key: f64, nut: f64, face: f64, hole: f64) -> HexagonSizes {
    HexagonSizes {
        diameter_mm: diameter,
        across_flats_mm: flats,
        older_across_flats_mm: older,
        socket_key_mm: key,
        nut_height_mm: nut,
        seat: Seat { outside_mm: face, hole_mm: hole },
    }
}

/// Diameter, flats, older flats, socket key, nut height, bearing face, clearance hole.
static SIZES: &[HexagonSizes] = &[
    row(3.0, 5.5, None, 2.5, 2.4, 4.57, 3.4),
    row(4.0, 7.0, None, 3.0, 3.2, 5.88, 4.5),
    row(5.0, 8.0, None, 4.0, 4.7, 6.88, 5.5),
    row(6.0, 10.0, None, 5.0, 5.2, 8.88, 6.6),
    row(8.0, 13.0, None, 6.0, 6.8, 11.63, 9.0),
    row(10.0, 16.0, Some(17.0), 8.0, 8.4, 14.63, 11.0),
    row(12.0, 18.0, Some(19.0), 10.0, 10.8, 16.63, 13.5),
    row(14.0, 21.0, Some(22.0), 12.0, 12.8, 19.64, 15.5),
    row(16.0, 24.0, None, 14.0, 14.8, 22.49, 17.5),
    row(20.0, 30.0, None, 17.0, 18.0, 28.19, 22.0),
    row(24.0, 36.0, None, 19.0, 21.5, 33.61, 26.0),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_that_occur() {
        assert_eq!(occurs(8.0, 6.0, false), Some(true));
        assert_eq!(occurs(8.0, 5.0, false), Some(false));
        assert_eq!(occurs(12.0, 19.0, true), Some(true));
        assert_eq!(occurs(12.0, 18.0, true), Some(true));
        assert_eq!(occurs(8.0, 14.0, true), Some(false));
        assert_eq!(occurs(9.0, 14.0, true), None);
        assert_eq!(occurs(f64::NAN, f64::NAN, true), None);
    }

    #[test]
    fn other_heads_have_other_sizes() {
        // A button head of M8 takes 5 mm, a small flanged M10 13 mm; no M8 takes 14 mm, no M10 18 mm.
        assert_eq!(occurs_on_any_head(8.0, 5.0), Some(true));
        assert_eq!(occurs_on_any_head(10.0, 13.0), Some(true));
        assert_eq!(occurs_on_any_head(8.0, 14.0), Some(false));
        assert_eq!(occurs_on_any_head(10.0, 18.0), Some(false));
        assert_eq!(occurs_on_any_head(30.0, 46.0), None);
        assert!(SIZES.iter().all(|row| occurs_on_any_head(row.diameter_mm, row.across_flats_mm) == Some(true)));
    }

    #[test]
    fn a_face_is_a_ring_inside_its_flats() {
        for row in SIZES {
            assert!(row.seat.mean_diameter_mm().is_some(), "M{}", row.diameter_mm);
            assert!(row.seat.outside_mm < row.across_flats_mm && row.seat.hole_mm > row.diameter_mm);
        }
    }
}
