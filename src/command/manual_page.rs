//! `man` and `completions`: what a shell and a Unix manual want to know of the command line.

use super::arguments::{Arguments, CompletionsOptions, ManOptions};
use super::Outcome;
use clap::{Command, CommandFactory};
use std::io::{self, Write};

/// Prints the page of the program, or of one command.
pub(super) fn man(options: &ManOptions, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let mut root = Arguments::command();
    root.build();
    let mut command = &root;
    for word in &options.command {
        match command.find_subcommand(word) {
            Some(below) => command = below,
            None => {
                let known: Vec<&str> = command.get_subcommands().map(Command::get_name).collect();
                writeln!(err, "There is no command ‘{word}’; there are {}.", known.join(", "))?;
                return Ok(Outcome::CouldNotRun);
            }
        }
    }
    let name = [&["benchleaf".to_owned()], options.command.as_slice()].concat().join("-");
    clap_mangen::Man::new(command.clone()).title(name).section("1").manual("Benchleaf").render(out)?;
    Ok(Outcome::Clean)
}

/// Prints the completions of a shell.
pub(super) fn completions(options: &CompletionsOptions, out: &mut dyn Write) -> io::Result<Outcome> {
    // Written to memory first: the generator panics where it can't write, as into a closed pipe.
    let mut script = Vec::new();
    clap_complete::generate(options.shell, &mut Arguments::command(), "benchleaf", &mut script);
    out.write_all(&script)?;
    out.flush()?;
    Ok(Outcome::Clean)
}
