//! `explain`: tells a rule.

use super::Outcome;
use super::arguments::ExplainOptions;
use crate::finding::{Rule, nearest};
use crate::inspect::{rule, rules};
use std::io::{self, Write};

pub(super) fn run(options: &ExplainOptions, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let Some(name) = &options.name else {
        list(out)?;
        return Ok(Outcome::Clean);
    };
    if let Some(rule) = rule(name) {
        tell(rule, out)?;
        return Ok(Outcome::Clean);
    }
    write!(err, "There is no rule ‘{name}’.")?;
    match nearest(name, rules().into_iter().map(|rule| rule.name)) {
        Some(near) => writeln!(err, " Did you mean ‘{near}’?")?,
        None => writeln!(err, " `benchleaf explain` lists them all.")?,
    }
    Ok(Outcome::CouldNotRun)
}

fn list(out: &mut dyn Write) -> io::Result<()> {
    let rules = rules();
    let width = rules.iter().map(|rule| rule.name.len()).max().unwrap_or(0);
    for rule in rules {
        writeln!(out, "{:width$}  {:7}  {}", rule.name, rule.severity.word(), rule.summary)?;
    }
    Ok(())
}

fn tell(rule: &Rule, out: &mut dyn Write) -> io::Result<()> {
    writeln!(out, "{} ({})\n{}", rule.name, rule.severity.word(), rule.summary)?;
    for (heading, text) in rule.explanation.sections() {
        writeln!(out, "\n{heading}")?;
        for line in text.lines() {
            writeln!(out, "    {line}")?;
        }
    }
    Ok(())
}
