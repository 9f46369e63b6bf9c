//! A sheet of checks: every value is held against its source, and every one that is off is told at the end.
#![allow(dead_code, reason = "each test file compiles the sheet for itself and uses what it needs of it")]

/// How far a value may be off.
#[derive(Clone, Copy)]
pub(crate) enum Tolerance {
    /// In the unit of the value.
    By(f64),
    /// In per cent of the expected value.
    PerCent(f64),
}

/// The checks of one subject.
#[derive(Default)]
pub(crate) struct Sheet {
    checked: usize,
    off: Vec<String>,
}

impl Sheet {
    /// Holds one value against the outside: `id` is its row in the store of check values, `what` the quantity.
    pub(crate) fn value(&mut self, id: &str, what: &str, ours: impl Into<Option<f64>>, expected: f64, tolerance: Tolerance) {
        let ours = ours.into().unwrap_or(f64::NAN);
        let allowed = match tolerance {
            Tolerance::By(allowed) => allowed,
            Tolerance::PerCent(share) => (expected * share / 100.0).abs(),
        };
        // A hair for sums that meet their limit exactly.
        let good = (ours - expected).abs() <= allowed * (1.0 + 1e-9) + 1e-12;
        self.told(id, good, || format!("{what}: {ours} against {expected} ± {allowed}"));
    }

    /// Holds one statement against the outside.
    pub(crate) fn holds(&mut self, id: &str, what: &str, good: bool) {
        self.told(id, good, || what.to_owned());
    }

    /// Ends the sheet: nothing may be off, and so many values at least were checked.
    pub(crate) fn done(self, least: usize) {
        assert!(self.off.is_empty(), "{} of {} are off:\n{}", self.off.len(), self.checked, self.off.join("\n"));
        assert!(self.checked >= least, "only {} values were checked, not {least}", self.checked);
    }

    fn told(&mut self, id: &str, good: bool, words: impl FnOnce() -> String) {
        self.checked += 1;
        if !good {
            self.off.push(format!("{id} {}", words()));
        }
    }
}
