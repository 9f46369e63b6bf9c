//! The kinds of mistake, each made at every place of the demo where it can be made.

use super::demo::{ActAt, Demo, Seed, line_of};

/// A kind of mistake.
pub(crate) struct Kind {
    /// What is done, in the words of the table.
    pub(crate) name: &'static str,
    /// Whether it can always be seen, or only guessed at from what is plausible.
    pub(crate) decidable: bool,
    /// Whether the manual is compared with its earlier state: that catches every changed value, and would hide
    /// what the other rules see.
    pub(crate) compared: bool,
    /// Makes it everywhere.
    pub(crate) seeds: fn(&Demo) -> Vec<Seed>,
}

/// Every kind, in the order of the table.
pub(crate) const KINDS: &[Kind] = &[
    Kind { name: "a tightening dropped", decidable: true, compared: false, seeds: tightening_dropped },
    Kind { name: "a heat moved after a seal", decidable: true, compared: false, seeds: heat_after_seal },
    Kind { name: "a key put in behind its part", decidable: true, compared: false, seeds: key_behind },
    Kind { name: "a seal turned round", decidable: true, compared: false, seeds: seal_turned },
    Kind { name: "the closer of an open item deleted", decidable: true, compared: false, seeds: closer_deleted },
    Kind { name: "a holding tool removed", decidable: true, compared: false, seeds: holder_removed },
    Kind { name: "a one-time part refitted", decidable: true, compared: false, seeds: refitted },
    Kind { name: "stages swapped", decidable: true, compared: false, seeds: stages_swapped },
    Kind { name: "an order short of a bolt, or with one twice", decidable: true, compared: false, seeds: order_broken },
    Kind { name: "an id misspelt in one place", decidable: true, compared: false, seeds: id_misspelt },
    Kind { name: "a value changed with no change line", decidable: true, compared: true, seeds: value_changed },
    Kind { name: "a limit moved inside its spec", decidable: true, compared: false, seeds: limit_inside },
    Kind { name: "a heat raised above a limit", decidable: true, compared: false, seeds: heat_raised },
    Kind { name: "a notice removed that first names a protection", decidable: true, compared: false, seeds: notice_removed },
    Kind { name: "a notice moved below its act", decidable: true, compared: false, seeds: notice_moved },
    Kind { name: "a duration turned into ‘overnight’", decidable: true, compared: false, seeds: overnight },
    Kind { name: "a strength turned into a colour", decidable: true, compared: false, seeds: colour },
    Kind { name: "a part used while away", decidable: true, compared: false, seeds: away },
    Kind { name: "a variant's value removed", decidable: true, compared: false, seeds: variant_removed },
    Kind { name: "a locker put on before a stop", decidable: true, compared: false, seeds: locker_before_stop },
    Kind { name: "a cover closed over open work", decidable: true, compared: false, seeds: covered_early },
    Kind { name: "a fluid poured before the cure", decidable: true, compared: false, seeds: cure_skipped },
    Kind { name: "a unit left out", decidable: true, compared: false, seeds: unit_left_out },
    Kind { name: "a range reversed", decidable: true, compared: false, seeds: range_reversed },
    Kind { name: "a link to nowhere", decidable: true, compared: false, seeds: link_broken },
    Kind { name: "a shim's worked example off by a tenth", decidable: true, compared: false, seeds: example_off },
    Kind { name: "a cord's pull off by a factor of ten", decidable: true, compared: false, seeds: pull_off },
    Kind { name: "a wrench taken out of the shop", decidable: true, compared: false, seeds: wrench_gone },
    Kind { name: "N·m read as lbf·ft", decidable: false, compared: false, seeds: |demo| torques(demo, 1.355_817_948_331_400_4) },
    Kind { name: "lbf·ft read as N·m", decidable: false, compared: false, seeds: |demo| torques(demo, 1.0 / 1.355_817_948_331_400_4) },
    Kind { name: "a factor of ten too much", decidable: false, compared: false, seeds: |demo| torques(demo, 10.0) },
    Kind { name: "a factor of ten too little", decidable: false, compared: false, seeds: |demo| torques(demo, 0.1) },
    Kind { name: "kgf·m read as N·m", decidable: false, compared: false, seeds: |demo| torques(demo, 1.0 / 9.806_65) },
    Kind { name: "lbf·in read as N·m", decidable: false, compared: false, seeds: |demo| torques(demo, 8.850_745_791) },
    Kind { name: "inch read as mm", decidable: false, compared: false, seeds: |demo| lengths(demo, 1.0 / 25.4) },
    Kind { name: "mm read as inch", decidable: false, compared: false, seeds: |demo| lengths(demo, 25.4) },
];

fn drop_act(demo: &Demo, act: &ActAt) -> Seed {
    demo.replace(&act.file, act.start, act.end, &act.words, format!("{}:{} dropped", act.verb, act.target))
}

/// Lines of the entry of an id in a file: where a finding about the thing may stand.
fn entry_lines(demo: &Demo, id: &str) -> Vec<(String, usize)> {
    demo.find(&format!("{id}:")).into_iter().map(|(file, at)| { let line = line_of(&demo.files[&file], at); (file, line) }).collect()
}

fn id_of(target: &str) -> &str {
    target.rsplit('@').next().unwrap_or(target).split(['*', '/']).next().unwrap_or(target)
}

fn tightening_dropped(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let torques: Vec<&ActAt> = acts.iter().filter(|act| act.verb == "torque" && !act.target.contains('/')).collect();
    torques
        .iter()
        .map(|act| {
            // The finding may stand at the last act that is left to the fastener.
            let mut seed = drop_act(demo, act);
            let id = id_of(&act.target);
            let others = acts.iter().filter(|other| other.file == act.file && id_of(&other.target) == id);
            seed.lines.extend(others.map(|other| line_of(&demo.files[&other.file], other.start)));
            seed.lines.extend(entry_lines(demo, id).into_iter().filter(|(file, _)| *file == act.file).map(|(_, line)| line));
            seed
        })
        .collect()
}

fn heat_after_seal(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for heat in acts.iter().filter(|act| act.verb == "heat") {
        let text = &demo.files[&heat.file];
        let Some(part) = of_entry(text, &heat.target, "of") else { continue };
        for seal in acts.iter().filter(|act| act.file == heat.file && act.verb == "fit" && act.start > heat.start) {
            let inside = of_entry(text, id_of(&seal.target), "in").is_some_and(|within| within == part);
            let is_seal = text.find("\nseals:").is_some_and(|from| {
                let end = text[from + 1..].find("\n---").map_or(text.len(), |e| from + 1 + e);
                text[from..end].contains(&format!("  {}:", id_of(&seal.target)))
            });
            let (Some(hot), Some(cold)) = (demo.step_at(&heat.file, heat.start), demo.step_at(&seal.file, seal.start)) else { continue };
            if inside && is_seal && hot != cold {
                let moved = format!("{}{}{}{}", &text[..hot.0], &text[hot.1..cold.1], format_step(&text[hot.0..hot.1]), &text[cold.1..]);
                let at = moved.find(&format!("](heat:{})", heat.target)).unwrap();
                seeds.push(Seed {
                    file: heat.file.clone(),
                    lines: vec![line_of(&moved, at)],
                    text: moved,
                    what: format!("{} moved behind {}", heat.target, seal.target),
                });
            }
        }
    }
    seeds
}

/// The act of a key and the next one that fits something, each in the other's place.
fn key_behind(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let keys = acts.iter().enumerate().filter(|(_, act)| act.verb == "fit" && act.target.ends_with("-key"));
    keys.filter_map(|(at, key)| {
        let part = acts[at + 1..].iter().find(|act| act.verb == "fit" && act.file == key.file)?;
        let text = &demo.files[&key.file];
        let before = format!("{}{}", &text[..key.start], &text[part.start..part.end]);
        let line = line_of(text, key.start);
        let moved = format!("{before}{}{}{}", &text[key.end..part.start], &text[key.start..key.end], &text[part.end..]);
        Some(Seed { file: key.file.clone(), lines: vec![line], text: moved, what: format!("{} behind {}", key.target, part.target) })
    })
    .collect()
}

fn format_step(step: &str) -> String {
    format!("\n{}\n", step.trim_end())
}

/// The value of a key in an entry of a procedure's front matter, where it stands in braces on few lines.
fn of_entry(text: &str, id: &str, key: &str) -> Option<String> {
    let at = text.find(&format!("\n  {id}:"))?;
    let entry = &text[at + 1..];
    let end = entry[1..].find("\n  ").and_then(|e| {
        // Continuation lines are indented deeper.
        let mut from = e + 1;
        loop {
            let rest = &entry[from + 1..];
            if !rest.starts_with("   ") {
                return Some(from);
            }
            from = from + 1 + rest.find('\n')?;
        }
    });
    let entry = &entry[..end.unwrap_or(entry.len())];
    let key_at = entry.find(&format!("{key}: ")).filter(|at| entry[..*at].ends_with([' ', '{', ',']))?;
    let value = &entry[key_at + key.len() + 2..];
    Some(value[..value.find([',', '}', '\n']).unwrap_or(value.len())].trim().to_owned())
}

fn seal_turned(demo: &Demo) -> Vec<Seed> {
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

fn closer_deleted(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, _, target) in demo.values("finish_in") {
        let folder = file.split('/').next().unwrap();
        let Some((procedure, step)) = target.split_once('#') else { continue };
        let closing = format!("{folder}/{procedure}.md");
        let Some(text) = demo.files.get(&closing) else { continue };
        let Some(heading) = text.find(&format!("{{#{step}")) else { continue };
        let Some(span) = demo.step_at(&closing, heading) else { continue };
        let opener = &demo.files[&file][..start];
        let item = opener.rfind("{").map(|at| opener[..at].trim_end_matches([':', ' ']).rsplit([' ', '\n']).next().unwrap_or("").to_owned()).unwrap_or_default();
        let thing = opener[opener.rfind('{').unwrap_or(0)..].split("of: ").nth(1).map_or(item.clone(), |rest| rest.split([',', '}']).next().unwrap_or("").to_owned());
        for act in demo.acts().into_iter().filter(|act| act.file == closing && (span.0..span.1).contains(&act.start)) {
            let closes = matches!(act.verb.as_str(), "fit" | "torque" | "measure" | "align" | "test") && id_of(&act.target) == thing;
            if closes {
                let mut seed = drop_act(demo, &act);
                // The finding stands at the item's finish_in, in the file that opens it.
                seed.what = format!("{} ({file}:{})", seed.what, line_of(&demo.files[&file], start));
                seed.lines.clear();
                seed.lines.push(0);
                seeds.push(seed);
            }
        }
    }
    seeds
}

fn holder_removed(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    let holders: Vec<(String, usize, usize, String)> = demo.values("hold_with");
    for (file, start, end, value) in &holders {
        let text = &demo.files[file];
        let line_start = text[..*start].rfind('\n').map_or(0, |at| at + 1);
        if text[line_start..*start].trim() == "hold_with:" {
            let mut seed = demo.replace(file, line_start, end + 1, "", format!("hold_with: {value} taken out"));
            let entry = text[..line_start].rfind("\n  ").map(|_| text[..line_start].lines().enumerate().filter(|(_, l)| l.starts_with("  ") && !l.starts_with("   ")).last().map_or(0, |(n, _)| n + 1));
            seed.lines.extend(entry);
            seeds.push(seed);
        }
    }
    for act in demo.acts().into_iter().filter(|act| act.verb == "tool" && holders.iter().any(|(file, _, _, value)| *file == act.file && *value == act.target)) {
        // Where the tool is in use since an earlier step, one mention less changes nothing.
        let first = demo.acts().into_iter().find(|other| other.file == act.file && other.verb == "tool" && other.target == act.target);
        if first.is_some_and(|first| first.start == act.start) {
            let mut seed = drop_act(demo, &act);
            let span = demo.step_at(&act.file, act.start).unwrap();
            let text = &demo.files[&act.file];
            seed.lines.extend(line_of(text, span.0)..=line_of(text, span.1 - 1));
            seeds.push(seed);
        }
    }
    seeds
}

fn refitted(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for act in acts.iter().filter(|act| act.verb == "fit" && !act.target.contains('*')) {
        let once = demo.files.values().any(|text| {
            of_entry(text, &act.target, "reuse").is_some_and(|reuse| reuse == "never")
                && of_entry(text, &act.target, "spare").is_none()
                && of_entry(text, &act.target, "new").is_none()
        });
        if once {
            let with = format!("[{}](fit:{}), [out again](remove:{}), [in again](fit:{})", act.words, act.target, act.target, act.target);
            seeds.push(demo.replace(&act.file, act.start, act.end, &with, format!("{} fitted, taken out and fitted", act.target)));
        }
    }
    seeds
}

fn stages_swapped(demo: &Demo) -> Vec<Seed> {
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

fn order_broken(demo: &Demo) -> Vec<Seed> {
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

fn id_misspelt(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for act in demo.acts().into_iter().filter(|act| !act.target.is_empty() && !act.target.contains(',')) {
        let id = id_of(&act.target);
        let letters: Vec<char> = id.chars().collect();
        if letters.len() < 4 || letters[1] == letters[2] {
            continue;
        }
        let mut swapped = letters.clone();
        swapped.swap(1, 2);
        let misspelt: String = swapped.into_iter().collect();
        let address = act.target.replace(id, &misspelt);
        seeds.push(demo.replace(&act.file, act.start, act.end, &format!("[{}]({}:{address})", act.words, act.verb), format!("{id} written {misspelt}")));
    }
    seeds
}

/// The last digit of a value one up: plausible, and nothing but the earlier state tells.
fn value_changed(demo: &Demo) -> Vec<Seed> {
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

fn limit_inside(demo: &Demo) -> Vec<Seed> {
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

fn heat_raised(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("to") {
        if value.contains("°C") && value.contains('±') {
            // Above what bearings (120 °C) and the coating of a housing (150 °C) stand.
            seeds.push(demo.replace(&file, start, end, "185 ± 5 °C", format!("{value} raised to 185")));
        }
    }
    seeds
}

/// The spans of the notices of a file: from `> **` to the blank line.
fn notices(demo: &Demo, file: &str) -> Vec<(usize, usize)> {
    let text = &demo.files[file];
    text.match_indices("\n> **")
        .map(|(at, _)| (at + 1, text[at + 1..].find("\n\n").map_or(text.len(), |end| at + 1 + end + 2)))
        .collect()
}

fn notice_removed(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for file in demo.files.keys().filter(|file| file.ends_with(".md")) {
        let text = &demo.files[file];
        for (start, end) in notices(demo, file) {
            // Where an earlier step has named the protection, it is in use all the same.
            let first = text[start..end].split("](tool:").nth(1).is_some_and(|rest| {
                let tool = rest.split(')').next().unwrap_or_default();
                text.find(&format!("](tool:{tool})")).is_some_and(|at| (start..end).contains(&at))
            });
            if first {
                let mut seed = demo.replace(file, start, end, "", "notice removed");
                let (from, to) = demo.step_at(file, start).unwrap();
                // The protection may be missed in this step or in a later one that relied on it.
                seed.lines = (line_of(text, from)..=line_of(text, text.len() - 1).max(line_of(text, to - 1))).collect();
                seeds.push(seed);
            }
        }
    }
    seeds
}

fn notice_moved(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for file in demo.files.keys().filter(|file| file.ends_with(".md")) {
        let text = &demo.files[file];
        for (start, end) in notices(demo, file) {
            let (from, to) = demo.step_at(file, start).unwrap();
            let injury = !text[start..end].starts_with("> **NOTICE");
            if injury {
                let step_end = text[..to].trim_end().len();
                let notice = text[start..end].trim_end();
                let spoilt = format!("{}{}\n\n{notice}\n{}", &text[..start], text[end..step_end].trim_end(), &text[step_end..]);
                let line = line_of(&spoilt, spoilt[from..].find(notice).unwrap() + from);
                seeds.push(Seed { file: file.clone(), text: spoilt, lines: vec![line], what: "notice moved to the end of its step".to_owned() });
            }
        }
    }
    seeds
}

fn overnight(demo: &Demo) -> Vec<Seed> {
    ["time", "cool", "working", "cure", "fixture"]
        .iter()
        .flat_map(|key| demo.values(key))
        .map(|(file, start, end, value)| demo.replace(&file, start, end, "overnight", format!("{value} turned into overnight")))
        .collect()
}

fn colour(demo: &Demo) -> Vec<Seed> {
    demo.values("strength").into_iter().map(|(file, start, end, value)| demo.replace(&file, start, end, "blue", format!("{value} turned into blue"))).collect()
}

/// Sends a part away in a step of its own before its first fitting, in a file where it is fitted for good.
fn away(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for act in demo.acts().into_iter().filter(|act| act.verb == "fit") {
        let id = id_of(&act.target).to_owned();
        let text = &demo.files[&act.file];
        let is_part = demo.files.iter().any(|(file, text)| {
            file.split('/').next() == act.file.split('/').next() && text.find("\nparts:").is_some_and(|at| text[at..].contains(&format!("\n  {id}:")))
        });
        let Some((step, _)) = demo.step_at(&act.file, act.start) else { continue };
        if !is_part || text.contains("\naway:") {
            continue;
        }
        let id_of_step = text[step..].split("{#").nth(1).and_then(|rest| rest.split([' ', '}']).next()).unwrap_or_default();
        let procedure = act.file.split('/').nth(1).unwrap().trim_end_matches(".md");
        let head_end = text[3..].find("\n---").unwrap() + 4;
        let entry = format!("away: {{{id}: {{because: plating, finish_in: {procedure}#{id_of_step}}}}}\n");
        let first_step = demo.steps(&act.file)[0].0;
        let heading_end = text[first_step..].find('\n').unwrap() + first_step + 1;
        let sent = format!("\n[Send it to the plater](send:{id}).\n");
        let spoilt = format!("{}{entry}{}{sent}{}", &text[..head_end], &text[head_end..heading_end], &text[heading_end..]);
        let at = act.start + entry.len() + sent.len();
        seeds.push(Seed { file: act.file.clone(), lines: vec![line_of(&spoilt, at)], text: spoilt, what: format!("{id} sent away before it is fitted") });
    }
    seeds
}

fn variant_removed(demo: &Demo) -> Vec<Seed> {
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

fn locker_before_stop(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for act in demo.acts().into_iter().filter(|act| act.verb == "apply" && act.target.contains("locker@")) {
        let with = format!("[{}]({}:{}). [Enough for today](stop:). Then go on,", act.words, act.verb, act.target);
        seeds.push(demo.replace(&act.file, act.start, act.end, &with, format!("a stop behind {}", act.target)));
    }
    seeds
}

fn covered_early(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("covers") {
        let inner = value.trim_start_matches('[').trim_end_matches(']');
        for covered in inner.split(", ") {
            let text = &demo.files[&file];
            let cover = text[..start].rfind("\n  ").map(|at| text[at + 3..].split(':').next().unwrap_or("").to_owned()).unwrap_or_default();
            let folder = file.split('/').next().unwrap();
            let acts = demo.acts();
            let fits = acts.iter().find(|act| act.file.starts_with(folder) && act.verb == "fit" && id_of(&act.target) == cover);
            let done = acts.iter().rfind(|act| act.file.starts_with(folder) && matches!(act.verb.as_str(), "torque" | "measure" | "align") && id_of(&act.target) == covered);
            let (Some(fits), Some(done)) = (fits, done) else { continue };
            if fits.file == done.file && done.start < fits.start {
                // The finishing act goes behind the cover.
                let text = &demo.files[&fits.file];
                let spoilt = format!(
                    "{}{}{}{} [{}]({}:{}){}",
                    &text[..done.start],
                    done.words,
                    &text[done.end..fits.start],
                    &text[fits.start..fits.end],
                    done.words,
                    done.verb,
                    done.target,
                    &text[fits.end..]
                );
                let at = spoilt.find(&format!("](fit:{cover})")).unwrap();
                seeds.push(Seed { file: fits.file.clone(), lines: vec![line_of(&spoilt, at)], text: spoilt, what: format!("{covered} finished behind {cover}") });
            }
        }
        let _ = end;
    }
    seeds
}

fn cure_skipped(demo: &Demo) -> Vec<Seed> {
    let acts = demo.acts();
    let mut seeds = Vec::new();
    for wait in acts.iter().filter(|act| act.verb == "wait") {
        let text = &demo.files[&wait.file];
        let of = text.find(&format!("\n  {}:", wait.target)).map(|at| text[at..].split("of: [").nth(1).unwrap_or("").split(']').next().unwrap_or("").to_owned());
        let beads = of.as_deref().unwrap_or("").split(", ").any(|id| text.find("\nbeads:").is_some_and(|at| text[at..].contains(&format!("  {id}:"))));
        let fluid = acts.iter().find(|act| act.file == wait.file && act.verb == "fill" && act.start > wait.start);
        if let (true, Some(fluid)) = (beads, fluid) {
            let mut seed = drop_act(demo, wait);
            seed.lines.push(line_of(text, fluid.start));
            seeds.push(seed);
        }
    }
    seeds
}

const UNITS: [&str; 9] = [" N·m", " mm", " °C", " mL", " bar", " N", " min", " h", " L"];

fn unit_left_out(demo: &Demo) -> Vec<Seed> {
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

fn range_reversed(demo: &Demo) -> Vec<Seed> {
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

fn example_off(demo: &Demo) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("gives") {
        let number: f64 = value.trim_end_matches(" mm").parse().unwrap();
        for off in [-0.1, 0.1] {
            seeds.push(demo.replace(&file, start, end, &format!("{:.2} mm", number + off), format!("{value} off by {off} mm")));
        }
    }
    seeds
}

fn pull_off(demo: &Demo) -> Vec<Seed> {
    let pulls = demo.values("spec").into_iter().filter(|(_, _, _, value)| value.ends_with(" N"));
    pulls.flat_map(|(file, start, end, value)| [("200–300 N", "ten times"), ("2–3 N", "a tenth of")].map(|(new, what)| demo.replace(&file, start, end, new, format!("{what} {value}")))).collect()
}

fn link_broken(demo: &Demo) -> Vec<Seed> {
    demo.find("](see:")
        .into_iter()
        .map(|(file, at)| {
            let text = &demo.files[&file];
            let end = at + text[at..].find(')').unwrap();
            demo.replace(&file, at, end, &format!("{}x", &text[at..end]), format!("{}x", &text[at + 2..end]))
        })
        .collect()
}

fn wrench_gone(demo: &Demo) -> Vec<Seed> {
    let text = &demo.files["shop.yaml"];
    let mut seeds = Vec::new();
    for (at, _) in text.match_indices("kind: torque-wrench") {
        let start = text[..at].rfind('\n').map_or(0, |n| n + 1);
        let end = text[at..].find('\n').map_or(text.len(), |e| at + e + 1);
        let mut seed = demo.replace("shop.yaml", start, end, "", text[start..at].trim().split(':').next().unwrap_or("").to_owned());
        // The finding stands at a fastener that has no wrench any more.
        seed.lines = vec![0];
        seeds.push(seed);
    }
    seeds
}

/// Multiplies every torque of a fastener.
fn torques(demo: &Demo, factor: f64) -> Vec<Seed> {
    let mut seeds = Vec::new();
    for (file, start, end, value) in demo.values("torque").into_iter().filter(|(file, _, _, value)| file != "manual.yaml" && value.contains("N·m")) {
        seeds.push(demo.replace(&file, start, end, &scaled(&value, factor), format!("{value} times {factor:.3}")));
    }
    seeds
}

/// Multiplies the lengths that something is checked by.
fn lengths(demo: &Demo, factor: f64) -> Vec<Seed> {
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
