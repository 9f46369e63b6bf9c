//! A kit list as text, as a table for spreadsheets, as JSON.

use super::kit::Chosen;
use super::{columns, csv as table};
use crate::finding::visible;
use crate::inspect::{Comes, DriveRow, GoodsRow, KitRow, MaterialRow, ToolRow, WaitRow, WrenchSet, kits_to_get};
use crate::manual::{Combination, Manual, Procedure};
use serde::Serialize;
use std::io::{self, Write};

/// One line of the list, whatever it is about.
#[derive(Serialize)]
struct Line {
    section: &'static str,
    id: String,
    name: String,
    details: String,
    /// How many are in place when the work is done.
    count: Option<u64>,
    new: Option<u64>,
    spare: Option<u64>,
    reuse: Option<String>,
    from: Option<String>,
    /// As much as the work takes, as text: `1.8 L`.
    amount: Option<String>,
    packs: Option<u64>,
    to_order: u64,
    variant: String,
    procedures: Vec<String>,
    /// For a torque wrench: what it is set to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    sets: Vec<Set>,
}

#[derive(Serialize)]
struct Set {
    fastener: String,
    stage: Option<usize>,
    variant: String,
    torque: String,
    set: String,
    with_adapter: bool,
}

#[derive(Serialize)]
struct Document<'a> {
    format: &'static str,
    version: u32,
    title: &'a str,
    machines: Vec<MachineList<'a>>,
}

#[derive(Serialize)]
struct MachineList<'a> {
    machine: &'a str,
    name: &'a str,
    variant: String,
    procedures: Vec<&'a str>,
    lines: Vec<Line>,
}

/// The sections in the order in which they are told.
const SECTIONS: [(&str, &str); 11] = [
    ("kit", "Kits to get"), ("order", "To order: what no kit brings, or not enough of, and the shop does not keep"), ("new", "New, in hand"), ("inspect", "Used again if it passes"), ("goods", "Other parts"), ("material", "Materials"),
    ("wrench", "Wrenches and what to set"), ("drive", "Spanners, sockets and keys"), ("tool", "Tools"), ("protection", "Protection"), ("wait", "Waits"),
];

pub(super) fn json(manual: &Manual, chosen: &[Chosen<'_>], out: &mut dyn Write) -> io::Result<()> {
    let machines = chosen.iter().map(|one| MachineList {
        machine: &one.machine.id,
        name: &one.machine.name,
        variant: words(&one.known),
        procedures: one.procedures.iter().map(|procedure| procedure.id.as_str()).collect(),
        lines: lines(one),
    });
    let document = Document { format: "benchleaf-kit-list", version: 1, title: &manual.title, machines: machines.collect() };
    writeln!(out, "{}", serde_json::to_string_pretty(&document).map_err(io::Error::other)?)
}

pub(super) fn csv(chosen: &[Chosen<'_>], out: &mut dyn Write) -> io::Result<()> {
    table::row(out, ["machine", "section", "id", "name", "details", "count", "new", "spare", "reuse", "from", "amount", "packs", "to_order", "variant", "procedures"])?;
    for one in chosen {
        for line in lines(one) {
            let number = |number: Option<u64>| number.map_or_else(String::new, |number| number.to_string());
            let (count, new, spare, packs) = (number(line.count), number(line.new), number(line.spare), number(line.packs));
            let (reuse, from, amount) = (line.reuse.unwrap_or_default(), line.from.unwrap_or_default(), line.amount.unwrap_or_default());
            let sets = line.sets.iter().map(set_words).collect::<Vec<_>>().join("; ");
            let details = [line.details, sets].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join("; ");
            let (to_order, procedures) = (line.to_order.to_string(), line.procedures.join(" "));
            table::row(out, [
                one.machine.id.as_str(), line.section, &line.id, &line.name, &details, &count, &new, &spare, &reuse, &from, &amount, &packs, &to_order,
                &line.variant, &procedures,
            ])?;
        }
    }
    Ok(())
}

pub(super) fn text(chosen: &[Chosen<'_>], out: &mut dyn Write) -> io::Result<()> {
    for (at, one) in chosen.iter().enumerate() {
        if at > 0 {
            writeln!(out)?;
        }
        let variant = if one.known.is_always() { String::new() } else { format!(" ({})", one.known.words()) };
        writeln!(out, "{}{variant}", visible(&one.machine.name))?;
        for procedure in &one.procedures {
            writeln!(out, "  {}", visible(&procedure.title))?;
        }
        let lines = lines(one);
        for (section, title) in SECTIONS {
            let rows: Vec<(String, String)> = lines.iter().filter_map(|line| told(line, section)).collect();
            if rows.is_empty() {
                continue;
            }
            writeln!(out, "\n{title}")?;
            if section == "wrench" {
                wrenches(&lines, out)?;
            } else {
                columns(out, "  [ ] ", &rows)?;
            }
        }
    }
    writeln!(out, "\nThe maker's parts list decides what is needed; this list knows only what the manual says.")
}

/// Each wrench with what it is set to below it.
fn wrenches(lines: &[Line], out: &mut dyn Write) -> io::Result<()> {
    for line in lines.iter().filter(|line| line.section == "wrench") {
        writeln!(out, "  [ ] {}", visible(&line.name))?;
        for set in &line.sets {
            writeln!(out, "        {}", visible(&set_words(set)))?;
        }
    }
    Ok(())
}

/// A line as it stands in a section; `None` where it does not.
fn told(line: &Line, section: &str) -> Option<(String, String)> {
    let variant = if line.variant.is_empty() { String::new() } else { format!(" ({})", line.variant) };
    let name = format!("{}{variant}", line.name);
    if section == "order" {
        let what = line.amount.as_ref().map_or_else(|| "×".to_owned(), |amount| format!("packs; {amount} is used,"));
        let packs = if line.section == "material" { format!("{} {what}", line.to_order) } else { format!("{} ×", line.to_order) };
        let from = line.from.as_deref().map_or_else(String::new, |from| format!(" ({from})"));
        return (line.to_order > 0).then(|| (format!("{packs} {name}"), format!("{}{from}", line.details)));
    }
    if line.section != section {
        return None;
    }
    let number = match section {
        "new" => line.new.map(|new| format!("{new} × ")),
        "kit" | "inspect" | "goods" => line.count.map(|count| format!("{count} × ")),
        _ => None,
    };
    let spare = line.spare.filter(|spare| *spare > 0).map(|spare| format!("and {spare} spare"));
    let packs = line.packs.map(|packs| if packs == 1 { "1 pack".to_owned() } else { format!("{packs} packs") });
    let details = [Some(line.details.clone()), spare, line.from.clone(), line.amount.clone(), packs];
    let details: Vec<String> = details.into_iter().flatten().filter(|text| !text.is_empty()).collect();
    Some((format!("{}{name}", number.unwrap_or_default()), details.join("; ")))
}

fn set_words(set: &Set) -> String {
    let variant = if set.variant.is_empty() { String::new() } else { format!(" ({})", set.variant) };
    let stage = set.stage.map_or_else(String::new, |stage| format!(", stage {stage}"));
    let adapter = if set.with_adapter { " with the adapter on" } else { "" };
    let set_to = if set.set == set.torque { format!("set {}", set.set) } else { format!("set {}{adapter} for {}", set.set, set.torque) };
    format!("{}{variant}{stage}: {set_to}", set.fastener)
}

fn lines(one: &Chosen<'_>) -> Vec<Line> {
    let list = &one.list;
    let goods = list.goods.iter().map(goods_line);
    let materials = list.materials.iter().map(material_line);
    let tools = list.tools.iter().map(tool_line);
    let waits = list.waits.iter().map(wait_line);
    let kits = kits_to_get(one.machine, &one.known, list).into_iter().map(|row| kit_line(&row));
    let drives = list.drives.iter().map(drive_line);
    kits.chain(goods).chain(materials).chain(tools).chain(drives).chain(waits).collect()
}

fn goods_line(row: &GoodsRow<'_>) -> Line {
    let section = match row.reuse {
        _ if row.new > 0 => "new",
        Some("inspect") => "inspect",
        _ => "goods",
    };
    let from = match &row.comes {
        Comes::NotNeeded => None,
        Comes::Kits(kits) => Some(kits.join(", ")),
        Comes::Order => Some("bought apart".to_owned()),
        Comes::Stock => Some("from the shop's stock".to_owned()),
        Comes::Unstated => Some("nobody says from where".to_owned()),
    };
    Line {
        details: row.details.join(", "),
        count: Some(row.count),
        new: Some(row.new),
        spare: Some(row.spare),
        reuse: row.reuse.map(str::to_owned),
        from,
        to_order: row.to_order,
        variant: words(&row.when),
        procedures: ids(&row.procedures),
        ..line(section, &row.thing.id, row.name)
    }
}

/// One of each: what one does not hold enough of is to be ordered beside it.
fn kit_line(row: &KitRow<'_>) -> Line {
    let number = |(when, number): &(&Combination, &str)| if when.is_always() { (*number).to_owned() } else { format!("{number} ({})", words(when)) };
    let numbers: Vec<String> = row.numbers.iter().map(number).collect();
    Line { details: numbers.join(", "), count: Some(1), variant: words(&row.entry.only), ..line("kit", &row.entry.id, &row.entry.name) }
}

fn material_line(row: &MaterialRow<'_>) -> Line {
    let what = &row.entry.what;
    let details: Vec<String> = what.grade.clone().into_iter().chain(what.pack.as_ref().map(|pack| format!("pack of {}", pack.written()))).collect();
    Line {
        details: details.join(", "),
        amount: row.amount(),
        packs: row.packs,
        to_order: row.to_order,
        variant: words(&row.when),
        procedures: ids(&row.procedures),
        ..line("material", &row.thing.id, &row.entry.name)
    }
}

fn tool_line(row: &ToolRow<'_>) -> Line {
    let section = match row.entry.what.kind.as_deref() {
        Some("torque-wrench" | "angle-gauge") => "wrench",
        Some("protection") => "protection",
        _ => "tool",
    };
    Line { sets: row.sets.iter().map(set).collect(), procedures: ids(&row.procedures), ..line(section, &row.thing.id, &row.entry.name) }
}

fn drive_line(row: &DriveRow<'_>) -> Line {
    Line { details: row.fasteners.join(", "), procedures: ids(&row.procedures), ..line("drive", row.size, row.size) }
}

fn wait_line(row: &WaitRow<'_>) -> Line {
    let time: Vec<String> = row.entry.what.time.cases.iter().map(|case| case.value.written().to_owned()).collect();
    let begin = match (row.at_once, row.begun) {
        (true, _) => "begin now",
        (false, true) => "begins",
        (false, false) => "waited for",
    };
    let details = format!("{}; {begin}, step {} of {}", time.join(", "), row.step.number, row.procedure.title);
    Line { details, procedures: vec![row.procedure.id.clone()], ..line("wait", &row.thing.id, &row.entry.name) }
}

fn line(section: &'static str, id: &str, name: &str) -> Line {
    Line {
        section,
        id: id.to_owned(),
        name: name.to_owned(),
        details: String::new(),
        count: None,
        new: None,
        spare: None,
        reuse: None,
        from: None,
        amount: None,
        packs: None,
        to_order: 0,
        variant: String::new(),
        procedures: Vec::new(),
        sets: Vec::new(),
    }
}

fn set(row: &WrenchSet<'_>) -> Set {
    Set {
        fastener: row.fastener.to_owned(),
        stage: row.stage,
        variant: words(&row.when),
        torque: row.torque.to_owned(),
        set: row.set.clone(),
        with_adapter: row.with_adapter,
    }
}

fn words(when: &Combination) -> String {
    when.words().replace(" · ", ", ")
}

fn ids(procedures: &[&Procedure]) -> Vec<String> {
    procedures.iter().map(|procedure| procedure.id.clone()).collect()
}
