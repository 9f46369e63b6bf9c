//! The demo as texts that can be spoilt, and the places in them.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// One mistake made at one place.
#[derive(Clone, Debug)]
pub struct Seed {
    /// The file, below the manual's folder.
    pub file: String,
    /// Its text with the mistake in it.
    pub text: String,
    /// The lines, from 1, at which a finding counts as in the right place.
    pub lines: Vec<usize>,
    /// What was done, for the report.
    pub what: String,
}

/// The clean demo.
#[derive(Clone, Debug)]
pub struct Demo {
    /// Its folder.
    pub folder: PathBuf,
    /// Text files by path.
    pub files: BTreeMap<String, String>,
}

/// An act in the text: where it stands, and its parts.
#[derive(Clone, Debug)]
pub struct ActAt {
    pub file: String,
    pub start: usize,
    pub end: usize,
    pub words: String,
    pub verb: String,
    pub target: String,
}

impl Demo {
    pub fn read(folder: &Path) -> Self {
        let mut files = BTreeMap::new();
        let mut waiting = vec![folder.to_path_buf()];
        while let Some(here) = waiting.pop() {
            for entry in fs::read_dir(&here).unwrap() {
                let path = entry.unwrap().path();
                let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default().to_owned();
                if path.is_dir() {
                    waiting.push(path);
                } else if ending == "md" || ending == "yaml" {
                    let name = path.strip_prefix(folder).unwrap().to_str().unwrap().to_owned();
                    files.insert(name, fs::read_to_string(&path).unwrap());
                }
            }
        }
        Self { folder: folder.to_path_buf(), files }
    }

    /// A mistake: a span of a file replaced.
    pub fn replace(&self, file: &str, start: usize, end: usize, with: &str, what: impl Into<String>) -> Seed {
        let text = &self.files[file];
        let spoilt = format!("{}{with}{}", &text[..start], &text[end..]);
        let line = line_of(text, start);
        Seed { file: file.to_owned(), text: spoilt, lines: vec![line], what: what.into() }
    }

    /// Every act of every procedure.
    pub fn acts(&self) -> Vec<ActAt> {
        let mut acts = Vec::new();
        for (file, text) in self.files.iter().filter(|(file, _)| file.ends_with(".md")) {
            let body = text.match_indices("\n---").nth(0).map_or(0, |(at, _)| at + 4);
            let mut from = body;
            while let Some(at) = text[from..].find("](").map(|at| at + from) {
                let end = text[at..].find(')').map_or(text.len(), |e| at + e + 1);
                let address = &text[at + 2..end - 1];
                if let (Some(open), Some((verb, target))) = (text[..at].rfind('['), address.split_once(':')) {
                    let is_act = !target.starts_with("//") && verb.bytes().all(|b| b.is_ascii_lowercase() || b == b'-') && verb != "see";
                    if is_act && !text[..open].ends_with('!') {
                        acts.push(ActAt {
                            file: file.clone(),
                            start: open,
                            end,
                            words: text[open + 1..at].to_owned(),
                            verb: verb.to_owned(),
                            target: target.to_owned(),
                        });
                    }
                }
                from = end;
            }
        }
        acts
    }

    /// The steps of a file: the span of each from its heading to the next.
    pub fn steps(&self, file: &str) -> Vec<(usize, usize)> {
        let text = &self.files[file];
        let starts: Vec<usize> = text.match_indices("\n## ").map(|(at, _)| at + 1).collect();
        let mut ends: Vec<usize> = starts.iter().skip(1).copied().collect();
        ends.push(text.len());
        starts.into_iter().zip(ends).collect()
    }

    /// The step in which a byte of a file stands.
    pub fn step_at(&self, file: &str, byte: usize) -> Option<(usize, usize)> {
        self.steps(file).into_iter().find(|(start, end)| (*start..*end).contains(&byte))
    }

    /// Every place where a text stands, with its file and byte.
    pub fn find(&self, wanted: &str) -> Vec<(String, usize)> {
        self.files.iter().flat_map(|(file, text)| text.match_indices(wanted).map(move |(at, _)| (file.clone(), at))).collect()
    }

    /// Every `key: value` on a line of its own or in braces, in YAML: file, span of the value, its text.
    pub fn values(&self, key: &str) -> Vec<(String, usize, usize, String)> {
        let mut found = Vec::new();
        let wanted = format!("{key}: ");
        for (file, text) in &self.files {
            let head_end = if file.ends_with(".md") { text[3..].find("\n---").map_or(0, |at| at + 3) } else { text.len() };
            for (at, _) in text[..head_end].match_indices(&wanted) {
                let boundary = text[..at].chars().next_back().is_none_or(|c| matches!(c, ' ' | '{' | '\n' | ','));
                if boundary {
                    let start = at + wanted.len();
                    let end = value_end(text, start);
                    found.push((file.clone(), start, end, text[start..end].to_owned()));
                }
            }
        }
        found
    }
}

/// Where a YAML value ends that begins at a byte: at a comma or closing bracket of its level, or the line's end.
fn value_end(text: &str, start: usize) -> usize {
    let mut depth = 0_i32;
    let mut quote: Option<char> = None;
    for (at, c) in text[start..].char_indices() {
        match (quote, c) {
            (Some(q), c) if c == q => quote = None,
            (Some(_), _) => {}
            (None, '\'' | '"') => quote = Some(c),
            (None, '{' | '[') => depth += 1,
            (None, '}' | ']') if depth == 0 => return start + at,
            (None, '}' | ']') => depth -= 1,
            (None, ',') if depth == 0 => return start + at,
            (None, '\n') if depth == 0 => return start + at,
            _ => {}
        }
    }
    text.len()
}

/// The line, from 1, of a byte.
pub fn line_of(text: &str, byte: usize) -> usize {
    text[..byte].bytes().filter(|b| *b == b'\n').count() + 1
}
