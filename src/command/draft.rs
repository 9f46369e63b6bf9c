//! `draft`: starts a manual, a machine or a procedure. Asks nothing that can be inferred, never overwrites.

use super::arguments_draft::{DraftHow, DraftMachine, DraftManual, DraftOptions, DraftProcedure, DraftWhat};
use super::work::{manual_folder, read_manual};
use super::{Outcome, World};
use crate::draft::{DraftFile, FastenerSpec, MachineStart, ManualStart, ProcedureStart, TorqueTable, Undone, id_of, machine_draft, manual_draft, procedure_draft, read_torques};
use crate::finding::nearest;
use crate::manual::{ListKind, Lists, Machine, Manual, Scope, is_id, lower};
use crate::output::write_fresh;
use crate::recording::{CAPTION_LIMIT, Speech};
use crate::source::{FRONT_LIMIT, TEXT_LIMIT, read_given};
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Files to be written, where, and what to say about them.
struct Written {
    folder: PathBuf,
    files: Vec<DraftFile>,
    notes: Vec<String>,
}

pub(super) fn run(options: &DraftOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let (drafted, how) = match &options.what {
        DraftWhat::Manual(options) => (Ok(manual(options, world)), &options.how),
        DraftWhat::Machine(options) => (machine(options, world), &options.how),
        DraftWhat::Procedure(options) => (procedure(options, world), &options.how),
    };
    match drafted.and_then(|drafted| deliver(&drafted, how, world).map(|text| (text, drafted.notes))) {
        Ok((text, notes)) => {
            out.write_all(text.as_bytes())?;
            // With --print the draft alone goes to `out`, so that it can be led into a file.
            notes.iter().try_for_each(|note| if how.print { writeln!(err, "{note}") } else { writeln!(out, "{note}") })?;
            Ok(Outcome::Clean)
        }
        Err(error) => {
            writeln!(err, "{error}")?;
            Ok(Outcome::CouldNotRun)
        }
    }
}

/// Writes the files, or shows them. A draft that could not be read again is no help to anybody.
fn deliver(drafted: &Written, how: &DraftHow, world: &World) -> Result<String, String> {
    for file in &drafted.files {
        let front = file.text.split("\n---\n").next().map_or(0, str::len);
        if u64::try_from(file.text.len()).unwrap_or(u64::MAX) > TEXT_LIMIT || (file.path.ends_with(".md") && front > FRONT_LIMIT) {
            return Err(format!("the draft of {} would be too long to be read again ({} KiB); cut what it is made from in parts", file.path, file.text.len() / 1024));
        }
    }
    if how.print {
        let many = drafted.files.len() > 1;
        return Ok(drafted.files.iter().map(|file| if many { format!("# {}\n{}", file.path, file.text) } else { file.text.clone() }).collect());
    }
    let files: Vec<(&str, &[u8])> = drafted.files.iter().map(|file| (file.path.as_str(), file.text.as_bytes())).collect();
    write_fresh(&drafted.folder, &files).map_err(|error| error.to_string())?;
    let shown = drafted.folder.strip_prefix(&world.folder).unwrap_or(&drafted.folder);
    let mut text = String::new();
    for file in &drafted.files {
        let counted = |number: usize, one: &str, several: &str| if number == 1 { format!("1 {one}") } else { format!("{number} {several}") };
        let (holes, heard) = (questions(&file.text), heard(&file.text));
        let questions = counted(holes, "question", "questions");
        // What was only heard is an error, too, until a second person has confirmed it: both make what inspect counts.
        let more = if heard == 0 { String::new() } else { format!(", {} to confirm: inspect reports {}", counted(heard, "thing heard", "things heard"), counted(holes + heard, "error", "errors")) };
        text.push_str(&format!("{}: written, {questions} to answer{more}\n", shown.join(&file.path).display()));
    }
    Ok(text)
}

/// How many holes a draft has: values, headings, paragraphs and words of acts that begin with a question mark.
fn questions(text: &str) -> usize {
    let is_question = |line: &&str| line.starts_with("? ") || line.starts_with("## ? ") || line.starts_with("[?");
    let values = text.lines().filter(|line| !line.trim_start().starts_with('#')).map(|line| line.matches(": '?").count());
    values.sum::<usize>() + text.lines().filter(is_question).count()
}

/// How many sources a draft has that were only heard; who confirmed them is asked of each.
fn heard(text: &str) -> usize {
    let front = text.split("\n---\n").next().unwrap_or_default();
    front.lines().filter(|line| line.ends_with(", kind: heard}")).count()
}

fn manual(options: &DraftManual, world: &World) -> Written {
    let start = ManualStart { title: &options.title, publisher: options.publisher.as_deref(), today: options.how.today.unwrap_or(world.today) };
    Written { folder: world.folder.join(&options.into), files: manual_draft(&start), notes: vec!["next: benchleaf draft machine NAME".to_owned()] }
}

fn machine(options: &DraftMachine, world: &World) -> Result<Written, String> {
    let folder = manual_folder(options.manual.as_ref(), world).map_err(|error| error.to_string())?;
    let id = id(options.id.as_deref(), &options.name, "the machine's folder")?;
    let table = options.from.as_ref().map(|file| torques(&world.folder.join(file))).transpose()?;
    let start = MachineStart { id: &id, name: &options.name, table: table.as_ref(), today: options.how.today.unwrap_or(world.today) };
    let mut notes: Vec<String> = table.iter().map(|table| format!("{} fasteners out of the table; each is reported as not used until a procedure points to it", table.len())).collect();
    notes.push(format!("next: benchleaf draft procedure {id} TITLE"));
    Ok(Written { folder, files: vec![machine_draft(&start)], notes })
}

fn procedure(options: &DraftProcedure, world: &World) -> Result<Written, String> {
    let (sources, _) = read_manual(options.manual.as_ref(), world).map_err(|error| error.to_string())?;
    let (manual, _) = lower(&sources);
    let machine = manual.machine(&options.machine).ok_or_else(|| no_machine(&manual, &options.machine))?;
    let id = id(options.id.as_deref(), &options.title, "the procedure's file")?;
    let fasteners = options.fastener.iter().map(|words| FastenerSpec::parse(words)).collect::<Result<Vec<_>, _>>()?;
    let mut notes = twins(&fasteners);
    let (speech, table) = material(&options.from, world, &mut notes)?;
    let mut taken = ids(&manual.shop);
    taken.extend(ids(&machine.lists));
    taken.extend(machine.procedures.iter().flat_map(|procedure| ids(&procedure.lists)));
    let others: Vec<&str> = machine.procedures.iter().map(|procedure| procedure.id.as_str()).collect();
    let undone = options.undo.as_ref().map(|asked| undone(&manual, machine, asked)).transpose()?;
    let start = ProcedureStart {
        machine: &machine.id,
        id: &id,
        title: &options.title,
        today: options.how.today.unwrap_or(world.today),
        others: &others,
        taken,
        fasteners: &fasteners,
        speech: speech.as_ref(),
        table: table.as_ref(),
        undone,
    };
    let (file, more) = procedure_draft(&start);
    notes.extend(more);
    notes.push("next: answer the questions, then benchleaf inspect".to_owned());
    Ok(Written { folder: sources.root.clone(), files: vec![file], notes })
}

/// The procedure that is taken apart again.
fn undone<'a>(manual: &'a Manual, machine: &'a Machine, asked: &str) -> Result<Undone<'a>, String> {
    let Some(procedure) = machine.procedure(asked) else {
        let known: Vec<&str> = machine.procedures.iter().map(|procedure| procedure.id.as_str()).collect();
        return Err(match nearest(asked, known.iter().copied()) {
            Some(near) => format!("‘{asked}’ is no procedure of {}; did you mean ‘{near}’?", machine.id),
            None => format!("‘{asked}’ is no procedure of {}; it has: {}", machine.id, if known.is_empty() { "none yet".to_owned() } else { known.join(", ") }),
        });
    };
    Ok(Undone { scope: Scope { shop: &manual.shop, machine: Some(machine), procedure: Some(procedure) }, procedure })
}

/// What is said of fasteners that were given more than once in the same words: each gets its number.
fn twins(fasteners: &[FastenerSpec]) -> Vec<String> {
    let mut told: Vec<&FastenerSpec> = Vec::new();
    let mut notes = Vec::new();
    for spec in fasteners {
        let alike = fasteners.iter().filter(|other| *other == spec).count();
        if alike > 1 && !told.contains(&spec) {
            told.push(spec);
            notes.push(format!("--fastener {spec} is given {alike} times: {alike} entries, each with its number at name:. Bolts of one group are one entry, and count: says how many: take the others out then"));
        }
    }
    notes
}

/// What is given beside: captions, a table; the content tells which.
fn material(files: &[PathBuf], world: &World, notes: &mut Vec<String>) -> Result<(Option<Speech>, Option<TorqueTable>), String> {
    let (mut speech, mut table) = (None, None);
    for file in files {
        let path = world.folder.join(file);
        let is_table = path.extension().is_some_and(|ending| ["csv", "tsv"].iter().any(|known| ending.eq_ignore_ascii_case(known)));
        let second = if is_table { table.is_some() } else { speech.is_some() };
        if second {
            return Err(format!("{}: a second one of its kind; give one caption file and one table", file.display()));
        }
        if is_table {
            table = Some(torques(&path)?);
        } else {
            let captions = super::recording::captions(&path, notes)?;
            speech = Some(captions);
        }
    }
    Ok((speech, table))
}

fn torques(path: &Path) -> Result<TorqueTable, String> {
    let bytes = read_given(path, u64::try_from(CAPTION_LIMIT).unwrap_or(u64::MAX)).map_err(|error| error.to_string())?;
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    read_torques(&bytes, &name).map_err(|error| format!("{}: {}", path.display(), error.message()))
}

/// An id as given, or made of a name.
fn id(given: Option<&str>, name: &str, of: &str) -> Result<String, String> {
    let id = given.map_or_else(|| id_of(name), str::to_owned);
    if is_id(&id) {
        return Ok(id);
    }
    Err(match given {
        Some(given) => format!("‘{given}’ can't name {of}; an id has lower-case letters, digits and hyphens between them"),
        None => format!("no name for {of} can be made of ‘{name}’; give one: --id …"),
    })
}

fn no_machine(manual: &Manual, asked: &str) -> String {
    let known: Vec<&str> = manual.machines.iter().map(|machine| machine.id.as_str()).collect();
    match (nearest(asked, known.iter().copied()), known.as_slice()) {
        (Some(near), _) => format!("‘{asked}’ is no machine of this manual; did you mean ‘{near}’?"),
        (None, []) => format!("‘{asked}’ is no machine of this manual; start it: benchleaf draft machine NAME"),
        (None, known) => format!("‘{asked}’ is no machine of this manual; it has: {}", known.join(", ")),
    }
}

/// Every id of some lists.
fn ids(lists: &Lists) -> BTreeSet<String> {
    ListKind::ALL.iter().flat_map(|kind| lists.heads(*kind)).map(|head| head.id.to_owned()).collect()
}
