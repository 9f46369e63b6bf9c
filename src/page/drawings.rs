//! Which drawing belongs to which act, and how a page and a sheet show it: once a step, at the first act that asks
//! for it.

use super::drawn_once::Drawn;
use super::{drawn_acts, drawn_parts};
use super::link;
use super::markup::Markup;
use super::site::Scene;
use super::words::Arg;
use crate::manual::{Act, Combination, Step};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// A drawing with a name of its own among those of a step: `shaft.propeller-shaft`.
pub(super) type Named = (String, Rc<Drawn>);

/// What the names of drawings begin with that show which way round a part goes.
pub(super) const SIDES: &str = "sides.";

/// One way a drawing differs, and the variants it is for.
type Way = (Rc<Drawn>, Vec<usize>);

impl Scene<'_> {
    /// The drawings that belong to an act, where all that differs is known: a line for each kind of drawing.
    fn drawings(&self, act: &Act) -> Vec<Named> {
        let mut drawings = Vec::new();
        drawings.extend(drawn_parts::shafts(self, act));
        drawings.extend(drawn_parts::pack(self, act));
        drawings.extend(drawn_parts::orientation(self, act));
        drawings.extend(drawn_acts::left_hand(self, act));
        drawings.extend(drawn_acts::tightening(self, act));
        // Paper has no room for it: there the line leads to the page.
        drawings.extend(drawn_acts::loosening(self, act).filter(|_| !self.at_bench));
        drawings.extend(drawn_acts::fits(self, act));
        drawings.extend(drawn_acts::alignment(self, act));
        drawings
    }

    /// The drawings of a step on a sheet, by the act they stand at.
    pub(super) fn sheet_drawings(&self, step: &Step) -> BTreeMap<usize, Markup> {
        let Some(known) = self.known.and(&step.only) else { return BTreeMap::new() };
        let found = Scene { known: &known, ..*self }.found(step);
        found.into_iter().map(|(at, named)| (at, self.shown(step, named.into_iter().map(|n| (n, None))))).collect()
    }

    /// The drawings of a step on the procedure's page, which is for every variant: one for each way the drawing
    /// differs, with the variants it is for.
    pub(super) fn page_drawings(&self, step: &Step) -> BTreeMap<usize, Markup> {
        let variants = self.variants_of(step);
        let steps = self.procedure.map_or(&[][..], |procedure| procedure.steps.as_slice());
        let earlier: Vec<&Step> = steps.iter().take_while(|other| other.id != step.id).filter(|other| step.only.satisfies(&other.only)).collect();
        let mut ways: BTreeMap<(usize, String), Vec<Way>> = BTreeMap::new();
        let mut order: Vec<(usize, String)> = Vec::new();
        for (variant, known) in variants.iter().enumerate() {
            for (at, named) in (Scene { known, ..*self }).found(step) {
                for (name, drawing) in named {
                    // Which way round a part goes is drawn where the page has it first; a sheet has it wherever it goes in.
                    if name.starts_with(SIDES) && earlier.iter().any(|other| Scene { known, ..*self }.has(other, &name)) {
                        continue;
                    }
                    let key = (at, name);
                    if !order.contains(&key) {
                        order.push(key.clone());
                    }
                    let ways = ways.entry(key).or_default();
                    match ways.iter_mut().find(|(known, _)| *known == drawing) {
                        Some((_, of)) => of.push(variant),
                        None => ways.push((drawing, vec![variant])),
                    }
                }
            }
        }
        let mut shown: BTreeMap<usize, Markup> = BTreeMap::new();
        for key in order {
            let (at, name) = &key;
            let drawn = ways.remove(&key).unwrap_or_default().into_iter().enumerate().map(|(way, (drawing, of))| {
                let name = if way == 0 { name.clone() } else { format!("{name}.{}", way + 1) };
                ((name, drawing), only_for(&variants, &of))
            });
            let drawn = self.shown(step, drawn);
            shown.entry(*at).or_default().push(&drawn);
        }
        shown
    }

    /// Whether a step shows which way round the part of this drawing goes.
    fn has(&self, step: &Step, name: &str) -> bool {
        step.acts.iter().any(|act| drawn_parts::orientation(self, act).is_some_and(|(known, _)| known == name))
    }

    /// Each drawing of a step once, by the act that asks for it first.
    fn found(&self, step: &Step) -> BTreeMap<usize, Vec<Named>> {
        let mut seen = BTreeSet::new();
        let mut found: BTreeMap<usize, Vec<Named>> = BTreeMap::new();
        for (at, act) in step.acts.iter().enumerate() {
            let head = act.thing().and_then(|thing| self.scope().head(thing));
            if head.is_some_and(|head| !head.only.agrees_with(self.known)) {
                continue;
            }
            for named in self.drawings(act) {
                if seen.insert(named.0.clone()) {
                    found.entry(at).or_default().push(named);
                }
            }
        }
        found
    }

    /// What can be known of a machine in this step: what the procedure's sheets know.
    fn variants_of(&self, step: &Step) -> Vec<Combination> {
        let index = self.procedure.and_then(|procedure| self.machine.procedures.iter().position(|p| p.id == procedure.id));
        let sheets = index.and_then(|index| self.site.sheets.get(self.machine_index)?.get(index));
        let known = sheets.into_iter().flat_map(|sheets| &sheets.all);
        known.filter_map(|(_, combination)| combination.and(&step.only)).map(Cow::into_owned).collect()
    }

    fn shown(&self, step: &Step, drawings: impl Iterator<Item = (Named, Option<String>)>) -> Markup {
        let mut out = Markup::default();
        for ((name, drawing), only) in drawings {
            let id = format!("{}.drawing.{}", link::anchor_part(&step.id), link::anchor_part(&name));
            out.push_tag("<figure class=\"drawn\">\n");
            // The writer escapes all text.
            out.push(&Markup::rendered(drawing.svg(&id)));
            // On paper a drawing stands beside its line, which says what it is about.
            if !self.at_bench {
                out.push_tag("<figcaption>");
                out.push_text(drawing.title());
                if let Some(only) = only {
                    out.push_tag(" <strong class=\"only\">");
                    out.push_text(&self.say("only", &[("variant", Arg::Text(&only))]));
                    out.push_tag("</strong>");
                }
                out.push_tag("</figcaption>\n");
            }
            out.push_tag("</figure>\n");
        }
        out
    }
}

/// The variants a drawing is for, in the fewest values that tell them from the others; none where it is for all.
fn only_for(variants: &[Combination], of: &[usize]) -> Option<String> {
    if of.len() == variants.len() {
        return None;
    }
    let (within, without): (Vec<_>, Vec<_>) = variants.iter().enumerate().partition(|(index, _)| of.contains(index));
    let axes: BTreeSet<&String> = within.iter().flat_map(|(_, known)| known.0.keys()).collect();
    let values = |side: &[(usize, &Combination)], axis: &String| -> BTreeSet<String> {
        side.iter().filter_map(|(_, known)| known.0.get(axis).cloned()).collect()
    };
    // One axis tells them apart, or else each machine is named.
    let telling = axes.into_iter().find_map(|axis| {
        let (here, there) = (values(&within, axis), values(&without, axis));
        here.is_disjoint(&there).then(|| here.into_iter().collect::<Vec<_>>().join(", "))
    });
    let named = || within.iter().map(|(_, known)| known.0.values().cloned().collect::<Vec<_>>().join(" · ")).collect::<Vec<_>>().join(", ");
    Some(telling.unwrap_or_else(named))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known(pairs: &[(&str, &str)]) -> Combination {
        Combination(pairs.iter().map(|(a, v)| ((*a).to_owned(), (*v).to_owned())).collect())
    }

    #[test]
    fn a_drawing_is_labelled_with_the_fewest_values_that_tell() {
        let variants = [
            known(&[("serial", "early"), ("shaft", "S")]),
            known(&[("serial", "late"), ("shaft", "S")]),
            known(&[("serial", "late"), ("shaft", "L")]),
        ];
        assert_eq!(only_for(&variants, &[0, 1, 2]), None);
        assert_eq!(only_for(&variants, &[0]).as_deref(), Some("early"));
        assert_eq!(only_for(&variants, &[0, 1]).as_deref(), Some("S"));
        assert_eq!(only_for(&variants, &[0, 2]).as_deref(), Some("early · S, late · L"));
    }
}
