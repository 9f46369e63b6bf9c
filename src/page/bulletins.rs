//! The bulletins of a machine: what changed, and for each recorded machine built by an older value a sheet to look again by.

use super::build::Recheck;
use super::error::PageError;
use super::link;
use super::machine::changes;
use super::markup::Markup;
use super::names::Detail;
use super::rows::Table;
use super::site::{Scene, Site};
use super::words::Arg;
use crate::manual::Combination;
use serde::Serialize;

#[derive(Serialize)]
struct BulletinsView {
    machine: Detail,
    changes: Option<Table>,
    rechecks: Vec<RecheckSheet>,
    /// Whether the machine has records at all.
    has_builds: bool,
}

/// What to look at again on one machine.
#[derive(Serialize)]
struct RecheckSheet {
    anchor: String,
    /// `Look again: Tarn 18 no. 4711, serial late`.
    title: String,
    record: String,
    rows: Vec<Recheck>,
}

/// Makes the page.
pub(super) fn page(site: &Site<'_>, machine_index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let path = link::bulletins_path(&machine.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: &path, known: &any, at_bench: false };
    let rechecks = machine.builds.iter().filter_map(|build| {
        let (name, rows) = scene.rechecks(build);
        let title = scene.say("recheck-title", &[("build", Arg::Text(&name))]);
        (!rows.is_empty()).then(|| RecheckSheet { anchor: format!("recheck.{}", build.id), title, record: scene.link(&link::build_path(&machine.id, &build.id)), rows })
    });
    let histories = changes(&scene);
    let view = BulletinsView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        changes: scene.changes_table(&histories),
        rechecks: rechecks.collect(),
        has_builds: !machine.builds.is_empty(),
    };
    let title = site.say_with("bulletins-of", &[("machine", Arg::Text(&machine.name))]);
    let mut block = site.title_block("kind-bulletins", &title, &format!("{}/bulletins", machine.id), Some(&machine.history));
    block.machine = Some(view.machine.clone());
    block.of_day(histories.iter().filter(|(_, _, history)| !history.changes.is_empty()).filter_map(|(_, _, history)| history.date).max());
    let html = site.document("bulletins.html", site.frame(&path, &title, "bulletins"), block, &view)?;
    Ok((path, html))
}
