//! The pages on which a manual is reviewed: ledger, variants, source, bulletins, and the feed of changes, from end to end.

#![expect(clippy::unwrap_used, reason = "a test fails by saying so")]
#![expect(clippy::disallowed_methods, reason = "a test makes its own folders")]

use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// The demo's sources, changed, and what is published from them.
fn published(change: impl Fn(&Path), proof: bool) -> TempDir {
    let folder = TempDir::new().unwrap();
    let manual = folder.path().join("procedures");
    copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"), &manual);
    change(&manual);
    let site = folder.path().join("site");
    let mut words = vec!["bind".to_owned(), manual.display().to_string(), "--into".to_owned(), site.display().to_string()];
    words.extend(proof.then(|| "--proof-copy".to_owned()));
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).output().unwrap();
    assert_eq!(run.status.code(), Some(i32::from(proof)), "{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
    folder
}

fn page(folder: &TempDir, name: &str) -> String {
    fs::read_to_string(folder.path().join("site").join(name)).unwrap().replace('\u{a0}', " ")
}

fn edit(manual: &Path, name: &str, from: &str, to: &str) {
    let text = fs::read_to_string(manual.join(name)).unwrap();
    assert!(text.contains(from), "{name}: {from}");
    fs::write(manual.join(name), text.replacen(from, to, 1)).unwrap();
}

/// The rows of the ledger that have a mark, as filters count and the style sheet hides them.
fn marked(page: &str, mark: &str) -> usize {
    let rows = page.split("<tr class=\"").skip(1).filter_map(|rest| rest.split('"').next());
    rows.filter(|classes| classes.split(' ').any(|class| class == mark)).count()
}

#[test]
fn the_ledger_counts_what_its_filters_show() {
    let demo = published(|_| {}, false);
    let review = page(&demo, "tarn-18/machine.review.html");
    for (mark, words) in [("heard", "Only heard"), ("measured", "Measured"), ("size-table", "From a table by size"), ("once", "Source read by one person"), ("critical-once", "Critical, and not read twice")] {
        let count = marked(&review, mark);
        assert!(count > 0, "{mark}");
        assert!(review.contains(&format!("<p class=\"only\" id=\"only.{mark}\"><strong>{words}: {count}</strong>")), "{mark}: {count}");
        assert!(review.contains(&format!("href=\"#only.{mark}\">{words}: {count}<")), "{mark}: {count}");
    }
    // What nothing has leads nowhere.
    assert_eq!(marked(&review, "unsourced"), 0);
    assert!(review.contains("<li>Without a source: 0</li>") && !review.contains("id=\"only.unsourced\""));
    // Every mark has its line in the style sheet.
    let style = page(&demo, "lists.css");
    for mark in ["unsourced", "heard", "size-table", "practice", "measured", "waived", "once", "critical-once"] {
        assert!(style.contains(&format!("#only\\.{mark}:target ~ .scroll tbody tr:not(.{mark})")), "{mark}");
    }
    for words in ["since revision 4", "torque against the proof load of thread and class", "Second readings of critical values"] {
        assert!(review.contains(words), "{words}");
    }
    // How a procedure stands, in the table and in words.
    let row = review.split("<a href=\"pinion-height-and-backlash.html\">").nth(1).unwrap().split("</tr>").next().unwrap();
    let numbers: Vec<&str> = row.split("\"><span class=\"entry\">").skip(1).map(|cell| cell.split('<').next().unwrap()).collect();
    assert_eq!(numbers, ["11", "11", "4", "5", "0"]);
    let words = "Of 11 things with values, 11 have a source, 4 were measured, 5 rest on a source read by two people, none is answered for by a waiver.";
    assert!(page(&demo, "tarn-18/pinion-height-and-backlash.behind.html").contains(words));
}

#[test]
fn a_second_reader_ends_what_nobody_has_read() {
    let before = published(|_| {}, false);
    let after = published(|manual| edit(manual, "shop.yaml", "tarn-book:       {", "tarn-book:       {read_by: second-reader, "), false);
    let (before, after) = (page(&before, "tarn-18/machine.review.html"), page(&after, "tarn-18/machine.review.html"));
    assert!(marked(&after, "once") < marked(&before, "once"));
    assert!(marked(&after, "critical-once") < marked(&before, "critical-once"));
}

#[test]
fn variants_stand_side_by_side_and_a_gap_is_seen() {
    let demo = published(|_| {}, false);
    let variants = page(&demo, "tarn-18/machine.variants.html");
    let row = variants.split("<tr>").find(|row| row.contains("Pinion nut") && row.contains(">torque<")).unwrap();
    assert!(row.find("70 ± 4 N·m").unwrap() < row.find("78 ± 4 N·m").unwrap());
    assert!(!variants.contains("GAP"));
    let gap = published(|manual| edit(manual, "tarn-18/pinion-height-and-backlash.md", "torque: {early: 70 ± 4 N·m, late: 78 ± 4 N·m}", "torque: {late: 78 ± 4 N·m}"), true);
    let variants = page(&gap, "tarn-18/machine.variants.html");
    let row = variants.split("<tr>").find(|row| row.contains("Pinion nut") && row.contains(">torque<")).unwrap();
    assert!(row.find("GAP").unwrap() < row.find("78 ± 4 N·m").unwrap(), "{row}");
}

#[test]
fn a_source_sheet_has_every_line_and_its_findings() {
    let demo = published(|_| {}, false);
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures/tarn-18/close-gearcase.md");
    let source = page(&demo, "tarn-18/close-gearcase.source.html");
    let lines = fs::read_to_string(&path).unwrap().lines().count();
    assert_eq!(source.matches("<li id=\"L").count(), lines);
    assert!(source.contains("<span class=\"code-keyword\">title</span>: Close the gearcase") && !source.contains("fault-title"));
    assert!(page(&demo, "tarn-18/close-gearcase.html").contains("close-gearcase.source.html"));
    let proof = published(|manual| edit(manual, "tarn-18/close-gearcase.md", "torque: 18 N·m", "torque: 18 lbs"), true);
    let source = page(&proof, "tarn-18/close-gearcase.source.html");
    let line = source.split("<li id=\"L").find(|line| line.contains("18 lbs")).unwrap();
    assert!(line.contains("torque-unit-ambiguous"), "{line}");
}

#[test]
fn a_bulletin_has_a_sheet_to_look_again_for_each_machine_it_bears_on() {
    let demo = published(|_| {}, false);
    let bulletins = page(&demo, "tarn-18/machine.bulletins.html");
    assert_eq!(bulletins.matches("class=\"recheck\"").count(), 1);
    let sheet = bulletins.split("class=\"recheck\"").nth(1).unwrap();
    for words in ["Look again: Tarn 18 no. 4237", "Pinion nut, torque", "70 ± 4 N·m", "78 ± 4 N·m", "Signature", "a qualified person"] {
        assert!(sheet.contains(words), "{words}");
    }
    assert!(page(&demo, "index.html").contains("tarn-18/machine.bulletins.html") && page(&demo, "tarn-18/index.html").contains("machine.bulletins.html"));
    // No record, no sheet.
    let none = published(|manual| fs::remove_dir_all(manual.join("tarn-18/builds")).unwrap(), false);
    assert!(!page(&none, "tarn-18/machine.bulletins.html").contains("class=\"recheck\""));
}

/// RFC 4287: 4.1.1 a feed has exactly one id, title and updated, and an author where its entries have none; 4.1.2 an entry has
/// exactly one id, title and updated; 4.2.6 an id is an IRI; 4.2.7.2 a feed links to itself (`should`).
#[test]
fn the_feed_is_atom_and_is_there_only_where_the_address_is_known() {
    let demo = published(|_| {}, false);
    assert!(!demo.path().join("site/changes.atom").exists() && !page(&demo, "index.html").contains("atom+xml"));
    let named = |manual: &Path| edit(manual, "manual.yaml", "paper: A4", "paper: A4\naddress: https://club.example/manual");
    let (one, two) = (published(named, false), published(named, false));
    let feed = page(&one, "changes.atom");
    assert_eq!(feed, page(&two, "changes.atom"));
    assert!(page(&one, "index.html").contains("<link rel=\"alternate\" type=\"application/atom+xml\" href=\"changes.atom\">"));
    let (head, entries) = feed.split_once("<entry>").unwrap();
    assert!(feed.starts_with("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<feed xmlns=\"http://www.w3.org/2005/Atom\">"));
    let parts: Vec<&str> = entries.split("<entry>").collect();
    for part in parts.iter().chain([&head]) {
        for element in ["id", "title", "updated"] {
            assert_eq!(part.matches(&format!("<{element}>")).count(), 1, "{element}: {part}");
        }
        let id = part.split("<id>").nth(1).unwrap().split("</id>").next().unwrap();
        assert!(id.starts_with("https://club.example/manual/"), "{id}");
        let day = part.split("<updated>").nth(1).unwrap().split("</updated>").next().unwrap();
        assert!(day.len() == 20 && day.ends_with("T00:00:00Z"), "{day}");
    }
    assert_eq!(head.matches("<author><name>").count(), 1);
    assert!(head.contains("rel=\"self\" type=\"application/atom+xml\" href=\"https://club.example/manual/changes.atom\""));
    let ids: std::collections::BTreeSet<&str> = parts.iter().map(|part| part.split("<id>").nth(1).unwrap().split("</id>").next().unwrap()).collect();
    assert_eq!(ids.len(), parts.len());
    assert!(feed.contains("<id>https://club.example/manual/tarn-18/pinion-height-and-backlash.html#revision-4</id>") && feed.contains("nuts of late machines backed off"));
}
