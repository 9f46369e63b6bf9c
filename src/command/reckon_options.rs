//! Options of `reckon`: a command for each calculation of the table, an option for each value it takes.

use super::arguments::PlainFormat;
use crate::reckon::{Calculation, Input, Kind, Need, Take, calculation, calculations};
use clap::builder::EnumValueParser;
use clap::{Arg, ArgAction, ArgMatches, Args, Command, FromArgMatches};

/// Options of `reckon`.
#[derive(Clone, Debug)]
pub struct ReckonOptions {
    /// The calculation, with name and text of each value; without it, all are listed.
    pub(super) wanted: Option<(&'static Calculation, Vec<(&'static str, String)>)>,
    /// How to tell the result.
    pub(super) format: PlainFormat,
}

impl Args for ReckonOptions {
    fn augment_args(command: Command) -> Command {
        let format = Arg::new("format")
            .long("format")
            .value_name("FORMAT")
            .value_parser(EnumValueParser::<PlainFormat>::new())
            .default_value("text")
            .global(true)
            .hide_possible_values(true)
            .help("How to tell the result: text for people, json for scripts");
        command
            .arg(format)
            .subcommands(calculations().into_iter().map(of_calculation))
            .subcommand_value_name("CALCULATION")
            .subcommand_help_heading("Calculations")
            .disable_help_subcommand(true)
            .after_help(AFTER)
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

const AFTER: &str = "Write each value with its unit, as its source does: \"22 ±2 N·m\", \"70-80 Nm\", \"1/4 in\", \"max 150 °C\".\n\
    Where a formula can be turned round, give its result and leave one value out:\n  \
    benchleaf reckon adapter --set \"61 N·m\" --wrench \"300 mm\" --offset \"45 mm\"\n\
    `benchleaf reckon CALCULATION --help` tells values, formula, letters and source.";

impl FromArgMatches for ReckonOptions {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let format = matches.get_one::<PlainFormat>("format").copied().unwrap_or(PlainFormat::Text);
        let wanted = matches.subcommand().and_then(|(name, below)| {
            let calculation = calculation(name)?;
            let texts = |input: &'static Input| below.get_many::<String>(input.name).into_iter().flatten().map(move |text| (input.name, text.clone()));
            Some((calculation, calculation.inputs.iter().flat_map(texts).collect()))
        });
        let format = matches.subcommand().and_then(|(_, below)| below.get_one::<PlainFormat>("format").copied()).unwrap_or(format);
        Ok(Self { wanted, format })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

fn of_calculation(calculation: &'static Calculation) -> Command {
    let mut after = vec!["Formula:".to_owned()];
    after.extend(calculation.formula.iter().map(|line| format!("  {line}")));
    after.extend(calculation.letters.iter().map(|(letter, meaning)| format!("  {letter}: {meaning}")));
    after.push(format!("Source:\n  {}", calculation.source));
    after.push(format!("Take care:\n  {}", calculation.caution));
    after.push(format!("Example:\n  {}", calculation.example_line()));
    let turnable: Vec<String> = calculation.turnable().iter().map(|input| format!("--{}", input.name)).collect();
    if let Some(result) = calculation.turns {
        after.push(format!("Turned round:\n  give --{result} and leave out {}", turnable.join(" or ")));
    }
    Command::new(calculation.name).about(calculation.about).after_help(after.join("\n")).args(calculation.inputs.iter().map(of_input))
}

fn of_input(input: &'static Input) -> Arg {
    let letter = if input.letter.is_empty() { String::new() } else { format!("{}: ", input.letter) };
    let assumed = if let Need::Assume(text) = input.need { format!(" [otherwise {text}]") } else { String::new() };
    let words = if let Kind::Word(words) = input.kind { format!(" ({})", words().join(", ")) } else { String::new() };
    let action = if input.is_many() { ArgAction::Append } else { ArgAction::Set };
    let arg = Arg::new(input.name).help(format!("{letter}{}{words}, as \"{}\"{assumed}", input.what, input.example)).action(action);
    // A value may begin with a minus; where several stand bare, an option behind them must stay one.
    let arg = arg.allow_hyphen_values(!input.bare || input.take == Take::Whole);
    match (input.bare, input.is_many()) {
        (false, _) => arg.long(input.name).value_name("VALUE"),
        (true, false) => arg.value_name(input.name),
        (true, true) => arg.value_name(input.name).num_args(1..),
    }
}
