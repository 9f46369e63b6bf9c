//! `kit`: what to have and what to order for the chosen work.

use super::arguments::{KitOptions, TableFormat};
use super::kit_text;
use super::work::{Order, Work, work};
use super::{Outcome, World};
use crate::finding::nearest;
use crate::inspect::{KitList, kit_list};
use crate::manual::{Combination, Machine, Manual, Procedure};
use std::io::{self, Write};
use std::path::PathBuf;

/// The list of one machine's chosen procedures.
pub(super) struct Chosen<'a> {
    pub(super) machine: &'a Machine,
    pub(super) procedures: Vec<&'a Procedure>,
    pub(super) known: Combination,
    pub(super) list: KitList<'a>,
}

pub(super) fn run(options: &KitOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let (work, names) = match read(options, world) {
        Ok(read) => read,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let chosen = match chosen(&work.manual, names, &options.only) {
        Ok(chosen) => chosen,
        Err(message) => {
            writeln!(err, "{message}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    match options.format {
        TableFormat::Text => kit_text::text(&chosen, out)?,
        TableFormat::Csv => kit_text::csv(&chosen, out)?,
        TableFormat::Json => kit_text::json(&work.manual, &chosen, out)?,
    }
    if work.report.stops(work.manual.profile) {
        writeln!(err, "The manual has findings that stop it, so something may be missing here. `benchleaf inspect` tells them.")?;
    }
    Ok(Outcome::Clean)
}

/// The manual, and the names that are left: the first may be the manual's folder or a procedure already.
fn read<'o>(options: &'o KitOptions, world: &World) -> Result<(Work, &'o [String]), String> {
    let site = world.folder.join("site");
    let at = |manual: Option<&PathBuf>| work(&Order { manual, today: None, against: None, site: &site, threads: world.processors }, world);
    let Some((first, rest)) = options.names.split_first() else { return at(None).map(|work| (work, options.names.as_slice())) };
    match at(Some(&PathBuf::from(first))) {
        Ok(work) => Ok((work, rest)),
        Err(error) => at(None).map(|work| (work, options.names.as_slice())).map_err(|_| error),
    }
}

fn chosen<'a>(manual: &'a Manual, names: &[String], only: &[String]) -> Result<Vec<Chosen<'a>>, String> {
    let mut picked: Vec<(&Machine, Vec<&Procedure>)> = Vec::new();
    if names.is_empty() {
        picked.extend(manual.machines.iter().map(|machine| (machine, machine.procedures.iter().collect())));
    }
    for name in names {
        let found = named(manual, name);
        if found.is_empty() {
            return Err(unknown(manual, name));
        }
        for (machine, procedure) in found {
            match picked.iter_mut().find(|(known, _)| known.id == machine.id) {
                Some((_, procedures)) if procedures.iter().any(|known| known.id == procedure.id) => {}
                Some((_, procedures)) => procedures.push(procedure),
                None => picked.push((machine, vec![procedure])),
            }
        }
    }
    let mut used = vec![false; only.len()];
    let mut all = Vec::new();
    for (machine, mut procedures) in picked {
        // In build order, in whatever order they were named.
        procedures.sort_by_key(|procedure| machine.procedures.iter().position(|known| known.id == procedure.id));
        let known = known(machine, only, &mut used)?;
        let list = kit_list(manual, machine, &procedures, &known);
        all.push(Chosen { machine, procedures, known, list });
    }
    match only.iter().zip(&used).find(|(_, used)| !**used) {
        Some((part, _)) => Err(no_variant(&all, part)),
        None => Ok(all),
    }
}

/// The procedures of a name: `MACHINE`, `MACHINE/PROCEDURE`, `PROCEDURE`.
fn named<'a>(manual: &'a Manual, name: &str) -> Vec<(&'a Machine, &'a Procedure)> {
    let (machine, procedure) = name.split_once('/').map_or((None, name), |(machine, procedure)| (Some(machine), procedure));
    let all = || manual.machines.iter().flat_map(|machine| machine.procedures.iter().map(move |procedure| (machine, procedure)));
    match machine {
        Some(id) => all().filter(|(machine, known)| machine.id == id && known.id == procedure).collect(),
        None => all().filter(|(machine, known)| known.id == procedure || machine.id == procedure).collect(),
    }
}

fn unknown(manual: &Manual, name: &str) -> String {
    let machines: Vec<&str> = manual.machines.iter().map(|machine| machine.id.as_str()).collect();
    let procedures = manual.machines.iter().flat_map(|machine| machine.procedures.iter().map(|procedure| procedure.id.as_str()));
    let near = nearest(name.rsplit('/').next().unwrap_or(name), procedures.chain(machines.iter().copied()));
    let hint = near.map_or_else(String::new, |near| format!(" Did you mean ‘{near}’?"));
    format!("There is no procedure and no machine ‘{name}’ in {}.{hint} Machines: {}.", manual.title, machines.join(", "))
}

/// What `--for` says of one machine: `shaft=L`, or `L` alone.
fn known(machine: &Machine, only: &[String], used: &mut [bool]) -> Result<Combination, String> {
    let mut known = Combination::default();
    for (part, used) in only.iter().zip(used) {
        let (axis, value) = part.split_once('=').map_or((None, part.trim()), |(axis, value)| (Some(axis.trim()), value.trim()));
        let found = machine.axes.iter().filter(|known| axis.is_none_or(|axis| known.name == axis)).find(|known| known.values.iter().any(|v| v.name == value));
        if let Some(found) = found {
            *used = true;
            if known.0.insert(found.name.clone(), value.to_owned()).is_some_and(|before| before != value) {
                return Err(format!("--for names two values of {} of {}", found.name, machine.name));
            }
        }
    }
    if machine.not_made.iter().any(|never| !never.is_always() && known.satisfies(never)) {
        return Err(format!("{} is not made as {}", machine.name, known.words()));
    }
    Ok(known)
}

fn no_variant(chosen: &[Chosen<'_>], part: &str) -> String {
    let ways: Vec<String> = chosen
        .iter()
        .flat_map(|chosen| &chosen.machine.axes)
        .map(|axis| format!("{}={}", axis.name, axis.values.iter().map(|value| value.name.as_str()).collect::<Vec<_>>().join("|")))
        .collect();
    let there = if ways.is_empty() { "this machine comes one way only".to_owned() } else { format!("there is {}", ways.join(", ")) };
    format!("--for: ‘{part}’ is no variant here; {there}")
}
