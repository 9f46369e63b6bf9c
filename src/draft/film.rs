//! From a recording: empty steps at their moments, spans in which hands work without a word, and what was heard as
//! sources of kind `heard`, one each, so that each has to be confirmed for itself.

use super::body::StepStart;
use super::slot::{Slot, asked};
use super::yaml::{comment, free_id, hole, one_line, quoted};
use crate::quantity::{Dimension, Moment, MomentSpan, Quantity};
use crate::recording::{Beginning, Heard, HeardKind, Speech, beginnings, heard};
use std::collections::BTreeSet;

/// Most of what is heard that one draft takes; beyond it the recording is no single procedure, and the front matter would be
/// too long to be read.
const MOST_HEARD: usize = 400;
/// Most steps of a draft.
const MOST_STEPS: usize = 500;
/// Most characters of what was said.
const MOST_SAID: usize = 90;

/// What a recording gives to a draft.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct FilmStart {
    silent: Vec<MomentSpan>,
    end: Option<Moment>,
    pub(super) slots: Vec<Slot>,
    pub(super) sources: Vec<HeardSource>,
    pub(super) steps: Vec<StepStart>,
    /// What did not fit.
    pub(super) notes: Vec<String>,
}

/// A source of kind `heard`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct HeardSource {
    id: String,
    title: String,
    questions: Vec<String>,
}

pub(super) fn begin(speech: &Speech, taken: &mut BTreeSet<String>) -> FilmStart {
    let mut begins = beginnings(speech);
    let steps_dropped = begins.len().saturating_sub(MOST_STEPS);
    begins.truncate(MOST_STEPS);
    let mut film = FilmStart { silent: speech.wordless(), end: speech.end(), ..FilmStart::default() };
    let spans_dropped = film.silent.len().saturating_sub(MOST_STEPS);
    film.silent.truncate(MOST_STEPS);
    let mut ids = BTreeSet::new();
    film.steps = begins.iter().enumerate().map(|(index, begin)| step(begin, index, &mut ids)).collect();
    let all = heard(speech);
    let dropped = all.len().saturating_sub(MOST_HEARD);
    if dropped + steps_dropped + spans_dropped > 0 {
        film.notes.push(format!("the recording is too long for one procedure: {dropped} more things heard, {steps_dropped} more beginnings of steps and {spans_dropped} more silent spans are not in the draft; cut the captions in parts"));
    }
    let mut before: Option<(&Heard, String)> = None;
    for heard in all.iter().take(MOST_HEARD) {
        let id = free_id(&heard.at.map_or_else(|| "heard".to_owned(), |at| format!("heard-{}", at.to_string().replace(':', "-"))), taken);
        let own = begins.iter().rposition(|begin| begin.word <= heard.word()).and_then(|index| film.steps.get_mut(index));
        let twin = before.as_ref().filter(|(other, _)| is_twin(other, heard)).map(|(_, id)| id.clone());
        before = Some((heard, id.clone()));
        if let Some(twin) = twin {
            own.into_iter().for_each(|step| step.questions.push(format!("The value of {twin} seems to be said again in another unit ({id}). The same value? Then write the one that the source has.")));
            let mut again = source(heard, id);
            again.questions.insert(0, format!("the same value as {twin}, in another unit?"));
            film.sources.push(again);
            continue;
        }
        if let Some(step) = own {
            ask(step, heard, &id);
            if is_torque(heard) {
                step.tightened.push((id.clone(), false));
                film.slots.push(torque_slot(heard, &id));
            }
        }
        film.sources.push(source(heard, id));
    }
    film
}

fn step(begin: &Beginning, index: usize, ids: &mut BTreeSet<String>) -> StepStart {
    let wanted = begin.at.map_or_else(|| format!("step-{}", index + 1), |at| format!("at-{}", at.start().to_string().replace(':', "-")));
    let question = match begin.at {
        Some(at) if begin.silent => format!("Nothing is said from {} to {}. What do the hands do there, with which tool, to which value?", at.start(), at.end()),
        Some(at) => format!("What is done from {} on, in which order, with which tools?", at.start()),
        None => "What is done here, in which order, with which tools?".to_owned(),
    };
    StepStart { id: free_id(&wanted, ids), at: begin.at.map(|at| at.to_string()), questions: vec![question], ..StepStart::default() }
}

/// Words within which a value is said a second time, in another unit.
const NEAR: usize = 14;

/// Whether something heard is the value heard just before it, in another unit: ‘eighty newton metres, that is fifty-nine
/// foot pounds’.
fn is_twin(before: &Heard, heard: &Heard) -> bool {
    let parsed = |heard: &Heard| match heard.readings.as_slice() {
        [only] if heard.kind == HeardKind::Quantity => Quantity::parse_free(only).ok(),
        _ => None,
    };
    let near = heard.word().saturating_sub(before.word()) <= NEAR;
    near && parsed(before).zip(parsed(heard)).is_some_and(|(one, other)| one.unit() != other.unit() && one.says_the_same(&other))
}

/// The question a step is asked for something heard in it.
fn ask(step: &mut StepStart, heard: &Heard, id: &str) {
    step.questions.push(match heard.kind {
        HeardKind::Quantity => format!("A value is heard ({id}). What is it a value of, and which source has it in print?"),
        HeardKind::Size => format!("A size is heard ({id}). Is it that of a tool?"),
        HeardKind::Locker => format!("A locker is heard ({id}). Which strength, on which threads, and when may it be loaded?"),
        HeardKind::SealSide => format!("The side of a seal is heard ({id}). Which feature looks at which neighbour (faces:)?"),
        HeardKind::PutOff => format!("Something is put off ({id}). What stays open, how, and where is it finished (leaves_open:)?"),
    });
}

fn is_torque(heard: &Heard) -> bool {
    let torque = |text: &String| Quantity::parse_free(text).is_ok_and(|quantity| quantity.dimension() == Dimension::Torque);
    heard.kind == HeardKind::Quantity && heard.readings.first().is_some_and(torque)
}

/// The slot of a torque: the value as it was heard where that is clear, otherwise a hole with its readings.
fn torque_slot(heard: &Heard, id: &str) -> Slot {
    let mut slot = Slot::new(id);
    slot.open("name", asked::NAME);
    slot.open("count", asked::COUNT);
    slot.open("thread", asked::THREAD);
    slot.open("class", asked::CLASS);
    slot.open("role", asked::ROLE);
    slot.open("threads", asked::THREADS);
    match heard.readings.as_slice() {
        [only] if heard.sounds_like.is_none() => slot.set("torque", only.clone()),
        several => slot.set("torque", hole(&format!("{}{}", several.join(" or "), alike(heard)))),
    }
    slot.open("tool", asked::TOOL);
    slot.open("reuse", asked::REUSE);
    slot.set("source", id);
    slot
}

fn alike(heard: &Heard) -> String {
    heard.sounds_like.as_ref().map_or_else(String::new, |other| format!("; or {other}, which sounds alike"))
}

fn source(heard: &Heard, id: String) -> HeardSource {
    let moment = heard.at.map_or_else(String::new, |at| format!(" at {at}"));
    let meaning = match (heard.kind, heard.readings.as_slice()) {
        (HeardKind::Locker, [strength]) => format!(" ({strength} strength)"),
        (_, []) => String::new(),
        (_, [only]) => format!(" ({only})"),
        (_, several) => format!(" ({}?)", several.join(" or ")),
    };
    let title = format!("Heard{moment}: “{}”{meaning}", one_line(&heard.said, MOST_SAID));
    let mut questions = Vec::new();
    if let Some(other) = &heard.sounds_like {
        questions.push(format!("it sounds like {other}, too: listen again, and read it in print"));
    }
    match (heard.kind, heard.readings.as_slice()) {
        (HeardKind::Quantity, []) => questions.push("the number can't be read: listen again".to_owned()),
        (HeardKind::Quantity, [only]) if !is_torque(heard) => questions.extend(home(only)),
        (HeardKind::Quantity, [_, _, ..]) => questions.push("several readings: which one does the source have?".to_owned()),
        (HeardKind::Locker, []) => questions.push("no strength is said; a colour is none".to_owned()),
        _ => {}
    }
    HeardSource { id, title, questions }
}

/// Where a quantity may belong.
fn home(text: &str) -> Option<String> {
    let lists = match Quantity::parse_free(text).ok()?.dimension() {
        Dimension::Length => "measures: (spec: or limit:), shims:, or a seal's depth:",
        Dimension::Angle => "a stage of a torque ([20 N·m, 90°]), aligns: or turns:",
        Dimension::Volume => "fills: (amount:)",
        Dimension::Time => "waits: (time:), or a locker's cure:",
        Dimension::Temperature | Dimension::TemperatureRise => "heats: (to:)",
        Dimension::Pressure | Dimension::Force | Dimension::Rotation => "tests: (expect:) or measures:",
        _ => return None,
    };
    Some(format!("does it belong under {lists}?"))
}

impl FilmStart {
    pub(super) fn write_video(&self, out: &mut String) {
        out.push_str("video:\n");
        out.push_str(&format!("  address: {:<22} # where can it be seen? https://…\n", hole("")));
        out.push_str("  # title: …\n");
        let end = self.end.map_or_else(String::new, |end| format!("; the last caption ends at {end}"));
        out.push_str(&format!("  length: {:<23} # how long is it{end}?\n", hole("")));
        if !self.silent.is_empty() {
            let spans: Vec<String> = self.silent.iter().map(|span| quoted(&span.to_string())).collect();
            out.push_str(&comment(2, "hands work and nothing is said; where nothing is done, take the span and its step out"));
            out.push_str(&format!("\n  silent: [{}]\n", spans.join(", ")));
        }
    }

    pub(super) fn write_sources(&self, out: &mut String) {
        for line in [
            "Heard in the recording, and not one of them confirmed: captions are written by a program. Read each in a source of another",
            "kind, name that source beside the value, and take the line out here; or let a second person confirm it: read_by: ID.",
        ] {
            out.push_str(&comment(2, line));
            out.push('\n');
        }
        for note in &self.notes {
            out.push_str(&comment(2, note));
            out.push('\n');
        }
        for source in &self.sources {
            for question in &source.questions {
                out.push_str(&comment(2, question));
                out.push('\n');
            }
            out.push_str(&format!("  {}: {{title: {}, kind: heard}}\n", source.id, quoted(&source.title)));
        }
    }
}
