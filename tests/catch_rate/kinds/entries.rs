//! Mistakes in what the lists give: values, orders, limits, variants.

use crate::demo::{Demo, Seed};

pub(super) fn seal_turned(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("faces") {
        let inner = value.trim_start_matches('{').trim_end_matches('}');
        let parts: Vec<(&str, &str)> = inner.split(", ").filter_map(|part| part.split_once(": ")).collect();
        if let [(first @ "spring", a), (second, b)] = parts.as_slice()
            && a != b
        {
            seeds.push(demo.replace(&file, start, end, &format!("{{{first}: {b}, {second}: {a}}}"), format!("{a} and {b} changed over")));
        }
    }
    // The order along the shaft may be told at the shaft's list instead.
    for seed in &mut seeds {
        let shafts = seed.text.lines().position(|line| line.starts_with("shafts:"));
        seed.lines.extend(shafts.map(|line| line + 2));
    }
    seeds
}

pub(super) fn stages_swapped(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("torque").into_iter().filter(|(file, ..)| file != "manual.yaml") {
        let lists: Vec<(usize, usize)> = value.match_indices('[').filter_map(|(at, _)| value[at..].find(']').map(|e| (at, at + e + 1))).collect();
        for (from, to) in lists {
            let stages: Vec<&str> = value[from + 1..to - 1].split(", ").collect();
            for pair in 0..stages.len().saturating_sub(1) {
                let mut swapped = stages.clone();
                swapped.swap(pair, pair + 1);
                let with = format!("{}[{}]{}", &value[..from], swapped.join(", "), &value[to..]);
                seeds.push(demo.replace(&file, start, end, &with, format!("stages {} and {} swapped", pair + 1, pair + 2)));
            }
        }
    }
    seeds
}

pub(super) fn order_broken(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("order") {
        let Some(inner) = value.strip_prefix('[').and_then(|v| v.strip_suffix(']')) else { continue };
        let positions: Vec<&str> = inner.split(", ").collect();
        for drop in 0..positions.len() {
            let short: Vec<&str> = positions.iter().enumerate().filter(|(at, _)| *at != drop).map(|(_, p)| *p).collect();
            seeds.push(demo.replace(&file, start, end, &format!("[{}]", short.join(", ")), format!("{} left out", positions[drop])));
            let mut twice = positions.clone();
            twice[drop] = positions[(drop + 1) % positions.len()];
            seeds.push(demo.replace(&file, start, end, &format!("[{}]", twice.join(", ")), format!("{} twice", twice[drop])));
        }
    }
    seeds
}

/// The last digit of a value one up: plausible, and nothing but the earlier state tells.
pub(super) fn value_changed(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for key in ["torque", "spec", "amount", "thickness", "depth", "clamped", "hole", "accept", "time", "cool"] {
        for (file, start, end, value) in demo.values(key).into_iter().filter(|(file, ..)| file != "manual.yaml") {
            let Some(at) = value.rfind(|c: char| c.is_ascii_digit()) else { continue };
            // A front matter of its own head is no entry of a list.
            let line_start = demo.files[&file][..start].rfind('\n').map_or(0, |n| n + 1);
            if demo.files[&file][line_start..].starts_with("time:") {
                continue;
            }
            let digit = u32::from(value.as_bytes()[at] - b'0');
            let with = format!("{}{}{}", &value[..at], (digit + 1) % 10, &value[at + 1..]);
            seeds.push(demo.replace(&file, start, end, &with, format!("{key}: {value} changed to {with}")));
        }
    }
    seeds
}

pub(super) fn limit_inside(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("limit") {
        let text = &demo.files[&file];
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line = &text[line_start..text[start..].find('\n').map_or(text.len(), |e| start + e)];
        let Some(spec) = line.split("spec: ").nth(1).map(|rest| rest.split([',', '}']).next().unwrap_or("")) else { continue };
        let (word, rest) = value.split_once(' ').unwrap_or(("", ""));
        let Some((number, unit)) = spec.split_once(' ') else { continue };
        // A nominal height with a limit below it: move the limit above; a range: into its middle.
        let inside = match number.split_once('–') {
            Some((low, high)) => format!("{:.2}", (low.parse::<f64>().unwrap() + high.parse::<f64>().unwrap()) / 2.0),
            None => {
                let nominal: f64 = number.parse().unwrap();
                format!("{:.1}", if word == "min" { nominal * 1.02 } else { nominal * 0.98 })
            }
        };
        seeds.push(demo.replace(&file, start, end, &format!("{word} {inside} {unit}"), format!("{word} {rest} moved to {inside}, spec {spec}")));
    }
    seeds
}

pub(super) fn heat_raised(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("to") {
        if value.contains("°C") && value.contains('±') {
            // Above what bearings (120 °C) and the coating of a housing (150 °C) stand.
            seeds.push(demo.replace(&file, start, end, "185 ± 5 °C", format!("{value} raised to 185")));
        }
    }
    seeds
}

pub(super) fn variant_removed(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    let variants = ["early", "late", "S", "L", "fresh", "salt", "stock", "kit", "M", "E"];
    for key in ["torque", "length", "source", "material", "number", "reuse", "from", "clamped"] {
        for (file, start, end, value) in demo.values(key) {
            let Some(inner) = value.strip_prefix('{').and_then(|v| v.strip_suffix('}')) else { continue };
            let first = inner.split(':').next().unwrap_or_default();
            if !variants.contains(&first) {
                continue;
            }
            // Keep the first case only.
            let kept_end = value_end_of_first(inner);
            if kept_end < inner.len() {
                seeds.push(demo.replace(&file, start, end, &format!("{{{}}}", &inner[..kept_end]), format!("{key}: only {} kept", &inner[..kept_end])));
            }
        }
    }
    seeds
}

fn value_end_of_first(inner: &str) -> usize {
    let mut depth = 0;
    for (at, c) in inner.char_indices() {
        match c {
            '[' | '{' => depth += 1,
            ']' | '}' => depth -= 1,
            ',' if depth == 0 => return at,
            _ => {}
        }
    }
    inner.len()
}

const UNITS: [&str; 9] = [" N·m", " mm", " °C", " mL", " bar", " N", " min", " h", " L"];

pub(super) fn unit_left_out(demo: &Demo) -> Vec<Seed> {
    let keys = ["torque", "length", "clamped", "hole", "depth", "vent", "spec", "limit", "amount", "to", "from", "time", "cool", "diameter", "path", "thickness", "range", "working", "cure", "step", "target", "old", "accept"];
    let mut seeds = Vec::new();
    for (file, start, end, value) in keys.iter().flat_map(|key| demo.values(key)) {
        if let Some(unit) = UNITS.iter().find(|unit| value.ends_with(**unit)) {
            let bare = value.trim_end_matches(*unit);
            seeds.push(demo.replace(&file, start, end, bare, format!("{value} without its unit")));
        }
    }
    seeds
}

pub(super) fn range_reversed(demo: &Demo) -> Vec<Seed> {
    let keys = ["spec", "accept", "from", "range", "service"];
    let mut seeds = Vec::new();
    for (file, start, end, value) in keys.iter().flat_map(|key| demo.values(key)) {
        let Some((numbers, unit)) = value.split_once(' ') else { continue };
        if let Some((low, high)) = numbers.split_once('–') {
            seeds.push(demo.replace(&file, start, end, &format!("{high}–{low} {unit}"), format!("{value} reversed")));
        }
    }
    seeds
}

pub(super) fn example_off(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("gives") {
        let number: f64 = value.trim_end_matches(" mm").parse().unwrap();
        for off in [-0.1, 0.1] {
            seeds.push(demo.replace(&file, start, end, &format!("{:.2} mm", number + off), format!("{value} off by {off} mm")));
        }
    }
    seeds
}

pub(super) fn pull_off(demo: &Demo) -> Vec<Seed> {
    let pulls = demo.values("spec").into_iter().filter(|(_, _, _, value)| value.ends_with(" N"));
    pulls.flat_map(|(file, start, end, value)| [("200–300 N", "ten times"), ("2–3 N", "a tenth of")].map(|(new, what)| demo.replace(&file, start, end, new, format!("{what} {value}")))).collect()
}
