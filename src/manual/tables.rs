//! The keys of the four kinds of file, as data. In an entry any key but `name` and `for` may differ by variant.

use super::lists::ListKind;
use super::shape::{Field, Shape};
use crate::quantity::Dimension;

const TORQUE: &[Dimension] = &[Dimension::Torque];
const LENGTH: &[Dimension] = &[Dimension::Length];
const ANGLE: &[Dimension] = &[Dimension::Angle];
const TEMPERATURE: &[Dimension] = &[Dimension::Temperature];
const TIME: &[Dimension] = &[Dimension::Time];
const VOLUME: &[Dimension] = &[Dimension::Volume];
const AMOUNT: &[Dimension] = &[Dimension::Volume, Dimension::Mass, Dimension::Length];
const RATIO: &[Dimension] = &[Dimension::Ratio];
const MASS: &[Dimension] = &[Dimension::Mass];
/// What can be measured; a length is taken as meant where nothing else tells.
const MEASURED: &[Dimension] = &[
    Dimension::Length,
    Dimension::Torque,
    Dimension::Force,
    Dimension::Pressure,
    Dimension::Angle,
    Dimension::Temperature,
    Dimension::TemperatureRise,
    Dimension::Volume,
    Dimension::Mass,
    Dimension::Time,
    Dimension::Rotation,
    Dimension::Percent,
];
const TORQUE_OR_ANGLE: &[Dimension] = &[Dimension::Torque, Dimension::Angle];
const LENGTH_OR_TEMPERATURE: &[Dimension] =
    &[Dimension::Length, Dimension::Temperature, Dimension::Torque, Dimension::Angle, Dimension::Pressure];

const IDS: Shape = Shape::List(&Shape::Id);
const TEXTS: Shape = Shape::List(&Shape::Text);
const GOT: Shape = Shape::Words(&["bought", "given", "lent"]);
const REUSE: Shape = Shape::Words(&["never", "inspect", "yes"]);

/// Hazards a protection or notice is against.
pub static HAZARDS: &[&str] = &["heat", "spring", "pressure", "chips", "solvent", "fuel", "load", "rotation", "electric"];

static CLAIM: [Field; 3] = [
    Field::required("source", Shape::Id, "id of the source"),
    Field::new("of", Shape::Text, "the field it speaks of; of a fastener its torque, of a measure its spec, where not given"),
    Field::required("says", Shape::Text, "the value as it stands there, 70 N·m"),
];

static DECISION: [Field; 2] = [
    Field::required("source", Shape::Id, "id of the source that counts"),
    Field::required("because", Shape::Text, "why it counts and the others do not"),
];

/// Keys that every entry of every list may carry.
pub static COMMON: &[Field] = &[
    Field::new("name", Shape::Text, "the name people use; it never differs by variant"),
    Field::varied("source", Shape::Id, "id of the source of its values"),
    Field::new("sources", Shape::List(&Shape::Map(&CLAIM)), "what each of several sources says, where they differ"),
    Field::new("decided", Shape::Map(&DECISION), "which of them counts, and why"),
    Field::new("for", Shape::Condition, "the variants in which it exists, {shaft: L}"),
    Field::varied("note", Shape::Text, "anything a reader should know"),
    Field::varied("limit", Shape::Quantity(TEMPERATURE), "the most it may be treated with, max 100 °C"),
];

static HISTORY: [Field; 3] = [
    Field::new("revision", Shape::Count, "counted up with each change of a value"),
    Field::new("date", Shape::Date, "the day of this revision"),
    Field::new("changes", Shape::List(&Shape::Map(&CHANGE)), "which values changed, and why"),
];

static CHANGE: [Field; 5] = [
    Field::required("revision", Shape::Count, "the revision that brought it"),
    Field::required("of", Shape::Text, "the value: ID.field"),
    Field::varied("was", Shape::AsWritten, "what it was before, in the field's own form: [20 N·m, 90°]"),
    Field::required("because", Shape::Text, "why it changed"),
    Field::new("source", Shape::Id, "id of the source of the new value"),
];

static WAIVER: [Field; 5] = [
    Field::required("rule", Shape::Text, "name of the rule"),
    Field::required("of", Shape::Text, "what it is about: an id, ID.field, PROCEDURE#STEP"),
    Field::required("because", Shape::Text, "why it may stay"),
    Field::required("by", Shape::Id, "id of the person who answers for it"),
    Field::required("until", Shape::Date, "the day it ends"),
];

const UNIT_PAIR: Shape = Shape::List(&Shape::Text);

static UNITS: [Field; 11] = [
    Field::new("torque", UNIT_PAIR, "units for torques"),
    Field::new("force", UNIT_PAIR, "units for forces"),
    Field::new("length", UNIT_PAIR, "units for lengths"),
    Field::new("angle", UNIT_PAIR, "units for angles"),
    Field::new("temperature", UNIT_PAIR, "units for temperatures"),
    Field::new("rise", UNIT_PAIR, "units for rises of temperature"),
    Field::new("volume", UNIT_PAIR, "units for volumes"),
    Field::new("pressure", UNIT_PAIR, "units for pressures"),
    Field::new("mass", UNIT_PAIR, "units for masses"),
    Field::new("time", UNIT_PAIR, "units for times"),
    Field::new("rotation", UNIT_PAIR, "units for speeds of rotation"),
];

/// `manual.yaml`.
pub static MANUAL: &[Field] = &[
    Field::required("title", Shape::Text, "the manual's title"),
    Field::required("publisher", Shape::Text, "who answers for the values"),
    Field::new("format", Shape::Count, "the edition of this format it is written for; 1 where not given"),
    Field::new("language", Shape::Text, "BCP 47 tag: en, de, de-CH; the words of pages and sheets, their decimal mark, days and direction"),
    Field::new("notice", Shape::Text, "shown on every page and sheet, after the standing caution"),
    Field::new("units", Shape::Map(&UNITS), "units shown beside the author's own"),
    Field::new("paper", Shape::Words(&["A4", "Letter"]), "paper of the sheets"),
    Field::new("address", Shape::Text, "where it will be published: https://…"),
    Field::new("theme", Shape::Text, "a folder below this one that overrides templates and styles"),
    Field::new("profile", Shape::Words(&["working", "club", "published"]), "how strict: errors stop; warnings too; and every value sourced"),
    Field::new("waivers", Shape::List(&Shape::Map(&WAIVER)), "findings that a person has answered for"),
];

/// Keys of `shop.yaml` beside its lists.
pub static SHOP: &[Field] = &HISTORY;

static CORRECTION: [Field; 3] = [
    Field::required("at", Shape::Moment, "when it is said, '8:12'"),
    Field::required("said", Shape::Text, "what is said"),
    Field::required("of", Shape::Text, "the value meant: ID.field"),
];

static RECORDING: [Field; 7] = [
    Field::required("address", Shape::Text, "where it can be seen: https://…"),
    Field::new("starts_at", Shape::Moment, "for a film put up again behind something new: when what was its 0:00 comes, '0:40'; all moments move on by as much"),
    Field::new("cut", Shape::Moment, "for a film put up again without its beginning: how much is gone, '0:15'; all moments move back by as much"),
    Field::new("title", Shape::Text, "its title"),
    Field::new("length", Shape::Moment, "how long it is, '45:00'"),
    Field::new("silent", Shape::List(&Shape::Span), "spans in which hands work and nothing is said"),
    Field::new("corrections", Shape::List(&Shape::Map(&CORRECTION)), "what is said wrong"),
];

/// Keys of `machine.yaml` beside its lists.
pub static MACHINE: &[Field] = &[
    Field::required("name", Shape::Text, "the machine's name"),
    Field::new("maker", Shape::Text, "who makes it"),
    Field::new("kind", Shape::Text, "what it is: outboard motor"),
    Field::new("mass", Shape::Quantity(MASS), "how heavy it is"),
    Field::new("revision", Shape::Count, "counted up with each change of a value"),
    Field::new("date", Shape::Date, "the day of this revision"),
    Field::new("changes", Shape::List(&Shape::Map(&CHANGE)), "which values changed, and why"),
    Field::new("variants", Shape::Named(&Shape::Named(&Shape::Text)), "axes, their values and what they mean"),
    Field::new("not_made", Shape::List(&Shape::Condition), "combinations that don't exist"),
    Field::new("recordings", Shape::Named(&Shape::Map(&RECORDING)), "films of the work, by id"),
];

/// Keys of a procedure's front matter beside its lists.
pub static PROCEDURE: &[Field] = &[
    Field::required("title", Shape::Text, "the procedure's title"),
    Field::required("revision", Shape::Count, "counted up with each change of a value"),
    Field::required("date", Shape::Date, "the day of this revision"),
    Field::new("time", Shape::Quantity(TIME), "time it takes, waits not counted"),
    Field::new("after", IDS, "procedures that must be complete first"),
    Field::new("video", Shape::Either(&[Shape::Id, Shape::Map(&RECORDING)]), "the film of it, or its id in recordings"),
    Field::new("changes", Shape::List(&Shape::Map(&CHANGE)), "which values changed, and why"),
];

static ADAPTER: [Field; 2] = [
    Field::required("length", Shape::Quantity(LENGTH), "its effective length"),
    Field::new("angle", Shape::Quantity(ANGLE), "its angle to the wrench, 0° in line"),
];

static INSTEAD_OF: [Field; 4] = [
    Field::new("thread", Shape::Thread, "the thread the maker had"),
    Field::new("length", Shape::Quantity(LENGTH), "its length"),
    Field::new("class", Shape::Text, "its property class"),
    Field::new("until", Shape::Text, "permanent, or until when"),
];

static LAYOUT: [Field; 7] = [
    Field::new("circle", Shape::Count, "so many, evenly round"),
    Field::new("rows", Shape::List(&Shape::Count), "rows of so many"),
    Field::new("at", Shape::List(&Shape::Pair), "places in millimetres"),
    Field::new("top", Shape::Text, "what lies at the upper edge: belt end"),
    Field::new("bottom", Shape::Text, "what lies at the lower edge"),
    Field::new("left", Shape::Text, "what lies at the left edge"),
    Field::new("right", Shape::Text, "what lies at the right edge"),
];

static FASTENERS: &[Field] = &[
    Field::varied("count", Shape::Count, "how many are in place when the work is done"),
    Field::varied("thread", Shape::Thread, "ISO metric with pitch, Unified, or a pipe thread (G 1/4, R 1/2, 1/4-18 NPT); left-hand after it"),
    Field::varied("class", Shape::Text, "property class or grade: 8.8, 10.9, A4-80, SAE 5; nuts 8, 10"),
    Field::varied("role", Shape::Words(&["clamp", "drive", "cover", "shaft-nut", "plug", "angle", "soft", "adjuster"]), "what it does"),
    Field::varied("holds", IDS, "ids of the parts it clamps"),
    Field::varied("into", Shape::Words(&["steel", "cast-iron", "aluminium", "magnesium", "brass"]), "material of the internal thread"),
    Field::varied("length", Shape::Quantity(LENGTH), "length under the head"),
    Field::varied("clamped", Shape::Quantity(LENGTH), "thickness clamped"),
    Field::varied("hole", Shape::Quantity(LENGTH), "threaded depth of the hole"),
    Field::varied("washer", Shape::Quantity(LENGTH), "thickness of the washer"),
    Field::varied("head", Shape::Quantity(LENGTH), "height of the head"),
    Field::varied("room", Shape::Quantity(LENGTH), "room to moving parts"),
    Field::varied("drive", Shape::Text, "what turns it: 19 mm hex"),
    Field::varied("threads", Shape::Words(&["dry", "oiled", "locker", "anti-seize", "moly", "as-supplied"]), "thread condition the torque holds for"),
    Field::varied("locker", Shape::Id, "id of the thread locker"),
    Field::varied("torque", Shape::Either(&[Shape::Words(&["hand"]), Shape::List(&Shape::Quantity(TORQUE_OR_ANGLE)), Shape::Quantity(TORQUE)]), "its torque, a list of stages, or hand with because:"),
    Field::varied("angle_total", Shape::Quantity(ANGLE), "the sum of its angle stages"),
    Field::varied("order", Shape::List(&Shape::Count), "tightening order by position"),
    Field::varied("layout", Shape::Map(&LAYOUT), "where they sit; the order is worked out"),
    Field::varied("tool", Shape::Id, "id of the wrench"),
    Field::varied("adapter", Shape::Map(&ADAPTER), "extension or crowfoot on the wrench"),
    Field::varied("hold_with", Shape::Id, "id of the holding tool: it turns with its shaft"),
    Field::varied("lock", Shape::Words(&["staked", "tab-washer", "lock-washer", "lock-wire", "cotter", "prevailing", "none"]), "how it is locked"),
    Field::varied("running", Shape::Words(&["included", "added", "not-stated"]), "for lock: prevailing, whether the torque it runs down with is in the value, or measured and added"),
    Field::varied("reuse", REUSE, "never: new each time; inspect: on a condition; yes"),
    Field::varied("when", Shape::Text, "on what condition it is used again: a measure's id, or words"),
    Field::varied("new", Shape::Count, "new ones in hand"),
    Field::varied("spare", Shape::Count, "spares on top"),
    Field::varied("temporary", Shape::Flag, "must be out again before the work ends"),
    Field::varied("critical", Shape::Flag, "two signatures"),
    Field::varied("instead_of", Shape::Map(&INSTEAD_OF), "what the maker had in its place"),
    Field::varied("from", Shape::Id, "a kit's id, order or stock"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
    Field::varied("because", Shape::Text, "why it is only run up by hand"),
];

const FACES: Shape = Shape::Either(&[Shape::Words(&["either"]), Shape::Named(&Shape::Text)]);

static SEALS: &[Field] = &[
    Field::varied("type", Shape::Text, "rotary-lip, o-ring, …"),
    Field::varied("size", Shape::Size, "30x42x7 mm"),
    Field::varied("material", Shape::Text, "its rubber: NBR, HNBR, FKM, …"),
    Field::varied("count", Shape::Count, "how many; 1 where not given"),
    Field::varied("reuse", REUSE, "never: new each time; inspect: on a condition; yes"),
    Field::varied("when", Shape::Text, "on what condition it is used again"),
    Field::varied("new", Shape::Count, "new ones in hand"),
    Field::varied("spare", Shape::Count, "spares on top"),
    Field::varied("faces", FACES, "{spring: gear-oil, back: grease}, or either"),
    Field::varied("pair", Shape::Words(&["purge"]), "a pair turned outward on purpose"),
    Field::varied("depth", Shape::Quantity(LENGTH), "how deep it sits"),
    Field::varied("shaft", Shape::Quantity(LENGTH), "diameter of the shaft its lip runs on"),
    Field::varied("bore", Shape::Quantity(LENGTH), "diameter of the bore it is pressed into"),
    Field::varied("lip", Shape::Id, "id of the lip's lubricant"),
    Field::varied("in", Shape::Id, "id of the part it sits in"),
    Field::varied("over", Shape::Text, "what its lip must pass: splines, keyway, thread"),
    Field::varied("sleeve", Shape::Id, "id of the sleeve that protects the lip"),
    Field::varied("vent", Shape::Quantity(LENGTH), "where a vent or drain opens"),
    Field::varied("number", Shape::Text, "part number, in quotes"),
    Field::varied("from", Shape::Id, "a kit's id, order or stock"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
];

static FIT: [Field; 4] = [
    Field::new("bore", Shape::Quantity(LENGTH), "the housing's bore"),
    Field::new("shaft", Shape::Quantity(LENGTH), "the shaft, where the inner ring is tight"),
    Field::new("interference", Shape::Quantity(LENGTH), "how tight: max 0.040 mm"),
    Field::new("housing", Shape::Words(&["steel", "cast-iron", "aluminium", "magnesium", "brass"]), "material of the housing"),
];

static BEARINGS: &[Field] = &[
    Field::varied("size", Shape::Size, "30x62x16 mm"),
    Field::varied("count", Shape::Count, "how many; 1 where not given"),
    Field::varied("in", Shape::Id, "id of the part it sits in"),
    Field::varied("fit", Shape::Map(&FIT), "the fit that needs heat or a press"),
    Field::varied("faces", FACES, "{numbers: grease}, or either"),
    Field::varied("reuse", REUSE, "never: new each time; inspect: on a condition; yes"),
    Field::varied("when", Shape::Text, "on what condition it is used again"),
    Field::varied("new", Shape::Count, "new ones in hand"),
    Field::varied("spare", Shape::Count, "spares on top"),
    Field::varied("number", Shape::Text, "part number, in quotes"),
    Field::varied("from", Shape::Id, "a kit's id, order or stock"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
];

static PARTS: &[Field] = &[
    Field::varied("kind", Shape::Words(&[
        "cover", "gasket", "o-ring", "circlip", "key", "pin", "clip", "washer", "sealing-washer", "lock-washer",
        "dished-washer", "shim", "spacer", "gear", "plate", "spring", "housing", "shaft", "other",
    ]), "what it is"),
    Field::varied("number", Shape::Text, "part number, in quotes"),
    Field::varied("count", Shape::Count, "how many; 1 where not given"),
    Field::varied("faces", FACES, "{chamfer: crankcase}, or either"),
    Field::varied("side", Shape::Text, "which side, in free words"),
    Field::varied("from", Shape::Id, "a kit's id, order or stock"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
    Field::varied("reuse", REUSE, "never: new each time; inspect: on a condition; yes"),
    Field::varied("when", Shape::Text, "on what condition it is used again: a measure's id, or words"),
    Field::varied("new", Shape::Count, "new ones in hand"),
    Field::varied("spare", Shape::Count, "spares on top"),
    Field::varied("covers", IDS, "ids of what must be done before it goes on: fasteners, measures, aligns, tests and open items, and parts, seals and bearings that must be in"),
    Field::varied("under", Shape::Id, "for a gasket or spring: id of its cover; for any part: of what lies above it"),
    Field::varied("in", Shape::Id, "id of the part it sits in"),
    Field::varied("thickness", Shape::Quantity(LENGTH), "its thickness"),
    Field::varied("mass", Shape::Quantity(MASS), "its mass"),
    Field::varied("material", Shape::Text, "what it is made of"),
    Field::varied("temporary", Shape::Flag, "must be out again before the work ends"),
    Field::varied("critical", Shape::Flag, "two signatures"),
    Field::varied("live", Shape::Flag, "while it is connected the machine can start or give a shock: a battery lead, a spark lead, a motor's plug"),
];

static STACKS: &[Field] = &[
    Field::varied("of", IDS, "ids of the parts that take turns"),
    Field::varied("begin", Shape::Id, "id of the first"),
    Field::varied("end", Shape::Id, "id of the last"),
];

static HEATS: &[Field] = &[
    Field::varied("of", Shape::Id, "id of the part warmed or chilled"),
    Field::varied("from", Shape::Quantity(TEMPERATURE), "from what temperature"),
    Field::varied("to", Shape::Quantity(TEMPERATURE), "to what temperature"),
    Field::varied("cool", Shape::Quantity(TIME), "how long it takes to come back"),
    Field::varied("check_with", Shape::Id, "id of the thermometer"),
];

static BEADS: &[Field] = &[
    Field::varied("of", Shape::Id, "id of the sealant"),
    Field::varied("between", IDS, "ids of the parts of the joint"),
    Field::varied("diameter", Shape::Quantity(LENGTH), "diameter of the bead"),
    Field::varied("path", Shape::Quantity(LENGTH), "length of its path"),
    Field::varied("gap", Shape::Quantity(LENGTH), "the widest gap it must fill"),
];

static BACKLASH_AT: [Field; 2] = [
    Field::required("gear_radius", Shape::Quantity(LENGTH), "radius of the gear"),
    Field::required("dial_radius", Shape::Quantity(LENGTH), "radius at which the dial sits"),
];

static CORD: [Field; 2] = [
    Field::required("radius", Shape::Quantity(LENGTH), "radius on which the cord is wound"),
    Field::required("torque", Shape::Quantity(TORQUE), "the drag that the pull stands for"),
];

static MEASURES: &[Field] = &[
    Field::varied("kind", Shape::Text, "end-gap, wear, height, free-length, …"),
    Field::varied("spec", Shape::Quantity(MEASURED), "what a good one reads"),
    Field::varied("limit", Shape::Quantity(MEASURED), "beyond what it may not be used"),
    Field::varied("with", Shape::Id, "id of the instrument"),
    Field::varied("count", Shape::Count, "how many readings; 1, or as many as places, where not given"),
    Field::new("places", TEXTS, "where each reading is taken, in their order: [upper valve, lower valve]"),
    Field::varied("when", Shape::Text, "in what condition: cold, oiled, seals out"),
    Field::varied("otherwise", Shape::Text, "what to do when it is out"),
    Field::varied("chooses", Shape::Id, "id of the shim it chooses"),
    Field::varied("is", Shape::Text, "a formula over other measures: bore - piston"),
    Field::varied("of", Shape::Id, "id of what is measured"),
    Field::varied("bore", Shape::Quantity(LENGTH), "the bore, for a ring's end gap"),
    Field::varied("at", Shape::Map(&BACKLASH_AT), "radii, for a backlash"),
    Field::varied("cord", Shape::Map(&CORD), "for a pull on a cord: the radius it is wound on, and the drag it stands for"),
];

static WORKED: [Field; 2] = [
    Field::required("reading", Shape::Quantity(LENGTH), "a reading"),
    Field::required("gives", Shape::Quantity(LENGTH), "the shim it gives"),
];

static SHIMS: &[Field] = &[
    Field::varied("from", Shape::Quantity(LENGTH), "the series, thinnest to thickest"),
    Field::varied("step", Shape::Quantity(LENGTH), "step of the series"),
    Field::varied("is", Shape::Text, "the formula: old + reading - target"),
    Field::varied("old", Shape::Quantity(LENGTH), "the shim in place at the reading"),
    Field::varied("target", Shape::Quantity(LENGTH), "what the reading should become"),
    Field::varied("accept", Shape::Quantity(LENGTH), "what the reading may become"),
    Field::varied("worked", Shape::Map(&WORKED), "a worked example"),
    Field::varied("count", Shape::Count, "how many; 1 where not given"),
];

static WAITS: &[Field] = &[
    Field::varied("time", Shape::Quantity(TIME), "how long: ≥ 12 h"),
    Field::varied("of", IDS, "ids of what waits"),
    Field::varied("in", Shape::Id, "id of the medium"),
    Field::varied("covered", Shape::Flag, "fully covered by it"),
    Field::varied("needs", Shape::Text, "nothing, or the act that must come first"),
];

static FILLS: &[Field] = &[
    Field::varied("of", Shape::Id, "id of the material"),
    Field::varied("amount", Shape::Quantity(VOLUME), "how much"),
    Field::varied("ratio", Shape::Quantity(RATIO), "parts of fuel for one of oil, in quotes: '50:1'"),
    Field::varied("oil", Shape::Quantity(VOLUME), "how much oil is mixed into it"),
];

static ALIGNS: &[Field] = &[
    Field::varied("marks", TEXTS, "the two marks, in words"),
    Field::varied("offset", Shape::Quantity(ANGLE), "offset of one mark from the other"),
    Field::varied("arc", Shape::Quantity(LENGTH), "the same as an arc"),
    Field::varied("diameter", Shape::Quantity(LENGTH), "the diameter the arc is measured on"),
    Field::varied("sense", Shape::Words(&["clockwise", "anticlockwise"]), "to which side the first mark stands off the second"),
    Field::varied("viewed_from", Shape::Text, "from where it is looked at"),
    Field::varied("check_with", Shape::Id, "id of the tool that proves it"),
];

static TURNS: &[Field] = &[
    Field::varied("of", Shape::Text, "what is turned"),
    Field::varied("amount", Shape::Quantity(ANGLE), "how far: 2 turn"),
    Field::varied("sense", Shape::Words(&["clockwise", "anticlockwise"]), "which way"),
    Field::varied("viewed_from", Shape::Text, "from where it is looked at"),
];

static TESTS: &[Field] = &[
    Field::varied("kind", Shape::Words(&["function", "leak", "pressure", "run", "load"]), "what kind of test"),
    Field::varied("expect", Shape::Either(&[Shape::Named(&Shape::AnyQuantity), Shape::Text]), "what it should show: words, or named quantities; a time, speed, pressure, load … needs a unit of its kind"),
    Field::varied("otherwise", Shape::Text, "what to do when it fails"),
];

static KITS: &[Field] = &[
    Field::required("holds", Shape::Named(&Shape::Count), "id and count of what it holds"),
    Field::varied("number", Shape::Text, "part number, in quotes"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
];

static BALLOON: [Field; 3] = [
    Field::required("item", Shape::Count, "its number"),
    Field::required("at", Shape::Percent, "where the item is, from the left and from the top: 34% 20%"),
    Field::required("of", Shape::Id, "id of what it names"),
];

static FIGURES: &[Field] = &[
    Field::varied("by", Shape::Text, "who made it"),
    Field::varied("licence", Shape::Text, "under what licence"),
    Field::varied("balloons", Shape::List(&Shape::Map(&BALLOON)), "numbered balloons"),
];

static TOOLS: &[Field] = &[
    Field::required("kind", Shape::Words(&[
        "torque-wrench", "angle-gauge", "holding-tool", "gauge", "press-tool", "sleeve", "heater", "thermometer",
        "lifting", "container", "protection", "other",
    ]), "what it is"),
    Field::varied("range", Shape::Quantity(MEASURED), "its scale from end to end: 5–25 N·m"),
    Field::varied("scale", Shape::Text, "the unit on its scale"),
    Field::varied("step", Shape::Quantity(MEASURED), "one division of its scale"),
    Field::varied("drive", Shape::Text, "its square: 1/2 in"),
    Field::varied("length", Shape::Quantity(LENGTH), "from its square to the middle of its grip"),
    Field::varied("resolution", Shape::Quantity(MEASURED), "what it can tell apart"),
    Field::varied("against", Shape::List(&Shape::Words(HAZARDS)), "what a protection protects from"),
    Field::new("needs", Shape::Text, "the act that must come first, where it can't do without: fit:piston"),
    Field::new("calibrated", Shape::Date, "the day it was last calibrated, as its certificate has it"),
    Field::new("calibrate_every", Shape::Months, "how often it must be: 12 months (common practice for torque wrenches, or 5,000 operations where that comes first)"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
];

static MATERIALS: &[Field] = &[
    Field::required("kind", Shape::Words(&[
        "thread-locker", "retaining-compound", "sealant", "oil", "grease", "anti-seize", "solvent", "coolant", "fuel",
        "adhesive", "primer", "other",
    ]), "what it is"),
    Field::varied("strength", Shape::Text, "a locker's strength: low, medium, high, wicking"),
    Field::varied("threads", Shape::Text, "threads it is meant for: M6–M20"),
    Field::varied("working", Shape::Quantity(TIME), "time in which the joint can still be tightened"),
    Field::varied("fixture", Shape::Quantity(TIME), "time until it holds"),
    Field::varied("cure", Shape::Quantity(TIME), "time until it may be loaded"),
    Field::varied("service", Shape::Quantity(TEMPERATURE), "temperatures it stands"),
    Field::varied("release", Shape::Quantity(TEMPERATURE), "temperature that lets go of it"),
    Field::varied("grade", Shape::Text, "its grade"),
    Field::varied("base", Shape::Text, "what it is made on: mineral, silicone, anaerobic"),
    Field::varied("pack", Shape::Quantity(AMOUNT), "how much a pack holds"),
    Field::varied("packs", Shape::Count, "packs in hand; 1 where not given"),
    Field::varied("got", GOT, "how it was come by, where a reader should know: bought, given or lent"),
];

static SOURCES: &[Field] = &[
    Field::required("title", Shape::Text, "its title"),
    Field::required("kind", Shape::Words(&["maker", "kit", "vendor", "measured", "size-table", "practice", "heard"]), "what kind of source it is"),
    Field::new("edition", Shape::Text, "its edition"),
    Field::new("page", Shape::Text, "the page"),
    Field::new("date", Shape::Date, "its date"),
    Field::new("by", Shape::Id, "id of who wrote or measured it"),
    Field::new("read_by", Shape::Id, "id of who read it a second time"),
];

static PEOPLE: &[Field] = &[];

static TERMS: &[Field] = &[
    Field::required("means", Shape::Text, "what it means"),
    Field::new("not", TEXTS, "words not to use for it"),
];

static LEAVES_OPEN: &[Field] = &[
    Field::new("of", Shape::Id, "id of the thing, where the item's id is not its thing's"),
    Field::required("left", Shape::Words(&["hand-tight", "dry-fitted", "trial-torque", "provisional", "absent", "plugged", "unsealed", "away"]), "how it is left"),
    Field::required("because", Shape::Text, "why"),
    Field::required("finish_in", Shape::Text, "where it is finished: PROCEDURE#STEP"),
    Field::new("forbids", Shape::List(&Shape::Text), "acts that may not come before: fill:gear-oil, or a verb"),
];

static AWAY: &[Field] = &[
    Field::required("because", Shape::Text, "why it is away"),
    Field::required("finish_in", Shape::Text, "where it is needed back: PROCEDURE#STEP"),
    Field::new("on_return", TEXTS, "what is inspected on return: measures' ids, or words"),
    Field::varied("limit", Shape::Quantity(LENGTH_OR_TEMPERATURE), "what the vendor must keep to: max 150 °C"),
];

/// The keys of an entry of a list, beside [`COMMON`].
#[must_use]
pub fn entry_fields(kind: ListKind) -> &'static [Field] {
    match kind {
        ListKind::Fasteners => FASTENERS,
        ListKind::Seals => SEALS,
        ListKind::Bearings => BEARINGS,
        ListKind::Parts => PARTS,
        ListKind::Shafts => &[],
        ListKind::Stacks => STACKS,
        ListKind::Heats => HEATS,
        ListKind::Beads => BEADS,
        ListKind::Measures => MEASURES,
        ListKind::Shims => SHIMS,
        ListKind::Waits => WAITS,
        ListKind::Fills => FILLS,
        ListKind::Aligns => ALIGNS,
        ListKind::Turns => TURNS,
        ListKind::Tests => TESTS,
        ListKind::Kits => KITS,
        ListKind::Figures => FIGURES,
        ListKind::Tools => TOOLS,
        ListKind::Materials => MATERIALS,
        ListKind::Sources => SOURCES,
        ListKind::People => PEOPLE,
        ListKind::Terms => TERMS,
        ListKind::LeavesOpen => LEAVES_OPEN,
        ListKind::Away => AWAY,
    }
}

/// The four kinds of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// `manual.yaml`
    Manual,
    /// `shop.yaml`
    Shop,
    /// `machine.yaml`
    Machine,
    /// A procedure's front matter.
    Procedure,
}

const SHARED_LISTS: &[ListKind] = &[ListKind::Tools, ListKind::Materials, ListKind::Sources, ListKind::People];

impl FileKind {
    /// All four, in the order of the format.
    pub const ALL: [Self; 4] = [Self::Manual, Self::Shop, Self::Machine, Self::Procedure];

    /// Its name, as `schema` takes it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Manual => "manual",
            Self::Shop => "shop",
            Self::Machine => "machine",
            Self::Procedure => "procedure",
        }
    }

    /// Its keys beside its lists.
    #[must_use]
    pub fn fields(self) -> &'static [Field] {
        match self {
            Self::Manual => MANUAL,
            Self::Shop => SHOP,
            Self::Machine => MACHINE,
            Self::Procedure => PROCEDURE,
        }
    }

    /// The lists it may hold.
    #[must_use]
    pub fn lists(self) -> Vec<ListKind> {
        let work = ListKind::ALL.iter().copied().filter(|kind| {
            !matches!(kind, ListKind::Terms | ListKind::LeavesOpen | ListKind::Away) && !SHARED_LISTS.contains(kind)
        });
        match self {
            Self::Manual => Vec::new(),
            Self::Shop => SHARED_LISTS.iter().copied().chain([ListKind::Terms]).collect(),
            Self::Machine => work.chain(SHARED_LISTS.iter().copied()).chain([ListKind::Terms]).collect(),
            Self::Procedure => {
                work.chain(SHARED_LISTS.iter().copied()).chain([ListKind::LeavesOpen, ListKind::Away]).collect()
            }
        }
    }
}
