//! The things that are worked on and the work on them: what the lists of a front matter hold, typed.
//!
//! A field that is not given, or could not be read (already reported), is an empty [`Varied`] or `None`.

use super::expected::Expect;
use super::varied::{Combination, Varied};
use crate::finding::Place;
use crate::quantity::{Quantity, Size};
use crate::trade::order::{self, Position};
use crate::trade::thread::Thread;

/// What every entry of a list has, and the thing itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry<T> {
    /// The id.
    pub id: String,
    /// Where the id stands.
    pub id_place: Place,
    /// The name people use; the id where none is given.
    pub name: String,
    /// Where its values come from: ids of sources.
    pub source: Varied<String>,
    /// `for:`: the variants in which it exists; all where it says nothing.
    pub only: Combination,
    /// `note:`.
    pub note: Option<String>,
    /// `limit:` as a temperature or other bound on how the thing may be treated.
    pub limit: Varied<Quantity>,
    /// The thing.
    pub what: T,
}

/// A text or id with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub place: Place,
}

/// A fastener's torque.
#[derive(Clone, Debug, PartialEq)]
pub enum Torque {
    /// `hand`: run up by hand, with `because:`.
    Hand,
    /// One value, or stages of torque and angle; never empty.
    Stages(Vec<Quantity>),
}

impl Torque {
    /// The stages; none for `hand`.
    #[must_use]
    pub fn stages(&self) -> &[Quantity] {
        match self {
            Self::Hand => &[],
            Self::Stages(stages) => stages,
        }
    }
}

/// Where a group's fasteners sit, from which the order is worked out.
#[derive(Clone, Debug, PartialEq)]
pub enum Layout {
    /// `{circle: 6}`: so many, evenly round a circle.
    Circle(u64),
    /// `{rows: [5, 5]}`: rows of so many.
    Rows(Vec<u64>),
    /// `{at: [[0, 0], …]}`: places in millimetres.
    At(Vec<(f64, f64)>),
}

impl Layout {
    /// As the trade reckons with it.
    #[must_use]
    pub fn for_trade(&self) -> order::Layout {
        let whole = |number: u64| usize::try_from(number).unwrap_or(usize::MAX);
        match self {
            Self::Circle(count) => order::Layout::Circle(whole(*count)),
            Self::Rows(rows) => order::Layout::Rows(rows.iter().map(|row| whole(*row)).collect()),
            Self::At(places) => order::Layout::Positions(places.iter().map(|(x, y)| Position { x_mm: *x, y_mm: *y }).collect()),
        }
    }
}

/// What lies at the edges of a layout, in the author's words: by it drawing, board and machine are held the same way round.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Edges {
    /// Upper, lower, left and right edge.
    pub words: [Option<String>; 4],
}

impl Edges {
    /// The keys, in the order of the words.
    pub const KEYS: [&'static str; 4] = ["top", "bottom", "left", "right"];
}

/// An extension or crowfoot on a torque wrench.
#[derive(Clone, Debug, PartialEq)]
pub struct Adapter {
    /// Its effective length.
    pub length: Option<Quantity>,
    /// Its angle to the wrench; 0° is in line.
    pub angle: Option<Quantity>,
}

/// A substitution: what the maker had in this place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InsteadOf {
    /// The thread it had.
    pub thread: Option<String>,
    /// Its length.
    pub length: Option<Quantity>,
    /// Its property class.
    pub class: Option<String>,
    /// `permanent`, or until when.
    pub until: Option<String>,
}

/// A bolt, screw, nut, stud or plug, or a group of equal ones.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fastener {
    /// How many are in place when the work is done.
    pub count: Varied<u64>,
    /// Its thread.
    pub thread: Varied<Thread>,
    /// Its property class or grade, as written.
    pub class: Varied<String>,
    /// `clamp drive cover shaft-nut plug angle soft adjuster`.
    pub role: Varied<String>,
    /// Ids of the parts it clamps.
    pub holds: Vec<Spot<String>>,
    /// The material of the internal thread.
    pub into: Varied<String>,
    /// Length under the head.
    pub length: Varied<Quantity>,
    /// Thickness clamped.
    pub clamped: Varied<Quantity>,
    /// Threaded depth of the hole.
    pub hole: Varied<Quantity>,
    /// Thickness of the washer.
    pub washer: Varied<Quantity>,
    /// Height of the head.
    pub head: Varied<Quantity>,
    /// Room to moving parts.
    pub room: Varied<Quantity>,
    /// Drive, as written: `19 mm hex`.
    pub drive: Varied<String>,
    /// Thread condition the torque holds for.
    pub threads: Varied<String>,
    /// Id of the locker.
    pub locker: Varied<String>,
    /// The torque.
    pub torque: Varied<Torque>,
    /// Sum of the angle stages, as the author states it.
    pub angle_total: Varied<Quantity>,
    /// Tightening order, by position.
    pub order: Varied<Vec<u64>>,
    /// Where they sit.
    pub layout: Varied<Layout>,
    /// What lies at the edges of the layout.
    pub edges: Varied<Edges>,
    /// Id of the wrench.
    pub tool: Varied<String>,
    /// Extension or crowfoot.
    pub adapter: Varied<Adapter>,
    /// Id of the holding tool: the fastener turns with its shaft.
    pub hold_with: Varied<String>,
    /// `staked tab-washer lock-washer lock-wire cotter prevailing none`.
    pub lock: Varied<String>,
    /// For a self-locking nut, whether the torque it runs down with is in the value: `included added not-stated`.
    pub running: Varied<String>,
    /// `never inspect yes`.
    pub reuse: Varied<String>,
    /// On what condition it is used again: a measure's id or words.
    pub when: Varied<String>,
    /// How many new ones in hand.
    pub new: Varied<u64>,
    /// Spares on top.
    pub spare: Varied<u64>,
    /// Must be out again before the work ends.
    pub temporary: bool,
    /// Two signatures.
    pub critical: bool,
    /// What it stands in for.
    pub instead_of: Varied<InsteadOf>,
    /// A kit, `order` or `stock`.
    pub from: Varied<String>,
    /// `bought given lent`.
    pub got: Varied<String>,
    /// Why the torque is `hand`.
    pub because: Option<String>,
}

/// Which feature of a thing looks at which medium or neighbour.
#[derive(Clone, Debug, PartialEq)]
pub enum Faces {
    /// It doesn't matter.
    Either,
    /// Feature and what it looks at, with places.
    Toward(Vec<(String, Spot<String>)>),
}

/// A shaft seal, O-ring or other seal.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Seal {
    /// `rotary-lip`, `o-ring` and the like.
    pub kind: Varied<String>,
    /// Inside, outside diameter and width, or inside diameter and cord.
    pub size: Varied<Size>,
    /// Rubber, as written.
    pub material: Varied<String>,
    /// How many.
    pub count: Varied<u64>,
    /// `never inspect yes`.
    pub reuse: Varied<String>,
    /// On what condition it is used again.
    pub when: Varied<String>,
    /// New ones in hand.
    pub new: Varied<u64>,
    /// Spares on top.
    pub spare: Varied<u64>,
    /// Which side looks at which medium.
    pub faces: Varied<Faces>,
    /// `purge` where a pair is turned outward on purpose.
    pub pair: Varied<String>,
    /// How deep it sits.
    pub depth: Varied<Quantity>,
    /// Diameter of the shaft its lip runs on.
    pub shaft: Varied<Quantity>,
    /// Diameter of the bore it is pressed into.
    pub bore: Varied<Quantity>,
    /// Id of the lip's lubricant.
    pub lip: Varied<String>,
    /// Id of the part it sits in.
    pub within: Varied<String>,
    /// What its lip must pass: `splines`, `keyway`, `thread`.
    pub over: Varied<String>,
    /// Id of the sleeve that protects the lip.
    pub sleeve: Varied<String>,
    /// Where a vent or drain opens, from the face.
    pub vent: Varied<Quantity>,
    /// Part number.
    pub number: Varied<String>,
    /// Where it comes from.
    pub from: Varied<String>,
    /// `bought given lent`.
    pub got: Varied<String>,
}

/// A bearing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bearing {
    /// Bore, outside diameter and width.
    pub size: Varied<Size>,
    /// How many.
    pub count: Varied<u64>,
    /// Id of the part it sits in.
    pub within: Varied<String>,
    /// The fit that needs heat or a press.
    pub fit: Varied<BearingFit>,
    /// Which side looks where.
    pub faces: Varied<Faces>,
    /// `never inspect yes`.
    pub reuse: Varied<String>,
    /// On what condition it is used again.
    pub when: Varied<String>,
    /// New ones in hand.
    pub new: Varied<u64>,
    /// Spares on top.
    pub spare: Varied<u64>,
    /// Part number.
    pub number: Varied<String>,
    /// Where it comes from.
    pub from: Varied<String>,
    /// `bought given lent`.
    pub got: Varied<String>,
}

/// An interference fit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BearingFit {
    /// The housing's bore, where the outer ring is tight.
    pub bore: Option<Quantity>,
    /// The shaft, where the inner ring is tight.
    pub shaft: Option<Quantity>,
    /// The interference.
    pub interference: Option<Quantity>,
    /// Material of the housing.
    pub housing: Option<String>,
}

/// A part.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Part {
    /// `cover gasket o-ring circlip …`.
    pub kind: Varied<String>,
    /// Part number, always text.
    pub number: Varied<String>,
    /// How many.
    pub count: Varied<u64>,
    /// Which side looks where.
    pub faces: Varied<Faces>,
    /// Which side, in free words.
    pub side: Varied<String>,
    /// A kit, `order` or `stock`.
    pub from: Varied<String>,
    /// `bought given lent`.
    pub got: Varied<String>,
    /// `never inspect yes`.
    pub reuse: Varied<String>,
    /// On what condition it is used again: a measure's id or words.
    pub when: Varied<String>,
    /// New ones in hand.
    pub new: Varied<u64>,
    /// Spares on top.
    pub spare: Varied<u64>,
    /// Ids of what must be done, or in, before it goes on.
    pub covers: Vec<Spot<String>>,
    /// For a gasket or spring: id of the cover it lies under.
    pub under: Varied<String>,
    /// Id of the part it sits in.
    pub within: Varied<String>,
    /// Thickness.
    pub thickness: Varied<Quantity>,
    /// Mass.
    pub mass: Varied<Quantity>,
    /// Material.
    pub material: Varied<String>,
    /// Must be out again before the work ends.
    pub temporary: bool,
    /// Two signatures.
    pub critical: bool,
    /// While it is connected the machine can start or give a shock.
    pub live: bool,
}

/// Media, seals, bearings and parts as they sit on a shaft, end to end.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shaft {
    /// What sits on it, in order.
    pub sits: Vec<Spot<String>>,
}

/// Plates that go in turn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stack {
    /// Ids of the parts that take turns.
    pub of: Vec<Spot<String>>,
    /// Id of the first.
    pub begin: Varied<String>,
    /// Id of the last.
    pub end: Varied<String>,
}

/// A heat or chill.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heat {
    /// Id of the part warmed.
    pub of: Varied<String>,
    /// From what temperature.
    pub from: Varied<Quantity>,
    /// To what temperature.
    pub to: Varied<Quantity>,
    /// How long it cools.
    pub cool: Varied<Quantity>,
    /// Id of the thermometer.
    pub check_with: Varied<String>,
}

/// A bead of sealant.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bead {
    /// Id of the material.
    pub of: Varied<String>,
    /// Ids of the faces' parts.
    pub between: Vec<Spot<String>>,
    /// Its diameter.
    pub diameter: Varied<Quantity>,
    /// Its path's length.
    pub path: Varied<Quantity>,
    /// The widest gap it must fill.
    pub gap: Varied<Quantity>,
}

/// A shim chosen from a series.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shim {
    /// The series, thinnest to thickest.
    pub from: Varied<Quantity>,
    /// Its step.
    pub step: Varied<Quantity>,
    /// The formula.
    pub formula: Varied<String>,
    /// The shim in place at the reading.
    pub old: Varied<Quantity>,
    /// What the reading should become.
    pub target: Varied<Quantity>,
    /// What the reading may become.
    pub accept: Varied<Quantity>,
    /// A worked example: reading and what it gives.
    pub worked: Varied<WorkedShim>,
    /// How many.
    pub count: Varied<u64>,
}

/// A worked example of a shim's formula.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WorkedShim {
    /// The reading.
    pub reading: Option<Quantity>,
    /// The shim it gives.
    pub gives: Option<Quantity>,
}

/// A soak, cure, settling or other wait.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wait {
    /// How long.
    pub time: Varied<Quantity>,
    /// Ids of what waits.
    pub of: Vec<Spot<String>>,
    /// Id of the medium.
    pub medium: Varied<String>,
    /// Whether it must be fully covered.
    pub covered: bool,
    /// `nothing`, or the act that must come first.
    pub needs: Varied<String>,
}

/// A fluid poured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fill {
    /// Id of the material.
    pub of: Varied<String>,
    /// How much.
    pub amount: Varied<Quantity>,
    /// Parts of fuel for one of oil, of a mixture.
    pub ratio: Varied<Quantity>,
    /// How much oil is mixed into it.
    pub oil: Varied<Quantity>,
}

/// An alignment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Align {
    /// The two marks, in words.
    pub marks: Vec<String>,
    /// The offset as an angle.
    pub offset: Varied<Quantity>,
    /// The offset as an arc.
    pub arc: Varied<Quantity>,
    /// The diameter the arc is measured on.
    pub diameter: Varied<Quantity>,
    /// To which side the first mark stands off the second: `clockwise` or `anticlockwise`.
    pub sense: Varied<String>,
    /// From where it is looked at.
    pub viewed_from: Varied<String>,
    /// Id of the tool that proves it.
    pub check_with: Varied<String>,
}

/// A turn of a shaft.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Turn {
    /// What is turned, in words or an id.
    pub of: Varied<String>,
    /// How far.
    pub amount: Varied<Quantity>,
    /// Which way.
    pub sense: Varied<String>,
    /// From where.
    pub viewed_from: Varied<String>,
}

/// A functional check.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Test {
    /// `function leak pressure run load`.
    pub kind: Varied<String>,
    /// What is expected.
    pub expect: Varied<Expect>,
    /// What to do otherwise.
    pub otherwise: Varied<String>,
}

/// A kit of parts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kit {
    /// Id and count of what it holds.
    pub holds: Vec<(Spot<String>, u64)>,
    /// Part number.
    pub number: Varied<String>,
    /// `bought given lent`.
    pub got: Varied<String>,
}

/// What is known of a picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figure {
    /// Who made it.
    pub by: Option<String>,
    /// Under what licence.
    pub licence: Option<String>,
    /// Numbered balloons.
    pub balloons: Vec<Balloon>,
}

/// A numbered balloon on a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Balloon {
    /// Its number.
    pub item: u64,
    /// Its place in per cent of width and height.
    pub at: (f64, f64),
    /// Id of what it names.
    pub of: Option<Spot<String>>,
    /// Where it is written.
    pub place: Place,
}

/// Honest unfinished business.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OpenItem {
    /// Id of the thing; the item's own id where not given.
    pub of: Option<Spot<String>>,
    /// `hand-tight dry-fitted trial-torque provisional absent plugged unsealed away`.
    pub left: Option<String>,
    /// Why.
    pub because: Option<String>,
    /// Where it is finished: `PROCEDURE#STEP`.
    pub finish_in: Option<Spot<String>>,
    /// Acts that may not come before: `fill:gear-oil`, or a verb alone.
    pub forbids: Vec<Spot<String>>,
}

/// A part out at a vendor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Away {
    /// Why.
    pub because: Option<String>,
    /// Where it is needed back: `PROCEDURE#STEP`.
    pub finish_in: Option<Spot<String>>,
    /// What is inspected on return: ids of measures or words.
    pub on_return: Vec<Spot<String>>,
}
