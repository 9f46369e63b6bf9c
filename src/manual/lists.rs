//! The lists of a manual's front matter, and looking an id up in the procedure, its machine, the shop.

use super::claims::Claims;
use super::measure::Measure;
use super::model::{Machine, Procedure};
use super::shop::{Material, Person, Source, Term, Tool};
use super::things::{Align, Away, Bead, Bearing, Entry, Fastener, Figure, Fill, Heat, Kit, OpenItem, Part, Seal, Shaft, Shim, Stack, Test, Turn, Wait};
use super::varied::{Combination, Varied};
use crate::finding::Place;
use indexmap::IndexMap;
use std::collections::BTreeSet;

/// Entries of one list by id, in the order written.
pub type List<T> = IndexMap<String, Entry<T>, foldhash::fast::RandomState>;

/// The lists that may stand in a front matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ListKind {
    /// `fasteners:`
    Fasteners,
    /// `seals:`
    Seals,
    /// `bearings:`
    Bearings,
    /// `parts:`
    Parts,
    /// `shafts:`
    Shafts,
    /// `stacks:`
    Stacks,
    /// `heats:`
    Heats,
    /// `beads:`
    Beads,
    /// `measures:`
    Measures,
    /// `shims:`
    Shims,
    /// `waits:`
    Waits,
    /// `fills:`
    Fills,
    /// `aligns:`
    Aligns,
    /// `turns:`
    Turns,
    /// `tests:`
    Tests,
    /// `kits:`
    Kits,
    /// `figures:`
    Figures,
    /// `tools:`
    Tools,
    /// `materials:`
    Materials,
    /// `sources:`
    Sources,
    /// `people:`
    People,
    /// `terms:`
    Terms,
    /// `leaves_open:`
    LeavesOpen,
    /// `away:`
    Away,
}

impl ListKind {
    /// Every kind, in the order of the format.
    pub const ALL: &'static [Self] = &[
        Self::Fasteners,
        Self::Seals,
        Self::Bearings,
        Self::Parts,
        Self::Shafts,
        Self::Stacks,
        Self::Heats,
        Self::Beads,
        Self::Measures,
        Self::Shims,
        Self::Waits,
        Self::Fills,
        Self::Aligns,
        Self::Turns,
        Self::Tests,
        Self::Kits,
        Self::Figures,
        Self::Tools,
        Self::Materials,
        Self::Sources,
        Self::People,
        Self::Terms,
        Self::LeavesOpen,
        Self::Away,
    ];

    /// What can be fitted and taken out.
    pub const THINGS: &'static [Self] =
        &[Self::Fasteners, Self::Seals, Self::Bearings, Self::Parts, Self::Shims, Self::Stacks];

    /// The key in the front matter.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Fasteners => "fasteners",
            Self::Seals => "seals",
            Self::Bearings => "bearings",
            Self::Parts => "parts",
            Self::Shafts => "shafts",
            Self::Stacks => "stacks",
            Self::Heats => "heats",
            Self::Beads => "beads",
            Self::Measures => "measures",
            Self::Shims => "shims",
            Self::Waits => "waits",
            Self::Fills => "fills",
            Self::Aligns => "aligns",
            Self::Turns => "turns",
            Self::Tests => "tests",
            Self::Kits => "kits",
            Self::Figures => "figures",
            Self::Tools => "tools",
            Self::Materials => "materials",
            Self::Sources => "sources",
            Self::People => "people",
            Self::Terms => "terms",
            Self::LeavesOpen => "leaves_open",
            Self::Away => "away",
        }
    }

    /// The list of a key.
    #[must_use]
    pub fn find(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.key() == key)
    }

    /// One of its entries in words: "a fastener".
    #[must_use]
    pub fn one(self) -> &'static str {
        match self {
            Self::Fasteners => "a fastener",
            Self::Seals => "a seal",
            Self::Bearings => "a bearing",
            Self::Parts => "a part",
            Self::Shafts => "a shaft",
            Self::Stacks => "a stack",
            Self::Heats => "a heat",
            Self::Beads => "a bead",
            Self::Measures => "a measurement",
            Self::Shims => "a shim",
            Self::Waits => "a wait",
            Self::Fills => "a fill",
            Self::Aligns => "an alignment",
            Self::Turns => "a turn",
            Self::Tests => "a test",
            Self::Kits => "a kit",
            Self::Figures => "a picture",
            Self::Tools => "a tool",
            Self::Materials => "a material",
            Self::Sources => "a source",
            Self::People => "a person",
            Self::Terms => "a term",
            Self::LeavesOpen => "an open item",
            Self::Away => "a part away",
        }
    }
}

/// All lists of one front matter; those not written are empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lists {
    /// `fasteners:`
    pub fasteners: List<Fastener>,
    /// `seals:`
    pub seals: List<Seal>,
    /// `bearings:`
    pub bearings: List<Bearing>,
    /// `parts:`
    pub parts: List<Part>,
    /// `shafts:`
    pub shafts: List<Shaft>,
    /// `stacks:`
    pub stacks: List<Stack>,
    /// `heats:`
    pub heats: List<Heat>,
    /// `beads:`
    pub beads: List<Bead>,
    /// `measures:`
    pub measures: List<Measure>,
    /// `shims:`
    pub shims: List<Shim>,
    /// `waits:`
    pub waits: List<Wait>,
    /// `fills:`
    pub fills: List<Fill>,
    /// `aligns:`
    pub aligns: List<Align>,
    /// `turns:`
    pub turns: List<Turn>,
    /// `tests:`
    pub tests: List<Test>,
    /// `kits:`
    pub kits: List<Kit>,
    /// `figures:`, by path as written
    pub figures: List<Figure>,
    /// `tools:`
    pub tools: List<Tool>,
    /// `materials:`
    pub materials: List<Material>,
    /// `sources:`
    pub sources: List<Source>,
    /// `people:`
    pub people: List<Person>,
    /// `terms:`
    pub terms: List<Term>,
    /// `leaves_open:`
    pub leaves_open: List<OpenItem>,
    /// `away:`
    pub away: List<Away>,
    /// Every value of every entry as written, in the order written.
    pub written: Vec<WrittenValue>,
    /// What several sources say of entries.
    pub claims: Vec<Claims>,
    /// Fields that are there and could not be read (reported): nobody need report them missing.
    pub unreadable: BTreeSet<(ListKind, String, &'static str)>,
    /// Lists that could not be read (reported): what they would hold is not known.
    pub holes: BTreeSet<ListKind>,
}

/// One value of one entry as written, for comparing and for telling.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenValue {
    /// The list.
    pub kind: ListKind,
    /// The entry's id.
    pub id: String,
    /// The field's key.
    pub field: &'static str,
    /// When it holds.
    pub when: Combination,
    /// Its text, white space folded.
    pub text: String,
    /// Where it stands.
    pub place: Place,
    /// Whether the field was written by variant.
    pub varies: bool,
}

/// What is common to the entries of every list.
#[derive(Clone, Copy, Debug)]
pub struct EntryHead<'a> {
    /// The id.
    pub id: &'a str,
    /// Where the id stands.
    pub place: &'a Place,
    /// The name.
    pub name: &'a str,
    /// In which variants it exists.
    pub only: &'a Combination,
}

impl Lists {
    /// Where the values of an entry come from. None for an id that is not there, and for lists without sources.
    #[must_use]
    pub fn source(&self, kind: ListKind, id: &str) -> Option<&Varied<String>> {
        match kind {
            ListKind::Fasteners => self.fasteners.get(id).map(|e| &e.source),
            ListKind::Seals => self.seals.get(id).map(|e| &e.source),
            ListKind::Bearings => self.bearings.get(id).map(|e| &e.source),
            ListKind::Parts => self.parts.get(id).map(|e| &e.source),
            ListKind::Stacks => self.stacks.get(id).map(|e| &e.source),
            ListKind::Heats => self.heats.get(id).map(|e| &e.source),
            ListKind::Beads => self.beads.get(id).map(|e| &e.source),
            ListKind::Measures => self.measures.get(id).map(|e| &e.source),
            ListKind::Shims => self.shims.get(id).map(|e| &e.source),
            ListKind::Waits => self.waits.get(id).map(|e| &e.source),
            ListKind::Fills => self.fills.get(id).map(|e| &e.source),
            ListKind::Aligns => self.aligns.get(id).map(|e| &e.source),
            ListKind::Turns => self.turns.get(id).map(|e| &e.source),
            ListKind::Tests => self.tests.get(id).map(|e| &e.source),
            ListKind::Kits => self.kits.get(id).map(|e| &e.source),
            ListKind::Materials => self.materials.get(id).map(|e| &e.source),
            _ => None,
        }
    }

    /// What several sources say of an entry.
    #[must_use]
    pub fn claims(&self, kind: ListKind, id: &str) -> Option<&Claims> {
        self.claims.iter().find(|claims| claims.kind == kind && claims.id == id)
    }

    /// Whether a field of an entry is there but could not be read.
    #[must_use]
    pub fn is_unreadable(&self, kind: ListKind, id: &str, field: &'static str) -> bool {
        self.unreadable.contains(&(kind, id.to_owned(), field))
    }

    /// The head of an entry of any list.
    #[must_use]
    pub fn head(&self, kind: ListKind, id: &str) -> Option<EntryHead<'_>> {
        fn of<'a, T>(list: &'a List<T>, id: &str) -> Option<EntryHead<'a>> {
            entry_of(list, id).map(head_of)
        }
        match kind {
            ListKind::Fasteners => of(&self.fasteners, id),
            ListKind::Seals => of(&self.seals, id),
            ListKind::Bearings => of(&self.bearings, id),
            ListKind::Parts => of(&self.parts, id),
            ListKind::Shafts => of(&self.shafts, id),
            ListKind::Stacks => of(&self.stacks, id),
            ListKind::Heats => of(&self.heats, id),
            ListKind::Beads => of(&self.beads, id),
            ListKind::Measures => of(&self.measures, id),
            ListKind::Shims => of(&self.shims, id),
            ListKind::Waits => of(&self.waits, id),
            ListKind::Fills => of(&self.fills, id),
            ListKind::Aligns => of(&self.aligns, id),
            ListKind::Turns => of(&self.turns, id),
            ListKind::Tests => of(&self.tests, id),
            ListKind::Kits => of(&self.kits, id),
            ListKind::Figures => of(&self.figures, id),
            ListKind::Tools => of(&self.tools, id),
            ListKind::Materials => of(&self.materials, id),
            ListKind::Sources => of(&self.sources, id),
            ListKind::People => of(&self.people, id),
            ListKind::Terms => of(&self.terms, id),
            ListKind::LeavesOpen => of(&self.leaves_open, id),
            ListKind::Away => of(&self.away, id),
        }
    }

    /// The heads of all entries of a list, in the order written.
    #[must_use]
    pub fn heads(&self, kind: ListKind) -> Vec<EntryHead<'_>> {
        fn all<T>(list: &List<T>) -> Vec<EntryHead<'_>> {
            list.values().map(head_of).collect()
        }
        match kind {
            ListKind::Fasteners => all(&self.fasteners),
            ListKind::Seals => all(&self.seals),
            ListKind::Bearings => all(&self.bearings),
            ListKind::Parts => all(&self.parts),
            ListKind::Shafts => all(&self.shafts),
            ListKind::Stacks => all(&self.stacks),
            ListKind::Heats => all(&self.heats),
            ListKind::Beads => all(&self.beads),
            ListKind::Measures => all(&self.measures),
            ListKind::Shims => all(&self.shims),
            ListKind::Waits => all(&self.waits),
            ListKind::Fills => all(&self.fills),
            ListKind::Aligns => all(&self.aligns),
            ListKind::Turns => all(&self.turns),
            ListKind::Tests => all(&self.tests),
            ListKind::Kits => all(&self.kits),
            ListKind::Figures => all(&self.figures),
            ListKind::Tools => all(&self.tools),
            ListKind::Materials => all(&self.materials),
            ListKind::Sources => all(&self.sources),
            ListKind::People => all(&self.people),
            ListKind::Terms => all(&self.terms),
            ListKind::LeavesOpen => all(&self.leaves_open),
            ListKind::Away => all(&self.away),
        }
    }
}

/// An entry by its id.
fn entry_of<'a, T>(list: &'a List<T>, id: &str) -> Option<&'a Entry<T>> {
    /// Of a list as short as most are the ids are compared sooner than one is hashed.
    const SHORT: usize = 8;
    if list.len() > SHORT { list.get(id) } else { list.iter().find(|(known, _)| *known == id).map(|(_, entry)| entry) }
}

fn head_of<T>(entry: &Entry<T>) -> EntryHead<'_> {
    EntryHead { id: &entry.id, place: &entry.id_place, name: &entry.name, only: &entry.only }
}

/// Which front matter a thing stands in.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Home {
    /// `shop.yaml`.
    Shop,
    /// `machine.yaml` of the machine at hand.
    Machine,
    /// The front matter of this procedure of the machine at hand.
    Procedure(String),
}

/// A thing of a machine's world: list, home and id name it without doubt.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ThingRef {
    /// Its list.
    pub kind: ListKind,
    /// Where it stands.
    pub home: Home,
    /// Its id.
    pub id: String,
}

/// From where ids are looked up: a procedure, then its machine, then the shop.
#[derive(Clone, Copy, Debug)]
pub struct Scope<'a> {
    /// The shop's lists.
    pub shop: &'a Lists,
    /// The machine, where there is one.
    pub machine: Option<&'a Machine>,
    /// The procedure, where there is one.
    pub procedure: Option<&'a Procedure>,
}

impl<'a> Scope<'a> {
    /// The lists from the inside out, with their homes.
    pub fn homes(self) -> impl Iterator<Item = (Home, &'a Lists)> {
        let procedure = self.procedure.map(|p| (Home::Procedure(p.id.clone()), &p.lists));
        let machine = self.machine.map(|m| (Home::Machine, &m.lists));
        procedure.into_iter().chain(machine).chain(std::iter::once((Home::Shop, self.shop)))
    }

    /// The lists from the inside out.
    pub fn lists(self) -> impl Iterator<Item = &'a Lists> {
        let (procedure, machine) = (self.procedure.map(|p| &p.lists), self.machine.map(|m| &m.lists));
        procedure.into_iter().chain(machine).chain(std::iter::once(self.shop))
    }

    /// Whether a list that could not be read might hold what is looked for.
    #[must_use]
    pub fn may_be_lost(self, kinds: &[ListKind]) -> bool {
        self.lists().any(|lists| kinds.iter().any(|kind| lists.holes.contains(kind)))
    }

    /// The title of another procedure of the same machine that has this id in one of these lists, and where.
    #[must_use]
    pub fn in_another_procedure(self, kinds: &[ListKind], id: &str) -> Option<(&'a str, Place)> {
        self.machine?.procedures.iter().find_map(|procedure| {
            let head = kinds.iter().find_map(|kind| procedure.lists.head(*kind, id))?;
            Some((procedure.title.as_str(), head.place.clone()))
        })
    }

    /// The thing of this id in this list.
    #[must_use]
    pub fn find(self, kind: ListKind, id: &str) -> Option<ThingRef> {
        let holds = |lists: &Lists| lists.head(kind, id).is_some();
        let home = match (self.procedure, self.machine) {
            (Some(procedure), _) if holds(&procedure.lists) => Home::Procedure(procedure.id.clone()),
            (_, Some(machine)) if holds(&machine.lists) => Home::Machine,
            _ if holds(self.shop) => Home::Shop,
            _ => return None,
        };
        Some(ThingRef { kind, home, id: id.to_owned() })
    }

    /// The thing of this id in this list, of whichever procedure of the machine.
    #[must_use]
    pub fn find_anywhere(self, kind: ListKind, id: &str) -> Option<ThingRef> {
        let of_procedure = |procedure: &Procedure| {
            procedure.lists.head(kind, id).map(|_| ThingRef { kind, home: Home::Procedure(procedure.id.clone()), id: id.to_owned() })
        };
        self.find(kind, id).or_else(|| self.machine?.procedures.iter().find_map(of_procedure))
    }

    /// The lists a thing stands in. A thing of another procedure of the same machine is found too.
    #[must_use]
    pub fn lists_of(self, thing: &ThingRef) -> Option<&'a Lists> {
        match &thing.home {
            Home::Shop => Some(self.shop),
            Home::Machine => self.machine.map(|m| &m.lists),
            Home::Procedure(id) => match self.procedure {
                Some(procedure) if procedure.id == *id => Some(&procedure.lists),
                _ => self.machine.and_then(|m| m.procedure(id)).map(|p| &p.lists),
            },
        }
    }

    /// The head of a thing.
    #[must_use]
    pub fn head(self, thing: &ThingRef) -> Option<EntryHead<'a>> {
        self.lists_of(thing).and_then(|lists| lists.head(thing.kind, &thing.id))
    }

    /// Looks an id up in one list, through a getter of that list: `scope.entry(|l| &l.tools, "gauge")`.
    pub fn entry<T: 'a>(self, list: impl Fn(&'a Lists) -> &'a List<T>, id: &str) -> Option<&'a Entry<T>> {
        self.lists().find_map(|lists| entry_of(list(lists), id))
    }

    /// The entry of a thing, through a getter of its list.
    pub fn thing<T: 'a>(self, list: impl Fn(&'a Lists) -> &'a List<T>, thing: &ThingRef) -> Option<&'a Entry<T>> {
        self.lists_of(thing).and_then(|lists| entry_of(list(lists), &thing.id))
    }
}
