//! `proof`: shows the manual in a browser on this machine, and follows each save.

use super::arguments_proof::ProofOptions;
use super::proof_build::{Build, rebuild};
use super::work::manual_folder;
use super::{Outcome, World};
use crate::output::Scratch;
use crate::proof::{Ending, Saved, ServeError, Shelf, Watch, doors, free_port_after, listen, serve};
use crate::source::{is_left_behind, stands};
use std::io::{self, Write};
use std::net::{IpAddr, SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// What the threads have to say.
enum Said {
    /// The first pages are there.
    Ready(Shelf, String),
    /// A line for the person at the terminal.
    Line(String),
    /// The program was asked to end, or the server has ended.
    End(Result<(), ServeError>),
}

/// Where a proof comes from and goes to.
struct Folders {
    manual: PathBuf,
    copy: PathBuf,
}

/// Files that are named in a line; of more, the number.
const NAMED: usize = 3;
/// What the system refuses may be granted soon: it is tried again after this, then after ever longer.
const TRY_AGAIN: Duration = Duration::from_secs(1);
/// The longest time between two such tries.
const TRY_SELDOM: Duration = Duration::from_secs(30);
/// At its end the program waits so long, in steps, for a thread that is making pages.
const LAST_STEP: Duration = Duration::from_millis(20);
const LAST_STEPS: usize = 500;

pub(super) fn run(options: &ProofOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let folder = match manual_folder(options.manual.as_ref(), world) {
        Ok(folder) => folder,
        Err(error) => return could_not(err, &error.to_string()),
    };
    let (listener, own) = match listen(options.address, options.port) {
        Ok(taken) => taken,
        Err(error) => return could_not(err, &advice(&error)),
    };
    if !own.ip().is_loopback() {
        writeln!(err, "Warning: whoever is in the same network can read this manual while the proof runs.")?;
    }
    // Whoever ends the program from here on finds its folder gone.
    let ending = match Ending::listen() {
        Ok(ending) => ending,
        Err(error) => return could_not(err, &error.to_string()),
    };
    // Watching begins before reading, so that nothing saved in between is missed.
    let watch = Watch::new(folder.clone(), |name| !is_left_behind(name), stands);
    // The proof is published like any site, only into a folder of its own: so that a save costs what changed.
    let scratch = match Scratch::new("benchleaf-proof-") {
        Ok(scratch) => scratch,
        Err(error) => return could_not(err, &format!("no folder could be made for the pages of the proof: {error}")),
    };
    let copy = scratch.path().join("site");
    let over = Arc::new(Mutex::new(false));
    let (say, said) = channel();
    let (threads, world_there, over_there, say_there) = (world.threads(options.threads), world.clone(), Arc::clone(&over), say.clone());
    let folders = Folders { manual: folder, copy: copy.clone() };
    std::thread::spawn(move || follow(watch, &folders, &world_there, threads, &over_there, &say_there));
    let ended = say.clone();
    std::thread::spawn(move || ended.send(Said::End(ending.wait())));
    let outcome = until_the_end(&said, &say, (listener, own), world, out, err);
    put_away(&scratch, &copy, &over);
    outcome
}

/// Shows the pages, and says what is to be said, until the program is asked to end.
fn until_the_end(said: &Receiver<Said>, say: &Sender<Said>, (listener, own): (TcpListener, SocketAddr), world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let (mut listener, mut server) = (Some(listener), None);
    for what in said {
        match what {
            Said::Ready(shelf, line) => {
                writeln!(out, "{}", address(own))?;
                if world.terminal {
                    writeln!(out, "{line}\nSave a file, and the open page follows. Ctrl-C ends the proof.")?;
                }
                out.flush()?;
                if let Some(listener) = listener.take() {
                    let (ended, (open, closing)) = (say.clone(), doors());
                    let answering = std::thread::spawn(move || {
                        // Nobody hears it any more where the end was asked for.
                        let _ = ended.send(Said::End(serve(listener, shelf, closing)));
                    });
                    server = Some((open, answering));
                }
            }
            // Whoever runs this in a script has the address, and the pages.
            Said::Line(line) if world.terminal => {
                writeln!(out, "{line}")?;
                out.flush()?;
            }
            Said::Line(_) => {}
            Said::End(Ok(())) => break,
            Said::End(Err(error)) => return could_not(err, &error.to_string()),
        }
    }
    // Pages that are still answered while their files go would be loaded anew, and not hear of the end.
    if let Some((open, answering)) = server.take() {
        drop(open);
        // A server that came to grief has said so.
        let _ = answering.join();
    }
    if world.terminal {
        writeln!(out, "The proof has ended.")?;
    }
    Ok(Outcome::Clean)
}

/// Waits for a thread that is just making pages: it would write into the folder while that is removed. Without its files it
/// soon gives up. What is left all the same is cleared by the next proof.
fn put_away(scratch: &Scratch, copy: &Path, over: &Mutex<bool>) {
    for _ in 0..LAST_STEPS {
        // Nobody is making pages, nor will begin to.
        if let Ok(mut over) = over.try_lock() {
            *over = true;
            return;
        }
        scratch.take_away(copy);
        std::thread::sleep(LAST_STEP);
    }
}

/// Makes the first pages, and rebuilds at each save until nobody listens. What the system refused is tried again without one.
fn follow(mut watch: Watch, folders: &Folders, world: &World, threads: usize, over: &Mutex<bool>, say: &Sender<Said>) {
    let make = |previous: Option<Build>| {
        let over = over.lock().ok().filter(|over| !**over)?;
        let build = rebuild(previous, &folders.manual, &folders.copy, world, threads);
        drop(over);
        Some(build)
    };
    let Some(mut build) = make(None) else { return };
    let shelf = Shelf::new(build.copy());
    if say.send(Said::Ready(shelf.clone(), build.line(""))).is_err() {
        return;
    }
    let mut patience = TRY_AGAIN;
    loop {
        if let Some(theme) = build.theme() {
            watch.also(theme);
        }
        let saved = watch.next_save(build.may_pass().then_some(patience));
        let was_kept = build.is_kept();
        patience = if saved.is_some() { TRY_AGAIN } else { (patience * 2).min(TRY_SELDOM) };
        let Some(next) = make(Some(build)) else { return };
        build = next;
        shelf.put(build.copy());
        let line = match &saved {
            Some(saved) => build.line(&named(saved, &folders.manual)),
            // That it still can't be read was said.
            None if build.is_kept() || !was_kept => continue,
            None => build.line("tried again"),
        };
        if say.send(Said::Line(line)).is_err() {
            return;
        }
    }
}

/// The files of a save, for a line.
fn named(saved: &Saved, folder: &Path) -> String {
    if saved.all {
        return "the whole folder".to_owned();
    }
    let name = |path: &Path| path.strip_prefix(folder).unwrap_or(path).components().map(|part| part.as_os_str().to_string_lossy().escape_debug().to_string()).collect::<Vec<_>>().join("/");
    // Programs save by way of files with made-up names; the manual's own have endings.
    let own: Vec<_> = saved.paths.iter().filter(|path| path.extension().is_some()).collect();
    let shown: Vec<_> = if own.is_empty() { saved.paths.iter().collect() } else { own };
    let mut names: Vec<String> = shown.iter().take(NAMED).map(|path| name(path)).collect();
    match shown.len().saturating_sub(NAMED) {
        0 => {}
        more => names.push(format!("{more} more")),
    }
    names.join(", ")
}

fn address(own: SocketAddr) -> String {
    let ip = match own.ip() {
        // Every address of this machine: its own is the one that surely works here.
        IpAddr::V4(ip) if ip.is_unspecified() => "127.0.0.1".to_owned(),
        IpAddr::V6(ip) if ip.is_unspecified() => "[::1]".to_owned(),
        IpAddr::V4(ip) => ip.to_string(),
        IpAddr::V6(ip) => format!("[{ip}]"),
    };
    format!("http://{ip}:{}/", own.port())
}

fn advice(error: &ServeError) -> String {
    let free = match error {
        ServeError::Taken(at) => free_port_after(at.ip(), at.port()),
        ServeError::NoSuchAddress(_) | ServeError::NotAllowed(_) | ServeError::System(_) => None,
    };
    free.map_or_else(|| error.to_string(), |port| format!("{error}; port {port} is free: benchleaf proof --port {port}"))
}

fn could_not(err: &mut dyn Write, message: &str) -> io::Result<Outcome> {
    writeln!(err, "{message}")?;
    Ok(Outcome::CouldNotRun)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_names_a_few_files_and_counts_the_rest() {
        let saved = |names: &[&str]| Saved { paths: names.iter().map(|name| PathBuf::from("/m").join(name)).collect(), all: false };
        let named = |names: &[&str]| named(&saved(names), Path::new("/m"));
        assert_eq!(named(&["a/b.md", "a/sedXyZ"]), "a/b.md");
        assert_eq!(named(&["a"]), "a");
        assert_eq!(named(&["a/1.md", "a/2.md", "a/3.md", "a/4.md", "a/5.md"]), "a/1.md, a/2.md, a/3.md, 2 more");
        assert_eq!(named(&["a/\u{1b}[2J.md"]), "a/\\u{1b}[2J.md");
        assert_eq!(super::named(&Saved { all: true, ..Saved::default() }, Path::new("/m")), "the whole folder");
    }

    #[test]
    fn an_address_can_be_opened_as_it_is_printed() {
        let address = |at: &str| address(at.parse().unwrap());
        assert_eq!(address("127.0.0.1:7420"), "http://127.0.0.1:7420/");
        assert_eq!(address("[::1]:7420"), "http://[::1]:7420/");
        assert_eq!(address("0.0.0.0:7420"), "http://127.0.0.1:7420/");
    }
}
