//! The nearest known word to a misspelt one.

/// The candidate nearest to `word`, if it is near enough to have been meant: at most a third of its
/// letters differ (a swap counts once), or one begins with the other.
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A name longer than any of ours was not misspelt, and comparing it would take long.
    if word.len() > 100 {
        return None;
    }
    let folded = word.to_lowercase();
    let allowed = (folded.chars().count().max(3)).div_ceil(3);
    candidates
        .into_iter()
        .filter(|candidate| *candidate != word && candidate.len() <= 100)
        .map(|candidate| {
            let distance = strsim::damerau_levenshtein(&folded, &candidate.to_lowercase());
            let begins = folded.len() >= 3 && (candidate.starts_with(&folded) || folded.starts_with(candidate));
            (if begins { distance.min(1) } else { distance }, distance, candidate)
        })
        .filter(|(rank, ..)| *rank <= allowed)
        .min()
        .map(|(.., candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offers_what_was_meant_and_nothing_far_off() {
        let ids = ["pinion-nut", "hub-nut", "carrier"];
        assert_eq!(nearest("pinion-nutt", ids), Some("pinion-nut"));
        assert_eq!(nearest("pinoin-nut", ids), Some("pinion-nut"));
        assert_eq!(nearest("Carrier", ids), Some("carrier"));
        assert_eq!(nearest("carrier-bolt", ids), Some("carrier"));
        // Of two equally likely, the one with fewer letters changed.
        assert_eq!(nearest("pinionnut", ["pinion", "pinion-nut"]), Some("pinion-nut"));
        assert_eq!(nearest("flywheel", ids), None);
        assert_eq!(nearest("x", ids), None);
        assert_eq!(nearest(&"a".repeat(10_000), ids), None);
    }
}
