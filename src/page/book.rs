//! The book: a machine, or the whole manual, as one document to print. It is put together from the pages themselves, so
//! that it says what they say.
//!
//! A browser can't print the page on which a link's target lies. So the contents name chapters by numbers that we print
//! ourselves, at the head of every page of a chapter; pages are counted at the foot.

mod chapter;

use super::error::PageError;
use super::link;
use super::names::Detail;
use super::shared;
use super::site::Site;
use super::words::Arg;
use super::{PageFile, tables};
use crate::manual::{History, Machine, Procedure};
use serde::{Deserialize, Serialize};

/// With more procedures than this nobody prints, and no browser shows, the whole manual as one document; each machine
/// has its own book.
const MOST_PROCEDURES: usize = 300;

#[derive(Serialize)]
struct BookView {
    back: Option<Detail>,
    parts: Vec<Part>,
}

/// A machine, or the tables.
#[derive(Serialize)]
struct Part {
    title: String,
    chapters: Vec<ChapterView>,
}

#[derive(Serialize)]
struct ChapterView {
    /// Printed at the head of each of its pages.
    number: String,
    title: String,
    anchor: String,
    running: String,
    text: super::markup::Markup,
}

/// A chapter before it is put together.
#[derive(Clone, Serialize, Deserialize)]
struct Plan {
    path: String,
    number: String,
    title: String,
    running: Vec<String>,
    /// What the book shows of its page.
    #[serde(skip)]
    taken: String,
    /// The length of that.
    length: usize,
}

/// What a machine contributes to the book of the whole manual.
#[derive(Serialize, Deserialize)]
struct Chapters {
    name: String,
    plans: Vec<Plan>,
}

impl Chapters {
    /// As text that can be kept: a line of JSON, and what is taken of each page behind it as it is. In JSON every quotation mark
    /// of the markup would be written as two signs.
    fn written(&self) -> Result<String, PageError> {
        let mut part = shared::written(self)?;
        part.reserve(self.plans.iter().map(|plan| plan.length).sum::<usize>() + 1);
        part.push('\n');
        part.extend(self.plans.iter().map(|plan| plan.taken.as_str()));
        Ok(part)
    }

    /// From its text.
    fn read(part: &str) -> Result<Self, PageError> {
        let (head, mut rest) = part.split_once('\n').unwrap_or((part, ""));
        let mut chapters: Self = shared::read(head)?;
        for plan in &mut chapters.plans {
            let (taken, behind) = rest.split_at_checked(plan.length).unwrap_or((rest, ""));
            taken.clone_into(&mut plan.taken);
            rest = behind;
        }
        Ok(chapters)
    }
}

/// The book of a machine from its pages, and what it contributes to the book of the whole manual: nothing where there is none.
pub(super) fn of_machine(site: &Site<'_>, machine_index: usize, pages: &[PageFile]) -> Result<(Option<PageFile>, String), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::machine_book_path(&machine.id);
    let chapters = Chapters { name: machine.name.clone(), plans: machine_chapters(site, machine, pages) };
    let part = if has_whole(site) { chapters.written()? } else { String::new() };
    let block = site.title_block("kind-book", &machine.name, &format!("{}/book", machine.id), Some(&machine.history));
    let back = Detail { text: machine.name.clone(), href: Some(link::relative(&path, &link::machine_path(&machine.id))) };
    Ok((Some(book(site, &path, Some(back), block, vec![chapters])?), part))
}

/// The book of the whole manual, from what each machine contributes and the pages of the tables. None of a large manual.
pub(super) fn whole(site: &Site<'_>, parts: &[&str], tables: &[PageFile]) -> Result<Option<PageFile>, PageError> {
    if parts.is_empty() || parts.iter().any(|part| part.is_empty()) {
        return Ok(None);
    }
    let mut all = parts.iter().map(|part| Chapters::read(part)).collect::<Result<Vec<_>, _>>()?;
    for (index, machine) in all.iter_mut().enumerate() {
        for plan in &mut machine.plans {
            plan.number = format!("{}.{}", index + 1, plan.number);
        }
    }
    let title = &site.input.manual.title;
    let found = tables::Kind::ALL.iter().enumerate().map(|(index, kind)| {
        let name = site.say(kind.title());
        let number = format!("{}.{}", site.say("book-tables-number"), index + 1);
        Plan::new(kind.path().to_owned(), number, name.clone(), vec![title.clone(), name], tables)
    });
    all.push(Chapters { name: site.say("home-tables"), plans: found.collect() });
    let block = site.title_block("kind-book", title, "book", None);
    book(site, link::BOOK, None, block, all).map(Some)
}

/// Whether a manual of so many procedures is made into one book.
#[must_use]
pub fn is_printable(procedures: usize) -> bool {
    (1..=MOST_PROCEDURES).contains(&procedures)
}

/// Whether the whole manual is made into one book, by the machines at hand and the outlines of the others.
fn has_whole(site: &Site<'_>) -> bool {
    let manual = site.input.manual;
    let own = manual.machines.iter().map(|machine| machine.procedures.len());
    is_printable(own.chain(manual.beside.iter().map(|outline| outline.procedures.len())).sum())
}

impl Plan {
    /// The plan of a chapter from its page, one of those given.
    fn new(path: String, number: String, title: String, running: Vec<String>, pages: &[PageFile]) -> Self {
        let taken = pages.iter().find(|page| page.path == path).map(|page| chapter::taken(&page.bytes)).unwrap_or_default();
        Self { path, number, title, running, length: taken.len(), taken }
    }
}

fn machine_chapters(site: &Site<'_>, machine: &Machine, pages: &[PageFile]) -> Vec<Plan> {
    let revision = |history: &History| history.revision.map(|r| site.say_with("revision", &[("revision", Arg::Count(r))]));
    let plan = |path: String, number: String, title: &str, history: &History| {
        let running = [machine.name.clone(), title.to_owned()].into_iter().chain(revision(history)).collect();
        Plan::new(path, number, title.to_owned(), running, pages)
    };
    let procedure = |(index, procedure): (usize, &Procedure)| {
        plan(link::procedure_path(&machine.id, &procedure.id), (index + 1).to_string(), &procedure.title, &procedure.history)
    };
    let values = plan(link::machine_path(&machine.id), site.say("book-values-number"), &site.say("machine-values"), &machine.history);
    machine.procedures.iter().enumerate().map(procedure).chain([values]).collect()
}

fn book(site: &Site<'_>, path: &str, back: Option<Detail>, block: super::frame::TitleBlock, machines: Vec<Chapters>) -> Result<PageFile, PageError> {
    let chapters = chapter::Chapters::new(path, machines.iter().flat_map(|machine| &machine.plans).map(|plan| plan.path.clone()));
    let view = |plan: Plan| ChapterView {
        anchor: chapter::prefix(&plan.path),
        text: chapters.text(&plan.path, &plan.taken),
        running: [vec![plan.number.clone()], plan.running].concat().join(" · "),
        number: plan.number,
        title: plan.title,
    };
    let parts = machines.into_iter().map(|machine| Part { title: machine.name, chapters: machine.plans.into_iter().map(view).collect() }).collect();
    let heading = site.say_with("book-of", &[("title", Arg::Text(&block.title))]);
    let view = BookView { back, parts };
    let html = site.document("book.html", site.book_frame(path, &heading), block, &view)?;
    let texts = view.parts.iter().flat_map(|part| &part.chapters).map(|chapter| &chapter.text);
    Ok(PageFile { path: path.to_owned(), bytes: site.printed_around(&html, texts) })
}
