//! The steps of a draft: stable ids, moments, questions, and acts on the slots above.

use super::yaml::one_line;

/// An empty step.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct StepStart {
    pub(super) id: String,
    /// What is known of its heading.
    pub(super) title: Option<String>,
    /// The variants it is for, as `for=` has them; empty for all.
    pub(super) only: String,
    /// Its moment or span in the recording, as `at=` has it.
    pub(super) at: Option<String>,
    /// Questions, a paragraph each.
    pub(super) questions: Vec<String>,
    /// Ids of fasteners that are tightened in it, nobody knows yet in which words; and whether their thread is left-hand,
    /// which the words have to say.
    pub(super) tightened: Vec<(String, bool)>,
    /// Other acts, as they are written.
    pub(super) acts: Vec<String>,
}

impl StepStart {
    pub(super) fn new(id: impl Into<String>, questions: &[&str]) -> Self {
        Self { id: id.into(), questions: questions.iter().map(|question| (*question).to_owned()).collect(), ..Self::default() }
    }

    pub(super) fn write(&self, out: &mut String) {
        let at = self.at.as_ref().map_or_else(String::new, |at| format!(" at={at}"));
        let only = if self.only.is_empty() { String::new() } else { format!(" for={}", self.only) };
        let title = self.title.as_ref().map_or_else(String::new, |title| format!("{} ", plain(title)));
        out.push_str(&format!("\n## ? {title}{{#{}{at}{only}}}\n", self.id));
        for question in &self.questions {
            out.push_str(&format!("\n? {}\n", plain(question)));
        }
        if !self.acts.is_empty() {
            out.push_str(&format!("\n{}\n", self.acts.join("\n")));
        }
        if !self.tightened.is_empty() {
            let acts: Vec<String> = self.tightened.iter().map(|(id, left_hand)| format!("[?{}](torque:{id})", if *left_hand { " anticlockwise: its thread is left-hand" } else { "" })).collect();
            out.push_str(&format!("\n{}\n", acts.join("\n")));
        }
    }
}

/// Words that Markdown takes as they are: our own questions hold nothing of others but ids and moments.
fn plain(text: &str) -> String {
    let line = one_line(text, 600);
    let mut out = String::with_capacity(line.len());
    for sign in line.chars() {
        if matches!(sign, '\\' | '`' | '*' | '[' | ']' | '<' | '>' | '#' | '{' | '}' | '|' | '!') {
            out.push('\\');
        }
        out.push(sign);
    }
    out
}
