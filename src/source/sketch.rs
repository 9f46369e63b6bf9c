//! A quick look at a machine's texts for the few words that links from other machines show: its name, titles, steps.
//!
//! Invariants: a sketch may be wrong where a text is written in an unusual way. Whoever uses it holds it against the machine once
//! that is read, and works anew on whatever hung on it.

use super::MachineTexts;
use super::front::{self, Front};
use crate::finding::FileTable;

/// What a quick look tells of a machine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sketch {
    /// Its name.
    pub name: String,
    /// The procedures, in the order of their files.
    pub procedures: Vec<ProcedureSketch>,
}

/// What a quick look tells of a procedure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProcedureSketch {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The ids of its steps.
    pub steps: Vec<String>,
}

/// A quick look at a machine. None where some of it is not written in the plainest way, or could not be read.
#[must_use]
pub fn sketch(files: &FileTable, texts: &MachineTexts) -> Option<Sketch> {
    let head = texts.head.filter(|head| head.is_whole())?;
    let name = plain(files.text(head.file), "name:")?.to_owned();
    let procedure = |(id, loaded): &(String, super::read::Loaded)| {
        let text = files.text(loaded.file);
        let Front::Head { head, body } = front::find(text) else { return None };
        let title = plain(text.get(head)?, "title:")?.to_owned();
        Some(ProcedureSketch { id: id.clone(), title, steps: steps(text.get(body..)?) })
    };
    Some(Sketch { name, procedures: texts.procedures.iter().map(procedure).collect::<Option<_>>()? })
}

/// The value of a key at the top of a YAML text, where it is written as bare words on one line.
fn plain<'t>(text: &'t str, key: &str) -> Option<&'t str> {
    let mut lines = text.lines().skip_while(|line| !line.starts_with(key));
    let value = lines.next()?.strip_prefix(key)?;
    // What is set in from here on goes on with it.
    let ends = lines.next().is_none_or(|next| next.starts_with(|first: char| first.is_ascii_alphabetic()));
    let value = value.strip_prefix(' ')?.trim();
    let bare = value.starts_with(char::is_alphabetic) && !value.contains([':', '#', '\\', '\t']);
    // A word that YAML takes for something else than text.
    let is_text = !matches!(value.to_ascii_lowercase().as_str(), "true" | "false" | "yes" | "no" | "on" | "off" | "null");
    (ends && bare && is_text).then_some(value)
}

/// The ids in the headings of steps.
fn steps(body: &str) -> Vec<String> {
    let mut steps = Vec::new();
    let mut fence = None;
    for line in body.lines() {
        let mark = line.trim_start().get(..3).filter(|mark| matches!(*mark, "```" | "~~~"));
        match (fence, mark) {
            (None, Some(_)) => fence = mark,
            (Some(open), Some(mark)) if open == mark => fence = None,
            (None, None) => {
                let id = line.strip_prefix("## ").and_then(|words| words.rsplit_once("{#")).map(|(_, braces)| braces);
                steps.extend(id.and_then(|braces| braces.split([' ', '}']).next()).map(str::to_owned));
            }
            _ => {}
        }
    }
    steps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_told_only_where_it_is_bare_words() {
        for (text, value) in [
            ("name: Tarn 18\n", Some("Tarn 18")),
            ("maker: Orrinshaw\nname: Getriebe für Öl  \nkind: gearbox\n", Some("Getriebe für Öl")),
            ("name: \"Tarn\"\n", None),
            ("name: >\n  Tarn\n", None),
            ("name: Tarn\n  18\n", None),
            ("name: Tarn: 18\n", None),
            ("name: Tarn # the old one\n", None),
            ("name: no\n", None),
            ("name:\n", None),
            ("names: Tarn\n", None),
            ("", None),
        ] {
            assert_eq!(plain(text, "name:"), value, "{text:?}");
        }
    }

    #[test]
    fn steps_are_told_by_their_headings_outside_of_code() {
        let body = "# The hub\n\n## Off {#off time=5min}\n\n```yaml\n## Not {#not}\n~~~\n```\n\n## On again {#on}\n### Deeper {#deeper}\n## No id\n";
        assert_eq!(steps(body), ["off", "on"]);
    }
}
