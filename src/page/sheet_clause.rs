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
