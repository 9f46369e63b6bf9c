//! `bulletin` and `paper` from end to end: what changed between two states, what printed sheets that makes out of date,
//! and whether a paper or a record in the hand is still current.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]
#![expect(clippy::disallowed_methods, reason = "a test makes its own folders")]

use boon::{Compiler, Schemas};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const SHOP: &str = "tools:\n  wrench: {name: Torque wrench 5–25 N·m, kind: torque-wrench, range: 5–25 N·m}\nmaterials:\n  medium-locker: {name: Medium-strength thread locker, kind: thread-locker, strength: medium, cure: 24 h, source: sheet}\nsources:\n  sheet: {title: Data sheet (invented), kind: maker}\npeople:\n  editor: {name: Editor}\n";
const MACHINE: &str = "name: Tarn\nmaker: Example works (invented)\nrevision: 1\ndate: 2026-09-14\nvariants: {serial: {early: ≤ 4199, late: ≥ 4200}}\n";

/// A procedure of one revision: torque and change lines as given, with the text of its step.
fn hub(revision: u32, torque: &str, changes: &str, text: &str) -> String {
    format!(
        "---\ntitle: Hub\nrevision: {revision}\ndate: 2026-09-14\nchanges: [{changes}]\nfasteners:\n  hub-bolt: {{name: Hub bolt, count: 2, thread: M6x1.0, class: 8.8, role: cover, torque: {torque}, critical: true, source: sheet}}\n  lid-bolt: {{name: Lid bolt, count: 2, thread: M6x1.0, class: 8.8, role: cover, torque: 9 N·m, source: sheet}}\n---\n\n## Tighten {{#tighten}}\n\n{text}\n\n## Lid {{#lid}}\n\n[Tighten the lid bolts](torque:lid-bolt).\n"
    )
}

const TEXT: &str = "[Start the hub bolts](start:hub-bolt). [Tighten the hub bolts](torque:hub-bolt). [Editor looks](hold:editor)";
const LINE: &str = "{revision: 2, of: hub-bolt.torque, was: {late: 9 N·m}, because: hubs crept, source: sheet}";

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn manual(hub: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    write(folder.path(), "manual.yaml", "title: Little manual\npublisher: Example club (invented)\nprofile: working\n");
    write(folder.path(), "shop.yaml", SHOP);
    write(folder.path(), "tarn/machine.yaml", MACHINE);
    write(folder.path(), "tarn/hub.md", hub);
    folder
}

fn benchleaf(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).current_dir(std::env::temp_dir()).output().unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap().replace('\u{a0}', " ")
}

fn bulletin(old: &Path, new: &Path) -> (String, Value) {
    let (old, new) = (old.to_str().unwrap(), new.to_str().unwrap());
    let text = benchleaf(&["bulletin", old, new]);
    assert_eq!(text.status.code(), Some(0), "{}", String::from_utf8_lossy(&text.stderr));
    (said(&text), fitting("bulletin", &["bulletin", old, new, "--format", "json"]))
}

/// What is printed for scripts, held against the schema that the program prints for it, by a checker that is not ours (boon).
fn fitting(kind: &str, words: &[&str]) -> Value {
    let printed: Value = serde_json::from_slice(&benchleaf(words).stdout).unwrap();
    let schema: Value = serde_json::from_slice(&benchleaf(&["schema", kind]).stdout).unwrap();
    let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
    compiler.add_resource("https://schemas.example/printed.json", schema).unwrap();
    let index = compiler.compile("https://schemas.example/printed.json", &mut schemas).unwrap();
    if let Err(error) = schemas.validate(&printed, index) {
        panic!("{words:?}: {error:#}");
    }
    // A schema that lets everything through says nothing.
    let mut other = printed.clone();
    other["version"] = json!(2);
    assert!(schemas.validate(&other, index).is_err());
    for what in ["bulletin", "paper", "record"] {
        let Some(parts) = printed.get(what).and_then(Value::as_object) else { continue };
        for name in parts.iter().filter(|(_, value)| !value.is_null()).map(|(name, _)| name) {
            let mut other = printed.clone();
            other[what][name] = json!({ "not": "this" });
            assert!(schemas.validate(&other, index).is_err(), "{kind}: {name} may be anything");
        }
    }
    printed
}

fn git(folder: &Path, words: &[&str]) {
    let who = ["-c", "user.name=Editor", "-c", "user.email=editor@club.example", "-c", "commit.gpgsign=false"];
    let run = Command::new("git").arg("-C").arg(folder).args(who).args(words).output().unwrap();
    assert!(run.status.success(), "git {words:?}: {}", String::from_utf8_lossy(&run.stderr));
}

/// The fingerprint that `bind` prints on a sheet.
fn fingerprint(folder: &Path, sheet: &str) -> String {
    let site = TempDir::new().unwrap();
    let into = site.path().join("site");
    let run = benchleaf(&["bind", folder.to_str().unwrap(), "--into", into.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(0), "{}", said(&run));
    let page = fs::read_to_string(into.join(sheet)).unwrap();
    page.split("data-fingerprint=\"").nth(1).unwrap().split('"').next().unwrap().to_owned()
}

#[test]
fn a_changed_value_is_told_in_words_with_its_line_and_its_sheets() {
    let old = manual(&hub(1, "{early: 9 N·m, late: 9 N·m}", "", TEXT));
    let new = manual(&hub(2, "{early: 9 N·m, late: 10 N·m}", LINE, TEXT));
    let (text, json) = bulletin(old.path(), new.path());
    for words in [
        "1 change of a value or thing (1 critical); 1 of 2 printed sheets is out of date; 1 of 1 torque card or board is out of date",
        "Critical\n  Hub bolt, torque, serial late: 9 → 10 N·m\n",
        "used in tarn/hub #tighten; 1 sheet out of date; 1 torque card or board out of date",
        "revision 2 of 2026-09-14: hubs crept (sheet)",
        "Papers out of date: print them again\n  sheet tarn/hub, serial late   ",
        "\n  torque card tarn   ",
        "never tells that a value is correct",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert!(!text.contains("NO CHANGE LINE") && !text.contains("serial early"), "{text}");
    let change = &json["bulletin"]["changes"][0];
    assert_eq!((json["format"].as_str(), json["version"].as_u64()), (Some("benchleaf-bulletin"), Some(1)));
    assert_eq!((&change["weight"], &change["was"], &change["now"]), (&json!("critical"), &json!("9 N·m"), &json!("10 N·m")));
    assert_eq!((&change["variant"], &change["sheets"], &change["untold"]), (&json!("serial late"), &json!(1), &json!(false)));
    assert_eq!(change["used_in"][0]["steps"], json!(["tighten"]));
    // The sheets told are those that `bind` prints.
    let sheet = json["bulletin"]["sheets"].as_array().unwrap().iter().find(|sheet| sheet["fate"] == "out-of-date").unwrap();
    assert_eq!(sheet["was"], json!(fingerprint(old.path(), "tarn/hub-sheet-late.html")));
    assert_eq!(sheet["now"], json!(fingerprint(new.path(), "tarn/hub-sheet-late.html")));
    // So is the card.
    let card = &json["bulletin"]["wall_papers"][0];
    assert_eq!((&card["paper"], &card["fate"], &change["wall_papers"]), (&json!("torque-card"), &json!("out-of-date"), &json!(1)));
    assert_eq!(card["was"], json!(fingerprint(old.path(), "tarn/torque-card.html")));
    assert_eq!(card["now"], json!(fingerprint(new.path(), "tarn/torque-card.html")));
}

/// A board is out of date where its places change, and its card is not; a layout too large for the paper has no board.
#[test]
fn boards_are_told_beside_sheets_and_cards_and_only_where_there_is_one() {
    let placed = |text: &str, at: &str| text.replace("name: Hub bolt, count: 2,", &format!("name: Hub bolt, count: 2, layout: {{at: [[0, 0], {at}]}},"));
    let old = manual(&placed(&hub(1, "9 N·m", "", TEXT), "[40, 0]"));
    let line = "{revision: 2, of: hub-bolt.layout, was: '{at: [[0, 0], [40, 0]]}', because: measured again, source: sheet}";
    let (text, json) = bulletin(old.path(), manual(&placed(&hub(2, "9 N·m", line, TEXT), "[45, 0]")).path());
    assert!(text.contains("\n  bolt board tarn/hub/hub-bolt   "), "{text}");
    let fates: Vec<(&str, &str)> = json["bulletin"]["wall_papers"].as_array().unwrap().iter().map(|paper| (paper["paper"].as_str().unwrap(), paper["fate"].as_str().unwrap())).collect();
    assert!(fates.contains(&("board", "out-of-date")), "{fates:?}");
    // An earlier board that the holes outgrow hangs on for nothing; one that was never there is not told.
    let (text, _) = bulletin(old.path(), manual(&placed(&hub(2, "9 N·m", line, TEXT), "[400, 0]")).path());
    assert!(text.contains("Papers that are no more\n  bolt board tarn/hub/hub-bolt   "), "{text}");
    let large = manual(&placed(&hub(1, "9 N·m", "", TEXT), "[400, 0]"));
    let (text, _) = bulletin(large.path(), manual(&placed(&hub(2, "9 N·m", line, TEXT), "[450, 0]")).path());
    assert!(!text.contains("bolt board"), "{text}");
}

/// A line tells of a time when one value held for all; today it is two.
#[test]
fn a_value_that_is_several_by_variant_now_became_each_of_them() {
    let line = "{revision: 2, of: hub-bolt.torque, was: 8 N·m, because: hubs crept, source: sheet}";
    let folder = manual(&hub(2, "{early: 9 N·m, late: 10 N·m}", line, TEXT));
    let page = published(folder.path(), "tarn/machine.bulletins.html");
    let row = page.split("<tr").find(|row| row.contains("hubs crept")).unwrap();
    let (was, became) = (row.find("8 N·m").unwrap(), row.find("10 N·m").unwrap());
    assert!(was < became && row.contains("early") && row.contains("9 N·m") && row.contains("late"), "{row}");
}

/// Card and bulletins stand for several front matters: their day is that of the newest change, not of machine.yaml.
#[test]
fn card_and_bulletins_have_the_day_of_the_newest_change_and_stand_in_its_order() {
    let lines = "{revision: 2, of: hub-bolt.torque, was: 9 N·m, because: hubs crept, source: sheet}, {revision: 1, of: lid-bolt.torque, was: 7 N·m, because: lids leaked, source: sheet}";
    let folder = manual(&hub(2, "10 N·m", lines, TEXT));
    write(folder.path(), "tarn/machine.yaml", &MACHINE.replace("2026-09-14", "2026-03-01"));
    // A later revision of another document, of an earlier day.
    let nose = "---\ntitle: Nose\nrevision: 7\ndate: 2026-08-01\nchanges: [{revision: 7, of: nose-bolt.torque, was: 7 N·m, because: noses rang, source: sheet}]\nfasteners:\n  nose-bolt: {name: Nose bolt, count: 2, thread: M6x1.0, class: 8.8, role: cover, torque: 9 N·m, source: sheet}\n---\n\n## Nose {#nose}\n\n[Tighten the nose bolts](torque:nose-bolt).\n";
    write(folder.path(), "tarn/nose.md", nose);
    for page in ["tarn/torque-card.html", "tarn/machine.bulletins.html"] {
        let page = published(folder.path(), page);
        let block = page.split("Date of issue").nth(1).unwrap();
        assert!(block[..60].contains("2026-09-14"), "{}", &block[..60]);
    }
    let page = published(folder.path(), "tarn/machine.bulletins.html");
    let places: Vec<usize> = ["Newest first, by the day", "hubs crept", "noses rang", "lids leaked"].iter().map(|words| page.find(words).unwrap()).collect();
    assert!(places.is_sorted(), "{places:?}");
}

/// A page as `bind` publishes it, with plain spaces.
fn published(folder: &Path, page: &str) -> String {
    let site = TempDir::new().unwrap();
    let into = site.path().join("site");
    let run = benchleaf(&["bind", folder.to_str().unwrap(), "--into", into.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(0), "{}", said(&run));
    fs::read_to_string(into.join(page)).unwrap().replace('\u{a0}', " ")
}

#[test]
fn what_nobody_answers_for_is_told_and_a_spelling_is_no_change() {
    let old = manual(&hub(1, "9 N·m", "", TEXT));
    let (text, json) = bulletin(old.path(), manual(&hub(1, "10 N·m", "", TEXT)).path());
    assert!(text.contains("1 without a change line") && text.contains("NO CHANGE LINE: nobody says why"), "{text}");
    assert_eq!(json["bulletin"]["changes"][0]["untold"], json!(true));
    // A line of an earlier revision does not answer for a later change.
    let stale = "{revision: 1, of: hub-bolt.torque, was: 8 N·m, because: long ago, source: sheet}";
    let (text, _) = bulletin(old.path(), manual(&hub(2, "10 N·m", stale, TEXT)).path());
    assert!(text.contains("NO CHANGE LINE"), "{text}");
    let (_, json) = bulletin(old.path(), manual(&hub(1, "9.0 Nm", "", TEXT)).path());
    assert_eq!(json["bulletin"]["changes"], json!([]));
}

/// A value that changed twice between the two states has both reasons, whatever the order they are written in; a record of a
/// machine built by the first of them is told of once, with both.
#[test]
fn each_of_several_changes_has_its_own_line() {
    let old = manual(&hub(1, "8 N·m", "", TEXT));
    let lines = "{revision: 3, of: hub-bolt.torque, was: 9 N·m, because: still crept, source: sheet}, {revision: 2, of: hub-bolt.torque, was: 8 N·m, because: hubs crept, source: sheet}";
    let new = manual(&hub(3, "10 N·m", lines, TEXT));
    let (text, json) = bulletin(old.path(), new.path());
    assert!(text.contains("  Hub bolt, torque: 8 → 10 N·m\n"), "{text}");
    assert!(text.contains("\n      revision 2: 8 → 9 N·m: hubs crept (sheet)\n      revision 3 of 2026-09-14: 9 → 10 N·m: still crept (sheet)\n"), "{text}");
    let change = &json["bulletin"]["changes"][0];
    assert_eq!((&change["line"]["revision"], change["lines"].as_array().unwrap().len()), (&json!(3), 2));
    assert_eq!((&change["lines"][0]["was"], &change["lines"][0]["now"], &change["lines"][0]["date"]), (&json!("8 N·m"), &json!("9 N·m"), &Value::Null));
    // From the second state on only the second change is news.
    let (text, _) = bulletin(manual(&hub(2, "9 N·m", lines.split_once(", {").unwrap().1.replacen("revision", "{revision", 1).as_str(), TEXT)).path(), new.path());
    assert!(text.contains("still crept") && !text.contains("hubs crept"), "{text}");
    let record = json!({
        "format": "benchleaf-build/1", "manual": "Little manual", "machine": "tarn", "serial": "4711", "variant": {"serial": "late"},
        "people": ["A. Fell"], "begun": "2026-08-02T09:00:00Z", "saved": "2026-08-02T12:00:00Z",
        "procedures": {"hub": {"revision": 1, "fingerprint": "0000-0000-0000", "begun": "2026-08-02T09:00:00Z", "finished": null,
            "ticks": [{"step": "tighten", "act": "torque:hub-bolt", "number": 1, "value": "8 N·m", "at": "2026-08-02T10:00:00Z", "by": "A. Fell"}],
            "readings": [], "signatures": []}},
        "deviations": [], "open": []
    });
    write(new.path(), "tarn/builds/hull-7.json", &record.to_string());
    let file = new.path().join("tarn/builds/hull-7.json");
    let path = new.path().to_str().unwrap();
    let told = said(&benchleaf(&["paper", file.to_str().unwrap(), path]));
    for words in ["1 value has changed since", "done by 8 N·m, now 10 N·m\n", "revision 2: 8 → 9 N·m: hubs crept", "9 → 10 N·m: still crept"] {
        assert!(told.contains(words), "{words}\n{told}");
    }
    assert_eq!(fitting("paper", &["paper", file.to_str().unwrap(), path, "--format", "json"])["record"]["work"][0]["changed"][0]["lines"].as_array().unwrap().len(), 2);
    let found = said(&benchleaf(&["inspect", path]));
    assert!(found.contains("it was: 8 N·m, then 9 N·m") && found.matches("(bulletin-affects-build)").count() == 1, "{found}");
    // On the pages: a column for what each change led to, and one line to look again by.
    let site = TempDir::new().unwrap();
    let into = site.path().join("site");
    assert_eq!(benchleaf(&["bind", path, "--into", into.to_str().unwrap()]).status.code(), Some(0));
    let page = fs::read_to_string(into.join("tarn/machine.bulletins.html")).unwrap().replace('\u{a0}', " ");
    assert!(page.contains("8 N·m → 9 N·m: hubs crept") && page.contains("9 N·m → 10 N·m: still crept") && page.contains(">Became</th>"), "{page}");
}

#[test]
fn steps_and_their_order_are_told() {
    let old = manual(&hub(1, "9 N·m", "", TEXT));
    let other = "[Tighten the hub bolts](torque:hub-bolt), after [starting the hub bolts](start:hub-bolt). [Editor looks](hold:editor)";
    let (text, json) = bulletin(old.path(), manual(&hub(1, "9 N·m", "", other)).path());
    assert!(text.contains("#tighten: the same acts in another order"), "{text}");
    assert!(text.contains("Hub (tarn/hub), still revision 1"), "{text}");
    assert_eq!(json["bulletin"]["work"][0]["steps"][0]["acts_moved"], json!(true));
    let (text, _) = bulletin(old.path(), manual(&hub(1, "9 N·m", "", &TEXT.replace(". [Editor looks](hold:editor)", ""))).path());
    assert!(text.contains("#tighten: gone hold:editor"), "{text}");
    let (text, json) = bulletin(old.path(), manual(&hub(1, "9 N·m", "", &TEXT.replace(". [Editor", " gently. [Editor"))).path());
    assert!(text.contains("other words, same acts: #tighten"), "{text}");
    // A changed word makes no sheet out of date.
    assert!(json["bulletin"]["sheets"].as_array().unwrap().iter().all(|sheet| sheet["fate"] == "current"), "{json}");
    let swapped = hub(1, "9 N·m", "", TEXT);
    let (head, steps) = swapped.split_once("## Tighten").unwrap();
    let (tighten, lid) = steps.split_once("## Lid").unwrap();
    let (text, _) = bulletin(old.path(), manual(&format!("{head}## Lid{lid}\n## Tighten{tighten}")).path());
    assert!(text.contains("in another order, now: #lid #tighten"), "{text}");
}

#[test]
fn open_items_materials_parts_and_moved_things_are_told() {
    let old = manual(&hub(1, "9 N·m", "", TEXT));
    write(old.path(), "tarn/machine.yaml", &format!("{MACHINE}parts:\n  lid: {{name: Lid, kind: cover}}\n"));
    let new = manual(&hub(1, "9 N·m", "", TEXT).replace("fasteners:\n", "leaves_open:\n  lid-bolt: {left: hand-tight, because: gasket to come}\nparts:\n  lid: {name: Lid, kind: cover}\nfasteners:\n"));
    write(new.path(), "shop.yaml", &SHOP.replace("cure: 24 h", "cure: 12 h"));
    let (text, json) = bulletin(old.path(), new.path());
    assert!(text.contains("Open items\n") && text.contains("left hand-tight"), "{text}");
    assert!(text.contains("Lockers and materials\n  Medium-strength thread locker, cure: 24 → 12 h"), "{text}");
    // A thing that only moved has no changed value.
    assert!(!json["bulletin"]["changes"].as_array().unwrap().iter().any(|change| change["id"] == "lid"), "{text}");
}

#[test]
fn what_cannot_be_compared_is_told_plainly() {
    let (one, two) = (manual(&hub(1, "9 N·m", "", TEXT)), manual(&hub(1, "9 N·m", "", TEXT)));
    let same = one.path().to_str().unwrap();
    let (text, _) = bulletin(one.path(), one.path());
    assert!(text.contains("Nothing changed"), "{text}");
    write(two.path(), "manual.yaml", "title: Another manual\npublisher: Other club (invented)\n");
    let (text, _) = bulletin(one.path(), two.path());
    assert!(text.contains("It was called ‘Little manual’ before"), "{text}");
    fs::rename(two.path().join("tarn"), two.path().join("fell")).unwrap();
    let run = benchleaf(&["bulletin", same, two.path().to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("are different manuals"));
    let empty = TempDir::new().unwrap();
    for words in [[empty.path().to_str().unwrap(), same], ["no-such-revision", same], ["--", same], [same, "HEAD~3"]] {
        let run = benchleaf(&["bulletin", words[0], words[1]]);
        assert_eq!(run.status.code(), Some(2), "{words:?}: {}", said(&run));
        assert!(!run.stderr.is_empty() && run.stdout.is_empty(), "{words:?}");
    }
    // Files that can't be read are a hole and a note, no panic and no refusal.
    fs::write(one.path().join("tarn/hub.md"), [0xff, 0xfe]).unwrap();
    write(two.path(), "tarn/machine.yaml", MACHINE);
    let (text, _) = bulletin(manual(&hub(1, "9 N·m", "", TEXT)).path(), one.path());
    assert!(text.contains("Little manual"), "{text}");
}

#[test]
fn a_published_site_can_be_the_earlier_state() {
    let old = manual(&hub(1, "9 N·m", "", TEXT));
    let site = TempDir::new().unwrap();
    let into = site.path().join("site");
    benchleaf(&["bind", old.path().to_str().unwrap(), "--into", into.to_str().unwrap()]);
    let (text, _) = bulletin(&into, manual(&hub(2, "10 N·m", &LINE.replace("{late: 9 N·m}", "9 N·m"), TEXT)).path());
    assert!(text.contains("Hub bolt, torque: 9 → 10 N·m") && text.contains("keeps values and no text"), "{text}");
}

#[test]
fn revisions_are_compared_and_a_paper_is_traced_to_the_one_that_printed_it() {
    let folder = manual(&hub(1, "{early: 9 N·m, late: 9 N·m}", "", TEXT));
    let path = folder.path().to_str().unwrap();
    let (early, late) = (fingerprint(folder.path(), "tarn/hub-sheet-early.html"), fingerprint(folder.path(), "tarn/hub-sheet-late.html"));
    // No repository yet: the answer is shorter, and says so.
    let run = benchleaf(&["paper", "7K3M-Q0ZT-91XA", path]);
    assert_eq!(run.status.code(), Some(1));
    assert!(said(&run).contains("NOT CURRENT") && said(&run).contains("No earlier state could be looked at"), "{}", said(&run));
    git(folder.path(), &["init", "-q"]);
    git(folder.path(), &["add", "."]);
    git(folder.path(), &["commit", "-q", "-m", "First"]);
    write(folder.path(), "tarn/hub.md", &hub(2, "{early: 9 N·m, late: 10 N·m}", LINE, TEXT));
    git(folder.path(), &["commit", "-q", "-a", "-m", "Second"]);
    let run = benchleaf(&["bulletin", "HEAD~1", "--manual", path]);
    assert!(said(&run).contains("Hub bolt, torque, serial late: 9 → 10 N·m"), "{}", said(&run));
    // The early sheet has no changed value.
    let run = benchleaf(&["paper", &early.to_lowercase(), path]);
    assert_eq!(run.status.code(), Some(0));
    assert!(said(&run).starts_with("CURRENT: ") && said(&run).contains("Hub (tarn/hub), serial early, revision 2"), "{}", said(&run));
    for paper in [late.clone(), format!("https://club.example/tarn/hub-sheet-late.html#paper=1.{late}")] {
        let run = benchleaf(&["paper", &paper, path]);
        assert_eq!(run.status.code(), Some(1));
        for words in ["NOT CURRENT", "It was printed from ", "Hub (tarn/hub), serial late, revision 1", "9 → 10 N·m", "hubs crept"] {
            assert!(said(&run).contains(words), "{words}\n{}", said(&run));
        }
        let news = fitting("paper", &["paper", &paper, path, "--format", "json"]);
        assert_eq!(news["paper"]["since"]["changes"][0]["now"], json!("10 N·m"));
    }
    let run = benchleaf(&["paper", "7K3M-Q0ZT", path]);
    let told = String::from_utf8_lossy(&run.stderr).into_owned();
    assert!(told.starts_with("‘7K3M-Q0ZT’ is neither a fingerprint") && run.status.code() == Some(2), "{told}");
    let run = benchleaf(&["paper", "7K3M-Q0ZT-91XA", path]);
    assert!(said(&run).contains("2 earlier states were looked at"), "{}", said(&run));
    // The folder's own repository is left alone.
    let status = Command::new("git").arg("-C").arg(folder.path()).args(["status", "--short"]).output().unwrap();
    assert!(status.stdout.is_empty());
}

#[test]
fn a_record_is_held_against_the_manual() {
    let folder = manual(&hub(2, "{early: 9 N·m, late: 10 N·m}", LINE, TEXT));
    let path = folder.path().to_str().unwrap();
    let print = fingerprint(folder.path(), "tarn/hub-sheet-late.html");
    let record = |revision: u32, fingerprint: &str, value: &str| {
        json!({
            "format": "benchleaf-build/1", "manual": "Little manual", "machine": "tarn", "serial": "4711", "variant": {"serial": "late"},
            "people": ["A. Fell"], "begun": "2026-08-02T09:00:00Z", "saved": "2026-08-02T12:00:00Z",
            "procedures": {"hub": {"revision": revision, "fingerprint": fingerprint, "begun": "2026-08-02T09:00:00Z", "finished": null,
                "ticks": [{"step": "tighten", "act": "torque:hub-bolt", "number": 1, "value": value, "at": "2026-08-02T10:00:00Z", "by": "A. Fell"}],
                "readings": [], "signatures": []}},
            "deviations": [], "open": []
        })
        .to_string()
    };
    let given = TempDir::new().unwrap();
    let file = given.path().join("hull-7.json");
    let paper = |text: &str| {
        fs::write(&file, text).unwrap();
        benchleaf(&["paper", file.to_str().unwrap(), path])
    };
    let run = paper(&record(2, &print, "10 N·m"));
    assert_eq!(run.status.code(), Some(0), "{}", said(&run));
    assert!(said(&run).starts_with("CURRENT: Tarn no. 4711"), "{}", said(&run));
    let run = paper(&record(1, "0000-0000-0000", "9 N·m"));
    assert_eq!(run.status.code(), Some(1));
    for words in ["TO BE LOOKED AT", "CRITICAL: hub-bolt.torque in #tighten: done by 9 N·m, now 10 N·m – hubs crept", "print it again and carry the ticks over"] {
        assert!(said(&run).contains(words), "{words}\n{}", said(&run));
    }
    let news = fitting("paper", &["paper", file.to_str().unwrap(), path, "--format", "json"]);
    assert_eq!(news["record"]["work"][0]["changed"][0]["recorded"], json!("9 N·m"));
    let run = paper(&record(1, "0000-0000-0000", "9 N·m").replace("\"tarn\"", "\"fell\""));
    assert!(said(&run).contains("has no machine ‘fell’"), "{}", said(&run));
    for text in ["", "{", "[]", "{\"format\": \"other\"}", "\u{1b}[2J"] {
        let run = paper(text);
        assert_eq!(run.status.code(), Some(2), "{text}: {}", said(&run));
        assert!(!run.stderr.contains(&0x1b) && !run.stderr.is_empty(), "{text}");
    }
    assert_eq!(benchleaf(&["paper", "no-such-file.json", path]).status.code(), Some(2));
}

/// A card and a board are held against today as a sheet is, and of what changed since only what they show is told.
#[test]
fn a_torque_card_and_a_board_are_found_by_their_fingerprints() {
    let hub = |revision: u32, torque: &str, lid: &str, changes: &str| {
        let text = hub(revision, torque, changes, TEXT).replace("torque: 9 N·m, source", &format!("torque: {lid}, source"));
        text.replace("name: Hub bolt, count: 2,", "name: Hub bolt, count: 2, layout: {at: [[0, 0], [40, 0]]},")
    };
    let folder = manual(&hub(1, "{early: 9 N·m, late: 9 N·m}", "9 N·m", ""));
    let path = folder.path().to_str().unwrap();
    let (card, board) = (fingerprint(folder.path(), "tarn/torque-card.html"), fingerprint(folder.path(), "tarn/hub-board-hub-bolt.html"));
    let told = |print: &str, code: i32| {
        let run = benchleaf(&["paper", print, path]);
        assert_eq!(run.status.code(), Some(code), "{}", said(&run));
        said(&run)
    };
    assert!(told(&card, 0).starts_with(&format!("CURRENT: {card} is the torque card of Tarn (tarn), revision 1\n")), "{}", told(&card, 0));
    assert!(told(&board, 0).starts_with(&format!("CURRENT: {board} is the bolt board of Hub bolt (tarn/hub/hub-bolt), revision 1\n")), "{}", told(&board, 0));
    git(folder.path(), &["init", "-q"]);
    git(folder.path(), &["add", "."]);
    git(folder.path(), &["commit", "-q", "-m", "First"]);
    // A changed torque stands on the card and not on the board; a word on neither.
    write(folder.path(), "tarn/hub.md", &hub(2, "{early: 9 N·m, late: 10 N·m}", "9 N·m", LINE).replace("[Editor looks]", "[The editor looks]"));
    git(folder.path(), &["commit", "-q", "-a", "-m", "Second"]);
    assert_ne!(fingerprint(folder.path(), "tarn/torque-card.html"), card);
    assert_eq!(fingerprint(folder.path(), "tarn/hub-board-hub-bolt.html"), board);
    let stale = told(&card, 1);
    for words in ["NOT CURRENT", "It was printed from ", "the torque card of Tarn (tarn), revision 1", "1 change of a value or thing", "9 → 10 N·m", "hubs crept"] {
        assert!(stale.contains(words), "{words}\n{stale}");
    }
    assert!(told(&board, 0).contains("revision 2"));
    let news = fitting("paper", &["paper", &card, path, "--format", "json"]);
    assert_eq!((&news["paper"]["printed_by"][1]["paper"], &news["paper"]["printed_by"][1]["procedure"]), (&json!("torque-card"), &json!("")));
    // Other places: the board is out of date. What it does not show is not told with it.
    let moved = hub(3, "{early: 9 N·m, late: 10 N·m}", "8 N·m", LINE).replace("[40, 0]", "[45, 0]");
    write(folder.path(), "tarn/hub.md", &moved);
    git(folder.path(), &["commit", "-q", "-a", "-m", "Third"]);
    let stale = told(&board, 1);
    assert!(stale.contains("the bolt board of Hub bolt (tarn/hub/hub-bolt), revision 2") && stale.contains("layout"), "{stale}");
    assert!(!stale.contains("Lid bolt"), "{stale}");
    assert!(told(&card, 1).contains("Lid bolt"));
}
