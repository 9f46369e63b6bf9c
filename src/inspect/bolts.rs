//! Bolts as they lie on the bench: what turns them, which goes where, how sharply their torque is written.

use super::Context;
use super::every;
use super::tongue::Tongue;
use super::torque::beside;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Fastener, Layout, Machine};
use crate::quantity::{Form, Number, Quantity};
use crate::trade::hexagon::{occurs_on_any_head, sizes};
use crate::trade::reread::TorqueUnit;
use std::collections::{BTreeMap, BTreeSet};

/// A key or socket that fits no head of its thread.
pub(super) static DRIVER_MISMATCH: Rule = Rule {
    name: "driver-mismatch",
    severity: Severity::Warning,
    summary: "A hexagon is given that occurs on no head of this thread.",
    explanation: Explanation {
        finds: "drive: of a millimetre hexagon on metric fasteners of role clamp, cover, drive or angle, M3 to M24, where no plain, socket, flanged, small, low, button, countersunk, structural head or set screw in common use has that size (ISO 4014, ISO 4762, ISO 4162, ISO 7380, ISO 10642, ISO 4026 and the older DIN sizes; partly from memory).",
        matters: "Whoever lays out the tools by the list stands under the machine with the wrong socket; or the thread is not what the list says.",
        may_be_wrong: "Special heads: say which, with more than a size: 14 mm hex, waisted head of the maker.",
        example: "cap-bolt: {thread: M8x1.25, drive: 31 mm hex}",
        instead: "cap-bolt: {thread: M8x1.25, drive: 13 mm hex}",
    },
};

/// Bolts of two lengths, and nobody says which goes where.
pub(super) static MIXED_LENGTHS_UNMAPPED: Rule = Rule {
    name: "mixed-lengths-unmapped",
    severity: Severity::Warning,
    summary: "A part is held by bolts of one thread and two lengths, and nothing says which goes where.",
    explanation: Explanation {
        finds: "Two fasteners of one thread and different length that hold the same part, where neither has a balloon in a picture, places (layout: {at: …}) or a note:, and neither name says where it sits (upper, left, front, corner, centre and the like).",
        matters: "The long one in the short hole bottoms and clamps nothing; the short one in the long hole hangs on three threads.",
        may_be_wrong: "Where the step's text tells it: put it in note:, so that it stands in the table as well.",
        example: "short-screw: {count: 7, thread: M6x1.0, length: 30 mm, holds: [pump-cover]}, long-screw: {count: 3, thread: M6x1.0, length: 45 mm, holds: [pump-cover]}",
        instead: "Give both a balloon in a picture, or a note: long-screw: {…, note: at the two dowels and at the foot}",
    },
};

/// A torque is written sharper than any wrench.
pub(super) static FALSE_PRECISION: Rule = Rule {
    name: "false-precision",
    severity: Severity::Note,
    summary: "A torque is written to four digits, and is a round number in another unit.",
    explanation: Explanation {
        finds: "Torques of four or more digits, in one unit, that are a round number of N·m, lbf·ft, lbf·in, kgf·m or kgf·cm to within their last digit.",
        matters: "The digits come from a calculator, not from the source, and nobody can look the value up there any more.",
        may_be_wrong: "Where the source prints both: write both, 33.9 N·m (25 lbf·ft).",
        example: "cap-bolt: {torque: 33.90 N·m}",
        instead: "cap-bolt: {torque: 25 lbf·ft}   and the other unit is worked out beside it",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        for entry in lists.fasteners.values() {
            findings.extend(entry.what.drive.cases.iter().find_map(|drive| wrong_driver(entry, drive)));
            findings.extend(too_sharp(entry));
        }
    }
    for machine in &context.manual.machines {
        mixed_lengths(Tongue::of(context.manual), machine, findings);
    }
}

/// The size of a plain hexagon drive: `13 mm`, `13 mm hex`, `6 mm hex key`. None for what says more or less.
fn hexagon_mm(drive: &str) -> Option<f64> {
    const PLAIN: [&str; 8] = ["hex", "hexagon", "key", "socket", "head", "spanner", "internal", "external"];
    let mut words = drive.split_whitespace();
    let size: f64 = words.next()?.parse().ok()?;
    (words.next()? == "mm" && size.is_finite() && words.all(|word| PLAIN.contains(&word))).then_some(size)
}

fn wrong_driver(entry: &Entry<Fastener>, drive: &Case<String>) -> Option<Finding> {
    let thread = beside(&entry.what.thread, &drive.when).filter(|thread| thread.is_metric())?;
    let role = beside(&entry.what.role, &drive.when)?;
    let size = hexagon_mm(&drive.value).filter(|_| matches!(role.as_str(), "clamp" | "cover" | "drive" | "angle"))?;
    if occurs_on_any_head(thread.diameter_mm(), size)? {
        return None;
    }
    let usual = sizes(thread.diameter_mm())?;
    let older = usual.older_across_flats_mm.map(|older| format!(" (or, older, {older} mm)")).unwrap_or_default();
    Some(
        Finding::new(&DRIVER_MISMATCH, drive.place.clone(), format!("{} is {thread}, and no such head takes {size} mm", entry.name))
            .label("fits no head of this thread")
            .figure(format!(
                "usual for M{}: {} mm across flats{older}, ISO 4014; a key of {} mm in a socket cap screw, ISO 4762",
                usual.diameter_mm, usual.across_flats_mm, usual.socket_key_mm
            ))
            .fix("measure head and thread again; a special head says more than its size: 14 mm hex, the maker's waisted head")
            .about(format!("{}.drive", entry.id)),
    )
}

fn mixed_lengths(tongue: Tongue, machine: &Machine, findings: &mut Vec<Finding>) {
    let drawn: BTreeSet<&str> = machine
        .procedures
        .iter()
        .flat_map(|procedure| procedure.lists.figures.values())
        .flat_map(|figure| figure.what.balloons.iter().filter_map(|balloon| balloon.of.as_ref().map(|of| of.value.as_str())))
        .collect();
    let placed = |entry: &Entry<Fastener>| {
        let at = entry.what.layout.cases.iter().any(|layout| matches!(layout.value, Layout::At(_)));
        at || entry.note.is_some() || drawn.contains(entry.id.as_str()) || says_where(tongue, &entry.name)
    };
    let own = machine.procedures.iter().map(|procedure| &procedure.lists);
    let mut holding = Holding::new();
    for (home, lists) in own.chain([&machine.lists]).enumerate() {
        let shared = home == machine.procedures.len();
        for entry in lists.fasteners.values().filter(|entry| !entry.what.temporary && !entry.what.holds.is_empty() && !placed(entry)) {
            findings.extend(beside_those_before(home, shared, entry, &mut holding));
        }
    }
}

/// Fasteners by the part they hold, and by the list in which they stand. A list may hold thousands: of several that are the same
/// in all that is compared here, one stands for all.
type Holding<'m> = BTreeMap<&'m str, BTreeMap<usize, Vec<&'m Entry<Fastener>>>>;

/// The first fastener before this one that holds the same part with another length. What stands in two procedures' own lists is
/// worked on apart; what all of a machine share meets each of them.
fn beside_those_before<'m>(home: usize, shared: bool, entry: &'m Entry<Fastener>, holding: &mut Holding<'m>) -> Option<Finding> {
    let mut found = None;
    for held in &entry.what.holds {
        let lists = holding.entry(held.value.as_str()).or_default();
        if found.is_none() {
            let before = lists.iter().filter(|(list, _)| shared || **list == home).flat_map(|(_, entries)| entries);
            found = before.filter(|before| before.id_place != entry.id_place).find_map(|before| mixed(before, entry));
        }
        let own = lists.entry(home).or_default();
        if !own.iter().any(|known| is_alike(known, entry)) {
            own.push(entry);
        }
    }
    found
}

/// Whether two fasteners are the same in thread, length and variant.
fn is_alike(one: &Entry<Fastener>, other: &Entry<Fastener>) -> bool {
    fn same<T: PartialEq>(one: &[Case<T>], other: &[Case<T>]) -> bool {
        one.len() == other.len() && one.iter().zip(other).all(|(one, other)| one.when == other.when && one.value == other.value)
    }
    one.only == other.only && same(&one.what.thread.cases, &other.what.thread.cases) && same(&one.what.length.cases, &other.what.length.cases)
}

/// Whether a name says where a bolt sits.
fn says_where(tongue: Tongue, name: &str) -> bool {
    const ENGLISH: [&str; 26] = [
        "upper", "lower", "top", "bottom", "front", "rear", "back", "left", "right", "inner", "outer", "middle", "centre", "center",
        "corner", "side", "end", "forward", "aft", "port", "starboard", "at", "beside", "dowel", "by", "near",
    ];
    // How such words begin: as a part of another word (Deckel) they say nothing.
    const GERMAN: [&str; 18] = [
        "ober", "oben", "unter", "unten", "vorder", "vorn", "hint", "link", "recht", "inner", "innen", "äuß", "außen", "mittl", "eck", "seit", "bug", "heck",
    ];
    name.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).any(|word| {
        ENGLISH.contains(&word.as_str()) || (tongue == Tongue::German && GERMAN.iter().any(|beginning| word.starts_with(beginning)))
    }) || tongue == Tongue::Unread
}

fn mixed(one: &Entry<Fastener>, other: &Entry<Fastener>) -> Option<Finding> {
    let held = one.what.holds.iter().find(|held| other.what.holds.iter().any(|also| also.value == held.value))?;
    let both = one.only.and(&other.only)?;
    let (short, long) = one.what.length.cases_within(&both).find_map(|length| {
        let when = length.when.and(&both)?;
        let also = other.what.length.cases.iter().find(|also| also.when.agrees_with(&when) && also.value.nominal() != length.value.nominal())?;
        same_thread(one, other, &when).then_some((&length.value, &also.value))
    })?;
    Some(
        Finding::new(&MIXED_LENGTHS_UNMAPPED, other.id_place.clone(), format!("{} and {} hold the same part, and nothing says which goes where", one.name, other.name))
            .label(format!("{} here", long.written()))
            .related(one.id_place.clone(), format!("{} here", short.written()))
            .figure(format!("one thread, two lengths, in ‘{}’", held.value))
            .fix("number both in a picture (balloons:), or write in note: where each goes")
            .about(other.id.clone()),
    )
}

fn same_thread(one: &Entry<Fastener>, other: &Entry<Fastener>, when: &Combination) -> bool {
    let thread = |entry: &'_ Entry<Fastener>| beside(&entry.what.thread, when).cloned();
    thread(one).is_some_and(|one| thread(other) == Some(one))
}

/// The first value of a fastener's torque whose digits come from a conversion.
fn too_sharp(entry: &Entry<Fastener>) -> Option<Finding> {
    entry.what.torque.cases.iter().find_map(|case| {
        let (stage, round) = case.value.stages().iter().find_map(|stage| Some((stage, converted_from(stage)?)))?;
        Some(
            Finding::new(&FALSE_PRECISION, case.place.clone(), format!("{} on {} looks worked out from {round}", stage.written(), entry.name))
                .label("sharper than any wrench")
                .figure(format!("{} = {round}", stage.written()))
                .fix("write the source's own unit; the other is worked out and shown beside it")
                .about(format!("{}.torque", entry.id)),
        )
    })
}

/// The round value in another unit that a sharply written torque comes from.
fn converted_from(torque: &Quantity) -> Option<String> {
    // Round in each unit: as far apart as scales and tables have them.
    const ROUND: [(TorqueUnit, f64); 5] = [
        (TorqueUnit::PoundForceFoot, 1.0),
        (TorqueUnit::NewtonMetre, 1.0),
        (TorqueUnit::KilogramForceMetre, 0.1),
        (TorqueUnit::PoundForceInch, 5.0),
        (TorqueUnit::KilogramForceCentimetre, 5.0),
    ];
    let own = TorqueUnit::find(torque.unit().symbol()).filter(|_| torque.second().is_none())?;
    let numbers: Vec<&Number> = match torque.form() {
        Form::Single(only) | Form::AtLeast(only) | Form::AtMost(only) => vec![only],
        Form::Tolerance { nominal, .. } => vec![nominal],
        Form::Range { low, high } => vec![low, high],
    };
    if !numbers.iter().all(|number| is_sharp(number)) {
        return None;
    }
    ROUND.iter().filter(|(unit, _)| *unit != own).find_map(|(unit, step)| {
        let factor = own.newton_metres() / unit.newton_metres();
        let rounded: Option<Vec<String>> = numbers.iter().map(|number| round_to(number, factor, *step)).collect();
        rounded.map(|rounded| format!("{} {}", rounded.join("–"), unit.symbol()))
    })
}

/// Four or more digits as written.
fn is_sharp(number: &Number) -> bool {
    number.value().magnitude().is_some_and(|first| first - number.place() >= 3)
}

/// A number in another unit, where it is a multiple of a step there to within half its own last digit.
fn round_to(number: &Number, factor: f64, step: f64) -> Option<String> {
    let value = number.to_f64() * factor;
    let nearest = (value / step).round() * step;
    let open = number.half_digit().to_f64() * factor * 1.000_001;
    let digits = usize::from(step < 1.0);
    (nearest > 0.0 && (value - nearest).abs() <= open).then(|| format!("{nearest:.digits$}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manual::Varied;
    use crate::quantity::Dimension;

    #[test]
    fn plain_hexagons_are_read() {
        assert_eq!(hexagon_mm("13 mm hex"), Some(13.0));
        assert_eq!(hexagon_mm("6 mm hex key"), Some(6.0));
        assert_eq!(hexagon_mm("2.5 mm"), Some(2.5));
        for other in ["T30", "1/2 in hex", "13 mm 12-point", "14 mm hex, waisted head", "hex", "nan mm", ""] {
            assert_eq!(hexagon_mm(other), None, "{other}");
        }
    }

    // 25 lbf·ft = 33.8954 N·m, 75 lbf·ft = 101.686 N·m, 2.5 kgf·m = 24.5166 N·m (exact definitions).
    #[test]
    fn a_converted_torque_betrays_itself() {
        let from = |text: &str| converted_from(&Quantity::parse(text, Dimension::Torque).unwrap());
        assert_eq!(from("33.90 N·m").as_deref(), Some("25 lbf·ft"));
        assert_eq!(from("101.7 N·m").as_deref(), Some("75 lbf·ft"));
        assert_eq!(from("24.52 N·m").as_deref(), Some("2.5 kgf·m"));
        assert_eq!(from("20.34–27.12 N·m").as_deref(), Some("15–20 lbf·ft"));
        for honest in ["33.9 N·m", "24 N·m", "9.0 N·m", "33.90 N·m (25.00 lbf·ft)", "105.3 N·m", "320 N·m"] {
            assert_eq!(from(honest), None, "{honest}");
        }
    }

    // What is looked at grows with the list, not with its square: one fastener of each kind stands for all, and each is told once.
    #[test]
    fn of_many_fasteners_on_one_part_one_of_each_kind_is_kept() {
        let entry = |at: usize, length: &str| Entry {
            id: format!("bolt-{at}"),
            id_place: crate::finding::Place::new(crate::finding::FileTable::default().add("x.md", ""), at..at),
            name: "Bolt".to_owned(),
            source: Varied::default(),
            only: Combination::default(),
            note: None,
            limit: Varied::default(),
            what: Fastener {
                holds: vec![spot("cover")],
                thread: always(crate::trade::thread::Thread::parse("M8x1.25").unwrap()),
                length: always(Quantity::parse(length, Dimension::Length).unwrap()),
                ..Fastener::default()
            },
        };
        let entries: Vec<Entry<Fastener>> = (1..200).map(|at| entry(at, if at % 2 == 0 { "30 mm" } else { "45 mm" })).collect();
        let mut holding = Holding::new();
        let told = entries.iter().filter_map(|entry| beside_those_before(0, false, entry, &mut holding)).count();
        assert_eq!(told, entries.len() - 1);
        assert_eq!(holding["cover"][&0].len(), 2);
        // Another procedure's own are worked on apart; what the machine shares meets both.
        assert!(beside_those_before(1, false, &entry(300, "60 mm"), &mut Holding::new()).is_none());
        let (apart, shared) = (entry(301, "60 mm"), entry(302, "70 mm"));
        assert!(beside_those_before(1, false, &apart, &mut holding).is_none());
        assert!(beside_those_before(2, true, &shared, &mut holding).is_some());
    }

    fn spot(id: &str) -> crate::manual::Spot<String> {
        crate::manual::Spot { value: id.to_owned(), place: place() }
    }

    fn always<T>(value: T) -> Varied<T> {
        Varied { cases: vec![Case { when: Combination::default(), value, place: place() }] }
    }

    fn place() -> crate::finding::Place {
        crate::finding::Place::new(crate::finding::FileTable::default().add("x.md", ""), 0..0)
    }
}
