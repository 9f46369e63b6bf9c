//! What quantities are read from, and what is refused, a line a case.

use crate::quantity::{Dimension, Quantity};
use Dimension::{Angle, Count, Force, Length, Mass, Percent, Pressure, Ratio, Rotation, Temperature, TemperatureRise, Time, Torque, Volume};

fn parse(text: &str, kind: Dimension) -> Quantity {
    Quantity::parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"))
}

#[test]
fn quantities_are_read() {
    for (text, kind, shown) in [
        ("75 N·m", Torque, "75 N·m"), ("75N·m", Torque, "75 N·m"), (" 75 Nm ", Torque, "75 N·m"), ("75 N.m", Torque, "75 N·m"), ("75 N m", Torque, "75 N·m"),
        ("70–80 N·m", Torque, "70–80 N·m"), ("70-80 Nm", Torque, "70–80 N·m"), ("70 - 80 Nm", Torque, "70–80 N·m"), ("70 to 80 N m", Torque, "70–80 N·m"),
        ("70 N·m–80 N·m", Torque, "70–80 N·m"), ("70 N·m to 80 N·m", Torque, "70–80 N·m"), ("75 ± 5 N·m", Torque, "75 ± 5 N·m"), ("75±5 N·m", Torque, "75 ± 5 N·m"),
        ("75 +/- 5 N.m", Torque, "75 ± 5 N·m"), ("75 N·m ± 5 N·m", Torque, "75 ± 5 N·m"), ("18 ft-lb", Torque, "18 lbf·ft"), ("18 lb ft", Torque, "18 lbf·ft"),
        ("2.4 kgf·m", Torque, "2.4 kgf·m"), ("2.4 kg-m", Torque, "2.4 kgf·m"), ("80 in.lb", Torque, "80 lbf·in"), ("50 cN·m", Torque, "50 cN·m"),
        ("min 0.10 mm", Length, "min 0.10 mm"), ("max 150 °C", Temperature, "max 150 °C"), ("≥ 12 h", Time, "min 12 h"), (">=12 h", Time, "min 12 h"),
        ("≤ 4199", Count, "max 4199"), ("max 4199", Count, "max 4199"), ("4200–4999", Count, "4200–4999"), ("4", Count, "4"), ("min 12", Count, "min 12"),
        ("12 min", Time, "12 min"), ("min 12 min", Time, "min 12 min"), ("min 12 h", Time, "min 12 h"), ("-55 to 150 °C", Temperature, "−55 to 150 °C"),
        ("-55–150 °C", Temperature, "−55 to 150 °C"), ("−18 °C", Temperature, "−18 °C"), ("–18 °C", Temperature, "−18 °C"), ("-20 to -10 °C", Temperature, "−20 to −10 °C"),
        ("85 ± 5 °C", Temperature, "85 ± 5 °C"), ("85 °C ± 5 K", Temperature, "85 ± 5 °C"), ("185 degF", Temperature, "185 °F"), ("60 K", TemperatureRise, "60 K"),
        ("60 Δ°C", TemperatureRise, "60 Δ°C"), ("1/4 in", Length, "1/4 in"), ("1 1/4 in", Length, "1 1/4 in"), ("1¼ in", Length, "1 1/4 in"), ("5 thou", Length, "5 thou"),
        ("1/4–3/8 in", Length, "1/4–3/8 in"), ("40 um", Length, "40 µm"), ("90°", Angle, "90°"), ("90 deg", Angle, "90°"), ("1/2 turn", Angle, "1/2 turn"), ("2 turns", Angle, "2 turn"),
        ("-2°", Angle, "−2°"), ("260 ml", Volume, "260 mL"), ("12 fl oz (US)", Volume, "12 fl oz (US)"), ("1 pt (imp)", Volume, "1 pt (imp)"), ("50 cc", Volume, "50 cm³"),
        ("0.35–0.50 bar", Pressure, "0.35–0.50 bar"), ("-0.5 bar", Pressure, "−0.5 bar"), ("7 psi", Pressure, "7 psi"), ("1500 kg", Mass, "1500 kg"), ("3 oz", Mass, "3 oz"),
        ("900 rpm", Rotation, "900 r/min"), ("50:1", Ratio, "50:1"), ("2.15:1", Ratio, "2.15:1"), ("max 50:1", Ratio, "max 50:1"), ("60 %", Percent, "60 %"), ("20 N", Force, "20 N"),
    ] {
        let quantity = parse(text, kind);
        assert_eq!((quantity.to_string().as_str(), quantity.dimension(), quantity.written()), (shown, kind, text.trim()), "{text}");
    }
}

#[test]
fn what_cannot_be_read_names_its_rule() {
    for (text, kind, name) in [
        ("", Torque, "number-unreadable"), ("hand", Torque, "number-unreadable"), ("N·m", Torque, "number-unreadable"), ("NaN N·m", Torque, "number-unreadable"),
        ("inf N·m", Torque, "number-unreadable"), ("25", Torque, "torque-unit-missing"), ("70–80", Torque, "torque-unit-missing"), ("25 (18 lbf·ft)", Torque, "torque-unit-missing"),
        ("85", Temperature, "temperature-unit-missing"), ("85 C", Temperature, "temperature-unit-missing"), ("90 degrees", Temperature, "temperature-unit-missing"),
        ("90 F", Temperature, "temperature-unit-missing"), ("60 C", TemperatureRise, "unit-ambiguous"), ("0.2", Length, "unit-missing"),
        ("9 lbs", Torque, "torque-unit-ambiguous"), ("9 lb", Torque, "torque-unit-ambiguous"), ("9 pounds", Torque, "torque-unit-ambiguous"), ("3 kg", Torque, "torque-unit-ambiguous"),
        ("9 mN", Torque, "torque-unit-ambiguous"), ("3 k", Torque, "torque-unit-ambiguous"), ("9 lbf", Torque, "unit-of-another-kind"), ("9 N", Torque, "unit-of-another-kind"),
        ("9 J", Torque, "unit-unknown"), ("9 mm", Torque, "unit-of-another-kind"), ("12 fl oz", Volume, "volume-unit-ambiguous"), ("12 oz", Volume, "volume-unit-ambiguous"),
        ("1 pint", Volume, "volume-unit-ambiguous"), ("2 gal", Volume, "volume-unit-ambiguous"), ("2 gal", Torque, "unit-of-another-kind"), ("60 °C", TemperatureRise, "unit-of-another-kind"),
        ("60 K", Temperature, "unit-of-another-kind"), ("12 min", Length, "unit-of-another-kind"), ("22,5 N·m", Torque, "decimal-comma-or-thousand"),
        ("1 250 N·m", Torque, "decimal-comma-or-thousand"), ("70–80,5 N·m", Torque, "decimal-comma-or-thousand"), ("0.24–0.18 mm", Length, "range-reversed"),
        ("5–5 mm", Length, "range-reversed"), ("1-1/4 in", Length, "range-reversed"), ("1e3 N", Force, "number-unreadable"), ("1e300 N", Force, "number-unreadable"),
        ("75 ± 0 N·m", Torque, "number-unreadable"), ("75 ± -5 N·m", Torque, "number-unreadable"), ("75 N·m ± 5 %", Torque, "number-unreadable"), ("5 ± 6 N·m", Torque, "number-unreadable"),
        ("22 +2/-1 N·m", Torque, "number-unreadable"), ("22 N·m +2/-1", Torque, "number-unreadable"), ("-5 N·m", Torque, "number-unreadable"), ("-300 °C", Temperature, "number-unreadable"),
        ("4.5", Count, "number-unreadable"), ("4.0", Count, "number-unreadable"), ("-4", Count, "number-unreadable"), ("4 bolts", Count, "number-unreadable"), ("4 (four)", Count, "number-unreadable"),
        ("4 mm", Count, "unit-of-another-kind"), ("> 12 h", Time, "number-unreadable"), ("< 12 h", Time, "number-unreadable"), ("~ 12 h", Time, "number-unreadable"),
        ("about 12 h", Time, "number-unreadable"), ("12 h max", Time, "number-unreadable"), ("min 70–80 N·m", Torque, "number-unreadable"), ("24 N·m dry", Torque, "number-unreadable"),
        ("24 N·m / 17.7 lbf·ft", Torque, "number-unreadable"), ("24 N·m (17.7 lbf·ft", Torque, "number-unreadable"), ("24 N·m (28 lbf·ft)", Torque, "dual-unit-mismatch"),
        ("24 N·m (18)", Torque, "torque-unit-missing"), ("24 N·m (18 mm)", Torque, "unit-of-another-kind"), ("800 mL–1 L", Volume, "unit-ambiguous"), ("24 NM", Torque, "unit-unknown"),
        ("24 bananas", Torque, "unit-unknown"), ("70 N·m–80", Torque, "torque-unit-missing"), ("30x42x7 mm", Length, "number-unreadable"), ("5:40", Time, "number-unreadable"),
        ("50", Ratio, "unit-missing"), ("50:0", Ratio, "number-unreadable"), ("50: 1 mm", Ratio, "number-unreadable"), ("5. N·m", Torque, "unit-unknown"), ("10/12 N·m", Torque, "number-unreadable"),
        ("1.2.3 mm", Length, "number-unreadable"), ("٢٤ N·m", Torque, "number-unreadable"), ("3 ft", Length, "unit-unknown"), ("1/4\"", Length, "unit-unknown"),
    ] {
        match Quantity::parse(text, kind) {
            Ok(quantity) => panic!("{text} was read as {quantity}"),
            Err(error) => {
                assert_eq!(error.name(), name, "{text}: {error}");
                assert!(text.get(error.span()).is_some(), "{text}: {:?}", error.span());
                assert!(!error.fix().is_empty() && !error.message().is_empty() && !error.message().ends_with('.'), "{text}");
            }
        }
    }
}

#[test]
fn likely_meanings_are_worked_out() {
    for (text, kind, figures) in [
        ("9 lbs", Torque, vec!["9 lbf·ft = 12.2 N·m", "9 lbf·in = 1.02 N·m"]), ("3 kg", Torque, vec!["3 kgf·m = 29.4 N·m", "3 kgf·cm = 0.294 N·m"]),
        ("9 mN", Torque, vec!["9 N·m", "9 mN·m = 0.00900 N·m"]), ("9 N", Torque, vec!["9 N·m"]), ("12 fl oz", Volume, vec!["12 fl oz (US) = 355 mL", "12 fl oz (imp) = 341 mL"]),
        ("12 oz", Volume, vec!["12 fl oz (US) = 355 mL", "12 fl oz (imp) = 341 mL"]), ("2 gal", Volume, vec!["2 gal (US) = 7.57 L", "2 gal (imp) = 9.09 L"]),
        ("25", Torque, vec!["25 N·m", "25 lbf·ft = 33.9 N·m", "25 lbf·in = 2.82 N·m", "25 kgf·m = 245 N·m"]), ("0.20", Length, vec!["0.20 mm", "0.20 in = 5.08 mm"]),
        ("90 degrees", Temperature, vec!["90 °C", "90 °F = 32.2 °C"]), ("85 C", Temperature, vec!["85 °C"]), ("60 °C", TemperatureRise, vec!["60 Δ°C = 60.0 K"]),
        ("22,5 N·m", Torque, vec!["22.5 N·m"]), ("1,250 N·m", Torque, vec!["1.250 N·m", "1250 N·m"]), ("0.24–0.18 mm", Length, vec!["0.18–0.24 mm"]),
        ("1-1/4 in", Length, vec!["1/4–1 in", "1 1/4 in"]), ("70–80", Pressure, vec!["70–80 kPa", "70–80 bar = 7000–8000 kPa", "70–80 psi = 483–552 kPa"]),
        ("12 h max", Time, vec!["max 12 h"]), ("75 N·m ± 5 %", Torque, vec!["75 ± 3.75 N·m"]), ("800 mL–1 L", Volume, vec!["800–1000 mL", "0.800–1 L"]),
        ("24 N·m / 17.7 lbf·ft", Torque, vec!["24 N·m (17.7 lbf·ft)"]), ("24 NM", Torque, vec!["24 N·m"]), ("1/4\"", Length, vec!["1/4 in"]), ("3 ft", Length, vec!["36 in"]), ("2 weeks", Time, vec!["14 d"]), ("5 J", Torque, vec!["5 N·m"]), ("1e3 N", Force, vec!["1000 N"]),
        ("max 5", Length, vec!["max 5 mm", "max 5 in = max 127 mm"]),
    ] {
        let error = Quantity::parse(text, kind).unwrap_err();
        let found: Vec<String> = error.figures().into_iter().filter(|line| !line.contains("kN·m")).collect();
        let head: Vec<&str> = found.iter().map(String::as_str).take(figures.len()).collect();
        assert_eq!(head, figures, "{text}");
    }
}

#[test]
fn the_unit_decides_among_several_kinds() {
    let kinds = [Torque, Angle, Count, Ratio];
    for (text, kind) in [("20 N·m", Torque), ("90°", Angle), ("4", Count), ("50:1", Ratio)] {
        assert_eq!(Quantity::parse_any(text, &kinds).map(|quantity| quantity.dimension()), Ok(kind), "{text}");
    }
    assert_eq!(Quantity::parse_any("4 mm", &kinds).map_err(|error| error.name()), Err("unit-of-another-kind"));
    // The first kind is the field's own.
    for (text, name) in [("20", "torque-unit-missing"), ("9 lbs", "torque-unit-ambiguous"), ("9 mm", "unit-of-another-kind")] {
        assert_eq!(Quantity::parse_any(text, &[Torque, Angle]).map_err(|error| error.name()), Err(name), "{text}");
    }
    for (text, kind) in [("10 min", Time), ("max 5 mm", Length), ("1500 kg", Mass), ("9 lbs", Mass), ("3", Count), ("60 K", TemperatureRise), ("50:1", Ratio)] {
        assert_eq!(Quantity::parse_free(text).map(|quantity| quantity.dimension()), Ok(kind), "{text}");
    }
    for (text, name) in [("3.5", "unit-missing"), ("1 pt", "volume-unit-ambiguous"), ("85 C", "temperature-unit-missing"), ("smooth", "number-unreadable"), ("3 widgets", "unit-unknown")] {
        assert_eq!(Quantity::parse_free(text).map_err(|error| error.name()), Err(name), "{text}");
    }
}

#[test]
fn the_place_of_a_fault_is_in_the_text_handed_in() {
    for (text, kind, at_fault) in [
        ("  22,5 N·m", Torque, "22,5"), (" 9 lbs ", Torque, "lbs"), ("25", Torque, "25"), ("70–80,5 N·m", Torque, "80,5"), ("24 N·m dry", Torque, "dry"),
        ("24 N·m (28 lbf·ft)", Torque, "24 N·m (28 lbf·ft"), ("0.24–0.18 mm", Length, "0.24–0.18"), ("12 min", Length, "min"), ("12 h max", Time, "max"),
    ] {
        let error = Quantity::parse(text, kind).unwrap_err();
        assert_eq!(&text[error.span()], at_fault, "{text}");
    }
}

#[test]
fn a_lower_case_newton_metre_is_read_with_a_note() {
    assert!(parse("24 nm", Torque).note().is_some());
    assert!(parse("24 Nm", Torque).note().is_none());
}

#[test]
fn faults_read_as_sentences() {
    for (text, kind, sentence) in [
        ("9 lbs", Torque, "‘lbs’ is a mass or a force, and a torque belongs here; 9 lbf·ft = 12.2 N·m; 9 lbf·in = 1.02 N·m: write the unit printed in your source in full, such as N·m, lbf·ft or lbf·in"),
        ("12 min", Length, "‘min’ is the unit of a time, and a length belongs here: write one of mm, cm, m, µm or in; for a least value write min before the number"),
        ("60 °C", TemperatureRise, "‘°C’ is the unit of a temperature, and a temperature rise belongs here; 60 Δ°C = 60.0 K: write K, Δ°C or Δ°F for a rise"),
        ("0.24–0.18 mm", Length, "the range runs backwards, from 0.24 to 0.18; 0.18–0.24 mm: look in your source: the ends are swapped, or a digit is wrong; write the low end first"),
        ("1 pint", Volume, "‘pint’ differs between the US and Britain; 1 pt (US) = 473 mL; 1 pt (imp) = 568 mL: add (US) or (imp) after the unit"),
    ] {
        assert_eq!(Quantity::parse(text, kind).unwrap_err().to_string(), sentence);
    }
}
