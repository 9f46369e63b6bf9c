//! How far long work has come, for a person at a terminal; a pipe hears nothing of it.

use indicatif::{ProgressBar, ProgressStyle};

/// With fewer machines than this the work is done before anybody wonders.
const LEAST: usize = 8;

/// Whether somebody is told.
#[derive(Clone, Copy, Debug)]
pub(super) struct Progress {
    shown: bool,
}

/// A line at the foot of the terminal, on the error output, until it is dropped. Several threads may tell of their work.
#[derive(Debug)]
pub(super) struct Stage {
    bar: ProgressBar,
}

impl Progress {
    /// `shown` where a person reads along; the library keeps quiet besides where its output is no terminal.
    pub(super) fn new(shown: bool) -> Self {
        Self { shown }
    }

    /// A stage begins: so many machines are to be dealt with.
    pub(super) fn stage(self, what: &'static str, machines: usize) -> Stage {
        if !self.shown || machines < LEAST {
            return Stage { bar: ProgressBar::hidden() };
        }
        // The pattern is a constant of ours: where it should be wrong, the bar has the library's looks.
        let style = ProgressStyle::with_template("{msg} [{bar:30}] {pos} of {len} machines").unwrap_or_else(|_| ProgressStyle::default_bar());
        let bar = ProgressBar::new(u64::try_from(machines).unwrap_or(u64::MAX)).with_style(style.progress_chars("=> ")).with_message(what);
        bar.tick();
        Stage { bar }
    }
}

impl Stage {
    /// One machine is done.
    pub(super) fn one(&self) {
        self.bar.inc(1);
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_work_and_work_nobody_watches_show_nothing() {
        for (shown, machines) in [(false, 1_000), (true, LEAST - 1)] {
            let stage = Progress::new(shown).stage("Looking at", machines);
            stage.one();
            assert_eq!(stage.bar.length(), None);
        }
        let stage = Progress::new(true).stage("Looking at", LEAST);
        (0..LEAST).for_each(|_| stage.one());
        assert_eq!((stage.bar.position(), stage.bar.length()), (8, Some(8)));
    }
}
