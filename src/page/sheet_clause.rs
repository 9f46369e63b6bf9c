//! A sentence on a bench sheet: each act on a line of its own, with the words of the sentence that belong to it. So no
//! word of the author's is printed twice, and none is left out.

use super::markup::Markup;
use super::sentence::{Fragment, Sentence};

/// What becomes a line, or a piece of text between lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Piece {
    /// What stands before the act; the whole of it where there is none.
    pub lead: Markup,
    /// The act.
    pub act: Option<usize>,
    /// What stands behind the act.
    pub tail: Markup,
    /// The tools named in it: acts of their own without a box.
    pub tools: Vec<usize>,
}

/// What an act makes on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Makes {
    /// A line with a box.
    Line,
    /// A mark across the sheet: a hold point, a signature, a place to stop.
    Mark,
    /// A tool in use.
    Tool,
}

/// The pieces of a sentence that can be parted.
pub(super) fn pieces(sentence: &Sentence, connectors: &[String], makes: &dyn Fn(usize) -> Makes) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut pending = Fragment::default();
    let mut tools = Vec::new();
    for clause in &sentence.clauses {
        pending.push(&clause.lead.shown, &clause.lead.words);
        let kind = makes(clause.act);
        if kind == Makes::Tool {
            // Its words are part of the sentence, whatever they are.
            pending.push(&clause.shown, "tool");
            tools.push(clause.act);
            continue;
        }
        let says = pending.says_something(connectors);
        let mut piece = Piece { act: Some(clause.act), ..Piece::default() };
        match pieces.last_mut().filter(|before| says && before.act.is_some_and(|act| makes(act) == Makes::Line) && pending.leads_over(connectors)) {
            Some(before) => {
                before.tail = pending.without_end(connectors);
                before.tools.append(&mut tools);
            }
            None if says && kind == Makes::Mark => {
                let lead = pending.without_beginning(connectors);
                pieces.push(Piece { lead, tools: std::mem::take(&mut tools), ..Piece::default() });
            }
            None if says => {
                piece.lead = pending.without_beginning(connectors);
                piece.tools.append(&mut tools);
            }
            None => {}
        }
        pending = Fragment::default();
        pieces.push(piece);
    }
    pending.push(&sentence.tail.shown, &sentence.tail.words);
    if pending.says_something(connectors) || !tools.is_empty() {
        match pieces.last_mut().filter(|last| last.act.is_some_and(|act| makes(act) == Makes::Line)) {
            Some(last) => {
                last.tail.push(&pending.shown);
                last.tools.append(&mut tools);
            }
            None => pieces.push(Piece { lead: pending.without_beginning(connectors), tools, ..Piece::default() }),
        }
    }
    pieces
}

/// Markup with a capital at its head, where it begins with a letter.
pub(super) fn capital(text: &Markup) -> Markup {
    Markup::rendered(super::sheet_line::capitalised(text.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::sentence::Clause;

    fn fragment(words: &str) -> Fragment {
        Fragment { shown: Markup::text(words), words: words.to_owned() }
    }

    /// Each piece as `lead|act|tail|tools`; acts of 10 and more are tools, of 20 and more marks.
    fn told(parts: &[(&str, usize)], tail: &str) -> Vec<String> {
        let clauses = parts.iter().map(|(lead, act)| Clause { lead: fragment(lead), act: *act, shown: Markup::text("the bar") });
        let mut sentence = Sentence::default();
        sentence.clauses = clauses.collect();
        sentence.tail = fragment(tail);
        let connectors = ["and", "then"].map(str::to_owned);
        let makes = |act: usize| match act {
            0..=9 => Makes::Line,
            10..=19 => Makes::Tool,
            _ => Makes::Mark,
        };
        let shown = |piece: &Piece| {
            let act = piece.act.map_or_else(String::new, |act| act.to_string());
            format!("{}|{act}|{}|{:?}", piece.lead.as_str(), piece.tail.as_str(), piece.tools)
        };
        pieces(&sentence, &connectors, &makes).iter().map(shown).collect()
    }

    #[test]
    fn acts_alone_have_no_other_words() {
        assert_eq!(told(&[("", 1), (", then ", 2), (" and ", 3)], "."), ["|1||[]", "|2||[]", "|3||[]"]);
    }

    #[test]
    fn what_stands_before_an_act_leads_it_and_what_stands_behind_the_last_ends_it() {
        assert_eq!(told(&[("Let the air out and ", 1)], " while a helper looks."), ["Let the air out and|1| while a helper looks.|[]"]);
    }

    #[test]
    fn what_leads_over_belongs_to_the_act_before_and_what_begins_anew_to_the_next() {
        assert_eq!(told(&[("", 1), (", a hand under it, and ", 2)], "."), ["|1|, a hand under it|[]", "|2||[]"]);
        assert_eq!(told(&[("", 1), (", and, with the punch, ", 2)], "."), ["|1||[]", "with the punch,|2||[]"]);
    }

    #[test]
    fn a_tool_belongs_to_the_line_its_words_stand_on() {
        assert_eq!(told(&[("", 1), (" and, with the ", 10), (", ", 2)], "."), ["|1||[]", "with the the bar,|2||[10]"]);
        assert_eq!(told(&[("", 1), (", with the ", 10)], " held square."), ["|1|, with the the bar held square.|[10]"]);
        assert_eq!(told(&[("Lock the drum with ", 10)], "."), ["Lock the drum with the bar.||||[10]".replace("||||", "|||")]);
    }

    #[test]
    fn a_mark_has_no_words_on_its_line() {
        assert_eq!(told(&[("Go back, then ", 20)], " now."), ["Go back, then|||[]", "|20||[]", "now.|||[]"]);
    }
}
