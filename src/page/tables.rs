//! The tables of the whole manual: torques, lockers, seals, tools, parts, open items, people, words, by machine.

use super::error::PageError;
use super::frame::Document;
use super::markup::Markup;
use super::names::Detail;
use super::open;
use super::rows::{Cell, Table};
use super::shared::Shared;
use super::site::{Scene, Site};
use super::link;
use crate::manual::Combination;
use serde::Serialize;

/// A table of the whole manual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Fasteners and their torques.
    Torque,
    /// Lockers and sealants.
    Lockers,
    /// Seals.
    Seals,
    /// Tools.
    Tools,
    /// Parts, bearings, kits.
    Parts,
    /// What to have and to order.
    ToHave,
    /// Open items and parts away.
    OpenItems,
    /// People: what they sign, what they wrote, measured and read.
    People,
    /// The words of the manual.
    Terms,
}

impl Kind {
    /// Every table, in the order shown.
    pub(super) const ALL: &'static [Self] =
        &[Self::Torque, Self::Lockers, Self::Seals, Self::Parts, Self::Tools, Self::ToHave, Self::OpenItems, Self::People, Self::Terms];

    /// Its page.
    pub(super) const fn path(self) -> &'static str {
        match self {
            Self::Torque => "tables/torque.html",
            Self::Lockers => "tables/thread-lockers.html",
            Self::Seals => "tables/seals.html",
            Self::Tools => "tables/tools.html",
            Self::Parts => "tables/parts.html",
            Self::ToHave => link::TO_HAVE,
            Self::OpenItems => "tables/open-items.html",
            Self::People => "tables/people.html",
            Self::Terms => "tables/terms.html",
        }
    }

    /// Key of its title.
    pub(super) fn title(self) -> &'static str {
        match self {
            Self::Torque => "tables-torque",
            Self::Lockers => "tables-lockers",
            Self::Seals => "tables-seals",
            Self::Tools => "tables-tools",
            Self::Parts => "tables-parts",
            Self::ToHave => "tables-to-have",
            Self::OpenItems => "tables-open",
            Self::People => "tables-people",
            Self::Terms => "tables-terms",
        }
    }

    /// Key of what it holds.
    pub(super) fn about(self) -> &'static str {
        match self {
            Self::Torque => "about-torque",
            Self::Lockers => "about-lockers",
            Self::Seals => "about-seals",
            Self::Tools => "about-tools",
            Self::Parts => "about-parts",
            Self::ToHave => "about-to-have",
            Self::OpenItems => "about-open",
            Self::People => "about-people",
            Self::Terms => "about-terms",
        }
    }
}

/// The pages of the tables, each made from a part of every machine.
macro_rules! shared {
    ($($name:ident: $kind:ident, $about:literal;)+) => {$(
        #[doc = $about]
        pub(super) static $name: Shared = Shared {
            path: Kind::$kind.path(),
            part: |site, machine| part(site, machine, Kind::$kind),
            page: |site, parts| page(site, parts, Kind::$kind),
        };
    )+};
}

shared! {
    TORQUE: Torque, "The torques of every machine.";
    LOCKERS: Lockers, "The lockers and sealants.";
    SEALS: Seals, "The seals.";
    PARTS: Parts, "The parts.";
    TOOLS: Tools, "The tools.";
    TO_HAVE: ToHave, "What to have and to order.";
    OPEN_ITEMS: OpenItems, "The open items.";
    PEOPLE: People, "The people.";
    TERMS: Terms, "The words.";
}

#[derive(Serialize)]
struct Tables {
    about: String,
    /// The tables of each machine, printed.
    machines: Vec<Markup>,
}

#[derive(Serialize)]
struct MachineTables {
    name: Detail,
    id: String,
    tables: Vec<Table>,
}

/// The tables of a machine, printed as they stand on the page.
fn part(site: &Site<'_>, machine_index: usize, kind: Kind) -> Result<String, PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(String::new()) };
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: None, page: kind.path(), known: &any, at_bench: false };
    let view = MachineTables {
        name: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        id: link::table_anchor(&machine.id),
        tables: of_machine(&scene, kind),
    };
    Ok(site.templates.render("table-machine.html", &view)?.as_str().to_owned())
}

/// Makes the page of a table.
fn page(site: &Site<'_>, parts: &[&str], kind: Kind) -> Result<Option<Vec<u8>>, PageError> {
    let title = site.say(kind.title());
    let block = site.title_block("kind-table", &title, kind.path().trim_end_matches(".html"), None);
    let machines = parts.iter().map(|part| Markup::rendered((*part).to_owned())).collect();
    let view = Tables { about: site.say(kind.about()), machines };
    let document = Document { frame: site.frame(kind.path(), &title, "tables"), block, view: &view };
    let printed = parts.iter().map(|part| part.len()).sum();
    Ok(Some(site.printed(site.templates.render_beside(printed, "table.html", &document)?)))
}

fn of_machine(scene: &Scene<'_>, kind: Kind) -> Vec<Table> {
    match kind {
        Kind::Torque => scene.torque_table().into_iter().collect(),
        Kind::Lockers => scene.materials_table(true).into_iter().collect(),
        Kind::Seals => scene.seals_table().into_iter().collect(),
        Kind::Tools => scene.tools_table().into_iter().collect(),
        Kind::Parts => scene.parts_table().into_iter().chain(scene.kits_table()).collect(),
        Kind::ToHave => scene.tables_to_have(),
        Kind::OpenItems => open_table(scene).into_iter().collect(),
        Kind::People => scene.people_table().into_iter().collect(),
        Kind::Terms => scene.terms_table().into_iter().collect(),
    }
}

/// Every open item of a machine with its opener and its closer.
fn open_table(scene: &Scene<'_>) -> Option<Table> {
    let rows = open::all(scene.machine)
        .iter()
        .filter_map(|item| {
            let thing = item.thing(scene.machine)?;
            let view = item.view(scene, None);
            let mut head = Cell::text(view.thing.text);
            head.details.extend(view.only.map(Detail::plain));
            let cells = vec![
                Cell::text(view.left),
                Cell::maybe(view.because),
                Cell::details(view.forbids.into_iter().map(Detail::plain).collect()),
                Cell::details(vec![view.opened]),
                Cell::details(view.finish.into_iter().collect()),
            ];
            Some(scene.row(&thing, head, cells))
        })
        .collect();
    scene.table("table-open", &["col-open", "col-left", "col-because", "col-forbids", "col-opened", "col-finished"], rows)
}
