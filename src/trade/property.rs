//! Property classes of bolts and nuts: what they bear, and which thread they go with.
//!
//! Sources: ISO 898-1:2013 Table 3 (bolts; the proof stress is Sp), ISO 898-2:2012 (nuts, proof stress under the test
//! mandrel; from memory), ISO 3506-1 (stainless; the 0.2 % stress stands for the proof stress), SAE J429 (inch grades,
//! ksi × 6.894757), ISO 898-5 (hardness classes of set screws; from memory). Rows not reprinted anywhere we have read are marked.

use super::thread::{Thread, ThreadSize};

/// Strength of a bolt of one class and size, `MPa`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Least tensile strength Rm, `MPa`.
    pub tensile_mpa: f64,
    /// Least yield stress (`ReL` or Rp0.2), `MPa`.
    pub yield_mpa: f64,
    /// Proof stress Sp, `MPa`; for stainless steel the 0.2 % stress.
    pub proof_mpa: f64,
}

/// The standard a class belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standard {
    /// ISO 898-1: bolts, screws and studs of carbon and alloy steel.
    Iso898Bolt,
    /// ISO 898-2: nuts of carbon and alloy steel.
    Iso898Nut,
    /// ISO 3506: stainless steel.
    Iso3506,
    /// SAE J429: inch bolts.
    SaeJ429,
}

impl Standard {
    /// As it is cited.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Iso898Bolt => "ISO 898-1:2013",
            Self::Iso898Nut => "ISO 898-2:2012",
            Self::Iso3506 => "ISO 3506-1",
            Self::SaeJ429 => "SAE J429",
        }
    }
}

/// A property class or grade, as it is written on the head: `8.8`, `10`, `A4-80`, `SAE 5`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PropertyClass {
    name: &'static str,
    standard: Standard,
    /// Rows with rising largest diameter, mm.
    rows: &'static [Row],
}

/// Why a class does not go with a thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClassError {
    /// No such class is known.
    Unknown,
    /// The class belongs to the other thread system.
    OtherSystem {
        /// The class.
        class: &'static str,
        /// Its standard.
        standard: Standard,
    },
    /// Pipe threads have no property class.
    OnAPipe {
        /// The class.
        class: &'static str,
    },
    /// The standard has no such class in this size.
    NotInThisSize {
        /// The class.
        class: &'static str,
        /// Its standard.
        standard: Standard,
    },
}

impl ClassError {
    /// What is wrong, in the reader's words.
    #[must_use]
    pub fn message(self) -> String {
        match self {
            Self::Unknown => "no such property class".to_owned(),
            Self::OtherSystem { class, standard } => {
                let threads = if standard == Standard::SaeJ429 { "inch" } else { "metric" };
                format!("class {class} ({}) is for {threads} threads", standard.name())
            }
            Self::OnAPipe { class } => format!("class {class} is one of bolts, and a pipe thread has none"),
            Self::NotInThisSize { class, standard } => format!("{} has no class {class} in this size", standard.name()),
        }
    }
}

impl PropertyClass {
    /// The class of a text: `8.8`, `10.9`, `8` (a nut), `A2-70`, `SAE 5`; case and spaces do not matter.
    #[must_use]
    pub fn find(text: &str) -> Option<&'static Self> {
        let wanted = squeezed(text);
        CLASSES.iter().find(|class| squeezed(class.name) == wanted)
    }

    /// The class that is assumed for screening where none is written: 8.8, and SAE 5 for inch threads (common practice).
    /// Whoever uses it says so.
    #[must_use]
    pub fn assumed(thread: &Thread) -> &'static Self {
        if thread.is_metric() { &ASSUMED_METRIC } else { &ASSUMED_UNIFIED }
    }

    /// The strongest class there is for a thread: what stretches even that stretches every bolt.
    #[must_use]
    pub fn strongest(thread: &Thread) -> &'static Self {
        if thread.is_metric() { &STRONGEST_METRIC } else { &STRONGEST_UNIFIED }
    }

    /// Whether a text is a hardness class of set screws, `45H` (ISO 898-5, from memory): it tells how hard the point is, and no load.
    #[must_use]
    pub fn is_of_hardness(text: &str) -> bool {
        let wanted = squeezed(text);
        HARDNESS.iter().any(|class| squeezed(class) == wanted)
    }

    /// All names, bolts first.
    #[must_use]
    pub fn names() -> Vec<&'static str> {
        CLASSES.iter().map(|class| class.name).collect()
    }

    /// As it is written.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// The standard it belongs to.
    #[must_use]
    pub fn standard(&self) -> Standard {
        self.standard
    }

    /// Whether it is a class of nuts.
    #[must_use]
    pub fn is_nut(&self) -> bool {
        self.standard == Standard::Iso898Nut
    }

    /// Strength of a bolt of this class with this thread. A nut's class stands for the bolt it is made for (a nut of
    /// class 8 for a bolt of class 8.8; ISO 898-2).
    ///
    /// # Errors
    /// [`ClassError::OtherSystem`] and [`ClassError::NotInThisSize`].
    pub fn strength(&self, thread: &Thread) -> Result<Strength, ClassError> {
        self.go_with(thread)?;
        let rows = mating(self).map_or(self.rows, |bolt| bolt.rows);
        let row = rows.iter().find(|row| thread.diameter_mm() <= row.up_to_mm + 1e-6);
        row.map(|row| row.strength).ok_or(ClassError::NotInThisSize { class: self.name, standard: self.standard })
    }

    /// Load a bolt of this class must bear without a lasting stretch, N: stress area times proof stress. Metric areas are
    /// taken to three digits, as the tables of ISO 898-1 do.
    ///
    /// # Errors
    /// As for [`PropertyClass::strength`].
    pub fn proof_load_n(&self, thread: &Thread) -> Result<f64, ClassError> {
        Ok(tabled_area_mm2(thread) * self.strength(thread)?.proof_mpa)
    }

    /// Load at which a bolt of this class may break, N: stress area times tensile strength.
    ///
    /// # Errors
    /// As for [`PropertyClass::strength`].
    pub fn tensile_load_n(&self, thread: &Thread) -> Result<f64, ClassError> {
        Ok(tabled_area_mm2(thread) * self.strength(thread)?.tensile_mpa)
    }

    /// Proof stress of a regular nut of this class, `MPa` (ISO 898-2, coarse and fine threads; from memory); `None` for
    /// bolts and for sizes the table does not hold.
    #[must_use]
    pub fn nut_proof_mpa(&self, thread: &Thread) -> Option<f64> {
        let row = NUTS.iter().find(|row| self.is_nut() && row.name == self.name)?;
        let steps = if thread.is_coarse() { row.coarse } else { row.fine };
        self.go_with(thread).ok()?;
        steps.iter().find(|step| thread.diameter_mm() <= step.up_to_mm + 1e-6).map(|step| step.proof_mpa)
    }

    fn go_with(&self, thread: &Thread) -> Result<(), ClassError> {
        if thread.pipe().is_some() {
            return Err(ClassError::OnAPipe { class: self.name });
        }
        let inch = self.standard == Standard::SaeJ429;
        if inch == thread.is_metric() {
            return Err(ClassError::OtherSystem { class: self.name, standard: self.standard });
        }
        // SAE J429 begins at 1/4 in; ISO 898 at M1.6, which is where the thread table begins.
        let too_small = matches!(thread.size, ThreadSize::Unified { diameter, .. } if diameter < 0.25);
        if too_small { Err(ClassError::NotInThisSize { class: self.name, standard: self.standard }) } else { Ok(()) }
    }
}

/// Stress area as the tables of the standard reckon with it, mm²: three digits for a metric thread.
fn tabled_area_mm2(thread: &Thread) -> f64 {
    let area = thread.form().stress_area_mm2;
    if !thread.is_metric() {
        return area;
    }
    let digit = 10.0_f64.powf(area.log10().floor() - 2.0);
    (area / digit).round() * digit
}

/// Letters, digits and points in lower case: `SAE 5`, `sae5` and `SAE-5` are one.
fn squeezed(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && *c != '-').flat_map(char::to_lowercase).collect()
}

/// The bolt class a nut class is made for (ISO 898-2, Table 1).
fn mating(nut: &PropertyClass) -> Option<&'static PropertyClass> {
    let bolt = match (nut.is_nut(), nut.name) {
        (true, "5") => "5.8",
        (true, "6") => "6.8",
        (true, "8") => "8.8",
        (true, "10") => "10.9",
        (true, "12") => "12.9",
        _ => return None,
    };
    PropertyClass::find(bolt)
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Row {
    up_to_mm: f64,
    strength: Strength,
}

const fn row(up_to_mm: f64, tensile_mpa: f64, yield_mpa: f64, proof_mpa: f64) -> Row {
    Row { up_to_mm, strength: Strength { tensile_mpa, yield_mpa, proof_mpa } }
}

const fn ksi(up_to_in: f64, proof_ksi: f64, yield_ksi: f64, tensile_ksi: f64) -> Row {
    row(up_to_in * 25.4, tensile_ksi * KSI_MPA, yield_ksi * KSI_MPA, proof_ksi * KSI_MPA)
}

const fn class(name: &'static str, standard: Standard, rows: &'static [Row]) -> PropertyClass {
    PropertyClass { name, standard, rows }
}

/// 1000 lbf/in² in `MPa`, from the exact definitions of pound-force and inch.
const KSI_MPA: f64 = 6.894_757_293_168_361;

/// Hardness classes of set screws: a tenth of the least Vickers hardness (ISO 898-5, from memory).
const HARDNESS: [&str; 4] = ["14H", "22H", "33H", "45H"];

static STRONGEST_METRIC: PropertyClass = class("12.9", Standard::Iso898Bolt, CLASS_12_9);
static STRONGEST_UNIFIED: PropertyClass = class("SAE 8", Standard::SaeJ429, GRADE_8);
static ASSUMED_METRIC: PropertyClass = class("8.8", Standard::Iso898Bolt, CLASS_8_8);
static ASSUMED_UNIFIED: PropertyClass = class("SAE 5", Standard::SaeJ429, GRADE_5);

const CLASS_8_8: &[Row] = &[row(16.0, 800.0, 640.0, 580.0), row(39.0, 830.0, 660.0, 600.0)];
const GRADE_5: &[Row] = &[ksi(1.0, 85.0, 92.0, 120.0), ksi(1.5, 74.0, 81.0, 105.0)];
const CLASS_12_9: &[Row] = &[row(39.0, 1220.0, 1100.0, 970.0)];
const GRADE_8: &[Row] = &[ksi(1.5, 120.0, 130.0, 150.0)];
const STAINLESS_50: &[Row] = &[row(39.0, 500.0, 210.0, 210.0)];
const STAINLESS_70: &[Row] = &[row(24.0, 700.0, 450.0, 450.0)];
const STAINLESS_80: &[Row] = &[row(24.0, 800.0, 600.0, 600.0)];

/// Largest diameter (mm), Rm, yield, proof stress (`MPa`); inch grades: largest diameter (in), proof, yield, tensile (ksi).
/// 4.6, 4.8 and 5.6 and the whole of ISO 3506-1 from memory.
static CLASSES: &[PropertyClass] = &[
    class("4.6", Standard::Iso898Bolt, &[row(39.0, 400.0, 240.0, 225.0)]),
    class("4.8", Standard::Iso898Bolt, &[row(39.0, 420.0, 340.0, 310.0)]),
    class("5.6", Standard::Iso898Bolt, &[row(39.0, 500.0, 300.0, 280.0)]),
    class("5.8", Standard::Iso898Bolt, &[row(39.0, 520.0, 420.0, 380.0)]),
    class("6.8", Standard::Iso898Bolt, &[row(39.0, 600.0, 480.0, 440.0)]),
    class("8.8", Standard::Iso898Bolt, CLASS_8_8),
    class("9.8", Standard::Iso898Bolt, &[row(16.0, 900.0, 720.0, 650.0)]),
    class("10.9", Standard::Iso898Bolt, &[row(39.0, 1040.0, 940.0, 830.0)]),
    class("12.9", Standard::Iso898Bolt, CLASS_12_9),
    class("A2-50", Standard::Iso3506, STAINLESS_50),
    class("A2-70", Standard::Iso3506, STAINLESS_70),
    class("A2-80", Standard::Iso3506, STAINLESS_80),
    class("A4-50", Standard::Iso3506, STAINLESS_50),
    class("A4-70", Standard::Iso3506, STAINLESS_70),
    class("A4-80", Standard::Iso3506, STAINLESS_80),
    class("SAE 1", Standard::SaeJ429, &[ksi(1.5, 33.0, 36.0, 60.0)]),
    class("SAE 2", Standard::SaeJ429, &[ksi(0.75, 55.0, 57.0, 74.0), ksi(1.5, 33.0, 36.0, 60.0)]),
    class("SAE 5", Standard::SaeJ429, GRADE_5),
    class("SAE 8", Standard::SaeJ429, GRADE_8),
    class("5", Standard::Iso898Nut, &[]),
    class("6", Standard::Iso898Nut, &[]),
    class("8", Standard::Iso898Nut, &[]),
    class("10", Standard::Iso898Nut, &[]),
    class("12", Standard::Iso898Nut, &[]),
];

struct NutRow {
    name: &'static str,
    coarse: &'static [NutStep],
    fine: &'static [NutStep],
}

struct NutStep {
    up_to_mm: f64,
    proof_mpa: f64,
}

const fn step(up_to_mm: f64, proof_mpa: f64) -> NutStep {
    NutStep { up_to_mm, proof_mpa }
}

/// Proof stress of regular nuts, `MPa`, by largest diameter (ISO 898-2; from memory).
static NUTS: &[NutRow] = &[
    NutRow { name: "5", coarse: &[step(4.0, 520.0), step(7.0, 580.0), step(10.0, 590.0), step(16.0, 610.0), step(39.0, 630.0)], fine: &[] },
    NutRow {
        name: "6",
        coarse: &[step(4.0, 600.0), step(7.0, 670.0), step(10.0, 680.0), step(16.0, 700.0), step(39.0, 720.0)],
        fine: &[step(10.0, 770.0), step(16.0, 780.0), step(33.0, 870.0), step(39.0, 930.0)],
    },
    NutRow {
        name: "8",
        coarse: &[step(4.0, 800.0), step(7.0, 855.0), step(10.0, 870.0), step(16.0, 880.0), step(39.0, 920.0)],
        fine: &[step(16.0, 955.0), step(33.0, 1030.0), step(39.0, 1090.0)],
    },
    NutRow {
        name: "10",
        coarse: &[step(10.0, 1040.0), step(16.0, 1050.0), step(39.0, 1060.0)],
        fine: &[step(10.0, 1100.0), step(16.0, 1110.0)],
    },
    NutRow { name: "12", coarse: &[step(7.0, 1150.0), step(10.0, 1160.0), step(16.0, 1190.0), step(39.0, 1200.0)], fine: &[] },
];

#[cfg(test)]
mod tests {
    use super::*;

    fn strength(class: &str, thread: &str) -> Result<f64, ClassError> {
        PropertyClass::find(class).ok_or(ClassError::Unknown)?.strength(&Thread::parse(thread).unwrap()).map(|found| found.proof_mpa)
    }

    #[test]
    fn a_class_goes_with_its_own_thread_system() {
        assert_eq!(strength("8.8", "M8x1.25"), Ok(580.0));
        assert_eq!(strength("8.8", "1/4-20 UNC").unwrap_err().message(), "class 8.8 (ISO 898-1:2013) is for metric threads");
        assert_eq!(strength("SAE 5", "M8x1.25").unwrap_err().message(), "class SAE 5 (SAE J429) is for inch threads");
        assert_eq!(strength("9.8", "M20x2.5").unwrap_err().message(), "ISO 898-1:2013 has no class 9.8 in this size");
        assert_eq!(strength("A4-80", "M30x3.5").unwrap_err().message(), "ISO 3506-1 has no class A4-80 in this size");
        assert_eq!(strength("SAE 8", "#10-32 UNF").unwrap_err().message(), "SAE J429 has no class SAE 8 in this size");
        assert_eq!(strength("8.7", "M8x1.25"), Err(ClassError::Unknown));
    }

    #[test]
    fn the_size_ranges_split_where_the_standards_do() {
        assert_eq!(strength("8.8", "M16x2.0"), Ok(580.0));
        assert_eq!(strength("8.8", "M18x2.5"), Ok(600.0));
        assert!((strength("SAE 2", "3/4-10 UNC").unwrap() / KSI_MPA - 55.0).abs() < 1e-9);
        assert!((strength("SAE 2", "7/8-9 UNC").unwrap() / KSI_MPA - 33.0).abs() < 1e-9);
    }

    #[test]
    fn a_nut_stands_for_the_bolt_it_is_made_for() {
        assert_eq!(strength("8", "M12x1.25"), Ok(580.0));
        assert_eq!(strength("10", "M10x1.5"), Ok(830.0));
        let nut = PropertyClass::find("8").unwrap();
        assert_eq!(nut.nut_proof_mpa(&Thread::parse("M8x1.25").unwrap()), Some(870.0));
        assert_eq!(nut.nut_proof_mpa(&Thread::parse("M12x1.25").unwrap()), Some(955.0));
        assert_eq!(PropertyClass::find("8.8").unwrap().nut_proof_mpa(&Thread::parse("M8x1.25").unwrap()), None);
    }

    // A nut must outlast the bolt it is made for: its proof stress lies above the bolt's least tensile strength.
    #[test]
    fn nuts_are_stronger_than_their_bolts() {
        for (nut, bolt) in [("5", "5.8"), ("6", "6.8"), ("8", "8.8"), ("10", "10.9")] {
            for size in ["M4x0.7", "M6x1.0", "M8x1.25", "M12x1.75", "M24x3.0"] {
                let thread = Thread::parse(size).unwrap();
                let proof = PropertyClass::find(nut).unwrap().nut_proof_mpa(&thread).unwrap();
                assert!(proof >= PropertyClass::find(bolt).unwrap().strength(&thread).unwrap().tensile_mpa, "{nut} {size}");
            }
        }
    }

    #[test]
    fn names_are_read_as_the_trade_writes_them() {
        for (text, name) in [("sae 5", "SAE 5"), ("SAE-8", "SAE 8"), ("a2-70", "A2-70"), (" 10.9 ", "10.9"), ("10", "10")] {
            assert_eq!(PropertyClass::find(text).map(PropertyClass::name), Some(name), "{text}");
        }
        assert_eq!(PropertyClass::find(""), None);
        let thread = Thread::parse("M8x1.25").unwrap();
        assert_eq!(PropertyClass::assumed(&thread).name(), "8.8");
        assert_eq!(PropertyClass::strongest(&thread).name(), "12.9");
        assert_eq!(PropertyClass::strongest(&Thread::parse("1/4-20 UNC").unwrap()).name(), "SAE 8");
    }

    // ISO 898-5, from memory: 14H, 22H, 33H and 45H.
    #[test]
    fn a_hardness_class_is_no_property_class() {
        for text in ["14H", "22 h", "33H", "45H"] {
            assert!(PropertyClass::is_of_hardness(text) && PropertyClass::find(text).is_none(), "{text}");
        }
        for text in ["45", "8.8", "H", "55H", ""] {
            assert!(!PropertyClass::is_of_hardness(text), "{text}");
        }
    }
}
