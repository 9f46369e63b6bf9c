//! Heat for fits, limits, clearances and volumes against tables and worked examples.
//!
//! Sources: property tables (amesweb, tecnocentro, engineersedge, `FreeCAD` 0.20.2 material cards); Kaw, Holistic Numerical
//! Methods, ch. 02.00G (a trunnion shrunk into its hub); a textbook problem; TM 5-3810-307-24, TM 5-4210-233-14&P (heating
//! of bearings); ISO 286-1 (as reprinted), Shigley, 9th ed., Example 7-7; MIL-HDBK-1164; TM 5-3825-229-14&P.

mod trade_sheet;

use benchleaf::trade::clearance::{Span, clearance, eccentricity_mm, end_gap_change_mm, machinery_journal_clearance_mm, usual_end_gap};
use benchleaf::trade::cylinder::{compression_ratio, volume_cm3};
use benchleaf::trade::fit::{BEARING_LIMIT_C, Interference, Metal, fahrenheit_as_celsius, growth_mm};
use benchleaf::trade::iso_limits::{Grade, hole_h, shaft};
use trade_sheet::{Sheet, Tolerance};

const INCH: f64 = 25.4;

// Ours are round values for screening: every published one lies within a tenth of them.
#[test]
fn coefficients_of_expansion_lie_within_the_published_spread() {
    let mut sheet = Sheet::default();
    for (id, metal, published) in [
        ("CT-01", Metal::Aluminium, 23.6), ("CT-02", Metal::Aluminium, 21.5), ("CT-03", Metal::CastIron, 11.4), ("CT-04", Metal::CastIron, 10.6),
        ("CT-04", Metal::CastIron, 11.2), ("CT-05", Metal::Bronze, 18.0), ("CT-07", Metal::Steel, 12.0), ("CT-08", Metal::CastIron, 10.0),
        ("CT-09", Metal::Bronze, 18.0), ("CT-10", Metal::Brass, 19.0), ("CT-11", Metal::Aluminium, 23.1), ("CT-13", Metal::CastIron, 10.0),
        ("CT-14", Metal::CastIron, 11.0), ("CT-15", Metal::Copper, 16.5), ("CT-17", Metal::Aluminium, 13.1 * 1.8), ("CT-17", Metal::Bronze, 10.0 * 1.8),
        ("CT-17", Metal::CastIron, 5.9 * 1.8),
    ] {
        sheet.value(id, metal.word(), metal.expansion_per_k() * 1e6, published, Tolerance::PerCent(10.0));
    }
    sheet.done(17);
}

#[test]
fn shrink_fits_come_out_as_published() {
    let mut sheet = Sheet::default();
    let ring = Interference { diameter_mm: 100.0, greatest_mm: 0.06, gap_mm: 0.05 };
    sheet.value("SF-02", "ring of 100 mm", ring.needed_change_k(12e-6), 91.67, Tolerance::By(0.01));
    // The site prints −191.67 K, from a diameter rounded to 2 cm; the rod itself is 2.0046 cm.
    let rod = Interference { diameter_mm: 20.046, greatest_mm: 0.046, gap_mm: 0.0 };
    sheet.value("SF-03", "rod, K", rod.needed_change_k(12e-6), 191.2, Tolerance::PerCent(0.3));
    sheet.value("SF-03", "rod, °C from 20", rod.chill_to_c(20.0, 12e-6), 20.0 - 191.2, Tolerance::PerCent(0.4));
    // The trunnion: 12.363 in into 12.358 in with 0.010 in to spare, from 80 °F to −108 °F.
    let trunnion = Interference { diameter_mm: 12.363 * INCH, greatest_mm: (12.363 - 12.358) * INCH, gap_mm: 0.010 * INCH };
    let needed_in = (trunnion.greatest_mm + trunnion.gap_mm) / INCH;
    sheet.value("SF-04", "contraction needed, in", needed_in, 0.015, Tolerance::By(1e-4));
    let shrinks_in = growth_mm(12.363 * INCH, 6.47e-6, -188.0).map(|mm| mm / INCH);
    sheet.value("SF-05", "contraction, in", shrinks_in, -0.01504, Tolerance::By(1e-5));
    sheet.holds("SF-05", "just enough", trunnion.needed_change_k(6.47e-6 * 1.8).is_some_and(|change| change <= 188.0 / 1.8));
    sheet.done(6);
}

#[test]
fn bearings_are_not_heated_beyond_what_manuals_allow() {
    let mut sheet = Sheet::default();
    // Two Army manuals disagree (250 and 275 °F): the screening stays below both.
    for (id, fahrenheit, celsius) in [("BH-02", 250.0, 121.0), ("BH-03", 275.0, 135.0)] {
        sheet.value(id, "°C", fahrenheit_as_celsius(fahrenheit), celsius, Tolerance::By(0.5));
        sheet.holds(id, "above the screening's limit", BEARING_LIMIT_C <= celsius);
    }
    for (id, fahrenheit, celsius) in
        [("U-25", -65.0, -53.889), ("U-26", -40.0, -40.0), ("U-27", 32.0, 0.0), ("U-28", 200.0, 93.333), ("U-29", 250.0, 121.111), ("U-31", 300.0, 148.889), ("U-32", 450.0, 232.222)]
    {
        sheet.value(id, "°C", fahrenheit_as_celsius(fahrenheit), celsius, Tolerance::By(0.0006));
    }
    sheet.done(11);
}

#[test]
fn tolerance_grades_are_those_of_the_standard() {
    let mut sheet = Sheet::default();
    for (id, low, high, grades) in [
        ("IT-01", 10.001, 18.0, [11.0, 18.0, 27.0]), ("IT-03", 30.001, 50.0, [16.0, 25.0, 39.0]), ("IT-04", 50.001, 80.0, [19.0, 30.0, 46.0]),
        ("IT-05", 80.001, 120.0, [22.0, 35.0, 54.0]),
    ] {
        for (grade, expected) in [Grade::It6, Grade::It7, Grade::It8].into_iter().zip(grades) {
            for nominal in [low, high] {
                sheet.value(id, &format!("{nominal} {grade:?}"), grade.tolerance_um(nominal), expected, Tolerance::By(0.0));
            }
        }
    }
    sheet.value("IT-03", "IT11", Grade::It11.tolerance_um(40.0), 160.0, Tolerance::By(0.0));
    let hole = hole_h(50.0, Grade::It7).unwrap();
    sheet.value("IT-10", "H7 low", hole.low_mm, 50.000, Tolerance::By(1e-9));
    sheet.value("IT-10", "H7 high", hole.high_mm, 50.025, Tolerance::By(1e-9));
    // ISO 6194-1: shafts of seals h11, bores H8.
    let seal_shaft = shaft(40.0, 0.0, Grade::It11).unwrap();
    sheet.value("SL-06", "h11 low", seal_shaft.low_mm, 39.840, Tolerance::By(1e-9));
    sheet.value("SL-06", "h11 high", seal_shaft.high_mm, 40.000, Tolerance::By(1e-9));
    sheet.value("SL-07", "H8 high", hole_h(42.0, Grade::It8).map(|bore| bore.high_mm), 42.039, Tolerance::By(1e-9));
    // Shigley, Example 7-7: 34H11/c11; the deviation of c for 30 to 40 mm is −120 µm.
    let (hole, shaft) = (hole_h(34.0, Grade::It11).unwrap(), shaft(34.0, -120.0, Grade::It11).unwrap());
    for (what, ours, expected) in [
        ("hole low", hole.low_mm, 34.000), ("hole high", hole.high_mm, 34.160), ("shaft low", shaft.low_mm, 33.720), ("shaft high", shaft.high_mm, 33.880),
    ] {
        sheet.value("IT-06", what, ours, expected, Tolerance::By(0.0006));
    }
    let gap = clearance(hole, shaft).unwrap();
    sheet.value("IT-07", "least", gap.low_mm, 0.120, Tolerance::By(0.001));
    sheet.value("IT-07", "greatest", gap.high_mm, 0.440, Tolerance::By(0.001));
    sheet.done(36);
}

#[test]
fn gaps_and_clearances_follow_the_rules_of_thumb() {
    let mut sheet = Sheet::default();
    let change_in = |inches: f64| end_gap_change_mm(inches * INCH).map(|mm| mm / INCH);
    sheet.value("RG-01", "in for 0.001 in", change_in(0.001), 0.00314, Tolerance::PerCent(0.06));
    // RG-02, RG-03: the printed pairs (0.0031 in for 0.0012 in, 0.08 mm for 0.03 mm) come from double rounding.
    sheet.value("RG-02", "in for 0.0012 in", change_in(0.0012), 0.00377, Tolerance::By(0.000_005));
    sheet.value("RG-02", "mm for 0.03 mm", end_gap_change_mm(0.03), 0.094, Tolerance::By(0.0005));
    sheet.holds("RG-02", "0.0031 in is not it", change_in(0.0012).is_some_and(|gap| (gap - 0.0031).abs() > 0.0005));
    sheet.value("RG-03", "the loose pair", end_gap_change_mm(0.03), 0.08, Tolerance::By(0.02));
    for (id, bore_in, gap_in) in [("RG-05", 4.030, 0.02015), ("RG-06", 4.00, 0.016), ("RG-07", 4.00, 0.406 / INCH)] {
        let usual = usual_end_gap(bore_in * INCH).unwrap();
        sheet.holds(id, &format!("{gap_in} in within the usual gap"), usual.holds(gap_in * INCH));
    }
    sheet.value("BH-05", "2.375 in", machinery_journal_clearance_mm(2.375 * INCH).map(|mm| mm / INCH), 0.004_375, Tolerance::By(0.0001));
    sheet.value("BH-04", "1 in", machinery_journal_clearance_mm(INCH).map(|mm| mm / INCH), 0.003, Tolerance::By(0.0001));
    sheet.value("RG-18", "0.10 mm of swing", eccentricity_mm(0.10), 0.05, Tolerance::By(1e-12));
    sheet.value("RG-19", "500 and 50 cm³", compression_ratio(500.0, 50.0), 11.0, Tolerance::By(1e-12));
    sheet.value("RG-20", "100 × 80 mm", volume_cm3(100.0, 80.0), 628.32, Tolerance::By(0.01));
    sheet.value("RG-21", "100 × 1 mm", volume_cm3(100.0, 1.0), 7.854, Tolerance::By(0.001));
    // The chain of a bore and its piston, both with limits.
    let chain = clearance(Span::new(58.000, 58.015).unwrap(), Span::new(57.955, 57.970).unwrap()).unwrap();
    sheet.holds("arithmetic", "0.030–0.060", chain.agrees_with(Span::new(0.030, 0.060).unwrap(), 0.001));
    sheet.done(15);
}
