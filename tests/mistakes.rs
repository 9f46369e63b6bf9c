//! Ten mistakes of ten kinds in ten places of the demonstration manual, and a mistake of writing beside them: one
//! run of the program tells them all, each with its rule and its place, and nothing else.

#![expect(clippy::disallowed_methods, reason = "a test copies the manual it spoils")]
#![expect(clippy::unwrap_used, reason = "a test fails by saying so")]

mod demo;

use demo::{Demo, inspect};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;

/// What is changed in the demonstration manual, and what must be told of it.
struct Mistake {
    /// The file that is changed.
    file: &'static str,
    from: &'static str,
    to: &'static str,
    rule: &'static str,
    /// The file it is told in, where that is another one.
    told_in: Option<&'static str>,
    /// A text that begins where it must be told; it stands in that file once.
    at: &'static str,
    /// What rightly follows from it in another file: rule, file, text at the place.
    also: &'static [(&'static str, &'static str, &'static str)],
}

const CARRIER: &str = "tarn-18/propeller-shaft-carrier.md";
const PINION: &str = "tarn-18/pinion-height-and-backlash.md";
const GEARCASE: &str = "tarn-18/close-gearcase.md";
const START: &str = "tarn-18/first-start.md";
const WORM: &str = "hb-2/worm-shaft-preload.md";
const BRAKE: &str = "hb-2/wet-brake-pack.md";
const COVER: &str = "hb-2/cover-fill-load-test.md";

const MISTAKES: [Mistake; 11] = [
    // A misspelt id in an act.
    Mistake {
        file: CARRIER,
        from: "(fit:carrier-clip)",
        to: "(fit:carrier-clp)",
        rule: "used-not-listed",
        told_in: None,
        at: "carrier-clp)",
        also: &[],
    },
    // A torque without its unit.
    Mistake {
        file: WORM,
        from: "torque: 24 N·m\n    order:",
        to: "torque: 24\n    order:",
        rule: "torque-unit-missing",
        told_in: None,
        at: "24\n    order:",
        also: &[],
    },
    // No torque for one of two variants.
    Mistake {
        file: PINION,
        from: "torque: {early: 70 ± 4 N·m, late: 78 ± 4 N·m}",
        to: "torque: {early: 70 ± 4 N·m}",
        rule: "variant-gap",
        told_in: None,
        at: "70 ± 4 N·m}\n    tool:",
        also: &[],
    },
    // A seal that does not say which way round.
    Mistake {
        file: COVER,
        from: "faces: {spring: winch-oil, back: air}, depth: 0 mm, lip: grease, in: housing-cover",
        to: "depth: 0 mm, lip: grease, in: housing-cover",
        rule: "seal-orientation-missing",
        told_in: None,
        at: "output-seal: {name:",
        also: &[],
    },
    // A thread locker by its colour.
    Mistake {
        file: "shop.yaml",
        from: "strength: medium",
        to: "strength: blue",
        rule: "locker-grade-missing",
        told_in: None,
        at: "blue",
        also: &[],
    },
    // A carrier left dry and never fitted for good: told where it is left.
    Mistake {
        file: GEARCASE,
        from: "[put the carrier in, weep hole downwards](fit:carrier)",
        to: "put the carrier in, weep hole downwards",
        rule: "deferral-never-closed",
        told_in: Some(CARRIER),
        at: "close-gearcase#carrier, forbids:",
        // The oil goes in with the carrier dry, and the motor is signed off like that.
        also: &[("barrier-crossed", GEARCASE, "[Fill until oil stands"), ("finished-with-open-items", START, "[Editor and second reader sign")],
    },
    // A value in the text.
    Mistake {
        file: BRAKE,
        from: "Worn past the limit, no pack",
        to: "Worn past 0.10 mm, no pack",
        rule: "naked-value",
        told_in: None,
        at: "0.10 mm, no pack",
        also: &[],
    },
    // A notice behind the acts it guards.
    Mistake {
        file: BRAKE,
        from: "> **WARNING** The springs are under load now. A bolt backed out by mistake lets the plate fly into your face. Keep the\n> [eye shield](tool:eye-shield) on and touch no bolt but the last two.\n\n[Take the two long studs out](remove:release-stud) and [run the last two bolts in by hand](start:retainer-bolt*2).\n",
        to: "[Take the two long studs out](remove:release-stud) and [run the last two bolts in by hand](start:retainer-bolt*2).\n\n> **WARNING** The springs are under load now. A bolt backed out by mistake lets the plate fly into your face. Keep the\n> [eye shield](tool:eye-shield) on and touch no bolt but the last two.\n",
        rule: "warning-after-step",
        told_in: None,
        at: "> **WARNING** The springs are under load now.",
        also: &[],
    },
    // A misspelt key.
    Mistake {
        file: "tarn-18/machine.yaml",
        from: "kind: housing, material: aluminium",
        to: "kind: housing, materail: aluminium",
        rule: "unknown-key",
        told_in: None,
        at: "materail",
        also: &[],
    },
    // A link to a step that is not there.
    Mistake {
        file: WORM,
        from: "(see:worm-shaft-preload#gap)",
        to: "(see:worm-shaft-preload#gpa)",
        rule: "broken-or-vague-link",
        told_in: None,
        at: "[the gap](see:worm-shaft-preload#gpa)",
        also: &[],
    },
    // A bracket that is never closed: the other mistakes in the same file are told all the same.
    Mistake {
        file: WORM,
        from: "check_with: contact-probe, source: bench-practice}",
        to: "check_with: contact-probe, source: bench-practice",
        rule: "yaml-unreadable",
        told_in: None,
        at: "{name: Heat for the worm bearings",
        also: &[],
    },
];

/// Rule, file, line, column.
type Told = (String, String, usize, usize);

impl Mistake {
    /// What must be told of it in a copy that holds it.
    fn told(&self, demo: &Demo) -> Vec<Told> {
        let own = (self.rule, self.told_in.unwrap_or(self.file), self.at);
        let told = |(rule, file, at): (&str, &str, &str)| {
            let (line, column) = demo.position(file, at);
            (rule.to_owned(), file.to_owned(), line, column)
        };
        std::iter::once(own).chain(self.also.iter().copied()).map(told).collect()
    }
}

fn spoilt() -> (Demo, BTreeSet<Told>) {
    let demo = Demo::copy();
    for mistake in &MISTAKES {
        demo.replace(mistake.file, mistake.from, mistake.to);
    }
    let wanted = MISTAKES.iter().flat_map(|mistake| mistake.told(&demo)).collect();
    (demo, wanted)
}

#[test]
fn every_mistake_is_of_another_kind() {
    let rules: BTreeSet<&str> = MISTAKES.iter().map(|mistake| mistake.rule).collect();
    assert_eq!(rules.len(), MISTAKES.len());
    let files: BTreeSet<&str> = MISTAKES.iter().map(|mistake| mistake.file).collect();
    assert_eq!(files.len(), 8);
}

#[test]
fn one_run_tells_every_mistake_in_words() {
    let (demo, wanted) = spoilt();
    let output = demo.inspect(&[]);
    assert_eq!(output.status.code(), Some(1));
    let report = String::from_utf8(output.stdout).unwrap();
    assert_eq!(in_words(&report), wanted, "{report}");
    assert!(report.ends_with("\n12 errors, 1 warning in 9 files\n"), "{report}");
    assert_eq!(output.stderr, demo::NOTHING_BEFORE);
}

#[test]
fn one_run_tells_every_mistake_as_json() {
    let (demo, wanted) = spoilt();
    let output = demo.inspect(&["--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let document: Value = serde_json::from_slice(&output.stdout).unwrap();
    let told = |finding: &Value| {
        let place = &finding["place"];
        (text(&finding["rule"]), text(&place["file"]), number(&place["line"]), number(&place["column"]))
    };
    let found: BTreeSet<Told> = document["findings"].as_array().unwrap().iter().map(told).collect();
    assert_eq!(found, wanted);
}

#[test]
fn one_run_tells_every_mistake_as_sarif() {
    let (demo, wanted) = spoilt();
    let output = demo.inspect(&["--format", "sarif"]);
    assert_eq!(output.status.code(), Some(1));
    let document: Value = serde_json::from_slice(&output.stdout).unwrap();
    let run = &document["runs"][0];
    // SARIF 2.1.0, 3.14.17: what a column counts.
    assert_eq!(run["columnKind"], "unicodeCodePoints");
    let told = |result: &Value| {
        let place = &result["locations"][0]["physicalLocation"];
        let region = &place["region"];
        let file = text(&place["artifactLocation"]["uri"]);
        (text(&result["ruleId"]), file, number(&region["startLine"]), number(&region["startColumn"]))
    };
    let found: BTreeSet<Told> = run["results"].as_array().unwrap().iter().map(told).collect();
    assert_eq!(found, wanted);
}

#[test]
fn each_mistake_alone_is_told_alone() {
    for mistake in &MISTAKES {
        let demo = Demo::copy();
        demo.replace(mistake.file, mistake.from, mistake.to);
        let output = demo.inspect(&[]);
        assert_eq!(output.status.code(), Some(1), "{}", mistake.rule);
        let report = String::from_utf8(output.stdout).unwrap();
        let wanted: BTreeSet<Told> = mistake.told(&demo).into_iter().collect();
        assert_eq!(in_words(&report), wanted, "{report}");
    }
}

#[test]
fn the_demonstration_manual_is_without_a_word() {
    let output = Demo::copy().inspect(&[]);
    assert_eq!(output.status.code(), Some(0));
    assert!(String::from_utf8(output.stdout).unwrap().contains("nothing found"));
    assert_eq!(output.stderr, demo::NOTHING_BEFORE);
}

#[test]
fn what_is_no_manual_can_not_be_inspected() {
    let empty = tempfile::TempDir::new().unwrap();
    for folder in [empty.path().to_path_buf(), empty.path().join("nowhere")] {
        let output = inspect(&folder, &[]);
        assert_eq!(output.status.code(), Some(2), "{}", folder.display());
        assert!(output.stdout.is_empty());
        assert!(String::from_utf8(output.stderr).unwrap().contains("manual.yaml"));
    }
    assert_eq!(inspect(Path::new("."), &["--colour", "green"]).status.code(), Some(2));
}

/// What a report for people tells: `Error — … (rule)` and below it `file:line:column`.
fn in_words(report: &str) -> BTreeSet<Told> {
    let mut told = BTreeSet::new();
    for block in report.split("\n\n").filter(|block| block.starts_with("Error — ") || block.starts_with("Warning — ")) {
        let (head, _) = block.split_once(")\n").unwrap();
        let rule = head.rsplit('(').next().unwrap();
        let spot = block.lines().find(|line| line.starts_with("  ") && line.matches(':').count() == 2).unwrap().trim();
        let mut parts = spot.rsplit(':');
        let (column, line, file) = (parts.next().unwrap(), parts.next().unwrap(), parts.next().unwrap());
        told.insert((rule.to_owned(), file.to_owned(), line.parse().unwrap(), column.parse().unwrap()));
    }
    told
}

fn text(value: &Value) -> String {
    value.as_str().unwrap().to_owned()
}

fn number(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}
