//! How long the work lasts from one place to stop to the next: whoever begins a stretch wants to know whether it can be
//! ended before the evening does.

use super::rows::count;
use super::site::Scene;
use super::words::Arg;
use crate::manual::{Step, Verb};
use std::collections::BTreeMap;

/// Work between two places to stop.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stretch {
    /// The number of its last step.
    to: usize,
    /// Minutes of work, whole steps; not known where a step has none.
    minutes: Option<f64>,
    /// Whether it ends at a place to stop, or with the procedure.
    stops: bool,
}

/// The stretches of steps in their order. A place to stop within a step counts as that step's end: nobody parts a step's time.
fn stretches<'s>(steps: impl IntoIterator<Item = &'s Step>) -> Vec<Stretch> {
    let mut all = Vec::new();
    let mut open: Option<Stretch> = None;
    for step in steps {
        let so_far = open.take().map_or(Some(0.0), |stretch| stretch.minutes);
        let minutes = so_far.zip(step.minutes).map(|(sum, own)| sum + own);
        let stretch = Stretch { to: step.number, minutes, stops: step.acts.iter().any(|act| act.verb == Some(Verb::Stop)) };
        if stretch.stops { all.push(stretch) } else { open = Some(stretch) }
    }
    all.extend(open);
    all
}

impl Scene<'_> {
    /// What stands at the top of a sheet; and behind the places to stop, by the number of their step.
    pub(super) fn stretch_words(&self) -> (String, BTreeMap<usize, String>) {
        let steps = self.procedure.into_iter().flat_map(|procedure| &procedure.steps).filter(|step| step.only.agrees_with(self.known));
        let all = stretches(steps);
        let say = |stretch: &Stretch, keys: [&str; 2]| {
            let time = self.minutes_text(stretch.minutes?);
            let key = if stretch.stops { keys[0] } else { keys[1] };
            Some(self.say(key, &[("number", Arg::Count(count(stretch.to))), ("time", Arg::Text(&time))]))
        };
        let first = all.first().and_then(|stretch| say(stretch, ["stretch-first", "stretch-whole"])).unwrap_or_default();
        let behind = all.iter().zip(all.iter().skip(1)).filter_map(|(before, stretch)| Some((before.to, say(stretch, ["stretch-next", "stretch-last"])?)));
        (first, behind.collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manual::Act;

    fn step(number: usize, minutes: Option<f64>, stops: bool) -> Step {
        let acts = if stops { vec![Act { verb: Some(Verb::Stop), ..Act::default() }] } else { Vec::new() };
        Step { number, minutes, acts, ..Step::default() }
    }

    #[test]
    fn a_stretch_ends_at_a_place_to_stop_and_with_the_work() {
        let steps = [step(1, Some(20.0), false), step(2, Some(35.0), true), step(4, Some(10.0), false), step(5, None, true), step(6, Some(5.0), false)];
        let found = stretches(&steps);
        let of = |to, minutes, stops| Stretch { to, minutes, stops };
        assert_eq!(found, [of(2, Some(55.0), true), of(5, None, true), of(6, Some(5.0), false)]);
        assert_eq!(stretches(&[step(1, Some(15.0), true)]), [of(1, Some(15.0), true)]);
        assert_eq!(stretches(&[]), []);
    }
}
