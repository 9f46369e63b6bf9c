//! The one place where an author's text becomes HTML. Everything is escaped; what is more than running
//! text (acts, cross-links, pictures, notices, code) is made by the page it stands on.

use super::error::PageError;
use super::markup::Markup;
use crate::source::{Align, Block, Inline, Notice, PictureText, Table};

/// What a page puts in for the parts of a text that are more than text.
pub(super) trait Inserts {
    /// An act, by its index in the step, with its words.
    fn act(&self, index: usize, words: &Markup) -> Result<Markup, PageError>;
    /// What stands after a paragraph or list item for the acts in it.
    fn after(&self, acts: &[usize]) -> Result<Markup, PageError>;
    /// What stands in a table's cell for the acts in it: there is no room for more than words.
    fn beneath(&self, _acts: &[usize]) -> Result<Markup, PageError> {
        Ok(Markup::default())
    }
    /// A cross-link with its words.
    fn see(&self, target: &str, words: &Markup) -> Result<Markup, PageError>;
    /// A picture that stands as a block of its own.
    fn picture(&self, picture: &PictureText) -> Result<Markup, PageError>;
    /// A safety notice with its text.
    fn notice(&self, notice: &Notice, text: &Markup) -> Result<Markup, PageError>;
    /// A block of code.
    fn code(&self, language: &str, text: &str) -> Markup;
    /// A mark that points to a footnote.
    fn footnote(&self, name: &str) -> Markup;
    /// The level of the headings that the author writes as level 3.
    fn heading_level(&self) -> u8;
    /// What a reader hears of a table that scrolls within its frame.
    fn scroll_label(&self) -> String;
}

/// Blocks as HTML.
pub(super) fn blocks(blocks: &[Block], inserts: &dyn Inserts) -> Result<Markup, PageError> {
    let mut out = Markup::default();
    for block in blocks {
        out.push(&self::block(block, inserts)?);
    }
    Ok(out)
}

/// One block as HTML.
pub(super) fn block(block: &Block, inserts: &dyn Inserts) -> Result<Markup, PageError> {
    let mut out = Markup::default();
    match block {
        Block::Paragraph(content) => paragraph(content, inserts, &mut out)?,
        Block::Heading(level, content) => heading(*level, content, inserts, &mut out)?,
        Block::List(first, items) => list(*first, items, inserts, &mut out)?,
        Block::Table(content) => table(content, inserts, &mut out)?,
        Block::Code(language, text) => out.push(&inserts.code(language, text)),
        Block::Quote(content) => {
            out.push_tag("<blockquote>\n");
            out.push(&blocks(content, inserts)?);
            out.push_tag("</blockquote>\n");
        }
        Block::Notice(content) => {
            let text = blocks(&content.blocks, inserts)?;
            out.push(&inserts.notice(content, &text)?);
        }
        Block::Rule => out.push_tag("<hr>\n"),
    }
    Ok(out)
}

/// Running text as HTML.
pub(super) fn inlines(content: &[Inline], inserts: &dyn Inserts) -> Result<Markup, PageError> {
    let mut out = Markup::default();
    for inline in content {
        out.push(&self::inline(inline, inserts)?);
    }
    Ok(out)
}

/// A piece of running text as HTML. A picture in the middle of a sentence is its alternative text.
pub(super) fn inline(inline: &Inline, inserts: &dyn Inserts) -> Result<Markup, PageError> {
    let mut out = Markup::default();
    match inline {
        Inline::Text(text, _) => out.push_text(text),
        Inline::Emphasis(inner) => {
            out.push_tag("<em>");
            out.push(&inlines(inner, inserts)?);
            out.push_tag("</em>");
        }
        Inline::Strong(inner) => {
            out.push_tag("<strong>");
            out.push(&inlines(inner, inserts)?);
            out.push_tag("</strong>");
        }
        Inline::Code(text, _) => {
            out.push_tag("<code>");
            out.push_text(text);
            out.push_tag("</code>");
        }
        Inline::Act(index, inner) => out.push(&inserts.act(*index, &inlines(inner, inserts)?)?),
        Inline::Link(address, inner, _) => link(address, inner, inserts, &mut out)?,
        Inline::See(target, inner, _) => out.push(&inserts.see(target, &inlines(inner, inserts)?)?),
        Inline::Picture(picture) => out.push_text(&picture.alternative),
        Inline::FootnoteMark(name, _) => out.push(&inserts.footnote(name)),
        Inline::SoftBreak => out.push_tag("\n"),
        Inline::HardBreak => out.push_tag("<br>\n"),
    }
    Ok(out)
}

/// Pictures end the paragraph they stand in and stand between its parts.
fn paragraph(content: &[Inline], inserts: &dyn Inserts, out: &mut Markup) -> Result<(), PageError> {
    for part in content.split_inclusive(|inline| matches!(inline, Inline::Picture(_))) {
        let (text, picture) = match part {
            [text @ .., Inline::Picture(picture)] => (text, Some(picture)),
            text => (text, None),
        };
        let text = inlines(text, inserts)?;
        if !text.is_blank() {
            out.push_tag("<p>");
            out.push(&text);
            out.push_tag("</p>\n");
            out.push(&inserts.after(&acts_in(part))?);
        }
        if let Some(picture) = picture {
            out.push(&inserts.picture(picture)?);
        }
    }
    Ok(())
}

/// The acts in running text, in order.
pub(super) fn acts_in(content: &[Inline]) -> Vec<usize> {
    let mut acts = Vec::new();
    for inline in content {
        match inline {
            Inline::Act(index, _) => acts.push(*index),
            Inline::Emphasis(inner) | Inline::Strong(inner) | Inline::Link(_, inner, _) | Inline::See(_, inner, _) => {
                acts.extend(acts_in(inner));
            }
            Inline::Text(..)
            | Inline::Code(..)
            | Inline::Picture(_)
            | Inline::FootnoteMark(..)
            | Inline::SoftBreak
            | Inline::HardBreak => {}
        }
    }
    acts
}

fn heading(level: u8, content: &[Inline], inserts: &dyn Inserts, out: &mut Markup) -> Result<(), PageError> {
    let deep = level.saturating_sub(3).saturating_add(inserts.heading_level());
    let (open, close) = match deep {
        0..=3 => ("<h3>", "</h3>\n"),
        4 => ("<h4>", "</h4>\n"),
        5 => ("<h5>", "</h5>\n"),
        _ => ("<h6>", "</h6>\n"),
    };
    out.push_tag(open);
    out.push(&inlines(content, inserts)?);
    out.push_tag(close);
    Ok(())
}

fn list(first: Option<u64>, items: &[Vec<Block>], inserts: &dyn Inserts, out: &mut Markup) -> Result<(), PageError> {
    match first {
        None => out.push_tag("<ul>\n"),
        Some(1) => out.push_tag("<ol>\n"),
        Some(number) => {
            out.push_tag("<ol start=\"");
            out.push_text(&number.to_string());
            out.push_tag("\">\n");
        }
    }
    for item in items {
        out.push_tag("<li>");
        match item.as_slice() {
            // A tight item: no paragraph round its only line.
            [Block::Paragraph(content)] if !content.iter().any(|i| matches!(i, Inline::Picture(_))) => {
                out.push(&inlines(content, inserts)?);
                out.push(&inserts.after(&acts_in(content))?);
            }
            content => out.push(&blocks(content, inserts)?),
        }
        out.push_tag("</li>\n");
    }
    out.push_tag(if first.is_some() { "</ol>\n" } else { "</ul>\n" });
    Ok(())
}

fn table(table: &Table, inserts: &dyn Inserts, out: &mut Markup) -> Result<(), PageError> {
    out.push_tag("<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"");
    out.push_text(&inserts.scroll_label());
    out.push_tag("\"><table class=\"author\">\n<thead><tr>");
    for (index, cell) in table.head.iter().enumerate() {
        // A corner without words heads no column.
        if cell.is_empty() {
            out.push_tag("<td></td>");
            continue;
        }
        out.push_tag(match alignment(table, index) {
            Align::Start => "<th scope=\"col\">",
            Align::Centre => "<th scope=\"col\" class=\"centre\">",
            Align::End => "<th scope=\"col\" class=\"end\">",
        });
        out.push(&inlines(cell, inserts)?);
        out.push_tag("</th>");
    }
    out.push_tag("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        out.push_tag("<tr>");
        for (index, cell) in row.iter().enumerate() {
            out.push_tag(match alignment(table, index) {
                Align::Start => "<td>",
                Align::Centre => "<td class=\"centre\">",
                Align::End => "<td class=\"end\">",
            });
            out.push(&inlines(cell, inserts)?);
            out.push(&inserts.beneath(&acts_in(cell))?);
            out.push_tag("</td>");
        }
        out.push_tag("</tr>\n");
    }
    out.push_tag("</tbody></table></div>\n");
    Ok(())
}

fn alignment(table: &Table, column: usize) -> Align {
    table.align.get(column).copied().unwrap_or(Align::Start)
}

fn link(address: &str, inner: &[Inline], inserts: &dyn Inserts, out: &mut Markup) -> Result<(), PageError> {
    let words = inlines(inner, inserts)?;
    let scheme = address.split_once(':').map(|(scheme, _)| scheme.to_ascii_lowercase());
    let safe = address.starts_with('#') || matches!(scheme.as_deref(), Some("http" | "https" | "mailto"));
    if !safe {
        out.push(&words);
        return Ok(());
    }
    out.push_tag("<a href=\"");
    out.push_text(address);
    out.push_tag(if address.starts_with('#') { "\">" } else { "\" rel=\"noreferrer\">" });
    out.push(&words);
    out.push_tag("</a>");
    Ok(())
}
