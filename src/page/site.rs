//! What all pages share, and the list of pages.

use super::axes::Sheets;
use super::error::PageError;
use super::faults::Faults;
use super::markup::Markup;
use super::template::Templates;
use super::usage::Usage;
use super::waived::Waived;
use super::words::{Arg, Words};
use super::{Input, PageFile, Theme, behind, board, build, bulletins, link, machine, matrix, numerals, procedure, review, sheet, source_sheet, tidy, torque_card, unbroken};
use crate::crew::in_order;
use crate::manual::{Combination, Machine, Procedure, Scope, ThingRef, placed_fasteners};
use memchr::memmem;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, OnceLock};

/// What all pages share.
pub(super) struct Site<'a> {
    /// What was given.
    pub input: Input<'a>,
    /// The words of its language.
    pub words: Arc<Words>,
    /// The theme.
    pub templates: Arc<Templates>,
    /// Who uses what, a machine each.
    pub usage: Vec<Usage<'a>>,
    /// The sheets of each procedure, a machine each.
    pub sheets: Vec<Vec<Sheets>>,
    /// Findings of a proof copy.
    pub faults: Faults<'a>,
    /// Findings that somebody answers for.
    pub waived: Waived<'a>,
    /// The ids of the sources that the rows of a machine's tables name, a machine each; found when they are first asked for.
    pub named_sources: Vec<OnceLock<BTreeSet<String>>>,
    /// How the pages of a folder lead to the tables.
    pub ways: Mutex<BTreeMap<String, tera::Value>>,
}

/// From where something is shown: the page, whose thing it is, and what is known of the machine.
#[derive(Clone, Copy)]
pub(super) struct Scene<'s> {
    /// The site.
    pub site: &'s Site<'s>,
    /// The machine.
    pub machine: &'s Machine,
    /// Its index in the manual.
    pub machine_index: usize,
    /// The procedure, where there is one.
    pub procedure: Option<&'s Procedure>,
    /// Path of the page.
    pub page: &'s str,
    /// What is known of the machine on this page.
    pub known: &'s Combination,
    /// Whether the wrench's own unit stands first: on paper at the bench it does.
    pub at_bench: bool,
}

/// One page to be made.
enum Job {
    Machine(usize),
    Procedure(usize, usize),
    Behind(usize, usize),
    Sheet(usize, usize, usize),
    Card(usize),
    Board(usize, usize, ThingRef),
    Build(usize, usize),
    Review(usize),
    Bulletins(usize),
    Matrix(usize),
    Source(usize, usize),
}

impl<'a> Site<'a> {
    /// Indexes the manual.
    pub(super) fn new(theme: &Theme, input: Input<'a>) -> Self {
        let usage = input.manual.machines.iter().map(|machine| Usage::of(input.manual, machine)).collect();
        let sheets = input
            .manual
            .machines
            .iter()
            .map(|machine| machine.procedures.iter().map(|p| Sheets::of(input.manual, machine, p)).collect())
            .collect();
        Self {
            words: Arc::clone(&theme.words),
            templates: Arc::clone(&theme.templates),
            usage,
            sheets,
            faults: Faults::new(&input),
            waived: Waived::new(&input),
            named_sources: input.manual.machines.iter().map(|_| OnceLock::new()).collect(),
            ways: Mutex::default(),
            input,
        }
    }

    /// Makes every page of the machines, on as many threads as asked for. The order of the result does not depend on them.
    pub(super) fn pages(&self) -> Result<Vec<PageFile>, PageError> {
        in_order(&self.jobs(), self.input.threads, |job| self.page(job)).into_iter().collect()
    }

    fn jobs(&self) -> Vec<Job> {
        let mut jobs = Vec::new();
        for (m, procedures) in self.sheets.iter().enumerate() {
            jobs.push(Job::Machine(m));
            jobs.push(Job::Card(m));
            jobs.push(Job::Review(m));
            jobs.push(Job::Bulletins(m));
            if self.input.manual.machines.get(m).is_some_and(|machine| !machine.axes.is_empty()) {
                jobs.push(Job::Matrix(m));
            }
            let builds = self.input.manual.machines.get(m).map_or(0, |machine| machine.builds.len());
            jobs.extend((0..builds).map(|b| Job::Build(m, b)));
            for (p, sheets) in procedures.iter().enumerate() {
                jobs.push(Job::Procedure(m, p));
                jobs.push(Job::Source(m, p));
                jobs.extend(self.boards(m, p).into_iter().map(|thing| Job::Board(m, p, thing)));
                let procedure = self.input.manual.machines.get(m).and_then(|machine| machine.procedures.get(p));
                if procedure.is_some_and(behind::has) {
                    jobs.push(Job::Behind(m, p));
                }
                jobs.extend((0..sheets.all.len()).map(|s| Job::Sheet(m, p, s)));
            }
        }
        jobs
    }

    fn boards(&self, machine: usize, procedure: usize) -> Vec<ThingRef> {
        let manual = self.input.manual;
        let found = manual.machines.get(machine).and_then(|machine| Some((machine, machine.procedures.get(procedure)?)));
        found.map_or_else(Vec::new, |(machine, procedure)| placed_fasteners(manual.scope(machine, procedure), procedure))
    }

    fn page(&self, job: &Job) -> Result<PageFile, PageError> {
        let (path, html) = match *job {
            Job::Board(m, p, ref thing) => board::page(self, m, p, thing)?,
            Job::Build(m, b) => build::page(self, m, b)?,
            Job::Bulletins(m) => bulletins::page(self, m)?,
            Job::Review(m) => review::page(self, m)?,
            Job::Matrix(m) => matrix::page(self, m)?,
            Job::Source(m, p) => source_sheet::page(self, m, p)?,
            Job::Machine(m) => machine::page(self, m)?,
            Job::Card(m) => torque_card::page(self, m)?,
            Job::Procedure(m, p) => procedure::page(self, m, p)?,
            Job::Behind(m, p) => behind::page(self, m, p)?,
            Job::Sheet(m, p, s) => sheet::page(self, m, p, s)?,
        };
        Ok(PageFile { path, bytes: self.printed(html) })
    }

    /// A page as it is sent: without what templates leave, its numbers as the language writes them and each value on one line.
    pub(super) fn printed(&self, html: Markup) -> Vec<u8> {
        self.finished(html.into_string().into_bytes())
    }

    /// The same of a page that shows texts of pages that are printed already, in their order: the greatest part of a book. Where
    /// one begins and ends with a line, as the built-in theme has it, it is only copied.
    pub(super) fn printed_around<'t>(&self, html: &Markup, texts: impl Iterator<Item = &'t Markup>) -> Vec<u8> {
        let mut rest = html.as_str();
        let mut page = Vec::with_capacity(rest.len());
        for text in texts.map(Markup::as_str).filter(|text| text.ends_with('\n')) {
            let Some((before, behind)) = place_of(text, rest).and_then(|at| rest.split_at_checked(at)) else { continue };
            if before.ends_with('\n') {
                page.extend(self.finished(before.as_bytes().to_vec()));
                page.extend_from_slice(text.as_bytes());
                rest = behind.get(text.len()..).unwrap_or("");
            }
        }
        page.extend(self.finished(rest.as_bytes().to_vec()));
        page
    }

    fn finished(&self, mut page: Vec<u8>) -> Vec<u8> {
        tidy::tidy(&mut page);
        unbroken::unbroken(numerals::localised(page, self.words.decimal_mark()))
    }

    /// The words of a key.
    pub(super) fn say(&self, key: &str) -> String {
        self.words.say(key)
    }

    /// The words of a key, filled in.
    pub(super) fn say_with(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        self.words.say_with(key, args)
    }
}

impl<'s> Scene<'s> {
    /// Where ids are looked up.
    pub(super) fn scope(&self) -> Scope<'s> {
        Scope { shop: &self.site.input.manual.shop, machine: Some(self.machine), procedure: self.procedure }
    }

    /// The words of a key, filled in.
    pub(super) fn say(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        self.site.words.say_with(key, args)
    }

    /// A relative link from this page.
    pub(super) fn link(&self, to: &str) -> String {
        link::relative(self.page, to)
    }

    /// The same view from inside a procedure.
    pub(super) fn inside(&self, procedure: &'s Procedure) -> Self {
        Self { procedure: Some(procedure), ..*self }
    }
}

/// Where a text of many lines stands in a page, looked for by its first.
fn place_of(text: &str, page: &str) -> Option<usize> {
    let line = text.split_inclusive('\n').next()?;
    memmem::find_iter(page.as_bytes(), line).find(|at| page.get(*at..).is_some_and(|rest| rest.starts_with(text)))
}
