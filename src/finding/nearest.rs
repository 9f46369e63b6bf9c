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

/// Whether a word is a known one with a letter missing, doubled, wrong or swapped, two in a long one, where it may as well be another
/// word: the first letter is seldom wrong, and of short words every other is near.
#[must_use]
pub fn is_slip_of(word: &str, known: &str) -> bool {
    let letters = word.chars().count();
    let is_part = word.starts_with(known) || known.starts_with(word);
    let allowed = if letters < 8 { 1 } else { 2 };
    // `gear-2` is another than `gear-1`.
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    (5..=100).contains(&letters) && known.len() <= 100 && !is_part && digits(word) == digits(known) && word.chars().next() == known.chars().next() && strsim::damerau_levenshtein(word, known) <= allowed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_told_from_another_word() {
        for (word, known) in [("paking-ring", "packing-ring"), ("vloute", "volute"), ("houseing-cover", "housing-cover")] {
            assert!(is_slip_of(word, known), "{word} {known}");
        }
        for (word, known) in [("packing-box", "packing-ring"), ("crank", "crank-nut"), ("basket", "gasket"), ("cap", "cup"), ("starter", "stator"), ("volute", "volute"), ("gear-2", "gear-1"), ("bearing-12", "bearing-2")] {
            assert!(!is_slip_of(word, known), "{word} {known}");
        }
    }

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
