//! What stands behind a torque: the thread condition it is reckoned with, the preload it makes, its share of the proof
//! load, the wrench and what to set on it. Plausible or not; never correct.

use super::torque::{Reckoned, last_torque, reckoned};
use crate::manual::{Case, Combination, Entry, Fastener, Scope, Setting, Torque, ends, middle, settings};
use crate::quantity::Quantity;
use crate::trade::friction::ThreadCondition;
use crate::trade::screening::{ScreenedJoint, Spread, Standing};

/// What stands behind one torque of a fastener.
#[derive(Clone, Debug)]
pub struct TorqueAccount<'a> {
    /// The torque and when it holds.
    pub case: &'a Case<Torque>,
    /// Its screening; none for a torque by hand, and where thread, class or role give nothing to reckon with.
    pub screening: Option<Screening<'a>>,
    /// The wrench for each stage that is a torque.
    pub settings: Vec<Setting<'a>>,
}

/// A torque against thread, class and condition: F = T/(K·d), common practice.
#[derive(Clone, Debug)]
pub struct Screening<'a> {
    /// The torque that is screened: the last stage that is one.
    pub torque: &'a Quantity,
    /// The joint.
    pub joint: ScreenedJoint,
    /// The property class reckoned with.
    pub class: &'static str,
    /// Whether nobody wrote the class.
    pub class_assumed: bool,
    /// The thread condition reckoned with.
    pub condition: ThreadCondition,
    /// Whether nobody wrote the condition.
    pub condition_assumed: bool,
    /// Preload, N: from the low end of the torque with the roughest thread to the high end with the slipperiest.
    pub preload_n: Spread,
    /// Share of the proof load, likewise.
    pub share: Spread,
    /// Where it stands against what is usual for the role; none for roles that are not screened.
    pub standing: Option<Standing>,
}

/// The accounts of a fastener's torques that can hold where `known` is known. A case that holds in any event is the last.
#[must_use]
pub fn torque_accounts<'a>(scope: Scope<'a>, entry: &'a Entry<Fastener>, known: &Combination) -> Vec<TorqueAccount<'a>> {
    let mut accounts = Vec::new();
    for case in &entry.what.torque.cases {
        let Some(when) = known.and(&case.when) else { continue };
        accounts.push(TorqueAccount {
            case,
            screening: screening(&entry.what, &case.value, &when),
            settings: settings(scope, &entry.what, &case.value, &when),
        });
        if known.satisfies(&case.when) {
            break;
        }
    }
    accounts
}

fn screening<'a>(fastener: &Fastener, torque: &'a Torque, when: &Combination) -> Option<Screening<'a>> {
    let stage = last_torque(torque)?;
    let Reckoned { joint, class, class_assumed, condition, condition_assumed } = reckoned(fastener, when)?;
    let [low, high] = ends(stage)?;
    let middle = middle(stage)?;
    let over = |of: &dyn Fn(f64) -> Option<Spread>| Some(Spread { low: of(low)?.low, mid: of(middle)?.mid, high: of(high)?.high });
    Some(Screening {
        torque: stage,
        joint,
        class: class.name(),
        class_assumed,
        condition,
        condition_assumed,
        preload_n: over(&|torque| joint.preload_n(torque))?,
        share: over(&|torque| joint.share(torque))?,
        standing: joint.standing(middle),
    })
}
