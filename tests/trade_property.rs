//! Property classes and proof loads against published tables.
//!
//! Sources: ISO 898-1:2013 Table 3 (as reprinted), the proof loads of its coarse threads (three reprints that agree) and of
//! its fine threads (from memory), SAE J429 (course notes after Shigley), NSTM ch. 075 (a worked proof load).

#![expect(clippy::panic, clippy::unwrap_used, reason = "helpers of tests fail by panicking, as the tests do")]

mod trade_sheet;

use benchleaf::trade::property::{PropertyClass, Strength};
use benchleaf::trade::thread::Thread;
use trade_sheet::{Sheet, Tolerance};

/// 1000 lbf/in² in `MPa` (NIST SP 811, App. B.8, exact).
const KSI: f64 = 6.894_757_293_168_361;
/// A pound-force in newtons (exact).
const LBF: f64 = 4.448_221_615_260_5;

fn class(name: &str) -> &'static PropertyClass {
    PropertyClass::find(name).unwrap_or_else(|| panic!("{name}"))
}

fn thread(designation: &str) -> Thread {
    Thread::parse(designation).unwrap()
}

fn strength(name: &str, designation: &str) -> Strength {
    class(name).strength(&thread(designation)).unwrap()
}

#[test]
fn classes_have_the_strengths_of_the_standard() {
    let mut sheet = Sheet::default();
    for (id, name, size, tensile, yielding, proof) in [
        ("PC-02", "5.8", "M8x1.25", 520.0, 420.0, 380.0), ("PC-03", "6.8", "M8x1.25", 600.0, 480.0, 440.0),
        ("PC-04", "8.8", "M16x2", 800.0, 640.0, 580.0), ("PC-05", "8.8", "M18x2.5", 830.0, 660.0, 600.0),
        ("PC-06", "9.8", "M8x1.25", 900.0, 720.0, 650.0), ("PC-08", "12.9", "M8x1.25", 1220.0, 1100.0, 970.0),
    ] {
        let ours = strength(name, size);
        sheet.value(id, "Rm", ours.tensile_mpa, tensile, Tolerance::By(0.0));
        sheet.value(id, "yield", ours.yield_mpa, yielding, Tolerance::By(0.0));
        sheet.value(id, "Sp", ours.proof_mpa, proof, Tolerance::By(0.0));
    }
    sheet.done(18);
}

// The mark says it: X.Y means a nominal tensile strength of 100·X MPa and a yield of 10·X·Y; the least values of the
// standard lie no more than 4 % above the first (4.8 and 5.8: 5 %) and no lower.
#[test]
fn the_mark_of_a_class_tells_its_strength() {
    let mut sheet = Sheet::default();
    for name in ["4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"] {
        let (tensile, ratio) = name.split_once('.').unwrap();
        let (tensile, ratio): (f64, f64) = (tensile.parse().unwrap(), ratio.parse().unwrap());
        let ours = strength(name, "M8x1.25");
        let above = ours.tensile_mpa / (100.0 * tensile);
        sheet.holds("PC", &format!("{name}: Rm {above}"), (1.0..=1.051).contains(&above));
        let above = ours.yield_mpa / (10.0 * tensile * ratio);
        sheet.holds("PC", &format!("{name}: yield {above}"), (1.0..=1.07).contains(&above));
    }
    sheet.done(18);
}

/// Id, thread, proof load in N of 8.8, 10.9, 12.9.
type ProofRow = (&'static str, &'static str, [f64; 3]);

const COARSE: &[ProofRow] = &[
    ("PL-01", "M3x0.5", [2920.0, 4180.0, 4880.0]),
    ("PL-02", "M4x0.7", [5100.0, 7290.0, 8520.0]),
    ("PL-03", "M5x0.8", [8230.0, 11800.0, 13800.0]),
    ("PL-04", "M6x1", [11600.0, 16700.0, 19500.0]),
    ("PL-06", "M8x1.25", [21200.0, 30400.0, 35500.0]),
    ("PL-07", "M10x1.5", [33700.0, 48100.0, 56300.0]),
    ("PL-08", "M12x1.75", [48900.0, 70000.0, 81800.0]),
    ("PL-09", "M14x2", [66700.0, 95500.0, 112_000.0]),
    ("PL-10", "M16x2", [91000.0, 130_000.0, 152_000.0]),
    ("PL-12", "M20x2.5", [147_000.0, 203_000.0, 238_000.0]),
    ("PL-13", "M22x2.5", [182_000.0, 252_000.0, 294_000.0]),
    ("PL-14", "M24x3", [212_000.0, 293_000.0, 342_000.0]),
    ("PL-15", "M27x3", [275_000.0, 381_000.0, 445_000.0]),
];

/// ISO 898-1 Table 7, from memory.
const FINE: &[ProofRow] = &[
    ("PLF-01", "M8x1", [22700.0, 32500.0, 38000.0]),
    ("PLF-03", "M10x1", [37400.0, 53500.0, 62700.0]),
    ("PLF-04", "M12x1.5", [51100.0, 73100.0, 85500.0]),
    ("PLF-05", "M12x1.25", [53400.0, 76400.0, 89300.0]),
    ("PLF-06", "M14x1.5", [72500.0, 104_000.0, 121_000.0]),
    ("PLF-07", "M16x1.5", [96900.0, 139_000.0, 162_000.0]),
    ("PLF-09", "M20x1.5", [163_000.0, 226_000.0, 264_000.0]),
    ("PLF-10", "M22x1.5", [200_000.0, 276_000.0, 323_000.0]),
    ("PLF-11", "M24x2", [230_000.0, 319_000.0, 372_000.0]),
];

fn check_proof_loads(sheet: &mut Sheet, rows: &[ProofRow], per_cent: f64) {
    for (id, designation, loads) in rows {
        for (name, load) in ["8.8", "10.9", "12.9"].iter().zip(loads) {
            let ours = class(name).proof_load_n(&thread(designation)).unwrap();
            sheet.value(id, &format!("{designation} {name}"), ours, *load, Tolerance::PerCent(per_cent));
        }
    }
}

#[test]
fn proof_loads_are_those_of_the_standard() {
    let mut sheet = Sheet::default();
    check_proof_loads(&mut sheet, COARSE, 0.5);
    check_proof_loads(&mut sheet, FINE, 0.4);
    // ISO 898-1 Table 4, least ultimate tensile loads.
    sheet.value("PL-20", "M8 8.8", class("8.8").tensile_load_n(&thread("M8x1.25")).ok(), 29_200.0, Tolerance::PerCent(0.5));
    sheet.value("PL-21", "M10 10.9", class("10.9").tensile_load_n(&thread("M10x1.5")).ok(), 60_300.0, Tolerance::PerCent(0.5));
    // Two reprints differ on the tensile load of M12 9.8 (75 200 and 75 900 N); the formula sides with the second.
    let ours = class("9.8").tensile_load_n(&thread("M12x1.75")).unwrap();
    sheet.value("section 18", "M12 9.8", ours, 75_870.0, Tolerance::PerCent(0.1));
    // One reprint gives M4 10.9 ten times what it breaks at (91 130 for 9 130 N).
    let ours = class("10.9").tensile_load_n(&thread("M4x0.7")).unwrap();
    sheet.value("section 18", "M4 10.9", ours, 9130.0, Tolerance::PerCent(0.5));
    sheet.done(70);
}

#[test]
fn inch_grades_have_the_strengths_of_the_standard() {
    let mut sheet = Sheet::default();
    for (id, name, size, proof, yielding, tensile) in [
        ("UN-22", "SAE 2", "1/4-20 UNC", 55.0, 57.0, 74.0), ("UN-22", "SAE 2", "3/4-10 UNC", 55.0, 57.0, 74.0),
        ("UN-23", "SAE 2", "7/8-9 UNC", 33.0, 36.0, 60.0), ("UN-23", "SAE 1", "1/4-20 UNC", 33.0, 36.0, 60.0),
        ("UN-25", "SAE 5", "1-1/8-7 UNC", 74.0, 81.0, 105.0), ("UN-26", "SAE 8", "1/4-20 UNC", 120.0, 130.0, 150.0),
    ] {
        let ours = strength(name, size);
        sheet.value(id, "proof", ours.proof_mpa / KSI, proof, Tolerance::By(1e-9));
        sheet.value(id, "yield", ours.yield_mpa / KSI, yielding, Tolerance::By(1e-9));
        sheet.value(id, "tensile", ours.tensile_mpa / KSI, tensile, Tolerance::By(1e-9));
    }
    // NSTM ch. 075 reckons with the printed area 0.0318 in²; ours is 0.03182.
    let ours = class("SAE 8").proof_load_n(&thread("1/4-20 UNC")).unwrap() / LBF;
    sheet.value("UN-27", "1/4-20 grade 8", ours, 3816.0, Tolerance::PerCent(0.1));
    sheet.done(19);
}
