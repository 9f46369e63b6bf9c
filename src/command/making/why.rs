//! `--why`: what was made anew and what happened to each file, and because of what.

use super::cause::{Cause, told};
use crate::output::{Action, Published, WriteReason};
use std::collections::BTreeMap;
use std::path::Path;

/// The causes of a run.
#[derive(Clone, Debug, Default)]
pub(crate) struct Why {
    /// Each machine in the manual's order, and why its pages were made anew; nothing where they were kept.
    pub(super) machines: Vec<(String, Vec<Cause>)>,
    /// Why the pages of all machines were made anew.
    pub(super) shared: Vec<Cause>,
    /// The machine of each file that is a machine's.
    pub(super) owners: BTreeMap<String, usize>,
}

impl Why {
    /// A line for each machine, one for the pages of all machines, and one for each file.
    pub(crate) fn lines(&self, published: &Published, into: &Path) -> String {
        let mut lines = String::new();
        let mut line = |words: String| {
            lines.push_str(&words);
            lines.push('\n');
        };
        for (id, causes) in &self.machines {
            line(made(id, causes));
        }
        line(made("pages of all machines", &self.shared));
        for (path, action) in &published.done {
            let done = match action {
                Action::Write(_) => "written",
                Action::Keep => "kept",
                Action::Remove(_) => "removed",
            };
            let because = self.behind(path, *action).map_or_else(|| action.because().to_owned(), |behind| format!("{}: {behind}", action.because()));
            line(format!("{}: {done}, because {because}", into.join(path).display()));
        }
        lines
    }

    /// What changed behind a file that is written.
    fn behind(&self, path: &str, action: Action) -> Option<String> {
        if !matches!(action, Action::Write(WriteReason::New | WriteReason::Changed | WriteReason::Interrupted)) {
            return None;
        }
        let causes = match self.owners.get(path) {
            Some(owner) => self.machines.get(*owner).map(|(_, causes)| causes.as_slice())?,
            None => &self.shared,
        };
        (!causes.is_empty()).then(|| told(causes))
    }
}

fn made(what: &str, causes: &[Cause]) -> String {
    if causes.is_empty() { format!("{what}: kept, because nothing behind it changed") } else { format!("{what}: made anew, because {}", told(causes)) }
}
