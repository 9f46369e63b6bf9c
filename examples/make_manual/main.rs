//! Writes a manual of as many procedures as asked: realistic in size and kind, the same bytes for the same seed.
//!
//! `cargo run --release --example make_manual -- 1000 FOLDER [SEED]`. The folder must be new or empty. Every
//! machine, maker, person and value in such a manual is invented; it serves to measure and to test with.

#![expect(clippy::disallowed_methods, reason = "an example is a program of its own and writes its own files")]
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "an example tells what it did")]

mod generate;

use std::path::Path;
use std::process::ExitCode;
use std::{env, fs, io};

const USAGE: &str = "usage: make_manual PROCEDURES FOLDER [SEED]";
const SEED: u64 = 1;

fn main() -> ExitCode {
    match run(&env::args().skip(1).collect::<Vec<_>>()) {
        Ok(told) => {
            println!("{told}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &[String]) -> Result<String, String> {
    let (procedures, folder, seed) = match arguments {
        [procedures, folder] => (procedures, folder, SEED),
        [procedures, folder, seed] => (procedures, folder, seed.parse().map_err(|_| format!("‘{seed}’ is no seed: a whole number"))?),
        _ => return Err(USAGE.to_owned()),
    };
    let count: usize = procedures.parse().ok().filter(|count| *count > 0).ok_or_else(|| format!("‘{procedures}’ is no number of procedures"))?;
    let folder = Path::new(folder);
    must_be_empty(folder)?;
    let files = generate::manual(count, seed);
    let mut bytes = 0;
    for (path, text) in &files {
        bytes += text.len();
        write(&folder.join(path), text).map_err(|error| format!("{path}: {error}"))?;
    }
    Ok(format!("{}: {count} procedures in {} files, {bytes} bytes, seed {seed}", folder.display(), files.len()))
}

/// Nothing of anybody's is written over.
fn must_be_empty(folder: &Path) -> Result<(), String> {
    match fs::read_dir(folder).map(|mut entries| entries.next().is_none()) {
        Ok(true) => Ok(()),
        Ok(false) => Err(format!("{} is not empty; name a new or an empty folder", folder.display())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(format!("{}: {error}", folder.display())),
    }
}

fn write(path: &Path, text: &str) -> io::Result<()> {
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    fs::write(path, text)
}
