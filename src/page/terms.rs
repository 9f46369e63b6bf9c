//! The words of the manual: what each means, which words are not used for it, and where it stands in the work.

use super::link;
use super::names::Detail;
use super::rows::{Cell, Row, Table, Uses};
use super::site::Scene;
use crate::manual::{Entry, Home, ListKind, Procedure, Step, Term, ThingRef};
use crate::source::{Inline, each_inline};

/// A term of a machine.
pub(super) struct Known<'a> {
    /// Its row.
    pub thing: ThingRef,
    /// The term.
    pub entry: &'a Entry<Term>,
}

impl<'s> Scene<'s> {
    /// Every term that holds for the machine: the shop's, its own, those of its procedures.
    pub(super) fn terms(&self) -> Vec<Known<'s>> {
        let shop = std::iter::once((Home::Shop, &self.site.input.manual.shop));
        let own = std::iter::once((Home::Machine, &self.machine.lists));
        let procedures = self.machine.procedures.iter().map(|p| (Home::Procedure(p.id.clone()), &p.lists));
        shop.chain(own)
            .chain(procedures)
            .flat_map(|(home, lists)| {
                lists.terms.values().map(move |entry| Known {
                    thing: ThingRef { kind: ListKind::Terms, home: home.clone(), id: entry.id.clone() },
                    entry,
                })
            })
            .collect()
    }

    /// The glossary of the machine.
    pub(super) fn terms_table(&self) -> Option<Table> {
        let texts: Vec<Vec<String>> =
            self.machine.procedures.iter().map(|procedure| procedure.steps.iter().map(text_of).collect()).collect();
        let rows = self.terms().into_iter().map(|known| self.term_row(&known, &texts)).collect();
        self.table("table-terms", &["col-term", "col-means", "col-not", "col-stands"], rows)
    }

    fn term_row(&self, known: &Known<'_>, texts: &[Vec<String>]) -> Row {
        let mut uses = Vec::new();
        for (procedure, texts) in self.machine.procedures.iter().zip(texts) {
            let page = link::procedure_path(&self.machine.id, &procedure.id);
            let named = procedure.steps.iter().zip(texts).filter(|(_, text)| stands_in(&known.entry.name, text));
            let steps: Vec<Detail> = named
                .map(|(step, _)| Detail {
                    text: step.number.to_string(),
                    href: Some(self.link(&format!("{page}#{}", link::anchor_part(&step.id)))),
                })
                .collect();
            if !steps.is_empty() {
                let procedure = Detail { text: procedure.title.clone(), href: Some(self.link(&page)) };
                uses.push(Uses { procedure, counted: self.steps_counted(steps.len()), steps });
            }
        }
        let not = known.entry.what.not.iter().map(|word| Detail::plain(word.as_str())).collect();
        let cells = vec![Cell::text(known.entry.what.means.as_str()), Cell::details(not), Cell { uses, ..Cell::default() }];
        self.row(&known.thing, Cell::text(known.entry.name.as_str()), cells)
    }

    /// The terms that stand in a procedure's work, each leading to its row.
    pub(super) fn terms_of(&self, procedure: &Procedure) -> Vec<Detail> {
        let texts: Vec<String> = procedure.steps.iter().map(text_of).collect();
        let of_here = |known: &Known<'_>| match &known.thing.home {
            Home::Procedure(id) => *id == procedure.id,
            Home::Machine | Home::Shop => true,
        };
        self.terms()
            .into_iter()
            .filter(|known| of_here(known) && texts.iter().any(|text| stands_in(&known.entry.name, text)))
            .map(|known| Detail { text: known.entry.name.clone(), href: Some(self.row_link(&known.thing)) })
            .collect()
    }
}

/// The words of a step, in small letters: its title, its text, its acts.
fn text_of(step: &Step) -> String {
    let mut text = step.title.to_lowercase();
    each_inline(&step.blocks, &mut |inline| match inline {
        Inline::Text(words, _) => text.push_str(&words.to_lowercase()),
        Inline::SoftBreak | Inline::HardBreak => text.push(' '),
        _ => {}
    });
    text
}

/// Whether a term stands in a text in small letters, as words of its own; a plural is the same word.
fn stands_in(term: &str, text: &str) -> bool {
    let term = term.to_lowercase();
    !term.is_empty()
        && text.match_indices(&term).any(|(at, _)| {
            let before = text.get(..at).and_then(|before| before.chars().next_back());
            let rest = text.get(at + term.len()..).unwrap_or("");
            let after = rest.strip_prefix('s').unwrap_or(rest).chars().next();
            !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_term_stands_as_a_word_of_its_own_or_in_the_plural() {
        for text in ["fit the carrier for good", "both carriers", "carrier, dry", "carrier"] {
            assert!(stands_in("Carrier", text), "{text}");
        }
        for text in ["the carriersome thing", "a subcarrier", "carry it", ""] {
            assert!(!stands_in("Carrier", text), "{text}");
        }
        assert!(!stands_in("", "anything"));
    }
}
