//! Magnitudes mistaken: a value in the wrong unit, or off by a factor of ten.

use crate::demo::{Demo, Seed};

/// Multiplies every torque of a fastener.
pub(super) fn torques(demo: &Demo, factor: f64) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("torque").into_iter().filter(|(file, _, _, value)| file != "manual.yaml" && value.contains("N·m")) {
        seeds.push(demo.replace(&file, start, end, &scaled(&value, factor), format!("{value} times {factor:.3}")));
    }
    seeds
}

/// Multiplies the lengths that something is checked by.
pub(super) fn lengths(demo: &Demo, factor: f64) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for key in ["length", "clamped", "hole", "spec", "thickness", "depth"] {
        for (file, start, end, value) in demo.values(key).into_iter().filter(|(_, _, _, value)| value.ends_with("mm") && !value.starts_with('{')) {
            seeds.push(demo.replace(&file, start, end, &scaled(&value, factor), format!("{key}: {value} times {factor:.3}")));
        }
    }
    seeds
}

/// Every number of a text multiplied, to three significant digits.
fn scaled(text: &str, factor: f64) -> String {
    let mut out = String::new();
    let mut number = String::new();
    let flush = |number: &mut String, out: &mut String| {
        if let Ok(value) = number.parse::<f64>() {
            let scaled = value * factor;
            let digits = (2.0 - scaled.abs().log10().floor()).clamp(0.0, 4.0);
            out.push_str(&format!("{scaled:.*}", format!("{digits:.0}").parse().unwrap_or(2)));
        } else {
            out.push_str(number);
        }
        number.clear();
    };
    for c in text.chars() {
        if c.is_ascii_digit() || (c == '.' && !number.is_empty()) {
            number.push(c);
        } else {
            flush(&mut number, &mut out);
            out.push(c);
        }
    }
    flush(&mut number, &mut out);
    out
}
