//! How long the work lasts from one place to stop to the next: whoever begins a stretch wants to know whether it can be
//! ended before the evening does.

use super::rows::count;
use super::site::Scene;
use super::values::glued;
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

/// The stretches of steps in their order, each step given as a stretch of its own. A place to stop within a step counts as that step's end: nobody parts a step's time.
fn stretches(steps: impl IntoIterator<Item = Stretch>) -> Vec<Stretch> {
    let mut all = Vec::new();
    let mut open: Option<Stretch> = None;
    for step in steps {
        let so_far = open.take().map_or(Some(0.0), |before| before.minutes);
        let stretch = Stretch { minutes: so_far.zip(step.minutes).map(|(sum, own)| sum + own), ..step };
        if stretch.stops { all.push(stretch) } else { open = Some(stretch) }
    }
    all.extend(open);
    all
}

impl Scene<'_> {
    /// What stands at the top of a sheet; and behind the places to stop, by the number of their step.
    pub(super) fn stretch_words(&self) -> (String, BTreeMap<usize, String>) {
        let steps = self.procedure.into_iter().flat_map(|procedure| &procedure.steps).filter(|step| step.only.agrees_with(self.known));
        let alone = |step: &Step| Stretch { to: step.number, minutes: step.minutes, stops: step.acts.iter().any(|act| act.verb == Some(Verb::Stop)) };
        let all = stretches(steps.map(alone));
        let say = |stretch: &Stretch, keys: [&str; 2]| {
            let time = glued(&self.minutes_text(stretch.minutes?));
            let key = if stretch.stops { keys[0] } else { keys[1] };
            Some(self.say(key, &[("number", Arg::Count(count(stretch.to))), ("time", Arg::Text(&time))]))
        };
        let first = if all.iter().filter(|stretch| stretch.stops).count() > 1 {
            self.plan(&all)
        } else {
            all.first().and_then(|stretch| say(stretch, ["stretch-first", "stretch-whole"]))
        };
        let first = first.unwrap_or_default();
        let behind = all.iter().zip(all.iter().skip(1)).filter_map(|(before, stretch)| Some((before.to, say(stretch, ["stretch-next", "stretch-last"])?)));
        (first, behind.collect())
    }
}

impl Scene<'_> {
    /// Every place to stop with the work up to it: work of more than an evening is shared out at one glance. None where a time is
    /// not known, since half a plan is none.
    fn plan(&self, all: &[Stretch]) -> Option<String> {
        let places: Option<Vec<String>> = all
            .iter()
            .map(|stretch| {
                let time = glued(&self.minutes_text(stretch.minutes?));
                let key = if stretch.stops { "stretch-place" } else { "stretch-end" };
                Some(self.say(key, &[("number", Arg::Count(count(stretch.to))), ("time", Arg::Text(&time))]))
            })
            .collect();
        Some(self.say("stretch-plan", &[("places", Arg::Text(&places?.join(", ")))]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_ends_at_a_place_to_stop_and_with_the_work() {
        let of = |to, minutes, stops| Stretch { to, minutes, stops };
        let steps = [of(1, Some(20.0), false), of(2, Some(35.0), true), of(4, Some(10.0), false), of(5, None, true), of(6, Some(5.0), false)];
        assert_eq!(stretches(steps), [of(2, Some(55.0), true), of(5, None, true), of(6, Some(5.0), false)]);
        assert_eq!(stretches([of(1, Some(15.0), true)]), [of(1, Some(15.0), true)]);
        assert_eq!(stretches([]), []);
    }
}
