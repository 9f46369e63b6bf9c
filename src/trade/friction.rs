//! Friction in threads and under heads: bands of the nut factor by thread condition, and published coefficients.
//!
//! The bands are common practice, drawn so that they hold the published figures: lubricated 0.11–0.15 (NASA TM-106943),
//! 0.15 (IFI Fastener Standards, 5th ed., N-12), 0.18 (Shigley, 9th ed., Table 8-15), machine oil μ = 0.15 and so K = 0.20
//! (MIL-HDBK-60); plain and zinc plated 0.20, black finish 0.30 (Shigley, the same table). For thread locker no unbranded figure is published: that band is from the
//! bench only, and a maker's own K or torque goes before it.

use super::guard::folded;

/// What is on the thread when it is tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ThreadCondition {
    /// Cleaned and dry.
    Dry,
    /// Oiled, thread and seat.
    Oiled,
    /// Wet with thread locker.
    Locker,
    /// Anti-seize or assembly paste.
    AntiSeize,
    /// Molybdenum disulphide grease or paste.
    Moly,
    /// As it came out of the box: anything from plain to waxed.
    AsSupplied,
}

/// How far a nut factor K may lie either way; low K means more preload for the same torque.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NutFactor {
    /// Slipperiest.
    pub low: f64,
    /// What the screening reckons with.
    pub mid: f64,
    /// Roughest.
    pub high: f64,
}

/// A coefficient of friction or a nut factor as somebody published it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Published {
    /// Surface or condition, in the words of the source.
    pub surface: &'static str,
    /// Least value.
    pub low: f64,
    /// Greatest value; equal to `low` where one value is given.
    pub high: f64,
    /// Where it stands.
    pub source: &'static str,
}

impl ThreadCondition {
    /// The conditions as they are written.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("dry", Self::Dry),
        ("oiled", Self::Oiled),
        ("locker", Self::Locker),
        ("anti-seize", Self::AntiSeize),
        ("moly", Self::Moly),
        ("as-supplied", Self::AsSupplied),
    ];

    /// The condition of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        let wanted = folded(word);
        Self::WORDS.iter().find(|(text, _)| folded(text) == wanted).map(|(_, condition)| *condition)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Oiled => "oiled",
            Self::Locker => "locker",
            Self::AntiSeize => "anti-seize",
            Self::Moly => "moly",
            Self::AsSupplied => "as-supplied",
        }
    }

    /// The band of its nut factor (common practice).
    #[must_use]
    pub fn nut_factor(self) -> NutFactor {
        let (low, mid, high) = match self {
            Self::Dry => (0.16, 0.20, 0.30),
            Self::Oiled => (0.11, 0.15, 0.20),
            Self::Locker => (0.15, 0.18, 0.22),
            Self::AntiSeize => (0.10, 0.15, 0.18),
            Self::Moly => (0.09, 0.12, 0.16),
            Self::AsSupplied => (0.14, 0.20, 0.30),
        };
        NutFactor { low, mid, high }
    }
}

/// Coefficients of friction, thread and seat alike: MIL-HDBK-60 (12 March 1990), Appendix B, Table II, each ± 20 %.
pub static COEFFICIENTS: &[Published] = &[
    one("graphite in petrolatum or oil, steel", 0.07, HANDBOOK_60),
    one("molybdenum disulphide grease, steel", 0.11, HANDBOOK_60),
    one("cadmium plated, no lubricant", 0.12, HANDBOOK_60),
    one("zinc plated, no lubricant", 0.17, HANDBOOK_60),
    one("machine oil, steel", 0.15, HANDBOOK_60),
    one("silver-plated stainless", 0.14, HANDBOOK_60),
    one("graphite, titanium on steel", 0.08, HANDBOOK_60),
    one("molybdenum disulphide, titanium", 0.10, HANDBOOK_60),
];

/// Published nut factors.
pub static NUT_FACTORS: &[Published] = &[
    Published { surface: "lubricated joint", low: 0.11, high: 0.15, source: "NASA TM-106943" },
    one("bolt condition not stated", 0.20, SHIGLEY),
    one("nonplated, black finish", 0.30, SHIGLEY),
    one("zinc plated", 0.20, SHIGLEY),
    one("lubricated", 0.18, SHIGLEY),
    one("cadmium plated", 0.16, SHIGLEY),
    one("plain, dry", 0.20, IFI),
    one("plain, lubricated", 0.15, IFI),
];

const HANDBOOK_60: &str = "MIL-HDBK-60 (1990), App. B, Table II";
const SHIGLEY: &str = "Shigley's Mechanical Engineering Design, 9th ed., Table 8-15";
const IFI: &str = "IFI Fastener Standards, 5th ed., N-12 (as reprinted)";

const fn one(surface: &'static str, value: f64, source: &'static str) -> Published {
    Published { surface, low: value, high: value, source }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_read_back_as_themselves() {
        for (word, condition) in ThreadCondition::WORDS {
            assert_eq!(ThreadCondition::find(word), Some(condition));
            assert_eq!(condition.word(), word);
        }
        assert_eq!(ThreadCondition::find("Anti-seize"), Some(ThreadCondition::AntiSeize));
        assert_eq!(ThreadCondition::find("wet"), None);
    }

    #[test]
    fn bands_hold_their_middle_and_stay_in_the_world() {
        for (word, condition) in ThreadCondition::WORDS {
            let NutFactor { low, mid, high } = condition.nut_factor();
            assert!(0.05 < low && low < mid && mid < high && high <= 0.35, "{word}");
        }
    }
}
