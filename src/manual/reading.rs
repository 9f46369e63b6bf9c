//! What a field held, typed but not yet given its meaning.

use super::shop::Date;
use super::things::Spot;
use super::varied::{Case, Combination, Varied};
use crate::finding::Place;
use crate::quantity::{Moment, MomentSpan, Quantity, Size};
use crate::trade::thread::Thread;

/// A value as its [`super::shape::Shape`] asked for it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Reading {
    Text(String),
    Count(u64),
    Flag(bool),
    Date(Date),
    Quantity(Box<Quantity>),
    Size(Box<Size>),
    Thread(Box<Thread>),
    Moment(Moment),
    Span(MomentSpan),
    Percent(f64, f64),
    Pair(f64, f64),
    List(Vec<Spot<Self>>),
    Map(Record),
    Named(Vec<(Spot<String>, Spot<Self>)>),
    Condition(Combination),
}

/// The fields of a map that could be read, in the order written.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Record {
    pub(super) place: Place,
    pub(super) fields: Vec<(&'static str, Varied<Reading>)>,
    pub(super) written: Vec<Written>,
    /// Keys that are there and could not be read, which has been reported.
    pub(super) unreadable: Vec<&'static str>,
}

/// One value as written, for comparing and for telling.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written {
    /// The field's key.
    pub(super) field: &'static str,
    /// When it holds.
    pub(super) when: Combination,
    /// Its text, white space folded.
    pub(super) text: String,
    /// Where it stands.
    pub(super) place: Place,
    /// Whether the field was written by variant.
    pub(super) varies: bool,
}

impl Record {
    pub(super) fn empty(place: Place) -> Self {
        Self { place, fields: Vec::new(), written: Vec::new(), unreadable: Vec::new() }
    }

    fn field(&self, key: &str) -> Option<&Varied<Reading>> {
        self.fields.iter().find(|(name, _)| *name == key).map(|(_, value)| value)
    }

    pub(super) fn varied<T>(&self, key: &str, take: impl Fn(&Reading) -> Option<T>) -> Varied<T> {
        self.field(key).map(|value| value.filter_map(take)).unwrap_or_default()
    }

    pub(super) fn first<T>(&self, key: &str, take: impl Fn(&Reading) -> Option<T>) -> Option<T> {
        self.field(key).and_then(Varied::first).and_then(take)
    }

    pub(super) fn spot<T>(&self, key: &str, take: impl Fn(&Reading) -> Option<T>) -> Option<Spot<T>> {
        let case: &Case<Reading> = self.field(key)?.cases.first()?;
        take(&case.value).map(|value| Spot { value, place: case.place.clone() })
    }

    pub(super) fn text(&self, key: &str) -> Option<String> {
        self.first(key, Reading::text)
    }

    pub(super) fn texts(&self, key: &str) -> Varied<String> {
        self.varied(key, Reading::text)
    }

    pub(super) fn quantities(&self, key: &str) -> Varied<Quantity> {
        self.varied(key, Reading::quantity)
    }

    pub(super) fn quantity(&self, key: &str) -> Option<Quantity> {
        self.first(key, Reading::quantity)
    }

    pub(super) fn counts(&self, key: &str) -> Varied<u64> {
        self.varied(key, Reading::count)
    }

    /// Whether a flag is set, in some variant at least.
    pub(super) fn flag(&self, key: &str) -> bool {
        self.field(key).is_some_and(|value| value.cases.iter().any(|case| case.value == Reading::Flag(true)))
    }

    /// The texts of a list, with their places; of all variants, where it is written by variant.
    pub(super) fn spots(&self, key: &str) -> Vec<Spot<String>> {
        let cases = self.field(key).map(|value| value.cases.as_slice()).unwrap_or_default();
        cases.iter().flat_map(|case| case.value.items()).collect()
    }
}

impl Reading {
    pub(super) fn text(&self) -> Option<String> {
        match self {
            Self::Text(text) => Some(text.clone()),
            _ => None,
        }
    }

    pub(super) fn quantity(&self) -> Option<Quantity> {
        match self {
            Self::Quantity(quantity) => Some((**quantity).clone()),
            _ => None,
        }
    }

    pub(super) fn size(&self) -> Option<Size> {
        match self {
            Self::Size(size) => Some((**size).clone()),
            _ => None,
        }
    }

    pub(super) fn thread(&self) -> Option<Thread> {
        match self {
            Self::Thread(thread) => Some((**thread).clone()),
            _ => None,
        }
    }

    pub(super) fn count(&self) -> Option<u64> {
        match self {
            Self::Count(count) => Some(*count),
            _ => None,
        }
    }

    pub(super) fn date(&self) -> Option<Date> {
        match self {
            Self::Date(date) => Some(*date),
            _ => None,
        }
    }

    pub(super) fn moment(&self) -> Option<Moment> {
        match self {
            Self::Moment(moment) => Some(*moment),
            _ => None,
        }
    }

    pub(super) fn percent(&self) -> Option<(f64, f64)> {
        match self {
            Self::Percent(x, y) => Some((*x, *y)),
            _ => None,
        }
    }

    pub(super) fn record(&self) -> Option<&Record> {
        match self {
            Self::Map(record) => Some(record),
            _ => None,
        }
    }

    pub(super) fn condition(&self) -> Option<Combination> {
        match self {
            Self::Condition(condition) => Some(condition.clone()),
            _ => None,
        }
    }

    pub(super) fn list(&self) -> &[Spot<Self>] {
        match self {
            Self::List(items) => items,
            _ => &[],
        }
    }

    pub(super) fn named(&self) -> &[(Spot<String>, Spot<Self>)] {
        match self {
            Self::Named(pairs) => pairs,
            _ => &[],
        }
    }

    /// The texts of a list, with their places.
    pub(super) fn items(&self) -> Vec<Spot<String>> {
        self.list()
            .iter()
            .filter_map(|item| item.value.text().map(|value| Spot { value, place: item.place.clone() }))
            .collect()
    }

    /// The records of a list.
    pub(super) fn records(&self) -> Vec<&Record> {
        self.list().iter().filter_map(|item| item.value.record()).collect()
    }
}
