//! The authoring guide in `docs/`: its reference pages follow from the program, and every example in them is good work.
//!
//! `cargo test --test guide -- --ignored` writes the reference pages anew.

#![expect(clippy::disallowed_methods, reason = "a test reads and writes the guide")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]

use benchleaf::manual::{ListKind, VERBS};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const KINDS: [(&str, &str); 4] = [
    ("manual", "manual.yaml"),
    ("shop", "shop.yaml"),
    ("machine", "MACHINE/machine.yaml"),
    ("procedure", "MACHINE/PROCEDURE.md, between the two lines of ---"),
];

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn program(arguments: &[&str]) -> String {
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(project()).output().unwrap();
    assert!(run.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&run.stderr));
    String::from_utf8(run.stdout).unwrap()
}

/// A key of the format: where it stands, what it holds, what it says.
struct Key {
    name: String,
    holds: String,
    help: String,
}

/// A list of things with the keys of its entries.
#[derive(Default)]
struct List {
    help: String,
    files: Vec<&'static str>,
    keys: Vec<Key>,
}

/// An entry of a list as somebody wrote it.
struct Entry {
    file: String,
    text: String,
}

/// The format, as the program's own schemas tell it.
struct Format {
    heads: Vec<(&'static str, Vec<Key>)>,
    lists: BTreeMap<String, List>,
}

impl Format {
    fn told() -> Self {
        let mut format = Self { heads: Vec::new(), lists: BTreeMap::new() };
        for (kind, file) in KINDS {
            let schema: Value = serde_json::from_str(&program(&["schema", kind])).unwrap();
            let mut head = Vec::new();
            for (name, property) in schema["properties"].as_object().unwrap() {
                if ListKind::ALL.iter().any(|list| list.key() == name) {
                    let list = format.lists.entry(name.clone()).or_default();
                    list.files.push(kind);
                    list.help = property["description"].as_str().unwrap_or_default().to_owned();
                    list.keys = keys(&property["additionalProperties"], "");
                } else {
                    head.extend(key(name, property));
                }
            }
            format.heads.push((file, head));
        }
        format
    }
}

/// The keys of a map, those of maps within it behind a point.
fn keys(schema: &Value, before: &str) -> Vec<Key> {
    let Some(properties) = properties(schema) else { return Vec::new() };
    properties.iter().flat_map(|(name, property)| key(&format!("{before}{name}"), property)).collect()
}

fn key(name: &str, property: &Value) -> Vec<Key> {
    let help = property["description"].as_str().unwrap_or_default().to_owned();
    let mut all = vec![Key { name: name.to_owned(), holds: holds(property), help }];
    all.extend(keys(property, &format!("{name}.")));
    all
}

/// The keys that a schema names, wherever in it they stand; not those by which any value may vary.
fn properties(schema: &Value) -> Option<&serde_json::Map<String, Value>> {
    // A condition, `{is: …, for: …}`; a measure has an `is` of its own.
    let by_variant = |found: &serde_json::Map<String, Value>| found.contains_key("is") && found.contains_key("for") && !found.contains_key("name");
    if let Some(found) = schema["properties"].as_object().filter(|found| !by_variant(found)) {
        return Some(found);
    }
    let choices = schema["anyOf"].as_array().into_iter().flatten();
    choices.chain([&schema["items"]]).filter(|inner| !inner.is_null()).find_map(properties)
}

/// A word as it must be written: what YAML makes something else of, in quotes.
fn quoted(word: &str) -> String {
    if matches!(word, "yes" | "no" | "on" | "off") { format!("`'{word}'`") } else { format!("`{word}`") }
}

/// What a key holds, in words.
fn holds(schema: &Value) -> String {
    if let Some(reference) = schema["$ref"].as_str() {
        return reference.rsplit('/').next().unwrap().to_owned();
    }
    if let Some(words) = schema["enum"].as_array() {
        return words.iter().filter_map(Value::as_str).map(quoted).collect::<Vec<_>>().join(" ");
    }
    if let Some(choices) = schema["anyOf"].as_array() {
        // The ways in which a value varies are the same for all and told once.
        let own = choices.iter().filter(|choice| {
            !choice["description"].as_str().is_some_and(|told| told.starts_with("by the values of") || told.starts_with("where two axes"))
        });
        let mut told: Vec<String> = own.map(holds).filter(|words| !words.is_empty() && words != "number").collect();
        told.dedup();
        return told.join(" or ");
    }
    match schema["type"].as_str() {
        Some("integer") => "count".to_owned(),
        Some("boolean") => "`true` or `false`".to_owned(),
        Some("array") => format!("list of {}", holds(&schema["items"])),
        Some("object") => "map".to_owned(),
        Some("number") => "number".to_owned(),
        Some(_) | None => "words".to_owned(),
    }
}

/// Every file of the manuals whose entries may serve as examples: the demo first, then what the guide adds to it.
fn examples() -> Vec<(String, String)> {
    let mut files = Vec::new();
    for manual in ["procedures", "docs/extra"] {
        let mut folders = vec![project().join(manual)];
        while let Some(folder) = folders.pop() {
            let mut inside: Vec<PathBuf> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
            inside.sort();
            for path in inside {
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|ending| ending == "yaml" || ending == "md") {
                    let name = path.strip_prefix(project()).unwrap().to_string_lossy().replace('\\', "/");
                    files.push((name, fs::read_to_string(&path).unwrap()));
                }
            }
        }
    }
    // The folders were met in no order that holds.
    files.sort_by_key(|(name, _)| (name.starts_with("docs"), name.clone()));
    files
}

/// The YAML of a file.
fn front_matter(text: &str) -> &str {
    match text.strip_prefix("---\n") {
        Some(rest) => rest.split("\n---\n").next().unwrap(),
        None => text,
    }
}

/// The entries of a list in every example: lines two spaces in, with what stands further in below them.
fn entries(list: &str, files: &[(String, String)]) -> Vec<Entry> {
    let mut found = Vec::new();
    for (file, text) in files {
        let mut inside = false;
        for line in front_matter(text).lines() {
            if !line.starts_with(' ') && !line.is_empty() && !line.starts_with('#') {
                inside = line == format!("{list}:");
            } else if inside && line.starts_with("  ") && !line.starts_with("   ") {
                found.push(Entry { file: file.clone(), text: format!("{line}\n") });
            } else if inside
                && line.starts_with("   ")
                && let Some(entry) = found.last_mut()
            {
                let _ = writeln!(entry.text, "{line}");
            }
        }
    }
    found
}

/// The keys that a text uses, each as the last part of its name.
fn uses(text: &str, key: &str) -> bool {
    let last = key.rsplit('.').next().unwrap();
    text.match_indices(&format!("{last}:")).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        before.is_none_or(|character| matches!(character, ' ' | '{' | '\n'))
    })
}

/// As few entries as show every key; the keys that none shows.
fn chosen<'a>(list: &List, entries: &'a [Entry]) -> (Vec<&'a Entry>, BTreeSet<String>) {
    let own = list.keys.iter().filter(|key| !is_common(&key.name));
    let mut missing: BTreeSet<String> = own.map(|key| key.name.clone()).collect();
    let mut shown = Vec::new();
    loop {
        let gain = |entry: &&Entry| missing.iter().filter(|key| uses(&entry.text, key)).count();
        // The first of the best, so that the choice is the same on every machine.
        let Some(best) = entries.iter().rev().max_by_key(|entry| (gain(entry), std::cmp::Reverse(entry.text.len()))) else { break };
        if gain(&best) == 0 {
            break;
        }
        missing.retain(|key| !uses(&best.text, key));
        shown.push(best);
    }
    (shown, missing)
}

fn row(out: &mut String, name: &str, key: &Key) {
    let holds = key.holds.replace('|', "\\|");
    let _ = writeln!(out, "| `{name}` | {holds} | {} |", key.help.replace('|', "\\|"));
}

/// Whether a key, or the key it stands in, is told once for all lists.
fn is_common(name: &str) -> bool {
    COMMON.contains(&name.split('.').next().unwrap_or(name))
}

/// Keys that every entry of every list may carry.
const COMMON: [&str; 7] = ["name", "source", "sources", "decided", "for", "note", "limit"];

/// `docs/keys.md`, and the keys without an example.
fn keys_page() -> (String, BTreeSet<String>) {
    let format = Format::told();
    let files = examples();
    let all_text: String = files.iter().map(|(_, text)| front_matter(text)).collect::<Vec<_>>().join("\n");
    let mut without = BTreeSet::new();
    let mut out = String::from(
        "# Every key\n\n<!-- Written by `cargo test --test guide -- --ignored` from the program's own tables and the demo. -->\n\n\
         Each file of a manual, its keys, and real entries that use them. The same is in the schemas that\n\
         `benchleaf schema` prints for editors. Any key of an entry but `name` and `for` may differ by variant\n\
         ([Values that differ](writing.md#values-that-differ)). What a *quantity* is: [Quantities](writing.md#quantities).\n",
    );
    for (file, keys) in &format.heads {
        let _ = write!(out, "\n## {file}\n\n| key | holds | what it says |\n| --- | --- | --- |\n");
        for key in keys {
            row(&mut out, &key.name, key);
            if !uses(&all_text, &key.name) {
                without.insert(format!("{file}: {}", key.name));
            }
        }
    }
    out.push_str("\n## In every entry of every list\n\n| key | holds | what it says |\n| --- | --- | --- |\n");
    for key in format.lists["fasteners"].keys.iter().filter(|key| is_common(&key.name)) {
        row(&mut out, &key.name, key);
        if !uses(&all_text, &key.name) {
            without.insert(key.name.clone());
        }
    }
    for (name, list) in &format.lists {
        let entries = entries(name, &files);
        let (shown, missing) = chosen(list, &entries);
        without.extend(missing.into_iter().map(|key| format!("{name}: {key}")));
        let _ = write!(out, "\n## {name}\n\n");
        if !list.help.is_empty() {
            let _ = write!(out, "{}. ", capitalised(&list.help));
        }
        let _ = writeln!(out, "In: {}.\n", list.files.join(", "));
        let own: Vec<&Key> = list.keys.iter().filter(|key| !is_common(&key.name) || key.help != common_help(&format, &key.name)).collect();
        if !own.is_empty() {
            out.push_str("| key | holds | what it says |\n| --- | --- | --- |\n");
            own.iter().for_each(|key| row(&mut out, &key.name, key));
            out.push('\n');
        } else {
            out.push_str(if list.keys.is_empty() { "An entry has no keys: it is a list of ids, in their order.\n\n" } else { "An entry has no keys but those of every list.\n\n" });
        }
        let shown = if shown.is_empty() { entries.iter().take(1).collect() } else { shown };
        if shown.is_empty() {
            without.insert(format!("{name}: an entry"));
        }
        let mut last = "";
        for entry in shown {
            if entry.file != last {
                if !last.is_empty() {
                    out.push_str("```\n\n");
                }
                let _ = write!(out, "From `{}`:\n\n```yaml\n{name}:\n", entry.file);
            }
            out.push_str(&entry.text);
            last = &entry.file;
        }
        if !last.is_empty() {
            out.push_str("```\n");
        }
    }
    (out, without)
}

fn common_help<'a>(format: &'a Format, name: &str) -> &'a str {
    format.lists["fasteners"].keys.iter().find(|key| key.name == name).map_or("", |key| key.help.as_str())
}

fn capitalised(words: &str) -> String {
    let mut characters = words.chars();
    characters.next().map_or_else(String::new, |first| first.to_uppercase().chain(characters).collect())
}

/// `docs/acts.md`, and the verbs without an example.
fn acts_page() -> (String, Vec<&'static str>) {
    let files = examples();
    let mut without = Vec::new();
    let mut out = String::from(
        "# Every act\n\n<!-- Written by `cargo test --test guide -- --ignored` from the program's own tables and the demo. -->\n\n\
         An act is a link whose address is a verb and an id: `[Tighten the cap bolts](torque:cap-bolt)`. The order of the acts\n\
         in the text is the order of work. A sheet makes of each act one line to tick: the link's words, the thing's name where\n\
         the words lack it, its value. So the words are an instruction that can stand alone.\n\n\
         | verb | meaning | ids from | from the demo |\n| --- | --- | --- | --- |\n",
    );
    for verb in VERBS {
        let lists: Vec<&str> = verb.lists.iter().map(|list| list.key()).collect();
        let start = format!("]({}:", verb.word);
        let example = files.iter().find_map(|(_, text)| {
            let at = text.find(&start)?;
            let open = text[..at].rfind('[')?;
            let close = at + text[at..].find(')')?;
            Some(text[open..=close].split_whitespace().collect::<Vec<_>>().join(" "))
        });
        if example.is_none() {
            without.push(verb.word);
        }
        let ticks = if verb.ticks { "" } else { "; no box of its own on the sheet" };
        let example = example.map_or_else(String::new, |example| format!("`{example}`"));
        let lists = if lists.is_empty() { "–".to_owned() } else { lists.join(", ") };
        let _ = writeln!(out, "| `{}:` | {}{ticks} | {lists} | {example} |", verb.word, verb.means);
    }
    (out, without)
}

/// `docs/rules.md`.
fn rules_page() -> String {
    let mut out = String::from(
        "# Every rule\n\n<!-- Written by `cargo test --test guide -- --ignored` from the program's own list. -->\n\n\
         `benchleaf explain NAME` tells what a rule finds, why it matters at the bench, when it may be wrong, and what to write\n\
         instead. Each page linked here has a faulty sample, the report it gives, and samples on which it is silent.\n\n\
         An *error* always stops publishing; a *warning* stops where `profile:` in `manual.yaml` is `club` or `published`; a *note* never does.\n\n\
         | rule | grade | finds |\n| --- | --- | --- |\n",
    );
    for line in program(&["explain"]).lines() {
        let mut words = line.split_whitespace();
        let (Some(name), Some(grade)) = (words.next(), words.next()) else { continue };
        let _ = writeln!(out, "| [`{name}`](../tests/rules/{name}.md) | {grade} | {} |", words.collect::<Vec<_>>().join(" "));
    }
    out
}

fn pages() -> [(&'static str, String); 3] {
    [("docs/keys.md", keys_page().0), ("docs/acts.md", acts_page().0), ("docs/rules.md", rules_page())]
}

#[test]
#[ignore = "writes the reference pages of the guide anew"]
fn write_the_reference_pages() {
    for (path, text) in pages() {
        fs::write(project().join(path), text).unwrap();
    }
}

#[test]
fn the_reference_pages_are_as_the_program_tells_them() {
    for (path, text) in pages() {
        let there = fs::read_to_string(project().join(path)).unwrap_or_default();
        assert!(there == text, "{path} is not up to date: cargo test --test guide -- --ignored");
    }
}

#[test]
fn every_key_and_every_act_has_an_example() {
    assert_eq!(keys_page().1, BTreeSet::new());
    assert_eq!(acts_page().1, Vec::<&str>::new());
}

#[test]
fn what_the_guide_adds_to_the_demo_is_good_work() {
    assert!(program(&["inspect", "docs/extra"]).contains("nothing found"));
}

/// Runs a page of the guide: blocks with a path are written as that file, lines of `sh` are typed. Where a block says `finds`,
/// findings are what is wanted.
fn run_as_written(page: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(project().join(page)).unwrap();
    let mut typed = 0;
    for (kind, body) in blocks(&text) {
        let (language, rest) = kind.split_once(' ').unwrap_or((kind.as_str(), ""));
        if language == "sh" {
            for line in body.lines() {
                let words = words_typed(line);
                assert_eq!(words[0], "benchleaf", "{page}: {line}");
                let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(&words[1..]).current_dir(folder.path()).output().unwrap();
                let wanted = if rest == "finds" { 1 } else { 0 };
                let told = format!("{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
                assert_eq!(run.status.code(), Some(wanted), "{page}: {line}\n{told}");
                typed += 1;
            }
        } else if !rest.is_empty() {
            let file = folder.path().join(rest);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, body).unwrap();
        }
    }
    assert!(typed > 3, "{page}");
    folder
}

/// The fenced blocks of a page: what stands behind the fence, and what is in it.
fn blocks(text: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open: Option<(String, String)> = None;
    for line in text.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(kind)) => open = Some((kind.to_owned(), String::new())),
            (Some(_), Some(_)) => found.extend(open.take()),
            (Some((_, body)), None) => {
                body.push_str(line);
                body.push('\n');
            }
            (None, None) => {}
        }
    }
    found
}

/// The words of a line as a shell parts them: at spaces, but not between quotes.
fn words_typed(line: &str) -> Vec<String> {
    let parts = line.split('"').enumerate();
    parts
        .flat_map(|(at, part)| if at % 2 == 1 { vec![part.to_owned()] } else { part.split_whitespace().map(str::to_owned).collect() })
        .collect()
}

#[test]
fn the_first_sheet_is_made_as_its_page_says() {
    let folder = run_as_written("docs/first-sheet.md");
    let sheet = fs::read_to_string(folder.path().join("site/bench-pump/close-the-cover-sheet.html")).unwrap();
    assert!(sheet.contains("8 N·m") && sheet.contains("400 mL"));
}
