//! What stands behind a value: on the command line, on the pages, and beside it where it is waived or unsourced.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes its own folders")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

const CLOSE: &str = "tarn-18/close-gearcase.md";
const PINION: &str = "tarn-18/pinion-height-and-backlash.md";
/// A torque below what is usual for it, and the one who answers for it.
const LOW: (&str, &str) = ("torque: 3.5 N·m", "torque: 1.2 N·m");
const WAIVER: &str = "waivers: [{rule: torque-outside-band, of: anode-screw, because: soft anode under the head, by: second-reader, until: 2099-12-31}]\n";

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn benchleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(project()).output().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A copy of the demo with changes, and the folder it may be published into.
struct Copy {
    folder: TempDir,
}

impl Copy {
    fn new(changes: &[(&str, &str, &str)]) -> Self {
        let copy = Self { folder: TempDir::new().unwrap() };
        for entry in walkdir::WalkDir::new(project().join("procedures")).into_iter().map(Result::unwrap) {
            let target = copy.manual().join(entry.path().strip_prefix(project().join("procedures")).unwrap());
            if entry.file_type().is_dir() {
                fs::create_dir_all(target).unwrap();
            } else {
                fs::copy(entry.path(), target).unwrap();
            }
        }
        // What build records tell is no part of what is looked at here.
        for machine in ["hb-2", "tarn-18"] {
            fs::remove_dir_all(copy.manual().join(machine).join("builds")).unwrap();
        }
        for (file, from, to) in changes {
            let path = copy.manual().join(file);
            let old = fs::read_to_string(&path).unwrap();
            assert!(from.is_empty() || old.contains(from), "{file} does not hold ‘{from}’");
            let new = if from.is_empty() { format!("{old}{to}") } else { old.replacen(from, to, 1) };
            fs::write(path, new).unwrap();
        }
        copy
    }

    fn manual(&self) -> PathBuf {
        self.folder.path().join("manual")
    }

    fn run(&self, command: &[&str]) -> Output {
        let manual = self.manual();
        let (first, rest) = command.split_first().unwrap();
        let mut arguments = vec![*first];
        if *first == "explain" {
            arguments.extend(rest);
            arguments.push(manual.to_str().unwrap());
        } else {
            arguments.push(manual.to_str().unwrap());
            arguments.extend(rest);
        }
        // From its own folder: the project's published site is none of its business.
        Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(self.folder.path()).output().unwrap()
    }

    /// Publishes, and gives the text of a page without its tags.
    fn page(&self, path: &str) -> String {
        let site = self.folder.path().join("site");
        let output = self.run(&["bind", "--into", site.to_str().unwrap()]);
        assert!(output.status.success(), "{}{}", out(&output), String::from_utf8_lossy(&output.stderr));
        let html = fs::read_to_string(site.join(path)).unwrap().replace("<bdi>", "").replace("</bdi>", "");
        let mut text = String::new();
        for piece in html.split('<') {
            let after = piece.split_once('>').map_or(piece, |(_, after)| after);
            text.push_str(after);
            text.push(' ');
        }
        text.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

#[test]
fn a_torque_tells_its_source_its_preload_its_share_of_proof_its_wrench_and_its_uses() {
    let told = out(&benchleaf(&["explain", "pinion-nut.torque"]));
    // F = T/(K·d) = 70 N·m / (0.18 × 12 mm) = 32.4 kN. Proof load of M12×1.25 of class 8.8, which goes with a nut of class 8:
    // 53.4 kN (ISO 898-1:2013, table 7), and 32.4 is 61 % of it.
    for words in [
        "70 ± 4 N·m (serial early)",
        "serial late: Orrinshaw bulletin 2 (invented), page 1, maker, 2026-08-30",
        "serial early: locker",
        "serial early: about 32.4 kN (25.0–41.1 kN",
        "serial early: about 61 % (47–77 %) of class 8; plausible for role shaft-nut",
        "Torque wrench 15–80 lbf·ft: set 57.5 lbf·ft",
        "torque: in Pinion height and backlash, step 7 (Tighten the pinion nut)",
        "revision 4: pinion-nut.torque was serial late: 70 ± 4 N·m",
        "changed by      revision 4: Orrinshaw bulletin 2 (invented), page 1, maker, 2026-08-30",
        "The maker's service data decide.",
    ] {
        assert!(told.contains(words), "no ‘{words}’ in\n{told}");
    }
    assert!(!told.to_lowercase().contains("correct"), "{told}");
}

#[test]
fn any_other_value_tells_its_source_and_its_uses() {
    let told = out(&benchleaf(&["explain", "carrier-inner.depth"]));
    assert!(told.contains("10 mm") && told.contains("Society measurement sheet 7, page 1, measured, 2026-03-02"), "{told}");
    assert!(told.contains("fit: in Propeller-shaft carrier, step 4"), "{told}");
    assert!(!told.contains("preload"), "{told}");
}

#[test]
fn a_misspelt_value_offers_the_nearest() {
    for (written, meant) in [
        ("pinoin-nut.torque", "pinion-nut.torque"),
        ("pinion-nut.torqe", "pinion-nut.torque"),
        ("tarn-18/pinion-nut.torqe", "tarn-18/pinion-nut.torque"),
        ("tarn-8/pinion-nut", "tarn-18/pinion-nut"),
        ("torque-unit-missin", "torque-unit-missing"),
    ] {
        let output = benchleaf(&["explain", written]);
        assert_eq!(output.status.code(), Some(2));
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(told.contains(&format!("Did you mean ‘{meant}’?")), "{told}");
    }
}

#[test]
fn the_full_name_that_a_bulletin_prints_is_understood() {
    let short = out(&benchleaf(&["explain", "pinion-nut.torque"]));
    for name in ["tarn-18/pinion-height-and-backlash/pinion-nut.torque", "tarn-18/pinion-nut.torque", "pinion-height-and-backlash/pinion-nut.torque"] {
        assert_eq!(out(&benchleaf(&["explain", name])), short, "{name}");
    }
    assert_eq!(out(&benchleaf(&["explain", "tarn-18/pinion-height-and-backlash/pinion-nut.*"])), out(&benchleaf(&["explain", "pinion-nut"])));
    assert_eq!(benchleaf(&["explain", "hb-2/pinion-nut.torque"]).status.code(), Some(2));
}

#[test]
fn the_page_tells_what_the_command_tells() {
    let page = Copy::new(&[]).page("tarn-18/pinion-height-and-backlash.behind.html");
    for words in ["What stands behind each torque", "about 32.4 kN (25.0–41.1 kN", "about 61 % (47–77 %) of the proof load, class 8", "plausible for a nut on a shaft", "Orrinshaw bulletin 2 (invented), page 1", "set 57.5 lbf·ft (78.0 N·m)"] {
        assert!(page.contains(words), "no ‘{words}’ in\n{page}");
    }
}

#[test]
fn an_adapter_is_reckoned_into_what_is_set() {
    let given = "torque: {early: 70 ± 4 N·m, late: 78 ± 4 N·m}";
    let copy = Copy::new(&[(PINION, given, "torque: {early: 70 ± 4 N·m, late: 78 ± 4 N·m}\n    adapter: {length: 45 mm, angle: 0°}")]);
    // T·L/(L + E) (FAA AC 43.13-1B, chapter 7): 78 N·m × 460/(460 + 45) = 71.05 N·m = 52.4 lbf·ft, on a scale in halves 52.5.
    let page = copy.page("tarn-18/pinion-height-and-backlash.html");
    assert!(page.contains("late · set 52.5 lbf·ft (71.2 N·m)"), "{page}");
    let sheet = copy.page("tarn-18/pinion-height-and-backlash-sheet-late.html");
    assert!(sheet.contains("set 52.5 lbf·ft (71.2 N·m)") && sheet.contains("with an adapter of 45 mm (1.77 in), 0°"), "{sheet}");
    let told = out(&copy.run(&["explain", "pinion-nut.torque"]));
    assert!(told.contains("serial late: Torque wrench 15–80 lbf·ft: set 52.5 lbf·ft with the adapter on"), "{told}");
}

#[test]
fn a_waiver_stands_beside_the_value_on_page_sheet_and_table_and_in_every_report() {
    let bare = Copy::new(&[(CLOSE, LOW.0, LOW.1)]);
    let report = bare.run(&["inspect"]);
    assert_eq!(report.status.code(), Some(1), "the fault is one without the waiver");
    assert!(out(&report).contains("torque-outside-band"), "{}", out(&report));

    let copy = Copy::new(&[(CLOSE, LOW.0, LOW.1), ("manual.yaml", "", WAIVER)]);
    let words = "soft anode under the head (Second reader, until 2099-12-31)";
    for path in ["tarn-18/close-gearcase.html", "tarn-18/close-gearcase-sheet-S-salt.html", "tables/torque.html"] {
        let page = copy.page(path);
        assert!(page.contains("waived: 1.2 N·m on Anode screw is") && page.contains(words), "{path}:\n{page}");
    }
    let report = copy.run(&["inspect"]);
    assert_eq!(report.status.code(), Some(0));
    assert!(out(&report).contains("nothing found") && out(&report).contains(words), "{}", out(&report));
    let json: serde_json::Value = serde_json::from_slice(&copy.run(&["inspect", "--format", "json"]).stdout).unwrap();
    assert_eq!(json["findings"].as_array().unwrap().len(), 0);
    assert_eq!(json["waived"][0]["waiver"]["by"], "Second reader");
    let sarif: serde_json::Value = serde_json::from_slice(&copy.run(&["inspect", "--format", "sarif"]).stdout).unwrap();
    let suppression = &sarif["runs"][0]["results"][0]["suppressions"][0];
    assert_eq!((&suppression["kind"], &suppression["status"]), (&"external".into(), &"accepted".into()));
    assert!(out(&copy.run(&["explain", "anode-screw.torque"])).contains(words));
}

#[test]
fn a_value_without_a_source_says_so_where_it_stands() {
    let profile = ("manual.yaml", "profile: published", "profile: club");
    let source = fs::read_to_string(project().join("procedures").join(CLOSE)).unwrap();
    let at = source.find("  level-screw:").unwrap();
    let line = source[at..].lines().find(|line| line.trim_start().starts_with("source:")).unwrap().to_owned();
    let copy = Copy::new(&[profile, (CLOSE, &source[at..][..source[at..].find(&line).unwrap() + line.len() + 1], &source[at..][..source[at..].find(&line).unwrap()])]);
    let page = copy.page("tarn-18/close-gearcase.html");
    let act = &page[page.find("tighten the level screw").unwrap()..];
    assert!(act[..400].contains("unsourced"), "{act}");
    let table = copy.page("tables/torque.html");
    let row = &table[table.find("Level screw, upper hole").unwrap()..];
    assert!(row[..row.find("9 N·m").unwrap()].contains("unsourced"), "{row}");
    assert!(out(&copy.run(&["explain", "level-screw.torque"])).contains("source          unsourced"));
}
