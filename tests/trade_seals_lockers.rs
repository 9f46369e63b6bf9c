//! Seals, lockers and signal words against handbooks and manuals.
//!
//! Sources: Neale, Tribology Handbook, p. 23.3; TM 5-3820-256-24-5, TM 10-3930-643-20 (anaerobic lockers); trade practice as
//! restated in engineering texts; ANSI Z535.4-2007 (order of the signal words).

mod trade_sheet;

use benchleaf::trade::locker::{ColdCure, LockerStrength, ThreadRange, cure_at, strips};
use benchleaf::trade::seal::{Rubber, continuous_limit};
use benchleaf::trade::signal::SignalWord;
use trade_sheet::{Sheet, Tolerance};

// The common practice limits and the handbook's agree for nitrile and fluoro rubber. They differ for two: silicone, where
// ours is 20 K lower, and acrylate, where the trade allows 150 °C and the handbook 130 °C. Both are kept with their
// source: the screening goes by the trade's, and a maker's own limit goes before it.
#[test]
fn rubbers_stand_what_the_handbook_says() {
    let mut sheet = Sheet::default();
    for (id, rubber, low, high, ours) in [
        ("SL-01", Rubber::Nbr, -40.0, 100.0, 100.0), ("SL-02", Rubber::Acm, -20.0, 130.0, 150.0), ("SL-03", Rubber::Fkm, -30.0, 200.0, 200.0),
        ("SL-04", Rubber::Silicone, -70.0, 200.0, 180.0),
    ] {
        let range = rubber.handbook_range();
        sheet.value(id, "low", range.map(|range| range.low_c), low, Tolerance::By(0.0));
        sheet.value(id, "high", range.map(|range| range.high_c), high, Tolerance::By(0.0));
        sheet.value(id, "screened at", continuous_limit(rubber.word()), ours, Tolerance::By(0.0));
        sheet.holds(id, "within 20 K of the handbook", (ours - high).abs() <= 20.0);
    }
    sheet.done(16);
}

#[test]
fn lockers_behave_as_the_manuals_say() {
    let mut sheet = Sheet::default();
    for (diameter_in, expected) in [(0.5, 1), (1.0, 1), (1.5, 2), (2.0, 2), (2.5, 3)] {
        sheet.holds("AN-03", "strips", strips(diameter_in * 25.4) == Some(expected));
    }
    let day = 24.0 * 60.0;
    sheet.holds("AN-05", "72 h at 10 °C", cure_at(10.0, day) == Some(ColdCure::Longer(72.0 * 60.0)));
    sheet.holds("AN-06", "primer below 10 °C", [-18.0, 0.0, 9.9].into_iter().all(|bench| cure_at(bench, day) == Some(ColdCure::NeedsPrimer)));
    let medium = ThreadRange::parse("M6–M20").unwrap();
    let inches = ThreadRange::parse("1/4–3/4 in").unwrap();
    // AN-14 gives medium strength for 1/4 to 3/4 in, or 6 to 20 mm: the two ends agree to a millimetre.
    sheet.value("AN-14", "low", medium.low_mm, inches.low_mm, Tolerance::By(1.0));
    sheet.value("AN-14", "high", medium.high_mm, inches.high_mm, Tolerance::By(1.0));
    let high = LockerStrength::High.defaults();
    sheet.holds("AN-14", "medium comes undone with hand tools", LockerStrength::Medium.defaults().release_c.is_none());
    sheet.holds("AN-15", "high needs heat", high.release_c.is_some());
    sheet.holds("AN-02", "release above the break-down region of 230 °C", high.release_c.is_some_and(|release| release >= 230.0));
    sheet.holds("AN-17", "fixture 10–20 min", (10.0..=20.0).contains(&high.fixture_min));
    sheet.value("AN-17", "cure", high.cure_min, day, Tolerance::By(0.0));
    sheet.value("AN-18", "service to", high.service_high_c, 150.0, Tolerance::By(0.0));
    sheet.done(15);
}

#[test]
fn the_gravest_signal_word_wins() {
    let words = [SignalWord::Notice, SignalWord::Warning, SignalWord::Danger, SignalWord::Caution];
    assert_eq!(words.into_iter().min(), Some(SignalWord::Danger));
    assert!(SignalWord::Warning < SignalWord::Caution && SignalWord::Caution < SignalWord::Notice);
}
