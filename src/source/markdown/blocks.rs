//! Blocks that are looked at when they close: quotes, rows of tables, footnotes, HTML.

use super::super::body::{Block, Inline};
use super::super::notice::{self, Quote};
use super::super::report::{Slice, excerpt};
use super::super::rules::{DOUBLED_ID, HTML_NOT_LET_THROUGH, SIGNAL_WORD_NOT_BOLD, TABLE_CELL_LOST};
use super::{Builder, Frame};
use crate::finding::Finding;
use std::ops::Range;

impl Builder<'_, '_> {
    pub(super) fn html_block(&mut self, span: Range<usize>) {
        let written = self.slice.get(span.clone()).trim_end();
        let span = span.start..span.start + written.len();
        self.report.add(html(self.slice, span.clone()));
        self.block(Block::Paragraph(vec![Inline::Text(written.to_owned(), self.slice.place(span))]));
    }

    pub(super) fn row(&mut self, cells: Vec<Vec<Inline>>, head: bool, last_cell_end: usize, span: Range<usize>) {
        let rest = self.slice.get(last_cell_end..span.end);
        let lost = rest.trim_matches(|c: char| c == '|' || c.is_whitespace());
        if !head && last_cell_end > 0 && !lost.is_empty() {
            let start = last_cell_end + rest.find(lost).unwrap_or(0);
            let place = self.slice.place(start..start + lost.len());
            self.report.add(
                Finding::new(&TABLE_CELL_LOST, place, format!("‘{}’ has no column and is dropped", excerpt(lost)))
                    .label("more cells than the table's head has columns")
                    .figure(format!("the head has {} columns", cells.len()))
                    .fix("give the head one more column; a ‘|’ that is meant as text is written ‘\\|’"),
            );
        }
        if let Some(Frame::Table(table)) = self.stack.last_mut() {
            if head {
                table.head = cells;
            } else {
                table.rows.push(cells);
            }
        }
    }

    pub(super) fn quote(&mut self, blocks: Vec<Block>, span: Range<usize>, acts_before: usize) {
        let written = self.slice.get(span.clone());
        let place = self.slice.place(span.start..span.start + written.trim_end().len());
        match notice::tell(self.slice, blocks, place, acts_before) {
            Quote::Notice(notice) => self.block(Block::Notice(notice)),
            Quote::Plain(blocks) => self.block(Block::Quote(blocks)),
            Quote::Undressed(blocks, word, at) => {
                self.report.add(
                    Finding::new(
                        &SIGNAL_WORD_NOT_BOLD,
                        at,
                        format!("this quote opens like a {} but is no safety notice", word.to_lowercase()),
                    )
                    .label("not a bold signal word")
                    .fix(format!("write ‘> **{word}** …’, with nothing else in the bold")),
                );
                self.block(Block::Quote(blocks));
            }
            Quote::Misspelt(blocks, word, written, at) => {
                self.report.add(
                    Finding::new(&SIGNAL_WORD_NOT_BOLD, at, format!("‘{written}’ is no signal word, so this quote is no safety notice"))
                        .label("not a signal word")
                        .fix(format!("did you mean {word}? Write ‘> **{word}** …’, with nothing else in the bold")),
                );
                self.block(Block::Quote(blocks));
            }
        }
    }

    pub(super) fn footnote(&mut self, name: String, blocks: Vec<Block>, at: Range<usize>) {
        let written = self.slice.get(at.clone());
        let mark = written.find(':').map_or(written.len(), |colon| colon);
        let place = self.slice.place(at.start..at.start + mark);
        if let Some(first) = self.footnotes.get(&name) {
            self.report.add(
                Finding::new(&DOUBLED_ID, place, format!("two footnotes are called ‘{}’", excerpt(&name)))
                    .label("the second, left out")
                    .related(first.clone(), "the first, kept")
                    .fix("give it another name, here and at its mark"),
            );
            return;
        }
        self.footnotes.insert(name.clone(), place);
        self.body.footnotes.push((name, blocks));
    }
}

pub(super) fn html(slice: &Slice, span: Range<usize>) -> Finding {
    let written = slice.get(span.clone());
    let name: String = written.trim_start_matches(['<', '/']).chars().take_while(char::is_ascii_alphanumeric).collect();
    let fix = match name.to_ascii_lowercase().as_str() {
        _ if written.starts_with("<!--") => {
            "take the comment out; a note to authors stands in the front matter behind ‘# ’"
        }
        "b" | "strong" => "for bold write ‘**words**’",
        "i" | "em" => "for emphasis write ‘*words*’",
        "br" => "to end a line put a backslash ‘\\’ at its end",
        "img" => "for a picture write ‘![what it shows](pictures/name.jpg)’",
        "a" => "for a link write ‘[words](https://…)’",
        "table" | "tr" | "td" | "th" => "for a table put ‘|’ between the cells and ‘| --- |’ below the head",
        "sup" | "sub" => "use the signs themselves, such as ‘²’ or ‘½’",
        "code" | "kbd" | "pre" => "put the text between backticks",
        "ul" | "ol" | "li" => "for a list begin each line with ‘- ’ or ‘1. ’",
        _ => "take it out; for the sign itself write ‘&lt;’",
    };
    Finding::new(
        &HTML_NOT_LET_THROUGH,
        slice.place(span),
        format!("‘{}’ is HTML, which is not let through", excerpt(written)),
    )
    .label("printed as it stands here")
    .fix(fix)
}
