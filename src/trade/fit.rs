//! Heat and cold for interference fits.
//!
//! Sources: growth δ = α·D·ΔT (engineering reference); needed temperature T = `T_amb` + (δmax + c)/(α·D) with a gap c of
//! 0.02 mm to drop in (common practice). Coefficients of expansion, 10⁻⁶/K: handbook values for screening, within the
//! spread of published tables. Limits of parts: common practice; US Army manuals heat bearings in oil to 250 °F
//! (TM 5-3810-307-24) or 275 °F (TM 5-4210-233-14&P).

use super::guard::{finite, folded, not_negative, positive};

/// Gap that lets a part drop in, mm (common practice).
pub const DROP_IN_GAP_MM: f64 = 0.02;
/// Highest temperature for a rolling bearing, °C (common practice; published limits are 121 and 135 °C).
pub const BEARING_LIMIT_C: f64 = 120.0;
/// Highest temperature for heat-treated aluminium, °C (common practice).
pub const AGED_ALUMINIUM_LIMIT_C: f64 = 175.0;
/// Dry ice, °C: carbon dioxide sublimes (handbooks of chemistry, from memory). Far below it a metal shrinks less for each degree than near
/// the bench, and a straight line says too much.
pub const DRY_ICE_C: f64 = -78.5;
/// Liquid nitrogen, °C, where it boils (handbooks of chemistry, from memory): the coldest there is at a bench. Plain steel has shrunk by about
/// 0.2 % there (cryogenic tables, from memory).
pub const LIQUID_NITROGEN_C: f64 = -195.8;
/// Absolute zero, °C: nothing is colder.
const ABSOLUTE_ZERO_C: f64 = -273.15;

/// A metal with its expansion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Metal {
    /// Aluminium alloys.
    Aluminium,
    /// Magnesium alloys.
    Magnesium,
    /// Grey iron.
    CastIron,
    /// Plain and low-alloy steel.
    Steel,
    /// Bearing steel.
    BearingSteel,
    /// Austenitic stainless steel.
    StainlessSteel,
    /// Brass.
    Brass,
    /// Bronze.
    Bronze,
    /// Copper.
    Copper,
}

/// An interference fit that is opened by heat, or closed by cold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interference {
    /// Diameter of the joint, mm.
    pub diameter_mm: f64,
    /// Greatest interference, mm.
    pub greatest_mm: f64,
    /// Gap wanted for dropping in, mm; usually [`DROP_IN_GAP_MM`].
    pub gap_mm: f64,
}

impl Metal {
    /// The metals as they are written.
    pub const WORDS: [(&'static str, Self); 9] = [
        ("aluminium", Self::Aluminium),
        ("magnesium", Self::Magnesium),
        ("cast-iron", Self::CastIron),
        ("steel", Self::Steel),
        ("bearing-steel", Self::BearingSteel),
        ("stainless-steel", Self::StainlessSteel),
        ("brass", Self::Brass),
        ("bronze", Self::Bronze),
        ("copper", Self::Copper),
    ];

    /// The metal of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        let wanted = folded(word);
        Self::WORDS.iter().find(|(text, _)| folded(text) == wanted).map(|(_, metal)| *metal)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, metal)| *metal == self).map_or("", |(word, _)| word)
    }

    /// Coefficient of linear expansion, 1/K.
    #[must_use]
    pub fn expansion_per_k(self) -> f64 {
        let millionths = match self {
            Self::Aluminium => 23.0,
            Self::Magnesium => 26.0,
            Self::CastIron => 10.5,
            Self::Steel => 12.0,
            Self::BearingSteel => 11.5,
            Self::StainlessSteel => 16.0,
            Self::Brass => 19.0,
            Self::Bronze => 18.0,
            Self::Copper => 16.5,
        };
        millionths * 1e-6
    }
}

/// Change of a diameter by a change of temperature, mm (below zero where it gets colder).
#[must_use]
pub fn growth_mm(diameter_mm: f64, expansion_per_k: f64, rise_k: f64) -> Option<f64> {
    finite(positive(diameter_mm)? * positive(expansion_per_k)? * finite(rise_k)?)
}

impl Interference {
    /// Rise of the outer part's temperature (or fall of the inner one's) that the fit needs, K.
    #[must_use]
    pub fn needed_change_k(&self, expansion_per_k: f64) -> Option<f64> {
        let opening = not_negative(self.greatest_mm)? + not_negative(self.gap_mm)?;
        finite(opening / (positive(expansion_per_k)? * positive(self.diameter_mm)?))
    }

    /// Temperature the outer part needs, °C.
    #[must_use]
    pub fn heat_to_c(&self, ambient_c: f64, expansion_per_k: f64) -> Option<f64> {
        finite(real_temperature(ambient_c)? + self.needed_change_k(expansion_per_k)?)
    }

    /// Temperature the inner part needs, °C; `None` also where no cold is enough.
    #[must_use]
    pub fn chill_to_c(&self, ambient_c: f64, expansion_per_k: f64) -> Option<f64> {
        real_temperature(real_temperature(ambient_c)? - self.needed_change_k(expansion_per_k)?)
    }

    /// Gap that is there when the outer part is heated (and the inner one chilled), mm; below zero it is still tight.
    #[must_use]
    pub fn gap_at_mm(&self, outer: Warmed, inner: Warmed) -> Option<f64> {
        let opened = outer.growth_mm(self.diameter_mm)? - inner.growth_mm(self.diameter_mm)?;
        finite(opened - not_negative(self.greatest_mm)?)
    }
}

/// A part taken from one temperature to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmed {
    /// Coefficient of expansion, 1/K.
    pub expansion_per_k: f64,
    /// From, °C.
    pub from_c: f64,
    /// To, °C.
    pub to_c: f64,
}

impl Warmed {
    /// How much a diameter of the part grows, mm.
    #[must_use]
    pub fn growth_mm(&self, diameter_mm: f64) -> Option<f64> {
        growth_mm(diameter_mm, self.expansion_per_k, real_temperature(self.to_c)? - real_temperature(self.from_c)?)
    }
}

/// Temperature Fahrenheit read as Celsius and back: what a bare number of degrees may have meant, °C.
#[must_use]
pub fn fahrenheit_as_celsius(degrees_f: f64) -> Option<f64> {
    real_temperature((finite(degrees_f)? - 32.0) / 1.8)
}

fn real_temperature(celsius: f64) -> Option<f64> {
    finite(celsius).filter(|celsius| *celsius >= ABSOLUTE_ZERO_C)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fit(diameter_mm: f64, greatest_mm: f64) -> Interference {
        Interference { diameter_mm, greatest_mm, gap_mm: DROP_IN_GAP_MM }
    }

    // The example of the screening model: a 62 mm bore in aluminium, 0.040 mm tight, on a bench of 20 °C.
    #[test]
    fn an_aluminium_bore_opens_for_a_bearing() {
        let alpha = Metal::Aluminium.expansion_per_k();
        assert!((fit(62.0, 0.040).heat_to_c(20.0, alpha).unwrap() - 62.08).abs() < 0.01);
        let iron = Metal::CastIron.expansion_per_k();
        assert!((fit(72.0, 0.045).heat_to_c(20.0, iron).unwrap() - 105.98).abs() < 0.01);
        let warm = |to_c| growth_mm(62.0, alpha, to_c - 20.0).unwrap();
        assert!((warm(90.0) - 0.10).abs() < 0.001);
        assert!((warm(fahrenheit_as_celsius(90.0).unwrap()) - 0.0174).abs() < 0.0002);
    }

    #[test]
    fn heating_as_told_leaves_the_gap_asked_for() {
        let joint = fit(62.0, 0.040);
        let alpha = Metal::Aluminium.expansion_per_k();
        let outer = Warmed { expansion_per_k: alpha, from_c: 20.0, to_c: joint.heat_to_c(20.0, alpha).unwrap() };
        let inner = Warmed { expansion_per_k: Metal::BearingSteel.expansion_per_k(), from_c: 20.0, to_c: 20.0 };
        assert!((joint.gap_at_mm(outer, inner).unwrap() - DROP_IN_GAP_MM).abs() < 1e-12);
        let chilled = Warmed { to_c: -18.0, ..inner };
        assert!(joint.gap_at_mm(outer, chilled).unwrap() > DROP_IN_GAP_MM + 0.02);
    }

    #[test]
    fn no_cold_is_colder_than_there_is() {
        let steel = Metal::Steel.expansion_per_k();
        assert_eq!(fit(10.0, 0.1).chill_to_c(20.0, steel), None);
        assert!(fit(100.0, 0.02).chill_to_c(20.0, steel).is_some());
        assert_eq!(fit(0.0, 0.02).heat_to_c(20.0, steel), None);
        assert_eq!(fit(62.0, f64::NAN).heat_to_c(20.0, steel), None);
        assert_eq!(fit(62.0, 0.04).heat_to_c(-300.0, steel), None);
    }

    #[test]
    fn metals_read_back() {
        for (word, metal) in Metal::WORDS {
            assert_eq!((Metal::find(word), metal.word()), (Some(metal), word));
        }
    }
}
