//! The spans of a recording for which there is no step: before the first one, between the end a step states and the next,
//! behind the last; and the silent spans in which none begins.

use super::film::Film;
use super::speech::span;
use crate::quantity::MomentSpan;

/// A span without a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    /// From when to when.
    pub span: MomentSpan,
    /// Whether hands work there and nothing is said (`silent:`).
    pub silent: bool,
}

/// The spans without a step, in the order of the recording. A step that states only its moment lasts until the next one.
#[must_use]
pub fn gaps(film: &Film<'_>) -> Vec<Gap> {
    let windows = film.windows();
    let mut found = Vec::new();
    let mut add = |from: u32, to: u32, silent: bool| {
        if let Some(span) = (from < to).then(|| span(u64::from(from), u64::from(to))).flatten() {
            found.push(Gap { span, silent });
        }
    };
    // Up to which second some step lasts; none while one goes on until the next begins.
    let mut covered = Some(0_u32);
    for window in &windows {
        if let Some(covered) = covered {
            add(covered, window.from, false);
        }
        covered = window.stated_end.map(|end| end.max(covered.unwrap_or(0)));
    }
    if let Some((covered, length)) = covered.zip(film.recording.length) {
        add(covered, length.seconds(), false);
    }
    for silent in &film.recording.silent {
        let (from, to) = (silent.value.start().seconds(), silent.value.end().seconds());
        // As the rule has it: a step is anchored in the span where its own stretch touches it.
        let anchored = windows.iter().any(|window| window.from < to && window.stated_end.unwrap_or(window.from) >= from);
        if !anchored {
            add(from, to, true);
        }
    }
    found.sort_by_key(|gap| (gap.span.start(), gap.silent));
    found
}
