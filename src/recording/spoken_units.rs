//! Units as they are spoken, and what each may mean. Speech is looser than a page: “twenty pounds” may be two torques, a
//! mass or a pressure. All that it may mean is kept; common practice of workshops.

/// A unit as it is spoken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct SpokenUnit {
    /// Its words.
    words: &'static [&'static str],
    /// The units it may mean, most likely first, in the spelling of quantities.
    pub(super) means: &'static [&'static str],
}

const fn unit(words: &'static [&'static str], means: &'static [&'static str]) -> SpokenUnit {
    SpokenUnit { words, means }
}

/// The unit that words begin with, and how many of them it takes; the longest that fits.
pub(super) fn spoken_unit(words: &[&str]) -> Option<(&'static SpokenUnit, usize)> {
    let fits = |unit: &&SpokenUnit| words.len() >= unit.words.len() && unit.words.iter().zip(words).all(|(known, word)| known.split('|').any(|one| one == *word));
    UNITS.iter().filter(fits).max_by_key(|unit| unit.words.len()).map(|unit| (unit, unit.words.len()))
}

/// Spellings of one word stand side by side with a bar between.
#[rustfmt::skip]
static UNITS: &[SpokenUnit] = &[
    unit(&["newton|newtons", "metre|metres|meter|meters"], &["N·m"]),
    unit(&["nm"], &["N·m"]),
    unit(&["n", "m"], &["N·m"]),
    unit(&["newton|newtons"], &["N·m", "N"]),
    unit(&["foot|feet|ft", "pound|pounds|lb|lbs"], &["lbf·ft"]),
    unit(&["pound|pounds|lb|lbs", "foot|feet|ft"], &["lbf·ft"]),
    unit(&["ftlb|ftlbs|lbft"], &["lbf·ft"]),
    unit(&["inch|in", "pound|pounds|lb|lbs"], &["lbf·in"]),
    unit(&["pound|pounds|lb|lbs", "inch|inches|in"], &["lbf·in"]),
    unit(&["inlb|inlbs|lbin"], &["lbf·in"]),
    unit(&["pound|pounds|lb|lbs"], &["lbf·ft", "lbf·in", "lb", "psi"]),
    unit(&["kilogram|kilo|kg", "metre|metres|meter|meters"], &["kgf·m"]),
    unit(&["kilo|kilos|kilogram|kilograms|kg|kgs"], &["kg"]),
    unit(&["gram|grams"], &["g"]),
    unit(&["millimetre|millimetres|millimeter|millimeters|mm"], &["mm"]),
    unit(&["mil|mils|mill|mills"], &["mm", "thou", "mL"]),
    unit(&["centimetre|centimetres|centimeter|centimeters|cm"], &["cm"]),
    unit(&["micron|microns|micrometre|micrometres"], &["µm"]),
    unit(&["thou|thous"], &["thou"]),
    unit(&["thousandth|thousandths"], &["thou", "µm"]),
    unit(&["thousandth|thousandths", "of", "an", "inch"], &["thou"]),
    unit(&["thousandth|thousandths", "of", "a", "millimetre|millimeter"], &["µm"]),
    unit(&["inch|inches"], &["in"]),
    unit(&["degree|degrees|°", "celsius|centigrade|c"], &["°C"]),
    unit(&["degree|degrees|°", "fahrenheit|f"], &["°F"]),
    unit(&["celsius|centigrade"], &["°C"]),
    unit(&["fahrenheit"], &["°F"]),
    unit(&["°c"], &["°C"]),
    unit(&["°f"], &["°F"]),
    unit(&["degree|degrees|°"], &["°", "°C", "°F"]),
    unit(&["turn|turns|revolution|revolutions"], &["turn"]),
    unit(&["millilitre|millilitres|milliliter|milliliters|ml"], &["mL"]),
    unit(&["cc|ccs"], &["cm³"]),
    unit(&["litre|litres|liter|liters"], &["L"]),
    unit(&["fluid", "ounce|ounces"], &["fl oz (US)", "fl oz (imp)"]),
    unit(&["ounce|ounces"], &["fl oz (US)", "fl oz (imp)", "oz"]),
    unit(&["pint|pints"], &["pt (US)", "pt (imp)"]),
    unit(&["quart|quarts"], &["qt (US)", "qt (imp)"]),
    unit(&["gallon|gallons"], &["gal (US)", "gal (imp)"]),
    unit(&["bar"], &["bar"]),
    unit(&["psi"], &["psi"]),
    unit(&["p", "s", "i"], &["psi"]),
    unit(&["pounds", "per", "square", "inch"], &["psi"]),
    unit(&["kilopascal|kilopascals|kpa"], &["kPa"]),
    unit(&["second|seconds"], &["s"]),
    unit(&["minute|minutes"], &["min"]),
    unit(&["hour|hours"], &["h"]),
    unit(&["day|days"], &["d"]),
    unit(&["rpm"], &["r/min"]),
    unit(&["revs"], &["r/min"]),
    unit(&["percent|%"], &["%"]),
    unit(&["per", "cent"], &["%"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    #[test]
    fn every_meaning_is_a_unit() {
        for unit in UNITS {
            for meaning in unit.means {
                assert!(Unit::find(meaning).is_some(), "{meaning}");
            }
        }
    }

    #[test]
    fn the_longest_unit_is_taken() {
        let means = |text: &str| spoken_unit(&text.split(' ').collect::<Vec<_>>()).map(|(unit, words)| (unit.means[0], words));
        assert_eq!(means("newton metres please"), Some(("N·m", 2)));
        assert_eq!(means("newtons"), Some(("N·m", 1)));
        assert_eq!(means("pounds per square inch"), Some(("psi", 4)));
        assert_eq!(means("bolts"), None);
    }
}
