//! `reckon`: works a value out, and shows how.

use super::arguments::PlainFormat;
use super::reckon_options::ReckonOptions;
use super::{Outcome, columns};
use crate::reckon::{Answer, CAUTION, Calculation, Refusal, calculations, work};
use serde::Serialize;
use std::io::{self, Write};

pub(super) fn run(options: &ReckonOptions, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let Some((calculation, written)) = &options.wanted else {
        match options.format {
            PlainFormat::Text => list(out)?,
            PlainFormat::Json => json(&List::new(), out)?,
        }
        return Ok(Outcome::Clean);
    };
    let written: Vec<(&str, &str)> = written.iter().map(|(name, text)| (*name, text.as_str())).collect();
    match work(calculation, &written) {
        Ok(answer) => {
            match options.format {
                PlainFormat::Text => tell(&answer, out)?,
                PlainFormat::Json => json(&Reckoned::of(&answer), out)?,
            }
            Ok(Outcome::Clean)
        }
        Err(refusal) => {
            refuse(calculation, &refusal, &written, err)?;
            Ok(Outcome::CouldNotRun)
        }
    }
}

fn list(out: &mut dyn Write) -> io::Result<()> {
    let rows: Vec<(String, String)> = calculations().into_iter().map(|c| (c.name.to_owned(), c.about.to_owned())).collect();
    columns(out, "", &rows)?;
    writeln!(out, "\nFor example: {}", calculations().into_iter().find(|c| c.name == "adapter").map(Calculation::example_line).unwrap_or_default())?;
    writeln!(out, "`benchleaf reckon CALCULATION --help` tells its values, formula and source.")
}

fn tell(answer: &Answer, out: &mut dyn Write) -> io::Result<()> {
    let calculation = answer.calculation;
    writeln!(out, "{}: {}\n\ngiven", calculation.name, calculation.about)?;
    let labelled = |letter: &str, what: &str| if letter.is_empty() { what.to_owned() } else { format!("{letter}  {what}") };
    let given: Vec<(String, String)> =
        answer.given.entries().iter().map(|entry| (labelled(entry.input.letter, entry.input.what), entry.shown())).collect();
    columns(out, "  ", &given)?;
    writeln!(out, "\ncomes to")?;
    let figures: Vec<(String, String)> =
        answer.figures.iter().map(|figure| (labelled(figure.letter, &figure.what), figure.shown(&answer.given))).collect();
    columns(out, "  ", &figures)?;
    writeln!(out, "\nformula")?;
    for line in calculation.formula {
        writeln!(out, "  {line}")?;
    }
    let given_letters = calculation.inputs.iter().filter(|input| !input.letter.is_empty()).map(|input| (input.letter, short(input.what)));
    let letters: Vec<(String, String)> = given_letters
        .chain(calculation.letters.iter().copied())
        .map(|(letter, meaning)| (letter.to_owned(), meaning.to_owned()))
        .collect();
    columns(out, "    ", &letters)?;
    writeln!(out, "\nsource\n  {}\n\ntake care\n  {}\n  {CAUTION}", calculation.source, calculation.caution)
}

/// A meaning without what stands behind a comma or colon.
fn short(what: &'static str) -> &'static str {
    what.split([',', ':', ';']).next().unwrap_or(what)
}

fn refuse(calculation: &Calculation, refusal: &Refusal, written: &[(&str, &str)], err: &mut dyn Write) -> io::Result<()> {
    writeln!(err, "{}: {}", calculation.name, refusal.message())?;
    for figure in refusal.figures() {
        writeln!(err, "  it may be: {figure}")?;
    }
    for fix in refusal.fixes() {
        writeln!(err, "  instead: {fix}")?;
    }
    if !written.is_empty() {
        let understood: Vec<String> = written.iter().map(|(name, text)| format!("{name} = {text}")).collect();
        writeln!(err, "  given: {}", understood.join("; "))?;
    }
    writeln!(err, "  for example: {}", calculation.example_line())
}

fn json(document: &impl Serialize, out: &mut dyn Write) -> io::Result<()> {
    let text = serde_json::to_string_pretty(document).map_err(io::Error::other)?;
    writeln!(out, "{text}")
}

/// Version 1. Fields may be added within a version; none is renamed, removed or given another meaning.
const VERSION: u32 = 1;

#[derive(Serialize)]
struct List {
    format: &'static str,
    version: u32,
    calculations: Vec<Listed>,
}

#[derive(Serialize)]
struct Listed {
    name: &'static str,
    about: &'static str,
    inputs: Vec<ListedInput>,
    formula: &'static [&'static str],
    source: &'static str,
    caution: &'static str,
    example: String,
}

#[derive(Serialize)]
struct ListedInput {
    name: &'static str,
    letter: &'static str,
    what: &'static str,
    example: &'static str,
}

impl List {
    fn new() -> Self {
        let input = |input: &crate::reckon::Input| ListedInput { name: input.name, letter: input.letter, what: input.what, example: input.example };
        let listed = |c: &'static Calculation| Listed {
            name: c.name,
            about: c.about,
            inputs: c.inputs.iter().map(input).collect(),
            formula: c.formula,
            source: c.source,
            caution: c.caution,
            example: c.example_line(),
        };
        Self { format: "benchleaf-calculations", version: VERSION, calculations: calculations().into_iter().map(listed).collect() }
    }
}

#[derive(Serialize)]
struct Reckoned<'a> {
    format: &'static str,
    version: u32,
    calculation: &'static str,
    given: Vec<GivenValue<'a>>,
    results: Vec<WorkedOut>,
    formula: &'static [&'static str],
    letters: Vec<Letter>,
    source: &'static str,
    caution: [&'static str; 2],
}

#[derive(Serialize)]
struct GivenValue<'a> {
    name: &'static str,
    letter: &'static str,
    what: &'static str,
    written: &'a str,
    understood: String,
    assumed: bool,
}

/// Low and high are unrounded, in `unit`; words have neither.
#[derive(Serialize)]
struct WorkedOut {
    name: &'static str,
    letter: &'static str,
    what: String,
    shown: String,
    low: Option<f64>,
    high: Option<f64>,
    unit: &'static str,
}

#[derive(Serialize)]
struct Letter {
    letter: &'static str,
    meaning: &'static str,
}

impl<'a> Reckoned<'a> {
    fn of(answer: &'a Answer) -> Self {
        let calculation = answer.calculation;
        let given = answer.given.entries().iter().map(|entry| GivenValue {
            name: entry.input.name,
            letter: entry.input.letter,
            what: entry.input.what,
            written: &entry.written,
            understood: entry.shown(),
            assumed: entry.assumed,
        });
        let results = answer.figures.iter().map(|figure| WorkedOut {
            name: figure.name,
            letter: figure.letter,
            what: figure.what.trim().to_owned(),
            shown: figure.shown(&answer.given),
            low: figure.ends().map(|(low, _)| low),
            high: figure.ends().map(|(_, high)| high),
            unit: figure.base_unit(),
        });
        Self {
            format: "benchleaf-reckoning",
            version: VERSION,
            calculation: calculation.name,
            given: given.collect(),
            results: results.collect(),
            formula: calculation.formula,
            letters: calculation.letters.iter().map(|(letter, meaning)| Letter { letter, meaning }).collect(),
            source: calculation.source,
            caution: [calculation.caution, CAUTION],
        }
    }
}
