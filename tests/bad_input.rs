//! Input that is broken, hostile or beyond all measure: each ends in a clear finding with its place, or in a clear
//! refusal; never in a panic, and never in an endless run.

#![cfg(unix)]
#![expect(clippy::disallowed_methods, reason = "a test makes the folders it spoils")]
#![expect(clippy::unwrap_used, reason = "a test fails by saying so")]

mod demo;

use benchleaf::finding::{FileTable, Finding, Ground, Look, json, sarif, text};
use benchleaf::inspect::{Terms, inspect, rules};
use benchleaf::manual::lower;
use benchleaf::source::read;
use demo::Demo;
use proptest::prelude::*;
use std::fmt::Write as _;
use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant};

/// No run on any input here may take longer, unoptimised and on a busy machine.
const LONGEST: Duration = Duration::from_secs(60);

/// The longest report that may be printed, whatever the input.
const MOST_BYTES: usize = 1024 * 1024;

const MACHINE: &str = "tarn-18/machine.yaml";
const PROCEDURE: &str = "tarn-18/extra.md";

/// A procedure's head with further lines in it, and a body.
fn procedure(head: &str, body: &str) -> String {
    format!("---\ntitle: Extra\nrevision: 1\ndate: 2026-09-14\n{head}---\n\n{body}")
}

/// A procedure with one step.
fn step(head: &str, words: &str) -> String {
    procedure(head, &format!("## Look {{#look}}\n\n{words}\n"))
}

fn run(demo: &Demo) -> Output {
    let begun = Instant::now();
    let output = demo.inspect(&[]);
    assert!(begun.elapsed() < LONGEST, "{:?}", begun.elapsed());
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(!errors.contains("panicked"), "{errors}");
    assert!(output.stdout.len() < MOST_BYTES, "{} bytes", output.stdout.len());
    output
}

/// Runs on a spoilt manual: findings, nothing on the error stream, the same words a second time.
fn report(demo: &Demo) -> String {
    let output = run(demo);
    assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stdout));
    assert_eq!(output.stderr, demo::NOTHING_BEFORE, "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(run(demo).stdout, output.stdout, "two reports of one folder differ");
    String::from_utf8(output.stdout).unwrap()
}

/// Asserts that a report tells of `rule` at `place` (`file`, `file:line` or `file:line:column`).
fn tells(report: &str, rule: &str, place: &str) {
    let told = report.split("\n\n").any(|block| {
        let mut lines = block.lines();
        let rule_is_told = block.contains(&format!("({rule})\n"));
        rule_is_told && lines.any(|line| line.strip_prefix("  ").is_some_and(|spot| spot == place || spot.starts_with(&format!("{place}:"))))
    });
    assert!(told, "no {rule} at {place} in:\n{report}");
}

/// A demonstration manual with one file changed, and the one finding that must be told of it.
fn spoilt(file: &str, content: impl AsRef<[u8]>, rule: &str, place: &str) {
    let demo = Demo::copy();
    demo.write(file, content);
    tells(&report(&demo), rule, place);
}

// ---- folders and files

#[test]
fn what_is_no_manual_is_refused() {
    let empty = tempfile::TempDir::new().unwrap();
    let refused = |folder: &Path, why: &str| {
        let output = demo::inspect(folder, &[]);
        assert_eq!(output.status.code(), Some(2));
        assert!(output.stdout.is_empty());
        let errors = String::from_utf8(output.stderr).unwrap();
        assert!(errors.contains(why) && !errors.contains("panicked"), "{errors}");
    };
    refused(empty.path(), "no manual.yaml");
    refused(&empty.path().join("nowhere"), "no such folder");
    fs::write(empty.path().join("file"), "x").unwrap();
    refused(&empty.path().join("file"), "not a folder");
    fs::create_dir(empty.path().join("manual.yaml")).unwrap();
    refused(empty.path(), "no manual.yaml");
    let out = Demo::copy();
    fs::rename(out.path().join("manual.yaml"), empty.path().join("elsewhere.yaml")).unwrap();
    symlink(empty.path().join("elsewhere.yaml"), out.path().join("manual.yaml")).unwrap();
    refused(out.path(), "leads out");
}

#[test]
fn a_file_that_may_not_be_read() {
    let demo = Demo::copy();
    let path = demo.path().join(MACHINE);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).unwrap();
    let anyone_may = fs::read(&path).is_ok();
    let output = run(&demo);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o644)).unwrap();
    // The system's own user may read everything; for it nothing is wrong.
    if !anyone_may {
        assert_eq!(output.status.code(), Some(1));
        tells(&String::from_utf8(output.stdout).unwrap(), "file-not-readable", MACHINE);
    }
}

#[test]
fn files_that_are_no_text() {
    spoilt("shop.yaml", b"tools:\n  w: {name: 5\x9625 N\xb7m, kind: other}\n", "text-not-utf8", "shop.yaml:2:14");
    spoilt(PROCEDURE, b"\xff\xfe-\0-\0-\0\n\0", "text-not-utf8", PROCEDURE);
    spoilt(PROCEDURE, (0..=255).cycle().take(100_000).collect::<Vec<u8>>(), "text-not-utf8", PROCEDURE);
    spoilt(PROCEDURE, step("", "A\0B [look](hold:nobody)"), "used-not-listed", "tarn-18/extra.md:9:17");
}

#[test]
fn files_with_nothing_in_them() {
    spoilt("manual.yaml", "", "key-missing", "manual.yaml");
    spoilt(MACHINE, "", "key-missing", MACHINE);
    spoilt("shop.yaml", "", "used-not-listed", "tarn-18/close-gearcase.md");
    spoilt(PROCEDURE, "", "front-matter-missing", PROCEDURE);
    spoilt(PROCEDURE, "---\n---\n", "key-missing", "tarn-18/extra.md:1:1");
    spoilt("tarn-18/pictures/pump.svg", "", "picture-unreadable", "tarn-18/pictures/pump.svg");
}

#[test]
fn pictures_that_are_missing_or_broken() {
    let demo = Demo::copy();
    fs::remove_file(demo.path().join("tarn-18/pictures/pump.svg")).unwrap();
    tells(&report(&demo), "picture-missing", "tarn-18/close-gearcase.md");
    spoilt("tarn-18/pictures/pump.svg", "<svg xmlns='http://www.w3.org/2000/svg'", "picture-unreadable", "tarn-18/pictures/pump.svg");
    spoilt("tarn-18/pictures/new.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\xff\xff\xff\xff\xff\xff\xff\xff", "picture-unreadable", "tarn-18/pictures/new.png");
    spoilt("tarn-18/pictures/new.jpg", b"\xff\xd8\xff\xe0", "picture-unreadable", "tarn-18/pictures/new.jpg");
    spoilt("tarn-18/pictures/new.webp", b"RIFF\xff\xff\xff\xffWEBPVP8X", "picture-unreadable", "tarn-18/pictures/new.webp");
    let bomb = format!("<!DOCTYPE svg [{}]><svg xmlns='http://www.w3.org/2000/svg'>&x9;</svg>", entities());
    spoilt("tarn-18/pictures/new.svg", bomb, "picture-refused", "tarn-18/pictures/new.svg");
    let deep = format!("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'>{}", "<g>".repeat(10_000));
    spoilt("tarn-18/pictures/new.svg", deep, "picture-refused", "tarn-18/pictures/new.svg");
}

/// Entities of XML that unfold to a thousand million characters.
fn entities() -> String {
    (1..10).fold("<!ENTITY x0 'ha'>".to_owned(), |mut all, n| {
        write!(all, "<!ENTITY x{n} '{}'>", format!("&x{};", n - 1).repeat(10)).unwrap();
        all
    })
}

#[test]
fn links_that_lead_round_or_out() {
    let outside = tempfile::TempDir::new().unwrap();
    fs::write(outside.path().join("secret.md"), step("", "[Look](hold:editor)")).unwrap();
    let demo = Demo::copy();
    let link = |target: &Path, name: &str| symlink(target, demo.path().join(name)).unwrap();
    link(Path::new("two.md"), "tarn-18/one.md");
    link(Path::new("one.md"), "tarn-18/two.md");
    link(Path::new(".."), "tarn-18/round");
    link(&outside.path().join("secret.md"), "tarn-18/secret.md");
    link(Path::new("/"), "everything");
    link(Path::new("/dev/zero"), "tarn-18/zero.md");
    let report = report(&demo);
    for name in ["tarn-18/one.md", "tarn-18/two.md", "tarn-18/round", "tarn-18/secret.md", "everything", "tarn-18/zero.md"] {
        tells(&report, "symbolic-link-refused", name);
    }
}

#[test]
fn two_procedures_that_differ_by_their_capitals() {
    let demo = Demo::copy();
    demo.write("tarn-18/a.md", step("", "[Look](hold:editor)"));
    demo.write("tarn-18/A.md", step("", "[Look](hold:editor)"));
    tells(&report(&demo), "name-not-an-id", "tarn-18/A.md");
}

#[test]
fn names_that_climb_out_of_the_manual() {
    let words = "[Fit it](fit:../x), see [it](see:../x), [there](see:../x/y#z), ![a picture of it](../../x.svg) ![and again](/etc/x.svg)";
    let head = "after: [../x]\nvideo: ../x\nleaves_open:\n  ../x: {left: absent, because: none, finish_in: ../x#y}\nparts:\n  ../y: {kind: other}\nfigures:\n  ../../x.svg: {by: editor}\n";
    let demo = Demo::copy();
    demo.write(PROCEDURE, step(head, words));
    let report = report(&demo);
    for (rule, line) in [
        ("unknown-id", 5),
        ("unknown-id", 6),
        ("id-shape", 8),
        ("unknown-id", 8),
        ("id-shape", 10),
        ("act-unclear", 17),
        ("broken-or-vague-link", 17),
        ("picture-missing", 17),
    ] {
        tells(&report, rule, &format!("{PROCEDURE}:{line}"));
    }
    assert!(!report.contains("no such file"), "{report}");
    spoilt("tarn-18/x..md", step("", "[Look](hold:editor)"), "name-not-an-id", "tarn-18/x..md");
    spoilt("tarn-18/x\\..\\y.md", step("", "[Look](hold:editor)"), "name-not-an-id", "tarn-18/x\\..\\y.md");
    spoilt(PROCEDURE, procedure("", "## Look {#../x}\n\n[Look](hold:editor)\n"), "name-not-an-id", "tarn-18/extra.md:7:11");
}

// ---- sizes and depths

#[test]
fn ten_megabytes_of_front_matter() {
    spoilt(PROCEDURE, procedure(&"# pasted by accident\n".repeat(500_000), ""), "file-too-large", PROCEDURE);
    spoilt(PROCEDURE, procedure(&"# pasted by accident\n".repeat(50_000), ""), "file-too-large", "tarn-18/extra.md:1:1");
    spoilt(MACHINE, "x: y\n".repeat(1_000_000), "file-too-large", MACHINE);
}

#[test]
fn aliases_that_unfold_without_end() {
    let bomb = (1..60).fold("a0: &a0 [x, x]\n".to_owned(), |mut all, n| {
        writeln!(all, "a{n}: &a{n} [{}]", vec![format!("*a{}", n - 1); 9].join(", ")).unwrap();
        all
    });
    spoilt(PROCEDURE, step(&bomb, "[Look](hold:editor)"), "yaml-trap", "tarn-18/extra.md:5:5");
    spoilt(MACHINE, format!("name: Tarn\nparts: &p\n  x: *p\n{bomb}"), "yaml-trap", MACHINE);
}

#[test]
fn ten_thousand_levels_of_yaml() {
    let flow = |open: &str, close: &str| format!("x: {}{}\n", open.repeat(10_000), close.repeat(10_000));
    for deep in [flow("[", "]"), flow("[", ""), flow("{a: ", "}"), flow("{a: ", ""), format!("x: {}y\n", "- ".repeat(10_000))] {
        let report = {
            let demo = Demo::copy();
            demo.write(PROCEDURE, step(&deep, "[Look](hold:editor)"));
            report(&demo)
        };
        assert!(report.contains("(nesting-too-deep)") || report.contains("(yaml-unreadable)"), "{report}");
    }
    let lists = format!("x:\n  {}y\n", "- ".repeat(10_000));
    spoilt(PROCEDURE, step(&lists, "[Look](hold:editor)"), "nesting-too-deep", PROCEDURE);
    let maps: String = (0..700).map(|n| format!("{}a:\n", " ".repeat(n))).collect();
    spoilt(PROCEDURE, step(&maps, "[Look](hold:editor)"), "nesting-too-deep", PROCEDURE);
}

#[test]
fn ten_thousand_levels_of_markdown() {
    for deep in [">".repeat(10_000), "- ".repeat(10_000), "1. ".repeat(10_000)] {
        spoilt(PROCEDURE, step("", &format!("{deep}x")), "nesting-too-deep", PROCEDURE);
    }
    for harmless in [
        "*a ".repeat(10_000),
        "*a**".repeat(10_000),
        "_a __".repeat(10_000),
        "[".repeat(10_000),
        "![".repeat(10_000),
        "[a](".repeat(10_000),
        format!("{}x{}", "[".repeat(10_000), "](torque:x)".repeat(10_000)),
        "`".repeat(10_000),
        "<a ".repeat(10_000),
        "[^a]".repeat(10_000),
        "&#".repeat(10_000),
        "\\".repeat(10_000),
        format!("| a {}\n| - {}\n", "| a ".repeat(5_000), "| - ".repeat(5_000)),
    ] {
        let demo = Demo::copy();
        demo.write(PROCEDURE, step("", &harmless));
        let output = run(&demo);
        assert!(matches!(output.status.code(), Some(0 | 1)) && output.stderr == demo::NOTHING_BEFORE);
    }
}

#[test]
fn two_megabytes_in_one_line() {
    let line = "look at it from every side, and then ".repeat(55_000);
    assert!(line.len() > 2_000_000);
    spoilt(PROCEDURE, step("", &format!("{line}[fit it](fit:nothing)")), "used-not-listed", &format!("{PROCEDURE}:9:{}", line.len() + 14));
    spoilt(PROCEDURE, procedure("", &format!("## {line} {{#look time=soon}}\n")), "number-unreadable", PROCEDURE);
    spoilt(PROCEDURE, step(&format!("colour: {}\n", "x".repeat(500_000)), "[Look](hold:editor)"), "unknown-key", "tarn-18/extra.md:5:1");
    spoilt(PROCEDURE, step(&format!("{}: y\n", "x".repeat(1_000)), "[Look](hold:editor)"), "unknown-key", "tarn-18/extra.md:5:1");
    spoilt(PROCEDURE, step("", &format!("[fit it](fit:{})", "x".repeat(1_000_000))), "used-not-listed", "tarn-18/extra.md:9:14");
}

#[test]
fn more_faults_than_anyone_reads() {
    let acts = "[fit it](fit:nothing) at 24 N·m\n\n".repeat(40_000);
    let demo = Demo::copy();
    demo.write(PROCEDURE, step("", &acts));
    let report = report(&demo);
    tells(&report, "used-not-listed", "tarn-18/extra.md:9:14");
    tells(&report, "naked-value", "tarn-18/extra.md:207:26");
    tells(&report, "too-many-faults", "tarn-18/extra.md:209:14");
    assert!(report.ends_with("101 errors, 100 warnings in 1 file\n"), "{report}");
    let entries: String = (0..5_000).map(|n| format!("  part-{n}: {{kind: thing}}\n")).collect();
    spoilt(PROCEDURE, step(&format!("parts:\n{entries}"), "[Look](hold:editor)"), "too-many-faults", PROCEDURE);
}

// ---- values

#[test]
fn values_beyond_all_measure() {
    let bolt = |torque: &str| {
        let head = format!("fasteners:\n  bolt:\n    thread: M8x1.25\n    torque: {torque}\n");
        step(&head, "[Tighten it](torque:bolt).")
    };
    for torque in ["1e300 N·m", "-1e300 N·m", "1e-300 N·m", "1e99999999999 N·m", "NaN N·m", "inf N·m", "∞ N·m"] {
        spoilt(PROCEDURE, bolt(torque), "number-unreadable", "tarn-18/extra.md:8");
    }
    spoilt(PROCEDURE, bolt(&format!("{} N·m", "9".repeat(100_000))), "number-unreadable", "tarn-18/extra.md:8");
    spoilt(PROCEDURE, bolt(&format!("0.{}1 N·m", "0".repeat(100_000))), "number-unreadable", "tarn-18/extra.md:8");
    let count = |count: &str| step(&format!("parts:\n  clip: {{count: {count}}}\n"), "[Fit it](fit:clip).");
    for many in ["-1", "1e9", "99999999999999999999999", "0x10", "1_000"] {
        spoilt(PROCEDURE, count(many), "value-of-another-form", "tarn-18/extra.md:6:17");
    }
    spoilt(PROCEDURE, step("parts:\n  clip: {}\n", "[Fit it](fit:clip*99999999999999999999)."), "act-unclear", "tarn-18/extra.md:11");
    for date in ["2026-02-30", "0000-00-00", "99999-01-01"] {
        spoilt(PROCEDURE, format!("---\ntitle: x\nrevision: 1\ndate: {date}\n---\n"), "value-of-another-form", "tarn-18/extra.md:4:7");
    }
}

#[test]
fn more_variants_than_anyone_makes() {
    let axes: String = (0..40).map(|n| format!("  axis-{n}: {{a{n}: one, b{n}: two, c{n}: three}}\n")).collect();
    let demo = Demo::copy();
    demo.write("many/machine.yaml", format!("name: Many\nvariants:\n{axes}"));
    let steps: String = (0..40).map(|n| format!("## Look {{#s{n} for=axis-{n}-a{n}}}\n\n[Look](hold:editor)\n\n")).collect();
    demo.write("many/look.md", procedure("", &steps));
    tells(&report(&demo), "variants-too-many", "many/machine.yaml");
}

#[test]
fn a_long_line_of_procedures() {
    let demo = Demo::copy();
    demo.write("many/machine.yaml", "name: Many\n");
    for n in 0..200 {
        let after = format!("after: [p{}]\n", (n + 1) % 200);
        demo.write(&format!("many/p{n}.md"), step(&after, "[Look](hold:editor)"));
    }
    tells(&report(&demo), "after-ring", "many/p199.md:5:9");
}

#[test]
fn no_word_of_a_manual_commands_the_terminal() {
    let words = "\u{1b}]0;title\u{7}\u{1b}[2J\u{202e}reversed\u{9b}31m";
    let demo = Demo::copy();
    demo.write(PROCEDURE, step("", &format!("{words} [Look](fit:{words})")));
    demo.write("tarn-18/\u{1b}[31m.md", step("", "[Look](hold:editor)"));
    let report = report(&demo);
    let control = |c: char| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c);
    assert!(!report.contains(control), "{report:?}");
}

/// The codes that move, clear, colour and rename are those of ECMA-48 and of xterm's control sequences; the marks that turn
/// a text those of Unicode Standard Annex 9.
#[test]
fn no_command_lets_a_word_of_a_manual_command_the_terminal() {
    let words = "\\e]0;title\\a\\e[2J\\e[31m\\u202ereversed\\x9b31m\\u2066\\r";
    let demo = Demo::copy();
    let spoil = |file: &str, from: &str, to: &str| {
        let text = demo.text(file);
        assert!(text.contains(from), "{file}: {from}");
        demo.write(file, text.replace(from, to));
    };
    spoil("manual.yaml", "title: Sallow Reach workshop manual", &format!("title: \"Sallow {words}\""));
    spoil("tarn-18/machine.yaml", "name: Tarn 18", &format!("name: \"Tarn {words}\""));
    spoil("tarn-18/propeller-shaft-carrier.md", "name: Ball bearing of the propeller shaft", &format!("name: \"Ball {words}\""));
    spoil("tarn-18/propeller-shaft-carrier.md", "title: Propeller-shaft carrier", &format!("title: \"Carrier {words}\""));
    let control = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let mut said = String::new();
    for arguments in [
        vec!["inspect"], vec!["inspect", "--format", "json"], vec!["inspect", "--format", "sarif"], vec!["kit"], vec!["kit", "--format", "json"], vec!["values"], vec!["values", "--format", "json"],
        vec!["recording", "compare"], vec!["explain", "\u{1b}[2J\u{202e}"], vec!["bind", "--into", "\u{1b}[2J", "--proof-copy"], vec!["draft", "procedure"], vec!["bulletin", "\u{1b}[2J"],
        vec!["paper", "\u{1b}[2J\u{9b}31m"],
    ] {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(&arguments).current_dir(demo.path()).output().unwrap();
        // What is wrong with the command line itself is told by its parser, to whoever typed it.
        if output.status.code() == Some(2) && output.stderr.starts_with(b"error:") {
            continue;
        }
        for stream in [&output.stdout, &output.stderr] {
            let stream = String::from_utf8_lossy(stream);
            assert!(!stream.contains(control), "{arguments:?}: {stream:?}");
            said.push_str(&stream);
        }
    }
    // It is told, and seen for what it is.
    assert!(said.contains("␛[2J") && said.contains("<U+202E>reversed") && said.contains("\\u202ereversed"));
}

/// A line's end in a name would let it say what only the program says: that nothing is wrong, that a sheet is current.
#[test]
fn no_word_of_a_manual_is_a_line_of_a_report() {
    let demo = Demo::copy();
    let spoil = |file: &str, name: &str| {
        let text = demo.text(file);
        assert!(text.contains(name), "{file}: {name}");
        let (key, words) = name.split_once(": ").unwrap();
        demo.write(file, text.replace(name, &format!("{key}: \"{words}\\nFORGED line\"")));
    };
    spoil("manual.yaml", "title: Sallow Reach workshop manual");
    spoil("shop.yaml", "name: Second reader");
    spoil("tarn-18/machine.yaml", "name: Tarn 18");
    spoil("tarn-18/propeller-shaft-carrier.md", "name: Ball bearing of the propeller shaft");
    spoil("tarn-18/propeller-shaft-carrier.md", "title: Propeller-shaft carrier");
    spoil("tarn-18/close-gearcase.md", "when: thread clean and head unmarked");
    let captions = demo.path().join("film.vtt");
    fs::write(&captions, "WEBVTT\n\n00:00:01.000 --> 00:00:04.000\ntwenty four newton metres\nFORGED line\n").unwrap();
    let original = demo::original();
    let original = original.to_str().unwrap();
    let mut seen = 0;
    for arguments in [
        vec!["inspect"], vec!["kit"], vec!["values"], vec!["explain", "carrier-bearing"], vec!["explain", "carrier-bolt"], vec!["explain", "no-such-thing"], vec!["bulletin", original],
        vec!["recording", "compare", "close-gearcase", "film.vtt"], vec!["recording", "gaps", "close-gearcase"], vec!["paper", "7K3M-Q0ZT-91XA"], vec!["kit", "--for", "shaft=none"],
    ] {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(&arguments).current_dir(demo.path()).output().unwrap();
        for stream in [&output.stdout, &output.stderr] {
            let stream = String::from_utf8_lossy(stream);
            assert!(!stream.lines().any(|line| line.trim_start().starts_with("FORGED")), "{arguments:?}: {stream}");
            seen += usize::from(stream.contains("␊FORGED"));
        }
    }
    assert!(seen >= 4, "the words were told {seen} times, which proves little");
}

// ---- anything

/// What a slip of the hand, an editor or an ill will may put into a file.
const SCRAPS: [&str; 34] = [
    "{", "}", "[", "]", "(", ")", ":", ": ", ",", "'", "\"", "`", "#", " #", "- ", "\n", "\n\n", "\t", "  ", "> ", "*", "**", "|", "](", "{#",
    "---\n", "é", "\u{feff}", "\0", "…", "N·m", "1e999", "for: {serial: late}", "\u{1F529}",
];

#[derive(Clone, Debug)]
enum Slip {
    Insert(prop::sample::Index, &'static str),
    Delete(prop::sample::Index, usize),
    Repeat(prop::sample::Index, usize),
    SwapLines(prop::sample::Index, prop::sample::Index),
    Byte(prop::sample::Index, u8),
}

fn slip() -> impl Strategy<Value = Slip> {
    let at = any::<prop::sample::Index>;
    prop_oneof![
        4 => (at(), prop::sample::select(&SCRAPS[..])).prop_map(|(at, scrap)| Slip::Insert(at, scrap)),
        4 => (at(), 1..40_usize).prop_map(|(at, length)| Slip::Delete(at, length)),
        2 => (at(), 1..400_usize).prop_map(|(at, length)| Slip::Repeat(at, length)),
        2 => (at(), at()).prop_map(|(one, other)| Slip::SwapLines(one, other)),
        1 => (at(), any::<u8>()).prop_map(|(at, byte)| Slip::Byte(at, byte)),
    ]
}

fn slipped(mut bytes: Vec<u8>, slip: &Slip) -> Vec<u8> {
    let place = |at: &prop::sample::Index| at.index(bytes.len() + 1);
    match slip {
        Slip::Insert(at, scrap) => {
            let at = place(at);
            bytes.splice(at..at, scrap.bytes());
        }
        Slip::Delete(at, length) => {
            let at = place(at);
            bytes.drain(at..(at + length).min(bytes.len()));
        }
        Slip::Repeat(at, length) => {
            let at = place(at);
            let piece = bytes[at..(at + length).min(bytes.len())].to_vec();
            bytes.splice(at..at, piece);
        }
        Slip::SwapLines(one, other) => {
            let mut lines: Vec<Vec<u8>> = bytes.split(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect();
            let (one, other) = (one.index(lines.len()), other.index(lines.len()));
            lines.swap(one, other);
            return lines.join(&b'\n');
        }
        Slip::Byte(at, byte) => {
            let at = place(at);
            bytes.insert(at, *byte);
        }
    }
    bytes
}

/// Every finding can be shown: its places lie in their files, and it says something.
fn is_sound(finding: &Finding, files: &FileTable) {
    let places = finding.related_places().iter().map(|(place, _)| place).chain([finding.place()]);
    for place in places {
        let text = files.text(place.file);
        assert!(text.get(place.start..place.end).is_some(), "{finding:#?}");
    }
    assert!(!finding.message().is_empty() && !finding.label_text().is_empty() && !finding.fix_text().is_empty(), "{finding:#?}");
    assert!(rules().iter().any(|rule| rule.name == finding.rule().name), "{}", finding.rule().name);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_manual_after_any_slips_is_inspected(slips in prop::collection::vec((any::<prop::sample::Index>(), slip()), 1..12)) {
        let demo = Demo::copy();
        let files = demo::files(demo.path());
        for (file, slip) in &slips {
            let path = &files[file.index(files.len())];
            let bytes = fs::read(path).unwrap();
            fs::write(path, slipped(bytes, slip)).unwrap();
        }
        let (sources, mut findings) = read(demo.path()).unwrap();
        let (manual, more) = lower(&sources);
        findings.extend(more);
        let report = inspect(&manual, &sources, findings, &Terms::default());
        report.findings.iter().chain(&report.waived).for_each(|finding| is_sound(finding, &sources.files));
        prop_assert!(text(&report.findings, &sources.files, Look::default()).ends_with('\n'));
        prop_assert!(json(&report.findings, &sources.files).is_ok());
        prop_assert!(sarif(&report.findings, &sources.files, &rules(), &Ground::Manual).is_ok());
    }
}
