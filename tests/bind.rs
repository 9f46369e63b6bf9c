//! `bind` from end to end: the real program, the demo, and folders that are not ours.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and looks at real folders")]

mod site_compare;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// The standing caution, word for word, as HTML writes it.
const CAUTION: &str = "The values here come from the publisher named above. They may be wrong for your machine. The maker's service data, local codes and a qualified person decide. This manual checks values for plausibility and consistency, never for correctness.";

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn benchleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(project()).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn bind(manual: &Path, into: &Path, more: &[&str]) -> Output {
    let mut arguments = vec!["bind", manual.to_str().unwrap(), "--into", into.to_str().unwrap()];
    arguments.extend(more);
    benchleaf(&arguments)
}

/// Every file below a folder by its path, the lock and what is left for the next run left out.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(folder_here) = waiting.pop() {
        for entry in fs::read_dir(&folder_here).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.extend((path.file_name().unwrap() != ".benchleaf-kept").then_some(path));
            } else if path.file_name().unwrap() != ".benchleaf-lock" {
                all.insert(path.strip_prefix(folder).unwrap().to_str().unwrap().to_owned(), fs::read(&path).unwrap());
            }
        }
    }
    all
}

fn copy(from: &Path, to: &Path) {
    for (path, bytes) in files(from) {
        let target = to.join(path);
        fs::create_dir_all(target.parent().unwrap()).unwrap();
        fs::write(target, bytes).unwrap();
    }
}

/// A copy of the demo that may be spoilt.
fn demo() -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let manual = folder.path().join("manual");
    copy(&project().join("procedures"), &manual);
    (folder, manual)
}

fn replace(file: &Path, from: &str, to: &str) {
    let old = fs::read_to_string(file).unwrap();
    assert!(old.contains(from), "{} does not hold ‘{from}’", file.display());
    fs::write(file, old.replacen(from, to, 1)).unwrap();
}

fn differences(one: &BTreeMap<String, Vec<u8>>, other: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    one.keys().chain(other.keys()).filter(|path| one.get(*path) != other.get(*path)).cloned().collect()
}

#[test]
fn the_committed_site_is_the_demo_as_published() {
    let folder = TempDir::new().unwrap();
    let into = folder.path().join("site");
    let run = bind(&project().join("procedures"), &into, &[]);
    assert!(run.status.success(), "{}{}", text(&run.stdout), text(&run.stderr));
    let different = site_compare::differences(&files(&into), &files(&project().join("site")));
    assert!(different.is_empty(), "site/ is not what `benchleaf bind` publishes: {different:?}");
}

#[test]
fn one_thread_and_many_publish_the_same_bytes() {
    let folder = TempDir::new().unwrap();
    let publish = |name: &str, threads: &str| {
        let into = folder.path().join(name);
        assert!(bind(&project().join("procedures"), &into, &["--threads", threads]).status.success());
        files(&into)
    };
    let one = publish("one", "1");
    assert!(one.len() > 20);
    for (name, threads) in [("two", "2"), ("many", "13")] {
        assert_eq!(differences(&one, &publish(name, threads)), Vec::<String>::new());
    }
}

#[test]
fn nothing_changed_writes_nothing() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    let again = text(&bind(&manual, &into, &[]).stdout);
    assert!(again.contains(" 0 files written") && again.contains(" 0 removed"), "{again}");
}

#[test]
fn a_fault_leaves_the_published_site_untouched() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    let first = bind(&manual, &into, &[]);
    assert!(first.status.success() && text(&first.stderr).contains("compared with no earlier state"), "{}", text(&first.stderr));
    assert_eq!(text(&bind(&manual, &into, &[]).stderr), "");
    let (before, modified) = (files(&into), fs::metadata(into.join("index.html")).unwrap().modified().unwrap());
    replace(&manual.join("tarn-18/pinion-height-and-backlash.md"), "(torque:pinion-nut)", "(torque:pinoin-nut)");
    let run = bind(&manual, &into, &[]);
    assert_eq!(run.status.code(), Some(1));
    assert!(text(&run.stdout).contains("used-not-listed"), "{}", text(&run.stdout));
    assert!(text(&run.stderr).contains("Nothing was published; what is in"), "{}", text(&run.stderr));
    let nowhere = folder.path().join("nowhere");
    let run = bind(&manual, &nowhere, &[]);
    assert!(text(&run.stderr).contains("nowhere was not made") && !nowhere.exists(), "{}", text(&run.stderr));
    assert_eq!(differences(&before, &files(&into)), Vec::<String>::new());
    assert_eq!(modified, fs::metadata(into.join("index.html")).unwrap().modified().unwrap());
}

#[test]
fn a_proof_copy_is_marked_on_every_page_and_shows_what_is_wrong() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    replace(&manual.join("tarn-18/pinion-height-and-backlash.md"), "(torque:pinion-nut)", "(torque:pinoin-nut)");
    let run = bind(&manual, &into, &["--proof-copy"]);
    assert_eq!(run.status.code(), Some(1), "{}", text(&run.stderr));
    let published = files(&into);
    let pages: Vec<(&String, String)> =
        published.iter().filter(|(path, _)| path.ends_with(".html")).map(|(path, bytes)| (path, text(bytes))).collect();
    assert!(pages.len() > 20);
    for (path, page) in &pages {
        assert!(page.contains("PROOF, NOT FOR USE"), "{path} is not marked");
    }
    let (_, page) = pages.iter().find(|(path, _)| path.ends_with("tarn-18/pinion-height-and-backlash.html")).unwrap();
    assert!(page.contains("used-not-listed") && page.contains("pinoin-nut"));
    // Mended, the marks are gone again.
    replace(&manual.join("tarn-18/pinion-height-and-backlash.md"), "(torque:pinoin-nut)", "(torque:pinion-nut)");
    assert!(bind(&manual, &into, &[]).status.success());
    assert!(files(&into).values().all(|bytes| !text(bytes).contains("PROOF, NOT FOR USE")));
}

#[test]
fn every_page_and_sheet_carries_the_standing_caution() {
    let pages: Vec<(String, Vec<u8>)> =
        files(&project().join("site")).into_iter().filter(|(path, _)| path.ends_with(".html")).collect();
    assert!(pages.len() > 20);
    for (path, bytes) in pages {
        let page = text(&bytes).replace("&#x27;", "'").replace("&#39;", "'");
        let words: Vec<&str> = page.split_whitespace().collect();
        assert!(words.join(" ").contains(CAUTION), "{path} lacks the standing caution");
    }
}

#[test]
fn every_address_in_the_site_is_relative() {
    for (path, bytes) in files(&project().join("site")).into_iter().filter(|(path, _)| path.ends_with(".html") || path.ends_with(".css")) {
        let page = text(&bytes);
        for start in ["href=\"/", "src=\"/", "href='/", "url(/", "url(http", "src=\"http", "@import"] {
            assert!(!page.contains(start), "{path} holds {start}");
        }
        // A strict Content-Security-Policy has to do: scripts are files of their own; what stands inline is data.
        for script in page.split("<script").skip(1) {
            let tag = script.split('>').next().unwrap_or_default();
            let data = [" type=\"application/json\"", " type=\"application/ld+json\""].iter().any(|kind| tag.contains(kind));
            assert!(data || tag.starts_with(" defer src=\""), "{path} holds a script inline: {tag}");
        }
        assert!(!page.contains(" style=\"") && !page.contains("<style"), "{path} holds style");
    }
}

#[test]
fn a_folder_of_somebody_elses_is_refused() {
    let folder = TempDir::new().unwrap();
    let into = folder.path().join("papers");
    fs::create_dir(&into).unwrap();
    fs::write(into.join("letter.txt"), "dear sir").unwrap();
    let run = bind(&project().join("procedures"), &into, &[]);
    assert_eq!(run.status.code(), Some(2), "{}", text(&run.stdout));
    assert!(text(&run.stderr).contains("papers"), "{}", text(&run.stderr));
    assert_eq!(files(&into), BTreeMap::from([("letter.txt".to_owned(), b"dear sir".to_vec())]));
}

#[test]
fn other_peoples_files_stay_and_pages_of_removed_procedures_go() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    fs::write(into.join("visitors.txt"), "nine").unwrap();
    fs::write(into.join("tarn-18/own-page.html"), "<p>mine</p>").unwrap();
    fs::remove_dir_all(manual.join("hb-2")).unwrap();
    let run = bind(&manual, &into, &["--proof-copy"]);
    assert_ne!(run.status.code(), Some(2), "{}", text(&run.stderr));
    let left = files(&into);
    assert!(left.contains_key("visitors.txt") && left.contains_key("tarn-18/own-page.html"));
    assert!(left.keys().all(|path| !path.starts_with("hb-2/")) && !into.join("hb-2").exists());
}

/// The list of values is of our own making: without the record the site is not somebody else's, but nobody knows what is ours in it.
#[test]
fn a_site_whose_record_is_gone_is_called_one() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    fs::remove_file(into.join(".benchleaf-record.json")).unwrap();
    let held = files(&into);
    let run = bind(&manual, &into, &[]);
    let said = text(&run.stderr);
    assert_eq!(run.status.code(), Some(2), "{}", text(&run.stdout));
    assert!(said.contains(".benchleaf-record.json of a published site is gone") && !said.contains("did not write"), "{said}");
    assert_eq!(files(&into), held);
}

/// Another manual's pages would go one by one, as if its machines had been removed.
#[test]
fn the_site_of_another_manual_stays_unless_it_is_to_be_replaced() {
    let (folder, manual) = demo();
    let (other, into) = (folder.path().join("other"), folder.path().join("site"));
    fs::create_dir_all(other.join("winch")).unwrap();
    fs::write(other.join("manual.yaml"), "title: Winches of the quay\npublisher: Harbour Works Club (invented)\nlanguage: en\n").unwrap();
    fs::write(other.join("winch/machine.yaml"), "name: Quay winch\nmaker: Harbour Works (invented)\nkind: winch\nrevision: 1\ndate: 2026-09-14\n").unwrap();
    let run = bind(&other, &into, &[]);
    let held = files(&into);
    assert!(held.contains_key("winch/index.html"), "{}{}", text(&run.stdout), text(&run.stderr));
    let run = bind(&manual, &into, &[]);
    let said = text(&run.stderr);
    assert_eq!(run.status.code(), Some(2), "{}", text(&run.stdout));
    assert!(said.contains("the site of another manual, ‘Winches of the quay’ (machines: winch)") && said.contains("--replace-other"), "{said}");
    assert_eq!(files(&into), held);
    // A new title alone makes no other manual, nor do other machines under the same title.
    replace(&other.join("manual.yaml"), "Winches of the quay", "Winches of the harbour");
    assert!(bind(&other, &into, &[]).status.success());
    fs::rename(other.join("winch"), other.join("capstan")).unwrap();
    assert!(bind(&other, &into, &[]).status.success());
    let run = bind(&manual, &into, &["--replace-other"]);
    assert!(run.status.success(), "{}", text(&run.stderr));
    assert!(into.join("tarn-18/index.html").exists() && !into.join("capstan").exists());
}

#[test]
fn the_manuals_own_folder_is_no_place_to_publish() {
    let (folder, manual) = demo();
    let before = files(folder.path());
    for into in [manual.clone(), manual.join("site"), folder.path().to_path_buf()] {
        let run = bind(&manual, &into, &[]);
        assert_eq!(run.status.code(), Some(2), "{}: {}", into.display(), text(&run.stdout));
        assert!(!text(&run.stderr).is_empty());
    }
    assert_eq!(differences(&before, &files(folder.path())), Vec::<String>::new());
}

#[test]
fn a_link_in_the_site_that_leads_elsewhere_is_not_followed() {
    let (folder, manual) = demo();
    let (into, elsewhere) = (folder.path().join("site"), folder.path().join("elsewhere"));
    assert!(bind(&manual, &into, &[]).status.success());
    fs::create_dir(&elsewhere).unwrap();
    fs::remove_dir_all(into.join("tables")).unwrap();
    std::os::unix::fs::symlink(&elsewhere, into.join("tables")).unwrap();
    let run = bind(&manual, &into, &[]);
    assert_eq!(run.status.code(), Some(2), "{}", text(&run.stdout));
    assert!(files(&elsewhere).is_empty());
}

#[test]
fn no_manual_is_told_plainly() {
    let folder = TempDir::new().unwrap();
    for command in ["inspect", "bind"] {
        let run = benchleaf(&[command, folder.path().to_str().unwrap()]);
        assert_eq!(run.status.code(), Some(2));
        assert!(text(&run.stderr).contains("manual.yaml"), "{}", text(&run.stderr));
    }
}

#[test]
fn a_theme_of_ones_own_overrides_file_by_file() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    fs::create_dir_all(manual.join("look/styles")).unwrap();
    fs::write(manual.join("look/styles/page.css"), "body { color: black }\n").unwrap();
    replace(&manual.join("manual.yaml"), "paper:", "theme: look\npaper:");
    let run = bind(&manual, &into, &[]);
    assert!(run.status.success(), "{}{}", text(&run.stdout), text(&run.stderr));
    let published = files(&into);
    assert!(published["page.css"].windows(22).any(|part| part == b"body { color: black }\n"));
    assert!(published.contains_key("index.html"));
}

#[test]
fn a_broken_template_of_ones_own_is_named() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    fs::create_dir_all(manual.join("look/templates")).unwrap();
    fs::write(manual.join("look/templates/home.html"), "{% if %}").unwrap();
    replace(&manual.join("manual.yaml"), "paper:", "theme: look\npaper:");
    let run = bind(&manual, &into, &[]);
    assert_eq!(run.status.code(), Some(2), "{}", text(&run.stdout));
    assert!(text(&run.stderr).contains("home.html"), "{}", text(&run.stderr));
    assert!(!into.exists());
}

/// The torque of the cap bolts, one up: plausible, and only the published state tells.
fn change_a_value(manual: &Path) {
    replace(&manual.join("hb-2/worm-shaft-preload.md"), "torque: 24 N·m", "torque: 25 N·m");
}

#[test]
fn a_value_that_changed_in_silence_stops_until_a_change_line_says_why() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    change_a_value(&manual);
    let run = bind(&manual, &into, &[]);
    assert_eq!(run.status.code(), Some(1));
    assert!(text(&run.stdout).contains("silent-value-change"), "{}", text(&run.stdout));
    // Nor does another folder hide it.
    let elsewhere = folder.path().join("elsewhere");
    let run = bind(&manual, &elsewhere, &[]);
    assert!(run.status.code() == Some(1) && text(&run.stdout).contains("silent-value-change") && !elsewhere.exists(), "{}", text(&run.stderr));
    assert!(text(&run.stderr).contains("compared with those published in") && text(&run.stderr).contains("beside the manual"), "{}", text(&run.stderr));
    // Nor does another title.
    let title = fs::read_to_string(manual.join("manual.yaml")).unwrap();
    let other: String = title.lines().map(|line| if line.starts_with("title:") { "title: Another title\n".to_owned() } else { format!("{line}\n") }).collect();
    assert_ne!(other, title);
    fs::write(manual.join("manual.yaml"), other).unwrap();
    assert!(text(&bind(&manual, &into, &[]).stdout).contains("silent-value-change"));
    fs::write(manual.join("manual.yaml"), title).unwrap();
    // A proof copy in its place does not make the new value the published one.
    assert_eq!(bind(&manual, &into, &["--proof-copy"]).status.code(), Some(1));
    assert_eq!(bind(&manual, &into, &[]).status.code(), Some(1));
    let head = "revision: 2\ndate: 2026-10-12";
    let told = "revision: 3\ndate: 2026-10-12\nchanges: [{revision: 3, of: cap-bolt.torque, was: 24 N·m, because: caps leaked, source: winch-book}]";
    replace(&manual.join("hb-2/worm-shaft-preload.md"), head, told);
    let run = bind(&manual, &into, &[]);
    assert!(run.status.success(), "{}{}", text(&run.stdout), text(&run.stderr));
}

/// A damaged list of values must not let a change through that it would have told.
#[test]
fn without_the_values_that_it_left_itself_nothing_is_published() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    let list = into.join(".values.json");
    let whole = fs::read(&list).unwrap();
    change_a_value(&manual);
    for damaged in [Some(&whole[..0]), Some(&whole[..5000]), None] {
        match damaged {
            Some(bytes) => fs::write(&list, bytes).unwrap(),
            None => fs::remove_file(&list).unwrap(),
        }
        let before = files(&into);
        let run = bind(&manual, &into, &[]);
        let said = text(&run.stderr);
        assert!(run.status.code() == Some(2) && said.contains(".values.json: is") && said.contains("--against"), "{said}");
        assert_eq!(differences(&before, &files(&into)), Vec::<String>::new());
    }
    // Neither a proof copy nor another folder is a way round it.
    for (folder, more) in [(&into, "--proof-copy"), (&into, "--replace-other"), (&folder.path().join("new"), "--verify")] {
        let run = bind(&manual, folder, &[more]);
        assert!(run.status.code() == Some(2) && text(&run.stderr).contains(".values.json: is gone"), "{more}: {}", text(&run.stderr));
    }
    let other = folder.path().join("other");
    fs::create_dir(&other).unwrap();
    fs::write(other.join(".values.json"), &whole).unwrap();
    let against = ["--against", other.to_str().unwrap()];
    assert!(text(&bind(&manual, &into, &against).stdout).contains("silent-value-change"));
    replace(&manual.join("hb-2/worm-shaft-preload.md"), "torque: 25 N·m", "torque: 24 N·m");
    assert!(bind(&manual, &into, &against).status.success());
    assert_eq!(fs::read(&list).unwrap(), whole);
}

#[test]
fn an_earlier_state_may_be_a_folder_a_site_or_a_revision() {
    let (folder, manual) = demo();
    let into = folder.path().join("site");
    assert!(bind(&manual, &into, &[]).status.success());
    let old = folder.path().join("old");
    copy(&manual, &old);
    let git = |arguments: &[&str]| {
        let run = Command::new("git").arg("-C").arg(&manual).args(["-c", "user.name=t", "-c", "user.email=t@example.invalid"]).args(arguments).output().unwrap();
        assert!(run.status.success(), "{}", text(&run.stderr));
        text(&run.stdout)
    };
    git(&["init", "--quiet"]);
    git(&["add", "--all"]);
    git(&["commit", "--quiet", "--message", "Old"]);
    change_a_value(&manual);
    let before = git(&["status", "--porcelain"]);
    let inspect = |against: &str| benchleaf(&["inspect", manual.to_str().unwrap(), "--against", against]);
    for against in [old.to_str().unwrap(), into.to_str().unwrap(), "HEAD"] {
        let run = inspect(against);
        assert_eq!(run.status.code(), Some(1), "{against}: {}", text(&run.stderr));
        assert!(text(&run.stdout).contains("was 24 N·m and is 25 N·m"), "{against}: {}", text(&run.stdout));
    }
    assert_eq!(git(&["status", "--porcelain"]), before, "the repository was touched");
    for against in ["no-such-revision", "--exec=true", ""] {
        let run = benchleaf(&["inspect", manual.to_str().unwrap(), &format!("--against={against}")]);
        assert_eq!(run.status.code(), Some(2), "{against}: {}", text(&run.stdout));
        assert!(!text(&run.stderr).is_empty());
    }
}

/// `--against "$BASE"` with a variable that is not set, and the manual itself: nothing would ever be found changed.
#[test]
fn an_earlier_state_without_a_name_or_the_manual_itself_is_refused() {
    let (folder, manual) = demo();
    fs::create_dir(manual.join("apart")).unwrap();
    let away = manual.to_str().unwrap();
    for (started_in, named, told) in [
        (manual.as_path(), "", "‘’: an empty name is no earlier state"),
        (manual.as_path(), " ", "‘’: an empty name is no earlier state"),
        (manual.as_path(), ".", "the manual's own folder as it is now"),
        (folder.path(), away, "the manual's own folder as it is now"),
        (folder.path(), "manual/apart/..", "the manual's own folder as it is now"),
    ] {
        for words in [
            ["inspect", away, "--against", named].as_slice(),
            &["inspect", away, "--against", named, "--only-new"],
            &["bind", away, "--into", folder.path().join("site").to_str().unwrap(), "--against", named],
            &["bulletin", named, "--manual", away],
        ] {
            let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).current_dir(started_in).output().unwrap();
            assert_eq!(run.status.code(), Some(2), "{words:?}: {}", text(&run.stdout));
            assert!(text(&run.stderr).contains(told) && run.stdout.is_empty(), "{words:?}: {}", text(&run.stderr));
        }
    }
    // As the later state it is what most people mean.
    let run = benchleaf(&["bulletin", project().join("procedures").to_str().unwrap(), away]);
    assert!(run.status.success(), "{}", text(&run.stderr));
}

/// Runs git in a folder, which must go well.
fn git(folder: &Path, arguments: &[&str]) {
    let run = Command::new("git").arg("-C").arg(folder).args(["-c", "user.name=t", "-c", "user.email=t@example.invalid"]).args(arguments).output().unwrap();
    assert!(run.status.success(), "{}", text(&run.stderr));
}

/// What a build server sees: a clone without a published site, perhaps without the earlier revisions.
#[test]
fn a_clone_without_an_earlier_state_is_told_plainly() {
    let (folder, manual) = demo();
    let inspect = |manual: &Path, against: &[&str]| benchleaf(&[&["inspect", manual.to_str().unwrap()], against].concat());
    let nothing = "The values were compared with no earlier state";
    let alone = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["inspect", "manual"]).current_dir(folder.path()).output().unwrap();
    assert!(text(&alone.stderr).starts_with(&format!("{nothing}: name one with --against")), "{}", text(&alone.stderr));
    let run = inspect(&manual, &["--against", "HEAD~5"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("the manual's folder is not under version control"), "{}", text(&run.stderr));
    git(&manual, &["init", "--quiet"]);
    let run = inspect(&manual, &["--against", "HEAD"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("there is no revision yet"), "{}", text(&run.stderr));
    git(&manual, &["commit", "--quiet", "--allow-empty", "--message", "Empty"]);
    let run = inspect(&manual, &["--against", "HEAD"]);
    assert!(run.status.code() == Some(0) && text(&run.stderr).starts_with(&format!("{nothing}: HEAD does not hold the manual yet")), "{}", text(&run.stderr));
    let run = inspect(&manual, &["--against", "HEAD~1"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("there is only one revision yet"), "{}", text(&run.stderr));
    for (named, told) in [("HEAD^", "only one revision"), ("HEAD:notes", "no revision of the repository"), ("HEADER", "no revision of the repository")] {
        let run = inspect(&manual, &["--against", named]);
        assert!(run.status.code() == Some(2) && text(&run.stderr).contains(told), "{named}: {}", text(&run.stderr));
    }
    git(&manual, &["add", "--all"]);
    git(&manual, &["commit", "--quiet", "--message", "Old"]);
    let (whole, shallow) = (folder.path().join("whole"), folder.path().join("shallow"));
    change_a_value(&manual);
    git(&manual, &["commit", "--quiet", "--all", "--message", "Silent"]);
    let address = format!("file://{}", manual.display());
    git(folder.path(), &["clone", "--quiet", &address, whole.to_str().unwrap()]);
    git(folder.path(), &["clone", "--quiet", "--depth", "1", &address, shallow.to_str().unwrap()]);
    for (named, told) in [("HEAD~7", "goes back further than the repository does: it has 3 revisions"), ("HAED", "no revision of the repository that holds the manual")] {
        for words in [["inspect", "--against", named, whole.to_str().unwrap()].as_slice(), &["bulletin", named, "--manual", whole.to_str().unwrap()]] {
            let run = benchleaf(words);
            let said = text(&run.stderr);
            assert!(run.status.code() == Some(2) && said.contains(told) && !said.contains("fatal") && !said.contains("object name"), "{words:?}: {said}");
        }
    }
    let run = inspect(&whole, &["--against", "HEAD~1"]);
    assert!(run.status.code() == Some(1) && text(&run.stdout).contains("silent-value-change") && run.stderr.is_empty(), "{}", text(&run.stderr));
    let run = inspect(&shallow, &["--against", "HEAD~1"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("shallow clone"), "{}", text(&run.stderr));
}

/// The guide's hook looks at what goes in, not at what lies in the folder; and git tells it of its repository by its environment,
/// which must not be taken for the manual's.
#[test]
fn the_guides_hook_compares_what_goes_in_with_the_last_commit() {
    let (folder, manual) = demo();
    let procedures = folder.path().join("procedures");
    fs::rename(&manual, &procedures).unwrap();
    git(folder.path(), &["init", "--quiet"]);
    let guide = fs::read_to_string(project().join("docs/together.md")).unwrap();
    let (_, block) = guide.split_once("```sh\n#!/bin/sh\n").unwrap();
    let (script, _) = block.split_once("```").unwrap();
    let hook = folder.path().join(".git/hooks/pre-commit");
    let here = Path::new(env!("CARGO_BIN_EXE_benchleaf")).parent().unwrap().display();
    fs::write(&hook, format!("#!/bin/sh\nPATH={here}:$PATH\n{script}")).unwrap();
    assert!(Command::new("chmod").arg("+x").arg(&hook).status().unwrap().success());
    let commit = || {
        let words = ["-c", "user.name=t", "-c", "user.email=t@example.invalid", "commit", "--quiet", "--message", "Change"];
        Command::new("git").arg("-C").arg(folder.path()).args(words).output().unwrap()
    };
    git(folder.path(), &["add", "--all"]);
    let first = commit();
    assert!(first.status.success(), "{}", text(&first.stderr));
    // What old records have stands there since before: one count, however the lines have moved.
    replace(&procedures.join("hb-2/worm-shaft-preload.md"), "\n## ", "\nA word more.\n\n## ");
    git(folder.path(), &["add", "--all"]);
    let run = commit();
    let said = format!("{}{}", text(&run.stdout), text(&run.stderr));
    assert!(run.status.success() && said.contains("Left out: 3 findings that stood there before.") && !said.contains("builds/"), "{said}");
    change_a_value(&procedures);
    git(folder.path(), &["add", "--all"]);
    // What is in the folder by now is as it was.
    copy(&project().join("procedures"), &procedures);
    let run = commit();
    let said = format!("{}{}", text(&run.stdout), text(&run.stderr));
    assert!(!run.status.success() && said.contains("silent-value-change") && !said.contains("no-3.json"), "{said}");
    // A sheet that this change makes stale is news.
    assert!(said.contains("(state-print-stale)\n  hb-2/builds/no-1.json"), "{said}");
}

#[test]
fn what_stops_is_shown_however_old_it_is() {
    let (folder, manual) = demo();
    replace(&manual.join("hb-2/worm-shaft-preload.md"), "source: winch-book", "source: winch-bok");
    let old = folder.path().join("old");
    copy(&manual, &old);
    replace(&manual.join("hb-2/housing-and-cups.md"), "source: winch-book", "source: winch-boook");
    let inspect = |words: &[&str]| benchleaf(&[&["inspect", manual.to_str().unwrap()], words].concat());
    let run = inspect(&["--against", old.to_str().unwrap(), "--only-new"]);
    assert!(text(&run.stdout).contains("winch-bok") && text(&run.stdout).contains("winch-boook") && !text(&run.stdout).contains("builds/"), "{}", text(&run.stdout));
    assert!(run.status.code() == Some(1) && text(&run.stderr).contains("Left out: 3 findings"), "{}", text(&run.stderr));
    // Without a state to hold it against there is nothing old.
    assert_eq!(inspect(&["--only-new"]).status.code(), Some(2));
    let (site, sound) = (folder.path().join("site"), demo());
    assert!(bind(&sound.1, &site, &[]).status.success());
    let run = inspect(&["--against", site.to_str().unwrap(), "--only-new"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("keeps values and no text"), "{}", text(&run.stderr));
}

/// The addresses of a review report lead to the files from the top of the repository.
#[test]
fn a_review_report_leads_to_the_files_of_the_repository() {
    let (folder, manual) = demo();
    replace(&manual.join("hb-2/worm-shaft-preload.md"), "source: winch-book", "source: winch-bok");
    let addresses = || {
        let run = benchleaf(&["inspect", manual.to_str().unwrap(), "--format", "sarif"]);
        let report: serde_json::Value = serde_json::from_slice(&run.stdout).unwrap();
        let results = report["runs"][0]["results"].as_array().unwrap();
        results.iter().map(|result| result["locations"][0]["physicalLocation"]["artifactLocation"].clone()).collect::<Vec<_>>()
    };
    assert!(addresses().iter().any(|address| address["uri"] == "hb-2/worm-shaft-preload.md" && address["uriBaseId"] == "MANUAL"));
    git(folder.path(), &["init", "--quiet"]);
    let below = manual.strip_prefix(folder.path()).unwrap().to_str().unwrap();
    let wanted = format!("{below}/hb-2/worm-shaft-preload.md");
    assert!(addresses().iter().any(|address| address["uri"] == wanted.as_str() && address["uriBaseId"] == "REPOSITORY"), "{:?}", addresses());
}

#[test]
fn the_manual_is_found_from_a_machines_folder_and_a_part_of_a_report_is_shown() {
    let (folder, manual) = demo();
    let at = |folder: &Path, words: &[&str]| Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).current_dir(folder).output().unwrap();
    let whole = at(&manual, &["inspect"]);
    assert_eq!(at(&manual.join("hb-2"), &["inspect"]).stdout, whole.stdout);
    let empty = folder.path().join("empty");
    fs::create_dir(&empty).unwrap();
    let run = at(&empty, &["inspect"]);
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("benchleaf draft manual"), "{}", text(&run.stderr));
    change_a_value(&manual);
    replace(&manual.join("shop.yaml"), "kind: protection", "kind: protecton");
    let only = |word: &str| at(&manual, &["inspect", "--only", word]);
    let (all, rule, file) = (at(&manual, &["inspect"]), only("unknown-word"), only("shop.yaml"));
    assert!(text(&all.stdout).contains("unknown-word") && text(&rule.stdout).contains("(unknown-word)") && text(&rule.stderr).contains("Shown: "));
    assert!(text(&file.stdout).contains("\n  shop.yaml:") && !text(&file.stdout).contains("\n  tarn-18/builds"), "{}", text(&file.stdout));
    assert_eq!((all.status.code(), rule.status.code()), (Some(1), Some(1)));
    let run = only("unknown-wrd");
    assert!(run.status.code() == Some(2) && text(&run.stderr).contains("did you mean ‘unknown-word’?"), "{}", text(&run.stderr));
}
