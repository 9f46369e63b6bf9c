//! Running programs, and what they take.

use crate::Result;
use std::fs;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// Ticks a second in which Linux tells processor time (`USER_HZ`, proc(5)).
const TICKS: f64 = 100.0;

/// Time that work took, in seconds.
pub(crate) struct Spent {
    pub(crate) wall: f64,
    /// Of all programs that were run and ended.
    pub(crate) processor: f64,
}

/// A program that ran to its end.
pub(crate) struct Work {
    pub(crate) spent: Spent,
    /// The most memory it held, in bytes.
    pub(crate) most_memory: u64,
    pub(crate) told: String,
}

/// Runs a program that tells little.
pub(crate) fn run(command: &mut Command) -> Result<Work> {
    let mut most_memory = 0;
    let mut told = String::new();
    let spent = spent(|| {
        let mut child = command.stdout(Stdio::piped()).spawn()?;
        // Linux keeps the most a program ever held, up to its end.
        while child.try_wait()?.is_none() {
            most_memory = memory(child.id()).unwrap_or(0).max(most_memory);
            thread::sleep(Duration::from_millis(1));
        }
        let output = child.wait_with_output()?;
        told = String::from_utf8(output.stdout)?;
        if output.status.success() { Ok(()) } else { Err(format!("{:?} failed: {told}", command.get_program()).into()) }
    })?;
    Ok(Work { spent, most_memory, told })
}

/// What work takes, with the programs it runs.
pub(crate) fn spent(work: impl FnOnce() -> Result<()>) -> Result<Spent> {
    let (start, before) = (Instant::now(), of_programs()?);
    work()?;
    Ok(Spent { wall: start.elapsed().as_secs_f64(), processor: of_programs()? - before })
}

/// Processor time of the programs that were run and ended, in seconds.
fn of_programs() -> Result<f64> {
    let told = fs::read_to_string("/proc/self/stat")?;
    // Behind the name, which may hold anything, follows field 3; 16 and 17 are the times (proc(5)).
    let fields = told.rsplit_once(')').map_or("", |(_, rest)| rest).split_whitespace();
    let times = fields.skip(13).take(2).map(str::parse::<f64>).collect::<std::result::Result<Vec<_>, _>>()?;
    Ok(times.iter().sum::<f64>() / TICKS)
}

/// The most memory a running program ever held, in bytes.
fn memory(id: u32) -> Option<u64> {
    let told = fs::read_to_string(format!("/proc/{id}/status")).ok()?;
    let line = told.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().strip_suffix("kB")?.trim().parse::<u64>().ok()? * 1024)
}
