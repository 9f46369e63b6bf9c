//! A part of a long report: the findings of chosen rules and files; and how many there are in which file.

use crate::finding::{FileId, FileTable, Finding, counted, nearest, visible};
use crate::inspect::rules;
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

/// From so many findings on, a report ends with how many there are in each file.
const LONG: usize = 20;
/// Files named there.
const MOST_FILES: usize = 30;

/// What is asked for: rules by name, files and folders by path.
pub(super) struct Part<'a> {
    rules: Vec<&'a str>,
    files: Vec<String>,
}

impl<'a> Part<'a> {
    /// Reads what was asked for. `root` is the manual's folder, and paths may be written from `started_in` too.
    ///
    /// # Errors
    /// In words, where something is neither a rule nor a file or folder of the manual.
    pub(super) fn of(asked: &'a [String], files: &FileTable, root: &Path, started_in: &Path) -> Result<Self, String> {
        let mut part = Self { rules: Vec::new(), files: Vec::new() };
        for word in asked {
            if rules().iter().any(|rule| rule.name == word) {
                part.rules.push(word);
                continue;
            }
            let below = plain(&started_in.join(word)).strip_prefix(plain(root)).ok().and_then(Path::to_str).map(str::to_owned);
            let named = [Some(word.trim_end_matches('/').to_owned()), below].into_iter().flatten();
            let file = named.into_iter().find(|named| files.iter().any(|(_, file)| lies_at(&file.name, named)));
            part.files.push(file.ok_or_else(|| unknown(word, files))?);
        }
        Ok(part)
    }

    /// Whether a finding belongs to it.
    pub(super) fn takes(&self, finding: &Finding, files: &FileTable) -> bool {
        let name = files.name(finding.place().file);
        (self.rules.is_empty() || self.rules.contains(&finding.rule().name)) && (self.files.is_empty() || self.files.iter().any(|file| lies_at(name, file)))
    }
}

/// A path without `.` and `..`, as far as they can be resolved without looking at the disk.
fn plain(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}

/// Whether a file is the one named, or lies in the folder named, or has this name in some folder.
fn lies_at(file: &str, named: &str) -> bool {
    let within = |rest: &str| named.is_empty() || rest.is_empty() || rest.starts_with('/');
    file.strip_prefix(named).is_some_and(within) || file.strip_suffix(named).is_some_and(|before| before.ends_with('/'))
}

fn unknown(word: &str, files: &FileTable) -> String {
    let names: Vec<&str> = files.iter().map(|(_, file)| file.name.as_str()).collect();
    let near = nearest(word, rules().into_iter().map(|rule| rule.name).chain(names));
    let near = near.map_or_else(|| "‘benchleaf explain’ lists the rules".to_owned(), |near| format!("did you mean ‘{near}’?"));
    format!("--only {word}: neither a rule nor a file of the manual; {near}")
}

/// How many findings there are in which file, most first, and how to see a part; nothing behind a short report.
pub(super) fn by_file(findings: &[Finding], files: &FileTable) -> String {
    let mut counts: BTreeMap<FileId, usize> = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding.answer().is_none()) {
        *counts.entry(finding.place().file).or_default() += 1;
    }
    if counts.values().sum::<usize>() < LONG || counts.len() < 2 {
        return String::new();
    }
    let mut rows: Vec<(usize, &str)> = counts.iter().map(|(file, count)| (*count, files.name(*file))).collect();
    rows.sort_by(|one, other| other.0.cmp(&one.0).then_with(|| one.1.cmp(other.1)));
    let left = rows.split_off(rows.len().min(MOST_FILES));
    let mut text: String = rows.iter().map(|(count, name)| format!("  {count:>5}  {}\n", visible(name))).collect();
    if !left.is_empty() {
        text.push_str(&format!("  {:>5}  in {}\n", left.iter().map(|(count, _)| count).sum::<usize>(), counted(left.len(), "further file")));
    }
    text.push_str("See a part of them with --only FILE or --only RULE.\n");
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_goes_by_its_path_its_name_and_its_folder() {
        assert!(lies_at("tarn/pump.md", "tarn/pump.md") && lies_at("tarn/pump.md", "pump.md") && lies_at("tarn/pump.md", "tarn"));
        assert!(!lies_at("tarn/pump.md", "pum") && !lies_at("tarn/pump.md", "mp.md") && !lies_at("tarn-2/pump.md", "tarn"));
    }
}
