//! The verbs of acts: what each may act on, and what a sheet makes of it.

use super::lists::ListKind;

/// What is done. The order of acts in the text is the order of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verb {
    /// `clean:THING` degreased.
    Clean,
    /// `apply:MATERIAL@THING` or `apply:BEAD`.
    Apply,
    /// `fill:FILL` poured.
    Fill,
    /// `heat:HEAT` begun (or a chill).
    Heat,
    /// `cool:HEAT` back at the bench's temperature.
    Cool,
    /// `begin:WAIT` starts.
    Begin,
    /// `wait:WAIT` must be over.
    Wait,
    /// `fit:THING` in for good.
    Fit,
    /// `dry-fit:THING` in for a trial.
    DryFit,
    /// `remove:THING` out.
    Remove,
    /// `start:FASTENER` put in and run up by hand.
    Start,
    /// `torque:FASTENER` brought to its full value, or to one stage of it.
    Torque,
    /// `loosen:FASTENER` slackened.
    Loosen,
    /// `lock:FASTENER` staked, wired or tabbed.
    Lock,
    /// `mark:FASTENER` paint-marked.
    Mark,
    /// `align:ALIGN` set.
    Align,
    /// `measure:MEASURE` taken.
    Measure,
    /// `turn:TURN` a shaft turned.
    Turn,
    /// `test:TEST` a function tried.
    Test,
    /// `tool:TOOL` in use in this step.
    Tool,
    /// `send:AWAY` leaves for a vendor.
    Send,
    /// `receive:AWAY` back and inspected.
    Receive,
    /// `hold:PERSON` stop, look, sign.
    Hold,
    /// `sign:PERSON` the machine signed off.
    Sign,
    /// `stop:` a safe place to stop for the day.
    Stop,
}

/// A verb's row in the table of verbs.
#[derive(Clone, Copy, Debug)]
pub struct VerbRow {
    /// The verb.
    pub verb: Verb,
    /// As written before the colon.
    pub word: &'static str,
    /// The lists it can act on, in the order they are searched.
    pub lists: &'static [ListKind],
    /// Whether it makes a line to tick on the sheet.
    pub ticks: bool,
    /// Told to an author who asks what it means.
    pub means: &'static str,
}

/// Every verb, sorted by word.
pub static VERBS: &[VerbRow] = &[
    VerbRow { verb: Verb::Align, word: "align", lists: &[ListKind::Aligns], ticks: true, means: "an alignment is set" },
    VerbRow { verb: Verb::Apply, word: "apply", lists: &[ListKind::Beads], ticks: true, means: "a material is put on something (apply:MATERIAL@THING; a cleaner, too: apply:degreaser@bolt), or a bead laid" },
    VerbRow { verb: Verb::Begin, word: "begin", lists: &[ListKind::Waits], ticks: true, means: "a wait starts" },
    VerbRow { verb: Verb::Clean, word: "clean", lists: ListKind::THINGS, ticks: true, means: "a thing is degreased; a listed cleaner is named by apply:" },
    VerbRow { verb: Verb::Cool, word: "cool", lists: &[ListKind::Heats], ticks: true, means: "the heated part is back at the bench's temperature" },
    VerbRow { verb: Verb::DryFit, word: "dry-fit", lists: ListKind::THINGS, ticks: true, means: "a thing goes in for a trial" },
    VerbRow { verb: Verb::Fill, word: "fill", lists: &[ListKind::Fills], ticks: true, means: "a fluid is poured" },
    VerbRow { verb: Verb::Fit, word: "fit", lists: ListKind::THINGS, ticks: true, means: "a thing goes in for good" },
    VerbRow { verb: Verb::Heat, word: "heat", lists: &[ListKind::Heats], ticks: true, means: "a heat or chill is begun" },
    VerbRow { verb: Verb::Hold, word: "hold", lists: &[ListKind::People], ticks: false, means: "a hold point: stop, look, sign" },
    VerbRow { verb: Verb::Lock, word: "lock", lists: &[ListKind::Fasteners], ticks: true, means: "a fastener is staked, wired or tabbed" },
    VerbRow { verb: Verb::Loosen, word: "loosen", lists: &[ListKind::Fasteners], ticks: true, means: "a fastener is slackened" },
    VerbRow { verb: Verb::Mark, word: "mark", lists: &[ListKind::Fasteners], ticks: true, means: "a fastener is paint-marked" },
    VerbRow { verb: Verb::Measure, word: "measure", lists: &[ListKind::Measures], ticks: true, means: "a measurement is taken" },
    VerbRow { verb: Verb::Receive, word: "receive", lists: &[ListKind::Away], ticks: true, means: "a part is back from a vendor and inspected" },
    VerbRow { verb: Verb::Remove, word: "remove", lists: ListKind::THINGS, ticks: true, means: "a thing comes out" },
    VerbRow { verb: Verb::Send, word: "send", lists: &[ListKind::Away], ticks: true, means: "a part leaves for a vendor" },
    VerbRow { verb: Verb::Sign, word: "sign", lists: &[ListKind::People], ticks: false, means: "the machine is signed off with nothing open" },
    VerbRow { verb: Verb::Start, word: "start", lists: &[ListKind::Fasteners], ticks: true, means: "a fastener is put in and run up by hand" },
    VerbRow { verb: Verb::Stop, word: "stop", lists: &[], ticks: false, means: "a safe place to stop for the day" },
    VerbRow { verb: Verb::Test, word: "test", lists: &[ListKind::Tests], ticks: true, means: "a function is tried" },
    VerbRow { verb: Verb::Tool, word: "tool", lists: &[ListKind::Tools], ticks: false, means: "a tool or protection is in use in this step" },
    VerbRow { verb: Verb::Torque, word: "torque", lists: &[ListKind::Fasteners], ticks: true, means: "a fastener is brought to its full value" },
    VerbRow { verb: Verb::Turn, word: "turn", lists: &[ListKind::Turns], ticks: true, means: "a shaft is turned" },
    VerbRow { verb: Verb::Wait, word: "wait", lists: &[ListKind::Waits], ticks: true, means: "a wait is over" },
];

impl Verb {
    /// The verb of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        VERBS.iter().find(|row| row.word == word).map(|row| row.verb)
    }

    /// Its row in the table.
    #[must_use]
    pub fn row(self) -> &'static VerbRow {
        // Every verb has a row: a test proves it.
        VERBS.iter().find(|row| row.verb == self).unwrap_or(&VERBS[0])
    }

    /// The word before the colon.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.row().word
    }

    /// Whether a sheet makes a line to tick of it.
    #[must_use]
    pub fn ticks(self) -> bool {
        self.row().ticks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verbs_are_sorted_and_each_has_a_row() {
        assert!(VERBS.windows(2).all(|pair| pair[0].word < pair[1].word));
        for row in VERBS {
            assert_eq!(row.verb.row().word, row.word);
            assert_eq!(Verb::find(row.word), Some(row.verb));
        }
        assert_eq!(VERBS.len(), 25);
    }
}
