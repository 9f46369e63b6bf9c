//! `values`: every value of a manual, for other programs.

use super::arguments::{TableFormat, ValuesOptions};
use super::work::{Order, Work, work};
use super::{Outcome, World, csv};
use crate::finding::visible;
use crate::manual::{ListedValue, value_list};
use serde::Serialize;
use std::io::{self, Write};

/// Version 1; see the schema.
#[derive(Serialize)]
struct Document<'a> {
    format: &'static str,
    version: u32,
    title: &'a str,
    caution: &'static str,
    values: &'a [ListedValue],
}

pub(super) fn run(options: &ValuesOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let site = world.folder.join("site");
    let order = Order { manual: options.manual.as_ref(), today: None, against: None, site: &site, threads: world.processors };
    let work = match work(&order, world) {
        Ok(work) => work,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let values = listed(&work);
    match options.format {
        TableFormat::Json => {
            let document =
                Document { format: "benchleaf-value-list", version: 1, title: &work.manual.title, caution: crate::reckon::CAUTION, values: &values };
            writeln!(out, "{}", serde_json::to_string_pretty(&document).map_err(io::Error::other)?)?;
        }
        TableFormat::Csv => table(&values, out)?,
        TableFormat::Text => text(&values, out)?,
    }
    if work.report.stops(work.manual.profile) {
        writeln!(err, "The manual has findings that stop it: what could not be read is not in this list. `benchleaf inspect` tells them.")?;
    }
    Ok(Outcome::Clean)
}

/// The values with what is waived.
fn listed(work: &Work) -> Vec<ListedValue> {
    let mut values = value_list(&work.manual);
    for finding in &work.report.waived {
        let Some(subject) = finding.subject() else { continue };
        let rule = finding.rule().name.to_owned();
        let (id, field) = subject.split_once('.').map_or((subject, None), |(id, field)| (id, Some(field)));
        let its = values.iter_mut().filter(|value| value.id == id && value.file == finding.place().file && field.is_none_or(|field| field == value.field));
        its.for_each(|value| value.waived.push(rule.clone()));
    }
    values
}

const COLUMNS: [&str; 16] = [
    "machine", "procedure", "list", "id", "field", "variant", "written", "low", "high", "unit", "source", "source_title", "source_kind", "since_revision",
    "revision", "waived",
];

fn table(values: &[ListedValue], out: &mut dyn Write) -> io::Result<()> {
    csv::row(out, COLUMNS)?;
    for value in values {
        let number = |number: Option<f64>| number.map_or_else(String::new, |number| number.to_string());
        let whole = |number: Option<u64>| number.map_or_else(String::new, |number| number.to_string());
        let (low, high) = (number(value.low), number(value.high));
        let (since, revision, waived) = (whole(value.since_revision), whole(value.revision), value.waived.join(" "));
        let or_none = |text: &'_ Option<String>| text.clone().unwrap_or_default();
        let (machine, procedure) = (or_none(&value.machine), or_none(&value.procedure));
        let (source, title, kind) = (or_none(&value.source), or_none(&value.source_title), or_none(&value.source_kind));
        csv::row(out, [
            machine.as_str(), &procedure, value.list, &value.id, value.field, &value.variant, &value.written, &low, &high, value.unit.unwrap_or_default(),
            &source, &title, &kind, &since, &revision, &waived,
        ])?;
    }
    Ok(())
}

fn text(values: &[ListedValue], out: &mut dyn Write) -> io::Result<()> {
    let mut home = None;
    for value in values {
        let here = (value.machine.as_deref(), value.procedure.as_deref());
        if home != Some(here) {
            let name = [here.0, here.1].into_iter().flatten().collect::<Vec<_>>().join("/");
            writeln!(out, "{}{}", if home.is_none() { "" } else { "\n" }, if name.is_empty() { "shop" } else { &name })?;
            home = Some(here);
        }
        let variant = if value.variant.is_empty() { String::new() } else { format!(" ({})", value.variant) };
        let source = value.source.as_ref().map_or_else(String::new, |source| format!("   [{source}]"));
        writeln!(out, "{}", visible(&format!("  {}.{}{variant}: {}{source}", value.id, value.field, value.written)))?;
    }
    Ok(())
}
