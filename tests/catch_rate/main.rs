//! How many mistakes are caught: the clean demo with one mistake at a time, at every place where it can be
//! made.
//!
//! Every run of the tests makes a few of each kind, spread evenly, and fails if a rate falls below what stands in
//! `tests/catch_rate/table.md`. `cargo test --test catch_rate -- --ignored` writes that table anew, then makes all there are,
//! which takes minutes, and lists what was missed.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and spoils real folders")]

mod demo;
mod kinds;

use benchleaf::finding::{Finding, Severity};
use benchleaf::inspect::{Terms, inspect};
use benchleaf::manual::{Ledger, lower};
use benchleaf::source::{Sources, read};
use demo::{Demo, Seed};
use kinds::{KINDS, Kind};
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What came of one kind of mistake.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Count {
    made: usize,
    caught: usize,
    in_place: usize,
    missed: Vec<String>,
}

/// A copy of the demo in which one file at a time is spoilt and put right again.
struct Bench {
    folder: TempDir,
    terms: Terms,
}

impl Bench {
    fn new(demo: &Demo) -> Self {
        let folder = TempDir::new().unwrap();
        copy(&demo.folder, folder.path());
        let (sources, _) = read(folder.path()).unwrap();
        let against = Some(Ledger::of(&lower(&sources).0));
        Self { folder, terms: Terms { against, ..Terms::default() } }
    }

    /// Inspects the demo with one mistake in it.
    fn try_out(&self, demo: &Demo, seed: &Seed, compared: bool) -> (Sources, Vec<Finding>) {
        let path = self.folder.path().join(&seed.file);
        fs::write(&path, &seed.text).unwrap();
        let (sources, earlier) = read(self.folder.path()).unwrap();
        let (manual, more) = lower(&sources);
        let alone = Terms::default();
        let terms = if compared { &self.terms } else { &alone };
        let findings = inspect(&manual, &sources, earlier.into_iter().chain(more).collect(), terms).findings;
        fs::write(&path, &demo.files[&seed.file]).unwrap();
        (sources, findings)
    }
}

fn copy(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        // Build records tell of themselves, whatever is spoilt.
        if path.ends_with("builds") {
            continue;
        }
        if path.is_dir() {
            fs::create_dir_all(&target).unwrap();
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).unwrap();
        }
    }
}

fn demo() -> Demo {
    Demo::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"))
}

/// So many mistakes of a kind are made in every run of the tests.
const FEW: usize = 8;

/// The mistakes of a kind, or a few of them from all over the manual.
fn seeds(demo: &Demo, kind: &Kind, few: bool) -> Vec<Seed> {
    let all = (kind.seeds)(demo);
    let step = if few { all.len().div_ceil(FEW).max(1) } else { 1 };
    all.into_iter().step_by(step).collect()
}

fn count(demo: &Demo, bench: &Bench, kind: &Kind, few: bool) -> Count {
    let mut count = Count::default();
    for seed in seeds(demo, kind, few) {
        let (sources, findings) = bench.try_out(demo, &seed, kind.compared);
        let told: Vec<&Finding> = findings.iter().filter(|finding| finding.grade() >= Severity::Warning).collect();
        count.made += 1;
        if told.is_empty() {
            count.missed.push(format!("{}:{} {}", seed.file, seed.lines.first().unwrap_or(&0), seed.what));
            continue;
        }
        count.caught += 1;
        // A line of 0: the finding stands in another file than the mistake, wherever that is right.
        let anywhere = seed.lines.first() == Some(&0);
        let here = |place: &benchleaf::finding::Place| {
            let first = sources.files.position(place.file, place.start).line;
            let last = sources.files.position(place.file, place.end).line;
            sources.files.name(place.file) == seed.file && seed.lines.iter().any(|line| (first..=last).contains(line))
        };
        if anywhere || told.iter().any(|finding| here(finding.place()) || finding.related_places().iter().any(|(place, _)| here(place))) {
            count.in_place += 1;
        }
    }
    count
}

fn counts(few: bool) -> Vec<Count> {
    let demo = demo();
    let next = std::sync::atomic::AtomicUsize::new(0);
    let mut counts = vec![Count::default(); KINDS.len()];
    let done = std::sync::Mutex::new(&mut counts);
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                let bench = Bench::new(&demo);
                loop {
                    let at = next.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
                    let Some(kind) = KINDS.get(at) else { break };
                    let count = count(&demo, &bench, kind, few);
                    done.lock().unwrap()[at] = count;
                }
            });
        }
    });
    counts
}

fn percent(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { 100.0 * f64::from(u32::try_from(part).unwrap()) / f64::from(u32::try_from(whole).unwrap()) }
}

/// The mean over the decidable kinds, per cent.
fn headline(counts: &[Count]) -> f64 {
    let rates: Vec<f64> =
        KINDS.iter().zip(counts).filter(|(kind, count)| kind.decidable && count.made > 0).map(|(_, c)| percent(c.caught, c.made)).collect();
    rates.iter().sum::<f64>() / f64::from(u32::try_from(rates.len()).unwrap())
}

fn table(counts: &[Count]) -> String {
    let mut text = String::new();
    let made: usize = counts.iter().map(|count| count.made).sum();
    writeln!(text, "# Mistakes caught\n").unwrap();
    writeln!(
        text,
        "The clean demo with one mistake at a time, places spread over the whole manual: {made} mistakes. Of the kinds that can\nalways be decided, **{:.1} %** are caught (the mean over the kinds).\n",
        headline(counts)
    )
    .unwrap();
    for (heading, decidable) in [("Decidable: goal 100 %", true), ("Plausibility: caught where the figure leaves what is usual", false)] {
        writeln!(text, "| {heading} | made | caught | in the right place |\n| --- | ---: | ---: | ---: |").unwrap();
        for (kind, count) in KINDS.iter().zip(counts).filter(|(kind, _)| kind.decidable == decidable) {
            writeln!(
                text,
                "| {} | {} | {} ({:.0} %) | {} |",
                kind.name,
                count.made,
                count.caught,
                percent(count.caught, count.made),
                count.in_place
            )
            .unwrap();
        }
        writeln!(text).unwrap();
    }
    text.trim_end().to_owned() + "\n"
}

fn table_path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/catch_rate/table.md")
}

/// `caught` and `in the right place` of each row of the committed table, by the row's name.
fn recorded() -> Vec<(String, usize, usize)> {
    let text = fs::read_to_string(table_path()).unwrap();
    text.lines()
        .filter_map(|line| {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let caught = cells.get(2)?.split(' ').next()?.parse().ok()?;
            Some((cells.first()?.to_string(), caught, cells.get(3)?.parse().ok()?))
        })
        .collect()
}

#[test]
fn no_rate_falls_below_what_is_recorded() {
    let counts = counts(true);
    let recorded = recorded();
    let mut worse = Vec::new();
    for (kind, count) in KINDS.iter().zip(&counts) {
        let Some((_, caught, in_place)) = recorded.iter().find(|(name, _, _)| name == kind.name) else {
            worse.push(format!("{} is not in the table", kind.name));
            continue;
        };
        if count.caught < *caught || count.in_place < *in_place {
            worse.push(format!("{}: {} caught ({caught} recorded), {} in place ({in_place} recorded); missed {:#?}", kind.name, count.caught, count.in_place, count.missed));
        }
    }
    assert!(worse.is_empty(), "{worse:#?}");
    let decided = KINDS.iter().zip(&counts).filter(|(kind, _)| kind.decidable);
    assert!(decided.clone().all(|(_, count)| count.made > 0), "a kind of mistake could be made nowhere: {:?}", decided.filter(|(_, c)| c.made == 0).map(|(k, _)| k.name).collect::<Vec<_>>());
}

#[test]
fn the_clean_demo_is_silent() {
    let demo = demo();
    let bench = Bench::new(&demo);
    let (file, text) = demo.files.iter().next().unwrap();
    let seed = Seed { file: file.clone(), text: text.clone(), lines: Vec::new(), what: String::new() };
    let (_, findings) = bench.try_out(&demo, &seed, true);
    assert!(findings.is_empty(), "{findings:#?}");
}

#[test]
#[ignore = "writes the table anew, and takes minutes"]
fn rewrite_the_table_and_make_every_mistake() {
    for few in [true, false] {
        let counts = counts(few);
        if few {
            fs::write(table_path(), table(&counts)).unwrap();
        } else {
            println!("{}", table(&counts));
        }
        for (kind, count) in KINDS.iter().zip(&counts) {
            println!("{}: {} of {}, {} in place", kind.name, count.caught, count.made, count.in_place);
            for missed in &count.missed {
                println!("    missed {missed}");
            }
        }
    }
}
