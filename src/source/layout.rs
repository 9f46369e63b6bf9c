//! Which file of a manual's folder is what, and what is said of those that are nothing.

use super::heading::id_or;
use super::spelled_id::is_id;
use super::picture;
use super::read::Reader;
use super::report::excerpt;
use super::rules::{
    FILE_NOT_READABLE, FILE_OUT_OF_PLACE, NAME_NOT_AN_ID, PICTURE_UNREADABLE, RECORD_UNREADABLE, SPECIAL_FILE, SYMBOLIC_LINK_REFUSED,
};
use super::walk::{BUILDS, FileAt, Obstacle, ObstacleKind, Walked};
use crate::finding::{Finding, Rule};
use std::collections::BTreeMap;

/// Which file is what.
#[derive(Default)]
pub(super) struct Layout {
    pub(super) shop: Option<FileAt>,
    pub(super) machines: BTreeMap<String, MachineFiles>,
    pub(super) pictures: Vec<FileAt>,
}

#[derive(Default)]
pub(super) struct MachineFiles {
    pub(super) head: Option<FileAt>,
    pub(super) procedures: Vec<(String, FileAt)>,
    pub(super) records: Vec<(String, FileAt)>,
}

impl MachineFiles {
    /// Every file: the head, the procedures, the records.
    pub(super) fn all(&self) -> impl Iterator<Item = &FileAt> {
        self.head.iter().chain(self.procedures.iter().chain(&self.records).map(|(_, file)| file))
    }
}

impl Reader {
    pub(super) fn sort(&mut self, walked: Walked) -> Layout {
        let mut layout = Layout::default();
        let folders = walked.folders;
        let mut records = Vec::new();
        for file in walked.files {
            let parts: Vec<String> = file.parts().into_iter().map(str::to_owned).collect();
            let Some(own) = parts.last() else { continue };
            if let [machine, folder, name] = parts.as_slice()
                && folder == BUILDS
            {
                // Notes and pictures may lie beside records; they are nobody's.
                if let Some(id) = name.strip_suffix(".json") {
                    records.push((machine.clone(), id.to_owned(), file));
                }
                continue;
            }
            if picture::format_of_name(own).is_some() {
                layout.pictures.push(file);
                continue;
            }
            match parts.as_slice() {
                [name] => self.sort_root(name, file, &folders, &mut layout),
                [machine, name] if name == "machine.yaml" => {
                    layout.machines.entry(machine.clone()).or_default().head = Some(file);
                }
                [machine, name] if name.ends_with(".md") => {
                    let id = name.strip_suffix(".md").unwrap_or(name).to_owned();
                    self.check_id(&id, ".md", &file);
                    layout.machines.entry(machine.clone()).or_default().procedures.push((id, file));
                }
                _ => self.out_of_place(&file),
            }
        }
        self.sort_records(records, &mut layout);
        let names: Vec<String> = layout.machines.keys().cloned().collect();
        for machine in names {
            self.check_machine(&machine);
        }
        layout
    }

    /// Records belong to a machine that is there, and have a name that a page can have.
    fn sort_records(&mut self, records: Vec<(String, String, FileAt)>, layout: &mut Layout) {
        for (machine, id, file) in records {
            match layout.machines.get_mut(&machine) {
                Some(files) if is_id(&id) => files.records.push((id, file)),
                found => {
                    let place = self.about(&file.name);
                    let fault = |message: String| Finding::new(&RECORD_UNREADABLE, place.clone(), message).label("left out");
                    self.report.add(match found {
                        Some(_) => fault(format!("‘{}’ can't be the name of a record", excerpt(&id))).fix(format!("rename the file to ‘{}.json’", id_or(&id, "record-name"))),
                        None => fault(format!("there is no machine ‘{}’ that this record could be of", excerpt(&machine))).fix("move it into the builds/ of its machine"),
                    });
                }
            }
        }
    }

    fn sort_root(&mut self, name: &str, file: FileAt, folders: &[String], layout: &mut Layout) {
        let lower = name.to_lowercase();
        let known = ["readme", "license", "licence", "changelog", "copying", "notice"];
        match name {
            "manual.yaml" => {}
            "shop.yaml" => layout.shop = Some(file),
            _ if known.iter().any(|start| lower.starts_with(start)) => {}
            _ if lower.ends_with(".md") => {
                let machine = folders.iter().find(|folder| !folder.contains('/')).map_or("MACHINE", String::as_str);
                let place = self.about(&file.name);
                self.report.add(
                    Finding::new(
                        &FILE_OUT_OF_PLACE,
                        place,
                        format!("the procedure ‘{}’ stands outside every machine's folder", excerpt(name)),
                    )
                    .label("left out of the manual")
                    .fix(format!("move it into its machine's folder, such as ‘{machine}/{name}’")),
                );
            }
            _ => self.out_of_place(&file),
        }
    }

    fn out_of_place(&mut self, file: &FileAt) {
        let parts = file.parts();
        let own = parts.last().copied().unwrap_or("");
        let lower = own.to_lowercase();
        if picture::is_other_picture(own) {
            let place = self.about(&file.name);
            self.report.add(
                Finding::new(
                    &PICTURE_UNREADABLE,
                    place,
                    format!("‘{}’ is of a format that a manual does not hold", excerpt(own)),
                )
                .label("neither JPEG, PNG, WebP nor SVG")
                .fix("save it as JPEG or PNG, a drawing as SVG"),
            );
            return;
        }
        let message = format!("nothing in a manual is called ‘{}’ here", excerpt(own));
        let fix = match lower.as_str() {
            "machine.yml" | "machine.yaml" if parts.len() == 2 => {
                format!("rename it to ‘{}/machine.yaml’", parts.first().copied().unwrap_or(""))
            }
            "machine.yaml" => "machine.yaml stands directly in a machine's folder: ‘tarn-18/machine.yaml’".to_owned(),
            "shop.yml" | "shop.yaml" => {
                "the shop's file is called ‘shop.yaml’ and stands beside manual.yaml".to_owned()
            }
            "manual.yml" | "manual.yaml" => "there is one manual.yaml, in the manual's own folder".to_owned(),
            _ if lower.ends_with(".md") && parts.len() > 2 => {
                format!(
                    "procedures stand directly in their machine's folder: ‘{}/{own}’",
                    parts.first().copied().unwrap_or("")
                )
            }
            _ if lower.ends_with(".md") || lower.ends_with(".markdown") => {
                "a procedure's name ends in ‘.md’, in small letters".to_owned()
            }
            _ => "remove it, keep it outside the manual's folder, or begin its name with a dot to have it passed over"
                .to_owned(),
        };
        let place = self.about(&file.name);
        self.report.add(Finding::new(&FILE_OUT_OF_PLACE, place, message).label("left out of the manual").fix(fix));
    }

    fn check_id(&mut self, id: &str, ending: &str, file: &FileAt) {
        if is_id(id) {
            return;
        }
        let place = self.about(&file.name);
        self.report.add(
            Finding::new(&NAME_NOT_AN_ID, place, format!("‘{}’ can't be the id of a procedure", excerpt(id)))
                .label(not_an_id(id))
                .fix(renamed("file", id, "procedure-name", ending)),
        );
    }

    fn check_machine(&mut self, machine: &str) {
        if is_id(machine) {
            return;
        }
        let place = self.about(machine);
        self.report.add(
            Finding::new(&NAME_NOT_AN_ID, place, format!("‘{}’ can't be the id of a machine", excerpt(machine)))
                .label(not_an_id(machine))
                .fix(renamed("folder", machine, "machine-name", "")),
        );
    }

    pub(super) fn obstacles(&mut self, obstacles: &[Obstacle]) {
        for obstacle in obstacles {
            let place = self.about(&obstacle.name);
            let name = excerpt(&obstacle.name);
            let fault =
                |rule: &'static Rule, message: String| Finding::new(rule, place.clone(), message).label("not read");
            let finding = match &obstacle.kind {
                ObstacleKind::LinkOut(_) => {
                    fault(&SYMBOLIC_LINK_REFUSED, format!("the link ‘{name}’ leads out of the manual's folder"))
                        .fix("copy what it leads to into the manual, in place of the link")
                }
                ObstacleKind::LinkLoop => {
                    fault(&SYMBOLIC_LINK_REFUSED, format!("the link ‘{name}’ leads back to where it stands"))
                        .fix("remove the link")
                }
                ObstacleKind::LinkBroken => {
                    fault(&SYMBOLIC_LINK_REFUSED, format!("the link ‘{name}’ leads to nothing"))
                        .fix("remove the link, or put the file itself there")
                }
                ObstacleKind::LinkToFolder => {
                    fault(&SYMBOLIC_LINK_REFUSED, format!("the link ‘{name}’ leads to a folder"))
                        .fix("refer to the pictures where they are, ‘../MACHINE/pictures/…’, and remove the link")
                }
                ObstacleKind::Special => fault(&SPECIAL_FILE, format!("‘{name}’ is neither a file nor a folder"))
                    .fix("remove it from the manual's folder"),
                ObstacleKind::TooDeep => fault(&FILE_OUT_OF_PLACE, format!("‘{name}’ lies too many folders deep"))
                    .fix("move it up: MACHINE/pictures/… is as deep as a manual goes"),
                ObstacleKind::Refused(why) => fault(&FILE_NOT_READABLE, format!("‘{name}’ can't be opened"))
                    .figure(why.clone())
                    .fix("allow reading it, or remove it"),
            };
            self.report.add(finding);
        }
    }
}

/// What keeps a name from being an id. A blank at an end can't be seen.
fn not_an_id(name: &str) -> &'static str {
    if name.trim() == name { "not lower-case words joined by hyphens" } else { "begins or ends with a blank; an id is lower-case words joined by hyphens" }
}

/// What a file or folder is better called, where its name has letters that can stand in an id.
fn renamed(what: &str, name: &str, otherwise: &str, ending: &str) -> String {
    let id = id_or(name, "");
    if id.is_empty() {
        return format!("rename the {what} in letters a–z and figures: ‘{otherwise}{ending}’; what readers see may stay as it is");
    }
    let blank = if name.trim() == id { ", without the blank" } else { "" };
    format!("rename the {what} to ‘{id}{ending}’{blank}")
}
