//! A crew: several threads at one row of jobs. What comes of them does not depend on how many there are.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What comes of each job, in the order of the jobs, worked off on so many threads; 0 counts as 1. Each thread takes
/// the next job that nobody has taken.
pub(crate) fn in_order<'j, J: Sync, R: Send>(jobs: &'j [J], threads: usize, work: impl Fn(&'j J) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let share = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(job) = jobs.get(index) else { break done };
            done.push((index, work(job)));
        }
    };
    let mut done = thread::scope(|scope| {
        let others: Vec<_> = (1..threads.min(jobs.len())).map(|_| scope.spawn(share)).collect();
        let mut done = share();
        for other in others {
            match other.join() {
                Ok(more) => done.extend(more),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        done
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

/// What comes of two jobs, worked off side by side where there are two threads.
pub(crate) fn both<A, B: Send>(threads: usize, one: impl FnOnce() -> A, other: impl FnOnce() -> B + Send) -> (A, B) {
    if threads < 2 {
        return (one(), other());
    }
    thread::scope(|scope| {
        let other = scope.spawn(other);
        let one = one();
        match other.join() {
            Ok(other) => (one, other),
            Err(panic) => std::panic::resume_unwind(panic),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_stand_in_the_order_of_the_jobs() {
        let jobs: Vec<usize> = (0..100).collect();
        let twice: Vec<usize> = jobs.iter().map(|job| job * 2).collect();
        for threads in [0, 1, 2, 7, 200] {
            // The first jobs take longest, so that they are done last.
            let slow = |job: &usize| {
                thread::sleep(std::time::Duration::from_micros(100_u64.saturating_sub(*job as u64)));
                job * 2
            };
            assert_eq!(in_order(&jobs, threads, slow), twice, "{threads} threads");
        }
        assert_eq!(in_order(&[] as &[u8], 3, |job| *job), Vec::<u8>::new());
    }

    #[test]
    fn two_jobs_are_worked_off_side_by_side() {
        let together = std::sync::Barrier::new(2);
        assert_eq!(both(2, || (together.wait(), 1).1, || (together.wait(), 2).1), (1, 2));
        for threads in [0, 1] {
            let here = thread::current().id();
            assert_eq!(both(threads, || 1, || thread::current().id()), (1, here));
        }
    }

    #[test]
    fn every_thread_takes_part() {
        use std::sync::Barrier;
        // Each job waits until as many are under way as there are threads.
        let together = Barrier::new(3);
        assert_eq!(in_order(&[1, 2, 3], 3, |job| (together.wait(), *job).1), [1, 2, 3]);
    }
}
