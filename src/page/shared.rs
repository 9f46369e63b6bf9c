//! Files that show something of every machine: the first page, the tables of the manual, what search and feed readers get.
//!
//! Invariants: such a page is made from what all machines share and from one part for each machine, in the manual's
//! order, and from nothing else; a part is made from its machine alone, as text that can be kept and used again. So a
//! page made anew from parts that were kept is the page as it would be made from the whole manual.
//!
//! To add one: a `static` of type [`Shared`] in the page's own file, with its two functions, and its line in [`ALL`].

use super::error::PageError;
use super::site::Site;
use super::{PageFile, feed, find, home, sitemap, tables};
use crate::crew::in_order;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// Makes a file from the parts of all machines.
type MakeFile = fn(&Site<'_>, &[&str]) -> Result<Option<Vec<u8>>, PageError>;

/// A page made from parts.
pub(super) struct Shared {
    /// Path of the page.
    pub path: &'static str,
    /// What a machine, told by its index in the manual, contributes: text that only the page itself understands. It must
    /// not look at other machines.
    pub part: fn(&Site<'_>, usize) -> Result<String, PageError>,
    /// The file from the parts of all machines; nothing where this manual has none. The site has no machines then, and every
    /// finding.
    pub page: MakeFile,
}

/// Every page made from parts. The order is that of the parts.
static ALL: &[&Shared] = &[
    &home::HOME,
    &tables::TORQUE,
    &tables::LOCKERS,
    &tables::SEALS,
    &tables::PARTS,
    &tables::TOOLS,
    &tables::TO_HAVE,
    &tables::OPEN_ITEMS,
    &tables::PEOPLE,
    &tables::TERMS,
    &find::INDEX,
    &sitemap::SITEMAP,
    &feed::FEED,
];

/// The parts of one machine, one for each page.
pub(super) fn parts(site: &Site<'_>, machine_index: usize) -> Result<Vec<String>, PageError> {
    ALL.iter().map(|shared| (shared.part)(site, machine_index)).collect()
}

/// What `take` makes of every page, in the order of all: each is made from the parts of every machine, on so many threads.
pub(super) fn pages<R: Send>(site: &Site<'_>, machines: &[&[String]], threads: usize, take: impl Fn(Result<PageFile, PageError>) -> R + Sync) -> Vec<R> {
    let all: Vec<(usize, &Shared)> = ALL.iter().copied().enumerate().collect();
    let made = in_order(&all, threads, |(index, shared)| {
        let page = (shared.page)(site, &nth(machines, *index)).transpose()?;
        Some(take(page.map(|bytes| PageFile { path: shared.path.to_owned(), bytes })))
    });
    made.into_iter().flatten().collect()
}

/// A part of every machine.
fn nth<'p>(machines: &'p [&'p [String]], index: usize) -> Vec<&'p str> {
    machines.iter().filter_map(|parts| parts.get(index)).map(String::as_str).collect()
}

/// What [`MachinePages`](super::MachinePages) has behind the parts of pages: the chapters of the book of all.
pub(super) fn chapters<'p>(machines: &'p [&'p [String]]) -> Vec<&'p str> {
    nth(machines, ALL.len())
}

/// Likewise what the copy on a device is told of the machine.
pub(super) fn copies<'p>(machines: &'p [&'p [String]]) -> Vec<&'p str> {
    nth(machines, ALL.len() + 1)
}

/// A part as text.
pub(super) fn written<T: Serialize>(part: &T) -> Result<String, PageError> {
    serde_json::to_string(part).map_err(|error| PageError::of_part(&error))
}

/// A part from its text.
pub(super) fn read<T: DeserializeOwned>(part: &str) -> Result<T, PageError> {
    serde_json::from_str(part).map_err(|error| PageError::of_part(&error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_page_has_a_path_of_its_own() {
        let paths: BTreeSet<&str> = ALL.iter().map(|shared| shared.path).collect();
        assert_eq!(paths.len(), ALL.len());
        for kind in tables::Kind::ALL {
            assert!(paths.contains(kind.path()), "{}", kind.path());
        }
    }
}
