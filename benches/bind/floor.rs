//! The floor: what no tool for this job can avoid, by the same libraries, and nothing else.
//!
//! It reads every file of a manual, parses its front matter into plain values, runs its text through pulldown-cmark, renders
//! by tera as many pages as a site has, each as large, with every line escaped, colours by syntect the sources where the site
//! shows them, and writes as many files with as many bytes. It checks nothing, links nothing, converts nothing, draws nothing.

use crate::Result;
use pulldown_cmark::{Event, Options, Parser, Tag};
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use syntect::html::{ClassStyle, ClassedHTMLGenerator};
use syntect::parsing::{SyntaxDefinition, SyntaxSet, SyntaxSetBuilder};
use syntect::util::LinesWithEndings;
use tera::{Context, Tera};
use walkdir::WalkDir;

/// A page as short as a page can be: its head, its text, its rows.
const PAGE: &str = "<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>{{ title }}</title><link rel=\"stylesheet\" href=\"../page.css\"></head>\n\
    <body>\n<h1>{{ title }}</h1>\n{% if coloured %}{{ text | safe }}{% else %}<p>{{ text }}</p>{% endif %}{% for row in rows %}<p><span>{{ row }}</span></p>\n{% endfor %}</body>\n</html>\n";
/// What stands round a row of a page, in bytes.
const ROUND: usize = "<p><span></span></p>\n".len();

struct Source {
    path: PathBuf,
    text: String,
    /// The words of the text below its front matter, a paragraph a line.
    words: String,
    /// How many values its front matter has.
    values: usize,
}

/// A file of the site that is to be equalled.
struct File {
    path: PathBuf,
    bytes: usize,
}

/// Does the work, and tells how many files and bytes it wrote, and how many values it read.
pub(crate) fn floor(manual: &Path, site: &Path, into: &Path) -> Result<(usize, usize, usize)> {
    let sources: Vec<Source> = side_by_side(&files(manual)?, |file| source(manual, file))?.into_iter().collect();
    let files = files(site)?;
    let mut tera = Tera::default();
    tera.add_raw_template("page.html", PAGE)?;
    let syntax = syntax()?;
    let by_stem: BTreeMap<&Path, usize> = sources.iter().enumerate().map(|(at, source)| (source.path.as_path(), at)).collect();
    for file in &files {
        if let Some(parent) = into.join(&file.path).parent() {
            fs::create_dir_all(parent)?;
        }
    }
    let written = side_by_side(&files, |file| {
        // The source a page is about: that of its own name, or any.
        let about = source_path(&file.path);
        let at = by_stem.get(about.as_path()).copied().unwrap_or(file.bytes % sources.len().max(1));
        let source = sources.get(at).ok_or("no sources")?;
        let name = file.path.to_string_lossy();
        let bytes = if name.ends_with(".source.html") {
            let text = coloured(&syntax, &source.text)?;
            page(&tera, source, &text, 0)?
        } else if name.ends_with(".html") {
            page(&tera, source, &source.words, file.bytes)?
        } else {
            vec![b' '; file.bytes]
        };
        let mut bytes = bytes;
        bytes.resize(file.bytes, b' ');
        fs::write(into.join(&file.path), &bytes)?;
        Ok(bytes.len())
    })?;
    Ok((written.len(), written.iter().sum(), sources.iter().map(|source| source.values).sum()))
}

fn files(folder: &Path) -> Result<Vec<File>> {
    let mut found = Vec::new();
    for entry in WalkDir::new(folder).sort_by_file_name() {
        let entry = entry?;
        if entry.file_type().is_file() {
            found.push(File { path: entry.path().strip_prefix(folder)?.to_owned(), bytes: usize::try_from(entry.metadata()?.len())? });
        }
    }
    Ok(found)
}

fn source(manual: &Path, file: &File) -> Result<Source> {
    let text = fs::read_to_string(manual.join(&file.path))?;
    let (head, body) = match text.strip_prefix("---\n").and_then(|rest| rest.split_once("\n---\n")) {
        Some(parts) => parts,
        None if file.path.extension().is_some_and(|kind| kind == "yaml") => (text.as_str(), ""),
        None => ("", text.as_str()),
    };
    let values: BTreeMap<String, Value> = if head.trim().is_empty() { BTreeMap::new() } else { serde_yaml::from_str(head)? };
    let mut words = String::new();
    for event in Parser::new_ext(body, Options::ENABLE_TABLES | Options::ENABLE_HEADING_ATTRIBUTES) {
        match event {
            Event::Start(Tag::Paragraph | Tag::Heading { .. }) => words.push('\n'),
            Event::Text(text) | Event::Code(text) => words.push_str(&text),
            _ => {}
        }
    }
    Ok(Source { path: file.path.clone(), values: values.values().map(count).sum(), words, text })
}

fn count(value: &Value) -> usize {
    match value {
        Value::Array(all) => all.iter().map(count).sum(),
        Value::Object(all) => all.values().map(count).sum(),
        _ => 1,
    }
}

/// `tarn/hub-sheet-late.html` and `tarn/hub.source.html` are about `tarn/hub.md`.
fn source_path(page: &Path) -> PathBuf {
    let name = page.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.split('.').next().unwrap_or_default();
    let stem = stem.split_once("-sheet").map_or(stem, |(stem, _)| stem);
    page.with_file_name(format!("{stem}.md"))
}

#[derive(Serialize)]
struct View<'v> {
    title: &'v str,
    text: &'v str,
    /// Whether the text is markup by the highlighter.
    coloured: bool,
    rows: Vec<&'v str>,
}

/// A page of about so many bytes: the words, and lines of the source as often as it takes. Of no bytes: markup as it is.
fn page(tera: &Tera, source: &Source, text: &str, bytes: usize) -> Result<Vec<u8>> {
    let mut left = bytes.saturating_sub(PAGE.len());
    let text = if text.len() <= left || bytes == 0 { text } else { "" };
    left = left.saturating_sub(text.len());
    let mut rows = Vec::new();
    for line in source.text.lines().filter(|line| !line.is_empty()).cycle() {
        if line.len() + ROUND > left {
            break;
        }
        left -= line.len() + ROUND;
        rows.push(line);
    }
    let title = source.path.to_string_lossy();
    let context = Context::from_serialize(&View { title: &title, text, coloured: bytes == 0, rows })?;
    Ok(tera.render("page.html", &context)?.into_bytes())
}

/// The grammar of the program's own pages: those of the library would make the floor many times higher.
fn syntax() -> Result<SyntaxSet> {
    let mut set = SyntaxSetBuilder::new();
    set.add(SyntaxDefinition::load_from_str(include_str!("../../src/page/procedure_syntax.yaml"), true, None)?);
    Ok(set.build())
}

fn coloured(set: &SyntaxSet, text: &str) -> Result<String> {
    let syntax = set.find_syntax_by_name("Procedure").ok_or("no grammar")?;
    let mut generator = ClassedHTMLGenerator::new_with_class_style(syntax, set, ClassStyle::SpacedPrefixed { prefix: "code-" });
    for line in LinesWithEndings::from(text) {
        generator.parse_html_for_line_which_includes_newline(line)?;
    }
    Ok(generator.finalize())
}

/// On every processor, as the program does it; results in the order of the work.
fn side_by_side<W: Sync, T: Send>(work: &[W], each: impl Fn(&W) -> Result<T> + Sync) -> Result<Vec<T>> {
    let (next, done) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                while let Some((at, piece)) = Some(next.fetch_add(1, Ordering::Relaxed)).and_then(|at| Some((at, work.get(at)?))) {
                    // An error goes between threads as its words.
                    let result = each(piece).map_err(|error| error.to_string());
                    if let Ok(mut done) = done.lock() {
                        done.push((at, result));
                    }
                }
            });
        }
    });
    let mut done = done.into_inner().map_err(|_| "a thread stopped")?;
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, result)| result.map_err(Into::into)).collect()
}
