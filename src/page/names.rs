//! What things are called on a page, and where their rows stand.

use super::link;
use super::markup::Markup;
use super::site::Scene;
use super::values::values_glued;
use super::words::Arg;
use crate::manual::shape::Shape;
use crate::manual::tables::entry_fields;
use crate::manual::{Entry, Faces, ListKind, Material, ThingRef, Varied};
use serde::{Serialize, Serializer};

/// Words with an address. A template is handed them as they are printed: they stand on every page by the dozen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Detail {
    /// The words.
    pub text: String,
    /// Where they lead.
    pub href: Option<String>,
}

impl Serialize for Detail {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut page = Markup::default();
        self.push_to(&mut page);
        page.serialize(serializer)
    }
}

impl Detail {
    /// Words that lead nowhere.
    pub(super) fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), href: None }
    }

    /// Adds the words to a page, as a link where they lead somewhere.
    pub(super) fn push_to(&self, page: &mut Markup) {
        match self.href.as_deref().filter(|href| !href.is_empty()) {
            Some(href) => {
                page.push_tag("<a href=\"");
                page.push_text(href);
                page.push_tag("\">");
                page.push_text(&self.text);
                page.push_tag("</a>");
            }
            None => page.push_text(&self.text),
        }
    }
}

/// Words one behind the other.
pub(super) fn joined<'d>(details: impl IntoIterator<Item = &'d Detail>, between: &'static str) -> Markup {
    let mut page = Markup::default();
    for (index, detail) in details.into_iter().enumerate() {
        page.push_tag(if index == 0 { "" } else { between });
        detail.push_to(&mut page);
    }
    page
}

/// The lists in which a thing that is merely named is looked for.
const NAMED: &[ListKind] = &[
    ListKind::Parts,
    ListKind::Fasteners,
    ListKind::Seals,
    ListKind::Bearings,
    ListKind::Shims,
    ListKind::Stacks,
    ListKind::Materials,
    ListKind::Measures,
    ListKind::Aligns,
    ListKind::Turns,
    ListKind::Fills,
    ListKind::Tests,
    ListKind::Waits,
    ListKind::Heats,
    ListKind::Kits,
    ListKind::Away,
    ListKind::LeavesOpen,
];

impl<'s> Scene<'s> {
    /// A thing's name.
    pub(super) fn name(&self, thing: &ThingRef) -> String {
        self.scope().head(thing).map_or_else(|| thing.id.clone(), |head| values_glued(head.name))
    }

    /// The name of whatever has this id; water, air, fuel and exhaust have theirs; otherwise the words as written.
    pub(super) fn named(&self, id: &str) -> String {
        match self.find_named(id) {
            Some(thing) => self.name(&thing),
            None => self.site.words.of("medium", id),
        }
    }

    /// Whatever has this id, in the lists of things that can be named.
    pub(super) fn find_named(&self, id: &str) -> Option<ThingRef> {
        NAMED.iter().find_map(|kind| self.scope().find(*kind, id))
    }

    /// The name of the entry that an id as written stands for, in scope or in another procedure of the machine. None where
    /// the field may hold other words, or nothing has the id.
    pub(super) fn name_of_id(&self, kind: ListKind, field: &str, id: &str) -> Option<String> {
        let shape = entry_fields(kind).iter().find(|known| known.key == field).map(|known| &known.shape);
        if !(matches!(shape, Some(Shape::Id)) || field == "when") {
            return None;
        }
        let kinds = || NAMED.iter().chain(&[ListKind::Tools, ListKind::People]);
        let here = kinds().find_map(|kind| self.scope().lists().find_map(|lists| lists.head(*kind, id)));
        // Machine and shop have nothing of this id by then: only what the procedures have of their own is left.
        let elsewhere = || self.machine.procedures.iter().find_map(|procedure| kinds().find_map(|kind| procedure.lists.head(*kind, id)));
        here.or_else(elsewhere).map(|head| values_glued(head.name))
    }

    /// A tool's, person's or other entry's name by its id in one list.
    pub(super) fn name_in(&self, kind: ListKind, id: &str) -> String {
        self.scope().find(kind, id).map_or_else(|| id.to_owned(), |thing| self.name(&thing))
    }

    /// The link to a thing's row.
    pub(super) fn row_link(&self, thing: &ThingRef) -> String {
        let locker = thing.kind == ListKind::Materials
            && self.scope().thing(|l| &l.materials, thing).is_some_and(|material| is_locker(&material.what));
        let page = link::row_page(&self.machine.id, thing.kind, locker);
        link::relative_to(self.page, &page, Some(&link::row_anchor(&self.machine.id, thing)))
    }

    /// The name and row of an entry of one list.
    pub(super) fn detail_in(&self, kind: ListKind, id: &str) -> Detail {
        match self.scope().find(kind, id) {
            Some(thing) => Detail { text: self.name(&thing), href: Some(self.row_link(&thing)) },
            None => Detail::plain(id),
        }
    }

    /// A locker's name with its strength, where the name does not say it.
    pub(super) fn material_name(&self, entry: &Entry<Material>) -> String {
        let Some(strength) = &entry.what.strength else { return entry.name.clone() };
        let strength = self.site.words.of("strength", &strength.value);
        if entry.name.to_lowercase().contains(&strength.to_lowercase()) {
            entry.name.clone()
        } else {
            self.say("locker-strength", &[("name", Arg::Text(&entry.name)), ("strength", Arg::Text(&strength))])
        }
    }

    /// Which side looks where: `spring to gear oil, back to grease`.
    pub(super) fn faces_text(&self, faces: &Varied<Faces>) -> Option<String> {
        super::values::varied_text(faces, self.known, |faces| match faces {
            Faces::Either => self.site.say("faces-either"),
            Faces::Toward(sides) => {
                let parts: Vec<String> = sides
                    .iter()
                    .map(|(feature, toward)| {
                        let feature = self.site.words.of("feature", feature);
                        let toward = self.named(&toward.value);
                        self.say("faces-toward", &[("feature", Arg::Text(&feature)), ("toward", Arg::Text(&toward))])
                    })
                    .collect();
                parts.join(", ")
            }
        })
    }
}

/// Whether a material belongs into the table of lockers and sealants.
pub(super) fn is_locker(material: &Material) -> bool {
    material.strength.is_some()
        || matches!(material.kind.as_deref(), Some("thread-locker" | "retaining-compound" | "sealant"))
}
