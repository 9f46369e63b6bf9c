//! The papers at the door and the guide say what is so: every path they name is there, every link leads somewhere, every command
//! and option is the program's, the sample procedure is good work, and the figures are those that were measured.

#![expect(clippy::disallowed_methods, reason = "a test reads the papers")]
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]

mod demo;

use demo::Demo;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Papers at the door; those of the guide are all in `docs/`.
const PAPERS: [&str; 4] = ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "THIRD-PARTY.md"];
/// Endings by which a name without a folder is a file's.
const ENDINGS: [&str; 9] = [".md", ".rs", ".yaml", ".toml", ".sh", ".html", ".ftl", ".json", ".css"];
/// What the papers may ask of cargo.
const CARGO: [&str; 7] = ["bench", "build", "check", "clippy", "install", "run", "test"];

/// Options of other programs.
const FOREIGN: [&str; 1] = ["--large"];

/// What looks like a path of this project and is none: a path of the reader's, a unit.
const NO_PATHS: [&str; 2] = [".git/hooks/pre-commit", "r/min"];

/// What stands in a paper as code.
#[derive(Default)]
struct Code {
    /// Words in the running text.
    spans: Vec<String>,
    /// Blocks, with the word that says of what kind.
    blocks: Vec<(String, String)>,
    /// Where links and pictures lead.
    links: Vec<String>,
    /// What headings are called in a link: lower case, hyphens.
    anchors: BTreeSet<String>,
}

#[test]
fn every_path_is_there() {
    let mut lost = Vec::new();
    for paper in &papers() {
        let code = code(paper);
        // A page of the guide may write files itself, and name them.
        let written: Vec<&str> = code.blocks.iter().filter_map(|(kind, _)| kind.split_once(' ')).map(|(_, path)| path).collect();
        let paths = code.spans.iter().filter(|span| is_path(span) && !written.contains(&span.as_str()));
        lost.extend(paths.filter(|path| !is_there(path)).map(|path| format!("{paper}: {path}")));
    }
    assert!(lost.is_empty(), "what is named is not there: {lost:#?}");
    assert!(papers().len() > 10);
    assert!(code("DEVELOPERS.md").spans.iter().filter(|span| is_path(span)).count() > 10);
}

#[test]
fn every_command_and_option_is_there() {
    let mut commands = 0;
    let mut faults = Vec::new();
    for paper in &papers() {
        for line in lines_to_type(&code(paper)) {
            let first = line.split(['#', '|', '>']).next().unwrap().split("&&").next().unwrap();
            let words: Vec<&str> = first.split_whitespace().collect();
            faults.extend(fault_of(&words).map(|fault| format!("{paper}: `{line}`: {fault}")));
            commands += 1;
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(commands > 40);
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
fn every_command_of_the_program_is_told() {
    let help = text(&benchleaf(&["--help"]).stdout);
    let listed = help.split("Commands:").nth(1).unwrap().split("Options:").next().unwrap();
    let commands: Vec<&str> = listed.lines().filter_map(|line| line.strip_prefix("  ")?.split(' ').next()).filter(|name| !name.is_empty() && *name != "help").collect();
    assert!(commands.len() > 10, "{commands:?}");
    let told = lines_to_type(&code("docs/commands.md"));
    let untold: Vec<&&str> = commands.iter().filter(|name| !told.iter().any(|line| line.split(' ').nth(1) == Some(**name))).collect();
    assert!(untold.is_empty(), "docs/commands.md does not tell of {untold:?}");
}

#[test]
fn every_option_that_is_named_alone_is_there() {
    let known = options();
    let (mut named, mut lost) = (0, Vec::new());
    for paper in &papers() {
        for span in code(paper).spans.iter().filter(|span| span.starts_with("--")) {
            let option = span.split_whitespace().find(|word| *word != "--").unwrap().split('=').next().unwrap();
            if !known.contains(option) && !FOREIGN.contains(&option) {
                lost.push(format!("{paper}: {option}"));
            }
            named += 1;
        }
    }
    assert!(lost.is_empty(), "no command has these: {lost:#?}");
    assert!(named > 5 && !known.contains("--shiny"));
}

#[test]
fn every_link_leads_somewhere() {
    let mut followed = 0;
    for paper in &papers() {
        for link in code(paper).links.iter().filter(|link| !link.contains(':')) {
            let (file, anchor) = link.split_once('#').unwrap_or((link, ""));
            let beside = Path::new(paper).parent().unwrap().join(file);
            let target = if file.is_empty() { paper.clone() } else { beside.to_str().unwrap().to_owned() };
            assert!(project().join(&target).exists(), "{paper}: {link} leads nowhere");
            assert!(anchor.is_empty() || code(&target).anchors.contains(anchor), "{paper}: {target} has no part {anchor}");
            followed += 1;
        }
    }
    assert!(followed > 30);
}

/// What the README says of mistakes caught is what the table of the measured run says.
#[test]
fn the_catch_rate_of_the_readme_is_the_measured_one() {
    let (table, readme) = (read("tests/catch_rate/table.md"), read("README.md"));
    let mut parts = table.split("\n| Plausibility");
    let rates = |part: &str| -> Vec<bool> { part.lines().filter(|line| line.contains("%)")).map(|line| line.contains("(100 %)")).collect() };
    let (decidable, guessed) = (rates(parts.next().unwrap()), rates(parts.next().unwrap()));
    let all = |of: &[bool]| of.iter().filter(|all| **all).count();
    let made = table.split(" mistakes.").next().unwrap().rsplit(' ').next().unwrap();
    let mean = table.split("**").nth(1).unwrap();
    for said in [
        format!("one mistake at a time, {made} of them"),
        format!("{} kinds that can be decided", decidable.len()),
        format!("{mean}; {} kinds without exception", all(&decidable)),
        format!("{} kinds that can only be guessed at", guessed.len()),
        format!("{} kinds without exception; ", all(&guessed)),
    ] {
        assert!(readme.contains(&said), "the README does not say: {said}");
    }
    let slip = table.lines().find(|line| line.starts_with("| lbf·ft read as N·m")).unwrap();
    let rate = slip.split(['(', ')']).nth(1).unwrap();
    assert!(readme.contains(&format!("lbf·ft taken for N·m {rate}")), "{rate}");
    let rules = text(&benchleaf(&["explain"]).stdout).lines().count();
    let least: usize = readme.split("More than ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    assert!(rules > least && rules < least + 50, "there are {rules} rules");
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

/// The papers at the door and every page of the guide.
fn papers() -> Vec<String> {
    let mut guide: Vec<String> = fs::read_dir(project().join("docs")).unwrap().map(|entry| format!("docs/{}", entry.unwrap().file_name().to_str().unwrap())).collect();
    guide.retain(|page| page.ends_with(".md"));
    guide.sort();
    PAPERS.iter().map(|paper| (*paper).to_owned()).chain(guide).collect()
}

/// Every option of every command of the program.
fn options() -> BTreeSet<String> {
    let commands = ["inspect", "bind", "proof", "explain", "draft machine", "draft manual", "draft procedure", "kit", "values", "bulletin", "paper"];
    let calculations: Vec<String> = text(&benchleaf(&["reckon"]).stdout).lines().filter(|line| line.contains("   ")).map(|line| format!("reckon {}", line.split(' ').next().unwrap())).collect();
    let asked = commands.map(str::to_owned).into_iter().chain(calculations);
    let help = asked.map(|command| text(&benchleaf(&command.split(' ').chain(["--help"]).collect::<Vec<_>>()).stdout));
    help.flat_map(|help| help.split(|c: char| !c.is_ascii_alphanumeric() && c != '-').filter(|word| word.starts_with("--")).map(str::to_owned).collect::<Vec<_>>()).collect()
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
    // A word in capitals stands for any.
    let is_slot = |word: &&str| word.chars().all(|c| c.is_ascii_uppercase());
    if is_slot(command) {
        return None;
    }
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
    let is_whole = !rest.is_empty() && !rest.iter().any(is_slot);
    let runs = !["explain", "reckon", "schema"].contains(command) || !is_whole || benchleaf(words).status.success();
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
    plain && !NO_PATHS.contains(&span) && (span.contains('/') || ENDINGS.iter().any(|ending| span.ends_with(ending)))
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
    let (mut inside, mut heading) = (false, None::<String>);
    for event in Parser::new_ext(&source, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::CodeBlock(kind)) => {
                let kind = if let CodeBlockKind::Fenced(word) = kind { word.to_string() } else { String::new() };
                found.blocks.push((kind, String::new()));
                inside = true;
            }
            Event::End(TagEnd::CodeBlock) => inside = false,
            Event::Text(text) if inside => found.blocks.last_mut().unwrap().1.push_str(&text),
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => found.links.push(dest_url.to_string()),
            Event::Start(Tag::Heading { .. }) => heading = Some(String::new()),
            Event::End(TagEnd::Heading(_)) => found.anchors.extend(heading.take().map(|words| anchor(&words))),
            Event::Text(text) => heading.iter_mut().for_each(|words| words.push_str(&text)),
            Event::Code(text) => {
                heading.iter_mut().for_each(|words| words.push_str(&text));
                found.spans.push(text.to_string());
            }
            _ => {}
        }
    }
    found
}

/// What a heading is called in a link, as readers of Markdown make it.
fn anchor(words: &str) -> String {
    let kept = words.to_lowercase().replace(' ', "-");
    kept.chars().filter(|c| c.is_alphanumeric() || "-_".contains(*c)).collect()
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
