//! Words that the manual's own glossary says not to use.

use super::prose::runs;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, ListKind, Procedure, Scope, Term};
use std::collections::BTreeMap;
use std::ops::Range;

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
        let ruled_out = ruled_out(scope);
        if ruled_out.is_empty() {
            continue;
        }
        let mut first: BTreeMap<usize, Place> = BTreeMap::new();
        each_text(procedure, &mut |text, place| {
            let words = Words::of(text);
            for (at, (_, phrase)) in ruled_out.iter().enumerate().filter(|(_, (_, phrase))| text.len() >= phrase.len()) {
                if let (false, Some(hit)) = (first.contains_key(&at), in_words(&words, phrase)) {
                    first.extend(place(hit).map(|place| (at, place)));
                }
            }
        });
        let found = first.into_iter().filter_map(|(at, place)| ruled_out.get(at).map(|(term, phrase)| (term, phrase, place)));
        for (term, phrase, place) in found.filter(|(_, phrase, _)| !is_named(scope, phrase)) {
            findings.push(told(term, phrase, place).about(procedure.id.clone()));
        }
    }
}

/// Whether a thing of the lists has a phrase in its name.
fn is_named(scope: Scope<'_>, phrase: &str) -> bool {
    let kinds = || ListKind::ALL.iter().filter(|kind| **kind != ListKind::Terms);
    scope.homes().flat_map(|(_, lists)| kinds().flat_map(|kind| lists.heads(*kind))).any(|head| in_words(&Words::of(head.name), phrase).is_some())
}

/// Every phrase that a term of the procedure, its machine or the shop rules out, in lower case.
fn ruled_out(scope: Scope<'_>) -> Vec<(&Entry<Term>, String)> {
    let terms = scope.homes().flat_map(|(_, lists)| lists.terms.values());
    terms.flat_map(|term| term.what.not.iter().map(move |phrase| (term, phrase.trim().to_lowercase()))).filter(|(_, phrase)| !phrase.is_empty()).collect()
}

fn in_words(words: &Words<'_>, phrase: &str) -> Option<Range<usize>> {
    words.first(&[phrase, &format!("{phrase}s")])
}

/// Where a span of a text stands in the file.
type At<'t> = &'t dyn Fn(Range<usize>) -> Option<Place>;

/// Every text of a procedure, with where a span of it stands: running text, then headings and the words of acts.
fn each_text(procedure: &Procedure, visit: &mut dyn FnMut(&str, At<'_>)) {
    for blocks in procedure.texts() {
        for run in runs(blocks) {
            visit(run.text(), &|hit| run.place(hit.start, hit.end));
        }
    }
    for step in &procedure.steps {
        visit(&step.title, &|_| Some(step.place.clone()));
        step.acts.iter().for_each(|act| visit(&act.words, &|_| Some(act.place.clone())));
    }
}

fn told(term: &Entry<Term>, phrase: &str, place: Place) -> Finding {
    Finding::new(&WORD_NOT_USED_HERE, place, format!("‘{phrase}’ is not used in this manual: it says ‘{}’", term.name.to_lowercase()))
        .label("another name")
        .related(term.id_place.clone(), "the term")
        .fix(format!("write ‘{}’", term.name.to_lowercase()))
}
