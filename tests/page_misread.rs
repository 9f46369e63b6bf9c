//! Lines that somebody at the bench read wrongly once: what they say now, on page and sheet, in two languages.

#![expect(clippy::unwrap_used, clippy::panic, clippy::disallowed_methods, reason = "what fails here fails its test; the program writes the files")]

use std::fs;
use std::process::Command;

const FRONT: &str = "tools:
  probe: {name: Contact probe, kind: thermometer, resolution: 1 °C}
materials:
  locker: {name: Thread locker, kind: thread-locker, strength: medium, cure: 24 h}
fasteners:
  late-bolt: {name: Late bolt, count: 1, thread: M8x1.25, class: 10.9, role: drive, threads: locker, locker: locker, torque: 30 N·m}
  early-bolt: {name: Early bolt, count: 1, thread: M8x1.25, class: 10.9, role: drive, threads: locker, locker: locker, torque: 30 N·m}
parts:
  shaft: {name: Shaft, kind: shaft}
measures:
  gap: {name: Gap, kind: clearance, chooses: gap-shim, otherwise: seat it again}
  crush: {name: Crush, kind: clearance, chooses: crush-shim}
  cover-gap: {name: Gap of the cover, kind: clearance, chooses: cover-shim}
  height: {name: Height, kind: clearance, chooses: height-shim}
  squeezed: {name: Gap over a gasket, kind: clearance, chooses: squeezed-shim}
  bracketed: {name: Gap in brackets, kind: clearance, chooses: bracket-shim}
  push: {name: Push, kind: pressure}
  plain: {name: Play, kind: clearance, spec: 0.1–0.2 mm, otherwise: another shaft}
shims:
  gap-shim: {name: Gap shim, from: 2.00–3.00 mm, step: 0.05 mm, is: old + reading - target, old: 2.35 mm, target: 0.21 mm, accept: 0.18–0.24 mm}
  bracket-shim: {name: Bracket shim, from: 2.00–3.00 mm, step: 0.05 mm, is: (old + reading) - target, old: 2.35 mm, target: 0.21 mm, accept: 0.17–0.25 mm}
  crush-shim: {name: Crush shim, from: 0.40–0.80 mm, step: 0.02 mm, is: reading - target, target: 0.04 mm, accept: 0.02–0.06 mm}
  cover-shim: {name: Cover shim, from: 0.20–1.00 mm, step: 0.05 mm, is: reading + target, target: 0.10 mm, accept: 0.05–0.15 mm, worked: {reading: 0.42 mm, gives: 0.50 mm}}
  height-shim: {name: Height shim, from: 0.20–1.00 mm, step: 0.05 mm, is: target - reading, target: 9.10 mm, accept: 9.05–9.15 mm}
  squeezed-shim: {name: Shim over a gasket, from: 0.20–1.00 mm, step: 0.05 mm, is: reading - 0.3 - target, target: 0.20 mm, accept: 0.16–0.24 mm}
turns:
  once: {name: Shaft, of: shaft, amount: 1 turn, sense: clockwise, viewed_from: pulley end}
  half: {name: Shaft half way, of: shaft, amount: 2.5 ± 0.5 turn, sense: clockwise, viewed_from: pulley end}
  often: {name: Shaft again, of: shaft, amount: 10 turn, sense: clockwise, viewed_from: pulley end}
";

const BODY: &str = "## Read {#read}

[Read the gap](measure:gap). [Read the crush](measure:crush). [Read the cover's gap](measure:cover-gap). [Read the height](measure:height). [Read it over the gasket](measure:squeezed). [Read the play](measure:plain). [Read the other gap](measure:bracketed). [Read the push](measure:push). [Warm it](tool:probe).

## Run up {#run-up}

[Run the late bolt up](start:late-bolt). [Put locker on the early bolt](apply:locker@early-bolt), [run the early bolt up](start:early-bolt).
[Turn it once](turn:once), [turn it often](turn:often), [turn it half way](turn:half).

## Tighten {#tighten}

[Take the late bolt out](remove:late-bolt), [put locker on it](apply:locker@late-bolt), [run it up again](start:late-bolt),
[tighten the late bolt](torque:late-bolt). [Tighten the early bolt](torque:early-bolt).
";

/// The words of the procedure's page, of its sheet and of the tables, without what parts no value.
fn published(language: &str) -> [String; 3] {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::create_dir_all(path("manual/pump")).unwrap();
    fs::write(path("manual/manual.yaml"), format!("title: Trial\npublisher: Example club (invented)\nlanguage: {language}\nprofile: working\n")).unwrap();
    fs::write(path("manual/pump/machine.yaml"), "name: Pump\nmaker: Example works (invented)\n").unwrap();
    fs::write(path("manual/pump/trial.md"), format!("---\ntitle: Trial\nrevision: 1\ndate: 2026-09-14\n{FRONT}---\n\n{BODY}")).unwrap();
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).arg("bind").arg(path("manual")).arg("--into").arg(path("site")).arg("--proof-copy").output().unwrap();
    let read = |name: &str| {
        let html = fs::read_to_string(path("site").join(name)).unwrap_or_else(|error| panic!("{name}: {error}\n{}", String::from_utf8_lossy(&run.stderr)));
        let plain: String = html.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text)).collect::<Vec<_>>().join(" ");
        plain.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
    };
    [read("pump/trial.html"), read("pump/trial-sheet.html"), read("tables/tools.html")]
}

#[test]
fn a_reading_that_chooses_a_shim_is_not_held_against_what_the_shim_makes_of_it() {
    let [page, sheet, _] = published("en");
    for shown in [&page, &sheet] {
        assert!(shown.contains("with the new shim 0.18–0.24 mm"), "the sum knows the shim in place: {shown}");
        assert!(shown.contains("with the new shim 0.17–0.25 mm"), "also in brackets: {shown}");
        assert!(shown.contains("reading less shim 0.02–0.06 mm"), "what is clamped can't be read again: {shown}");
        // Arithmetic: 0.50 mm of shims less a reading of 0.42 mm leave 0.08 mm, the other way round less than nothing.
        assert!(shown.contains("shim less reading 0.05–0.15 mm"), "the sign of the reading is the shim's: {shown}");
        assert!(shown.contains("reading and shim together 9.05–9.15 mm"), "what is missing in height is added: {shown}");
        assert!(shown.contains(" accepted 0.16–0.24 mm") && !shown.contains("less shim 0.16"), "a sum with more in it is not told in two words: {shown}");
        assert!(shown.contains("if no shim fits: seat it again") && shown.contains("if not: another shaft"), "{shown}");
    }
}

#[test]
fn a_locker_is_named_where_it_is_on() {
    let [_, sheet, _] = published("en");
    let line = |words: &str| sheet.split(words).nth(1).unwrap().split("done").next().unwrap().to_owned();
    assert!(line("Run the late bolt up").contains("run up without it: Thread locker comes later"), "{}", line("Run the late bolt up"));
    for words in ["Run the early bolt up", "Run it up again"] {
        assert!(line(words).contains("Thread locker (medium strength)") && !line(words).contains("comes later"), "{}", line(words));
    }
}

/// Places that can't be told apart on paper are not drawn: then the boxes bear the positions, or the order would be nowhere.
#[test]
fn the_order_stands_on_the_sheet_with_or_without_a_drawing() {
    for (count, rows, first) in [(6, "[3, 3]", "1 2 3"), (20, "[10, 10]", "5 16 6")] {
        let order: Vec<String> = if count == 6 { vec!["5".into(), "2".into(), "4".into(), "1".into(), "3".into(), "6".into()] } else { [5, 16, 6, 15, 4, 17, 7, 14, 3, 18, 8, 13, 2, 19, 9, 12, 1, 20, 10, 11].map(|n: u32| n.to_string()).to_vec() };
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        fs::create_dir_all(path("manual/pump")).unwrap();
        fs::write(path("manual/manual.yaml"), "title: Trial\npublisher: Example club (invented)\nlanguage: en\nprofile: working\n").unwrap();
        fs::write(path("manual/pump/machine.yaml"), "name: Pump\nmaker: Example works (invented)\n").unwrap();
        let front = format!("fasteners:\n  lid-bolt: {{name: Lid bolt, count: {count}, thread: M6x1.0, class: 8.8, role: clamp, threads: dry, torque: [5 N·m, 9 N·m], layout: {{rows: {rows}}}, order: [{}]}}\n", order.join(", "));
        fs::write(path("manual/pump/trial.md"), format!("---\ntitle: Trial\nrevision: 1\ndate: 2026-09-14\n{front}---\n\n## Tighten {{#tighten}}\n\n[Tighten the lid](torque:lid-bolt).\n")).unwrap();
        Command::new(env!("CARGO_BIN_EXE_benchleaf")).arg("bind").arg(path("manual")).arg("--into").arg(path("site")).arg("--proof-copy").output().unwrap();
        let sheet = fs::read_to_string(path("site/pump/trial-sheet.html")).unwrap();
        let heads: Vec<&str> = sheet[sheet.find("<thead>").unwrap()..].split("<th scope=\"col\">").skip(1).take(3).map(|cell| cell.split('<').next().unwrap()).collect();
        assert_eq!(heads.join(" "), first, "{rows}");
        assert_eq!(sheet.contains("tightening order"), count == 6, "drawn");
    }
}

#[test]
fn turns_are_counted_in_words() {
    let [page, sheet, _] = published("en");
    let [german, german_sheet, _] = published("de");
    for shown in [&page, &sheet] {
        assert!(shown.contains("1 turn (360°)") && shown.contains("10 turns") && !shown.contains("3600°") && shown.contains("2.5 ± 0.5 turns"), "{shown}");
    }
    for shown in [&german, &german_sheet] {
        assert!(shown.contains("1 Umdrehung (360°)") && shown.contains("10 Umdrehungen"), "{shown}");
    }
}

#[test]
fn a_step_of_a_scale_is_no_temperature() {
    let [.., tools] = published("en");
    assert!(tools.contains("1 °C") && !tools.contains("°F"), "1 °C is 1.8 °F further, not 34 °F: {tools}");
}
