//! What to have and to order: the command, the page, and that both say the same.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, clippy::panic, reason = "a test may fail loudly and makes its own folders")]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn benchleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(project()).output().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// The demo with changes, in a folder of its own.
fn changed(changes: &[(&str, &str, &str)]) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let manual = folder.path().join("manual");
    for entry in walkdir::WalkDir::new(project().join("procedures")).into_iter().map(Result::unwrap) {
        let target = manual.join(entry.path().strip_prefix(project().join("procedures")).unwrap());
        if entry.file_type().is_dir() {
            fs::create_dir_all(target).unwrap();
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
    for (file, from, to) in changes {
        let path = manual.join(file);
        let old = fs::read_to_string(&path).unwrap();
        assert!(old.contains(from), "{file} does not hold ‘{from}’");
        fs::write(path, old.replacen(from, to, 1)).unwrap();
    }
    (folder, manual)
}

fn lines(arguments: &[&str]) -> Vec<Value> {
    let output = benchleaf(&[arguments, &["--format", "json"]].concat());
    assert!(output.status.success(), "{}", err(&output));
    let document: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!((document["format"].as_str(), document["version"].as_u64()), (Some("benchleaf-kit-list"), Some(1)));
    document["machines"].as_array().unwrap().iter().flat_map(|machine| machine["lines"].as_array().unwrap().clone()).collect()
}

fn line<'l>(lines: &'l [Value], id: &str) -> &'l Value {
    lines.iter().find(|line| line["id"] == id).unwrap_or_else(|| panic!("no line of {id}"))
}

/// A pump whose rings soak in one procedure and go in in another, and whose locker cures without being begun by an act.
fn soaking() -> TempDir {
    let folder = TempDir::new().unwrap();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    fs::create_dir(folder.path().join("pump")).unwrap();
    write("manual.yaml", "title: Little\npublisher: Example club (invented)\nlanguage: en\nprofile: working\n");
    write("shop.yaml", "materials:\n  bath: {name: Packing oil, kind: oil}\n  glue: {name: Thread locker, kind: thread-locker, strength: medium, cure: 24 h}\ntools:\n  wrench: {name: Small wrench, kind: torque-wrench, range: 2–20 N·m}\n");
    write(
        "pump/machine.yaml",
        "name: Pump\nmaker: Example works (invented)\nparts:\n  ring: {name: Packing ring, kind: other, count: 5, faces: either, reuse: never, from: order}\nfasteners:\n  screw: {name: Cover screw, count: 4, thread: M6x1.0, class: 8.8, role: cover, threads: locker, locker: glue, torque: 9 N·m}\nwaits:\n  soak: {name: Rings under oil, time: ≥ 12 h, of: [ring], in: bath, covered: true, needs: nothing}\n  cure: {name: Locker of the screws, time: ≥ 24 h, of: [screw]}\n",
    );
    let procedure = |title: &str, after: &str, body: &str| format!("---\ntitle: {title}\nrevision: 1\ndate: 2026-09-14\n{after}---\n\n## Work {{#work}}\n\n{body}\n");
    write("pump/lay.md", &procedure("Lay them in", "", "[Lay them under](begin:soak)."));
    write("pump/push.md", &procedure("Push them in", "after: [lay]\n", "[They have soaked](wait:soak). [Push them in](fit:ring). [Clean the screws](clean:screw). [Locker on](apply:glue@screw), [run the screws up](start:screw) and [tighten them](torque:screw). [It has cured](wait:cure)."));
    folder
}

#[test]
fn what_is_laid_in_something_is_on_the_lists_of_where_it_is_laid() {
    let folder = soaking();
    let manual = folder.path().to_str().unwrap();
    let of_lay = lines(&["kit", manual, "lay"]);
    assert_eq!(line(&of_lay, "bath")["section"], "material");
    let ring = line(&of_lay, "ring");
    assert_eq!((ring["section"].as_str(), ring["new"].as_u64(), ring["to_order"].as_u64()), (Some("new"), Some(5), Some(5)));
    // Of both procedures together they are wanted once.
    let of_all = lines(&["kit", manual]);
    assert_eq!((line(&of_all, "ring")["new"].as_u64(), of_all.iter().filter(|line| line["id"] == "ring").count()), (Some(5), 1));

    let elsewhere = TempDir::new().unwrap();
    let site = elsewhere.path().join("site");
    let bound = benchleaf(&["bind", manual, "--into", site.to_str().unwrap()]);
    assert!(bound.status.success(), "{}", err(&bound));
    let sheet = fs::read_to_string(site.join("pump/lay-sheet.html")).unwrap();
    let (before, _) = sheet.split_once("Lay them under").unwrap();
    assert!(before.contains("5 × Packing</bdi> ring") && before.contains("Packing oil"), "{before}");
    let shots = out(&benchleaf(&["recording", "shots", "pump/lay", "--manual", manual]));
    let (ready, _) = shots.split_once("\nShots\n").unwrap();
    assert!(ready.contains("[ ] 5 × Packing ring") && ready.contains("[ ] Packing oil"), "{shots}");
}

#[test]
fn a_wait_that_no_act_begins_is_on_the_list() {
    let folder = soaking();
    let manual = folder.path().to_str().unwrap();
    let told = |arguments: &[&str]| {
        let lines = lines(arguments);
        lines.iter().filter(|line| line["section"] == "wait").map(|line| format!("{}: {}", line["id"].as_str().unwrap(), line["details"].as_str().unwrap())).collect::<Vec<_>>()
    };
    assert_eq!(told(&["kit", manual]), ["soak: ≥ 12 h; begin now, step 1 of Lay them in", "cure: ≥ 24 h; waited for, step 1 of Push them in"]);
    // Alone, the later procedure waits for what the earlier has begun.
    assert_eq!(told(&["kit", manual, "push"]), ["soak: ≥ 12 h; waited for, step 1 of Push them in", "cure: ≥ 24 h; waited for, step 1 of Push them in"]);
}

/// What a wrench is set to for the pinion nut.
fn of_pinion(wrench: &Value) -> &Value {
    wrench["sets"].as_array().unwrap().iter().find(|set| set["fastener"] == "Pinion nut").unwrap()
}

// The figures stand in procedures/tarn-18/: counts, the kits' contents, the foot wrench's scale and its step of half a pound-foot
// (78 N·m / 1.3558 = 57.53 lbf·ft).
#[test]
fn the_chosen_work_of_a_variant_is_told() {
    let all = lines(&["kit", "tarn-18", "--for", "shaft=L,serial=late"]);
    assert_eq!(line(&all, "carrier-clip")["spare"], 1);
    assert_eq!(line(&all, "screw-washer")["new"], 2);
    assert!(all.iter().all(|line| line["id"] != "drive-shaft"), "the short shaft's part is not in a long one");
    assert_eq!(line(&all, "long-drive-shaft")["details"], "0714");
    assert_eq!(line(&all, "gear-oil")["amount"], "260 mL");
    let wrench = line(&all, "foot-wrench");
    let set = of_pinion(wrench);
    assert_eq!((set["fastener"].as_str(), set["torque"].as_str(), set["set"].as_str()), (Some("Pinion nut"), Some("78 ± 4 N·m"), Some("57.5 lbf·ft")));
    let early = lines(&["kit", "tarn-18", "--for", "early"]);
    let set = of_pinion(line(&early, "foot-wrench"));
    assert_ne!(set["torque"], "78 ± 4 N·m");
}

// The sizes stand in procedures/tarn-18/: `drive:` of each fastener.
#[test]
fn the_spanners_and_keys_of_the_chosen_work_are_told() {
    let all = lines(&["kit", "pinion-height-and-backlash"]);
    let drives: Vec<(&str, &str)> = all.iter().filter(|line| line["section"] == "drive").map(|line| (line["name"].as_str().unwrap(), line["details"].as_str().unwrap())).collect();
    assert_eq!(drives, [("19 mm hex", "Pinion nut")]);
    let all = lines(&["kit", "tarn-18"]);
    let sizes: Vec<&str> = all.iter().filter(|line| line["section"] == "drive").map(|line| line["name"].as_str().unwrap()).collect();
    assert_eq!(sizes, ["4 mm hex", "5 mm hex", "10 mm hex", "12 mm hex", "13 mm hex", "16 mm hex", "19 mm hex", "21 mm hex", "24 mm hex", "32 mm hex"]);
    assert_eq!(line(&all, "16 mm hex")["procedures"], serde_json::json!(["strip-and-tag", "head-valves-camshaft"]));
    let told = out(&benchleaf(&["kit", "pinion-height-and-backlash"]));
    assert!(told.contains("Spanners, sockets and keys\n  [ ] 19 mm hex"), "{told}");
}

#[test]
fn what_is_not_known_is_told_for_each() {
    let all = lines(&["kit", "close-gearcase"]);
    let anodes: Vec<(&str, &str)> =
        all.iter().filter(|line| line["id"] == "anode").map(|line| (line["variant"].as_str().unwrap(), line["details"].as_str().unwrap())).collect();
    assert_eq!(anodes, [("water fresh", "0731"), ("water salt", "0732")]);
    assert_eq!(all.iter().filter(|line| line["id"] == "impeller").count(), 1, "what is the same in all stands once");
    let salt = lines(&["kit", "tarn-18/close-gearcase", "--for", "salt"]);
    assert_eq!((&line(&salt, "anode")["variant"], &line(&salt, "anode")["details"], &line(&salt, "anode")["to_order"]), (&"".into(), &"0732".into(), &1.into()));
}

#[test]
fn what_no_kit_brings_is_ordered() {
    const CLOSE: &str = "tarn-18/close-gearcase.md";
    let short = [
        (CLOSE, "screw-washer: 2}", "screw-washer: 1}"),
        (CLOSE, "base-gasket: 1, ", ""),
        ("shop.yaml", "base: mineral, pack: 1 L, source: store-cards}\n  joint", "base: mineral, pack: 100 mL, packs: 2, source: store-cards}\n  joint"),
    ];
    let (_folder, manual) = changed(&short);
    let all = lines(&["kit", manual.to_str().unwrap(), "close-gearcase"]);
    assert_eq!(line(&all, "screw-washer")["to_order"], 1);
    assert_eq!((&line(&all, "base-gasket")["to_order"], &line(&all, "base-gasket")["from"]), (&1.into(), &"nobody says from where".into()));
    assert_eq!(line(&all, "impeller")["to_order"], 0);
    // 260 mL out of packs of 100 mL: three, and two are in hand.
    assert_eq!((&line(&all, "gear-oil")["packs"], &line(&all, "gear-oil")["to_order"]), (&3.into(), &1.into()));
    let told = out(&benchleaf(&["kit", manual.to_str().unwrap(), "close-gearcase"]));
    let (kits, rest) = told.split_once("\nTo order: what no kit brings").unwrap();
    assert!(kits.contains("Kits to get\n  [ ] 1 × Gearcase closing kit (invented)"), "{kits}");
    assert_eq!(line(&all, "closing-kit")["count"], 1);
    let order = rest.split("New, in hand").next().unwrap();
    for words in ["1 × Sealing washer of the oil screws", "1 × Gasket of the pump base", "1 packs; 260 mL is used, Outboard gear oil"] {
        assert!(order.contains(words), "{words} is not in\n{order}");
    }
}

#[test]
fn spreadsheets_get_the_same_lines() {
    let told = out(&benchleaf(&["kit", "--format", "csv"]));
    let rows: Vec<&str> = told.split("\r\n").filter(|row| !row.is_empty()).collect();
    assert_eq!(rows.len(), lines(&["kit"]).len() + 1);
    assert!(rows[0].starts_with("machine,section,id,name,details,count,new,spare"));
    assert!(rows.iter().any(|row| row.starts_with("tarn-18,inspect,carrier-bolt,Carrier bolt,\"M8 × 1.25, 35 mm, A4-80\",2,0,0,inspect")), "{told}");
}

#[test]
fn names_that_are_none_are_told_with_what_there_is() {
    let output = benchleaf(&["kit", "close-gearcas"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("Did you mean ‘close-gearcase’?"), "{}", err(&output));
    let output = benchleaf(&["kit", "tarn-18", "--for", "shaft=XL"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("shaft=S|L"), "{}", err(&output));
    let output = benchleaf(&["kit", "tarn-18", "--for", "S,L"]);
    assert!(err(&output).contains("two values of shaft"), "{}", err(&output));
}

/// The page is made from the same list: what a procedure's page asks for new, the list has, and the page of what to have shows.
#[test]
fn page_and_command_agree() {
    let folder = TempDir::new().unwrap();
    let site = folder.path().join("site");
    let output = benchleaf(&["bind", "procedures", "--into", site.to_str().unwrap()]);
    assert!(output.status.success(), "{}", err(&output));
    let read = |path: &str| {
        let html = fs::read_to_string(site.join(path)).unwrap();
        html.replace('\u{a0}', " ").replace("&#39;", "'").replace("<bdi>", "").replace("</bdi>", "")
    };
    let page = read("tables/to-have.html");
    let machine = fs::read_to_string(site.join("tarn-18/index.html")).unwrap();
    assert!(machine.contains("href=\"../tables/to-have.html#tarn-18.table\""));
    let close = read("tarn-18/close-gearcase.html");
    let new = close.split("New, in hand").nth(1).unwrap().split("Used again").next().unwrap();
    let mut seen = 0;
    for line in lines(&["kit"]) {
        let name = line["name"].as_str().unwrap();
        assert!(page.contains(name), "{name} is not on the page");
        let here = line["procedures"].as_array().unwrap().iter().any(|procedure| procedure == "close-gearcase");
        if line["section"] == "new" && here {
            assert!(new.contains(name), "{name} is not new on the page of its procedure");
            seen += 1;
        }
    }
    assert!(seen >= 6, "{seen}");
    assert!(page.contains("Pinion nut (serial late): 57.5 lbf·ft for 78 ± 4 N·m"), "what a wrench is set to");
}
