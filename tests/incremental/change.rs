//! One edit of a manual done to a manual or to what a run left: numbers choose among what is there.

use crate::edit::Edit;
use crate::trial::{KEPT, PHOTOGRAPH, Trial, files, photograph, picked, put};
use std::fs;

impl Trial {
    /// Does it; what can't be done is left.
    pub(crate) fn do_one(&mut self, edit: &Edit) {
        match edit {
            Edit::Digit(file, at, digit) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change_digit(path, *at, *digit);
                }
            }
            Edit::Shared(at, digit) => self.change_digit("shop.yaml", *at, *digit),
            Edit::Word(file, at) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change(path, |text| {
                        let found: Vec<usize> = text.match_indices(" the ").map(|(at, _)| at).collect();
                        let at = *picked(&found, *at)?;
                        Some(format!("{} that {}", &text[..at], &text[at + 5..]))
                    });
                }
            }
            Edit::LineGone(file, at) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change(path, |text| {
                        let lines: Vec<&str> = text.lines().collect();
                        let gone = at % lines.len().max(1);
                        Some(lines.iter().enumerate().filter(|(index, _)| *index != gone).map(|(_, line)| format!("{line}\n")).collect())
                    });
                }
            }
            Edit::Heading(file, at, id) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    self.change(path, |text| {
                        let heads: Vec<&str> = text.lines().filter(|line| line.starts_with("## ")).collect();
                        let head = *picked(&heads, *at)?;
                        let new = if *id { head.replacen("{#", "{#x", 1) } else { head.replacen("## ", "## Now: ", 1) };
                        Some(text.replacen(head, &new, 1))
                    });
                }
            }
            Edit::Back(file) => {
                let all: Vec<(&String, &Vec<u8>)> = self.original.iter().collect();
                if let Some((path, bytes)) = picked(&all, *file) {
                    put(&self.manual(), path, bytes);
                }
            }
            Edit::AllBack => self.all_back(),
            Edit::Renamed(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::rename(self.manual().join(path), self.manual().join(path.replace(".md", "-b.md"))).unwrap();
                }
            }
            Edit::Gone(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::remove_file(self.manual().join(path)).unwrap();
                }
            }
            Edit::Twice(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::copy(self.manual().join(path), self.manual().join(path.replace(".md", "-c.md"))).unwrap();
                }
            }
            Edit::MachineGone(machine) => {
                if let Some(machine) = picked(&self.machines(), *machine) {
                    fs::remove_dir_all(self.manual().join(machine)).unwrap();
                }
            }
            Edit::MachineTwice(machine) => {
                if let Some(machine) = picked(&self.machines(), *machine).filter(|_| self.machines().len() < 4) {
                    for (path, bytes) in files(&self.manual().join(machine)) {
                        put(&self.manual(), &format!("{machine}-b/{path}"), &bytes);
                    }
                }
            }
            Edit::Link(file, to) => {
                let (from, to) = (picked(&self.procedures(), *file).cloned(), picked(&self.procedures(), *to).cloned());
                if let (Some(from), Some(to)) = (from, to) {
                    let target = fs::read_to_string(self.manual().join(&to)).unwrap();
                    let step = target.split("{#").nth(1).and_then(|rest| rest.split([' ', '}']).next()).unwrap_or("none").to_owned();
                    self.change(&from, |text| Some(format!("{text}\nMore stands in [the other]({}).\n", format_args!("see:{}#{step}", to.trim_end_matches(".md")))));
                }
            }
            Edit::Fault(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    self.change(path, |text| Some(text.replacen("(torque:", "(torque:no-such-", 1)));
                }
            }
            Edit::Picture(file) => {
                let pictures: Vec<String> = files(&self.manual()).into_keys().filter(|path| path.ends_with(".svg")).collect();
                if let Some(path) = picked(&pictures, *file) {
                    self.change(path, |text| Some(text.replacen("</svg>", "<!-- again --></svg>", 1)));
                }
            }
            Edit::Photograph(kind) => {
                let good = photograph(300 + 10 * u32::from(*kind));
                match kind {
                    0 => drop(fs::remove_file(self.manual().join(PHOTOGRAPH))),
                    1 => put(&self.manual(), PHOTOGRAPH, &good[..good.len() / 2]),
                    _ => put(&self.manual(), PHOTOGRAPH, &good),
                }
            }
            Edit::Theme(kind) => {
                let with = |text: &str| format!("{}theme: look\n", text.replace("theme: look\n", ""));
                put(&self.manual(), "look/styles/page.css", format!("body {{ margin: {kind}px }}\n").as_bytes());
                if *kind == 0 {
                    fs::remove_dir_all(self.manual().join("look")).unwrap();
                    self.change("manual.yaml", |text| Some(text.replace("theme: look\n", "")));
                } else {
                    self.change("manual.yaml", |text| Some(with(text)));
                }
            }
            Edit::Scribbled(_) | Edit::Cut(_) | Edit::Lost(_) => self.damage(edit),
            Edit::KeptDamaged(file, at) => {
                let kept = self.site().join(KEPT);
                let names: Vec<String> = files(&kept).into_keys().collect();
                if let Some(name) = picked(&names, *file) {
                    let mut bytes = fs::read(kept.join(name)).unwrap();
                    let at = at % bytes.len().max(1);
                    if let Some(byte) = bytes.get_mut(at) {
                        *byte = byte.wrapping_add(1);
                    }
                    fs::write(kept.join(name), bytes).unwrap();
                }
            }
            Edit::KeptGone => drop(fs::remove_dir_all(self.site().join(KEPT))),
            Edit::Foreign(kind) => {
                if self.site().exists() {
                    put(&self.site(), &format!("tables/own-{kind}.txt"), b"mine");
                }
            }
            Edit::RecordGone(record) => {
                if let Some(path) = picked(&self.records(), *record) {
                    fs::remove_file(self.manual().join(path)).unwrap();
                }
            }
            Edit::RecordTwice(record) => {
                if let Some(path) = picked(&self.records(), *record) {
                    fs::copy(self.manual().join(path), self.manual().join(path.replace(".json", "-b.json"))).unwrap();
                }
            }
            Edit::RecordOf(record, of) => {
                let of = ["tarn-18", "hb-2", "hb-2-b", "nobodys"][usize::from(*of)];
                if let Some(path) = picked(&self.records(), *record) {
                    self.change(path, |text| {
                        let now = text.lines().find(|line| line.trim_start().starts_with("\"machine\":"))?;
                        Some(text.replacen(now, &format!(" \"machine\": \"{of}\","), 1))
                    });
                }
            }
            Edit::Address(has) => self.change("manual.yaml", |text| {
                let without: String = text.lines().filter(|line| !line.starts_with("address:")).map(|line| format!("{line}\n")).collect();
                Some(if *has { format!("{without}address: https://manual.example/bench\n") } else { without })
            }),
            Edit::Program(version) => self.program = *version,
        }
    }

    fn damage(&self, edit: &Edit) {
        let published: Vec<String> = files(&self.site()).into_keys().filter(|path| !path.contains(".benchleaf-") && !path.starts_with('.')).collect();
        let (Edit::Scribbled(file) | Edit::Cut(file) | Edit::Lost(file)) = edit else { return };
        let Some(path) = picked(&published, *file).map(|path| self.site().join(path)) else { return };
        let mut bytes = fs::read(&path).unwrap();
        match edit {
            Edit::Lost(_) => fs::remove_file(&path).unwrap(),
            Edit::Cut(_) => fs::write(&path, &bytes[..bytes.len() / 2]).unwrap(),
            _ => {
                if let Some(byte) = bytes.last_mut() {
                    *byte = if *byte == b' ' { b'\n' } else { b' ' };
                }
                fs::write(&path, bytes).unwrap();
            }
        }
    }
}
