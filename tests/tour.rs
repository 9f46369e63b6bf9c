//! What the papers show of the program is what it does: the README's tour, typed line by line into a shell, the bulletin of
//! `docs/uses.md`, and the job of `docs/publishing.md`.

#![expect(clippy::unwrap_used, clippy::panic, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "a test reads the papers and types into a shell")]

use std::env;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

/// What the tour installs is what this test runs; building it once more takes minutes.
const INSTALL: &str = "cargo install --path . --locked\n";
/// Stands in what a shell prints between two blocks.
const BREAK: char = '\u{1e}';
/// Stands in a paper for words or lines that are left out.
const LEFT_OUT: char = '…';

/// What is typed, and what is said to come of it.
struct Scene {
    typed: String,
    shown: Option<String>,
}

fn paper(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

/// The part of a paper below a heading of the second level.
fn part<'a>(text: &'a str, heading: &str) -> &'a str {
    let (_, rest) = text.split_once(&format!("\n## {heading}\n")).unwrap_or_else(|| panic!("there is no part {heading:?}"));
    rest.split("\n## ").next().unwrap()
}

/// The fenced blocks of a text: what stands behind the fence, and what is in it.
fn blocks(text: &str) -> impl Iterator<Item = (&str, &str)> {
    let inside = text.split("```").skip(1).step_by(2);
    inside.map(|block| block.split_once('\n').unwrap())
}

fn scenes(text: &str) -> Vec<Scene> {
    let mut scenes: Vec<Scene> = Vec::new();
    for (kind, body) in blocks(text) {
        match kind {
            "sh" => scenes.push(Scene { typed: body.to_owned(), shown: None }),
            "text" => scenes.last_mut().unwrap().shown = Some(body.to_owned()),
            _ => panic!("a tour has no block of {kind}"),
        }
    }
    scenes
}

/// Types into a shell, with the program at hand and a home of its own.
fn typed(script: &str, folder: &Path, home: &Path) -> Output {
    let program = Path::new(env!("CARGO_BIN_EXE_benchleaf")).parent().unwrap();
    let others = env::var_os("PATH").unwrap_or_default();
    let places = [program.to_path_buf()].into_iter().chain(env::split_paths(&others));
    Command::new("sh").args(["-c", script]).current_dir(folder).env("HOME", home).env("PATH", env::join_paths(places).unwrap()).output().unwrap()
}

/// Whether a text is the one shown, where `…` may stand for any words of a line, and alone on a line for any lines.
fn is_as_shown(text: &[&str], shown: &[&str]) -> bool {
    match shown {
        [] => text.is_empty(),
        ["…", rest @ ..] => (0..=text.len()).any(|from| is_as_shown(&text[from..], rest)),
        [line, rest @ ..] => text.split_first().is_some_and(|(first, others)| is_line(first, line) && is_as_shown(others, rest)),
    }
}

fn is_line(line: &str, shown: &str) -> bool {
    let mut parts = shown.split(LEFT_OUT);
    let Some(mut rest) = parts.next().and_then(|start| line.strip_prefix(start)) else { return false };
    let mut parts = parts.peekable();
    while let Some(part) = parts.next() {
        if parts.peek().is_none() {
            return rest.ends_with(part);
        }
        let Some((_, behind)) = rest.split_once(part) else { return false };
        rest = behind;
    }
    rest.is_empty()
}

#[test]
fn the_tour_goes_as_the_readme_says() {
    let readme = paper("README.md");
    let mut scenes = scenes(part(&readme, "Five minutes"));
    assert_eq!(scenes.remove(0).typed, INSTALL, "the tour begins by installing");
    let home = TempDir::new().unwrap();
    let script: String = scenes.iter().map(|scene| format!("{}printf '{BREAK}'\n", scene.typed)).collect();
    let run = typed(&format!("exec 2>&1\n{script}"), Path::new(env!("CARGO_MANIFEST_DIR")), home.path());
    let said = String::from_utf8(run.stdout).unwrap();
    let said: Vec<&str> = said.split(BREAK).collect();
    assert_eq!(said.len(), scenes.len() + 1, "{said:?}");
    assert!(scenes.iter().filter(|scene| scene.shown.is_some()).count() >= 5);
    for (scene, said) in scenes.iter().zip(said) {
        let Some(shown) = &scene.shown else { continue };
        let (lines, wanted): (Vec<&str>, Vec<&str>) = (said.lines().collect(), shown.lines().collect());
        assert!(is_as_shown(&lines, &wanted), "{}\nthe README shows\n{shown}\nthe program prints\n{said}", scene.typed);
    }
    // What the reader is told to open and to leave alone.
    assert!(home.path().join("tour/site/index.html").exists());
    assert!(!home.path().join("tour/ours/site").exists(), "questions were published");
}

#[test]
fn what_is_shown_is_held_against_every_line() {
    let lines = ["one", "two and a half", "three"];
    for shown in [&["one", "two and a half", "three"][..], &["…", "three"], &["one", "…"], &["one", "two … half", "…", "three"], &["…"]] {
        assert!(is_as_shown(&lines, shown), "{shown:?}");
    }
    for other in [&["one", "three"][..], &["…", "two"], &["one"], &["one", "two … third", "three"], &["…", "three", "four"], &[]] {
        assert!(!is_as_shown(&lines, other), "{other:?}");
    }
}

/// A folder with a copy of the demo in it.
fn with_the_demo() -> TempDir {
    let folder = TempDir::new().unwrap();
    let copied = typed(&format!("cp -r '{}/procedures' .", env!("CARGO_MANIFEST_DIR")), folder.path(), folder.path());
    assert!(copied.status.success());
    folder
}

#[test]
fn the_bulletin_of_the_guide_is_what_is_printed() {
    let uses = paper("docs/uses.md");
    let (command, shown) = blocks(&uses).find_map(|(_, body)| body.strip_prefix("$ ")?.split_once('\n')).unwrap();
    let folder = with_the_demo();
    // What the demo's own change line says was, is put back.
    let earlier = "sed -i 's/late: 78 ± 4 N·m/late: 70 ± 4 N·m/; s/^revision: 4/revision: 3/; /^changes:/d; /revision: 4, of:/d'";
    let made = format!("cp -r procedures last-autumn && {earlier} last-autumn/tarn-18/pinion-height-and-backlash.md && {command}");
    let said = String::from_utf8(typed(&made, folder.path(), folder.path()).stdout).unwrap();
    assert!(is_as_shown(&said.lines().collect::<Vec<_>>(), &shown.lines().collect::<Vec<_>>()), "the guide shows\n{shown}\nthe program prints\n{said}");
}

/// The job's script on a copy of the demo, after an edit; how it ended.
fn job(folder: &Path) -> Output {
    let publishing = paper("docs/publishing.md");
    let script = blocks(&publishing).find(|(kind, _)| *kind == "sh job").unwrap().1;
    typed(script, folder, folder)
}

#[test]
fn the_job_of_a_build_server_publishes_what_is_clean_and_fails_on_what_is_not() {
    let folder = with_the_demo();
    let good = job(folder.path());
    assert_eq!(good.status.code(), Some(0), "{}", String::from_utf8_lossy(&good.stderr));
    let page = folder.path().join("site/index.html");
    let published = fs::read(&page).unwrap();

    let procedure = folder.path().join("procedures/tarn-18/close-gearcase.md");
    let slipped = fs::read_to_string(&procedure).unwrap().replacen("18 N·m", "18 lbs", 1);
    fs::write(&procedure, slipped).unwrap();
    fs::remove_file(folder.path().join("findings.sarif")).unwrap();
    assert_eq!(job(folder.path()).status.code(), Some(1));
    let report = fs::read_to_string(folder.path().join("findings.sarif")).unwrap();
    assert!(report.contains("torque-unit-ambiguous"), "the report of a job that fails is there, too");
    assert_eq!(fs::read(&page).unwrap(), published, "the site stays as it was");
}
