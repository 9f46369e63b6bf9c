//! What stands behind the values of a procedure, on a page of its own: the account of each torque, the sources, the
//! chapters of the recording.
//! Few readers need it at the bench, so the procedure's page leads to it and does not carry it.

use super::account::AccountView;
use super::chapters;
use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::rows::Table;
use super::site::{Scene, Site};
use super::words::Arg;
use crate::manual::{Combination, Procedure};
use serde::Serialize;

#[derive(Serialize)]
struct BehindView {
    machine: Detail,
    procedure: Detail,
    accounts: Vec<AccountView>,
    sources: Option<Table>,
    /// How its values stand, in one line; empty where it uses none.
    honesty: String,
    /// Its source as written.
    source: String,
    /// The chapters of the recording, a line each, and the file of them.
    chapters: Option<ChaptersView>,
}

#[derive(Serialize)]
struct ChaptersView {
    text: String,
    href: String,
}

/// Whether a procedure has such a page: something is worked on in it, or its recording has chapters.
pub(super) fn has(procedure: &Procedure) -> bool {
    chapters::list(procedure).is_some() || procedure.steps.iter().any(|step| step.acts.iter().any(|act| !act.things.is_empty()))
}

/// Makes the page.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let path = link::behind_path(&machine.id, &procedure.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: &path, known: &any, at_bench: false };
    let view = BehindView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        procedure: Detail { text: procedure.title.clone(), href: Some(scene.link(&link::procedure_path(&machine.id, &procedure.id))) },
        accounts: scene.accounts(),
        sources: scene.procedure_sources(),
        honesty: scene.honesty(),
        source: scene.link(&link::source_path(&machine.id, &procedure.id)),
        chapters: chapters::list(procedure)
            .map(|text| ChaptersView { text, href: scene.link(&link::chapters_path(&machine.id, &procedure.id)) }),
    };
    let title = site.say_with("behind-page", &[("title", Arg::Text(&procedure.title))]);
    let id = format!("{}/{}", machine.id, procedure.id);
    let mut block = site.title_block("kind-behind", &title, &id, Some(&procedure.history));
    block.machine = Some(view.machine.clone());
    let html = site.document("behind.html", site.frame(&path, &format!("{title} – {}", machine.name), "behind"), block, &view)?;
    Ok((path, html))
}
