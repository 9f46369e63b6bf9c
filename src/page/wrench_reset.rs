//! The line before an act that finds its wrench set to something else: set it anew.

use super::site::Scene;
use super::values::glued;
use super::words::Arg;
use crate::manual::{Act, ListKind, Verb, settings};
use std::collections::BTreeMap;

/// What each wrench was last set to on a sheet, by its id, as printed.
#[derive(Default)]
pub(super) struct WrenchSettings(BTreeMap<String, String>);

impl Scene<'_> {
    /// "Reset …: from → to" where the act's first stage finds its wrench set to another value; notes what the act leaves.
    ///
    /// A wrench set for the last fastener is the commonest wrong torque of all, and it clicks just as well. Between the
    /// stages of one act the grid says what to set.
    pub(super) fn reset_line(&self, act: &Act, last: &mut WrenchSettings) -> Option<String> {
        if act.verb != Some(Verb::Torque) {
            return None;
        }
        let thing = act.things.iter().find(|thing| thing.kind == ListKind::Fasteners)?;
        let entry = self.scope().thing(|l| &l.fasteners, thing)?;
        // A sheet knows its variants; where a torque still differs nobody can say what the wrench was left at.
        let case = entry.what.torque.case(self.known)?;
        let set: Vec<(&str, &str, String)> = settings(self.scope(), &entry.what, &case.value, self.known)
            .iter()
            .filter(|setting| act.stage.is_none_or(|stage| stage == super::rows::count(setting.stage)))
            .filter_map(|setting| Some((setting.tool.id.as_str(), setting.tool.name.as_str(), glued(setting.shown()?.written()))))
            .collect();
        let (id, name, to) = set.first()?;
        let line = last.0.get(*id).filter(|from| *from != to).map(|from| {
            self.say("sheet-reset-line", &[("wrench", Arg::Text(&super::values::values_glued(name))), ("from", Arg::Text(from)), ("to", Arg::Text(to))])
        });
        for (id, _, to) in &set {
            last.0.insert((*id).to_owned(), to.clone());
        }
        line
    }
}
