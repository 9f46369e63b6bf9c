//! Why nothing was reckoned: what was understood, what is wanted, what to write.

use super::calculation::Input;

/// Why a calculation has no result.
#[derive(Clone, Debug)]
pub enum Refusal {
    /// A value that can't be read as what belongs there.
    Unreadable {
        /// Where it was written.
        input: &'static Input,
        /// What is wrong with it.
        message: String,
        /// What it may mean, one reading a line.
        figures: Vec<String>,
        /// What to write instead.
        fix: String,
    },
    /// The calculation takes no such value.
    NoSuchInput(String),
    /// Values that have to be given.
    Missing {
        /// Those that are not there.
        inputs: Vec<&'static Input>,
        /// The result that could be given instead of one of them.
        instead: Option<&'static Input>,
    },
    /// The result is given and nothing is left to be worked out.
    NothingLeftOut {
        /// The result.
        result: &'static Input,
        /// What could be left out.
        one_of: Vec<&'static Input>,
    },
    /// More than one value is a range.
    SeveralRanges(Vec<&'static Input>),
    /// The values can't all be true, or have no result.
    Impossible(String),
}

impl Refusal {
    /// In one phrase.
    #[must_use]
    pub fn message(&self) -> String {
        match self {
            Self::Unreadable { input, message, .. } => format!("--{}: {message}", input.name),
            Self::NoSuchInput(name) => format!("it takes no value ‘{name}’"),
            Self::Missing { inputs, .. } => match inputs.as_slice() {
                [only] => format!("{} is missing", named(only)),
                several => format!("{} are missing", listed(several, "and")),
            },
            Self::NothingLeftOut { result, .. } => format!("{} is the result, and every other value is given too", named(result)),
            Self::SeveralRanges(inputs) => format!("{} are ranges, and one at most can be carried through", listed(inputs, "and")),
            Self::Impossible(why) => why.clone(),
        }
    }

    /// What it may mean, one reading a line.
    #[must_use]
    pub fn figures(&self) -> &[String] {
        match self {
            Self::Unreadable { figures, .. } => figures,
            _ => &[],
        }
    }

    /// What to write instead, one line each.
    #[must_use]
    pub fn fixes(&self) -> Vec<String> {
        match self {
            Self::Unreadable { input, fix, .. } => vec![format!("{fix} ({}: {})", input.name, input.what)],
            Self::Missing { inputs, instead } => {
                let mut lines: Vec<String> = inputs.iter().map(|input| format!("add {}: {}", typed(input), input.what)).collect();
                lines.extend(instead.map(|result| format!("or add {} instead of one of them: {}", typed(result), result.what)));
                lines
            }
            Self::NothingLeftOut { one_of, .. } => vec![format!("leave out {}, and it is worked out", listed(one_of, "or"))],
            Self::SeveralRanges(_) => vec!["write single values for all but one".to_owned()],
            Self::NoSuchInput(_) | Self::Impossible(_) => Vec::new(),
        }
    }
}

/// As it is typed: `--torque "70 N·m"`.
fn typed(input: &Input) -> String {
    if input.bare { format!("\"{}\"", input.example) } else { format!("--{} \"{}\"", input.name, input.example) }
}

fn named(input: &Input) -> String {
    if input.bare { format!("[{}]", input.name) } else { format!("--{}", input.name) }
}

fn listed(inputs: &[&'static Input], word: &str) -> String {
    let names: Vec<String> = inputs.iter().map(|input| named(input)).collect();
    match names.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} {word} {last}", most.join(", ")),
    }
}
