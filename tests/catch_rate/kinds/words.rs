//! Mistakes in what is named and said: ids, links, notices, tools, vague words.

use super::id_of;
use crate::demo::{Demo, Seed, line_of};

pub(super) fn id_misspelt(demo: &Demo) -> Vec<Seed> {
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

/// The spans of the notices of a file: from `> **` to the blank line.
fn notices(demo: &Demo, file: &str) -> Vec<(usize, usize)> {
    let text = &demo.files[file];
    text.match_indices("\n> **")
        .map(|(at, _)| (at + 1, text[at + 1..].find("\n\n").map_or(text.len(), |end| at + 1 + end + 2)))
        .collect()
}

pub(super) fn notice_removed(demo: &Demo) -> Vec<Seed> {
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

pub(super) fn notice_moved(demo: &Demo) -> Vec<Seed> {
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

pub(super) fn overnight(demo: &Demo) -> Vec<Seed> {
    ["time", "cool", "working", "cure", "fixture"]
        .iter()
        .flat_map(|key| demo.values(key))
        .map(|(file, start, end, value)| demo.replace(&file, start, end, "overnight", format!("{value} turned into overnight")))
        .collect()
}

pub(super) fn colour(demo: &Demo) -> Vec<Seed> {
    demo.values("strength").into_iter().map(|(file, start, end, value)| demo.replace(&file, start, end, "blue", format!("{value} turned into blue"))).collect()
}

pub(super) fn link_broken(demo: &Demo) -> Vec<Seed> {
    demo.find("](see:")
        .into_iter()
        .map(|(file, at)| {
            let text = &demo.files[&file];
            let end = at + text[at..].find(')').unwrap();
            demo.replace(&file, at, end, &format!("{}x", &text[at..end]), format!("{}x", &text[at + 2..end]))
        })
        .collect()
}

pub(super) fn wrench_gone(demo: &Demo) -> Vec<Seed> {
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
