//! Sources that say different things of one value: somebody decides between them, and says why.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Claim, Claims, Decision, Lists, Scope, WrittenValue};
use crate::quantity::Quantity;

/// Sources differ and nobody has decided.
pub(super) static SOURCE_CONFLICT: Rule = Rule {
    name: "source-conflict",
    severity: Severity::Error,
    summary: "Two sources say different things of a value, and nobody has decided between them.",
    explanation: Explanation {
        finds: "Entries with sources: of which two say values of one field that lie further apart than the tolerance of either or of the list (one per cent where none has one), without decided:. With decided:, a source that says nothing there, and a value in the list that differs from what the source decided for says.",
        matters: "A book and a bulletin that differ are a question. Whoever takes the first value he finds has answered it without knowing.",
        may_be_wrong: "Where they speak of different variants: write the value by variant, each with its source.",
        example: "pump-bolt: {torque: 24 N·m, sources: [{source: sheet, says: 24 N·m}, {source: book, says: 28 N·m}]}",
        instead: "decided: {source: sheet, because: the sheet is newer and the maker confirmed it}",
    },
};

/// Without a tolerance two values may differ by this share of the larger: what a rounded conversion leaves.
const ROUNDING: f64 = 0.01;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for claims in &lists.claims {
            let Some(head) = lists.head(claims.kind, &claims.id) else { continue };
            let found = match &claims.decided {
                None => undecided(scope, lists, claims, head.name),
                Some(decided) => ill_decided(lists, claims, decided, head.name),
            };
            findings.extend(found.map(|finding| finding.about(claims.id.clone())));
        }
    }
}

fn undecided(scope: Scope<'_>, lists: &Lists, claims: &Claims, name: &str) -> Option<Finding> {
    let pairs = claims.said.iter().enumerate().flat_map(|(at, other)| claims.said.iter().take(at).map(move |first| (first, other)));
    let mut of_one_field = pairs.filter(|(first, other)| claims.field(first) == claims.field(other));
    let (first, other) = of_one_field.find(|(first, other)| !agree(&first.says.value, &other.says.value, width(lists, claims, first)))?;
    let title = |claim: &Claim| scope.entry(|lists| &lists.sources, &claim.source.value).map_or_else(|| claim.source.value.clone(), |entry| entry.what.title.clone());
    Some(
        Finding::new(&SOURCE_CONFLICT, other.says.place.clone(), format!("the sources of {name} differ, and nobody has decided between them"))
            .label("another value")
            .related(first.says.place.clone(), "the one before it")
            .figure(format!("{}: {}", title(first), first.says.value))
            .figure(format!("{}: {}", title(other), other.says.value))
            .fix("find out which one holds, and write it down: decided: {source: …, because: …}"),
    )
}

fn ill_decided(lists: &Lists, claims: &Claims, decided: &Decision, name: &str) -> Option<Finding> {
    let chosen: Vec<&Claim> = claims.said.iter().filter(|claim| claim.source.value == decided.source.value).collect();
    if chosen.is_empty() {
        let message = format!("{name} is decided for ‘{}’, which says nothing under its sources:", decided.source.value);
        return Some(
            Finding::new(&SOURCE_CONFLICT, decided.source.place.clone(), message)
                .label("says nothing here")
                .fix(format!("write down what it says: sources: [{{source: {}, says: …}}, …]", decided.source.value)),
        );
    }
    chosen.into_iter().find_map(|claim| {
        let listed = listed(lists, claims, claim);
        let differs = !listed.is_empty() && !listed.iter().any(|value| agree(&value.text, &claim.says.value, 0.0));
        let value = listed.first().filter(|_| differs)?;
        Some(
            Finding::new(&SOURCE_CONFLICT, value.place.clone(), format!("{name} is decided for ‘{}’, and the list has another value", decided.source.value))
                .label("not what was decided")
                .related(claim.says.place.clone(), "what was decided for")
                .figure(format!("the list has {}; {} says {}", value.text, decided.source.value, claim.says.value))
                .fix("write the value that was decided for, or decide again"),
        )
    })
}

/// What the list has in the field of a claim, by variant.
fn listed<'l>(lists: &'l Lists, claims: &Claims, claim: &Claim) -> Vec<&'l WrittenValue> {
    let field = claims.field(claim);
    lists.written.iter().filter(|written| written.kind == claims.kind && written.id == claims.id && written.field == field).collect()
}

/// The widest tolerance that the list gives the value, to one side, in the base unit of its kind.
fn width(lists: &Lists, claims: &Claims, claim: &Claim) -> f64 {
    let listed = listed(lists, claims, claim);
    let widths = listed.iter().filter_map(|value| Quantity::parse_free(&value.text).ok()).filter_map(|quantity| middle(&quantity));
    widths.map(|(_, half)| half).fold(0.0, f64::max)
}

/// Whether two texts say one value, within the tolerance of either or a given one. Words are the same or are not.
fn agree(one: &str, other: &str, width: f64) -> bool {
    let (Ok(first), Ok(second)) = (Quantity::parse_free(one), Quantity::parse_free(other)) else {
        let folded = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
        return folded(one) == folded(other);
    };
    if first.dimension() != second.dimension() {
        return false;
    }
    if first.says_the_same(&second) {
        return true;
    }
    let (Some((at, half)), Some((other_at, other_half))) = (middle(&first), middle(&second)) else { return false };
    let tolerance = half.max(other_half).max(width);
    let let_pass = if tolerance > 0.0 { tolerance } else { ROUNDING * at.abs().max(other_at.abs()) };
    (at - other_at).abs() <= let_pass * (1.0 + 1e-9)
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
    use super::agree;

    #[test]
    fn values_agree_within_the_wider_tolerance() {
        for (one, other, width) in [
            ("24 N·m", "17.7 lbf·ft", 0.0), ("78 ± 4 N·m", "76 N·m", 0.0), ("70 N·m", "74 N·m", 4.0), ("70–80 N·m", "75 N·m", 0.0),
            ("24 h", "1 d", 0.0), ("as supplied", "As  supplied", 0.0), ("70 N·m", "70.5 N·m", 0.0),
        ] {
            assert!(agree(one, other, width), "{one} | {other}");
        }
        for (one, other, width) in [("70 N·m", "78 N·m", 4.0), ("24 N·m", "28 N·m", 0.0), ("24 N·m", "24 mm", 100.0), ("oiled", "dry", 1.0), ("24 N·m", "28", 0.0)] {
            assert!(!agree(one, other, width), "{one} | {other}");
        }
    }
}
