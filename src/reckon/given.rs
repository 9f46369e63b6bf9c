//! The values a calculation was given: read once, as what belongs there.

use super::calculation::{Calculation, Input, Kind, Need, Take};
use super::figure::counterpart;
use super::refusal::Refusal;
use crate::quantity::{Dimension, Form, Quantity, QuantityError, Size, Unit};
use crate::trade::clearance::Span;
use crate::trade::property::PropertyClass;
use crate::trade::thread::Thread;

/// Values with their inputs, in the calculation's order.
#[derive(Clone, Debug)]
pub struct Given {
    entries: Vec<GivenEntry>,
}

/// One value that was given or assumed.
#[derive(Clone, Debug)]
pub struct GivenEntry {
    /// What it is for.
    pub input: &'static Input,
    /// As it was written.
    pub written: String,
    /// Whether nobody wrote it.
    pub assumed: bool,
    taken: Taken,
}

#[derive(Clone, Debug)]
enum Taken {
    /// In the base unit of its kind.
    Number(f64),
    Quantity(Box<Quantity>),
    Numbers(Vec<Quantity>),
    Word(&'static str),
    Thread(Thread),
    Class(&'static PropertyClass),
    Size(Size),
    Texts(Vec<String>),
}

impl GivenEntry {
    /// The quantity, where it is one.
    #[must_use]
    pub fn quantity(&self) -> Option<&Quantity> {
        match &self.taken {
            Taken::Quantity(quantity) => Some(quantity),
            _ => None,
        }
    }

    /// As it was understood: as it was written, and in the other system of units.
    #[must_use]
    pub fn shown(&self) -> String {
        let written = match &self.taken {
            Taken::Thread(thread) => thread.to_string(),
            Taken::Class(class) => class.name().to_owned(),
            Taken::Quantity(quantity) => quantity.to_string(),
            _ => self.written.clone(),
        };
        let other = self.quantity().filter(|quantity| quantity.second().is_none() && self.input.take != Take::Whole).and_then(|quantity| {
            let (low, high) = quantity.low_high();
            let unit = counterpart(quantity.unit(), high.or(low).unwrap_or_default().abs())?;
            quantity.convert(unit).map(|converted| converted.to_string())
        });
        let both = other.map_or(written.clone(), |other| format!("{written}  =  {other}"));
        if self.assumed { format!("{both}  (assumed)") } else { both }
    }

    /// The thread, where it is one.
    pub(super) fn thread(&self) -> Option<&Thread> {
        match &self.taken {
            Taken::Thread(thread) => Some(thread),
            _ => None,
        }
    }

    /// Both ends and the value aimed at of a range that is carried through, in the base unit.
    pub(super) fn range(&self) -> Option<(f64, f64, Option<f64>)> {
        let quantity = self.quantity().filter(|_| self.input.take == Take::Limits)?;
        match quantity.low_high() {
            (Some(low), Some(high)) if low < high => Some((low, high, quantity.nominal())),
            _ => None,
        }
    }
}

impl Given {
    /// Reads what was written for a calculation's inputs.
    ///
    /// # Errors
    /// A [`Refusal`] for what can't be read or does not belong.
    pub fn read(calculation: &'static Calculation, written: &[(&str, &str)]) -> Result<Self, Refusal> {
        if let Some((name, _)) = written.iter().find(|(name, _)| calculation.input(name).is_none()) {
            return Err(Refusal::NoSuchInput((*name).to_owned()));
        }
        let mut entries = Vec::new();
        for input in calculation.inputs {
            let texts: Vec<&str> = written.iter().filter(|(name, _)| *name == input.name).map(|(_, text)| *text).collect();
            let (texts, assumed) = match (texts.is_empty(), input.need) {
                (true, Need::Assume(text)) => (vec![text], true),
                (true, _) => continue,
                (false, _) => (texts, false),
            };
            entries.push(GivenEntry { input, written: texts.join(", "), assumed, taken: taken(input, &texts)? });
        }
        Ok(Self { entries })
    }

    /// All of them, in the calculation's order.
    #[must_use]
    pub fn entries(&self) -> &[GivenEntry] {
        &self.entries
    }

    fn entry(&self, name: &str) -> Option<&GivenEntry> {
        self.entries.iter().find(|entry| entry.input.name == name)
    }

    /// Whether a value is there.
    pub(super) fn has(&self, name: &str) -> bool {
        self.entry(name).is_some()
    }

    /// The same values with one more, or one in place of another, in the base unit of its kind.
    pub(super) fn with(&self, input: &'static Input, value: f64) -> Self {
        let mut entries = self.entries.clone();
        match entries.iter_mut().find(|entry| entry.input.name == input.name) {
            Some(entry) => entry.taken = Taken::Number(value),
            None => entries.push(GivenEntry { input, written: String::new(), assumed: false, taken: Taken::Number(value) }),
        }
        Self { entries }
    }

    /// A number in the base unit of its kind, where it was given.
    pub(super) fn maybe(&self, name: &str) -> Option<f64> {
        let entry = self.entry(name)?;
        match &entry.taken {
            Taken::Number(value) => Some(*value),
            Taken::Quantity(quantity) => {
                let (low, high) = quantity.low_high();
                match entry.input.take {
                    Take::Greatest => high.or(low),
                    Take::Least => low.or(high),
                    _ => quantity.nominal().or(low).or(high),
                }
            }
            _ => None,
        }
    }

    /// A number in the base unit of its kind.
    pub(super) fn number(&self, name: &str) -> Result<f64, Refusal> {
        self.maybe(name).ok_or_else(|| lacking(name))
    }

    /// A whole number from none to a million.
    pub(super) fn count(&self, name: &str) -> Result<u32, Refusal> {
        let number = self.number(name)?;
        let whole = format!("{number:.0}").parse::<u32>().ok().filter(|whole| *whole <= 1_000_000);
        whole.ok_or_else(|| Refusal::Impossible(format!("{number} is no number of things")))
    }

    /// Both ends of a length.
    pub(super) fn span(&self, name: &str) -> Result<Span, Refusal> {
        self.maybe_span(name).ok_or_else(|| lacking(name))
    }

    /// Both ends of a length or of any quantity, in its base unit, where they were given.
    pub(super) fn maybe_span(&self, name: &str) -> Option<Span> {
        match &self.entry(name)?.taken {
            Taken::Number(value) => Span::new(*value, *value),
            Taken::Quantity(quantity) => match quantity.low_high() {
                (Some(low), Some(high)) => Span::new(low, high),
                _ => None,
            },
            _ => None,
        }
    }

    /// Several quantities.
    pub(super) fn quantities(&self, name: &str) -> &[Quantity] {
        match self.entry(name).map(|entry| &entry.taken) {
            Some(Taken::Numbers(quantities)) => quantities,
            _ => &[],
        }
    }

    /// A quantity as it was written.
    pub(super) fn quantity(&self, name: &str) -> Result<&Quantity, Refusal> {
        self.entry(name).and_then(GivenEntry::quantity).ok_or_else(|| lacking(name))
    }

    /// One of the input's words, where it was given.
    pub(super) fn word(&self, name: &str) -> Option<&'static str> {
        match self.entry(name)?.taken {
            Taken::Word(word) => Some(word),
            _ => None,
        }
    }

    /// A thread of a bolt: what is reckoned with it holds for no pipe thread.
    pub(super) fn thread(&self, name: &str) -> Result<&Thread, Refusal> {
        let thread = self.any_thread(name)?;
        let bolt = Some(thread).filter(|thread| thread.pipe().is_none());
        bolt.ok_or_else(|| Refusal::Impossible("a pipe thread seals and carries no preload: only its sizes are known (reckon thread)".to_owned()))
    }

    /// A thread, also one of a pipe.
    pub(super) fn any_thread(&self, name: &str) -> Result<&Thread, Refusal> {
        self.entry(name).and_then(GivenEntry::thread).ok_or_else(|| lacking(name))
    }

    /// A property class, where it was given.
    pub(super) fn class(&self, name: &str) -> Option<&'static PropertyClass> {
        match self.entry(name)?.taken {
            Taken::Class(class) => Some(class),
            _ => None,
        }
    }

    /// Two or three lengths, where they were given.
    pub(super) fn size(&self, name: &str) -> Option<&Size> {
        match &self.entry(name)?.taken {
            Taken::Size(size) => Some(size),
            _ => None,
        }
    }

    /// Words.
    pub(super) fn texts(&self, name: &str) -> &[String] {
        match self.entry(name).map(|entry| &entry.taken) {
            Some(Taken::Texts(texts)) => texts,
            _ => &[],
        }
    }
}

/// A result that is none, in words.
pub(super) fn possible<T>(result: Option<T>, why: &str) -> Result<T, Refusal> {
    result.ok_or_else(|| Refusal::Impossible(why.to_owned()))
}

fn lacking(name: &str) -> Refusal {
    Refusal::Impossible(format!("--{name} has no value that can be reckoned with"))
}

fn taken(input: &'static Input, texts: &[&str]) -> Result<Taken, Refusal> {
    let text = texts.last().copied().unwrap_or_default();
    match input.kind {
        Kind::Quantity(wanted) if input.is_many() => {
            texts.iter().map(|text| read(input, text, wanted)).collect::<Result<_, _>>().map(Taken::Numbers)
        }
        Kind::Quantity(wanted) => read(input, text, wanted).map(|quantity| Taken::Quantity(Box::new(quantity))),
        Kind::Number => plain(input, text).map(Taken::Number),
        Kind::Count => read(input, text, &[Dimension::Count]).map(|quantity| Taken::Quantity(Box::new(quantity))),
        Kind::Ratio => read(input, text, &[Dimension::Ratio]).map(|quantity| Taken::Quantity(Box::new(quantity))),
        Kind::Word(words) => {
            let same = |word: &str| squeezed(word) == squeezed(text);
            let known = words();
            known.iter().copied().find(|word| same(word)).map(Taken::Word).ok_or_else(|| {
                unreadable(input, format!("‘{text}’ is none of the words known here"), format!("write one of {}", known.join(", ")))
            })
        }
        Kind::Thread => Thread::parse(text).map(Taken::Thread).map_err(|error| unreadable(input, error.message(text), error.fix())),
        Kind::Class => PropertyClass::find(text).map(Taken::Class).ok_or_else(|| {
            let names = PropertyClass::names().join(", ");
            unreadable(input, format!("‘{text}’ is no property class or grade"), format!("write what stands on the head, one of {names}"))
        }),
        Kind::Size => Size::parse(text).map(Taken::Size).map_err(|error| misread(input, &error)),
        Kind::Text => Ok(Taken::Texts(texts.iter().map(|text| (*text).to_owned()).collect())),
    }
}

fn read(input: &'static Input, text: &str, wanted: &[Dimension]) -> Result<Quantity, Refusal> {
    let quantity = if wanted.is_empty() { Quantity::parse_free(text) } else { Quantity::parse_any(text, wanted) };
    let quantity = quantity.map_err(|error| misread(input, &error))?;
    let (low, high) = quantity.low_high();
    let fits = match input.take {
        Take::Whole | Take::Greatest | Take::Least => true,
        Take::Limits | Take::Span | Take::Many => low.is_some() && high.is_some(),
        Take::One => matches!(quantity.form(), Form::Single(_)),
    };
    if fits {
        return Ok(quantity);
    }
    let (message, fix) = if input.take == Take::One {
        (format!("‘{text}’ is not one value, and one belongs here"), "write one value; reckon twice for both ends")
    } else {
        (format!("‘{text}’ has one end only"), "write both ends")
    };
    Err(unreadable(input, message, format!("{fix}, as {}", input.example)))
}

/// `0.18`, `60 %`.
fn plain(input: &'static Input, text: &str) -> Result<f64, Refusal> {
    if text.contains('%') {
        return read(input, text, &[Dimension::Percent]).map(|share| share.nominal().unwrap_or(f64::NAN) / 100.0);
    }
    let digits = text.trim();
    let is_plain = digits.len() <= 12 && digits.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let number = is_plain.then(|| digits.parse::<f64>().ok()).flatten();
    number.ok_or_else(|| unreadable(input, format!("‘{text}’ is no number without a unit"), format!("write it as {}", input.example)))
}

/// What is wrong with a value that was given, read as another kind: `9 lbs` as a torque. None where nothing is, or where it
/// plainly is no value of that kind.
pub(super) fn doubtful_as(given: &Given, name: &str, dimension: Dimension) -> Option<Refusal> {
    let entry = given.entry(name)?;
    let error = Quantity::parse(entry.quantity()?.written(), dimension).err()?;
    error.name().ends_with("-ambiguous").then(|| misread(entry.input, &error))
}

fn misread(input: &'static Input, error: &QuantityError) -> Refusal {
    let fix = error.fix();
    let fix = fix.split(", for example").next().unwrap_or(&fix);
    Refusal::Unreadable { input, message: error.message(), figures: error.figures(), fix: format!("{fix}, as {}", input.example) }
}

fn unreadable(input: &'static Input, message: String, fix: String) -> Refusal {
    Refusal::Unreadable { input, message, figures: Vec::new(), fix }
}

fn squeezed(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// The units of the inch system.
pub(super) fn is_inch(unit: &Unit) -> bool {
    const INCH: [&str; 12] = ["lbf·ft", "lbf·in", "ozf·in", "lbf", "in", "thou", "°F", "Δ°F", "psi", "inHg", "lb", "oz"];
    INCH.contains(&unit.symbol()) || unit.symbol().ends_with("(US)") || unit.symbol().ends_with("(imp)") || unit.symbol() == "in³"
}
