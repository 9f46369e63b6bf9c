//! A report that can be read: so many findings a file, so many words a finding, whatever the manual.

use crate::finding::{FileId, Finding, Severity};
use crate::source::rules::TOO_MANY_FAULTS;
use std::collections::BTreeMap;

/// Findings shown of one file.
const MOST_OF_A_FILE: usize = 200;

/// Characters of one message, label, figure or fix.
const MOST_WORDS: usize = 600;

/// The findings of a report in reading order, at most [`MOST_OF_A_FILE`] of a file. What is left out is told as one,
/// as grave as the gravest of it.
pub(super) fn bounded(findings: Vec<Finding>) -> Vec<Finding> {
    let mut shown: BTreeMap<FileId, usize> = BTreeMap::new();
    let mut left_out: BTreeMap<FileId, (Finding, Severity)> = BTreeMap::new();
    let mut kept = Vec::new();
    for finding in findings {
        let file = finding.place().file;
        let count = shown.entry(file).or_default();
        *count += 1;
        if *count <= MOST_OF_A_FILE || finding.rule() == &TOO_MANY_FAULTS {
            kept.push(shortened(finding));
        } else {
            let grade = finding.grade();
            let gravest = &mut left_out.entry(file).or_insert((finding, grade)).1;
            *gravest = (*gravest).max(grade);
        }
    }
    // Reading has told of the rest already where it has found too much itself.
    let told = |file: FileId| kept.iter().any(|finding| finding.rule() == &TOO_MANY_FAULTS && finding.place().file == file);
    let more: Vec<Finding> = left_out.into_iter().filter(|(file, _)| !told(*file)).map(|(_, (first, grade))| rest(&first, grade)).collect();
    kept.extend(more);
    kept
}

fn rest(first: &Finding, grade: Severity) -> Finding {
    Finding::new(&TOO_MANY_FAULTS, first.place().clone(), "more faults follow than can be shown")
        .severity(grade)
        .label("from here on nothing is listed")
        .figure(format!("{MOST_OF_A_FILE} faults of this file stand before this place"))
        .fix("mend what is listed above, then inspect again")
}

/// The finding with words cut to what a person reads: a manual may hold an id of a million letters.
fn shortened(finding: Finding) -> Finding {
    if is_short(&finding) {
        return finding;
    }
    let short = Finding::new(finding.rule(), finding.place().clone(), cut(finding.message()))
        .severity(finding.grade())
        .label(cut(finding.label_text()))
        .figures(finding.figure_lines().iter().map(|line| cut(line)))
        .fix(cut(finding.fix_text()));
    let short = finding.related_places().iter().fold(short, |short, (place, what)| short.related(place.clone(), cut(what)));
    match finding.subject() {
        Some(about) => short.about(cut(about)),
        None => short,
    }
}

fn is_short(finding: &Finding) -> bool {
    let words = [finding.message(), finding.label_text(), finding.fix_text(), finding.subject().unwrap_or("")];
    let related = finding.related_places().iter().map(|(_, what)| what.as_str());
    let figures = finding.figure_lines().iter().map(String::as_str);
    words.into_iter().chain(figures).chain(related).all(|words| words.len() <= MOST_WORDS)
}

/// The beginning and the end of what is too long.
fn cut(words: &str) -> String {
    if words.len() <= MOST_WORDS {
        return words.to_owned();
    }
    let head: String = words.chars().take(MOST_WORDS / 2).collect();
    let tail: Vec<char> = words.chars().rev().take(MOST_WORDS / 4).collect();
    head + " … " + &tail.into_iter().rev().collect::<String>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{Explanation, FileTable, Place, Rule};

    static RULE: Rule = Rule {
        name: "some-rule",
        severity: Severity::Warning,
        summary: "",
        explanation: Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" },
    };

    #[test]
    fn what_is_too_much_is_told_as_one() {
        let file = FileTable::default().add("x.md", "x".repeat(1_000));
        let findings: Vec<Finding> = (0..300).map(|at| Finding::new(&RULE, Place::new(file, at..at + 1), "m")).collect();
        let bounded = bounded(findings);
        assert_eq!(bounded.len(), 201);
        let last = bounded.last().unwrap();
        assert_eq!((last.rule().name, last.grade(), last.place().start), ("too-many-faults", Severity::Warning, 200));
    }

    #[test]
    fn long_words_keep_their_ends() {
        let file = FileTable::default().add("x.md", "x");
        let long = format!("a{}é{}z", "b".repeat(100_000), "c".repeat(100_000));
        let finding = Finding::new(&RULE, Place::whole_file(file), long).fix("write it").about("a");
        let short = shortened(finding);
        assert!(short.message().len() < 500 && short.message().starts_with("abb") && short.message().ends_with("cz"));
        assert_eq!((short.fix_text(), short.subject()), ("write it", Some("a")));
    }
}
