//! The kinds of mistake, each made at every place of the demo where it can be made; how each is made stands with its subject.

mod acts;
mod entries;
mod magnitudes;
mod order;
mod words;

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
    Kind { name: "a tightening dropped", decidable: true, compared: false, seeds: acts::tightening_dropped },
    Kind { name: "a heat moved after a seal", decidable: true, compared: false, seeds: acts::heat_after_seal },
    Kind { name: "a key put in behind its part", decidable: true, compared: false, seeds: acts::key_behind },
    Kind { name: "a seal turned round", decidable: true, compared: false, seeds: entries::seal_turned },
    Kind { name: "the closer of an open item deleted", decidable: true, compared: false, seeds: acts::closer_deleted },
    Kind { name: "a holding tool removed", decidable: true, compared: false, seeds: acts::holder_removed },
    Kind { name: "a one-time part refitted", decidable: true, compared: false, seeds: acts::refitted },
    Kind { name: "stages swapped", decidable: true, compared: false, seeds: entries::stages_swapped },
    Kind { name: "an order short of a bolt, or with one twice", decidable: true, compared: false, seeds: entries::order_broken },
    Kind { name: "an id misspelt in one place", decidable: true, compared: false, seeds: words::id_misspelt },
    Kind { name: "a value changed with no change line", decidable: true, compared: true, seeds: entries::value_changed },
    Kind { name: "a limit moved inside its spec", decidable: true, compared: false, seeds: entries::limit_inside },
    Kind { name: "a heat raised above a limit", decidable: true, compared: false, seeds: entries::heat_raised },
    Kind { name: "a notice removed that first names a protection", decidable: true, compared: false, seeds: words::notice_removed },
    Kind { name: "a notice moved below its act", decidable: true, compared: false, seeds: words::notice_moved },
    Kind { name: "a duration turned into ‘overnight’", decidable: true, compared: false, seeds: words::overnight },
    Kind { name: "a strength turned into a colour", decidable: true, compared: false, seeds: words::colour },
    Kind { name: "a part used while away", decidable: true, compared: false, seeds: acts::away },
    Kind { name: "a variant's value removed", decidable: true, compared: false, seeds: entries::variant_removed },
    Kind { name: "a locker put on before a stop", decidable: true, compared: false, seeds: acts::locker_before_stop },
    Kind { name: "a cover closed over open work", decidable: true, compared: false, seeds: acts::covered_early },
    Kind { name: "a fluid poured before the cure", decidable: true, compared: false, seeds: acts::cure_skipped },
    Kind { name: "a solvent put on for a locker", decidable: true, compared: false, seeds: order::solvent_for_locker },
    Kind { name: "a solvent put on behind a locker", decidable: true, compared: false, seeds: order::solvent_behind_locker },
    Kind { name: "a cover taken off for a run", decidable: true, compared: false, seeds: order::uncovered_run },
    Kind { name: "a fluid poured after the run", decidable: true, compared: false, seeds: order::filled_after_run },
    Kind { name: "a soak begun, or over, after its part went in", decidable: true, compared: false, seeds: order::soak_after_fit },
    Kind { name: "a heat begun after its bearing went in", decidable: true, compared: false, seeds: order::heat_after_fit },
    Kind { name: "a heat over before its bearing goes in", decidable: true, compared: false, seeds: order::heat_over_early },
    Kind { name: "a live part left on", decidable: true, compared: false, seeds: order::live_left_on },
    Kind { name: "a held part left out", decidable: true, compared: false, seeds: order::held_left_out },
    Kind { name: "a right-hand thread tightened anticlockwise in words", decidable: true, compared: false, seeds: order::tightened_the_wrong_way },
    Kind { name: "a unit left out", decidable: true, compared: false, seeds: entries::unit_left_out },
    Kind { name: "a range reversed", decidable: true, compared: false, seeds: entries::range_reversed },
    Kind { name: "a link to nowhere", decidable: true, compared: false, seeds: words::link_broken },
    Kind { name: "a shim's worked example off by a tenth", decidable: true, compared: false, seeds: entries::example_off },
    Kind { name: "a cord's pull off by a factor of ten", decidable: true, compared: false, seeds: entries::pull_off },
    Kind { name: "a wrench taken out of the shop", decidable: true, compared: false, seeds: words::wrench_gone },
    Kind { name: "N·m read as lbf·ft", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 1.355_817_948_331_400_4) },
    Kind { name: "lbf·ft read as N·m", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 1.0 / 1.355_817_948_331_400_4) },
    Kind { name: "a factor of ten too much", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 10.0) },
    Kind { name: "a factor of ten too little", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 0.1) },
    Kind { name: "kgf·m read as N·m", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 1.0 / 9.806_65) },
    Kind { name: "lbf·in read as N·m", decidable: false, compared: false, seeds: |demo| magnitudes::torques(demo, 8.850_745_791) },
    Kind { name: "inch read as mm", decidable: false, compared: false, seeds: |demo| magnitudes::lengths(demo, 1.0 / 25.4) },
    Kind { name: "mm read as inch", decidable: false, compared: false, seeds: |demo| magnitudes::lengths(demo, 25.4) },
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
