//! Paths of pages and the relative links between them, so that the site works under any address and
//! from a folder.

use crate::manual::{Home, ListKind, ThingRef, board_name, sheet_name};
use std::borrow::Cow;

/// The path of the first page.
pub(super) const HOME: &str = "index.html";

/// The page of what to have and to order.
pub(super) const TO_HAVE: &str = "tables/to-have.html";

/// The anchor of a machine's part of a table of the whole manual.
pub(super) fn table_anchor(machine: &str) -> String {
    format!("{machine}.table")
}

/// The path of a machine's page.
pub(super) fn machine_path(machine: &str) -> String {
    format!("{machine}/index.html")
}

/// The path of the whole manual as one document.
pub(super) const BOOK: &str = "book.html";

/// The path of a machine as one document.
pub(super) fn machine_book_path(machine: &str) -> String {
    format!("{machine}/book.html")
}

/// The path of a machine's torque card.
pub(super) fn card_path(machine: &str) -> String {
    format!("{machine}/torque-card.html")
}

/// The path of the board for a group of bolts.
pub(super) fn board_path(machine: &str, procedure: &str, fastener: &str) -> String {
    format!("{machine}/{}.html", board_name(procedure, fastener))
}

/// The path of a build's page.
pub(super) fn build_path(machine: &str, build: &str) -> String {
    format!("{machine}/builds/{build}.html")
}

/// The path of a procedure's page.
pub(super) fn procedure_path(machine: &str, procedure: &str) -> String {
    format!("{machine}/{procedure}.html")
}

/// The path of the page that tells what stands behind a procedure's values. No id has a dot, so no page of a
/// procedure lies there.
pub(super) fn behind_path(machine: &str, procedure: &str) -> String {
    format!("{machine}/{procedure}.behind.html")
}

/// The path of the review of a machine's values. No procedure's page lies there, nor at the two below, for the same reason.
pub(super) fn review_path(machine: &str) -> String {
    format!("{machine}/machine.review.html")
}

/// The path of a machine's variants side by side.
pub(super) fn matrix_path(machine: &str) -> String {
    format!("{machine}/machine.variants.html")
}

/// The path of a machine's bulletins.
pub(super) fn bulletins_path(machine: &str) -> String {
    format!("{machine}/machine.bulletins.html")
}

/// The path of a procedure's source.
pub(super) fn source_path(machine: &str, procedure: &str) -> String {
    format!("{machine}/{procedure}.source.html")
}

/// The path of the chapters of a procedure's recording.
pub(super) fn chapters_path(machine: &str, procedure: &str) -> String {
    format!("{machine}/{procedure}.chapters.vtt")
}

/// The path of a procedure's sheet for these variant values.
pub(super) fn sheet_path(machine: &str, procedure: &str, values: &[&str]) -> String {
    format!("{machine}/{}.html", sheet_name(procedure, values))
}

/// The relative link from a page to another path of the site, which may end in `#…`.
pub(super) fn relative(from: &str, to: &str) -> String {
    match to.split_once('#') {
        Some((path, anchor)) => relative_to(from, path, Some(anchor)),
        None => relative_to(from, to, None),
    }
}

/// The relative link from a page to another path of the site and to a place on it.
pub(super) fn relative_to(from: &str, path: &str, anchor: Option<&str>) -> String {
    let (up, rest) = parted(from, path);
    let mut link = String::with_capacity(up * UP.len() + rest.len() + anchor.map_or(0, |anchor| anchor.len() + 1));
    if path != from {
        (0..up).for_each(|_| link.push_str(UP));
        push_encoded(&mut link, rest);
    } else if anchor.is_none() {
        push_encoded(&mut link, path.rsplit('/').next().unwrap_or(path));
    }
    if let Some(anchor) = anchor {
        link.push('#');
        link.push_str(anchor);
    }
    link
}

/// The folder above.
const UP: &str = "../";

/// The way from a page to another path of the site, as it is written.
pub(super) fn way(from: &str, to: &str) -> String {
    let (up, rest) = parted(from, to);
    let mut way = UP.repeat(up);
    way.push_str(rest);
    way
}

/// How many folders up from a page another path of the site begins, and what of the path comes then.
fn parted<'t>(from: &str, to: &'t str) -> (usize, &'t str) {
    let (from, path) = (from.as_bytes(), to.as_bytes());
    let same = from.iter().zip(path).take_while(|(one, other)| one == other).count();
    // Both lie in the folders that end where they are the same.
    let shared = from.get(..same).and_then(|same| same.iter().rposition(|byte| *byte == b'/')).map_or(0, |slash| slash + 1);
    let up = from.get(shared..).unwrap_or_default().iter().filter(|byte| **byte == b'/').count();
    (up, to.get(shared..).unwrap_or(to))
}

/// The path of the site that a relative way from a page leads to. A way out of the site ends at its root.
pub(super) fn resolved(page: &str, way: &str) -> String {
    // Where the last part of a path begins.
    let last = |path: &str| path.rfind('/').map_or(0, |slash| slash + 1);
    let mut path = String::with_capacity(page.len() + way.len() + 1);
    path.push_str(page.get(..last(page)).unwrap_or(""));
    for part in way.split('/') {
        match part {
            "." => {}
            ".." => {
                path.pop();
                path.truncate(last(&path));
            }
            part => path.extend([part, "/"]),
        }
    }
    path.pop();
    path
}

/// The anchor of a thing's row: the same in every build, whatever else is added.
pub(super) fn row_anchor(machine: &str, thing: &ThingRef) -> String {
    let (list, home) = (thing.kind.key(), match &thing.home {
        Home::Shop => Some("shop"),
        Home::Machine => None,
        Home::Procedure(procedure) => Some(procedure.as_str()),
    });
    let mut anchor = String::with_capacity(machine.len() + home.map_or(0, |home| home.len() + 1) + list.len() + thing.id.len() + 2);
    anchor.push_str(machine);
    for part in home.into_iter().chain([list]) {
        anchor.push('.');
        anchor.push_str(part);
    }
    anchor.push('.');
    anchor.extend(thing.id.chars().map(in_anchor));
    anchor
}

/// The page on which a thing has its row. `lockers` tells whether a material belongs to the table of lockers.
pub(super) fn row_page(machine: &str, kind: ListKind, locker: bool) -> Cow<'static, str> {
    match kind {
        ListKind::Fasteners => "tables/torque.html".into(),
        ListKind::Seals => "tables/seals.html".into(),
        ListKind::Materials if locker => "tables/thread-lockers.html".into(),
        ListKind::Tools => "tables/tools.html".into(),
        ListKind::Parts | ListKind::Bearings | ListKind::Kits => "tables/parts.html".into(),
        ListKind::LeavesOpen | ListKind::Away => "tables/open-items.html".into(),
        ListKind::People => "tables/people.html".into(),
        ListKind::Terms => "tables/terms.html".into(),
        _ => machine_path(machine).into(),
    }
}

/// The anchor of an act: its step's id and its number in the step, from 1.
pub(super) fn act_anchor(step: &str, index: usize) -> String {
    format!("{}.{}", anchor_part(step), index + 1)
}

/// An id as it may stand in an `id` attribute and after `#`.
pub(super) fn anchor_part(id: &str) -> String {
    id.chars().map(in_anchor).collect()
}

fn in_anchor(c: char) -> char {
    if c.is_alphanumeric() || c == '-' || c == '_' { c } else { '-' }
}

/// Adds a path with everything but unreserved characters written as `%XX` (RFC 3986, section 2.3).
fn push_encoded(link: &mut String, path: &str) {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'.' | b'_' | b'~' | b'/');
    if path.bytes().all(plain) {
        link.push_str(path);
        return;
    }
    for byte in path.bytes() {
        if plain(byte) {
            link.push(char::from(byte));
        } else {
            link.push_str(&format!("%{byte:02X}"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_relative_to_the_page_they_stand_on() {
        for (from, to, link) in [
            ("index.html", "tarn/index.html", "tarn/index.html"),
            ("tarn/a.html", "tarn/b.html#s", "b.html#s"),
            ("tarn/a.html", "index.html", "../index.html"),
            ("tarn/a.html", "tables/torque.html#x.y", "../tables/torque.html#x.y"),
            ("tarn/a.html", "tarn/a.html#s.1", "#s.1"),
            ("tarn/a.html", "tarn/a.html", "a.html"),
            ("tarn/builds/a.html", "tarn/bulletins.html", "../bulletins.html"),
            ("tarn/builds/a.html", "tarn-2/builds/a.html", "../../tarn-2/builds/a.html"),
            ("tarn/a.html", "tarn/pictures/ä b.png", "pictures/%C3%A4%20b.png"),
        ] {
            assert_eq!(relative(from, to), link, "{from} -> {to}");
        }
    }

    #[test]
    fn a_way_leads_to_a_path() {
        for (page, way, path) in [
            ("index.html", "tarn/index.html", "tarn/index.html"),
            ("tarn/a.html", "b.html", "tarn/b.html"),
            ("tarn/builds/a.html", "../../tables/./torque.html", "tables/torque.html"),
            ("tarn/a.html", "../../../x/../y", "y"),
            ("tarn/a.html", "..", ""),
            ("a.html", "/x//y", "/x//y"),
        ] {
            assert_eq!(resolved(page, way), path, "{page} -> {way}");
        }
    }

    #[test]
    fn a_thing_of_a_procedure_has_another_anchor_than_its_namesake_of_the_machine() {
        let of = |home| row_anchor("tarn", &ThingRef { kind: ListKind::Fasteners, home, id: "nut".to_owned() });
        assert_eq!(of(Home::Machine), "tarn.fasteners.nut");
        assert_eq!(of(Home::Procedure("pinion".to_owned())), "tarn.pinion.fasteners.nut");
    }

    #[test]
    fn sheets_are_named_by_their_variant_values() {
        assert_eq!(sheet_path("tarn", "pinion", &[]), "tarn/pinion-sheet.html");
        assert_eq!(sheet_path("tarn", "pinion", &["L", "late"]), "tarn/pinion-sheet-L-late.html");
        assert_eq!(sheet_path("tarn", "pinion", &["a/b"]), "tarn/pinion-sheet-a-b.html");
    }
}
