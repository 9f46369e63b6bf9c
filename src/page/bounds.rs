//! How much a template may do: a theme comes with a manual, so a slip or an ill will in it must not fill the memory.
//!
//! The engine itself refuses templates that include themselves and components within each other beyond twenty. What it
//! leaves open is bounded here: how long a page may become, and how far all counting loops together may run.

use std::cell::Cell;
use std::io::{self, Write};
use std::sync::atomic::{AtomicU64, Ordering};
use tera::{Kwargs, State};

/// Bytes that templates may print for one page, beside what they are given printed: some hundred times the largest of a
/// manual of a few machines.
const PAGE_LIMIT: usize = 64 * 1024 * 1024;
/// Rounds that one loop of `range` may make.
const LOOP_LIMIT: u64 = 100_000;
/// Rounds that all loops of `range` of one publishing may make together.
const ROUNDS_LIMIT: u64 = 20_000_000;

thread_local! {
    /// Where the thread's pages are printed, one after another: growing anew for each costs more than printing it.
    static ROOM: Cell<Vec<u8>> = const { Cell::new(Vec::new()) };
}
/// A longer page's room is given back.
const KEPT_ROOM: usize = 1024 * 1024;

/// A page while it is printed.
#[derive(Debug)]
pub(super) struct Bounded {
    bytes: Vec<u8>,
    limit: usize,
    full: bool,
}

impl Drop for Bounded {
    fn drop(&mut self) {
        if self.bytes.capacity() <= KEPT_ROOM {
            self.bytes.clear();
            ROOM.set(std::mem::take(&mut self.bytes));
        }
    }
}

impl Bounded {
    /// A page that holds so many bytes which are printed already, such as the tables of every machine of a large manual:
    /// they are no work of the templates, and don't count.
    pub(super) fn beside(printed: usize) -> Self {
        Self { bytes: ROOM.take(), limit: PAGE_LIMIT.saturating_add(printed), full: false }
    }

    /// Whether more was printed than a page may hold.
    pub(super) fn is_full(&self) -> bool {
        self.full
    }

    /// What to say of a page that is too long.
    pub(super) fn complaint(&self) -> String {
        format!("prints more than {} MiB for one page", PAGE_LIMIT / 1024 / 1024)
    }

    /// The page; none where it is no text.
    pub(super) fn into_text(mut self) -> Option<String> {
        if self.bytes.capacity() <= KEPT_ROOM {
            return std::str::from_utf8(&self.bytes).ok().map(str::to_owned);
        }
        String::from_utf8(std::mem::take(&mut self.bytes)).ok()
    }
}

impl Write for Bounded {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.write_all(bytes).map(|()| bytes.len())
    }

    /// Templates print in a million pieces of a few bytes: each is added at once, without asking how much of it was.
    fn write_all(&mut self, bytes: &[u8]) -> io::Result<()> {
        if self.full || self.bytes.len().saturating_add(bytes.len()) > self.limit {
            self.full = true;
            return Err(io::Error::other("the page is too long"));
        }
        self.bytes.extend_from_slice(bytes);
        Ok(())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// `range(start=…, end=…, step_by=…)` of the templates, from `start` (0) up to but without `end`.
pub(super) fn range() -> impl Fn(Kwargs, &State) -> Result<Vec<i64>, tera::Error> + Send + Sync + 'static {
    let rounds = AtomicU64::new(0);
    move |kwargs, _| {
        let start = kwargs.get::<i64>("start")?.unwrap_or_default();
        let end = kwargs.must_get::<i64>("end")?;
        let step = kwargs.get::<i64>("step_by")?.unwrap_or(1);
        let Some(step) = usize::try_from(step).ok().filter(|step| *step > 0) else {
            return Err(tera::Error::message("`range` counts up: ‘step_by’ is 1 or more"));
        };
        let count = end.checked_sub(start).and_then(|span| u64::try_from(span).ok()).unwrap_or(if end < start { 0 } else { u64::MAX });
        let all = rounds.fetch_add(count.min(ROUNDS_LIMIT), Ordering::Relaxed).saturating_add(count);
        if count > LOOP_LIMIT || all > ROUNDS_LIMIT {
            return Err(tera::Error::message("`range` asks for too many rounds"));
        }
        Ok((start..end).step_by(step).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_printed_already_does_not_count() {
        let piece = vec![b'x'; 1024 * 1024];
        for (printed, fits) in [(0, 64), (3 * piece.len(), 67), (usize::MAX, 80)] {
            let mut page = Bounded::beside(printed);
            let written = (0..80).take_while(|_| page.write(&piece).is_ok()).count();
            assert_eq!((written, page.is_full()), (fits, fits < 80), "{printed}");
        }
    }
}
