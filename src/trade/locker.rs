//! Anaerobic thread lockers by their strength: times, temperatures, threads.
//!
//! Sources: working time 10 min, fixture 10 to 20 min, full cure about 24 h at 20 °C, service to about 150 °C, release of
//! high strength at about 250 °C: common practice (24 h and 150 °C also in engineering texts); cold cure: 72 h at
//! 10 °C, primer below 10 °C (TM 5-3820-256-24-5); strips of locker by diameter (TM 10-3930-643-20). A material's own
//! data go before all of them.

use super::galvanic;
use super::guard::{finite, folded, not_negative, positive};
use super::plastic::is_plastic;
use super::thread::Thread;

/// Strength of a thread locker: never its colour, never its product number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LockerStrength {
    /// Comes undone with hand tools, for small and adjusting screws.
    Low,
    /// Comes undone with hand tools.
    Medium,
    /// Needs heat to come undone.
    High,
    /// Creeps into threads that are already assembled.
    Wicking,
}

/// What is usual for a strength, where the material does not say (common practice).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockerDefaults {
    /// Time from putting it on to the last turn, min.
    pub working_min: f64,
    /// Time until it holds by itself, min.
    pub fixture_min: f64,
    /// Time to full strength at 20 °C, min.
    pub cure_min: f64,
    /// Lowest temperature in service, °C.
    pub service_low_c: f64,
    /// Highest temperature in service, °C.
    pub service_high_c: f64,
    /// Temperature at which it lets go, °C, where it needs heat to come undone.
    pub release_c: Option<f64>,
}

/// Diameters a locker is meant for, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadRange {
    /// Smallest, mm.
    pub low_mm: f64,
    /// Largest, mm.
    pub high_mm: f64,
}

/// What a bench colder than 15 °C does to the cure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ColdCure {
    /// The stated time holds, min.
    AsStated(f64),
    /// About three times as long, min (72 h at 10 °C for 24 h).
    Longer(f64),
    /// It may not set at all: warm the joint or use a primer.
    NeedsPrimer,
}

impl LockerStrength {
    /// The strengths as they are written.
    pub const WORDS: [(&'static str, Self); 4] =
        [("low", Self::Low), ("medium", Self::Medium), ("high", Self::High), ("wicking", Self::Wicking)];

    /// The strength of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        let wanted = folded(word);
        Self::WORDS.iter().find(|(text, _)| *text == wanted).map(|(_, strength)| *strength)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, strength)| *strength == self).map_or("", |(word, _)| word)
    }

    /// What is usual for it.
    #[must_use]
    pub fn defaults(self) -> LockerDefaults {
        LockerDefaults {
            working_min: 10.0,
            fixture_min: 20.0,
            cure_min: 24.0 * 60.0,
            service_low_c: -55.0,
            service_high_c: 150.0,
            release_c: (self == Self::High).then_some(250.0),
        }
    }

    /// Whether a screw of this diameter may break before the locker lets go: high strength below M6 (common practice).
    #[must_use]
    pub fn too_strong_for(self, diameter_mm: f64) -> bool {
        self == Self::High && positive(diameter_mm).is_some_and(|diameter| diameter < 6.0 - 1e-6)
    }
}

impl ThreadRange {
    /// Reads `M6–M20` (any dash, or `to`; the second M may be missing) or inches as in `1/4–3/4 in`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (low, high) = text.split_once(['–', '—', '-', '−']).or_else(|| text.split_once(" to "))?;
        let range = match (low.trim().strip_prefix('M'), high.trim().strip_suffix("in")) {
            (Some(low), None) => {
                let high = high.trim();
                Self { low_mm: decimal(low)?, high_mm: decimal(high.strip_prefix('M').unwrap_or(high))? }
            }
            (None, Some(high)) => Self { low_mm: inches(low)? * 25.4, high_mm: inches(high)? * 25.4 },
            _ => return None,
        };
        (range.low_mm <= range.high_mm).then_some(range)
    }

    /// Whether a thread lies in it, ends included.
    #[must_use]
    pub fn holds(self, thread: &Thread) -> bool {
        let diameter = thread.diameter_mm();
        self.low_mm - 1e-6 <= diameter && diameter <= self.high_mm + 1e-6
    }
}

/// Whether anaerobic locker may craze a plastic of this name: the amorphous ones, under stress (common practice). Fillers
/// and colours behind the name do not matter. Polyamide, acetal, polyolefins and PTFE stand it.
#[must_use]
pub fn crazes(material: &str) -> bool {
    const NAMES: [&str; 12] =
        ["abs", "asa", "san", "pc", "polycarbonate", "pmma", "acrylic", "ps", "polystyrene", "psu", "polysulfone", "polysulphone"];
    material.split(|c: char| !c.is_alphanumeric()).any(|word| NAMES.contains(&word.to_lowercase().as_str()))
}

/// What a locker finds on a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// A plastic that it may craze.
    Crazes,
    /// A plastic: no metal wakes it there.
    Plastic,
    /// A metal or a coat that wakes it slowly or not at all.
    Inactive,
    /// Iron or copper, and their alloys: it sets as stated.
    Active,
    /// A material that is not known here.
    Unknown,
}

/// What a locker finds on a material, as an author writes it: `stainless-steel`, `Aluminium alloy`, `zinc-plated steel`, `PA66`.
///
/// Primer or activator on aluminium, plating and stainless steel: engineering texts; on titanium and magnesium: common practice.
#[must_use]
pub fn surface(material: &str) -> Surface {
    const COATS_AND_TITANIUM: [&str; 10] = ["plated", "plating", "zinc", "cadmium", "galvanised", "galvanized", "anodised", "anodized", "chromed", "titanium"];
    let words: Vec<String> = material.split(|sign: char| !sign.is_alphanumeric()).map(str::to_lowercase).collect();
    let has = |wanted: &str| words.iter().any(|word| word == wanted);
    if crazes(material) {
        return Surface::Crazes;
    }
    if is_plastic(material) {
        return Surface::Plastic;
    }
    // Chrome is a coat, chrome steel a steel.
    if COATS_AND_TITANIUM.iter().any(|coat| has(coat)) || (has("chrome") && !has("steel")) || is_stainless(material) {
        return Surface::Inactive;
    }
    match galvanic::metal(material).map(|metal| metal.name) {
        Some("copper" | "brass or bronze" | "steel or iron") => Surface::Active,
        Some("stainless steel" | "aluminium" | "magnesium") => Surface::Inactive,
        _ => Surface::Unknown,
    }
}

/// Whether a bolt of this class in a hole of this metal offers a locker neither iron nor copper to set on: stainless steel
/// in a light metal. Primer or activator is advised on aluminium, plating and stainless steel (engineering texts).
#[must_use]
pub fn is_inactive(class: &str, into: &str) -> bool {
    is_stainless(class) && matches!(into, "aluminium" | "magnesium")
}

/// Whether a property class is one of austenitic stainless steel: A1 to A5, ISO 3506-1.
#[must_use]
pub fn is_stainless(class: &str) -> bool {
    let mut letters = class.trim().chars();
    letters.next() == Some('A') && matches!(letters.next(), Some('1'..='5')) && matches!(letters.next(), None | Some('-'))
}

/// By how long the working time is over, min; `None` while it is not.
#[must_use]
pub fn overrun_min(since_applied_min: f64, working_min: f64) -> Option<f64> {
    let over = finite(not_negative(since_applied_min)? - positive(working_min)?)?;
    (over > HAIR).then_some(over)
}

/// How long the cure still needs, min; `None` when it is done.
#[must_use]
pub fn cure_left_min(since_tightened_min: f64, cure_min: f64) -> Option<f64> {
    let left = finite(positive(cure_min)? - not_negative(since_tightened_min)?)?;
    (left > HAIR).then_some(left)
}

/// A time at the temperature of the bench, to hold or to full cure; `None` where a value is none.
#[must_use]
pub fn cure_at(bench_c: f64, cure_min: f64) -> Option<ColdCure> {
    let (bench, cure) = (finite(bench_c)?, positive(cure_min)?);
    Some(if bench >= 15.0 {
        ColdCure::AsStated(cure)
    } else if bench >= 10.0 {
        ColdCure::Longer(finite(3.0 * cure)?)
    } else {
        ColdCure::NeedsPrimer
    })
}

/// By how much a temperature lies outside the service range, K; `None` inside.
#[must_use]
pub fn outside_service_k(temperature_c: f64, service_low_c: f64, service_high_c: f64) -> Option<f64> {
    let (temperature, low, high) = (finite(temperature_c)?, finite(service_low_c)?, finite(service_high_c)?);
    let outside = (temperature - high).max(low - temperature);
    (outside > HAIR).then_some(outside)
}

/// Whether a heat makes the locker let go.
#[must_use]
pub fn is_released(temperature_c: f64, release_c: f64) -> bool {
    finite(temperature_c).zip(finite(release_c)).is_some_and(|(temperature, release)| temperature >= release)
}

/// Strips of locker along the bolt: one to 1 in, two to 2 in, three above (TM 10-3930-643-20).
#[must_use]
pub fn strips(diameter_mm: f64) -> Option<u32> {
    let diameter = positive(diameter_mm)?;
    Some(if diameter <= 25.4 {
        1
    } else if diameter <= 50.8 {
        2
    } else {
        3
    })
}

/// Times and temperatures are whole numbers at the bench: a hair over is not over.
const HAIR: f64 = 1e-9;

/// A positive decimal of at most eight characters, without sign or exponent.
fn decimal(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain = text.len() <= 8 && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    plain.then(|| text.parse().ok()).flatten().and_then(positive)
}

/// A decimal or a simple fraction, of inches.
fn inches(text: &str) -> Option<f64> {
    match text.trim().split_once('/') {
        Some((above, below)) => positive(decimal(above)? / decimal(below)?),
        None => decimal(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strengths_read_back() {
        for (word, strength) in LockerStrength::WORDS {
            assert_eq!((LockerStrength::find(word), strength.word()), (Some(strength), word));
        }
        assert_eq!(LockerStrength::find("green"), None);
        assert_eq!(LockerStrength::find("243"), None);
    }

    #[test]
    fn ranges_are_read() {
        let range = |text: &str| ThreadRange::parse(text).map(|range| (range.low_mm, range.high_mm));
        for text in ["M6–M20", "M6-M20", "M6 – 20", "M6 to M20"] {
            assert_eq!(range(text), Some((6.0, 20.0)), "{text}");
        }
        assert_eq!(range("1/4–3/4 in"), Some((6.35, 19.049_999_999_999_997)));
        for text in ["", "M6", "M20–M6", "6–20", "M6–M", "M1e3–M2e3", "1/0–1 in", "M-–M2"] {
            assert_eq!(range(text), None, "{text}");
        }
        let medium = ThreadRange::parse("M6–M20").unwrap();
        for (thread, inside) in [("M6x1.0", true), ("M20x2.5", true), ("M5x0.8", false), ("M22x1.5", false), ("1/4-20 UNC", true)] {
            assert_eq!(medium.holds(&Thread::parse(thread).unwrap()), inside, "{thread}");
        }
    }

    #[test]
    fn time_is_reckoned_from_the_act() {
        assert_eq!(overrun_min(10.0, 10.0), None);
        assert_eq!(overrun_min(25.0, 10.0), Some(15.0));
        assert_eq!(cure_left_min(120.0, 1440.0), Some(1320.0));
        assert_eq!(cure_left_min(1440.0, 1440.0), None);
        assert_eq!(overrun_min(f64::INFINITY, 10.0), None);
    }

    #[test]
    fn temperatures_are_held_against_the_limits() {
        assert_eq!(outside_service_k(180.0, -55.0, 150.0), Some(30.0));
        assert_eq!(outside_service_k(-60.0, -55.0, 150.0), Some(5.0));
        assert_eq!(outside_service_k(150.0, -55.0, 150.0), None);
        assert!(is_released(250.0, 250.0) && !is_released(249.0, 250.0) && !is_released(f64::NAN, 250.0));
        assert_eq!(cure_at(20.0, 1440.0), Some(ColdCure::AsStated(1440.0)));
        assert_eq!(cure_at(9.0, 1440.0), Some(ColdCure::NeedsPrimer));
    }

    // Common practice: amorphous plastics craze, semi-crystalline ones do not.
    #[test]
    fn some_plastics_crack_under_locker() {
        for plastic in ["ABS", "polycarbonate", "PC, 20 % glass", "clear acrylic", "PMMA", "Polystyrene"] {
            assert!(crazes(plastic), "{plastic}");
        }
        for other in ["PA 6", "nylon", "acetal", "POM", "PTFE", "polypropylene", "aluminium", "brass", "capsule"] {
            assert!(!crazes(other), "{other}");
        }
    }

    #[test]
    fn stainless_in_a_light_metal_is_inactive() {
        assert!(is_inactive("A4-80", "aluminium") && is_inactive("A2-70", "magnesium"));
        assert!(!is_inactive("A4-80", "steel") && !is_inactive("8.8", "aluminium"));
        assert!(is_stainless("A2") && !is_stainless("A24") && !is_stainless("A325") && !is_stainless("8.8"));
    }

    #[test]
    fn high_strength_is_too_much_for_small_screws() {
        assert!(LockerStrength::High.too_strong_for(5.0));
        assert!(!LockerStrength::High.too_strong_for(6.0) && !LockerStrength::Medium.too_strong_for(5.0));
        assert_eq!((strips(12.0), strips(30.0), strips(60.0), strips(-1.0)), (Some(1), Some(2), Some(3), None));
    }
}
