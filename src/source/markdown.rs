//! A procedure's Markdown into steps, blocks and acts.
//!
//! The parser hands over a flat run of events, so nothing here recurses; what is nested deeper than
//! [`DEEPEST`] is flattened into what stands around it.

mod blocks;
mod headings;

use super::body::{Align, Block, Body, Inline, PictureText, Table, plain_text};
use super::links::{self, LinkAt};
use super::report::{Report, Slice};
use super::rules::NESTING_TOO_DEEP;
use crate::finding::{Finding, Place};
use pulldown_cmark::{Alignment, BrokenLink, CodeBlockKind, Event, LinkType, Options, Parser, Tag, TagEnd};
use std::collections::BTreeMap;
use std::ops::Range;

/// Quotes, lists and marks within each other.
const DEEPEST: usize = 32;

/// Reads the body of a procedure. Every fault is reported.
pub(super) fn read_body(slice: &Slice, report: &mut Report) -> Body {
    let mut broken: Vec<(LinkType, Range<usize>)> = Vec::new();
    let (events, definitions) = {
        let callback = |link: BrokenLink<'_>| {
            broken.push((link.link_type, link.span));
            None
        };
        let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_HEADING_ATTRIBUTES;
        let parser = Parser::new_with_broken_link_callback(slice.text, options, Some(callback));
        let definitions: BTreeMap<String, Range<usize>> =
            parser.reference_definitions().iter().map(|(label, at)| (label.to_lowercase(), at.span.clone())).collect();
        (parser.into_offset_iter().collect::<Vec<_>>(), definitions)
    };
    links::report_broken(slice, broken, report);
    let mut builder = Builder {
        slice,
        report,
        definitions,
        body: Body::default(),
        stack: Vec::new(),
        depth: 0,
        flattened: 0,
        said_deep: false,
        step_ids: BTreeMap::new(),
        footnotes: BTreeMap::new(),
    };
    for (event, span) in events {
        builder.take(event, span);
    }
    builder.body
}

struct Builder<'a, 'r> {
    slice: &'a Slice<'a>,
    report: &'r mut Report,
    /// Where the addresses of reference links are defined, by lower-case label.
    definitions: BTreeMap<String, Range<usize>>,
    body: Body,
    stack: Vec<Frame>,
    /// Quotes, lists and marks open on the stack.
    depth: usize,
    /// Quotes, lists and marks open beyond the deepest.
    flattened: usize,
    said_deep: bool,
    step_ids: BTreeMap<String, Place>,
    footnotes: BTreeMap<String, Place>,
}

/// What is open and not yet closed.
enum Frame {
    Quote {
        blocks: Vec<Block>,
        start: usize,
        acts_before: usize,
    },
    List {
        first: Option<u64>,
        items: Vec<Vec<Block>>,
    },
    Item {
        blocks: Vec<Block>,
    },
    Footnote {
        name: String,
        blocks: Vec<Block>,
        at: Range<usize>,
    },
    /// `implied`: opened by words that stand directly in a list's item.
    Paragraph {
        inlines: Vec<Inline>,
        implied: bool,
    },
    Heading {
        level: u8,
        inlines: Vec<Inline>,
        braces: bool,
    },
    Code {
        language: String,
        text: String,
    },
    Html,
    Table(Table),
    Row {
        cells: Vec<Vec<Inline>>,
        head: bool,
        end: usize,
    },
    Cell {
        inlines: Vec<Inline>,
    },
    Emphasis {
        inlines: Vec<Inline>,
    },
    Strong {
        inlines: Vec<Inline>,
    },
    Link {
        link: LinkAt,
        inlines: Vec<Inline>,
    },
    Picture {
        picture: PictureText,
    },
}

impl Builder<'_, '_> {
    fn take(&mut self, event: Event<'_>, span: Range<usize>) {
        let end = span.end;
        match event {
            Event::Start(tag) => self.start(tag, span),
            Event::End(tag) => self.end(tag, span),
            Event::Text(text) => self.text(&text, span),
            Event::Code(text) => {
                let place = self.slice.place(span);
                self.inline(Inline::Code(text.into_string(), place));
            }
            Event::Html(_) => {}
            Event::InlineHtml(text) => {
                if !text.starts_with("</") {
                    self.report.add(blocks::html(self.slice, span.clone()));
                }
                self.text(&text, span);
            }
            Event::FootnoteReference(name) => {
                let place = self.slice.place(span);
                self.inline(Inline::FootnoteMark(name.into_string(), place));
            }
            Event::SoftBreak => self.inline(Inline::SoftBreak),
            Event::HardBreak => self.inline(Inline::HardBreak),
            Event::Rule => {
                self.close_implied();
                self.block(Block::Rule);
            }
            // Never asked for.
            Event::InlineMath(text) | Event::DisplayMath(text) => self.text(&text, span),
            Event::TaskListMarker(_) => {}
        }
        // The words of a link end where the last thing in it ends.
        if let Some(Frame::Link { link, .. }) = self.stack.last_mut()
            && end < link.span.end
        {
            link.words_end = link.words_end.max(end);
        }
    }

    fn start(&mut self, tag: Tag<'_>, span: Range<usize>) {
        match tag {
            Tag::Paragraph => self.open_block(Frame::Paragraph { inlines: Vec::new(), implied: false }),
            Tag::Heading { level, id, classes, attrs } => {
                let braces = id.is_some() || !classes.is_empty() || !attrs.is_empty();
                self.open_block(Frame::Heading { level: level as u8, inlines: Vec::new(), braces });
            }
            Tag::CodeBlock(kind) => {
                let language = match kind {
                    CodeBlockKind::Fenced(language) => language.into_string(),
                    CodeBlockKind::Indented => String::new(),
                };
                self.open_block(Frame::Code { language, text: String::new() });
            }
            Tag::HtmlBlock => self.open_block(Frame::Html),
            Tag::Table(columns) => {
                let align = columns.into_iter().map(align).collect();
                self.open_block(Frame::Table(Table { align, head: Vec::new(), rows: Vec::new() }));
            }
            Tag::TableHead => self.stack.push(Frame::Row { cells: Vec::new(), head: true, end: 0 }),
            Tag::TableRow => self.stack.push(Frame::Row { cells: Vec::new(), head: false, end: 0 }),
            Tag::TableCell => self.stack.push(Frame::Cell { inlines: Vec::new() }),
            Tag::BlockQuote(_) => {
                let acts_before = self.body.steps.last().map_or(0, |step| step.acts.len());
                self.close_implied();
                self.nest(Frame::Quote { blocks: Vec::new(), start: span.start, acts_before }, 1, &span);
            }
            Tag::List(first) => {
                self.close_implied();
                self.nest(Frame::List { first, items: Vec::new() }, 2, &span);
            }
            Tag::Item => {
                self.close_implied();
                self.nest(Frame::Item { blocks: Vec::new() }, 1, &span);
            }
            Tag::FootnoteDefinition(name) => {
                self.close_implied();
                self.nest(Frame::Footnote { name: name.into_string(), blocks: Vec::new(), at: span.clone() }, 1, &span);
            }
            Tag::Emphasis => self.nest_inline(Frame::Emphasis { inlines: Vec::new() }, &span),
            Tag::Strong => self.nest_inline(Frame::Strong { inlines: Vec::new() }, &span),
            Tag::Link { link_type, dest_url, id, .. } => {
                let definition = self.definitions.get(&id.to_lowercase()).cloned();
                let link = LinkAt::new(link_type, dest_url.into_string(), span.clone(), definition);
                self.nest_inline(Frame::Link { link, inlines: Vec::new() }, &span);
            }
            Tag::Image { dest_url, title, .. } => {
                let place = self.slice.place(span.clone());
                let picture = PictureText {
                    path: dest_url.into_string(),
                    alternative: String::new(),
                    caption: title.into_string(),
                    place,
                };
                self.nest_inline(Frame::Picture { picture }, &span);
            }
            // Never asked for; their words are kept.
            Tag::DefinitionList
            | Tag::DefinitionListTitle
            | Tag::DefinitionListDefinition
            | Tag::Strikethrough
            | Tag::Superscript
            | Tag::Subscript
            | Tag::MetadataBlock(_) => {}
        }
    }

    fn end(&mut self, tag: TagEnd, span: Range<usize>) {
        let nested = match tag {
            TagEnd::Paragraph
            | TagEnd::Heading(_)
            | TagEnd::CodeBlock
            | TagEnd::HtmlBlock
            | TagEnd::Table
            | TagEnd::TableHead
            | TagEnd::TableRow
            | TagEnd::TableCell => false,
            TagEnd::BlockQuote(_) | TagEnd::List(_) | TagEnd::Item | TagEnd::FootnoteDefinition => {
                self.close_implied();
                true
            }
            TagEnd::Emphasis | TagEnd::Strong | TagEnd::Link | TagEnd::Image => true,
            TagEnd::DefinitionList
            | TagEnd::DefinitionListTitle
            | TagEnd::DefinitionListDefinition
            | TagEnd::Strikethrough
            | TagEnd::Superscript
            | TagEnd::Subscript
            | TagEnd::MetadataBlock(_) => return,
        };
        if nested && self.flattened > 0 {
            self.flattened -= 1;
            return;
        }
        if nested {
            self.depth = self.depth.saturating_sub(1);
        }
        if let Some(frame) = self.stack.pop() {
            self.close(frame, span);
        }
    }

    fn close(&mut self, frame: Frame, span: Range<usize>) {
        match frame {
            Frame::Paragraph { mut inlines, .. } => {
                inlines.shrink_to_fit();
                links::report_left_in_text(self.slice, &inlines, self.report);
                self.block(Block::Paragraph(inlines));
            }
            Frame::Heading { level, inlines, braces } => self.heading(level, inlines, braces, span),
            Frame::Code { language, text } => self.block(Block::Code(language, text)),
            Frame::Html => self.html_block(span),
            Frame::Table(table) => self.block(Block::Table(table)),
            Frame::Row { cells, head, end } => self.row(cells, head, end, span),
            Frame::Cell { inlines } => {
                links::report_left_in_text(self.slice, &inlines, self.report);
                if let Some(Frame::Row { cells, end, .. }) = self.stack.last_mut() {
                    cells.push(inlines);
                    *end = (*end).max(span.end);
                }
            }
            Frame::Quote { blocks, start, acts_before } => self.quote(blocks, start..span.end, acts_before),
            Frame::List { first, items } => self.block(Block::List(first, items)),
            Frame::Item { blocks } => {
                if let Some(Frame::List { items, .. }) = self.stack.last_mut() {
                    items.push(blocks);
                }
            }
            Frame::Footnote { name, blocks, at } => self.footnote(name, blocks, at),
            Frame::Emphasis { inlines } => self.inline(Inline::Emphasis(inlines)),
            Frame::Strong { inlines } => self.inline(Inline::Strong(inlines)),
            Frame::Link { link, inlines } => self.link(link, inlines),
            Frame::Picture { picture } => self.inline(Inline::Picture(picture)),
        }
    }

    /// Opens a quote, list or item, unless it would be too deep: then its content joins what is around it.
    fn nest(&mut self, frame: Frame, levels: usize, span: &Range<usize>) {
        if self.flattened == 0 && self.depth + levels <= DEEPEST {
            self.depth += 1;
            self.stack.push(frame);
            return;
        }
        self.flattened += 1;
        if !self.said_deep {
            self.said_deep = true;
            let at = self.slice.place(self.slice.character_at(span.start));
            self.report.add(
                Finding::new(
                    &NESTING_TOO_DEEP,
                    at,
                    format!("quotes, lists and marks are nested more than {DEEPEST} deep"),
                )
                .label("from here on they are passed over")
                .fix("write shorter lists, side by side"),
            );
        }
    }

    fn nest_inline(&mut self, frame: Frame, span: &Range<usize>) {
        self.ensure_inline();
        self.nest(frame, 1, span);
    }

    fn open_block(&mut self, frame: Frame) {
        self.close_implied();
        self.stack.push(frame);
    }

    /// Closes the paragraph that words directly in an item have opened.
    fn close_implied(&mut self) {
        if let Some(Frame::Paragraph { implied: true, .. }) = self.stack.last()
            && let Some(frame) = self.stack.pop()
        {
            self.close(frame, 0..0);
        }
    }

    /// Makes sure that running text can be taken in.
    fn ensure_inline(&mut self) {
        let implied = match self.stack.last() {
            None | Some(Frame::Quote { .. } | Frame::Item { .. } | Frame::Footnote { .. } | Frame::List { .. }) => true,
            Some(_) => false,
        };
        if implied {
            self.stack.push(Frame::Paragraph { inlines: Vec::new(), implied: true });
        }
    }

    fn text(&mut self, text: &str, span: Range<usize>) {
        if let Some(Frame::Code { text: code, .. }) = self.stack.last_mut() {
            code.push_str(text);
            return;
        }
        let place = self.slice.place(span);
        self.inline(Inline::Text(text.to_owned(), place));
    }

    /// Takes a piece of running text in; neighbouring words become one.
    fn inline(&mut self, inline: Inline) {
        self.ensure_inline();
        match self.stack.last_mut() {
            Some(
                Frame::Paragraph { inlines, .. }
                | Frame::Heading { inlines, .. }
                | Frame::Cell { inlines }
                | Frame::Emphasis { inlines }
                | Frame::Strong { inlines }
                | Frame::Link { inlines, .. },
            ) => join(inlines, inline),
            Some(Frame::Picture { picture }) => picture.alternative.push_str(&plain_text(&[inline])),
            _ => {}
        }
    }

    /// Takes a finished block in where it belongs.
    fn block(&mut self, block: Block) {
        let around = self.stack.iter_mut().rev().find_map(|frame| match frame {
            Frame::Quote { blocks, .. } | Frame::Item { blocks } | Frame::Footnote { blocks, .. } => Some(blocks),
            _ => None,
        });
        let list = around.unwrap_or_else(|| match self.body.steps.last_mut() {
            Some(step) => &mut step.blocks,
            None => &mut self.body.introduction,
        });
        list.push(block);
    }

    fn link(&mut self, link: LinkAt, mut inlines: Vec<Inline>) {
        inlines.shrink_to_fit();
        let outside = self.where_no_act_belongs();
        let acts = match self.body.steps.last_mut() {
            Some(step) if outside.is_none() => Some((&mut step.acts, step.blocks.len())),
            _ => None,
        };
        let outside = outside.unwrap_or("the introduction");
        for inline in links::close(self.slice, link, inlines, acts, outside, self.report) {
            self.inline(inline);
        }
    }

    /// The name of what stands around, where that holds no acts.
    fn where_no_act_belongs(&self) -> Option<&'static str> {
        self.stack.iter().find_map(|frame| match frame {
            Frame::Heading { .. } => Some("a heading"),
            Frame::Footnote { .. } => Some("a footnote"),
            Frame::Picture { .. } => Some("a picture's words"),
            _ => None,
        })
    }
}

/// Adds a piece of running text; words join the words before them.
fn join(inlines: &mut Vec<Inline>, inline: Inline) {
    if let Inline::Text(more, at) = &inline
        && let Some(Inline::Text(words, place)) = inlines.last_mut()
    {
        words.push_str(more);
        place.end = at.end.max(place.end);
        return;
    }
    inlines.push(inline);
}

fn align(alignment: Alignment) -> Align {
    match alignment {
        Alignment::None | Alignment::Left => Align::Start,
        Alignment::Center => Align::Centre,
        Alignment::Right => Align::End,
    }
}

#[cfg(test)]
mod tests;
