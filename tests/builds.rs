//! Build records from the file to the page: what they tell is shown, nothing in one is trusted, and none of them stops a
//! manual from being published.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]
#![expect(clippy::disallowed_methods, reason = "a test makes its own folders")]

use benchleaf::manual::{BUILD_FORMAT, build_schema, lower};
use benchleaf::source::read;
use boon::{Compiler, Schemas};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const RECORD: &str = "tarn/builds/hull-7.json";

/// A small manual in which one value has changed and one measurement has limits.
fn manual(record: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    write("manual.yaml", "title: Little manual\npublisher: Example club (invented)\nprofile: published\n");
    write(
        "shop.yaml",
        "tools:\n  wrench: {name: Torque wrench 5–25 N·m, kind: torque-wrench, range: 5–25 N·m}\n  feeler: {name: Feeler gauge, kind: gauge, resolution: 0.01 mm}\nsources:\n  sheet: {title: Data sheet (invented), kind: maker}\npeople:\n  editor: {name: Editor}\n  reader: {name: Second reader}\n",
    );
    write("tarn/machine.yaml", "name: Tarn\nmaker: Example works (invented)\nrevision: 1\ndate: 2026-09-14\nvariants: {serial: {early: ≤ 4199, late: ≥ 4200}}\n");
    write(
        "tarn/hub.md",
        "---\ntitle: Hub\nrevision: 2\ndate: 2026-09-14\nchanges:\n  - {revision: 2, of: hub-bolt.torque, was: {late: 9 N·m}, because: hubs crept, source: sheet}\nfasteners:\n  hub-bolt: {name: Hub bolt, count: 2, thread: M6x1.0, class: 8.8, role: cover, torque: {early: 9 N·m, late: 10 N·m}, critical: true, source: sheet}\nmeasures:\n  ring-gap: {name: Ring gap, spec: 0.20–0.32 mm, limit: max 0.60 mm, with: feeler, when: cold, otherwise: fit new rings, source: sheet}\n---\n\n## Tighten {#tighten}\n\n[Read the gap](measure:ring-gap). [Tighten the hub bolts](torque:hub-bolt). [Editor looks and signs](hold:editor). [A second reader looks and signs](hold:reader)\n",
    );
    write(RECORD, record);
    folder
}

fn record(change: impl Fn(&mut Value)) -> String {
    let mut value = json!({
        "format": BUILD_FORMAT, "manual": "Little manual", "machine": "tarn", "serial": "4711", "variant": {"serial": "late"},
        "people": ["A. Fell", "B. Moss"], "begun": "2026-08-02T09:00:00Z", "saved": "2026-08-02T12:00:00Z",
        "procedures": {"hub": {"revision": 1, "fingerprint": "0000-0000-0000", "begun": "2026-08-02T09:00:00Z", "finished": null,
            "ticks": [{"step": "tighten", "act": "torque:hub-bolt", "number": 1, "value": "9 N·m", "at": "2026-08-02T10:00:00Z", "by": "A. Fell"}],
            "readings": [{"step": "tighten", "act": "measure:ring-gap", "number": 1, "value": "0.70 mm", "at": "2026-08-02T09:30:00Z"}],
            "signatures": [{"step": "tighten", "act": "hold:editor", "by": "A. Fell", "at": "2026-08-02T10:05:00Z"}],
            "stops": [{"step": "tighten", "act": "torque:hub-bolt", "number": 1, "value": "STOP Before this: Tighten Key (line 1.1)", "at": "2026-08-02T09:55:00Z", "by": "C. Rill"}]}},
        "deviations": [{"procedure": "hub", "step": "tighten", "of": "hub-bolt-washer", "what": "an old washer used", "because": "none in the box", "by": "B. Moss", "at": "2026-08-02T10:00:00Z"}],
        "open": []
    });
    change(&mut value);
    serde_json::to_string_pretty(&value).unwrap()
}

fn benchleaf(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).output().unwrap()
}

fn bind(folder: &Path) -> (Output, TempDir) {
    let site = TempDir::new().unwrap();
    let into = site.path().join("site");
    let output = benchleaf(&["bind", folder.to_str().unwrap(), "--into", into.to_str().unwrap()]);
    (output, site)
}

fn page(site: &TempDir, name: &str) -> String {
    let html = fs::read_to_string(site.path().join("site").join(name)).unwrap();
    html.replace('\u{a0}', " ").replace("<bdi>", "").replace("</bdi>", "")
}

#[test]
fn a_record_is_told_and_shown_and_stops_nothing() {
    let folder = manual(&record(|_| {}));
    let (output, site) = bind(folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(0), "{told}\n{}", String::from_utf8_lossy(&output.stderr));
    for rule in ["bulletin-affects-build", "reading-out-of-limit", "state-print-stale", "signed-twice-by-one"] {
        assert!(told.contains("Warning — ") && told.contains(&format!("({rule})")), "{rule}\n{told}");
    }
    let build = page(&site, "tarn/builds/hull-7.html");
    for words in [
        "Tarn no. 4711", "serial late", "A. Fell, B. Moss", "2026-08-02 09:00 UTC", "Hub bolt, ", "9 N·m", "10 N·m", "hubs crept", "nobody yet: critical",
        "0.70 mm", "0.20–0.32 mm", "max 0.60 mm", "outside the limit", "an old washer used", "none in the box", "0000-0000-0000", "not the current one", "in hand",
    ] {
        assert!(build.contains(words), "{words}\n{build}");
    }
    let machine = page(&site, "tarn/index.html");
    assert!(machine.contains("builds/hull-7.html") && machine.contains("1 value has changed since"));
}

/// How the one reading of the record stands on the page, with the measure that the words describe.
fn standing(measure: &str, reading: &str) -> String {
    let folder = manual(&record(|value| value["procedures"]["hub"]["readings"][0]["value"] = json!(reading)));
    let hub = folder.path().join("tarn/hub.md");
    let text = fs::read_to_string(&hub).unwrap();
    let given = "spec: 0.20–0.32 mm, limit: max 0.60 mm";
    assert!(text.contains(given));
    fs::write(&hub, text.replace(given, measure)).unwrap();
    let (output, site) = bind(folder.path());
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stdout));
    let page = page(&site, "tarn/builds/hull-7.html");
    let row = page.split("<tr>").find(|row| row.contains("Ring gap")).unwrap();
    let shown = row.split_once("data-label=\"Read\"").unwrap().1.split_once("data-label=\"When\"").unwrap().0;
    let words = shown.split('<').filter_map(|part| part.split_once('>')).map(|(_, words)| words.trim()).filter(|words| !words.is_empty());
    words.collect::<Vec<_>>().join(" | ")
}

#[test]
fn a_verdict_says_what_was_compared() {
    // A dial at 32.0 mm over teeth at 25.0 mm: 0.23 mm × 25.0 ÷ 32.0 = 0.1797 mm (similar triangles).
    let backlash = "kind: backlash, at: {gear_radius: 25.0 mm, dial_radius: 32.0 mm}, spec: 0.12–0.22 mm";
    let shown = standing(backlash, "0.23 mm");
    assert!(shown.contains("on the dial | 0.16–0.28 mm") && shown.ends_with("inside spec | at the teeth 0.180 mm"), "{shown}");
    assert!(standing(backlash, "0.29 mm").ends_with("outside the limit | at the teeth 0.227 mm"));
    assert!(standing("spec: 0.20–0.32 mm", "0.30 mm").ends_with("inside spec"), "no radius, nothing to tell");
}

#[test]
fn what_has_no_band_is_not_called_inside_or_outside_of_one() {
    assert!(standing("limit: max 0.60 mm", "0.30 mm").ends_with("| inside the limit"), "no spec to be inside of");
    assert!(standing("spec: 33.0 mm, limit: min 32.2 mm", "33.01 mm").ends_with("| inside the limit"), "one value is no band to fall out of");
    assert!(standing("spec: 33.0 mm", "33.01 mm").ends_with("off the value stated, 33.0 mm, for which no tolerance is given"));
    assert!(standing("spec: 32.9–33.1 mm, limit: min 32.2 mm", "32.5 mm").ends_with("| outside spec, inside the limit"));
}

#[test]
fn answers_to_stop_lines_are_shown_and_looked_up() {
    let folder = manual(&record(|value| value["deviations"].as_array_mut().unwrap().push(json!({"procedure": "hub", "step": "tighten", "what": "no lamp at hand", "because": "dark", "at": "2026-08-02T10:00:00Z"}))));
    let (output, site) = bind(folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(!told.contains("record-key-unknown") && !told.contains("record-names-unknown"), "{told}");
    let build = page(&site, "tarn/builds/hull-7.html");
    let table = build.split("STOP lines answered").last().unwrap().split("</table>").next().unwrap();
    // What was looked for, before what, by whom, when, and what was done otherwise in that step.
    for words in ["STOP Before this: Tighten Key (line 1.1)", "Tighten the hub bolts", "C. Rill", "2026-08-02 09:55 UTC", "no lamp at hand"] {
        assert!(table.contains(words), "{words}\n{table}");
    }
    // A record of before has no such table, and an answer about an act that is not there is told as any other entry.
    fs::write(folder.path().join(RECORD), record(|value| drop(value["procedures"]["hub"].as_object_mut().unwrap().remove("stops")))).unwrap();
    let (_, site) = bind(folder.path());
    assert!(!page(&site, "tarn/builds/hull-7.html").contains("STOP lines answered"));
    fs::write(folder.path().join(RECORD), record(|value| value["procedures"]["hub"]["stops"][0]["act"] = json!("torque:hub-bold"))).unwrap();
    let (output, _) = bind(folder.path());
    assert!(String::from_utf8(output.stdout).unwrap().contains("(record-names-unknown)"));
}

#[test]
fn a_machine_without_records_has_no_page_of_builds() {
    let folder = manual("{}");
    fs::remove_dir_all(folder.path().join("tarn/builds")).unwrap();
    let (output, site) = bind(folder.path());
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stdout));
    assert!(!site.path().join("site/tarn/builds").exists());
    assert!(!page(&site, "tarn/index.html").contains("page.builds"));
}

#[test]
fn the_sheet_of_today_is_known_by_its_fingerprint() {
    let folder = manual(&record(|_| {}));
    let (_, site) = bind(folder.path());
    let sheet = page(&site, "tarn/hub-sheet-late.html");
    let fingerprint = sheet.split("data-fingerprint=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    fs::write(folder.path().join(RECORD), record(|value| value["procedures"]["hub"]["fingerprint"] = json!(fingerprint))).unwrap();
    let (output, site) = bind(folder.path());
    assert!(!String::from_utf8(output.stdout).unwrap().contains("state-print-stale"));
    assert!(page(&site, "tarn/builds/hull-7.html").contains("<span class=\"entry\">current</span></td>"));
    // The sheet of the other variant is not this machine's.
    let early = page(&site, "tarn/hub-sheet-early.html").split("data-fingerprint=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    fs::write(folder.path().join(RECORD), record(|value| value["procedures"]["hub"]["fingerprint"] = json!(early))).unwrap();
    let (output, _) = bind(folder.path());
    assert!(String::from_utf8(output.stdout).unwrap().contains("state-print-stale"));
}

/// Every text of a record set to what would be markup, a link or a command of a terminal.
#[test]
fn nothing_in_a_record_is_markup() {
    const MARKUP: &str = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)> javascript:alert(1) {{ 7*7 }} {% raw %}";
    fn spoil(value: &mut Value) {
        match value {
            Value::String(text) => *text = MARKUP.to_owned(),
            Value::Array(items) => items.iter_mut().for_each(spoil),
            Value::Object(map) => map.values_mut().for_each(spoil),
            _ => {}
        }
    }
    let keep = |value: &Value, pointer: &str, into: &mut Value| *into.pointer_mut(pointer).unwrap() = value.pointer(pointer).unwrap().clone();
    let whole: Value = serde_json::from_str(&record(|_| {})).unwrap();
    let mut spoilt = whole.clone();
    spoil(&mut spoilt);
    for pointer in ["/format", "/machine", "/variant"] {
        keep(&whole, pointer, &mut spoilt);
    }
    for pointers in [&[][..], &["/procedures/hub/ticks/0/step", "/procedures/hub/ticks/0/act", "/procedures/hub/readings/0/step", "/procedures/hub/readings/0/act", "/procedures/hub/signatures/0/step", "/procedures/hub/signatures/0/act", "/deviations/0/procedure"]] {
        let mut text = spoilt.clone();
        pointers.iter().for_each(|pointer| keep(&whole, pointer, &mut text));
        let folder = manual(&text.to_string());
        let (output, site) = bind(folder.path());
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stdout));
        let build = page(&site, "tarn/builds/hull-7.html");
        assert!(build.contains("&lt;script&gt;alert(1)"), "{build}");
        for markup in ["<script>alert", "<img", "onerror=alert(1)>", "href=\"javascript", " 49 "] {
            assert!(!build.contains(markup), "{markup}\n{build}");
        }
    }
}

#[test]
fn what_is_no_record_is_told_and_stops_nothing() {
    let large = format!("{{\"format\": \"{BUILD_FORMAT}\", \"machine\": \"tarn\", \"serial\": \"{}\"}}", "x".repeat(3_000_000));
    let many = record(|value| value["procedures"]["hub"]["ticks"] = Value::Array(vec![json!({"step": "nowhere", "act": "torque:nothing"}); 5_000]));
    for text in ["", "{", "[]", "null", "\u{feff}", "{\"format\": 1}", "{\"format\": \"benchleaf-build/1\"}", &large, &many] {
        let folder = manual(text);
        let (output, site) = bind(folder.path());
        let told = String::from_utf8_lossy(&output.stdout).into_owned();
        assert_eq!(output.status.code(), Some(0), "{text:.60}: {told}");
        assert!(told.contains(RECORD), "{text:.60}: {told}");
        assert!(site.path().join("site/index.html").exists());
    }
    let folder = manual("{}");
    fs::write(folder.path().join(RECORD), [0xff, 0xfe, 0x00]).unwrap();
    assert_eq!(bind(folder.path()).0.status.code(), Some(0));
}

#[test]
fn a_command_of_a_terminal_is_not_passed_on() {
    let folder = manual(&record(|value| value["serial"] = json!("47\u{1b}[2J11")));
    let (output, _) = bind(folder.path());
    assert!(String::from_utf8_lossy(&output.stdout).contains("record-malformed"));
    assert!(!output.stdout.contains(&0x1b));
}

struct Schema {
    schemas: Schemas,
    index: boon::SchemaIndex,
}

impl Schema {
    fn new() -> Self {
        let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
        let name = "https://schemas.example/build.json";
        compiler.add_resource(name, build_schema()).unwrap();
        let index = compiler.compile(name, &mut schemas).unwrap_or_else(|error| panic!("{error:#}"));
        Self { schemas, index }
    }

    fn lets_through(&self, value: &Value) -> bool {
        self.schemas.validate(value, self.index).is_ok()
    }
}

/// What `inspect` finds in the form of a record.
fn form_findings(value: &Value) -> usize {
    let folder = manual(&value.to_string());
    let (sources, mut findings) = read(folder.path()).unwrap();
    findings.extend(lower(&sources).1);
    findings.iter().filter(|finding| finding.rule().name == "record-malformed").count()
}

#[test]
fn the_schema_is_printed_and_lets_a_good_record_through() {
    let printed: Value = serde_json::from_slice(&benchleaf(&["schema", "build"]).stdout).unwrap();
    assert_eq!(printed, build_schema());
    assert_eq!(printed["$schema"], "https://json-schema.org/draft/2020-12/schema");
    let value: Value = serde_json::from_str(&record(|_| {})).unwrap();
    assert!(Schema::new().lets_through(&value));
    assert_eq!(form_findings(&value), 0);
}

/// Schema and reader agree on what is a fault of form, wherever in a record it stands.
#[test]
fn the_schema_and_the_reader_agree() {
    let schema = Schema::new();
    let whole: Value = serde_json::from_str(&record(|_| {})).unwrap();
    let mut pointers = Vec::new();
    pointers_of(&whole, String::new(), &mut pointers);
    let mut refused = 0;
    for pointer in pointers.iter().filter(|pointer| !pointer.is_empty()) {
        for wrong in [json!(7.5), json!(true), json!("\u{0}"), json!("x".repeat(2001)), json!([[]]), json!({"a": []})] {
            let mut value = whole.clone();
            *value.pointer_mut(pointer).unwrap() = wrong.clone();
            let hidden = wrong.as_str().is_some_and(|text| text.starts_with('\u{0}'));
            let (lets, findings) = (schema.lets_through(&value), form_findings(&value));
            // The schema has no word for signs that can't be seen.
            if !hidden {
                assert_eq!(lets, findings == 0, "{pointer} = {:.40}: schema {lets}, {findings} findings", wrong.to_string());
            }
            refused += usize::from(!lets);
        }
    }
    assert!(refused > 100, "{refused}");
}

fn pointers_of(value: &Value, here: String, all: &mut Vec<String>) {
    match value {
        Value::Object(map) => map.iter().for_each(|(key, value)| pointers_of(value, format!("{here}/{}", key.replace('/', "~1")), all)),
        Value::Array(items) => items.iter().enumerate().for_each(|(at, value)| pointers_of(value, format!("{here}/{at}"), all)),
        _ => {}
    }
    all.push(here);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// A record cut off, doubled or with a piece of it lost anywhere is read without a panic.
    #[test]
    fn a_damaged_record_is_answered(from in any::<prop::sample::Index>(), length in 0usize..80, with in "[\\[\\]{}\",:0-9a-zN·m \\\\-]{0,6}") {
        let whole = record(|_| {});
        let signs: Vec<char> = whole.chars().collect();
        let start = from.index(signs.len());
        let end = (start + length).min(signs.len());
        let damaged: String = signs[..start].iter().copied().chain(with.chars()).chain(signs[end..].iter().copied()).collect();
        let folder = manual(&damaged);
        let (sources, _) = read(folder.path()).unwrap();
        let (manual, _) = lower(&sources);
        prop_assert!(manual.machines[0].builds.len() <= 1);
    }
}

#[test]
fn a_machines_page_sums_up_what_was_read() {
    let folder = manual(&record(|_| ()));
    let other = record(|value| {
        value["serial"] = json!("4712");
        value["procedures"]["hub"]["readings"][0]["value"] = json!("0.30 mm");
    });
    fs::write(folder.path().join("tarn/builds/hull-8.json"), other).unwrap();
    // Read again later, the last record of a machine counts.
    let again = record(|value| {
        value["saved"] = json!("2026-09-02T12:00:00Z");
        value["procedures"]["hub"]["readings"][0]["value"] = json!("0.60 mm");
    });
    fs::write(folder.path().join("tarn/builds/hull-7-again.json"), again).unwrap();
    let (output, site) = bind(folder.path());
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    let page = page(&site, "tarn/index.html");
    let table = page.rsplit("As read on the machines built").next().and_then(|rest| rest.split("</table>").next()).unwrap_or_else(|| panic!("no table in {page}"));
    for wanted in ["Ring gap", "0.30 mm", "0.45 mm", "0.60 mm"] {
        assert!(table.contains(wanted), "{wanted}: {table}");
    }
    assert!(!table.contains("0.70 mm"), "{table}");
}

/// What can't be read in a record, and is a warning there, holds no error of the manual back.
#[test]
fn a_damaged_record_hides_nothing() {
    let folder = manual(&record(|_| {}));
    fs::write(folder.path().join("tarn/cap.md"), "---\ntitle: Cap\nrevision: 1\ndate: 2026-09-14\nparts:\n  cap: {name: Cap, kind: cover, count: 1, faces: either, reuse: inspect, when: whole, source: sheet}\n---\n\n## Try it {#try}\n\n[Put the cap on for a trial](dry-fit:cap).\n").unwrap();
    let out = TempDir::new().unwrap();
    let into = out.path().join("site");
    let words = ["bind", folder.path().to_str().unwrap(), "--into", into.to_str().unwrap()];
    let errors = |run: &Output| String::from_utf8_lossy(&run.stdout).lines().filter(|line| line.starts_with("Error")).map(str::to_owned).collect::<Vec<_>>();
    fs::remove_file(folder.path().join(RECORD)).unwrap();
    let before = errors(&benchleaf(&words));
    assert!(before.iter().any(|line| line.contains("trial")), "{before:?}");
    let long = vec![b' '; 3 << 20];
    for damaged in [b"{\"\xe9\"".as_slice(), b"<<<<<<< ours\n{}\n=======\n[]\n>>>>>>> theirs\n", b"{", &long] {
        fs::write(folder.path().join(RECORD), damaged).unwrap();
        let run = benchleaf(&words);
        assert_eq!(errors(&run), before);
        assert!(run.status.code() == Some(1) && !into.exists(), "{}", String::from_utf8_lossy(&run.stdout));
    }
}
