//! A fastener of which thread and class are known: its slot, and what torques would be plausible, as a question.

use super::slot::{Slot, asked};
use super::yaml::hole;
use crate::trade::engagement::InternalMaterial;
use crate::trade::friction::ThreadCondition;
use crate::trade::property::PropertyClass;
use crate::trade::screening::{Band, Role, ScreenedJoint};
use crate::trade::thread::{Thread, ThreadError};
use std::fmt;

/// Pound-force foot in N·m, from the exact pound, foot and standard gravity (NIST SP 811).
const LBF_FT: f64 = 1.355_817_948_331_400_4;

/// What is said of a fastener on the command line: `M8x1.25 8.8 into aluminium as cover threads dry`.
#[derive(Clone, Debug, PartialEq)]
pub struct FastenerSpec {
    thread: Thread,
    thread_text: String,
    class: Option<&'static PropertyClass>,
    into: Option<InternalMaterial>,
    role: Option<Role>,
    condition: Option<ThreadCondition>,
}

impl fmt::Display for FastenerSpec {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "‘{}", self.thread_text)?;
        self.class.iter().try_for_each(|class| write!(out, " {}", class.name()))?;
        self.into.iter().try_for_each(|into| write!(out, " into {}", into.word()))?;
        self.role.iter().try_for_each(|role| write!(out, " as {}", role.word()))?;
        self.condition.iter().try_for_each(|condition| write!(out, " threads {}", condition.word()))?;
        write!(out, "’")
    }
}

impl FastenerSpec {
    /// Reads `THREAD [CLASS] [into MATERIAL] [as ROLE] [threads CONDITION]`.
    ///
    /// # Errors
    /// What is wrong and what to write instead, as one sentence.
    pub fn parse(text: &str) -> Result<Self, String> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let (thread_text, thread, taken) = thread_of(&words, text)?;
        let mut spec = Self { thread, thread_text, class: None, into: None, role: None, condition: None };
        let rest = words.get(taken..).unwrap_or_default();
        let keyed = rest.iter().position(|word| matches!(*word, "into" | "as" | "threads")).unwrap_or(rest.len());
        let (class, pairs) = rest.split_at(keyed);
        if !class.is_empty() {
            let written = class.join(" ");
            let known = PropertyClass::find(&written).ok_or_else(|| format!("‘{written}’ is no property class; known: {}", PropertyClass::names().join(", ")))?;
            known.strength(&spec.thread).map_err(|error| format!("{text}: {}", error.message()))?;
            spec.class = Some(known);
        }
        for pair in pairs.chunks(2) {
            spec.pair(pair, text)?;
        }
        Ok(spec)
    }

    fn pair(&mut self, pair: &[&str], text: &str) -> Result<(), String> {
        let unknown = |word: &str, known: Vec<&str>| format!("‘{word}’ is not known here; one of: {}", known.join(", "));
        match pair {
            ["into", word] => {
                let words = InternalMaterial::WORDS.iter().map(|(word, _)| *word).collect();
                self.into = Some(InternalMaterial::find(word).ok_or_else(|| unknown(word, words))?);
            }
            ["as", word] => self.role = Some(Role::find(word).ok_or_else(|| unknown(word, Role::WORDS.iter().map(|(word, _)| *word).collect()))?),
            ["threads", word] => {
                let words = ThreadCondition::WORDS.iter().map(|(word, _)| *word).collect();
                self.condition = Some(ThreadCondition::find(word).ok_or_else(|| unknown(word, words))?);
            }
            _ => return Err(format!("‘{text}’ can't be read; write M8x1.25 8.8 into aluminium as cover threads dry, as much of it as you know")),
        }
        Ok(())
    }

    /// Whether it turns the other way.
    pub(super) fn is_left_hand(&self) -> bool {
        self.thread.left_hand
    }

    /// The slot of it; which of how many that were given in the same words it is.
    pub(super) fn slot(&self, id: &str, (number, of): (usize, usize)) -> Slot {
        let mut slot = Slot::new(id);
        if of > 1 {
            slot.ask(format!("{number} of {of} given in the same words: what tells this one from the others? Bolts of one group are one entry, and count: says how many"));
        }
        for question in self.torque_questions() {
            slot.ask(question);
        }
        if let Some(question) = self.engagement_question() {
            slot.ask(question);
        }
        if of > 1 {
            slot.set("name", hole(&format!("{number} of {of} alike")));
        } else {
            slot.open("name", asked::NAME);
        }
        slot.open("count", asked::COUNT);
        slot.set("thread", self.thread_text.clone());
        match self.class {
            Some(class) => slot.set("class", class.name()),
            None => slot.open("class", asked::CLASS),
        }
        match self.role {
            Some(role) => slot.set("role", role.word()),
            None => slot.open("role", asked::ROLE),
        }
        if let Some(into) = self.into {
            slot.set("into", into.word());
        }
        match self.condition {
            Some(condition) => slot.threads(condition),
            None => slot.open("threads", asked::THREADS),
        }
        slot.open("torque", asked::TORQUE);
        slot.open("drive", asked::DRIVE);
        if !matches!(self.role, Some(Role::Plug | Role::Adjuster)) {
            slot.open("holds", asked::HOLDS);
        }
        // What goes onto a shaft or into a hole of its own has no order.
        if !matches!(self.role, Some(Role::ShaftNut | Role::Plug | Role::Adjuster)) {
            slot.open("layout", asked::LAYOUT);
        }
        if self.role == Some(Role::ShaftNut) {
            slot.open("hold_with", asked::HOLD);
        }
        if matches!(self.role, Some(Role::ShaftNut | Role::Drive)) {
            slot.open("lock", asked::LOCK);
        }
        slot.open("reuse", asked::REUSE);
        slot.open("source", asked::SOURCE);
        slot
    }

    /// What the source may say, for each role and thread condition that is still open.
    fn torque_questions(&self) -> Vec<String> {
        let class = self.class.unwrap_or_else(|| PropertyClass::assumed(&self.thread));
        let assumed = if self.class.is_some() { "" } else { ", if its class is that" };
        let roles = self.role.map_or_else(|| vec![Role::Clamp, Role::Cover, Role::Drive], |role| vec![role]);
        let conditions = self.condition.map_or_else(|| vec![ThreadCondition::Dry, ThreadCondition::Oiled], |condition| vec![condition]);
        let mut questions = Vec::new();
        for role in roles {
            let ranges: Vec<String> = conditions
                .iter()
                .filter_map(|condition| {
                    let joint = ScreenedJoint::new(&self.thread, class, *condition, role).ok()?;
                    Some(format!("{} {}", range(joint.plausible_torque_nm()?), condition.word()))
                })
                .collect();
            if !ranges.is_empty() {
                questions.push(format!("as {}: does the source say something like {}?", role.word(), ranges.join(", ")));
            }
        }
        if !questions.is_empty() {
            questions.push(format!("({} class {}{assumed}: reckoned from F = T/(K·d), common practice. No value to work by: the maker's data decide.)", self.thread, class.name()));
        }
        questions
    }

    fn engagement_question(&self) -> Option<String> {
        let into = self.into?;
        let factor = into.needed_engagement().screening;
        let needed = factor * self.thread.diameter_mm();
        Some(format!("are about {needed:.0} mm of thread engaged ({factor} d in {}: common practice)? length:, clamped: and hole: let inspect reckon.", into.word()))
    }
}

/// The thread that words begin with: the longest run that is one.
fn thread_of(words: &[&str], text: &str) -> Result<(String, Thread, usize), String> {
    for taken in (1..=words.len().min(4)).rev() {
        let written = words.get(..taken).unwrap_or_default().join(" ");
        if let Ok(thread) = Thread::parse(&written) {
            return Ok((written, thread, taken));
        }
    }
    let first = words.first().copied().unwrap_or_default();
    let error = Thread::parse(first).err().unwrap_or(ThreadError::Unreadable);
    Err(format!("{}; {}", error.message(if first.is_empty() { text } else { first }), error.fix()))
}

/// `14–31 N·m (10–23 lbf·ft)`, two significant digits: it is a question.
fn range(band: Band) -> String {
    format!("{}–{} N·m ({}–{} lbf·ft)", rough(band.low), rough(band.high), rough(band.low / LBF_FT), rough(band.high / LBF_FT))
}

fn rough(value: f64) -> String {
    if value < 9.95 {
        return format!("{value:.1}");
    }
    if value < 99.5 {
        return format!("{value:.0}");
    }
    format!("{:.0}", (value / 10.0).round() * 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn specs_are_read() {
        for text in ["M8x1.25", "M8x1.25 8.8", "M8x1.25 8.8 into aluminium", "M12x1.25 left-hand 8 as shaft-nut threads locker", "1/4-20 UNC SAE 5 into steel", "#10-32 UNF"] {
            FastenerSpec::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        }
        for (text, says) in [
            ("M8", "has no pitch"), ("", "is no thread"), ("M8x1.25 8.9", "no property class"), ("M8x1.25 SAE 5", ""), ("M8x1.25 into cheese", "not known here"),
            ("M8x1.25 8.8 into", "can't be read"), ("M8x1.25 as lid", "one of: drive"),
        ] {
            let error = FastenerSpec::parse(text).unwrap_err();
            assert!(error.contains(says), "{text}: {error}");
        }
    }

    // The table of the screening model (class 8.8, M8x1.25): 13.6 N·m at 0.40 and 34.0 N·m at all of the proof load, K 0.20;
    // so 0.90 is 30.6 N·m. Oiled, K 0.15, is three quarters of that.
    #[test]
    fn the_plausible_range_is_a_question_and_no_value() {
        let spec = FastenerSpec::parse("M8x1.25 8.8 into aluminium as clamp").unwrap();
        assert_eq!(spec.torque_questions()[0], "as clamp: does the source say something like 14–31 N·m (10–23 lbf·ft) dry, 10–23 N·m (7.5–17 lbf·ft) oiled?");
        let mut text = String::new();
        spec.slot("fastener-1", (1, 1)).write(&mut text);
        assert!(text.contains("\n    torque: '?'"), "{text}");
        // ISO metric M8 in aluminium: 1.5 d.
        assert!(text.contains("about 12 mm of thread engaged (1.5 d in aluminium"), "{text}");
        for line in text.lines().filter(|line| line.contains("N·m") && !line.contains("torque: '?'")) {
            assert!(line.trim_start().starts_with('#'), "{line}");
        }
    }
}
