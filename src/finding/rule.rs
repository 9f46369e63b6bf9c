//! A rule as plain data: its name, its usual gravity and the page that explains it.

use super::Severity;

/// A rule: a permanent name that says what is wrong, and the words that explain it.
#[derive(Debug, PartialEq, Eq)]
pub struct Rule {
    /// Lower-case words joined by hyphens; reads well after "allow…".
    pub name: &'static str,
    /// How grave a breach usually is.
    pub severity: Severity,
    /// One sentence for lists.
    pub summary: &'static str,
    /// The page that `explain` prints.
    pub explanation: Explanation,
}

/// The fixed headings under which a rule explains itself.
#[derive(Debug, PartialEq, Eq)]
pub struct Explanation {
    /// What it finds.
    pub finds: &'static str,
    /// Why it matters at the bench.
    pub matters: &'static str,
    /// When it may be wrong.
    pub may_be_wrong: &'static str,
    /// A faulty sample.
    pub example: &'static str,
    /// What to write instead.
    pub instead: &'static str,
}

impl Explanation {
    /// The headings with their texts, in their fixed order.
    #[must_use]
    pub fn sections(&self) -> [(&'static str, &'static str); 5] {
        [
            ("What it finds", self.finds),
            ("Why it matters at the bench", self.matters),
            ("When it may be wrong", self.may_be_wrong),
            ("Example", self.example),
            ("Instead", self.instead),
        ]
    }
}
