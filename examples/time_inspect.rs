//! Reads a manual's folder several times and tells the median time of each stage before the pages: reading, lowering,
//! inspecting, and what inspecting costs beside reading.
//!
//! `cargo run --release --example time_inspect -- FOLDER [TIMES]`. Inspecting is measured without an earlier state.

#![expect(clippy::disallowed_methods, reason = "an example is a program of its own, and a measurement reads the clock")]
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "an example tells what it measured")]

use benchleaf::inspect::{Terms, inspect};
use benchleaf::manual::lower;
use benchleaf::source::read;
use std::env;
use std::path::Path;
use std::process::ExitCode;
use std::time::{Duration, Instant};

const USAGE: &str = "usage: time_inspect FOLDER [TIMES]";
const TIMES: usize = 9;

fn main() -> ExitCode {
    match run(&env::args().skip(1).collect::<Vec<_>>()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &[String]) -> Result<(), String> {
    let (folder, times) = match arguments {
        [folder] => (folder, TIMES),
        [folder, times] => (folder, times.parse().ok().filter(|times| *times > 0).ok_or_else(|| format!("‘{times}’ is no number of times"))?),
        _ => return Err(USAGE.to_owned()),
    };
    let mut reading = Vec::new();
    let mut lowering = Vec::new();
    let mut inspecting = Vec::new();
    for _ in 0..times {
        let start = Instant::now();
        let (sources, mut findings) = read(Path::new(folder)).map_err(|error| error.to_string())?;
        reading.push(start.elapsed());
        let start = Instant::now();
        let (manual, more) = lower(&sources);
        lowering.push(start.elapsed());
        findings.extend(more);
        let start = Instant::now();
        let report = inspect(&manual, &sources, findings, &Terms::default());
        inspecting.push(start.elapsed());
        if reading.len() == times {
            let procedures: usize = manual.machines.iter().map(|machine| machine.procedures.len()).sum();
            println!("{procedures} procedures of {} machines, {} findings, {times} times", manual.machines.len(), report.findings.len());
        }
    }
    let (reading, lowering, inspecting) = (median(reading), median(lowering), median(inspecting));
    let stage = reading + lowering;
    println!("reading     {:>9.1} ms", milliseconds(reading));
    println!("lowering    {:>9.1} ms", milliseconds(lowering));
    println!("inspecting  {:>9.1} ms", milliseconds(inspecting));
    println!("inspecting ÷ (reading + lowering) = {:.2}", inspecting.as_secs_f64() / stage.as_secs_f64().max(1e-9));
    Ok(())
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

fn milliseconds(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}
