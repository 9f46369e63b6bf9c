//! Torque and preload by the short form, and how far the preload scatters.

use super::{
    Calculation, Figure, Force, Input, Number, Refusal, Round, SMALL, Take, Torque, Word, Worked, class, conditions, of, possible, roles, thread,
};
use crate::reckon::given::Given;
use crate::trade::friction::{COEFFICIENTS, NUT_FACTORS, Published, ThreadCondition};
use crate::trade::preload;
use crate::trade::property::PropertyClass;
use crate::trade::scatter::{self, METHODS, TorqueLimits};
use crate::trade::screening::{Role, ScreenedJoint, Standing};

const SHORT_FORM: &str = "short form: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-27; bands of K by condition: common practice, holding \
    NASA TM-106943, IFI N-12 and MIL-HDBK-60";

const fn condition() -> Input {
    Input::must("threads", "", "what is on the threads", Word(conditions), "oiled").assume("dry")
}

const fn factor() -> Input {
    Input::must("nut-factor", "K", "nut factor: how much torque friction eats; otherwise that of the threads' condition", Number, "0.18").may()
}

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "torque",
        about: "the torque that is usual for a thread, class, condition and role",
        inputs: &[
            thread(),
            class().may(),
            condition(),
            Input::must("role", "", "what the fastener does", Word(roles), "clamp").assume("clamp"),
            Input::must("share", "u", "share of the proof load instead of the role's usual one", Number, "75 %").may(),
        ],
        formula: &["T = K·d·F   F = u·As·Sp"],
        letters: &[
            ("T", "torque"), ("K", "nut factor"), ("d", "nominal diameter"), ("F", "preload"), ("u", "share of the proof load"),
            ("As", "stress area"), ("Sp", "proof stress"),
        ],
        source: SHORT_FORM,
        caution: "This screens a value that has a source; it is none. Publish the source's torque, never this one.",
        example: &["--thread", "3/8-16 UNC", "--class", "SAE 5", "--share", "75 %"],
        turns: None,
        work: usual,
    },
    Calculation {
        name: "screen",
        about: "a torque against what is usual: preload and share of proof",
        inputs: &[
            of("torque", "T", "the torque", &[Torque], "24 N·m").take(Take::Limits),
            thread(),
            class().may(),
            condition(),
            Input::must("role", "", "what the fastener does", Word(roles), "clamp").assume("clamp"),
        ],
        formula: &["F = T/(K·d)   u = F/(As·Sp)"],
        letters: &[("F", "preload"), ("K", "nut factor"), ("d", "nominal diameter"), ("u", "share of the proof load"), ("As", "stress area"), ("Sp", "proof stress")],
        source: SHORT_FORM,
        caution: "It tells an implausible torque, never a correct one.",
        example: &["--torque", "24 N·m", "--thread", "M8x1.25", "--class", "8.8"],
        turns: None,
        work: screen,
    },
    Calculation {
        name: "preload",
        about: "preload of a torque by the nut factor; turned round, the torque or the nut factor",
        inputs: &[
            of("torque", "T", "the torque", &[Torque], "450 lbf·in").take(Take::Limits).sought(1e-4, 1e5),
            thread(),
            Input::must("nut-factor", "K", "nut factor", Number, "0.20").sought(0.01, 10.0),
            of("preload", "F", "the preload, where torque or nut factor is left out", &[Force], "4721 lbf").result().take(Take::Limits),
        ],
        formula: &["F = T/(K·d)"],
        letters: &[("d", "nominal diameter")],
        source: "Shigley's Mechanical Engineering Design, 9th ed., eq. 8-27",
        caution: "K is seldom known to better than a quarter; a measured preload tells it.",
        example: &["--torque", "450 lbf·in", "--thread", "3/8-24 UNF", "--preload", "4720.63 lbf"],
        turns: Some("preload"),
        work: by_factor,
    },
    Calculation {
        name: "nut-factors",
        about: "nut factors and coefficients of friction as published, and the band of a condition",
        inputs: &[condition()],
        formula: &["K = T/(d·F)"],
        letters: &[("K", "nut factor"), ("T", "torque"), ("d", "nominal diameter"), ("F", "preload")],
        source: "NASA TM-106943; Shigley, 9th ed., Table 8-15; IFI Fastener Standards, 5th ed., N-12 (as reprinted); MIL-HDBK-60 (1990), App. B, Table II; bands: common practice",
        caution: "The maker's own factor for a lubricant or locker goes before all of these.",
        example: &["--threads", "oiled"],
        turns: None,
        work: factors,
    },
    Calculation {
        name: "scatter",
        about: "how far the preload of a torque scatters, from least to greatest",
        inputs: &[
            of("torque", "T", "the torque with its tolerance, without running torque", &[Torque], "35 ± 1 lbf·ft").take(Take::Span),
            thread(),
            factor(),
            condition(),
            Input::must("uncertainty", "Γ", "uncertainty of the way of tightening (torque wrench: 25 % lubricated, 35 % dry)", Number, "25 %").assume("35 %"),
            of("running", "Tp", "running torque of a self-locking nut", &[Torque], "2 N·m").assume("0 N·m"),
        ],
        formula: &["Fmax = (1 + Γ)·Tmax/(K·d)   Fmin = (1 − Γ)·(Tmin − Tp)/(K·d)"],
        letters: &[("Fmax", "greatest preload"), ("Fmin", "least preload"), ("d", "nominal diameter"), ("K", "nut factor")],
        source: "NSTS 08307 Rev. A, 3.3 and 3.4",
        caution: "Heat, settling and time take more off the least preload.",
        example: &["--torque", "35 ± 1 lbf·ft", "--thread", "3/8-24 UNF", "--nut-factor", "0.15", "--uncertainty", "25 %"],
        turns: None,
        work: limits,
    },
    Calculation {
        name: "tightening-factor",
        about: "the least preload where the greatest is known",
        inputs: &[
            of("greatest", "Fmax", "greatest preload", &[Force], "41.9 kN").sought(SMALL, 1e9),
            Input::must("factor", "αA", "tightening factor (torque wrench: 1.6 to 2.0)", Number, "1.8").sought(1.0, 100.0),
            of("least", "Fmin", "least preload, where another value is left out", &[Force], "23.3 kN").result(),
        ],
        formula: &["Fmin = Fmax/αA"],
        letters: &[],
        source: "VDI 2230-1, App. A8 (as reprinted)",
        caution: "The factor is that of the way of tightening, not of the bolt.",
        example: &["--greatest", "41.9 kN", "--factor", "1.8"],
        turns: Some("least"),
        work: least,
    },
    Calculation {
        name: "readings",
        about: "mean and scatter of measured preloads, and the nut factor they make",
        inputs: &[
            of("reading", "F", "a measured preload; several", &[Force], "7760 lbf").take(Take::Many).bare(),
            of("torque", "T", "the torque they were measured at", &[Torque], "450 lbf·in").may(),
            thread().may(),
        ],
        formula: &["mean = ΣF/n   s = √(Σ(F − mean)²/(n − 1))   K = T/(d·mean)"],
        letters: &[("n", "number of readings"), ("s", "sample standard deviation"), ("d", "nominal diameter"), ("K", "nut factor")],
        source: "NASA-STD-5020B, App. A.2",
        caution: "A handful of readings says little about the next bolt.",
        example: &["7760 lbf", "4010 lbf", "3587 lbf", "4635 lbf", "4920 lbf", "3797 lbf", "--torque", "450 lbf·in", "--thread", "3/8-24 UNF"],
        turns: None,
        work: statistics,
    },
];

fn joint(given: &Given) -> Result<ScreenedJoint, Refusal> {
    let thread = given.thread("thread")?;
    let class = given.class("class").unwrap_or_else(|| PropertyClass::assumed(thread));
    let condition = condition_of(given);
    let role = given.word("role").and_then(Role::find).unwrap_or(Role::Clamp);
    ScreenedJoint::new(thread, class, condition, role).map_err(|error| Refusal::Impossible(error.message()))
}

fn condition_of(given: &Given) -> ThreadCondition {
    given.word("threads").and_then(ThreadCondition::find).unwrap_or(ThreadCondition::Dry)
}

/// The class that is reckoned with where none was given.
fn assumed_class(given: &Given) -> Option<Figure> {
    let thread = given.thread("thread").ok().filter(|_| given.class("class").is_none())?;
    Some(Figure::words("class", "class, which nobody stated", PropertyClass::assumed(thread).name()))
}

fn usual(given: &Given) -> Worked {
    let joint = joint(given)?;
    let proof = possible(joint.proof_load_n(), "this joint has no proof load")?;
    let mut figures: Vec<Figure> = assumed_class(given).into_iter().collect();
    figures.push(Figure::plain("nut-factor", "K", "nut factor reckoned with", joint.nut_factor.mid, ""));
    figures.push(Figure::quantity("proof-load", "Fp", "proof load As·Sp", proof, Force));
    if let Some(share) = given.maybe("share") {
        let torque = possible(joint.torque_for_share_nm(share), "a share of the proof load is above nothing")?;
        figures.push(Figure::quantity("preload", "F", "preload", share * proof, Force));
        figures.push(Figure::quantity("torque", "T", "torque for this share", torque, Torque));
        return Ok(figures);
    }
    let role = joint.role.word();
    let why = format!("a fastener of role {role} is not screened: its torque is its source's alone");
    let (band, share) = (possible(joint.plausible_torque_nm(), &why)?, possible(joint.role.band(), &why)?);
    figures.push(Figure::span("preload", "F", &format!("usual preload for {role}"), (share.low * proof, share.high * proof), Force).with_digits(2));
    figures.push(Figure::span("torque", "T", &format!("usual torque for {role}"), (band.low, band.high), Torque).with_digits(2));
    Ok(figures)
}

fn screen(given: &Given) -> Worked {
    let joint = joint(given)?;
    let torque = given.number("torque")?;
    let why = "a torque above nothing is wanted";
    let (force, share) = (possible(joint.preload_n(torque), why)?, possible(joint.share(torque), why)?);
    let mut figures: Vec<Figure> = assumed_class(given).into_iter().collect();
    figures.push(Figure::quantity("preload", "F", "preload, most likely", force.mid, Force).rounded(Round::Outward));
    figures.push(Figure::span("preload-band", "F", "preload, over the friction of this condition", (force.low, force.high), Force).with_digits(2));
    figures.push(Figure::plain("share", "u", "share of the proof load", share.mid * 100.0, "%"));
    let words = match (joint.standing(torque), joint.role.band()) {
        (Some(standing), Some(band)) => {
            let word = match standing {
                Standing::Inside => "plausible",
                Standing::Below => "low",
                Standing::Above => "high",
                Standing::OverProof => "beyond the proof load",
            };
            format!("{word} for {} (usually {:.0} to {:.0} %)", joint.role.word(), band.low * 100.0, band.high * 100.0)
        }
        _ => format!("role {} is not screened", joint.role.word()),
    };
    figures.push(Figure::words("standing", "how it stands", words));
    Ok(figures)
}

fn by_factor(given: &Given) -> Worked {
    let diameter = given.thread("thread")?.diameter_mm();
    let force = preload::preload_n(given.number("torque")?, diameter, given.number("nut-factor")?);
    let force = possible(force, "torque and nut factor are above nothing")?;
    // What a range of torques comes to is not narrowed.
    Ok(vec![Figure::quantity("preload", "F", "preload", force, Force).rounded(Round::Outward)])
}

fn factors(given: &Given) -> Worked {
    let condition = condition_of(given);
    let band = condition.nut_factor();
    let mut figures = vec![
        Figure::plain("nut-factor", "K", &format!("{}, reckoned with here", condition.word()), band.mid, "").with_digits(2),
        Figure::words("band", "its band", format!("{:.2} to {:.2}", band.low, band.high)),
    ];
    let row = |name, letter: &str, row: &Published| {
        let value = if row.high > row.low { format!("{letter} {:.2} to {:.2}", row.low, row.high) } else { format!("{letter} {:.2}", row.low) };
        Figure::words(name, row.surface, format!("{value}  ({})", row.source))
    };
    figures.extend(NUT_FACTORS.iter().map(|published| row("published-nut-factor", "K", published)));
    figures.extend(COEFFICIENTS.iter().map(|published| row("published-friction", "μ", published)));
    figures.extend(METHODS.iter().map(|method| {
        Figure::words("method", &format!("uncertainty, {}", method.name), format!("± {:.0} %  (NSTS 08307 Rev. A, 3.4)", method.uncertainty * 100.0))
    }));
    Ok(figures)
}

fn limits(given: &Given) -> Worked {
    let torque = given.span("torque")?;
    let diameter = given.thread("thread")?.diameter_mm();
    let factor = given.maybe("nut-factor").unwrap_or_else(|| condition_of(given).nut_factor().mid);
    let limits = TorqueLimits { low_nm: torque.low_mm, high_nm: torque.high_mm };
    let found = scatter::preload_limits(limits, given.number("running")?, diameter, factor, given.number("uncertainty")?);
    let found = possible(found, "the running torque is more than the least torque, or the uncertainty is no share below 100 %")?;
    Ok(vec![
        Figure::plain("nut-factor", "K", "nut factor reckoned with", factor, ""),
        Figure::quantity("least", "Fmin", "least preload", found.low_n, Force),
        Figure::quantity("greatest", "Fmax", "greatest preload", found.high_n, Force),
    ])
}

fn least(given: &Given) -> Worked {
    let least = scatter::least_preload_n(given.number("greatest")?, given.number("factor")?);
    Ok(vec![Figure::quantity("least", "Fmin", "least preload", possible(least, "a tightening factor is 1 or more")?, Force)])
}

fn statistics(given: &Given) -> Worked {
    let readings: Vec<f64> = given.quantities("reading").iter().filter_map(|reading| reading.nominal().or(reading.low_high().0)).collect();
    let found = possible(scatter::statistics(&readings), "two readings above nothing are the least")?;
    let mut figures = vec![
        Figure::plain("count", "n", "readings", f64::from(u32::try_from(found.count).unwrap_or(u32::MAX)), "").with_digits(4),
        Figure::quantity("mean", "", "mean", found.mean, Force).with_digits(4),
        Figure::quantity("deviation", "s", "sample standard deviation", found.deviation, Force),
        Figure::plain("above", "", "greatest above the mean", found.above * 100.0, "%"),
        Figure::plain("below", "", "least below the mean", found.below * 100.0, "%"),
    ];
    if let (Some(torque), Ok(thread)) = (given.maybe("torque"), given.thread("thread")) {
        let factor = possible(preload::nut_factor(torque, thread.diameter_mm(), found.mean), "a torque above nothing is wanted")?;
        figures.push(Figure::plain("nut-factor", "K", "nut factor", factor, ""));
    }
    Ok(figures)
}

