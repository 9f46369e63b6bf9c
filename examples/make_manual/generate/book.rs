//! A machine while it is written: what its procedures share, its film, and the procedures so far.

use super::random::Random;
use std::collections::BTreeMap;

/// The lists of a front matter in the order of the format.
const ORDER: [&str; 17] = [
    "kits", "fasteners", "seals", "bearings", "parts", "shafts", "stacks", "heats", "beads", "measures", "shims", "waits", "fills", "aligns",
    "turns", "tests", "figures",
];

/// Lists of entries, each entry its YAML without indentation.
#[derive(Default)]
pub(super) struct Lists(BTreeMap<&'static str, Vec<String>>);

impl Lists {
    pub(super) fn add(&mut self, list: &'static str, entry: String) {
        self.0.entry(list).or_default().push(entry);
    }

    pub(super) fn yaml(&self) -> String {
        let mut text = String::new();
        for list in ORDER {
            if let Some(entries) = self.0.get(list) {
                text += &format!("{list}:\n");
                text.extend(entries.iter().map(|entry| format!("  {entry}\n")));
            }
        }
        text
    }
}

/// The third axis of a machine, if it has one.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum ThirdAxis {
    None,
    Water,
    Plates,
}

/// A page of another machine, to link to.
#[derive(Clone)]
pub(super) struct Abroad {
    pub(super) machine: String,
    pub(super) page: String,
    pub(super) title: String,
}

/// A machine in the making.
pub(super) struct Book<'r> {
    pub(super) random: &'r mut Random,
    pub(super) id: String,
    pub(super) axis: ThirdAxis,
    /// Pages of machines written before.
    pub(super) abroad: &'r [Abroad],
    pub(super) shared: Lists,
    pub(super) changes: Vec<String>,
    pub(super) files: BTreeMap<String, String>,
    pub(super) pages: Vec<Abroad>,
    /// What the last two pages are to look at: links to the steps that finished something.
    pub(super) finished: Vec<String>,
    /// Stations whose lever travel is set again at the end.
    pub(super) travels: Vec<String>,
    /// Seconds of the film told so far.
    pub(super) film: u32,
    pub(super) silent: Vec<String>,
    /// Every second procedure has a drawing.
    pub(super) draws: bool,
    /// What the next page comes after.
    pub(super) after: Vec<String>,
}

/// `1:24:30` or `8:05`.
pub(super) fn moment(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours > 0 { format!("{hours}:{minutes:02}:{seconds:02}") } else { format!("{minutes}:{seconds:02}") }
}
