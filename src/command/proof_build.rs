//! One state of a proof out of the one before: the seam behind which only what changed may be made anew.

use super::World;
use super::work::{Order, Work, work};
use crate::figure::{Picture, renditions};
use crate::finding::{FileTable, Finding, Severity};
use crate::page::{Desk, DeskInput, Input, Trouble, desk, publish};
use crate::proof::Edition;
use crate::source::{HOLED, read_picture, read_theme, theme_folder};
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
}

/// What the bar needs to know of a manual, also while it can't be read.
#[derive(Clone, Default)]
struct Known {
    title: String,
    language: String,
    theme_folder: Option<PathBuf>,
    theme: BTreeMap<String, Vec<u8>>,
}

/// Makes the state that follows `previous`. A save that leaves holes, or can't be read at all, keeps the last whole pages
/// and says so on them.
pub(super) fn rebuild(previous: Option<Build>, folder: &Path, world: &World, threads: usize) -> Build {
    let manual = folder.to_owned();
    let site = world.folder.join("site");
    let order = Order { manual: Some(&manual), today: None, against: None, site: &site, threads };
    let (before, known) = previous.map_or_else(|| (None, Known::default()), |build| (Some((build.site, build.whole)), build.known));
    match work(&order, world) {
        Ok(work) => read(work, before, known, threads),
        Err(why) => stopped(before, known, (&FileTable::default(), &[]), why),
    }
}

/// A manual that could be read, perhaps with holes.
fn read(mut work: Work, before: Option<(Site, bool)>, mut known: Known, threads: usize) -> Build {
    let holed = |finding: &&Finding| finding.grade() == Severity::Error && HOLED.iter().any(|rule| rule.name == finding.rule().name);
    let whole = !work.report.findings.iter().any(|finding| holed(&finding));
    if let Some((site, true)) = &before
        && !whole
    {
        let site = site.clone();
        let holes: Vec<&Finding> = work.report.findings.iter().filter(holed).collect();
        let why = holes.first().map_or_else(String::new, |first| {
            let at = work.sources.files.position(first.place().file, first.place().start);
            format!("{}:{}:{}: {} ({})", work.sources.files.name(first.place().file), at.line, at.column, first.message(), first.rule().name)
        });
        return build(site, (true, 0), known, (&work.sources.files, &work.report.findings), Trouble::Holes(holes), Some(why));
    }
    known.title.clone_from(&work.manual.title);
    known.language.clone_from(&work.manual.language);
    known.theme_folder = work.manual.theme.as_ref().and_then(|theme| theme_folder(&work.sources.root, &theme.value).ok());
    match pages(&mut work, &mut known, before.as_ref().map(|(site, _)| site), threads) {
        Ok(site) => {
            let changed = before.as_ref().map_or(site.len(), |(old, _)| changed(old, &site));
            build(site, (whole, changed), known, (&work.sources.files, &work.report.findings), Trouble::Nothing, None)
        }
        Err(why) => stopped(before, known, (&work.sources.files, &work.report.findings), why),
    }
}

/// A state of which no pages could be made.
fn stopped(before: Option<(Site, bool)>, known: Known, found: (&FileTable, &[Finding]), why: String) -> Build {
    let (site, whole) = before.unwrap_or_default();
    build(site, (whole, 0), known, found, Trouble::Stopped(&why.clone()), Some(why))
}

fn build(site: Site, (whole, changed): (bool, usize), known: Known, (files, findings): (&FileTable, &[Finding]), trouble: Trouble<'_>, kept: Option<String>) -> Build {
    let has = |path: &str| site.contains_key(path);
    let input = DeskInput { title: &known.title, language: &known.language, theme: &known.theme, files, findings, has: &has, trouble };
    // Only a program that was built wrong has no words of its own; the pages are shown all the same.
    let desk = desk(&input).unwrap_or_else(|error| Desk { bar: String::new(), files: vec![crate::page::PageFile { path: "absent.html".to_owned(), bytes: error.to_string().into_bytes() }] });
    let count = |grade| findings.iter().filter(|finding| finding.grade() == grade).count();
    Build { whole, desk, known, changed, errors: count(Severity::Error), warnings: count(Severity::Warning), kept, site }
}

/// Every file of the site as a proof copy. Photographs that the state before holds are not opened.
fn pages(work: &mut Work, known: &mut Known, before: Option<&Site>, threads: usize) -> Result<Site, String> {
    known.theme = match &work.manual.theme {
        Some(theme) => read_theme(&work.sources.root, &theme.value).map_err(|error| error.to_string())?,
        None => BTreeMap::new(),
    };
    let shown = work.manual.shown_pictures();
    let shown = work.sources.pictures.iter().filter(|(path, _)| shown.contains(*path)).map(|(path, picture)| (path.clone(), picture.clone())).collect();
    let held = |path: &str| before.is_some_and(|site| site.contains_key(path));
    let (pictures, faults) = renditions(&shown, &|path| read_picture(&work.sources, path), &held, threads);
    work.report.findings.extend(faults.iter().map(|fault| fault.finding(&mut work.sources.files)));
    let input = Input {
        manual: &work.manual,
        files: &work.sources.files,
        pictures: &pictures,
        findings: &work.report.findings,
        waived: &work.report.waived,
        proof_copy: true,
        theme: &known.theme,
        threads,
    };
    let files = publish(&input).map_err(|error| error.to_string())?;
    let mut site: Site = files.into_iter().map(|file| (file.path, Bytes::from(file.bytes))).collect();
    for rendition in pictures.into_values().flat_map(Picture::into_renditions) {
        let bytes = rendition.bytes.map(Bytes::from).or_else(|| before.and_then(|site| site.get(&rendition.path)).cloned());
        site.extend(bytes.map(|bytes| (rendition.path, bytes)));
    }
    Ok(site)
}

/// How many pages are new, gone or different.
fn changed(old: &Site, new: &Site) -> usize {
    let pages = |site: &'_ Site, other: &Site, also_different: bool| {
        site.iter().filter(|(path, bytes)| path.ends_with(".html") && other.get(*path).is_none_or(|there| also_different && there != *bytes)).count()
    };
    pages(new, old, true) + pages(old, new, false)
}

impl Build {
    /// What the server shows.
    pub(super) fn copy(&self) -> Edition {
        let own = self.desk.files.iter().map(|file| (file.path.clone(), Bytes::from(file.bytes.clone()))).collect();
        Edition::new(self.site.clone(), own, self.desk.bar.clone())
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

/// `1 page`, `6 pages`.
fn counted(number: usize, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}
