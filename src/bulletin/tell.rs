//! Telling a bulletin to people.

use super::{Bulletin, CAUTION, Change, ChangeLine, Fate, PaperKind, SheetChange, StepChange, Subject, UsedIn, WallPaperChange, Weight, WorkChange};
use crate::finding::visible;
use std::fmt::Display;

/// Signs of a value that are shown; the rest is in the sources and in JSON.
const MOST_SIGNS: usize = 140;

pub(super) fn line(text: &mut String, words: impl Display) {
    let words = words.to_string();
    // A heading has an empty line above it. A line's end anywhere else is an author's, and begins no line of the report.
    let below = words.strip_prefix('\n');
    text.push_str(if below.is_some() { "\n" } else { "" });
    text.push_str(&visible(below.unwrap_or(&words)));
    text.push('\n');
}

/// A bulletin in words.
#[must_use]
pub fn bulletin_text(bulletin: &Bulletin) -> String {
    let mut text = String::new();
    line(&mut text, format!("{}: {} → {}", bulletin.title, bulletin.old, bulletin.new));
    if let Some(was) = &bulletin.title_was {
        line(&mut text, format!("It was called ‘{was}’ before."));
    }
    for untold in &bulletin.untold {
        line(&mut text, format!("Not told: {untold}."));
    }
    if bulletin.is_empty() {
        line(&mut text, "Nothing changed: no value, no step, no sheet.");
        return text;
    }
    line(&mut text, summary(bulletin));
    for (heading, changes) in sections(bulletin) {
        line(&mut text, format!("\n{heading}"));
        changes.iter().for_each(|change| one_change(&mut text, change));
    }
    coming_and_going(&mut text, bulletin);
    work(&mut text, bulletin);
    papers(&mut text, bulletin);
    line(&mut text, format!("\n{CAUTION}"));
    text
}

/// `3 changes (1 critical, 2 without a change line); 4 of 31 sheets are out of date`.
fn summary(bulletin: &Bulletin) -> String {
    let of = |test: fn(&Change) -> bool| bulletin.changes.iter().filter(|change| test(change)).count();
    let notes = [(of(|change| change.weight == Weight::Critical), "critical"), (of(|change| change.untold), "without a change line")];
    let notes: Vec<String> = notes.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    let notes = if notes.is_empty() { String::new() } else { format!(" ({})", notes.join(", ")) };
    let mut parts = vec![format!("{}{notes}", counted(bulletin.changes.len(), "change of a value or thing", "changes of values and things"))];
    let old = bulletin.sheets.len() - bulletin.sheets_that_are(Fate::New);
    if old > 0 {
        let stale = bulletin.sheets_that_are(Fate::OutOfDate) + bulletin.sheets_that_are(Fate::Gone);
        let are = if stale == 1 { "is" } else { "are" };
        parts.push(format!("{stale} of {} {are} out of date", counted(old, "printed sheet", "printed sheets")));
    }
    let old = bulletin.wall_papers.len() - bulletin.wall_papers_that_are(Fate::New);
    let stale = bulletin.wall_papers_that_are(Fate::OutOfDate) + bulletin.wall_papers_that_are(Fate::Gone);
    // Where all hang on as they are, nobody need look for them.
    if stale > 0 {
        let are = if stale == 1 { "is" } else { "are" };
        parts.push(format!("{stale} of {} {are} out of date", counted(old, "torque card or board", "torque cards and boards")));
    }
    parts.join("; ")
}

fn counted(number: usize, one: &str, several: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {several}") }
}

/// The changes under their headings: critical ones first, whatever they are about.
fn sections(bulletin: &Bulletin) -> Vec<(&'static str, Vec<&Change>)> {
    let headings = [
        (Subject::Value, "Values"),
        (Subject::Part, "Parts and kits"),
        (Subject::Material, "Lockers and materials"),
        (Subject::OpenItem, "Open items"),
        (Subject::Tool, "Tools"),
        (Subject::Record, "Sources, people, terms, pictures"),
    ];
    let critical: Vec<&Change> = bulletin.changes.iter().filter(|change| change.weight == Weight::Critical).collect();
    let others = headings.iter().map(|(subject, heading)| {
        let own = bulletin.changes.iter().filter(|change| change.weight != Weight::Critical && change.subject == *subject);
        (*heading, own.collect::<Vec<_>>())
    });
    std::iter::once(("Critical", critical)).chain(others).filter(|(_, changes)| !changes.is_empty()).collect()
}

fn one_change(text: &mut String, change: &Change) {
    let field = change.field.as_deref().map_or_else(String::new, |field| format!(", {}", field.replace('_', " ")));
    let variant = if change.variant.is_empty() { String::new() } else { format!(", {}", change.variant) };
    let what = from_to(change.was.as_deref(), change.now.as_deref());
    line(text, format!("  {}{field}{variant}: {what}", change.name));
    let mut facts = vec![format!("{}/{}.{}", change.home, change.id, change.field.as_deref().unwrap_or("*"))];
    if let Some(home) = &change.moved_from {
        facts.push(format!("moved here from {home}"));
    }
    facts.push(used(&change.used_in));
    if change.sheets > 0 {
        facts.push(counted(change.sheets, "sheet out of date", "sheets out of date"));
    }
    if change.wall_papers > 0 {
        facts.push(counted(change.wall_papers, "torque card or board out of date", "torque cards and boards out of date"));
    }
    line(text, format!("      {}", facts.join("; ")));
    for told in &change.lines {
        // With one line it is the change itself, which stands above.
        line(text, format!("      {}", line_words(told, change.lines.len() > 1)));
    }
    if change.untold {
        line(text, "      NO CHANGE LINE: nobody says why");
    }
}

/// `revision 4 of 2026-09-14: 70 → 74 N·m: nuts backed off (bulletin-2)`.
pub(super) fn line_words(told: &ChangeLine, with_values: bool) -> String {
    let day = told.date.as_ref().map_or_else(String::new, |date| format!(" of {date}"));
    let revision = told.revision.map_or_else(String::new, |revision| format!("revision {revision}{day}: "));
    let values = if with_values { format!("{}: ", from_to(told.was.as_deref(), told.now.as_deref())) } else { String::new() };
    let source = told.source.as_ref().map_or_else(String::new, |source| format!(" ({source})"));
    format!("{revision}{values}{}{source}", told.because.as_deref().unwrap_or("no reason given"))
}

fn from_to(was: Option<&str>, now: Option<&str>) -> String {
    match (was, now) {
        (Some(was), Some(now)) => arrow(was, now),
        (None, Some(now)) => format!("new: {}", cut(now)),
        (Some(was), None) => format!("gone; it was {}", cut(was)),
        (None, None) => "changed".to_owned(),
    }
}

/// `70 → 78 N·m` where both are in one unit.
fn arrow(was: &str, now: &str) -> String {
    let unit = now.rsplit_once(' ').map(|(_, unit)| unit).filter(|unit| unit.chars().any(char::is_alphabetic) || *unit == "°");
    let number = |text: &str| text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '≥' | '≤' | '-' | '−')) && !text.contains([',', '[', '(']);
    let shared = unit.and_then(|unit| was.strip_suffix(unit)?.strip_suffix(' ')).filter(|was| number(was) && number(now));
    format!("{} → {}", cut(shared.unwrap_or(was)), cut(now))
}

fn cut(text: &str) -> String {
    if text.chars().count() <= MOST_SIGNS {
        return text.to_owned();
    }
    let kept: String = text.chars().take(MOST_SIGNS).collect();
    format!("{}…", kept.trim_end())
}

fn used(used: &[UsedIn]) -> String {
    if used.is_empty() {
        return "used in no step".to_owned();
    }
    let one = |used: &UsedIn| {
        let steps: Vec<String> = used.steps.iter().map(|step| format!("#{step}")).collect();
        format!("{}/{} {}", used.machine, used.procedure, steps.join(" "))
    };
    // Four procedures tell enough; a wrench is used everywhere.
    let named: Vec<String> = used.iter().take(4).map(one).collect();
    let more = if used.len() > 4 { format!(" and {} more", counted(used.len() - 4, "procedure", "procedures")) } else { String::new() };
    format!("used in {}{more}", named.join(", "))
}

fn coming_and_going(text: &mut String, bulletin: &Bulletin) {
    for (is_new, heading) in [(true, "New in the manual"), (false, "Gone from the manual")] {
        let homes: Vec<_> = bulletin.homes.iter().filter(|home| home.is_new == is_new).collect();
        if homes.is_empty() {
            continue;
        }
        line(text, format!("\n{heading}"));
        for home in homes {
            line(text, format!("  {}, {}", home.home, counted(home.values, "value", "values")));
        }
    }
}

fn work(text: &mut String, bulletin: &Bulletin) {
    if !bulletin.build_orders.is_empty() {
        line(text, "\nOrder of procedures");
        for order in &bulletin.build_orders {
            line(text, format!("  {}: {}", order.machine, order.now.join(", ")));
            line(text, format!("      it was {}", order.was.join(", ")));
        }
    }
    if !bulletin.work.is_empty() {
        line(text, "\nSteps");
        bulletin.work.iter().for_each(|work| one_procedure(text, work));
    }
}

fn one_procedure(text: &mut String, work: &WorkChange) {
    let number = |revision: Option<u64>| revision.map_or_else(|| "none".to_owned(), |revision| revision.to_string());
    let revision = if work.revision == work.revision_was {
        format!("still revision {}", number(work.revision))
    } else {
        format!("revision {} → {}", number(work.revision_was), number(work.revision))
    };
    line(text, format!("  {} ({}/{}), {revision}", work.title, work.machine, work.procedure));
    for (ids, what) in [(&work.steps_new, "new"), (&work.steps_gone, "gone"), (&work.steps_in_order, "in another order, now")] {
        if !ids.is_empty() {
            let ids: Vec<String> = ids.iter().map(|id| format!("#{id}")).collect();
            line(text, format!("      {what}: {}", ids.join(" ")));
        }
    }
    let (reworded, others): (Vec<&StepChange>, Vec<&StepChange>) = work.steps.iter().partition(|step| step.reworded);
    for step in others {
        line(text, format!("      #{}: {}", step.step, step_words(step)));
    }
    if !reworded.is_empty() {
        let ids: Vec<String> = reworded.iter().map(|step| format!("#{}", step.step)).collect();
        line(text, format!("      other words, same acts: {}", ids.join(" ")));
    }
}

fn step_words(step: &StepChange) -> String {
    let mut parts = Vec::new();
    if let Some((was, now)) = &step.only {
        let all = |words: &str| if words.is_empty() { "all machines".to_owned() } else { words.to_owned() };
        parts.push(format!("done for {} → {}", all(was), all(now)));
    }
    for (acts, what) in [(&step.acts_new, "new"), (&step.acts_gone, "gone")] {
        if !acts.is_empty() {
            parts.push(format!("{what} {}", acts.join(", ")));
        }
    }
    if step.acts_moved {
        parts.push("the same acts in another order".to_owned());
    }
    parts.join("; ")
}

/// The papers to print again, and those that came or went: sheets, torque cards, boards.
fn papers(text: &mut String, bulletin: &Bulletin) {
    for (fate, heading) in [(Fate::OutOfDate, "Papers out of date: print them again"), (Fate::Gone, "Papers that are no more"), (Fate::New, "New papers")] {
        let sheets = bulletin.sheets.iter().filter(|sheet| sheet.fate == fate).map(sheet_line);
        let walls = bulletin.wall_papers.iter().filter(|paper| paper.fate == fate).map(wall_paper_line);
        let own: Vec<String> = sheets.chain(walls).collect();
        if !own.is_empty() {
            line(text, format!("\n{heading}"));
            own.iter().for_each(|words| line(text, words));
        }
    }
}

fn sheet_line(sheet: &SheetChange) -> String {
    let variant = if sheet.variant.is_empty() { String::new() } else { format!(", {}", sheet.variant) };
    format!("  sheet {}/{}{variant}   {}", sheet.machine, sheet.procedure, prints(&sheet.was, &sheet.now))
}

fn wall_paper_line(paper: &WallPaperChange) -> String {
    let kind = if paper.paper == PaperKind::Board { "bolt board" } else { "torque card" };
    let place: Vec<&str> = [paper.machine.as_str(), paper.procedure.as_str()].into_iter().chain(paper.fasteners.as_deref()).filter(|part| !part.is_empty()).collect();
    format!("  {kind} {}   {}", place.join("/"), prints(&paper.was, &paper.now))
}

/// The fingerprint it had and the one it has.
fn prints(was: &Option<String>, now: &Option<String>) -> String {
    let both: Vec<&str> = [was, now].into_iter().flatten().map(String::as_str).collect();
    both.join(" → ")
}

#[cfg(test)]
mod tests {
    use super::{arrow, cut};

    #[test]
    fn a_unit_that_both_have_is_told_once() {
        for (was, now, told) in [
            ("70 N·m", "78 N·m", "70 → 78 N·m"),
            ("70 ± 4 N·m", "78 ± 4 N·m", "70 ± 4 → 78 ± 4 N·m"),
            ("70 N·m", "78 lbf·ft", "70 N·m → 78 lbf·ft"),
            ("≥ 12 h", "≥ 24 h", "≥ 12 → ≥ 24 h"),
            ("[20 N·m, 90°]", "[22 N·m, 90°]", "[20 N·m, 90°] → [22 N·m, 90°]"),
            ("24 N·m (17.7 lbf·ft)", "25 N·m (18.4 lbf·ft)", "24 N·m (17.7 lbf·ft) → 25 N·m (18.4 lbf·ft)"),
            ("4", "6", "4 → 6"),
            ("medium locker", "strong locker", "medium locker → strong locker"),
        ] {
            assert_eq!(arrow(was, now), told);
        }
    }

    #[test]
    fn a_long_value_is_cut() {
        assert_eq!(cut(&"é".repeat(141)), format!("{}…", "é".repeat(140)));
        assert_eq!(cut("é"), "é");
    }
}
