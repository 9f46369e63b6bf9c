//! Limits and fits of plain diameters: standard tolerance grades, holes H and shafts h.
//!
//! Source: ISO 286-1:2010, Table 1 (standard tolerances IT5 to IT11, to 500 mm; IT6 to IT8 and IT11 compared with reprints,
//! the rest from memory). Fundamental deviations other than H and h are given by the caller.

use super::clearance::Span;
use super::guard::{finite, positive};

/// A standard tolerance grade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// IT5.
    It5,
    /// IT6.
    It6,
    /// IT7.
    It7,
    /// IT8.
    It8,
    /// IT9.
    It9,
    /// IT10.
    It10,
    /// IT11.
    It11,
}

impl Grade {
    /// All of them, finest first.
    pub const ALL: [Self; 7] = [Self::It5, Self::It6, Self::It7, Self::It8, Self::It9, Self::It10, Self::It11];

    /// The grade of a number: 7 for IT7.
    #[must_use]
    pub fn find(number: u32) -> Option<Self> {
        Self::ALL.into_iter().zip(5..).find(|(_, known)| *known == number).map(|(grade, _)| grade)
    }

    /// The tolerance of a nominal diameter, µm; `None` above 500 mm.
    #[must_use]
    pub fn tolerance_um(self, nominal_mm: f64) -> Option<f64> {
        let nominal = positive(nominal_mm)?;
        let row = TOLERANCES.iter().find(|row| nominal <= row.up_to_mm)?;
        let at = Self::ALL.iter().position(|grade| *grade == self)?;
        row.grades_um.get(at).copied()
    }
}

/// A hole of position H: nominal to nominal plus the tolerance, mm.
#[must_use]
pub fn hole_h(nominal_mm: f64, grade: Grade) -> Option<Span> {
    Span::new(nominal_mm, nominal_mm + grade.tolerance_um(nominal_mm)? / 1000.0)
}

/// A shaft whose upper deviation is known (0 for position h), mm.
#[must_use]
pub fn shaft(nominal_mm: f64, upper_deviation_um: f64, grade: Grade) -> Option<Span> {
    let high = finite(nominal_mm + finite(upper_deviation_um)? / 1000.0)?;
    Span::new(high - grade.tolerance_um(nominal_mm)? / 1000.0, high)
}

struct Row {
    up_to_mm: f64,
    grades_um: [f64; 7],
}

const fn row(up_to_mm: f64, grades_um: [f64; 7]) -> Row {
    Row { up_to_mm, grades_um }
}

/// Upper end of the size range (mm), IT5 to IT11 (µm).
static TOLERANCES: &[Row] = &[
    row(3.0, [4.0, 6.0, 10.0, 14.0, 25.0, 40.0, 60.0]),
    row(6.0, [5.0, 8.0, 12.0, 18.0, 30.0, 48.0, 75.0]),
    row(10.0, [6.0, 9.0, 15.0, 22.0, 36.0, 58.0, 90.0]),
    row(18.0, [8.0, 11.0, 18.0, 27.0, 43.0, 70.0, 110.0]),
    row(30.0, [9.0, 13.0, 21.0, 33.0, 52.0, 84.0, 130.0]),
    row(50.0, [11.0, 16.0, 25.0, 39.0, 62.0, 100.0, 160.0]),
    row(80.0, [13.0, 19.0, 30.0, 46.0, 74.0, 120.0, 190.0]),
    row(120.0, [15.0, 22.0, 35.0, 54.0, 87.0, 140.0, 220.0]),
    row(180.0, [18.0, 25.0, 40.0, 63.0, 100.0, 160.0, 250.0]),
    row(250.0, [20.0, 29.0, 46.0, 72.0, 115.0, 185.0, 290.0]),
    row(315.0, [23.0, 32.0, 52.0, 81.0, 130.0, 210.0, 320.0]),
    row(400.0, [25.0, 36.0, 57.0, 89.0, 140.0, 230.0, 360.0]),
    row(500.0, [27.0, 40.0, 63.0, 97.0, 155.0, 250.0, 400.0]),
];

#[cfg(test)]
mod tests {
    use super::*;

    // ISO 286-1: from IT6 on each grade is about 1.6 times the one before, and grows with the size.
    #[test]
    fn grades_and_sizes_rise() {
        for pair in TOLERANCES.windows(2) {
            assert!(pair[0].up_to_mm < pair[1].up_to_mm);
            assert!(pair[0].grades_um.iter().zip(pair[1].grades_um).all(|(small, large)| *small < large));
        }
        for row in TOLERANCES {
            for step in row.grades_um.windows(2) {
                assert!((1.3..=1.8).contains(&(step[1] / step[0])), "{} mm", row.up_to_mm);
            }
        }
    }

    #[test]
    fn there_is_no_grade_for_what_is_no_size() {
        for nominal in [0.0, -1.0, f64::NAN, f64::INFINITY, 501.0] {
            assert_eq!(Grade::It7.tolerance_um(nominal), None, "{nominal}");
            assert_eq!(hole_h(nominal, Grade::It7), None, "{nominal}");
        }
        assert_eq!((Grade::find(7), Grade::find(4), Grade::find(12)), (Some(Grade::It7), None, None));
    }
}
