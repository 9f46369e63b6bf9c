//! Sources that say different things of one value: somebody decides between them, and says why.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity, nearest};
use crate::manual::{Claim, Claims, Combination, Decision, ListKind, Lists, Scope, WrittenValue};
use crate::quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

/// Sources differ and nobody has decided.
pub(super) static SOURCE_CONFLICT: Rule = Rule {
    name: "source-conflict",
    severity: Severity::Error,
    summary: "Two sources say different things of a value, and nobody has decided between them.",
    explanation: Explanation {
        finds: "Entries with sources: of which two say values of one field that lie further apart than the tolerance of either or of the list (one per cent where none has one), without decided:; a list with a value that none of its sources gives. Of spec:, limit: and accept: both ends of a range count; a lower bound agrees with no upper one. Of a torque by stages the last stage may stand for all. With decided:, a source that says nothing there, and a value in the list that differs from what the source decided for says. A source that speaks of a field the entry does not have.",
        matters: "A book and a bulletin that differ are a question. Whoever takes the first value he finds has answered it without knowing.",
        may_be_wrong: "Where they speak of different variants: write the value by variant, each with its source.",
        example: "pump-bolt: {torque: 24 N·m, sources: [{source: sheet, says: 24 N·m}, {source: book, says: 28 N·m}]}",
        instead: "decided: {source: sheet, because: the sheet is newer and the maker confirmed it}",
    },
};

/// Without a tolerance two values may differ by this share of the larger: what a rounded conversion leaves.
const ROUNDING: f64 = 0.01;
/// Fields of which the ends are the value, not what lies between them.
const OF_ENDS: [&str; 3] = ["spec", "limit", "accept"];
/// What every entry may have and no source gives a value of.
const NO_VALUES: [&str; 6] = ["name", "note", "source", "sources", "decided", "only"];

/// What a list has, by its entries.
type Written<'l> = BTreeMap<(ListKind, &'l str), Vec<&'l WrittenValue>>;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        if lists.claims.is_empty() {
            continue;
        }
        let mut all = Written::new();
        for value in &lists.written {
            all.entry((value.kind, value.id.as_str())).or_default().push(value);
        }
        for claims in &lists.claims {
            let Some(head) = lists.head(claims.kind, &claims.id) else { continue };
            let written = all.get(&(claims.kind, claims.id.as_str())).map(Vec::as_slice).unwrap_or_default();
            let found = of_no_field(lists, claims, written, head.name).or_else(|| match &claims.decided {
                None => undecided(scope, claims, written, head.name),
                Some(decided) => ill_decided(claims, decided, written, head.name),
            });
            findings.extend(found.map(|finding| finding.about(claims.id.clone())));
        }
    }
}

/// A claim about a field that the entry does not have.
fn of_no_field(lists: &Lists, claims: &Claims, written: &[&WrittenValue], name: &str) -> Option<Finding> {
    let mut has: Vec<&str> = written.iter().map(|value| value.field).filter(|field| !NO_VALUES.contains(field)).collect();
    has.dedup();
    let unreadable = |field: &str| lists.unreadable.iter().any(|(kind, id, other)| *kind == claims.kind && *id == claims.id && *other == field);
    // Where the main field is left out, other rules tell of that.
    let is_known = |claim: &&Claim| match claims.field(claim) {
        "" => false,
        field => claim.of.is_none() || has.contains(&field) || unreadable(field),
    };
    let claim = claims.said.iter().find(|claim| !is_known(claim))?;
    let (place, message, label) = match &claim.of {
        Some(of) => (&of.place, format!("a source of {name} speaks of ‘{}’, and {name} has no such field", of.value), "not in this entry"),
        None => (&claim.says.place, format!("a source of {name} does not tell which of its fields it speaks of"), "of which field?"),
    };
    let meant = claim.of.as_ref().and_then(|of| nearest(&of.value, has.iter().copied()));
    let meant = meant.or(has.first().copied().filter(|_| has.len() == 1)).unwrap_or("FIELD");
    Some(
        Finding::new(&SOURCE_CONFLICT, place.clone(), message)
            .label(label)
            .figure(format!("{name} has {}", if has.is_empty() { "no field with a value".to_owned() } else { has.join(", ") }))
            .fix(format!("name the field that the value stands in: {{source: {}, of: {meant}, says: …}}", claim.source.value)),
    )
}

fn undecided(scope: Scope<'_>, claims: &Claims, written: &[&WrittenValue], name: &str) -> Option<Finding> {
    let mut of_fields: Vec<(&str, Vec<&Claim>)> = Vec::new();
    for claim in &claims.said {
        let field = claims.field(claim);
        match of_fields.iter_mut().find(|(other, _)| *other == field) {
            Some((_, of_field)) => of_field.push(claim),
            None => of_fields.push((field, vec![claim])),
        }
    }
    of_fields.into_iter().find_map(|(field, of_field)| undecided_field(scope, field, &of_field, &in_field(written, field), name))
}

fn undecided_field(scope: Scope<'_>, field: &str, claims: &[&Claim], listed: &[Listed<'_>], name: &str) -> Option<Finding> {
    let title = |claim: &Claim| scope.entry(|lists| &lists.sources, &claim.source.value).map_or_else(|| claim.source.value.clone(), |entry| entry.what.title.clone());
    let width = listed.iter().flat_map(|listed| &listed.said.0).filter_map(|stage| stage.quantity.as_ref()).filter_map(middle).map(|(_, half)| half).fold(0.0, f64::max);
    // What many sources say in the same words is compared once.
    let mut said: Vec<(&Claim, Said)> = Vec::new();
    let mut told: BTreeSet<&str> = BTreeSet::new();
    for claim in claims {
        if told.insert(&claim.says.value) {
            said.push((claim, Said::of(&claim.says.value)));
        }
    }
    let mut pairs = said.iter().enumerate().flat_map(|(at, other)| said.iter().take(at).map(move |first| (first, other)));
    if let Some(((first, _), (other, _))) = pairs.find(|((_, first), (_, other))| !agree(first, other, field, width)) {
        return Some(
            Finding::new(&SOURCE_CONFLICT, other.says.place.clone(), format!("the sources of {name} differ, and nobody has decided between them"))
                .label("another value")
                .related(first.says.place.clone(), "the one before it")
                .figure(format!("{}: {}", title(first), first.says.value))
                .figure(format!("{}: {}", title(other), other.says.value))
                .fix("find out which one holds, and write it down: decided: {source: …, because: …}"),
        );
    }
    let value = listed.first()?;
    let (first, _) = said.first()?;
    let is_given = said.iter().any(|(claim, said)| gives(listed, claim, said, field));
    (!is_given).then(|| {
        Finding::new(&SOURCE_CONFLICT, value.written.place.clone(), format!("the list has a value for {name} that no source gives"))
            .label("from where?")
            .related(first.says.place.clone(), "what a source says")
            .figure(format!("the list has {}", value.written.text))
            .figure(format!("{}: {}", title(first), first.says.value))
            .fix("write the value that the sources give; or the source that this one comes from")
    })
}

fn ill_decided(claims: &Claims, decided: &Decision, written: &[&WrittenValue], name: &str) -> Option<Finding> {
    let mut chosen = claims.said.iter().filter(|claim| claim.source.value == decided.source.value).peekable();
    if chosen.peek().is_none() {
        let message = format!("{name} is decided for ‘{}’, which says nothing under its sources:", decided.source.value);
        return Some(
            Finding::new(&SOURCE_CONFLICT, decided.source.place.clone(), message)
                .label("says nothing here")
                .fix(format!("write down what it says: sources: [{{source: {}, says: …}}, …]", decided.source.value)),
        );
    }
    let mut of_fields: BTreeMap<&str, Vec<Listed<'_>>> = BTreeMap::new();
    chosen.find_map(|claim| {
        let field = claims.field(claim);
        let listed = of_fields.entry(field).or_insert_with(|| in_field(written, field));
        let value = listed.first().filter(|_| !gives(listed, claim, &Said::of(&claim.says.value), field))?.written;
        Some(
            Finding::new(&SOURCE_CONFLICT, value.place.clone(), format!("{name} is decided for ‘{}’, and the list has another value", decided.source.value))
                .label("not what was decided")
                .related(claim.says.place.clone(), "what was decided for")
                .figure(format!("the list has {}; {} says {}", value.text, decided.source.value, claim.says.value))
                .fix("write the value that was decided for, or decide again"),
        )
    })
}

/// A value of the list, read.
struct Listed<'l> {
    written: &'l WrittenValue,
    said: Said,
}

/// What an entry has in one field, by variant.
fn in_field<'l>(written: &[&'l WrittenValue], field: &str) -> Vec<Listed<'l>> {
    written.iter().filter(|written| written.field == field).map(|written| Listed { written, said: Said::of(&written.text) }).collect()
}

/// Whether a claim gives what the list has, of one variant at least; or of each variant that it names.
fn gives(listed: &[Listed<'_>], claim: &Claim, said: &Said, field: &str) -> bool {
    let named = || claim.says.value.split([',', ';']).map(|part| {
        let (variant, value) = part.trim().split_once([' ', ':'])?;
        Some((variant, Said::of(value.trim_start_matches([' ', ':']))))
    });
    let of_variant = |variant: &str| listed.iter().find(|listed| is_of(&listed.written.when, variant));
    listed.iter().any(|listed| agree(&listed.said, said, field, 0.0))
        || named().all(|part| part.is_some_and(|(variant, said)| of_variant(variant).is_some_and(|listed| agree(&listed.said, &said, field, 0.0))))
}

fn is_of(when: &Combination, variant: &str) -> bool {
    when.0.values().any(|value| value == variant)
}

/// What a text says, stage by stage; mostly there is one.
struct Said(Vec<Stage>);

/// One stage: as a quantity, where it is one, and in words without spaces.
struct Stage {
    quantity: Option<Quantity>,
    words: String,
}

impl Said {
    fn of(text: &str) -> Self {
        let text = text.trim().trim_matches(['"', '\'']).trim();
        let within = text.strip_prefix('[').and_then(|text| text.strip_suffix(']')).unwrap_or(text);
        let stages: Vec<&str> = match within.strip_prefix("- ") {
            Some(lines) => lines.split(" - ").collect(),
            None => within.split(", ").collect(),
        };
        Self(stages.into_iter().map(Stage::of).collect())
    }
}

impl Stage {
    fn of(text: &str) -> Self {
        let text = text.trim().trim_matches(['"', '\'']);
        let words = text.to_lowercase().replace('×', "x").split_whitespace().collect();
        // A second unit in brackets says the same once more.
        let first = || text.split_once(" (").and_then(|(first, _)| Quantity::parse_free(first).ok());
        Self { quantity: Quantity::parse_free(text).ok().or_else(first), words }
    }
}

/// Whether two texts say one value of a field. Of several stages the last of its kind may stand for all.
fn agree(one: &Said, other: &Said, field: &str, width: f64) -> bool {
    if one.0.len() == other.0.len() {
        return one.0.iter().zip(&other.0).all(|(one, other)| stages_agree(one, other, field, width));
    }
    match (one.0.as_slice(), other.0.as_slice()) {
        ([single], stages) | (stages, [single]) => {
            let kind = |stage: &Stage| stage.quantity.as_ref().map(Quantity::dimension);
            stages.iter().rfind(|stage| kind(stage) == kind(single)).is_some_and(|last| stages_agree(single, last, field, width))
        }
        _ => false,
    }
}

/// Whether two values agree within the tolerance of either or a given one. Words are the same or are not.
fn stages_agree(one: &Stage, other: &Stage, field: &str, width: f64) -> bool {
    let (Some(first), Some(second)) = (&one.quantity, &other.quantity) else { return one.words == other.words };
    if first.dimension() != second.dimension() {
        return false;
    }
    lie_together(first, second, field, width) || first.says_the_same(second)
}

fn lie_together(first: &Quantity, second: &Quantity, field: &str, width: f64) -> bool {
    let near = |one: f64, other: f64, tolerance: f64| (one - other).abs() <= tolerance * (1.0 + 1e-9);
    let rounding = |one: f64, other: f64| ROUNDING * one.abs().max(other.abs());
    let is_wide = |quantity: &Quantity| middle(quantity).is_some_and(|(_, half)| half > 0.0);
    match (first.low_high(), second.low_high()) {
        ((Some(low), Some(high)), (Some(other_low), Some(other_high))) if OF_ENDS.contains(&field) && is_wide(first) && is_wide(second) => {
            let left = rounding(high, other_high).max(rounding(low, other_low));
            near(low, other_low, left) && near(high, other_high, left)
        }
        ((Some(_), Some(_)), (Some(_), Some(_))) => {
            let (Some((at, half)), Some((other_at, other_half))) = (middle(first), middle(second)) else { return false };
            let tolerance = half.max(other_half).max(width);
            near(at, other_at, if tolerance > 0.0 { tolerance } else { rounding(at, other_at) })
        }
        // A bound agrees with the like bound, or with a single value.
        (ends, other_ends) => {
            let bound = |ends: (Option<f64>, Option<f64>), quantity: &Quantity, is_low: bool| match ends {
                (Some(_), Some(_)) => quantity.nominal(),
                (low, high) => if is_low { low } else { high },
            };
            let is_low = matches!(ends, (Some(_), None)) || matches!(other_ends, (Some(_), None));
            bound(ends, first, is_low).zip(bound(other_ends, second, is_low)).is_some_and(|(one, other)| near(one, other, rounding(one, other)))
        }
    }
}

/// What a value aims at and how far it may lie off, in the base unit of its kind.
fn middle(quantity: &Quantity) -> Option<(f64, f64)> {
    match quantity.low_high() {
        (Some(low), Some(high)) => Some((quantity.nominal().unwrap_or_else(|| f64::midpoint(low, high)), (high - low) / 2.0)),
        (low, high) => low.or(high).map(|bound| (bound, 0.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::{Said, agree};

    fn say_one(one: &str, other: &str, field: &str, width: f64) -> bool {
        let agrees = |one: &str, other: &str| agree(&Said::of(one), &Said::of(other), field, width);
        assert_eq!(agrees(one, other), agrees(other, one), "{one} | {other}");
        agrees(one, other)
    }

    #[test]
    fn values_agree_within_the_wider_tolerance() {
        for (one, other, width) in [
            ("24 N·m", "17.7 lbf·ft", 0.0), ("78 ± 4 N·m", "76 N·m", 0.0), ("70 N·m", "74 N·m", 4.0), ("70–80 N·m", "75 N·m", 0.0),
            ("24 h", "1 d", 0.0), ("as supplied", "As  supplied", 0.0), ("70 N·m", "70.5 N·m", 0.0), ("M10 x 1.5", "M10×1.5", 0.0),
            ("48 N·m (35.4 lbf·ft)", "48 N·m", 0.0),
        ] {
            assert!(say_one(one, other, "torque", width), "{one} | {other}");
        }
        for (one, other, width) in [("70 N·m", "78 N·m", 4.0), ("24 N·m", "28 N·m", 0.0), ("24 N·m", "24 mm", 100.0), ("oiled", "dry", 1.0), ("24 N·m", "28", 0.0)] {
            assert!(!say_one(one, other, "torque", width), "{one} | {other}");
        }
    }

    #[test]
    fn a_bound_agrees_with_its_like_and_a_single_value() {
        for (one, other) in [("min 0.20 mm", "≥ 0.20 mm"), ("min 0.20 mm", "0.20 mm"), ("max 0.20 mm", "0.20 mm")] {
            assert!(say_one(one, other, "spec", 0.0), "{one} | {other}");
        }
        for (one, other) in [("min 0.20 mm", "max 0.20 mm"), ("min 0.20 mm", "min 0.25 mm"), ("min 0.20 mm", "0.20–0.30 mm"), ("max 0.20 mm", "0.10–0.20 mm")] {
            assert!(!say_one(one, other, "spec", 0.0), "{one} | {other}");
        }
    }

    #[test]
    fn of_limits_both_ends_count() {
        assert!(say_one("0.20–0.30 mm", "0.20–0.30 mm", "spec", 0.0));
        assert!(say_one("0.20–0.30 mm", "0.25 ± 0.05 mm", "limit", 0.0));
        assert!(!say_one("0.20–0.30 mm", "0.25–0.35 mm", "spec", 0.05));
        assert!(say_one("20–30 N·m", "22–32 N·m", "torque", 0.0), "of a torque the middle counts");
    }

    #[test]
    fn the_last_stage_may_stand_for_all() {
        for (one, other) in [("[20 N·m, 48 N·m]", "48 N·m"), ("[20 N·m, 48 N·m]", "20 N·m, 48 N·m"), ("- 20 N·m - 48 N·m", "[20 N·m, 48 N·m]"), ("[20 N·m, 90°]", "90°"), ("[20 N·m, 48 N·m, 90°]", "48 N·m")] {
            assert!(say_one(one, other, "torque", 0.0), "{one} | {other}");
        }
        for (one, other) in [("[20 N·m, 48 N·m]", "20 N·m"), ("[20 N·m, 48 N·m]", "20 N·m, 44 N·m"), ("[10 N·m, 20 N·m, 48 N·m]", "[20 N·m, 48 N·m]")] {
            assert!(!say_one(one, other, "torque", 0.0), "{one} | {other}");
        }
    }
}
