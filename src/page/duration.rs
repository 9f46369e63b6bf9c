//! How long a procedure takes, in words: the work, and what has to be waited for beside it.

use super::site::Scene;
use super::words::Arg;
use super::values::glued;
use crate::inspect::waited;
use crate::manual::Procedure;

impl Scene<'_> {
    /// The least and the most minutes that have to be waited for, over the sheets that what is known leaves; none where none
    /// of them has a wait.
    pub(super) fn waited(&self, procedure: &Procedure) -> Option<(f64, f64)> {
        waits(&self.by_sheet(procedure))
    }

    /// Minutes of work and of waiting of each sheet that what is known leaves.
    fn by_sheet(&self, procedure: &Procedure) -> Vec<(f64, f64)> {
        let index = self.machine.procedures.iter().position(|other| other.id == procedure.id);
        let sheets = index.and_then(|index| self.site.sheets.get(self.machine_index)?.get(index)).map(|sheets| sheets.all.as_slice());
        let known = sheets.unwrap_or_default().iter().filter_map(|(_, sheet)| self.known.and(sheet));
        known.map(|known| (procedure.minutes_where(&known).unwrap_or(0.0), waited(self.scope(), procedure, &known).unwrap_or(0.0))).collect()
    }

    /// The most minutes that a sheet takes, work and waiting together: whoever plans by it is not caught out.
    pub(super) fn most_minutes(&self, procedure: &Procedure) -> Option<f64> {
        let stated = procedure.minutes()?;
        ends(self.by_sheet(procedure).into_iter().map(|(work, waits)| work + waits)).map(|(_, most)| most).or(Some(stated))
    }

    /// `45 min of work, 24 h of waiting`: an evening's work is none that has to lie overnight.
    pub(super) fn time_text(&self, procedure: &Procedure) -> Option<String> {
        let stated = procedure.minutes()?;
        let sheets = self.by_sheet(procedure);
        let (least, most) = ends(sheets.iter().map(|(work, _)| *work)).unwrap_or((stated, stated));
        let work = self.wait_text(least, most);
        Some(match waits(&sheets) {
            None => work,
            Some((least, most)) => self.say("time-and-wait", &[("work", Arg::Text(&work)), ("wait", Arg::Text(&self.wait_text(least, most)))]),
        })
    }

    /// `24 h`, or `12 h to 24 h` where sheets differ.
    pub(super) fn wait_text(&self, least: f64, most: f64) -> String {
        let [low, high] = [least, most].map(|minutes| glued(&self.minutes_text(minutes)));
        if low == high { high } else { self.say("time-span", &[("least", Arg::Text(&low)), ("most", Arg::Text(&high))]) }
    }

    /// `1 h 40 min`.
    pub(super) fn minutes_text(&self, minutes: f64) -> String {
        let whole = format!("{:.0}", minutes.clamp(0.0, 1e9)).parse::<u64>().unwrap_or(0);
        let (hours, rest) = (whole / 60, whole % 60);
        let args = [("hours", Arg::Count(hours)), ("minutes", Arg::Count(rest))];
        match (hours, rest) {
            (0, _) => self.say("time-minutes", &args),
            (_, 0) => self.say("time-hours", &args),
            _ => self.say("time-both", &args),
        }
    }
}

/// The least and the most waiting of some sheets; none where none of them has any.
fn waits(sheets: &[(f64, f64)]) -> Option<(f64, f64)> {
    ends(sheets.iter().map(|(_, waits)| *waits)).filter(|(_, most)| *most > 0.0)
}

/// The least and the most.
fn ends(minutes: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    minutes.map(|one| (one, one)).reduce(|(low, high), (one, _)| (low.min(one), high.max(one)))
}
