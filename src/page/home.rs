//! The first page: what this manual is, its machines, its tables, who answers for it.

use super::book;
use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::site::Site;
use super::sources::date_text;
use super::tables;
use super::words::Arg;
use serde::Serialize;

#[derive(Serialize)]
struct Home {
    machines: Vec<MachineView>,
    /// What changed in each machine.
    bulletins: Vec<Detail>,
    tables: Vec<TableLink>,
    faults: Vec<FaultView>,
    errors: usize,
    warnings: usize,
}

#[derive(Serialize)]
struct MachineView {
    name: String,
    href: String,
    maker: Option<String>,
    kind: Option<String>,
    revision: Option<u64>,
    date: Option<String>,
    procedures: Vec<Detail>,
}

#[derive(Serialize)]
struct TableLink {
    title: String,
    href: String,
    about: String,
}

/// Makes the first page.
pub(super) fn page(site: &Site<'_>) -> Result<Markup, PageError> {
    let manual = site.input.manual;
    let (errors, warnings) = site.faults.counts();
    let machines = manual.machines.iter().map(|machine| MachineView {
        name: machine.name.clone(),
        href: link::machine_path(&machine.id),
        maker: machine.maker.clone(),
        kind: machine.kind.clone(),
        revision: machine.history.revision,
        date: machine.history.date.as_ref().map(|date| site.words.day(date)),
        procedures: machine
            .procedures
            .iter()
            .map(|p| Detail { text: p.title.clone(), href: Some(link::procedure_path(&machine.id, &p.id)) })
            .collect(),
    });
    let view = Home {
        machines: machines.collect(),
        bulletins: manual
            .machines
            .iter()
            .map(|machine| Detail { text: site.say_with("bulletins-of", &[("machine", Arg::Text(&machine.name))]), href: Some(link::bulletins_path(&machine.id)) })
            .collect(),
        tables: tables::Kind::ALL
            .iter()
            .map(|kind| TableLink { title: site.say(kind.title()), href: kind.path().to_owned(), about: site.say(kind.about()) })
            .chain(book::has_whole(site).then(|| TableLink { title: site.say("kind-book"), href: link::BOOK.to_owned(), about: site.say("book-about") }))
            .collect(),
        faults: general_faults(site),
        errors,
        warnings,
    };
    let newest = manual
        .machines
        .iter()
        .flat_map(|m| m.procedures.iter().map(|p| &p.history).chain([&m.history]))
        .filter_map(|history| history.date)
        .max();
    let mut block = site.title_block("kind-manual", &manual.title, &manual.title, Some(&manual.shop_history));
    block.id = site.say("id-manual");
    block.date = block.date.or_else(|| newest.as_ref().map(date_text));
    site.document("home.html", site.frame(link::HOME, &manual.title, "home"), block, &view)
}

/// Findings in the files that no machine owns.
fn general_faults(site: &Site<'_>) -> Vec<FaultView> {
    let owned: Vec<_> = site
        .input
        .manual
        .machines
        .iter()
        .flat_map(|machine| machine.procedures.iter().map(|p| p.file).chain([machine.file]))
        .collect();
    site.input
        .files
        .iter()
        .filter(|(file, _)| !owned.contains(file))
        .flat_map(|(file, _)| site.faults.elsewhere(file, &[]))
        .collect()
}
