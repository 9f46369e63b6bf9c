//! What must be out of a part before it leaves for a vendor.

use super::Context;
use super::heat_work::{is_soft, own_limit, sits_in};
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Away, Combination, Entry, ListKind, Lists, ThingRef, Verb};
use crate::quantity::Dimension;
use crate::trade::fit::BEARING_LIMIT_C;
use crate::trade::plastic::is_plastic;
use crate::trade::seal::continuous_limit;

/// A part goes to a vendor with soft parts in it.
pub(super) static SOFT_PART_SENT_AWAY: Rule = Rule {
    name: "soft-part-sent-away",
    severity: Severity::Error,
    summary: "A part is sent away with a seal, bearing or plastic part still in it.",
    explanation: Explanation {
        finds: "send: of a part that may be baked hotter (limit: max 150 °C) than a seal, O-ring, gasket, bearing or plastic part in it (in:) stands, or whose because: tells of blasting, coating, painting, plating, welding or a bath, while that is fitted.",
        matters: "The oven hardens the rubber and dries the grease; the grit stays in the bearing. Part and work are paid for twice.",
        may_be_wrong: "Where the vendor takes it out: write remove: all the same, at the bench it costs a minute. A part that stands the oven can say so: limit: max 180 °C.",
        example: "away: {housing: {because: powder coating, limit: max 200 °C, …}}\n[Seal in](fit:drum-seal) … [housing to the coater](send:housing)",
        instead: "[Take the seal out](remove:drum-seal) … [housing to the coater](send:housing)",
    },
};

/// Work that nothing soft and nothing that rolls comes through whole.
const HARSH: [&str; 30] = [
    "blast", "blasted", "blasting", "bead-blasting", "sandblasting", "shot-blasting", "peening", "coat", "coated", "coating", "powder-coating", "paint",
    "painted", "painting", "plating", "plated", "bore-plating", "anodising", "anodised", "galvanising", "chroming", "welding", "welded", "brazing",
    "baking", "baked", "hot-dip", "acid bath", "caustic bath", "stripping",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, sent) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Send) {
            left_in(walk, at, sent, findings);
        }
    });
}

fn left_in(walk: &Walk<'_>, at: usize, sent: &Moment<'_>, findings: &mut Vec<Finding>) {
    let scope = walk.scope(sent.procedure);
    let Some(entry) = sent.act.thing().and_then(|thing| scope.thing(|lists| &lists.away, thing)) else { return };
    let Some(treatment) = Treatment::of(entry, &walk.combination) else { return };
    for (home, lists) in scope.homes() {
        for (kind, id) in sits_in(lists, &entry.id, &walk.combination) {
            let thing = ThingRef { kind, home: home.clone(), id: id.to_owned() };
            let (state, since) = walk.state_before(&thing, at);
            let Some(fitted) = since.and_then(|since| walk.moments.get(since)).filter(|_| state.is_in_place()) else { continue };
            let Some(why) = treatment.harms(lists, &thing, &walk.combination).filter(|_| !walk.machine.may_mean(id)) else { continue };
            let name = lists.head(kind, id).map_or(id, |head| head.name);
            findings.push(
                Finding::new(&SOFT_PART_SENT_AWAY, sent.act.place.clone(), format!("{name} is still in the part that is sent away"))
                    .label(format!("{name} goes with it"))
                    .related(fitted.act.place.clone(), format!("{name} goes in: {}", fitted.words()))
                    .figure(why)
                    .fix(format!("take it out before the part leaves (remove:{id}), and put it in when the part is back"))
                    .about(id.to_owned()),
            );
        }
    }
}

/// What a vendor does to a part.
struct Treatment<'a> {
    harsh: Option<&'a str>,
    hottest: Option<f64>,
}

impl<'a> Treatment<'a> {
    fn of(entry: &'a Entry<Away>, variant: &Combination) -> Option<Self> {
        let because = entry.what.because.as_deref().unwrap_or("");
        let words = Words::of(because);
        let harsh = words.first(&HARSH).map(|span| words.text(&span));
        let hottest = entry.limit.get(variant).filter(|limit| limit.dimension() == Dimension::Temperature).and_then(|limit| limit.low_high().1);
        (harsh.is_some() || hottest.is_some()).then_some(Self { harsh, hottest })
    }

    /// Why a thing does not come through it whole, in words.
    fn harms(&self, lists: &Lists, thing: &ThingRef, variant: &Combination) -> Option<String> {
        let rubber = || match thing.kind {
            ListKind::Seals => lists.seals.get(&thing.id)?.what.material.get(variant).map(String::as_str),
            _ => lists.parts.get(&thing.id)?.what.material.get(variant).map(String::as_str),
        };
        let (what, stands) = if thing.kind == ListKind::Bearings {
            ("a rolling bearing", Some(BEARING_LIMIT_C))
        } else if is_soft(lists, thing) {
            ("rubber or paper", rubber().and_then(continuous_limit))
        } else if rubber().is_some_and(is_plastic) {
            ("plastic", None)
        } else {
            return None;
        };
        let own = own_limit(lists, thing, variant);
        let stands = own.or(stands);
        let whose = if own.is_some() { "limit:, in its list" } else { "common practice" };
        match (self.hottest, stands, self.harsh) {
            (Some(hottest), Some(stands), _) if hottest > stands => Some(format!("it may get {hottest:.0} °C there, and stands {stands:.0} °C ({whose})")),
            (_, _, Some(harsh)) => Some(format!("‘{harsh}’: no work for {what}")),
            (Some(hottest), None, None) => Some(format!("it may get {hottest:.0} °C there, and nobody says what {what} stands")),
            _ => None,
        }
    }
}
