//! Praise: what a manual says of a product and can't show.

use super::prose::runs;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::source::{Block, Inline, each_inline};

/// Something is praised, and nobody says on what ground.
pub(super) static CLAIM_OR_UNDISCLOSED: Rule = Rule {
    name: "claim-or-undisclosed",
    severity: Severity::Note,
    summary: "A product is praised, and nothing says on what ground.",
    explanation: Explanation {
        finds: "Phrases of praise that no bench can show (the best there is, second to none, bulletproof, never leaks again, lasts a lifetime …) in the text of a procedure, in a paragraph with no footnote and no link.",
        matters: "Readers take a manual's word for a test, and buy by it; one who was given the part is no judge of it.",
        may_be_wrong: "Where it is an opinion: say whose, and whether the part was given, in a footnote.",
        example: "The PB-9 is the best pack there is.",
        instead: "The PB-9 ran two seasons in the society's winch.[^given]\n\n[^given]: The pack was a gift of its maker.",
    },
};

/// Praise that no source says in these words.
const PRAISE: [&str; 40] = [
    "the best there is", "best on the market", "best you can buy", "best you can get", "best money can buy", "best that money can buy", "best in the world", "world's best",
    "best of its kind", "best in its class", "second to none", "without equal", "unrivalled", "unbeatable", "unsurpassed", "bulletproof", "bomb-proof", "bombproof", "indestructible",
    "foolproof", "miracle", "revolutionary", "game changer", "game-changer", "never leaks", "never leak again", "will never leak", "never fails", "will never fail",
    "never breaks", "will never break", "never wears out", "lasts forever", "last forever", "lasts for ever", "last for ever", "lasts a lifetime", "last a lifetime",
    "better than new", "guaranteed for life",
];
/// `the best pack there is`: praise around a word or two.
const BEST: [&str; 1] = ["the best"];
const THERE_IS: [&str; 4] = ["there is", "there are", "on the market", "money can buy"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, _) in every::procedures(context.manual) {
        let texts = std::iter::once((procedure.id.clone(), procedure.introduction.as_slice()))
            .chain(procedure.steps.iter().map(|step| (format!("{}#{}", procedure.id, step.id), step.blocks.as_slice())));
        for (about, blocks) in texts {
            findings.extend(blocks.iter().filter_map(praise).map(|finding| finding.about(about.clone())));
        }
    }
}

/// The first praise of a block that has neither footnote nor link.
fn praise(block: &Block) -> Option<Finding> {
    let blocks = std::slice::from_ref(block);
    let mut grounded = false;
    each_inline(blocks, &mut |inline| grounded |= matches!(inline, Inline::FootnoteMark(..) | Inline::Link(..) | Inline::See(..)));
    if grounded {
        return None;
    }
    runs(blocks).iter().find_map(|run| {
        let words = Words::of(run.text());
        let hit = words.first(&PRAISE).or_else(|| words.near(&BEST, &THERE_IS, 2))?;
        Some(
            Finding::new(&CLAIM_OR_UNDISCLOSED, run.place(hit.start, hit.end)?, format!("‘{}’ is praise, and nothing says on what ground", words.text(&hit)))
                .label("who says so?")
                .fix("say what was measured or how long it ran; or, in a footnote, whose opinion it is and whether the part was given"),
        )
    })
}
