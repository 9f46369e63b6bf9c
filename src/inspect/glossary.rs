//! Words that the manual's own glossary says not to use.

use super::prose::runs;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, ListKind, Procedure, Scope, Term};

/// A word stands in the text that the glossary rules out.
pub(super) static WORD_NOT_USED_HERE: Rule = Rule {
    name: "word-not-used-here",
    severity: Severity::Note,
    summary: "A word is used that the manual's own glossary rules out.",
    explanation: Explanation {
        finds: "Words and phrases under not: of a term (terms:), as whole words, in the text of procedures, in headings, in the words of acts and in the names of things; once in each procedure. Where a thing of the lists has such a word in its name, the name is told and not each text that calls the thing by it.",
        matters: "Two names for one part are two parts to who orders it; one name for two parts is worse.",
        may_be_wrong: "Where the word means something else there: take another word all the same, or drop it from not:.",
        example: "terms: {carrier: {name: Carrier, not: [bearing cap], …}}   and ‘Lift the bearing cap off’",
        instead: "Lift the carrier off",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        let ruled_out = ruled_out(scope);
        for kind in ListKind::ALL.iter().filter(|kind| !matches!(kind, ListKind::Terms | ListKind::Sources | ListKind::Figures)) {
            for head in lists.heads(*kind) {
                let words = Words::of(head.name);
                let hit = ruled_out.iter().find(|(_, phrase)| in_words(&words, phrase).is_some());
                findings.extend(hit.map(|(term, phrase)| told(term, phrase, head.place.clone()).about(head.id.to_owned())));
            }
        }
    }
    for (_, procedure, scope) in every::procedures(context.manual) {
        let named: Vec<String> = scope.homes().flat_map(|(_, lists)| ListKind::ALL.iter().filter(|kind| **kind != ListKind::Terms).flat_map(|kind| lists.heads(*kind))).map(|head| head.name.to_lowercase()).collect();
        for (term, phrase) in ruled_out(scope) {
            if !named.iter().any(|name| in_words(&Words::of(name), &phrase).is_some()) {
                findings.extend(first_place(procedure, &phrase).map(|place| told(term, &phrase, place).about(procedure.id.clone())));
            }
        }
    }
}

/// Every phrase that a term of the procedure, its machine or the shop rules out, in lower case.
fn ruled_out(scope: Scope<'_>) -> Vec<(&Entry<Term>, String)> {
    let terms = scope.homes().flat_map(|(_, lists)| lists.terms.values());
    terms.flat_map(|term| term.what.not.iter().map(move |phrase| (term, phrase.trim().to_lowercase()))).filter(|(_, phrase)| !phrase.is_empty()).collect()
}

fn in_words(words: &Words<'_>, phrase: &str) -> Option<std::ops::Range<usize>> {
    words.first(&[phrase, &format!("{phrase}s")])
}

/// Where a procedure says a phrase first: in its text, in a heading or in the words of an act.
fn first_place(procedure: &Procedure, phrase: &str) -> Option<Place> {
    let in_text = procedure.texts().find_map(|blocks| {
        runs(blocks).iter().find_map(|run| {
            let hit = in_words(&Words::of(run.text()), phrase)?;
            run.place(hit.start, hit.end)
        })
    });
    let in_step = || {
        procedure.steps.iter().find_map(|step| {
            let titled = in_words(&Words::of(&step.title), phrase).map(|_| step.place.clone());
            titled.or_else(|| step.acts.iter().find(|act| in_words(&Words::of(&act.words), phrase).is_some()).map(|act| act.place.clone()))
        })
    };
    in_text.or_else(in_step)
}

fn told(term: &Entry<Term>, phrase: &str, place: Place) -> Finding {
    Finding::new(&WORD_NOT_USED_HERE, place, format!("‘{phrase}’ is not used in this manual: it says ‘{}’", term.name.to_lowercase()))
        .label("another name")
        .related(term.id_place.clone(), "the term")
        .fix(format!("write ‘{}’", term.name.to_lowercase()))
}
