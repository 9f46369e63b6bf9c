//! One state of a proof out of the one before: the seam behind which only what changed may be made anew.

use super::World;
use super::progress::Progress;
use super::making::{Head, Made, Order, is_hole, make};
use crate::finding::{FileTable, Finding, Severity, counted};
use crate::output::{Action, read_back};
use crate::page::{Desk, DeskInput, Trouble, desk};
use crate::proof::Edition;
use crate::source::rules::FILE_NOT_READABLE;
use crate::source::{read_theme, theme_folder};
use axum::body::Bytes;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// The files of a site by their paths.
type Site = BTreeMap<String, Bytes>;

/// A state of the proof.
pub(super) struct Build {
    /// The pages: of the last save that could be read as a whole.
    site: Site,
    /// Whether they are made of a manual without holes.
    whole: bool,
    desk: Desk,
    known: Known,
    /// Pages that look different from the state before.
    changed: usize,
    errors: usize,
    warnings: usize,
    /// Why the pages are those of the state before.
    kept: Option<String>,
    /// Whether the system refused something, which it may grant a moment later though nobody saves a file.
    may_pass: bool,
}

/// What the bar needs to know of a manual, also while it can't be read.
#[derive(Clone, Default)]
struct Known {
    head: Head,
    theme_folder: Option<PathBuf>,
    theme: BTreeMap<String, Vec<u8>>,
}

/// Makes the state that follows `previous`, out of what changed: `copy` is a folder of ours into which the proof is published. A
/// save that leaves holes, or can't be read at all, keeps the last whole pages and says so on them.
pub(super) fn rebuild(previous: Option<Build>, folder: &Path, copy: &Path, world: &World, threads: usize) -> Build {
    let (manual, earlier) = (folder.to_owned(), world.folder.join("site"));
    let (before, known) = previous.map_or_else(|| (None, Known::default()), |build| (Some((build.site, build.whole)), build.known));
    let order = Order {
        manual: Some(&manual),
        into: copy,
        earlier: &earlier,
        today: None,
        against: None,
        proof_copy: true,
        whole_only: before.as_ref().is_some_and(|(_, whole)| *whole),
        replace_other: true,
        verify: false,
        memory: world.memory,
        threads,
        progress: Progress::new(false),
    };
    match make(&order, world) {
        Ok(made) => follow(made, before, known, copy),
        Err(why) => stopped(before, known, (&FileTable::default(), &[]), why),
    }
}

/// A manual that could be read, perhaps with holes.
fn follow(made: Made, before: Option<(Site, bool)>, mut known: Known, copy: &Path) -> Build {
    let found = (&made.files, made.report.findings.as_slice());
    let may_pass = made.report.findings.iter().any(|finding| finding.rule().name == FILE_NOT_READABLE.name);
    let (mut site, _) = before.unwrap_or_default();
    let Some((published, _)) = &made.published else {
        let holes: Vec<&Finding> = made.report.findings.iter().filter(|finding| is_hole(finding)).collect();
        let why = holes.first().map_or_else(String::new, |first| {
            let at = made.files.position(first.place().file, first.place().start);
            format!("{}:{}:{}: {} ({})", made.files.name(first.place().file), at.line, at.column, first.message(), first.rule().name)
        });
        return Build { may_pass, ..build(site, (true, 0), known, found, Trouble::Holes(holes), Some(why)) };
    };
    known.head = made.head;
    // The desk has its words of the theme too; that it can be read was seen when the pages were made.
    known.theme = known.head.theme.as_deref().and_then(|theme| read_theme(&known.head.root, theme).ok()).unwrap_or_default();
    known.theme_folder = known.head.theme.as_deref().and_then(|theme| theme_folder(&known.head.root, theme).ok());
    let mut changed = 0;
    for (path, action) in published.done.iter().filter(|(path, _)| !path.starts_with('.')) {
        let is_new = !matches!(action, Action::Keep) || !site.contains_key(path);
        if !is_new {
            continue;
        }
        changed += usize::from(path.ends_with(".html"));
        match action {
            Action::Remove(_) => drop(site.remove(path)),
            Action::Keep | Action::Write(_) => site.extend(read_back(copy, path).map(|bytes| (path.clone(), Bytes::from(bytes)))),
        }
    }
    Build { may_pass, ..build(site, (!made.holed, changed), known, found, Trouble::Nothing, None) }
}

/// A state of which no pages could be made.
fn stopped(before: Option<(Site, bool)>, known: Known, found: (&FileTable, &[Finding]), why: String) -> Build {
    let (site, whole) = before.unwrap_or_default();
    Build { may_pass: true, ..build(site, (whole, 0), known, found, Trouble::Stopped(&why.clone()), Some(why)) }
}

fn build(site: Site, (whole, changed): (bool, usize), known: Known, (files, findings): (&FileTable, &[Finding]), trouble: Trouble<'_>, kept: Option<String>) -> Build {
    let has = |path: &str| site.contains_key(path);
    let input = DeskInput { title: &known.head.title, language: &known.head.language, theme: &known.theme, files, findings, has: &has, trouble };
    // Only a program that was built wrong has no words of its own; the pages are shown all the same.
    let desk = desk(&input).unwrap_or_else(|error| Desk { bar: String::new(), files: vec![crate::page::PageFile { path: "absent.html".to_owned(), bytes: error.to_string().into_bytes() }] });
    let count = |grade| findings.iter().filter(|finding| finding.grade() == grade).count();
    Build { whole, desk, known, changed, errors: count(Severity::Error), warnings: count(Severity::Warning), kept, may_pass: false, site }
}

impl Build {
    /// What the server shows.
    pub(super) fn copy(&self) -> Edition {
        let own = self.desk.files.iter().map(|file| (file.path.clone(), Bytes::from(file.bytes.clone()))).collect();
        Edition::new(self.site.clone(), own, self.desk.bar.clone())
    }

    /// Whether it may come out otherwise though nothing is saved: the system refused to open a file.
    pub(super) fn may_pass(&self) -> bool {
        self.may_pass
    }

    /// Whether it shows the pages of an earlier state.
    pub(super) fn is_kept(&self) -> bool {
        self.kept.is_some()
    }

    /// Where the theme's own files lie.
    pub(super) fn theme(&self) -> Option<&Path> {
        self.known.theme_folder.as_deref()
    }

    /// What happened, in one line, behind what was saved; nothing was at the start.
    pub(super) fn line(&self, saved: &str) -> String {
        let pages = self.site.keys().filter(|path| path.ends_with(".html")).count();
        let found = format!("{}, {}", counted(self.errors, "error"), counted(self.warnings, "warning"));
        match &self.kept {
            // Nothing was counted where nothing could be read.
            Some(why) if self.errors == 0 => format!("{saved}: the last good pages stay; {}", first_line(why)),
            Some(why) => format!("{saved}: the last good pages stay; {found}; {}", first_line(why)),
            None if saved.is_empty() => format!("{}; {found}", counted(pages, "page")),
            None => format!("{saved}: {} of {pages} pages anew; {found}", self.changed.min(pages)),
        }
    }
}

fn first_line(why: &str) -> &str {
    why.lines().next().unwrap_or_default()
}
