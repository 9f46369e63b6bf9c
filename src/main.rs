//! The program: reads the command line and the environment, runs one command.

#![forbid(unsafe_code)]

use benchleaf::command::{Arguments, Memory, Outcome, World, run};
use benchleaf::finding::Look;
use benchleaf::manual::Date;
use clap::Parser;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let (mut out, mut err) = (io::stdout().lock(), io::stderr().lock());
    let outcome = world().and_then(|world| run(&arguments, &world, &mut out, &mut err)).and_then(|outcome| {
        out.flush()?;
        Ok(outcome)
    });
    match outcome {
        Ok(outcome) => ExitCode::from(outcome.code()),
        // Whoever reads the report has seen enough (`| head`): that is no failure.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(error) => {
            // If even this can't be written there is nobody left to tell.
            let _ = writeln!(err, "could not run: {error}");
            ExitCode::from(Outcome::CouldNotRun.code())
        }
    }
}

/// Today by UTC; a clock that stands before 1970 gives its first day.
#[expect(clippy::disallowed_methods, reason = "this is where the clock is read")]
fn today() -> Date {
    let seconds = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).map_or(0, |since| since.as_secs());
    Date::of_days(seconds / 86_400)
}

#[expect(clippy::disallowed_methods, reason = "this is where the environment is read")]
fn world() -> io::Result<World> {
    let terminal = io::stdout().is_terminal();
    let colour = terminal && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty());
    Ok(World {
        folder: std::env::current_dir()?,
        look: Look { colour, ..Look::default() },
        terminal,
        today: today(),
        program: std::env::current_exe().ok(),
        memory: Memory::default(),
        processors: std::thread::available_parallelism().map_or(1, usize::from),
    })
}
