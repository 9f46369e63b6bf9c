//! Why something is made anew: which of the things it was made from is another now.

use std::collections::BTreeMap;
use std::fmt;

/// A reason to make something anew.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Cause {
    /// No run of this program has left anything of it.
    Unknown,
    /// A file was changed.
    Changed(String),
    /// A file was added.
    Added(String),
    /// A file was removed.
    Removed(String),
    /// Where a link to another machine leads was changed in what the link shows of it.
    Linked(String),
    /// The earlier values it is compared with.
    Against,
    /// A theme of one's own.
    Theme,
    /// From proof copy to publishing, or back.
    Proof,
    /// What was found, and is printed on it.
    Told,
    /// A published file of it is gone, or another hand was at it.
    Touched(String),
    /// What was kept of it can't be read.
    NotKept,
    /// A machine's contribution.
    Machine(String),
    /// The whole manual has become a book, or too large for one.
    Book,
    /// There is a machine more or less.
    Machines,
}

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown => f.write_str("no earlier run of this program left anything of it"),
            Self::Changed(file) => write!(f, "{file} changed"),
            Self::Added(file) => write!(f, "{file} was added"),
            Self::Removed(file) => write!(f, "{file} was removed"),
            Self::Linked(target) => write!(f, "{target}, which it links to, changed its name or its number"),
            Self::Against => f.write_str("the values it is compared with changed"),
            Self::Theme => f.write_str("the theme changed"),
            Self::Proof => f.write_str("it was made as a proof copy before, or is now"),
            Self::Told => f.write_str("what is found or waived there changed"),
            Self::Touched(path) => write!(f, "{path} is not as it was published"),
            Self::NotKept => f.write_str("what was kept of it could not be read"),
            Self::Machine(machine) => write!(f, "{machine} was made anew"),
            Self::Book => f.write_str("the whole manual became a book, or too large for one"),
            Self::Machines => f.write_str("a machine was added or removed"),
        }
    }
}

/// What is another between two maps from names to fingerprints; nothing for a name counts as not there.
pub(super) fn differences(before: &BTreeMap<String, String>, now: &BTreeMap<String, String>) -> Vec<Cause> {
    fn print<'m>(map: &'m BTreeMap<String, String>, name: &str) -> &'m str {
        map.get(name).map_or("", String::as_str)
    }
    let mut names: Vec<&String> = before.keys().chain(now.keys()).collect();
    names.sort();
    names.dedup();
    let cause = |name: &String| match (print(before, name), print(now, name)) {
        (before, now) if before == now => None,
        ("", _) => Some(Cause::Added(name.clone())),
        (_, "") => Some(Cause::Removed(name.clone())),
        _ => Some(Cause::Changed(name.clone())),
    };
    names.into_iter().filter_map(cause).collect()
}

/// Several causes in one line.
pub(super) fn told(causes: &[Cause]) -> String {
    const MOST: usize = 5;
    let mut words: Vec<String> = causes.iter().take(MOST).map(Cause::to_string).collect();
    if causes.len() > MOST {
        words.push(format!("and {} more", causes.len() - MOST));
    }
    words.join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_is_named() {
        let map = |pairs: &[(&str, &str)]| pairs.iter().map(|(name, print)| ((*name).to_owned(), (*print).to_owned())).collect();
        let (before, now) = (map(&[("a", "1"), ("b", "1"), ("c", "1"), ("e", "")]), map(&[("a", "1"), ("b", "2"), ("d", "1")]));
        let words = told(&differences(&before, &now));
        assert_eq!(words, "b changed; c was removed; d was added");
        assert_eq!(told(&vec![Cause::Theme; 7]), "the theme changed; the theme changed; the theme changed; the theme changed; the theme changed; and 2 more");
    }
}
