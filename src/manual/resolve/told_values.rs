//! Values that a change line or a correction of a recording tells of, `ID.field`: the thing is there, and has such a field.

use super::{Checker, SOURCES};
use crate::finding::{Finding, Place, nearest};
use crate::manual::acts;
use crate::manual::lists::ListKind;
use crate::manual::model::History;
use crate::manual::rules;
use crate::manual::shop::Recording;
use crate::manual::tables::{COMMON, entry_fields};
use crate::manual::things::Spot;

impl Checker<'_, '_> {
    pub(super) fn history(&mut self, history: &History) {
        for change in &history.changes {
            change.source.iter().for_each(|source| self.need(SOURCES, source));
            let id = change.of.value.split('.').next().unwrap_or_default();
            let spot = Spot { value: id.to_owned(), place: change.of.place.part(0..id.len()) };
            self.need_in_machine(ListKind::ALL, &spot);
            self.known_field(&change.of);
        }
    }

    /// What corrections of a recording are about: a thing of the machine, and a value it has.
    pub(super) fn recording(&mut self, recording: &Recording) {
        for of in recording.corrections.iter().filter_map(|correction| correction.of.as_ref()) {
            if self.told.insert((of.place.file, of.place.start)) {
                let (id, field) = of.value.split_once('.').unwrap_or((of.value.as_str(), ""));
                self.need_in_machine(ListKind::ALL, &Spot { value: id.to_owned(), place: of.place.part(0..id.len()) });
                if field.is_empty() {
                    self.no_field(of, of.place.clone(), format!("‘{}’ does not say which value is meant", of.value), "write ID.field, as in cap-bolt.torque".to_owned());
                } else {
                    self.known_field(of);
                }
            }
        }
    }

    /// `ID.field`: the field is one that things of this kind have.
    fn known_field(&mut self, of: &Spot<String>) {
        let Some((id, field)) = of.value.split_once('.') else { return };
        let kinds: Vec<ListKind> = ListKind::ALL.iter().copied().filter(|kind| self.scope.find_anywhere(*kind, id).is_some()).collect();
        let mut keys: Vec<&str> = kinds.iter().flat_map(|kind| entry_fields(*kind)).chain(COMMON).map(|known| known.key).collect();
        // A shaft is a list and has no keys; its ids are told under a name all the same.
        keys.extend(self.scope.homes().flat_map(|(_, lists)| &lists.written).filter(|written| written.id == id).map(|written| written.field));
        if kinds.is_empty() || keys.contains(&field) {
            return;
        }
        let near = nearest(field, keys.iter().copied());
        let fix = near.map_or_else(|| format!("a value of {}: {}", acts::either(&kinds), keys.join(", ")), |near| format!("did you mean ‘{id}.{near}’?"));
        self.no_field(of, of.place.part(id.len() + 1..of.value.len()), format!("‘{id}’ has no value ‘{field}’"), fix);
    }

    fn no_field(&mut self, of: &Spot<String>, place: Place, message: String, fix: String) {
        self.findings.push(Finding::new(&rules::UNKNOWN_ID, place, message).label("points to no value").fix(fix).about(of.value.clone()));
    }
}
