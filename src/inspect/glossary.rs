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
                let hit = ruled_out.iter().find(|ruled| ruled.first_in(&words).is_some());
                findings.extend(hit.map(|ruled| told(ruled, head.place.clone()).about(head.id.to_owned())));
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
            for (at, ruled) in ruled_out.iter().enumerate().filter(|(_, ruled)| text.len() >= ruled.one.len()) {
                if let (false, Some(hit)) = (first.contains_key(&at), ruled.first_in(&words)) {
                    first.extend(place(hit).map(|place| (at, place)));
                }
            }
        });
        let found = first.into_iter().filter_map(|(at, place)| ruled_out.get(at).map(|ruled| (ruled, place)));
        for (ruled, place) in found.filter(|(ruled, _)| !is_named(scope, ruled)) {
            findings.push(told(ruled, place).about(procedure.id.clone()));
        }
    }
}

/// Whether a thing of the lists has a phrase in its name.
fn is_named(scope: Scope<'_>, ruled: &RuledOut<'_>) -> bool {
    let kinds = || ListKind::ALL.iter().filter(|kind| **kind != ListKind::Terms);
    scope.homes().flat_map(|(_, lists)| kinds().flat_map(|kind| lists.heads(*kind))).any(|head| ruled.first_in(&Words::of(head.name)).is_some())
}

/// A phrase that a term rules out, as `Words` reads it: in lower case, with plain apostrophes.
struct RuledOut<'a> {
    term: &'a Entry<Term>,
    one: String,
    /// Its plural.
    many: String,
}

impl<'a> RuledOut<'a> {
    /// None where the phrase has no word.
    fn of(term: &'a Entry<Term>, phrase: &str) -> Option<Self> {
        let one = phrase.to_lowercase().replace('’', "'").split_whitespace().collect::<Vec<_>>().join(" ");
        let ending = if ["s", "x", "z", "ch", "sh"].iter().any(|end| one.ends_with(end)) { "es" } else { "s" };
        let many = format!("{one}{ending}");
        (!one.is_empty()).then_some(Self { term, one, many })
    }

    fn first_in(&self, words: &Words<'_>) -> Option<Range<usize>> {
        words.first(&[&self.one, &self.many])
    }
}

/// Every phrase that a term of the procedure, its machine or the shop rules out.
fn ruled_out(scope: Scope<'_>) -> Vec<RuledOut<'_>> {
    let terms = scope.homes().flat_map(|(_, lists)| lists.terms.values());
    terms.flat_map(|term| term.what.not.iter().filter_map(move |phrase| RuledOut::of(term, phrase))).collect()
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

fn told(ruled: &RuledOut<'_>, place: Place) -> Finding {
    let (term, phrase) = (ruled.term, &ruled.one);
    Finding::new(&WORD_NOT_USED_HERE, place, format!("‘{phrase}’ is not used in this manual: it says ‘{}’", term.name.to_lowercase()))
        .label("another name")
        .related(term.id_place.clone(), "the term")
        .fix(format!("write ‘{}’", term.name.to_lowercase()))
}
