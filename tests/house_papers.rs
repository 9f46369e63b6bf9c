//! The papers at the door say what is so: every path they name is there, every command and option is the program's, the
//! sample procedure is good work, and the sample report is what the program prints.

#![expect(clippy::disallowed_methods, reason = "a test reads the papers")]
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]

mod demo;

use demo::Demo;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const PAPERS: [&str; 3] = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"];
/// Endings by which a name without a folder is a file's.
const ENDINGS: [&str; 9] = [".md", ".rs", ".yaml", ".toml", ".sh", ".html", ".ftl", ".json", ".css"];
/// What the papers may ask of cargo.
const CARGO: [&str; 6] = ["bench", "build", "check", "clippy", "run", "test"];

/// What stands in a paper as code.
#[derive(Default)]
struct Code {
    /// Words in the running text.
    spans: Vec<String>,
    /// Blocks, with the word that says of what kind.
    blocks: Vec<(String, String)>,
}

#[test]
fn every_path_is_there() {
    for paper in PAPERS {
        let paths: Vec<String> = code(paper).spans.into_iter().filter(|span| is_path(span)).collect();
        let lost: Vec<&String> = paths.iter().filter(|path| !is_there(path)).collect();
        assert!(lost.is_empty(), "{paper} names what is not there: {lost:?}");
    }
    assert!(code("DEVELOPERS.md").spans.iter().filter(|span| is_path(span)).count() > 10);
}

#[test]
fn every_command_and_option_is_there() {
    let mut commands = 0;
    for paper in PAPERS {
        for line in lines_to_type(&code(paper)) {
            let words: Vec<&str> = line.split('#').next().unwrap().split_whitespace().collect();
            if let Some(fault) = fault_of(&words) {
                panic!("{paper}: `{line}`: {fault}");
            }
            commands += 1;
        }
    }
    assert!(commands > 10);
    assert!(fault_of(&["benchleaf", "polish"]).is_some());
    assert!(fault_of(&["benchleaf", "bind", "--shiny"]).is_some());
    assert!(fault_of(&["benchleaf", "draft", "engine"]).is_some());
    assert!(fault_of(&["benchleaf", "draft", "manual", "--from"]).is_some());
    assert!(fault_of(&["benchleaf", "inspect", "--format", "paper"]).is_some());
    assert!(fault_of(&["benchleaf", "explain", "no-such-rule"]).is_some());
    assert!(fault_of(&["cargo", "test", "--test", "no-such-test"]).is_some());
    assert!(fault_of(&["cargo", "bench", "--bench", "no-such-bench"]).is_some());
    assert!(fault_of(&["tools/no-such-tool.sh"]).is_some());
}

#[test]
fn every_stage_is_described() {
    let text = read("DEVELOPERS.md");
    for entry in fs::read_dir(project().join("src")).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            let stage = format!("`src/{}/`", path.file_name().unwrap().to_str().unwrap());
            assert!(text.contains(&stage), "DEVELOPERS.md does not describe {stage}");
        }
    }
}

/// What runs on every change is what the README says, and nothing beside it.
#[test]
fn the_second_command_of_the_readme_is_what_every_change_has_to_pass() {
    let first = code("README.md").blocks.into_iter().next().unwrap().1;
    let commands: Vec<&str> = first.lines().map(|line| line.split_whitespace().next().unwrap()).collect();
    assert_eq!(commands.len(), 2, "the README begins with two commands: {first}");
    let run = read(".ci/run");
    let steps: Vec<&str> = run.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()).collect();
    assert_eq!(steps.len(), 1, "{run}");
    assert!(steps[0].contains(commands[1]), "{run}");
}

#[test]
fn the_sample_procedure_is_good_work() {
    let (sample, demo) = (block("README.md", "markdown"), Demo::copy());
    demo.write("tarn-18/pinion-nut.md", &sample);
    let run = demo.inspect(&[]);
    assert!(run.status.success(), "{}", text(&run.stdout));
    demo.write("tarn-18/pinion-nut.md", sample.replace("(torque:pinion-nut)", "(torque:pinoin-nut)"));
    assert_eq!(demo.inspect(&[]).status.code(), Some(1), "the sample was not looked at");
}

#[test]
fn the_sample_report_is_what_the_program_prints() {
    let report = block("README.md", "text");
    let mut lines = report.lines().skip(1);
    let mut place = lines.next().unwrap().trim().split(':');
    let (file, number) = (place.next().unwrap(), place.next().unwrap().parse::<usize>().unwrap());
    let faulty = lines.next().unwrap().trim();
    let demo = Demo::copy();
    let mut source: Vec<String> = demo.text(file).lines().map(str::to_owned).collect();
    let key = faulty.split(':').next().unwrap();
    let indent: String = source[number - 1].chars().take_while(|c| *c == ' ').collect();
    assert!(source[number - 1].trim().starts_with(key), "{file}:{number} is no line of `{key}:`");
    source[number - 1] = format!("{indent}{faulty}");
    demo.write(file, source.join("\n") + "\n");
    let run = demo.inspect(&[]);
    let printed = text(&run.stdout);
    assert!(printed.contains(report.trim_end()), "the README shows\n{report}\nthe program prints\n{printed}");
}

/// The lines of a paper that a reader is meant to type.
fn lines_to_type(code: &Code) -> Vec<String> {
    let blocks = code.blocks.iter().filter(|(kind, _)| kind == "sh").flat_map(|(_, text)| text.lines());
    let spans = code.spans.iter().map(String::as_str).filter(|span| span.contains(' '));
    blocks.chain(spans).filter(|line| is_command(line)).map(str::to_owned).collect()
}

fn is_command(line: &str) -> bool {
    ["benchleaf ", "cargo ", "tools/"].iter().any(|start| line.starts_with(start))
}

fn fault_of(words: &[&str]) -> Option<String> {
    match words {
        ["benchleaf", rest @ ..] => fault_of_ours(rest),
        ["cargo", command, rest @ ..] => fault_of_cargo(command, rest),
        [tool, ..] => (!is_there(tool)).then(|| "no such file".to_owned()),
        [] => None,
    }
}

fn fault_of_ours(words: &[&str]) -> Option<String> {
    let (command, rest) = words.split_first()?;
    // Some commands have a second word, with options of its own.
    let second = rest.first().filter(|word| ["draft", "reckon", "recording"].contains(command) && !word.starts_with("--"));
    let asked: Vec<&str> = [command].into_iter().chain(second).copied().chain(["--help"]).collect();
    let help = benchleaf(&asked);
    if !help.status.success() {
        return Some("no such command".to_owned());
    }
    let help = text(&help.stdout);
    let known: BTreeSet<&str> = help.split(|c: char| !c.is_ascii_alphanumeric() && c != '-').collect();
    for (at, word) in rest.iter().enumerate().filter(|(_, word)| word.starts_with("--")) {
        if !known.contains(word) {
            return Some(format!("no option {word}"));
        }
        if *word == "--format" && rest.get(at + 1).is_some_and(|value| !known.contains(value)) {
            return Some(format!("no format {}", rest[at + 1]));
        }
    }
    let runs = !["explain", "reckon", "schema"].contains(command) || benchleaf(words).status.success();
    (!runs).then(|| "does not run".to_owned())
}

fn fault_of_cargo(command: &str, words: &[&str]) -> Option<String> {
    if !CARGO.contains(&command) {
        return Some(format!("cargo {command} is not asked for here"));
    }
    let named = |kind: &str| words.iter().position(|word| *word == kind).and_then(|at| words.get(at + 1));
    if let Some(bench) = named("--bench") {
        let known = is_there(&format!("benches/{bench}.rs")) || is_there(&format!("benches/{bench}/main.rs"));
        return (!known).then(|| format!("there is no bench {bench}"));
    }
    let test = named("--test")?;
    let known = is_there(&format!("tests/{test}.rs")) || is_there(&format!("tests/{test}/main.rs"));
    (!known).then(|| format!("no test {test}"))
}

/// Whether words in code are a path of this project: a file or folder, not a command, a key or a pattern.
fn is_path(span: &str) -> bool {
    let plain = span.chars().all(|c| c.is_ascii_alphanumeric() || "/._-".contains(c));
    plain && (span.contains('/') || ENDINGS.iter().any(|ending| span.ends_with(ending)))
}

/// A path from the project's folder; a bare file's name may also be one of the demo's.
fn is_there(path: &str) -> bool {
    let from = |folder: &str| project().join(folder).join(path).exists();
    from("") || from("procedures") || from("procedures/tarn-18") || path.ends_with('/') && from("src")
}

fn block(paper: &str, kind: &str) -> String {
    let blocks = code(paper).blocks;
    blocks.into_iter().find(|(of, _)| of == kind).unwrap_or_else(|| panic!("{paper} has no block of {kind}")).1
}

fn code(paper: &str) -> Code {
    let source = read(paper);
    let mut found = Code::default();
    let mut inside = false;
    for event in Parser::new_ext(&source, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::CodeBlock(kind)) => {
                let kind = if let CodeBlockKind::Fenced(word) = kind { word.to_string() } else { String::new() };
                found.blocks.push((kind, String::new()));
                inside = true;
            }
            Event::End(TagEnd::CodeBlock) => inside = false,
            Event::Text(text) if inside => found.blocks.last_mut().unwrap().1.push_str(&text),
            Event::Code(text) => found.spans.push(text.to_string()),
            _ => {}
        }
    }
    found
}

fn benchleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(project()).output().unwrap()
}

fn read(paper: &str) -> String {
    fs::read_to_string(project().join(paper)).unwrap()
}

fn project() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}
