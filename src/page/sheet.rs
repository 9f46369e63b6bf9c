//! A bench sheet: one page or two of paper with which the work is done and ticked.

use super::before::{Before, Item};
use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::open::{self, OpenView};
use super::paper_mark::PaperMark;
use super::procedure::step_spans;
use super::sheet_line;
use super::sheet_row::SheetRow;
use super::site::{Scene, Site};
use super::stop_line;
use super::values::values_glued;
use super::words::Arg;
use super::wrench_reset::WrenchSettings;
use crate::finding::Place;
use crate::inspect::{drives, in_few_words};
use crate::manual::{Combination, Procedure, SheetValues};
use serde::Serialize;

#[derive(Serialize)]
struct SheetView {
    machine: String,
    title: String,
    /// `shaft L (508 mm)`, an axis each.
    variants: Vec<String>,
    running: String,
    /// What tells a printed sheet from this one.
    paper: PaperMark,
    /// Whether lines are numbered with gaps.
    skips: bool,
    /// How long it is to the first place to stop; empty where steps have no times.
    first_stretch: String,
    back: Detail,
    /// The titles of the procedures that come before.
    needs: Vec<String>,
    /// What was left open before.
    inherited: Vec<OpenView>,
    /// How long one has to wait.
    waited: Option<String>,
    have: Vec<Have>,
    steps: Vec<SheetStep>,
    leaves: Vec<OpenView>,
    /// A line for each place to stop: at least one.
    stops: Vec<usize>,
    stop_items: Vec<String>,
    footnotes: Vec<SheetNote>,
    faults: Vec<FaultView>,
    /// What scripts need to know.
    bench: Markup,
}

/// So many lines for those who stop are enough for any sheet.
const MOST_STOPS: usize = 4;

/// A line of what must be at hand.
#[derive(Serialize)]
struct Have {
    label: String,
    items: Vec<String>,
}

#[derive(Serialize)]
struct SheetStep {
    number: usize,
    id: String,
    title: String,
    time: Option<String>,
    only: Option<String>,
    waivers: Vec<Detail>,
    /// Rows that stay together on paper: a line with what leads up to it.
    groups: Vec<Vec<SheetRow>>,
    faults: Vec<FaultView>,
}

#[derive(Serialize)]
struct SheetNote {
    number: usize,
    text: Markup,
}

/// Makes a bench sheet.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize, sheet: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let found = site.sheets.get(machine_index).and_then(|m| m.get(index)).and_then(|p| p.all.get(sheet));
    let Some((path, known)) = found else { return Ok(Default::default()) };
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: path, known, at_bench: true };
    let items = open::possible(&open::all(machine), known);
    let leaves: Vec<OpenView> =
        items.iter().filter(|item| item.left_by(machine, index)).map(|item| item.view(&scene, Some(index)).on_paper()).collect();
    let before = scene.before(index);
    let variants = scene.variants_in_words(known);
    let title = &procedure.title;
    let mut running = vec![machine.name.clone(), title.clone()];
    running.extend(Some(scene.variant_words(known)).filter(|w| !w.is_empty()));
    running.extend(procedure.history.revision.map(|r| scene.say("revision", &[("revision", Arg::Count(r))])));
    let mut steps = steps(&scene, index)?;
    let (first_stretch, mut stretches) = scene.stretch_words();
    for step in &mut steps {
        if let Some(row) = step.groups.iter_mut().flatten().rfind(|row| row.kind == "stop") {
            row.details.extend(stretches.remove(&step.number));
        }
    }
    let values = SheetValues::of(site.input.manual, machine, procedure, known);
    let paper = scene.paper_mark(procedure, &values)?;
    running.push(values.fingerprint.in_short());
    for row in steps.iter_mut().flat_map(|step| &mut step.groups).flatten().filter(|row| row.kind == "act") {
        row.print();
    }
    let skips = skips(&steps);
    let pauses = steps.iter().flat_map(|step| step.groups.iter().flatten()).filter(|row| row.kind == "stop").count();
    let view = SheetView {
        machine: machine.name.clone(),
        title: title.clone(),
        variants,
        running: running.join(" · "),
        paper,
        skips,
        first_stretch,
        back: Detail { text: title.clone(), href: Some(scene.link(&link::procedure_path(&machine.id, &procedure.id))) },
        have: have(&scene, procedure, &before),
        stop_items: before.inherited.iter().chain(&leaves).map(|item| item.thing.text.clone()).collect(),
        needs: before.needs.into_iter().map(|need| need.text).collect(),
        inherited: before.inherited.into_iter().map(OpenView::on_paper).collect(),
        waited: before.waited,
        steps,
        stops: (0..pauses.clamp(1, MOST_STOPS)).collect(),
        faults: site.faults.elsewhere(procedure.file, &step_spans(&scene, procedure)),
        leaves,
        footnotes: footnotes(&scene)?,
        bench: super::bench::data(&scene, index, &values.fingerprint)?,
    };
    let id = format!("{}/{}", machine.id, procedure.id);
    let mut block = site.title_block("kind-sheet", title, &id, Some(&procedure.history));
    block.machine = Some(Detail::plain(machine.name.as_str()));
    let words = scene.variant_words(known);
    let heading = if words.is_empty() { title.clone() } else { format!("{title} ({words})") };
    let heading = site.say_with("sheet-title", &[("title", Arg::Text(&heading)), ("machine", Arg::Text(&machine.name))]);
    let html = site.document("sheet.html", site.sheet_frame(path, &heading), block, &view)?;
    Ok((path.clone(), html))
}

fn have(scene: &Scene<'_>, procedure: &Procedure, before: &Before) -> Vec<Have> {
    // One line of sizes: a sheet has no room for each of them with its fasteners.
    let drives = drives(scene.scope(), procedure, scene.known);
    let sizes = values_glued(&in_few_words(drives.iter().map(|drive| drive.size)).join("; "));
    let turns = (!sizes.is_empty()).then(|| Item { name: Detail::plain(scene.say("have-drives", &[("sizes", Arg::Text(&sizes))])), ..Item::default() });
    let tools: Vec<Item> = turns.into_iter().chain(before.tools.iter().cloned()).collect();
    [
        ("have-new", &before.new_parts),
        ("have-inspected", &before.inspected),
        ("have-parts", &before.parts),
        ("have-materials", &before.materials),
        ("have-wrenches", &before.wrenches),
        ("have-tools", &tools),
        ("have-protection", &before.protection),
        ("have-waits", &before.waits),
    ]
    .into_iter()
    .filter(|(_, items)| !items.is_empty())
    .map(|(key, items)| {
        let mut items = scene.items_text(items);
        items.extend(before.tolerance.clone().filter(|_| key == "have-wrenches"));
        Have { label: scene.site.say(key), items }
    })
    .collect()
}

fn steps(scene: &Scene<'_>, index: usize) -> Result<Vec<SheetStep>, PageError> {
    let Some(procedure) = scene.procedure else { return Ok(Vec::new()) };
    let mut wrenches = WrenchSettings::default();
    let mut stops = stop_line::stop_lines(scene, index);
    procedure
        .steps
        .iter()
        .zip(step_spans(scene, procedure))
        .filter(|(step, _)| step.only.agrees_with(scene.known))
        .map(|(step, span)| {
            let acts: Vec<Place> = step.acts.iter().map(|act| act.place.clone()).collect();
            Ok(SheetStep {
                number: step.number,
                id: step.id.clone(),
                title: step.title.clone(),
                time: step.minutes.map(|minutes| scene.minutes_text(minutes)),
                only: scene.only_text(&step.only),
                waivers: scene.step_waivers(procedure, step),
                groups: groups(sheet_line::rows(scene, step, &mut wrenches, &mut stops)?),
                faults: scene.site.faults.around(&span, &acts),
            })
        })
        .collect()
}

/// Whether a number is missing between lines: acts are numbered as on the page, and not each is a line of this sheet.
fn skips(steps: &[SheetStep]) -> bool {
    let lines = |step: &SheetStep| step.groups.iter().flatten().filter(|row| row.kind == "act").map(|row| row.number.clone()).collect::<Vec<_>>();
    steps.iter().any(|step| lines(step).iter().enumerate().any(|(place, number)| *number != format!("{}.{}", step.number, place + 1)))
}

/// So many rows behind a warning its work may stand; with more between them a good part of the paper would stay empty.
const MOST_LED: usize = 3;

/// Parts the rows of a step where paper may end: behind a line of work or text, never behind the panels, STOP lines and
/// settings that lead up to one. What warns of an injury is on one leaf with the work that it warns of: nobody turns
/// back for it with full hands.
fn groups(rows: Vec<SheetRow>) -> Vec<Vec<SheetRow>> {
    let mut groups: Vec<Vec<SheetRow>> = Vec::new();
    let kinds: Vec<&str> = rows.iter().map(|row| row.kind).collect();
    let mut leads = false;
    // The work that what warned last leads up to, by its row.
    let mut warned = 0;
    for (at, row) in rows.into_iter().enumerate() {
        let follows = leads || at <= warned && at > 0;
        leads = matches!(row.kind, "panel" | "reset" | "close");
        if row.warns {
            let led = kinds.iter().skip(at).position(|kind| *kind == "act").filter(|led| *led <= MOST_LED);
            warned = led.map_or(warned, |led| at + led);
        }
        match groups.last_mut().filter(|_| follows) {
            Some(group) => group.push(row),
            None => groups.push(vec![row]),
        }
    }
    // The heading of a step without a row stands in a group all the same.
    if groups.is_empty() {
        groups.push(Vec::new());
    }
    groups
}

fn footnotes(scene: &Scene<'_>) -> Result<Vec<SheetNote>, PageError> {
    let Some(procedure) = scene.procedure else { return Ok(Vec::new()) };
    procedure
        .footnotes
        .iter()
        .enumerate()
        .map(|(index, (_, blocks))| Ok(SheetNote { number: index + 1, text: sheet_line::text(scene, blocks)? }))
        .collect()
}

impl Scene<'_> {
    /// The known axes with their meanings: `shaft L (508 mm)`.
    fn variants_in_words(&self, known: &Combination) -> Vec<String> {
        self.machine
            .axes
            .iter()
            .filter_map(|axis| {
                let value = axis.values.iter().find(|value| known.0.get(&axis.name) == Some(&value.name))?;
                let meaning = if value.meaning == value.name { String::new() } else { format!(" ({})", value.meaning) };
                Some(format!("{} {}{meaning}", axis.name, value.name))
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parted(kinds: &[&'static str]) -> Vec<usize> {
        let row = |kind: &&'static str| match *kind {
            "warning" => SheetRow { kind: "panel", warns: true, ..SheetRow::default() },
            kind => SheetRow { kind, ..SheetRow::default() },
        };
        groups(kinds.iter().map(row).collect()).iter().map(Vec::len).collect()
    }

    #[test]
    fn what_warns_of_an_injury_is_never_parted_from_the_work_it_warns_of() {
        assert_eq!(parted(&["text", "warning", "text", "hold", "act", "act", "text"]), [1, 4, 1, 1]);
        assert_eq!(parted(&["warning", "text", "close", "act", "text", "act"]), [4, 1, 1]);
        // Of damage and of a table the next row alone.
        assert_eq!(parted(&["panel", "text", "hold", "act"]), [2, 1, 1]);
        // Without work behind it, or with much text before that, paper may end as everywhere.
        assert_eq!(parted(&["act", "warning", "text", "text"]), [1, 2, 1]);
        let long: Vec<&'static str> = ["warning"].into_iter().chain(["text"; MOST_LED]).chain(["act"]).collect();
        assert_eq!(parted(&long).first(), Some(&2));
    }
}
