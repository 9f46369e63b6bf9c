//! `explain`: tells a rule, or what stands behind a value.

use super::arguments::ExplainOptions;
use super::work::{Order, work};
use super::{Outcome, World, explain_value};
use crate::finding::{Rule, nearest};
use crate::inspect::{never_waived, rule, rules};
use std::io::{self, Write};

pub(super) fn run(options: &ExplainOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let Some(name) = &options.name else {
        list(out)?;
        return Ok(Outcome::Clean);
    };
    if let Some(rule) = rule(name) {
        tell(rule, out)?;
        return Ok(Outcome::Clean);
    }
    let near_rule = nearest(name, rules().into_iter().map(|rule| rule.name));
    let site = world.folder.join("site");
    let order = Order { manual: options.manual.as_ref(), today: None, against: None, site: &site, threads: world.processors };
    let work = match work(&order, world) {
        Ok(work) => work,
        Err(error) => {
            // Without a manual a rule may have been meant, unless a value was asked for by its shape or its folder.
            match near_rule.filter(|_| options.manual.is_none()) {
                Some(near) => writeln!(err, "There is no rule ‘{name}’. Did you mean ‘{near}’?")?,
                None => writeln!(err, "There is no rule ‘{name}’, and no value of a manual can be told: {error}")?,
            }
            return Ok(Outcome::CouldNotRun);
        }
    };
    if explain_value::tell(&work, name, out)? {
        return Ok(Outcome::Clean);
    }
    write!(err, "There is no rule and no value ‘{name}’ in {}.", crate::finding::visible(&work.manual.title))?;
    let near_value = explain_value::near(&work.manual, name);
    let (first, second) = (near_rule.map(str::to_owned), near_value);
    // A rule's name has neither a point nor a stroke in it.
    let near = if name.contains(['.', '/']) { second.or(first) } else { first.or(second) };
    match near {
        Some(near) => writeln!(err, " Did you mean ‘{near}’?")?,
        None => writeln!(err, " `benchleaf explain` lists the rules.")?,
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
    if let Some(why) = never_waived(rule) {
        writeln!(out, "\nNever waived: {why}.")?;
    }
    Ok(())
}
