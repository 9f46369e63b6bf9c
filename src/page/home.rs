//! The first page: what this manual is, its machines, its tables, who answers for it.

use super::book;
use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::shared::{self, Shared};
use super::site::Site;
use super::sources::date_text;
use super::tables;
use super::feed;
use super::words::Arg;
use crate::manual::Date;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The first page.
pub(super) static HOME: Shared = Shared { path: link::HOME, part, page };

#[derive(Serialize)]
struct Home {
    machines: Vec<MachineView>,
    /// What changed in each machine.
    bulletins: Vec<Way>,
    tables: Vec<TableLink>,
    faults: Vec<FaultView>,
    errors: usize,
    warnings: usize,
}

/// What a machine contributes.
#[derive(Serialize, Deserialize)]
struct Part {
    view: MachineView,
    /// Its files by name: what is found in them stands on its own pages.
    files: BTreeSet<String>,
    /// The newest date of its histories, as ISO 8601 has it.
    newest: Option<String>,
    /// What changed in it.
    bulletins: Way,
    /// Whether the feed of changes tells of it.
    followed: bool,
}

#[derive(Serialize, Deserialize)]
struct MachineView {
    name: String,
    href: String,
    maker: Option<String>,
    kind: Option<String>,
    revision: Option<u64>,
    date: Option<String>,
    procedures: Vec<Way>,
}

/// The way to a page.
#[derive(Serialize, Deserialize)]
struct Way {
    text: String,
    href: String,
}

#[derive(Serialize)]
struct TableLink {
    title: String,
    href: String,
    about: String,
}

fn part(site: &Site<'_>, machine_index: usize) -> Result<String, PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(String::new()) };
    let view = MachineView {
        name: machine.name.clone(),
        href: link::machine_path(&machine.id),
        maker: machine.maker.clone(),
        kind: machine.kind.clone(),
        revision: machine.history.revision,
        date: machine.history.date.as_ref().map(|date| site.words.day(date)),
        procedures: machine
            .procedures
            .iter()
            .map(|p| Way { text: p.title.clone(), href: link::procedure_path(&machine.id, &p.id) })
            .collect(),
    };
    let files = machine.procedures.iter().map(|p| p.file).chain([machine.file]);
    let histories = machine.procedures.iter().map(|p| &p.history).chain([&machine.history]);
    shared::written(&Part {
        view,
        files: files.map(|file| site.input.files.name(file).to_owned()).collect(),
        newest: histories.filter_map(|history| history.date).max().map(|date| date.to_string()),
        bulletins: Way { text: site.say_with("bulletins-of", &[("machine", Arg::Text(&machine.name))]), href: link::bulletins_path(&machine.id) },
        followed: feed::tells_of(machine),
    })
}

fn page(site: &Site<'_>, parts: &[&str]) -> Result<Option<Vec<u8>>, PageError> {
    let manual = site.input.manual;
    let (errors, warnings) = site.faults.counts();
    let parts = parts.iter().map(|part| shared::read(part)).collect::<Result<Vec<Part>, _>>()?;
    let newest = parts.iter().filter_map(|part| Date::parse(part.newest.as_deref()?)).max();
    let faults = general_faults(site, &parts);
    let procedures = parts.iter().map(|part| part.view.procedures.len()).sum();
    let followed = feed::is_possible(&site.input) && parts.iter().any(|part| part.followed);
    let (machines, bulletins) = parts.into_iter().map(|part| (part.view, part.bulletins)).unzip();
    let view = Home {
        machines,
        bulletins,
        tables: tables::Kind::ALL
            .iter()
            .map(|kind| TableLink { title: site.say(kind.title()), href: kind.path().to_owned(), about: site.say(kind.about()) })
            .chain(book::is_printable(procedures).then(|| TableLink { title: site.say("kind-book"), href: link::BOOK.to_owned(), about: site.say("book-about") }))
            .collect(),
        faults,
        errors,
        warnings,
    };
    let mut block = site.title_block("kind-manual", &manual.title, &manual.title, Some(&manual.shop_history));
    block.id = site.say("id-manual");
    block.date = block.date.or_else(|| newest.as_ref().map(date_text));
    let mut frame = site.frame(link::HOME, &manual.title, "home");
    frame.feed = followed.then(|| feed::PATH.to_owned());
    Ok(Some(site.printed(site.document("home.html", frame, block, &view)?)))
}

/// Findings in the files that no machine owns.
fn general_faults(site: &Site<'_>, machines: &[Part]) -> Vec<FaultView> {
    let owned: BTreeSet<&str> = machines.iter().flat_map(|part| &part.files).map(String::as_str).collect();
    let others = site.input.files.iter().filter(|(_, file)| !owned.contains(file.name.as_str()));
    others.flat_map(|(file, _)| site.faults.elsewhere(file, &[])).collect()
}
