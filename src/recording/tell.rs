//! Telling a comparison and gaps: as text for people, as JSON for scripts, both with their moments.

use super::compare::{Comparison, Difference, ListedValue, Said};
use super::gaps::Gap;
use crate::finding::visible;
use serde_json::{Value, json};
use std::fmt::Display;

fn line(text: &mut String, words: impl Display) {
    let words = words.to_string();
    // A heading has an empty line above it. A line's end anywhere else is an author's, and begins no line of the report.
    let below = words.strip_prefix('\n');
    text.push_str(if below.is_some() { "\n" } else { "" });
    text.push_str(&visible(below.unwrap_or(&words)));
    text.push('\n');
}

/// A comparison in words. `title` names the procedure, `captions` the file.
#[must_use]
pub fn comparison_text(comparison: &Comparison, title: &str, captions: &str) -> String {
    let mut text = String::new();
    line(&mut text, format!("{title}, beside {captions}: {} heard, {} as listed", comparison.heard, comparison.agreed));
    if comparison.elsewhere > 0 {
        line(&mut text, format!("{} more in parts of the recording that belong to other procedures", comparison.elsewhere));
    }
    section(&mut text, "Said differently", &comparison.differently, |difference| {
        let mut lines = vec![said(&difference.said), format!("        listed: {}", listed(&difference.listed))];
        lines.push(if difference.corrected {
            "        noted under corrections: of the recording".to_owned()
        } else {
            let at = difference.said.at.map_or_else(String::new, |at| format!("at: '{at}', "));
            let of = difference.listed.first().map_or("ID.field", |listed| listed.of.as_str());
            format!("        instead: look in the source; then correct the list, or note what is said wrong: corrections: [{{{at}said: …, of: {of}}}]")
        });
        lines
    });
    section(&mut text, "Said and not listed", &comparison.not_listed, |one| vec![said(one)]);
    section(&mut text, "Listed and not said", &comparison.not_said, |one| {
        let at = one.at.map_or_else(String::new, |at| at.to_string());
        vec![format!("{at:>8}  {} (step {})", listed(std::slice::from_ref(&one.listed)), one.step)]
    });
    section(&mut text, "To compare by eye", &comparison.by_eye, |difference| vec![said(&difference.said), format!("        listed: {}", listed(&difference.listed))]);
    if comparison.differently.is_empty() && comparison.not_listed.is_empty() && comparison.not_said.is_empty() && comparison.by_eye.is_empty() {
        line(&mut text, "Nothing differs. What is said and listed alike may still be wrong: the source decides.");
    }
    text
}

fn section<T>(text: &mut String, heading: &str, items: &[T], lines: impl Fn(&T) -> Vec<String>) {
    if items.is_empty() {
        return;
    }
    line(text, format!("\n{heading}"));
    items.iter().flat_map(lines).for_each(|one| line(text, one));
}

fn said(said: &Said) -> String {
    let at = said.at.map_or_else(String::new, |at| at.to_string());
    let meaning = if said.readings.is_empty() { String::new() } else { format!(" ({})", said.readings.join(" or ")) };
    let step = said.step.as_ref().map_or_else(String::new, |step| format!(", step {step}"));
    format!("{at:>8}  {}: “{}”{meaning}{step}", said.kind.word(), said.words)
}

fn listed(values: &[ListedValue]) -> String {
    values.iter().map(|one| format!("{} {} ({})", one.name, one.value, one.of)).collect::<Vec<_>>().join("; ")
}

/// A comparison for scripts.
#[must_use]
pub fn comparison_json(comparison: &Comparison, procedure: &str, captions: &str) -> Value {
    let said = |said: &Said| {
        json!({
            "at": said.at.map(|at| at.to_string()),
            "seconds": said.at.map(crate::quantity::Moment::seconds),
            "about": said.kind.word(),
            "said": said.words,
            "readings": said.readings,
            "step": said.step,
        })
    };
    let listed = |one: &ListedValue| json!({"of": one.of, "name": one.name, "value": one.value});
    let difference = |one: &Difference| json!({"said": said(&one.said), "listed": one.listed.iter().map(listed).collect::<Vec<_>>(), "corrected": one.corrected});
    json!({
        "procedure": procedure,
        "captions": captions,
        "heard": comparison.heard,
        "as_listed": comparison.agreed,
        "elsewhere": comparison.elsewhere,
        "said_differently": comparison.differently.iter().map(difference).collect::<Vec<_>>(),
        "said_not_listed": comparison.not_listed.iter().map(said).collect::<Vec<_>>(),
        "listed_not_said": comparison.not_said.iter().map(|one| json!({
            "at": one.at.map(|at| at.to_string()),
            "seconds": one.at.map(crate::quantity::Moment::seconds),
            "step": one.step,
            "listed": listed(&one.listed),
        })).collect::<Vec<_>>(),
        "compare_by_eye": comparison.by_eye.iter().map(difference).collect::<Vec<_>>(),
    })
}

/// Gaps in words.
#[must_use]
pub fn gaps_text(gaps: &[Gap], title: &str, length_known: bool) -> String {
    let mut text = String::new();
    if gaps.is_empty() {
        line(&mut text, format!("{title}: a step for every span"));
    }
    for gap in gaps {
        let why = if gap.silent { "hands work and nothing is said" } else { "no step" };
        line(&mut text, format!("{:>15}  {why}, {} s", gap.span.to_string(), gap.span.seconds()));
    }
    if !length_known {
        line(&mut text, "The recording's length is not stated (length:), so its end is not looked at.");
    }
    text
}

/// Gaps for scripts.
#[must_use]
pub fn gaps_json(gaps: &[Gap], procedure: &str) -> Value {
    let spans: Vec<Value> = gaps
        .iter()
        .map(|gap| json!({"from": gap.span.start().to_string(), "to": gap.span.end().to_string(), "seconds": gap.span.seconds(), "silent": gap.silent}))
        .collect();
    json!({"procedure": procedure, "without_a_step": spans})
}
