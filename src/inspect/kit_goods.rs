//! One kind of goods on the kit list: how many go in, how many of them new, and where those come from, in each variant.

use super::kit_list::Comes;
use crate::manual::{Combination, Entry, Kit, ListKind, Scope, ThingRef, Varied};

/// The fields of goods that matter here, whatever list they stand in.
pub(super) struct Goods<'a> {
    pub(super) name: &'a str,
    only: &'a Combination,
    count: &'a Varied<u64>,
    more: Option<More<'a>>,
    details: Vec<Varied<String>>,
}

struct More<'a> {
    new: &'a Varied<u64>,
    spare: &'a Varied<u64>,
    reuse: &'a Varied<String>,
    from: &'a Varied<String>,
}

/// What goods come to in one variant.
#[derive(PartialEq)]
pub(super) struct Row<'a> {
    pub(super) details: Vec<String>,
    pub(super) count: u64,
    pub(super) new: u64,
    pub(super) spare: u64,
    pub(super) reuse: Option<&'a str>,
    pub(super) comes: Comes<'a>,
    pub(super) to_order: u64,
}

impl<'a> Goods<'a> {
    /// None of what is no goods.
    pub(super) fn of(scope: Scope<'a>, thing: &ThingRef) -> Option<Self> {
        let lists = scope.lists_of(thing)?;
        let id = thing.id.as_str();
        Some(match thing.kind {
            ListKind::Fasteners => {
                let entry = lists.fasteners.get(id)?;
                let what = &entry.what;
                let more = More { new: &what.new, spare: &what.spare, reuse: &what.reuse, from: &what.from };
                let details = vec![text(&what.thread, ToString::to_string), text(&what.length, |length| length.written().to_owned()), what.class.clone()];
                Self { name: &entry.name, only: &entry.only, count: &what.count, more: Some(more), details }
            }
            ListKind::Seals => {
                let entry = lists.seals.get(id)?;
                let what = &entry.what;
                let more = More { new: &what.new, spare: &what.spare, reuse: &what.reuse, from: &what.from };
                Self { name: &entry.name, only: &entry.only, count: &what.count, more: Some(more), details: vec![text(&what.size, |size| size.written().to_owned()), what.material.clone()] }
            }
            ListKind::Bearings => {
                let entry = lists.bearings.get(id)?;
                let what = &entry.what;
                let more = More { new: &what.new, spare: &what.spare, reuse: &what.reuse, from: &what.from };
                Self { name: &entry.name, only: &entry.only, count: &what.count, more: Some(more), details: vec![what.number.clone(), text(&what.size, |size| size.written().to_owned())] }
            }
            ListKind::Parts => {
                let entry = lists.parts.get(id)?;
                let what = &entry.what;
                let more = More { new: &what.new, spare: &what.spare, reuse: &what.reuse, from: &what.from };
                Self { name: &entry.name, only: &entry.only, count: &what.count, more: Some(more), details: vec![what.number.clone()] }
            }
            ListKind::Shims => {
                let entry = lists.shims.get(id)?;
                Self { name: &entry.name, only: &entry.only, count: &entry.what.count, more: None, details: vec![text(&entry.what.from, |from| from.written().to_owned())] }
            }
            _ => return None,
        })
    }

    /// In which variants it may come to something else.
    pub(super) fn conditions(&self) -> Vec<&Combination> {
        let mut conditions: Vec<&Combination> = self.count.cases.iter().map(|case| &case.when).collect();
        conditions.push(self.only);
        conditions.extend(self.details.iter().flat_map(|detail| detail.cases.iter().map(|case| &case.when)));
        if let Some(More { new, spare, reuse, from }) = &self.more {
            conditions.extend(new.cases.iter().chain(&spare.cases).map(|case| &case.when));
            conditions.extend(reuse.cases.iter().chain(&from.cases).map(|case| &case.when));
        }
        conditions
    }

    /// What it comes to where everything is known; `kits` are those that hold it, each with how many.
    pub(super) fn row(&self, kits: &[(&'a Entry<Kit>, u64)], full: &Combination) -> Option<Row<'a>> {
        if !full.satisfies(self.only) {
            return None;
        }
        let count = self.count.get(full).copied().unwrap_or(1);
        let reuse = self.more.as_ref().and_then(|more| more.reuse.get(full)).map(String::as_str);
        let from = self.more.as_ref().and_then(|more| more.from.get(full)).map(String::as_str);
        let spare = self.more.as_ref().and_then(|more| more.spare.get(full)).copied().unwrap_or(0);
        let stated = self.more.as_ref().and_then(|more| more.new.get(full)).copied();
        let new = match reuse {
            Some("never") => stated.unwrap_or(count),
            _ if from == Some("order") => stated.unwrap_or(count),
            _ => stated.unwrap_or(0),
        };
        let wanted = new.saturating_add(spare);
        let here: Vec<&(&'a Entry<Kit>, u64)> =
            kits.iter().filter(|(kit, _)| full.satisfies(&kit.only) && from.is_none_or(|from| from == kit.id)).collect();
        let held = here.iter().fold(0_u64, |sum, (_, count)| sum.saturating_add(*count));
        let (comes, to_order) = match from {
            _ if wanted == 0 => (Comes::NotNeeded, 0),
            Some("order") => (Comes::Order, wanted),
            Some("stock") => (Comes::Stock, 0),
            _ if !here.is_empty() => (Comes::Kits(here.iter().map(|(kit, _)| kit.name.as_str()).collect()), wanted.saturating_sub(held)),
            _ => (Comes::Unstated, wanted),
        };
        let details = self.details.iter().filter_map(|detail| detail.get(full).cloned()).collect();
        Some(Row { details, count, new, spare, reuse, comes, to_order })
    }
}

fn text<T>(varied: &Varied<T>, show: impl Fn(&T) -> String) -> Varied<String> {
    varied.filter_map(|value| Some(show(value)))
}
