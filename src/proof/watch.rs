//! Hearing of saved files: many events become one, a folder may vanish and come back.

use notify::event::{AccessKind, AccessMode, ModifyKind};
use notify::{Config, Event, EventKind, PollWatcher, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::{Duration, Instant};

/// A save is over when nothing has happened for so long: editors write, rename and remove in a row.
const QUIET: Duration = Duration::from_millis(40);
/// Where it never gets quiet, what has come by then is taken.
const LONGEST: Duration = Duration::from_secs(1);
/// How often a folder that is gone is looked for.
const LOOK_AGAIN: Duration = Duration::from_millis(300);
/// How often a quiet folder is looked at: nobody tells when a folder around it is moved.
const LOOK_AFTER: Duration = Duration::from_secs(2);
/// How often files are looked through where the system tells nothing.
const POLL: Duration = Duration::from_secs(1);

/// What has changed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Saved {
    /// The files and folders that were touched, sorted.
    pub paths: BTreeSet<PathBuf>,
    /// Whether anything may have changed: the folder vanished or came back, or more happened than the system could tell.
    pub all: bool,
}

/// Hears of what changes in a folder.
pub struct Watch {
    folder: PathBuf,
    /// Folders beside it that matter too, such as a theme's.
    beside: BTreeSet<PathBuf>,
    watcher: Option<Box<dyn Watcher + Send>>,
    sender: Sender<Event>,
    events: Receiver<Event>,
    /// Whether a path's name is one that matters.
    matters: fn(&str) -> bool,
    /// Whether the folder is there.
    stands: fn(&Path) -> bool,
    lost: bool,
}

impl Watch {
    /// Watches a folder, by its real path. `matters` tells by its name whether a file or folder may; `stands` whether the
    /// folder is there.
    #[must_use]
    pub fn new(folder: PathBuf, matters: fn(&str) -> bool, stands: fn(&Path) -> bool) -> Self {
        let (sender, events) = channel();
        let mut watch = Self { folder, beside: BTreeSet::new(), watcher: None, sender, events, matters, stands, lost: false };
        watch.lost = !watch.take_hold();
        watch
    }

    /// Watches this folder too, where it does not lie in the first one.
    pub fn also(&mut self, folder: &Path) {
        if !folder.starts_with(&self.folder) && self.beside.insert(folder.to_owned()) && !self.take_hold() {
            self.lost = true;
        }
    }

    /// Waits until something has changed and it is quiet again; with a patience no longer than that, and gives none when it is
    /// over.
    pub fn next_save(&mut self, patience: Option<Duration>) -> Option<Saved> {
        let mut left = patience;
        loop {
            let look = if self.lost { LOOK_AGAIN } else { LOOK_AFTER };
            let wait = left.map_or(look, |left| left.min(look));
            match self.events.recv_timeout(wait) {
                Ok(first) => {
                    let saved = self.gather(first);
                    if saved.all || !saved.paths.is_empty() {
                        return Some(saved);
                    }
                }
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {
                    let stands = (self.stands)(&self.folder);
                    if self.lost && stands && self.take_hold() {
                        self.lost = false;
                        return Some(Saved { all: true, ..Saved::default() });
                    }
                    if !self.lost && !stands {
                        self.lost = true;
                        return Some(Saved { all: true, ..Saved::default() });
                    }
                    left = left.map(|left| left.saturating_sub(wait));
                    if left.is_some_and(|left| left.is_zero()) {
                        return None;
                    }
                }
            }
        }
    }

    /// Takes what comes until it is quiet.
    #[expect(clippy::disallowed_methods, reason = "how long to wait for more is no part of what is shown")]
    fn gather(&mut self, first: Event) -> Saved {
        let begun = Instant::now();
        let mut saved = Saved::default();
        let mut event = Some(first);
        while let Some(one) = event.take() {
            self.add(&one, &mut saved);
            if begun.elapsed() < LONGEST {
                event = self.events.recv_timeout(QUIET).ok();
            }
        }
        if saved.all {
            // What is watched may be a folder that was moved away: hold on to the one that is there now.
            self.lost = !(self.stands)(&self.folder) || !self.take_hold();
        }
        saved
    }

    fn add(&self, event: &Event, saved: &mut Saved) {
        saved.all |= event.need_rescan();
        for path in &event.paths {
            let gone = matches!(event.kind, EventKind::Remove(_) | EventKind::Modify(ModifyKind::Name(_)));
            if *path == self.folder || self.beside.contains(path) {
                saved.all |= gone;
                continue;
            }
            let below = path.strip_prefix(&self.folder).ok().or_else(|| self.beside.iter().find_map(|folder| path.strip_prefix(folder).ok()));
            if below.is_some_and(|below| below.components().all(|part| (self.matters)(&part.as_os_str().to_string_lossy()))) {
                saved.paths.insert(path.clone());
            }
        }
    }

    /// Watches anew what is there now; where the system can't tell of changes, by looking at the files again and again.
    fn take_hold(&mut self) -> bool {
        self.watcher = None;
        let config = Config::default().with_follow_symlinks(false);
        let told = RecommendedWatcher::new(sink(&self.sender), config).ok().map(|watcher| Box::new(watcher) as Box<dyn Watcher + Send>);
        let polled = || {
            let config = Config::default().with_follow_symlinks(false).with_poll_interval(POLL);
            PollWatcher::new(sink(&self.sender), config).ok().map(|watcher| Box::new(watcher) as Box<dyn Watcher + Send>)
        };
        let held = told.and_then(|watcher| self.held(watcher)).or_else(|| polled().and_then(|watcher| self.held(watcher)));
        self.watcher = held;
        self.watcher.is_some()
    }

    fn held(&self, mut watcher: Box<dyn Watcher + Send>) -> Option<Box<dyn Watcher + Send>> {
        watcher.watch(&self.folder, RecursiveMode::Recursive).ok()?;
        for folder in &self.beside {
            // One beside that is gone is told when the manual is read.
            let _ = watcher.watch(folder, RecursiveMode::Recursive);
        }
        Some(watcher)
    }
}

/// Passes on what changes something. That a file was read, by this program above all, changes nothing.
fn sink(sender: &Sender<Event>) -> impl FnMut(notify::Result<Event>) + Send + 'static {
    let sender = sender.clone();
    move |event| {
        let event = event.unwrap_or_else(|error| Event { paths: error.paths, ..Event::new(EventKind::Other) });
        let reads = matches!(event.kind, EventKind::Access(kind) if kind != AccessKind::Close(AccessMode::Write));
        if !reads {
            // Where nobody listens any more, the program ends.
            let _ = sender.send(event);
        }
    }
}
