//! The kits that a kit list counts on: one of each, as its lines for what is bought apart do.

use super::kit_list::{Comes, KitList};
use crate::manual::{Combination, Entry, Kit, Machine};

/// A kit to get.
#[derive(Clone, Debug)]
pub struct KitRow<'a> {
    /// The kit.
    pub entry: &'a Entry<Kit>,
    /// Its part numbers, each with the variants it is for, of those that are known.
    pub numbers: Vec<(&'a Combination, &'a str)>,
}

/// The kits that bring something new of a list, in the order in which they stand in the machine's files.
#[must_use]
pub fn kits_to_get<'a>(machine: &'a Machine, known: &'a Combination, list: &KitList<'a>) -> Vec<KitRow<'a>> {
    let brings = |entry: &&Entry<Kit>| list.goods.iter().any(|row| matches!(&row.comes, Comes::Kits(kits) if kits.contains(&entry.name.as_str())));
    let lists = std::iter::once(&machine.lists).chain(machine.procedures.iter().map(|procedure| &procedure.lists));
    let entries = lists.flat_map(|lists| lists.kits.values()).filter(brings).filter(|entry| entry.only.agrees_with(known));
    entries.map(|entry| KitRow { entry, numbers: entry.what.number.cases_within(known).map(|case| (&case.when, case.value.as_str())).collect() }).collect()
}
