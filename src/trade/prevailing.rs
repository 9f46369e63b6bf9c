//! Running torque of self-locking nuts: what the wrench shows before anything is clamped.
//!
//! Sources: metric nuts ISO 2320, class 8, first time on (from memory); inch nuts MSFC-STD-486B Table XI, which agrees
//! with MIL-DTL-45916 Table I (the rows of 7/16 and 1 in from memory).

use super::thread::Thread;

/// One newton metre in pound-force inches, by the definitions of the pound-force and the inch.
const NM_PER_LBF_IN: f64 = 0.112_984_829_027_616_7;

/// The most torque, N·m, that a new self-locking nut of this thread may take to run down, with nothing clamped; `None` for
/// a thread that the tables do not hold. A nut at hand takes less: it is measured, not looked up.
#[must_use]
pub fn greatest_running_nm(thread: &Thread) -> Option<f64> {
    let diameter = thread.diameter_mm();
    let at = |rows: &[(f64, f64)], unit: f64| rows.iter().find(|(size, _)| (size * unit - diameter).abs() < 1e-3).map(|(_, torque)| *torque);
    if thread.is_metric() { at(METRIC, 1.0) } else { at(INCH, 25.4).map(|torque| torque * NM_PER_LBF_IN) }
}

/// The sizes that the tables hold, as the trade writes them: metric ones, and inch ones without their unit.
#[must_use]
pub fn sizes() -> (Vec<String>, Vec<String>) {
    let metric = METRIC.iter().map(|(size, _)| format!("M{size}")).collect();
    let inch = INCH.iter().map(|(size, _)| fraction(*size)).collect();
    (metric, inch)
}

/// A size in sixteenths, shortened: `7/16`, `1/2`, `1`.
fn fraction(inches: f64) -> String {
    let (mut above, mut below) = (inches * 16.0, 16.0);
    while below > 1.0 && above % 2.0 == 0.0 {
        above /= 2.0;
        below /= 2.0;
    }
    if below > 1.0 { format!("{above}/{below}") } else { format!("{above}") }
}

/// Diameter, mm; torque, N·m.
static METRIC: &[(f64, f64)] = &[
    (3.0, 0.43),
    (4.0, 0.9),
    (5.0, 1.6),
    (6.0, 3.0),
    (8.0, 6.0),
    (10.0, 10.5),
    (12.0, 15.5),
    (14.0, 24.0),
    (16.0, 32.0),
    (18.0, 42.0),
    (20.0, 54.0),
];

/// Diameter, in; torque, lbf·in.
static INCH: &[(f64, f64)] = &[
    (0.25, 30.0),
    (0.3125, 60.0),
    (0.375, 80.0),
    (0.4375, 100.0),
    (0.5, 150.0),
    (0.5625, 200.0),
    (0.625, 300.0),
    (0.75, 400.0),
    (0.875, 600.0),
    (1.0, 800.0),
];

#[cfg(test)]
mod tests {
    use super::*;

    // MSFC-STD-486B Table XI: 3/8 in, 80 lbf·in at most.
    #[test]
    fn nuts_run_down_with_a_torque() {
        let most = |thread: &str| greatest_running_nm(&Thread::parse(thread).unwrap());
        assert!((most("3/8-24 UNF").unwrap() - 9.04).abs() < 0.005);
        assert_eq!(most("M12x1.75"), Some(15.5));
        assert_eq!(most("M12x1.25"), Some(15.5));
        assert_eq!(most("M30x2.0"), None);
        // MIL-DTL-45916 Table I: 7/16 in, 100 lbf·in, 1 in, 800 lbf·in (both from memory). By hand: 11.30 and 90.39 N·m.
        assert!((most("7/16-20 UNF").unwrap() - 11.30).abs() < 0.005);
        assert!((most("1-12 UNF").unwrap() - 90.39).abs() < 0.005);
    }

    #[test]
    fn the_tables_rise() {
        for rows in [METRIC, INCH] {
            assert!(rows.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 < pair[1].1));
        }
    }
}
