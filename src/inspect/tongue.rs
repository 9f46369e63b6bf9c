//! The language in which an author writes. A rule that finds something in a text is silent where it can't read it; one that misses
//! something there would cry wolf, and asks here.

use super::words::Words;
use crate::manual::Manual;

/// A language, as far as rules read it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tongue {
    /// Read by all rules.
    English,
    /// Read where a rule misses something.
    German,
    /// Any other.
    Unread,
}

/// What a rule wants to hear: phrases of whole words in English; in German the beginnings or the middles of words, for they are
/// joined and bent there (`Linksgewinde`, `gefetteten`). A blank before or behind one asks for the beginning or the end of a word:
/// `kran ` is in `Hallenkran`, and not in `Zahnkranz`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted<'w> {
    pub(super) english: &'w [&'w str],
    pub(super) german: &'w [&'w str],
}

impl Tongue {
    /// The language of a manual, by the first part of its tag (BCP 47).
    pub(super) fn of(manual: &Manual) -> Self {
        match manual.language.split(['-', '_']).next().unwrap_or_default().to_ascii_lowercase().as_str() {
            "en" | "" => Self::English,
            "de" => Self::German,
            _ => Self::Unread,
        }
    }

    /// Whether a text says what is wanted, or may say it in a language that nobody reads here. English counts in every manual.
    pub(super) fn may_say(self, text: &str, wanted: Wanted<'_>) -> bool {
        let in_german = || {
            let signs: String = text.to_lowercase().chars().map(|sign| if sign.is_alphanumeric() || matches!(sign, '-' | '°') { sign } else { ' ' }).collect();
            let text = format!(" {} ", signs.split_whitespace().collect::<Vec<_>>().join(" "));
            wanted.german.iter().any(|part| text.contains(part))
        };
        match self {
            Self::Unread => true,
            Self::English => Words::of(text).first(wanted.english).is_some(),
            Self::German => Words::of(text).first(wanted.english).is_some() || in_german(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wanted_is_heard_in_two_languages_and_taken_for_said_in_others() {
        let wanted = Wanted { english: &["left-hand"], german: &["linksgewinde", "gegen den uhrzeigersinn"] };
        for (text, english, german) in [
            ("Its thread is left-hand.", true, true), ("Das Linksgewinde beachten.", false, true), ("GEGEN  DEN\nUhrzeigersinn", false, true), ("Links herum lesen", false, false),
        ] {
            assert_eq!(Tongue::English.may_say(text, wanted), english, "{text}");
            assert_eq!(Tongue::German.may_say(text, wanted), german, "{text}");
            assert!(Tongue::Unread.may_say(text, wanted), "{text}");
        }
        let bounded = Wanted { english: &[], german: &["kran ", " öl"] };
        for (text, said) in [("Mit dem Hallenkran.", true), ("Der Zahnkranz", false), ("das (ölige) Blech", true), ("völlig dicht", false)] {
            assert_eq!(Tongue::German.may_say(text, bounded), said, "{text}");
        }
    }
}
