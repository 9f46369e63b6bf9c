//! The signal words of safety notices.
//!
//! Source: ANSI Z535.6 and ISO 3864-2 (the four words and their order of gravity; from memory).

/// A signal word, gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SignalWord {
    /// Will cause death or serious injury.
    Danger,
    /// Could cause death or serious injury.
    Warning,
    /// Could cause minor or moderate injury.
    Caution,
    /// Not about injury: about damage.
    Notice,
}

impl SignalWord {
    /// The four words as they are written.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("DANGER", Self::Danger),
        ("WARNING", Self::Warning),
        ("CAUTION", Self::Caution),
        ("NOTICE", Self::Notice),
    ];

    /// The signal word of a text in capitals.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        Self::WORDS.iter().find(|(text, _)| *text == word).map(|(_, signal)| *signal)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Danger => "DANGER",
            Self::Warning => "WARNING",
            Self::Caution => "CAUTION",
            Self::Notice => "NOTICE",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_four_words_read_back_as_themselves() {
        for (text, signal) in SignalWord::WORDS {
            assert_eq!(SignalWord::find(text), Some(signal));
            assert_eq!(signal.word(), text);
        }
        assert_eq!(SignalWord::find("Warning"), None);
        assert_eq!(SignalWord::find("ATTENTION"), None);
    }
}
