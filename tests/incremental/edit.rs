//! What may happen to a manual, to what is published and to what was left between two runs, and how a run is started.

use proptest::prelude::*;

/// One thing that happens between two runs. Numbers choose among what is there.
#[derive(Clone, Debug)]
pub(crate) enum Edit {
    /// A digit of a file becomes another.
    Digit(usize, usize, u8),
    /// A word of the text becomes another.
    Word(usize, usize),
    /// A line goes.
    LineGone(usize, usize),
    /// A step's heading is worded anew, its id with it or not.
    Heading(usize, usize, bool),
    /// A file is put back as it was in the beginning.
    Back(usize),
    /// Everything is.
    AllBack,
    /// A procedure's file gets another name.
    Renamed(usize),
    /// A procedure goes.
    Gone(usize),
    /// A procedure is there twice.
    Twice(usize),
    /// A machine goes.
    MachineGone(usize),
    /// A machine is there twice.
    MachineTwice(usize),
    /// A link to another machine's step.
    Link(usize, usize),
    /// An act that nobody knows.
    Fault(usize),
    /// A drawing changes.
    Picture(usize),
    /// The photograph is another one, is cut short, or goes.
    Photograph(u8),
    /// A theme of one's own, or none.
    Theme(u8),
    /// A value that all machines share.
    Shared(usize, u8),
    /// A published file is changed without changing its size.
    Scribbled(usize),
    /// A published file is cut short.
    Cut(usize),
    /// A published file goes.
    Lost(usize),
    /// What was left for the next run is damaged.
    KeptDamaged(usize, usize),
    /// What was left for the next run goes.
    KeptGone,
    /// Somebody else's file lies in the site.
    Foreign(u8),
    /// A build record goes.
    RecordGone(usize),
    /// A build record is there twice.
    RecordTwice(usize),
    /// A build record says that it is of another machine, which may be there or not.
    RecordOf(usize, u8),
    /// The manual has an address, so that it has a feed and a list of its pages; or none.
    Address(bool),
    /// Another version of the program.
    Program(u8),
}

/// How a run is started.
#[derive(Clone, Debug)]
pub(crate) struct Options {
    pub(crate) proof: bool,
    pub(crate) today: bool,
    pub(crate) threads: u8,
    pub(crate) verify: bool,
    pub(crate) against: Option<Against>,
    /// Whether machines may be held in memory while they wait to be looked at, and while they wait for their pages.
    pub(crate) held: (bool, bool),
}

/// A run as most are started.
pub(crate) const PLAIN: Options = Options { proof: false, today: false, threads: 2, verify: false, against: None, held: (true, true) };

/// What the values are compared with, but for what was published last.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Against {
    /// The manual as it was in the beginning.
    Manual,
    /// The same as it was published.
    Site,
}

impl Against {
    /// The name of the folder in which it lies.
    pub(crate) fn folder(self) -> &'static str {
        if matches!(self, Self::Manual) { "before" } else { "before-site" }
    }
}

pub(crate) fn edit() -> impl Strategy<Value = Edit> {
    let n = || 0usize..10_000;
    prop_oneof![
        4 => (n(), n(), 0u8..10).prop_map(|(f, at, d)| Edit::Digit(f, at, d)),
        4 => (n(), n()).prop_map(|(f, at)| Edit::Word(f, at)),
        2 => (n(), n()).prop_map(|(f, at)| Edit::LineGone(f, at)),
        2 => (n(), n(), any::<bool>()).prop_map(|(f, at, id)| Edit::Heading(f, at, id)),
        3 => n().prop_map(Edit::Back),
        2 => Just(Edit::AllBack),
        1 => n().prop_map(Edit::Renamed),
        1 => n().prop_map(Edit::Gone),
        1 => n().prop_map(Edit::Twice),
        1 => n().prop_map(Edit::MachineGone),
        1 => n().prop_map(Edit::MachineTwice),
        3 => (n(), n()).prop_map(|(f, to)| Edit::Link(f, to)),
        1 => n().prop_map(Edit::Fault),
        1 => n().prop_map(Edit::Picture),
        1 => (0u8..4).prop_map(Edit::Photograph),
        1 => (0u8..3).prop_map(Edit::Theme),
        1 => (n(), 0u8..10).prop_map(|(at, d)| Edit::Shared(at, d)),
        2 => n().prop_map(Edit::Scribbled),
        1 => n().prop_map(Edit::Cut),
        1 => n().prop_map(Edit::Lost),
        2 => (n(), n()).prop_map(|(f, at)| Edit::KeptDamaged(f, at)),
        1 => Just(Edit::KeptGone),
        1 => (0u8..3).prop_map(Edit::Foreign),
        1 => n().prop_map(Edit::RecordGone),
        1 => n().prop_map(Edit::RecordTwice),
        1 => (n(), 0u8..4).prop_map(|(record, of)| Edit::RecordOf(record, of)),
        2 => any::<bool>().prop_map(Edit::Address),
        1 => (0u8..3).prop_map(Edit::Program),
    ]
}

pub(crate) fn options() -> impl Strategy<Value = Options> {
    let against = prop::option::weighted(0.2, prop_oneof![Just(Against::Manual), Just(Against::Site)]);
    let held = (prop::bool::weighted(0.5), prop::bool::weighted(0.5));
    (prop::bool::weighted(0.4), prop::bool::weighted(0.1), 1u8..4, prop::bool::weighted(0.1), against, held)
        .prop_map(|(proof, today, threads, verify, against, held)| Options { proof, today, threads, verify, against, held })
}
