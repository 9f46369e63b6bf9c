//! How long `inspect` takes beside its own reading, and how it grows with the manual.
//!
//! `cargo bench --bench inspect` measures a generated manual of 1,000 procedures, with `-- --large` one of 10,000 too.
//! `cargo bench --bench inspect -- FOLDER` measures a manual of your own. Times are medians and differ from machine to
//! machine; the ratios are what to compare.

#![expect(clippy::disallowed_methods, reason = "a measurement reads the clock and writes the manuals that it measures")]
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a bench tells what it measured")]

#[path = "../examples/make_manual/generate/mod.rs"]
mod generate;

use benchleaf::inspect::{Terms, inspect};
use benchleaf::manual::lower;
use benchleaf::source::read;
use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};
use std::{env, fs, thread};

const USAGE: &str = "usage: cargo bench --bench inspect [-- --large | FOLDER]";
const SMALL: usize = 1_000;
const LARGE: usize = 10_000;
const SEED: u64 = 1;
/// Of so many runs the one in the middle counts.
const RUNS: usize = 5;

type Failure = Box<dyn std::error::Error>;

/// A row of the table: its name and what it shows of a measurement.
type Row<T> = (&'static str, fn(&Times) -> T);

fn main() -> ExitCode {
    // Cargo adds `--bench` of itself.
    let arguments: Vec<String> = env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let measured = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => generated(&[SMALL]),
        ["--large"] => generated(&[SMALL, LARGE]),
        [folder] if !folder.starts_with('-') => measured(Path::new(folder)).map(|times| vec![times]),
        _ => Err(USAGE.into()),
    };
    match measured {
        Ok(all) => {
            print!("{}", table(&all));
            ExitCode::SUCCESS
        }
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::FAILURE
        }
    }
}

/// What a manual took.
struct Times {
    procedures: usize,
    /// Files to text and places.
    reading: Duration,
    /// Text to the model.
    lowering: Duration,
    /// The walks and every rule.
    inspecting: Duration,
    /// The program `benchleaf inspect`, from its start to its end.
    whole: Duration,
}

fn generated(sizes: &[usize]) -> Result<Vec<Times>, Failure> {
    let folder = tempfile::tempdir()?;
    let mut all = Vec::new();
    for procedures in sizes {
        let manual = folder.path().join(procedures.to_string());
        for (path, text) in generate::manual(*procedures, SEED) {
            let path = manual.join(path);
            fs::create_dir_all(path.parent().unwrap_or(&manual))?;
            fs::write(path, text)?;
        }
        all.push(measured(&manual)?);
    }
    Ok(all)
}

fn measured(manual: &Path) -> Result<Times, Failure> {
    // The program is started elsewhere, where no earlier publishing is compared with.
    let manual = &fs::canonicalize(manual)?;
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let mut procedures = 0;
    let (mut reading, mut lowering, mut inspecting, mut whole) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for _ in 0..RUNS {
        let start = Instant::now();
        let (sources, mut findings) = read(manual)?;
        reading.push(start.elapsed());
        let start = Instant::now();
        let (lowered, more) = lower(&sources);
        lowering.push(start.elapsed());
        findings.extend(more);
        let start = Instant::now();
        let report = inspect(&lowered, &sources, findings, &Terms { threads, ..Terms::default() });
        inspecting.push(start.elapsed());
        drop(report);
        procedures = lowered.machines.iter().map(|machine| machine.procedures.len()).sum();
    }
    for _ in 0..RUNS {
        let start = Instant::now();
        let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).arg("inspect").arg(manual).current_dir(env::temp_dir()).output()?;
        whole.push(start.elapsed());
        if run.status.code().is_none_or(|code| code > 1) {
            return Err(String::from_utf8_lossy(&run.stderr).into());
        }
    }
    Ok(Times { procedures, reading: median(reading), lowering: median(lowering), inspecting: median(inspecting), whole: median(whole) })
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

/// A column for each manual; how the last grew against the first, where there are two.
fn table(all: &[Times]) -> String {
    let growth = |of: fn(&Times) -> Duration| match all {
        [first, .., last] => format!("{:>9.1} ×", ratio(of(last), of(first))),
        _ => String::new(),
    };
    let row = |name: &str, cells: Vec<String>, behind: String| {
        let cells: String = cells.iter().map(|cell| format!("{cell:>12}")).collect();
        format!("{name:<36}{cells}{behind}").trim_end().to_owned() + "\n"
    };
    let grown = if all.len() > 1 { "     growth".to_owned() } else { String::new() };
    let mut told = row("procedures", all.iter().map(|times| times.procedures.to_string()).collect(), grown);
    let stages: [Row<Duration>; 4] = [
        ("reading, ms", |times| times.reading),
        ("lowering, ms", |times| times.lowering),
        ("inspecting, ms", |times| times.inspecting),
        ("the program’s inspect, ms", |times| times.whole),
    ];
    for (name, of) in stages {
        told += &row(name, all.iter().map(|times| format!("{:.1}", of(times).as_secs_f64() * 1000.0)).collect(), growth(of));
    }
    let ratios: [Row<f64>; 3] = [
        ("inspecting : (reading + lowering)", |times| ratio(times.inspecting, times.reading + times.lowering)),
        ("the program : (reading + lowering)", |times| ratio(times.whole, times.reading + times.lowering)),
        ("the program : reading", |times| ratio(times.whole, times.reading)),
    ];
    for (name, of) in ratios {
        told += &row(name, all.iter().map(|times| format!("{:.2}", of(times))).collect(), String::new());
    }
    told
}

fn ratio(one: Duration, other: Duration) -> f64 {
    one.as_secs_f64() / other.as_secs_f64().max(1e-9)
}
