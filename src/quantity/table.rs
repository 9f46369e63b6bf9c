//! The units, as data. One row a unit: spelling, other spellings, kind, exact size in the base unit of its kind,
//! name in the singular and plural.
//!
//! Sizes are built from the defining constants below, as NIST SP 811 (2008) and the SI brochure (9th ed.) give
//! them, so no rounded factor stands anywhere. Spaces, hyphens, points and raised dots inside a spelling count as
//! the same thing (`ft-lb` also covers `ft lb`, `ft.lb`, `ft·lb`), so each spelling is listed once.

use super::dimension::Dimension::{
    self, Angle, Count, Force, Length, Mass, Percent, Pressure, Ratio, Rotation, Temperature, TemperatureRise, Time, Torque, Volume,
};
use super::unit::Unit;

type Size = (i128, i128);

const ONE: Size = (1, 1);
const KILO: Size = (1000, 1);
const CENTI: Size = (1, 100);
const MILLI: Size = (1, 1000);
const MICRO: Size = (1, 1_000_000);
/// Standard acceleration of free fall, 9.806 65 m/s² exactly (3rd CGPM, 1901).
const GRAVITY: Size = (980_665, 100_000);
/// Avoirdupois pound, 0.453 592 37 kg exactly (international yard and pound agreement, 1959).
const POUND: Size = (45_359_237, 100_000_000);
/// Pound-force in N: the pound under standard gravity.
const POUND_FORCE: Size = times(POUND, GRAVITY);
/// Inch in m, 0.0254 exactly (same agreement).
const INCH: Size = (254, 10_000);
/// Foot in m: twelve inches.
const FOOT: Size = times(INCH, (12, 1));
/// Cubic inch in mL.
const CUBIC_INCH: Size = times(times(times(INCH, INCH), INCH), (1_000_000, 1));
/// US liquid gallon in mL: 231 cubic inches exactly.
const US_GALLON: Size = times(CUBIC_INCH, (231, 1));
/// Imperial gallon in mL: 4.546 09 L exactly (UK Weights and Measures Act 1985).
const IMPERIAL_GALLON: Size = (454_609, 100);
/// Conventional millimetre of Hg in kPa: 13.5951 g/cm³ under standard gravity.
const HG_MM: Size = times(times((135_951, 10_000), GRAVITY), MILLI);

const fn times(a: Size, b: Size) -> Size {
    (a.0 * b.0, a.1 * b.1)
}

const fn over(a: Size, b: Size) -> Size {
    (a.0 * b.1, a.1 * b.0)
}

const fn unit(
    symbol: &'static str,
    others: &'static [&'static str],
    dimension: Dimension,
    size: Size,
    one: &'static str,
    many: &'static str,
) -> Unit {
    Unit { symbol, others, dimension, size, zero: 0, one, many, narrow: None }
}

/// A band wholly below `from` is shown in `smaller`: common practice, wrenches graduated in the larger unit
/// begin about there and their marks are wider than such a band.
const fn narrow(mut unit: Unit, from: i64, smaller: &'static str) -> Unit {
    unit.narrow = Some((from, smaller));
    unit
}

/// A scale whose reading at the base unit's zero is `zero`.
const fn scale(mut unit: Unit, zero: i64) -> Unit {
    unit.zero = zero;
    unit
}

/// Every unit. The first row of a kind is the one its values are reckoned in.
#[rustfmt::skip]
pub(super) static UNITS: &[Unit] = &[
    unit("N·m",  &["Nm", "nm", "newton metre", "newton metres", "newton meter", "newton meters"], Torque, ONE, "newton metre", "newton metres"),
    unit("cN·m", &["cNm"],                       Torque, CENTI,                                    "centinewton metre", "centinewton metres"),
    unit("mN·m", &["mNm"],                       Torque, MILLI,                                    "millinewton metre", "millinewton metres"),
    unit("N·mm", &["Nmm"],                       Torque, MILLI,                                    "newton millimetre", "newton millimetres"),
    unit("daN·m", &["daNm"],                     Torque, (10, 1),                                  "decanewton metre", "decanewton metres"),
    narrow(unit("lbf·ft", &["ft-lbf", "lb-ft", "ft-lb", "lbs-ft", "ft-lbs", "lbft", "ftlb", "lbsft", "ftlbs", "lbfft", "ftlbf",
        "foot-pound", "foot-pounds", "pound-foot", "pound-feet", "pounds-feet", "pound-force foot", "pound-force feet"],
                                                 Torque, times(POUND_FORCE, FOOT),                 "pound-force foot", "pound-force feet"), 10, "lbf·in"),
    unit("lbf·in", &["in-lbf", "lb-in", "in-lb", "lbs-in", "in-lbs", "lbin", "inlb", "lbsin", "inlbs", "lbfin", "inlbf",
        "inch-pound", "inch-pounds", "pound-inch", "pound-inches", "pound-force inch", "pound-force inches"],
                                                 Torque, times(POUND_FORCE, INCH),                 "pound-force inch", "pound-force inches"),
    unit("ozf·in", &["in-ozf", "oz-in", "in-oz", "ozin", "inoz"],
                                                 Torque, over(times(POUND_FORCE, INCH), (16, 1)),  "ounce-force inch", "ounce-force inches"),
    narrow(unit("kgf·m", &["kg-m", "m-kg", "m-kgf", "kgm", "kgfm", "mkg", "mkgf", "kp-m", "kpm", "mkp"],
                                                 Torque, GRAVITY,                                  "kilogram-force metre", "kilogram-force metres"), 1, "kgf·cm"),
    unit("kgf·cm", &["kg-cm", "cm-kg", "cm-kgf", "kgcm", "kgfcm", "kp-cm"],
                                                 Torque, times(GRAVITY, CENTI),                    "kilogram-force centimetre", "kilogram-force centimetres"),

    unit("N",   &["newton", "newtons"],          Force, ONE,                                       "newton", "newtons"),
    unit("kN",  &["kilonewton", "kilonewtons"],  Force, KILO,                                      "kilonewton", "kilonewtons"),
    unit("lbf", &["lb-f", "pound-force", "pounds-force"], Force, POUND_FORCE,                      "pound-force", "pounds-force"),
    unit("kgf", &["kp", "kilogram-force"],       Force, GRAVITY,                                   "kilogram-force", "kilograms-force"),

    unit("mm",   &["millimetre", "millimetres", "millimeter", "millimeters"], Length, ONE,         "millimetre", "millimetres"),
    unit("cm",   &["centimetre", "centimetres", "centimeter", "centimeters"], Length, (10, 1),     "centimetre", "centimetres"),
    unit("m",    &["metre", "metres", "meter", "meters"], Length, KILO,                            "metre", "metres"),
    unit("µm",   &["um", "micrometre", "micrometres", "micron", "microns"], Length, MILLI,         "micrometre", "micrometres"),
    unit("in",   &["inch", "inches"],            Length, times(INCH, KILO),                        "inch", "inches"),
    unit("thou", &["mil", "mils"],               Length, INCH,                                     "thousandth of an inch", "thousandths of an inch"),

    unit("°",    &["deg", "degree", "degrees"],  Angle, ONE,                                       "degree", "degrees"),
    unit("turn", &["turns", "revolution", "revolutions"], Angle, (360, 1),                         "turn", "turns"),

    unit("°C",  &["degC", "deg C", "degree C", "degrees C", "degrees Celsius", "degree Celsius", "Celsius"],
                                                 Temperature, ONE,                                 "degree Celsius", "degrees Celsius"),
    // t/°F = 9/5 · t/°C + 32 (SP 811, B.8).
    scale(unit("°F", &["degF", "deg F", "degree F", "degrees F", "degrees Fahrenheit", "degree Fahrenheit", "Fahrenheit"],
                                                 Temperature, (5, 9),                              "degree Fahrenheit", "degrees Fahrenheit"), 32),

    unit("K",   &["kelvin", "kelvins"],          TemperatureRise, ONE,                             "kelvin", "kelvins"),
    unit("Δ°C", &["ΔC", "Δ degC", "Δ deg C", "delta °C", "delta C", "delta degC", "delta deg C"],
                                                 TemperatureRise, ONE,                             "degree Celsius of change", "degrees Celsius of change"),
    unit("Δ°F", &["ΔF", "Δ degF", "Δ deg F", "delta °F", "delta F", "delta degF", "delta deg F"],
                                                 TemperatureRise, (5, 9),                          "degree Fahrenheit of change", "degrees Fahrenheit of change"),

    unit("mL",  &["ml", "millilitre", "millilitres", "milliliter", "milliliters"], Volume, ONE,    "millilitre", "millilitres"),
    unit("cL",  &["cl", "centilitre", "centilitres"], Volume, (10, 1),                             "centilitre", "centilitres"),
    unit("L",   &["l", "litre", "litres", "liter", "liters"], Volume, KILO,                        "litre", "litres"),
    unit("cm³", &["cm3", "cc", "ccm"],           Volume, ONE,                                      "cubic centimetre", "cubic centimetres"),
    unit("in³", &["in3", "cu in", "cubic inch", "cubic inches"], Volume, CUBIC_INCH,               "cubic inch", "cubic inches"),
    unit("fl oz (US)",  &["US fl oz", "floz (US)"], Volume, over(US_GALLON, (128, 1)),             "US fluid ounce", "US fluid ounces"),
    unit("pt (US)",     &["US pt", "US pint", "US pints", "pint (US)", "pints (US)"],   Volume, over(US_GALLON, (8, 1)), "US pint", "US pints"),
    unit("qt (US)",     &["US qt", "US quart", "US quarts", "quart (US)", "quarts (US)"], Volume, over(US_GALLON, (4, 1)), "US quart", "US quarts"),
    unit("gal (US)",    &["US gal", "US gallon", "US gallons", "gallon (US)", "gallons (US)"], Volume, US_GALLON, "US gallon", "US gallons"),
    unit("fl oz (imp)", &["imp fl oz", "fl oz (UK)", "floz (imp)"], Volume, over(IMPERIAL_GALLON, (160, 1)), "imperial fluid ounce", "imperial fluid ounces"),
    unit("pt (imp)",    &["imp pt", "imperial pint", "imperial pints", "pint (imp)", "pints (imp)", "pt (UK)"], Volume, over(IMPERIAL_GALLON, (8, 1)), "imperial pint", "imperial pints"),
    unit("qt (imp)",    &["imp qt", "imperial quart", "imperial quarts", "quart (imp)", "quarts (imp)", "qt (UK)"], Volume, over(IMPERIAL_GALLON, (4, 1)), "imperial quart", "imperial quarts"),
    unit("gal (imp)",   &["imp gal", "imperial gallon", "imperial gallons", "gallon (imp)", "gallons (imp)", "gal (UK)"], Volume, IMPERIAL_GALLON, "imperial gallon", "imperial gallons"),

    unit("kPa",  &["kilopascal", "kilopascals"], Pressure, ONE,                                    "kilopascal", "kilopascals"),
    unit("Pa",   &["pascal", "pascals"],         Pressure, MILLI,                                  "pascal", "pascals"),
    unit("hPa",  &[],                            Pressure, (1, 10),                                "hectopascal", "hectopascals"),
    unit("MPa",  &["megapascal", "megapascals", "N/mm²", "N/mm2"], Pressure, KILO,                 "megapascal", "megapascals"),
    unit("bar",  &["bars"],                      Pressure, (100, 1),                               "bar", "bar"),
    unit("mbar", &["millibar", "millibars"],     Pressure, (1, 10),                                "millibar", "millibars"),
    unit("psi",  &["PSI", "lbf/in²", "lbf/in2", "lb/in²", "lb/in2"],
                                                 Pressure, times(over(POUND_FORCE, times(INCH, INCH)), MILLI), "pound-force per square inch", "pounds-force per square inch"),
    unit("kgf/cm²", &["kgf/cm2", "kg/cm²", "kg/cm2"],
                                                 Pressure, times(over(GRAVITY, times(CENTI, CENTI)), MILLI), "kilogram-force per square centimetre", "kilograms-force per square centimetre"),
    unit("mmHg", &["mm Hg"],                     Pressure, HG_MM,                             "millimetre of Hg", "millimetres of Hg"),
    unit("inHg", &["in Hg"],                     Pressure, times(HG_MM, times(INCH, KILO)),   "inch of Hg", "inches of Hg"),

    unit("kg",   &["kgs", "kilo", "kilos", "kilogram", "kilograms"], Mass, ONE,                    "kilogram", "kilograms"),
    unit("g",    &["gram", "grams"],             Mass, MILLI,                                      "gram", "grams"),
    unit("mg",   &["milligram", "milligrams"],   Mass, MICRO,                                      "milligram", "milligrams"),
    unit("t",    &["tonne", "tonnes"],           Mass, KILO,                                       "tonne", "tonnes"),
    unit("lb",   &["lbs", "pound", "pounds"],    Mass, POUND,                                      "pound", "pounds"),
    unit("oz",   &["ounce", "ounces"],           Mass, over(POUND, (16, 1)),                       "ounce", "ounces"),

    unit("s",    &["sec", "secs", "second", "seconds"], Time, ONE,                                 "second", "seconds"),
    unit("min",  &["mins", "minute", "minutes"], Time, (60, 1),                                    "minute", "minutes"),
    unit("h",    &["hr", "hrs", "hour", "hours"], Time, (3600, 1),                                 "hour", "hours"),
    unit("d",    &["day", "days"],               Time, (86_400, 1),                                "day", "days"),

    unit("r/min", &["rpm", "RPM", "rev/min", "revs/min", "1/min", "min⁻¹"], Rotation, ONE,         "revolution per minute", "revolutions per minute"),

    unit("",     &[],                            Count, ONE,                                       "", ""),
    unit("%",    &["percent", "per cent"],       Percent, ONE,                                     "per cent", "per cent"),
    unit("",     &[],                            Ratio, ONE,                                       "", ""),
];

/// A spelling that names no unit by itself.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Vague {
    pub(super) spellings: &'static [&'static str],
    pub(super) sort: VagueSort,
}

/// Why a spelling is vague, and what it may mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum VagueSort {
    /// A measure of volume that differs between the US and Britain; the bare spelling of both.
    Volume(&'static str),
    /// A degree letter without its sign.
    Scale(&'static str),
    /// Letters that turn up where a torque's unit belongs, and the units they may stand for.
    Torque(&'static [&'static str]),
}

/// The vague spellings. `oz` is not here: as a mass it is clear, and only where a volume is wanted it is not.
pub(super) static VAGUE: &[Vague] = &[
    Vague { spellings: &["fl oz", "floz", "fluid ounce", "fluid ounces"], sort: VagueSort::Volume("fl oz") },
    Vague { spellings: &["pt", "pts", "pint", "pints"], sort: VagueSort::Volume("pt") },
    Vague { spellings: &["qt", "qts", "quart", "quarts"], sort: VagueSort::Volume("qt") },
    Vague { spellings: &["gal", "gals", "gallon", "gallons"], sort: VagueSort::Volume("gal") },
    Vague { spellings: &["C"], sort: VagueSort::Scale("°C") },
    Vague { spellings: &["F"], sort: VagueSort::Scale("°F") },
    Vague { spellings: &["mN"], sort: VagueSort::Torque(&["N·m", "mN·m"]) },
    Vague { spellings: &["k"], sort: VagueSort::Torque(&["kgf·m", "kgf·cm"]) },
];

/// The row with this spelling, for symbols known to stand in the table.
pub(super) fn row(symbol: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|unit| unit.symbol == symbol && !symbol.is_empty())
}

/// The base unit of a kind: its first row.
pub(super) fn base_of(dimension: Dimension) -> &'static Unit {
    // The second arm is never taken (a test walks every kind); the first row stands in rather than a panic.
    UNITS.iter().find(|unit| unit.dimension == dimension).unwrap_or(&FALLBACK)
}

static FALLBACK: Unit = unit("", &[], Count, ONE, "", "");

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::exact::Exact;

    #[test]
    fn base_units_have_size_one() {
        for &kind in Dimension::all() {
            assert!(base_of(kind).exact_size().is_one() && base_of(kind).dimension == kind, "{kind:?}");
        }
    }

    #[test]
    fn units_named_for_narrow_bands_exist_and_are_smaller() {
        for unit in UNITS {
            let Some((_, smaller)) = unit.narrow else { continue };
            let smaller = row(smaller).unwrap();
            assert!(smaller.dimension == unit.dimension && smaller.exact_size() < unit.exact_size());
        }
    }

    #[test]
    fn sizes_are_those_of_the_definitions() {
        let size = |symbol| row(symbol).unwrap().exact_size();
        let decimal = |text| Exact::decimal(text).unwrap();
        // Exact products of the definitions, NIST SP 811 appendix B.8.
        assert_eq!(size("lbf·ft"), decimal("1.3558179483314004"));
        assert_eq!(size("lbf"), decimal("4.4482216152605"));
        assert_eq!(size("gal (US)"), decimal("3785.411784"));
        assert_eq!(size("fl oz (US)"), decimal("29.5735295625"));
        assert_eq!(size("fl oz (imp)"), decimal("28.4130625"));
        assert_eq!(size("pt (imp)"), decimal("568.26125"));
        assert_eq!(size("in³"), decimal("16.387064"));
        assert_eq!(size("kgf/cm²"), decimal("98.0665"));
    }
}
