//! How a thing stands, and how an act changes that: one table a reader can check.

use crate::manual::{ListKind, Verb};

/// How a thing stands at a moment of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Not in place, and never was.
    Absent,
    /// A fastener put in and run up by hand.
    Started,
    /// A fastener brought to this stage of several.
    Stage(u64),
    /// A fastener at its full value (or by hand, where that is its value).
    Tight,
    /// A fastener staked, wired or tabbed.
    Locked,
    /// A fastener slackened after it was tight.
    Loosened,
    /// In for a trial.
    DryFitted,
    /// In for good.
    Fitted,
    /// Was in place and is out again.
    Removed,
    /// Out at a vendor.
    Away,
    /// Begun: a heat, a wait.
    Begun,
    /// Over or done: cooled, waited out, poured, measured, aligned, tested, turned.
    Done,
}

impl State {
    /// The state in words, as after "is".
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Absent => "not in place".to_owned(),
            Self::Started => "run up by hand".to_owned(),
            Self::Stage(stage) => format!("at stage {stage}"),
            Self::Tight => "tightened".to_owned(),
            Self::Locked => "locked".to_owned(),
            Self::Loosened => "slackened".to_owned(),
            Self::DryFitted => "in for a trial".to_owned(),
            Self::Fitted => "fitted".to_owned(),
            Self::Removed => "out again".to_owned(),
            Self::Away => "away".to_owned(),
            Self::Begun => "begun".to_owned(),
            Self::Done => "done".to_owned(),
        }
    }

    /// Whether a thing in this state is in its place, for good or for a trial.
    #[must_use]
    pub fn is_in_place(self) -> bool {
        matches!(self, Self::Started | Self::Stage(_) | Self::Tight | Self::Locked | Self::Loosened | Self::DryFitted | Self::Fitted)
    }

    /// Whether a fastener in this state holds what it should.
    #[must_use]
    pub fn holds(self) -> bool {
        matches!(self, Self::Tight | Self::Locked)
    }
}

/// What is wrong with an act on a thing that stands as it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misstep {
    /// Tightened again without being slackened or taken out.
    TightenedAgain,
    /// Locked or marked before it is tight; tightened or slackened after it was taken out.
    NotIn,
    /// Brought to a stage before the stage that comes first.
    StageLeftOut,
    /// Taken out though it is not in place.
    NothingToRemove,
    /// Waited for or cooled without having begun.
    NeverBegun,
    /// Sent away while it is away; received though it is here.
    NotThere,
}

/// Groups of lists whose things go through the same states.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Group {
    Fastener,
    Fitted,
    Begun,
    Done,
    Away,
}

impl Group {
    fn of(kind: ListKind) -> Option<Self> {
        match kind {
            ListKind::Fasteners => Some(Self::Fastener),
            ListKind::Seals | ListKind::Bearings | ListKind::Parts | ListKind::Shims | ListKind::Stacks => Some(Self::Fitted),
            ListKind::Heats | ListKind::Waits => Some(Self::Begun),
            ListKind::Beads | ListKind::Fills | ListKind::Aligns | ListKind::Measures | ListKind::Tests | ListKind::Turns => {
                Some(Self::Done)
            }
            ListKind::Away => Some(Self::Away),
            _ => None,
        }
    }
}

/// What an act makes of a state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Change {
    /// It stands so now.
    Becomes(State),
    /// It stands as before.
    Stays,
    /// It stands so now, but the act makes no sense on what it was.
    Wrong(State, Misstep),
}

/// What the walk knows of a fastener's act beside its verb.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Tightening {
    /// The stage named, if any.
    pub(super) stage: Option<u64>,
    /// The stage named, where it is not the last.
    pub(super) early_stage: Option<u64>,
    /// Its value is by hand.
    pub(super) by_hand: bool,
}

/// The table: a thing of this list that stands `before`, and the act `verb`.
pub(super) fn change(kind: ListKind, before: State, verb: Verb, tightening: Tightening) -> Change {
    use Change::{Becomes, Stays, Wrong};
    use Misstep::{NeverBegun, NotIn, NotThere, NothingToRemove, StageLeftOut, TightenedAgain};
    use State::{Absent, Away, Begun, Done, DryFitted, Fitted, Locked, Loosened, Removed, Stage, Started, Tight};
    let Some(group) = Group::of(kind) else { return Stays };
    match (group, verb, before) {
        // Fasteners: in by hand, through the stages, tight, locked; slackened, out.
        (Group::Fastener, Verb::Start | Verb::Fit | Verb::DryFit, Tight | Locked | Stage(_)) => Stays,
        (Group::Fastener, Verb::Start | Verb::Fit | Verb::DryFit, _) if tightening.by_hand => Becomes(Tight),
        (Group::Fastener, Verb::Start | Verb::Fit | Verb::DryFit, _) => Becomes(Started),
        (Group::Fastener, Verb::Torque, before) => {
            let after = tightening.early_stage.map_or(Tight, Stage);
            match before {
                Tight | Locked => Wrong(after, TightenedAgain),
                Removed => Wrong(after, NotIn),
                Absent | Started if tightening.stage.is_some_and(|stage| stage > 1) => Wrong(after, StageLeftOut),
                Stage(done) if tightening.stage.is_some_and(|stage| stage > done + 1) => Wrong(after, StageLeftOut),
                _ => Becomes(after),
            }
        }
        // What was there before the work began may be slackened, and taken out.
        (Group::Fastener, Verb::Loosen, Removed) => Wrong(before, NotIn),
        (Group::Fastener, Verb::Loosen, _) => Becomes(Loosened),
        (Group::Fastener, Verb::Lock, Tight | Locked) => Becomes(Locked),
        (Group::Fastener, Verb::Lock, _) => Wrong(Locked, NotIn),
        (Group::Fastener, Verb::Mark, Tight | Locked) => Stays,
        (Group::Fastener, Verb::Mark, _) => Wrong(before, NotIn),
        // What is fitted: tried, in, out. What was there before the work began may be taken out.
        (Group::Fitted, Verb::Fit, _) => Becomes(Fitted),
        (Group::Fitted, Verb::DryFit, _) => Becomes(DryFitted),
        (Group::Fastener | Group::Fitted, Verb::Remove, Removed) => Wrong(Removed, NothingToRemove),
        (Group::Fastener | Group::Fitted, Verb::Remove, _) => Becomes(Removed),
        // What is begun and is over.
        (Group::Begun, Verb::Heat | Verb::Begin, _) => Becomes(Begun),
        (Group::Begun, Verb::Cool, Begun) => Becomes(Done),
        (Group::Begun, Verb::Cool, _) => Wrong(Done, NeverBegun),
        (Group::Begun, Verb::Wait, _) => Becomes(Done),
        // What is simply done, once or again.
        (Group::Done, Verb::Apply | Verb::Fill | Verb::Align | Verb::Measure | Verb::Test | Verb::Turn, _) => Becomes(Done),
        // What leaves and comes back.
        (Group::Away, Verb::Send, Away) => Wrong(Away, NotThere),
        (Group::Away, Verb::Send, _) => Becomes(Away),
        (Group::Away, Verb::Receive, Away) => Becomes(Done),
        (Group::Away, Verb::Receive, _) => Wrong(Done, NotThere),
        _ => Stays,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fastener(before: State, verb: Verb) -> Change {
        change(ListKind::Fasteners, before, verb, Tightening::default())
    }

    #[test]
    fn a_fastener_goes_from_hand_to_tight_to_locked() {
        use Change::{Becomes, Stays};
        assert_eq!(fastener(State::Absent, Verb::Start), Becomes(State::Started));
        assert_eq!(fastener(State::Started, Verb::Torque), Becomes(State::Tight));
        assert_eq!(fastener(State::Absent, Verb::Torque), Becomes(State::Tight));
        assert_eq!(fastener(State::Tight, Verb::Lock), Becomes(State::Locked));
        assert_eq!(fastener(State::Tight, Verb::Start), Stays);
        assert_eq!(fastener(State::Tight, Verb::Loosen), Becomes(State::Loosened));
        assert_eq!(fastener(State::Loosened, Verb::Torque), Becomes(State::Tight));
        assert_eq!(fastener(State::Locked, Verb::Remove), Becomes(State::Removed));
        assert_eq!(fastener(State::Removed, Verb::Start), Becomes(State::Started));
        assert_eq!(fastener(State::Absent, Verb::Loosen), Becomes(State::Loosened));
        assert_eq!(fastener(State::Tight, Verb::Clean), Stays);
        assert_eq!(fastener(State::Tight, Verb::Mark), Stays);
    }

    #[test]
    fn acts_that_make_no_sense_are_told() {
        use Change::Wrong;
        assert_eq!(fastener(State::Tight, Verb::Torque), Wrong(State::Tight, Misstep::TightenedAgain));
        assert_eq!(fastener(State::Removed, Verb::Torque), Wrong(State::Tight, Misstep::NotIn));
        assert_eq!(fastener(State::Started, Verb::Lock), Wrong(State::Locked, Misstep::NotIn));
        assert_eq!(fastener(State::Started, Verb::Mark), Wrong(State::Started, Misstep::NotIn));
        let part = |before, verb| change(ListKind::Parts, before, verb, Tightening::default());
        assert_eq!(part(State::Removed, Verb::Remove), Wrong(State::Removed, Misstep::NothingToRemove));
        assert_eq!(part(State::Absent, Verb::Remove), Change::Becomes(State::Removed));
        assert_eq!(
            change(ListKind::Heats, State::Absent, Verb::Cool, Tightening::default()),
            Wrong(State::Done, Misstep::NeverBegun)
        );
    }

    #[test]
    fn by_hand_is_final_where_the_list_says_so() {
        let hand = Tightening { by_hand: true, ..Tightening::default() };
        assert_eq!(change(ListKind::Fasteners, State::Absent, Verb::Start, hand), Change::Becomes(State::Tight));
    }

    #[test]
    fn a_stage_is_not_yet_the_end() {
        let first = Tightening { early_stage: Some(1), ..Tightening::default() };
        assert_eq!(change(ListKind::Fasteners, State::Started, Verb::Torque, first), Change::Becomes(State::Stage(1)));
        assert_eq!(fastener(State::Stage(1), Verb::Torque), Change::Becomes(State::Tight));
        let second = Tightening { stage: Some(2), ..Tightening::default() };
        assert_eq!(change(ListKind::Fasteners, State::Stage(1), Verb::Torque, second), Change::Becomes(State::Tight));
        assert_eq!(change(ListKind::Fasteners, State::Started, Verb::Torque, second), Change::Wrong(State::Tight, Misstep::StageLeftOut));
    }

    #[test]
    fn a_part_is_out_tried_or_in() {
        let part = |before, verb| change(ListKind::Parts, before, verb, Tightening::default());
        assert_eq!(part(State::Absent, Verb::DryFit), Change::Becomes(State::DryFitted));
        assert_eq!(part(State::DryFitted, Verb::Remove), Change::Becomes(State::Removed));
        assert_eq!(part(State::Removed, Verb::Fit), Change::Becomes(State::Fitted));
        assert_eq!(part(State::Fitted, Verb::Clean), Change::Stays);
    }
}
