//! A finished procedure beside its recording, from end to end: the demo's worm shaft and its carrier, with invented captions.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes its own folders")]

mod demo;

use benchleaf::recording::read_captions;
use demo::Demo;
use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

/// Said rightly at 11:00 and 13:30, wrongly at 11:45 (which the demo corrects), a promise and a value that is nowhere.
const WORM: &str = "WEBVTT\n\n01:50.000 --> 01:54.000\nWarm them to one hundred and ten degrees celsius.\n\n08:20.000 --> 08:24.000\nA target of nought point oh four millimetres.\n\n11:43.000 --> 11:48.000\nand take the cap bolts to forty-two newton metres\n\n12:30.000 --> 12:34.000\nleave the seal out for now\n\n13:30.000 --> 13:34.000\nanywhere from twenty to thirty newtons\n\n14:00.000 --> 14:03.000\nabout five thou there\n";

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(folder).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn compare(demo: &Demo, captions: &str, further: &[&str]) -> (Option<i32>, String) {
    demo.write("film.vtt", captions);
    let mut arguments = vec!["recording", "compare", "worm-shaft-preload", "film.vtt"];
    arguments.extend(further);
    let run = run(demo.path(), &arguments);
    assert_eq!(text(&run.stderr), "");
    (run.status.code(), text(&run.stdout))
}

#[test]
fn what_is_said_is_set_beside_what_is_listed() {
    let demo = Demo::copy();
    let (code, json) = compare(&demo, WORM, &["--format", "json"]);
    assert_eq!(code, Some(0), "the one difference is corrected: {json}");
    let report: Value = serde_json::from_str(&json).unwrap();
    assert_eq!((report["heard"].as_u64(), report["as_listed"].as_u64()), (Some(6), Some(3)), "{json}");
    let difference = &report["said_differently"][0];
    assert_eq!((difference["said"]["at"].as_str(), difference["listed"][0]["of"].as_str(), difference["corrected"].as_bool()), (Some("11:45"), Some("cap-bolt.torque"), Some(true)));
    assert_eq!(report["said_differently"].as_array().unwrap().len(), 1);
    assert_eq!(report["said_not_listed"][0]["readings"][0], "5 thou");
    assert_eq!(report["said_not_listed"][0]["seconds"], 840);
    assert_eq!(report["compare_by_eye"][0]["listed"][0]["of"], "worm-seal.left");
    let silent: Vec<&str> = report["listed_not_said"].as_array().unwrap().iter().map(|one| one["listed"]["of"].as_str().unwrap()).collect();
    assert!(silent.contains(&"warm-bearings.cool") && !silent.contains(&"warm-bearings.to") && !silent.contains(&"cap-bolt.torque"), "{silent:?}");
}

#[test]
fn a_difference_without_a_correction_stops() {
    let demo = Demo::copy();
    demo.replace("hb-2/worm-shaft-preload.md", ", corrections: [{at: '11:45', said: 42 N·m, of: cap-bolt.torque}]", "");
    let (code, told) = compare(&demo, WORM, &[]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("Said differently\n   11:45  value: “forty-two newton metres” (42 N·m), step cap\n        listed: Cap bolt 24 N·m (cap-bolt.torque)\n"), "{told}");
    assert!(told.contains("corrections: [{at: '11:45', said: …, of: cap-bolt.torque}]"), "{told}");
    // The same value in the other unit, as a speaker rounds it: 24 N·m is 17.7 lbf·ft (NIST SP 811).
    let (code, told) = compare(&demo, &WORM.replace("forty-two newton metres", "seventeen point seven foot-pounds"), &[]);
    assert_eq!(code, Some(0), "{told}");
    assert!(!told.contains("Said differently"), "{told}");
    // A slip of the unit is a difference.
    assert_eq!(compare(&demo, &WORM.replace("forty-two newton metres", "twenty-four foot-pounds"), &[]).0, Some(1));
}

#[test]
fn a_recording_shared_by_procedures_is_divided_by_their_steps() {
    let demo = Demo::copy();
    // 52:10 is in the pinion's step, 0:40 in those of the strip, 28:50 and later in those of the gearcase.
    demo.write("film.vtt", "WEBVTT\n\n52:10.000 --> 52:14.000\nseventy-eight newton metres on the nut\n\n00:40.000 --> 00:44.000\nfive hundred and five thou\n");
    let run = run(demo.path(), &["recording", "compare", "tarn-18/pinion-height-and-backlash", "film.vtt", "--format", "json"]);
    let report: Value = serde_json::from_slice(&run.stdout).unwrap();
    assert_eq!(report["as_listed"].as_u64(), Some(1), "{report}");
    let other = run_json(&demo, &["recording", "compare", "close-gearcase", "film.vtt", "--format", "json"]);
    assert_eq!(other["elsewhere"].as_u64(), Some(2), "{other}");
}

fn run_json(demo: &Demo, arguments: &[&str]) -> Value {
    serde_json::from_slice(&run(demo.path(), arguments).stdout).unwrap()
}

#[test]
fn the_description_holds_chapters_parts_tools_sources_and_corrections() {
    let demo = Demo::copy();
    let told = text(&run(demo.path(), &["recording", "description", "hb-2/worm-shaft-preload"]).stdout);
    for line in [
        "HB-2 worm shaft on the bench", "0:00 Beginning", "10:30 Tighten the cap", "6 × Cap bolt, M8 × 1.25, used again if it passes",
        "2 × Taper bearing of the worm shaft, 30 × 55 × 17 mm, from Worm shaft bearing kit (invented)", "Feeler gauge", "Winch gear oil",
        "Quillane HB-2 data sheet (invented) (edition 1, page 6, 2017-02-14, maker)", "11:45 “42 N·m” is said; the manual has Cap bolt, torque: 24 N·m (17.7 lbf·ft)",
    ] {
        assert!(told.lines().any(|have| have == line), "{line}\n{told}");
    }
    assert!(told.contains("The maker's service data, local codes and a qualified person decide."));
    // Over an hour, every chapter has its hours; all procedures of the film are in it.
    let long = text(&run(demo.path(), &["recording", "description", "close-gearcase"]).stdout);
    assert!(long.lines().any(|line| line == "0:42:30 Read the gap and choose the shim"), "{long}");
}

#[test]
fn corrections_are_captions_that_read_back() {
    let demo = Demo::copy();
    let file = text(&run(demo.path(), &["recording", "corrections", "worm-shaft-preload"]).stdout);
    assert!(file.starts_with("WEBVTT\n\n"), "{file}");
    let captions = read_captions(file.as_bytes()).unwrap();
    assert_eq!((captions.cues.len(), captions.faults.len()), (1, 0));
    assert_eq!(captions.cues[0].span, Some((705_000, 713_000)));
    assert_eq!(captions.cues[0].text, "Correction: “42 N·m” is said; the manual has Cap bolt, torque: 24 N·m (17.7 lbf·ft)");
    // Words that look like timings or spans stay words.
    demo.replace("hb-2/worm-shaft-preload.md", "said: 42 N·m", "said: '00:01.000 --> 00:02.000 <b>&'");
    let file = text(&run(demo.path(), &["recording", "corrections", "worm-shaft-preload"]).stdout);
    let captions = read_captions(file.as_bytes()).unwrap();
    assert_eq!((captions.cues.len(), captions.faults.len()), (1, 0), "{file}");
    assert!(captions.cues[0].text.contains("00:01.000 --> 00:02.000 <b>&"), "{file}");
}

#[test]
fn gaps_are_the_spans_without_a_step() {
    let demo = Demo::copy();
    let told = run_json(&demo, &["recording", "gaps", "close-gearcase", "--format", "json"]);
    let spans: Vec<(&str, &str)> = told["without_a_step"].as_array().unwrap().iter().map(|gap| (gap["from"].as_str().unwrap(), gap["to"].as_str().unwrap())).collect();
    // The pinion nut is tightened at 52:05–52:40; the next step begins at 54:00.
    assert!(spans.contains(&("52:40", "54:00")), "{spans:?}");
    assert!(!spans.contains(&("52:05", "52:40")), "{spans:?}");
}

#[test]
fn the_page_shows_what_the_manual_has_instead() {
    let demo = Demo::copy();
    let site = tempfile::TempDir::new().unwrap();
    let into = site.path().join("site");
    assert!(run(demo.path(), &["bind", "--into", into.to_str().unwrap()]).status.success());
    let page = std::fs::read_to_string(into.join("hb-2/worm-shaft-preload/index.html")).or_else(|_| std::fs::read_to_string(into.join("hb-2/worm-shaft-preload.html"))).unwrap();
    let words: String = page.replace('\u{a0}', " ").replace(['\u{2068}', '\u{2069}'], "");
    assert!(words.contains("The recording says 42 N·m for Cap bolt, torque. This manual has 24 N·m (17.7 lbf·ft)."), "the correction is not on the page");
    // At the step it concerns stands a mark that leads there; a film of the whole machine is corrected where each value is.
    assert!(words.contains("<a href=\"#page.recording\">says 42 N·m, which is wrong</a>"), "the step has no mark");
    let of = |name: &str| std::fs::read_to_string(into.join(format!("tarn-18/{name}.html"))).unwrap().replace('\u{a0}', " ").replace(['\u{2068}', '\u{2069}'], "");
    let (head, pinion, other) = (of("head-valves-camshaft"), of("pinion-height-and-backlash"), of("belt-and-flywheel"));
    assert!(head.contains("This manual has stage 1: 20 N·m (14.8 lbf·ft), stage 2: 38 N·m (28 lbf·ft), stage 3: 90°.") && !head.contains("says 70 N·m"));
    assert!(pinion.contains("says 70 N·m") && !pinion.contains("says 83 N·m") && !other.contains("The recording says"));
}

/// At a moment that no step is shown at, a correction goes to the first step that works to the value: not to the one that takes the nut
/// off.
#[test]
fn a_correction_without_a_step_goes_to_the_value() {
    let demo = Demo::copy();
    demo.replace("hb-2/machine.yaml", "{at: '26:20', said: 105 N·m", "{at: '0:01', said: 105 N·m");
    let site = tempfile::TempDir::new().unwrap();
    let into = site.path().join("site");
    assert!(run(demo.path(), &["bind", "--into", into.to_str().unwrap()]).status.success());
    let of = |name: &str| std::fs::read_to_string(into.join(format!("hb-2/{name}.html"))).unwrap().replace('\u{a0}', " ").replace(['\u{2068}', '\u{2069}'], "");
    let page = of("output-shaft-and-hub-nut");
    let marked: Vec<&str> = page.split("<section class=\"step\" id=\"").skip(1).filter(|step| step.contains("says 105 N·m, which is wrong")).collect();
    assert!(marked.len() == 1 && marked[0].contains("tighten the old nut to its trial torque") && page.contains("The recording says 105 N·m"));
    assert!(!of("housing-and-cups").contains("105 N·m"));
}

#[test]
fn what_can_not_be_done_is_told() {
    let demo = Demo::copy();
    demo.write("film.vtt", WORM);
    for (arguments, says) in [
        (&["recording", "compare", "worm-shaft-preloat", "film.vtt"][..], "did you mean"), (&["recording", "compare", "worm-shaft-preload", "none.vtt"], "can't be read"),
        (&["recording", "compare", "worm-shaft-preload", "hb-2"], "can't be read"), (&["recording", "gaps", "zzz"], "MACHINE/PROCEDURE"),
    ] {
        let refused = run(demo.path(), arguments);
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}");
        assert!(text(&refused.stderr).contains(says), "{}", text(&refused.stderr));
    }
    demo.replace("hb-2/worm-shaft-preload.md", "video: {", "note_video: {");
    let refused = run(demo.path(), &["recording", "description", "worm-shaft-preload"]);
    assert!(text(&refused.stderr).contains("names no recording"), "{}", text(&refused.stderr));
}

#[test]
fn a_recording_put_up_again_moves_every_moment_and_what_was_given_is_told() {
    let demo = Demo::copy();
    let described = |demo: &Demo| text(&run(demo.path(), &["recording", "description", "hb-2/worm-shaft-preload"]).stdout);
    let before = described(&demo);
    assert!(before.contains("\n10:30 Tighten the cap") && before.contains("\n11:45 "), "{before}");
    demo.replace("hb-2/worm-shaft-preload.md", "corrections: [{at: '11:45'", "starts_at: '0:40', cut: '0:10', corrections: [{at: '11:45'");
    let after = described(&demo);
    assert!(after.contains("\n11:00 Tighten the cap") && after.contains("\n12:15 ") && !after.contains("\n11:45 "), "{after}");
    // The captions of the new film are held against the moved steps.
    let moved = WORM.replace("11:43.000 --> 11:48.000", "12:13.000 --> 12:18.000");
    let (code, told) = compare(&demo, &moved, &[]);
    assert_eq!(code, Some(0), "{told}");
}

#[test]
fn the_description_ends_with_what_stays_open_and_tells_what_was_given() {
    let demo = Demo::copy();
    let told = text(&run(demo.path(), &["recording", "description", "tarn-18/pinion-height-and-backlash"]).stdout);
    let open = told.split("\nOpen after this part\n").nth(1);
    // All procedures of the machine are in one recording: nothing is finished after it.
    assert_eq!(open, None, "{told}");
    demo.replace("tarn-18/pinion-height-and-backlash.md", "pinion-kit: {name: Pinion nut and shim box (invented), ", "pinion-kit: {name: Pinion nut and shim box (invented), got: given, ");
    let told = text(&run(demo.path(), &["recording", "description", "tarn-18/pinion-height-and-backlash"]).stdout);
    assert!(told.lines().any(|line| line.contains("from Pinion nut and shim box (invented), given to us")), "{told}");
}

#[test]
fn the_shots_of_a_procedure_name_what_is_seen_from_near() {
    let demo = Demo::copy();
    let run = run(demo.path(), &["recording", "shots", "hb-2/worm-shaft-preload"]);
    let told = text(&run.stdout);
    assert_eq!(run.status.code(), Some(0), "{}", text(&run.stderr));
    for wanted in ["Shots of ", "Lie ready: tools", "  [ ] 1. ", "near: ", "the scale of Click torque wrench 5–25 N·m at 24 N·m", "  [ ] Click torque wrench 5–25 N·m", "the instrument as it is read"] {
        assert!(told.contains(wanted), "{wanted}: {told}");
    }
}

/// What the hand turns and puts on stands at its shot, and between two takes what has to be waited for: who cuts the film must
/// know that a day lies there.
#[test]
fn shots_name_spanners_and_compounds_and_the_waits_between_takes() {
    let demo = Demo::copy();
    let shots = |procedure: &str| text(&run(demo.path(), &["recording", "shots", procedure]).stdout);
    let belt = shots("tarn-18/belt-and-flywheel");
    let of_shot = |told: &str, number: u32| told.split(&format!("\n  [ ] {number}. ")).nth(1).unwrap().split("\n  [ ] ").next().unwrap().to_owned();
    assert!(belt.contains("Lie ready: spanners, sockets and keys\n  [ ] 4 mm hex (Stator base screw)\n"), "{belt}");
    let cam = of_shot(&belt, 6);
    assert!(cam.contains("at hand: 13 mm hex (Cam sprocket bolt)\n") && cam.contains("at hand: Medium-strength thread locker\n") && !cam.contains("4 mm hex"), "{cam}");
    assert!(of_shot(&belt, 7).ends_with("\n  ==== wait before the next take: ≥ 24 h: Locker cures at stator and cam bolt, counted from shot 6\n"), "{belt}");
    // A wait that is over at the first act of a step lies before its shot; one between two acts within it.
    let brake = shots("hb-2/wet-brake-pack");
    assert!(brake.contains("  ==== wait before the next take: ≥ 12 h: Friction plates under oil, counted from shot 2\n  [ ] 5. "), "{brake}");
    assert!(of_shot(&brake, 2).contains("at hand: Winch gear oil"), "{brake}");
    let start = shots("tarn-18/first-start");
    assert!(of_shot(&start, 12).contains("      ==== wait within this shot: ≥ 6 h: Engine cools right through, counted from shot 10"), "{start}");
    let described = text(&run(demo.path(), &["recording", "description", "tarn-18/belt-and-flywheel"]).stdout);
    for lines in ["\nSpanners, sockets and keys\n4, 5, 10, 12, 13, 16, 19, 21, 24, 32 mm hex\n", "\nWhat the work waits for, off camera\n≥ 24 h: Crankcase sealant cures\n"] {
        assert!(described.contains(lines), "{lines}\n{described}");
    }
}

/// Who was given a seal or a bearing says so, as of a part.
#[test]
fn a_bearing_that_was_given_is_told_in_the_description() {
    let demo = Demo::copy();
    demo.replace("hb-2/worm-shaft-preload.md", "size: 30x55x17 mm\n", "size: 30x55x17 mm\n    got: given\n");
    let told = text(&run(demo.path(), &["recording", "description", "hb-2/worm-shaft-preload"]).stdout);
    assert!(told.lines().any(|line| line.starts_with("2 × Taper bearing") && line.ends_with(", given to us")), "{told}");
}

/// So does who was given or lent a fastener, a wrench or a locker.
#[test]
fn a_fastener_a_tool_and_a_material_that_were_given_are_told_in_the_description() {
    let demo = Demo::copy();
    demo.replace("hb-2/worm-shaft-preload.md", "    name: Cap bolt\n", "    name: Cap bolt\n    got: given\n");
    demo.replace("shop.yaml", "  click-wrench:    {name: Click torque wrench 5–25 N·m, ", "  click-wrench:    {name: Click torque wrench 5–25 N·m, got: lent, ");
    demo.replace("shop.yaml", "  grease:          {", "  grease:          {got: bought, ");
    let told = text(&run(demo.path(), &["recording", "description", "hb-2/worm-shaft-preload"]).stdout);
    for (begins, ends) in [("6 × Cap bolt, M8", ", given to us"), ("Click torque wrench 5–25 N·m", ", lent to us"), ("", "grease, bought")] {
        assert!(told.lines().any(|line| line.starts_with(begins) && line.ends_with(ends)), "{begins}: {told}");
    }
}

/// Two steps: the bolt is run up in the first and tightened nowhere; locker goes on in the first and is named as the second begins.
#[test]
fn a_torque_that_nothing_tightens_is_not_missed_and_a_sentence_may_run_on_into_the_next_step() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    std::fs::create_dir(folder.path().join("pump")).unwrap();
    write("manual.yaml", "title: Little\npublisher: Example club (invented)\nlanguage: en\nprofile: working\n");
    write("shop.yaml", "materials:\n  glue: {name: Medium-strength locker, kind: thread-locker, strength: medium}\n  weak: {name: Low-strength locker, kind: thread-locker, strength: low}\n");
    write("pump/machine.yaml", "name: Pump\nmaker: Example works (invented)\nrecordings:\n  film: {address: 'https://films.example/pump', title: Pump, length: '10:00'}\nfasteners:\n  foot-bolt: {name: Foot bolt, count: 4, thread: M12x1.75, class: 8.8, role: clamp, threads: dry, torque: 75 N·m}\n  cap-bolt: {name: Cap bolt, count: 4, thread: M6x1.0, class: 8.8, role: cover, threads: locker, locker: glue, torque: 9 N·m}\n  set-screw: {name: Set screw, count: 1, thread: M6x1.0, role: adjuster, threads: locker, locker: weak, torque: 4 N·m}\n");
    write("pump/build.md", "---\ntitle: Build\nrevision: 1\ndate: 2026-09-14\nvideo: film\n---\n\n## Base {#base at=1:00}\n\n[Run the foot bolts up](start:foot-bolt). [Locker on the cap bolts](apply:glue@cap-bolt).\n\n## Cap {#cap at=2:00}\n\n[Tighten the cap bolts](torque:cap-bolt). [Locker on the screw](apply:weak@set-screw) and [tighten it](torque:set-screw).\n");
    write("film.vtt", "WEBVTT\n\n02:01.000 --> 02:04.000\nso that was medium strength thread locker\n\n02:30.000 --> 02:33.000\nnine newton metres on the cap\n\n02:50.000 --> 02:53.000\nand here high strength thread locker\n");
    let report: Value = serde_json::from_str(&text(&run(folder.path(), &["recording", "compare", "pump/build", "film.vtt", "--manual", ".", "--format", "json"]).stdout)).unwrap();
    let of = |list: &str| report[list].as_array().unwrap().iter().map(|one| one["listed"]["of"].as_str().unwrap_or_default().to_owned()).collect::<Vec<_>>();
    assert_eq!(of("listed_not_said"), ["set-screw.torque"], "{report}");
    assert_eq!(report["said_not_listed"].as_array().unwrap().len(), 0, "{report}");
    // What no step puts on is still told.
    assert_eq!(report["said_differently"].as_array().unwrap().len(), 1, "{report}");
    assert_eq!(report["said_differently"][0]["listed"][0]["of"], "weak.strength", "{report}");
}
