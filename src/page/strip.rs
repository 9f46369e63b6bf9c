//! The build order as a strip: every procedure of a machine, in the order in which they are done.

use super::link;
use super::site::Scene;
use serde::Serialize;

/// The strip.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Strip {
    /// Whether it belongs to no one procedure.
    pub whole: bool,
    /// The procedures.
    pub stations: Vec<Station>,
    /// The one before the page at hand.
    pub before: Option<Station>,
    /// The one after it.
    pub after: Option<Station>,
}

/// One procedure of the strip.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Station {
    /// Its place in the order, from 1.
    pub number: usize,
    /// Its title.
    pub title: String,
    /// Its page.
    pub href: String,
    /// Whether it is the page at hand.
    pub here: bool,
    /// Whether it is next to it.
    pub near: bool,
}

impl Scene<'_> {
    /// The build order of the machine, the procedure at `here` marked.
    pub(super) fn strip(&self, here: Option<usize>) -> Strip {
        let stations: Vec<Station> = self
            .machine
            .procedures
            .iter()
            .enumerate()
            .map(|(index, procedure)| Station {
                number: index + 1,
                title: procedure.title.clone(),
                href: self.link(&link::procedure_path(&self.machine.id, &procedure.id)),
                here: here == Some(index),
                near: here.is_some_and(|here| here.abs_diff(index) <= 1),
            })
            .collect();
        let at = |index: Option<usize>| index.and_then(|index| stations.get(index)).cloned();
        Strip {
            whole: here.is_none(),
            before: at(here.and_then(|index| index.checked_sub(1))),
            after: at(here.map(|index| index + 1)),
            stations,
        }
    }
}
