//! A paper or a record in the hand against the manual of today.
//!
//! A fingerprint alone says whether its values are those of a sheet of today, and nothing more; what changed is known only
//! where the state that printed it is found again.

use super::sheets::each_sheet;
use super::state::State;
use super::{Bulletin, ChangeLine};
use crate::inspect::{affected, is_stale, known_variant};
use crate::manual::{Build, Fingerprint, Manual, SheetValues, ThingRef, placed_fasteners};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// What kind of paper it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaperKind {
    /// The bench sheet of a procedure.
    #[default]
    Sheet,
    /// The torque card of a machine.
    TorqueCard,
    /// The board of a group of bolts.
    Board,
}

/// A paper of some state: a bench sheet, a torque card, a board of bolts.
#[derive(Clone, Debug, Default, PartialEq, Eq, JsonSchema, Serialize)]
pub struct SheetMatch {
    /// What kind of paper it is.
    pub paper: PaperKind,
    /// The machine's id.
    pub machine: String,
    /// The procedure's id; empty for a torque card, which is of the whole machine.
    pub procedure: String,
    /// The id of a board's fasteners.
    pub fasteners: Option<String>,
    /// The procedure's title, the machine's name, or the name of a board's fasteners.
    pub title: String,
    /// The sheet's variant; empty where it knows none.
    pub variant: String,
    /// The revision of the procedure, for a torque card of the machine, in that state.
    pub revision: Option<u64>,
}

/// What is known of a paper with a fingerprint.
#[derive(Clone, Debug, Default, PartialEq, Eq, JsonSchema, Serialize)]
pub struct PaperNews {
    /// The fingerprint.
    pub fingerprint: String,
    /// The sheet, card or board of today that has it: the paper is current.
    pub current: Option<SheetMatch>,
    /// The state that printed it, where it was found: how it is named, and the paper in it.
    pub printed_by: Option<(String, SheetMatch)>,
    /// What changed on that paper since.
    pub since: Option<Bulletin>,
    /// How many earlier states were looked at.
    pub states: usize,
    /// Why no earlier state could be looked at.
    pub untold: Option<String>,
}

/// The fingerprint in what somebody typed or a square code holds: alone, behind `#paper=REVISION.`, or at the end of
/// `benchleaf-paper/1 …`. None where there is none.
#[must_use]
pub fn named_fingerprint(text: &str) -> Option<Fingerprint> {
    let text = text.trim();
    if let Some((_, mark)) = text.rsplit_once("#paper=") {
        return Fingerprint::parse(mark.rsplit_once('.')?.1);
    }
    if let Some((_, print)) = text.rsplit_once(" fingerprint ") {
        return Fingerprint::parse(print);
    }
    Fingerprint::parse(text)
}

/// Every paper of a manual that carries a fingerprint: sheets, torque cards, boards.
#[must_use]
pub fn known_sheets(manual: &Manual) -> Vec<(Fingerprint, SheetMatch)> {
    let mut all = Vec::new();
    each_sheet(manual, |machine, id, known, fingerprint| {
        let Some(procedure) = manual.machine(machine).and_then(|machine| machine.procedure(id)) else { return };
        let variant = known.words().replace(" · ", ", ");
        let (title, revision) = (procedure.title.clone(), procedure.history.revision);
        let paper = PaperKind::Sheet;
        all.push((fingerprint, SheetMatch { paper, machine: machine.to_owned(), procedure: id.to_owned(), fasteners: None, title, variant, revision }));
    });
    all.extend(wall_papers(manual).into_iter().map(|(values, paper)| (values.fingerprint, paper)));
    all
}

/// Every torque card and board of a manual with its values.
pub(super) fn wall_papers(manual: &Manual) -> Vec<(SheetValues, SheetMatch)> {
    let mut all = Vec::new();
    for machine in &manual.machines {
        let card = SheetMatch {
            paper: PaperKind::TorqueCard,
            machine: machine.id.clone(),
            title: machine.name.clone(),
            revision: machine.history.revision,
            ..SheetMatch::default()
        };
        all.push((SheetValues::of_card(manual, machine), card));
        for procedure in &machine.procedures {
            let scope = manual.scope(machine, procedure);
            for thing in placed_fasteners(scope, procedure) {
                let board = SheetMatch {
                    paper: PaperKind::Board,
                    machine: machine.id.clone(),
                    procedure: procedure.id.clone(),
                    title: scope.head(&thing).map_or_else(|| thing.id.clone(), |head| head.name.to_owned()),
                    revision: procedure.history.revision,
                    fasteners: Some(thing.id.clone()),
                    ..SheetMatch::default()
                };
                all.push((SheetValues::of_board(manual, machine, procedure, &thing), board));
            }
        }
    }
    all
}

impl PaperNews {
    /// What today's manual alone knows.
    #[must_use]
    pub fn of(fingerprint: &Fingerprint, today: &Manual) -> Self {
        let current = known_sheets(today).into_iter().find(|(print, _)| print == fingerprint).map(|(_, sheet)| sheet);
        Self { fingerprint: fingerprint.to_string(), current, ..Self::default() }
    }

    /// Looks whether an earlier state printed the paper, and what changed since if so.
    pub fn look_at(&mut self, fingerprint: &Fingerprint, earlier: &State, today: &State) -> bool {
        self.states += 1;
        let Some(manual) = earlier.manual() else { return false };
        let Some((_, sheet)) = known_sheets(manual).into_iter().find(|(print, _)| print == fingerprint) else { return false };
        self.since = super::compare(earlier, today).ok().map(|bulletin| match sheet.paper {
            PaperKind::Sheet => bulletin.for_sheet(&sheet.machine, &sheet.procedure),
            PaperKind::TorqueCard | PaperKind::Board => bulletin.for_things(&sheet.machine, &things_on(&sheet, [earlier, today])),
        });
        self.printed_by = Some((earlier.name.clone(), sheet));
        true
    }
}

/// The things on a card or board in any of these states.
fn things_on(paper: &SheetMatch, states: [&State; 2]) -> BTreeSet<ThingRef> {
    let same = |other: &SheetMatch| (other.paper, &other.machine, &other.procedure, &other.fasteners) == (paper.paper, &paper.machine, &paper.procedure, &paper.fasteners);
    let all = states.into_iter().filter_map(State::manual).flat_map(wall_papers);
    all.filter(|(_, other)| same(other)).flat_map(|(values, _)| values.things).collect()
}

/// A build record against the manual of today.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct RecordNews {
    /// The machine's name, or its id in the record where the manual has no such machine.
    pub machine: String,
    /// Its serial number.
    pub serial: Option<String>,
    /// What can't be told, and why.
    pub untold: Vec<String>,
    /// Its procedures.
    pub work: Vec<WorkNews>,
}

/// The work of one procedure.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct WorkNews {
    /// The procedure's id.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// Its revision in the record.
    pub revision_was: Option<u64>,
    /// Its revision now.
    pub revision: Option<u64>,
    /// Whether its sheet is the sheet of today; none where the record has no fingerprint of it.
    pub current: Option<bool>,
    /// Whether the work is finished.
    pub finished: bool,
    /// The values it was done by that have changed since.
    pub changed: Vec<ValueNews>,
}

/// A value that changed since something was done by it.
#[derive(Clone, Debug, PartialEq, Eq, JsonSchema, Serialize)]
pub struct ValueNews {
    /// What changed: `pinion-nut.torque`.
    pub of: String,
    /// The step it was done in.
    pub step: String,
    /// What the record says it was done by.
    pub recorded: Option<String>,
    /// What it is now; none where it is given no more.
    pub now: Option<String>,
    /// The newest line that changed it.
    pub line: ChangeLine,
    /// Every line that changed it since, oldest first.
    pub lines: Vec<ChangeLine>,
    /// Whether two signatures are asked for.
    pub critical: bool,
    /// What a deviation in the record answers.
    pub answered: Option<String>,
}

/// Holds a record against a manual.
#[must_use]
pub fn record_news(build: &Build, manual: &Manual) -> RecordNews {
    let text = |spot: &Option<crate::manual::Spot<String>>| spot.as_ref().map(|spot| spot.value.clone());
    let id = text(&build.machine).unwrap_or_default();
    let mut news = RecordNews { machine: id.clone(), serial: text(&build.serial), untold: Vec::new(), work: Vec::new() };
    if let Some(title) = text(&build.manual).filter(|title| *title != manual.title) {
        news.untold.push(format!("the record was made with ‘{title}’, and this is ‘{}’", manual.title));
    }
    let Some(machine) = manual.machine(&id) else {
        news.untold.push(format!("this manual has no machine ‘{id}’: nothing in the record can be held against it"));
        return news;
    };
    news.machine.clone_from(&machine.name);
    let known = known_variant(machine, build);
    for work in &build.work {
        let Some(procedure) = machine.procedure(&work.procedure.value) else {
            news.untold.push(format!("{} has no procedure ‘{}’ any more", machine.name, work.procedure.value));
            continue;
        };
        let scope = manual.scope(machine, procedure);
        let changed = affected(scope, work, &known).into_iter().map(|hit| ValueNews {
            of: hit.change.of.value.clone(),
            step: hit.tick.step.value.clone(),
            recorded: text(&hit.tick.value),
            now: hit.now.map(str::to_owned),
            line: ChangeLine::of(hit.change, hit.history, &known, hit.now),
            lines: hit.lines.iter().map(|line| ChangeLine::of(line, hit.history, &known, hit.now)).collect(),
            critical: hit.critical,
            answered: hit.answer(build, &procedure.id).map(|deviation| text(&deviation.what).unwrap_or_else(|| "a deviation".to_owned())),
        });
        let mut changed: Vec<ValueNews> = changed.collect();
        changed.sort_by_key(|value| !value.critical);
        news.work.push(WorkNews {
            procedure: procedure.id.clone(),
            title: procedure.title.clone(),
            revision_was: work.revision,
            revision: procedure.history.revision,
            current: work.fingerprint.as_ref().map(|_| !is_stale(scope, manual, work, &known)),
            finished: work.finished.is_some(),
            changed,
        });
    }
    news
}

impl RecordNews {
    /// Whether every sheet in it is current, no value it was done by has changed unanswered, and all of it could be told.
    #[must_use]
    pub fn is_current(&self) -> bool {
        self.untold.is_empty() && self.work.iter().all(|work| work.current == Some(true) && work.changed.iter().all(|value| value.answered.is_some()))
    }
}

#[cfg(test)]
mod tests {
    use super::named_fingerprint;

    #[test]
    fn a_fingerprint_is_found_in_what_a_square_code_holds() {
        let whole = "7K3M-Q0ZT-91XA";
        for text in [
            "7k3mqozt91xa",
            "https://club.example/manual/tarn-18/hub-sheet-late.html#paper=4.7K3M-Q0ZT-91XA",
            "https://club.example/hub-sheet.html#paper=-.7K3M-Q0ZT-91XA",
            "benchleaf-paper/1 tarn-18/hub shaft=L revision 4 fingerprint 7K3M-Q0ZT-91XA\n",
        ] {
            assert_eq!(named_fingerprint(text).map(|print| print.to_string()).as_deref(), Some(whole), "{text}");
        }
        for text in ["", "#paper=", "#paper=4", "https://club.example/#paper=4.7K3M", "record.json", "é fingerprint é"] {
            assert_eq!(named_fingerprint(text), None, "{text}");
        }
    }
}
