//! Names of pages, which follow from the names of folders, files, variants and fasteners: each must be free, and one that every
//! file system takes.

use super::Context;
use crate::finding::{Explanation, Finding, Place, Rule, Severity, is_device_name};
use crate::manual::{Axis, Machine, Manual, Procedure, Scope, board_name, file_name_part, placed_fasteners, sheet_name, sheet_variants};
use std::collections::BTreeMap;

/// A page can't have the name that follows.
pub(super) static PAGE_NAME_IMPOSSIBLE: Rule = Rule {
    name: "page-name-impossible",
    severity: Severity::Error,
    summary: "A machine or procedure is called so that a page of the site can't have its name.",
    explanation: Explanation {
        finds: "Procedures called `index`, `book` or `torque-card`, as pages of the machine are; a machine called `tables`; names of devices of Windows (`con`, `aux`, `com1` and the like); names so long that those of their pages pass 255 bytes; a procedure that is called as the sheet or the board of another, or as one of its own (`close` and `close-sheet`); variants whose sheets differ by nothing but capitals and signs.",
        matters: "Two pages of one name are one page: whichever comes last hides the other, with its torques. A name that Windows keeps for itself can't be copied to a memory stick for the bench.",
        may_be_wrong: "Never: nothing is published before the name is another. The title, in the front matter, may stay.",
        example: "tarn-18/close-gearcase.md beside tarn-18/close-gearcase-sheet.md",
        instead: "tarn-18/close-gearcase.md beside tarn-18/fill-in-the-sheet.md",
    },
};

/// Pages of a machine's own, and what they are.
const TAKEN: [(&str, &str); 3] = [("index", "the machine's own page"), ("book", "the machine as one document"), ("torque-card", "the machine's torque card")];
/// The folder of the tables of all machines.
const TABLES: &str = "tables";
/// The most bytes of a name on common file systems.
const LONGEST: usize = 255;
/// The longest ending of a page of a procedure's: that of its chapters.
const ENDING: &str = ".chapters.vtt";
/// Names up to here, with their variants, are never too long: only beyond are they made to be measured.
const SURELY_SHORT: usize = 120;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let whole = Place::whole_file(machine.file);
        if is_device_name(&machine.id) {
            findings.push(device("machine", &machine.id, whole, "rename the folder"));
        } else if machine.id == TABLES {
            findings.push(
                Finding::new(&PAGE_NAME_IMPOSSIBLE, whole, "a machine can't be called ‘tables’".to_owned())
                    .label("the folder of the tables of all machines has this name")
                    .fix("rename the folder to what the machine is called"),
            );
        }
        for procedure in &machine.procedures {
            findings.extend(of_its_own(procedure));
        }
        beside_others(context.manual, machine, findings);
    }
}

fn device(what: &str, id: &str, place: Place, fix: &str) -> Finding {
    Finding::new(&PAGE_NAME_IMPOSSIBLE, place, format!("a {what} can't be called ‘{id}’"))
        .label("the name of a device of Windows, which no file or folder can have there")
        .fix(format!("{fix}, such as to ‘{id}-work’"))
}

/// What is wrong with the name of a procedure, whatever else there is.
fn of_its_own(procedure: &Procedure) -> Option<Finding> {
    let place = Place::whole_file(procedure.file);
    if let Some((name, what)) = TAKEN.iter().find(|(name, _)| *name == procedure.id) {
        return Some(
            Finding::new(&PAGE_NAME_IMPOSSIBLE, place, format!("a procedure can't be called ‘{name}’"))
                .label(format!("{what} has this name"))
                .fix("rename the file to what is done in it"),
        );
    }
    if is_device_name(&procedure.id) {
        return Some(device("procedure", &procedure.id, place, "rename the file"));
    }
    let bytes = procedure.id.len() + ENDING.len();
    (bytes > LONGEST).then(|| too_long(place, "the procedure's name", bytes, ENDING).fix(format!("shorten it to at most {} letters", LONGEST - ENDING.len())))
}

fn too_long(place: Place, what: &str, bytes: usize, ending: &str) -> Finding {
    Finding::new(&PAGE_NAME_IMPOSSIBLE, place, format!("{what} is too long"))
        .label("no file can have the names of its pages")
        .figure(format!("{bytes} bytes with ‘{ending}’ behind it; {LONGEST} are let through"))
}

/// A name that is taken, by the page of which procedure, and what that page is.
struct Holder {
    procedure: usize,
    what: &'static str,
}

/// Names that two pages of a machine would have.
fn beside_others(manual: &Manual, machine: &Machine, findings: &mut Vec<Finding>) {
    let alike = machine.axes.iter().any(has_values_alike);
    let longest: usize = machine.axes.iter().map(|axis| axis.values.iter().map(|value| value.name.len() + 1).max().unwrap_or(0)).sum();
    let mut taken: BTreeMap<String, Holder> = BTreeMap::new();
    for (index, procedure) in machine.procedures.iter().enumerate() {
        taken.insert(procedure.id.to_lowercase(), Holder { procedure: index, what: "page" });
    }
    for (index, procedure) in machine.procedures.iter().enumerate() {
        // A name that is too long by itself was told.
        if procedure.id.len() + ENDING.len() > LONGEST {
            continue;
        }
        // Working out the sheets takes time: only where a name may be taken or be too long.
        let begins = |with: &str| {
            let start = format!("{}{with}", procedure.id);
            taken.range(start.clone()..).next().is_some_and(|(name, _)| name.starts_with(&start))
        };
        if !(alike || procedure.id.len() + longest > SURELY_SHORT || begins("-sheet") || begins("-board-")) {
            continue;
        }
        for (name, what) in beside(manual, machine, procedure) {
            let bytes = name.len() + ".html".len();
            if bytes > LONGEST {
                findings.push(too_long(Place::whole_file(procedure.file), &format!("the name of its {what}"), bytes, ".html").fix("shorten the procedure's name, or those of the variants"));
                break;
            }
            match taken.get(&name.to_lowercase()) {
                Some(holder) => {
                    findings.extend(clash(machine, index, what, holder, &name));
                    break;
                }
                None => drop(taken.insert(name.to_lowercase(), Holder { procedure: index, what })),
            }
        }
    }
}

/// The pages that a procedure has beside its own: their names, and what they are.
fn beside(manual: &Manual, machine: &Machine, procedure: &Procedure) -> Vec<(String, &'static str)> {
    let sheets = sheet_variants(manual, machine, procedure).into_iter().map(|combination| {
        let values: Vec<&str> = machine.axes.iter().filter_map(|axis| combination.0.get(&axis.name)).map(String::as_str).collect();
        (sheet_name(&procedure.id, &values), "sheet")
    });
    let scope: Scope<'_> = manual.scope(machine, procedure);
    let boards = placed_fasteners(scope, procedure).into_iter().map(|thing| (board_name(&procedure.id, &thing.id), "board"));
    sheets.chain(boards).collect()
}

/// Whether two values of an axis are one in the name of a file.
fn has_values_alike(axis: &Axis) -> bool {
    let mut names: Vec<String> = axis.values.iter().map(|value| file_name_part(&value.name).to_lowercase()).collect();
    names.sort();
    names.windows(2).any(|pair| pair.first() == pair.last())
}

fn clash(machine: &Machine, index: usize, what: &str, holder: &Holder, name: &str) -> Option<Finding> {
    let (procedure, other) = (machine.procedures.get(index)?, machine.procedures.get(holder.procedure)?);
    if index == holder.procedure {
        return Some(
            Finding::new(&PAGE_NAME_IMPOSSIBLE, Place::whole_file(procedure.file), format!("two sheets of ‘{}’ would both be ‘{name}’", procedure.id))
                .label("capitals and signs make no other name")
                .fix("give the values of the machine's variants names that differ by letters or figures"),
        );
    }
    Some(
        Finding::new(&PAGE_NAME_IMPOSSIBLE, Place::whole_file(other.file), format!("the {} of ‘{}’ and the {what} of ‘{}’ would both be ‘{name}’", holder.what, other.id, procedure.id))
            .label("one of two pages of one name")
            .related(Place::whole_file(procedure.file), format!("its {what} has the name already"))
            .fix("rename the file to what is done in it"),
    )
}
