//! How much memory the photographs being unpacked at one time may take together.

use std::sync::{Condvar, Mutex};

/// A store of memory to be taken from and given back. Who asks for more than is there waits.
#[derive(Debug)]
pub(super) struct Budget {
    whole: u64,
    free: Mutex<u64>,
    returned: Condvar,
}

/// A part of a budget, given back when dropped.
#[derive(Debug)]
pub(super) struct Share<'b> {
    budget: &'b Budget,
    bytes: u64,
}

impl Budget {
    /// A budget of so many bytes.
    pub(super) const fn new(bytes: u64) -> Self {
        Self { whole: bytes, free: Mutex::new(bytes), returned: Condvar::new() }
    }

    /// Takes a part, as soon as it is free. Who asks for more than the whole gets the whole, and so works alone.
    pub(super) fn take(&self, bytes: u64) -> Share<'_> {
        let bytes = bytes.min(self.whole);
        // A thread that died holding the lock left a plain number, which is still right.
        let mut free = self.free.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        while *free < bytes {
            free = self.returned.wait(free).unwrap_or_else(std::sync::PoisonError::into_inner);
        }
        *free -= bytes;
        Share { budget: self, bytes }
    }
}

impl Drop for Share<'_> {
    fn drop(&mut self) {
        *self.budget.free.lock().unwrap_or_else(std::sync::PoisonError::into_inner) += self.bytes;
        self.budget.returned.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicU64, Ordering};

    #[test]
    fn never_more_than_the_whole_is_out_and_nobody_waits_for_ever() {
        let budget = Budget::new(100);
        let (out, most) = (AtomicU64::new(0), AtomicU64::new(0));
        std::thread::scope(|scope| {
            for thread in 1..=8u64 {
                let (budget, out, most) = (&budget, &out, &most);
                scope.spawn(move || {
                    for round in 0..200 {
                        let wanted = (thread * 37 + round * 13) % 140;
                        let share = budget.take(wanted);
                        let now = out.fetch_add(share.bytes, Ordering::SeqCst) + share.bytes;
                        most.fetch_max(now, Ordering::SeqCst);
                        std::thread::yield_now();
                        out.fetch_sub(share.bytes, Ordering::SeqCst);
                    }
                });
            }
        });
        assert!(most.load(Ordering::SeqCst) <= 100);
        assert_eq!(*budget.free.lock().unwrap(), 100);
    }
}
