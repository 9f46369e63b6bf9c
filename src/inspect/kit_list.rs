//! The kit list of chosen work: what goes in and where it comes from, materials summed, wrenches with what to set, tools,
//! waits. What no kit brings has to be ordered.

use super::account::torque_accounts;
use super::drives::{by_size, drives};
use super::kit_goods::Goods;
use super::kits::kits;
use super::needed::within;
use super::needs::{Want, acts_done, needs};
use super::told_apart::{beside, told_apart};
use crate::manual::{Bead, Combination, Entry, Kit, ListKind, Machine, Manual, Material, Procedure, Scope, Step, ThingRef, Tool, Varied, Verb, Wait};
use crate::quantity::{Dimension, Exact, Quantity, Rounding, Unit};
use crate::trade::bead;

/// Everything to have for some procedures of one machine.
#[derive(Clone, Debug)]
pub struct KitList<'a> {
    /// What goes in, in the order in which it comes up.
    pub goods: Vec<GoodsRow<'a>>,
    /// What is used up.
    pub materials: Vec<MaterialRow<'a>>,
    /// What is used and kept.
    pub tools: Vec<ToolRow<'a>>,
    /// What turns the fasteners.
    pub drives: Vec<DriveRow<'a>>,
    /// What has to be waited for.
    pub waits: Vec<WaitRow<'a>>,
}

/// Something that goes in.
#[derive(Clone, Debug)]
pub struct GoodsRow<'a> {
    /// What.
    pub thing: ThingRef,
    /// Its name.
    pub name: &'a str,
    /// Its number, thread or size, as written.
    pub details: Vec<String>,
    /// In which variants this row holds, beside what is known.
    pub when: Combination,
    /// How many are in place when the work is done.
    pub count: u64,
    /// How many of them are new.
    pub new: u64,
    /// Spares on top.
    pub spare: u64,
    /// `never inspect yes`; nothing where that is not said.
    pub reuse: Option<&'a str>,
    /// Where new ones come from.
    pub comes: Comes<'a>,
    /// How many no kit brings and no stock has.
    pub to_order: u64,
    /// The procedures it goes in in.
    pub procedures: Vec<&'a Procedure>,
}

/// Where new ones come from.
#[derive(Clone, Debug, PartialEq)]
pub enum Comes<'a> {
    /// Nothing new is needed.
    NotNeeded,
    /// These kits hold it.
    Kits(Vec<&'a str>),
    /// Bought apart.
    Order,
    /// Kept in the shop.
    Stock,
    /// Nobody says.
    Unstated,
}

/// Something that is used up.
#[derive(Clone, Debug)]
pub struct MaterialRow<'a> {
    /// What.
    pub thing: ThingRef,
    /// The material.
    pub entry: &'a Entry<Material>,
    /// In which variants this row holds, beside what is known.
    pub when: Combination,
    /// How much altogether, where that is said: in the base unit of its kind.
    pub total: Option<(f64, Dimension)>,
    /// How many packs that is.
    pub packs: Option<u64>,
    /// How many packs are in hand, where the material says what a pack is.
    pub in_hand: Option<u64>,
    /// How many packs are missing.
    pub to_order: u64,
    /// The procedures that use it.
    pub procedures: Vec<&'a Procedure>,
}

/// Something that is used and kept.
#[derive(Clone, Debug)]
pub struct ToolRow<'a> {
    /// What.
    pub thing: ThingRef,
    /// The tool.
    pub entry: &'a Entry<Tool>,
    /// For a torque wrench: what it is set to.
    pub sets: Vec<WrenchSet<'a>>,
    /// The procedures that use it.
    pub procedures: Vec<&'a Procedure>,
}

/// A size of spanner, socket or key.
#[derive(Clone, Debug)]
pub struct DriveRow<'a> {
    /// As written: `13 mm hex`.
    pub size: &'a str,
    /// The fasteners it turns.
    pub fasteners: Vec<&'a str>,
    /// The procedures in which it does.
    pub procedures: Vec<&'a Procedure>,
}

/// What a wrench is set to for a fastener.
#[derive(Clone, Debug, PartialEq)]
pub struct WrenchSet<'a> {
    /// The fastener.
    pub fastener: &'a str,
    /// Which stage, where there are several.
    pub stage: Option<usize>,
    /// In which variants, beside what is known.
    pub when: Combination,
    /// The torque as written.
    pub torque: &'a str,
    /// What to set, in the unit of the wrench.
    pub set: String,
    /// Whether that is with the adapter on.
    pub with_adapter: bool,
}

/// Something that has to be waited for.
#[derive(Clone, Debug)]
pub struct WaitRow<'a> {
    /// What.
    pub thing: ThingRef,
    /// The wait.
    pub entry: &'a Entry<Wait>,
    /// Whether it needs nothing and so can be begun before the work.
    pub at_once: bool,
    /// Whether an act begins it; otherwise it is only waited for.
    pub begun: bool,
    /// The procedure that begins it, or waits for it.
    pub procedure: &'a Procedure,
    /// The step that does.
    pub step: &'a Step,
}

impl MaterialRow<'_> {
    /// How much altogether, as text, never less than is used: `1.80 L`.
    #[must_use]
    pub fn amount(&self) -> Option<String> {
        let (total, kind) = self.total?;
        let unit = (kind == Dimension::Volume && total >= 1000.0).then(|| Unit::find("L")).flatten().unwrap_or_else(|| kind.base());
        let value = Exact::from_f64(total / unit.size())?;
        // A hair left by binary fractions is no reason to go a whole step up.
        let clean = value.rounded(value.magnitude()? - 11, Rounding::Nearest);
        Some(format!("{} {}", clean.significant(3, Rounding::Up), unit.symbol()))
    }
}

/// The kit list of some procedures of a machine, for what is known of it.
#[must_use]
pub fn kit_list<'a>(manual: &'a Manual, machine: &'a Machine, procedures: &[&'a Procedure], known: &Combination) -> KitList<'a> {
    let mut maker = Maker { machine, kits: kits(manual, machine), known, uses: Vec::new(), list: KitList { goods: Vec::new(), materials: Vec::new(), tools: Vec::new(), drives: Vec::new(), waits: Vec::new() } };
    let mut goods: Vec<(ThingRef, Scope<'a>, Vec<&'a Procedure>)> = Vec::new();
    for procedure in procedures {
        let scope = manual.scope(machine, procedure);
        for need in needs(scope, procedure, known) {
            match need.want {
                Want::Goods => match goods.iter_mut().find(|(thing, ..)| *thing == need.thing) {
                    Some((.., used)) => push(used, procedure),
                    None => goods.push((need.thing, scope, vec![procedure])),
                },
                Want::Material(amount) => maker.material(scope, procedure, &need.thing, need.known, amount),
                Want::Tool => maker.tool(scope, procedure, need.thing),
                // What an earlier procedure begins is told there.
                Want::Wait { at_once, begun } if !maker.list.waits.iter().any(|row| row.thing == need.thing) => {
                    if let Some(entry) = scope.thing(|l| &l.waits, &need.thing) {
                        maker.list.waits.push(WaitRow { thing: need.thing, entry, at_once, begun, procedure, step: need.step });
                    }
                }
                Want::Wait { .. } => {}
            }
        }
        maker.worked(scope, procedure);
        maker.drives(scope, procedure);
    }
    maker.list.drives.sort_by(|a, b| by_size(a.size, b.size));
    for (thing, scope, used) in goods {
        maker.goods(scope, &thing, &used);
    }
    maker.sum_up();
    maker.list
}

struct Maker<'a, 'k> {
    machine: &'a Machine,
    kits: Vec<&'a Entry<Kit>>,
    known: &'k Combination,
    uses: Vec<Use<'a>>,
    list: KitList<'a>,
}

/// One use of a material.
struct Use<'a> {
    thing: ThingRef,
    entry: &'a Entry<Material>,
    known: Combination,
    amount: Amount<'a>,
    procedure: &'a Procedure,
}

#[derive(Clone, Copy)]
enum Amount<'a> {
    Unsaid,
    Poured(&'a Varied<Quantity>),
    Bead(&'a Bead),
}

impl<'a> Maker<'a, '_> {
    fn material(&mut self, scope: Scope<'a>, procedure: &'a Procedure, thing: &ThingRef, known: Combination, amount: Option<&'a Varied<Quantity>>) {
        if let Some(entry) = scope.thing(|l| &l.materials, thing) {
            let amount = amount.map_or(Amount::Unsaid, Amount::Poured);
            self.uses.push(Use { thing: thing.clone(), entry, known, amount, procedure });
        }
    }

    fn tool(&mut self, scope: Scope<'a>, procedure: &'a Procedure, thing: ThingRef) {
        match self.list.tools.iter_mut().find(|row| row.thing == thing) {
            Some(row) => push(&mut row.procedures, procedure),
            None => self.list.tools.extend(scope.thing(|l| &l.tools, &thing).map(|entry| ToolRow { thing, entry, sets: Vec::new(), procedures: vec![procedure] })),
        }
    }

    fn drives(&mut self, scope: Scope<'a>, procedure: &'a Procedure) {
        for drive in drives(scope, procedure, self.known) {
            match self.list.drives.iter_mut().find(|row| row.size == drive.size) {
                Some(row) => {
                    let more: Vec<&str> = drive.fasteners.into_iter().filter(|name| !row.fasteners.contains(name)).collect();
                    row.fasteners.extend(more);
                    push(&mut row.procedures, procedure);
                }
                None => self.list.drives.push(DriveRow { size: drive.size, fasteners: drive.fasteners, procedures: vec![procedure] }),
            }
        }
    }

    /// What is told by the acts themselves: what wrenches are set to, and how much a bead takes.
    fn worked(&mut self, scope: Scope<'a>, procedure: &'a Procedure) {
        for (step, _, act) in acts_done(scope, procedure, self.known) {
            let Some(known) = self.known.and(&step.only) else { continue };
            for thing in &act.things {
                match (thing.kind, act.verb) {
                    (ListKind::Fasteners, Some(Verb::Torque)) => self.settings(scope, thing, &known),
                    (ListKind::Beads, Some(Verb::Apply)) => {
                        let Some(entry) = scope.thing(|l| &l.beads, thing) else { continue };
                        for id in within(&entry.what.of, &known) {
                            let Some(material) = scope.find(ListKind::Materials, id) else { continue };
                            let Some(of) = scope.thing(|l| &l.materials, &material) else { continue };
                            self.uses.push(Use { thing: material, entry: of, known: known.clone().into_owned(), amount: Amount::Bead(&entry.what), procedure });
                        }
                    }
                    _ => {}
                }
            }
        }
    }

    fn settings(&mut self, scope: Scope<'a>, thing: &ThingRef, known: &Combination) {
        let Some(entry) = scope.thing(|l| &l.fasteners, thing) else { return };
        let Some(known) = known.and(&entry.only) else { return };
        for account in torque_accounts(scope, entry, &known) {
            let several = account.case.value.stages().len() > 1;
            for setting in &account.settings {
                let when = beside(&entry.only.and(&account.case.when).unwrap_or_default(), self.known);
                // A torque that the author wrote in a second unit, too, is set as it reads on the scale.
                let on_scale = |shown: &str| setting.torque.written().strip_prefix(shown).is_some_and(|rest| rest.is_empty() || rest.starts_with(" ("));
                let shown = setting.shown().filter(|shown| setting.corrected || !on_scale(shown.written()));
                let set = shown.map_or_else(|| setting.torque.written().to_owned(), |shown| shown.written().to_owned());
                let row = WrenchSet { fastener: &entry.name, stage: several.then_some(setting.stage), when, torque: setting.torque.written(), set, with_adapter: setting.corrected };
                if let Some(tool) = self.list.tools.iter_mut().find(|tool| std::ptr::eq(tool.entry, setting.tool))
                    && !tool.sets.contains(&row)
                {
                    tool.sets.push(row);
                }
            }
        }
    }

    fn goods(&mut self, scope: Scope<'a>, thing: &ThingRef, used: &[&'a Procedure]) {
        let Some(goods) = Goods::of(scope, thing) else { return };
        let kits: Vec<(&'a Entry<Kit>, u64)> =
            self.kits.iter().flat_map(|kit| kit.what.holds.iter().filter(|(held, _)| held.value == thing.id).map(move |(_, count)| (*kit, *count))).collect();
        let conditions = goods.conditions().into_iter().chain(kits.iter().map(|(kit, _)| &kit.only));
        let rows = told_apart(self.machine, self.known, conditions, |full| goods.row(&kits, full));
        for (when, row) in rows {
            self.list.goods.push(GoodsRow {
                thing: thing.clone(),
                name: goods.name,
                details: row.details,
                when,
                count: row.count,
                new: row.new,
                spare: row.spare,
                reuse: row.reuse,
                comes: row.comes,
                to_order: row.to_order,
                procedures: used.to_vec(),
            });
        }
    }

    fn sum_up(&mut self) {
        let mut things: Vec<ThingRef> = Vec::new();
        for one in &self.uses {
            if !things.contains(&one.thing) {
                things.push(one.thing.clone());
            }
        }
        for thing in things {
            let uses: Vec<&Use<'a>> = self.uses.iter().filter(|one| one.thing == thing).collect();
            let Some(first) = uses.first() else { continue };
            let entry = first.entry;
            let mut procedures = Vec::new();
            uses.iter().for_each(|one| push(&mut procedures, one.procedure));
            let rows = told_apart(self.machine, self.known, uses.iter().flat_map(|one| one.conditions()), |full| Some(total(&uses, full)));
            for (when, total) in rows {
                let (packs, in_hand) = packs(&entry.what, total);
                let to_order = packs.zip(in_hand).map_or(0, |(packs, in_hand)| packs.saturating_sub(in_hand));
                self.list.materials.push(MaterialRow { thing: thing.clone(), entry, when, total, packs, in_hand, to_order, procedures: procedures.clone() });
            }
        }
    }
}

impl<'a> Use<'a> {
    fn conditions(&self) -> Vec<&Combination> {
        let of_amount: Vec<&'a Combination> = match self.amount {
            Amount::Unsaid => Vec::new(),
            Amount::Poured(amount) => amount.cases.iter().map(|case| &case.when).collect(),
            Amount::Bead(bead) => bead.diameter.cases.iter().chain(&bead.path.cases).map(|case| &case.when).collect(),
        };
        of_amount.into_iter().chain([&self.known]).collect()
    }

    /// How much, at most, in the base unit of its kind.
    fn most(&self, full: &Combination) -> Option<(f64, Dimension)> {
        match self.amount {
            Amount::Unsaid => None,
            Amount::Poured(amount) => {
                let amount = amount.get(full)?;
                let (low, high) = amount.low_high();
                Some((high.or(low)?, amount.dimension()))
            }
            Amount::Bead(bead) => {
                let volume = bead::volume_ml(bead.diameter.get(full)?.nominal()?, bead.path.get(full)?.nominal()?)?;
                Some((volume, Dimension::Volume))
            }
        }
    }
}

/// The sum of what is used where this is known; what is of another kind than the first can't be summed.
fn total(uses: &[&Use<'_>], full: &Combination) -> Option<(f64, Dimension)> {
    let amounts = uses.iter().filter(|one| full.satisfies(&one.known)).filter_map(|one| one.most(full));
    amounts.fold(None, |sum, (amount, kind)| match sum {
        None => Some((amount, kind)),
        Some((so_far, first)) if first == kind => Some((so_far + amount, first)),
        other => other,
    })
}

/// Packs needed and packs in hand (one where the material does not say).
fn packs(material: &Material, total: Option<(f64, Dimension)>) -> (Option<u64>, Option<u64>) {
    let Some(pack) = &material.pack else { return (None, material.packs) };
    let in_hand = Some(material.packs.unwrap_or(1));
    let each = pack.nominal().or(pack.low_high().0).filter(|each| *each > 0.0);
    let needed = total.filter(|(_, kind)| *kind == pack.dimension()).zip(each);
    let needed = needed.and_then(|((total, _), each)| format!("{:.0}", (total / each - 1e-6).ceil().max(1.0)).parse().ok());
    (needed, in_hand)
}

fn push<'a>(list: &mut Vec<&'a Procedure>, procedure: &'a Procedure) {
    if !list.iter().any(|known| known.id == procedure.id) {
        list.push(procedure);
    }
}
