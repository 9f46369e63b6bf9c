//! Whose site a folder holds: publishing one manual into the site of another would remove that one, page by page.

use super::super::work::Whose;
use crate::manual::Ledger;
use crate::source::published_values;
use std::collections::BTreeSet;
use std::path::Path;

/// Machines that are named in the refusal; of more, the number.
const NAMED: usize = 3;

/// Refuses a folder that holds the site of another manual: neither its title nor any of its machines is this one's. A site
/// without a list of values, such as a proof copy, tells nothing and is not refused.
///
/// # Errors
/// In words: whose site it is, and what to do.
pub(super) fn check(into: &Path, whose: &Whose<'_>) -> Result<(), String> {
    let published = published_values(into).ok().flatten().and_then(|bytes| Ledger::parse(&bytes).ok());
    let Some(ledger) = published.filter(|ledger| !whose.has(ledger)) else { return Ok(()) };
    let theirs: BTreeSet<&str> = ledger.machines().collect();
    let mut named: Vec<String> = theirs.iter().take(NAMED).map(|id| (*id).to_owned()).collect();
    named.extend(theirs.len().checked_sub(NAMED).filter(|more| *more > 0).map(|more| format!("{more} more")));
    let whose = if ledger.title.is_empty() { "a manual without a title".to_owned() } else { format!("‘{}’", ledger.title) };
    let of = if named.is_empty() { String::new() } else { format!(" (machines: {})", named.join(", ")) };
    Err(format!(
        "{} holds the site of another manual, {whose}{of}: neither title nor any machine agrees, and all its pages would be removed; \
         name another folder with --into, or let --replace-other put this manual in its place",
        into.display()
    ))
}
