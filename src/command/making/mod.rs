//! Making a site: looking at every machine, concluding, making the pages, publishing. What is as it was is taken from
//! where the last run left it.
//!
//! Invariants: a full run goes the same way, only that nothing was left. A machine's findings and pages are made from the
//! machine, from what all machines share and from the outlines its links lead to; pages of all machines and rules across
//! machines from what each machine contributes. Models are let go of as soon as their pages are laid down.

mod another;
mod cause;
mod look;
mod pages;
mod parts;
mod press;
mod state;
mod told;
mod why;

use super::work::{Whose, earlier_values, meant, values_still_there};
use super::World;
use super::progress::Progress;
use crate::crew::both;
use crate::finding::{FileTable, Finding, Severity};
use crate::inspect::{Frame, Report};
use crate::manual::{Date, Ledger, Manual, Profile, is_too_new, lower_frame};
use crate::output::{self, Kept, Published};
use crate::source::{HOLED, Survey, Value, YamlFile, fingerprint, fingerprint_of_file, has_published_values, published_values, survey};
use cause::{Cause, differences};
use look::Ground;
use press::Early;
use state::{FrameState, State};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
pub(super) use why::Why;

/// What to make, and by what to judge it.
pub(super) struct Order<'a> {
    pub(super) manual: Option<&'a PathBuf>,
    /// Where to publish.
    pub(super) into: &'a Path,
    /// The published site whose values are compared with, where no state is named.
    pub(super) earlier: &'a Path,
    pub(super) today: Option<Date>,
    pub(super) against: Option<&'a str>,
    pub(super) proof_copy: bool,
    /// Whether a manual with holes is not published: what was there before tells more.
    pub(super) whole_only: bool,
    /// Whether the site of another manual may be replaced.
    pub(super) replace_other: bool,
    /// Whether to read what is published, whatever its times say.
    pub(super) verify: bool,
    pub(super) memory: Memory,
    pub(super) threads: usize,
    pub(super) progress: Progress,
}

/// How many machines may be held in memory, by the bytes of their texts; the model of a text is some twenty times as large.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Memory {
    /// While they wait to be looked at, until the outlines of all others are known; nothing of their pages takes memory yet.
    /// Further ones are read a second time.
    pub waiting: usize,
    /// While they wait for their pages, until all were looked at. The pages of further ones are made at once, where that can
    /// be, or they are read once more.
    pub looked_at: usize,
}

impl Default for Memory {
    fn default() -> Self {
        Self { waiting: 24 << 20, looked_at: 8 << 20 }
    }
}

/// What came of it.
pub(super) struct Made {
    pub(super) files: FileTable,
    pub(super) report: Report,
    pub(super) head: Head,
    /// Whether something of the manual could not be read.
    pub(super) holed: bool,
    /// What was published; nothing where findings stop.
    pub(super) published: Option<(Published, Why)>,
    pub(super) stops: bool,
    /// Whether there was an earlier state to compare the values with.
    pub(super) compared: bool,
    /// The site beside the manual, where that was compared with.
    pub(super) beside: Option<PathBuf>,
}

/// What all pages of a manual share.
#[derive(Clone, Debug, Default)]
pub(super) struct Head {
    pub(super) title: String,
    pub(super) language: String,
    /// The manual's folder.
    pub(super) root: PathBuf,
    /// The folder of a theme of one's own, by its path from there.
    pub(super) theme: Option<String>,
}

impl Head {
    fn of(frame: &Manual, root: &Path) -> Self {
        Self { title: frame.title.clone(), language: frame.language.clone(), root: root.to_owned(), theme: frame.theme.as_ref().map(|theme| theme.value.clone()) }
    }
}

/// Whether a finding tells of something that could not be read.
pub(super) fn is_hole(finding: &Finding) -> bool {
    finding.grade() == Severity::Error && HOLED.iter().any(|rule| rule.name == finding.rule().name)
}

/// What inspecting a manual tells.
pub(super) struct Inspected {
    pub(super) files: FileTable,
    pub(super) report: Report,
    pub(super) title: String,
    pub(super) stops: bool,
    pub(super) profile: Profile,
    pub(super) machines: usize,
    pub(super) procedures: usize,
    /// The manual's folder.
    pub(super) root: PathBuf,
    /// Whether there was an earlier state to compare the values with.
    pub(super) compared: bool,
}

/// Inspects a manual, and publishes nothing: the same look, with nothing taken over and nothing left.
///
/// # Errors
/// In words: why it could not be read.
pub(super) fn inspect(order: &Order<'_>, world: &World) -> Result<Inspected, String> {
    let (mut loaded, mut findings) = load(order, world)?;
    let (frame, more) = lower_frame(&loaded.sources);
    if is_too_new(&more) {
        loaded.machines.clear();
    }
    findings.extend(more);
    let root = loaded.sources.root.clone();
    let whose = Whose::of(&frame.title, loaded.machines.iter().map(|machine| &machine.id));
    let values = earlier_values(order.against, &earlier_site(order.earlier, &root), world, &root, &whose)?;
    let against = || values.as_ref();
    let look_at_frame = Frame::look(&frame, &loaded.sources, against());
    let ground = Ground {
        survey: &loaded,
        frame: &frame,
        look: &look_at_frame,
        state: None,
        stateless: vec![Cause::Unknown],
        against: &against,
        against_own: false,
        beside: None,
        kept: &Kept::of(order.into),
        memory: Memory { looked_at: 0, ..order.memory },
        threads: order.threads,
        progress: order.progress,
    };
    let (mut looked, _) = look::look(&ground, None);
    for machine in &mut looked {
        findings.append(&mut machine.findings);
    }
    let report = look_at_frame.conclude(findings, &look::summaries(&looked), order.today, &loaded.sources.files);
    Ok(Inspected {
        title: frame.title.clone(),
        stops: report.stops(frame.profile),
        profile: frame.profile,
        machines: looked.len(),
        procedures: looked.iter().map(|machine| machine.state.outline.procedures.len()).sum(),
        report,
        files: loaded.sources.files.clone(),
        root,
        compared: values.is_some(),
    })
}

/// Where the values of the last publication lie: in the site meant, or, where nothing was published there, in the one beside the
/// manual. Who publishes into a new folder, or works in the manual's own, changes no value in silence either.
fn earlier_site(meant: &Path, manual: &Path) -> PathBuf {
    let beside = manual.parent().map(|folder| folder.join("site")).filter(|_| !has_published_values(meant));
    beside.unwrap_or_else(|| meant.to_owned())
}

/// Inspects a manual, and publishes it where nothing stops.
///
/// # Errors
/// In words: why it could not be read, or could not be published.
pub(super) fn make(order: &Order<'_>, world: &World) -> Result<Made, String> {
    let kept = Kept::of(order.into);
    let left = || {
        let program = world.program.as_deref().and_then(fingerprint_of_file).unwrap_or_default();
        (State::read(&kept, &program), program)
    };
    let (loaded, (known, program)) = both(order.threads, || load(order, world), left);
    let (mut loaded, mut findings) = loaded?;
    output::check_apart(order.into, &loaded.sources.root).map_err(|error| error.to_string())?;
    let (frame, more) = lower_frame(&loaded.sources);
    if is_too_new(&more) {
        loaded.machines.clear();
    }
    findings.extend(more);
    let frame_state = frame_state(&loaded);
    let (state, stateless) = usable(known, &frame_state);
    let against_own = order.against.is_none() && is_own(state.as_ref(), order.earlier);
    let earlier = earlier_site(order.earlier, &loaded.sources.root);
    let beside = Some(&earlier).filter(|earlier| order.against.is_none() && *earlier != order.earlier).cloned();
    let whose = Whose::of(&frame.title, loaded.machines.iter().map(|machine| &machine.id));
    let read = || earlier_values(order.against, &earlier, world, &loaded.sources.root, &whose);
    let values: OnceLock<Option<Ledger>> = OnceLock::new();
    if !against_own {
        // A proof copy elsewhere compares with what is there.
        if order.against.is_none() && (!order.proof_copy || order.into == order.earlier) {
            values_still_there(order.earlier)?;
            beside.as_deref().map_or(Ok(()), values_still_there)?;
        }
        let _ = values.set(read()?);
    }
    // Its own values are large, and most runs need them for no machine or for one.
    let against = || values.get_or_init(|| read().unwrap_or_default()).as_ref();
    let look_at_frame = Frame::look(&frame, &loaded.sources, if against_own { None } else { against() });
    let early = Early::new(order, &loaded, &frame, state.is_some());
    let ground = Ground {
        survey: &loaded,
        frame: &frame,
        look: &look_at_frame,
        state: state.as_ref(),
        stateless,
        against: &against,
        against_own,
        beside,
        kept: &kept,
        memory: order.memory,
        threads: order.threads,
        progress: order.progress,
    };
    let (mut looked, outlines) = look::look(&ground, Some(&early));
    for machine in &mut looked {
        findings.append(&mut machine.findings);
    }
    let report = look_at_frame.conclude(findings, &look::summaries(&looked), order.today, &loaded.sources.files);
    let stops = report.stops(frame.profile);
    let head = Head::of(&frame, &loaded.sources.root);
    let holed = report.findings.iter().any(is_hole);
    if (stops && !order.proof_copy) || (holed && order.whole_only) {
        let (compared, beside) = (ground.compared(), ground.beside.clone());
        early.abandon()?;
        return Ok(Made { files: loaded.sources.files.clone(), report, head, holed, published: None, stops, compared, beside });
    }
    let making = pages::Making { order, ground: &ground, outlines: &outlines, kept: &kept };
    let next = State::new(program, frame_state);
    pages::publish(&making, early.into_press()?, looked, report, next)
}

fn load(order: &Order<'_>, world: &World) -> Result<(Survey, Vec<Finding>), String> {
    meant(order.manual, world).and_then(|folder| survey(&folder, order.threads)).map_err(|error| error.to_string())
}

fn frame_state(loaded: &Survey) -> FrameState {
    let sources = &loaded.sources;
    let print = |file: &YamlFile| {
        // A file that could not be read whole has its text left out.
        let hole = matches!(file.root.value, Value::Hole);
        format!("{}{}", fingerprint(sources.files.text(file.file).as_bytes()), if hole { " with a hole" } else { "" })
    };
    FrameState { manual: print(&sources.manual), shop: sources.shop.as_ref().map_or_else(String::new, print) }
}

/// The state, where what all machines share is as it was; otherwise why there is none.
fn usable(known: Option<State>, frame: &FrameState) -> (Option<State>, Vec<Cause>) {
    let Some(known) = known else { return (None, vec![Cause::Unknown]) };
    let named = |state: &FrameState| {
        BTreeMap::from([("manual.yaml".to_owned(), state.manual.clone()), ("shop.yaml".to_owned(), state.shop.clone())])
    };
    let causes = differences(&named(&known.frame), &named(frame));
    if causes.is_empty() { (Some(known), causes) } else { (None, causes) }
}

/// Whether the published list of values is what the state's own run has left.
fn is_own(state: Option<&State>, into: &Path) -> bool {
    let Some(own) = state.and_then(|state| state.values.as_ref()) else { return false };
    published_values(into).ok().flatten().is_some_and(|bytes| fingerprint(&bytes) == *own)
}
