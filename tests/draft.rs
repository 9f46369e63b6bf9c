//! Starting a manual from end to end: the real program writes, and `inspect` finds nothing but the questions a draft asks and
//! what was only heard.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes its own folders")]

use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const FILM: &str = "WEBVTT\n\n00:05.000 --> 00:09.000\nThis is the pump and its four bolts, ten millimetre socket.\n\n00:10.000 --> 00:14.000\nNow set the wrench to twenty-two\n\n00:14.000 --> 00:16.000\nnewton metres.\n\n00:30.000 --> 00:34.000\nOkay, so next the seal goes in. Spring side towards the oil.\n\n00:40.000 --> 00:44.000\nAbout five thou of play, and a drop of blue thread locker.\n\n01:40.000 --> 01:43.000\nThat is fifteen newton metres, then a quarter turn.\n\n02:10.000 --> 02:13.000\nTorque those to nine and leave the other one for now.\n";

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(folder).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Runs something that must succeed.
fn good(folder: &Path, arguments: &[&str]) -> String {
    let run = run(folder, arguments);
    assert!(run.status.success(), "{arguments:?}\n{}{}", text(&run.stdout), text(&run.stderr));
    text(&run.stdout)
}

/// How often each rule is broken.
fn broken(folder: &Path) -> BTreeMap<String, usize> {
    let report: Value = serde_json::from_slice(&run(folder, &["inspect", "--format", "json"]).stdout).unwrap();
    let mut rules = BTreeMap::new();
    for finding in report["findings"].as_array().unwrap() {
        *rules.entry(finding["rule"].as_str().unwrap().to_owned()).or_insert(0) += 1;
    }
    rules
}

/// A manual with a machine, its own questions answered, as strict as can be.
fn begun() -> TempDir {
    let folder = TempDir::new().unwrap();
    good(folder.path(), &["draft", "manual", "Little manual", "--publisher", "Example club (invented)", "--today", "2026-09-14"]);
    good(folder.path(), &["draft", "machine", "Tarn 18", "--today", "2026-09-14"]);
    let machine = folder.path().join("procedures/tarn-18/machine.yaml");
    let answered = fs::read_to_string(&machine).unwrap().replace("maker: '?'", "maker: Example works (invented)").replace("kind: '?'", "kind: outboard motor");
    fs::write(machine, answered).unwrap();
    let manual = folder.path().join("procedures/manual.yaml");
    let strict = fs::read_to_string(&manual).unwrap().replace("profile: working  ", "profile: published");
    assert!(strict.contains("profile: published"));
    fs::write(manual, strict).unwrap();
    folder
}

fn procedure(folder: &Path, id: &str) -> String {
    fs::read_to_string(folder.join(format!("procedures/tarn-18/{id}.md"))).unwrap()
}

#[test]
fn a_manual_and_a_machine_hold_their_own_questions_only() {
    let folder = TempDir::new().unwrap();
    let said = good(folder.path(), &["draft", "manual", "Dave's: #1 manual", "--today", "2026-09-14"]);
    assert!(said.contains("manual.yaml: written, 1 question to answer"), "{said}");
    assert_eq!(broken(folder.path()), BTreeMap::from([("question-unanswered".to_owned(), 1)]));
    good(folder.path(), &["draft", "machine", "Tarn 18"]);
    assert_eq!(broken(folder.path()), BTreeMap::from([("question-unanswered".to_owned(), 3)]));
    assert_eq!(broken(begun().path()), BTreeMap::new());
    // The day is today's, whatever that is.
    let shop = fs::read_to_string(folder.path().join("procedures/tarn-18/machine.yaml")).unwrap();
    assert!(shop.lines().any(|line| line.starts_with("date: 20") && line.len() == 16), "{shop}");
}

#[test]
fn a_procedure_asks_and_inspect_tells_each_question_once() {
    let folder = begun();
    let said = good(folder.path(), &["draft", "procedure", "tarn-18", "Fit the pump"]);
    assert!(said.contains("fit-the-pump.md: written, 9 questions to answer"), "{said}");
    assert_eq!(broken(folder.path()), BTreeMap::from([("question-unanswered".to_owned(), 9)]));
    let site = run(folder.path(), &["bind"]);
    assert_eq!(site.status.code(), Some(1), "a draft is not published");
    assert!(!folder.path().join("site/index.html").exists());
}

#[test]
fn a_fastener_gets_a_question_and_never_a_torque() {
    let folder = begun();
    good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--fastener", "M8x1.25 8.8 into aluminium", "--fastener", "M12x1.25 left-hand 8 as shaft-nut threads locker"]);
    let draft = procedure(folder.path(), "pump");
    assert!(draft.contains("  # as clamp: does the source say something like 14–31 N·m"), "{draft}");
    assert!(draft.contains("thread: M12x1.25 left-hand") && draft.contains("role: shaft-nut"), "{draft}");
    // What a data sheet has beside the torque is asked too; a shaft nut sits alone.
    for (key, count) in [("drive", 2), ("holds", 2), ("layout", 1), ("hold_with", 1)] {
        assert_eq!(draft.matches(&format!("\n    {key}: '?'")).count(), count, "{key}: {draft}");
    }
    for line in draft.lines().filter(|line| line.trim_start().starts_with("torque:")) {
        assert!(line.trim_start().starts_with("torque: '?'"), "{line}");
    }
    assert_eq!(broken(folder.path()).into_keys().collect::<Vec<_>>(), ["question-unanswered"]);
    for (words, says) in [("M8 8.8", "has no pitch"), ("M8x1.25 9.9", "no property class"), ("M8x1.25 into wood", "aluminium")] {
        let refused = run(folder.path(), &["draft", "procedure", "tarn-18", "Other", "--fastener", words]);
        assert_eq!(refused.status.code(), Some(2));
        assert!(text(&refused.stderr).contains(says), "{}", text(&refused.stderr));
    }
}

#[test]
fn two_fasteners_of_the_same_words_are_numbered_and_told() {
    let folder = begun();
    let said = good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--fastener", "M8x1.25 8.8", "--fastener", "M6x1.0", "--fastener", "M8x1.25  8.8"]);
    assert!(said.contains("--fastener ‘M8x1.25 8.8’ is given 2 times") && said.matches("is given").count() == 1, "{said}");
    let draft = procedure(folder.path(), "pump");
    for (line, count) in [("    name: '? 1 of 2 alike'", 1), ("    name: '? 2 of 2 alike'", 1), ("    name: '?'  ", 1)] {
        assert_eq!(draft.matches(line).count(), count, "{line}: {draft}");
    }
    // The numbers are questions as the others are: what draft counts is what inspect finds.
    let asked = said.split("written, ").nth(1).unwrap().split(' ').next().unwrap().parse::<usize>().unwrap();
    assert_eq!(broken(folder.path()), BTreeMap::from([("question-unanswered".to_owned(), asked)]));
}

#[test]
fn nothing_is_ever_overwritten() {
    let folder = begun();
    good(folder.path(), &["draft", "procedure", "tarn-18", "Pump"]);
    let before = procedure(folder.path(), "pump");
    for arguments in [
        &["draft", "procedure", "tarn-18", "Pump", "--fastener", "M8x1.25"][..], &["draft", "procedure", "tarn-18", "Other", "--id", "pump"], &["draft", "machine", "Tarn 18"],
        &["draft", "manual", "Another"],
    ] {
        let refused = run(folder.path(), arguments);
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}");
        assert!(text(&refused.stderr).contains("is there already, and a draft never overwrites"), "{}", text(&refused.stderr));
    }
    assert_eq!(procedure(folder.path(), "pump"), before);
    // One of two files in the way: neither is written.
    let half = TempDir::new().unwrap();
    fs::create_dir(half.path().join("procedures")).unwrap();
    fs::write(half.path().join("procedures/shop.yaml"), "mine\n").unwrap();
    assert_eq!(run(half.path(), &["draft", "manual", "Another"]).status.code(), Some(2));
    assert!(!half.path().join("procedures/manual.yaml").exists());
    // And nothing half-written stays behind.
    let names: Vec<String> = walkdir::WalkDir::new(folder.path()).into_iter().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    assert!(!names.iter().any(|name| name.contains(".benchleaf-new")), "{names:?}");
}

#[cfg(unix)]
#[test]
fn a_link_in_the_way_is_not_followed() {
    let folder = begun();
    let outside = TempDir::new().unwrap();
    std::os::unix::fs::symlink(outside.path(), folder.path().join("procedures/creek")).unwrap();
    let refused = run(folder.path(), &["draft", "machine", "Creek"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(fs::read_dir(outside.path()).unwrap().next().is_none());
}

#[test]
fn names_that_lead_elsewhere_are_refused() {
    let folder = begun();
    for (arguments, says) in [
        (&["draft", "machine", "x", "--id", "../x"][..], "can't name"), (&["draft", "machine", "軸受"], "--id"), (&["draft", "procedure", "tarn-8", "Pump"], "did you mean ‘tarn-18’"),
        (&["draft", "procedure", "tarn-18", "Pump", "--from", "no-such.vtt"], "can't be read"),
    ] {
        let refused = run(folder.path(), arguments);
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}");
        assert!(text(&refused.stderr).contains(says), "{}", text(&refused.stderr));
    }
}

#[test]
fn a_recording_gives_moments_silence_and_what_was_heard_unconfirmed() {
    let folder = begun();
    fs::write(folder.path().join("film.vtt"), FILM).unwrap();
    let said = good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--from", "film.vtt", "--today", "2026-09-14"]);
    let draft = procedure(folder.path(), "pump");
    for line in [
        "  silent: ['0:44–1:40', '1:43–2:10']", "## ? {#at-0-30 at=0:30}", "## ? {#at-0-44 at=0:44–1:40}", "    torque: 22 N·m", "    torque: '? 15 N·m; or 50, which sounds alike'",
        "    torque: '? 9 N·m or 9 lbf·ft or 9 lbf·in'", "  heard-0-11: {title: 'Heard at 0:11: “twenty-two newton metres” (22 N·m)', kind: heard}",
    ] {
        assert!(draft.lines().any(|have| have == line), "{line}\n{draft}");
    }
    for words in ["Spring side towards the oil”'", "“five thou” (5 thou)", "blue thread locker”'", "“a quarter turn” (1/4 turn)", "leave the other one for now”'", "a colour is none"] {
        assert!(draft.contains(words), "{words}\n{draft}");
    }
    let broken = broken(folder.path());
    assert_eq!(broken.keys().map(String::as_str).collect::<Vec<_>>(), ["machine-text-unconfirmed", "question-unanswered"], "{broken:?}");
    // Nothing that was heard is confirmed, each for itself.
    let heard = draft.matches("kind: heard").count();
    assert_eq!(broken["machine-text-unconfirmed"], heard);
    // What it says at its end is what inspect counts.
    let asked = broken["question-unanswered"];
    assert!(said.contains(&format!("written, {asked} questions to answer, {heard} things heard to confirm: inspect reports {} errors", asked + heard)), "{said}");
    // The same captions as SRT give the same draft.
    let cues: Vec<&str> = FILM.split("\n\n").skip(1).collect();
    let srt: String = cues.iter().enumerate().map(|(index, cue)| format!("{}\r\n{}\r\n\r\n", index + 1, srt_times(cue).replace('\n', "\r\n"))).collect();
    fs::write(folder.path().join("film.srt"), srt).unwrap();
    let printed = good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--from", "film.srt", "--today", "2026-09-14", "--id", "pump-again", "--print"]);
    // Ids that the first draft has taken get a number; all else is the same.
    assert_eq!(printed.matches("kind: heard").count(), draft.matches("kind: heard").count());
    assert!(!folder.path().join("procedures/tarn-18/pump-again.md").exists(), "--print writes nothing");
}

/// `00:05.000` as SRT has it: `00:00:05,000`.
fn srt_times(cue: &str) -> String {
    let (times, words) = cue.split_once('\n').unwrap();
    let times: Vec<String> = times.split(" --> ").map(|time| format!("00:{}", time.replace('.', ","))).collect();
    format!("{}\n{}", times.join(" --> "), words.trim_end())
}

#[test]
fn a_value_said_in_two_units_is_asked_as_one() {
    let folder = begun();
    let film = "WEBVTT\n\n00:00:05.000 --> 00:00:09.000\nTighten the cap bolts to 24 newton metres, that is 18 foot pounds.\n\n00:00:10.000 --> 00:00:14.000\nThe lid bolts get 10 newton metres.\n";
    fs::write(folder.path().join("film.vtt"), film).unwrap();
    good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--from", "film.vtt"]);
    let page = procedure(folder.path(), "pump");
    assert_eq!((page.matches("The same value?").count(), page.matches("](torque:heard-").count()), (1, 2), "{page}");
}

#[test]
fn hostile_captions_stay_words() {
    let folder = begun();
    let film = "WEBVTT\n\n00:05.000 --> 00:09.000\nset twenty newton metres'}: {x: !!python/object ---\n\n00:20.000 --> 00:22.000\n## [x](torque:x) {#y} ' \" later later later\n";
    fs::write(folder.path().join("film.vtt"), film).unwrap();
    good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--from", "film.vtt"]);
    let broken = broken(folder.path());
    assert!(broken.keys().all(|rule| ["machine-text-unconfirmed", "question-unanswered"].contains(&rule.as_str())), "{broken:?}");
}

#[test]
fn a_spreadsheet_becomes_slots_and_nothing_is_dropped() {
    let folder = begun();
    let table = "Fastener;Thread;Class;Torque;Unit;Role;Threads;Qty;Source;Colour\nCap bolt;M8 x 1,25;8.8;24;N·m;clamp;oiled;4;Service book;blue\nDrain plug;M8;;12;;plug;;1;Service book;\nHub nut;M12x1.25 LH;8;22,5;N·m;shaft-nut;dry;1;;red\n";
    fs::write(folder.path().join("torques.csv"), table).unwrap();
    good(folder.path(), &["draft", "procedure", "tarn-18", "Torques", "--from", "torques.csv"]);
    let draft = procedure(folder.path(), "torques");
    for words in ["torque: 24 N·m", "thread: M8x1.25", "torque: '? 12 – ", "threads: '? oiled: let an apply: act put it on first", "[? anticlockwise: its thread is left-hand](torque:hub-nut)", "'? 22,5 N·m – ", "column ‘Colour’: blue", "column ‘Colour’: red", "title: 'Service book', kind: '?'", "title: 'Spreadsheet torques.csv', kind: '?'"] {
        assert!(draft.contains(words), "{words}\n{draft}");
    }
    assert_eq!(broken(folder.path()).into_keys().collect::<Vec<_>>(), ["question-unanswered"]);
    let refused = run(folder.path(), &["draft", "machine", "Creek", "--from", "film.csv"]);
    assert_eq!(refused.status.code(), Some(2));
    let said = good(folder.path(), &["draft", "machine", "Creek", "--from", "torques.csv"]);
    assert!(said.contains("3 fasteners out of the table"), "{said}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is said, the draft's only faults are its questions and what was only heard.
    #[test]
    fn no_recording_makes_a_faulty_draft(parts in prop::collection::vec(prop_oneof![
        Just("next the pump".to_owned()), Just("twenty-two newton metres".to_owned()), Just("5 thou".to_owned()), Just("half a turn".to_owned()), Just("later".to_owned()),
        Just("high strength thread locker".to_owned()), Just("lip facing out".to_owned()), Just("two pints".to_owned()), Just("22,5 Nm".to_owned()), Just("torque it to 9".to_owned()), "\\PC{0,24}"], 1..12), gaps in prop::collection::vec(1_u32..90, 12)) {
        let folder = begun();
        let mut at = 0;
        let mut film = "WEBVTT\n".to_owned();
        for (part, gap) in parts.iter().zip(gaps) {
            at += gap;
            film.push_str(&format!("\n{:02}:{:02}.000 --> {:02}:{:02}.000\nw {}\n", at / 60, at % 60, (at + 2) / 60, (at + 2) % 60, part.replace("-->", "")));
        }
        fs::write(folder.path().join("film.vtt"), film).unwrap();
        good(folder.path(), &["draft", "procedure", "tarn-18", "Pump", "--from", "film.vtt"]);
        let broken = broken(folder.path());
        prop_assert!(broken.keys().all(|rule| ["machine-text-unconfirmed", "question-unanswered"].contains(&rule.as_str())), "{broken:?}\n{}", procedure(folder.path(), "pump"));
    }
}
