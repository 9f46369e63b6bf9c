//! Engagement of threads against handbook rules.
//!
//! Sources: textbook rule of 1 d in steel, 1.5 d in cast iron and 2 d in aluminium (engineering notes; US Army torque notes
//! for aluminium). FAA AC 43.13-1B, 7-37 (protrusion).

mod trade_sheet;

use benchleaf::trade::engagement::{BoltedHole, InternalMaterial};
use trade_sheet::{Sheet, Tolerance};

#[test]
fn handbooks_ask_for_so_many_diameters() {
    let mut sheet = Sheet::default();
    for (id, material, diameters, for_m10) in [
        ("EN-01, EN-05", InternalMaterial::Steel, 1.0, 10.0), ("EN-02, EN-05", InternalMaterial::CastIron, 1.5, 15.0),
        ("EN-02, EN-05", InternalMaterial::Brass, 1.5, 15.0), ("EN-03, EN-05", InternalMaterial::Aluminium, 2.0, 20.0),
    ] {
        let handbook = material.needed_engagement().handbook;
        sheet.value(id, material.word(), handbook, diameters, Tolerance::By(0.0));
        sheet.value(id, "M10", handbook.map(|diameters| diameters * 10.0), for_m10, Tolerance::By(0.0));
        // The screening asks for less than the handbook in all soft metals: it is the doubtful that it finds.
        sheet.holds(id, "screened at no more", material.needed_engagement().screening <= diameters);
    }
    sheet.done(12);
}

#[test]
fn a_self_locking_nut_shows_a_thread() {
    // AC-34: at least one thread behind the nut; an M8 nut of ISO 4032 is 6.8 mm high.
    let bolt = BoltedHole { length_mm: 30.0, clamped_mm: 20.0, washer_mm: 1.6, hole_mm: None };
    let protrusion = bolt.protrusion_mm(6.8).unwrap();
    assert!((protrusion - 1.6).abs() < 1e-9 && protrusion >= 1.25);
}
