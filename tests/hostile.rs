//! Arbitrary input can't hurt: whatever stands in a file, the program ends with findings or with sound pages that do
//! nothing by themselves, and does no more work than the input asks for.
//!
//! Few cases of each kind run by themselves; `BENCHLEAF_CASES=5000 cargo test --test hostile` runs as many as it says. The
//! same ways in are targets for a fuzzer in `fuzz/`. What is checked of pages is what html5ever and roxmltree find in them
//! (see `fuzz/entries/inert.rs`). Work is measured as bytes asked of the allocator, against what the demo itself takes:
//! a busy machine changes nothing of that.

#![cfg(unix)]
#![expect(clippy::disallowed_methods, reason = "a test makes the folders it spoils and asks how long it may run")]
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]

mod demo;
#[path = "../fuzz/entries/mod.rs"]
mod entries;
mod slips;

use cap::Cap;
use image::{DynamicImage, ImageFormat, RgbImage};
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{TestCaseError, TestRunner};
use slips::{after, slip, slipped};
use std::alloc::System;
use std::fmt::Debug;
use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::sync::{Mutex, PoisonError};

#[global_allocator]
static MEMORY: Cap<System> = Cap::new(System, usize::MAX);

/// One at a time: the memory is counted for all threads.
static TURN: Mutex<()> = Mutex::new(());

/// Live memory at most, in bytes; the pixels of the largest photograph that is let through take most of it.
const MOST_MEMORY: usize = 1 << 30;

/// Bytes asked for by inspecting and publishing the demo, and how many times that a spoilt manual may take.
const TIMES: usize = 12;

/// How many bytes are asked of the allocator, all in all, while something is done.
fn work(what: impl FnOnce()) -> usize {
    let before = MEMORY.total_allocated();
    what();
    MEMORY.total_allocated() - before
}

/// Runs a property: `cases` times, or as often as the environment asks for.
fn holds<S: Strategy>(cases: u32, strategy: &S, property: impl Fn(&S::Value)) where S::Value: Debug {
    let _turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
    let cases = std::env::var("BENCHLEAF_CASES").ok().and_then(|text| text.parse().ok()).unwrap_or(cases);
    MEMORY.set_limit(MOST_MEMORY).unwrap();
    let reference = work(|| entries::manual(&demo::original()));
    let config = ProptestConfig { cases, failure_persistence: None, max_shrink_iters: 2000, ..ProptestConfig::default() };
    let result = TestRunner::new(config).run(strategy, |input| {
        let took = work(|| property(&input));
        if took > reference.saturating_mul(TIMES) {
            return Err(TestCaseError::fail(format!("{took} bytes were asked for; the demo takes {reference}")));
        }
        Ok(())
    });
    result.unwrap_or_else(|error| panic!("{error}"));
}

/// The demo's files with an ending.
fn seeds(ending: &str) -> Vec<Vec<u8>> {
    let files = demo::files(&demo::original());
    let seeds: Vec<Vec<u8>> = files.iter().filter(|path| path.extension().is_some_and(|own| own == ending)).map(|path| fs::read(path).unwrap()).collect();
    assert!(!seeds.is_empty(), "{ending}");
    seeds
}

/// The part of each procedure that is asked for: its front matter or its body.
fn halves(body: bool) -> Vec<Vec<u8>> {
    let parts = seeds("md").into_iter().map(|bytes| {
        let text = String::from_utf8(bytes).unwrap();
        let (head, rest) = text.strip_prefix("---\n").unwrap().split_once("\n---\n").unwrap();
        if body { rest.as_bytes().to_vec() } else { head.as_bytes().to_vec() }
    });
    parts.collect()
}

fn photographs(format: ImageFormat) -> Vec<Vec<u8>> {
    let sizes = [(1, 1), (40, 30), (700, 500)].map(|(width, height)| {
        let pixels = RgbImage::from_fn(width, height, |x, y| image::Rgb([(x % 251).to_le_bytes()[0], (y % 241).to_le_bytes()[0], (x * y % 239).to_le_bytes()[0]]));
        let mut file = Cursor::new(Vec::new());
        DynamicImage::from(pixels).write_to(&mut file, format).unwrap();
        file.into_inner()
    });
    sizes.to_vec()
}

/// Words about values, as fields and prose have them.
fn wordings() -> Vec<Vec<u8>> {
    let fixed = [
        "75 N·m", "70–80 N·m", "75 ± 5 N·m", "min 0.10 mm", "max 150 °C", "≥ 12 h", "70 to 80 N m", "12 min", "1/4 in", "24 N·m (17.7 lbf·ft)", "1 1/2 in", "9 lbs", "22,5 N·m", "1 000 mm",
        "Torque it to 25–30 N·m, then 90°, and wait 12 h at 20 °C; not 9 lbs.", "0.000000000000000001 mm", "-18 °C", "1.5e3 mm", "50:1", "30x42x7 mm",
    ];
    fixed.iter().map(|text| text.as_bytes().to_vec()).collect()
}

#[test]
fn any_words_about_values() {
    holds(3000, &after(wordings()), |bytes| entries::quantity(bytes));
}

#[test]
fn any_letters_at_all() {
    holds(1000, &prop_oneof![".{0,80}", "[-0-9.,/ ±–()a-zA-Z·°µ\u{ff10}-\u{ff19}]{0,40}"].prop_map(String::into_bytes), |bytes| entries::quantity(bytes));
}

#[test]
fn any_front_matter() {
    holds(48, &after(halves(false)), |bytes| entries::front_matter(bytes));
}

#[test]
fn any_body() {
    holds(48, &after(halves(true)), |bytes| entries::body(bytes));
}

#[test]
fn any_procedure() {
    holds(32, &after(seeds("md")), |bytes| entries::procedure(bytes));
}

#[test]
fn any_yaml() {
    holds(16, &after(seeds("yaml")), |bytes| entries::yaml(bytes));
}

#[test]
fn any_build_record() {
    holds(48, &after(seeds("json")), |bytes| entries::record(bytes));
}

#[test]
fn any_drawing() {
    holds(96, &after(seeds("svg")), |bytes| entries::picture("svg", bytes));
}

#[test]
fn any_photograph() {
    for (ending, format) in [("jpg", ImageFormat::Jpeg), ("png", ImageFormat::Png), ("webp", ImageFormat::WebP)] {
        holds(24, &after(photographs(format)), |bytes| entries::picture(ending, bytes));
    }
}

const CAPTIONS: [&str; 3] = [
    "WEBVTT - bench\n\nSTYLE\n::cue { color: red }\n\nNOTE words\n\n1\n00:00:01.000 --> 00:00:04.500 align:start\n<v Ann>Torque the nut to <b>seventy-five</b> newton metres.\n\n00:05.000 --> 00:09.000\nThen fifteen minutes, not fifty.\n",
    "1\n00:00:01,000 --> 00:00:04,500\nTorque the nut to 75 N·m.\n\n2\n00:00:05,000 --> 00:00:09,000\nThen a quarter turn, medium-strength locker.\n",
    "0:12 Torque the nut\n8:20 to seventy five newton metres\n1:02:03 and wait twelve hours\n",
];

#[test]
fn any_captions() {
    let seeds = CAPTIONS.map(|text| text.as_bytes().to_vec()).to_vec();
    holds(1500, &after(seeds), |bytes| entries::captions(bytes));
}

#[test]
fn any_table_of_torques() {
    let seeds = ["name;thread;torque\nHub nut;M12x1.25;75 N·m\n\"Cap; bolt\";M6x1;9.5 N·m\n", "Fastener,Size,Torque (N·m),Torque (lbf·ft)\nNut,M12x1.25,70-80,52-59\n\"a\nb\",M6,10,7.4\n"];
    holds(1000, &after(seeds.map(|text| text.as_bytes().to_vec()).to_vec()), |bytes| entries::table(bytes));
}

/// A change of the manual as a whole.
fn changes() -> impl Strategy<Value = Vec<(Index, slips::Slip)>> {
    prop::collection::vec((any::<Index>(), slip()), 1..16)
}

/// Files whose pieces are put into each other.
fn splices() -> impl Strategy<Value = Vec<(Index, Index, Index, Index, usize)>> {
    prop::collection::vec((any::<Index>(), any::<Index>(), any::<Index>(), any::<Index>(), 1..2000_usize), 0..4)
}

#[test]
fn any_manual() {
    holds(6, &(splices(), changes()), |(splices, changes)| {
        let demo = demo::Demo::copy();
        let texts: Vec<_> = demo::files(demo.path());
        for (from, at, to, place, length) in splices {
            let source = fs::read(&texts[from.index(texts.len())]).unwrap();
            let begin = at.index(source.len() + 1);
            let piece = &source[begin..(begin + length).min(source.len())];
            change(&texts[to.index(texts.len())], |mut bytes| {
                let place = place.index(bytes.len() + 1);
                bytes.splice(place..place, piece.iter().copied());
                bytes
            });
        }
        for (file, slip) in changes {
            change(&texts[file.index(texts.len())], |bytes| slipped(bytes, slip));
        }
        entries::manual(demo.path());
    });
}

fn change(path: &Path, how: impl FnOnce(Vec<u8>) -> Vec<u8>) {
    let bytes = fs::read(path).unwrap();
    fs::write(path, how(bytes)).unwrap();
}

/// The checks of this file see what they look for.
#[test]
fn the_checks_catch_what_they_are_for() {
    for page in ["<p onclick=x>", "<script>x</script>", "<a href=' java\tscript:x'>x</a>", "<img src=//elsewhere.example/x alt>", "<p style='x'>", "<svg><foreignObject/></svg>", "<iframe src=x></iframe>", "<b><i></b></i>", "<p>\u{1}</p>"] {
        let whole = format!("<!DOCTYPE html><html lang=en><head><title>x</title></head><body>{page}</body></html>");
        assert!(!entries::inert::page(whole.as_bytes()).is_empty(), "{page}");
    }
    assert_eq!(entries::inert::page(b"<!DOCTYPE html><html lang=en><head><title>x</title></head><body><a href='https://club.example/'>x</a></body></html>"), Vec::<String>::new());
    for drawing in ["<svg><script/></svg>", "<svg onload='x'/>", "<svg><use href='https://elsewhere.example/x#y'/></svg>", "<svg><rect fill='url(https://elsewhere.example/)'/></svg>", "<svg><style>@import 'x';</style></svg>", "<svg>"] {
        assert!(!entries::inert::drawing(drawing.as_bytes()).is_empty(), "{drawing}");
    }
}
