//! The book: a machine, or the whole manual, as one document to print. It is put together from the pages themselves, so
//! that it says what they say.
//!
//! A browser can't print the page on which a link's target lies. So the contents name chapters by numbers that we print
//! ourselves, at the head of every page of a chapter; pages are counted at the foot.

mod chapter;

use super::error::PageError;
use super::link;
use super::names::Detail;
use super::site::Site;
use super::words::Arg;
use super::{PageFile, tables};
use crate::manual::{Machine, Procedure};
use chapter::Chapters;
use serde::Serialize;
use std::collections::BTreeMap;

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
struct Plan {
    path: String,
    number: String,
    title: String,
    running: Vec<String>,
}

/// The books of a site, from its pages.
pub(super) fn books(site: &Site<'_>, pages: &[PageFile]) -> Result<Vec<PageFile>, PageError> {
    let pages: BTreeMap<&str, &PageFile> = pages.iter().map(|page| (page.path.as_str(), page)).collect();
    let machines = &site.input.manual.machines;
    let mut books = Vec::new();
    for machine in machines {
        let plans = vec![(machine.name.clone(), machine_chapters(site, machine, ""))];
        let block = site.title_block("kind-book", &machine.name, &format!("{}/book", machine.id), Some(&machine.history));
        let back = Detail { text: machine.name.clone(), href: Some(link::relative(&link::machine_book_path(&machine.id), &link::machine_path(&machine.id))) };
        books.push(book(site, &pages, &link::machine_book_path(&machine.id), Some(back), block, plans)?);
    }
    if has_whole(site) {
        let mut plans: Vec<(String, Vec<Plan>)> = machines
            .iter()
            .enumerate()
            .map(|(index, machine)| (machine.name.clone(), machine_chapters(site, machine, &format!("{}.", index + 1))))
            .collect();
        let found = tables::Kind::ALL.iter().enumerate().map(|(index, kind)| {
            let title = site.say(kind.title());
            let number = format!("{}.{}", site.say("book-tables-number"), index + 1);
            Plan { path: kind.path().to_owned(), number, running: vec![site.input.manual.title.clone(), title.clone()], title }
        });
        plans.push((site.say("home-tables"), found.collect()));
        let block = site.title_block("kind-book", &site.input.manual.title, "book", None);
        books.push(book(site, &pages, link::BOOK, None, block, plans)?);
    }
    Ok(books)
}

/// Whether the whole manual is made into one book.
pub(super) fn has_whole(site: &Site<'_>) -> bool {
    let machines = &site.input.manual.machines;
    !machines.is_empty() && machines.iter().map(|machine| machine.procedures.len()).sum::<usize>() <= MOST_PROCEDURES
}

fn machine_chapters(site: &Site<'_>, machine: &Machine, before: &str) -> Vec<Plan> {
    let procedure = |(index, procedure): (usize, &Procedure)| {
        let revision = procedure.history.revision.map(|r| site.say_with("revision", &[("revision", Arg::Count(r))]));
        Plan {
            path: link::procedure_path(&machine.id, &procedure.id),
            number: format!("{before}{}", index + 1),
            title: procedure.title.clone(),
            running: [machine.name.clone(), procedure.title.clone()].into_iter().chain(revision).collect(),
        }
    };
    let revision = machine.history.revision.map(|r| site.say_with("revision", &[("revision", Arg::Count(r))]));
    let title = site.say("machine-values");
    let values = Plan {
        path: link::machine_path(&machine.id),
        number: format!("{before}{}", site.say("book-values-number")),
        running: [machine.name.clone(), title.clone()].into_iter().chain(revision).collect(),
        title,
    };
    machine.procedures.iter().enumerate().map(procedure).chain([values]).collect()
}

fn book(
    site: &Site<'_>,
    pages: &BTreeMap<&str, &PageFile>,
    path: &str,
    back: Option<Detail>,
    block: super::frame::TitleBlock,
    plans: Vec<(String, Vec<Plan>)>,
) -> Result<PageFile, PageError> {
    let chapters = Chapters::new(path, plans.iter().flat_map(|(_, plans)| plans).map(|plan| plan.path.clone()));
    let parts = plans
        .into_iter()
        .map(|(title, plans)| Part {
            title,
            chapters: plans
                .into_iter()
                .map(|plan| {
                    let html = pages.get(plan.path.as_str()).map(|page| String::from_utf8_lossy(&page.bytes));
                    ChapterView {
                        anchor: chapter::prefix(&plan.path),
                        text: html.map(|html| chapters.text(&plan.path, &html)).unwrap_or_default(),
                        running: [vec![plan.number.clone()], plan.running].concat().join(" · "),
                        number: plan.number,
                        title: plan.title,
                    }
                })
                .collect(),
        })
        .collect();
    let heading = site.say_with("book-of", &[("title", Arg::Text(&block.title))]);
    let html = site.document("book.html", site.book_frame(path, &heading), block, &BookView { back, parts })?;
    Ok(PageFile { path: path.to_owned(), bytes: super::site::tidy(&html) })
}
