//! What a run leaves for the next: of each machine, what it was made from and what came of it.
//!
//! Invariants: everything that a machine's findings and pages hang on is named here by fingerprint, so that what is as it
//! was can be told from what changed, and the change be named. The state of another program, of another form or of a
//! damaged file is no state: everything is made anew then.

use crate::finding::StoredFinding;
use crate::inspect::Summary;
use crate::manual::Outline;
use crate::output::{Kept, OutputError, Stage};
use crate::source::fingerprint;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The file of the state.
const STATE: &str = "state.json";

/// The form of the state; a program's own hash tells it from others, too.
const VERSION: u32 = 1;

/// The state a run leaves.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct State {
    version: u32,
    /// Hash of the program.
    pub(super) program: String,
    /// What all machines share.
    pub(super) frame: FrameState,
    /// What the pages of all machines were made from, besides the machines' parts.
    pub(super) shared: Option<SharedState>,
    /// The list of values that was published, where it is this state's own.
    pub(super) values: Option<String>,
    /// The machines by id.
    pub(super) machines: BTreeMap<String, MachineState>,
}

/// What all machines share.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct FrameState {
    /// `manual.yaml`.
    pub(super) manual: String,
    /// `shop.yaml`.
    pub(super) shop: String,
}

/// How pages look.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Look {
    /// The files of a theme of one's own.
    pub(super) theme: String,
    /// Whether they are a proof copy.
    pub(super) proof: bool,
    /// What was found and is printed on them.
    pub(super) told: String,
    /// Whether the whole manual is small enough to be a book.
    pub(super) book: bool,
}

/// The pages of all machines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct SharedState {
    pub(super) look: Look,
    pub(super) files: BTreeMap<String, String>,
}

/// A machine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct MachineState {
    /// Its files.
    pub(super) own: BTreeMap<String, String>,
    /// The targets of its links to other machines, with what is shown of each; nothing where one leads nowhere.
    pub(super) linked: BTreeMap<String, String>,
    /// The pictures it shows; nothing for one that is not there.
    pub(super) shown: BTreeMap<String, String>,
    /// The earlier values it was compared with, where they were others than its own.
    pub(super) against: String,
    /// Its values.
    pub(super) values: String,
    pub(super) outline: Outline,
    pub(super) summary: Summary,
    /// What was found in it.
    pub(super) found: Vec<StoredFinding>,
    /// Its pages, where they were made.
    pub(super) pages: Option<PagesState>,
}

/// The pages of a machine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct PagesState {
    pub(super) look: Look,
    /// Its files in the site.
    pub(super) files: BTreeMap<String, String>,
    /// What it contributes to the pages of all machines: the fingerprint of its file of parts.
    pub(super) parts: String,
}

/// What a machine contributes to the pages of all machines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Parts {
    pub(super) pages: Vec<String>,
    /// Its values by path of home, as they stand in the list of values.
    pub(super) values: BTreeMap<String, String>,
}

impl State {
    pub(super) fn new(program: String, frame: FrameState) -> Self {
        Self { version: VERSION, program, frame, ..Self::default() }
    }

    /// The state that an earlier run of this program left. An unknown program has none.
    pub(super) fn read(kept: &Kept, program: &str) -> Option<Self> {
        let state: Self = serde_json::from_slice(&kept.read(STATE)?).ok()?;
        (state.version == VERSION && state.program == program && !program.is_empty()).then_some(state)
    }

    /// Leaves the state for the next run.
    ///
    /// # Errors
    /// Where the disk refuses it: the next run makes more anew then.
    pub(super) fn write(&self, kept: &Kept) -> Result<(), OutputError> {
        if self.program.is_empty() {
            return Ok(());
        }
        // Maps of texts and numbers can't fail to be written.
        kept.write(STATE, &serde_json::to_vec(self).unwrap_or_default())?;
        let parts = self.machines.keys().map(|id| parts_name(id));
        kept.retain(&parts.chain([STATE.to_owned()]).collect())
    }
}

impl Parts {
    /// The parts of a machine as they were left, where they still are those its state speaks of.
    pub(super) fn read(kept: &Kept, id: &str, print: &str) -> Option<Self> {
        Self::from_bytes(&kept.read_as(&parts_name(id), print)?)
    }

    /// Leaves the parts of a machine for the next run, and tells their fingerprint. Until a state speaks of them nobody uses
    /// them; where they can't be left, the next run makes them anew.
    pub(super) fn leave(&self, kept: &Kept, id: &str) -> String {
        let bytes = self.to_bytes();
        kept.write(&parts_name(id), &bytes).unwrap_or_else(|_| fingerprint(&bytes))
    }

    /// Puts the parts of a machine out of memory until all machines have theirs; tells their fingerprint. None where the disk refuses.
    pub(super) fn set_aside(&self, stage: &Stage, id: &str) -> Option<String> {
        let (print, sealed) = Kept::seal(&self.to_bytes());
        stage.set_aside(&Kept::path(&parts_name(id)), &sealed).ok().map(|()| print)
    }

    /// The parts that were set aside; they are left for the next run with that.
    pub(super) fn brought_back(stage: &Stage, id: &str, print: &str) -> Option<Self> {
        let (seal, bytes) = Kept::unsealed(stage.bring_back(&Kept::path(&parts_name(id)))?)?;
        Self::from_bytes(&bytes).filter(|_| seal == print)
    }

    /// A line of lengths, then the texts as they are: there are many of them, and every run reads them.
    fn to_bytes(&self) -> Vec<u8> {
        let lengths = Lengths {
            pages: self.pages.iter().map(String::len).collect(),
            values: self.values.iter().map(|(home, values)| (home.clone(), values.len())).collect(),
        };
        // Texts and numbers can't fail to be written.
        let mut bytes = serde_json::to_vec(&lengths).unwrap_or_default();
        bytes.push(b'\n');
        for text in self.pages.iter().chain(self.values.values()) {
            bytes.extend_from_slice(text.as_bytes());
        }
        bytes
    }

    /// None where they are not as [`Parts::to_bytes`] writes them.
    fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let (head, mut rest) = std::str::from_utf8(bytes).ok()?.split_once('\n')?;
        let lengths: Lengths = serde_json::from_str(head).ok()?;
        let mut next = |length: usize| {
            let (text, behind) = rest.split_at_checked(length)?;
            rest = behind;
            Some(text.to_owned())
        };
        let pages = lengths.pages.into_iter().map(&mut next).collect::<Option<_>>()?;
        let values = lengths.values.into_iter().map(|(home, length)| Some((home, next(length)?))).collect::<Option<_>>()?;
        rest.is_empty().then_some(Self { pages, values })
    }
}

/// How long each text of a machine's parts is, in bytes.
#[derive(Serialize, Deserialize)]
struct Lengths {
    pages: Vec<usize>,
    values: Vec<(String, usize)>,
}

/// A machine's id may be anything that a folder can be called.
fn parts_name(id: &str) -> String {
    let digits: String = fingerprint(id.as_bytes()).chars().take(32).collect();
    format!("machine-{digits}.parts")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_come_back_as_they_were_left() {
        let values = BTreeMap::from([("axle".to_owned(), "{}".to_owned()), ("axle/hub\n".to_owned(), String::new())]);
        let parts = Parts { pages: vec!["<p>24 N·m</p>\n".to_owned(), String::new(), "\n\n".to_owned()], values };
        let bytes = parts.to_bytes();
        assert_eq!(Parts::from_bytes(&bytes), Some(parts));
        assert_eq!(Parts::from_bytes(&Parts::default().to_bytes()), Some(Parts::default()));
        // Neither more nor less of it, nor cut within a sign.
        assert_eq!(Parts::from_bytes(&[bytes.as_slice(), b"x"].concat()), None);
        for length in 0..bytes.len() {
            assert_eq!(Parts::from_bytes(&bytes[..length]), None, "{length} bytes");
        }
        assert_eq!(Parts::from_bytes("{\"pages\":[1],\"values\":[[\"a\",1]]}\n·".as_bytes()), None);
    }
}
