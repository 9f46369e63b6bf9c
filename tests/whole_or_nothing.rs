//! Whole or nothing: a run that is killed at any moment, or to which the disk refuses something, leaves every published file
//! whole, old or new, loses none, and the next run puts all right. Two runs at once keep out of each other's way.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and looks at real folders")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// How many runs are cut short.
const CUT_SHORT: u32 = 50;
/// At most so many are started for it.
const STARTED: u32 = 300;

/// Every file below a folder by its path, those of ours left out but the record.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(here) = waiting.pop() {
        for entry in fs::read_dir(&here).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap();
            if path.is_dir() {
                waiting.extend((!name.starts_with(".benchleaf-")).then_some(path));
            } else if !name.starts_with(".benchleaf-") || name == ".benchleaf-record.json" {
                all.insert(path.strip_prefix(folder).unwrap().to_str().unwrap().to_owned(), fs::read(&path).unwrap());
            }
        }
    }
    all
}

/// A manual that can be switched between two states, of which every page differs, and its site.
struct Trial {
    folder: TempDir,
}

impl Trial {
    fn new() -> Self {
        let trial = Self { folder: TempDir::new().unwrap() };
        for (path, bytes) in files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures")) {
            let target = trial.manual().join(path);
            fs::create_dir_all(target.parent().unwrap()).unwrap();
            fs::write(target, bytes).unwrap();
        }
        trial
    }

    fn manual(&self) -> PathBuf {
        self.folder.path().join("manual")
    }

    fn site(&self) -> PathBuf {
        self.folder.path().join("site")
    }

    /// Another publisher, whom every page names; and every other time a procedure less.
    fn switch(&self, second: bool) {
        let path = self.manual().join("manual.yaml");
        let text = fs::read_to_string(&path).unwrap();
        let lines = text.lines().map(|line| match line.strip_prefix("publisher:") {
            Some(_) => format!("publisher: {} (invented)", if second { "The Second Society" } else { "The First Society" }),
            None => line.to_owned(),
        });
        fs::write(&path, lines.map(|line| line + "\n").collect::<String>()).unwrap();
    }

    fn command(&self, into: &Path) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_benchleaf"));
        command.arg("bind").arg(self.manual()).arg("--into").arg(into).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    fn bind(&self) -> Output {
        self.command(&self.site()).output().unwrap()
    }

    fn bound(&self) -> BTreeMap<String, Vec<u8>> {
        let run = self.bind();
        assert!(run.status.success(), "{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
        files(&self.site())
    }
}

/// Addresses of pages, pictures, styles and scripts in a page, as paths of the site.
fn addresses(page: &str, html: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for start in ["href=\"", "src=\""] {
        for rest in html.split(start).skip(1) {
            let address = rest.split(['"', '#']).next().unwrap();
            if address.is_empty() || address.contains(':') {
                continue;
            }
            let mut at: Vec<&str> = page.split('/').collect();
            at.pop();
            for part in address.split('/') {
                match part {
                    ".." => drop(at.pop()),
                    "." => {}
                    _ => at.push(part),
                }
            }
            found.insert(at.join("/"));
        }
    }
    found
}

#[test]
fn a_run_killed_at_any_moment_leaves_whole_files_and_the_next_puts_all_right() {
    let trial = Trial::new();
    let state = |second: bool| {
        trial.switch(second);
        trial.bound()
    };
    let (second, first) = (state(true), state(false));
    let begun = Instant::now();
    trial.switch(true);
    trial.bound();
    let whole = begun.elapsed();
    let own = trial.site().join("tables/visitors.txt");
    fs::write(&own, "nine").unwrap();
    let mut cut_short = 0;
    for turn in 0..STARTED {
        trial.switch(turn % 2 == 0);
        let mut child = trial.command(&trial.site()).spawn().unwrap();
        // The multiples of the golden ratio lie evenly in any interval.
        let share = (f64::from(turn) * 0.618_033_988_75).fract();
        if turn % 3 == 0 {
            sleep(whole.mul_f64(share));
        } else {
            // The last part is short: files are laid down and moved in. What the last run left lying is cleared away first.
            let staged = || fs::read_dir(trial.site().join(".benchleaf-staged")).map_or(0, Iterator::count);
            for wanted in [0, 1] {
                while staged().min(1) != wanted && child.try_wait().unwrap().is_none() {
                    sleep(Duration::from_millis(1));
                }
            }
            sleep(whole.mul_f64(share * 0.2));
        }
        child.kill().unwrap();
        cut_short += u32::from(!child.wait().unwrap().success());
        let there = files(&trial.site());
        for (path, bytes) in there.iter().filter(|(path, _)| !path.starts_with('.') && *path != "tables/visitors.txt") {
            assert!(first.get(path) == Some(bytes) || second.get(path) == Some(bytes), "turn {turn}: {path} is neither old nor new");
        }
        for path in first.keys().filter(|path| second.contains_key(*path)) {
            assert!(there.contains_key(path), "turn {turn}: {path} is lost");
        }
        for (path, bytes) in there.iter().filter(|(path, _)| path.ends_with(".html")) {
            for address in addresses(path, &String::from_utf8_lossy(bytes)) {
                assert!(there.contains_key(&address), "turn {turn}: {path} leads to {address}, which is not there");
            }
        }
        // Every few turns a run gets to its end; the others go on from where the last was killed.
        if turn % 3 == 2 {
            let wanted = if turn % 2 == 0 { &second } else { &first };
            let mut after = trial.bound();
            assert_eq!(after.remove("tables/visitors.txt").as_deref(), Some(b"nine".as_slice()));
            let different: Vec<&String> = after.keys().chain(wanted.keys()).filter(|path| after.get(*path) != wanted.get(*path)).collect();
            assert!(different.is_empty(), "turn {turn}: {different:?}");
            assert!(!trial.site().join(".benchleaf-staged").exists(), "turn {turn}: something was left lying");
            if cut_short >= CUT_SHORT {
                return;
            }
        }
    }
    panic!("of {STARTED} runs only {cut_short} were cut short");
}

/// Files of just such names may lie where a link leads: nothing of them is cleared away.
#[cfg(unix)]
#[test]
fn a_link_in_place_of_what_is_laid_down_is_not_gone_along() {
    let trial = Trial::new();
    trial.switch(false);
    trial.bound();
    let elsewhere = trial.site().with_file_name("elsewhere");
    let staged = trial.site().join(".benchleaf-staged");
    let names = ["0123456789abcdef0123456789abcdef", "0/0123456789abcdef0123456789abcdef"];
    let check = || names.iter().for_each(|name| assert!(elsewhere.join(name).exists(), "{name}"));
    fs::create_dir_all(elsewhere.join("0")).unwrap();
    for name in names {
        fs::write(elsewhere.join(name), "nine").unwrap();
    }
    std::os::unix::fs::symlink(&elsewhere, &staged).unwrap();
    for second in [false, true] {
        trial.switch(second);
        let run = trial.command(&trial.site()).output().unwrap();
        assert_eq!(run.status.success(), !second, "{}", String::from_utf8_lossy(&run.stderr));
        check();
    }
    // A shelf alone may be a link, too.
    fs::remove_file(&staged).unwrap();
    fs::create_dir(&staged).unwrap();
    std::os::unix::fs::symlink(&elsewhere, staged.join("3")).unwrap();
    assert!(!trial.command(&trial.site()).output().unwrap().status.success());
    check();
}

#[test]
fn a_disk_that_takes_no_more_leaves_the_site_as_it_was() {
    let trial = Trial::new();
    trial.switch(false);
    let before = trial.bound();
    trial.switch(true);
    // No file may grow beyond so many blocks of 512 bytes: the larger pages can't be written. The signal is passed over, so
    // that the system refuses in words, as a full disk does.
    for blocks in [0, 8, 32, 48] {
        let run = Command::new("sh")
            .args(["-c", &format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" \"$@\"")])
            .arg(env!("CARGO_BIN_EXE_benchleaf"))
            .args(["bind", trial.manual().to_str().unwrap(), "--into", trial.site().to_str().unwrap()])
            .output()
            .unwrap();
        let told = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(2), "{blocks} blocks: {told}");
        assert!(told.contains("could not write") && told.contains("still stands"), "{blocks} blocks: {told}");
        assert_eq!(files(&trial.site()), before, "{blocks} blocks");
    }
    let after = trial.bound();
    assert!(String::from_utf8_lossy(&after["index.html"]).contains("The Second Society"));
}

#[test]
fn a_folder_that_can_not_be_written_is_named() {
    let trial = Trial::new();
    // A file system of the system's own, in which nobody can make a folder.
    let run = trial.command(Path::new("/proc/benchleaf-site")).output().unwrap();
    let told = String::from_utf8_lossy(&run.stderr).into_owned();
    assert_eq!(run.status.code(), Some(2), "{told}");
    assert!(told.contains("/proc/benchleaf-site"), "{told}");
}

#[test]
fn something_else_in_place_of_a_page_stops_before_anything_is_changed() {
    let trial = Trial::new();
    trial.switch(false);
    trial.bound();
    fs::remove_file(trial.site().join("index.html")).unwrap();
    fs::create_dir(trial.site().join("index.html")).unwrap();
    let before = files(&trial.site());
    trial.switch(true);
    let run = trial.bind();
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("index.html"));
    assert_eq!(files(&trial.site()), before);
    fs::remove_dir(trial.site().join("index.html")).unwrap();
    assert!(trial.bound().contains_key("index.html"));
}

#[test]
fn two_runs_at_once_exclude_each_other() {
    let trial = Trial::new();
    trial.switch(false);
    let before = trial.bound();
    trial.switch(true);
    let lock = fs::File::options().write(true).open(trial.site().join(".benchleaf-lock")).unwrap();
    lock.try_lock().unwrap();
    let run = trial.bind();
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("another run of Benchleaf is publishing"), "{}", String::from_utf8_lossy(&run.stderr));
    assert_eq!(files(&trial.site()), before);
    drop(lock);
    trial.bound();
    // Two that are started together: each gets to its end or is told of the other, and the site is whole.
    trial.switch(false);
    let mut both = [trial.command(&trial.site()).spawn().unwrap(), trial.command(&trial.site()).spawn().unwrap()];
    let codes: Vec<Option<i32>> = both.iter_mut().map(|child| child.wait().unwrap().code()).collect();
    assert!(codes.contains(&Some(0)) && codes.iter().all(|code| matches!(code, Some(0 | 2))), "{codes:?}");
    assert_eq!(files(&trial.site()), before);
}
