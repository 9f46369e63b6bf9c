//! What tells a printed sheet from the sheet of today: fingerprint, square code, and which values changed since.
//!
//! The square code of a sheet holds, where the manual's `address:` is known, the sheet's own address with
//! `#paper=REVISION.FINGERPRINT`; otherwise the plain text
//! `benchleaf-paper/1 MACHINE/PROCEDURE VARIANT revision REVISION fingerprint FINGERPRINT`, with the variant as
//! `shaft=L,serial=late` or `-`. A procedure without a revision has `-` there.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::site::Scene;
use super::square_code::SquareCode;
use super::values::{values_glued, varied_text};
use super::words::Arg;
use crate::manual::{Change, Fingerprint, History, Home, Procedure, SheetValues, ThingRef};
use std::collections::BTreeSet;
use serde::Serialize;

/// The mark of a sheet.
#[derive(Serialize)]
pub(super) struct PaperMark {
    machine: String,
    procedure: String,
    revision: Option<u64>,
    pub fingerprint: String,
    code: Markup,
    /// What changed in the procedure, by its revision, newest first.
    changes: Vec<PaperChange>,
    /// What changed in the values it shares with others.
    shared: Vec<PaperChange>,
}

/// A change of a value that stands on the sheet.
#[derive(Serialize)]
struct PaperChange {
    revision: Option<u64>,
    words: String,
}

#[derive(Serialize)]
struct CodeView {
    code: Option<SquareCode>,
    label: String,
}

impl Scene<'_> {
    /// The mark of this scene's sheet.
    pub(super) fn paper_mark(&self, procedure: &Procedure, values: &SheetValues) -> Result<PaperMark, PageError> {
        let manual = self.site.input.manual;
        let SheetValues { fingerprint, things } = values;
        let revision = procedure.history.revision;
        let text = self.code_text(procedure, fingerprint);
        let label = self.say("code-label", &[("fingerprint", Arg::Text(fingerprint.as_str()))]);
        let code = self.site.templates.render("square-code.html", &CodeView { code: SquareCode::of(&text), label })?;
        let inside = self.inside(procedure);
        let shop = self.of_home(&manual.shop_history, &Home::Shop, things);
        let mut shared = self.of_home(&self.machine.history, &Home::Machine, things);
        shared.extend(shop);
        Ok(PaperMark {
            machine: self.machine.id.clone(),
            procedure: procedure.id.clone(),
            revision,
            fingerprint: fingerprint.to_string(),
            code,
            changes: inside.of_home(&procedure.history, &Home::Procedure(procedure.id.clone()), things),
            shared,
        })
    }

    fn code_text(&self, procedure: &Procedure, fingerprint: &Fingerprint) -> String {
        let revision = procedure.history.revision.map_or_else(|| "-".to_owned(), |revision| revision.to_string());
        if let Some(base) = self.site.input.manual.address.as_deref().and_then(web_folder) {
            return format!("{base}{}#paper={revision}.{fingerprint}", link::relative(link::HOME, self.page));
        }
        let axes = self.machine.axes.iter();
        let known: Vec<String> = axes.filter_map(|axis| Some(format!("{}={}", axis.name, self.known.0.get(&axis.name)?))).collect();
        let variant = if known.is_empty() { "-".to_owned() } else { known.join(",") };
        format!("benchleaf-paper/1 {}/{} {variant} revision {revision} fingerprint {fingerprint}", self.machine.id, procedure.id)
    }

    /// The change lines of a front matter that are about something on the sheet, newest first.
    fn of_home(&self, history: &History, home: &Home, things: &BTreeSet<ThingRef>) -> Vec<PaperChange> {
        let stands_here = |change: &&Change| {
            let id = change.of.value.split('.').next().unwrap_or_default();
            let varies = change.was.cases.is_empty() || change.was.cases_within(self.known).next().is_some();
            varies && things.iter().any(|thing| thing.home == *home && thing.id == id)
        };
        let mut told: Vec<PaperChange> = history
            .changes
            .iter()
            .filter(stands_here)
            .map(|change| PaperChange { revision: change.revision, words: self.change_words(change) })
            .collect();
        told.sort_by_key(|change| std::cmp::Reverse(change.revision));
        told
    }

    /// `Pinion nut, torque: it was 70 N·m (nuts of late machines backed off)`.
    fn change_words(&self, change: &Change) -> String {
        let of = changed_value(self, change);
        let was = varied_text(&change.was, self.known, |was| values_glued(was)).unwrap_or_else(|| self.site.say("change-not-there"));
        match &change.because {
            Some(because) => self.say("change-told", &[("of", Arg::Text(&of)), ("was", Arg::Text(&was)), ("because", Arg::Text(because))]),
            None => self.say("change-short", &[("of", Arg::Text(&of)), ("was", Arg::Text(&was))]),
        }
    }
}

/// `Pinion nut, torque`.
pub(super) fn changed_value(scene: &Scene<'_>, change: &Change) -> String {
    let (id, field) = change.of.value.split_once('.').unwrap_or((&change.of.value, ""));
    let field = if field.is_empty() { String::new() } else { format!(", {}", scene.site.words.of("field", field)) };
    format!("{}{field}", scene.named(id))
}

/// The address of a folder on the web, with a slash at its end; none where it is none, or where a path can't follow it.
fn web_folder(address: &str) -> Option<String> {
    let address = address.trim();
    let on_the_web = ["https://", "http://"].iter().any(|scheme| address.strip_prefix(scheme).is_some_and(|rest| !rest.is_empty()));
    let plain = !address.contains(|c: char| c == '#' || c == '?' || c.is_whitespace() || c.is_control());
    let folder = address.strip_suffix("index.html").unwrap_or(address);
    (on_the_web && plain).then(|| if folder.ends_with('/') { folder.to_owned() } else { format!("{folder}/") })
}

#[cfg(test)]
mod tests {
    use super::web_folder;

    #[test]
    fn only_an_address_that_a_path_can_follow_goes_into_a_code() {
        let folder = |address| web_folder(address).unwrap_or_default();
        assert_eq!(folder("https://club.example/manual"), "https://club.example/manual/");
        assert_eq!(folder("https://club.example/manual/index.html"), "https://club.example/manual/");
        for address in ["", "https://", "club.example/manual", "javascript:alert(1)", "https://club.example/?a=b", "https://club.example/a b"] {
            assert_eq!(web_folder(address), None, "{address}");
        }
    }
}
