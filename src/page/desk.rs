//! What a proof server puts on its pages while a manual is being written: a bar with the state of things, the list of
//! all findings with their lines, a page for what is not there.
//!
//! Made of words and findings alone, so that it can be made when the manual can't.

use super::error::PageError;
use super::faults::FaultView;
use super::template::Templates;
use super::words::{self, Words};
use super::{PageFile, assets, link};
use crate::finding::{FileTable, Finding, Place, Severity};
use serde::Serialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Findings that the bar shows; the list has them all.
const IN_BAR: usize = 12;
/// Bytes of a line that are shown to either side of the place of a finding.
const REACH: usize = 160;

/// What the bar and the list are made from.
pub struct DeskInput<'a> {
    /// The manual's title.
    pub title: &'a str,
    /// Its language, as BCP 47 tag.
    pub language: &'a str,
    /// Its theme.
    pub theme: &'a BTreeMap<String, Vec<u8>>,
    /// Its files, for the lines of findings.
    pub files: &'a FileTable,
    /// Everything that was found.
    pub findings: &'a [Finding],
    /// Whether the site has a page of this path.
    pub has: &'a dyn Fn(&str) -> bool,
    /// What keeps the pages as they were.
    pub trouble: Trouble<'a>,
}

/// What keeps the pages as they were at the last save that could be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble<'a> {
    /// Nothing: the pages are those of the last save.
    Nothing,
    /// These findings: files of which not all could be read.
    Holes(Vec<&'a Finding>),
    /// Something that is no finding: no folder, a broken template.
    Stopped(&'a str),
}

/// What is put on the pages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Desk {
    /// HTML of the bar, for the top of each page.
    pub bar: String,
    /// The list of findings, the page for what is not there, style and script; by names of one folder.
    pub files: Vec<PageFile>,
}

/// Makes bar and list. A theme that is broken is left aside.
///
/// # Errors
/// Only where the built-in theme is at fault.
pub fn desk(input: &DeskInput<'_>) -> Result<Desk, PageError> {
    let plain = BTreeMap::new();
    let (templates, spoken) = tools(input.language, input.theme).or_else(|_| tools("en", &plain))?;
    let view = View::of(input, spoken);
    let html = |template: &str| templates.render(template, &view).map(|page| page.as_str().to_owned());
    let bar = html("proof-bar.html")?;
    let mut files = assets::at_desk(input.theme);
    for (path, template) in [("findings.html", "proof-findings.html"), ("absent.html", "proof-absent.html")] {
        files.push(PageFile { path: path.to_owned(), bytes: html(template)?.into_bytes() });
    }
    Ok(Desk { bar, files })
}

/// The templates, and the language their words are in.
fn tools(language: &str, theme: &BTreeMap<String, Vec<u8>>) -> Result<(Templates, String), PageError> {
    let words = Arc::new(Words::load(language, theme)?);
    let language = if language.is_empty() { "en" } else { language };
    Ok((Templates::compile(theme, &words)?, language.to_owned()))
}

#[derive(Serialize)]
struct View<'a> {
    language: String,
    direction: Option<&'static str>,
    title: &'a str,
    errors: usize,
    warnings: usize,
    /// Whether the pages are older than the last save.
    kept: bool,
    stopped: Option<&'a str>,
    holes: Vec<FaultView>,
    /// How many more holes there are than the bar shows.
    more: usize,
    files: Vec<FileView<'a>>,
}

#[derive(Serialize)]
struct FileView<'a> {
    name: &'a str,
    /// The page that shows the file.
    page: Option<String>,
    faults: Vec<Entry>,
}

#[derive(Serialize)]
struct Entry {
    fault: FaultView,
    /// Where the finding has a line: its number and its parts before, at and after the place.
    line: Option<Line>,
}

#[derive(Debug, PartialEq, Eq, Serialize)]
struct Line {
    number: usize,
    before: String,
    at: String,
    after: String,
    /// What is wrong there.
    label: String,
}

impl<'a> View<'a> {
    fn of(input: &DeskInput<'a>, language: String) -> Self {
        let count = |grade| input.findings.iter().filter(|finding| finding.grade() == grade).count();
        let all: &[&Finding] = match &input.trouble {
            Trouble::Holes(findings) => findings,
            Trouble::Nothing | Trouble::Stopped(_) => &[],
        };
        Self {
            direction: words::direction(&language),
            language,
            title: input.title,
            errors: count(Severity::Error),
            warnings: count(Severity::Warning),
            kept: input.trouble != Trouble::Nothing,
            stopped: match input.trouble {
                Trouble::Stopped(why) => Some(why),
                Trouble::Nothing | Trouble::Holes(_) => None,
            },
            holes: all.iter().take(IN_BAR).map(|finding| FaultView::of(finding, input.files)).collect(),
            more: all.len().saturating_sub(IN_BAR),
            files: by_file(input),
        }
    }
}

fn by_file<'a>(input: &DeskInput<'a>) -> Vec<FileView<'a>> {
    let mut files: BTreeMap<&str, (Severity, Vec<Entry>)> = BTreeMap::new();
    for finding in input.findings {
        let entry = Entry { fault: FaultView::of(finding, input.files), line: line(finding, input.files) };
        let (gravest, entries) = files.entry(input.files.name(finding.place().file)).or_insert((Severity::Note, Vec::new()));
        *gravest = finding.grade().max(*gravest);
        entries.push(entry);
    }
    // What stops comes first: notes on old build records would stand before it by their names.
    let mut ordered: Vec<_> = files.into_iter().collect();
    ordered.sort_by_key(|(_, (gravest, _))| std::cmp::Reverse(*gravest));
    ordered.into_iter().map(|(name, (_, faults))| FileView { name, page: page_of(name).filter(|page| (input.has)(page)), faults }).collect()
}

/// The page that shows what stands in a file of the manual.
fn page_of(file: &str) -> Option<String> {
    match file.split_once('/') {
        Some((machine, "machine.yaml")) => Some(link::machine_path(machine)),
        Some((machine, name)) => name.strip_suffix(".md").map(|id| link::procedure_path(machine, id)),
        None => Some(link::HOME.to_owned()),
    }
}

fn line(finding: &Finding, files: &FileTable) -> Option<Line> {
    let Place { file, start, end } = *finding.place();
    let text = files.text(file);
    if text.is_empty() {
        return None;
    }
    let whole = files.line(file, start);
    let (from, to) = (start.clamp(whole.start, whole.end), end.clamp(start.clamp(whole.start, whole.end), whole.end));
    let part = |range: std::ops::Range<usize>| text.get(range).unwrap_or("").chars().filter(|c| !c.is_control() || *c == '\t').collect::<String>();
    let first = (whole.start..=from).find(|at| from - at <= REACH && text.is_char_boundary(*at)).unwrap_or(from);
    let last = (to..=whole.end).rev().find(|at| at - to <= REACH && text.is_char_boundary(*at)).unwrap_or(to);
    let cut = |is_cut: bool| if is_cut { "…" } else { "" };
    Some(Line {
        number: files.position(file, start).line,
        before: format!("{}{}", cut(first > whole.start), part(first..from)),
        at: part(from..to),
        after: format!("{}{}", part(to..last), cut(last < whole.end)),
        label: finding.label_text().to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::rules::YAML_UNREADABLE;

    fn table(text: &str) -> (FileTable, crate::finding::FileId) {
        let mut files = FileTable::default();
        let file = files.add("tarn-18/plan.md", text);
        (files, file)
    }

    fn made(trouble: fn(&Finding) -> Trouble<'_>) -> Desk {
        let (files, file) = table("a: 1\nb: [<c>\n");
        let findings = [Finding::new(&YAML_UNREADABLE, Place::new(file, 8..9), "a <list> is never closed").label("opened here")];
        let theme = BTreeMap::from([("templates/proof-bar.html".to_owned(), b"{% broken".to_vec())]);
        let input = DeskInput { title: "A & B", language: "en", theme: &theme, files: &files, findings: &findings, has: &|path| path == "tarn-18/plan.html", trouble: trouble(&findings[0]) };
        desk(&input).unwrap()
    }

    #[test]
    fn the_list_has_the_line_with_the_place_marked_and_leads_to_the_page() {
        let made = made(|_| Trouble::Nothing);
        let list = made.files.iter().find(|file| file.path == "findings.html").map(|file| String::from_utf8_lossy(&file.bytes).into_owned()).unwrap();
        assert!(list.contains("b: <mark>[</mark>&lt;c&gt;"), "{list}");
        assert!(list.contains("href=\"&#x2F;tarn-18&#x2F;plan.html\"") || list.contains("href=\"/tarn-18/plan.html\""), "{list}");
        assert!(list.contains("A &amp; B") && list.contains("a &lt;list&gt; is never closed") && list.contains("tarn-18/plan.md:2:4"), "{list}");
    }

    #[test]
    fn a_bar_is_made_even_where_the_theme_is_broken_and_says_what_keeps_the_pages() {
        let fine = made(|_| Trouble::Nothing);
        assert!(fine.bar.contains("1 error") && !fine.bar.contains("never closed"), "{}", fine.bar);
        let holed = made(|finding| Trouble::Holes(vec![finding]));
        assert!(holed.bar.contains("a &lt;list&gt; is never closed") && holed.bar.contains("tarn-18/plan.md:2:4"), "{}", holed.bar);
        let stopped = made(|_| Trouble::Stopped("there is no such <folder>"));
        assert!(stopped.bar.contains("there is no such &lt;folder&gt;"), "{}", stopped.bar);
    }

    #[test]
    fn a_very_long_line_is_cut_at_whole_letters() {
        let (files, file) = table(&"é".repeat(1000));
        let shown = line(&Finding::new(&YAML_UNREADABLE, Place::new(file, 1000..1002), "here"), &files).unwrap();
        assert!(shown.before.starts_with('…') && shown.after.ends_with('…') && shown.at == "é", "{shown:?}");
        assert!(shown.before.chars().count() <= REACH / 2 + 1, "{shown:?}");
    }
}
