//! Walking an author's text: every running text, link and picture.

use super::body::{Block, Inline};

/// Every list of inlines in some blocks, in reading order; code blocks have none.
pub fn each_running_text<'a>(blocks: &'a [Block], visit: &mut dyn FnMut(&'a [Inline])) {
    for block in blocks {
        match block {
            Block::Paragraph(words) | Block::Heading(_, words) => visit(words),
            Block::List(_, items) => items.iter().for_each(|item| each_running_text(item, visit)),
            Block::Table(table) => {
                table.head.iter().for_each(|cell| visit(cell));
                table.rows.iter().flatten().for_each(|cell| visit(cell));
            }
            Block::Quote(inner) => each_running_text(inner, visit),
            Block::Notice(notice) => each_running_text(&notice.blocks, visit),
            Block::Code(..) | Block::Rule => {}
        }
    }
}

/// Every inline in some blocks, the outer before the inner.
pub fn each_inline<'a>(blocks: &'a [Block], visit: &mut dyn FnMut(&'a Inline)) {
    fn inner<'a>(words: &'a [Inline], visit: &mut dyn FnMut(&'a Inline)) {
        for inline in words {
            visit(inline);
            match inline {
                Inline::Emphasis(words)
                | Inline::Strong(words)
                | Inline::Act(_, words)
                | Inline::Link(_, words, _)
                | Inline::See(_, words, _) => inner(words, visit),
                Inline::Text(..) | Inline::Code(..) | Inline::Picture(_) | Inline::FootnoteMark(..) | Inline::SoftBreak | Inline::HardBreak => {}
            }
        }
    }
    each_running_text(blocks, &mut |words| inner(words, visit));
}
