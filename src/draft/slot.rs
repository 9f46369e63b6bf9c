//! A slot: an entry of a list whose fields are values, holes, or both in a comment.

use super::yaml::{comment, hole};
use crate::trade::friction::ThreadCondition;

/// An entry of a list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Slot {
    pub(super) id: String,
    /// Questions that stand above it.
    pub(super) questions: Vec<String>,
    /// Keys, what stands behind them, and a question behind that.
    fields: Vec<(&'static str, String, &'static str)>,
}

impl Slot {
    pub(super) fn new(id: impl Into<String>) -> Self {
        Self { id: id.into(), ..Self::default() }
    }

    pub(super) fn ask(&mut self, question: impl Into<String>) {
        self.questions.push(question.into());
    }

    /// A field with its value, quoted where it must be.
    pub(super) fn set(&mut self, key: &'static str, value: impl Into<String>) {
        self.fields.push((key, value.into(), ""));
    }

    /// A field that nobody has answered.
    pub(super) fn open(&mut self, key: &'static str, question: &'static str) {
        self.fields.push((key, hole(""), question));
    }

    /// The condition of its threads. One that wants something put on stays a question until a step does that.
    pub(super) fn threads(&mut self, condition: ThreadCondition) {
        let word = condition.word();
        if matches!(condition, ThreadCondition::Dry | ThreadCondition::AsSupplied) {
            self.set("threads", word);
        } else {
            let known = format!("{word}: let an apply: act put it on first, then write {word} here");
            self.set("threads", hole(&known));
        }
    }

    pub(super) fn has(&self, key: &str) -> bool {
        self.fields.iter().any(|(known, _, _)| *known == key)
    }

    /// Its lines in a front matter.
    pub(super) fn write(&self, out: &mut String) {
        for question in &self.questions {
            out.push_str(&comment(2, question));
            out.push('\n');
        }
        out.push_str(&format!("  {}:\n", self.id));
        for (key, value, question) in &self.fields {
            let line = format!("    {key}: {value}");
            let line = if question.is_empty() { line } else { format!("{line:<28} # {question}") };
            out.push_str(&line);
            out.push('\n');
        }
    }
}

/// The questions that every fastener is asked, in one place.
pub(super) mod asked {
    pub(crate) const NAME: &str = "what do people call it?";
    pub(crate) const COUNT: &str = "how many are in place when the work is done?";
    pub(crate) const THREAD: &str = "thread with its pitch: M8x1.25, 1/4-20 UNC";
    pub(crate) const CLASS: &str = "the mark on its head: 8.8, 10.9, A2-70; of a nut 8, 10; or take the key out";
    pub(crate) const ROLE: &str = "clamp, drive, cover, shaft-nut, plug, angle, soft or adjuster";
    pub(crate) const THREADS: &str = "what the value holds for: dry, oiled, locker, anti-seize, moly, as-supplied";
    pub(crate) const TORQUE: &str = "with its unit: 24 N·m; stages as a list: [20 N·m, 90°]";
    pub(crate) const DRIVE: &str = "what turns it: 13 mm hex";
    pub(crate) const HOLDS: &str = "ids of the parts it clamps: [cover]; or take the key out";
    pub(crate) const LAYOUT: &str = "where they sit: {circle: 6}, {rows: [4, 4]}; or order:; one alone: take the key out";
    pub(crate) const TOOL: &str = "id of the wrench; without the key the best one of the shop is named";
    pub(crate) const HOLD: &str = "id of what holds the shaft";
    pub(crate) const LOCK: &str = "staked, tab-washer, lock-washer, lock-wire, cotter, prevailing, none";
    pub(crate) const REUSE: &str = "never, inspect (with when:) or yes";
    pub(crate) const SOURCE: &str = "id of the document you read it in (under sources:)";
    pub(crate) const KIND: &str = "maker, kit, vendor, measured, size-table or practice";
}
