//! How much: beads against their tube, fluids against what is in hand, oil against its ratio.

use super::measures::short as digits;
use super::walk::{Moment, Walk, in_every};
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Bead, Combination, Entry, Fill, ListKind, Machine, Material, Procedure, Scope, ThingRef, Verb};
use crate::quantity::{Dimension, Quantity};
use crate::trade::{bead, mix};
use std::collections::{BTreeMap, BTreeSet};

/// A bead takes more than there is.
pub(super) static BEAD_AMOUNT: Rule = Rule {
    name: "bead-amount",
    severity: Severity::Note,
    summary: "A bead takes more sealant than is in hand.",
    explanation: Explanation {
        finds: "Beads whose volume, π/4 × diameter² × path, is more than the packs in hand hold (pack: times packs:, one where not given) of their material.",
        matters: "The tube is empty three quarters round, and the first quarter has begun to set.",
        may_be_wrong: "Where there is more in hand: write how many packs, packs: 2.",
        example: "case-bead: {diameter: 2 mm, path: 820 mm}   with pack: 2 mL",
        instead: "joint-sealant: {pack: 2 mL, packs: 2}",
    },
};

/// A job takes more of a material than there is.
pub(super) static CONSUMABLE_SHORT: Rule = Rule {
    name: "consumable-short",
    severity: Severity::Warning,
    summary: "A job takes more of a material than is in hand.",
    explanation: Explanation {
        finds: "Materials with pack: of which the fills and beads of one job (a procedure and all that must come before it, after:), each as often as it is poured or laid, take together more than the packs in hand hold (pack: times packs:, one where not given). A single bead that takes too much is told by itself.",
        matters: "The oil stands below the mark on Sunday afternoon, and the shop is shut.",
        may_be_wrong: "Where there is more in hand: write how many packs, packs: 2.",
        example: "gear-oil: {pack: 1 L}   and fills: {case: {of: gear-oil, amount: 1.8 L}}",
        instead: "gear-oil: {pack: 1 L, packs: 2}",
    },
};

/// Oil and fuel are not in their ratio.
pub(super) static MIX_RATIO: Rule = Rule {
    name: "mix-ratio",
    severity: Severity::Error,
    summary: "Oil and fuel of a mixture are not in the ratio that is written.",
    explanation: Explanation {
        finds: "fills: whose oil: differs by more than 2 % from amount: divided by ratio: ('50:1' is fifty parts of fuel to one of oil).",
        matters: "Half the oil seizes the piston, twice the oil fouls the plug.",
        may_be_wrong: "Where the ratio counts the mixture and not the fuel: write it as fuel to oil.",
        example: "tank: {of: petrol, amount: 5 L, ratio: '50:1', oil: 200 mL}",
        instead: "tank: {of: petrol, amount: 5 L, ratio: '50:1', oil: 100 mL}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        findings.extend(lists.beads.values().filter_map(|bead| too_long(scope, bead)));
        findings.extend(lists.fills.values().filter_map(mixed));
    }
    in_every(&context.walks, findings, short_of);
}

/// What is in hand of a material.
struct InHand {
    /// mL in one pack.
    each: f64,
    /// mL in all of them.
    all: f64,
    words: String,
}

impl InHand {
    /// How many packs an amount takes, mL.
    fn packs_for(&self, needed: f64) -> f64 {
        (needed / self.each - 1e-6).ceil()
    }
}

fn in_hand(material: &Material) -> Option<InHand> {
    let pack = material.pack.as_ref().filter(|pack| pack.dimension() == Dimension::Volume)?;
    let each = pack.nominal().or_else(|| pack.low_high().0).filter(|each| *each > 0.0)?;
    let packs = material.packs.unwrap_or(1);
    // Nobody has more packs than a double can count.
    #[expect(clippy::cast_precision_loss, reason = "a number of packs")]
    let all = each * packs as f64;
    let words = if packs == 1 { format!("one pack of {} in hand", pack.written()) } else { format!("{packs} packs of {} in hand", pack.written()) };
    Some(InHand { each, all, words })
}

/// A bead's volume in a variant, mL.
fn volume(bead: &Bead, variant: &Combination) -> Option<f64> {
    bead::volume_ml(bead.diameter.get(variant)?.nominal()?, bead.path.get(variant)?.nominal()?)
}

fn too_long(scope: Scope<'_>, bead: &Entry<Bead>) -> Option<Finding> {
    let cases = bead.what.path.cases.iter().chain(&bead.what.diameter.cases);
    cases.into_iter().find_map(|case| {
        let (needed, material) = (volume(&bead.what, &case.when)?, scope.entry(|lists| &lists.materials, bead.what.of.get(&case.when)?)?);
        let hand = in_hand(&material.what)?;
        (needed > hand.all).then(|| {
            Finding::new(&BEAD_AMOUNT, case.place.clone(), format!("{} takes {}, and there are {} of {}", bead.name, millilitres(needed), millilitres(hand.all), material.name))
                .label("the tube is too small")
                .related(material.id_place.clone(), hand.words.clone())
                .figure(figure(&bead.what, &case.when, needed))
                .fix(format!("have {0:.0} packs in hand, and write packs: {0:.0} at the material; or correct diameter or path", hand.packs_for(needed)))
                .about(bead.id.clone())
        })
    })
}

fn figure(bead: &Bead, variant: &Combination, volume: f64) -> String {
    let written = |value: Option<&Quantity>| value.map_or("", Quantity::written).to_owned();
    format!("π/4 × ({})² × {} = {}", written(bead.diameter.get(variant)), written(bead.path.get(variant)), millilitres(volume))
}

/// An amount in millilitres, or in litres from one on.
fn millilitres(amount: f64) -> String {
    if amount >= 1000.0 {
        format!("{} L", digits((amount / 10.0).round() / 100.0))
    } else if amount >= 10.0 {
        format!("{amount:.0} mL")
    } else {
        format!("{amount:.1} mL")
    }
}

fn mixed(entry: &Entry<Fill>) -> Option<Finding> {
    entry.what.oil.cases.iter().find_map(|oil| {
        let (fuel, ratio) = (entry.what.amount.get(&oil.when)?, entry.what.ratio.get(&oil.when)?);
        let (poured, fuel_ml, parts) = (oil.value.nominal()?, fuel.nominal()?, ratio.nominal()?);
        let wanted = mix::oil_ml(fuel_ml, parts, 1.0)?;
        ((poured / wanted - 1.0).abs() > 0.02).then(|| {
            let real = mix::fuel_parts(fuel_ml, poured).map_or_else(String::new, |parts| format!("; {} is {}:1", oil.value.written(), digits((parts * 10.0).round() / 10.0)));
            Finding::new(&MIX_RATIO, oil.place.clone(), format!("{} of oil is not {} of {}", oil.value.written(), ratio.written(), fuel.written()))
                .label(format!("{} by the ratio", millilitres(wanted)))
                .figure(format!("{} / {} = {}{real}", fuel.written(), digits(parts), millilitres(wanted)))
                .fix("look the ratio up again, and correct it or the oil")
                .about(format!("{}.oil", entry.id))
        })
    })
}

/// What a job takes of a material.
struct Taken<'m> {
    material: &'m Entry<Material>,
    /// Each fill and bead, with how much, mL.
    parts: Vec<(&'m str, f64)>,
    /// Whether a fill is among them: a bead alone is told by itself.
    poured: bool,
    last: Place,
}

fn short_of(walk: &Walk<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<ThingRef> = BTreeSet::new();
    let takes = |moment: &&Moment<'_>| matches!((moment.verb, moment.act.thing().map(|thing| thing.kind)), (Verb::Fill, Some(ListKind::Fills)) | (Verb::Apply, Some(ListKind::Beads)));
    let taking: Vec<&Moment<'_>> = walk.moments.iter().filter(takes).collect();
    for last in &walk.machine.procedures {
        for (of, sum) in taken(walk, &taking, &job(walk.machine, last)) {
            if let Some(finding) = short(&sum).filter(|_| !told.contains(&of)) {
                told.insert(of);
                findings.push(finding);
            }
        }
    }
}

/// A procedure and all that must be complete before it: what is done in one build. Procedures that don't name each
/// other may be jobs of their own, years apart.
fn job<'m>(machine: &'m Machine, last: &'m Procedure) -> BTreeSet<&'m str> {
    let mut ids = BTreeSet::from([last.id.as_str()]);
    let mut behind = vec![last];
    while let Some(procedure) = behind.pop() {
        for before in procedure.after.iter().filter_map(|after| machine.procedure(&after.value)) {
            if ids.insert(&before.id) {
                behind.push(before);
            }
        }
    }
    ids
}

fn taken<'m>(walk: &Walk<'m>, taking: &[&Moment<'m>], job: &BTreeSet<&str>) -> BTreeMap<ThingRef, Taken<'m>> {
    let variant = &walk.combination;
    let mut taken: BTreeMap<ThingRef, Taken<'m>> = BTreeMap::new();
    for moment in taking.iter().filter(|moment| job.contains(moment.procedure.id.as_str())) {
        let scope = walk.scope(moment.procedure);
        let Some(thing) = moment.act.thing() else { continue };
        let (of, name, amount) = match (moment.verb, thing.kind) {
            (Verb::Fill, ListKind::Fills) => {
                let Some(fill) = scope.thing(|lists| &lists.fills, thing) else { continue };
                let amount = fill.what.amount.get(variant).and_then(|amount| amount.nominal().or_else(|| amount.low_high().1));
                (fill.what.of.get(variant), fill.name.as_str(), amount)
            }
            (Verb::Apply, ListKind::Beads) => {
                let Some(bead) = scope.thing(|lists| &lists.beads, thing) else { continue };
                (bead.what.of.get(variant), bead.name.as_str(), volume(&bead.what, variant))
            }
            _ => continue,
        };
        let known = of.and_then(|of| Some((scope.find(ListKind::Materials, of)?, scope.entry(|lists| &lists.materials, of)?)));
        if let (Some((of, material)), Some(amount)) = (known, amount) {
            let sum = taken.entry(of).or_insert_with(|| Taken { material, parts: Vec::new(), poured: false, last: moment.act.place.clone() });
            sum.parts.push((name, amount));
            sum.poured |= moment.verb == Verb::Fill;
            sum.last = moment.act.place.clone();
        }
    }
    taken
}

fn short(sum: &Taken<'_>) -> Option<Finding> {
    let hand = in_hand(&sum.material.what)?;
    let needed: f64 = sum.parts.iter().map(|(_, amount)| amount).sum();
    // A hair for what a conversion rounds.
    if needed <= hand.all * 1.000_001 || (!sum.poured && sum.parts.iter().any(|(_, amount)| *amount > hand.all)) {
        return None;
    }
    let list: Vec<String> = sum.parts.iter().map(|(name, amount)| format!("{name} {}", millilitres(*amount))).collect();
    let material = sum.material;
    Some(
        Finding::new(&CONSUMABLE_SHORT, sum.last.clone(), format!("{} of {} are needed, and there are {}", millilitres(needed), material.name, millilitres(hand.all)))
            .label(format!("{} short here", millilitres(needed - hand.all)))
            .related(material.id_place.clone(), hand.words.clone())
            .figure(list.join(" + "))
            .fix(format!("have {0:.0} packs in hand, and write packs: {0:.0} at the material", hand.packs_for(needed)))
            .about(material.id.clone()),
    )
}
