//! Photographs of a phone made ready for pages, by `benchleaf bind` and by libvips: how long, how large, how true, how much memory.
//!
//! `cargo bench --bench photographs -- [--photographs N] [--keep FOLDER]`. N photographs (60) of 12 megapixels are made in a
//! temporary folder, or in FOLDER, where they are found again the next time. A manual shows them all; `bind` publishes it, and
//! libvips makes the same renditions, one process a rendition, as many at once as there are processors:
//!
//! `VIPS_CONCURRENCY=1 vips thumbnail IN OUT.jpg[Q=80,strip] WIDTH`
//!
//! A single thread in each process, as the processes share the processors already. The programs take turns, so that a busy
//! machine slows both; their processor time is told beside, which a busy machine changes little.
//!
//! How true a rendition is, is told by its distance from what it should show: the scene before it became a JPEG, averaged over
//! the area of each pixel. Both programs average the codes of sRGB as they stand, without making light of them first, and so does
//! the reference, in `f64`. Some of the photographs are compared, evenly chosen.

#![expect(clippy::disallowed_methods, reason = "a bench is a program of its own: it makes folders and reads the clock")]
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a bench tells what it measured")]

#[path = "../shared/process.rs"]
mod process;
mod reference;
mod scene;

use process::{run, spent};
use reference::Reference;
use std::env;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::sync::atomic::{AtomicU32, AtomicUsize, Ordering};
use std::thread;

/// What is made of each photograph; widths in pixels.
const WIDTHS: [u32; 3] = [480, 960, 1600];
/// How many photographs are compared with what they should show: references take memory.
const COMPARED: u32 = 6;

type Result<T> = std::result::Result<T, Box<dyn std::error::Error>>;

fn main() -> ExitCode {
    match options().and_then(|(count, keep)| bench(count, keep)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn options() -> Result<(u32, Option<PathBuf>)> {
    let (mut count, mut keep) = (60, None);
    let mut arguments = env::args().skip(1);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            // Cargo says this to every bench.
            "--bench" => {}
            "--photographs" => count = arguments.next().ok_or("--photographs wants a number")?.parse()?,
            "--keep" => keep = Some(PathBuf::from(arguments.next().ok_or("--keep wants a folder")?)),
            other => return Err(format!("‘{other}’ is no option; there are --photographs N and --keep FOLDER").into()),
        }
    }
    if count == 0 { Err("at least one photograph".into()) } else { Ok((count, keep)) }
}

/// The places of one bench.
struct Trial {
    count: u32,
    manual: PathBuf,
    site: PathBuf,
    theirs: PathBuf,
}

impl Trial {
    fn photograph(&self, number: u32) -> PathBuf {
        self.manual.join(format!("tarn/pictures/view-{number}.jpg"))
    }

    fn their_rendition(&self, number: u32, width: u32) -> PathBuf {
        self.theirs.join(format!("view-{number}-{width}.jpg"))
    }

    fn our_rendition(&self, number: u32, width: u32) -> Result<PathBuf> {
        let start = format!("view-{number}-{width}.");
        for entry in fs::read_dir(self.site.join("tarn/pictures"))? {
            let path = entry?.path();
            if path.file_name().is_some_and(|name| name.to_string_lossy().starts_with(&start)) {
                return Ok(path);
            }
        }
        Err(format!("bind made no {start}…").into())
    }

    fn bind(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_benchleaf"));
        command.arg("bind").arg(&self.manual).arg("--into").arg(&self.site);
        command
    }
}

fn bench(count: u32, keep: Option<PathBuf>) -> Result<()> {
    let version = Command::new("vips").arg("--version").output();
    let version = version.map_err(|error| format!("no vips: install Debian's package libvips-tools ({error})"))?;
    let processors = thread::available_parallelism()?.get();
    println!("{} on {processors} processors", String::from_utf8_lossy(&version.stdout).trim());
    let scratch = tempfile::TempDir::new()?;
    let manual = keep.unwrap_or_else(|| scratch.path().join("manual"));
    let trial = Trial { count, manual, site: scratch.path().join("site"), theirs: scratch.path().join("theirs") };
    fs::create_dir_all(&trial.theirs)?;
    let references = prepare(&trial, processors)?;
    let bytes = total((0..count).map(|number| trial.photograph(number)))?;
    println!("{count} photographs, {:.2} MB each on average", mega(bytes) / f64::from(count));

    let first = run(&mut trial.bind())?;
    let vips = spent(|| thumbnails(&trial, processors))?;
    let second = run(&mut trial.bind())?;
    print!("first run:  {}second run: {}", first.told, second.told);
    if !second.told.contains(" 0 files written") {
        return Err("the second run wrote something".into());
    }
    let opened = opened(&trial)?;

    let mut sizes = (0, 0);
    for width in WIDTHS {
        let ours = (0..count).map(|number| trial.our_rendition(number, width)).collect::<Result<Vec<_>>>()?;
        sizes.0 += total(ours.into_iter())?;
        sizes.1 += total((0..count).map(|number| trial.their_rendition(number, width)))?;
    }
    println!();
    row("", "ours", "theirs", "", "goal");
    compared("wall time, s", first.spent.wall, vips.wall, "≤ 0.60");
    compared("processor time, s", first.spent.processor, vips.processor, "");
    compared("renditions, MB", mega(sizes.0), mega(sizes.1), "≤ 1.00");
    for (at, width) in WIDTHS.into_iter().enumerate() {
        let mut fidelity = (0.0, 0.0);
        for (number, reference) in &references {
            fidelity.0 += reference[at].fidelity(&trial.our_rendition(*number, width)?)?;
            fidelity.1 += reference[at].fidelity(&trial.their_rendition(*number, width))?;
        }
        let of = references.len().max(1) as f64;
        let (ours, theirs) = (fidelity.0 / of, fidelity.1 / of);
        row(
            &format!("PSNR at {width}, dB"),
            &format!("{ours:.2}"),
            &format!("{theirs:.2}"),
            &format!("{:+.2}", ours - theirs),
            "≥ −0.20",
        );
    }
    row("most memory, MB", &format!("{:.0}", mega(first.most_memory)), "", "", "< 400");
    let again = 100.0 * second.spent.wall / first.spent.wall;
    row("second run, s", &format!("{:.2}", second.spent.wall), "", &format!("{again:.1} %"), "< 5 %");
    row("second run, processor, s", &format!("{:.2}", second.spent.processor), "", "", "");
    row("second run, memory, MB", &format!("{:.0}", mega(second.most_memory)), "", "", "");
    row("photographs opened again", &opened.to_string(), "", "", "0");
    Ok(())
}

/// Makes the photographs and the manual; gives references for those that are compared.
fn prepare(trial: &Trial, processors: usize) -> Result<Vec<(u32, Vec<Reference>)>> {
    let pictures = trial.manual.join("tarn/pictures");
    fs::create_dir_all(&pictures)?;
    let head = "language: en-GB\nprofile: working\n";
    fs::write(trial.manual.join("manual.yaml"), format!("title: Trial\npublisher: Trial Society (invented)\n{head}"))?;
    let machine = "name: Tarn\nmaker: Orrinshaw (invented)\nkind: outboard motor\nrevision: 1\ndate: 2026-09-14\n";
    fs::write(trial.manual.join("tarn/machine.yaml"), machine)?;
    let mut page = "---\ntitle: The hub\nrevision: 1\ndate: 2026-09-14\n---\n".to_owned();
    for number in 0..trial.count {
        page += &format!(
            "\n## Look at view {number} {{#view-{number}}}\n\nLook at it.\n\n![The hub, view {number}](pictures/view-{number}.jpg)\n"
        );
    }
    fs::write(trial.manual.join("tarn/hub.md"), page)?;
    let next = AtomicU32::new(0);
    let every = trial.count.div_ceil(COMPARED);
    let work = || -> io::Result<Vec<(u32, Vec<Reference>)>> {
        let mut references = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= trial.count {
                return Ok(references);
            }
            let (file, wanted) = (trial.photograph(number), number.is_multiple_of(every));
            if file.exists() && !wanted {
                continue;
            }
            let scene = scene::scene(number);
            if wanted {
                references.push((number, WIDTHS.iter().map(|&width| Reference::of(&scene, width)).collect()));
            }
            if !file.exists() {
                fs::write(file, scene::photograph(&scene).map_err(io::Error::other)?)?;
            }
        }
    };
    let mut references = Vec::new();
    for part in several(processors, &work)? {
        references.extend(part?);
    }
    references.sort_by_key(|(number, _)| *number);
    Ok(references)
}

/// Every rendition by libvips, in a process of its own.
fn thumbnails(trial: &Trial, processors: usize) -> Result<()> {
    let next = AtomicUsize::new(0);
    let jobs: Vec<(u32, u32)> = (0..trial.count).flat_map(|number| WIDTHS.map(|width| (number, width))).collect();
    let work = || -> io::Result<()> {
        while let Some(&(number, width)) = jobs.get(next.fetch_add(1, Ordering::Relaxed)) {
            let into = format!("{}[Q=80,strip]", trial.their_rendition(number, width).display());
            let mut command = Command::new("vips");
            command
                .env("VIPS_CONCURRENCY", "1")
                .arg("thumbnail")
                .arg(trial.photograph(number))
                .arg(into)
                .arg(width.to_string());
            let run = command.output()?;
            if !run.status.success() {
                return Err(io::Error::other(String::from_utf8_lossy(&run.stderr).into_owned()));
            }
        }
        Ok(())
    };
    for done in several(processors, &work)? {
        done?;
    }
    Ok(())
}

/// The same work in several threads.
fn several<T: Send>(threads: usize, work: &(dyn Fn() -> T + Sync)) -> Result<Vec<T>> {
    thread::scope(|scope| {
        let started: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        started.into_iter().map(|thread| thread.join().map_err(|_| "a thread died".into())).collect()
    })
}

/// How many photographs the program opens to decode where the published site is as it left it: what `bind` does, counted.
fn opened(trial: &Trial) -> Result<usize> {
    let (sources, _) = benchleaf::source::read(&trial.manual).map_err(|error| error.to_string())?;
    let held = benchleaf::output::held(&trial.site).map_err(|error| error.to_string())?;
    let opened = AtomicUsize::new(0);
    let open = |path: &str| {
        opened.fetch_add(1, Ordering::Relaxed);
        benchleaf::source::read_picture(&sources, path)
    };
    let (made, _) = benchleaf::figure::renditions(&sources.pictures, &open, &|path| held.holds(path), 1);
    if made.len() == trial.count as usize {
        Ok(opened.into_inner())
    } else {
        Err("some photographs are not ready".into())
    }
}

fn total(files: impl Iterator<Item = PathBuf>) -> Result<u64> {
    files.map(|file| size(&file)).sum()
}

fn size(file: &Path) -> Result<u64> {
    Ok(fs::metadata(file).map_err(|error| format!("{}: {error}", file.display()))?.len())
}

fn mega(bytes: u64) -> f64 {
    bytes as f64 / 1e6
}

fn compared(what: &str, ours: f64, theirs: f64, goal: &str) {
    row(what, &format!("{ours:.2}"), &format!("{theirs:.2}"), &format!("{:.2}", ours / theirs), goal);
}

fn row(what: &str, ours: &str, theirs: &str, ratio: &str, goal: &str) {
    println!("{what:<26}{ours:>10}{theirs:>10}{ratio:>10}{goal:>10}");
}
