//! The house keeps its order: imports run along the arrows of the line of stages, every file says what it is
//! about, no file grows over its head.

#![expect(clippy::disallowed_methods, reason = "the test reads the sources of the program")]
#![expect(clippy::panic, reason = "a test that can't read the sources says so by failing")]

use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// What the files of a folder of `src` may use of the other folders. A stage may use the stages before it, never
/// one behind it; `quantity`, `trade`, `finding` and `crew` are vocabulary; only `command` knows the stage that writes.
const ARROWS: [(&str, &[&str]); 16] = [
    ("crew", &[]),
    ("quantity", &[]),
    ("finding", &[]),
    ("trade", &["quantity", "finding"]),
    ("reckon", &["quantity", "trade", "finding"]),
    ("source", &["crew", "quantity", "trade", "finding"]),
    ("manual", &["quantity", "trade", "finding", "source"]),
    ("inspect", &["crew", "quantity", "trade", "finding", "source", "manual"]),
    ("figure", &["quantity", "trade", "finding", "source", "manual", "inspect"]),
    ("page", &["crew", "quantity", "trade", "finding", "source", "manual", "inspect", "figure"]),
    ("bulletin", &["quantity", "trade", "finding", "source", "manual", "inspect"]),
    ("recording", &["quantity", "trade", "finding", "source", "manual", "inspect"]),
    ("draft", &["quantity", "trade", "finding", "source", "manual", "inspect", "recording"]),
    ("output", &["crew", "finding"]),
    ("proof", &[]),
    ("command", &["crew", "quantity", "trade", "finding", "reckon", "source", "manual", "inspect", "figure", "page", "bulletin", "recording", "draft", "output", "proof"]),
];

/// About 400 lines of code are the mark for looking for a second subject; with documentation and tests this is
/// where a file ends.
const MOST_LINES: usize = 600;

#[test]
fn imports_run_along_the_arrows() {
    let wrong: Vec<String> = sources()
        .iter()
        .flat_map(|file| {
            faults(&module_of(file), &text_of(file)).into_iter().map(move |f| format!("{}: {f}", shown(file)))
        })
        .collect();
    assert!(wrong.is_empty(), "these imports run against the arrows:\n{}", wrong.join("\n"));
}

#[test]
fn every_folder_of_the_sources_has_its_arrows() {
    let known: BTreeSet<_> = ARROWS.iter().map(|(stage, _)| (*stage).to_owned()).collect();
    let there: BTreeSet<_> = sources().iter().map(|file| module_of(file)).filter_map(|m| m.first().cloned()).collect();
    assert_eq!(there, known);
}

#[test]
fn every_file_says_first_what_it_is_about() {
    for file in sources() {
        let text = text_of(&file);
        let first = text.lines().next().unwrap_or_default();
        assert!(
            first.strip_prefix("//! ").is_some_and(|words| !words.trim().is_empty()),
            "{}: {first:?}",
            shown(&file)
        );
    }
}

#[test]
fn no_file_is_too_long() {
    for file in sources() {
        let lines = text_of(&file).lines().count();
        assert!(lines <= MOST_LINES, "{} has {lines} lines; look for its second subject", shown(&file));
    }
}

/// Samples that must be caught, and samples that must not: else the tests above prove nothing.
#[test]
fn the_reader_of_imports_catches_every_form() {
    let caught = |module: &str, source: &str| faults(&parts(module), source);
    for against in [
        "use crate::page::View;",
        "use crate::{finding::Place, page::View};",
        "use crate::{finding::{Place, Rule}, page as leaf};",
        "use crate::{self, page};",
        "pub use crate::page;",
        "pub(crate) use ::benchleaf::page::View;",
        "use {std::fs, crate::page::{self, View}};",
        "use super::super::page::View;",
        "use super::{super::page::View, facts};",
        "use self::super::super::{page};",
        "fn f() -> crate::page::View { todo() }",
        "fn f() { let view = <crate::page::View as Default>::default(); }",
        "fn f() { g(super::super::page::view()) }",
        "mod tests { use super::super::super::page::View; }",
        "#[cfg(test)] mod tests { mod deep { fn f() { crate::page::view() } } }",
        "macro_rules! view { () => { $crate::page::View } }",
        "fn f() { println!(\"{}\", crate::page::NAME) }",
        "pub(in crate::page) fn f() {}",
        "use crate::r#page::View;",
    ] {
        let faults = caught("manual/order", against);
        assert_eq!(faults.len(), 1, "{against}: {faults:?}");
        assert!(faults[0].contains("`page`"), "{against}: {faults:?}");
    }
    for (module, against) in [
        ("finding/text", "use crate::quantity::Unit;"),
        ("quantity", "use super::finding::Place;"),
        ("trade/thread", "use crate::source::Node;"),
        ("page/sheet", "use crate::output::PageFile;"),
        ("output/plan", "use crate::page::Page;"),
        ("figure", "use crate::command::Look;"),
        ("manual/order", "use crate::*;"),
        ("manual/order", "use super::super::*;"),
        ("manual/order", "use crate as root;"),
    ] {
        assert_eq!(caught(module, against).len(), 1, "{module}: {against}");
    }
    for along in [
        "use crate::source::{self, Body};",
        "use crate::{finding::{Place, Rule}, quantity, trade::thread};",
        "use crate::manual::Page;",
        "use super::page::View;",
        "use super::{page, steps::page as leaf};",
        "mod page; use page::View; use self::page::Other;",
        "mod page { use super::super::facts; }",
        "pub(crate) fn page() {}",
        "// use crate::page::View;\n/// [`crate::page::View`]\nfn f() { let words = \"crate::page::View\"; }",
        "use std::page::View; use other::crate_page::page;",
    ] {
        assert!(caught("manual/order", along).is_empty(), "{along}: {:?}", caught("manual/order", along));
    }
    for (module, along) in [
        ("command/bind", "use crate::{output::plan, page, source};"),
        ("", "pub mod page; use crate::page::View; fn main() { benchleaf::output::apply() }"),
    ] {
        assert!(caught(module, along).is_empty(), "{along}");
    }
}

/// Every use of another folder that the arrows don't allow to `module`, a path of names below the crate's root.
fn faults(module: &[String], source: &str) -> Vec<String> {
    let Some(stage) = module.first() else { return Vec::new() };
    let allowed = ARROWS.iter().find(|(name, _)| name == stage).map_or(&[][..], |(_, allowed)| allowed);
    let tokens: TokenStream = source.parse().unwrap_or_else(|error| panic!("{stage}: not Rust: {error}"));
    let mut used = Vec::new();
    uses(tokens, module, &mut used);
    let is_wrong = |name: &String| name != stage && !allowed.contains(&name.as_str());
    used.into_iter().filter(is_wrong).map(|name| format!("`{stage}` uses `{name}`")).collect()
}

/// Words of the language that can stand before a path that begins with colons, and are no part of it.
const BEFORE_PATHS: [&str; 14] =
    ["use", "as", "dyn", "else", "for", "if", "impl", "in", "match", "move", "mut", "return", "where", "while"];

/// Walks over tokens and notes, for every path that begins at the crate's root, the name that follows it. Macros
/// hold tokens, too, so what stands in them is seen.
fn uses(tokens: TokenStream, module: &[String], used: &mut Vec<String>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        match token {
            TokenTree::Ident(word) if *word == "mod" => {
                if let (Some(TokenTree::Ident(name)), Some(TokenTree::Group(body))) =
                    (tokens.get(at + 1), tokens.get(at + 2))
                {
                    let inner: Vec<String> = module.iter().cloned().chain([name.to_string()]).collect();
                    uses(body.stream(), &inner, used);
                    at += 2;
                }
                at += 1;
            }
            TokenTree::Ident(word) if BEFORE_PATHS.contains(&word.to_string().as_str()) => at += 1,
            TokenTree::Ident(_) => at = path(&tokens, at, Some(module.to_vec()), true, used),
            TokenTree::Group(group) => {
                uses(group.stream(), module, used);
                at += 1;
            }
            TokenTree::Punct(_) | TokenTree::Literal(_) => at += 1,
        }
    }
}

/// Follows one path from token `at` and returns the token behind it. `here` is the module that has been reached,
/// or none once the path has left the modules we know by name; `first` is true for a path's first name.
fn path(tokens: &[TokenTree], at: usize, here: Option<Vec<String>>, first: bool, used: &mut Vec<String>) -> usize {
    let here = match tokens.get(at) {
        Some(TokenTree::Ident(name)) => step(name.to_string().trim_start_matches("r#"), here, first, used),
        Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace && !first => {
            for entry in entries(group.stream()) {
                path(&entry, 0, here.clone(), false, used);
            }
            return at + 1;
        }
        Some(TokenTree::Punct(star)) if star.as_char() == '*' && !first => {
            note_root(here.as_deref(), "everything", used);
            return at + 1;
        }
        _ => return at,
    };
    if is_colons(tokens, at + 1) {
        return path(tokens, at + 3, here, false, used);
    }
    if matches!(tokens.get(at + 1), Some(TokenTree::Ident(word)) if *word == "as") && here.as_deref() == Some(&[]) {
        note_root(here.as_deref(), "the crate by another name", used);
    }
    at + 1
}

/// One name further along a path.
fn step(name: &str, here: Option<Vec<String>>, first: bool, used: &mut Vec<String>) -> Option<Vec<String>> {
    match name {
        "crate" | "benchleaf" if first => Some(Vec::new()),
        "self" => here,
        "super" => here.map(|mut here| {
            here.pop();
            here
        }),
        // A path's first name that is none of these is a name in scope: a module below, or another crate.
        _ if first => None,
        _ => {
            note_root(here.as_deref(), name, used);
            None
        }
    }
}

fn note_root(here: Option<&[String]>, name: &str, used: &mut Vec<String>) {
    if here.is_some_and(<[String]>::is_empty) {
        used.push(name.to_owned());
    }
}

/// The parts of `{a, b::{c, d}}`.
fn entries(group: TokenStream) -> Vec<Vec<TokenTree>> {
    let mut entries = vec![Vec::new()];
    for token in group {
        match &token {
            TokenTree::Punct(comma) if comma.as_char() == ',' => entries.push(Vec::new()),
            _ => entries.last_mut().into_iter().for_each(|entry| entry.push(token.clone())),
        }
    }
    entries
}

fn is_colons(tokens: &[TokenTree], at: usize) -> bool {
    let is_colon = |at: usize| matches!(tokens.get(at), Some(TokenTree::Punct(colon)) if colon.as_char() == ':');
    is_colon(at) && is_colon(at + 1)
}

/// Every Rust file below `src`, sorted.
fn sources() -> Vec<PathBuf> {
    let mut files = Vec::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
            let path = entry.unwrap_or_else(|error| panic!("{}: {error}", folder.display())).path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                files.push(path);
            }
        }
    }
    files.sort();
    assert!(files.len() > 10, "the sources were not found");
    files
}

fn text_of(file: &Path) -> String {
    fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

/// The file's path from `src`, with `/`.
fn shown(file: &Path) -> String {
    let below = file.strip_prefix(Path::new(env!("CARGO_MANIFEST_DIR")).join("src")).unwrap_or(file);
    below.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/")
}

/// The module that a file is: `page/sheet.rs` and `page/sheet/mod.rs` are page, sheet. `lib.rs` and `main.rs` are
/// the root, which is free.
fn module_of(file: &Path) -> Vec<String> {
    let name = shown(file);
    match name.as_str() {
        "lib.rs" | "main.rs" => Vec::new(),
        _ => parts(name.trim_end_matches(".rs").trim_end_matches("/mod")),
    }
}

fn parts(module: &str) -> Vec<String> {
    module.split('/').filter(|part| !part.is_empty()).map(str::to_owned).collect()
}
