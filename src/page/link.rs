//! Paths of pages and the relative links between them, so that the site works under any address and
//! from a folder.

use crate::manual::{Home, ListKind, ThingRef};

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
    format!("{machine}/{procedure}-board-{}.html", file_name_part(fastener))
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
    if values.is_empty() {
        return format!("{machine}/{procedure}-sheet.html");
    }
    let safe: Vec<String> = values.iter().map(|value| file_name_part(value)).collect();
    format!("{machine}/{procedure}-sheet-{}.html", safe.join("-"))
}

/// The relative link from a page to another path of the site, which may end in `#…`.
pub(super) fn relative(from: &str, to: &str) -> String {
    let (path, anchor) = to.split_once('#').map_or((to, None), |(path, anchor)| (path, Some(anchor)));
    if path == from {
        return anchor.map_or_else(|| encoded(path.rsplit('/').next().unwrap_or(path)), |a| format!("#{a}"));
    }
    let mut link = encoded(&way(from, path));
    if let Some(anchor) = anchor {
        link.push('#');
        link.push_str(anchor);
    }
    link
}

/// The way from a page to another path of the site, as it is written.
pub(super) fn way(from: &str, to: &str) -> String {
    let from_folders: Vec<&str> = from.split('/').collect();
    let to_parts: Vec<&str> = to.split('/').collect();
    let folders = from_folders.len().saturating_sub(1);
    let shared = from_folders.iter().take(folders).zip(&to_parts).take_while(|(a, b)| a == b).count();
    let shared = shared.min(to_parts.len().saturating_sub(1));
    let mut way = "../".repeat(folders.saturating_sub(shared));
    way.push_str(&to_parts.get(shared..).unwrap_or(&[]).join("/"));
    way
}

/// The path of the site that a relative way from a page leads to. A way out of the site ends at its root.
pub(super) fn resolved(page: &str, way: &str) -> String {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in way.split('/') {
        match part {
            "." => {}
            ".." => drop(parts.pop()),
            part => parts.push(part),
        }
    }
    parts.join("/")
}

/// The anchor of a thing's row: the same in every build, whatever else is added.
pub(super) fn row_anchor(machine: &str, thing: &ThingRef) -> String {
    let list = thing.kind.key();
    match &thing.home {
        Home::Shop => format!("{machine}.shop.{list}.{}", anchor_part(&thing.id)),
        Home::Machine => format!("{machine}.{list}.{}", anchor_part(&thing.id)),
        Home::Procedure(procedure) => format!("{machine}.{procedure}.{list}.{}", anchor_part(&thing.id)),
    }
}

/// The page on which a thing has its row. `lockers` tells whether a material belongs to the table of lockers.
pub(super) fn row_page(machine: &str, kind: ListKind, locker: bool) -> String {
    match kind {
        ListKind::Fasteners => "tables/torque.html".to_owned(),
        ListKind::Seals => "tables/seals.html".to_owned(),
        ListKind::Materials if locker => "tables/thread-lockers.html".to_owned(),
        ListKind::Tools => "tables/tools.html".to_owned(),
        ListKind::Parts | ListKind::Bearings | ListKind::Kits => "tables/parts.html".to_owned(),
        ListKind::LeavesOpen | ListKind::Away => "tables/open-items.html".to_owned(),
        ListKind::People => "tables/people.html".to_owned(),
        ListKind::Terms => "tables/terms.html".to_owned(),
        _ => machine_path(machine),
    }
}

/// The anchor of an act: its step's id and its number in the step, from 1.
pub(super) fn act_anchor(step: &str, index: usize) -> String {
    format!("{}.{}", anchor_part(step), index + 1)
}

/// An id as it may stand in an `id` attribute and after `#`.
pub(super) fn anchor_part(id: &str) -> String {
    id.chars().map(|c| if c.is_alphanumeric() || c == '-' || c == '_' { c } else { '-' }).collect()
}

fn file_name_part(value: &str) -> String {
    value.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_' | '.') { c } else { '-' }).collect()
}

/// A path with everything but unreserved characters written as `%XX` (RFC 3986, section 2.3).
fn encoded(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'.' | b'_' | b'~' | b'/') {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
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
            ("tarn/a.html", "tarn/pictures/ä b.png", "pictures/%C3%A4%20b.png"),
        ] {
            assert_eq!(relative(from, to), link, "{from} -> {to}");
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
