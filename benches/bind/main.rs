//! What binding takes: beside a floor that no tool can avoid, again with nothing changed, with one procedure and with one shared
//! value edited, in the proof server, and at ten times the size.
//!
//! `cargo bench --bench bind` measures a generated manual of 1,000 procedures without photographs (those have a bench of their
//! own), with `-- --large` one of 10,000 too (it takes 17 GB of disk while it runs), with `-- --procedures N` one of N. Every program
//! is run from its start to its end, five times, in turns; medians count. Seconds differ from machine to machine; the ratios are what to compare.

#![expect(clippy::disallowed_methods, reason = "a bench is a program of its own: it makes folders and reads the clock")]
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a bench tells what it measured")]

mod floor;
#[path = "../../examples/make_manual/generate/mod.rs"]
mod generate;
#[path = "../shared/process.rs"]
mod process;
mod proof;

use process::{Work, run};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::{env, fs};

const USAGE: &str = "usage: cargo bench --bench bind [-- --large | --procedures N]";
const SMALL: usize = 1_000;
const LARGE: usize = 10_000;
const SEED: u64 = 1;
/// Of so many runs the one in the middle counts.
const RUNS: usize = 5;
/// A material of the shop that a few procedures use; the size of its pack is the shared value that is edited.
const SHARED: &str = "joint-sealant";

type Result<T> = std::result::Result<T, Box<dyn std::error::Error>>;

fn main() -> ExitCode {
    // Cargo adds `--bench` of itself.
    let arguments: Vec<String> = env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        [] => bench(SMALL, false),
        ["--large"] => bench(SMALL, true),
        ["--procedures", number] => number.parse().map_err(Into::into).and_then(|number| bench(number, false)),
        // This program again, as a process of its own.
        ["floor", manual, site, into] => told_floor(Path::new(manual), Path::new(site), Path::new(into)),
        _ => Err(USAGE.into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::FAILURE
        }
    }
}

fn told_floor(manual: &Path, site: &Path, into: &Path) -> Result<()> {
    let (files, bytes, values) = floor::floor(manual, site, into)?;
    println!("{files} files, {:.1} MB, {values} values read", mega(bytes));
    Ok(())
}

fn bench(procedures: usize, large: bool) -> Result<()> {
    let scratch = tempfile::tempdir()?;
    let mut trial = Trial::new(scratch.path(), procedures)?;
    println!("{procedures} procedures; medians of {RUNS} runs\n");
    println!("{:<44}{:>10}{:>10}{:>10}{:>10}{:>8}", "", "wall, s", "ratio", "CPU, s", "ratio", "goal");

    let (mut cold, mut floor) = (Vec::new(), Vec::new());
    for _ in 0..RUNS {
        trial.begin_anew();
        cold.push(run(&mut trial.bind())?);
        floor.push(run(&mut trial.floor()?)?);
    }
    let most_memory = cold.iter().map(|work| work.most_memory).max().unwrap_or(0);
    let (cold, floor) = (median(cold)?, median(floor)?);
    row("the floor", &floor, None, "");
    row("cold bind : floor", &cold, Some(&floor), "≤ 2.5");

    let again = repeated(|| run(&mut trial.bind()))?;
    expect(&again, |written| written == 0)?;
    row("bind again, nothing changed : cold", &again, Some(&cold), "≤ 0.10");

    let procedure = trial.first_procedure()?;
    let mut number = 0;
    let edited = repeated(|| {
        number += 1;
        append(&procedure, &format!("\nTrial number {number} of this text.\n"))?;
        run(&mut trial.bind())
    })?;
    row("one procedure edited : cold", &edited, Some(&cold), "≤ 0.15");
    let shown = pages_with(&trial.site, "Trial number")?;
    println!("  {}; {shown} pages hold its new words", edited.told.trim());

    let shop = trial.manual.join("shop.yaml");
    let mut revision = 1;
    let shared = repeated(|| {
        edit_shop(&shop, revision)?;
        revision += 1;
        run(&mut trial.bind())
    })?;
    row("one value of the shop edited : cold", &shared, Some(&cold), "");
    println!("  {}", shared.told.trim());

    let seconds = proof::median_refresh(Command::new(program()), &trial.manual, &procedure)?;
    println!("{:<44}{seconds:>10.3}{:>10.3}{:>10}{:>10}{:>8}", "proof, save to page, median of 20 : cold", seconds / cold.spent.wall, "", "", "≤ 0.15");
    println!("{:<44}{:>9.0} MB", "most memory, cold", mega_of(most_memory));

    if large {
        // The sites so far make room.
        drop(trial);
        scratch.close()?;
        growth(procedures)?;
    }
    Ok(())
}

/// How cold binding grows with the manual. The small one is bound before and after each run of the large one: over the minutes this
/// takes, a machine that other people work on too changes its speed by more than what is asked for here.
fn growth(procedures: usize) -> Result<()> {
    let scratch = tempfile::tempdir()?;
    let mut one = Trial::new(&scratch.path().join("small"), procedures)?;
    let mut ten = Trial::new(&scratch.path().join("large"), LARGE)?;
    let anew = |trial: &mut Trial| {
        trial.begin_anew();
        run(&mut trial.bind())
    };
    let (mut small, mut large, mut turns) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..RUNS {
        let (before, among, after) = (anew(&mut one)?, anew(&mut ten)?, anew(&mut one)?);
        turns.push(among.spent.processor * 2.0 / (before.spent.processor + after.spent.processor));
        small.extend([before, after]);
        large.push(among);
    }
    let most_memory = large.iter().map(|work| work.most_memory).max().unwrap_or(0);
    let (small, large) = (median(small)?, median(large)?);
    row(&format!("{procedures} procedures, in turns with more"), &small, None, "");
    row(&format!("{LARGE} procedures : {procedures}"), &large, Some(&small), "≤ 11");
    println!("  by processor time, turn by turn: {}", turns.iter().map(|ratio| format!("{ratio:.2}")).collect::<Vec<_>>().join(", "));
    println!("{:<44}{:>9.0} MB{:>38}", format!("most memory, {LARGE} procedures"), mega_of(most_memory), "≤ 1000");
    Ok(())
}

/// The folders of one bench.
struct Trial {
    scratch: PathBuf,
    /// How often it was begun.
    begun: usize,
    manual: PathBuf,
    site: PathBuf,
    floor: PathBuf,
}

impl Trial {
    fn new(scratch: &Path, procedures: usize) -> Result<Self> {
        let trial = Self {
            scratch: scratch.to_owned(),
            begun: 0,
            manual: scratch.join("manual"),
            site: scratch.join("site"),
            floor: scratch.join("floor"),
        };
        for (path, text) in generate::manual(procedures, SEED) {
            let path = trial.manual.join(path);
            fs::create_dir_all(path.parent().unwrap_or(&trial.manual))?;
            fs::write(path, text)?;
        }
        Ok(trial)
    }

    /// Has the next runs write into folders that are not there yet. What was written before stays until the end: ext4 does not
    /// give the inodes of thousands of files that were just removed away for a minute or more, and looks through all of them for
    /// each new file, which is seconds of processor time that no reader's first run ever takes.
    fn begin_anew(&mut self) {
        self.begun += 1;
        self.site = self.scratch.join(format!("site-{}", self.begun));
        self.floor = self.scratch.join(format!("floor-{}", self.begun));
    }

    fn bind(&self) -> Command {
        let mut command = Command::new(program());
        command.arg("bind").arg(&self.manual).arg("--into").arg(&self.site);
        command
    }

    fn floor(&self) -> Result<Command> {
        let mut command = Command::new(env::current_exe()?);
        command.arg("floor").args([&self.manual, &self.site, &self.floor]);
        Ok(command)
    }

    fn first_procedure(&self) -> Result<PathBuf> {
        let found = walkdir::WalkDir::new(&self.manual).sort_by_file_name().into_iter().filter_map(std::result::Result::ok);
        let first = found.map(walkdir::DirEntry::into_path).find(|path| path.extension().is_some_and(|kind| kind == "md"));
        first.ok_or_else(|| "no procedure was made".into())
    }
}

fn program() -> &'static str {
    env!("CARGO_BIN_EXE_benchleaf")
}

fn repeated(mut once: impl FnMut() -> Result<Work>) -> Result<Work> {
    median((0..RUNS).map(|_| once()).collect::<Result<Vec<_>>>()?)
}

/// The run in the middle by wall time, with the middle processor time; of an even number the lesser of the two in the middle.
fn median(mut all: Vec<Work>) -> Result<Work> {
    let mut processor: Vec<f64> = all.iter().map(|work| work.spent.processor).collect();
    processor.sort_by(f64::total_cmp);
    all.sort_by(|one, other| one.spent.wall.total_cmp(&other.spent.wall));
    let middle = all.len().saturating_sub(1) / 2;
    if all.is_empty() {
        return Err("nothing was run".into());
    }
    let mut work = all.swap_remove(middle);
    work.spent.processor = processor.get(middle).copied().unwrap_or_default();
    Ok(work)
}

/// What `bind` says it wrote has to be as foreseen.
fn expect(work: &Work, is: impl Fn(usize) -> bool) -> Result<()> {
    let told = work.told.split(" files written").next().and_then(|before| before.rsplit(' ').next()).and_then(|number| number.parse().ok());
    if told.is_some_and(is) { Ok(()) } else { Err(format!("not what was to be written: {}", work.told).into()) }
}

fn append(file: &Path, text: &str) -> Result<()> {
    Ok(fs::write(file, fs::read_to_string(file)? + text)?)
}

/// Changes the shared value as a club would: a millilitre more, the next revision, a line that says why.
fn edit_shop(shop: &Path, revision: usize) -> Result<()> {
    let text = fs::read_to_string(shop)?;
    let pack = |revision: usize| format!("{} mL", 49 + revision);
    let line = text.lines().find(|line| line.trim_start().starts_with(SHARED) && line.contains(&pack(revision)));
    let line = line.ok_or_else(|| format!("the shop holds no {SHARED} of {}", pack(revision)))?;
    let next = line.replacen(&format!("pack: {}", pack(revision)), &format!("pack: {}", pack(revision + 1)), 1);
    let rest = text.replacen(line, &next, 1);
    let rest: Vec<&str> = rest.lines().filter(|line| !line.starts_with("revision:") && !line.starts_with("changes:")).collect();
    let (now, was) = (revision + 1, pack(revision));
    let head = format!("revision: {now}\nchanges: [{{revision: {now}, of: {SHARED}.pack, was: {was}, because: the seller fills more in, source: store-cards}}]\n");
    Ok(fs::write(shop, head + &rest.join("\n") + "\n")?)
}

/// How many pages of a site hold these words.
fn pages_with(site: &Path, words: &str) -> Result<usize> {
    let mut found = 0;
    for entry in walkdir::WalkDir::new(site) {
        let entry = entry?;
        if entry.path().extension().is_some_and(|kind| kind == "html") {
            found += usize::from(fs::read_to_string(entry.path())?.contains(words));
        }
    }
    Ok(found)
}

fn row(what: &str, work: &Work, against: Option<&Work>, goal: &str) {
    let (wall, processor) = (work.spent.wall, work.spent.processor);
    let ratio = |of: f64, to: fn(&Work) -> f64| against.map_or_else(String::new, |against| format!("{:.3}", of / to(against).max(1e-9)));
    let (by_wall, by_processor) = (ratio(wall, |work| work.spent.wall), ratio(processor, |work| work.spent.processor));
    println!("{what:<44}{wall:>10.3}{by_wall:>10}{processor:>10.2}{by_processor:>10}{goal:>8}");
}

fn mega(bytes: usize) -> f64 {
    mega_of(u64::try_from(bytes).unwrap_or(u64::MAX))
}

#[expect(clippy::cast_precision_loss, reason = "told to one place")]
fn mega_of(bytes: u64) -> f64 {
    bytes as f64 / 1e6
}
